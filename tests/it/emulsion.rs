//! Volumes, packing and solubility against worked examples, measured solutions and handbook tables; remedies carried out.

use std::sync::Arc;

use approx::assert_abs_diff_eq;
use nibwright::analysis::analyse;
use nibwright::analysis::emulsion::{Emulsion, EmulsionState, RoomForFat, jamming_fat_share};
use nibwright::analysis::finding::Level;
use nibwright::analysis::parts::Group;
use nibwright::analysis::water::solubility::sucrose_in_water;
use nibwright::ingredient::{Component, Ingredient, PolyolKind};
use nibwright::number::DecimalSign;
use nibwright::recipe::{Kind, Recipe, Use};
use nibwright::report::figures::{Edge, jamming_edge};
use nibwright::report::{json, text};
use nibwright::units::{Celsius, MassFraction};

use crate::support::{
    analysis_of, check_remedies, codes, evaporating, finding, grams, group, made_for, own, own_with, percent, recipe,
    recipe_of, remedies,
};

fn emulsion_of(recipe: &Recipe) -> Emulsion {
    analysis_of(recipe).emulsion.emulsion().unwrap_or_else(|| panic!("{:?} is an emulsion", recipe.lines))
}

/// A figure lies between two others.
fn check_between(what: &str, figure: f64, low: f64, high: f64) {
    assert!((low..=high).contains(&figure), "{what}: {figure}, expected {low} to {high}");
}

/// The chocolate of the worked example: fat 42 %, sugar 30 %, dry fat-free cocoa 28 %.
fn chocolate_70() -> Arc<Ingredient> {
    own(
        "chocolate 70 %",
        &[(Component::CocoaButter, 42.0), (Component::Sucrose, 30.0), (Component::FatFreeCocoaSolids, 28.0)],
    )
}

/// The cream of the worked example: fat 35 g, water 58 g, lactose 3 g. The 4 g that are left are its protein and
/// minerals: the example leaves them out of the water phase, so here they stay unassigned and count nowhere.
fn cream_35() -> Arc<Ingredient> {
    own("cream 35 %", &[(Component::MilkFat, 35.0), (Component::Water, 58.0), (Component::Lactose, 3.0)])
}

/// Worked out by hand from phase-volume arithmetic; the water phase stands there with a density of two decimals, so its
/// volume and what hangs on it are known no better than that density: 1.24 is anything from 1.235 to 1.245.
fn check_worked_example(chocolate: f64, water_phase_g: f64, density: f64, volumes: [f64; 2], fat_to_water: f64) {
    let mass = emulsion_of(&recipe_of(&[(chocolate_70(), chocolate), (cream_35(), 100.0)]));
    let [fat, insoluble] = volumes;
    assert_abs_diff_eq!(mass.fat.0, fat, epsilon = 5e-4);
    assert_abs_diff_eq!(mass.insoluble.0, insoluble, epsilon = 5e-4);
    assert_abs_diff_eq!(mass.fat_to_water, fat_to_water, epsilon = 5e-4);
    let (least, most) = (water_phase_g / (density + 0.005), water_phase_g / (density - 0.005));
    check_between("water phase, ml", mass.water_phase.0, least, most);
    check_between("phi_fat", mass.fat_share().0, fat / (fat + most), fat / (fat + least));
    let dispersed = fat + insoluble;
    check_between(
        "phi_dispersed",
        mass.dispersed_share().0,
        dispersed / (dispersed + most),
        dispersed / (dispersed + least),
    );
}

/// 200 g chocolate and 100 g cream: fat 119 g at 0.89, water phase 121 g at 1.24, insoluble 56 g at 1.45 g/ml (densities
/// of fat and particles from memory). 133.708, 97.581, 38.621 ml; `phi_fat` 0.5781, `phi_dispersed` 0.6385.
#[test]
fn the_two_to_one_ganache_of_the_worked_example() {
    check_worked_example(200.0, 121.0, 1.24, [133.708, 38.621], 2.052);
    let mass = emulsion_of(&recipe_of(&[(chocolate_70(), 200.0), (cream_35(), 100.0)]));
    assert_abs_diff_eq!(mass.fat_share().0, 0.5781, epsilon = 0.001);
    assert_abs_diff_eq!(mass.dispersed_share().0, 0.6385, epsilon = 0.001);
}

