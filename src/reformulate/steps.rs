//! Amounts on the steps of the scale, so that everything still holds and little is given away.
//!
//! One line after the other is set on a step, the coarse scale first, and the lines that are still free make up for what was
//! rounded away: after each the convex program of the straightened constraints is solved anew. Where figures bend, what the
//! straight lines did not foresee is asked for as room, and all is set once more.
//!
//! What it does not do: it does not try all steps. In the tests the change is within 1 % of the least before rounding, where figures bend
//! within 2 %.

mod passing;
mod setting;

use std::cmp::Ordering;

use passing::mended;
use setting::Setting;

use super::descent::{Aim, Descent, Local, NoRest, Rest, Weight};
use super::model::{Member, Model};
use super::problem::Rule;
use super::rim::Rim;
use super::tolerance::MET;
use crate::units::Grams;

/// Amounts on the steps of the scale.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Weighable {
    /// The amounts, g.
    pub amounts: Vec<f64>,
    /// Whether they are on steps of the scale, which they are not where nothing would be left of the recipe, and everything
    /// that has to hold does.
    pub holds: bool,
    /// Where the amounts came from: before they were rounded.
    pub rest: Rest,
}

/// A try to find steps with which all holds.
#[derive(Clone, Copy)]
struct Try {
    /// How much more room is asked for what was missed, as a share of what a step of the scale for the bowl moves; of none only
    /// what the convex program itself leaves open.
    room: f64,
    /// How many programs are solved for each line: a little room costs less than a long search.
    programs: usize,
    /// How far rounding may move a line.
    reach: Reach,
}

/// How far rounding may move a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Reach {
    /// Every line stays close to where it would be best, by its own measure: 0.9 g of rounding are nothing in the couverture and
    /// half of the salt. What goes is gone.
    Close,
    /// The same, but a little of what goes may stay, for an answer that would else be dear.
    CloseWithRests,
    /// As far as the straight lines are trusted.
    Far,
}

