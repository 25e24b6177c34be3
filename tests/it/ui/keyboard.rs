//! The window without a mouse.

use egui::{Key, Modifiers};
use nibwright::analysis::reading::Reading;
use nibwright::recipe::Recipe;

use super::*;

/// Adds what the search finds and gives it an amount.
fn add(window: &mut Window, search: &str, amount: &str) {
    window.press_with(CTRL, Key::F);
    window.type_text(search);
    window.press(Key::Enter);
    window.type_text(amount);
    window.press(Key::Enter);
}

#[test]
fn a_recipe_is_written_from_nothing() {
    let mut window = first_start();
    window.press_with(CTRL, Key::N);
    assert_eq!(*window.recipe(), Recipe::default());
    assert_eq!(window.focused().as_deref(), Some("Find a recipe or ingredient"), "a new recipe begins with the search");
    window.type_text("dark 64");
    window.press(Key::Enter);
    assert_eq!(window.focused(), Some(format!("{COUVERTURE}, amount")), "and goes on with the amount");
    window.type_text("400");
    window.press(Key::Enter);
    // After the last line comes the next ingredient.
    assert_eq!(window.focused().as_deref(), Some("Find a recipe or ingredient"));
    add(&mut window, "cream 35", "200");
    add(&mut window, "butter 82", "40");
    add(&mut window, "invert", "25");
    add(&mut window, "glucose 40", "20,5");
    let lines: Vec<(&str, f64)> =
        window.recipe().lines.iter().map(|line| (line.ingredient.id.as_str(), line.amount.value())).collect();
    assert_eq!(lines[..3], [("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 40.0)]);
    assert_eq!(lines[3].1, 25.0);
    assert_eq!(lines[4].1, 20.5);
    assert!(window.figure("cocoa butter").contains('%'));
    // Adding is a step, its amount another.
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().lines[4].amount.value(), 0.0);
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().lines.len(), 4);
}

#[test]
fn the_search_is_empty_again_after_an_ingredient_was_added() {
    let mut window = first_start();
    add(&mut window, "dextrose", "12");
    assert_eq!(window.state().view().search, "");
    window.press_with(CTRL, Key::F);
    window.type_text("zzz");
    assert!(window.has_text("None has these words"));
    let before = window.recipe().clone();
    window.press(Key::Enter);
    assert_eq!(*window.recipe(), before, "nothing found, nothing added");
    // What was typed can be corrected at once.
    window.press_with(CTRL, Key::A);
    window.type_text("dextrose");
    window.press(Key::Enter);
    assert_eq!(window.recipe().lines.len(), before.lines.len() + 1);
    // Esc empties the search and leaves it.
    window.press_with(CTRL, Key::F);
    window.type_text("dark");
    window.press(Key::Escape);
    assert_eq!((window.state().view().search.as_str(), window.focused()), ("", None));
}

#[test]
fn enter_in_the_empty_search_adds_nothing() {
    let mut window = first_start();
    window.press_with(CTRL, Key::F);
    window.press(Key::Enter);
    assert_eq!(window.recipe().lines.len(), 5);
    assert_eq!(window.focused().as_deref(), Some("Find a recipe or ingredient"));
}

#[test]
fn letters_count_that_come_in_the_same_frame_as_the_key_after_them() {
    let key = |modifiers, key| Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers };
    let mut window = with_copy_of("dark-cut-ganache.ron");
    window.press_with(CTRL, Key::F);
    window.input_mut().events.extend([Event::Text("dextrose".to_owned()), key(Modifiers::NONE, Key::Enter)]);
    window.run();
    assert_eq!(window.recipe().lines[5].ingredient.id, "dextrose-monohydrate");
    window.input_mut().events.extend([Event::Text("12".to_owned()), key(CTRL, Key::S)]);
    window.run();
    assert!(window.state().is_saved());
    let path = window.folder.path().join("dark-cut-ganache.ron");
    let saved = nibwright::store::load_recipe(&path, nibwright::ingredient::Library::built_in()).expect("it opens");
    assert_eq!(saved.lines[5].amount.value(), 12.0);
    window.press(Key::F2);
    window.input_mut().events.extend([Event::Text("13".to_owned()), key(CTRL, Key::L)]);
    window.run();
    let line = &window.recipe().lines[5];
    assert_eq!((line.amount.value(), line.is_locked), (13.0, true));
}

