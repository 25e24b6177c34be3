//! At which temperature the lines of a recipe end when they are mixed, and how warm one has to be for a wanted end.
//!
//! The balance itself is [`super::heat::Mix`]; here a recipe becomes its parts. What evaporates is taken off the liquid
//! that is heated, so that the balance is that of the bowl. A line of which no temperature is said counts as
//! [`UNSAID`], as soon as another one has a temperature; how many such lines there are is part of the result.
//!
//! What is not modelled: fat in globules that has not met the chocolate's fat (all fats count as mixed, as in the cautious
//! window), a mass that is cooked after it is mixed, and what crystallises while one stirs.

mod wanted;

use super::cooking::is_liquid;
use super::cooling::bowl::{STILL_AIR, STIRRED_AND_EVAPORATING, STIRRED_M2, surface_m2};
use super::fat::{FatPhase, FatPhaseError};
use super::fat_crystals::{FatCrystals, Limits, NoFatCrystals, fat_grams};
use super::heat::{
    BlendCurve, Contents, Fat, HeatError, LEAST_WATER_FOR_DISSOLVED_SUGAR, MOST_SOLID, Mix, Mixed, Part, SolidFatCurve,
    SugarState, Vessel,
};
use super::make_up::MakeUp;
use super::parts::{Group, Parts};
use super::seeding::Seeding;
use super::survival::{Fate, fate};
use super::{ROOM, is_below};
use crate::ingredient::Component;
use crate::recipe::{CocoaButter, CookTemperature, FatState, Line, MixTemperature, Recipe, StirringTime};
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

pub use wanted::{Changeable, MELTED_AT, Needed, Wanted, Way};

/// The temperature of a line of which none is said.
pub const UNSAID: Celsius = ROOM;

/// Below, fat is at rest, from here on melted, where nothing else is said.
pub const AT_REST_BELOW: Celsius = MOST_SOLID;

/// The share of its cocoa butter that is crystals in liquid tempered chocolate (0.5 to 5 %; from memory).
pub const TEMPERED: MassFraction = MassFraction(0.02);

/// An end nearer to the wanted one than this is the wanted one: what a thermometer of a kitchen tells apart.
pub const REACHED_WITHIN: Kelvin = Kelvin(0.5);

/// At which temperature the mass is asked for its heat capacity, for what stirring takes.
const STIRRED_AT: Celsius = Celsius(40.0);

/// What makes the end uncertain, as shares of its contributions; judged, from how well each figure is known.
const OF_SPECIFIC_HEAT: f64 = 0.04;
const OF_MELTING: f64 = 0.07;
const OF_DISSOLVING: f64 = 0.2;
const OF_STIRRING: f64 = 0.5;
/// What scale and thermometer leave open, however little is mixed (judged).
const OF_READING: Kelvin = Kelvin(0.3);

/// Heat that a gram of sugar alcohols or of dextrose takes up beyond what is counted, J/g (90 to 130; from memory).
const MORE_HEAT_OF_SOLUTION: f64 = 100.0;

/// A line with less fat than this is no chocolate that one would melt first.
const LEAST_FAT_OF_CHOCOLATE: MassFraction = MassFraction(0.25);
/// Nor one with less cocoa butter.
const LEAST_COCOA_BUTTER_OF_CHOCOLATE: MassFraction = MassFraction(0.10);

