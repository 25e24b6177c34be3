//! Amounts rounded to what a scale shows, so that they still add up.
//!
//! [`round_to_scale`] is the method of the largest remainder: every amount goes down to a step of the scale, and the steps that
//! are left go to those that lost most. It is computed in whole numbers, so equal remainders are equal.
//! [`round_on_each_scale`] is for a bowl in which small parts have a scale of their own: there the parts come first.
//!
//! What it does not do: it does not know which part matters more, and it never moves mass from one recipe to another.

use thiserror::Error;

use crate::analysis::{is_above, is_below};
use crate::number::{as_given, round_half_up};
use crate::recipe::Quantity;
use crate::units::{Grams, MassFraction};

/// Under so many steps a scale is too coarse for a part (common practice, no published source).
pub const LEAST_STEPS: f64 = 20.0;

/// Off by more than this the scale is too coarse for a part (common practice, no published source).
pub const MOST_RELATIVE_ERROR: MassFraction = MassFraction(0.02);

/// The finest step that is taken: that of a laboratory balance. Finer ones are a typing error.
pub const FINEST_STEP: Grams = Grams(0.0001);

/// Decimals of a gram in a sentence: behind them is the noise of sums.
const SHOWN_DECIMALS: u32 = 6;

/// The digits that every double holds for certain (IEEE 754 binary64): so many of a mass are counted in whole units.
const CERTAIN_DIGITS: f64 = 15.0;

/// How fine the unit is in which a mass is counted, as powers of ten in a gram. Up to 22 a double holds them exactly.
const POWERS: (f64, f64) = (6.0, 22.0);

/// Amounts rounded to the steps of their scales.
#[derive(Clone, Debug, PartialEq)]
pub struct Rounded {
    /// The parts, in the order in which they were given.
    pub lines: Vec<RoundedLine>,
    /// What they weigh together.
    pub total: Grams,
    /// What they were asked to weigh together.
    pub requested: Grams,
}

/// One amount rounded to the step of its scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundedLine {
    /// Its share of the total that was asked for.
    pub exact: Grams,
    /// What the scale is to show.
    pub rounded: Grams,
    /// The step of its scale.
    pub step: Grams,
    /// How much larger its share of the rounded total is than it should be; in percent these are percentage points.
    pub composition_error: MassFraction,
    /// How much more it is than exact, as a share of that; `None` of nothing.
    pub relative_error: Option<MassFraction>,
}

/// Why amounts cannot be rounded.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum RoundingError {
    /// There are not as many steps as amounts.
    #[error("{amounts} amounts and {steps} steps do not belong together; give every amount the step of its scale")]
    StepsDoNotFit {
        /// How many amounts there are.
        amounts: usize,
        /// How many steps there are.
        steps: usize,
    },
    /// An amount that is none.
    #[error("amount {place} is {} g; give a weight from 0 to 1,000 tonnes", as_given(*grams))]
    NoAmount {
        /// Which, from 1.
        place: usize,
        /// What was given.
        grams: f64,
    },
    /// A total that is none.
    #[error("a total of {} g cannot be weighed; give a weight above 0, up to 1,000 tonnes", as_given(*grams))]
    NoTotal {
        /// What was given.
        grams: f64,
    },
    /// A step that no scale has.
    #[error("no scale has steps of {} g; give a step from {} g up", as_given(*grams), as_given(FINEST_STEP.0))]
    NoStep {
        /// What was given.
        grams: f64,
    },
    /// Nothing weighs anything.
    #[error("nothing weighs anything; give the lines amounts first")]
    NothingToWeigh,
    /// Lines that are much of the mass are too little for the scale.
    #[error("in {} g, lines that are {} % of it weigh too little for a scale with steps of {} g and would be left out ({lines} of \
             them); use a finer scale, or make more at once",
        as_given(round_half_up(total.0, SHOWN_DECIMALS)), as_given(round_half_up(share.to_percent(), 1)), as_given(step.0))]
    LinesLeftOut {
        /// Of how much.
        total: Grams,
        /// The step.
        step: Grams,
        /// How many lines.
        lines: usize,
        /// How much of the mass they are.
        share: MassFraction,
    },
    /// Not one step of the scale.
    #[error("{} g are less than one step of the scale, {} g; use a finer scale or make more",
        as_given(round_half_up(total.0, SHOWN_DECIMALS)), as_given(step.0))]
    LessThanAStep {
        /// What was asked for.
        total: Grams,
        /// The finest step.
        step: Grams,
    },
}

