//! `nibwright reformulate` and `nibwright substitute` as they are started from a shell.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{Run, SAMPLE, WHITE, run};

fn reformulate(arguments: &[&str]) -> Run {
    run(&[&["reformulate", SAMPLE], arguments].concat(), &[])
}

fn json(run: &Run) -> Value {
    serde_json::from_str(&run.output).unwrap_or_else(|error| panic!("{error}: {}", run.output))
}

/// A cost names its money in the text and in JSON, and can be typed with it.
#[test]
fn a_target_of_cost_names_its_money() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("prices.csv");
    let prices =
        ["couverture-dark-64,11.2", "cream-35,4.1", "butter-82,9.6", "invert-syrup,2.4", "glucose-syrup-de40,2"];
    fs::write(&file, format!("ingredient,price,currency\n{},EUR\n", prices.join(",EUR\n"))).expect("a file");
    let prices = ["--prices", file.to_str().expect("a path")];
    let asked = |target: &'static str, more: &[&str]| reformulate(&[&["--target", target], more, &prices].concat());
    let found = asked("cost at most 7.5 EUR per kg", &[]);
    assert_eq!(found.code, Some(0), "{}{}", found.output, found.errors);
    for part in ["Cost at most 7.5 EUR per kg.", "down for cost at most 7.5 EUR per kg", "7.50 EUR per kg, met"] {
        let output = found.output.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(output.contains(part), "{part}: {output}");
    }
    let answer = json(&asked("cost at most 7.5", &["--format", "json"]));
    assert_eq!(answer["targets"][0]["text"], "cost at most 7.5 EUR per kg");
    let other = asked("cost at most 7.5 USD per kg", &[]);
    assert_eq!(other.code, Some(2), "{}", other.output);
    assert!(other.errors.contains("is no amount of EUR"), "{}", other.errors);
}

/// What the answer claims is what the report says of the file that was written.
#[test]
fn the_report_says_of_the_new_file_what_the_answer_claims() {
    let folder = tempfile::tempdir().expect("a folder");
    let new = folder.path().join("new.ron");
    let new = new.to_str().expect("a path");
    let asked = ["--target", "water activity at most 0.88", "--target", "groups.sugars >= 26", "-o", new];
    let found = reformulate(&[&asked[..], &["--format", "json"]].concat());
    assert_eq!(found.code, Some(0), "{}", found.errors);
    let answer = json(&found);
    assert_eq!(answer["outcome"], "changed");
    let report = json(&run(&["report", new, "--format", "json"], &[]));
    let number = |value: &Value| value.as_f64().unwrap_or_else(|| panic!("{value}"));
    let claimed = |target: usize, key: &str| number(&answer["targets"][target]["after"][key]);
    let close = |left: f64, right: f64| assert!((left - right).abs() < 1e-9 * left.abs().max(1.0), "{left} {right}");
    close(claimed(0, "value"), number(&report["water"]["water_activity"]));
    close(claimed(0, "high"), number(&report["water"]["high"]));
    close(claimed(1, "value"), number(&report["groups"]["sugars"]));
    assert!(number(&report["water"]["high"]) <= 0.88 && number(&report["groups"]["sugars"]) >= 26.0);
    close(number(&answer["total_after_g"]), number(&report["batch"]["weighed_g"]));
    // Nothing is written over.
    let again = reformulate(&asked);
    assert_eq!(again.code, Some(2));
    assert!(again.errors.contains("there is such a file") && again.output.is_empty(), "{}", again.errors);
}

#[test]
fn what_cannot_be_done_ends_with_3_and_its_reasons() {
    let folder = tempfile::tempdir().expect("a folder");
    let new = folder.path().join("new.ron");
    let path = new.to_str().expect("a path");
    let asked = ["--target", "water at most 10", "--target", "sugars at most 20", "--lock", "couverture-dark-64"];
    let found = reformulate(&[&asked[..], &["-o", path]].concat());
    assert_eq!(found.code, Some(3));
    assert!(found.output.contains("These cannot be had together: sugars at most 20 %"), "{}", found.output);
    assert!(found.errors.contains("it cannot be done"), "{}", found.errors);
    assert!(!new.exists());
    let found = json(&reformulate(&[&asked[..], &["--format", "json"]].concat()));
    assert_eq!(found["outcome"], "impossible");
    assert!(found["conflict"].as_array().is_some_and(|conflict| conflict.len() >= 2), "{found}");
}

