//! Tables as text, and the recipe or the sentence that they give.

use proptest::prelude::*;

use super::*;
use crate::number::NumberError;
use crate::recipe::QuantityError;

const COUVERTURE: &str = "couverture-dark-64";

fn read(text: &str) -> Result<Recipe, TableError> {
    parse_table(text, "test.csv", Separator::Detect, Kind::Ganache, Some(Use::Cut), Library::built_in())
}

/// Ids with their grams.
fn check(text: &str, expected: &[(&str, f64)]) {
    let recipe = read(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
    let found: Vec<_> = recipe.lines.iter().map(|line| (line.ingredient.id.as_str(), line.amount.grams().0)).collect();
    assert_eq!(found, expected, "{text:?}");
}

/// The place and the problem.
fn check_refused(text: &str, line: usize, column: impl Into<Option<usize>>, expected: &TableProblem) {
    let error = read(text).expect_err(text);
    assert_eq!(&error.problem, expected, "{text:?}");
    assert_eq!(error.place, Some(Place { line, column: column.into() }), "{text:?}: {error}");
    assert_eq!(error.file, "test.csv");
}

/// The beginning of the sentence.
fn check_sentence(text: &str, beginning: &str) {
    let sentence = read(text).expect_err(text).to_string();
    assert!(sentence.starts_with(beginning), "{text:?}: {sentence}");
}

#[test]
fn every_separator_with_its_decimal_sign_gives_the_same_recipe() {
    let expected = [(COUVERTURE, 250.0), ("cream-35", 212.5)];
    for text in [
        "couverture-dark-64,250\ncream-35,212.5",
        "couverture-dark-64;250\ncream-35;212,5",
        "couverture-dark-64;250\ncream-35;212.5",
        "couverture-dark-64\t250\ncream-35\t212,5",
        "couverture-dark-64 , 250 \n cream-35 ,\t212.5".replace('\t', " ").as_str(),
        "Dark couverture, 64 % cocoa;250\nCream, 35 % fat;212,5",
        "Dark couverture, 64 % cocoa\t250\nCREAM, 35 % FAT\t212,5",
        "\"Dark couverture, 64 % cocoa\",250\n\"Cream, 35 % fat\",212.5",
        "Dark couverture, 64 % cocoa,250\nCream,35 % fat,212.5",
        "\"Dark couverture, 64 % cocoa\",\"250\"\n\"Cream, 35 % fat\",\"212,5\"",
        "\"Dark couverture, 64 % cocoa\";250\n Cream-35 ;212,5",
    ] {
        check(text, &expected);
    }
}

#[test]
fn what_holds_no_ingredient_is_passed_over() {
    check(
        "\u{feff}# a remark; with \"one quotation mark\n\r\n  \r\ncream-35;200\r\n;;\r\n  # more\rhoney;20\n\n",
        &[("cream-35", 200.0), ("honey", 20.0)],
    );
}

#[test]
fn a_header_tells_the_columns() {
    let expected = [("cream-35", 1200.0)];
    for text in [
        "ingredient,grams\ncream-35,1200",
        "INGREDIENT;Grams\ncream-35;1200",
        "Grams;Ingredient\n1200;cream-35",
        "grams,ingredient\n1200,Cream, 35 % fat",
        "grams,ingredient\n1200, \"Cream, 35 % fat\"",
        "name\tamount\ncream-35\t1200",
        "Item;Weight (kg)\ncream-35;1,2",
        "id;mass in kg\ncream-35;1.2",
        "ingredient;kg\ncream-35;1200 g",
        "ingredient;quantity;unit\ncream-35;1,2;kg",
        "unit,grams,ingredient\nkg,1.2,Cream, 35 % fat",
        "no;ingredient;grams;amount (%);note\n1;cream-35;1200;100;warm; \n;;;;\n".replace("; \n", "\n").as_str(),
        "ingredient;grams;note\ncream-35;1200",
        "\"ingredient\",\"grams\"\n\"cream-35\",\"1200\"",
    ] {
        check(text, &expected);
    }
}

#[test]
fn amounts_may_have_units_and_be_sums() {
    check(
        "cream-35;250 g\ncream-35;1,2kg\nhoney;2x20\nhoney;½\nhoney;0\nhoney;1.234,5\nhoney;1 234",
        &[
            ("cream-35", 250.0),
            ("cream-35", 1200.0),
            ("honey", 40.0),
            ("honey", 0.5),
            ("honey", 0.0),
            ("honey", 1234.5),
            ("honey", 1234.0),
        ],
    );
    let recipe = read("cream-35;1,2 kg").expect("a recipe");
    assert_eq!((recipe.lines[0].amount.value(), recipe.lines[0].amount.unit()), (1.2, MassUnit::Kilogram));
}

#[test]
fn empty_cells_behind_the_amount_do_not_count() {
    check("cream-35,200,,\nCream, 35 % fat,100,", &[("cream-35", 200.0), ("cream-35", 100.0)]);
    check("cream-35;200;;", &[("cream-35", 200.0)]);
}

#[test]
fn the_recipe_is_called_like_its_file() {
    for (label, name) in [
        ("dark.csv", "dark"),
        ("trials/Dark 64.5.CSV", "Dark 64.5"),
        ("C:\\trials\\dark.tsv", "dark"),
        ("dark 64.5", "dark 64.5"),
        ("standard input", "standard input"),
        (".csv", ".csv"),
        ("dark\u{1b}[31m.csv", "dark [31m"),
        ("", ""),
    ] {
        let recipe =
            parse_table("cream-35,1", label, Separator::Detect, Kind::Praline, None, Library::built_in()).expect(label);
        assert_eq!((recipe.name.as_str(), recipe.kind, recipe.intended_use), (name, Kind::Praline, None));
    }
}

#[test]
fn a_tsv_file_is_parted_by_tabs_alone() {
    let tab = |text| parse_table(text, "a.tsv", Separator::Tab, Kind::Other, None, Library::built_in());
    assert_eq!(tab("Cream, 35 % fat\t12,5").expect("a recipe").weighed().0, 12.5);
    let error = tab("cream-35;12,5").expect_err("no tab");
    assert_eq!(
        error.to_string(),
        "a.tsv, line 1: \"cream-35;12,5\" has no amount; write its grams in the column for them, behind a tab"
    );
}

#[test]
fn lines_keep_their_order_and_have_different_identities() {
    let recipe = read("honey;1\ncream-35;2\nhoney;3").expect("a recipe");
    let mut ids: Vec<_> = recipe.lines.iter().map(|line| line.id).collect();
    ids.dedup();
    assert_eq!(ids.len(), 3);
    assert_eq!(recipe.weighed().0, 6.0);
}

#[test]
fn a_long_table_is_read_whole() {
    let text = "cream-35;2\nCream, 35 % fat;0,5\n".repeat(10_000);
    let recipe = read(&text).expect("a recipe");
    let ids: std::collections::HashSet<_> = recipe.lines.iter().map(|line| line.id).collect();
    assert_eq!((recipe.lines.len(), ids.len(), recipe.weighed().0), (20_000, 20_000, 25_000.0));
}

#[test]
fn an_unknown_ingredient_is_answered_with_the_nearest() {
    check_sentence(
        "cream-35,200\ncraem-35,20",
        "test.csv, line 2, column 1: \"craem-35\" is no ingredient that is known here; the nearest are cream-35 \
        (Cream, 35 % fat), ",
    );
    check_sentence(
        "Dark coverture, 64 % cocoa,250",
        "test.csv, line 1, column 1: \"Dark coverture, 64 % cocoa\" is no ingredient that is known here; the nearest \
        are couverture-dark-64 (",
    );
    let error = parse_table("honey,1", "a.csv", Separator::Detect, Kind::Other, None, &Library::default());
    assert_eq!(
        error.expect_err("an empty library").to_string(),
        "a.csv, line 1, column 1: \"honey\" is no ingredient that is known here; write the id or the exact name"
    );
}

#[test]
fn what_is_missing_is_named() {
    let missing = |name: &str, separator| TableProblem::MissingAmount { name: name.to_owned(), separator };
    let any = "a comma, semicolon or tab";
    assert_eq!(
        read("").expect_err("empty").to_string().split(';').next(),
        Some("test.csv: there is no ingredient in the table")
    );
    for text in ["\n\n", "# nothing", "ingredient,grams\n", ";;\n", "\u{feff}"] {
        let error = read(text).expect_err(text);
        assert_eq!((error.place, error.problem), (None, TableProblem::Empty), "{text:?}");
    }
    check_refused("cream-35", 1, None, &missing("cream-35", any));
    check_refused("cream-35 200", 1, None, &missing("cream-35 200", any));
    check_refused("honey,1\nCream, 35 % fat", 2, None, &missing("Cream, 35 % fat", any));
    check_refused("Cream, 35 % fat,", 1, None, &missing("Cream, 35 % fat", any));
    check_refused("honey;1\ncream-35;", 2, None, &missing("cream-35", "a semicolon"));
    check_refused("honey;1\n;200", 2, 1, &TableProblem::MissingIngredient);
    check_refused("ingredient\nhoney", 1, None, &TableProblem::HeaderWithout { what: "grams" });
    check_refused("ingredient;amount (%)\nhoney;20", 1, None, &TableProblem::HeaderWithout { what: "grams" });
    check_refused("grams;note\n20;honey", 1, None, &TableProblem::HeaderWithout { what: "ingredient" });
    check_refused("grams;ingredient\n20", 2, 2, &TableProblem::MissingIngredient);
}

#[test]
fn a_header_that_is_in_doubt_is_refused() {
    let twice = |what| TableProblem::HeaderTwice { what };
    check_refused("ingredient;name;grams\nhoney;honey;20", 1, 2, &twice("ingredient"));
    check_refused("ingredient;grams;kg\nhoney;20;0,02", 1, 3, &twice("grams"));
    check_refused("ingredient;amount (ml)\nhoney;20", 1, 2, &TableProblem::HeaderUnit { unit: "ml".to_owned() });
    let unknown = TableProblem::UnknownHeader { first: "Zutat".to_owned(), second: "Menge".to_owned() };
    check_refused("\n\nZutat;Menge\nhoney;20", 3, None, &unknown);
}

#[test]
fn amounts_that_are_no_weights_are_refused_in_their_column() {
    let amount = |text: &str, error| TableProblem::Amount { text: text.to_owned(), error };
    let unexpected = |character, position| NumberError::UnexpectedCharacter { character, position };
    check_refused("honey;20 %", 1, 2, &amount("20 %", unexpected('%', 4)));
    check_refused("Cream, 35 % fat,20 %", 1, 3, &amount("20 %", unexpected('%', 4)));
    check_refused("grams,ingredient\n20 %,Cream, 35 % fat", 2, 1, &amount("20 %", unexpected('%', 4)));
    check_refused("honey,20 ml", 1, 2, &amount("20 ml", NumberError::UnknownUnit { unit: "ml".to_owned() }));
    check_refused("honey;12 5", 1, 2, &amount("12 5", NumberError::Groups { position: 4 }));
    check_refused("honey;-5", 1, 2, &TableProblem::Weight(QuantityError::Negative { value: -5.0 }));
    check_refused("honey;1e9 kg", 1, 2, &TableProblem::Weight(QuantityError::TooLarge));
    check_sentence("honey;12 5", "test.csv, line 1, column 2: the amount \"12 5\" cannot be used: the digits around");
}

#[test]
fn lines_with_too_many_columns_are_refused() {
    let too_many = |count| TableProblem::TooManyColumns { count, expected: 2 };
    check_refused("honey;20;warm", 1, 3, &too_many(3));
    check_refused("honey,20,warm", 1, None, &too_many(3));
    check_refused("Cream, 35 % fat,20,warm", 1, None, &too_many(4));
    check_refused("honey,,20", 1, None, &too_many(3));
}

#[test]
fn a_decimal_comma_between_commas_is_recognised() {
    let split = |text: &str| TableProblem::SplitNumber { text: text.to_owned() };
    check_refused("cream-35,12,5", 1, 2, &split("12,5"));
    check_refused("Cream, 35 % fat,12,5", 1, 3, &split("12,5"));
    check_refused("honey,1,234 g", 1, 2, &split("1,234 g"));
}

#[test]
fn an_amount_that_may_be_a_thousand_times_as_much_is_refused() {
    let doubtful = |text: &str, small: &str| TableProblem::Doubtful {
        text: text.to_owned(),
        small: small.to_owned(),
        large: "1234".to_owned(),
    };
    check_refused("honey;567,5\ncream-35;1.234", 2, 2, &doubtful("1.234", "1,234"));
    check_refused("cream-35;1.234 g\nhoney;567,5", 1, 2, &doubtful("1.234", "1,234"));
    check_refused("honey;567.5\ncream-35;1,234", 2, 2, &doubtful("1,234", "1.234"));
    check_refused("honey;1.234.567\ncream-35;1.234", 2, 2, &doubtful("1.234", "1,234"));
    check_refused("honey;1.234,5\ncream-35;1.234", 2, 2, &doubtful("1.234", "1,234"));
    check_refused("\"Cream, 35 % fat\",\"1,234\"", 1, 2, &doubtful("1,234", "1.234"));
    // Semicolons part the columns where the comma is the decimal sign, so the point may part thousands.
    check_refused("honey;567\ncream-35;1.234", 2, 2, &doubtful("1.234", "1,234"));
    check_refused("cream-35;1.234 kg", 1, 2, &doubtful("1.234", "1,234"));
    check_sentence(
        "honey;250\ncream-35;1.200",
        "test.csv, line 2, column 2: \"1.200\" can mean 1200 or 1,200 in this table; write the one that is meant",
    );
    check_refused("\"honey\",\"567,5\"\nCream, 35 % fat,1.234", 2, 3, &doubtful("1.234", "1,234"));
    // Not in doubt: the sign agrees with the others, or nothing else has one.
    check("honey;567,5\ncream-35;1,234", &[("honey", 567.5), ("cream-35", 1.234)]);
    check("honey;567,0\ncream-35;1,200", &[("honey", 567.0), ("cream-35", 1.2)]);
    check("honey;567\ncream-35;1,200", &[("honey", 567.0), ("cream-35", 1.2)]);
    check("honey;567\ncream-35;1200", &[("honey", 567.0), ("cream-35", 1200.0)]);
    check("honey;567.5\ncream-35;1.234", &[("honey", 567.5), ("cream-35", 1.234)]);
    check("honey;0.567\ncream-35;1.234", &[("honey", 0.567), ("cream-35", 1.234)]);
    check("honey\t567\ncream-35\t1.234", &[("honey", 567.0), ("cream-35", 1.234)]);
    check("honey;567,5\ncream-35;0.125", &[("honey", 567.5), ("cream-35", 0.125)]);
    check("honey,567.5\ncream-35,1.234", &[("honey", 567.5), ("cream-35", 1.234)]);
    check("\"honey\",\"567,5\"\ncream-35,\"1,234\"", &[("honey", 567.5), ("cream-35", 1.234)]);
}

#[test]
fn the_other_order_needs_a_header() {
    check_refused("250;honey", 1, 1, &TableProblem::Swapped);
    check_refused("250,Cream, 35 % fat", 1, 1, &TableProblem::Swapped);
}

#[test]
fn a_quotation_mark_that_does_not_close_is_refused_on_its_line() {
    check_refused("honey,20\n\"Cream, 35 % fat,20\nhoney,20", 2, None, &TableProblem::UnclosedQuote);
    // In the middle of a cell it is a character like others.
    check_sentence("honey \"dark\" x\";20", "test.csv, line 1, column 1: \"honey \"dark\" x\"\" is no ingredient");
}

#[test]
fn long_texts_are_shortened_in_the_sentence() {
    for text in ["x".repeat(100_000), "x,".repeat(50_000), "\"".repeat(100_001)] {
        let sentence = read(&format!("{text},1")).expect_err("no ingredient").to_string();
        assert!(sentence.chars().count() < 500, "{sentence}");
    }
}

#[test]
fn every_built_in_ingredient_is_found_by_id_and_name_with_every_separator() {
    for ingredient in Library::built_in().iter() {
        for text in [&ingredient.id, &ingredient.name] {
            for separator in [',', ';', '\t'] {
                check(&format!("{text}{separator}12.5"), &[(&ingredient.id, 12.5)]);
                check(&format!("\"{text}\"{separator}\"12,5\""), &[(&ingredient.id, 12.5)]);
            }
        }
    }
}

/// Lines that resemble those of a table.
fn table_like() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("cream-35"),
        Just("Cream, 35 % fat"),
        Just("\"Cream, 35 % fat\""),
        Just("ingredient"),
        Just("grams"),
        Just("unit"),
        Just("12,5"),
        Just("1.234"),
        Just("1 kg"),
        Just(","),
        Just(";"),
        Just("\t"),
        Just("\n"),
        Just("\r\n"),
        Just("\""),
        Just(" "),
        Just("#"),
        Just("ß"),
    ];
    proptest::collection::vec(piece, 0..40).prop_map(|pieces| pieces.concat())
}

