//! Leaving: nothing that was typed is lost without a question.

use egui::{Key, ViewportCommand};
use nibwright::ingredient::Library;
use nibwright::store::load_recipe;

use super::*;

const SAMPLE: &str = "dark-cut-ganache.ron";

/// A copy of a sample with an unsaved change.
fn changed() -> Window {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window
}

fn cream_on_disk(window: &Window) -> f64 {
    let recipe = load_recipe(&window.folder.path().join(SAMPLE), Library::built_in()).expect("it opens");
    recipe.lines[1].amount.value()
}

/// Answers the question and gives back what the window asks of the system then.
fn answer(window: &mut Window, button: &str) -> Vec<ViewportCommand> {
    window.get_by_label(button).click_accesskit();
    window.step();
    let commands = window.commands();
    window.run();
    commands
}

#[test]
fn a_saved_recipe_closes_without_a_question() {
    let mut window = with_copy_of(SAMPLE);
    assert_eq!(window.ask_to_close(), []);
    window.run();
    assert!(!window.has_text("Save the changes"));
}

#[test]
fn unsaved_changes_keep_the_window_open_and_ask() {
    let mut window = changed();
    assert!(window.ask_to_close().contains(&ViewportCommand::CancelClose));
    window.run();
    assert!(window.has_text("Save the changes to “Dark cut ganache”?"));
    // Asking again asks the same.
    assert!(window.ask_to_close().contains(&ViewportCommand::CancelClose));
    window.run();
    assert!(window.has_text("Save the changes to “Dark cut ganache”?"));
}

#[test]
fn save_saves_and_closes() {
    let mut window = changed();
    window.ask_to_close();
    window.run();
    assert!(answer(&mut window, "Save").contains(&ViewportCommand::Close));
    assert_eq!(cream_on_disk(&window), 240.0);
    assert_eq!(window.ask_to_close(), [], "the second request goes through");
}

#[test]
fn dont_save_closes_and_leaves_the_file_as_it_was() {
    let mut window = changed();
    window.ask_to_close();
    window.run();
    assert!(answer(&mut window, "Don't save").contains(&ViewportCommand::Close));
    assert_eq!(cream_on_disk(&window), 200.0);
    assert_eq!(window.ask_to_close(), [], "the second request goes through");
}

#[test]
fn cancel_goes_back_to_the_recipe() {
    let mut window = changed();
    for by_key in [false, true] {
        window.ask_to_close();
        window.run();
        if by_key {
            window.press(Key::Escape);
        } else {
            assert_eq!(answer(&mut window, "Cancel"), []);
        }
        assert!(!window.has_text("Save the changes"));
        assert_eq!((window.amount(CREAM), window.state().is_saved()), (240.0, false));
        assert_eq!(cream_on_disk(&window), 200.0);
    }
    // The answer does not wait for the next save.
    window.press_with(CTRL, Key::S);
    assert_eq!(window.commands(), []);
    assert_eq!(cream_on_disk(&window), 240.0);
}

#[test]
fn enter_saves() {
    let mut window = changed();
    window.press_with(CTRL, Key::Q);
    assert!(window.has_text("Save the changes"));
    window.press(Key::Enter);
    assert_eq!(cream_on_disk(&window), 240.0);
    assert!(!window.has_text("Save the changes"));
}

#[test]
fn save_asks_for_a_place_where_there_is_none_and_then_closes() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::Q);
    answer(&mut window, "Save");
    assert!(window.has_text("Save the recipe"));
    window.press_with(CTRL, Key::A);
    let path = window.folder.path().join("mine");
    window.event(egui::Event::Text(path.display().to_string()));
    window.run();
    window.event(egui::Event::Key {
        key: Key::Enter,
        physical_key: None,
        pressed: true,
        repeat: false,
        modifiers: egui::Modifiers::NONE,
    });
    window.step();
    assert!(window.commands().contains(&ViewportCommand::Close));
    assert!(path.with_extension("ron").exists());
}

#[test]
fn a_save_that_fails_closes_nothing() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::Q);
    answer(&mut window, "Save");
    window.press_with(CTRL, Key::A);
    let path = window.folder.path().join("no such folder").join("mine.ron");
    window.event(egui::Event::Text(path.display().to_string()));
    window.run();
    window.press(Key::Enter);
    assert!(window.has_text("The recipe is not saved"));
    window.press(Key::Escape);
    assert!(!window.state().is_saved());
    assert!(window.ask_to_close().contains(&ViewportCommand::CancelClose));
}

#[test]
fn another_recipe_waits_for_the_answer_too() {
    for (button, name, on_disk) in
        [("Save", "", 240.0), ("Don't save", "", 200.0), ("Cancel", "Dark cut ganache", 200.0)]
    {
        let mut window = changed();
        window.press_with(CTRL, Key::N);
        assert!(window.has_text("Save the changes"));
        answer(&mut window, button);
        assert_eq!((window.recipe().name.as_str(), cream_on_disk(&window)), (name, on_disk), "{button}");
    }
}

#[test]
fn typing_that_is_not_finished_counts_as_a_change() {
    let mut window = with_copy_of(SAMPLE);
    window.type_amount(CREAM, "240");
    assert!(window.ask_to_close().contains(&ViewportCommand::CancelClose));
}
