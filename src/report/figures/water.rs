//! The plots of the reading Water: what happens as the mass dries or gets damp.

use crate::analysis::Analysis;
use crate::analysis::water::equilibrium::{Conditions, Sucrose};
use crate::analysis::water::isotherm::{self, Point};
use crate::analysis::water::keeping::GROWTH_LIMITS;
use crate::analysis::water::state::{DRY, OUTSIDE, ROOM, Water};
use crate::number::{DecimalSign, fixed, with_sign};
use crate::recipe::Recipe;
use crate::report::figure::{AxisRange, Curve, Figure, Level, Mark, Region, Role, Side};
use crate::report::hue::Hue;
use crate::report::words::{water_activity, water_activity_of};
use crate::units::{Grams, MassFraction, WaterActivity};

/// How water activity goes with the water content of a mass.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DryingCurve {
    /// Percent water of the mass, and the water activity there.
    pub points: Vec<[f64; 2]>,
    /// The same while all sugar stays dissolved; empty where it is the same.
    pub clear: Vec<[f64; 2]>,
    /// From which percentage of water on all sucrose is dissolved, where that lies within the curve.
    pub dissolves_from: Option<[f64; 2]>,
}

/// How water content goes with water activity.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SorptionIsotherm {
    /// Water activity, and all water in g per 100 g of dry mass.
    pub all: Vec<[f64; 2]>,
    /// The part of it that solids hold.
    pub held: Vec<[f64; 2]>,
}

/// From how much of its water the curve begins, and how much more it ends with.
const DRIER: f64 = 0.5;
const DAMPER: f64 = 1.7;

/// Water activity against water content, from half of the water to seven tenths more; `None` without a water activity.
///
/// Its dry mass, fat and all else, stays as it is.
#[must_use]
pub fn drying_curve(recipe: &Recipe, analysis: &Analysis) -> Option<DryingCurve> {
    let water = analysis.water.water()?;
    let total = analysis.make_up.bowl.total();
    let dry = total - water.contents.water;
    if dry.0 <= 0.0 {
        return None;
    }
    let axis = water_axis(&[percent_of(water, total)]);
    let (from, to) = (in_grams(axis.from, dry), in_grams(axis.to, dry));
    let usual = Conditions::usual(ROOM);
    let points = isotherm::between(&water.contents, usual, from, to);
    let place = |point: &Point| [100.0 * point.water.0 / (dry + point.water).0, point.activity.0];
    let is_seen = |place: &[f64; 2]| place[1] >= LEAST_DRAWN;
    let dissolves_from = points.windows(2).find_map(|pair| match pair {
        [before, after] if before.undissolved_sucrose.0 > 0.0 && after.undissolved_sucrose.0 <= 0.0 => {
            Some(place(after))
        }
        _ => None,
    });
    let clear = water.clear.filter(|_| recipe.is_cooked()).map_or_else(Vec::new, |_| {
        let clear = Conditions { sucrose: Sucrose::AllDissolved, ..usual };
        let points = isotherm::between(&water.contents, clear, from, to);
        points.iter().map(place).filter(is_seen).collect()
    });
    Some(DryingCurve {
        points: points.iter().map(place).filter(is_seen).collect(),
        clear,
        dissolves_from: dissolves_from.filter(is_seen),
    })
}

/// Curves end here: further down nothing is known.
const LEAST_DRAWN: f64 = 0.40;

fn percent_of(water: &Water, total: Grams) -> f64 {
    (water.contents.water / total).to_percent()
}

/// The water that makes up so many percent of the mass.
fn in_grams(percent: f64, dry: Grams) -> Grams {
    let share = MassFraction::from_percent(percent).0;
    dry * (share / (1.0 - share))
}

