//! Rows of figures: a name at the left, figures in columns at the right, and beside each what it was when pinned.

use egui::{Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::explain::{Explanation, explain, is_attended};
use super::paint;
use crate::ui::theme::{self, Palette, space};

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FigureRow {
    /// What it is.
    pub name: String,
    /// A square of its colour in front of the name.
    pub fill: Option<egui::Color32>,
    /// The figures with their units, one for each column.
    pub figures: Vec<String>,
    /// The same in the pinned state; empty where nothing is pinned.
    pub pinned: Vec<String>,
    /// Whether it is the sum of those above it: then a rule stands between.
    pub is_sum: bool,
}

/// Least height of a row.
const ROW: f32 = 24.0;
/// Between columns.
const GAP: f32 = 14.0;

/// Draws the rows, each of which explains itself when it is pointed at or has the keyboard; answers which one that is.
///
/// Columns are as wide as their widest figure; a pinned figure stands under its own, with the mark of the pin.
pub fn figure_rows_ui(ui: &mut Ui, rows: &[FigureRow], explanation: impl Fn(usize) -> Explanation) -> Option<usize> {
    let palette = Palette::of(ui);
    let line = |words: &String, font, colour| paint::one_line(ui, words.as_str(), font, colour, f32::INFINITY);
    let mark = paint::SWATCH + 4.0;
    // Laid out once: to measure the columns and to be drawn.
    let now = rows.iter().map(|row| {
        let figure = |(column, words)| match column {
            0 => line(words, theme::body_bold(), palette.text),
            _ => line(words, theme::body(), palette.quiet),
        };
        row.figures.iter().enumerate().map(figure).collect::<Vec<_>>()
    });
    let before = rows
        .iter()
        .map(|row| row.pinned.iter().map(|words| line(words, theme::small(), palette.quiet)).collect::<Vec<_>>());
    let galleys: Vec<_> = now.zip(before).collect();
    let mut widths: Vec<f32> = Vec::new();
    for (now, before) in &galleys {
        widths.resize(widths.len().max(now.len()), 0.0);
        for (column, widest) in widths.iter_mut().enumerate() {
            let now = now.get(column).map_or(0.0, |galley| galley.size().x);
            let before = before.get(column).map_or(0.0, |galley| mark + galley.size().x);
            *widest = widest.max(now).max(before).ceil();
        }
    }
    let width = ui.available_width();
    let numbers: f32 = widths.iter().map(|column| column + GAP).sum();
    let mut pointed = None;

    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (place, (row, (now, before))) in rows.iter().zip(galleys).enumerate() {
            let indent = if row.fill.is_some() { paint::SWATCH + 6.0 } else { 0.0 };
            let name_width = (width - numbers - indent).max(40.0);
            let name = paint::wrapped(ui, &row.name, theme::body(), palette.text, name_width);
            let pinned_height = if row.pinned.is_empty() { 0.0 } else { 15.0 };
            let height = (name.size().y + 6.0).max(ROW + pinned_height);
            let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::focusable_noninteractive());
            response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), row.words()));
            if ui.is_rect_visible(rect) {
                let painter = ui.painter();
                let top = rect.top() + 3.0;
                if row.is_sum {
                    painter.hline(rect.x_range(), rect.top(), palette.rule_stroke());
                }
                if let Some(fill) = row.fill {
                    let centre = pos2(rect.left(), top + paint::first_line_height(&name) / 2.0);
                    paint::swatch(painter, centre, fill);
                }
                painter.galley(pos2(rect.left() + indent, top), name, palette.text);
                let places: Vec<f32> = rights(rect.right(), &widths).collect();
                for (galley, right) in now.into_iter().zip(&places) {
                    ui.painter().galley(pos2(right - galley.size().x, top), galley, palette.text);
                }
                // A figure without words has no mark either.
                let told = before.into_iter().zip(&places).filter(|(galley, _)| !galley.is_empty());
                for (galley, right) in told {
                    let at = pos2(right - galley.size().x, top + 18.0);
                    let centre = pos2(at.x - mark + paint::SWATCH / 2.0, at.y + galley.size().y / 2.0);
                    paint::ghost_mark(ui.painter(), centre, palette.quiet);
                    ui.painter().galley(at, galley, palette.quiet);
                }
                paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 0.0)), space::FIELD_RADIUS);
            }
            if is_attended(&response) {
                pointed = Some(place);
            }
            explain(&response, || explanation(place));
        }
    });
    pointed
}

/// The right edges of columns that end at `right`.
fn rights(right: f32, widths: &[f32]) -> impl Iterator<Item = f32> + '_ {
    let all: f32 = widths.iter().map(|width| width + GAP).sum();
    widths.iter().scan(right - all, |edge, width| {
        *edge += GAP + width;
        Some(*edge)
    })
}

impl FigureRow {
    /// A row without a pinned state.
    #[must_use]
    pub fn new(name: impl Into<String>, figures: impl IntoIterator<Item = String>) -> Self {
        Self {
            name: name.into(),
            fill: None,
            figures: figures.into_iter().collect(),
            pinned: Vec::new(),
            is_sum: false,
        }
    }

    /// With the figures of the pinned state.
    #[must_use]
    pub fn pinned(mut self, pinned: impl IntoIterator<Item = String>) -> Self {
        self.pinned = pinned.into_iter().collect();
        self
    }

    /// The sum of the rows above it.
    #[must_use]
    pub fn sum(mut self) -> Self {
        self.is_sum = true;
        self
    }

    /// With a square of its colour.
    #[must_use]
    pub fn fill(mut self, fill: egui::Color32) -> Self {
        self.fill = Some(fill);
        self
    }

    fn words(&self) -> String {
        let pinned =
            if self.pinned.is_empty() { String::new() } else { format!(", pinned {}", self.pinned.join(", ")) };
        format!("{}: {}{pinned}", self.name, self.figures.join(", "))
    }
}

/// A small figure of the pinned state behind the mark of the pin.
pub fn ghost_label(ui: &mut Ui, words: &str) -> Response {
    let palette = Palette::of(ui);
    let galley = paint::one_line(ui, words, theme::small(), palette.quiet, f32::INFINITY);
    let indent = paint::SWATCH + 4.0;
    let (rect, response) = ui.allocate_exact_size(vec2(indent + galley.size().x, galley.size().y), Sense::hover());
    let centre = pos2(rect.left() + paint::SWATCH / 2.0, rect.center().y);
    paint::ghost_mark(ui.painter(), centre, palette.quiet);
    ui.painter().galley(pos2(rect.left() + indent, rect.top()), galley, palette.quiet);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, format!("pinned {words}")));
    response
}
