//! Amounts that can be weighed: whole packs, and the steps of the scale.

use super::descent::{Aim, Descent, NoRest, Rest, Weight};
use super::model::{Member, Model};
use super::problem::Rule;
use crate::production::rounding::round_on_each_scale;
use crate::units::Grams;

/// Amounts on the steps of the scale.
#[derive(Clone, Debug)]
pub(super) struct Weighable {
    /// The amounts, g.
    pub amounts: Vec<f64>,
    /// By how much each constraint is missed with them, in grains; not above 0 where it holds.
    pub misses: Vec<f64>,
    /// Where the amounts came from: before they were rounded.
    pub rest: Rest,
}

/// How many ways of opening packs are tried at most.
const MOST_PACKINGS: usize = 200;

/// How far from a whole number of packs counts as whole: what the solver leaves open.
const WHOLE: f64 = 1e-5;

/// The nearest rest in which what comes in packs comes in whole ones; each half is solved and the nearer kept.
///
/// Branch and bound: of the pack that is furthest from whole, once no more than the whole packs below, once no less than those
/// above.
pub(super) fn in_packs(descent: &Descent, aim: Aim, start: Rest) -> Result<Rest, NoRest> {
    let packs = packs(descent.model);
    if packs.is_empty() {
        return Ok(start);
    }
    let mut best: Option<(f64, Rest)> = None;
    let mut open = vec![(descent.ends.clone(), start)];
    let mut left = MOST_PACKINGS;
    while let Some((ends, rest)) = open.pop() {
        let cost = descent.cost(aim, &rest);
        if best.as_ref().is_some_and(|(least, _)| cost >= *least) {
            continue;
        }
        let amounts = descent.model.amounts(&rest.changes);
        let broken = packs
            .iter()
            .map(|&(line, pack)| (line, pack, amounts[line] / pack))
            .map(|(line, pack, count)| (line, pack, count, (count - count.round()).abs()))
            .filter(|(.., off)| *off > WHOLE)
            .max_by(|left, right| left.3.total_cmp(&right.3));
        let Some((line, pack, count, _)) = broken else {
            best = Some((cost, rest));
            continue;
        };
        let mut below = ends.clone();
        below[line].1 = below[line].1.min(count.floor() * pack);
        let mut above = ends;
        above[line].0 = above[line].0.max(count.ceil() * pack);
        for ends in [above, below] {
            if left == 0 {
                break;
            }
            left -= 1;
            if ends[line].0 > ends[line].1 {
                continue;
            }
            let narrowed = Descent { ends: ends.clone(), weights: descent.weights.clone(), ..*descent };
            match narrowed.run(aim, &rest.changes) {
                Ok(rest) => open.push((ends, rest)),
                Err(NoRest::Impossible | NoRest::Failed) => {}
                Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            }
        }
    }
    best.map(|(_, rest)| rest).ok_or(NoRest::Impossible)
}

/// What comes in whole packs, with the pack in g.
fn packs(model: &Model) -> Vec<(usize, f64)> {
    let of_limit = |limit: &super::problem::Limit| match limit.rule {
        Rule::InPacks(pack) => model.places.iter().position(|place| *place == limit.place).map(|idx| (idx, pack.0)),
        _ => None,
    };
    model.problem.limits.iter().filter_map(of_limit).collect()
}

/// Whether what comes in packs comes in whole ones.
pub(super) fn are_whole(model: &Model, amounts: &[f64]) -> bool {
    packs(model).into_iter().all(|(line, pack)| {
        let count = amounts[line] / pack;
        (count - count.round()).abs() <= WHOLE
    })
}

/// Rounds to the scale so that everything still holds, if the scale is fine enough.
///
/// What is rounded away from a bound is asked for anew with so much more room, a few times; then single steps are exchanged
/// between two lines. What is missed then is told.
pub(super) fn on_the_scale(descent: &Descent, aim: Aim, rest: Rest) -> Result<Weighable, NoRest> {
    /// How often room is asked for.
    const TRIES: usize = 5;
    /// A little more than what was missed.
    const MORE: f64 = 1.2;
    let model = descent.model;
    let mut tightened = Descent { weights: descent.weights.clone(), ends: descent.ends.clone(), ..*descent };
    let mut last = weighable(model, rest)?;
    let mut best = last.clone();
    for _ in 0..TRIES {
        if missed(descent, &best.misses) <= 0.0 {
            return Ok(best);
        }
        for (idx, weight) in tightened.weights.iter_mut().enumerate() {
            if let Weight::Holds { up_to } = weight
                && is_judged(model, idx)
                && last.misses[idx] > NOISE
            {
                *up_to -= MORE * last.misses[idx] + NOISE;
            }
        }
        match tightened.run(aim, &last.rest.changes).and_then(|rest| in_packs(&tightened, aim, rest)) {
            Ok(rest) => {
                last = weighable(model, rest)?;
                if missed(descent, &last.misses) < missed(descent, &best.misses) {
                    best = last.clone();
                }
            }
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => break,
        }
    }
    Ok(exchanged(descent, best))
}

/// A miss below this, in grains, is binary noise.
const NOISE: f64 = 1e-7;

