//! The seeding plan: from the pot to the deposit, as steps that another person can follow.
//!
//! [`plan`] puts together what the models say (limits, doses, heat balance, time of cooling) with the temperatures of the
//! trade. It gives data: [`PlanStep`]s with what to look at and what to do when something is off; the words are in
//! `report::words`.
//!
//! * [`seed`]: what is put in by each way, and what becomes of it.
//! * [`step`]: the steps.
//! * [`need`]: what a day takes of seed.
//! * [`rescue`]: how a test strip is read, and what helps a split emulsion.
//!
//! It does not know the kitchen: times of cooling are those of a stirred bowl in a room of 20 °C, good to a factor of 1.5.

mod material;
pub mod need;
pub mod rescue;
pub mod seed;
pub mod step;
mod steps;

use super::cooling::bowl::{STANDING_M2, STILL_AIR, surface_m2};
use super::cooling::estimate::{lumped_constant, time_to};
use super::emulsion::EmulsionState;
use super::fat::{FatPhase, Form};
use super::fat_crystals::{FatCrystals, Limits, NoFatCrystals};
use super::heat::{Contents, SugarState};
use super::mixing::MixingState;
use super::parts::{Group, Parts};
use super::seeding::{Seeding, WINDOW_TOP, Window};
use super::setting::SettingState;
use super::setting::workable::TOO_THICK;
use super::survival::{Fate, fate};
use super::time_band::TimeBand;
use super::{Analysis, ROOM};
use crate::ingredient::{Category, Component};
use crate::recipe::{Kind, Line, Recipe, SeedingChoice, SeedingWay, Use};
use crate::units::{Celsius, Grams, Kelvin, MassFraction, Minutes};
use seed::{Seed, WithSeed};
use step::{COOLING_BAND, PlanStep, StepKind, StepTemperature};

/// Dark chocolate is melted out here (common practice, no published source).
pub const MELT_OUT_DARK: (Celsius, Celsius) = (Celsius(45.0), Celsius(50.0));
/// Milk and white chocolate: their milk solids bear less (common practice, no published source).
pub const MELT_OUT_MILK: (Celsius, Celsius) = (Celsius(40.0), Celsius(45.0));
/// An emulsion is made here: cocoa butter has to be melted (common practice; a published table of 2011 says 32 to 43 °C).
pub const EMULSIFY: (Celsius, Celsius) = (Celsius(35.0), Celsius(45.0));
/// Less than this above the room a bowl hardly cools any more (judged).
const LEAST_ABOVE_ROOM: Kelvin = Kelvin(1.0);
/// Seed is even after this (common practice, no published source).
pub const BLEND_MINUTES: (Minutes, Minutes) = (Minutes(2.0), Minutes(3.0));
/// Plain chocolate sets here (common practice, no published source).
pub const SET_CHOCOLATE: (Celsius, Celsius) = (Celsius(12.0), Celsius(15.0));
/// Fillings set here (common practice, no published source).
pub const SET_FILLING: (Celsius, Celsius) = (Celsius(15.0), Celsius(18.0));
/// How far below the form V limit the crystals of tempered chocolate are told.
pub const KEPT_BELOW_LIMIT: [Kelvin; 6] = [Kelvin(3.0), Kelvin(2.0), Kelvin(1.0), Kelvin(0.5), WINDOW_TOP, Kelvin(0.1)];

/// The mass that is to be seeded: without the seed that stands in the sheet.
#[derive(Clone, Copy, Debug)]
pub struct ToSeed<'a> {
    /// The recipe as it stands, with what was chosen.
    pub recipe: &'a Recipe,
    /// What the mass is made of.
    pub bowl: &'a Parts,
    /// Whether it is an emulsion.
    pub emulsion: EmulsionState,
    /// How its fat sets.
    pub fat: &'a FatCrystals,
    /// Windows and doses.
    pub seeding: &'a Seeding,
}

