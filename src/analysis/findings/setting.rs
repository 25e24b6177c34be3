//! What setting and storage have to say: surroundings that do not fit, a start above the limit, a store that is too warm or
//! makes wet, oil on its way into a shell.
//!
//! Only what is known without the course of cooling: that costs milliseconds, and this is computed at every keystroke.

use crate::analysis::fat::LEAST_COCOA_BUTTER_FOR_LIMITS;
use crate::analysis::finding::{Finding, Level, Melting, Subject};
use crate::analysis::migration::{WORTH_A_WORD, limit_of_shell, migration_of};
use crate::analysis::setting::{NoTime, crystals_melt_from, time_of_growth, too_thick};
use crate::analysis::texture::{dew_point_in_room, gets_wet};
use crate::analysis::{Analysis, is_above, is_below};
use crate::recipe::setting::WARMEST_STORE;
use crate::recipe::{PlaceTemperature, Recipe, Setting, Storage};
use crate::units::Celsius;

/// The findings about setting and storage.
pub(super) fn setting_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    if analysis.make_up.bowl.total().0 <= 0.0 {
        return;
    }
    if let (Some(setting), Some(growth)) = (recipe.setting, time_of_growth(recipe, analysis)) {
        findings.extend(surroundings_finding(setting.surroundings.celsius(), growth.err()));
        if growth != Err(NoTime::SetsBySugar) {
            findings.extend(start_finding(setting, analysis));
            findings.extend(cold_start_finding(setting, analysis));
            findings.extend(thick_finding(recipe, analysis));
        }
    }
    // What is taken anyway is nothing that the recipe says.
    if recipe.storage != Storage::default() {
        storage_findings(recipe, analysis, findings);
    }
}

fn surroundings_finding(around: Celsius, no_time: Option<NoTime>) -> Option<Finding> {
    match no_time? {
        NoTime::TooWarm { most, .. } => {
            let subject = Subject::SurroundingsTooWarm { around, below: most };
            let finding = Finding::new(Level::Caution, "setting.surroundings_too_warm", subject);
            Some(finding.with_value(around.0).with_usual(None, Some(most.0)))
        }
        NoTime::TooCold { least, .. } => {
            let subject = Subject::SurroundingsTooCold { around, above: least };
            let finding = Finding::new(Level::Caution, "setting.surroundings_too_cold", subject);
            Some(finding.with_value(around.0).with_usual(Some(least.0), None))
        }
        NoTime::SetsBySugar | NoTime::OnlySeed | NoTime::Crystals(_) | NoTime::NothingToCome | NoTime::TooLong => None,
    }
}

/// A mass that begins to cool above what its seed endures; of one that is not to be seeded there is nothing to say.
fn start_finding(setting: Setting, analysis: &Analysis) -> Option<Finding> {
    let start = setting.start.map(PlaceTemperature::celsius)?;
    let (limit, seeding) = (crystals_melt_from(analysis)?, analysis.seeding.as_ref()?);
    (!is_below(start.0, limit.0)).then(|| {
        let subject = Subject::StartTooWarm { start, limit, recommended: seeding.window.recommended };
        Finding::new(Level::Caution, "setting.start_too_warm", subject)
            .with_value(start.0)
            .with_usual(None, Some(limit.0))
    })
}

/// A mass that begins below its window: it thickens before it is in its form, or crystals of the wrong form grow.
fn cold_start_finding(setting: Setting, analysis: &Analysis) -> Option<Finding> {
    let start = setting.start.map(PlaceTemperature::celsius)?;
    let seeding = analysis.seeding.as_ref()?;
    let form_iv = seeding.limits.form_iv.filter(|limit| !is_above(start.0, limit.0));
    is_below(start.0, seeding.window.min.0).then(|| {
        let subject = Subject::StartTooCold { start, window: seeding.window, form_iv };
        let finding = if form_iv.is_some() {
            Finding::new(Level::Caution, "setting.start_too_cold", subject)
        } else {
            Finding::new(Level::Note, "setting.start_too_cold", subject)
        };
        finding.with_value(start.0).with_usual(Some(seeding.window.min.0), Some(seeding.window.max.0))
    })
}

fn thick_finding(recipe: &Recipe, analysis: &Analysis) -> Option<Finding> {
    let (growth, least) = too_thick(recipe, analysis)?;
    let finding = Finding::new(Level::Caution, "setting.too_thick", Subject::TooThick { growth, least });
    Some(finding.with_value(growth.0).with_usual(Some(least.0), None))
}

fn storage_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let storage = &recipe.storage;
    let at = storage.at.celsius();
    let cocoa_butter = analysis.fat.as_ref().ok().map(|fat| fat.blended.cocoa_butter_share());
    let is_of_cocoa_butter = cocoa_butter.is_some_and(|share| !is_below(share.0, LEAST_COCOA_BUTTER_FOR_LIMITS.0));
    let limit = analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v);
    if is_above(at.0, WARMEST_STORE.0) && (is_of_cocoa_butter || storage.shell.is_some()) {
        let shell = storage.shell.as_ref().and_then(|shell| limit_of_shell(shell, recipe.cocoa_butter));
        let melts = [(Melting::Mass, limit), (Melting::Shell, shell)];
        let melts = melts.into_iter().filter_map(|(what, limit)| Some((what, limit?)));
        let melts = melts.into_iter().find(|(_, limit)| !is_below(at.0, limit.0));
        let subject = Subject::StoredTooWarm { at, melts };
        let finding = if melts.is_some() {
            Finding::new(Level::Caution, "storage.too_warm", subject)
        } else {
            Finding::new(Level::Note, "storage.too_warm", subject)
        };
        findings.push(finding.with_value(at.0).with_usual(None, Some(WARMEST_STORE.0)));
    }
    let room = storage.room.celsius();
    // Nearer to the limit than that is known it may melt as well.
    let uncertainty = analysis.fat.as_ref().ok().and_then(|fat| fat.limit_uncertainty).unwrap_or_default();
    if let Some(limit) = limit.filter(|limit| !is_below(room.0, (*limit - uncertainty).0)) {
        findings.push(
            Finding::new(Level::Caution, "storage.room_too_warm", Subject::RoomTooWarm { room, limit })
                .with_value(room.0)
                .with_usual(None, Some(limit.0)),
        );
    }
    if gets_wet(storage) {
        let (room, humidity) = (storage.room.celsius(), storage.humidity.share());
        let dew_point = dew_point_in_room(storage);
        let subject = Subject::GetsWet { at, room, humidity, dew_point };
        findings.push(
            Finding::new(Level::Note, "storage.gets_wet", subject).with_value(at.0).with_usual(Some(dew_point.0), None),
        );
    }
    if let Some(migration) = migration_of(recipe, analysis)
        && !is_below(migration.difference().0, WORTH_A_WORD.0)
    {
        let points = migration.difference().to_percent();
        findings.push(
            Finding::new(Level::Note, "storage.shell_migration", Subject::ShellMigration(migration))
                .with_value(points)
                .with_usual(None, Some(WORTH_A_WORD.to_percent())),
        );
    }
}