/// 100 g chocolate and 100 g cream: fat 77 g, water phase 91 g at 1.16, insoluble 28 g; `phi_fat` 0.5245,
/// `phi_dispersed` 0.5743.
#[test]
fn the_one_to_one_ganache_of_the_worked_example() {
    check_worked_example(100.0, 91.0, 1.16, [77.0 / 0.89, 28.0 / 1.45], 1.328);
    let mass = emulsion_of(&recipe_of(&[(chocolate_70(), 100.0), (cream_35(), 100.0)]));
    assert_abs_diff_eq!(mass.fat_share().0, 0.5245, epsilon = 0.002);
    assert_abs_diff_eq!(mass.dispersed_share().0, 0.5743, epsilon = 0.002);
}

/// Shares of the phase bar in percent: crystals and liquid fat together, syrup, undissolved sugar, cocoa, other.
fn check_bar(recipe: &Recipe, celsius: f64, expected: [f64; 5]) {
    let bar = analyse(recipe, Celsius(celsius)).phase_bar.expect("all is known");
    let shares =
        [bar.fat_crystals + bar.liquid_fat, bar.syrup, bar.undissolved_sugar, bar.cocoa_particles, bar.other_particles];
    for (share, percent) in shares.into_iter().zip(expected) {
        assert_abs_diff_eq!(share.to_percent(), percent, epsilon = 0.01);
    }
}

/// By hand for the 2 : 1 ganache above: 119 g fat, 121 g syrup and 56 g cocoa together, 4 g left open, of 300 g. The
/// cocoa has taken some of the syrup's water; at 20 °C, with a water activity near 0.90, about 0.27 g each gram.
#[test]
fn the_phase_bar_of_the_worked_example() {
    let ganache = recipe_of(&[(chocolate_70(), 200.0), (cream_35(), 100.0)]);
    let analysis = analysis_of(&ganache);
    let activity = analysis.water.activity().expect("all is known").0;
    // The isotherm of cocoa at that activity: 0.061·21.6·x/((1 − x)·(1 + 20.6·x)), x = 0.871·a.
    let x = 0.871 * activity;
    let taken = 56.0 * 0.061 * 21.6 * x / ((1.0 - x) * (1.0 + 20.6 * x));
    assert!(taken > 15.0 && taken < 16.0, "{taken} g at {activity}");
    check_bar(&ganache, 20.0, [119.0 / 3.0, (121.0 - taken) / 3.0, 0.0, (56.0 + taken) / 3.0, 4.0 / 3.0]);
    let hot = analyse(&ganache, Celsius(60.0)).phase_bar.expect("all is known");
    assert_eq!(hot.fat_crystals, MassFraction::ZERO);
}

/// Charles 1960 (coefficients from memory): 100 g of water take 66.60/33.40 · 100 g of sucrose at 20 °C, 74.20/25.80 at
/// 60 °C; of 350 g the rest stays dry.
#[test]
fn sugar_dissolves_in_the_phase_bar_as_it_gets_warm() {
    let mass = recipe_of(&[(pure(Component::Water), 100.0), (pure(Component::Sucrose), 350.0)]);
    for (celsius, saturated) in [(20.0, 66.60), (60.0, 74.20)] {
        let dissolved = 100.0 * saturated / (100.0 - saturated);
        let syrup = 100.0 + dissolved;
        check_bar(&mass, celsius, [0.0, syrup / 4.5, (350.0 - dissolved) / 4.5, 0.0, 0.0]);
    }
}

