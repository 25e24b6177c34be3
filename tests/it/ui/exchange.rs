//! An ingredient is exchanged: in the recipe that is open as one step, in the recipes of a folder only when it is asked for.

use std::fs;
use std::sync::Arc;

use egui::{Key, accesskit::Role};
use nibwright::ingredient::{Component, Composition, Ingredient, Library};
use nibwright::recipe::{Kind, Quantity};
use nibwright::reformulate::measured::{Mass, Measured};
use nibwright::store::load_recipe;

use super::*;

const HAZELNUT: &str = "Hazelnut paste, 100 %";
const ALMOND: &str = "Almond butter (almond paste 100 %)";
const OIL: &str = "Hazelnut oil";
const COMING: &str = "what comes in its place";
const BESIDES: &str = "what may come besides";

/// 300 g of hazelnut paste, 200 g of sugar and 100 g of cocoa butter.
pub(super) fn praline(name: &str) -> Recipe {
    let mut recipe = Recipe { name: name.to_owned(), kind: Kind::Praline, ..Recipe::default() };
    for (id, grams) in [("hazelnut-paste", 300.0), ("sucrose", 200.0), ("cocoa-butter", 100.0)] {
        let ingredient = Library::built_in().by_id(id).expect("built in");
        recipe.push(Arc::clone(ingredient), Quantity::from_grams(grams).expect("an amount"));
    }
    recipe
}

/// Opens the dialog for the chosen line and lets another ingredient come.
pub(super) fn ask(window: &mut Window, comes: &str) {
    window.press_with(CTRL_SHIFT, Key::E);
    assert!(window.has_text("Exchange an ingredient"), "the dialog is open");
    assert_eq!(window.focused().as_deref(), Some(COMING), "the keyboard is in the first field");
    window.type_text(comes);
    window.press(Key::Enter);
    window.settle();
}

/// Lets another ingredient come in besides.
fn ask_besides(window: &mut Window, comes: &str) {
    window.click("+ another ingredient");
    assert_eq!(window.focused().as_deref(), Some(BESIDES));
    window.type_text(comes);
    window.press(Key::Enter);
    window.settle();
}

fn figure(recipe: &Recipe, of: Measured) -> f64 {
    let bowl = nibwright::analysis::make_up::make_up(recipe).bowl;
    Mass::new(recipe, &bowl).figure(of).expect("it is known").value
}

#[test]
fn the_hazelnut_paste_of_a_praline_is_replaced_and_one_undo_brings_it_back() {
    let mut window = with_recipe(&praline("Praline"));
    let before = window.recipe().clone();
    ask(&mut window, "almond paste 100");
    // Almonds have less oil: alone they cannot do it, and it says what stands in the way.
    assert!(window.has_text("It cannot be done as it is asked"), "{:#?}", window.texts());
    assert!(window.has_text("These cannot be had together: total fat between 47.7\u{a0}% and 48.7\u{a0}%"));
    assert!(window.has_text("gram for gram 44.4 %, at the nearest"));
    window.press_with(CTRL, Key::Enter);
    assert!(window.has_text("It cannot be done as it is asked"), "there is nothing to accept");
    assert_eq!(*window.recipe(), before);

    ask_besides(&mut window, "hazelnut oil");
    assert!(window.has_text("It can be done: 3 lines change"), "{:#?}", window.texts());
    assert!(window.has_text("hazelnut paste 300 g → almond butter (almond paste 100 %) "));
    assert!(window.has_text("new: hazelnut oil "));
    assert!(window.has_text("together 600 g → 600 g, 1 other line stays"), "{:#?}", window.texts());
    assert!(window.has_text("Before you make it"));
    assert!(window.has_text("New allergens: Nuts (almonds). Change the label."), "{:#?}", window.texts());
    assert_eq!(*window.recipe(), before, "nothing is changed before it is accepted");
    window.press_with(CTRL, Key::Enter);
    assert!(!window.has_text("It can be done"), "the dialog is closed");
    assert_eq!(window.ingredients(), [ALMOND, "Sugar, white, crystallised (sucrose)", "Cocoa butter", OIL]);
    for (of, within) in
        [(nibwright::analysis::parts::Group::TotalFat, 0.5), (nibwright::analysis::parts::Group::Sugars, 0.5)]
    {
        let (then, now) = (figure(&before, Measured::Group(of)), figure(window.recipe(), Measured::Group(of)));
        // Weighed amounts are rounded, so a held result may lie at the very end.
        assert!((then - now).abs() <= within + 1e-6, "{of:?}: {then} and {now}");
    }
    window.press_with(CTRL, Key::Z);
    assert_eq!(*window.recipe(), before);
    assert!(window.state().is_saved());
}

