//! The lines of the sheet: ingredient, amount, unit, percent, note, lock.

use std::sync::Arc;

use egui::{Align, Button, CursorIcon, Id, Key, Label, Layout, RichText, Sense, TextEdit, TextWrapMode, Ui};
use egui_extras::{Column, TableBuilder, TableRow};

use super::shelf::summary;
use crate::document::Edit;
use crate::number::{DecimalSign, fixed, grams, parse_amount, shortest, typed};
use crate::recipe::{Line, LineId, MassUnit, Quantity};
use crate::ui::command::Command;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Focus, Pointed, Scene, View};
use crate::ui::widgets::number_cell::{self, Leave, NumberCell, NumberEvent};

const HANDLE: f32 = 18.0;
const AMOUNT: f32 = 76.0;
const UNIT: f32 = 26.0;
const PINNED: f32 = 60.0;
const PERCENT: f32 = 46.0;
const LOCK: f32 = 50.0;
/// Between columns.
const GAP: f32 = 6.0;
/// What an amount keeps free at its right, inside its cell.
const AMOUNT_MARGIN: f32 = 8.0;
/// Between percent and note.
const NOTE_MARGIN: f32 = 8.0;
/// The note takes this share of what the fixed columns leave; the name has the rest.
const NOTE_SHARE: f32 = 0.40;
/// A note narrower than this says nothing; a name narrower than that neither.
const NARROWEST_NOTE: f32 = 84.0;
const NARROWEST_NAME: f32 = 150.0;

/// The cell in which the amount of a line is typed.
#[must_use]
pub fn amount_id(line: LineId) -> Id {
    Id::unique(("amount", line))
}

fn note_id(line: LineId) -> Id {
    Id::unique(("note", line))
}

/// Reads an amount with its unit; without one, the unit of the line counts.
pub(super) fn parse_quantity(text: &str, unit: MassUnit) -> Result<Quantity, String> {
    let (value, symbol) = parse_amount(text).map_err(|error| error.to_string())?;
    let unit = symbol.and_then(MassUnit::from_symbol).unwrap_or(unit);
    Quantity::new(value, unit).map_err(|error| error.to_string())
}

/// Draws the lines with their heads and their sum.
pub fn lines_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    let has_pin = scene.pin.is_some();
    let fixed_columns = HANDLE + AMOUNT + UNIT + PERCENT + LOCK + 6.0 * GAP + if has_pin { PINNED + GAP } else { 0.0 };
    let left = ui.available_width() - fixed_columns;
    let note = left * NOTE_SHARE;
    let has_note = note >= NARROWEST_NOTE && left - note >= NARROWEST_NAME;
    let lines = &scene.document.recipe.lines;
    let palette = Palette::of(ui);
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(GAP, 0.0);
        // The table takes its row colours from the style.
        ui.visuals_mut().selection.bg_fill = palette.accent_ground;
        ui.visuals_mut().widgets.hovered.bg_fill = palette.accent_ground;
        let mut table = TableBuilder::new(ui)
            .id_salt("lines")
            .vscroll(false)
            // Not `click()`: cells and names are no stops for the Tab key, what can be typed or pressed is.
            .sense(Sense::CLICK)
            .cell_layout(Layout::left_to_right(Align::Center))
            .column(Column::exact(HANDLE))
            .column(Column::remainder().at_least(80.0).clip(true))
            .column(Column::exact(AMOUNT))
            .column(Column::exact(UNIT));
        if has_pin {
            table = table.column(Column::exact(PINNED));
        }
        table = table.column(Column::exact(PERCENT));
        if has_note {
            table = table.column(Column::exact(note - GAP).clip(true));
        }
        table = table.column(Column::exact(LOCK));
        let columns = Columns { has_pin, has_note };
        let mut outcome = Outcome::default();
        table.header(space::TARGET, |mut row| columns.heads_ui(&mut row)).body(|mut body| {
            for (place, line) in lines.iter().enumerate() {
                body.row(space::ROW, |mut row| {
                    row.set_selected(view.selected == Some(line.id));
                    row.set_hovered(view.is_line_lit(scene, line.id));
                    columns.line_ui(&mut row, scene, view, line, place, &mut outcome, actions);
                    let response = row.response();
                    if response.contains_pointer() {
                        view.point_at(Pointed::Line(line.id));
                    }
                    if response.clicked() {
                        actions.push(Action::Select(Some(line.id)));
                    }
                });
            }
            body.row(space::ROW, |mut row| columns.sum_ui(&mut row, scene, view));
        });
        if let Some((line, by)) = outcome.moved {
            move_line(scene, line, by, actions);
        }
        // Outside the table: inside it, the request would not reach the area that scrolls.
        if let Some(rect) = outcome.reached {
            ui.scroll_to_rect(rect, None);
        }
    });
    let add = Button::new(theme::strong("+  add an ingredient").color(palette.accent)).frame(false);
    if ui.add(add).on_hover_text("Go to the search; type a part of its name, Enter adds it (Ctrl+F)").clicked() {
        actions.push(Action::Focus(Focus::Search));
    }
}

