//! The cell in which numbers are typed.

use egui::{Id, Key, Modifiers, Theme, pos2};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};
use nibwright::ui::widgets::{
    Leave, NumberCell,
    NumberEvent::{self, Committed, Typing},
    edited_cell, focus_cell,
};

use super::harness;

/// Two cells and the log of what they reported.
#[derive(Default)]
struct Amounts {
    values: [f64; 2],
    log: Vec<NumberEvent<f64>>,
    leave: Option<Leave>,
}

fn parse(text: &str) -> Result<f64, String> {
    match text.trim().replace(',', ".").parse::<f64>() {
        Ok(value) if value >= 0.0 => Ok(value),
        Ok(_) => Err("an amount cannot be negative".to_owned()),
        Err(_) => Err(format!("“{text}” is not a number")),
    }
}

fn amounts() -> Harness<'static, Amounts> {
    let state = Amounts { values: [200.0, 40.0], ..Default::default() };
    harness([300.0, 200.0], Theme::Light, state, |ui, state| {
        for idx in 0..2 {
            let name = format!("cell {idx}");
            let shown = state.values[idx].to_string();
            let output = NumberCell::new(id(idx), &name, &shown, &parse).ui(ui);
            match output.event {
                NumberEvent::Nothing => continue,
                NumberEvent::Typing(value) | NumberEvent::Committed(value) => state.values[idx] = value,
                NumberEvent::Cancelled => state.values[idx] = [200.0, 40.0][idx],
            }
            state.log.push(output.event);
            state.leave = output.leave.or(state.leave);
        }
    })
}

fn id(idx: usize) -> Id {
    Id::unique(("cell", idx))
}

fn click(harness: &mut Harness<'_, Amounts>, name: &str) {
    harness.get_by_label(name).click();
    harness.run();
}

fn type_text(harness: &mut Harness<'_, Amounts>, name: &str, text: &str) {
    for character in text.chars() {
        harness.get_by_label(name).type_text(&character.to_string());
    }
    harness.run();
}

fn press(harness: &mut Harness<'_, Amounts>, key: Key) {
    harness.key_press(key);
    harness.run();
}

#[test]
fn typing_reports_every_readable_state_and_enter_commits() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "12,5");
    // The click selected everything, so the first digit replaced 200; "12," already reads as 12.
    assert_eq!(harness.state().log, [Typing(1.0), Typing(12.0), Typing(12.0), Typing(12.5)]);
    assert_eq!(edited_cell(&harness.ctx), Some(id(0)));
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().log.last(), Some(&Committed(12.5)));
    assert_eq!(harness.state().leave, Some(Leave::Down));
    assert!(!harness.get_by_label("cell 0").is_focused());
    assert_eq!(edited_cell(&harness.ctx), None);
    assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("12.5"));
}

#[test]
fn shift_enter_goes_up() {
    let mut harness = amounts();
    click(&mut harness, "cell 1");
    type_text(&mut harness, "cell 1", "7");
    harness.key_press_modifiers(Modifiers::SHIFT, Key::Enter);
    harness.run();
    assert_eq!(harness.state().leave, Some(Leave::Up));
    assert_eq!(harness.state().values, [200.0, 7.0]);
}

#[test]
fn tab_commits_and_goes_to_the_next_cell_with_its_text_selected() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "55");
    press(&mut harness, Key::Tab);
    assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(55.0)));
    assert!(harness.get_by_label("cell 1").is_focused());
    type_text(&mut harness, "cell 1", "9");
    press(&mut harness, Key::Tab);
    assert_eq!(harness.state().values, [55.0, 9.0]);
}

#[test]
fn clicking_elsewhere_commits() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "3");
    click(&mut harness, "cell 1");
    assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(3.0)));
}

#[test]
fn clicking_on_nothing_commits() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "3");
    harness.drag_at(pos2(280.0, 180.0));
    harness.drop_at(pos2(280.0, 180.0));
    harness.run();
    assert_eq!(harness.state().log.last(), Some(&Committed(3.0)));
}

#[test]
fn escape_brings_the_value_back_and_keeps_the_place() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "12");
    press(&mut harness, Key::Escape);
    assert_eq!(harness.state().log.last(), Some(&NumberEvent::Cancelled));
    assert_eq!(harness.state().values[0], 200.0);
    assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("200"));
    assert!(harness.get_by_label("cell 0").is_focused());
    press(&mut harness, Key::Escape);
    assert!(!harness.get_by_label("cell 0").is_focused());
    assert_eq!(harness.state().values[0], 200.0);
}

#[test]
fn nonsense_stays_with_its_reason_and_counts_for_nothing() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "1x");
    press(&mut harness, Key::Enter);
    assert!(harness.get_by_label("cell 0").is_focused(), "Enter does not leave text that cannot be read");
    harness.get_by_label("“1x” is not a number");
    press(&mut harness, Key::Tab);
    assert_eq!(harness.state().log.last(), Some(&NumberEvent::Cancelled));
    assert_eq!(harness.state().values[0], 200.0);
    let cell = harness.get_by_label("cell 0");
    assert_eq!(cell.value().as_deref(), Some("1x"));
    assert_eq!(cell.accesskit_node().data().invalid(), Some(egui::accesskit::Invalid::True));
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "8");
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().values[0], 8.0);
}

#[test]
fn nonsense_goes_when_the_value_below_it_changes() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "x");
    press(&mut harness, Key::Tab);
    harness.state_mut().values[0] = 77.0;
    harness.run();
    assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("77"));
}

#[test]
fn arrows_step_the_last_digit_shown() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "12,5");
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    harness.run();
    assert_eq!(harness.state().values[0], 12.6);
    for _ in 0..10 {
        harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
        harness.run();
    }
    assert_eq!(harness.state().values[0], 11.6);
    press(&mut harness, Key::ArrowUp);
    assert_eq!(harness.state().values[0], 11.6, "an arrow key alone changes nothing");
    assert!(harness.get_by_label("cell 0").is_focused());
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().log.last(), Some(&NumberEvent::Committed(11.6)));
}

#[test]
fn a_step_to_what_is_not_allowed_is_not_made() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    type_text(&mut harness, "cell 0", "0");
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowDown);
    harness.run();
    assert_eq!(harness.get_by_label("cell 0").value().as_deref(), Some("0"));
}

#[test]
fn passing_through_reports_nothing() {
    let mut harness = amounts();
    click(&mut harness, "cell 0");
    press(&mut harness, Key::Tab);
    press(&mut harness, Key::Tab);
    assert_eq!(harness.state().log, []);
}

#[test]
fn focus_selects_what_is_there() {
    let mut harness = amounts();
    focus_cell(&harness.ctx, id(1));
    harness.run();
    assert!(harness.get_by_label("cell 1").is_focused());
    type_text(&mut harness, "cell 1", "6");
    assert_eq!(harness.state().values[1], 6.0);
}

#[test]
fn an_assistive_technology_can_set_the_value() {
    let mut harness = amounts();
    harness.get_by_label("cell 1").set_text_value_accesskit("31");
    harness.run();
    assert_eq!(harness.state().log, [NumberEvent::Committed(31.0)]);
}
