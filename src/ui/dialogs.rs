//! Dialogs of our own: few, with verbs on their buttons, closed by Esc.

mod about;
mod choice;
mod cocoa_butter;
mod command_search;
mod exchange;
mod ingredient;
mod keys;
mod price;
mod weigh;

use std::path::{Path, PathBuf};
use std::sync::Arc;

pub use weigh::Field as WeighField;

use egui::{Align, Context, Id, Key, Layout, Modal, Modifiers, Popup, TextEdit, Ui};

use super::command::Command;
use super::files::Asking;
use super::panels::shelf::Shelf;
use super::theme::{self, Palette};
use crate::document::{Document, Edit};
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::production::price_list::{PriceEntry, PriceList};
use crate::recipe::{LineId, Quantity};
use crate::store::Leftover;
use crate::store::exchange::Worked;

/// How wide a dialog of a few sentences is.
const WIDTH: f32 = 440.0;

/// The dialog that is open, if one is.
#[derive(Debug, Default)]
pub struct Dialogs {
    open: Option<Dialog>,
    /// What to weigh, behind a question that it has led to.
    behind: Option<Box<weigh::WeighForm>>,
    /// The same when it was closed: what was typed comes back with it.
    kept: Option<Box<weigh::WeighForm>>,
    /// What was typed before the command search was there to take it.
    pub typed_ahead: String,
    /// How large it was in the last frame.
    size: egui::Vec2,
}

/// A dialog.
#[derive(Debug)]
pub enum Dialog {
    /// A sentence or two.
    Message {
        /// What has happened.
        title: String,
        /// What it means and what to do.
        text: String,
        /// The path that was typed and led to it: its field is shown again behind it.
        back: Option<(Asking, PathBuf)>,
    },
    /// Save / Don't save / Cancel.
    Unsaved {
        /// The name of the recipe.
        name: String,
    },
    /// The file has been changed by somebody else meanwhile.
    ChangedOnDisk {
        /// Which file.
        path: PathBuf,
    },
    /// Another file has the name that was given.
    AlreadyThere {
        /// What would be written there.
        asking: Asking,
        /// Which file.
        path: PathBuf,
    },
    /// A field for a path, where the system has no dialog.
    PathField {
        /// What it is for.
        asking: Asking,
        /// What is typed.
        text: String,
        /// It has not been drawn yet.
        is_new: bool,
    },
    /// Work that was not saved.
    Recovery(Box<Leftover>),
    /// The search over all commands.
    CommandSearch(command_search::CommandSearch),
    /// All keys.
    Keys,
    /// Version, sources, licences, cautions.
    About,
    /// The user's own analysis of a cocoa butter.
    CocoaButter(Box<cocoa_butter::CocoaButterForm>),
    /// The figures of an ingredient.
    Ingredient(Box<ingredient::IngredientForm>),
    /// What an ingredient costs.
    Price(Box<price::PriceForm>),
    /// What to weigh today.
    Weigh(Box<weigh::WeighForm>),
    /// The exchange of an ingredient.
    Exchange(Box<exchange::ExchangeForm>),
}

/// What a dialog may read of the program.
pub struct Around<'a> {
    /// The recipe that is open.
    pub document: &'a Arc<Document>,
    /// Its file.
    pub path: Option<&'a Path>,
    /// Whether the file has it as it is.
    pub is_saved: bool,
    /// The recipes of the folder.
    pub shelf: &'a Shelf,
    /// Why a command cannot be carried out now.
    pub why_not: &'a dyn Fn(Command) -> Option<&'static str>,
}

