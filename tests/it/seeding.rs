//! Windows and doses against habits of the trade and hand computations, and when there are none.

use std::sync::Arc;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use nibwright::analysis::fat::{FatGrams, FatPhase, Form};
use nibwright::analysis::finding::{Level, SeededBy, Subject};
use nibwright::analysis::seeding::{Seeding, Window, crystals_per_fat, equal_time_dose, habit_dose};
use nibwright::analysis::{Analysis, analyse};
use nibwright::ingredient::{Component, Ingredient};
use nibwright::number::DecimalSign;
use nibwright::recipe::{CocoaButter, Kind, Recipe, TransferLoss, Triglycerides, Use};
use nibwright::report::words;
use nibwright::units::{Celsius, Grams, MassFraction};

use crate::support::{analysis_of, codes, evaporating, finding, made_for, own, recipe, recipe_of};

fn seeding_of(analysis: &Analysis) -> Seeding {
    analysis.seeding.unwrap_or_else(|| panic!("it can be seeded: {:?}", codes(analysis)))
}

fn form_v_limit(analysis: &Analysis) -> Celsius {
    analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v).expect("it has a form V limit")
}

/// An ingredient with so much fat, of it so many percent cocoa butter and the rest oil; dry sugar makes up 100.
fn dry_mass(fat: f64, cocoa_butter_in_fat: f64) -> Arc<Ingredient> {
    let cocoa_butter = fat * cocoa_butter_in_fat / 100.0;
    let parts = [
        (Component::CocoaButter, cocoa_butter),
        (Component::OtherFat, fat - cocoa_butter),
        (Component::Sucrose, 100.0 - fat),
    ];
    own("mass", &parts)
}

fn dry_recipe(fat: f64, cocoa_butter_in_fat: f64, batch: f64) -> Recipe {
    recipe_of(&[(dry_mass(fat, cocoa_butter_in_fat), batch)])
}

/// The form V limit of fats that are added up here, line by line, without the program's own sums.
fn limit_of(fats: FatGrams) -> Celsius {
    let phase = FatPhase::new(&fats, CocoaButter::WestAfrican).expect("there is fat");
    phase.melting_limit(Form::V).expect("it has a form V limit")
}

/// Below the form V limit by 0.2, 2 and 4 K: calibrated on common practice for dark chocolate (no published source).
#[test]
fn the_window_hangs_below_the_form_v_limit() {
    for lines in [
        &[("couverture-dark-64", 400.0), ("cream-35", 200.0)][..],
        &[("couverture-white-33", 300.0), ("cream-35", 100.0), ("coconut-cream", 50.0)],
        &[("praline-hazelnut-60", 300.0), ("cocoa-butter", 120.0)],
    ] {
        let analysis = analysis_of(&recipe(lines));
        let (limit, window) = (form_v_limit(&analysis), seeding_of(&analysis).window);
        assert_abs_diff_eq!(window.min.0, limit.0 - 4.0, epsilon = 1e-9);
        assert_abs_diff_eq!(window.recommended.0, limit.0 - 2.0, epsilon = 1e-9);
        assert_abs_diff_eq!(window.max.0, limit.0 - 0.2, epsilon = 1e-9);
    }
}

/// Pure cocoa butter of the default type: 29.8, 31.8, 33.6 °C. Common practice, no published source: chocolate is seeded
/// at 30 to 33 °C and not over about 33.5; cookery tables give dark chocolate 31 to 32 °C.
#[test]
fn dark_chocolate_is_seeded_where_the_trade_seeds_it() {
    let bar = made_for(recipe(&[("cocoa-butter", 100.0)]), Kind::Chocolate, Use::Bar);
    let analysis = analysis_of(&bar);
    let window = seeding_of(&analysis).window;
    assert_abs_diff_eq!(window.min.0, 29.8, epsilon = 0.05);
    assert_abs_diff_eq!(window.recommended.0, 31.8, epsilon = 0.05);
    assert_abs_diff_eq!(window.max.0, 33.6, epsilon = 0.05);
    assert!(window.min.0 <= 30.0 && window.max.0 >= 33.0, "the habit lies in the window");
    assert!(window.max.0 <= 33.5 + 0.2, "not over about 33.5 °C");
    assert!((31.0..=32.0).contains(&window.recommended.0));
    assert!(!codes(&analysis).contains(&"seeding.habit_above_limit"));
}

