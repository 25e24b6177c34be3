//! Whether shares can be had together, decided by a second method: the simplex of a general-purpose library.
//!
//! Bounds on shares are sums over the lines, so whether some hold together is a linear program: the largest room t, in grains,
//! that all of them can have at once. Above 0 they can be had, below 0 they contradict each other.

use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem as Program, SolveOutcome, Variable};
use nibwright::analysis::parts::{Group, Parts};
use nibwright::ingredient::{Component, Ingredient};
use nibwright::recipe::Losses;
use nibwright::reformulate::{Bound, Measured, Member, Outcome, Place, Problem, Target, reformulate};
use nibwright::units::Grams;
use proptest::prelude::*;

use super::properties::{cases, linear_problem, short};

/// What the two methods may differ by, in grains: what an interior point leaves open.
const OPEN: f64 = 1e-3;

/// With less water than this a mass is dry to the program, as a share.
const LEAST_WATER: f64 = 0.02;

/// Part and whole of a quotient in 100 g of an ingredient.
fn part_and_whole(of: Measured, ingredient: &Ingredient) -> Option<(f64, f64)> {
    let mut parts = Parts::default();
    parts.add(ingredient, Grams(100.0));
    let group = |group: Group| parts.group(group).map(|grams| grams.0);
    Some(match of {
        Measured::Group(wanted) => (100.0 * group(wanted)?, 100.0),
        Measured::CocoaButterInFat => (100.0 * parts.grams(Component::CocoaButter)?.0, group(Group::TotalFat)?),
        Measured::FatToWater => (group(Group::TotalFat)?, parts.grams(Component::Water)?.0),
        Measured::MilkFatInFat => (100.0 * parts.grams(Component::MilkFat)?.0, group(Group::TotalFat)?),
        Measured::OtherFatInFat => (100.0 * parts.grams(Component::OtherFat)?.0, group(Group::TotalFat)?),
        Measured::Component(component) => (100.0 * parts.grams(component)?.0, 100.0),
        _ => return None,
    })
}

/// What needs a batch so many times as large is no answer to anybody.
const MOST_TIMES: f64 = 20.0;

/// The room that these members leave in a batch at most so many times as large, in grains, at most 1; `None` of what is no sum
/// over the lines here.
fn room(problem: &Problem, members: &[Member], most_times: f64) -> Option<f64> {
    let mut program = Program::new(OptimizationDirection::Maximize);
    let lines = &problem.recipe.lines;
    let amounts: Vec<Variable> = lines
        .iter()
        .map(|line| {
            let before = line.amount.grams().0;
            let is_kept = line.is_locked && members.contains(&Member::Lock(Place::Line(line.id)));
            program.add_var(0.0, if is_kept { (before, before) } else { (0.0, f64::INFINITY) })
        })
        .collect();
    let room = program.add_var(1.0, (f64::NEG_INFINITY, 1.0));
    let sum = |factors: &[f64]| {
        let mut sum = LinearExpr::empty();
        amounts.iter().zip(factors).for_each(|(amount, factor)| sum.add(*amount, *factor));
        sum
    };
    let batch = problem.recipe.weighed().0;
    let all = vec![1.0; lines.len()];
    if problem.keeps_total && members.contains(&Member::Total) {
        program.add_constraint(sum(&all), ComparisonOp::Eq, batch);
    }
    program.add_constraint(sum(&all), ComparisonOp::Ge, problem.least_total().0);
    if most_times.is_finite() {
        program.add_constraint(sum(&all), ComparisonOp::Le, most_times * batch);
    }
    let is_asked = |(idx, _): &(usize, &Target)| members.contains(&Member::Target(*idx));
    let asked = problem.targets.iter().enumerate().filter(is_asked).map(|(_, target)| target);
    for target in asked {
        let each: Vec<(f64, f64)> =
            lines.iter().map(|line| part_and_whole(target.of, &line.ingredient)).collect::<Option<_>>()?;
        let whole: f64 = each.iter().zip(lines).map(|((_, whole), line)| whole * line.amount.grams().0).sum();
        let mut ask = |at: f64, sign: f64| {
            // Part − bound·whole ≤ 0, divided by the whole as it is and by a grain.
            let measure = whole * target.of.grain().max(1e-3 * at.abs());
            let factors: Vec<f64> =
                each.iter().map(|(part, whole)| sign * (part - at * whole) / measure * batch).collect();
            let mut row = sum(&factors);
            row.add(room, batch);
            program.add_constraint(row, ComparisonOp::Le, 0.0);
        };
        match target.bound {
            Bound::AtMost(at) => ask(at, 1.0),
            Bound::AtLeast(at) => ask(at, -1.0),
            Bound::Between(low, high) => {
                ask(low, -1.0);
                ask(high, 1.0);
            }
            Bound::Near(_) => return None,
        }
        // With less than 2 % water there is no ratio of fat to it.
        if target.of == Measured::FatToWater {
            let dry: Vec<f64> = each.iter().map(|(_, water)| water / 100.0 - LEAST_WATER).collect();
            program.add_constraint(sum(&dry), ComparisonOp::Ge, 0.0);
        }
        // A hundredth of the whole has to stay.
        let wholes: Vec<f64> = each.iter().map(|(_, whole)| whole / 100.0).collect();
        program.add_constraint(sum(&wholes), ComparisonOp::Ge, 0.01 * whole / 100.0);
    }
    match program.solve() {
        Ok(SolveOutcome::Solution(solution)) => Some(solution.objective()),
        Ok(SolveOutcome::Interrupted(_)) => None,
        // Nothing of it can be had at all: the total and the locks alone contradict the wholes that have to stay.
        Err(_) => Some(f64::NEG_INFINITY),
    }
}

