//! What to weigh today: a recipe brought to the mass, the moulds and the scale of a working day, and what it costs.
//!
//! This is arithmetic on a recipe and its analysis: nothing here changes a recipe, and nothing here reads a file.

pub mod density;
pub mod deposit;
pub mod frame;
pub mod losses;
pub mod mould;
pub mod rounding;