#[test]
fn going_to_the_search_again_selects_what_is_there() {
    let mut window = first_start();
    window.press_with(CTRL, Key::F);
    window.type_text("zzz");
    window.press(Key::Tab);
    window.press_with(CTRL, Key::F);
    window.type_text("dextrose");
    assert_eq!(window.state().view().search, "dextrose");
}

#[test]
fn arrow_keys_choose_among_what_was_found() {
    let mut window = first_start();
    window.press_with(CTRL, Key::F);
    window.type_text("dark couverture");
    let found: Vec<String> = nibwright::ingredient::Library::built_in()
        .search("dark couverture")
        .into_iter()
        .map(|ingredient| ingredient.name.clone())
        .collect();
    for key in [Key::ArrowDown, Key::ArrowDown, Key::ArrowDown, Key::ArrowUp] {
        window.press(key);
    }
    window.press(Key::Enter);
    assert_eq!(window.focused(), Some(format!("{}, amount", found[2])));
}

#[test]
fn f2_goes_to_the_amount_and_with_shift_to_the_note() {
    let mut window = first_start();
    window.press(Key::F2);
    assert_eq!(window.focused(), Some(format!("{COUVERTURE}, amount")), "the first line where none is chosen");
    window.press(Key::Enter);
    window.press_with(Modifiers::SHIFT, Key::F2);
    assert_eq!(window.focused(), Some(format!("{CREAM}, note")));
    window.press_with(CTRL, Key::A);
    window.type_text("cold");
    assert_eq!(window.line(CREAM).note, "cold");
    window.press_with(CTRL, Key::E);
    assert_eq!(window.focused(), Some(format!("{CREAM}, amount")));
    window.type_text("7");
    assert_eq!(window.amount(CREAM), 7.0, "the amount was selected");
}

#[test]
fn a_note_is_reached_where_there_is_no_room_for_notes() {
    let mut window = first_start();
    window.get_by_label("Butter, unsalted, 82 % fat, note");
    for by_menu in [false, true] {
        if by_menu {
            window.line_name(BUTTER).click_secondary();
            window.run();
            window.click("Change note");
        } else {
            window.click("Butter, unsalted, 82 % fat, amount");
            window.press_with(Modifiers::SHIFT, Key::F2);
        }
        assert_eq!(window.focused(), Some(format!("{BUTTER}, note")));
        window.press_with(CTRL, Key::A);
        window.type_text("cold");
        assert_eq!(window.line(BUTTER).note, "cold");
        window.press(Key::Enter);
        window.press_with(CTRL, Key::Z);
        assert_eq!(window.line(BUTTER).note, "soft, last");
    }
    // A line without a note has no field for it until it is asked for.
    let without = "Glucose syrup DE 38-42, 80 % dry matter";
    assert!(window.query_by_label(&format!("{without}, note")).is_none());
    window.click(&format!("{without}, amount"));
    window.press_with(Modifiers::SHIFT, Key::F2);
    assert_eq!(window.focused(), Some(format!("{without}, note")));
    window.type_text("warm");
    window.press(Key::Enter);
    window.get_by_label(&format!("{without}, note"));
    assert_eq!(window.line(without).note, "warm");
}

#[test]
fn the_note_of_the_recipe_is_written_by_keys_and_taken_back() {
    let mut window = first_start();
    let before = window.recipe().note.clone();
    assert!(!before.is_empty());
    window.click("name of the recipe");
    window.press(Key::Tab);
    assert_eq!(window.focused(), Some("note of the recipe".to_owned()));
    window.press_with(CTRL, Key::A);
    window.type_text("For Friday.");
    assert_eq!(window.recipe().note, "For Friday.");
    window.press(Key::Tab);
    assert_eq!(window.focused(), Some("ganache".to_owned()), "the next stop is the kind");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().note, before, "one step");
    window.press_with(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused(), Some("note of the recipe".to_owned()));
    window.type_text("x");
    window.press(Key::Escape);
    assert_eq!(window.recipe().note, before, "Esc takes back what was typed");
    assert_eq!(window.focused(), None);
    window.get_by_label_contains("note of the recipe: Shows");
    assert!(window.query_by_label("note of the recipe").is_none(), "the field is gone");
}

