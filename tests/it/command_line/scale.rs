//! `nibwright scale`: what to weigh today.
//!
//! The figures are worked examples of production arithmetic, by hand.

use std::fmt::Write as _;
use std::path::Path;

use approx::assert_abs_diff_eq;
use nibwright::ingredient::Library;
use nibwright::store::load_recipe;
use serde_json::Value;

use super::{SAMPLE, check_ended, check_refused, file_of, run};

const FRUIT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-recipes/milk-ganache-passion-fruit.ron");
const CARAMEL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-recipes/caramel-with-salted-butter.ron");

/// Dark chocolate, cream, invert sugar, glucose syrup, butter, salt and vanilla (here sorbitol), in percent.
const GANACHE: [(&str, f64); 7] = [
    ("couverture-dark-64", 44.8),
    ("cream-35", 33.3),
    ("invert-syrup", 6.1),
    ("glucose-syrup-de40", 5.4),
    ("butter-82", 8.2),
    ("salt", 0.3),
    ("sorbitol-powder", 1.9),
];

/// What a run prints as JSON; it has to succeed.
fn list(arguments: &[&str]) -> Value {
    let run = run(&[&["scale", "--format", "json"], arguments].concat(), &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""), "{arguments:?}");
    serde_json::from_str(&run.output).expect("JSON")
}

fn ganache(folder: &Path) -> String {
    let mut table = String::new();
    for (id, percent) in GANACHE {
        writeln!(table, "{id},{percent}").expect("a line");
    }
    file_of(folder, "cut.csv", &table).display().to_string()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is a number"))
}

fn weighed(lines: &Value) -> Vec<f64> {
    lines.as_array().expect("a list").iter().map(|line| number(&line["weighed_g"])).collect()
}

/// A scale of 5 g weighs 1440 g in the place of 1442 g; the finished mass is told by what is weighed.
#[test]
fn the_finished_mass_is_that_of_the_weighed_amounts() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = ganache(folder.path());
    let told = |mass: &str| {
        let run = run(&["scale", &file, "--mass", mass, "--step", "5 g"], &[]);
        assert_eq!(run.code, Some(0), "{}", run.errors);
        let line = run.output.lines().find(|line| line.trim_start().starts_with("finished mass")).expect("a line");
        line.split_whitespace().skip(2).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(told("1442 g"), "1440 g; 1442 g were asked for");
    assert_eq!(told("1440 g"), "1440 g");
}

#[test]
fn a_ganache_is_scaled_and_rounded() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = ganache(folder.path());
    let recipe = &list(&[&file, "--mass", "1445 g"])["recipes"][0];
    assert_eq!(weighed(&recipe["bowls"][0]["lines"]), [647.0, 481.0, 88.0, 78.0, 119.0, 4.0, 28.0]);
    assert_abs_diff_eq!(number(&recipe["factor"]), 14.45, epsilon = 1e-9);
    assert_abs_diff_eq!(number(&recipe["bowls"][0]["lines"][4]["error_points"]), 0.0353, epsilon = 5e-5);
    let notes = recipe["notes"].as_array().expect("a list");
    assert_eq!(notes.len(), 1, "{notes:?}");
    assert_eq!(notes[0]["code"], "scale_too_coarse");
    let text = notes[0]["text"].as_str().expect("a text");
    assert!(text.contains("Salt: 4.34 g on a scale that shows 1 g: 4 g are 7.7 % less than meant"), "{text}");
    // The same in pounds; a step that does not divide the total.
    let recipe = &list(&[&file, "--mass", "745", "--step", "2"])["recipes"][0];
    assert_eq!(weighed(&recipe["lines"]), [334.0, 248.0, 46.0, 40.0, 60.0, 2.0, 14.0]);
    assert_eq!((number(&recipe["weighed_g"]), number(&recipe["requested_g"]).round()), (744.0, 745.0));
    let recipe = &list(&[&file, "--mass", "2.5 lb", "--fine-step", "0.01"])["recipes"][0];
    assert_abs_diff_eq!(number(&recipe["requested_g"]), 1_133.980_925, epsilon = 1e-9);
    assert_eq!(number(&recipe["lines"][5]["weighed_g"]), 3.4);
}