#[test]
fn what_is_held_can_be_left_out_and_added() {
    let mut window = with_recipe(&praline("Praline"));
    ask(&mut window, "almond paste 100");
    assert!(window.has_text("Water activity"), "it is usual");
    for tick in ["Total fat", "Sugars", "Water activity", "Solid fat at 20 °C"] {
        window.get_by_role_and_label(Role::CheckBox, tick).click();
        window.settle();
    }
    assert!(window.has_text("It can be done gram for gram; nothing is held"), "{:#?}", window.texts());
    window.click("+ hold another result");
    window.click("Taste, energy, cost");
    window.click("Sweetness");
    window.settle();
    assert!(window.has_text("sweetness ") && window.has_text("what is held, before, gram for gram, now"));
    window.click("stay as they are");
    window.settle();
    // Only what comes in may be weighed otherwise now.
    assert!(window.has_text("2 other lines stay"), "{:#?}", window.texts());
}

/// As on the command line: what nobody has given cannot be held, and that is said.
#[test]
fn what_is_not_held_because_it_is_not_known_is_told() {
    let mut recipe = praline("Praline");
    let composition = Composition::new(
        [(Component::Lactose, 30.0), (Component::Sucrose, 40.0)],
        [Component::MilkFat, Component::OtherFat],
        0.0,
    );
    let powder = Ingredient {
        composition: composition.expect("a composition"),
        ..Ingredient::unknown("own", "Own milk powder")
    };
    recipe.push(powder.into(), Quantity::from_grams(50.0).expect("an amount"));
    let mut window = with_recipe(&recipe);
    ask(&mut window, "almond paste 100");
    assert!(window.has_text("Before you make it"), "{:#?}", window.texts());
    let told = "Not held, because not known: total fat, solid fat at 20\u{a0}°C. Nobody has given milk fat, \
                other fat of Own milk powder.";
    assert!(window.has_text(told), "{:#?}", window.texts());
    // What is dry stays dry, and nothing is missing.
    let mut known = with_recipe(&praline("Praline"));
    ask(&mut known, "almond paste 100");
    assert!(known.has_text("Before you make it") && !known.has_text("Not held"), "{:#?}", known.texts());
    assert!(!known.has_text("that could be held"));
}

#[test]
fn the_cost_is_held_where_every_line_has_a_price() {
    let mut without = with_recipe(&praline("Praline"));
    ask(&mut without, "almond paste 100");
    without.click("+ hold another result");
    without.click("Taste, energy, cost");
    let cost = |window: &Window| window.get_by_role_and_label(Role::Button, "Cost").accesskit_node().is_disabled();
    assert!(cost(&without), "the price list is empty");

    let opening = Opening::of_recipe(&praline("Praline"));
    let rows = "hazelnut-paste,14,EUR\nsucrose,1,EUR\ncocoa-butter,20,EUR\nalmond-paste-pure,18,EUR\n";
    fs::create_dir_all(opening.folder.path().join("data")).expect("a folder");
    fs::write(opening.folder.path().join("data/prices.csv"), format!("ingredient,price,currency\n{rows}"))
        .expect("a list");
    let mut window = opening.open();
    ask(&mut window, "almond paste 100");
    for tick in ["Total fat", "Sugars", "Water activity", "Solid fat at 20 °C"] {
        window.get_by_role_and_label(Role::CheckBox, tick).click();
        window.settle();
    }
    window.click("+ hold another result");
    window.click("Taste, energy, cost");
    assert!(!cost(&window));
    window.get_by_role_and_label(Role::Button, "Cost").click();
    window.settle();
    // By hand: 300 g at 14, 200 g at 1 and 100 g at 20 are 6.40 in 600 g; with almonds at 18 they are 7.60.
    assert!(window.has_text("cost 10.67 EUR per kg, gram for gram 12.67 EUR per kg, now 10."), "{:#?}", window.texts());
}

#[test]
fn closing_changes_nothing_and_a_locked_line_says_what_to_do() {
    let mut recipe = praline("Praline");
    recipe.lines[0].is_locked = true;
    let mut window = with_recipe(&recipe);
    ask(&mut window, "almond paste 100");
    assert!(
        window.has_text("The line of what goes is locked or is the seed: unlock it first"),
        "{:#?}",
        window.texts()
    );
    // A click beside it does not lose what was chosen.
    window.drag_at(egui::pos2(20.0, 780.0));
    window.drop_at(egui::pos2(20.0, 780.0));
    window.run();
    assert!(window.has_text("Exchange an ingredient"));
    window.press(Key::Escape);
    assert!(!window.has_text(COMING), "Esc closes it");
    assert!(window.state().is_saved() && *window.recipe() == recipe);
}

