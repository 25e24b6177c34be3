//! What the pages say, held against the program: codes, keys of the report, fields and words of the recipe file,
//! examples, quoted figures, attributions.
//!
//! Nothing here comes from an outside source; it compares texts of the repository with each other.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use nibwright::analysis::parts::Group;
use nibwright::analysis::seeding::Window;
use nibwright::analysis::usual::{Place, Share};
use nibwright::analysis::{Analysis, ROOM, analyse};
use nibwright::command_line::table::{Separator, parse_table};
use nibwright::ingredient::{Component, Library};
use nibwright::number::{DecimalSign, fixed, grams, parse_decimal};
use nibwright::production::cost::cost;
use nibwright::production::price_list::PriceList;
use nibwright::production::selling::{Margin, Selling};
use nibwright::recipe::{FatState, Heating, Kind, Quantity, Recipe};
use nibwright::report::json;
use nibwright::source;
use nibwright::store::format::{self, Problem};
use nibwright::store::price_list::read_price_list;
use serde_json::Value;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

fn page(name: &str) -> String {
    fs::read_to_string(Path::new(ROOT).join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn samples_page() -> String {
    page("sample-recipes/README.md")
}

/// What stands under a heading, up to the next one of the same depth.
fn section<'a>(page: &'a str, heading: &str) -> &'a str {
    let start = page.find(&format!("\n{heading}\n")).unwrap_or_else(|| panic!("there is no heading {heading}"));
    let text = &page[start + 1 + heading.len()..];
    text.find("\n## ").map_or(text, |end| &text[..end])
}

/// Everything that stands between single backticks.
fn words_in_code(text: &str) -> BTreeSet<&str> {
    let lines = text.lines().scan(false, |is_in_block, line| {
        *is_in_block ^= line.starts_with("```");
        Some(if *is_in_block || line.starts_with("```") { "" } else { line })
    });
    lines.flat_map(|line| line.split('`').skip(1).step_by(2)).collect()
}

/// The cells of every row of every table.
fn rows(text: &str) -> Vec<Vec<&str>> {
    text.lines()
        .filter_map(|line| line.strip_prefix('|')?.strip_suffix('|'))
        .map(|row| row.split('|').map(str::trim).collect())
        .collect()
}

/// The blocks of a language, without their fences.
fn blocks(page: &str, language: &str) -> Vec<String> {
    page.split("```")
        .skip(1)
        .step_by(2)
        .filter_map(|block| block.strip_prefix(language)?.strip_prefix('\n'))
        .map(str::to_owned)
        .collect()
}

fn sample_files() -> Vec<PathBuf> {
    let folder = fs::read_dir(Path::new(ROOT).join("sample-recipes")).expect("the folder is there");
    let mut files: Vec<PathBuf> = folder.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|path| path.extension().is_some_and(|extension| extension == "ron"));
    files.sort();
    assert!(files.len() >= 8, "only {} samples", files.len());
    files
}