/// In a fat-continuous mass all sugar is dry, and water and ethanol stand alone.
#[test]
fn in_a_fat_continuous_mass_the_sugar_is_dry() {
    let parts = [
        (Component::CocoaButter, 40.0),
        (Component::Water, 1.0),
        (Component::Ethanol, 0.5),
        (Component::Sucrose, 30.0),
        (Component::Glucose, 10.0),
        (Component::FatFreeCocoaSolids, 12.0),
        (Component::Salt, 0.5),
        (Component::OtherProtein, 6.0),
    ];
    check_bar(&recipe_of(&[(own("mass", &parts), 80.0)]), 20.0, [40.0, 1.5, 40.0, 12.0, 6.5]);
}

/// Milk protein counts to the water phase at 0.75 ml/g (from memory), so 3 g of it are 2.25 ml there.
#[test]
fn milk_protein_counts_to_the_water_phase() {
    let water = || own("water", &[(Component::Water, 100.0)]);
    let protein = own("protein", &[(Component::MilkProtein, 100.0)]);
    let with = emulsion_of(&recipe_of(&[(water(), 58.0), (protein, 3.0)]));
    let without = emulsion_of(&recipe_of(&[(water(), 58.0)]));
    assert_abs_diff_eq!((with.water_phase.0 - without.water_phase.0) / 3.0, 0.75, epsilon = 1e-9);
    assert_eq!(with.insoluble, without.insoluble);
}

/// By hand: 2 : 1 of a 64 % chocolate (cocoa butter 38, dry fat-free cocoa 26, sugar 35.5, lecithin 0.5) and a cream (fat
/// 40, water 54.6, lactose 3.0). Hints for cutting: sugars below 28 and no syrup solids, nothing else (ranges: common
/// practice, no published source, with the ends that Morato 2007 gives).
#[test]
fn the_balance_check_of_a_classic_cut_ganache() {
    let chocolate = own(
        "chocolate 64 %",
        &[
            (Component::CocoaButter, 38.0),
            (Component::FatFreeCocoaSolids, 26.0),
            (Component::Sucrose, 35.5),
            (Component::OtherFat, 0.5),
        ],
    );
    let cream = own("cream 40 %", &[(Component::MilkFat, 40.0), (Component::Water, 54.6), (Component::Lactose, 3.0)]);
    let ganache = made_for(recipe_of(&[(chocolate, 200.0), (cream, 100.0)]), Kind::Ganache, Use::Cut);
    let analysis = analysis_of(&ganache);
    let expected = [
        (Group::CocoaButter, 25.333),
        (Group::MilkFat, 13.333),
        (Group::Water, 18.200),
        (Group::Sugars, 24.667),
        (Group::FatFreeCocoaSolids, 17.333),
        (Group::SyrupSolids, 0.0),
    ];
    for (which, value) in expected {
        assert_abs_diff_eq!(group(&analysis, which), value, epsilon = 5e-4);
    }
    let both = percent(&analysis, Component::CocoaButter) + percent(&analysis, Component::MilkFat);
    assert_abs_diff_eq!(both, 38.667, epsilon = 5e-4);
    let hints: Vec<_> = codes(&analysis)
        .into_iter()
        .filter(|code| code.starts_with("groups.") || code.starts_with("composition."))
        .collect();
    assert_eq!(hints, ["groups.sugars.low", "groups.syrup_solids.low"]);
    assert!(analysis.findings.iter().all(|finding| finding.level < Level::Problem));
}

/// Percent of sucrose in its saturated solution.
fn saturated_percent(celsius: f64) -> f64 {
    let grams_per_gram = sucrose_in_water(Celsius(celsius));
    100.0 * grams_per_gram / (1.0 + grams_per_gram)
}

/// Charles 1960, basis of ICUMSA SPS-2 (1998); coefficients quoted from memory.
#[test]
fn sucrose_dissolves_as_charles_found() {
    let table = [
        (0.0, 64.40),
        (10.0, 65.32),
        (20.0, 66.60),
        (25.0, 67.35),
        (30.0, 68.18),
        (40.0, 70.01),
        (50.0, 72.04),
        (60.0, 74.20),
        (80.0, 78.74),
        (100.0, 83.18),
    ];
    for (celsius, percent) in table {
        assert_abs_diff_eq!(saturated_percent(celsius), percent, epsilon = 0.005_1);
    }
}

