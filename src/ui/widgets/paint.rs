//! Small drawing helpers that several widgets share.

use std::sync::Arc;

use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Response, Shape, Stroke, Ui, pos2, text::LayoutJob};

use crate::ui::theme::{self, Palette, space};

/// A galley of one line that is cut with `…` where it would be wider than `width`.
pub(super) fn one_line(ui: &Ui, text: impl Into<String>, font: FontId, colour: Color32, width: f32) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.into(), font, colour);
    job.wrap.max_width = width;
    job.wrap.max_rows = 1;
    job.wrap.break_anywhere = true;
    ui.painter().layout_job(job)
}

/// How wide a text of one line is.
pub(super) fn text_width(ui: &Ui, text: &str, font: FontId) -> f32 {
    one_line(ui, text, font, Color32::PLACEHOLDER, f32::INFINITY).size().x
}

/// The font in which a number fits into a width: its own, or smaller, down to what can still be read.
#[must_use]
pub fn fitting_font(ui: &Ui, text: &str, font: FontId, width: f32) -> FontId {
    /// Letters smaller than this are not read at an arm's length (judged).
    const SMALLEST: f32 = 10.0;
    let own = text_width(ui, text, font.clone());
    if own <= width {
        return font;
    }
    // Letters stand on whole pixels: a little smaller than the proportion says.
    let size = (font.size * width / own - 0.25).max(SMALLEST.min(font.size));
    FontId { size, ..font }
}

/// A text of one line at the left of a rectangle, in its middle, cut with `…` where it is too long.
pub fn clipped_text(ui: &Ui, text: &str, font: FontId, colour: Color32, rect: Rect) {
    let galley = one_line(ui, text, font, colour, rect.width());
    ui.painter().galley(pos2(rect.left(), rect.center().y - galley.size().y / 2.0), galley, colour);
}

/// A galley that is broken into lines at `width`.
pub(super) fn wrapped(ui: &Ui, text: impl Into<String>, font: FontId, colour: Color32, width: f32) -> Arc<Galley> {
    ui.painter().layout(text.into(), font, colour, width)
}

/// Distance from the top of a galley in one font to the baseline of its first line.
pub(super) fn baseline(galley: &Galley) -> f32 {
    let line = galley.rows.first().and_then(|row| row.glyphs.first().map(|glyph| row.pos.y + glyph.pos.y));
    let size = galley.job.sections.first().map_or(0.0, |section| section.format.font_id.size);
    line.unwrap_or(0.0) + theme::LATO_SHIFT * size
}

/// Height of the first line of a galley.
pub(super) fn first_line_height(galley: &Galley) -> f32 {
    galley.rows.first().map_or(0.0, |row| row.height())
}

/// A dashed outline: the sign of what is pinned.
pub(super) fn dashed_rect(painter: &Painter, rect: Rect, stroke: Stroke) {
    let corners = [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()];
    painter.extend(Shape::dashed_line(&corners, stroke, 3.0, 2.5));
}

/// The outline of what has the keyboard.
pub fn focus_ring(ui: &Ui, response: &Response, rect: Rect, radius: u8) {
    if response.has_focus() {
        let stroke = Palette::of(ui).focus_stroke();
        ui.painter().rect_stroke(rect, radius, stroke, egui::StrokeKind::Outside);
    }
}

/// A small square of colour in front of a word.
pub(super) fn swatch(painter: &Painter, left_centre: Pos2, fill: Color32) {
    let rect = Rect::from_min_size(pos2(left_centre.x, left_centre.y - SWATCH / 2.0), egui::Vec2::splat(SWATCH));
    painter.rect_filled(rect, space::MARK_RADIUS, fill);
}

/// Side of a [`swatch`].
pub(super) const SWATCH: f32 = 11.0;

/// The small dashed square that stands for the pinned state.
pub(super) fn ghost_mark(painter: &Painter, centre: Pos2, colour: Color32) {
    let rect = Rect::from_center_size(centre, egui::Vec2::splat(SWATCH - 1.0));
    dashed_rect(painter, rect, Stroke::new(1.0, colour));
}
