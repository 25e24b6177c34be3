//! Problems so small that the nearest recipe is known by hand.
//!
//! Of lines whose changes d have to add up to D, least Σ (d/s)² is d = D·s²/Σ s² (a line through the origin, Lagrange's
//! multiplier). Sugar, dextrose and water stand for themselves: 100 g of white sugar are 100 g of sucrose.

use std::sync::Arc;

use approx::assert_relative_eq;
use nibwright::analysis::parts::Group;
use nibwright::ingredient::{Component, Composition, Ingredient};
use nibwright::recipe::{Evaporation, LineId, Quantity, Recipe};
use nibwright::reformulate::{
    Allowed, Bound, Change, Limit, Measured, Member, Outcome, Place, Problem, Reachable, Rule, Target,
};
use nibwright::units::Grams;

use super::{changed, grams_after, impossible, outcome, unrounded};

/// An ingredient of one component alone.
fn pure(component: Component) -> Arc<Ingredient> {
    let mut ingredient = Ingredient::unknown(component.key(), component.words());
    ingredient.composition = Composition::new([(component, 100.0)], [], 0.0).expect("100 g");
    Arc::new(ingredient)
}

/// Water 400 g, sucrose 400 g, glucose 200 g.
fn syrup() -> Recipe {
    let mut recipe = Recipe::default();
    for (component, grams) in [(Component::Water, 400.0), (Component::Sucrose, 400.0), (Component::Glucose, 200.0)] {
        recipe.push(pure(component), Quantity::from_grams(grams).expect("an amount"));
    }
    recipe
}

fn water(bound: Bound) -> Target {
    Target::new(Measured::Group(Group::Water), bound)
}

fn asked(targets: &[Target]) -> Problem {
    Problem { targets: targets.to_vec(), ..unrounded(syrup()) }
}

fn assert_amounts(amounts: &[f64], expected: &[f64]) {
    assert_eq!(amounts.len(), expected.len());
    for (amount, expected) in amounts.iter().zip(expected) {
        assert!((amount - expected).abs() < 2e-4, "{amounts:?}");
    }
}

/// 100 g of water go; 400² : 200² of the sugars share them, 80 and 20 g. Change: 0.25² + 0.2² + 0.1² = 0.1125.
#[test]
fn a_change_is_spread_by_the_squares_of_the_amounts() {
    let answer = changed(&asked(&[water(Bound::AtMost(30.0))]));
    assert_amounts(&grams_after(&answer), &[300.0, 480.0, 220.0]);
    assert_relative_eq!(answer.change, 0.1125, max_relative = 1e-6);
}

/// The same by few lines: sucrose costs 100/400, glucose would cost 100/200.
#[test]
fn few_lines_change_where_that_is_asked() {
    let problem = Problem { change: Change::FewLines, ..asked(&[water(Bound::AtMost(30.0))]) };
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer), &[300.0, 500.0, 200.0]);
    assert_relative_eq!(answer.change, 0.5, max_relative = 1e-4);
}

/// An added line is measured by 2 % of the batch, 20 g: of 100 g it takes 100·20²/(400² + 200² + 20²) = 0.19960 g.
#[test]
fn an_added_line_has_a_price() {
    let mut problem = asked(&[water(Bound::AtMost(30.0))]);
    problem.allowed = vec![Allowed { ingredient: pure(Component::Fructose), most: None }];
    let squares = 400.0_f64.powi(2) + 200.0_f64.powi(2) + 20.0_f64.powi(2);
    let share = |scale: f64| 100.0 * scale * scale / squares;
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer), &[300.0, 400.0 + share(400.0), 200.0 + share(200.0), share(20.0)]);
    assert_eq!(answer.recipe.lines.len(), 4);
    // All of it from the added line, if the others are locked and it may.
    for line in &mut problem.recipe.lines[1..] {
        line.is_locked = true;
    }
    assert_amounts(&grams_after(&changed(&problem)), &[300.0, 400.0, 200.0, 100.0]);
}