/// Independent of Charles: a Russian handbook table (66.74 % at 20 °C, 74.32 at 60, 82.89 at 100) and Vavrinecz 1962 as
/// an encyclopaedia gives him (67.47 at 25 °C).
#[test]
fn sucrose_dissolves_as_other_tables_say() {
    for (celsius, percent, tolerance) in
        [(20.0, 66.74, 0.3), (25.0, 67.47, 0.2), (60.0, 74.32, 0.3), (100.0, 82.89, 0.4)]
    {
        assert_abs_diff_eq!(saturated_percent(celsius), percent, epsilon = tolerance);
    }
}

/// Outside 0–100 °C nobody measured: the value of the nearer end, and it never falls on the way.
#[test]
fn solubility_rises_with_temperature_and_is_held_at_the_ends() {
    assert_eq!(sucrose_in_water(Celsius(-30.0)), sucrose_in_water(Celsius(0.0)));
    assert_eq!(sucrose_in_water(Celsius(180.0)), sucrose_in_water(Celsius(100.0)));
    let steps: Vec<f64> = (0..=100).map(|celsius| sucrose_in_water(Celsius(f64::from(celsius)))).collect();
    assert!(steps.windows(2).all(|pair| pair[0] < pair[1]));
}

/// What does not dissolve at 40 °C stands among the particles at 1.587 g/ml (density of crystalline sucrose, from
/// memory): 100 g of water take 233.4 g (70.01 %, Charles 1960, from memory), of 300 g there are 66.6 g left.
#[test]
fn sugar_beyond_its_solubility_is_a_particle() {
    let water = own("water", &[(Component::Water, 100.0)]);
    let sugar = own("sugar", &[(Component::Sucrose, 100.0)]);
    let thick = emulsion_of(&recipe_of(&[(water, 100.0), (sugar, 300.0)]));
    let dissolved = 100.0 * 70.01 / (100.0 - 70.01);
    assert_abs_diff_eq!(thick.insoluble.0, (300.0 - dissolved) / 1.587, epsilon = 0.1);
}

/// Density of a solution in g/ml from the volume that the program gives its water phase.
fn density_of_solution(solute: Arc<Ingredient>, percent: f64) -> f64 {
    let water = own("water", &[(Component::Water, 100.0)]);
    let solution = emulsion_of(&recipe_of(&[(solute, percent), (water, 100.0 - percent)]));
    assert_eq!(solution.insoluble.0, 0.0, "all of it is dissolved");
    100.0 / solution.water_phase.0
}

fn pure(component: Component) -> Arc<Ingredient> {
    own(component.key(), &[(component, 100.0)])
}

fn glycerol() -> Arc<Ingredient> {
    let mut glycerol = Ingredient::clone(&pure(Component::Polyols));
    glycerol.properties.polyol_kind = Some(PolyolKind::Glycerol);
    Arc::new(glycerol)
}

/// CRC Handbook of Chemistry and Physics, "Concentrative properties of aqueous solutions", 20 °C.
#[test]
fn solutions_have_their_measured_density() {
    let cases = [
        ("sucrose", pure(Component::Sucrose), 30.0, 1.1270, 0.001),
        ("sucrose", pure(Component::Sucrose), 60.0, 1.2864, 0.001),
        ("glucose", pure(Component::Glucose), 40.0, 1.1724, 0.0015),
        ("fructose", pure(Component::Fructose), 40.0, 1.1769, 0.001),
        ("lactose", pure(Component::Lactose), 10.0, 1.0390, 0.001),
        ("glycerol", glycerol(), 40.0, 1.0984, 0.001),
        ("glycerol", glycerol(), 60.0, 1.1530, 0.001),
    ];
    for (name, solute, percent, density, tolerance) in cases {
        let computed = density_of_solution(solute, percent);
        assert!((computed - density).abs() <= tolerance, "{name} {percent} %: {computed}, measured {density}");
    }
}

