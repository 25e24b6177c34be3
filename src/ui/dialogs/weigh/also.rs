//! Other recipes of the shelf that are made on the same day: each as the open one is asked for, on the same bowls and scales.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Button, Label, RichText, ScrollArea, TextWrapMode, Ui, WidgetInfo};

use crate::ingredient::Library;
use crate::recipe::Recipe;
use crate::store::load_recipe;
use crate::ui::dialogs::Around;
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
    recipe: Arc<Recipe>,
}

impl Also {
    /// The recipes, as they were in their files when they were chosen.
    pub(super) fn recipes(&self) -> Vec<Arc<Recipe>> {
        self.chosen.iter().map(|chosen| Arc::clone(&chosen.recipe)).collect()
    }

    /// The chosen ones, each with a cross, and the menu of the others.
    pub(super) fn ui(&mut self, ui: &mut Ui, around: &Around<'_>, width: f32) {
        ui.vertical(|ui| {
            ui.set_max_width(width);
            ui.spacing_mut().item_spacing.y = 0.0;
            let mut removed = None;
            for (place, chosen) in self.chosen.iter().enumerate() {
                ui.horizontal(|ui| {
                    let cross = quiet_button(ui, RichText::new("×").color(Palette::of(ui).quiet));
                    let name = format!("remove from today: {}", chosen.title);
                    cross.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
                    if cross.clicked() {
                        removed = Some(place);
                    }
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
            } else if !self.chosen.is_empty() {
                ui.label(theme::caption(ui, "each asked for as above"));
            }
        });
    }

    fn menu_ui(&mut self, ui: &mut Ui, around: &Around<'_>) {
        let is_there = |path: &Path| self.chosen.iter().any(|chosen| chosen.path == path);
        let others: Vec<(PathBuf, String)> = around
            .shelf
            .titles()
            .filter(|(path, _)| around.path != Some(*path) && !is_there(path))
            .map(|(path, title)| (path.to_owned(), title.to_owned()))
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
                    self.chosen.push(Chosen { path, title, recipe: Arc::new(recipe) });
                }
                Err(error) => self.problem = Some(error.to_string()),
            }
        }
    }
}
