//! Where a descent begins: where figures bend, it finds the best among its neighbours, and the neighbours depend on the start.

use super::descent::{Aim, Descent, NoRest, Rest};
use super::model::Model;

/// Changes to begin with: none at first; then half of the lines a half up and the others a half down, in four ways.
pub(super) fn beginnings(model: &Model) -> impl Iterator<Item = Vec<f64>> {
    const HALF: f64 = 0.5;
    let lines = model.before.len();
    // By their size, so that their order in the recipe does not matter.
    let mut by_size: Vec<usize> = (0..lines).collect();
    let id = |line: usize| model.problem.ingredient(model.places[line]).map(|ingredient| &ingredient.id);
    by_size.sort_by(|&left, &right| model.before[right].total_cmp(&model.before[left]).then(id(left).cmp(&id(right))));
    let mixed = [(1, HALF), (1, -HALF), (2, HALF), (2, -HALF)].into_iter().map(move |(width, half)| {
        let mut changes = vec![0.0; lines];
        for (rank, &line) in by_size.iter().enumerate() {
            changes[line] = if (rank / width) % 2 == 0 { half } else { -half };
        }
        changes
    });
    std::iter::once(vec![0.0; lines]).chain(mixed)
}

/// From this start; where figures bend also from two of the others, as many as the budget of time allows, and the nearest of
/// what they lead to.
pub(super) fn nearest_of_several(descent: &Descent, aim: Aim, start: &[f64]) -> Result<Rest, NoRest> {
    const OTHERS: usize = 2;
    if descent.is_linear() {
        return descent.run(aim, start);
    }
    let mut nearest: Option<Rest> = None;
    let others = beginnings(descent.model).skip(1).take(OTHERS);
    for start in std::iter::once(start.to_vec()).chain(others) {
        match descent.run(aim, &start) {
            Ok(rest) if nearest.as_ref().is_none_or(|best| descent.cost(aim, &rest) < descent.cost(aim, best)) => {
                nearest = Some(rest);
            }
            Ok(_) | Err(NoRest::Impossible | NoRest::Failed) => {}
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
        }
    }
    nearest.ok_or(NoRest::Impossible)
}

/// Changes with which nearly the whole batch is one line, or two in equal parts: those of all such that miss least of what
/// counts. Some figures are only had far from where a recipe stands. `None` where none of them has all figures.
pub(super) fn nearest_corner(descent: &Descent) -> Option<Vec<f64>> {
    /// What is left of the batch for the other lines.
    const LEFT: f64 = 0.1;
    let model = descent.model;
    let batch: f64 = model.before.iter().sum();
    let lines: Vec<usize> = (0..model.before.len()).filter(|&line| !model.is_out[line]).collect();
    let corner = |one: usize, other: usize| {
        let mut amounts: Vec<f64> = model.before.iter().map(|before| LEFT * before).collect();
        for line in [one, other] {
            amounts[line] += 0.5 * (1.0 - LEFT) * batch;
        }
        let changes = model.changes(&amounts);
        let missed = descent.missed(&changes)?;
        Some((missed, changes))
    };
    let pairs =
        lines.iter().flat_map(|&one| lines.iter().filter(move |&&other| other >= one).map(move |&other| (one, other)));
    let corners = pairs.filter_map(|(one, other)| corner(one, other));
    corners.min_by(|left, right| left.0.total_cmp(&right.0)).map(|(_, changes)| changes)
}
