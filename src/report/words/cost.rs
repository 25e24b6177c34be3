//! Cost in words, the same in the window and in the text report.

use rust_decimal::Decimal;

use crate::number::{DecimalSign, money};
use crate::production::cost::NoCost;
use crate::production::price::Currency;

/// Decimals of money for batches and kilograms: the smallest coin of most countries.
pub const COINS: u32 = 2;

/// Decimals of money for a piece, which costs a few coins: a tenth of one.
pub const PIECE: u32 = 3;

/// An amount of money with its currency behind it, with "at least" in front where a part of it is not known.
#[must_use]
pub fn amount(amount: Decimal, decimals: u32, currency: &Currency, is_complete: bool, sign: DecimalSign) -> String {
    let at_least = if is_complete { "" } else { "at least " };
    format!("{at_least}{} {currency}", money(amount, decimals, sign))
}

/// Why a line has no cost.
#[must_use]
pub fn no_cost(why: &NoCost) -> String {
    match why {
        NoCost::NoPrice => "no price".to_owned(),
        NoCost::OtherCurrency(currency) => format!("priced in {currency}, which is not converted"),
    }
}
