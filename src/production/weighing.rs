//! What to weigh: a batch split over bowls, and every bowl rounded to the scale.
//!
//! The bowls are as even as the scale allows: they differ by one step at most, so there are at most two lists. Full bowls and a
//! rest would be fewer words and worse work: the rest cools and sets in another time than the others, its small ingredients fall
//! below what the scale can tell, and with even bowls one list, one dose of seed and one clock serve them all.

use super::rounding::{
    LEAST_STEPS, Rounded, RoundedLine, RoundingError, nearest_step, round_on_each_scale, whole_steps,
};
use super::scaling::{Batch, CannotScale};
use super::seed::SeedOf;
use crate::units::Grams;

/// The scales at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scales {
    /// The step of the scale for all that is not small.
    pub step: Grams,
    /// The step of a finer one, for what the first is too coarse for.
    pub fine_step: Option<Grams>,
}

/// What to weigh for a batch.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// The bowls, those that are alike together, larger ones first; never empty.
    pub bowls: Vec<Bowls>,
    /// What is weighed of every line in all bowls, in the order of the recipe.
    pub lines: Vec<Grams>,
    /// What is weighed in all bowls.
    pub total: Grams,
    /// What was asked for.
    pub requested: Grams,
}

/// Bowls that are alike, and what each of them gets.
#[derive(Clone, Debug, PartialEq)]
pub struct Bowls {
    /// How many there are.
    pub count: u64,
    /// What is weighed into each, line by line.
    pub weighed: Rounded,
    /// What evaporates of each; `None` where it is not known.
    pub evaporates: Option<Grams>,
    /// The seed for each, rounded to its scale; `None` where there is none, it is not known, or it stands among the lines.
    pub seed: Option<RoundedLine>,
}

impl Scales {
    /// A single scale, with steps of 1 g: what a kitchen has (common practice, no published source).
    pub const KITCHEN: Self = Self { step: Grams(1.0), fine_step: None };

    /// The finer step, where there is one that is finer.
    fn finer(&self) -> Option<Grams> {
        self.fine_step.filter(|fine| *fine < self.step)
    }

    /// Amounts rounded; those for which the first scale is too coarse go on the finer one.
    fn round(&self, amounts: &[Grams], total: Grams) -> Result<Rounded, RoundingError> {
        let mut steps = vec![self.step; amounts.len()];
        let Some(fine) = self.finer() else { return round_on_each_scale(amounts, total, &steps) };
        let all: Grams = amounts.iter().copied().sum();
        for (step, amount) in steps.iter_mut().zip(amounts) {
            if all.0 > 0.0 && (total * (*amount / all)).0 < LEAST_STEPS * self.step.0 {
                *step = fine;
            }
        }
        loop {
            let rounded = round_on_each_scale(amounts, total, &steps)?;
            let mut is_changed = false;
            for (place, _) in rounded.too_coarse() {
                is_changed |= steps[place] != fine;
                steps[place] = fine;
            }
            if !is_changed {
                return Ok(rounded);
            }
        }
    }

    /// The seed rounded: on the finer scale where there is one, because it is weighed apart and is little.
    fn round_seed(&self, seed: Grams) -> Option<RoundedLine> {
        nearest_step(seed, self.finer().unwrap_or(self.step))
    }
}

impl Bowls {
    /// What is in each bowl once the water is gone; `None` where that is not known.
    #[must_use]
    pub fn left(&self) -> Option<Grams> {
        self.evaporates.map(|evaporates| self.weighed.total - evaporates)
    }
}

impl Weighing {
    /// How many bowls there are.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.bowls.iter().map(|bowls| bowls.count).sum()
    }
}

/// What to weigh for a batch, in bowls that hold so much of what is weighed in; without a capacity in one.
///
/// n = ⌈N/⌊capacity/step⌋⌉ bowls, N steps in the batch; the first N mod n bowls get one step more than the others.
///
/// What evaporates and the seed are shared out like the mass. Source: integer division; the bowls of a batch by the reasons that
/// the module gives. Rounding is that of [`round_on_each_scale`].
///
/// # Errors
///
/// [`CannotScale::BowlTooSmall`] where a bowl does not hold a step, [`CannotScale::Rounding`] for what cannot be weighed.
pub fn weighing(batch: &Batch, scales: Scales, capacity: Option<Grams>) -> Result<Weighing, CannotScale> {
    let amounts: Vec<Grams> = batch.recipe.lines.iter().map(|line| line.amount.grams()).collect();
    let requested = batch.recipe.weighed();
    let evaporates = batch.analysis.make_up.evaporating.grams().map(|_| batch.analysis.make_up.evaporated);
    let seed = match SeedOf::batch(batch) {
        SeedOf::Needed { grams, is_in_recipe: false, .. } => Some(grams),
        _ => None,
    };
    let mut bowls = Vec::new();
    let split = split(requested, scales.step, capacity)?;
    let in_bowls: Grams = split.iter().map(|(count, total)| *total * as_number(*count)).sum();
    for (count, total) in split {
        // Of what is in the bowls, so that they share out all of the water and all of the seed.
        let share = total / in_bowls;
        bowls.push(Bowls {
            count,
            weighed: scales.round(&amounts, total)?,
            evaporates: evaporates.map(|evaporates| evaporates * share),
            seed: seed.and_then(|seed| scales.round_seed(seed * share)),
        });
    }
    let in_all = |of: &dyn Fn(&Rounded) -> Grams| bowls.iter().map(|it| of(&it.weighed) * as_number(it.count)).sum();
    let lines = (0..amounts.len()).map(|idx| in_all(&|it| it.lines[idx].rounded)).collect();
    let total = in_all(&|it| it.total);
    Ok(Weighing { bowls, lines, total, requested })
}

/// How many bowls get how much each: all the same, or some with one step more.
fn split(total: Grams, step: Grams, capacity: Option<Grams>) -> Result<Vec<(u64, Grams)>, CannotScale> {
    let steps = whole_steps(total, step);
    let Some(capacity) = capacity else { return Ok(vec![(1, total)]) };
    let of_bowl = whole_steps(capacity, step);
    if of_bowl == 0 {
        return Err(CannotScale::BowlTooSmall { capacity, step });
    }
    if steps <= of_bowl {
        return Ok(vec![(1, total)]);
    }
    let count = steps.div_ceil(of_bowl);
    let (each, more) = (steps / count, steps % count);
    let mass = |steps: u64| step * as_number(steps);
    let all = [(more, mass(each + 1)), (count - more, mass(each))];
    Ok(all.into_iter().filter(|(count, _)| *count > 0).collect())
}

#[expect(clippy::cast_precision_loss, reason = "fewer steps than 2^53: at most 1,000 tonnes in steps of 0.1 mg")]
fn as_number(count: u64) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests;
