//! The weighing list of a day: what stands beside the scale.

use std::fmt::Write as _;

use super::{NAME_WIDTH, clipped, heading, wrapped};
use rust_decimal::Decimal;

use crate::number::{DecimalSign, fixed, money};
use crate::production::day::{Day, Work};
use crate::production::piece_cost::WorkCost;
use crate::production::weighing::Bowls;
use crate::recipe::{Recipe, Use};
use crate::report::words::batch::{batch, mass, seed_of_the_day};
use crate::report::words::cost::{COINS, PIECE, amount as money_words, no_cost};
use crate::report::words::weighing::{decimals, note, on_scale, remark, rounding_moves, seed_not_in_cost};
use crate::units::Grams;

/// The weighing list of a day.
#[must_use]
pub fn weighing_list(day: &Day, sign: DecimalSign) -> String {
    let mut text = String::new();
    // Writing to a String cannot fail.
    let _ = List { sign }.write(day, &mut text);
    text
}

struct List {
    sign: DecimalSign,
}

impl List {
    fn write(&self, day: &Day, out: &mut String) -> std::fmt::Result {
        for (idx, work) in day.works.iter().enumerate() {
            if idx > 0 {
                writeln!(out)?;
                writeln!(out)?;
            }
            self.work(work, out)?;
            if let Some(cost) = &work.cost {
                self.cost(work, cost, out)?;
            }
        }
        if day.works.len() > 1 || day.ready.is_some() {
            writeln!(out)?;
            self.seed_of_the_day(day, out)?;
        }
        Ok(())
    }

    fn work(&self, work: &Work, out: &mut String) -> std::fmt::Result {
        let recipe = &work.batch.recipe;
        let name = if recipe.name.is_empty() { "Unnamed recipe" } else { &recipe.name };
        let intended_use = recipe.intended_use.map(Use::words).map(|words| format!(" for {words}")).unwrap_or_default();
        writeln!(out, "{name}")?;
        writeln!(out, "{}{intended_use}", recipe.kind.words())?;
        self.batch(work, out)?;
        let mut first = 1;
        for bowls in &work.weighing.bowls {
            self.bowls(work, bowls, first, out)?;
            first += bowls.count;
        }
        if work.weighing.count() > 1 {
            self.all_bowls(work, out)?;
        }
        if let Some((base, relative)) = work.relative_to_base() {
            heading(out, &format!("In percent of {} (not of the mass)", base.ingredient.short_name()))?;
            for (line, share) in recipe.lines.iter().zip(relative) {
                let name = clipped(&line.ingredient.name, NAME_WIDTH);
                writeln!(out, "  {name:NAME_WIDTH$} {:>12}", fixed(share.to_percent(), 2, self.sign))?;
            }
        }
        if !work.notes.is_empty() {
            heading(out, "To know")?;
            for it in &work.notes {
                wrapped(out, "  - ", &note(it, self.sign))?;
            }
        }
        Ok(())
    }

    /// What it costs: the ingredients, a kilogram of what comes out, a piece; "at least", where lines have no price.
    fn cost(&self, work: &Work, cost: &WorkCost, out: &mut String) -> std::fmt::Result {
        heading(out, "Cost")?;
        let Some((currency, known)) = cost.ingredients.currency.as_ref().zip(cost.ingredients.at_least()) else {
            return writeln!(out, "  not known: no line has a price in the list");
        };
        let is_complete = cost.ingredients.totals().is_some();
        row(out, "the batch", &money_words(known.batch, COINS, currency, is_complete, self.sign))?;
        if let Some(per_kilogram) = cost.per_kilogram_at_least {
            let words = money_words(per_kilogram, COINS, currency, is_complete, self.sign);
            row(out, "a kilogram of what is left", &words)?;
        }
        if let Some(piece) = &cost.piece_at_least {
            let part = |of: Option<Decimal>| of.map_or("not known".to_owned(), |of| money(of, PIECE, self.sign));
            let total = piece.total().map_or("not known: the shell has no price".to_owned(), |total| {
                money_words(total, PIECE, currency, is_complete, self.sign)
            });
            let parts = format!(
                "{total}: filling {}, shell {}, besides {}",
                part(Some(piece.filling)),
                part(piece.shell),
                part(Some(piece.besides))
            );
            row(out, "a piece", &parts)?;
        }
        if let Some(seed) = seed_not_in_cost(work, self.sign) {
            row(out, "not counted", &seed)?;
        }
        for (why, names) in unpriced(&work.batch.recipe, cost) {
            row(out, &why, &names.join(", "))?;
        }
        Ok(())
    }

    /// What is made, from the scale to the pieces.
    fn batch(&self, work: &Work, out: &mut String) -> std::fmt::Result {
        heading(out, "Batch")?;
        for (figure, text) in batch(work, self.sign) {
            row(out, figure.words(), &text)?;
        }
        if let Some(moves) = rounding_moves(work, self.sign) {
            row(out, "rounding moves", &moves)?;
        }
        Ok(())
    }

