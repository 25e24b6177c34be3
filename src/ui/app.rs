//! The program: one document, its view, and what happens between two frames.
//!
//! Panels read the document and its analysis and push [`Action`]s; they are carried out here, after the frame.
//! Analysis is computed at most once for a state of the document and a temperature.

mod commands;
mod files;
mod plots;
mod prices;
mod recovery;
mod targets;
mod weighing;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;

use super::command::Command;
use super::dialogs::{Around, Dialogs};
use super::files::{FileDialog, FileDialogs};
use super::panels::lines::{amount_id, parse_quantity};
use super::panels::{self, shelf, shelf::Shelf};
use super::toast::Toasts;
use super::view::{Action, Costs, Pin, Scene, View};
use super::widgets::explain::note_keys;
use super::widgets::number_cell::type_ahead;
use super::widgets::thermometer;
use super::{samples, text, theme};
use crate::analysis::reading::Reading;
use crate::analysis::{Analysis, analyse};
use crate::document::{Document, Edit, Memo, OpenDocument, Revision};
use crate::number::DecimalSign;
use crate::report::words::{self, FindingWords};
use crate::store::{FileStamp, Places, Recovery, Settings, WindowPlace};
use crate::units::Celsius;

/// The thermometer's range.
pub const THERMOMETER: (Celsius, Celsius) = (Celsius(thermometer::LOWEST_C), Celsius(thermometer::HIGHEST_C));

/// The program.
pub struct App {
    open: OpenDocument,
    /// Counts the documents opened, so that two of them never share a key of a memo.
    opened: u64,
    path: Option<PathBuf>,
    stamp: Option<FileStamp>,
    analysis: Memo<AnalysisKey, Arc<Analysis>>,
    finding_words: Memo<(AnalysisKey, DecimalSign), Arc<[FindingWords]>>,
    pin: Option<Arc<Document>>,
    /// Counts the pins, so that no two of them share a key of a memo.
    pins: u64,
    pin_analysis: Memo<PinKey, Arc<Analysis>>,
    answer_analysis: Memo<PinKey, Arc<Analysis>>,
    worker: targets::Worker,
    view: View,
    settings: Settings,
    places: Option<Places>,
    shelf: Shelf,
    file_dialogs: FileDialogs,
    file_dialog: Option<FileDialog>,
    dialogs: Dialogs,
    /// Whether the panels were drawn behind a dialog in the last pass.
    was_behind_dialog: bool,
    toasts: Toasts,
    plots: panels::readings::PlotMemos,
    prices: prices::Prices,
    /// What to do once the unsaved document has been dealt with.
    after_unsaved: Option<AfterUnsaved>,
    recovery: Option<Recovery>,
    recovered_revision: Option<(u64, Revision)>,
    changed_at: Option<f64>,
    shown_title: String,
    may_close: bool,
}

type AnalysisKey = (State, u64);
type PinKey = (u64, u64);

