//! Starts Nibwright: a command of the command line, or the window.

#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

use std::process::ExitCode;

use clap::Parser as _;
use nibwright::command_line::{Arguments, Failure};

/// What is logged unless `RUST_LOG` says otherwise. What the toolkit reports says nothing to a user: where it matters,
/// the program says it in a sentence of its own.
const LOGGED: &str = "nibwright=error";

fn main() -> ExitCode {
    env_logger::Builder::from_env(env_logger::Env::default().default_filter_or(LOGGED)).init();
    let arguments = Arguments::parse();
    let result = match arguments.command {
        Some(command) => command.run().and_then(|text| Ok(print_all(&text)?)),
        None => open_window(arguments.file).map_err(Failure::from),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            if let Some(Err(sentence)) = failure.output.as_deref().map(print_all) {
                tell(&sentence);
            }
            tell(&failure.to_string());
            ExitCode::from(failure.code)
        }
    }
}

/// Says why something failed; whether anybody listens does not matter.
fn tell(sentence: &str) {
    use std::io::Write as _;
    let _unheard = writeln!(std::io::stderr(), "{sentence}");
}

/// Prints the text; a reader that has closed its end (`nibwright report … | head`) is no error.
fn print_all(text: &str) -> Result<(), String> {
    use std::io::Write as _;
    let mut output = std::io::stdout();
    match output.write_all(text.as_bytes()).and_then(|()| output.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(format!("the report could not be written ({error}); free some space or write it elsewhere"))
        }
        _ => Ok(()),
    }
}

#[cfg(feature = "gui")]
fn open_window(file: Option<std::path::PathBuf>) -> Result<(), String> {
    nibwright::ui::run(file)
}

#[cfg(not(feature = "gui"))]
fn open_window(_file: Option<std::path::PathBuf>) -> Result<(), String> {
    Err("this build has no window; use `nibwright report FILE`".to_owned())
}
