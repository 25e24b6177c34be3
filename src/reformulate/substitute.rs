//! One ingredient in the place of another, or two in the place of one, with the results held that matter.
//!
//! The new ingredient first takes the amount of the old one, gram for gram; then the nearest recipe to that is looked for
//! whose chosen results are those of the old recipe. So what is told apart is what the exchange itself would do, and what has
//! to move to make it good.

use std::sync::Arc;

use rust_decimal::prelude::ToPrimitive;
use thiserror::Error;

use super::answer::{Answer, Outcome, Reached, reformulate};
use super::helpers::{can_be_helped, helpers};
use super::measured::{Figure, Mass, Measured};
use super::problem::{Allowed, Change, Limit, Place, Problem, ProblemError, Rule, Scale};
use super::target::{Bound, Decides, Target};
use crate::analysis::ROOM;
use crate::analysis::make_up::{MakeUp, make_up};
use crate::analysis::parts::Group;
use crate::ingredient::Ingredient;
use crate::production::cost::cost;
use crate::production::price_list::PriceList;
use crate::recipe::{Line, LineId, Recipe};
use crate::units::Grams;

/// The exchange of an ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Substitution {
    /// The id of what goes.
    pub from: String,
    /// What comes in its place.
    pub to: Arc<Ingredient>,
    /// What may come besides, where the one alone cannot do it.
    pub besides: Option<Arc<Ingredient>>,
    /// Which results stay as they are.
    pub hold: Hold,
    /// Whether the other lines may move to make it good.
    pub others: Others,
    /// The ids of ingredients whose lines stay as they are, in the recipes that have them.
    pub locks: Vec<String>,
    /// What counts as little change.
    pub change: Change,
    /// What the scale shows.
    pub scale: Scale,
    /// What ingredients cost, where the cost is held.
    pub prices: PriceList,
}

/// Which results stay as they are in an exchange.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Hold {
    /// Those that usually matter, in every recipe its own: see [`usually_held`].
    #[default]
    Usual,
    /// These.
    These(Vec<Measured>),
    /// In every recipe those of these that it has: a dry mass has no water activity.
    TheseWhereThere(Vec<Measured>),
}

/// Whether the lines that have nothing to do with an exchange may move.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Others {
    /// They move as little as they can.
    #[default]
    Move,
    /// They stay; only what comes new is weighed otherwise, and the batch may change its weight.
    Stay,
}

/// A recipe after an exchange.
#[derive(Clone, Debug, PartialEq)]
pub struct Substituted {
    /// The recipe as it was.
    pub before: Recipe,
    /// The recipe with the new ingredient gram for gram, and what is asked of it.
    pub problem: Problem,
    /// What each result that is held was before, in the order of the targets of the problem.
    pub held: Vec<Figure>,
    /// What came of it.
    pub outcome: Outcome,
}

/// Why an ingredient cannot be exchanged in a recipe.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum SubstitutionError {
    /// It is not in it.
    #[error("the recipe has no {0}")]
    NotThere(String),
    /// It stands in a locked line, or is the seed.
    #[error("its line is locked or is the seed; unlock it first")]
    Locked,
    /// It would be exchanged for itself.
    #[error("it would be exchanged for itself")]
    Same,
    /// A result that is to be held has no figure, before or after.
    #[error("there is nothing to hold: {0:?} has no figure")]
    NoFigure(Measured),
    /// The problem cannot be worked on.
    #[error("{0}")]
    Problem(#[from] ProblemError),
}

/// How far a result may move and still counts as held, as a share of its grain: half a point of a share, a quarter of a kelvin,
/// half a hundredth of a water activity (judged: less than the models know).
pub const HELD_WITHIN: f64 = 0.5;

/// The same of a small figure, as a share of it: half a point is nothing in the fat and all of the salt (judged).
pub const HELD_WITHIN_SHARE: f64 = 0.05;

