//! Room for the scale: where the nearest amounts lie so close to an end, or to a jump, that no step of the scale keeps it, an
//! answer further inside.

use super::answer::{Answer, answer, nearest};
use super::descent::{Aim, Descent, NoRest, Rest, Weight};
use super::model::{Member, Model};
use super::problem::{Problem, Scale};
use super::steps::{Weighable, on_the_scale};
use super::target::{Bound, Target};
use super::tolerance::{MET, PULLS};
use super::whole::in_packs;

/// An answer that keeps clear of what was missed as soon as it was weighed; `None` where none is found.
pub(super) fn clear(
    model: &Model,
    aim: Aim,
    weighable: &Weighable,
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Answer>, NoRest> {
    match clear_of_jumps(model, aim, weighable, is_stopped)? {
        None => far_inside(model, aim, weighable, is_stopped),
        found => Ok(found),
    }
}

/// An answer that keeps clear of what a model misses as soon as it is weighed; `None` where none is found.
///
/// The nearest amounts can lie on the rim of a jump (a band that is wider from some figure on): every step of the scale falls
/// over it. Further inside, by so many grains, there may be room.
fn clear_of_jumps(
    model: &Model,
    aim: Aim,
    weighable: &Weighable,
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Answer>, NoRest> {
    const CLEAR_BY: [f64; 3] = [0.1, 0.5, 2.0];
    let Some(misses) = model.misses(&weighable.amounts) else { return Ok(None) };
    let rows: Vec<usize> = (0..misses.len())
        .filter(|&row| !model.is_linear(row) && !model.is_wish(&model.constraints[row]))
        .filter(|&row| misses[row] > MET || weighable.rest.pulls[row] > PULLS)
        .collect();
    if rows.is_empty() && !model.has_wish() {
        return Ok(None);
    }
    let none = vec![0.0; model.before.len()];
    for clear_by in CLEAR_BY {
        if let Some(answer) = clear_by_so_much(model, aim, &rows, clear_by, &none, is_stopped)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

/// An answer whose amounts keep clear of some constraints by so many grains before they are weighed.
fn clear_by_so_much(
    model: &Model,
    aim: Aim,
    rows: &[usize],
    clear_by: f64,
    start: &[f64],
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Answer>, NoRest> {
    let mut descent = Descent::new(model, is_stopped);
    for &row in rows {
        descent.weights[row] = Weight::Holds { up_to: -clear_by };
    }
    let rest = match nearest(&mut descent, aim, start, clear_by) {
        Err(NoRest::Stopped) => return Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => return Ok(None),
        Ok(rest) => rest,
    };
    for &row in rows {
        descent.weights[row] = Weight::Holds { up_to: 0.0 };
    }
    weighed(model, aim, &descent, aim, rest)
}

/// The answer that comes of amounts once they are weighed, if it misses nothing.
fn weighed(model: &Model, aim: Aim, descent: &Descent, by: Aim, rest: Rest) -> Result<Option<Answer>, NoRest> {
    let mut weighable = match on_the_scale(descent, by, rest) {
        Err(NoRest::Failed) => return Ok(None),
        weighable => weighable?,
    };
    if by != aim {
        // What pulled there was something else.
        let as_it_is = Descent::new(model, descent.is_stopped).stay(weighable.rest.changes.clone());
        match as_it_is {
            Ok(rest) => weighable.rest = rest,
            Err(_) => return Ok(None),
        }
    }
    let answer = answer(model, aim, &weighable);
    Ok((weighable.holds && answer.missed().next().is_none()).then_some(answer))
}

/// An answer on the way to where a target is kept as far as it can be; `None` where none is found.
///
/// Where what is asked for can only just be had, the nearest amounts lie in a corner in which no step of the scale does: who
/// asks for what he was told can be had, asks for such a corner.
fn far_inside(
    model: &Model,
    aim: Aim,
    weighable: &Weighable,
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Answer>, NoRest> {
    /// Of so many targets, those that are missed most first: who waits for an answer waits for each (judged).
    const MOST: usize = 4;
    /// How far on the way: the nearest first, and at the end as far as the solver is exact.
    const OF_THE_WAY: [f64; 4] = [0.25, 0.5, 0.75, 0.999];
    if model.has_wish() {
        return Ok(None);
    }
    let Some(misses) = model.misses(&weighable.amounts) else { return Ok(None) };
    for idx in tight(model, &misses, &weighable.rest.pulls).into_iter().take(MOST) {
        let rows: Vec<usize> = (0..model.constraints.len()).filter(|&row| is_of(model, row, idx)).collect();
        let sharper = sharpened(model.problem, idx);
        let Ok(further) = Model::new(&sharper, model.quotients) else { continue };
        let further = further.read_as(model.reading);
        let mut descent = Descent::new(&further, is_stopped);
        for row in (0..further.constraints.len()).filter(|&row| is_of(&further, row, idx)) {
            descent.weights[row] = Weight::Costs(1.0);
        }
        let furthest =
            descent.run(Aim::Misses, &weighable.rest.changes).and_then(|rest| in_packs(&descent, Aim::Misses, rest));
        let furthest = match furthest {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => continue,
            Ok(rest) => rest,
        };
        let Some(there) = model.misses(&model.amounts(&furthest.changes)) else { continue };
        let way = rows.iter().map(|&row| -there[row]).fold(f64::INFINITY, f64::min);
        if way <= MET {
            continue;
        }
        for share in OF_THE_WAY {
            let found = clear_by_so_much(model, aim, &rows, share * way, &furthest.changes, is_stopped)?;
            if found.is_some() {
                return Ok(found);
            }
        }
        if let Some(answer) = weighed(model, aim, &descent, Aim::Misses, furthest)? {
            return Ok(Some(answer));
        }
    }
    Ok(None)
}

/// The targets that were missed as soon as they were weighed, or that pull; what is missed most first.
fn tight(model: &Model, misses: &[f64], pulls: &[f64]) -> Vec<usize> {
    let mut tight: Vec<(f64, usize)> = Vec::new();
    for (row, constraint) in model.constraints.iter().enumerate() {
        let Member::Target(idx) = constraint.member else { continue };
        if misses[row] <= MET && pulls[row] <= PULLS {
            continue;
        }
        match tight.iter_mut().find(|(_, other)| *other == idx) {
            Some((missed, _)) => *missed = missed.max(misses[row]),
            None => tight.push((misses[row], idx)),
        }
    }
    tight.sort_by(|left, right| right.0.total_cmp(&left.0));
    tight.into_iter().map(|(_, idx)| idx).collect()
}

/// The problem with one target asked for as far inside as nothing can be.
fn sharpened(problem: &Problem, idx: usize) -> Problem {
    /// Further than any figure goes, in grains.
    const FAR: f64 = 200.0;
    let mut sharper = problem.clone();
    let Target { of, bound, .. } = sharper.targets[idx];
    let most = if of.is_fraction() { 1.0 } else { f64::INFINITY };
    sharper.targets[idx].bound = match bound {
        Bound::AtMost(_) => Bound::AtMost(0.0),
        Bound::AtLeast(at) => Bound::AtLeast((at + FAR * of.grain()).min(most)),
        Bound::Between(low, high) => Bound::Between(0.5 * (low + high), 0.5 * (low + high)),
        Bound::Near(at) => Bound::Near(at),
    };
    sharper
}

fn is_of(model: &Model, row: usize, target: usize) -> bool {
    model.constraints[row].member == Member::Target(target)
}

/// Whether it could be weighed on a scale a thousand times as fine: then the scale is to blame, and not a figure that jumps.
pub(super) fn can_be_weighed_finely(model: &Model, descent: &Descent, aim: Aim, rest: Rest) -> Result<bool, NoRest> {
    const FINER: f64 = 1e-3;
    let finer = model.problem.scale.coarsest.min(model.problem.recipe.weighed() * FINER);
    let scale = Scale { coarsest: finer * FINER, has_finer: false };
    let problem = Problem { scale, ..model.problem.clone() };
    let Ok(fine) = Model::new(&problem, model.quotients) else { return Ok(false) };
    let fine = fine.read_as(model.reading);
    let is_stopped = descent.is_stopped;
    let descent =
        Descent { weights: descent.weights.clone(), ends: descent.ends.clone(), ..Descent::new(&fine, is_stopped) };
    let weighable = on_the_scale(&descent, aim, rest)?;
    Ok(weighable.holds && answer(&fine, aim, &weighable).missed().next().is_none())
}
