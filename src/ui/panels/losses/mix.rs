//! The mix: whether the lines show their temperatures, where the mix ends and should end, in what and how long it is
//! stirred.

use egui::{Id, Ui};

use super::super::field::{number_with_unit, typed_into};
use super::super::head::menu_ui;
use super::super::lines::{parse_quantity, parse_temperature};
use super::{pill_ui, pinned_ui, unit_ui, width_of};
use crate::analysis::Analysis;
use crate::document::Edit;
use crate::number::{DecimalSign, shortest, typed};
use crate::recipe::{Bowl, BowlMaterial, MassUnit, MixTemperature, Mixing, Quantity, StirringTime};
use crate::report::words;
use crate::ui::explanations::mixing as explanations;
use crate::ui::theme::{self, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::number_cell::NumberCell;
use crate::ui::widgets::{explain, explain_at_rest, quiet_button, stop_label};

/// What a bowl weighs until another mass is typed: a mixing bowl of two litres (judged).
const BOWL_G: f64 = 400.0;

/// Draws the pills of the mix.
pub(super) fn mix_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    let mixing = scene.document.recipe.mixing;
    let is_shown = view.shows_temperatures(&scene.document.recipe);
    if scene.analysis.mixing.is_some() || (is_shown && mixing.wanted.is_some()) {
        pill_ui(ui, "mix", |ui| {
            end_ui(ui, scene, view.sign);
            if is_shown {
                wanted_ui(ui, scene, view.sign, mixing, actions);
            }
        });
    }
    if is_shown && scene.analysis.mixing.is_some() {
        pill_ui(ui, "bowl", |ui| bowl_ui(ui, scene, view.sign, mixing, actions));
        pill_ui(ui, "stirred", |ui| stirred_ui(ui, scene, view.sign, mixing, actions));
    }
}

/// Draws what shows or hides the temperatures.
pub fn switch_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    let is_shown = view.shows_temperatures(&scene.document.recipe);
    let (words, hover) = if is_shown {
        ("hide temperatures", "Take the column of temperatures away; what is typed stays")
    } else {
        ("+  temperatures", "Say how warm each line is when it is mixed: where will the mix end?")
    };
    if quiet_button(ui, theme::quiet(ui, words)).on_hover_text(hover).clicked() {
        actions.push(Action::ShowTemperatures(!is_shown));
    }
}

fn end_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    ui.label("ends at").on_hover_text("Where the lines end when they are mixed");
    ui.add_space(space::TIGHT);
    let words = |analysis: &Analysis| match &analysis.mixing {
        Some(Ok(mixing)) => words::mix_end(mixing, sign).temperature,
        Some(Err(_)) => "not known".to_owned(),
        None => "–".to_owned(),
    };
    let response = stop_label(ui, theme::strong(words(scene.analysis)));
    explain(&response, || explanations::end(scene, sign));
    if let Some(pin) = scene.pin {
        pinned_ui(ui, &words(&pin.analysis));
    }
}

fn wanted_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: Mixing, actions: &mut Vec<Action>) {
    ui.add_space(space::TIGHT);
    ui.label("wanted").on_hover_text("Where the mix should end");
    let shown = celsius(mixing.wanted, sign);
    let at_rest = if shown.is_empty() { "–" } else { &shown };
    let output = NumberCell::new(
        Id::unique("wanted end of the mix"),
        "wanted end of the mix, degrees Celsius",
        &shown,
        &parse_temperature,
    )
    .at_rest(at_rest)
    .width(width_of(&shown).max(30.0))
    .font(theme::body_bold())
    .ui(ui);
    typed_into(output.event, actions, |wanted| Edit::SetMixing(Mixing { wanted, ..mixing }));
    ui.label(theme::strong("°C"));
    explain_at_rest(&output.response, || explanations::wanted_end(sign));
    if let Some(before) = scene.pin.map(|pin| pin.document.recipe.mixing.wanted).filter(|it| *it != mixing.wanted) {
        pinned_ui(ui, &before.map_or_else(|| "–".to_owned(), |before| shortest(before.celsius().0, 1, sign)));
    }
}

