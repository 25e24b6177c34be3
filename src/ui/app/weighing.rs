//! What to weigh today: the form, its list as text, and the sheet scaled to it.

use std::path::Path;

use egui::Context;

use super::App;
use crate::document::Edit;
use crate::recipe::Quantity;
use crate::store;
use crate::ui::dialogs::Dialog;
use crate::ui::files::{Asking, list_file_name};
use crate::ui::text;

impl App {
    /// Opens the form.
    pub(super) fn show_weighing(&mut self) {
        self.dialogs.show_weighing(self.open.document(), self.prices.list(), self.view.sign);
    }

    pub(super) fn copy_list(&mut self, ctx: &Context, text: String) {
        ctx.copy_text(text);
        self.toasts.say("Weighing list copied", ctx);
    }

    pub(super) fn ask_where_to_save_list(&mut self, ctx: &Context, text: &str) {
        let name = list_file_name(&self.document().recipe.name);
        self.ask_for_path(ctx, Asking::SaveList { name, text: text.into() });
    }

    pub(super) fn save_list_to(&mut self, ctx: &Context, path: &Path, text: &str) {
        match store::save_bytes(path, text.as_bytes()) {
            Ok(()) => self.toasts.say(text::SAVED, ctx),
            Err(error) => self.dialogs.show(Dialog::message("The list is not saved", &error.to_string())),
        }
    }

    /// Brings the sheet to the weight of the list: a step of its own.
    pub(super) fn scale_sheet(&mut self, ctx: &Context, weighed: Quantity, pieces: Option<u32>) {
        self.open.end_gesture();
        let before = self.open.revision();
        match self.open.apply(Edit::ScaleToPieces { weighed, pieces }) {
            // There would be nothing to undo.
            Ok(()) if self.open.revision() == before => self.toasts.say("The sheet has this weight already", ctx),
            Ok(()) => self.toasts.with_undo("Sheet scaled", self.open.revision(), ctx),
            Err(error) => self.toasts.say(&error.to_string(), ctx),
        }
        self.open.end_gesture();
    }
}
