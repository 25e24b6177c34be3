//! Bounds on the upper edge of a water activity, which jumps: where a syrup is strong, where lactose crystallises by itself, where
//! a mass is so dry that it is only said to lie below 0.50.
//!
//! Solver: `SciPy` 1.17.1, SLSQP, several starts, with the program's own report for the water activity at every step and slopes by
//! differences. On each side of a jump it was given what holds there: of a dry mass a value of at most 0.50, of one that is not
//! strong a value of at least 0.70, with the value that has this edge. These optima change when the models do, and are then to be
//! computed anew.

use approx::assert_relative_eq;
use nibwright::recipe::Recipe;
use nibwright::reformulate::{Allowed, Bound, Decides, Measured, Outcome, Problem, Target, reformulate};
use proptest::prelude::*;

use super::properties::{any_recipe, cases, short};
use super::{changed, grams_after, missed_in_report, outcome, unrounded};
use crate::support::{built_in, recipe};

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

/// More lactose than stays dissolved.
const MILK: &[(&str, f64)] = &[
    ("couverture-milk-36", 300.0),
    ("cream-35", 120.0),
    ("milk-powder-whole", 30.0),
    ("sucrose", 30.0),
    ("glucose-syrup-de40", 40.0),
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
        (MILK, 0.80, UnfavourableEdge, 0.119_59),
        (MILK, 0.795, UnfavourableEdge, 0.155_5),
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

/// A mass without an emulsion has no water activity but "below 0.50": the way to more leads over the water that it lacks. By the
/// report 490 g of praline paste, 63 g of cocoa butter and 7 g of water have 0.777.
#[test]
fn a_dry_mass_finds_the_way_to_a_bound_from_below() {
    let praline = || recipe(&[("praline-hazelnut-50", 500.0), ("cocoa-butter", 60.0)]);
    let allowed = vec![Allowed { ingredient: built_in("water"), most: None }];
    for bound in [Bound::AtLeast(0.6), Bound::AtLeast(0.4)] {
        let target = Target::new(Measured::WaterActivity, bound);
        let answer = changed(&Problem { allowed: allowed.clone(), ..asked(praline(), target) });
        assert!(missed_in_report(&answer.recipe, &target) <= 1e-6, "{:?}", grams_after(&answer));
    }
    let wish = Target::new(Measured::WaterActivity, Bound::Near(0.75));
    let answer = changed(&Problem { allowed, ..asked(praline(), wish) });
    assert!((answer.reached[0].after.value - 0.75).abs() < 1e-3, "{:?}", answer.reached);
}

/// A wish has two sides: the likely value decides, whatever is said of a bound.
#[test]
fn a_wish_goes_by_the_likely_value() {
    for by in [Decides::Value, Decides::UnfavourableEdge] {
        let wish = Target { by, ..Target::new(Measured::WaterActivity, Bound::Near(0.85)) };
        let answer = changed(&asked(recipe(DARK_WITH_SORBITOL), wish));
        assert!((answer.reached[0].after.value - 0.85).abs() < 1e-4, "{:?}", answer.reached);
    }
}

proptest! {
    #![proptest_config(cases(24))]

    /// What meets a tighter bound meets a looser one, so that the nearest to the looser one is at least as near.
    #[test]
    fn a_looser_bound_never_asks_for_more(recipe in any_recipe(), at in 0.5..0.9, looser in 0.001..0.05) {
        let change = |at: f64| match reformulate(&asked(recipe.clone(), at_most(at, Decides::UnfavourableEdge)), &|| false) {
            Ok(Outcome::Changed(answer)) => Some(answer.change),
            Ok(Outcome::Unchanged(_)) => Some(0.0),
            _ => None,
        };
        let Some(tight) = change(at) else { return Ok(()) };
        let loose = change(at + looser);
        let is_at_least_as_near = loose.is_some_and(|loose| loose <= 1.001 * tight + 1e-6);
        prop_assert!(is_at_least_as_near, "{at} {tight}, {looser} {loose:?}: {}", short(&asked(recipe.clone(), at_most(at, Decides::Value))));
    }
}
