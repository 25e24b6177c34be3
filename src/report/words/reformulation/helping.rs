//! What to do next where it cannot be done, with what was found to help.

use super::ReformulationWords;
use crate::number::DecimalSign;
use crate::reformulate::helpers::{Helper, Helpers};
use crate::reformulate::{Impossible, Member, Problem};
use crate::units::Grams;

impl ReformulationWords<'_> {
    /// What to do next where it cannot be done, in one sentence; none where that is said already.
    #[must_use]
    pub fn what_next(&self, why: &Impossible) -> Option<String> {
        let helping = why.helpers.as_ref().and_then(|helpers| helping(self.problem, helpers, self.sign));
        if why.conflict.is_empty() || (self.nothing_may_move() && helping.is_none()) {
            return None;
        }
        let is_by_total = why.conflict.iter().any(|one| one.member == Member::Total);
        let (or, free) = if is_by_total { ("", ", or let the batch change its weight") } else { ("or ", "") };
        Some(match (helping, &why.helpers) {
            (Some(helping), _) => format!("To go on: let {helping} be used besides, {or}ask for a wider bound{free}."),
            (None, Some(helpers)) => format!("To go on: ask for a wider bound{free}; {}.", in_vain(helpers)),
            (None, None) => {
                let another = if self.problem.allowed.is_empty() { "an ingredient" } else { "one more ingredient" };
                format!(
                    "To go on: let {another} be used besides that brings what is missing, {or}ask for a wider bound{free}."
                )
            }
        })
    }
}

/// What helps, with how much of it: "sugar (+33 g) or butter (+20 g)"; `None` where nothing is known to.
pub(in crate::report::words) fn helping(problem: &Problem, helpers: &Helpers, sign: DecimalSign) -> Option<String> {
    let each: Vec<String> = helpers.named().iter().map(|helper| with_amount(problem, helper, sign)).collect();
    let (last, others) = each.split_last()?;
    Some(if others.is_empty() { last.clone() } else { format!("{} or {last}", others.join(", ")) })
}

fn with_amount(problem: &Problem, helper: &Helper, sign: DecimalSign) -> String {
    let side = if helper.more.0 < 0.0 { "−" } else { "+" };
    format!("{} ({side}{})", helper_name(problem, helper), super::amount(Grams(helper.more.0.abs()), sign))
}

/// The name of what helps: the whole of it where the recipe has another one with the same beginning.
#[must_use]
pub fn helper_name(problem: &Problem, helper: &Helper) -> String {
    let (ingredient, short) = (&helper.ingredient, helper.ingredient.short_name());
    // What it is called besides stands in brackets.
    let plain = short.split(" (").next().unwrap_or(&short).to_owned();
    let is_other = |other: &crate::ingredient::Ingredient| other.id != ingredient.id && other.short_name() == short;
    let has_other = problem.places().any(|place| problem.ingredient(place).is_some_and(|other| is_other(other)));
    if has_other { ingredient.name.clone() } else { plain }
}

/// That nothing that was tried helps.
pub(in crate::report::words) fn in_vain(helpers: &Helpers) -> String {
    match helpers {
        Helpers { is_hopeless: true, .. } => {
            "one figure is asked for in two places that nothing meets at once".to_owned()
        }
        Helpers { tried, .. } => {
            format!(
                "none of {tried} common ingredients was found that makes it possible by itself and could be advised"
            )
        }
    }
}
