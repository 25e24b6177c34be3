//! The program: one document, its view, and what happens between two frames.
//!
//! Panels read the document and its analysis and push [`Action`]s; they are carried out here, after the frame.
//! Analysis is computed at most once for a state of the document and a temperature.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;

use super::command::Command;
use super::dialogs::{Dialog, DialogAnswer, Dialogs};
use super::files::{Answer, Asking, FileDialog, FileDialogs, file_name, with_extension};
use super::panels::{self, shelf, shelf::Shelf};
use super::toast::Toasts;
use super::view::{Action, Focus, Pin, Scene, View};
use super::{samples, text, theme};
use crate::analysis::finding::Reading;
use crate::analysis::{Analysis, ROOM, analyse};
use crate::document::{Document, Edit, Memo, OpenDocument, Revision};
use crate::ingredient::Library;
use crate::number::DecimalSign;
use crate::recipe::Quantity;
use crate::store::{self, FileStamp, Leftover, Places, Recovery, Settings, Theme, WindowPlace};
use crate::units::{Celsius, Kelvin};

/// What the thermometer moves by at one press of a key.
const TEMPERATURE_STEP: Kelvin = Kelvin(0.5);

/// The thermometer's range.
pub const THERMOMETER: (Celsius, Celsius) = (Celsius(5.0), Celsius(45.0));

/// How long after a change the recovery copy is written, in seconds of the window's clock.
const RECOVERY_DELAY: f64 = 3.0;

/// The program.
pub struct App {
    open: OpenDocument,
    /// Counts the documents opened, so that two of them never share a key of a memo.
    opened: u64,
    path: Option<PathBuf>,
    stamp: Option<FileStamp>,
    analysis: Memo<AnalysisKey, Arc<Analysis>>,
    pin: Option<Arc<Document>>,
    pin_analysis: Memo<PinKey, Arc<Analysis>>,
    view: View,
    settings: Settings,
    places: Option<Places>,
    shelf: Shelf,
    file_dialogs: FileDialogs,
    file_dialog: Option<FileDialog>,
    dialogs: Dialogs,
    toasts: Toasts,
    plots: panels::readings::PlotMemos,
    /// What to do once the unsaved document has been dealt with.
    after_unsaved: Option<AfterUnsaved>,
    recovery: Option<Recovery>,
    recovered_revision: Option<(u64, Revision)>,
    changed_at: Option<f64>,
    shown_title: String,
    may_close: bool,
}

type AnalysisKey = (u64, Revision, u64);
type PinKey = (usize, u64);

/// What waits for an answer to "Save the changes?".
#[derive(Clone, Debug, PartialEq)]
enum AfterUnsaved {
    Close,
    New,
    Open(PathBuf),
}

/// How the program begins.
#[derive(Debug, Default)]
pub struct Start {
    /// The file to open; without one a sample opens.
    pub file: Option<PathBuf>,
    /// Folders of settings and recovery copies; `None` keeps nothing between starts.
    pub places: Option<Places>,
    /// The decimal sign; `None` as the settings say, or else the system.
    pub decimal_sign: Option<DecimalSign>,
    /// How the window asks for files.
    pub file_dialogs: FileDialogs,
}

impl App {
    /// The program with its first document.
    #[must_use]
    pub fn new(ctx: &Context, start: Start) -> Self {
        theme::install(ctx);
        let settings = start.places.as_ref().map(Settings::load).unwrap_or_default();
        let of_settings = |sign: char| if sign == ',' { DecimalSign::Comma } else { DecimalSign::Point };
        let sign = start
            .decimal_sign
            .or_else(|| settings.decimal_sign.map(of_settings))
            .or_else(|| sys_locale::get_locale().map(|locale| DecimalSign::from_locale(&locale)))
            .unwrap_or_default();
        ctx.set_zoom_factor(settings.zoom);
        let mut app = Self {
            open: OpenDocument::new(Document { recipe: samples::first() }),
            opened: 0,
            path: None,
            stamp: None,
            analysis: Memo::default(),
            pin: None,
            pin_analysis: Memo::default(),
            view: View::new(sign),
            shelf: Shelf::new(samples::folder()),
            settings,
            file_dialogs: start.file_dialogs,
            file_dialog: None,
            dialogs: Dialogs::default(),
            toasts: Toasts::default(),
            plots: panels::readings::PlotMemos::default(),
            after_unsaved: None,
            recovery: start.places.as_ref().and_then(start_recovery),
            recovered_revision: None,
            changed_at: None,
            places: start.places,
            shown_title: String::new(),
            may_close: false,
        };
        app.apply_theme(ctx);
        if let Some(file) = start.file {
            app.open_file(&file);
        }
        if !app.dialogs.is_open() {
            app.offer_recovery();
        }
        app
    }

