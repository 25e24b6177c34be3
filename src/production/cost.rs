//! What the ingredients of a batch cost, of a kilogram of what comes out, and of a piece.
//!
//! Ingredients only: no packaging, no work, no energy, no share of the rent. A line without a price leaves the cost
//! unknown; what is known stands there as "at least". Money is never converted: lines that are priced in another currency
//! than the first one count as without a price.

use rust_decimal::Decimal;

use super::date::Date;
use super::price::Currency;
use super::price_list::PriceList;
use crate::analysis::make_up::MakeUp;
use crate::number::to_decimal;
use crate::recipe::{LineId, Recipe};
use crate::units::Grams;

/// What the ingredients of a batch cost.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cost {
    /// In which money; that of the first line with a price, `None` where no line has one.
    pub currency: Option<Currency>,
    /// Every line that weighs anything, in the order of the recipe.
    pub lines: Vec<LineCost>,
    /// What the lines with a price cost together: all of the batch, or the part of it that is known.
    pub known: Totals,
    /// The day of the oldest price that counts, where one says its day.
    pub oldest: Option<Date>,
}

/// What a line costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineCost {
    /// The line.
    pub id: LineId,
    /// The money, or why it is not known.
    pub cost: Result<Decimal, NoCost>,
}

/// Why the cost of a line is not known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoCost {
    /// Its ingredient has no price.
    NoPrice,
    /// Its price is in other money than that of the lines above it.
    OtherCurrency(Currency),
}

/// Money for the whole batch, for a kilogram and for a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Totals {
    /// For the batch.
    pub batch: Decimal,
    /// For a kilogram of the finished mass; `None` without one, or where it is not known how much there is.
    pub per_kilogram: Option<Decimal>,
    /// For a piece; `None` where the recipe does not say how many it makes.
    pub per_piece: Option<Decimal>,
}

impl Cost {
    /// What the batch costs; `None` as soon as one line has no price, and where nothing is weighed.
    #[must_use]
    pub fn totals(&self) -> Option<Totals> {
        (self.currency.is_some() && self.without_price().next().is_none()).then_some(self.known)
    }

    /// What the batch costs at least: the lines with a price alone; `None` where no line has one.
    #[must_use]
    pub fn at_least(&self) -> Option<Totals> {
        self.currency.is_some().then_some(self.known)
    }

    /// The lines of which the cost is not known, and why.
    pub fn without_price(&self) -> impl Iterator<Item = (LineId, &NoCost)> {
        self.lines.iter().filter_map(|line| Some((line.id, line.cost.as_ref().err()?)))
    }
}

/// What the ingredients of a batch cost.
///
/// batch = Σ grams · price by grams / usable share;   kilogram = batch / finished kg;   piece = batch / pieces
///
/// Source: common production arithmetic, with the finished mass (all losses taken off) as the good output.
/// Range: every recipe and every price; nothing is rounded. Lines without a price are named, not counted.
///
/// By hand: 500 g at 11.20/kg, 300 g at 4.10/kg, 60 g at 2.40/kg of which 98 % can be used and 40 g at 9.60/kg cost
/// 5.60 + 1.23 + 0.146939 + 0.384 = 7.360939; with 7 % loss of 900 g that is 8.794431 for a kilogram (tests).
#[must_use]
pub fn cost(recipe: &Recipe, make_up: &MakeUp, prices: &PriceList) -> Cost {
    let mut currency: Option<Currency> = None;
    let mut oldest: Option<Date> = None;
    let mut batch = Decimal::ZERO;
    let mut lines = Vec::new();
    for line in &recipe.lines {
        let grams = line.amount.grams();
        if grams.0 <= 0.0 {
            continue;
        }
        let price = prices.price(&line.ingredient.id);
        let of_line = match price {
            Some(price) if currency.as_ref().is_some_and(|currency| currency != price.currency()) => {
                Err(NoCost::OtherCurrency(price.currency().clone()))
            }
            // Prices and amounts have limits that keep every sum far below the largest decimal.
            Some(price) => price.of(grams).ok_or(NoCost::NoPrice),
            None => Err(NoCost::NoPrice),
        };
        if let (Ok(money), Some(price)) = (&of_line, price) {
            currency.get_or_insert_with(|| price.currency().clone());
            batch = batch.saturating_add(*money);
            oldest = match (oldest, price.date()) {
                (Some(oldest), Some(day)) => Some(oldest.min(day)),
                (oldest, day) => oldest.or(day),
            };
        }
        lines.push(LineCost { id: line.id, cost: of_line });
    }
    // Where it is not known what evaporates, the finished mass is not known either.
    let finished = make_up.evaporating.grams().map(|_| make_up.finished);
    let kilograms = finished.and_then(kilograms_of);
    let pieces = recipe.pieces.map(Decimal::from);
    let over = |divisor: Option<Decimal>| batch.checked_div(divisor?);
    let known = Totals { batch, per_kilogram: over(kilograms), per_piece: over(pieces) };
    Cost { currency, lines, known, oldest }
}

fn kilograms_of(grams: Grams) -> Option<Decimal> {
    to_decimal(grams.0)?.checked_div(Decimal::ONE_THOUSAND).filter(|kilograms| *kilograms > Decimal::ZERO)
}

#[cfg(test)]
mod tests;
