//! What would help where it cannot be done: common ingredients, each tried as something that may be used besides.
//!
//! Nothing is guessed from what is missing: a recipe with each of them is looked for, and of those that are named the nearest
//! like every other, so what is advised comes as it is told.

use std::sync::Arc;

use super::answer::{Answer, Impossible, Outcome, nearest_if_any, reformulate};
use super::problem::{Allowed, Problem};
use super::target::{Bound, Target};
use crate::analysis::findings::POLYOL_CAUTION;
use crate::analysis::make_up::make_up;
use crate::analysis::parts::Parts;
use crate::analysis::syrup::LEAST_WATER;
use crate::ingredient::{Component, Ingredient, Library};
use crate::recipe::{Line, Recipe};
use crate::units::{Grams, MassFraction};

/// What most kitchens have that work with chocolate (common practice, no published source). No spirit, no salt, nothing that is
/// there for its taste.
const COMMON: [&str; 16] = [
    "sucrose",
    "dextrose-monohydrate",
    "invert-syrup",
    "glucose-syrup-de40",
    "glucose-syrup-dried-de36",
    "sorbitol-powder",
    "cocoa-butter",
    "cocoa-powder-20-22",
    "couverture-dark-70",
    "butter-82",
    "milk-fat-anhydrous",
    "cream-35",
    "milk-whole",
    "milk-powder-skim",
    "oil-sunflower",
    "water",
];

/// What came of trying ingredients.
#[derive(Clone, Debug, PartialEq)]
pub struct Helpers {
    /// Whether nothing that is added can help: one figure is asked for in two places that nothing meets at once.
    pub is_hopeless: bool,
    /// How many were tried.
    pub tried: usize,
    /// Those with each of which it can be done and stays the product that it is: first those that bring no new allergen, then
    /// those with which less changes.
    pub found: Vec<Helper>,
}

/// An ingredient with which it can be done.
#[derive(Clone, Debug, PartialEq)]
pub struct Helper {
    /// The ingredient.
    pub ingredient: Arc<Ingredient>,
    /// How much more of it there is in the nearest recipe with it, as it is weighed.
    pub more: Grams,
    /// How much changes then, as [`Answer::change`].
    change: f64,
    /// Whether it brings an allergen that the recipe did not have, or may bring one.
    brings_allergen: bool,
}

impl Helpers {
    /// Those that are named: who gets a list has to choose again.
    #[must_use]
    pub fn named(&self) -> &[Helper] {
        /// So many (judged).
        const NAMED: usize = 3;
        &self.found[..self.found.len().min(NAMED)]
    }
}

/// Looks for what would help where a problem has no answer; what was found until it was stopped counts.
pub fn seek_helpers(problem: &Problem, outcome: &mut Outcome, is_stopped: &dyn Fn() -> bool) {
    let Outcome::Impossible(why) = outcome else { return };
    if !can_be_helped(why) {
        return;
    }
    let with = |ingredient: &Arc<Ingredient>| {
        let is_it = |other: &Arc<Ingredient>| other.id == ingredient.id;
        if problem.places().any(|place| problem.ingredient(place).is_some_and(is_it)) {
            return None;
        }
        let mut problem = problem.clone();
        problem.allowed.push(Allowed { ingredient: Arc::clone(ingredient), most: None });
        Some(problem)
    };
    why.helpers = helpers(problem, with, is_stopped);
}

/// Whether something that is added may be what is missing: where nothing contradicts anything, the scale is to blame or a jump.
pub(super) fn can_be_helped(why: &Impossible) -> bool {
    !why.conflict.is_empty()
}

/// Tries all common ingredients; `with` makes the problem in which one may be used, where there is any use in that. `None` where
/// it was stopped before one was found.
pub(super) fn helpers(
    problem: &Problem,
    with: impl Fn(&Arc<Ingredient>) -> Option<Problem>,
    is_stopped: &dyn Fn() -> bool,
) -> Option<Helpers> {
    let mut helpers = Helpers { is_hopeless: contradicts_itself(problem), tried: 0, found: Vec::new() };
    if helpers.is_hopeless {
        return Some(helpers);
    }
    let is_dry = make_up(&problem.recipe).bowl.share(Component::Water).is_some_and(|share| share < LEAST_WATER);
    let common = COMMON.iter().filter_map(|id| Library::built_in().by_id(id));
    for ingredient in common.filter(|ingredient| !(is_dry && is_wet(ingredient))) {
        let Some(problem) = with(ingredient) else { continue };
        let answer = nearest_if_any(&problem, is_stopped);
        if is_stopped() {
            break;
        }
        helpers.tried += 1;
        helpers.found.extend(answer.and_then(|answer| helper(&problem, ingredient, &answer)));
    }
    if is_stopped() && helpers.found.is_empty() {
        return None;
    }
    sort(&mut helpers.found);
    // They were found on the first way; what is named is what comes of it.
    let named = helpers.named().len();
    for found in &mut helpers.found[..named] {
        if let Some(problem) = with(&found.ingredient)
            && let Ok(Outcome::Changed(answer)) = reformulate(&problem, is_stopped)
            && let Some(exactly) = helper(&problem, &found.ingredient, &answer)
        {
            *found = exactly;
        }
    }
    sort(&mut helpers.found[..named]);
    Some(helpers)
}