/// What a dialog answers.
#[derive(Debug)]
pub enum DialogAnswer {
    /// It was closed without a choice.
    Closed,
    /// A command was chosen.
    Run(Command),
    /// A path was given.
    Path(Asking, PathBuf),
    /// Save, then do what was waiting.
    SaveThenGoOn,
    /// Do what was waiting without saving.
    DropThenGoOn,
    /// Write the recipe over what is there.
    Overwrite(PathBuf),
    /// Write what was asked for over what is there.
    Replace(Asking, PathBuf),
    /// Change the document.
    Edit(Edit),
    /// Put a weighing list on the clipboard.
    CopyList(String),
    /// Write a weighing list to a file.
    SaveList(String),
    /// Bring the sheet to this weight.
    Scale {
        /// What the lines weigh together afterwards.
        weighed: Quantity,
        /// How many pieces that makes, if it is known.
        pieces: Option<u32>,
    },
    /// Exchange an ingredient in it.
    Exchange(Edit),
    /// Add this ingredient at the end of the recipe.
    AddIngredient(Arc<Ingredient>),
    /// Write the price of an ingredient into the user's list, or take it out.
    SetPrice {
        /// The id of the ingredient.
        ingredient: String,
        /// The price; `None` takes it out.
        entry: Option<PriceEntry>,
    },
    /// Take the recovered recipe.
    Recover(Box<Leftover>),
    /// Forget it.
    DropRecovery(Box<Leftover>),
}

impl Dialog {
    /// A sentence or two.
    #[must_use]
    pub fn message(title: &str, text: &str) -> Self {
        Self::Message { title: title.to_owned(), text: text.to_owned(), back: None }
    }

    /// Save / Don't save / Cancel.
    #[must_use]
    pub fn unsaved(name: String) -> Self {
        Self::Unsaved { name }
    }

    /// The file has been changed by somebody else meanwhile.
    #[must_use]
    pub fn changed_on_disk(path: PathBuf) -> Self {
        Self::ChangedOnDisk { path }
    }

    /// Another file has the name that was given.
    #[must_use]
    pub fn already_there(asking: Asking, path: PathBuf) -> Self {
        Self::AlreadyThere { asking, path }
    }

    /// A field for a path.
    #[must_use]
    pub fn path_field(asking: Asking, folder: Option<PathBuf>) -> Self {
        let folder = folder.unwrap_or_default();
        let path = folder.join(asking.name().unwrap_or_default());
        Self::PathField { asking, text: path.display().to_string(), is_new: true }
    }

    /// Work that was not saved.
    #[must_use]
    pub fn recovery(leftover: Leftover) -> Self {
        Self::Recovery(Box::new(leftover))
    }

    /// The search over all commands.
    #[must_use]
    pub fn command_search(query: String) -> Self {
        Self::CommandSearch(command_search::CommandSearch::new(query))
    }

    /// The form for the user's own analysis of a cocoa butter.
    #[must_use]
    pub fn cocoa_butter(document: &Document, sign: DecimalSign) -> Self {
        Self::CocoaButter(Box::new(cocoa_butter::CocoaButterForm::new(document.recipe.cocoa_butter, sign)))
    }

    /// The form for the figures of the ingredient of a line; `None` if there is no such line.
    #[must_use]
    pub fn figures(document: &Document, line: LineId, sign: DecimalSign) -> Option<Self> {
        let ingredient = &document.recipe.line(line)?.ingredient;
        Some(Self::Ingredient(Box::new(ingredient::IngredientForm::of_line(ingredient, line, sign))))
    }

    /// The form for an ingredient of the user's own.
    #[must_use]
    pub fn own_ingredient(sign: DecimalSign) -> Self {
        Self::Ingredient(Box::new(ingredient::IngredientForm::new_ingredient(sign)))
    }

    /// The form for the price of the ingredient of a line; `None` if there is no such line.
    #[must_use]
    pub fn price(document: &Document, line: LineId, prices: &PriceList, sign: DecimalSign) -> Option<Self> {
        let ingredient = &document.recipe.line(line)?.ingredient;
        Some(Self::Price(Box::new(price::PriceForm::new(ingredient, prices, sign))))
    }

    /// The dialog that exchanges the ingredient of a line; `None` if there is no such line.
    #[must_use]
    pub fn exchange(document: &Arc<Document>, line: LineId, prices: &PriceList, sign: DecimalSign) -> Option<Self> {
        Some(Self::Exchange(Box::new(exchange::ExchangeForm::new(document, line, prices, sign)?)))
    }