    /// What goes into each of some bowls that are alike.
    fn bowls(&self, work: &Work, bowls: &Bowls, first: u64, out: &mut String) -> std::fmt::Result {
        let last = first + bowls.count - 1;
        let title = match (work.weighing.count(), bowls.count) {
            (1, _) => "Weigh".to_owned(),
            (all, 1) => format!("Weigh for bowl {first} of {all}"),
            (all, _) => format!("Weigh for each of the bowls {first} to {last} of {all}"),
        };
        heading(out, &title)?;
        let most = most_decimals(work);
        for (line, of_recipe) in bowls.weighed.lines.iter().zip(&work.batch.recipe.lines) {
            let name = clipped(&of_recipe.ingredient.name, NAME_WIDTH);
            self.weight(out, &name, line.rounded, line.step, most, &remark(of_recipe, self.sign))?;
        }
        let step = bowls.weighed.lines.iter().map(|line| line.step).reduce(Grams::min).unwrap_or(Grams(1.0));
        self.weight(out, "together", bowls.weighed.total, step, most, "")?;
        if let Some(seed) = bowls.seed {
            self.weight(out, "and the seed, last", seed.rounded, seed.step, most, "")?;
        }
        if let Some(left) = bowls.left().filter(|left| *left < bowls.weighed.total) {
            writeln!(out, "  once heated it weighs {}; what is missing is water", mass(Some(left), self.sign))?;
        }
        Ok(())
    }

    /// A weight with its decimal sign under those of the other scale.
    fn weight(
        &self,
        out: &mut String,
        name: &str,
        mass: Grams,
        step: Grams,
        most: u32,
        note: &str,
    ) -> std::fmt::Result {
        const WIDTH: usize = 12;
        let text = on_scale(mass, step, self.sign);
        let own = decimals(step);
        // The decimals that are missing, and their sign.
        let gap = if own >= most {
            0
        } else {
            usize::try_from(most.saturating_sub(own)).unwrap_or(0) + usize::from(own == 0)
        };
        let blanks = " ".repeat(gap);
        let weight = format!("  {name:NAME_WIDTH$} {:>WIDTH$} g", text + &blanks);
        if note.is_empty() { writeln!(out, "{weight}") } else { wrapped(out, &format!("{weight}  "), note) }
    }

    /// What has to be there for all bowls together.
    fn all_bowls(&self, work: &Work, out: &mut String) -> std::fmt::Result {
        heading(out, &format!("In all {} bowls together", work.weighing.count()))?;
        let most = most_decimals(work);
        // Bowls of different size may have a line on different scales: their sum is a multiple of the finer step.
        let finest = |idx: usize| {
            let steps = work.weighing.bowls.iter().map(|bowls| bowls.weighed.lines[idx].step);
            steps.reduce(Grams::min).unwrap_or(Grams(1.0))
        };
        for (idx, (line, mass)) in work.batch.recipe.lines.iter().zip(&work.weighing.lines).enumerate() {
            self.weight(out, &clipped(&line.ingredient.name, NAME_WIDTH), *mass, finest(idx), most, "")?;
        }
        let of_all = (0..work.weighing.lines.len()).map(finest).reduce(Grams::min).unwrap_or(Grams(1.0));
        self.weight(out, "together", work.weighing.total, of_all, most, "")?;
        let steps = work.weighing.bowls.iter().filter_map(|bowls| bowls.seed).map(|seed| seed.step);
        match work.weighing.seed().zip(steps.reduce(Grams::min)) {
            Some((seed, step)) => self.weight(out, "and the seed, last", seed, step, most, ""),
            None => Ok(()),
        }
    }

    fn seed_of_the_day(&self, day: &Day, out: &mut String) -> std::fmt::Result {
        heading(out, "Seed of the day")?;
        if day.seed.ways.is_empty() {
            return writeln!(out, "  none of the recipes is seeded");
        }
        for (way, text) in seed_of_the_day(day, self.sign) {
            wrapped(out, &format!("  {way:26} "), &text)?;
        }
        Ok(())
    }
}

/// The lines that have no price, by the reason why.
fn unpriced(recipe: &Recipe, cost: &WorkCost) -> Vec<(String, Vec<String>)> {
    let mut reasons: Vec<(String, Vec<String>)> = Vec::new();
    for (id, why) in cost.ingredients.without_price() {
        let Some(line) = recipe.line(id) else { continue };
        let (why, name) = (no_cost(why), line.ingredient.short_name());
        match reasons.iter_mut().find(|(other, _)| *other == why) {
            Some((_, names)) => names.push(name),
            None => reasons.push((why, vec![name])),
        }
    }
    reasons
}

/// The decimals of the finest scale in use, so that all weights stand under each other.
fn most_decimals(work: &Work) -> u32 {
    let of_bowls = |bowls: &Bowls| {
        let lines = bowls.weighed.lines.iter().map(|line| line.step);
        lines.chain(bowls.seed.map(|seed| seed.step)).map(decimals).max()
    };
    work.weighing.bowls.iter().filter_map(of_bowls).max().unwrap_or(0)
}

fn row(out: &mut String, name: &str, text: &str) -> std::fmt::Result {
    wrapped(out, &format!("  {name:26} "), text)
}
