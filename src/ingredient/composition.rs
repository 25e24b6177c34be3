//! The additive breakdown of a mass: twenty components whose grams add up.
//!
//! A data sheet rarely closes to 100 g; what it leaves open is `unassigned`, shown and never spread over the others.
//! A component that nobody has measured is *unknown*, which is not zero: every sum it takes part in is unknown too.

use thiserror::Error;

use crate::number::{DecimalSign, as_given, fixed};
use crate::units::MassFraction;

macro_rules! components {
    ($($(#[$documentation:meta])* $variant:ident = $key:literal, $words:literal),+ $(,)?) => {
        /// One of the twenty parts that add up to the whole.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Component {
            $($(#[$documentation])* $variant),+
        }

        impl Component {
            /// All components in the order of the table and the report.
            pub const ALL: [Self; Self::COUNT] = [$(Self::$variant),+];

            /// Its name in files and in the JSON report.
            #[must_use]
            pub fn key(self) -> &'static str {
                match self {
                    $(Self::$variant => $key),+
                }
            }

            /// Its name for people.
            #[must_use]
            pub fn words(self) -> &'static str {
                match self {
                    $(Self::$variant => $words),+
                }
            }
        }
    };
}

components! {
    /// Water, water of crystallisation included.
    Water = "water", "water",
    /// All fat of cocoa products.
    CocoaButter = "cocoa_butter", "cocoa butter",
    /// All fat of dairy products.
    MilkFat = "milk_fat", "milk fat",
    /// Every other fat; `OtherFatKind` says how it crystallises.
    OtherFat = "other_fat", "other fat",
    /// Sucrose.
    Sucrose = "sucrose", "sucrose",
    /// Glucose; galactose is carried here.
    Glucose = "glucose", "glucose",
    /// Fructose.
    Fructose = "fructose", "fructose",
    /// Lactose.
    Lactose = "lactose", "lactose",
    /// Maltose; trehalose and isomaltulose are carried here.
    Maltose = "maltose", "maltose",
    /// Digestible saccharides of three units and more.
    HigherSaccharides = "higher_saccharides", "higher saccharides",
    /// Sugar alcohols.
    Polyols = "polyols", "polyols",
    /// Cocoa without fat and water; its own protein, starch and fibre are not repeated elsewhere.
    FatFreeCocoaSolids = "fat_free_cocoa_solids", "fat-free cocoa solids",
    /// Milk protein (nitrogen × 6.38).
    MilkProtein = "milk_protein", "milk protein",
    /// Ash of milk.
    MilkMinerals = "milk_minerals", "milk minerals",
    /// Protein of nuts, egg, cereal, fruit, gelatine.
    OtherProtein = "other_protein", "other protein",
    /// Starch.
    Starch = "starch", "starch",
    /// Dietary fibre.
    Fibre = "fibre", "fibre",
    /// Ethanol.
    Ethanol = "ethanol", "ethanol",
    /// Added sodium chloride.
    Salt = "salt", "salt",
    /// Organic acids, ash, and the rest.
    AcidsAshOther = "acids_ash_other", "acids, ash, other",
}

impl Component {
    /// How many there are.
    pub const COUNT: usize = 20;

    /// The mono- and disaccharides.
    pub const SUGARS: [Self; 5] = [Self::Sucrose, Self::Glucose, Self::Fructose, Self::Lactose, Self::Maltose];

    /// The fats.
    pub const FATS: [Self; 3] = [Self::CocoaButter, Self::MilkFat, Self::OtherFat];

    /// The component with this name in files.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|component| component.key() == key)
    }

    /// Its place in [`Component::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    const fn bit(self) -> u32 {
        1 << self.index()
    }
}

/// What 100 g of an ingredient are made of.
///
/// Invariant: every known part is finite and not negative; with all parts known they and the declared
/// unassigned part sum to 100 g within [`Composition::TOLERANCE_G`].
#[derive(Clone, Debug, PartialEq)]
pub struct Composition {
    grams_per_100g: [f64; Component::COUNT],
    unknown: u32,
    declared_unassigned: f64,
}

