//! What must be true of every mass.

use crate::analysis::mixer::Mixer;
use crate::analysis::water::activity::MOST_SOLUTES;
use crate::analysis::water::equilibrium::{Balance, Conditions, Contents, Lactose, Sucrose};
use crate::analysis::water::solute::{Solute, Solution};
use crate::analysis::water::sorption::Sorbent;
use crate::units::{Celsius, Grams, Moles};

impl Mixer {
    /// Nothing in every third case, otherwise between a millionth of a gram and a kilogram, all sizes alike.
    fn amount(&mut self) -> f64 {
        if self.next() < 0.33 { 0.0 } else { 10_f64.powf(self.next() * 9.0 - 6.0) }
    }

    fn contents(&mut self) -> Contents {
        let others = Solute::ALL.into_iter().fold(Solution::default(), |solution, solute| {
            if solute.molar_mass().is_some() && self.next() < 0.6 {
                return solution;
            }
            let grams = self.amount();
            if solute.molar_mass().is_some() {
                return solution.with(solute, Grams(grams));
            }
            let molar_mass = 500.0 + 1500.0 * self.next();
            solution.with_moles(solute, Grams(grams), Moles(grams / molar_mass))
        });
        Contents {
            water: Grams(self.amount()),
            sucrose: Grams(self.amount()),
            lactose: Grams(self.amount()),
            others,
            solids: [(); Sorbent::COUNT].map(|()| Grams(self.amount())),
        }
    }

    fn conditions(&mut self) -> Conditions {
        Conditions {
            at: Celsius(self.next() * 140.0 - 20.0),
            sucrose: if self.next() < 0.7 { Sucrose::Limited } else { Sucrose::AllDissolved },
            lactose: if self.next() < 0.7 { Lactose::Dissolved } else { Lactose::Crystallised },
        }
    }
}

const CASES: usize = 300_000;

#[test]
fn every_mass_comes_to_rest_within_sixty_questions() {
    let mut mixer = Mixer(3);
    let mut most = 0;
    for case in 0..CASES {
        let (contents, conditions) = (mixer.contents(), mixer.conditions());
        let mut count = 0;
        let rest = Balance::of(&contents, conditions).solve(|_| count += 1);
        most = most.max(count);
        assert!(count <= 60, "case {case}: {count} questions for {contents:?} {conditions:?}");
        let Some(rest) = rest else {
            assert!(contents.water.0 <= 0.0 || conditions.lactose == Lactose::Crystallised, "{contents:?}");
            continue;
        };
        let activity = rest.activity.0;
        assert!((0.0..=1.0).contains(&activity), "case {case}: {activity} for {contents:?}");
        let water: f64 = rest.syrup_water.0 + rest.crystal_water.0 + rest.held.iter().map(|held| held.0).sum::<f64>();
        assert!(
            (water - contents.water.0).abs() <= 1e-6 * contents.water.0,
            "case {case}: {water} of {}, {rest:?}",
            contents.water.0
        );
        let sucrose = rest.dissolved_sucrose + rest.undissolved_sucrose;
        assert!((sucrose.0 - contents.sucrose.0).abs() <= 1e-9 * contents.sucrose.0 && rest.dissolved_sucrose.0 >= 0.0);
    }
    assert!(most > 5, "the count is a count");
}

#[test]
fn the_slopes_are_those_of_the_curve() {
    let mut mixer = Mixer(11);
    let mut compared = 0;
    for _ in 0..20_000 {
        let (contents, conditions) = (mixer.contents(), mixer.conditions());
        let balance = Balance::of(&contents, conditions);
        let water = 10_f64.powf(mixer.next() * 4.0 - 1.0);
        let step = 1e-5 * water;
        let (before, here, after) = (balance.trial(water - step), balance.trial(water), balance.trial(water + step));
        // Where a sugar begins to stay undissolved, there is no one slope.
        let is_kink =
            before.slope() * after.slope() == 0.0 || ((after.slope() - before.slope()) / here.slope()).abs() > 1e-2;
        if here.activity < 1e-3 || is_kink {
            continue;
        }
        let numeric = (after.activity - before.activity) / (2.0 * step);
        compared += 1;
        assert!(
            (numeric - here.slope()).abs() <= 1e-3 * here.slope().abs() + 1e-9,
            "{numeric} {} {contents:?} {conditions:?} {water}",
            here.slope()
        );
    }
    assert!(compared > 5_000, "{compared} of them");
}

/// A mass in the range of the Norrish equation, with room for more sugar. Alcohol is left out: beside much of it the
/// solubility cap makes a wrinkle of no consequence.
fn within_range(mixer: &mut Mixer, at: Conditions) -> Contents {
    loop {
        let contents = mixer.contents();
        let fraction = contents.equilibrium(at).and_then(|rest| rest.solute_fraction);
        let is_within = fraction.is_some_and(|fraction| fraction < MOST_SOLUTES);
        if contents.others.grams(Solute::Ethanol).0 == 0.0 && is_within {
            return contents;
        }
    }
}