/// The largest miss of what has to hold and is judged after rounding.
fn missed(descent: &Descent, misses: &[f64]) -> f64 {
    let has_to = |idx: usize| matches!(descent.weights[idx], Weight::Holds { .. }) && is_judged(descent.model, idx);
    let judged = misses.iter().enumerate().filter(|(idx, miss)| has_to(*idx) && **miss > NOISE);
    judged.fold(0.0, |most, (_, &miss)| most.max(miss))
}

/// Whether a constraint is judged after rounding. A total and a proportion are kept as well as the scale can, a wish as far
/// as it goes; locks and packs are not rounded.
fn is_judged(model: &Model, constraint: usize) -> bool {
    let constraint = &model.constraints[constraint];
    match constraint.member {
        Member::Target(_) => !model.is_wish(constraint),
        Member::Allowance(_) => true,
        Member::Limit(idx) => matches!(model.problem.limits[idx].rule, Rule::AtLeast(_) | Rule::AtMost(_)),
        Member::Total | Member::Lock(_) => false,
    }
}

fn weighable(model: &Model, rest: Rest) -> Result<Weighable, NoRest> {
    let amounts = rounded(model, &model.amounts(&rest.changes));
    let misses = model.misses(&amounts).ok_or(NoRest::Failed)?;
    Ok(Weighable { amounts, misses, rest })
}

/// Rounds what moved; what did not keeps its digits, and the total is kept as well as the steps allow.
fn rounded(model: &Model, exact: &[f64]) -> Vec<f64> {
    let steps: Vec<f64> = exact.iter().map(|&amount| model.problem.scale.step_for(Grams(amount)).0).collect();
    let packs = packs(model);
    let mut amounts = exact.to_vec();
    let mut moves = Vec::new();
    for (idx, amount) in amounts.iter_mut().enumerate() {
        if let Some((_, pack)) = packs.iter().find(|(line, _)| *line == idx) {
            *amount = (*amount / pack).round() * pack;
        } else if *amount < steps[idx] * SPECK {
            *amount = 0.0;
        } else if is_fixed(model, idx) || (*amount - model.before[idx]).abs() < steps[idx] / 2.0 {
            *amount = model.before[idx];
        } else {
            moves.push(idx);
        }
    }
    let all: f64 = if model.problem.keeps_total { model.before.iter().sum() } else { exact.iter().sum() };
    let resting: f64 = (0..amounts.len()).filter(|idx| !moves.contains(idx)).map(|idx| amounts[idx]).sum();
    let shares: Vec<Grams> = moves.iter().map(|&idx| Grams(exact[idx])).collect();
    let steps: Vec<Grams> = moves.iter().map(|&idx| Grams(steps[idx])).collect();
    // What weighs nothing together, or less than a step, stays as the descent left it.
    if let Ok(rounded) = round_on_each_scale(&shares, Grams(all - resting), &steps) {
        for (&idx, line) in moves.iter().zip(&rounded.lines) {
            amounts[idx] = line.rounded.0;
        }
    }
    amounts
}

/// Below this share of a step of the scale there is nothing: what the solver leaves open.
const SPECK: f64 = 0.1;

/// Whether an amount must not be touched.
fn is_fixed(model: &Model, idx: usize) -> bool {
    let place = model.places[idx];
    model.constraints.iter().any(|constraint| constraint.member == Member::Lock(place))
        || model.problem.limits.iter().any(|limit| limit.place == place && limit.rule == Rule::Locked)
}

/// Which line takes a step, and which gives one; where the total is free, one alone may.
fn exchanges(free: &[usize], keeps_total: bool) -> Vec<(Option<usize>, Option<usize>)> {
    let pairs = free.iter().flat_map(|&to| free.iter().map(move |&from| (Some(to), Some(from))));
    let alone = free.iter().flat_map(|&idx| [(Some(idx), None), (None, Some(idx))]).filter(|_| !keeps_total);
    pairs.filter(|(to, from)| to != from).chain(alone).collect()
}

/// Exchanges single steps between two lines as long as something is missed and that helps.
fn exchanged(descent: &Descent, mut best: Weighable) -> Weighable {
    /// More passes than were ever needed in trials.
    const PASSES: usize = 4;
    let model = descent.model;
    let packs = packs(model);
    let is_free = |idx: &usize| !is_fixed(model, *idx) && !packs.iter().any(|(line, _)| line == idx);
    let free: Vec<usize> = (0..best.amounts.len()).filter(is_free).collect();
    for _ in 0..PASSES {
        let here = missed(descent, &best.misses);
        if here <= 0.0 {
            break;
        }
        let mut nearest: Option<(f64, Weighable)> = None;
        for (to, from) in exchanges(&free, model.problem.keeps_total) {
            let step = |idx: usize| model.problem.scale.step_for(Grams(best.amounts[idx])).0;
            let moved = [to, from].into_iter().flatten().map(step).fold(0.0, f64::max);
            if from.is_some_and(|from| best.amounts[from] < moved) {
                continue;
            }
            let mut amounts = best.amounts.clone();
            for (place, by) in [(to, moved), (from, -moved)] {
                if let Some(idx) = place {
                    amounts[idx] += by;
                }
            }
            let Some(misses) = model.misses(&amounts) else { continue };
            let then = missed(descent, &misses);
            if then < nearest.as_ref().map_or(here, |(least, _)| *least) {
                nearest = Some((then, Weighable { amounts, misses, rest: best.rest.clone() }));
            }
        }
        match nearest {
            Some((_, next)) => best = next,
            None => break,
        }
    }
    best
}