#[test]
fn what_holds_already_stays() {
    let found = reformulate(&["--target", "water at most 50", "--format", "json"]);
    assert_eq!(found.code, Some(0));
    assert_eq!(json(&found)["outcome"], "unchanged");
}

/// A white ganache has no fat-free cocoa, whatever is usual: it is asked for only where something brings it.
#[test]
fn what_nothing_brings_is_not_asked_for_as_usual() {
    let asked = |more: &[&str]| {
        let found = run(&[&["reformulate", WHITE, "--usual", "--format", "json"], more].concat(), &[]);
        let targets = json(&found)["targets"].as_array().expect("a list").clone();
        targets.iter().any(|target| target["of"] == "groups.fat_free_cocoa_solids")
    };
    assert!(!asked(&[]));
    assert!(asked(&["--allow", "cocoa-powder-22"]));
}

#[test]
fn what_is_not_understood_ends_with_2() {
    for (arguments, part) in [
        (vec![], "nothing is asked for"),
        (vec!["--target", "joy at most 3"], "\"joy\" is no result"),
        (vec!["--target", "water at most 3", "--lock", "granite"], "\"granite\" is no line of the recipe"),
        (vec!["--target", "water at most 3", "--allow", "dextrsoe"], "the nearest are Dextrose"),
        (
            vec!["--target", "water at most 3", "--allow", "dextros"],
            "can mean Dextrose monohydrate (dextrose-monohydrate)",
        ),
        (vec!["--target", "water at most 3", "--amount", "fat at most 3 g"], "\"fat\" can mean "),
        (vec!["--target", "water at most 3", "--amount", "butter perhaps 3"], "write NAME at most 60 g"),
        (vec!["--target", "water at most 3", "--step", "0"], "give a weight above 0"),
        (vec!["--target", "water at most 150"], "water lies between 0 and 100 %"),
        (vec!["--target", "water activity at most 85"], "a water activity lies between 0 and 1: 0.85?"),
        (vec!["--target", "water between 30 and 20"], "the lower end stands above the upper one"),
        (vec!["--target", "lactose supersaturation at most 1", "--step", "x"], "--step"),
    ] {
        let found = reformulate(&arguments);
        assert_eq!(found.code, Some(2), "{arguments:?}: {}", found.output);
        assert!(found.errors.contains(part), "{arguments:?}: {}", found.errors);
        assert!(found.output.is_empty());
    }
}

#[test]
fn amounts_are_asked_for_in_words() {
    let asked = [
        "--target",
        "water at most 18",
        "--amount",
        "butter at most 30 g",
        "--amount",
        "couverture-dark-64 in packs of 0.05 kg",
        "--allow",
        "cocoa-butter=15",
        "--free-total",
        "--format",
        "json",
    ];
    let found = reformulate(&asked);
    assert_eq!(found.code, Some(0), "{}{}", found.errors, found.output);
    let found = json(&found);
    let after = |id: &str| {
        let amounts = found["amounts"].as_array().expect("a list");
        amounts.iter().find(|amount| amount["id"] == id).and_then(|amount| amount["after_g"].as_f64()).expect(id)
    };
    assert!(after("butter-82") <= 30.0 && after("cocoa-butter") <= 15.0);
    assert_eq!(after("couverture-dark-64") % 50.0, 0.0);
}

