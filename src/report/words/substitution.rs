//! The words of an exchange of ingredients: what stands where now, what is held, and what stands in the way.

use super::reformulation::{ReformulationWords, amount, decimals, helping, in_vain, measured, sentence};
use crate::ingredient::{Component, Ingredient};
use crate::number::{DecimalSign, round_half_up};
use crate::recipe::Line;
use crate::reformulate::substitute::{Difference, Substituted, SubstitutionError};
use crate::reformulate::{Bound, Impossible, Measured, Outcome, Problem, ProblemError};

/// One place of the sheet before and after: "hazelnut paste 300 g → almond paste 285 g".
#[must_use]
pub fn difference(difference: &Difference, sign: DecimalSign) -> String {
    let Difference { before, after } = difference;
    match (before, after) {
        (Some((old, old_grams)), Some((new, new_grams))) if old.id == new.id => {
            format!("{} {} → {}", old.short_name(), amount(*old_grams, sign), amount(*new_grams, sign))
        }
        (Some((old, old_grams)), Some((new, new_grams))) => {
            // Two couvertures have one short name.
            let is_clear = old.short_name() != new.short_name();
            let name = |ingredient: &Ingredient| {
                if is_clear { ingredient.short_name() } else { ingredient.name.clone() }
            };
            format!("{} {} → {} {}", name(old), amount(*old_grams, sign), name(new), amount(*new_grams, sign))
        }
        (Some((old, old_grams)), None) => format!("{} {} → none", old.short_name(), amount(*old_grams, sign)),
        (None, Some((new, new_grams))) => format!("new: {} {}", new.short_name(), amount(*new_grams, sign)),
        (None, None) => String::new(),
    }
}

/// What a result that is held was, would be gram for gram, and is: "total fat 43.1 %, gram for gram 40.9 %, now 42.6 %".
#[must_use]
pub fn held(substituted: &Substituted, idx: usize, sign: DecimalSign) -> Option<String> {
    let before = substituted.held.get(idx)?;
    let of = substituted.problem.targets.get(idx)?.of;
    let reached = substituted.reached().get(idx)?;
    let now = if matches!(substituted.outcome, Outcome::Impossible(_)) { "at the nearest" } else { "now" };
    let words = ReformulationWords::new(&substituted.problem, sign);
    Some(format!(
        "{} {}, gram for gram {}, {now} {}",
        measured(of, sign),
        words.figure(of, *before),
        words.figure(of, reached.before),
        words.figure(of, reached.after)
    ))
}

/// What there is to say before it is made, of one that cannot be done about the nearest there is, in sentences.
///
/// Amounts are compared with the exchange gram for gram, all else with the recipe as it was.
#[must_use]
pub fn notes(substituted: &Substituted, sign: DecimalSign) -> Vec<String> {
    let Some(after) = substituted.nearest() else { return Vec::new() };
    let moves = substituted.answer().map(|answer| answer.moves.as_slice()).unwrap_or_default();
    let holds_water = substituted.problem.targets.iter().any(|target| target.of == Measured::WaterActivity);
    ReformulationWords::new(&substituted.problem, sign).notes_between(&substituted.before, after, moves, holds_water)
}

/// Why it cannot be done, in sentences; none where it can.
#[must_use]
pub fn reasons(substituted: &Substituted, sign: DecimalSign) -> Vec<String> {
    match &substituted.outcome {
        Outcome::Impossible(why) => {
            let mut sentences = ReformulationWords::new(&as_told(&substituted.problem), sign).impossible(why);
            sentences.push(what_next(&substituted.problem, why, sign));
            sentences
        }
        Outcome::Stopped => vec!["No end was found: hold less, or exchange it by hand.".to_owned()],
        Outcome::Unchanged(_) | Outcome::Changed(_) => Vec::new(),
    }
}

/// What to do next where it cannot be done.
fn what_next(problem: &Problem, why: &Impossible, sign: DecimalSign) -> String {
    // Where the batch may change its weight, the other lines stay.
    let others = if problem.keeps_total { "" } else { ", or let the other lines move" };
    let hold_less = "hold less of what stands above";
    match &why.helpers {
        None => {
            let another = if problem.allowed.is_empty() { "another ingredient" } else { "another one" };
            format!("To go on: let {another} come besides, or {hold_less}{others}.")
        }
        Some(helpers) => match helping(problem, helpers, sign) {
            Some(helping) => format!("To go on: let {helping} come besides, or {hold_less}{others}."),
            None => format!("To go on: {hold_less}{others}; {}.", in_vain(helpers)),
        },
    }
}

/// Which of the results that were to be held are not, because something of the recipe is not known, in one sentence.
///
/// What a recipe has none of, such as the water activity of a dry mass, is not missed.
#[must_use]
pub fn not_held(substituted: &Substituted, asked: &[Measured], sign: DecimalSign) -> Option<String> {
    let unknown =
        |line: &&Line| line.amount.grams().0 > 0.0 && line.ingredient.composition.unknown_components().next().is_some();
    let mut names: Vec<String> = Vec::new();
    for line in substituted.before.lines.iter().filter(unknown) {
        let missing: Vec<&str> = line.ingredient.composition.unknown_components().map(Component::words).collect();
        let told = format!("{} of {}", missing.join(", "), line.ingredient.name);
        if !names.contains(&told) {
            names.push(told);
        }
    }
    let without: Vec<String> = substituted.without(asked).into_iter().map(|of| measured(of, sign)).collect();
    (!names.is_empty() && !without.is_empty()).then(|| {
        let figures = without.join(", ");
        sentence(&format!("not held, because not known: {figures}. Nobody has given {}", names.join("; ")))
    })
}

/// The problem with the ends between which a result is held as they are told: nobody has typed them.
fn as_told(problem: &Problem) -> Problem {
    let mut problem = problem.clone();
    for target in &mut problem.targets {
        if let Bound::Between(low, high) = target.bound {
            let told = |end: f64| round_half_up(end, decimals(target.of));
            target.bound = Bound::Between(told(low), told(high));
        }
    }
    problem
}

/// Why it was not worked out, in a sentence that says what to do.
#[must_use]
pub fn not_worked(why: &SubstitutionError, sign: DecimalSign) -> String {
    match why {
        SubstitutionError::NoFigure(Measured::Cost) => {
            "Its cost is not known: give every line a price in the same money, or leave the cost out.".to_owned()
        }
        SubstitutionError::Problem(ProblemError::NoFigure { of: Measured::Cost, .. }) => {
            "With what comes in, its cost is not known: give that a price in the same money, or leave the cost out."
                .to_owned()
        }
        SubstitutionError::NoFigure(of) => {
            format!("It has no {} that is known and could be held: leave that out.", measured(*of, sign))
        }
        SubstitutionError::Problem(ProblemError::NoFigure { of, .. }) => {
            format!("With what comes in, its {} is not known and cannot be held: leave that out.", measured(*of, sign))
        }
        SubstitutionError::Locked => "The line of what goes is locked or is the seed: unlock it first.".to_owned(),
        SubstitutionError::Same => "What comes in is what goes: choose another ingredient.".to_owned(),
        SubstitutionError::NotThere(_) => {
            "Nothing of what goes is weighed in: there is nothing to exchange.".to_owned()
        }
        SubstitutionError::Problem(why) => sentence(&why.to_string()),
    }
}
