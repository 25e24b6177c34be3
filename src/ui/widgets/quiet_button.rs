//! Buttons that look like the text around them, with the outline of the keyboard when they have it.

use egui::{Button, InnerResponse, Response, RichText, Ui, containers::menu::MenuButton, vec2};

use super::paint;
use crate::ui::theme::space;

fn frameless(words: RichText, least_width: f32) -> Button<'static> {
    Button::new(words).frame(false).min_size(vec2(least_width, space::TARGET))
}

/// A button without a frame.
pub fn quiet_button(ui: &mut Ui, words: RichText) -> Response {
    let response = ui.add(frameless(words, 0.0));
    paint::focus_ring(ui, &response, response.rect.expand2(vec2(3.0, 0.0)), space::FIELD_RADIUS);
    response
}

/// A button without a frame, at least this wide, that opens a menu.
pub fn menu_button<R>(
    ui: &mut Ui,
    words: RichText,
    least_width: f32,
    contents: impl FnOnce(&mut Ui) -> R,
) -> (Response, Option<InnerResponse<R>>) {
    let (response, inner) = MenuButton::from_button(frameless(words, least_width)).ui(ui, contents);
    paint::focus_ring(ui, &response, response.rect.expand2(vec2(3.0, 0.0)), space::FIELD_RADIUS);
    (response, inner)
}
