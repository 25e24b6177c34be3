//! How the mass of a recipe sets: its course of cooling in its form, when it is firm, and how long it stays workable.
//!
//! It puts three models together: [`super::cooling::body`] for the temperature, [`super::cooling::growth`] for the speed of
//! crystals, and the fat phase for how many there can be. The time that it tells ends when the solid fat has gone 90 % of
//! its way to equilibrium at the surroundings; fat goes on crystallising for a day and longer.
//!
//! The constant of growth is that of the surroundings from the beginning, while the mass is still warm: the first crystals come
//! too quickly, and with them their heat. The time is little touched by it (7 to 26 % short by a computation with one
//! temperature in which growth follows the local undercooling: inside its band); the first rise in the middle of a thick piece
//! is overdrawn, by a degree or so.
//!
//! It deliberately tells no time for what sets by something else than fat (caramel), for surroundings in which the formula
//! of growth is void, and none from a formula for unseeded masses: these take 12 to 24 hours by common practice, and nobody
//! knows in which form.

mod pieces;
#[cfg(test)]
mod tests;
pub mod workable;

use std::cell::OnceCell;

use thiserror::Error;

use super::Analysis;
use super::cooling::body::{Body, BodyError, Course, Crystals, Length, Material, Rate, Resolution, Solid, run_with};
use super::cooling::growth::{LEAST_SUPERCOOLING, System, growth_time, shortest_growth_time};
use super::fat::Form;
use super::fat_crystals::{FatCrystals, NoFatCrystals};
use super::heat::{BlendCurve, Contents, Fat, SolidFatCurve, Substance, SugarState};
use super::mixing::TEMPERED;
use super::parts::Parts;
use super::seeding::Seeding;
use super::time_band::TimeBand;
use crate::recipe::{Air, Kind, Recipe, SeedingWay, Setting};
use crate::units::{
    Celsius, Grams, JoulesPerGram, Kelvin, MassFraction, Millilitres, Minutes, WattsPerSquareMetreKelvin,
};

/// Two of three masses set within this factor of the time that is told (judged, no published source).
pub const BAND: f64 = 2.0;

/// What an unseeded mass takes to set: the ends of common practice, no published source.
pub const UNSEEDED: (Minutes, Minutes) = (Minutes(12.0 * 60.0), Minutes(24.0 * 60.0));

/// A crystallisation of first order is at 90 % after so many time constants: ln 10.
const CONSTANTS_UNTIL_SET: f64 = std::f64::consts::LN_10;

/// Less cocoa butter in the fat of a mass without a water phase, and it sets as a nut praline does (judged).
const LEAST_OF_CHOCOLATE: MassFraction = MassFraction(0.60);

/// The temperature at which density and conductivity are taken.
const PROPERTIES_AT: Celsius = Celsius(25.0);

/// Into how many layers and steps a course is divided: the time until it is set is within 0.5 % of that with four times as many
/// layers and eight times as many steps (tested), far below what is known of it, in a quarter of the time of [`run_with`]'s
/// usual resolution. It is computed with every digit that is typed.
const RESOLUTION: Resolution = Resolution { cells: 20, steps: 100 };

/// More heat than this part of what went through the surfaces is never lost by rounding (usual is 1e-13): a step was not solved.
const MOST_LOST: f64 = 1e-6;

/// Distance of the temperatures at which the solid fat is asked for.
const NODE_DISTANCE: Kelvin = Kelvin(0.5);

/// The surface coefficient of moving and still air.
///
/// Still air 8: convection of 5 and some radiation; refrigerator without a fan 7; fan 20; tunnel 30 W/(m²·K). Derived from
/// correlations for plates and spheres, ±30 %.
#[must_use]
pub fn coefficient(air: Air) -> WattsPerSquareMetreKelvin {
    WattsPerSquareMetreKelvin(match air {
        Air::Still => 8.0,
        Air::Refrigerator => 7.0,
        Air::Fan => 20.0,
        Air::Tunnel => 30.0,
    })
}

