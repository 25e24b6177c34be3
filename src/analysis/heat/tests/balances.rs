//! Balances worked by hand and by an independent program, and the corner cases.

use super::super::*;
use super::{CREAM, DARK, Tables, check, contents};
use crate::recipe::BowlMaterial;
use crate::units::{Celsius, Grams, Joules, JoulesPerGramKelvin, MassFraction};

fn part(kilograms: f64, specific_heat: f64, celsius: f64) -> Part {
    Part::measured(Grams(kilograms * 1000.0), JoulesPerGramKelvin(specific_heat), Celsius(celsius)).expect("a part")
}

/// Half a kilogram of 1.7 J/(g·K) with 36 % cocoa butter, 78 % of it solid, at 20 °C.
fn chocolate() -> Part {
    part(0.5, 1.7, 20.0)
        .with_fat(Fat::CocoaButter, MassFraction(0.36))
        .and_then(|part| part.with_crystals(Fat::CocoaButter, MassFraction(0.78)))
        .expect("chocolate")
}

fn cream_and_chocolate(celsius: f64) -> Mix {
    Mix::new([part(0.5, 3.5, celsius), chocolate()])
}

fn dark_at(celsius: f64) -> Part {
    Part::new(&contents(500.0, DARK), Celsius(celsius)).expect("dark chocolate")
}

fn solid_dark() -> Part {
    dark_at(20.0).with_crystals(Fat::CocoaButter, MassFraction(0.78)).expect("crystals")
}

fn cream_at(celsius: f64) -> Part {
    Part::new(&contents(500.0, CREAM), Celsius(celsius)).expect("cream")
}

fn end(mix: &Mix) -> f64 {
    mix.mixed(&Tables).expect("a temperature").at_once.temperature.0
}

fn bowl(grams: f64, material: BowlMaterial, celsius: f64) -> Vessel {
    Vessel { mass: Grams(grams), material, at: Celsius(celsius) }
}

#[test]
fn parts_without_crystals_end_at_the_weighted_mean() {
    let two = Mix::new([part(0.5, 3.5, 80.0), part(0.5, 1.7, 40.0)]);
    check("two parts", end(&two), 66.9231, 1e-3);
    let three = Mix::new([part(0.4, 3.40, 75.0), part(0.6, 1.65, 32.0), part(0.06, 2.30, 18.0)]);
    check("three parts", end(&three), 54.7283, 1e-3);
    let steel = two.in_vessel(bowl(600.0, BowlMaterial::Steel, 20.0)).expect("a bowl");
    check("steel bowl", end(&steel), 62.069, 1e-3);
    let glass = Mix::new([part(0.4, 3.4, 70.0), part(0.4, 1.7, 38.0)]);
    let glass = glass.in_vessel(bowl(900.0, BowlMaterial::Glass, 21.0)).expect("a bowl");
    check("glass bowl", end(&glass), 48.9685, 1e-3);
}

#[test]
fn melting_takes_heat_and_nothing_crystallises_at_once() {
    let all = cream_and_chocolate(80.0).mixed(&Tables).expect("a temperature");
    check("all melts", all.at_once.temperature.0, 51.9066, 1e-3);
    assert_eq!(all.cautions, []);
    assert_eq!(all.at_once.melted, Some(MassFraction(1.0)));
    let some = cream_and_chocolate(50.0).mixed(&Tables).expect("a temperature");
    check("some melts", some.at_once.temperature.0, 33.0113, 1e-3);
    check("crystals left in g", some.at_once.crystals[0].0, 21.478, 0.02);
    check("before in g", chocolate().crystals(Fat::CocoaButter).0, 140.4, 1e-9);
    assert_eq!(some.cautions, []);
    let melted = chocolate()
        .at(Celsius(31.0))
        .and_then(|part| part.with_crystals(Fat::CocoaButter, MassFraction::ZERO))
        .expect("melted chocolate");
    check("undercooled", end(&Mix::new([part(0.5, 3.5, 25.0), melted])), 26.9615, 1e-3);
}

#[test]
fn the_balance_reads_backward() {
    let none = BlendCurve::new(None);
    let mix = Mix::new([part(0.5, 3.5, 60.0), part(0.5, 1.7, 40.0)]);
    let cream = start_temperature(&mix, 0, Celsius(34.0), &none).expect("a start");
    check("melted chocolate", cream.0, 31.0857, 1e-3);
    let cream = start_temperature(&cream_and_chocolate(60.0), 0, Celsius(34.0), &Tables).expect("a start");
    check("solid chocolate", cream.0, 52.427, 1e-3);
    let share = share_to_melt_first(&cream_and_chocolate(50.0), &[1], Celsius(45.0), Celsius(36.0), &Tables);
    check("melted first", share.expect("a share").0, 0.25738, 1e-4);
}

