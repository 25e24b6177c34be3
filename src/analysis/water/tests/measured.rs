//! Published measurements and other programs' models.

use approx::assert_abs_diff_eq;

use super::reference::{solids, solution};
use crate::analysis::water::activity::norrish;
use crate::analysis::water::equilibrium::{Conditions, Contents};
use crate::analysis::water::solute::{Solute, Solution, glucose_syrup_moles};
use crate::units::{Celsius, Grams};

fn of(water: f64, solution: &Solution) -> f64 {
    norrish(Grams(water), solution.sums()).0
}

fn per_cent(solute: Solute, percent: f64) -> f64 {
    of(100.0 - percent, &Solution::default().with(solute, Grams(percent)))
}

fn molal(solute: Solute, moles_per_kg: f64, molar_mass: f64) -> f64 {
    of(1000.0, &Solution::default().with(solute, Grams(moles_per_kg * molar_mass)))
}

/// Robinson and Stokes, osmotic coefficients of sucrose at 25 °C (from memory); 0.5 to 6 mol per kg of water.
#[test]
fn sucrose_as_measured_by_robinson_and_stokes() {
    for (molality, expected, tolerance) in [
        (0.5, 0.9907, 0.001),
        (1.0, 0.9806, 0.001),
        (2.0, 0.9581, 0.001),
        (4.0, 0.9057, 0.001),
        (5.0, 0.8776, 0.001),
        (6.0, 0.8493, 0.0012),
    ] {
        assert_abs_diff_eq!(molal(Solute::Sucrose, molality, 342.30), expected, epsilon = tolerance);
    }
}

/// CRC Handbook, freezing points of aqueous solutions, turned into water activity by the vapour pressures of ice and
/// water.
#[test]
fn sugars_and_ethanol_as_their_freezing_points_say() {
    for (solute, percent, expected, tolerance) in [
        (Solute::Sucrose, 20.0, 0.9859, 0.001),
        (Solute::Sucrose, 30.0, 0.9747, 0.001),
        (Solute::Glucose, 10.0, 0.9887, 0.0008),
        (Solute::Glucose, 20.0, 0.9742, 0.001),
        (Solute::Glucose, 30.0, 0.9546, 0.0015),
        (Solute::Fructose, 12.0, 0.9862, 0.0008),
        (Solute::Fructose, 20.0, 0.9747, 0.001),
        (Solute::Lactose, 5.0, 0.9972, 0.0005),
        (Solute::Maltose, 20.0, 0.9862, 0.001),
        (Solute::Ethanol, 5.0, 0.9800, 0.002),
        (Solute::Ethanol, 10.0, 0.9576, 0.006),
    ] {
        assert_abs_diff_eq!(per_cent(solute, percent), expected, epsilon = tolerance);
    }
}

/// Zhang, Grace and Sun 2022, model of glycerol, computed with the open library aquasol 1.8.2.
#[test]
fn glycerol_as_another_model_has_it() {
    assert_abs_diff_eq!(per_cent(Solute::Glycerol, 30.0), 0.9117, epsilon = 0.006);
    assert_abs_diff_eq!(per_cent(Solute::Glycerol, 50.0), 0.8117, epsilon = 0.003);
}

/// Pitzer model of sodium chloride at 1 mol/kg, computed with the open libraries pyEQL 1.7.0 and aquasol 1.8.2.
#[test]
fn salt_as_another_model_has_it() {
    assert_abs_diff_eq!(molal(Solute::Salt, 1.0, 2.0 * 29.22), 0.9668, epsilon = 0.002);
}

/// Saturated sucrose at 25 °C: the literature has 0.843 to 0.86 (from memory).
#[test]
fn saturated_sucrose() {
    let contents = Contents { water: Grams(100.0), sucrose: Grams(400.0), ..Contents::default() };
    let rest = contents.equilibrium(Conditions::usual(Celsius(25.0))).expect("water");
    assert_abs_diff_eq!(rest.activity.0, 0.848, epsilon = 0.012);
}

/// Sloan and Labuza 1975, in a table of humectants (FAO Agricultural Services Bulletin 149, by its wording); the syrup
/// taken as DE 42.
#[test]
fn glucose_syrup_as_measured() {
    let syrup = |water| {
        let solids = Grams(100.0);
        of(water, &Solution::default().with_moles(Solute::GlucoseSyrup, solids, glucose_syrup_moles(solids, 42.0)))
    };
    assert_abs_diff_eq!(syrup(54.0), 0.90, epsilon = 0.015);
    assert_abs_diff_eq!(syrup(20.0), 0.70, epsilon = 0.02);
}

/// A ganache of 226.8 g of semi-sweet chocolate and 119 g of heavy cream measured 0.836 (laboratory report published
/// with a recipe; grey literature). Composition: US national food-composition tables, rounded, from memory.
#[test]
fn a_measured_ganache() {
    const MEASURED: f64 = 0.836;
    let ganache = Contents {
        water: Grams(70.25),
        sucrose: Grams(123.61),
        lactose: Grams(3.45),
        others: solution(&[(Solute::MilkMinerals, 0.595)], 0.0),
        solids: solids(33.57, 3.33),
    };
    let rest = ganache.equilibrium(Conditions::usual(Celsius(25.0))).expect("water");
    assert_abs_diff_eq!(rest.activity.0, MEASURED, epsilon = 0.03);
    // The same equations, computed elsewhere.
    assert_abs_diff_eq!(rest.activity.0, 0.8451, epsilon = 0.0005);
    assert_abs_diff_eq!(rest.syrup_water.0, 61.97, epsilon = 0.01);
    let dried = Contents { water: Grams(70.25 * 0.95), ..ganache };
    let rest = dried.equilibrium(Conditions::usual(Celsius(25.0))).expect("water");
    assert_abs_diff_eq!(rest.activity.0, 0.8396, epsilon = 0.0005);
    assert_abs_diff_eq!(rest.dissolved_sucrose.0, 120.3, epsilon = 0.05);
}

/// Honey of average composition (White 1962, from memory): flower honeys measure 0.47 to 0.57 (Abramovic et al. 2008,
/// 150 samples, abstract; 706 Turkish samples, 2018, abstract). Below the range of the model on purpose: it must
/// degrade gently.
#[test]
fn honey_degrades_gently() {
    let higher = Grams(1.5);
    let others = Solution::default()
        .with(Solute::Fructose, Grams(38.2))
        .with(Solute::Glucose, Grams(31.3))
        .with(Solute::Maltose, Grams(7.3))
        .with_moles(Solute::HigherSaccharides, higher, crate::units::Moles(higher.0 / 504.0));
    let honey = Contents { water: Grams(17.2), sucrose: Grams(1.3), others, ..Contents::default() };
    let activity = honey.equilibrium(Conditions::usual(Celsius(25.0))).expect("water").activity.0;
    assert_abs_diff_eq!(activity, 0.54, epsilon = 0.05);
    assert_abs_diff_eq!(activity, 0.558, epsilon = 0.001);
}
