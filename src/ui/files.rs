//! File dialogs of the system, each in a thread of its own: the window never waits for one.
//!
//! On Linux a dialog that cannot be shown looks like one that was cancelled. An answer that comes faster than a hand
//! can move therefore counts as "there is no dialog", and the window offers a field for the path instead.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

use crate::recipe::Recipe;
use crate::report::drawing::Drawing;

/// What the dialog is for.
#[derive(Clone, Debug, PartialEq)]
pub enum Asking {
    /// Which recipe to open.
    Open,
    /// Where to write the recipe.
    Save {
        /// The file name that is proposed.
        name: String,
    },
    /// Where to write a recipe that is not the one that is open.
    SaveCopy {
        /// The file name that is proposed.
        name: String,
        /// The recipe as it stood when it was asked for.
        recipe: Arc<Recipe>,
    },
    /// Where to write a plot.
    SavePlot {
        /// The file name that is proposed.
        name: String,
        /// What it is written as if the chosen name does not say it.
        form: PlotForm,
        /// The plot as it stood when it was asked for: the recipe may change while the dialog is open.
        drawing: Arc<Drawing>,
    },
}

/// What a plot is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlotForm {
    /// Lines and words, sharp at every size.
    Svg,
    /// Points of a picture.
    Png,
}

impl PlotForm {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Svg, Self::Png];

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Svg => "SVG",
            Self::Png => "PNG",
        }
    }

    /// The ending of its files.
    #[must_use]
    pub fn ending(self) -> &'static str {
        match self {
            Self::Svg => "svg",
            Self::Png => "png",
        }
    }

    /// What the ending of a path asks for.
    #[must_use]
    pub fn of_path(path: &Path) -> Option<Self> {
        let ending = path.extension()?;
        Self::ALL.into_iter().find(|form| ending.eq_ignore_ascii_case(form.ending()))
    }
}

impl Asking {
    /// Its title, and the word on its button.
    #[must_use]
    pub fn words(&self) -> (&'static str, &'static str) {
        match self {
            Self::Open => ("Open a recipe", "Open"),
            Self::Save { .. } => ("Save the recipe", "Save"),
            Self::SaveCopy { .. } => ("Save the new recipe", "Save"),
            Self::SavePlot { .. } => ("Save the plot", "Save"),
        }
    }

    /// The file name that is proposed; `None` where a file is chosen that is there.
    #[must_use]
    pub fn name(&self) -> Option<&str> {
        match self {
            Self::Open => None,
            Self::Save { name } | Self::SaveCopy { name, .. } | Self::SavePlot { name, .. } => Some(name),
        }
    }

    /// The path with the ending that the file needs; "ganache 2.5 kg" gets one too.
    #[must_use]
    pub fn with_ending(&self, path: PathBuf) -> PathBuf {
        match self {
            Self::Open => path,
            Self::Save { .. } | Self::SaveCopy { .. } => with_ending(path, EXTENSION),
            Self::SavePlot { .. } if PlotForm::of_path(&path).is_some() => path,
            Self::SavePlot { form, .. } => with_ending(path, form.ending()),
        }
    }

    /// Kinds of files that a dialog lists, the one that is meant first: their names and endings.
    fn filters(&self) -> Vec<(&'static str, &'static str)> {
        match self {
            Self::Open | Self::Save { .. } | Self::SaveCopy { .. } => vec![("Recipe", EXTENSION)],
            Self::SavePlot { form: meant, .. } => {
                let others = PlotForm::ALL.into_iter().filter(|form| form != meant);
                [*meant].into_iter().chain(others).map(|form| (form.words(), form.ending())).collect()
            }
        }
    }
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
            let mut dialog = rfd::FileDialog::new().set_title(question.words().0);
            for (name, ending) in question.filters() {
                dialog = dialog.add_filter(name, &[ending]);
            }
            if let Some(folder) = folder {
                dialog = dialog.set_directory(folder);
            }
            let chosen = match question.name() {
                None => dialog.pick_file(),
                Some(name) => dialog.set_file_name(name).save_file(),
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

fn with_ending(path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case(ending)) {
        return path;
    }
    let mut name = path.into_os_string();
    name.push(".");
    name.push(ending);
    PathBuf::from(name)
}

/// A file name for a recipe: its name in small letters, blanks as hyphens, nothing that a file system minds.
#[must_use]
pub fn file_name(recipe_name: &str) -> String {
    format!("{}.{EXTENSION}", stem(recipe_name))
}

/// A file name for a plot of a recipe: "dark-cut-ganache-solid-fat.svg".
#[must_use]
pub fn plot_file_name(recipe_name: &str, plot: &str, form: PlotForm) -> String {
    format!("{}-{plot}.{}", stem(recipe_name), form.ending())
}

fn stem(recipe_name: &str) -> String {
    let folded = crate::ingredient::search::fold(recipe_name);
    let words: Vec<&str> =
        folded.split(|character: char| !character.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    if words.is_empty() { "recipe".to_owned() } else { words.join("-") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_recipe_file_has_the_ending() {
        let asking = Asking::Save { name: String::new() };
        let named = |name: &str| asking.with_ending(PathBuf::from(name));
        assert_eq!(named("a/ganache"), PathBuf::from("a/ganache.ron"));
        assert_eq!(named("Ganache 2.5 kg"), PathBuf::from("Ganache 2.5 kg.ron"));
        assert_eq!(named("ganache.RON"), PathBuf::from("ganache.RON"));
    }

    #[test]
    fn the_ending_says_what_a_plot_is_written_as() {
        let drawing = Drawing { size: [1.0, 1.0], title: String::new(), in_words: String::new(), shapes: Vec::new() };
        let asking = Asking::SavePlot { name: String::new(), form: PlotForm::Svg, drawing: Arc::new(drawing) };
        let named = |name: &str| asking.with_ending(PathBuf::from(name));
        assert_eq!(named("a"), PathBuf::from("a.svg"));
        assert_eq!(named("a.PNG"), PathBuf::from("a.PNG"));
        assert_eq!(named("a 2.5"), PathBuf::from("a 2.5.svg"));
        assert_eq!(PlotForm::of_path(&named("a.PNG")), Some(PlotForm::Png));
        assert_eq!(asking.filters(), [("SVG", "svg"), ("PNG", "png")]);
    }

    #[test]
    fn file_names_are_plain() {
        assert_eq!(file_name("Crème brûlée, n° 2/b"), "creme-brulee-n-2-b.ron");
        assert_eq!(file_name("  "), "recipe.ron");
        assert_eq!(plot_file_name("Ganache n° 2", "solid-fat", PlotForm::Png), "ganache-n-2-solid-fat.png");
    }
}
