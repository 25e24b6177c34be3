//! The amounts of the text report: what is weighed, what is lost, what it is made of, and which line brings what.
//!
//! Amounts that stand in one column add up as they are shown: all are rounded to the same decimals, and losses are
//! shown as differences of what stands above and below them.

use std::fmt::Write as _;

use super::words::food;
use super::{NAME_WIDTH, Writer, clipped, heading, words};
use crate::analysis::cooking::{Cooking, Evaporating, NotCooked, WATER_UNCERTAINTY, share_of};
use crate::analysis::make_up::LineMakeUp;
use crate::analysis::parts::{Group, Parts};
use crate::ingredient::Component;
use crate::number::{SCALES, fixed, grams, round_half_up, rounded_parts, shortest};
use crate::recipe::Evaporation;
use crate::units::{Grams, MassFraction};

/// Widest ingredient name beside the columns of what it brings.
const SHORT_NAME_WIDTH: usize = 25;

/// Width of a column of what lines bring, without the blank before it.
const COLUMN_WIDTH: usize = 8;

/// From this mass on tenths of grams say nothing.
const LARGE_BATCH: Grams = Grams(10_000.0);

/// Least ethanol that has a column of its own.
const SEEN: Grams = Grams(0.05);

/// The groups that are more than one component.
const GROUPS: [Group; 6] = [
    Group::TotalFat,
    Group::Sugars,
    Group::OtherSolids,
    Group::MilkSolidsNonFat,
    Group::DryCocoaSolids,
    Group::SyrupSolids,
];

/// A column of what lines bring: the two rows of its heading and what it counts.
struct Column {
    heading: [&'static str; 2],
    of: fn(&Parts) -> Option<Grams>,
}

const COLUMNS: [Column; 7] = [
    Column { heading: ["cocoa", "butter"], of: |parts| parts.group(Group::CocoaButter) },
    Column { heading: ["milk", "fat"], of: |parts| parts.group(Group::MilkFat) },
    Column { heading: ["other", "fat"], of: |parts| parts.group(Group::OtherFat) },
    Column { heading: ["", "sugars"], of: |parts| parts.group(Group::Sugars) },
    Column { heading: ["", "water"], of: |parts| parts.group(Group::Water) },
    Column { heading: ["dry", "cocoa"], of: |parts| parts.group(Group::FatFreeCocoaSolids) },
    Column { heading: ["other", "solids"], of: |parts| parts.group(Group::OtherSolids) },
];

const ETHANOL: Column = Column { heading: ["", "alcohol"], of: |parts| parts.grams(Component::Ethanol) };

/// The column from which water evaporates.
const WATER: usize = 4;

impl Writer<'_> {
    pub(super) fn lines(&self, out: &mut String) -> std::fmt::Result {
        let make_up = &self.analysis.make_up;
        let decimals = self.weighing_decimals();
        let shown = |grams: Grams| round_half_up(grams.0, decimals);
        let (weighed, bowl, finished) = (shown(make_up.weighed), shown(make_up.bowl.total()), shown(make_up.finished));
        let amounts: Vec<f64> = self.recipe.lines.iter().map(|line| line.amount.grams().0).collect();
        let amounts = rounded_parts(&amounts, weighed, decimals);

        let amount = |value: f64| format!("{} g", fixed(value, decimals, self.sign));
        writeln!(out)?;
        for ((line, brought), grams) in self.recipe.lines.iter().zip(&make_up.lines).zip(amounts) {
            let seed = if line.is_seed { " (seed)" } else { "" };
            let name = clipped(&format!("{}{seed}", line.ingredient.name), NAME_WIDTH);
            let share = self.percent(Some(brought.share_of(make_up.weighed)));
            writeln!(out, "  {name:NAME_WIDTH$} {:>12} {share:>8}", amount(grams))?;
        }
        let mut row = |name: &str, value: f64| writeln!(out, "  {name:NAME_WIDTH$} {:>12}", amount(value));
        row("together", weighed)?;
        let (evaporates, is_lost) = (make_up.evaporated.0 > 0.0, self.recipe.losses.transfer.share().0 > 0.0);
        if evaporates {
            row("water that evaporates", weighed - bowl)?;
        }
        if evaporates && is_lost {
            row("in the bowl", bowl)?;
        }
        if is_lost {
            row("lost in bowls and bags", bowl - finished)?;
        }
        row("finished mass", finished)?;
        self.way_of_evaporation(out)
    }