#[test]
fn moulds_frames_and_deposits_are_counted() {
    let mould =
        ["--pieces", "168", "--cavity", "10.2", "--shell", "35 %", "--shell-density", "1.3", "--density", "1.22"];
    let fruit = &list(&[&[FRUIT, "--loss", "4"][..], &mould].concat())["recipes"][0];
    assert_abs_diff_eq!(number(&fruit["finished_g"]), 1446.664, epsilon = 5e-4);
    assert_abs_diff_eq!(number(&fruit["output_g"]), 1388.797, epsilon = 5e-4);
    assert_abs_diff_eq!(number(&fruit["made"]["shells_g"]), 747.814, epsilon = 5e-4);
    assert_abs_diff_eq!(number(&fruit["made"]["piece_g"]), 12.717_925, epsilon = 5e-7);
    assert_eq!((&fruit["made"]["pieces"], &fruit["made"]["has_enough_chocolate"]), (&168.into(), &true.into()));
    // The recipe's own losses are in the batch: 5 g of water to 610 g, and 3 % in the bowls.
    assert!(number(&fruit["requested_g"]) > 1446.664 / 0.97);

    let frame = ["--frames", "1", "--frame", "340x340x10", "--trim", "5", "--cut", "22.5", "--density", "1.25 g/ml"];
    let cut = &list(&[&[SAMPLE][..], &frame].concat())["recipes"][0]["made"];
    assert_eq!((&cut["pieces"], &cut["frames"], &cut["pieces_along"]), (&196.into(), &1.into(), &14.into()));
    assert_abs_diff_eq!(number(&cut["cutting_loss_percent"]), 14.1652, epsilon = 5e-5);
    assert_abs_diff_eq!(number(&cut["frame_g"]), 1445.0, epsilon = 1e-9);

    let coated = &list(&[&[SAMPLE][..], &frame, &["--shell", "24"]].concat())["recipes"][0];
    assert_abs_diff_eq!(number(&coated["made"]["filling_g"]), 6.328_125, epsilon = 1e-9);
    assert_abs_diff_eq!(number(&coated["made"]["piece_g"]), 6.328_125 / 0.76, epsilon = 1e-9);
    assert_eq!(coated["made"]["has_enough_chocolate"], false);
    assert_eq!(coated["notes"].as_array().expect("a list").last().expect("a note")["code"], "too_little_chocolate");

    let deposits = &list(&[SAMPLE, "--mass", "3088", "--loss", "3.5", "--piece", "7.4 g"])["recipes"][0];
    assert_abs_diff_eq!(number(&deposits["finished_g"]), 3200.0, epsilon = 1e-9);
    assert_eq!(deposits["made"]["pieces"], 417);
}

#[test]
fn an_ingredient_at_hand_and_bowls_and_the_seed_of_the_day() {
    let day = list(&[FRUIT, CARAMEL, SAMPLE, "--mass", "3 kg", "--bowl", "1 kg", "--ready", "20 g"]);
    let recipes = day["recipes"].as_array().expect("a list");
    assert_eq!(recipes.len(), 3);
    let mut needed = 0.0;
    for recipe in recipes {
        assert_abs_diff_eq!(number(&recipe["output_g"]), 3000.0, epsilon = 1e-6);
        let bowls = recipe["bowls"].as_array().expect("a list");
        let all = |key: &str| bowls.iter().map(|bowl| number(&bowl["count"]) * number(&bowl[key])).sum::<f64>();
        assert_eq!(all("weighed_g"), number(&recipe["weighed_g"]));
        assert!(bowls.iter().all(|bowl| number(&bowl["weighed_g"]) <= 1000.0));
        if recipe["seed"].is_null() {
            assert!(bowls.iter().all(|bowl| bowl["seed_g"].is_null()));
        } else {
            assert_abs_diff_eq!(all("seed_g"), number(&recipe["seed"]["seed_g"]), epsilon = 1e-9);
            // As it is weighed: that much leaves the jar.
            needed += all("seed_weighed_g");
        }
    }
    assert!(recipes[1]["seed"].is_null(), "a caramel is not seeded");
    let cream = &day["seed_of_the_day"][0];
    assert_eq!((&cream["way"], &cream["recipes"]), (&"cream".into(), &2.into()));
    assert_abs_diff_eq!(number(&cream["needed_g"]), needed, epsilon = 1e-9);
    assert_abs_diff_eq!(number(&cream["missing_g"]), needed - 20.0, epsilon = 1e-9);

    let puree = &list(&[FRUIT, "--have", "1300 g", "--of", "passion fruit"])["recipes"][0];
    assert_eq!(number(&puree["lines"][0]["weighed_g"]), 1300.0);
}

