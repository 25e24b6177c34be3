//! Where the mass stands against limits of growth and two food codes. Never a date, and never a verdict.

use egui::Ui;

use crate::analysis::water::keeping::{GROWTH_LIMITS, Handling, LOW_ACID_LIMIT};
use crate::analysis::water::state::Water;
use crate::number::{DecimalSign, fixed};
use crate::report::words;
use crate::ui::explanations::water as explanations;
use crate::ui::theme;
use crate::ui::view::Scene;
use crate::ui::widgets::{Card, FigureRow, figure_rows_ui};
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
            Self::Growth(place) => GROWTH_LIMITS
                .get(place)
                .map_or_else(String::new, |limit| format!("{} {}", two(limit.activity), limit.label)),
            Self::LowAcid => format!("{} US rules for sealed packs that keep unchilled", two(LOW_ACID_LIMIT)),
            Self::FoodCode(Handling::Open) => "US Food Code, handled open (table B)".to_owned(),
            Self::FoodCode(Handling::HeatedAndPackaged) => "US Food Code, heated and then packed (table A)".to_owned(),
            Self::Listeria => "Listeria, Regulation (EC) 2073/2005".to_owned(),
        }
    }

    fn verdict(self, high: WaterActivity) -> &'static str {
        match self {
            Self::Growth(place) => GROWTH_LIMITS.get(place).map_or("", |limit| words::growth_verdict(high, limit)),
            Self::LowAcid => words::low_acid_verdict(high),
            Self::FoodCode(handling) => words::food_code_verdict(handling, high, None),
            Self::Listeria => words::listeria_verdict(high, None),
        }
    }
}

pub(super) fn keeping_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, water: &Water) {
    let high = water.high();
    let before = scene.pin.map(|pin| pin.analysis.water.high());
    let rows: Vec<FigureRow> = Row::all()
        .map(|row| {
            let shown = FigureRow::new(row.name(sign), [row.verdict(high).to_owned()]);
            match before {
                Some(before) => shown.pinned([before.map_or("not known", |high| row.verdict(high)).to_owned()]),
                None => shown,
            }
        })
        .collect();
    let subtitle = format!("the upper edge of the band counts: {}", fixed(high.0, 2, sign));
    Card::new().title("Keeping").subtitle(&subtitle).ui(ui, |ui| {
        figure_rows_ui(ui, &rows, |place| match Row::all().nth(place) {
            Some(Row::FoodCode(handling)) => explanations::food_code(handling, scene),
            Some(Row::Listeria) => explanations::listeria(scene, sign),
            Some(Row::LowAcid) => explanations::low_acid(scene),
            Some(Row::Growth(place)) => explanations::growth(place, scene, sign),
            None => explanations::activity(scene, sign),
        });
        ui.label(theme::quiet(ui, words::WHO_DECIDES));
    });
}