    /// How the water that evaporates was found, where it was not weighed.
    fn way_of_evaporation(&self, out: &mut String) -> std::fmt::Result {
        let make_up = &self.analysis.make_up;
        match make_up.evaporating {
            Evaporating::Weighed { .. } => Ok(()),
            Evaporating::Estimated { heating, liquid } => {
                let of = liquid.map_or("liquid that is not known".to_owned(), |liquid| {
                    let share = self.percent(Some(share_of(heating)));
                    format!("{share} of {} g of liquid", grams(liquid.0, self.sign))
                });
                writeln!(out, "\n  evaporation estimated: {}, {of}", heating.words())
            }
            Evaporating::Cooked(Cooking { temperature, height, outcome, .. }) => {
                let celsius = shortest(temperature.celsius().0, 2, self.sign);
                let metres = shortest(height.metres().0, 0, self.sign);
                let comes_of_it = match outcome {
                    Ok(cooked) => {
                        let share = self.percent(Some(cooked.water_left / make_up.bowl.total()));
                        let give_or_take = fixed(WATER_UNCERTAINTY.to_percent(), 1, self.sign);
                        format!("{share} of the mass stays water, ± {give_or_take}")
                    }
                    Err(NotCooked::Unknown) => "what boils off is not known".to_owned(),
                    Err(_) => "nothing boils off, see the findings".to_owned(),
                };
                writeln!(out, "\n  cooked to {celsius} °C at {metres} m: {comes_of_it}")
            }
        }
    }

    pub(super) fn make_up(&self, out: &mut String) -> std::fmt::Result {
        let bowl = &self.analysis.make_up.bowl;
        heading(out, "Make-up")?;
        if bowl.total().0 <= 0.0 {
            return writeln!(out, "  {}", words::not_known(self.analysis));
        }
        writeln!(out, "  {:26} {:>12} {:>14}", "", "g per 100 g", "in the bowl")?;
        let share = |grams: Option<Grams>| grams.filter(|_| bowl.total().0 > 0.0).map(|grams| grams / bowl.total());
        let row = |out: &mut String, name: &str, grams: Option<Grams>| {
            let amount = self.small_amount(grams).map_or("not known".to_owned(), |grams| format!("{grams} g"));
            writeln!(out, "  {name:26} {:>12} {amount:>14}", self.percent(share(grams)))
        };
        for component in Component::ALL {
            /// What shows as 0.0 % is left out; a figure that is not known is not.
            const LEAST: MassFraction = MassFraction(0.0005);
            let grams = bowl.grams(component);
            if grams.is_none() || share(grams).is_some_and(|share| share >= LEAST) {
                row(out, component.words(), grams)?;
            }
        }
        row(out, "left open by data sheets", bowl.unassigned())?;
        writeln!(out)?;
        for group in GROUPS {
            row(out, group.words(), bowl.group(group))?;
        }
        self.food(out)
    }

    /// Energy and sweetness, with what widens them.
    fn food(&self, out: &mut String) -> std::fmt::Result {
        let energy = self.analysis.energy.as_ref();
        let [kilojoules, kilocalories] = food::energy(energy, self.sign);
        let [sweetness, ends] = food::sweetness(self.analysis.sweetness.as_ref(), self.sign);
        let left_open = energy.and_then(|energy| food::energy_left_open(energy, self.sign));
        writeln!(out)?;
        let mut row = |name: &str, figure: &str, beside: &str, note: &str| {
            writeln!(out, "{}", format!("  {name:26} {figure:>12} {beside:>14}   {note}").trim_end())
        };
        row("energy of 100 g", &kilojoules, &kilocalories, "")?;
        if let Some(ends) = left_open {
            row("  by what is left open", "", &ends, "")?;
        }
        row("sweetness, sugar = 100", &sweetness, &ends, "a sum: fat, bitterness and cold dull it")
    }