/// An axis that holds these percentages of water with room around them, below 100.
fn water_axis(percentages: &[f64]) -> AxisRange {
    /// The curve ends here, unless the mass itself is wetter.
    const MOST_WATER: f64 = 96.0;
    let (low, high) = percentages.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), percent| {
        (low.min(DRIER * percent), high.max((DAMPER * percent).min(f64::midpoint(100.0, *percent))))
    });
    let axis = AxisRange::around("water, % of the mass", low, high);
    let wettest = percentages.iter().copied().fold(MOST_WATER, f64::max);
    AxisRange { to: axis.to.min(wettest), ..axis }
}

/// Water activity against water content, with its band, this recipe, the pinned state and limits of growth.
#[must_use]
pub fn drying_plot(
    analysis: &Analysis,
    pinned: Option<(&Analysis, &DryingCurve)>,
    curve: &DryingCurve,
    sign: DecimalSign,
) -> Option<Figure> {
    let water = analysis.water.water()?;
    let total = analysis.make_up.bowl.total();
    let here = [percent_of(water, total), water.rest.activity.0];
    let there = pinned.and_then(|(pinned, _)| {
        let water = pinned.water.water()?;
        Some([percent_of(water, pinned.make_up.bowl.total()), water.rest.activity.0])
    });
    let x = water_axis(&there.into_iter().chain([here]).map(|place| place[0]).collect::<Vec<_>>());
    let clear = water.clear.filter(|clear| !curve.clear.is_empty() && clear.0 >= LEAST_DRAWN);
    let clear = clear.map(|clear| [here[0], clear.0]);
    let lowest = there.into_iter().chain(clear).chain([here]).map(|place| place[1]).fold(OUTSIDE.0 + 0.02, f64::min);
    let y = AxisRange { label: "water activity", from: (10.0 * lowest - 0.2).floor() / 10.0, to: 1.0, step: 0.1 };
    let band = Region::new(
        "band of the model",
        Role::Uncertainty,
        curve.points.iter().map(|[percent, activity]| {
            let band = water.band_at(WaterActivity(*activity));
            (*percent, (activity - band).max(y.from), (activity + band).min(1.0))
        }),
    );
    let mut curves = Vec::new();
    if !curve.clear.is_empty() {
        curves.push(Curve::new("while all sugar is dissolved", Role::Reference, curve.clear.clone()));
    }
    if let Some((_, before)) = pinned {
        curves.push(Curve::new("pinned", Role::Pinned, before.points.clone()));
    }
    curves.push(Curve::new("this mass", Role::Now, curve.points.clone()));
    let label = format!("{} at {} % water", water_activity_of(water, sign), fixed(here[0], 1, sign));
    let mut marks = Vec::new();
    let mut taken = vec![];
    let (side, levels) = placed(levels(curve, &x, &y, sign), (here, &label), &x, &y);
    let now = Mark { label: label.clone(), role: Role::Now, at: here, side };
    taken.push(words_of_mark(&now, &x, &y));
    taken.extend(levels.iter().map(|level| words_of_level(level, &y)));
    let mut beside = |label: String, at: [f64; 2], side: Side| {
        let mark = Mark { label, role: Role::Reference, at, side };
        let words = words_of_mark(&mark, &x, &y);
        // Words that would lie over others are left out, the point stays.
        let is_free = !taken.iter().any(|other| overlap(other, &words));
        if is_free {
            taken.push(words);
            marks.push(mark);
        } else {
            marks.push(Mark { label: String::new(), ..mark });
        }
    };
    if let Some(at) = clear {
        beside(format!("{} while clear", water_activity(WaterActivity(at[1]), sign)), at, Side::LeftAbove);
    }
    if let Some(at) = curve.dissolves_from {
        beside("drier: some sugar stays undissolved".to_owned(), at, Side::RightBelow);
    }
    if let Some(at) = there {
        marks.push(Mark { label: String::new(), role: Role::Pinned, at, side: Side::LeftBelow });
    }
    marks.push(now);
    let in_words = format!("water activity {label}");
    Some(Figure { hue: Hue::Water, x, y, regions: vec![band], curves, rules: Vec::new(), levels, marks, in_words })
}

/// A place of words in shares of the axes: from left to right, from bottom to top.
type Place = [[f64; 2]; 2];

