//! The lines of the sheet as a table: its columns, heads, rows and sum. What stands in a row is in `cells`.

mod cells;
mod temperature;

use std::sync::Arc;

use egui::{Align, DragAndDrop, Layout, Rangef, RichText, Sense, Ui, UiBuilder};
use egui_extras::{Column, TableBuilder, TableRow};

pub use cells::amount_id;
pub(in crate::ui) use cells::parse_quantity;
use cells::{
    AMOUNT, AMOUNT_MARGIN, HANDLE, Held, NoteLook, Outcome, amount_ui, handle_ui, is_note_edited, lock_ui, name_ui,
    note_ui, percent_ui, share_of_line, shown_amount, unit_ui,
};
pub(super) use cells::{is_written, shown_mass, text_left};
use temperature::TEMPERATURE;
pub(super) use temperature::{parse_temperature, state_of};

use crate::document::Edit;
use crate::number::fixed;
use crate::recipe::Line;
use crate::ui::explanations::sheet;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Dragged, Focus, Pin, Pointed, Scene, View};
use crate::ui::widgets::{Explanation, explain, fitting_font, ghost_label, quiet_button, stop_label};

const UNIT: f32 = 26.0;
const PERCENT: f32 = 46.0;
const LOCK: f32 = 50.0;
/// A row with a second line: pinned figures, a note under the name.
const TALL_ROW: f32 = 43.0;
/// Where in it the first line ends and the second begins.
const FIRST_LINE: f32 = 28.0;
const SECOND_LINE: f32 = 26.0;
/// Between columns.
const GAP: f32 = 6.0;
/// Between percent and note.
const NOTE_MARGIN: f32 = 8.0;
/// The note takes this share of what the fixed columns leave; the name has the rest.
const NOTE_SHARE: f32 = 0.40;
/// A note narrower than this says nothing; a name narrower than that neither.
const NARROWEST_NOTE: f32 = 84.0;
const NARROWEST_NAME: f32 = 150.0;

/// Draws the lines with their heads and their sum.
pub fn lines_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    let has_pin = scene.pin.is_some();
    let has_temperature = view.shows_temperatures(&scene.document.recipe);
    let of_temperature = if has_temperature { TEMPERATURE + GAP } else { 0.0 };
    let fixed_columns = HANDLE + AMOUNT + UNIT + of_temperature + PERCENT + LOCK + 6.0 * GAP;
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
        let table_context = ui.ctx().clone();
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
        if has_temperature {
            table = table.column(Column::exact(TEMPERATURE));
        }
        table = table.column(Column::exact(PERCENT));
        if has_note {
            table = table.column(Column::exact(note - GAP).clip(true));
        }
        table = table.column(Column::exact(LOCK));
        let heads = Columns { has_temperature, has_note, has_note_below: false, is_tall: false };
        let ctx = table_context;
        let mut outcome = Outcome::default();
        table.header(space::TARGET, |mut row| heads.heads_ui(&mut row)).body(|mut body| {
            for (place, line) in lines.iter().enumerate() {
                let has_note_below = !has_note && (!line.note.is_empty() || is_note_edited(&ctx, view, line.id));
                let has_state = has_temperature && temperature::has_state(line);
                let is_tall = has_pin || has_note_below || has_state;
                let columns = Columns { has_temperature, has_note, has_note_below, is_tall };
                body.row(columns.height(), |mut row| {
                    row.set_selected(view.selected == Some(line.id));
                    row.set_hovered(view.is_line_lit(scene, line.id));
                    columns.line_ui(&mut row, scene, view, line, place, &mut outcome, actions);
                    let response = row.response();
                    outcome.rows.push(response.rect.y_range());
                    if response.contains_pointer() {
                        view.point_at(Pointed::Line(line.id));
                    }
                    if response.clicked() {
                        actions.push(Action::Select(Some(line.id)));
                    }
                });
            }
            let columns = Columns { has_temperature, has_note, has_note_below: false, is_tall: has_pin };
            body.row(columns.height(), |mut row| columns.sum_ui(&mut row, scene, view, &mut outcome));
        });
        let chosen = lines.iter().position(|line| view.selected == Some(line.id));
        if let Some(row) = chosen.and_then(|place| outcome.rows.get(place)) {
            chosen_ui(ui, *row);
        }
        if let Some(held) = outcome.held {
            held_ui(ui, scene, held, &outcome.rows, actions);
        }
        drop_ui(ui, &outcome.rows, actions);
        // Outside the table: inside it, the request would not reach the area that scrolls.
        if let Some(rect) = outcome.reached {
            ui.scroll_to_rect(rect, None);
        }
    });
}

/// A mark at the left of the chosen line: its ground alone is that of a line that is pointed at.
fn chosen_ui(ui: &Ui, row: Rangef) {
    const WIDTH: f32 = 3.0;
    let left = ui.min_rect().left();
    // A note under a name reaches a little over the edge of its row.
    let mark = egui::Rect::from_x_y_ranges(left..=left + WIDTH, row.min..=row.max.min(row.min + TALL_ROW));
    ui.painter().rect_filled(mark, space::MARK_RADIUS, Palette::of(ui).accent);
}