fn sample(path: &Path) -> Recipe {
    let text = fs::read_to_string(path).expect("it is text");
    format::read(&text, Library::built_in()).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

mod codes {
    use super::*;

    /// The codes that the text of the program gives to findings, with their level where it is written beside them.
    fn codes_of_source() -> BTreeMap<String, BTreeSet<String>> {
        let mut codes = BTreeMap::<String, BTreeSet<String>>::new();
        let mut folders = vec![Path::new(ROOT).join("src")];
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(folder).expect("the folder can be read") {
                let path = entry.expect("an entry").path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|extension| extension == "rs") {
                    let text = fs::read_to_string(&path).expect("it is text");
                    // A made-up code of a test is none of the program's.
                    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
                    for (place, call) in text.match_indices("Finding::new(") {
                        let arguments = arguments(&text[place + call.len()..]);
                        let [level, code, ..] = &arguments[..] else { panic!("{}: {arguments:?}", path.display()) };
                        match code.strip_prefix('"').and_then(|code| code.strip_suffix('"')) {
                            Some(code) => {
                                let levels = codes.entry(code.to_owned()).or_default();
                                levels.extend(level.strip_prefix("Level::").map(str::to_lowercase));
                            }
                            // All of these codes are asked for below.
                            None => assert_eq!(code, "range.of.code(place)", "{}", path.display()),
                        }
                    }
                }
            }
        }
        assert!(codes.len() >= 15, "only {} codes were found in src/: {codes:?}", codes.len());
        for share in Group::ALL.into_iter().map(Share::Group).chain([Share::Ethanol]) {
            for place in [Place::Low, Place::High] {
                codes.entry(share.code(place).to_owned()).or_default().insert("note".to_owned());
            }
        }
        codes
    }

    /// The arguments of a call, from behind its opening parenthesis.
    fn arguments(text: &str) -> Vec<String> {
        let (mut depth, mut is_quoted, mut found) = (0, false, vec![String::new()]);
        for character in text.chars() {
            match character {
                '"' => is_quoted = !is_quoted,
                '(' | '[' | '{' if !is_quoted => depth += 1,
                ')' | ']' | '}' if !is_quoted && depth == 0 => break,
                ')' | ']' | '}' if !is_quoted => depth -= 1,
                ',' if !is_quoted && depth == 0 => {
                    found.push(String::new());
                    continue;
                }
                _ => {}
            }
            if let Some(last) = found.last_mut() {
                last.push(character);
            }
        }
        found.iter().map(|argument| argument.trim().to_owned()).collect()
    }

    #[test]
    fn every_code_is_described_with_its_level_and_no_other() {
        let page = samples_page();
        let mut described = BTreeMap::new();
        for row in rows(section(&page, "## Codes of findings")) {
            for code in words_in_code(row[0]) {
                assert!(described.insert(code.to_owned(), row[1].to_owned()).is_none(), "{code} is described twice");
            }
        }
        let codes = codes_of_source();
        let names = |codes: Vec<&String>| codes.into_iter().cloned().collect::<BTreeSet<_>>();
        assert_eq!(names(described.keys().collect()), names(codes.keys().collect()));
        for (code, levels) in codes {
            for level in levels {
                assert!(described[&code].contains(&level), "{code} can be a {level}, not only {}", described[&code]);
            }
        }
    }

    #[test]
    fn arguments_are_parted_at_their_own_commas_only() {
        let text = "Level::Note, \"a, (b\", Subject::X { y: [1, 2], z: f(3, 4) })\n.with_value(5.0)";
        assert_eq!(arguments(text), ["Level::Note", "\"a, (b\"", "Subject::X { y: [1, 2], z: f(3, 4) }"]);
    }
}

mod report {
    use super::*;

    pub(super) fn collect_paths(value: &Value, path: &str, paths: &mut BTreeSet<String>) {
        match value {
            Value::Object(fields) => {
                for (key, value) in fields {
                    let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                    // The same keys are described once.
                    let path = path.replace("lines[].composition_g.", "composition.");
                    paths.insert(path.clone());
                    collect_paths(value, &path, paths);
                }
            }
            Value::Array(values) => {
                for value in values {
                    collect_paths(value, &format!("{path}[]"), paths);
                }
            }
            _ => {}
        }
    }

    /// A list with a price for every line.
    fn prices_of(recipe: &Recipe) -> PriceList {
        let lines = recipe.lines.iter().map(|line| line.ingredient.id.as_str()).collect::<BTreeSet<_>>();
        let rows = lines.into_iter().map(|id| format!("{id},4.1,EUR\n")).collect::<Vec<_>>().concat();
        read_price_list(&format!("ingredient,price,currency\n{rows}"), Path::new("a.csv")).expect("a list")
    }

    fn selling() -> Selling {
        let margin = Margin::from_percent(parse_decimal("65").expect("a number")).expect("a margin");
        Selling { margin, tax_percent: parse_decimal("10").ok() }
    }

    #[test]
    fn the_example_of_a_price_list_is_read() {
        let page = samples_page();
        let lists = blocks(section(&page, "## The price list"), "text");
        assert_eq!(lists.len(), 1);
        let list = read_price_list(&lists[0], Path::new("a.csv")).expect("a list");
        assert_eq!(list.len(), 2);
        let described = words_in_code(section(&page, "## The price list"));
        let header = lists[0].lines().next().expect("a header");
        for column in header.split(',') {
            assert!(described.contains(column), "{column}");
        }
    }