/// What a line of words takes of the height of a plot, and a letter of its width: rather too much, plots are of many sizes.
const WORDS: f64 = 0.075;
const LETTER: f64 = 0.019;
/// Between a mark and its words.
const GAP: f64 = 0.03;

fn width_of(words: &str) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a few letters")]
    let letters = words.chars().count() as f64;
    0.02 + LETTER * letters
}

fn overlap(one: &Place, other: &Place) -> bool {
    one.iter().zip(other).all(|([low, high], [from, to])| low < to && from < high)
}

fn words_of_level(level: &Level, y: &AxisRange) -> Place {
    let (at, width) = (y.share(level.at), width_of(&level.label));
    let across = if level.is_label_left { [0.0, width] } else { [1.0 - width, 1.0] };
    [across, if level.is_label_below { [at - WORDS, at] } else { [at, at + WORDS] }]
}

fn words_of_mark(mark: &Mark, x: &AxisRange, y: &AxisRange) -> Place {
    let (place, width) = (mark.label_place(x, y), width_of(&mark.label));
    let [across, up] = [x.share(mark.at[0]), y.share(mark.at[1])];
    [
        if place.is_left { [across - GAP - width, across - GAP] } else { [across + GAP, across + GAP + width] },
        if place.is_above { [up + GAP, up + GAP + WORDS] } else { [up - GAP - WORDS, up - GAP] },
    ]
}

/// On which side of the mark its words stand, and which words of levels go under their line, so that none lie over others.
fn placed(mut levels: Vec<Level>, (at, label): ([f64; 2], &str), x: &AxisRange, y: &AxisRange) -> (Side, Vec<Level>) {
    let words = |side| {
        let mark = Mark { label: label.to_owned(), role: Role::Now, at, side };
        words_of_mark(&mark, x, y)
    };
    let is_in_the_way = |level: &Level, side| overlap(&words_of_level(level, y), &words(side));
    let sides = [Side::RightBelow, Side::LeftAbove];
    let count = |side| levels.iter().filter(|level| is_in_the_way(level, side)).count();
    let side = if count(sides[1]) < count(sides[0]) { sides[1] } else { sides[0] };
    for level in &mut levels {
        if is_in_the_way(level, side) {
            level.is_label_below = true;
            if is_in_the_way(level, side) {
                level.is_label_below = false;
                level.is_label_left = !level.is_label_left;
            }
        }
    }
    (side, levels)
}

/// The limits of growth that the axis holds; their words stand where the curve leaves room.
fn levels(curve: &DryingCurve, x: &AxisRange, y: &AxisRange, sign: DecimalSign) -> Vec<Level> {
    /// From this share of the axis on there is room for words at the left of the curve.
    const ROOM_FOR_WORDS: f64 = 0.45;
    GROWTH_LIMITS
        .iter()
        .filter(|limit| limit.activity.0 > y.from - 1e-9)
        .map(|limit| {
            let crossed = curve.points.iter().find(|point| point[1] >= limit.activity.0);
            let is_label_left = crossed.is_none_or(|point| x.share(point[0]) > ROOM_FOR_WORDS);
            let label = format!("{} {}", fixed(limit.activity.0, 2, sign), with_sign(limit.label, sign));
            Level { label, at: limit.activity.0, is_label_left, is_label_below: false }
        })
        .collect()
}

/// How many times less and more water the isotherm is asked for, at least.
const TIMES: f64 = 12.0;
/// The wettest that an isotherm shows, unless the mass itself is wetter.
const WETTEST: f64 = 0.96;

