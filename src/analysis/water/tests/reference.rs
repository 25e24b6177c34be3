//! Reference computations: the same equations, computed elsewhere.

use approx::assert_abs_diff_eq;

use crate::analysis::water::activity::{Equation, norrish};
use crate::analysis::water::equilibrium::{Conditions, Contents};
use crate::analysis::water::solute::{Solute, Solution, Sums, glucose_syrup_moles};
use crate::analysis::water::sorption::Sorbent;
use crate::units::{Celsius, Grams, WaterActivity};

const ACTIVITY: f64 = 0.0005;
const GRAMS: f64 = 0.01;

/// A solution of substances, with so much glucose syrup of DE 42.
pub(super) fn solution(solutes: &[(Solute, f64)], syrup_solids: f64) -> Solution {
    let moles = glucose_syrup_moles(Grams(syrup_solids), 42.0);
    solutes
        .iter()
        .fold(Solution::default(), |solution, (solute, grams)| solution.with(*solute, Grams(*grams)))
        .with_moles(Solute::GlucoseSyrup, Grams(syrup_solids), moles)
}

pub(super) fn solids(cocoa: f64, milk_protein: f64) -> [Grams; Sorbent::COUNT] {
    let mut solids = [Grams::ZERO; Sorbent::COUNT];
    solids[Sorbent::Cocoa as usize] = Grams(cocoa);
    solids[Sorbent::MilkProtein as usize] = Grams(milk_protein);
    solids
}

fn at(celsius: f64) -> Conditions {
    Conditions::usual(Celsius(celsius))
}

/// 17.5 g of water, 22 g of sucrose and so on: the balanced ganache on which the equations are compared.
pub(super) fn balanced_ganache() -> Contents {
    Contents {
        water: Grams(17.5),
        sucrose: Grams(22.0),
        lactose: Grams(1.6),
        others: solution(
            &[(Solute::Glucose, 3.5), (Solute::Fructose, 3.5), (Solute::Sorbitol, 2.0), (Solute::MilkMinerals, 0.35)],
            5.0,
        ),
        solids: solids(9.5, 1.6),
    }
}

#[test]
fn solutions() {
    let sucrose = Contents { water: Grams(40.0), sucrose: Grams(60.0), ..Contents::default() };
    assert_abs_diff_eq!(sucrose.equilibrium(at(25.0)).expect("water").activity.0, 0.8953, epsilon = ACTIVITY);
    let glucose =
        Contents { water: Grams(40.0), others: solution(&[(Solute::Glucose, 60.0)], 0.0), ..Contents::default() };
    assert_abs_diff_eq!(glucose.equilibrium(at(25.0)).expect("water").activity.0, 0.8369, epsilon = ACTIVITY);
    let others = solution(
        &[
            (Solute::Glucose, 9.0),
            (Solute::Fructose, 9.0),
            (Solute::Sorbitol, 3.0),
            (Solute::MilkMinerals, 0.3),
            (Solute::Ethanol, 1.0),
        ],
        12.0,
    );
    let many =
        Contents { water: Grams(22.0), sucrose: Grams(30.0), lactose: Grams(1.5), others, ..Contents::default() };
    assert_abs_diff_eq!(many.equilibrium(at(25.0)).expect("water").activity.0, 0.7332, epsilon = ACTIVITY);
}

#[test]
fn saturated_syrups() {
    let mut syrup = Contents { water: Grams(100.0), sucrose: Grams(300.0), ..Contents::default() };
    for (celsius, dissolved, activity) in [(25.0, 206.32, 0.8478), (20.0, 199.38, 0.8537)] {
        let rest = syrup.equilibrium(at(celsius)).expect("water");
        assert_abs_diff_eq!(rest.dissolved_sucrose.0, dissolved, epsilon = GRAMS);
        assert_abs_diff_eq!(rest.undissolved_sucrose.0, 300.0 - dissolved, epsilon = GRAMS);
        assert_abs_diff_eq!(rest.activity.0, activity, epsilon = ACTIVITY);
    }
    syrup.others = solution(&[(Solute::Glucose, 50.0), (Solute::Fructose, 50.0)], 0.0);
    let rest = syrup.equilibrium(at(20.0)).expect("water");
    assert_abs_diff_eq!(rest.dissolved_sucrose.0, 181.84, epsilon = GRAMS);
    assert_abs_diff_eq!(rest.activity.0, 0.7451, epsilon = ACTIVITY);
}

