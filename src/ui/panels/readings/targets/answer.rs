//! What came of it: the sentence on top with what can be done, the amounts before and after, what more of a line would do.

use egui::{Label, RichText, TextWrapMode, Ui};

use crate::number::{DecimalSign, fixed};
use crate::recipe::LineId;
use crate::reformulate::{Answer, Impossible, Measured, Move, Outcome, Place, ProblemError};
use crate::report::words::capital;
use crate::report::words::reformulation::{ReformulationWords, amount, decimals, measured, sentence, unit};
use crate::ui::command::Command;
use crate::ui::explanations::targets as explanations;
use crate::ui::panels::head::menu_ui;
use crate::ui::targets::{Targets, Worked};
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Pointed, Scene, View};
use crate::ui::widgets::{
    BeforeAfterRow, Card, ChangeRow, accent_button, before_after_rows_ui, change_rows_ui, explain, focus_ring,
    is_attended, with_units,
};
use crate::units::Grams;

/// The card on top: what came of it, in sentences, and what can be done with it.
pub(super) fn outcome_ui(ui: &mut Ui, targets: &mut Targets, sign: DecimalSign, actions: &mut Vec<Action>) {
    let worked = targets.worked.clone();
    Card::new().ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        let is_off = worked.as_ref().is_some_and(|worked| !is_good(worked));
        let title = title(targets, worked.as_deref());
        ui.horizontal_top(|ui| {
            let colour = if is_off { Palette::of(ui).caution } else { Palette::of(ui).text };
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Min), |ui| {
                if super::action_ui(ui, "Done").on_hover_text(Command::StopReformulating.explanation()).clicked() {
                    actions.push(Action::Run(Command::StopReformulating));
                }
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Min), |ui| {
                    let words = theme::strong(if is_off { format!("!  {title}") } else { title }).color(colour);
                    ui.add(Label::new(words).wrap_mode(TextWrapMode::Wrap));
                });
            });
        });
        if let Some(worked) = &worked {
            told_ui(ui, targets, worked, sign);
        }
        if targets.is_late {
            ui.label(theme::caption(ui, "Looking for another answer…"));
        }
        if worked.as_ref().is_some_and(|worked| worked.document.is_some()) {
            buttons_ui(ui, targets, is_off, actions);
        }
    });
}

fn is_good(worked: &Worked) -> bool {
    matches!(worked.outcome, Ok(Outcome::Changed(_) | Outcome::Unchanged(_)))
}

fn title(targets: &Targets, worked: Option<&Worked>) -> String {
    let Some(worked) = worked else { return "Looking for the nearest recipe…".to_owned() };
    match &worked.outcome {
        Ok(Outcome::Unchanged(_)) if targets.asked.targets.iter().all(|row| !row.is_on) => "Nothing is asked for yet",
        Ok(Outcome::Unchanged(_)) => "Everything that is asked for holds already",
        Ok(Outcome::Changed(_)) => "The nearest recipe that does it",
        Ok(Outcome::Impossible(why)) if why.is_by_scale => "The scale is too coarse for it",
        Ok(Outcome::Impossible(_)) => "It cannot be done as asked",
        Ok(Outcome::Stopped) => "No answer was found in the time that is allowed",
        Err(_) => "This cannot be worked on",
    }
    .to_owned()
}

/// The sentences under the title.
fn told_ui(ui: &mut Ui, targets: &mut Targets, worked: &Worked, sign: DecimalSign) {
    let words = ReformulationWords::new(&worked.problem, sign);
    match &worked.outcome {
        Ok(Outcome::Unchanged(_)) => {
            quiet_ui(ui, "Add a target below, or choose “make this a target” on a finding under the sheet.");
        }
        Ok(Outcome::Changed(answer)) => quiet_ui(ui, &in_short(answer, &words)),
        Ok(Outcome::Impossible(why)) => impossible_ui(ui, targets, worked, why, &words),
        Ok(Outcome::Stopped) => quiet_ui(ui, "Ask for less, or allow an ingredient in that makes it easier."),
        Err(error) => quiet_ui(ui, &problem_words(error, sign)),
    }
}

