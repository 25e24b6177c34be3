//! The form in which an ingredient stands in `assets/ingredients/*.ron` and in a recipe file.
//!
//! This form belongs to file format 1: a field may be added with a default, none may change its meaning.
//! It knows text and structure only; whether the figures make sense is decided by [`Entry::to_ingredient`].

use serde::{Deserialize, Serialize};

use super::{
    Category, Component, Composition, CompositionError, Ingredient, MaltoseKind, OtherFatKind, PolyolKind, Properties,
};
use crate::ingredient::search::fold;
use crate::number::as_given;
use crate::source::Evidence;
use crate::units::GramsPerMillilitre;

/// An ingredient as it is written.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(rename = "Ingredient", deny_unknown_fields)]
pub struct Entry {
    /// Short name for files.
    pub id: String,
    name: String,
    #[serde(default = "own_category", with = "category")]
    category: Category,
    composition: CompositionEntry,
    #[serde(default, skip_serializing_if = "is_false")]
    fat_in_globules: bool,
    #[serde(default, with = "other_fat_kind", skip_serializing_if = "is_liquid_oil")]
    other_fat_kind: OtherFatKind,
    #[serde(default, skip_serializing_if = "is_false")]
    other_fat_kind_is_estimate: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    saturates: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    energy_kj: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    organic_acids: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sodium_mg: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    polyol_kind: Option<PolyolEntry>,
    #[serde(default, with = "maltose_kind", skip_serializing_if = "is_maltose")]
    maltose_kind: MaltoseKind,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    higher_saccharides_molar_mass: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    density_g_per_ml: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    allergens: Option<Vec<String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    vegan: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ph: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    dextrose_equivalent: Option<f64>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    source: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    source_id: String,
    #[serde(default = "supplier", with = "evidence")]
    evidence: Evidence,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
}

/// Grams per 100 g; a component that is absent is zero, one that is not known stands in `unknown`.
#[derive(Clone, Debug, Default, Deserialize, Serialize)]
#[serde(rename = "Composition", default, deny_unknown_fields)]
struct CompositionEntry {
    #[serde(skip_serializing_if = "is_zero")]
    water: f64,
    #[serde(skip_serializing_if = "is_zero")]
    cocoa_butter: f64,
    #[serde(skip_serializing_if = "is_zero")]
    milk_fat: f64,
    #[serde(skip_serializing_if = "is_zero")]
    other_fat: f64,
    #[serde(skip_serializing_if = "is_zero")]
    sucrose: f64,
    #[serde(skip_serializing_if = "is_zero")]
    glucose: f64,
    #[serde(skip_serializing_if = "is_zero")]
    fructose: f64,
    #[serde(skip_serializing_if = "is_zero")]
    lactose: f64,
    #[serde(skip_serializing_if = "is_zero")]
    maltose: f64,
    #[serde(skip_serializing_if = "is_zero")]
    higher_saccharides: f64,
    #[serde(skip_serializing_if = "is_zero")]
    polyols: f64,
    #[serde(skip_serializing_if = "is_zero")]
    fat_free_cocoa_solids: f64,
    #[serde(skip_serializing_if = "is_zero")]
    milk_protein: f64,
    #[serde(skip_serializing_if = "is_zero")]
    milk_minerals: f64,
    #[serde(skip_serializing_if = "is_zero")]
    other_protein: f64,
    #[serde(skip_serializing_if = "is_zero")]
    starch: f64,
    #[serde(skip_serializing_if = "is_zero")]
    fibre: f64,
    #[serde(skip_serializing_if = "is_zero")]
    ethanol: f64,
    #[serde(skip_serializing_if = "is_zero")]
    salt: f64,
    #[serde(skip_serializing_if = "is_zero")]
    acids_ash_other: f64,
    #[serde(skip_serializing_if = "is_zero")]
    unassigned: f64,
    #[serde(with = "unknown", skip_serializing_if = "Vec::is_empty")]
    unknown: Vec<Component>,
}

#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
enum PolyolEntry {
    Sorbitol,
    Maltitol,
    Isomalt,
    Glycerol,
    Lactitol,
    Xylitol,
    Erythritol,
    Mannitol,
}