/// Nothing is held more finely than this, in grains: of a trace nobody notices that it comes or goes (judged).
const HELD_WITHIN_LEAST: f64 = 0.1;

/// What usually matters: the fat, the sugars, the water activity, and how firm it is.
pub const USUALLY_HELD: [Measured; 4] = [
    Measured::Group(Group::TotalFat),
    Measured::Group(Group::Sugars),
    Measured::WaterActivity,
    Measured::SolidFat(ROOM),
];

/// What is held unless something else is chosen: the fat, the sugars, the water activity where there is one, and how firm it is.
#[must_use]
pub fn usually_held(recipe: &Recipe) -> Vec<Measured> {
    let bowl = make_up(recipe).bowl;
    let mass = Mass::new(recipe, &bowl);
    USUALLY_HELD.into_iter().filter(|of| mass.figure(*of).is_some()).collect()
}

/// How far a result may move and still counts as held, in its unit.
#[must_use]
pub fn held_within(of: Measured, figure: Figure) -> f64 {
    let share = (HELD_WITHIN_SHARE * figure.value.abs()).max(HELD_WITHIN_LEAST * of.grain());
    (HELD_WITHIN * of.grain()).min(share)
}

/// What is asked for so that a result stays where it likely is: an edge would hold the width of its band. What is dry stays dry.
fn holding(of: Measured, figure: Figure) -> Target {
    let slack = held_within(of, figure);
    let bound = if of.is_upper_end(figure) {
        Bound::AtMost(figure.value)
    } else {
        Bound::Between(figure.value - slack, figure.value + slack)
    };
    Target { by: Decides::Value, ..Target::new(of, bound) }
}

/// A recipe that is asked for its figures, its cost among them where all its lines have a price.
#[must_use]
pub fn mass_with_cost<'a>(recipe: &Recipe, made_up: &'a MakeUp, prices: &PriceList) -> Mass<'a> {
    let money = cost(recipe, made_up, prices).totals().and_then(|totals| totals.batch.to_f64());
    Mass::new(recipe, &made_up.bowl).with_money(money)
}

impl Substitution {
    /// An exchange with what is usual: the usual results are held, other lines may move, the change is spread.
    #[must_use]
    pub fn new(from: &str, to: Arc<Ingredient>) -> Self {
        Self {
            from: from.to_owned(),
            to,
            besides: None,
            hold: Hold::default(),
            others: Others::default(),
            locks: Vec::new(),
            change: Change::default(),
            scale: Scale::default(),
            prices: PriceList::default(),
        }
    }

    /// The exchange in one recipe; nothing of it is changed.
    ///
    /// # Errors
    ///
    /// [`SubstitutionError`] where the ingredient is not there or locked, or where a result to hold has no figure.
    pub fn of(&self, recipe: &Recipe, is_stopped: &dyn Fn() -> bool) -> Result<Substituted, SubstitutionError> {
        let (problem, held) = self.problem(recipe)?;
        let mut outcome = reformulate(&problem, is_stopped)?;
        if matches!(&outcome, Outcome::Impossible(why) if why.is_by_scale)
            && let Some(answer) = inside(&problem, is_stopped)?
        {
            outcome = Outcome::Changed(answer);
        }
        Ok(Substituted { before: recipe.clone(), problem, held, outcome })
    }

    /// Looks for what could come besides where an exchange cannot be done; what was found until it was stopped counts.
    pub fn seek_helpers(&self, substituted: &mut Substituted, is_stopped: &dyn Fn() -> bool) {
        let Substituted { before, problem, outcome: Outcome::Impossible(why), .. } = substituted else { return };
        // Nothing comes besides what comes besides.
        if self.besides.is_some() || !can_be_helped(why) {
            return;
        }
        let is_free =
            |line: &Line| self.others == Others::Move && !line.stays() && !self.locks.contains(&line.ingredient.id);
        let with = |ingredient: &Arc<Ingredient>| {
            let is_it = |id: &str| id == ingredient.id;
            let moves_already = problem.recipe.lines.iter().any(|line| is_it(&line.ingredient.id) && is_free(line));
            if is_it(&self.from) || is_it(&self.to.id) || moves_already {
                return None;
            }
            let besides = Self { besides: Some(Arc::clone(ingredient)), ..self.clone() };
            Some(besides.problem(before).ok()?.0)
        };
        why.helpers = helpers(problem, with, is_stopped);
    }

