//! What the ingredients cost is typed once, kept in a list of the user, and shown in Make-up.

use std::fs;

use egui::Key;

use super::*;

const CARD: &str = "of the ingredients, by your price list";

/// Opens the form for the price of an ingredient and writes into its fields.
fn give_price(window: &mut Window, ingredient: &str, fields: &[(&str, &str)]) {
    window.click(&format!("{ingredient}, amount"));
    window.command("price of the ingredient");
    assert!(window.has_text(&format!("Price of {ingredient}")), "the form is open");
    for (field, text) in fields {
        window.type_into(field, text);
    }
}

fn list(folder: &TempDir) -> String {
    fs::read_to_string(folder.path().join("data/prices.csv")).unwrap_or_default()
}

/// By hand: 200 g of cream at 4.10 for 1 kg are 0.82, and 0.82 in 685 g less 2 % are 1.22 for 1 kg.
#[test]
fn a_price_is_typed_once_and_counts_for_every_recipe() {
    let mut window = first_start();
    assert!(window.has_text(CARD) && window.has_text("Give the ingredients prices"));
    assert!(window.has_text(&format!("price of {CREAM}: no price")));
    give_price(&mut window, CREAM, &[]);
    assert_eq!(window.focused().as_deref(), Some("price"), "the keyboard is in the first field");
    window.type_text("4,10");
    window.type_into("currency", "EUR");
    window.type_into("price of the day", "2026-03-31");
    window.press_with(CTRL, Key::Enter);
    assert!(window.has_text("Price saved in your list"));
    assert!(window.has_text("the batch: at least 0.82 EUR"), "{:#?}", window.texts());
    assert!(window.has_text("1 kg of the finished mass: at least 1.22 EUR"));
    assert!(window.has_text(&format!("price of {CREAM}: 0.82")) && window.has_text("is of 2026-03-31"));
    assert!(window.state().is_saved(), "the recipe has no prices in it");
    let row = "cream-35,\"Cream, 35 % fat\",4.1,EUR,1,kg,100,2026-03-31\n";
    assert!(list(&window.folder).ends_with(row), "{}", list(&window.folder));

    // The next start knows it, and the next price is in the same money.
    let mut window = Opening::in_folder(window.quit()).open();
    assert!(window.has_text("the batch: at least 0.82 EUR"));
    give_price(&mut window, BUTTER, &[]);
    assert_eq!(window.get_by_label("currency").value().as_deref(), Some("EUR"));
    window.press(Key::Escape);
    give_price(&mut window, CREAM, &[]);
    assert_eq!(window.get_by_label("price").value().as_deref(), Some("4.1"));
    window.click("Take it off the list");
    assert!(window.has_text(&format!("price of {CREAM}: no price")));
    assert_eq!(list(&window.folder).lines().count(), 1, "{}", list(&window.folder));
}

#[test]
fn with_a_price_for_every_line_the_cost_is_whole_and_the_pin_stays_behind_it() {
    let opening = Opening::new();
    let ids = ["couverture-dark-64", "cream-35", "butter-82", "invert-syrup", "glucose-syrup-de40"];
    let rows = ids.map(|id| format!("{id},10,EUR\n")).concat();
    fs::create_dir(opening.folder.path().join("data")).expect("a folder");
    fs::write(opening.folder.path().join("data/prices.csv"), format!("ingredient,price,currency\n{rows}"))
        .expect("a list");
    let mut window = opening.open();
    // 685 g at 10 for 1 kg.
    assert!(window.has_text("the batch: 6.85 EUR"), "{:#?}", window.texts());
    window.press_with(CTRL, Key::P);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    assert!(window.has_text("the batch: 7.25 EUR, pinned 6.85 EUR"));
    for ingredient in window.ingredients().into_iter().map(str::to_owned).collect::<Vec<_>>() {
        window.type_amount(&ingredient, "0");
        window.press(Key::Enter);
        window.press(Key::Escape);
    }
    window.type_amount(CREAM, "1");
    window.press(Key::Enter);
    give_price(&mut window, CREAM, &[]);
    window.click("Take it off the list");
    assert!(window.has_text("the batch: not known, pinned at least 4.85 EUR"), "{:#?}", window.texts());
}

#[test]
fn what_is_no_price_is_not_taken_and_says_why() {
    let mut window = first_start();
    give_price(&mut window, CREAM, &[("price", "dear"), ("currency", "EUR")]);
    assert!(window.has_text("does not belong in a number"));
    window.press_with(CTRL, Key::Enter);
    assert!(window.has_text(&format!("Price of {CREAM}")), "the form stays");
    window.type_into("price", "4.10");
    for (field, wrong, right, words) in [
        ("for how much", "0", "1", "give the quantity that is bought"),
        ("usable, %", "120", "98", "cannot be the usable part"),
        ("price of the day", "31.3.2026", "", "is no day of the calendar"),
        ("currency", "", "EUR", "the currency is missing"),
    ] {
        window.type_into(field, wrong);
        assert!(window.has_text(words), "{field}: {:#?}", window.texts());
        window.type_into(field, right);
    }
    window.press_with(CTRL, Key::Enter);
    assert!(window.has_text("Price saved in your list"));
    assert!(list(&window.folder).ends_with(",4.1,EUR,1,kg,98,\n"), "{}", list(&window.folder));
}

#[test]
fn a_list_that_cannot_be_read_is_said_and_left_as_it_is() {
    let opening = Opening::new();
    let folder = opening.folder.path().join("data");
    fs::create_dir(&folder).expect("a folder");
    let text = "ingredient,price,currency\ncream-35,dear,EUR\n";
    fs::write(folder.join("prices.csv"), text).expect("a list");
    let mut window = opening.open();
    assert!(window.has_text("prices.csv, line 2, column price: \"dear\" is no number"), "{:#?}", window.texts());
    window.command("price of the ingredient");
    assert!(window.has_text("Your price list cannot be read"));
    window.click("Close");
    assert_eq!(fs::read_to_string(folder.join("prices.csv")).expect("it is there"), text);
    // Put right, it is read again when a price is asked for.
    fs::write(folder.join("prices.csv"), text.replace("dear", "4.10")).expect("a list");
    give_price(&mut window, CREAM, &[]);
    assert_eq!(window.get_by_label("price").value().as_deref(), Some("4.1"));
}
