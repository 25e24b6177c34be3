//! The form for the figures of an ingredient: the supplier's data sheet in place of a class value, or a new ingredient.
//!
//! What is typed and what follows from it is [`entered::Entered`]; here it is drawn.

mod entered;
mod properties;

use std::sync::Arc;

use egui::accesskit::Invalid;
use egui::{
    Align, Checkbox, CornerRadius, Grid, Id, Key, Layout, Modifiers, Response, RichText, ScrollArea, Stroke,
    StrokeKind, TextEdit, Ui,
};
use entered::{Closing, Entered, OWN_FIGURES};

use super::choice::{choice_ui, in_sight};
use super::{Confirm, DialogAnswer, choices_ui, takes_ctrl_enter, title_ui};
use crate::document::{Document, Edit};
use crate::ingredient::{Category, Component, Ingredient, OtherFatKind};
use crate::number::{DecimalSign, shortest};
use crate::recipe::LineId;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell::{Leave, NumberCell, NumberEvent, edited_cell, focus_cell, forget_typing};

/// How wide the form is.
pub(super) const WIDTH: f32 = 560.0;

/// How high a field is.
const FIELD: f32 = 26.0;
/// How wide a figure is.
const FIGURE: f32 = 84.0;
/// How wide the names at the left are.
const NAME: f32 = 150.0;
/// How wide a closed menu is.
const CHOICE: f32 = 140.0;
/// How wide the word "category" is.
const CATEGORY: f32 = 60.0;
/// Beside a part stands the colour of its group.
const MARK: f32 = 10.0;
/// How many parts stand in a column.
const ROWS: usize = Component::COUNT / 2;
/// What title, sum, buttons and the room around them take of the height of the window.
const AROUND: f32 = 210.0;
/// Higher than this, the form would have empty room.
const HIGHEST: f32 = 590.0;
/// What the buttons take of the row that they share with the reason why the form cannot be used.
const BUTTONS: f32 = 200.0;

/// The form for the figures of an ingredient.
#[derive(Debug)]
pub struct IngredientForm {
    entered: Entered,
    was_drawn: bool,
    /// The figure that is being typed, with its text before.
    typing: Option<(Figure, String)>,
    /// The figure that the keyboard goes on to, once all fields have seen its keys.
    next: Option<Figure>,
}

/// A figure of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Figure {
    Part(Component),
    Density,
}

impl Figure {
    fn id(self) -> Id {
        Id::unique(("figure of an ingredient", self))
    }

    /// Where Enter goes on; Shift and Enter goes back.
    fn neighbour(self, leave: Leave) -> Option<Self> {
        let Self::Part(component) = self else { return None };
        let place = match leave {
            Leave::Down => component.index() + 1,
            Leave::Up => component.index().checked_sub(1)?,
        };
        Component::ALL.get(place).map(|&component| Self::Part(component))
    }
}

impl IngredientForm {
    pub(super) fn of_line(ingredient: &Arc<Ingredient>, line: LineId, sign: DecimalSign) -> Self {
        Self::new(Entered::of_line(ingredient, line, sign))
    }

    pub(super) fn new_ingredient(sign: DecimalSign) -> Self {
        Self::new(Entered::new_ingredient(sign))
    }

    fn new(entered: Entered) -> Self {
        Self { entered, was_drawn: false, typing: None, next: None }
    }

    /// Whether work would be lost by closing it.
    pub(super) fn is_touched(&self) -> bool {
        self.entered.is_touched()
    }

    pub(super) fn ui(&mut self, ui: &mut Ui, document: &Document) -> Option<DialogAnswer> {
        if self.is_left(ui, document) {
            return Some(DialogAnswer::Closed);
        }
        let is_first = !std::mem::replace(&mut self.was_drawn, true);
        if is_first {
            for figure in Component::ALL.map(Figure::Part).into_iter().chain([Figure::Density]) {
                forget_typing(ui.ctx(), figure.id());
            }
        }
        let enter = takes_ctrl_enter(ui);
        title_ui(ui, if self.entered.line().is_some() { "Figures of this ingredient" } else { "New own ingredient" });
        let height = (ui.ctx().content_rect().height() - AROUND).min(HIGHEST);
        // Always as high, so that nothing moves under the hand that types.
        ScrollArea::vertical().max_height(height).auto_shrink(false).show(ui, |ui| {
            // The bar floats over the right edge.
            ui.set_width(ui.available_width() - space::GROUP);
            self.before_ui(ui, document);
            self.name_ui(ui, is_first);
            ui.add_space(space::NEAR);
            self.parts_ui(ui, is_first);
            ui.add_space(space::NEAR);
            self.rest_of_form_ui(ui);
        });
        ui.add_space(space::NEAR);
        self.sum_ui(ui);
        if let Some(next) = self.next.take() {
            focus_cell(ui.ctx(), next.id());
        }
        let reason = self.entered.why_not();
        let top = ui.cursor().top();
        let chosen = choices_ui(ui, vec![("Use it", true), ("Cancel", false)], reason.as_deref(), Confirm::CtrlEnter);
        reason_ui(ui, top, reason.as_deref());
        match chosen.or((enter && reason.is_none()).then_some(true)) {
            Some(true) => self.answer(document),
            Some(false) => Some(DialogAnswer::Closed),
            None => None,
        }
    }

