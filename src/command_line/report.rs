//! `nibwright report FILE`: what the readings show, as text or JSON.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use rust_decimal::Decimal;

use super::input::MassArguments;
use crate::analysis::{ROOM, analyse};
use crate::number::{DecimalSign, parse_decimal};
use crate::production::cost::cost;
use crate::production::selling::{Margin, Selling};
use crate::report::{json, text};
use crate::store;
use crate::units::Celsius;

/// Temperatures for which a report makes sense: from the deep freezer to the sugar pan; the help names them.
const ASKED_FOR: std::ops::RangeInclusive<f64> = -40.0..=200.0;

/// Arguments of `report`.
#[derive(Debug, Args)]
pub struct ReportArguments {
    /// A recipe (.ron), a table (.csv, .tsv), or - for a table on standard input.
    file: PathBuf,
    /// Text for people or JSON for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Temperature in °C of the solid fat, the phase bar and a seeded bowl.
    #[arg(
        long,
        value_name = "CELSIUS",
        default_value_t = ROOM.0,
        allow_negative_numbers = true,
        value_parser = parse_celsius,
        help = format!(
            "Temperature in °C of the solid fat, the phase bar and a seeded bowl, {} to {}",
            ASKED_FOR.start(),
            ASKED_FOR.end()
        )
    )]
    at: f64,
    #[command(flatten)]
    mass: MassArguments,
    /// Your price list (.csv): adds what the ingredients cost.
    #[arg(long, value_name = "LIST")]
    prices: Option<PathBuf>,
    /// Percent of the price that are not cost: adds the price to sell at.
    #[arg(long, value_name = "PERCENT", requires = "prices", value_parser = parse_margin)]
    margin: Option<Margin>,
    /// Value added tax in percent: adds the price with it.
    #[arg(long, value_name = "PERCENT", requires = "margin", value_parser = parse_tax)]
    tax: Option<Decimal>,
}

/// The form of the report.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Columns for people.
    Text,
    /// The documented JSON.
    Json,
}

impl ReportArguments {
    pub(super) fn run(&self) -> Result<String, String> {
        let recipe = self.mass.recipe(&self.file)?;
        let analysis = analyse(&recipe, Celsius(self.at));
        let prices = self.prices.as_deref().map(store::load_price_list).transpose();
        let prices = prices.map_err(|error| error.to_string())?;
        let cost = prices.map(|prices| cost(&recipe, &analysis.make_up, &prices));
        let selling = self.margin.map(|margin| Selling { margin, tax_percent: self.tax });
        let priced = cost.as_ref().map(|cost| (cost, selling));
        match self.format {
            Format::Text => Ok(text::with_cost(&recipe, &analysis, priced, DecimalSign::Point)),
            Format::Json => json::with_cost(&recipe, &analysis, priced).map_err(|error| error.to_string()),
        }
    }
}

fn parse_margin(text: &str) -> Result<Margin, String> {
    let percent = parse_decimal(text).map_err(|error| error.to_string())?;
    Margin::from_percent(percent).map_err(|error| error.to_string())
}

fn parse_tax(text: &str) -> Result<Decimal, String> {
    let refuse = || "give the tax in percent of the price, from 0 to 100, such as 10".to_owned();
    let percent = parse_decimal(text).map_err(|_| refuse())?;
    if (Decimal::ZERO..=Decimal::ONE_HUNDRED).contains(&percent) { Ok(percent) } else { Err(refuse()) }
}

fn parse_celsius(text: &str) -> Result<f64, String> {
    let refuse =
        || format!("give a temperature between {} and {} °C, such as 27.5", ASKED_FOR.start(), ASKED_FOR.end());
    let value = super::input::parse_temperature(text).ok_or_else(refuse)?.0;
    if ASKED_FOR.contains(&value) { Ok(value) } else { Err(refuse()) }
}
