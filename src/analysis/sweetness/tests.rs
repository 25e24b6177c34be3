use approx::assert_abs_diff_eq;

use super::*;
use crate::ingredient::{Composition, Ingredient, Library, MaltoseKind, Properties};

fn own(parts: &[(Component, f64)], properties: Properties) -> Ingredient {
    let composition =
        Composition::new(parts.iter().copied(), [], 100.0 - parts.iter().map(|(_, grams)| grams).sum::<f64>());
    Ingredient { composition: composition.expect("it closes"), properties, ..Ingredient::unknown("a", "a") }
}

fn of(ingredient: &Ingredient) -> Option<Sweetness> {
    let mut parts = Parts::default();
    parts.add(ingredient, Grams(250.0));
    sweetness(&parts)
}

fn check(ingredient: &Ingredient, value: f64, low: f64, high: f64) {
    let sweetness = of(ingredient).unwrap_or_else(|| panic!("{} is known", ingredient.id));
    for (name, computed, expected) in
        [("value", sweetness.value, value), ("low", sweetness.low, low), ("high", sweetness.high, high)]
    {
        assert!((computed - expected).abs() < 0.005, "{}, {name}: {computed}, expected {expected}", ingredient.id);
    }
}

/// Varzakas et al. 2012, Table 2.1, with J. Food Sci. Technol. 2014, 51:611, BMC Med. 2011, 9:123, and Public Health Nutr. 2023, 26:952.
#[test]
fn each_sugar_and_sugar_alcohol_has_the_sweetness_of_the_sources() {
    let sugar = |component| own(&[(component, 100.0)], Properties::default());
    for (component, value, low, high) in [
        (Component::Sucrose, 100.0, 100.0, 100.0),
        (Component::Fructose, 150.0, 150.0, 180.0),
        (Component::Glucose, 70.0, 50.0, 80.0),
        (Component::Lactose, 20.0, 15.0, 40.0),
        (Component::Maltose, 40.0, 30.0, 50.0),
    ] {
        check(&sugar(component), value, low, high);
    }
    let polyol =
        |kind| own(&[(Component::Polyols, 100.0)], Properties { polyol_kind: Some(kind), ..Properties::default() });
    for (kind, value, low, high) in [
        (PolyolKind::Sorbitol, 60.0, 50.0, 70.0),
        (PolyolKind::Maltitol, 85.0, 50.0, 90.0),
        (PolyolKind::Xylitol, 100.0, 85.0, 120.0),
        (PolyolKind::Erythritol, 65.0, 60.0, 80.0),
        (PolyolKind::Mannitol, 55.0, 40.0, 72.0),
        (PolyolKind::Lactitol, 35.0, 30.0, 40.0),
        (PolyolKind::Isomalt, 50.0, 45.0, 65.0),
    ] {
        check(&polyol(kind), value, low, high);
    }
    let trehalose = Properties { maltose_kind: MaltoseKind::Trehalose, ..Properties::default() };
    check(&own(&[(Component::Maltose, 100.0)], trehalose), 50.0, 45.0, 70.0);
}

/// The same tables: invert sugar 110, in a range of 100 to 130.
#[test]
fn invert_sugar_lies_between_glucose_and_fructose() {
    let invert = own(&[(Component::Glucose, 50.0), (Component::Fructose, 50.0)], Properties::default());
    check(&invert, 110.0, 100.0, 130.0);
}

/// Computed from compositions: DE 28 to 30, 36 to 38, 42 and 63 give 25, 35, 45 and 65, each ±10.
#[test]
fn the_solids_of_a_glucose_syrup_are_as_sweet_as_its_dextrose_equivalent_says() {
    for (equivalent, value) in [(29.0, 25.0), (37.0, 35.0), (42.0, 45.0), (63.0, 65.0), (33.0, 30.0)] {
        let properties = Properties { dextrose_equivalent: Some(equivalent), ..Properties::default() };
        let parts = [(Component::Glucose, 20.0), (Component::Maltose, 15.0), (Component::HigherSaccharides, 65.0)];
        check(&own(&parts, properties), value, value - 10.0, value + 10.0);
    }
    // DE 40: 41 of 79.8 g of solids.
    let syrup = Library::built_in().by_id("glucose-syrup-de40").expect("it is built in");
    check(syrup, 0.798 * 41.0, 0.798 * 31.0, 0.798 * 51.0);
}

#[test]
fn higher_saccharides_without_a_dextrose_equivalent_are_between_not_sweet_and_maltose() {
    check(&own(&[(Component::HigherSaccharides, 100.0)], Properties::default()), 25.0, 0.0, 40.0);
}

#[test]
fn polyols_of_unknown_kind_could_be_any() {
    check(&own(&[(Component::Polyols, 100.0)], Properties::default()), 60.0, 30.0, 120.0);
}

#[test]
fn what_a_data_sheet_leaves_open_is_at_most_as_sweet_as_fructose() {
    check(&own(&[(Component::Sucrose, 90.0)], Properties::default()), 90.0, 90.0, 108.0);
}

#[test]
fn fat_water_and_starch_are_not_sweet_and_an_unknown_sugar_leaves_it_unknown() {
    let plain = [(Component::OtherFat, 40.0), (Component::Water, 40.0), (Component::Starch, 20.0)];
    check(&own(&plain, Properties::default()), 0.0, 0.0, 0.0);
    for component in [Component::Sucrose, Component::Lactose, Component::HigherSaccharides, Component::Polyols] {
        let composition = Composition::new([(Component::Water, 50.0)], [component], 0.0).expect("it is below 100 g");
        let ingredient = Ingredient { composition, ..Ingredient::unknown("a", "a") };
        assert_eq!(of(&ingredient), None, "{}", component.words());
    }
    let composition = Composition::new([(Component::Sucrose, 50.0)], [Component::Fibre], 0.0).expect("below 100 g");
    assert!(of(&Ingredient { composition, ..Ingredient::unknown("a", "a") }).is_some(), "fibre is not sweet");
    assert_eq!(sweetness(&Parts::default()), None, "no mass");
}

#[test]
fn two_masses_are_as_sweet_as_both_and_every_band_holds_its_value() {
    let mut all = Parts::default();
    let mut sum = 0.0;
    for ingredient in Library::built_in().iter() {
        let mut one = Parts::default();
        one.add(ingredient, Grams(40.0));
        all.add(ingredient, Grams(40.0));
        let SucroseEquivalent { value, low, high } = sucrose_equivalent(&one).expect("all of it is known");
        assert!(low <= value && value <= high && low.0 >= 0.0, "{}: {low:?} {value:?} {high:?}", ingredient.id);
        sum += value.0;
    }
    assert_abs_diff_eq!(sucrose_equivalent(&all).expect("it is known").value.0, sum, epsilon = 1e-6);
}
