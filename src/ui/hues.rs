//! Which parts of a mass each colour stands for.

use super::theme::Hue;
use crate::analysis::parts::{Group, Parts};
use crate::ingredient::Component;

impl Hue {
    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::CocoaButter => "cocoa butter",
            Self::MilkFat => "milk fat",
            Self::OtherFat => "other fat",
            Self::Sugars => "sugars",
            Self::Water => "water",
            Self::CocoaSolids => "cocoa solids",
            Self::OtherSolids => "other solids",
        }
    }

    /// How much of it there is; `None` if a part of it is not known. Ethanol is drawn with the water.
    #[must_use]
    pub fn grams(self, parts: &Parts) -> Option<f64> {
        let group = match self {
            Self::CocoaButter => Group::CocoaButter,
            Self::MilkFat => Group::MilkFat,
            Self::OtherFat => Group::OtherFat,
            Self::Sugars => Group::Sugars,
            Self::Water => {
                let ethanol = parts.grams(Component::Ethanol)?;
                return Some((parts.grams(Component::Water)? + ethanol).0);
            }
            Self::CocoaSolids => Group::FatFreeCocoaSolids,
            Self::OtherSolids => Group::OtherSolids,
        };
        parts.group(group).map(|grams| grams.0)
    }
}
