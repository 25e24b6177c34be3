//! The cells of one line: handle, name, amount, unit, percent, note, lock.

use egui::{Align, Context, CursorIcon, Id, Key, Label, Layout, Rangef, RichText, Sense, TextEdit, TextWrapMode, Ui};

use super::temperature::{has_state, states_ui};
use crate::analysis::Analysis;
use crate::document::Edit;
use crate::number::{DecimalSign, fixed, grams, parse_amount, round_half_up, shortest, typed};
use crate::recipe::{Line, LineId, MassUnit, Quantity};
use crate::ui::command::Command;
use crate::ui::explanations::sheet;
use crate::ui::panels::field::typed_into;
use crate::ui::panels::shelf::summary;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Focus, Scene, View};
use crate::ui::widgets::number_cell::{self, Leave, NumberCell};
use crate::ui::widgets::{
    Explanation, clipped_text, explain, explain_at_rest, fitting_font, menu_button, number_label, quiet_button,
};

/// Width of the handle.
pub(super) const HANDLE: f32 = 18.0;
/// Width of an amount.
pub(super) const AMOUNT: f32 = 76.0;
/// What an amount keeps free at its right, inside its cell.
pub(super) const AMOUNT_MARGIN: f32 = 8.0;

/// The cell in which the amount of a line is typed.
#[must_use]
pub fn amount_id(line: LineId) -> Id {
    Id::unique(("amount", line))
}

fn note_id(line: LineId) -> Id {
    Id::unique(("note", line))
}

/// Reads an amount with its unit; without one, the unit of the line counts.
pub(in crate::ui) fn parse_quantity(text: &str, unit: MassUnit) -> Result<Quantity, String> {
    let (value, symbol) = parse_amount(text).map_err(|error| error.to_string())?;
    let unit = symbol.and_then(MassUnit::from_symbol).unwrap_or(unit);
    Quantity::new(value, unit).map_err(|error| error.to_string())
}

/// A line that is held by its handle.
#[derive(Clone, Copy)]
pub(super) struct Held {
    /// Which.
    pub(super) line: LineId,
    /// Where the pointer is.
    pub(super) y: f32,
    /// It has just been let go.
    pub(super) is_let_go: bool,
}

/// What came of the rows, once all of them are drawn.
#[derive(Default)]
pub(super) struct Outcome {
    /// The line that is held by its handle.
    pub(super) held: Option<Held>,
    /// From where to where each line reaches, from the top.
    pub(super) rows: Vec<Rangef>,
    /// What the keyboard has just reached: it has to be seen.
    pub(super) reached: Option<egui::Rect>,
}

/// Dots to take a line by; gives back where it is held.
pub(super) fn handle_ui(ui: &mut Ui, line: &Line, actions: &mut Vec<Action>) -> Option<Held> {
    let (rect, response) = ui.allocate_exact_size(egui::vec2(HANDLE, space::TARGET), Sense::CLICK | Sense::DRAG);
    let response = response
        .on_hover_cursor(CursorIcon::Grab)
        .on_hover_text("Drag to another place, or Alt+↑ and Alt+↓; right click for more");
    response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, format!("{}, move", line.ingredient.name)));
    line_menu(&response, line, actions);
    let palette = Palette::of(ui);
    let colour = if response.hovered() || response.dragged() { palette.text } else { palette.mark };
    for x in [-3.0, 3.0] {
        for y in [-5.0, 0.0, 5.0] {
            ui.painter().circle_filled(rect.center() + egui::vec2(x, y), 1.2, colour);
        }
    }
    if response.dragged()
        && let Some(pointer) = ui.ctx().pointer_interact_pos()
    {
        return Some(Held { line: line.id, y: pointer.y, is_let_go: false });
    }
    let pointer = response.drag_stopped().then(|| ui.ctx().pointer_interact_pos())??;
    Some(Held { line: line.id, y: pointer.y, is_let_go: true })
}