/// A plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What was chosen.
    pub choice: SeedingChoice,
    /// What sort of chocolate decides how it is melted.
    pub chocolate: Chocolate,
    /// What is seeded.
    pub bowl: Grams,
    /// Whether there is water to emulsify.
    pub is_emulsion: bool,
    /// Whether it is a base that is whipped, and stays cold until then.
    pub is_whipped: bool,
    /// The cautious window: all fats mixed.
    pub window: Window,
    /// While globules are whole.
    pub fresh: Option<Window>,
    /// Where the forms melt in the mass.
    pub limits: Limits,
    /// Where the lines end with the temperatures of the sheet, where it says them.
    pub mix_end: Option<Celsius>,
    /// How the mix is warmed, where it ends too cold.
    pub warm_up: Option<WarmUp>,
    /// Whether a liquid of the sheet is so hot that it melts the chocolate over which it is poured.
    pub has_hot_liquid: bool,
    /// How warm it is when it begins to cool.
    pub start: Celsius,
    /// What is put in; `None` where tempered chocolate keeps its own crystals.
    pub seed: Option<Seed>,
    /// What tempered chocolate keeps, where that is the way.
    pub kept: Option<Kept>,
    /// The crystals that it keeps in the middle of the window, where they make it too thick to work.
    pub too_thick: Option<MassFraction>,
    /// What to do, in its order.
    pub steps: Vec<PlanStep>,
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPlan {
    /// Nothing is known of the fat.
    Fat(NoFatCrystals),
    /// Cocoa butter is too small a share of the fat.
    TooDiluted {
        /// Its share.
        cocoa_butter_in_fat: MassFraction,
    },
    /// There is no form V limit.
    NoLimit,
    /// A caramel is cooked and becomes firm by its sugar.
    SetsBySugar,
    /// Nothing but seed stands in the sheet.
    OnlySeed,
}

/// What sort of chocolate decides how it is melted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chocolate {
    /// No milk comes with the cocoa butter.
    Dark,
    /// Milk solids or milk fat come with it.
    MilkOrWhite,
}

impl Chocolate {
    /// Where it is melted out.
    #[must_use]
    pub fn melt_out(self) -> (Celsius, Celsius) {
        match self {
            Self::Dark => MELT_OUT_DARK,
            Self::MilkOrWhite => MELT_OUT_MILK,
        }
    }
}

/// How a mix that ends too cold is warmed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmUp {
    /// To which temperature.
    pub to: StepTemperature,
    /// Why.
    pub why: TooCold,
}

/// Why a mix is warmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooCold {
    /// It ends below the window, and no crystals of the wrong form grow there.
    BelowWindow,
    /// It ends where crystals of the wrong form grow: they have to melt.
    WrongForm,
    /// It ends colder than it has to be for cold pieces of chocolate.
    ForPieces,
}

/// What tempered chocolate keeps of its crystals when it is warmed.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Where the last of its crystals melts: the limit of the fat outside globules.
    pub limit: Celsius,
    /// Where it is warmed to at most: the upper end of the window of that fat.
    pub warmest: Celsius,
    /// The temperature of the thermometer.
    pub at: Celsius,
    /// Crystals of form V left there, as a share of all fat.
    pub crystals: MassFraction,
    /// How far that is below the limit; negative above.
    pub to_limit: Kelvin,
    /// Crystals left at temperatures below the limit, coldest first.
    pub table: Vec<(Celsius, MassFraction)>,
}

impl ToSeed<'_> {
    /// Fat of the mass.
    pub(super) fn fat_share(&self) -> MassFraction {
        self.bowl.group_share(Group::TotalFat).unwrap_or_default()
    }
}

/// The plan of a recipe.
///
/// # Errors
///
/// [`NoPlan`] where the mass cannot be seeded.
pub(super) fn plan_of(
    recipe: &Recipe,
    bowl: &Parts,
    emulsion: EmulsionState,
    fat: &Result<FatCrystals, NoFatCrystals>,
    seeding: Option<&Seeding>,
    mix: Option<&MixingState>,
) -> Result<Plan, NoPlan> {
    if recipe.is_only_seed() {
        return Err(NoPlan::OnlySeed);
    }
    if recipe.kind == Kind::Caramel {
        return Err(NoPlan::SetsBySugar);
    }
    let fat = fat.as_ref().map_err(|why| NoPlan::Fat(*why))?;
    let Some(seeding) = seeding else {
        let cocoa_butter_in_fat = fat.blended.cocoa_butter_share();
        let has_no_limit = fat.limits.form_v.is_none() && fat.blended.has_enough_for_limits();
        return Err(if has_no_limit { NoPlan::NoLimit } else { NoPlan::TooDiluted { cocoa_butter_in_fat } });
    };
    Ok(plan(&ToSeed { recipe, bowl, emulsion, fat, seeding }, mix))
}

