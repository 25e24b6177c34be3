//! A field that finds an ingredient: the search of the shelf, with what it finds under it.

use std::sync::Arc;

use egui::accesskit::Role;
use egui::{Button, Id, Key, Label, Modifiers, RichText, ScrollArea, TextEdit, TextWrapMode, Ui, WidgetInfo};

use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::ui::panels::shelf::summary;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::quiet_button;

/// Height of the field.
const FIELD: f32 = 28.0;
/// Height of an ingredient that was found.
const ENTRY: f32 = 26.0;
/// So many of them are in sight.
const IN_SIGHT: f32 = 6.0;

/// The field, and what was found last.
#[derive(Debug)]
pub(super) struct Picker {
    name: &'static str,
    query: String,
    /// The chosen one among the found; none before something was typed or an arrow was pressed, so that Enter does nothing
    /// by chance.
    place: Option<usize>,
    is_open: bool,
    asks_for_keyboard: bool,
    found: Option<(String, Vec<Arc<Ingredient>>)>,
}

impl Picker {
    /// A field of this name; open while nothing is chosen yet.
    pub(super) fn new(name: &'static str, is_open: bool) -> Self {
        Self { name, query: String::new(), place: None, is_open, asks_for_keyboard: is_open, found: None }
    }

    /// What is found may be another now.
    pub(super) fn forget_found(&mut self) {
        self.found = None;
    }

    /// Draws what is chosen, or the field with what it finds.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        chosen: &mut Option<Arc<Ingredient>>,
        sign: DecimalSign,
        find: &dyn Fn(&str) -> Vec<Arc<Ingredient>>,
    ) {
        if !self.is_open {
            self.chosen_ui(ui, chosen, sign);
            return;
        }
        let id = Id::unique(("exchange", self.name));
        let has_focus = ui.memory(|memory| memory.has_focus(id));
        if self.found.as_ref().is_none_or(|(query, _)| *query != self.query) {
            self.found = Some((self.query.clone(), find(&self.query)));
        }
        let count = self.found.as_ref().map_or(0, |(_, found)| found.len());
        let mut follows = false;
        if has_focus {
            // Before the field: it would take the arrows for itself.
            let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
            let (up, down) = (pressed(Key::ArrowUp), pressed(Key::ArrowDown));
            if down {
                let next = self.place.map_or(0, |place| place + 1);
                self.place = Some(next.min(count.saturating_sub(1)));
            }
            if up {
                self.place = self.place.map(|place| place.saturating_sub(1));
            }
            follows = up || down;
        }
        let field = TextEdit::singleline(&mut self.query)
            .id(id)
            .hint_text("Any part of a name")
            .margin(egui::Margin::symmetric(8, 5))
            .desired_width(f32::INFINITY);
        // As high with what is typed as with the hint.
        let response = ui.add(field.min_size(egui::vec2(0.0, FIELD)));
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(self.name));
        if response.changed() {
            self.place = (!self.query.is_empty()).then_some(0);
            self.found = Some((self.query.clone(), find(&self.query)));
        }
        // A first Esc empties the field, the next one closes the dialog.
        if response.lost_focus()
            && !self.query.is_empty()
            && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape))
        {
            self.query.clear();
            self.place = None;
            self.found = Some((String::new(), find("")));
            self.asks_for_keyboard = true;
        }
        if std::mem::take(&mut self.asks_for_keyboard) {
            response.request_focus();
        }
        let is_entered =
            response.lost_focus() && has_focus && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Enter));
        let Some((_, found)) = &self.found else { return };
        if found.is_empty() {
            ui.label(theme::caption(ui, "None has these words"));
        }
        let mut picked = self.place.and_then(|place| found.get(place)).filter(|_| is_entered).cloned();
        if is_entered && picked.is_none() {
            // What was typed waits for a correction.
            response.request_focus();
        }
        let height = ENTRY * IN_SIGHT;
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            ScrollArea::vertical().id_salt((self.name, "found")).max_height(height).auto_shrink([false, true]).show(
                ui,
                |ui| {
                    for (place, ingredient) in found.iter().enumerate() {
                        let is_chosen = Some(place) == self.place;
                        let button = Button::new(ingredient.name.as_str())
                            .selected(is_chosen)
                            .frame_when_inactive(is_chosen)
                            .wrap_mode(TextWrapMode::Truncate)
                            .min_size(egui::vec2(ui.available_width() - 10.0, ENTRY));
                        let entry = ui.add(button).on_hover_ui(|ui| drop(ui.label(summary(ingredient, sign))));
                        if is_chosen && follows {
                            entry.scroll_to_me(None);
                        }
                        if entry.clicked() {
                            picked = Some(Arc::clone(ingredient));
                        }
                    }
                },
            );
        });
        if let Some(ingredient) = picked {
            *chosen = Some(ingredient);
            self.query.clear();
            self.place = None;
            self.is_open = false;
        }
    }

    fn chosen_ui(&mut self, ui: &mut Ui, chosen: &mut Option<Arc<Ingredient>>, sign: DecimalSign) {
        ui.horizontal(|ui| {
            let Some(ingredient) = chosen.clone() else {
                let words = RichText::new("+ another ingredient").color(Palette::of(ui).accent);
                let button = quiet_button(ui, words).on_hover_text("Where the one alone cannot hold everything");
                self.is_open = button.clicked();
                self.asks_for_keyboard = self.is_open;
                return;
            };
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                ui.spacing_mut().item_spacing.x = space::NEAR;
                let accent = |words: &str| RichText::new(words).font(theme::small()).color(Palette::of(ui).accent);
                let (change, remove) = (accent("change"), accent("leave out"));
                if self.name == super::BESIDES {
                    let button = quiet_button(ui, remove);
                    if button.clicked() {
                        *chosen = None;
                    }
                }
                let button = quiet_button(ui, change);
                button.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("change {}", self.name)));
                if button.clicked() {
                    self.is_open = true;
                    self.asks_for_keyboard = true;
                }
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let name = Label::new(theme::strong(ingredient.name.as_str()));
                    ui.add(name.wrap_mode(TextWrapMode::Truncate).show_tooltip_when_elided(false))
                        .on_hover_ui(|ui| drop(ui.label(summary(&ingredient, sign))));
                });
            });
        });
    }
}
