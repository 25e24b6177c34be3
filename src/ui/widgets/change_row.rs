//! Rows of changes: a name, a bar to the left or right of nought, the figure.

use egui::{Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::paint;
use crate::ui::theme::{self, Palette, space};

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChangeRow {
    /// What changes it.
    pub name: String,
    /// By how much.
    pub change: f64,
    /// The same in words.
    pub text: String,
    /// The same in the pinned state, if one is pinned and has it.
    pub pinned: Option<f64>,
    /// The same in words; empty where nothing is pinned.
    pub pinned_text: String,
    /// Whether it is pointed at elsewhere.
    pub is_lit: bool,
}

const ROW: f32 = 26.0;
const ROW_WITH_PIN: f32 = 36.0;
const BAR: f32 = 10.0;

/// Draws the rows over one scale, with nought in one line; each is a stop for the Tab key. Answers one response a row.
pub fn change_rows_ui(ui: &mut Ui, rows: &[ChangeRow]) -> Vec<Response> {
    /// Part of the width that names take at most.
    const NAMES: f32 = 0.46;
    const FIGURE: f32 = 74.0;
    /// The scale shows nothing smaller in full: bars of what is shown as nothing stay short.
    const LEAST_SPAN: f64 = 1e-3;
    let palette = Palette::of(ui);
    let width = ui.available_width();
    let names = (width * NAMES).min(210.0);
    let bars = egui::Rangef::new(names + space::GROUP, width - FIGURE);
    let changes = || rows.iter().flat_map(|row| [Some(row.change), row.pinned]).flatten();
    let (low, high) = changes().fold((0.0, 0.0), |(low, high): (f64, f64), change| (low.min(change), high.max(change)));
    let span = (high - low).max(LEAST_SPAN);
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        rows.iter()
            .map(|row| {
                let height = if row.pinned_text.is_empty() { ROW } else { ROW_WITH_PIN };
                let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::focusable_noninteractive());
                response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), row.words()));
                if ui.is_rect_visible(rect) {
                    #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
                    let place = |change: f64| rect.left() + bars.min + bars.span() * ((change - low) / span) as f32;
                    let middle = rect.top() + ROW / 2.0;
                    let colour = if row.is_lit { palette.accent } else { palette.text };
                    let name = paint::one_line(ui, row.name.as_str(), theme::body(), colour, names);
                    ui.painter().galley(pos2(rect.left(), middle - name.size().y / 2.0), name, colour);
                    let bar = |change: f64| {
                        egui::Rect::from_x_y_ranges(
                            egui::Rangef::new(place(change.min(0.0)), place(change.max(0.0))),
                            middle - BAR / 2.0..=middle + BAR / 2.0,
                        )
                    };
                    let fill = if row.change > 0.0 { palette.caution } else { palette.accent };
                    ui.painter().rect_filled(bar(row.change), 2.0, fill);
                    if let Some(before) = row.pinned {
                        let stroke = egui::Stroke::new(1.0, palette.quiet);
                        paint::dashed_rect(ui.painter(), bar(before).expand(2.0), stroke);
                    }
                    ui.painter().vline(place(0.0), rect.y_range(), egui::Stroke::new(1.0, palette.mark));
                    let figure = paint::one_line(ui, row.text.as_str(), theme::body_bold(), palette.text, FIGURE);
                    let at = pos2(rect.right() - figure.size().x, middle - figure.size().y / 2.0);
                    ui.painter().galley(at, figure, palette.text);
                    if !row.pinned_text.is_empty() {
                        let before =
                            paint::one_line(ui, row.pinned_text.as_str(), theme::small(), palette.quiet, FIGURE);
                        let at = pos2(rect.right() - before.size().x, middle + 9.0);
                        let mark = pos2(at.x - 4.0 - paint::SWATCH / 2.0, at.y + before.size().y / 2.0);
                        paint::ghost_mark(ui.painter(), mark, palette.quiet);
                        ui.painter().galley(at, before, palette.quiet);
                    }
                    paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 0.0)), space::FIELD_RADIUS);
                }
                response
            })
            .collect()
    })
    .inner
}

impl ChangeRow {
    fn words(&self) -> String {
        let pinned = if self.pinned_text.is_empty() { String::new() } else { format!(", pinned {}", self.pinned_text) };
        format!("{}: {}{pinned}", self.name, self.text)
    }
}