/// The same for chocolate with its lecithin, whose habit holds too.
#[test]
fn dark_couvertures_are_seeded_where_the_trade_seeds_them() {
    for id in ["couverture-dark-55", "couverture-dark-64", "couverture-dark-70", "couverture-dark-80"] {
        let analysis = analysis_of(&made_for(recipe(&[(id, 1000.0)]), Kind::Chocolate, Use::Shell));
        let window = seeding_of(&analysis).window;
        assert!(window.min.0 <= 30.0 && window.max.0 >= 33.0 && window.max.0 <= 33.7, "{id}: {window:?}");
        assert!(!codes(&analysis).contains(&"seeding.habit_above_limit"), "{id}");
    }
}

/// Milk fat lowers the window. Yella Reddy, Full, Dimick and Ziegler 1996 (abstract): with 20 % milk fat in the fat
/// crystals survive at 31 °C; above it lower temperatures are needed, at 40 % they do not live there.
#[test]
fn milk_fat_lowers_the_window() {
    let limit = |milk_fat: f64| {
        let parts = [(Component::CocoaButter, 100.0 - milk_fat), (Component::MilkFat, milk_fat)];
        form_v_limit(&analysis_of(&recipe_of(&[(own("fat", &parts), 100.0)]))).0
    };
    assert!(limit(20.0) > 31.0 && limit(40.0) < 31.0, "{} and {}", limit(20.0), limit(40.0));
    assert!(limit(0.0) > limit(10.0) && limit(10.0) > limit(20.0));
}

/// Common practice, no published source: praline is seeded at 28 to 29 °C. With half of the fat cocoa butter the form V
/// limit is 28.95 °C and that fits; with less it does not, and a finding says so.
#[test]
fn the_habit_of_praline_fits_half_cocoa_butter_and_not_less() {
    for (cocoa_butter_in_fat, fits) in
        [(70.0, true), (60.0, true), (50.0, true), (48.0, false), (40.0, false), (25.0, false)]
    {
        let praline = made_for(dry_recipe(38.0, cocoa_butter_in_fat, 500.0), Kind::Praline, None);
        let analysis = analysis_of(&praline);
        assert_eq!(
            !codes(&analysis).contains(&"seeding.habit_above_limit"),
            fits,
            "{cocoa_butter_in_fat} % of the fat"
        );
    }
    let half = analysis_of(&made_for(dry_recipe(38.0, 50.0, 500.0), Kind::Praline, None));
    assert_abs_diff_eq!(form_v_limit(&half).0, 28.95, epsilon = 0.01);
    let window = seeding_of(&half).window;
    assert!(window.min.0 < 28.0 && window.max.0 > 28.0, "{window:?}");

    let less = analysis_of(&made_for(dry_recipe(38.0, 40.0, 500.0), Kind::Praline, None));
    let found = finding(&less, "seeding.habit_above_limit");
    assert_eq!(found.level, Level::Caution);
    assert!(matches!(found.subject, Subject::HabitAboveLimit { is_wholly_above: true, .. }));
    let ganache = analysis_of(&made_for(dry_recipe(38.0, 40.0, 500.0), Kind::Ganache, None));
    assert!(!codes(&ganache).contains(&"seeding.habit_above_limit"), "it is a habit of praline");
}

/// Milk chocolate with much nut oil: the habit of chocolate (30 to 33 °C; common practice, no published source) is above.
#[test]
fn the_habit_of_chocolate_does_not_fit_a_soft_fat() {
    let soft = made_for(dry_recipe(38.0, 55.0, 500.0), Kind::Chocolate, Use::Bar);
    let found = analysis_of(&soft);
    assert_eq!(finding(&found, "seeding.habit_above_limit").usual_low, Some(30.0));
}

