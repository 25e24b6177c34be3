//! The words of setting and storage: what does not fit, why that matters, what to do.

use super::Words;
use super::duration::{duration, joined};
use super::reasons::no_crystals;
use crate::analysis::ROOM;
use crate::analysis::cooling::growth::System;
use crate::analysis::finding::{CrystalsSubject, Melting};
use crate::analysis::flow::Thickness;
use crate::analysis::handling::Habit;
use crate::analysis::migration::{Migration, TAKEN_UP};
use crate::analysis::seeding::Window;
use crate::analysis::setting::NoCrystals;
use crate::analysis::setting::SettingState;
use crate::analysis::setting::workable::NoWorkable;
use crate::analysis::texture::UsualCrystals;
use crate::number::{DecimalSign, fixed, shortest};
use crate::recipe::setting::WARMEST_STORE;
use crate::recipe::{Piece, Size, Use};
use crate::units::{Celsius, MassFraction, Minutes};

/// The form in which a mass sets, with its sizes: "slab in a frame, 10 mm, on a board".
#[must_use]
pub fn piece(piece: Piece, sign: DecimalSign) -> String {
    let of = |size: Size| format!("{} mm", shortest(size.millimetres(), 1, sign));
    let words = piece.words();
    match piece {
        Piece::Frame { thickness, base } => format!("{words}, {}, {}", of(thickness), base.words()),
        Piece::Bar { thickness } | Piece::Coat { thickness } => format!("{words}, {}", of(thickness)),
        Piece::HalfSphere { diameter } | Piece::Ball { diameter } => format!("{words}, {} across", of(diameter)),
        Piece::Cup { diameter, height } => format!("{words}, {} across, {} high", of(diameter), of(height)),
        Piece::Bowl => words.to_owned(),
    }
}

/// Why no time at the bench is told, and what to do.
#[must_use]
pub fn no_workable(why: NoWorkable, sign: DecimalSign) -> String {
    match why {
        NoWorkable::SetsBySugar => "no time is told: a caramel thickens by its sugar as it cools".to_owned(),
        NoWorkable::Crystals(NoCrystals::Melt) => "its crystals melt".to_owned(),
        NoWorkable::Crystals(why) => format!("no time is told: {}", no_crystals(why)),
        NoWorkable::InPieces => {
            "no time is told: how many crystals have come off the pieces is not known; a test strip tells".to_owned()
        }
        NoWorkable::TooThick { crystals, towards, is_kept } => {
            let crystals = fixed(crystals.to_percent(), 0, sign);
            if is_kept {
                format!(
                    "too thick to work there, with {crystals} % of its fat in crystals: warm it by tenths towards {} °C",
                    fixed(towards.0, 1, sign)
                )
            } else {
                format!(
                    "too thick to work from the beginning, with {crystals} % of its fat in crystals: take less seed"
                )
            }
        }
        NoWorkable::HardlyThickens => "hardly thickens".to_owned(),
    }
}

/// The same in a word or two.
#[must_use]
pub fn no_workable_in_short(why: NoWorkable) -> &'static str {
    match why {
        NoWorkable::Crystals(NoCrystals::Melt) => "its crystals melt",
        NoWorkable::SetsBySugar | NoWorkable::Crystals(_) | NoWorkable::InPieces => "no time is told",
        NoWorkable::TooThick { is_kept: true, .. } => "too thick there",
        NoWorkable::TooThick { is_kept: false, .. } => "too thick",
        NoWorkable::HardlyThickens => "hardly thickens",
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

/// As what a mass sets.
#[must_use]
pub fn system(system: System) -> &'static str {
    match system {
        System::Chocolate => "as chocolate does: fat all through, most of it cocoa butter",
        System::NutPraline => "as a nut praline does: fat all through, little of it cocoa butter",
        System::Ganache => "as a ganache does: its fat lies in droplets",
    }
}

/// What the temperature at the start is called: most masses cool, one from the refrigerator warms up.
#[must_use]
pub fn begins(state: &SettingState) -> &'static str {
    if state.warms() { "begins to warm at" } else { "begins to cool at" }
}

/// How many times as thick, with two digits: "7.5", "43", "over 1000".
#[must_use]
pub fn times_as_thick(times: f64, sign: DecimalSign) -> String {
    /// More is no figure: the solids nearly touch.
    const MOST: f64 = 1000.0;
    match times {
        times if times > MOST => format!("over {}", shortest(MOST, 0, sign)),
        times if times < 9.95 => fixed(times, 1, sign),
        times => fixed(times, 0, sign),
    }
}

