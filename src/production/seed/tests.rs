use super::*;
use crate::ingredient::Library;
use crate::production::order::Order;
use crate::production::scaling::scale;
use crate::recipe::{Kind, Quantity, Recipe};

fn needed(way: SeedingWay, grams: f64) -> SeedOf {
    SeedOf::Needed { way, grams: Grams(grams), name: None, is_in_recipe: false }
}

fn day(seeds: &[SeedOf], ready: Option<f64>) -> Result<SeedOfTheDay, ReadyForWhat> {
    seed_of_the_day(&seeds.iter().collect::<Vec<_>>(), ready.map(Grams))
}

/// By hand: 20 g and 25 g take 45 g; with 30 g ready 15 g are missing.
#[test]
fn what_is_ready_is_held_against_all_recipes() {
    let seeds = [needed(SeedingWay::Cream, 20.0), SeedOf::None, needed(SeedingWay::Cream, 25.0)];
    let day = day(&seeds, Some(30.0)).expect("one way");
    let [of_way] = day.ways.as_slice() else { panic!("one way: {day:?}") };
    assert_eq!((of_way.way, of_way.recipes), (SeedingWay::Cream, 2));
    let need = of_way.need.expect("it is known");
    assert_eq!((need.needed, need.missing, need.left_over), (Grams(45.0), Grams(15.0), Grams(0.0)));
}

#[test]
fn seed_of_different_ways_is_not_added_up() {
    let seeds = [needed(SeedingWay::Grated, 20.0), needed(SeedingWay::Cream, 25.0)];
    let both = day(&seeds, None).expect("nothing is ready");
    let ways: Vec<(SeedingWay, f64)> =
        both.ways.iter().map(|it| (it.way, it.need.expect("it is known").needed.0)).collect();
    assert_eq!(ways, [(SeedingWay::Cream, 25.0), (SeedingWay::Grated, 20.0)]);
    assert_eq!(day(&seeds, Some(10.0)), Err(ReadyForWhat::SeveralWays));
    assert_eq!(day(&[SeedOf::None], Some(10.0)), Err(ReadyForWhat::NoSeed));
    assert_eq!(day(&[], None), Ok(SeedOfTheDay { ways: Vec::new() }));
}

#[test]
fn one_seed_that_is_not_known_leaves_the_day_open() {
    let seeds = [needed(SeedingWay::Cream, 20.0), SeedOf::NotKnown { way: SeedingWay::Cream }];
    let day = day(&seeds, Some(30.0)).expect("one way");
    assert_eq!((day.ways[0].recipes, day.ways[0].need), (2, None));
}

fn seed_of(kind: Kind, lines: &[(&str, f64)], way: SeedingWay) -> SeedOf {
    let mut recipe = Recipe { kind, ..Recipe::default() };
    recipe.seeding.way = way;
    for (id, amount) in lines {
        let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
        recipe.push(ingredient, Quantity::from_grams(*amount).expect("an amount"));
    }
    SeedOf::batch(&scale(&recipe, &Order::default()).expect("it can be scaled"))
}

#[test]
fn the_seed_is_that_of_the_plan() {
    let ganache = [("couverture-dark-64", 400.0), ("cream-35", 200.0)];
    let SeedOf::Needed { way, grams, name, .. } = seed_of(Kind::Ganache, &ganache, SeedingWay::Cream) else {
        panic!("it is seeded")
    };
    assert_eq!((way, name.as_deref()), (SeedingWay::Cream, Some("Cocoa butter")));
    assert!((4.0..9.0).contains(&grams.0), "{grams:?}");
    // The classic third: half as much chocolate as there is mass.
    let SeedOf::Needed { grams, .. } = seed_of(Kind::Ganache, &ganache, SeedingWay::ChoppedChocolate) else {
        panic!("it is seeded")
    };
    assert_eq!(grams, Grams(300.0));
    assert_eq!(seed_of(Kind::Ganache, &ganache, SeedingWay::KeepTempered), SeedOf::None);
    assert_eq!(seed_of(Kind::Caramel, &ganache, SeedingWay::Cream), SeedOf::None);
    assert_eq!(seed_of(Kind::Other, &[("water", 100.0)], SeedingWay::Cream), SeedOf::None);
}