/// Under 2 % water there is no emulsion, all its figures are open and a finding says so; at 2 % there is one.
#[test]
fn fat_is_the_continuous_phase_below_two_percent_of_water() {
    for (water, is_emulsion) in [(0.0, false), (0.5, false), (1.99, false), (2.0, true), (2.01, true), (30.0, true)] {
        let mass = own("mass", &[(Component::Water, water), (Component::CocoaButter, 100.0 - water)]);
        let analysis = analysis_of(&recipe_of(&[(mass, 700.0)]));
        assert_eq!(analysis.emulsion.emulsion().is_some(), is_emulsion, "{water} % water");
        assert_eq!(analysis.emulsion == EmulsionState::FatContinuous, !is_emulsion, "{water} % water");
        assert_eq!(codes(&analysis).contains(&"emulsion.fat_continuous"), !is_emulsion, "{water} % water");
    }
}

/// Sugar is no fat: without any, nothing is fat-continuous and nothing seizes. With a fat that is not known, who knows.
#[test]
fn without_fat_a_dry_mass_is_not_fat_continuous() {
    let salty = own("salty", &[(Component::Sucrose, 98.0), (Component::Salt, 1.0), (Component::Water, 1.0)]);
    let unknown = own_with("unknown", &[(Component::Sucrose, 100.0)], &[Component::OtherFat], 0.0);
    let fatty =
        own_with("fatty", &[(Component::CocoaButter, 50.0), (Component::Sucrose, 50.0)], &[Component::OtherFat], 0.0);
    for (ingredient, state, code, is_fat_continuous) in [
        (own("sugar", &[(Component::Sucrose, 100.0)]), EmulsionState::Dry, Some("emulsion.dry"), "false"),
        (salty, EmulsionState::Dry, Some("emulsion.dry"), "false"),
        (unknown, EmulsionState::Unknown, None, "null"),
        (fatty, EmulsionState::FatContinuous, Some("emulsion.fat_continuous"), "true"),
    ] {
        let mass = recipe_of(&[(ingredient, 100.0)]);
        let analysis = analysis_of(&mass);
        assert_eq!(analysis.emulsion, state);
        let found = codes(&analysis).into_iter().find(|code| code.starts_with("emulsion."));
        assert_eq!(found, code, "{state:?}");
        let written = json::report(&mass, &analysis).expect("it can be written");
        assert!(written.contains(&format!("\"is_fat_continuous\": {is_fat_continuous}")), "{written}");
        for figure in ["phi_fat", "phi_dispersed", "fat_to_water"] {
            assert!(written.contains(&format!("\"{figure}\": null")), "{figure}");
        }
        let said = text::report(&mass, &analysis, DecimalSign::Point).to_lowercase();
        assert_eq!(said.contains("fat-continuous"), state == EmulsionState::FatContinuous, "{said}");
        assert_eq!(said.contains("seize"), state == EmulsionState::FatContinuous, "{said}");
    }
}

/// The same with the water in a line of its own, in batches of many sizes.
#[test]
fn the_border_of_two_percent_does_not_depend_on_the_batch() {
    let water = own("water", &[(Component::Water, 100.0)]);
    let fat = own("fat", &[(Component::CocoaButter, 100.0)]);
    for step in 1..200 {
        let batch = 0.37 * f64::from(step);
        let at = recipe_of(&[(Arc::clone(&fat), 49.0 * batch), (Arc::clone(&water), batch)]);
        assert!(analysis_of(&at).emulsion.emulsion().is_some(), "{batch} g of water in {} g", 50.0 * batch);
        let below = recipe_of(&[(Arc::clone(&fat), 49.1 * batch), (Arc::clone(&water), batch)]);
        assert_eq!(analysis_of(&below).emulsion, EmulsionState::FatContinuous);
    }
}