    fn problem(&self, recipe: &Recipe) -> Result<(Problem, Vec<Figure>), SubstitutionError> {
        if self.to.id == self.from {
            return Err(SubstitutionError::Same);
        }
        let is_from = |id: &str| id == self.from;
        let there: Vec<&Line> = recipe.lines.iter().filter(|line| is_from(&line.ingredient.id)).collect();
        if there.iter().all(|line| line.amount.grams().0 <= 0.0) {
            return Err(SubstitutionError::NotThere(self.from.clone()));
        }
        if there.iter().any(|line| line.stays()) {
            return Err(SubstitutionError::Locked);
        }
        let exchanged: Vec<LineId> = there.iter().map(|line| line.id).collect();
        let made_up = make_up(recipe);
        let mass = mass_with_cost(recipe, &made_up, &self.prices);
        let mut changed = recipe.clone();
        for line in changed.lines.iter_mut().filter(|line| exchanged.contains(&line.id)) {
            line.ingredient = self.to.clone();
            line.recipe_file = None;
        }
        let mut problem = Problem::new(changed);
        let hold = match &self.hold {
            Hold::Usual => usually_held(recipe),
            Hold::These(hold) => hold.clone(),
            Hold::TheseWhereThere(hold) => hold.iter().copied().filter(|of| mass.figure(*of).is_some()).collect(),
        };
        if let Some(target) = hold.iter().position(|of| *of == Measured::Cost) {
            // Nothing is converted: what costs the same number in other money is not held.
            let currency = |recipe: &Recipe, made_up: &MakeUp| cost(recipe, made_up, &self.prices).currency;
            let before = currency(recipe, &made_up);
            if before.is_some() && before != currency(&problem.recipe, &make_up(&problem.recipe)) {
                return Err(ProblemError::NoFigure { target, of: Measured::Cost }.into());
            }
        }
        let mut held = Vec::with_capacity(hold.len());
        for of in hold {
            let figure = mass.figure(of).ok_or(SubstitutionError::NoFigure(of))?;
            problem.targets.push(holding(of, figure));
            held.push(figure);
        }
        // Of what is in the recipe already the line rises.
        let is_besides = |line: &Line| self.besides.as_ref().is_some_and(|besides| besides.id == line.ingredient.id);
        let new = self.besides.iter().filter(|_| !problem.recipe.lines.iter().any(is_besides));
        problem.allowed = new.map(|ingredient| Allowed { ingredient: ingredient.clone(), most: None }).collect();
        problem.allowed_for = Some(there.iter().map(|line| line.amount.grams()).sum());
        let is_locked = |line: &&Line| self.locks.contains(&line.ingredient.id) && !exchanged.contains(&line.id);
        let locked = problem.recipe.lines.iter().filter(is_locked);
        problem.limits = locked.map(|line| Limit { place: Place::Line(line.id), rule: Rule::Locked }).collect();
        problem.lock_seasoning(|line| exchanged.contains(&line.id));
        if self.others == Others::Stay {
            let is_other = |line: &&Line| !exchanged.contains(&line.id) && !is_besides(line);
            let others = problem.recipe.lines.iter().filter(is_other);
            problem.limits = others.map(|line| Limit { place: Place::Line(line.id), rule: Rule::Locked }).collect();
            problem.keeps_total = false;
        }
        problem.change = self.change;
        problem.scale = self.scale;
        problem.prices = self.prices.clone();
        Ok((problem, held))
    }
}

