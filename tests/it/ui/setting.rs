//! The reading Setting: in which form and where, and what follows from it.

use egui::Key;
use nibwright::recipe::{Air, Base, Kind, Piece, SeedingWay, Setting};

use super::*;

fn setting_of(window: &Window) -> Setting {
    window.recipe().setting.expect("it says how it sets")
}

fn choose(window: &mut Window, menu: &str, word: &str) {
    window.get_by_label(menu).click();
    window.run();
    // The shelf behind the menu may have the same words.
    let entry = window.get_all_by_label(word).last().expect("it is in the menu");
    entry.click();
    window.run();
}

#[test]
fn a_thicker_slab_takes_longer_in_the_frame_in_which_it_is_typed() {
    let mut window = first_start();
    window.show(Key::Num5);
    assert!(window.figure("until cutting").starts_with("3 h 40 min 1 h 50 min to 7 h"), "{:?}", window.texts());
    for words in ["set after 3 h 40 min", "unseeded: 12 to 24 h, not reliably", "begins to cool at: 27.8 °C"] {
        assert!(window.has_text(words), "{words}: {:#?}", window.texts());
    }
    window.type_into("thick, millimetres", "20");
    assert!(
        window.figure("until cutting").starts_with("6 h 2 h 50 min to 11 h"),
        "{:?}",
        window.figure("until cutting")
    );
    window.press(Key::Escape);
    assert!(window.figure("until cutting").starts_with("3 h 40 min"));
    window.type_into("thick, millimetres", "900");
    assert!(window.has_text("no piece measures 900 mm; give a length from 0.5 to 300 mm"));
    window.press(Key::Escape);
}

#[test]
fn form_air_and_temperatures_are_chosen_and_taken_back() {
    let mut window = first_start();
    window.show(Key::Num5);
    choose(&mut window, "slab in a frame", "half-sphere in a mould");
    assert!(matches!(setting_of(&window).piece, Piece::HalfSphere { diameter } if diameter.millimetres() == 28.0));
    choose(&mut window, "still air", "fan or ventilated cabinet");
    assert_eq!(setting_of(&window).air, Air::Fan);
    window.type_into("temperature around it, degrees Celsius", "14,5");
    window.press(Key::Enter);
    assert_eq!(setting_of(&window).surroundings.celsius().0, 14.5);
    window.type_into("temperature at the start, degrees Celsius", "29");
    window.press(Key::Enter);
    assert_eq!(setting_of(&window).start.map(|start| start.celsius().0), Some(29.0));
    window.type_into("temperature at the start, degrees Celsius", "");
    window.press(Key::Enter);
    assert_eq!(setting_of(&window).start, None, "emptied, it is the recommended one again");
    choose(&mut window, "half-sphere in a mould", "not said");
    assert_eq!(window.recipe().setting, None);
    assert!(window.query_by_label("until cutting").is_none());
    window.get_by_label("+  say how it sets").click();
    window.run();
    assert!(matches!(setting_of(&window).piece, Piece::Frame { base: Base::Board, .. }));
    for _ in 0..7 {
        window.press_with(CTRL, Key::Z);
    }
    assert!(window.state().is_saved(), "all of it was taken back");
}

#[test]
fn where_no_time_is_told_a_sentence_says_why() {
    let mut window = first_start();
    window.show(Key::Num5);
    window.type_into("temperature around it, degrees Celsius", "28");
    window.press(Key::Enter);
    assert!(window.has_text("until cutting not told"));
    assert!(window.has_text("No setting time: at 28 °C around it crystals of form V hardly grow"));
    window.type_into("temperature around it, degrees Celsius", "2");
    window.press(Key::Enter);
    assert!(window.has_text("No setting time: at 2 °C around it unstable forms grow"), "{:#?}", window.texts());
}

#[test]
fn an_empty_field_says_what_to_type() {
    let mut window = first_start();
    window.show(Key::Num5);
    window.type_into("thick, millimetres", "");
    assert!(window.has_text("type a length in millimetres, such as 10 or 10 mm"), "{:#?}", window.texts());
    window.press(Key::Escape);
    window.type_into("temperature around it, degrees Celsius", "");
    assert!(window.has_text("type a temperature in degrees Celsius, such as 18"), "{:#?}", window.texts());
}

