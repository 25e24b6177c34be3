//! Words of setting that several places share.

use crate::analysis::Analysis;
use crate::analysis::handling::Habit;

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

/// What the trade does in a range of temperatures, before the range.
#[must_use]
pub fn habit(habit: Habit) -> &'static str {
    match habit {
        Habit::DarkChocolate => "tempered dark chocolate is worked at",
        Habit::MilkOrWhiteChocolate => "tempered milk and white chocolate is worked at",
        Habit::Praline => "praline is seeded at",
        Habit::Ganache => "a ganache comes out of the emulsifying at",
    }
}
