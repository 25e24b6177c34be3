//! How much water evaporates: as weighed, estimated from what is heated, or from the temperature of a cook.
//!
//! In a cook only what is dissolved counts, with all sucrose and lactose in solution; fat, cocoa and protein take no part,
//! and neither does ethanol, which is gone before a syrup gets hot (the make-up keeps all of it all the same, and a finding
//! says so). What is not modelled: how long it takes, what browns or inverts, and pans in which one side is hotter.

use super::parts::Parts;
use super::water::boiling::{
    CannotCook, Stage, air_pressure, at_the_sea, boiling_point, hottest, strong_activity, water_left,
};
use super::water::equilibrium::Contents;
use super::water::solute::{Solute, Solution};
use super::{is_above, is_below};
use crate::ingredient::{Component, Ingredient};
use crate::recipe::{CookTemperature, Evaporation, Heating, Height, Recipe};
use crate::units::{Celsius, Grams, MassFraction, WaterActivity};

/// How well the water is known that a cook leaves, as a share of the mass: gradients in the pan and the error of the
/// thermometer, more than the model (judged).
pub const WATER_UNCERTAINTY: MassFraction = MassFraction(0.015);

/// What evaporates of liquid that is brought to the boil (heat balances of a pan, from memory: 2 to 5 %).
pub const BOILED: MassFraction = MassFraction(0.02);

/// What evaporates of liquid that is warmed to 80 °C (heat balances of a pan, from memory: 1 to 3 %).
pub const WARMED: MassFraction = MassFraction(0.01);

/// An ingredient with at least so much water is liquid that is heated, unless there is alcohol in it.
pub const LIQUID: MassFraction = MassFraction(0.5);

/// How much richer in ethanol the vapour is than the liquid: likely, and the ends of what is measured.
const ETHANOL_IN_VAPOUR: [f64; 3] = [9.0, 7.0, 13.0];

/// How the water that evaporates is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evaporating {
    /// It was weighed.
    Weighed {
        /// What is asked for.
        asked: Grams,
    },
    /// It is a share of the liquid that is heated.
    Estimated {
        /// How far it is heated.
        heating: Heating,
        /// How much liquid there is; `None` where that is not known.
        liquid: Option<Grams>,
    },
    /// The mass is cooked to a temperature.
    Cooked(Cooking),
}

/// A cook to a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooking {
    /// To which temperature.
    pub temperature: CookTemperature,
    /// How high the kitchen lies.
    pub height: Height,
    /// What comes of it, or why nothing does.
    pub outcome: Result<Cooked, NotCooked>,
    /// The temperatures that are possible for this mass at this height: from where it boils as weighed to the hottest that
    /// is computed. `None` where there are none, or where a figure is not known.
    pub possible: Option<(Celsius, Celsius)>,
}

/// What comes of a cook.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooked {
    /// The water that boils off.
    pub evaporates: Grams,
    /// The water that stays.
    pub water_left: Grams,
    /// The temperature that leaves the same water at the sea.
    pub at_the_sea: Celsius,
    /// The stage of cooked sugar that it is, if it is one.
    pub stage: Option<Stage>,
}

/// Why a mass is not cooked to a temperature. Nothing evaporates then.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotCooked {
    /// A figure that it needs is not known.
    Unknown,
    /// Water itself boils hotter.
    BelowWater {
        /// Where water boils there.
        water_boils: Celsius,
    },
    /// Nothing is dissolved, so that it boils as water does until all of it is gone.
    NothingDissolved {
        /// Where water boils there.
        water_boils: Celsius,
    },
    /// Hotter than what is computed.
    TooHot {
        /// The hottest that is computed there.
        hottest: Celsius,
    },
    /// As weighed it already boils hotter.
    AlreadyDrier {
        /// Where it boils; `None` where that is hotter than what is computed.
        boils: Option<Celsius>,
        /// The water that would have to be added for it to boil at the temperature that is asked for.
        missing: Grams,
    },
}

impl Default for Evaporating {
    fn default() -> Self {
        Self::Weighed { asked: Grams::ZERO }
    }
}

