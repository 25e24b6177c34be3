//! Rows of amounts before and after: a name, both amounts in columns, the difference, and under them why.
//!
//! Every row but the sum keeps one line for why, also where there is nothing to say yet: no row moves because another one does.

use egui::{Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::finding_card::with_units;
use super::paint;
use crate::ui::theme::{self, Palette, space};

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BeforeAfterRow {
    /// Whose amount it is.
    pub name: String,
    /// The amount before.
    pub before: String,
    /// The amount after.
    pub after: String,
    /// By how much it moves; empty where it stays.
    pub by: String,
    /// Why it moves, or why it stays, on one line; empty where nothing is to be said.
    pub why: String,
    /// The same in full for those who cannot see it; empty where it is no more than that.
    pub why_in_full: String,
    /// Whether it is pointed at elsewhere.
    pub is_lit: bool,
    /// Whether it is the sum of the others.
    pub is_total: bool,
}

impl BeforeAfterRow {
    fn words(&self) -> String {
        let by = if self.by.is_empty() { String::new() } else { format!(", {}", self.by) };
        let why = if self.why_in_full.is_empty() { &self.why } else { &self.why_in_full };
        let why = if why.is_empty() { String::new() } else { format!(": {why}") };
        format!("{} {} → {}{by}{why}", self.name, self.before, self.after)
    }

    fn is_moved(&self) -> bool {
        !self.by.is_empty()
    }
}

/// Between columns.
const GAP: f32 = 12.0;
/// Above and below the words of a row.
const MARGIN: f32 = 5.0;

/// Draws the rows under a head, over the available width; each is a stop for the Tab key. Answers one response a row.
pub fn before_after_rows_ui(ui: &mut Ui, rows: &[BeforeAfterRow]) -> Vec<Response> {
    let palette = Palette::of(ui);
    let heads = ["before", "after", "change"];
    let wide = f32::INFINITY;
    let columns: [f32; 3] = std::array::from_fn(|column| {
        let head = paint::text_width(ui, heads[column], theme::small());
        let of_row = |row: &BeforeAfterRow| match column {
            0 => paint::text_width(ui, &row.before, theme::body()),
            1 => paint::text_width(ui, &row.after, theme::body_bold()),
            _ => paint::text_width(ui, &row.by, theme::body()),
        };
        rows.iter().map(of_row).fold(head, f32::max).ceil()
    });
    let width = ui.available_width();
    let small = ui.fonts_mut(|fonts| fonts.row_height(&theme::small()));
    let numbers: f32 = columns.iter().map(|column| column + GAP).sum();
    let names = (width - numbers).max(60.0);
    let rights = |right: f32| {
        let third = right;
        let second = third - columns[2] - GAP;
        [second - columns[1] - GAP, second, third]
    };
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let (head, _) = ui.allocate_exact_size(vec2(width, 18.0), Sense::hover());
        for (words, right) in heads.iter().zip(rights(head.right())) {
            let galley = paint::one_line(ui, *words, theme::small(), palette.quiet, wide);
            ui.painter().galley(pos2(right - galley.size().x, head.top()), galley, palette.quiet);
        }
        rows.iter()
            .map(|row| {
                let (name_font, after_font) = match (row.is_total, row.is_moved()) {
                    (true, _) => (theme::body_bold(), theme::body_bold()),
                    (false, true) => (theme::body(), theme::body_bold()),
                    (false, false) => (theme::body(), theme::body()),
                };
                let colour = match (row.is_lit, row.is_moved() || row.is_total) {
                    (true, _) => palette.accent,
                    (false, true) => palette.text,
                    (false, false) => palette.quiet,
                };
                let name = paint::wrapped(ui, row.name.as_str(), name_font, colour, names);
                let why = paint::one_line(ui, with_units(&row.why), theme::small(), palette.quiet, width);
                let why_height = if row.is_total { 0.0 } else { small + 1.0 };
                let height = name.size().y + why_height + 2.0 * MARGIN;
                let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::focusable_noninteractive());
                response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), row.words()));
                if ui.is_rect_visible(rect) {
                    let top = rect.top() + MARGIN;
                    ui.painter().hline(rect.x_range(), rect.top(), palette.rule_stroke());
                    let below = top + name.size().y + 1.0;
                    ui.painter().galley(pos2(rect.left(), top), name, colour);
                    let after_colour = if row.is_moved() || row.is_total { palette.text } else { palette.quiet };
                    let cells = [
                        (&row.before, theme::body(), palette.quiet),
                        (&row.after, after_font, after_colour),
                        (&row.by, theme::body(), palette.accent),
                    ];
                    for ((words, font, colour), right) in cells.into_iter().zip(rights(rect.right())) {
                        let galley = paint::one_line(ui, words.as_str(), font, colour, wide);
                        ui.painter().galley(pos2(right - galley.size().x, top), galley, colour);
                    }
                    if !row.why.is_empty() {
                        ui.painter().galley(pos2(rect.left(), below), why, palette.quiet);
                    }
                    paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 0.0)), space::FIELD_RADIUS);
                }
                response
            })
            .collect()
    })
    .inner
}
