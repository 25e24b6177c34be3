//! A reformulation as JSON: a public interface, documented in `sample-recipes/README.md`, changed only by adding.

use serde::Serialize;

use crate::number::DecimalSign;
use crate::reformulate::{
    self, Answer, Bound, Conflicting, Decides, Impossible, Measured, Member, Outcome, Problem, Reachable,
};
use crate::report::words::reformulation::{LimitReached, ReformulationWords, names};

/// The outcome of a problem as JSON, with a line break at its end.
///
/// # Errors
///
/// Never in practice: every value is a number, a text, a list or a map of these.
pub fn report(problem: &Problem, outcome: &Outcome) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(&Report::new(problem, outcome))?;
    text.push('\n');
    Ok(text)
}

#[derive(Serialize)]
struct Report<'a> {
    recipe: &'a str,
    outcome: &'static str,
    targets: Vec<Target>,
    limits: Vec<Limit>,
    seasoning: Option<String>,
    amounts: Vec<Amount>,
    total_before_g: f64,
    total_after_g: Option<f64>,
    change: Option<f64>,
    is_settled: bool,
    is_by_scale: bool,
    conflict: Vec<Conflict>,
    helpers: Vec<Helper>,
    helpers_tried: Option<usize>,
    reasons: Vec<String>,
    summary: Option<String>,
    notes: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct Target {
    text: String,
    of: String,
    at_c: Option<f64>,
    at_least: Option<f64>,
    at_most: Option<f64>,
    near: Option<f64>,
    judged_by: &'static str,
    before: Figure,
    after: Figure,
    missed_by: Option<f64>,
    is_met: bool,
    is_binding: bool,
}

#[derive(Serialize)]
pub(super) struct Figure {
    value: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
}

#[derive(Serialize)]
struct Amount {
    id: String,
    ingredient: String,
    is_new: bool,
    before_g: f64,
    after_g: f64,
    pulls: Vec<Pull>,
}

/// What is asked of one amount beside the targets.
#[derive(Serialize)]
struct Limit {
    text: String,
    before_g: f64,
    after_g: f64,
    missed_by_g: f64,
    is_met: bool,
    is_seasoning: bool,
}

#[derive(Serialize)]
struct Pull {
    text: String,
    by_g: f64,
}

#[derive(Serialize)]
struct Conflict {
    text: String,
    reachable: Option<Figure>,
    reachable_g: Option<f64>,
    is_weighed: bool,
    is_enough: bool,
}

/// An ingredient with which it can be done.
#[derive(Serialize)]
pub(super) struct Helper {
    id: String,
    ingredient: String,
    more_g: f64,
}

impl Helper {
    pub(super) fn new(helper: &reformulate::helpers::Helper) -> Self {
        let ingredient = &helper.ingredient;
        Self { id: ingredient.id.clone(), ingredient: ingredient.name.clone(), more_g: helper.more.0 }
    }
}

impl<'a> Report<'a> {
    fn new(problem: &'a Problem, outcome: &Outcome) -> Self {
        let words = ReformulationWords::new(problem, DecimalSign::Point);
        let nothing = Self {
            recipe: &problem.recipe.name,
            outcome: "stopped",
            targets: Vec::new(),
            limits: Vec::new(),
            seasoning: words.seasoning_held(),
            amounts: Vec::new(),
            total_before_g: problem.recipe.weighed().0,
            total_after_g: None,
            change: None,
            is_settled: false,
            is_by_scale: false,
            conflict: Vec::new(),
            helpers: Vec::new(),
            helpers_tried: None,
            reasons: Vec::new(),
            summary: None,
            notes: Vec::new(),
        };
        match outcome {
            Outcome::Stopped => nothing,
            Outcome::Unchanged(reached) => Self {
                outcome: "unchanged",
                targets: reached.iter().map(|reached| Target::new(reached, &words)).collect(),
                limits: words.limits_unchanged().into_iter().map(Limit::from).collect(),
                total_after_g: Some(problem.recipe.weighed().0),
                change: Some(0.0),
                is_settled: true,
                ..nothing
            },
            Outcome::Changed(answer) => {
                let summary = Some(words.summary(answer));
                Self { outcome: "changed", summary, notes: words.notes(answer), ..nothing }.with_answer(answer, &words)
            }
            Outcome::Impossible(why) => {
                let Impossible { conflict, nearest, is_by_scale, helpers } = why.as_ref();
                Self {
                    outcome: "impossible",
                    is_by_scale: *is_by_scale,
                    conflict: conflict.iter().map(|one| Conflict::new(one, problem, &words)).collect(),
                    helpers: helpers.iter().flat_map(|helpers| &helpers.found).map(Helper::new).collect(),
                    helpers_tried: helpers.as_ref().map(|helpers| helpers.tried),
                    reasons: words.impossible(why).into_iter().chain(words.what_next(why)).collect(),
                    notes: words.notes(nearest),
                    ..nothing
                }
                .with_answer(nearest, &words)
            }
        }
    }

