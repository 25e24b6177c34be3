use approx::{assert_abs_diff_eq, assert_relative_eq};
use proptest::prelude::*;

use super::*;
use crate::ingredient::Library;
use crate::production::order::{Order, Wanted};
use crate::production::scaling::scale;
use crate::recipe::{Evaporation, Kind, Line, Quantity, Recipe, SeedingWay};

fn recipe(lines: &[(&str, f64)]) -> Recipe {
    let mut recipe = Recipe { kind: Kind::Ganache, ..Recipe::default() };
    for (id, amount) in lines {
        let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
        recipe.push(ingredient, Quantity::from_grams(*amount).expect("an amount"));
    }
    recipe
}

/// Dark chocolate, cream, invert sugar, glucose syrup, butter, salt and vanilla: 1445 g.
fn ganache() -> Recipe {
    let percent = [
        ("couverture-dark-64", 44.8),
        ("cream-35", 33.3),
        ("invert-syrup", 6.1),
        ("glucose-syrup-de40", 5.4),
        ("butter-82", 8.2),
        ("salt", 0.3),
        ("sorbitol-powder", 1.9),
    ];
    recipe(&percent.map(|(id, percent)| (id, percent * 14.45)))
}

fn bench(scales: Scales, capacity: Option<f64>) -> Bench<'static> {
    Bench { scales, capacity: capacity.map(Grams), own_steps: &[], is_least: false }
}

fn weigh(recipe: &Recipe, scales: Scales, capacity: Option<f64>) -> Result<Weighing, CannotScale> {
    weighing(&scale(recipe, &Order::default())?, &bench(scales, capacity))
}

fn shown(bowls: &Bowls) -> Vec<f64> {
    bowls.weighed.lines.iter().map(|line| line.rounded.0).collect()
}

/// Worked example, by hand, of the method of the largest remainder.
#[test]
fn one_bowl_is_rounded_to_the_scale() {
    let list = weigh(&ganache(), Scales::KITCHEN, None).expect("it can be weighed");
    assert_eq!(list.count(), 1);
    assert_eq!(shown(&list.bowls[0]), [647.0, 481.0, 88.0, 78.0, 119.0, 4.0, 28.0]);
    assert_eq!((list.total, list.lines[5]), (Grams(1445.0), Grams(4.0)));
}

/// By hand: salt (4.335 g) is below 20 steps of 1 g, so it is weighed in steps of 0.1 g, and the rest stays on the large scale.
#[test]
fn a_finer_scale_takes_what_the_first_is_too_coarse_for() {
    let scales = Scales { step: Grams(1.0), fine_step: Some(Grams(0.1)) };
    let list = weigh(&ganache(), scales, None).expect("it can be weighed");
    let lines = &list.bowls[0].weighed.lines;
    assert_eq!((lines[5].rounded, lines[5].step), (Grams(4.3), Grams(0.1)));
    assert!(lines.iter().enumerate().all(|(idx, line)| (line.step == Grams(1.0)) == (idx != 5)), "{lines:?}");
    assert_eq!(list.bowls[0].weighed.too_coarse().count(), 0);
    // In steps of 5 g also invert sugar, glucose syrup and vanilla are too coarse.
    let scales = Scales { step: Grams(5.0), fine_step: Some(Grams(0.1)) };
    let list = weigh(&ganache(), scales, None).expect("it can be weighed");
    let fine = list.bowls[0].weighed.lines.iter().map(|line| line.step == Grams(0.1)).collect::<Vec<_>>();
    assert_eq!(fine, [false, false, true, true, false, true, true]);
    // A "finer" scale that is none changes nothing.
    let none = Scales { step: Grams(1.0), fine_step: Some(Grams(2.0)) };
    assert_eq!(weigh(&ganache(), none, None), weigh(&ganache(), Scales::KITCHEN, None));
}

/// By hand: 1445 steps in bowls for 500 g are three: two of 482 g and one of 481 g.
#[test]
fn bowls_are_as_even_as_the_scale_allows() {
    let list = weigh(&ganache(), Scales::KITCHEN, Some(500.0)).expect("it can be weighed");
    let bowls: Vec<(u64, Grams)> = list.bowls.iter().map(|bowls| (bowls.count, bowls.weighed.total)).collect();
    assert_eq!(bowls, [(2, Grams(482.0)), (1, Grams(481.0))]);
    assert_eq!((list.total, list.count()), (Grams(1445.0), 3));
    let of_first: Grams = list.bowls.iter().map(|it| it.weighed.lines[0].rounded * as_number(it.count)).sum();
    assert_eq!(list.lines[0], of_first);
}

