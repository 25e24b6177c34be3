//! The temperature at which parts that are stirred together end.

use thiserror::Error;

use super::curve::SolidFatCurve;
use super::enthalpy::{Enthalpy, Fat, Part, dissolving, latent};
use super::properties::{LEAST_WATER_FOR_DISSOLVED_SUGAR, Substance};
use crate::analysis::is_below;
use crate::analysis::root::{Tolerance, rising_root};
use crate::ingredient::Component;
use crate::recipe::BowlMaterial;
use crate::units::{Celsius, Grams, Joules, JoulesPerGramKelvin, Kelvin, MassFraction};

/// Below, water freezes, which the model does not know.
pub(super) const COLDEST: Celsius = Celsius(0.0);
/// Up to here the formulas of `choi-okos-1986` are printed.
pub const HOTTEST: Celsius = Celsius(150.0);
/// Above, the results are outside of what the model was checked for, and water boils.
const MOST_CHECKED: Celsius = Celsius(110.0);
/// Boiling point of pure ethanol in °C: above, ethanol is lost (`coolprop-8`: 78.4 °C).
const ETHANOL_BOILS: Celsius = Celsius(78.0);
/// From so much on the two temperatures are told apart. Common practice, no published source.
const NOTEWORTHY: Kelvin = Kelvin(0.5);
/// How well a temperature in °C is found: far below any thermometer, above the noise of doubles.
pub(super) const TOLERANCE: Tolerance = Tolerance { relative: 1e-13, absolute: 1e-11 };
/// How far to both sides of a root is looked for a step of the curve; above the tolerance, below any effect.
pub(super) const BESIDE: Kelvin = Kelvin(1e-9);

/// Why there is no temperature; in the user's words in `report::words`.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum HeatError {
    /// No mass at all.
    #[error("nothing to mix")]
    Empty,
    /// An amount below zero.
    #[error("negative amount")]
    Negative,
    /// A figure that is no number.
    #[error("figure is not finite")]
    NotFinite,
    /// Shares that do not add up.
    #[error("shares sum to {sum}, not 1")]
    NotWhole {
        /// Their sum.
        sum: f64,
    },
    /// A share beyond 0 and 1.
    #[error("share is not from 0 to 1")]
    NotAShare,
    /// A part of the composition that nobody knows.
    #[error("{} is not known", component.words())]
    Unknown {
        /// The part.
        component: Component,
    },
    /// A part, the bowl or the result below 0 °C.
    #[error("below 0 °C")]
    BelowFreezing,
    /// A part, the bowl or the result above 150 °C.
    #[error("above 150 °C")]
    AboveRange,
    /// There is no such part.
    #[error("no such part")]
    NoSuchPart,
    /// The part would have to boil.
    #[error("part needed above 100 °C")]
    NeedsBoiling,
    /// The part would have to be colder than a refrigerator.
    #[error("part needed below 4 °C")]
    NeedsTooCold,
    /// The part would have to be between solid and melted.
    #[error("part needed half melted")]
    NeedsHalfMelted,
    /// Melted chocolate or nut paste would have to be hotter than it bears.
    #[error("part needed above 60 °C")]
    NeedsScorching,
    /// Even with all chocolate melted the end is too cold.
    #[error("too cold with all chocolate melted")]
    TooColdAllMelted,
    /// Even with all chocolate solid the end is too warm.
    #[error("too warm with all chocolate solid")]
    TooWarmAllSolid,
    /// Before it is stirred it would have to be hotter than it can be: the room takes too much meanwhile.
    #[error("the room takes too much")]
    LostToRoom,
    /// Colder than everything that goes in, and nothing cools.
    #[error("colder than every part")]
    ColderThanAll,
}

impl HeatError {
    pub(super) fn check_temperature(at: Celsius) -> Result<(), Self> {
        match at.0 {
            t if !t.is_finite() => Err(Self::NotFinite),
            t if t < COLDEST.0 => Err(Self::BelowFreezing),
            t if t > HOTTEST.0 => Err(Self::AboveRange),
            _ => Ok(()),
        }
    }