/// Two copies of the samples' couverture ganache and one file that is broken.
#[test]
fn an_exchange_is_listed_and_written_only_when_it_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str| folder.path().join(name);
    fs::copy(SAMPLE, file("a.ron")).expect("a copy");
    fs::copy(Path::new(SAMPLE).with_file_name("school-bar-66.ron"), file("b.ron")).expect("a copy");
    let before = fs::read_to_string(file("a.ron")).expect("a text");
    let path = folder.path().to_str().expect("a path");
    let exchange = ["substitute", "couverture-dark-64", "Dark couverture, 70 % cocoa", path];
    let listed = run(&exchange, &[]);
    assert_eq!(listed.code, Some(0), "{}", listed.errors);
    assert!(
        listed.output.contains("used in 1 of 2 recipes") && listed.output.contains("can be done"),
        "{}",
        listed.output
    );
    assert_eq!(fs::read_to_string(file("a.ron")).expect("a text"), before);
    let written = run(&[&exchange[..], &["--write", "--format", "json"]].concat(), &[]);
    let entries = json(&written);
    assert_eq!(entries[0]["is_written"], true);
    assert_eq!(entries[0]["changes"][0]["to"]["id"], "couverture-dark-70");
    assert!(fs::read_to_string(file("a.ron")).expect("a text").contains("couverture-dark-70"));
    fs::write(file("c.ron"), "(lines: [(ingredient: \"couverture-dark-64\"").expect("a file");
    let failed = run(&exchange, &[]);
    assert_eq!(failed.code, Some(3));
    assert!(failed.output.contains("not worked out"), "{}", failed.output);
}

/// The keys of these outputs, as the page describes them.
fn described(heading: &str) -> BTreeSet<String> {
    let page = fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/sample-recipes/README.md")).expect("the page");
    let start = page.find(&format!("\n{heading}\n")).unwrap_or_else(|| panic!("{heading}"));
    let section = &page[start + heading.len()..];
    let section = section.find("\n## ").map_or(section, |end| &section[..end]);
    let first_cells = section.lines().filter_map(|line| line.strip_prefix("| `")?.split('`').next());
    first_cells.map(str::to_owned).collect()
}

fn paths_of(value: &Value, path: &str, paths: &mut BTreeSet<String>) {
    match value {
        Value::Object(fields) => {
            for (key, value) in fields {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                paths.insert(path.clone());
                // Described where it stands for the first time.
                if path != "[].held[].target" {
                    paths_of(value, &path, paths);
                }
            }
        }
        Value::Array(values) => values.iter().for_each(|value| paths_of(value, &format!("{path}[]"), paths)),
        _ => {}
    }
}

#[test]
fn every_key_is_described_and_no_other() {
    let json = |arguments: &[&str]| json(&run(&[arguments, &["--format", "json"]].concat(), &[]));
    let mut paths = BTreeSet::new();
    for asked in [
        vec!["--target", "water activity at most 0.88"],
        vec!["--target", "water activity at most 0.5", "--target", "water at least 20"],
        vec!["--target", "polyols at least 2"],
        vec!["--target", "water at most 10", "--target", "sugars at most 20", "--lock", "couverture-dark-64"],
    ] {
        paths_of(&json(&[&["reformulate", SAMPLE], &asked[..]].concat()), "", &mut paths);
    }
    assert_eq!(paths, described("## The JSON of a reformulation"));
    let mut paths = BTreeSet::new();
    let exchange = ["substitute", "couverture-dark-64", "couverture-dark-70", SAMPLE];
    for more in [vec![], vec!["--besides", "sucrose"], vec!["--others-stay", "--hold", "sugars", "--hold", "total fat"]]
    {
        paths_of(&json(&[&exchange[..], &more[..]].concat()), "", &mut paths);
    }
    assert_eq!(paths, described("## The JSON of an exchange"));
}

/// What a chef would ask before he signs it stands in the answer.
#[test]
fn an_answer_says_what_is_to_be_known_before_it_is_made() {
    let passion_fruit = Path::new(SAMPLE).with_file_name("milk-ganache-passion-fruit.ron");
    let passion_fruit = passion_fruit.to_str().expect("a path");
    let asked = ["reformulate", passion_fruit, "--target", "water activity at most 0.85", "--format", "json"];
    let found = json(&run(&asked, &[]));
    let summary = found["summary"].as_str().expect("a sentence");
    assert!(summary.starts_with("For water activity at most 0.85: more invert sugar syrup (+"), "{summary}");
    let notes: Vec<&str> = found["notes"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    for part in
        ["Not used any more: ", "More than 3 times as much as before: invert", "No longer usual for", "measure that"]
    {
        assert!(notes.iter().any(|note| note.contains(part)), "{part}: {notes:?}");
    }
}
