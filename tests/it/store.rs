//! Recipe files from outside: what opens, what is refused and how, what a save does to the disk.
#![allow(clippy::expect_used, clippy::panic, reason = "helpers of tests")]

mod bad;
mod damage;
mod frozen;
mod round_trip;

use std::path::Path;

use nibwright::ingredient::Library;
use nibwright::recipe::Recipe;
use nibwright::store::{LoadError, load_recipe};

/// The folder of the sample files of this module.
const FILES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/it/files");

/// Loads a text by way of a file called `a.ron`; a refusal is its sentence without the folder.
fn load_bytes(bytes: &[u8]) -> Result<Recipe, String> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.ron");
    std::fs::write(&path, bytes).expect("a file");
    load(&path)
}

fn load(path: &Path) -> Result<Recipe, String> {
    load_recipe(path, Library::built_in()).map_err(|error| sentence(path, &error))
}

/// The sentence of an error without the folder of the file, which differs from machine to machine.
fn sentence(path: &Path, error: &LoadError) -> String {
    let folder = format!("{}{}", path.parent().expect("a folder").display(), std::path::MAIN_SEPARATOR);
    let sentence = error.to_string();
    assert!(!sentence.contains('\n') && !sentence.ends_with('.'), "one sentence on one line: {sentence}");
    sentence.strip_prefix(&folder).expect("the file is named as it was given").to_owned()
}
