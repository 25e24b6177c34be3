//! Recovery copies: what is unsaved is written beside, never over the user's file.

use egui::Context;

use super::App;
use crate::document::{Document, OpenDocument};
use crate::ingredient::Library;
use crate::store::{self, Leftover, Places, Recovery};
use crate::ui::dialogs::Dialog;

/// How long after a change the recovery copy is written, in seconds of the window's clock.
const RECOVERY_DELAY: f64 = 3.0;

impl App {
    pub(super) fn offer_recovery(&mut self) {
        let leftover = self.recovery.as_ref().and_then(|recovery| recovery.leftovers().into_iter().next());
        if let Some(leftover) = leftover {
            self.dialogs.show(Dialog::recovery(leftover));
        }
    }

    pub(super) fn recover(&mut self, ctx: &Context, leftover: &Leftover) {
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

    pub(super) fn forget_recovery(&mut self) {
        if let Some(recovery) = &self.recovery {
            recovery.remove(self.path.as_deref());
        }
        self.recovered_revision = None;
    }

    /// Writes the recovery copy a few seconds after the last change.
    pub(super) fn keep_recovery(&mut self, ctx: &Context) {
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
        self.write_recovery();
    }

    /// Writes the recovery copy now, unless there is one of this state.
    pub(super) fn write_recovery(&mut self) {
        let state = self.state();
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
        self.recovered_revision == Some(self.state())
    }
}

pub(super) fn start_recovery(places: &Places) -> Option<Recovery> {
    Recovery::start(places).map_err(|error| log::warn!("no recovery copies: {error}")).ok()
}
