//! Proof and rescue, shown where they are needed: how a test strip is read, what helps a split emulsion.

use egui::{Label, RichText, TextWrapMode, Ui};

use crate::analysis::cooling::growth::System;
use crate::analysis::plan::rescue::{SplitSign, TestStrip};
use crate::recipe::SeedingWay;
use crate::report::words::rescue;
use crate::ui::theme::{self, space};
use crate::ui::widgets::{focus_ring, stop_label};

/// How a test strip is made and read, and what to do in each case.
pub(super) fn test_strip_ui(ui: &mut Ui, way: SeedingWay, system: System) {
    quiet_ui(ui, &rescue::how_to_test(system));
    for strip in TestStrip::ALL {
        let words = rescue::test_strip(strip, way, system);
        entry_ui(ui, words.looks, &[words.means, words.remedy]);
    }
}

/// How a split ganache shows itself, and what to do.
pub(super) fn split_ui(ui: &mut Ui) {
    quiet_ui(ui, rescue::REMEDIES_FROM);
    for sign in SplitSign::ALL {
        let (sign, remedy) = rescue::split(sign);
        entry_ui(ui, sign, &[&remedy]);
    }
}

/// A sign, and what to do; a stop for the Tab key, so that it scrolls into sight and is read out.
fn entry_ui(ui: &mut Ui, sign: &str, words: &[&str]) {
    ui.add_space(space::TIGHT);
    let head = stop_label(ui, theme::strong(sign));
    focus_ring(ui, &head, head.rect, space::FIELD_RADIUS);
    ui.add(Label::new(RichText::new(words.join(" ")).font(theme::body())).wrap_mode(TextWrapMode::Wrap));
}

/// A quiet paragraph.
pub(super) fn quiet_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, words)).wrap_mode(TextWrapMode::Wrap));
}