    fn with_answer(self, answer: &Answer, words: &ReformulationWords) -> Self {
        let Answer { recipe, moves, reached, change, is_settled } = answer;
        let amounts = moves.iter().map(|moved| Amount {
            id: moved.ingredient.id.clone(),
            ingredient: moved.ingredient.name.clone(),
            is_new: matches!(moved.place, reformulate::Place::Allowed(_)),
            before_g: moved.before.0,
            after_g: moved.after.0,
            pulls: moved.pulls.iter().map(|pull| Pull { text: words.member(pull.member), by_g: pull.by.0 }).collect(),
        });
        Self {
            targets: reached.iter().map(|reached| Target::new(reached, words)).collect(),
            limits: words.limits(answer).into_iter().map(Limit::from).collect(),
            amounts: amounts.collect(),
            total_after_g: Some(recipe.weighed().0),
            change: Some(*change),
            is_settled: *is_settled,
            ..self
        }
    }
}

impl Target {
    pub(super) fn new(reached: &reformulate::Reached, words: &ReformulationWords) -> Self {
        let reformulate::Reached { target: asked, before, after, is_binding } = reached;
        let (at_least, at_most, near) = match asked.bound {
            Bound::AtLeast(low) => (Some(low), None, None),
            Bound::AtMost(high) => (None, Some(high), None),
            Bound::Between(low, high) => (Some(low), Some(high), None),
            Bound::Near(at) => (None, None, Some(at)),
        };
        let at_c = match asked.of {
            Measured::SolidFat(at) | Measured::Crystals(at) => Some(at.0),
            _ => None,
        };
        Self {
            text: words.target(asked),
            // The second name is the path in the report.
            of: names(asked.of).into_iter().nth(1).unwrap_or_default(),
            at_c,
            at_least,
            at_most,
            near,
            judged_by: match asked.decides() {
                Decides::Value => "value",
                Decides::UnfavourableEdge => "edge",
            },
            before: Figure::new(asked.of, *before),
            after: Figure::new(asked.of, *after),
            missed_by: (!asked.is_beyond_figures(*after)).then(|| asked.missed_by(*after)),
            is_met: reached.is_met(),
            is_binding: *is_binding,
        }
    }
}

impl From<LimitReached> for Limit {
    fn from(reached: LimitReached) -> Self {
        let is_met = reached.is_met();
        let LimitReached { text, before, after, missed_by, is_seasoning } = reached;
        Self { text, before_g: before.0, after_g: after.0, missed_by_g: missed_by.0, is_met, is_seasoning }
    }
}

impl Figure {
    fn exact(figure: reformulate::Figure) -> Self {
        let (low, high) = figure.band.unzip();
        Self { value: Some(figure.value), low, high }
    }

    pub(super) fn new(of: Measured, figure: reformulate::Figure) -> Self {
        if of.is_upper_end(figure) {
            return Self { value: None, low: None, high: Some(figure.value) };
        }
        Self::exact(figure)
    }
}

/// What can be had of a member; of a target its figure.
fn figure_of(member: Member, figure: reformulate::Figure, problem: &Problem) -> Figure {
    let target = if let Member::Target(idx) = member { problem.targets.get(idx) } else { None };
    target.map_or_else(|| Figure::exact(figure), |target| Figure::new(target.of, figure))
}

impl Conflict {
    fn new(one: &Conflicting, problem: &Problem, words: &ReformulationWords) -> Self {
        let (reachable, reachable_g) = match one.reachable {
            Some(Reachable::Figure(figure)) => (Some(figure_of(one.member, figure, problem)), None),
            Some(Reachable::Amount(grams)) => (None, Some(grams.0)),
            None => (None, None),
        };
        Self {
            text: words.member(one.member),
            reachable,
            reachable_g,
            is_weighed: one.is_weighed,
            is_enough: one.is_enough,
        }
    }
}
