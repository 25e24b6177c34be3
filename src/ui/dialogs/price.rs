//! The form for what an ingredient costs. It goes into the user's price list, not into the recipe.

use egui::accesskit::Invalid;
use egui::{ComboBox, CornerRadius, Grid, Response, Stroke, StrokeKind, TextEdit, Ui};
use rust_decimal::Decimal;

use super::{Confirm, DialogAnswer, choices_ui, takes_ctrl_enter, title_ui};
use crate::ingredient::Ingredient;
use crate::number::{DecimalSign, parse_decimal};
use crate::production::price::{Currency, Price};
use crate::production::price_list::{PriceEntry, PriceList};
use crate::recipe::MassUnit;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell::select_all;

/// How wide a field for a figure is.
const FIGURE: f32 = 84.0;
/// How wide the menu of the units is.
const UNIT: f32 = 56.0;

/// The form for what an ingredient costs.
#[derive(Debug)]
pub struct PriceForm {
    ingredient: String,
    name: String,
    fields: Fields,
    before: Fields,
    /// Whether the list has a price for it.
    is_listed: bool,
    was_drawn: bool,
}

/// What is typed.
#[derive(Clone, Debug, PartialEq)]
struct Fields {
    amount: String,
    currency: String,
    per: String,
    unit: MassUnit,
    usable: String,
    day: String,
}

impl Fields {
    fn of(price: &Price, sign: DecimalSign) -> Self {
        let typed = |figure: Decimal| figure.to_string().replace('.', &sign.character().to_string());
        Self {
            amount: typed(price.amount()),
            currency: price.currency().words().to_owned(),
            per: typed(price.per()),
            unit: price.unit(),
            usable: typed(price.usable_percent()),
            day: price.date().map(|day| day.to_string()).unwrap_or_default(),
        }
    }

    /// The price that is typed; or the field that is wrong, and why.
    fn price(&self) -> Result<Price, (Field, String)> {
        let number = |field: Field, text: &str| parse_decimal(text).map_err(|error| (field, error.to_string()));
        if self.amount.trim().is_empty() {
            return Err((Field::Amount, "type what you pay for it".to_owned()));
        }
        let amount = number(Field::Amount, &self.amount)?;
        let currency = Currency::new(&self.currency).map_err(|error| (Field::Currency, error.to_string()))?;
        let per = number(Field::Per, &self.per)?;
        let usable = number(Field::Usable, &self.usable)?;
        // Each figure on its own, so that the field that is wrong is the one that is marked.
        let one = |amount, per| Price::new(amount, currency.clone(), per, self.unit);
        one(amount, Decimal::ONE).map_err(|error| (Field::Amount, error.to_string()))?;
        let price = one(amount, per).map_err(|error| (Field::Per, error.to_string()))?;
        let price = price.usable(usable).map_err(|error| (Field::Usable, error.to_string()))?;
        match self.day.trim() {
            "" => Ok(price),
            day => day.parse().map(|day| price.dated(day)).map_err(|error| (Field::Date, format!("{error}"))),
        }
    }
}

/// A field of the form.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Field {
    Amount,
    Currency,
    Per,
    Usable,
    Date,
}

impl Field {
    /// Its name for those who cannot see where it stands.
    fn words(self) -> &'static str {
        match self {
            Self::Amount => "price",
            Self::Currency => "currency",
            Self::Per => "for how much",
            Self::Usable => "usable, %",
            Self::Date => "price of the day",
        }
    }
}

impl PriceForm {
    pub(super) fn new(ingredient: &Ingredient, prices: &PriceList, sign: DecimalSign) -> Self {
        let listed = prices.price(&ingredient.id);
        let fields = listed.map_or_else(
            || Fields {
                amount: String::new(),
                // Who has written one price writes the next in the same money.
                currency: prices
                    .iter()
                    .next()
                    .map(|(_, entry)| entry.price.currency().words().to_owned())
                    .unwrap_or_default(),
                per: "1".to_owned(),
                unit: MassUnit::Kilogram,
                usable: "100".to_owned(),
                day: String::new(),
            },
            |price| Fields::of(price, sign),
        );
        Self {
            ingredient: ingredient.id.clone(),
            name: ingredient.name.clone(),
            before: fields.clone(),
            fields,
            is_listed: listed.is_some(),
            was_drawn: false,
        }
    }

    /// Whether something was typed.
    pub(super) fn is_touched(&self) -> bool {
        self.fields != self.before
    }

