//! What came of an exchange in one recipe: line by line, result by result, and what stands in the way.

use std::sync::Arc;

use egui::{Color32, Label, RichText, TextWrapMode, Ui};

use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::recipe::Recipe;
use crate::reformulate::helpers::Helpers;
use crate::reformulate::substitute::{Difference, Substituted};
use crate::reformulate::{Figure, Measured, Outcome};
use crate::report::words::capital;
use crate::report::words::reformulation::{amount, helper_name, likely, measured, money};
use crate::report::words::substitution::{difference, held, not_held, notes, reasons};
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::{Cell, cells_row::GAP, cells_row_ui, quiet_button, with_units};
use crate::units::Grams;

/// How wide an amount is.
const AMOUNT: f32 = 66.0;
/// How wide the arrow between before and after is.
const ARROW: f32 = 14.0;
/// How wide a figure of a result is.
const FIGURE: f32 = 92.0;
/// How wide the word is that says whether it is held.
const VERDICT: f32 = 66.0;
/// What the bar of a scrolled list takes at the right.
const BAR: f32 = 12.0;

/// What is told beside the figures: it takes an analysis of both recipes, so it is worked out once.
#[derive(Debug)]
pub(super) struct Told {
    /// Results that were to be held and that the recipe does not have.
    without: Vec<String>,
    /// What there is to know before it is made, first of all what is not held because it is not known.
    notes: Vec<String>,
}

impl Told {
    /// Of the recipe that is open; what it does not have could not be ticked, so nothing is to be said of that.
    pub(super) fn of_open(substituted: &Substituted, asked: &[Measured], sign: DecimalSign) -> Self {
        Self { without: Vec::new(), ..Self::in_folder(substituted, asked, sign) }
    }

    /// Of a recipe of the folder; `asked` are the results that were to be held.
    pub(super) fn in_folder(substituted: &Substituted, asked: &[Measured], sign: DecimalSign) -> Self {
        let not_held = not_held(substituted, asked, sign);
        let without = match &not_held {
            // It names them.
            Some(_) => Vec::new(),
            None => substituted.without(asked),
        };
        Self {
            without: without
                .into_iter()
                .map(|of| format!("It has no {} that could be held.", measured(of, sign)))
                .collect(),
            notes: not_held.into_iter().chain(notes(substituted, sign)).collect(),
        }
    }
}

/// Draws it over the available width; what is chosen to come besides is given back.
pub(super) fn answer_ui(
    ui: &mut Ui,
    substituted: &Substituted,
    told: &Told,
    is_seeking_help: bool,
    sign: DecimalSign,
) -> Option<Arc<Ingredient>> {
    ui.spacing_mut().item_spacing.y = 2.0;
    let palette = Palette::of(ui);
    match &substituted.outcome {
        Outcome::Unchanged(_) if substituted.held.is_empty() => {
            sentence_ui(ui, "It can be done gram for gram; nothing is held.", palette.accent);
        }
        Outcome::Unchanged(_) => {
            sentence_ui(ui, "It can be done gram for gram: everything that is held stays as it is.", palette.accent);
        }
        Outcome::Changed(_) => {
            let lines = match substituted.differences().len() {
                1 => "1 line changes".to_owned(),
                count => format!("{count} lines change"),
            };
            sentence_ui(ui, &format!("It can be done: {lines}."), palette.accent);
        }
        Outcome::Impossible(_) => sentence_ui(ui, "It cannot be done as it is asked.", palette.caution),
        Outcome::Stopped => {}
    }
    let mut reasons = reasons(substituted, sign);
    if is_seeking_help {
        // What to do next is not known yet.
        reasons.pop();
    }
    for words in reasons {
        wrapped_ui(ui, RichText::new(with_units(&words)));
    }
    if is_seeking_help {
        wrapped_ui(ui, theme::quiet(ui, "Looking for what could come besides…"));
    }
    let besides = helpers_ui(ui, substituted);
    for words in &told.without {
        wrapped_ui(ui, theme::quiet(ui, words.as_str()));
    }
    if matches!(substituted.outcome, Outcome::Stopped) {
        return None;
    }
    if matches!(substituted.outcome, Outcome::Impossible(_)) {
        ui.add_space(space::NEAR);
        wrapped_ui(ui, theme::quiet(ui, "The nearest there is, to see how far one comes:"));
    }
    ui.add_space(space::NEAR);
    lines_ui(ui, substituted, sign);
    if !substituted.held.is_empty() {
        ui.add_space(space::GROUP);
        held_ui(ui, substituted, sign);
    }
    notes_ui(ui, &told.notes);
    besides
}