#[test]
fn the_first_esc_empties_the_search_and_closing_stops_the_worker() {
    let mut window = with_recipe(&praline("Praline"));
    window.press_with(CTRL_SHIFT, Key::E);
    window.type_text("almond");
    window.press(Key::Escape);
    assert_eq!(window.get_by_label(COMING).value().as_deref(), Some(""));
    window.type_text("almond paste 100");
    // One frame: the worker has begun and is not waited for.
    let event = |pressed| Event::Key {
        key: Key::Enter,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: Modifiers::NONE,
    };
    window.input_mut().events.extend([event(true), event(false)]);
    window.step();
    window.press(Key::Escape);
    assert!(!window.state().is_busy(), "nobody waits for it");
    assert!(window.state().is_saved());
}

/// Five files: the open one, one more that can be done, one locked, one broken, one without hazelnuts.
fn folder_of_five() -> Window {
    let mut opening = Opening::new();
    let folder = opening.folder.path().join("pralines");
    fs::create_dir(&folder).expect("a folder");
    let write = |name: &str, recipe: &Recipe| save_recipe(&folder.join(name), recipe).expect("it can be written");
    write("a.ron", &praline("Praline A"));
    let mut more = praline("Praline B");
    more.lines[1].amount = Quantity::from_grams(260.0).expect("an amount");
    write("b.ron", &more);
    let mut locked = praline("Praline C");
    locked.lines[0].is_locked = true;
    write("c.ron", &locked);
    fs::write(folder.join("d.ron"), "(format: 1, lines: [(ingredient: \"hazelnut-paste\", amount: ").expect("a file");
    let mut without = praline("Plain E");
    without.lines.remove(0);
    write("e.ron", &without);
    opening.file = Some(folder.join("a.ron"));
    opening.open()
}

fn file(window: &Window, name: &str) -> String {
    fs::read_to_string(window.folder.path().join("pralines").join(name)).expect("it is there")
}

fn files(window: &Window) -> Vec<String> {
    ["a.ron", "b.ron", "c.ron", "d.ron", "e.ron"].map(|name| file(window, name)).to_vec()
}

/// Asks for the exchange in all recipes of the folder.
fn look_through(window: &mut Window) {
    ask(window, "almond paste 100");
    ask_besides(window, "hazelnut oil");
    window.click("All recipes of pralines");
    assert!(window.has_text("The shelf lists 5 recipes in "), "{:#?}", window.texts());
    window.click("Look through them");
    window.settle();
    assert!(window.has_text("4 of 5 use it; it can be done in 2"), "{:#?}", window.texts());
}

#[test]
fn in_a_folder_nothing_is_written_before_it_is_asked_for_and_then_only_that() {
    let mut window = folder_of_five();
    let before = files(&window);
    look_through(&mut window);
    assert_eq!(files(&window), before, "nothing is written");
    for row in [
        "Praline A: can be done, 3 lines change",
        "Praline B: can be done, ",
        "Praline C: ! The line of what goes is locked or is the seed: unlock it first.",
        "d: ! cannot be read",
    ] {
        assert!(window.has_text(row), "{row}: {:#?}", window.texts());
    }
    assert!(!window.has_text("Plain E:"), "it has no hazelnuts");
    // Details of one that cannot be read.
    window.click("d: ! cannot be read");
    assert!(window.has_text("d.ron:1:"), "{:#?}", window.texts());
    assert!(window.get_by_label("Write Praline C").accesskit_node().is_disabled());

    window.click("Write Praline B");
    window.settle();
    assert!(window.has_text("The file of Praline B is written over. Undo does not reach it."), "{:#?}", window.texts());
    // A second click at the same place, Esc, and the other tab leave all as it is.
    window.click("Do not write");
    window.click("Write Praline B");
    window.press(Key::Escape);
    assert!(window.has_text("Praline B: can be done, ") && !window.has_text("Undo does not reach"));
    window.settle();
    assert_eq!(files(&window), before, "nothing is written");
    window.click("Write Praline B");
    window.click("Write 1 file");
    window.settle();
    assert!(window.has_text("Praline B: written"), "{:#?}", window.texts());
    let path = window.folder.path().join("pralines/b.ron");
    let written = load_recipe(&path, Library::built_in()).expect("it opens");
    assert_eq!(written.lines[0].ingredient.name, ALMOND);
    let after = files(&window);
    assert_eq!([&after[0], &after[2], &after[3], &after[4]], [&before[0], &before[2], &before[3], &before[4]]);
    assert!(window.get_by_label("Write Praline B").accesskit_node().is_disabled(), "once is enough");
    assert_eq!(window.line(HAZELNUT).amount.value(), 300.0, "the open one is as it was");
}