    /// The document as it stands.
    #[must_use]
    pub fn document(&self) -> &Arc<Document> {
        self.open.document()
    }

    /// What it is at the temperature of the thermometer.
    pub fn analysis(&mut self) -> Arc<Analysis> {
        let at = self.view.at;
        let key = (self.opened, self.open.revision(), at.0.to_bits());
        let recipe = &self.open.document().recipe;
        Arc::clone(self.analysis.get(key, || Arc::new(analyse(recipe, at))))
    }

    /// The pinned state with what it is at the temperature of the thermometer.
    pub fn pin(&mut self) -> Option<Pin> {
        let document = Arc::clone(self.pin.as_ref()?);
        let at = self.view.at;
        let key = (Arc::as_ptr(&document) as usize, at.0.to_bits());
        let analysis = Arc::clone(self.pin_analysis.get(key, || Arc::new(analyse(&document.recipe, at))));
        Some(Pin { document, analysis })
    }

    /// Whether everything is saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.open.is_saved()
    }

    /// Whether something runs in the background that will change what is shown.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.shelf.is_listing() || self.file_dialog.is_some()
    }

    /// The files opened last, the newest first.
    #[must_use]
    pub fn recent_files(&self) -> &[PathBuf] {
        &self.settings.recent_files
    }

    /// What is shown, apart from the document.
    #[must_use]
    pub fn view(&self) -> &View {
        &self.view
    }

    fn keys(&mut self, ctx: &Context, actions: &mut Vec<Action>) {
        if self.dialogs.is_open() {
            return;
        }
        let is_typing = ctx.text_edit_focused();
        for (keys, command) in Command::by_keys() {
            if is_typing && command.belongs_to_text_fields() && self.text_field_has_history(ctx) {
                continue;
            }
            if ctx.input_mut(|input| input.consume_shortcut(&keys)) {
                actions.push(Action::Run(command));
            }
        }
    }

    /// Whether keys that edit text belong to the focused field: to every text, but to a number only while it is typed.
    fn text_field_has_history(&self, ctx: &Context) -> bool {
        use super::widgets::number_cell::{edited_cell, is_number_cell};
        match ctx.memory(egui::Memory::focused) {
            Some(id) if is_number_cell(ctx, id) => edited_cell(ctx).is_some(),
            // Where the next ingredient is awaited, undo means what was done before.
            Some(id) if id == shelf::search_id() => !self.view.search.is_empty(),
            focused => focused.is_some(),
        }
    }

    fn carry_out(&mut self, ctx: &Context, actions: Vec<Action>) {
        for action in actions {
            match action {
                Action::Edit(edit) => self.edit(ctx, edit),
                Action::EndGesture => self.open.end_gesture(),
                Action::CancelGesture => self.open.cancel_gesture(),
                Action::Run(command) => self.run(ctx, command),
                Action::SetTemperature(celsius) => self.set_temperature(celsius),
                Action::Show(reading) => self.view.reading = reading,
                Action::Select(line) => self.view.selected = line,
                Action::Focus(focus) => self.view.focus = Some(focus),
                Action::AddIngredient(ingredient) => {
                    let id = self.document().recipe.unused_line_id();
                    let at = self.place_after_selected();
                    self.edit(ctx, Edit::AddLine { at, ingredient, amount: Quantity::default() });
                    self.view.selected = Some(id);
                    self.view.focus = Some(Focus::Amount(id));
                }
                Action::AskForTriglycerides => self.dialogs.show(Dialog::cocoa_butter(self.open.document())),
                Action::OpenRecipe(path) => self.leave_for(ctx, AfterUnsaved::Open(path)),
            }
            ctx.request_repaint();
        }
    }

    fn edit(&mut self, ctx: &Context, edit: Edit) {
        let is_removal = matches!(edit, Edit::RemoveLine(_));
        match self.open.apply(edit) {
            Ok(()) if is_removal => self.toasts.with_undo("Line removed", self.open.revision(), ctx),
            Ok(()) => {}
            Err(error) => self.toasts.say(&error.to_string(), ctx),
        }
    }

    fn run(&mut self, ctx: &Context, command: Command) {
        if let Some(reason) = self.why_not(command) {
            self.toasts.say(reason, ctx);
            return;
        }
        match command {
            Command::New => self.leave_for(ctx, AfterUnsaved::New),
            Command::Open => self.ask_for_path(ctx, Asking::Open),
            Command::Save => self.save(ctx),
            Command::SaveAs => self.ask_where_to_save(ctx),
            Command::Quit => self.leave_for(ctx, AfterUnsaved::Close),
            Command::Undo => self.open.undo(),
            Command::Redo => self.open.redo(),
            Command::CopyTable => {
                ctx.copy_text(super::clipboard::table(&self.document().recipe, self.view.sign));
                self.toasts.say("Lines copied, ready for a spreadsheet", ctx);
            }
            Command::FindIngredient => self.view.focus = Some(Focus::Search),
            Command::GoToSheet | Command::EditAmount => self.go_to_amount(ctx),
            Command::EditNote => self.view.focus = self.selected_or_first().map(Focus::Note),
            Command::RemoveLine => self.remove_selected(ctx),
            Command::MoveUp => self.move_selected(ctx, |place| place.saturating_sub(1)),
            Command::MoveDown => self.move_selected(ctx, |place| place + 1),
            Command::ToggleLock => self.toggle_lock(ctx),
            Command::Pin => {
                self.pin = Some(Arc::clone(self.open.document()));
                self.toasts.say("Pinned: the present state stays behind plots and figures", ctx);
            }
            Command::Unpin => self.pin = None,
            Command::ShowMakeUp => self.view.reading = Reading::MakeUp,
            Command::ShowEmulsion => self.view.reading = Reading::Emulsion,
            Command::ShowFatCrystals => self.view.reading = Reading::FatCrystals,
            Command::Warmer => self.set_temperature(self.view.at + TEMPERATURE_STEP),
            Command::Cooler => self.set_temperature(self.view.at - TEMPERATURE_STEP),
            Command::RoomTemperature => self.set_temperature(ROOM),
            Command::ThemeSystem => self.choose_theme(ctx, Theme::System),
            Command::ThemeLight => self.choose_theme(ctx, Theme::Light),
            Command::ThemeDark => self.choose_theme(ctx, Theme::Dark),
            Command::SwitchDecimalSign => self.switch_decimal_sign(ctx),
            Command::ZoomIn => egui::gui_zoom::zoom_in(ctx),
            Command::ZoomOut => egui::gui_zoom::zoom_out(ctx),
            Command::ZoomReset => ctx.set_zoom_factor(1.0),
            Command::Search => self.dialogs.show(Dialog::command_search()),
            Command::ShowKeys => self.dialogs.show(Dialog::Keys),
            Command::About => self.dialogs.show(Dialog::About),
        }
    }

    /// Why a command cannot be carried out now; `None` if it can.
    #[must_use]
    pub fn why_not(&self, command: Command) -> Option<&'static str> {
        match command {
            Command::Undo if self.open.undo_label().is_none() => Some("Nothing to undo"),
            Command::Redo if self.open.redo_label().is_none() => Some("Nothing to redo"),
            Command::EditAmount
            | Command::EditNote
            | Command::RemoveLine
            | Command::MoveUp
            | Command::MoveDown
            | Command::ToggleLock
            | Command::CopyTable
                if self.document().recipe.lines.is_empty() =>
            {
                Some("The recipe has no lines yet")
            }
            Command::Unpin if self.pin.is_none() => Some("Nothing is pinned"),
            _ => None,
        }
    }

    /// The name of a command as it stands now: "Undo change amount".
    #[must_use]
    pub fn label_of(&self, command: Command) -> String {
        let step = match command {
            Command::Undo => self.open.undo_label(),
            Command::Redo => self.open.redo_label(),
            _ => None,
        };
        step.map_or_else(|| command.label().to_owned(), |step| format!("{} {step}", command.label()))
    }

    fn set_temperature(&mut self, celsius: Celsius) {
        self.view.at = celsius.max(THERMOMETER.0).min(THERMOMETER.1);
    }

    fn selected_or_first(&self) -> Option<crate::recipe::LineId> {
        let recipe = &self.document().recipe;
        self.view
            .selected
            .filter(|&line| recipe.line(line).is_some())
            .or_else(|| recipe.lines.first().map(|line| line.id))
    }

    fn place_of_selected(&self) -> Option<usize> {
        let selected = self.view.selected?;
        self.document().recipe.lines.iter().position(|line| line.id == selected)
    }

    fn place_after_selected(&self) -> usize {
        self.place_of_selected().map_or(self.document().recipe.lines.len(), |place| place + 1)
    }

    fn remove_selected(&mut self, ctx: &Context) {
        let Some(line) = self.selected_or_first() else { return };
        let lines = &self.document().recipe.lines;
        let place = lines.iter().position(|other| other.id == line).unwrap_or(0);
        let next = lines.get(place + 1).or_else(|| place.checked_sub(1).and_then(|before| lines.get(before)));
        let next = next.map(|line| line.id);
        self.edit(ctx, Edit::RemoveLine(line));
        self.view.selected = next;
    }

    fn move_selected(&mut self, ctx: &Context, to: impl Fn(usize) -> usize) {
        let (Some(line), Some(place)) = (self.view.selected, self.place_of_selected()) else {
            self.toasts.say("Choose a line first", ctx);
            return;
        };
        self.edit(ctx, Edit::MoveLine { line, to: to(place) });
    }

    fn go_to_amount(&mut self, ctx: &Context) {
        let Some(id) = self.selected_or_first() else { return };
        if self.document().recipe.line(id).is_some_and(|line| line.is_locked) {
            self.toasts.say("This amount is locked; unlock the line to change it", ctx);
        }
        self.view.focus = Some(Focus::Amount(id));
    }

    fn toggle_lock(&mut self, ctx: &Context) {
        let Some(id) = self.selected_or_first() else { return };
        let Some(is_locked) = self.document().recipe.line(id).map(|line| line.is_locked) else { return };
        self.edit(ctx, Edit::SetLock { line: id, is_locked: !is_locked });
    }

    fn switch_decimal_sign(&mut self, ctx: &Context) {
        let (sign, words) = match self.view.sign {
            DecimalSign::Point => (DecimalSign::Comma, "Numbers are shown with a decimal comma; both are understood"),
            DecimalSign::Comma => (DecimalSign::Point, "Numbers are shown with a decimal point; both are understood"),
        };
        self.view.sign = sign;
        self.settings.decimal_sign = Some(sign.character());
        self.save_settings();
        self.toasts.say(words, ctx);
    }

    fn choose_theme(&mut self, ctx: &Context, choice: Theme) {
        self.settings.theme = choice;
        self.apply_theme(ctx);
        self.save_settings();
    }

    fn apply_theme(&self, ctx: &Context) {
        theme::choose(
            ctx,
            match self.settings.theme {
                Theme::System => theme::ThemeChoice::System,
                Theme::Light => theme::ThemeChoice::Light,
                Theme::Dark => theme::ThemeChoice::Dark,
            },
        );
    }

    fn save_settings(&self) {
        if let Some(places) = &self.places
            && let Err(error) = self.settings.save(places)
        {
            log::warn!("settings are not kept: {error}");
        }
    }
}

