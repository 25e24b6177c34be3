//! The words of an exchange of ingredients: what stands where now, what is held, and what stands in the way.

use super::reformulation::{ReformulationWords, amount, figure, measured};
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::reformulate::substitute::{Difference, Substituted};
use crate::reformulate::{Outcome, Reached};

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
    let reached: &Reached = reached(substituted).get(idx)?;
    let now = if matches!(substituted.outcome, Outcome::Impossible(_)) { "at the nearest" } else { "now" };
    Some(format!(
        "{} {}, gram for gram {}, {now} {}",
        measured(of, sign),
        figure(of, *before, sign),
        figure(of, reached.before, sign),
        figure(of, reached.after, sign)
    ))
}

fn reached(substituted: &Substituted) -> &[Reached] {
    match &substituted.outcome {
        Outcome::Unchanged(reached) => reached,
        Outcome::Changed(answer) => &answer.reached,
        Outcome::Impossible(why) => &why.nearest.reached,
        Outcome::Stopped => &[],
    }
}

/// Why it cannot be done, in sentences; none where it can.
#[must_use]
pub fn reasons(substituted: &Substituted, sign: DecimalSign) -> Vec<String> {
    match &substituted.outcome {
        Outcome::Impossible(why) => ReformulationWords::new(&substituted.problem, sign).impossible(why),
        Outcome::Stopped => vec!["It was stopped before it came to an end.".to_owned()],
        Outcome::Unchanged(_) | Outcome::Changed(_) => Vec::new(),
    }
}
