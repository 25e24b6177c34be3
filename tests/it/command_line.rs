//! The program as it is started from a shell: what it prints, where, and with which exit code.
//!
//! The codes are those of README.md, "Command line": 0, or 2 or 3 with the reason on standard error.

mod before_it_is_made;
mod before_signing;
mod exchanging;
mod reformulating;
mod scale;

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

const SAMPLE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-recipes/dark-cut-ganache.ron");
const WHITE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-recipes/white-whipped-ganache.ron");

/// What a run of the program left behind.
struct Run {
    code: Option<i32>,
    output: String,
    errors: String,
}

/// The program, in an environment in which nothing but the given variables leads to a screen.
fn run(arguments: &[&str], variables: &[(&str, &str)]) -> Run {
    let mut command = Command::new(env!("CARGO_BIN_EXE_nibwright"));
    for variable in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET", "RUST_LOG"] {
        command.env_remove(variable);
    }
    let output = command
        .args(arguments)
        .envs(variables.iter().copied())
        .stdin(Stdio::null())
        .output()
        .expect("the program starts");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("it prints UTF-8");
    Run { code: output.status.code(), output: text(output.stdout), errors: text(output.stderr) }
}

/// Exit code 2, nothing on standard output, and one line on standard error with this in it.
fn check_refused(arguments: &[&str], variables: &[(&str, &str)], words: &str) {
    check_ended(2, arguments, variables, words);
}

/// This exit code, nothing on standard output, and one line on standard error with this in it.
fn check_ended(code: i32, arguments: &[&str], variables: &[(&str, &str)], words: &str) {
    let run = run(arguments, variables);
    assert_eq!((run.code, run.output.as_str()), (Some(code), ""), "{arguments:?}: {}", run.errors);
    let sentence = run.errors.strip_suffix('\n').expect("a line");
    assert!(!sentence.contains('\n') && sentence.contains("; "), "not one sentence with advice: {sentence}");
    assert!(sentence.contains(words), "{words}: {sentence}");
}

fn file_of(folder: &Path, name: &str, text: &str) -> PathBuf {
    let path = folder.join(name);
    std::fs::write(&path, text).expect("a file");
    path
}