/// With traces of cocoa butter limits mean nothing (below 10 % of the fat: null), and crystals that cannot reach through
/// the fat are no use (below 20 %: no seeding). Both judged, both said.
#[test]
fn too_little_cocoa_butter_has_no_limits_and_no_window() {
    let cases = [
        (0.0, false, false),
        (5.0, false, false),
        (9.9, false, false),
        (10.0, true, false),
        (19.9, true, false),
        (20.0, true, true),
        (20.1, true, true),
    ];
    for (cocoa_butter_in_fat, has_limits, has_seeding) in cases {
        for batch in [7.0, 100.0, 1234.5] {
            let analysis = analysis_of(&dry_recipe(40.0, cocoa_butter_in_fat, batch));
            let limits = analysis.fat.as_ref().expect("there is fat").limits;
            for limit in [limits.form_iv, limits.form_v, limits.form_vi] {
                assert_eq!(limit.is_some(), has_limits, "{cocoa_butter_in_fat} % in {batch} g");
            }
            assert_eq!(analysis.seeding.is_some(), has_seeding, "{cocoa_butter_in_fat} % in {batch} g");
            let codes = codes(&analysis);
            assert_eq!(codes.contains(&"fat.form_v_limit_c.none"), !has_limits, "{cocoa_butter_in_fat} %");
            assert_eq!(codes.contains(&"seeding.none"), !has_seeding, "{cocoa_butter_in_fat} %");
            assert_eq!(codes.contains(&"seeding.window"), has_seeding, "{cocoa_butter_in_fat} %");
        }
    }
}

/// The same with every fat in a line of its own, in batches that binary numbers cannot hold exactly.
#[test]
fn the_borders_of_cocoa_butter_do_not_depend_on_the_batch() {
    let cocoa_butter = own("cocoa butter", &[(Component::CocoaButter, 100.0)]);
    let oil = own("oil", &[(Component::OtherFat, 100.0)]);
    for step in 1..200 {
        let batch = 0.37 * f64::from(step);
        let of = |parts: f64, whole: f64| {
            let rest = (whole - parts) * batch;
            analysis_of(&recipe_of(&[(Arc::clone(&oil), rest), (Arc::clone(&cocoa_butter), parts * batch)]))
        };
        assert!(of(1.0, 5.0).seeding.is_some(), "20 % in {batch} g");
        assert!(of(1.0, 5.01).seeding.is_none(), "less than 20 % in {batch} g");
        assert!(of(1.0, 10.0).fat.is_ok_and(|fat| fat.limits.form_v.is_some()), "10 % in {batch} g");
        assert!(of(1.0, 10.01).fat.is_ok_and(|fat| fat.limits.form_v.is_none()), "less than 10 % in {batch} g");
    }
}

/// Form V consists of POP, POS, SOS and SOA: where the cocoa butter has next to none of them, its share is not the reason.
#[test]
fn a_cocoa_butter_without_form_v_is_not_said_to_be_too_little() {
    for (pop, batch) in [(0.0, 100.0), (0.1, 100.0), (0.0, 25.0)] {
        let analysis = Triglycerides {
            pop,
            pos: 0.0,
            sos: 0.0,
            soa: 0.0,
            trisaturated: 1.0,
            other: 99.0 - pop,
            diglycerides_percent: 0.0,
            free_fatty_acids_percent: 0.0,
        };
        let mut mass = recipe_of(&[(dry_mass(40.0, 100.0), batch), (dry_mass(40.0, 0.0), 100.0 - batch)]);
        mass.cocoa_butter = CocoaButter::Own(analysis.checked().expect("it stays liquid"));
        let analysis = analysis_of(&mass);
        assert_eq!(analysis.fat.as_ref().map(|fat| fat.limits.form_v), Ok(None));
        assert_eq!(analysis.seeding, None);
        for code in ["fat.form_v_limit_c.none", "seeding.none"] {
            let found = finding(&analysis, code);
            assert_eq!((found.value, found.usual_low), (Some(batch), None));
            let said = words::finding(found, DecimalSign::Point).joined();
            assert!(said.contains("form V") && !said.contains("Below"), "{said}");
        }
    }
}