/// A line that is held shows where it would stand, and stands there when it is let go: it takes the place of the line
/// under the pointer.
fn held_ui(ui: &Ui, scene: &Scene<'_>, held: Held, rows: &[Rangef], actions: &mut Vec<Action>) {
    let lines = &scene.document.recipe.lines;
    let Some(from) = lines.iter().position(|line| line.id == held.line) else { return };
    let to = rows.iter().filter(|row| row.max <= held.y).count().min(rows.len().saturating_sub(1));
    if to == from {
        return;
    }
    if held.is_let_go {
        actions.push(Action::Edit(Edit::MoveLine { line: held.line, to }));
    } else {
        // Going down it will stand behind that line, going up before it.
        edge_ui(ui, rows, if to > from { to + 1 } else { to });
    }
}

/// An ingredient that is dragged over the lines shows where it would stand, and stands there when it is let go.
fn drop_ui(ui: &Ui, rows: &[Rangef], actions: &mut Vec<Action>) {
    if !DragAndDrop::has_payload_of_type::<Dragged>(ui.ctx()) {
        return;
    }
    let area = ui.min_rect().expand2(egui::vec2(0.0, space::ROW));
    let Some(pointer) = ui.ctx().pointer_interact_pos().filter(|pointer| area.contains(*pointer)) else { return };
    let at = rows.iter().filter(|row| row.center() < pointer.y).count();
    edge_ui(ui, rows, at);
    if ui.input(|input| input.pointer.any_released())
        && let Some(dragged) = DragAndDrop::take_payload::<Dragged>(ui.ctx())
    {
        actions.push(Action::AddIngredientAt { at, ingredient: Arc::clone(&dragged.0) });
    }
}

/// A line across the table, before the line at a place.
fn edge_ui(ui: &Ui, rows: &[Rangef], at: usize) {
    let area = ui.min_rect();
    let first = area.top() + space::TARGET;
    let y = rows.get(at).map(|row| row.min).or_else(|| rows.last().map(|row| row.max)).unwrap_or(first);
    let painter = ui.ctx().layer_painter(ui.layer_id());
    painter.hline(area.x_range(), y, egui::Stroke::new(2.0, Palette::of(ui).accent));
}

/// The way to the next ingredient.
pub fn add_ui(ui: &mut Ui, actions: &mut Vec<Action>) {
    let add = quiet_button(ui, theme::strong("+  add an ingredient").color(Palette::of(ui).accent));
    if add.on_hover_text("Go to the search; type a part of its name, Enter adds it (Ctrl+F)").clicked() {
        actions.push(Action::Focus(Focus::Search));
    }
}

/// What the rows have room for.
#[derive(Clone, Copy)]
#[expect(clippy::struct_excessive_bools, reason = "facts about a row that do not depend on each other")]
struct Columns {
    /// Temperatures have a column.
    has_temperature: bool,
    /// Notes have a column.
    has_note: bool,
    /// The note of this row stands under the name.
    has_note_below: bool,
    /// The row has a second line.
    is_tall: bool,
}

impl Columns {
    fn height(self) -> f32 {
        if self.is_tall { TALL_ROW } else { space::ROW }
    }

    /// The first line of a cell, and what stands under it.
    fn cell_ui(
        self,
        row: &mut TableRow<'_, '_>,
        (layout, second_layout): (Layout, Layout),
        first: impl FnOnce(&mut Ui),
        second: impl FnOnce(&mut Ui),
    ) {
        row.col(|ui| {
            // Always in two parts: what has the keyboard keeps it when a second line comes or goes.
            let cell = ui.max_rect();
            let (mut above, mut below) = (cell, cell);
            if self.is_tall {
                above.set_height(FIRST_LINE);
                below.min.y += SECOND_LINE;
            } else {
                below.min.y = below.max.y;
            }
            ui.scope_builder(UiBuilder::new().max_rect(above).layout(layout), first);
            ui.scope_builder(
                UiBuilder::new().max_rect(below).layout(second_layout.with_cross_align(Align::Min)),
                second,
            );
        });
    }

