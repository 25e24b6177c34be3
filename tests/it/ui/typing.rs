//! Amounts are typed and everything follows at once.

use egui::Key;
use nibwright::analysis::{ROOM, analyse, parts::Group};
use nibwright::ingredient::{Component, Library};
use nibwright::number::{DecimalSign, fixed};
use nibwright::recipe::{Evaporation, MassUnit, Recipe};

use super::*;

/// What the reading must say about the share of a group, computed without the window.
fn percent(recipe: &Recipe, group: Group) -> String {
    let share = analyse(recipe, ROOM).make_up.bowl.group_share(group).expect("it is known");
    format!("{} %", fixed(share.to_percent(), 1, DecimalSign::Point))
}

#[test]
fn the_cocoa_butter_that_is_read_is_that_of_the_couverture() {
    let window = first_start();
    // By hand: 400 g of couverture bring all the cocoa butter of the 685 g.
    let couverture = Library::built_in().by_id("couverture-dark-64").expect("it is built in");
    let share = couverture.composition.share(Component::CocoaButter).expect("it is known").to_percent();
    let expected = fixed(400.0 * share / 685.0, 1, DecimalSign::Point);
    assert!(window.figure("cocoa butter").starts_with(&format!("{expected} % ")), "{}", window.figure("cocoa butter"));
}

#[test]
fn a_typed_amount_is_seen_in_the_frame_in_which_it_is_typed() {
    let mut window = first_start();
    let before = window.figure("cocoa butter");
    let mut changed = window.recipe().clone();
    window.click("Cream, 35 % fat, amount");
    for (letter, grams) in [('2', 2.0), ('4', 24.0), ('0', 240.0)] {
        window.type_letter(letter);
        assert_eq!(window.amount(CREAM), grams);
        changed.lines[1].amount = nibwright::recipe::Quantity::from_grams(grams).expect("an amount");
        for (caption, group) in [("cocoa butter", Group::CocoaButter), ("water", Group::Water)] {
            let (shown, expected) = (window.figure(caption), percent(&changed, group));
            assert!(shown.starts_with(&expected), "{caption} at {grams} g of cream: {shown}, not {expected}");
        }
    }
    window.run();
    let typed = window.figure("cocoa butter");
    assert_ne!(typed, before);
    window.press(Key::Enter);
    assert_eq!(window.figure("cocoa butter"), typed);
    assert_eq!(window.focused().as_deref(), Some("Butter, unsalted, 82 % fat, amount"));
}

#[test]
fn what_was_typed_is_one_step_that_undo_takes_back_and_redo_makes_again() {
    let mut window = first_start();
    let before = window.figure("cocoa butter");
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    let after = window.figure("cocoa butter");
    assert!(window.has_text("not saved"));
    // The next cell has the keyboard, and nothing is typed in it: undo belongs to the recipe.
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.amount(CREAM), window.figure("cocoa butter")), (200.0, before.clone()));
    assert!(window.state().is_saved() && !window.has_text("not saved"));
    window.press_with(CTRL_SHIFT, Key::Z);
    assert_eq!((window.amount(CREAM), window.figure("cocoa butter")), (240.0, after.clone()));
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Y);
    assert_eq!((window.amount(CREAM), window.figure("cocoa butter")), (240.0, after));
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.figure("cocoa butter"), before);
    // There was one step.
    window.press_with(CTRL, Key::Z);
    assert!(window.has_text("Nothing to undo"));
}

#[test]
fn undo_in_the_changed_cell_itself_brings_its_old_amount_back() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.click("Cream, 35 % fat, amount");
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "200"));
    window.press_with(CTRL, Key::Y);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (240.0, "240"));
    // And typing goes on from there.
    window.type_text("7");
    assert_eq!(window.amount(CREAM), 7.0);
}

#[test]
fn undo_while_typing_belongs_to_the_text() {
    let mut window = first_start();
    window.type_amount(BUTTER, "50");
    window.press(Key::Enter);
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.amount(BUTTER), 50.0, "the step before is not touched");
    assert_eq!(window.cell(CREAM), format!("{}", window.amount(CREAM)), "cell and recipe say the same");
    assert_ne!(window.amount(CREAM), 240.0);
    window.press(Key::Escape);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "200"));
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.amount(BUTTER), 40.0);
}

#[test]
fn escape_brings_the_amount_back_and_leaves_no_step() {
    let mut window = first_start();
    let before = window.figure("cocoa butter");
    window.type_amount(CREAM, "240");
    assert_eq!(window.amount(CREAM), 240.0);
    window.press(Key::Escape);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "200"));
    assert_eq!(window.figure("cocoa butter"), before);
    assert!(window.state().is_saved());
    // The keyboard stays: another amount can be typed at once.
    window.type_text("210");
    window.press(Key::Enter);
    assert_eq!(window.amount(CREAM), 210.0);
}

