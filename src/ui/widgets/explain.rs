//! The answer to "what is this": what every number says when it is pointed at or has the keyboard.

use std::borrow::Cow;

use egui::{
    Context, Event, Frame, Id, Label, Margin, Response, RichText, Sense, TextWrapMode, Tooltip, Ui, WidgetText, vec2,
};

use super::{paint, text};
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

/// Shows an explanation while the thing is pointed at or has the keyboard; it is made only then.
///
/// A key puts away what the pointer is on until that moves again, and a movement of the pointer what the keyboard is
/// on: there is one explanation at a time, of what is worked with.
pub fn explain(response: &Response, explanation: impl FnOnce() -> Explanation) {
    // Most figures of most frames: asking the toolkit further would cost more than drawing them.
    if !response.has_focus() && !response.contains_pointer() {
        return;
    }
    arrive(response);
    if is_working_by_keys(&response.ctx) {
        // What is scrolled out of sight is not explained.
        if response.has_focus() && response.interact_rect.is_positive() {
            show(Tooltip::for_widget(response), explanation);
        }
    } else {
        show(Tooltip::for_enabled(response), explanation);
    }
}

/// Shows the explanation of a field while it is pointed at and nothing is being typed into it; while it has the
/// keyboard, when it is asked for.
pub fn explain_at_rest(response: &Response, explanation: impl FnOnce() -> Explanation) {
    if is_asked_for(response) || !response.has_focus() {
        explain(response, explanation);
    }
}

/// Shows the explanation of what is moved by pointer and keys: of the latter when it is asked for.
pub fn explain_moved(response: &Response, explanation: impl FnOnce() -> Explanation) {
    if is_asked_for(response) || !is_attended_by_keys(response) {
        explain(response, explanation);
    }
}

fn show(tooltip: Tooltip<'_>, explanation: impl FnOnce() -> Explanation) {
    tooltip.width(space::EXPLANATION_WIDTH).show(|ui| explanation().ui(ui));
}

/// Brings what has just got the keyboard into sight; that counts as a key, however it got there.
pub fn arrive(response: &Response) {
    /// Room for the outline of what has the keyboard.
    const ROOM: f32 = 8.0;
    if !response.gained_focus() {
        return;
    }
    let mut reached = response.clone();
    reached.rect = response.rect.expand(ROOM);
    reached.scroll_to_me(None);
    let time = response.ctx.input(|input| input.time);
    response.ctx.data_mut(|data| data.insert_temp(last_key(), time));
}

/// Asks for the explanation of what has the keyboard, until the next key; answers whether there is such a thing.
pub fn ask_for_explanation(ctx: &Context) -> bool {
    let Some(focused) = ctx.memory(egui::Memory::focused) else { return false };
    ctx.data_mut(|data| data.insert_temp(asked_for(), focused));
    true
}

fn asked_for() -> Id {
    Id::unique("explanation that was asked for")
}

fn is_asked_for(response: &Response) -> bool {
    response.has_focus() && response.ctx.data(|data| data.get_temp(asked_for())) == Some(response.id)
}

fn last_key() -> Id {
    Id::unique("time of the last key")
}

/// Remembers when a key was pressed; once in every frame.
pub fn note_keys(ctx: &Context) {
    let is_key = |event: &Event| matches!(event, Event::Text(_) | Event::Key { pressed: true, .. });
    let (time, is_pressed) = ctx.input(|input| (input.time, input.events.iter().any(is_key)));
    if is_pressed {
        ctx.data_mut(|data| {
            data.insert_temp(last_key(), time);
            data.remove::<Id>(asked_for());
        });
    }
}

fn is_working_by_keys(ctx: &Context) -> bool {
    let Some(key) = ctx.data(|data| data.get_temp::<f64>(last_key())) else { return false };
    let (time, since) = ctx.input(|input| (input.time, f64::from(input.pointer.time_since_last_movement())));
    time - since <= key
}

/// Whether the thing has the keyboard, and that is what was used last.
#[must_use]
pub fn is_attended_by_keys(response: &Response) -> bool {
    response.has_focus() && is_working_by_keys(&response.ctx)
}

/// Whether the thing is pointed at, or attended to by keys instead.
#[must_use]
pub fn is_attended(response: &Response) -> bool {
    response.contains_pointer() || is_attended_by_keys(response)
}

/// A label that is a stop for the Tab key: what explains itself, or heads what the keys scroll.
pub fn stop_label(ui: &mut Ui, words: impl Into<WidgetText>) -> Response {
    let response = ui.add(Label::new(words).sense(Sense::focusable_noninteractive()));
    paint::focus_ring(ui, &response, response.rect.expand2(vec2(3.0, 1.0)), space::MARK_RADIUS);
    response
}

/// A number of one line that can be pointed at, also inside a row that can be clicked.
///
/// The toolkit shows hover text only of what lies on top; a label that takes clicks does. It is no stop for the Tab
/// key: the sum of its column is, and explains the same.
pub fn number_label(ui: &mut Ui, words: RichText) -> Response {
    ui.add(Label::new(words).wrap_mode(TextWrapMode::Truncate).show_tooltip_when_elided(false).sense(Sense::CLICK))
}
