//! The groups of components that are drawn in a colour of their own: in the window, in files and on paper the same.

use crate::analysis::parts::{Group, Parts};
use crate::ingredient::Component;
use crate::units::Grams;

/// A group of components with a colour of its own.
///
/// Together they are the whole mass. The colours never stand alone: a word or a pattern goes with them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hue {
    /// Fat of cocoa.
    CocoaButter,
    /// Fat of milk.
    MilkFat,
    /// Every other fat.
    OtherFat,
    /// Mono- and disaccharides.
    Sugars,
    /// Water, and the syrup it makes.
    Water,
    /// Cocoa without its fat.
    CocoaSolids,
    /// The rest.
    OtherSolids,
}

impl Hue {
    /// All of them in the order of bars and legends.
    pub const ALL: [Self; 7] = [
        Self::CocoaButter,
        Self::MilkFat,
        Self::OtherFat,
        Self::Sugars,
        Self::Water,
        Self::CocoaSolids,
        Self::OtherSolids,
    ];

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::CocoaButter => "cocoa butter",
            Self::MilkFat => "milk fat",
            Self::OtherFat => "other fat",
            Self::Sugars => "sugars",
            Self::Water => "water",
            Self::CocoaSolids => "fat-free cocoa",
            Self::OtherSolids => "other solids",
        }
    }

    /// How much of it there is; `None` if a part of it is not known. Ethanol is drawn with the water.
    #[must_use]
    pub fn grams(self, parts: &Parts) -> Option<Grams> {
        let group = match self {
            Self::CocoaButter => Group::CocoaButter,
            Self::MilkFat => Group::MilkFat,
            Self::OtherFat => Group::OtherFat,
            Self::Sugars => Group::Sugars,
            Self::Water => return Some(parts.grams(Component::Water)? + parts.grams(Component::Ethanol)?),
            Self::CocoaSolids => Group::FatFreeCocoaSolids,
            Self::OtherSolids => Group::OtherSolids,
        };
        parts.group(group)
    }

    /// The colour of its areas and lines: red, green, blue.
    ///
    /// Source: the colour set of Okabe and Ito (2008) for all kinds of colour vision; the grey is ours.
    #[must_use]
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::CocoaButter => [0xE6, 0x9F, 0x00],
            Self::MilkFat => [0xF0, 0xE4, 0x42],
            Self::OtherFat => [0xCC, 0x79, 0xA7],
            Self::Sugars => [0x56, 0xB4, 0xE9],
            Self::Water => [0x00, 0x72, 0xB2],
            Self::CocoaSolids => [0xD5, 0x5E, 0x00],
            Self::OtherSolids => [0x8F, 0x8A, 0x82],
        }
    }

    /// The colour of text on it: white on the blue of water, near-black elsewhere.
    #[must_use]
    pub const fn text_rgb(self) -> [u8; 3] {
        match self {
            Self::Water => [0xFF, 0xFF, 0xFF],
            _ => [0x1A, 0x1A, 0x1A],
        }
    }
}
