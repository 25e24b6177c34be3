//! The program held against things outside it: published figures, trade habits, hand computations, its own map.
//!
//! One module a part of `src/`. Beside each check stands in words where its figure comes from; what was taken from
//! memory of the named text says so, and a habit of the trade is "common practice, no published source".

#![expect(clippy::expect_used, clippy::panic, reason = "what a check rests on is there, or the check fails")]

mod emulsion;
mod make_up;
mod properties;
mod seeding;
mod support;
mod usual;
