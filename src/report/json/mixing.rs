//! The temperature of the mix in the JSON report.

use serde::Serialize;

use crate::analysis::finding::WaySubject;
use crate::analysis::heat::Fat;
use crate::analysis::mixing::{self, MixingState, Needed};
use crate::analysis::remedy::Names;
use crate::number::DecimalSign;
use crate::recipe::Recipe;
use crate::report::words;

#[derive(Serialize)]
pub(super) struct Mixing {
    celsius: f64,
    uncertainty_k: f64,
    /// With what melts at once, and no sugar dissolved.
    at_once_c: f64,
    after_dissolving_c: f64,
    /// If nothing melted and nothing dissolved.
    without_melting_c: f64,
    by_melting_k: f64,
    by_dissolving_k: f64,
    by_stirring_k: f64,
    dissolved_sugar_g: f64,
    crystals_before_g: f64,
    crystals_left_g: f64,
    cocoa_butter_crystals_before_g: f64,
    cocoa_butter_crystals_left_g: f64,
    lines_without_temperature: usize,
    wanted_c: Option<f64>,
    ways: Option<Vec<Way>>,
    /// Every line by itself, in the order of the sheet.
    lines: Option<Vec<Way>>,
}

/// One change that would bring the mix to its wanted end.
#[derive(Serialize)]
struct Way {
    ingredients: Vec<String>,
    now_c: f64,
    start_c: Option<f64>,
    is_solid: Option<bool>,
    melt_first_percent: Option<f64>,
    melt_first_g: Option<f64>,
    melt_at_c: Option<f64>,
    rest_at_c: Option<f64>,
    /// The same in words, or why there is no such start.
    text: String,
}

impl Mixing {
    pub(super) fn new(recipe: &Recipe, mixing: &MixingState) -> Self {
        let (before, left) = mixing.all_crystals();
        let names = Names::of(recipe);
        let ways_of = |ways: &[mixing::Way]| -> Vec<Way> {
            ways.iter().map(|way| Way::new(recipe, &WaySubject::of(recipe, &names, way))).collect()
        };
        let wanted = mixing.wanted.as_ref();
        Self {
            celsius: mixing.end.0,
            uncertainty_k: mixing.uncertainty.0,
            at_once_c: mixing.mixed.at_once.temperature.0,
            after_dissolving_c: mixing.mixed.after_dissolving.temperature.0,
            without_melting_c: mixing.mixed.sensible_only.0,
            by_melting_k: mixing.mixed.by_melting().0,
            by_dissolving_k: mixing.mixed.by_dissolving().0,
            by_stirring_k: mixing.by_stirring.0,
            dissolved_sugar_g: mixing.mixed.after_dissolving.dissolved.0,
            crystals_before_g: before.0,
            crystals_left_g: left.0,
            cocoa_butter_crystals_before_g: mixing.crystals_before[Fat::CocoaButter as usize].0,
            cocoa_butter_crystals_left_g: mixing.crystals_left(Fat::CocoaButter).0,
            lines_without_temperature: mixing.unsaid,
            wanted_c: wanted.map(|wanted| wanted.at.0),
            ways: wanted.map(|wanted| ways_of(&wanted.ways)),
            lines: wanted.map(|wanted| ways_of(&wanted.lines)),
        }
    }
}

impl Way {
    fn new(recipe: &Recipe, way: &WaySubject) -> Self {
        let of_line = |id: &crate::recipe::LineId| Some(recipe.line(*id)?.ingredient.id.clone());
        let (start, is_solid, first) = match way.needed {
            Ok(Needed::Solid(at)) => (Some(at), Some(true), None),
            Ok(Needed::Melted(at)) => (Some(at), Some(false), None),
            Ok(Needed::MeltFirst { share, grams, melted_at, rest_at }) => {
                (None, None, Some((share, grams, melted_at, rest_at)))
            }
            Err(_) => (None, None, None),
        };
        Self {
            ingredients: way.lines.iter().filter_map(of_line).collect(),
            now_c: way.start.0,
            start_c: start.map(|at| at.0),
            is_solid,
            melt_first_percent: first.map(|(share, ..)| share.to_percent()),
            melt_first_g: first.map(|(_, grams, ..)| grams.0),
            melt_at_c: first.map(|(.., melted_at, _)| melted_at.0),
            rest_at_c: first.map(|(.., rest_at)| rest_at.0),
            text: words::way(way, DecimalSign::Point),
        }
    }
}
