//! The plots of the readings, built from results.

mod dilution;
mod setting;
mod water;

pub use dilution::{DilutionCurves, dilution_curves, dilution_plot};
pub use setting::{cooling_plot, setting_plot};
pub use water::{DryingCurve, SorptionIsotherm, drying_curve, drying_plot, sorption_isotherm, sorption_plot};

use super::figure::{AxisRange, Bar, BarPart, Bars, Curve, Figure, Level, Mark, Region, Role, Rule, Side};
use super::hue::Hue;
use crate::analysis::Analysis;
use crate::analysis::emulsion::{JAMMING, RoomForFat, jamming_fat_share};
use crate::analysis::fat::{FatGrams, FatPhase};
use crate::analysis::fat_crystals::{CURVE_END, FatCrystals};
use crate::analysis::parts::{Group, Parts};
use crate::analysis::reading::Reading;
use crate::analysis::usual::{Share, UsualRange};
use crate::number::{DecimalSign, fixed, grams};
use crate::recipe::{CocoaButter, Recipe};
use crate::units::{Celsius, Grams, MassFraction};

/// The plots that there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PlotName {
    /// What each line brings, as bars.
    Composition,
    /// Fat against water.
    FatWaterMap,
    /// Water activity against water content.
    Drying,
    /// Water content against water activity.
    Sorption,
    /// Solid fat against temperature.
    SolidFat,
    /// The form V limit against what dilutes the cocoa butter.
    Dilution,
    /// Temperature against time.
    Cooling,
    /// Solid fat against time.
    Setting,
}

impl PlotName {
    /// The first plot of a reading; none of one that has no plot of its own.
    #[must_use]
    pub fn of(reading: Reading) -> Option<Self> {
        Some(match reading {
            Reading::MakeUp => Self::Composition,
            Reading::Emulsion => Self::FatWaterMap,
            Reading::Water => Self::Drying,
            Reading::FatCrystals => Self::SolidFat,
            Reading::Setting => Self::Cooling,
            Reading::Targets => return None,
        })
    }
}

/// A line at the temperature of the thermometer across a plot of temperatures; `None` outside of its axis.
fn thermometer_level(at: Celsius, y: &AxisRange, sign: DecimalSign) -> Option<Level> {
    (y.from..=y.to).contains(&at.0).then(|| Level {
        label: format!("{} °C", fixed(at.0, 1, sign)),
        at: at.0,
        is_label_left: true,
        is_label_below: false,
    })
}

/// Solid fat against temperature, of cocoa butter alone, for comparison.
#[must_use]
pub fn cocoa_butter_alone(cocoa_butter: CocoaButter) -> Curve {
    let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
    let temperatures: Vec<Celsius> = (0..=CURVE_END).map(|degrees| Celsius(f64::from(degrees))).collect();
    let points = FatPhase::new(&grams, cocoa_butter).map_or_else(
        |_| Vec::new(),
        |phase| {
            let solids = phase.solid_fat_curve(temperatures.iter().copied());
            temperatures.iter().zip(solids).map(|(at, solid)| [at.0, solid.total().to_percent()]).collect()
        },
    );
    Curve::new("cocoa butter alone", Role::Reference, points)
}

/// Solid fat against temperature with its uncertainty, windows, limit, the pinned state and the value at the
/// thermometer.
#[must_use]
pub fn solid_fat(analysis: &Analysis, pinned: Option<&Analysis>, alone: &Curve, sign: DecimalSign) -> Option<Figure> {
    let fat = analysis.fat.as_ref().ok()?;
    let x = AxisRange { label: "temperature, °C", from: 0.0, to: f64::from(CURVE_END), step: 5.0 };
    let y = AxisRange { label: "solid fat, % of fat", from: 0.0, to: 100.0, step: 25.0 };
    let mut regions = Vec::new();
    if let Some(before) = pinned.and_then(|pinned| pinned.seeding.as_ref()) {
        let (window, label) = (before.window, "seeding window, pinned");
        regions.push(Region::band(label, Role::Pinned, window.min.0, window.max.0, &y));
        if let Some(unmixed) = before.second_window() {
            let label = "window while globules are whole, pinned";
            regions.push(Region::band(label, Role::Pinned, unmixed.min.0, unmixed.max.0, &y));
        }
    }
    if let Some(seeding) = &analysis.seeding {
        if let Some(unmixed) = seeding.second_window() {
            let label = "window while globules are whole";
            regions.push(Region::band(label, Role::SecondWindow, unmixed.min.0, unmixed.max.0, &y));
        }
        regions.push(Region::band("seeding window", Role::Window, seeding.window.min.0, seeding.window.max.0, &y));
    }
    regions.push(uncertainty(fat));
    let mut curves = vec![alone.clone()];
    let before = pinned.and_then(|pinned| Some((pinned, pinned.fat.as_ref().ok()?)));
    if let Some((_, before)) = before {
        curves.push(Curve::new("pinned", Role::Pinned, curve_points(before)));
    }
    curves.push(Curve::new("this mass", Role::Now, curve_points(fat)));
    let rule = |label: String, role, limit: Option<Celsius>| limit.map(|limit| Rule { label, role, at: limit.0 });
    let limit = fat.limits.form_v.map_or_else(String::new, |limit| format!("form V limit {}", fixed(limit.0, 1, sign)));
    let rules = [
        before.and_then(|(_, before)| rule(String::new(), Role::Pinned, before.limits.form_v)),
        rule(limit, Role::Limit, fat.limits.form_v),
    ];
    let place = |at: Celsius, fat: &FatCrystals| [at.0, fat.solid_at.total().to_percent()];
    let here = place(analysis.at, fat);
    let (solid, at) = (fixed(here[1], 0, sign), fixed(here[0], 1, sign));
    let (label, in_words) = (format!("{solid} % at {at} °C"), format!("{solid} % solid at {at} °C"));
    let mut marks = Vec::new();
    if let Some((pinned, before)) = before {
        let place = place(pinned.at, before);
        marks.push(Mark { label: String::new(), role: Role::Pinned, at: place, side: Side::LeftBelow });
    }
    marks.push(Mark { label, role: Role::Now, at: here, side: Side::LeftBelow });
    let rules = rules.into_iter().flatten().collect();
    Some(Figure { hue: Hue::CocoaButter, x, y, regions, curves, rules, levels: Vec::new(), marks, in_words })
}

