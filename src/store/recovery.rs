//! Copies of unsaved work, in the state folder, never over the user's file.
//!
//! A copy is an ordinary recipe file with two comment lines in front, so it opens even without this module.
//! Each running program has a *session*: a lock file that the system releases when the program ends, however it
//! ends. Copies whose session is not locked any more are left over from a crash and are offered at the next start.

use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::error::{LoadError, SaveError};
use super::files::stem;
use super::files::{load_recipe, save_with_heading};
use super::format::name_of;
use super::places::Places;
use super::shelf::beginning;
use crate::ingredient::Library;
use crate::recipe::Recipe;

/// The copies of unsaved work of this run of the program.
#[derive(Debug)]
pub struct Recovery {
    folder: PathBuf,
    session: String,
    /// Locked while the program runs.
    lock: File,
}

/// A copy of unsaved work that a program left behind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leftover {
    /// The copy.
    pub path: PathBuf,
    /// The file that was being worked on; `None` for work that was never saved.
    pub original: Option<PathBuf>,
    /// The name of the recipe.
    pub name: String,
    /// When the copy was written.
    pub written: Option<SystemTime>,
}

/// In front of the path of the file that was being worked on, in the second line of a copy.
const ORIGINAL: &str = "// original: ";

impl Recovery {
    /// Begins a session.
    ///
    /// # Errors
    ///
    /// [`SaveError`] when the state folder takes no file; the program then runs without copies.
    pub fn start(places: &Places) -> Result<Self, SaveError> {
        let folder = places.recovery();
        let refuse = |reason: io::Error| SaveError::Folder { path: folder.clone(), folder: folder.clone(), reason };
        fs::create_dir_all(&folder).map_err(refuse)?;
        // A system gives the number of an ended process to a later one, whose copies must not mix with the old ones.
        let process = std::process::id();
        let mut number = 0_u32;
        loop {
            let session = format!("{process}.{number}");
            match File::create_new(lock_path(&folder, &session)) {
                Ok(lock) => {
                    if let Err(error) = lock.lock() {
                        log::warn!("{}: no lock, copies may be offered while in use: {error}", folder.display());
                    }
                    return Ok(Self { folder, session, lock });
                }
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < u32::MAX => number += 1,
                Err(error) => return Err(refuse(error)),
            }
        }
    }

    /// Keeps a copy of unsaved work; it replaces the earlier one of the same file.
    ///
    /// # Errors
    ///
    /// [`SaveError`] when it could not be written.
    pub fn write(&self, original: Option<&Path>, recipe: &Recipe) -> Result<(), SaveError> {
        let original_text = original.map(|path| path.to_string_lossy().escape_debug().to_string());
        let heading = format!(
            "// A copy of unsaved work, kept by Nibwright.\n{}",
            original_text.map(|text| format!("{ORIGINAL}{text}\n")).unwrap_or_default()
        );
        save_with_heading(&self.path_of(original), &heading, recipe)
    }

    /// Drops the copy of a file that was saved or closed.
    pub fn remove(&self, original: Option<&Path>) {
        remove_file(&self.path_of(original));
    }

    /// The copies that ended programs have left behind, the newest first.
    #[must_use]
    pub fn leftovers(&self) -> Vec<Leftover> {
        let mut leftovers: Vec<Leftover> =
            self.copies_of_ended_sessions().into_iter().map(|path| Leftover::of_copy(&path)).collect();
        leftovers.sort_by(|left, right| right.written.cmp(&left.written).then_with(|| left.path.cmp(&right.path)));
        leftovers
    }

