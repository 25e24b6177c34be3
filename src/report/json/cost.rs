//! The cost of the ingredients in the JSON report. Money is not rounded here either.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;
use serde::Serialize;

use crate::production::cost::{self, NoCost};
use crate::production::price::Currency;
use crate::production::selling::{Selling, with_tax};
use crate::recipe::Recipe;

#[derive(Serialize)]
pub(super) struct Cost<'a> {
    currency: Option<&'a str>,
    batch: Option<f64>,
    per_kg: Option<f64>,
    per_piece: Option<f64>,
    at_least: Option<Totals>,
    lines: Vec<Line<'a>>,
    oldest_price: Option<String>,
    selling: Option<Prices>,
}

#[derive(Serialize)]
struct Totals {
    batch: Option<f64>,
    per_kg: Option<f64>,
    per_piece: Option<f64>,
}

#[derive(Serialize)]
struct Line<'a> {
    ingredient: &'a str,
    name: &'a str,
    cost: Option<f64>,
    why_not: Option<&'static str>,
}

#[derive(Serialize)]
struct Prices {
    margin_percent: Option<f64>,
    markup_percent: Option<f64>,
    tax_percent: Option<f64>,
    without_tax: Totals,
    with_tax: Option<Totals>,
}

fn number(money: Decimal) -> Option<f64> {
    money.to_f64()
}

impl Totals {
    /// The totals, each made into something else.
    fn of(totals: cost::Totals, change: impl Fn(Decimal) -> Option<Decimal>) -> Self {
        let figure = |money: Option<Decimal>| money.and_then(&change).and_then(number);
        Self {
            batch: figure(Some(totals.batch)),
            per_kg: figure(totals.per_kilogram),
            per_piece: figure(totals.per_piece),
        }
    }
}

impl<'a> Cost<'a> {
    pub(super) fn new(recipe: &'a Recipe, cost: &'a cost::Cost, selling: Option<Selling>) -> Self {
        let of = |totals| Totals::of(totals, Some);
        let Totals { batch, per_kg, per_piece } =
            cost.totals().map_or(Totals { batch: None, per_kg: None, per_piece: None }, of);
        Self {
            currency: cost.currency.as_ref().map(Currency::words),
            batch,
            per_kg,
            per_piece,
            at_least: cost.at_least().map(of),
            lines: cost
                .lines
                .iter()
                .filter_map(|line| {
                    let ingredient = &recipe.line(line.id)?.ingredient;
                    Some(Line {
                        ingredient: &ingredient.id,
                        name: &ingredient.name,
                        cost: line.cost.as_ref().ok().copied().and_then(number),
                        why_not: line.cost.as_ref().err().map(|why| match why {
                            NoCost::NoPrice => "no_price",
                            NoCost::OtherCurrency(_) => "other_currency",
                        }),
                    })
                })
                .collect(),
            oldest_price: cost.oldest.map(|day| day.to_string()),
            selling: cost.totals().zip(selling).map(|(totals, selling)| {
                let Selling { margin, tax_percent } = selling;
                Prices {
                    margin_percent: number(margin.percent()),
                    markup_percent: margin.markup_percent().and_then(number),
                    tax_percent: tax_percent.and_then(number),
                    without_tax: Totals::of(totals, |cost| margin.price(cost)),
                    with_tax: tax_percent.map(|tax| {
                        Totals::of(totals, |cost| margin.price(cost).and_then(|price| with_tax(price, tax)))
                    }),
                }
            }),
        }
    }
}
