//! The text report: that its amounts add up as they are shown, that it says what the JSON report says, and its width.
//!
//! Nothing here comes from an outside source; it is arithmetic of what stands in the report.

use std::fs;
use std::path::Path;

use nibwright::analysis::{ROOM, analyse};
use nibwright::ingredient::{Component, Library};
use nibwright::number::{DecimalSign, fixed};
use nibwright::recipe::{Kind, Recipe, TransferLoss, Use};
use nibwright::report::text;
use nibwright::store::format;
use nibwright::units::Celsius;

use crate::support::{analysis_of, codes, evaporating, made_for, own_with, recipe, recipe_of};

/// Where the amounts of lines and totals stand, in characters.
const AMOUNT_COLUMN: std::ops::Range<usize> = 46..59;

fn samples() -> Vec<Recipe> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-recipes");
    let files = fs::read_dir(folder).expect("the folder is there").map(|entry| entry.expect("an entry").path());
    let mut recipes = Vec::new();
    for path in files.filter(|path| path.extension().is_some_and(|extension| extension == "ron")) {
        let text = fs::read_to_string(&path).expect("it is text");
        recipes.push(format::read(&text, Library::built_in()).unwrap_or_else(|error| panic!("{error}")));
    }
    assert!(recipes.len() >= 8, "{}", recipes.len());
    recipes
}

/// Samples, and recipes whose amounts do not round well: halves, ounces, spices, kilos, losses of every kind.
fn recipes() -> Vec<Recipe> {
    let thirds = [("couverture-dark-64", 100.0 / 3.0), ("cream-35", 100.0 / 7.0), ("butter-82", 200.0 / 3.0)];
    let mut lossy = evaporating(recipe(&[("cream-35", 333.3), ("couverture-dark-70", 251.7)]), 17.77);
    lossy.losses.transfer = TransferLoss::from_percent(3.3).expect("below 100 %");
    let mut recipes = samples();
    recipes.extend([
        recipe(&[("couverture-dark-64", 600.0), ("salt", 0.5)]),
        made_for(recipe(&thirds), Kind::Ganache, Use::Cut),
        recipe(&[("sucrose", 0.75), ("salt", 0.333), ("cocoa-butter", 2.0)]),
        recipe(&[("couverture-dark-64", 180_000.4), ("cream-35", 93_000.4), ("rum-40", 9_000.4)]),
        recipe(&[("praline-hazelnut-60", 62.5), ("rum-40", 12.25)]),
        lossy,
    ]);
    recipes
}

fn report_of(recipe: &Recipe) -> String {
    text::report(recipe, &analysis_of(recipe), DecimalSign::Point)
}

/// A block of the report by its heading, without the heading.
fn block<'a>(report: &'a str, heading: &str) -> Vec<&'a str> {
    let mut lines = report.lines().skip_while(|line| !line.starts_with(heading));
    assert!(lines.next().is_some(), "there is no {heading} in\n{report}");
    lines.take_while(|line| line.is_empty() || line.starts_with(' ')).filter(|line| !line.is_empty()).collect()
}

