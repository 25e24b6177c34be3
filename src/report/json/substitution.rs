//! Exchanges of an ingredient as JSON: a public interface, documented in `sample-recipes/README.md`, changed only by adding.

use serde::Serialize;

use super::reformulation::{Figure, Helper, Target};
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::reformulate::substitute::{Difference, Substituted};
use crate::reformulate::{Measured, Outcome, Reached};
use crate::report::words::reformulation::ReformulationWords;
use crate::report::words::substitution::{not_held, notes, reasons};
use crate::units::Grams;

/// A recipe in which an ingredient was to be exchanged, as the report names it.
pub struct Exchange<'a> {
    /// Its file.
    pub file: String,
    /// Its name.
    pub recipe: &'a str,
    /// What came of it, or why it was not worked out.
    pub result: Result<&'a Substituted, String>,
    /// The results that were to be held.
    pub asked: &'a [Measured],
    /// Whether it was written.
    pub is_written: bool,
}

/// All of them as a list, with a line break at its end.
///
/// # Errors
///
/// Never in practice: every value is a number, a text, a list or a map of these.
pub fn report(exchanges: &[Exchange]) -> Result<String, serde_json::Error> {
    let entries: Vec<Entry> = exchanges.iter().map(Entry::new).collect();
    let mut text = serde_json::to_string_pretty(&entries)?;
    text.push('\n');
    Ok(text)
}

#[derive(Serialize)]
struct Entry<'a> {
    file: &'a str,
    recipe: &'a str,
    outcome: &'static str,
    is_written: bool,
    changes: Vec<Change>,
    held: Vec<Held>,
    total_before_g: Option<f64>,
    total_after_g: Option<f64>,
    helpers: Vec<Helper>,
    helpers_tried: Option<usize>,
    reasons: Vec<String>,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct Change {
    from: Option<Part>,
    to: Option<Part>,
}

#[derive(Serialize)]
struct Part {
    id: String,
    ingredient: String,
    grams: f64,
}

/// A result that is held: `target.before` is with the new ingredient gram for gram.
#[derive(Serialize)]
struct Held {
    was: Figure,
    target: Target,
}

impl<'a> Entry<'a> {
    fn new(exchange: &'a Exchange) -> Self {
        let Exchange { file, recipe, result, asked, is_written } = exchange;
        let nothing = Self {
            file,
            recipe,
            outcome: "not_worked_out",
            is_written: *is_written,
            changes: Vec::new(),
            held: Vec::new(),
            total_before_g: None,
            total_after_g: None,
            helpers: Vec::new(),
            helpers_tried: None,
            reasons: Vec::new(),
            notes: Vec::new(),
        };
        let substituted = match result {
            Ok(substituted) => substituted,
            Err(why) => return Self { reasons: vec![why.clone()], ..nothing },
        };
        let (outcome, reached): (_, &[Reached]) = match &substituted.outcome {
            Outcome::Unchanged(reached) => ("gram_for_gram", reached),
            Outcome::Changed(answer) => ("changed", &answer.reached),
            Outcome::Impossible(why) => ("impossible", &why.nearest.reached),
            Outcome::Stopped => ("stopped", &[]),
        };
        let helpers = if let Outcome::Impossible(why) = &substituted.outcome { why.helpers.as_ref() } else { None };
        let words = ReformulationWords::new(&substituted.problem, DecimalSign::Point);
        Self {
            outcome,
            changes: substituted.differences().iter().map(Change::new).collect(),
            held: substituted
                .held
                .iter()
                .zip(reached)
                .map(|(was, reached)| Held {
                    was: Figure::new(reached.target.of, *was),
                    target: Target::new(reached, &words),
                })
                .collect(),
            total_before_g: Some(substituted.before.weighed().0),
            total_after_g: substituted.recipe().map(|recipe| recipe.weighed().0),
            helpers: helpers.iter().flat_map(|helpers| &helpers.found).map(Helper::new).collect(),
            helpers_tried: helpers.map(|helpers| helpers.tried),
            reasons: reasons(substituted, DecimalSign::Point),
            notes: {
                let not_held = not_held(substituted, asked, DecimalSign::Point);
                not_held.into_iter().chain(notes(substituted, DecimalSign::Point)).collect()
            },
            ..nothing
        }
    }
}

impl Change {
    fn new(difference: &Difference) -> Self {
        let part = |side: &Option<(std::sync::Arc<Ingredient>, Grams)>| {
            side.as_ref().map(|(ingredient, grams)| Part {
                id: ingredient.id.clone(),
                ingredient: ingredient.name.clone(),
                grams: grams.0,
            })
        };
        Self { from: part(&difference.before), to: part(&difference.after) }
    }
}