/// Which document, and which state of it.
type State = (u64, Revision);

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
            pins: 0,
            finding_words: Memo::default(),
            pin_analysis: Memo::default(),
            answer_analysis: Memo::default(),
            worker: targets::Worker::default(),
            view: View { reading: Reading::from_key(&settings.reading).unwrap_or_default(), ..View::new(sign) },
            shelf: Shelf::new(settings.last_folder.clone().or_else(samples::folder)),
            settings,
            file_dialogs: start.file_dialogs,
            file_dialog: None,
            dialogs: Dialogs::default(),
            was_behind_dialog: false,
            toasts: Toasts::default(),
            plots: panels::readings::PlotMemos::default(),
            prices: prices::Prices::load(start.places.as_ref()),
            after_unsaved: None,
            recovery: start.places.as_ref().and_then(recovery::start_recovery),
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
        let key = (self.state(), at.0.to_bits());
        let recipe = &self.open.document().recipe;
        Arc::clone(self.analysis.get(key, || Arc::new(analyse(recipe, at))))
    }

    /// The words of the findings of an analysis, written once for each.
    fn words_of_findings(&mut self, analysis: &Analysis) -> Arc<[FindingWords]> {
        let sign = self.view.sign;
        let key = ((self.state(), self.view.at.0.to_bits()), sign);
        let write = || analysis.findings.iter().map(|finding| words::finding(finding, sign)).collect();
        Arc::clone(self.finding_words.get(key, write))
    }

    /// The pinned state with what it is at the temperature of the thermometer.
    pub fn pin(&mut self) -> Option<Pin> {
        let document = Arc::clone(self.pin.as_ref()?);
        let at = self.view.at;
        let key = (self.pins, at.0.to_bits());
        let analysis = Arc::clone(self.pin_analysis.get(key, || Arc::new(analyse(&document.recipe, at))));
        Some(Pin { number: self.pins, document, analysis, legend: text::PINNED })
    }

    fn state(&self) -> State {
        (self.opened, self.open.revision())
    }

    /// Whether everything is saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.open.is_saved()
    }

    /// Whether something runs in the background that will change what is shown.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.shelf.is_listing() || self.file_dialog.is_some() || self.worker.is_at_work() || self.dialogs.is_at_work()
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

    fn commands_by_keys(&mut self, ctx: &Context) -> Vec<Command> {
        let mut commands = Vec::new();
        if self.dialogs.is_open() {
            // What a figure is can be asked anywhere.
            let mut explain = Command::Explain.keys().iter();
            if explain.any(|keys| ctx.input_mut(|input| input.consume_shortcut(keys))) {
                commands.push(Command::Explain);
            }
            return commands;
        }
        let is_typing = ctx.text_edit_focused();
        let search = ctx.input(|input| {
            let is_key = |event: &egui::Event| {
                matches!(event, egui::Event::Key { key, pressed: true, modifiers, .. }
                if Command::Search.keys().iter().any(|keys| {
                    keys.logical_key == *key && modifiers.matches_logically(keys.modifiers)
                }))
            };
            input.events.iter().position(is_key)
        });
        for &(keys, command) in Command::by_keys() {
            if is_typing && command.belongs_to_text_fields() && self.text_field_has_history(ctx) {
                continue;
            }
            if ctx.input_mut(|input| input.consume_shortcut(&keys)) {
                commands.push(command);
            }
        }
        if let Some(at) = search
            && commands.contains(&Command::Search)
        {
            self.dialogs.typed_ahead = typed_after(ctx, at);
        }
        commands
    }

    /// Changes the recipe by what is typed into an amount, before it is drawn.
    fn take_up_typing(&mut self, ctx: &Context) {
        let Some(focused) = ctx.memory(egui::Memory::focused) else { return };
        let lines = &self.document().recipe.lines;
        let Some(line) = lines.iter().find(|line| amount_id(line.id) == focused) else { return };
        let (id, unit) = (line.id, line.amount.unit());
        if let Some(text) = type_ahead(ctx, focused)
            && let Ok(amount) = parse_quantity(&text, unit)
        {
            self.carry_out(ctx, vec![Action::Edit(Edit::SetAmount { line: id, amount })]);
        }
    }

    /// Whether keys that edit text belong to the focused field: to every text, but to a number only while it is typed.
    fn text_field_has_history(&self, ctx: &Context) -> bool {
        use super::widgets::number_cell::{edited_cell, is_number_cell};
        match ctx.memory(egui::Memory::focused) {
            Some(id) if is_number_cell(ctx, id) => edited_cell(ctx).is_some(),
            // Where the next ingredient is awaited, undo means what was done before.
            Some(id) if id == shelf::search_id() => !self.view.search.is_empty(),
            // Of the other things that can have the keyboard only texts know undo.
            _ => ctx.text_edit_focused(),
        }
    }
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        self.remember_window(ctx);
        self.poll_file_dialog(ctx);
        self.keep_recovery(ctx);
        self.shelf.poll(ctx);
        let is_form_open = self.dialogs.holds_work();
        let is_unsaved = !self.open.is_saved() || is_form_open;
        if ctx.input(|input| input.viewport().close_requested()) && !self.may_close && is_unsaved {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            if is_form_open {
                self.toasts.say(text::FORM_IS_OPEN, ctx);
            } else {
                self.leave_for(ctx, AfterUnsaved::Close);
            }
        }
        let dropped = ctx.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        if let Some(path) = dropped {
            if is_form_open {
                self.toasts.say(text::FORM_IS_OPEN, ctx);
            } else {
                self.leave_for(ctx, AfterUnsaved::Open(path));
            }
        }
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn on_exit(&mut self) {
        self.settings.last_folder = self.shelf.folder().map(Path::to_owned);
        self.save_settings();
        // Some systems end a program without asking it: then what is unsaved is kept for the next start.
        if self.may_close || self.open.is_saved() {
            self.forget_recovery();
        } else {
            self.write_recovery();
        }
    }
}

