//! What goes wrong with a proposed recipe is named before it is signed, by the words of the report.

use std::fs;

use serde_json::Value;

use super::run;

/// A strawberry ganache of white couverture: drier, its milk sugar turns sandy.
const STRAWBERRY: &str = "ingredient;grams\ncouverture-white-28;520\nstrawberry-puree;250\ncream-35;80\nbutter-82;45\n\
                          glucose-syrup-de40;40\n";
const DARK_CUT: &str = "sample-recipes/dark-cut-ganache.ron";
const CARAMEL: &str = r#"(format: 1, name: "Soft caramel", kind: caramel, use: cut, lines: [
    (ingredient: "sucrose", amount: 280), (ingredient: "glucose-syrup-de40", amount: 180),
    (ingredient: "cream-35", amount: 350), (ingredient: "butter-salted", amount: 60),
    (ingredient: "cocoa-butter", amount: 25), (ingredient: "vanilla-extract", amount: 3),
    ], cook_to: (celsius: 117), transfer_loss_percent: 3)"#;

/// The notes about a recipe, and the findings of the report of what was written, as level and text.
fn notes_and_findings(recipe: &str, name: &str, arguments: &[&str]) -> (Vec<String>, Vec<(String, String)>) {
    let folder = tempfile::tempdir().expect("a folder");
    let (file, new) = (folder.path().join(name), folder.path().join("new.ron"));
    fs::write(&file, recipe).expect("a file");
    let (file, new) = (file.to_str().expect("a path"), new.to_str().expect("a path"));
    let answer = run(&[&["reformulate", file, "--format", "json", "-o", new], arguments].concat(), &[]);
    let answer: Value = serde_json::from_str(&answer.output).unwrap_or_else(|_| panic!("{}", answer.errors));
    let notes = answer["notes"].as_array().expect("a list").iter().filter_map(Value::as_str).map(str::to_owned);
    let report: Value = serde_json::from_str(&run(&["report", new, "--format", "json"], &[]).output).expect("JSON");
    let finding = |finding: &Value| {
        let text = |key: &str| finding[key].as_str().expect(key).to_owned();
        (text("level"), text("text"))
    };
    (notes.collect(), report["findings"].as_array().expect("a list").iter().map(finding).collect())
}

/// That each of the cautions of the written file which begins so stands in front of all other notes.
fn assert_told(recipe: &str, name: &str, arguments: &[&str], beginnings: &[&str]) {
    let (notes, findings) = notes_and_findings(recipe, name, arguments);
    for (idx, beginning) in beginnings.iter().enumerate() {
        let found = findings.iter().find(|(_, text)| text.starts_with(beginning));
        let (level, text) = found.unwrap_or_else(|| panic!("{findings:?}"));
        let note = notes.get(idx).and_then(|note| note.strip_prefix(&format!("New in the report, a {level}: ")));
        let title = note.and_then(|title| title.strip_suffix('.')).unwrap_or_else(|| panic!("{beginning}: {notes:?}"));
        assert!(text.starts_with(title) && title.len() > beginning.len(), "{text}: {notes:?}");
    }
    let told = notes.iter().filter(|note| note.contains("in the report")).count();
    assert_eq!(told, beginnings.len(), "{notes:?}");
}

#[test]
fn cautions_that_a_reformulation_brings_are_named() {
    let moulded = ["--kind", "ganache", "--use", "moulded"];
    let drier = [&moulded[..], &["--target", "water activity at most 0.85"]].concat();
    assert_told(STRAWBERRY, "straw.csv", &drier, &["Lactose 2."]);
    let dark = fs::read_to_string(DARK_CUT).expect("a sample");
    assert_told(&dark, "dark.ron", &["--target", "water at most 10"], &["Near the limit", "Fat to water 3."]);
    let fatter = ["--target", "water at most 8", "--target", "milk fat at least 18"];
    assert_told(CARAMEL, "caramel.ron", &fatter, &["Lactose 2."]);
    // What the recipe had already is no news.
    assert_told(&dark, "dark.ron", &["--target", "sugars at least 25.3"], &[]);
}

