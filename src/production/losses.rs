//! What is lost on the way, and what has to be made so that enough is left.
//!
//! A loss of mass at constant composition (weighing, bowls and bags, cutting) and an evaporation of water are kept apart:
//! only the second one changes what the mass is made of. Here they are only arithmetic; how much water a recipe loses is
//! `analysis::cooking`'s business.

use crate::recipe::TransferLoss;
use crate::units::{Grams, MassFraction};

/// What a chain of losses leaves of a mass.
///
/// y = Π (1 − loss): losses multiply, they do not add.
///
/// Source: balance of mass, step by step. Every loss is from 0 to below 1, so something is always left; none leaves all.
/// Worked example, by hand: 0.5 % in weighing, 6 % in cooking, 2 % in transfer and 8 % in cutting leave
/// 0.995·0.94·0.98·0.92 = 84.326648 %.
///
/// ```
/// # use nibwright::production::losses::chain_yield;
/// # use nibwright::recipe::TransferLoss;
/// let losses = [0.5, 6.0, 2.0, 8.0].map(|percent| TransferLoss::from_percent(percent).unwrap());
/// assert!((chain_yield(losses).to_percent() - 84.326_648).abs() < 1e-9);
/// ```
#[must_use]
pub fn chain_yield(losses: impl IntoIterator<Item = TransferLoss>) -> MassFraction {
    MassFraction(losses.into_iter().map(|loss| 1.0 - loss.share().0).product())
}

/// What has to be made so that so much is left behind a chain of losses: output/Π (1 − loss).
///
/// Source: balance of mass. Worked example, by hand: 5000 g behind the losses above take 5929.32 g (adding the losses up to
/// 16.5 % would give 5988.02 g, which is wrong).
///
/// ```
/// # use nibwright::production::losses::input_for;
/// # use nibwright::recipe::TransferLoss;
/// # use nibwright::units::Grams;
/// let losses = [0.5, 6.0, 2.0, 8.0].map(|percent| TransferLoss::from_percent(percent).unwrap());
/// assert!((input_for(Grams(5000.0), losses).0 - 5929.32).abs() < 0.005);
/// ```
#[must_use]
pub fn input_for(output: Grams, losses: impl IntoIterator<Item = TransferLoss>) -> Grams {
    Grams(output.0 / chain_yield(losses).0)
}

/// A mass that was cooked down to a content of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CookedDown {
    /// What is left.
    pub left: Grams,
    /// The water that is gone.
    pub evaporates: Grams,
}

/// What is left of a mass that is cooked until it holds so little water, and nothing but water leaves it.
///
/// m_out = m_in·(1 − w_in)/(1 − w_out): the dry matter stays.
///
/// Source: balance of the dry matter. `None` where the mass already holds less water, where a content is no share, and where
/// nothing but water would be left.
/// Worked example, by hand: 1500 g with 24 % water come to 1252.747 g with 9 %; 247.253 g evaporate.
///
/// ```
/// # use nibwright::production::losses::cooked_down;
/// # use nibwright::units::{Grams, MassFraction};
/// let cooked = cooked_down(Grams(1500.0), MassFraction(0.24), MassFraction(0.09)).unwrap();
/// assert!((cooked.left.0 - 1252.747).abs() < 5e-4 && (cooked.evaporates.0 - 247.253).abs() < 5e-4);
/// ```
#[must_use]
pub fn cooked_down(mass: Grams, water_before: MassFraction, water_after: MassFraction) -> Option<CookedDown> {
    let is_possible = (0.0..1.0).contains(&water_after.0) && (water_after.0..=1.0).contains(&water_before.0);
    let left = mass * ((1.0 - water_before.0) / (1.0 - water_after.0));
    is_possible.then(|| CookedDown { left, evaporates: mass - left })
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;

    fn loss(percent: f64) -> TransferLoss {
        TransferLoss::from_percent(percent).expect("a loss")
    }

    #[test]
    fn no_loss_leaves_all_and_the_order_does_not_matter() {
        assert_eq!(chain_yield([]), MassFraction(1.0));
        assert_relative_eq!(chain_yield([loss(3.0), loss(8.0)]).0, chain_yield([loss(8.0), loss(3.0)]).0);
    }

    /// Worked example, by hand: 247.253 g are 16.4835 % of what was weighed in.
    #[test]
    fn cooking_down_loses_a_share_of_what_was_weighed_in() {
        let cooked = cooked_down(Grams(1500.0), MassFraction(0.24), MassFraction(0.09)).expect("it is drier");
        assert_relative_eq!((cooked.evaporates / Grams(1500.0)).to_percent(), 16.4835, max_relative = 5e-6);
    }

    #[test]
    fn what_is_drier_already_is_not_cooked_to_more_water() {
        let cooked = |before, after| cooked_down(Grams(1000.0), MassFraction(before), MassFraction(after));
        assert_eq!(cooked(0.09, 0.24), None);
        assert_eq!(cooked(0.5, 1.0), None);
        assert_eq!(cooked(1.5, 0.1), None);
        assert_eq!(cooked(f64::NAN, 0.1), None);
        assert_eq!(cooked(0.2, 0.2).map(|cooked| cooked.evaporates), Some(Grams(0.0)));
        // Of water alone nothing is left.
        assert_eq!(cooked(1.0, 0.1).map(|cooked| cooked.left), Some(Grams(0.0)));
    }

    proptest! {
        /// What is made less all losses is what was asked for.
        #[test]
        fn losses_taken_off_again_leave_the_output(
            output in 1.0..1e6,
            percents in prop::collection::vec(0.0..60.0, 0..6),
        ) {
            let made = input_for(Grams(output), percents.iter().map(|&percent| loss(percent)));
            let left = percents.iter().fold(made, |mass, percent| mass * (1.0 - percent / 100.0));
            prop_assert!((left.0 - output).abs() < 1e-9 * output);
        }

        /// Dry matter is conserved.
        #[test]
        fn cooking_down_keeps_the_dry_matter(mass in 1.0..1e5, before in 0.2..0.9, share in 0.0..1.0) {
            let after = before * share;
            let cooked = cooked_down(Grams(mass), MassFraction(before), MassFraction(after)).expect("it is drier");
            prop_assert!((cooked.left.0 * (1.0 - after) - mass * (1.0 - before)).abs() < 1e-9 * mass);
            prop_assert!((cooked.left.0 + cooked.evaporates.0 - mass).abs() < 1e-9 * mass);
        }
    }
}