    /// Whether a click beside it must not close it, because work would be lost.
    fn holds_work(&self) -> bool {
        match self {
            Self::Exchange(form) => form.holds_work(),
            Self::Ingredient(form) => form.is_touched(),
            Self::CocoaButter(form) => form.is_touched(),
            Self::Price(form) => form.is_touched(),
            _ => false,
        }
    }
}

impl Dialogs {
    /// Shows a dialog in place of the one that is open.
    pub fn show(&mut self, dialog: Dialog) {
        if let Some(Dialog::Weigh(form)) = self.open.replace(dialog) {
            self.behind = Some(form);
        }
        self.size = egui::Vec2::ZERO;
    }

    /// Shows what to weigh, with what was typed when it was open last.
    pub fn show_weighing(&mut self, document: &Document, prices: &PriceList, sign: DecimalSign) {
        let form = match self.kept.take() {
            Some(form) => form.again(document, prices, sign),
            None => weigh::WeighForm::new(document, prices, sign),
        };
        self.show(Dialog::Weigh(Box::new(form)));
    }

    /// Another recipe was opened: of what to weigh only the bowls and scales are still right.
    pub fn forget_recipe(&mut self, document: &Document) {
        if matches!(self.open, Some(Dialog::Weigh(_))) {
            self.close();
        }
        let form = self.behind.take().or_else(|| self.kept.take());
        self.kept = form.map(|form| Box::new(form.anew(document, &PriceList::default(), DecimalSign::default())));
    }

    /// Takes the open dialog away; of what to weigh, what was typed is kept.
    fn close(&mut self) -> Option<Dialog> {
        match self.open.take() {
            Some(Dialog::Weigh(form)) => {
                self.kept = Some(form);
                None
            }
            closed => closed,
        }
    }

    /// Brings the field with a path back once the open message has been read; whether there is a message.
    pub fn come_back_to(&mut self, asking: Asking, path: PathBuf) -> bool {
        let Some(Dialog::Message { back, .. }) = &mut self.open else { return false };
        *back = Some((asking, path));
        true
    }

    /// Whether the open dialog holds what would be lost with it.
    #[must_use]
    pub fn holds_work(&self) -> bool {
        self.open.as_ref().is_some_and(Dialog::holds_work)
    }

    /// Whether the open dialog works on something in the background.
    #[must_use]
    pub fn is_at_work(&self) -> bool {
        matches!(&self.open, Some(Dialog::Exchange(form)) if form.is_at_work())
    }

    /// The recipes that the open dialog has written since the last call.
    pub fn take_written(&mut self) -> Vec<Arc<Worked>> {
        if let Some(Dialog::Exchange(form)) = &mut self.open { form.take_written() } else { Vec::new() }
    }

