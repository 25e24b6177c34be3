//! The reading Water: what it shows of a ganache, of a caramel, of a dry mass, and that it follows what is typed.

use egui::Key;
use nibwright::analysis::reading::Reading;

use super::*;

#[test]
fn a_ganache_has_its_figures_and_they_follow_what_is_typed() {
    let mut window = first_start();
    window.show(Key::Num3);
    assert!(window.figure("water activity, 20 °C").starts_with("0.87 ±0.03"), "{:?}", window.texts());
    for words in [
        "0.87 at 19.9 % water",
        "water activity against water content",
        "cream: +0.0062",
        "0.86 Staphylococcus aureus, growth to 0.83 reported: can grow",
        "US Food Code, handled open (table B): to be assessed",
        "Listeria, Regulation (EC) 2073/2005: held unable to grow",
        "No date follows",
        "Norrish, mixture: 0.874",
    ] {
        let is_there = |text: &String| text.to_lowercase().contains(&words.to_lowercase());
        assert!(window.texts().iter().any(is_there), "{words}: {:#?}", window.texts());
    }
    window.type_amount(CREAM, "240");
    assert!(window.figure("water activity, 20 °C").starts_with("0.90"), "in the frame in which it is typed");
    assert!(window.has_text("Listeria, Regulation (EC) 2073/2005: can grow"));
    window.press(Key::Escape);
    assert!(window.figure("water activity, 20 °C").starts_with("0.87"));
}

#[test]
fn a_finding_about_water_leads_to_its_reading() {
    let mut window = first_start();
    window.get_by_label_contains("show: Water activity").click();
    window.run();
    assert_eq!(window.state().view().reading, Reading::Water);
}

#[test]
fn a_caramel_says_what_it_is_clear_and_grained() {
    let mut window = with_copy_of("caramel-with-salted-butter.ron");
    window.show(Key::Num3);
    assert!(window.has_text("cooked clear and not grained it is "), "{:#?}", window.texts());
    assert!(window.texts().iter().any(|text| text.starts_with("Cooked clear, it ")), "{:#?}", window.texts());
    assert!(window.has_text("firm ball: 118 to 121 °C, 86 to 88 % sucrose"));
    assert!(window.has_text("cocoa butter: 0.0000"), "fat takes no part");
}

#[test]
fn a_dry_mass_says_why_there_is_no_figure() {
    let mut window = with_copy_of("school-bar-66.ron");
    window.show(Key::Num3);
    assert!(window.has_text("water activity, 20 °C under 0.5"));
    assert!(window.has_text("solids and sugars hold the little water"));
    window.press_with(CTRL, Key::N);
    assert!(window.has_text("Nothing is weighed in yet"));
}

#[test]
fn pointing_at_what_holds_water_lights_up_the_lines_that_bring_it() {
    let mut window = first_start();
    window.show(Key::Num3);
    window.get_by_label_contains("cocoa solids: 24.7 g").hover();
    window.run_steps(4);
    let view = window.state().view();
    let cocoa = nibwright::analysis::water::state::Holder::Solids(nibwright::analysis::water::sorption::Sorbent::Cocoa);
    assert_eq!(view.pointed, Some(nibwright::ui::view::Pointed::Holder(cocoa)));
    let recipe = window.recipe().clone();
    let analysis = nibwright::analysis::analyse(&recipe, nibwright::analysis::ROOM);
    let document = nibwright::document::Document { recipe };
    let scene = nibwright::ui::view::Scene {
        document: &document,
        analysis: &analysis,
        finding_words: &[],
        pin: None,
        costs: nibwright::ui::view::Costs::default(),
    };
    let lit: Vec<bool> = document.recipe.lines.iter().map(|line| view.is_line_lit(&scene, line.id)).collect();
    assert_eq!(lit, [true, false, false, false, false], "the couverture brings the cocoa");
}

#[test]
fn a_measured_ph_is_typed_into_the_card_and_the_tables_are_read_with_it() {
    let mut window = first_start();
    window.show(Key::Num3);
    assert!(window.has_text("US Food Code, handled open (table B): to be assessed"));
    assert!(window.has_text("US Food Code, pH not known: to be assessed"));
    window.type_into("measured pH of the mass", "4,1");
    assert!(window.has_text("US Food Code, handled open (table B): asks for no assessment"));
    window.press(Key::Enter);
    assert_eq!(window.recipe().ph.map(nibwright::recipe::Ph::value), Some(4.1));
    window.type_into("measured pH of the mass", "70");
    assert!(window.has_text("a pH of 70 does not occur in food"));
    window.press(Key::Escape);
    window.type_into("measured pH of the mass", "");
    window.press(Key::Enter);
    assert_eq!(window.recipe().ph, None, "emptied, it is not known again");
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().ph.map(nibwright::recipe::Ph::value), Some(4.1));
}
