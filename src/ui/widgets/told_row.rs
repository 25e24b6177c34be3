//! A row that tells something in words: a name at the left, the words beside it, and under them what they were when pinned.

use egui::{Response, Sense, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::finding_card::with_units;
use super::paint;
use crate::ui::theme::{self, Palette, space};

/// Wide enough for the longest name.
const NAME: f32 = 150.0;
/// Between the words and what they were.
const UNDER: f32 = 1.0;

/// Draws the row over the available width; it is a stop for the Tab key.
///
/// Painted as a whole: rows of labels in columns take several times as long.
pub fn told_row_ui(ui: &mut Ui, name: &str, words: &str, ghost: Option<&str>) -> Response {
    let palette = Palette::of(ui);
    let width = ui.available_width();
    let left = NAME + ui.spacing().item_spacing.x;
    let name_galley = paint::wrapped(ui, name, theme::body(), palette.quiet, NAME);
    let galley = paint::wrapped(ui, with_units(words), theme::body_bold(), palette.text, (width - left).max(60.0));
    let mark = paint::SWATCH + 4.0;
    let ghost_galley = ghost.map(|ghost| paint::one_line(ui, ghost, theme::small(), palette.quiet, f32::INFINITY));
    let told = galley.size().y + ghost_galley.as_ref().map_or(0.0, |ghost| ghost.size().y + UNDER);
    let height = told.max(name_galley.size().y);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::focusable_noninteractive());
    response.widget_info(|| {
        let pinned = ghost.map(|ghost| format!(", pinned {ghost}")).unwrap_or_default();
        WidgetInfo::labeled(Role::Label, ui.is_enabled(), format!("{name}: {words}{pinned}"))
    });
    if ui.is_rect_visible(rect) {
        ui.painter().galley(rect.left_top(), name_galley, palette.quiet);
        let below = galley.size().y + UNDER;
        ui.painter().galley(pos2(rect.left() + left, rect.top()), galley, palette.text);
        if let Some(ghost) = ghost_galley {
            let at = pos2(rect.left() + left + mark, rect.top() + below);
            let centre = pos2(at.x - mark + paint::SWATCH / 2.0, at.y + ghost.size().y / 2.0);
            paint::ghost_mark(ui.painter(), centre, palette.quiet);
            ui.painter().galley(at, ghost, palette.quiet);
        }
        paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 3.0)), space::FIELD_RADIUS);
    }
    response
}
