//! What is lost between the scale and the finished mass.

use egui::{Frame, Id, Margin, RichText, Ui};

use super::lines::parse_quantity;
use crate::document::Edit;
use crate::number::{grams, parse_expression, shortest, typed};
use crate::recipe::{MassUnit, TransferLoss};
use crate::ui::explanations::sheet;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::{NumberCell, NumberEvent};
use crate::ui::widgets::{explain, explain_at_rest, ghost_label, stop_label};

/// Draws the losses as pills.
pub fn losses_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(7.0, 8.0);
        pill_ui(ui, "evaporation", |ui| evaporation_ui(ui, scene, view, actions));
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
    });
}

fn evaporation_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    ui.label("evaporation").on_hover_text("Water that boils off: it changes the composition");
    let asked = scene.document.recipe.losses.evaporated_water;
    let shown = typed(asked.value(), view.sign);
    let unit = asked.unit();
    let parse = |text: &str| parse_quantity(text, unit);
    let output =
        NumberCell::new(Id::unique("evaporation"), &format!("evaporated water, {}", unit.symbol()), &shown, &parse)
            .width(width_of(&shown))
            .font(theme::body_bold())
            .ui(ui);
    let set = |quantity| Action::Edit(Edit::SetEvaporatedWater(quantity));
    match output.event {
        NumberEvent::Nothing => {}
        NumberEvent::Typing(quantity) => actions.push(set(quantity)),
        NumberEvent::Committed(quantity) => actions.extend([set(quantity), Action::EndGesture]),
        NumberEvent::Cancelled => actions.push(Action::CancelGesture),
    }
    unit_ui(ui, unit);
    explain_at_rest(&output.response, sheet::evaporation);
    if let Some(pin) = scene.pin {
        let before = pin.document.recipe.losses.evaporated_water.in_unit(unit);
        pinned_ui(ui, &shortest(before.value(), 3, view.sign));
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
        let percent = parse_expression(text.trim().trim_end_matches('%')).map_err(|error| error.to_string())?;
        TransferLoss::from_percent(percent).map_err(|_| "give a share of at least 0 % and below 100 %".to_owned())
    };
    let output = NumberCell::new(Id::unique("transfer loss"), "transfer loss, percent", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    let set = |loss| Action::Edit(Edit::SetTransferLoss(loss));
    match output.event {
        NumberEvent::Nothing => {}
        NumberEvent::Typing(loss) => actions.push(set(loss)),
        NumberEvent::Committed(loss) => actions.extend([set(loss), Action::EndGesture]),
        NumberEvent::Cancelled => actions.push(Action::CancelGesture),
    }
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
