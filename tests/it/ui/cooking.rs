//! What evaporates, in the sheet: the way is chosen, temperature and height are typed, the mass follows.

use egui::Key;
use nibwright::ingredient::Library;
use nibwright::recipe::{CookTemperature, Evaporation, Heating, Height};
use nibwright::store::load_recipe;
use nibwright::units::{Celsius, Metres};

use super::*;

const CELSIUS: &str = "cooked to, degrees Celsius";
const METRES: &str = "height above the sea, metres";

fn caramel() -> Window {
    let path = samples().join("caramel-with-salted-butter.ron");
    with_recipe(&load_recipe(&path, Library::built_in()).expect("a sample"))
}

fn cook(celsius: f64, metres: f64) -> Evaporation {
    Evaporation::CookedTo {
        temperature: CookTemperature::new(Celsius(celsius)).expect("a temperature"),
        height: Height::new(Metres(metres)).expect("a height"),
    }
}

fn evaporation(window: &Window) -> Evaporation {
    window.recipe().losses.evaporation
}

#[test]
fn a_cook_temperature_is_typed_and_the_mass_follows() {
    let mut window = caramel();
    let before = window.figure("water");
    assert!(window.has_text("160 g") && window.has_text("718 g"));
    window.click(CELSIUS);
    window.type_text("125 °C");
    assert_ne!(window.figure("water"), before, "while it is typed");
    window.press(Key::Escape);
    assert_eq!((window.figure("water"), evaporation(&window)), (before.clone(), cook(118.0, 0.0)));
    window.type_text("125");
    window.press(Key::Enter);
    assert_eq!(evaporation(&window), cook(125.0, 0.0));
    assert!(!window.has_text("718 g") && window.has_text("hard ball"));
    window.click(METRES);
    window.type_text("1500 m");
    window.press(Key::Enter);
    assert_eq!(evaporation(&window), cook(125.0, 1500.0));
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.figure("water"), evaporation(&window)), (before, cook(118.0, 0.0)));
    assert!(window.state().is_saved());
}

#[test]
fn what_is_no_temperature_and_no_height_is_refused() {
    let mut window = caramel();
    for (cell, text, said) in [
        (CELSIUS, "250", "a mass is not cooked to 250 °C; give a temperature from 0 to 200 °C"),
        (METRES, "8848", "no kitchen lies at 8848 m; give a height above the sea from -430 to 5100 m"),
    ] {
        window.click(cell);
        window.type_text(text);
        assert!(window.has_text(said), "{said}");
        window.press(Key::Escape);
    }
    assert_eq!(evaporation(&window), cook(118.0, 0.0));
}

#[test]
fn the_way_is_chosen_by_keyboard() {
    let mut window = first_start();
    window.get_by_label("weighed").focus();
    window.run();
    for (step, expected) in [
        (1, Evaporation::Estimated(Heating::Boiled)),
        (2, Evaporation::Estimated(Heating::Warmed)),
        (3, cook(118.0, 0.0)),
    ] {
        window.press(Key::Enter);
        for _ in 0..=step {
            window.press(Key::Tab);
        }
        window.press(Key::Enter);
        assert_eq!(evaporation(&window), expected, "{:?}", window.focused());
        window.press_with(CTRL, Key::Z);
        assert_eq!(evaporation(&window), Evaporation::default());
        window.get_by_label("weighed").focus();
        window.run();
    }
}

#[test]
fn an_estimate_says_its_grams_and_weighing_begins_with_them() {
    let mut window = first_start();
    window.click("weighed");
    window.click("boiled, estimated");
    // 2 % of 200 g of cream.
    window.get_by_label("4 g");
    window.click("boiled, estimated");
    window.click("weighed");
    assert_eq!(evaporation(&window), Evaporation::Weighed(crate::support::grams(4.0)));
}

#[test]
fn a_stage_of_cooked_sugar_sets_the_temperature_at_this_height() {
    let mut window = caramel();
    window.click("firm ball");
    assert!(window.has_text("soft crack, 132 to 143 °C, 92 to 94 % sucrose"), "{:?}", window.texts());
    window.get_by_label_contains("soft ball, 112 to 116 °C").click();
    window.run();
    assert_eq!(evaporation(&window), cook(112.0, 0.0));
    window.click(METRES);
    window.type_text("1000");
    window.press(Key::Enter);
    // 112 °C there are 115.7 °C at the sea.
    window.click("soft ball");
    window.get_by_label_contains("firm ball, 118 to 121 °C, 114 to 117 °C at 1000 m").click();
    window.run();
    let Evaporation::CookedTo { temperature, .. } = evaporation(&window) else { panic!("{:?}", evaporation(&window)) };
    // 3.7 K less than at the sea (standard atmosphere).
    assert!((temperature.celsius().0 - 114.3).abs() < 0.15, "{temperature:?}");
    assert!(window.has_text("firm ball"));
}

#[test]
fn every_figure_of_a_cook_explains_itself() {
    let mut window = caramel();
    for (label, words) in [
        (CELSIUS, "What the thermometer in the pan shows when you stop"),
        (METRES, "How high your kitchen lies"),
        ("160 g", "What the pan gets lighter by"),
    ] {
        window.get_by_label(label).hover();
        window.run_steps(WAIT);
        assert!(window.has_text(words), "{label}");
        window.remove_cursor();
        window.run_steps(WAIT);
    }
}

#[test]
fn the_pinned_cook_stays_beside_the_new_one() {
    let mut window = caramel();
    window.press_with(CTRL, Key::P);
    window.click(CELSIUS);
    window.type_text("122");
    window.press(Key::Enter);
    let pinned = |words: &str| window.texts().iter().any(|text| text.contains("pinned") && text.contains(words));
    assert!(pinned("118") && pinned("160 g"), "{:?}", window.texts());
    let edge = window.get_by_label("Make-up").rect().left() - 16.0;
    for label in ["evaporation", "kitchen at", "boils off", "finished"] {
        assert!(window.get_by_label(label).rect().right() < edge, "{label}");
    }
    let phases = window.get_by_label_contains("phases: ").rect();
    assert!(phases.right() < edge, "nothing pushes the sheet under the readings: {phases}");
}
