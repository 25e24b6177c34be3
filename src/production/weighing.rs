//! What to weigh: a batch split over bowls, and every bowl rounded to the scale.
//!
//! The bowls are as even as the scale allows: they differ by one step at most, so there are at most two lists. Full bowls and a
//! rest would be fewer words and worse work: the rest cools and sets in another time than the others, its small ingredients fall
//! below what the scale can tell, and with even bowls one list, one dose of seed and one clock serve them all.

use super::rounding::{
    LEAST_STEPS, Rounded, RoundedLine, RoundingError, nearest_step, nearest_steps, round_on_each_scale, whole_steps,
};
use super::scaling::{Batch, CannotScale};
use super::seed::SeedOf;
use crate::analysis::{is_above, is_below};
use crate::recipe::{LineId, Recipe};
use crate::units::{Grams, MassFraction};

/// Of the seed that is needed no more than this share is left away for the step of the scale: too little does not temper, a
/// little more does no harm (judged).
const MOST_SEED_MISSED: f64 = 0.02;

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

    /// Amounts rounded; those for which the first scale is too coarse go on the finer one, and those that have a step of
    /// their own stay with it.
    fn round(&self, amounts: &[Grams], total: Grams, own: &[Option<Grams>]) -> Result<Rounded, RoundingError> {
        let mut steps: Vec<Grams> = own.iter().map(|own| own.unwrap_or(self.step)).collect();
        let Some(fine) = self.finer() else { return round_on_each_scale(amounts, total, &steps) };
        let all: Grams = amounts.iter().copied().sum();
        for ((step, amount), own) in steps.iter_mut().zip(amounts).zip(own) {
            if own.is_none() && all.0 > 0.0 && (total * (*amount / all)).0 < LEAST_STEPS * self.step.0 {
                *step = fine;
            }
        }
        loop {
            let rounded = round_on_each_scale(amounts, total, &steps)?;
            let mut is_changed = false;
            for (place, _) in rounded.too_coarse().filter(|(place, _)| own[*place].is_none()) {
                is_changed |= steps[place] != fine;
                steps[place] = fine;
            }
            if !is_changed {
                return Ok(rounded);
            }
        }
    }

    /// The seed rounded: on the finer scale where there is one, because it is weighed apart and is little; up to the next step
    /// where rounding down would take away what is needed.
    fn round_seed(&self, seed: Grams) -> Option<RoundedLine> {
        let step = self.finer().unwrap_or(self.step);
        let nearest = nearest_step(seed, step)?;
        let is_too_little = nearest.relative_error.is_some_and(|error| is_above(-error.0, MOST_SEED_MISSED));
        // A scale that shows nothing of it would give many times as much.
        if !is_too_little || nearest.rounded.0 <= 0.0 {
            return Some(nearest);
        }
        let up = nearest_step(nearest.rounded + step, step)?;
        let relative_error = (seed.0 > 0.0).then(|| MassFraction((up.rounded / seed).0 - 1.0));
        Some(RoundedLine { exact: seed, relative_error, ..up })
    }
}

impl Bowls {
    /// Whether the scale shows the same for every line and the seed.
    fn is_weighed_as(&self, other: &Self) -> bool {
        let shown = |bowls: &Self| -> Vec<Grams> {
            bowls.weighed.lines.iter().chain(&bowls.seed).map(|line| line.rounded).collect()
        };
        shown(self) == shown(other)
    }

    /// What is in each at its fullest: what is weighed in, or what is left of it with the seed.
    #[must_use]
    pub fn fullest(&self) -> Grams {
        let seed = self.seed.map_or(Grams::ZERO, |seed| seed.rounded);
        self.weighed.total.max(self.left().unwrap_or(self.weighed.total) + seed)
    }

    /// What is in each bowl once the water is gone; `None` where that is not known.
    #[must_use]
    pub fn left(&self) -> Option<Grams> {
        self.evaporates.map(|evaporates| self.weighed.total - evaporates)
    }
}

impl Weighing {
    /// The seed that is weighed into all bowls; `None` where there is none, or it is not known.
    #[must_use]
    pub fn seed(&self) -> Option<Grams> {
        self.bowls.iter().map(|bowls| Some(bowls.seed?.rounded * as_number(bowls.count))).sum()
    }

