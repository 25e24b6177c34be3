//! An idle window costs nothing: whatever is shown, drawing ends and no further frame is asked for.

use egui::{Key, Theme, pos2};

use super::*;

/// Seconds after which words at the lower edge and copies of unsaved work are done with.
const SETTLED: f32 = 6.0;

/// Seconds from frame to frame: nothing here depends on being quick.
const SLOW: f32 = 0.25;

fn slow() -> Window {
    Opening { step: SLOW, ..Opening::new() }.open()
}

/// The window has come to rest: drawing ends, and after what is timed has passed no frame is asked for any more.
#[track_caller]
fn check_rest(window: &mut Window, what: &str) {
    let mut left = SETTLED;
    loop {
        if let Err(error) = window.try_run() {
            panic!("{what}: {error}");
        }
        let Some(delay) = window.next_frame() else { return };
        assert!(left > 0.0, "{what}: wakes again and again, next after {delay:?}");
        left -= SLOW;
    }
}

#[test]
fn every_reading_comes_to_rest() {
    let mut window = slow();
    for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4] {
        window.show(key);
        check_rest(&mut window, &format!("{key:?}"));
        window.press(Key::F2);
        check_rest(&mut window, &format!("{key:?} with a line chosen and the caret in its amount"));
        window.press_with(CTRL, Key::P);
        check_rest(&mut window, &format!("{key:?} with a pin"));
        window.hover_at(pos2(980.0, 300.0));
        check_rest(&mut window, &format!("{key:?} with the pointer on it"));
        window.get_by_label("Cream, 35 % fat, amount").hover();
        check_rest(&mut window, &format!("{key:?} with the pointer on a line"));
        window.remove_cursor();
        check_rest(&mut window, &format!("{key:?} without the pointer"));
        window.press_with(CTRL_SHIFT, Key::P);
        check_rest(&mut window, &format!("{key:?} without the pin"));
    }
}

#[test]
fn typing_and_unsaved_work_come_to_rest() {
    let mut window = slow();
    window.type_amount(CREAM, "240");
    check_rest(&mut window, "a number being typed");
    assert!(window.state().has_recovery_copy(), "the copy was written meanwhile");
    window.type_text("oo");
    check_rest(&mut window, "nonsense in a cell");
    window.press_with(CTRL, Key::F);
    window.type_text("dark");
    check_rest(&mut window, "the search");
    window.press_with(CTRL, Key::Delete);
    check_rest(&mut window, "after a word less");
    window.click("ganache");
    check_rest(&mut window, "an open menu");
}

#[test]
fn every_dialog_comes_to_rest() {
    let mut window = slow();
    for open in [
        |window: &mut Window| window.press(Key::F1),
        |window: &mut Window| window.press_with(CTRL, Key::K),
        |window: &mut Window| window.press_with(CTRL, Key::O),
        |window: &mut Window| window.press_with(CTRL, Key::S),
        |window: &mut Window| window.command("about"),
        |window: &mut Window| {
            window.click("West African");
            window.click("own analysis…");
        },
    ] {
        open(&mut window);
        check_rest(&mut window, "a dialog");
        window.press(Key::Escape);
    }
    window.type_amount(CREAM, "240");
    window.press_with(CTRL, Key::Q);
    check_rest(&mut window, "the question before leaving");
}

#[test]
fn a_hover_text_comes_to_rest() {
    let mut window = slow();
    window.show(Key::Num4);
    window.get_by_label_contains("form V limit 2").hover();
    window.run_steps(WAIT);
    assert!(window.has_text("The temperature at which the last form V crystal melts"));
    check_rest(&mut window, "a hover text");
}

#[test]
fn what_the_keyboard_is_on_comes_to_rest() {
    let mut window = slow();
    for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4] {
        window.show(key);
        window.press_with(CTRL, Key::R);
        for stop in 0..12 {
            window.press(Key::Tab);
            check_rest(&mut window, &format!("stop {stop} of {key:?}"));
        }
        window.press(Key::PageDown);
        check_rest(&mut window, "a page further");
        window.press_with(CTRL, Key::G);
        check_rest(&mut window, "a finding");
    }
}

#[test]
fn a_caret_does_not_blink() {
    let context = egui::Context::default();
    nibwright::ui::theme::install(&context);
    for theme in [Theme::Light, Theme::Dark] {
        assert!(!context.style_of(theme).visuals.text_cursor.blink);
    }
}

#[test]
fn a_toast_goes_by_itself() {
    let mut window = slow();
    window.press_with(CTRL, Key::P);
    assert!(window.has_text("Pinned: "));
    check_rest(&mut window, "a toast");
    assert!(!window.has_text("Pinned: "));
}
