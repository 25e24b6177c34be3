//! What holds of every reformulation, whatever is asked of whatever recipe.
//!
//! Random recipes of the built-in library, random targets around their figures and far from them, random locks. There is no
//! outside source: these are promises of the program. A conflict is tested by asking for its members alone.

use nibwright::analysis::parts::Group;
use nibwright::ingredient::{Component, Library};
use nibwright::recipe::{Evaporation, Heating, Recipe};
use nibwright::reformulate::{
    Allowed, Answer, Bound, Change, Decides, Figure, Impossible, Limit, Measured, Member, Outcome, Place, Problem,
    ProblemError, Rule, Scale, Target, reformulate,
};
use nibwright::units::{Celsius, Grams};
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::RngSeed;

use super::{grams_after, missed_in_report, unrounded};
use crate::support::{built_in, grams, recipe_of};

/// What misses less than this, in grains, is met.
const MET: f64 = 1e-6;

const ASKED: [Measured; 27] = [
    Measured::Group(Group::Water),
    Measured::Group(Group::TotalFat),
    Measured::Group(Group::Sugars),
    Measured::Group(Group::CocoaButter),
    Measured::Group(Group::MilkSolidsNonFat),
    Measured::CocoaButterInFat,
    Measured::FatToWater,
    Measured::MilkFatInFat,
    Measured::OtherFatInFat,
    Measured::SolidsVolume,
    Measured::Component(Component::Sucrose),
    Measured::Component(Component::MilkFat),
    Measured::Energy,
    Measured::Sweetness,
    Measured::WaterActivity,
    Measured::WaterActivity,
    Measured::SucroseSupersaturation,
    Measured::LactoseSupersaturation,
    Measured::DispersedVolume,
    Measured::FatVolume,
    Measured::SolidFat(Celsius(4.0)),
    Measured::FinishedMass,
    Measured::SolidFat(Celsius(20.0)),
    Measured::FormVLimit,
    Measured::Crystals(Celsius(20.0)),
    Measured::Crystals(Celsius(4.0)),
    Measured::Contraction,
];

/// What is asked: of which result, how far from its figure, on which side, and whether the end of the band decides that
/// usually does not.
#[derive(Clone, Debug)]
struct Wanted {
    of: Measured,
    factor: f64,
    is_upper: bool,
    is_by_other: bool,
    shape: Shape,
}

/// On one side, between two ends that lie so far apart, or as near as everything else allows.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Shape {
    OneSide,
    Between(f64),
    Near,
}

fn wanted(asked: &'static [Measured]) -> impl Strategy<Value = Wanted> {
    let factor = prop_oneof![6 => 0.9..1.1, 2 => 0.6..1.5, 1 => 0.05..4.0];
    let shape =
        prop_oneof![6 => Just(Shape::OneSide), 2 => (0.001..0.2).prop_map(Shape::Between), 1 => Just(Shape::Near)];
    (prop::sample::select(asked), factor, any::<bool>(), prop::bool::weighted(0.2), shape)
        .prop_map(|(of, factor, is_upper, is_by_other, shape)| Wanted { of, factor, is_upper, is_by_other, shape })
}

/// What is asked of an amount: of which line, what, and how far from what there is.
#[derive(Clone, Debug)]
struct AskedOfAmount {
    line: Index,
    other: Index,
    rule: usize,
    factor: f64,
}

fn asked_of_amount() -> impl Strategy<Value = AskedOfAmount> {
    let factor = prop_oneof![3 => 0.8..1.25, 1 => 0.1..4.0];
    (any::<Index>(), any::<Index>(), 0..5_usize, factor).prop_map(|(line, other, rule, factor)| AskedOfAmount {
        line,
        other,
        rule,
        factor,
    })
}

/// The limits of a recipe; none where a line would have to be a multiple of itself.
fn limits_of(recipe: &Recipe, asked: &[AskedOfAmount]) -> Vec<Limit> {
    let limit = |asked: &AskedOfAmount| {
        let lines = &recipe.lines;
        let (line, other) = (asked.line.get(lines), asked.other.get(lines));
        let amount = line.amount.grams() * asked.factor;
        let rule = match asked.rule {
            0 => Rule::Locked,
            1 => Rule::AtLeast(amount),
            2 => Rule::AtMost(amount),
            3 => Rule::InPacks(amount),
            _ if line.id == other.id => return None,
            _ => {
                let times = amount.0 / other.amount.grams().0;
                Rule::TimesOther { other: Place::Line(other.id), times }
            }
        };
        Some(Limit { place: Place::Line(line.id), rule })
    };
    let mut limits: Vec<Limit> = Vec::new();
    for limit in asked.iter().filter_map(limit) {
        let is_in_packs = |limit: &Limit| matches!(limit.rule, Rule::InPacks(_));
        // Packs of two sizes for one line are refused.
        if !(is_in_packs(&limit) && limits.iter().any(|other| other.place == limit.place && is_in_packs(other))) {
            limits.push(limit);
        }
    }
    limits
}

