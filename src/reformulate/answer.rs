//! What came of a reformulation, and why.

use std::sync::Arc;

pub use super::model::Member;

use super::activity::{Jump, Reading};
use super::beginnings::{beginnings, nearest_of_several};
use super::conflict;
use super::descent::{Aim, Descent, NoRest, Rest, Weight};
use super::helpers::Helpers;
use super::measured::{Figure, Measured};
use super::model::{Model, Quotients};
use super::nearer::nearer;
use super::problem::{Place, Problem, ProblemError};
use super::reasons::pulls;
use super::room;
use super::seasoning;
use super::steps::{Weighable, on_the_scale};
use super::target::Target;
use super::tolerance::{HELD, MET, OPEN, PULLS};
use super::whole::in_packs;
use crate::analysis::water::state::{BAND, LACTOSE_BY_ITSELF, MUCH_ETHANOL, STRONG, step};
use crate::ingredient::{Component, Ingredient};
use crate::recipe::Recipe;
use crate::units::Grams;

/// What came of a reformulation.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Everything that is asked for holds already: nothing is changed.
    Unchanged(Vec<Reached>),
    /// The nearest recipe.
    Changed(Box<Answer>),
    /// It cannot be done.
    Impossible(Box<Impossible>),
    /// It came to no end: it was told to stop, its ways of opening packs were used up, or the solver failed.
    Stopped,
}

/// A recipe with other amounts, and what they do.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The recipe. What was allowed and is used stands at its end.
    pub recipe: Recipe,
    /// Every amount before and after, in the order of the lines, then of what was allowed.
    pub moves: Vec<Move>,
    /// What is asked for, before and after.
    pub reached: Vec<Reached>,
    /// Σ of the squares or of the absolute values of the relative changes, as the problem asks, before rounding.
    pub change: f64,
    /// Whether the search came to rest; where its rounds were used up before, there may be a nearer recipe.
    pub is_settled: bool,
}

/// One amount before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// Whose.
    pub place: Place,
    /// The ingredient.
    pub ingredient: Arc<Ingredient>,
    /// How much before.
    pub before: Grams,
    /// How much after, as it is weighed.
    pub after: Grams,
    /// What moved it, the strongest first. Together they are the move before rounding, but for what an end at nought or a
    /// pack takes.
    pub pulls: Vec<Pull>,
}

/// What moved an amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// What is asked for.
    pub member: Member,
    /// By so much; negative where it pulls the amount down.
    pub by: Grams,
}

/// A target before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reached {
    /// What is asked for.
    pub target: Target,
    /// The figure of the recipe as it was.
    pub before: Figure,
    /// The figure of the answer, by the models, as it is weighed.
    pub after: Figure,
    /// Whether the answer lies at its bound: with more room less would change.
    pub is_binding: bool,
}

/// Why it cannot be done.
#[derive(Clone, Debug, PartialEq)]
pub struct Impossible {
    /// What contradicts each other: drop any one of them, and the others can be had.
    pub conflict: Vec<Conflicting>,
    /// The recipe that misses the targets least, all grains alike, while everything asked of amounts holds if that can be. Where
    /// a figure that is asked for would be lost on the steps of the scale, its amounts are not rounded.
    pub nearest: Answer,
    /// Whether it can be done, and only the scale is too coarse: then `conflict` is empty. It is empty as well where amounts
    /// that hold lie at a jump of a figure, so that nothing that can be weighed does.
    pub is_by_scale: bool,
    /// What would help, once that was looked for.
    pub helpers: Option<Helpers>,
}

/// One of the things that contradict each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conflicting {
    /// What is asked for.
    pub member: Member,
    /// What can be had of it while the others hold: all that is asked for if `is_enough`, or else the others of the conflict.
    /// `None` where the mass then has no such figure.
    pub reachable: Option<Reachable>,
    /// Whether that stands on the steps of the scale: then it can be had as it is told. Otherwise a finer scale may come to it.
    pub is_weighed: bool,
    /// Whether giving it up is enough, so that everything else that is asked for can be had; otherwise something else stands
    /// in the way as well.
    pub is_enough: bool,
}

/// What can be had of something that is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reachable {
    /// Of a target, this figure.
    Figure(Figure),
    /// Of an amount or of the total, so much.
    Amount(Grams),
}

impl Answer {
    /// The targets that it misses.
    pub fn missed(&self) -> impl Iterator<Item = &Reached> {
        self.reached.iter().filter(|reached| !reached.is_met())
    }
}