    /// Which line brings what, in grams; every column adds up to what is in the bowl.
    pub(super) fn brought(&self, out: &mut String) -> std::fmt::Result {
        let make_up = &self.analysis.make_up;
        if make_up.weighed.0 <= 0.0 {
            return Ok(());
        }
        let has_ethanol = make_up.bowl.grams(Component::Ethanol).is_none_or(|grams| grams >= SEEN);
        let columns: Vec<&Column> = COLUMNS.iter().chain(has_ethanol.then_some(&ETHANOL)).collect();
        let decimals = self.small_decimals();
        let shown = |grams: Grams| round_half_up(grams.0, decimals);
        let evaporated = shown(make_up.evaporated);

        heading(out, "What each line brings, g")?;
        for row in 0..2 {
            let words: Vec<&str> = columns.iter().map(|column| column.heading[row]).collect();
            columns_row(out, "", words.into_iter())?;
        }
        let totals: Vec<Option<f64>> = columns.iter().map(|column| (column.of)(&make_up.bowl).map(shown)).collect();
        let brought: Vec<Vec<Option<f64>>> = columns
            .iter()
            .zip(&totals)
            .enumerate()
            .map(|(idx, (column, total))| {
                let before = total.map(|total| if idx == WATER { total + evaporated } else { total });
                self.column(&make_up.lines, column, before)
            })
            .collect();
        for (row, line) in self.recipe.lines.iter().enumerate() {
            let name = clipped(&line.ingredient.name, SHORT_NAME_WIDTH);
            self.row(out, &name, brought.iter().map(|column| column.get(row).copied().flatten()))?;
        }
        if make_up.evaporated.0 > 0.0 {
            let gone = (0..columns.len()).map(|idx| Some(if idx == WATER { -evaporated } else { 0.0 }));
            self.row(out, "water that evaporates", gone)?;
        }
        self.row(out, "in the bowl", totals.iter().copied())
    }

    /// What each line brings to a column, rounded so that it adds up to what the lines hold together.
    fn column(&self, lines: &[LineMakeUp], column: &Column, whole: Option<f64>) -> Vec<Option<f64>> {
        let grams: Vec<Option<Grams>> = lines.iter().map(|line| (column.of)(&line.parts)).collect();
        let known: Option<Vec<f64>> = grams.iter().map(|grams| grams.map(|grams| grams.0)).collect();
        match (known, whole) {
            (Some(known), Some(whole)) => {
                rounded_parts(&known, whole, self.small_decimals()).into_iter().map(Some).collect()
            }
            _ => grams.into_iter().map(|grams| grams.map(|grams| grams.0)).collect(),
        }
    }

    fn row(&self, out: &mut String, name: &str, values: impl Iterator<Item = Option<f64>>) -> std::fmt::Result {
        let texts = values.map(|value| match value {
            None => "unknown".to_owned(),
            // Nothing, or less than the last digit.
            Some(0.0) => "0".to_owned(),
            Some(value) => fixed(value, self.small_decimals(), self.sign),
        });
        columns_row(out, name, texts)
    }

    /// A computed amount in the bowl.
    fn small_amount(&self, grams: Option<Grams>) -> Option<String> {
        grams.map(|grams| fixed(grams.0, self.small_decimals(), self.sign))
    }

    /// Decimals with which amounts are weighed in: those that the lines need, hundredths at most.
    fn weighing_decimals(&self) -> u32 {
        const MOST: u32 = 2;
        let weighed = self.analysis.make_up.weighed;
        let least = SCALES.iter().find(|(below, _)| weighed.0 < *below).map_or(0, |&(_, decimals)| decimals);
        let weighed_off = match self.recipe.losses.evaporation {
            Evaporation::Weighed(amount) => Some(amount),
            Evaporation::Estimated(_) | Evaporation::CookedTo { .. } => None,
        };
        let amounts = self.recipe.lines.iter().map(|line| line.amount).chain(weighed_off);
        let needed = |grams: f64| {
            (0..MOST).find(|&decimals| round_half_up(grams, decimals) == round_half_up(grams, MOST)).unwrap_or(MOST)
        };
        amounts.map(|amount| needed(amount.grams().0)).max().unwrap_or(0).max(least)
    }

    /// Decimals of computed parts: tenths at least, but none of large batches.
    fn small_decimals(&self) -> u32 {
        let is_large = self.analysis.make_up.weighed >= LARGE_BATCH;
        if is_large { 0 } else { self.weighing_decimals().max(1) }
    }
}

/// A name and its columns, with a blank between them whatever their width.
fn columns_row(out: &mut String, name: &str, texts: impl Iterator<Item = impl AsRef<str>>) -> std::fmt::Result {
    let mut line = format!("  {name:SHORT_NAME_WIDTH$}");
    for text in texts {
        write!(line, " {:>COLUMN_WIDTH$}", text.as_ref())?;
    }
    writeln!(out, "{}", line.trim_end())
}
