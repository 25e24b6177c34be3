//! What is lost between the scale and the finished mass.

mod cook;
mod mix;

use egui::{Frame, Id, Margin, RichText, Ui};
pub use mix::switch_ui;

use super::field::{number_with_unit, typed_into};
use super::head::menu_ui;
use super::lines::parse_quantity;
use crate::analysis::make_up::MakeUp;
use crate::document::Edit;
use crate::number::{grams, round_half_up, shortest, typed};
use crate::recipe::{CookTemperature, Evaporation, Heating, Height, MassUnit, Quantity, TransferLoss};
use crate::ui::explanations::sheet;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::NumberCell;
use crate::ui::widgets::{explain, explain_at_rest, ghost_label, stop_label};

/// Draws the losses as pills.
pub fn losses_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(7.0, 8.0);
        pill_ui(ui, "evaporation", |ui| evaporation_ui(ui, scene, view, actions));
        if let Evaporation::CookedTo { temperature, height } = scene.document.recipe.losses.evaporation {
            pill_ui(ui, "height", |ui| cook::height_ui(ui, scene, view, (temperature, height), actions));
            pill_ui(ui, "boils off", |ui| cook::boiled_off_ui(ui, scene, view));
        }
        pill_ui(ui, "transfer", |ui| transfer_ui(ui, scene, view, actions));
        pill_ui(ui, "finished", |ui| {
            ui.label("finished");
            ui.add_space(space::TIGHT);
            let finished = grams(scene.analysis.make_up.finished.0, view.sign);
            explain(&stop_label(ui, theme::strong(format!("{finished} g"))), sheet::finished);
            if let Some(pin) = scene.pin {
                pinned_ui(ui, &grams(pin.analysis.make_up.finished.0, view.sign));
            }
        });
        mix::mix_ui(ui, scene, view, actions);
    });
}

/// What evaporates: how that is known, and the figures that belong to it.
fn evaporation_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    ui.label("evaporation").on_hover_text("Water that boils off: it changes the composition");
    ui.add_space(space::TIGHT);
    let now = scene.document.recipe.losses.evaporation;
    way_ui(ui, scene, now, actions);
    match now {
        Evaporation::Weighed(asked) => weighed_ui(ui, scene, view, asked, actions),
        Evaporation::Estimated(heating) => evaporated_ui(ui, scene, view, |ui, words| {
            explain(&stop_label(ui, words), || sheet::estimated_evaporation(heating, view.sign));
        }),
        Evaporation::CookedTo { temperature, height } => {
            cook::temperature_ui(ui, scene, view, (temperature, height), actions);
        }
    }
}

/// The ways in which it can be known what evaporates, as they are called.
fn way_words(evaporation: Evaporation) -> &'static str {
    match evaporation {
        Evaporation::Weighed(_) => "weighed",
        Evaporation::Estimated(Heating::Boiled) => "boiled, estimated",
        Evaporation::Estimated(Heating::Warmed) => "warmed to 80 °C, estimated",
        Evaporation::CookedTo { .. } => "cooked to",
    }
}

fn way_ui(ui: &mut Ui, scene: &Scene<'_>, now: Evaporation, actions: &mut Vec<Action>) {
    let hover = "How it is known what evaporates: weighed, estimated from what is heated, or from the temperature to which \
                 the mass is cooked";
    menu_ui(ui, way_words(now), hover, |ui| {
        let cook = Evaporation::CookedTo { temperature: CookTemperature::CARAMEL, height: Height::SEA_LEVEL };
        let ways = [Evaporation::Weighed(weighed_now(&scene.analysis.make_up))]
            .into_iter()
            .chain(Heating::ALL.map(Evaporation::Estimated))
            .chain([cook]);
        for way in ways {
            let is_chosen = way_words(way) == way_words(now);
            if ui.selectable_label(is_chosen, way_words(way)).clicked() {
                if !is_chosen {
                    actions.extend([Action::Edit(Edit::SetEvaporation(way)), Action::EndGesture]);
                }
                ui.close();
            }
        }
    });
}

/// What a weighing begins with: what evaporates now, as shown.
fn weighed_now(make_up: &MakeUp) -> Quantity {
    Quantity::from_grams(round_half_up(make_up.evaporated.0, 1)).unwrap_or_default()
}

