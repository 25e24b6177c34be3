//! The thermometer by pointer, keyboard and assistive technology.

use egui::{Id, Key, Modifiers, Theme, pos2, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};
use nibwright::ui::widgets::{Thermometer, ThermometerMarks};

use super::{gallery, harness};

const NAME: &str = "temperature";

fn thermometer() -> Harness<'static, f64> {
    let marks = gallery::marks();
    harness([120.0, 700.0], Theme::Light, 20.0, move |ui, celsius| {
        let text = format!("{celsius:.1}");
        let output = Thermometer::new(Id::unique(NAME), NAME, *celsius, &text, &marks).ui(ui);
        *celsius = output.chosen_c.unwrap_or(*celsius);
    })
}

#[test]
fn dragging_moves_it_and_stops_at_the_ends() {
    let mut harness = thermometer();
    let x = harness.get_by_label(NAME).rect().center().x;
    harness.drag_at(pos2(x, 600.0));
    harness.run();
    let low = *harness.state();
    assert!((5.0..15.0).contains(&low), "{low}");
    harness.hover_at(pos2(x, 300.0));
    harness.run();
    let high = *harness.state();
    assert!((20.0..35.0).contains(&high), "{high}");
    harness.hover_at(pos2(x, 0.0));
    harness.run();
    assert_eq!(*harness.state(), 45.0);
    harness.hover_at(pos2(x, 900.0));
    harness.run();
    assert_eq!(*harness.state(), 5.0);
    harness.drop_at(pos2(x, 900.0));
    harness.run();
    assert_eq!(*harness.state(), 5.0);
}

#[test]
fn taken_by_the_handle_it_does_not_jump() {
    let mut harness = thermometer();
    let handle = pos2(harness.get_by_label(NAME).rect().left() + 20.0, 300.0);
    // A press beside the handle brings it there.
    harness.drag_at(handle);
    harness.run();
    harness.drop_at(handle);
    harness.run();
    let before = *harness.state();
    assert!(before > 25.0, "{before}");
    // A press a little off its middle takes it as it is.
    harness.drag_at(handle + vec2(0.0, 6.0));
    harness.run();
    assert_eq!(*harness.state(), before);
    harness.hover_at(handle + vec2(0.0, 6.0 - 40.0));
    harness.run();
    // 40 points up on a strip of some 640 points for 40 K.
    let risen = *harness.state() - before;
    assert!((2.0..3.0).contains(&risen), "{risen}");
}

#[test]
fn arrow_keys_step_half_a_degree_and_shift_five() {
    let mut harness = thermometer();
    harness.get_by_label(NAME).focus();
    harness.run();
    for (modifiers, key, expected) in [
        (Modifiers::NONE, Key::ArrowUp, 20.5),
        (Modifiers::NONE, Key::ArrowUp, 21.0),
        (Modifiers::NONE, Key::ArrowDown, 20.5),
        (Modifiers::SHIFT, Key::ArrowUp, 25.5),
        (Modifiers::NONE, Key::PageDown, 20.5),
        (Modifiers::NONE, Key::End, 45.0),
        (Modifiers::NONE, Key::ArrowUp, 45.0),
        (Modifiers::NONE, Key::Home, 5.0),
    ] {
        harness.key_press_modifiers(modifiers, key);
        harness.run();
        assert_eq!(*harness.state(), expected, "after {modifiers:?} {key:?}");
        assert!(harness.get_by_label(NAME).is_focused());
    }
}

#[test]
fn a_double_click_brings_room_temperature_back() {
    let mut harness = thermometer();
    harness.get_by_label(NAME).click();
    harness.run();
    assert_ne!(*harness.state(), 20.0);
    harness.run_steps(20);
    harness.get_by_label(NAME).click();
    harness.get_by_label(NAME).click();
    harness.run();
    assert_eq!(*harness.state(), 20.0);
}

#[test]
fn an_assistive_technology_can_read_and_set_it() {
    let mut harness = thermometer();
    harness.get_by_label(NAME).increment_accesskit();
    harness.run();
    assert_eq!(*harness.state(), 20.5);
    harness.get_by_label(NAME).set_value_accesskit(90.0);
    harness.run();
    assert_eq!(*harness.state(), 45.0);
    assert_eq!(harness.get_by_label(NAME).value().as_deref(), Some("45.0 °C"));
    assert_eq!(harness.get_by_label(NAME).accesskit_node().data().role(), egui::accesskit::Role::Slider);
}

#[test]
fn it_stands_without_any_limit() {
    let marks = ThermometerMarks { window_c: Some([30.0, 20.0]), form_v_c: Some(f64::NAN), ..Default::default() };
    let mut harness = harness([120.0, 300.0], Theme::Dark, (), move |ui, ()| {
        Thermometer::new(Id::unique(NAME), NAME, 20.0, "20.0", &marks).ui(ui);
    });
    harness.run();
    harness.get_by_label(NAME);
}
