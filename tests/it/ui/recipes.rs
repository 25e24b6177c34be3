//! Every recipe can be looked at: the samples, and what no kitchen would write but a hand can type.

use std::sync::Arc;

use egui::{Key, Theme};
use nibwright::ingredient::{Ingredient, Library};
use nibwright::recipe::{Kind, MassUnit, Quantity, Use};

use super::*;

const READINGS: [Key; 4] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4];

fn ingredient(id: &str) -> Arc<Ingredient> {
    Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is not built in")).clone()
}

fn grams(value: f64) -> Quantity {
    Quantity::from_grams(value).expect("an amount")
}

/// Draws every reading at several temperatures, without and with a pin, and with something changed since.
///
/// The harness itself looks for missing glyphs, inputs without a name and frames that never end.
fn look_at(window: &mut Window) {
    for is_pinned in [false, true] {
        if is_pinned {
            window.press_with(CTRL, Key::P);
            window.command("thermometer warmer");
        }
        for reading in READINGS {
            window.show(reading);
        }
    }
    for celsius in [5.0, 45.0, 20.0] {
        window.get_by_label("thermometer").set_value_accesskit(celsius);
        window.run();
    }
}

fn look_at_recipe(recipe: &Recipe) -> Window {
    let mut window = with_recipe(recipe);
    assert_eq!(window.recipe().lines.len(), recipe.lines.len(), "it was opened");
    look_at(&mut window);
    window
}