#[test]
fn the_list_can_be_worked_from() {
    let run = run(&["scale", SAMPLE, "--mass", "2000 g", "--bowl", "900 g", "--fine-step", "0.1"], &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
    for words in [
        "Dark cut ganache\nganache for cutting\n",
        "Weigh for bowl 1 of 3\n",
        "Weigh for each of the bowls 2 to 3 of 3\n",
        "In all 3 bowls together\n",
        "and the seed, last",
        "of Cocoa butter, seed cream",
    ] {
        assert!(run.output.contains(words), "{words}: {}", run.output);
    }
}

#[test]
fn the_scaled_recipe_is_written_and_no_other_file_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let new = folder.path().join("today.ron");
    let new_text = new.display().to_string();
    let arguments = ["scale", FRUIT, "--mass", "2 kg", "-o", &new_text];
    let written = run(&arguments, &[]);
    assert_eq!((written.code, written.errors.as_str()), (Some(0), ""));
    let recipe = load_recipe(&new, Library::built_in()).expect("it opens");
    let listed = &list(&[FRUIT, "--mass", "2 kg"])["recipes"][0];
    let grams: Vec<f64> = recipe.lines.iter().map(|line| line.amount.grams().0).collect();
    assert_eq!(grams, weighed(&listed["lines"]));
    let before = std::fs::read(&new).expect("it is there");
    check_refused(&arguments, &[], "there is such a file; take another name, or add --replace");
    assert_eq!(std::fs::read(&new).expect("it is there"), before);
    let replaced = run(&["scale", FRUIT, "--mass", "3 kg", "-o", &new_text, "--replace"], &[]);
    assert_eq!(replaced.code, Some(0), "{}", replaced.errors);
    assert_ne!(std::fs::read(&new).expect("it is there"), before);
    check_refused(&["scale", FRUIT, SAMPLE, "-o", &new_text], &[], "--output takes one recipe");
    let other = folder.path().join("today.csv").display().to_string();
    check_refused(&["scale", FRUIT, "-o", &other], &[], "a recipe file ends with .ron");
    // What cannot be done writes nothing.
    let none = folder.path().join("none.ron").display().to_string();
    check_ended(3, &["scale", SAMPLE, "--pieces", "10", "-o", &none], &[], "how many pieces");
    assert!(!Path::new(&none).exists());
}

#[test]
fn what_cannot_be_done_ends_with_3_and_a_reason() {
    let check = |arguments: &[&str], words: &str| check_ended(3, &[&["scale"], arguments].concat(), &[], words);
    check(&[SAMPLE, "--have", "1 kg", "--of", "saffron"], "dark-cut-ganache.ron: \"saffron\" is not in the recipe");
    check(&[SAMPLE, "--have", "1 kg", "--of", "syrup"], "can mean");
    check(&[SAMPLE, "--bowl", "0.5 g"], "has no room for one step of the scale");
    check(&[SAMPLE, "--step", "5 kg"], "less than one step of the scale");
    check(&[SAMPLE, "--mass", "5 g"], "would be left out");
    check(&[SAMPLE, "--step-of", "saffron=1 g"], "\"saffron\" is no line of the recipe");
    // Cream stands in two lines of it.
    let twice = &list(&[super::WHITE, "--mass", "2 kg", "--step-of", "cream-35=10 g"])["recipes"][0];
    let steps = twice["lines"].as_array().expect("lines").iter().filter(|line| line["ingredient"] == "cream-35");
    assert_eq!(steps.filter(|line| number(&line["weighed_g"]) % 10.0 == 0.0).count(), 2, "{twice}");
    let two = ["scale", super::WHITE, "--step-of", "cream-35=1 g", "--step-of", "cream=2 g"];
    check_refused(&two, &[], "two steps for Cream");
    check(&[SAMPLE, "--frames", "1", "--frame", "20x340x10", "--cut", "22.5"], "gives no whole piece");
    check(&[SAMPLE, "--pieces", "10", "--frame", "340x340x10"], "how the frame is cut");
    check(&[SAMPLE, "--pieces", "10"], "how many pieces it makes");
    check(&[SAMPLE, "--mass", "999 kg", "--loss", "99.99"], "over 1,000 tonnes");
    check(&[CARAMEL, "--ready", "10 g"], "none of the recipes is seeded");
}

