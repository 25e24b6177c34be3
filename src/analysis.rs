//! What the program computes about a recipe. One model a file; this file puts them together.
//!
//! [`analyse`] always answers: what cannot be computed is `None` or a reason, and a [`Finding`] names what is missing.
//! Nothing here knows files, clocks or windows; the same recipe gives the same numbers everywhere.
//!
//! * [`parts`]: grams of every component and group, with unknown kept unknown.
//! * [`make_up`]: the lines added up, losses taken off; [`cooking`]: how much water evaporates.
//! * [`energy`]: kJ and kcal for labelling; [`sweetness`]: how sweet it is beside sucrose.
//! * [`syrup`]: water with what is dissolved in it, hot; [`emulsion`]: phase volumes, and how crowded they are.
//! * [`water`]: water activity, what holds the water, sugar in and out of solution, boiling.
//! * [`fat`]: the flash of the fat phase; [`fat_crystals`]: the curve and the limits of a recipe.
//! * [`cooling`] and [`setting`]: how it cools and sets; [`heat`]: what heat is in it.
//! * [`seeding`]: window and dose; [`survival`]: what becomes of seed; [`texture`]: what solid fat means for firmness, shrinking and wet surfaces.
//! * [`heat`]: what a mass holds and how parts mix; [`mixing`]: at which temperature the lines of a recipe end.
//! * [`migration`]: oil between a filling and its shell.
//! * [`plan`]: the steps from the pot to the deposit, the seed of each way, the need of a day, proof and rescue.
//! * [`handling`]: where the trade works such a mass.
//! * [`usual`]: what is usual by use; [`remedy`] and [`exchange`]: what would bring a figure to a bound.
//! * [`phase_bar`]: the mass as one bar at a temperature.
//! * [`finding`]: what all of it has to say; [`reading`]: the groups in which it is shown.

pub mod cooking;
pub mod cooling;
pub mod emulsion;
pub mod energy;
pub mod exchange;
pub mod fat;
pub mod fat_crystals;
pub mod finding;
pub mod findings;
pub mod flow;
pub mod handling;
pub mod heat;
pub mod make_up;
pub mod migration;
#[cfg(test)]
mod mixer;
pub mod mixing;
pub mod parts;
pub mod phase_bar;
pub mod plan;
pub mod reading;
pub mod remedy;
mod root;
pub mod seeding;
pub mod setting;
pub mod survival;
pub mod sweetness;
pub mod syrup;
pub mod texture;
pub mod time_band;
pub mod usual;
pub mod water;

use emulsion::EmulsionState;
use energy::Energy;
use fat_crystals::{FatCrystals, NoFatCrystals};
use finding::Finding;
use make_up::MakeUp;
use mixing::{MixingState, NoMixing};
use parts::Group;
use phase_bar::PhaseBar;
use plan::{NoPlan, Plan};
use seeding::Seeding;
use sweetness::Sweetness;
use usual::UsualRange;
use water::state::WaterState;

use crate::recipe::{Kind, LineId, Recipe};
use crate::source::Evidence;
use crate::units::Celsius;

/// The temperature at which results are shown unless another is asked for.
pub use crate::recipe::ROOM;

/// Slack against binary noise where a figure is compared with a limit, relative to the limit.
///
/// Sums of doubles end a hair beside what they mean: 3.33 g of water in 166.5 g are 2 %, and not less. Far below
/// everything that can be weighed.
const NOISE: f64 = 1e-9;

/// Whether a figure lies below a limit by more than binary noise.
pub(crate) fn is_below(figure: f64, limit: f64) -> bool {
    figure < limit - NOISE * limit.abs()
}

/// Whether a figure lies above a limit by more than binary noise.
pub(crate) fn is_above(figure: f64, limit: f64) -> bool {
    figure > limit + NOISE * limit.abs()
}

