//! The window (feature `gui`): the only part that knows the toolkit.
//!
//! * [`app`]: the program between two frames; carries actions out.
//! * [`view`]: what is shown, and the actions that panels hand over.
//! * [`command`]: everything that can be asked for by name, with its keys.
//! * [`panels`]: menu bar, shelf, sheet, readings, thermometer, status bar.
//! * [`dialogs`], [`toast`], [`files`]: what comes and goes.
//! * [`exchange`]: what is asked of an exchange of an ingredient; [`worker`]: work away from the window.
//! * [`picture`]: a drawing as PNG.
//! * [`theme`], [`widgets`], [`plot`]: how it looks.
//! * [`text`], [`explanations`]: its words.

pub mod app;
pub mod clipboard;
pub mod command;
pub mod dialogs;
pub mod exchange;
pub mod explanations;
pub mod files;
pub mod panels;
pub mod picture;
pub mod plot;
pub mod samples;
mod start;
pub mod targets;
pub mod text;
pub mod theme;
pub mod toast;
pub mod view;
pub mod widgets;
pub mod worker;

pub use start::run;