#[test]
fn solids_without_syrup() {
    let cocoa = Contents { water: Grams(15.0), solids: solids(100.0, 0.0), ..Contents::default() };
    let rest = cocoa.equilibrium(at(25.0)).expect("water");
    assert_abs_diff_eq!(rest.activity.0, 0.6949, epsilon = ACTIVITY);
    assert_eq!(rest.solute_fraction, None);

    let chocolate =
        Contents { water: Grams(0.7), sucrose: Grams(50.0), solids: solids(14.8, 0.0), ..Contents::default() };
    let rest = chocolate.equilibrium(at(25.0)).expect("water");
    assert_eq!(rest.syrup_water, Grams::ZERO);
    assert_abs_diff_eq!(rest.activity.0, 0.112, epsilon = ACTIVITY);
    assert_eq!(rest.undissolved_sucrose, Grams(50.0));
}

#[test]
fn a_ganache_with_all_of_it() {
    let mut ganache = balanced_ganache();
    let rest = ganache.equilibrium(at(20.0)).expect("water");
    assert_abs_diff_eq!(rest.activity.0, 0.7910, epsilon = ACTIVITY);
    assert_abs_diff_eq!(rest.syrup_water.0, 15.405, epsilon = GRAMS);
    ganache.others = ganache.others.with(Solute::Ethanol, Grams(2.5));
    let rest = ganache.equilibrium(at(20.0)).expect("water");
    assert_abs_diff_eq!(rest.activity.0, 0.7506, epsilon = ACTIVITY);
    assert_abs_diff_eq!(rest.syrup_water.0, 15.620, epsilon = GRAMS);
}

#[test]
fn without_water_nothing_is_said() {
    let dry = Contents { sucrose: Grams(50.0), solids: solids(14.8, 0.0), ..Contents::default() };
    assert_eq!(dry.equilibrium(at(20.0)), None);
}

#[test]
fn water_alone_is_as_active_as_it_can_be() {
    let water = Contents { water: Grams(10.0), ..Contents::default() };
    assert_eq!(water.equilibrium(at(20.0)).expect("water").activity.0, 1.0);
}

/// The ganache by every equation, each with the same water on the solids and the same sugar undissolved.
#[test]
fn the_equations_side_by_side() {
    let expected = [
        (Equation::Norrish, 0.791),
        (Equation::Grover, 0.792),
        (Equation::MoneyBorn, 0.807),
        (Equation::Ross, 0.824),
        (Equation::Raoult, 0.859),
    ];
    for (equation, activity) in expected {
        let found = balanced_ganache().activity_by(equation, Celsius(20.0)).expect("constants for all");
        assert_abs_diff_eq!(found.0, activity, epsilon = 0.0005);
    }
}

/// The same ganache by the rule of Zdanovskii, Stokes and Robinson, a second method that rests on another assumption:
/// each solute takes the water that it would have alone at the water activity of the mass.
#[test]
fn a_second_mixing_rule_agrees() {
    let ganache = balanced_ganache();
    let solutes: Vec<(f64, f64)> = Solute::ALL
        .into_iter()
        .map(|solute| (ganache.others.moles(solute).0, solute.norrish_moles(ganache.others.grams(solute))))
        .chain([(Solute::Sucrose, ganache.sucrose), (Solute::Lactose, ganache.lactose)].map(|(solute, grams)| {
            let alone = Solution::default().with(solute, grams);
            (alone.moles(solute).0, solute.norrish_moles(grams))
        }))
        .filter(|(moles, _)| *moles > 0.0)
        .collect();
    // Water of one solute alone at an activity, by halving.
    let water_of = |(moles, norrish): (f64, f64), activity: f64| {
        let (mut low, mut high) = (0.0, 1e6);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            let sums = Sums { moles, norrish };
            if norrish_of(Grams(middle), sums) < activity { low = middle } else { high = middle }
        }
        high
    };
    let all_water = |activity: f64| {
        let on_solids: f64 = Sorbent::ALL
            .into_iter()
            .map(|sort| ganache.solids[sort as usize].0 * sort.isotherm().moisture(WaterActivity(activity)).0)
            .sum();
        solutes.iter().map(|solute| water_of(*solute, activity)).sum::<f64>() + on_solids
    };
    let (mut low, mut high) = (0.5, 0.95);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if all_water(middle) < ganache.water.0 { low = middle } else { high = middle }
    }
    // Published comparison of the two rules: 0.795 beside 0.791.
    assert_abs_diff_eq!(high, 0.795, epsilon = 0.0005);
    let by_norrish = ganache.equilibrium(at(20.0)).expect("water").activity.0;
    assert!((high - by_norrish).abs() < 0.005);
}

fn norrish_of(water: Grams, sums: Sums) -> f64 {
    norrish(water, sums).0
}
