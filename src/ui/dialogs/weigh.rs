//! What to weigh today: what is asked for at the left, the weighing list of it at the right.
//!
//! The form changes nothing by itself. What is typed stays when it is closed and comes back with it, for another recipe what is
//! the bench's own. Other recipes of the shelf can stand beside it: each with its own mass or asked for in the same way, and the
//! seed of the day is for all of them.

mod also;
mod fields;
mod list;
mod own_steps;
mod typing;

use std::sync::Arc;

use egui::{Align, Grid, Layout, Response, ScrollArea, Ui};

pub use fields::Field;
use rust_decimal::Decimal;

use also::{Also, Other};
use fields::{Asked, At, Fields, MadeAs, Wrong, shell_density};
use typing::Typing;

use super::choice::choice_ui;
use super::{Around, Confirm, DialogAnswer, choices_ui, takes_ctrl_enter, title_ui};
use crate::analysis::make_up::make_up;
use crate::document::Document;
use crate::ingredient::{Category, Library};
use crate::number::{DecimalSign, fixed, shortest, with_sign};
use crate::production::day::Day;
use crate::production::density::density_of;
use crate::production::piece_cost::work_cost;
use crate::production::price_list::PriceList;
use crate::recipe::Quantity;
use crate::report::text::weighing_list;
use crate::ui::explanations::weighing_fields as explanations;
use crate::ui::text::UNNAMED;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell::select_all;
use crate::units::GramsPerMillilitre;

/// How wide the dialog is, where the window has room.
pub(super) const WIDTH: f32 = 1080.0;
/// How wide what is typed is.
const LEFT: f32 = 408.0;
/// How wide a name at the left of a field is.
const NAME: f32 = 104.0;
/// How wide a menu is.
const CHOICE: f32 = 230.0;
/// What stands above and below the two columns.
const AROUND: f32 = 216.0;
/// Higher than this they are not.
const HIGHEST: f32 = 760.0;

/// The form, and the list that is made of it.
#[derive(Debug)]
pub struct WeighForm {
    fields: Fields,
    before: Fields,
    sign: DecimalSign,
    prices: PriceList,
    /// What shells and coats can be made of, by the price list: ids and names.
    shells: Vec<(String, String)>,
    /// What else is made today.
    also: Also,
    list: Option<List>,
    was_drawn: bool,
    /// Enter was pressed in a field: the next one gets the keyboard.
    goes_on: bool,
}

/// What was computed last, and of what.
#[derive(Debug)]
struct List {
    document: Arc<Document>,
    others: Vec<Other>,
    fields: Fields,
    day: Result<Day, Wrong>,
    /// The density that counts while none is typed.
    density: Option<GramsPerMillilitre>,
    shell_density: Option<GramsPerMillilitre>,
}

impl List {
    fn new(document: &Arc<Document>, others: Vec<Other>, fields: &Fields, prices: &PriceList) -> Self {
        let mut day = fields.day(&document.recipe, &others);
        for work in day.iter_mut().flat_map(|day| &mut day.works) {
            let shell = fields.shell_of.as_deref().filter(|_| fields.has_shell());
            let cost = work_cost(work, prices, shell, Decimal::ZERO);
            work.cost = Some(cost).filter(|cost| cost.ingredients.currency.is_some());
        }
        Self {
            document: Arc::clone(document),
            others,
            fields: fields.clone(),
            day,
            density: density_of(&make_up(&document.recipe).bowl).ok().map(|density| density.value),
            shell_density: shell_density(),
        }
    }
}

