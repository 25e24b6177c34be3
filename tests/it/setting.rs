//! Setting and storage: the figures of the reports, held against a sum by hand, and what is said where something does not
//! fit.

use nibwright::analysis::cooling::growth::{System, growth_time};
use nibwright::analysis::finding::Level;
use nibwright::analysis::setting::setting;
use nibwright::analysis::texture::crystals_in_room;
use nibwright::analysis::{ROOM, analyse};
use nibwright::ingredient::Library;
use nibwright::number::DecimalSign;
use nibwright::recipe::{
    Air, Base, Humidity, Kind, Piece, PlaceTemperature, Recipe, Setting, Shell, Size, Storage, Use,
};
use nibwright::report::{json, text, words};
use nibwright::store::format;
use nibwright::units::{Celsius, Grams};
use serde_json::Value;

use crate::support::{analysis_of, built_in, codes, finding, grams, made_for, recipe};

const DARK: &[(&str, f64)] = &[("couverture-dark-64", 1000.0)];

fn at(celsius: f64) -> PlaceTemperature {
    PlaceTemperature::new(Celsius(celsius)).expect("a temperature")
}

fn mm(length: f64) -> Size {
    Size::from_millimetres(length).expect("a length")
}

/// A slab of 10 mm on a board, in still air.
fn in_frame(mut recipe: Recipe, around: f64) -> Recipe {
    let piece = Piece::Frame { thickness: mm(10.0), base: Base::Board };
    recipe.setting = Some(Setting { piece, start: None, surroundings: at(around), air: Air::Still });
    recipe
}

fn thick(mut recipe: Recipe, millimetres: f64) -> Recipe {
    let piece = Piece::Frame { thickness: mm(millimetres), base: Base::Board };
    recipe.setting = recipe.setting.map(|setting| Setting { piece, ..setting });
    recipe
}

fn beginning_at(mut recipe: Recipe, start: f64) -> Recipe {
    recipe.setting = recipe.setting.map(|setting| Setting { start: Some(at(start)), ..setting });
    recipe
}

fn stored(mut recipe: Recipe, store: f64, room: f64, humidity: f64, shell: Option<&str>) -> Recipe {
    recipe.storage = Storage {
        at: at(store),
        room: at(room),
        humidity: Humidity::from_percent(humidity).expect("a humidity"),
        shell: shell.map(|id| Shell { chocolate: built_in(id), thickness: mm(2.0) }),
    };
    recipe
}

