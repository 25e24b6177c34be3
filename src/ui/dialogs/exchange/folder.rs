//! The exchange in all recipes of the shelf's folder: looked through in the background, a row for each that uses the
//! ingredient, and written only where it is asked for.

use std::path::Path;
use std::sync::Arc;

use egui::accesskit::Role;
use egui::style::ScrollStyle;
use egui::{Button, Color32, Context, Id, Key, Modifiers, RichText, ScrollArea, Sense, Ui, WidgetInfo};

use super::answer::{Told, answer_ui, wrapped_ui};
use crate::document::Memo;
use crate::ingredient::Library;
use crate::number::DecimalSign;
use crate::reformulate::substitute::Substitution;
use crate::report::words::substitution::{not_worked, reasons};
use crate::store::exchange::{NotWorked, Progress, Worked, work_out};
use crate::store::is_same_file;
use crate::ui::dialogs::Around;
use crate::ui::exchange::Asked;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::{clipped_text, focus_ring};
use crate::ui::worker::Worker;

/// Height of a row.
const ROW: f32 = 30.0;
/// No more of the height is for the list; the rest is for the details of the chosen recipe.
const LIST: f32 = 0.36;
/// The list has room for so many rows before there are any: what is found first moves nothing.
const LEAST_ROWS: usize = 2;
/// How wide a button in a row is.
const WRITE: f32 = 68.0;
/// How much of a row the name of the recipe takes.
const TITLE: f32 = 0.4;
/// Height of the bar that shows how far it is.
const PROGRESS: f32 = 6.0;

/// What was found in the folder.
#[derive(Debug, Default)]
pub(super) struct InFolder {
    /// What the rows answer.
    asked: Option<Substitution>,
    looking: Option<Worker<(Progress, Option<Found>)>>,
    progress: Progress,
    rows: Vec<Row>,
    chosen: usize,
    /// What is told of the chosen row, by its place: rows are only added while the same is asked.
    of_chosen: Memo<usize, Told>,
    /// The keyboard goes to the chosen row.
    follows: bool,
    writing: Option<Worker<(usize, Result<(), String>)>>,
    /// The rows that are written once that is confirmed.
    to_confirm: Vec<usize>,
    /// What was written since the window asked last.
    written: Vec<Arc<Worked>>,
}

/// A recipe that uses what goes, or that cannot be read.
#[derive(Debug)]
struct Found {
    worked: Arc<Worked>,
    /// Whether it is the recipe that is open in the window.
    is_open: bool,
}

/// A recipe in the list.
#[derive(Debug)]
struct Row {
    worked: Arc<Worked>,
    is_open: bool,
    /// What came of it, in few words.
    told: String,
    writing: Writing,
}

/// Whether a recipe was written.
#[derive(Clone, Debug, Default, PartialEq)]
enum Writing {
    #[default]
    NotAsked,
    Waits,
    Written,
    Refused(String),
}

impl InFolder {
    /// Whether something goes on in the background.
    pub(super) fn is_at_work(&self) -> bool {
        self.looking.is_some() || self.writing.is_some()
    }

    /// Whether files are being written: what is asked stays as it is until then.
    pub(super) fn is_writing(&self) -> bool {
        self.writing.is_some()
    }

    /// Whether there is a list that would be lost.
    pub(super) fn has_rows(&self) -> bool {
        !self.rows.is_empty()
    }

    /// What was written since the last call.
    pub(super) fn take_written(&mut self) -> Vec<Arc<Worked>> {
        std::mem::take(&mut self.written)
    }

    /// Takes what the workers tell, and forgets the rows once something else is asked.
    pub(super) fn keep_up(&mut self, asked: &Asked, sign: DecimalSign) {
        if self.asked.is_some() && self.asked != asked.substitution() {
            *self = Self { written: std::mem::take(&mut self.written), ..Self::default() };
        }
        if let Some(looking) = &self.looking {
            let (news, is_over) = looking.news();
            for (progress, found) in news {
                self.progress = progress;
                self.rows.extend(found.map(|Found { worked, is_open }| Row {
                    told: told(&worked, sign),
                    worked,
                    is_open,
                    writing: Writing::NotAsked,
                }));
            }
            if is_over {
                self.looking = None;
            }
        }
        if let Some(writing) = &self.writing {
            let (news, is_over) = writing.news();
            for (idx, result) in news {
                let Some(row) = self.rows.get_mut(idx) else { continue };
                if result.is_ok() {
                    self.written.push(Arc::clone(&row.worked));
                }
                row.writing = result.map_or_else(Writing::Refused, |()| Writing::Written);
            }
            if is_over {
                self.stop_writing();
            }
        }
    }

