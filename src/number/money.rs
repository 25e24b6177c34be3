//! Figures of money and what they are worked out from: decimal numbers, exact as they were typed.

use rust_decimal::{Decimal, RoundingStrategy};

use super::format::dressed;
use super::{DecimalSign, NumberError, parse};

/// A decimal number as a person types it: what [`parse`] takes, with the 15 digits that every double holds for certain.
///
/// # Errors
///
/// [`NumberError`], also where it is too large for a decimal number of 28 digits.
///
/// ```
/// # use nibwright::number::parse_decimal;
/// assert_eq!(parse_decimal("11,20").unwrap().to_string(), "11.2");
/// ```
pub fn parse_decimal(text: &str) -> Result<Decimal, NumberError> {
    to_decimal(parse(text)?).ok_or(NumberError::NotFinite)
}

/// A double as the decimal number that its first 15 digits are; `None` where it is too large or no number.
///
/// Every decimal number of at most 15 digits that became a double comes back as it was (IEEE 754 binary64).
#[must_use]
pub fn to_decimal(value: f64) -> Option<Decimal> {
    /// Less than this is nothing: behind the digits that a decimal number has.
    const LEAST: f64 = 1e-13;
    if value.abs() < LEAST {
        return Some(Decimal::ZERO);
    }
    // One digit stands before the point. Not `Decimal::from_f64`, which lets the noise of the 16th digit through.
    let digits = format!("{value:.14e}");
    Some(Decimal::from_scientific(&digits).ok()?.normalize())
}

/// An amount of money with exactly so many decimals, rounded half away from zero; groups and signs as of [`super::fixed`].
///
/// ```
/// # use nibwright::number::{DecimalSign, money, parse_decimal};
/// let amount = parse_decimal("7.365").unwrap();
/// assert_eq!(money(amount, 2, DecimalSign::Comma), "7,37");
/// ```
#[must_use]
pub fn money(amount: Decimal, decimals: u32, sign: DecimalSign) -> String {
    let mut rounded = amount.round_dp_with_strategy(decimals, RoundingStrategy::MidpointAwayFromZero);
    rounded.rescale(decimals);
    let is_negative = rounded.is_sign_negative() && !rounded.is_zero();
    dressed(&rounded.abs().to_string(), if is_negative { -1.0 } else { 1.0 }, sign)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, decimals: u32, shown: &str) {
        let amount = parse_decimal(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert_eq!(money(amount, decimals, DecimalSign::Point), shown, "{text}");
    }

    #[test]
    fn money_is_rounded_once_half_away_from_zero() {
        for (text, decimals, shown) in [
            ("1.005", 2, "1.01"),
            ("2.675", 2, "2.68"),
            ("0.0805", 3, "0.081"),
            ("11.2", 2, "11.20"),
            ("3", 2, "3.00"),
            ("12345.5", 2, "12\u{202f}345.50"),
            ("-0.005", 2, "−0.01"),
            ("-0.004", 2, "0.00"),
        ] {
            check(text, decimals, shown);
        }
    }

    #[test]
    fn what_is_typed_stays_as_it_was_typed() {
        for text in ["0.1", "11.2", "999999999.99", "0.000001", "123456789.123456", "4245355.98"] {
            assert_eq!(parse_decimal(text).map(|amount| amount.to_string()), Ok(text.to_owned()));
        }
        assert!(parse_decimal("1e300").is_err() && parse_decimal("eleven").is_err());
        assert_eq!(to_decimal(f64::NAN), None);
        assert_eq!(to_decimal(f64::INFINITY), None);
        assert_eq!(to_decimal(1e-300), Some(Decimal::ZERO));
    }

    proptest::proptest! {
        #[test]
        fn fifteen_digits_come_back(digits in 0..1_000_000_000_000_000_i64, scale in 0..=12_u32) {
            let amount = Decimal::new(digits, scale).normalize();
            proptest::prop_assert_eq!(parse_decimal(&amount.to_string()), Ok(amount));
        }
    }
}
