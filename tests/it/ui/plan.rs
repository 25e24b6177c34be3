//! The seeding plan in the reading Fat crystals: a way is chosen, amounts are typed, steps are opened, the day is counted.

use egui::Key;
use nibwright::recipe::{Kind, Quantity, SeedingWay, Use};
use nibwright::units::{Celsius, MassFraction};

use super::*;
use crate::support::{made_for, recipe};

const AMOUNT: &str = "own amount of seed";
const CRYSTALS: &str = "crystals of the seed cream, percent";
const TEMPERATURE: &str = "temperature of the seed, °C";
const TICK: &str = "the seed stands in the sheet as a line";

/// So tall that the whole card is in sight: what is out of sight cannot be clicked.
const TALL: [f32; 2] = [1280.0, 3600.0];

/// The sample of the first start with its fat in front.
fn fat() -> Window {
    let mut window = Opening { size: TALL, ..Opening::new() }.open();
    window.show(Key::Num4);
    window
}

/// A recipe in a tall window.
fn tall(recipe: &Recipe) -> Window {
    Opening { size: TALL, ..Opening::of_recipe(recipe) }.open()
}

fn choose(window: &mut Window, way: &str) {
    window.get_by_label_contains("way of seeding:").click();
    window.run();
    window.click(way);
    window.run();
}

fn seed_grams(window: &mut Window) -> f64 {
    let analysis = window.state_mut().analysis();
    analysis.plan.as_ref().expect("a plan").seed.as_ref().expect("seed").grams.expect("it is known").0
}

#[test]
fn the_plan_stands_there_and_follows_what_is_typed() {
    let mut window = fat();
    assert!(window.has_text("weigh: 7.5 g, suggested"));
    assert!(window.has_text("the mass comes to: 27.8 °C: it lives and grows"));
    window.type_into(CRYSTALS, "10");
    assert!(window.has_text("weigh: 10.3 g, suggested"), "held at 1.5 %: {:?}", window.recipe().seeding);
    window.press(Key::Enter);
    assert_eq!(window.recipe().seeding.cream.share(), MassFraction(0.10));
    window.type_into(CRYSTALS, "80");
    assert!(window.has_text("cocoa butter with 80 % crystals is no cream"));
    window.press(Key::Escape);
    window.type_into(AMOUNT, "8,5 g");
    assert!(window.has_text("weigh: 8.5 g, your own; suggested 10.3 g"));
    window.press(Key::Enter);
    assert_eq!(window.recipe().seeding.amount.map(Quantity::value), Some(8.5));
    window.type_into(AMOUNT, "");
    window.press(Key::Enter);
    assert_eq!(window.recipe().seeding.amount, None, "emptied, the suggestion counts again");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().seeding.amount.map(Quantity::value), Some(8.5));
    window.type_into(TEMPERATURE, "40");
    assert!(window.has_text("The seed is melted at 40.0 °C"), "a finding says so at once");
    window.press(Key::Enter);
    assert_eq!(
        window.recipe().seeding.temperature.map(nibwright::recipe::SeedTemperature::celsius),
        Some(Celsius(40.0))
    );
}

/// What was typed is shown as typed.
#[test]
fn the_fields_show_what_was_typed() {
    let mut window = fat();
    for (field, typed) in [(CRYSTALS, "7.125"), (TEMPERATURE, "33.375")] {
        window.type_into(field, typed);
        window.press(Key::Enter);
        assert_eq!(window.get_by_label(field).value().as_deref(), Some(typed));
    }
    // Amount and temperature do not run into each other.
    let right_of = |label: &str| window.get_by_label(label).rect().right();
    let gap = window.get_by_label("seed at").rect().left() - right_of("g, suggested");
    assert!(gap >= 16.0, "{gap}");
}

#[test]
fn another_way_is_chosen_and_taken_back() {
    let mut window = fat();
    choose(&mut window, "chopped chocolate");
    assert_eq!(window.recipe().seeding.way, SeedingWay::ChoppedChocolate);
    assert!(window.has_text("weigh: 343 g, suggested") && window.has_text("it changes: fat"));
    choose(&mut window, "keep it tempered");
    assert!(window.has_text("Warm, do not melt") && !window.has_text("Melt out"));
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().seeding.way, SeedingWay::Cream);
    assert!(window.state().is_saved());
}

