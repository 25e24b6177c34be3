//! The ingredients that come with the program.

use std::collections::HashMap;
use std::sync::{Arc, LazyLock};

use super::search::{distance, fold, rank};
use super::{Ingredient, file};

/// A set of ingredients with unique ids, in a fixed order.
#[derive(Clone, Debug, Default)]
pub struct Library {
    shelved: Vec<Shelved>,
    /// By id: the place in `shelved`. A table of many lines asks for each of them.
    by_id: HashMap<String, usize>,
    /// By folded name: the first place in `shelved`.
    by_name: HashMap<String, usize>,
}

/// An ingredient with its names in the form in which they are compared.
#[derive(Clone, Debug)]
struct Shelved {
    ingredient: Arc<Ingredient>,
    folded_name: String,
    /// Name, id and category: what a search looks through.
    searched: String,
}

/// The texts of `assets/ingredients/`, in the order of the shelf.
const BUILT_IN: [&str; 9] = [
    include_str!("../../assets/ingredients/couverture-and-cocoa.ron"),
    include_str!("../../assets/ingredients/dairy-and-egg.ron"),
    include_str!("../../assets/ingredients/sugar-and-polyol.ron"),
    include_str!("../../assets/ingredients/nut.ron"),
    include_str!("../../assets/ingredients/fat-and-oil.ron"),
    include_str!("../../assets/ingredients/fruit.ron"),
    include_str!("../../assets/ingredients/spirit.ron"),
    include_str!("../../assets/ingredients/flavour.ron"),
    include_str!("../../assets/ingredients/additive-and-cereal.ron"),
];

