//! Words of setting that several places share.

use crate::analysis::Analysis;

/// Why a bowl at the temperature of the thermometer has no time after which it is too thick.
#[must_use]
pub fn never_too_thick(analysis: &Analysis) -> &'static str {
    let limit = analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v);
    match (limit, analysis.seeding.is_some()) {
        (Some(limit), true) if analysis.at >= limit => "its crystals melt",
        (Some(_), true) => "hardly thickens",
        _ => "not seeded",
    }
}
