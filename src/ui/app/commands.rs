//! Carries actions and commands out.

use std::sync::Arc;

use egui::Context;

use super::{AfterUnsaved, App, THERMOMETER};
use crate::analysis::ROOM;
use crate::analysis::reading::Reading;
use crate::document::Edit;
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::recipe::Quantity;
use crate::report::figures::PlotName;
use crate::store::Theme;
use crate::ui::command::Command;
use crate::ui::dialogs::Dialog;
use crate::ui::files::{Asking, PlotForm};
use crate::ui::panels::shelf;
use crate::ui::view::{Action, Focus};
use crate::ui::widgets::explain::ask_for_explanation;
use crate::ui::widgets::thermometer;
use crate::ui::{clipboard, text, theme};
use crate::units::{Celsius, Grams, Kelvin};

/// What the thermometer moves by at one press of a key.
const TEMPERATURE_STEP: Kelvin = Kelvin(thermometer::KEY_STEP_K);

/// What the toolkit adds to the zoom at one press.
const ZOOM_STEP: f32 = 0.1;

impl App {
    pub(super) fn carry_out(&mut self, ctx: &Context, actions: Vec<Action>) {
        for action in actions {
            match action {
                Action::Edit(edit) => self.edit(ctx, edit),
                Action::EndGesture => self.open.end_gesture(),
                Action::CancelGesture => self.open.cancel_gesture(),
                Action::Run(command) => self.run(ctx, command),
                Action::SetTemperature(celsius) => self.set_temperature(celsius),
                Action::SetDay(day) => self.view.day = day,
                Action::Show(reading) => self.show_reading(reading),
                Action::Select(line) => self.view.selected = line,
                Action::ShowTemperatures(are_shown) => self.show_temperatures(are_shown),
                Action::Focus(focus) => self.go_to(ctx, focus),
                Action::AddIngredient(ingredient) => self.add_ingredient(ctx, self.place_after_selected(), ingredient),
                Action::AddIngredientAt { at, ingredient } => self.add_ingredient(ctx, at, ingredient),
                Action::AskForTriglycerides => {
                    self.dialogs.show(Dialog::cocoa_butter(self.open.document(), self.view.sign));
                }
                Action::AskForPrice(line) => self.ask_for_price(ctx, line),
                Action::OpenRecipe(path) => self.leave_for(ctx, AfterUnsaved::Open(path)),
                Action::SavePlot(plot, form) => self.ask_where_to_save_plot(ctx, plot, form),
                Action::MakeTarget(target) => self.make_target(target),
                Action::AcceptAnswer => self.accept_answer(ctx),
                Action::KeepAnswer => self.keep_answer(ctx),
            }
            ctx.request_repaint();
        }
    }

    pub(super) fn edit(&mut self, ctx: &Context, edit: Edit) {
        let is_removal = matches!(edit, Edit::RemoveLine(_));
        match self.open.apply(edit) {
            Ok(()) if is_removal => self.toasts.with_undo("Line removed", self.open.revision(), ctx),
            Ok(()) => {}
            Err(error) => self.toasts.say(&error.to_string(), ctx),
        }
    }

    /// Adds a line at a place and goes to its amount.
    pub(super) fn add_ingredient(&mut self, ctx: &Context, at: usize, ingredient: Arc<Ingredient>) {
        let id = self.document().recipe.unused_line_id();
        self.edit(ctx, Edit::AddLine { at, ingredient, amount: Quantity::default() });
        self.view.selected = Some(id);
        self.view.focus = Some(Focus::Amount(id));
    }

