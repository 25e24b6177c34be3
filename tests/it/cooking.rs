//! What evaporates: estimates by hand, cooks against worked figures, and what is said where nothing can be cooked.

use std::sync::Arc;

use approx::assert_abs_diff_eq;
use nibwright::analysis::cooking::{Cooked, Cooking, NotCooked, WATER_UNCERTAINTY, ethanol_lost, is_liquid};
use nibwright::analysis::finding::Level;
use nibwright::analysis::water::equilibrium::{Conditions, Contents};
use nibwright::analysis::water::state::{Doubt, ROOM, WIDE_BAND};
use nibwright::document::{Document, Edit};
use nibwright::ingredient::{Component, Ingredient};
use nibwright::number::DecimalSign;
use nibwright::recipe::{CookTemperature, Evaporation, Heating, Height, Kind, Recipe, Use};
use nibwright::report::{json, text, words};
use nibwright::units::{Celsius, Grams, Metres};
use serde_json::Value;

use crate::support::{
    analysis_of, built_in, check_remedies, codes, evaporating, finding, grams, made_for, own, own_with, percent,
    recipe, recipe_of,
};

fn with(mut recipe: Recipe, evaporation: Evaporation) -> Recipe {
    recipe.losses.evaporation = evaporation;
    recipe
}

fn cooked_at(recipe: Recipe, celsius: f64, metres: f64) -> Recipe {
    let temperature = CookTemperature::new(Celsius(celsius)).expect("a temperature");
    with(recipe, Evaporation::CookedTo { temperature, height: Height::new(Metres(metres)).expect("a height") })
}

fn cooked(recipe: Recipe, celsius: f64) -> Recipe {
    cooked_at(recipe, celsius, 0.0)
}

fn cooking(recipe: &Recipe) -> Cooking {
    *analysis_of(recipe).make_up.evaporating.cooking().expect("it is cooked")
}

fn outcome(recipe: &Recipe) -> Cooked {
    cooking(recipe).outcome.unwrap_or_else(|why| panic!("{why:?}"))
}

fn said(recipe: &Recipe, code: &str) -> String {
    words::finding(finding(&analysis_of(recipe), code), DecimalSign::Point).joined()
}

fn batch(recipe: &Recipe) -> Value {
    let report = json::report(recipe, &analysis_of(recipe)).expect("it can be written");
    serde_json::from_str::<Value>(&report).expect("it is JSON")["batch"].clone()
}

/// Solids of a glucose syrup of DE 42: of 18016/DE = 429 g/mol (definition of the dextrose equivalent).
fn syrup_solids() -> Arc<Ingredient> {
    let mut solids = Ingredient::clone(&own("solids", &[(Component::HigherSaccharides, 100.0)]));
    solids.properties.higher_saccharides_molar_mass = Some(18_016.0 / 42.0);
    Arc::new(solids)
}

/// 40 g sucrose, 35 g solids of glucose syrup DE 42, 6 g lactose, 0.9 g milk salts, in more water than they keep, with fat.
fn caramel() -> Recipe {
    recipe_of(&[
        (own("sugar", &[(Component::Sucrose, 100.0)]), 40.0),
        (syrup_solids(), 35.0),
        (own("milk", &[(Component::Lactose, 10.0), (Component::MilkMinerals, 1.5), (Component::Water, 88.5)]), 60.0),
        (own("fat", &[(Component::MilkFat, 100.0)]), 20.0),
    ])
}