impl Evaporating {
    /// What evaporates of a mass by the choice of its recipe.
    #[must_use]
    pub fn of(recipe: &Recipe, before: &Parts) -> Self {
        match recipe.losses.evaporation {
            Evaporation::Weighed(amount) => Self::Weighed { asked: amount.grams() },
            Evaporation::Estimated(heating) => Self::Estimated { heating, liquid: liquid(recipe) },
            Evaporation::CookedTo { temperature, height } => Self::Cooked(Cooking::of(before, temperature, height)),
        }
    }

    /// How much is to evaporate; nothing where a cook is not possible, `None` where it is not known.
    #[must_use]
    pub fn grams(&self) -> Option<Grams> {
        match self {
            Self::Weighed { asked } => Some(*asked),
            Self::Estimated { heating, liquid } => liquid.map(|liquid| estimate(*heating, liquid)),
            Self::Cooked(cooking) => match cooking.outcome {
                Ok(cooked) => Some(cooked.evaporates),
                Err(NotCooked::Unknown) => None,
                Err(_) => Some(Grams::ZERO),
            },
        }
    }

    /// The cook, if it is one.
    #[must_use]
    pub fn cooking(&self) -> Option<&Cooking> {
        match self {
            Self::Cooked(cooking) => Some(cooking),
            Self::Weighed { .. } | Self::Estimated { .. } => None,
        }
    }

    /// What comes of the cook, if it is one and succeeds.
    #[must_use]
    pub fn cooked(&self) -> Option<Cooked> {
        self.cooking().and_then(|cooking| cooking.outcome.ok())
    }
}

impl Cooking {
    /// The cook of a mass as it is weighed.
    ///
    /// evaporates = W − w, w by [`water_left`] for the solution of all that dissolves, without ethanol
    ///
    /// Source: `starzak-2006`, `wagner-pruss-2002`, `isa`. Range: up to 150 °C and down to a water activity of 0.20; outside a
    /// reason. Within [`WATER_UNCERTAINTY`].
    ///
    /// Sucrose 85 and water 15 boil at 116 °C; with twice the water, 15 g have to boil off before they do.
    ///
    /// ```
    /// # use nibwright::{analysis::make_up::make_up, ingredient::Library, recipe::*, units::Celsius};
    /// # let library = Library::built_in();
    /// # let mut recipe = Recipe::default();
    /// for (id, grams) in [("sucrose", 85.0), ("water", 30.0)] {
    ///     recipe.push(library.by_id(id).unwrap().clone(), Quantity::from_grams(grams).unwrap());
    /// }
    /// let temperature = CookTemperature::new(Celsius(116.0)).unwrap();
    /// recipe.losses.evaporation = Evaporation::CookedTo { temperature, height: Height::SEA_LEVEL };
    /// assert!((make_up(&recipe).evaporated.0 - 15.0).abs() < 0.1);
    /// ```
    #[must_use]
    pub fn of(before: &Parts, temperature: CookTemperature, height: Height) -> Self {
        let pressure = air_pressure(height.metres());
        let contents = Contents::of(before);
        let possible = contents.as_ref().and_then(|contents| {
            let (from, to) = (boils_at(contents, height)?, hottest(pressure));
            (from < to && is_above(dissolved(contents).total().0, 0.0)).then_some((from, to))
        });
        Self { temperature, height, outcome: outcome(contents.as_ref(), temperature, height), possible }
    }
}

fn outcome(contents: Option<&Contents>, temperature: CookTemperature, height: Height) -> Result<Cooked, NotCooked> {
    let contents = contents.ok_or(NotCooked::Unknown)?;
    let water_left = left_by(contents, temperature, height)?;
    let at_the_sea = if height.is_at_the_sea() {
        temperature.celsius()
    } else {
        at_the_sea(temperature.celsius(), height.metres()).unwrap_or(temperature.celsius())
    };
    Ok(Cooked {
        evaporates: (contents.water - water_left).max(Grams::ZERO),
        water_left,
        at_the_sea,
        stage: Stage::at_the_sea(at_the_sea),
    })
}