fn move_line(scene: &Scene<'_>, line: LineId, by: i32, actions: &mut Vec<Action>) {
    let lines = &scene.document.recipe.lines;
    let Some(place) = lines.iter().position(|other| other.id == line) else { return };
    let to = place.saturating_add_signed(isize::try_from(by).unwrap_or(0)).min(lines.len().saturating_sub(1));
    actions.push(Action::Edit(Edit::MoveLine { line, to }));
}

/// What came of the rows, once all of them are drawn.
#[derive(Default)]
struct Outcome {
    /// A line that was dragged, and by how many places.
    moved: Option<(LineId, i32)>,
    /// What the keyboard has just reached: it has to be seen.
    reached: Option<egui::Rect>,
}

/// Which of the columns that come and go are there.
#[derive(Clone, Copy)]
struct Columns {
    has_pin: bool,
    has_note: bool,
}

impl Columns {
    fn heads_ui(self, row: &mut TableRow<'_, '_>) {
        let head = |ui: &mut Ui, words: &str| {
            ui.label(theme::caption(ui, words));
        };
        let right = |row: &mut TableRow<'_, '_>, words: &str| {
            row.col(|ui| {
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    ui.add_space(if words == "amount" { AMOUNT_MARGIN } else { 0.0 });
                    head(ui, words);
                });
            });
        };
        row.col(|_| {});
        row.col(|ui| head(ui, "ingredient"));
        right(row, "amount");
        row.col(|_| {});
        if self.has_pin {
            right(row, "pinned");
        }
        right(row, "%");
        if self.has_note {
            row.col(|ui| {
                ui.add_space(NOTE_MARGIN);
                head(ui, "note");
            });
        }
        right(row, "lock");
    }

    #[expect(clippy::too_many_arguments, reason = "one row draws everything of one line")]
    fn line_ui(
        self,
        row: &mut TableRow<'_, '_>,
        scene: &Scene<'_>,
        view: &mut View,
        line: &Line,
        place: usize,
        outcome: &mut Outcome,
        actions: &mut Vec<Action>,
    ) {
        row.col(|ui| {
            if let Some(by) = handle_ui(ui, line, actions) {
                outcome.moved = Some((line.id, by));
            }
        });
        row.col(|ui| {
            // Where there is no room for notes, the one that is asked for takes the place of the name.
            if !self.has_note && is_note_edited(ui, view, line.id) {
                note_ui(ui, view, line, outcome, actions);
            } else {
                name_ui(ui, view, line, self.has_note, actions);
            }
        });
        row.col(|ui| amount_ui(ui, scene, view, (place, line), outcome, actions));
        row.col(|ui| unit_ui(ui, line, actions));
        if self.has_pin {
            row.col(|ui| pinned_ui(ui, scene, view, line));
        }
        row.col(|ui| percent_ui(ui, scene, view, line));
        if self.has_note {
            row.col(|ui| {
                ui.add_space(NOTE_MARGIN);
                note_ui(ui, view, line, outcome, actions);
            });
        }
        let is_near = view.selected == Some(line.id) || view.pointed == Some(Pointed::Line(line.id));
        row.col(|ui| lock_ui(ui, line, is_near, actions));
    }

    fn sum_ui(self, row: &mut TableRow<'_, '_>, scene: &Scene<'_>, view: &View) {
        let weighed = scene.analysis.make_up.weighed;
        row.col(|_| {});
        row.col(|ui| {
            ui.label(RichText::new("Together").font(theme::table_bold()));
        });
        row.col(|ui| {
            right_ui(ui, AMOUNT_MARGIN, RichText::new(grams(weighed.0, view.sign)).font(theme::table_bold()))
                .on_hover_text("What all lines weigh together, before losses");
        });
        row.col(|ui| {
            ui.add_space(space::TIGHT);
            ui.label(RichText::new("g").font(theme::table_bold()));
        });
        if self.has_pin {
            row.col(|ui| {
                let pinned = scene.pin.map(|pin| grams(pin.analysis.make_up.weighed.0, view.sign)).unwrap_or_default();
                let words = RichText::new(pinned).font(theme::table()).color(Palette::of(ui).quiet);
                right_ui(ui, 0.0, words);
            });
        }
        row.col(|ui| {
            let whole = if weighed.0 > 0.0 { fixed(100.0, 1, view.sign) } else { "–".to_owned() };
            right_ui(ui, 0.0, RichText::new(whole).font(theme::table_bold()));
        });
        if self.has_note {
            row.col(|_| {});
        }
        row.col(|_| {});
    }
}

