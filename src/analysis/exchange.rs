//! Which exchange of one line for another would bring a figure to a bound, where no change of a single line does.
//!
//! So much of one line is taken off and as much of another put in: the batch stays as heavy. The rules of
//! [`super::remedy`] hold for both lines: what is locked stays, what works by the pinch does not grow, no line is taken
//! out altogether, and no other figure gets worse.

use super::make_up::MakeUp;
use super::parts::Parts;
use super::remedy::{Judgement, Names, allowed, evaporates_as_asked};
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
}

/// The smallest exchange that brings a figure down to a bound; `None` where none of the nearest does it.
///
/// `gains` tells what a gram more of each line does to the figure, about; the exchange itself is solved with the figure.
/// Only the [`TRIED`] pairs that look smallest are tried.
pub fn for_figure(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: f64,
    gains: &[(LineId, f64)],
    figure: impl Fn(&Parts) -> Option<f64>,
) -> Option<Exchange> {
    /// A recipe of twenty lines has hundreds of pairs.
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
        .filter(|(line, _)| !line.is_locked)
        .collect();
    let mut pairs: Vec<(&Line, &Line, f64)> = Vec::new();
    for (from, loss) in &lines {
        for (to, gain) in &lines {
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
    pairs.into_iter().take(TRIED).find_map(|(from, to, about)| {
        let close_enough = batch * TOLERANCE;
        let grams = secant(excess, about, &(0.0..=batch), close_enough, |grams| {
            Some(figure(&changed(from, to, grams)?)? - bound)
        })?;
        let is_allowed = allowed(from, batch).contains(&-grams) && allowed(to, batch).contains(&grams);
        let mass = changed(from, to, grams)?;
        if !is_allowed || mass.most_water() < Grams::ZERO || judgement.is_worse(&mass) {
            return None;
        }
        let names = Names::of(recipe);
        Some(Exchange {
            from: from.id,
            from_name: names.name_of(from),
            to: to.id,
            to_name: names.name_of(to),
            grams: Grams(grams),
        })
    })
}