    /// Lists copies whose session is not locked, and clears away lock files that lock nothing any more.
    fn copies_of_ended_sessions(&self) -> Vec<PathBuf> {
        let entries = match fs::read_dir(&self.folder) {
            Ok(entries) => entries.filter_map(Result::ok).map(|entry| entry.path()).collect::<Vec<_>>(),
            Err(error) => {
                log::warn!("{}: unsaved work cannot be looked for: {error}", self.folder.display());
                return Vec::new();
            }
        };
        let (locks, others): (Vec<_>, Vec<_>) = entries.into_iter().partition(|path| has_extension(path, "lock"));
        let mut running = vec![self.session.clone()];
        for lock in locks {
            let session = stem(&lock.to_string_lossy()).to_owned();
            if session == self.session {
                continue;
            }
            if is_locked(&lock) {
                running.push(session);
            } else if !others.iter().any(|path| session_of(path).as_ref() == Some(&session)) {
                remove_file(&lock);
            }
        }
        others
            .into_iter()
            .filter(|path| has_extension(path, "ron"))
            .filter(|path| session_of(path).is_some_and(|session| !running.contains(&session)))
            .collect()
    }

    /// One copy for each file that is worked on.
    fn path_of(&self, original: Option<&Path>) -> PathBuf {
        let of_file = match original {
            Some(path) => format!("{:016x}", hash(path.as_os_str().as_encoded_bytes())),
            None => "untitled".to_owned(),
        };
        self.folder.join(format!("{}-{of_file}.ron", self.session))
    }
}

impl Drop for Recovery {
    /// Ends the session; copies that were not removed stay for the next start.
    fn drop(&mut self) {
        let has_copies = fs::read_dir(&self.folder).is_ok_and(|entries| {
            entries.filter_map(Result::ok).any(|entry| session_of(&entry.path()).as_ref() == Some(&self.session))
        });
        if let Err(error) = self.lock.unlock() {
            log::debug!("{}: {error}", self.folder.display());
        }
        if !has_copies {
            remove_file(&lock_path(&self.folder, &self.session));
        }
    }
}

impl Leftover {
    /// The recipe of the copy. Call [`Leftover::discard`] when the work is kept in another place.
    ///
    /// # Errors
    ///
    /// [`LoadError`] when the copy does not open.
    pub fn restore(&self, library: &Library) -> Result<Recipe, LoadError> {
        load_recipe(&self.path, library)
    }

    /// Deletes the copy.
    pub fn discard(&self) {
        remove_file(&self.path);
    }

    fn of_copy(path: &Path) -> Self {
        let text = beginning(path).unwrap_or_default();
        let original = text
            .lines()
            .take_while(|line| line.starts_with("//"))
            .find_map(|line| line.strip_prefix(ORIGINAL))
            .and_then(unescaped);
        let name = name_of(&text)
            .or_else(|| original.as_deref().map(|path| stem(&path.to_string_lossy()).to_owned()))
            .unwrap_or_else(|| "Recipe without a name".to_owned());
        let written = fs::metadata(path).and_then(|metadata| metadata.modified()).ok();
        Self { path: path.to_owned(), original, name, written }
    }
}

fn lock_path(folder: &Path, session: &str) -> PathBuf {
    folder.join(format!("{session}.lock"))
}

/// The session that a copy belongs to.
fn session_of(copy: &Path) -> Option<String> {
    let name = copy.file_name()?.to_str()?;
    name.split_once('-').map(|(session, _)| session.to_owned())
}

fn has_extension(path: &Path, extension: &str) -> bool {
    path.extension().is_some_and(|of_path| of_path == extension)
}

/// Whether a running program holds the lock.
fn is_locked(lock: &Path) -> bool {
    File::open(lock).is_ok_and(|file| matches!(file.try_lock(), Err(TryLockError::WouldBlock)))
}

/// A path that was written with `escape_debug`.
fn unescaped(text: &str) -> Option<PathBuf> {
    ron::from_str::<String>(&format!("\"{text}\"")).ok().map(PathBuf::from)
}

/// Deletes a file of ours; that it is gone already is no failure.
fn remove_file(path: &Path) {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            log::warn!("{}: could not be removed: {error}", path.display());
        }
        _ => {}
    }
}