#[test]
fn what_tempered_chocolate_keeps_follows_the_thermometer() {
    let mut mass = made_for(recipe(&[("couverture-dark-64", 1000.0)]), Kind::Chocolate, Use::Bar);
    mass.seeding.way = SeedingWay::KeepTempered;
    let mut window = tall(&mass);
    window.show(Key::Num4);
    window.get_by_label("thermometer").set_value_accesskit(33.4);
    window.run();
    assert!(
        window.has_text("its own crystals: 4.7 % of the fat is crystals at 33.4 °C; 0.3 °C more and there are none")
    );
    window.get_by_label("thermometer").set_value_accesskit(34.0);
    window.run();
    assert!(window.has_text("its own crystals: no crystal is left at 34.0 °C, 0.3 °C above its limit"));
}

#[test]
fn the_seed_is_put_into_the_sheet_and_taken_out() {
    let mut window = fat();
    let before = seed_grams(&mut window);
    window.get_by_label(TICK).click();
    window.run();
    let line = window.recipe().lines.last().expect("a line").clone();
    assert!(line.is_seed && line.ingredient.id == "cocoa-butter");
    assert!((line.amount.grams().0 - before).abs() < 0.01, "as it is weighed");
    assert!(window.has_text("in the sheet; suggested 7.5 g") && window.has_text("Cocoa butter · seed"));
    window.press_with(CTRL, Key::Z);
    assert!(window.recipe().seed_in_sheet().is_none() && window.state().is_saved());
    window.get_by_label(TICK).click();
    window.run();
    window.get_by_label(TICK).click();
    window.run();
    assert!(window.recipe().seed_in_sheet().is_none());
}

#[test]
fn a_step_is_opened_by_keys_and_what_is_closed_is_not_drawn() {
    let mut window = fat();
    let look = "between two fingers there is no grain of fat";
    assert!(!window.has_text(look));
    window.get_by_label("1  Melt out: 45 to 50 °C · 400 g").focus();
    window.run();
    window.press(Key::Enter);
    assert!(window.has_text(look) && window.has_text("grains left"));
    assert!(!window.has_text("No pale streak"), "the others stay closed");
    window.press(Key::Enter);
    assert!(!window.has_text(look));
    window.click("open all steps of the plan");
    assert!(window.has_text(look) && window.has_text("No pale streak"));
    window.click("close all steps of the plan");
    assert!(!window.has_text(look));
}

#[test]
fn the_day_is_counted() {
    let mut window = fat();
    window.type_into("batches today", "6");
    window.press(Key::Enter);
    assert!(window.has_text("seed today: 45 g for 6 batches; 45 g missing: set it up 6 hours before the first"));
    window.type_into("seed that is ready, grams", "50");
    window.press(Key::Enter);
    assert!(window.has_text("seed today: 45 g for 6 batches; enough is ready, "));
    assert!(window.state().is_saved(), "it is no part of the recipe");
    window.type_into("batches today", "6.5");
    assert!(window.has_text("give a whole number of batches, such as 6"));
}

#[test]
fn ways_test_strip_and_rescue_are_opened() {
    let mut window = fat();
    for (head, text) in [
        ("The other ways: what each takes, and what becomes of it", "chopped chocolate: 343 g"),
        ("The seed itself: how it is made and what spoils it", "about 6 hours"),
        ("Test strip: how to read it", "set with streaks"),
        ("Rescue: if the ganache splits", "Still split"),
    ] {
        assert!(!window.has_text(text), "{head} is closed");
        window.click(head);
        assert!(window.has_text(text), "{head}");
    }
}

#[test]
fn an_emulsion_that_may_split_has_its_rescue_beside_it() {
    let mut window = first_start();
    window.show(Key::Num2);
    let head = "If it splits: what helps";
    assert!(!window.has_text(head), "this one holds");
    let mut window =
        tall(&made_for(recipe(&[("couverture-dark-80", 800.0), ("cream-35", 100.0)]), Kind::Ganache, Use::Cut));
    window.show(Key::Num2);
    assert!(window.has_text("Likely to split") && window.has_text("If it has split"));
    window.click(head);
    assert!(window.has_text("Oil pools, lumps of protein"));
}

#[test]
fn where_there_is_no_plan_the_card_says_why_and_what_to_do() {
    let mut window = tall(&recipe(&[("cream-35", 400.0), ("couverture-dark-64", 50.0)]));
    window.show(Key::Num4);
    assert!(window.has_text("No plan: cocoa butter is 12.") && window.has_text("the findings name amounts"));
}