pub(super) fn name_ui(ui: &mut Ui, sign: DecimalSign, line: &Line, actions: &mut Vec<Action>) {
    // The seed is told apart: it counts in the mass, and not in what is seeded.
    let name = if line.is_seed { format!("{} · seed", line.ingredient.name) } else { line.ingredient.name.clone() };
    let name = RichText::new(name).font(theme::table());
    let label =
        ui.add(Label::new(name).wrap_mode(TextWrapMode::Truncate).show_tooltip_when_elided(false).sense(Sense::CLICK));
    let label = label.on_hover_ui(|ui| drop(ui.label(summary(&line.ingredient, sign))));
    line_menu(&label, line, actions);
    if label.clicked() {
        actions.push(Action::Select(Some(line.id)));
    }
}

/// What can be done with a line, at a right click.
fn line_menu(response: &egui::Response, line: &Line, actions: &mut Vec<Action>) {
    response.context_menu(|ui| {
        if ui.button("Remove line").clicked() {
            actions.push(Action::Edit(Edit::RemoveLine(line.id)));
            ui.close();
        }
        let lock = if line.is_locked { "Unlock amount" } else { "Lock amount" };
        if ui.button(lock).clicked() {
            actions.push(Action::Edit(Edit::SetLock { line: line.id, is_locked: !line.is_locked }));
            ui.close();
        }
        if ui.button("Change note").clicked() {
            actions.extend([Action::Select(Some(line.id)), Action::Focus(Focus::Note(line.id))]);
            ui.close();
        }
        if has_state(line) {
            ui.menu_button("Fat when it is mixed", |ui| states_ui(ui, line, actions));
        }
        if ui.button(Command::Exchange.label()).on_hover_text(Command::Exchange.explanation()).clicked() {
            actions.extend([Action::Select(Some(line.id)), Action::Run(Command::Exchange)]);
            ui.close();
        }
        if ui.button(Command::Figures.label()).on_hover_text(Command::Figures.explanation()).clicked() {
            actions.extend([Action::Select(Some(line.id)), Action::Run(Command::Figures)]);
            ui.close();
        }
        if ui.button(Command::Price.label()).on_hover_text(Command::Price.explanation()).clicked() {
            actions.push(Action::AskForPrice(line.id));
            ui.close();
        }
    });
}

pub(super) fn amount_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    (place, line): (usize, &Line),
    outcome: &mut Outcome,
    actions: &mut Vec<Action>,
) {
    let grouped = shown_amount(line.amount, view.sign);
    let name = format!("{}, amount", line.ingredient.name);
    if line.is_locked {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(AMOUNT_MARGIN);
            let font = fitting_font(ui, &grouped, theme::table(), AMOUNT - AMOUNT_MARGIN);
            number_ui(ui, RichText::new(&grouped).font(font), line, || sheet::amount(line, view.sign), actions);
        });
        if view.focus == Some(Focus::Amount(line.id)) {
            view.focus = None;
        }
        return;
    }
    let unit = line.amount.unit();
    let parse = |text: &str| parse_quantity(text, unit);
    let id = amount_id(line.id);
    if view.focus == Some(Focus::Amount(line.id)) {
        view.focus = None;
        number_cell::focus_cell(ui.ctx(), id);
    }
    let shown = typed(shown_value(line.amount, view.sign), view.sign);
    let output = NumberCell::new(id, &name, &shown, &parse).at_rest(&grouped).in_column().width(AMOUNT - 2.0).ui(ui);
    explain_at_rest(&output.response, || sheet::amount(line, view.sign));
    if output.response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
        outcome.reached = Some(output.response.rect);
    }
    typed_into(output.event, actions, |amount| Edit::SetAmount { line: line.id, amount });
    let (before, after) = scene.document.recipe.lines.split_at(place);
    // A locked amount is no cell: pass over it.
    let next = match output.leave {
        None => return,
        Some(Leave::Down) => after.iter().skip(1).find(|line| !line.is_locked),
        Some(Leave::Up) => before.iter().rev().find(|line| !line.is_locked),
    };
    if let Some(next) = next {
        actions.push(Action::Focus(Focus::Amount(next.id)));
    } else if output.leave == Some(Leave::Down) && view.has_shelf {
        // After the last line comes the next ingredient; who has hidden the shelf wants none.
        actions.push(Action::Focus(Focus::Search));
    } else {
        actions.push(Action::Focus(Focus::Amount(line.id)));
    }
}

