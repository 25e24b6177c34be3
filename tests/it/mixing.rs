//! The temperature of the mix, through recipes: worked balances, what is assumed, what it says and advises.

use std::sync::Arc;

use nibwright::analysis::heat::{Fat, HeatError};
use nibwright::analysis::mixing::{Changeable, MixingState, Needed, NoMixing, Way};
use nibwright::analysis::{ROOM, analyse};
use nibwright::ingredient::{Component, Ingredient};
use nibwright::number::DecimalSign;
use nibwright::recipe::{
    Bowl, BowlMaterial, CookTemperature, Evaporation, FatState, Heating, Height, Kind, MixTemperature, Recipe,
    StirringTime,
};
use nibwright::report::{json, text, words};
use nibwright::units::Celsius;
use serde_json::Value;

use crate::support::{analysis_of, built_in, codes, evaporating, finding, grams, made_for, own, recipe, recipe_of};

fn at(celsius: f64) -> MixTemperature {
    MixTemperature::new(Celsius(celsius)).expect("a temperature")
}

/// The recipe with the temperatures of its lines, in their order.
fn starting(mut recipe: Recipe, celsius: &[Option<f64>]) -> Recipe {
    assert_eq!(recipe.lines.len(), celsius.len());
    for (line, celsius) in recipe.lines.iter_mut().zip(celsius) {
        line.temperature = celsius.map(at);
    }
    recipe
}

fn wanting(mut recipe: Recipe, celsius: f64) -> Recipe {
    recipe.mixing.wanted = Some(at(celsius));
    recipe
}

