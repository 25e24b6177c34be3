//! Numbers as text, and the rounding that this takes.

use super::{DecimalSign, GROUP_SIGN, MINUS_SIGN, NO_NUMBER};

/// The most decimals that are computed and shown. More would be the noise of binary numbers.
const MOST_DECIMALS: usize = 20;

/// The decimals that a number is brought to before it is rounded half up (the program's convention for print).
///
/// It takes away what binary arithmetic adds at the far end: 33 / 1.1 is 30 again, 1.005 a tie again.
const GUARD_DECIMALS: usize = 10;

/// How many decimals beyond the wanted ones are looked at, where that is more than [`GUARD_DECIMALS`].
const GUARD_BEYOND: usize = 4;

/// The significant digits that every double holds for certain (IEEE 754 binary64). Digits behind them are noise too.
const CERTAIN_DIGITS: usize = 15;

/// Below this number all of [`GUARD_DECIMALS`] lie within [`CERTAIN_DIGITS`]: nothing has to be counted, which is most of
/// the work.
const ALL_GUARDS_CERTAIN: f64 = 10_000.0;

/// The smallest number that is written with all its zeros by [`typed`] and [`as_given`].
const LEAST_WITHOUT_EXPONENT: f64 = 1e-7;

/// From here on [`typed`] and [`as_given`] write an exponent.
const MOST_WITHOUT_EXPONENT: f64 = 1e16;

/// Masses in grams with the decimals that a scale for them shows, each below its mass; from the last on, whole grams.
///
/// Common practice, no published source: spices and gelling agents on a scale of 0.01 g, small parts on one of 0.1 g, the
/// bowl on one of 1 g.
pub const SCALES: [(f64, u32); 2] = [(10.0, 2), (100.0, 1)];

/// A number rounded to so many decimals, half away from zero on its decimal digits.
///
/// The number is first brought to 10 decimals (no finer than the 15 digits that a double holds), then rounded half up:
/// so 1.005 gives 1.01, although the double nearest to 1.005 lies below it.
/// Asked for more than 6 decimals it looks 4 beyond them instead of 10; more than 20 decimals count as 20.
/// What is not finite is returned as it is; the result is never -0.
///
/// ```
/// # use nibwright::number::round_half_up;
/// assert_eq!(round_half_up(2.5, 0), 3.0);
/// assert_eq!(round_half_up(1.005, 2), 1.01);
/// assert_eq!(round_half_up(-0.25, 1), -0.3);
/// assert_eq!(round_half_up(33.0 / 1.1, 10), 30.0);
/// ```
#[must_use]
pub fn round_half_up(value: f64, decimals: u32) -> f64 {
    if !value.is_finite() {
        return value;
    }
    // Digits of a finite number, at most one more than it had: only the very largest doubles round up to infinity,
    // and they have no decimals.
    let rounded = rounded_digits(value.abs(), decimals).parse().unwrap_or(value.abs());
    if value < 0.0 && rounded != 0.0 { -rounded } else { rounded }
}

/// To which side a number is rounded, where only one of them is true.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Towards {
    /// To the next number above.
    Above,
    /// To the next number below.
    Below,
}

/// A number rounded to so many decimals to one side: for what has to hold when it is typed back.
///
/// What lies within a ten-thousandth of the last digit counts as that digit: a solver and binary numbers leave so much open.
///
/// ```
/// # use nibwright::number::{Towards, round_towards};
/// assert_eq!(round_towards(464.2, 0, Towards::Above), 465.0);
/// assert_eq!(round_towards(30.57, 1, Towards::Below), 30.5);
/// assert_eq!(round_towards(-0.25, 1, Towards::Above), -0.2);
/// assert_eq!(round_towards(36.000_000_1, 0, Towards::Above), 36.0);
/// ```
#[must_use]
pub fn round_towards(value: f64, decimals: u32, side: Towards) -> f64 {
    /// Judged: ten times what the solver of a reformulation leaves open.
    const OPEN: f64 = 1e-4;
    let nearest = round_half_up(value, decimals);
    let step = 10_f64.powi(-decimals.cast_signed());
    match side {
        Towards::Above if value - nearest > OPEN * step => round_half_up(nearest + step, decimals),
        Towards::Below if nearest - value > OPEN * step => round_half_up(nearest - step, decimals),
        _ => nearest,
    }
}

