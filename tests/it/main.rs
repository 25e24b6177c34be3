//! The program held against things outside it, in one binary. The modules mirror `src/`.
//!
//! Beside each check stands in words where its figure comes from: a published text, a law, a sum by hand. What was taken
//! from memory of the named text says so, and a habit of the trade is "common practice, no published source".

#![expect(clippy::expect_used, clippy::panic, reason = "what a check rests on is there, or the check fails")]

mod brought;
mod cautions;
mod command_line;
mod cooking;
mod documentation;
mod emulsion;
mod layering;
mod make_up;
mod mixing;
mod plan;
mod properties;
mod reformulate;
mod seeding;
mod setting;
mod store;
mod support;
mod text_report;
#[cfg(feature = "gui")]
mod ui;
#[cfg(feature = "gui")]
mod ui_gallery;
mod usual;
mod water;