#[test]
fn a_problem_that_an_exchange_brings_is_named_first() {
    let exchange = ["substitute", "cream-35", "butter-82", DARK_CUT, "--hold", "sugars"];
    let words = run(&exchange, &[]).output;
    let problem = words.find("before you make it: New in the report, a problem: Likely to split: dispersed share");
    let caution = words.find("before you make it: New in the report, a caution: Fat to water");
    assert!(problem.is_some() && problem < caution, "{words}");
    let answer = run(&[&exchange[..], &["--format", "json"]].concat(), &[]).output;
    let answer: Value = serde_json::from_str(&answer).expect("JSON");
    assert!(answer[0]["notes"][0].as_str().is_some_and(|note| note.contains("a problem: Likely to split")), "{answer}");
}

#[test]
fn a_flavour_that_nearly_vanishes_is_told_like_one_that_takes_over() {
    let fatter = ["--kind", "ganache", "--use", "moulded", "--target", "total fat near 33"];
    let (notes, _) = notes_and_findings_of_table(&fatter);
    let note =
        notes.iter().find(|note| note.starts_with("Less than a third of what there was: strawberry puree 250 g to "));
    assert!(note.is_some_and(|note| note.contains("That is another product: taste it first")), "{notes:?}");
    let little = ["--kind", "ganache", "--use", "moulded", "--target", "water activity at most 0.85"];
    let (notes, _) = notes_and_findings_of_table(&little);
    assert!(notes.iter().all(|note| !note.contains("another product")), "to 132 g is more than a third: {notes:?}");
}

fn notes_and_findings_of_table(arguments: &[&str]) -> (Vec<String>, Vec<(String, String)>) {
    notes_and_findings(STRAWBERRY, "straw.csv", arguments)
}

/// Unsalted butter is no salt.
#[test]
fn a_name_is_part_of_another_only_from_the_beginning_of_a_word() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("straw.csv");
    fs::write(&file, STRAWBERRY).expect("a file");
    let file = file.to_str().expect("a path");
    for arguments in [
        &["scale", file, "--kind", "ganache", "--have", "1kg", "--of", "salt"][..],
        &["reformulate", file, "--kind", "ganache", "--target", "water at most 18", "--lock", "salt"],
        &["reformulate", file, "--kind", "ganache", "--amount", "salt at most 3 g"],
    ] {
        let run = run(arguments, &[]);
        assert_ne!(run.code, Some(0), "{arguments:?}");
        assert!(run.errors.contains("\"salt\" is "), "{arguments:?}: {}", run.errors);
    }
    let unsalted = run(&["scale", file, "--kind", "ganache", "--have", "90 g", "--of", "unsalted"], &[]);
    assert!(
        unsalted.output.contains("times the recipe           2, what 90 g of Butter, unsalted, 82 % fat gives\n"),
        "{}",
        unsalted.output
    );
}

#[test]
fn where_every_line_is_locked_that_is_said_first() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("straw.csv");
    fs::write(&file, STRAWBERRY).expect("a file");
    let asked = ["reformulate", file.to_str().expect("a path"), "--kind", "ganache", "--target", "water at most 10"];
    let locks = ["couverture-white-28", "strawberry-puree", "cream-35", "butter-82", "glucose-syrup-de40"];
    let reasons = |locks: &[&str]| -> Vec<String> {
        let locks = locks.iter().flat_map(|lock| ["--lock", lock]);
        let arguments: Vec<&str> = asked.into_iter().chain(locks).chain(["--format", "json"]).collect();
        let answer: Value = serde_json::from_str(&run(&arguments, &[]).output).expect("JSON");
        let reasons = answer["reasons"].as_array().expect("a list").iter();
        reasons.filter_map(Value::as_str).map(str::to_owned).collect()
    };
    let all = reasons(&locks);
    assert!(all[0].starts_with("Every line is locked, so nothing can move: unlock some"), "{all:?}");
    // Where one may move it says what to do next at the end.
    let four = reasons(&locks[..4]);
    assert!(!four[0].contains("locked"), "{four:?}");
    let in_vain = "To go on: ask for a wider bound, or let the batch change its weight; none of 13 common ingredients";
    assert!(four.last().is_some_and(|last| last.starts_with(in_vain)), "{four:?}");
}

