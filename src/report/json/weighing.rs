//! The weighing list of a day as JSON: a public interface, documented in `sample-recipes/README.md`, changed only by adding.
//!
//! Unknown is `null`, never 0. Numbers are not rounded but for those that a scale shows.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;
use serde::Serialize;

use crate::number::DecimalSign;
use crate::production::cost::NoCost;
use crate::production::day::{Day, Work};
use crate::production::density::DensityFrom;
use crate::production::mould::has_enough_chocolate;
use crate::production::piece_cost::{PieceCost, WorkCost};
use crate::production::price::Currency;
use crate::production::rounding::RoundedLine;
use crate::production::scaling::{Made, Product};
use crate::production::seed::SeedOf;
use crate::production::weighing::Bowls;
use crate::recipe::{LineId, Recipe};
use crate::report::words::weighing::{ROUNDED, note};
use crate::units::{Grams, MassFraction};

/// The weighing list of a day as JSON, with a line break at its end.
///
/// # Errors
///
/// Never in practice: every value is a number, a text, a list or a map of these.
pub fn weighing_list(day: &Day) -> Result<String, serde_json::Error> {
    let list =
        DayEntry { recipes: day.works.iter().map(WorkEntry::new).collect(), seed_of_the_day: SeedOfTheDay::all(day) };
    let mut text = serde_json::to_string_pretty(&list)?;
    text.push('\n');
    Ok(text)
}

#[derive(Serialize)]
struct DayEntry<'a> {
    recipes: Vec<WorkEntry<'a>>,
    seed_of_the_day: Vec<SeedOfTheDay>,
}

#[derive(Serialize)]
struct WorkEntry<'a> {
    name: &'a str,
    kind: &'static str,
    r#use: Option<&'static str>,
    factor: f64,
    at_hand: Option<&'a str>,
    requested_g: f64,
    weighed_g: f64,
    evaporated_g: Option<f64>,
    transfer_loss_percent: f64,
    finished_g: Option<f64>,
    further_loss_percent: f64,
    output_g: Option<f64>,
    made: Option<MadeEntry>,
    seed: Option<SeedEntry<'a>>,
    lines: Vec<LineEntry<'a>>,
    bowls: Vec<BowlsEntry<'a>>,
    rounding_points: BTreeMap<&'static str, Option<f64>>,
    notes: Vec<NoteEntry>,
    cost: Option<CostEntry<'a>>,
}

#[derive(Serialize)]
struct CostEntry<'a> {
    currency: Option<&'a str>,
    batch: Option<f64>,
    batch_at_least: Option<f64>,
    per_kg: Option<f64>,
    per_kg_at_least: Option<f64>,
    per_piece: Option<f64>,
    per_piece_at_least: Option<f64>,
    piece_filling: Option<f64>,
    piece_shell: Option<f64>,
    piece_besides: Option<f64>,
    without_price: Vec<&'a str>,
}

#[derive(Serialize)]
struct MadeEntry {
    pieces: Option<u32>,
    frames: Option<u32>,
    piece_g: Option<f64>,
    filling_g: Option<f64>,
    shell_g: Option<f64>,
    shell_percent: Option<f64>,
    shells_g: Option<f64>,
    has_enough_chocolate: Option<bool>,
    frame_g: Option<f64>,
    pieces_along: Option<u32>,
    pieces_across: Option<u32>,
    cutting_loss_percent: Option<f64>,
    height_in_one_frame_mm: Option<f64>,
    left_over_g: f64,
    density_g_per_ml: Option<f64>,
    density_is_computed: Option<bool>,
}

#[derive(Serialize)]
struct SeedEntry<'a> {
    way: &'static str,
    seed_g: Option<f64>,
    name: Option<&'a str>,
    is_in_recipe: bool,
}

#[derive(Serialize)]
struct LineEntry<'a> {
    ingredient: &'a str,
    name: &'a str,
    is_seed: bool,
    exact_g: f64,
    weighed_g: f64,
    percent_of_base: Option<f64>,
}

#[derive(Serialize)]
struct BowlsEntry<'a> {
    count: u64,
    requested_g: f64,
    weighed_g: f64,
    evaporated_g: Option<f64>,
    left_g: Option<f64>,
    seed_g: Option<f64>,
    seed_weighed_g: Option<f64>,
    lines: Vec<WeighedEntry<'a>>,
}

