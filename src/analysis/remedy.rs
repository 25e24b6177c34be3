//! What would bring a figure to a bound, in grams of a line that is there.
//!
//! Each remedy changes one line alone and leaves the others as they are, so the batch grows or shrinks by it.
//! Locked lines stay. Only changes that a maker would try are offered: no line grows by more than half of the batch, and a
//! line is not taken out altogether to mend a figure. The water that evaporates stays the same: a change that would
//! leave less of it than that is not offered, and none at all where there is too little already.

use std::collections::HashMap;

use super::is_above;
use super::make_up::MakeUp;
use super::parts::Parts;
use crate::recipe::{Line, LineId, Recipe};
use crate::units::{Grams, MassFraction};

/// How many remedies a finding offers.
const OFFERED: usize = 2;

/// A line shrinks to no less than this share of itself.
const LEAST_LEFT: f64 = 0.1;

/// A line grows by no more than this share of the batch.
const MOST_ADDED: f64 = 0.5;

/// A change of one line that would bring a figure to a bound.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The line.
    pub line: LineId,
    /// Its ingredient.
    pub name: String,
    /// What to add; negative to take off.
    pub change: Grams,
}

/// Changes of single lines that bring the share of a part to `bound`.
///
/// Δ = (b·M − C)/(c − b), with b the bound, M the mass, C the grams of the part, c its share in the line.
///
/// Exact: shares are linear in grams over grams. Lines whose figure is unknown are left out.
pub fn for_share(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: MassFraction,
    grams_of: impl Fn(&Parts) -> Option<Grams>,
) -> Vec<Remedy> {
    let bowl = &make_up.bowl;
    let Some(present) = grams_of(bowl) else { return Vec::new() };
    let missing = bowl.total().0 * bound.0 - present.0;
    nearest(recipe, make_up, |line| {
        let mut gram = Parts::default();
        gram.add(&line.ingredient, Grams(1.0));
        let gain = grams_of(&gram)?.0 - bound.0;
        (gain != 0.0).then(|| missing / gain)
    })
}

/// Changes of single lines that bring a figure of the whole mass to `bound`.
///
/// Solved by the secant method from two trial changes; lines for which it does not settle are left out.
pub fn for_figure(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: f64,
    figure: impl Fn(&Parts) -> Option<f64>,
) -> Vec<Remedy> {
    /// Relative to the batch; finer than any scale.
    const TOLERANCE: f64 = 1e-6;
    /// Smooth, nearly linear figures settle in four or five steps.
    const MOST_STEPS: usize = 12;

    let bowl = &make_up.bowl;
    let batch = bowl.total().0;
    let Some(here) = figure(bowl).map(|value| value - bound) else { return Vec::new() };
    nearest(recipe, make_up, |line| {
        let miss = |change: f64| {
            let mut changed = bowl.clone();
            changed.add(&line.ingredient, Grams(change));
            figure(&changed).map(|value| value - bound)
        };
        let (mut before, mut miss_before) = (0.0, here);
        let mut change = batch * 0.01;
        let range = -line.amount.grams().0..=batch;
        for _ in 0..MOST_STEPS {
            let miss_now = miss(change)?;
            let slope = (miss_now - miss_before) / (change - before);
            if slope == 0.0 || !slope.is_finite() {
                return None;
            }
            (before, miss_before) = (change, miss_now);
            change -= miss_now / slope;
            if !range.contains(&change) {
                return None;
            }
            if (change - before).abs() < batch * TOLERANCE {
                return Some(change);
            }
        }
        None
    })
}

fn nearest(recipe: &Recipe, make_up: &MakeUp, change_of: impl Fn(&Line) -> Option<f64>) -> Vec<Remedy> {
    let batch = make_up.bowl.total().0;
    if is_above(recipe.losses.evaporated_water.grams().0, make_up.evaporated.0) {
        return Vec::new();
    }
    let mut changes: Vec<(&Line, f64)> = recipe
        .lines
        .iter()
        .filter(|line| !line.is_locked && line.amount.grams().0 > 0.0)
        .filter_map(|line| {
            let change = change_of(line)?;
            let allowed = -line.amount.grams().0 * (1.0 - LEAST_LEFT)..=batch * MOST_ADDED;
            (change.is_finite() && allowed.contains(&change) && has_water(make_up, line, change))
                .then_some((line, change))
        })
        .collect();
    if changes.is_empty() {
        return Vec::new();
    }
    // The smallest change first; lines that change alike keep the order of the recipe.
    changes.sort_by(|(_, left), (_, right)| left.abs().total_cmp(&right.abs()));
    let names = Names::of(recipe);
    let mut remedies: Vec<Remedy> = Vec::with_capacity(OFFERED);
    for (line, change) in changes {
        let name = names.name_of(line);
        // Two lines of one ingredient would offer the same words twice.
        if remedies.last().is_none_or(|before| before.name != name) {
            remedies.push(Remedy { line: line.id, name, change: Grams(change) });
        }
        if remedies.len() == OFFERED {
            break;
        }
    }
    remedies
}

/// Whether the mass still has the water that evaporates when a line is changed.
fn has_water(make_up: &MakeUp, line: &Line, change: f64) -> bool {
    let mut changed = make_up.bowl.clone();
    changed.add(&line.ingredient, Grams(change));
    changed.most_water() >= Grams::ZERO
}

/// What the ingredients of a recipe are called in a sentence, counted once: a table may have thousands of lines.
pub(super) struct Names<'a> {
    /// The full name behind each short one; `None` where two ingredients share it.
    full: HashMap<String, Option<&'a str>>,
}

impl<'a> Names<'a> {
    pub(super) fn of(recipe: &'a Recipe) -> Self {
        let mut full: HashMap<String, Option<&'a str>> = HashMap::new();
        for line in &recipe.lines {
            let name = line.ingredient.name.as_str();
            let kept = full.entry(line.ingredient.short_name()).or_insert(Some(name));
            *kept = kept.filter(|kept| *kept == name);
        }
        Self { full }
    }

    /// The short name of a line's ingredient, or the full one where another ingredient has the same short one.
    pub(super) fn name_of(&self, line: &Line) -> String {
        let short = line.ingredient.short_name();
        let is_clear = self.full.get(&short).is_some_and(Option::is_some);
        if is_clear { short } else { line.ingredient.name.clone() }
    }
}
