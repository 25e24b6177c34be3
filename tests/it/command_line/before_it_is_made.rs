//! What a reformulation says of amounts, of seasoning and before it is made.

use std::fs;

use serde_json::Value;

use super::{Run, run};

/// A ganache with salt and rum, weighed in whole grams.
const SALTED: &str =
    "ingredient;grams\ncouverture-dark-64;400\ncream-35;210\nbutter-82;40\nsalt;4\nrum-40;12\ninvert-syrup;50\n";

/// What the program answers about a table, a ganache unless something else is said.
fn of_table(table: &str, arguments: &[&str]) -> Run {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("table.csv");
    fs::write(&file, table).expect("a file");
    let file = file.to_str().expect("a path");
    let kind: &[&str] = if arguments.contains(&"--kind") { &[] } else { &["--kind", "ganache"] };
    run(&[&["reformulate", file, "--use", "cut"], kind, arguments].concat(), &[])
}

fn json(table: &str, arguments: &[&str]) -> Value {
    let run = of_table(table, &[arguments, &["--format", "json"]].concat());
    serde_json::from_str(&run.output).unwrap_or_else(|error| panic!("{error}: {} {}", run.output, run.errors))
}

/// The text on one line, because lines are broken where they are full.
fn text(table: &str, arguments: &[&str]) -> String {
    let run = of_table(table, arguments);
    format!("{}{}", run.output, run.errors).split_whitespace().collect::<Vec<_>>().join(" ")
}

fn after(answer: &Value, id: &str) -> f64 {
    let amounts = answer["amounts"].as_array().expect("a list");
    amounts.iter().find(|amount| amount["id"] == id).and_then(|amount| amount["after_g"].as_f64()).expect(id)
}

#[test]
fn seasoning_rises_only_where_it_is_named() {
    let drier = ["--target", "water activity at most 0.83"];
    let held = json(SALTED, &drier);
    assert_eq!(held["seasoning"], "Seasoning may fall but not rise: salt, rum");
    assert!(after(&held, "salt") <= 4.0 && after(&held, "rum-40") <= 12.0, "{held}");
    let words = text(SALTED, &drier);
    assert!(
        words.contains("Seasoning may fall but not rise: salt, rum; --amount 'salt at most 6 g' lets it rise."),
        "{words}"
    );
    let named = [&drier[..], &["--amount", "salt at most 6 g", "--lock", "rum"]].concat();
    let free = json(SALTED, &named);
    assert!(free["seasoning"].is_null());
    assert!(after(&free, "salt") > 4.0, "salt is the cheapest way: {free}");
    // Allowed, it is the line that may rise, not a second one.
    let allowed = json(SALTED, &[&drier[..], &["--allow", "salt=5 g"]].concat());
    assert!((4.0..=5.0).contains(&after(&allowed, "salt")) && after(&allowed, "salt") > 4.0, "{allowed}");
    assert_eq!(allowed["amounts"].as_array().map(Vec::len), Some(6));
    let words = text(SALTED, &named);
    assert!(words.contains("Seasoning rises: salt 4 g to ") && words.contains("rum stays at 12 g, met"), "{words}");
}

/// 12 g of 716 g bring 0.56 % of alcohol; at most 0.2 % leave about a third of it. A fall of less than a tenth is not told.
#[test]
fn seasoning_that_falls_is_to_be_tasted() {
    let words = text(SALTED, &["--target", "composition.ethanol at most 0.2"]);
    assert!(words.contains("Seasoning falls: rum 12 g to 4.3 g: taste it."), "{words}");
    let words = text(SALTED, &["--target", "composition.ethanol at most 0.54"]);
    assert!(words.contains("rum 12 g 11.6 g") && !words.contains("Seasoning falls"), "{words}");
}

#[test]
fn what_the_report_warns_of_is_said_before_it_is_made() {
    let polyols = ["--target", "composition.polyols at least 12", "--allow", "sorbitol-powder"];
    let words = text(SALTED, &polyols);
    assert!(words.contains("12.0 % polyols: too much of them is a laxative"), "{words}");
    let fewer = ["--target", "composition.polyols at least 9", "--allow", "sorbitol-powder"];
    assert!(!text(SALTED, &fewer).contains("laxative"));
    let spirit = ["--target", "composition.ethanol at least 3", "--allow", "alcohol-96"];
    let dry = SALTED.replace("rum-40;12\n", "");
    let words = text(&dry, &spirit);
    assert!(words.contains("alcohol. For adults;") && words.contains("Its vapour burns when hot."), "{words}");
    // What was in it before is no news.
    assert!(!text(SALTED, &spirit).contains("For adults"));
    let words = text(SALTED, &["--target", "groups.liquid_oil at least 3", "--allow", "hazelnut-paste"]);
    assert!(words.contains("New allergens: Nuts (hazelnuts). Change the label."), "{words}");
    assert!(!words.contains("Allergens are not known"), "{words}");
}

