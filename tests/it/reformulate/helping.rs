//! What would help where it cannot be done: every advice is done as it is told.

use nibwright::analysis::parts::Group;
use nibwright::ingredient::Component;
use nibwright::recipe::Recipe;
use nibwright::reformulate::helpers::{Helpers, seek_helpers};
use nibwright::reformulate::{Allowed, Bound, Measured, Outcome, Problem, Target, reformulate};

use super::{outcome, unrounded};
use crate::support::recipe;

fn group(group: Group, bound: Bound) -> Target {
    Target::new(Measured::Group(group), bound)
}

fn helped(problem: &Problem) -> Option<Helpers> {
    let mut outcome = outcome(problem);
    seek_helpers(problem, &mut outcome, &|| false);
    match outcome {
        Outcome::Impossible(why) => why.helpers,
        other => panic!("{other:?}"),
    }
}

fn syrup() -> Recipe {
    recipe(&[("water", 50.0), ("sucrose", 50.0)])
}

/// By hand: 100 g of water and sugar have no fat; a tenth of pure fat is 10 g of it.
#[test]
fn what_is_missing_is_brought_by_what_has_it() {
    let problem = Problem { targets: vec![group(Group::TotalFat, Bound::AtLeast(10.0))], ..unrounded(syrup()) };
    let helpers = helped(&problem).expect("it was looked for");
    // Water and sugar are there already.
    assert_eq!(helpers.tried, 14);
    let more = |id: &str| helpers.found.iter().find(|helper| helper.ingredient.id == id).map(|helper| helper.more.0);
    for pure in ["cocoa-butter", "oil-sunflower"] {
        assert!(more(pure).is_some_and(|more| (more - 10.0).abs() < 0.05), "{pure} {:?}", more(pure));
    }
    // Cream of 35 % fat: 10/0.35.
    assert!(more("cream-35").is_some_and(|more| (more - 10.0 / 0.35).abs() < 1.0), "{:?}", more("cream-35"));
    for without_fat in ["dextrose-monohydrate", "sorbitol-powder", "invert-syrup"] {
        assert_eq!(more(without_fat), None, "{without_fat}");
    }
    let place = |id: &str| helpers.found.iter().position(|helper| helper.ingredient.id == id);
    assert!(place("cocoa-butter") < place("butter-82"), "what brings an allergen comes later: {helpers:?}");
}

/// Done as it is told, everything holds.
#[test]
fn what_is_advised_can_be_done() {
    let ganache = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("strawberry-puree", 150.0)]);
    let problem = Problem {
        targets: vec![
            Target::new(Measured::WaterActivity, Bound::AtMost(0.85)),
            group(Group::Water, Bound::AtLeast(18.0)),
            group(Group::TotalFat, Bound::AtLeast(24.0)),
        ],
        ..Problem::new(ganache)
    };
    let helpers = helped(&problem).expect("it was looked for");
    assert!(!helpers.found.is_empty());
    for helper in &helpers.found {
        let mut with = problem.clone();
        with.allowed.push(Allowed { ingredient: helper.ingredient.clone(), most: None });
        let Ok(Outcome::Changed(answer)) = reformulate(&with, &|| false) else { panic!("{helper:?}") };
        let came = answer.moves.last().map(|moved| moved.after);
        assert!(answer.missed().next().is_none() && came == Some(helper.more), "{helper:?} {came:?}");
    }
}

/// Polyols from a tenth of the mass on need a caution on the label (Regulation (EU) 1169/2011, Annex III): no advice.
#[test]
fn so_much_polyol_is_not_advised() {
    let ganache = || recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 50.0)]);
    let polyols = |at| Target::new(Measured::Component(Component::Polyols), Bound::AtLeast(at));
    let found = |at| {
        let problem = Problem { targets: vec![polyols(at)], ..Problem::new(ganache()) };
        helped(&problem).expect("it was looked for").found
    };
    assert_eq!(found(9.0).iter().map(|helper| helper.ingredient.id.as_str()).collect::<Vec<_>>(), ["sorbitol-powder"]);
    assert_eq!(found(11.0), []);
}

#[test]
fn nothing_that_is_added_can_bring_both() {
    let fat = |bound| group(Group::TotalFat, bound);
    let ganache = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("cocoa-butter", 50.0)]);
    let both = vec![fat(Bound::AtLeast(40.0)), fat(Bound::AtMost(33.0))];
    let problem = Problem { targets: both, ..Problem::new(ganache) };
    let helpers = helped(&problem).expect("it was looked at");
    assert!(helpers.is_hopeless && helpers.tried == 0 && helpers.found.is_empty(), "{helpers:?}");
}

#[test]
fn where_only_the_scale_is_too_coarse_nothing_is_looked_for() {
    let water = group(Group::Water, Bound::Between(40.05, 40.06));
    let problem = Problem { targets: vec![water], ..Problem::new(syrup()) };
    assert!(matches!(outcome(&problem), Outcome::Impossible(why) if why.is_by_scale));
    assert_eq!(helped(&problem), None);
}

/// Told to stop before anything was found, it says nothing.
#[test]
fn it_can_be_stopped() {
    let problem = Problem { targets: vec![group(Group::TotalFat, Bound::AtLeast(10.0))], ..unrounded(syrup()) };
    let mut outcome = outcome(&problem);
    seek_helpers(&problem, &mut outcome, &|| true);
    assert!(matches!(outcome, Outcome::Impossible(why) if why.helpers.is_none()));
}
