//! How firm the mass is at which temperature, how much it shrinks, when water condenses on it.

use egui::Ui;

use crate::analysis::flow::{Thickness, flow};
use crate::analysis::texture::{
    Contraction, Firmness, TEMPERATURES, condensation_from, contraction_of, firmness, relative_firmness, usual_crystals,
};
use crate::analysis::{Analysis, ROOM};
use crate::number::{DecimalSign, fixed, shortest};
use crate::report::words;
use crate::ui::explanations::texture as explanations;
use crate::ui::theme;
use crate::ui::view::Scene;
use crate::ui::widgets::{Card, FigureRow, figure_rows_ui};
use crate::units::{Celsius, MassFraction};

/// A row of the card.
#[derive(Clone, Copy)]
enum Row {
    Firmness(usize),
    AgainstPin,
    Shrinks,
    Flow,
    FlowAgainstPin,
    Condenses,
}

/// The refrigerator and the room between which condensation is told.
const COLD: Celsius = TEMPERATURES[0];

/// What the rows of one state are made of, looked up once.
struct Texture<'a> {
    analysis: &'a Analysis,
    firmness: Vec<Firmness>,
}

impl<'a> Texture<'a> {
    fn of(analysis: &'a Analysis) -> Option<Self> {
        let fat = analysis.fat.as_ref().ok()?;
        Some(Self { analysis, firmness: firmness(fat, analysis.make_up.bowl.total()) })
    }

    fn solid_in_room(&self) -> Option<MassFraction> {
        self.firmness.iter().find(|firmness| firmness.at == ROOM).map(|firmness| firmness.of_fat)
    }
}

pub(super) fn texture_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let Some(now) = Texture::of(scene.analysis) else { return };
    let before = scene.pin.map(|pin| Texture::of(&pin.analysis));
    let rows: Vec<(Row, FigureRow)> = (0..TEMPERATURES.len())
        .map(Row::Firmness)
        .chain(before.as_ref().map(|_| Row::AgainstPin))
        .chain([Row::Shrinks, Row::Flow])
        .chain(before.as_ref().map(|_| Row::FlowAgainstPin))
        .chain([Row::Condenses])
        .filter_map(|row| {
            let figures = figures(row, &now, before.as_ref().and_then(Option::as_ref), sign)?;
            let before_now = before.as_ref().and_then(Option::as_ref);
            let shown = FigureRow::new(name(row, &now, before_now, sign), figures);
            let is_compared = !matches!(row, Row::AgainstPin | Row::FlowAgainstPin | Row::Condenses);
            let pinned = before.as_ref().filter(|_| is_compared).map(|before| {
                let figures = before.as_ref().and_then(|before| self::figures(row, before, None, sign));
                figures.unwrap_or_else(|| vec!["none".to_owned()])
            });
            Some((
                row,
                match pinned {
                    Some(pinned) => shown.pinned(pinned),
                    None => shown,
                },
            ))
        })
        .collect();
    let shown: Vec<FigureRow> = rows.iter().map(|(_, row)| row.clone()).collect();
    Card::new().title("Texture").subtitle("once it has set: solid fat, and fat crystals of the mass").ui(ui, |ui| {
        figure_rows_ui(ui, &shown, |place| match rows.get(place).map(|(row, _)| *row) {
            Some(Row::AgainstPin) => explanations::relative_firmness(scene, sign),
            Some(Row::Shrinks) => explanations::contraction(scene),
            Some(Row::Flow) => explanations::flow(scene, sign),
            Some(Row::FlowAgainstPin) => explanations::flow_against_pin(scene, sign),
            Some(Row::Condenses) => explanations::condensation(sign),
            Some(Row::Firmness(_)) | None => explanations::firmness(scene, sign),
        });
        let recipe = &scene.document.recipe;
        if let Some(usual) = usual_crystals(recipe.kind, recipe.intended_use) {
            let words = format!(
                "Usual at {} °C {}: {} of the mass crystals (common practice). Sugar, cocoa and water firm a filling \
                 as well.",
                shortest(ROOM.0, 0, sign),
                recipe.intended_use.map_or_else(String::new, |intended_use| format!("for {}", intended_use.words())),
                words::usual_crystals(usual, sign)
            );
            ui.label(theme::quiet(ui, words));
        }
    });
}

fn name(row: Row, now: &Texture<'_>, pinned: Option<&Texture<'_>>, sign: DecimalSign) -> String {
    let degrees = |celsius: Celsius| shortest(celsius.0, 0, sign);
    match row {
        Row::Firmness(place) => {
            TEMPERATURES.get(place).map_or_else(String::new, |at| format!("at {} °C", degrees(*at)))
        }
        Row::AgainstPin => format!("firmness against the pin, {} °C", degrees(ROOM)),
        Row::Shrinks => format!("shrinks on setting, {} °C", degrees(ROOM)),
        Row::Flow => "solids in it, melted".to_owned(),
        Row::FlowAgainstPin => {
            let thickness = against_pin(now, pinned).map_or("", |[likely, ..]| words::thickness(Thickness::of(likely)));
            format!("melted: {thickness} than the pin")
        }
        Row::Condenses => format!("wet from {} °C in {} °C", degrees(COLD), degrees(ROOM)),
    }
}

/// How many times as thick as the pinned mass it flows: likely, least, most.
fn against_pin(now: &Texture<'_>, pinned: Option<&Texture<'_>>) -> Option<[f64; 3]> {
    flow(now.analysis)?.against(flow(pinned?.analysis)?)
}

fn figures(row: Row, now: &Texture<'_>, pinned: Option<&Texture<'_>>, sign: DecimalSign) -> Option<Vec<String>> {
    let percent = |share: MassFraction| fixed(share.to_percent(), 1, sign);
    match row {
        Row::Firmness(place) => {
            let found = now.firmness.get(place)?;
            Some(vec![format!("{} % of fat", percent(found.of_fat)), format!("{} % of mass", percent(found.of_mass))])
        }
        Row::AgainstPin => {
            let [likely, least, most] = relative_firmness(now.solid_in_room()?, pinned?.solid_in_room()?)?;
            let two = |times: f64| fixed(times, 2, sign);
            Some(vec![format!("{} times", two(likely)), format!("{} to {}", two(least), two(most))])
        }
        Row::Shrinks => {
            let Contraction { volume, length } = contraction_of(now.analysis)?;
            Some(vec![
                format!("{} % of volume", fixed(100.0 * volume, 1, sign)),
                format!("{} % of length", fixed(100.0 * length, 1, sign)),
            ])
        }
        Row::Flow => {
            let flow = flow(now.analysis)?;
            let volume = format!("{} % of volume", percent(MassFraction(flow.solids)));
            let [likely, ..] = flow.to_fat();
            let times = likely.map_or_else(
                || "does not flow".to_owned(),
                |times| format!("{} × its fat", words::times_as_thick(times, sign)),
            );
            Some(vec![volume, times])
        }
        Row::FlowAgainstPin => {
            let [likely, least, most] = against_pin(now, pinned)?;
            let range = if most.is_finite() {
                format!("{} to {}", fixed(least, 2, sign), fixed(most, 2, sign))
            } else {
                format!("{} and more", fixed(least, 2, sign))
            };
            Some(vec![format!("{} times", fixed(likely, 2, sign)), range])
        }
        Row::Condenses => {
            let humidity = condensation_from(COLD, ROOM);
            Some(vec![format!("over {} % humidity", fixed(100.0 * humidity, 0, sign))])
        }
    }
}
