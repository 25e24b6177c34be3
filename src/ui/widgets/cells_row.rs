//! A row of words and figures in columns, read as one sentence and reached as one stop of the Tab key.

use egui::{Color32, FontId, Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::paint;
use crate::ui::theme::space;

/// What stands in a column.
#[derive(Clone, Debug)]
pub struct Cell {
    /// The words or the figure; cut with `…` where they are too long.
    pub text: String,
    /// How wide the column is.
    pub width: f32,
    /// The letters.
    pub font: FontId,
    /// Their colour.
    pub colour: Color32,
    /// Whether it stands at the right of its column.
    pub is_right: bool,
}

/// Distance between two columns.
pub const GAP: f32 = 8.0;

/// Height of a row.
pub const ROW: f32 = 25.0;

/// Draws a row; `words` are what it says to those who cannot see it.
pub fn cells_row_ui(ui: &mut Ui, cells: &[Cell], words: &str) -> Response {
    let width: f32 = cells.iter().map(|cell| cell.width + GAP).sum::<f32>() - GAP;
    let sense = Sense::focusable_noninteractive();
    let (rect, response) = ui.allocate_exact_size(vec2(width.max(0.0), ROW), sense);
    response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), words));
    if ui.is_rect_visible(rect) {
        let mut left = rect.left();
        for cell in cells {
            let galley = paint::one_line(ui, cell.text.as_str(), cell.font.clone(), cell.colour, cell.width);
            let beside = if cell.is_right { cell.width - galley.size().x } else { 0.0 };
            ui.painter().galley(pos2(left + beside, rect.center().y - galley.size().y / 2.0), galley, cell.colour);
            left += cell.width + GAP;
        }
        paint::focus_ring(ui, &response, rect.expand2(vec2(4.0, 0.0)), space::FIELD_RADIUS);
    }
    response
}