/// The second window is for fat in globules that has not met the chocolate's fat: there is none in a fat-continuous mass
/// and none without such fat.
#[test]
fn there_is_one_window_without_whole_globules() {
    let without = [
        recipe(&[("couverture-dark-64", 300.0), ("butter-82", 60.0), ("milk-powder-whole", 20.0)]),
        recipe(&[("couverture-dark-64", 300.0), ("butter-82", 60.0), ("raspberry-puree", 100.0)]),
        recipe(&[("couverture-milk-40", 1000.0), ("cream-35", 10.0)]),
        recipe(&[("couverture-dark-64", 300.0), ("raspberry-puree", 100.0), ("cream-35", 0.0)]),
    ];
    for mass in &without {
        let analysis = analysis_of(mass);
        assert_eq!(seeding_of(&analysis).unmixed, None, "{:?}", mass.lines);
        assert!(!codes(&analysis).contains(&"seeding.two_windows"));
    }
    // A trace of such fat gives the same window again, which is not said twice.
    let trace = analysis_of(&recipe(&[("couverture-dark-64", 300.0), ("milk-skim", 150.0)]));
    assert!(seeding_of(&trace).unmixed.is_some());
    assert_eq!(seeding_of(&trace).second_window(), None);
    assert!(!codes(&trace).contains(&"seeding.two_windows"));
    let milk = analysis_of(&recipe(&[("couverture-dark-64", 300.0), ("milk-whole", 100.0)]));
    assert!(seeding_of(&milk).unmixed.is_some());
    assert!(codes(&milk).contains(&"seeding.two_windows"));
}

/// While the globules are whole the fats outside them rule: couverture with its own milk fat, butter and milk powder
/// among them. Added up by hand from the class values.
#[test]
fn the_second_window_is_that_of_the_fats_outside_globules() {
    let lines = [
        ("couverture-milk-40", 300.0),
        ("couverture-dark-64", 50.0),
        ("cream-35", 150.0),
        ("egg-yolk", 20.0),
        ("coconut-milk", 30.0),
        ("butter-82", 40.0),
        ("milk-powder-whole", 15.0),
        ("hazelnut-paste", 25.0),
        ("oil-coconut", 10.0),
    ];
    let analysis = analysis_of(&recipe(&lines));
    let of = |id: &str, component: Component| {
        let line = lines.iter().find(|(line, _)| *line == id).expect("a line");
        let share = crate::support::built_in(id).composition.share(component).expect("known");
        Grams(line.1) * share
    };
    let sum = |component: Component, ids: &[&str]| ids.iter().map(|id| of(id, component)).sum::<Grams>();
    let outside = FatGrams {
        cocoa_butter: sum(Component::CocoaButter, &["couverture-milk-40", "couverture-dark-64"]),
        milk_fat: sum(Component::MilkFat, &["couverture-milk-40", "butter-82", "milk-powder-whole"]),
        liquid_oil: sum(Component::OtherFat, &["couverture-milk-40", "couverture-dark-64", "hazelnut-paste"]),
        coconut: of("oil-coconut", Component::OtherFat),
        ..FatGrams::default()
    };
    let all = FatGrams {
        milk_fat: outside.milk_fat + of("cream-35", Component::MilkFat),
        liquid_oil: outside.liquid_oil + of("egg-yolk", Component::OtherFat),
        coconut: outside.coconut + of("coconut-milk", Component::OtherFat),
        ..outside
    };
    let seeding = seeding_of(&analysis);
    assert_eq!(seeding.window, Window::below(limit_of(all)));
    let unmixed = seeding.unmixed.expect("there are globules");
    let expected = limit_of(outside);
    assert_abs_diff_eq!(unmixed.min.0, expected.0 - 4.0, epsilon = 1e-6);
    assert_abs_diff_eq!(unmixed.recommended.0, expected.0 - 2.0, epsilon = 1e-6);
    assert_abs_diff_eq!(unmixed.max.0, expected.0 - 0.2, epsilon = 1e-6);
    assert!(unmixed.max > seeding.window.max);
}

/// Trade habit for ganache follows the window of the chocolate's own fat: with cream alone it is that of the couverture.
#[test]
fn a_fresh_ganache_of_dark_couverture_and_cream_is_seeded_like_dark_chocolate() {
    let ganache = analysis_of(&recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]));
    let chocolate = analysis_of(&recipe(&[("couverture-dark-64", 400.0)]));
    assert_eq!(seeding_of(&ganache).unmixed, Some(seeding_of(&chocolate).window));
}