/// What could come besides, at a click.
fn helpers_ui(ui: &mut Ui, substituted: &Substituted) -> Option<Arc<Ingredient>> {
    let Outcome::Impossible(why) = &substituted.outcome else { return None };
    let named = why.helpers.as_ref().map(Helpers::named).filter(|named| !named.is_empty())?;
    let mut besides = None;
    ui.horizontal_wrapped(|ui| {
        for helper in named {
            let words = format!("use {}", helper_name(&substituted.problem, helper));
            let button = quiet_button(ui, RichText::new(words).color(Palette::of(ui).accent));
            if button.on_hover_text("Let it come besides").clicked() {
                besides = Some(Arc::clone(&helper.ingredient));
            }
        }
    });
    besides
}

/// What there is to know before it is made.
fn notes_ui(ui: &mut Ui, notes: &[String]) {
    if notes.is_empty() {
        return;
    }
    ui.add_space(space::GROUP);
    ui.label(theme::strong("Before you make it"));
    for note in notes {
        wrapped_ui(ui, theme::quiet(ui, with_units(note)));
    }
}

/// A sentence that carries the point.
pub(super) fn sentence_ui(ui: &mut Ui, words: &str, colour: Color32) {
    wrapped_ui(ui, theme::strong(words).color(colour));
}

pub(super) fn wrapped_ui(ui: &mut Ui, words: RichText) {
    ui.add(Label::new(words).wrap_mode(TextWrapMode::Wrap));
}

fn lines_ui(ui: &mut Ui, substituted: &Substituted, sign: DecimalSign) {
    let palette = Palette::of(ui);
    let differences = substituted.differences();
    let (left, right) = names(ui, &differences);
    let row = |texts: [(String, Color32); 5], is_strong: bool, is_small: bool| {
        let [from, grams, arrow, to, new_grams] = texts;
        let font = match (is_strong, is_small) {
            (true, _) => theme::body_bold(),
            (_, true) => theme::small(),
            _ => theme::body(),
        };
        let cell = |(text, colour): (String, Color32), width: f32, is_right: bool| Cell {
            text,
            width,
            font: font.clone(),
            colour,
            is_right,
        };
        [
            cell(from, left, false),
            cell(grams, AMOUNT, true),
            cell(arrow, ARROW, false),
            cell(to, right, false),
            cell(new_grams, AMOUNT, true),
        ]
    };
    let (text, quiet) = (palette.text, palette.quiet);
    let blank = || (String::new(), quiet);
    let head =
        [("what stands there".to_owned(), quiet), blank(), blank(), ("what comes there".to_owned(), quiet), blank()];
    cells_row_ui(ui, &row(head, false, true), "what stands there, what comes there");
    rule_ui(ui);
    for one in &differences {
        let Difference { before, after } = one;
        let is_same = matches!((before, after), (Some((old, _)), Some((new, _))) if old.id == new.id);
        let by = || match (before, after) {
            (Some((_, old)), Some((_, new))) => signed(*new - *old, sign),
            _ => String::new(),
        };
        let texts = [
            before.as_ref().map_or_else(|| ("new".to_owned(), quiet), |(old, _)| (old.name.clone(), text)),
            before.as_ref().map_or_else(blank, |(_, grams)| (amount(*grams, sign), text)),
            ("→".to_owned(), quiet),
            match after {
                Some((_, now)) if is_same && now.0 <= 0.0 => ("is left out".to_owned(), quiet),
                Some(_) if is_same => (by(), quiet),
                Some((new, _)) => (new.name.clone(), palette.accent),
                None => ("nothing".to_owned(), quiet),
            },
            match after {
                Some((_, now)) if now.0 <= 0.0 => ("–".to_owned(), quiet),
                Some((_, now)) => (amount(*now, sign), text),
                None => blank(),
            },
        ];
        cells_row_ui(ui, &row(texts, false, false), &difference(one, sign));
    }
    rule_ui(ui);
    let weighed = |recipe: &Recipe| recipe.weighed();
    let (before, after) = (weighed(&substituted.before), substituted.nearest().map(weighed).unwrap_or_default());
    let rest = match rest(substituted, &differences) {
        0 => String::new(),
        1 => "1 other line stays".to_owned(),
        count => format!("{count} other lines stay"),
    };
    let words = format!("together {} → {}", amount(before, sign), amount(after, sign));
    let texts = [
        ("together".to_owned(), text),
        (amount(before, sign), text),
        ("→".to_owned(), quiet),
        (rest.clone(), quiet),
        (amount(after, sign), text),
    ];
    let mut cells = row(texts, true, false);
    cells[3].font = theme::body();
    cells_row_ui(ui, &cells, &if rest.is_empty() { words } else { format!("{words}, {rest}") });
}

