//! Water activity of recipes made of table ingredients, against sums of their own and what must be true of them.

use std::sync::Arc;

use approx::assert_abs_diff_eq;
use nibwright::analysis::finding::{Level, Subject};
use nibwright::analysis::water::activity::Equation;
use nibwright::analysis::water::keeping::GROWTH_LIMITS;
use nibwright::analysis::water::state::WaterState;
use nibwright::analysis::water::state::judged;
use nibwright::analysis::{Analysis, ROOM, analyse};
use nibwright::ingredient::{Component, MaltoseKind};
use nibwright::number::DecimalSign;
use nibwright::recipe::{CookTemperature, Evaporation, Height, Kind, Ph, Recipe, Use};
use nibwright::report::{json, words};
use nibwright::units::{Celsius, WaterActivity};
use serde_json::Value;

use crate::support::{analysis_of, codes, evaporating, finding, grams, made_for, own, recipe, recipe_of};

fn water_of(recipe: &Recipe) -> Value {
    let report = json::report(recipe, &analysis_of(recipe)).expect("it can be written");
    serde_json::from_str::<Value>(&report).expect("it is JSON")["water"].clone()
}

fn activity(analysis: &Analysis) -> f64 {
    analysis.water.activity().expect("it has a water activity").0
}

/// Sucrose 60, water 40: Norrish by hand, Xw = 2.2204/(2.2204 + 0.17529) = 0.92683, a = 0.92683·exp(−6.47·0.07317²).
#[test]
fn a_syrup_of_table_ingredients_is_that_of_the_hand() {
    let syrup = recipe(&[("sucrose", 60.0), ("water", 40.0)]);
    let water = water_of(&syrup);
    let sucrose = 60.0 * 0.9997 / 342.30;
    let moles = (40.0 + 60.0 * 0.0003) / 18.015;
    let (all, share) = (moles + sucrose, sucrose / (moles + sucrose));
    let by_hand = moles / all * f64::exp(-6.47 * share * share);
    assert_abs_diff_eq!(water["water_activity"].as_f64().expect("known"), by_hand, epsilon = 5e-4);
    assert_abs_diff_eq!(water["low"].as_f64().expect("known"), by_hand - 0.03, epsilon = 5e-4);
    assert_abs_diff_eq!(water["high"].as_f64().expect("known"), by_hand + 0.03, epsilon = 5e-4);
    assert_eq!(water["undissolved_sucrose"], 0.0);
    assert_eq!(water["clear_water_activity"], Value::Null);
}

/// Trehalose and isomaltulose bind water as sucrose does, not as maltose (K 6.5 and 4.54, the first assumed): by hand, of
/// 66 g of trehalose dihydrate (90.4 % sugar, 9.5 % water) and 34 g of water,
/// X = 0.17430/(0.17430 + 2.23536) = 0.07233, a = 0.92767·exp(−6.5·0.07233²) = 0.8966; as maltose it would be 0.9059.
#[test]
fn trehalose_counts_as_sucrose_does() {
    let of = |id: &str| activity(&analysis_of(&recipe(&[(id, 66.0), ("water", 34.0)])));
    assert_abs_diff_eq!(of("trehalose-dihydrate"), 0.8966, epsilon = 5e-4);
    let sugar = |kind: MaltoseKind| {
        let mut sugar = own("sugar", &[(Component::Maltose, 100.0)]);
        Arc::make_mut(&mut sugar).properties.maltose_kind = kind;
        let water = own("water", &[(Component::Water, 100.0)]);
        activity(&analysis_of(&recipe_of(&[(sugar, 60.0), (water, 40.0)])))
    };
    let [maltose, trehalose, isomaltulose] = MaltoseKind::ALL.map(sugar);
    assert_eq!(trehalose, isomaltulose);
    let share = (60.0 / 342.30) / (60.0 / 342.30 + 40.0 / 18.015);
    for (found, norrish) in [(maltose, 4.54), (trehalose, 6.5)] {
        assert_abs_diff_eq!(found, (1.0 - share) * f64::exp(-norrish * share * share), epsilon = 1e-9);
    }
}

