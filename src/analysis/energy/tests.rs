use std::sync::Arc;

use approx::assert_abs_diff_eq;

use super::*;
use crate::analysis::{ROOM, analyse};
use crate::ingredient::{Composition, Ingredient, Library, Properties};
use crate::recipe::{Evaporation, Quantity, Recipe};

/// An ingredient with these grams in 100 g; what is left of 100 g is acids, ash and rest, so many grams of it acids.
fn own(parts: &[(Component, f64)], organic_acids_g: Option<f64>, polyol_kind: Option<PolyolKind>) -> Ingredient {
    let rest = 100.0 - parts.iter().map(|(_, grams)| grams).sum::<f64>();
    let parts = parts.iter().copied().chain([(Component::AcidsAshOther, rest)]);
    let composition = Composition::new(parts, [], 0.0).expect("it closes");
    let properties = Properties { organic_acids_g, polyol_kind, ..Properties::default() };
    Ingredient { composition, properties, ..Ingredient::unknown("a", "a") }
}

fn of(ingredient: &Ingredient) -> Option<Energy> {
    let mut parts = Parts::default();
    parts.add(ingredient, Grams(250.0));
    energy(&parts)
}

fn check(energy: Option<Energy>, kilojoules: f64, kilocalories: f64) {
    let energy = energy.expect("it is known");
    assert_abs_diff_eq!(energy.kilojoules.0, kilojoules, epsilon = 0.0005);
    assert_abs_diff_eq!(energy.kilocalories.0, kilocalories, epsilon = 0.0005);
}

/// By hand with the factors of Regulation (EU) No 1169/2011, Annex XIV: 1117.4 + 579.7 + 65 + 49.3 + 22.4 + 60.9 + 4.55 kJ,
/// 271.8 + 136.4 + 15.6 + 11.6 + 5.6 + 14.7 + 1.05 kcal.
#[test]
fn fat_carbohydrate_polyol_protein_fibre_alcohol_and_acid_have_their_factors() {
    let parts = [
        (Component::OtherFat, 30.2),
        (Component::Sucrose, 34.1),
        (Component::Polyols, 6.5),
        (Component::OtherProtein, 2.9),
        (Component::Fibre, 2.8),
        (Component::Ethanol, 2.1),
    ];
    let energy = of(&own(&parts, Some(0.35), Some(PolyolKind::Sorbitol)));
    check(energy, 1899.25, 456.75);
    let energy = energy.expect("it is known");
    assert_eq!((energy.low, energy.high), (energy.kilojoules, energy.kilojoules), "nothing is left open");
}

/// A ganache of four ingredients as labels state them: fat, carbohydrate, protein, fibre, salt.
fn ganache(evaporated_g: f64) -> Recipe {
    let lines = [
        (500.0, [41.6, 41.0, 7.2, 8.6, 0.02]),
        (300.0, [35.0, 3.0, 2.1, 0.0, 0.08]),
        (60.0, [0.0, 80.0, 0.0, 0.0, 0.01]),
        (40.0, [82.0, 0.6, 0.7, 0.0, 0.03]),
    ];
    let mut recipe = Recipe::default();
    for (grams, [fat, carbohydrate, protein, fibre, salt]) in lines {
        let parts = [
            (Component::OtherFat, fat),
            (Component::Sucrose, carbohydrate),
            (Component::OtherProtein, protein),
            (Component::Fibre, fibre),
            (Component::Salt, salt),
        ];
        let water = 100.0 - parts.iter().map(|(_, grams)| grams).sum::<f64>();
        let ingredient = own(&[&parts[..], &[(Component::Water, water)]].concat(), Some(0.0), None);
        recipe.push(Arc::new(ingredient), Quantity::from_grams(grams).expect("an amount"));
    }
    recipe.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(evaporated_g).expect("an amount"));
    recipe
}

/// By hand with the same factors: 900 g hold 345.8 g fat, 262.24 g carbohydrate, 42.58 g protein and 43 g fibre; with 18 g
/// of water less the same is in 882 g.
#[test]
fn a_recipe_is_summed_and_evaporation_takes_water_alone() {
    check(analyse(&ganache(0.0), ROOM).energy, 2035.616, 490.831);
    check(analyse(&ganache(18.0), ROOM).energy, 2077.159, 500.848);
}