#[test]
fn an_argument_that_is_wrong_ends_with_2() {
    check_refused(&["scale", "no-such-file.ron"], &[], "there is no such file");
    check_refused(&["scale", SAMPLE, "--pieces", "9", "--cavity", "10", "--shell", "30"], &[], "--shell-density");
    check_refused(&["scale", SAMPLE, "--fine-step", "1 g"], &[], "not finer than --step");
    check_refused(&["scale", SAMPLE, "--shell", "30"], &[], "give --piece, --cavity or --cut");
    for (arguments, words) in [
        (&[][..], "FILE"),
        (&[SAMPLE, "--mass", "0"], "above 0"),
        (&[SAMPLE, "--mass=-1"], "is negative"),
        (&[SAMPLE, "--mass", "2 cups"], "use g, kg, oz or lb"),
        (&[SAMPLE, "--mass", "2 kg", "--pieces", "3"], "cannot be used with"),
        (&[SAMPLE, "--have", "2 kg"], "--of"),
        (&[SAMPLE, "--of", "cream"], "--have"),
        (&[SAMPLE, "--pieces", "1.5"], "whole number above 0"),
        (&[SAMPLE, "--pieces", "0"], "whole number above 0"),
        (&[SAMPLE, "--loss", "100"], "below 100"),
        (&[SAMPLE, "--shell", "100"], "below 100"),
        (&[SAMPLE, "--frame", "340x340"], "such as 340x340x10"),
        (&[SAMPLE, "--frame", "340x0x10"], "above 0"),
        (&[SAMPLE, "--cut", "22.5"], "--frame"),
        (&[SAMPLE, "--frames", "2"], "--frame"),
        (&[SAMPLE, "--density", "1250"], "at most 3 g/ml"),
        (&[SAMPLE, "--step", "nothing"], "--step"),
        (&[SAMPLE, "--step", "0.00001"], "from 0.0001 g up"),
        (&[SAMPLE, "--replace"], "--output"),
        (&[SAMPLE, "--step-of", "salt"], "such as 'salt=0.1 g'"),
        (&[SAMPLE, "--step-of", "salt=nothing"], "--step-of"),
    ] {
        let run = run(&[&["scale"], arguments].concat(), &[]);
        assert_eq!((run.code, run.output.as_str()), (Some(2), ""), "{arguments:?}: {}", run.errors);
        assert!(run.errors.contains(words), "{words}: {}", run.errors);
    }
}

/// Every sample, as text and for programs: together the bowls hold what the lines weigh, and none is too full.
#[test]
fn every_sample_gives_a_list() {
    let folder = std::fs::read_dir(Path::new(SAMPLE).parent().expect("a folder")).expect("it can be read");
    let mut count = 0;
    for path in folder.map(|entry| entry.expect("an entry").path()) {
        if path.extension().is_none_or(|extension| extension != "ron") {
            continue;
        }
        count += 1;
        let file = path.display().to_string();
        let arguments = [&file, "--mass", "5 kg", "--bowl", "2 kg", "--fine-step", "0.1 g"];
        let text = run(&[&["scale"], &arguments[..]].concat(), &[]);
        assert!(text.code == Some(0) && text.output.contains("Weigh for "), "{file}: {}{}", text.output, text.errors);
        let recipe = &list(&arguments)["recipes"][0];
        let bowls = recipe["bowls"].as_array().expect("a list");
        let together: f64 = bowls.iter().map(|bowl| number(&bowl["count"]) * number(&bowl["weighed_g"])).sum();
        assert_abs_diff_eq!(together, weighed(&recipe["lines"]).iter().sum::<f64>(), epsilon = 1e-6);
        // Two scales: half a step of each may come on top.
        assert!(bowls.iter().all(|bowl| number(&bowl["weighed_g"]) <= 2000.6), "{file}");
        assert_abs_diff_eq!(number(&recipe["output_g"]), 5000.0, epsilon = 1e-6);
    }
    assert!(count >= 8, "only {count} samples");
}

