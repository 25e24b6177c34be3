//! Opening, saving, leaving a document.

use std::path::{Path, PathBuf};

use egui::Context;

use super::{AfterUnsaved, App};
use crate::document::{Document, Edit, OpenDocument};
use crate::ingredient::Library;
use crate::recipe::Recipe;
use crate::store;
use crate::ui::dialogs::{Dialog, DialogAnswer};
use crate::ui::exchange::edit_of;
use crate::ui::files::{Answer, Asking, FileDialog, FileDialogs, file_name};
use crate::ui::text;
use crate::ui::toast::Toasts;
use crate::ui::view::Focus;

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
    pub(super) fn keep_path(&mut self, path: &Path) {
        // The next start, or the recovery of a copy, may happen in another folder.
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.stamp = store::file_stamp(&path);
        self.settings.remember_file(&path);
        self.save_settings();
        self.path = Some(path);
    }

    pub(super) fn take(&mut self, open: OpenDocument) {
        self.forget_recovery();
        self.open = open;
        self.opened += 1;
        self.dialogs.forget_recipe(self.open.document());
        self.toasts = Toasts::default();
        self.path = None;
        self.stamp = None;
        self.pin = None;
        self.view.selected = None;
        self.view.temperatures = None;
        self.stop_reformulating();
        self.changed_at = None;
    }

    pub(super) fn leave_for(&mut self, ctx: &Context, next: AfterUnsaved) {
        if self.open.is_saved() {
            self.go_on(ctx, next);
        } else {
            self.dialogs.show(Dialog::unsaved(self.name()));
            self.after_unsaved = Some(next);
        }
    }

    pub(super) fn go_on(&mut self, ctx: &Context, next: AfterUnsaved) {
        match next {
            AfterUnsaved::Close => {
                self.may_close = true;
                self.forget_recovery();
                ctx.send_viewport_cmd(egui::ViewportCommand::Close);
            }
            AfterUnsaved::New => {
                self.take(OpenDocument::new(Document::default()));
                self.go_to(ctx, Focus::Search);
            }
            AfterUnsaved::Open(path) => self.open_file(&path),
        }
    }

    pub(super) fn save(&mut self, ctx: &Context) {
        match self.path.clone() {
            Some(path) if self.has_changed_on_disk(&path) => {
                self.dialogs.show(Dialog::changed_on_disk(path));
            }
            Some(path) => self.save_to(ctx, &path),
            None => self.ask_where_to_save(ctx),
        }
    }

    pub(super) fn has_changed_on_disk(&self, path: &Path) -> bool {
        let now = store::file_stamp(path);
        now.is_some() && now != self.stamp
    }

    pub(super) fn is_another_file(&self, path: &Path) -> bool {
        store::file_stamp(path).is_some() && self.path.as_deref() != Some(path)
    }

    pub(super) fn ask_where_to_save(&mut self, ctx: &Context) {
        let name = file_name(&self.document().recipe.name);
        self.ask_for_path(ctx, Asking::Save { name });
    }

    pub(super) fn ask_for_path(&mut self, ctx: &Context, asking: Asking) {
        match self.file_dialogs {
            FileDialogs::System => self.file_dialog = Some(FileDialog::show(asking, self.folder(), ctx)),
            FileDialogs::InWindow => self.dialogs.show(Dialog::path_field(asking, self.folder())),
        }
    }

    pub(super) fn save_to(&mut self, ctx: &Context, path: &Path) {
        match store::save_recipe(path, &self.document().recipe) {
            Ok(()) => {
                // The copy belongs to the file that was worked on until now.
                self.forget_recovery();
                self.open.mark_saved();
                self.keep_path(path);
                self.shelf.refresh();
                self.toasts.say(text::SAVED, ctx);
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

    /// Makes the exchange that a dialog has worked out one step.
    fn exchange(&mut self, ctx: &Context, edit: Edit) {
        let before = self.open.revision();
        self.edit(ctx, edit);
        self.open.end_gesture();
        if self.open.revision() != before {
            self.toasts.with_undo("Exchanged", self.open.revision(), ctx);
        }
    }

    /// The open recipe follows its file, where a dialog has just written an exchange over that.
    pub(super) fn take_up_written(&mut self) {
        for worked in self.dialogs.take_written() {
            let is_open = self.path.as_deref().is_some_and(|path| store::is_same_file(path, &worked.path));
            let answer = worked.result.as_ref().ok().filter(|_| is_open && self.open.is_saved());
            // Where the file was not what is open, saving will say that it has changed meanwhile.
            let edit = answer.and_then(|substituted| edit_of(&self.document().recipe, substituted));
            if let Some(edit) = edit
                && self.open.apply(edit).is_ok()
            {
                self.open.mark_saved();
                self.stamp = store::file_stamp(&worked.path);
            }
        }
    }

    /// Writes a recipe that is not the one that is open: that one stays as it is, saved or not.
    fn save_copy_to(&mut self, ctx: &Context, path: &Path, recipe: &Recipe) {
        match store::save_recipe(path, recipe) {
            Ok(()) => {
                self.shelf.refresh();
                self.toasts.say(text::COPY_SAVED, ctx);
            }
            Err(error) => self.dialogs.show(Dialog::message("The new recipe is not saved", &error.to_string())),
        }
    }

    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.path
            .as_deref()
            .and_then(Path::parent)
            .map(Path::to_owned)
            .or_else(|| self.shelf.folder().map(Path::to_owned))
    }

    pub(super) fn name(&self) -> String {
        let name = &self.document().recipe.name;
        if name.is_empty() { text::UNNAMED.to_owned() } else { name.clone() }
    }

    pub(super) fn poll_file_dialog(&mut self, ctx: &Context) {
        let Some(dialog) = &self.file_dialog else { return };
        let Some(answer) = dialog.answer() else { return };
        let asking = dialog.asking.clone();
        self.file_dialog = None;
        match answer {
            Answer::Chosen(path) => self.path_chosen(ctx, &asking, path),
            Answer::Cancelled => {
                self.after_unsaved = None;
                if asking.name().is_some() {
                    self.toasts.say("Not saved", ctx);
                }
            }
            Answer::NoDialog => self.dialogs.show(Dialog::path_field(asking, self.folder())),
        }
    }

    pub(super) fn path_chosen(&mut self, ctx: &Context, asking: &Asking, path: PathBuf) {
        match asking {
            // The recipe may have changed while the dialog was open.
            Asking::Open => self.leave_for(ctx, AfterUnsaved::Open(path)),
            Asking::Save { .. } | Asking::SaveCopy { .. } | Asking::SavePlot { .. } | Asking::SaveList { .. } => {
                // The system's dialog has asked about the path that it knew, not about one that got an ending since.
                let chosen = asking.with_ending(path.clone());
                if chosen != path && self.would_replace(asking, &chosen) {
                    self.dialogs.show(Dialog::already_there(asking.clone(), chosen));
                } else {
                    self.write_to(ctx, asking, &chosen);
                }
            }
        }
    }

    /// Whether there is a file at this path that is not the recipe's own, or is about to become a plot or a list.
    fn would_replace(&self, asking: &Asking, path: &Path) -> bool {
        match asking {
            Asking::Open => false,
            Asking::Save { .. } => self.is_another_file(path),
            // A copy over the file of the open recipe would be no copy.
            Asking::SaveCopy { .. } | Asking::SavePlot { .. } | Asking::SaveList { .. } => {
                store::file_stamp(path).is_some()
            }
        }
    }

    fn write_to(&mut self, ctx: &Context, asking: &Asking, path: &Path) {
        match asking {
            Asking::Open => {}
            Asking::Save { .. } => self.save_to(ctx, path),
            Asking::SaveCopy { recipe, .. } => self.save_copy_to(ctx, path, recipe),
            Asking::SavePlot { form, drawing, .. } => self.save_plot_to(ctx, path, *form, drawing),
            Asking::SaveList { text, .. } => self.save_list_to(ctx, path, text),
        }
    }

    pub(super) fn answered(&mut self, ctx: &Context, answer: DialogAnswer) {
        match answer {
            DialogAnswer::Run(command) => self.run(ctx, command),
            // The system's dialogs ask this themselves.
            DialogAnswer::Path(asking, path) if self.would_replace(&asking, &path) => {
                self.dialogs.show(Dialog::already_there(asking, path));
            }
            DialogAnswer::Path(asking, path) => {
                let waiting = self.after_unsaved.clone();
                self.path_chosen(ctx, &asking, path.clone());
                // It did not work: what was typed is there to be corrected, and what waits goes on waiting.
                if self.dialogs.come_back_to(asking, path) {
                    self.after_unsaved = waiting;
                }
            }
            DialogAnswer::SaveThenGoOn => self.save(ctx),
            DialogAnswer::DropThenGoOn => {
                if let Some(next) = self.after_unsaved.take() {
                    self.go_on(ctx, next);
                }
            }
            DialogAnswer::Overwrite(path) => self.save_to(ctx, &path),
            DialogAnswer::Replace(asking, path) => self.write_to(ctx, &asking, &path),
            DialogAnswer::Edit(edit) => self.edit(ctx, edit),
            DialogAnswer::CopyList(text) => self.copy_list(ctx, text),
            DialogAnswer::SaveList(text) => self.ask_where_to_save_list(ctx, &text),
            DialogAnswer::Scale { weighed, pieces } => self.scale_sheet(ctx, weighed, pieces),
            DialogAnswer::Exchange(edit) => self.exchange(ctx, edit),
            DialogAnswer::AddIngredient(ingredient) => {
                self.add_ingredient(ctx, self.document().recipe.lines.len(), ingredient);
            }
            DialogAnswer::SetPrice { ingredient, entry } => self.set_price(ctx, &ingredient, entry),
            DialogAnswer::Recover(leftover) => self.recover(ctx, &leftover),
            DialogAnswer::DropRecovery(leftover) => leftover.discard(),
            DialogAnswer::Closed => self.after_unsaved = None,
        }
    }
}
