//! The thermometer sets the temperature of everything that is shown; figures say what they are.

use egui::{Key, vec2};
use nibwright::analysis::analyse;
use nibwright::number::{DecimalSign, fixed};
use nibwright::units::Celsius;

use super::*;

/// What the reading must show, computed without the window.
fn solid_fat(window: &Window, celsius: f64) -> String {
    let fat = analyse(window.recipe(), Celsius(celsius)).fat.expect("there is fat");
    format!("{} %", fixed(fat.solid_at.total().to_percent(), 1, DecimalSign::Point))
}

/// The words of the phase bar.
fn phases(window: &Window) -> String {
    window.texts().into_iter().find(|text| text.starts_with("phases: ")).expect("the phase bar")
}

#[test]
fn keys_move_it_and_everything_follows() {
    let mut window = first_start();
    window.show(Key::Num4);
    assert!(window.figure("solid at 20.0 °C").starts_with(&solid_fat(&window, 20.0)));
    let cold = phases(&window);
    for _ in 0..8 {
        window.press_with(CTRL, Key::ArrowUp);
    }
    assert_eq!(window.state().view().at, Celsius(24.0));
    assert!(window.figure("solid at 24.0 °C").starts_with(&solid_fat(&window, 24.0)));
    assert_ne!(phases(&window), cold);
    assert!(window.has_text("at 24.0 °C, % of the mass"));
    window.press_with(CTRL, Key::ArrowDown);
    assert_eq!(window.state().view().at, Celsius(23.5));
    window.press_with(CTRL, Key::T);
    assert_eq!((window.state().view().at, phases(&window)), (Celsius(20.0), cold));
    assert!(window.state().is_saved(), "the temperature is no part of the recipe");
}

#[test]
fn it_stops_at_its_ends() {
    let mut window = first_start();
    window.get_by_label("thermometer").set_value_accesskit(44.0);
    for _ in 0..4 {
        window.press_with(CTRL, Key::ArrowUp);
    }
    assert_eq!(window.state().view().at, Celsius(45.0));
    assert!(phases(&window).contains("liquid fat") && !phases(&window).contains("fat crystals"), "{}", phases(&window));
    window.get_by_label("thermometer").set_value_accesskit(6.0);
    for _ in 0..4 {
        window.press_with(CTRL, Key::ArrowDown);
    }
    assert_eq!(window.state().view().at, Celsius(5.0));
}

#[test]
fn dragging_it_moves_the_phase_bar_and_the_solid_fat() {
    let mut window = first_start();
    window.show(Key::Num4);
    let cold = phases(&window);
    let strip = window.get_by_label("thermometer").rect();
    let from = strip.center() + vec2(0.0, 60.0);
    window.drag_at(from);
    window.run();
    for part in 1..=6_u8 {
        window.hover_at(from - vec2(0.0, 30.0 * f32::from(part)));
        window.run();
        let at = window.state().view().at;
        let shown = window.figure(&format!("solid at {} °C", fixed(at.0, 1, DecimalSign::Point)));
        assert!(shown.starts_with(&solid_fat(&window, at.0)), "{shown} at {at:?}");
    }
    window.drop_at(from - vec2(0.0, 180.0));
    window.run();
    assert!(window.state().view().at > Celsius(25.0));
    assert_ne!(phases(&window), cold);
}

#[test]
fn an_assistive_technology_reads_and_sets_it() {
    let mut window = first_start();
    window.get_by_label("thermometer").set_value_accesskit(31.0);
    window.run();
    assert_eq!(window.state().view().at, Celsius(31.0));
    assert_eq!(window.get_by_label("thermometer").value().as_deref(), Some("31.0 °C"));
}

#[test]
fn the_form_v_limit_says_what_it_is() {
    let mut window = first_start();
    window.show(Key::Num4);
    window.get_by_label_contains("form V limit 2").hover();
    window.run_steps(WAIT);
    for part in [
        // What it is and why it matters, how it is computed, where it holds, who says so, how well it is known.
        "The temperature at which the last form V crystal melts",
        "is just not stable in the molten fat",
        "Cocoa butter at least 10 % of the fat",
        "Wille and Lutton 1966",
        "Fitted for cocoa butter; blends are predicted, not measured",
        "one standard deviation",
    ] {
        assert!(window.has_text(part), "{part}");
    }
    window.remove_cursor();
    window.run_steps(WAIT);
    assert!(!window.has_text("Wille and Lutton 1966"));
}

#[test]
fn every_large_figure_says_what_it_is() {
    let mut window = first_start();
    for (reading, captions) in [
        (Key::Num1, ["cocoa butter", "milk fat", "sugars"]),
        (Key::Num2, ["dispersed share, hot", "fat to water, by mass", "fat in the mass"]),
        (Key::Num4, ["form V limit", "solid at 20.0 °C", "fat crystals"]),
    ] {
        window.show(reading);
        for caption in captions {
            let before = window.texts().len();
            let figure = window.query_all_by_label_contains(caption).find(|node| {
                node.value().is_some_and(|text| text.starts_with(caption) && text.contains(char::is_numeric))
            });
            figure.unwrap_or_else(|| panic!("{caption}")).hover();
            window.run_steps(WAIT);
            assert!(window.texts().len() > before + 2, "{caption} says nothing");
            window.remove_cursor();
            window.run_steps(WAIT);
        }
    }
}

#[test]
fn dragging_the_thermometer_says_whether_seed_lives_there() {
    let mut window = first_start();
    window.show(Key::Num4);
    assert!(window.has_text("put in at 20.0 °C: too cold: wrong crystals grow beside it, 9.8 K below the limit"));
    for _ in 0..16 {
        window.press_with(CTRL, Key::ArrowUp);
    }
    assert!(window.has_text("put in at 28.0 °C: it lives and grows, 1.8 K below the limit"), "{:?}", window.texts());
    for _ in 0..4 {
        window.press_with(CTRL, Key::ArrowUp);
    }
    let too_warm = "put in at 30.0 °C: it melts; only long-kept seed lasts, and nothing grows, 0.2 K above the limit; \
                    while the emulsion is fresh: it lives and grows";
    assert!(window.has_text(too_warm), "{:?}", window.texts());
}
