//! The sheet in the middle: head, lines, losses, phase bar, findings.

use egui::{CentralPanel, Frame, Margin, Ui};

use super::findings::findings_ui;
use super::head::head_ui;
use super::lines::{add_ui, lines_ui};
use super::losses::losses_ui;
use super::phase_bar::phase_bar_ui;
use crate::ui::theme::{Palette, space};
use crate::ui::view::{Action, Scene, View};

/// A line of text across a wide screen is hard to read: the sheet grows no wider.
const WIDEST: f32 = 920.0;

/// At most this share of the height is for the lines; long recipes scroll.
const LINES_SHARE: f32 = 0.46;

/// Draws the sheet in what the other panels leave.
pub fn sheet_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    CentralPanel::default()
        .frame(Frame::new().fill(palette.ground).inner_margin(Margin { left: 24, right: 24, top: 18, bottom: 0 }))
        .show(ui, |ui| {
            ui.set_max_width(ui.available_width().min(WIDEST));
            head_ui(ui, scene, view, actions);
            ui.add_space(space::NEAR);
            let most = ui.available_height() * LINES_SHARE;
            egui::ScrollArea::vertical()
                .id_salt("sheet lines")
                .max_height(most)
                .auto_shrink([false, true])
                .show(ui, |ui| lines_ui(ui, scene, view, actions));
            // Outside of what scrolls, so that it is always in sight.
            add_ui(ui, actions);
            ui.add_space(space::NEAR);
            losses_ui(ui, scene, view, actions);
            ui.add_space(space::GROUP);
            phase_bar_ui(ui, scene, view);
            ui.add_space(space::GROUP);
            findings_ui(ui, scene, view, actions);
        });
}
