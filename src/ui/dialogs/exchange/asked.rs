//! The left side of the dialog: what goes, what comes, what is held, and how.

use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Align, ComboBox, Layout, RichText, Ui, WidgetInfo};

use super::ExchangeForm;
use crate::analysis::ROOM;
use crate::analysis::make_up::make_up;
use crate::ingredient::{Ingredient, Library};
use crate::number::{DecimalSign, shortest};
use crate::recipe::Recipe;
use crate::reformulate::substitute::{Others, held_within, mass_with_cost};
use crate::reformulate::{Change, Figure, Measured};
use crate::report::words::capital;
use crate::report::words::reformulation::{Money, amount, decimals, figure, likely, measured, unit};
use crate::ui::exchange::{Asked, Where};
use crate::ui::panels::results_menu::ResultsMenu;
use crate::ui::panels::shelf;
use crate::ui::theme::{self, space};
use crate::ui::widgets::focus_ring;

/// Draws all of the question.
pub(super) fn asked_ui(ui: &mut Ui, form: &mut ExchangeForm) {
    let document = Arc::clone(&form.document);
    let recipe = &document.recipe;
    let sign = form.sign;
    caption_ui(ui, "What goes");
    from_ui(ui, form, recipe);
    ui.add_space(space::NEAR);
    caption_ui(ui, "What comes in its place");
    let from = form.asked.from.clone();
    let find = |query: &str| found(query, recipe, &from);
    form.coming.ui(ui, &mut form.asked.to, sign, &find);
    ui.add_space(space::NEAR);
    caption_ui(ui, "What may come besides");
    form.besides.ui(ui, &mut form.asked.besides, sign, &find);
    ui.add_space(space::NEAR);
    held_ui(ui, &mut form.asked, recipe, form.at, sign);
    ui.add_space(space::NEAR);
    how_ui(ui, &mut form.asked);
}

fn caption_ui(ui: &mut Ui, words: &str) {
    ui.label(theme::caption(ui, words));
}

/// What a search finds; before anything is typed, what is of the same group as what goes.
fn found(query: &str, recipe: &Recipe, from: &str) -> Vec<Arc<Ingredient>> {
    let is_another = |ingredient: &Arc<Ingredient>| ingredient.id != from;
    if !query.trim().is_empty() {
        return shelf::found(query, recipe).into_iter().filter(is_another).collect();
    }
    let goes = recipe.lines.iter().find(|line| line.ingredient.id == from).map(|line| line.ingredient.category);
    let is_alike = |ingredient: &Arc<Ingredient>| Some(ingredient.category) == goes;
    shelf::found("", recipe).into_iter().filter(is_another).filter(is_alike).collect()
}

/// The ingredients of a recipe, each once.
pub(super) fn ingredients(recipe: &Recipe) -> Vec<Arc<Ingredient>> {
    let mut all: Vec<Arc<Ingredient>> = Vec::new();
    for line in &recipe.lines {
        if all.iter().all(|other| other.id != line.ingredient.id) {
            all.push(Arc::clone(&line.ingredient));
        }
    }
    all
}

fn from_ui(ui: &mut Ui, form: &mut ExchangeForm, recipe: &Recipe) {
    let sign = form.sign;
    let all = ingredients(recipe);
    let words = |ingredient: &Ingredient| {
        let lines = recipe.lines.iter().filter(|line| line.ingredient.id == ingredient.id);
        let grams = lines.map(|line| line.amount.grams()).sum();
        format!("{} · {}", ingredient.name, amount(grams, sign))
    };
    let now = all.iter().find(|ingredient| ingredient.id == form.asked.from);
    // What has gone from the open recipe may still be in others.
    let shown = now.map_or_else(
        || Library::built_in().by_id(&form.asked.from).map_or(form.asked.from.clone(), |gone| gone.name.clone()),
        |ingredient| words(ingredient),
    );
    let mut chosen = None;
    let menu = ComboBox::from_id_salt("what goes").selected_text(shown).width(ui.available_width()).truncate();
    let response = menu
        .show_ui(ui, |ui| {
            for ingredient in &all {
                let is_chosen = ingredient.id == form.asked.from;
                if ui.selectable_label(is_chosen, words(ingredient)).clicked() {
                    chosen = Some(ingredient.id.clone());
                }
            }
        })
        .response;
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label("what goes"));
    if let Some(id) = chosen.filter(|id| *id != form.asked.from) {
        if form.asked.to.as_ref().is_some_and(|to| to.id == id) {
            form.asked.to = None;
        }
        form.asked.from = id;
        form.coming.forget_found();
        form.besides.forget_found();
    }
}

/// How a result is held, with one digit more than it is shown with.
fn how_held(of: Measured, now: Option<Figure>, money: Money<'_>, sign: DecimalSign) -> String {
    match now {
        Some(now) if of.is_upper_end(now) => format!("Stays {}", likely(of, now, money, sign)),
        Some(now) => {
            let within = shortest(held_within(of, now), decimals(of) + 1, sign);
            format!("Held within {within}{} of what the recipe has now", unit(of, money))
        }
        None => "Held near what each recipe has now".to_owned(),
    }
}