/// Why there is no course of cooling; in the user's words in `report::words`.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum NoSetting {
    /// The recipe does not say how it is set.
    #[error("no setting in the recipe")]
    NotSaid,
    /// Nothing is weighed.
    #[error("nothing weighed")]
    Nothing,
    /// A figure is not known.
    #[error("unknown figure")]
    Unknown,
    /// A figure is out of the range of the model.
    #[error("{0}")]
    Body(#[from] BodyError),
    /// The computation has lost or found heat: its times would be wrong.
    #[error("energy error {error}")]
    LostHeat {
        /// How much, relative to what went through the surfaces.
        error: f64,
    },
}

/// Why there is no setting time; in words in `report::words`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoTime {
    /// Its sugar makes it firm.
    SetsBySugar,
    /// There is seed, and nothing that it could be put into.
    OnlySeed,
    /// It begins without crystals, or nobody knows with how many.
    Crystals(NoCrystals),
    /// Hardly below the limit of form V, or above.
    TooWarm {
        /// The temperature around it.
        around: Celsius,
        /// Below this it sets.
        most: Celsius,
    },
    /// Far below: other forms grow.
    TooCold {
        /// The temperature around it.
        around: Celsius,
        /// Above this it sets in form V.
        least: Celsius,
    },
    /// All that can be solid there is so from the beginning.
    NothingToCome,
    /// The solid fat does not come near its equilibrium in any reasonable time.
    TooLong,
}

/// Why a mass has no crystals that could grow, or nobody knows how many; in words in `report::words`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoCrystals {
    /// It has no seeding plan.
    NotSeeded,
    /// A figure of the seed is not known, or not what is chopped.
    NotKnown,
    /// The seed holds no cocoa butter.
    NoneInSeed,
    /// It begins so warm, or is seeded so warm, or with seed so warm, that none are left.
    Melt,
}

impl From<NoCrystals> for NoTime {
    fn from(why: NoCrystals) -> Self {
        Self::Crystals(why)
    }
}

/// How a mass sets.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingState {
    /// How it is set.
    pub setting: Setting,
    /// How warm it is when it begins to cool.
    pub start: Celsius,
    /// As what it sets.
    pub system: System,
    /// When it is set, seeded; or why that is not told.
    pub set: Result<TimeBand, NoTime>,
    /// The time in which its crystals grow where it is as cold as its surroundings; `None` where no time is told.
    pub growth: Option<Minutes>,
    /// In less time its crystals cannot grow all through, because their heat does not get out; `None` where there is no form V
    /// limit, and in surroundings above it.
    pub least_growth: Option<Minutes>,
    /// Whether it is so thick that the heat of its own crystals does not get out as fast as they grow.
    pub is_too_thick: bool,
    /// Its course, seeded; where no time is told, with all the crystals that there can be at any moment.
    pub course: Course,
    /// What it is unseeded; `None` where no time is told.
    as_unseeded: Option<Unseeded>,
    /// Its course, once it was asked for.
    unseeded: OnceCell<Option<Course>>,
}

/// The same body without seed, to be followed over the same time.
#[derive(Clone, Debug, PartialEq)]
struct Unseeded {
    body: Body,
    crystals: Crystals,
    length: Length,
    resolution: Resolution,
}

/// How the mass of a recipe sets; costs some milliseconds.
///
/// Formula and source: [`super::cooling::body`], with the time constant t_x/ln 10 of [`growth_time`].
///
/// # Errors
///
/// [`NoSetting`] where the recipe does not say how it is set, a figure is missing, or the computation has lost heat.
pub fn setting(recipe: &Recipe, analysis: &Analysis) -> Result<SettingState, NoSetting> {
    setting_with(recipe, analysis, RESOLUTION)
}