#[test]
fn enter_goes_down_the_amounts_and_with_shift_up() {
    let mut window = first_start();
    window.press(Key::F2);
    window.press(Key::Enter);
    window.press(Key::Enter);
    assert_eq!(window.focused(), Some(format!("{BUTTER}, amount")));
    window.press_with(Modifiers::SHIFT, Key::Enter);
    assert_eq!(window.focused(), Some(format!("{CREAM}, amount")));
    assert_eq!(window.state().view().selected, Some(window.line(CREAM).id));
    assert!(window.state().is_saved(), "passing through changes nothing");
}

#[test]
fn enter_passes_over_locked_lines() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, lock");
    window.click("Dark couverture, 64 % cocoa, amount");
    window.press(Key::Enter);
    assert_eq!(window.focused(), Some(format!("{BUTTER}, amount")));
    window.press_with(Modifiers::SHIFT, Key::Enter);
    assert_eq!(window.focused(), Some(format!("{COUVERTURE}, amount")));
}

#[test]
fn after_the_last_free_line_comes_the_search() {
    let mut window = first_start();
    let last: Vec<String> = window.ingredients()[3..].iter().map(|name| format!("{name}, lock")).collect();
    for lock in last {
        window.click(&lock);
    }
    window.click("Butter, unsalted, 82 % fat, amount");
    window.press(Key::Enter);
    assert_eq!(window.focused().as_deref(), Some("Find a recipe or ingredient"));
    // What is added then stands behind the chosen line and can be typed into.
    window.type_text("dextrose");
    window.press(Key::Enter);
    window.type_text("5");
    assert_eq!(window.recipe().lines.iter().map(|line| line.is_locked).collect::<Vec<_>>()[3..], [false, true, true]);
    assert_eq!(window.recipe().lines[3].amount.value(), 5.0);
}

#[test]
fn a_recipe_of_locked_lines_can_still_be_used_by_keys() {
    let mut window = first_start();
    for _ in 0..5 {
        window.press(Key::F2);
        window.press_with(CTRL, Key::L);
        // The lock went with the cell; the next line is reached from the search.
        window.press_with(CTRL, Key::F);
        let next = window.recipe().lines.iter().find(|line| !line.is_locked).map(|line| line.ingredient.name.clone());
        let Some(next) = next else { break };
        window.click(&format!("{next}, amount"));
    }
    assert!(window.recipe().lines.iter().all(|line| line.is_locked));
    window.get_by_label("Cream, 35 % fat, unlock").focus();
    window.run();
    assert_eq!(window.state().view().selected, Some(window.line(CREAM).id), "the keyboard chooses its line");
    window.press_with(CTRL, Key::L);
    assert!(!window.line(CREAM).is_locked);
    window.press(Key::F2);
    window.type_text("210");
    assert_eq!(window.amount(CREAM), 210.0);
}

#[test]
fn alt_and_arrows_move_the_chosen_line() {
    let mut window = first_start();
    window.press(Key::F2);
    window.press_with(ALT, Key::ArrowDown);
    assert_eq!(window.ingredients()[..2], [CREAM, COUVERTURE]);
    window.press_with(ALT, Key::ArrowDown);
    assert_eq!(window.ingredients()[..3], [CREAM, BUTTER, COUVERTURE]);
    window.press_with(ALT, Key::ArrowUp);
    assert_eq!(window.ingredients()[..3], [CREAM, COUVERTURE, BUTTER]);
    assert_eq!(window.focused(), Some(format!("{COUVERTURE}, amount")), "the keyboard goes with the line");
    assert_eq!(window.amount(COUVERTURE), 400.0);
    for _ in 0..9 {
        window.press_with(ALT, Key::ArrowUp);
    }
    assert_eq!(window.ingredients()[0], COUVERTURE);
}

#[test]
fn ctrl_l_locks_the_chosen_line() {
    let mut window = first_start();
    window.press(Key::F2);
    window.press(Key::Enter);
    window.press_with(CTRL, Key::L);
    assert!(window.line(CREAM).is_locked);
    window.press(Key::F2);
    window.type_text("9");
    assert_eq!(window.amount(CREAM), 200.0, "a locked amount is not typed into");
    assert!(window.has_text("This amount is locked"));
    window.press_with(CTRL, Key::L);
    assert!(!window.line(CREAM).is_locked);
    window.press(Key::F2);
    window.type_text("9");
    assert_eq!(window.amount(CREAM), 9.0);
}