    fn look_through(&mut self, ctx: &Context, substitution: Substitution, around: &Around<'_>) {
        let files = around.shelf.files();
        *self = Self {
            asked: Some(substitution.clone()),
            progress: Progress { of: files.len(), ..Progress::default() },
            written: std::mem::take(&mut self.written),
            ..Self::default()
        };
        let open = around.path.map(Path::to_owned);
        self.looking = Some(Worker::start("exchange in a folder", ctx, move |teller| {
            let library = Library::built_in();
            work_out(&files, &substitution, library, &|| teller.is_stopped(), |progress, worked| {
                let found = worked.map(|worked| Found {
                    is_open: open.as_ref().is_some_and(|open| is_same_file(open, &worked.path)),
                    worked: Arc::new(worked),
                });
                teller.tell((progress, found))
            });
        }));
    }

    fn stop_writing(&mut self) {
        self.writing = None;
        for row in self.rows.iter_mut().filter(|row| row.writing == Writing::Waits) {
            row.writing = Writing::NotAsked;
        }
    }

    /// The rows that can be written and were not yet.
    fn to_write(&self, is_saved: bool) -> Vec<usize> {
        let can = |row: &&(usize, &Row)| row.1.why_not(is_saved).is_none() && row.1.writing == Writing::NotAsked;
        self.rows.iter().enumerate().filter(|row| can(&row)).map(|(idx, _)| idx).collect()
    }

    fn write(&mut self, ctx: &Context, which: &[usize]) {
        let mut files = Vec::with_capacity(which.len());
        for &idx in which {
            if let Some(row) = self.rows.get_mut(idx) {
                row.writing = Writing::Waits;
                files.push((idx, Arc::clone(&row.worked)));
            }
        }
        self.writing = Some(Worker::start("writing the exchange", ctx, move |teller| {
            for (idx, worked) in files {
                if teller.is_stopped() || !teller.tell((idx, worked.write().map_err(|error| error.to_string()))) {
                    return;
                }
            }
        }));
    }

    /// Draws the list and the details of the chosen recipe.
    pub(super) fn ui(&mut self, ui: &mut Ui, asked: &Asked, around: &Around<'_>, sign: DecimalSign) {
        let Some(substitution) = asked.substitution() else {
            wrapped_ui(ui, theme::quiet(ui, "Choose at the left what comes in its place."));
            return;
        };
        if self.asked.is_none() {
            self.start_ui(ui, substitution, around);
            return;
        }
        self.progress_ui(ui, substitution, around);
        ui.separator();
        let height = ui.available_height();
        #[expect(clippy::cast_precision_loss, reason = "rows of a list of thousands")]
        let rows = self.rows.len().max(LEAST_ROWS) as f32 * ROW;
        self.list_ui(ui, around.is_saved, rows.min(height * LIST));
        ui.separator();
        let Some(row) = self.rows.get(self.chosen) else { return };
        // What is written is read before: that there is more below has to be seen without a pointer over it.
        ui.spacing_mut().scroll = ScrollStyle { bar_width: 8.0, foreground_color: true, ..ScrollStyle::solid() };
        ScrollArea::vertical().id_salt("details of the exchange").auto_shrink(false).show(ui, |ui| {
            ui.label(theme::strong(row.worked.title.as_str()));
            ui.label(theme::caption(ui, row.worked.path.display().to_string()));
            if let Writing::Refused(why) = &row.writing {
                wrapped_ui(ui, RichText::new(why.as_str()).color(Palette::of(ui).problem));
            } else if let Some(why) = row.why_not(around.is_saved).filter(|_| row.is_open) {
                wrapped_ui(ui, RichText::new(why).color(Palette::of(ui).caution));
            }
            ui.add_space(space::TIGHT);
            match &row.worked.result {
                Ok(substituted) => {
                    let told = || Told::in_folder(substituted, &asked.ticked(), sign);
                    // What could come besides is not looked for in a whole folder.
                    answer_ui(ui, substituted, self.of_chosen.get(self.chosen, told), false, sign);
                }
                Err(why) => wrapped_ui(ui, RichText::new(words_of(why, sign)).color(Palette::of(ui).caution)),
            }
        });
    }

