//! A cook to a temperature: where it is stopped, how high the kitchen lies, what boils off, and the stages of cooked sugar.

use egui::{Id, RichText, Ui};

use super::super::field::{DEGREES, number_with_unit, typed_into};
use super::super::head::menu_ui;
use super::{evaporated_ui, pinned_ui, width_of};
use crate::analysis::water::boiling::{Stage, at_height};
use crate::document::Edit;
use crate::number::{DecimalSign, round_half_up, shortest, typed};
use crate::recipe::{CookTemperature, Evaporation, Height};
use crate::report::words;
use crate::ui::explanations::sheet;
use crate::ui::theme::{self, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::NumberCell;
use crate::ui::widgets::{explain, explain_at_rest, stop_label};
use crate::units::{Celsius, Metres};

/// Temperature and height of the pinned state, if it is cooked too.
fn pinned(scene: &Scene<'_>) -> Option<(CookTemperature, Height)> {
    scene.pin.and_then(|pin| match pin.document.recipe.losses.evaporation {
        Evaporation::CookedTo { temperature, height } => Some((temperature, height)),
        Evaporation::Weighed(_) | Evaporation::Estimated(_) => None,
    })
}

/// Draws the temperature at which the cook is stopped, and the stage of cooked sugar that it is.
pub(super) fn temperature_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &View,
    (temperature, height): (CookTemperature, Height),
    actions: &mut Vec<Action>,
) {
    let shown = typed(temperature.celsius().0, view.sign);
    let parse = |text: &str| {
        let celsius = number_with_unit(text, DEGREES)?;
        CookTemperature::new(Celsius(celsius)).map_err(|error| error.to_string())
    };
    let output = NumberCell::new(Id::unique("cook temperature"), "cooked to, degrees Celsius", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, |temperature| {
        Edit::SetEvaporation(Evaporation::CookedTo { temperature, height })
    });
    ui.label(theme::strong("°C"));
    explain_at_rest(&output.response, || sheet::cook_temperature(scene, view.sign));
    if let Some((before, _)) = pinned(scene) {
        pinned_ui(ui, &shortest(before.celsius().0, 2, view.sign));
    }
    ui.add_space(space::TIGHT);
    stage_ui(ui, scene, view.sign, height, actions);
}

/// Draws how high the kitchen lies.
pub(super) fn height_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &View,
    (temperature, height): (CookTemperature, Height),
    actions: &mut Vec<Action>,
) {
    ui.label("kitchen at");
    let shown = typed(height.metres().0, view.sign);
    let parse = |text: &str| {
        let metres = number_with_unit(text, &["m"])?;
        Height::new(Metres(metres)).map_err(|error| error.to_string())
    };
    let output = NumberCell::new(Id::unique("cook height"), "height above the sea, metres", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, |height| Edit::SetEvaporation(Evaporation::CookedTo { temperature, height }));
    ui.label(theme::strong("m"));
    explain_at_rest(&output.response, || sheet::cook_height(view.sign));
    if let Some((_, before)) = pinned(scene) {
        pinned_ui(ui, &shortest(before.metres().0, 0, view.sign));
    }
}

/// Draws what boils off.
pub(super) fn boiled_off_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    ui.label("boils off");
    ui.add_space(space::TIGHT);
    evaporated_ui(ui, scene, view, |ui, words| {
        explain(&stop_label(ui, words), || sheet::boiled_off(scene, view.sign));
    });
}

/// The stage of cooked sugar, as a word that opens the list of all stages; a stage that is chosen sets the temperature.
fn stage_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, height: Height, actions: &mut Vec<Action>) {
    let now = scene.analysis.make_up.evaporating.cooked().and_then(|cooked| cooked.stage);
    let hover = "The stages of cooked sugar: where they begin and end, and how much sucrose a syrup of sugar and water alone has then";
    menu_ui(ui, now.map_or("stages", |stage| stage.name), hover, |ui| {
        if !height.is_at_the_sea() {
            ui.label(theme::quiet(ui, "first at the sea, then at your height"));
        }
        for stage in Stage::ALL {
            let is_chosen = now == Some(stage);
            let begins = at_height(stage.from, height.metres());
            let button = ui.selectable_label(
                is_chosen,
                RichText::new(format!("{}, {}", stage.name, words::stage(stage, height, sign).joined())),
            );
            if button.clicked() {
                if !is_chosen && let Some(temperature) = begins.and_then(to_a_tenth) {
                    let cook = Evaporation::CookedTo { temperature, height };
                    actions.extend([Action::Edit(Edit::SetEvaporation(cook)), Action::EndGesture]);
                }
                ui.close();
            }
        }
    });
}

/// The temperature that is set for a stage: no thermometer of a kitchen shows more than tenths.
fn to_a_tenth(celsius: Celsius) -> Option<CookTemperature> {
    CookTemperature::new(Celsius(round_half_up(celsius.0, 1))).ok()
}
