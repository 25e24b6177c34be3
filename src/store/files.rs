//! A recipe and its file.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;
use std::time::SystemTime;

use super::atomic::replace_file;
use super::error::{LoadError, SaveError};
use super::format::{self, outline::TextPlace};
use crate::ingredient::Library;
use crate::recipe::Recipe;

/// The largest file that is read, in bytes: 16 MB. A recipe has some kilobytes.
pub const LARGEST_FILE: u64 = 16 << 20;

/// By what a file is recognised as unchanged: when it was changed last, and its length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileStamp {
    modified: Option<SystemTime>,
    length: u64,
}

/// The recipe of a file; an ingredient that it names without figures is taken from the library.
///
/// # Errors
///
/// [`LoadError`] when there is no such file, it cannot be read, it is a table, or something in it is refused.
pub fn load_recipe(path: &Path, library: &Library) -> Result<Recipe, LoadError> {
    let text = read_text(path)?;
    format::read(&text, library).map_err(|error| match table_extension(path) {
        // Where in a table the recipe begins to be wrong helps nobody.
        Some(extension) => LoadError::Table { path: path.to_owned(), extension },
        None => LoadError::Content { path: path.to_owned(), error },
    })
}

/// The ending of a plain table, in small letters; `None` if it is called otherwise.
fn table_extension(path: &Path) -> Option<&'static str> {
    let extension = path.extension()?;
    ["csv", "tsv"].into_iter().find(|table| extension.eq_ignore_ascii_case(table))
}

/// Writes a recipe to a file, in one step; see [`super::atomic`].
///
/// The text is read back before anything is written, so a file that this version wrote always opens.
///
/// # Errors
///
/// [`SaveError`]; what was there before is then untouched.
pub fn save_recipe(path: &Path, recipe: &Recipe) -> Result<(), SaveError> {
    save_with_heading(path, "", recipe)
}

/// Writes a recipe below a heading of comment lines.
pub(super) fn save_with_heading(path: &Path, heading: &str, recipe: &Recipe) -> Result<(), SaveError> {
    let would_not_open = |reason: String| SaveError::WouldNotOpen { path: path.to_owned(), reason };
    let text = heading.to_owned() + &format::write(recipe).map_err(would_not_open)?;
    if text.len() as u64 > LARGEST_FILE {
        return Err(SaveError::TooLarge { path: path.to_owned() });
    }
    // The file carries all its ingredients: no library is needed.
    format::read(&text, &Library::default()).map_err(|error| would_not_open(error.problem.to_string()))?;
    replace_file(path, text.as_bytes())
}

/// Writes a file that is not read again, such as a plot, in one step; see [`super::atomic`].
///
/// # Errors
///
/// [`SaveError`]; what was there before is then untouched.
pub fn save_bytes(path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    replace_file(path, bytes)
}

/// Whether two paths lead to one file, also through a link or from another folder.
#[must_use]
pub fn is_same_file(one: &Path, other: &Path) -> bool {
    one == other || matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}

/// The name of a file without its folder, whichever system wrote it.
#[must_use]
pub fn file_name(file: &str) -> &str {
    file.rsplit(['/', '\\']).next().unwrap_or(file)
}

/// The name of a file without folder and extension, whichever system wrote it.
///
/// ```
/// # use nibwright::store::files::stem;
/// for file in ["base.ron", "bases/base.ron", "C:\\recipes\\base.ron", "base"] {
///     assert_eq!(stem(file), "base");
/// }
/// assert_eq!(stem("base.v2.ron"), "base.v2");
/// ```
#[must_use]
pub fn stem(file: &str) -> &str {
    let name = file_name(file);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// What tells whether the file is still the one that was read or written; `None` if there is none.
#[must_use]
pub fn file_stamp(path: &Path) -> Option<FileStamp> {
    let metadata = fs::metadata(path).ok()?;
    Some(FileStamp { modified: metadata.modified().ok(), length: metadata.len() })
}

/// The text of a file; what it is decides before it is opened, because opening a pipe would wait for ever.
///
/// # Errors
///
/// [`LoadError`] when there is no such file, it is none, it is too large, or it is not UTF-8.
pub fn read_text(path: &Path) -> Result<String, LoadError> {
    let unreadable = |error: io::Error| match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => LoadError::Missing { path: path.to_owned() },
        _ => LoadError::Unreadable { path: path.to_owned(), reason: error },
    };
    let metadata = fs::metadata(path).map_err(unreadable)?;
    if metadata.is_dir() {
        return Err(LoadError::Directory { path: path.to_owned() });
    }
    if !metadata.is_file() {
        return Err(LoadError::Special { path: path.to_owned() });
    }
    let too_large = || LoadError::TooLarge { path: path.to_owned() };
    if metadata.len() > LARGEST_FILE {
        return Err(too_large());
    }
    let mut bytes = Vec::new();
    File::open(path).and_then(|file| file.take(LARGEST_FILE + 1).read_to_end(&mut bytes)).map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(too_large());
    }
    String::from_utf8(bytes).map_err(|error| {
        let valid = error.utf8_error().valid_up_to();
        let before = String::from_utf8_lossy(&error.as_bytes()[..valid]);
        LoadError::NotUtf8 { path: path.to_owned(), place: TextPlace::of_offset(&before, before.len()) }
    })
}