    fn start_ui(&mut self, ui: &mut Ui, substitution: Substitution, around: &Around<'_>) {
        let count = around.shelf.count();
        let folder = around.shelf.folder().map(|folder| folder.display().to_string()).unwrap_or_default();
        let words = match count {
            0 => "The shelf lists no recipes.".to_owned(),
            1 => format!("The shelf lists 1 recipe in {folder}."),
            count => format!("The shelf lists {count} recipes in {folder}."),
        };
        wrapped_ui(ui, RichText::new(words));
        ui.add_space(space::TIGHT);
        let words = "Each that uses what goes is worked out with what comes in its place. Nothing is written before you say so.";
        wrapped_ui(ui, theme::quiet(ui, words));
        ui.add_space(space::GROUP);
        if ui.add_enabled(count > 0, Button::new("Look through them").min_size(egui::vec2(84.0, 30.0))).clicked() {
            self.look_through(ui.ctx(), substitution, around);
        }
    }

    fn progress_ui(&mut self, ui: &mut Ui, substitution: Substitution, around: &Around<'_>) {
        let Progress { looked_at, of, using } = self.progress;
        let can = self.rows.iter().filter(|row| row.worked.can_be_written()).count();
        ui.horizontal(|ui| {
            if let Some(asked) = &self.writing_progress() {
                ui.label(asked.as_str());
                if ui.button("Stop writing").clicked() {
                    self.stop_writing();
                }
                return;
            }
            if self.looking.is_some() {
                ui.label(format!("{looked_at} of {of} looked at, {using} use it"));
                if ui.button("Stop").clicked() {
                    self.looking = None;
                }
                return;
            }
            let found = match (using, can) {
                (0, _) => format!("None of {looked_at} uses it"),
                (using, can) if using == can => format!("{using} of {looked_at} use it; it can be done in all"),
                (using, can) => format!("{using} of {looked_at} use it; it can be done in {can}"),
            };
            let found = if looked_at < of { format!("Stopped at {looked_at} of {of}. {found}") } else { found };
            ui.label(theme::strong(found));
            if ui.button("Look again").on_hover_text("Reads all files anew").clicked() {
                self.look_through(ui.ctx(), substitution, around);
            }
        });
        let (rect, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), PROGRESS), Sense::hover());
        if self.is_at_work() {
            let palette = Palette::of(ui);
            let radius = space::MARK_RADIUS;
            ui.painter().rect_filled(rect, radius, palette.well);
            let mut done = rect;
            done.set_width(rect.width() * self.share_done());
            ui.painter().rect_filled(done, radius, palette.accent);
        }
    }

    /// "12 of 31 written".
    fn writing_progress(&self) -> Option<String> {
        self.writing.as_ref()?;
        let waiting = self.rows.iter().filter(|row| row.writing == Writing::Waits).count();
        let written = self.rows.iter().filter(|row| row.writing == Writing::Written).count();
        Some(format!("{written} written, {waiting} to come"))
    }

    fn share_done(&self) -> f32 {
        #[expect(clippy::cast_precision_loss, reason = "a share on the screen")]
        let share = |part: usize, of: usize| if of == 0 { 0.0 } else { part as f32 / of as f32 };
        if self.writing.is_some() {
            let asked = self.rows.iter().filter(|row| row.writing != Writing::NotAsked).count();
            let waits = self.rows.iter().filter(|row| row.writing == Writing::Waits).count();
            return share(asked - waits, asked);
        }
        share(self.progress.looked_at, self.progress.of)
    }

    fn list_ui(&mut self, ui: &mut Ui, is_saved: bool, height: f32) {
        self.move_by_keys(ui);
        let mut to_write = None;
        let follows = std::mem::take(&mut self.follows);
        let can_write = self.writing.is_none() && self.to_confirm.is_empty();
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let mut area =
                ScrollArea::vertical().id_salt("recipes of the exchange").auto_shrink([false, true]).max_height(height);
            if follows {
                #[expect(clippy::cast_precision_loss, reason = "places in a list of thousands")]
                let at = self.chosen as f32 * ROW;
                area = area.vertical_scroll_offset((at - height / 2.0).max(0.0));
            }
            area.show_rows(ui, ROW, self.rows.len(), |ui, range| {
                for idx in range {
                    let Some(row) = self.rows.get(idx) else { continue };
                    ui.horizontal(|ui| {
                        let is_chosen = idx == self.chosen;
                        let width = ui.available_width() - WRITE - 2.0 * space::NEAR - 8.0;
                        let response = row.ui(ui, idx, is_chosen, width, is_saved);
                        if follows && is_chosen {
                            response.request_focus();
                        }
                        if response.clicked() {
                            self.chosen = idx;
                        }
                        let why_not = row.why_not(is_saved);
                        let can = can_write && why_not.is_none() && row.writing == Writing::NotAsked;
                        let button = Button::new("Write…").min_size(egui::vec2(WRITE, space::TARGET));
                        let button = ui.add_enabled(can, button);
                        let name = format!("Write {}", row.worked.title);
                        button.widget_info(|| WidgetInfo::labeled(Role::Button, can, name.as_str()));
                        if button.clicked() {
                            to_write = Some(idx);
                        }
                        if let Some(why_not) = why_not {
                            button.on_disabled_hover_text(why_not);
                        }
                    });
                }
            });
        });
        if let Some(idx) = to_write {
            self.chosen = idx;
            self.to_confirm = vec![idx];
        }
    }

    /// The arrow keys go from recipe to recipe while one of them has the keyboard.
    fn move_by_keys(&mut self, ui: &Ui) {
        if !ui.memory(|memory| memory.has_focus(row_id(self.chosen))) {
            return;
        }
        let filter = egui::EventFilter { vertical_arrows: true, ..egui::EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(row_id(self.chosen), filter));
        let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let (up, down) = (pressed(Key::ArrowUp), pressed(Key::ArrowDown));
        let next = if up { self.chosen.saturating_sub(1) } else { self.chosen + usize::from(down) };
        let next = next.min(self.rows.len().saturating_sub(1));
        self.follows = next != self.chosen;
        self.chosen = next;
    }

    /// The button that writes all, or the question whether what is asked for is to be written.
    pub(super) fn write_ui(&mut self, ui: &mut Ui, is_saved: bool) {
        let palette = Palette::of(ui);
        let accented = |label: String| {
            let button = Button::new(theme::strong(label).color(palette.on_accent)).fill(palette.accent);
            button.min_size(egui::vec2(84.0, 30.0))
        };
        if self.is_asking() {
            // Where the button was that asks stands the way back: a second click there writes nothing.
            let is_off = ui.add(Button::new("Do not write").min_size(egui::vec2(84.0, 30.0))).clicked();
            let label = match self.to_confirm.len() {
                1 => "Write 1 file".to_owned(),
                count => format!("Write {count} files"),
            };
            let is_on = ui.add(accented(label)).clicked();
            if is_off || is_on {
                let which = std::mem::take(&mut self.to_confirm);
                if is_on {
                    self.write(ui.ctx(), &which);
                }
            }
            return;
        }
        let which = self.to_write(is_saved);
        let label = match which.len() {
            0 => "Write all…".to_owned(),
            1 => "Write it…".to_owned(),
            count => format!("Write all {count}…"),
        };
        if ui.add_enabled(!which.is_empty() && !self.is_at_work(), accented(label)).clicked() {
            self.to_confirm = which;
        }
    }

    /// Whether it is asked whether files are to be written.
    pub(super) fn is_asking(&self) -> bool {
        !self.to_confirm.is_empty()
    }

    /// Leaves the files as they are.
    pub(super) fn stop_asking(&mut self) {
        self.to_confirm.clear();
    }

    /// What writing means, for the foot of the dialog.
    pub(super) fn caution(&self) -> String {
        let title = |idx: &usize| self.rows.get(*idx).map(|row| row.worked.title.as_str());
        match self.to_confirm.as_slice() {
            [] if self.rows.iter().any(|row| row.worked.can_be_written()) => {
                "Write puts the exchange over the recipe's file, without an undo. A file that somebody else has changed \
                 meanwhile is left as it is."
                    .to_owned()
            }
            [] => String::new(),
            [one] => format!("The file of {} is written over. Undo does not reach it.", title(one).unwrap_or_default()),
            several => format!("{} files are written over. Undo does not reach them.", several.len()),
        }
    }
}

