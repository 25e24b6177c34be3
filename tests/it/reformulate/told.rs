//! What is told of a contradiction is true: the number that could be had, typed back in the place of what was asked for, can.

use nibwright::analysis::parts::Group;
use nibwright::ingredient::Component;
use nibwright::number::{DecimalSign, parse};
use nibwright::recipe::{LineId, Recipe};
use nibwright::reformulate::{
    Allowed, Answer, Bound, Conflicting, Decides, Impossible, Limit, Measured, Member, Outcome, Place, Problem,
    Reachable, Rule, Target, reformulate,
};
use nibwright::report::words::reformulation::ReformulationWords;
use nibwright::units::Grams;
use proptest::prelude::*;

use super::properties::{cases, linear_problem, short};
use super::{impossible, outcome, unrounded};
use crate::support::{built_in, recipe};

/// Of which nothing comes out as a round number.
fn ganache() -> Recipe {
    recipe(&[
        ("couverture-dark-64", 377.3),
        ("cream-35", 164.7),
        ("butter-82", 53.1),
        ("glucose-syrup-de40", 48.3),
        ("honey", 32.9),
        ("passion-fruit-puree", 64.7),
        ("sucrose", 29.3),
    ])
}

fn at(idx: u32) -> Place {
    Place::Line(LineId(idx))
}

fn group(group: Group, bound: Bound) -> Target {
    Target::new(Measured::Group(group), bound)
}

fn limit(idx: u32, rule: Rule) -> Limit {
    Limit { place: at(idx), rule }
}

fn asked(targets: &[Target], limits: &[Limit]) -> Problem {
    Problem { targets: targets.to_vec(), limits: limits.to_vec(), ..unrounded(ganache()) }
}

/// The sentence about one of those that contradict each other.
fn sentence(problem: &Problem, why: &Impossible, one: &Conflicting) -> Option<String> {
    let words = ReformulationWords::new(problem, DecimalSign::Point);
    let alone = Impossible { conflict: vec![*one], ..why.clone() };
    words.ways_out(&alone).into_iter().next().flatten()
}

/// The number that is told in it; of a band its end that decides stands first.
fn number(sentence: &str) -> f64 {
    let told = sentence.split(" instead of ").next().expect("it begins");
    let told = told.split(" at the ").next().expect("it begins");
    let mut numbers = told.split_whitespace().filter_map(|word| parse(word).ok());
    numbers.next_back().unwrap_or_else(|| panic!("no number in {sentence}"))
}

/// The problem with the number in the place of what was asked for.
fn with_what_is_told(problem: &Problem, one: &Conflicting, told: f64) -> Problem {
    let mut problem = problem.clone();
    let before = |place: Place| match place {
        Place::Line(id) => problem.recipe.line(id).map_or(Grams::ZERO, |line| line.amount.grams()),
        Place::Allowed(_) => Grams::ZERO,
    };
    let exactly =
        |place: Place| [Rule::AtMost(Grams(told)), Rule::AtLeast(Grams(told))].map(|rule| Limit { place, rule });
    match one.member {
        Member::Target(idx) => {
            let target = &mut problem.targets[idx];
            target.bound = match target.bound {
                Bound::AtMost(_) => Bound::AtMost(told),
                Bound::AtLeast(_) => Bound::AtLeast(told),
                Bound::Between(low, high) => Bound::Between(low.min(told), high.max(told)),
                Bound::Near(_) => panic!("a wish contradicts nothing"),
            };
        }
        // Nothing evaporates and nothing is lost here.
        Member::Total => {
            problem.keeps_total = false;
            // No step of the scale hits a point.
            let half = problem.scale.coarsest.0 / 2.0;
            problem.targets.push(Target::new(Measured::FinishedMass, Bound::Between(told - half, told + half)));
        }
        Member::Lock(place) => {
            let Place::Line(id) = place else { panic!("{one:?}") };
            let line = problem.recipe.lines.iter_mut().find(|line| line.id == id).expect("it is there");
            line.is_locked = false;
            problem.limits.extend(exactly(place));
        }
        Member::Allowance(idx) => problem.allowed[idx].most = Some(Grams(told)),
        Member::Limit(idx) => {
            let Limit { place, rule } = problem.limits[idx];
            let is_more = told > before(place).0;
            let of_rule = match rule {
                Rule::AtMost(_) => vec![Limit { place, rule: Rule::AtMost(Grams(told)) }],
                Rule::AtLeast(_) => vec![Limit { place, rule: Rule::AtLeast(Grams(told)) }],
                Rule::Locked => exactly(place).to_vec(),
                _ if is_more => vec![Limit { place, rule: Rule::AtLeast(Grams(told)) }],
                _ => vec![Limit { place, rule: Rule::AtMost(Grams(told)) }],
            };
            problem.limits.splice(idx..=idx, of_rule);
        }
    }
    problem
}