    #[test]
    fn every_key_is_described_and_no_other() {
        let page = samples_page();
        let described: BTreeSet<String> = rows(section(&page, "## The JSON report"))
            .iter()
            .flat_map(|row| words_in_code(row[0]))
            .map(str::to_owned)
            .collect();
        let mut paths = BTreeSet::new();
        for path in sample_files() {
            let recipe = sample(&path);
            let analysis = analyse(&recipe, ROOM);
            let text = json::report(&recipe, &analysis).expect("it can be written");
            collect_paths(&serde_json::from_str(&text).expect("it is JSON"), "", &mut paths);
            let cost = cost(&recipe, &analysis.make_up, &prices_of(&recipe));
            let text = json::with_cost(&recipe, &analysis, Some((&cost, Some(selling())))).expect("it can be written");
            collect_paths(&serde_json::from_str(&text).expect("it is JSON"), "", &mut paths);
        }
        assert_eq!(paths, described);
    }

    #[test]
    fn every_word_of_the_report_is_described() {
        let page = samples_page();
        let described = words_in_code(section(&page, "## The JSON report"));
        let kinds = Kind::ALL.map(Kind::key);
        let uses = nibwright::recipe::Use::ALL.map(nibwright::recipe::Use::key);
        let evidence = source::Evidence::ALL.map(source::Evidence::key);
        let heatings = Heating::ALL.map(Heating::key);
        let states = FatState::ALL.map(FatState::key);
        for word in kinds.into_iter().chain(uses).chain(evidence).chain(heatings).chain(states) {
            assert!(described.contains(word), "{word}");
        }
    }
}

mod weighing_list {
    use super::*;
    use nibwright::production::day::{Day, Note, Work};
    use nibwright::production::order::{Form, Order, ShellOf, Wanted};
    use nibwright::production::piece_cost::work_cost;
    use nibwright::production::price_list::PriceList;
    use nibwright::production::weighing::Scales;
    use nibwright::recipe::SeedingWay;
    use nibwright::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres};
    use rust_decimal::Decimal;

    /// The list of a sample that has pieces, shells, seed and a scale that is too coarse.
    fn list() -> Day {
        let recipe = sample(&Path::new(ROOT).join("sample-recipes/milk-ganache-passion-fruit.ron"));
        let shell = ShellOf { share: MassFraction(0.2), density: GramsPerMillilitre(1.3) };
        let form = Some(Form::Cavity { volume: Millilitres(10.2), shell: Some(shell) });
        let order = Order { wanted: Wanted::Pieces(168), form, ..Order::default() };
        let work = Work::new(&recipe, &order, Scales::KITCHEN, None).expect("it can be scaled");
        let cost = Some(work_cost(&work, &PriceList::default(), None, Decimal::ZERO));
        let work = Work { cost, base: Some(recipe.lines[0].id), ..work };
        Day::new(vec![work], Some(Grams(10.0))).expect("there is one way")
    }

    #[test]
    fn every_key_is_described_and_no_other() {
        let page = samples_page();
        let described: BTreeSet<String> = rows(section(&page, "## The weighing list as JSON"))
            .iter()
            .flat_map(|row| words_in_code(row[0]))
            .map(str::to_owned)
            .collect();
        let mut paths = BTreeSet::new();
        let text = json::weighing_list(&list()).expect("it can be written");
        super::report::collect_paths(&serde_json::from_str(&text).expect("it is JSON"), "", &mut paths);
        assert_eq!(paths, described);
    }

    #[test]
    fn every_word_of_it_is_described() {
        let page = samples_page();
        let described = words_in_code(section(&page, "## The weighing list as JSON"));
        let notes = [
            Note::EvaporationNotKnown,
            Note::TooLittleChocolate { shell: MassFraction(0.2) },
            Note::ComputedDensity {
                melted: GramsPerMillilitre(1.2),
                set: (GramsPerMillilitre(1.2), GramsPerMillilitre(1.3)),
            },
        ];
        let of_list = list().works.remove(0).notes;
        assert!(of_list.len() >= 3, "{of_list:?}");
        for code in notes.iter().chain(&of_list).map(Note::code) {
            assert!(described.contains(code), "{code}");
        }
        for way in SeedingWay::ALL {
            assert!(described.contains(way.key()) || way == SeedingWay::KeepTempered, "{}", way.key());
        }
    }
}