/// An amount with its digits in groups, as the sum has them.
pub(super) fn shown_amount(amount: Quantity, sign: DecimalSign) -> String {
    /// From here on the sum has groups (see [`crate::number::fixed`]).
    const GROUPED: f64 = 10_000.0;
    /// A number with groups has no more than these.
    const DECIMALS: u32 = 3;
    let value = shown_value(amount, sign);
    if value < GROUPED { typed(value, sign) } else { shortest(value, DECIMALS, sign) }
}

/// An amount as it was typed; a scaled one has more digits than any scale shows and gets those that can be weighed.
fn shown_value(amount: Quantity, sign: DecimalSign) -> f64 {
    /// As many as the column holds.
    const CHARACTERS: usize = 8;
    let fits = |value: f64| typed(value, sign).chars().count() <= CHARACTERS;
    if fits(amount.value()) {
        return amount.value();
    }
    let most = match amount.unit() {
        MassUnit::Gram if amount.value() >= 1.0 => 2,
        MassUnit::Ounce => 3,
        MassUnit::Gram | MassUnit::Pound => 4,
        MassUnit::Kilogram => 5,
    };
    // No more decimals than there is room for: a figure that is cut off would be another one.
    let rounded = |decimals| round_half_up(amount.value(), decimals);
    (0..=most).rev().map(rounded).find(|value| fits(*value)).unwrap_or_else(|| rounded(0))
}

/// A mass in grams beside amounts that were typed: with all that a scale shows, so that the lines add up to it.
pub(in crate::ui::panels) fn shown_mass(mass: f64, sign: DecimalSign) -> String {
    let rounded = round_half_up(mass, 3);
    if rounded < 10_000.0 { typed(rounded, sign) } else { grams(rounded, sign) }
}

pub(super) fn unit_ui(ui: &mut Ui, line: &Line, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    let words = RichText::new(line.amount.unit().symbol()).font(theme::table()).color(palette.quiet);
    let (response, _) = menu_button(ui, words, space::TARGET, |ui| {
        for unit in MassUnit::ALL {
            if ui.button(unit.symbol()).clicked() {
                actions.push(Action::Edit(Edit::SetUnit { line: line.id, unit }));
                ui.close();
            }
        }
    });
    if response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
    }
    let name = format!("{}, unit {}", line.ingredient.name, line.amount.unit().symbol());
    response.accessible_name(name).on_hover_text("Unit of this line; the mass stays the same");
}

pub(super) fn percent_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, line: &Line, actions: &mut Vec<Action>) {
    let words = RichText::new(share_of_line(scene.analysis, line.id, view.sign)).font(theme::table());
    number_ui(ui, words.color(Palette::of(ui).quiet), line, sheet::line_share, actions);
}

pub(super) fn share_of_line(analysis: &Analysis, line: LineId, sign: DecimalSign) -> String {
    let make_up = &analysis.make_up;
    let share = make_up.lines.iter().find(|other| other.id == line).map(|line| line.share_of(make_up.weighed));
    match share {
        Some(share) if make_up.weighed.0 > 0.0 => fixed(share.to_percent(), 1, sign),
        _ => "–".to_owned(),
    }
}

/// A number of a line that explains itself; a click chooses the line, as it does beside it.
fn number_ui(
    ui: &mut Ui,
    words: RichText,
    line: &Line,
    explanation: impl FnOnce() -> Explanation,
    actions: &mut Vec<Action>,
) {
    let response = number_label(ui, words);
    explain(&response, explanation);
    if response.clicked() {
        actions.push(Action::Select(Some(line.id)));
    }
}