/// A number with exactly so many decimals: for columns and readings.
///
/// From 10,000 up the digits before the decimal sign are parted in groups of three by U+202F, a narrow blank that
/// never breaks a line: neither point nor comma, because each of them is the decimal sign of somebody, and not below
/// 10,000, because four digits are read at a glance and a column of them stays quiet. (SI Brochure, section 5.4.4,
/// from memory: groups by a thin space, neither dots nor commas; four digits usually stay together.)
/// Negative numbers have U+2212 in front; "-0" never appears. What is not finite is an en dash.
///
/// ```
/// # use nibwright::number::{fixed, DecimalSign};
/// assert_eq!(fixed(1234.5, 2, DecimalSign::Comma), "1234,50");
/// assert_eq!(fixed(12345.678, 1, DecimalSign::Point), "12\u{202f}345.7");
/// assert_eq!(fixed(-0.04, 1, DecimalSign::Point), "0.0");
/// assert_eq!(fixed(f64::NAN, 1, DecimalSign::Point), "–");
/// ```
#[must_use]
pub fn fixed(value: f64, decimals: u32, sign: DecimalSign) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    dressed(&rounded_digits(value.abs(), decimals), value, sign)
}

/// A number with at most so many decimals, without zeros at their end: for amounts in a sentence.
///
/// Signs and groups as in [`fixed`].
///
/// ```
/// # use nibwright::number::{shortest, DecimalSign};
/// assert_eq!(shortest(12.5, 2, DecimalSign::Comma), "12,5");
/// assert_eq!(shortest(340.194_277_5, 7, DecimalSign::Point), "340.1942775");
/// assert_eq!(shortest(250.0, 2, DecimalSign::Point), "250");
/// ```
#[must_use]
pub fn shortest(value: f64, most_decimals: u32, sign: DecimalSign) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let digits = rounded_digits(value.abs(), most_decimals);
    dressed(without_end_zeros(&digits), value, sign)
}

/// Grams as a kitchen reads them: hundredths below 10 g, tenths below 100 g, whole grams from there on.
///
/// Zeros at the end are left away: 7.25, 12.5, 340. That is what the scale for it shows ([`SCALES`]), and from 1 g up the
/// rounding is at most half a percent. Which of the three it is depends on the rounded amount, so 9.996 is 10 and not
/// 10.00. For computed amounts; what was typed is shown by [`typed`].
///
/// ```
/// # use nibwright::number::{grams, DecimalSign};
/// assert_eq!(grams(7.254, DecimalSign::Comma), "7,25");
/// assert_eq!(grams(12.0, DecimalSign::Point), "12");
/// assert_eq!(grams(340.194_277_5, DecimalSign::Point), "340");
/// ```
#[must_use]
pub fn grams(value: f64, sign: DecimalSign) -> String {
    shortest(value, gram_decimals(value), sign)
}

/// With how many decimals [`grams`] shows so many grams, zeros at their end among them.
#[must_use]
pub fn gram_decimals(value: f64) -> u32 {
    SCALES
        .into_iter()
        .find(|&(below, decimals)| round_half_up(value.abs(), decimals) < below)
        .map_or(0, |(_, decimals)| decimals)
}

/// A number for a field that is being edited: nothing is rounded, [`super::parse`] gives the same number back.
///
/// The fewest digits that mean this very double; no group signs, because they are in the way of the cursor.
/// Below 0.0000001 and from 10,000,000,000,000,000 up with an exponent. What is not finite is an en dash, which is
/// no number when read back.
///
/// ```
/// # use nibwright::number::{typed, DecimalSign};
/// assert_eq!(typed(340.194_277_5, DecimalSign::Comma), "340,1942775");
/// assert_eq!(typed(12_500.0, DecimalSign::Point), "12500");
/// ```
#[must_use]
pub fn typed(value: f64, sign: DecimalSign) -> String {
    if !value.is_finite() {
        return NO_NUMBER.to_owned();
    }
    let digits = as_given(value.abs());
    let minus = if value < 0.0 { String::from(MINUS_SIGN) } else { String::new() };
    minus + &digits.replace('.', sign.character().encode_utf8(&mut [0; 4]))
}

