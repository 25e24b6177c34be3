//! The verdict: what came of what is asked, in sentences, what can be done with it, and what to know before it is made.
//!
//! It stands at the lower edge and grows upwards: its buttons keep their place whatever it has to say.

use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Align, Button, Checkbox, Label, Layout, RichText, ScrollArea, TextWrapMode, Ui, WidgetInfo, vec2};

use super::{action_ui, answer::is_good};
use crate::document::Memo;
use crate::number::DecimalSign;
use crate::reformulate::helpers::Helpers;
use crate::reformulate::{Answer, Impossible, Member, Move, Outcome, ProblemError};
use crate::report::words::reformulation::{ReformulationWords, helper_name, measured, sentence};
use crate::ui::command::Command;
use crate::ui::targets::{Awaited, Targets, Worked};
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::Action;
use crate::ui::widgets::{Card, accent_button, focus_ring, with_units};

/// How much of the answer before is seen while another one is looked for.
pub(super) const OF_BEFORE: f32 = 0.45;

/// The card at the lower edge; its words take no more than `most` of the height.
pub(super) fn verdict_ui(ui: &mut Ui, targets: &mut Targets, most: f32, sign: DecimalSign, actions: &mut Vec<Action>) {
    let worked = targets.worked.clone();
    Card::new().ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        let is_off = worked.as_ref().is_some_and(|worked| !is_good(worked));
        let title = title(targets, worked.as_deref());
        // Of another question the verdict before is none.
        let colour =
            if is_off && targets.awaited != Awaited::Answer { Palette::of(ui).caution } else { Palette::of(ui).text };
        ui.add(Label::new(theme::strong(title).color(colour)).wrap_mode(TextWrapMode::Wrap));
        if let Some(worked) = &worked {
            ui.scope(|ui| {
                if targets.awaited == Awaited::Answer {
                    ui.multiply_opacity(OF_BEFORE);
                }
                ScrollArea::vertical().id_salt("verdict").max_height(most).auto_shrink([false, true]).show(ui, |ui| {
                    told_ui(ui, targets, worked, sign);
                    notes_ui(ui, &mut targets.notes, worked, sign);
                });
            });
        }
        if targets.shows_amounts() {
            ui.add_space(space::TIGHT);
            buttons_ui(ui, targets, is_off, actions);
        }
        foot_ui(ui, targets, actions);
    });
}

fn title(targets: &Targets, worked: Option<&Worked>) -> String {
    let Some(worked) = worked else { return "Looking for the nearest recipe…".to_owned() };
    if targets.awaited == Awaited::Answer {
        return "Looking for another answer…".to_owned();
    }
    let words = match &worked.outcome {
        Ok(Outcome::Unchanged(_)) if targets.asked.targets.iter().all(|row| !row.is_on) => "Nothing is asked for yet",
        Ok(Outcome::Unchanged(_)) => "Everything that is asked for holds already",
        Ok(Outcome::Changed(_)) => "The nearest recipe that does it",
        Ok(Outcome::Impossible(why)) if why.is_by_scale => "The scale is too coarse for it",
        Ok(Outcome::Impossible(_)) => "It cannot be done as asked",
        Ok(Outcome::Stopped) => "No answer was found: the search came to no end",
        Err(_) => "This cannot be worked on",
    };
    if is_good(worked) { words.to_owned() } else { format!("!  {words}") }
}

/// The sentences under the title.
fn told_ui(ui: &mut Ui, targets: &mut Targets, worked: &Worked, sign: DecimalSign) {
    let words = ReformulationWords::new(&worked.problem, sign);
    match &worked.outcome {
        Ok(Outcome::Unchanged(_)) => {
            quiet_ui(ui, "Add a target above, or choose “make this a target” on a finding under the sheet.");
        }
        Ok(Outcome::Changed(answer)) => quiet_ui(ui, &in_short(answer, &words)),
        Ok(Outcome::Impossible(why)) => impossible_ui(ui, targets, worked, why, &words),
        Ok(Outcome::Stopped) => quiet_ui(ui, "Ask for less, or allow an ingredient in that makes it easier."),
        Err(error) => quiet_ui(ui, &problem_words(error, sign)),
    }
}

/// How much changes; the amounts stand above.
fn in_short(answer: &Answer, words: &ReformulationWords<'_>) -> String {
    let by = |moved: &Move| (moved.after.0 - moved.before.0).abs();
    let moved: Vec<&Move> = answer.moves.iter().filter(|moved| moved.before != moved.after).collect();
    let count = match moved.len() {
        1 => "1 amount changes".to_owned(),
        several => format!("{several} amounts change, most of all"),
    };
    match moved.iter().max_by(|left, right| by(left).total_cmp(&by(right))) {
        Some(most) => format!("{count}: {}.", words.moved(most)),
        None => "Nothing changes.".to_owned(),
    }
}

fn problem_words(error: &ProblemError, sign: DecimalSign) -> String {
    match error {
        ProblemError::NoFigure { of, .. } => format!(
            "This recipe has no figure for {}, or a part of it is not known: switch that target off, or see the findings.",
            measured(*of, sign)
        ),
        ProblemError::NothingWeighed => "The recipe weighs nothing yet: give the lines amounts.".to_owned(),
        error => sentence(&error.to_string()),
    }
}

