//! Specific heat, density, conductivity.

use super::super::*;
use super::{CREAM, DARK, check, contents};
use crate::analysis::parts::Parts;
use crate::ingredient::{Component, Library};
use crate::units::{Celsius, Grams, MassFraction};

#[test]
fn the_rows_give_the_figures_of_choi_and_okos() {
    use Substance::{Ash, Carbohydrate, Fibre, MilkFat, Protein, Water};
    // Computed from the coefficients of Choi and Okos (1986), to 1e-4 of the figure. The specific heats of protein, fat and ash
    // at 5 °C are printed in example 2 of the ASHRAE handbook.
    let cp = |s: Substance, t: f64| s.specific_heat(Celsius(t)).0;
    let rho = |s: Substance, t: f64| s.density(Celsius(t)).0 * 1000.0;
    let k = |s: Substance, t: f64| s.conductivity(Celsius(t)).0;
    for (what, computed, expected) in [
        ("water cp 20", cp(Water, 20.0), 4.17657),
        ("water density 40", rho(Water, 40.0), 991.294),
        ("water k 25", k(Water, 25.0), 0.61096),
        ("carbohydrate cp 25", cp(Carbohydrate, 25.0), 1.59415),
        ("fibre k 40", k(Fibre, 40.0), 0.22823),
        ("fat k 40", k(MilkFat, 40.0), 0.16938),
        ("fat density 35", rho(MilkFat, 35.0), 910.975),
        ("carbohydrate density 20", rho(Carbohydrate, 20.0), 1592.891),
        ("ash density 20", rho(Ash, 20.0), 2418.187),
        ("protein cp 5", cp(Protein, 5.0), 2.01421),
        ("fat cp 5", cp(MilkFat, 5.0), 1.99145),
        ("ash cp 5", cp(Ash, 5.0), 1.10196),
        ("water density 60", rho(Water, 60.0), 983.842),
        ("carbohydrate k 34", k(Carbohydrate, 34.0), 0.24357),
        ("protein density 50", rho(Protein, 50.0), 1303.98),
    ] {
        check(what, computed, expected, 1e-4 * expected);
    }
    // Independent: water by IAPWS-95, ethanol by the equation of state of Schroeder et al. 2014 (CoolProp 8.0.0).
    check("water", cp(Water, 20.0), 4.18405, 0.003 * 4.184);
    check("ethanol cp", cp(Substance::Ethanol, 20.0), 2.39598, 0.001 * 2.396);
    check("ethanol density 20", rho(Substance::Ethanol, 20.0), 789.42, 0.001 * 789.0);
    check("ethanol density 34", rho(Substance::Ethanol, 34.0), 777.35, 0.002 * 777.0);
    // Maczelka 1962 in Mohos 2010, appendix 2.
    check("crystals of sucrose", cp(Substance::CrystallineSugar, 25.0), 1.2433, 1e-3);
}

/// Beckett 2009, p. 667: solid cocoa butter 2.01 kJ/(kg·K) at 15 to 21 °C, liquid 2.09 at 32 to 82 °C. Wille and Lutton 1966: melting
/// takes 137 J for a gram of cocoa butter, of which 87 % is crystals.
#[test]
fn cocoa_butter_has_the_heats_of_the_handbook() {
    let cp = |t: f64| Substance::CocoaButter.specific_heat(Celsius(t)).0;
    check("solid", cp(18.0), 2.01, 0.02);
    check("liquid", cp(57.0), 2.09, 0.05);
    check("melting", 0.87 * Fat::CocoaButter.heat_of_fusion().0, 137.0, 1.0);
}

#[test]
fn lamb_of_the_ashrae_handbook_gives_off_as_much_heat_as_printed() {
    use Substance::{Ash, MilkFat, Protein, Water};
    // ASHRAE Refrigeration Handbook 2006, Thermal properties of foods, example 2, from memory: 3.59 kJ/(kg·K), 5390 kJ.
    let lamb = [(Water, 0.7342), (Protein, 0.2029), (MilkFat, 0.0525), (Ash, 0.0106)];
    let shares = lamb.map(|(substance, share)| (substance, Grams(150_000.0 * share)));
    let lamb = Contents::new(shares).expect("lamb");
    let specific_heat = lamb.specific_heat(Celsius(5.0)).0;
    check("specific heat by mass", specific_heat * lamb.total().0 / 150_000.0, 3.5908, 2e-3);
    check("heat", specific_heat * lamb.total().0 * 10.0 / 1000.0, 5386.3, 5.0);
    check("printed", specific_heat * lamb.total().0 * 10.0 / 1000.0, 5390.0, 6.0);
}

