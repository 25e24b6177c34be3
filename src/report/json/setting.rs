//! Setting and storage in the JSON report.

use serde::Serialize;

use crate::analysis::Analysis;
use crate::analysis::cooling::growth::System;
use crate::analysis::flow::flow;
use crate::analysis::migration::{self, migration_of};
use crate::analysis::setting::workable::workable;
use crate::analysis::setting::{NoSetting, SettingState, UNSEEDED};
use crate::analysis::texture::{
    contraction_of, crystals_in_room, dew_point_in_room, firmness, gets_wet, usual_crystals,
};
use crate::analysis::time_band::TimeBand;
use crate::number::DecimalSign;
use crate::recipe::{PlaceTemperature, Recipe};
use crate::report::words::{capital, no_setting, no_time, no_workable};
use crate::units::{Celsius, MassFraction, Minutes};

#[derive(Serialize)]
pub(super) struct Setting {
    minutes: Option<f64>,
    low_minutes: Option<f64>,
    high_minutes: Option<f64>,
    /// Why no time is told.
    why_not: Option<String>,
    start_c: Option<f64>,
    air_c: f64,
    system: Option<&'static str>,
    growth_minutes: Option<f64>,
    /// Shorter, and the middle warms above the form V limit.
    least_growth_minutes: Option<f64>,
    is_too_thick: Option<bool>,
    cooled_minutes: Option<f64>,
    crystals_begun_percent_of_fat: Option<f64>,
    unseeded_low_minutes: Option<f64>,
    unseeded_high_minutes: Option<f64>,
    solid_at_end_percent_of_fat: Option<f64>,
    course: Option<Vec<Moment>>,
}

/// The seeded piece at one time of its course.
#[derive(Serialize)]
struct Moment {
    minutes: f64,
    middle_c: f64,
    mean_c: f64,
    /// Of what sets in a time that is told.
    solid_middle_percent_of_fat: Option<f64>,
    solid_percent_of_fat: Option<f64>,
}

/// How long a seeded bowl can be worked.
#[derive(Serialize)]
pub(super) struct Bench {
    celsius: f64,
    workable_minutes: Option<f64>,
    low_minutes: Option<f64>,
    high_minutes: Option<f64>,
    /// Why no time is told.
    why_not: Option<String>,
}

impl Bench {
    pub(super) fn new(recipe: &Recipe, analysis: &Analysis) -> Self {
        let time = workable(recipe, analysis);
        let [workable_minutes, low_minutes, high_minutes] = band(time.ok());
        let why_not = time.err().map(|why| capital(&no_workable(why, DecimalSign::Point)));
        Self { celsius: analysis.at.0, workable_minutes, low_minutes, high_minutes, why_not }
    }
}

#[derive(Serialize)]
pub(super) struct Texture {
    solid_fat: Option<Vec<SolidFat>>,
    /// At 20 °C.
    crystals_percent_of_mass: Option<f64>,
    contraction_percent_of_length: Option<f64>,
    contraction_percent_of_volume: Option<f64>,
    /// Melted, of a mass without a water phase.
    solids_percent_of_volume: Option<f64>,
    thickness_to_fat: Option<f64>,
    solid_in_store_percent_of_fat: Option<f64>,
    solid_in_room_percent_of_fat: Option<f64>,
    usual_crystals_low_percent: Option<f64>,
    usual_crystals_high_percent: Option<f64>,
    store_c: f64,
    room_c: f64,
    humidity_percent: f64,
    dew_point_c: f64,
    gets_wet: bool,
    migration: Option<Migration>,
}

#[derive(Serialize)]
struct SolidFat {
    celsius: f64,
    percent_of_fat: f64,
    percent_of_mass: f64,
}

#[derive(Serialize)]
struct Migration {
    liquid_in_filling_percent: f64,
    liquid_in_shell_percent: f64,
    difference_points: f64,
    shell_softens_points: f64,
    half_way_days: f64,
    low_days: f64,
    high_days: f64,
}