/// One standard deviation on either side of the curve, where it is known.
fn uncertainty(fat: &FatCrystals) -> Region {
    let points = fat.curve.iter().filter_map(|point| {
        let (solid, points) = (point.solid.total().to_percent(), fat.solid_fat_uncertainty_points_at(point.celsius)?);
        Some((point.celsius.0, (solid - points).max(0.0), (solid + points).min(100.0)))
    });
    Region::new("one standard deviation", Role::Uncertainty, points)
}

fn curve_points(fat: &FatCrystals) -> impl Iterator<Item = [f64; 2]> + '_ {
    fat.curve.iter().map(|point| [point.celsius.0, point.solid.total().to_percent()])
}

/// Where the region ends in which oil-in-water holds, at one share of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Percent water.
    pub water: f64,
    /// Percent fat up to which it holds.
    pub fat: f64,
    /// Droplets jam there; otherwise there is simply no more room for fat beside the water.
    pub is_jamming: bool,
}

/// The edge of the region in which oil-in-water holds, for this recipe's solids, from 2 to 98 % water.
///
/// Left out is the water with which particles jam without any fat.
#[must_use]
pub fn jamming_edge(bowl: &Parts) -> Vec<Edge> {
    (2_u8..=98)
        .filter_map(|percent| {
            let water = f64::from(percent);
            let edge = |fat, is_jamming| Some(Edge { water, fat, is_jamming });
            match jamming_fat_share(bowl, MassFraction::from_percent(water))? {
                RoomForFat::UpTo(fat) => edge(fat.to_percent(), true),
                RoomForFat::Any => edge(100.0 - water, false),
                RoomForFat::None => None,
            }
        })
        .collect()
}

/// Fat against water, with the region where oil-in-water holds, the usual ranges, this recipe and the pinned state.
#[must_use]
pub fn fat_water_map(
    analysis: &Analysis,
    pinned: Option<(&Analysis, &[Edge])>,
    edge: &[Edge],
    sign: DecimalSign,
) -> Option<Figure> {
    let here = place(analysis)?;
    analysis.emulsion.emulsion()?;
    let there = pinned.and_then(|(pinned, _)| place(pinned));
    let (x, y) = axes(here, there);
    let in_width =
        |edge: &[Edge]| edge.iter().copied().filter(|edge| (x.from..=x.to).contains(&edge.water)).collect::<Vec<_>>();
    let line = |edge: &[Edge]| {
        let is_seen = |edge: &Edge| edge.is_jamming && (y.from..=y.to).contains(&edge.fat);
        edge.iter().filter(|edge| is_seen(edge)).map(|edge| [edge.water, edge.fat]).collect::<Vec<_>>()
    };
    let inside = in_width(edge);
    let mut regions = vec![Region::new(
        "oil-in-water holds",
        Role::Window,
        inside.iter().map(|edge| (edge.water, y.from, edge.fat.clamp(y.from, y.to))),
    )];
    regions.extend(usual_region(&analysis.usual));
    let mut curves = Vec::new();
    if let Some((_, before)) = pinned {
        curves.push(Curve::new("droplets jam, pinned", Role::Pinned, line(&in_width(before))));
    }
    let label = format!("dispersed share {}: droplets jam", fixed(JAMMING.0, 2, sign));
    curves.push(Curve::new(label, Role::Limit, line(&inside)));
    let mut marks = Vec::new();
    if let Some(there) = there {
        // Above, away from the label of now and from the usual ranges.
        let side = Side::RightAbove;
        marks.push(Mark { label: "pinned".to_owned(), role: Role::Pinned, at: there, side });
    }
    let side = if there.is_some_and(|there| there[0] > here[0]) { Side::LeftBelow } else { Side::RightBelow };
    marks.push(Mark { label: "this mass".to_owned(), role: Role::Now, at: here, side });
    let in_words = format!("{} % water, {} % fat", fixed(here[0], 1, sign), fixed(here[1], 1, sign));
    let (rules, levels) = (Vec::new(), Vec::new());
    Some(Figure { hue: Hue::CocoaButter, x, y, regions, curves, rules, levels, marks, in_words })
}