#[test]
fn an_exchange_says_what_it_cannot_hold_and_what_to_try() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("open.ron");
    let paste = |unknown: &str| {
        let own = format!("(id: \"own\", name: \"Own paste\", category: own, composition: (unknown: [{unknown}]))");
        let lines = "(ingredient: \"own\", amount: 100), (ingredient: \"couverture-dark-64\", amount: 400), \
                     (ingredient: \"cream-35\", amount: 200)";
        let text = format!("(format: 1, name: \"open\", kind: ganache, ingredients: [{own}], lines: [{lines}])");
        text.replace("(unknown", "(water: 20, sucrose: 30, unknown")
    };
    let exchange = |recipe: &str, more: &[&str]| {
        fs::write(&file, recipe).expect("a file");
        let file = file.to_str().expect("a path");
        run(&[&["substitute", "couverture-dark-64", "couverture-dark-70", file], more].concat(), &[])
    };
    let fats = paste("\"milk_fat\", \"other_fat\"");
    let words = exchange(&fats, &[]).output;
    let note = "Not held, because not known: total fat, solid fat at 20 °C. Nobody has given milk fat, other fat of Own \
                paste.";
    assert!(words.contains(note), "{words}");
    // Who asks for the sugars alone has not asked for the others.
    assert!(!exchange(&fats, &["--hold", "sugars"]).output.contains("Not held"));
    let answer = exchange(&fats, &["--format", "json"]).output;
    assert!(answer.contains(note), "{answer}");
    // Nothing of it is known: nothing would be held.
    let all = "\"water\", \"sucrose\", \"milk_fat\", \"other_fat\", \"lactose\", \"dextrose\"";
    let refused = exchange(&paste(all).replace("water: 20, sucrose: 30, ", ""), &[]);
    assert!(refused.output.contains("not worked out"), "{}", refused.output);
    assert_ne!(refused.code, Some(0));
    // What to try stands at the end of the reasons.
    let straw = folder.path().join("straw.ron");
    let lines = STRAWBERRY.lines().skip(1).filter_map(|line| line.split_once(';'));
    let lines: Vec<String> = lines.map(|(id, grams)| format!("(ingredient: \"{id}\", amount: {grams})")).collect();
    fs::write(&straw, format!("(format: 1, name: \"s\", kind: ganache, lines: [{}])", lines.join(", ")))
        .expect("a file");
    let exchange = |more: &[&str]| {
        let straw = straw.to_str().expect("a path");
        run(&[&["substitute", "couverture-white-28", "couverture-white-33", straw], more].concat(), &[])
    };
    let words = exchange(&[]);
    let to_go_on = "To go on: let sugar (+57.1 g), dextrose monohydrate (";
    assert!(words.output.contains(to_go_on) && words.output.contains("--besides sucrose"), "{}", words.output);
    // Done as it is told, it comes as it is told.
    let done = exchange(&["--besides", "sucrose"]);
    assert!(done.code == Some(0) && done.output.contains("new: sugar 57.1 g"), "{}", done.output);
}

#[test]
fn what_cannot_be_reformulated_is_blamed_on_what_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let asked = |recipe: &str, arguments: &[&str]| {
        let file = folder.path().join("it.ron");
        fs::write(&file, recipe).expect("a file");
        run(&[&["reformulate", file.to_str().expect("a path")], arguments].concat(), &[]).errors
    };
    let recipe = |lines: &str| format!("(format: 1, name: \"it\", kind: ganache, lines: [{lines}])");
    let water = ["--target", "water at most 10"];
    assert!(asked(&recipe(""), &water).contains("the recipe has no lines yet"));
    assert!(asked(&recipe("(ingredient: \"butter-82\", amount: 0)"), &water).contains("the recipe weighs 0 g"));
    let butter = recipe("(ingredient: \"butter-82\", amount: 40), (ingredient: \"cream-35\", amount: 200)");
    let packs = asked(&butter, &["--amount", "butter in packs of 0 g"]);
    assert!(packs.contains("butter in whole packs of 0 g: a pack has to weigh more than 0 g"), "{packs}");
    let itself = asked(&butter, &["--amount", "butter 2 times butter"]);
    assert!(itself.contains("an ingredient cannot be a number of times itself"), "{itself}");
}

#[test]
fn the_cost_says_that_the_seed_is_not_in_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let list = folder.path().join("prices.csv");
    let prices = run(&["scale", DARK_CUT, "--prices", list.to_str().expect("a path")], &[]);
    assert!(prices.output.is_empty(), "without a list there is no cost: {}", prices.output);
    fs::write(&list, "ingredient,price,currency,per,unit,usable_percent,date\ncream-35,4,EUR,1,kg,100,2026-03-31\n")
        .expect("a file");
    let words = run(&["scale", DARK_CUT, "--prices", list.to_str().expect("a path")], &[]);
    assert!(words.output.contains("  not counted                the seed, "), "{}{}", words.output, words.errors);
}
