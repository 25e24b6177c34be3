//! The words of setting and storage: what does not fit, why that matters, what to do.

use super::Words;
use crate::analysis::cooling::growth::System;
use crate::analysis::migration::{Migration, TAKEN_UP};
use crate::analysis::texture::WARMEST_STORE;
use crate::number::{DecimalSign, fixed, shortest};
use crate::recipe::{Piece, Size};
use crate::units::{Celsius, MassFraction, Minutes};

/// A time with the unit that fits: "under 1 min", "45 min", "3.5 h", "12 h"; from two days on in days.
#[must_use]
pub fn time(time: Minutes, sign: DecimalSign) -> String {
    const HOUR: f64 = 60.0;
    const DAY: f64 = 24.0 * HOUR;
    /// From here on a time is said in hours.
    const LONG: f64 = 1.5 * HOUR;
    /// From here on in days.
    const LONGEST: f64 = 2.0 * DAY;
    /// From so many hours on tenths say nothing.
    const WHOLE: f64 = 10.0;
    if time.0 < 1.0 {
        "under 1 min".to_owned()
    } else if time.0 < LONG {
        format!("{} min", fixed(time.0, 0, sign))
    } else if time.0 < LONGEST {
        let hours = time.0 / HOUR;
        format!("{} h", shortest(hours, u32::from(hours < WHOLE), sign))
    } else {
        format!("{} days", fixed(time.0 / DAY, 0, sign))
    }
}

/// A range of times, the unit once where both ends have the same: "1.8 to 7.4 h", "45 min to 3 h".
#[must_use]
pub fn time_range(low: Minutes, high: Minutes, sign: DecimalSign) -> String {
    joined(&time(low, sign), &time(high, sign))
}

/// The same in days, of an order of magnitude.
#[must_use]
pub fn days_range(low: f64, high: f64, sign: DecimalSign) -> String {
    joined(&days(low, sign), &days(high, sign))
}

fn joined(low: &str, high: &str) -> String {
    match (low.split_once(' '), high.split_once(' ')) {
        (Some((figure, unit)), Some((_, other))) if unit == other => format!("{figure} to {high}"),
        _ => format!("{low} to {high}"),
    }
}

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

/// As what a mass sets.
#[must_use]
pub fn system(system: System) -> &'static str {
    match system {
        System::Chocolate => "as chocolate does: fat all through, most of it cocoa butter",
        System::NutPraline => "as a nut praline does: fat all through, little of it cocoa butter",
        System::Ganache => "as a ganache does: its fat lies in droplets",
    }
}

/// A time in days, of an order of magnitude: "9 days", "a day", "less than a day".
#[must_use]
pub fn days(days: f64, sign: DecimalSign) -> String {
    /// As it is rounded.
    const HALF: f64 = 0.5;
    if days < HALF {
        "less than a day".to_owned()
    } else if days < 1.0 + HALF {
        "a day".to_owned()
    } else {
        format!("{} days", fixed(days, 0, sign))
    }
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
                "Its crystals are gone before it sets, and the setting time is that of a seeded mass. Seed it at {} or near, \
                 and pour it below the limit.",
                self.celsius(recommended)
            ),
        )
    }

    pub(super) fn stored_too_warm(&self, at: Celsius) -> (String, String) {
        (
            format!("Stored at {}: chocolate lies better at {} or colder", self.celsius(at), self.whole_celsius(WARMEST_STORE)),
            "Warmer, less of its fat is solid, oil moves faster, and fat bloom comes sooner. Common practice, no published \
             source."
                .to_owned(),
        )
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
        let (likely, range) = (days(likely, self.sign), days_range(least, most, self.sign));
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
    fn times_have_the_unit_that_fits() {
        for (minutes, expected) in [
            (0.42, "under 1 min"),
            (9.0, "9 min"),
            (45.4, "45 min"),
            (150.0, "2.5 h"),
            (720.0, "12 h"),
            (1530.0, "26 h"),
            (2880.0, "2 days"),
        ] {
            assert_eq!(time(Minutes(minutes), DecimalSign::Point), expected);
        }
        let range = |low, high| time_range(Minutes(low), Minutes(high), DecimalSign::Comma);
        assert_eq!(range(111.0, 444.0), "1,9 to 7,4 h");
        assert_eq!(range(720.0, 1440.0), "12 to 24 h");
        assert_eq!(range(45.0, 180.0), "45 min to 3 h");
    }

    #[test]
    fn an_order_of_magnitude_has_no_decimals() {
        assert_eq!(
            [0.4, 1.2, 24.51].map(|time| days(time, DecimalSign::Point)),
            ["less than a day", "a day", "25 days"]
        );
    }
}