    pub(super) fn check_amount(amount: f64) -> Result<(), Self> {
        match amount {
            a if !a.is_finite() => Err(Self::NotFinite),
            a if a < 0.0 => Err(Self::Negative),
            _ => Ok(()),
        }
    }

    pub(super) fn check_share(share: MassFraction) -> Result<MassFraction, Self> {
        if (0.0..=1.0).contains(&share.0) { Ok(share) } else { Err(Self::NotAShare) }
    }
}

/// The specific heat of what a bowl is made of, from memory.
#[must_use]
pub const fn specific_heat_of(material: BowlMaterial) -> JoulesPerGramKelvin {
    JoulesPerGramKelvin(match material {
        BowlMaterial::Steel => 0.50,
        BowlMaterial::Aluminium => 0.90,
        BowlMaterial::Glass => 0.84,
        BowlMaterial::Polycarbonate => 1.2,
        BowlMaterial::Polypropylene => 1.9,
    })
}

/// The bowl, which ends at the temperature of the mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// What it weighs.
    pub mass: Grams,
    /// What it is made of.
    pub material: BowlMaterial,
    /// How warm it is before.
    pub at: Celsius,
}

/// What is stirred together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mix {
    pub(super) parts: Vec<Part>,
    vessel: Option<Vessel>,
    external: Joules,
}

/// How a mix ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The temperature.
    pub temperature: Celsius,
    /// The crystals that are left of each fat, in the order of [`Fat::ALL`].
    pub crystals: [Grams; Fat::COUNT],
    /// The share of the crystals that melted; `None` if there were none.
    pub melted: Option<MassFraction>,
    /// The specific heat of the mass at this temperature, without the bowl and without melting.
    pub specific_heat: JoulesPerGramKelvin,
    /// The sugar that went into solution.
    pub dissolved: Grams,
}

/// The temperature of a mix, at once and later, and what makes it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mixed {
    /// With what melts at once and no sugar dissolved.
    pub at_once: Outcome,
    /// Some minutes later, with the sugar dissolved.
    pub after_dissolving: Outcome,
    /// The temperature if nothing melted and nothing dissolved.
    pub sensible_only: Celsius,
    /// What the reader should know.
    pub cautions: Vec<Caution>,
}

/// What the reader of a result should know.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Caution {
    /// A part is hotter than 78 °C where there is ethanol: some of it is lost.
    EthanolIsLost,
    /// A temperature above 110 °C, for which the model was not checked.
    HotterThanChecked,
}

impl Mixed {
    /// By how much melting changes the temperature; never above zero.
    #[must_use]
    pub fn by_melting(&self) -> Kelvin {
        self.at_once.temperature - self.sensible_only
    }

    /// By how much dissolving changes the temperature.
    #[must_use]
    pub fn by_dissolving(&self) -> Kelvin {
        self.after_dissolving.temperature - self.at_once.temperature
    }

    /// Whether the two temperatures differ enough, by more than 0.5 K, to be told apart.
    #[must_use]
    pub fn has_noteworthy_dissolution(&self) -> bool {
        self.by_dissolving().0.abs() > NOTEWORTHY.0
    }
}

/// The merged mass with the bowl: its heat as a function of the temperature.
pub(super) struct Merged {
    mass: Grams,
    alone: Enthalpy,
    pub(super) with_vessel: Enthalpy,
    pub(super) crystals: [Grams; Fat::COUNT],
    fats: [Grams; Fat::COUNT],
    dissolved: Grams,
}