impl App {
    /// One frame.
    pub fn show(&mut self, ui: &mut egui::Ui) {
        let ctx = ui.ctx().clone();
        let at_start = self.state();
        note_keys(&ctx);
        drop_text_of_menu_keys(&ctx);
        let commands = self.commands_by_keys(&ctx);
        self.take_up_typing(&ctx);
        self.work_on_targets(&ctx);
        let before = self.state();
        let mut actions = Vec::new();
        let analysis = self.analysis();
        let pin = self.pin();
        let document = Arc::clone(self.open.document());
        let finding_words = self.words_of_findings(&analysis);
        let cost = self.prices.cost(before, &document.recipe, &analysis);
        let pinned_cost = pin.as_ref().map(|pin| self.prices.cost_of_pin(pin));
        let problem = self.prices.problem().map(str::to_owned);
        let costs = Costs { now: Some(&cost), pinned: pinned_cost.as_deref(), problem: problem.as_deref() };
        let pin = pin.as_ref();
        let scene = Scene { document: &document, analysis: &analysis, finding_words: &finding_words, pin, costs };

        self.view.pointed_now = None;
        // Behind a dialog, and in the first pass without it, nothing can take the keyboard: it has to wait.
        let is_behind_dialog = ctx.memory(|memory| memory.top_modal_layer().is_some());
        let waiting = if is_behind_dialog { self.view.focus.take() } else { None };
        if is_behind_dialog && !std::mem::replace(&mut self.was_behind_dialog, is_behind_dialog) {
            // What was explained when the dialog opened would stay over it: for a pass that nobody sees there is nothing to
            // explain.
            ui.disable();
            ctx.request_discard("hover texts go when a dialog opens");
        }
        self.was_behind_dialog = is_behind_dialog;
        panels::menu_bar::menu_bar_ui(ui, self, &mut actions);
        panels::status_bar::status_bar_ui(ui, self, &scene, &mut actions);
        let path = self.path.clone();
        self.view.has_shelf = !self.settings.is_shelf_hidden;
        if self.view.has_shelf {
            self.shelf.ui(ui, &mut self.view, (&document.recipe, before), path.as_deref(), &mut actions);
        }
        self.readings_ui(ui, &scene, before, &mut actions);
        let sheet = ui.available_rect_before_wrap();
        panels::sheet::sheet_ui(ui, &scene, &mut self.view, &mut actions);
        self.view.focus = self.view.focus.take().or(waiting);

        let mut dialogs = std::mem::take(&mut self.dialogs);
        let around = Around {
            document: &document,
            path: self.path.as_deref(),
            is_saved: self.open.is_saved(),
            shelf: &self.shelf,
            why_not: &|command| self.why_not(command),
        };
        let answer = dialogs.ui(&ctx, &around);
        self.dialogs = dialogs;
        self.take_up_written();
        if let Some(answer) = answer {
            self.answered(&ctx, answer);
            ctx.request_repaint();
        }
        let is_overtaken = self.is_undo_of_targets();
        self.toasts.ui(&ctx, sheet, Some(self.open.revision()).filter(|_| !is_overtaken), &mut actions);

        if self.view.pointed != self.view.pointed_now {
            self.view.pointed = self.view.pointed_now;
            ctx.request_repaint();
        }
        // Last: what was typed in this frame belongs to what is saved or locked in it.
        actions.extend(commands.into_iter().map(Action::Run));
        self.carry_out(&ctx, actions);
        if self.state() != at_start {
            self.changed_at = Some(ctx.input(|input| input.time));
        }
        if self.state() != before {
            // Drawn once more before it is seen: what is typed and all that follows from it stand in the same frame.
            ctx.request_discard("the recipe has changed");
        }
        self.remember_zoom(&ctx);
        self.show_title(&ctx);
    }

