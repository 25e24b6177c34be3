//! Where a descent begins: where figures bend, it finds the best among its neighbours, and the neighbours depend on the start.

use super::descent::{Aim, Descent, NoRest, Rest};
use super::model::Model;

/// Changes to begin with: none at first; then half of the lines a half up and the others a half down, in four ways.
pub(super) fn beginnings(model: &Model) -> impl Iterator<Item = Vec<f64>> {
    const HALF: f64 = 0.5;
    let lines = model.before.len();
    // By their size, so that their order in the recipe does not matter.
    let mut by_size: Vec<usize> = (0..lines).collect();
    by_size.sort_by(|left, right| model.before[*right].total_cmp(&model.before[*left]));
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
