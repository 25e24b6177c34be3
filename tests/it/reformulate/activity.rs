//! Water activities far down, to where the figure ends: what is drier than 0.50 "lies below".
//!
//! Solver: `SciPy` 1.17.1, SLSQP, three starts, with the program's own report for the water activity at every step and slopes by
//! differences. A bound on the upper edge that only what is dry meets (from 0.50 to 0.55) was given to it as one on the value,
//! at most 0.50. These optima change when the models do, and are then to be computed anew.

use approx::assert_relative_eq;
use nibwright::recipe::Recipe;
use nibwright::reformulate::{Bound, Decides, Measured, Outcome, Problem, Target};

use super::{changed, grams_after, missed_in_report, outcome, unrounded};
use crate::support::recipe;

const DARK_WITH_SORBITOL: &[(&str, f64)] = &[
    ("couverture-dark-64", 400.0),
    ("cream-35", 250.0),
    ("butter-82", 50.0),
    ("glucose-syrup-de40", 40.0),
    ("sorbitol-powder", 20.0),
];

const DARK_WITH_CONDENSED_MILK: &[(&str, f64)] = &[
    ("couverture-dark-70", 380.0),
    ("cream-35", 290.0),
    ("butter-82", 55.0),
    ("invert-syrup", 35.0),
    ("glucose-syrup-de40", 48.0),
    ("condensed-milk-sweetened", 40.0),
];

const ALMOND: &[(&str, f64)] = &[
    ("almond-paste-pure", 200.0),
    ("couverture-dark-64", 200.0),
    ("glucose-syrup-de40", 60.0),
    ("cream-35", 60.0),
    ("sucrose", 90.0),
    ("butter-82", 30.0),
];

fn at_most(at: f64, by: Decides) -> Target {
    Target { by, ..Target::new(Measured::WaterActivity, Bound::AtMost(at)) }
}

fn asked(recipe: Recipe, target: Target) -> Problem {
    Problem { targets: vec![target], ..unrounded(recipe) }
}

/// 0.1 % of the change; found are 0.01 %.
#[test]
fn optima_far_down_agree_with_a_general_purpose_solver() {
    use Decides::{UnfavourableEdge, Value};
    for (lines, at, by, least) in [
        (DARK_WITH_SORBITOL, 0.65, Value, 1.050_38),
        (DARK_WITH_SORBITOL, 0.70, UnfavourableEdge, 1.050_38),
        (DARK_WITH_SORBITOL, 0.65, UnfavourableEdge, 1.152_93),
        (DARK_WITH_SORBITOL, 0.62, UnfavourableEdge, 1.201_82),
        (DARK_WITH_CONDENSED_MILK, 0.55, Value, 1.718_85),
        (DARK_WITH_CONDENSED_MILK, 0.52, Value, 1.922_83),
        (ALMOND, 0.50, Value, 1.178_30),
        (ALMOND, 0.53, UnfavourableEdge, 1.178_30),
        (ALMOND, 0.55, UnfavourableEdge, 1.178_30),
    ] {
        let answer = changed(&asked(recipe(lines), at_most(at, by)));
        assert_relative_eq!(answer.change, least, max_relative = 1e-3);
        assert!(answer.is_settled, "{at}");
        let missed = missed_in_report(&answer.recipe, &at_most(at, by));
        assert!(missed <= 1e-6, "{at}: {missed}");
    }
}

/// On the steps of a kitchen scale 1 % of it at most is given away.
#[test]
fn little_is_given_away_on_the_scale() {
    for (lines, at, least) in [
        (DARK_WITH_SORBITOL, 0.65, 1.152_93),
        (DARK_WITH_CONDENSED_MILK, 0.60, 1.718_85),
        (ALMOND, 0.53, 1.178_30),
        (ALMOND, 0.65, 0.880_7),
    ] {
        let target = at_most(at, Decides::UnfavourableEdge);
        let problem = Problem { targets: vec![target], ..Problem::new(recipe(lines)) };
        let answer = changed(&problem);
        let batch = problem.recipe.weighed().0;
        let change: f64 = answer
            .moves
            .iter()
            .map(|moved| ((moved.after.0 - moved.before.0) / moved.before.0.max(0.02 * batch)).powi(2))
            .sum();
        assert!(change <= 1.01 * least, "{at}: {change} {:?}", grams_after(&answer));
        assert!(missed_in_report(&answer.recipe, &target) <= 1e-6, "{at}");
    }
}

/// Nothing is told to lie lower than what is dry: every wish down there asks for the same.
#[test]
fn wishes_below_the_end_of_the_figure_ask_for_the_nearest_dry_mass() {
    for lines in [DARK_WITH_SORBITOL, ALMOND] {
        let dry = changed(&asked(recipe(lines), at_most(0.5, Decides::Value)));
        for at in [0.49, 0.3, 0.05] {
            let wish = Target::new(Measured::WaterActivity, Bound::Near(at));
            let answer = changed(&asked(recipe(lines), wish));
            assert_relative_eq!(answer.change, dry.change, max_relative = 1e-3);
            let reached = answer.reached[0];
            assert!(reached.target.is_beyond_figures(reached.after), "{at} {reached:?}");
        }
    }
}

/// What is dry is never said to reach a bound from below, and no bound below 0.50 is met.
#[test]
fn bounds_that_no_figure_can_tell() {
    let lower = Target::new(Measured::WaterActivity, Bound::AtMost(0.45));
    assert!(matches!(outcome(&asked(recipe(ALMOND), lower)), Outcome::Impossible(_)));
    let dry = changed(&asked(recipe(ALMOND), at_most(0.5, Decides::Value)));
    let at_least = Target::new(Measured::WaterActivity, Bound::AtLeast(0.4));
    let answer = changed(&asked(dry.recipe, at_least));
    assert!(missed_in_report(&answer.recipe, &at_least) <= 1e-6);
}
