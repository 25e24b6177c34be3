//! Ingredients: what they are made of, where their figures come from, and how they are found.
//!
//! * [`Component`] and [`Composition`]: the additive breakdown of 100 g, with unknown parts kept unknown.
//! * [`Ingredient`]: a composition with its name, source, evidence and the properties that do not add up.
//! * [`Library`]: the ingredients that come with the program, and the search over them.
//! * [`mod@file`]: the form in which an ingredient stands in `assets/` and in a recipe file.
//!
//! This module reads no files: the built-in library is part of the program, everything else arrives as text.

pub mod composition;
pub mod file;
pub mod library;
pub mod named;
pub mod search;

use std::fmt;

pub use composition::{Component, Composition, CompositionError};
pub use library::Library;

use crate::source::Evidence;
use crate::units::GramsPerMillilitre;

/// Something that is weighed into a recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Ingredient {
    /// Short name for files: lower-case words with hyphens.
    pub id: String,
    /// Full name for people.
    pub name: String,
    /// The group it is listed under.
    pub category: Category,
    /// What 100 g of it are made of.
    pub composition: Composition,
    /// Whether its fat comes in globules that have to break before it mixes with other fat (cream, milk, egg).
    pub fat_in_globules: bool,
    /// How its fat that is neither cocoa butter nor milk fat crystallises.
    pub other_fat_kind: OtherFatKind,
    /// Whether that kind is a guess.
    pub other_fat_kind_is_estimate: bool,
    /// Figures that do not take part in the sum.
    pub properties: Properties,
    /// Where the composition comes from, in words.
    pub source: String,
    /// Its number or row there; empty if it has none.
    pub source_id: String,
    /// How well it is founded.
    pub evidence: Evidence,
    /// What a user should know before relying on it.
    pub note: String,
}

/// Figures of an ingredient that do not take part in the sum; `None` is unknown.
///
/// Density and pH are typical handbook values in every built-in ingredient, whatever its composition rests on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Properties {
    /// Saturated fatty acids, g per 100 g; part of the fat.
    pub saturates_g: Option<f64>,
    /// Energy for labelling, kJ per 100 g.
    pub energy_kj: Option<f64>,
    /// Organic acids, g per 100 g; part of acids and ash.
    pub organic_acids_g: Option<f64>,
    /// Total sodium, mg per 100 g.
    pub sodium_mg: Option<f64>,
    /// Which polyol the polyols are.
    pub polyol_kind: Option<PolyolKind>,
    /// Which sugar the maltose is.
    pub maltose_kind: MaltoseKind,
    /// Number-average molar mass of the higher saccharides, g/mol.
    pub higher_saccharides_molar_mass: Option<f64>,
    /// Density of the liquid at 20 °C; of fats when melted, at about 40 °C.
    pub density: Option<GramsPerMillilitre>,
    /// Allergens in the wording of Regulation (EU) 1169/2011, Annex II; an empty list says there are none.
    pub allergens: Option<Vec<String>>,
    /// Whether nothing in it comes from an animal.
    pub vegan: Option<bool>,
    /// Acidity.
    pub ph: Option<f64>,
    /// Dextrose equivalent of a starch syrup.
    pub dextrose_equivalent: Option<f64>,
}