/// What an empty field shows.
#[derive(Clone, Copy)]
enum Empty<'a> {
    /// What could be typed.
    Example(&'a str),
    /// What counts as long as nothing is typed.
    Counts(&'a str),
    /// Nothing: there is no room for an example.
    Asks,
}

#[derive(Clone, Copy)]
enum Choice {
    Copy,
    Save,
    Scale,
    Close,
}

impl WeighForm {
    pub(super) fn new(document: &Document, prices: &PriceList, sign: DecimalSign) -> Self {
        let mut fields = Fields::of_recipe(&document.recipe, sign);
        let shells = shells(document, prices);
        fields.shell_of = usual_shell(&shells);
        Self {
            shells,
            before: fields.clone(),
            fields,
            sign,
            prices: prices.clone(),
            also: Also::default(),
            list: None,
            was_drawn: false,
            goes_on: false,
        }
    }

    /// The form for another recipe, or for the same one if nothing was typed: with the same bowls and scales.
    pub(super) fn anew(&self, document: &Document, prices: &PriceList, sign: DecimalSign) -> Self {
        let mut form = Self::new(document, prices, sign);
        form.fields = form.fields.at_the_bench_of(&self.fields);
        form.before = form.fields.clone();
        form
    }

    /// The form as it was, opened again.
    pub(super) fn again(mut self, document: &Document, prices: &PriceList, sign: DecimalSign) -> Self {
        if self.fields == self.before.clone().at_the_bench_of(&self.fields) {
            return self.anew(document, prices, sign);
        }
        (self.prices, self.sign) = (prices.clone(), sign);
        self.shells = shells(document, prices);
        if self.fields.shell_of.as_ref().is_none_or(|id| self.shells.iter().all(|(other, _)| other != id)) {
            self.fields.shell_of = usual_shell(&self.shells);
        }
        (self.list, self.was_drawn) = (None, false);
        self
    }

    pub(super) fn ui(&mut self, ui: &mut Ui, around: &Around<'_>) -> Option<DialogAnswer> {
        let document = around.document;
        let is_first = !std::mem::replace(&mut self.was_drawn, true);
        let copies = takes_ctrl_enter(ui);
        title_ui(ui, "What to weigh today");
        let name = if document.recipe.name.is_empty() { UNNAMED } else { &document.recipe.name };
        ui.label(theme::caption(ui, format!("{name} · nothing changes in the sheet until you scale it")));
        ui.add_space(space::NEAR);
        let height = (ui.ctx().content_rect().height() - AROUND).clamp(160.0, HIGHEST);
        let width = ui.available_width();
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            let left = LEFT.min(width * 0.5);
            column_ui(ui, "what is asked for", left, height, |ui| self.fields_ui(ui, around, is_first));
            ui.add_space(space::GROUP);
            // What was just typed counts: the list is of this frame.
            self.take_up(ui, document);
            let (right, sign) = (ui.available_width(), self.sign);
            let Some(list) = &self.list else { return };
            column_ui(ui, "weighing list", right, height, |ui| match &list.day {
                Ok(day) => list::list_ui(ui, day, sign),
                Err(wrong) => no_list_ui(ui, wrong),
            });
        });
        let day = self.list.as_ref().and_then(|list| list.day.as_ref().ok());
        let why_not = if day.is_some() { None } else { Some("There is no list yet") };
        let mut buttons = vec![("Copy the list", Choice::Copy)];
        if day.is_some() {
            buttons.extend([("Save as text…", Choice::Save), ("Scale the sheet", Choice::Scale)]);
        }
        buttons.push(("Close", Choice::Close));
        let chosen = choices_ui(ui, buttons, why_not, Confirm::CtrlEnter);
        match chosen.or((copies && day.is_some()).then_some(Choice::Copy))? {
            Choice::Copy => Some(DialogAnswer::CopyList(weighing_list(day?, self.sign))),
            Choice::Save => Some(DialogAnswer::SaveList(weighing_list(day?, self.sign))),
            Choice::Scale => {
                let batch = &day?.works.first()?.batch;
                let weighed = Quantity::from_grams(batch.recipe.weighed().0).ok()?;
                Some(DialogAnswer::Scale { weighed, pieces: batch.recipe.pieces })
            }
            Choice::Close => Some(DialogAnswer::Closed),
        }
    }

    /// Computes the list where the recipe or what is typed has changed.
    fn take_up(&mut self, ui: &Ui, document: &Arc<Document>) {
        let others = self.also.others();
        let is_same =
            |list: &List| Arc::ptr_eq(&list.document, document) && list.fields == self.fields && list.others == others;
        if !self.list.as_ref().is_some_and(is_same) {
            self.list = Some(List::new(document, others, &self.fields, &self.prices));
            // The fields are marked by it: drawn once more before it is seen.
            ui.ctx().request_discard("there is another weighing list");
        }
    }

    fn fields_ui(&mut self, ui: &mut Ui, around: &Around<'_>, is_first: bool) {
        let document: &Document = around.document;
        ui.label(theme::strong("What is asked for"));
        ui.add_space(space::TIGHT);
        Grid::new("asked for").num_columns(2).spacing([space::NEAR, 6.0]).show(ui, |ui| {
            self.asked_ui(ui, document, is_first);
            self.made_as_ui(ui);
            named(ui, "further losses");
            self.row_ui(ui, &[(Field::Losses, Empty::Counts("0"), "%")], "behind the recipe's own");
        });
        let own = document.recipe.losses.transfer.share();
        if own.0 > 0.0 {
            let percent = shortest(own.to_percent(), 2, self.sign);
            ui.label(theme::caption(
                ui,
                format!("The recipe's own {percent} % that stays in bowls and bags is counted"),
            ));
        }
        ui.add_space(space::GROUP);
        ui.label(theme::strong("At the bench"));
        ui.add_space(space::TIGHT);
        Grid::new("at the bench").num_columns(2).spacing([space::NEAR, 6.0]).show(ui, |ui| {
            named(ui, "a bowl holds");
            self.row_ui(ui, &[(Field::Bowl, Empty::Example("8 kg"), "")], "empty: all in one");
            named(ui, "scale in steps of");
            self.row_ui(ui, &[(Field::Step, Empty::Counts("1 g"), "")], "what its last digit does");
            named(ui, "a finer one");
            self.row_ui(ui, &[(Field::FineStep, Empty::Example("0.1 g"), "")], "for what is little");
            let width = LEFT - NAME - 3.0 * space::NEAR;
            let mut typing = Typing { sign: self.sign, wrong: refused(self.list.as_ref()), goes_on: &mut self.goes_on };
            named(ui, "own scale for");
            self.fields.own_steps.ui(ui, &document.recipe, &self.also.others(), &mut typing, width);
            ui.end_row();
            named(ui, "also today");
            self.also.ui(ui, around, &mut typing, width);
            ui.end_row();
            named(ui, "seed ready");
            self.row_ui(ui, &[(Field::Ready, Empty::Example("30 g"), "")], "may stay empty");
        });
    }

    fn asked_ui(&mut self, ui: &mut Ui, document: &Document, is_first: bool) {
        let label = named(ui, "asked for");
        choice_ui(ui, &label, &Asked::ALL, CHOICE, |asked| asked.words().to_owned(), &mut self.fields.asked);
        ui.end_row();
        if self.fields.asked == Asked::AtHand {
            let mut names: Vec<String> = Vec::new();
            for line in &document.recipe.lines {
                if !names.contains(&line.ingredient.name) {
                    names.push(line.ingredient.name.clone());
                }
            }
            let label = named(ui, "of");
            choice_ui(ui, &label, &names, CHOICE, String::clone, &mut self.fields.ingredient);
            ui.end_row();
        }
        named(ui, "how much");
        let field = self.fields.asked.field();
        let example = match field {
            Field::Mass | Field::AtHand => "2.5 kg",
            Field::Frames => "2",
            _ => "168",
        };
        ui.horizontal(|ui| {
            let response = self.field_ui(ui, field, Empty::Example(example));
            if is_first {
                response.request_focus();
                select_all(ui.ctx(), response.id, self.fields.text(field));
            }
            ui.label(theme::caption(ui, "empty: as it stands"));
        });
        ui.end_row();
    }

    fn made_as_ui(&mut self, ui: &mut Ui) {
        let label = named(ui, "made of it");
        let mut made_as = self.fields.made_as();
        let words = |made_as: &MadeAs| made_as.words().to_owned();
        if choice_ui(ui, &label, self.fields.can_be_made_as(), CHOICE, words, &mut made_as) {
            self.fields.made_as = made_as;
        }
        ui.end_row();
        let list = self.list.as_ref();
        let sign = self.sign;
        let computed = |density: Option<GramsPerMillilitre>| density.map(|density| fixed(density.0, 3, sign));
        let of_mass = list.and_then(|list| computed(list.density));
        let of_shell = list.and_then(|list| computed(list.shell_density));
        match self.fields.made_as() {
            MadeAs::Nothing => return,
            MadeAs::Weight => {
                named(ui, "a piece weighs");
                self.row_ui(ui, &[(Field::Piece, Empty::Example("8.3 g"), "")], "with its shell");
                named(ui, "shell");
                self.row_ui(ui, &[(Field::Shell, Empty::Counts("0"), "%")], "of the piece");
                self.shell_of_ui(ui, "shell of");
                return;
            }
            MadeAs::Mould => {
                named(ui, "a cavity holds");
                self.row_ui(ui, &[(Field::Cavity, Empty::Example("10"), "ml")], "");
                named(ui, "shell");
                self.row_ui(ui, &[(Field::Shell, Empty::Counts("0"), "%")], "of the piece");
                named(ui, "shell density");
                let hint = of_shell.unwrap_or_default();
                self.row_ui(ui, &[(Field::ShellDensity, Empty::Counts(&hint), "g/ml")], "empty: dark couverture");
                self.shell_of_ui(ui, "shell of");
            }
            MadeAs::Frame => {
                named(ui, "frame inside");
                let sides = [
                    (Field::Length, Empty::Asks, "×"),
                    (Field::Width, Empty::Asks, "×"),
                    (Field::Height, Empty::Asks, "mm"),
                ];
                self.row_ui(ui, &sides, "");
                named(ui, "cut to");
                self.row_ui(ui, &[(Field::Along, Empty::Asks, "×"), (Field::Across, Empty::Counts("same"), "mm")], "");
                named(ui, "trimmed");
                self.row_ui(ui, &[(Field::Trim, Empty::Counts("0"), "mm")], "on every side");
                named(ui, "coat");
                self.row_ui(ui, &[(Field::Shell, Empty::Counts("0"), "%")], "of the coated piece");
                self.shell_of_ui(ui, "coat of");
            }
        }
        named(ui, "mass density");
        let hint = of_mass.unwrap_or_else(|| "1.2".to_owned());
        self.row_ui(ui, &[(Field::Density, Empty::Counts(&hint), "g/ml")], "empty: computed");
    }

    /// What shells or coats are made of, where that has a price: it counts in what a piece costs.
    fn shell_of_ui(&mut self, ui: &mut Ui, name: &str) {
        if self.shells.is_empty() {
            return;
        }
        let label = named(ui, name);
        let all: Vec<Option<String>> = self.shells.iter().map(|(id, _)| Some(id.clone())).chain([None]).collect();
        let shells = &self.shells;
        let words = |chosen: &Option<String>| {
            let name = shells.iter().find(|(id, _)| Some(id) == chosen.as_ref()).map(|(_, name)| name.clone());
            name.unwrap_or_else(|| "not counted in the cost".to_owned())
        };
        // Always there: what stands below it does not move when a share is typed.
        ui.add_enabled_ui(self.fields.has_shell(), |ui| {
            choice_ui(ui, &label, &all, CHOICE, words, &mut self.fields.shell_of);
        });
        ui.end_row();
    }

    /// The fields of a row, each with what stands behind it; then the next row.
    fn row_ui(&mut self, ui: &mut Ui, fields: &[(Field, Empty<'_>, &str)], words: &str) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            for (field, empty, unit) in fields {
                self.field_ui(ui, *field, *empty);
                if !unit.is_empty() {
                    ui.label(*unit);
                }
            }
            if !words.is_empty() {
                ui.label(theme::caption(ui, words));
            }
        });
        ui.end_row();
    }

    /// A field for a figure. Enter goes on to the next one.
    fn field_ui(&mut self, ui: &mut Ui, field: Field, empty: Empty<'_>) -> Response {
        let sign = self.sign;
        let mut typing = Typing { sign, wrong: refused(self.list.as_ref()), goes_on: &mut self.goes_on };
        let explain = || explanations::field(field, sign);
        typing.field_ui(ui, (At::Field(field), field.name()), self.fields.text_mut(field), empty, explain)
    }
}

