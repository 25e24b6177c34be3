//! A short word at the lower edge that goes away by itself: what was done, with Undo where it can be taken back.

use egui::{Align2, Area, Context, Frame, Id, Margin, Order, Rect};

use super::command::Command;
use super::theme::{self, Palette, space};
use super::view::Action;
use crate::document::Revision;

/// How long a word stays, in seconds.
const STAYS: f64 = 5.0;

/// The word that is shown, if there is one. A new one takes the place of the old.
#[derive(Debug, Default)]
pub struct Toasts {
    shown: Option<Toast>,
}

#[derive(Debug)]
struct Toast {
    text: String,
    /// The state of the document that Undo belongs to.
    undo: Option<Revision>,
    until: f64,
}

impl Toasts {
    /// Says what was done.
    pub fn say(&mut self, text: &str, ctx: &Context) {
        self.show(text, None, ctx);
    }

    /// Says what was done, and offers to take it back while the document is in the state that came of it.
    pub fn with_undo(&mut self, text: &str, revision: Revision, ctx: &Context) {
        self.show(text, Some(revision), ctx);
    }

    fn show(&mut self, text: &str, undo: Option<Revision>, ctx: &Context) {
        let until = ctx.input(|input| input.time) + STAYS;
        self.shown = Some(Toast { text: text.to_owned(), undo, until });
        ctx.request_repaint();
    }

    /// Draws what is said, in the middle of the sheet: at the lower edge of the readings are the buttons of a verdict.
    ///
    /// `revision` is the state of the document; none where Undo would take back something else than a change of it.
    pub(super) fn ui(&mut self, ctx: &Context, sheet: Rect, revision: Option<Revision>, actions: &mut Vec<Action>) {
        let Some(toast) = &self.shown else { return };
        let left = toast.until - ctx.input(|input| input.time);
        // After another change, Undo would take back that one.
        let is_overtaken = toast.undo.is_some_and(|undo| revision != Some(undo));
        if left <= 0.0 || is_overtaken {
            self.shown = None;
            return;
        }
        ctx.request_repaint_after(std::time::Duration::from_secs_f64(left));
        let mut is_done = false;
        let aside = sheet.center().x - ctx.content_rect().center().x;
        Area::new(Id::unique("toast")).order(Order::Foreground).anchor(Align2::CENTER_BOTTOM, [aside, -44.0]).show(
            ctx,
            |ui| {
                let palette = Palette::of(ui);
                Frame::new()
                    .fill(palette.text)
                    .corner_radius(f32::from(space::FIELD_RADIUS))
                    .inner_margin(Margin::symmetric(14, 8))
                    .show(ui, |ui| {
                        ui.horizontal(|ui| {
                            let text = egui::RichText::new(&toast.text).color(palette.panel);
                            ui.label(text);
                            if toast.undo.is_some() {
                                let undo = egui::RichText::new("Undo").font(theme::body_bold()).color(palette.panel);
                                if ui.add(egui::Button::new(undo).fill(palette.text)).clicked() {
                                    actions.push(Action::Run(Command::Undo));
                                    is_done = true;
                                }
                            }
                        });
                    });
            },
        );
        if is_done {
            self.shown = None;
        }
    }
}
