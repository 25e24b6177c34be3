//! What every number answers when it is pointed at or has the keyboard: what it is, formula in words, range, source,
//! evidence, uncertainty.
//!
//! One file for each part of the window. The limits that stand in sentences come from the models, so that a sentence
//! cannot say another figure than the one that is computed with.

pub mod composition;
pub mod cost;
pub mod emulsion;
pub mod fat;
pub mod finding;
pub mod food;
pub mod mixing;
pub mod plan;
pub mod setting;
pub mod sheet;
pub mod targets;
pub mod texture;
pub mod water;
pub mod weighing;
pub mod weighing_fields;

use std::borrow::Cow;

use crate::number::{DecimalSign, fixed, shortest};
use crate::ui::view::Scene;
use crate::units::{Celsius, MassFraction};

/// What rests on the habit of the trade alone.
const HABIT: &str = "common practice, no published source";
const HABIT_SOURCE: &str = "Common practice of the trade; no published source.";
const FROM_INGREDIENTS: &str = "The figures of each ingredient; point at its name to see where they come from.";
const COMPOSITION_ERROR: &str = "Analysed foods to about 1 point, class values of couverture to about 2 points of fat, \
judged. Your supplier's data sheet narrows it.";
const ARITHMETIC: &str = "Arithmetic: adds nothing to the error of what it is made of.";

/// How good the inputs of a sum over the lines are: which lines count with values of their class.
fn inputs(scene: &Scene<'_>) -> String {
    let weighed = scene.document.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0).count();
    let names: Vec<&str> = scene
        .analysis
        .class_values
        .iter()
        .filter_map(|&line| scene.document.recipe.line(line))
        .map(|line| line.ingredient.name.as_str())
        .collect();
    if names.is_empty() {
        return format!("All {weighed} lines have figures of a dataset, a derivation or a data sheet.");
    }
    format!("{} of {weighed} lines count with values typical of their class: {}.", names.len(), names.join(", "))
}

fn percent(share: MassFraction, sign: DecimalSign) -> String {
    format!("{} %", shortest(share.to_percent(), 2, sign))
}

fn celsius(celsius: Celsius, sign: DecimalSign) -> String {
    format!("{} °C", shortest(celsius.0, 1, sign))
}

fn two(value: f64, sign: DecimalSign) -> String {
    fixed(value, 2, sign)
}

/// A sentence with fixed figures in it, written with a decimal point, with the sign of the user.
fn with_sign(text: &str, sign: DecimalSign) -> Cow<'static, str> {
    Cow::Owned(crate::number::with_sign(text, sign))
}

fn words(text: impl Into<Cow<'static, str>>) -> Cow<'static, str> {
    text.into()
}