impl RoundedLine {
    /// Whether a finer scale is needed for it: below [`LEAST_STEPS`] or off by more than [`MOST_RELATIVE_ERROR`].
    ///
    /// Salt, acids, gelatine, flavours and emulsifiers are the usual ones. Common practice, no published source.
    #[must_use]
    pub fn needs_finer_scale(&self) -> bool {
        is_too_fine_for(self.exact, self.step)
            || self.relative_error.is_some_and(|error| is_above(error.0.abs(), MOST_RELATIVE_ERROR.0))
    }
}

impl Rounded {
    /// Those for which the scale is too coarse, with their places from 0.
    pub fn too_coarse(&self) -> impl Iterator<Item = (usize, &RoundedLine)> {
        self.lines.iter().enumerate().filter(|(_, line)| line.needs_finer_scale())
    }
}

/// One amount rounded to the nearest step of its scale, halves up; `None` of what is no weight or no step.
#[must_use]
pub fn nearest_step(mass: Grams, step: Grams) -> Option<RoundedLine> {
    check(&[mass], Grams(1.0), &[step]).ok()?;
    let per_gram = units_per_gram(mass.max(step));
    let size = units(step, per_gram);
    let rounded = grams(nearest(units(mass, per_gram), size) * size, per_gram);
    let relative_error = (mass.0 > 0.0).then(|| MassFraction((rounded / mass).0 - 1.0));
    Some(RoundedLine { exact: mass, rounded, step, composition_error: MassFraction::ZERO, relative_error })
}

/// Whether an amount is so small that a scale with this step is too coarse for it. Nothing is weighed of nothing.
#[must_use]
pub fn is_too_fine_for(amount: Grams, step: Grams) -> bool {
    amount.0 > 0.0 && is_below(amount.0, LEAST_STEPS * step.0)
}

/// How many whole steps a mass is; a mass that is a multiple of the step in decimals is one, whatever binary noise says.
///
/// Nothing of what is no weight or no step.
///
/// ```
/// # use nibwright::production::rounding::whole_steps;
/// # use nibwright::units::Grams;
/// assert_eq!((whole_steps(Grams(0.3), Grams(0.1)), whole_steps(Grams(1445.9), Grams(1.0))), (3, 1445));
/// ```
#[must_use]
pub fn whole_steps(mass: Grams, step: Grams) -> u64 {
    let is_weight = |grams: Grams, least: Grams| (least.0..=Quantity::MOST.0).contains(&grams.0);
    if !is_weight(mass, Grams::ZERO) || !is_weight(step, FINEST_STEP) {
        return 0;
    }
    let per_gram = units_per_gram(mass.max(step));
    u64::try_from(units(mass, per_gram) / units(step, per_gram)).unwrap_or(u64::MAX)
}

/// How many steps of a scale come nearest to a mass; halves go down, and what is less than a step is none.
///
/// ```
/// # use nibwright::production::rounding::nearest_steps;
/// # use nibwright::units::Grams;
/// let steps = |mass: f64, step: f64| nearest_steps(Grams(mass), Grams(step));
/// assert_eq!((steps(20_788.96, 1.0), steps(745.0, 2.0), steps(0.9, 1.0)), (20_789, 372, 0));
/// ```
#[must_use]
pub fn nearest_steps(mass: Grams, step: Grams) -> u64 {
    if whole_steps(mass, step) == 0 {
        return 0;
    }
    let per_gram = units_per_gram(mass.max(step));
    u64::try_from(nearest_or_less(units(mass, per_gram), units(step, per_gram))).unwrap_or(u64::MAX)
}

/// Amounts brought to a total and rounded to the steps of their scales by the method of the largest remainder.
///
/// N = total/r (rounded down), q = share·N, base = ⌊q⌋; the N − Σ base steps that are left go to the largest q − base; of
/// equal ones the larger q comes first, then the order of the recipe.
///
/// r step of the scale, share of the amounts' own sum. Where steps differ, the coarsest comes first: its lines together are
/// the nearest multiple of their step (halves up), and the finer ones share out what is left. The last of them, and a single
/// one, round the total down where it is no multiple: see [`Rounded::total`].
///
/// Source: the method of the largest remainder (Hamilton), applied to weighing; by hand: weights 50, 30 and 20 and seven units
/// are quotas of 3.5, 2.1 and 1.4, so 4, 2 and 1.
/// Range: amounts and totals up to 1,000 tonnes, steps from 0.1 mg; the fifteen leading digits of an amount count.
///
/// # Errors
///
/// [`RoundingError`] for what cannot be weighed: nothing, what is no number, a total below one step.
///
/// ```
/// # use nibwright::production::rounding::round_to_scale;
/// # use nibwright::units::Grams;
/// let rounded = round_to_scale(&[Grams(50.0), Grams(30.0), Grams(20.0)], Grams(7.0), &[Grams(1.0); 3])?;
/// let grams: Vec<f64> = rounded.lines.iter().map(|line| line.rounded.0).collect();
/// assert_eq!(grams, [4.0, 2.0, 1.0]);
/// # Ok::<(), nibwright::production::rounding::RoundingError>(())
/// ```
pub fn round_to_scale(amounts: &[Grams], total: Grams, steps: &[Grams]) -> Result<Rounded, RoundingError> {
    round(amounts, total, steps, Keeping::Total)
}