/// How the lines of a recipe end when they are mixed.
#[derive(Clone, Debug, PartialEq)]
pub struct MixingState {
    /// What the thermometer shows in the end: sugar dissolved, stirring over.
    pub end: Celsius,
    /// One standard deviation of it; judged, without what an unknown bowl takes.
    pub uncertainty: Kelvin,
    /// The balance before stirring.
    pub mixed: Mixed,
    /// By how much stirring in the open changes it.
    pub by_stirring: Kelvin,
    /// The crystals that came in, of each fat in the order of [`Fat::ALL`].
    pub crystals_before: [Grams; Fat::COUNT],
    /// How many lines that weigh something have no temperature of their own.
    pub unsaid: usize,
    /// How many lines that weigh something there are.
    pub lines: usize,
    /// Whether a line brings tempered, liquid chocolate.
    pub has_tempered: bool,
    /// What becomes of seed at the end; `None` where the mass cannot be seeded.
    pub fate: Option<Fate>,
    /// The same while fat in globules is whole, where that makes a difference.
    pub fresh_fate: Option<Fate>,
    /// Sugar alcohols and dextrose that come in dry and dissolve: they take up more heat than is counted.
    pub cooling_sugars: Grams,
    /// By how much colder they make the end than is computed.
    pub cooler_by: Kelvin,
    /// What would have to be otherwise for the wanted end, if one is wanted.
    pub wanted: Option<Wanted>,
}

/// Why a mix with temperatures has no end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoMixing {
    /// The whole is cooked afterwards: that temperature counts.
    Cooked(CookTemperature),
    /// A figure of a line is not known.
    Unknown,
    /// Nothing of a fat stays liquid: the fat model cannot tell.
    NoLiquidFat,
    /// The balance has no answer.
    Heat(HeatError),
}

impl From<HeatError> for NoMixing {
    fn from(error: HeatError) -> Self {
        match error {
            HeatError::Unknown { .. } => Self::Unknown,
            error => Self::Heat(error),
        }
    }
}

impl MixingState {
    /// By how much the end misses the wanted one, where it does by more than [`REACHED_WITHIN`].
    #[must_use]
    pub fn missed(&self) -> Option<Kelvin> {
        let miss = self.end - self.wanted.as_ref()?.at;
        super::is_above(miss.0.abs(), REACHED_WITHIN.0).then_some(miss)
    }

    /// The crystals of a fat that are left.
    #[must_use]
    pub fn crystals_left(&self, fat: Fat) -> Grams {
        self.mixed.after_dissolving.crystals[fat as usize]
    }

    /// The crystals of all fats: those that came in, and those that are left.
    #[must_use]
    pub fn all_crystals(&self) -> (Grams, Grams) {
        (self.crystals_before.into_iter().sum(), self.mixed.after_dissolving.crystals.into_iter().sum())
    }
}

/// At which temperature the lines end, if any of them has a temperature.
///
/// The balance of [`Mix::mixed`] over all lines that weigh something, then
///
/// T = room + (T′ − room)·exp(−h·A·t / C)
///
/// T′ the end of the balance with sugar dissolved, t the time of stirring in the open, C the heat capacity of mass and bowl,
/// A 0.06 m² for a kilogram and as the ⅔ power of the mass, h 28 W/(m²·K) with water that evaporates, 10 below 2 % of water.
///
/// Sources: those of [`Mix::mixed`]; what stirring takes from memory, within a factor of two. Range: 0 to 110 °C.
///
/// Half cream at 80 °C and half a dark couverture at 20 °C, solid, end near 48 °C: melting and dissolving take 11 K.
///
/// ```
/// # use nibwright::{analysis::{ROOM, analyse}, ingredient::Library, recipe::*, units::Celsius};
/// # let library = Library::built_in();
/// # let mut recipe = Recipe::default();
/// for (id, celsius) in [("cream-35", 80.0), ("couverture-dark-64", 20.0)] {
///     recipe.push(library.by_id(id).unwrap().clone(), Quantity::from_grams(500.0).unwrap());
///     recipe.lines.last_mut().unwrap().temperature = Some(MixTemperature::new(Celsius(celsius)).unwrap());
/// }
/// let mixing = analyse(&recipe, ROOM).mixing.unwrap().unwrap();
/// assert!((mixing.end.0 - 48.0).abs() < 1.0);
/// ```
#[must_use]
pub fn mixing(
    recipe: &Recipe,
    make_up: &MakeUp,
    fat: &Result<FatCrystals, NoFatCrystals>,
    seeding: Option<&Seeding>,
) -> Option<Result<MixingState, NoMixing>> {
    let has_temperature = |line: &Line| line.temperature.is_some() && line.amount.grams().0 > 0.0;
    recipe.lines.iter().any(has_temperature).then(|| state(recipe, make_up, fat, seeding))
}