/// The same without seed: it keeps the crystals of its chocolate.
fn unseeded() -> Recipe {
    let mut recipe = ganache();
    recipe.seeding.way = SeedingWay::KeepTempered;
    recipe
}

/// By hand: 1445 g fit into a bowl for 1445.9 g; a bowl for 1444.9 g holds 1444 steps, so there are two.
#[test]
fn a_bowl_is_never_fuller_than_it_can_be() {
    assert_eq!(weigh(&unseeded(), Scales::KITCHEN, Some(1445.9)).expect("it can be weighed").count(), 1);
    let two = weigh(&unseeded(), Scales::KITCHEN, Some(1444.9)).expect("it can be weighed");
    assert_eq!(two.bowls.iter().map(|it| it.weighed.total.0).collect::<Vec<_>>(), [723.0, 722.0]);
}

/// By hand: the same 1445 g take some 16 g of seed on top, and a bowl for 1445.9 g would flow over; with 30 g of water gone
/// the seed fits in again, and what is weighed in counts.
#[test]
fn the_seed_has_to_fit_into_the_bowl() {
    let list = weigh(&ganache(), Scales::KITCHEN, Some(1445.9)).expect("it can be weighed");
    assert_eq!(list.count(), 2);
    let seed = |list: &Weighing| list.bowls[0].seed.expect("there is seed").rounded.0;
    let one = weigh(&ganache(), Scales::KITCHEN, Some(1500.0)).expect("it can be weighed");
    assert_eq!((one.count(), one.bowls[0].fullest().0), (1, 1445.0 + seed(&one)));
    assert!(seed(&one) > 5.0);
    // A gram less than what is in it at the end.
    let full = 1445.0 + seed(&one);
    assert_eq!(weigh(&ganache(), Scales::KITCHEN, Some(full + 0.6)).expect("it can be weighed").count(), 1);
    assert_eq!(weigh(&ganache(), Scales::KITCHEN, Some(full - 1.0)).expect("it can be weighed").count(), 2);
    let mut boiled = ganache();
    boiled.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(30.0).expect("an amount"));
    assert_eq!(weigh(&boiled, Scales::KITCHEN, Some(1445.9)).expect("it can be weighed").count(), 1);
    assert_eq!(weigh(&boiled, Scales::KITCHEN, Some(1444.9)).expect("it can be weighed").count(), 2);
}

/// By hand: 1442 g in steps of 5 g are 288 steps and 2 g; asked for pieces, there are 289 of them.
#[test]
fn what_pieces_need_is_weighed_at_least() {
    let order = Order { wanted: Wanted::Mass(Grams(1442.0)), ..Order::default() };
    let batch = scale(&ganache(), &order).expect("it can be scaled");
    let scales = Scales { step: Grams(5.0), fine_step: None };
    let total = |bench: Bench<'_>| weighing(&batch, &bench).expect("it can be weighed").total;
    assert_eq!(total(bench(scales, None)), Grams(1440.0));
    assert_eq!(total(Bench { is_least: true, ..bench(scales, None) }), Grams(1445.0));
    assert_eq!(total(Bench { is_least: true, ..bench(scales, Some(500.0)) }), Grams(1445.0));
    // With a finer scale the coarse one may round down; then it takes a step more.
    for fine in [0.01, 0.1, 0.5] {
        let scales = Scales { step: Grams(5.0), fine_step: Some(Grams(fine)) };
        let least = total(Bench { is_least: true, ..bench(scales, None) });
        assert!((1442.0..1452.0).contains(&least.0), "{least:?}");
    }
    // A whole number of steps stays what it is.
    let exact = scale(&ganache(), &Order::default()).expect("it can be scaled");
    let list = weighing(&exact, &Bench { is_least: true, ..bench(scales, None) }).expect("it can be weighed");
    assert_eq!(list.total, Grams(1445.0));
}

/// By hand: of 5 g, salt (0.015), sorbitol (0.095), glucose (0.27), invert sugar (0.305) and butter (0.41 g) are less than
/// half a gram each; of 1000 g the salt is 3 g. Salt alone may be left out: it is 0.3 %.
#[test]
fn a_scale_that_leaves_out_much_of_the_mass_is_refused() {
    let of = |grams: f64, scales: Scales| {
        let order = Order { wanted: Wanted::Mass(Grams(grams)), ..Order::default() };
        weighing(&scale(&ganache(), &order)?, &bench(scales, None))
    };
    let error = of(5.0, Scales::KITCHEN).expect_err("half of it would be left out").to_string();
    assert!(error.contains("in 5 g, lines that are ") && error.contains("would be left out"), "{error}");
    assert!(of(5.0, Scales { step: Grams(1.0), fine_step: Some(Grams(0.01)) }).is_ok());
    let list = of(100.0, Scales::KITCHEN).expect("the salt is told in a note");
    assert_eq!(list.lines[5], Grams(0.0));
    assert!(of(1000.0, Scales::KITCHEN).is_ok());
    // Bowls of a gram hold one line each.
    assert!(matches!(
        weigh(&ganache(), Scales::KITCHEN, Some(1.0)),
        Err(CannotScale::Rounding(RoundingError::LinesLeftOut { .. }) | CannotScale::BowlTooSmall { .. })
    ));
}

