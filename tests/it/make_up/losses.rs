//! What is lost on the way and what is not known: balances of mass by hand.

use std::sync::Arc;

use approx::{assert_abs_diff_eq, assert_relative_eq};
use nibwright::analysis::finding::{Level, Subject};
use nibwright::analysis::parts::Group;
use nibwright::ingredient::{Component, Ingredient};
use nibwright::recipe::{LineId, MassUnit, Quantity, Recipe, TransferLoss};
use nibwright::report::json;
use nibwright::units::Grams;

use crate::support::{
    analysis_of, built_in, codes, evaporating, finding, grams, group, own, own_with, percent, recipe, recipe_of,
};

/// Balance of mass: what the lines bring is in the bowl or has evaporated.
#[test]
fn the_lines_sum_to_the_bowl_and_what_evaporated() {
    let caramel = evaporating(
        recipe(&[
            ("sucrose", 300.0),
            ("glucose-syrup-de40", 200.0),
            ("cream-35", 300.0),
            ("butter-salted", 80.0),
            ("cocoa-butter", 20.0),
        ]),
        160.0,
    );
    let make_up = analysis_of(&caramel).make_up;
    assert_eq!(make_up.evaporated, Grams(160.0));
    assert_relative_eq!(make_up.bowl.total().0, 740.0, max_relative = 1e-12);
    for component in Component::ALL {
        let brought: f64 =
            make_up.lines.iter().filter_map(|line| line.parts.grams(component)).map(|grams| grams.0).sum();
        let evaporated = if component == Component::Water { 160.0 } else { 0.0 };
        let left = make_up.bowl.grams(component).expect("all is known");
        assert_relative_eq!(brought, left.0 + evaporated, max_relative = 1e-12, epsilon = 1e-12);
    }
}

/// A syrup of so much water and so much sucrose.
fn syrup(water_percent: f64) -> Arc<Ingredient> {
    own("syrup", &[(Component::Water, water_percent), (Component::Sucrose, 100.0 - water_percent)])
}

/// Balance of mass, m = 1500 · (1 − 0.24)/(1 − 0.09), worked out by hand: 247.253 g evaporate, 1252.747 g are left.
#[test]
fn cooking_down_to_a_water_content() {
    let cooked = analysis_of(&evaporating(recipe_of(&[(syrup(24.0), 1500.0)]), 247.253));
    assert_abs_diff_eq!(cooked.make_up.bowl.total().0, 1252.747, epsilon = 5e-4);
    assert_abs_diff_eq!(percent(&cooked, Component::Water), 9.0, epsilon = 5e-4);
    assert_abs_diff_eq!(percent(&cooked, Component::Sucrose), 91.0, epsilon = 5e-4);
}

/// Balance of mass by hand: 1000 g of cream with 59.5 % water and 35 % fat lose 40 g of water, 555/960 and 350/960 are left;
/// within the last digit of the worked example.
#[test]
fn cream_that_loses_a_twenty_fifth_has_the_shares_of_the_worked_example() {
    let parts = [(Component::Water, 59.5), (Component::MilkFat, 35.0), (Component::MilkProtein, 5.5)];
    let cream = analysis_of(&evaporating(recipe_of(&[(own("cream", &parts), 1000.0)]), 40.0));
    assert_abs_diff_eq!(percent(&cream, Component::Water), 57.813, epsilon = 1e-3);
    assert_abs_diff_eq!(percent(&cream, Component::MilkFat), 36.458, epsilon = 1e-3);
}

/// Balance of mass: with a share e of the mass evaporated a dry part x becomes x/(1 − e), water w (w − e)/(1 − e).
#[test]
fn what_evaporation_does_to_every_share() {
    let lines = [("passion-fruit-puree", 150.0), ("couverture-milk-36", 300.0), ("rum-40", 50.0)];
    let before = analysis_of(&recipe(&lines));
    for gone in [1.0, 40.0, 111.0] {
        let after = analysis_of(&evaporating(recipe(&lines), gone));
        let share = gone / 500.0;
        for component in Component::ALL {
            let dry = percent(&before, component);
            let expected =
                if component == Component::Water { (dry - 100.0 * share) / (1.0 - share) } else { dry / (1.0 - share) };
            assert_relative_eq!(percent(&after, component), expected, max_relative = 1e-12, epsilon = 1e-12);
        }
    }
}

/// Nothing but water evaporates, so what is left cannot be lighter than the dry mass.
#[test]
fn more_than_all_water_cannot_evaporate() {
    let dried = analysis_of(&evaporating(recipe_of(&[(syrup(24.0), 1500.0)]), 400.0));
    assert_eq!(dried.make_up.evaporated, Grams(360.0));
    assert_eq!(percent(&dried, Component::Water), 0.0);
    assert_relative_eq!(dried.make_up.bowl.total().0, 1140.0, max_relative = 1e-12);
    let finding = finding(&dried, "evaporation_exceeds_water");
    assert_eq!(finding.level, Level::Problem);
    assert_eq!(dried.findings.first(), Some(finding), "the most serious stands first");
    assert_eq!((finding.value, finding.usual_high), (Some(400.0), Some(360.0)));

    let all = analysis_of(&evaporating(recipe_of(&[(syrup(24.0), 1500.0)]), 360.0));
    assert_eq!(percent(&all, Component::Water), 0.0);
    assert!(!codes(&all).contains(&"evaporation_exceeds_water"), "all water is not too much");
}