/// Amounts brought to a total, those of each scale for themselves: what a finer scale weighs is right to its own step.
///
/// [`round_to_scale`] with one difference: the finer lines do not take up what the coarse ones have lost. Half a step of the
/// large scale is little in the bowl and much in the salt: 1440.66 g on a scale of 1 g and 4.34 g of salt on one of 0.1 g are
/// 1441 g and 4.3 g here, and 1441 g and 4.0 g there. So the total can differ from the one that was asked for by half a step of
/// every scale ([`Rounded::total`]). With a single scale the total is the nearest that it can tell, and not the one below.
///
/// # Errors
///
/// As [`round_to_scale`].
///
/// ```
/// # use nibwright::production::rounding::{round_on_each_scale, round_to_scale};
/// # use nibwright::units::Grams;
/// let (amounts, steps) = ([Grams(1440.66), Grams(4.34)], [Grams(1.0), Grams(0.1)]);
/// let rounded = round_on_each_scale(&amounts, Grams(1445.0), &steps)?;
/// assert_eq!((rounded.lines[1].rounded, rounded.total), (Grams(4.3), Grams(1445.3)));
/// let kept = round_to_scale(&amounts, Grams(1445.0), &steps)?;
/// assert_eq!((kept.lines[1].rounded, kept.total), (Grams(4.0), Grams(1445.0)));
/// # Ok::<(), nibwright::production::rounding::RoundingError>(())
/// ```
pub fn round_on_each_scale(amounts: &[Grams], total: Grams, steps: &[Grams]) -> Result<Rounded, RoundingError> {
    round(amounts, total, steps, Keeping::Parts)
}

/// What comes first where there are several scales.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Keeping {
    Total,
    Parts,
}

/// What is left to share out, in whole units.
struct Rest {
    total: u128,
    parts: u128,
}

fn round(amounts: &[Grams], total: Grams, steps: &[Grams], keeping: Keeping) -> Result<Rounded, RoundingError> {
    check(amounts, total, steps)?;
    let largest = |masses: &[Grams]| masses.iter().copied().fold(Grams::ZERO, Grams::max);
    // Of the amounts only their ratio counts, so they have a unit of their own.
    let parts_per_gram = units_per_gram(largest(amounts));
    let per_gram = units_per_gram(largest(steps).max(total));
    let parts: Vec<u128> = amounts.iter().map(|grams| units(*grams, parts_per_gram)).collect();
    let all = Rest { total: units(total, per_gram), parts: parts.iter().sum() };
    if all.parts == 0 {
        return Err(RoundingError::NothingToWeigh);
    }
    // Whole steps of every line.
    let mut counts = vec![0_u128; parts.len()];
    let mut order = Vec::with_capacity(parts.len());
    let mut rest = Rest { ..all };
    let mut rounded_total = 0;
    let mut group = next_step(steps, f64::INFINITY);
    while let Some(step) = group {
        let size = units(Grams(step), per_gram);
        order.clear();
        order.extend((0..parts.len()).filter(|&idx| steps[idx].0 == step && parts[idx] > 0));
        let of_group: u128 = order.iter().map(|&idx| parts[idx]).sum();
        let count = match keeping {
            Keeping::Total if of_group == rest.parts => rest.total / size,
            // More than there is cannot be shared out.
            Keeping::Total => nearest(rest.total * of_group, rest.parts * size).min(rest.total / size),
            Keeping::Parts if of_group == all.parts => nearest_or_less(all.total, size),
            Keeping::Parts => nearest(all.total * of_group, all.parts * size),
        };
        share_out(count, of_group, &parts, &mut order, &mut counts);
        rest = Rest { total: rest.total.saturating_sub(count * size), parts: rest.parts - of_group };
        rounded_total += count * size;
        group = if rest.parts == 0 { None } else { next_step(steps, step) };
    }
    if rounded_total == 0 {
        let finest = steps.iter().copied().fold(Grams(f64::INFINITY), Grams::min);
        return Err(RoundingError::LessThanAStep { total, step: finest });
    }
    let rounded_total = grams(rounded_total, per_gram);
    let lines = parts.iter().zip(&counts).zip(steps).map(|((&part, &count), &step)| {
        let share = ratio(part, all.parts);
        let (exact, rounded) = (total * share, grams(count * units(step, per_gram), per_gram));
        let relative_error = (exact.0 > 0.0).then(|| MassFraction((rounded / exact).0 - 1.0));
        RoundedLine { exact, rounded, step, composition_error: rounded / rounded_total - share, relative_error }
    });
    Ok(Rounded { lines: lines.collect(), total: rounded_total, requested: total })
}