/// What is refused of what was typed before this frame.
fn refused(list: Option<&List>) -> Option<&Wrong> {
    list?.day.as_ref().err().filter(|wrong| wrong.is_refused)
}

/// The couvertures that have a price, those of the recipe among them.
fn shells(document: &Document, prices: &PriceList) -> Vec<(String, String)> {
    let of_recipe =
        |id: &str| document.recipe.lines.iter().map(|line| &line.ingredient).find(|ingredient| ingredient.id == id);
    let couverture = |id: &str| {
        let ingredient = of_recipe(id).or_else(|| Library::built_in().by_id(id))?;
        (ingredient.category == Category::Couverture).then(|| (id.to_owned(), ingredient.name.clone()))
    };
    let mut shells: Vec<_> = prices.iter().filter_map(|(id, _)| couverture(id)).collect();
    shells.sort_by(|left, right| left.1.cmp(&right.1));
    shells
}

/// Dark couverture, as for the density of a shell; else the first there is.
fn usual_shell(shells: &[(String, String)]) -> Option<String> {
    let usual = shells.iter().find(|(id, _)| id == fields::SHELL);
    usual.or_else(|| shells.first()).map(|(id, _)| id.clone())
}

/// What stands where the list will be.
fn no_list_ui(ui: &mut Ui, wrong: &Wrong) {
    let palette = Palette::of(ui);
    ui.label(theme::strong("No list yet"));
    ui.add_space(space::TIGHT);
    let words = match &wrong.name {
        Some(name) if wrong.is_refused => format!("{name}: {}", wrong.reason),
        _ => wrong.reason.clone(),
    };
    let colour = if wrong.is_refused { palette.problem } else { palette.text };
    ui.label(egui::RichText::new(words).color(colour));
}

/// A column that scrolls by itself and is always as high, so that nothing moves under the hand that types.
fn column_ui(ui: &mut Ui, name: &str, width: f32, height: f32, contents: impl FnOnce(&mut Ui)) {
    ui.allocate_ui(egui::vec2(width, height), |ui| {
        ui.set_min_size(egui::vec2(width, height));
        ScrollArea::vertical().id_salt(name).max_height(height).auto_shrink(false).show(ui, |ui| {
            // The bar floats over the right edge.
            ui.set_width(width - space::GROUP);
            ui.spacing_mut().item_spacing.x = space::NEAR;
            ui.vertical(contents);
        });
    });
}

/// A name at the left of a field or menu, in the middle of its height; of several rows beside the first.
fn named(ui: &mut Ui, name: &str) -> Response {
    let room = egui::vec2(NAME, typing::HEIGHT);
    // The grid would put what is drawn in it without a scope into the middle of all rows.
    let scope = ui.scope(|ui| {
        ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_size(room);
            ui.label(name)
        })
    });
    scope.inner.inner
}
