//! Where a figure comes from and how far it can be trusted.
//!
//! Every ingredient names its source and its [`Evidence`]; every model names its source in its documentation
//! and, for the window and the report, by a key of `assets/sources.ron` (see [`Source`]).

use std::sync::LazyLock;

/// How well a figure is founded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Evidence {
    /// Read in a published table of analysed foods.
    Dataset,
    /// Computed from published figures, molar masses, legal definitions.
    Derived,
    /// The data sheet of the supplier, or the user's own analysis.
    Supplier,
    /// A typical value of the class, from memory: a placeholder until the supplier's figure is known.
    Typical,
}

impl Evidence {
    /// All kinds, best founded first.
    pub const ALL: [Self; 4] = [Self::Dataset, Self::Derived, Self::Supplier, Self::Typical];

    /// Its name in the JSON report and in files, which spell it themselves (`ingredient::file`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Dataset => "dataset",
            Self::Derived => "derived",
            Self::Supplier => "supplier",
            Self::Typical => "typical",
        }
    }

    /// The words for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Dataset => "analysed food of a published table",
            Self::Derived => "derived from published figures",
            Self::Supplier => "supplier's data sheet or own analysis",
            Self::Typical => "typical of its class, from memory",
        }
    }
}

/// A published text or dataset that figures of this program come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The short name by which code and documentation refer to it.
    pub key: String,
    /// Author, title, year, place.
    pub title: String,
    /// What was taken from it.
    pub used_for: String,
    /// Under which terms the figures may be used; empty for facts cited from a text.
    pub licence: String,
    /// The words that its licence asks to be shown; empty if it asks for none.
    pub attribution: String,
}

/// All sources of `assets/sources.ron`, in their order there.
#[must_use]
pub fn all() -> &'static [Source] {
    static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(|| file::parse(include_str!("../assets/sources.ron")));
    &SOURCES
}

/// The form of `assets/sources.ron`.
mod file {
    use serde::Deserialize;

    use super::Source;

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Entry {
        key: String,
        title: String,
        used_for: String,
        #[serde(default)]
        licence: String,
        #[serde(default)]
        attribution: String,
    }

    pub(super) fn parse(text: &str) -> Vec<Source> {
        #[expect(clippy::expect_used, reason = "the file is part of the program; a test reads it")]
        let entries: Vec<Entry> = ron::from_str(text).expect("assets/sources.ron is well formed");
        entries
            .into_iter()
            .map(|Entry { key, title, used_for, licence, attribution }| Source {
                key,
                title,
                used_for,
                licence,
                attribution,
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique_and_every_source_says_what_it_is_used_for() {
        let mut keys: Vec<&str> = all().iter().map(|source| source.key.as_str()).collect();
        assert!(all().iter().all(|source| !source.title.is_empty() && !source.used_for.is_empty()));
        keys.sort_unstable();
        let count = keys.len();
        keys.dedup();
        assert_eq!(keys.len(), count);
    }

    #[test]
    fn the_open_datasets_that_ask_for_it_have_an_attribution() {
        for key in ["ciqual-2020", "cofid-2021", "bls-4.0"] {
            let source = all().iter().find(|source| source.key == key);
            let source = source.unwrap_or_else(|| panic!("{key} is listed"));
            assert!(!source.attribution.is_empty(), "{key} shows its attribution");
        }
    }
}
