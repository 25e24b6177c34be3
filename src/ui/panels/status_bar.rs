//! The bar at the bottom: saved or not, units, inputs that are class values, zoom.

use egui::{Align, Frame, Layout, Margin, Panel, RichText, Ui};

use crate::ui::app::App;
use crate::ui::explanations::sheet;
use crate::ui::text;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::{explain, ghost_label};

/// Draws the bar.
pub fn status_bar_ui(ui: &mut Ui, app: &App, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    Panel::bottom("status bar").frame(Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(14, 5))).show(
        ui,
        |ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = space::REGION;
                saved_ui(ui, app);
                ui.label(theme::caption(ui, "g · °C"));
                if scene.pin.is_some() {
                    ghost_label(ui, "dashed: the pinned state (Ctrl+Shift+P unpins)");
                }
                class_values_ui(ui, scene, actions);
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    let zoom = format!("{:.0} %", ui.ctx().zoom_factor() * 100.0);
                    ui.label(theme::caption(ui, zoom)).on_hover_text("Size of everything; Ctrl + and Ctrl − change it");
                    if ui.available_width() > 420.0 {
                        ui.label(theme::caption(ui, text::CAUTION));
                    }
                });
            });
        },
    );
}

fn saved_ui(ui: &mut Ui, app: &App) {
    let palette = Palette::of(ui);
    let (word, colour) = if app.is_saved() { ("saved", palette.accent) } else { ("not saved", palette.caution) };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT + 2.0;
        let (rect, _) = ui.allocate_exact_size(egui::vec2(8.0, 8.0), egui::Sense::hover());
        ui.painter().circle_filled(rect.center(), 3.5, colour);
        ui.label(RichText::new(word).font(theme::small_bold()).color(colour));
        if !app.is_saved() && app.has_recovery_copy() {
            ui.label(theme::caption(ui, "· recovery copy kept"));
        }
    });
}

fn class_values_ui(ui: &mut Ui, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let count = scene.analysis.class_values.len();
    let words = match count {
        0 => return,
        1 => "1 input is a class value: replace it by your supplier's data sheet".to_owned(),
        _ => format!("{count} inputs are class values: replace them by your supplier's data sheet"),
    };
    let label = ui.add(egui::Label::new(theme::caption(ui, words)).sense(egui::Sense::click()));
    explain(&label, || sheet::class_values(scene));
    if label.clicked() {
        actions.push(Action::Select(scene.analysis.class_values.first().copied()));
    }
}
