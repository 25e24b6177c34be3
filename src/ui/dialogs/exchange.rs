//! The dialog that exchanges an ingredient: in the recipe that is open, or in all recipes of the shelf's folder.
//!
//! The question stands at the left, what came of it at the right. Both are worked out in threads of their own, which are told
//! to stop as soon as something else is asked or the dialog is closed; nothing is changed or written before it is asked for.

mod answer;
mod asked;
mod folder;
mod picker;

use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use egui::{Align, Button, Context, Id, Key, Layout, Modifiers, RichText, ScrollArea, Ui};

use super::{Around, DialogAnswer, takes_ctrl_enter, title_ui};
use crate::document::Document;
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::production::price_list::PriceList;
use crate::recipe::LineId;
use crate::reformulate::substitute::{Substituted, Substitution, SubstitutionError};
use crate::report::words::substitution::not_worked;
use crate::store::exchange::Worked;
use crate::ui::exchange::{Asked, Where, edit_of};
use crate::ui::targets::LONGEST;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::tabs_ui;
use crate::ui::worker::Worker;
use answer::{Told, answer_ui, wrapped_ui};
use folder::InFolder;
use picker::Picker;

/// How wide the dialog is where the window has room.
pub(super) const WIDTH: f32 = 1040.0;

/// How wide the question is.
const QUESTION: f32 = 340.0;
/// What title, foot and the room around them take of the height of the window.
const AROUND: f32 = 220.0;
/// Higher than this, the dialog would have empty room.
const HIGHEST: f32 = 720.0;
/// Seconds after which one sees that an answer is on its way.
const LATE: f64 = 0.2;
/// How much of the answer before is seen while another one is worked out.
const OF_BEFORE: f32 = 0.45;
/// The name of the field for what comes in.
const COMING: &str = "what comes in its place";
/// The name of the field for what may come besides.
const BESIDES: &str = "what may come besides";

/// The dialog.
#[derive(Debug)]
pub struct ExchangeForm {
    document: Arc<Document>,
    sign: DecimalSign,
    asked: Asked,
    at: Where,
    coming: Picker,
    besides: Picker,
    here: Here,
    folder: InFolder,
}

/// The exchange in the recipe that is open.
#[derive(Debug, Default)]
struct Here {
    running: Option<Running>,
    /// What came of it last, with what it answers.
    done: Option<(Substitution, Answer)>,
    /// Whether everything was told of it: of what cannot be done what could come besides, too.
    is_complete: bool,
    /// The exchange that was told to stop.
    stopped: Option<Substitution>,
}

/// What came of an exchange, with what is told beside its figures.
type Answer = Result<(Substituted, Told), SubstitutionError>;

#[derive(Debug)]
struct Running {
    substitution: Substitution,
    since: f64,
    worker: Worker<Answer>,
}

impl ExchangeForm {
    /// For the ingredient of a line; `None` if there is no such line.
    pub(super) fn new(document: &Arc<Document>, line: LineId, prices: &PriceList, sign: DecimalSign) -> Option<Self> {
        let from = &document.recipe.line(line)?.ingredient.id;
        Some(Self {
            document: Arc::clone(document),
            sign,
            asked: Asked::of(&document.recipe, from, prices),
            at: Where::default(),
            coming: Picker::new(COMING, true),
            besides: Picker::new(BESIDES, false),
            here: Here::default(),
            folder: InFolder::default(),
        })
    }

    /// Whether a click beside it must not close it, because work would be lost.
    pub(super) fn holds_work(&self) -> bool {
        self.asked.to.is_some() || self.folder.has_rows()
    }

    /// Whether something goes on in the background.
    pub(super) fn is_at_work(&self) -> bool {
        self.here.running.is_some() || self.folder.is_at_work()
    }

    /// The recipes that were written since the last call.
    pub(super) fn take_written(&mut self) -> Vec<Arc<Worked>> {
        self.folder.take_written()
    }