/// Rounds to the scale so that everything still holds, if the scale is fine enough; what is missed then is told.
pub(super) fn on_the_scale(descent: &Descent, aim: Aim, rest: Rest) -> Result<Weighable, NoRest> {
    /// How often it is tried: at first with little room, so that no line takes up what the others were rounded by.
    const TRIES: [Try; 11] = [
        Try { room: 0.0, programs: 2, reach: Reach::Close },
        Try { room: 0.02, programs: 2, reach: Reach::Close },
        Try { room: 0.05, programs: 6, reach: Reach::Close },
        Try { room: 0.0, programs: 6, reach: Reach::CloseWithRests },
        Try { room: 0.0, programs: 2, reach: Reach::Far },
        Try { room: 0.02, programs: 2, reach: Reach::Far },
        Try { room: 0.05, programs: 6, reach: Reach::Far },
        Try { room: 0.1, programs: 12, reach: Reach::Far },
        Try { room: 0.2, programs: 12, reach: Reach::Far },
        Try { room: 0.5, programs: 12, reach: Reach::Far },
        Try { room: 1.0, programs: 12, reach: Reach::Far },
    ];
    /// How far a line may move from where it would be best, as a share of its span, or in steps.
    const NEAR: f64 = 0.1;
    const STEPS: f64 = 3.0;
    /// Nearer than that the solver does not tell places apart.
    const FINEST: f64 = 1e-3;
    /// What misses may cost more after rounding than before, in grains, without another try.
    const LITTLE: f64 = 0.05;
    /// Rounding that costs more than this share of the change, and more than anybody minds, is dear (judged).
    const DEAR: (f64, f64) = (0.009, 1e-3);
    /// A scale on which a larger share of the batch is nothing cannot weigh it (judged).
    const MOST_LOST: f64 = 0.05;
    let model = descent.model;
    let mut exact = model.amounts(&rest.changes);
    for line in (0..exact.len()).filter(|&line| is_fixed(descent, line)) {
        exact[line] = model.before[line];
    }
    if !model.has_figures(&exact) {
        return Err(NoRest::Failed);
    }
    let Some(slopes) = model.slopes(&exact) else {
        return Ok(Weighable { amounts: exact, holds: false, rest });
    };
    // Rounding leads no further than some steps: the straight lines are not asked beyond.
    let least_span = model.spans.iter().copied().fold(f64::INFINITY, f64::min);
    let some_steps = (STEPS * model.problem.scale.coarsest.0 / least_span).max(FINEST);
    let (mut foreseen, mut kinks) = (rest.misses.clone(), rest.kinks.clone());
    let mut best: Option<(f64, f64, f64, Vec<f64>)> = None;
    let (mut rims, mut without_figures) = (rest.rims.clone(), None);
    let change_of = |changes: &[f64], misses: &[f64]| match aim {
        Aim::Change(_) => descent.merit(aim, 0.0, changes, misses) - descent.price(misses),
        Aim::Misses | Aim::Any => 0.0,
    };
    let least_change = change_of(&rest.changes, &rest.misses);
    let mut last_reach = Reach::Close;
    for Try { room, programs, reach } in TRIES {
        let is_good =
            |(missed, costs, ..): &(f64, f64, f64, _)| *missed <= 0.0 && *costs <= descent.price(&rest.misses) + LITTLE;
        // Dear is better than half of the salt.
        if reach == Reach::Far && best.as_ref().is_some_and(is_good) {
            break;
        }
        if std::mem::replace(&mut last_reach, reach) != reach {
            // What a narrow try has missed says nothing of a wide one.
            (foreseen, kinks) = (rest.misses.clone(), rest.kinks.clone());
        }
        let room = MET.max(room * model.measure_of(model.problem.scale.coarsest.0));
        if (descent.is_stopped)() {
            return Err(NoRest::Stopped);
        }
        let local = Local {
            aim,
            changes: &rest.changes,
            misses: &foreseen,
            slopes: &slopes,
            kinks: &kinks,
            rims: &rims,
            distance: if reach == Reach::Far { some_steps.max(NEAR) } else { some_steps },
        };
        let amounts = Setting::new(descent, &local, &rest.pulls).all_set(programs, reach)?.stepped();
        if (descent.is_stopped)() {
            return Err(NoRest::Stopped);
        }
        let lost = exact.iter().sum::<f64>() - amounts.iter().sum::<f64>();
        if lost > MOST_LOST * exact.iter().sum::<f64>() {
            break;
        }
        let Some(misses) = model.misses(&amounts).filter(|_| model.has_figures(&amounts)) else {
            let beyond = model.changes(&amounts);
            without_figures = Some(amounts);
            match Rim::between(&rest.changes, &beyond, &|changes| model.has_figures(&model.amounts(changes))) {
                Some(rim) => rims.push(rim),
                None => break,
            }
            continue;
        };
        let missed_here = missed(descent, &amounts, &misses);
        let costs_here = descent.price(&misses);
        let changes = model.changes(&amounts);
        let straight = local.straight(&changes);
        let change_here = change_of(&changes, &misses);
        for (row, &miss) in misses.iter().enumerate() {
            let may_cost = price_of(descent, row) > 0.0;
            if over(model, row, &amounts, miss) > 0.0 || (may_cost && miss > 0.0) {
                let more = (miss - straight[row]).max(0.0) + if may_cost { 0.0 } else { room };
                foreseen[row] += more;
                for kink in &mut kinks {
                    kink.raise(row, more);
                }
            }
        }
        let here = (missed_here, costs_here, change_here, amounts);
        let is_dear = change_here > (1.0 + DEAR.0) * least_change + DEAR.1;
        let is_enough = is_good(&here) && !is_dear;
        let is_nearer = best.as_ref().is_none_or(|(missed, costs, change, _)| {
            let order = missed_here.total_cmp(missed).then(costs_here.total_cmp(costs));
            order.then(change_here.total_cmp(change)) == Ordering::Less
        });
        if is_nearer {
            best = Some(here);
        }
        if is_enough {
            break;
        }
    }
    let on_steps = match best {
        Some((missed, .., amounts)) if missed <= 0.0 => return Ok(Weighable { amounts, holds: true, rest }),
        Some((.., amounts)) => Some(amounts),
        None => None,
    };
    let mended = match on_steps.as_ref().or(without_figures.as_ref()) {
        Some(amounts) => mended(descent, amounts)?,
        None => None,
    };
    let holds = mended.is_some();
    Ok(Weighable { amounts: mended.or(on_steps).unwrap_or(exact), holds, rest })
}

/// Nearer to what it was than this share of a step, an amount did not move.
const UNMOVED: f64 = 0.01;