pub(super) fn any_recipe() -> impl Strategy<Value = Recipe> {
    let known = Library::built_in().iter().count();
    let usual = prop::sample::select(vec![
        "couverture-dark-64",
        "couverture-milk-40",
        "couverture-white-33",
        "cocoa-butter",
        "cream-35",
        "butter-82",
        "milk-whole",
        "hazelnut-paste",
        "praline-hazelnut-60",
        "glucose-syrup-de40",
        "invert-syrup",
        "sucrose",
        "passion-fruit-puree",
        "rum-40",
        "egg-yolk",
        "sorbitol-powder",
    ]);
    let ingredient = prop_oneof![
        1 => any::<Index>().prop_map(move |idx| Library::built_in().iter().nth(idx.index(known)).expect("known").clone()),
        3 => usual.prop_map(built_in),
    ];
    let amount = prop_oneof![8 => 10.0..500.0, 2 => 0.5..10.0].prop_map(|grams: f64| (grams * 100.0).round() / 100.0);
    let evaporation = prop_oneof![
        4 => Just(Evaporation::default()),
        1 => Just(Evaporation::Estimated(Heating::Boiled)),
        1 => (1.0..20.0).prop_map(|gone| Evaporation::Weighed(grams(gone))),
    ];
    (prop::collection::vec((ingredient, amount, prop::bool::weighted(0.15)), 2..=12), evaporation).prop_map(
        |(lines, evaporation)| {
            let mut recipe =
                recipe_of(&lines.iter().map(|(one, amount, _)| (one.clone(), *amount)).collect::<Vec<_>>());
            recipe.losses.evaporation = evaporation;
            for (line, (.., is_locked)) in recipe.lines.iter_mut().zip(&lines) {
                line.is_locked = *is_locked;
            }
            recipe
        },
    )
}

fn figure_of(recipe: &Recipe, target: &Target) -> Figure {
    let (low, value, high) = super::reported(&super::report(recipe), target.of).expect("it has one");
    Figure { value, band: Some((low, high)) }
}

/// A problem without what the recipe has no figure for.
fn problem_of(recipe: Recipe, wanted: &[Wanted]) -> Problem {
    let report = super::report(&recipe);
    let target = |wanted: &Wanted| {
        let (low, value, high) = super::reported(&report, wanted.of)?;
        let usual = Target::new(wanted.of, Bound::AtMost(value)).by;
        let by = match (usual, wanted.is_by_other) {
            (Decides::Value, true) if matches!(wanted.of, Measured::Energy | Measured::Sweetness) => {
                Decides::UnfavourableEdge
            }
            (Decides::UnfavourableEdge, true) => Decides::Value,
            _ => usual,
        };
        let deciding = match (by, wanted.is_upper) {
            (Decides::Value, _) => value,
            (_, true) => high,
            (_, false) => low,
        };
        // No share is more than all; where there is none of the whole, such a bound would be as good as met.
        let most = match wanted.of {
            Measured::Group(_) | Measured::CocoaButterInFat | Measured::SolidFat(_) | Measured::Crystals(_) => 99.0,
            of if of.is_fraction() => 1.0,
            _ => f64::MAX,
        };
        let at = (deciding * wanted.factor).min(most);
        let bound = match (wanted.shape, wanted.is_upper) {
            (Shape::OneSide, true) => Bound::AtMost(at),
            (Shape::OneSide, false) => Bound::AtLeast(at),
            (Shape::Between(apart), is_upper) => {
                let other = if is_upper { at - apart * at.abs() } else { (at + apart * at.abs()).min(most) };
                Bound::Between(at.min(other), at.max(other))
            }
            (Shape::Near, _) => return Some(Target::new(wanted.of, Bound::Near(at))),
        };
        Some(Target { of: wanted.of, bound, by })
    };
    let targets = wanted.iter().filter_map(target).collect();
    Problem { targets, ..Problem::new(recipe) }
}