    pub(super) fn run(&mut self, ctx: &Context, command: Command) {
        if let Some(reason) = self.why_not(command) {
            self.toasts.say(reason, ctx);
            return;
        }
        match command {
            Command::New => self.leave_for(ctx, AfterUnsaved::New),
            Command::Open => self.ask_for_path(ctx, Asking::Open),
            Command::Save => self.save(ctx),
            Command::SaveAs => self.ask_where_to_save(ctx),
            Command::SavePlot => {
                if let Some(plot) = PlotName::of(self.view.reading) {
                    self.ask_where_to_save_plot(ctx, plot, PlotForm::Svg);
                }
            }
            Command::Quit => self.leave_for(ctx, AfterUnsaved::Close),
            Command::Undo => self.undo(),
            Command::Redo => self.redo(),
            Command::CopyTable => {
                ctx.copy_text(clipboard::table(&self.document().recipe, self.view.sign));
                self.toasts.say("Lines copied, ready for a spreadsheet", ctx);
            }
            Command::FindIngredient => self.go_to(ctx, Focus::Search),
            Command::GoToSheet | Command::EditAmount => self.go_to_amount(ctx),
            Command::GoToReadings => self.view.focus = Some(Focus::Readings),
            Command::GoToFindings if self.analysis().findings.is_empty() => self.toasts.say(text::NO_FINDINGS, ctx),
            Command::GoToFindings => self.view.focus = Some(Focus::Findings),
            Command::GoToKind => self.view.focus = Some(Focus::Kind),
            Command::GoToUse => self.view.focus = Some(Focus::Use),
            Command::GoToCocoaButter => self.view.focus = Some(Focus::CocoaButter),
            Command::EditNote => self.view.focus = self.selected_or_first().map(Focus::Note),
            Command::RemoveLine => self.remove_selected(ctx),
            Command::MoveUp => self.move_selected(ctx, |place| place.saturating_sub(1)),
            Command::MoveDown => self.move_selected(ctx, |place| place + 1),
            Command::ToggleLock => self.toggle_lock(ctx),
            Command::Figures => self.show_figures(),
            Command::Price => {
                if let Some(line) = self.selected_or_first() {
                    self.ask_for_price(ctx, line);
                }
            }
            Command::Exchange => {
                let (prices, sign) = (self.prices.list(), self.view.sign);
                let dialog = self
                    .selected_or_first()
                    .and_then(|line| Dialog::exchange(self.open.document(), line, prices, sign));
                if let Some(dialog) = dialog {
                    self.dialogs.show(dialog);
                }
            }
            Command::OwnIngredient => self.dialogs.show(Dialog::own_ingredient(self.view.sign)),
            Command::Weigh => self.show_weighing(),
            Command::Pin => {
                self.pin = Some(Arc::clone(self.open.document()));
                self.pins += 1;
                self.toasts.say("Pinned: the present state stays behind plots and figures", ctx);
            }
            Command::Unpin => self.pin = None,
            Command::Reformulate => self.reformulate(),
            Command::StopReformulating => self.stop_reformulating(),
            Command::ShowMakeUp => self.show_reading(Reading::MakeUp),
            Command::ShowEmulsion => self.show_reading(Reading::Emulsion),
            Command::ShowWater => self.show_reading(Reading::Water),
            Command::ShowFatCrystals => self.show_reading(Reading::FatCrystals),
            Command::ShowSetting => self.show_reading(Reading::Setting),
            Command::Warmer => self.set_temperature(self.view.at + TEMPERATURE_STEP),
            Command::Cooler => self.set_temperature(self.view.at - TEMPERATURE_STEP),
            Command::RoomTemperature => self.set_temperature(ROOM),
            Command::ThemeSystem => self.choose_theme(ctx, Theme::System),
            Command::ThemeLight => self.choose_theme(ctx, Theme::Light),
            Command::ThemeDark => self.choose_theme(ctx, Theme::Dark),
            Command::SwitchDecimalSign => self.switch_decimal_sign(ctx),
            Command::ToggleShelf => self.show_shelf(ctx, self.settings.is_shelf_hidden),
            Command::ToggleTemperatures => self.show_temperatures(!self.shows_temperatures()),
            Command::ZoomIn => self.zoom_in(ctx),
            Command::ZoomOut => egui::gui_zoom::zoom_out(ctx),
            Command::ZoomReset => ctx.set_zoom_factor(1.0),
            Command::Search => {
                let typed = std::mem::take(&mut self.dialogs.typed_ahead);
                self.dialogs.show(Dialog::command_search(typed));
            }
            Command::Explain => {
                if !ask_for_explanation(ctx) {
                    self.toasts.say(text::NOTHING_TO_EXPLAIN, ctx);
                }
            }
            Command::ShowKeys => self.dialogs.show(Dialog::Keys),
            Command::About => self.dialogs.show(Dialog::About),
        }
    }

    /// Sends the keyboard somewhere; the search needs the shelf.
    pub(super) fn go_to(&mut self, ctx: &Context, focus: Focus) {
        if focus == Focus::Search && self.settings.is_shelf_hidden {
            self.show_shelf(ctx, true);
        }
        self.view.focus = Some(focus);
    }

    fn shows_temperatures(&self) -> bool {
        self.view.shows_temperatures(&self.document().recipe)
    }