mod recipe_file {
    use super::*;

    /// What the program says it knows where it meets a field or a word that it does not know.
    fn known(text: &str) -> Vec<String> {
        match format::read(text, Library::built_in()).expect_err(text).problem {
            Problem::UnknownField { known, .. } | Problem::UnknownWord { known, .. } => known,
            other => panic!("{text}: {other}"),
        }
    }

    #[test]
    fn every_field_and_every_word_is_described() {
        let page = samples_page();
        let mut described = words_in_code(section(&page, "## The recipe file, format 1"));
        described.extend(words_in_code(section(&page, "## Ingredients")));
        let ingredient = |field: &str| {
            format!(
                "(format: 1, lines: [], ingredients: [(id: \"a\", name: \"a\", composition: (water: 100), {field})])"
            )
        };
        let recipe = |field: &str| format!("(format: 1, lines: [], {field})");
        let mut count = 0;
        for text in [
            recipe("nothing: 1"),
            recipe("evaporated_water: (nothing: 1)"),
            recipe("cook_to: (nothing: 1)"),
            recipe("liquid_is: nothing"),
            recipe("mixing: (nothing: 1)"),
            recipe("mixing: (bowl: (nothing: 1))"),
            recipe("mixing: (bowl: (material: nothing, amount: 1))"),
            "(format: 1, lines: [(ingredient: \"a\", amount: 1, fat: nothing)])".to_owned(),
            recipe("setting: (nothing: 1)"),
            recipe("setting: (air_c: 17, piece: nothing)"),
            recipe("setting: (air_c: 17, air: nothing, piece: bowl)"),
            recipe("setting: (air_c: 17, piece: frame(nothing: 1))"),
            recipe("setting: (air_c: 17, piece: frame(thickness_mm: 10, on: nothing))"),
            recipe("setting: (air_c: 17, piece: cup(nothing: 1))"),
            recipe("storage: (nothing: 1)"),
            recipe("storage: (celsius: 18, room_c: 20, humidity_percent: 60, shell: (nothing: 1))"),
            recipe("seeding: (nothing: 1)"),
            recipe("seeding: (way: nothing)"),
            recipe("steps: [(nothing: 1)]"),
            recipe("cocoa_butter: own(nothing: 1)"),
            recipe("ingredients: [(id: \"a\", name: \"a\", composition: (nothing: 1))]"),
            "(format: 1, lines: [(nothing: 1)])".to_owned(),
            ingredient("nothing: 1"),
            recipe("kind: nothing"),
            recipe("use: nothing"),
            recipe("cocoa_butter: nothing"),
            recipe("evaporated_water: (amount: 1, unit: nothing)"),
            ingredient("category: nothing"),
            ingredient("other_fat_kind: nothing"),
            ingredient("polyol_kind: nothing"),
            ingredient("maltose_kind: nothing"),
            ingredient("evidence: nothing"),
        ] {
            for word in known(&text) {
                assert!(described.contains(word.as_str()), "{word}, of {text}");
                count += 1;
            }
        }
        assert!(count > 100, "only {count} fields and words were found");
    }

    #[test]
    fn every_example_opens_and_is_analysed() {
        let examples = blocks(&samples_page(), "ron");
        assert!(examples.len() >= 2, "only {} examples", examples.len());
        for text in examples {
            let recipe = format::read(&text, Library::built_in()).unwrap_or_else(|error| panic!("{error}\n{text}"));
            let analysis = analyse(&recipe, ROOM);
            assert!(analysis.make_up.finished.0 > 0.0, "{text}");
            // In a caramel of cream and butter there is nothing to seed.
            assert!(analysis.seeding.is_some() || recipe.kind == Kind::Caramel, "{text}");
        }
    }

