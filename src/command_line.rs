//! The work of the program without a window.
//!
//! * [`table`]: a plain table of ingredients and amounts, as text, becomes a recipe.

pub mod table;
