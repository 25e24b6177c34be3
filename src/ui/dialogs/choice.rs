//! Menus of forms, and what the keyboard reaches in them.

use egui::{ComboBox, EventFilter, Key, Modifiers, Response, Ui};

/// A menu that opens, or is stepped through with the arrow keys; gives back whether something was chosen.
pub(super) fn choice_ui<T: Clone + PartialEq>(
    ui: &mut Ui,
    label: &Response,
    all: &[T],
    width: f32,
    words: impl Fn(&T) -> String,
    chosen: &mut T,
) -> bool {
    let before = chosen.clone();
    let mut is_clicked = false;
    let menu = ComboBox::from_id_salt(label.id).selected_text(words(chosen)).width(width).height(280.0).truncate();
    let response = menu
        .show_ui(ui, |ui| {
            for choice in all {
                if ui.selectable_label(choice == chosen, words(choice)).clicked() {
                    *chosen = choice.clone();
                    is_clicked = true;
                }
            }
        })
        .response
        .labelled_by(label.id);
    if response.has_focus() && !egui::Popup::is_any_open(ui.ctx()) {
        let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
        let (up, down) = ui.input_mut(|input| {
            (input.consume_key(Modifiers::NONE, Key::ArrowUp), input.consume_key(Modifiers::NONE, Key::ArrowDown))
        });
        let place = all.iter().position(|choice| choice == chosen).unwrap_or(0);
        let place = if up { place.saturating_sub(1) } else { place + usize::from(down) };
        if let Some(choice) = all.get(place) {
            *chosen = choice.clone();
        }
    }
    in_sight(response);
    is_clicked || *chosen != before
}

/// What the keyboard reaches has to be seen.
pub(super) fn in_sight(response: Response) -> Response {
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response
}