#[test]
fn mixtures_follow_the_rules() {
    use Substance::{Ash, Carbohydrate, Fibre, MilkFat, Protein, Water};
    // Computed from the stated formulas with the coefficients of Choi and Okos, by an independent program; 1e-4.
    let food = contents(
        100.0,
        &[(Protein, 0.15), (Carbohydrate, 0.20), (Fibre, 0.01), (Ash, 0.005), (MilkFat, 0.20), (Water, 0.435)],
    );
    let at = Celsius(25.0);
    check("cp", food.specific_heat(at).0, 2.8698, 2.9e-4);
    check("density", food.density(at).0, 1.10485, 1.1e-4);
    check("parallel", food.conductivity_in_parallel(at).0, 0.39817, 4e-5);
    check("series", food.conductivity_in_series(at).0, 0.29156, 3e-5);
    let cream = CREAM.iter().map(|&(substance, share)| {
        (if substance == Substance::DissolvedSugar { Carbohydrate } else { substance }, share)
    });
    let cream = contents(100.0, &cream.collect::<Vec<_>>());
    check("cream cp", cream.specific_heat(Celsius(60.0)).0, 3.30995, 3.4e-4);
    check("cream density", cream.density(Celsius(20.0)).0, 0.98492, 1e-4);
}

#[test]
fn three_typical_masses_have_the_figures_of_an_independent_program() {
    use Substance::{Ash, CocoaButter, CrystallineSugar, DissolvedSugar, FatFreeCocoa, MilkFat, Protein, Water};
    let milk: &[_] = &[
        (CocoaButter, 0.26),
        (MilkFat, 0.06),
        (CrystallineSugar, 0.45),
        (FatFreeCocoa, 0.06),
        (Protein, 0.07),
        (DissolvedSugar, 0.075),
        (Ash, 0.015),
        (Water, 0.01),
    ];
    let ganache: &[_] = &[
        (CocoaButter, 0.1875),
        (MilkFat, 0.175),
        (DissolvedSugar, 0.192),
        (FatFreeCocoa, 0.13),
        (Water, 0.3025),
        (Protein, 0.0105),
        (Ash, 0.0025),
    ];
    // Half a unit of the last place, a whole one where the figure is near the middle of two.
    for (shares, celsius, [cp, density, parallel, series, middle], continuous) in [
        (DARK, 20.0, [1.690, 1214.0, 0.300, 0.231, 0.276], ContinuousPhase::Fat),
        (DARK, 40.0, [1.737, 1206.0, 0.301, 0.230, 0.274], ContinuousPhase::Fat),
        (milk, 20.0, [1.637, 1264.0, 0.335, 0.249, 0.304], ContinuousPhase::Fat),
        (milk, 40.0, [1.699, 1257.0, 0.336, 0.248, 0.3015], ContinuousPhase::Fat),
        (ganache, 20.0, [2.597, 1088.0, 0.328, 0.245, 0.310], ContinuousPhase::Water),
        (ganache, 35.0, [2.629, 1083.0, 0.337, 0.247, 0.3175], ContinuousPhase::Water),
    ] {
        let (mass, at) = (contents(100.0, shares), Celsius(celsius));
        assert_eq!(mass.usual_continuous_phase(), continuous);
        check("cp", mass.specific_heat(at).0, cp, 6e-4);
        check("density", mass.density(at).0 * 1000.0, density, 0.6);
        check("parallel", mass.conductivity_in_parallel(at).0, parallel, 6e-4);
        check("series", mass.conductivity_in_series(at).0, series, 6e-4);
        check("middle", mass.conductivity(continuous, at).0, middle, 6e-4);
        let alpha = mass.conductivity(continuous, at).0 / (mass.density(at).0 * 1e3 * mass.specific_heat(at).0 * 1e3);
        check("diffusivity", mass.diffusivity(continuous, at).0, alpha, 1e-20);
    }
    // Beckett 2009, p. 667 (1.67 at 40–60 °C; conductivity after Clegg 2001); Beckett 1999 (1.2 g/cm³ at 40 °C).
    let dark = contents(100.0, DARK);
    check("melted chocolate", dark.specific_heat(Celsius(50.0)).0, 1.67, 0.08 * 1.67);
    check("conductivity", dark.conductivity(ContinuousPhase::Fat, Celsius(35.0)).0, 0.26, 0.026);
    check("density", dark.density(Celsius(40.0)).0, 1.2, 0.024);
}

