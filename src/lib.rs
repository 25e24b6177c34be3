//! Nibwright: a workbench for masses that contain cocoa butter.
#![expect(missing_docs, reason = "while the crate is built up")]

pub mod analysis;
pub mod document;
pub mod ingredient;
pub mod number;
pub mod recipe;
pub mod report;
pub mod source;
pub mod units;
