//! Bars: pointing and words.

use egui::Theme;
use egui_kittest::{Harness, kittest::Queryable};
use nibwright::ui::widgets::SegmentBar;

use super::{WAIT, gallery, harness};

#[derive(Default)]
struct Seen {
    hovered: Option<usize>,
    rects: Vec<egui::Rect>,
}

fn bar() -> Harness<'static, Seen> {
    let segments = gallery::phases();
    harness([500.0, 200.0], Theme::Light, Seen::default(), move |ui, seen| {
        let output = SegmentBar::new("phases", &segments).ui(ui);
        (seen.hovered, seen.rects) = (output.hovered, output.rects);
    })
}

#[test]
fn the_segment_pointed_at_is_reported_and_explained() {
    let mut harness = bar();
    harness.run();
    assert_eq!(harness.state().hovered, None);
    let syrup = harness.state().rects[2].center();
    harness.hover_at(syrup);
    harness.run_steps(WAIT);
    assert_eq!(harness.state().hovered, Some(2));
    harness.get_by_label("water 20 %, sugars 26 %");
    harness.remove_cursor();
    harness.run();
    assert_eq!(harness.state().hovered, None);
}

#[test]
fn its_words_say_what_it_shows() {
    let harness = bar();
    let words = "phases: fat crystals 17 %, liquid fat 22 %, syrup 46 %, cocoa 14 %, other particles 1 %";
    harness.get_by_label(words);
}