    /// The page says what of the example with own ingredients is not known.
    #[test]
    fn the_example_with_an_unknown_figure_leaves_open_what_the_page_says() {
        let text =
            blocks(&samples_page(), "ron").into_iter().find(|text| text.contains("unknown")).expect("there is one");
        let recipe = format::read(&text, Library::built_in()).expect("it opens");
        let analysis = analyse(&recipe, ROOM);
        let bowl = &analysis.make_up.bowl;
        let unknown: Vec<&str> =
            Component::ALL.into_iter().filter(|&part| !bowl.is_known(part)).map(Component::key).collect();
        assert_eq!(unknown, ["fibre", "acids_ash_other"]);
        assert!(bowl.unassigned().is_none() && analysis.phase_bar.is_none());
        assert!(analysis.emulsion.emulsion().is_none() && analysis.fat.is_ok());
        assert!(analysis.findings.iter().any(|finding| finding.code == "unknown_input"));
    }

    #[test]
    fn every_table_is_read() {
        let tables: Vec<String> =
            ["README.md", "sample-recipes/README.md"].iter().flat_map(|name| blocks(&page(name), "csv")).collect();
        assert!(tables.len() >= 2, "only {} tables", tables.len());
        for text in tables {
            let recipe = parse_table(&text, "a.csv", Separator::Detect, Kind::Ganache, None, Library::built_in());
            assert!(recipe.unwrap_or_else(|error| panic!("{error}\n{text}")).lines.len() >= 3);
        }
    }

    /// Each row says kind, use and batch of its sample; every figure with one decimal is a limit or an end of a window.
    #[test]
    fn every_sample_is_described_with_its_own_figures_and_no_other() {
        let page = samples_page();
        let mut described = BTreeSet::new();
        for row in rows(section(&page, "## The samples")) {
            let Some(name) = row[0].strip_prefix('`').and_then(|name| name.strip_suffix('`')) else { continue };
            described.insert(name.to_owned());
            let recipe = sample(&Path::new(ROOT).join("sample-recipes").join(name));
            let analysis = analyse(&recipe, ROOM);
            let intended_use = recipe.intended_use.map(|of| format!(" for {}", of.words())).unwrap_or_default();
            let head = format!("{}{intended_use}, {} g", recipe.kind.words(), analysis.make_up.weighed.0);
            assert!(row[1].ends_with(&head), "{name}: {head}");

            let limit = analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v);
            let windows = analysis.seeding.map(|seeding| [Some(seeding.window), seeding.unmixed]).into_iter().flatten();
            let ends = windows.flatten().flat_map(|window| [window.min, window.max]);
            let figures: BTreeSet<String> =
                ends.chain(limit).map(|celsius| fixed(celsius.0, 1, DecimalSign::Point)).collect();
            let words = row[2].split_whitespace().filter(|word| word.contains('.') && word.parse::<f64>().is_ok());
            for figure in words {
                assert!(figures.contains(figure), "{name}: {figure} is none of {figures:?}");
            }
        }
        let names = sample_files().iter().filter_map(|path| Some(path.file_name()?.to_str()?.to_owned())).collect();
        assert_eq!(described, names);
    }
}

mod readme {
    use super::*;

    #[test]
    fn every_attribution_is_named_with_its_licence() {
        let page = page("README.md");
        let mut count = 0;
        for source in source::all().iter().filter(|source| !source.attribution.is_empty()) {
            assert!(page.contains(&source.attribution), "{}", source.key);
            assert!(page.contains(&source.licence), "{}", source.key);
            count += 1;
        }
        assert!(count >= 3, "only {count} attributions");
    }

    #[test]
    fn the_count_of_ingredients_is_right() {
        let count = Library::built_in().iter().count();
        assert!(page("README.md").contains(&format!("{count} generic ingredients")), "{count}");
        assert!(samples_page().contains(&format!("{count} built-in ingredients")), "{count}");
    }

