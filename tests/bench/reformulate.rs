//! How long a reformulation takes: figures that bend, shares alone, and a contradiction with its reasons.
//!
//! The budget is 20 ms for a recipe of fifteen lines with six targets, water activity among them, on an ordinary two-core
//! machine: an answer then stands in the window in the frame after the one that asked.

#![expect(clippy::expect_used, clippy::panic, reason = "a benchmark that cannot begin says why and stops")]

use criterion::{Criterion, criterion_group, criterion_main};
use nibwright::analysis::parts::Group;
use nibwright::ingredient::{Component, Library};
use nibwright::recipe::{Quantity, Recipe};
use nibwright::reformulate::{Bound, Measured, Outcome, Problem, Target, reformulate};
use nibwright::units::Celsius;

/// Fifteen lines with every kind of fat, sugars, alcohol, egg and fruit.
const FIFTEEN_LINES: [(&str, f64); 15] = [
    ("couverture-dark-64", 900.0),
    ("couverture-milk-40", 360.0),
    ("cocoa-butter", 60.0),
    ("cream-35", 540.0),
    ("butter-82", 120.0),
    ("milk-powder-whole", 45.0),
    ("egg-yolk", 30.0),
    ("coconut-cream", 90.0),
    ("hazelnut-paste", 120.0),
    ("invert-syrup", 75.0),
    ("glucose-syrup-de40", 60.0),
    ("dextrose-monohydrate", 30.0),
    ("sorbitol-powder", 30.0),
    ("passion-fruit-puree", 120.0),
    ("rum-40", 45.0),
];

fn problem(targets: &[(Measured, Bound)]) -> Problem {
    let mut recipe = Recipe::default();
    for (id, grams) in FIFTEEN_LINES {
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in"));
        recipe.push(ingredient.clone(), Quantity::from_grams(grams).expect("an amount"));
    }
    let targets = targets.iter().map(|&(of, bound)| Target::new(of, bound)).collect();
    Problem { targets, ..Problem::new(recipe) }
}

fn reformulations(criterion: &mut Criterion) {
    let water = Measured::Group(Group::Water);
    let bent = problem(&[
        (Measured::WaterActivity, Bound::AtMost(0.88)),
        (Measured::SolidFat(Celsius(20.0)), Bound::AtLeast(40.0)),
        (Measured::FormVLimit, Bound::AtLeast(29.5)),
        (Measured::SucroseSupersaturation, Bound::AtMost(0.48)),
        (Measured::DispersedVolume, Bound::AtMost(0.56)),
        (water, Bound::AtMost(22.0)),
    ]);
    let shares = problem(&[
        (water, Bound::AtMost(21.0)),
        (Measured::Group(Group::TotalFat), Bound::Between(36.0, 37.0)),
        (Measured::Group(Group::Sugars), Bound::AtMost(24.0)),
        (Measured::Group(Group::CocoaButter), Bound::AtLeast(21.0)),
        (Measured::Energy, Bound::AtMost(2000.0)),
        (Measured::FatToWater, Bound::AtMost(1.75)),
    ]);
    let contradiction = problem(&[
        (Measured::WaterActivity, Bound::AtMost(0.80)),
        (water, Bound::AtLeast(24.0)),
        (Measured::Group(Group::Sugars), Bound::AtMost(20.0)),
        (Measured::Sweetness, Bound::AtMost(20.0)),
        (Measured::SolidFat(Celsius(20.0)), Bound::AtLeast(30.0)),
        (Measured::Component(Component::Ethanol), Bound::AtMost(2.0)),
    ]);
    for (name, problem, is_possible) in [
        ("reformulation, 15 lines, 6 targets, water activity among them", &bent, true),
        ("reformulation, 15 lines, 6 shares", &shares, true),
        ("reformulation, 15 lines, 6 targets that contradict each other", &contradiction, false),
    ] {
        let outcome = reformulate(problem, &|| false).expect("a sound problem");
        let is_as_thought = match outcome {
            Outcome::Changed(_) => is_possible,
            Outcome::Impossible(_) => !is_possible,
            Outcome::Unchanged(_) | Outcome::Stopped => false,
        };
        assert!(is_as_thought, "{name}");
        criterion.bench_function(name, |bencher| bencher.iter(|| reformulate(problem, &|| false)));
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(10);
    targets = reformulations
}
criterion_main!(benches);
