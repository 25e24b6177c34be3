//! The reading Targets: what a recipe has to do, the nearest amounts that do it, and why.
//!
//! It is there only while a recipe is reformulated. What is asked is view state ([`crate::ui::targets`]); the answer comes
//! from a worker, and the last one stays in sight until the next is there.

mod answer;
mod asked;
mod limits;

use egui::{RichText, Ui, WidgetInfo, accesskit::Role};

use crate::number::{DecimalSign, typed};
use crate::ui::panels::field::number_with_unit;
use crate::ui::theme::{self, Palette};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::{NumberCell, NumberEvent};
use crate::ui::widgets::{Explanation, explain_at_rest, quiet_button};

pub(super) fn targets_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    // Taken out while it is drawn: its parts change it, and read the rest of the view.
    let Some(mut targets) = view.targets.take() else { return };
    answer::outcome_ui(ui, &mut targets, view.sign, actions);
    asked::asked_ui(ui, scene, &mut targets, view);
    answer::amounts_ui(ui, scene, &targets, view);
    answer::notes_ui(ui, &targets, view.sign);
    limits::limits_ui(ui, scene, &mut targets, view.sign);
    answer::effects_ui(ui, scene, &mut targets, view);
    view.targets = Some(targets);
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
    units: &[&str],
    explanation: impl FnOnce() -> Explanation,
) -> Typed {
    let shown = now.map_or_else(String::new, |now| typed(now, sign));
    let parse = |text: &str| {
        if text.trim().is_empty() && empty == Empty::IsMeant {
            return Ok(Typed::Emptied);
        }
        number_with_unit(text, units).map(Typed::Number)
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
