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
    /// There is no such folder.
    #[error("The folder {} does not exist; choose another folder", shown(folder))]
    MissingFolder {
        /// The folder.
        folder: PathBuf,
    },
    /// The folder takes no new file.
    #[error("Nothing can be written into the folder {}: {}", shown(folder), advice(reason))]
    Folder {
        /// As it was given.
        path: PathBuf,
        /// The folder.
        folder: PathBuf,
        /// In the words of the system.
        reason: io::Error,
    },
    /// The disk is full, or another failure while writing.
    #[error("{}: the file could not be written: {}", shown(path), advice(reason))]
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

/// A failure of the system in plain words, with what to do.
///
/// Without the path that the system adds: it is that of a temporary file, which nobody knows.
fn advice(reason: &io::Error) -> String {
    let known = match reason.kind() {
        io::ErrorKind::PermissionDenied => "you have no permission for that; save elsewhere",
        io::ErrorKind::ReadOnlyFilesystem => "the disk can only be read; save elsewhere",
        io::ErrorKind::StorageFull => "the disk is full; free some space or save elsewhere",
        io::ErrorKind::QuotaExceeded => "your share of the disk is used up; free some space or save elsewhere",
        io::ErrorKind::FileTooLarge => "the file is too large for this disk; save elsewhere",
        io::ErrorKind::InvalidFilename => "the disk does not take this name; choose a shorter and plainer one",
        io::ErrorKind::NotADirectory => "a part of the path is a file and no folder; choose a folder",
        _ => "",
    };
    if !known.is_empty() {
        return known.to_owned();
    }
    let words = std::error::Error::source(reason).map_or_else(|| reason.to_string(), ToString::to_string);
    let words = words.split(" (os error").next().unwrap_or_default();
    format!("{}; save elsewhere", on_one_line(words))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_system_is_translated() {
        let folder = |kind: io::ErrorKind| {
            let reason = io::Error::new(kind, "in the words of the system at path \".tmp\"");
            SaveError::Folder { path: PathBuf::from("a/b.ron"), folder: PathBuf::from("a"), reason }.to_string()
        };
        for (kind, words) in [
            (io::ErrorKind::PermissionDenied, "Nothing can be written into the folder a: you have no permission"),
            (io::ErrorKind::ReadOnlyFilesystem, "Nothing can be written into the folder a: the disk can only be read"),
            (io::ErrorKind::StorageFull, "Nothing can be written into the folder a: the disk is full; free some space"),
            (io::ErrorKind::NotADirectory, "Nothing can be written into the folder a: a part of the path is a file"),
        ] {
            let sentence = folder(kind);
            assert!(sentence.starts_with(words) && !sentence.contains("tmp"), "{sentence}");
        }
        // What has no words of our own keeps those of the system, without its number.
        let reason = io::Error::from_raw_os_error(5);
        let sentence = SaveError::Write { path: PathBuf::from("a.ron"), reason }.to_string();
        assert!(sentence.ends_with("; save elsewhere") && !sentence.contains("os error"), "{sentence}");
    }
}