    fn show_temperatures(&mut self, are_shown: bool) {
        self.view.temperatures = Some(are_shown);
        // Who asks for them wants to type.
        self.view.focus = self.selected_or_first().filter(|_| are_shown).map(Focus::Temperature);
    }

    /// Shows the shelf or hides it; letters that leave it no room are made smaller, down to their own size.
    fn show_shelf(&mut self, ctx: &Context, is_shown: bool) {
        self.settings.is_shelf_hidden = !is_shown;
        self.save_settings();
        let mut zoom = ctx.zoom_factor();
        while zoom > 1.0 && !self.has_room_at(ctx, zoom) {
            zoom = (zoom - ZOOM_STEP).max(1.0);
        }
        ctx.set_zoom_factor(zoom);
    }

    /// Enlarges everything, as long as the window still holds what is shown beside each other.
    fn zoom_in(&mut self, ctx: &Context) {
        if self.has_room_at(ctx, ctx.zoom_factor() + ZOOM_STEP) {
            egui::gui_zoom::zoom_in(ctx);
        } else {
            let hides_shelf = self.settings.is_shelf_hidden;
            self.toasts.say(if hides_shelf { text::NO_ROOM_TO_ENLARGE } else { text::NO_ROOM_BESIDE_SHELF }, ctx);
        }
    }

    /// Whether every part that is shown has room in the window when everything is as large as this.
    fn has_room_at(&self, ctx: &Context, zoom: f32) -> bool {
        /// In points: thermometer, one reading, and a sheet in which names can be read beside all columns.
        const LEAST: egui::Vec2 = egui::vec2(936.0, 600.0);
        let shelf = if self.settings.is_shelf_hidden { 0.0 } else { shelf::WIDTH };
        let size = ctx.content_rect().size() * (ctx.zoom_factor() / zoom);
        size.x >= LEAST.x + shelf && size.y >= LEAST.y
    }

