//! The density of a mass: typed, or from what it is made of.
//!
//! A weighed volume is always better than a computed one: fill a cup of known volume and weigh it. Air that is whipped or
//! stirred in is not computed and makes a mass lighter.
//!
//! What counts as what is that of `analysis::heat::Contents`: cocoa butter, milk fat and other fat as melted fat; the sugars and
//! polyols as carbohydrate where the mass holds 2 % water and more, else as crystals; lactose, higher saccharides and starch as
//! carbohydrate; fibre as fibre; milk protein and other protein as protein; milk minerals, salt, acids and the rest as ash;
//! fat-free cocoa as a substance of its own, of protein, carbohydrate, fibre and ash; ethanol, which the formulas of the foods
//! do not know, with the density of pure ethanol. What data sheets leave open counts as carbohydrate.

use crate::analysis::ROOM;
use crate::analysis::heat::{Contents, HeatError, Substance, SugarState};
use crate::analysis::parts::Parts;
use crate::ingredient::Component;
use crate::units::{Celsius, GramsPerMillilitre, MassFraction};

/// How much denser set cocoa butter is than melted one (from memory): 5 to 8 %.
pub const SET_COCOA_BUTTER: (MassFraction, MassFraction) = (MassFraction(0.05), MassFraction(0.08));

/// At which temperature a density is computed.
pub const AT: Celsius = ROOM;

/// A density with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Density {
    /// The density.
    pub value: GramsPerMillilitre,
    /// Where it comes from.
    pub from: DensityFrom,
}

/// Where a density comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DensityFrom {
    /// Weighed or known, and typed.
    Typed,
    /// Computed from what the mass is made of, with its fat melted.
    MakeUp {
        /// The density once its cocoa butter has set: the lower and the upper end.
        set: (GramsPerMillilitre, GramsPerMillilitre),
    },
}