/// With the total free nothing has to make room, and sugars that rise too are cheaper than water alone that falls: to 257.14 g,
/// 30 % of x + 600, if nothing else moved.
///
/// By Lagrange, the least Σ (u/s)² with Σ g·(x + u) ≤ 0 has each change u = −(Σ g·x)/(Σ (g·s)²)·s²·g, with g the slopes of
/// 0.7·water − 0.3·(the others) and s the spans.
#[test]
fn a_free_total_lets_everything_rise() {
    let problem = Problem { keeps_total: false, ..asked(&[water(Bound::AtMost(30.0))]) };
    let (slopes, scales, before) = ([0.7, -0.3, -0.3], [400.0_f64, 400.0, 200.0], [400.0, 400.0, 200.0]);
    let over: f64 = slopes.iter().zip(before).map(|(slope, amount)| slope * amount).sum();
    let squares: f64 = slopes.iter().zip(scales).map(|(slope, scale)| (slope * scale).powi(2)).sum();
    let expected: Vec<f64> =
        (0..3).map(|idx| before[idx] - over / squares * scales[idx].powi(2) * slopes[idx]).collect();
    assert_amounts(&grams_after(&changed(&problem)), &expected);
}

/// Water weighed off as vapour counts: 100 g gone of 1000 leave 300 g in 900; 30 % of 900 are 270, so 370 g are weighed in.
#[test]
fn what_evaporates_is_counted() {
    let mut problem = asked(&[water(Bound::AtMost(30.0))]);
    problem.recipe.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(100.0).expect("an amount"));
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer), &[370.0, 424.0, 206.0]);
    assert_relative_eq!(answer.reached[0].before.value, 100.0 / 3.0, max_relative = 1e-12);
}

#[test]
fn what_holds_already_changes_nothing() {
    for bound in [Bound::AtMost(40.0), Bound::AtLeast(40.0), Bound::Between(35.0, 45.0), Bound::Near(40.0)] {
        assert!(matches!(outcome(&asked(&[water(bound)])), Outcome::Unchanged(_)), "{bound:?}");
    }
}

/// A wish comes as near as the rest allows: sucrose near 60 %, water at least 35 %, glucose locked at 20 %: 45 %.
#[test]
fn a_wish_comes_as_near_as_the_rest_allows() {
    let sucrose = Measured::Component(Component::Sucrose);
    let mut problem = asked(&[Target::new(sucrose, Bound::Near(60.0)), water(Bound::AtLeast(35.0))]);
    problem.recipe.lines[2].is_locked = true;
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer), &[350.0, 450.0, 200.0]);
    assert!(answer.reached[0].is_met(), "a wish is never missed");
    assert_relative_eq!(answer.reached[0].target.missed_by(answer.reached[0].after), 15.0, max_relative = 1e-5);
    // Where it can be had, it is had.
    problem.targets[1] = water(Bound::AtLeast(10.0));
    assert_amounts(&grams_after(&changed(&problem)), &[200.0, 600.0, 200.0]);
}

#[test]
fn amounts_are_bounded_tied_and_packed() {
    let at = |idx: u32| Place::Line(LineId(idx));
    let mut problem = asked(&[water(Bound::AtMost(30.0))]);
    problem.limits = vec![Limit { place: at(1), rule: Rule::AtMost(Grams(450.0)) }];
    assert_amounts(&grams_after(&changed(&problem)), &[300.0, 450.0, 250.0]);
    problem.limits = vec![Limit { place: at(2), rule: Rule::TimesOther { other: at(1), times: 0.5 } }];
    assert_amounts(&grams_after(&changed(&problem)), &[300.0, 466.6667, 233.3333]);
    // 80 and 20 g are nearest; in packs of 50 g glucose can be 200 or 250: 0.25² or 0.125² + 0.25².
    problem.limits = vec![Limit { place: at(2), rule: Rule::InPacks(Grams(50.0)) }];
    assert_amounts(&grams_after(&changed(&problem)), &[300.0, 500.0, 200.0]);
    problem.limits = vec![
        Limit { place: at(2), rule: Rule::InPacks(Grams(300.0)) },
        Limit { place: at(1), rule: Rule::AtLeast(Grams(100.0)) },
    ];
    assert_amounts(&grams_after(&changed(&problem)), &[300.0, 400.0, 300.0]);
}