/// Opening, saving, leaving.
impl App {
    /// Opens a file and says what is wrong if it cannot be used; the document that is open stays then.
    pub fn open_file(&mut self, path: &Path) {
        match store::load_recipe(path, Library::built_in()) {
            Ok(recipe) => {
                self.take(OpenDocument::new(Document { recipe }));
                self.keep_path(path);
                if let Some(folder) = self.folder() {
                    self.shelf.look_in(&folder);
                }
            }
            Err(error) => self.dialogs.show(Dialog::message("This file cannot be opened", &error.to_string())),
        }
    }

    /// From now on the recipe belongs to this file.
    fn keep_path(&mut self, path: &Path) {
        // The next start, or the recovery of a copy, may happen in another folder.
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.stamp = store::file_stamp(&path);
        self.settings.remember_file(&path);
        self.save_settings();
        self.path = Some(path);
    }

    fn take(&mut self, open: OpenDocument) {
        self.forget_recovery();
        self.open = open;
        self.opened += 1;
        self.path = None;
        self.stamp = None;
        self.pin = None;
        self.view.selected = None;
        self.changed_at = None;
    }

    fn leave_for(&mut self, ctx: &Context, next: AfterUnsaved) {
        if self.open.is_saved() {
            self.go_on(ctx, next);
        } else {
            self.dialogs.show(Dialog::unsaved(self.name()));
            self.after_unsaved = Some(next);
        }
    }