impl Reached {
    /// Whether the answer meets it.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.target.is_met_by(self.after)
    }
}

/// The nearest recipe that does what is asked.
///
/// `is_stopped` is asked now and then; once it says so, the outcome is [`Outcome::Stopped`].
///
/// # Errors
///
/// [`ProblemError`] where the problem is not well put, or where a figure that is asked for is not known.
pub fn reformulate(problem: &Problem, is_stopped: &dyn Fn() -> bool) -> Result<Outcome, ProblemError> {
    let outcome = nearest_recipe(problem, is_stopped)?;
    seasoning::kept(problem, outcome, |stricter| nearest_recipe(stricter, is_stopped))
}

fn nearest_recipe(problem: &Problem, is_stopped: &dyn Fn() -> bool) -> Result<Outcome, ProblemError> {
    let solved = solve(&Model::new(problem, Quotients::Straight)?, is_stopped);
    if solved == Err(NoRest::Failed) {
        // There is no figure where the straight lines lead, such as fat to water in a dry mass.
        let solved = solve(&Model::new(problem, Quotients::Modelled)?, is_stopped);
        return Ok(solved.unwrap_or(Outcome::Stopped));
    }
    Ok(solved.unwrap_or(Outcome::Stopped))
}

fn solve(model: &Model, is_stopped: &dyn Fn() -> bool) -> Result<Outcome, NoRest> {
    if holds_already(model) {
        return Ok(Outcome::Unchanged(reached(model, &model.before, &[])));
    }
    let told = answered(model, is_stopped)?;
    let mut nearest = if let Answered::Found(answer) = &told { Some(answer.clone()) } else { None };
    let mut off_steps = None;
    let near = nearest.as_ref().map_or(Jump::ALL.to_vec(), |answer| jumps_near(model, answer));
    for reading in Reading::others(&model.problem.targets, &near) {
        let Ok(other) = Model::new(model.problem, model.quotients) else { continue };
        match answered(&other.read_as(reading), is_stopped) {
            Err(NoRest::Stopped) => match &mut nearest {
                // What was found is an answer, though not all ways were tried.
                Some(answer) => {
                    answer.is_settled = false;
                    break;
                }
                None => return Err(NoRest::Stopped),
            },
            Ok(Answered::NotOnSteps(why)) => off_steps = off_steps.or(Some(why)),
            Ok(Answered::Found(answer)) if nearest.as_ref().is_none_or(|best| answer.change < best.change) => {
                nearest = Some(answer);
            }
            _ => {}
        }
    }
    if let Some(answer) = nearest {
        return Ok(Outcome::Changed(answer));
    }
    match (told, off_steps) {
        (Answered::Found(answer), _) => Ok(Outcome::Changed(answer)),
        (Answered::NotOnSteps(why), _) | (Answered::No, Some(why)) => Ok(Outcome::Impossible(why)),
        (Answered::No, None) => impossible(model, is_stopped),
    }
}

/// The nearest recipe, where one is found on the first way; why there is none is not looked for.
pub(super) fn nearest_if_any(problem: &Problem, is_stopped: &dyn Fn() -> bool) -> Option<Answer> {
    let model = Model::new(problem, Quotients::Straight).ok()?;
    match answered(&model, is_stopped) {
        Ok(Answered::Found(answer)) => Some(*answer),
        _ => None,
    }
}

/// What came of one way of reading a problem.
enum Answered {
    Found(Box<Answer>),
    /// Amounts are there, but none that can be weighed.
    NotOnSteps(Box<Impossible>),
    No,
}

fn answered(model: &Model, is_stopped: &dyn Fn() -> bool) -> Result<Answered, NoRest> {
    let mut descent = Descent::new(model, is_stopped);
    let aim = Aim::Change(model.problem.change);
    let none = vec![0.0; model.before.len()];
    match nearest(&mut descent, aim, &none, 0.0) {
        Ok(rest) => {
            let weighable = on_the_scale(&descent, aim, rest)?;
            let nearest = answer(model, aim, &weighable);
            if weighable.holds && nearest.missed().next().is_none() {
                return Ok(Answered::Found(Box::new(nearest)));
            }
            if let Some(clear) = room::clear(model, aim, &weighable, is_stopped)? {
                return Ok(Answered::Found(Box::new(clear)));
            }
            let is_by_scale = room::can_be_weighed_finely(model, &descent, aim, weighable.rest)?;
            Ok(Answered::NotOnSteps(Box::new(Impossible { conflict: Vec::new(), nearest, is_by_scale, helpers: None })))
        }
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => Ok(Answered::No),
    }
}