/// The plan of a mass that can be seeded.
///
/// Temperatures of melting, emulsifying and setting are those of the trade; window, dose and survival follow from the mass;
/// the time of cooling is that of a stirred bowl: t = τ·ln((start − room)/(target − room)), τ = m·c/(h·A), with
/// h and A of `cooling::bowl`.
///
/// Sources: [`seed::seed`], `cooling::estimate`; the rest is common practice, no published source.
#[must_use]
pub fn plan(of: &ToSeed<'_>, mix: Option<&MixingState>) -> Plan {
    let mix_end = mix.map(|mix| mix.end);
    let choice = of.recipe.seeding;
    let chocolate = chocolate(of.recipe);
    let is_emulsion = of.emulsion.is_watery(of.bowl);
    let seed = seed::seed(of, choice.way, chocolate.melt_out());
    let kept = (choice.way == SeedingWay::KeepTempered).then(|| kept(of.fat, of.fat.at)).flatten();
    let too_thick = kept.as_ref().and_then(|_| self::kept(of.fat, of.seeding.window.recommended));
    // No more than came in: liquid tempered chocolate has few.
    let came_in = mix.map(|mix| mix.all_crystals().1 / of.fat.grams.total());
    let too_thick = too_thick.map(|kept| came_in.map_or(kept.crystals, |came_in| came_in.min(kept.crystals)));
    let too_thick = too_thick.filter(|crystals| !super::is_below(crystals.0, TOO_THICK.0));
    let made_at = if is_emulsion { EMULSIFY } else { chocolate.melt_out() };
    let warm_up = mix_end.and_then(|end| warm_up(of, seed.as_ref(), made_at, end));
    let middle = |(from, to): (Celsius, Celsius)| Celsius(f64::midpoint(from.0, to.0));
    let start = match &warm_up {
        Some(WarmUp { to, .. }) => to.best.unwrap_or_else(|| middle((to.from, to.to))),
        None => mix_end.unwrap_or_else(|| middle(made_at)),
    };
    let mut plan = Plan {
        choice,
        chocolate,
        bowl: of.seeding.bowl,
        is_emulsion,
        is_whipped: of.recipe.intended_use == Some(Use::Whipped),
        window: of.seeding.window,
        fresh: of.seeding.second_window(),
        limits: of.seeding.limits,
        mix_end,
        warm_up,
        has_hot_liquid: lines(of.recipe).any(is_hot_liquid),
        start,
        seed,
        kept,
        too_thick,
        steps: Vec::new(),
    };
    plan.steps = steps::steps(of, &plan);
    plan
}

/// How a mix that ends at a temperature is warmed; `None` where it is warm enough, and where it keeps its own crystals.
///
/// Cold pieces need a mass that is warmer than it ends with them. Below the form IV limit crystals of the wrong form grow, and
/// only melting gets rid of them. Common practice, no published source.
fn warm_up(of: &ToSeed<'_>, seed: Option<&Seed>, made_at: (Celsius, Celsius), end: Celsius) -> Option<WarmUp> {
    let seed = seed?;
    let window = of.seeding.window;
    if seed.way == SeedingWay::ChoppedChocolate
        && let Some(put_in) = seed.put_in
    {
        let is_cold = super::is_below(end.0, put_in.min.0);
        return is_cold.then(|| WarmUp { to: steps::within(put_in), why: TooCold::ForPieces });
    }
    match fate(&of.seeding.limits, &window, end)? {
        Fate::WrongForm => Some(WarmUp { to: steps::range(made_at), why: TooCold::WrongForm }),
        Fate::Cold => Some(WarmUp { to: steps::within(window), why: TooCold::BelowWindow }),
        Fate::Melts | Fate::OnlyAnnealed | Fate::Edge | Fate::Lives => None,
    }
}

/// Whether a line goes in so hot that it melts chocolate: hotter than an emulsion is made, and without cocoa butter of its own.
fn is_hot_liquid(line: &Line) -> bool {
    let has_none = line.ingredient.composition.share(Component::CocoaButter) == Some(MassFraction::ZERO);
    has_none && line.temperature.is_some_and(|at| at.celsius() > EMULSIFY.1)
}

/// What a day's plan may be asked for beside the chosen way: the seed of every way that needs some.
#[must_use]
pub fn all_ways(of: &ToSeed<'_>) -> Vec<Seed> {
    let melt_out = chocolate(of.recipe).melt_out();
    SeedingWay::ALL.into_iter().filter_map(|way| seed::seed(of, way, melt_out)).collect()
}

/// Milk or white where milk comes in a line with cocoa butter, or might: they are melted more gently.
fn chocolate(recipe: &Recipe) -> Chocolate {
    const MILK: [Component; 3] = [Component::MilkFat, Component::MilkProtein, Component::Lactose];
    let has = |line: &Line, component| line.ingredient.composition.share(component) != Some(MassFraction::ZERO);
    let is_milky = lines(recipe)
        .filter(|line| has(line, Component::CocoaButter))
        .any(|line| MILK.into_iter().any(|component| has(line, component)));
    if is_milky { Chocolate::MilkOrWhite } else { Chocolate::Dark }
}

/// The lines that weigh something and are no seed.
fn lines(recipe: &Recipe) -> impl Iterator<Item = &Line> {
    recipe.lines.iter().filter(|line| !line.is_seed && line.amount.grams().0 > 0.0)
}