/// How the thickness of a mass compares with that of another one.
#[must_use]
pub fn thickness(thickness: Thickness) -> &'static str {
    match thickness {
        Thickness::MuchThinner => "much thinner",
        Thickness::Thinner => "thinner",
        Thickness::Alike => "no thicker",
        Thickness::Thicker => "thicker",
        Thickness::MuchThicker => "much thicker",
    }
}

/// What it means that a piece is thick, and what to do: above the limit it cannot go by itself, for nothing grows there.
pub const THICK_PIECE: &str = "So thick a piece does not lose the heat of its own crystals as fast as they could grow: its middle \
                               stays warm, so near to the form V limit that they hardly grow there, and sets later than the \
                               outside and less evenly. Make it thinner, or let it cool milder and for longer.";

/// Which crystals are usual: "6 to 13 %", "15 % and more".
#[must_use]
pub fn usual_crystals(usual: UsualCrystals, sign: DecimalSign) -> String {
    let whole = |share: MassFraction| fixed(share.to_percent(), 0, sign);
    match usual.high {
        Some(high) => format!("{} to {} %", whole(usual.low), whole(high)),
        None => format!("{} % and more", whole(usual.low)),
    }
}

/// A piece that does not lose the heat of its crystals as they grow.
pub(super) fn too_thick(growth: Minutes, least: Minutes) -> (String, String) {
    (
        format!(
            "Thick: its crystals could grow in {}, but their heat needs {} to get out",
            duration(growth),
            duration(least)
        ),
        THICK_PIECE.to_owned(),
    )
}

/// A time in days, of an order of magnitude: "9 days", "12 h", "over a year".
#[must_use]
pub fn days(days: f64) -> String {
    const MINUTES: f64 = 24.0 * 60.0;
    /// Longer nobody waits for it.
    const YEAR: f64 = 365.0;
    if days > YEAR { "over a year".to_owned() } else { duration(Minutes(days * MINUTES)) }
}

/// A range of such times, the unit once where both ends have the same.
#[must_use]
pub fn days_range(low: f64, high: f64) -> String {
    joined(&days(low), &days(high))
}

/// What it means that more is liquid on one side, and by how much the shell softens.
#[must_use]
pub fn softening(migration: &Migration, sign: DecimalSign) -> String {
    format!(
        "With {} % of oil taken up the shell has {} points less solid fat",
        fixed(TAKEN_UP.to_percent(), 0, sign),
        fixed(migration.softening().to_percent(), 0, sign)
    )
}

impl Words {
    pub(super) fn surroundings_too_warm(&self, around: Celsius, below: Celsius) -> (String, String) {
        (
            format!(
                "At {} around it, it hardly sets: it needs less than {}",
                self.celsius(around),
                self.celsius(below)
            ),
            "So near to the form V limit crystals hardly grow, and no setting time is told. Set it in a cooler place; \
             more cocoa butter and less milk fat or nut oil raise the limit."
                .to_owned(),
        )
    }

    pub(super) fn surroundings_too_cold(&self, around: Celsius, above: Celsius) -> (String, String) {
        (
            format!("At {} around it, unstable crystals grow: set it above {}", self.celsius(around), self.celsius(above)),
            "They grow beside form V and turn into it later: the piece becomes dull, and it shrinks too little to leave a \
             mould well. No setting time is told. Set it in a milder place and for longer."
                .to_owned(),
        )
    }

    pub(super) fn start_too_warm(&self, start: Celsius, limit: Celsius, recommended: Celsius) -> (String, String) {
        (
            format!("It begins to cool at {}: seed melts from {} on", self.celsius(start), self.celsius(limit)),
            format!(
                "Its crystals are gone before it sets, and no setting time is told. Seed it at {} or near, and pour it below the \
                 limit.",
                self.celsius(recommended)
            ),
        )
    }

    pub(super) fn start_too_cold(&self, start: Celsius, window: Window, form_iv: Option<Celsius>) -> (String, String) {
        let (min, max) = (self.celsius(window.min), self.celsius(window.max));
        let title = format!("It begins to set at {}, below its window of {min} to {max}", self.celsius(start));
        let why = match form_iv {
            Some(limit) => format!(
                "Below {} crystals of the wrong form grow beside the seed: it sets dull and soft. Warm it over that, cool it to \
                 {} and seed it there.",
                self.celsius(limit),
                self.celsius(window.recommended)
            ),
            None => format!(
                "It thickens before it is in its form. Work it at {} or near.",
                self.celsius(window.recommended)
            ),
        };
        (title, why)
    }

