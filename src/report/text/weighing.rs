//! The weighing list of a day: what stands beside the scale.

use std::fmt::Write as _;

use super::{NAME_WIDTH, clipped, heading, wrapped};
use rust_decimal::Decimal;

use crate::number::{DecimalSign, fixed, grams, money, shortest};
use crate::production::day::{Day, Work};
use crate::production::piece_cost::WorkCost;
use crate::production::scaling::{Made, Product};
use crate::production::weighing::Bowls;
use crate::recipe::{Line, Use};
use crate::report::words;
use crate::report::words::cost::{COINS, PIECE, amount as money_words};
use crate::report::words::weighing::{decimals, note, on_scale, seed_of};
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
                self.cost(cost, out)?;
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

    /// What it costs: the ingredients, a kilogram of what comes out, a piece.
    fn cost(&self, cost: &WorkCost, out: &mut String) -> std::fmt::Result {
        heading(out, "Cost")?;
        let Some((currency, known)) = cost.ingredients.currency.as_ref().zip(cost.ingredients.at_least()) else {
            return writeln!(out, "  not known: no line has a price in the list");
        };
        let is_complete = cost.ingredients.totals().is_some();
        row(out, "the batch", &money_words(known.batch, COINS, currency, is_complete, self.sign))?;
        if let Some(per_kilogram) = cost.per_kilogram {
            row(out, "a kilogram of what is left", &money_words(per_kilogram, COINS, currency, true, self.sign))?;
        }
        let Some(piece) = &cost.piece else { return Ok(()) };
        let part = |of: Option<Decimal>| of.map_or("not known".to_owned(), |of| money(of, PIECE, self.sign));
        let total = piece.total().map_or("not known: the shell has no price".to_owned(), |total| {
            money_words(total, PIECE, currency, true, self.sign)
        });
        let parts = format!(
            "{total}: filling {}, shell {}, besides {}",
            part(Some(piece.filling)),
            part(piece.shell),
            part(Some(piece.besides))
        );
        row(out, "a piece", &parts)
    }

    /// What is made, from the scale to the pieces.
    fn batch(&self, work: &Work, out: &mut String) -> std::fmt::Result {
        let batch = &work.batch;
        heading(out, "Batch")?;
        row(out, "times the recipe", &shortest(batch.factor, 4, self.sign))?;
        row(out, "weighed in", &self.weighed_in(work))?;
        let make_up = &batch.analysis.make_up;
        let evaporates = make_up.evaporating.grams().map(|_| make_up.evaporated);
        if evaporates != Some(Grams::ZERO) {
            row(out, "water that evaporates", &self.mass(evaporates))?;
        }
        let lost = batch.recipe.losses.transfer.share();
        if lost.0 > 0.0 {
            row(out, "stays in bowls and bags", &format!("{} %", shortest(lost.to_percent(), 2, self.sign)))?;
        }
        row(out, "finished mass", &self.mass(batch.finished))?;
        if batch.further_yield.0 < 1.0 {
            let lost = 100.0 - batch.further_yield.to_percent();
            row(out, "further losses", &format!("{} %", shortest(lost, 2, self.sign)))?;
            row(out, "left after them", &self.mass(batch.output()))?;
        }
        if let Some(made) = &batch.made {
            self.made(made, out)?;
        }
        wrapped(out, &format!("  {:26} ", "seed"), &seed_of(&work.seed, &batch.analysis, self.sign))
    }

    /// What is weighed, and what was asked for where the scale cannot tell it.
    fn weighed_in(&self, work: &Work) -> String {
        let (total, requested) = (work.weighing.total, work.weighing.requested);
        let weighed = self.mass(Some(total));
        if (requested - total).0.abs() < SEEN.0 {
            return weighed;
        }
        format!("{weighed}; {} g were asked for", shortest(requested.0, 2, self.sign))
    }

    fn made(&self, made: &Made, out: &mut String) -> std::fmt::Result {
        if let Product::Slab { frame, slab, .. } = made.product {
            let millimetres = |value: f64| shortest(value, 1, self.sign);
            let [length, width, height] = [frame.length.0, frame.width.0, frame.height.0].map(millimetres);
            let size = format!("{length} × {width} × {height} mm");
            row(out, "full frames", &format!("{} of {}, {size}", made.count, self.mass(Some(slab))))?;
        }
        if let Some((count, piece)) = made.pieces().zip(made.piece()) {
            let gram = |mass: Grams| format!("{} g", shortest(mass.0, 2, self.sign));
            let shell = match (piece.shell.0 > 0.0, made.product) {
                (false, _) => String::new(),
                (true, Product::Piece(_)) => {
                    format!(": {} of filling, {} of shell", gram(piece.filling), gram(piece.shell))
                }
                (true, Product::Slab { .. }) => {
                    format!(": {} of centre, {} of coat", gram(piece.filling), gram(piece.shell))
                }
            };
            row(out, "pieces", &format!("{count} of {}{shell}", gram(piece.piece)))?;
        }
        if let Some(shells) = made.shells() {
            row(out, "chocolate around them", &self.mass(Some(shells)))?;
        }
        if let Product::Slab { all_in_one, cut, .. } = made.product {
            if let Some(cut) = cut {
                let loss = fixed(cut.pieces.cutting_loss.to_percent(), 1, self.sign);
                let text = format!("{} × {} from a frame, {loss} % is cut off", cut.pieces.along, cut.pieces.across);
                row(out, "cut", &text)?;
            }
            // Full frames are as high as they are.
            if let Some(height) = all_in_one.filter(|_| made.spare.0 >= SEEN.0) {
                row(out, "all of it in one frame", &format!("{} mm high", fixed(height.0, 1, self.sign)))?;
            }
        }
        if made.spare.0 >= SEEN.0 {
            row(out, "left over", &self.mass(Some(made.spare)))?;
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
            self.weight(out, &name, line.rounded, line.step, most, &self.remark(of_recipe))?;
        }
        let step = bowls.weighed.lines.iter().map(|line| line.step).reduce(Grams::min).unwrap_or(Grams(1.0));
        self.weight(out, "together", bowls.weighed.total, step, most, "")?;
        if let Some(seed) = bowls.seed {
            self.weight(out, "and the seed, last", seed.rounded, seed.step, most, "")?;
        }
        if let Some(left) = bowls.left().filter(|left| *left < bowls.weighed.total) {
            writeln!(out, "  cooked, {} are left in it", self.mass(Some(left)))?;
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

    /// What the maker should know of a line: that it is the seed, and its note, else how warm it is.
    fn remark(&self, line: &Line) -> String {
        let seed = line.is_seed.then(|| "seed, last".to_owned());
        let warm = line.temperature.map(|at| format!("{} °C", shortest(at.celsius().0, 1, self.sign)));
        let note = Some(line.note.trim().to_owned()).filter(|note| !note.is_empty());
        [seed, note.or(warm)].into_iter().flatten().collect::<Vec<_>>().join(", ")
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
        self.weight(out, "together", work.weighing.total, of_all, most, "")
    }

    fn seed_of_the_day(&self, day: &Day, out: &mut String) -> std::fmt::Result {
        heading(out, "Seed of the day")?;
        if day.seed.ways.is_empty() {
            return writeln!(out, "  none of the recipes is seeded");
        }
        for of_way in &day.seed.ways {
            let bowls = u32::try_from(day.bowls_of(of_way.way)).unwrap_or(u32::MAX);
            let text = match (&of_way.need, day.ready) {
                (None, _) => "not known".to_owned(),
                (Some(need), None) => format!("{} g", grams(need.needed.0, self.sign)),
                (Some(need), Some(_)) => words::plan::need(need, of_way.way, bowls, self.sign),
            };
            wrapped(out, &format!("  {:26} ", of_way.way.words()), &text)?;
        }
        Ok(())
    }

    fn mass(&self, mass: Option<Grams>) -> String {
        mass.map_or_else(|| "not known".to_owned(), |mass| format!("{} g", grams(mass.0, self.sign)))
    }
}

/// The decimals of the finest scale in use, so that all weights stand under each other.
fn most_decimals(work: &Work) -> u32 {
    let of_bowls = |bowls: &Bowls| {
        let lines = bowls.weighed.lines.iter().map(|line| line.step);
        lines.chain(bowls.seed.map(|seed| seed.step)).map(decimals).max()
    };
    work.weighing.bowls.iter().filter_map(of_bowls).max().unwrap_or(0)
}

/// Less than this is not seen at the bench.
const SEEN: Grams = Grams(0.05);

fn row(out: &mut String, name: &str, text: &str) -> std::fmt::Result {
    wrapped(out, &format!("  {name:26} "), text)
}
