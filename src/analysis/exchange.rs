//! Which exchange of one line for another would bring a figure to a bound, where no change of a single line does.
//!
//! So much of one line is taken off and as much of another put in: the batch stays as heavy. The rules of
//! [`super::remedy`] hold for both lines: what is locked stays, what works by the pinch does not grow, no line is taken
//! out altogether. Where another figure gets worse all the same, the exchange says which ([`Exchange::worse`]).

use super::make_up::MakeUp;
use super::parts::Parts;
use super::remedy::{Judgement, Names, Worse, allowed, evaporates_as_asked};
use super::root::secant;
use crate::recipe::{Line, LineId, Recipe};
use crate::units::Grams;

/// So much of one line for as much of another.
#[derive(Clone, Debug, PartialEq)]
pub struct Exchange {
    /// The line that becomes less.
    pub from: LineId,
    /// Its ingredient.
    pub from_name: String,
    /// The line that becomes more.
    pub to: LineId,
    /// Its ingredient.
    pub to_name: String,
    /// How much.
    pub grams: Grams,
    /// Which of the two lines are locked.
    pub locked: Vec<String>,
    /// What it moves out of what is usual; empty where nothing.
    pub worse: Vec<Worse>,
}

/// Whether lines that are locked may be part of an exchange.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Locked {
    /// They stay as they are.
    Kept,
    /// They may change: the exchange then says which of them it needs unlocked.
    Thought,
}

/// The smallest exchange that brings a figure down to a bound and makes no other figure worse; where none of the nearest does,
/// the one that makes the fewest worse, which it names. `None` where none is possible.
///
/// `gains` tells what a gram more of each line does to the figure, about; the exchange itself is solved with the figure.
/// Only the five pairs that look smallest are tried.
pub fn for_figure(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: f64,
    gains: &[(LineId, f64)],
    locked: Locked,
    figure: impl Fn(&Parts) -> Option<f64>,
) -> Option<Exchange> {
    /// A recipe of twenty lines has hundreds of pairs.
    const STRONGEST: usize = 12;
    const TRIED: usize = 5;
    /// Relative to the batch; finer than any scale.
    const TOLERANCE: f64 = 1e-6;

    let bowl = &make_up.bowl;
    let batch = bowl.total().0;
    if !evaporates_as_asked(make_up) {
        return None;
    }
    let excess = figure(bowl)? - bound;
    let lines: Vec<(&Line, f64)> = gains
        .iter()
        .filter_map(|(id, gain)| Some((recipe.line(*id)?, *gain)))
        .filter(|(line, _)| locked == Locked::Thought || !line.is_locked)
        .collect();
    // Those that raise it most are taken off, those that lower it most put in.
    let strongest = |is_raising: bool| {
        let mut lines = lines.clone();
        lines.sort_by(|(_, left), (_, right)| if is_raising { right.total_cmp(left) } else { left.total_cmp(right) });
        lines.truncate(STRONGEST);
        lines
    };
    let (raising, lowering) = (strongest(true), strongest(false));
    let mut pairs: Vec<(&Line, &Line, f64)> = Vec::new();
    for (from, loss) in &raising {
        for (to, gain) in &lowering {
            let each = loss - gain;
            let grams = excess / each;
            let is_possible = from.ingredient.id != to.ingredient.id
                && each > 0.0
                && allowed(from, batch).contains(&-grams)
                && allowed(to, batch).contains(&grams);
            if is_possible {
                pairs.push((from, to, grams));
            }
        }
    }
    pairs.sort_by(|(_, _, left), (_, _, right)| left.total_cmp(right));
    let judgement = Judgement::of(recipe, bowl);
    let changed = |from: &Line, to: &Line, grams: f64| {
        make_up.with_more(&[(&from.ingredient, Grams(-grams)), (&to.ingredient, Grams(grams))])
    };
    let names = Names::of(recipe);
    let mut best: Option<Exchange> = None;
    for (from, to, about) in pairs.into_iter().take(TRIED) {
        let close_enough = batch * TOLERANCE;
        let excess_of = |grams| Some(figure(&changed(from, to, grams)?)? - bound);
        let Some(grams) = secant(excess, about, &(0.0..=batch), close_enough, excess_of) else { continue };
        let is_allowed = allowed(from, batch).contains(&-grams) && allowed(to, batch).contains(&grams);
        let Some(mass) = changed(from, to, grams).filter(|mass| is_allowed && mass.most_water() >= Grams::ZERO) else {
            continue;
        };
        let worse = judgement.worse(&mass);
        if best.as_ref().is_some_and(|best| best.worse.len() <= worse.len()) {
            continue;
        }
        let is_clean = worse.is_empty();
        best = Some(Exchange {
            from: from.id,
            from_name: names.name_of(from),
            to: to.id,
            to_name: names.name_of(to),
            grams: Grams(grams),
            locked: [from, to].into_iter().filter(|line| line.is_locked).map(|line| names.name_of(line)).collect(),
            worse,
        });
        if is_clean {
            break;
        }
    }
    best
}
