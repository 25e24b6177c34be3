//! Seasoning that falls although next to nothing is gained by it.
//!
//! Little of a line counts little: 0.8 g of pepper may go because the batch is nearer to what is asked without it, by less than
//! anybody sees. Who eats it, tastes it.

use super::answer::{Answer, Outcome};
use super::model::LEAST_SPAN;
use super::problem::{Problem, ProblemError, is_seasoning};
use crate::recipe::LineId;

/// So much more change, as a share of it, the seasoning is worth (judged).
const WORTH: f64 = 0.005;

/// The outcome with all seasoning kept that fell, if that can be and costs next to nothing.
pub(super) fn kept(
    problem: &Problem,
    outcome: Outcome,
    reformulate: impl Fn(&Problem) -> Result<Outcome, ProblemError>,
) -> Result<Outcome, ProblemError> {
    let Outcome::Changed(answer) = &outcome else { return Ok(outcome) };
    let fallen = fallen(problem, answer);
    if fallen.is_empty() {
        return Ok(outcome);
    }
    let mut stricter = problem.clone();
    for line in stricter.recipe.lines.iter_mut().filter(|line| fallen.contains(&line.id)) {
        line.is_locked = true;
    }
    match reformulate(&stricter)? {
        Outcome::Changed(mut kept) if kept.change <= (1.0 + WORTH) * answer.change => {
            for line in kept.recipe.lines.iter_mut().filter(|line| fallen.contains(&line.id)) {
                line.is_locked = false;
            }
            Ok(Outcome::Changed(kept))
        }
        _ => Ok(outcome),
    }
}

/// The lines of seasoning that fell so that it is tasted, and count less than by themselves.
fn fallen(problem: &Problem, answer: &Answer) -> Vec<LineId> {
    /// As a share of what there was (judged).
    const TASTED: f64 = 0.1;
    let little = LEAST_SPAN * problem.recipe.weighed().0;
    let lines = problem.recipe.lines.iter().zip(&answer.moves);
    let has_fallen = lines.filter(|(line, moved)| {
        let is_little = is_seasoning(&line.ingredient) && moved.before.0 < little;
        is_little && moved.before.0 - moved.after.0 > TASTED * moved.before.0
    });
    has_fallen.map(|(line, _)| line.id).collect()
}