    fn go_on(&mut self, ctx: &Context, next: AfterUnsaved) {
        match next {
            AfterUnsaved::Close => {
                self.may_close = true;
                self.forget_recovery();
                ctx.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            AfterUnsaved::New => {
                self.take(OpenDocument::new(Document::default()));
                self.view.focus = Some(Focus::Search);
            }
            AfterUnsaved::Open(path) => self.open_file(&path),
        }
    }

    fn save(&mut self, ctx: &Context) {
        match self.path.clone() {
            Some(path) if self.has_changed_on_disk(&path) => {
                self.dialogs.show(Dialog::changed_on_disk(path));
            }
            Some(path) => self.save_to(ctx, &path),
            None => self.ask_where_to_save(ctx),
        }
    }

    fn has_changed_on_disk(&self, path: &Path) -> bool {
        let now = store::file_stamp(path);
        now.is_some() && now != self.stamp
    }

    fn is_another_file(&self, path: &Path) -> bool {
        store::file_stamp(path).is_some() && self.path.as_deref() != Some(path)
    }

    fn ask_where_to_save(&mut self, ctx: &Context) {
        let name = file_name(&self.document().recipe.name);
        self.ask_for_path(ctx, Asking::Save { name });
    }

    fn ask_for_path(&mut self, ctx: &Context, asking: Asking) {
        match self.file_dialogs {
            FileDialogs::System => self.file_dialog = Some(FileDialog::show(asking, self.folder(), ctx)),
            FileDialogs::InWindow => self.dialogs.show(Dialog::path_field(asking, self.folder())),
        }
    }

    fn save_to(&mut self, ctx: &Context, path: &Path) {
        match store::save_recipe(path, &self.document().recipe) {
            Ok(()) => {
                // The copy belongs to the file that was worked on until now.
                self.forget_recovery();
                self.open.mark_saved();
                self.keep_path(path);
                self.shelf.refresh();
                self.toasts.say("Saved", ctx);
                if let Some(next) = self.after_unsaved.take() {
                    self.go_on(ctx, next);
                }
            }
            Err(error) => {
                self.after_unsaved = None;
                self.dialogs.show(Dialog::message("The recipe is not saved", &error.to_string()));
            }
        }
    }

    fn folder(&self) -> Option<PathBuf> {
        self.path
            .as_deref()
            .and_then(Path::parent)
            .map(Path::to_owned)
            .or_else(|| self.shelf.folder().map(Path::to_owned))
    }

    fn name(&self) -> String {
        let name = &self.document().recipe.name;
        if name.is_empty() { text::UNNAMED.to_owned() } else { name.clone() }
    }

    fn poll_file_dialog(&mut self, ctx: &Context) {
        let Some(dialog) = &self.file_dialog else { return };
        let Some(answer) = dialog.answer() else { return };
        let asking = dialog.asking.clone();
        self.file_dialog = None;
        match answer {
            Answer::Chosen(path) => self.path_chosen(ctx, &asking, path),
            Answer::Cancelled => self.after_unsaved = None,
            Answer::NoDialog => self.dialogs.show(Dialog::path_field(asking, self.folder())),
        }
    }

    fn path_chosen(&mut self, ctx: &Context, asking: &Asking, path: PathBuf) {
        match asking {
            // The recipe may have changed while the dialog was open.
            Asking::Open => self.leave_for(ctx, AfterUnsaved::Open(path)),
            Asking::Save { .. } => self.save_to(ctx, &with_extension(path)),
        }
    }

    fn answered(&mut self, ctx: &Context, answer: DialogAnswer) {
        match answer {
            DialogAnswer::Run(command) => self.run(ctx, command),
            // The system's dialogs ask this themselves.
            DialogAnswer::Path(Asking::Save { .. }, path) if self.is_another_file(&path) => {
                self.dialogs.show(Dialog::already_there(path));
            }
            DialogAnswer::Path(asking, path) => self.path_chosen(ctx, &asking, path),
            DialogAnswer::SaveThenGoOn => self.save(ctx),
            DialogAnswer::DropThenGoOn => {
                if let Some(next) = self.after_unsaved.take() {
                    self.go_on(ctx, next);
                }
            }
            DialogAnswer::Overwrite(path) => self.save_to(ctx, &path),
            DialogAnswer::Edit(edit) => self.edit(ctx, edit),
            DialogAnswer::Recover(leftover) => self.recover(ctx, &leftover),
            DialogAnswer::DropRecovery(leftover) => leftover.discard(),
            DialogAnswer::Closed => self.after_unsaved = None,
        }
    }
}

/// Recovery copies: what is unsaved is written beside, never over the user's file.
impl App {
    fn offer_recovery(&mut self) {
        let leftover = self.recovery.as_ref().and_then(|recovery| recovery.leftovers().into_iter().next());
        if let Some(leftover) = leftover {
            self.dialogs.show(Dialog::recovery(leftover));
        }
    }