#[test]
fn dissolving_seeding_and_crystallising_in_small() {
    // 180 g of sugar that takes up 16 J/g, as heat from outside.
    let mix = Mix::new([part(0.5, 3.5, 80.0), part(0.5, 1.7, 45.0)]);
    check("undissolved", end(&mix), 68.5577, 1e-3);
    check("dissolved", end(&mix.with_heat(Joules(-180.0 * 16.0)).expect("heat")), 67.45, 1e-3);

    let seed = |crystals| {
        part(0.01, 2.0, 33.0)
            .with_fat(Fat::CocoaButter, MassFraction(1.0))
            .and_then(|part| part.with_crystals(Fat::CocoaButter, MassFraction(crystals)))
            .expect("seed")
    };
    let seeded = |crystals| Mix::new([part(1.0, 2.6, 34.0), seed(crystals)]);
    check("no crystal", end(&seeded(0.0)), 33.9924, 1e-3);
    let nothing_lives = |_: Fat, _: Celsius| MassFraction::ZERO;
    let melted = seeded(0.1).mixed(&nothing_lives).expect("a temperature");
    check("all melt", melted.at_once.temperature.0, 33.9324, 1e-3);
    let rise = rise_by_crystallising(MassFraction(0.01), Fat::CocoaButter, JoulesPerGramKelvin(2.6));
    check("a hundredth crystallises", rise.0, 0.6038, 1e-3);
}

#[test]
fn the_full_model_agrees_with_an_independent_program() {
    check("heat of cream", cream_at(80.0).heat_per_gram().0, 264.628, 1e-3);
    check("heat of chocolate", solid_dark().heat_per_gram().0, -12.5996, 1e-3);
    let mix = Mix::new([cream_at(80.0), solid_dark()]);
    let mixed = mix.mixed(&Tables).expect("a temperature");
    check("heat", mix.heat().0, 126_014.0, 1.0);
    check("dissolved", mixed.after_dissolving.temperature.0, 48.244, 0.002);
    check("specific heat", mixed.after_dissolving.specific_heat.0, 2.6575, 5e-4);
    check("not dissolved", mixed.at_once.temperature.0, 50.427, 0.002);
    check("neither", mixed.sensible_only.0, 59.448, 0.002);
    check("sugar", mixed.after_dissolving.dissolved.0, 177.5, 1e-9);
    assert!(mixed.has_noteworthy_dissolution() && mixed.by_melting().0 < -9.0);
    check("sum", mixed.by_melting().0 + mixed.by_dissolving().0, 48.244 - 59.448, 0.004);

    // Ends by the temperature of the cream: full, not dissolved, neither, with the chocolate melted at 45 °C.
    for (celsius, ends) in [
        (60.0, [35.6, 37.2, 46.3, 52.4]),
        (70.0, [41.9, 43.8, 52.9, 58.6]),
        (80.0, [48.2, 50.4, 59.4, 64.9]),
        (90.0, [54.5, 57.0, 66.0, 71.1]),
    ] {
        let mixed = Mix::new([cream_at(celsius), solid_dark()]).mixed(&Tables).expect("a temperature");
        let melted = Mix::new([cream_at(celsius), dark_at(45.0)]).mixed(&Tables).expect("a temperature");
        check("full", mixed.after_dissolving.temperature.0, ends[0], 0.051);
        check("not dissolved", mixed.at_once.temperature.0, ends[1], 0.051);
        check("neither", mixed.sensible_only.0, ends[2], 0.051);
        check("melted first", melted.after_dissolving.temperature.0, ends[3], 0.051);
    }

    let start = |chocolate: Part| start_temperature(&Mix::new([cream_at(60.0), chocolate]), 0, Celsius(34.0), &Tables);
    check("cream on solid chocolate", start(solid_dark()).expect("a start").0, 56.345, 0.002);
    check("cream on melted chocolate", start(dark_at(40.0)).expect("a start").0, 33.187, 0.002);
}

#[test]
fn butter_keeps_some_of_its_crystals() {
    use Substance::{Ash, DissolvedSugar, MilkFat, Protein, Water};
    let shares = [(MilkFat, 0.82), (Water, 0.16), (Protein, 0.007), (DissolvedSugar, 0.008), (Ash, 0.005)];
    let butter = Part::new(&contents(50.0, &shares), Celsius(18.0))
        .and_then(|part| part.with_crystals(Fat::MilkFat, Tables.solid(Fat::MilkFat, Celsius(18.0))))
        .expect("butter");
    check("crystals of butter", butter.crystals(Fat::MilkFat).0, 10.66, 0.005);
    let mixed = Mix::new([cream_at(60.0), solid_dark(), butter]).mixed(&Tables).expect("a temperature");
    let after = mixed.after_dissolving;
    check("temperature", after.temperature.0, 34.801, 0.002);
    check("cocoa butter", after.crystals[0].0, 2.24, 0.01);
    check("milk fat", after.crystals[1].0, 4.66, 0.01);
}

