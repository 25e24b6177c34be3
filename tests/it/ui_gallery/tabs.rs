//! The row of readings by pointer and keyboard.

use egui::{Id, Key, Theme};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};
use nibwright::ui::widgets::tabs_ui;

use super::harness;

fn tabs() -> Harness<'static, usize> {
    harness([400.0, 100.0], Theme::Light, 0, |ui, selected| {
        let names = ["Make-up", "Emulsion", "Water"];
        *selected = tabs_ui(ui, Id::unique("tabs"), &names, *selected).unwrap_or(*selected);
        if ui.button("below").clicked() {
            *selected = 0;
        }
    })
}

#[test]
fn a_click_selects() {
    let mut harness = tabs();
    harness.get_by_label("Water").click();
    harness.run();
    assert_eq!(*harness.state(), 2);
    assert_eq!(harness.get_by_label("Water").accesskit_node().data().is_selected(), Some(true));
    assert_eq!(harness.get_by_label("Make-up").accesskit_node().data().is_selected(), Some(false));
}

#[test]
fn arrows_move_within_the_row_and_tab_leaves_it() {
    let mut harness = tabs();
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_label("Make-up").is_focused());
    for (key, expected) in [
        (Key::ArrowRight, 1),
        (Key::ArrowRight, 2),
        (Key::ArrowRight, 0),
        (Key::ArrowLeft, 2),
        (Key::Home, 0),
        (Key::End, 2),
    ] {
        harness.key_press(key);
        harness.run();
        assert_eq!(*harness.state(), expected, "after {key:?}");
    }
    assert!(harness.get_by_label("Water").is_focused());
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_label("below").is_focused());
}
