//! The balance read backward: how warm a part has to be, and how much of the chocolate to melt first.

use super::curve::SolidFatCurve;
use super::enthalpy::{Fat, Part};
use super::mixing::{BESIDE, Dissolving, HOTTEST, HeatError, Mix, TOLERANCE};
use crate::analysis::root::rising_root;
use crate::units::{Celsius, Joules, MassFraction};

/// Warmest start of a watery part: it boils. Sea level; the mass itself boils a little higher.
pub const MOST_START: Celsius = Celsius(100.0);
/// Coldest start: a refrigerator. Common practice, no published source.
pub const LEAST_START: Celsius = Celsius(4.0);
/// Up to here chocolate counts as solid. Common practice, no published source.
pub const MOST_SOLID: Celsius = Celsius(28.0);
/// From here chocolate counts as melted. Common practice, no published source.
const LEAST_MELTED: Celsius = Celsius(40.0);
/// Warmer than this no chocolate is melted. Common practice, no published source.
pub const MOST_MELTED: Celsius = Celsius(60.0);

/// How a part has to start, with the state of its fat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Start {
    /// Solid, at most at 28 °C.
    Solid(Celsius),
    /// Melted: from 40 °C on as chocolate, from 28 °C on as cream.
    Melted(Celsius),
    /// Between the two: chocolate of that temperature is neither solid nor melted; melt a share of it first
    /// ([`share_to_melt_first`]).
    PartlyMelted,
}

/// A part of a mix that is changed, with the curve of its own fat.
pub type Changed<'a, C> = (usize, &'a C);

/// What can be solid at the wanted end: there the curve is asked again and again, and its answer costs time.
fn at_end(curve: &impl SolidFatCurve, target: Celsius) -> impl SolidFatCurve {
    let solid = curve.solids(target);
    move |fat: Fat, _: Celsius| solid[fat as usize]
}

/// What the mix has in heat beyond what it would have at the wanted end, with sugar dissolved; it rises with every start.
fn surplus(mix: &Mix, target: Celsius, curve: &impl SolidFatCurve) -> Joules {
    mix.heat() - mix.merged(Dissolving::Done).heat(target, curve)
}

fn check(mix: &Mix, target: Celsius) -> Result<(), HeatError> {
    HeatError::check_temperature(target)?;
    if mix.parts.is_empty() {
        return Err(HeatError::Empty);
    }
    // Far above every start: what is finite here is finite everywhere.
    let most = mix.merged(Dissolving::Done).with_vessel.at(HOTTEST) + mix.heat();
    if most.0.is_finite() { Ok(()) } else { Err(HeatError::NotFinite) }
}

