//! Times as a cook says them.

use crate::analysis::time_band::TimeBand;
use crate::units::Minutes;

/// A time, rounded as coarsely as it is known: "9 min", "2 h 20 min", "15 h", "3 days".
///
/// ```
/// # use nibwright::{report::words::duration, units::Minutes};
/// assert_eq!(duration(Minutes(8.6)), "9 min");
/// assert_eq!(duration(Minutes(141.0)), "2 h 20 min");
/// assert_eq!(duration(Minutes(0.2)), "under 1 min");
/// ```
#[must_use]
pub fn duration(time: Minutes) -> String {
    const HOUR: f64 = 60.0;
    const DAY: f64 = 24.0;
    /// Up to here minutes, in steps of one and of five.
    const FINE: f64 = 20.0;
    const MINUTES: f64 = 90.0;
    /// Up to here hours with tens of minutes.
    const HOURS_AND_MINUTES: f64 = 5.0 * HOUR;
    /// Up to here hours.
    const HOURS: f64 = 48.0 * HOUR;
    let minutes = time.0;
    let rounded = |value: f64, step: f64| (value / step).round() * step;
    if !minutes.is_finite() {
        "not known".to_owned()
    } else if minutes < 0.5 {
        "under 1 min".to_owned()
    } else if minutes < FINE {
        format!("{:.0} min", rounded(minutes, 1.0))
    } else if rounded(minutes, 5.0) < MINUTES {
        format!("{:.0} min", rounded(minutes, 5.0))
    } else if rounded(minutes, 10.0) < HOURS_AND_MINUTES {
        let tens = rounded(minutes, 10.0);
        let hours = (tens / HOUR).floor();
        let rest = tens - hours * HOUR;
        if rest > 0.0 { format!("{hours:.0} h {rest:.0} min") } else { format!("{hours:.0} h") }
    } else if rounded(minutes, HOUR) < HOURS {
        format!("{:.0} h", minutes / HOUR)
    } else {
        format!("{:.0} days", minutes / HOUR / DAY)
    }
}

/// A range of times, the unit once where both ends have the same: "12 to 24 h", "45 min to 3 h".
///
/// ```
/// # use nibwright::{report::words::duration_range, units::Minutes};
/// assert_eq!(duration_range(Minutes(720.0), Minutes(1440.0)), "12 to 24 h");
/// assert_eq!(duration_range(Minutes(140.0), Minutes(200.0)), "2 h 20 min to 3 h 20 min");
/// ```
#[must_use]
pub fn duration_range(low: Minutes, high: Minutes) -> String {
    let (low, high) = (duration(low), duration(high));
    // What is shown alike is no range.
    if low == high { low } else { joined(&low, &high) }
}

/// A time that is roughly known: "about 5 min", "under 1 min".
#[must_use]
pub fn about(time: Minutes) -> String {
    let time = duration(time);
    if time.starts_with("under") { time } else { format!("about {time}") }
}

/// A range of two words for times.
pub(super) fn joined(low: &str, high: &str) -> String {
    match (low.split_once(' '), high.split_once(' ')) {
        (Some((figure, unit)), Some((_, other))) if unit == other && !unit.contains(' ') => {
            format!("{figure} to {high}")
        }
        _ => format!("{low} to {high}"),
    }
}

/// A time as a figure with its unit, and its band, as [`duration`] rounds them: "2 h 20", "min", "70 min to 4 h 40 min".
#[must_use]
pub fn duration_figure(time: TimeBand) -> (String, &'static str, String) {
    const UNITS: [&str; 3] = ["min", "h", "days"];
    let likely = duration(time.typical());
    let (figure, unit) = likely.rsplit_once(' ').unwrap_or((&likely, ""));
    let range = duration_range(time.low, time.high);
    match UNITS.into_iter().find(|known| *known == unit) {
        Some(unit) => (figure.to_owned(), unit, range),
        None => (likely, "", range),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_as_coarse_as_it_is_known() {
        for (minutes, words) in [
            (0.0, "under 1 min"),
            (1.2, "1 min"),
            (19.4, "19 min"),
            (22.0, "20 min"),
            (87.0, "85 min"),
            (88.0, "1 h 30 min"),
            (119.0, "2 h"),
            (296.0, "5 h"),
            (340.0, "6 h"),
            (2879.0, "2 days"),
            (10_000.0, "7 days"),
            (f64::NAN, "not known"),
        ] {
            assert_eq!(duration(Minutes(minutes)), words, "{minutes}");
        }
    }

    #[test]
    fn a_figure_is_rounded_as_the_words_are() {
        for (minutes, expected) in [
            (141.0, "2 h 20 min, 70 min to 4 h 40 min"),
            (26.0, "25 min, 13 to 50 min"),
            (900.0, "15 h, 8 to 30 h"),
            (0.2, "under 1 min, under 1 min"),
            (f64::NAN, "not known, not known"),
        ] {
            let band = TimeBand::within_factor(Minutes(minutes), 2.0);
            let (figure, unit, range) = duration_figure(band);
            let found = format!("{figure} {unit}, {range}").replace(" ,", ",");
            assert_eq!(found, expected);
            assert!(found.starts_with(&duration(band.typical())), "{found}");
        }
    }
}