    /// Whether Esc was pressed and no figure wants it to take back what is typed, or the line has gone.
    fn is_left(&self, ui: &Ui, document: &Document) -> bool {
        let line = self.entered.line();
        let has_gone = line.is_some_and(|line| {
            let now = document.recipe.line(line).map(|line| &line.ingredient);
            !now.is_some_and(|now| Arc::ptr_eq(now, self.entered.before()))
        });
        let escape = ui.input(|input| input.key_pressed(Key::Escape));
        has_gone || escape && edited_cell(ui.ctx()).is_none() && !egui::Popup::is_any_open(ui.ctx())
    }

    fn answer(&self, document: &Document) -> Option<DialogAnswer> {
        let line = self.entered.line();
        if line.is_some() && !self.entered.is_touched() {
            return Some(DialogAnswer::Closed);
        }
        let ingredient = Arc::new(self.entered.ingredient(&document.recipe).ok()?);
        Some(match line {
            Some(line) => DialogAnswer::Edit(Edit::ReplaceIngredient { line, ingredient }),
            None => DialogAnswer::AddIngredient(ingredient),
        })
    }

    /// What the figures rest on so far.
    fn before_ui(&self, ui: &mut Ui, document: &Document) {
        let before = self.entered.before();
        if let Some(line) = self.entered.line() {
            let source = match before.source.as_str() {
                "" => before.evidence.words().to_owned(),
                source => format!("{source} · {}", before.evidence.words()),
            };
            ui.label(theme::caption(ui, source));
            if !before.note.is_empty() {
                ui.label(theme::caption(ui, before.note.as_str()));
            }
            let lines = &document.recipe.lines;
            if let Some(file) = lines.iter().find(|other| other.id == line).and_then(|line| line.recipe_file.as_ref()) {
                ui.label(theme::caption(ui, format!("It stands for the recipe {file}; figures take its place")));
            }
            let count = lines.iter().filter(|line| line.ingredient.id == before.id).count();
            if count > 1 {
                ui.label(theme::caption(ui, format!("{count} lines have this ingredient; only this one changes")));
            }
        } else {
            let words = "From the supplier's data sheet or your own analysis; it is kept in this recipe";
            ui.label(theme::caption(ui, words));
        }
        ui.add_space(space::NEAR);
    }

    fn name_ui(&mut self, ui: &mut Ui, is_first: bool) {
        let is_new = self.entered.line().is_none();
        let fields = &mut self.entered.fields;
        ui.horizontal(|ui| {
            let label = named(ui, "name", 40.0);
            let width = ui.available_width() - CATEGORY - CHOICE - 3.0 * space::NEAR;
            let (field, is_entered) = text_ui(ui, &label, &mut fields.name, "as in the recipe", width);
            if is_first && is_new {
                field.request_focus();
            }
            if is_entered {
                self.next = Some(Figure::Part(Component::Water));
            }
            ui.add_space(space::NEAR);
            let label = named(ui, "category", CATEGORY);
            choice_ui(ui, &label, Category::ALL, CHOICE, Category::to_string, &mut fields.category);
        });
    }

