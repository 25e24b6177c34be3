//! What an ingredient costs: money for a quantity as it is bought, how much of it can be used, and from when that is.

use std::fmt;

use rust_decimal::Decimal;
use thiserror::Error;

use super::date::Date;
use crate::number::to_decimal;
use crate::recipe::MassUnit;
use crate::units::Grams;

/// How much of a wrong text a message repeats, in characters.
pub(super) const LONGEST_SHOWN: usize = 30;

/// The price of an ingredient.
///
/// Invariant: every figure lies in its range ([`PriceError`]) and has at most [`Price::MOST_DECIMALS`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Price {
    amount: Decimal,
    currency: Currency,
    per: Decimal,
    unit: MassUnit,
    usable_percent: Decimal,
    date: Option<Date>,
}

/// The word that stands beside amounts of money, as the user writes it. Nothing is converted.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency(String);

/// Why a price is refused.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum PriceError {
    /// The amount of money is below zero or beyond every price.
    #[error("a price of {amount} cannot be; give one from 0 to {}", Price::MOST)]
    Amount {
        /// What was given.
        amount: Decimal,
    },
    /// The quantity that it is for is nothing or beyond every purchase.
    #[error(
        "a price for {per} cannot be; give the quantity that is bought, from {} to {}",
        Price::LEAST_PER,
        Price::MOST
    )]
    Per {
        /// What was given.
        per: Decimal,
    },
    /// The usable share is no share.
    #[error(
        "{percent} % cannot be the usable part; give what is left after trimming, from {} to 100",
        Price::LEAST_USABLE_PERCENT
    )]
    Usable {
        /// What was given.
        percent: Decimal,
    },
    /// More decimals than any price has.
    #[error("{figure} has too many decimals; use at most {}", Price::MOST_DECIMALS)]
    Decimals {
        /// What was given.
        figure: Decimal,
    },
    /// There is no currency.
    #[error("the currency is missing; write its word or sign, such as EUR")]
    NoCurrency,
    /// The currency is no word.
    #[error(
        "\"{}\" is no currency; write a word or sign of at most {} characters, without digits",
        text.escape_debug(),
        Currency::LONGEST
    )]
    Currency {
        /// Its beginning.
        text: String,
    },
}

impl Price {
    /// The largest amount of money and the largest pack; beyond it a typing error is certain.
    pub const MOST: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);
    /// The smallest pack, in its unit.
    pub const LEAST_PER: Decimal = Decimal::from_parts(1, 0, 0, false, 3);
    /// The smallest usable share that means something, in percent.
    pub const LEAST_USABLE_PERCENT: Decimal = Decimal::from_parts(1, 0, 0, false, 1);
    /// The most decimals of a figure.
    pub const MOST_DECIMALS: u32 = 6;

    /// So much money for so many of a unit, all of it usable, from no particular day.
    ///
    /// # Errors
    ///
    /// [`PriceError`] when a figure is out of its range.
    pub fn new(amount: Decimal, currency: Currency, per: Decimal, unit: MassUnit) -> Result<Self, PriceError> {
        let amount = plain(amount)?;
        if amount.is_sign_negative() || amount > Self::MOST {
            return Err(PriceError::Amount { amount });
        }
        let per = plain(per)?;
        if per < Self::LEAST_PER || per > Self::MOST {
            return Err(PriceError::Per { per });
        }
        Ok(Self { amount, currency, per, unit, usable_percent: Decimal::ONE_HUNDRED, date: None })
    }

    /// The same price of something of which only so many percent can be used: peel, shells and what sticks to the bag are
    /// paid for as well.
    ///
    /// # Errors
    ///
    /// [`PriceError`] when it is no share.
    pub fn usable(self, percent: Decimal) -> Result<Self, PriceError> {
        let percent = plain(percent)?;
        if percent < Self::LEAST_USABLE_PERCENT || percent > Decimal::ONE_HUNDRED {
            return Err(PriceError::Usable { percent });
        }
        Ok(Self { usable_percent: percent, ..self })
    }

    /// The same price, as it is from a day.
    #[must_use]
    pub fn dated(self, date: Date) -> Self {
        Self { date: Some(date), ..self }
    }

    /// The money for [`Self::per`] of its unit.
    #[must_use]
    pub fn amount(&self) -> Decimal {
        self.amount
    }

    /// The word for the money.
    #[must_use]
    pub fn currency(&self) -> &Currency {
        &self.currency
    }

    /// How many of the unit are bought for the amount.
    #[must_use]
    pub fn per(&self) -> Decimal {
        self.per
    }

    /// The unit in which it is bought.
    #[must_use]
    pub fn unit(&self) -> MassUnit {
        self.unit
    }

    /// How much of what is bought can be used, in percent.
    #[must_use]
    pub fn usable_percent(&self) -> Decimal {
        self.usable_percent
    }

    /// From when the price is.
    #[must_use]
    pub fn date(&self) -> Option<Date> {
        self.date
    }

    /// What so many grams cost that go into a batch.
    ///
    /// cost = grams · amount / (per · grams of the unit · usable share)
    ///
    /// Source: common production arithmetic. Nothing is rounded but at the 28th digit; grams count with 15 digits.
    /// `None` only for grams that are no weight.
    ///
    /// By hand: 60 g at 2.40 for 1 kg of which 98 % can be used cost 60 · 2.40/(1000 · 0.98) = 0.146939.
    ///
    /// ```
    /// # use nibwright::{number::parse_decimal, production::price::{Currency, Price}, recipe::MassUnit, units::Grams};
    /// let decimal = |text| parse_decimal(text).unwrap();
    /// let price = Price::new(decimal("2.40"), Currency::new("EUR").unwrap(), decimal("1"), MassUnit::Kilogram).unwrap();
    /// let cost = price.usable(decimal("98")).unwrap().of(Grams(60.0)).unwrap();
    /// assert_eq!(cost.round_dp(6), decimal("0.146939"));
    /// ```
    #[must_use]
    pub fn of(&self, grams: Grams) -> Option<Decimal> {
        let bought = self.per.checked_mul(grams_of(self.unit))?.checked_mul(self.usable_percent)?;
        let grams = to_decimal(grams.0).filter(|grams| !grams.is_sign_negative())?;
        grams.checked_mul(self.amount)?.checked_mul(Decimal::ONE_HUNDRED)?.checked_div(bought)
    }
}