/// A mass with this water and this fat, and the solids of a ganache in their own proportions.
fn on_the_map(solids: &[(Component, f64)], water: f64, fat: f64) -> Recipe {
    let sum: f64 = solids.iter().map(|(_, grams)| grams).sum();
    let rest = 100.0 - water - fat;
    let parts: Vec<_> = solids
        .iter()
        .map(|&(component, grams)| (component, grams / sum * rest))
        .chain([(Component::Water, water), (Component::CocoaButter, 0.6 * fat), (Component::MilkFat, 0.4 * fat)])
        .collect();
    recipe_of(&[(own("mass", &parts), 250.0)])
}

/// Random close packing of equal spheres, 0.64 (Bernal and Mason 1960; Scott and Kilgour 1969; from memory): a mass that
/// is placed on the edge has exactly that.
#[test]
fn a_mass_on_the_edge_is_packed_at_random() {
    let ganache = [(Component::Sucrose, 60.0), (Component::Lactose, 5.0), (Component::FatFreeCocoaSolids, 35.0)];
    let syrupy =
        [(Component::Glucose, 30.0), (Component::HigherSaccharides, 30.0), (Component::FatFreeCocoaSolids, 40.0)];
    let polyols =
        [(Component::Polyols, 30.0), (Component::Fibre, 20.0), (Component::Ethanol, 10.0), (Component::Salt, 1.0)];
    let mut count = 0;
    for solids in [&ganache[..], &syrupy[..], &polyols[..]] {
        let bowl = analysis_of(&on_the_map(solids, 20.0, 38.0)).make_up.bowl;
        for water in [4.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0] {
            let Some(RoomForFat::UpTo(fat)) = jamming_fat_share(&bowl, MassFraction::from_percent(water)) else {
                continue;
            };
            let placed = emulsion_of(&on_the_map(solids, water, fat.to_percent()));
            assert_abs_diff_eq!(placed.dispersed_share().0, 0.64, epsilon = 1e-5);
            count += 1;
        }
        for Edge { water, fat, .. } in jamming_edge(&bowl).into_iter().filter(|edge| edge.is_jamming) {
            let placed = emulsion_of(&on_the_map(solids, water, fat));
            assert_abs_diff_eq!(placed.dispersed_share().0, 0.64, epsilon = 1e-5);
            count += 1;
        }
    }
    assert!(count >= 60, "{count} places on the edge");
}

/// The map and the figure say the same: a point lies in the region exactly when its dispersed share is below 0.64.
#[test]
fn a_mass_lies_in_the_region_exactly_when_its_droplets_have_room() {
    let solids = [(Component::Sucrose, 55.0), (Component::MilkProtein, 10.0), (Component::FatFreeCocoaSolids, 35.0)];
    let (mut inside, mut outside, mut without_end) = (0, 0, 0);
    for water in [5.0, 12.0, 20.0, 30.0, 38.0, 42.0, 50.0, 60.0, 70.0] {
        for fat in [2.0, 10.0, 20.0, 30.0, 45.0, 60.0, 80.0] {
            if water + fat >= 99.0 {
                continue;
            }
            let bowl = analysis_of(&on_the_map(&solids, water, fat)).make_up.bowl;
            let has_room = emulsion_of(&on_the_map(&solids, water, fat)).dispersed_share().0 < 0.64;
            let edge = jamming_edge(&bowl).into_iter().find(|edge| (edge.water - water).abs() < 1e-9);
            assert_eq!(edge.is_some_and(|edge| fat < edge.fat), has_room, "{water} % water, {fat} % fat: {edge:?}");
            inside += usize::from(has_room);
            outside += usize::from(!has_room);
            without_end += usize::from(edge.is_some_and(|edge| !edge.is_jamming));
        }
    }
    assert!(inside > 10 && outside > 10 && without_end > 3, "{inside} {outside} {without_end}");
}