fn held_ui(ui: &mut Ui, asked: &mut Asked, recipe: &Recipe, at: Where, sign: DecimalSign) {
    caption_ui(ui, "What stays as it is");
    let ids = recipe.lines.iter().map(|line| line.ingredient.id.as_str());
    let money = asked.prices.currency_of(ids).cloned();
    for held in &mut asked.held {
        let name = measured(held.of, sign);
        ui.horizontal(|ui| {
            let is_there = held.figure.is_some() || at == Where::Folder;
            let mut is_on = held.is_on && is_there;
            let words = if is_on { RichText::new(capital(&name)) } else { theme::quiet(ui, capital(&name)) };
            let tick = ui.add_enabled(is_there, egui::Checkbox::new(&mut is_on, words));
            focus_ring(ui, &tick, tick.rect, space::FIELD_RADIUS);
            if is_there {
                held.is_on = is_on;
            }
            let tick = tick.on_hover_text(how_held(held.of, held.figure, money.as_ref(), sign));
            tick.on_disabled_hover_text("This recipe has no such figure that could be held");
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let words = match held.figure {
                    Some(figure) => likely(held.of, figure, money.as_ref(), sign),
                    None if at == Where::Folder => "where there is one".to_owned(),
                    None => "none".to_owned(),
                };
                let label = ui.label(theme::quiet(ui, words));
                if let Some(now) = held.figure.filter(|figure| figure.band.is_some()) {
                    label.on_hover_text(figure(held.of, now, money.as_ref(), sign));
                }
            });
        });
    }
    let made_up = make_up(recipe);
    let mass = mass_with_cost(recipe, &made_up, &asked.prices);
    let why_not = |of: Measured| {
        if asked.held.iter().any(|held| held.of == of && held.is_on) {
            Some("It stands in the list")
        } else if of == Measured::Cost && asked.prices.is_empty() {
            Some("Your price list is empty: choose “Price of the ingredient…” for every line first")
        } else if at == Where::Here && mass.figure(of).is_none() {
            Some("This recipe has no such figure, or a part of it is not known, such as a price")
        } else {
            None
        }
    };
    // The mass of the batch is held by the other lines.
    let last = ("Taste, energy, cost", [Measured::Sweetness, Measured::Energy, Measured::Cost].as_slice());
    let menu = ResultsMenu { words: "+ hold another result", at: ROOM, last, why_not: &why_not };
    if let Some(of) = menu.ui(ui, sign) {
        asked.hold(of, mass.figure(of));
    }
}

fn how_ui(ui: &mut Ui, asked: &mut Asked) {
    caption_ui(ui, "The other lines");
    for (others, words, hover) in [
        (Others::Move, "move as little as they can", "So that what is held can be held; the batch keeps its weight"),
        (Others::Stay, "stay as they are", "Only what comes in is weighed otherwise; the batch may change its weight"),
    ] {
        choice_ui(ui, &mut asked.others, others, words, hover);
    }
    ui.add_space(space::NEAR);
    caption_ui(ui, "The change");
    ui.add_enabled_ui(asked.others == Others::Move, |ui| {
        for (change, words, hover) in [
            (Change::Spread, "is spread over the lines", "Every line moves a little"),
            (Change::FewLines, "touches few lines", "As few as can be found, not always the fewest"),
        ] {
            choice_ui(ui, &mut asked.change, change, words, hover);
        }
    });
}

fn choice_ui<T: PartialEq>(ui: &mut Ui, now: &mut T, choice: T, words: &str, hover: &str) {
    let is_chosen = *now == choice;
    let button = ui.radio(is_chosen, words);
    button.widget_info(|| WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), is_chosen, words));
    focus_ring(ui, &button, button.rect, space::FIELD_RADIUS);
    if button.clicked() {
        *now = choice;
    }
    button.on_hover_text(hover);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ingredient::Component;

    #[test]
    fn a_tick_tells_how_far_a_result_may_move() {
        let within = |of, now: f64| {
            let now = Figure { value: now, band: Some((now, now)) };
            how_held(of, Some(now), None, DecimalSign::Point)
        };
        let share = Measured::Component;
        let told = |within: &str| format!("Held within {within} of what the recipe has now");
        assert_eq!(within(share(Component::Sucrose), 30.0), told("0.5 %"));
        assert_eq!(within(share(Component::Sucrose), 4.0), told("0.2 %"));
        assert_eq!(within(share(Component::Ethanol), 8.0), told("0.25 %"));
        assert_eq!(within(share(Component::Salt), 0.4), told("0.02 %"));
        assert_eq!(within(Measured::WaterActivity, 0.85), told("0.005"));
        assert_eq!(within(Measured::Contraction, 0.6), told("0.025 % of length"));
        // Of a trace nobody notices that it comes or goes.
        assert_eq!(within(share(Component::Ethanol), 0.2), told("0.05 %"));
        let dry = how_held(Measured::WaterActivity, Some(Figure::exact(0.5)), None, DecimalSign::Point);
        assert_eq!(dry, "Stays below 0.5");
    }
}
