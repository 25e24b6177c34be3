//! How a mass cools and sets: temperature and solid fat against time.

use crate::analysis::Analysis;
use crate::analysis::cooling::body::{Course, Moment};
use crate::analysis::setting::SettingState;
use crate::number::{DecimalSign, fixed};
use crate::report::figure::{AxisRange, Curve, Figure, Level, Mark, Region, Role, Side};
use crate::report::hue::Hue;
use crate::report::words;
use crate::units::Minutes;

/// Minutes up to which the axis is in minutes.
const MOST_IN_MINUTES: f64 = 180.0;

/// Minutes of a unit of the axis, and what it is called.
#[derive(Clone, Copy)]
struct Unit {
    minutes: f64,
    label: &'static str,
}

/// Of the time until it is set, so much is shown beyond; of the time until it has cooled, all of it.
const BEYOND: f64 = 1.6;

/// The axis of time: until it has set and cooled, and in the unit that suits it.
fn axis(states: &[&SettingState]) -> (AxisRange, Unit) {
    let until = |state: &SettingState| {
        let set = state.set.map_or(0.0, |set| BEYOND * set.typical().0);
        let cooled = state.cooled().map_or(0.0, |cooled| 1.1 * cooled.0);
        let last = state.course.moments.last().map_or(1.0, |last| last.time.0);
        if set.max(cooled) > 0.0 { set.max(cooled).min(last) } else { last }
    };
    let most = states.iter().map(|state| until(state)).fold(0.0, f64::max);
    let unit = if most <= MOST_IN_MINUTES {
        Unit { minutes: 1.0, label: "time, min" }
    } else {
        Unit { minutes: 60.0, label: "time, h" }
    };
    (AxisRange::from_zero(unit.label, most / unit.minutes), unit)
}

/// The part of a course that the axis holds.
fn curve(
    label: &'static str,
    role: Role,
    course: &Course,
    (x, unit): (&AxisRange, Unit),
    figure: impl Fn(&Moment) -> f64,
) -> Curve {
    let points: Vec<[f64; 2]> =
        course.moments.iter().map(|moment| [moment.time.0 / unit.minutes, figure(moment)]).collect();
    // One point beyond would be drawn outside; the last one within is joined to the edge on a straight line.
    let inside = points.iter().take_while(|point| point[0] <= x.to).count();
    let all = Curve::new(label, role, points);
    let edge = all.at(x.to).map(|height| [x.to, height]);
    let shown: Vec<[f64; 2]> = all.points.iter().take(inside).copied().chain(edge).collect();
    Curve { points: shown, ..all }
}

/// The band of the time until it is set, as far as the axis holds it.
fn band(state: &SettingState, x: &AxisRange, unit: Unit, y: &AxisRange) -> Option<Region> {
    let set = state.set.ok()?;
    let place = |minutes: Minutes| (minutes.0 / unit.minutes).min(x.to);
    Some(Region::band("set, two of three", Role::Window, place(set.low), place(set.high), y))
}

/// Temperature in the middle and on the whole against time, with the form V limit.
#[must_use]
pub fn cooling_plot(
    analysis: &Analysis,
    state: &SettingState,
    pinned: Option<&SettingState>,
    sign: DecimalSign,
) -> Figure {
    let (x, unit) = axis(&[state].into_iter().chain(pinned).collect::<Vec<_>>());
    let limit = analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v);
    // The pinned state may start warmer or end colder, and the unseeded one ends colder while it crystallises later.
    let others = state.unseeded().into_iter().chain(pinned.map(|before| &before.course));
    let courses = [&state.course].into_iter().chain(others);
    let temperatures = courses.flat_map(|course| &course.moments).flat_map(|moment| [moment.centre.0, moment.mean.0]);
    let (low, high) = temperatures
        .chain(limit.map(|limit| limit.0))
        .chain([state.course.end.0])
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), celsius| (low.min(celsius), high.max(celsius)));
    let y = AxisRange::around("temperature, °C", low, high);
    let place = (&x, unit);
    let mut curves = Vec::new();
    if let Some(before) = pinned {
        curves.push(curve("on the whole, pinned", Role::Pinned, &before.course, place, |moment| moment.mean.0));
    }
    if let Some(unseeded) = state.unseeded() {
        curves.push(curve("unseeded", Role::Reference, unseeded, place, |moment| moment.mean.0));
    }
    curves.push(curve("in the middle", Role::Limit, &state.course, place, |moment| moment.centre.0));
    curves.push(curve("on the whole", Role::Now, &state.course, place, |moment| moment.mean.0));
    let thermometer = super::thermometer_level(analysis.at, &y, sign);
    let levels = limit.map(|limit| Level {
        label: format!("form V limit {} °C", fixed(limit.0, 1, sign)),
        at: limit.0,
        is_label_left: false,
        is_label_below: true,
    });
    let cooled = state.cooled().filter(|cooled| cooled.0 > 0.0);
    let marks = cooled.map(|cooled| Mark {
        label: format!("{} after {}", if state.warms() { "warm" } else { "cold" }, words::duration(cooled)),
        role: Role::Now,
        at: [cooled.0 / unit.minutes, curve_at(&curves, cooled.0 / unit.minutes)],
        // Over a curve that falls there is room at the right, under one that rises as well.
        side: if state.warms() { Side::RightBelow } else { Side::RightAbove },
    });
    let in_words = format!(
        "from {} °C to {} °C{}",
        fixed(state.start.0, 1, sign),
        fixed(state.course.end.0, 1, sign),
        cooled.map_or_else(String::new, |cooled| format!(", within 1 K after {}", words::duration(cooled)))
    );
    Figure {
        hue: Hue::CocoaButter,
        regions: band(state, &x, unit, &y).into_iter().collect(),
        x,
        y,
        curves,
        rules: Vec::new(),
        levels: levels.into_iter().chain(thermometer).collect(),
        marks: marks.into_iter().collect(),
        in_words,
    }
}