    fn recover(&mut self, ctx: &Context, leftover: &Leftover) {
        match leftover.restore(Library::built_in()) {
            Ok(recipe) => {
                self.take(OpenDocument::new_unsaved(Document { recipe }));
                self.path.clone_from(&leftover.original);
                self.stamp = self.path.as_deref().and_then(store::file_stamp);
                // A copy of this run first, so that there is always one.
                self.changed_at = Some(ctx.input(|input| input.time) - RECOVERY_DELAY);
                self.keep_recovery(ctx);
                if self.has_recovery_copy() {
                    leftover.discard();
                }
            }
            Err(error) => self.dialogs.show(Dialog::message("The copy cannot be opened", &error.to_string())),
        }
    }

    fn forget_recovery(&mut self) {
        if let Some(recovery) = &self.recovery {
            recovery.remove(self.path.as_deref());
        }
        self.recovered_revision = None;
    }

    /// Writes the recovery copy a few seconds after the last change.
    fn keep_recovery(&mut self, ctx: &Context) {
        let Some(changed_at) = self.changed_at else { return };
        if self.open.is_saved() {
            self.changed_at = None;
            self.forget_recovery();
            return;
        }
        let waited = ctx.input(|input| input.time) - changed_at;
        if waited < RECOVERY_DELAY {
            ctx.request_repaint_after(std::time::Duration::from_secs_f64(RECOVERY_DELAY - waited));
            return;
        }
        self.changed_at = None;
        let state = (self.opened, self.open.revision());
        if self.recovered_revision == Some(state) {
            return;
        }
        let recipe = self.open.document().recipe.clone();
        if let Some(recovery) = &self.recovery {
            match recovery.write(self.path.as_deref(), &recipe) {
                Ok(()) => self.recovered_revision = Some(state),
                Err(error) => log::warn!("no recovery copy: {error}"),
            }
        }
    }

