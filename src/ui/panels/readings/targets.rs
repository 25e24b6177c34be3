//! The reading Targets: what a recipe has to do, the nearest amounts that do it, and why.
//!
//! It is there only while a recipe is reformulated. What is asked is view state ([`crate::ui::targets`]); the answer comes
//! from a worker, and the last one stays in sight until the next is there.
//!
//! What is asked scrolls, with the amounts under it; the verdict stands under all of it at the lower edge, always in sight. It
//! grows upwards and the amounts keep their room, so that nothing that can be clicked moves because an answer comes.

mod answer;
mod asked;
mod limits;
mod verdict;

use egui::{Label, Rect, RichText, TextWrapMode, Ui, UiBuilder, WidgetInfo, accesskit::Role};

use crate::number::{DecimalSign, typed};
use crate::ui::panels::field::number_with_unit;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::{NumberCell, NumberEvent};
use crate::ui::widgets::{Explanation, explain_at_rest, quiet_button};

/// Between what scrolls and the verdict, and under it.
const AROUND_VERDICT: f32 = space::NEAR;
/// Beside the verdict, as beside what scrolls: the bar.
const BESIDE: f32 = 6.0;

pub(super) fn targets_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    // Taken out while it is drawn: its parts change it, and read the rest of the view.
    let Some(mut targets) = view.targets.take() else { return };
    asked::asked_ui(ui, scene, &mut targets, view);
    answer::amounts_ui(ui, scene, &targets, view);
    limits::limits_ui(ui, scene, &mut targets, view.sign);
    answer::effects_ui(ui, scene, &mut targets, view);
    if !targets.shows_amounts() {
        let words = "Ask for something that does not hold yet: the amounts before and after come in above, and here what a \
                     little more of each line would do.";
        ui.add_space(space::NEAR);
        ui.add(Label::new(theme::caption(ui, words)).wrap_mode(TextWrapMode::Wrap));
    }
    view.targets = Some(targets);
}

/// What is left of the column above the verdict.
pub(super) fn above_verdict(column: Rect, view: &View) -> Rect {
    let height = view.targets.as_ref().map_or(0.0, |targets| targets.verdict.height);
    column.with_max_y((column.bottom() - height - 2.0 * AROUND_VERDICT).max(column.top()))
}

/// What has to be left free under what scrolls, so that it stays where it is when the verdict gets lower.
pub(super) fn room_for_verdict(view: &View) -> f32 {
    view.targets.as_ref().map_or(0.0, |targets| targets.verdict.tallest - targets.verdict.height)
}

/// The verdict at the lower edge of the column.
pub(super) fn verdict_ui(ui: &mut Ui, column: Rect, view: &mut View, actions: &mut Vec<Action>) {
    /// The most that its words take of the column; more scrolls.
    const MOST: f32 = 0.36;
    /// In a low column, as on a projector, this stays for its buttons and for what is asked; but a few lines are always read.
    const FOR_THE_REST: f32 = 240.0;
    const LEAST: f32 = 44.0;
    let Some(targets) = &mut view.targets else { return };
    let before = targets.verdict.height;
    let mut place = column.with_max_y(column.bottom() - AROUND_VERDICT);
    place.min.y = (place.bottom() - before).max(column.top());
    // From there it may be as high as it needs at once: in the room of before it would grow bit by bit, frame after frame.
    place.max.y = place.top() + column.height();
    place.max.x -= BESIDE;
    let mut verdict = ui.new_child(UiBuilder::new().max_rect(place));
    let most = (MOST * column.height()).min(column.height() - FOR_THE_REST).max(LEAST);
    verdict::verdict_ui(&mut verdict, targets, most, view.sign, actions);
    let height = verdict.min_rect().height();
    if (height - before).abs() > 0.5 {
        targets.verdict.height = height;
        targets.verdict.tallest = targets.verdict.tallest.max(height);
        ui.ctx().request_discard("the verdict has another height");
        // Where this frame was drawn anew already.
        ui.ctx().request_repaint();
    }
}

/// What was typed into a cell and is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Typed {
    /// Nothing yet.
    Nothing,
    /// The number was taken away.
    Emptied,
    /// This number.
    Number(f64),
}

/// Whether a cell may be left empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Empty {
    IsRefused,
    IsMeant,
}

impl Typed {
    fn number(self) -> Option<f64> {
        if let Self::Number(number) = self { Some(number) } else { None }
    }
}

/// A cell for a number of this reading, which may be empty where that means something; gives it once it is meant.
///
/// Not while it is typed: on the way to "0.85" stands "0", which contradicts everything.
fn number_ui(
    ui: &mut Ui,
    (id, name, width): (egui::Id, &str, f32),
    (now, empty, sign): (Option<f64>, Empty, DecimalSign),
    (units, check): (&[&str], &dyn Fn(f64) -> Result<(), String>),
    explanation: impl FnOnce() -> Explanation,
) -> Typed {
    let shown = now.map_or_else(String::new, |now| typed(now, sign));
    let parse = |text: &str| {
        if text.trim().is_empty() && empty == Empty::IsMeant {
            return Ok(Typed::Emptied);
        }
        let number = number_with_unit(text, units)?;
        check(number)?;
        Ok(Typed::Number(number))
    };
    let output = NumberCell::new(id, name, &shown, &parse).width(width).framed().forgetting().ui(ui);
    explain_at_rest(&output.response, explanation);
    match output.event {
        NumberEvent::Committed(typed) => typed,
        NumberEvent::Nothing | NumberEvent::Typing(_) | NumberEvent::Cancelled => Typed::Nothing,
    }
}

/// A cross that takes a row out.
fn remove_ui(ui: &mut Ui, what: &str) -> bool {
    let response = quiet_button(ui, RichText::new("×").font(theme::body()).color(Palette::of(ui).quiet));
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("remove {what}")));
    response.on_hover_text(format!("Remove {what}")).clicked()
}

/// A word in the colour of what can be done.
fn action_ui(ui: &mut Ui, words: &str) -> egui::Response {
    quiet_button(ui, RichText::new(words).color(Palette::of(ui).accent))
}