    /// How many bowls there are.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.bowls.iter().map(|bowls| bowls.count).sum()
    }
}

/// What to weigh a batch with, and into what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bench<'a> {
    /// The scales at hand.
    pub scales: Scales,
    /// What a bowl holds; without it all is weighed in one.
    pub capacity: Option<Grams>,
    /// Lines that have a scale of their own, with its step.
    pub own_steps: &'a [(LineId, Grams)],
    /// Whether no less than the batch may be weighed: where pieces are asked for, they all have to come out.
    pub is_least: bool,
}

/// The lines of a recipe whose ingredients have a scale of their own, by the ids of these.
#[must_use]
pub fn steps_in<Id: AsRef<str>>(recipe: &Recipe, steps: &[(Id, Grams)]) -> Vec<(LineId, Grams)> {
    let step_of = |id: &str| steps.iter().find(|(own, _)| own.as_ref() == id).map(|(_, step)| *step);
    recipe.lines.iter().filter_map(|line| Some((line.id, step_of(&line.ingredient.id)?))).collect()
}

/// Lines that together are more than this share of the mass are not left out by a scale that shows 0 for them (judged).
const MOST_LEFT_OUT: MassFraction = MassFraction(0.02);

/// What to weigh for a batch, in bowls that hold so much; without a capacity in one.
///
/// n = ⌈N/⌊capacity/(fullest·step)⌋⌉ bowls, or more where rounding makes one too full; N steps in the batch, fullest = max(1, left + seed) as shares of what is weighed in;
/// the first N mod n bowls get one step more than the others.
///
/// A bowl is never fuller than it can be: neither with what is weighed into it, nor at the end, when the water is gone and the
/// seed is in. What evaporates and the seed are shared out like the mass. Source: integer division; the bowls of a batch by the
/// reasons that the module gives. Rounding is that of [`round_on_each_scale`].
///
/// # Errors
///
/// [`CannotScale::BowlTooSmall`] where a bowl does not hold a step, [`CannotScale::Rounding`] for what cannot be weighed, and
/// where the scale would leave out lines that are more than 2 % of the mass.
pub fn weighing(batch: &Batch, bench: &Bench<'_>) -> Result<Weighing, CannotScale> {
    let Bench { scales, capacity, own_steps, is_least } = *bench;
    let requested = batch.recipe.weighed();
    let own_step = |id: LineId| own_steps.iter().find(|(own, _)| *own == id).map(|(_, step)| *step);
    let mut weighable = Weighable {
        amounts: batch.recipe.lines.iter().map(|line| line.amount.grams()).collect(),
        own: batch.recipe.lines.iter().map(|line| own_step(line.id)).collect(),
        scales,
        capacity,
        total: requested,
        evaporates: batch.analysis.make_up.evaporating.grams().map(|_| batch.analysis.make_up.evaporated),
        seed: match SeedOf::batch(batch) {
            SeedOf::Needed { grams, is_in_recipe: false, .. } => Some(grams),
            _ => None,
        },
    };
    let mut bowls = weighable.bowls()?;
    if is_least {
        // The nearest may be less, and a scale of its own may round a line down: then the others weigh what is missing.
        for _ in 0..MOST_TIMES_MORE {
            let missing = requested - sum(&bowls, |weighed| weighed.total);
            if !is_above(missing.0, 0.0) {
                break;
            }
            weighable.total += up_to_steps(missing.max(scales.step), scales.step);
            bowls = weighable.bowls()?;
        }
    }
    if let Some(lost) = bowls.iter().find_map(|bowls| left_out(&bowls.weighed)) {
        return Err(lost.into());
    }
    let lines = (0..weighable.amounts.len()).map(|idx| sum(&bowls, |weighed| weighed.lines[idx].rounded)).collect();
    let total = sum(&bowls, |weighed| weighed.total);
    Ok(Weighing { bowls, lines, total, requested })
}

/// So often what is missing is weighed in besides; each time little of it is missing again.
const MOST_TIMES_MORE: usize = 64;

/// So many bowls more than the mass alone takes are tried.
const MOST_BOWLS_MORE: u64 = 200;

/// Of all bowls together.
fn sum(bowls: &[Bowls], of: impl Fn(&Rounded) -> Grams) -> Grams {
    bowls.iter().map(|bowls| of(&bowls.weighed) * as_number(bowls.count)).sum()
}