/// Regulation (EU) No 1169/2011, Annex XIV: erythritol 0 kJ, other polyols 10 kJ.
#[test]
fn erythritol_has_no_energy_and_a_polyol_of_unknown_kind_could_be_it() {
    let with = |kind| of(&own(&[(Component::Polyols, 100.0)], Some(0.0), kind)).expect("it is known");
    assert_eq!(with(Some(PolyolKind::Erythritol)).kilojoules, Kilojoules::ZERO);
    let unknown = with(None);
    check(Some(unknown), 1000.0, 240.0);
    assert_eq!((unknown.low.0, unknown.high.0), (0.0, 1000.0));
}

#[test]
fn acids_that_are_not_stated_only_raise_the_upper_end() {
    let parts = [(Component::Water, 80.0), (Component::Fructose, 15.0)];
    let silent = of(&own(&parts, None, None)).expect("it is known");
    check(Some(silent), 255.0, 60.0);
    assert_abs_diff_eq!(silent.high.0, 255.0 + 13.0 * 5.0, epsilon = 1e-9);
    let stated = of(&own(&parts, Some(2.0), None)).expect("it is known");
    check(Some(stated), 281.0, 66.0);
    assert_eq!(stated.high, stated.kilojoules);
}

#[test]
fn what_a_data_sheet_leaves_open_could_be_fat() {
    let composition = Composition::new([(Component::Sucrose, 90.0)], [], 10.0).expect("it closes");
    let energy = of(&Ingredient { composition, ..Ingredient::unknown("a", "a") }).expect("it is known");
    check(Some(energy), 1530.0, 360.0);
    assert_abs_diff_eq!(energy.high.0, 1530.0 + 370.0, epsilon = 1e-9);
}

#[test]
fn a_figure_with_a_factor_that_is_not_known_leaves_the_energy_unknown() {
    let without = |component| {
        let composition = Composition::new([(Component::Sucrose, 50.0)], [component], 0.0).expect("it is below 100 g");
        of(&Ingredient { composition, ..Ingredient::unknown("a", "a") })
    };
    for component in [Component::OtherFat, Component::Fibre, Component::FatFreeCocoaSolids, Component::AcidsAshOther] {
        assert_eq!(without(component), None, "{}", component.words());
    }
    check(without(Component::Water), 850.0, 200.0);
    check(without(Component::Salt), 850.0, 200.0);
    assert_eq!(energy(&Parts::default()), None, "no mass");
}

/// The sum and the energy that each ingredient states for itself.
///
/// They differ by rounding of the stated figures (to whole kJ) and of the grams that they were computed from: 3 kJ or half
/// a percent, whichever is more.
#[test]
fn the_sum_agrees_with_what_the_built_in_ingredients_state() {
    let mut compared = 0;
    for ingredient in Library::built_in().iter() {
        let Some(stated) = ingredient.properties.energy_kj else { continue };
        let computed = of(ingredient).unwrap_or_else(|| panic!("{}: not known", ingredient.id)).kilojoules.0;
        let slack = (0.005 * computed).max(3.0);
        assert!((computed - stated).abs() <= slack, "{}: {computed}, states {stated}", ingredient.id);
        compared += 1;
    }
    assert_eq!(compared, 166);
}

/// Fat-free cocoa by hand: 17 · 44.5 + 8 · 36.5 + 13 · 3 = 1087.5 kJ, 4 · 44.5 + 2 · 36.5 + 3 · 3 = 260 kcal.
#[test]
fn fat_free_cocoa_counts_by_its_own_parts() {
    check(of(&own(&[(Component::FatFreeCocoaSolids, 100.0)], Some(0.0), None)), 1087.5, 260.0);
}

#[test]
fn two_masses_hold_what_each_of_them_holds() {
    let library = Library::built_in();
    let of = |lines: &[(&str, f64)]| {
        let mut parts = Parts::default();
        for (id, grams) in lines {
            parts.add(library.by_id(id).expect("it is built in"), Grams(*grams));
        }
        energy_content(&parts).expect("it is known")
    };
    let (cream, rum) = (("cream-35", 213.0), ("rum-40", 31.0));
    let (both, one, other) = (of(&[cream, rum]), of(&[cream]), of(&[rum]));
    assert_abs_diff_eq!(both.kilojoules.0, (one.kilojoules + other.kilojoules).0, epsilon = 1e-9);
    assert_abs_diff_eq!(both.kilocalories.0, (one.kilocalories + other.kilocalories).0, epsilon = 1e-9);
    let double = of(&[("cream-35", 426.0)]);
    assert_abs_diff_eq!(double.kilojoules.0, 2.0 * one.kilojoules.0, epsilon = 1e-9);
}