/// The seed is weighed for the bowl: after evaporation, before transfer loss.
#[test]
fn seed_is_weighed_for_the_bowl() {
    let mut mass =
        evaporating(recipe(&[("couverture-milk-40", 340.0), ("cream-35", 200.0), ("glucose-syrup-de40", 60.0)]), 50.0);
    mass.losses.transfer = TransferLoss::from_percent(10.0).expect("below 100 %");
    let analysis = analysis_of(&mass);
    let seeding = seeding_of(&analysis);
    let fat = (340.0 * (32.8 + 6.01 + 0.48) + 200.0 * 35.0) / 550.0;
    assert_relative_eq!(seeding.seed.0, 550.0 * seeding.habit.share.0, max_relative = 1e-12);
    assert_relative_eq!(seeding.habit.share.to_percent(), fat / 35.0, max_relative = 1e-9);
    assert_relative_eq!(analysis.make_up.finished.0, 495.0, max_relative = 1e-12);
}

/// Common practice, no published source: about 1 % seed in a mass with the fat of plain chocolate, half of it in thick
/// bars and blocks, 0.3 to 0.4 % in thin coats; 1 % of 800 g is 8 g, 300 kg take 3 kg.
#[test]
fn habit_takes_one_percent_less_for_thick_bars_and_thin_coats() {
    let seed = |intended_use: Option<Use>, batch: f64| {
        let analysis = analysis_of(&made_for(dry_recipe(35.0, 100.0, batch), Kind::Chocolate, intended_use));
        seeding_of(&analysis).seed.0
    };
    assert_relative_eq!(seed(None, 800.0), 8.0, max_relative = 1e-9);
    assert_relative_eq!(seed(Some(Use::Shell), 300_000.0), 3000.0, max_relative = 1e-9);
    assert_relative_eq!(seed(Some(Use::ThickBar), 1000.0), 5.0, max_relative = 1e-9);
    let coat = seed(Some(Use::ThinCoat), 1000.0);
    assert!((3.0..=4.0).contains(&coat), "{coat}");
    assert_relative_eq!(coat, 3.5, max_relative = 1e-9);
    for other in [Use::Cut, Use::Moulded, Use::Piped, Use::Spread, Use::Whipped, Use::Bar, Use::Shell] {
        assert_relative_eq!(seed(Some(other), 1000.0), 10.0, max_relative = 1e-9);
    }
}

/// By hand: f = 0.01 · φ/0.35, held between 0.2 and 1.5 %; c = 0.2 f/(φ + f).
#[test]
fn the_dose_of_habit_goes_with_the_fat() {
    for (fat, dose) in [(5.0, 0.2), (7.0, 0.2), (38.3, 1.0943), (52.0, 1.4857), (60.0, 1.5), (100.0, 1.5)] {
        let analysis = analysis_of(&dry_recipe(fat, 100.0, 640.0));
        let seeding = seeding_of(&analysis);
        assert_abs_diff_eq!(seeding.habit.share.to_percent(), dose, epsilon = 5e-5);
        let crystals = 100.0 * 0.20 * dose / (fat + dose);
        assert_abs_diff_eq!(seeding.crystals.to_percent(), crystals, epsilon = 1e-4);
        assert_eq!(seeding.habit.clip.is_some(), !(7.0..=52.5).contains(&fat), "{fat} % fat");
    }
    let reference = crystals_per_fat(MassFraction::from_percent(1.0), MassFraction(0.35));
    assert_abs_diff_eq!(reference.0, 0.005_556, epsilon = 5e-7);
}

/// By hand: T_V = 29.75 °C, φ = 0.385: c = 0.005556 · (18.79/14.75)^2.5 = 0.01018, f = c·φ/(0.20 − c) = 2.064 %.
/// The growth law was fitted to seeded cocoa butter; good to a factor of two.
#[test]
fn the_dose_for_equal_setting_time_of_a_milky_mass() {
    let dose = equal_time_dose(MassFraction(0.385), Celsius(29.75)).expect("above 18 °C");
    assert_abs_diff_eq!(dose.share.to_percent(), 2.064, epsilon = 5e-4);
    // 60 % cocoa butter and 40 % milk fat have that limit, to two decimals.
    let parts = [(Component::CocoaButter, 23.1), (Component::MilkFat, 15.4), (Component::Sucrose, 61.5)];
    let analysis = analysis_of(&recipe_of(&[(own("mass", &parts), 400.0)]));
    assert_abs_diff_eq!(form_v_limit(&analysis).0, 29.75, epsilon = 0.005);
    let dose = seeding_of(&analysis).equal_time.expect("above 18 °C");
    assert_abs_diff_eq!(dose.share.to_percent(), 2.064, epsilon = 0.0025);
}

