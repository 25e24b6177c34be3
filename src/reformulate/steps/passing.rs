//! Steps of the scale passed from one line to another until everything holds, judged by the models themselves.

use super::{is_fixed, missed, on_step, step_for};
use crate::reformulate::descent::{Descent, NoRest};
use crate::reformulate::model::Model;
use crate::reformulate::whole::packs;

/// Amounts on the steps of the scale with which everything holds, reached by passing a step from one line to another, judged by
/// the models themselves: near a jump, or where a figure ends, the straight lines do not say on which side of it a step falls.
/// `None` where none is found. Wishes are followed as long as a step brings them nearer.
pub(super) fn mended(descent: &Descent, amounts: &[f64]) -> Result<Option<Vec<f64>>, NoRest> {
    /// More than were ever needed in trials.
    const MOST: usize = 30;
    let model = descent.model;
    let has_wish = model.has_wish();
    // What is missed, then how far wishes are away, then how much is changed; the first two endless without figures.
    let judged = |amounts: &[f64]| {
        let misses = model.misses(amounts).filter(|_| model.has_figures(amounts));
        let of_misses = misses.map(|misses| (missed(descent, amounts, &misses), away(model, &misses)));
        let (missed, away) = of_misses.unwrap_or((f64::INFINITY, f64::INFINITY));
        let change: f64 = model.changes(amounts).iter().map(|change| change * change).sum();
        (missed, away, change)
    };
    let packs = packs(model);
    let is_free = |line: &usize| !is_fixed(descent, *line) && !packs.iter().any(|(other, _)| other == line);
    let free: Vec<usize> = (0..amounts.len()).filter(is_free).collect();
    let mut amounts = amounts.to_vec();
    let mut here = judged(&amounts);
    for _ in 0..MOST {
        if here.0 <= 0.0 && !has_wish {
            break;
        }
        let mut nearest: Option<((f64, f64, f64), Vec<f64>)> = None;
        for (&from, &to) in free.iter().flat_map(|from| free.iter().map(move |to| (from, to))) {
            if (descent.is_stopped)() {
                return Err(NoRest::Stopped);
            }
            let Some(tried) = passed(model, &amounts, from, to) else { continue };
            let then = judged(&tried);
            // Less change alone is no reason to go on.
            let is_better = (then.0, then.1) < (here.0, here.1);
            if is_better && nearest.as_ref().is_none_or(|(least, _)| then < *least) {
                nearest = Some((then, tried));
            }
        }
        let Some((then, next)) = nearest else { break };
        (here, amounts) = (then, next);
    }
    Ok((here.0 <= 0.0).then_some(amounts))
}

/// How far all wishes are away, in grains.
fn away(model: &Model, misses: &[f64]) -> f64 {
    let wishes = misses.iter().zip(&model.constraints).filter(|(_, constraint)| model.is_wish(constraint));
    wishes.map(|(miss, _)| miss.max(0.0)).sum()
}

/// A step of the coarser of two lines passed from one to the other; `None` where both are the same, or one then does not stand
/// on a step.
fn passed(model: &Model, amounts: &[f64], from: usize, to: usize) -> Option<Vec<f64>> {
    /// How far from a step counts as on it.
    const ON: f64 = 1e-6;
    let step = step_for(model, amounts[from]).max(step_for(model, amounts[to]));
    if from == to || amounts[from] < step {
        return None;
    }
    let mut tried = amounts.to_vec();
    for (line, amount) in [(from, amounts[from] - step), (to, amounts[to] + step)] {
        let step = step_for(model, amount);
        let count = (amount / step).round();
        if (amount / step - count).abs() > ON {
            return None;
        }
        tried[line] = on_step(count, step);
    }
    Some(tried)
}
