//! Dialogs have the keyboard to themselves and give it back.

use egui::{Key, Modifiers};
use nibwright::recipe::CocoaButter;

use super::*;

/// What the pointer rests on when a dialog opens would be explained over it.
#[test]
fn no_hover_text_stays_over_a_dialog() {
    let mut window = first_start();
    let words = "where will the mix end?";
    window.get_by_label("+  temperatures").hover();
    window.run_steps(WAIT);
    assert!(window.has_text(words), "{:?}", window.texts());
    window.press_with(CTRL, Key::D);
    window.run_steps(WAIT);
    assert!(window.has_text("What to weigh today") && !window.has_text(words));
}

#[test]
fn nothing_is_typed_behind_a_dialog() {
    let mut window = first_start();
    window.press(Key::F2);
    for key in [Key::F1, Key::K] {
        window.press_with(if key == Key::K { CTRL } else { Modifiers::NONE }, key);
        window.type_text("9");
        window.press(Key::ArrowUp);
        window.press_with(CTRL, Key::Delete);
        assert_eq!(window.amount(COUVERTURE), 400.0);
        assert_eq!(window.recipe().lines.len(), 5);
        window.press(Key::Escape);
        assert!(window.state().is_saved());
    }
}

#[test]
fn an_amount_that_is_being_typed_is_kept_when_a_dialog_opens() {
    let mut window = first_start();
    window.type_amount(CREAM, "240");
    window.press(Key::F1);
    window.press(Key::Escape);
    assert_eq!((window.amount(CREAM), window.cell(CREAM).as_str()), (240.0, "240"));
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.amount(CREAM), 200.0);
}

#[test]
fn a_command_that_cannot_be_run_says_why_and_the_search_stays() {
    let mut window = first_start();
    window.press_with(CTRL, Key::K);
    window.type_text("unpin");
    window.press(Key::Enter);
    assert!(window.has_text("Nothing is pinned"));
    // The keyboard is still in the search.
    window.press_with(CTRL, Key::A);
    window.type_text("pin this");
    window.press(Key::Enter);
    assert!(window.figure("cocoa butter").contains(" pinned "));
}

#[test]
fn arrows_choose_among_the_commands() {
    let mut window = first_start();
    window.press_with(CTRL, Key::K);
    window.type_text("colours");
    window.press(Key::ArrowDown);
    window.press(Key::ArrowDown);
    window.press(Key::Enter);
    assert!(window.query_by_label("Search commands").is_none(), "one of them was run");
    assert_eq!(window.ctx.theme(), egui::Theme::Dark);
}

#[test]
fn the_page_about_the_program_names_cautions_and_licences() {
    let mut window = first_start();
    window.command("about");
    assert!(window.has_text("They advise; they do not decide") && window.has_text("MIT licence"));
    assert!(window.has_text("version 4.0, CC BY 4.0.") && !window.has_text("CC BY 4.0 (CC BY 4.0)"));
    window.press(Key::Escape);
    assert!(!window.has_text("They advise; they do not decide"));
}

#[test]
fn an_own_analysis_of_the_cocoa_butter_is_taken() {
    let mut window = first_start();
    let before = {
        window.show(Key::Num4);
        window.figure("solid at 20.0 °C")
    };
    window.click("West African");
    window.click("own analysis…");
    assert!(window.get_by_label("POP").is_focused(), "typing replaces the first figure");
    window.type_text("x");
    assert_eq!(window.get_by_label("POP").value().as_deref(), Some("x"));
    assert!(window.has_text("POP: "), "what is wrong is said");
    let invalid = window.get_by_label("POP").accesskit_node().data().invalid();
    assert_eq!(invalid, Some(egui::accesskit::Invalid::True), "and where");
    assert!(window.get_by_label("Use it").accesskit_node().is_disabled());
    window.press_with(CTRL, Key::Enter);
    assert_eq!(window.recipe().cocoa_butter, CocoaButter::WestAfrican, "it is not taken as it is");
    window.get_by_label("POP").click();
    window.run();
    window.press_with(CTRL, Key::A);
    window.type_text("60,5");
    window.press_with(CTRL, Key::Enter);
    assert!(matches!(window.recipe().cocoa_butter, CocoaButter::Own(own) if own.triglycerides().pop == 60.5));
    assert_ne!(window.figure("solid at 20.0 °C"), before);
    window.press_with(CTRL, Key::Z);
    assert_eq!(window.recipe().cocoa_butter, CocoaButter::WestAfrican);
}

#[test]
fn an_analysis_that_was_typed_is_not_lost_by_a_click_or_a_close() {
    let mut window = Opening { decimal_sign: DecimalSign::Comma, ..Opening::new() }.open();
    window.click("West African");
    window.click("own analysis…");
    assert_eq!(window.get_by_label("POP").value().as_deref(), Some("14,8"), "in the sign of the user");
    window.get_by_label("POP").click();
    window.run();
    window.press_with(CTRL, Key::A);
    window.type_text("15,2");
    window.drag_at(egui::pos2(20.0, 780.0));
    window.drop_at(egui::pos2(20.0, 780.0));
    window.run();
    assert!(window.has_text("Own analysis of the cocoa butter"), "a click beside it");
    window.ask_to_close();
    window.run();
    assert!(window.has_text("Own analysis of the cocoa butter"), "the window is to be closed");
    assert!(window.has_text("The form holds figures that are not used yet"));
}

#[test]
fn kind_and_use_are_chosen_from_menus() {
    let mut window = first_start();
    window.click("cutting");
    window.click("whipping");
    assert_eq!(window.recipe().intended_use, Some(nibwright::recipe::Use::Whipped));
    window.click("ganache");
    window.click("mousse base");
    assert_eq!(window.recipe().kind, nibwright::recipe::Kind::MousseBase);
    window.press_with(CTRL, Key::Z);
    window.press_with(CTRL, Key::Z);
    assert!(window.state().is_saved());
}
