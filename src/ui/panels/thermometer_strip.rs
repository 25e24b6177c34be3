//! The thermometer at the right edge: limits, windows, and the temperature at which everything is shown.

use egui::{Frame, Id, Margin, Panel, Ui};

use crate::analysis::fat::Form;
use crate::analysis::handling::usual_handling;
use crate::analysis::seeding::{Seeding, Window};
use crate::number::fixed;
use crate::ui::explanations::{fat, sheet};
use crate::ui::theme::Palette;
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::thermometer::Mark;
use crate::ui::widgets::{Thermometer, ThermometerMarks, explain::explain_moved};
use crate::units::Celsius;

/// Draws the strip.
pub fn thermometer_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    let limits = scene.analysis.fat.as_ref().map(|fat| fat.limits).unwrap_or_default();
    let seeding = scene.analysis.seeding.as_ref();
    let pinned = scene.pin.map(|pin| pin.analysis.as_ref());
    let pinned_limits = pinned.and_then(|pinned| pinned.fat.as_ref().ok()).map(|fat| fat.limits).unwrap_or_default();
    let pinned_seeding = pinned.and_then(|pinned| pinned.seeding.as_ref());
    let ends = |window: Window| [window.min.0, window.max.0];
    let celsius = |limit: Option<Celsius>| limit.map(|limit| limit.0);
    let handling = usual_handling(&scene.document.recipe, scene.analysis);
    let marks = ThermometerMarks {
        form_iv_c: celsius(limits.form_iv),
        form_v_c: celsius(limits.form_v),
        form_vi_c: celsius(limits.form_vi),
        window_c: seeding.map(|seeding| ends(seeding.window)),
        window_label: "seed here",
        unmixed_window_c: seeding.and_then(Seeding::second_window).map(ends),
        unmixed_window_label: "fresh",
        handling_c: handling.map(|handling| [handling.range.0.0, handling.range.1.0]),
        pinned_limits_c: [pinned_limits.form_iv, pinned_limits.form_v, pinned_limits.form_vi].map(celsius),
        pinned_windows_c: [
            pinned_seeding.map(|seeding| ends(seeding.window)),
            pinned_seeding.and_then(Seeding::second_window).map(ends),
        ],
    };
    let shown = fixed(view.at.0, 1, view.sign);
    Panel::right("thermometer")
        .resizable(false)
        .exact_size(Thermometer::WIDTH + 8.0)
        .frame(Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(2, 10)))
        .show(ui, |ui| {
            let output = Thermometer::new(Id::unique("thermometer"), "thermometer", view.at.0, &shown, &marks).ui(ui);
            if let Some(chosen) = output.chosen_c {
                actions.push(Action::SetTemperature(Celsius(chosen)));
            }
            // An explanation over the plot would hide what the handle moves.
            if !ui.input(|input| input.pointer.any_down()) {
                let form = output.pointed.map(|mark| match mark {
                    Mark::FormIV => Form::IV,
                    Mark::FormV => Form::V,
                    Mark::FormVI => Form::VI,
                });
                explain_moved(&output.response, || match (form, scene.analysis.fat.as_ref().ok()) {
                    (Some(form), Some(crystals)) => fat::limit(form, crystals, scene, view.sign),
                    _ => sheet::thermometer(scene, view.sign),
                });
            }
        });
}
