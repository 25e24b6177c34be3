//! Scrolling by keys: Page Up, Page Down, Home, End.

use egui::{Id, Key, Modifiers, Popup, Ui, style::ScrollAnimation, vec2};

use super::number_cell::{edited_cell, is_number_cell};

/// What stays in sight of a page: the eye goes on from there.
const OVERLAP: f32 = 40.0;

/// Scrolls the area whose contents were just drawn into `ui`, unless the keys belong to a text, a menu or a dialog.
///
/// An amount that nothing was typed into knows no pages: they go to the area.
pub fn scroll_by_keys(ui: &Ui) {
    let ctx = ui.ctx();
    let is_elsewhere = ctx.memory(|memory| memory.top_modal_layer().is_some()) || Popup::is_any_open(ctx);
    let is_in_text = ctx.text_edit_focused();
    let is_resting = |id: Id| is_number_cell(ctx, id) && edited_cell(ctx).is_none();
    if is_elsewhere || (is_in_text && !ctx.memory(egui::Memory::focused).is_some_and(is_resting)) {
        return;
    }
    let (contents, shown) = (ui.min_rect(), ui.clip_rect());
    let most = (contents.height() - shown.height()).max(0.0);
    let page = (shown.height() - OVERLAP).max(OVERLAP);
    let before = shown.top() - contents.top();
    let after = ui.input_mut(|input| {
        let mut pressed = |key| input.consume_key(Modifiers::NONE, key);
        let mut after = before;
        if pressed(Key::PageDown) {
            after += page;
        }
        if pressed(Key::PageUp) {
            after -= page;
        }
        // In a text they move the caret, whatever was typed.
        if !is_in_text && pressed(Key::Home) {
            after = 0.0;
        }
        if !is_in_text && pressed(Key::End) {
            after = most;
        }
        after.clamp(0.0, most)
    });
    if (after - before).abs() > 0.5 {
        // At once: of two presses in a row, the second counts from where the first has come to.
        ui.scroll_with_delta_animation(vec2(0.0, before - after), ScrollAnimation::none());
    }
}