/// The jumps of a water activity that an answer came near to.
fn jumps_near(model: &Model, answer: &Answer) -> Vec<Jump> {
    /// So far below where lactose crystallises by itself nothing is to be gained beyond (judged).
    const NEAR: f64 = 0.75 * LACTOSE_BY_ITSELF;
    /// Bands that differ by less are the same.
    const SAME: f64 = 1e-9;
    let after: Vec<f64> = answer.moves.iter().map(|moved| moved.after.0).collect();
    let both = |of: Measured| [&model.before, &after].map(|amounts| model.figure(of, amounts));
    let either = |of: Measured, least: f64| both(of).into_iter().flatten().any(|figure| figure.value > least);
    let [before, after] = both(Measured::WaterActivity);
    let half = |figure: Option<Figure>| figure.map_or(0.0, |figure| figure.value - figure.low());
    [
        (Jump::Graining, either(Measured::LactoseSupersaturation, NEAR)),
        (Jump::Strong, after.is_none_or(|figure| figure.value < STRONG.0) || half(after) > BAND + SAME),
        (Jump::Alcohol, either(Measured::Component(Component::Ethanol), MUCH_ETHANOL.to_percent())),
        (Jump::Band, (half(before) - half(after)).abs() > SAME),
    ]
    .into_iter()
    .filter_map(|(jump, is_near)| is_near.then_some(jump))
    .collect()
}

/// Whether nothing has to be changed.
fn holds_already(model: &Model) -> bool {
    let Some(misses) = model.misses(&model.before) else { return false };
    let holds = misses.iter().all(|&miss| miss <= MET);
    holds && super::whole::are_whole(model, &model.before)
}

/// The nearest amounts before rounding, sought from some; wishes come as near as everything else allows but for some room, in
/// grains, and from then on they hold there.
pub(super) fn nearest(descent: &mut Descent, aim: Aim, start: &[f64], room: f64) -> Result<Rest, NoRest> {
    let model = descent.model;
    let mut start = start.to_vec();
    let wishes: Vec<usize> =
        (0..model.constraints.len()).filter(|&idx| model.is_wish(&model.constraints[idx])).collect();
    if !wishes.is_empty() {
        for &idx in &wishes {
            descent.weights[idx] = Weight::Costs(1.0);
        }
        let rest = from_some_start(descent, Aim::Misses, &start)?;
        // What a wish comes to in whole packs, not in broken ones.
        let rest = in_packs(descent, Aim::Misses, rest)?;
        for &idx in &wishes {
            descent.weights[idx] = Weight::Holds { up_to: rest.misses[idx].max(0.0) + HELD + room };
        }
        start = rest.changes;
    }
    let rest = from_some_start(descent, aim, &start)?;
    in_packs(descent, aim, rest)
}

/// The nearest of what several beginnings lead to; where none leads anywhere, from amounts with which everything holds, if
/// there are any.
fn from_some_start(descent: &Descent, aim: Aim, start: &[f64]) -> Result<Rest, NoRest> {
    let rest = match nearest_of_several(descent, aim, start) {
        Err(NoRest::Impossible | NoRest::Failed) if !descent.is_linear() => {
            let (changes, missed) = conflict::least_missed(descent.model, |_| true, descent.is_stopped)?;
            if missed > OPEN { Err(NoRest::Impossible) } else { descent.run(aim, &changes) }
        }
        rest => rest,
    };
    nearer(descent, aim, rest?)
}