/// A number for a sentence about what stands in a file: nothing is rounded, and it is short at every size.
///
/// Written as in the file, with a point and a plain hyphen; an exponent where [`typed`] has one.
///
/// ```
/// # use nibwright::number::as_given;
/// assert_eq!(as_given(-12.5), "-12.5");
/// assert_eq!(as_given(-1e-300), "-1e-300");
/// assert_eq!(as_given(f64::NAN), "NaN");
/// ```
#[must_use]
pub fn as_given(value: f64) -> String {
    if value == 0.0 || !value.is_finite() || (LEAST_WITHOUT_EXPONENT..MOST_WITHOUT_EXPONENT).contains(&value.abs()) {
        format!("{value}")
    } else {
        format!("{value:e}")
    }
}

/// The digits of a number that is finite and not negative, rounded half up: "1234.50", "0".
fn rounded_digits(size: f64, decimals: u32) -> String {
    let decimals = usize::try_from(decimals).unwrap_or(MOST_DECIMALS).min(MOST_DECIMALS);
    let wanted = GUARD_DECIMALS.max(decimals + GUARD_BEYOND);
    let guard = if size < ALL_GUARDS_CERTAIN && wanted == GUARD_DECIMALS {
        wanted
    } else {
        let certain = i64::try_from(CERTAIN_DIGITS).unwrap_or(i64::MAX) - 1 - i64::from(decimal_exponent(size));
        wanted.min(usize::try_from(certain.max(0)).unwrap_or(0)).max(decimals)
    };
    // Formatting rounds the exact binary value, correctly at every length.
    let text = format!("{size:.guard$}");
    let Some(point) = text.find('.') else { return text };
    let cut = if decimals == 0 { point } else { point + 1 + decimals };
    let rounds_up = text.as_bytes().get(if decimals == 0 { cut + 1 } else { cut }).is_some_and(|&digit| digit >= b'5');
    let kept = &text[..cut];
    if rounds_up { one_more(kept) } else { kept.to_owned() }
}

/// Digits, perhaps with a point among them, plus one in the last place.
fn one_more(digits: &str) -> String {
    let mut carry = true;
    let mut reversed: String = digits
        .chars()
        .rev()
        .map(|digit| match digit {
            '9' if carry => '0',
            '0'..='8' if carry => {
                carry = false;
                char::from_digit(digit.to_digit(10).unwrap_or(0) + 1, 10).unwrap_or(digit)
            }
            other => other,
        })
        .collect();
    if carry {
        reversed.push('1');
    }
    reversed.chars().rev().collect()
}

/// The power of ten of the first significant digit; 0 for zero and for what is not finite.
fn decimal_exponent(value: f64) -> i32 {
    format!("{value:e}").split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0)
}

fn without_end_zeros(digits: &str) -> &str {
    if digits.contains('.') { digits.trim_end_matches('0').trim_end_matches('.') } else { digits }
}

/// Plain digits with the sign of `value`, groups and the decimal sign.
pub(super) fn dressed(digits: &str, value: f64, sign: DecimalSign) -> String {
    /// Digits that stay together.
    const GROUP: usize = 3;
    /// Digits that a number has at least before it is parted.
    const LEAST_DIGITS: usize = 5;

    let (whole, decimals) = digits.split_once('.').unwrap_or((digits, ""));
    let mut text = String::with_capacity(digits.len() + 8);
    if value < 0.0 && digits.contains(|digit: char| matches!(digit, '1'..='9')) {
        text.push(MINUS_SIGN);
    }
    for (idx, digit) in whole.char_indices() {
        if whole.len() >= LEAST_DIGITS && idx > 0 && (whole.len() - idx).is_multiple_of(GROUP) {
            text.push(GROUP_SIGN);
        }
        text.push(digit);
    }
    if !decimals.is_empty() {
        text.push(sign.character());
        text.push_str(decimals);
    }
    text
}

/// A sentence with fixed figures in it, written with a decimal point, with the sign of the user.
///
/// ```
/// # use nibwright::number::{DecimalSign, with_sign};
/// assert_eq!(with_sign("Up to 0.83. It ends.", DecimalSign::Comma), "Up to 0,83. It ends.");
/// ```
#[must_use]
pub fn with_sign(text: &str, sign: DecimalSign) -> String {
    let is_digit = |character: Option<char>| character.is_some_and(|character| character.is_ascii_digit());
    text.char_indices()
        .map(|(at, character)| {
            let is_between = character == '.'
                && is_digit(text[..at].chars().next_back())
                && is_digit(text[at + character.len_utf8()..].chars().next());
            if is_between && sign == DecimalSign::Comma { ',' } else { character }
        })
        .collect()
}