/// The line of chocolate of which there is most.
fn chocolate_line(recipe: &Recipe) -> Option<&Line> {
    let is_chocolate = |line: &&Line| matches!(line.ingredient.category, Category::Couverture | Category::Gianduja);
    lines(recipe).filter(is_chocolate).max_by(|one, other| one.amount.grams().0.total_cmp(&other.amount.grams().0))
}

/// What tempered chocolate keeps at a temperature; `None` without a form V limit.
///
/// The form V of the fat model, of the fat outside globules where there is such a phase: that is the chocolate's own. Common
/// practice, no published source: tempered chocolate keeps its crystals up to about 33.5 °C. They are told as a share of all fat.
#[must_use]
pub fn kept(fat: &FatCrystals, at: Celsius) -> Option<Kept> {
    let phase: &FatPhase = fat.unmixed.as_ref().unwrap_or(&fat.blended);
    let limit = phase.melting_limit(Form::V)?;
    // Of all fat, as everywhere.
    let crystals = |at| MassFraction(phase.solid_fat(at).form_v.0 * fat.unmixed_share.0);
    Some(Kept {
        limit,
        warmest: Window::below(limit).max,
        at,
        crystals: crystals(at),
        to_limit: limit - at,
        table: KEPT_BELOW_LIMIT.map(|below| (limit - below, crystals(limit - below))).to_vec(),
    })
}

/// How long a stirred bowl takes to cool in the room; `None` where it does not come down to the target, or its specific heat is
/// not known.
#[must_use]
pub fn cooling_time(bowl: &Parts, start: Celsius, target: Celsius) -> Option<TimeBand> {
    const GRAMS: f64 = 1000.0;
    if (target - ROOM).0 < LEAST_ABOVE_ROOM.0 {
        return None;
    }
    let contents = Contents::from_parts(bowl, SugarState::usual(bowl)?).ok()?;
    let middle = Celsius(f64::midpoint(start.0, target.0));
    let kilograms = bowl.total().0 / GRAMS;
    let surface = surface_m2(STANDING_M2, bowl.total());
    let constant = lumped_constant(kilograms, contents.specific_heat(middle).0 * GRAMS, STILL_AIR, surface)?;
    time_to(constant, start, target, ROOM).map(|likely| TimeBand::within_factor(likely, COOLING_BAND))
}

impl Plan {
    /// With how long it takes to set, and in which air, where that was computed: it costs too much to be part of every analysis.
    #[must_use]
    pub fn with_setting(mut self, setting: Option<&SettingState>) -> Self {
        let Some(state) = setting else { return self };
        for step in self.steps.iter_mut().filter(|step| step.kind == StepKind::Set) {
            step.temperature =
                Some(steps::range((state.setting.surroundings.celsius(), state.setting.surroundings.celsius())));
            step.minutes = state.set.ok();
            step.air = Some(state.setting.air);
            step.no_time = state.set.err();
        }
        self
    }

    /// The share of mass and seed together that is seed; `None` where it is not known how much goes in.
    #[must_use]
    pub fn share_of_whole(&self, seed: &Seed) -> Option<MassFraction> {
        let grams = seed.grams?;
        let whole = self.bowl + grams;
        Some(if whole.0 > 0.0 { grams / whole } else { MassFraction::ZERO })
    }

    /// The window in which it is worked once the seed is in.
    #[must_use]
    pub fn worked(&self) -> Window {
        self.with_seed().map_or(self.window, |with| with.window)
    }

    /// The window in which the temperature is checked: pieces of chocolate are in by then, cocoa butter goes in after it.
    #[must_use]
    pub fn checked(&self) -> Window {
        if self.choice.way == SeedingWay::ChoppedChocolate { self.worked() } else { self.window }
    }

    /// Limits and window once the seed is in, where they are others than before.
    #[must_use]
    pub fn with_seed(&self) -> Option<WithSeed> {
        self.seed.as_ref().and_then(|seed| seed.with_it)
    }

    /// The step of a kind; of several the first.
    #[must_use]
    pub fn step(&self, kind: StepKind) -> Option<&PlanStep> {
        self.steps.iter().find(|step| step.kind == kind)
    }
}

impl Analysis {
    /// The seed of every way that needs some, for a recipe; empty where it cannot be seeded.
    ///
    /// Beside the plan because it is looked at only now and then.
    #[must_use]
    pub fn seed_by_way(&self, recipe: &Recipe) -> Vec<Seed> {
        let unseeded = super::unseeded(recipe, self.at);
        let (bowl, emulsion, fat) = match &unseeded {
            Some(unseeded) => (&unseeded.make_up.bowl, unseeded.emulsion, &unseeded.fat),
            None => (&self.make_up.bowl, self.emulsion, &self.fat),
        };
        let (Ok(fat), Some(seeding)) = (fat, &self.seeding) else { return Vec::new() };
        all_ways(&ToSeed { recipe, bowl, emulsion, fat, seeding })
    }
}
