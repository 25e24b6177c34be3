//! Reformulations: optima known by hand, those of a general-purpose solver, contradictions, and what holds of all.

mod activity;
mod by_hand;
mod far;
mod general_solver;
mod helping;
mod odd;
mod properties;
mod results;
mod simplex;
mod substituting;
mod told;

use nibwright::analysis::{ROOM, analyse};
use nibwright::recipe::Recipe;
use nibwright::reformulate::{
    Answer, Bound, Decides, Impossible, Measured, Outcome, Problem, Scale, Target, reformulate,
};
use nibwright::report::json;
use nibwright::report::words::reformulation::names;
use nibwright::units::Grams;
use serde_json::Value;

/// A problem whose answer is weighed so finely that rounding does not show.
fn unrounded(recipe: Recipe) -> Problem {
    Problem { scale: Scale { coarsest: Grams(1e-4), has_finer: false }, ..Problem::new(recipe) }
}

fn outcome(problem: &Problem) -> Outcome {
    reformulate(problem, &|| false).expect("a sound problem")
}

fn changed(problem: &Problem) -> Answer {
    match outcome(problem) {
        Outcome::Changed(answer) => *answer,
        other => panic!("{other:?}"),
    }
}

fn impossible(problem: &Problem) -> Impossible {
    match outcome(problem) {
        Outcome::Impossible(why) => *why,
        other => panic!("{other:?}"),
    }
}

fn grams_after(answer: &Answer) -> Vec<f64> {
    answer.moves.iter().map(|moved| moved.after.0).collect()
}

/// The JSON report of a recipe, computed anew.
fn report(recipe: &Recipe) -> Value {
    let text = json::report(recipe, &analyse(recipe, ROOM)).expect("a report");
    serde_json::from_str(&text).expect("JSON")
}

/// A result in a report, with its ends where it has some.
fn reported(report: &Value, of: Measured) -> Option<(f64, f64, f64)> {
    if let Measured::SolidFat(at) = of {
        let points = report["fat"]["solid_fat"].as_array()?;
        let point = points.iter().find(|point| point["celsius"].as_f64() == Some(at.0))?;
        let value = point["total_percent_of_fat"].as_f64()?;
        return Some((value, value, value));
    }
    if let Measured::Crystals(at) = of {
        let points = report["texture"]["solid_fat"].as_array()?;
        let point = points.iter().find(|point| point["celsius"].as_f64() == Some(at.0))?;
        let value = point["percent_of_mass"].as_f64()?;
        return Some((value, value, value));
    }
    let path = &names(of)[1];
    let found = path.split('.').fold(report, |value, key| &value[key]);
    let end = |key: &str| match of {
        Measured::WaterActivity => report["water"][key].as_f64(),
        Measured::Energy => report["energy"][format!("{key}_kj").as_str()].as_f64(),
        Measured::Sweetness => report["sweetness"][key].as_f64(),
        _ => None,
    };
    // Of a dry mass only the upper end of the water activity is told.
    let value = found.as_f64().or_else(|| end("high"))?;
    Some((end("low").unwrap_or(value), value, end("high").unwrap_or(value)))
}

/// By how much a recipe misses a target by its report, in grains; infinite where the report has no such result.
fn missed_in_report(recipe: &Recipe, target: &Target) -> f64 {
    let report = report(recipe);
    let Some((low, value, high)) = reported(&report, target.of) else { return f64::INFINITY };
    // What is only known from above meets no bound from below.
    let is_dry = target.of == Measured::WaterActivity && report["water"]["low"].is_null();
    if is_dry && !matches!(target.bound, Bound::AtMost(_) | Bound::Near(_)) {
        return f64::INFINITY;
    }
    let (low, high) = match target.by {
        Decides::Value => (value, value),
        Decides::UnfavourableEdge => (low, high),
    };
    let missed = match target.bound {
        Bound::AtMost(at) => high - at,
        Bound::AtLeast(at) => at - low,
        Bound::Between(from, to) => (from - low).max(high - to),
        Bound::Near(_) => 0.0,
    };
    missed.max(0.0) / target.of.grain()
}