/// The nearest recipe to an impossible wish is a recipe that somebody may make.
#[test]
fn the_nearest_recipe_has_notes_too() {
    let asked = ["--target", "water activity at most 0.5", "--target", "water at least 20"];
    let found = json(SALTED, &asked);
    assert_eq!(found["outcome"], "impossible");
    let notes = found["notes"].as_array().expect("a list");
    assert!(notes.iter().filter_map(Value::as_str).any(|note| note.starts_with("The water activity is computed")));
    assert!(text(SALTED, &asked).contains("Before you make it"));
}

#[test]
fn limits_stand_in_the_list_and_a_contradiction_names_the_wish() {
    let asked =
        ["--target", "total fat at least 33", "--amount", "butter at most 30 g", "--amount", "butter at least 50 g"];
    let words = text(SALTED, &asked);
    for part in [
        "butter would have to be at least 50 g instead of at most 30 g.",
        "butter would have to be at most 30 g instead of at least 50 g.",
        "! butter at most 30 g: 40 g →",
    ] {
        assert!(words.contains(part), "{part}: {words}");
    }
    let limits = json(SALTED, &asked)["limits"].clone();
    let met: Vec<bool> = (0..2).map(|idx| limits[idx]["is_met"].as_bool().expect("a truth")).collect();
    let missed: f64 = (0..2).map(|idx| limits[idx]["missed_by_g"].as_f64().expect("a number")).sum();
    assert!(met.contains(&false) && (missed - 20.0).abs() < 1e-6, "{limits}");
    let packs = ["--target", "water at most 17", "--amount", "couverture in packs of 500 g", "--lock", "cream"];
    let words = text(SALTED, &packs);
    assert!(words.contains("cream would have to be") && words.contains("instead of 210 g"), "{words}");
}

/// A syrup of which the sheet leaves a fifth open, and one of which the water is not known.
#[test]
fn what_nobody_knows_is_said_with_its_share() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("open.ron");
    let recipe = |composition: &str| {
        let ingredient = format!("(id: \"herb\", name: \"Herb syrup\", category: own, {composition})");
        let lines = "(ingredient: \"herb\", amount: 100), (ingredient: \"couverture-dark-64\", amount: 350), \
                     (ingredient: \"cream-35\", amount: 150)";
        format!("(format: 1, name: \"open\", kind: ganache, ingredients: [{ingredient}], lines: [{lines}])")
    };
    let asked = |composition: &str| {
        fs::write(&file, recipe(composition)).expect("a file");
        let file = file.to_str().expect("a path");
        let run = run(&["reformulate", file, "--target", "total fat at least 35"], &[]);
        format!("{}{}", run.output, run.errors).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let words = asked("composition: (sucrose: 50, water: 30, unassigned: 20)");
    assert!(words.contains("% of the mass has no known composition (left open by data sheets)"), "{words}");
    let words = asked("composition: (sucrose: 60, unknown: [\"water\"])");
    assert!(words.contains("Herb syrup: water is not known; it is "), "{words}");
}

/// Liquid oil is 19.9996 %, which is shown as 20.0 and usual from 20 % on: the report says nothing of it, and asked for what is
/// usual, nothing has to move.
#[test]
fn what_is_usual_as_it_is_shown_need_not_move() {
    let table = "ingredient;grams\npistachio-paste;219\npraline-almond-50;252\ncouverture-white-33;281\ncocoa-butter;58\n\
                 milk-fat-anhydrous;30\nsalt;2\n";
    let found = json(table, &["--usual", "--kind", "praline"]);
    assert_eq!(found["outcome"], "unchanged", "{found}");
    let oil = found["targets"].as_array().expect("a list").iter().find(|target| target["of"] == "groups.liquid_oil");
    let oil = oil.expect("it is asked for");
    assert_eq!((&oil["at_least"], &oil["is_met"]), (&19.99.into(), &true.into()));
    assert!(oil["before"]["value"].as_f64().is_some_and(|value| value < 20.0), "{oil}");
}
