//! The water model held against published figures, against itself computed elsewhere, and against what must be true.

mod measured;
mod properties;
mod reference;
