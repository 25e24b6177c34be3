//! `nibwright report FILE`: what the readings show, as text or JSON.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::input::{kinds, parse_kind, parse_use, read_recipe, uses};
use crate::analysis::{ROOM, analyse};
use crate::number::DecimalSign;
use crate::recipe::{Kind, Use};
use crate::report::{json, text};
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
    /// What sort of mass a table is.
    #[arg(long, value_parser = parse_kind, long_help = format!("What sort of mass a table is: {}", kinds()))]
    kind: Option<Kind>,
    /// What the mass of a table is used for.
    #[arg(
        long = "use",
        value_name = "USE",
        value_parser = parse_use,
        long_help = format!("What the mass of a table is used for: {}", uses())
    )]
    intended_use: Option<Use>,
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
        let recipe = read_recipe(&self.file, self.kind, self.intended_use)?;
        let analysis = analyse(&recipe, Celsius(self.at));
        match self.format {
            Format::Text => Ok(text::report(&recipe, &analysis, DecimalSign::Point)),
            Format::Json => json::report(&recipe, &analysis).map_err(|error| error.to_string()),
        }
    }
}

fn parse_celsius(text: &str) -> Result<f64, String> {
    let refuse =
        || format!("give a temperature between {} and {} °C, such as 27.5", ASKED_FOR.start(), ASKED_FOR.end());
    let value = crate::number::parse(text).map_err(|_| refuse())?;
    if ASKED_FOR.contains(&value) { Ok(value) } else { Err(refuse()) }
}
