//! Other recipes of the shelf that are made on the same day: each with its own mass, or as the open one is asked for, on the
//! same bowls and scales.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Button, Label, RichText, ScrollArea, TextWrapMode, Ui, WidgetInfo};

use super::Empty;
use super::fields::At;
use super::typing::{Typing, field_id};
use crate::ingredient::Library;
use crate::production::order::Order;
use crate::production::typed::parse_mass;
use crate::recipe::Recipe;
use crate::store::load_recipe;
use crate::ui::dialogs::Around;
use crate::ui::explanations::weighing_fields as explanations;
use crate::ui::text::UNNAMED;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::{menu_button, quiet_button};

/// No menu is higher; it scrolls.
const HIGHEST: f32 = 320.0;

/// The other recipes, in the order in which they were chosen.
#[derive(Debug, Default)]
pub(super) struct Also {
    chosen: Vec<Chosen>,
    /// Why the last one that was chosen cannot be read.
    problem: Option<String>,
}

#[derive(Debug)]
struct Chosen {
    path: PathBuf,
    title: String,
    other: Other,
}

/// Another recipe of the day, and what is asked of it.
#[derive(Clone, Debug)]
pub(super) struct Other {
    /// As it was in its file when it was chosen.
    pub(super) recipe: Arc<Recipe>,
    /// Its finished mass as it is typed; as the open recipe is asked for where nothing is.
    mass: String,
}

impl PartialEq for Other {
    /// The same recipe is the same in memory.
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.recipe, &other.recipe) && self.mass == other.mass
    }
}

impl Other {
    /// What its mass is called for those who cannot see where it stands.
    pub(super) fn label(&self) -> String {
        let name = if self.recipe.name.is_empty() { UNNAMED } else { &self.recipe.name };
        format!("finished mass of {name}")
    }

    /// What is asked of it, beside what is asked of the open recipe.
    pub(super) fn order(&self, of_open: &Order) -> Result<Order, String> {
        Ok(match self.mass.trim() {
            "" => of_open.clone(),
            text => of_open.of_another_mass(parse_mass(text)?),
        })
    }
}

impl Also {
    /// The recipes with what is asked of them.
    pub(super) fn others(&self) -> Vec<Other> {
        self.chosen.iter().map(|chosen| chosen.other.clone()).collect()
    }

    /// The chosen ones, each with a cross, and the menu of the others.
    pub(super) fn ui(&mut self, ui: &mut Ui, around: &Around<'_>, typing: &mut Typing<'_>, width: f32) {
        ui.vertical(|ui| {
            ui.set_max_width(width);
            ui.spacing_mut().item_spacing.y = space::TIGHT;
            let mut removed = None;
            for (place, chosen) in self.chosen.iter_mut().enumerate() {
                ui.horizontal(|ui| {
                    let cross = quiet_button(ui, RichText::new("×").color(Palette::of(ui).quiet));
                    let name = format!("remove from today: {}", chosen.title);
                    cross.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
                    if cross.clicked() {
                        removed = Some(place);
                    }
                    let (sign, label) = (typing.sign, chosen.other.label());
                    let explain = || explanations::also_mass(sign);
                    let mass = &mut chosen.other.mass;
                    typing.field_ui(ui, (At::Also(place), &label), mass, Empty::Counts("as above"), explain);
                    ui.add(Label::new(&chosen.title).wrap_mode(TextWrapMode::Truncate));
                });
            }
            if let Some(place) = removed {
                self.chosen.remove(place);
            }
            self.menu_ui(ui, around);
            if let Some(problem) = &self.problem {
                let words = RichText::new(problem).font(theme::small()).color(Palette::of(ui).problem);
                ui.add(Label::new(words).wrap());
            }
        });
    }

    fn menu_ui(&mut self, ui: &mut Ui, around: &Around<'_>) {
        let is_there = |path: &Path| self.chosen.iter().any(|chosen| chosen.path == path);
        let others: Vec<(PathBuf, String)> = around
            .shelf
            .titles()
            .filter(|(path, _)| around.path != Some(*path) && !is_there(path))
            .map(|(path, title)| (path.to_owned(), title))
            .collect();
        let words = RichText::new("+ a recipe of the shelf").color(Palette::of(ui).accent);
        let mut asked = None;
        menu_button(ui, words, 0.0, |ui| {
            ui.set_min_width(190.0);
            if others.is_empty() {
                ui.label(theme::quiet(ui, "The shelf has no other recipe"));
            }
            ScrollArea::vertical().max_height(HIGHEST).show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = space::TIGHT;
                for (path, title) in &others {
                    if ui.add(Button::new(title)).clicked() {
                        asked = Some((path.clone(), title.clone()));
                        ui.close();
                    }
                }
            });
        });
        if let Some((path, title)) = asked {
            match load_recipe(&path, Library::built_in()) {
                Ok(recipe) => {
                    self.problem = None;
                    let other = Other { recipe: Arc::new(recipe), mass: String::new() };
                    ui.memory_mut(|memory| memory.request_focus(field_id(&other.label())));
                    self.chosen.push(Chosen { path, title, other });
                }
                Err(error) => self.problem = Some(error.to_string()),
            }
        }
    }
}