/// By hand: 4.335 g of salt on a scale of its own with steps of 0.1 g are 4.3 g, and 27.455 g of sorbitol on one of 0.5 g 27.5 g.
#[test]
fn a_line_can_have_a_scale_of_its_own() {
    let recipe = ganache();
    let own_steps = [(recipe.lines[5].id, Grams(0.1)), (recipe.lines[6].id, Grams(0.5))];
    let batch = scale(&recipe, &Order::default()).expect("it can be scaled");
    for fine_step in [None, Some(Grams(0.01))] {
        let scales = Scales { step: Grams(1.0), fine_step };
        let list =
            weighing(&batch, &Bench { own_steps: &own_steps, ..bench(scales, None) }).expect("it can be weighed");
        let lines = &list.bowls[0].weighed.lines;
        assert_eq!((lines[5].rounded, lines[5].step), (Grams(4.3), Grams(0.1)));
        assert_eq!((lines[6].rounded, lines[6].step), (Grams(27.5), Grams(0.5)));
        assert_eq!(lines[0].step, Grams(1.0));
    }
}

#[test]
fn a_bowl_smaller_than_a_step_is_refused() {
    let error = weigh(&ganache(), Scales::KITCHEN, Some(0.9)).expect_err("it holds no step");
    assert_eq!(error, CannotScale::BowlTooSmall { capacity: Grams(0.9), step: Grams(1.0) });
    let coarse = Scales { step: Grams(2000.0), fine_step: None };
    let error = weigh(&ganache(), coarse, None).expect_err("it is no step").to_string();
    assert!(error.contains("1445 g are less than one step of the scale, 2000 g"), "{error}");
}

/// What evaporates and the seed are shared out, and together they are those of the batch.
#[test]
fn every_bowl_has_its_evaporation_and_its_seed() {
    let mut recipe = ganache();
    recipe.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(30.0).expect("an amount"));
    let batch = scale(&recipe, &Order::default()).expect("it can be scaled");
    let seed = batch.analysis.seeding.expect("it can be seeded").seed;
    let list = weighing(&batch, &bench(Scales::KITCHEN, Some(500.0))).expect("it can be weighed");
    let all = |of: &dyn Fn(&Bowls) -> Grams| list.bowls.iter().map(|it| (of(it) * as_number(it.count)).0).sum::<f64>();
    assert_relative_eq!(all(&|it| it.evaporates.expect("known")), 30.0, max_relative = 1e-12);
    assert_relative_eq!(all(&|it| it.seed.expect("there is seed").exact), seed.0, max_relative = 1e-12);
    let bowl = &list.bowls[0];
    assert_abs_diff_eq!(bowl.left().expect("known").0, 482.0 - 30.0 * 482.0 / 1445.0, epsilon = 1e-9);
    let weighed = bowl.seed.expect("there is seed");
    assert!((0.0..1.0).contains(&(weighed.rounded.0 - weighed.exact.0)), "up to the next gram: {weighed:?}");
    assert!(weighed.needs_finer_scale(), "some 5 g in steps of 1 g: {weighed:?}");
}

/// Seed that stands in the recipe is weighed with the lines; tempered chocolate needs none.
#[test]
fn seed_is_not_told_twice() {
    let mut recipe = ganache();
    let butter = Library::built_in().by_id("cocoa-butter").expect("it is built in").clone();
    let id = recipe.unused_line_id();
    let amount = Quantity::from_grams(15.0).expect("an amount");
    recipe.lines.push(Line { is_seed: true, ..Line::new(id, butter, amount) });
    let list = weigh(&recipe, Scales::KITCHEN, None).expect("it can be weighed");
    assert_eq!((list.bowls[0].seed, list.lines[7]), (None, Grams(15.0)));
    let mut kept = ganache();
    kept.seeding.way = SeedingWay::KeepTempered;
    assert_eq!(weigh(&kept, Scales::KITCHEN, None).expect("it can be weighed").bowls[0].seed, None);
}