fn sample(name: &str) -> Recipe {
    let path = format!("{}/sample-recipes/{name}.ron", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("it is there");
    format::read(&text, Library::built_in()).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn json_of(recipe: &Recipe) -> Value {
    let text = json::report(recipe, &analysis_of(recipe)).expect("it can be written");
    serde_json::from_str(&text).expect("it is JSON")
}

fn text_of(recipe: &Recipe) -> String {
    text::report(recipe, &analysis_of(recipe), DecimalSign::Point)
}

fn minutes(report: &Value, key: &str) -> f64 {
    report["setting"][key].as_f64().unwrap_or_else(|| panic!("{key}: {}", report["setting"]))
}

/// Under one another as words, whatever the width of the lines.
fn has(report: &str, words: &str) -> bool {
    let joined: Vec<&str> = report.split_whitespace().collect();
    joined.join(" ").contains(words)
}

/// By hand, for the cut ganache of the samples (0.685 kg; form V limit 29.75 °C by the fat model, 1.1 % of crystals in 0.384
/// of fat). Growth: t_x = 180 · (0.005556/c)^0.4 · 10/(29.75 − 17) with c = 0.0109·0.2/(0.384 + 0.0109) = 0.0056, 141 min.
/// Cooling: one slab of 10 mm, above 8, below 1/(1/8 + 0.1) = 4.4 W/(m²·K), inner resistance 0.01/(3·0.31) split: about 12
/// W/(m²·K) in all; ρ·c = 1150·2600 J/(m³·K): τ_c = 0.01·1150·2600/12 s, 41 min. Together t_set = τ_c + t_x = 182 min; the
/// course, in which crystals grow while it cools and their heat has to leave, may differ by the band.
#[test]
fn the_time_of_the_cut_ganache_is_that_of_the_short_formula() {
    let report = json_of(&sample("dark-cut-ganache"));
    let growth = minutes(&report, "growth_minutes");
    assert!((growth - 141.0).abs() < 2.0, "{growth}");
    let short = 41.0 + 141.0;
    let (low, likely, high) =
        (minutes(&report, "low_minutes"), minutes(&report, "minutes"), minutes(&report, "high_minutes"));
    assert!(low < short && short < high, "{low} {high}");
    assert!((likely / low - 2.0).abs() < 1e-9 && (high / likely - 2.0).abs() < 1e-9);
    assert!(likely > growth && minutes(&report, "cooled_minutes") > 41.0, "{report}");
    assert_eq!(report["setting"]["system"], "ganache");
    assert_eq!(
        (&report["setting"]["unseeded_low_minutes"], &report["setting"]["why_not"]),
        (&720.0.into(), &Value::Null)
    );
}

/// The growth time stands in the report as the formula gives it.
#[test]
fn the_growth_time_is_that_of_the_formula() {
    let mass = in_frame(made_for(recipe(DARK), Kind::Chocolate, Use::Bar), 15.0);
    let analysis = analysis_of(&mass);
    let (fat, seeding) = (analysis.fat.as_ref().expect("there is fat"), analysis.seeding.expect("it is seeded"));
    let limit = fat.limits.form_v.expect("a limit");
    let expected = growth_time(System::Chocolate, seeding.crystals, limit, Celsius(15.0)).expect("in range").0;
    let report = json_of(&mass);
    assert!((minutes(&report, "growth_minutes") - expected).abs() < 1e-9);
    assert_eq!(report["setting"]["unseeded_low_minutes"], Value::Null, "chocolate");
}

#[test]
fn without_a_setting_nothing_is_told_but_the_time_at_the_bench() {
    let report = json_of(&recipe(DARK));
    assert_eq!(report["setting"], Value::Null);
    // At 20 °C a seeded chocolate thickens, in whatever form.
    assert_eq!(report["bench"]["celsius"], 20.0);
    assert!(report["bench"]["low_minutes"].as_f64() < report["bench"]["workable_minutes"].as_f64(), "{report}");
    let empty = json_of(&Recipe::default());
    assert!(empty["setting"].is_null() && empty["texture"]["solid_fat"].is_null());
    assert!(empty["bench"]["workable_minutes"].is_null());
    assert_eq!(empty["texture"]["gets_wet"], false);
}

#[test]
fn what_begins_too_cold_and_what_is_too_thick_is_told() {
    let cut = |start: Option<f64>, thickness| {
        let lines = [("couverture-dark-64", 400.0), ("cream-35", 200.0)];
        let mass = thick(in_frame(made_for(recipe(&lines), Kind::Ganache, Use::Cut), 15.0), thickness);
        analysis_of(&match start {
            Some(start) => beginning_at(mass, start),
            None => mass,
        })
    };
    let window = cut(None, 10.0).seeding.expect("it is seeded").window;
    for analysis in [cut(None, 10.0), cut(Some(window.min.0), 10.0)] {
        let codes = codes(&analysis);
        assert!(!codes.iter().any(|code| ["setting.start_too_cold", "setting.too_thick"].contains(code)), "{codes:?}");
    }
    let cool = cut(Some(window.min.0 - 0.5), 10.0);
    assert_eq!(finding(&cool, "setting.start_too_cold").level, Level::Note);
    let cold = cut(Some(18.0), 10.0);
    let found = finding(&cold, "setting.start_too_cold");
    assert_eq!(found.level, Level::Caution);
    let detail = words::finding(found, DecimalSign::Point).detail;
    assert!(detail.contains("wrong form") && detail.contains("Warm it over"), "{detail}");
    let slab = cut(None, 200.0);
    let found = finding(&slab, "setting.too_thick");
    assert!(found.value < found.usual_low, "{found:?}");
    // The reading says the same.
    let bar = in_frame(made_for(recipe(DARK), Kind::Chocolate, Use::ThickBar), 15.0);
    let mass = thick(bar.clone(), 40.0);
    assert!(codes(&analysis_of(&mass)).contains(&"setting.too_thick"));
    assert_eq!(json_of(&mass)["setting"]["is_too_thick"], true);
    assert!(!codes(&analysis_of(&thick(bar, 2.0))).contains(&"setting.too_thick"));
}

/// Hazelnut paste and sugar with little cocoa butter: too soft for a moulded filling, and what is said to mend it does.
#[test]
fn a_filling_with_few_crystals_says_how_much_cocoa_butter_it_takes() {
    let filling = |cocoa_butter: f64| {
        let lines = [("hazelnut-paste", 500.0), ("sucrose", 400.0), ("cocoa-butter", cocoa_butter)];
        analysis_of(&made_for(recipe(&lines), Kind::Praline, Use::Moulded))
    };
    let (low, high) = ("texture.crystals_percent_of_mass.low", "texture.crystals_percent_of_mass.high");
    let soft = filling(120.0);
    let found = finding(&soft, low);
    let detail = words::finding(found, DecimalSign::Point).detail;
    let grams = detail.split(" g more cocoa butter").next().and_then(|words| words.split(' ').next_back());
    let more: f64 = grams.expect("grams").parse().expect("a number");
    assert!(found.value < Some(6.0), "{:?}", found.value);
    // The grams are shown rounded.
    let mended = crystals_in_room(filling(120.0 + more).fat.as_ref().expect("fat"), Grams(1020.0 + more));
    assert!((mended.expect("a figure").to_percent() - 6.0).abs() < 0.05, "{detail}");
    assert!(!codes(&filling(200.0)).contains(&low));
    assert!(codes(&filling(400.0)).contains(&high));
}

/// Words, JSON and text give the same reason where no time at the bench is told, and no nought of minutes.
#[test]
fn where_no_time_at_the_bench_is_told_the_reason_is() {
    use nibwright::recipe::SeedingWay;
    let by = |way, kind| {
        let mut mass = made_for(recipe(DARK), kind, Use::Bar);
        mass.seeding.way = way;
        mass
    };
    for (mass, why) in [
        (
            by(SeedingWay::ChoppedChocolate, Kind::Chocolate),
            "how many crystals have come off the pieces is not known; a test strip tells",
        ),
        (
            by(SeedingWay::KeepTempered, Kind::Chocolate),
            "76 % of its fat in crystals: warm it by tenths towards 33.5 °C",
        ),
        (by(SeedingWay::Cream, Kind::Caramel), "a caramel thickens by its sugar as it cools"),
    ] {
        let report = json_of(&mass);
        assert!(report["bench"]["workable_minutes"].is_null() && report["bench"]["low_minutes"].is_null(), "{report}");
        assert!(report["bench"]["why_not"].as_str().is_some_and(|words| words.contains(why)), "{report}");
        let text = text_of(&mass);
        assert!(has(&text, why), "{why} in\n{text}");
        assert!(!has(&text, "thickens at once") && !has(&text, "workable for"), "{text}");
    }
    // 900 g of seed in 600 g of mass.
    let mut much = made_for(recipe(&[("couverture-dark-64", 600.0)]), Kind::Chocolate, Use::Bar);
    much.seeding.amount = Some(grams(900.0));
    assert!(has(&text_of(&much), "too thick to work from the beginning"));
    assert!(json_of(&recipe(DARK))["bench"]["why_not"].is_null());
}

/// A recipe of another size and with its lines in another order is the same mass.
#[test]
fn scaling_and_the_order_of_lines_leave_the_minutes() {
    let lines = [("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 40.0)];
    let time = |lines: &[(&str, f64)]| {
        let mass = in_frame(made_for(recipe(lines), Kind::Ganache, Use::Cut), 17.0);
        minutes(&json_of(&mass), "minutes")
    };
    let one = time(&lines);
    let larger = lines.map(|(id, grams)| (id, grams * 7.0));
    let mut turned = lines;
    turned.reverse();
    for other in [time(&larger), time(&turned)] {
        assert!((other / one - 1.0).abs() < 1e-6, "{one} {other}");
    }
}

/// 3 K below the form V limit it hardly sets, 25 K below other forms grow: the figures of the formula.
#[test]
fn surroundings_that_do_not_fit_are_named_with_the_edge() {
    for (around, code) in [(32.0, "setting.surroundings_too_warm"), (5.0, "setting.surroundings_too_cold")] {
        let mass = in_frame(recipe(DARK), around);
        let analysis = analysis_of(&mass);
        let limit = analysis.fat.as_ref().expect("there is fat").limits.form_v.expect("a limit").0;
        let found = finding(&analysis, code);
        assert_eq!((found.level, found.value), (Level::Caution, Some(around)));
        let (edge, distance) = if around > 20.0 { (found.usual_high, 3.0) } else { (found.usual_low, 25.0) };
        assert!((edge.expect("an edge") - (limit - distance)).abs() < 0.06, "{edge:?}");
        let report = json_of(&mass);
        assert!(report["setting"]["minutes"].is_null());
        let why = report["setting"]["why_not"].as_str().expect("a reason");
        assert!(why.starts_with("At ") && has(&text_of(&mass), "not told: at "), "{why}");
    }
    let analysis = analysis_of(&in_frame(recipe(DARK), 16.0));
    assert!(!codes(&analysis).iter().any(|code| code.starts_with("setting.")));
}

#[test]
fn a_start_above_the_limit_is_named_where_seed_melts() {
    let start = |start| codes(&analysis_of(&beginning_at(in_frame(recipe(DARK), 16.0), start)));
    assert!(start(34.0).contains(&"setting.start_too_warm"));
    assert!(!start(33.0).contains(&"setting.start_too_warm"));
    // While globules are whole, the limit of the chocolate counts: its window ends at 32.0 °C.
    let ganache = |start| {
        let mass = in_frame(sample("dark-cut-ganache"), 17.0);
        codes(&analysis_of(&beginning_at(mass, start)))
    };
    assert!(ganache(33.0).contains(&"setting.start_too_warm") && !ganache(31.0).contains(&"setting.start_too_warm"));
    // What is not to be seeded has no crystals to melt.
    let butter = beginning_at(in_frame(recipe(&[("butter-82", 100.0)]), 16.0), 45.0);
    assert!(!codes(&analysis_of(&butter)).contains(&"setting.start_too_warm"));
}

/// The dew point of 25 °C and 70 % is 19.1 °C (psychrometric tables, from memory).
#[test]
fn a_store_is_judged_where_the_recipe_says_one() {
    let of = |store, room, humidity| codes(&analysis_of(&stored(recipe(DARK), store, room, humidity, None)));
    let about_storage =
        |codes: Vec<&'static str>| codes.into_iter().filter(|code| code.starts_with("storage.")).count();
    assert_eq!(about_storage(codes(&analysis_of(&recipe(DARK)))), 0);
    assert_eq!(about_storage(of(16.0, 20.0, 50.0)), 0);
    assert!(of(22.0, 22.0, 50.0).contains(&"storage.too_warm"));
    assert!(of(18.0, 36.0, 20.0).contains(&"storage.room_too_warm"), "over every form V limit");
    assert!(!of(18.0, 24.0, 20.0).contains(&"storage.room_too_warm"));
    assert!(of(19.0, 25.0, 70.0).contains(&"storage.gets_wet") && !of(19.2, 25.0, 70.0).contains(&"storage.gets_wet"));
    let wet = stored(recipe(DARK), 6.0, 25.0, 70.0, None);
    let report = json_of(&wet);
    assert!(report["texture"]["gets_wet"] == true);
    assert!((report["texture"]["dew_point_c"].as_f64().expect("a figure") - 19.1).abs() < 0.1);
    assert!(has(&text_of(&wet), "let them warm up closed"));
}

/// What melts in the store is more than a note, be it the mass or only the shell around it.
#[test]
fn a_store_that_melts_the_pieces_is_a_caution() {
    let of = |mass: &Recipe, store, shell| {
        let analysis = analysis_of(&stored(mass.clone(), store, store, 50.0, shell));
        let found = finding(&analysis, "storage.too_warm");
        (found.level, words::finding(found, DecimalSign::Point).title)
    };
    let dark = recipe(DARK);
    assert_eq!(of(&dark, 30.0, None).0, Level::Note);
    let (level, title) = of(&dark, 35.0, None);
    assert!(
        level == Level::Caution && title == "Stored at 35.0 °C it melts: form V limit 33.7 °C",
        "{level:?} {title}"
    );
    let paste = recipe(&[("hazelnut-paste", 500.0)]);
    assert_eq!(of(&paste, 30.0, Some("couverture-dark-64")).0, Level::Note);
    let (level, title) = of(&paste, 35.0, Some("couverture-dark-64"));
    assert!(level == Level::Caution && title.starts_with("Stored at 35.0 °C its shell melts"), "{level:?} {title}");
}

/// Derived from usual recipes with the fat model: a praline is some 80 % liquid at 20 °C, its shell of plain chocolate 23 %.
#[test]
fn oil_moves_from_a_praline_into_its_shell() {
    let praline = [("hazelnut-paste", 500.0), ("couverture-milk-36", 300.0), ("cocoa-butter", 40.0)];
    let filling = made_for(recipe(&praline), Kind::Praline, Use::Moulded);
    let mass = stored(filling.clone(), 20.0, 22.0, 50.0, Some("couverture-dark-64"));
    let found = finding(&analysis_of(&mass), "storage.shell_migration").clone();
    let report = json_of(&mass);
    let migration = &report["texture"]["migration"];
    let of = |key: &str| migration[key].as_f64().unwrap_or_else(|| panic!("{key}: {migration}"));
    assert_eq!(found.value, Some(of("difference_points")));
    assert!((of("liquid_in_filling_percent") - of("liquid_in_shell_percent") - of("difference_points")).abs() < 1e-9);
    assert!(of("difference_points") > 40.0 && (3.0..8.0).contains(&of("shell_softens_points")), "{migration}");
    assert!((of("high_days") / of("half_way_days") - 10.0).abs() < 1e-9);
    assert!(has(&text_of(&mass), "liquid fat in the shell"));
    // A shell of the same mass pulls nothing.
    let same = stored(recipe(DARK), 16.0, 20.0, 50.0, Some("couverture-dark-64"));
    assert!(!codes(&analysis_of(&same)).contains(&"storage.shell_migration"));
    assert!(json_of(&stored(filling, 20.0, 22.0, 50.0, None))["texture"]["migration"].is_null());
}

/// What the JSON report says, the text report says in words.
#[test]
fn the_text_report_says_when_it_is_set_and_how_it_lies() {
    let mass = sample("dark-cut-ganache");
    let report = text_of(&mass);
    let state = setting(&mass, &analyse(&mass, ROOM)).expect("it says how");
    let time = words::duration(state.set.expect("it sets").typical());
    let hours = format!("set, when seeded about {time}");
    for words in [
        "Setting: slab in a frame, 10 mm, on a board, still air at 17.0 °C",
        &hours,
        "12 to 24 h and not reliably in form V",
        "as warm as around it after about",
        "for a day and longer",
        "stays workable for about",
        "usual crystals for cutting, 15 % and more of the mass at 20 °C",
        "stored at 18.0 °C then into a room of 20.0 °C with 60 % humidity",
    ] {
        assert!(has(&report, words), "{words} in\n{report}");
    }
    assert!(has(&text_of(&sample("caramel-with-salted-butter")), "firm by its sugar"));
    assert!(has(&text_of(&recipe(DARK)), "the recipe does not say in which form and where it sets"));
}

/// A caramel is poured far hotter than the 32 °C that are taken where nothing is said.
#[test]
fn of_a_caramel_no_start_is_made_up() {
    let caramel = json_of(&sample("caramel-with-salted-butter"));
    assert!(caramel["setting"]["start_c"].is_null() && caramel["setting"]["cooled_minutes"].is_null());
    let mut said = sample("caramel-with-salted-butter");
    said.setting = said.setting.map(|setting| Setting { start: Some(at(50.0)), ..setting });
    assert_eq!(json_of(&said)["setting"]["start_c"], 50.0);
    assert!(minutes(&json_of(&said), "cooled_minutes") > 60.0);
}

/// More of the mass in the bowl is nothing for a slab, and a line without an amount is none.
#[test]
fn a_line_without_an_amount_changes_nothing() {
    let mass = in_frame(recipe(DARK), 16.0);
    let mut more = mass.clone();
    more.push(built_in("hazelnut-paste"), grams(0.0));
    assert_eq!(json_of(&mass)["setting"], json_of(&more)["setting"]);
}

/// What the table of samples says to try does what it says there.
#[test]
fn what_the_samples_say_to_try_does_so() {
    let time = |recipe: &Recipe| minutes(&json_of(recipe), "minutes");
    let changed = |name: &str, change: &dyn Fn(&mut Recipe)| {
        let before = sample(name);
        let mut after = before.clone();
        change(&mut after);
        assert_ne!(before, after, "{name}");
        (time(&before), after)
    };
    let setting = |recipe: &mut Recipe, change: &dyn Fn(&mut Setting)| {
        change(recipe.setting.as_mut().expect("it says how"));
    };

    let (before, after) = changed("dark-cut-ganache", &|recipe| {
        let cream = recipe.lines.iter_mut().find(|line| line.ingredient.id == "cream-35").expect("there is cream");
        cream.amount = grams(240.0);
    });
    assert!(time(&after) > before, "more cream");

    let (before, after) =
        changed("hazelnut-praline-set", &|recipe| setting(recipe, &|how| how.surroundings = at(20.0)));
    assert!(time(&after) > 1.2 * before, "a warmer room");

    let (before, after) = changed("gianduja-for-cutting", &|recipe| {
        setting(recipe, &|how| how.piece = Piece::Frame { thickness: mm(12.0), base: Base::Rack });
    });
    assert!(time(&after) < before, "a rack");

    let (before, after) = changed("school-bar-66", &|recipe| setting(recipe, &|how| how.air = Air::Still));
    assert!(time(&after) > before, "still air");

    let (before, after) = changed("thin-dark-coat", &|recipe| recipe.intended_use = Some(Use::Bar));
    assert!(time(&after) < before, "more seed");

    let (_, after) = changed("coconut-tart-ganache", &|recipe| setting(recipe, &|how| how.surroundings = at(24.0)));
    assert!(codes(&analysis_of(&after)).contains(&"setting.surroundings_too_warm"));
}