/// Everything that is computed about a recipe at one temperature.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// The temperature at which temperature-dependent results are given.
    pub at: Celsius,
    /// What it is made of.
    pub make_up: MakeUp,
    /// The energy of 100 g for labelling; `None` where a figure of it is not known.
    pub energy: Option<Energy>,
    /// How sweet it is beside sucrose; `None` where a figure of it is not known.
    pub sweetness: Option<Sweetness>,
    /// Whether fat and water hold together.
    pub emulsion: EmulsionState,
    /// How active its water is.
    pub water: WaterState,
    /// How its fat sets, or why that is not known.
    pub fat: Result<FatCrystals, NoFatCrystals>,
    /// Where and with how much to seed; `None` where it cannot be seeded, as a caramel.
    pub seeding: Option<Seeding>,
    /// How to seed it step by step, or why there is no plan.
    pub plan: Result<Plan, NoPlan>,
    /// At which temperature its lines end when they are mixed, or why that is not known; `None` where no line has a
    /// temperature.
    pub mixing: Option<Result<MixingState, NoMixing>>,
    /// The mass as one bar; `None` where a figure of it is not known.
    pub phase_bar: Option<PhaseBar>,
    /// What is usual for the use; empty where nothing is.
    pub usual: Vec<UsualRange>,
    /// What all of it has to say, most serious first.
    pub findings: Vec<Finding>,
    /// The lines of which the figures are typical of a class, not those of the supplier.
    pub class_values: Vec<LineId>,
}

/// Everything that is computed about a recipe, with temperature-dependent results at `at`.
#[must_use]
pub fn analyse(recipe: &Recipe, at: Celsius) -> Analysis {
    let make_up = make_up::make_up(recipe);
    let energy = energy::energy(&make_up.bowl);
    let sweetness = sweetness::sweetness(&make_up.bowl);
    let emulsion = emulsion::emulsion(&make_up.bowl);
    let water = water::state::water_state(recipe, &make_up, emulsion);
    let fat = fat_crystals::fat_crystals(recipe, &make_up, emulsion, at);
    let unseeded = unseeded(recipe, at);
    let (to_seed, of_emulsion, of_fat) = match &unseeded {
        Some(unseeded) => (&unseeded.make_up.bowl, unseeded.emulsion, &unseeded.fat),
        None => (&make_up.bowl, emulsion, &fat),
    };
    let fat_share = to_seed.group_share(Group::TotalFat);
    let seeding = of_fat
        .as_ref()
        .ok()
        .zip(fat_share)
        // It becomes firm by its sugar.
        .filter(|_| recipe.kind != Kind::Caramel)
        .and_then(|(fat, fat_share)| seeding::seeding(fat, fat_share, to_seed.total(), recipe.intended_use));
    // Seed goes in when the mix has cooled.
    let (mixed, of_lines) = unseeded.as_ref().map_or((recipe, &make_up), |it| (&it.recipe, &it.make_up));
    let mixing = mixing::mixing(mixed, of_lines, of_fat, seeding.as_ref());
    let mix = mixing.as_ref().and_then(|mixing| mixing.as_ref().ok());
    let plan = plan::plan_of(recipe, to_seed, of_emulsion, of_fat, seeding.as_ref(), mix);
    let usual = usual::usual_ranges(recipe);
    let phase_bar = phase_bar::phase_bar(&make_up.bowl, fat.as_ref().ok(), at);
    let class_values = recipe
        .lines
        .iter()
        .filter(|line| line.amount.grams().0 > 0.0 && line.ingredient.evidence == Evidence::Typical)
        .map(|line| line.id)
        .collect();
    let findings = Vec::new();
    let mut analysis = Analysis {
        at,
        make_up,
        energy,
        sweetness,
        emulsion,
        water,
        fat,
        seeding,
        plan,
        mixing,
        phase_bar,
        usual,
        findings,
        class_values,
    };
    analysis.findings = findings::findings(recipe, &analysis);
    analysis
}

/// The mass that is seeded, where seed stands in the sheet: dose and window must not depend on whether it does.
struct Unseeded {
    recipe: Recipe,
    make_up: MakeUp,
    emulsion: EmulsionState,
    fat: Result<FatCrystals, NoFatCrystals>,
}

/// The recipe without the seed that stands in the sheet; `None` where none does.
fn unseeded(recipe: &Recipe, at: Celsius) -> Option<Unseeded> {
    let recipe = recipe.without_seed()?;
    let make_up = make_up::make_up(&recipe);
    let emulsion = emulsion::emulsion(&make_up.bowl);
    let fat = fat_crystals::fat_crystals(&recipe, &make_up, emulsion, at);
    Some(Unseeded { recipe, make_up, emulsion, fat })
}