fn row_id(idx: usize) -> Id {
    Id::unique(("recipe of the exchange", idx))
}

/// What came of an exchange, in few words.
fn told(worked: &Worked, sign: DecimalSign) -> String {
    match &worked.result {
        Err(NotWorked::Load(_)) => "! cannot be read".to_owned(),
        Err(why @ NotWorked::Substitution(_)) => format!("! {}", words_of(why, sign)),
        Ok(substituted) if substituted.recipe().is_none() => {
            format!("! {}", reasons(substituted, sign).into_iter().next().unwrap_or_default())
        }
        Ok(substituted) => match substituted.differences().len() {
            1 => "can be done, 1 line changes".to_owned(),
            count => format!("can be done, {count} lines change"),
        },
    }
}

/// Why a recipe was not worked out.
fn words_of(why: &NotWorked, sign: DecimalSign) -> String {
    match why {
        NotWorked::Load(why) => why.to_string(),
        NotWorked::Substitution(why) => not_worked(why, sign),
    }
}

impl Row {
    /// Why it is not written; `None` if it can be.
    fn why_not(&self, is_saved: bool) -> Option<&'static str> {
        match self.worked.can_be_written() {
            true if self.is_open && !is_saved => Some(
                "It is open in the window with changes that are not saved: close this and save it, or exchange it in the \
                 window",
            ),
            true => None,
            false => Some("There is nothing to write"),
        }
    }

    /// What came of it and whether it was written, in few words.
    fn verdict(&self, palette: &Palette, is_saved: bool) -> (&str, Color32) {
        match &self.writing {
            Writing::Written => ("written", palette.accent),
            Writing::Waits => ("waits to be written", palette.quiet),
            Writing::Refused(_) => ("! not written", palette.problem),
            Writing::NotAsked if matches!(self.worked.result, Err(NotWorked::Load(_))) => (&self.told, palette.problem),
            Writing::NotAsked if !self.worked.can_be_written() => (&self.told, palette.caution),
            Writing::NotAsked if self.is_open && !is_saved => ("! open with unsaved changes", palette.caution),
            Writing::NotAsked => (&self.told, palette.text),
        }
    }

    fn ui(&self, ui: &mut Ui, idx: usize, is_chosen: bool, width: f32, is_saved: bool) -> egui::Response {
        let palette = Palette::of(ui);
        let (rect, _) = ui.allocate_exact_size(egui::vec2(width, ROW), Sense::hover());
        let response = ui.interact(rect, row_id(idx), Sense::click());
        let (verdict, colour) = self.verdict(palette, is_saved);
        let words = format!("{}: {verdict}", self.worked.title);
        response.widget_info(|| WidgetInfo::selected(Role::Button, ui.is_enabled(), is_chosen, words.as_str()));
        let ground =
            if is_chosen { Some(palette.selection) } else { response.hovered().then_some(palette.accent_ground) };
        if let Some(ground) = ground {
            ui.painter().rect_filled(rect, space::FIELD_RADIUS, ground);
        }
        let inside = rect.shrink2(egui::vec2(space::NEAR, 0.0));
        let split = inside.left() + inside.width() * TITLE;
        let title = inside.with_max_x(split - space::NEAR);
        clipped_text(ui, &self.worked.title, theme::body(), palette.text, title);
        let colour = if is_chosen { palette.text } else { colour };
        clipped_text(ui, verdict, theme::body(), colour, inside.with_min_x(split));
        focus_ring(ui, &response, rect.shrink(1.0), space::FIELD_RADIUS);
        response
    }
}
