//! The pieces that panels are built of.
//!
//! A widget takes plain data and answers what happened to it; it knows neither recipes nor analyses, so that each can
//! be shown and tested alone.
//! All of them take their look from [`super::theme`], can be reached by keyboard where they can be acted on, and carry
//! a name for assistive technologies.
//! None asks for another frame by itself.

pub mod number_cell;

pub use number_cell::{Leave, NumberCell, NumberCellOutput, NumberEvent};