/// Water activity is said for 20 °C, whatever temperature is asked for; the phase bar follows the temperature.
#[test]
fn the_thermometer_does_not_move_it() {
    let mass = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 120.0), ("sucrose", 120.0)]);
    let (cool, hot) = (analyse(&mass, Celsius(20.0)), analyse(&mass, Celsius(60.0)));
    assert_eq!(activity(&cool), activity(&hot));
    let undissolved = |analysis: &Analysis| analysis.phase_bar.expect("known").undissolved_sugar.0;
    assert!(undissolved(&cool) > undissolved(&hot) + 0.01);
}

/// In fat-continuous masses isotherms are not trusted: only that it lies below 0.5 is said.
#[test]
fn of_a_chocolate_only_the_upper_edge_is_said() {
    for id in ["couverture-dark-64", "couverture-milk-40", "couverture-white-33", "hazelnut-paste"] {
        let mass = recipe(&[(id, 100.0)]);
        let water = water_of(&mass);
        assert_eq!((&water["water_activity"], &water["low"]), (&Value::Null, &Value::Null), "{id}");
        assert_eq!(water["high"], 0.5, "{id}");
        assert!(codes(&analysis_of(&mass)).contains(&"water.dry"));
    }
}

/// Sugar and fat with a little water hold it in a saturated syrup: nothing there makes it dry.
#[test]
fn wet_sugar_in_fat_is_not_said_to_be_dry() {
    let mass = recipe_of(&[
        (own("fat", &[(Component::OtherFat, 100.0)]), 38.2),
        (own("sugar", &[(Component::Sucrose, 100.0)]), 60.0),
        (own("water", &[(Component::Water, 100.0)]), 1.8),
    ]);
    assert_eq!(water_of(&mass)["high"], Value::Null);
}

#[test]
fn what_is_not_known_is_not_said() {
    let open = recipe_of(&[
        (own("syrup", &[(Component::Water, 30.0), (Component::Sucrose, 70.0)]), 100.0),
        (crate::support::own_with("powder", &[(Component::Sucrose, 50.0)], &[Component::Starch], 0.0), 10.0),
    ]);
    assert_eq!(analysis_of(&open).water, WaterState::Unknown);
    let is_silent = |recipe: &Recipe| {
        let water = water_of(recipe);
        water.as_object().expect("a map").iter().all(|(key, value)| value.is_null() || key == "held")
    };
    assert!(is_silent(&open));
    assert!(is_silent(&Recipe::default()));
    assert!(is_silent(&recipe(&[("sucrose", 0.0)])));
    // Fat without water is fat-continuous like every mass of fat.
    let fat = water_of(&recipe_of(&[(own("fat", &[(Component::CocoaButter, 100.0)]), 50.0)]));
    assert_eq!((&fat["water_activity"], fat["high"].as_f64()), (&Value::Null, Some(0.5)));
}

/// All water, and nothing but alcohol.
#[test]
fn the_ends() {
    assert_eq!(water_of(&recipe(&[("water", 100.0)]))["water_activity"], 1.0);
    let alcohol = recipe_of(&[(own("alcohol", &[(Component::Ethanol, 100.0)]), 100.0)]);
    assert_eq!((&water_of(&alcohol)["water_activity"], &water_of(&alcohol)["high"]), (&Value::Null, &Value::Null));
    // Starch with more water than its isotherm knows: 0.95 or more.
    let dough = recipe_of(&[
        (own("starch", &[(Component::Starch, 100.0)]), 50.0),
        (own("water", &[(Component::Water, 100.0)]), 50.0),
    ]);
    let water = water_of(&dough);
    assert!(water["water_activity"].as_f64().expect("known") >= 0.95);
    assert_eq!((water["low"].as_f64(), water["high"].as_f64()), (Some(0.95), Some(1.0)));
}