fn celsius(temperature: Option<MixTemperature>, sign: DecimalSign) -> String {
    temperature.map_or_else(String::new, |temperature| typed(temperature.celsius().0, sign))
}

fn bowl_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: Mixing, actions: &mut Vec<Action>) {
    ui.label("bowl");
    ui.add_space(space::TIGHT);
    let set = |bowl| Edit::SetMixing(Mixing { bowl, ..mixing });
    let choose = |actions: &mut Vec<Action>, bowl| actions.extend([Action::Edit(set(bowl)), Action::EndGesture]);
    let hover = "What the mass is mixed in: a cold bowl takes heat";
    menu_ui(ui, mixing.bowl.map_or("none", |bowl| bowl.material.key()), hover, |ui| {
        if ui.selectable_label(mixing.bowl.is_none(), "none").clicked() {
            choose(actions, None);
            ui.close();
        }
        for material in BowlMaterial::ALL {
            if ui.selectable_label(mixing.bowl.is_some_and(|bowl| bowl.material == material), material.key()).clicked()
            {
                let mass = Quantity::new(BOWL_G, MassUnit::Gram).unwrap_or_default();
                let bowl = mixing.bowl.unwrap_or(Bowl { material, mass, temperature: MixTemperature::ROOM });
                choose(actions, Some(Bowl { material, ..bowl }));
                ui.close();
            }
        }
    });
    let before = scene.pin.and_then(|pin| pin.document.recipe.mixing.bowl);
    let Some(bowl) = mixing.bowl else { return };
    let unit = bowl.mass.unit();
    let shown = typed(bowl.mass.value(), sign);
    let parse = |text: &str| parse_quantity(text, unit);
    let output = NumberCell::new(Id::unique("mass of the bowl"), &format!("bowl, {}", unit.symbol()), &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, |mass| set(Some(Bowl { mass, ..bowl })));
    unit_ui(ui, unit);
    explain_at_rest(&output.response, || explanations::bowl(sign));
    if let Some(before) = before.filter(|before| before.mass != bowl.mass) {
        pinned_ui(ui, &shortest(before.mass.in_unit(unit).value(), 3, sign));
    }
    ui.add_space(space::TIGHT);
    ui.label("at");
    let shown = typed(bowl.temperature.celsius().0, sign);
    let parse = |text: &str| {
        parse_temperature(text)?.ok_or_else(|| "give the temperature of the bowl, or choose no bowl".to_owned())
    };
    let output = NumberCell::new(Id::unique("temperature of the bowl"), "bowl, degrees Celsius", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, |temperature| set(Some(Bowl { temperature, ..bowl })));
    ui.label(theme::strong("°C"));
    explain_at_rest(&output.response, || explanations::bowl(sign));
    if let Some(before) = before.filter(|before| before.temperature != bowl.temperature) {
        pinned_ui(ui, &shortest(before.temperature.celsius().0, 1, sign));
    }
}

fn stirred_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: Mixing, actions: &mut Vec<Action>) {
    ui.label("stirred").on_hover_text("In the open: an allowance for the heat that the room takes");
    let shown = typed(mixing.stirred.minutes(), sign);
    let parse = |text: &str| {
        let minutes = number_with_unit(text, &["min"])?;
        StirringTime::new(minutes).map_err(|error| error.to_string())
    };
    let output = NumberCell::new(Id::unique("stirring time"), "stirred in the open, minutes", &shown, &parse)
        .width(width_of(&shown))
        .font(theme::body_bold())
        .ui(ui);
    typed_into(output.event, actions, |stirred| Edit::SetMixing(Mixing { stirred, ..mixing }));
    ui.label(theme::strong("min"));
    explain_at_rest(&output.response, || explanations::stirring(sign));
    if let Some(before) = scene.pin.map(|pin| pin.document.recipe.mixing.stirred).filter(|it| *it != mixing.stirred) {
        pinned_ui(ui, &shortest(before.minutes(), 1, sign));
    }
}
