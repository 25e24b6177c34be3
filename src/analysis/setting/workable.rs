//! Time at the bench: how long a bowl that is held at a temperature stays workable, or why no time is told.

use super::{CONSTANTS_UNTIL_SET, NoCrystals, TimeBand, crystals_begun, system_of};
use crate::analysis::cooling::growth::unchecked_growth_time;
use crate::analysis::{Analysis, is_below};
use crate::recipe::{Kind, Recipe, SeedingWay};
use crate::units::{Celsius, MassFraction};

/// Of the time for which a bowl stays workable hardly more than the order of magnitude is known (judged).
pub const WORKABLE_BAND: f64 = 4.0;

/// With so much of its fat solid a mass is too thick to work.
///
/// Judged: well-tempered chocolate holds 1 to 3 % (from memory), and flows.
pub const TOO_THICK: MassFraction = MassFraction(0.05);

/// Why no time at the bench is told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoWorkable {
    /// A caramel thickens by its sugar.
    SetsBySugar,
    /// It has no crystals, or nobody knows how many.
    Crystals(NoCrystals),
    /// The crystals of chopped chocolate sit in its pieces; how many have come off is not known.
    InPieces,
    /// It holds more than [`TOO_THICK`] from the beginning.
    TooThick {
        /// Crystals as a share of its fat.
        crystals: MassFraction,
        /// Where warming it ends: the upper end of the window.
        towards: Celsius,
        /// They are its own: tempered chocolate that is kept so.
        is_kept: bool,
    },
    /// It cannot become so thick: less than [`TOO_THICK`] can be solid, or nothing grows.
    HardlyThickens,
}

impl From<NoCrystals> for NoWorkable {
    fn from(why: NoCrystals) -> Self {
        Self::Crystals(why)
    }
}

/// For how long a bowl that is held at a temperature stays workable: until so much of its fat is solid that it is thick.
///
/// t = τ·ln((S_eq − c)/(S_eq − S_thick)), τ = t_x/ln 10
///
/// S_eq solid fat at equilibrium at that temperature, c crystals of the seed, S_thick [`TOO_THICK`], all as shares of the
/// fat; t_x growth time there. An order of magnitude, with a band of [`WORKABLE_BAND`]: so near to the limit of form V the
/// formula of t_x is used outside of the range for which it was judged.
///
/// # Errors
///
/// [`NoWorkable`] where no time is told. The crystals of chopped chocolate do not thicken a mass while they sit in its pieces:
/// for that way there is no time below the limit.
pub fn workable_at(recipe: &Recipe, analysis: &Analysis, at: Celsius) -> Result<TimeBand, NoWorkable> {
    if recipe.kind == Kind::Caramel {
        return Err(NoWorkable::SetsBySugar);
    }
    let (Ok(fat), Ok(plan)) = (&analysis.fat, &analysis.plan) else { return Err(NoCrystals::NotSeeded.into()) };
    let limit = fat.limits.form_v.ok_or(NoCrystals::NotSeeded)?;
    if !is_below(at.0, limit.0) {
        return Err(NoCrystals::Melt.into());
    }
    if plan.choice.way == SeedingWay::ChoppedChocolate {
        return Err(NoWorkable::InPieces);
    }
    let begun = crystals_begun(analysis, at)?;
    if !is_below(begun.0, TOO_THICK.0) {
        let is_kept = plan.choice.way == SeedingWay::KeepTempered;
        return Err(NoWorkable::TooThick { crystals: begun, towards: plan.worked().max, is_kept });
    }
    let most = fat.blended.solid_fat(at).total();
    let time =
        unchecked_growth_time(system_of(recipe, analysis), begun, limit, at).ok_or(NoWorkable::HardlyThickens)?;
    let left = (most - begun).0 / (most - TOO_THICK).0;
    let likely = time * (left.ln() / CONSTANTS_UNTIL_SET);
    let thickens = most > TOO_THICK && likely.0 > 0.0;
    if thickens { Ok(TimeBand::within_factor(likely, WORKABLE_BAND)) } else { Err(NoWorkable::HardlyThickens) }
}

/// The same at the temperature of the analysis.
///
/// # Errors
///
/// As [`workable_at`].
pub fn workable(recipe: &Recipe, analysis: &Analysis) -> Result<TimeBand, NoWorkable> {
    workable_at(recipe, analysis, analysis.at)
}