fn step_for(model: &Model, amount: f64) -> f64 {
    model.problem.scale.step_for(Grams(amount)).0
}

/// The steps of the scale around an amount, and the amount as it was where it lies between them; the nearest first.
fn steps_around(model: &Model, line: usize, amount: f64) -> Vec<f64> {
    let step = step_for(model, amount);
    let below = (amount / step).floor();
    let mut around = vec![on_step(below, step), on_step(below + 1.0, step)];
    let before = model.before[line];
    if before > around[0] && before < around[1] {
        around.push(before);
    }
    around.sort_by(|left, right| (left - amount).abs().total_cmp(&(right - amount).abs()));
    around
}

/// The next steps of the scale below and above an amount.
fn steps_beside(model: &Model, amount: f64) -> impl Iterator<Item = f64> {
    /// How far from a step counts as on it.
    const ON: f64 = 1e-6;
    let step = step_for(model, amount);
    let count = amount / step;
    let beside = [(count - ON).ceil() - 1.0, (count + ON).floor() + 1.0];
    beside.into_iter().filter(|count| *count >= 0.0).map(move |count| on_step(count, step))
}

/// So many steps as the nearest binary number: 3 steps of 0.1 are 0.3.
fn on_step(count: f64, step: f64) -> f64 {
    let per_gram = (1.0 / step).round();
    let is_decimal = per_gram >= 1.0 && (per_gram * step - 1.0).abs() < f64::EPSILON * 4.0;
    if is_decimal { count / per_gram } else { count * step }
}

fn price_of(descent: &Descent, row: usize) -> f64 {
    match descent.weights[row] {
        Weight::Costs(price) => price,
        Weight::Holds { .. } | Weight::Off => 0.0,
    }
}

/// The largest miss of what has to hold and is judged after rounding.
fn missed(descent: &Descent, amounts: &[f64], misses: &[f64]) -> f64 {
    let has_to = |row: usize| matches!(descent.weights[row], Weight::Holds { .. });
    let judged = misses.iter().enumerate().filter(|(row, _)| has_to(*row));
    judged.fold(0.0, |most, (row, &miss)| most.max(over(descent.model, row, amounts, miss)))
}

/// By how much a miss is more than what the scale has to be granted; 0 where it is not, and of what is not judged after
/// rounding. A wish goes as far as it can; locks and packs are not rounded.
fn over(model: &Model, row: usize, amounts: &[f64], miss: f64) -> f64 {
    let constraint = &model.constraints[row];
    if constraint.member == Member::Total && !constraint.is_given {
        // More than a step of the bowl's scale is another batch.
        return (miss - model.measure_of(model.problem.scale.coarsest.0) - MET).max(0.0);
    }
    let is_judged = match constraint.member {
        Member::Target(_) => !model.is_wish(constraint),
        Member::Allowance(_) => true,
        Member::Limit(idx) => model.problem.limits[idx].rule != Rule::Locked,
        Member::Total | Member::Lock(_) => false,
    };
    let granted = off_by_scale(model, row, amounts).unwrap_or(0.0) + MET;
    if is_judged && miss > granted { miss - granted } else { 0.0 }
}

/// By how much two lines may be off their proportion, in grains; `None` of what is no proportion.
fn off_by_scale(model: &Model, row: usize, amounts: &[f64]) -> Option<f64> {
    let Member::Limit(idx) = model.constraints[row].member else { return None };
    let limit = &model.problem.limits[idx];
    let Rule::TimesOther { other, times } = limit.rule else { return None };
    let at = |place| model.line_at(place).map(|line| Grams(amounts[line]));
    let off = model.problem.scale.off_proportion(at(limit.place)?, times, at(other)?);
    Some(model.measure_of(off.0))
}

/// Whether an amount must not be touched; what is given up may be.
pub(super) fn is_fixed(descent: &Descent, idx: usize) -> bool {
    let model = descent.model;
    let place = model.places[idx];
    let locks = |member: Member| match member {
        Member::Lock(other) => other == place,
        Member::Limit(limit) => {
            let limit = model.problem.limits[limit];
            limit.place == place && limit.rule == Rule::Locked
        }
        Member::Target(_) | Member::Total | Member::Allowance(_) => false,
    };
    let mut rows = descent.weights.iter().zip(&model.constraints);
    rows.any(|(weight, constraint)| matches!(weight, Weight::Holds { .. }) && locks(constraint.member))
}
