//! The temperature of the mix in the window: typed in the sheet, shown in the process row and in its card.

use egui::Key;
use nibwright::ingredient::Library;
use nibwright::recipe::{Bowl, BowlMaterial, FatState, MixTemperature, Mixing, StirringTime};
use nibwright::store::load_recipe;
use nibwright::units::Celsius;

use super::*;
use crate::support;

const SHOW: &str = "+  temperatures";
const HIDE: &str = "hide temperatures";
const WANTED: &str = "wanted end of the mix, degrees Celsius";

fn passion_fruit() -> Window {
    let path = samples().join("milk-ganache-passion-fruit.ron");
    with_recipe(&load_recipe(&path, Library::built_in()).expect("a sample"))
}

fn at(celsius: f64) -> MixTemperature {
    MixTemperature::new(Celsius(celsius)).expect("a temperature")
}

fn cell(ingredient: &str) -> String {
    format!("{ingredient}, temperature")
}

/// The large figure of the card.
fn end(window: &Window) -> String {
    window.figure("the mix ends at")
}

#[test]
fn temperatures_are_shown_when_they_are_wanted_and_typed_line_by_line() {
    let mut window = first_start();
    assert!(window.query_by_label(&cell(CREAM)).is_none() && window.query_by_label("ends at").is_none());
    window.click(SHOW);
    // Who asks for the temperatures can type at once.
    assert_eq!(window.focused(), Some(cell(COUVERTURE)));
    window.type_text("20 °C");
    window.press(Key::Enter);
    // Enter goes to the line below.
    assert_eq!(window.focused(), Some(cell(CREAM)));
    window.type_text("85");
    window.press(Key::Enter);
    assert_eq!((window.line(CREAM).temperature, window.line(COUVERTURE).temperature), (Some(at(85.0)), Some(at(20.0))));
    window.show(Key::Num5);
    let hot = end(&window);
    assert!(window.has_text("3 of 5 lines have no temperature"), "{:?}", window.texts());
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.line(CREAM).temperature, None);
    assert_ne!(end(&window), hot);
    window.press_with(CTRL, Key::Z);
    assert!(window.state().is_saved());
    window.click(HIDE);
    assert!(window.query_by_label(&cell(CREAM)).is_none());
}

#[test]
fn keys_show_and_hide_the_temperatures() {
    let mut window = first_start();
    window.press_with(CTRL.plus(Modifiers::SHIFT), Key::T);
    assert_eq!(window.focused(), Some(cell(COUVERTURE)), "who asks for them can type at once");
    window.type_text("20");
    window.press(Key::Enter);
    window.press_with(CTRL.plus(Modifiers::SHIFT), Key::T);
    assert!(window.query_by_label(&cell(COUVERTURE)).is_none());
    assert_eq!(window.line(COUVERTURE).temperature, Some(at(20.0)), "what is typed stays");
}

#[test]
fn a_temperature_is_taken_off_by_emptying_its_cell() {
    let mut window = passion_fruit();
    window.click(&cell(BUTTER));
    window.press_with(CTRL, Key::A);
    window.press(Key::Backspace);
    window.press(Key::Enter);
    assert_eq!(window.line(BUTTER).temperature, None);
    assert!(window.has_text("1 of 6 lines has no temperature"));
}

#[test]
fn what_is_no_temperature_is_refused_with_a_reason() {
    let mut window = passion_fruit();
    window.click(&cell(BUTTER));
    window.type_text("180");
    assert!(window.has_text("nothing is mixed at 180 °C; give a temperature from 0 to 110 °C"));
    window.press(Key::Escape);
    assert_eq!(window.line(BUTTER).temperature, Some(at(35.0)));
}

#[test]
fn the_state_of_the_fat_is_chosen_by_keyboard() {
    let mut window = passion_fruit();
    window.show(Key::Num5);
    let before = end(&window);
    window.get_by_label(&format!("{BUTTER}, fat melted")).focus();
    window.run();
    window.press(Key::Enter);
    window.press(Key::Tab);
    window.press(Key::Tab);
    window.press(Key::Enter);
    assert_eq!(window.line(BUTTER).fat_state, FatState::Solid, "{:?}", window.focused());
    assert_ne!(end(&window), before);
    assert!(window.has_text("fat crystals left"));
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.line(BUTTER).fat_state, FatState::ByTemperature);
}