/// Plain chocolate is what is compared with: there both doses are 1 %.
#[test]
fn plain_chocolate_sets_as_fast_as_plain_chocolate() {
    let seeding = seeding_of(&analysis_of(&dry_recipe(35.0, 100.0, 100.0)));
    let equal = seeding.equal_time.expect("above 18 °C");
    // The reference has the limit 33.79 °C, of two decimals.
    assert_abs_diff_eq!(equal.share.to_percent(), 1.0, epsilon = 0.001);
    assert_abs_diff_eq!(seeding.habit.share.to_percent(), 1.0, epsilon = 1e-9);
}

/// It grows as the form V limit falls, is held between 0.2 and 3 %, and is null under 18 °C.
#[test]
fn the_dose_for_equal_setting_time_has_its_ends() {
    let dose = |celsius: f64| equal_time_dose(MassFraction(0.35), Celsius(celsius)).map(|dose| dose.share.to_percent());
    assert_eq!(dose(17.99), None);
    assert_eq!(dose(18.0), Some(3.0));
    let grown: Vec<f64> = [33.5, 32.0, 30.0, 28.5].map(|celsius| dose(celsius).expect("above 18 °C")).to_vec();
    assert!(grown.windows(2).all(|pair| pair[0] < pair[1]), "{grown:?}");
    let lean = equal_time_dose(MassFraction(0.02), Celsius(33.0)).expect("above 18 °C");
    assert_abs_diff_eq!(lean.share.to_percent(), 0.2, epsilon = 1e-12);
    assert!(lean.clip.is_some());
    assert_eq!(habit_dose(MassFraction(0.02), None).share.to_percent(), 0.2);
}

/// Notter 2011: between 23.3 and 29.4 °C the fat of a ganache that is mixed no longer disperses; common practice says
/// 30 °C. A window that lies there is said to, with what follows; above it and without emulsion there is nothing to say.
#[test]
fn a_window_of_an_emulsion_below_thirty_degrees_is_said() {
    let code = "seeding.recommended_c.low";
    let milky = analysis_of(&recipe(&[("couverture-milk-40", 340.0), ("cream-35", 200.0)]));
    let found = finding(&milky, code);
    let seeding = seeding_of(&milky);
    assert!(seeding.window.recommended.0 < 30.0);
    assert_eq!(found.value, Some(seeding.window.recommended.0));
    assert_eq!(found.usual_low, Some(30.0));
    let expected = Subject::WindowBelowEmulsionLimit {
        recommended: seeding.window.recommended,
        unmixed: seeding.unmixed.map(|window| window.recommended),
        seeded_by: SeededBy::CocoaButter,
    };
    assert_eq!(found.subject, expected);

    let firm = analysis_of(&recipe(&[("couverture-dark-64", 400.0), ("raspberry-puree", 150.0)]));
    assert!(seeding_of(&firm).window.recommended.0 > 30.0);
    assert!(!codes(&firm).contains(&code));
    let dry = analysis_of(&recipe(&[("praline-hazelnut-60", 300.0), ("cocoa-butter", 120.0)]));
    assert!(seeding_of(&dry).window.recommended.0 < 30.0);
    assert!(!codes(&dry).contains(&code), "there is no emulsion to separate");
}

/// The type of cocoa butter moves the window; the temperature at which the rest is shown does not.
#[test]
fn the_window_follows_the_type_of_cocoa_butter_and_not_the_thermometer() {
    let mut mass = recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]);
    let default = seeding_of(&analysis_of(&mass));
    for celsius in [-40.0, 0.0, 31.7, 45.0, 200.0] {
        assert_eq!(analyse(&mass, Celsius(celsius)).seeding, Some(default));
    }
    mass.cocoa_butter = CocoaButter::Soft;
    let soft = seeding_of(&analysis_of(&mass));
    mass.cocoa_butter = CocoaButter::Hard;
    let hard = seeding_of(&analysis_of(&mass));
    assert!(soft.window.max < default.window.max && default.window.max < hard.window.max);
}