#[test]
fn a_sample_gives_a_report_as_json() {
    let run = run(&["report", SAMPLE, "--format", "json", "--at", "27.5"], &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
    let report: Value = serde_json::from_str(&run.output).expect("JSON");
    assert_eq!(report["recipe"]["name"], "Dark cut ganache");
    assert_eq!(report["at_c"], 27.5);
}

#[test]
fn a_sample_gives_a_report_as_text() {
    let run = run(&["report", SAMPLE], &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
    assert!(run.output.starts_with("Dark cut ganache\nganache for cutting"), "{}", run.output);
    assert!(run.output.contains("Findings"));
}

#[test]
fn a_table_gives_a_report() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = file_of(folder.path(), "dark.csv", "couverture-dark-64;400\ncream-35;212,5\n");
    let run = run(&["report", &path.display().to_string(), "--kind", "ganache", "--use", "cut"], &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
    assert!(run.output.starts_with("dark\nganache for cutting"), "{}", run.output);
}

const FOUR_PRICES: &str = "ingredient;price;currency;usable_percent;date\n\
    couverture-dark-64;11,20;EUR;;2026-03-31\n\
    cream-35;4,10;EUR;;\n\
    glucose-syrup-de40;2,40;EUR;98;2025-11-02\n\
    butter-82;9,60;EUR;;\n";

/// 5.60 + 1.23 + 0.146939 + 0.384 = 7.360939 by hand; 900 g of it; 7.360939/0.35 with a margin of 65 %.
#[test]
fn a_price_list_adds_what_the_ingredients_cost() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str, text: &str| file_of(folder.path(), name, text).display().to_string();
    let lines = "couverture-dark-64;500\ncream-35;300\nglucose-syrup-de40;60\nbutter-82;40\n";
    let (recipe, prices) = (path("a.csv", lines), path("prices.csv", FOUR_PRICES));
    let sold = ["--margin", "65", "--tax", "10"];
    let text = run(&[&["report", &recipe, "--prices", &prices][..], &sold].concat(), &[]);
    assert_eq!((text.code, text.errors.as_str()), (Some(0), ""));
    for row in [
        "Dark couverture, 64 % cocoa                          5.60",
        "Glucose syrup DE 38-42, 80 % dry matter              0.15",
        "the batch                                            7.36 EUR",
        "1 kg of the finished mass                            8.18 EUR",
        "oldest of these prices                         2025-11-02",
        "sold with a margin of 65 %, a markup of 185.7 % on the cost",
        "1 kg of the finished mass                           23.37 EUR",
        "1 kg of the finished mass, with 10 % tax            25.70 EUR",
    ] {
        assert!(text.output.contains(&format!("\n  {row}\n")), "{row}\n{}", text.output);
    }
    let json = |arguments: &[&str]| -> Value {
        let run = run(&[&["report", &recipe, "--format", "json"][..], arguments].concat(), &[]);
        assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
        serde_json::from_str(&run.output).expect("JSON")
    };
    let near = |value: &Value, expected: f64| (value.as_f64().expect("a number") - expected).abs() < 5e-7;
    let cost = &json(&[&["--prices", &prices][..], &sold].concat())["cost"];
    assert!(near(&cost["batch"], 7.360939) && near(&cost["per_kg"], 7.360939 / 0.9), "{cost}");
    assert!(near(&cost["selling"]["with_tax"]["batch"], 23.134379), "{cost}");
    assert!(cost["per_piece"].is_null() && cost["currency"] == "EUR");
    assert!(json(&[])["cost"].is_null(), "no list, no cost");
    assert!(json(&["--prices", &prices])["cost"]["selling"].is_null(), "no margin, no price");
}

#[test]
fn lines_without_a_price_are_named_and_the_cost_is_at_least() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str, text: &str| file_of(folder.path(), name, text).display().to_string();
    let recipe = path("a.csv", "couverture-dark-64;500\ncream-35;300\nrum-40;10\nsalt;1\n");
    let prices = path("prices.csv", "ingredient,price,currency\ncouverture-dark-64,11.2,EUR\nrum-40,18,CHF\n");
    let text = run(&["report", &recipe, "--prices", &prices, "--margin", "50"], &[]);
    assert_eq!((text.code, text.errors.as_str()), (Some(0), ""));
    for words in [
        "the batch                                    at least 5.60 EUR\n",
        "not known   no price\n",
        "not known   priced in CHF, which is not converted\n",
        "no price to sell at: first every line needs what it costs\n",
    ] {
        assert!(text.output.contains(words), "{words}\n{}", text.output);
    }
    let json = run(&["report", &recipe, "--prices", &prices, "--format", "json"], &[]);
    let cost = &serde_json::from_str::<Value>(&json.output).expect("JSON")["cost"];
    assert!(cost["batch"].is_null() && cost["at_least"]["batch"] == 5.6, "{cost}");
    let why_not: Vec<&Value> = cost["lines"].as_array().expect("a list").iter().map(|line| &line["why_not"]).collect();
    assert_eq!(why_not, [&Value::Null, &"no_price".into(), &"other_currency".into(), &"no_price".into()]);
}

#[test]
fn a_price_list_that_cannot_be_used_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str, text: &str| file_of(folder.path(), name, text).display().to_string();
    let damaged = path("damaged.csv", "ingredient,price,currency\ncream-35,dear,EUR\n");
    check_refused(&["report", SAMPLE, "--prices", &damaged], &[], "damaged.csv, line 2, column price: \"dear\"");
    let named = folder.path().display().to_string();
    check_refused(&["report", SAMPLE, "--prices", &named], &[], "this is no price list");
    check_refused(&["report", SAMPLE, "--prices", "no-such.csv"], &[], "no-such.csv: there is no such file");
}