/// Writes an enum together with the list of all its kinds, which therefore cannot lack one.
macro_rules! listed {
    ($(#[$documentation:meta])* $name:ident { $($(#[$of_variant:meta])* $variant:ident),+ $(,)? }) => {
        $(#[$documentation])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum $name {
            $($(#[$of_variant])* $variant),+
        }

        impl $name {
            /// All kinds in a fixed order: each stands at the place that it has as a number.
            pub const ALL: [Self; [$(Self::$variant),+].len()] = [$(Self::$variant),+];
        }
    };
}

listed! {
    /// How a fat that is neither cocoa butter nor milk fat crystallises (fat model, components of the fats).
    #[derive(Default)]
    OtherFatKind {
        /// Nut, seed and most other oils: liquid at every temperature of the trade.
        #[default]
        LiquidOil,
        /// Coconut fat.
        Coconut,
        /// Palm kernel fat.
        PalmKernel,
        /// Palm fat; also stands in for palm-free filling fats and biscuit fat.
        Palm,
    }
}

impl OtherFatKind {
    /// The words for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::LiquidOil => "liquid oil",
            Self::Coconut => "coconut fat",
            Self::PalmKernel => "palm kernel fat",
            Self::Palm => "palm fat",
        }
    }
}

listed! {
    /// Which sugar of the molar mass of maltose is counted as maltose.
    #[derive(Default)]
    MaltoseKind {
        /// Maltose itself.
        #[default]
        Maltose,
        /// Trehalose.
        Trehalose,
        /// Isomaltulose.
        Isomaltulose,
    }
}

listed! {
    /// Which sugar alcohol.
    PolyolKind {
        /// Sorbitol.
        Sorbitol,
        /// Maltitol.
        Maltitol,
        /// Isomalt.
        Isomalt,
        /// Glycerol.
        Glycerol,
        /// Lactitol.
        Lactitol,
        /// Xylitol.
        Xylitol,
        /// Erythritol.
        Erythritol,
        /// Mannitol.
        Mannitol,
    }
}

macro_rules! categories {
    ($($(#[$documentation:meta])* $variant:ident => $words:literal),+ $(,)?) => {
        /// The group an ingredient is listed under.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Category {
            $($(#[$documentation])* $variant),+
        }

        impl Category {
            /// All groups in their order on the shelf.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
        }

        impl fmt::Display for Category {
            fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str(match self {
                    $(Self::$variant => $words),+
                })
            }
        }
    };
}

categories! {
    /// Dark, milk, white and blond couverture.
    Couverture => "couverture",
    /// Chocolate with nut paste.
    Gianduja => "gianduja",
    /// Cocoa mass, butter, powder, nibs.
    Cocoa => "cocoa",
    /// Milk, cream, butter and what is made of them.
    Dairy => "dairy",
    /// Egg and its parts.
    Egg => "egg",
    /// Sugars and syrups.
    Sugar => "sugar",
    /// Sugar alcohols.
    Polyol => "polyol",
    /// Soluble fibres.
    Fibre => "fibre",
    /// Nuts and seeds.
    Nut => "nut",
    /// Ground nuts, pralines, almond pastes.
    NutPaste => "nut paste",
    /// Oils and fats other than butter and cocoa butter.
    FatOil => "fat",
    /// Purées and juices.
    Fruit => "fruit",
    /// Purées with added sugar.
    FruitSugared => "sugared fruit",
    /// Dried, freeze-dried and candied fruit.
    FruitDried => "dried fruit",
    /// Spirits, liqueurs, wine.
    Spirit => "spirit",
    /// Coffee and tea.
    CoffeeTea => "coffee, tea",
    /// Spices.
    Spice => "spice",
    /// Emulsifiers, acids, gelling agents, salt.
    Additive => "additive",
    /// Biscuit, wafer, flakes.
    Cereal => "cereal",
    /// Water.
    Water => "water",
    /// What a user has added without choosing a group.
    Own => "own",
}

impl Ingredient {
    /// Its name for running text: what stands before the first comma, with a small first letter.
    ///
    /// "Cream, 35 % fat" becomes "cream"; where that could mean two lines of a recipe, use the full name.
    #[must_use]
    pub fn short_name(&self) -> String {
        let short = self.name.split(',').next().unwrap_or(&self.name).trim();
        let mut characters = short.chars();
        match (characters.next(), characters.clone().next()) {
            (Some(first), Some(second)) if second.is_lowercase() => first.to_lowercase().chain(characters).collect(),
            _ => short.to_owned(),
        }
    }

    /// An ingredient of which nothing but the name is known.
    #[must_use]
    pub fn unknown(id: &str, name: &str) -> Self {
        Self {
            id: id.to_owned(),
            name: name.to_owned(),
            category: Category::Own,
            composition: Composition::unknown(),
            fat_in_globules: false,
            other_fat_kind: OtherFatKind::default(),
            other_fat_kind_is_estimate: true,
            properties: Properties::default(),
            source: String::new(),
            source_id: String::new(),
            evidence: Evidence::Typical,
            note: String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sums by kind are kept in arrays, at the place that a kind has as a number.
    #[test]
    fn every_kind_stands_at_its_place_in_the_list_of_all() {
        for (place, kind) in OtherFatKind::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, place, "{kind:?}");
        }
        for (place, kind) in PolyolKind::ALL.into_iter().enumerate() {
            assert_eq!(kind as usize, place, "{kind:?}");
        }
        // The last of each: a list that were shorter than the enum would end before it.
        assert_eq!(OtherFatKind::ALL.last(), Some(&OtherFatKind::Palm));
        assert_eq!(PolyolKind::ALL.last(), Some(&PolyolKind::Mannitol));
    }
}