    pub(super) fn ui(&mut self, ui: &mut Ui, around: &Around<'_>) -> Option<DialogAnswer> {
        if !Arc::ptr_eq(&self.document, around.document) {
            // It was written with the exchange, or another one was opened.
            self.document = Arc::clone(around.document);
            self.asked.look_at(&self.document.recipe);
            self.here = Here::default();
        }
        let enter = takes_ctrl_enter(ui);
        let is_asking = self.at == Where::Folder && self.folder.is_asking();
        if is_asking && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
            self.folder.stop_asking();
        }
        title_ui(ui, "Exchange an ingredient");
        let height = (ui.ctx().content_rect().height() - AROUND).min(HIGHEST);
        // Always as high, so that nothing moves under the hand.
        let (rect, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), height), egui::Sense::hover());
        let side = |left: f32, right: f32| {
            let place = egui::Rect::from_x_y_ranges(left..=right, rect.y_range());
            egui::UiBuilder::new().max_rect(place).layout(Layout::top_down(Align::Min))
        };
        let split = rect.left() + QUESTION;
        ui.painter().vline(split, rect.y_range(), Palette::of(ui).rule_stroke());
        let mut question = ui.new_child(side(rect.left(), split - space::TIGHT));
        ScrollArea::vertical().id_salt("question of the exchange").auto_shrink(false).show(&mut question, |ui| {
            // The bar floats over the right edge.
            ui.set_width(ui.available_width() - space::GROUP);
            ui.add_enabled_ui(!self.folder.is_writing(), |ui| asked::asked_ui(ui, self));
        });
        // Behind the question: what was chosen in this frame is worked on at once.
        let asked = Some(&self.asked).filter(|_| self.at == Where::Here);
        self.here.keep_up(ui.ctx(), &self.document, asked, self.sign);
        self.folder.keep_up(&self.asked, self.sign);
        self.answers_ui(&mut ui.new_child(side(split + space::GROUP, rect.right())), around);
        self.foot_ui(ui, around.is_saved, enter)
    }

    fn answers_ui(&mut self, ui: &mut Ui, around: &Around<'_>) {
        let folder = around.shelf.folder().and_then(Path::file_name).map(|name| name.to_string_lossy().into_owned());
        let all = match folder {
            Some(folder) => format!("All recipes of {folder}"),
            None => "All recipes of the shelf".to_owned(),
        };
        let now = usize::from(self.at == Where::Folder);
        let chosen = tabs_ui(ui, Id::unique("where it is exchanged"), &["This recipe", &all], now);
        if let Some(chosen) = chosen.filter(|_| !self.folder.is_writing()) {
            self.folder.stop_asking();
            self.at = if chosen == 0 { Where::Here } else { Where::Folder };
            ui.ctx().request_repaint();
        }
        ui.add_space(space::NEAR);
        match self.at {
            Where::Folder => self.folder.ui(ui, &self.asked, around, self.sign),
            Where::Here => {
                ScrollArea::vertical().id_salt("answer of the exchange").auto_shrink(false).show(ui, |ui| {
                    if let Some(besides) = self.here.ui(ui, &self.asked, self.sign) {
                        self.asked.besides = Some(besides);
                        ui.ctx().request_repaint();
                    }
                });
            }
        }
    }

    /// The buttons, with what they do beside them.
    fn foot_ui(&mut self, ui: &mut Ui, is_saved: bool, enter: bool) -> Option<DialogAnswer> {
        let edit = self.here.answer(&self.asked).and_then(|substituted| edit_of(&self.document.recipe, substituted));
        let mut answer = None;
        let words = match self.at {
            Where::Here if edit.is_some() => "One step: Undo brings the recipe back as it was.".to_owned(),
            Where::Here => String::new(),
            Where::Folder => self.folder.caution(),
        };
        ui.add_space(space::GROUP);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            match self.at {
                Where::Folder => self.folder.write_ui(ui, is_saved),
                Where::Here => {
                    let palette = Palette::of(ui);
                    let button = Button::new(theme::strong("Accept").color(palette.on_accent)).fill(palette.accent);
                    let accept = ui.add_enabled(edit.is_some(), button.min_size(egui::vec2(84.0, 30.0)));
                    let keys = ui.ctx().format_shortcut(&egui::KeyboardShortcut::new(Modifiers::COMMAND, Key::Enter));
                    let accept = accept.on_hover_text(keys).on_disabled_hover_text("There is no answer to accept");
                    if accept.clicked() || enter {
                        answer = edit.map(DialogAnswer::Exchange);
                    }
                }
            }
            let is_asking = self.at == Where::Folder && self.folder.is_asking();
            if !is_asking && ui.add(Button::new("Close").min_size(egui::vec2(84.0, 30.0))).clicked() {
                answer = Some(DialogAnswer::Closed);
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let colour = if is_asking { Palette::of(ui).text } else { Palette::of(ui).quiet };
                let font = if is_asking { theme::body() } else { theme::small() };
                wrapped_ui(ui, RichText::new(words).font(font).color(colour));
            });
        });
        answer
    }
}