/// The worked caramel: the same equations, computed elsewhere. 53.1 g of water are weighed in.
#[test]
fn a_caramel_is_cooked_to_its_temperature() {
    for (celsius, left) in [(110.0, 19.9), (115.0, 14.1), (118.0, 12.0), (120.0, 10.9), (125.0, 8.7)] {
        let caramel = cooked(caramel(), celsius);
        let make_up = analysis_of(&caramel).make_up;
        assert_abs_diff_eq!(outcome(&caramel).water_left.0, left, epsilon = 0.06);
        assert_abs_diff_eq!(make_up.evaporated.0, 53.1 - left, epsilon = 0.06);
        assert_abs_diff_eq!(make_up.bowl.grams(Component::Water).expect("known").0, left, epsilon = 0.06);
        assert_abs_diff_eq!(make_up.bowl.total().0, 155.0 - 53.1 + left, epsilon = 0.06);
        let batch = batch(&caramel);
        assert_eq!((&batch["evaporation"], batch["cook_to_c"].as_f64()), (&Value::from("cooked"), Some(celsius)));
        assert_abs_diff_eq!(batch["water_left_g"].as_f64().expect("known"), left, epsilon = 0.06);
    }
}

/// Sucrose 85 g boils with 15 g of water at these temperatures (standard atmosphere, the same equations computed
/// elsewhere); the temperature at the sea is then always that of the sea.
#[test]
fn on_a_mountain_it_is_cooked_to_less() {
    for (metres, celsius) in [(0.0, 116.0), (500.0, 114.2), (1000.0, 112.3), (1500.0, 110.5), (2000.0, 108.7)] {
        let syrup = own("sugar", &[(Component::Sucrose, 100.0)]);
        let syrup = cooked_at(recipe_of(&[(syrup, 85.0), (built_in("water"), 60.0)]), celsius, metres);
        let outcome = outcome(&syrup);
        assert_abs_diff_eq!(outcome.water_left.0, 15.0, epsilon = 0.15);
        assert_abs_diff_eq!(outcome.at_the_sea.0, 116.0, epsilon = 0.1);
        assert_eq!(outcome.stage.map(|stage| stage.name), Some("soft ball"), "{metres} m");
        let at_the_sea = said(&syrup, "cooking").contains("At the sea");
        assert_eq!(at_the_sea, metres > 0.0, "only where the height matters");
    }
}

/// What a cook says: figures, stage, and one warning about hot sugar whatever the kind.
#[test]
fn a_cook_is_a_note_with_its_stage() {
    for kind in [Kind::Caramel, Kind::Other] {
        let caramel = made_for(cooked(caramel(), 118.0), kind, None);
        let analysis = analysis_of(&caramel);
        let note = finding(&analysis, "cooking");
        assert_eq!((note.level, note.value), (Level::Note, Some(118.0)));
        // 53.1 − 12.0 g of 113.9 g: 10.5 % water.
        let words = said(&caramel, "cooking");
        assert!(words.starts_with("Cooked to 118 °C at 0 m: 41.1 g of water boil off, 10.5 % of the mass"), "{words}");
        assert!(words.contains("firm ball (118 to 121 °C)") && words.contains("(± 1.5)"), "{words}");
        assert_eq!(codes(&analysis).into_iter().filter(|code| *code == "caution.hot_sugar").count(), 1);
    }
    // Between two stages none is named.
    assert_eq!(outcome(&cooked(caramel(), 117.0)).stage, None);
    let report = text::report(&cooked(caramel(), 118.0), &analysis_of(&cooked(caramel(), 118.0)), DecimalSign::Comma);
    assert!(report.contains("cooked to 118 °C at 0 m: 10,5 % of the mass stays water, ± 1,5"), "{report}");
}

/// More cream or water boils off again: the mass is cooked to the same.
#[test]
fn more_water_only_boils_longer() {
    let lines = |cream, water| {
        let lines = [("sucrose", 300.0), ("glucose-syrup-de40", 200.0), ("cream-35", cream), ("water", water)];
        cooked(recipe(&lines), 118.0)
    };
    let (one, wetter) = (analysis_of(&lines(300.0, 0.0)), analysis_of(&lines(300.0, 400.0)));
    assert_abs_diff_eq!(wetter.make_up.evaporated.0, one.make_up.evaporated.0 + 400.0, epsilon = 1e-6);
    let water = |analysis| percent(analysis, Component::Water);
    assert_abs_diff_eq!(water(&wetter), water(&one), epsilon = 1e-6);
    // What more of a line does is judged by cooking it again.
    let creamy = analysis_of(&lines(310.0, 0.0));
    let again = one.make_up.with_more(&[(&built_in("cream-35"), Grams(10.0))]).expect("it can be cooked");
    assert_abs_diff_eq!(again.total().0, creamy.make_up.bowl.total().0, epsilon = 1e-6);
    assert_abs_diff_eq!(
        again.grams(Component::Water).expect("known").0,
        creamy.make_up.bowl.grams(Component::Water).expect("known").0,
        epsilon = 1e-6
    );
    let effects = &one.water.water().expect("it is wet").effects;
    assert!(effects.iter().all(|effect| effect.change.abs() < 0.02), "{effects:?}");
}

