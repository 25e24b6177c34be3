//! Where the mass stands against limits of growth and two food codes. Never a date, and never a verdict.

use egui::{Id, Ui};

use crate::analysis::water::keeping::{GROWTH_LIMITS, Handling, LOW_ACID_LIMIT};
use crate::analysis::water::state::{Water, WaterState, judged};
use crate::document::Edit;
use crate::number::{DecimalSign, fixed, shortest, with_sign};
use crate::recipe::Ph;
use crate::report::words;
use crate::ui::explanations::water as explanations;
use crate::ui::panels::field::{number_with_unit, typed_into, unless_empty};
use crate::ui::theme;
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::{Card, FigureRow, NumberCell, explain_at_rest, figure_rows_ui, ghost_label};
use crate::units::WaterActivity;

/// A row of the card.
#[derive(Clone, Copy)]
enum Row {
    Growth(usize),
    LowAcid,
    FoodCode(Handling),
    Listeria,
}

impl Row {
    fn all() -> impl Iterator<Item = Self> {
        (0..GROWTH_LIMITS.len()).map(Self::Growth).chain([
            Self::LowAcid,
            Self::FoodCode(Handling::Open),
            Self::FoodCode(Handling::HeatedAndPackaged),
            Self::Listeria,
        ])
    }

    fn name(self, sign: DecimalSign) -> String {
        let two = |activity: WaterActivity| fixed(activity.0, 2, sign);
        match self {
            Self::Growth(place) => GROWTH_LIMITS.get(place).map_or_else(String::new, |limit| {
                format!("{} {}", two(limit.activity), with_sign(limit.in_full, sign))
            }),
            Self::LowAcid => format!("{} US rules for sealed packs that keep unchilled", two(LOW_ACID_LIMIT)),
            Self::FoodCode(Handling::Open) => "US Food Code, handled open (table B)".to_owned(),
            Self::FoodCode(Handling::HeatedAndPackaged) => "US Food Code, heated and then packed (table A)".to_owned(),
            Self::Listeria => "Listeria, Regulation (EC) 2073/2005".to_owned(),
        }
    }

    fn verdict(self, high: WaterActivity, ph: Option<f64>) -> &'static str {
        match self {
            Self::Growth(place) => GROWTH_LIMITS.get(place).map_or("", |limit| words::growth_verdict(high, limit)),
            Self::LowAcid => words::low_acid_verdict(high),
            Self::FoodCode(handling) => words::food_code_verdict(handling, high, ph),
            Self::Listeria => words::listeria_verdict(high, ph),
        }
    }
}

pub(super) fn keeping_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, water: &Water, actions: &mut Vec<Action>) {
    let high = water.judged();
    let ph = scene.document.recipe.ph.map(Ph::value);
    let ph_before = scene.pin.and_then(|pin| pin.document.recipe.ph).map(Ph::value);
    let before = scene.pin.map(|pin| &pin.analysis.water);
    let rows: Vec<FigureRow> = Row::all()
        .map(|row| {
            let shown = FigureRow::new(row.name(sign), [row.verdict(high, ph).to_owned()]);
            match before {
                Some(before) => {
                    let none = if matches!(before, WaterState::NoWater) { "none" } else { "not known" };
                    shown.pinned([before
                        .high()
                        .map(judged)
                        .map_or(none, |high| row.verdict(high, ph_before))
                        .to_owned()])
                }
                None => shown,
            }
        })
        .collect();
    let subtitle = format!("the upper edge of the band counts: {}", fixed(high.0, 2, sign));
    Card::new().title("Keeping").subtitle(&subtitle).ui(ui, |ui| {
        ph_ui(ui, scene, sign, actions);
        figure_rows_ui(ui, &rows, |place| match Row::all().nth(place) {
            Some(Row::FoodCode(handling)) => explanations::food_code(handling, scene),
            Some(Row::Listeria) => explanations::listeria(scene, sign),
            Some(Row::LowAcid) => explanations::low_acid(scene),
            Some(Row::Growth(place)) => explanations::growth(place, scene, sign),
            None => explanations::activity(scene, sign),
        });
        ui.label(theme::quiet(ui, format!("{} {}", words::WHAT_COUNTS, words::WHO_DECIDES)));
    });
}

/// The field of the measured pH; empty where it is not known.
fn ph_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, actions: &mut Vec<Action>) {
    /// Digits that a meter shows.
    const DECIMALS: u32 = 2;
    ui.horizontal(|ui| {
        let ph = scene.document.recipe.ph;
        ui.label("measured pH");
        let shown = ph.map_or_else(String::new, |ph| shortest(ph.value(), DECIMALS, sign));
        let parse = |text: &str| {
            unless_empty(text, |text| {
                let value = number_with_unit(text, &[])?;
                Ph::new(value).map_err(|error| error.to_string())
            })
        };
        let output = NumberCell::new(Id::unique("measured pH"), "measured pH of the mass", &shown, &parse)
            .width(64.0)
            .framed()
            .ui(ui);
        typed_into(output.event, actions, Edit::SetPh);
        explain_at_rest(&output.response, explanations::ph);
        if ph.is_none() {
            ui.label(theme::quiet(ui, "not known"));
        }
        if let Some(pin) = scene.pin {
            let before = pin.document.recipe.ph;
            ghost_label(ui, &before.map_or_else(|| "–".to_owned(), |ph| shortest(ph.value(), DECIMALS, sign)));
        }
    });
}