/// By hand: sucrose at 70 and water at 29 % of 1000 g leave 10 g of glucose.
///
/// r = (x − x₀)/x₀² is −6.875e-4 of water, 1.875e-3 of sucrose and −4.75e-3 of glucose, so sucrose pulls with
/// a = 1.875e-3 + 4.75e-3 and water with b = −6.875e-4 + 4.75e-3. What pulls one line up takes it from all by their x₀²: of
/// 360,000 these are 4/9, 4/9 and 1/9. So a line moves by a·x₀²·(1 − 4/9) or −a·x₀²·4/9: water −471.1, sucrose 588.9, glucose
/// −117.8 g, and for the water 361.1, −288.9 and −72.2 g.
#[test]
fn a_line_that_makes_room_is_pulled_by_each_target_as_by_hand() {
    let sucrose = Measured::Component(Component::Sucrose);
    let problem = asked(&[Target::new(sucrose, Bound::AtLeast(70.0)), water(Bound::AtLeast(29.0))]);
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer), &[290.0, 700.0, 10.0]);
    let (a, b) = (6.625e-3, 4.0625e-3);
    let squares = [160_000.0, 160_000.0, 40_000.0];
    for (idx, (moved, square)) in answer.moves.iter().zip(squares).enumerate() {
        let share = |of: usize| if idx == of { 5.0 / 9.0 } else { -4.0 / 9.0 };
        for (member, by) in [(Member::Target(0), a * square * share(1)), (Member::Target(1), b * square * share(0))] {
            let pull = moved.pulls.iter().find(|pull| pull.member == member).expect("both targets pull");
            assert_relative_eq!(pull.by.0, by, max_relative = 1e-4);
        }
        assert_eq!(moved.pulls.len(), 2, "{moved:?}");
        assert!(moved.pulls[0].by.0.abs() > moved.pulls[1].by.0.abs(), "the strongest first");
    }
}

/// With a point of water more nothing is left of the glucose: it ends at nought, and both targets have pulled it there.
#[test]
fn a_line_that_is_used_up_ends_at_nought_and_says_why() {
    let sucrose = Measured::Component(Component::Sucrose);
    let answer = changed(&asked(&[Target::new(sucrose, Bound::AtLeast(70.0)), water(Bound::AtLeast(30.0))]));
    assert_amounts(&grams_after(&answer), &[300.0, 700.0, 0.0]);
    let glucose = &answer.moves[2];
    assert!(!glucose.pulls.is_empty() && glucose.pulls[0].by.0 < -50.0, "{glucose:?}");
    assert!(answer.moves[1].pulls[0].member == Member::Target(0) && answer.moves[1].pulls[0].by.0 > 300.0);
}

/// A single target pulls each line by all that it moves.
#[test]
fn the_pulls_add_up_to_the_move() {
    let answer = changed(&asked(&[water(Bound::AtMost(30.0))]));
    for moved in &answer.moves {
        assert_eq!(moved.pulls.len(), 1, "{moved:?}");
        assert_eq!(moved.pulls[0].member, Member::Target(0));
        assert_relative_eq!(moved.pulls[0].by.0, moved.after.0 - moved.before.0, max_relative = 1e-4);
    }
    assert!(answer.reached[0].is_binding);
    let two = [water(Bound::AtMost(30.0)), Target::new(Measured::Component(Component::Glucose), Bound::AtLeast(25.0))];
    let answer = changed(&asked(&two));
    for moved in &answer.moves {
        let sum: f64 = moved.pulls.iter().map(|pull| pull.by.0).sum();
        assert!((sum - (moved.after.0 - moved.before.0)).abs() < 1e-3, "{moved:?}");
    }
}