/// What a finding offers to change does what it says, though the mass is cooked again or evaporates more.
#[test]
fn remedies_count_what_evaporates() {
    let lines = [("couverture-dark-64", 300.0), ("cream-35", 150.0), ("glucose-syrup-de40", 60.0), ("butter-82", 90.0)];
    let mut count = 0;
    for evaporation in [
        Evaporation::Estimated(Heating::Boiled),
        Evaporation::Estimated(Heating::Warmed),
        cooked(Recipe::default(), 104.0).losses.evaporation,
        cooked_at(Recipe::default(), 102.0, 1500.0).losses.evaporation,
    ] {
        let ganache = made_for(with(recipe(&lines), evaporation), Kind::Ganache, Use::Cut);
        count += check_remedies(&ganache);
    }
    assert!(count >= 6, "only {count} remedies were offered");
}

/// 2 % of 300 g of cream and 100 g of purée are 8 g, 1 % are 4 g; syrup, butter, sugar and spirits are no liquid (habit
/// for a pan, from memory).
#[test]
fn an_estimate_is_a_share_of_the_liquid() {
    let lines = [
        ("cream-35", 300.0),
        ("passion-fruit-puree", 100.0),
        ("glucose-syrup-de40", 80.0),
        ("butter-82", 50.0),
        ("rum-40", 20.0),
        ("couverture-dark-64", 300.0),
    ];
    for (heating, evaporates) in [(Heating::Boiled, 8.0), (Heating::Warmed, 4.0)] {
        let mass = with(recipe(&lines), Evaporation::Estimated(heating));
        let analysis = analysis_of(&mass);
        assert_abs_diff_eq!(analysis.make_up.evaporated.0, evaporates, epsilon = 1e-9);
        assert_eq!(finding(&analysis, "evaporation_estimated").level, Level::Note);
        let (batch, report) = (batch(&mass), text::report(&mass, &analysis, DecimalSign::Point));
        assert_eq!((&batch["evaporation"], &batch["liquid_g"]), (&Value::from(heating.key()), &Value::from(400.0)));
        assert!(report.contains("% of 400 g of liquid"), "{report}");
    }
    for id in ["cream-35", "milk-whole", "passion-fruit-puree", "water", "coconut-cream", "egg-yolk"] {
        assert_eq!(is_liquid(&built_in(id)), Some(true), "{id}");
    }
    for id in ["glucose-syrup-de40", "invert-syrup", "butter-82", "couverture-dark-64", "rum-40", "sucrose"] {
        assert_eq!(is_liquid(&built_in(id)), Some(false), "{id}");
    }
}

/// Unknown is not zero: whether a line is liquid decides how much evaporates.
#[test]
fn what_cannot_be_estimated_is_not_known() {
    let water = own_with("juice", &[(Component::Sucrose, 30.0)], &[Component::Water], 0.0);
    let ethanol = own_with("must", &[(Component::Water, 80.0)], &[Component::Ethanol], 0.0);
    let paste = own_with("paste", &[(Component::OtherFat, 60.0)], &[Component::Water], 0.0);
    assert_eq!([&water, &ethanol, &paste].map(|ingredient| is_liquid(ingredient)), [None, None, Some(false)]);
    for (ingredient, is_known) in [(water, false), (ethanol, false), (paste, true)] {
        let mass = recipe_of(&[(built_in("cream-35"), 200.0), (ingredient, 50.0)]);
        let mass = with(mass, Evaporation::Estimated(Heating::Boiled));
        let analysis = analysis_of(&mass);
        assert_eq!(codes(&analysis).contains(&"evaporation_not_known"), !is_known);
        assert_eq!(batch(&mass)["evaporated_g"].as_f64(), is_known.then_some(4.0));
        assert!(analysis.make_up.bowl.share(Component::Water).is_none());
    }
}

