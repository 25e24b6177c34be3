//! How long one complete analysis takes: make-up, emulsion, water, solid-fat curve, limits, seeding, findings; and the
//! course of cooling of a body.
//!
//! The budget is 0.4 ms for a recipe of twenty lines on an ordinary two-core machine.

#![expect(clippy::expect_used, clippy::panic, reason = "a benchmark that cannot begin says why and stops")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use nibwright::analysis::cooling::body::{Body, Crystals, Face, Geometry, Length, Material, Rate, Solid, run};
use nibwright::analysis::fat::{FatGrams, FatPhase, Form};
use nibwright::analysis::water::activity::Equation;
use nibwright::analysis::{ROOM, analyse, setting};
use nibwright::ingredient::Library;
use nibwright::recipe::{
    CocoaButter, CookTemperature, Evaporation, Height, Kind, MixTemperature, Quantity, Recipe, Setting, Use,
};
use nibwright::report::figures;
use nibwright::units::{
    Celsius, Grams, GramsPerMillilitre, JoulesPerGram, JoulesPerGramKelvin, MassFraction, Metres, Minutes,
    WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};

/// Twenty lines with every kind of fat, every sugar, alcohol, egg and fruit: the worst that a kitchen writes.
const TWENTY_LINES: [(&str, f64); 20] = [
    ("couverture-dark-64", 300.0),
    ("couverture-milk-40", 120.0),
    ("cocoa-butter", 20.0),
    ("cream-35", 180.0),
    ("butter-82", 40.0),
    ("milk-powder-whole", 15.0),
    ("egg-yolk", 10.0),
    ("coconut-cream", 30.0),
    ("hazelnut-paste", 40.0),
    ("filling-fat-palm-free", 10.0),
    ("invert-syrup", 25.0),
    ("glucose-syrup-de40", 20.0),
    ("dextrose-monohydrate", 10.0),
    ("sorbitol-powder", 10.0),
    ("passion-fruit-puree", 40.0),
    ("raspberry-puree", 30.0),
    ("rum-40", 15.0),
    ("honey", 10.0),
    ("vanilla-paste", 3.0),
    ("salt", 1.0),
];

fn recipe(lines: &[(&str, f64)]) -> Recipe {
    let mut recipe = Recipe { kind: Kind::Ganache, intended_use: Some(Use::Cut), ..Recipe::default() };
    for (id, grams) in lines {
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in"));
        recipe.push(ingredient.clone(), Quantity::from_grams(*grams).expect("an amount"));
    }
    recipe
}

fn analysis(criterion: &mut Criterion) {
    let twenty = recipe(&TWENTY_LINES);
    criterion.bench_function("complete analysis, 20 lines", |bencher| {
        bencher.iter(|| analyse(black_box(&twenty), ROOM));
    });
    let mut cooked = twenty.clone();
    cooked.kind = Kind::Caramel;
    cooked.losses.evaporation = Evaporation::CookedTo {
        temperature: CookTemperature::new(Celsius(110.0)).expect("a temperature"),
        height: Height::SEA_LEVEL,
    };
    assert!(analyse(&cooked, ROOM).make_up.evaporating.cooked().is_some(), "it can be cooked");
    criterion.bench_function("complete analysis, 20 lines, cooked to a temperature", |bencher| {
        bencher.iter(|| analyse(black_box(&cooked), ROOM));
    });
    let mut mixed = twenty.clone();
    for (line, celsius) in mixed.lines.iter_mut().zip([20.0, 20.0, 20.0, 85.0, 18.0].into_iter().cycle()) {
        line.temperature = MixTemperature::new(Celsius(celsius)).ok();
    }
    mixed.mixing.wanted = MixTemperature::new(Celsius(36.0)).ok();
    assert!(matches!(analyse(&mixed, ROOM).mixing, Some(Ok(_))), "it can be mixed");
    criterion.bench_function("complete analysis, 20 lines with temperatures and a wanted end", |bencher| {
        bencher.iter(|| analyse(black_box(&mixed), ROOM));
    });
    let five = recipe(&TWENTY_LINES[..5]);
    criterion.bench_function("complete analysis, 5 lines", |bencher| {
        bencher.iter(|| analyse(black_box(&five), ROOM));
    });
    let analysed = analyse(&twenty, ROOM);
    let water = analysed.water.water().expect("it is wet");
    criterion.bench_function("water: activity against water content, 60 points", |bencher| {
        bencher.iter(|| figures::drying_curve(black_box(&twenty), black_box(&analysed)));
    });
    criterion.bench_function("water: sorption isotherm, 60 points", |bencher| {
        bencher.iter(|| figures::sorption_isotherm(black_box(&analysed)));
    });
    criterion.bench_function("water: five equations", |bencher| {
        bencher.iter(|| Equation::ALL.map(|equation| black_box(water).contents.activity_by(equation, ROOM)));
    });
    let grams =
        FatGrams { cocoa_butter: Grams(60.0), milk_fat: Grams(25.0), liquid_oil: Grams(15.0), ..FatGrams::default() };
    criterion.bench_function("fat: phase, curve 0-45 °C, three limits", |bencher| {
        bencher.iter(|| {
            let phase = FatPhase::new(black_box(&grams), CocoaButter::WestAfrican).expect("a fat");
            let curve = phase.solid_fat_curve((0..=45).map(|degrees| Celsius(f64::from(degrees))));
            let limits = [Form::IV, Form::V, Form::VI].map(|form| phase.melting_limit(form));
            (curve, limits)
        });
    });
}