impl Merged {
    /// The crystals that there can be: none more than came in, none more than can live.
    pub(super) fn crystals_at(&self, at: Celsius, curve: &impl SolidFatCurve) -> [Grams; Fat::COUNT] {
        // The curve is asked only where something can melt: its answer costs time.
        if self.crystals.iter().all(|crystals| crystals.0 <= 0.0) {
            return [Grams::ZERO; Fat::COUNT];
        }
        let solid = curve.solids(at);
        Fat::ALL.map(|fat| {
            let idx = fat as usize;
            (self.fats[idx] * solid[idx]).min(self.crystals[idx])
        })
    }

    /// The heat at a temperature, as much melted as melts.
    pub(super) fn heat(&self, at: Celsius, curve: &impl SolidFatCurve) -> Joules {
        self.with_vessel.at(at) - latent(&self.crystals_at(at, curve))
    }

    /// The temperature that has this heat.
    fn temperature(&self, heat: Joules, curve: &impl SolidFatCurve, start: Celsius) -> Result<Celsius, HeatError> {
        if !heat.0.is_finite() || !self.with_vessel.at(HOTTEST).0.is_finite() {
            return Err(HeatError::NotFinite);
        }
        // What begins at an end of the range may end there: sums of doubles lie a hair beside what they mean.
        let hair = |at: Celsius| self.with_vessel.capacity_j_per_k(at) * BESIDE.0;
        if self.heat(COLDEST, curve).0 > heat.0 + hair(COLDEST) {
            return Err(HeatError::BelowFreezing);
        }
        if self.heat(HOTTEST, curve).0 < heat.0 - hair(HOTTEST) {
            return Err(HeatError::AboveRange);
        }
        // The slope leaves melting out and is therefore too small, which makes the last step too long and the end too
        // strict, never too early; where it leads astray the bracket is halved.
        Ok(Celsius(rising_root((COLDEST.0, HOTTEST.0), start.0, TOLERANCE, |t| {
            let at = Celsius(t);
            (self.heat(at, curve).0 - heat.0, self.with_vessel.capacity_j_per_k(at))
        })))
    }

    fn outcome(&self, heat: Joules, curve: &impl SolidFatCurve, start: Celsius) -> Result<Outcome, HeatError> {
        let temperature = self.temperature(heat, curve, start)?;
        let (colder, warmer) =
            (self.crystals_at(temperature - BESIDE, curve), self.crystals_at(temperature + BESIDE, curve));
        // At a step of the curve the energy that is left decides how much is solid; elsewhere both sides are alike.
        let (most, least) = (latent(&colder).0, latent(&warmer).0);
        let wanted = self.with_vessel.at(temperature).0 - heat.0;
        let share = if most > least { ((wanted - least) / (most - least)).clamp(0.0, 1.0) } else { 0.0 };
        let crystals = Fat::ALL.map(|fat| {
            let (cold, warm) = (colder[fat as usize], warmer[fat as usize]);
            warm + (cold - warm) * share
        });
        let before: Grams = self.crystals.into_iter().sum();
        let after: Grams = crystals.into_iter().sum();
        Ok(Outcome {
            temperature,
            crystals,
            melted: (before.0 > 0.0).then(|| (before - after) / before),
            specific_heat: JoulesPerGramKelvin(self.alone.capacity_j_per_k(temperature) / self.mass.0),
            dissolved: self.dissolved,
        })
    }
}

impl Mix {
    /// These parts.
    #[must_use]
    pub fn new(parts: impl IntoIterator<Item = Part>) -> Self {
        Self { parts: parts.into_iter().collect(), vessel: None, external: Joules::ZERO }
    }

    /// In a bowl.
    ///
    /// # Errors
    ///
    /// [`HeatError`] if its mass or its temperature is outside of the model.
    pub fn in_vessel(mut self, vessel: Vessel) -> Result<Self, HeatError> {
        HeatError::check_amount(vessel.mass.0)?;
        HeatError::check_temperature(vessel.at)?;
        self.vessel = Some(vessel);
        Ok(self)
    }