/// Worked example, common production arithmetic, with the chocolate as 100: cream 74.33, butter 18.30, salt 0.67.
#[test]
fn lines_are_told_in_percent_of_a_base() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = ganache(folder.path());
    let found = list(&[&file, "--base", "couverture-dark-64"]);
    for (line, percent) in [(0, 100.0), (1, 74.33), (2, 13.62), (3, 12.05), (4, 18.30), (5, 0.67), (6, 4.24)] {
        let value = found["recipes"][0]["lines"][line]["percent_of_base"].as_f64().expect("a number");
        assert_abs_diff_eq!(value, percent, epsilon = 0.005);
    }
    check_ended(3, &["scale", &file, "--base", "granite"], &[], "\"granite\" is no line of the recipe");
}

/// Worked example: 500 g at 11.20, 300 g at 4.10, 60 g at 2.40 of which 98 % can be used and 40 g at 9.60 cost 7.360939; of
/// 900 g 93 % are left, 8.794431 a kilogram. A centre of 6.328125 g with a quarter of the piece as coat at 11.20, 95 %
/// usable, and 0.155 besides: 0.235521.
#[test]
fn a_batch_a_kilogram_and_a_piece_have_a_cost() {
    let folder = tempfile::tempdir().expect("a folder");
    let lines = "couverture-dark-64,500\ncream-35,300\ninvert-syrup,60\nbutter-82,40\n";
    let recipe = file_of(folder.path(), "w40.csv", &format!("ingredient,grams\n{lines}"));
    let prices = "ingredient,price,currency,per,unit,usable_percent\ncouverture-dark-64,11.20,EUR,1,kg,100\n\
                  cream-35,4.10,EUR,1,kg,100\ninvert-syrup,2.40,EUR,1,kg,98\nbutter-82,9.60,EUR,1,kg,100\n\
                  coat,11.20,EUR,1,kg,95\n";
    let prices = file_of(folder.path(), "prices.csv", prices);
    let path = |path: &Path| path.to_str().expect("a path").to_owned();
    let (recipe, prices) = (path(&recipe), path(&prices));
    let arguments = [
        &recipe,
        "--loss",
        "7",
        "--prices",
        &prices,
        "--piece",
        "8.4375 g",
        "--shell",
        "25",
        "--shell-of",
        "coat",
        "--per-piece",
        "0.035",
        "--per-piece",
        "0.12",
    ];
    let cost = list(&arguments)["recipes"][0]["cost"].clone();
    for (key, value) in [
        ("batch", 7.360939),
        ("per_kg", 8.794431),
        ("piece_filling", 0.055652),
        ("piece_shell", 0.024868),
        ("per_piece", 0.235521),
    ] {
        assert_abs_diff_eq!(cost[key].as_f64().expect(key), value, epsilon = 1e-6);
    }
    let text = run(&[&["scale"], &arguments[..]].concat(), &[]).output;
    assert!(
        text.contains("a piece") && text.contains("0.236 EUR: filling 0.056, shell 0.025, besides 0.155"),
        "{text}"
    );
}

/// A ganache with salt and rum that have no price.
const SALTED: &str =
    "ingredient;grams\ncouverture-dark-64;400\ncream-35;210\nbutter-82;40\nsalt;4\nrum-40;12\ninvert-syrup;50\n";

/// By hand: 0.4 kg at 11.20, 0.21 at 4.10, 0.04 at 9.60 and 0.05 at 3.00 are 5.875; over 716 g a kilogram is 8.2053 at least.
#[test]
fn lines_without_a_price_are_named_and_the_rest_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = file_of(folder.path(), "salted.csv", SALTED).display().to_string();
    let prices = "ingredient;price;currency;amount;unit\ncouverture-dark-64;11.20;EUR;1;kg\ncream-35;4.10;EUR;1;kg\n\
                  butter-82;9.60;EUR;1;kg\ninvert-syrup;3;EUR;1;kg\n";
    let prices = file_of(folder.path(), "prices.csv", prices).display().to_string();
    let arguments = [&recipe[..], "--kind", "ganache", "--piece", "10 g", "--prices", &prices];
    let text = run(&[&["scale"], &arguments[..]].concat(), &[]).output;
    for words in [
        "the batch                  at least 5.88 EUR",
        "at least 8.21 EUR",
        "a piece                    at least 0.082 EUR",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert!(text.contains("no price                   salt, rum\n"), "{text}");
    let cost = &list(&arguments)["recipes"][0]["cost"];
    assert!(cost["batch"].is_null() && cost["per_kg"].is_null() && cost["per_piece"].is_null(), "{cost}");
    assert_abs_diff_eq!(number(&cost["per_kg_at_least"]), 5.875 / 0.716, epsilon = 1e-9);
    assert_abs_diff_eq!(number(&cost["per_piece_at_least"]), 0.05875 / 0.716, epsilon = 1e-9);
    assert_eq!(cost["without_price"], serde_json::json!(["salt", "rum-40"]));
}