#[test]
fn water_raises_and_sugar_lowers_it() {
    let mut mixer = Mixer(5);
    let at = Conditions::usual(Celsius(20.0));
    for _ in 0..20_000 {
        let contents = within_range(&mut mixer, at);
        let of = |contents: &Contents| contents.equilibrium(at).expect("water").activity.0;
        let here = of(&contents);
        // A twentieth of the water at most: from the edge of the range not far beyond it.
        let more = mixer.next() * 0.05 * contents.water.0;
        let wetter = Contents { water: contents.water + Grams(more), ..contents.clone() };
        assert!(of(&wetter) >= here - 1e-9, "water {more}: {here} {} {contents:?}", of(&wetter));
        let sweeter = Contents { sucrose: contents.sucrose + Grams(more), ..contents.clone() };
        assert!(of(&sweeter) <= here + 1e-9, "sucrose {more}: {here} {} {contents:?}", of(&sweeter));
        let milkier = Contents { lactose: contents.lactose + Grams(more), ..contents.clone() };
        assert!(of(&milkier) <= here + 1e-9, "lactose {more}: {here} {} {contents:?}", of(&milkier));
        for solute in [Solute::Glucose, Solute::Fructose, Solute::Maltose, Solute::Sorbitol, Solute::Salt] {
            let more = contents.others.clone().with(solute, Grams(more));
            let sweeter = Contents { others: more, ..contents.clone() };
            assert!(of(&sweeter) <= here + 1e-9, "{solute:?}: {here} {} {contents:?}", of(&sweeter));
        }
    }
}

#[test]
fn nothing_jumps_where_sugar_stops_dissolving() {
    let at = Conditions::usual(Celsius(20.0));
    let mut before: Option<f64> = None;
    let mut saturated = 0;
    for tenths in 0..4000 {
        let contents = Contents {
            water: Grams(100.0),
            sucrose: Grams(f64::from(tenths) / 10.0),
            others: Solution::default().with(Solute::Glucose, Grams(30.0)),
            ..Contents::default()
        };
        let rest = contents.equilibrium(at).expect("water");
        if rest.undissolved_sucrose.0 > 0.0 {
            saturated += 1;
        }
        if let Some(before) = before {
            assert!((rest.activity.0 - before).abs() < 1e-4);
        }
        before = Some(rest.activity.0);
    }
    assert!(saturated > 100);
}

/// Around the sucrose that just dissolves, in masses with solids and with everything else, at all temperatures: a little more
/// or less sucrose, water or heat changes the water activity by little.
#[test]
fn nothing_jumps_at_the_solubility_of_any_mass() {
    let mut mixer = Mixer(13);
    let mut compared = 0;
    for _ in 0..20_000 {
        let conditions = Conditions { sucrose: Sucrose::Limited, lactose: Lactose::Dissolved, ..mixer.conditions() };
        let mut contents = mixer.contents();
        let Some(rest) = contents.equilibrium(conditions) else { continue };
        if rest.undissolved_sucrose.0 <= 0.0 || rest.syrup_water.0 <= 1e-3 {
            continue;
        }
        contents.sucrose = rest.dissolved_sucrose;
        let of = |contents: &Contents, at: f64| {
            contents.equilibrium(Conditions { at: Celsius(at), ..conditions }).expect("water").activity.0
        };
        let (at, here) = (conditions.at.0, of(&contents, conditions.at.0));
        for factor in [1.0 - 1e-7, 1.0 + 1e-7] {
            let sugar = Contents { sucrose: contents.sucrose * factor, ..contents.clone() };
            let water = Contents { water: contents.water * factor, ..contents.clone() };
            for changed in [of(&sugar, at), of(&water, at), of(&contents, at + factor - 1.0)] {
                assert!((changed - here).abs() < 1e-5, "{here} {changed} {contents:?} {conditions:?}");
            }
        }
        compared += 1;
    }
    assert!(compared > 1_000, "{compared} of them");
}

#[test]
fn a_hundred_grams_and_a_hundred_kilograms_are_alike() {
    let mut mixer = Mixer(7);
    for _ in 0..20_000 {
        let contents = mixer.contents();
        let conditions = mixer.conditions();
        let times = |grams: Grams| grams * 1000.0;
        let others = Solute::ALL.into_iter().fold(Solution::default(), |solution, solute| {
            let moles = contents.others.moles(solute) * 1000.0;
            solution.with_moles(solute, times(contents.others.grams(solute)), moles)
        });
        let large = Contents {
            water: times(contents.water),
            sucrose: times(contents.sucrose),
            lactose: times(contents.lactose),
            others,
            solids: contents.solids.map(times),
        };
        match (contents.equilibrium(conditions), large.equilibrium(conditions)) {
            (Some(small), Some(large)) => assert!((small.activity.0 - large.activity.0).abs() < 1e-9),
            (small, large) => assert_eq!(small.is_none(), large.is_none()),
        }
    }
}