fn impossible(model: &Model, is_stopped: &dyn Fn() -> bool) -> Result<Outcome, NoRest> {
    let mut contradiction = conflict::contradiction(model, is_stopped)?;
    let mut descent = Descent::new(model, is_stopped);
    for (weight, constraint) in descent.weights.iter_mut().zip(&model.constraints) {
        if matches!(constraint.member, Member::Target(_)) {
            *weight = Weight::Costs(1.0);
        }
    }
    let as_it_is = descent.stay(vec![0.0; model.before.len()])?;
    let is_of_amounts = |row: usize| !matches!(model.constraints[row].member, Member::Target(_));
    let amounts_hold = (0..as_it_is.misses.len()).all(|row| !is_of_amounts(row) || as_it_is.misses[row] <= HELD);
    // What comes nearest to one of them is a beginning too: the way from there can end nearer than all others.
    let of_members = contradiction.iter().map(|one| model.changes(&one.amounts));
    let mut found: Vec<Rest> = Vec::new();
    for start in beginnings(model).chain(of_members) {
        match descent.run(Aim::Misses, &start) {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => {}
            Ok(rest) => {
                found.push(rest);
                if descent.is_linear() {
                    break;
                }
            }
        }
    }
    // No way leads anywhere: the recipe as it is; or what is asked of amounts contradicts itself.
    let amounts_can_hold = amounts_hold || !found.is_empty();
    if found.is_empty() && amounts_hold {
        found.push(as_it_is.clone());
    } else if found.is_empty() {
        let weighed = descent.weights.iter_mut().zip(&model.constraints);
        let asked =
            weighed.filter(|(_, constraint)| !constraint.is_given && !matches!(constraint.member, Member::Lock(_)));
        asked.for_each(|(weight, _)| *weight = Weight::Costs(1.0));
        found.push(match descent.run(Aim::Misses, &as_it_is.changes) {
            Err(NoRest::Impossible | NoRest::Failed) => as_it_is.clone(),
            rest => rest?,
        });
    }
    for one in &mut contradiction {
        for rest in &found {
            one.take_nearer(model, rest);
        }
    }
    let weighable = match nearest_on_the_scale(&descent, found) {
        // The ways end where a figure that is asked for is none: the recipe as it is has them all.
        Err(NoRest::Failed) => Weighable { amounts: model.before.clone(), holds: false, rest: as_it_is },
        weighable => weighable?,
    };
    let nearest = answer(model, Aim::Misses, &weighable);
    let are_whole = super::whole::are_whole(model, &weighable.amounts);
    if amounts_can_hold && are_whole && weighable.holds && nearest.missed().next().is_none() {
        // The way to what is missed least came through where all others ended.
        return from_there(model, &weighable, is_stopped).map(|answer| Outcome::Changed(Box::new(answer)));
    }
    let reachable = |member: Member, amounts: &[f64]| match member {
        Member::Target(idx) => model.figure(model.problem.targets[idx].of, amounts).map(Reachable::Figure),
        Member::Total => Some(Reachable::Amount(Grams(amounts.iter().sum()))),
        Member::Lock(place) => amount_at(model, place, amounts).map(Reachable::Amount),
        Member::Limit(idx) => amount_at(model, model.problem.limits[idx].place, amounts).map(Reachable::Amount),
        Member::Allowance(idx) => amount_at(model, Place::Allowed(idx), amounts).map(Reachable::Amount),
    };
    let told = |one: &conflict::Contradicting| {
        let weighed = one.weighed(model, is_stopped)?;
        Ok(Conflicting {
            member: one.member,
            reachable: reachable(one.member, weighed.as_ref().unwrap_or(&one.amounts)),
            is_weighed: weighed.is_some(),
            is_enough: one.is_enough,
        })
    };
    let conflict: Vec<Conflicting> = contradiction.iter().map(told).collect::<Result<_, NoRest>>()?;
    Ok(Outcome::Impossible(Box::new(Impossible { conflict, nearest, is_by_scale: false, helpers: None })))
}

/// The nearest recipe to which the way leads from amounts with which everything holds; with these where there is none.
fn from_there(model: &Model, weighable: &Weighable, is_stopped: &dyn Fn() -> bool) -> Result<Answer, NoRest> {
    let aim = Aim::Change(model.problem.change);
    let mut descent = Descent::new(model, is_stopped);
    let found =
        nearest(&mut descent, aim, &weighable.rest.changes, 0.0).and_then(|rest| on_the_scale(&descent, aim, rest));
    match found {
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Ok(nearer) if nearer.holds && answer(model, aim, &nearer).missed().next().is_none() => {
            Ok(answer(model, aim, &nearer))
        }
        Ok(_) | Err(NoRest::Impossible | NoRest::Failed) => Ok(answer(model, Aim::Misses, weighable)),
    }
}