#[test]
fn ctrl_delete_removes_the_chosen_line_and_the_toast_brings_it_back() {
    let mut window = first_start();
    window.press(Key::F2);
    window.press(Key::Enter);
    window.press_with(CTRL, Key::Delete);
    assert!(!window.ingredients().contains(&CREAM));
    assert_eq!(window.state().view().selected, Some(window.line(BUTTER).id), "the next line is chosen");
    assert!(window.has_text("Line removed"));
    window.click("Undo");
    assert_eq!(window.ingredients()[1], CREAM);
    assert!(window.state().is_saved());
    assert!(!window.has_text("Line removed"), "the toast has gone");
}

#[test]
fn the_undo_of_a_toast_goes_when_something_else_was_changed() {
    let mut window = first_start();
    window.press_with(CTRL, Key::Delete);
    assert!(window.query_by_label("Undo").is_some());
    window.type_amount(CREAM, "240");
    assert!(window.query_by_label("Undo").is_none(), "it would take back the amount");
    window.press(Key::Enter);
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Z);
    assert!(window.state().is_saved());
}

#[test]
fn undo_belongs_to_the_recipe_while_a_button_has_the_keyboard() {
    let mut window = first_start();
    window.get_by_label("Cream, 35 % fat, lock").focus();
    window.run();
    window.press(Key::Space);
    assert!(window.line(CREAM).is_locked);
    window.press_with(CTRL, Key::Z);
    assert!(!window.line(CREAM).is_locked);
}

#[test]
fn ctrl_delete_in_a_text_is_a_word_less() {
    let mut window = wide();
    window.click("Butter, unsalted, 82 % fat, note");
    window.press(Key::Home);
    window.press_with(CTRL, Key::Delete);
    assert!(window.ingredients().contains(&BUTTER));
    assert_eq!(window.line(BUTTER).note, ", last");
}

#[test]
fn every_line_can_be_removed_by_keys() {
    let mut window = first_start();
    for _ in 0..5 {
        window.press_with(CTRL, Key::Delete);
    }
    assert_eq!(window.recipe().lines.len(), 0);
    window.press_with(CTRL, Key::Delete);
    assert!(window.has_text("The recipe has no lines yet"));
    for _ in 0..5 {
        window.press_with(CTRL, Key::Z);
    }
    assert_eq!(window.recipe().lines.len(), 5);
    assert!(window.state().is_saved());
}

#[test]
fn ctrl_and_a_digit_brings_a_reading_to_the_front() {
    let mut window = first_start();
    for (key, reading, caption) in [
        (Key::Num2, Reading::Emulsion, "dispersed share, hot"),
        (Key::Num3, Reading::Water, "sucrose saturation"),
        (Key::Num4, Reading::FatCrystals, "solid at 20.0 °C"),
        (Key::Num5, Reading::Setting, "until cutting"),
        (Key::Num1, Reading::MakeUp, "cocoa butter"),
    ] {
        window.show(key);
        assert_eq!(window.state().view().reading, reading);
        window.figure(caption);
    }
}

#[test]
fn commands_are_searched_and_run() {
    let mut window = first_start();
    window.command("pin this");
    assert!(window.figure("cocoa butter").contains(" pinned "));
    window.command("unpin");
    assert!(!window.figure("cocoa butter").contains(" pinned "));
    window.command("emulsion");
    assert_eq!(window.state().view().reading, Reading::Emulsion);
    window.press_with(CTRL, Key::K);
    window.press(Key::Escape);
    assert!(window.query_by_label("Search commands").is_none());
}

#[test]
fn what_is_typed_right_behind_the_key_of_the_search_belongs_to_the_search() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, amount");
    // All of it may arrive in one frame.
    let key = |key, modifiers| Event::Key { key, physical_key: None, pressed: true, repeat: false, modifiers };
    let events = &mut window.input_mut().events;
    events.push(key(Key::K, CTRL));
    events.push(Event::Text("da".to_owned()));
    window.step();
    window.input_mut().events.push(Event::Text("rk".to_owned()));
    window.run();
    assert_eq!(window.amount(CREAM), 200.0);
    window.press(Key::Enter);
    assert_eq!(window.ctx.theme(), egui::Theme::Dark);
}