#[test]
fn chocolate_starts_solid_melted_or_in_between() {
    let start = |cream: f64, target: f64| {
        let mix = Mix::new([cream_at(cream), solid_dark()]);
        chocolate_start(&mix, &[(1, &Tables)], Celsius(target), &Tables)
    };
    let Ok(Start::Solid(at)) = start(60.0, 35.6) else { panic!("{:?}", start(60.0, 35.6)) };
    assert!((19.0..21.0).contains(&at.0), "{at:?}");
    let Ok(Start::Melted(at)) = start(60.0, 52.4) else { panic!("{:?}", start(60.0, 52.4)) };
    assert!((44.5..45.5).contains(&at.0), "{at:?}");
    assert_eq!(start(60.0, 44.0), Ok(Start::PartlyMelted));
    assert_eq!(start(90.0, 34.0), Err(HeatError::NeedsTooCold));
    assert_eq!(start(20.0, 60.0), Err(HeatError::NeedsScorching));
}

#[test]
fn what_cannot_be_says_why() {
    let start = |target: f64| start_temperature(&cream_and_chocolate(60.0), 0, Celsius(target), &Tables);
    assert_eq!(start(80.0), Err(HeatError::NeedsBoiling));
    let warm = Mix::new([part(0.1, 3.5, 60.0), part(0.5, 1.7, 45.0)]);
    assert_eq!(start_temperature(&warm, 0, Celsius(33.0), &Tables), Err(HeatError::NeedsTooCold));
    assert_eq!(start_temperature(&warm, 0, Celsius(3.0), &Tables), Err(HeatError::ColderThanAll));
    assert_eq!(start_temperature(&warm, 2, Celsius(34.0), &Tables), Err(HeatError::NoSuchPart));
    assert_eq!(start_temperature(&warm, 0, Celsius(f64::NAN), &Tables), Err(HeatError::NotFinite));
    let share =
        |target: f64| share_to_melt_first(&cream_and_chocolate(50.0), &[1], Celsius(45.0), Celsius(target), &Tables);
    assert_eq!(share(60.0), Err(HeatError::TooColdAllMelted));
    assert_eq!(share(30.0), Err(HeatError::TooWarmAllSolid));
    assert_eq!(Mix::default().mixed(&Tables), Err(HeatError::Empty));
    let measured = |grams, cp, t| Part::measured(Grams(grams), JoulesPerGramKelvin(cp), Celsius(t)).err();
    assert_eq!(measured(0.0, 2.0, 20.0), Some(HeatError::Empty));
    assert_eq!(measured(1.0, 0.0, 20.0), Some(HeatError::Empty));
    assert_eq!(measured(-1.0, 2.0, 20.0), Some(HeatError::Negative));
    assert_eq!(measured(1.0, f64::NAN, 20.0), Some(HeatError::NotFinite));
    assert_eq!(measured(1.0, 2.0, -1.0), Some(HeatError::BelowFreezing));
    assert_eq!(measured(1.0, 2.0, 151.0), Some(HeatError::AboveRange));
    assert_eq!(part(1.0, 2.0, 20.0).with_fat(Fat::MilkFat, MassFraction(1.1)).err(), Some(HeatError::NotAShare));
    let immense = || part(1e303, 1.0, 40.0);
    let immense = Mix::new([immense(), immense(), part(1.0, 2.0, 20.0)]);
    assert_eq!(immense.mixed(&Tables), Err(HeatError::NotFinite));
    assert_eq!(start_temperature(&immense, 0, Celsius(34.0), &Tables), Err(HeatError::NotFinite));
    let heated = |joules| Mix::new([part(1.0, 2.0, 20.0)]).with_heat(Joules(joules));
    assert_eq!(heated(f64::NAN), Err(HeatError::NotFinite));
    assert_eq!(heated(-1e6).and_then(|mix| mix.mixed(&Tables)), Err(HeatError::BelowFreezing));
    assert_eq!(heated(1e6).and_then(|mix| mix.mixed(&Tables)), Err(HeatError::AboveRange));
}

