//! The one rule by which an ingredient is found by what somebody typed: in a recipe, on the shelf, on the command line.

use std::sync::Arc;

use super::Ingredient;
use super::search::{begins_a_word, fold};

/// Why a text names no single ingredient.
#[derive(Clone, Debug, PartialEq)]
pub enum NotNamed {
    /// It names none.
    Unknown,
    /// It can mean several.
    Several(Vec<Arc<Ingredient>>),
}

/// The ingredient that a text names among others: by its id, else by its name, else by its short name, else by parts of id
/// or name, from the beginning of a word, that no other has. Case and accents do not count.
///
/// An ingredient that stands there several times counts once, by its id.
///
/// # Errors
///
/// [`NotNamed`] where it is none of them, or can be several.
///
/// ```
/// # use nibwright::ingredient::{Library, named::named};
/// let library = Library::built_in();
/// let found = |text: &str| named(text, library.iter()).map(|found| found.id.clone());
/// assert_eq!(found("BUTTER-82").as_deref(), Ok("butter-82"));
/// assert_eq!(found("seedless puree").as_deref(), Ok("passion-fruit-puree"));
/// assert!(found("cream").is_err());
/// ```
pub fn named<'a>(
    text: &str,
    among: impl IntoIterator<Item = &'a Arc<Ingredient>>,
) -> Result<&'a Arc<Ingredient>, NotNamed> {
    let wanted = fold(text);
    if wanted.is_empty() {
        return Err(NotNamed::Unknown);
    }
    let mut candidates: Vec<&Arc<Ingredient>> = Vec::new();
    for ingredient in among {
        if !candidates.iter().any(|other| other.id == ingredient.id) {
            candidates.push(ingredient);
        }
    }
    let ways: [fn(&str, &Ingredient) -> bool; 4] = [
        |wanted, ingredient| fold(&ingredient.id) == wanted,
        |wanted, ingredient| fold(&ingredient.name) == wanted,
        |wanted, ingredient| fold(&ingredient.short_name()) == wanted,
        // Who says salt does not mean unsalted butter.
        |wanted, ingredient| begins_a_word(wanted, &fold(&format!("{} {}", ingredient.name, ingredient.id))),
    ];
    for is_meant in ways {
        let found: Vec<_> = candidates.iter().copied().filter(|ingredient| is_meant(&wanted, ingredient)).collect();
        match found.as_slice() {
            [] => {}
            [only] => return Ok(only),
            several => return Err(NotNamed::Several(several.iter().map(|&found| found.clone()).collect())),
        }
    }
    Err(NotNamed::Unknown)
}

/// An ingredient as it can be typed: "Cream, 35 % fat (cream-35)".
#[must_use]
pub fn name_and_id(ingredient: &Ingredient) -> String {
    format!("{} ({})", ingredient.name, ingredient.id)
}

/// Ingredients as they can be typed, one after the other; each once.
#[must_use]
pub fn names_and_ids<'a>(ingredients: impl IntoIterator<Item = &'a Arc<Ingredient>>) -> Vec<String> {
    let mut names = Vec::new();
    for name in ingredients.into_iter().map(|ingredient| name_and_id(ingredient)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shelf() -> Vec<Arc<Ingredient>> {
        [
            ("ecorce", "Écorce d'orange, candied"),
            ("cream-35", "Cream, 35 % fat"),
            ("cream-36", "Cream, heavy whipping, 36 % fat"),
            ("cocoa-butter", "Cocoa butter"),
            ("butter-82", "Butter, 82 % fat"),
            ("butter", "Clarified fat"),
        ]
        .map(|(id, name)| Arc::new(Ingredient::unknown(id, name)))
        .to_vec()
    }

    fn found(text: &str) -> Result<String, Vec<String>> {
        named(text, &shelf()).map(|found| found.id.clone()).map_err(|why| match why {
            NotNamed::Unknown => Vec::new(),
            NotNamed::Several(several) => several.iter().map(|ingredient| ingredient.id.clone()).collect(),
        })
    }

    #[test]
    fn id_name_short_name_and_part_count_in_this_order() {
        for (text, id) in [
            ("butter", "butter"),
            ("  Butter, 82 % FAT ", "butter-82"),
            ("clarified", "butter"),
            ("cocoa", "cocoa-butter"),
            ("ÉCORCE D'ORANGE", "ecorce"),
            ("ecorce d'orange", "ecorce"),
            ("heavy", "cream-36"),
            ("cream 35", "cream-35"),
        ] {
            assert_eq!(found(text).as_deref(), Ok(id), "{text}");
        }
    }

    #[test]
    fn what_can_mean_several_or_none_is_told() {
        assert_eq!(found("cream"), Err(vec!["cream-35".to_owned(), "cream-36".to_owned()]));
        assert_eq!(found("granite"), Err(Vec::new()));
        // A part counts from the beginning of a word.
        assert_eq!(found("range"), Err(Vec::new()));
        assert_eq!(found("orange").as_deref(), Ok("ecorce"));
        let unsalted = [Arc::new(Ingredient::unknown("butter-82", "Butter, unsalted, 82 % fat"))];
        assert_eq!(named("salt", &unsalted), Err(NotNamed::Unknown));
        assert!(named("unsalt", &unsalted).is_ok());
        assert_eq!(found(" "), Err(Vec::new()));
        // An ingredient of two lines is one ingredient.
        let twice = [shelf(), shelf()].concat();
        assert_eq!(named("cocoa", &twice).map(|found| found.id.clone()).as_deref(), Ok("cocoa-butter"));
    }
}