/// Types back what is told of each that contradicts the others; gives back of which something was told.
fn check_told(problem: &Problem) -> Vec<Member> {
    let Outcome::Impossible(why) = outcome(problem) else { panic!("it can be had") };
    let mut told_of = Vec::new();
    for one in why.conflict.iter().filter(|one| one.is_enough) {
        let Some(words) = sentence(problem, &why, one) else { continue };
        let told = number(&words);
        let by_told = with_what_is_told(problem, one, told);
        let answer = outcome(&by_told);
        let is_had = matches!(answer, Outcome::Changed(_) | Outcome::Unchanged(_));
        assert!(is_had, "{words} {told}");
        told_of.push(one.member);
    }
    told_of
}

#[test]
fn shares_that_contradict_each_other() {
    let cocoa_butter = Measured::Component(Component::CocoaButter);
    let problem = asked(
        &[
            Target::new(Measured::Component(Component::MilkFat), Bound::AtMost(15.7)),
            Target::new(cocoa_butter, Bound::AtMost(14.1)),
            group(Group::TotalFat, Bound::AtLeast(42.0)),
        ],
        &[],
    );
    let told = check_told(&problem);
    assert!(told.len() >= 2, "{told:?}");
}

#[test]
fn what_one_target_can_have_at_best() {
    for target in [
        Target::new(Measured::FormVLimit, Bound::AtLeast(36.0)),
        Target::new(Measured::Energy, Bound::AtLeast(3900.0)),
        Target::new(Measured::Component(Component::MilkFat), Bound::AtLeast(85.0)),
        Target::new(Measured::Sweetness, Bound::Between(160.0, 170.0)),
        Target::new(Measured::WaterActivity, Bound::AtLeast(0.9999)),
    ] {
        let problem = asked(&[target], &[limit(0, Rule::AtLeast(Grams(300.7)))]);
        let told = check_told(&problem);
        assert!(told.contains(&Member::Target(0)), "{target:?} {told:?}");
    }
}

#[test]
fn a_band_is_rounded_at_the_end_that_decides() {
    let dry = Target::new(Measured::WaterActivity, Bound::AtMost(0.85));
    assert_eq!(dry.by, Decides::UnfavourableEdge);
    let problem = asked(
        &[dry, group(Group::Water, Bound::AtLeast(20.7))],
        &[
            limit(3, Rule::Locked),
            limit(4, Rule::Locked),
            limit(5, Rule::Locked),
            limit(0, Rule::AtLeast(Grams(350.0))),
        ],
    );
    let told = check_told(&problem);
    assert!(told.contains(&Member::Target(0)) && told.contains(&Member::Target(1)), "{told:?}");
}

#[test]
fn limits_locks_and_the_batch() {
    let fat = group(Group::TotalFat, Bound::AtLeast(36.3));
    let mut problem = asked(
        &[fat],
        &[limit(0, Rule::AtMost(Grams(391.3))), limit(5, Rule::Locked), limit(2, Rule::AtMost(Grams(60.3)))],
    );
    problem.recipe.lines[1].is_locked = true;
    let told = check_told(&problem);
    for member in [Member::Target(0), Member::Lock(at(1)), Member::Limit(0), Member::Limit(2), Member::Total] {
        assert!(told.contains(&member), "{member:?} {told:?}");
    }
    let water = group(Group::Water, Bound::AtMost(17.3));
    let problem = asked(&[water], &[limit(1, Rule::AtLeast(Grams(150.3))), limit(5, Rule::Locked)]);
    let told = check_told(&problem);
    for member in [Member::Target(0), Member::Limit(0), Member::Limit(1), Member::Total] {
        assert!(told.contains(&member), "{member:?} {told:?}");
    }
}

#[test]
fn packs_proportions_and_what_may_be_used_besides() {
    let mut problem = asked(&[Target::new(Measured::Component(Component::Polyols), Bound::AtLeast(7.3))], &[]);
    problem.allowed = vec![Allowed { ingredient: built_in("sorbitol-powder"), most: Some(Grams(31.0)) }];
    let told = check_told(&problem);
    assert!(told.contains(&Member::Allowance(0)) && told.contains(&Member::Target(0)), "{told:?}");

    let water = group(Group::Water, Bound::AtMost(13.3));
    let limits = [
        limit(1, Rule::TimesOther { other: at(0), times: 0.45 }),
        limit(5, Rule::AtLeast(Grams(64.7))),
        limit(0, Rule::AtLeast(Grams(371.3))),
    ];
    let told = check_told(&asked(&[water], &limits));
    for idx in 0..3 {
        assert!(told.contains(&Member::Limit(idx)), "{idx} {told:?}");
    }

    let limits = [
        limit(3, Rule::InPacks(Grams(61.0))),
        limit(3, Rule::AtLeast(Grams(20.3))),
        limit(3, Rule::AtMost(Grams(35.7))),
    ];
    let told = check_told(&asked(&[group(Group::Water, Bound::AtMost(19.3))], &limits));
    for idx in 0..3 {
        assert!(told.contains(&Member::Limit(idx)), "{idx} {told:?}");
    }
}

