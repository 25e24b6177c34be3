//! The balance read backward: how warm a part has to be, and how much of the chocolate to melt first.

use super::curve::SolidFatCurve;
use super::enthalpy::{Fat, Part};
use super::mixing::{Dissolving, HOTTEST, HeatError, Mix, TOLERANCE};
use crate::analysis::root::rising_root;
use crate::units::{Celsius, Joules, MassFraction};

/// Warmest start of a watery part: it boils. Sea level; the mass itself boils a little higher.
const MOST_START: Celsius = Celsius(100.0);
/// Coldest start: a refrigerator. Common practice, no published source.
const LEAST_START: Celsius = Celsius(4.0);
/// Up to here chocolate counts as solid. Common practice, no published source.
const MOST_SOLID: Celsius = Celsius(28.0);
/// From here chocolate counts as melted. Common practice, no published source.
const LEAST_MELTED: Celsius = Celsius(40.0);
/// Warmer than this no chocolate is melted. Common practice, no published source.
const MOST_MELTED: Celsius = Celsius(60.0);

/// How the chocolate has to start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ChocolateStart {
    /// Solid, at most at 28 °C.
    Solid(Celsius),
    /// Melted, at 40 °C and more.
    Melted(Celsius),
    /// Between the two: chocolate of that temperature is neither solid nor melted; melt a share of it first
    /// ([`share_to_melt_first`]).
    PartlyMelted,
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
    let part = mix.parts.get(idx).ok_or(HeatError::NoSuchPart)?;
    let with = |at: Celsius| mix.with_part(idx, Part { at, ..part.clone() });
    if surplus(&with(MOST_START)?, target, curve).0 < 0.0 {
        return Err(HeatError::NeedsBoiling);
    }
    if surplus(&with(LEAST_START)?, target, curve).0 > 0.0 {
        let mut others = mix.clone();
        others.parts.remove(idx);
        let coldest = others.hottest_and_coldest().map_or(LEAST_START, |(_, coldest)| coldest.min(LEAST_START));
        let is_colder = target < coldest && mix.external().0 >= 0.0;
        return Err(if is_colder { HeatError::ColderThanAll } else { HeatError::NeedsTooCold });
    }
    // Only the heat of the part itself changes with its start.
    let needed = part.enthalpy.at(part.at) - surplus(mix, target, curve);
    Ok(Celsius(rising_root((LEAST_START.0, MOST_START.0), target.0, TOLERANCE, |t| {
        let at = Celsius(t);
        (part.enthalpy.at(at).0 - needed.0, part.enthalpy.capacity_j_per_k(at))
    })))
}

/// How the chocolate has to start so that all ends at a temperature, after dissolving.
///
/// The balance of [`start_temperature`] on two branches: solid up to 28 °C with the crystals that its own fat has at
/// equilibrium (`own_curve`), melted from 40 to 60 °C without any. Between them the answer is to melt a share of it.
///
/// # Errors
///
/// [`HeatError`], with what to do instead.
pub fn chocolate_start(
    mix: &Mix,
    idx: usize,
    target: Celsius,
    curve: &impl SolidFatCurve,
    own_curve: &impl SolidFatCurve,
) -> Result<ChocolateStart, HeatError> {
    check(mix, target)?;
    let part = mix.parts.get(idx).ok_or(HeatError::NoSuchPart)?;
    let melted = |at: Celsius| Part { at, crystals: [MassFraction::ZERO; Fat::COUNT], ..part.clone() };
    let solid = |at: Celsius| Part { at, crystals: Fat::ALL.map(|fat| own_curve.solid(fat, at)), ..part.clone() };
    let surplus_of = |part: Part| mix.with_part(idx, part).map(|mix| surplus(&mix, target, curve).0);
    let root = |low: Celsius, high: Celsius, part_at: &dyn Fn(Celsius) -> Part| {
        Celsius(rising_root((low.0, high.0), f64::midpoint(low.0, high.0), TOLERANCE, |t| {
            let part = part_at(Celsius(t));
            let slope = part.enthalpy.capacity_j_per_k(Celsius(t));
            (surplus_of(part).unwrap_or(0.0), slope)
        }))
    };
    if surplus_of(melted(MOST_MELTED))? < 0.0 {
        return Err(HeatError::NeedsScorching);
    }
    if surplus_of(solid(LEAST_START))? > 0.0 {
        return Err(HeatError::NeedsTooCold);
    }
    if surplus_of(melted(LEAST_MELTED))? <= 0.0 {
        return Ok(ChocolateStart::Melted(root(LEAST_MELTED, MOST_MELTED, &melted)));
    }
    if surplus_of(solid(MOST_SOLID))? >= 0.0 {
        return Ok(ChocolateStart::Solid(root(LEAST_START, MOST_SOLID, &solid)));
    }
    Ok(ChocolateStart::PartlyMelted)
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
    idx: usize,
    melted_at: Celsius,
    target: Celsius,
    curve: &impl SolidFatCurve,
) -> Result<MassFraction, HeatError> {
    check(mix, target)?;
    HeatError::check_temperature(melted_at)?;
    let part = mix.parts.get(idx).ok_or(HeatError::NoSuchPart)?;
    let surplus_of = |share: f64| {
        let mut split = mix.clone();
        split.parts[idx] = part.scaled(1.0 - share);
        let melted = Part { at: melted_at, crystals: [MassFraction::ZERO; Fat::COUNT], ..part.scaled(share) };
        split.parts.push(melted);
        surplus(&split, target, curve).0
    };
    if surplus_of(1.0) < 0.0 {
        return Err(HeatError::TooColdAllMelted);
    }
    if surplus_of(0.0) > 0.0 {
        return Err(HeatError::TooWarmAllSolid);
    }
    let slope = (part.enthalpy.at(melted_at) - part.enthalpy.at(part.at)).0;
    Ok(MassFraction(rising_root((0.0, 1.0), 0.5, TOLERANCE, |share| (surplus_of(share), slope))))
}