fn setting_with(recipe: &Recipe, analysis: &Analysis, resolution: Resolution) -> Result<SettingState, NoSetting> {
    let setting = recipe.setting.ok_or(NoSetting::NotSaid)?;
    let (body, contents) = piece_of(&setting, &analysis.make_up.bowl)?;
    let seeding = analysis.seeding.as_ref();
    let start = start_of(&setting, seeding);
    let system = system_of(recipe, analysis);
    let fat = match &analysis.fat {
        Ok(fat) => Some(fat),
        Err(NoFatCrystals::NoFat) => None,
        Err(NoFatCrystals::Unknown | NoFatCrystals::NoLiquid) => return Err(NoSetting::Unknown),
    };
    let growth = growth(recipe, analysis, start, body.end());
    let least_growth = fat.and_then(|fat| least_growth(&body, &contents, fat));
    let nodes = fat.map_or_else(Vec::new, |fat| nodes(&contents, fat));
    let crystals = |rate, share: MassFraction| Crystals::from_nodes(nodes.clone(), rate, share);
    let rate = growth.map_or(Rate::Equilibrium, |time| Rate::Limited(time * CONSTANTS_UNTIL_SET.recip()));
    let begun = crystals_begun(analysis, start).unwrap_or_default();
    let crystals_now = crystals(rate, share_begun(&nodes, begun, start))?;
    let course = balanced(run_with(&body, start, &crystals_now, Length::UntilSet, resolution)?)?;
    let without_time = if course.has_more_to_come() { NoTime::TooLong } else { NoTime::NothingToCome };
    let set = growth.and_then(|_| course.set.map(|time| TimeBand::within_factor(time, BAND)).ok_or(without_time));
    let as_unseeded = match (set, course.moments.last()) {
        (Ok(_), Some(last)) => {
            let usual = TimeBand::between(UNSEEDED.0, UNSEEDED.1).typical();
            let rate = Rate::Limited(usual * CONSTANTS_UNTIL_SET.recip());
            let crystals = crystals(rate, MassFraction::ZERO)?;
            Some(Unseeded { body, crystals, length: Length::Given(last.time), resolution })
        }
        _ => None,
    };
    let unseeded = OnceCell::new();
    let growth = growth.ok();
    let limit = fat.and_then(|fat| fat.limits.form_v);
    let is_too_thick = growth
        .zip(least_growth)
        .zip(limit)
        .is_some_and(|((growth, least), limit)| is_too_thick(growth, least, limit - course.end));
    Ok(SettingState { setting, start, system, set, growth, least_growth, is_too_thick, course, as_unseeded, unseeded })
}

/// The piece as a body, and what the mass holds.
fn piece_of(setting: &Setting, bowl: &Parts) -> Result<(Body, Contents), NoSetting> {
    if bowl.total() <= Grams::ZERO {
        return Err(NoSetting::Nothing);
    }
    let sugar = SugarState::usual(bowl).ok_or(NoSetting::Unknown)?;
    let contents = Contents::from_parts(bowl, sugar).map_err(|_| NoSetting::Unknown)?;
    let continuous = contents.usual_continuous_phase();
    let density = contents.density(PROPERTIES_AT);
    let conductivity = contents.conductivity(continuous, PROPERTIES_AT);
    let material = Material::new(density, conductivity, |at| contents.specific_heat(at))?;
    let volume = Millilitres(contents.total().0 / density.0);
    let body = Body::new(pieces::geometry(setting, conductivity, volume, contents.total()), material)?;
    Ok((body, contents))
}

/// The time of growth in which the heat of all crystals that there can be gets out of a piece.
fn least_growth(body: &Body, contents: &Contents, fat: &FatCrystals) -> Option<Minutes> {
    let surroundings = body.end();
    let heat = heat_of_crystals(contents, &BlendCurve::new(Some(fat.blended.clone())), surroundings);
    let rise = Kelvin(heat.0 / contents.specific_heat(surroundings).0);
    shortest_growth_time(rise, body.time_constant(), fat.limits.form_v?, surroundings)
}