/// The same of a cook: with a sugar that is not known the water is not known, and a problem says so.
#[test]
fn a_cook_with_a_missing_figure_is_not_known() {
    let open = own_with("open", &[(Component::Water, 50.0), (Component::Sucrose, 20.0)], &[Component::Glucose], 0.0);
    let mass = cooked(recipe_of(&[(open, 300.0), (built_in("sucrose"), 200.0)]), 115.0);
    let analysis = analysis_of(&mass);
    assert_eq!(cooking(&mass).outcome, Err(NotCooked::Unknown));
    assert_eq!(finding(&analysis, "cooking.impossible").level, Level::Problem);
    assert_eq!(analysis.make_up.bowl.share(Component::Water), None);
    assert!(analysis.water.activity().is_none());
    assert_eq!(batch(&mass)["evaporated_g"], Value::Null);
    assert_eq!(batch(&mass)["water_left_g"], Value::Null);
}

/// What cannot be cooked keeps its water, and says why and what is possible.
#[test]
fn what_cannot_be_cooked_says_why_and_what_is_possible() {
    let syrup = || recipe(&[("sucrose", 200.0), ("water", 50.0)]);
    let fat = || recipe(&[("water", 100.0), ("cocoa-butter", 100.0)]);
    // Sucrose 80 % boils at 110.6 °C; water at 100 °C at the sea, at 83.4 °C at 5000 m (IAPWS, standard atmosphere).
    for (mass, expected, possible) in [
        (cooked(syrup(), 95.0), "even water boils only at 100.0 °C", "Possible for this mass there: 110.6 to 150.0 °C"),
        (
            cooked(syrup(), 105.0),
            "as weighed it boils only at 110.6 °C",
            "Possible for this mass there: 110.6 to 150.0 °C",
        ),
        (cooked(syrup(), 151.0), "it ends at 150.0 °C", "Possible for this mass there: 110.6 to 150.0 °C"),
        (cooked_at(syrup(), 149.0, 4000.0), "it ends at 134.4 °C", "to 134.4 °C"),
        (cooked_at(syrup(), 80.0, 5000.0), "even water boils only at 83.", "Possible for this mass there"),
        (cooked(fat(), 110.0), "nothing is dissolved in its water", "no temperature is possible"),
        (
            cooked(recipe(&[("sucrose", 200.0)]), 110.0),
            "as weighed it is too dry to boil there",
            "no temperature is possible",
        ),
    ] {
        let analysis = analysis_of(&mass);
        assert_eq!(analysis.make_up.evaporated, Grams::ZERO);
        let problem = finding(&analysis, "cooking.impossible");
        assert_eq!((problem.level, analysis.findings.first()), (Level::Problem, Some(problem)));
        let words = said(&mass, "cooking.impossible");
        assert!(words.contains(expected) && words.contains(possible), "{words}");
        assert!(!codes(&analysis).contains(&"cooking"));
        // The results are not those of the mass that is wanted, so no change of it is offered.
        assert_eq!(check_remedies(&mass), 0);
        assert_eq!(batch(&mass)["evaporated_g"], 0.0);
    }
    let dry = cooked(syrup(), 105.0);
    let Err(NotCooked::AlreadyDrier { missing, .. }) = cooking(&dry).outcome else { panic!("{:?}", cooking(&dry)) };
    let mut moist = dry.clone();
    moist.push(built_in("water"), grams(missing.0 + 1.0));
    assert_abs_diff_eq!(analysis_of(&moist).make_up.evaporated.0, 1.0, epsilon = 1e-4);
}