/// Solids are summed by the isotherm that their line calls for.
#[test]
fn nuts_egg_and_gelatine_hold_water_by_their_own_isotherm() {
    let held = |id: &str| {
        let water = water_of(&recipe(&[(id, 100.0), ("water", 100.0), ("sucrose", 100.0)]));
        water["held"].as_object().expect("a map").clone()
    };
    let nuts = held("hazelnut-paste");
    assert!(nuts["nut_solids"].as_f64() > Some(1.0) && nuts["protein"] == 0.0 && nuts["fibre"] == 0.0, "{nuts:?}");
    let gelatine = held("gelatine");
    assert!(gelatine["protein"].as_f64() > Some(1.0) && gelatine["nut_solids"] == 0.0, "{gelatine:?}");
    let starch = held("corn-starch");
    assert!(starch["starch"].as_f64() > Some(1.0), "{starch:?}");
    assert!(held("pectin-pure")["thickener"].as_f64() > Some(1.0));
}

/// A starch syrup of a user's own with its dextrose equivalent binds as the table's of the same sugars does.
#[test]
fn the_dextrose_equivalent_tells_the_molar_mass() {
    let table = crate::support::built_in("glucose-syrup-de40");
    let mut of_user = (*table).clone();
    of_user.id = "syrup".to_owned();
    of_user.properties.higher_saccharides_molar_mass = None;
    let with = |ingredient| recipe_of(&[(ingredient, 100.0), (crate::support::built_in("water"), 10.0)]);
    let by_equivalent = analysis_of(&with(std::sync::Arc::new(of_user.clone())));
    assert_abs_diff_eq!(activity(&by_equivalent), activity(&analysis_of(&with(table))), epsilon = 1e-3);
    of_user.properties.dextrose_equivalent = None;
    let assumed = analysis_of(&with(std::sync::Arc::new(of_user)));
    assert!(codes(&assumed).contains(&"water.assumed_input"));
}

/// Alcohol widens the band to ±0.05 from more than 1 % on.
#[test]
fn alcohol_widens_the_band() {
    let band = |rum: f64| {
        let water = water_of(&recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("rum-40", rum)]));
        water["high"].as_f64().expect("known") - water["low"].as_f64().expect("known")
    };
    assert_abs_diff_eq!(band(10.0), 0.06, epsilon = 1e-9);
    assert_abs_diff_eq!(band(40.0), 0.10, epsilon = 1e-9);
}

/// Beside undissolved sucrose more of it changes nothing, and the finding says what would.
#[test]
fn more_sucrose_does_nothing_beside_crystals() {
    let mass = |sugar: f64| recipe(&[("couverture-dark-64", 400.0), ("cream-35", 120.0), ("sucrose", sugar)]);
    let (some, more) = (analysis_of(&mass(120.0)), analysis_of(&mass(150.0)));
    // The sugar of the table has a trace of water.
    assert_abs_diff_eq!(activity(&some), activity(&more), epsilon = 2e-4);
    let said = words::finding(finding(&some, "water.undissolved_sucrose"), nibwright::number::DecimalSign::Point);
    assert!(said.detail.contains("will not lower") && said.detail.contains("dextrose"), "{said:?}");
}

/// A caramel is cooked clear: it says what it is before it grains and after.
#[test]
fn a_caramel_tells_clear_from_grained() {
    let caramel = evaporating(
        recipe(&[("cream-35", 300.0), ("sucrose", 300.0), ("glucose-syrup-de40", 150.0), ("butter-salted", 60.0)]),
        110.0,
    );
    let caramel = made_for(caramel, Kind::Caramel, Use::Cut);
    let analysis = analysis_of(&caramel);
    assert_eq!(finding(&analysis, "water.sucrose_supersaturation.high").level, Level::Caution);
    let water = water_of(&caramel);
    assert!(water["clear_water_activity"].as_f64() < water["water_activity"].as_f64());
}

/// The limit of the US rules is compared with the upper edge of the band, not with the figure itself.
#[test]
fn near_a_limit_the_upper_edge_counts() {
    let mass = |water: f64| recipe(&[("sucrose", 100.0), ("glucose-syrup-de40", 40.0), ("water", water)]);
    for (water, code) in [(60.0, "water.water_activity.high"), (24.0, "water.water_activity")] {
        let analysis = analysis_of(&mass(water));
        assert!(codes(&analysis).contains(&code), "{water}: {}", activity(&analysis));
    }
    let between = analysis_of(&mass(47.0));
    assert!(activity(&between) < 0.85 && activity(&between) > 0.82, "{}", activity(&between));
    assert_eq!(finding(&between, "water.water_activity.high").level, Level::Caution);
}

