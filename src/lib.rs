//! Nibwright: a workbench for masses that contain cocoa butter.
#![expect(missing_docs, reason = "while the crate is built up")]

pub mod ingredient;
pub mod recipe;
pub mod source;
pub mod store;
pub mod units;
