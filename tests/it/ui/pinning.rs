//! A pinned state stays behind figures and lines, to compare with.

use egui::Key;

use super::*;

#[test]
fn both_figures_are_seen_until_the_pin_is_taken_away() {
    let mut window = first_start();
    let before = window.figure("cocoa butter");
    let percent = before.split(" %").next().expect("a figure").to_owned();
    window.press_with(CTRL, Key::P);
    assert!(window.figure("cocoa butter").contains(&format!("pinned {percent} %")));
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    let after = window.figure("cocoa butter");
    assert!(after.contains(&format!("pinned {percent} %")), "{after}");
    assert!(!after.starts_with(&percent), "{after}");
    for (reading, caption) in [
        (Key::Num2, "dispersed share, hot"),
        (Key::Num2, "fat to water, by mass"),
        (Key::Num3, "water activity, 20 °C"),
        (Key::Num3, "sucrose saturation"),
        (Key::Num4, "solid at 20.0 °C"),
    ] {
        window.show(reading);
        assert!(window.figure(caption).contains(" pinned "), "{}", window.figure(caption));
    }
    assert!(window.texts().iter().any(|text| text.starts_with("at 20 °C: ") && text.contains("pinned 43.2 % of fat")));
    assert!(window.texts().iter().any(|text| text.starts_with("firmness against the pin, 20 °C: 0.8")));
    window.show(Key::Num1);
    window.press_with(CTRL_SHIFT, Key::P);
    assert!(!window.texts().iter().any(|text| text.contains(" pinned ")));
    assert_eq!(window.amount(CREAM), 240.0, "the recipe stays as it is");
    window.press_with(CTRL_SHIFT, Key::P);
    assert!(window.has_text("Nothing is pinned"));
}

#[test]
fn the_column_of_the_pin_shows_what_lines_weighed() {
    let mut window = first_start();
    window.press_with(CTRL, Key::P);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    assert!(window.texts().iter().any(|text| text == "pinned 200"), "the pinned amount of cream");
    assert!(window.texts().iter().any(|text| text == "pinned 685"), "the pinned sum");
    assert!(window.texts().iter().any(|text| text == "725"), "the sum now");
}

#[test]
fn energy_and_sweetness_stand_in_make_up_with_those_of_the_pin() {
    let mut window = first_start();
    let row = |window: &Window, name: &str| {
        let texts = window.texts();
        texts.iter().find(|text| text.starts_with(name)).unwrap_or_else(|| panic!("{name} is not there")).clone()
    };
    let (energy, sweetness) = (row(&window, "energy of 100 g: "), row(&window, "sweetness, sugar = 100: "));
    assert!(energy.ends_with(" kcal") && energy.contains(" kJ, "), "{energy}");
    window.press_with(CTRL, Key::P);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    for (name, before) in [("energy of 100 g: ", energy), ("sweetness, sugar = 100: ", sweetness)] {
        let now = row(&window, name);
        let pinned = format!(", pinned {}", before.strip_prefix(name).unwrap_or_default());
        assert!(now.ends_with(&pinned) && !now.starts_with(&before), "{now}, before {before}");
    }
}

#[test]
fn a_pinned_figure_stays_when_there_is_none_now() {
    let mut window = first_start();
    window.press_with(CTRL, Key::P);
    let ingredients: Vec<String> = window.ingredients().into_iter().map(str::to_owned).collect();
    for ingredient in &ingredients[1..] {
        window.type_amount(ingredient, "0");
        window.press(Key::Enter);
        window.press(Key::Escape);
    }
    window.show(Key::Num2);
    assert!(window.has_text("Fat-continuous"));
    assert!(window.has_text("dispersed share, hot: none, pinned 0.59"));
    window.show(Key::Num3);
    assert!(window.has_text("under 0.5"));
    assert!(window.has_text("water activity: none, pinned 0.87"));
    window.show(Key::Num4);
    assert!(window.has_text("pinned 28.2 to 32.0 °C, best 30.2"), "the window of the fresh emulsion");
    window.type_amount(&ingredients[0], "0");
    window.press(Key::Enter);
    assert!(window.has_text("Nothing is weighed in yet"));
    assert!(window.has_text("form V melts at: none, pinned 29.8 °C"));
}

#[test]
fn the_pin_outlives_undo_and_goes_with_its_recipe() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.press_with(CTRL, Key::P);
    window.press_with(CTRL, Key::Z);
    assert!(window.figure("cocoa butter").contains(" pinned "));
    window.press_with(CTRL, Key::N);
    assert_eq!(window.recipe().lines.len(), 0);
    assert!(!window.texts().iter().any(|text| text.contains(" pinned ")));
}

#[test]
fn a_new_pin_is_never_taken_for_an_earlier_one() {
    let mut opening = Opening::new();
    let names = ["Dark cut ganache", "Thin dark coat"];
    for name in ["dark-cut-ganache.ron", "thin-dark-coat.ron"] {
        std::fs::copy(samples().join(name), opening.folder.path().join(name)).expect("a copy");
    }
    opening.file = Some(opening.folder.path().join("dark-cut-ganache.ron"));
    let mut window = opening.open();
    for round in 1..=6 {
        window.press_with(CTRL, Key::P);
        let figure = window.figure("cocoa butter");
        let (now, pinned) = (figure.split(" %").next(), figure.split("pinned ").nth(1));
        assert_eq!(now, pinned.and_then(|pinned| pinned.split(" %").next()), "round {round}");
        window.click(names[round % 2]);
        window.settle();
    }
}

#[test]
fn pinned_figures_follow_the_thermometer() {
    let mut window = first_start();
    window.show(Key::Num4);
    window.press_with(CTRL, Key::P);
    let pinned =
        |window: &Window, caption: &str| window.figure(caption).split_once(" pinned ").expect("a pin").1.to_owned();
    let cold = pinned(&window, "solid at 20.0 °C");
    for _ in 0..10 {
        window.press_with(CTRL, Key::ArrowUp);
    }
    let warm = pinned(&window, "solid at 25.0 °C");
    assert_ne!(cold, warm, "both are shown at the same temperature");
}
