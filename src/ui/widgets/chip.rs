//! A pill with a word and its value: "evaporation 0 g".

use egui::{CornerRadius, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, vec2};

use super::paint;
use crate::ui::theme::{self, Palette, space};

/// A pill that opens what it names.
#[derive(Clone, Copy, Debug)]
#[must_use = "call `ui` to show it"]
pub struct Chip<'a> {
    label: &'a str,
    value: &'a str,
}

impl<'a> Chip<'a> {
    /// Half its height: it ends in half circles.
    const RADIUS: u8 = 14;
    /// Between its ends and its text.
    const PADDING: f32 = 13.0;

    /// A pill of a quiet word and a strong value; either may be empty.
    pub fn new(label: &'a str, value: &'a str) -> Self {
        Self { label, value }
    }

    /// Draws the pill; it can be clicked.
    pub fn ui(self, ui: &mut Ui) -> Response {
        let palette = Palette::of(ui);
        let label = paint::one_line(ui, self.label, theme::body(), palette.text, f32::INFINITY);
        let value = paint::one_line(ui, self.value, theme::body_bold(), palette.text, f32::INFINITY);
        let gap = if self.label.is_empty() || self.value.is_empty() { 0.0 } else { space::TIGHT };
        let width = label.size().x + gap + value.size().x + 2.0 * Self::PADDING;
        let (rect, response) = ui.allocate_exact_size(vec2(width, 2.0 * f32::from(Self::RADIUS)), Sense::click());
        let name = format!("{} {}", self.label, self.value);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), name.trim()));
        if ui.is_rect_visible(rect) {
            let is_lit = response.hovered() || response.has_focus();
            let fill = if response.is_pointer_button_down_on() { palette.accent_ground } else { palette.card };
            let stroke = Stroke::new(1.0, if is_lit { palette.accent } else { palette.rule });
            ui.painter().rect(rect, CornerRadius::same(Self::RADIUS), fill, stroke, StrokeKind::Inside);
            let top = rect.center().y - label.size().y.max(value.size().y) / 2.0;
            let left = rect.left() + Self::PADDING;
            let value_left = left + label.size().x + gap;
            ui.painter().galley(egui::pos2(left, top), label, palette.text);
            ui.painter().galley(egui::pos2(value_left, top), value, palette.text);
            paint::focus_ring(ui, &response, rect, Self::RADIUS);
        }
        response
    }
}