    /// With heat from outside; what is lost is negative.
    ///
    /// # Errors
    ///
    /// [`HeatError::NotFinite`] if it is no number.
    pub fn with_heat(mut self, heat: Joules) -> Result<Self, HeatError> {
        if !heat.0.is_finite() {
            return Err(HeatError::NotFinite);
        }
        self.external = heat;
        Ok(self)
    }

    /// What warms the whole with the bowl by a kelvin once the sugar is dissolved, in joules; without melting.
    #[must_use]
    pub fn capacity_j_per_k(&self, at: Celsius) -> f64 {
        self.merged(Dissolving::Done).with_vessel.capacity_j_per_k(at)
    }

    /// The parts.
    #[must_use]
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// The same mix with some of its parts solid at another temperature, each with the crystals of its own fat.
    ///
    /// # Errors
    ///
    /// [`HeatError`] where there is no such part, and for a temperature outside of the model.
    pub fn with_starts<C: SolidFatCurve>(&self, parts: &[(usize, &C)], at: Celsius) -> Result<Self, HeatError> {
        HeatError::check_temperature(at)?;
        let mut mix = self.clone();
        for (idx, own_curve) in parts {
            let part = mix.parts.get_mut(*idx).ok_or(HeatError::NoSuchPart)?;
            part.at = at;
            part.crystals = own_curve.solids(at);
        }
        Ok(mix)
    }

    pub(super) fn external(&self) -> Joules {
        self.external
    }

    pub(super) fn with_part(&self, idx: usize, part: Part) -> Result<Self, HeatError> {
        let mut mix = self.clone();
        *mix.parts.get_mut(idx).ok_or(HeatError::NoSuchPart)? = part;
        Ok(mix)
    }

    fn vessel_enthalpy(&self) -> Enthalpy {
        self.vessel
            .map_or_else(Enthalpy::default, |vessel| Enthalpy::constant(vessel.mass, specific_heat_of(vessel.material)))
    }

    /// The heat of the bowl and what comes from outside.
    pub(super) fn heat_beside_parts(&self) -> Joules {
        let vessel = self.vessel.map_or(Joules::ZERO, |vessel| self.vessel_enthalpy().at(vessel.at));
        vessel + self.external
    }

    /// All heat that goes in, in joules: the parts with their crystals, the bowl, and what comes from outside.
    #[must_use]
    pub fn heat(&self) -> Joules {
        self.parts.iter().map(Part::heat).sum::<Joules>() + self.heat_beside_parts()
    }

    fn sum(&self, grams: impl Fn(&Part) -> Grams) -> Grams {
        self.parts.iter().map(grams).sum()
    }

    pub(super) fn merged(&self, sugar: Dissolving) -> Merged {
        let mut alone = self.parts.iter().fold(Enthalpy::default(), |sum, part| sum.plus(part.enthalpy));
        let (mass, water) = (self.sum(|part| part.mass), self.sum(|part| part.water));
        // A part alone is at rest, and below 2 % of water sugar counts as crystalline, as everywhere here.
        let is_dry = is_below(water.0, (mass * LEAST_WATER_FOR_DISSOLVED_SUGAR).0);
        let dissolved = match sugar {
            Dissolving::Done if self.parts.len() > 1 && !is_dry => {
                dissolving(self.sum(|part| part.crystalline_sugar), self.sum(|part| part.dissolved_sugar), water)
            }
            Dissolving::Done | Dissolving::NotYet => Grams::ZERO,
        };
        if dissolved.0 > 0.0 {
            alone = alone.with(Substance::CrystallineSugar, -dissolved).with(Substance::DissolvedSugar, dissolved);
        }
        Merged {
            mass,
            alone,
            with_vessel: alone.plus(self.vessel_enthalpy()),
            crystals: Fat::ALL.map(|fat| self.sum(|part| part.crystals(fat))),
            fats: Fat::ALL.map(|fat| self.sum(|part| part.fats[fat as usize])),
            dissolved,
        }
    }