impl Entry {
    /// The ingredient that is written here.
    ///
    /// # Errors
    ///
    /// [`EntryError`] with the id, when a figure is no amount or the composition does not close.
    pub fn to_ingredient(&self) -> Result<Ingredient, EntryError> {
        let refuse = |reason: Reason| EntryError { id: self.id.clone(), reason };
        if self.id.trim().is_empty() {
            return Err(refuse(Reason::NoId));
        }
        if !is_id(&self.id) {
            return Err(refuse(Reason::BadId { wanted: id_from(&self.id) }));
        }
        let composition = self.composition.to_composition().map_err(|error| refuse(Reason::Composition(error)))?;
        let figure = |name: &'static str, value: Option<f64>| match value {
            Some(value) if !value.is_finite() || value < 0.0 => Err(refuse(Reason::Figure { name, value })),
            _ => Ok(value),
        };
        let density = match self.density_g_per_ml {
            Some(value) if !value.is_finite() || value <= 0.0 => {
                return Err(refuse(Reason::NotAboveZero { name: "density_g_per_ml", value }));
            }
            density => density,
        };
        let name = plain_name(&self.name);
        Ok(Ingredient {
            id: self.id.clone(),
            name: if name.trim().is_empty() { self.id.clone() } else { name },
            category: self.category,
            composition,
            fat_in_globules: self.fat_in_globules,
            other_fat_kind: self.other_fat_kind,
            other_fat_kind_is_estimate: self.other_fat_kind_is_estimate,
            properties: Properties {
                saturates_g: figure("saturates", self.saturates)?,
                energy_kj: figure("energy_kj", self.energy_kj)?,
                organic_acids_g: figure("organic_acids", self.organic_acids)?,
                sodium_mg: figure("sodium_mg", self.sodium_mg)?,
                polyol_kind: self.polyol_kind.map(Into::into),
                maltose_kind: self.maltose_kind,
                higher_saccharides_molar_mass: figure(
                    "higher_saccharides_molar_mass",
                    self.higher_saccharides_molar_mass,
                )?,
                density: density.map(GramsPerMillilitre),
                allergens: self.allergens.clone(),
                vegan: self.vegan,
                ph: figure("ph", self.ph)?,
                dextrose_equivalent: figure("dextrose_equivalent", self.dextrose_equivalent)?,
            },
            source: self.source.clone(),
            source_id: self.source_id.clone(),
            evidence: self.evidence,
            note: self.note.clone(),
        })
    }
}

/// Why an ingredient that is written in a file is refused.
#[derive(Clone, Debug, thiserror::Error)]
#[error("ingredient \"{id}\": {reason}")]
pub struct EntryError {
    /// The ingredient.
    pub id: String,
    /// What is wrong with it.
    pub reason: Reason,
}

/// What is wrong with an ingredient.
#[derive(Clone, Debug, thiserror::Error)]
pub enum Reason {
    /// The id is empty.
    #[error("its id is empty; give it one, lower-case words with hyphens")]
    NoId,
    /// The id has other characters than it may.
    #[error("an id is made of lower-case letters, digits and single hyphens between them; write \"{wanted}\"")]
    BadId {
        /// An id that is made of the same words.
        wanted: String,
    },
    /// Its composition is refused.
    #[error("{0}")]
    Composition(CompositionError),
    /// Another figure is no amount.
    #[error("{name} is {}; it must be a number that is not negative", as_given(*value))]
    Figure {
        /// The field.
        name: &'static str,
        /// Its value.
        value: f64,
    },
    /// A figure that cannot be zero is no such figure.
    #[error("{name} is {}; it must be a number above zero", as_given(*value))]
    NotAboveZero {
        /// The field.
        name: &'static str,
        /// Its value.
        value: f64,
    },
}

/// Whether a text is made like an id: lower-case words and numbers (a to z, 0 to 9) with single hyphens between them.
///
/// ```
/// # use nibwright::ingredient::file::is_id;
/// assert!(is_id("couverture-dark-64"));
/// assert!(!is_id("Crème 35") && !is_id("-a") && !is_id("a--b") && !is_id(""));
/// ```
#[must_use]
pub fn is_id(text: &str) -> bool {
    let is_letter = |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit();
    text.split('-').all(|word| !word.is_empty() && word.chars().all(is_letter))
}