fn place(analysis: &Analysis) -> Option<[f64; 2]> {
    let bowl = &analysis.make_up.bowl;
    Some([bowl.group_share(Group::Water)?.to_percent(), bowl.group_share(Group::TotalFat)?.to_percent()])
}

/// Axes that hold both points with room around them, on round figures.
fn axes(here: [f64; 2], there: Option<[f64; 2]>) -> (AxisRange, AxisRange) {
    let there = there.unwrap_or(here);
    let span = |axis: usize, usual: [f64; 2]| {
        let low = here[axis].min(there[axis]).min(usual[0] + 5.0) - 5.0;
        let high = here[axis].max(there[axis]).max(usual[1] - 5.0) + 5.0;
        ((low / 5.0).floor() * 5.0, (high / 5.0).ceil() * 5.0)
    };
    let (x_from, x_to) = span(0, [10.0, 35.0]);
    let (y_from, y_to) = span(1, [20.0, 60.0]);
    let step = |from: f64, to: f64| if to - from > 40.0 { 10.0 } else { 5.0 };
    (
        AxisRange {
            label: "water, % of the mass",
            from: x_from.max(0.0),
            to: x_to.min(100.0),
            step: step(x_from, x_to),
        },
        AxisRange { label: "fat, % of the mass", from: y_from.max(0.0), to: y_to.min(100.0), step: 10.0 },
    )
}

/// The usual ranges of water and fat as a rectangle, where the use has both.
fn usual_region(usual: &[UsualRange]) -> Option<Region> {
    let of = |group| usual.iter().find(|range| range.of == Share::Group(group));
    let (water, fat) = (of(Group::Water)?, of(Group::TotalFat)?);
    Some(Region::rectangle("usual", Role::Usual, [water.low, water.high], [fat.low, fat.high]))
}

/// What each line brings, as bars; `None` if nothing is weighed.
///
/// `pinned` has for each line what it weighed in the pinned state, if one is pinned.
#[must_use]
pub fn composition_by_line(
    recipe: &Recipe,
    analysis: &Analysis,
    pinned: Option<&[Option<Grams>]>,
    sign: DecimalSign,
) -> Option<Bars> {
    let make_up = &analysis.make_up;
    if make_up.weighed.0 <= 0.0 {
        return None;
    }
    let in_grams = |part: Grams| format!("{} g", grams(part.0, sign));
    let mut bars = Vec::new();
    for (place, (line, brought)) in recipe.lines.iter().zip(&make_up.lines).enumerate() {
        let total = brought.parts.total();
        let before = pinned.map(|pinned| pinned.get(place).copied().flatten());
        let was = before.map(|before| format!(", pinned {}", before.map_or_else(|| "–".to_owned(), in_grams)));
        let unknown: Vec<&str> =
            Hue::ALL.into_iter().filter(|hue| hue.grams(&brought.parts).is_none()).map(Hue::words).collect();
        let open = (!unknown.is_empty()).then(|| format!(" · not known: {}", unknown.join(", ")));
        let figure = in_grams(total) + &was.unwrap_or_default() + &open.unwrap_or_default();
        let parts = Hue::ALL
            .into_iter()
            .filter_map(|hue| Some((hue, hue.grams(&brought.parts)?)))
            .filter(|(_, part)| part.0 > 0.0)
            .map(|(hue, part)| BarPart { hue, value: part.0, figure: grams(part.0, sign) })
            .collect();
        let pinned = before.flatten().map(|before| before.0);
        bars.push(Bar { label: line.ingredient.name.clone(), figure, total: total.0, parts, pinned });
    }
    let most = bars.iter().flat_map(|bar| [Some(bar.total), bar.pinned]).flatten().fold(0.0, f64::max);
    let note = if make_up.evaporated.0 > 0.0 {
        format!("before evaporation: {} of the water leaves", in_grams(make_up.evaporated))
    } else {
        String::new()
    };
    let words = |bar: &Bar| {
        let parts: Vec<String> =
            bar.parts.iter().map(|part| format!("{} {} g", part.hue.words(), part.figure)).collect();
        format!("{} {} ({})", bar.label, bar.figure, parts.join(", "))
    };
    let in_words = bars.iter().map(words).collect::<Vec<_>>().join("; ");
    Some(Bars { axis: AxisRange::from_zero("grams in the batch", most), bars, note, in_words })
}
