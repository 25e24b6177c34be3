//! The numbers that stand in findings: each finding explains the figure that it is about.

use super::{composition, emulsion, fat, mixing, setting, sheet, texture, water};
use crate::analysis::fat::Form;
use crate::analysis::finding::{Finding, Subject};
use crate::analysis::parts::Group;
use crate::ingredient::Component;
use crate::number::DecimalSign;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

/// What the figure of a finding is; `None` for a finding without figures.
#[must_use]
pub fn finding(finding: &Finding, scene: &Scene<'_>, sign: DecimalSign) -> Option<Explanation> {
    let crystals = scene.analysis.fat.as_ref().ok();
    Some(match &finding.subject {
        Subject::EvaporationExceedsWater { .. } => sheet::evaporation(sign),
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
        Subject::SeedAt(_) | Subject::SeedLost { .. } => fat::put_in(scene, sign),
        Subject::SeedMelted { .. } | Subject::SeedWithoutCrystals { .. } => fat::seed_cream(),
        Subject::OwnDose { .. } => fat::seed_by_habit(scene, sign),
        Subject::TwoWindows { .. } => fat::unmixed_window(scene, sign),
        Subject::HabitAboveLimit { .. } | Subject::StartTooWarm { .. } => fat::limit(Form::V, crystals?, scene, sign),
        Subject::DoseClipped { habit, .. } => {
            if habit.is_some() {
                fat::seed_by_habit(scene, sign)
            } else {
                fat::seed_equal_time(scene, sign)
            }
        }
        Subject::MixingEnd(_) | Subject::MixingAlcohol => mixing::end(scene, sign),
        Subject::MixingMissed { .. } => mixing::wanted(sign),
        Subject::MixingAssumed { .. } => mixing::unsaid(sign),
        Subject::MixingCoolingSugars { .. } => mixing::dissolving(scene, sign),
        Subject::Alcohol { .. } => composition::component(Component::Ethanol, scene),
        Subject::Keeping(_) | Subject::WaterDry { .. } | Subject::WaterOutsideRange { .. } => {
            water::activity(scene, sign)
        }
        Subject::SucroseSaturated { .. } | Subject::MayGrain { .. } => water::sucrose_saturation(scene, sign),
        Subject::LactoseMayGrain { .. } => water::lactose_saturation(sign),
        Subject::SurroundingsTooWarm { .. } | Subject::SurroundingsTooCold { .. } => setting::surroundings(sign),
        Subject::StartTooCold { .. } => setting::start(sign),
        Subject::TooThick { .. } => setting::least_growth(scene, sign),
        Subject::StoredTooWarm { .. } => setting::store(sign),
        Subject::RoomTooWarm { .. } => setting::solid_in_store(scene),
        Subject::Crystals(_) => texture::firmness(scene, sign),
        Subject::GetsWet { .. } => setting::dew_point(sign),
        Subject::ShellMigration(_) => setting::liquid(scene),
        Subject::Polyols { .. } => composition::component(Component::Polyols, scene),
        Subject::EmptyRecipe
        | Subject::UnknownInput { .. }
        | Subject::EvaporationNotKnown
        | Subject::NotMixed(_)
        | Subject::NoFat
        | Subject::OnlySeed
        | Subject::NoLiquidFat
        | Subject::HotSugar
        | Subject::RawEgg { .. }
        | Subject::DextroseSupersaturated
        | Subject::WaterAssumed { .. }
        | Subject::Allergens { .. }
        | Subject::Choking { .. } => return None,
    })
}