fn check(amounts: &[Grams], total: Grams, steps: &[Grams]) -> Result<(), RoundingError> {
    let is_weight = |grams: Grams| (0.0..=Quantity::MOST.0).contains(&grams.0);
    if amounts.len() != steps.len() {
        return Err(RoundingError::StepsDoNotFit { amounts: amounts.len(), steps: steps.len() });
    }
    if let Some(idx) = amounts.iter().position(|&grams| !is_weight(grams)) {
        return Err(RoundingError::NoAmount { place: idx + 1, grams: amounts[idx].0 });
    }
    if !is_weight(total) || total.0 <= 0.0 {
        return Err(RoundingError::NoTotal { grams: total.0 });
    }
    let is_step = |step: &Grams| (FINEST_STEP.0..=Quantity::MOST.0).contains(&step.0);
    match steps.iter().find(|step| !is_step(step)) {
        Some(step) => Err(RoundingError::NoStep { grams: step.0 }),
        None => Ok(()),
    }
}

/// The largest step below another; `None` where there is none.
fn next_step(steps: &[Grams], below: f64) -> Option<f64> {
    steps.iter().map(|step| step.0).filter(|&step| step < below).max_by(f64::total_cmp)
}

/// Gives so many steps to the lines of `order`, whose parts sum to `of_group`; their quotas are count·part/`of_group`.
fn share_out(count: u128, of_group: u128, parts: &[u128], order: &mut [usize], counts: &mut [u128]) {
    let mut left = count;
    for &idx in order.iter() {
        counts[idx] = count * parts[idx] / of_group;
        left -= counts[idx];
    }
    if left == 0 {
        return;
    }
    let remainder = |idx: usize| count * parts[idx] % of_group;
    // The larger quota is that of the larger part.
    order.sort_unstable_by(|&one, &other| {
        (remainder(other), parts[other]).cmp(&(remainder(one), parts[one])).then(one.cmp(&other))
    });
    // Fewer are left than there are lines, because every remainder is less than a step.
    for &idx in order.iter() {
        if left == 0 {
            break;
        }
        counts[idx] += 1;
        left -= 1;
    }
}

/// A ratio of whole numbers, to the nearest whole number; halves go up.
fn nearest(numerator: u128, denominator: u128) -> u128 {
    (2 * numerator + denominator) / (2 * denominator)
}

/// The same, halves go down, and what is less than one is none.
fn nearest_or_less(numerator: u128, denominator: u128) -> u128 {
    if numerator < denominator { 0 } else { (2 * numerator + denominator - 1) / (2 * denominator) }
}

/// A power of ten with which the largest of some masses has no more digits than a double holds.
#[expect(clippy::cast_possible_truncation, reason = "a whole number between 6 and 22")]
fn units_per_gram(largest: Grams) -> f64 {
    // Of nothing the power is infinite, which the bounds hold.
    let power = (CERTAIN_DIGITS - largest.0.log10().ceil()).clamp(POWERS.0, POWERS.1);
    10_f64.powi(power as i32)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a checked weight: not negative, below 1e17"
)]
fn units(grams: Grams, per_gram: f64) -> u128 {
    (grams.0 * per_gram).round() as u128
}

#[expect(clippy::cast_precision_loss, reason = "no more digits than a double holds")]
fn grams(units: u128, per_gram: f64) -> Grams {
    Grams(units as f64 / per_gram)
}

#[expect(clippy::cast_precision_loss, reason = "a share; noise behind the 15th digit does not matter")]
fn ratio(part: u128, whole: u128) -> MassFraction {
    MassFraction(part as f64 / whole as f64)
}

#[cfg(test)]
mod tests;