/// A mass rounded up to whole steps.
fn up_to_steps(mass: Grams, step: Grams) -> Grams {
    let steps = whole_steps(mass, step);
    let down = step * as_number(steps);
    if is_below(down.0, mass.0) { step * as_number(steps + 1) } else { mass }
}

/// That lines of which the scale shows nothing are too much of the mass to be left out.
fn left_out(weighed: &Rounded) -> Option<RoundingError> {
    let lost = weighed.lines.iter().filter(|line| line.exact.0 > 0.0 && line.rounded.0 <= 0.0);
    let exact: Grams = lost.clone().map(|line| line.exact).sum();
    let share = exact / weighed.requested;
    let step = lost.clone().map(|line| line.step).reduce(Grams::max)?;
    (share > MOST_LEFT_OUT).then(|| RoundingError::LinesLeftOut {
        total: weighed.requested,
        step,
        lines: lost.count(),
        share,
    })
}

/// A batch as it is shared out over bowls.
struct Weighable {
    amounts: Vec<Grams>,
    own: Vec<Option<Grams>>,
    scales: Scales,
    capacity: Option<Grams>,
    total: Grams,
    evaporates: Option<Grams>,
    seed: Option<Grams>,
}

impl Weighable {
    fn bowls(&self) -> Result<Vec<Bowls>, CannotScale> {
        let Some(capacity) = self.capacity else { return self.shared_out(&[(1, self.total)]) };
        let step = self.scales.step;
        let too_small = CannotScale::BowlTooSmall { capacity, step };
        let steps = nearest_steps(self.total, step).max(1);
        let of_bowl = whole_steps(capacity * (1.0 / self.fullest()), step);
        if of_bowl == 0 {
            return Err(too_small);
        }
        let least = steps.div_ceil(of_bowl);
        // Rounding can add half a step of every scale: then it takes some more.
        for count in least..least.saturating_add(MOST_BOWLS_MORE).min(steps + 1) {
            let bowls = self.shared_out(&split(self.total, step, count))?;
            if bowls.iter().all(|bowl| !is_above(bowl.fullest().0, capacity.0)) {
                return Ok(bowls);
            }
        }
        Err(too_small)
    }

    /// How full a bowl is at its fullest, as a share of what is weighed in.
    fn fullest(&self) -> f64 {
        let at_end = self.total - self.evaporates.unwrap_or_default() + self.seed.unwrap_or_default();
        (at_end / self.total).0.max(1.0)
    }

    fn shared_out(&self, split: &[(u64, Grams)]) -> Result<Vec<Bowls>, CannotScale> {
        let in_bowls: Grams = split.iter().map(|(count, total)| *total * as_number(*count)).sum();
        let bowl = |&(count, total): &(u64, Grams)| {
            // Of what is in the bowls, so that they share out all of the water and all of the seed.
            let share = total / in_bowls;
            Ok(Bowls {
                count,
                weighed: self.scales.round(&self.amounts, total, &self.own)?,
                evaporates: self.evaporates.map(|evaporates| evaporates * share),
                seed: self.seed.and_then(|seed| self.scales.round_seed(seed * share)),
            })
        };
        let bowls = split.iter().map(bowl).collect::<Result<Vec<Bowls>, CannotScale>>()?;
        Ok(match bowls.as_slice() {
            // A step of the bowl's scale that no line has taken.
            [first, second] if first.is_weighed_as(second) => {
                vec![Bowls { count: first.count + second.count, ..first.clone() }]
            }
            _ => bowls,
        })
    }
}

/// How much so many bowls get each: all the same, or some with one step more, together the nearest that the scale can tell.
fn split(total: Grams, step: Grams, count: u64) -> Vec<(u64, Grams)> {
    if count == 1 {
        return vec![(1, total)];
    }
    let steps = nearest_steps(total, step);
    let (each, more) = (steps / count, steps % count);
    let mass = |steps: u64| step * as_number(steps);
    let all = [(more, mass(each + 1)), (count - more, mass(each))];
    all.into_iter().filter(|(count, _)| *count > 0).collect()
}

#[expect(clippy::cast_precision_loss, reason = "fewer steps than 2^53: at most 1,000 tonnes in steps of 0.1 mg")]
fn as_number(count: u64) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests;