/// Nothing weighed, nothing said but that.
#[test]
fn an_empty_recipe_is_not_cooked() {
    for evaporation in [cooked(Recipe::default(), 118.0).losses.evaporation, Evaporation::Estimated(Heating::Boiled)] {
        assert_eq!(codes(&analysis_of(&with(Recipe::default(), evaporation))), ["empty_recipe"]);
    }
}

/// Distillation without reflux (Rayleigh), K = 9: of 1000 g that boil down to 960 g 0.6925 of the ethanol stays, of 500 g at
/// 470 g 0.573; worked by hand, within the last digit.
#[test]
fn ethanol_stays_as_the_formula_of_rayleigh_says() {
    for (before, after, left, tolerance) in [(1000.0, 960.0, 0.6925, 1e-4), (500.0, 470.0, 0.5730, 1e-4)] {
        let [likely, ..] = ethanol_lost(nibwright::units::MassFraction(1.0 - after / before));
        assert!((1.0 - likely.0 - left).abs() < tolerance, "{likely:?}");
    }
}

/// Losing 4 % of the liquid takes 1 − 0.96⁹ = 31 % of the alcohol (distillation without reflux, vapour nine times richer).
#[test]
fn alcohol_leaves_first() {
    let mass = || recipe(&[("rum-40", 40.0), ("milk-skim", 300.0), ("sucrose", 160.0)]);
    let boiled = analysis_of(&evaporating(mass(), 20.0));
    let caution = finding(&boiled, "alcohol_boils_off");
    assert_eq!(caution.level, Level::Caution);
    assert_abs_diff_eq!(caution.value.expect("a figure"), 30.75, epsilon = 0.05);
    let words = said(&evaporating(mass(), 20.0), "alcohol_boils_off");
    assert!(
        words.contains("about 31 %") && words.contains("Between 25 and 41 %") && words.contains("40 °C"),
        "{words}"
    );
    // The make-up counts all of it; ethanol does not delay a cook.
    let ethanol = |recipe: &Recipe| analysis_of(recipe).make_up.bowl.grams(Component::Ethanol);
    assert_eq!(ethanol(&evaporating(mass(), 20.0)), ethanol(&mass()));
    let sober = recipe(&[("milk-skim", 300.0), ("sucrose", 160.0)]);
    assert_abs_diff_eq!(
        outcome(&cooked(mass(), 112.0)).water_left.0,
        outcome(&cooked(sober, 112.0)).water_left.0,
        epsilon = 1e-6
    );
    assert!(codes(&analysis_of(&cooked(mass(), 112.0))).contains(&"alcohol_boils_off"));
    for calm in [mass(), evaporating(recipe(&[("cream-35", 300.0), ("sucrose", 160.0)]), 20.0)] {
        assert!(!codes(&analysis_of(&calm)).contains(&"alcohol_boils_off"));
    }
    // Fat does not boil: 20 g of 500 g less 105 g of fat, 1 − (375/395)⁹ = 37.4 %.
    let creamy = recipe(&[("rum-40", 40.0), ("cream-35", 300.0), ("sucrose", 160.0)]);
    let creamy = analysis_of(&evaporating(creamy, 20.0));
    assert_abs_diff_eq!(finding(&creamy, "alcohol_boils_off").value.expect("a figure"), 37.35, epsilon = 0.1);
    // Of an estimate the liquid is known: 2 % of 200 g of cream, boiled with 20 g of rum, 1 − (216/220)⁹ = 15.2 %.
    let ganache = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("rum-40", 20.0)]);
    let ganache = analysis_of(&with(ganache, Evaporation::Estimated(Heating::Boiled)));
    assert_abs_diff_eq!(finding(&ganache, "alcohol_boils_off").value.expect("a figure"), 15.2, epsilon = 0.1);
    let [likely, least, most] = ethanol_lost(nibwright::units::MassFraction(1.0)).map(|share| share.0);
    assert_eq!([likely, least, most], [1.0; 3]);
}