/// The density of a mass from its composition, without air, its fat melted, at 20 °C.
///
/// 1/ρ = Σ w/ρ_i: volumes add.
///
/// w shares by mass, ρ_i of the substances at 20 °C: water 0.99574, protein 1.31953, fat 0.91724, carbohydrate 1.59289, fibre
/// 1.30418, ash 2.41819 g/ml.
/// Source: `choi-okos-1986`; crystals of sugar, fat-free cocoa and ethanol as in `analysis::heat`. Range: 0 to about 110 °C,
/// ±2 %. The formula of fat is that of melted fat; set cocoa butter is 5 to 8 % denser, and [`DensityFrom::MakeUp`] says what
/// becomes of the mass when all of its cocoa butter has set.
///
/// # Errors
///
/// [`HeatError::Unknown`] names the first part that is not known; [`HeatError::Empty`] where there is no mass.
///
/// Worked example, by hand: water 19, fat 36, carbohydrate 38.5, protein 3.5, fibre 2 and ash 1 % have 1.14812 g/ml.
///
/// ```
/// # use nibwright::analysis::parts::Parts;
/// # use nibwright::ingredient::{Component::*, Composition, Ingredient};
/// # use nibwright::production::density::density_of;
/// # use nibwright::units::Grams;
/// let parts = [(Water, 19.0), (OtherFat, 36.0), (Starch, 38.5), (OtherProtein, 3.5), (Fibre, 2.0), (AcidsAshOther, 1.0)];
/// let composition = Composition::new(parts, [], 0.0).unwrap();
/// let mut mass = Parts::default();
/// mass.add(&Ingredient { composition, ..Ingredient::unknown("mass", "mass") }, Grams(500.0));
/// assert!((density_of(&mass)?.value.0 - 1.148_12).abs() < 5e-6);
/// # Ok::<(), nibwright::analysis::heat::HeatError>(())
/// ```
pub fn density_of(mass: &Parts) -> Result<Density, HeatError> {
    // Where the water is not known, `from_parts` says so.
    let sugar = SugarState::usual(mass).unwrap_or(SugarState::Dissolved);
    let value = Contents::from_parts(mass, sugar)?.density(AT);
    let cocoa_butter =
        mass.share(Component::CocoaButter).ok_or(HeatError::Unknown { component: Component::CocoaButter })?;
    let fat_volume = cocoa_butter.0 / Substance::CocoaButter.density(AT).0;
    let set = |denser: MassFraction| {
        let shrinks = fat_volume * (1.0 - 1.0 / (1.0 + denser.0));
        GramsPerMillilitre(1.0 / (1.0 / value.0 - shrinks))
    };
    let set = (set(SET_COCOA_BUTTER.0), set(SET_COCOA_BUTTER.1));
    Ok(Density { value, from: DensityFrom::MakeUp { set } })
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;
    use crate::ingredient::{Composition, Ingredient, Library, Properties};
    use crate::units::{Grams, Millilitres};

    fn built_in(id: &str) -> Parts {
        let mut parts = Parts::default();
        parts.add(Library::built_in().by_id(id).expect("it is built in"), Grams(1000.0));
        parts
    }

    /// OIML R 22: a spirit of 40 % vol has 948.05 kg/m³, less than volumes that add would give (0.92 g/ml), because water and
    /// ethanol contract. The model is off by that: 3 %.
    #[test]
    fn ethanol_counts_with_its_own_density() {
        let rum = density_of(&built_in("rum-40")).expect("all of it is known").value;
        assert_relative_eq!(rum.0, 0.948, max_relative = 0.04);
        assert!(rum.0 < 0.948);
    }

    /// Melted dark chocolate: 1.2 g/ml at 40 °C (`beckett-2009`), within the 2 % of the model and the warmth.
    #[test]
    fn chocolate_sets_denser_than_it_is_cast() {
        let density = density_of(&built_in("couverture-dark-64")).expect("all of it is known");
        assert_relative_eq!(density.value.0, 1.22, max_relative = 0.02);
        let DensityFrom::MakeUp { set: (low, high) } = density.from else { panic!("it is computed") };
        assert!(density.value < low && low < high, "{density:?}");
        assert_relative_eq!(high.0, 1.27, max_relative = 0.03);
    }

    #[test]
    fn what_is_not_known_leaves_the_density_open() {
        let composition = Composition::new([(Component::Water, 60.0)], [Component::Fibre], 0.0).expect("a composition");
        let mut mass = Parts::default();
        mass.add(&Ingredient { composition, ..Ingredient::unknown("a", "a") }, Grams(100.0));
        assert_eq!(density_of(&mass), Err(HeatError::Unknown { component: Component::Fibre }));
        assert_eq!(density_of(&Parts::default()), Err(HeatError::Empty));
    }

    /// Worked example, to its digits: 50 ml of a spirit of 40 % by volume are 15.7848 g of ethanol in 47.4025 g, 33.2995 % by
    /// mass. Densities at 20 °C: spirit 0.94805, ethanol 0.78924 g/ml (`oiml-r22`).
    #[test]
    fn a_spirit_of_exact_density() {
        let density = GramsPerMillilitre(0.948_05);
        let ethanol = Millilitres(0.40 * 100.0) * GramsPerMillilitre(0.789_24);
        let per_100g = ethanol.0 / (Millilitres(100.0) * density).0 * 100.0;
        let parts = [(Component::Ethanol, per_100g), (Component::Water, 100.0 - per_100g)];
        let composition = Composition::new(parts, [], 0.0).expect("100 g");
        let properties = Properties { density: Some(density), ..Properties::default() };
        let spirit = Ingredient { composition, properties, ..Ingredient::unknown("spirit", "Spirit, 40 % vol") };
        let weighs = Millilitres(50.0) * spirit.properties.density.expect("a density");
        let mut parts = Parts::default();
        parts.add(&spirit, weighs);
        assert!((parts.total().0 - 47.4025).abs() < 5e-5);
        assert!((parts.grams(Component::Ethanol).expect("known").0 - 15.7848).abs() < 5e-5);
        let share = parts.share(Component::Ethanol).expect("known");
        assert!((share.to_percent() - 33.2995).abs() < 5e-5, "{share:?}");
    }
}
