//! Buttons that look like the text around them, and the one that does not, with the outline of the keyboard.

use egui::{Button, InnerResponse, Response, RichText, Ui, containers::menu::MenuButton, vec2};

use super::paint;
use crate::ui::theme::{self, Palette, space};

fn frameless(words: RichText, least_width: f32) -> Button<'static> {
    Button::new(words).frame(false).min_size(vec2(least_width, space::TARGET))
}

/// A button without a frame.
pub fn quiet_button(ui: &mut Ui, words: RichText) -> Response {
    let response = ui.add(frameless(words, 0.0));
    ring(ui, &response);
    response
}

/// The button of what is mainly done in a place, filled with the accent, at least this wide.
pub fn accent_button(ui: &mut Ui, words: &str, least_width: f32) -> Response {
    let palette = Palette::of(ui);
    let button = Button::new(theme::strong(words).color(palette.on_accent)).fill(palette.accent);
    let response = ui.add(button.min_size(vec2(least_width, 28.0)));
    ring(ui, &response);
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
    ring(ui, &response);
    (response, inner)
}

/// A word in small letters that opens a menu, as high as its letters: under a number, where a button has no room.
pub fn small_menu_button<R>(
    ui: &mut Ui,
    words: RichText,
    contents: impl FnOnce(&mut Ui) -> R,
) -> (Response, Option<InnerResponse<R>>) {
    let (response, inner) = ui
        .scope(|ui| {
            ui.spacing_mut().button_padding = vec2(2.0, 0.0);
            ui.spacing_mut().interact_size.y = 0.0;
            MenuButton::from_button(Button::new(words).frame(false)).ui(ui, contents)
        })
        .inner;
    ring(ui, &response);
    (response, inner)
}

/// The outline of the keyboard: a little beside the words where there is room, never over them and never cut off.
fn ring(ui: &mut Ui, response: &Response) {
    const BESIDE: f32 = 3.0;
    let clip = ui.clip_rect();
    let room = clip.shrink(ui.pixels_per_point().recip() + Palette::of(ui).focus_stroke().width);
    let rect = response.rect.expand2(vec2(BESIDE, 0.0)).intersect(room).union(response.rect);
    // The word at the end of a row touches the edge of what is drawn.
    ui.set_clip_rect(clip.expand2(vec2(BESIDE, 0.0)));
    paint::focus_ring(ui, response, rect, space::FIELD_RADIUS);
    ui.set_clip_rect(clip);
}
