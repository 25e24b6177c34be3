//! The usual ranges by use, all of them as data, compared as they are shown: with one decimal.
//!
//! Every end is common practice without a published source but for those that [`TABLE`] names.

use nibwright::analysis::Analysis;
use nibwright::analysis::emulsion::JAMMING;
use nibwright::analysis::finding::{Level, Subject};
use nibwright::analysis::usual::usual_ranges;
use nibwright::ingredient::{Category, Component};
use nibwright::recipe::{Kind, Recipe, Use};
use nibwright::report::json;
use nibwright::report::words::basis;
use serde_json::Value;

use crate::support::{
    analysis_of, check_remedies, codes, evaporating, made_for, own, recipe, recipe_of, remedied, remedies,
};

/// A row of the table: its path in the report, a component that is counted in it, and the ends by column.
///
/// Columns: cut (slabbed) ganache; moulded or piped filling; tart or spread; mousse base; nut praline that sets.
type Row = (&'static str, Component, [(f64, f64); 5]);

/// Published are: water up to 20 %, sugars from 30 % (the hint begins at 28) and cocoa butter from 21 % for a ganache
/// that keeps (Morato 2007, quoted in a professional discussion), milk fat up to 15 % (the same, from memory), each syrup
/// up to 10 % (L'hote, teaching sheet), and of a nut nougat mass water up to 2 %, fat from 30 %, sugars up to 50 %
/// (German guidelines for oil seeds; Austrian Food Book B15).
const TABLE: [Row; 9] = [
    ("groups.water", Component::Water, [(16.0, 20.0), (18.0, 24.0), (25.0, 35.0), (30.0, 45.0), (0.0, 2.0)]),
    (
        "groups.total_fat",
        Component::CocoaButter,
        [(33.0, 40.0), (28.0, 36.0), (28.0, 36.0), (20.0, 30.0), (32.0, 45.0)],
    ),
    (
        "groups.cocoa_butter",
        Component::CocoaButter,
        [(21.0, 26.0), (14.0, 20.0), (10.0, 18.0), (8.0, 15.0), (8.0, 18.0)],
    ),
    ("groups.milk_fat", Component::MilkFat, [(8.0, 15.0), (8.0, 16.0), (12.0, 22.0), (8.0, 15.0), (0.0, 8.0)]),
    ("groups.liquid_oil", Component::OtherFat, [(0.0, 5.0), (0.0, 8.0), (0.0, 8.0), (0.0, 5.0), (20.0, 35.0)]),
    ("groups.sugars", Component::Sucrose, [(28.0, 36.0), (26.0, 36.0), (18.0, 30.0), (15.0, 28.0), (30.0, 50.0)]),
    (
        "groups.syrup_solids",
        Component::HigherSaccharides,
        [(5.0, 12.0), (5.0, 15.0), (0.0, 10.0), (0.0, 5.0), (0.0, 3.0)],
    ),
    (
        "groups.fat_free_cocoa_solids",
        Component::FatFreeCocoaSolids,
        [(8.0, 18.0), (5.0, 13.0), (5.0, 12.0), (4.0, 10.0), (0.0, 8.0)],
    ),
    ("composition.ethanol", Component::Ethanol, [(0.0, 4.0), (0.0, 5.0), (0.0, 3.0), (0.0, 3.0), (0.0, 0.0)]),
];

/// A kind and use for each column.
const COLUMNS: [(Kind, Option<Use>); 5] = [
    (Kind::Ganache, Some(Use::Cut)),
    (Kind::Ganache, Some(Use::Moulded)),
    (Kind::Ganache, Some(Use::Spread)),
    (Kind::MousseBase, None),
    (Kind::Praline, None),
];

/// A mass with so many percent of one component and else nothing that the table looks at.
fn mass_with(component: Component, percent: f64, (kind, intended_use): (Kind, Option<Use>)) -> Recipe {
    let parts = [(component, percent), (Component::AcidsAshOther, 100.0 - percent)];
    made_for(recipe_of(&[(own("mass", &parts), 100.0)]), kind, intended_use)
}

/// `.low`, `.high` or nothing for a row at so many percent.
fn hint(path: &str, recipe: &Recipe) -> Option<&'static str> {
    let found: Vec<_> = codes(&analysis_of(recipe))
        .into_iter()
        .filter_map(|code| ["low", "high"].into_iter().find(|end| code == format!("{path}.{end}")))
        .collect();
    assert!(found.len() <= 1, "{path}: {found:?}");
    found.first().copied()
}

fn check_hint((path, component, _): &Row, column: (Kind, Option<Use>), percent: f64, expected: Option<&str>) {
    let found = hint(path, &mass_with(*component, percent, column));
    assert_eq!(found, expected, "{path} at {percent} % for {column:?}");
}