impl Here {
    /// Takes the answer when it is there, and has the next question worked out when there is another one.
    fn keep_up(&mut self, ctx: &Context, document: &Arc<Document>, asked: Option<&Asked>, sign: DecimalSign) {
        if let Some(running) = &self.running {
            let (mut news, is_over) = running.worker.news();
            if let Some(result) = news.pop() {
                self.done = Some((running.substitution.clone(), result));
            }
            // Of what cannot be done it goes on to look for what could come besides.
            if is_over {
                if !self.is_done(&running.substitution) {
                    // It broke: it is not tried again by itself.
                    self.stopped = Some(running.substitution.clone());
                }
                self.is_complete = self.is_done(&running.substitution);
                self.running = None;
            }
        }
        let Some((asked, substitution)) = asked.and_then(|asked| Some((asked, asked.substitution()?))) else {
            self.running = None;
            return;
        };
        let is_told = self.is_done(&substitution);
        let is_known = (is_told && self.is_complete) || self.stopped.as_ref() == Some(&substitution);
        let is_at_it = self.running.as_ref().is_some_and(|running| running.substitution == substitution);
        let time = ctx.input(|input| input.time);
        if is_known && !is_at_it {
            self.running = None;
        } else if !is_at_it {
            let (document, task, ticked) = (Arc::clone(document), substitution.clone(), asked.ticked());
            let worker = Worker::start("exchange of an ingredient", ctx, move |teller| {
                let within = |begun: Instant| move || teller.is_stopped() || begun.elapsed() > LONGEST;
                let tell = |result: Result<Substituted, SubstitutionError>| {
                    let result = result.map(|substituted| {
                        let told = Told::of_open(&substituted, &ticked, sign);
                        (substituted, told)
                    });
                    !teller.is_stopped() && teller.tell(result)
                };
                let result = task.of(&document.recipe, &within(Instant::now()));
                let failed = result.as_ref().ok().filter(|substituted| substituted.recipe().is_none()).cloned();
                if let (true, Some(mut substituted)) = (tell(result), failed) {
                    task.seek_helpers(&mut substituted, &within(Instant::now()));
                    tell(Ok(substituted));
                }
            });
            self.stopped = None;
            self.is_complete = false;
            self.running = Some(Running { substitution, since: time, worker });
        }
        if let Some(left) = self.awaited().map(|running| LATE - (time - running.since)).filter(|left| *left > 0.0) {
            ctx.request_repaint_after(Duration::from_secs_f64(left));
        }
    }

    /// Whether there is an answer to an exchange.
    fn is_done(&self, substitution: &Substitution) -> bool {
        self.done.as_ref().is_some_and(|(of, _)| of == substitution)
    }

    /// The work that one waits for: not that which only looks for what would help.
    fn awaited(&self) -> Option<&Running> {
        self.running.as_ref().filter(|running| !self.is_done(&running.substitution))
    }

    /// What came of what is asked now.
    fn answer(&self, asked: &Asked) -> Option<&Substituted> {
        let (of, result) = self.done.as_ref()?;
        let (substituted, _) = result.as_ref().ok().filter(|_| asked.substitution().as_ref() == Some(of))?;
        Some(substituted)
    }

    /// Draws it; what is chosen to come besides is given back.
    fn ui(&mut self, ui: &mut Ui, asked: &Asked, sign: DecimalSign) -> Option<Arc<Ingredient>> {
        let Some(substitution) = asked.substitution() else {
            let words = "Choose at the left what comes in its place. Then you see here what it would change, line by line \
                         and result by result; the recipe stays as it is until you accept.";
            wrapped_ui(ui, theme::quiet(ui, words));
            return None;
        };
        if self.stopped.as_ref() == Some(&substitution) {
            wrapped_ui(ui, RichText::new("It was stopped before there was an answer."));
            if ui.button("Work it out again").clicked() {
                self.stopped = None;
            }
            return None;
        }
        let mut is_of_before = false;
        if let Some(running) = self.awaited() {
            let is_late = ui.input(|input| input.time) - running.since >= LATE;
            is_of_before = is_late;
            if is_late || self.done.is_none() {
                let mut is_stopped = false;
                ui.horizontal(|ui| {
                    ui.label(theme::quiet(ui, "Working it out…"));
                    is_stopped = is_late && ui.button("Stop").clicked();
                });
                if is_stopped {
                    self.stopped = Some(running.substitution.clone());
                    self.running = None;
                    return None;
                }
            }
        }
        // The answer before stays in sight until the next one is there.
        if is_of_before {
            ui.multiply_opacity(OF_BEFORE);
        }
        match &self.done {
            Some((_, Ok((substituted, told)))) => {
                let is_seeking_help = self.running.is_some() && self.awaited().is_none();
                answer_ui(ui, substituted, told, is_seeking_help, sign)
            }
            Some((_, Err(why))) => {
                wrapped_ui(ui, RichText::new(not_worked(why, sign)).color(Palette::of(ui).caution));
                None
            }
            None => None,
        }
    }
}