#[derive(Serialize)]
struct WeighedEntry<'a> {
    ingredient: &'a str,
    exact_g: f64,
    weighed_g: f64,
    step_g: f64,
    error_points: f64,
    error_percent_of_line: Option<f64>,
    needs_finer_scale: bool,
}

#[derive(Serialize)]
struct NoteEntry {
    code: &'static str,
    text: String,
}

#[derive(Serialize)]
struct SeedOfTheDay {
    way: &'static str,
    recipes: u32,
    bowls: u64,
    needed_g: Option<f64>,
    ready_g: Option<f64>,
    missing_g: Option<f64>,
    left_over_g: Option<f64>,
    start_hours_before: Option<f64>,
}

impl<'a> WorkEntry<'a> {
    fn new(work: &'a Work) -> Self {
        let batch = &work.batch;
        let recipe = &batch.recipe;
        let make_up = &batch.analysis.make_up;
        Self {
            name: &recipe.name,
            kind: recipe.kind.key(),
            r#use: recipe.intended_use.map(crate::recipe::Use::key),
            factor: batch.factor,
            at_hand: batch.at_hand.as_ref().map(|at_hand| at_hand.name.as_str()),
            requested_g: work.weighing.requested.0,
            weighed_g: work.weighing.total.0,
            evaporated_g: make_up.evaporating.grams().map(|_| make_up.evaporated.0),
            transfer_loss_percent: recipe.losses.transfer.share().to_percent(),
            finished_g: grams(batch.finished),
            further_loss_percent: 100.0 - batch.further_yield.to_percent(),
            output_g: grams(batch.output()),
            made: batch.made.as_ref().map(MadeEntry::new),
            seed: SeedEntry::new(&work.seed),
            lines: with_base(lines(recipe, &work.weighing.lines), work),
            bowls: work.weighing.bowls.iter().map(|bowls| BowlsEntry::new(recipe, bowls)).collect(),
            rounding_points: ROUNDED.map(|group| (group.key(), work.rounding_moves(group))).into(),
            notes: work
                .notes
                .iter()
                .map(|it| NoteEntry { code: it.code(), text: note(it, DecimalSign::Point) })
                .collect(),
            cost: work.cost.as_ref().map(|cost| CostEntry::new(cost, recipe)),
        }
    }
}

impl MadeEntry {
    fn new(made: &Made) -> Self {
        let slab = match made.product {
            Product::Piece(_) => None,
            Product::Slab { slab, all_in_one, cut, .. } => Some((slab, all_in_one, cut)),
        };
        let piece = made.piece();
        let shell = piece.filter(|piece| piece.shell.0 > 0.0);
        let share = shell.map(|piece| piece.shell / piece.piece);
        let cut = slab.and_then(|(_, _, cut)| cut).map(|cut| cut.pieces);
        Self {
            pieces: made.pieces(),
            frames: slab.map(|_| made.count),
            piece_g: piece.map(|piece| piece.piece.0),
            filling_g: piece.map(|piece| piece.filling.0),
            shell_g: piece.map(|piece| piece.shell.0),
            shell_percent: piece.map(|piece| (piece.shell / piece.piece).to_percent()),
            shells_g: grams(made.shells()),
            has_enough_chocolate: share.map(has_enough_chocolate),
            frame_g: slab.map(|(slab, _, _)| slab.0),
            pieces_along: cut.map(|pieces| pieces.along),
            pieces_across: cut.map(|pieces| pieces.across),
            cutting_loss_percent: cut.map(|pieces| pieces.cutting_loss.to_percent()),
            height_in_one_frame_mm: slab.and_then(|(_, height, _)| height).map(|height| height.0),
            left_over_g: made.spare.0,
            density_g_per_ml: made.density.map(|density| density.value.0),
            density_is_computed: made.density.map(|density| density.from != DensityFrom::Typed),
        }
    }
}

impl<'a> SeedEntry<'a> {
    fn new(seed: &'a SeedOf) -> Option<Self> {
        match seed {
            SeedOf::Needed { way, grams, name, is_in_recipe } => {
                Some(Self { way: way.key(), seed_g: Some(grams.0), name: name.as_deref(), is_in_recipe: *is_in_recipe })
            }
            SeedOf::NotKnown { way } => Some(Self { way: way.key(), seed_g: None, name: None, is_in_recipe: false }),
            SeedOf::None => None,
        }
    }
}