    /// The parts in two columns; keys go down the left one first.
    fn parts_ui(&mut self, ui: &mut Ui, is_first: bool) {
        ui.label(theme::caption(ui, "g per 100 g · an empty field is 0 · ? is not known · small sums may be typed"));
        ui.add_space(space::TIGHT);
        let between = ui.available_width() - 2.0 * (NAME + space::NEAR + FIGURE);
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            for (column, parts) in Component::ALL.chunks(ROWS).enumerate() {
                if column > 0 {
                    ui.add_space(between);
                }
                Grid::new(("parts", column)).num_columns(2).spacing([space::NEAR, 2.0]).show(ui, |ui| {
                    for &component in parts {
                        part_name_ui(ui, component);
                        self.figure_ui(ui, Figure::Part(component));
                        ui.end_row();
                    }
                });
            }
        });
        if is_first && self.entered.line().is_some() {
            focus_cell(ui.ctx(), Figure::Part(Component::Water).id());
        }
    }

    fn rest_of_form_ui(&mut self, ui: &mut Ui) {
        let width = ui.available_width() - NAME - space::NEAR;
        Grid::new("rest of the form").num_columns(2).spacing([space::NEAR, 4.0]).show(ui, |ui| {
            let has_other_fat = self.entered.fields.part(Component::OtherFat) != Ok(Some(0.0));
            let label = named(ui, "kind of other fat", NAME);
            ui.horizontal(|ui| {
                let fields = &mut self.entered.fields;
                ui.add_enabled_ui(has_other_fat, |ui| {
                    let words = |kind: &OtherFatKind| kind.words().to_owned();
                    if choice_ui(ui, &label, &OtherFatKind::ALL, CHOICE, words, &mut fields.other_fat_kind) {
                        fields.other_fat_kind_is_estimate = false;
                    }
                })
                .response
                .on_disabled_hover_text("It has no other fat");
                ui.add_space(space::NEAR);
                let tick = ui.checkbox(&mut fields.fat_in_globules, "its fat is in globules");
                in_sight(tick).on_hover_text(
                    "As in cream, milk and egg: the fat mixes with other fat only when its globules have broken",
                );
            });
            ui.end_row();
            named(ui, "density", NAME);
            ui.horizontal(|ui| {
                self.figure_ui(ui, Figure::Density);
                ui.label(theme::caption(ui, "g/ml at 20 °C, of a fat at 40 °C · empty is not known"));
            });
            ui.end_row();
            let fields = &mut self.entered.fields;
            let label = named(ui, "source", NAME);
            text_ui(ui, &label, &mut fields.source, OWN_FIGURES, width);
            ui.end_row();
            let label = named(ui, "note", NAME);
            text_ui(ui, &label, &mut fields.note, "what one should know before relying on it", width);
            ui.end_row();
        });
        let lost = self.entered.lost_properties();
        if !lost.is_empty() {
            ui.label(theme::caption(ui, format!("Not known for the changed figures: {}", lost.join(", "))));
        }
    }

    /// A figure that is typed; it is kept as text until the form is used.
    fn figure_ui(&mut self, ui: &mut Ui, figure: Figure) -> Response {
        let (name, shown, problem) = match figure {
            Figure::Part(component) => (
                format!("{}, g per 100 g", component.words()),
                self.entered.fields.parts[component.index()].clone(),
                self.entered.fields.part(component).err(),
            ),
            Figure::Density => ("density, g/ml".to_owned(), self.entered.density_text(), self.entered.density().err()),
        };
        let id = figure.id();
        let keep = |text: &str| Ok(text.to_owned());
        let mut cell = NumberCell::new(id, &name, &shown, &keep).width(FIGURE).framed().in_column();
        if problem.is_some() {
            cell = cell.colour(Palette::of(ui).problem);
        }
        let output = cell.ui(ui);
        if let Some(reason) = problem {
            let stroke = Stroke::new(2.0, Palette::of(ui).problem);
            let radius = CornerRadius::same(space::FIELD_RADIUS);
            ui.painter().rect_stroke(output.response.rect, radius, stroke, StrokeKind::Inside);
            ui.ctx().accesskit_node_builder(id, |node| {
                node.set_invalid(Invalid::True);
                node.set_description(reason);
            });
        }
        match output.event {
            NumberEvent::Nothing => {}
            NumberEvent::Typing(text) => {
                if self.typing.as_ref().is_none_or(|(typed, _)| *typed != figure) {
                    self.typing = Some((figure, shown.clone()));
                }
                self.set(figure, text);
            }
            NumberEvent::Committed(text) => {
                self.typing = None;
                self.set(figure, text);
            }
            NumberEvent::Cancelled => {
                if let Some((typed, before)) = self.typing.take() {
                    self.set(typed, before);
                }
            }
        }
        if let Some(leave) = output.leave {
            self.next = figure.neighbour(leave);
            take_enter(ui);
        }
        in_sight(output.response)
    }

    fn set(&mut self, figure: Figure, text: String) {
        let fields = &mut self.entered.fields;
        match figure {
            Figure::Part(component) => fields.parts[component.index()] = text,
            Figure::Density => fields.density = Some(text),
        }
    }

    /// What the parts come to, and what is left of 100 g.
    fn sum_ui(&mut self, ui: &mut Ui) {
        let palette = Palette::of(ui);
        let sign = self.entered.sign();
        let grams = |grams: f64| format!("{} g", shortest(grams, 2, sign));
        let fields = &mut self.entered.fields;
        let (state, colour) = match fields.closing() {
            Closing::Unreadable => ("a figure cannot be read".to_owned(), palette.problem),
            Closing::Closes => ("closes to 100 ± 0.2 g".to_owned(), palette.accent),
            Closing::LeftOpen(open) => (format!("closes with {} left open", grams(open)), palette.accent),
            Closing::NotKnown(1) => ("one part is not known".to_owned(), palette.text),
            Closing::NotKnown(count) => (format!("{count} parts are not known"), palette.text),
            Closing::Missing(missing) => (format!("{} missing", grams(missing)), palette.problem),
            Closing::TooMuch(excess) => (format!("{} too much", grams(excess)), palette.problem),
        };
        let sum = fields.sum().map_or_else(|| crate::number::NO_NUMBER.to_owned(), grams);
        let rest = fields.rest();
        ui.separator();
        ui.horizontal(|ui| {
            ui.label(theme::strong(format!("Sum {sum}")));
            ui.label(RichText::new(state).color(colour));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let words = rest.map_or_else(
                    || "the data sheet leaves the rest open".to_owned(),
                    |rest| format!("the data sheet leaves the rest open: {}", grams(rest)),
                );
                let can_be_open = rest.is_some() || fields.leaves_rest_open;
                let tick = ui.add_enabled(can_be_open, Checkbox::new(&mut fields.leaves_rest_open, words));
                tick.on_hover_text("The rest is kept as “left open”, shown and never spread over the other parts")
                    .on_disabled_hover_text("There is nothing left, or it is in what is not known");
            });
        });
    }
}