    pub(super) fn ui(&mut self, ui: &mut Ui) -> Option<DialogAnswer> {
        let is_first = !std::mem::replace(&mut self.was_drawn, true);
        let enter = takes_ctrl_enter(ui);
        title_ui(ui, &format!("Price of {}", self.name));
        let words = "Kept in your price list for every recipe with this ingredient; it is no part of the recipe";
        ui.label(theme::caption(ui, words));
        ui.add_space(space::NEAR);
        let entered = self.fields.price();
        let wrong = entered.as_ref().err().map(|(field, reason)| (*field, reason.clone()));
        self.fields_ui(ui, wrong.as_ref(), is_first);
        // An empty form is not wrong yet.
        let reason = wrong.map(|(_, reason)| reason);
        let shown = reason.clone().filter(|_| self.is_touched()).unwrap_or_default();
        ui.label(egui::RichText::new(shown).color(Palette::of(ui).problem));
        let mut buttons = vec![("Save the price", Choice::Save), ("Cancel", Choice::Cancel)];
        if self.is_listed {
            buttons.push(("Take it off the list", Choice::Remove));
        }
        let chosen = choices_ui(ui, buttons, reason.as_deref(), Confirm::CtrlEnter);
        match chosen.or((enter && reason.is_none()).then_some(Choice::Save))? {
            Choice::Save => {
                let entry = PriceEntry { name: self.name.clone(), price: entered.ok()? };
                Some(self.answer(Some(entry)))
            }
            Choice::Remove => Some(self.answer(None)),
            Choice::Cancel => Some(DialogAnswer::Closed),
        }
    }

    fn answer(&self, entry: Option<PriceEntry>) -> DialogAnswer {
        DialogAnswer::SetPrice { ingredient: self.ingredient.clone(), entry }
    }

    fn fields_ui(&mut self, ui: &mut Ui, wrong: Option<&(Field, String)>, is_first: bool) {
        let is_touched = self.is_touched();
        let wrong = wrong.filter(|_| is_touched);
        let fields = &mut self.fields;
        Grid::new("price").num_columns(2).spacing([space::GROUP, 6.0]).show(ui, |ui| {
            ui.label("you pay");
            ui.horizontal(|ui| {
                let amount = field_ui(ui, Field::Amount, &mut fields.amount, FIGURE, wrong);
                if is_first {
                    amount.request_focus();
                    select_all(ui.ctx(), amount.id, &fields.amount);
                }
                field_ui(ui, Field::Currency, &mut fields.currency, FIGURE, wrong);
                ui.label(theme::caption(ui, "word or sign of your money, for instance EUR"));
            });
            ui.end_row();
            ui.label("for");
            ui.horizontal(|ui| {
                field_ui(ui, Field::Per, &mut fields.per, FIGURE, wrong);
                let menu = ComboBox::from_id_salt("unit of the price").selected_text(fields.unit.symbol()).width(UNIT);
                let menu = menu.show_ui(ui, |ui| {
                    for unit in MassUnit::ALL {
                        ui.selectable_value(&mut fields.unit, unit, unit.symbol());
                    }
                });
                named(ui, &menu.response, "unit of the price");
                ui.label(theme::caption(ui, "the pack that you buy"));
            });
            ui.end_row();
            ui.label("usable");
            ui.horizontal(|ui| {
                field_ui(ui, Field::Usable, &mut fields.usable, FIGURE, wrong);
                ui.label(theme::caption(ui, "% · less where peel, shells or the rest in the bag are lost"));
            });
            ui.end_row();
            ui.label("price of");
            ui.horizontal(|ui| {
                field_ui(ui, Field::Date, &mut fields.day, 1.4 * FIGURE, wrong);
                ui.label(theme::caption(ui, "year-month-day · may stay empty"));
            });
            ui.end_row();
        });
    }
}

#[derive(Clone, Copy)]
enum Choice {
    Save,
    Remove,
    Cancel,
}

/// A field for a word or a figure, outlined where it is the one that is wrong.
fn field_ui(ui: &mut Ui, field: Field, text: &mut String, width: f32, wrong: Option<&(Field, String)>) -> Response {
    let edit = TextEdit::singleline(text).desired_width(width - 12.0);
    let response = ui.add(edit.min_size(egui::vec2(width, space::TARGET)));
    named(ui, &response, field.words());
    if let Some((_, reason)) = wrong.filter(|(wrong, _)| *wrong == field) {
        let stroke = Stroke::new(2.0, Palette::of(ui).problem);
        let radius = CornerRadius::same(space::FIELD_RADIUS);
        ui.painter().rect_stroke(response.rect, radius, stroke, StrokeKind::Inside);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_invalid(Invalid::True);
            node.set_description(reason.clone());
        });
    }
    response
}

fn named(ui: &Ui, response: &Response, name: &str) {
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
}