#[test]
fn every_sample_can_be_looked_at_in_both_themes() {
    let mut samples: Vec<PathBuf> = std::fs::read_dir(samples())
        .expect("the folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "ron"))
        .collect();
    samples.sort();
    assert!(samples.len() >= 8, "{samples:?}");
    for (place, path) in samples.into_iter().enumerate() {
        let theme = if place % 2 == 0 { Theme::Light } else { Theme::Dark };
        let mut window = Opening { file: Some(path.clone()), theme, ..Opening::new() }.open();
        assert!(!window.has_text("This file cannot be opened"), "{}", path.display());
        look_at(&mut window);
        assert!(window.state().is_saved());
    }
}

#[test]
fn all_readings_stand_side_by_side_where_there_is_room() {
    let mut window = Opening { size: [2560.0, 1440.0], ..Opening::new() }.open();
    for caption in ["cocoa butter", "dispersed share, hot", "solid at 20.0 °C"] {
        window.figure(caption);
    }
    look_at(&mut window);
}

#[test]
fn the_smallest_window_is_drawn() {
    let mut window = Opening { size: [1180.0, 660.0], ..Opening::new() }.open();
    look_at(&mut window);
    window.type_amount(CREAM, "240");
    assert_eq!(window.amount(CREAM), 240.0);
}

#[test]
fn nothing_in_the_sheet_is_cut_off_by_the_readings() {
    for (size, batch) in [([1180.0, 660.0], "685"), (SIZE, "685"), (SIZE, "123456,7 kg")] {
        let mut window = Opening { size, ..Opening::new() }.open();
        window.click("evaporated water, g");
        window.type_text("12,345");
        window.press(Key::Enter);
        window.click("batch, grams");
        window.type_text(batch);
        window.press(Key::Enter);
        window.press_with(CTRL, Key::P);
        let edge = window.get_by_label("Make-up").rect().left() - 16.0;
        let finished = window.get_by_label("finished").rect();
        let phases = window.get_by_label_contains("phases: ").rect();
        let finding = window.query_all_by_label_contains("note: ").map(|finding| finding.rect().right());
        let widest = finding.fold(phases.right(), f32::max);
        assert!(
            finished.right() < edge && widest < edge,
            "{finished} {phases} {widest} beyond {edge} at {size:?}, {batch}"
        );
    }
}

#[test]
fn an_empty_recipe() {
    let mut window = first_start();
    window.press_with(CTRL, Key::N);
    look_at(&mut window);
    assert!(window.has_text("Nothing is weighed in yet"));
    window.press_with(CTRL, Key::Num1);
    assert!(window.has_text("Give the lines amounts"));
    // Commands about lines have nothing to do.
    for (modifiers, key) in [(CTRL, Key::L), (ALT, Key::ArrowUp), (CTRL, Key::Delete), (egui::Modifiers::NONE, Key::F2)]
    {
        window.press_with(modifiers, key);
        assert!(window.has_text("The recipe has no lines yet"));
    }
    window.click("batch, grams");
    window.type_text("100");
    window.press(Key::Enter);
    assert!(window.has_text("a recipe that weighs nothing cannot be scaled"));
}

#[test]
fn a_recipe_that_weighs_nothing() {
    let mut recipe = Recipe { name: "Nothing".to_owned(), kind: Kind::Ganache, ..Recipe::default() };
    for id in ["couverture-dark-64", "cream-35"] {
        recipe.push(ingredient(id), grams(0.0));
    }
    look_at_recipe(&recipe);
}

#[test]
fn an_ingredient_of_which_nothing_is_known() {
    let mut recipe = Recipe { kind: Kind::Ganache, intended_use: Some(Use::Cut), ..Recipe::default() };
    recipe.push(ingredient("couverture-dark-64"), grams(400.0));
    recipe.push(Arc::new(Ingredient::unknown("secret", "Aunt's secret paste")), grams(200.0));
    let mut window = look_at_recipe(&recipe);
    window.show(Key::Num1);
    assert!(window.figure("cocoa butter").starts_with("unknown"), "{}", window.figure("cocoa butter"));
    assert!(window.has_text("Aunt's secret paste"));
    window.type_amount("Aunt's secret paste", "0");
    window.press(Key::Enter);
    assert!(window.figure("cocoa butter").contains('%'), "without it everything is known");
}

#[test]
fn one_line_of_each_kind() {
    // All fat, all water, all sugar, no cocoa butter, alcohol: each alone.
    for id in ["cocoa-butter", "butter-82", "water", "sucrose", "rum-40", "hazelnut-paste", "salt"] {
        let mut recipe = Recipe { name: id.to_owned(), kind: Kind::Ganache, ..Recipe::default() };
        recipe.intended_use = Some(Use::Piped);
        recipe.push(ingredient(id), grams(100.0));
        look_at_recipe(&recipe);
    }
}

#[test]
fn amounts_beyond_every_kitchen() {
    let mut recipe = Recipe { kind: Kind::Ganache, intended_use: Some(Use::Cut), ..Recipe::default() };
    recipe.push(ingredient("couverture-dark-64"), Quantity::new(1e6, MassUnit::Kilogram).expect("an amount"));
    recipe.push(ingredient("cream-35"), grams(1e-7));
    recipe.push(ingredient("butter-82"), Quantity::new(123_456.789_012_3, MassUnit::Pound).expect("an amount"));
    look_at_recipe(&recipe);
}

#[test]
fn more_water_boils_off_than_there_is() {
    let mut recipe = Recipe { kind: Kind::Caramel, ..Recipe::default() };
    recipe.push(ingredient("cream-35"), grams(200.0));
    recipe.push(ingredient("couverture-dark-64"), grams(200.0));
    recipe.losses.evaporation = nibwright::recipe::Evaporation::Weighed(grams(5000.0));
    recipe.losses.transfer = nibwright::recipe::TransferLoss::from_percent(99.9).expect("below 100 %");
    look_at_recipe(&recipe);
}

#[test]
fn names_that_never_end() {
    let long = "Very long name of a thing that somebody has once bought somewhere ".repeat(12);
    let mut recipe = Recipe { name: long.clone(), note: long.clone(), kind: Kind::Ganache, ..Recipe::default() };
    let mut own = Ingredient::clone(&ingredient("couverture-dark-64"));
    own.id = "own".to_owned();
    own.name = long.trim().to_owned();
    recipe.push(Arc::new(own), grams(400.0));
    recipe.push(ingredient("cream-35"), grams(200.0));
    recipe.lines[1].note = long;
    let window = look_at_recipe(&recipe);
    let readings = window.get_by_label("Make-up").rect();
    for cell in window.query_all_by_label_contains(", amount") {
        assert!(cell.rect().right() < readings.left(), "{cell:?} is pushed out of the sheet");
    }
}

#[test]
fn a_name_in_other_letters_does_not_end_the_program() {
    // Greek, Cyrillic and accents; what no font has is drawn as a box in the program and counts as an error here.
    let recipe =
        Recipe { name: "Γκανάς ганаш crème brûlée ½ → ≤ − × µ".to_owned(), ..Recipe::default() };
    let window = with_recipe(&recipe);
    assert_eq!(window.recipe().name, recipe.name);
}

#[test]
fn a_hundred_lines() {
    let mut recipe = Recipe { name: "Hundred".to_owned(), kind: Kind::Ganache, ..Recipe::default() };
    for (ingredient, place) in Library::built_in().iter().zip(0..100_u32) {
        recipe.push(ingredient.clone(), grams(f64::from(place) + 0.5));
    }
    assert_eq!(recipe.lines.len(), 100);
    let mut window = look_at_recipe(&recipe);
    // The keyboard reaches the last of them, and it comes into sight.
    let cell = |place: usize| format!("{}, amount", recipe.lines[place].ingredient.name);
    window.get_by_label(&cell(97)).focus();
    window.run();
    window.press(Key::Enter);
    window.press(Key::Enter);
    let last = cell(99);
    assert_eq!(window.focused(), Some(last.clone()));
    let rect = window.get_by_label(&last).rect();
    assert!(rect.bottom() < SIZE[1] && rect.top() > 0.0, "{rect}");
    window.type_text("7");
    window.press(Key::Enter);
    assert_eq!(window.recipe().lines[99].amount.value(), 7.0);
    // A new line after it comes into sight as well.
    window.type_text("dextrose");
    window.press(Key::Enter);
    window.type_text("8");
    assert_eq!(window.recipe().lines[100].amount.value(), 8.0);
    let rect = window.focus().expect("a cell").rect();
    assert!(rect.bottom() < SIZE[1] && rect.top() > 0.0, "{rect}");
}

#[test]
fn the_same_ingredient_twice() {
    let mut recipe = Recipe { kind: Kind::Ganache, ..Recipe::default() };
    for amount in [100.0, 200.0] {
        recipe.push(ingredient("cream-35"), grams(amount));
    }
    recipe.push(ingredient("couverture-dark-64"), grams(300.0));
    let mut window = look_at_recipe(&recipe);
    window.press(Key::F2);
    window.press(Key::Enter);
    window.type_text("250");
    window.press(Key::Enter);
    let amounts: Vec<f64> = window.recipe().lines.iter().map(|line| line.amount.value()).collect();
    assert_eq!(amounts, [100.0, 250.0, 300.0]);
}