proptest! {
    #[test]
    fn no_text_makes_it_fail(text in any::<String>()) {
        let _ = read(&text);
    }

    #[test]
    fn every_table_gives_a_recipe_or_one_sentence(text in table_like()) {
        match read(&text) {
            Ok(recipe) => prop_assert!(!recipe.lines.is_empty() && recipe.weighed().0.is_finite()),
            Err(error) => {
                let sentence = error.to_string();
                prop_assert!(!sentence.contains('\n') && sentence.contains(';'), "{}", sentence);
            }
        }
    }

    #[test]
    fn what_is_written_by_the_rules_is_read_back(
        amounts in proptest::collection::vec((0_usize..166, 0_u32..10_000_000), 1..20),
        separator in prop_oneof![Just(','), Just(';'), Just('\t')],
    ) {
        let library: Vec<_> = Library::built_in().iter().collect();
        let sign = if separator == ',' { DecimalSign::Point } else { DecimalSign::Comma };
        let grams = |hundredths: u32| f64::from(hundredths) / 100.0;
        let lines: Vec<String> = amounts
            .iter()
            .map(|&(idx, hundredths)| {
                format!("\"{}\"{separator}{}", library[idx].name, number::typed(grams(hundredths), sign))
            })
            .collect();
        let text = format!("ingredient{separator}grams\n{}", lines.join("\n"));
        let recipe = read(&text).map_err(|error| TestCaseError::fail(error.to_string()))?;
        for (line, &(idx, hundredths)) in recipe.lines.iter().zip(&amounts) {
            prop_assert_eq!(&line.ingredient.id, &library[idx].id);
            prop_assert_eq!(line.amount.grams().0, grams(hundredths));
        }
        prop_assert_eq!(recipe.lines.len(), amounts.len());
    }
}

#[test]
fn the_sum_of_a_spreadsheet_is_named_as_such() {
    for (line, name) in [("Total;685", "Total"), ("SUM:;685", "SUM:"), ("together;", "together")] {
        let text = format!("cream-35;200\n{line}");
        check_refused(&text, 2, 1, &TableProblem::Total { name: name.to_owned() });
    }
    check_sentence("total,1", "test.csv, line 1, column 1: \"total\" looks like a total; leave it out");
}