/// How much changes; the amounts stand below.
fn in_short(answer: &Answer, words: &ReformulationWords<'_>) -> String {
    let by = |moved: &Move| (moved.after.0 - moved.before.0).abs();
    let moved: Vec<&Move> = answer.moves.iter().filter(|moved| moved.before != moved.after).collect();
    let count =
        if moved.len() == 1 { "1 amount changes".to_owned() } else { format!("{} amounts change", moved.len()) };
    match moved.iter().max_by(|left, right| by(left).total_cmp(&by(right))) {
        Some(most) => format!("{count}, most of all {}.", words.moved(most)),
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
    // After the first sentence, which names them all, there is one for each.
    let heads = sentences.len().saturating_sub(why.conflict.len());
    for sentence in sentences.iter().take(heads) {
        plain_ui(ui, sentence);
    }
    for (sentence, one) in sentences.iter().skip(heads).zip(&why.conflict) {
        ui.horizontal_top(|ui| {
            ui.label(theme::quiet(ui, "·"));
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 0.0;
                quiet_ui(ui, sentence);
                let member = words.member(one.member);
                let can_give_up = !matches!(one.member, crate::reformulate::Member::Lock(_));
                if !can_give_up {
                    ui.label(theme::caption(ui, "Locked in the sheet: unlock the line there to give way."));
                } else if targets.is_current {
                    let button = super::action_ui(ui, "give this up");
                    button.widget_info(|| {
                        let name = format!("give this up: {member}");
                        egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, name)
                    });
                    if button.clicked() {
                        targets.asked.give_up(one.member, &worked.rows);
                    }
                }
            });
        });
    }
    if worked.document.is_some() {
        plain_ui(ui, "The amounts below come nearest.");
    }
}

fn buttons_ui(ui: &mut Ui, targets: &mut Targets, is_off: bool, actions: &mut Vec<Action>) {
    ui.add_space(space::TIGHT);
    ui.horizontal_wrapped(|ui| {
        let accept = accent_button(ui, if is_off { "Accept the nearest" } else { "Accept" });
        if accept.on_hover_text("Give the lines of the sheet these amounts; one step back undoes it").clicked() {
            actions.push(Action::AcceptAnswer);
        }
        let keep = ui.add(egui::Button::new("Keep as a copy…").min_size(egui::vec2(0.0, 28.0)));
        focus_ring(ui, &keep, keep.rect, space::FIELD_RADIUS);
        if keep.on_hover_text("Write it to a file of its own; the open recipe stays as it is").clicked() {
            actions.push(Action::KeepAnswer);
        }
        let shows = ui.checkbox(&mut targets.shows_answer, "Show in the plots");
        focus_ring(ui, &shows, shows.rect, space::FIELD_RADIUS);
        shows.on_hover_text(
            "The other readings and the thermometer show the proposal, with the recipe as it is as the dashed ghost; the sheet \
             stays as it is",
        );
    });
}

fn quiet_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, with_units(words))).wrap_mode(TextWrapMode::Wrap));
}

fn plain_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(RichText::new(with_units(words))).wrap_mode(TextWrapMode::Wrap));
}

/// Every amount before and after, and why it moves.
pub(super) fn amounts_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &Targets, view: &mut View) {
    let Some(worked) = targets.worked.as_ref().filter(|worked| worked.document.is_some()) else { return };
    let Some(answer) = worked.answer() else { return };
    let sign = view.sign;
    let words = ReformulationWords::new(&worked.problem, sign);
    let moves: Vec<&Move> = answer.moves.iter().filter(|it| it.before.0 > 0.0 || it.after.0 > 0.0).collect();
    let line = |place: Place| match place {
        Place::Line(line) => Some(line),
        Place::Allowed(_) => None,
    };
    let is_locked = |line: Option<LineId>| {
        line.and_then(|line| worked.problem.recipe.line(line)).is_some_and(|line| line.is_locked)
    };
    let mut rows: Vec<BeforeAfterRow> = moves
        .iter()
        .map(|moved| {
            let is_moved = moved.before != moved.after;
            let is_new = matches!(moved.place, Place::Allowed(_));
            let why = match (is_moved, is_locked(line(moved.place))) {
                (true, _) if is_new => format!("comes in: {}", words.why_moved(moved)),
                (true, _) => words.why_moved(moved),
                (false, true) => "locked".to_owned(),
                (false, false) => String::new(),
            };
            BeforeAfterRow {
                name: capital(&words.place(moved.place)),
                before: if is_new { "–".to_owned() } else { amount(moved.before, sign) },
                after: amount(moved.after, sign),
                by: if is_moved { signed(moved.after - moved.before, sign) } else { String::new() },
                why: why.trim_end_matches(": ").to_owned(),
                is_lit: line(moved.place).is_some_and(|line| view.is_line_lit(scene, line)),
                is_total: false,
            }
        })
        .collect();
    let sum = |of: fn(&Move) -> Grams| answer.moves.iter().map(of).sum::<Grams>();
    let (before, after) = (sum(|moved| moved.before), sum(|moved| moved.after));
    let by = amount(after, sign) != amount(before, sign);
    rows.push(BeforeAfterRow {
        name: "Together".to_owned(),
        before: amount(before, sign),
        after: amount(after, sign),
        by: if by { signed(after - before, sign) } else { String::new() },
        is_total: true,
        ..BeforeAfterRow::default()
    });
    let subtitle = if is_good(worked) { "and what moves each line most" } else { "of the recipe that comes nearest" };
    Card::new().title("Amounts before and after").subtitle(subtitle).ui(ui, |ui| {
        for (idx, response) in before_after_rows_ui(ui, &rows).iter().enumerate() {
            let moved = moves.get(idx);
            if let Some(line) = moved.and_then(|moved| line(moved.place))
                && is_attended(response)
            {
                view.point_at(Pointed::Line(line));
            }
            explain(response, || match moved {
                Some(_) => explanations::proposed_amount(sign),
                None => explanations::proposed_total(),
            });
        }
    });
}