    /// Whether a dialog is open: then keys belong to it.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.open.is_some() || self.behind.is_some()
    }

    /// Draws the open dialog; gives back what it answers.
    pub fn ui(&mut self, ctx: &Context, around: &Around<'_>) -> Option<DialogAnswer> {
        if self.open.is_none() {
            self.open = self.behind.take().map(Dialog::Weigh);
        }
        let dialog = self.open.as_mut()?;
        let width = match dialog {
            Dialog::Keys | Dialog::About => 640.0,
            Dialog::CommandSearch(_) => 520.0,
            Dialog::Ingredient(_) => ingredient::WIDTH,
            Dialog::Weigh(_) => weigh::WIDTH,
            Dialog::Exchange(_) => exchange::WIDTH,
            _ => WIDTH,
        };
        let style = ctx.global_style();
        // A shade off the colour of fields, so that they stand out.
        let fill = style.visuals.panel_fill;
        let frame = egui::Frame::popup(&style).fill(fill).inner_margin(theme::space::REGION);
        let modal = Modal::new(Id::unique(("dialog", std::mem::discriminant(&*dialog)))).frame(frame).show(ctx, |ui| {
            ui.set_width(width.min(ui.ctx().content_rect().width() - 80.0));
            match dialog {
                Dialog::Message { title, text, .. } => message_ui(ui, title, text),
                Dialog::Unsaved { name } => unsaved_ui(ui, name),
                Dialog::ChangedOnDisk { path } => changed_on_disk_ui(ui, path),
                Dialog::AlreadyThere { asking, path } => already_there_ui(ui, asking, path),
                Dialog::PathField { asking, text, is_new } => path_field_ui(ui, asking, text, is_new),
                Dialog::Recovery(leftover) => recovery_ui(ui, leftover),
                Dialog::CommandSearch(search) => search.ui(ui, around.why_not),
                Dialog::Keys => keys::keys_ui(ui),
                Dialog::About => about::about_ui(ui),
                Dialog::CocoaButter(form) => form.ui(ui),
                Dialog::Ingredient(form) => form.ui(ui, around.document),
                Dialog::Price(form) => form.ui(ui),
                Dialog::Weigh(form) => form.ui(ui, around),
                Dialog::Exchange(form) => form.ui(ui, around),
            }
        });
        let size = modal.response.rect.size();
        if std::mem::replace(&mut self.size, size) != size {
            // It stands in the middle by the size that it had before: drawn once more before it is seen.
            ctx.request_discard("the dialog has another size");
        }
        let is_missed = modal.backdrop_response.clicked() && dialog.holds_work();
        let should_close = modal.should_close() && !is_missed;
        let answer = modal.inner.or_else(|| should_close.then_some(DialogAnswer::Closed));
        // What to weigh stays open while its list is copied or saved.
        let stays = matches!(answer, Some(DialogAnswer::CopyList(_) | DialogAnswer::SaveList(_)));
        if answer.is_some() && !stays {
            let closed = self.close();
            if let Some(Dialog::Message { back: Some((asking, path)), .. }) = closed {
                self.show(Dialog::PathField { asking, text: path.display().to_string(), is_new: true });
                ctx.request_repaint();
                return None;
            }
        }
        answer
    }
}

/// Buttons at the right, the first one accented and answering Enter.
fn buttons_ui<T>(ui: &mut Ui, buttons: Vec<(&str, T)>) -> Option<T> {
    choices_ui(ui, buttons, None, Confirm::Enter)
}

/// The keys that are shown for the first button.
#[derive(Clone, Copy, PartialEq)]
enum Confirm {
    /// Enter, which needs no word.
    Enter,
    /// Ctrl+Enter, where Enter belongs to fields.
    CtrlEnter,
}

/// Takes Ctrl+Enter before the fields would take Enter for themselves; while a menu is open, keys belong to that.
fn takes_ctrl_enter(ui: &Ui) -> bool {
    !Popup::is_any_open(ui.ctx()) && ui.input_mut(|input| input.consume_key(Modifiers::COMMAND, Key::Enter))
}

/// The same; the first one cannot be chosen while there is a reason why not.
fn choices_ui<T>(ui: &mut Ui, buttons: Vec<(&str, T)>, why_not: Option<&str>, keys: Confirm) -> Option<T> {
    let mut answer = None;
    let is_for_nobody_else = ui.memory(|memory| memory.focused().is_none()) && !Popup::is_any_open(ui.ctx());
    let enter = ui.input(|input| input.key_pressed(Key::Enter)) && is_for_nobody_else;
    ui.add_space(theme::space::GROUP);
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        for (place, (label, value)) in buttons.into_iter().enumerate() {
            let palette = Palette::of(ui);
            let button = if place == 0 {
                egui::Button::new(theme::strong(label).color(palette.on_accent)).fill(palette.accent)
            } else {
                egui::Button::new(label)
            };
            let why_not = why_not.filter(|_| place == 0);
            let response = ui.add_enabled(why_not.is_none(), button.min_size(egui::vec2(84.0, 30.0)));
            if response.clicked() || (place == 0 && enter && why_not.is_none()) {
                answer = Some(value);
            }
            if let Some(reason) = why_not {
                response.on_disabled_hover_text(reason);
            } else if place == 0 && keys == Confirm::CtrlEnter {
                let keys = ui.ctx().format_shortcut(&egui::KeyboardShortcut::new(Modifiers::COMMAND, Key::Enter));
                response.on_hover_text(keys);
            }
        }
    });
    answer
}