/// How wide the names are of what stands there and of what comes there: alike, unless one side needs what the other has left.
fn names(ui: &Ui, differences: &[Difference]) -> (f32, f32) {
    let room = ui.available_width() - BAR - 2.0 * AMOUNT - ARROW - 4.0 * GAP;
    let width =
        |name: &str| ui.painter().layout_no_wrap(name.to_owned(), theme::body(), Palette::of(ui).text).size().x.ceil();
    let widest = |names: &mut dyn Iterator<Item = f32>| names.fold(0.0, f32::max);
    let left = widest(&mut differences.iter().filter_map(|it| it.before.as_ref()).map(|(old, _)| width(&old.name)));
    let comes = |it: &Difference| match (&it.before, &it.after) {
        // By how much stands there instead of the name.
        (Some((old, _)), Some((new, _))) if old.id == new.id => None,
        (_, after) => after.as_ref().map(|(new, _)| width(&new.name)),
    };
    // Or the words of the last row.
    let right = widest(&mut differences.iter().filter_map(comes)).max(width("88 other lines stay"));
    let half = room / 2.0;
    let left = if left > half { left.min((room - right).max(half)) } else { half.min((room - right).max(left)) };
    (left, room - left)
}

/// How many lines of the recipe stay as they are.
fn rest(substituted: &Substituted, differences: &[Difference]) -> usize {
    let changed = differences.iter().filter(|difference| difference.before.is_some()).count();
    substituted.before.lines.len().saturating_sub(changed)
}

/// "+5 g", "−12.5 g".
fn signed(by: Grams, sign: DecimalSign) -> String {
    if by.0 < 0.0 { format!("\u{2212}{}", amount(Grams(-by.0), sign)) } else { format!("+{}", amount(by, sign)) }
}

fn held_ui(ui: &mut Ui, substituted: &Substituted, sign: DecimalSign) {
    let palette = Palette::of(ui);
    let name = ui.available_width() - BAR - 3.0 * FIGURE - VERDICT - 4.0 * GAP;
    let row = |name_of: String, figures: [String; 3], verdict: (String, Color32), is_head: bool| {
        let (font, colour) = if is_head { (theme::small(), palette.quiet) } else { (theme::body(), palette.text) };
        let cell =
            |text: String, width: f32, is_right: bool| Cell { text, width, font: font.clone(), colour, is_right };
        let [was, gram_for_gram, now] = figures;
        let mut cells = vec![
            cell(name_of, name, false),
            cell(was, FIGURE, true),
            cell(gram_for_gram, FIGURE, true),
            cell(now, FIGURE, true),
            Cell { font: theme::small_bold(), colour: verdict.1, ..cell(verdict.0, VERDICT, true) },
        ];
        if !is_head && let Some(quiet) = cells.get_mut(2) {
            quiet.colour = palette.quiet;
        }
        cells
    };
    let is_nearest = matches!(substituted.outcome, Outcome::Impossible(_));
    let now = if is_nearest { "at the nearest" } else { "now" };
    let heads = ["before".to_owned(), "gram for gram".to_owned(), now.to_owned()];
    let head = row("what is held".to_owned(), heads, (String::new(), palette.quiet), true);
    cells_row_ui(ui, &head, &format!("what is held, before, gram for gram, {now}"));
    rule_ui(ui);
    let figures = substituted.held.iter().zip(substituted.reached()).zip(&substituted.problem.targets);
    for (idx, ((before, reached), target)) in figures.enumerate() {
        let figure = |figure: Figure| likely(target.of, figure, money(&substituted.problem), sign);
        let verdict = if reached.is_met() {
            ("held".to_owned(), palette.accent)
        } else {
            ("! missed".to_owned(), palette.caution)
        };
        let figures = [figure(*before), figure(reached.before), figure(reached.after)];
        let name = capital(&measured(target.of, sign));
        let words = held(substituted, idx, sign).unwrap_or_default();
        let response = cells_row_ui(ui, &row(name, figures, verdict, false), &words);
        if before.band.is_some() {
            response.on_hover_text(capital(&words));
        }
    }
}

fn rule_ui(ui: &mut Ui) {
    let width = ui.available_width() - BAR;
    let (rule, _) = ui.allocate_exact_size(egui::vec2(width, 3.0), egui::Sense::hover());
    ui.painter().hline(rule.x_range(), rule.center().y, Palette::of(ui).rule_stroke());
}