/// The id that is made of the words of a text; "ingredient" where there are none.
///
/// ```
/// # use nibwright::ingredient::file::id_from;
/// assert_eq!(id_from("Crème fraîche, 30 %"), "creme-fraiche-30");
/// ```
#[must_use]
pub fn id_from(text: &str) -> String {
    let folded = fold(text);
    let words = folded.split(|letter: char| !letter.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let id = words.collect::<Vec<_>>().join("-");
    if id.is_empty() { "ingredient".to_owned() } else { id }
}

/// A name from a file without its control characters: a report shows it in a terminal, which would obey them.
///
/// One blank stands for each run of them.
///
/// ```
/// # use nibwright::ingredient::file::plain_name;
/// assert_eq!(plain_name("Cream\u{1b}[31m,\r\n35 %"), "Cream [31m, 35 %");
/// ```
#[must_use]
pub fn plain_name(name: &str) -> String {
    if !name.contains(char::is_control) {
        return name.to_owned();
    }
    name.split(char::is_control).filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
}

impl CompositionEntry {
    fn to_composition(&self) -> Result<Composition, CompositionError> {
        let mut copy = self.clone();
        let parts = Component::ALL.map(|component| (component, *copy.grams_mut(component)));
        Composition::new(parts, self.unknown.iter().copied(), self.unassigned)
    }

    fn from_composition(composition: &Composition) -> Self {
        let mut entry = Self {
            unassigned: composition.declared_unassigned(),
            unknown: composition.unknown_components().collect(),
            ..Self::default()
        };
        for (component, grams) in Component::ALL.into_iter().zip(composition.grams_per_100g()) {
            *entry.grams_mut(component) = *grams;
        }
        entry
    }

    fn grams_mut(&mut self, component: Component) -> &mut f64 {
        match component {
            Component::Water => &mut self.water,
            Component::CocoaButter => &mut self.cocoa_butter,
            Component::MilkFat => &mut self.milk_fat,
            Component::OtherFat => &mut self.other_fat,
            Component::Sucrose => &mut self.sucrose,
            Component::Glucose => &mut self.glucose,
            Component::Fructose => &mut self.fructose,
            Component::Lactose => &mut self.lactose,
            Component::Maltose => &mut self.maltose,
            Component::HigherSaccharides => &mut self.higher_saccharides,
            Component::Polyols => &mut self.polyols,
            Component::FatFreeCocoaSolids => &mut self.fat_free_cocoa_solids,
            Component::MilkProtein => &mut self.milk_protein,
            Component::MilkMinerals => &mut self.milk_minerals,
            Component::OtherProtein => &mut self.other_protein,
            Component::Starch => &mut self.starch,
            Component::Fibre => &mut self.fibre,
            Component::Ethanol => &mut self.ethanol,
            Component::Salt => &mut self.salt,
            Component::AcidsAshOther => &mut self.acids_ash_other,
        }
    }
}

impl From<&Ingredient> for Entry {
    fn from(ingredient: &Ingredient) -> Self {
        let properties = &ingredient.properties;
        Self {
            id: ingredient.id.clone(),
            name: ingredient.name.clone(),
            category: ingredient.category,
            composition: CompositionEntry::from_composition(&ingredient.composition),
            fat_in_globules: ingredient.fat_in_globules,
            other_fat_kind: ingredient.other_fat_kind,
            other_fat_kind_is_estimate: ingredient.other_fat_kind_is_estimate,
            saturates: properties.saturates_g,
            energy_kj: properties.energy_kj,
            organic_acids: properties.organic_acids_g,
            sodium_mg: properties.sodium_mg,
            polyol_kind: properties.polyol_kind.map(Into::into),
            maltose_kind: properties.maltose_kind,
            higher_saccharides_molar_mass: properties.higher_saccharides_molar_mass,
            density_g_per_ml: properties.density.map(|density| density.0),
            allergens: properties.allergens.clone(),
            vegan: properties.vegan,
            ph: properties.ph,
            dextrose_equivalent: properties.dextrose_equivalent,
            source: ingredient.source.clone(),
            source_id: ingredient.source_id.clone(),
            evidence: ingredient.evidence,
            note: ingredient.note.clone(),
        }
    }
}

impl From<PolyolEntry> for PolyolKind {
    fn from(entry: PolyolEntry) -> Self {
        match entry {
            PolyolEntry::Sorbitol => Self::Sorbitol,
            PolyolEntry::Maltitol => Self::Maltitol,
            PolyolEntry::Isomalt => Self::Isomalt,
            PolyolEntry::Glycerol => Self::Glycerol,
            PolyolEntry::Lactitol => Self::Lactitol,
            PolyolEntry::Xylitol => Self::Xylitol,
            PolyolEntry::Erythritol => Self::Erythritol,
            PolyolEntry::Mannitol => Self::Mannitol,
        }
    }
}

impl From<PolyolKind> for PolyolEntry {
    fn from(kind: PolyolKind) -> Self {
        match kind {
            PolyolKind::Sorbitol => Self::Sorbitol,
            PolyolKind::Maltitol => Self::Maltitol,
            PolyolKind::Isomalt => Self::Isomalt,
            PolyolKind::Glycerol => Self::Glycerol,
            PolyolKind::Lactitol => Self::Lactitol,
            PolyolKind::Xylitol => Self::Xylitol,
            PolyolKind::Erythritol => Self::Erythritol,
            PolyolKind::Mannitol => Self::Mannitol,
        }
    }
}

/// Writes a module that serde uses (`with = "…"`) for an enum of the domain.
///
/// The domain types carry no serde themselves: what is computed and what is written are different types.
macro_rules! spelled {
    ($module:ident, $type:ty, { $($variant:ident),+ $(,)? }) => {
        mod $module {
            use serde::{Deserialize, Deserializer, Serialize, Serializer};

            #[derive(Deserialize, Serialize)]
            #[serde(rename_all = "snake_case")]
            enum Spelling {
                $($variant),+
            }

            pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<$type, D::Error> {
                Ok(match Spelling::deserialize(deserializer)? {
                    $(Spelling::$variant => <$type>::$variant),+
                })
            }

            pub(super) fn serialize<S: Serializer>(value: &$type, serializer: S) -> Result<S::Ok, S::Error> {
                match value {
                    $(<$type>::$variant => Spelling::$variant),+
                }
                .serialize(serializer)
            }
        }
    };
}

spelled!(evidence, crate::source::Evidence, { Dataset, Derived, Supplier, Typical });
spelled!(other_fat_kind, crate::ingredient::OtherFatKind, { LiquidOil, Coconut, PalmKernel, Palm });
spelled!(maltose_kind, crate::ingredient::MaltoseKind, { Maltose, Trehalose, Isomaltulose });
spelled!(category, crate::ingredient::Category, {
    Couverture, Gianduja, Cocoa, Dairy, Egg, Sugar, Polyol, Fibre, Nut, NutPaste, FatOil, Fruit, FruitSugared,
    FruitDried, Spirit, CoffeeTea, Spice, Additive, Cereal, Water, Own,
});

/// The list of unknown components, by their keys.
mod unknown {
    use serde::de::Error as _;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    use crate::ingredient::Component;

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Component>, D::Error> {
        let mut list = Vec::new();
        for key in Vec::<String>::deserialize(deserializer)? {
            let component = Component::from_key(&key)
                .ok_or_else(|| D::Error::custom(format!("`unknown` names \"{key}\", which is no component")))?;
            if list.contains(&component) {
                return Err(D::Error::custom(format!("`unknown` names \"{key}\" twice")));
            }
            list.push(component);
        }
        Ok(list)
    }

    pub(super) fn serialize<S: Serializer>(list: &[Component], serializer: S) -> Result<S::Ok, S::Error> {
        list.iter().map(|component| component.key()).collect::<Vec<_>>().serialize(serializer)
    }
}

fn own_category() -> Category {
    Category::Own
}

fn supplier() -> Evidence {
    Evidence::Supplier
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_false(value: &bool) -> bool {
    !value
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_liquid_oil(kind: &OtherFatKind) -> bool {
    *kind == OtherFatKind::LiquidOil
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_maltose(kind: &MaltoseKind) -> bool {
    *kind == MaltoseKind::Maltose
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_keys_of_the_domain_are_the_words_of_the_file() {
        let written = |ingredient: &Ingredient| ron::to_string(&Entry::from(ingredient)).expect("text");
        for evidence in Evidence::ALL {
            let ingredient = Ingredient { evidence, ..Ingredient::unknown("a", "A") };
            let text = written(&ingredient);
            assert!(text.contains(&format!("evidence:{}", evidence.key())), "{text}");
        }
        for component in Component::ALL {
            let composition = Composition::new([(component, 100.0)], [], 0.0).expect("it closes");
            let ingredient = Ingredient { composition, ..Ingredient::unknown("a", "A") };
            let text = written(&ingredient);
            assert!(text.contains(&format!("composition:({}:100", component.key())), "{text}");
        }
    }
}
