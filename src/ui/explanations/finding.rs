//! The numbers that stand in findings: each finding explains the figure that it is about.

use super::{HABIT_SOURCE, composition, emulsion, fat, inputs, sheet, shortest, water, with_sign, words};
use crate::analysis::cooling::growth::{LEAST_SUPERCOOLING, MOST_SUPERCOOLING};
use crate::analysis::fat::Form;
use crate::analysis::finding::{Finding, Subject};
use crate::analysis::migration::{BAND, TAKEN_UP};
use crate::analysis::parts::Group;
use crate::analysis::texture::WARMEST_STORE;
use crate::ingredient::Component;
use crate::number::DecimalSign;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

/// What the figure of a finding is; `None` for a finding without figures.
#[must_use]
pub fn finding(finding: &Finding, scene: &Scene<'_>, sign: DecimalSign) -> Option<Explanation> {
    let crystals = scene.analysis.fat.as_ref().ok();
    Some(match &finding.subject {
        Subject::EvaporationExceedsWater { .. } => sheet::evaporation(),
        Subject::EvaporationEstimated { heating, .. } => sheet::estimated_evaporation(*heating, sign),
        Subject::Cooked(_) => sheet::boiled_off(scene, sign),
        Subject::CannotBeCooked(_) => sheet::cook_temperature(scene, sign),
        Subject::AlcoholBoilsOff { .. } => sheet::alcohol_lost(),
        Subject::FatContinuous { .. } | Subject::Dry { .. } => composition::group(Group::Water, scene, sign),
        Subject::EmulsionHasRoom { .. } | Subject::EmulsionCrowded { .. } => emulsion::dispersed_share(scene, sign),
        Subject::FatToWater { .. } => emulsion::fat_to_water(scene, sign),
        Subject::OutsideUsual { range, .. } => emulsion::usual(range, scene, sign),
        Subject::NoLimit { .. }
        | Subject::NoFormV { .. }
        | Subject::NoSeeding { .. }
        | Subject::NoSeedingWithoutFormV
        | Subject::SolidFatOutsideRange { .. } => fat::share_of_fat("cocoa butter", scene),
        Subject::OtherFatKindEstimated { name, .. } => fat::share_of_fat(name, scene),
        Subject::SolidFatOutsideTemperature { .. } => fat::solid_fat(crystals?, scene, sign),
        Subject::SeedingWindow { .. } | Subject::WindowBelowEmulsionLimit { .. } => fat::window(scene, sign),
        Subject::TwoWindows { .. } => fat::unmixed_window(scene, sign),
        Subject::HabitAboveLimit { .. } | Subject::StartTooWarm { .. } => fat::limit(Form::V, crystals?, scene, sign),
        Subject::DoseClipped { habit, .. } => {
            if habit.is_some() {
                fat::seed_by_habit(scene, sign)
            } else {
                fat::seed_equal_time(scene, sign)
            }
        }
        Subject::Alcohol { .. } => composition::component(Component::Ethanol, scene),
        Subject::Keeping(_) | Subject::WaterDry { .. } | Subject::WaterOutsideRange { .. } => {
            water::activity(scene, sign)
        }
        Subject::SucroseSaturated { .. } | Subject::MayGrain { .. } => water::sucrose_saturation(scene, sign),
        Subject::LactoseMayGrain { .. } => water::lactose_saturation(sign),
        Subject::SurroundingsTooWarm { .. } | Subject::SurroundingsTooCold { .. } => surroundings(sign),
        Subject::StoredTooWarm { .. } => store(sign),
        Subject::GetsWet { .. } => dew_point(sign),
        Subject::ShellMigration(_) => migration(scene, sign),
        Subject::Polyols { .. } => composition::component(Component::Polyols, scene),
        Subject::EmptyRecipe
        | Subject::UnknownInput { .. }
        | Subject::EvaporationNotKnown
        | Subject::NoFat
        | Subject::NoLiquidFat
        | Subject::HotSugar
        | Subject::RawEgg { .. }
        | Subject::DextroseSupersaturated
        | Subject::WaterAssumed { .. }
        | Subject::Allergens { .. }
        | Subject::Choking { .. } => return None,
    })
}

/// Between which surroundings a setting time is told.
fn surroundings(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("surroundings in which it sets"),
        what: words(
            "Near to the form V limit crystals hardly grow; far below it unstable forms grow beside them, and the piece turns \
             dull. Between the two the setting time is told.",
        ),
        formula: words(format!(
            "From {} to {} K below the form V limit of the mass.",
            shortest(LEAST_SUPERCOOLING.0, 0, sign),
            shortest(MOST_SUPERCOOLING.0, 0, sign)
        )),
        range: words("For seeded masses that set by cocoa butter."),
        source: words("Judged, no published source; the form V limit by the model of this program for mixed fats."),
        evidence: words("The air as the recipe says."),
        uncertainty: words("A few kelvin: there is no sharp edge."),
    }
}

/// How warm chocolate is stored.
fn store(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("temperature of the store"),
        what: words(
            "How warm the finished pieces lie: the warmer, the more of their fat is liquid and the faster oil moves.",
        ),
        formula: words("As the recipe says."),
        range: words(format!("Chocolate is kept at {} °C or colder.", shortest(WARMEST_STORE.0, 0, sign))),
        source: words(HABIT_SOURCE),
        evidence: words("Typed in."),
        uncertainty: words("That of the thermometer in the store; its warmest day counts."),
    }
}

/// Where water condenses in a room.
fn dew_point(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("store and dew point"),
        what: words(
            "Pieces that come into a room colder than its dew point get wet: sugar dissolves and blooms. Let them warm up \
             closed.",
        ),
        formula: words("The dew point of the room by its temperature and humidity."),
        range: words("From a deep freezer to a hot room."),
        source: words("Magnus formula with the constants of the WMO guide to instruments, from memory."),
        evidence: words("Store, room and humidity as the recipe says."),
        uncertainty: with_sign("About 0.4 K; that of a hygrometer is larger.", sign),
    }
}

/// Oil between a filling and its shell.
fn migration(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("oil between filling and shell"),
        what: words(
            "By how many points more of the fat is liquid in the filling than in the shell. Liquid fat moves to where there is \
             less of it: the shell softens and blooms, the filling dries.",
        ),
        formula: with_sign(
            &format!(
                "Liquid shares by the equilibrium of the mixed fats at the temperature of the store, each for itself. Time: 0.197 × \
             thickness² ÷ diffusion. Softening: the solid fat of the shell with {} % of oil in its fat.",
                shortest(TAKEN_UP.to_percent(), 0, sign)
            ),
            sign,
        ),
        range: words("An indicator, no prediction of bloom: how well the shell was tempered counts as much."),
        source: words("Fick's law; the diffusion of oil in chocolate from memory. The bound of 20 points is judged."),
        evidence: words(inputs(scene)),
        uncertainty: words(format!("The time: {} times more or less.", shortest(BAND, 0, sign))),
    }
}
