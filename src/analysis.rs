//! What follows from a recipe: one model per file, every formula with its papers.
//!
//! Models take typed quantities and answer with typed quantities; they know no files, no window and no clock.
//!
//! * [`fat`]: which part of the fat is solid at a temperature, and up to where the crystals live.

pub mod fat;