    /// Whether unsaved work is also kept in a recovery copy.
    #[must_use]
    pub fn has_recovery_copy(&self) -> bool {
        self.recovered_revision == Some((self.opened, self.open.revision()))
    }
}

fn start_recovery(places: &Places) -> Option<Recovery> {
    Recovery::start(places).map_err(|error| log::warn!("no recovery copies: {error}")).ok()
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        self.remember_window(ctx);
        self.poll_file_dialog(ctx);
        self.keep_recovery(ctx);
        self.shelf.poll(ctx);
        if ctx.input(|input| input.viewport().close_requested()) && !self.may_close && !self.open.is_saved() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.leave_for(ctx, AfterUnsaved::Close);
        }
        let dropped = ctx.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        if let Some(path) = dropped {
            self.leave_for(ctx, AfterUnsaved::Open(path));
        }
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn on_exit(&mut self) {
        self.settings.last_folder = self.shelf.folder().map(Path::to_owned);
        self.save_settings();
        self.forget_recovery();
    }
}

impl App {
    /// One frame.
    pub fn show(&mut self, ui: &mut egui::Ui) {
        let ctx = ui.ctx().clone();
        let before = (self.opened, self.open.revision());
        let mut actions = Vec::new();
        self.keys(&ctx, &mut actions);
        let analysis = self.analysis();
        let pin = self.pin();
        let document = Arc::clone(self.open.document());
        let scene = Scene { document: &document, analysis: &analysis, pin: pin.as_ref() };

        self.view.pointed_now = None;
        panels::menu_bar::menu_bar_ui(ui, self, &mut actions);
        panels::status_bar::status_bar_ui(ui, self, &scene, &mut actions);
        let path = self.path.clone();
        self.shelf.ui(ui, &mut self.view, path.as_deref(), &mut actions);
        panels::thermometer_strip::thermometer_ui(ui, &scene, &self.view, &mut actions);
        panels::readings::readings_ui(
            ui,
            &scene,
            &mut self.view,
            &mut self.plots,
            (self.opened, self.open.revision()),
            &mut actions,
        );
        panels::sheet::sheet_ui(ui, &scene, &mut self.view, &mut actions);

        let mut dialogs = std::mem::take(&mut self.dialogs);
        let answer = dialogs.ui(&ctx, &|command| self.why_not(command), &document);
        self.dialogs = dialogs;
        if let Some(answer) = answer {
            self.answered(&ctx, answer);
            ctx.request_repaint();
        }
        self.toasts.ui(&ctx, self.open.revision(), &mut actions);

        if self.view.pointed != self.view.pointed_now {
            self.view.pointed = self.view.pointed_now;
            ctx.request_repaint();
        }
        self.carry_out(&ctx, actions);
        if (self.opened, self.open.revision()) != before {
            self.changed_at = Some(ctx.input(|input| input.time));
            // Drawn once more before it is seen: what is typed and all that follows from it stand in the same frame.
            ctx.request_discard("the recipe has changed");
        }
        self.remember_zoom(&ctx);
        self.show_title(&ctx);
    }