/// The exact grams of a unit: the pound is 453.59237 g, the ounce a sixteenth of it (NIST SP 811, Appendix B).
fn grams_of(unit: MassUnit) -> Decimal {
    match unit {
        MassUnit::Gram => Decimal::ONE,
        MassUnit::Kilogram => Decimal::ONE_THOUSAND,
        MassUnit::Ounce => Decimal::new(28_349_523_125, 9),
        MassUnit::Pound => Decimal::new(45_359_237, 5),
    }
}

/// A figure without zeros at its end, if it has no more decimals than a price has.
fn plain(figure: Decimal) -> Result<Decimal, PriceError> {
    let figure = figure.normalize();
    if figure.scale() > Price::MOST_DECIMALS { Err(PriceError::Decimals { figure }) } else { Ok(figure) }
}

impl Currency {
    /// The longest word, in characters.
    pub const LONGEST: usize = 12;

    /// The currency with this word or sign; blanks around it do not belong to it.
    ///
    /// # Errors
    ///
    /// [`PriceError`] when it is empty, too long, or holds a digit, a quotation mark or a control character.
    pub fn new(text: &str) -> Result<Self, PriceError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(PriceError::NoCurrency);
        }
        let is_wrong = |character: char| character.is_numeric() || character.is_control() || character == '"';
        if text.chars().count() > Self::LONGEST || text.contains(is_wrong) {
            return Err(PriceError::Currency { text: text.chars().take(LONGEST_SHOWN).collect() });
        }
        Ok(Self(text.to_owned()))
    }

    /// The word.
    #[must_use]
    pub fn words(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::parse_decimal;

    fn decimal(text: &str) -> Decimal {
        parse_decimal(text).expect("a number")
    }

    fn euro() -> Currency {
        Currency::new("EUR").expect("a word")
    }

    fn check_cost(price: (&str, &str, MassUnit), grams: f64, cost: &str) {
        let (amount, per, unit) = price;
        let price = Price::new(decimal(amount), euro(), decimal(per), unit).expect("a price");
        assert_eq!(price.of(Grams(grams)), Some(decimal(cost)), "{amount} for {per} {unit:?}, {grams} g");
    }

    /// By hand; the pound is 453.59237 g (NIST SP 811).
    #[test]
    fn a_price_is_for_the_pack_that_is_bought() {
        check_cost(("11.20", "1", MassUnit::Kilogram), 500.0, "5.6");
        check_cost(("28", "2.5", MassUnit::Kilogram), 500.0, "5.6");
        check_cost(("0.03", "1", MassUnit::Gram), 500.0, "15");
        check_cost(("4.5", "1", MassUnit::Pound), 453.592_37, "4.5");
        check_cost(("8", "16", MassUnit::Ounce), 453.592_37, "8");
        check_cost(("0", "1", MassUnit::Kilogram), 500.0, "0");
    }

    #[test]
    fn the_largest_and_the_smallest_figures_are_still_computed() {
        let dear = Price::new(Price::MOST, euro(), Price::LEAST_PER, MassUnit::Gram)
            .and_then(|price| price.usable(Price::LEAST_USABLE_PERCENT));
        let cost = dear.expect("it is in range").of(crate::recipe::Quantity::MOST);
        assert_eq!(cost, Some(Decimal::from_i128_with_scale(10_i128.pow(24), 0)));
        let price = Price::new(Decimal::ONE, euro(), Decimal::ONE, MassUnit::Kilogram).expect("a price");
        assert_eq!(price.of(Grams(f64::NAN)), None);
        assert_eq!(price.of(Grams(-1.0)), None);
    }

    #[test]
    fn figures_out_of_range_are_refused_with_what_to_do() {
        let price = |amount: &str, per: &str| Price::new(decimal(amount), euro(), decimal(per), MassUnit::Kilogram);
        let usable = |percent: &str| price("1", "1").expect("a price").usable(decimal(percent));
        for (result, words) in [
            (price("-1", "1"), "a price of -1 cannot be"),
            (price("1000000001", "1"), "from 0 to 1000000000"),
            (price("1", "0"), "a price for 0 cannot be"),
            (price("1", "-2"), "a price for -2 cannot be"),
            (price("1.2345678", "1"), "too many decimals"),
            (usable("0"), "0 % cannot be the usable part"),
            (usable("100.1"), "100.1 % cannot be"),
        ] {
            let error = result.expect_err(words).to_string();
            assert!(error.contains(words) && error.contains("; "), "{error}");
        }
    }

    #[test]
    fn a_currency_is_a_short_word_or_sign() {
        for text in ["EUR", "€", "Fr.", " US dollar "] {
            assert_eq!(Currency::new(text).expect(text).words(), text.trim());
        }
        assert_eq!(Currency::new("  "), Err(PriceError::NoCurrency));
        for text in ["5", "EUR 5", "a\nb", "a very long currency", "\"EUR\""] {
            assert!(matches!(Currency::new(text), Err(PriceError::Currency { .. })), "{text}");
        }
    }
}
