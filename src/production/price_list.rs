//! The prices that a user knows, each under the id of an ingredient.

use std::collections::BTreeMap;

use super::price::{Currency, Price};

/// The prices that a user knows, each under the id of an ingredient, in the order of the ids.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceList {
    entries: BTreeMap<String, PriceEntry>,
}

/// A price with the name of its ingredient, which is there for people only.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceEntry {
    /// As the ingredient was called when the price was written; may be empty.
    pub name: String,
    /// The price.
    pub price: Price,
}

impl PriceList {
    /// The price of the ingredient with this id.
    #[must_use]
    pub fn price(&self, ingredient: &str) -> Option<&Price> {
        self.entries.get(ingredient).map(|entry| &entry.price)
    }

    /// The money in which these ingredients are counted: that of the first that has a price, because nothing is converted.
    pub fn currency_of<'a>(&self, ingredients: impl IntoIterator<Item = &'a str>) -> Option<&Currency> {
        ingredients.into_iter().find_map(|id| self.price(id)).map(Price::currency)
    }

    /// All of it: ids with their entries.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &PriceEntry)> {
        self.entries.iter().map(|(id, entry)| (id.as_str(), entry))
    }

    /// How many prices there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Writes a price down; gives back the one that it replaces.
    pub fn put(&mut self, ingredient: impl Into<String>, entry: PriceEntry) -> Option<PriceEntry> {
        self.entries.insert(ingredient.into(), entry)
    }

    /// Takes a price off the list; gives it back.
    pub fn remove(&mut self, ingredient: &str) -> Option<PriceEntry> {
        self.entries.remove(ingredient)
    }
}