/// Dots to take a line by; gives back by how many places it was moved.
fn handle_ui(ui: &mut Ui, line: &Line, actions: &mut Vec<Action>) -> Option<i32> {
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
        // A line across shows where it would go.
        let by = places_moved(pointer.y - rect.center().y);
        #[expect(clippy::cast_precision_loss, reason = "a few dozen lines")]
        let edge = rect.center().y + (by as f32 + if by < 0 { -0.5 } else { 0.5 }) * space::ROW;
        if by != 0 {
            let painter = ui.ctx().layer_painter(ui.layer_id());
            painter.hline(rect.left()..=rect.left() + 420.0, edge, egui::Stroke::new(2.0, palette.accent));
        }
    }
    let by = response.drag_stopped().then(|| ui.ctx().pointer_interact_pos())??;
    let by = places_moved(by.y - rect.center().y);
    (by != 0).then_some(by)
}

#[expect(clippy::cast_possible_truncation, reason = "a few dozen lines")]
fn places_moved(distance: f32) -> i32 {
    (distance / space::ROW).round() as i32
}

fn name_ui(ui: &mut Ui, view: &View, line: &Line, has_note: bool, actions: &mut Vec<Action>) {
    let name = RichText::new(&line.ingredient.name).font(theme::table());
    let label =
        ui.add(Label::new(name).wrap_mode(TextWrapMode::Truncate).show_tooltip_when_elided(false).sense(Sense::CLICK));
    let mut hover = summary(&line.ingredient, view.sign);
    if !has_note && !line.note.is_empty() {
        hover = format!("Note: {}\n\n{hover}", line.note);
    }
    let label = label.on_hover_text(hover);
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
        if ui.button(Command::Figures.label()).on_hover_text(Command::Figures.explanation()).clicked() {
            actions.extend([Action::Select(Some(line.id)), Action::Run(Command::Figures)]);
            ui.close();
        }
    });
}

fn amount_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    (place, line): (usize, &Line),
    outcome: &mut Outcome,
    actions: &mut Vec<Action>,
) {
    let shown = shown_amount(line.amount, view.sign);
    let name = format!("{}, amount", line.ingredient.name);
    if line.is_locked {
        let words = RichText::new(&shown).font(theme::table());
        right_ui(ui, AMOUNT_MARGIN, words).on_hover_text("Locked: unlock it to change its amount (Ctrl+L)");
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
    let output = NumberCell::new(id, &name, &shown, &parse).width(AMOUNT - 2.0).ui(ui);
    if output.response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
        outcome.reached = Some(output.response.rect);
    }
    let set = |amount| Action::Edit(Edit::SetAmount { line: line.id, amount });
    match output.event {
        NumberEvent::Nothing => {}
        NumberEvent::Typing(amount) => actions.push(set(amount)),
        NumberEvent::Committed(amount) => actions.extend([set(amount), Action::EndGesture]),
        NumberEvent::Cancelled => actions.push(Action::CancelGesture),
    }
    let (before, after) = scene.document.recipe.lines.split_at(place);
    // A locked amount is no cell: pass over it.
    let next = match output.leave {
        None => return,
        Some(Leave::Down) => after.iter().skip(1).find(|line| !line.is_locked),
        Some(Leave::Up) => before.iter().rev().find(|line| !line.is_locked),
    };
    if let Some(next) = next {
        actions.push(Action::Focus(Focus::Amount(next.id)));
    } else if output.leave == Some(Leave::Down) {
        // After the last line comes the next ingredient.
        actions.push(Action::Focus(Focus::Search));
    }
}