fn weighed_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, asked: Quantity, actions: &mut Vec<Action>) {
    let shown = typed(asked.value(), view.sign);
    let unit = asked.unit();
    let parse = |text: &str| parse_quantity(text, unit);
    let output =
        NumberCell::new(Id::unique("evaporation"), &format!("evaporated water, {}", unit.symbol()), &shown, &parse)
            .width(width_of(&shown))
            .font(theme::body_bold())
            .ui(ui);
    typed_into(output.event, actions, |amount| Edit::SetEvaporation(Evaporation::Weighed(amount)));
    unit_ui(ui, unit);
    explain_at_rest(&output.response, || sheet::evaporation(view.sign));
    if let Some(pin) = scene.pin {
        let before = Quantity::from_grams(pin.analysis.make_up.evaporated.0).unwrap_or_default();
        let before = match pin.document.recipe.losses.evaporation {
            Evaporation::Weighed(before) => before,
            Evaporation::Estimated(_) | Evaporation::CookedTo { .. } => before,
        };
        pinned_ui(ui, &shortest(before.in_unit(unit).value(), 3, view.sign));
    }
}

/// What evaporates in grams, where it is computed; `show` draws it.
fn evaporated_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, show: impl FnOnce(&mut Ui, RichText)) {
    let words = |make_up: &MakeUp| match make_up.evaporating.grams() {
        Some(_) => format!("{} g", grams(make_up.evaporated.0, view.sign)),
        None => "not known".to_owned(),
    };
    show(ui, theme::strong(words(&scene.analysis.make_up)));
    if let Some(pin) = scene.pin {
        pinned_ui(ui, &words(&pin.analysis.make_up));
    }
}

/// The figure of the pinned state, in the unit of the one before it.
fn pinned_ui(ui: &mut Ui, words: &str) {
    ui.add_space(space::TIGHT);
    ghost_label(ui, words);
}

/// As wide as its digits, so that label, number and unit stand together.
fn width_of(shown: &str) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "a few digits")]
    let digits = shown.chars().count() as f32;
    14.0 + 8.5 * digits.max(1.0)
}

fn unit_ui(ui: &mut Ui, unit: MassUnit) {
    ui.label(theme::strong(unit.symbol()));
}

fn transfer_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    ui.label("transfer")
        .on_hover_text("What stays in bowls and bags, as a share of the mass: the composition stays as it is");
    let shown = shortest(scene.document.recipe.losses.transfer.share().to_percent(), 4, view.sign);
    let parse = |text: &str| {
        let percent = number_with_unit(text, &["%"])?;
        TransferLoss::from_percent(percent).map_err(|_| "give a share of at least 0 % and below 100 %".to_owned())
    };
    let output = NumberCell::new(Id::unique("transfer loss"), "transfer loss, percent", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, Edit::SetTransferLoss);
    ui.label(RichText::new("%").font(theme::body_bold()));
    explain_at_rest(&output.response, sheet::transfer_loss);
    if let Some(pin) = scene.pin {
        let before = pin.document.recipe.losses.transfer.share().to_percent();
        pinned_ui(ui, &shortest(before, 2, view.sign));
    }
}

/// A pill, in the next row where there is no room for it in this one.
fn pill_ui(ui: &mut Ui, name: &str, contents: impl FnOnce(&mut Ui)) {
    let palette = Palette::of(ui);
    // The toolkit breaks rows between words only; how wide the pill is, is known from the last time.
    let id = Id::unique(("width of pill", name));
    let before: f32 = ui.data(|data| data.get_temp(id)).unwrap_or(0.0);
    if ui.available_size_before_wrap().x < before {
        ui.end_row();
    }
    let shown = Frame::new()
        .fill(palette.card)
        .stroke(palette.rule_stroke())
        .corner_radius(16.0)
        .inner_margin(Margin::symmetric(9, 3))
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 3.0;
                contents(ui);
            });
        });
    let width = shown.response.rect.width();
    if (width - before).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(id, width));
        ui.ctx().request_discard("the pills may stand in other rows");
    }
}
