//! What `nibwright substitute` understands and what it says of each recipe.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{SAMPLE, check_ended, check_refused, run};

#[test]
fn what_goes_has_to_be_known_and_to_be_there() {
    let exchange = |from: &'static str, files: &[&'static str]| [&["substitute", from, "cream-36"], files].concat();
    check_refused(&exchange("coverture-drk", &[SAMPLE]), &[], "the nearest are Dark couverture, 55 % cocoa");
    check_refused(&exchange("cream-35", &["no-such-folder"]), &[], "no-such-folder: there is no such file or folder");
    let words = "Hazelnut paste, 100 % (hazelnut-paste) is not in the recipe; its ingredients are Dark couverture";
    check_ended(3, &exchange("hazelnut-paste", &[SAMPLE]), &[], words);
    let words = "Hazelnut paste, 100 % (hazelnut-paste) is in none of the 2 recipes; ";
    check_ended(3, &exchange("hazelnut-paste", &[SAMPLE, SAMPLE]), &[], words);
    let folder = tempfile::tempdir().expect("a folder");
    let empty = folder.path().to_str().expect("a path");
    check_refused(&["substitute", "cream-35", "cream-36", empty], &[], "there is no recipe (.ron) in the folder");
}

/// An ingredient of the recipe's own is found by a part of its name; the shelf knows nothing of it.
#[test]
fn what_a_recipe_brings_itself_can_go_and_can_come() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("own.ron");
    let own =
        "(id: \"house-cream\", name: \"Écrémée of the house\", category: own, composition: (milk_fat: 30, water: 70))";
    let lines = "(ingredient: \"house-cream\", amount: 200), (ingredient: \"couverture-dark-64\", amount: 400)";
    fs::write(&file, format!("(format: 1, name: \"own\", kind: ganache, ingredients: [{own}], lines: [{lines}])"))
        .expect("a file");
    let file = file.to_str().expect("a path");
    let found = run(&["substitute", "ÉCRÉMÉE", "cream-35", file, "--hold", "total fat"], &[]);
    assert_eq!(found.code, Some(0), "{}", found.errors);
    assert!(
        found.output.starts_with("Écrémée of the house → Cream, 35 % fat: used in 1 of 1 recipe\n"),
        "{}",
        found.output
    );
    let back = run(&["substitute", "couverture-dark-64", "house", file, "--hold", "water"], &[]);
    assert!(back.output.starts_with("Dark couverture, 64 % cocoa → Écrémée of the house"), "{}", back.output);
}

/// What goes is sought in the recipe first, what comes everywhere: of dark couvertures the shelf has several.
#[test]
fn a_name_for_what_goes_is_that_of_the_recipe() {
    let found = run(&["substitute", "dark couverture", "couverture-dark-70", SAMPLE], &[]);
    assert!(found.output.starts_with("Dark couverture, 64 % cocoa → Dark couverture, 70 % cocoa"), "{}", found.errors);
    check_refused(&["substitute", "cream-35", "dark couverture", SAMPLE], &[], "\"dark couverture\" can mean ");
}

#[test]
fn what_is_locked_stays_and_every_recipe_has_its_notes() {
    let exchange = ["substitute", "couverture-dark-64", "couverture-dark-70", SAMPLE];
    let json = |more: &[&str]| {
        let run = run(&[&exchange[..], &["--format", "json"], more].concat(), &[]);
        serde_json::from_str::<Value>(&run.output).unwrap_or_else(|error| panic!("{error}: {}", run.errors))
    };
    let changed = |found: &Value| {
        let changes = found[0]["changes"].as_array().expect("a list");
        changes.iter().filter_map(|change| change["from"]["id"].as_str().map(str::to_owned)).collect::<Vec<_>>()
    };
    assert!(changed(&json(&[])).contains(&"cream-35".to_owned()));
    let locked = json(&["--lock", "cream"]);
    assert_eq!(locked[0]["outcome"], "changed");
    assert!(!changed(&locked).contains(&"cream-35".to_owned()), "{locked}");
    let notes = locked[0]["notes"].as_array().expect("a list");
    let has = |part: &str| notes.iter().filter_map(Value::as_str).any(|note| note.contains(part));
    assert!(
        has("No longer usual for a ganache for cutting: water") && has("The water activity is computed"),
        "{notes:?}"
    );
    let text = run(&exchange, &[]).output;
    assert!(text.contains("  before you make it: The water activity is computed"), "{text}");

    for (name, words) in [
        ("couverture-dark-64", "is what goes and cannot stay as it is"),
        ("hazelnut-paste", "is in none of the recipes"),
        ("granite", "is no ingredient that is known here"),
    ] {
        check_refused(&[&exchange[..], &["--lock", name]].concat(), &[], words);
    }
}

/// Hazelnuts go and almonds come: the label changes.
#[test]
fn new_allergens_are_said_of_an_exchange() {
    let gianduja = Path::new(SAMPLE).with_file_name("gianduja-for-cutting.ron");
    let found = run(&["substitute", "hazelnut-paste", "almond-paste-pure", gianduja.to_str().expect("a path")], &[]);
    assert!(found.output.contains("New allergens: Nuts (almonds). Change the label."), "{}", found.output);
}

#[test]
fn the_cost_is_held_with_a_price_list() {
    let exchange = ["substitute", "couverture-dark-64", "couverture-dark-70", SAMPLE, "--hold", "cost"];
    check_refused(&exchange, &[], "to hold the cost, what the ingredients cost has to be known; give --prices LIST");
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("prices.csv");
    let list = |rows: &[&str]| {
        fs::write(&file, format!("ingredient,price,currency\n{},EUR\n", rows.join(",EUR\n"))).expect("a file");
        run(&[&exchange[..], &["--prices", file.to_str().expect("a path")]].concat(), &[])
    };
    let all = [
        "couverture-dark-64,11.2",
        "cream-35,4.1",
        "butter-82,9.6",
        "invert-syrup,2.4",
        "glucose-syrup-de40,2",
        "couverture-dark-70,13",
    ];
    let held = list(&all);
    assert_eq!(held.code, Some(0), "{}{}", held.output, held.errors);
    assert!(
        held.output.contains("  held: cost ") && held.output.contains(" EUR per kg, gram for gram "),
        "{}",
        held.output
    );
    let old = list(&all[1..]);
    assert_eq!(old.code, Some(3), "{}", old.output);
    assert!(old.output.contains("Its cost is not known: give every line a price in the same money"), "{}", old.output);
    let new = list(&all[..5]);
    assert!(new.output.contains("With what comes in, its cost is not known: give that a price"), "{}", new.output);
}
