//! Energy and sweetness, with those of the pinned state.

use egui::Ui;

use crate::analysis::Analysis;
use crate::number::DecimalSign;
use crate::report::words::food;
use crate::ui::explanations::food as explanations;
use crate::ui::view::Scene;
use crate::ui::widgets::{FigureRow, figure_rows_ui};

/// The rows of the card.
#[derive(Clone, Copy)]
enum Row {
    Energy,
    LeftOpen,
    Sweetness,
}

impl Row {
    fn words(self) -> &'static str {
        match self {
            Self::Energy => "energy of 100 g",
            Self::LeftOpen => "by what is left open",
            Self::Sweetness => "sweetness, sugar = 100",
        }
    }

    fn figures(self, analysis: &Analysis, sign: DecimalSign) -> [String; 2] {
        let energy = analysis.energy.as_ref();
        match self {
            Self::Energy => food::energy(energy, sign),
            Self::LeftOpen => {
                let ends = energy.and_then(|energy| food::energy_left_open(energy, sign));
                [String::new(), ends.unwrap_or_default()]
            }
            Self::Sweetness => food::sweetness(analysis.sweetness.as_ref(), sign),
        }
    }
}

pub(super) fn food_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let pin = scene.pin.map(|pin| &pin.analysis);
    let has_open = |analysis: &Analysis| {
        analysis.energy.as_ref().is_some_and(|energy| food::energy_left_open(energy, sign).is_some())
    };
    let mut shown = vec![Row::Energy];
    if has_open(scene.analysis) || pin.is_some_and(|pin| has_open(pin)) {
        shown.push(Row::LeftOpen);
    }
    shown.push(Row::Sweetness);
    let rows: Vec<FigureRow> = shown
        .iter()
        .map(|row| {
            let figures = FigureRow::new(row.words(), row.figures(scene.analysis, sign));
            match pin {
                Some(pin) => figures.pinned(row.figures(pin, sign)),
                None => figures,
            }
        })
        .collect();
    figure_rows_ui(ui, &rows, |place| match shown.get(place) {
        Some(Row::Sweetness) => explanations::sweetness(scene, sign),
        Some(Row::LeftOpen) => explanations::energy_left_open(scene, sign),
        _ => explanations::energy(scene, sign),
    });
}