/// The same where the water is a sum that binary numbers cannot hold: 100.1 + 200.2 g.
#[test]
fn all_water_is_not_too_much_in_any_batch() {
    for step in 1..200 {
        let batch = f64::from(step);
        let lines = [(syrup(100.0), 0.1 * batch), (syrup(100.0), 0.2 * batch), (syrup(0.0), 1.0)];
        let dried = analysis_of(&evaporating(recipe_of(&lines), 0.3 * batch));
        assert!(!codes(&dried).contains(&"evaporation_exceeds_water"), "batch {batch}");
        assert_abs_diff_eq!(percent(&dried, Component::Water), 0.0, epsilon = 1e-9);
        let too_much = analysis_of(&evaporating(recipe_of(&lines), 0.300_1 * batch));
        assert!(codes(&too_much).contains(&"evaporation_exceeds_water"), "batch {batch}");
    }
}

/// Pure water dried away leaves nothing, and of nothing there are no shares; the rounding of sums is no mass.
#[test]
fn water_dried_away_leaves_nothing() {
    for step in 1..400 {
        let batch = 0.07 * f64::from(step);
        let lines = [(syrup(100.0), batch), (syrup(100.0), 0.29 * batch), (built_in("water"), 3.3 * batch)];
        let dried = analysis_of(&evaporating(recipe_of(&lines), 1e6));
        let bowl = &dried.make_up.bowl;
        assert_eq!(bowl.total(), Grams::ZERO, "{batch} g");
        assert!(Component::ALL.into_iter().all(|component| bowl.share(component).is_none()), "{batch} g");
        assert_eq!(dried.make_up.finished, Grams::ZERO);
    }
}

/// Where the water is not known, what is known to be something else stays all the same.
#[test]
fn what_is_known_not_to_be_water_does_not_evaporate() {
    let parts = [(Component::Sucrose, 60.0), (Component::Fibre, 15.0)];
    let moist = own_with("moist", &parts, &[Component::Water, Component::Salt], 0.0);
    let cooked = analysis_of(&evaporating(recipe_of(&[(moist, 200.0)]), 80.0));
    assert_abs_diff_eq!(cooked.make_up.evaporated.0, 50.0, epsilon = 1e-9);
    assert_abs_diff_eq!(percent(&cooked, Component::Sucrose), 80.0, epsilon = 1e-9);
    assert_eq!(cooked.make_up.bowl.share(Component::Water), None);
}

/// What sticks to bowls and bags is mass of the same composition.
#[test]
fn a_transfer_loss_keeps_the_composition() {
    let lines = [("cream-35", 200.0), ("couverture-dark-64", 250.0)];
    let mut with_loss = recipe(&lines);
    with_loss.losses.transfer = TransferLoss::from_percent(3.0).expect("below 100 %");
    let (with, without) = (analysis_of(&with_loss), analysis_of(&recipe(&lines)));
    assert_relative_eq!(with.make_up.finished.0, 436.5, max_relative = 1e-12);
    assert_eq!(with.make_up.bowl, without.make_up.bowl);
    assert_eq!(with.seeding, without.seeding);
    assert_eq!(with.findings, without.findings);
}

/// A paste of which the sheet leaves the fat and the salt open.
fn half_known() -> Arc<Ingredient> {
    let parts = [(Component::Water, 10.0), (Component::Sucrose, 40.0), (Component::Fibre, 5.0)];
    own_with("half-known", &parts, &[Component::OtherFat, Component::Salt], 0.0)
}

/// Unknown is not zero: every sum with an unknown part is unknown, every other sum is not touched.
#[test]
fn what_is_not_known_stays_unknown_and_is_named() {
    let recipe = recipe_of(&[(built_in("couverture-dark-64"), 300.0), (half_known(), 100.0)]);
    let analysis = analysis_of(&recipe);
    let bowl = &analysis.make_up.bowl;
    for component in Component::ALL {
        let is_open = matches!(component, Component::OtherFat | Component::Salt);
        assert_eq!(bowl.share(component).is_none(), is_open, "{component:?}");
    }
    for group in Group::ALL {
        let is_open = matches!(group, Group::OtherFat | Group::TotalFat | Group::OtherSolids | Group::LiquidOil);
        assert_eq!(bowl.group_share(group).is_none(), is_open, "{group:?}");
    }
    assert_relative_eq!(group(&analysis, Group::Water), (300.0 * 0.55 + 100.0 * 10.0) / 400.0, max_relative = 1e-12);
    assert_relative_eq!(group(&analysis, Group::Sugars), (300.0 * 35.05 + 100.0 * 40.0) / 400.0, max_relative = 1e-12);
    assert_eq!(bowl.unassigned(), None);
    assert!(analysis.fat.is_err() && analysis.seeding.is_none() && analysis.phase_bar.is_none());
    assert_eq!(analysis.emulsion.emulsion(), None);

    let unknown: Vec<_> = analysis.findings.iter().filter(|finding| finding.code == "unknown_input").collect();
    assert_eq!(unknown.len(), 1);
    let expected = Subject::UnknownInput {
        line: LineId(1),
        name: "half-known".to_owned(),
        missing: vec![Component::OtherFat, Component::Salt],
    };
    assert_eq!(unknown[0].subject, expected);
}