proptest! {
    /// Whatever the bowls: they hold the nearest of the batch that the scale can tell, differ by one step, and none is too full.
    #[test]
    fn bowls_keep_the_total(
        wanted in 600.0..20_000.0,
        capacity in 600.0..30_000.0,
        step in prop::sample::select(vec![0.1, 0.5, 1.0, 2.0, 5.0]),
    ) {
        let order = Order { wanted: Wanted::Mass(Grams(wanted)), ..Order::default() };
        let batch = scale(&ganache(), &order).expect("it can be scaled");
        let scales = Scales { step: Grams(step), fine_step: None };
        let list = weighing(&batch, &bench(scales, Some(capacity))).expect("it can be weighed");
        let less = list.requested.0 - list.total.0;
        prop_assert!(less.abs() <= 0.5 * step + 1e-6, "{less}");
        let totals: Vec<f64> = list.bowls.iter().map(|bowls| bowls.weighed.total.0).collect();
        prop_assert!(list.bowls.iter().all(|bowls| bowls.fullest().0 <= capacity + 1e-6));
        let spread = totals.iter().copied().fold(0.0, f64::max) - totals.iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(spread <= step + 1e-6, "{totals:?}");
        let lines: f64 = list.lines.iter().map(|line| line.0).sum();
        prop_assert!((lines - list.total.0).abs() < 1e-6);
        for bowls in &list.bowls {
            for line in &bowls.weighed.lines {
                prop_assert!((line.rounded.0 - line.exact.0).abs() < 2.0 * step);
            }
        }
    }
}

/// By hand: 37.35 g in steps of 5 g are 40 g, because 35 g are 6 % too little; 155.4 g in steps of 1 g stay 155 g; of 0.3 g a
/// scale that shows 1 g shows nothing.
#[test]
fn seed_is_not_rounded_below_what_is_needed() {
    let seed = |grams: f64, step: f64| {
        let scales = Scales { step: Grams(step), fine_step: None };
        scales.round_seed(Grams(grams)).expect("it can be weighed")
    };
    let up = seed(37.35, 5.0);
    assert_eq!((up.rounded, up.exact), (Grams(40.0), Grams(37.35)));
    assert_relative_eq!(up.relative_error.expect("known").0, 40.0 / 37.35 - 1.0, max_relative = 1e-12);
    assert_eq!(seed(38.0, 5.0).rounded, Grams(40.0));
    assert_eq!(seed(155.4, 1.0).rounded, Grams(155.0));
    assert_eq!(seed(0.3, 1.0).rounded, Grams(0.0));
}

/// By hand: more than half a step goes up, half of one and less goes down; in bowls too.
#[test]
fn a_batch_is_the_nearest_that_the_scale_can_tell() {
    for (asked, step, weighed) in
        [(1444.96, 1.0, 1445.0), (1444.4, 1.0, 1444.0), (1443.0, 5.0, 1445.0), (1445.0, 2.0, 1444.0)]
    {
        let scales = Scales { step: Grams(step), fine_step: None };
        let order = Order { wanted: Wanted::Mass(Grams(asked)), ..Order::default() };
        let batch = scale(&unseeded(), &order).expect("it can be scaled");
        for capacity in [None, Some(500.0)] {
            let list = weighing(&batch, &bench(scales, capacity)).expect("it can be weighed");
            assert_eq!((list.total, list.requested.0.round()), (Grams(weighed), asked.round()), "{capacity:?}");
            assert!(list.bowls.iter().all(|bowls| capacity.is_none_or(|most| bowls.weighed.total.0 <= most)));
        }
    }
}

/// A line on a coarse scale of its own may lose 25 g: the others weigh it, however fine their scale is, and a bowl is found at
/// once whatever the steps are.
#[test]
fn a_coarse_scale_of_one_line_leaves_the_rest_right() {
    let order = Order { wanted: Wanted::Mass(Grams(1442.0)), ..Order::default() };
    let batch = scale(&unseeded(), &order).expect("it can be scaled");
    let own = [0, 1].map(|line| (batch.recipe.lines[line].id, Grams(50.0)));
    for step in [0.0001, 0.1, 1.0, 5.0] {
        let scales = Scales { step: Grams(step), fine_step: None };
        for capacity in [None, Some(Grams(500.0))] {
            let bench = Bench { scales, capacity, own_steps: &own, is_least: true };
            let list = weighing(&batch, &bench).expect("it can be weighed");
            assert!(!is_below(list.total.0, 1442.0), "{step} {capacity:?}: {:?}", list.total);
            assert!(list.bowls.iter().all(|bowls| capacity.is_none_or(|most| bowls.weighed.total <= most)));
        }
    }
}