/// Why a breakdown is refused.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum CompositionError {
    /// A part is below zero.
    #[error("{} is {} g per 100 g; it cannot be negative", component.key(), as_given(*grams))]
    Negative {
        /// The part.
        component: Component,
        /// Its figure.
        grams: f64,
    },
    /// A part is NaN or infinite.
    #[error("{} is not a finite number", component.key())]
    NotFinite {
        /// The part.
        component: Component,
    },
    /// A part has a figure and is also listed as unknown.
    #[error("{} has a figure and stands in `unknown` too; keep one of them", component.key())]
    KnownAndUnknown {
        /// The part.
        component: Component,
    },
    /// The declared unassigned part is not a share of 100 g.
    #[error("unassigned is {} g per 100 g; it must lie between 0 and 100", as_given(*grams))]
    Unassigned {
        /// Its figure.
        grams: f64,
    },
    /// All parts are known and they do not add up to 100 g.
    #[error(
        "the parts sum to {} g per 100 g, not 100 ± {}; correct them, name what is not known in `unknown`, or state what the data sheet leaves open as `unassigned`",
        hundredths(*sum),
        Composition::TOLERANCE_G
    )]
    Sum {
        /// The sum of parts and unassigned.
        sum: f64,
    },
    /// The known parts alone are more than 100 g.
    #[error("the known parts already sum to {} g per 100 g; correct them", hundredths(*sum))]
    KnownSum {
        /// The sum of the known parts.
        sum: f64,
    },
}

impl Composition {
    /// By how much the sum may miss 100 g: data sheets round their figures.
    pub const TOLERANCE_G: f64 = 0.2;

    /// Slack against binary noise when sums are compared with the tolerance.
    const NOISE_G: f64 = 1e-9;

    /// A breakdown from grams per 100 g, parts that are not known, and the part that the data sheet leaves open.
    ///
    /// A component that is neither given nor unknown is zero; of one that is given twice the last figure counts.
    ///
    /// # Errors
    ///
    /// [`CompositionError`] when a figure is no amount or the sum does not close.
    pub fn new(
        parts: impl IntoIterator<Item = (Component, f64)>,
        unknown: impl IntoIterator<Item = Component>,
        declared_unassigned: f64,
    ) -> Result<Self, CompositionError> {
        let mut composition = Self { grams_per_100g: [0.0; Component::COUNT], unknown: 0, declared_unassigned };
        for component in unknown {
            composition.unknown |= component.bit();
        }
        for (component, grams) in parts {
            if !grams.is_finite() {
                return Err(CompositionError::NotFinite { component });
            }
            if grams < 0.0 {
                return Err(CompositionError::Negative { component, grams });
            }
            if grams > 0.0 && composition.unknown & component.bit() != 0 {
                return Err(CompositionError::KnownAndUnknown { component });
            }
            composition.grams_per_100g[component.index()] = grams;
        }
        if !(0.0..=100.0).contains(&declared_unassigned) {
            return Err(CompositionError::Unassigned { grams: declared_unassigned });
        }
        let sum = composition.known_sum() + declared_unassigned;
        if sum > 100.0 + Self::TOLERANCE_G + Self::NOISE_G && composition.unknown != 0 {
            return Err(CompositionError::KnownSum { sum });
        }
        if (sum - 100.0).abs() > Self::TOLERANCE_G + Self::NOISE_G && composition.unknown == 0 {
            return Err(CompositionError::Sum { sum });
        }
        Ok(composition)
    }

    /// A breakdown of which nothing is known.
    #[must_use]
    pub fn unknown() -> Self {
        Self {
            grams_per_100g: [0.0; Component::COUNT],
            unknown: Component::ALL.into_iter().fold(0, |set, component| set | component.bit()),
            declared_unassigned: 0.0,
        }
    }