/// The sorption isotherm of the whole mass; `None` without a water activity.
#[must_use]
pub fn sorption_isotherm(analysis: &Analysis) -> Option<SorptionIsotherm> {
    let water = analysis.water.water()?;
    let dry = analysis.make_up.bowl.total() - water.contents.water;
    if dry.0 <= 0.0 {
        return None;
    }
    let here = water.contents.water;
    let points = isotherm::by_factors(&water.contents, Conditions::usual(ROOM), here * (1.0 / TIMES), here * TIMES);
    let wettest = WETTEST.max(water.rest.activity.0 + 0.005);
    let is_seen = |point: &&Point| (DRY.0..=wettest).contains(&point.activity.0);
    let of = |grams: &dyn Fn(&Point) -> Grams| -> Vec<[f64; 2]> {
        points.iter().filter(is_seen).map(|point| [point.activity.0, 100.0 * (grams(point) / dry).0]).collect()
    };
    Some(SorptionIsotherm { all: of(&|point| point.water), held: of(&|point| point.held) })
}

/// Water content against water activity, with the part that solids hold.
#[must_use]
pub fn sorption_plot(
    analysis: &Analysis,
    pinned: Option<(&Analysis, &SorptionIsotherm)>,
    isotherm: &SorptionIsotherm,
    sign: DecimalSign,
) -> Option<Figure> {
    let place = |analysis: &Analysis| {
        let water = analysis.water.water()?;
        let dry = analysis.make_up.bowl.total() - water.contents.water;
        (dry.0 > 0.0).then(|| [water.rest.activity.0, 100.0 * (water.contents.water / dry).0])
    };
    let here = place(analysis)?;
    let there = pinned.and_then(|(pinned, _)| place(pinned));
    let lowest = there.into_iter().chain([here]).map(|place| place[0]).fold(DRY.0, f64::min);
    let x = AxisRange { label: "water activity", from: (10.0 * lowest + 1e-9).floor() / 10.0, to: 1.0, step: 0.1 };
    let most = isotherm.all.iter().map(|point| point[1]).chain(there.map(|place| place[1])).fold(here[1], f64::max);
    let y = AxisRange::from_zero("water, g per 100 g dry", most);
    let mut curves = vec![Curve::new("held by solids", Role::Reference, isotherm.held.clone())];
    if let Some((_, before)) = pinned {
        curves.push(Curve::new("pinned", Role::Pinned, before.all.clone()));
    }
    curves.push(Curve::new("all water", Role::Now, isotherm.all.clone()));
    let mut marks = Vec::new();
    if let Some(at) = there {
        marks.push(Mark { label: String::new(), role: Role::Pinned, at, side: Side::LeftBelow });
    }
    let label = format!("{} g at {}", fixed(here[1], 1, sign), water_activity(WaterActivity(here[0]), sign));
    marks.push(Mark { label: label.clone(), role: Role::Now, at: here, side: Side::LeftAbove });
    let in_words = format!("{label}: water per 100 g of dry mass at its water activity");
    let (rules, levels) = (Vec::new(), Vec::new());
    Some(Figure { hue: Hue::Water, x, y, regions: Vec::new(), curves, rules, levels, marks, in_words })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{ROOM as AT, analyse};
    use crate::ingredient::Library;
    use crate::recipe::Kind;
    use crate::recipe::Quantity;

    fn recipe(kind: Kind, lines: &[(&str, f64)]) -> (Recipe, Analysis) {
        let mut recipe = Recipe { kind, ..Recipe::default() };
        for (id, grams) in lines {
            let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
            recipe.push(ingredient, Quantity::from_grams(*grams).expect("an amount"));
        }
        let analysis = analyse(&recipe, AT);
        (recipe, analysis)
    }

    fn ganache(cream: f64) -> (Recipe, Analysis) {
        recipe(Kind::Ganache, &[("couverture-dark-64", 400.0), ("cream-35", cream), ("invert-syrup", 25.0)])
    }

    #[test]
    fn the_curve_goes_through_the_mark_and_crosses_every_limit_where_its_words_leave_room() {
        for cream in [60.0, 100.0, 130.0, 200.0, 260.0, 330.0, 400.0, 700.0, 2000.0] {
            let (recipe, analysis) = ganache(cream);
            let curve = drying_curve(&recipe, &analysis).expect("it is wet");
            let figure = drying_plot(&analysis, None, &curve, DecimalSign::Point).expect("it is wet");
            let now = figure.curves.iter().find(|curve| curve.role == Role::Now).expect("a curve");
            let mark = figure.marks.iter().find(|mark| mark.role == Role::Now).expect("a mark");
            let on_curve = now.at(mark.at[0]).expect("within the curve");
            assert!((on_curve - mark.at[1]).abs() < 2e-3, "{cream}: {on_curve} {:?}", mark.at);
            assert!((figure.x.from..=figure.x.to).contains(&mark.at[0]), "{cream}");
            assert!((figure.y.from..=figure.y.to).contains(&mark.at[1]), "{cream}");
            assert_eq!(figure.levels.len(), GROWTH_LIMITS.len(), "{cream}");
            assert!(now.points.windows(2).all(|pair| pair[1][1] >= pair[0][1] - 1e-9), "{cream}");
            let mark = words_of_mark(mark, &figure.x, &figure.y);
            for level in &figure.levels {
                assert!(!overlap(&mark, &words_of_level(level, &figure.y)), "{cream}: {}", level.label);
            }
        }
    }

    #[test]
    fn the_pinned_state_lies_within_the_axes() {
        let ((recipe, analysis), (before, pinned)) = (ganache(100.0), ganache(900.0));
        let curve = drying_curve(&recipe, &analysis).expect("it is wet");
        let was = drying_curve(&before, &pinned).expect("it is wet");
        let figure = drying_plot(&analysis, Some((&pinned, &was)), &curve, DecimalSign::Comma).expect("it is wet");
        for mark in &figure.marks {
            assert!((figure.x.from..=figure.x.to).contains(&mark.at[0]), "{mark:?}");
            assert!((figure.y.from..=figure.y.to).contains(&mark.at[1]), "{mark:?}");
        }
        assert!(figure.curves.iter().any(|curve| curve.role == Role::Pinned && curve.points.len() > 10));
        assert!(figure.in_words.starts_with("water activity 0,"), "{}", figure.in_words);
    }

    #[test]
    fn only_a_cooked_mass_has_a_clear_curve_and_it_lies_below() {
        let lines = [("sucrose", 300.0), ("glucose-syrup-de40", 100.0), ("cream-35", 120.0)];
        let ((caramel, analysis), (other, same)) = (recipe(Kind::Caramel, &lines), recipe(Kind::Other, &lines));
        let curve = drying_curve(&caramel, &analysis).expect("it is wet");
        assert!(drying_curve(&other, &same).expect("it is wet").clear.is_empty());
        let grained = Curve::new("", Role::Now, curve.points.clone());
        assert!(curve.clear.len() > 10);
        for [percent, activity] in curve.clear {
            assert!(grained.at(percent).is_none_or(|grained| activity <= grained + 1e-3), "{percent}");
        }
    }

    #[test]
    fn the_isotherm_has_the_mass_on_it_and_its_solids_below() {
        let (_, analysis) = ganache(200.0);
        let isotherm = sorption_isotherm(&analysis).expect("it is wet");
        let figure = sorption_plot(&analysis, None, &isotherm, DecimalSign::Point).expect("it is wet");
        let [activity, water] = figure.marks[0].at;
        let all = figure.curves.iter().find(|curve| curve.role == Role::Now).expect("a curve");
        assert!((all.at(activity).expect("within the curve") - water).abs() < 0.02 * water);
        assert!(isotherm.all.iter().zip(&isotherm.held).all(|(all, held)| held[1] > 0.0 && held[1] < all[1]));
        assert!(isotherm.all.first().is_some_and(|point| point[0] < 0.56), "from where isotherms are trusted");
        assert!(isotherm.all.last().is_some_and(|point| point[0] > 0.94));
    }

    #[test]
    fn a_dry_mass_has_no_curves() {
        let (recipe, analysis) = recipe(Kind::Chocolate, &[("couverture-dark-64", 100.0)]);
        assert_eq!(drying_curve(&recipe, &analysis), None);
        assert_eq!(sorption_isotherm(&analysis), None);
    }
}
