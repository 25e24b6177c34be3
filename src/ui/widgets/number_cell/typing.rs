//! Typing that is taken up before the window is drawn.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Context, Event, Id, Key};

use super::{Editing, Selection, stepped};

/// Takes up what this frame types into the focused cell, before anything is drawn; gives back its text then.
///
/// So the recipe changes before the first figure of it is drawn, and one pass over the window shows it all. Only plain
/// typing is taken up (letters, Backspace, Delete, steps by Shift and an arrow key); with anything else in the frame
/// there is `None`, and the cell itself takes it when it is drawn.
#[must_use]
pub fn type_ahead(ctx: &Context, id: Id) -> Option<String> {
    let mut editing = Editing::load(ctx, id);
    let is_ours = |event: &Event| match event {
        Event::Text(text) => !text.chars().any(char::is_control),
        Event::Key { key: Key::Backspace | Key::Delete, pressed: true, modifiers, .. } => modifiers.is_none(),
        Event::Key { key: Key::ArrowUp | Key::ArrowDown, pressed: true, modifiers, .. } => modifiers.shift_only(),
        _ => false,
    };
    // Keys that are held or let go, and the pointer where it is, change no text.
    let does_nothing = |event: &Event| {
        matches!(event, Event::Key { pressed: false, .. } | Event::PointerMoved(_) | Event::MouseMoved(_))
            || matches!(event, Event::Key { pressed: true, .. } if is_letter(event))
    };
    let is_plain = ctx.input(|input| {
        input.events.iter().any(is_ours) && input.events.iter().all(|event| is_ours(event) || does_nothing(event))
    });
    if !is_plain || !editing.was_focused || !ctx.memory(|memory| memory.has_focus(id)) {
        return None;
    }
    if !editing.is_touched {
        editing.text.clone_from(&editing.last_shown);
    }
    let mut state = TextEditState::load(ctx, id).unwrap_or_default();
    let length = editing.text.chars().count();
    let mut cursor = match state.cursor.char_range() {
        Some(range) if editing.selection != Selection::SelectAll => {
            let [low, high] = range.sorted_cursors();
            low.index.0.min(length)..high.index.0.min(length)
        }
        _ => 0..length,
    };
    editing.selection = Selection::Settled;
    let events: Vec<Event> = ctx.input(|input| input.events.iter().filter(|event| is_ours(event)).cloned().collect());
    for event in events {
        let letters: Vec<char> = editing.text.chars().collect();
        let between = |from: usize, to: usize| letters[from.min(to)..to].iter().collect::<String>();
        let all = letters.len();
        match event {
            Event::Text(text) => {
                let at = cursor.start + text.chars().count();
                editing.touch_shown();
                editing.text = between(0, cursor.start) + &text + &between(cursor.end, all);
                cursor = at..at;
            }
            Event::Key { key: Key::Backspace | Key::Delete, .. } if !cursor.is_empty() => {
                editing.touch_shown();
                editing.text = between(0, cursor.start) + &between(cursor.end, all);
                cursor = cursor.start..cursor.start;
            }
            Event::Key { key: Key::Backspace, .. } if cursor.start > 0 => {
                editing.touch_shown();
                editing.text = between(0, cursor.start - 1) + &between(cursor.start, all);
                cursor = cursor.start - 1..cursor.start - 1;
            }
            Event::Key { key: Key::Delete, .. } if cursor.start < all => {
                editing.touch_shown();
                editing.text = between(0, cursor.start) + &between(cursor.start + 1, all);
            }
            Event::Key { key: key @ (Key::ArrowUp | Key::ArrowDown), .. } => {
                if let Some(text) = stepped(&editing.text, if key == Key::ArrowUp { 1 } else { -1 }) {
                    editing.touch_shown();
                    cursor = 0..text.chars().count();
                    editing.text = text;
                }
            }
            _ => {}
        }
    }
    ctx.input_mut(|input| input.events.retain(|event| !is_ours(event)));
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(cursor.start), CCursor::new(cursor.end))));
    state.store(ctx, id);
    let text = editing.text.clone();
    editing.store(ctx, id);
    Some(text)
}

/// Whether a pressed key stands for a sign, of which the text itself comes as another event.
fn is_letter(event: &Event) -> bool {
    matches!(event, Event::Key { key, modifiers, .. }
        if !modifiers.ctrl && !modifiers.command && !modifiers.alt
            && (key.symbol_or_name().chars().count() == 1 || *key == Key::Space))
}
