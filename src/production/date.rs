//! A day of the calendar, so that a price can say from when it is. No clock, no arithmetic of dates.

use std::fmt;
use std::str::FromStr;

use thiserror::Error;

/// A day of the Gregorian calendar, from the year 1 to 9999.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// A text is no day.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
#[error("\"{}\" is no day of the calendar; write year, month and day, as in 2026-03-31", text.escape_debug())]
pub struct DateError {
    /// What stands there.
    pub text: String,
}

impl Date {
    fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let last = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 => 28 + u8::from(is_leap),
            _ => return None,
        };
        (year > 0 && (1..=last).contains(&day)).then_some(Self { year, month, day })
    }
}

impl FromStr for Date {
    type Err = DateError;

    /// A day as ISO 8601 writes it, `2026-03-31`.
    fn from_str(text: &str) -> Result<Self, DateError> {
        /// How many digits year, month and day have.
        const DIGITS: [usize; 3] = [4, 2, 2];
        let refuse = || DateError { text: text.chars().take(super::price::LONGEST_SHOWN).collect() };
        let parts: Vec<&str> = text.trim().split('-').collect();
        let is_written_so = parts.len() == DIGITS.len()
            && parts
                .iter()
                .zip(DIGITS)
                .all(|(part, digits)| part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()));
        if !is_written_so {
            return Err(refuse());
        }
        let [year, month, day] = parts[..] else { return Err(refuse()) };
        let day = (year.parse().ok()).zip(month.parse().ok()).zip(day.parse().ok());
        day.and_then(|((year, month), day)| Self::new(year, month, day)).ok_or_else(refuse)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The Gregorian calendar: a leap year in four, none at full centuries but every fourth.
    #[test]
    fn days_of_the_calendar_are_taken_and_come_back_as_they_were_written() {
        for text in ["2026-03-31", "2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31"] {
            assert_eq!(text.parse::<Date>().map(|day| day.to_string()), Ok(text.to_owned()));
        }
    }

    #[test]
    fn everything_else_is_refused() {
        for text in [
            "",
            "2026",
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "2026-01-00",
            "0000-01-01",
            "31.03.2026",
            "26-03-31",
            "2026-3-31",
            "2026-03-31T10:00",
            "+026-03-31",
            "２０２６-03-31",
        ] {
            let error = text.parse::<Date>().expect_err(text);
            assert!(error.to_string().contains("; write year"), "{error}");
        }
    }

    #[test]
    fn an_earlier_day_is_less() {
        let day = |text: &str| text.parse::<Date>().expect("a day");
        assert!(day("2025-12-31") < day("2026-01-01") && day("2026-02-03") < day("2026-03-02"));
    }
}