#[test]
fn comma_and_point_are_both_the_decimal_sign() {
    let mut window = first_start();
    window.type_amount(CREAM, "212,5");
    window.press(Key::Enter);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (212.5, "212.5"));
    window.type_amount(CREAM, "198.25");
    window.press(Key::Enter);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (198.25, "198.25"));
}

#[test]
fn where_the_comma_is_usual_it_is_shown() {
    let mut opening = Opening::new();
    opening.decimal_sign = DecimalSign::Comma;
    let mut window = opening.open();
    window.type_amount(CREAM, "212.5");
    window.press(Key::Enter);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (212.5, "212,5"));
    assert!(window.figure("cocoa butter").contains(','), "{}", window.figure("cocoa butter"));
}

#[test]
fn nonsense_stays_to_be_seen_and_changes_nothing() {
    let mut window = first_start();
    let before = window.figure("cocoa butter");
    window.type_amount(CREAM, "x2oo");
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "x2oo"));
    assert!(window.has_text("does not belong in a number"), "the reason is said");
    window.press(Key::Enter);
    assert_eq!(window.focused().as_deref(), Some("Cream, 35 % fat, amount"), "Enter stays with it");
    window.press(Key::Tab);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "x2oo"));
    assert_eq!(window.figure("cocoa butter"), before);
    assert!(window.state().is_saved());
    window.click("Cream, 35 % fat, amount");
    window.press(Key::Escape);
    assert_eq!(window.cell(CREAM), "200");
}

#[test]
fn an_amount_that_becomes_nonsense_is_taken_back_when_its_cell_is_left() {
    let mut window = first_start();
    window.type_amount(CREAM, "24");
    window.type_text("oo");
    window.click("Butter, unsalted, 82 % fat, amount");
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (200.0, "24oo"));
    assert!(window.state().is_saved(), "there is no step");
    // What is typed elsewhere does not bring it back.
    window.type_text("50");
    window.press(Key::Enter);
    assert_eq!((window.amount(CREAM), window.amount(BUTTER)), (200.0, 50.0));
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.amount(CREAM), window.amount(BUTTER)), (200.0, 40.0));
}

#[test]
fn a_unit_may_be_typed_with_the_amount() {
    let mut window = first_start();
    window.type_amount(CREAM, "1.2 kg");
    window.press(Key::Enter);
    let amount = window.line(CREAM).amount;
    assert_eq!((amount.value(), amount.unit()), (1.2, MassUnit::Kilogram));
    assert_eq!(window.cell(CREAM), "1.2");
    let mut changed = window.recipe().clone();
    changed.lines[1].amount = nibwright::recipe::Quantity::from_grams(1200.0).expect("an amount");
    assert!(window.figure("water").starts_with(&percent(&changed, Group::Water)), "{}", window.figure("water"));
    // The number and its unit were one step.
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.amount(CREAM), window.line(CREAM).amount.unit()), (200.0, MassUnit::Gram));
    window.type_amount(CREAM, "8 oz");
    window.press(Key::Enter);
    // NIST SP 811, Appendix B: 8 oz = 226.796 185 g.
    assert!((window.line(CREAM).amount.grams().0 - 226.796_185).abs() < 1e-9);
}

#[test]
fn an_amount_that_no_kitchen_weighs_is_refused_with_its_reason() {
    let mut window = first_start();
    for (text, reason) in [("2000000 kg", "over 1,000 tonnes"), ("-5", "is negative")] {
        window.type_amount(CREAM, text);
        assert!(window.has_text(reason), "{text}");
        window.press(Key::Escape);
        assert_eq!(window.amount(CREAM), 200.0);
    }
}

#[test]
fn a_number_is_pasted_as_it_was_copied() {
    let mut window = first_start();
    for (pasted, grams) in [("1 234,5", 1234.5), ("1\u{202f}234.5", 1234.5), ("250 g\n", 250.0)] {
        window.click("Cream, 35 % fat, amount");
        window.event(Event::Paste(pasted.to_owned()));
        window.run();
        window.press(Key::Enter);
        assert_eq!(window.amount(CREAM), grams, "{pasted}");
    }
}

#[test]
fn small_sums_may_be_typed() {
    let mut window = first_start();
    window.type_amount(CREAM, "3*125");
    window.press(Key::Enter);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (375.0, "375"));
}

#[test]
fn the_batch_scales_every_line_when_it_is_meant() {
    let mut window = first_start();
    window.click("batch, grams");
    window.type_text("1370");
    assert_eq!(window.amount(CREAM), 200.0, "nothing is scaled while it is typed");
    window.press(Key::Enter);
    assert_eq!((window.amount(COUVERTURE), window.amount(CREAM), window.amount(BUTTER)), (800.0, 400.0, 80.0));
    window.press_with(CTRL, Key::Z);
    assert_eq!((window.amount(COUVERTURE), window.amount(CREAM)), (400.0, 200.0));
}

