//! Results that a target can ask for: each of them by hand or as the report tells it.

use approx::assert_abs_diff_eq;
use nibwright::analysis::analyse;
use nibwright::ingredient::{Component, Library};
use nibwright::number::DecimalSign;
use nibwright::recipe::{Kind, Recipe, Use};
use nibwright::reformulate::measured::Mass;
use nibwright::reformulate::{Bound, Decides, Measured, Problem, Target};
use nibwright::report::words::reformulation::target_in_short;
use nibwright::store::load_recipe;
use nibwright::units::Celsius;

use super::{changed, grams_after, missed_in_report, report, reported, unrounded};
use crate::support::{analysis_of, codes, finding, made_for, own, recipe, recipe_of};

const NEW: [Measured; 10] = [
    Measured::Crystals(Celsius(4.0)),
    Measured::Crystals(Celsius(18.0)),
    Measured::Crystals(Celsius(20.0)),
    Measured::Crystals(Celsius(25.0)),
    Measured::Contraction,
    Measured::SolidsVolume,
    Measured::CocoaButterInFat,
    Measured::MilkFatInFat,
    Measured::OtherFatInFat,
    Measured::Component(Component::Salt),
];

fn asked(recipe: Recipe, target: Target) -> Problem {
    Problem { targets: vec![target], ..unrounded(recipe) }
}

fn amounts_for(recipe: Recipe, of: Measured, bound: Bound) -> Vec<f64> {
    grams_after(&changed(&asked(recipe, Target::new(of, bound))))
}

/// 600 g of cocoa butter and 200 g of another fat beside 200 g of sugar that stays: 40 % of the fat are 320 of 800 g.
#[test]
fn shares_of_the_fat_are_no_shares_of_the_mass() {
    for (of, fat) in [(Measured::MilkFatInFat, Component::MilkFat), (Measured::OtherFatInFat, Component::OtherFat)] {
        let pure = |component: Component| own(component.key(), &[(component, 100.0)]);
        let lines = [(pure(Component::CocoaButter), 600.0), (pure(fat), 200.0), (pure(Component::Sucrose), 200.0)];
        let mut mass = recipe_of(&lines);
        mass.lines[2].is_locked = true;
        for (amount, expected) in amounts_for(mass, of, Bound::AtLeast(40.0)).iter().zip([480.0, 320.0, 200.0]) {
            assert_abs_diff_eq!(*amount, expected, epsilon = 2e-4);
        }
    }
}

/// Cocoa butter is 77.13 % solid at 20 °C: 20 % of crystals are 259.30 g of it in 1000 g.
#[test]
fn crystals_of_the_mass_by_hand() {
    let plain = recipe(&[("cocoa-butter", 200.0), ("sucrose", 800.0)]);
    let amounts = amounts_for(plain, Measured::Crystals(Celsius(20.0)), Bound::AtLeast(20.0));
    assert_abs_diff_eq!(amounts[0], 259.30, epsilon = 0.05);
}

/// Liquid fat 0.9086, crystals 0.9900, sugar 1.5 g/ml at 20 °C: with 38.5 % of cocoa butter 83.3729 ml of 100 g become 80.6857,
/// and each length is 1.0861 % shorter.
#[test]
fn shrinking_by_hand() {
    let plain = recipe(&[("cocoa-butter", 300.0), ("sucrose", 700.0)]);
    let amounts = amounts_for(plain, Measured::Contraction, Bound::AtLeast(1.0861));
    assert_abs_diff_eq!(amounts[0], 385.0, epsilon = 0.2);
}

/// At 40 °C fat has 0.895 and sugar 1.5 g/ml: 350 and 650 g are 391.06 and 433.33 ml, 52.565 % solids.
#[test]
fn solids_of_the_melted_mass_by_hand() {
    let plain = recipe(&[("cocoa-butter", 300.0), ("sucrose", 700.0)]);
    let amounts = amounts_for(plain, Measured::SolidsVolume, Bound::AtMost(52.565));
    assert_abs_diff_eq!(amounts[0], 350.0, epsilon = 0.02);
}

fn samples() -> Vec<Recipe> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-recipes");
    let paths = std::fs::read_dir(folder).expect("the folder is there").map(|entry| entry.expect("an entry").path());
    let recipes = paths.filter(|path| path.extension().is_some_and(|extension| extension == "ron"));
    recipes.map(|path| load_recipe(&path, Library::built_in()).expect("a sample opens")).collect()
}