    /// Why a command cannot be carried out now; `None` if it can.
    #[must_use]
    pub fn why_not(&self, command: Command) -> Option<&'static str> {
        match command {
            Command::Undo if self.undo_label().is_none() => Some("Nothing to undo"),
            Command::Redo if self.redo_label().is_none() => Some("Nothing to redo"),
            Command::EditAmount
            | Command::EditNote
            | Command::RemoveLine
            | Command::MoveUp
            | Command::MoveDown
            | Command::ToggleLock
            | Command::Figures
            | Command::Price
            | Command::Weigh
            | Command::Exchange
            | Command::CopyTable
                if self.document().recipe.lines.is_empty() =>
            {
                Some("The recipe has no lines yet")
            }
            Command::SavePlot => match PlotName::of(self.view.reading) {
                Some(plot) => self.why_no_plot(plot),
                None => Some(text::plot::NOT_OF_TARGETS),
            },
            Command::Reformulate if self.document().recipe.weighed() == Grams::ZERO => {
                Some("The recipe weighs nothing yet: give the lines amounts")
            }
            Command::StopReformulating if self.view.targets.is_none() => Some("The reading Targets is not open"),
            Command::Unpin if self.pin.is_none() => Some("Nothing is pinned"),
            _ => None,
        }
    }

    /// Whether a command chooses what is chosen already: a menu shows it.
    #[must_use]
    pub fn is_chosen(&self, command: Command) -> bool {
        match command {
            Command::ThemeSystem => self.settings.theme == Theme::System,
            Command::ThemeLight => self.settings.theme == Theme::Light,
            Command::ThemeDark => self.settings.theme == Theme::Dark,
            Command::ShowMakeUp => self.view.reading == Reading::MakeUp,
            Command::ShowEmulsion => self.view.reading == Reading::Emulsion,
            Command::ShowWater => self.view.reading == Reading::Water,
            Command::ShowFatCrystals => self.view.reading == Reading::FatCrystals,
            Command::ShowSetting => self.view.reading == Reading::Setting,
            Command::Pin => self.pin.is_some(),
            Command::Reformulate => self.view.targets.is_some(),
            Command::ToggleShelf => !self.settings.is_shelf_hidden,
            Command::ToggleTemperatures => self.shows_temperatures(),
            _ => false,
        }
    }

    pub(super) fn show_reading(&mut self, reading: Reading) {
        self.view.reading = reading;
        self.view.shown_anew = Some(reading);
        // What is there for a while is nothing to begin with the next time.
        if Reading::ALL.contains(&reading) {
            reading.key().clone_into(&mut self.settings.reading);
        }
    }

    /// The name of a command as it stands now: "Undo change amount".
    #[must_use]
    pub fn label_of(&self, command: Command) -> String {
        let step = match command {
            Command::Undo => self.undo_label(),
            Command::Redo => self.redo_label(),
            _ => None,
        };
        step.map_or_else(|| command.label().to_owned(), |step| format!("{} {step}", command.label()))
    }

    pub(super) fn set_temperature(&mut self, celsius: Celsius) {
        self.view.at = celsius.max(THERMOMETER.0).min(THERMOMETER.1);
    }

    pub(super) fn selected_or_first(&self) -> Option<crate::recipe::LineId> {
        let recipe = &self.document().recipe;
        self.view
            .selected
            .filter(|&line| recipe.line(line).is_some())
            .or_else(|| recipe.lines.first().map(|line| line.id))
    }

    pub(super) fn place_of_selected(&self) -> Option<usize> {
        let selected = self.view.selected?;
        self.document().recipe.lines.iter().position(|line| line.id == selected)
    }

    pub(super) fn place_after_selected(&self) -> usize {
        self.place_of_selected().map_or(self.document().recipe.lines.len(), |place| place + 1)
    }

    pub(super) fn remove_selected(&mut self, ctx: &Context) {
        let Some(line) = self.selected_or_first() else { return };
        let lines = &self.document().recipe.lines;
        let place = lines.iter().position(|other| other.id == line).unwrap_or(0);
        let next = lines.get(place + 1).or_else(|| place.checked_sub(1).and_then(|before| lines.get(before)));
        let next = next.map(|line| line.id);
        self.edit(ctx, Edit::RemoveLine(line));
        self.view.selected = next;
    }

    pub(super) fn move_selected(&mut self, ctx: &Context, to: impl Fn(usize) -> usize) {
        let (Some(line), Some(place)) = (self.view.selected, self.place_of_selected()) else {
            self.toasts.say("Choose a line first", ctx);
            return;
        };
        self.edit(ctx, Edit::MoveLine { line, to: to(place) });
    }

    pub(super) fn go_to_amount(&mut self, ctx: &Context) {
        let Some(id) = self.selected_or_first() else { return };
        if self.document().recipe.line(id).is_some_and(|line| line.is_locked) {
            self.toasts.say("This amount is locked; unlock the line to change it", ctx);
        }
        self.view.focus = Some(Focus::Amount(id));
    }

    pub(super) fn toggle_lock(&mut self, ctx: &Context) {
        let Some(id) = self.view.selected else {
            self.toasts.say("Choose a line first", ctx);
            return;
        };
        let Some(is_locked) = self.document().recipe.line(id).map(|line| line.is_locked) else { return };
        self.edit(ctx, Edit::SetLock { line: id, is_locked: !is_locked });
    }

    fn show_figures(&mut self) {
        let Some(line) = self.selected_or_first() else { return };
        if let Some(dialog) = Dialog::figures(self.open.document(), line, self.view.sign) {
            self.view.selected = Some(line);
            self.dialogs.show(dialog);
        }
    }

    pub(super) fn switch_decimal_sign(&mut self, ctx: &Context) {
        let (sign, words) = match self.view.sign {
            DecimalSign::Point => (DecimalSign::Comma, "Numbers are shown with a decimal comma; both are understood"),
            DecimalSign::Comma => (DecimalSign::Point, "Numbers are shown with a decimal point; both are understood"),
        };
        self.view.sign = sign;
        self.settings.decimal_sign = Some(sign.character());
        self.save_settings();
        self.toasts.say(words, ctx);
    }

    pub(super) fn choose_theme(&mut self, ctx: &Context, choice: Theme) {
        self.settings.theme = choice;
        self.apply_theme(ctx);
        self.save_settings();
    }

    pub(super) fn apply_theme(&self, ctx: &Context) {
        theme::choose(
            ctx,
            match self.settings.theme {
                Theme::System => theme::ThemeChoice::System,
                Theme::Light => theme::ThemeChoice::Light,
                Theme::Dark => theme::ThemeChoice::Dark,
            },
        );
    }

    pub(super) fn save_settings(&self) {
        if let Some(places) = &self.places
            && let Err(error) = self.settings.save(places)
        {
            log::warn!("settings are not kept: {error}");
        }
    }
}
