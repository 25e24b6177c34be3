//! The exchange of an ingredient in all recipes of a folder: read and worked out, and written only when it is asked for.
//!
//! [`work_out`] changes nothing on the disk. [`Worked::write`] writes one recipe, and only while its file still is the one
//! that was read: what somebody else has changed meanwhile is never written over.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use thiserror::Error;

use super::files::{FileStamp, file_stamp, load_recipe, read_text, save_recipe, stem};
use super::{LoadError, SaveError};
use crate::ingredient::Library;
use crate::reformulate::Outcome;
use crate::reformulate::substitute::{Hold, Substituted, Substitution, SubstitutionError, USUALLY_HELD};

/// A recipe of the folder in which the ingredient is to be exchanged.
#[derive(Debug)]
pub struct Worked {
    /// Its file.
    pub path: PathBuf,
    /// What it is called: its name, or that of its file.
    pub title: String,
    stamp: Option<FileStamp>,
    /// What the exchange does, or why it cannot be done.
    pub result: Result<Substituted, NotWorked>,
}

/// Why a recipe was not worked out.
#[derive(Debug, Error)]
pub enum NotWorked {
    /// The file cannot be used.
    #[error("{0}")]
    Load(#[from] LoadError),
    /// The ingredient cannot be exchanged in it.
    #[error("{0}")]
    Substitution(#[from] SubstitutionError),
}

/// Why a recipe was not written.
#[derive(Debug, Error)]
pub enum NotWritten {
    /// There is no answer to write.
    #[error("{0}: there is nothing to write; the exchange could not be done in it")]
    NoAnswer(String),
    /// The file has changed since it was read.
    #[error("{0}: the file was changed by somebody else meanwhile; work the exchange out again")]
    Changed(String),
    /// The file cannot be written.
    #[error("{0}")]
    Save(#[from] SaveError),
}

/// How far it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// How many files have been looked at.
    pub looked_at: usize,
    /// How many there are.
    pub of: usize,
    /// How many of them use the ingredient.
    pub using: usize,
}

/// An exchange that takes longer than this in one recipe is given up; those of kitchens take far less than a second.
const LONGEST: Duration = Duration::from_secs(10);

/// Works an exchange out in those of the files that use the ingredient; each is told as soon as it is worked out.
///
/// `tell` gets the progress, and the recipe where the file uses the ingredient or cannot be used at all; once it answers
/// `false`, the rest is left. A file that does not even name the ingredient is not parsed.
pub fn work_out(
    files: &[PathBuf],
    substitution: &Substitution,
    library: &Library,
    is_stopped: &dyn Fn() -> bool,
    mut tell: impl FnMut(Progress, Option<Worked>) -> bool,
) {
    let mut progress = Progress { of: files.len(), ..Progress::default() };
    for path in files {
        if is_stopped() {
            return;
        }
        let begun = Instant::now();
        let worked = in_file(path, substitution, library, &|| is_stopped() || begun.elapsed() > LONGEST);
        // Half an answer is none. Of one that came to no end without a word from outside, the others know nothing.
        if is_stopped() && worked.as_ref().is_some_and(Worked::is_stopped) {
            return;
        }
        progress.looked_at += 1;
        progress.using += usize::from(worked.is_some());
        if !tell(progress, worked) {
            return;
        }
    }
}

fn in_file(
    path: &Path,
    substitution: &Substitution,
    library: &Library,
    is_stopped: &dyn Fn() -> bool,
) -> Option<Worked> {
    // Before it is read: a change while it is read must be seen.
    let stamp = file_stamp(path);
    let failed = |why: NotWorked| Worked {
        path: path.to_owned(),
        title: stem(&path.to_string_lossy()).to_owned(),
        stamp,
        result: Err(why),
    };
    match read_text(path) {
        Ok(text) if !text.contains(&substitution.from) => return None,
        Ok(_) => {}
        Err(error) => return Some(failed(error.into())),
    }
    let recipe = match load_recipe(path, library) {
        Ok(recipe) => recipe,
        Err(error) => return Some(failed(error.into())),
    };
    let title = if recipe.name.is_empty() { stem(&path.to_string_lossy()).to_owned() } else { recipe.name.clone() };
    let result = match substitution.of(&recipe, is_stopped) {
        // It is named, but not weighed in.
        Err(SubstitutionError::NotThere(_)) => return None,
        // Nothing would hold it, and that was not what was asked.
        Ok(substituted) if substituted.held.is_empty() => {
            let first = match &substitution.hold {
                Hold::Usual => USUALLY_HELD.first(),
                Hold::These(these) | Hold::TheseWhereThere(these) => these.first(),
            };
            match first {
                Some(of) => Err(SubstitutionError::NoFigure(*of).into()),
                None => Ok(substituted),
            }
        }
        result => result.map_err(NotWorked::from),
    };
    Some(Worked { path: path.to_owned(), title, stamp, result })
}

impl Worked {
    /// Whether there is a recipe to write.
    #[must_use]
    pub fn can_be_written(&self) -> bool {
        self.result.as_ref().is_ok_and(|substituted| substituted.recipe().is_some())
    }

    fn is_stopped(&self) -> bool {
        self.result.as_ref().is_ok_and(|substituted| substituted.outcome == Outcome::Stopped)
    }

    /// Writes the recipe with the exchange over its file.
    ///
    /// # Errors
    ///
    /// [`NotWritten`] where there is no answer, where the file is not the one that was read any more, or where it cannot be
    /// written; it is untouched then.
    pub fn write(&self) -> Result<(), NotWritten> {
        let title = || self.title.clone();
        let recipe =
            self.result.as_ref().ok().and_then(Substituted::recipe).ok_or_else(|| NotWritten::NoAnswer(title()))?;
        if self.stamp.is_none() || file_stamp(&self.path) != self.stamp {
            return Err(NotWritten::Changed(title()));
        }
        Ok(save_recipe(&self.path, recipe)?)
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;
    use crate::analysis::parts::Group;
    use crate::reformulate::measured::Measured;
    use crate::reformulate::substitute::Hold;

    fn substitution() -> Substitution {
        let to = Library::built_in().by_id("almond-paste-pure").expect("built in").clone();
        let hold = Hold::These(vec![Measured::Group(Group::TotalFat)]);
        Substitution { hold, ..Substitution::new("hazelnut-paste", to) }
    }

    fn folder() -> tempfile::TempDir {
        let folder = tempfile::tempdir().expect("a folder");
        let write = |name: &str, lines: &str| {
            let text = format!("(format: 1, name: \"{name}\", kind: praline, lines: [{lines}])");
            fs::write(folder.path().join(format!("{name}.ron")), text).expect("a file");
        };
        let rest = "(ingredient: \"sucrose\", amount: 200), (ingredient: \"cocoa-butter\", amount: 100)";
        write("a", &format!("(ingredient: \"hazelnut-paste\", amount: 300), {rest}"));
        write("b", rest);
        write("c", &format!("(ingredient: \"hazelnut-paste\", amount: 300, locked: true), {rest}"));
        write("d", "(ingredient: \"hazelnut-paste\", amount: ");
        write("e", &format!("(ingredient: \"hazelnut-paste\", amount: 0), {rest}"));
        folder
    }

    fn files(folder: &tempfile::TempDir) -> Vec<PathBuf> {
        ["a", "b", "c", "d", "e"].map(|name| folder.path().join(format!("{name}.ron"))).to_vec()
    }

    fn all(folder: &tempfile::TempDir) -> (Vec<Worked>, Progress) {
        let (mut worked, mut last) = (Vec::new(), Progress::default());
        work_out(&files(folder), &substitution(), Library::built_in(), &|| false, |progress, one| {
            worked.extend(one);
            last = progress;
            true
        });
        (worked, last)
    }

    #[test]
    fn those_that_use_it_are_worked_out_and_nothing_is_written() {
        let folder = folder();
        let before: Vec<String> =
            files(&folder).iter().map(|path| fs::read_to_string(path).expect("it is there")).collect();
        let (worked, progress) = all(&folder);
        let told: Vec<(&str, bool)> = worked.iter().map(|one| (one.title.as_str(), one.can_be_written())).collect();
        assert_eq!(told, [("a", true), ("c", false), ("d", false)]);
        assert_eq!(progress, Progress { looked_at: 5, of: 5, using: 3 });
        assert!(matches!(worked[1].result, Err(NotWorked::Substitution(SubstitutionError::Locked))));
        assert!(matches!(worked[2].result, Err(NotWorked::Load(_))));
        let after: Vec<String> =
            files(&folder).iter().map(|path| fs::read_to_string(path).expect("it is there")).collect();
        assert_eq!(before, after);
    }

    #[test]
    fn one_is_written_when_it_is_asked_for() {
        let folder = folder();
        let (worked, _) = all(&folder);
        worked[0].write().expect("it can be written");
        let recipe = load_recipe(&worked[0].path, Library::built_in()).expect("it opens");
        assert_eq!(recipe.lines[0].ingredient.id, "almond-paste-pure");
        assert!(matches!(worked[1].write(), Err(NotWritten::NoAnswer(_))));
    }

    #[test]
    fn what_was_changed_meanwhile_is_not_written_over() {
        let folder = folder();
        let (worked, _) = all(&folder);
        let other = "(format: 1, name: \"another\", lines: [])";
        fs::write(&worked[0].path, other).expect("a file");
        assert!(matches!(worked[0].write(), Err(NotWritten::Changed(_))));
        assert_eq!(fs::read_to_string(&worked[0].path).expect("it is there"), other);
    }

    #[test]
    fn it_can_be_stopped() {
        let folder = folder();
        let mut told = 0;
        work_out(&files(&folder), &substitution(), Library::built_in(), &|| false, |_, _| {
            told += 1;
            told < 2
        });
        assert_eq!(told, 2);
        work_out(&files(&folder), &substitution(), Library::built_in(), &|| true, |_, _| panic!("stopped before"));
    }
}