#[test]
fn sucrose_solutions_have_their_published_figures() {
    use sucrose_solution::{conductivity, density, specific_heat, viscosity};
    let w = MassFraction;
    // ICUMSA polynomial as used by Llano 2005.
    check("half", density(w(0.5), Celsius(20.0)).0 * 1000.0, 1229.65, 0.05);
    check("30 % at 40 °C", density(w(0.3), Celsius(40.0)).0 * 1000.0, 1118.79, 0.05);
    check("a fifth", density(w(0.2), Celsius(20.0)).0 * 1000.0, 1080.98, 0.05);
    // Asadi 2007, Beet-Sugar Handbook, table A.1: independent of the polynomial.
    let water = density(w(0.0), Celsius(20.0)).0;
    check("a tenth", density(w(0.1), Celsius(20.0)).0 / water, 1.03998, 5e-5);
    // Bubník et al. 1995 as used by Llano 2005.
    check("specific heat", specific_heat(w(0.6), Celsius(20.0)).0, 2.7674, 1e-3);
    check("viscosity", viscosity(w(0.6), Celsius(20.0)).0, 59.742, 0.005 * 59.742);
    check("conductivity of half", conductivity(w(0.5), Celsius(20.0)).0, 0.4375, 1e-3);
    check("conductivity of 30 %", conductivity(w(0.3), Celsius(20.0)).0, 0.5023, 1e-3);
    // Volumes that add come within half a hundredth of the polynomial up to 60 %.
    for share in [0.1, 0.3, 0.5, 0.6] {
        let syrup = contents(100.0, &[(Substance::DissolvedSugar, share), (Substance::Water, 1.0 - share)]);
        let exact = density(w(share), Celsius(20.0)).0;
        check("volumes add", syrup.density(Celsius(20.0)).0, exact, 0.005 * exact);
    }
}

#[test]
fn one_phase_alone_conducts_as_itself() {
    let fat = contents(10.0, &[(Substance::OtherFat, 1.0)]);
    let at = Celsius(40.0);
    for phase in [ContinuousPhase::Fat, ContinuousPhase::Water] {
        check("fat", fat.conductivity(phase, at).0, Substance::OtherFat.conductivity(at).0, 1e-12);
    }
}

#[test]
fn contents_refuse_what_is_no_mass() {
    let one = |grams: f64| Contents::new([(Substance::Water, Grams(grams))]);
    assert_eq!(one(0.0), Err(HeatError::Empty));
    assert_eq!(one(-1.0), Err(HeatError::Negative));
    assert_eq!(one(f64::NAN), Err(HeatError::NotFinite));
    assert_eq!(one(f64::INFINITY), Err(HeatError::NotFinite));
    let shares = |share| Contents::from_shares(Grams(100.0), &[(Substance::Water, MassFraction(share))]);
    assert_eq!(shares(0.99), Err(HeatError::NotWhole { sum: 0.99 }));
    assert!(shares(1.0 + 5e-7).is_ok());
}

#[test]
fn the_sugar_of_ingredients_is_dissolved_where_there_is_water() {
    let library = Library::built_in();
    let mut seen = [0, 0];
    for ingredient in library.iter() {
        let mut parts = Parts::default();
        parts.add(ingredient, Grams(250.0));
        let Some(state) = SugarState::usual(&parts) else { continue };
        let contents = Contents::from_parts(&parts, state);
        let unknown = Component::ALL.into_iter().find(|&component| !parts.is_known(component));
        if let Some(component) = unknown {
            assert_eq!(contents, Err(HeatError::Unknown { component }));
            continue;
        }
        let contents = contents.expect("a known ingredient");
        check("mass", contents.total().0, 250.0, 1.0);
        let of = |component| parts.grams(component).expect("known").0;
        let sucrose = of(Component::Sucrose);
        let is_dry = of(Component::Water) < 5.0;
        assert_eq!(is_dry, state == SugarState::Crystalline);
        let crystals = contents.grams(Substance::CrystallineSugar).0;
        assert_eq!(crystals >= sucrose && sucrose > 0.0, is_dry && sucrose > 0.0);
        assert!(contents.grams(Substance::DissolvedSugar).0 >= of(Component::Lactose));
        let cp = contents.specific_heat(Celsius(20.0)).0;
        assert!((1.0..4.3).contains(&cp), "{cp}");
        seen[usize::from(is_dry)] += 1;
    }
    assert!(seen.iter().all(|&count| count > 5), "{seen:?}");
    assert_eq!(SugarState::usual(&Parts::default()), None);
}