#[test]
fn a_wanted_end_says_how_warm_to_start_and_doing_so_reaches_it() {
    let mut window = passion_fruit();
    window.show(Key::Num5);
    assert!(window.has_text("missed by 7.1 K"), "{:?}", window.texts());
    let way = |window: &Window| {
        window.texts().into_iter().find(|text| text.starts_with("Passion fruit") && text.contains("instead of 50 °C"))
    };
    let said = way(&window).expect("a way");
    let start = said.split(" at ").nth(1).and_then(|rest| rest.split(' ').next()).expect("a temperature").to_owned();
    for ingredient in ["Passion fruit puree (seedless juice), unsweetened", "Glucose syrup DE 38-42, 80 % dry matter"] {
        window.click(&cell(ingredient));
        window.type_text(&start);
        window.press(Key::Enter);
    }
    // Enter has gone on to the invert sugar syrup.
    window.type_text(&start);
    window.press(Key::Enter);
    assert!(window.has_text("reached") && way(&window).is_none(), "{:?}", window.texts());
    window.click(WANTED);
    window.press_with(CTRL, Key::A);
    window.press(Key::Backspace);
    window.press(Key::Enter);
    assert_eq!(window.recipe().mixing.wanted, None);
}

#[test]
fn bowl_and_stirring_are_typed_in_the_process_row() {
    let mut window = passion_fruit();
    window.show(Key::Num5);
    let before = end(&window);
    window.click("none");
    window.click("glass");
    assert_ne!(end(&window), before);
    window.click("bowl, g");
    window.type_text("750");
    window.press(Key::Enter);
    window.click("bowl, degrees Celsius");
    window.type_text("4");
    window.press(Key::Enter);
    window.click("stirred in the open, minutes");
    window.type_text("5 min");
    window.press(Key::Enter);
    let bowl = Bowl { material: BowlMaterial::Glass, mass: support::grams(750.0), temperature: at(4.0) };
    let stirred = StirringTime::new(5.0).expect("a time");
    assert_eq!(window.recipe().mixing, Mixing { wanted: Some(at(36.0)), bowl: Some(bowl), stirred });
    assert!(window.has_text("stirred in the open, 5 min"));
    window.click("bowl, degrees Celsius");
    window.press_with(CTRL, Key::A);
    window.press(Key::Backspace);
    assert!(window.has_text("give the temperature of the bowl"));
    window.press(Key::Escape);
    window.click("glass");
    window.click("none");
    assert_eq!(window.recipe().mixing.bowl, None);
}

#[test]
fn the_pinned_mix_stays_beside_the_new_one() {
    let mut window = passion_fruit();
    window.show(Key::Num5);
    let before = end(&window);
    let before = before.split(' ').next().expect("a figure");
    window.press_with(CTRL, Key::P);
    window.click(&cell("Passion fruit puree (seedless juice), unsweetened"));
    window.type_text("80");
    window.press(Key::Enter);
    assert!(end(&window).contains(&format!("pinned {before} °C")), "{}", end(&window));
    let pinned = |words: &str| window.texts().iter().any(|text| text.contains("pinned") && text.contains(words));
    assert!(pinned("50") && pinned(&format!("{before} °C")), "{:?}", window.texts());
}

#[test]
fn every_figure_of_the_mix_explains_itself() {
    let mut window = Opening { size: [1280.0, 3400.0], ..Opening::of_recipe(&passion_fruit().recipe().clone()) }.open();
    window.show(Key::Num5);
    for (label, words) in [
        (cell(BUTTER).as_str(), "How warm it is when it is mixed"),
        (WANTED, "Where the mix should end"),
        ("stirred in the open, minutes", "An allowance for the heat that the room takes"),
    ] {
        window.get_by_label(label).hover();
        window.run_steps(WAIT);
        assert!(window.has_text(words), "{label}");
        window.remove_cursor();
        window.run_steps(WAIT);
    }
    for (part, words) in [
        ("by temperatures alone", "if nothing melted and nothing dissolved"),
        ("fat that melts, at once", "crystals that melt cool the mix"),
        ("sugar that dissolves", "the thermometer falls while you stir"),
        ("Melt ", "The same balance backward"),
    ] {
        let label = window.texts().into_iter().find(|text| text.starts_with(part)).expect(part);
        window.get_all_by_label(&label).last().expect("it is there").hover();
        window.run_steps(WAIT);
        assert!(window.has_text(words), "{label}");
        window.remove_cursor();
        window.run_steps(WAIT);
    }
}

#[test]
fn a_recipe_with_temperatures_shows_them_from_the_start_and_another_one_does_not() {
    let mut window = passion_fruit();
    assert!(window.query_by_label(&cell(BUTTER)).is_some());
    window.press_with(CTRL, Key::N);
    assert!(window.query_by_label(HIDE).is_none() && window.query_by_label(SHOW).is_some());
}