/// What misses least once it is weighed: the least before rounding may lie at a jump, which no step of the scale hits.
fn nearest_on_the_scale(descent: &Descent, mut found: Vec<Rest>) -> Result<Weighable, NoRest> {
    /// So many as there is time for.
    const MOST: usize = 3;
    found.sort_by(|left, right| descent.cost(Aim::Misses, left).total_cmp(&descent.cost(Aim::Misses, right)));
    let mut nearest: Option<(f64, Weighable)> = None;
    for rest in found.into_iter().take(MOST) {
        if nearest.as_ref().is_some_and(|(least, _)| descent.price(&rest.misses) >= *least) {
            break;
        }
        let weighable = on_the_scale(&holding_what_holds(descent, &rest), Aim::Misses, rest);
        let Ok(weighable) = weighable else {
            if weighable == Err(NoRest::Stopped) {
                return weighable;
            }
            continue;
        };
        let Some(misses) = descent.model.misses(&weighable.amounts) else { continue };
        let missed = descent.price(&misses);
        if nearest.as_ref().is_none_or(|(least, _)| missed < *least) {
            nearest = Some((missed, weighable));
        }
    }
    nearest.map(|(_, weighable)| weighable).ok_or(NoRest::Failed)
}

/// What holds goes on holding on the scale.
fn holding_what_holds<'a>(descent: &Descent<'a>, rest: &Rest) -> Descent<'a> {
    let model = descent.model;
    let mut weights = descent.weights.clone();
    for ((weight, constraint), &miss) in weights.iter_mut().zip(&model.constraints).zip(&rest.misses) {
        if matches!(constraint.member, Member::Target(_)) && !model.is_wish(constraint) && miss <= OPEN {
            *weight = Weight::Holds { up_to: OPEN };
        }
    }
    Descent { weights, ends: descent.ends.clone(), ..*descent }
}

fn amount_at(model: &Model, place: Place, amounts: &[f64]) -> Option<Grams> {
    model.line_at(place).map(|line| Grams(amounts[line]))
}

pub(super) fn answer(model: &Model, aim: Aim, weighable: &Weighable) -> Answer {
    let Weighable { amounts, rest, .. } = weighable;
    let grams: Vec<Grams> = amounts.iter().map(|&amount| Grams(amount)).collect();
    let pulls = pulls(model, aim, rest);
    let moves = model.places.iter().zip(pulls).enumerate().filter_map(|(idx, (&place, pulls))| {
        let ingredient = model.problem.ingredient(place)?.clone();
        Some(Move { place, ingredient, before: Grams(model.before[idx]), after: grams[idx], pulls })
    });
    Answer {
        recipe: model.problem.with_amounts(&grams),
        moves: moves.collect(),
        reached: reached(model, amounts, &rest.pulls),
        change: change(model, rest),
        is_settled: rest.is_settled,
    }
}

fn change(model: &Model, rest: &Rest) -> f64 {
    use super::problem::Change;
    match model.problem.change {
        Change::Spread => rest.changes.iter().map(|change| change * change).sum(),
        Change::FewLines => rest.changes.iter().map(|change| change.abs()).sum(),
    }
}

fn reached(model: &Model, amounts: &[f64], pulls: &[f64]) -> Vec<Reached> {
    let targets = model.problem.targets.iter().enumerate();
    targets
        .filter_map(|(idx, &target)| {
            let of_target = model.constraints.iter().zip(pulls);
            let is_binding = of_target
                .filter(|(constraint, _)| constraint.member == Member::Target(idx))
                .any(|(_, &pull)| pull > PULLS);
            let before = model.figure(target.of, &model.before)?;
            let after = model.figure(target.of, amounts)?;
            Some(Reached { target, before, after, is_binding })
        })
        .collect()
}

/// What a little more of each line does to each target's figure: rows are targets, columns the lines of the recipe; with
/// the amount that is added. `None` where there is no figure.
#[must_use]
pub fn sensitivities(problem: &Problem) -> (Grams, Vec<Vec<Option<f64>>>) {
    let more = step(problem.recipe.weighed());
    let Ok(model) = Model::new(problem, Quotients::Straight) else { return (more, Vec::new()) };
    let lines = problem.recipe.lines.len();
    let of_target = |target: &Target| {
        let here = model.figure(target.of, &model.before)?.value;
        let then = (0..lines).map(|idx| {
            let mut amounts = model.before.clone();
            amounts[idx] += more.0;
            model.figure(target.of, &amounts).map(|figure| figure.value - here)
        });
        Some(then.collect::<Vec<_>>())
    };
    (more, problem.targets.iter().map(|target| of_target(target).unwrap_or_else(|| vec![None; lines])).collect())
}