#[test]
fn a_file_that_cannot_be_used_is_refused_with_one_sentence() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str, text: &str| file_of(folder.path(), name, text).display().to_string();
    let named = folder.path().display().to_string();
    check_refused(&["report", &named], &[], "is a folder");
    check_refused(&["report", "no-such-file.txt"], &[], "no-such-file.txt: there is no such file");
    check_refused(&["report", "no-such-file.ron"], &[], "no-such-file.ron: there is no such file");
    let damaged = path("damaged.ron", "(\n    format: 1,\n    lines: [\n");
    check_refused(&["report", &damaged], &[], "damaged.ron:3:12: the file ends before");
    let table = path("damaged.csv", "cream-35;200\ncraem-35;200\n");
    check_refused(&["report", &table], &[], "damaged.csv, line 2, column 1: \"craem-35\" is no ingredient");
    let escape = path("escape.csv", "cream\u{1b}[31m;200\n");
    check_refused(&["report", &escape], &[], r#"escape.csv, line 1, column 1: "cream\u{1b}[31m" is no ingredient"#);
    check_refused(&["report", &path("notes.txt", "cream")], &[], "not a recipe (.ron) or a table");
}

#[test]
fn standard_input_is_a_table_and_no_recipe() {
    let report = |path: &Path| {
        let file = std::fs::File::open(path).expect("it is there");
        let mut command = Command::new(env!("CARGO_BIN_EXE_nibwright"));
        command.args(["report", "-"]).stdin(file).output().expect("the program starts")
    };
    let folder = tempfile::tempdir().expect("a folder");
    let table = report(&file_of(folder.path(), "a", "cream-35;200\n"));
    assert_eq!(table.status.code(), Some(0));
    for beginning in ["", "// A remark.\n"] {
        let text = beginning.to_owned() + &std::fs::read_to_string(SAMPLE).expect("a sample");
        let recipe = report(&file_of(folder.path(), "b", &text));
        assert_eq!(recipe.status.code(), Some(2));
        let sentence = String::from_utf8_lossy(&recipe.stderr).into_owned();
        assert!(sentence.contains("standard input is read as a table, and this is a recipe"), "{sentence}");
    }
}

#[test]
fn an_argument_that_is_wrong_is_refused() {
    for (arguments, words) in [
        (&["report", SAMPLE, "--formt", "json"][..], "--format"),
        (&["report", SAMPLE, "--format", "xml"], "json"),
        (&["report", SAMPLE, "--at", "201"], "between -40 and 200 °C"),
        (&["report", SAMPLE, "--at", "warm"], "--at"),
        (&["report", SAMPLE, "--kind", "cake"], "mousse_base"),
        (&["report", SAMPLE, "--margin", "65"], "--prices"),
        (&["report", SAMPLE, "--prices", "a.csv", "--margin", "100"], "below 100"),
        (&["report", SAMPLE, "--prices", "a.csv", "--margin", "65", "--tax", "300"], "from 0 to 100"),
        (&["report"], "FILE"),
        (&["--no-such-option"], "--no-such-option"),
    ] {
        let run = run(arguments, &[]);
        assert_eq!((run.code, run.output.as_str()), (Some(2), ""), "{arguments:?}");
        assert!(run.errors.contains(words), "{words}: {}", run.errors);
    }
}

#[test]
fn the_help_names_what_is_accepted() {
    let run = run(&["report", "--help"], &[]);
    assert_eq!((run.code, run.errors.as_str()), (Some(0), ""));
    for words in ["-40 to 200", "mousse_base", "thin_coat", "json"] {
        assert!(run.output.contains(words), "{words}: {}", run.output);
    }
}

/// Only on Linux can a session be without a display.
#[cfg(all(feature = "gui", target_os = "linux"))]
mod without_a_display {
    use super::{SAMPLE, check_refused};

    const ADVICE: &str = "`nibwright report FILE` does the same work";

    #[test]
    fn the_window_is_refused() {
        check_refused(&[], &[], ADVICE);
        check_refused(&[SAMPLE], &[("DISPLAY", "")], ADVICE);
    }

    /// Nothing listens under these names.
    #[test]
    fn a_display_that_does_not_answer_is_no_display() {
        let home = tempfile::tempdir().expect("a folder");
        let home = home.path().display().to_string();
        for (variable, value) in [("DISPLAY", ":4097"), ("WAYLAND_DISPLAY", "wayland-4097")] {
            let variables = [(variable, value), ("XDG_RUNTIME_DIR", &home), ("NIBWRIGHT_HOME", &home)];
            check_refused(&[], &variables, ADVICE);
            check_refused(&[], &variables, "the display does not answer; ");
        }
    }
}
