//! Figures, bars, readings and findings are reached, explained and scrolled by keys.

use egui::Key;

use super::*;

/// Presses Tab until something with this name has the keyboard.
#[track_caller]
fn tab_to(window: &mut Window, name: &str) {
    let mut reached = Vec::new();
    for _ in 0..150 {
        window.press(Key::Tab);
        reached.extend(window.focused());
        if reached.last().is_some_and(|reached| reached.starts_with(name)) {
            return;
        }
    }
    panic!("{name} is not among {reached:#?}");
}

/// Whether an explanation stands in the window.
fn is_explained(window: &Window) -> bool {
    window.has_text(nibwright::ui::widgets::text::UNCERTAINTY)
}

/// Presses Tab until what has this name has the keyboard: it is in sight and explains itself.
#[track_caller]
fn tab_to_explained(window: &mut Window, name: &str) {
    tab_to(window, name);
    assert!(is_explained(window), "{name} says nothing: {:#?}", window.texts());
    let rect = window.focus().expect("the figure").rect();
    assert!(rect.top() > 0.0 && rect.bottom() <= SIZE[1], "{name} is out of sight at {rect}");
}

#[test]
fn tab_reaches_the_figures_of_every_reading_and_they_explain_themselves() {
    let mut window = first_start();
    let stops = [
        (
            Key::Num1,
            &[
                "cocoa butter 23",
                "Cream, 35 % fat: ",
                "energy of 100 g: ",
                "sweetness, sugar = 100: ",
                "price of Cream, 35 % fat: ",
                "syrup solids: ",
            ][..],
        ),
        (Key::Num2, &["dispersed share, hot", "phase volumes: ", "19.9 % water", "sugars "]),
        (
            Key::Num3,
            &[
                "water activity, 20 °C",
                "water activity 0.87 at",
                "what holds the water: ",
                "cocoa solids: ",
                "cream: +0.00",
                "sucrose, undissolved: ",
                "0.92 Listeria",
                "24.8 g at 0.87",
                "Raoult: ",
            ],
        ),
        (Key::Num4, &["form V limit", "43 % solid", "seed for the bowl: ", "form IV melts at: "]),
    ];
    for (reading, names) in stops {
        window.show(reading);
        window.press_with(CTRL, Key::R);
        assert!(!is_explained(&window), "the tab explains nothing");
        for name in names {
            tab_to_explained(&mut window, name);
        }
    }
    assert!(window.has_text("form IV limit "));
    window.press(Key::Escape);
    assert!(!is_explained(&window) && window.focused().is_none(), "Esc puts it away");
    assert!(window.state().is_saved(), "passing through changes nothing");
}

#[test]
fn an_explanation_goes_when_the_keyboard_goes_elsewhere_and_when_the_pointer_moves() {
    let mut window = first_start();
    window.press_with(CTRL, Key::R);
    tab_to_explained(&mut window, "water ");
    window.press_with(CTRL, Key::E);
    assert!(!is_explained(&window));
    window.type_text("410");
    assert!(!is_explained(&window));
    window.press(Key::Escape);
    window.press_with(CTRL, Key::R);
    tab_to_explained(&mut window, "water ");
    window.hover_at(egui::pos2(600.0, 60.0));
    window.run_steps(WAIT);
    assert!(!is_explained(&window), "the pointer is used now");
}

#[test]
fn arrows_go_from_part_to_part_of_a_bar() {
    let mut window = first_start();
    window.press_with(CTRL, Key::E);
    tab_to_explained(&mut window, "phases: ");
    assert!(window.has_text("Crystallised fat."));
    window.press(Key::ArrowRight);
    assert!(window.has_text("Fat that is melted at this temperature.") && !window.has_text("Crystallised fat."));
    assert_eq!(window.state().view().pointed, Some(nibwright::ui::view::Pointed::Fat), "as under the pointer");
    for _ in 0..9 {
        window.press(Key::ArrowRight);
    }
    assert!(window.has_text("Protein, starch, fibre"));
    assert!(window.focused().is_some_and(|name| name.starts_with("phases: ")));
    window.press(Key::ArrowLeft);
    assert!(window.has_text("Fat-free cocoa particles."));
}