/// The same in the report for programs: `null`, never 0.
#[test]
fn what_is_not_known_is_null_in_the_report() {
    let recipe = recipe_of(&[(built_in("couverture-dark-64"), 300.0), (half_known(), 100.0)]);
    let text = json::report(&recipe, &analysis_of(&recipe)).expect("it can be written");
    let report: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
    let at = |path: &str| report.pointer(path).unwrap_or_else(|| panic!("{path} is there"));
    for path in [
        "/composition/other_fat",
        "/composition/salt",
        "/composition/unassigned",
        "/groups/other_fat",
        "/groups/total_fat",
        "/groups/other_solids",
        "/lines/1/composition_g/other_fat",
        "/emulsion/phi_fat",
        "/emulsion/phi_dispersed",
        "/emulsion/fat_to_water",
        "/fat",
        "/seeding",
    ] {
        assert!(at(path).is_null(), "{path} is {}", at(path));
    }
    for path in ["/mass_g", "/composition/water", "/groups/sugars", "/lines/0/composition_g/other_fat"] {
        assert!(at(path).is_number(), "{path} is {}", at(path));
    }
}

/// An ingredient of which nothing is weighed has no say.
#[test]
fn a_line_of_nothing_changes_nothing() {
    let lines = [(built_in("cream-35"), 200.0), (built_in("couverture-dark-64"), 250.0)];
    let with: Vec<_> = lines
        .iter()
        .cloned()
        .chain([(half_known(), 0.0), (Arc::new(Ingredient::unknown("x", "x")), 0.0), (built_in("egg-yolk"), 0.0)])
        .collect();
    let (with, without) = (analysis_of(&recipe_of(&with)), analysis_of(&recipe_of(&lines)));
    assert_eq!(with.make_up.bowl, without.make_up.bowl);
    assert_eq!(with.findings, without.findings);
    assert_eq!(with.seeding, without.seeding);
    assert_eq!(with.phase_bar, without.phase_bar);
}

/// With nothing weighed there is no share of anything.
#[test]
fn an_empty_recipe_has_no_shares() {
    for empty in [Recipe::default(), recipe(&[("cream-35", 0.0)])] {
        let analysis = analysis_of(&empty);
        assert_eq!(codes(&analysis), ["empty_recipe"]);
        assert!(Component::ALL.into_iter().all(|component| analysis.make_up.bowl.share(component).is_none()));
        assert!(analysis.fat.is_err() && analysis.seeding.is_none() && analysis.phase_bar.is_none());
    }
}

/// What a data sheet leaves open is shown as what it is and counted nowhere else.
#[test]
fn what_a_data_sheet_leaves_open_is_shown() {
    let parts = [(Component::Water, 30.0), (Component::Sucrose, 60.0), (Component::Fibre, 5.5)];
    let jam = own("jam", &parts);
    let recipe = recipe_of(&[(jam, 200.0), (built_in("water"), 200.0)]);
    let analysis = analysis_of(&recipe);
    let unassigned = analysis.make_up.bowl.unassigned().expect("all is known");
    assert_abs_diff_eq!(unassigned.0, 9.0, epsilon = 1e-9);
    // 100 less water, ethanol, fats, sugars and fat-free cocoa: the fibre and what is open.
    assert_abs_diff_eq!(group(&analysis, Group::OtherSolids), (2.0 * 5.5 + 9.0) / 4.0, epsilon = 1e-9);
    let text = json::report(&recipe, &analysis).expect("it can be written");
    let report: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
    let shown = report.pointer("/composition/unassigned").and_then(serde_json::Value::as_f64);
    assert_abs_diff_eq!(shown.expect("a number"), 2.25, epsilon = 1e-9);
    assert!(!codes(&analysis).contains(&"unknown_input"), "open is not unknown");
}

/// Amounts are added up whatever unit they were typed in (pound and ounce by NIST SP 811, Appendix B).
#[test]
fn units_of_amounts_add_up() {
    let mut recipe = Recipe::default();
    for (value, unit) in [(12.0, MassUnit::Ounce), (2.5, MassUnit::Pound), (0.5, MassUnit::Kilogram)] {
        recipe.push(built_in("water"), Quantity::new(value, unit).expect("an amount"));
    }
    recipe.push(built_in("sucrose"), grams(25.0));
    let expected = 340.194_277_5 + 1_133.980_925 + 500.0 + 25.0;
    assert_relative_eq!(analysis_of(&recipe).make_up.bowl.total().0, expected, max_relative = 1e-12);
}
