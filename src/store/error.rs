//! Why a file could not be read or written: one sentence each.

use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

use super::files::LARGEST_FILE;
use super::format::outline::TextPlace;
use super::format::problem::{FormatError, on_one_line};

/// Why a file or folder could not be read.
#[derive(Debug, Error)]
pub enum LoadError {
    /// Nothing has this name.
    #[error("{}: there is no such file; check the name and the folder", shown(path))]
    Missing {
        /// As it was given.
        path: PathBuf,
    },
    /// It is a folder.
    #[error("{}: this is a folder; name a recipe file in it", shown(path))]
    Directory {
        /// As it was given.
        path: PathBuf,
    },
    /// It is a device, a pipe or the like.
    #[error("{}: this is a device or a pipe, not a file; name a recipe file", shown(path))]
    Special {
        /// As it was given.
        path: PathBuf,
    },
    /// It is larger than any recipe.
    #[error(
        "{}: the file is larger than {}, so it is no recipe; name a recipe file",
        shown(path),
        megabytes(LARGEST_FILE)
    )]
    TooLarge {
        /// As it was given.
        path: PathBuf,
    },
    /// The system refuses.
    #[error("{}: the file cannot be read ({reason}); check that you may read it", shown(path))]
    Unreadable {
        /// As it was given.
        path: PathBuf,
        /// In the words of the system.
        reason: io::Error,
    },
    /// A folder cannot be listed.
    #[error("{}: the folder cannot be listed ({reason}); choose another folder", shown(path))]
    Folder {
        /// As it was given.
        path: PathBuf,
        /// In the words of the system.
        reason: io::Error,
    },
    /// Its bytes are not UTF-8.
    #[error("{}:{place}: this is not UTF-8 text; save the file as UTF-8 in your editor", shown(path))]
    NotUtf8 {
        /// As it was given.
        path: PathBuf,
        /// Where the first byte stands that is none.
        place: TextPlace,
    },
    /// It is a plain table.
    #[error(
        "{}: this is a table, and only recipes (.ron) can be opened; `nibwright report FILE.{extension}` computes it",
        shown(path)
    )]
    Table {
        /// As it was given.
        path: PathBuf,
        /// What its name ends in, in small letters.
        extension: &'static str,
    },
    /// Its text is refused.
    #[error("{}:{error}", shown(path))]
    Content {
        /// As it was given.
        path: PathBuf,
        /// Where and why.
        error: FormatError,
    },
}

/// Why a file could not be written; what was there before is untouched.
#[derive(Debug, Error)]
pub enum SaveError {
    /// A folder has this name.
    #[error("{}: this is a folder; choose a name for the file in it", shown(path))]
    Directory {
        /// As it was given.
        path: PathBuf,
    },
    /// It is a device, a pipe or the like.
    #[error("{}: this is a device or a pipe, not a file; choose another name", shown(path))]
    Special {
        /// As it was given.
        path: PathBuf,
    },
    /// The file must not be changed.
    #[error("{}: the file is protected against writing; save under another name", shown(path))]
    ReadOnly {
        /// As it was given.
        path: PathBuf,
    },
    /// The folder takes no new file.
    #[error("{}: nothing can be written into {} ({reason}); choose another folder", shown(path), shown(folder))]
    Folder {
        /// As it was given.
        path: PathBuf,
        /// The folder.
        folder: PathBuf,
        /// In the words of the system.
        reason: io::Error,
    },
    /// The disk is full, or another failure while writing.
    #[error("{}: the file could not be written ({reason}); free some space or save elsewhere", shown(path))]
    Write {
        /// As it was given.
        path: PathBuf,
        /// In the words of the system.
        reason: io::Error,
    },
    /// The file would not be read again, because it is too large.
    #[error("{}: the recipe would take more than {}; shorten its notes", shown(path), megabytes(LARGEST_FILE))]
    TooLarge {
        /// As it was given.
        path: PathBuf,
    },
    /// The file would not be read again, because something in it is refused.
    #[error("{}: the recipe would not open again ({reason}); correct that and save again", shown(path))]
    WouldNotOpen {
        /// As it was given.
        path: PathBuf,
        /// What would be refused.
        reason: String,
    },
}

/// A path as it was given, on one line.
fn shown(path: &Path) -> String {
    on_one_line(&path.display().to_string())
}

/// A size for a sentence, in whole megabytes.
#[must_use]
pub fn megabytes(bytes: u64) -> String {
    /// 2^20 bytes, what systems show as one megabyte.
    const MEGABYTE: u64 = 1 << 20;
    format!("{} MB", bytes / MEGABYTE)
}