#[test]
fn losses_are_typed_like_amounts() {
    let mut window = first_start();
    let before = window.figure("water");
    window.click("evaporated water, g");
    window.type_text("30");
    assert_ne!(window.figure("water"), before);
    window.press(Key::Escape);
    assert_eq!(window.figure("water"), before);
    window.type_text("30");
    window.press(Key::Enter);
    assert_eq!(window.recipe().losses.evaporation, Evaporation::Weighed(crate::support::grams(30.0)));
    window.click("transfer loss, percent");
    window.type_text("100");
    assert!(window.has_text("give a share of at least 0 % and below 100 %"));
    window.press(Key::Escape);
    window.type_text("5%");
    window.press(Key::Enter);
    assert_eq!(window.recipe().losses.transfer.share().to_percent(), 5.0);
    // (685 − 30) · 0.95
    assert!(window.has_text("622 g"), "the finished mass follows");
}

#[test]
fn arrow_keys_go_from_line_to_line_and_change_nothing() {
    let mut window = first_start();
    window.press_with(CTRL, Key::E);
    let before = window.recipe().clone();
    let first = window.focused();
    window.press(Key::ArrowDown);
    let second = window.focused();
    assert!(second != first && second.as_ref().is_some_and(|name| name.ends_with(", amount")), "{second:?}");
    window.press(Key::ArrowUp);
    assert_eq!(window.focused(), first);
    window.press(Key::ArrowUp);
    assert_eq!(window.focused(), first, "there is no line above");
    assert_eq!(*window.recipe(), before);
    // What is typed counts when it is left in this way, and what cannot be read stays.
    window.type_text("111");
    window.press(Key::ArrowDown);
    assert_eq!(window.recipe().lines[0].amount.value(), 111.0);
    window.type_text("x");
    window.press(Key::ArrowDown);
    assert_eq!(window.focused(), second);
}

#[test]
fn amounts_have_groups_except_while_they_are_typed() {
    let mut window = first_start();
    window.type_amount(CREAM, "125000.5");
    window.press(Key::Enter);
    assert_eq!(window.cell(CREAM), "125\u{202f}000.5");
    window.click("Cream, 35 % fat, amount");
    assert_eq!(window.cell(CREAM), "125000.5");
    window.press(Key::Enter);
    assert_eq!(window.amount(CREAM), 125_000.5);
}

#[test]
fn nonsense_in_the_batch_gives_way_to_the_batch_when_it_is_left() {
    let mut window = first_start();
    window.click("batch, grams");
    window.type_text("x");
    assert_eq!(window.get_by_label("batch, grams").value().as_deref(), Some("x"));
    window.press(Key::Tab);
    assert_eq!(window.get_by_label("batch, grams").value().as_deref(), Some("685"));
}

#[test]
fn shift_and_arrow_keys_step_the_amount_and_are_one_step_back() {
    let mut window = first_start();
    window.click("Cream, 35 % fat, amount");
    for _ in 0..3 {
        window.press_with(egui::Modifiers::SHIFT, Key::ArrowUp);
    }
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (203.0, "203"));
    window.press(Key::Enter);
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.amount(CREAM), 200.0);
}

#[test]
fn name_and_notes_are_typed_and_undone() {
    let mut window = wide();
    window.field("Unnamed recipe").click();
    window.run();
    window.press_with(CTRL, Key::A);
    window.type_text("Passion");
    assert_eq!(window.recipe().name, "Passion");
    assert_eq!(window.state().title(), "• Passion – Nibwright");
    window.click("Butter, unsalted, 82 % fat, note");
    window.press_with(CTRL, Key::A);
    window.type_text("cold");
    assert_eq!(window.line(BUTTER).note, "cold");
    window.click("Cream, 35 % fat, amount");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.line(BUTTER).note, "soft, last");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().name, "Dark cut ganache");
}

#[test]
fn escape_in_a_text_takes_back_what_was_typed() {
    let mut window = first_start();
    window.field("Unnamed recipe").click();
    window.run();
    window.type_text(" of Tuesday");
    assert!(window.recipe().name.contains("Tuesday"));
    window.press(Key::Escape);
    assert_eq!(window.recipe().name, "Dark cut ganache");
    assert!(window.state().is_saved());
}

#[test]
fn undo_in_a_text_does_not_bring_back_the_text_of_another_recipe() {
    let mut window = first_start();
    window.field("Unnamed recipe").click();
    window.run();
    window.type_text(" of Tuesday");
    window.press(Key::Enter);
    window.press_with(CTRL, Key::N);
    window.click("Don't save");
    window.field("Unnamed recipe").click();
    window.run();
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().name, "");
}
