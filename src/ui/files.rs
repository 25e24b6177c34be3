//! File dialogs of the system, each in a thread of its own: the window never waits for one.
//!
//! On Linux a dialog that cannot be shown looks like one that was cancelled. An answer that comes faster than a hand
//! can move therefore counts as "there is no dialog", and the window offers a field for the path instead.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

/// What the dialog is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asking {
    /// Which recipe to open.
    Open,
    /// Where to write the recipe.
    Save {
        /// The file name that is proposed.
        name: String,
    },
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// A path was chosen.
    Chosen(PathBuf),
    /// Nothing was chosen.
    Cancelled,
    /// No dialog could be shown.
    NoDialog,
}

/// How the window asks for files.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FileDialogs {
    /// With the dialogs of the system, and with a field for the path where there are none.
    #[default]
    System,
    /// With a field for the path, always: nothing outside the window has a part in it.
    InWindow,
}

/// A dialog that is open.
#[derive(Debug)]
pub struct FileDialog {
    /// What it is for.
    pub asking: Asking,
    answers: Receiver<Answer>,
}

/// Nobody sees a dialog come and cancels it faster than this; a desktop without one answers faster.
const FASTEST_CANCEL: Duration = Duration::from_secs(1);

/// The ending of recipe files.
const EXTENSION: &str = "ron";

impl FileDialog {
    /// Shows a dialog that starts in a folder; the context is woken when it has an answer.
    #[must_use]
    pub fn show(asking: Asking, folder: Option<PathBuf>, ctx: &egui::Context) -> Self {
        let (sender, answers) = channel();
        let (ctx, question) = (ctx.clone(), asking.clone());
        let spawned = std::thread::Builder::new().name("file dialog".to_owned()).spawn(move || {
            let since = Instant::now();
            let mut dialog = rfd::FileDialog::new().add_filter("Recipe", &[EXTENSION]);
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            let chosen = match question {
                Asking::Open => dialog.set_title("Open a recipe").pick_file(),
                Asking::Save { name } => dialog.set_title("Save the recipe").set_file_name(name).save_file(),
            };
            // The window may be gone by now; then nobody needs the answer.
            let _ = sender.send(match chosen {
                Some(path) => Answer::Chosen(path),
                None if since.elapsed() < FASTEST_CANCEL => Answer::NoDialog,
                None => Answer::Cancelled,
            });
            ctx.request_repaint();
        });
        if let Err(error) = spawned {
            log::warn!("no thread for the file dialog: {error}");
        }
        Self { asking, answers }
    }

    /// The answer, if there is one.
    #[must_use]
    pub fn answer(&self) -> Option<Answer> {
        match self.answers.try_recv() {
            Ok(answer) => Some(answer),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Answer::NoDialog),
        }
    }
}

/// The path with the ending of recipe files; "ganache 2.5 kg" gets one too.
#[must_use]
pub fn with_extension(path: PathBuf) -> PathBuf {
    if path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case(EXTENSION)) {
        return path;
    }
    let mut name = path.into_os_string();
    name.push(".");
    name.push(EXTENSION);
    PathBuf::from(name)
}

/// A file name for a recipe: its name in small letters, blanks as hyphens, nothing that a file system minds.
#[must_use]
pub fn file_name(recipe_name: &str) -> String {
    let folded = crate::ingredient::search::fold(recipe_name);
    let words: Vec<String> = folded
        .split(|character: char| !character.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    let stem = if words.is_empty() { "recipe".to_owned() } else { words.join("-") };
    format!("{stem}.{EXTENSION}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_recipe_file_has_the_ending() {
        let named = |name: &str| with_extension(PathBuf::from(name));
        assert_eq!(named("a/ganache"), PathBuf::from("a/ganache.ron"));
        assert_eq!(named("Ganache 2.5 kg"), PathBuf::from("Ganache 2.5 kg.ron"));
        assert_eq!(named("ganache.RON"), PathBuf::from("ganache.RON"));
    }

    #[test]
    fn file_names_are_plain() {
        assert_eq!(file_name("Crème brûlée, n° 2/b"), "creme-brulee-n-2-b.ron");
        assert_eq!(file_name("  "), "recipe.ron");
    }
}
