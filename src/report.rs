//! Results in forms that leave the program: words, text, JSON.
//!
//! * [`words`]: what findings, figures and limits are called and explained as, for window and text alike.
//! * [`text`]: the report that a person reads in a terminal.
//! * [`json`]: the report that another program reads; a public interface, changed only by adding.

pub mod json;
pub mod text;
pub mod words;
