//! The recipes of a folder, as far as a list needs to know them.
//!
//! Only the beginning of each file is read, and not parsed: a folder of thousands opens at once, and a damaged
//! file is listed like any other. Why it does not open is told when it is opened.

use std::fs::{self, File};
use std::io::Read;
use std::path::{Path, PathBuf};

use super::error::LoadError;
use super::files::stem;
use super::format::name_of;
use crate::ingredient::search::fold;

/// A recipe file in a folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecipeEntry {
    /// The file.
    pub path: PathBuf,
    /// The name that the recipe gives itself; without one, the name of the file.
    pub title: String,
    /// The title without accents and case, as it is searched.
    pub folded: String,
}

/// The recipe files of a folder (`*.ron`), by title; what is hidden is left out, folders are not searched.
///
/// # Errors
///
/// [`LoadError::Folder`] when the folder cannot be listed.
pub fn list_recipes(folder: &Path) -> Result<Vec<RecipeEntry>, LoadError> {
    let refuse = |reason| LoadError::Folder { path: folder.to_owned(), reason };
    let mut entries = Vec::new();
    for entry in fs::read_dir(folder).map_err(refuse)? {
        let path = entry.map_err(refuse)?.path();
        if is_recipe_name(&path) && !is_folder_or_device(&path) {
            let title = beginning(&path)
                .as_deref()
                .and_then(name_of)
                .unwrap_or_else(|| stem(&path.to_string_lossy()).to_owned());
            entries.push(RecipeEntry { path, folded: fold(&title), title });
        }
    }
    entries.sort_by(|left, right| left.folded.cmp(&right.folded).then_with(|| left.path.cmp(&right.path)));
    Ok(entries)
}

fn is_recipe_name(path: &Path) -> bool {
    let is_hidden = path.file_name().is_none_or(|name| name.to_string_lossy().starts_with('.'));
    !is_hidden && path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("ron"))
}

/// Whether it is there and no file; a link to nothing is listed, because the user believes in it.
fn is_folder_or_device(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|metadata| !metadata.is_file())
}

/// The beginning of a file's text; `None` if it cannot be read.
pub(super) fn beginning(path: &Path) -> Option<String> {
    /// The name stands in one of the first lines.
    const READ_BYTES: u64 = 4096;
    let mut bytes = Vec::new();
    File::open(path).and_then(|file| file.take(READ_BYTES).read_to_end(&mut bytes)).ok()?;
    let valid = bytes.utf8_chunks().next().map_or("", |chunk| chunk.valid());
    Some(valid.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_listed_by_title_whatever_their_state() {
        let folder = tempfile::tempdir().expect("a folder");
        let write = |name: &str, bytes: &[u8]| fs::write(folder.path().join(name), bytes).expect("a file");
        write("z.ron", b"// name: \"no\"\n(format: 1, name: \"Apricot \\\"cut\\\"\", lines: [])");
        write("b.RON", b"\xef\xbb\xbf(format: 1, lines: [(ingredient: \"x\", name: \"no\")])");
        write("latin.ron", b"(format: 1, note: \"p\xe2te\", name: \"too late\", lines: [])");
        write("cut-off.ron", b"(format: 1, name: \"\xc3\x89clair\", lines: [(ing");
        write("empty.ron", b"");
        write("newer.ron", b"(format: 9, new: [1], name: \"Dark\", more: {})");
        write("notes.txt", b"(name: \"no\")");
        write(".hidden.ron", b"(name: \"no\")");
        fs::create_dir(folder.path().join("folder.ron")).expect("a folder");
        let titles: Vec<String> =
            list_recipes(folder.path()).expect("a list").into_iter().map(|entry| entry.title).collect();
        assert_eq!(titles, ["Apricot \"cut\"", "b", "Dark", "Éclair", "empty", "latin"]);
    }

    #[test]
    fn a_folder_that_is_none_is_refused() {
        let error = list_recipes(Path::new("no/such/folder")).expect_err("it is not there").to_string();
        assert!(error.starts_with("no/such/folder: the folder cannot be listed ("), "{error}");
    }
}