/// Why it cannot be used, at the left of the buttons that begin at this height.
fn reason_ui(ui: &mut Ui, top: f32, reason: Option<&str>) {
    let Some(reason) = reason else { return };
    let row = ui.min_rect();
    let place = egui::Rect::from_min_max(egui::pos2(row.left(), top), row.max - egui::vec2(BUTTONS, 0.0));
    let layout = Layout::left_to_right(Align::Max).with_main_wrap(false);
    ui.scope_builder(egui::UiBuilder::new().max_rect(place).layout(layout), |ui| {
        let words = RichText::new(reason).font(theme::small()).color(Palette::of(ui).problem);
        ui.add(egui::Label::new(words).wrap());
    });
}

/// Enter was meant for a field: the accented button must not have it too.
fn take_enter(ui: &Ui) {
    ui.input_mut(|input| {
        input.consume_key(Modifiers::SHIFT, Key::Enter);
        input.consume_key(Modifiers::NONE, Key::Enter);
    });
}

/// A name at the left of a field.
fn named(ui: &mut Ui, name: &str, width: f32) -> Response {
    let layout = Layout::left_to_right(Align::Center);
    ui.allocate_ui_with_layout(egui::vec2(width, FIELD), layout, |ui| {
        ui.set_min_width(width);
        ui.label(name)
    })
    .inner
}

/// The name of a part with the colour of its group.
fn part_name_ui(ui: &mut Ui, component: Component) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::NEAR;
        ui.set_min_size(egui::vec2(NAME, FIELD));
        let (mark, _) = ui.allocate_exact_size(egui::Vec2::splat(MARK), egui::Sense::hover());
        let fill = theme::component_colour(component).fill();
        ui.painter().rect_filled(mark, CornerRadius::same(space::MARK_RADIUS), fill);
        ui.label(component.words());
    });
}

/// A field for words; gives back too whether Enter was pressed in it.
fn text_ui(ui: &mut Ui, label: &Response, text: &mut String, hint: &str, width: f32) -> (Response, bool) {
    let field = TextEdit::singleline(text)
        .hint_text(hint)
        .margin(egui::Margin::symmetric(8, 4))
        .desired_width(width)
        .min_size(egui::vec2(0.0, FIELD));
    let response = in_sight(ui.add(field).labelled_by(label.id));
    let is_entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if is_entered {
        take_enter(ui);
    }
    (response, is_entered)
}
