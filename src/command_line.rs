//! The command line: arguments in, report out, exit code. It shares every line of computation with the window.
//!
//! `nibwright [FILE]` opens the window, `nibwright report FILE` prints what the readings show, `nibwright scale FILE…` what to
//! weigh.
//! Exit code 0 for success; otherwise one sentence on standard error, and 2 for everything that cannot be used, 3 for what is
//! understood and cannot be done ([`Failure`]).

mod input;
mod named;
mod output;
mod reformulate;
mod report;
mod scale;
mod substitute;
pub mod table;

use std::fmt;
use std::path::PathBuf;

use clap::{Parser, Subcommand};

pub use reformulate::ReformulateArguments;
pub use report::{Format, ReportArguments};
pub use scale::ScaleArguments;
pub use substitute::SubstituteArguments;

/// A workbench for masses that contain cocoa butter: composition, emulsion, fat crystals, seeding.
#[derive(Debug, Parser)]
#[command(name = "nibwright", version, about, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do; without a command the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The recipe to open in the window; without one a sample opens.
    pub file: Option<PathBuf>,
}

/// What can be done without the window.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print everything that the readings show about a recipe.
    Report(ReportArguments),
    /// Find the nearest recipe that does what is asked, or say why there is none.
    Reformulate(Box<ReformulateArguments>),
    /// Print what to weigh today: a recipe scaled to a mass, to pieces or frames, or to an ingredient at hand.
    Scale(Box<ScaleArguments>),
    /// Exchange an ingredient for another in recipes and hold the results that matter.
    Substitute(SubstituteArguments),
}

/// Why a command did not do what it was asked for: the exit code, and one sentence for the user.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    /// The exit code: [`Failure::UNUSABLE`] or [`Failure::IMPOSSIBLE`].
    pub code: u8,
    /// What is wrong, where, and what to do.
    pub sentence: String,
    /// What goes to standard output all the same: the reasons in full.
    pub output: Option<String>,
}

impl Failure {
    /// The exit code where a file or an argument cannot be used.
    pub const UNUSABLE: u8 = 2;
    /// The exit code where everything is understood, and what is asked for cannot be done.
    pub const IMPOSSIBLE: u8 = 3;

    /// A file or an argument cannot be used.
    #[must_use]
    pub fn unusable(sentence: impl Into<String>) -> Self {
        Self { code: Self::UNUSABLE, sentence: sentence.into(), output: None }
    }

    /// What is asked for cannot be done.
    #[must_use]
    pub fn impossible(sentence: impl Into<String>) -> Self {
        Self { code: Self::IMPOSSIBLE, sentence: sentence.into(), output: None }
    }
}

impl Failure {
    /// With what goes to standard output all the same.
    #[must_use]
    pub fn with_output(self, output: String) -> Self {
        Self { output: Some(output), ..self }
    }
}

impl From<String> for Failure {
    /// A sentence alone is about something that cannot be used: every reader of files and arguments gives such ones.
    fn from(sentence: String) -> Self {
        Self::unusable(sentence)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.sentence)
    }
}

impl Command {
    /// Carries the command out; gives back what goes to standard output.
    ///
    /// # Errors
    ///
    /// [`Failure`]: the exit code, and what is wrong, where, and what to do.
    pub fn run(&self) -> Result<String, Failure> {
        match self {
            Self::Report(arguments) => Ok(arguments.run()?),
            Self::Reformulate(arguments) => arguments.run(),
            Self::Scale(arguments) => arguments.run(),
            Self::Substitute(arguments) => arguments.run(),
        }
    }
}