/// A line that weighs something, as the balance sees it.
struct Mixable<'a> {
    line: &'a Line,
    parts: Parts,
    start: Celsius,
    /// What can be solid of its own fat.
    curve: BlendCurve,
}

impl Mixable<'_> {
    fn part(&self) -> Result<Part, HeatError> {
        let sugar = SugarState::usual(&self.parts).ok_or(HeatError::Unknown { component: Component::Water })?;
        let mut part = Part::new(&Contents::from_parts(&self.parts, sugar)?, self.start)?;
        match self.state() {
            FatAtMixing::Solid => {
                for (fat, share) in Fat::ALL.into_iter().zip(self.curve.solids(self.start)) {
                    part = part.with_crystals(fat, share)?;
                }
            }
            FatAtMixing::Tempered => part = part.with_crystals(Fat::CocoaButter, TEMPERED)?,
            FatAtMixing::Melted => {}
        }
        Ok(part)
    }

    fn state(&self) -> FatAtMixing {
        state_of(self.line)
    }

    fn is_liquid(&self) -> bool {
        is_liquid(&self.line.ingredient) == Some(true)
    }

    fn is_chocolate(&self) -> bool {
        is_chocolate(&self.parts)
    }
}

/// In which state the fat of a line is mixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FatAtMixing {
    /// With as many crystals as can live at its temperature.
    Solid,
    /// Without crystals.
    Melted,
    /// Liquid chocolate with few crystals.
    Tempered,
}

/// How warm a line goes in: as said, else as the room.
#[must_use]
pub fn start_of(line: &Line) -> Celsius {
    line.temperature.map_or(UNSAID, MixTemperature::celsius)
}

/// In which state the fat of a line goes in: as said, else as its temperature says.
#[must_use]
pub fn state_of(line: &Line) -> FatAtMixing {
    match line.fat_state {
        FatState::Tempered => FatAtMixing::Tempered,
        FatState::Solid => FatAtMixing::Solid,
        FatState::ByTemperature if start_of(line) < AT_REST_BELOW => FatAtMixing::Solid,
        FatState::ByTemperature | FatState::Melted => FatAtMixing::Melted,
    }
}

fn state(
    recipe: &Recipe,
    make_up: &MakeUp,
    fat: &Result<FatCrystals, NoFatCrystals>,
    seeding: Option<&Seeding>,
) -> Result<MixingState, NoMixing> {
    if let Some(cooking) = make_up.evaporating.cooking() {
        return Err(NoMixing::Cooked(cooking.temperature));
    }
    let lines = mixables(recipe, make_up)?;
    let curve = match fat {
        Ok(fat) => BlendCurve::new(Some(fat.blended.clone())),
        Err(NoFatCrystals::NoFat) => BlendCurve::new(None),
        Err(NoFatCrystals::Unknown) => return Err(NoMixing::Unknown),
        Err(NoFatCrystals::NoLiquid) => return Err(NoMixing::NoLiquidFat),
    };
    let mix = mix_of(recipe, &lines)?;
    let mixed = mix.mixed(&curve)?;
    let stirring = Stirring::of(recipe.mixing.stirred, &mix, make_up);
    let before_stirring = mixed.after_dissolving.temperature;
    let end = stirring.end_of(before_stirring);
    let limits = fat.as_ref().ok().map(|fat| fat.limits).unwrap_or_default();
    let fresh = fat.as_ref().ok().and_then(|fat| fat.unmixed.as_ref()).map(Limits::of);
    let now = seeding.and_then(|seeding| fate(&limits, &seeding.window, end));
    let fresh = seeding
        .and_then(Seeding::second_window)
        .zip(fresh)
        .and_then(|(window, limits)| fate(&limits, &window, end))
        .filter(|fresh| Some(*fresh) != now);
    let hottest = lines.iter().map(|line| line.start).fold(end, Celsius::max);
    let by_stirring = end - before_stirring;
    let cooling_sugars = if is_dry(make_up) { Grams::ZERO } else { cooling_sugars(&lines) };
    Ok(MixingState {
        end,
        uncertainty: uncertainty(hottest - end, &mixed, by_stirring),
        crystals_before: Fat::ALL.map(|fat| mix.parts().iter().map(|part| part.crystals(fat)).sum()),
        unsaid: lines.iter().filter(|line| line.line.temperature.is_none()).count(),
        lines: lines.len(),
        has_tempered: lines.iter().any(|line| line.state() == FatAtMixing::Tempered),
        fate: now,
        fresh_fate: fresh,
        cooling_sugars,
        cooler_by: Kelvin(cooling_sugars.0 * MORE_HEAT_OF_SOLUTION / mix.capacity_j_per_k(end)),
        wanted: recipe.mixing.wanted.map(|at| {
            let at = at.celsius();
            wanted::wanted(&lines, &mix, at, stirring.start_of(at), &curve)
        }),
        mixed,
        by_stirring,
    })
}

