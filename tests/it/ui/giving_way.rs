//! Where it cannot be done: what was given up comes back, and what would help is a click away.

use egui::Key;
use egui_kittest::kittest::Queryable as _;
use nibwright::ingredient::Component;
use nibwright::reformulate::{Bound, Measured, Target};

use super::exchange::{ask, praline};
use super::targets::{add_target, passion_fruit, reformulating, targets, type_bound};
use super::{CTRL, CTRL_SHIFT, Window, with_recipe};

/// The ganache that is asked for what it cannot have with its purée and salt locked.
fn asked_too_much() -> Window {
    let mut window = reformulating(&passion_fruit());
    add_target(&mut window, "Water and keeping", "Water activity");
    type_bound(&mut window, "water activity, at most", "0.6");
    assert!(window.has_text("It cannot be done as asked"), "{:?}", window.texts());
    window
}

fn is_asked(window: &Window) -> Option<bool> {
    let rows = &targets(window).asked.targets;
    rows.iter().find(|row| row.target.of == Measured::WaterActivity).map(|row| row.is_on)
}

#[test]
fn what_was_given_up_comes_back_before_what_was_done_earlier() {
    let mut window = asked_too_much();
    // A lock of the sheet, then something given up: each is taken back in its turn.
    window.click("Cream, 35 % fat, lock");
    window.settle();
    let locked = window.recipe().clone();
    window.get_by_label_contains("give this up: water activity at most 0.6").click();
    window.run();
    window.settle();
    assert_eq!(is_asked(&window), Some(false));
    window.click("Edit");
    assert!(window.has_text("Undo change of targets"), "{:?}", window.texts());
    window.press(Key::Escape);
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert_eq!((is_asked(&window), window.recipe()), (Some(true), &locked));
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert!(window.recipe() != &locked && is_asked(&window) == Some(true), "the lock is the next step");
    window.press_with(CTRL_SHIFT, Key::Z);
    window.press_with(CTRL_SHIFT, Key::Z);
    window.settle();
    assert_eq!((is_asked(&window), window.recipe()), (Some(false), &locked));
}

#[test]
fn a_bound_that_was_typed_is_one_step_and_its_reading_comes_to_the_front() {
    let mut window = asked_too_much();
    type_bound(&mut window, "water activity, at most", "0.85");
    window.show(Key::Num3);
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert!(window.has_text("It cannot be done as asked"), "{:?}", window.texts());
    assert!(targets(&window).asked.targets.iter().any(|row| row.target.of == Measured::WaterActivity));
}

#[test]
fn what_would_help_is_used_at_a_click() {
    let mut window = reformulating(&passion_fruit());
    let polyols = Target::new(Measured::Component(Component::Polyols), Bound::AtLeast(5.0));
    window.state_mut().make_target(polyols);
    window.run();
    window.settle();
    assert!(window.has_text("To go on: let sorbitol powder (+"), "{:?}", window.texts());
    window.click("use sorbitol powder");
    window.settle();
    assert!(window.has_text("The nearest recipe that does it"), "{:?}", window.texts());
    // One step takes it back.
    window.press_with(CTRL, Key::Z);
    window.settle();
    assert!(window.has_text("It cannot be done as asked") && targets(&window).asked.allowed.is_empty());
}

#[test]
fn what_could_come_besides_is_used_at_a_click() {
    let mut window = with_recipe(&praline("Praline"));
    ask(&mut window, "almond paste 100");
    assert!(window.has_text("It cannot be done as it is asked"), "{:#?}", window.texts());
    assert!(window.has_text("To go on: let sunflower oil (+"), "{:#?}", window.texts());
    window.click("use sunflower oil");
    window.settle();
    assert!(window.has_text("It can be done"), "{:#?}", window.texts());
    assert!(window.has_text("new: sunflower oil "));
}
