//! Numbers to text and back: the one place where figures are rounded, grouped and read.
//!
//! * [`DecimalSign`]: point or comma, as the reader's country writes it; output only.
//! * [`fixed`], [`shortest`], [`grams`]: a number for the screen or for paper, rounded
//!   half away from zero on its decimal digits ([`round_half_up`]).
//! * [`round_towards`]: rounding to the side on which a figure holds.
//! * [`as_given`]: a number for a sentence about what stands in a file.
//! * [`with_sign`]: a sentence with figures in it, with the sign of the reader.
//! * [`rounded_parts`]: rounding that keeps a sum.
//! * [`typed`]: a number for a field that is being edited; nothing is rounded, reading it back gives the same number.
//! * [`money`], [`parse_decimal`]: decimal figures, for money.
//! * [`parse`], [`parse_expression`], [`parse_amount`]: what a person types, whatever his country writes.
//!
//! Input does not depend on the locale. **A single `,` or `.` always is the decimal sign:** `1,234` is a little more
//! than one everywhere, because a silent factor of 1000 is the worst error that a kitchen program can make.
//! The result is shown at once, so a misunderstanding is seen.
//!
//! Not here: units beyond the four symbols that may follow an amount (their grams are `recipe::MassUnit`'s business),
//! percent signs, dates, digits of other scripts.

mod expression;
mod format;
mod money;
mod parse;
mod parts;
#[cfg(test)]
mod tests;

use thiserror::Error;

pub use expression::{parse_amount, parse_expression};
pub use format::{
    SCALES, Towards, as_given, fixed, gram_decimals, grams, round_half_up, round_towards, shortest, typed, with_sign,
};
pub use money::{money, parse_decimal, to_decimal};
pub use parse::parse;
pub use parts::rounded_parts;

/// Between the groups of three digits: NARROW NO-BREAK SPACE.
pub const GROUP_SIGN: char = '\u{202f}';

/// In front of negative numbers: MINUS SIGN, as wide as a digit and never broken off at the end of a line.
pub const MINUS_SIGN: char = '\u{2212}';

/// In the place of a number that is not known or not finite: EN DASH.
pub const NO_NUMBER: &str = "\u{2013}";

/// The longest text that is read as a number or a sum, in characters.
///
/// The longest number that a person means is far shorter; a pasted page is not worked through.
pub const MOST_CHARACTERS: usize = 64;

/// How deep parentheses may be nested in a sum.
///
/// Deeper ones are a mistake, and the reader's recursion stays bounded.
pub const MOST_PARENTHESES: usize = 8;

/// The sign between the whole part of a number and its decimals.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum DecimalSign {
    /// 12.5
    #[default]
    Point,
    /// 12,5
    Comma,
}

/// Why a text is no number.
///
/// Positions count characters of the whole text from 1.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum NumberError {
    /// Nothing but blanks.
    #[error("there is no number; type one such as 250 or 12.5")]
    Empty,
    /// A character that does not belong there.
    #[error("\"{}\" at position {position} does not belong in a number; type one such as 250, 12.5 or 3*125",
        character.escape_debug())]
    UnexpectedCharacter {
        /// Which.
        character: char,
        /// Where.
        position: usize,
    },
    /// The text ends where a number has to follow.
    #[error("a number is missing at the end; complete it, as in 3*125")]
    Unfinished,
    /// A parenthesis is not closed.
    #[error("the parenthesis at position {position} is not closed; add \")\"")]
    UnclosedParenthesis {
        /// Where it opens.
        position: usize,
    },
    /// Group signs that do not part the digits in threes.
    #[error(
        "the digits around position {position} are not parted in groups of three; keep one decimal sign, as in 1.5, or write 1234567"
    )]
    Groups {
        /// Where the groups go wrong.
        position: usize,
    },
    /// Two decimal signs.
    #[error("there is a second decimal sign at position {position}; keep one of them")]
    SecondDecimalSign {
        /// Where.
        position: usize,
    },
    /// A whole number and a fraction that do not make a mixed number.
    #[error("the fraction at position {position} does not fit behind a whole number; write one such as 1 1/2")]
    MixedNumber {
        /// Where the fraction begins.
        position: usize,
    },
    /// Something is divided by zero.
    #[error("nothing can be divided by zero; change the number behind the division sign")]
    DivisionByZero,
    /// Longer than [`MOST_CHARACTERS`].
    #[error("{characters} characters are too long for a number; use at most {MOST_CHARACTERS}")]
    TooLong {
        /// How many there are.
        characters: usize,
    },
    /// Larger than a double can hold.
    #[error("the number is too large to compute with; check its digits")]
    NotFinite,
    /// More than [`MOST_PARENTHESES`] parentheses in each other.
    #[error("the parentheses are nested too deep; use at most {MOST_PARENTHESES} in each other")]
    NestedTooDeep,
    /// Behind the number stands something that is no unit of mass.
    #[error("\"{}\" is no unit that is known here; use g, kg, oz or lb", unit.escape_debug())]
    UnknownUnit {
        /// What stands there.
        unit: String,
    },
}

impl DecimalSign {
    /// The sign itself.
    #[must_use]
    pub fn character(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// The sign that a locale writes, from its name on any system: `de-DE`, `fr_FR.UTF-8`, `sr_RS@latin`.
    ///
    /// The list holds the languages of Europe and some of their neighbours that write a comma everywhere or nearly
    /// so; what is not on it gets the point. Exceptions by country: Switzerland and Liechtenstein write the point in
    /// every language (for French, tables of locales disagree), and so does Spanish from Mexico to Panama and in the
    /// Caribbean; English in Denmark writes the comma.
    /// It decides output only: input takes both signs everywhere.
    ///
    /// Source: the locale definitions of the GNU C library 2.36 (`decimal_point` in `LC_NUMERIC`).
    ///
    /// ```
    /// # use nibwright::number::DecimalSign;
    /// assert_eq!(DecimalSign::from_locale("fr_FR.UTF-8"), DecimalSign::Comma);
    /// assert_eq!(DecimalSign::from_locale("de-CH"), DecimalSign::Point);
    /// ```
    #[must_use]
    pub fn from_locale(locale: &str) -> Self {
        const COMMA_LANGUAGES: &[&str] = &[
            "be", "bg", "br", "bs", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fo", "fr", "fur", "fy",
            "gl", "hr", "hu", "id", "is", "it", "ka", "kk", "lb", "lt", "lv", "mk", "nb", "nl", "nn", "no", "oc", "pl",
            "pt", "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk", "vi",
        ];
        const SPANISH_WITH_POINT: &[&str] = &["DO", "GT", "HN", "MX", "NI", "PA", "PR", "SV", "US"];

        let name = locale.split(['.', '@']).next().unwrap_or_default();
        let mut parts = name.split(['-', '_']);
        let language = parts.next().unwrap_or_default().to_ascii_lowercase();
        // Between language and region may stand a script of four letters: sr-Latn-RS.
        let region = parts.find(|part| part.len() == 2).unwrap_or_default().to_ascii_uppercase();
        let is_comma = match (language.as_str(), region.as_str()) {
            (_, "CH" | "LI") => false,
            ("es", region) => !SPANISH_WITH_POINT.contains(&region),
            ("en", region) => region == "DK",
            (language, _) => COMMA_LANGUAGES.contains(&language),
        };
        if is_comma { Self::Comma } else { Self::Point }
    }
}
