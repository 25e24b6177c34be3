//! The recipes that come with the program: the first start opens one, and the shelf shows their folder.

use std::path::PathBuf;

use crate::ingredient::Library;
use crate::recipe::Recipe;
use crate::store;

/// The sample that the first start opens.
const FIRST: &str = include_str!("../../sample-recipes/dark-cut-ganache.ron");

/// The sample that the first start opens.
#[must_use]
pub fn first() -> Recipe {
    store::format::read(FIRST, Library::built_in()).unwrap_or_else(|error| {
        // A test opens every sample; this cannot be reached in a build that has passed.
        log::error!("the first sample does not open: {error}");
        Recipe::default()
    })
}

/// The folder of samples beside the program or the current folder, if it is there.
#[must_use]
pub fn folder() -> Option<PathBuf> {
    store::samples::sample_folder()
}