fn number(text: &str) -> f64 {
    let digits: String = text.trim().trim_end_matches('g').trim().replace('\u{202f}', "").replace('\u{2212}', "-");
    digits.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn characters(line: &str, range: std::ops::Range<usize>) -> String {
    line.chars().skip(range.start).take(range.len()).collect()
}

#[test]
fn what_is_weighed_and_what_is_lost_adds_up_as_it_is_shown() {
    for recipe in recipes() {
        let report = report_of(&recipe);
        let rows: Vec<(String, f64)> = report
            .lines()
            .skip(3)
            .take_while(|line| !line.is_empty())
            .map(|line| (characters(line, 0..46).trim().to_owned(), number(&characters(line, AMOUNT_COLUMN))))
            .collect();
        let (lines, totals) = rows.split_at(recipe.lines.len());
        let of = |name: &str| totals.iter().find(|(other, _)| other == name).map(|(_, grams)| *grams);
        let sum: f64 = lines.iter().map(|(_, grams)| grams).sum();
        let together = of("together").expect("it stands there");
        assert!((sum - together).abs() < 1e-6, "{sum} in\n{report}");
        let lost = of("water that evaporates").unwrap_or(0.0) + of("lost in bowls and bags").unwrap_or(0.0);
        let finished = of("finished mass").expect("it stands there");
        assert!((together - lost - finished).abs() < 1e-6, "{report}");
        // No line is further from what was typed than its last digit.
        for (line, (name, shown)) in recipe.lines.iter().zip(lines) {
            let typed = line.amount.grams().0;
            assert!((typed - shown).abs() < 0.01 || (together > 10_000.0 && (typed - shown).abs() < 1.0), "{name}");
        }
    }
}

#[test]
fn half_a_gram_is_seen_in_the_total() {
    let report = report_of(&recipe(&[("couverture-dark-64", 600.0), ("salt", 0.5)]));
    for amount in ["600.0 g", "0.5 g", "600.5 g"] {
        assert!(report.contains(amount), "{amount} in\n{report}");
    }
}

#[test]
fn what_the_lines_bring_adds_up_to_what_is_in_the_bowl() {
    let mut count = 0;
    for recipe in recipes() {
        let report = report_of(&recipe);
        let rows: Vec<Vec<f64>> = block(&report, "What each line brings")
            .into_iter()
            .skip(2)
            .map(|line| characters(line, 27..200).split(' ').filter(|text| !text.is_empty()).map(number).collect())
            .collect();
        let (bowl, brought) = rows.split_last().expect("there are rows");
        for (column, total) in bowl.iter().enumerate() {
            let sum: f64 = brought.iter().map(|row| row[column]).sum();
            assert!((sum - total).abs() < 1e-6, "column {column}: {sum} in\n{report}");
            count += 1;
        }
        // The same amount stands in the make-up.
        let make_up = block(&report, "Make-up");
        for (name, total) in [("milk fat", bowl[1]), ("sugars", bowl[3]), ("water", bowl[4])] {
            let row = make_up.iter().find(|line| line.trim_start().starts_with(&format!("{name} ")));
            let Some(row) = row else { continue };
            let amount = row.split('%').nth(1).expect("an amount behind the share");
            assert!((number(amount) - total).abs() < 1e-9, "{name} in\n{report}");
        }
    }
    assert!(count > 100, "{count}");
}

#[test]
fn no_line_is_wider_than_a_hundred_columns() {
    for recipe in recipes() {
        for line in report_of(&recipe).lines() {
            assert!(line.chars().count() <= 100, "{line}");
            assert_eq!(line, line.trim_end(), "blanks at the end");
            let first = line.split_whitespace().next();
            assert!(!["%", "°C"].iter().any(|unit| first.is_some_and(|word| word.starts_with(unit))), "{line}");
        }
    }
}

/// Every figure that the report shows is that of the analysis, at the temperature that was asked for.
#[test]
fn the_report_gives_phases_volumes_uncertainties_and_words() {
    let lines = [("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 40.0)];
    let ganache = made_for(recipe(&lines), Kind::Ganache, Use::Cut);
    let analysis = analyse(&ganache, Celsius(23.4));
    let report = text::report(&ganache, &analysis, DecimalSign::Point);
    let value = |block_name: &str, row: &str| {
        let rows = block(&report, block_name);
        let row = rows.iter().find(|line| line.trim_start().starts_with(row));
        row.unwrap_or_else(|| panic!("no {row:?} under {block_name} in\n{report}")).trim().to_owned()
    };
    let one = |value: f64| fixed(value, 1, DecimalSign::Point);
    let bar = analysis.phase_bar.expect("all is known");
    for (name, share) in [
        ("fat crystals", bar.fat_crystals),
        ("liquid fat", bar.liquid_fat),
        ("syrup", bar.syrup),
        ("undissolved sugar", bar.undissolved_sugar),
        ("cocoa particles", bar.cocoa_particles),
        ("other particles", bar.other_particles),
    ] {
        let expected = format!(" {} %", one(share.to_percent()));
        assert!(value("The mass at 23.4 °C", name).ends_with(&expected), "{name} in\n{report}");
    }
    let emulsion = analysis.emulsion.emulsion().expect("it is one");
    for (name, volume) in [
        ("volume of the fat", emulsion.fat),
        ("volume of the water phase", emulsion.water_phase),
        ("volume of the particles", emulsion.insoluble),
    ] {
        let expected = format!(" {} ml", fixed(volume.0, 0, DecimalSign::Point));
        assert!(value("Emulsion", name).contains(&expected), "{name} in\n{report}");
    }
    assert!((1.6..2.2).contains(&emulsion.fat_to_water), "{}", emulsion.fat_to_water);
    assert!(value("Emulsion", "fat to water").ends_with("firm, careful"), "{report}");
    for form in ["form IV limit", "form V limit", "form VI limit"] {
        assert!(value("Fat crystals", form).ends_with("±1.0 K"), "{report}");
    }
    assert!(value("Fat crystals", "at 4.0 °C").ends_with("± not known"), "{report}");
    assert!(value("Fat crystals", "at 23.4 °C").ends_with("±5.0 points"), "{report}");
    assert!(value("Fat crystals", "seed for the bowl").ends_with("from trade habit to equal setting time"), "{report}");
}

#[test]
fn nothing_weighed_in_is_said_as_such() {
    for recipe in [Recipe::default(), recipe(&[("cream-35", 0.0)])] {
        let report = text::report(&recipe, &analyse(&recipe, ROOM), DecimalSign::Comma);
        for name in ["The mass at", "Emulsion", "Fat crystals"] {
            assert_eq!(block(&report, name), ["  nothing is weighed in yet"], "{report}");
        }
    }
    let dry = recipe(&[("sucrose", 100.0)]);
    assert_eq!(block(&report_of(&dry), "Fat crystals"), ["  there is no fat"]);
}

#[test]
fn what_is_not_known_is_not_shown_as_zero() {
    let syrup = own_with("syrup", &[(Component::Water, 20.0), (Component::Glucose, 40.0)], &[Component::Sucrose], 0.0);
    let cream = crate::support::built_in("cream-35");
    let report = report_of(&recipe_of(&[(syrup, 50.0), (cream, 100.0)]));
    let brought = block(&report, "What each line brings");
    assert!(brought[2].contains("unknown") && !brought[3].contains("unknown"), "{report}");
    assert!(brought.last().is_some_and(|bowl| bowl.contains("unknown")), "{report}");
    let sucrose = block(&report, "Make-up").into_iter().find(|line| line.trim_start().starts_with("sucrose"));
    assert_eq!(sucrose.map(|line| line.matches("not known").count()), Some(2), "{report}");
}

/// A white mass has no fat-free cocoa and is not meant to; where there is some, it is compared.
#[test]
fn a_white_mass_is_not_said_to_lack_cocoa() {
    for (couverture, is_compared) in [("couverture-white-33", false), ("couverture-milk-40", true)] {
        let mass = recipe(&[(couverture, 400.0), ("cream-35", 400.0)]);
        let mass = made_for(mass, Kind::Ganache, Use::Whipped);
        let analysis = analysis_of(&mass);
        let report = text::report(&mass, &analysis, DecimalSign::Point);
        let rows = block(&report, "Usual for a mousse base or whipped ganache");
        let row = rows.iter().find(|row| row.trim_start().starts_with("fat-free cocoa solids"));
        assert_eq!(row.is_some(), is_compared, "{report}");
        assert_eq!(row.is_some_and(|row| row.contains("low")), is_compared, "{report}");
        assert_eq!(codes(&analysis).contains(&"groups.fat_free_cocoa_solids.low"), is_compared, "{report}");
    }
}

#[test]
fn of_an_empty_recipe_nothing_is_said_to_be_unknown() {
    let report = report_of(&Recipe::default());
    assert_eq!(block(&report, "Make-up"), ["  nothing is weighed in yet"]);
    assert!(!report.contains("not known"), "{report}");
}