/// The height of the last curve at a place; where it has none, its end.
fn curve_at(curves: &[Curve], x: f64) -> f64 {
    let last = curves.last();
    last.and_then(|curve| curve.at(x).or_else(|| Some(curve.points.last()?[1]))).unwrap_or(0.0)
}

/// Solid fat on the whole and in the middle against time, seeded and unseeded.
///
/// `None` where no setting time is told.
#[must_use]
pub fn setting_plot(state: &SettingState, pinned: Option<&SettingState>, sign: DecimalSign) -> Option<Figure> {
    let set = state.set.ok()?;
    let (x, unit) = axis(&[state].into_iter().chain(pinned).collect::<Vec<_>>());
    let percent = |moment: &Moment| moment.solid.to_percent();
    let all = [Some(state), pinned].into_iter().flatten();
    let most = all.map(|state| state.course.solid_at_end.to_percent()).fold(1.0, f64::max);
    let y = AxisRange::from_zero("solid fat, % of fat", most);
    let place = (&x, unit);
    let mut curves = Vec::new();
    if let Some(before) = pinned.filter(|before| before.set.is_ok()) {
        curves.push(curve("pinned", Role::Pinned, &before.course, place, percent));
    }
    if let Some(unseeded) = state.unseeded() {
        curves.push(curve("unseeded", Role::Reference, unseeded, place, percent));
    }
    if !state.setting.piece.is_of_one_temperature() {
        let middle = |moment: &Moment| moment.solid_centre.to_percent();
        curves.push(curve("in the middle", Role::Limit, &state.course, place, middle));
    }
    curves.push(curve("seeded", Role::Now, &state.course, place, percent));
    let at = set.typical().0 / unit.minutes;
    let label = format!("set after {}", words::duration(set.typical()));
    let solid = fixed(curve_at(&curves, at), 0, sign);
    let mark = Mark { label, role: Role::Now, at: [at, curve_at(&curves, at)], side: Side::RightBelow };
    let level = Level {
        label: format!("at rest {} %", fixed(state.course.solid_at_end.to_percent(), 0, sign)),
        at: state.course.solid_at_end.to_percent(),
        is_label_left: true,
        is_label_below: true,
    };
    Some(Figure {
        hue: Hue::CocoaButter,
        regions: band(state, &x, unit, &y).into_iter().collect(),
        x,
        y,
        curves,
        rules: Vec::new(),
        levels: vec![level],
        marks: vec![mark],
        in_words: format!("set after {}, with {solid} % of the fat solid", words::duration(set.typical())),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{ROOM, analyse, setting};
    use crate::ingredient::Library;
    use crate::recipe::{Air, Base, Kind, Piece, PlaceTemperature, Quantity, Recipe, Setting, Size};
    use crate::units::Celsius;

    fn state(thickness: f64, air: f64) -> (Analysis, SettingState) {
        let mut recipe = Recipe { kind: Kind::Ganache, ..Recipe::default() };
        for (id, grams) in [("couverture-dark-64", 400.0), ("cream-35", 200.0)] {
            let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
            recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
        }
        let thickness = Size::from_millimetres(thickness).expect("a length");
        recipe.setting = Some(Setting {
            piece: Piece::Frame { thickness, base: Base::Board },
            start: None,
            surroundings: PlaceTemperature::new(Celsius(air)).expect("a temperature"),
            air: Air::Still,
        });
        let analysis = analyse(&recipe, ROOM);
        let state = setting::setting(&recipe, &analysis).expect("it says how");
        (analysis, state)
    }

    #[test]
    fn all_that_is_drawn_lies_within_the_axes() {
        for (thickness, air) in [(10.0, 17.0), (2.0, 12.0), (40.0, 22.0)] {
            let (analysis, state) = state(thickness, air);
            let (_, before) = self::state(10.0, 17.0);
            for figure in [
                Some(cooling_plot(&analysis, &state, Some(&before), DecimalSign::Point)),
                setting_plot(&state, Some(&before), DecimalSign::Point),
            ] {
                let figure = figure.expect("it sets");
                for curve in &figure.curves {
                    assert!(curve.points.len() > 10, "{}", curve.label);
                    for [x, y] in &curve.points {
                        let is_inside = (figure.x.from..=figure.x.to).contains(x);
                        assert!(is_inside && *y >= figure.y.from - 1e-9 && *y <= figure.y.to + 1e-9, "{x} {y}");
                    }
                }
                let mark = &figure.marks[0];
                assert!(figure.x.share(mark.at[0]) <= 1.0 && figure.y.share(mark.at[1]) <= 1.0);
            }
        }
    }

    /// Where it sets, nine tenths of the way have been gone.
    #[test]
    fn the_mark_stands_at_nine_tenths_of_the_way() {
        let (_, state) = state(10.0, 17.0);
        let figure = setting_plot(&state, None, DecimalSign::Point).expect("it sets");
        let (begun, most) = (state.course.moments[0].solid.to_percent(), state.course.solid_at_end.to_percent());
        let share = (figure.marks[0].at[1] - begun) / (most - begun);
        assert!((share - 0.9).abs() < 0.005, "{share}");
    }

    #[test]
    fn without_a_time_there_is_no_curve_of_solid_fat() {
        let (analysis, state) = state(10.0, 35.0);
        assert_eq!(setting_plot(&state, None, DecimalSign::Point), None);
        assert!(!cooling_plot(&analysis, &state, None, DecimalSign::Point).curves.is_empty());
    }
}