impl Setting {
    /// `None` where the recipe does not say how it sets.
    pub(super) fn new(recipe: &Recipe, analysis: &Analysis, state: Result<&SettingState, &NoSetting>) -> Option<Self> {
        let setting = recipe.setting?;
        let minutes = |time: Option<Minutes>| time.map(|time| time.0);
        let [likely, low, high] = band(state.ok().and_then(|state| state.set.ok()));
        let why_not = match state {
            Err(why) => Some(capital(&no_setting(why, DecimalSign::Point))),
            Ok(state) => state.set.err().map(|why| capital(&no_time(why, DecimalSign::Point))),
        };
        let state = state.ok();
        let begun = state.filter(|state| state.begins_as_made());
        let told = state.filter(|state| state.set.is_ok());
        let unseeded = state.is_some_and(SettingState::has_unseeded_times).then_some(UNSEEDED);
        Some(Self {
            minutes: likely,
            low_minutes: low,
            high_minutes: high,
            why_not,
            start_c: begun.map(|state| state.start.0),
            air_c: setting.surroundings.celsius().0,
            // Of what is not to be seeded it says nothing.
            system: state.filter(|state| state.set.is_ok()).map(|state| system(state.system)),
            growth_minutes: minutes(state.and_then(|state| state.growth)),
            least_growth_minutes: minutes(told.and_then(|state| state.least_growth)),
            is_too_thick: told.map(|state| state.is_too_thick),
            cooled_minutes: minutes(begun.and_then(SettingState::cooled)),
            crystals_begun_percent_of_fat: state
                .filter(|state| state.set.is_ok())
                .and_then(|state| state.course.moments.first())
                .map(|moment| moment.solid.to_percent()),
            unseeded_low_minutes: minutes(unseeded.map(|(low, _)| low)),
            unseeded_high_minutes: minutes(unseeded.map(|(_, high)| high)),
            solid_at_end_percent_of_fat: state
                .filter(|_| analysis.fat.is_ok())
                .map(|state| state.course.solid_at_end.to_percent()),
            course: begun.map(course),
        })
    }
}

/// Every fifth moment of a course: enough to draw it.
fn course(state: &SettingState) -> Vec<Moment> {
    const STEP: usize = 5;
    let solid = |share: MassFraction| state.set.is_ok().then(|| share.to_percent());
    let shown = state.course.moments.iter().step_by(STEP);
    shown
        .map(|moment| Moment {
            minutes: moment.time.0,
            middle_c: moment.centre.0,
            mean_c: moment.mean.0,
            solid_middle_percent_of_fat: solid(moment.solid_centre),
            solid_percent_of_fat: solid(moment.solid),
        })
        .collect()
}

impl Texture {
    pub(super) fn new(recipe: &Recipe, analysis: &Analysis) -> Self {
        let storage = &recipe.storage;
        let celsius = |at: PlaceTemperature| at.celsius().0;
        let usual = usual_crystals(recipe.kind, recipe.intended_use);
        let fat = analysis.fat.as_ref().ok();
        let (contraction, flow) = (contraction_of(analysis), flow(analysis));
        let solid_at = |at: PlaceTemperature| fat.map(|fat| fat.blended.solid_fat(at.celsius()).total().to_percent());
        let Celsius(dew_point_c) = dew_point_in_room(storage);
        Self {
            solid_fat: fat.map(|fat| {
                let at = firmness(fat, analysis.make_up.bowl.total());
                let solid = at.into_iter().map(|firmness| SolidFat {
                    celsius: firmness.at.0,
                    percent_of_fat: firmness.of_fat.to_percent(),
                    percent_of_mass: firmness.of_mass.to_percent(),
                });
                solid.collect()
            }),
            crystals_percent_of_mass: fat
                .and_then(|fat| crystals_in_room(fat, analysis.make_up.bowl.total()))
                .map(MassFraction::to_percent),
            contraction_percent_of_length: contraction.map(|by| MassFraction(by.length).to_percent()),
            contraction_percent_of_volume: contraction.map(|by| MassFraction(by.volume).to_percent()),
            solids_percent_of_volume: flow.map(|flow| MassFraction(flow.solids).to_percent()),
            thickness_to_fat: flow.and_then(|flow| flow.to_fat()[0]),
            solid_in_store_percent_of_fat: solid_at(storage.at),
            solid_in_room_percent_of_fat: solid_at(storage.room),
            usual_crystals_low_percent: usual.map(|usual| usual.low.to_percent()),
            usual_crystals_high_percent: usual.and_then(|usual| usual.high).map(MassFraction::to_percent),
            store_c: celsius(storage.at),
            room_c: celsius(storage.room),
            humidity_percent: storage.humidity.percent(),
            dew_point_c,
            gets_wet: gets_wet(storage),
            migration: migration_of(recipe, analysis).as_ref().map(Migration::new),
        }
    }
}

impl Migration {
    fn new(migration: &migration::Migration) -> Self {
        let [half_way_days, low_days, high_days] = migration.half_way_days;
        Self {
            liquid_in_filling_percent: migration.liquid_in_filling.to_percent(),
            liquid_in_shell_percent: migration.liquid_in_shell.to_percent(),
            difference_points: migration.difference().to_percent(),
            shell_softens_points: migration.softening().to_percent(),
            half_way_days,
            low_days,
            high_days,
        }
    }
}

fn band(band: Option<TimeBand>) -> [Option<f64>; 3] {
    [
        band.and_then(|band| band.likely).map(|likely| likely.0),
        band.map(|band| band.low.0),
        band.map(|band| band.high.0),
    ]
}

fn system(system: System) -> &'static str {
    match system {
        System::Chocolate => "chocolate",
        System::NutPraline => "nut_praline",
        System::Ganache => "ganache",
    }
}