/// Sucrose at least 60 % and water at least 50 % leave less than nothing; without one of them the other can be had.
#[test]
fn targets_that_contradict_each_other_are_named() {
    let sucrose = Measured::Component(Component::Sucrose);
    let glucose = Measured::Component(Component::Glucose);
    let why = impossible(&asked(&[
        Target::new(sucrose, Bound::AtLeast(60.0)),
        Target::new(glucose, Bound::AtLeast(1.0)),
        water(Bound::AtLeast(50.0)),
    ]));
    let members: Vec<Member> = why.conflict.iter().map(|conflicting| conflicting.member).collect();
    assert_eq!(members, [Member::Target(0), Member::Target(2)]);
    let figures: Vec<f64> = why
        .conflict
        .iter()
        .map(|conflicting| match conflicting.reachable {
            Some(Reachable::Figure(figure)) => figure.value,
            other => panic!("{other:?}"),
        })
        .collect();
    // With all else kept, a hundredth of glucose too.
    assert_relative_eq!(figures[0], 49.0, max_relative = 1e-4);
    assert_relative_eq!(figures[1], 39.0, max_relative = 1e-4);
    // 60 + 1 + 50 are 11 points more than there are.
    let missed: f64 = why.nearest.missed().map(|reached| reached.target.missed_by(reached.after)).sum();
    assert_relative_eq!(missed, 11.0, max_relative = 1e-4);
}

/// Water at most 30 % of 1000 g and the sugars in packs of 450 g: 0 or 450 g of each leave 550 g or more of water.
#[test]
fn packs_that_stand_in_the_way_are_named() {
    let at = |idx: u32| Place::Line(LineId(idx));
    let mut problem = asked(&[water(Bound::AtMost(30.0))]);
    problem.limits = [1, 2].map(|idx| Limit { place: at(idx), rule: Rule::InPacks(Grams(450.0)) }).to_vec();
    // 900 g of sugar leave 100 g of water: it can be had.
    assert_amounts(&grams_after(&changed(&problem)), &[100.0, 450.0, 450.0]);
    problem.limits[1].rule = Rule::Locked;
    let why = impossible(&problem);
    let members: Vec<Member> = why.conflict.iter().map(|one| one.member).collect();
    assert_eq!(members, [Member::Target(0), Member::Limit(0), Member::Limit(1), Member::Total]);
    let Some(Reachable::Amount(sugar)) = why.conflict[1].reachable else { panic!("{:?}", why.conflict) };
    assert_relative_eq!(sugar.0, 500.0, max_relative = 1e-3);
}

/// Water is locked at 400 g of 1000: at most 30 % is not to be had, but with 300 g of it, or with 1333 g in all.
#[test]
fn a_lock_that_stands_in_the_way_is_named_with_what_giving_way_would_bring() {
    let mut problem = asked(&[water(Bound::AtMost(30.0))]);
    problem.recipe.lines[0].is_locked = true;
    let why = impossible(&problem);
    let reached: Vec<(Member, f64)> = why
        .conflict
        .iter()
        .map(|conflicting| {
            let value = match conflicting.reachable {
                Some(Reachable::Figure(figure)) => figure.value,
                Some(Reachable::Amount(grams)) => grams.0,
                None => panic!("{conflicting:?}"),
            };
            (conflicting.member, value)
        })
        .collect();
    let expected =
        [(Member::Lock(Place::Line(LineId(0))), 300.0), (Member::Total, 4000.0 / 3.0), (Member::Target(0), 40.0)];
    for (member, value) in expected {
        let (_, found) = reached.iter().find(|(other, _)| *other == member).unwrap_or_else(|| panic!("{reached:?}"));
        assert_relative_eq!(*found, value, max_relative = 1e-3);
    }
    assert_eq!(reached.len(), 3);
}

/// Between 31.0 and 31.1 % of 1 kg lies no multiple of 50 g, but one of 1 g.
#[test]
fn a_scale_that_is_too_coarse_is_said_to_be() {
    let mut problem = asked(&[water(Bound::Between(31.0, 31.1))]);
    problem.scale.coarsest = Grams(50.0);
    let why = impossible(&problem);
    assert!(why.is_by_scale && why.conflict.is_empty());
    problem.scale.coarsest = Grams(1.0);
    let answer = changed(&problem);
    assert_amounts(&grams_after(&answer)[..1], &[311.0]);
}