    /// Notes where the window is; it is written when the program ends.
    fn remember_window(&mut self, ctx: &Context) {
        let (inner, outer, is_maximised) = ctx.input(|input| {
            let viewport = input.viewport();
            (viewport.inner_rect, viewport.outer_rect, viewport.maximized.unwrap_or(false))
        });
        let Some(inner) = inner else { return };
        // Of a window that fills the screen, the size it had before is worth keeping.
        let size = match self.settings.window {
            Some(before) if is_maximised => before.size,
            _ => [inner.width(), inner.height()],
        };
        self.settings.window =
            Some(WindowPlace { position: outer.map(|outer| [outer.left(), outer.top()]), size, is_maximised });
    }

    fn remember_zoom(&mut self, ctx: &Context) {
        let zoom = ctx.zoom_factor();
        if (zoom - self.settings.zoom).abs() > f32::EPSILON {
            self.settings.zoom = zoom;
            self.save_settings();
        }
    }

    /// The title of the window: the recipe first, with a mark while it is not saved.
    #[must_use]
    pub fn title(&self) -> String {
        let mark = if self.open.is_saved() { "" } else { "• " };
        format!("{mark}{} – Nibwright", self.name())
    }

    fn show_title(&mut self, ctx: &Context) {
        let title = self.title();
        if title != self.shown_title {
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.shown_title = title;
        }
    }
}