/// By hand: 171 pieces of 8.3 g are 1419.3 g. Of 1420 g, 1412.1 are for the scale of 5 g, which weighs 1410, and 1417.9 would be
/// too little; of 1425 g it weighs 1415, with 8.0 of salt 1423 g.
#[test]
fn pieces_come_out_as_many_and_rounding_says_what_it_moves() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = file_of(folder.path(), "salted.csv", SALTED).display().to_string();
    let pieces = [&recipe[..], "--pieces", "171", "--piece", "8.3 g", "--step", "5 g", "--step-of", "salt=0.1 g"];
    let found = &list(&pieces)["recipes"][0];
    assert_eq!(number(&found["weighed_g"]), 1423.0);
    assert_eq!(found["made"]["pieces"], 171);
    let salt = &found["bowls"][0]["lines"][3];
    assert_eq!((number(&salt["step_g"]), number(&salt["weighed_g"])), (0.1, 8.0));
    // What is weighed in, by the figures of the lines: the report of the recipe as it is written says the same.
    let new = folder.path().join("new.ron").display().to_string();
    assert_eq!(run(&[&["scale"], &pieces[..], &["-o", &new]].concat(), &[]).code, Some(0));
    let water = |file: &str| {
        let report = run(&["report", file, "--format", "json"], &[]).output;
        let report: serde_json::Value = serde_json::from_str(&report).expect("JSON");
        number(&report["groups"]["water"])
    };
    let moved = water(&new) - water(&recipe);
    assert_abs_diff_eq!(number(&found["rounding_points"]["water"]), moved, epsilon = 1e-9);
    assert!(moved.abs() > 0.005);
    let text = run(&[&["scale"], &pieces[..]].concat(), &[]).output;
    assert!(text.contains("rounding moves             water ") && text.contains(" points\n"), "{text}");
}

/// 5 g of salt are right on a scale that shows whole grams, and the scale cannot tell them from 5.4 g.
#[test]
fn a_note_says_how_far_a_scale_can_be_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = "ingredient;grams\ncouverture-dark-64;400\ncream-35;200\nsalt;5\n";
    let recipe = file_of(folder.path(), "salted.csv", table).display().to_string();
    let text = run(&["scale", &recipe], &[]).output.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains("Salt: 5 g on a scale that shows 1 g can be off by 10 %; weigh it on a finer scale"),
        "{text}"
    );
    let caramel = run(&["scale", CARAMEL], &[]).output;
    assert!(caramel.contains("once heated it weighs 740 g; what is missing is water"), "{caramel}");
}

/// Every recipe of the day has its own mass, the seed is for all of them, and a scale of its own is for those that have it.
#[test]
fn every_recipe_of_the_day_has_its_own_mass() {
    let also = format!("{FRUIT}=3 kg");
    let step = ["--step-of", "passion=10 g"];
    let day =
        list(&[&[SAMPLE, "--mass", "2 kg", "--also", &also, "--also", CARAMEL, "--ready", "20 g"][..], &step].concat());
    let recipes = day["recipes"].as_array().expect("a list");
    let gives: Vec<f64> = recipes.iter().map(|recipe| number(&recipe["output_g"]).round()).collect();
    assert_eq!(gives[..2], [2000.0, 3000.0]);
    assert_eq!(gives[2], 2000.0, "without its own, what is asked of all");
    assert_eq!(number(&recipes[1]["bowls"][0]["lines"][0]["step_g"]), 10.0);
    let alone = |arguments: &[&str]| number(&list(arguments)["seed_of_the_day"][0]["needed_g"]);
    let each = alone(&[SAMPLE, "--mass", "2 kg", "--ready", "0"]) + alone(&[FRUIT, "--mass", "3 kg", "--ready", "0"]);
    assert_abs_diff_eq!(number(&day["seed_of_the_day"][0]["needed_g"]), each, epsilon = 1e-6);
    check_refused(&["scale", SAMPLE, "--also", &format!("{FRUIT}=much")], &[], "--also");
    check_refused(&["scale", SAMPLE, "--also", FRUIT, "-o", "new.ron"], &[], "--output takes one recipe");
}