#[test]
fn all_are_written_at_once_the_open_one_follows_and_what_somebody_has_changed_stays() {
    let mut window = folder_of_five();
    look_through(&mut window);
    let other = "(format: 1, name: \"Another\", lines: [])";
    fs::write(window.folder.path().join("pralines/b.ron"), other).expect("a file");
    window.click("Write all 2…");
    window.settle();
    assert!(window.has_text("2 files are written over. Undo does not reach them."), "{:#?}", window.texts());
    assert_eq!(file(&window, "b.ron"), other);
    window.click("Write 2 files");
    window.settle();
    assert!(window.has_text("Praline A: written") && window.has_text("Praline B: ! not written"));
    window.click("Praline B: ! not written");
    assert!(window.has_text("was changed by somebody else meanwhile"), "{:#?}", window.texts());
    assert_eq!(file(&window, "b.ron"), other);
    window.press(Key::Escape);
    // The open one is as its file, and undo brings back what it was.
    assert!(window.state().is_saved());
    assert_eq!(window.ingredients()[0], ALMOND);
    let path = window.folder.path().join("pralines/a.ron");
    assert_eq!(load_recipe(&path, Library::built_in()).expect("it opens"), *window.recipe());
    window.press_with(CTRL, Key::S);
    assert!(!window.has_text("The file has changed meanwhile"));
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.ingredients()[0], HAZELNUT);
    assert!(!window.state().is_saved());
}

#[test]
fn the_open_recipe_with_unsaved_changes_is_not_written() {
    let mut window = folder_of_five();
    window.type_amount("Cocoa butter", "120");
    window.press(Key::Enter);
    window.press(Key::Escape);
    window.click(&format!("{HAZELNUT}, amount"));
    let before = file(&window, "a.ron");
    look_through(&mut window);
    assert!(window.has_text("Praline A: ! open with unsaved changes"), "{:#?}", window.texts());
    assert!(window.get_by_label("Write Praline A").accesskit_node().is_disabled());
    window.click("Write it…");
    window.click("Write 1 file");
    window.settle();
    assert!(window.has_text("Praline B: written"));
    assert_eq!(file(&window, "a.ron"), before);
    assert_eq!(window.amount("Cocoa butter"), 120.0);
}

#[test]
fn another_question_forgets_the_list() {
    let mut window = folder_of_five();
    look_through(&mut window);
    window.click("stay as they are");
    window.settle();
    assert!(!window.has_text("Praline A: can be done") && window.has_text("The shelf lists 5 recipes in "));
}

#[test]
fn looking_through_a_large_folder_can_be_stopped_and_what_was_found_stays() {
    let mut opening = Opening::new();
    let folder = opening.folder.path().join("pralines");
    fs::create_dir(&folder).expect("a folder");
    for number in 0..400 {
        let path = folder.join(format!("{number:03}.ron"));
        save_recipe(&path, &praline(&format!("Praline {number:03}"))).expect("it can be written");
    }
    opening.file = Some(folder.join("000.ron"));
    let mut window = opening.open();
    ask(&mut window, "almond paste 100");
    ask_besides(&mut window, "hazelnut oil");
    window.click("All recipes of pralines");
    window.get_by_label("Look through them").click();
    // Frame by frame: the worker asks for one after the other.
    let since = Instant::now();
    while !window.has_text("Praline 001: can be done") {
        assert!(since.elapsed() < Duration::from_secs(20), "{:#?}", window.texts());
        window.step();
    }
    assert!(window.has_text(" of 400 looked at, ") && window.state().is_busy());
    window.get_by_label("Stop").click();
    while window.state().is_busy() {
        assert!(since.elapsed() < Duration::from_secs(40), "it goes on");
        window.step();
    }
    window.run();
    assert!(window.has_text("Stopped at ") && window.has_text(" of 400. "), "{:#?}", window.texts());
    assert!(window.has_text("Praline 001: can be done") && !window.has_text("Praline 399"));
    window.click("Write Praline 001");
    window.click("Write 1 file");
    window.settle();
    assert!(window.has_text("Praline 001: written"));
}