/// Why it cannot be done, and for each of the things that contradict each other the way to give it up.
fn impossible_ui(
    ui: &mut Ui,
    targets: &mut Targets,
    worked: &Worked,
    why: &Impossible,
    words: &ReformulationWords<'_>,
) {
    let sentences = words.impossible(why);
    let ways = words.ways_out(why);
    let heads = sentences.len().saturating_sub(ways.iter().flatten().count());
    for sentence in sentences.iter().take(heads) {
        plain_ui(ui, sentence);
    }
    // Above what can be given up, which keeps its place when this gets longer: the card grows upwards.
    if targets.awaited == Awaited::Help {
        quiet_ui(ui, "Looking for what would help…");
    } else if let Some(next) = words.what_next(why) {
        plain_ui(ui, &next);
    }
    helpers_ui(ui, targets, worked, why);
    for (way, one) in ways.iter().zip(&why.conflict) {
        ui.horizontal_top(|ui| {
            ui.label(theme::quiet(ui, "·"));
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 0.0;
                match way {
                    Some(way) => quiet_ui(ui, way),
                    None => quiet_ui(ui, &sentence(&words.member(one.member))),
                }
                if matches!(one.member, Member::Lock(_)) {
                    ui.label(theme::caption(ui, "Locked in the sheet: unlock the line there to give way."));
                    return;
                }
                let name = format!("give this up: {}", words.member(one.member));
                // Of an answer to another question it cannot be given up; it keeps its place.
                let is_current = targets.is_current;
                ui.add_enabled_ui(is_current, |ui| {
                    let button = action_ui(ui, "give this up");
                    button.widget_info(|| WidgetInfo::labeled(Role::Button, is_current, &name));
                    if button.clicked() {
                        targets.asked.give_up(one.member, &worked.rows);
                    }
                });
            });
        });
    }
    if worked.document.is_some() {
        plain_ui(ui, "The amounts above come nearest.");
        // What is missed of the targets stands beside each of them.
        for limit in words.limits(&why.nearest).iter().filter(|limit| !limit.is_met()) {
            quiet_ui(ui, &format!("! {}", limit.text));
        }
    }
}

/// What would help, to be used at a click.
fn helpers_ui(ui: &mut Ui, targets: &mut Targets, worked: &Worked, why: &Impossible) {
    let named = why.helpers.as_ref().map(Helpers::named).unwrap_or_default();
    if named.is_empty() {
        return;
    }
    let is_current = targets.is_current;
    ui.horizontal_wrapped(|ui| {
        for helper in named {
            ui.add_enabled_ui(is_current, |ui| {
                let button = action_ui(ui, &format!("use {}", helper_name(&worked.problem, helper)));
                if button.on_hover_text("Let it be used besides; it then stands under “What may change”").clicked()
                {
                    targets.asked.allow(Arc::clone(&helper.ingredient));
                }
            });
        }
    });
}

/// What there is to know about the answer before it is made.
fn notes_ui(ui: &mut Ui, notes: &mut Memo<(u64, DecimalSign), Vec<String>>, worked: &Worked, sign: DecimalSign) {
    let Some(answer) = worked.answer().filter(|_| worked.document.is_some()) else { return };
    let notes = notes.get((worked.number, sign), || ReformulationWords::new(&worked.problem, sign).notes(answer));
    if notes.is_empty() {
        return;
    }
    ui.add_space(space::TIGHT);
    plain_ui(ui, "Before you make it:");
    for note in notes {
        quiet_ui(ui, note);
    }
}

/// What can be done with the answer; where there is none, the buttons wait in their place.
fn buttons_ui(ui: &mut Ui, targets: &Targets, is_off: bool, actions: &mut Vec<Action>) {
    /// Wide enough for both of its names: what stands beside it keeps its place.
    const ACCEPT: f32 = 142.0;
    let is_there = targets.worked.as_ref().is_some_and(|worked| worked.document.is_some());
    ui.add_enabled_ui(is_there, |ui| {
        ui.horizontal(|ui| {
            let plain = |ui: &mut Ui, words: &str, least_width: f32| {
                let button = ui.add(Button::new(words).min_size(vec2(least_width, 28.0)));
                focus_ring(ui, &button, button.rect, space::FIELD_RADIUS);
                button
            };
            // What misses is not what one is led to.
            let accept =
                if is_off { plain(ui, "Accept the nearest", ACCEPT) } else { accent_button(ui, "Accept", ACCEPT) };
            let hover = if is_off {
                "Give the lines of the sheet these amounts, although they miss what is asked; one step back undoes it"
            } else {
                "Give the lines of the sheet these amounts; one step back undoes it"
            };
            if accept.on_hover_text(hover).clicked() {
                actions.push(Action::AcceptAnswer);
            }
            let keep = plain(ui, "Keep as a copy…", 0.0);
            if keep.on_hover_text("Write it to a file of its own; the open recipe stays as it is").clicked() {
                actions.push(Action::KeepAnswer);
            }
        });
    });
}

/// The last line: the switch of the plots, and the end.
fn foot_ui(ui: &mut Ui, targets: &mut Targets, actions: &mut Vec<Action>) {
    let is_there = targets.worked.as_ref().is_some_and(|worked| worked.document.is_some());
    ui.horizontal(|ui| {
        if targets.shows_amounts() {
            let shows = ui.add_enabled(is_there, Checkbox::new(&mut targets.shows_answer, "Show in the plots"));
            focus_ring(ui, &shows, shows.rect, space::FIELD_RADIUS);
            shows.on_hover_text(
                "The other readings and the thermometer show the proposal, with the recipe as it is as the dashed ghost; the \
                 sheet stays as it is",
            );
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if action_ui(ui, "Done").on_hover_text(Command::StopReformulating.explanation()).clicked() {
                actions.push(Action::Run(Command::StopReformulating));
            }
        });
    });
}

fn quiet_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, with_units(words))).wrap_mode(TextWrapMode::Wrap));
}

fn plain_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(RichText::new(with_units(words))).wrap_mode(TextWrapMode::Wrap));
}
