//! What comes in packs comes in whole ones.

use super::beginnings::beginnings;
use super::descent::{Aim, Descent, NoRest, Rest};
use super::model::Model;
use super::problem::Rule;

/// How many ways of opening packs are tried at most.
const MOST_PACKINGS: usize = 200;

/// How far from a whole number of packs counts as whole: what the solver leaves open.
const WHOLE: f64 = 1e-5;

/// The nearest rest in which what comes in packs comes in whole ones; each half is solved and the nearer kept.
///
/// Branch and bound: of the pack that is furthest from whole, once no more than the whole packs below, once no less than those
/// above. Where figures bend it is a search: a half that leads nowhere is left, and what it would have led to is not known.
pub(super) fn in_packs(descent: &Descent, aim: Aim, start: Rest) -> Result<Rest, NoRest> {
    in_those_packs(descent, aim, start, |_| true)
}

/// The same of some of the packs, told by the places of their limits.
pub(super) fn in_those_packs(
    descent: &Descent,
    aim: Aim,
    start: Rest,
    is_asked: impl Fn(usize) -> bool,
) -> Result<Rest, NoRest> {
    let packs: Vec<(usize, f64)> = limits_in_packs(descent.model)
        .filter(|pack| is_asked(pack.limit))
        .map(|pack| (pack.line, pack.grams))
        .collect();
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
        // The nearer half is looked at first: it comes last.
        let halves = if count - count.floor() < 0.5 { [above, below] } else { [below, above] };
        for ends in halves {
            if left == 0 {
                break;
            }
            left -= 1;
            if ends[line].0 > ends[line].1 {
                continue;
            }
            let narrowed = Descent { ends: ends.clone(), weights: descent.weights.clone(), ..*descent };
            let mut found = narrowed.run(aim, &rest.changes);
            // So many packs more, and nothing else, may be a mass without the figure.
            let mut starts = beginnings(descent.model);
            while found == Err(NoRest::Failed)
                && let Some(start) = starts.next()
            {
                found = narrowed.run(aim, &start);
            }
            match found {
                Ok(rest) => open.push((ends, rest)),
                Err(NoRest::Impossible | NoRest::Failed) => {}
                Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            }
        }
    }
    // Used up is no proof that there is none.
    let is_settled = left > 0;
    best.map(|(_, rest)| Rest { is_settled: rest.is_settled && is_settled, ..rest }).ok_or(if left == 0 {
        NoRest::Stopped
    } else {
        NoRest::Impossible
    })
}

/// Something that comes in whole packs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pack {
    /// The place of the limit that says so.
    pub limit: usize,
    /// Which amount.
    pub line: usize,
    /// What a pack weighs, g.
    pub grams: f64,
}

/// What comes in whole packs.
pub(super) fn limits_in_packs<'a>(model: &'a Model<'_>) -> impl Iterator<Item = Pack> + 'a {
    model.problem.limits.iter().enumerate().filter_map(|(limit, asked)| match asked.rule {
        Rule::InPacks(pack) => Some(Pack { limit, line: model.line_at(asked.place)?, grams: pack.0 }),
        _ => None,
    })
}

/// What comes in whole packs, with the pack in g.
pub(super) fn packs(model: &Model) -> Vec<(usize, f64)> {
    limits_in_packs(model).map(|pack| (pack.line, pack.grams)).collect()
}

/// Whether what comes in packs comes in whole ones.
pub(super) fn are_whole(model: &Model, amounts: &[f64]) -> bool {
    packs(model).into_iter().all(|(line, pack)| {
        let count = amounts[line] / pack;
        (count - count.round()).abs() <= WHOLE
    })
}