#[test]
fn the_ranges_are_those_of_the_table() {
    for (idx, (kind, intended_use)) in COLUMNS.into_iter().enumerate() {
        let ranges = usual_ranges(&made_for(Recipe::default(), kind, intended_use));
        let stated: Vec<_> = ranges.iter().map(|range| (range.of.path(), range.low, range.high)).collect();
        let expected: Vec<_> =
            TABLE.iter().map(|(path, _, ends)| ((*path).to_owned(), ends[idx].0, ends[idx].1)).collect();
        assert_eq!(stated, expected, "{kind:?}");
    }
}

/// Shares are compared as they are shown: 20.04 shows 20.0 and is within 20, 20.05 shows 20.1 and is not (half up).
#[test]
fn every_end_is_compared_as_it_is_shown() {
    for row in &TABLE {
        for (idx, column) in COLUMNS.into_iter().enumerate() {
            let (low, high) = row.2[idx];
            // Water of a nut praline is "less than 2", so 2.0 is outside.
            let is_below = row.0 == "groups.water" && column.0 == Kind::Praline;
            let top = if is_below { high - 0.1 } else { high };
            check_hint(row, column, top + 0.04, None);
            check_hint(row, column, top + 0.05, Some("high"));
            check_hint(row, column, top, None);
            check_hint(row, column, low, None);
            if low > 0.0 {
                check_hint(row, column, low - 0.05, None);
                check_hint(row, column, low - 0.06, Some("low"));
            }
        }
    }
}

/// "Under 2 %" is the only row whose upper end lies outside; the JSON report says so of the row and of its finding.
#[test]
fn an_upper_end_that_lies_outside_is_said_in_the_report() {
    let report = |percent| -> Value {
        let mass = mass_with(Component::Water, percent, COLUMNS[4]);
        let text = json::report(&mass, &analysis_of(&mass)).expect("it can be written");
        serde_json::from_str(&text).expect("it is JSON")
    };
    let wet = report(2.0);
    let rows = wet["usual"].as_array().expect("a list");
    let outside: Vec<_> = rows.iter().filter(|row| row["high_is_outside"] == true).map(|row| &row["path"]).collect();
    assert_eq!(outside, ["groups.water"]);
    let findings = wet["findings"].as_array().expect("a list");
    let of = |code: &str| findings.iter().find(|finding| finding["code"] == code).unwrap_or_else(|| panic!("{code}"));
    assert_eq!(of("groups.water.high")["usual_high_is_outside"], true);
    assert_eq!(of("groups.total_fat.low")["usual_high_is_outside"], false);
}

#[test]
fn twenty_point_nought_four_percent_of_water_is_usual_for_cutting() {
    let row = &TABLE[0];
    for (percent, expected) in [(15.94, Some("low")), (15.95, None), (20.0, None), (20.04, None), (20.05, Some("high"))]
    {
        check_hint(row, COLUMNS[0], percent, expected);
    }
    for (percent, expected) in [(0.0, None), (1.94, None), (1.95, Some("high")), (2.0, Some("high"))] {
        check_hint(row, COLUMNS[4], percent, expected);
    }
}

/// Cutting has the first column; moulding and piping the second; spreading the third; whipping and every mousse base the
/// fourth; every praline its own. Chocolate, caramel and other masses have none, nor has a ganache for another use.
#[test]
fn which_column_holds_for_which_kind_and_use() {
    const NONE: Option<usize> = None;
    let uses = [
        None,
        Some(Use::Cut),
        Some(Use::Moulded),
        Some(Use::Piped),
        Some(Use::Spread),
        Some(Use::Whipped),
        Some(Use::Bar),
        Some(Use::ThickBar),
        Some(Use::Shell),
        Some(Use::ThinCoat),
    ];
    assert_eq!(uses.len(), Use::ALL.len() + 1);
    let expected = [
        (Kind::Ganache, [NONE, Some(0), Some(1), Some(1), Some(2), Some(3), NONE, NONE, NONE, NONE]),
        (Kind::Praline, [Some(4); 10]),
        (Kind::Chocolate, [NONE; 10]),
        (Kind::Caramel, [NONE; 10]),
        (Kind::MousseBase, [Some(3); 10]),
        (Kind::Other, [NONE; 10]),
    ];
    for (kind, columns) in expected {
        for (intended_use, column) in uses.into_iter().zip(columns) {
            let ranges = usual_ranges(&made_for(Recipe::default(), kind, intended_use));
            let water = ranges.first().map(|range| (range.low, range.high));
            assert_eq!(water, column.map(|column| TABLE[0].2[column]), "{kind:?} for {intended_use:?}");
            assert_eq!(ranges.len(), if column.is_some() { TABLE.len() } else { 0 });
        }
    }
}

