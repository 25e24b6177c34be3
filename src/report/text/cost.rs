//! What the ingredients cost, line by line, of a kilogram and of a piece.

use std::fmt::Write as _;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use super::words::cost::{COINS, PIECE, amount, lines};
use super::{NAME_WIDTH, Writer, clipped, heading, wrapped};
use crate::number::{money, shortest};
use crate::production::cost::{Cost, Totals};
use crate::production::price::Currency;
use crate::production::selling::{Selling, with_tax};

impl Writer<'_> {
    pub(super) fn cost(&self, out: &mut String) -> std::fmt::Result {
        let Some(cost) = self.cost else { return Ok(()) };
        heading(out, "Cost of the ingredients")?;
        let Some((currency, known)) = cost.currency.as_ref().zip(cost.at_least()) else {
            return writeln!(out, "  not known: no line has a price in the list");
        };
        self.cost_of_lines(out, cost)?;
        let is_complete = cost.totals().is_some();
        self.totals(out, known, currency, is_complete)?;
        if let Some(day) = cost.oldest {
            writeln!(out, "  {:NAME_WIDTH$} {:>12}", "oldest of these prices", day.to_string())?;
        }
        match (self.selling, is_complete) {
            (Some(selling), true) => self.selling(out, known, currency, selling),
            (Some(_), false) => wrapped(out, "  ", "no price to sell at: first every line needs what it costs"),
            (None, _) => Ok(()),
        }
    }

    fn cost_of_lines(&self, out: &mut String, cost: &Cost) -> std::fmt::Result {
        for (line, figure) in cost.lines.iter().zip(lines(cost, self.sign)) {
            let Some(of) = self.recipe.line(line.id) else { continue };
            let name = clipped(&of.ingredient.name, NAME_WIDTH);
            match figure {
                Ok(figure) => writeln!(out, "  {name:NAME_WIDTH$} {figure:>12}")?,
                Err(why) => writeln!(out, "  {name:NAME_WIDTH$} {:>12}   {why}", "not known")?,
            }
        }
        Ok(())
    }

    fn totals(&self, out: &mut String, totals: Totals, currency: &Currency, is_complete: bool) -> std::fmt::Result {
        let mut row = |name: &str, of: Option<Decimal>, decimals: u32, why_not: &str| match of {
            Some(of) if is_complete => {
                writeln!(out, "  {name:NAME_WIDTH$} {:>12} {currency}", money(of, decimals, self.sign))
            }
            Some(of) => writeln!(out, "  {name:NAME_WIDTH$} {}", amount(of, decimals, currency, false, self.sign)),
            None => writeln!(out, "  {name:NAME_WIDTH$} {:>12}   {why_not}", "not known"),
        };
        row("the batch", Some(totals.batch), COINS, "")?;
        row("1 kg of the finished mass", totals.per_kilogram, COINS, "nor is how much of it there is")?;
        match totals.per_piece {
            Some(piece) => row("a piece", Some(piece), PIECE, ""),
            None => Ok(()),
        }
    }

    fn selling(&self, out: &mut String, cost: Totals, currency: &Currency, selling: Selling) -> std::fmt::Result {
        let Selling { margin, tax_percent } = selling;
        let percent = |percent: Decimal| format!("{} %", shortest(percent.to_f64().unwrap_or_default(), 1, self.sign));
        let markup = margin.markup_percent().map(percent).unwrap_or_default();
        writeln!(out)?;
        writeln!(out, "  sold with a margin of {}, a markup of {markup} on the cost", percent(margin.percent()))?;
        let mut row = |name: String, price: Option<Decimal>, decimals: u32| match price {
            Some(price) => writeln!(out, "  {name:NAME_WIDTH$} {:>12} {currency}", money(price, decimals, self.sign)),
            None => Ok(()),
        };
        for (name, cost, decimals) in
            [("1 kg of the finished mass", cost.per_kilogram, COINS), ("a piece", cost.per_piece, PIECE)]
        {
            let price = cost.and_then(|cost| margin.price(cost));
            row(name.to_owned(), price, decimals)?;
            if let Some(tax) = tax_percent {
                let name = format!("{name}, with {} tax", percent(tax));
                row(name, price.and_then(|price| with_tax(price, tax)), decimals)?;
            }
        }
        Ok(())
    }
}