/// The answer of which weighed amounts do what is asked, looked for a little inside the ends: what lies at an end leaves it
/// when its amounts are rounded to the scale.
fn inside(problem: &Problem, is_stopped: &dyn Fn() -> bool) -> Result<Option<Box<Answer>>, ProblemError> {
    /// So much of what a result may move is left to the scale (judged: 1 g of a batch of 1 kg moves a share by a tenth).
    const LEFT_TO_SCALE: f64 = 0.3;
    let mut narrower = problem.clone();
    for target in &mut narrower.targets {
        if let Bound::Between(low, high) = target.bound {
            let by = LEFT_TO_SCALE * (high - low) / 2.0;
            target.bound = Bound::Between(low + by, high - by);
        }
    }
    let mut answer = match reformulate(&narrower, is_stopped)? {
        Outcome::Changed(answer) => answer,
        Outcome::Impossible(why) if why.is_by_scale => Box::new(why.nearest),
        _ => return Ok(None),
    };
    for (reached, target) in answer.reached.iter_mut().zip(&problem.targets) {
        // Whether it binds is kept: it is what pulled, and at its end but for the room that the scale was left.
        reached.target = *target;
    }
    let is_met = answer.missed().next().is_none();
    Ok(is_met.then_some(answer))
}

impl Substituted {
    /// The recipe with the exchange, where everything that is to be held is held.
    #[must_use]
    pub fn recipe(&self) -> Option<&Recipe> {
        match &self.outcome {
            Outcome::Unchanged(_) => Some(&self.problem.recipe),
            Outcome::Changed(answer) => Some(&answer.recipe),
            Outcome::Impossible(_) | Outcome::Stopped => None,
        }
    }

    /// The answer, where amounts had to move.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        match &self.outcome {
            Outcome::Changed(answer) => Some(answer),
            Outcome::Impossible(why) => Some(&why.nearest),
            Outcome::Unchanged(_) | Outcome::Stopped => None,
        }
    }

    /// Of these results those that are not held, because the recipe has none.
    #[must_use]
    pub fn without(&self, asked: &[Measured]) -> Vec<Measured> {
        let is_held = |of: &Measured| self.problem.targets.iter().any(|target| target.of == *of);
        asked.iter().copied().filter(|of| !is_held(of)).collect()
    }

    /// What each target is gram for gram and at the end, in their order; none where it was stopped.
    #[must_use]
    pub fn reached(&self) -> &[Reached] {
        match &self.outcome {
            Outcome::Unchanged(reached) => reached,
            Outcome::Changed(answer) => &answer.reached,
            Outcome::Impossible(why) => &why.nearest.reached,
            Outcome::Stopped => &[],
        }
    }

    /// The recipe that is proposed; where it cannot be done, the nearest there is.
    #[must_use]
    pub fn nearest(&self) -> Option<&Recipe> {
        self.recipe().or_else(|| self.answer().map(|answer| &answer.recipe))
    }

    /// The lines of the old recipe and the new one with their amounts, of all that differ in ingredient or amount: what stood
    /// there, and what stands there now.
    #[must_use]
    pub fn differences(&self) -> Vec<Difference> {
        let Some(after) = self.nearest() else {
            return Vec::new();
        };
        let old = self.before.lines.iter().map(|line| {
            let now = after.line(line.id);
            Difference {
                before: Some((line.ingredient.clone(), line.amount.grams())),
                after: now.map(|now| (now.ingredient.clone(), now.amount.grams())),
            }
        });
        let new = after
            .lines
            .iter()
            .filter(|line| self.before.line(line.id).is_none())
            .map(|line| Difference { before: None, after: Some((line.ingredient.clone(), line.amount.grams())) });
        old.chain(new).filter(|difference| difference.before != difference.after).collect()
    }
}

/// What stands in a place of a recipe before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// The ingredient and its amount before; none of a new line.
    pub before: Option<(Arc<Ingredient>, Grams)>,
    /// The ingredient and its amount after.
    pub after: Option<(Arc<Ingredient>, Grams)>,
}