impl<'a> BowlsEntry<'a> {
    fn new(recipe: &'a Recipe, bowls: &Bowls) -> Self {
        let line = |(of_recipe, line): (&'a crate::recipe::Line, &RoundedLine)| WeighedEntry {
            ingredient: &of_recipe.ingredient.id,
            exact_g: line.exact.0,
            weighed_g: line.rounded.0,
            step_g: line.step.0,
            error_points: line.composition_error.to_percent(),
            error_percent_of_line: line.relative_error.map(MassFraction::to_percent),
            needs_finer_scale: line.needs_finer_scale(),
        };
        Self {
            count: bowls.count,
            requested_g: bowls.weighed.requested.0,
            weighed_g: bowls.weighed.total.0,
            evaporated_g: grams(bowls.evaporates),
            left_g: grams(bowls.left()),
            seed_g: bowls.seed.map(|seed| seed.exact.0),
            seed_weighed_g: bowls.seed.map(|seed| seed.rounded.0),
            lines: recipe.lines.iter().zip(&bowls.weighed.lines).map(line).collect(),
        }
    }
}

impl SeedOfTheDay {
    fn all(day: &Day) -> Vec<Self> {
        let entry = |of_way: &crate::production::seed::DayOfWay| {
            let need = of_way.need;
            // Without what is ready nothing is missing and nothing left over.
            let against = need.filter(|_| day.ready.is_some());
            Self {
                way: of_way.way.key(),
                recipes: of_way.recipes,
                bowls: day.bowls_of(of_way.way),
                needed_g: need.map(|need| need.needed.0),
                ready_g: grams(day.ready),
                missing_g: against.map(|need| need.missing.0),
                left_over_g: against.map(|need| need.left_over.0),
                start_hours_before: against.and_then(|need| need.start_hours_before()),
            }
        };
        day.seed.ways.iter().map(entry).collect()
    }
}

fn lines<'a>(recipe: &'a Recipe, weighed: &[Grams]) -> Vec<LineEntry<'a>> {
    let line = |(line, weighed): (&'a crate::recipe::Line, &Grams)| LineEntry {
        ingredient: &line.ingredient.id,
        name: &line.ingredient.name,
        is_seed: line.is_seed,
        exact_g: line.amount.grams().0,
        weighed_g: weighed.0,
        percent_of_base: None,
    };
    recipe.lines.iter().zip(weighed).map(line).collect()
}

/// With what each is in percent of the base, where there is one.
fn with_base<'a>(mut lines: Vec<LineEntry<'a>>, work: &Work) -> Vec<LineEntry<'a>> {
    if let Some((_, relative)) = work.relative_to_base() {
        for (line, share) in lines.iter_mut().zip(relative) {
            line.percent_of_base = Some(share.to_percent());
        }
    }
    lines
}

fn grams(mass: Option<Grams>) -> Option<f64> {
    mass.map(|mass| mass.0)
}

impl<'a> CostEntry<'a> {
    fn new(cost: &'a WorkCost, recipe: &'a Recipe) -> Self {
        let WorkCost { ingredients, per_kilogram, per_kilogram_at_least, piece_at_least, piece } = cost;
        let line = |(id, _): (LineId, &NoCost)| recipe.line(id).map(|line| line.ingredient.id.as_str());
        let number = |money: Decimal| money.to_f64();
        Self {
            currency: ingredients.currency.as_ref().map(Currency::words),
            batch: ingredients.totals().and_then(|totals| number(totals.batch)),
            batch_at_least: ingredients.at_least().and_then(|totals| number(totals.batch)),
            per_kg: per_kilogram.and_then(number),
            per_kg_at_least: per_kilogram_at_least.and_then(number),
            per_piece_at_least: piece_at_least.as_ref().and_then(PieceCost::total).and_then(number),
            without_price: ingredients.without_price().filter_map(line).collect(),
            per_piece: piece.as_ref().and_then(PieceCost::total).and_then(number),
            piece_filling: piece.as_ref().and_then(|piece| number(piece.filling)),
            piece_shell: piece.as_ref().and_then(|piece| piece.shell).and_then(number),
            piece_besides: piece.as_ref().and_then(|piece| number(piece.besides)),
        }
    }
}
