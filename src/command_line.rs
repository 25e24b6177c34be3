//! The command line: arguments in, report out, exit code. It shares every line of computation with the window.
//!
//! `nibwright [FILE]` opens the window, `nibwright report FILE` prints what the readings show.
//! Exit code 0 for success, 2 with one sentence on standard error for everything that cannot be used.

mod report;
pub mod table;

use std::path::PathBuf;

use clap::{Parser, Subcommand};

pub use report::{Format, ReportArguments};

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
}

impl Command {
    /// Carries the command out; gives back what goes to standard output.
    ///
    /// # Errors
    ///
    /// One sentence for the user: what is wrong, where, and what to do.
    pub fn run(&self) -> Result<String, String> {
        match self {
            Self::Report(arguments) => arguments.run(),
        }
    }
}
