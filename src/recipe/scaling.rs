//! A recipe of another size.

use super::{Evaporation, Line, Quantity, QuantityError, Recipe};

impl Recipe {
    /// The same recipe, so many times as large.
    ///
    /// All amounts are multiplied; a locked line moves with the others, because scaling keeps the recipe. So are water that was
    /// weighed off and an own amount of seed; what is estimated or cooked follows the mass by itself. The bowl, temperatures and
    /// the number of pieces stay.
    ///
    /// # Errors
    ///
    /// [`QuantityError`] when an amount would be none: with a factor that is negative or no number, or beyond 1,000 tonnes.
    ///
    /// ```
    /// # use nibwright::{ingredient::Library, recipe::{Quantity, Recipe}};
    /// let mut recipe = Recipe::default();
    /// recipe.push(Library::built_in().by_id("cream-35").unwrap().clone(), Quantity::from_grams(200.0).unwrap());
    /// assert_eq!(recipe.scaled_by(2.5).unwrap().weighed().0, 500.0);
    /// ```
    pub fn scaled_by(&self, factor: f64) -> Result<Self, QuantityError> {
        let scaled = |amount: Quantity| Quantity::new(amount.value() * factor, amount.unit());
        let line = |line: &Line| Ok(Line { amount: scaled(line.amount)?, ..line.clone() });
        let mut larger = self.clone();
        larger.lines = self.lines.iter().map(line).collect::<Result<_, QuantityError>>()?;
        larger.losses.evaporation = match self.losses.evaporation {
            Evaporation::Weighed(amount) => Evaporation::Weighed(scaled(amount)?),
            way @ (Evaporation::Estimated(_) | Evaporation::CookedTo { .. }) => way,
        };
        larger.seeding.amount = self.seeding.amount.map(scaled).transpose()?;
        Ok(larger)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use proptest::prelude::*;

    use super::*;
    use crate::ingredient::Ingredient;
    use crate::recipe::{Heating, MassUnit};

    fn recipe(grams: &[f64], unit: MassUnit) -> Recipe {
        let mut recipe = Recipe::default();
        for &grams in grams {
            let amount = Quantity::new(grams, unit).expect("an amount");
            recipe.push(Arc::new(Ingredient::unknown("a", "a")), amount);
        }
        recipe
    }

    #[test]
    fn water_that_was_weighed_and_an_own_amount_of_seed_scale_along() {
        let mut small = recipe(&[100.0, 50.0], MassUnit::Kilogram);
        small.lines[0].is_locked = true;
        small.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(6.0).expect("an amount"));
        small.seeding.amount = Some(Quantity::new(1.0, MassUnit::Ounce).expect("an amount"));
        let large = small.scaled_by(3.0).expect("it can be scaled");
        assert_eq!((large.lines[0].amount.value(), large.lines[0].amount.unit()), (300.0, MassUnit::Kilogram));
        assert_eq!(large.losses.evaporation, Evaporation::Weighed(Quantity::from_grams(18.0).expect("an amount")));
        assert_eq!(large.seeding.amount.map(Quantity::value), Some(3.0));
        small.losses.evaporation = Evaporation::Estimated(Heating::Boiled);
        assert_eq!(small.scaled_by(3.0).expect("it can").losses, small.losses);
    }

    #[test]
    fn what_would_be_no_amount_is_refused() {
        let small = recipe(&[100.0], MassUnit::Gram);
        for factor in [f64::NAN, f64::INFINITY, -1.0, 1e8] {
            assert!(small.scaled_by(factor).is_err(), "{factor}");
        }
    }

    proptest! {
        /// There and back is the same recipe, and on the way all shares are kept.
        #[test]
        fn scaling_up_and_down_is_identity(
            grams in prop::collection::vec(0.1..5000.0, 1..12),
            factor in prop_oneof![0.01..1.0, 1.0..1000.0],
        ) {
            let recipe = recipe(&grams, MassUnit::Ounce);
            let larger = recipe.scaled_by(factor).expect("it can be scaled");
            let back = larger.scaled_by(1.0 / factor).expect("it can be scaled");
            let share = |line: &Line, of: &Recipe| (line.amount.grams() / of.weighed()).0;
            for ((line, larger_line), back_line) in recipe.lines.iter().zip(&larger.lines).zip(&back.lines) {
                prop_assert!((share(line, &recipe) - share(larger_line, &larger)).abs() < 1e-12);
                let (before, after) = (line.amount.grams().0, back_line.amount.grams().0);
                prop_assert!((before - after).abs() < 1e-12 * before, "{before} became {after}");
            }
        }
    }
}
