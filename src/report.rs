//! Results in forms that leave the program: words, text, JSON.
//!
//! * [`figure`]: a plot as data; [`figures`]: the plots of the readings.
//! * [`drawing`]: a plot as lines, areas and words on white paper; [`svg`]: a drawing as a file of its own.
//! * [`hue`]: the groups of components with their colours.
//! * [`words`]: what findings, figures and limits are called and explained as, for window and text alike.
//! * [`text`]: the report that a person reads in a terminal.
//! * [`json`]: the report that another program reads; a public interface, changed only by adding.

pub mod drawing;
pub mod figure;
pub mod figures;
pub mod hue;
pub mod json;
pub mod svg;
pub mod text;
pub mod words;