/// FNV-1a, 64 bits: the same for the same path in every version of the program, which names files by it.
///
/// Offset basis and prime: G. Fowler, L. C. Noll, K.-P. Vo, IETF draft "The FNV non-cryptographic hash algorithm".
fn hash(bytes: &[u8]) -> u64 {
    const OFFSET_BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    bytes.iter().fold(OFFSET_BASIS, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::Quantity;

    fn recipe(name: &str) -> Recipe {
        let mut recipe = Recipe { name: name.to_owned(), ..Recipe::default() };
        let cream = Library::built_in().by_id("cream-35").expect("it is built in");
        recipe.push(cream.clone(), Quantity::from_grams(200.0).expect("an amount"));
        recipe
    }

    fn places() -> (tempfile::TempDir, Places) {
        let folder = tempfile::tempdir().expect("a folder");
        let places = Places::under(folder.path());
        (folder, places)
    }

    /// Published check values of the draft named at [`hash`].
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(hash(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(hash(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(hash(b"foobar"), 0x8594_4171_f739_67e8);
    }

    #[test]
    fn unsaved_work_of_a_program_that_ended_is_offered_and_restored() {
        let (_folder, places) = places();
        let original = Path::new("/recipes/a \"quoted\"\nname é.ron");
        let ended = Recovery::start(&places).expect("a session");
        ended.write(Some(original), &recipe("Old")).expect("it can be written");
        ended.write(Some(original), &recipe("Dark")).expect("it can be written again");
        ended.write(None, &recipe("")).expect("it can be written");
        drop(ended);

        let now = Recovery::start(&places).expect("a session");
        let leftovers = now.leftovers();
        let of_file = leftovers.iter().find(|leftover| leftover.original.is_some()).expect("it was left");
        let untitled = leftovers.iter().find(|leftover| leftover.original.is_none()).expect("it was left");
        assert_eq!(leftovers.len(), 2);
        assert_eq!(of_file.original.as_deref(), Some(original));
        assert_eq!(of_file.name, "Dark");
        assert!(of_file.written.is_some());
        assert_eq!(of_file.restore(&Library::default()).expect("it opens"), recipe("Dark"));
        assert_eq!(untitled.name, "Recipe without a name");
        of_file.discard();
        untitled.discard();
        assert_eq!(now.leftovers(), []);
        // Nothing but this session's own lock is left.
        assert_eq!(fs::read_dir(places.recovery()).expect("a folder").count(), 1);
    }

    #[test]
    fn unsaved_work_of_a_running_program_is_left_alone() {
        let (_folder, places) = places();
        let running = Recovery::start(&places).expect("a session");
        running.write(None, &recipe("Dark")).expect("it can be written");
        let other = Recovery::start(&places).expect("a second session of the same process");
        assert_eq!(other.leftovers(), []);
        assert_eq!(running.leftovers(), []);
        drop(running);
        assert_eq!(other.leftovers().len(), 1);
    }

    #[test]
    fn what_was_saved_leaves_nothing_behind() {
        let (_folder, places) = places();
        let session = Recovery::start(&places).expect("a session");
        session.write(Some(Path::new("a.ron")), &recipe("Dark")).expect("it can be written");
        session.remove(Some(Path::new("a.ron")));
        session.remove(Some(Path::new("never-written.ron")));
        drop(session);
        assert_eq!(fs::read_dir(places.recovery()).expect("a folder").count(), 0);
    }

    #[test]
    fn a_damaged_copy_is_offered_and_says_why_it_does_not_open() {
        let (_folder, places) = places();
        let now = Recovery::start(&places).expect("a session");
        fs::write(places.recovery().join("1.0-untitled.ron"), b"(format: 1, lines: [").expect("a file");
        let leftovers = now.leftovers();
        let error = leftovers[0].restore(&Library::default()).expect_err("it is cut off").to_string();
        assert!(error.contains("1.0-untitled.ron:1:20: the file ends before"), "{error}");
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_said() {
        let (folder, _) = places();
        let taken = folder.path().join("taken");
        fs::write(&taken, b"").expect("a file");
        let error = Recovery::start(&Places::under(&taken)).expect_err("a file is in the way").to_string();
        assert!(error.contains("Nothing can be written into"), "{error}");
    }
}