#[track_caller]
fn mixed(recipe: &Recipe) -> MixingState {
    match analysis_of(recipe).mixing {
        Some(Ok(mixing)) => mixing,
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn check(what: &str, computed: f64, expected: f64, tolerance: f64) {
    assert!((computed - expected).abs() <= tolerance, "{what}: {computed} and not {expected} ± {tolerance}");
}

/// Water 59.5, milk fat 35, protein 2.1, lactose 2.9, ash 0.5: the cream of the worked balance.
fn cream() -> Arc<Ingredient> {
    own(
        "cream",
        &[
            (Component::Water, 59.5),
            (Component::MilkFat, 35.0),
            (Component::MilkProtein, 2.1),
            (Component::Lactose, 2.9),
            (Component::MilkMinerals, 0.5),
        ],
    )
}

/// Cocoa butter 37.5, sugar 35.5, dry cocoa 26, water 1: its dark chocolate.
fn dark() -> Arc<Ingredient> {
    own(
        "dark chocolate",
        &[
            (Component::CocoaButter, 37.5),
            (Component::Sucrose, 35.5),
            (Component::FatFreeCocoaSolids, 26.0),
            (Component::Water, 1.0),
        ],
    )
}

fn butter() -> Arc<Ingredient> {
    own(
        "butter",
        &[
            (Component::MilkFat, 82.0),
            (Component::Water, 16.0),
            (Component::MilkProtein, 0.7),
            (Component::Lactose, 0.8),
            (Component::MilkMinerals, 0.5),
        ],
    )
}

fn cream_and_dark(cream_at: f64, dark_at: f64) -> Recipe {
    starting(recipe_of(&[(cream(), 500.0), (dark(), 500.0)]), &[Some(cream_at), Some(dark_at)])
}

/// The worked balance of half cream and half dark chocolate (sums by an independent program, from memory of tables): with
/// the chocolate melted at 45 °C every figure is that of the balance, because no crystal takes part.
#[test]
fn melted_chocolate_ends_where_the_worked_balance_does() {
    for (cream_at, expected) in [(60.0, 52.4), (70.0, 58.6), (80.0, 64.9), (90.0, 71.1)] {
        check("end", mixed(&cream_and_dark(cream_at, 45.0)).end.0, expected, 0.05);
    }
}

/// The same with the chocolate solid at 20 °C. The balance counts 78 % of its fat as solid there (a table made for it), the
/// fat model a little less or more: that is worth 29.4375 kJ and 11.08 K for all of it.
#[test]
fn solid_chocolate_ends_where_the_worked_balance_does() {
    for (cream_at, full, undissolved, sensible) in
        [(60.0, 35.6, 37.2, 46.3), (70.0, 41.9, 43.8, 52.9), (80.0, 48.244, 50.427, 59.448), (90.0, 54.5, 57.0, 66.0)]
    {
        let mixing = mixed(&cream_and_dark(cream_at, 20.0));
        let solid = mixing.crystals_before[Fat::CocoaButter as usize].0 / 187.5;
        assert!((0.6..0.9).contains(&solid), "{solid}");
        // More crystals than the table has take more heat, in 2.66 kJ/K.
        let colder = 187.5 * 157.0 * (solid - 0.78) / 2657.5;
        check("sensible only", mixing.mixed.sensible_only.0, sensible, 0.06);
        check("at once", mixing.mixed.at_once.temperature.0, undissolved - colder, 0.06);
        check("after dissolving", mixing.end.0, full - colder, 0.06);
        check("left", mixing.crystals_left(Fat::CocoaButter).0, 0.0, 1e-9);
    }
}

/// Backward: 34 °C takes cream at 33.187 °C where the chocolate is melted at 40 °C, and at 56.345 °C where it is solid, 78 %
/// of its fat in crystals.
#[test]
fn the_start_for_a_wanted_end_is_that_of_the_worked_balance() {
    let liquid = |recipe: &Recipe| {
        let wanted = mixed(recipe).wanted.expect("one is wanted");
        let Some(Way { what: Changeable::Liquid, needed: Ok(Needed::Melted(at)), .. }) = wanted.ways.first() else {
            panic!("{wanted:?}")
        };
        at.0
    };
    check("melted", liquid(&wanting(cream_and_dark(80.0, 40.0), 34.0)), 33.187, 0.002);
    let solid = wanting(cream_and_dark(80.0, 20.0), 34.0);
    let mixing = mixed(&solid);
    let share = mixing.crystals_before[Fat::CocoaButter as usize].0 / 187.5;
    // Whether a crystal is left at 34 °C is for the fat model to say; the table of the balance leaves 12 % of the fat there.
    let start = liquid(&solid);
    let warmed = mixed(&starting(solid, &[Some(start), Some(20.0)]));
    let left = warmed.crystals_left(Fat::CocoaButter).0;
    let melts = 187.5 * share - left;
    let of_table = 187.5 * (0.78 - 0.06);
    // Half a kilogram of this cream holds 1.665 kJ/K near 57 °C.
    let expected = 56.345 + (melts - of_table) * 157.0 / 1665.0;
    check("solid", start, expected, 0.02);
    check("forward", warmed.end.0, 34.0, 1e-6);
}

/// With butter at 18 °C and cream at 60 °C the balance ends at 34.801 °C: by its tables of two fats, each for itself, 2.24 of
/// 146.25 g of cocoa butter crystals and 4.66 of 10.66 g of butter crystals are left. Here the fats are mixed, so that none
/// are; the rest is the same, in 2.79 kJ/K.
#[test]
fn butter_brings_its_crystals_and_they_melt_in_the_mixed_fats() {
    let three = recipe_of(&[(cream(), 500.0), (dark(), 500.0), (butter(), 50.0)]);
    let mixing = mixed(&starting(three, &[Some(60.0), Some(20.0), Some(18.0)]));
    let melted = |fat: Fat| mixing.crystals_before[fat as usize].0 - mixing.crystals_left(fat).0;
    let more = (melted(Fat::CocoaButter) - (146.25 - 2.24)) * 157.0 + (melted(Fat::MilkFat) - (10.66 - 4.66)) * 95.0;
    check("end", mixing.end.0, 34.801 - more / 2790.0, 0.01);
    assert!(mixing.crystals_before[Fat::MilkFat as usize].0 > 5.0, "{mixing:?}");
}

#[test]
fn without_a_temperature_there_is_no_result_and_no_finding() {
    let plain = recipe(&[("cream-35", 200.0), ("couverture-dark-64", 250.0)]);
    let analysis = analysis_of(&plain);
    assert_eq!(analysis.mixing, None);
    assert!(!codes(&analysis).iter().any(|code| code.starts_with("mixing")));
    assert!(!text::report(&plain, &analysis, DecimalSign::Point).contains("Mixing"));
    let written: Value = serde_json::from_str(&json::report(&plain, &analysis).expect("JSON")).expect("JSON");
    assert_eq!(written["mixing"], Value::Null);
    // A line that weighs nothing says nothing either.
    let empty = starting(recipe(&[("cream-35", 0.0), ("couverture-dark-64", 250.0)]), &[Some(85.0), None]);
    assert_eq!(analysis_of(&empty).mixing, None);
}

#[test]
fn lines_without_a_temperature_count_as_20_degrees_and_that_is_said() {
    let three = recipe(&[("cream-35", 200.0), ("couverture-dark-64", 250.0), ("butter-82", 30.0)]);
    let one = starting(three.clone(), &[Some(85.0), None, None]);
    let all = starting(three, &[Some(85.0), Some(20.0), Some(20.0)]);
    assert_eq!(mixed(&one).end, mixed(&all).end);
    assert_eq!((mixed(&one).unsaid, mixed(&one).lines, mixed(&all).unsaid), (2, 3, 0));
    let analysis = analysis_of(&one);
    let assumed = finding(&analysis, "mixing.assumed_temperature");
    assert_eq!(assumed.value, Some(2.0));
    let said = words::finding(assumed, DecimalSign::Point);
    assert_eq!(said.title, "2 of 3 lines have no temperature: they count as 20 °C");
    assert!(!codes(&analysis_of(&all)).contains(&"mixing.assumed_temperature"));
}

#[test]
fn where_no_sugar_dissolves_none_is_told() {
    let dry = starting(recipe_of(&[(dark(), 500.0), (dark(), 100.0)]), &[Some(45.0), Some(20.0)]);
    assert_eq!(mixed(&dry).mixed.after_dissolving.dissolved.0, 0.0);
    let is_told =
        |recipe: &Recipe| text::report(recipe, &analyse(recipe, ROOM), DecimalSign::Point).contains("dissolving sugar");
    assert!(!is_told(&dry) && is_told(&cream_and_dark(80.0, 20.0)));
}

#[test]
fn the_state_of_the_fat_counts() {
    let end = |celsius: f64, state: FatState| {
        let mut mass = cream_and_dark(60.0, celsius);
        mass.lines[1].fat_state = state;
        mixed(&mass).end.0
    };
    assert_eq!(end(20.0, FatState::ByTemperature), end(20.0, FatState::Solid));
    assert_eq!(end(30.0, FatState::ByTemperature), end(30.0, FatState::Melted));
    assert!(end(20.0, FatState::Melted) > end(20.0, FatState::Solid) + 8.0);
    assert!(end(30.0, FatState::Melted) > end(30.0, FatState::Solid) + 1.0);
    // 2 % of 187.5 g of cocoa butter melt: 589 J in 2.66 kJ/K.
    check("tempered", end(31.0, FatState::Melted) - end(31.0, FatState::Tempered), 0.22, 0.02);
}

/// What evaporates leaves the cream that is heated: the balance has the composition of the bowl.
#[test]
fn evaporated_water_leaves_the_heated_liquid() {
    let masses = [("cream-35", 200.0), ("passion-fruit-puree", 50.0), ("couverture-dark-64", 250.0)];
    let hot = starting(recipe(&masses), &[Some(85.0), Some(20.0), Some(20.0)]);
    let dried = evaporating(hot.clone(), 40.0);
    // By hand: the cream with 40 g of water less.
    let concentrated: Vec<(Component, f64)> = Component::ALL
        .into_iter()
        .map(|component| {
            let grams = 2.0 * 100.0 * built_in("cream-35").composition.share(component).expect("known").0;
            let left = if component == Component::Water { grams - 40.0 } else { grams };
            (component, left / 1.6)
        })
        .collect();
    let by_hand = recipe_of(&[
        (own("concentrated cream", &concentrated), 160.0),
        (built_in("passion-fruit-puree"), 50.0),
        (built_in("couverture-dark-64"), 250.0),
    ]);
    let by_hand = starting(by_hand, &[Some(85.0), Some(20.0), Some(20.0)]);
    check("end", mixed(&dried).end.0, mixed(&by_hand).end.0, 0.01);
    assert!(mixed(&dried).end < mixed(&hot).end, "less hot cream");
    // More than the cream has is taken off the others, and a mass without water is mixed too.
    let all = mixed(&evaporating(hot, 1000.0));
    assert!(all.end.0.is_finite() && all.mixed.after_dissolving.dissolved.0 == 0.0, "{all:?}");
}

/// By hand: 250 g of steel at 20 °C hold 125 J/K beside 2.66 kJ/K.
#[test]
fn a_cold_bowl_takes_heat() {
    let mut mass = cream_and_dark(80.0, 45.0);
    let before = mixed(&mass).end.0;
    mass.mixing.bowl = Some(Bowl { material: BowlMaterial::Steel, mass: grams(250.0), temperature: at(20.0) });
    let capacity = mixed(&cream_and_dark(80.0, 45.0)).mixed.after_dissolving.specific_heat.0 * 1000.0;
    check("bowl", mixed(&mass).end.0, before - (before - 20.0) * 125.0 / (capacity + 125.0), 0.1);
}

/// A kilogram at 45 °C loses 0.35 K a minute to the air and 0.4 to 0.9 K by what evaporates (from memory); a larger mass
/// loses less.
#[test]
fn stirring_in_the_open_cools() {
    let mut mass = cream_and_dark(45.0, 45.0);
    let start = mixed(&mass).end.0;
    mass.mixing.stirred = StirringTime::new(1.0).expect("a minute");
    let one = mixed(&mass);
    assert!((0.7..1.3).contains(&(start - one.end.0)), "{} K", start - one.end.0);
    check("by stirring", one.by_stirring.0, one.end.0 - start, 1e-9);
    mass.mixing.stirred = StirringTime::new(120.0).expect("two hours");
    assert!(mixed(&mass).end.0 > 20.0);
    for line in &mut mass.lines {
        line.amount = grams(line.amount.grams().0 * 20.0);
    }
    mass.mixing.stirred = StirringTime::new(1.0).expect("a minute");
    assert!(mixed(&mass).end > one.end);
}

#[test]
fn the_finding_says_where_it_ends_and_what_to_do() {
    let ganache = made_for(
        recipe(&[("cream-35", 250.0), ("glucose-syrup-de40", 20.0), ("couverture-dark-64", 250.0)]),
        Kind::Ganache,
        None,
    );
    let hot = wanting(starting(ganache, &[Some(85.0), Some(85.0), Some(20.0)]), 34.0);
    let analysis = analysis_of(&hot);
    let high = finding(&analysis, "mixing.celsius.high");
    let said = words::finding(high, DecimalSign::Point);
    assert!(said.title.contains("above the form V limit of"), "{said:?}");
    assert!(said.detail.contains("Let it cool to"), "{said:?}");
    let missed = finding(&analysis, "mixing.wanted_c");
    let said = words::finding(missed, DecimalSign::Comma);
    assert!(said.title.contains("K warmer than the 34,0 °C that are wanted"), "{said:?}");
    // Cream and syrup are heated together and start together.
    assert!(said.detail.starts_with("Cream and glucose syrup DE 38-42 at "), "{said:?}");
    assert!(said.detail.contains("°C instead of 85 °C."), "{said:?}");
    assert_eq!(missed.lines().len(), 3);

    let start = mixed(&hot).wanted.and_then(|wanted| wanted.ways.first()?.needed.ok());
    let Some(Needed::Melted(start)) = start else { panic!("{start:?}") };
    let cooler = starting(hot, &[Some(start.0), Some(start.0), Some(20.0)]);
    assert!(!codes(&analysis_of(&cooler)).contains(&"mixing.wanted_c"));
}

#[test]
fn what_no_start_can_do_says_why() {
    let ways_to = |recipe: Recipe, celsius: f64| mixed(&wanting(recipe, celsius)).wanted.expect("one is wanted").ways;
    let ways = ways_to(cream_and_dark(60.0, 20.0), 62.0);
    assert_eq!(ways[0].needed, Err(HeatError::NeedsBoiling));
    assert!(matches!(ways[1].needed, Ok(Needed::Melted(at)) if at.0 > 40.0 && at.0 < 60.0) || ways[1].needed.is_err());
    let ways = ways_to(cream_and_dark(70.0, 45.0), 48.0);
    assert!(
        matches!(ways[1].needed, Ok(Needed::MeltFirst { share, .. }) if share.0 > 0.0 && share.0 < 1.0),
        "{ways:?}"
    );
    let ways = ways_to(cream_and_dark(90.0, 20.0), 30.0);
    assert_eq!(ways[1].needed, Err(HeatError::NeedsTooCold));
    // After two hours in the open nothing is warm any more.
    let mut long = wanting(cream_and_dark(90.0, 45.0), 60.0);
    long.mixing.stirred = StirringTime::new(120.0).expect("a time");
    let wanted = mixed(&long).wanted.expect("one is wanted");
    assert!(wanted.ways.iter().chain(&wanted.lines).all(|way| way.needed == Err(HeatError::LostToRoom)), "{wanted:?}");
    // Nothing that one would heat or melt: sugar and water-free oil.
    let ways = ways_to(starting(recipe(&[("sucrose", 100.0), ("glycerol", 50.0)]), &[Some(60.0), None]), 30.0);
    assert!(ways.is_empty(), "{ways:?}");
}

/// Any line can be the one that is changed. By hand, without fat: 300 g of water at 60 °C and 100 g at 20 °C end at 50 °C;
/// for 55 °C the small one has to be at 4·55 − 3·60 = 40 °C, or the large one at (4·55 − 20)/3 = 66.7 °C; for 70 °C the
/// small one would have to be at 100 °C and for 72 °C hotter than it boils; for 40 °C it would have to be below 0 °C.
#[test]
fn each_line_alone_is_brought_to_what_the_end_needs() {
    let water = |celsius: f64| {
        let recipe = recipe(&[("water", 300.0), ("water", 100.0)]);
        mixed(&wanting(starting(recipe, &[Some(60.0), Some(20.0)]), celsius)).wanted.expect("one is wanted").lines
    };
    let start = |way: &Way| match way.needed {
        Ok(Needed::Solid(at) | Needed::Melted(at)) => at.0,
        other => panic!("{other:?}"),
    };
    let lines = water(55.0);
    // The specific heat of water changes by half a percent over this range.
    check("small", start(&lines[1]), 40.0, 0.2);
    check("large", start(&lines[0]), 200.0 / 3.0, 0.1);
    assert_eq!(water(72.0)[1].needed, Err(HeatError::NeedsBoiling));
    assert_eq!(water(40.0)[1].needed, Err(HeatError::NeedsTooCold));
}

/// Where two lines have one name, the sentence says which one, and how much of it is melted.
#[test]
fn a_way_says_which_line_and_how_much() {
    let mut recipe = recipe(&[("cream-35", 300.0), ("couverture-dark-64", 300.0), ("couverture-dark-64", 60.0)]);
    recipe = wanting(starting(recipe, &[Some(60.0), Some(20.0), Some(45.0)]), 43.0);
    let analysis = analysis_of(&recipe);
    let Some(Ok(mixing)) = &analysis.mixing else { panic!("{:?}", analysis.mixing) };
    let wanted = mixing.wanted.as_ref().expect("one is wanted");
    let Ok(Needed::MeltFirst { share, grams, .. }) = wanted.lines[1].needed else { panic!("{wanted:?}") };
    check("grams", grams.0, 300.0 * share.0, 1e-9);
    let report: Value = serde_json::from_str(&json::report(&recipe, &analysis).expect("it is written")).expect("JSON");
    let text = report["mixing"]["lines"][1]["text"].as_str().expect("a sentence");
    assert!(text.starts_with("Melt ") && text.contains(" g (") && text.contains("(line 2)"), "{text}");
    assert_eq!(report["mixing"]["lines"][1]["melt_first_g"].as_f64(), Some(grams.0));
    assert_eq!(report["mixing"]["lines"].as_array().map(Vec::len), Some(3));
    let text = text::report(&recipe, &analysis, DecimalSign::Point);
    assert!(text.contains("or one line alone") && text.contains("(line 3)"), "{text}");
}

#[test]
fn tempered_chocolate_that_melts_is_a_caution_and_a_cold_mix_too() {
    let mut tempered = cream_and_dark(60.0, 31.0);
    tempered.lines[1].fat_state = FatState::Tempered;
    let analysis = analysis_of(&tempered);
    let high = finding(&analysis, "mixing.celsius.high");
    assert_eq!(words::level(high.level), "caution");
    assert!(words::finding(high, DecimalSign::Point).detail.contains("in vain"));
    let melted = analysis_of(&cream_and_dark(60.0, 45.0));
    assert_eq!(words::level(finding(&melted, "mixing.celsius.high").level), "note");
    let cold = analysis_of(&cream_and_dark(24.0, 24.0));
    let low = finding(&cold, "mixing.celsius.low");
    assert!(words::finding(low, DecimalSign::Point).detail.contains("Start warmer"));
}

#[test]
fn what_cannot_be_mixed_says_why() {
    let why = |recipe: &Recipe| match analysis_of(recipe).mixing {
        Some(Err(why)) => why,
        other => panic!("{other:?}"),
    };
    let mut cooked = starting(recipe(&[("sucrose", 200.0), ("cream-35", 150.0)]), &[None, Some(80.0)]);
    let temperature = CookTemperature::new(Celsius(118.0)).expect("a temperature");
    cooked.losses.evaporation = Evaporation::CookedTo { temperature, height: Height::SEA_LEVEL };
    assert_eq!(why(&cooked), NoMixing::Cooked(temperature));
    let nothing = Arc::new(Ingredient::unknown("nothing", "Nothing known"));
    let unknown = starting(recipe_of(&[(nothing.clone(), 50.0), (cream(), 100.0)]), &[None, Some(80.0)]);
    assert_eq!(why(&unknown), NoMixing::Unknown);
    let mut estimated = unknown;
    estimated.losses.evaporation = Evaporation::Estimated(Heating::Boiled);
    assert_eq!(why(&estimated), NoMixing::Unknown);
    // Fat that melts out of ice-cold parts takes more heat than there is above 0 °C.
    let analysis = analysis_of(&cooked);
    assert!(words::finding(finding(&analysis, "mixing.none"), DecimalSign::Point).title.contains("cooked to 118 °C"));
    let said = text::report(&cooked, &analysis, DecimalSign::Point);
    assert!(said.contains("the mass is cooked"), "{said}");
    let written: Value = serde_json::from_str(&json::report(&cooked, &analysis).expect("JSON")).expect("JSON");
    assert_eq!(written["mixing"], Value::Null);
}

#[test]
fn hot_alcohol_and_dry_dextrose_are_said() {
    let hot = starting(recipe(&[("rum-40", 50.0), ("cream-35", 200.0)]), &[Some(20.0), Some(95.0)]);
    assert!(codes(&analysis_of(&hot)).contains(&"mixing.alcohol"));
    let warm = starting(recipe(&[("rum-40", 50.0), ("cream-35", 200.0)]), &[Some(20.0), Some(60.0)]);
    assert!(!codes(&analysis_of(&warm)).contains(&"mixing.alcohol"));
    let dry = starting(recipe(&[("dextrose-monohydrate", 40.0), ("cream-35", 200.0)]), &[None, Some(60.0)]);
    let analysis = analysis_of(&dry);
    let cooling = finding(&analysis, "mixing.cooling_sugars");
    // By hand: 36 g of dextrose at 100 J/g in 0.8 kJ/K.
    assert!(cooling.value.is_some_and(|kelvin| (3.5..6.0).contains(&kelvin)), "{cooling:?}");
}

/// The report at any temperature says the same of the mix: it does not depend on the thermometer.
#[test]
fn the_mix_does_not_depend_on_the_temperature_that_is_shown() {
    let mass = cream_and_dark(80.0, 20.0);
    assert_eq!(analyse(&mass, ROOM).mixing, analyse(&mass, Celsius(5.0)).mixing);
}

/// Seed that stands in the sheet goes in when the mix has cooled: it takes no part in it.
#[test]
fn seed_in_the_sheet_is_not_mixed() {
    let mut seeded = cream_and_dark(80.0, 20.0);
    seeded.push(built_in("cocoa-butter"), grams(10.0));
    let with_seed = |is_seed: bool| {
        let mut mass = seeded.clone();
        mass.lines[2].is_seed = is_seed;
        mixed(&mass)
    };
    assert_eq!(with_seed(true), mixed(&cream_and_dark(80.0, 20.0)));
    assert_ne!(with_seed(false).end, with_seed(true).end);
    assert_eq!((with_seed(true).unsaid, with_seed(false).unsaid), (0, 1));
}