#[test]
fn enter_in_the_empty_command_search_does_nothing() {
    let mut window = first_start();
    window.press_with(CTRL, Key::K);
    window.press(Key::Enter);
    assert_eq!(window.recipe().lines.len(), 5, "no new recipe");
    window.get_by_label_contains("New recipe");
}

#[test]
fn alt_and_a_letter_goes_to_a_menu_and_writes_nothing() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, amount");
    let event = Event::Key { key: Key::V, physical_key: None, pressed: true, repeat: false, modifiers: Modifiers::ALT };
    let events = &mut window.input_mut().events;
    events.extend([Event::ModifiersChanged(Modifiers::ALT), event, Event::Text("v".to_owned())]);
    window.step();
    window.input_mut().events.push(Event::ModifiersChanged(Modifiers::NONE));
    window.run();
    assert_eq!(window.focused(), Some("View".to_owned()));
    assert_eq!(window.amount(CREAM), 200.0);
    window.press(Key::F10);
    assert_eq!(window.focused(), Some("File".to_owned()));
}

#[test]
fn f1_shows_all_keys() {
    let mut window = first_start();
    window.press(Key::F1);
    assert!(window.has_text("Ctrl+Delete") && window.has_text("take the amount and go to the next line"));
    window.press(Key::Enter);
    assert!(!window.has_text("take the amount and go to the next line"));
}

#[test]
fn tab_reaches_every_amount_unit_note_and_lock() {
    let mut window = wide();
    window.press_with(CTRL, Key::F);
    let mut reached = Vec::new();
    for _ in 0..400 {
        window.press(Key::Tab);
        let Some(name) = window.focused() else { panic!("a stop without a name after {reached:#?}") };
        if reached.first() == Some(&name) {
            break;
        }
        reached.push(name);
    }
    let mut last = 0;
    for ingredient in window.ingredients() {
        for part in ["amount", "unit g", "note", "lock"] {
            let name = format!("{ingredient}, {part}");
            let place = reached.iter().position(|reached| *reached == name);
            let place = place.unwrap_or_else(|| panic!("{name} is not among {reached:#?}"));
            assert!(place >= last, "{name} comes too early in {reached:#?}");
            last = place;
        }
    }
    for name in ["batch, grams", "evaporated water, g", "transfer loss, percent", "thermometer", "Make-up", "File"] {
        assert!(reached.iter().any(|reached| reached == name), "{name} is not among {reached:#?}");
    }
    assert!(window.state().is_saved(), "passing through changes nothing");
}

#[test]
fn shift_tab_goes_back() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, amount");
    window.press(Key::Tab);
    assert_eq!(window.focused(), Some(format!("{CREAM}, unit g")));
    window.press_with(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused(), Some(format!("{CREAM}, amount")));
}

#[test]
fn the_menu_says_what_undo_would_take_back() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.click("Edit");
    assert!(window.has_text("Undo change amount"));
}

#[test]
fn the_menu_is_used_by_keys() {
    let mut window = first_start();
    window.get_by_label("View").focus();
    window.run();
    window.press(Key::Enter);
    window.get_by_label("Emulsion Ctrl+2").focus();
    window.run();
    window.press(Key::Enter);
    assert_eq!(window.state().view().reading, Reading::Emulsion);
}

#[test]
fn commands_go_to_kind_use_and_cocoa_butter() {
    let mut window = first_start();
    for (words, name) in [("kind", "ganache"), ("use", "cutting"), ("cocoa butter", "West African")] {
        window.command(words);
        assert_eq!(window.focused().as_deref(), Some(name));
    }
    window.command("kind");
    window.press(Key::Space);
    window.get_by_label("praline");
    window.press(Key::Escape);
    window.command("go to readings");
    assert_eq!(window.focused().as_deref(), Some("Make-up"));
    window.command("go to findings");
    assert!(window.focused().is_some_and(|name| name.starts_with("caution: Water activity")));
}