    pub(super) fn room_too_warm(&self, room: Celsius, limit: Celsius) -> (String, String) {
        (
            if room < limit {
                format!("The room of {} nearly melts it: form V limit {}", self.celsius(room), self.celsius(limit))
            } else {
                format!("The room of {} melts it: form V limit {}", self.celsius(room), self.celsius(limit))
            },
            "Its crystals melt there, and what sets again afterwards is soft and dull, with a bloom of fat. Bring it out for \
             eating only; or raise the limit: more cocoa butter, less milk fat and oil."
                .to_owned(),
        )
    }

    pub(super) fn stored_too_warm(&self, at: Celsius, melts: Option<(Melting, Celsius)>) -> (String, String) {
        if let Some((what, limit)) = melts {
            let what = match what {
                Melting::Mass => "it melts",
                Melting::Shell => "its shell melts",
            };
            return (
                format!("Stored at {} {what}: form V limit {}", self.celsius(at), self.celsius(limit)),
                format!(
                    "What sets again afterwards is soft and dull, with a bloom of fat. Chocolate lies well at {} or colder \
                     (common practice, no published source).",
                    self.whole_celsius(WARMEST_STORE)
                ),
            );
        }
        (
            format!("Stored at {}: chocolate lies better at {} or colder", self.celsius(at), self.whole_celsius(WARMEST_STORE)),
            "Warmer, less of its fat is solid, oil moves faster, and fat bloom comes sooner. Common practice, no published \
             source."
                .to_owned(),
        )
    }

    pub(super) fn crystals_of_filling(&self, subject: &CrystalsSubject) -> (String, String) {
        let CrystalsSubject { crystals, uncertainty, usual, intended_use, more_cocoa_butter } = *subject;
        let low = usual.low;
        let within =
            uncertainty.map_or_else(String::new, |points| format!(" (±{})", fixed(points.to_percent(), 1, self.sign)));
        let title = format!(
            "Fat crystals {}{within} of the mass at {}, usual for {} {}",
            self.percent(crystals, 1),
            self.whole_celsius(ROOM),
            intended_use.words(),
            usual_crystals(usual, self.sign)
        );
        let detail = if crystals < low {
            let softer = match intended_use {
                Use::Cut => "It may smear under the knife and lose its edges.",
                _ => "It may stay softer than a filling for this use is.",
            };
            let more = more_cocoa_butter.map_or_else(
                || "More cocoa butter, or less milk fat and oil, makes it firmer.".to_owned(),
                |more| {
                    format!(
                        "{} more cocoa butter would bring it to {}; less milk fat or oil makes it firmer as well.",
                        self.grams(more),
                        self.percent(low, 0)
                    )
                },
            );
            format!("{softer} {more}")
        } else {
            "It may be hard and short to the bite. Less cocoa butter, or some of it exchanged for butter or nut paste, makes it \
             softer."
                .to_owned()
        };
        (title, format!("{detail} Sugar, cocoa and water count as well. Common practice, no published source."))
    }

    pub(super) fn gets_wet(
        &self,
        at: Celsius,
        (room, humidity): (Celsius, MassFraction),
        dew_point: Celsius,
    ) -> (String, String) {
        (
            format!("From a store at {} it gets wet in the room: let it warm up closed", self.celsius(at)),
            format!(
                "In a room of {} with {} humidity, water condenses on what is colder than {}. It dissolves sugar, which dries \
                 as sugar bloom. Leave the box closed until the pieces are warmer than that.",
                self.celsius(room),
                self.percent(humidity, 0),
                self.celsius(dew_point)
            ),
        )
    }

    pub(super) fn shell_migration(&self, migration: &Migration) -> (String, String) {
        let [likely, least, most] = migration.half_way_days;
        let (likely, range) = (days(likely), days_range(least, most));
        (
            format!(
                "Oil will move into the shell: at {} {} of the filling's fat is liquid, of the shell's {}",
                self.celsius(migration.at),
                self.percent(migration.liquid_in_filling, 0),
                self.percent(migration.liquid_in_shell, 0)
            ),
            format!(
                "Half of what can come has come through after about {likely}, from {range}: an order of magnitude. \
                 {}. A colder store, a thicker shell, a seeded filling and more cocoa butter in it slow it.",
                softening(migration, self.sign)
            ),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_order_of_magnitude_has_no_decimals() {
        assert_eq!([0.4, 2.4, 24.51, 400.0].map(days), ["10 h", "2 days", "25 days", "over a year"]);
        assert_eq!([days_range(2.4, 245.0), days_range(0.4, 40.0)], ["2 to 245 days", "10 h to 40 days"]);
    }
}