/// What can be asked for is what the report of every sample tells, and there is none where it tells none.
#[test]
fn figures_are_those_of_the_report() {
    let samples = samples();
    assert!(samples.len() >= 8, "only {} samples", samples.len());
    for sample in samples {
        let told = report(&sample);
        let analysis = analysis_of(&sample);
        let mass = Mass::new(&sample, &analysis.make_up.bowl);
        for of in NEW {
            match (mass.figure(of), reported(&told, of)) {
                (Some(figure), Some((_, value, _))) => assert_abs_diff_eq!(figure.value, value, epsilon = 1e-9),
                (None, None) => {}
                (figure, told) => panic!("{}, {of:?}: {figure:?}, {told:?}", sample.name),
            }
        }
    }
}

/// What each target claims is what the report says of the answer.
#[test]
fn answers_hold_by_the_report() {
    let ganache =
        [("couverture-dark-64", 500.0), ("cream-35", 400.0), ("butter-82", 50.0), ("glucose-syrup-de40", 50.0)];
    let praline = [("hazelnut-paste", 500.0), ("couverture-milk-36", 300.0), ("cocoa-butter", 60.0)];
    let mut count = 0;
    for lines in [&ganache[..], &praline[..]] {
        for of in NEW {
            let start = recipe(lines);
            let Some((_, value, _)) = reported(&report(&start), of).filter(|(_, value, _)| *value > 0.0) else {
                continue;
            };
            for bound in [Bound::AtLeast(value * 1.04), Bound::AtMost(value * 0.96)] {
                let target = Target::new(of, bound);
                let problem = Problem { targets: vec![target], ..Problem::new(start.clone()) };
                let answer = changed(&problem);
                let words = target_in_short(&target, None, DecimalSign::Point);
                assert!(missed_in_report(&answer.recipe, &target) < 1e-6, "{words}");
                assert!(missed_in_report(&start, &target) > 1e-3, "{words}");
                count += 1;
            }
        }
    }
    assert!(count >= 30, "{count}");
}

/// The band of crystals is that of the solid fat, times the share of fat.
#[test]
fn the_band_of_crystals_is_told_and_can_decide() {
    let start = recipe(&[("couverture-dark-64", 500.0), ("cream-35", 400.0), ("butter-82", 50.0)]);
    let of = Measured::Crystals(Celsius(20.0));
    let (_, value, _) = reported(&report(&start), of).expect("there is fat");
    let target = Target { by: Decides::UnfavourableEdge, ..Target::new(of, Bound::AtLeast(value)) };
    let answer = changed(&asked(start, target));
    let after = report(&answer.recipe);
    let points = after["fat"]["solid_fat_uncertainty_points"].as_f64().expect("it is known");
    let fat = after["groups"]["total_fat"].as_f64().expect("it is known") / 100.0;
    let (_, now, _) = reported(&after, of).expect("there is fat");
    assert_abs_diff_eq!(now - points * fat, value, epsilon = 1e-3);
}

/// A cutting ganache with few crystals: its finding asks for so many, and is gone with the answer.
#[test]
fn the_finding_on_crystals_becomes_a_target() {
    const LOW: &str = "texture.crystals_percent_of_mass.low";
    let soft =
        [("couverture-dark-64", 400.0), ("cream-35", 400.0), ("cocoa-butter", 20.0), ("glucose-syrup-de40", 60.0)];
    for (intended_use, expected) in [(Use::Cut, Bound::AtLeast(15.0)), (Use::Piped, Bound::Between(10.0, 15.0))] {
        let mut start = made_for(recipe(&soft), Kind::Ganache, intended_use);
        if intended_use == Use::Piped {
            start = made_for(recipe(&[("couverture-dark-64", 300.0), ("cream-35", 600.0)]), Kind::Ganache, Use::Piped);
        }
        let analysis = analyse(&start, nibwright::analysis::ROOM);
        let target = Target::of_finding(finding(&analysis, LOW)).expect("a target answers it");
        assert_eq!((target.of, target.bound), (Measured::Crystals(Celsius(20.0)), expected));
        let answer = changed(&Problem { targets: vec![target], ..Problem::new(start) });
        let after = analysis_of(&answer.recipe);
        assert!(codes(&after).iter().all(|code| !code.starts_with("texture.")), "{:?}", codes(&after));
    }
}