/// The band of the water activity has the error of the cook in it: squares added, by hand.
#[test]
fn the_water_of_a_cook_widens_the_band() {
    let lines = [("cream-35", 300.0), ("sucrose", 300.0), ("glucose-syrup-de40", 150.0)];
    let caramel = cooked(recipe(&lines), 118.0);
    let analysis = analysis_of(&caramel);
    let water = analysis.water.water().expect("it is wet");
    assert!(water.doubts.contains(&Doubt::CookedWater));
    let bowl = &analysis.make_up.bowl;
    let activity = |sign: f64| {
        let contents = Contents::of(bowl).expect("known");
        let water = contents.water + bowl.total() * WATER_UNCERTAINTY * sign;
        Contents { water, ..contents }.equilibrium(Conditions::usual(ROOM)).expect("water").activity.0
    };
    let half = (activity(1.0) - activity(-1.0)) / 2.0;
    assert!(half > 0.005);
    // The other doubts decide what it is widened from.
    let others = water.doubts.len() > 1;
    let base = if others { WIDE_BAND } else { 0.03 };
    assert_abs_diff_eq!(water.band, (base * base + half * half).sqrt(), epsilon = 1e-12);
    let weighed = analysis_of(&evaporating(recipe(&lines), analysis.make_up.evaporated.0));
    let of_weighed = weighed.water.water().expect("it is wet");
    assert!(!of_weighed.doubts.contains(&Doubt::CookedWater) && of_weighed.band < water.band);
    assert_abs_diff_eq!(of_weighed.rest.activity.0, water.rest.activity.0, epsilon = 1e-9);
    let estimated = with(recipe(&lines), Evaporation::Estimated(Heating::Boiled));
    assert!(!analysis_of(&estimated).water.water().expect("it is wet").doubts.contains(&Doubt::CookedWater));
}

/// Scaling multiplies what was weighed; what is estimated or cooked follows the mass by itself.
#[test]
fn scaling_keeps_the_way() {
    for evaporation in [
        Evaporation::Weighed(grams(20.0)),
        Evaporation::Estimated(Heating::Warmed),
        cooked(Recipe::default(), 118.0).losses.evaporation,
    ] {
        let lines = [("cream-35", 300.0), ("sucrose", 300.0)];
        let mut document = Document { recipe: with(recipe(&lines), evaporation) };
        let before = analysis_of(&document.recipe).make_up;
        Edit::ScaleTo { weighed: grams(1200.0) }.apply(&mut document).expect("it can be scaled");
        let after = analysis_of(&document.recipe).make_up;
        assert_abs_diff_eq!(after.evaporated.0, 2.0 * before.evaporated.0, epsilon = 1e-6);
        assert!(before.evaporated.0 > 0.0);
        match document.recipe.losses.evaporation {
            Evaporation::Weighed(amount) => assert_eq!(amount, grams(40.0)),
            same => assert_eq!(same, evaporation),
        }
    }
}

/// The sample is a caramel as published ones are: 6 to 18 % water, water activity 0.45 to 0.65 while it is clear (review of
/// caramels, 2010, table 1: 0.45 to 0.60).
#[test]
fn the_sample_is_a_caramel() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-recipes/caramel-with-salted-butter.ron");
    let library = nibwright::ingredient::Library::built_in();
    let sample = nibwright::store::load_recipe(&path, library).expect("a sample");
    let analysis = analysis_of(&sample);
    let water = percent(&analysis, Component::Water);
    assert!((6.0..=18.0).contains(&water), "{water} %");
    // The note says it.
    assert_abs_diff_eq!(water, 9.5, epsilon = 0.05);
    assert!(sample.note.contains("9.5 % water"));
    let clear = analysis.water.water().expect("it is wet").clear.expect("it holds more sugar than it dissolves").0;
    assert!((0.45..=0.65).contains(&clear), "{clear}");
    assert_eq!(outcome(&sample).stage.map(|stage| stage.name), Some("firm ball"));
}