fn any_problem() -> impl Strategy<Value = Problem> {
    let allowed = prop::option::weighted(0.3, prop::sample::select(vec!["sorbitol-powder", "cocoa-butter", "water"]));
    let most = prop::option::of((0.0..60.0).prop_map(Grams));
    let how = (prop::bool::weighted(0.8), prop::bool::weighted(0.2));
    let limits = prop_oneof![1 => Just(Vec::new()), 1 => prop::collection::vec(asked_of_amount(), 1..=3)];
    (any_recipe(), prop::collection::vec(wanted(&ASKED), 1..=4), allowed, most, how, limits).prop_map(
        |(recipe, wanted, allowed, most, (keeps_total, is_few), limits)| {
            let mut problem = problem_of(recipe, &wanted);
            problem.limits = limits_of(&problem.recipe, &limits);
            problem.keeps_total = keeps_total;
            problem.change = if is_few { Change::FewLines } else { Change::Spread };
            problem.allowed.extend(allowed.map(|id| Allowed { ingredient: built_in(id), most }));
            problem
        },
    )
}

/// Figures that a solver knows exactly: a conflict among them is one, and the nearest recipe the nearest of all.
pub(super) fn linear_problem() -> impl Strategy<Value = Problem> {
    (any_recipe(), prop::collection::vec(wanted(&ASKED[..14]), 1..=4))
        .prop_map(|(recipe, wanted)| problem_of(recipe, &wanted))
}

fn is_possible(problem: &Problem) -> Result<bool, TestCaseError> {
    match reformulate(problem, &|| false) {
        Ok(Outcome::Changed(_) | Outcome::Unchanged(_)) => Ok(true),
        Ok(Outcome::Impossible(why)) => {
            // Neither nor: amounts were found, and the figure jumps so near to them that none can be weighed.
            if why.conflict.is_empty() {
                return Err(TestCaseError::reject("at a jump"));
            }
            Ok(false)
        }
        other => Err(TestCaseError::fail(format!("{other:?}: {}", short(problem)))),
    }
}

fn is_locked(problem: &Problem, place: Place) -> bool {
    matches!(place, Place::Line(id) if problem.recipe.line(id).is_some_and(|line| line.is_locked))
}

fn check_weighed(problem: &Problem, answer: &Answer) -> Result<(), TestCaseError> {
    let Problem { recipe, scale, .. } = problem;
    let after = grams_after(answer);
    for (moved, &after) in answer.moves.iter().zip(&after) {
        let is_in_packs =
            problem.limits.iter().any(|limit| limit.place == moved.place && matches!(limit.rule, Rule::InPacks(_)));
        if moved.before.0 == after || is_in_packs {
            continue;
        }
        prop_assert!(!is_locked(problem, moved.place), "{moved:?}");
        let steps = after / scale.step_for(Grams(after)).0;
        prop_assert!((steps - steps.round()).abs() < 1e-6, "{} {after}: {}", moved.before.0, short(problem));
    }
    if problem.keeps_total {
        let (before, after) = (recipe.weighed().0, after.iter().sum::<f64>());
        prop_assert!((after - before).abs() <= scale.coarsest.0, "{before} {after}");
    }
    Ok(())
}

fn check_answer(problem: &Problem, answer: &Answer) -> Result<(), TestCaseError> {
    for target in &problem.targets {
        let missed = missed_in_report(&answer.recipe, target);
        prop_assert!(missed < MET, "{target:?} is missed by {missed}: {}, {:?}", short(problem), grams_after(answer));
    }
    check_limits(problem, answer)?;
    check_weighed(problem, answer)
}

/// What is asked of amounts holds; a proportion as well as the steps of both lines let it.
fn check_limits(problem: &Problem, answer: &Answer) -> Result<(), TestCaseError> {
    let at =
        |place: Place| answer.moves.iter().find(|moved| moved.place == place).map(|moved| (moved.before, moved.after));
    for limit in &problem.limits {
        let Some((before, after)) = at(limit.place) else { continue };
        let holds = match limit.rule {
            Rule::Locked => before == after,
            Rule::AtLeast(least) => after.0 >= least.0 - 1e-9,
            Rule::AtMost(most) => after.0 <= most.0 + 1e-9,
            Rule::InPacks(pack) => (after.0 / pack.0 - (after.0 / pack.0).round()).abs() < 1e-5,
            Rule::TimesOther { other, times } => {
                let other = at(other).map_or(Grams(f64::NAN), |(_, after)| after);
                let granted = problem.scale.off_proportion(after, times, other);
                (after.0 - times * other.0).abs() <= granted.0 + 1e-6
            }
        };
        prop_assert!(holds, "{limit:?}: {} {}: {}", before.0, after.0, short(problem));
    }
    for (idx, allowed) in problem.allowed.iter().enumerate() {
        if let (Some((_, after)), Some(most)) = (at(Place::Allowed(idx)), allowed.most) {
            prop_assert!(after.0 <= most.0 + 1e-9, "{} {}: {}", after.0, most.0, short(problem));
        }
    }
    Ok(())
}