/// Hints by packing: below 0.64 there is room, above it droplets jam, above the closest packing of equal spheres (0.7405,
/// Kwok et al. 2020 show that it is a guide) splitting is likely.
#[test]
fn findings_follow_the_packing() {
    let fat_and_water = |fat: f64| {
        let (fat, water) = (fat * 0.89, (1.0 - fat) * 0.9982);
        recipe_of(&[(pure(Component::CocoaButter), 100.0 * fat), (pure(Component::Water), 100.0 * water)])
    };
    let cases = [
        (0.30, "emulsion.room", Level::Note),
        (0.60, "emulsion.room", Level::Note),
        (0.639, "emulsion.room", Level::Note),
        (0.641, "emulsion.phi_dispersed.high", Level::Caution),
        (0.739, "emulsion.phi_dispersed.high", Level::Caution),
        (0.742, "emulsion.phi_dispersed.high", Level::Problem),
    ];
    for (dispersed, code, level) in cases {
        let analysis = analysis_of(&fat_and_water(dispersed));
        let found = finding(&analysis, code);
        assert_eq!(found.level, level, "at {dispersed}");
        assert_abs_diff_eq!(found.value.expect("a figure"), dispersed, epsilon = 1e-4);
        assert_eq!(
            codes(&analysis)
                .iter()
                .filter(|code| code.starts_with("emulsion.phi") || **code == "emulsion.room")
                .count(),
            1
        );
    }
}

/// Common practice, no published source: fat over water up to 2.2 is firm and careful, beyond it likely to split.
#[test]
fn much_fat_for_the_water_is_a_finding_beyond_two_point_two() {
    for (fat, is_finding) in [(219.0, false), (220.0, false), (221.0, true)] {
        let mass = recipe_of(&[(pure(Component::CocoaButter), fat), (pure(Component::Water), 100.0)]);
        assert_eq!(codes(&analysis_of(&mass)).contains(&"emulsion.fat_to_water.high"), is_finding, "{fat} : 100");
    }
}

/// What a finding offers is carried out on its line, the recipe computed again: the figure is at the bound.
#[test]
fn every_remedy_of_an_emulsion_does_what_it_says() {
    let roomy = recipe(&[("couverture-dark-64", 250.0), ("cream-35", 250.0), ("glucose-syrup-de40", 30.0)]);
    let crowded = recipe(&[("couverture-dark-75", 330.0), ("cream-40", 120.0), ("butter-82", 50.0), ("water", 5.0)]);
    let split = recipe(&[("couverture-dark-80", 400.0), ("cream-40", 80.0), ("butter-82", 60.0), ("milk-whole", 20.0)]);
    let cooked = evaporating(recipe(&[("cream-35", 300.0), ("sucrose", 300.0), ("butter-salted", 120.0)]), 100.0);
    let count: usize = [&roomy, &crowded, &split, &cooked].into_iter().map(check_remedies).sum();
    assert!(count >= 6, "{count} remedies");
    assert!(codes(&analysis_of(&crowded)).contains(&"emulsion.phi_dispersed.high"));
    let analysis = analysis_of(&split);
    assert_eq!(finding(&analysis, "emulsion.phi_dispersed.high").level, Level::Problem);
    assert!(!remedies(finding(&analysis, "emulsion.fat_to_water.high")).is_empty());
}

/// A locked line stays as it is: no remedy touches it.
#[test]
fn no_remedy_touches_a_locked_line() {
    let mut mass =
        recipe(&[("couverture-dark-80", 400.0), ("cream-40", 80.0), ("butter-82", 60.0), ("milk-whole", 20.0)]);
    let offered = |recipe: &Recipe| {
        let analysis = analysis_of(recipe);
        let lines = analysis.findings.iter().flat_map(remedies).map(|remedy| remedy.line);
        lines.collect::<Vec<_>>()
    };
    let free = offered(&mass);
    for idx in 0..mass.lines.len() {
        mass.lines[idx].is_locked = true;
        let line = mass.lines[idx].id;
        assert!(!offered(&mass).contains(&line));
        mass.lines[idx].is_locked = false;
    }
    for line in &mut mass.lines {
        line.is_locked = true;
    }
    assert!(!free.is_empty() && offered(&mass).is_empty());
    mass.lines[0].amount = grams(0.0);
    assert!(offered(&mass).is_empty());
}