/// The exchange that is offered where no single line does it: made, the upper edge lies on the limit, the batch is as
/// heavy as before, and no other figure has left what is usual.
#[test]
fn an_exchange_of_two_lines_does_what_it_says() {
    let lines = [
        ("couverture-dark-64", 400.0),
        ("cream-35", 200.0),
        ("butter-82", 40.0),
        ("invert-syrup", 25.0),
        ("glucose-syrup-de40", 20.0),
    ];
    let mass = made_for(recipe(&lines), Kind::Ganache, Use::Cut);
    let exchange_of = |mass: &Recipe| match &finding(&analysis_of(mass), "water.water_activity.high").subject {
        Subject::Keeping(keeping) => (keeping.remedies.offered.clone(), keeping.exchange.clone()),
        other => panic!("{other:?}"),
    };
    let (single, exchange) = exchange_of(&mass);
    assert_eq!(single, []);
    let exchange = exchange.expect("an exchange");
    assert_eq!((exchange.from_name.as_str(), exchange.to_name.as_str()), ("cream", "invert sugar syrup"));
    let mut changed = mass.clone();
    for line in &mut changed.lines {
        let more = match line.id {
            id if id == exchange.from => -exchange.grams.0,
            id if id == exchange.to => exchange.grams.0,
            _ => 0.0,
        };
        line.amount = grams(line.amount.grams().0 + more);
    }
    let after = analysis_of(&changed);
    // A thousandth below the limit, so that it holds with rounded grams.
    assert_abs_diff_eq!(after.water.high().expect("known").0, 0.849, epsilon = 1e-5);
    assert_abs_diff_eq!(changed.weighed().0, mass.weighed().0, epsilon = 1e-9);
    let unusual = |analysis: &Analysis| codes(analysis).iter().filter(|code| code.starts_with("groups.")).count();
    assert!(unusual(&after) <= unusual(&analysis_of(&mass)), "{:?}", codes(&after));

    let mut locked = mass;
    locked.lines[3].is_locked = true;
    let other = exchange_of(&locked).1.expect("another exchange");
    assert!(other.to != locked.lines[3].id && other.from != locked.lines[3].id, "what is locked stays: {other:?}");
    assert!(!other.worse.is_empty(), "and it has a price: {other:?}");
}

/// A pH of the recipe decides the tables: US FDA Food Code 1-201.10(B), table B, and Regulation (EC) No 2073/2005.
#[test]
fn the_words_on_keeping_follow_a_measured_ph() {
    let mut mass = made_for(recipe(&[("couverture-dark-64", 200.0), ("cream-35", 400.0)]), Kind::Ganache, Use::Whipped);
    let words = |mass: &Recipe| {
        let analysis = analysis_of(mass);
        words::finding(finding(&analysis, "water.water_activity.high"), DecimalSign::Point).detail
    };
    let unknown = words(&mass);
    assert!(unknown.contains("US Food Code, pH not known: to be assessed"), "{unknown}");
    assert!(unknown.contains("Listeria can grow in it, unless it is acid enough"), "{unknown}");
    mass.ph = Some(Ph::new(6.1).expect("a pH"));
    let mild = words(&mass);
    assert!(mild.contains("US Food Code, pH 6.1: to be assessed"), "{mild}");
    assert!(mild.contains("pH 6.1: Listeria can grow in it."), "{mild}");
    mass.ph = Some(Ph::new(4.1).expect("a pH"));
    let sour = words(&mass);
    assert!(sour.contains("US Food Code, pH 4.1: no assessment asked; moulds"), "{sour}");
    assert!(!sour.contains("Listeria can"), "{sour}");
}