/// From the refrigerator into the room: it warms, and no row says that it cools.
#[test]
fn what_starts_colder_than_the_air_warms() {
    let mut window = first_start();
    window.show(Key::Num5);
    window.type_into("temperature at the start, degrees Celsius", "10");
    window.press(Key::Enter);
    assert!(window.has_text("begins to warm at: 10.0 °C"), "{:#?}", window.texts());
    assert!(window.has_text("until warm") && !window.has_text("begins to cool"));
}

/// The habit of 12 to 24 hours is no promise to a piece that cools for days.
#[test]
fn a_very_thick_piece_sets_no_sooner_unseeded() {
    let mut window = first_start();
    window.show(Key::Num5);
    window.type_into("thick, millimetres", "300");
    window.press(Key::Enter);
    assert!(window.has_text("unseeded: no sooner, not reliably"), "{:#?}", window.texts());
}

#[test]
fn the_bench_follows_the_thermometer_and_the_pin_stays_beside_it() {
    let mut window = first_start();
    window.show(Key::Num5);
    assert!(window.has_text("the bowl held at 20.0 °C: about "));
    window.press_with(CTRL, Key::P);
    window.type_into("thick, millimetres", "20");
    window.press(Key::Enter);
    assert!(window.figure("until cutting").contains("pinned 3 h 40 min"), "{:?}", window.figure("until cutting"));
    window.press_with(CTRL, Key::ArrowUp);
    assert!(window.has_text("the bowl held at 20.5 °C: about "), "{:#?}", window.texts());
}

#[test]
fn the_bench_says_why_it_tells_no_time_and_what_to_do() {
    let by = |way, kind| {
        let mut mass = first_start().recipe().clone();
        (mass.seeding.way, mass.kind) = (way, kind);
        let mut window = Opening { size: [1280.0, 2400.0], ..Opening::of_recipe(&mass) }.open();
        window.show(Key::Num5);
        window
    };
    let chopped = by(SeedingWay::ChoppedChocolate, Kind::Ganache);
    assert!(chopped.has_text("the bowl held at 20.0 °C: no time is told"), "{:#?}", chopped.texts());
    assert!(chopped.has_text("off the pieces is not known; a test strip tells."));
    let kept = by(SeedingWay::KeepTempered, Kind::Ganache);
    assert!(kept.has_text("the bowl held at 20.0 °C: too thick there"), "{:#?}", kept.texts());
    assert!(kept.has_text("warm it by tenths towards 29.6 °C."), "{:#?}", kept.texts());
    let caramel = by(SeedingWay::Cream, Kind::Caramel);
    assert!(caramel.has_text("a caramel thickens by its sugar as it cools."), "{:#?}", caramel.texts());
}

#[test]
fn a_shell_is_chosen_and_says_what_oil_does() {
    // Tall enough for all cards: a click reaches only what is in sight.
    let mut window = Opening { size: [1280.0, 2400.0], ..Opening::new() }.open();
    window.show(Key::Num5);
    choose(&mut window, "no shell", "Dark couverture, 70 % cocoa");
    let shell = window.recipe().storage.shell.clone().expect("there is a shell");
    assert_eq!((shell.chocolate.id.as_str(), shell.thickness.millimetres()), ("couverture-dark-70", 2.0));
    for words in
        ["liquid fat of filling and shell: ", "Oil moves from the filling into the shell", "oil half-way through: "]
    {
        assert!(window.has_text(words), "{words}: {:#?}", window.texts());
    }
    window.type_into("thickness of the shell, millimetres", "4");
    window.press(Key::Enter);
    assert_eq!(window.recipe().storage.shell.as_ref().map(|shell| shell.thickness.millimetres()), Some(4.0));
    window.type_into("temperature of the store, degrees Celsius", "5");
    window.press(Key::Enter);
    assert!(window.has_text("let them warm up in their closed box"));
    window.type_into("humidity of the room, percent", "20");
    window.press(Key::Enter);
    assert!(window.has_text("pieces stay dry"));
}

/// Where it stands under another reading and out of sight, nothing of it is drawn until the keyboard or the eye comes to it.
#[test]
fn out_of_sight_it_is_reached_with_the_keyboard() {
    let mut window = Opening { size: [2560.0, 1440.0], ..Opening::new() }.open();
    window.run();
    assert!(window.query_by_label("thick, millimetres").is_none(), "it stands below the edge of the window");
    window.get_by_label("Setting").focus();
    window.run();
    window.press(Key::Tab);
    let focused = window.get_by_label("slab in a frame");
    assert!(focused.is_focused(), "Tab goes from its head to its first field");
    window.press_with(CTRL, Key::Num5);
    assert!(window.figure("until cutting").starts_with("3 h 40 min"));
}