/// Hints are hints: a share outside the usual is never more than a note, and it says on what the range rests.
#[test]
fn a_hint_is_a_note_and_names_its_source() {
    let mass = mass_with(Component::Water, 60.0, COLUMNS[0]);
    let analysis = analysis_of(&mass);
    let mut count = 0;
    for finding in &analysis.findings {
        let Subject::OutsideUsual { range, .. } = &finding.subject else { continue };
        count += 1;
        assert_eq!(finding.level, Level::Note);
        let published = ["groups.water", "groups.cocoa_butter", "groups.milk_fat", "groups.sugars"];
        let path = range.of.path();
        if published.contains(&path.as_str()) {
            assert!(basis(range).contains("Morato 2007"), "{path}: {}", basis(range));
        } else {
            assert!(basis(range).contains("common practice"), "{path}: {}", basis(range));
        }
    }
    assert!(count >= 6, "{count}");
}

/// What a hint offers is carried out on its line, the recipe computed again: the share is at the end of its range.
#[test]
fn every_remedy_of_a_hint_does_what_it_says() {
    let cases = [
        made_for(recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]), Kind::Ganache, Use::Cut),
        made_for(
            recipe(&[("couverture-milk-40", 250.0), ("cream-35", 220.0), ("invert-syrup", 90.0), ("rum-40", 70.0)]),
            Kind::Ganache,
            Use::Moulded,
        ),
        made_for(
            recipe(&[("hazelnut-paste", 300.0), ("sucrose", 120.0), ("cocoa-butter", 20.0), ("water", 30.0)]),
            Kind::Praline,
            None,
        ),
        made_for(
            evaporating(recipe(&[("milk-whole", 300.0), ("couverture-dark-70", 260.0), ("egg-yolk", 40.0)]), 30.0),
            Kind::MousseBase,
            None,
        ),
        made_for(
            recipe(&[("coconut-cream", 120.0), ("couverture-dark-60", 300.0), ("oil-sunflower", 60.0)]),
            Kind::Ganache,
            Use::Spread,
        ),
    ];
    let count: usize = cases.iter().map(check_remedies).sum();
    assert!(count >= 10, "{count} remedies");
}

/// What is offered does not mend one figure by spoiling another: carried out, no figure that was usual is outside, the
/// droplets have no less room than the limit, and nothing that works by the pinch grows.
#[test]
fn no_remedy_spoils_another_figure() {
    let cases = [
        recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 40.0), ("invert-syrup", 25.0)]),
        recipe(&[("couverture-dark-64", 400.0), ("cream-35", 300.0), ("butter-82", 40.0), ("salt", 1.0)]),
        recipe(&[("couverture-dark-70", 300.0), ("cream-35", 320.0), ("sorbitol-powder", 20.0), ("honey", 40.0)]),
        recipe(&[("couverture-milk-40", 420.0), ("cream-35", 150.0), ("rum-40", 15.0), ("lecithin-soy", 2.0)]),
    ];
    let mut count = 0;
    for mass in cases.map(|mass| made_for(mass, Kind::Ganache, Use::Cut)) {
        let before = analysis_of(&mass);
        let is_crowded = |analysis: &Analysis| {
            analysis.emulsion.emulsion().is_some_and(|emulsion| emulsion.dispersed_share().0 > JAMMING.0 + 1e-3)
        };
        let hints = before.findings.iter().filter(|finding| finding.code != "emulsion.room");
        for remedy in hints.flat_map(remedies) {
            let after = analysis_of(&remedied(&mass, remedy));
            assert!(!is_crowded(&after) || is_crowded(&before), "{remedy:?} crowds the droplets");
            for range in &before.usual {
                let outside = |analysis: &Analysis| {
                    let percent = range.of.of(&analysis.make_up.bowl).expect("all is known").to_percent();
                    (range.low - percent).max(percent - range.high).max(0.0)
                };
                assert!(outside(&after) <= outside(&before) + 0.05, "{remedy:?} spoils {}", range.of.path());
            }
            let line = mass.line(remedy.line).expect("the line is there");
            let is_pinch = matches!(line.ingredient.category, Category::Additive | Category::Spirit | Category::Polyol);
            assert!(remedy.change.0 < 0.0 || !is_pinch, "{remedy:?}");
            assert!(remedy.change.0 <= 2.0 * line.amount.grams().0, "{remedy:?}");
            count += 1;
        }
    }
    assert!(count >= 4, "{count} remedies");
}