impl Library {
    /// The ingredients that come with the program.
    #[must_use]
    pub fn built_in() -> &'static Self {
        static LIBRARY: LazyLock<Library> = LazyLock::new(|| {
            #[expect(clippy::expect_used, reason = "the files are part of the program; a test reads them")]
            let entries = BUILT_IN.iter().flat_map(|text| {
                ron::Options::default()
                    .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
                    .from_str::<Vec<file::Entry>>(text)
                    .expect("assets/ingredients is well formed")
            });
            #[expect(clippy::expect_used, reason = "the files are part of the program; a test reads them")]
            Library::new(entries.map(|entry| entry.to_ingredient().expect("assets/ingredients closes to 100")))
        });
        &LIBRARY
    }

    /// A library of these ingredients; of several with one id the first stays.
    #[must_use]
    pub fn new(ingredients: impl IntoIterator<Item = Ingredient>) -> Self {
        let mut library = Self::default();
        for ingredient in ingredients {
            if !library.by_id.contains_key(&ingredient.id) {
                let folded_name = fold(&ingredient.name);
                let place = library.shelved.len();
                library.by_id.insert(ingredient.id.clone(), place);
                library.by_name.entry(folded_name.clone()).or_insert(place);
                let searched = fold(&format!("{} {} {}", ingredient.name, ingredient.id, ingredient.category));
                library.shelved.push(Shelved { ingredient: Arc::new(ingredient), folded_name, searched });
            }
        }
        library
    }

    /// All ingredients in their order.
    pub fn iter(&self) -> impl Iterator<Item = &Arc<Ingredient>> {
        self.shelved.iter().map(|shelved| &shelved.ingredient)
    }

    /// The ingredient with this id.
    #[must_use]
    pub fn by_id(&self, id: &str) -> Option<&Arc<Ingredient>> {
        self.at(self.by_id.get(id))
    }

    /// The ingredient with this id, or with exactly this name but for case and accents.
    #[must_use]
    pub fn by_id_or_name(&self, text: &str) -> Option<&Arc<Ingredient>> {
        let text = text.trim();
        self.by_id(text).or_else(|| self.at(self.by_name.get(&fold(text))))
    }

    fn at(&self, place: Option<&usize>) -> Option<&Arc<Ingredient>> {
        Some(&self.shelved.get(*place?)?.ingredient)
    }

    /// The ingredients whose name, id or category contains every word of the query, best first.
    #[must_use]
    pub fn search(&self, query: &str) -> Vec<&Arc<Ingredient>> {
        let query = fold(query);
        let mut found: Vec<_> = self
            .shelved
            .iter()
            .filter_map(|shelved| Some((rank(&query, &shelved.searched)?, &shelved.ingredient)))
            .collect();
        found.sort_by_key(|(rank, _)| *rank);
        found.into_iter().map(|(_, ingredient)| ingredient).collect()
    }

    /// The ingredients whose id or name comes nearest to a text that names none of them.
    #[must_use]
    pub fn nearest(&self, text: &str, count: usize) -> Vec<&Arc<Ingredient>> {
        let folded = fold(text);
        let length = folded.chars().count();
        let mut candidates: Vec<_> = self
            .shelved
            .iter()
            .map(|shelved| {
                let whole = distance(&folded, &shelved.folded_name).min(distance(&folded, &shelved.ingredient.id));
                // A name that holds all the words, or begins alike, is what was meant more often than a short
                // name that happens to need few changes.
                let beginning: String = shelved.folded_name.chars().take(length).collect();
                let contained = rank(&folded, &shelved.searched).is_some();
                let score = if contained { 0 } else { (4 * distance(&folded, &beginning)).min(4 * whole) + 1 };
                (score, whole, &shelved.ingredient)
            })
            .collect();
        candidates.sort_by_key(|(score, whole, _)| (*score, *whole));
        candidates.into_iter().take(count).map(|(_, _, ingredient)| ingredient).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked example: 50 ml of a spirit of 40 % by volume are 15.7848 g of ethanol in 47.4025 g, 33.2995 % by mass. The
    /// density of the built-in rum has three decimals.
    #[test]
    fn a_spirit_of_40_percent_by_volume() {
        let rum = Library::built_in().by_id("rum-40").expect("built in");
        let weighs = crate::units::Millilitres(50.0) * rum.properties.density.expect("a density");
        let ethanol = rum.composition.share(crate::ingredient::Component::Ethanol).expect("known");
        assert!((weighs.0 - 47.4025).abs() < 50.0 * 5e-4, "{weighs:?}");
        assert!((ethanol.to_percent() - 33.2995).abs() < 0.02, "{ethanol:?}");
        assert!((weighs.0 * ethanol.0 - 15.7848).abs() < 0.02);
    }

    #[test]
    fn the_built_in_library_is_complete_and_closes() {
        // The published table behind it has 166 rows; loading checks each sum to 100 ± 0.2.
        assert_eq!(Library::built_in().iter().count(), 166);
    }

    #[test]
    fn of_two_ingredients_with_one_id_or_one_name_the_first_is_found() {
        let named =
            |id: &str, name: &str, note: &str| Ingredient { note: note.to_owned(), ..Ingredient::unknown(id, name) };
        let library = Library::new([
            named("a", "Crème", "first"),
            named("a", "Another", "second"),
            named("b", "CREME", "third"),
            named("creme", "Last", "fourth"),
        ]);
        let note = |found: Option<&Arc<Ingredient>>| found.map(|found| found.note.clone());
        assert_eq!(library.iter().count(), 3);
        assert_eq!(note(library.by_id("a")).as_deref(), Some("first"));
        assert_eq!(note(library.by_id_or_name(" crÈme ")).as_deref(), Some("first"));
        assert_eq!(note(library.by_id_or_name("b")).as_deref(), Some("third"));
        // An id counts more than a name.
        assert_eq!(note(library.by_id_or_name("creme")).as_deref(), Some("fourth"));
        assert_eq!(note(library.by_id_or_name("another")), None);
    }

    #[test]
    fn a_search_ignores_case_and_accents_and_takes_any_part() {
        let library = Library::built_in();
        let first = |query: &str| library.search(query).first().map(|found| found.id.clone());
        assert_eq!(first("PURÉE passion").as_deref(), Some("passion-fruit-puree"));
        assert_eq!(first("64").as_deref(), Some("couverture-dark-64"));
        assert_eq!(first("no such thing"), None);
    }

    #[test]
    fn a_mistyped_name_finds_what_was_meant() {
        let library = Library::built_in();
        for (typed, meant) in [
            ("craem-35", "cream-35"),
            ("cocoa buter", "cocoa-butter"),
            ("Hazelnut past", "hazelnut-paste"),
            ("dark couverture 64", "couverture-dark-64"),
        ] {
            let nearest = library.nearest(typed, 3);
            assert!(nearest.iter().any(|found| found.id == meant), "{typed}: {:?}", nearest[0].id);
        }
    }
}