/// 1000 g of chocolate at 33.0 °C with 10 g of grated cocoa butter at 20 °C, 77 % solid, come to 32.84 °C while nothing
/// melts and to 32.09 °C if all of it does: sums by hand.
#[test]
fn seed_hardly_cools_a_mass() {
    let chocolate = part(1.0, 1.59, 33.0);
    let solid = MassFraction(0.77);
    let seed = part(0.01, 2.01, 20.0)
        .with_fat(Fat::CocoaButter, MassFraction(1.0))
        .and_then(|part| part.with_crystals(Fat::CocoaButter, solid))
        .expect("seed");
    let mix = Mix::new([chocolate, seed]);
    let end =
        |left: MassFraction| mix.mixed(&move |_: Fat, _: Celsius| left).expect("a temperature").at_once.temperature.0;
    check("nothing melts", end(solid), 32.838, 5e-4);
    check("all melts", end(MassFraction::ZERO), 32.087, 5e-4);
}

#[test]
fn one_part_keeps_its_temperature() {
    for celsius in [0.0, 4.0, 20.0, 31.7, 100.0] {
        check("alone", end(&Mix::new([dark_at(celsius)])), celsius, 1e-6);
        let crystals = Tables.solid(Fat::CocoaButter, Celsius(celsius));
        let solid = dark_at(celsius).with_crystals(Fat::CocoaButter, crystals).expect("crystals");
        check("with crystals", end(&Mix::new([solid])), celsius, 1e-6);
    }
}

#[test]
fn at_a_melting_point_the_heat_decides_how_much_is_left() {
    // One melting point at 30 °C: 1000 J melt 1000/157 g of 180 g, by hand.
    let step = |_: Fat, at: Celsius| MassFraction(if at.0 < 30.0 { 1.0 } else { 0.0 });
    let solid = chocolate()
        .at(Celsius(30.0 - 1e-7))
        .and_then(|part| part.with_crystals(Fat::CocoaButter, MassFraction(1.0)))
        .expect("chocolate");
    let mix = Mix::new([solid]).with_heat(Joules(1000.0)).expect("heat");
    let mixed = mix.mixed(&step).expect("a temperature").at_once;
    check("temperature", mixed.temperature.0, 30.0, 1e-8);
    check("left", mixed.crystals[0].0, 180.0 - 1000.0 / 157.0, 1e-5);
}

#[test]
fn hot_spirits_and_hot_sugar_are_cautioned() {
    let spirit = contents(100.0, &[(Substance::Ethanol, 0.4), (Substance::Water, 0.6)]);
    let cautions = |celsius: f64| {
        let mix = Mix::new([Part::new(&spirit, Celsius(celsius)).expect("spirit")]);
        mix.mixed(&Tables).expect("a temperature").cautions
    };
    assert_eq!(cautions(20.0), []);
    assert_eq!(cautions(85.0), [Caution::EthanolIsLost]);
    assert_eq!(cautions(115.0), [Caution::EthanolIsLost, Caution::HotterThanChecked]);
    for material in BowlMaterial::ALL {
        assert!((0.4..2.0).contains(&specific_heat_of(material).0));
    }
}

#[test]
fn sugar_dissolves_up_to_two_grams_in_a_gram_of_water() {
    let sugar = Part::new(&contents(500.0, &[(Substance::CrystallineSugar, 1.0)]), Celsius(60.0)).expect("sugar");
    let water = Part::new(&contents(100.0, &[(Substance::Water, 1.0)]), Celsius(60.0)).expect("water");
    let mixed = Mix::new([sugar, water]).mixed(&Tables).expect("a temperature");
    check("dissolved", mixed.after_dissolving.dissolved.0, 200.0, 1e-9);
    assert!(mixed.after_dissolving.temperature < Celsius(60.0));
    let dry = Mix::new([dark_at(40.0), dark_at(50.0)]).mixed(&Tables).expect("a temperature");
    assert_eq!(dry.after_dissolving, dry.at_once);
}

#[test]
fn the_heat_of_solution_is_sixteen_at_25_degrees() {
    // 5.4 kJ/mol over 342.3 g/mol, and its rise with temperature by the two specific heats: 13, 16, 22, 32, 55 J/g.
    for (celsius, expected) in [(20.0, 13.0), (25.0, 16.0), (35.0, 22.0), (50.0, 32.0), (80.0, 55.0)] {
        let of = |substance| Part::new(&contents(1.0, &[(substance, 1.0)]), Celsius(celsius)).expect("sugar").heat().0;
        check("heat", of(Substance::DissolvedSugar) - of(Substance::CrystallineSugar), expected, 0.6);
    }
    check("at zero", HEAT_OF_SOLUTION_AT_ZERO.0, 16.0 - 0.5375 * 25.0 - 0.0031876 * 312.5, 1e-12);
}