/// The problem with these members alone.
fn with_only(problem: &Problem, members: &[Member]) -> Problem {
    let mut only = problem.clone();
    only.targets = (0..problem.targets.len())
        .filter(|&idx| members.contains(&Member::Target(idx)))
        .map(|idx| problem.targets[idx])
        .collect();
    only.keeps_total &= members.contains(&Member::Total);
    for line in &mut only.recipe.lines {
        line.is_locked &= members.contains(&Member::Lock(Place::Line(line.id)));
    }
    for (idx, allowed) in only.allowed.iter_mut().enumerate() {
        allowed.most = allowed.most.filter(|_| members.contains(&Member::Allowance(idx)));
    }
    only.limits = (0..problem.limits.len())
        .filter(|&idx| members.contains(&Member::Limit(idx)))
        .map(|idx| problem.limits[idx])
        .collect();
    Problem { scale: unrounded(Recipe::default()).scale, ..only }
}

/// The members contradict each other, and drop any one of them, and the others can be had.
fn check_conflict(problem: &Problem, why: &Impossible) -> Result<(), TestCaseError> {
    if why.is_by_scale {
        prop_assert!(why.conflict.is_empty());
        prop_assert!(is_possible(&with_only(problem, &all_members(problem)))?, "{}", short(problem));
        return Ok(());
    }
    let members: Vec<Member> = why.conflict.iter().map(|one| one.member).collect();
    if members.is_empty() {
        return Err(TestCaseError::reject("at a jump"));
    }
    prop_assert!(!is_possible(&with_only(problem, &members))?, "{members:?} can be had: {}", short(problem));
    for member in &members {
        let others: Vec<Member> = members.iter().copied().filter(|other| other != member).collect();
        let possible = is_possible(&with_only(problem, &others))?;
        prop_assert!(possible, "without {member:?} of {members:?} it is as impossible: {}", short(problem));
    }
    Ok(())
}

fn all_members(problem: &Problem) -> Vec<Member> {
    let targets = (0..problem.targets.len()).map(Member::Target);
    let locks = problem.recipe.lines.iter().map(|line| Member::Lock(Place::Line(line.id)));
    let allowances = (0..problem.allowed.len()).map(Member::Allowance);
    let limits = (0..problem.limits.len()).map(Member::Limit);
    targets.chain(locks).chain(allowances).chain(limits).chain([Member::Total]).collect()
}

/// A problem in short, for whoever has to look into it.
pub(super) fn short(problem: &Problem) -> String {
    let line = |line: &nibwright::recipe::Line| {
        format!("{} {}{}", line.ingredient.id, line.amount.grams().0, if line.is_locked { " locked" } else { "" })
    };
    let lines: Vec<String> = problem.recipe.lines.iter().map(line).collect();
    let allowed: Vec<_> = problem.allowed.iter().map(|allowed| (&allowed.ingredient.id, allowed.most)).collect();
    let Problem { recipe, targets, limits, keeps_total, change, scale, .. } = problem;
    let evaporation = recipe.losses.evaporation;
    format!("{lines:?} {evaporation:?} {targets:?} {allowed:?} {limits:?} {keeps_total} {change:?} {scale:?}")
}

fn check_outcome(problem: &Problem) -> Result<(), TestCaseError> {
    match reformulate(problem, &|| false) {
        Ok(Outcome::Changed(answer)) => check_answer(problem, &answer),
        Ok(Outcome::Impossible(why)) => {
            for moved in &why.nearest.moves {
                let is_kept = !is_locked(problem, moved.place) || moved.before == moved.after;
                prop_assert!(is_kept, "{} {}: {}", moved.before.0, moved.after.0, short(problem));
            }
            check_conflict(problem, &why)
        }
        Ok(Outcome::Unchanged(_)) => {
            for target in &problem.targets {
                prop_assert!(missed_in_report(&problem.recipe, target) < 2.0 * MET, "{target:?}");
                let is_at_wish = !target.bound.is_wish() || target.missed_by(figure_of(&problem.recipe, target)) < 1e-3;
                prop_assert!(is_at_wish, "{target:?}");
            }
            Ok(())
        }
        Err(ProblemError::NoFigure { .. }) => Ok(()),
        other => Err(TestCaseError::fail(format!("{other:?}: {}", short(problem)))),
    }
}

fn finely(problem: &Problem) -> Problem {
    let batch = problem.recipe.weighed().0;
    Problem { scale: Scale { coarsest: Grams(batch * 1e-7), has_finer: false }, ..problem.clone() }
}