/// Whether the middle of a piece stays where crystals hardly grow, because their heat does not get out.
///
/// While heat goes out as fast as it is given off, growth is slowed from its own time to the least one, so the middle is below
/// the form V limit by (`T_V` − surroundings) · growth/least: too thick where that is less than what growth needs.
fn is_too_thick(growth: Minutes, least: Minutes, supercooling: Kelvin) -> bool {
    super::is_below(supercooling.0 * growth.0, LEAST_SUPERCOOLING.0 * least.0)
}

/// The time of growth of a piece that is too thick for it, and the least that it would take; `None` where it is not.
///
/// Costs next to nothing, unlike the course of [`setting`].
#[must_use]
pub fn too_thick(recipe: &Recipe, analysis: &Analysis) -> Option<(Minutes, Minutes)> {
    let setting = recipe.setting?;
    let (body, contents) = piece_of(&setting, &analysis.make_up.bowl).ok()?;
    let growth = growth(recipe, analysis, start_of(&setting, analysis.seeding.as_ref()), body.end()).ok()?;
    let fat = analysis.fat.as_ref().ok()?;
    let least = least_growth(&body, &contents, fat)?;
    is_too_thick(growth, least, fat.limits.form_v? - body.end()).then_some((growth, least))
}

impl SettingState {
    /// Its course unseeded, over the same time; `None` where no time is told.
    ///
    /// Computed when it is asked for first: where only the time is shown, nobody looks at it.
    #[must_use]
    pub fn unseeded(&self) -> Option<&Course> {
        let follow = || {
            let Unseeded { body, crystals, length, resolution } = self.as_unseeded.as_ref()?;
            balanced(run_with(body, self.start, crystals, *length, *resolution).ok()?).ok()
        };
        self.unseeded.get_or_init(follow).as_ref()
    }

    /// When it is as warm as its surroundings within a kelvin, in the middle; `None` if it is not in the time followed.
    #[must_use]
    pub fn cooled(&self) -> Option<Minutes> {
        const NEARLY: Kelvin = Kelvin(1.0);
        let first = self.course.moments.first()?;
        let target = if first.mean > self.course.end { self.course.end + NEARLY } else { self.course.end - NEARLY };
        // It may warm up again by its own crystals: the last time counts.
        let is_off = |moment: &&super::cooling::body::Moment| (moment.centre - self.course.end).0.abs() > NEARLY.0;
        match self.course.moments.iter().rposition(|moment| is_off(&moment)) {
            None => Some(Minutes::ZERO),
            Some(last) => {
                let [before, after] = [self.course.moments.get(last)?, self.course.moments.get(last + 1)?];
                let share = (target - before.centre).0 / (after.centre - before.centre).0;
                Some(before.time + (after.time - before.time) * share.clamp(0.0, 1.0))
            }
        }
    }

    /// Whether it begins as it is made: said, or poured as a mass is. A caramel is poured far hotter than any other.
    #[must_use]
    pub fn begins_as_made(&self) -> bool {
        self.setting.start.is_some() || self.set != Err(NoTime::SetsBySugar)
    }

    /// Whether [`UNSEEDED`] is told beside its time: chocolate is hardly ever left to set unseeded, and of a piece so thick that
    /// it cools for half a day even when it is seeded the habit says nothing; unseeded it takes no less.
    #[must_use]
    pub fn has_unseeded_times(&self) -> bool {
        self.set.is_ok_and(|set| set.typical() < UNSEEDED.0) && self.system != System::Chocolate
    }

    /// Whether it is warmed by what surrounds it: it begins colder.
    #[must_use]
    pub fn warms(&self) -> bool {
        self.start < self.course.end
    }
}

/// A course that has kept its heat.
fn balanced(course: Course) -> Result<Course, NoSetting> {
    // What is no number is no balance.
    if course.energy_error <= MOST_LOST { Ok(course) } else { Err(NoSetting::LostHeat { error: course.energy_error }) }
}