/// The water that a cook leaves.
pub(super) fn left_by(contents: &Contents, temperature: CookTemperature, height: Height) -> Result<Grams, NotCooked> {
    let pressure = air_pressure(height.metres());
    let left = water_left(&dissolved(contents), temperature.celsius(), pressure).map_err(|why| match why {
        CannotCook::BelowWater { water_boils } => NotCooked::BelowWater { water_boils },
        CannotCook::NothingDissolved { water_boils } => NotCooked::NothingDissolved { water_boils },
        CannotCook::OutsideRange => NotCooked::TooHot { hottest: hottest(pressure) },
    })?;
    if is_above(left.0, contents.water.0) {
        let boils = boils_at(contents, height).filter(|boils| *boils < hottest(pressure));
        return Err(NotCooked::AlreadyDrier { boils, missing: left - contents.water });
    }
    Ok(left.min(contents.water))
}

/// Where a mass boils as weighed; `None` where it is too dry for the model.
fn boils_at(contents: &Contents, height: Height) -> Option<Celsius> {
    let activity: WaterActivity = strong_activity(contents.water, &dissolved(contents));
    let is_in_range = contents.water.0 > 0.0 && !is_below(activity.0, super::water::boiling::DRIEST.0);
    is_in_range.then(|| boiling_point(activity, air_pressure(height.metres())))
}

/// What is dissolved in a mass that is cooked: everything that can be, all sugar, and no ethanol.
fn dissolved(contents: &Contents) -> Solution {
    let ethanol = contents.others.grams(Solute::Ethanol);
    contents
        .others
        .clone()
        .with(Solute::Sucrose, contents.sucrose)
        .with(Solute::Lactose, contents.lactose)
        .with(Solute::Ethanol, -ethanol)
}

/// Whether an ingredient is liquid that is heated: at least half of it is water, and it carries no alcohol.
///
/// Cream, milk, purée, juice, tea and water are; syrups, honey, butter, chocolate and spirits are not. `None` where its
/// water or its ethanol is not known and may make the difference.
#[must_use]
pub fn is_liquid(ingredient: &Ingredient) -> Option<bool> {
    let composition = &ingredient.composition;
    let has_no_ethanol = composition.share(Component::Ethanol).map(|ethanol| ethanol.0 <= 0.0);
    let known: f64 = composition.grams_per_100g().iter().sum();
    let is_watery = match composition.share(Component::Water) {
        Some(water) => Some(!is_below(water.0, LIQUID.0)),
        // What is known to be something else is no water.
        None => is_above(known / 100.0, 1.0 - LIQUID.0).then_some(false),
    };
    match (is_watery, has_no_ethanol) {
        (Some(false), _) | (_, Some(false)) => Some(false),
        (Some(true), Some(true)) => Some(true),
        _ => None,
    }
}

/// The liquid of a recipe; `None` where it is not known of a line whether it is liquid.
fn liquid(recipe: &Recipe) -> Option<Grams> {
    let lines = recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0);
    lines
        .map(|line| is_liquid(&line.ingredient).map(|is_so| if is_so { line.amount.grams() } else { Grams::ZERO }))
        .sum()
}

/// What evaporates of liquid that is heated.
#[must_use]
pub fn estimate(heating: Heating, liquid: Grams) -> Grams {
    liquid * share_of(heating)
}

/// The share of the liquid that is taken to evaporate.
#[must_use]
pub fn share_of(heating: Heating) -> MassFraction {
    match heating {
        Heating::Boiled => BOILED,
        Heating::Warmed => WARMED,
    }
}

/// The share of the ethanol that leaves with water that boils off: likely, least and most.
///
/// 1 − (m/m₀)^K, m/m₀ the share of the mass that is left, K the mass fraction of ethanol in the vapour over that in the
/// liquid, 9 (7 to 13)
///
/// Source: distillation without reflux (Rayleigh); K of dilute ethanol in boiling water, from memory. Losing 4 % of the mass
/// takes 31 % of the ethanol:
///
/// ```
/// # use nibwright::{analysis::cooking::ethanol_lost, units::MassFraction};
/// let [likely, least, most] = ethanol_lost(MassFraction(0.04)).map(MassFraction::to_percent);
/// assert!((likely - 31.0).abs() < 0.5 && least < likely && likely < most);
/// ```
#[must_use]
pub fn ethanol_lost(evaporated: MassFraction) -> [MassFraction; 3] {
    ETHANOL_IN_VAPOUR.map(|ratio| MassFraction(1.0 - (1.0 - evaporated.0).clamp(0.0, 1.0).powf(ratio)))
}