/// What there is to say about the answer before it is made.
pub(super) fn notes_ui(ui: &mut Ui, targets: &Targets, sign: DecimalSign) {
    let Some(worked) = targets.worked.as_ref().filter(|worked| worked.document.is_some()) else { return };
    let Some(answer) = worked.answer() else { return };
    let notes = ReformulationWords::new(&worked.problem, sign).notes(answer);
    if notes.is_empty() {
        return;
    }
    Card::new().title("Before you make it").ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        for note in &notes {
            quiet_ui(ui, note);
        }
    });
}

fn signed(by: Grams, sign: DecimalSign) -> String {
    let plus = if by.0 > 0.0 { "+" } else { "" };
    format!("{plus}{}", amount(by, sign))
}

/// What a little more of each line alone would do to one of the targets.
pub(super) fn effects_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, view: &mut View) {
    let Some(worked) = targets.worked.clone() else { return };
    // Of what is merely usual and holds anyway nobody wants to know it.
    if worked.document.is_none() && targets.asked.targets.iter().all(|row| row.is_usual) {
        return;
    }
    let (more, table) = &worked.effects;
    let chosen = targets
        .effects_of
        .and_then(|row| worked.rows.targets.iter().position(|number| *number == row))
        .or_else(|| first_told(targets, &worked));
    let (Some(place), sign) = (chosen, view.sign) else { return };
    let (Some(target), Some(effects)) = (worked.problem.targets.get(place), table.get(place)) else { return };
    let recipe = worked.document.as_ref().map_or(&worked.problem.recipe, |document| &document.recipe);
    let problem = crate::reformulate::Problem::new(recipe.clone());
    let words = ReformulationWords::new(&problem, sign);
    let mut shown: Vec<(LineId, f64)> = recipe
        .lines
        .iter()
        .zip(effects)
        .filter(|(line, _)| line.amount.grams().0 > 0.0)
        .filter_map(|(line, effect)| Some((line.id, (*effect)?)))
        .collect();
    shown.sort_by(|left, right| right.1.abs().total_cmp(&left.1.abs()));
    let rows: Vec<ChangeRow> = shown
        .iter()
        .map(|&(line, effect)| ChangeRow {
            name: capital(&words.place(Place::Line(line))),
            change: effect,
            text: effect_words(target.of, effect, sign),
            is_lit: view.is_line_lit(scene, line),
            ..ChangeRow::default()
        })
        .collect();
    let title = format!("What {} more of one line does", amount(*more, sign));
    let basis = if worked.document.is_some() { "in the proposed recipe" } else { "in the recipe as it is" };
    Card::new().title(&title).ui(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = space::TIGHT;
            ui.label(theme::quiet(ui, "to"));
            let hover = "Which result the effects are shown of: one of the targets";
            menu_ui(ui, &measured(target.of, sign), hover, |ui| {
                for (other, number) in worked.problem.targets.iter().zip(&worked.rows.targets) {
                    if ui.selectable_label(other.of == target.of, measured(other.of, sign)).clicked() {
                        targets.effects_of = Some(*number);
                        ui.close();
                    }
                }
            });
            ui.label(theme::quiet(ui, basis));
        });
        for (response, (line, _)) in change_rows_ui(ui, &rows).iter().zip(&shown) {
            if is_attended(response) {
                view.point_at(Pointed::Line(*line));
            }
            explain(response, || explanations::effect(*more, sign));
        }
    });
}

/// The first target that was asked for by name and pulls, else the first that was asked for by name, else one that pulls.
fn first_told(targets: &Targets, worked: &Worked) -> Option<usize> {
    let binds = |row: &u32| worked.reached(*row).is_some_and(|reached| reached.is_binding);
    let is_named = |row: &u32| targets.asked.targets.iter().any(|other| other.number == *row && !other.is_usual);
    let first = |wanted: &dyn Fn(&u32) -> bool| worked.rows.targets.iter().position(wanted);
    first(&|row| is_named(row) && binds(row))
        .or_else(|| first(&is_named))
        .or_else(|| first(&binds))
        .or_else(|| first(&|_| true))
}

fn effect_words(of: Measured, effect: f64, sign: DecimalSign) -> String {
    let plus = if effect > 0.0 { "+" } else { "" };
    // The unit of energy is a sentence of its own.
    let unit = if of == Measured::Energy { "" } else { unit(of) };
    format!("{plus}{}{unit}", fixed(effect, decimals(of) + 1, sign))
}
