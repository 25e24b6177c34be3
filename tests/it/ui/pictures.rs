//! A few pictures of the window, so that a change of its look is looked at before it counts.
//!
//! The references lie in `tests/snapshots/`; `UPDATE_SNAPSHOTS=true cargo test --test it pictures` draws them anew.
//! They need a graphics adapter, of software where there is no other (Debian: `mesa-vulkan-drivers`).

use std::io::Write;

use egui::{Key, Theme};
use egui_kittest::wgpu::WgpuTestRenderer;
use egui_kittest::{SnapshotOptions, SnapshotResults};

use super::*;

/// How much a pixel may differ, as the comparison measures colours: rounding of another driver, nothing that is seen.
const TOLERANCE: f32 = 0.6;

/// Seconds after which words at the lower edge have gone and the copy of unsaved work is written.
const SETTLED: f32 = 6.0;

/// A window that is going to be drawn.
fn picture() -> Opening {
    Opening { step: 0.25, ..Opening::new() }
}

/// Draws the window as it stands, at rest and without a pointer.
fn draw(results: &mut SnapshotResults, name: &str, mut window: Window) {
    window.remove_cursor();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few dozen frames")]
    window.run_steps((SETTLED / 0.25) as usize);
    window.run();
    let options = SnapshotOptions::new().threshold(TOLERANCE);
    results.add(window.try_snapshot_options(name, &options));
}

/// Changes the cream of a pinned recipe, so that both states are seen.
fn pin_and_change(window: &mut Window) {
    window.press_with(CTRL, Key::P);
    window.type_amount(CREAM, "240");
    window.press(Key::Enter);
    window.press(Key::Escape);
}

#[test]
fn pictures() {
    if std::panic::catch_unwind(WgpuTestRenderer::new).is_err() {
        let reason = "there is no graphics adapter, not even one of software";
        assert!(std::env::var("CI").as_deref() != Ok("true"), "pictures cannot be drawn: {reason}");
        // Not `eprintln!`: what a test that passes prints in that way is not shown.
        let _ = writeln!(std::io::stderr(), "pictures are not compared: {reason}");
        return;
    }
    let mut results = SnapshotResults::new();
    for (name, reading) in [
        ("make-up", Key::Num1),
        ("emulsion", Key::Num2),
        ("water", Key::Num3),
        ("fat-crystals", Key::Num4),
        ("setting", Key::Num5),
    ] {
        let mut window = picture().open();
        window.show(reading);
        draw(&mut results, name, window);
    }

    // Tall enough for the seeding plan with one of its steps open.
    let mut window = Opening { size: [1280.0, 1900.0], ..picture() }.open();
    window.show(Key::Num4);
    window.click("3  Cool to the window: 25.8 to 29.6 °C, best 27.8 · 30 to 60 min");
    draw(&mut results, "seeding-plan", window);

    let mut window = Opening { theme: Theme::Dark, ..picture() }.open();
    window.show(Key::Num4);
    draw(&mut results, "dark", window);

    let mut window = Opening { pixels_per_point: 2.0, size: [1180.0, 660.0], ..picture() }.open();
    window.show(Key::Num2);
    draw(&mut results, "two-pixels-per-point", window);

    let mut window = picture().open();
    window.press_with(CTRL, Key::D);
    for (field, text) in [
        ("how much finished mass", "12 kg"),
        ("further losses, %", "4"),
        ("what a bowl holds", "8 kg"),
        ("step of the scale", "5 g"),
        ("seed that is ready", "100 g"),
    ] {
        window.type_into(field, text);
    }
    window.get_by_label("Close").focus();
    draw(&mut results, "what-to-weigh", window);

    let mut window = picture().open();
    window.click("Milk ganache, passion fruit");
    window.settle();
    draw(&mut results, "temperatures", window);

    let mut window = picture().open();
    pin_and_change(&mut window);
    draw(&mut results, "pinned", window);

    let mut window = Opening { theme: Theme::Dark, ..picture() }.open();
    window.press_with(CTRL_SHIFT, Key::E);
    window.type_text("dark 70");
    window.press(Key::Enter);
    window.settle();
    draw(&mut results, "exchange", window);

    // Without the shelf, which shows the name of a folder that is another one each time.
    let mut window = Opening { size: [1080.0, 1300.0], step: 0.25, ..targets::keeping_longer_opening() }.open();
    window.press_with(CTRL, Key::B);
    targets::ask_to_keep_longer(&mut window);
    draw(&mut results, "targets", window);

    let mut window = Opening { size: [2560.0, 1440.0], ..picture() }.open();
    pin_and_change(&mut window);
    draw(&mut results, "side-by-side", window);
}