    fn heads_ui(self, row: &mut TableRow<'_, '_>) {
        let head = |ui: &mut Ui, words: &str| {
            ui.label(theme::caption(ui, words));
        };
        let right = |row: &mut TableRow<'_, '_>, words: &str| {
            row.col(|ui| {
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    ui.add_space(if matches!(words, "amount" | "°C") { AMOUNT_MARGIN } else { 0.0 });
                    head(ui, words);
                });
            });
        };
        row.col(|_| {});
        row.col(|ui| head(ui, "ingredient"));
        right(row, "amount");
        row.col(|_| {});
        if self.has_temperature {
            right(row, "°C");
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
        let (left, right) = (Layout::left_to_right(Align::Center), Layout::right_to_left(Align::Center));
        let sign = view.sign;
        let before = scene.pin.map(|pin| pin.line(line));
        let pinned_ui = |ui: &mut Ui, margin: f32, words: &dyn Fn(&Pin, &Line) -> String| {
            if let (Some(pin), Some(before)) = (scene.pin, before) {
                ui.add_space(margin);
                ghost_label(ui, &before.map_or_else(|| "–".to_owned(), |before| words(pin, before)));
            }
        };
        self.cell_ui(
            row,
            (left, left),
            |ui| {
                outcome.held = handle_ui(ui, line, actions).or(outcome.held);
            },
            |_| {},
        );
        // The second line is drawn by the same hands as the first: what happened to either goes to the same list.
        let mut of_note = Vec::new();
        self.cell_ui(
            row,
            (left, left),
            |ui| name_ui(ui, sign, line, actions),
            |ui| {
                if self.has_note_below {
                    of_note = note_ui(ui, view, line, outcome, NoteLook::Below);
                }
            },
        );
        actions.append(&mut of_note);
        self.cell_ui(
            row,
            (left, right),
            |ui| amount_ui(ui, scene, view, (place, line), outcome, actions),
            |ui| {
                pinned_ui(ui, AMOUNT_MARGIN, &|_, before| {
                    shown_amount(before.amount.in_unit(line.amount.unit()), sign)
                });
            },
        );
        self.cell_ui(row, (left, left), |ui| unit_ui(ui, line, actions), |_| {});
        if self.has_temperature {
            // The second line is drawn by the same hands as the first: what happened to either goes to the same list.
            let mut of_state = Vec::new();
            self.cell_ui(
                row,
                (left, right),
                |ui| temperature::temperature_ui(ui, scene, view, (place, line), outcome, actions),
                |ui| {
                    let changed = before
                        .map(|before| before.and_then(|before| before.temperature))
                        .filter(|before| *before != line.temperature);
                    match changed {
                        Some(before) => {
                            ui.add_space(AMOUNT_MARGIN);
                            ghost_label(ui, &temperature::shown(before, sign));
                        }
                        None => of_state = temperature::state_ui(ui, line),
                    }
                },
            );
            actions.append(&mut of_state);
        }
        self.cell_ui(
            row,
            (right, right),
            |ui| percent_ui(ui, scene, view, line, actions),
            |ui| pinned_ui(ui, 0.0, &|pin, before| share_of_line(&pin.analysis, before.id, sign)),
        );
        if self.has_note {
            self.cell_ui(
                row,
                (left, left),
                |ui| {
                    ui.add_space(NOTE_MARGIN);
                    of_note = note_ui(ui, view, line, outcome, NoteLook::Column);
                },
                |_| {},
            );
            actions.append(&mut of_note);
        }
        let is_near = view.selected == Some(line.id) || view.pointed == Some(Pointed::Line(line.id));
        self.cell_ui(row, (right, right), |ui| lock_ui(ui, line, is_near, actions), |_| {});
    }

    fn sum_ui(self, row: &mut TableRow<'_, '_>, scene: &Scene<'_>, view: &View, outcome: &mut Outcome) {
        let weighed = scene.analysis.make_up.weighed;
        let (left, right) = (Layout::left_to_right(Align::Center), Layout::right_to_left(Align::Center));
        let bold = |words: String| RichText::new(words).font(theme::table_bold());
        let mut figure_ui = |ui: &mut Ui, words: RichText, explanation: fn() -> Explanation| {
            let response = stop_label(ui, words);
            if response.gained_focus() {
                outcome.reached = Some(response.rect);
            }
            explain(&response, explanation);
        };
        row.col(|_| {});
        self.cell_ui(row, (left, left), |ui| drop(ui.label(bold("Together".to_owned()))), |_| {});
        self.cell_ui(
            row,
            (right, right),
            |ui| {
                ui.add_space(AMOUNT_MARGIN);
                let words = shown_mass(weighed.0, view.sign);
                let font = fitting_font(ui, &words, theme::table_bold(), AMOUNT - AMOUNT_MARGIN);
                figure_ui(ui, RichText::new(words).font(font), sheet::together);
            },
            |ui| {
                if let Some(pin) = scene.pin {
                    ui.add_space(AMOUNT_MARGIN);
                    ghost_label(ui, &shown_mass(pin.analysis.make_up.weighed.0, view.sign));
                }
            },
        );
        let unit = |ui: &mut Ui| {
            ui.add_space(space::TIGHT);
            ui.label(bold("g".to_owned()));
        };
        self.cell_ui(row, (left, left), unit, |_| {});
        if self.has_temperature {
            self.cell_ui(
                row,
                (right, right),
                |ui| temperature::end_ui(ui, scene, view.sign),
                |ui| temperature::pinned_end_ui(ui, scene, view.sign),
            );
        }
        let whole = if weighed.0 > 0.0 { fixed(100.0, 1, view.sign) } else { "–".to_owned() };
        self.cell_ui(row, (right, right), |ui| figure_ui(ui, bold(whole), sheet::line_share), |_| {});
        if self.has_note {
            row.col(|_| {});
        }
        row.col(|_| {});
    }
}
