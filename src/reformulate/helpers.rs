//! What would help where it cannot be done: common ingredients, each tried as something that may be used besides.
//!
//! Nothing is guessed from what is missing: the nearest recipe with each of them is looked for like every other, so what is
//! advised can be done as it is told.

use std::sync::Arc;

use super::answer::{Answer, Impossible, Outcome, nearest_if_any};
use super::problem::{Allowed, Problem};
use super::target::{Bound, Target};
use crate::ingredient::{Ingredient, Library};
use crate::recipe::Line;
use crate::units::Grams;

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
    /// How many were tried: none where nothing that is added can help.
    pub tried: usize,
    /// Those with each of which it can be done: first those that bring no new allergen, then those with which less changes.
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
    why.helpers = Some(helpers(problem, with, is_stopped));
}

/// Whether something that is added may be what is missing: not where the scale is too coarse.
pub(super) fn can_be_helped(why: &Impossible) -> bool {
    !why.is_by_scale && !why.conflict.is_empty()
}

/// Tries all common ingredients; `with` makes the problem in which one may be used, where there is any use in that.
pub(super) fn helpers(
    problem: &Problem,
    with: impl Fn(&Arc<Ingredient>) -> Option<Problem>,
    is_stopped: &dyn Fn() -> bool,
) -> Helpers {
    let mut helpers = Helpers { tried: 0, found: Vec::new() };
    if contradicts_itself(problem) {
        return helpers;
    }
    for ingredient in COMMON.iter().filter_map(|id| Library::built_in().by_id(id)) {
        let Some(problem) = with(ingredient) else { continue };
        let answer = nearest_if_any(&problem, is_stopped);
        if is_stopped() {
            break;
        }
        helpers.tried += 1;
        helpers.found.extend(answer.and_then(|answer| helper(&problem.recipe.lines, ingredient, &answer)));
    }
    helpers.found.sort_by(|left, right| {
        left.brings_allergen.cmp(&right.brings_allergen).then(left.change.total_cmp(&right.change))
    });
    helpers
}

fn helper(lines: &[Line], ingredient: &Arc<Ingredient>, answer: &Answer) -> Option<Helper> {
    let moved = answer.moves.iter().filter(|moved| moved.ingredient.id == ingredient.id);
    let more = Grams(moved.map(|moved| moved.after.0 - moved.before.0).sum());
    let has = |allergen: &String| {
        let of_line =
            |line: &Line| line.ingredient.properties.allergens.as_ref().is_some_and(|names| names.contains(allergen));
        lines.iter().filter(|line| line.amount.grams().0 > 0.0).any(of_line)
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