#[test]
fn page_keys_scroll_the_reading_in_front() {
    let mut window = first_start();
    let top = |window: &Window| window.get_by_label("In full").rect().top();
    let start = top(&window);
    window.press(Key::PageDown);
    let page = top(&window);
    assert!(page < start - 200.0, "{start} to {page}");
    window.press(Key::PageUp);
    assert_eq!(top(&window), start);
    window.press(Key::End);
    let end = window.get_by_label_contains("syrup solids: ").rect();
    assert!(end.bottom() < SIZE[1], "{end}");
    window.press(Key::Home);
    assert_eq!(top(&window), start);
    // An amount at rest knows no pages; what is being typed keeps all keys.
    window.press_with(CTRL, Key::E);
    window.press(Key::PageDown);
    assert_eq!(top(&window), page);
    window.press(Key::PageUp);
    window.type_text("39");
    window.press(Key::PageDown);
    assert_eq!(top(&window), start);
    window.press(Key::Escape);
    window.press(Key::F1);
    window.press(Key::PageDown);
    assert_eq!(top(&window), start, "a dialog is in front");
}

#[test]
fn beside_each_other_the_page_keys_scroll_the_reading_that_has_the_keyboard() {
    let mut window = Opening { size: [2560.0, 700.0], ..Opening::new() }.open();
    let tops = |window: &Window| ["In full", "Why"].map(|title| window.get_by_label(title).rect().top());
    let start = tops(&window);
    window.press_with(CTRL, Key::R);
    assert_eq!(window.focused().as_deref(), Some("Make-up"));
    window.press(Key::PageDown);
    let paged = tops(&window);
    assert!(paged[0] < start[0] && paged[1] == start[1]);
    tab_to_explained(&mut window, "form V limit");
    let before = tops(&window);
    window.press(Key::End);
    let after = tops(&window);
    assert!(after[1] < before[1] && after[0] == before[0], "{before:?} to {after:?}");
}

#[test]
fn findings_are_reached_and_scrolled_by_keys() {
    let mut window = first_start();
    window.press_with(CTRL, Key::G);
    assert!(window.focused().is_some_and(|name| name.starts_with("caution: Water activity")));
    tab_to(&mut window, "note: Seed at");
    assert!(window.has_text("Where seed lives and grows in this mass"), "its figure is explained");
    for name in ["note: Sugars", "note: Droplets have room", "note: Two windows", "note: Contains allergens"] {
        tab_to(&mut window, name);
        let rect = window.focus().expect("the finding").rect();
        assert!(rect.top() > 0.0 && rect.bottom() <= SIZE[1], "{name} is out of sight at {rect}");
    }
    let top = |window: &Window| window.get_by_label_contains("note: Contains allergens").rect().top();
    let end = top(&window);
    window.press(Key::Home);
    assert!(top(&window) > end + 100.0);
    window.press(Key::End);
    assert!((top(&window) - end).abs() < 20.0);
    window.press_with(CTRL, Key::N);
    window.press_with(CTRL, Key::G);
    assert!(window.has_text("There are no findings") || window.focused().is_some_and(|name| name.contains(": ")));
}

#[test]
fn findings_of_a_low_window_come_into_sight() {
    let mut window = Opening { size: [1280.0, 600.0], ..Opening::new() }.open();
    window.press_with(CTRL, Key::G);
    tab_to(&mut window, "note: The cautious window");
    let rect = window.focus().expect("the finding").rect();
    assert!(rect.top() > 0.0 && rect.bottom() <= 600.0, "{rect}");
}

#[test]
fn a_field_explains_itself_when_asked() {
    let mut window = first_start();
    window.press_with(Modifiers::SHIFT, Key::F1);
    assert!(window.has_text("Go to a figure or field first"));
    window.press_with(CTRL, Key::E);
    assert!(!is_explained(&window));
    window.press_with(Modifiers::SHIFT, Key::F1);
    assert!(window.has_text("What is weighed in"));
    window.type_text("4");
    assert!(!is_explained(&window), "typing puts it away");
    window.press(Key::Escape);
    tab_to(&mut window, "transfer loss, percent");
    window.press_with(Modifiers::SHIFT, Key::F1);
    assert!(window.has_text("What stays in bowls") && is_explained(&window));
    tab_to(&mut window, "thermometer");
    assert!(!is_explained(&window));
    window.press_with(Modifiers::SHIFT, Key::F1);
    assert!(is_explained(&window));
    window.press(Key::ArrowUp);
    assert!(!is_explained(&window));
}
