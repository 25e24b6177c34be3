//! Nibwright: a workbench for masses that contain cocoa butter.

pub mod analysis;
pub mod command_line;
pub mod document;
pub mod ingredient;
pub mod number;
pub mod recipe;
pub mod report;
pub mod source;
pub mod store;
#[cfg(feature = "gui")]
pub mod ui;
pub mod units;