pub(super) fn is_note_edited(ctx: &Context, view: &View, line: LineId) -> bool {
    view.focus == Some(Focus::Note(line)) || is_written(ctx, note_id(line))
}

/// Whether a text has the keyboard or had it in the last frame: it has to be drawn once more to learn that it lost it.
pub(in crate::ui::panels) fn is_written(ctx: &Context, id: Id) -> bool {
    ctx.memory(|memory| memory.has_focus(id) || memory.had_focus_last_frame(id))
}

/// Where the note of a line stands.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum NoteLook {
    /// In a column of its own.
    Column,
    /// Small, under the name.
    Below,
}

/// The note of a line; gives back what was done to it.
pub(super) fn note_ui(ui: &mut Ui, view: &mut View, line: &Line, outcome: &mut Outcome, look: NoteLook) -> Vec<Action> {
    let mut actions = Vec::new();
    let palette = Palette::of(ui);
    let id = note_id(line.id);
    let is_written = ui.memory(|memory| memory.has_focus(id));
    let font = if look == NoteLook::Below { theme::small() } else { theme::body() };
    let mut note = line.note.clone();
    let field = TextEdit::singleline(&mut note)
        .id(id)
        .font(font.clone())
        // At rest it is written over, with an ellipsis where it is too long.
        .text_color(if is_written { palette.quiet } else { egui::Color32::TRANSPARENT })
        .frame(egui::Frame::NONE)
        .hint_text(if is_written { "note" } else { "" })
        .align(egui::Align2::LEFT_CENTER)
        .margin(egui::Margin::ZERO)
        .min_size(egui::vec2(0.0, if look == NoteLook::Below { 0.0 } else { space::TARGET }))
        .desired_width(f32::INFINITY);
    let response = ui.add(field);
    if !is_written {
        clipped_text(ui, &line.note, font, palette.quiet, response.rect);
    }
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::TextInput, true, format!("{}, note", line.ingredient.name))
    });
    if view.focus == Some(Focus::Note(line.id)) {
        view.focus = None;
        response.request_focus();
    }
    if response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
        outcome.reached = Some(response.rect);
    }
    if response.changed() {
        actions.push(Action::Edit(Edit::SetLineNote { line: line.id, note }));
    }
    text_left(ui, &response, &mut actions);
    actions
}

/// After a text of the recipe was drawn: its change is a step when it is left, and none if it is left by Esc.
pub(in crate::ui::panels) fn text_left(ui: &Ui, response: &egui::Response, actions: &mut Vec<Action>) {
    if response.gained_focus() {
        number_cell::forget_typing(ui.ctx(), response.id);
    }
    if response.lost_focus() {
        let is_taken_back = ui.input(|input| input.key_pressed(Key::Escape));
        actions.push(if is_taken_back { Action::CancelGesture } else { Action::EndGesture });
    }
}

pub(super) fn lock_ui(ui: &mut Ui, line: &Line, is_near: bool, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        let id = ui.next_auto_id();
        let has_focus = ui.memory(|memory| memory.has_focus(id));
        // A column of words that all say "free" is noise: what can be locked says so when it is looked at.
        let words = if line.is_locked {
            RichText::new("locked").color(palette.text)
        } else if is_near || has_focus {
            RichText::new("lock").color(palette.quiet)
        } else {
            RichText::new("lock").color(egui::Color32::TRANSPARENT)
        };
        let response = quiet_button(ui, words.font(theme::small())).on_hover_text(if line.is_locked {
            "Its amount stays as it is; click to set it free"
        } else {
            "Its amount may change; click to lock it"
        });
        response.widget_info(|| {
            let name = format!("{}, {}", line.ingredient.name, if line.is_locked { "unlock" } else { "lock" });
            egui::WidgetInfo::selected(egui::Role::Button, true, line.is_locked, name)
        });
        if response.gained_focus() {
            actions.push(Action::Select(Some(line.id)));
        }
        if response.clicked() {
            actions.push(Action::Edit(Edit::SetLock { line: line.id, is_locked: !line.is_locked }));
        }
    });
}
