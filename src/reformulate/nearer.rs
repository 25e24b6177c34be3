//! A nearer answer where the way round by round has led too far: straight lines away from the recipe, looked along.
//!
//! Where figures bend, a descent ends among its neighbours, or comes down far behind the bound that it had to pass. Along a
//! straight line from the recipe the change only grows, so the first place on it at which everything holds is nearer than
//! all behind; a place nearer than the answer proves that there is more to be had, and the descent begins anew there.

use super::activity::Reading;
use super::descent::{Aim, Descent, NoRest, Rest};
use super::steps::is_fixed;

/// So many places of a straight line are looked at; few of those that are many (judged).
const MANY: u32 = 12;
const FEW: u32 = 4;

/// A rest at least as near as this one.
pub(super) fn nearer(descent: &Descent, aim: Aim, rest: Rest) -> Result<Rest, NoRest> {
    /// Each begins where the one before has ended; more were never needed in trials.
    const TIMES: usize = 6;
    /// What is nearer by less is not worth another descent.
    const WORTH: f64 = 0.99;
    /// From so much change on for each line it is worth the time to look further than back along the way (judged).
    const FAR: f64 = 0.2;
    // Other ways of reading a problem lead along the same lines: once is enough.
    let is_other = descent.model.reading != Reading::TOLD;
    if descent.is_linear() || is_other || !matches!(aim, Aim::Change(_)) {
        return Ok(rest);
    }
    let mut best = rest;
    let alone = of_one_line(descent);
    let far: f64 = descent.model.before.iter().map(|_| FAR).sum();
    for _ in 0..TIMES {
        let cost = descent.cost(aim, &best);
        let is_far = cost > far || !best.is_settled;
        let mut found = first_of(descent, aim, &[best.changes.clone()], MANY, WORTH * cost)?;
        if found.is_none() {
            found = first_of(descent, aim, &alone, FEW, WORTH * cost)?;
        }
        if found.is_none() && is_far {
            found = first_of(descent, aim, &of_two_lines(descent), MANY, WORTH * cost)?;
        }
        let next = match found {
            Some(start) => from_there(descent, aim, start)?,
            None if is_far => from_beside(descent, aim, &best, WORTH * cost)?,
            None => None,
        };
        match next {
            Some(next) if descent.cost(aim, &next) < WORTH * cost => best = next,
            _ => break,
        }
    }
    Ok(best)
}

/// Where a descent leads from amounts with which everything holds: no further than they are.
fn from_there(descent: &Descent, aim: Aim, start: Vec<f64>) -> Result<Option<Rest>, NoRest> {
    let next = match descent.run(aim, &start) {
        Err(NoRest::Stopped) => return Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => None,
        Ok(rest) => Some(rest),
    };
    let there = descent.stay(start)?;
    let is_nearer = |next: &Rest| descent.cost(aim, next) <= descent.cost(aim, &there);
    Ok(Some(next.filter(is_nearer).unwrap_or(there)))
}

/// Where a descent leads from beside an answer, with one amount as it was or at nought, if that costs less than `most`.
fn from_beside(descent: &Descent, aim: Aim, rest: &Rest, most: f64) -> Result<Option<Rest>, NoRest> {
    let model = descent.model;
    let free = free_lines(descent);
    let beside = |line: usize, change: f64| {
        let mut changes = rest.changes.clone();
        changes[line] = change;
        changes
    };
    let starts =
        free.iter().flat_map(|&line| [beside(line, 0.0), beside(line, -model.before[line] / model.spans[line])]);
    for start in starts.filter(|start| *start != rest.changes) {
        match descent.run(aim, &start) {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Ok(next) if descent.cost(aim, &next) < most => return Ok(Some(next)),
            Ok(_) | Err(NoRest::Impossible | NoRest::Failed) => {}
        }
    }
    Ok(None)
}