fn members(problem: &Problem) -> Vec<Member> {
    let targets = (0..problem.targets.len()).map(Member::Target);
    let locks = problem.recipe.lines.iter().map(|line| Member::Lock(Place::Line(line.id)));
    targets.chain(locks).chain([Member::Total]).collect()
}

fn check(problem: &Problem) -> Result<(), TestCaseError> {
    let all = members(problem);
    let with_any = |members: &[Member]| room(problem, members, f64::INFINITY).unwrap_or(f64::NEG_INFINITY);
    let with_less = |members: &[Member]| room(problem, members, MOST_TIMES).unwrap_or(f64::INFINITY);
    let Some(of_all) = room(problem, &all, f64::INFINITY) else {
        return Err(TestCaseError::reject("no sum over the lines"));
    };
    match reformulate(problem, &|| false) {
        Ok(Outcome::Changed(_) | Outcome::Unchanged(_)) => {
            prop_assert!(of_all > -OPEN, "it cannot be had, by {of_all} grains: {}", short(problem));
        }
        Ok(Outcome::Impossible(why)) if why.conflict.is_empty() => {
            // Without any room no scale is fine enough.
            prop_assert!(of_all > -OPEN && (why.is_by_scale || of_all < OPEN), "{of_all}: {}", short(problem));
        }
        Ok(Outcome::Impossible(why)) => {
            prop_assert!(with_less(&all) < OPEN, "it can be had with {of_all} grains of room: {}", short(problem));
            let named: Vec<Member> = why.conflict.iter().map(|one| one.member).collect();
            let of_named = with_less(&named);
            prop_assert!(of_named < OPEN, "{named:?} {of_named:?}: {}", short(problem));
            for one in &why.conflict {
                let without = |set: &[Member]| -> Vec<Member> {
                    set.iter().copied().filter(|other| *other != one.member).collect()
                };
                let others = with_any(&without(&named));
                prop_assert!(others > -OPEN, "{one:?} {others:?}: {}", short(problem));
                let all_others = without(&all);
                let is_right =
                    if one.is_enough { with_any(&all_others) > -OPEN } else { with_less(&all_others) < OPEN };
                prop_assert!(is_right, "{one:?} {}: {}", with_any(&all_others), short(problem));
            }
        }
        other => return Err(TestCaseError::fail(format!("{other:?}: {}", short(problem)))),
    }
    Ok(())
}

/// By hand: half water and half sugar, which holds 0.02 % of it, are 50.01 % water: 40 % is missed by 10.01 grains.
#[test]
fn the_room_of_two_lines_by_hand() {
    let recipe = crate::support::recipe(&[("water", 50.0), ("sucrose", 50.0)]);
    let water = |bound| Target::new(Measured::Group(Group::Water), bound);
    let problem = Problem { targets: vec![water(Bound::AtMost(40.0))], ..Problem::new(recipe) };
    // The largest room is held at 1.
    assert_eq!(room(&problem, &members(&problem), MOST_TIMES), Some(1.0));
    let mut locked = problem;
    locked.recipe.lines[0].is_locked = true;
    let found = room(&locked, &members(&locked), MOST_TIMES).expect("a sum");
    assert!((found + 10.01).abs() < 1e-9, "{found}");
}

proptest! {
    #![proptest_config(cases(64))]

    #[test]
    fn what_can_be_had_and_what_contradicts_each_other_are_as_a_simplex_says(
        problem in linear_problem(),
    ) {
        let mut problem = problem;
        problem.recipe.losses = Losses::default();
        problem.targets.retain(|target| {
            !target.bound.is_wish() && !matches!(target.of, Measured::Energy | Measured::Sweetness | Measured::SolidsVolume)
        });
        prop_assume!(!problem.targets.is_empty());
        check(&problem)?;
    }
}
