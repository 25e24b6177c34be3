//! The weighing list as it is drawn: what the scale shows for every bowl, what there is to know, what comes of it.

use egui::{Id, RichText, Ui};

use crate::analysis::finding::Level;
use crate::number::{DecimalSign, money};
use crate::production::day::{Day, Note, Work};
use crate::production::piece_cost::{PieceCost, WorkCost};
use crate::production::rounding::RoundedLine;
use crate::production::weighing::Bowls;
use crate::report::words::batch::{batch, mass, seed_of_the_day};
use crate::report::words::cost::{COINS, PIECE, amount};
use crate::report::words::weighing::{note, on_scale, remark, rounding_moves};
use crate::ui::explanations::weighing as explanations;
use crate::ui::text::UNNAMED;
use crate::ui::theme::{self, space};
use crate::ui::widgets::finding_card::FindingCard;
use crate::ui::widgets::told_row::told_row_ui;
use crate::ui::widgets::{FigureRow, explain, figure_rows_ui};
use crate::units::Grams;

/// How wide the list is at most: a name and its weight are read together.
const TABLE: f32 = 540.0;

pub(super) fn list_ui(ui: &mut Ui, day: &Day, sign: DecimalSign) {
    let are_several = day.works.len() > 1;
    for (place, work) in day.works.iter().enumerate() {
        if are_several {
            if place > 0 {
                ui.add_space(space::GROUP);
                ui.separator();
            }
            let name = &work.batch.recipe.name;
            ui.label(RichText::new(if name.is_empty() { UNNAMED } else { name }).font(theme::title()));
            ui.add_space(space::TIGHT);
        }
        ui.scope(|ui| bowls_ui(ui, work, sign));
        notes_ui(ui, (place, work), sign);
        ui.add_space(space::GROUP);
        ui.label(theme::strong("Batch"));
        ui.add_space(space::TIGHT);
        for (figure, words) in batch(work, sign) {
            let response = told_row_ui(ui, figure.words(), &words, None);
            explain(&response, || explanations::batch(figure, sign));
        }
        if let Some(words) = rounding_moves(work, sign) {
            let response = told_row_ui(ui, "rounding moves", &words, None);
            explain(&response, || explanations::rounding_moves(sign));
        }
        if let Some(cost) = &work.cost {
            cost_ui(ui, cost, sign);
        }
    }
    if day.ready.is_some() || are_several {
        ui.add_space(space::GROUP);
        if are_several {
            ui.separator();
        }
        ui.label(theme::strong("Seed of the day"));
        ui.add_space(space::TIGHT);
        for (way, words) in seed_of_the_day(day, sign) {
            let response = told_row_ui(ui, way, &words, None);
            explain(&response, || explanations::seed_of_the_day(sign));
        }
    }
}

/// What a row of the list is about.
enum Row {
    Head,
    Line { name: String, weighed: Vec<RoundedLine> },
    Together,
    Seed(Vec<RoundedLine>),
    Left,
}

/// One column for the bowls that are alike, one more for all together where there are several.
fn bowls_ui(ui: &mut Ui, work: &Work, sign: DecimalSign) {
    let weighing = &work.weighing;
    let count = weighing.count();
    let title = match count {
        1 => "Weigh".to_owned(),
        _ => format!("Weigh for {count} bowls"),
    };
    ui.label(theme::strong(title));
    ui.add_space(space::TIGHT);
    let mut rows = Vec::new();
    let mut of = Vec::new();
    if count > 1 {
        rows.push(FigureRow::new("ingredient", heads(&weighing.bowls, count)));
        of.push(Row::Head);
    }
    let gram = |mass: Grams, step: Grams| format!("{} g", on_scale(mass, step, sign));
    let in_all = |mass: Grams, step: Grams| (count > 1).then(|| gram(mass, step));
    for (idx, line) in work.batch.recipe.lines.iter().enumerate() {
        let weighed: Vec<RoundedLine> =
            weighing.bowls.iter().filter_map(|bowls| bowls.weighed.lines.get(idx)).copied().collect();
        let mut name = line.ingredient.name.clone();
        let said = remark(line, sign);
        if !said.is_empty() {
            name = format!("{name} · {said}");
        }
        if weighed.iter().any(RoundedLine::needs_finer_scale) {
            name.push_str(" · scale too coarse");
        }
        let all = weighing.lines.get(idx).and_then(|&mass| in_all(mass, finest(&weighed)));
        rows.push(FigureRow::new(name, weighed.iter().map(|line| gram(line.rounded, line.step)).chain(all)));
        of.push(Row::Line { name: line.ingredient.name.clone(), weighed });
    }
    let steps: Vec<Grams> = weighing.bowls.iter().map(|bowls| finest(&bowls.weighed.lines)).collect();
    let each = weighing.bowls.iter().zip(&steps).map(|(bowls, &step)| gram(bowls.weighed.total, step));
    let all = in_all(weighing.total, steps.iter().copied().reduce(Grams::min).unwrap_or(Grams(1.0)));
    rows.push(FigureRow::new("together", each.chain(all)).sum());
    of.push(Row::Together);
    let seeds: Vec<RoundedLine> = weighing.bowls.iter().filter_map(|bowls| bowls.seed).collect();
    if !seeds.is_empty() {
        let each = seeds.iter().map(|seed| gram(seed.rounded, seed.step));
        let all = weighing.seed().and_then(|mass| in_all(mass, finest(&seeds)));
        rows.push(FigureRow::new("and the seed, last", each.chain(all)));
        of.push(Row::Seed(seeds));
    }
    let left = |bowls: &Bowls| bowls.left().filter(|left| *left < bowls.weighed.total);
    if weighing.bowls.iter().any(|bowls| left(bowls).is_some()) {
        let each = weighing.bowls.iter().map(|bowls| mass(left(bowls), sign));
        // Nobody pours the bowls together to weigh them.
        let all = (count > 1).then(String::new);
        rows.push(FigureRow::new("once heated it weighs", each.chain(all)));
        of.push(Row::Left);
    }
    ui.set_max_width(ui.available_width().min(TABLE));
    figure_rows_ui(ui, &rows, |place| match of.get(place) {
        Some(Row::Line { name, weighed }) => explanations::line(name, weighed, sign),
        Some(Row::Together) => explanations::together(sign),
        Some(Row::Seed(seeds)) => explanations::seed(seeds, sign),
        Some(Row::Left) => explanations::left(),
        Some(Row::Head) | None => explanations::bowls(sign),
    });
}