    /// The thermometer and the readings: of the recipe, or while that is asked for of the proposed one.
    fn readings_ui(&mut self, ui: &mut egui::Ui, scene: &Scene<'_>, state: State, actions: &mut Vec<Action>) {
        let Some(answer) = self.shown_answer() else {
            panels::thermometer_strip::thermometer_ui(ui, scene, &self.view, actions);
            panels::readings::readings_ui(ui, (scene, scene), &mut self.view, &mut self.plots, state, actions);
            return;
        };
        let proposed = Scene {
            document: &answer.document,
            analysis: &answer.analysis,
            finding_words: &[],
            pin: Some(&answer.present),
            costs: Costs { now: Some(&answer.cost), pinned: scene.costs.now, problem: scene.costs.problem },
        };
        panels::thermometer_strip::thermometer_ui(ui, &proposed, &self.view, actions);
        let mut asked = Vec::new();
        let shown = (scene, &proposed);
        panels::readings::readings_ui(ui, shown, &mut self.view, &mut self.plots, answer.key, &mut asked);
        // What is typed beside figures of the proposal is meant for that, and that is not the recipe yet.
        let is_edit = |action: &Action| matches!(action, Action::Edit(_));
        if asked.iter().any(is_edit) {
            self.toasts.say(text::ACCEPT_FIRST, ui.ctx());
        }
        actions.extend(asked.into_iter().filter(|action| !is_edit(action)));
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

/// Takes what was typed behind an event of this frame: it is meant for what the event opens.
///
/// What had the keyboard gives it up, so that what is typed in the next frame does not go there either.
fn typed_after(ctx: &Context, at: usize) -> String {
    if let Some(id) = ctx.memory(egui::Memory::focused) {
        ctx.memory_mut(|memory| memory.surrender_focus(id));
    }
    ctx.input_mut(|input| {
        // The event itself was taken out.
        let behind = input.events.split_off(at.min(input.events.len()));
        let is_typed = |event: &egui::Event| matches!(event, egui::Event::Text(_) | egui::Event::Key { .. });
        let (typed, others): (Vec<_>, Vec<_>) = behind.into_iter().partition(is_typed);
        input.events.extend(others);
        typed
            .into_iter()
            .filter_map(|event| if let egui::Event::Text(text) = event { Some(text) } else { None })
            .collect()
    })
}

/// A letter with Alt is meant for a menu and not for a text. On macOS it types accents, elsewhere AltGr does.
fn drop_text_of_menu_keys(ctx: &Context) {
    if cfg!(target_os = "macos") {
        return;
    }
    ctx.input_mut(|input| {
        // A text comes behind the key that types it.
        let mut modifiers = input.modifiers;
        input.events.retain(|event| match event {
            egui::Event::ModifiersChanged(changed) => {
                modifiers = *changed;
                true
            }
            egui::Event::Key { modifiers: held, .. } => {
                modifiers = *held;
                true
            }
            egui::Event::Text(_) => !modifiers.alt || modifiers.ctrl,
            _ => true,
        });
    });
}
