//! From a cost to a price: margin and markup, with and without value added tax.

use rust_decimal::Decimal;
use thiserror::Error;

/// The share of a price that is not cost, from 0 up to, not including, 1. It is taken on the price without tax.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margin(Decimal);

/// A margin is refused.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
#[error("a margin of {percent} % cannot be; give a share of the price from 0 to below 100")]
pub struct MarginError {
    /// What was given.
    pub percent: Decimal,
}

/// How a price is to be made of a cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Selling {
    /// The margin.
    pub margin: Margin,
    /// Value added tax in percent of the price without it, if that is asked for.
    pub tax_percent: Option<Decimal>,
}

impl Margin {
    /// So many percent of the price.
    ///
    /// # Errors
    ///
    /// [`MarginError`] when it is below 0 or not below 100: no price leaves that.
    pub fn from_percent(percent: Decimal) -> Result<Self, MarginError> {
        let is_share = percent >= Decimal::ZERO && percent < Decimal::ONE_HUNDRED;
        if is_share { Ok(Self(percent / Decimal::ONE_HUNDRED)) } else { Err(MarginError { percent }) }
    }

    /// The margin in percent of the price.
    #[must_use]
    pub fn percent(self) -> Decimal {
        (self.0 * Decimal::ONE_HUNDRED).normalize()
    }

    /// The price without tax that leaves this margin.
    ///
    /// price = cost / (1 − m)
    ///
    /// m: the margin. Source: common production arithmetic. `None` only beyond 28 digits.
    ///
    /// By hand: a cost of 0.235521 with a margin of 65 % asks for 0.235521/0.35 = 0.672917.
    #[must_use]
    pub fn price(self, cost: Decimal) -> Option<Decimal> {
        cost.checked_div(Decimal::ONE - self.0)
    }

    /// The markup on the cost that comes to the same, in percent.
    ///
    /// u = m / (1 − m)
    ///
    /// By hand: 65 % of the price are 0.65/0.35 = 185.714 % of the cost.
    #[must_use]
    pub fn markup_percent(self) -> Option<Decimal> {
        self.0.checked_mul(Decimal::ONE_HUNDRED)?.checked_div(Decimal::ONE - self.0)
    }
}

/// A price with value added tax of so many percent of the price without.
///
/// price · (1 + tax / 100)
///
/// By hand: 0.672917 with 10 % is 0.740209. `None` only beyond 28 digits.
#[must_use]
pub fn with_tax(price: Decimal, tax_percent: Decimal) -> Option<Decimal> {
    price.checked_mul(Decimal::ONE_HUNDRED.checked_add(tax_percent)?)?.checked_div(Decimal::ONE_HUNDRED)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::parse_decimal;

    fn decimal(text: &str) -> Decimal {
        parse_decimal(text).expect("a number")
    }

    /// Common production arithmetic, by hand: 0.235521/0.35 and 0.65/0.35.
    #[test]
    fn a_margin_is_part_of_the_price_and_a_markup_part_of_the_cost() {
        let margin = Margin::from_percent(decimal("65")).expect("a margin");
        let price = margin.price(decimal("0.235521")).expect("a price");
        assert_eq!(price.round_dp(6), decimal("0.672917"));
        assert_eq!(with_tax(price, decimal("10")).map(|price| price.round_dp(6)), Some(decimal("0.740209")));
        assert_eq!(margin.markup_percent().map(|markup| markup.round_dp(3)), Some(decimal("185.714")));
        assert_eq!(margin.percent(), decimal("65"));
        let none = Margin::from_percent(Decimal::ZERO).expect("no margin");
        assert_eq!(none.price(decimal("3")), Some(decimal("3")));
    }

    #[test]
    fn no_price_leaves_all_of_itself_or_less_than_nothing() {
        for percent in ["-1", "100", "120"] {
            assert!(Margin::from_percent(decimal(percent)).is_err(), "{percent}");
        }
    }
}
