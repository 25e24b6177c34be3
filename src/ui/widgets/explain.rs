//! The answer to "what is this": what every number says when it is pointed at.

use std::borrow::Cow;

use egui::{Context, Event, Frame, Id, Label, Margin, Response, RichText, Sense, TextWrapMode, Tooltip, Ui};

use super::text;
use crate::ui::theme::{self, space};

/// All that a person needs to judge a number. No part of it can be left out.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// Its name.
    pub title: Cow<'static, str>,
    /// What it is and why it matters.
    pub what: Cow<'static, str>,
    /// How it is computed, in words.
    pub formula: Cow<'static, str>,
    /// Where that holds, and the range that is usual.
    pub range: Cow<'static, str>,
    /// Who says so.
    pub source: Cow<'static, str>,
    /// Measured, label, table, estimate; which inputs are class values.
    pub evidence: Cow<'static, str>,
    /// How far off it can be, and what would narrow it.
    pub uncertainty: Cow<'static, str>,
}

impl Explanation {
    /// Its parts with the heads over them.
    #[must_use]
    pub fn parts(&self) -> [(&'static str, &str); 5] {
        [
            (text::FORMULA, &self.formula),
            (text::RANGE, &self.range),
            (text::SOURCE, &self.source),
            (text::EVIDENCE, &self.evidence),
            (text::UNCERTAINTY, &self.uncertainty),
        ]
    }

    /// Draws the explanation as it stands in a hover panel or a side pane.
    pub fn ui(&self, ui: &mut Ui) {
        Frame::new().inner_margin(Margin::symmetric(6, 4)).show(ui, |ui| {
            ui.set_max_width(space::EXPLANATION_WIDTH);
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.label(theme::strong(self.title.as_ref()));
            ui.label(self.what.as_ref());
            for (head, words) in self.parts() {
                ui.add_space(space::NEAR - 2.0);
                ui.label(theme::caption(ui, head));
                ui.label(words);
            }
        });
    }
}

/// Shows an explanation while the thing is pointed at; it is made only then.
///
/// A key puts it away until the pointer moves again: who works by keys has the pointer somewhere.
pub fn explain(response: &Response, explanation: impl FnOnce() -> Explanation) {
    if is_working_by_keys(&response.ctx) {
        return;
    }
    Tooltip::for_enabled(response).width(space::EXPLANATION_WIDTH).show(|ui| explanation().ui(ui));
}

fn last_key() -> Id {
    Id::unique("time of the last key")
}

/// Remembers when a key was pressed; once in every frame.
pub fn note_keys(ctx: &Context) {
    let is_key = |event: &Event| matches!(event, Event::Text(_) | Event::Key { pressed: true, .. });
    let (time, is_pressed) = ctx.input(|input| (input.time, input.events.iter().any(is_key)));
    if is_pressed {
        ctx.data_mut(|data| data.insert_temp(last_key(), time));
    }
}

fn is_working_by_keys(ctx: &Context) -> bool {
    let Some(key) = ctx.data(|data| data.get_temp::<f64>(last_key())) else { return false };
    let (time, since) = ctx.input(|input| (input.time, f64::from(input.pointer.time_since_last_movement())));
    time - since <= key
}

/// Shows the explanation of a field while it is pointed at and nothing is being typed into it.
pub fn explain_at_rest(response: &Response, explanation: impl FnOnce() -> Explanation) {
    if !response.has_focus() {
        explain(response, explanation);
    }
}

/// A number of one line that can be pointed at, also inside a row that can be clicked.
///
/// The toolkit shows hover text only of what lies on top; a label that takes clicks does. It is no stop for the Tab
/// key.
pub fn number_label(ui: &mut Ui, words: RichText) -> Response {
    ui.add(Label::new(words).wrap_mode(TextWrapMode::Truncate).show_tooltip_when_elided(false).sense(Sense::CLICK))
}
