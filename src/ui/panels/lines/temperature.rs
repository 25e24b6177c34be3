//! How warm a line is when it is mixed, and in which state its fat is: cells that stand in the sheet where they are wanted.

use egui::{Id, RichText, Ui};

use super::cells::{AMOUNT_MARGIN, Outcome};
use crate::analysis::Analysis;
use crate::analysis::mixing::{self, FatAtMixing, UNSAID};
use crate::document::Edit;
use crate::ingredient::{Component, OtherFatKind};
use crate::number::{DecimalSign, fixed, shortest, typed};
use crate::recipe::{FatState, Line, LineId, MixTemperature};
use crate::ui::explanations::mixing as explanations;
use crate::ui::panels::field::{DEGREES, number_with_unit, typed_into, unless_empty};
use crate::ui::theme::{self, Palette};
use crate::ui::view::{Action, Focus, Scene, View};
use crate::ui::widgets::number_cell::{self, Leave, NumberCell};
use crate::ui::widgets::{explain, explain_at_rest, ghost_label, small_menu_button, stop_label};
use crate::units::{Celsius, MassFraction};

/// Width of a temperature.
pub(super) const TEMPERATURE: f32 = 66.0;

/// A line with less fat than this has no state of fat worth a word.
const LEAST_FAT: MassFraction = MassFraction(0.02);

/// The cell in which the temperature of a line is typed.
fn temperature_id(line: LineId) -> Id {
    Id::unique(("temperature", line))
}

/// A temperature that was typed, or a dash.
pub(super) fn shown(temperature: Option<MixTemperature>, sign: DecimalSign) -> String {
    temperature.map_or_else(|| "–".to_owned(), |temperature| shortest(temperature.celsius().0, 1, sign))
}

/// Reads a temperature; nothing at all is none.
pub(in crate::ui::panels) fn parse_temperature(text: &str) -> Result<Option<MixTemperature>, String> {
    unless_empty(text, |text| {
        let celsius = number_with_unit(text, DEGREES)?;
        MixTemperature::new(Celsius(celsius)).map_err(|error| error.to_string())
    })
}

/// Whether the state of its fat is worth a word: there is fat in it, and it is said how warm it is.
pub(super) fn has_state(line: &Line) -> bool {
    has_fat(line) && (line.temperature.is_some() || line.fat_state != FatState::ByTemperature)
}

/// Whether there is fat in it that can be solid in a kitchen: oil is not.
fn has_fat(line: &Line) -> bool {
    let composition = &line.ingredient.composition;
    let is_oil =
        |fat: &Component| *fat == Component::OtherFat && line.ingredient.other_fat_kind == OtherFatKind::LiquidOil;
    let fats = Component::FATS.into_iter().filter(|fat| !is_oil(fat));
    let fat: Option<f64> = fats.map(|fat| composition.share(fat).map(|share| share.0)).sum();
    fat.is_none_or(|fat| fat >= LEAST_FAT.0)
}

/// The state in which the fat of a line is mixed, in a word; `None` for a line with hardly any fat.
pub(in crate::ui::panels) fn state_of(line: &Line) -> Option<&'static str> {
    has_fat(line).then(|| match mixing::state_of(line) {
        FatAtMixing::Tempered => "tempered",
        FatAtMixing::Solid => "solid",
        FatAtMixing::Melted => "melted",
    })
}

pub(super) fn temperature_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    (place, line): (usize, &Line),
    outcome: &mut Outcome,
    actions: &mut Vec<Action>,
) {
    let name = format!("{}, temperature", line.ingredient.name);
    let id = temperature_id(line.id);
    if view.focus == Some(Focus::Temperature(line.id)) {
        view.focus = None;
        number_cell::focus_cell(ui.ctx(), id);
    }
    let typed = line.temperature.map_or_else(String::new, |temperature| typed(temperature.celsius().0, view.sign));
    // What is assumed stands there in brackets; nothing is assumed before a first temperature is typed.
    let has_any = scene.analysis.mixing.is_some() && !line.is_seed;
    let unsaid = if has_any { format!("({})", shortest(UNSAID.0, 0, view.sign)) } else { "–".to_owned() };
    let at_rest = if line.temperature.is_some() { &typed } else { &unsaid };
    let palette = Palette::of(ui);
    let mut cell =
        NumberCell::new(id, &name, &typed, &parse_temperature).at_rest(at_rest).in_column().width(TEMPERATURE - 2.0);
    if line.temperature.is_none() && !ui.memory(|memory| memory.has_focus(id)) {
        cell = cell.colour(palette.quiet);
    }
    let output = cell.ui(ui);
    explain_at_rest(&output.response, || explanations::start(line, view.sign));
    if output.response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
        outcome.reached = Some(output.response.rect);
    }
    typed_into(output.event, actions, |temperature| Edit::SetTemperature { line: line.id, temperature });
    let (before, after) = scene.document.recipe.lines.split_at(place);
    let next = match output.leave {
        None => return,
        Some(Leave::Down) => after.get(1),
        Some(Leave::Up) => before.last(),
    };
    // At an end of the column the cell keeps the keyboard.
    actions.push(Action::Focus(Focus::Temperature(next.unwrap_or(line).id)));
}

/// The state of the fat as a word that opens its menu; gives back what was chosen.
pub(super) fn state_ui(ui: &mut Ui, line: &Line) -> Vec<Action> {
    let mut actions = Vec::new();
    if !has_state(line) {
        return actions;
    }
    let palette = Palette::of(ui);
    let words = state_of(line).unwrap_or_default();
    // What follows from the temperature is quiet; what was chosen is not.
    let colour = if line.fat_state == FatState::ByTemperature { palette.quiet } else { palette.text };
    ui.add_space(AMOUNT_MARGIN);
    let (response, _) = small_menu_button(ui, RichText::new(words).font(theme::small()).color(colour), |ui| {
        ui.set_min_width(190.0);
        states_ui(ui, line, &mut actions);
    });
    if response.gained_focus() {
        actions.push(Action::Select(Some(line.id)));
    }
    response
        .accessible_name(format!("{}, fat {words}", line.ingredient.name))
        .on_hover_text("FatAtMixing of its fat when it is mixed: crystals that melt take heat");
    actions
}

/// The states to choose from, in a menu.
pub(super) fn states_ui(ui: &mut Ui, line: &Line, actions: &mut Vec<Action>) {
    for state in FatState::ALL {
        if ui.selectable_label(state == line.fat_state, state.words()).clicked() {
            if state != line.fat_state {
                actions.push(Action::Edit(Edit::SetFatState { line: line.id, state }));
            }
            ui.close();
        }
    }
}

/// The end of the mix, under the temperatures that make it.
pub(super) fn end_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let Some(mixing) = &scene.analysis.mixing else { return };
    ui.add_space(AMOUNT_MARGIN);
    let Ok(mixing) = mixing else {
        ui.label(RichText::new("–").font(theme::table_bold()));
        return;
    };
    let response = stop_label(ui, RichText::new(fixed(mixing.end.0, 1, sign)).font(theme::table_bold()));
    explain(&response, || explanations::end(scene, sign));
}

/// The end of the pinned mix.
pub(super) fn pinned_end_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let Some(pin) = scene.pin else { return };
    ui.add_space(AMOUNT_MARGIN);
    ghost_label(ui, &end_words(&pin.analysis, sign));
}

fn end_words(analysis: &Analysis, sign: DecimalSign) -> String {
    match &analysis.mixing {
        Some(Ok(mixing)) => fixed(mixing.end.0, 1, sign),
        Some(Err(_)) | None => "–".to_owned(),
    }
}