/// The nearest of the first places on some straight lines at which everything holds, if one costs less than `most`.
fn first_of(
    descent: &Descent,
    aim: Aim,
    lines: &[Vec<f64>],
    places: u32,
    most: f64,
) -> Result<Option<Vec<f64>>, NoRest> {
    let (mut nearest, mut most) = (None, most);
    for line in lines {
        if (descent.is_stopped)() {
            return Err(NoRest::Stopped);
        }
        if let Some((cost, place)) = first_on(descent, aim, line, places, most) {
            (nearest, most) = (Some(place), cost);
        }
    }
    Ok(nearest)
}

/// The first place on a straight line at which everything holds, with its cost, if that is less than `most`.
fn first_on(descent: &Descent, aim: Aim, line: &[f64], places: u32, most: f64) -> Option<(f64, Vec<f64>)> {
    /// So often what lies between two places is halved, and the part of the line on which it pays to look.
    const HALVED: usize = 6;
    const HALVED_FOR_COST: usize = 30;
    let cost = |at: f64| descent.merit(aim, 0.0, &place(line, at), &[]);
    // The cost grows along the line: how far it pays to look.
    let (mut pays, mut dear) = (0.0, 1.0);
    if cost(1.0) < most {
        pays = 1.0;
    } else {
        for _ in 0..HALVED_FOR_COST {
            let middle = 0.5 * (pays + dear);
            if cost(middle) < most { pays = middle } else { dear = middle }
        }
    }
    let holds = |at: f64| descent.holds(&place(line, at));
    let first = (1..=places).map(|idx| pays * f64::from(idx) / f64::from(places)).find(|&at| holds(at))?;
    let (mut inside, mut outside) = (first, first - pays / f64::from(places));
    for _ in 0..HALVED {
        let middle = 0.5 * (inside + outside);
        if holds(middle) { inside = middle } else { outside = middle }
    }
    Some((cost(inside), place(line, inside)))
}

fn place(line: &[f64], at: f64) -> Vec<f64> {
    line.iter().map(|change| at * change).collect()
}

/// Straight lines on which one amount goes to nought, or becomes a large part of the batch, and the others make up for it in
/// proportion.
fn of_one_line(descent: &Descent) -> Vec<Vec<f64>> {
    /// So much of the batch comes in at the end (judged).
    const MUCH: f64 = 0.4;
    let model = descent.model;
    let batch: f64 = model.before.iter().sum();
    let free = free_lines(descent);
    let mut lines = Vec::new();
    for &line in &free {
        let others: f64 = free.iter().filter(|other| **other != line).map(|&other| model.before[other]).sum();
        let keeps_total = model.problem.keeps_total;
        let most = if keeps_total { others.min(MUCH * batch) } else { MUCH * batch };
        for by in [-model.before[line], most] {
            if by == 0.0 || (keeps_total && others <= 0.0) {
                continue;
            }
            let mut amounts = model.before.clone();
            amounts[line] += by;
            if keeps_total {
                let left = (1.0 - by / others).max(0.0);
                free.iter().filter(|other| **other != line).for_each(|&other| amounts[other] *= left);
            }
            lines.push(model.changes(&amounts));
        }
    }
    lines
}

/// Straight lines on which one amount goes to nought and another one grows by as much.
fn of_two_lines(descent: &Descent) -> Vec<Vec<f64>> {
    let model = descent.model;
    let free = free_lines(descent);
    let pairs = free.iter().flat_map(|&from| free.iter().map(move |&to| (from, to)));
    let there = pairs.filter(|&(from, to)| from != to && model.before[from] > 0.0);
    there
        .map(|(from, to)| {
            let mut amounts = model.before.clone();
            amounts[to] += amounts[from];
            amounts[from] = 0.0;
            model.changes(&amounts)
        })
        .collect()
}

/// The lines that may move.
fn free_lines(descent: &Descent) -> Vec<usize> {
    let may_move = |&line: &usize| !descent.model.is_out[line] && !is_fixed(descent, line);
    (0..descent.model.before.len()).filter(may_move).collect()
}