/// The course of a framed ganache with crystals, 200 steps of 40 cells. Budget: 2 ms.
fn courses(criterion: &mut Criterion) {
    let air = Celsius(17.0);
    let [below, above] = [0.0, 8.0].map(|h| Face { coefficient: WattsPerSquareMetreKelvin(h), air });
    let ganache = Material::new(GramsPerMillilitre(1.09), WattsPerMetreKelvin(0.31), |_| JoulesPerGramKelvin(2.6));
    let geometry = Geometry::Slab { thickness: Metres(0.01), faces: [below, above] };
    let slab = Body::new(geometry, ganache.expect("a material")).expect("a slab");
    let grams = FatGrams { cocoa_butter: Grams(50.0), milk_fat: Grams(50.0), ..FatGrams::default() };
    let phase = FatPhase::new(&grams, CocoaButter::WestAfrican).expect("a fat");
    // 36 % fat of which crystals give off 125 J/g.
    let solid = |at| {
        let solid = phase.solid_fat(at);
        let share = solid.form_v + solid.other;
        Solid { heat: JoulesPerGram(0.36 * 125.0 * share.0), share }
    };
    criterion.bench_function("setting: crystals of a blend", |bencher| {
        bencher.iter(|| Crystals::new(black_box(&solid), Rate::Equilibrium, MassFraction(0.0)));
    });
    for (name, rate) in [("at equilibrium", Rate::Equilibrium), ("in time", Rate::Limited(Minutes(30.0)))] {
        let crystals = Crystals::new(&solid, rate, MassFraction(0.0)).expect("crystals");
        criterion.bench_function(&format!("setting: slab, 200 steps of 40 cells, crystals {name}"), |bencher| {
            bencher.iter(|| run(black_box(&slab), Celsius(34.0), &crystals, Length::Given(Minutes(600.0))));
        });
    }
    // What the program does for a recipe, and what it adds where the unseeded course is looked at.
    let mut twenty = recipe(&TWENTY_LINES);
    twenty.setting = Some(Setting::usual(Some(Use::Cut)));
    let analysed = analyse(&twenty, ROOM);
    let course = || setting::setting(black_box(&twenty), &analysed).expect("it says how");
    assert!(course().set.is_ok(), "it sets");
    criterion.bench_function("setting: a recipe of 20 lines", |bencher| bencher.iter(course));
    criterion.bench_function("setting: a recipe of 20 lines, seeded and unseeded", |bencher| {
        bencher.iter(|| course().unseeded().is_some());
    });
}

criterion_group!(benches, analysis, courses);
criterion_main!(benches);