fn finest(lines: &[RoundedLine]) -> Grams {
    lines.iter().map(|line| line.step).reduce(Grams::min).unwrap_or(Grams(1.0))
}

/// The heads of the columns.
fn heads(bowls: &[Bowls], count: u64) -> Vec<String> {
    let mut heads = Vec::new();
    let mut first = 1;
    for bowls in bowls {
        let last = first + bowls.count - 1;
        heads.push(if bowls.count == count {
            "each bowl".to_owned()
        } else if first == last {
            format!("bowl {first}")
        } else {
            format!("each of {first} to {last}")
        });
        first = last + 1;
    }
    heads.push("all together".to_owned());
    heads
}

fn notes_ui(ui: &mut Ui, (place, work): (usize, &Work), sign: DecimalSign) {
    if work.notes.is_empty() {
        return;
    }
    ui.add_space(space::GROUP);
    ui.label(theme::strong("To know"));
    ui.add_space(space::TIGHT);
    for (idx, it) in work.notes.iter().enumerate() {
        let level = match it {
            Note::ComputedDensity { .. } => Level::Note,
            _ => Level::Caution,
        };
        let words = note(it, sign);
        let (title, detail) = words.split_once(". ").unwrap_or((&words, ""));
        let mut card = FindingCard::new(Id::unique(("to know", place, idx)), level, title);
        if !detail.is_empty() {
            card = card.detail(detail);
        }
        let response = card.ui(ui).response;
        explain(&response, || explanations::note(it, sign));
        ui.add_space(space::TIGHT);
    }
}

/// What it costs: the ingredients, a kilogram of what is left, and a piece with its shell.
fn cost_ui(ui: &mut Ui, cost: &WorkCost, sign: DecimalSign) {
    let ingredients = &cost.ingredients;
    let Some((currency, known)) = ingredients.currency.as_ref().zip(ingredients.at_least()) else { return };
    ui.add_space(space::GROUP);
    ui.label(theme::strong("Cost"));
    ui.add_space(space::TIGHT);
    let is_complete = ingredients.totals().is_some();
    let batch = amount(known.batch, COINS, currency, is_complete, sign);
    explain(&told_row_ui(ui, "the batch", &batch, None), explanations::cost);
    if let Some(per_kilogram) = cost.per_kilogram {
        let words = amount(per_kilogram, COINS, currency, true, sign);
        explain(&told_row_ui(ui, "1 kg of what is left", &words, None), explanations::cost_of_kilogram);
    }
    let of_piece = match &cost.piece {
        Some(piece) => Some(piece_words(piece, sign)),
        // Without all prices: the filling alone, at least.
        None => known.per_piece.map(|piece| amount(piece, PIECE, currency, is_complete, sign)),
    };
    if let Some(words) = of_piece {
        explain(&told_row_ui(ui, "a piece", &words, None), explanations::cost_of_piece);
    }
}

/// "0.0805 EUR: 0.0557 of filling, 0.0249 of shell".
fn piece_words(piece: &PieceCost, sign: DecimalSign) -> String {
    let Some(total) = piece.total() else {
        let filling = amount(piece.filling, PIECE, &piece.currency, false, sign);
        return format!("{filling}; its shell has no price that counts");
    };
    let words = amount(total, PIECE, &piece.currency, true, sign);
    match piece.shell.filter(|shell| !shell.is_zero()) {
        Some(shell) => format!(
            "{words}: {} of filling, {} of shell or coat",
            money(piece.filling, PIECE, sign),
            money(shell, PIECE, sign)
        ),
        None => words,
    }
}
