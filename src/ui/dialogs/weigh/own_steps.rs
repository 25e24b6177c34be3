//! Ingredients with a scale of their own: salt and acids on a fine one, whatever the large scale shows.
//!
//! What no recipe of the day takes is neither shown nor read: it waits for one that does.

use egui::accesskit::Role;
use egui::{Button, Label, RichText, ScrollArea, TextWrapMode, Ui, WidgetInfo};

use super::Empty;
use super::also::Other;
use super::fields::{At, Wrong};
use super::typing::{Typing, field_id};
use crate::number::DecimalSign;
use crate::production::typed::parse_step;
use crate::recipe::Recipe;
use crate::ui::explanations::weighing_fields as explanations;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::{explain_at_rest, menu_button, quiet_button};
use crate::units::Grams;

/// No menu is higher; it scrolls.
const HIGHEST: f32 = 320.0;

/// In the order in which they were chosen; they stay from recipe to recipe, like the scales themselves.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct OwnSteps {
    chosen: Vec<OwnStep>,
}

#[derive(Clone, Debug, PartialEq)]
struct OwnStep {
    /// Of the ingredient.
    id: String,
    name: String,
    /// As it is typed; nothing counts where it is empty.
    text: String,
}

/// What the step of an ingredient is called for those who cannot see where it stands.
fn label(name: &str) -> String {
    format!("step of the scale for {name}")
}

impl OwnStep {
    /// Whether a recipe of the day takes it.
    fn is_today(&self, recipe: &Recipe, others: &[Other]) -> bool {
        let mut recipes = std::iter::once(recipe).chain(others.iter().map(|other| &*other.recipe));
        recipes.any(|recipe| recipe.lines.iter().any(|line| line.ingredient.id == self.id))
    }
}

impl OwnSteps {
    /// The steps that are typed for what is made today, by the ids of their ingredients.
    pub(super) fn read<'a>(&'a self, recipe: &Recipe, others: &[Other]) -> Result<Vec<(&'a str, Grams)>, Wrong> {
        let today = self.chosen.iter().enumerate().filter(|(_, own)| own.is_today(recipe, others));
        let typed = today.filter(|(_, own)| !own.text.trim().is_empty());
        let read = |(place, own): (usize, &'a OwnStep)| match parse_step(own.text.trim()) {
            Ok(step) => Ok((own.id.as_str(), step)),
            Err(reason) => Err(Wrong::refused_at(At::OwnStep(place), label(&own.name), reason)),
        };
        typed.map(read).collect()
    }

    /// What is wrong, told where the step is typed of which it comes: one that no other scale has.
    pub(super) fn told_at_its_step(&self, wrong: Wrong, step: Grams, steps: &[(&str, Grams)]) -> Wrong {
        let id = steps.iter().find(|(_, own)| *own == step).map(|(id, _)| *id);
        match self.chosen.iter().enumerate().find(|(_, own)| Some(own.id.as_str()) == id) {
            Some((place, own)) => Wrong::refused_at(At::OwnStep(place), label(&own.name), wrong.reason),
            None => wrong,
        }
    }

    /// The chosen ones of the day, each with its step and a cross, and the menu of the others.
    pub(super) fn ui(&mut self, ui: &mut Ui, recipe: &Recipe, others: &[Other], typing: &mut Typing<'_>, width: f32) {
        ui.vertical(|ui| {
            ui.set_max_width(width);
            ui.spacing_mut().item_spacing.y = space::TIGHT;
            let mut removed = None;
            for (place, own) in self.chosen.iter_mut().enumerate() {
                if !own.is_today(recipe, others) {
                    continue;
                }
                ui.horizontal(|ui| {
                    let cross = quiet_button(ui, RichText::new("×").color(Palette::of(ui).quiet));
                    let name = format!("weigh on the usual scale: {}", own.name);
                    cross.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
                    if cross.clicked() {
                        removed = Some(place);
                    }
                    let sign = typing.sign;
                    let explain = || explanations::own_step(sign);
                    typing.field_ui(
                        ui,
                        (At::OwnStep(place), &label(&own.name)),
                        &mut own.text,
                        Empty::Counts("as others"),
                        explain,
                    );
                    ui.add(Label::new(&own.name).wrap_mode(TextWrapMode::Truncate));
                });
            }
            if let Some(place) = removed {
                self.chosen.remove(place);
            }
            self.menu_ui(ui, recipe, typing.sign);
        });
    }

    fn menu_ui(&mut self, ui: &mut Ui, recipe: &Recipe, sign: DecimalSign) {
        let mut others: Vec<(&str, &str)> = Vec::new();
        for line in &recipe.lines {
            let (id, name) = (line.ingredient.id.as_str(), line.ingredient.name.as_str());
            let is_there = self.chosen.iter().any(|own| own.id == id) || others.iter().any(|(other, _)| *other == id);
            if !is_there {
                others.push((id, name));
            }
        }
        let mut asked = None;
        let (button, _) = menu_button(ui, RichText::new("+ an ingredient").color(Palette::of(ui).accent), 0.0, |ui| {
            ui.set_min_width(190.0);
            if others.is_empty() {
                let words =
                    if recipe.lines.is_empty() { "The recipe has no lines yet" } else { "All have their own scale" };
                ui.label(theme::quiet(ui, words));
            }
            ScrollArea::vertical().max_height(HIGHEST).show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = space::TIGHT;
                for (id, name) in &others {
                    if ui.add(Button::new(*name)).clicked() {
                        asked = Some(((*id).to_owned(), (*name).to_owned()));
                        ui.close();
                    }
                }
            });
        });
        explain_at_rest(&button, || explanations::own_step(sign));
        if let Some((id, name)) = asked {
            // Its step is what is typed next.
            ui.memory_mut(|memory| memory.request_focus(field_id(&label(&name))));
            self.chosen.push(OwnStep { id, name, text: String::new() });
        }
    }
}