    /// The share of a component; `None` if it is unknown.
    #[must_use]
    pub fn share(&self, component: Component) -> Option<MassFraction> {
        self.is_known(component).then(|| MassFraction::from_percent(self.grams_per_100g[component.index()]))
    }

    /// Whether the share of a component is known.
    #[must_use]
    pub fn is_known(&self, component: Component) -> bool {
        self.unknown & component.bit() == 0
    }

    /// The components that are not known, in order.
    pub fn unknown_components(&self) -> impl Iterator<Item = Component> + '_ {
        Component::ALL.into_iter().filter(|&component| !self.is_known(component))
    }

    /// The grams per 100 g of the known components, in order, as they were given.
    ///
    /// An unknown component stands there as zero: ask [`Composition::is_known`].
    #[must_use]
    pub fn grams_per_100g(&self) -> &[f64; Component::COUNT] {
        &self.grams_per_100g
    }

    /// The part that the data sheet declares as open, g per 100 g.
    #[must_use]
    pub fn declared_unassigned(&self) -> f64 {
        self.declared_unassigned
    }

    fn known_sum(&self) -> f64 {
        self.grams_per_100g.iter().sum()
    }
}

/// A sum with the decimals of a data sheet; one that is far from 100 need not be as long as it is large.
fn hundredths(sum: f64) -> String {
    /// A hundred times what can be right.
    const FAR: f64 = 10_000.0;
    if sum < FAR { fixed(sum, 2, DecimalSign::Point) } else { as_given(sum) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cream() -> Vec<(Component, f64)> {
        vec![(Component::Water, 60.0), (Component::MilkFat, 35.0), (Component::Lactose, 5.0)]
    }

    #[test]
    fn a_breakdown_that_closes_is_taken() {
        let composition = Composition::new(cream(), [], 0.0).expect("it sums to 100");
        assert_eq!(composition.share(Component::MilkFat), Some(MassFraction(0.35)));
        assert_eq!(composition.share(Component::Salt), Some(MassFraction::ZERO));
    }

    #[test]
    fn the_tolerance_is_two_tenths_of_a_gram_both_ways() {
        for (extra, closes) in [(0.2, true), (0.21, false), (-0.2, true), (-0.21, false)] {
            let mut parts = cream();
            parts[0].1 += extra;
            assert_eq!(Composition::new(parts, [], 0.0).is_ok(), closes, "{extra} g off");
        }
    }

    #[test]
    fn what_is_unknown_is_not_zero() {
        let composition = Composition::new(cream(), [Component::Salt], 0.0).expect("salt is open");
        assert_eq!(composition.share(Component::Salt), None);
    }

    #[test]
    fn a_declared_open_part_closes_the_sum() {
        let parts = [(Component::Water, 60.0), (Component::MilkFat, 35.0)];
        assert_eq!(Composition::new(parts, [], 0.0), Err(CompositionError::Sum { sum: 95.0 }));
        assert!(Composition::new(parts, [], 5.0).is_ok());
    }

    #[test]
    fn figures_that_are_no_amounts_are_refused() {
        let refused = |grams: f64| Composition::new([(Component::Water, grams)], [], 0.0);
        assert!(matches!(refused(f64::NAN), Err(CompositionError::NotFinite { .. })));
        assert!(matches!(refused(f64::INFINITY), Err(CompositionError::NotFinite { .. })));
        assert!(matches!(refused(-1.0), Err(CompositionError::Negative { .. })));
        assert!(matches!(Composition::new([], [], f64::NAN), Err(CompositionError::Unassigned { .. })));
        let twice = Composition::new([(Component::Water, 100.0)], [Component::Water], 0.0);
        assert!(matches!(twice, Err(CompositionError::KnownAndUnknown { .. })));
    }

    #[test]
    fn keys_lead_back_to_their_component() {
        for component in Component::ALL {
            assert_eq!(Component::from_key(component.key()), Some(component));
        }
    }
}