    /// The list of files is kept by hand in `library.rs`.
    #[test]
    fn every_file_of_ingredients_is_part_of_the_program() {
        let folder = fs::read_dir(Path::new(ROOT).join("assets/ingredients")).expect("the folder is there");
        let options = ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        let mut count = 0;
        for entry in folder {
            let path = entry.expect("an entry").path();
            let text = fs::read_to_string(&path).expect("it is text");
            let entries: Vec<nibwright::ingredient::file::Entry> = options.from_str(&text).expect("it is well formed");
            for entry in entries {
                assert!(Library::built_in().by_id(&entry.id).is_some(), "{} of {}", entry.id, path.display());
                count += 1;
            }
        }
        assert_eq!(count, Library::built_in().iter().count());
    }

    /// The first steps quote the sample before and after its cream is changed.
    #[test]
    fn the_figures_of_the_first_steps_are_those_of_the_program() {
        let page = page("README.md");
        let steps = section(&page, "## First steps");
        let before = sample(&Path::new(ROOT).join("sample-recipes/dark-cut-ganache.ron"));
        let mut after = before.clone();
        let cream = after.lines.iter_mut().find(|line| line.ingredient.id == "cream-35").expect("there is cream");
        assert_eq!(cream.amount.grams().0, 200.0);
        cream.amount = Quantity::from_grams(240.0).expect("an amount");
        let [before, after] = [before, after].map(|recipe| analyse(&recipe, ROOM));

        let one = |value: f64| fixed(value, 1, DecimalSign::Point);
        let water =
            |analysis: &Analysis| one(analysis.make_up.bowl.share(Component::Water).expect("known").to_percent());
        let dispersed = |analysis: &Analysis| {
            fixed(analysis.emulsion.emulsion().expect("an emulsion").dispersed_share().0, 2, DecimalSign::Point)
        };
        let fat = |analysis: &Analysis| analysis.fat.clone().expect("there is fat");
        let limit = |analysis: &Analysis| one(fat(analysis).limits.form_v.expect("a limit").0);
        let crystals =
            |analysis: &Analysis| one(fat(analysis).crystals_of_mass(analysis.make_up.bowl.total()).to_percent());
        let window = |window: Window| format!("{} to {} °C", one(window.min.0), one(window.max.0));
        let seeding = before.seeding.expect("it can be seeded");
        let equal_time = seeding.equal_time_seed(before.make_up.bowl.total()).expect("a dose for equal setting time");
        for words in [
            format!("a recipe of {} g", grams(before.make_up.weighed.0, DecimalSign::Point)),
            format!("The water goes from {} to {} %", water(&before), water(&after)),
            format!("dispersed share {} instead of {}", dispersed(&after), dispersed(&before)),
            format!("the form V limit falls from {} to {} °C", limit(&before), limit(&after)),
            format!("{} % instead of {} % of fat crystals", crystals(&after), crystals(&before)),
            format!("{} once all fats have mixed", window(seeding.window)),
            format!("{} while the emulsion is fresh", window(seeding.unmixed.expect("an emulsion with cream"))),
            format!(
                "with {} to {} g of tempered cocoa butter",
                grams(seeding.seed.0, DecimalSign::Point),
                grams(equal_time.0, DecimalSign::Point)
            ),
        ] {
            assert!(steps.contains(&words), "{words}");
        }
    }

    #[cfg(feature = "gui")]
    #[test]
    fn every_command_with_keys_stands_in_the_table_and_no_other() {
        use nibwright::ui::command::Command;
        let row = |command: Command| {
            let keys = command.keys().iter().map(|keys| keys.format(&egui::ModifierNames::NAMES, false));
            (keys.collect::<Vec<_>>().join(", "), command.label().trim_end_matches('…').to_owned())
        };
        let expected: BTreeSet<_> = Command::all().filter(|command| !command.keys().is_empty()).map(row).collect();
        let page = page("README.md");
        let table =
            section(&page, "## Keys").split("\n\n").find(|table| table.contains("| Ctrl+N |")).expect("a table");
        let written: BTreeSet<_> =
            rows(table).iter().skip(2).map(|row| (row[0].to_owned(), row[1].to_owned())).collect();
        assert_eq!(written, expected);
    }
}