fn title_ui(ui: &mut Ui, title: &str) {
    ui.label(egui::RichText::new(title).font(theme::title()));
    ui.add_space(theme::space::NEAR);
}

fn message_ui(ui: &mut Ui, title: &str, text: &str) -> Option<DialogAnswer> {
    title_ui(ui, title);
    ui.label(text);
    buttons_ui(ui, vec![("Close", DialogAnswer::Closed)])
}

fn unsaved_ui(ui: &mut Ui, name: &str) -> Option<DialogAnswer> {
    title_ui(ui, &format!("Save the changes to “{name}”?"));
    ui.label("Changes that are not saved are lost.");
    buttons_ui(
        ui,
        vec![
            ("Save", DialogAnswer::SaveThenGoOn),
            ("Don't save", DialogAnswer::DropThenGoOn),
            ("Cancel", DialogAnswer::Closed),
        ],
    )
}

fn changed_on_disk_ui(ui: &mut Ui, path: &std::path::Path) -> Option<DialogAnswer> {
    title_ui(ui, "The file has changed meanwhile");
    ui.label(format!(
        "{} is not as it was when you opened it. Overwrite it, or cancel and save under another name.",
        path.display()
    ));
    buttons_ui(ui, vec![("Overwrite", DialogAnswer::Overwrite(path.to_owned())), ("Cancel", DialogAnswer::Closed)])
}

fn already_there_ui(ui: &mut Ui, asking: &Asking, path: &std::path::Path) -> Option<DialogAnswer> {
    let what = match asking {
        Asking::SavePlot { .. } => "plot",
        Asking::SaveList { .. } => "list",
        Asking::Open | Asking::Save { .. } | Asking::SaveCopy { .. } => "recipe",
    };
    title_ui(ui, "There is such a file already");
    ui.label(format!("{} would be replaced by this {what}.", path.display()));
    let replace = DialogAnswer::Replace(asking.clone(), path.to_owned());
    buttons_ui(ui, vec![("Overwrite", replace), ("Cancel", DialogAnswer::Closed)])
}

fn path_field_ui(ui: &mut Ui, asking: &Asking, text: &mut String, is_new: &mut bool) -> Option<DialogAnswer> {
    let (title, verb) = asking.words();
    title_ui(ui, title);
    ui.label(
        "The system shows no file dialog. Type the path here, or install a desktop portal \
         (xdg-desktop-portal with its GTK, GNOME or KDE part) or zenity.",
    );
    ui.add_space(theme::space::NEAR);
    let field = ui.add(TextEdit::singleline(text).hint_text("/home/…/recipe.ron").desired_width(f32::INFINITY));
    if std::mem::take(is_new) {
        field.request_focus();
    }
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let chosen = buttons_ui(ui, vec![(verb, true), ("Cancel", false)]);
    match chosen.or(entered.then_some(true)) {
        Some(true) if !text.trim().is_empty() => {
            Some(DialogAnswer::Path(asking.clone(), asking.with_ending(PathBuf::from(text.trim()))))
        }
        Some(false) => Some(DialogAnswer::Closed),
        _ => None,
    }
}

fn recovery_ui(ui: &mut Ui, leftover: &Leftover) -> Option<DialogAnswer> {
    title_ui(ui, "There is unsaved work");
    let name = if leftover.name.is_empty() { super::text::UNNAMED } else { &leftover.name };
    ui.label(format!("“{name}” was not saved when the program ended. Nothing has been written over your own file."));
    buttons_ui(
        ui,
        vec![
            ("Restore", DialogAnswer::Recover(Box::new(leftover.clone()))),
            ("Forget it", DialogAnswer::DropRecovery(Box::new(leftover.clone()))),
            ("Later", DialogAnswer::Closed),
        ],
    )
}