/// How warm one part has to be so that all ends at a temperature, after dissolving.
///
/// heat of the part = H(end) − heat of the other parts − heat of the bowl − Q; solved for the temperature of the part
///
/// H as in [`Mix::mixed`]. The part keeps the crystals that it has: none for hot cream.
/// Valid for starts from 4 to 100 °C; outside there is no figure but a reason.
///
/// By hand: for an end of 34 °C beside 500 g of 1.7 J/(g·K) at 40 °C, 500 g of 3.5 J/(g·K) have to be at
/// (34·2600 − 34000)/1750 = 31.09 °C.
///
/// ```
/// use nibwright::analysis::heat::{BlendCurve, Mix, Part, start_temperature};
/// use nibwright::units::{Celsius, Grams, JoulesPerGramKelvin};
///
/// let mix = Mix::new([
///     Part::measured(Grams(500.0), JoulesPerGramKelvin(3.5), Celsius(20.0))?,
///     Part::measured(Grams(500.0), JoulesPerGramKelvin(1.7), Celsius(40.0))?,
/// ]);
/// let cream = start_temperature(&mix, 0, Celsius(34.0), &BlendCurve::new(None))?;
/// assert!((cream.0 - 31.0857).abs() < 1e-3);
/// # Ok::<(), nibwright::analysis::heat::HeatError>(())
/// ```
///
/// # Errors
///
/// [`HeatError`], with what to do instead.
pub fn start_temperature(
    mix: &Mix,
    idx: usize,
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<Celsius, HeatError> {
    check(mix, target)?;
    let curve = &at_end(curve, target);
    let part = mix.parts.get(idx).ok_or(HeatError::NoSuchPart)?;
    let with = |at: Celsius| mix.with_part(idx, Part { at, ..part.clone() });
    if surplus(&with(MOST_START)?, target, curve).0 < 0.0 {
        return Err(HeatError::NeedsBoiling);
    }
    if surplus(&with(LEAST_START)?, target, curve).0 > 0.0 {
        return Err(too_cold(mix, &[idx], target));
    }
    // Only the heat of the part itself changes with its start.
    let needed = part.enthalpy.at(part.at) - surplus(mix, target, curve);
    Ok(Celsius(rising_root((LEAST_START.0, MOST_START.0), target.0, TOLERANCE, |t| {
        let at = Celsius(t);
        (part.enthalpy.at(at).0 - needed.0, part.enthalpy.capacity_j_per_k(at))
    })))
}

/// Why some parts cannot be cold enough: nothing that goes in is as cold as the end, or only they would have to be.
fn too_cold(mix: &Mix, changed: &[usize], target: Celsius) -> HeatError {
    let mut others = mix.clone();
    let mut place = 0..;
    others.parts.retain(|_| place.next().is_some_and(|idx| !changed.contains(&idx)));
    let coldest = others.hottest_and_coldest().map_or(LEAST_START, |(_, coldest)| coldest.min(LEAST_START));
    let is_colder = target < coldest && mix.external().0 >= 0.0;
    if is_colder { HeatError::ColderThanAll } else { HeatError::NeedsTooCold }
}

/// How the chocolate has to start so that all ends at a temperature, after dissolving.
///
/// The balance of [`start_temperature`] on two branches: solid up to 28 °C with the crystals that its own fat has at
/// equilibrium, melted from 40 to 60 °C without any. Between them the answer is to melt a share of it. Several parts,
/// such as two couvertures, start at the same temperature.
///
/// # Errors
///
/// [`HeatError`], with what to do instead.
pub fn chocolate_start<C: SolidFatCurve>(
    mix: &Mix,
    chocolate: &[Changed<'_, C>],
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<Start, HeatError> {
    start(mix, chocolate, target, curve, (LEAST_MELTED, MOST_MELTED), HeatError::NeedsScorching)
}

/// How warm cream and what is heated with it has to be so that all ends at a temperature, after dissolving.
///
/// As [`chocolate_start`], but melted from 28 to 100 °C: cold cream has crystals too, and little of it melts between.
///
/// # Errors
///
/// [`HeatError`], with what to do instead.
pub fn liquid_start<C: SolidFatCurve>(
    mix: &Mix,
    liquid: &[Changed<'_, C>],
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<Start, HeatError> {
    start(mix, liquid, target, curve, (MOST_SOLID, MOST_START), HeatError::NeedsBoiling)
}

/// How warm something dry and rich in fat, such as nut paste, has to be so that all ends at a temperature, after dissolving.
///
/// As [`chocolate_start`], but melted from 28 °C on: what of its fat is still solid there melts in the mix.
///
/// # Errors
///
/// [`HeatError`], with what to do instead.
pub fn dry_fat_start<C: SolidFatCurve>(
    mix: &Mix,
    paste: &[Changed<'_, C>],
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<Start, HeatError> {
    start(mix, paste, target, curve, (MOST_SOLID, MOST_MELTED), HeatError::NeedsScorching)
}

fn start<C: SolidFatCurve>(
    mix: &Mix,
    changed: &[Changed<'_, C>],
    target: Celsius,
    curve: &impl SolidFatCurve,
    (least_melted, most_melted): (Celsius, Celsius),
    too_hot: HeatError,
) -> Result<Start, HeatError> {
    check(mix, target)?;
    let curve = &at_end(curve, target);
    if changed.is_empty() || changed.iter().any(|(idx, _)| *idx >= mix.parts.len()) {
        return Err(HeatError::NoSuchPart);
    }
    let with = |at: Celsius, is_melted: bool| {
        let mut mix = mix.clone();
        for (idx, own_curve) in changed {
            let part = &mut mix.parts[*idx];
            part.at = at;
            part.crystals = if is_melted { [MassFraction::ZERO; Fat::COUNT] } else { own_curve.solids(at) };
        }
        mix
    };
    let surplus_at = |at: Celsius, is_melted: bool| surplus(&with(at, is_melted), target, curve).0;
    let root = |low: Celsius, high: Celsius, is_melted: bool| {
        Celsius(rising_root((low.0, high.0), f64::midpoint(low.0, high.0), TOLERANCE, |t| {
            let mix = with(Celsius(t), is_melted);
            let slope = changed.iter().map(|(idx, _)| mix.parts[*idx].enthalpy.capacity_j_per_k(Celsius(t))).sum();
            (surplus(&mix, target, curve).0, slope)
        }))
    };
    // What is wanted at an end of a range may be there: sums of doubles lie a hair beside what they mean.
    let hair = mix.capacity_j_per_k(target) * BESIDE.0;
    if surplus_at(most_melted, true) < -hair {
        return Err(too_hot);
    }
    if surplus_at(LEAST_START, false) > hair {
        let idxs: Vec<usize> = changed.iter().map(|(idx, _)| *idx).collect();
        return Err(too_cold(mix, &idxs, target));
    }
    if surplus_at(least_melted, true) <= hair {
        return Ok(Start::Melted(root(least_melted, most_melted, true)));
    }
    if surplus_at(MOST_SOLID, false) >= -hair {
        return Ok(Start::Solid(root(LEAST_START, MOST_SOLID, false)));
    }
    Ok(Start::PartlyMelted)
}

/// Which share of the chocolate to melt first, so that all ends at a temperature, after dissolving.
///
/// The share f enters at `melted_at` without crystals, the rest as it is; the heat that goes in is a straight line in f,
/// the crystals that can be left are those of the rest. Solved for H(f) = H(end; f).
///
/// # Errors
///
/// [`HeatError::TooColdAllMelted`] and [`HeatError::TooWarmAllSolid`] where no share does it; otherwise for temperatures outside of the model.
pub fn share_to_melt_first(
    mix: &Mix,
    chocolate: &[usize],
    melted_at: Celsius,
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<MassFraction, HeatError> {
    check(mix, target)?;
    let curve = &at_end(curve, target);
    HeatError::check_temperature(melted_at)?;
    if chocolate.is_empty() || chocolate.iter().any(|idx| *idx >= mix.parts.len()) {
        return Err(HeatError::NoSuchPart);
    }
    let surplus_of = |share: f64| {
        let mut split = mix.clone();
        for idx in chocolate {
            let part = &mix.parts[*idx];
            split.parts[*idx] = part.scaled(1.0 - share);
            let melted = Part { at: melted_at, crystals: [MassFraction::ZERO; Fat::COUNT], ..part.scaled(share) };
            split.parts.push(melted);
        }
        surplus(&split, target, curve).0
    };
    if surplus_of(1.0) < 0.0 {
        return Err(HeatError::TooColdAllMelted);
    }
    if surplus_of(0.0) > 0.0 {
        return Err(HeatError::TooWarmAllSolid);
    }
    let parts = chocolate.iter().map(|idx| &mix.parts[*idx]);
    let slope = parts.map(|part| (part.enthalpy.at(melted_at) - part.enthalpy.at(part.at)).0).sum();
    Ok(MassFraction(rising_root((0.0, 1.0), 0.5, TOLERANCE, |share| (surplus_of(share), slope))))
}