/// The lines that weigh something, with what evaporates taken off.
fn mixables<'a>(recipe: &'a Recipe, make_up: &MakeUp) -> Result<Vec<Mixable<'a>>, NoMixing> {
    make_up.evaporating.grams().ok_or(NoMixing::Unknown)?;
    let mut lines = Vec::with_capacity(recipe.lines.len());
    for (line, brought) in recipe.lines.iter().zip(&make_up.lines) {
        if line.amount.grams().0 <= 0.0 {
            continue;
        }
        lines.push(Mixable {
            line,
            parts: brought.parts.clone(),
            start: start_of(line),
            curve: own_curve(line, &brought.parts, recipe.cocoa_butter)?,
        });
    }
    evaporate(&mut lines, make_up.evaporated)?;
    // Dried to nothing, a line takes no part.
    lines.retain(|line| line.parts.total().0 > 0.0);
    Ok(lines)
}

/// Whether it is chocolate that one would melt: dry, rich in fat, with cocoa butter.
fn is_chocolate(parts: &Parts) -> bool {
    let share = |group| parts.group_share(group).unwrap_or_default();
    is_below(share(Group::Water).0, LEAST_WATER_FOR_DISSOLVED_SUGAR.0)
        && share(Group::TotalFat) >= LEAST_FAT_OF_CHOCOLATE
        && share(Group::CocoaButter) >= LEAST_COCOA_BUTTER_OF_CHOCOLATE
}

fn own_curve(line: &Line, parts: &Parts, cocoa_butter: CocoaButter) -> Result<BlendCurve, NoMixing> {
    // What is said to be melted is so wherever it starts; only chocolate can be tried solid all the same.
    if line.fat_state == FatState::Melted && !is_chocolate(parts) {
        return Ok(BlendCurve::new(None));
    }
    let grams = fat_grams(parts).ok_or(NoMixing::Unknown)?;
    match FatPhase::new(&grams, cocoa_butter) {
        Ok(phase) => Ok(BlendCurve::new(Some(phase))),
        Err(FatPhaseError::NoFat) => Ok(BlendCurve::new(None)),
        Err(FatPhaseError::NoLiquid) => Err(NoMixing::NoLiquidFat),
    }
}