/// Whether an ingredient brings water: into a mass of fat it is not stirred, it would thicken or split.
fn is_wet(ingredient: &Ingredient) -> bool {
    /// From so much water on it does; powders have less (judged).
    const WET: MassFraction = MassFraction(0.06);
    let mut parts = Parts::default();
    parts.add(ingredient, Grams(100.0));
    parts.share(Component::Water).is_none_or(|water| water > WET)
}

/// Whether an answer is another product rather than a way to make this one: no advice.
fn is_another_product(ingredient: &Ingredient, answer: &Answer) -> bool {
    /// So much change for each line of the recipe, and so much of the batch in what comes in (judged).
    const MOST_CHANGE: f64 = 1.0;
    const MOST_OF_BATCH: f64 = 0.5;
    let of_it = answer.moves.iter().filter(|moved| moved.ingredient.id == ingredient.id).map(|moved| moved.after.0);
    // What comes in is measured by little: its own change says nothing of the others.
    let others = answer.moves.iter().filter(|moved| moved.before.0 > 0.0);
    let over: f64 = others.map(|moved| (moved.after.0 / moved.before.0 - 1.0).powi(2) - MOST_CHANGE).sum();
    over > 0.0 || of_it.sum::<f64>() > MOST_OF_BATCH * answer.recipe.weighed().0
}

/// Whether more polyols come of it than may stay without a caution on the label.
fn brings_much_polyol(problem: &Problem, answer: &Answer) -> bool {
    let share = |recipe: &Recipe| make_up(recipe).bowl.share(Component::Polyols);
    let after = share(&answer.recipe);
    after.is_some_and(|after| after > POLYOL_CAUTION) && after > share(&problem.recipe)
}

fn sort(found: &mut [Helper]) {
    found.sort_by(|left, right| {
        left.brings_allergen.cmp(&right.brings_allergen).then(left.change.total_cmp(&right.change))
    });
}

/// What an answer says of an ingredient that it was allowed; `None` where that helps nobody.
fn helper(problem: &Problem, ingredient: &Arc<Ingredient>, answer: &Answer) -> Option<Helper> {
    if is_another_product(ingredient, answer) || brings_much_polyol(problem, answer) {
        return None;
    }
    let moved = answer.moves.iter().filter(|moved| moved.ingredient.id == ingredient.id);
    let more = Grams(moved.map(|moved| moved.after.0 - moved.before.0).sum());
    let has = |allergen: &String| {
        let of_line =
            |line: &Line| line.ingredient.properties.allergens.as_ref().is_some_and(|names| names.contains(allergen));
        problem.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0).any(of_line)
    };
    let brings_allergen = ingredient.properties.allergens.as_ref().is_none_or(|allergens| !allergens.iter().all(has));
    let ingredient = Arc::clone(ingredient);
    (more.0 != 0.0).then_some(Helper { ingredient, more, change: answer.change, brings_allergen })
}

/// Whether the same figure is asked for in two places at once: nothing that is added helps.
fn contradicts_itself(problem: &Problem) -> bool {
    let ends = |target: &Target| match target.bound {
        Bound::AtMost(high) => (f64::NEG_INFINITY, high),
        Bound::AtLeast(low) => (low, f64::INFINITY),
        Bound::Between(low, high) => (low, high),
        Bound::Near(_) => (f64::NEG_INFINITY, f64::INFINITY),
    };
    let excludes = |one: &Target, other: &Target| one.of == other.of && ends(one).0 > ends(other).1;
    let targets = &problem.targets;
    targets.iter().any(|one| targets.iter().any(|other| excludes(one, other)))
}