/// Told to the next digit, no further, and the numbers of the outcome stay as they are.
#[test]
fn it_is_told_as_exactly_as_it_can_be() {
    let problem = asked(
        &[group(Group::TotalFat, Bound::AtLeast(42.3))],
        &[limit(0, Rule::AtMost(Grams(391.3))), limit(2, Rule::AtMost(Grams(60.3)))],
    );
    let why = impossible(&problem);
    let mut seen = 0;
    for one in &why.conflict {
        let Some(words) = sentence(&problem, &why, one) else { continue };
        let told = number(&words);
        match one.reachable {
            Some(Reachable::Figure(figure)) => {
                assert!((0.0..0.1).contains(&(figure.value - told)), "{words} {figure:?}");
            }
            Some(Reachable::Amount(grams)) => {
                assert!((0.0..1.0).contains(&(told - grams.0).abs()), "{words} {grams:?}");
            }
            None => continue,
        }
        seen += 1;
    }
    assert!(seen >= 3, "{why:?}");
}

/// On the scales of a kitchen as well: what is told is what can be weighed.
#[test]
fn what_is_told_can_be_weighed() {
    let on_scales = |targets: &[Target], limits: &[Limit]| Problem {
        targets: targets.to_vec(),
        limits: limits.to_vec(),
        ..Problem::new(ganache())
    };
    let cocoa_butter = Measured::Component(Component::CocoaButter);
    let milk_fat = Measured::Component(Component::MilkFat);
    let at_least = |share, at| group(share, Bound::AtLeast(at));
    let at_most = |of, at| Target::new(of, Bound::AtMost(at));
    let mut told = 0;
    for (targets, limits) in [
        (vec![at_most(milk_fat, 15.7), at_most(cocoa_butter, 14.1), at_least(Group::TotalFat, 42.0)], vec![]),
        (
            vec![at_least(Group::TotalFat, 42.3)],
            vec![limit(0, Rule::AtMost(Grams(391.3))), limit(2, Rule::AtMost(Grams(60.3)))],
        ),
        (
            vec![group(Group::Water, Bound::AtMost(17.3))],
            vec![limit(1, Rule::AtLeast(Grams(150.3))), limit(5, Rule::Locked)],
        ),
        (
            vec![at_most(Measured::WaterActivity, 0.85), at_least(Group::Water, 20.7)],
            vec![
                limit(3, Rule::Locked),
                limit(4, Rule::Locked),
                limit(5, Rule::Locked),
                limit(0, Rule::AtLeast(Grams(350.0))),
            ],
        ),
        (
            vec![Target::new(Measured::Energy, Bound::AtLeast(2700.0)), group(Group::TotalFat, Bound::AtMost(45.0))],
            vec![],
        ),
    ] {
        let problem = on_scales(&targets, &limits);
        let Outcome::Impossible(why) = outcome(&problem) else { panic!("{targets:?}") };
        assert!(why.conflict.iter().all(|one| one.is_weighed), "{:?}", why.conflict);
        told += check_told(&problem).len();
    }
    assert!(told >= 12, "{told}");
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn what_is_told_of_shares_can_be_typed_back(problem in linear_problem()) {
        let Ok(Outcome::Impossible(why)) = reformulate(&problem, &|| false) else { return Ok(()) };
        let is_told = |one: &&Conflicting| one.is_enough && one.is_weighed && one.member != Member::Total;
        for one in why.conflict.iter().filter(is_told) {
            let Some(words) = sentence(&problem, &why, one) else { continue };
            let by_told = with_what_is_told(&problem, one, number(&words));
            let answer = reformulate(&by_told, &|| false);
            let is_had = matches!(answer, Ok(Outcome::Changed(_) | Outcome::Unchanged(_)));
            prop_assert!(is_had, "{words}: {}", short(&problem));
        }
    }
}

/// A search that was ended before it came to rest says so.
#[test]
fn an_answer_that_may_not_be_the_nearest() {
    let problem = asked(&[group(Group::Water, Bound::AtMost(18.0))], &[]);
    let words = ReformulationWords::new(&problem, DecimalSign::Point);
    let answer = super::changed(&problem);
    let is_told =
        |answer: &Answer| words.notes(answer).iter().any(|note| note.contains("there may be a nearer recipe"));
    assert!(!is_told(&answer));
    assert!(is_told(&Answer { is_settled: false, ..answer }));
}