/// As what a mass sets: by its fat in droplets, or by fat all through with much or little cocoa butter.
#[must_use]
pub fn system_of(recipe: &Recipe, analysis: &Analysis) -> System {
    let is_poor = || {
        let fat = analysis.fat.as_ref().ok();
        fat.is_some_and(|fat| super::is_below(fat.blended.cocoa_butter_share().0, LEAST_OF_CHOCOLATE.0))
    };
    if analysis.emulsion.is_watery(&analysis.make_up.bowl) {
        System::Ganache
    } else if recipe.kind == Kind::Praline || is_poor() {
        System::NutPraline
    } else {
        System::Chocolate
    }
}

/// The time in which the seeded crystals of a recipe grow where it is as cold as its surroundings, or why none is told;
/// `None` where the recipe does not say how it is set.
///
/// Costs next to nothing, unlike the course of [`setting`].
#[must_use]
pub fn time_of_growth(recipe: &Recipe, analysis: &Analysis) -> Option<Result<Minutes, NoTime>> {
    let setting = recipe.setting?;
    let start = start_of(&setting, analysis.seeding.as_ref());
    Some(growth(recipe, analysis, start, setting.surroundings.celsius()))
}

/// From this temperature on the crystals of the seed melt: the form V limit of the mass, or of its chocolate where fat in
/// globules has not met it yet, whichever is higher. `None` where it is not to be seeded.
#[must_use]
pub fn crystals_melt_from(analysis: &Analysis) -> Option<Celsius> {
    analysis.seeding.as_ref()?;
    let fat = analysis.fat.as_ref().ok()?;
    let limit = fat.limits.form_v?;
    let unmixed = fat.unmixed.as_ref().and_then(|phase| phase.melting_limit(Form::V));
    Some(unmixed.map_or(limit, |unmixed| if unmixed > limit { unmixed } else { limit }))
}

/// How warm it is when it begins to cool: as said, else as seeding recommends, else as a mass is poured.
fn start_of(setting: &Setting, seeding: Option<&Seeding>) -> Celsius {
    /// Common practice for what is not seeded, no published source.
    const POURED: Celsius = Celsius(32.0);
    let recommended = seeding.map_or(POURED, |seeding| seeding.window.recommended);
    setting.start.map_or(recommended, crate::recipe::PlaceTemperature::celsius)
}

/// The crystals with which it begins, as a share of its fat: those that the chosen seed leaves, of tempered chocolate that is
/// kept so those that live at the start.
///
/// Most crystals of chopped chocolate sit in its pieces; those that come off make it tempered chocolate, and no more.
///
/// # Errors
///
/// [`NoCrystals`] where there are none, and where it is not known how many.
pub fn crystals_begun(analysis: &Analysis, start: Celsius) -> Result<MassFraction, NoCrystals> {
    let (Ok(fat), Ok(plan)) = (&analysis.fat, &analysis.plan) else { return Err(NoCrystals::NotSeeded) };
    if plan.choice.way == SeedingWay::KeepTempered {
        let kept = super::plan::kept(fat, start).ok_or(NoCrystals::NotSeeded)?.crystals;
        // As it sets the fats mix, and what is too much for the blend melts.
        let most = fat.blended.solid_fat(start).total();
        let left = if kept < most { kept } else { most };
        return if left.0 > 0.0 { Ok(left) } else { Err(NoCrystals::Melt) };
    }
    let seed = plan.seed.as_ref().ok_or(NoCrystals::NotKnown)?;
    if seed.cocoa_butter == Some(MassFraction::ZERO) {
        return Err(NoCrystals::NoneInSeed);
    }
    let left = match &seed.after {
        _ if seed.is_melted => return Err(NoCrystals::Melt),
        None => return Err(NoCrystals::NotKnown),
        Some(after) => after.crystals,
    };
    if left.0 <= 0.0 {
        return Err(NoCrystals::Melt);
    }
    let tempered = MassFraction(TEMPERED.0 * fat.blended.cocoa_butter_share().0);
    Ok(if seed.way == SeedingWay::ChoppedChocolate && left > tempered { tempered } else { left })
}