/// Between 0.60 and 0.65 yeasts of honey grow (Beuchat 1981: Zygosaccharomyces rouxii to 0.62), and the words say so.
#[test]
fn growth_ends_at_the_last_limit_and_not_where_the_model_ends() {
    let words = |lines: &[(&str, f64)]| {
        let analysis = analysis_of(&recipe(lines));
        let high = analysis.water.high().expect("known").0;
        let note = finding(&analysis, "water.water_activity");
        (high, words::finding(note, DecimalSign::Point).detail)
    };
    let (high, honey) = words(&[("honey", 100.0)]);
    assert!((0.60..0.65).contains(&(high - 1e-9)), "{high}");
    assert!(honey.contains("honey and dried fruit"), "{honey}");
    let (high, drier) = words(&[("honey", 100.0), ("milk-powder-skim", 5.0)]);
    assert!(high < 0.60, "{high}");
    assert!(drier.contains("No growth is known so low"), "{drier}");
}

/// A mass of another kind that is cooked to a temperature is clear as well, and its words do not speak of chocolate.
#[test]
fn what_is_cooked_is_cooked_clear_whatever_its_kind() {
    let mut fudge = recipe(&[("sucrose", 400.0), ("cream-35", 200.0), ("glucose-syrup-de40", 50.0)]);
    fudge.losses.evaporation = Evaporation::CookedTo {
        temperature: CookTemperature::new(Celsius(116.0)).expect("a temperature"),
        height: Height::SEA_LEVEL,
    };
    assert_eq!(fudge.kind, Kind::Other);
    let analysis = analysis_of(&fudge);
    assert!(codes(&analysis).contains(&"water.sucrose_supersaturation.high"), "{:?}", codes(&analysis));
    assert!(!codes(&analysis).contains(&"water.undissolved_sucrose"));
}

/// A meal of cocoa with a little sugar and water has no syrup: equations for syrups have nothing to say of it.
#[test]
fn without_syrup_no_equation_has_a_figure() {
    let meal = recipe(&[("cocoa-powder-10-12", 100.0), ("sucrose", 20.0), ("water", 8.0)]);
    let analysis = analysis_of(&meal);
    let water = analysis.water.water().expect("it is moist");
    assert_eq!(water.rest.syrup_water.0, 0.0);
    assert_eq!(Equation::ALL.map(|equation| water.contents.activity_by(equation, ROOM)), [None; 5]);
    let ganache = analysis_of(&recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]));
    let water = ganache.water.water().expect("it is wet");
    let found = Equation::ALL.map(|equation| water.contents.activity_by(equation, ROOM).map(|activity| activity.0));
    assert_abs_diff_eq!(found[0].expect("Norrish"), water.rest.activity.0, epsilon = 1e-6);
    assert!(found[1].expect("Raoult") > found[0].expect("Norrish"));
}

/// Growth of S. aureus was reported down to 0.83 (Banwart 1989): between that and 0.86 it is not said to be too dry for it.
#[test]
fn reported_growth_is_not_passed_over() {
    let aureus = GROWTH_LIMITS.iter().find(|limit| limit.name == "S. aureus").expect("it is there");
    let verdict = |high| words::growth_verdict(WaterActivity(high), aureus);
    assert_eq!(
        [0.82, 0.83, 0.85, 0.86, 0.90].map(verdict),
        ["too dry for it", "growth was reported", "growth was reported", "can grow", "can grow"]
    );
    let mass = recipe(&[("cream-35", 100.0), ("couverture-dark-64", 200.0), ("invert-syrup", 80.0)]);
    let analysis = analysis_of(&mass);
    let judged = analysis.water.water().expect("it is wet").judged().0;
    assert!((0.83..0.86).contains(&judged), "{judged}");
    let detail = words::finding(finding(&analysis, "water.water_activity"), DecimalSign::Point).detail;
    assert!(detail.contains("S. aureus (reported from 0.83)"), "{detail}");
}

/// An upper edge is judged as it is shown, and shown rounded up: nothing lies above a limit that looks below it.
#[test]
fn the_upper_edge_is_rounded_up() {
    for (high, shown) in [(0.8501, 0.86), (0.85, 0.85), (0.849_999_9, 0.85), (0.797, 0.80), (1.0, 1.0), (0.999, 1.0)] {
        assert_abs_diff_eq!(judged(WaterActivity(high)).0, shown, epsilon = 1e-12);
    }
}