/// Takes water off: first of liquid that is warmer than the room, which was heated before, then of other liquid, then of
/// everything, each by its water.
fn evaporate(lines: &mut [Mixable<'_>], evaporated: Grams) -> Result<(), NoMixing> {
    let mut left = evaporated;
    let tiers: [fn(&Mixable<'_>) -> bool; 3] =
        [|line| line.is_liquid() && line.start > UNSAID, |line| line.is_liquid(), |_| true];
    for is_of_tier in tiers {
        if left.0 <= 0.0 {
            break;
        }
        let mut water = Grams::ZERO;
        for line in lines.iter().filter(|line| is_of_tier(line)) {
            water += line.parts.grams(Component::Water).ok_or(NoMixing::Unknown)?;
        }
        if water.0 <= 0.0 {
            continue;
        }
        let share = (left / water).0.min(1.0);
        for line in lines.iter_mut().filter(|line| is_of_tier(line)) {
            let of_line = line.parts.grams(Component::Water).unwrap_or_default();
            line.parts.evaporate(of_line * share);
        }
        left = (left - water * share).max(Grams::ZERO);
    }
    Ok(())
}

fn mix_of(recipe: &Recipe, lines: &[Mixable<'_>]) -> Result<Mix, NoMixing> {
    let parts = lines.iter().map(Mixable::part).collect::<Result<Vec<_>, _>>()?;
    let mix = Mix::new(parts);
    Ok(match recipe.mixing.bowl {
        Some(bowl) => {
            mix.in_vessel(Vessel { mass: bowl.mass.grams(), material: bowl.material, at: bowl.temperature.celsius() })?
        }
        None => mix,
    })
}

/// Whether the mass has too little water for sugar to dissolve and for water to evaporate.
fn is_dry(make_up: &MakeUp) -> bool {
    let water = make_up.bowl.share(Component::Water).unwrap_or_default();
    is_below(water.0, LEAST_WATER_FOR_DISSOLVED_SUGAR.0)
}

/// What stirring in the open does: the distance to the room shrinks to this share.
#[derive(Clone, Copy)]
struct Stirring {
    share: f64,
}

impl Stirring {
    fn of(time: StirringTime, mix: &Mix, make_up: &MakeUp) -> Self {
        const SECONDS: f64 = 60.0;
        if time.minutes() <= 0.0 {
            return Self { share: 1.0 };
        }
        let taken = if is_dry(make_up) { STILL_AIR } else { STIRRED_AND_EVAPORATING };
        let rate = taken * surface_m2(STIRRED_M2, make_up.bowl.total()) * SECONDS / mix.capacity_j_per_k(STIRRED_AT);
        Self { share: (-rate * time.minutes()).exp() }
    }

    fn end_of(self, before: Celsius) -> Celsius {
        ROOM + (before - ROOM) * self.share
    }

    /// What the mix has to have before it is stirred.
    fn start_of(self, end: Celsius) -> Celsius {
        ROOM + (end - ROOM) * (1.0 / self.share)
    }
}

fn uncertainty(below_hottest: Kelvin, mixed: &Mixed, by_stirring: Kelvin) -> Kelvin {
    let parts = [
        OF_SPECIFIC_HEAT * below_hottest.0,
        OF_MELTING * mixed.by_melting().0,
        OF_DISSOLVING * mixed.by_dissolving().0,
        OF_STIRRING * by_stirring.0,
        OF_READING.0,
    ];
    Kelvin(parts.iter().map(|part| part * part).sum::<f64>().sqrt())
}

/// Sugar alcohols and dextrose of dry lines that are not chocolate.
fn cooling_sugars(lines: &[Mixable<'_>]) -> Grams {
    /// Nearly pure: what a syrup or a chocolate holds is dissolved, or is sucrose for the most part.
    const NEARLY_PURE: MassFraction = MassFraction(0.8);
    lines
        .iter()
        .filter_map(|line| {
            let of = |component| line.parts.grams(component).unwrap_or_default();
            let grams = of(Component::Polyols) + of(Component::Glucose);
            (grams / line.parts.total() >= NEARLY_PURE).then_some(grams)
        })
        .sum()
}

fn places(lines: &[Mixable<'_>], is_one: impl Fn(&Mixable<'_>) -> bool) -> Vec<usize> {
    (0..).zip(lines).filter(|(_, line)| is_one(line)).map(|(idx, _)| idx).collect()
}