/// An amount as it was typed; a scaled one has more digits than any scale shows and gets those that can be weighed.
fn shown_amount(amount: Quantity, sign: DecimalSign) -> String {
    /// As many as the column holds.
    const CHARACTERS: usize = 7;
    let exact = typed(amount.value(), sign);
    if exact.chars().count() <= CHARACTERS {
        return exact;
    }
    let decimals = match amount.unit() {
        MassUnit::Gram if amount.value() >= 1.0 => 2,
        MassUnit::Ounce => 3,
        MassUnit::Gram | MassUnit::Pound => 4,
        MassUnit::Kilogram => 5,
    };
    shortest(amount.value(), decimals, sign)
}

fn unit_ui(ui: &mut Ui, line: &Line, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    let words = RichText::new(line.amount.unit().symbol()).font(theme::table()).color(palette.quiet);
    let button = Button::new(words).frame(false).min_size(egui::vec2(space::TARGET, space::TARGET));
    let (response, _) = egui::containers::menu::MenuButton::from_button(button).ui(ui, |ui| {
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

fn pinned_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, line: &Line) {
    let Some(pin) = scene.pin else { return };
    // The same line if it was there, else the first line with the same ingredient.
    let lines = &pin.document.recipe.lines;
    let before = lines
        .iter()
        .find(|other| other.id == line.id && Arc::ptr_eq(&other.ingredient, &line.ingredient))
        .or_else(|| lines.iter().find(|other| other.ingredient.id == line.ingredient.id));
    let words = before
        .map_or_else(|| "–".to_owned(), |before| shown_amount(before.amount.in_unit(line.amount.unit()), view.sign));
    let palette = Palette::of(ui);
    right_ui(ui, 0.0, RichText::new(words).font(theme::table()).color(palette.quiet));
}

fn percent_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, line: &Line) {
    let make_up = &scene.analysis.make_up;
    let share = make_up.lines.iter().find(|other| other.id == line.id).map(|line| line.share_of(make_up.weighed));
    let words = match share {
        Some(share) if make_up.weighed.0 > 0.0 => fixed(share.to_percent(), 1, view.sign),
        _ => "–".to_owned(),
    };
    let palette = Palette::of(ui);
    right_ui(ui, 0.0, RichText::new(words).font(theme::table()).color(palette.quiet))
        .on_hover_text("Share of all that is weighed, by mass");
}

fn is_note_edited(ui: &Ui, view: &View, line: LineId) -> bool {
    view.focus == Some(Focus::Note(line)) || ui.memory(|memory| memory.has_focus(note_id(line)))
}

fn note_ui(ui: &mut Ui, view: &mut View, line: &Line, outcome: &mut Outcome, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    let id = note_id(line.id);
    let mut note = line.note.clone();
    let field = TextEdit::singleline(&mut note)
        .id(id)
        .font(theme::body())
        .text_color(palette.quiet)
        .frame(egui::Frame::NONE)
        .hint_text(if ui.memory(|memory| memory.has_focus(id)) { "note" } else { "" })
        .align(egui::Align2::LEFT_CENTER)
        .min_size(egui::vec2(0.0, space::TARGET))
        .desired_width(f32::INFINITY);
    let response = ui.add(field);
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
    text_left(ui, &response, actions);
}

/// After a text of the recipe was drawn: its change is a step when it is left, and none if it is left by Esc.
pub(super) fn text_left(ui: &Ui, response: &egui::Response, actions: &mut Vec<Action>) {
    if response.gained_focus() {
        number_cell::forget_typing(ui.ctx(), response.id);
    }
    if response.lost_focus() {
        let is_taken_back = ui.input(|input| input.key_pressed(Key::Escape));
        actions.push(if is_taken_back { Action::CancelGesture } else { Action::EndGesture });
    }
}

fn lock_ui(ui: &mut Ui, line: &Line, is_near: bool, actions: &mut Vec<Action>) {
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
        let button = Button::new(words.font(theme::small())).frame(false);
        let response = ui.add(button).on_hover_text(if line.is_locked {
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

fn right_ui(ui: &mut Ui, margin: f32, words: RichText) -> egui::Response {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        ui.add_space(margin);
        ui.label(words)
    })
    .inner
}