fn answer_of(problem: &Problem) -> Option<Answer> {
    match reformulate(problem, &|| false) {
        Ok(Outcome::Changed(answer)) => Some(*answer),
        _ => None,
    }
}

/// So many cases, the same in every run; or as many new ones as `PROPTEST_CASES` asks for.
pub(super) fn cases(cases: u32) -> ProptestConfig {
    let asked = ProptestConfig { failure_persistence: None, ..ProptestConfig::default() };
    if std::env::var_os("PROPTEST_CASES").is_some() {
        asked
    } else {
        ProptestConfig { cases, rng_seed: RngSeed::Fixed(1), ..asked }
    }
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn of_shares_alone_too(problem in linear_problem()) {
        check_outcome(&problem)?;
    }

    #[test]
    fn what_holds_already_changes_nothing(recipe in any_recipe(), wanted in prop::collection::vec(wanted(&ASKED), 1..=5)) {
        let met: Vec<Wanted> = wanted
            .into_iter()
            .map(|one| {
                let factor = if one.is_upper { one.factor.max(1.0) } else { one.factor.min(1.0) };
                Wanted { factor, shape: Shape::OneSide, ..one }
            })
            .collect();
        // A form V limit below 0 °C, and what is nought, is met on the other side.
        let mut problem = problem_of(recipe, &met);
        problem.targets.retain(|target| missed_in_report(&problem.recipe, target) <= 0.0);
        prop_assume!(!problem.targets.is_empty());
        prop_assert!(matches!(reformulate(&problem, &|| false), Ok(Outcome::Unchanged(_))), "{}", short(&problem));
    }

    #[test]
    fn a_larger_batch_changes_as_much_more(problem in linear_problem(), factor in 0.01..1000.0) {
        let mut larger = problem.clone();
        for line in &mut larger.recipe.lines {
            line.amount = grams(line.amount.grams().0 * factor);
        }
        if let Evaporation::Weighed(gone) = larger.recipe.losses.evaporation {
            larger.recipe.losses.evaporation = Evaporation::Weighed(grams(gone.grams().0 * factor));
        }
        let (left, right) = (answer_of(&finely(&problem)), answer_of(&finely(&larger)));
        prop_assert_eq!(left.is_some(), right.is_some());
        if let (Some(left), Some(right)) = (left, right) {
            prop_assert!((left.change - right.change).abs() <= 1e-5 * left.change + 1e-8, "{} {}", left.change, right.change);
        }
    }
}

// Where figures bend, and several answers to each problem: fewer cases, so that all takes seconds.
proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn an_answer_meets_what_is_asked_or_the_conflict_is_real(problem in any_problem()) {
        check_outcome(&problem)?;
    }

    #[test]
    fn the_same_problem_gives_the_same_bits(problem in any_problem()) {
        let first = format!("{:?}", reformulate(&problem, &|| false));
        for _ in 1..10 {
            prop_assert_eq!(&first, &format!("{:?}", reformulate(&problem, &|| false)));
            if first.starts_with("Ok(Impossible") {
                break;
            }
        }
    }

    #[test]
    fn the_order_of_lines_does_not_matter(problem in any_problem()) {
        let mut turned = problem.clone();
        turned.recipe.lines.reverse();
        turned.targets.reverse();
        let (left, right) = (answer_of(&finely(&problem)), answer_of(&finely(&turned)));
        prop_assert_eq!(left.is_some(), right.is_some(), "{}", short(&problem));
        if let (Some(left), Some(right)) = (left, right) {
            prop_assert!((left.change - right.change).abs() <= 1e-4 * left.change + 1e-7, "{} {}", left.change, right.change);
        }
    }

    /// What was nearest without a lock is nearest among more than what is left with it.
    #[test]
    fn a_lock_more_never_makes_the_answer_nearer(problem in any_problem(), line in any::<Index>()) {
        let is_wish = |target: &Target| matches!(target.bound, Bound::Near(_));
        prop_assume!(!problem.targets.iter().any(is_wish));
        let mut locked = problem.clone();
        let idx = line.index(locked.recipe.lines.len());
        locked.recipe.lines[idx].is_locked = true;
        let (free, locked) = (answer_of(&finely(&problem)), answer_of(&finely(&locked)));
        prop_assert!(free.is_some() || locked.is_none(), "{} {idx}", short(&problem));
        if let (Some(free), Some(locked)) = (free, locked) {
            prop_assert!(
                free.change <= (1.0 + 1e-4) * locked.change + 1e-7,
                "{} {}: {} {idx}", free.change, locked.change, short(&problem)
            );
        }
    }
}
