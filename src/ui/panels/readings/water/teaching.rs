//! For class: the sorption isotherm of the whole mass, and equations for water activity side by side.

use egui::Ui;

use super::Curves;
use crate::analysis::water::activity::Equation;
use crate::analysis::water::boiling::Stage;
use crate::number::{DecimalSign, fixed};
use crate::report::figures::{self, PlotName};
use crate::report::words;
use crate::ui::explanations::water as explanations;
use crate::ui::panels::readings::plot_card_ui;
use crate::ui::theme;
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::{Card, FigureRow, figure_rows_ui};
use crate::units::WaterActivity;

pub(super) fn isotherm_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    sign: DecimalSign,
    curves: Curves<'_>,
    actions: &mut Vec<Action>,
) {
    let Some(isotherm) = &curves.now.isotherm else { return };
    let before = scene.pin.zip(curves.pinned.and_then(|pinned| pinned.isotherm.as_ref()));
    let before = before.map(|(pin, isotherm)| (pin.analysis.as_ref(), isotherm));
    let Some(figure) = figures::sorption_plot(scene.analysis, before, isotherm, sign) else { return };
    let mut subtitle =
        String::from("the water that the mass has at rest in air of that humidity · dashed: held by solids");
    subtitle.push_str(&scene.ghost_in_legend());
    let drawn = (&figure, 200.0, sign);
    plot_card_ui(ui, PlotName::Sorption, &subtitle, drawn, actions, |_| Some(explanations::isotherm(scene)));
}

pub(super) fn equations_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, curves: Curves<'_>) {
    let figure = |activity: Option<WaterActivity>| {
        activity.map_or_else(|| "does not hold".to_owned(), |activity| fixed(activity.0, 3, sign))
    };
    let of = |found: &[Option<WaterActivity>], place: usize| found.get(place).copied().flatten();
    let rows = Equation::ALL.iter().enumerate().map(|(place, equation)| {
        let row = FigureRow::new(equation.words(), [figure(of(&curves.now.by_equation, place))]);
        match curves.pinned {
            Some(pinned) => row.pinned([figure(of(&pinned.by_equation, place))]),
            None => row,
        }
    });
    let rows: Vec<FigureRow> = rows.collect();
    Card::new()
        .title("Five equations side by side")
        .subtitle("for class: the same solubility and the same water on the solids; the first is the result")
        .ui(ui, |ui| {
            figure_rows_ui(ui, &rows, |place| {
                let equation = Equation::ALL.get(place).copied().unwrap_or(Equation::Norrish);
                explanations::equation(equation, scene, sign)
            });
            ui.label(theme::quiet(
                ui,
                "Ideal solutions (Raoult) miss what sugars do to each other and to water; Money and Born and Grover have \
                 no constants for polyols, syrups or alcohol of their own; Ross leaves out what solutes do to each other \
                 and reads too high with many of them.",
            ));
        });
}

/// The stages of cooked sugar, where the mass is cooked.
pub(super) fn stages_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let recipe = &scene.document.recipe;
    if !recipe.is_cooked() {
        return;
    }
    let height = recipe.losses.evaporation.height();
    let row = |stage: Stage| {
        let words = words::stage(stage, height, sign);
        let at = words.here.unwrap_or(words.at_the_sea);
        FigureRow::new(stage.name, [at, words.sucrose.unwrap_or_default()])
    };
    let rows = Stage::ALL.map(row);
    Card::new()
        .title("Stages of cooked sugar")
        .subtitle("by the thermometer in the pan · sucrose of a syrup of sugar and water alone")
        .ui(ui, |ui| {
            figure_rows_ui(ui, &rows, |_| explanations::stages(sign));
        });
}
