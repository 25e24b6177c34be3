//! Cost in words, the same in the window and in the text report.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use crate::number::{DecimalSign, fixed, money, round_half_up, rounded_parts};
use crate::production::cost::{Cost, LineCost, NoCost};
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

/// What every line costs, rounded so that the column adds up to the sum as it is shown; or why that is not known.
#[must_use]
pub fn lines(cost: &Cost, sign: DecimalSign) -> Vec<Result<String, String>> {
    let number = |money: Decimal| money.to_f64().unwrap_or_default();
    let costs: Vec<f64> = cost.lines.iter().filter_map(|line| line.cost.as_ref().ok().copied().map(number)).collect();
    let sum = round_half_up(number(cost.known.batch), COINS);
    let mut shown = rounded_parts(&costs, sum, COINS).into_iter();
    let of_line = |line: &LineCost| match &line.cost {
        Ok(_) => Ok(fixed(shown.next().unwrap_or_default(), COINS, sign)),
        Err(why) => Err(no_cost(why)),
    };
    cost.lines.iter().map(of_line).collect()
}

/// Why a line has no cost.
#[must_use]
pub fn no_cost(why: &NoCost) -> String {
    match why {
        NoCost::NoPrice => "no price".to_owned(),
        NoCost::OtherCurrency(currency) => format!("priced in {currency}, which is not converted"),
    }
}