/// Dry sugar and powders have no syrup, and no water activity: a film on crystals is none.
#[test]
fn what_is_dry_has_no_figure() {
    for lines in [&[("sucrose", 100.0)][..], &[("dextrose-anhydrous", 100.0)], &[("milk-powder-skim", 100.0)]] {
        let mass = recipe(lines);
        let water = water_of(&mass);
        assert_eq!(water["water_activity"], Value::Null, "{lines:?}");
        assert!(!codes(&analysis_of(&mass)).contains(&"water.water_activity.high"), "{lines:?}");
        assert!(codes(&analysis_of(&mass)).contains(&"water.dry"), "{lines:?}");
    }
}

/// Of a spirit water activity says nothing about growth, and the words do not pretend so.
#[test]
fn of_spirits_no_growth_is_told() {
    for id in ["alcohol-96", "rum-40"] {
        let analysis = analysis_of(&recipe(&[(id, 100.0)]));
        let note = finding(&analysis, "water.water_activity");
        assert_eq!(note.level, Level::Note, "{id}");
        let detail = words::finding(note, DecimalSign::Point).detail;
        assert!(detail.contains("hinders growth by itself") && !detail.contains("can grow"), "{detail}");
    }
}

/// Sweetened condensed milk: its lactose crystallises by itself, and the upper edge is that after it has.
#[test]
fn the_upper_edge_counts_with_lactose_that_crystallises() {
    let analysis = analysis_of(&recipe(&[("condensed-milk-sweetened", 100.0)]));
    let water = analysis.water.water().expect("it is wet");
    let sandy = water.sandy.expect("it crystallises");
    assert!(sandy > water.rest.activity);
    assert_abs_diff_eq!(water.high().0, sandy.0 + water.band, epsilon = 1e-12);
    assert!(codes(&analysis).contains(&"water.water_activity.high"));
}

/// The amount that the finding on graining names makes sucrose half of the sweeteners, and then it is no caution any more.
#[test]
fn the_advice_against_graining_can_be_followed() {
    let mut caramel = made_for(
        recipe(&[("sucrose", 300.0), ("glucose-syrup-dried-de36", 80.0), ("cream-35", 300.0), ("butter-82", 80.0)]),
        Kind::Caramel,
        Use::Cut,
    );
    caramel.losses.evaporation = Evaporation::CookedTo {
        temperature: CookTemperature::new(Celsius(118.0)).expect("a temperature"),
        height: Height::SEA_LEVEL,
    };
    let grains = |caramel: &Recipe| {
        let analysis = analysis_of(caramel);
        let found = finding(&analysis, "water.sucrose_supersaturation.high");
        match found.subject {
            Subject::MayGrain { to_half, .. } => (found.level, to_half.0),
            ref other => panic!("{other:?}"),
        }
    };
    let (level, to_half) = grains(&caramel);
    assert_eq!(level, Level::Caution);
    caramel.lines[0].amount = grams(300.0 - 1.05 * to_half);
    caramel.lines[1].amount = grams(80.0 + 1.05 * to_half);
    assert_eq!(grains(&caramel).0, Level::Note);
}

/// A mass that can only be mended at a price says which one.
#[test]
fn an_exchange_with_a_price_names_it() {
    let lines =
        [("passion-fruit-puree", 120.0), ("couverture-milk-40", 350.0), ("butter-82", 40.0), ("invert-syrup", 40.0)];
    let mass = made_for(recipe(&lines), Kind::Ganache, Use::Moulded);
    let analysis = analysis_of(&mass);
    let found = finding(&analysis, "water.water_activity.high");
    let Subject::Keeping(keeping) = &found.subject else { panic!("{found:?}") };
    let words = words::finding(found, DecimalSign::Point).detail;
    match &keeping.exchange {
        Some(exchange) if !exchange.worse.is_empty() => assert!(words.contains("; but then "), "{words}"),
        _ => assert!(words.contains("would bring it to"), "{words}"),
    }
}