/// The time in which crystals grow at these surroundings, or why there is none.
fn growth(recipe: &Recipe, analysis: &Analysis, start: Celsius, surroundings: Celsius) -> Result<Minutes, NoTime> {
    use super::cooling::growth::MOST_SUPERCOOLING;
    if recipe.is_only_seed() {
        return Err(NoTime::OnlySeed);
    }
    if recipe.kind == Kind::Caramel {
        return Err(NoTime::SetsBySugar);
    }
    let fat = analysis.fat.as_ref().map_err(|_| NoCrystals::NotSeeded)?;
    let limit = fat.limits.form_v.ok_or(NoCrystals::NotSeeded)?;
    let crystals = crystals_begun(analysis, start)?;
    let is_melted = crystals_melt_from(analysis).is_some_and(|melted| !super::is_below(start.0, melted.0));
    if is_melted {
        return Err(NoCrystals::Melt.into());
    }
    growth_time(system_of(recipe, analysis), crystals, limit, surroundings).ok_or_else(|| {
        let (most, least) = (limit - LEAST_SUPERCOOLING, limit - MOST_SUPERCOOLING);
        if surroundings >= most {
            NoTime::TooWarm { around: surroundings, most }
        } else {
            NoTime::TooCold { around: surroundings, least }
        }
    })
}

/// The share of the crystals that there can be at the start that there are; these as the course sees them, straight between
/// nodes.
fn share_begun(nodes: &[(Celsius, Solid)], begun: MassFraction, start: Celsius) -> MassFraction {
    let most = nodes.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&start)).map_or(0.0, |pair| {
        let [(colder, more), (warmer, less)] = [pair[0], pair[1]];
        more.share.0 + (less.share.0 - more.share.0) * ((start - colder).0 / (warmer - colder).0)
    });
    MassFraction(if most > 0.0 { (begun.0 / most).min(1.0) } else { 0.0 })
}

/// The heat that the crystals at equilibrium have given off, by mass of the whole.
fn heat_of_crystals(contents: &Contents, curve: &BlendCurve, at: Celsius) -> JoulesPerGram {
    let share = |kind: Fat| {
        let substance = match kind {
            Fat::CocoaButter => Substance::CocoaButter,
            Fat::MilkFat => Substance::MilkFat,
            Fat::OtherFat => Substance::OtherFat,
        };
        contents.grams(substance) / contents.total()
    };
    let solids = curve.solids(at);
    let heat = |kind: Fat| share(kind).0 * solids[kind as usize].0 * kind.heat_of_fusion().0;
    JoulesPerGram(Fat::ALL.into_iter().map(heat).sum())
}

/// The crystals at equilibrium, from cold to warm: their share of the fat, and the heat that they have given off.
fn nodes(contents: &Contents, fat: &FatCrystals) -> Vec<(Celsius, Solid)> {
    let steps = (f64::from(super::fat_crystals::CURVE_END) / NODE_DISTANCE.0).round();
    let curve = BlendCurve::new(Some(fat.blended.clone()));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "ninety steps")]
    let steps = steps as u32;
    let mut nodes: Vec<(Celsius, Solid)> = (0..=steps)
        .map(|step| Celsius(f64::from(step) * NODE_DISTANCE.0))
        .map(|at| {
            (at, Solid { heat: heat_of_crystals(contents, &curve, at), share: fat.blended.solid_fat(at).total() })
        })
        .collect();
    // Both fall with the temperature but for the noise of solving: from the warm end each is at least the one before it.
    for place in (1..nodes.len()).rev() {
        let warmer = nodes[place].1;
        let colder = &mut nodes[place - 1].1;
        colder.heat = colder.heat.max(warmer.heat);
        colder.share = colder.share.max(warmer.share);
    }
    nodes
}