    pub(super) fn hottest_and_coldest(&self) -> Option<(Celsius, Celsius)> {
        let vessel = self.vessel.filter(|vessel| vessel.mass.0 > 0.0).map(|vessel| vessel.at);
        let all = || self.parts.iter().map(|part| part.at).chain(vessel);
        Some((all().reduce(Celsius::max)?, all().reduce(Celsius::min)?))
    }

    /// The temperature at which everything ends.
    ///
    /// Σ heat of the parts + heat of the bowl + Q = H(T);
    /// H(T) = ∫ C dT + 1.566375·(dissolved sugar) − Σ Ms(T)·L + heat of the bowl at T, in J
    ///
    /// C heat capacity of the merged mass, L heats of fusion, Ms = min(crystals that came in, fat·S(T)) with S the share
    /// that can be solid (`curve`): what melts melts at once, and nothing crystallises while one stirs. After dissolving,
    /// crystalline sugar has gone into solution, up to 2 g in 1 g of water; none in a part alone and none where the whole
    /// has less than 2 % of water. H rises, so there is one temperature; it
    /// can be below the coldest part. Sources: those of [`Part::heat`].
    /// Valid from 0 to 110 °C, about ±1 K by the uncertainty of the specific heats; up to 150 °C with a caution.
    ///
    /// By hand: 500 g of 3.5 J/(g·K) at 80 °C and 500 g of 1.7 J/(g·K) at 40 °C end at 174000/2600 = 66.92 °C.
    ///
    /// ```
    /// use nibwright::analysis::heat::{BlendCurve, Mix, Part};
    /// use nibwright::units::{Celsius, Grams, JoulesPerGramKelvin};
    ///
    /// let mix = Mix::new([
    ///     Part::measured(Grams(500.0), JoulesPerGramKelvin(3.5), Celsius(80.0))?,
    ///     Part::measured(Grams(500.0), JoulesPerGramKelvin(1.7), Celsius(40.0))?,
    /// ]);
    /// let mixed = mix.mixed(&BlendCurve::new(None))?;
    /// assert!((mixed.at_once.temperature.0 - 66.9231).abs() < 1e-3);
    /// # Ok::<(), nibwright::analysis::heat::HeatError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`HeatError`] for no parts and for a result outside of 0 to 150 °C.
    pub fn mixed(&self, curve: &impl SolidFatCurve) -> Result<Mixed, HeatError> {
        let (hottest, _) = self.hottest_and_coldest().filter(|_| !self.parts.is_empty()).ok_or(HeatError::Empty)?;
        let undissolved = self.merged(Dissolving::NotYet);
        let latent_before = latent(&undissolved.crystals);
        let without_crystals = Merged { crystals: [Grams::ZERO; Fat::COUNT], ..self.merged(Dissolving::NotYet) };
        let start = self.parts.first().map_or(hottest, |part| part.at);
        let sensible_only = without_crystals.temperature(self.heat() + latent_before, curve, start)?;
        let at_once = undissolved.outcome(self.heat(), curve, sensible_only)?;
        let dissolved = self.merged(Dissolving::Done);
        let after_dissolving = if dissolved.dissolved.0 > 0.0 {
            dissolved.outcome(self.heat(), curve, at_once.temperature)?
        } else {
            at_once.clone()
        };

        let mut cautions = Vec::new();
        if self.has_hot_ethanol(at_once.temperature) {
            cautions.push(Caution::EthanolIsLost);
        }
        if hottest > MOST_CHECKED || at_once.temperature > MOST_CHECKED {
            cautions.push(Caution::HotterThanChecked);
        }
        Ok(Mixed { at_once, after_dissolving, sensible_only, cautions })
    }

    fn has_hot_ethanol(&self, end: Celsius) -> bool {
        self.parts.iter().any(|part| part.ethanol.0 > 0.0 && part.at.max(end) > ETHANOL_BOILS)
    }
}

/// Whether the sugar has had time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Dissolving {
    /// At once.
    NotYet,
    /// After some minutes.
    Done,
}
