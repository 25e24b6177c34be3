//! Where the water of a mass is at rest: in the syrup, on the solids, in crystals.
//!
//! At equilibrium every part of the mass has the same water activity. The unknown is the water of the syrup, not the
//! activity: beside crystals of the only sugar the activity stays while the syrup grows.

use super::activity::{Equation, GROVER_UP_TO, norrish};
use super::solubility::{LACTOSE_CRYSTAL_WATER, LACTOSE_IN_SYRUP, lactose_in_water, sucrose_in_water, sucrose_limit};
use super::solute::{Solute, Solution, Sums, WATER_MOLAR_MASS};
use super::sorption::Sorbent;
use crate::analysis::parts::Parts;
use crate::analysis::root::{Tolerance, rising_root};
use crate::ingredient::{Component, PolyolKind};
use crate::units::{Celsius, Grams, WaterActivity};

/// What of a mass takes part in its water balance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contents {
    /// All water, wherever it is.
    pub water: Grams,
    /// All sucrose, dissolved or not.
    pub sucrose: Grams,
    /// All lactose, anhydrous, dissolved or not.
    pub lactose: Grams,
    /// Everything else that dissolves.
    pub others: Solution,
    /// Dry solids by what holds water in them.
    pub solids: [Grams; Sorbent::COUNT],
}

/// Whether sucrose may stay undissolved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sucrose {
    /// It dissolves up to its solubility; the rest stays or becomes crystals.
    Limited,
    /// All of it is dissolved, as in a sugar mass that was cooked clear and has not grained.
    AllDissolved,
}

/// Whether lactose beyond its solubility crystallises.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lactose {
    /// It stays dissolved, which it does for long in a ganache.
    Dissolved,
    /// The excess has crystallised as monohydrate, as in condensed milk or after weeks.
    Crystallised,
}

/// Under what a mass comes to rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Its temperature.
    pub at: Celsius,
    /// What sucrose does.
    pub sucrose: Sucrose,
    /// What lactose does.
    pub lactose: Lactose,
}

impl Conditions {
    /// What is taken of a mass at a temperature unless something else is asked: sucrose up to its solubility, lactose
    /// dissolved.
    #[must_use]
    pub fn usual(at: Celsius) -> Self {
        Self { at, sucrose: Sucrose::Limited, lactose: Lactose::Dissolved }
    }
}

/// Where the water is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Equilibrium {
    /// The water activity of every part of the mass.
    pub activity: WaterActivity,
    /// Water of the syrup.
    pub syrup_water: Grams,
    /// Sucrose that is dissolved.
    pub dissolved_sucrose: Grams,
    /// Sucrose that is crystalline.
    pub undissolved_sucrose: Grams,
    /// Lactose that is dissolved, anhydrous.
    pub dissolved_lactose: Grams,
    /// Water in crystals of lactose.
    pub crystal_water: Grams,
    /// Water that each sort of solid holds.
    pub held: [Grams; Sorbent::COUNT],
    /// Mole fraction of the solutes in the syrup; `None` where no syrup is left.
    pub solute_fraction: Option<f64>,
    /// Other dissolved sugars for each gram of syrup water, as they count for the solubility of sucrose.
    pub others_per_water: f64,
}

impl Contents {
    /// What of these parts takes part; `None` if a figure of it is not known. Fat takes no part.
    #[must_use]
    pub fn of(parts: &Parts) -> Option<Self> {
        let grams = |component| parts.grams(component);
        let polyols = grams(Component::Polyols)?;
        let acids_and_ash = grams(Component::AcidsAshOther)?;
        for component in [Component::OtherProtein, Component::Starch, Component::Fibre] {
            grams(component)?;
        }
        let sorbing = parts.sorbing();
        let mut others = Solution::default()
            .with(Solute::Glucose, grams(Component::Glucose)?)
            .with(Solute::Fructose, grams(Component::Fructose)?)
            .with(Solute::Maltose, grams(Component::Maltose)? - sorbing.trehalose())
            .with(Solute::Trehalose, sorbing.trehalose())
            .with_moles(Solute::HigherSaccharides, grams(Component::HigherSaccharides)?, sorbing.higher_saccharides())
            .with_moles(Solute::SolubleFibre, sorbing.soluble_fibre().0, sorbing.soluble_fibre().1)
            .with(Solute::OrganicAcids, sorbing.organic_acids().min(acids_and_ash))
            .with(Solute::Ethanol, grams(Component::Ethanol)?)
            .with(Solute::MilkMinerals, grams(Component::MilkMinerals)?)
            .with(Solute::Salt, grams(Component::Salt)?);
        if polyols.0 > 0.0 {
            for kind in PolyolKind::ALL {
                others = others.with(Solute::of_polyol(kind), parts.polyols_of_kind(Some(kind)));
            }
            others = others.with(UNKNOWN_POLYOL, parts.polyols_of_kind(None));
        }
        let mut solids = sorbing.solids();
        solids[Sorbent::Cocoa as usize] = grams(Component::FatFreeCocoaSolids)?;
        solids[Sorbent::MilkProtein as usize] += grams(Component::MilkProtein)?;
        Some(Self {
            water: grams(Component::Water)?,
            sucrose: grams(Component::Sucrose)?,
            lactose: grams(Component::Lactose)?,
            others,
            solids,
        })
    }

    /// Where its water is at rest; `None` without water, or where crystals take more than there is.
    ///
    /// Balance of water: W = w + Σ sⱼ·Mⱼ(a(w)) + crystal water, a by [`norrish`] with what w dissolves
    ///
    /// w, the syrup's water, is the only unknown; the right side rises, so that there is one root at most (much alcohol
    /// beside undissolved sugar makes a wrinkle of no consequence).
    /// Where the solids alone could take all water below the activity of the saturated syrup, there is no syrup, and
    /// all sugar stays crystalline. Newton's method in a bracket, to 1e-12 of the water.
    ///
    /// Source: GAB and Norrish equations (`sorption`, `activity`), solubility (`solubility`). Range: water activity from
    /// 0.60, solutes up to a mole fraction of 0.35 ([`super::activity::MOST_SOLUTES`]).
    ///
    /// 100 g of water on 300 g of sucrose at 25 °C dissolve 206.32 g of it:
    ///
    /// ```
    /// # use nibwright::analysis::water::equilibrium::{Conditions, Contents};
    /// # use nibwright::units::{Celsius, Grams};
    /// let contents = Contents { water: Grams(100.0), sucrose: Grams(300.0), ..Contents::default() };
    /// let rest = contents.equilibrium(Conditions::usual(Celsius(25.0))).unwrap();
    /// assert!((rest.dissolved_sucrose.0 - 206.32).abs() < 0.005);
    /// assert!((rest.activity.0 - 0.8478).abs() < 0.00005);
    /// ```
    #[must_use]
    pub fn equilibrium(&self, conditions: Conditions) -> Option<Equilibrium> {
        Balance::of(self, conditions).solve(|_| {})
    }

    /// The water activity by another equation, with the same solubility and the same water on the solids.
    ///
    /// `None` where the equation does not hold, or where no syrup is left. By halving, to a billionth of the water.
    #[must_use]
    pub fn activity_by(&self, equation: Equation, at: Celsius) -> Option<WaterActivity> {
        const TOLERANCE: Tolerance = Tolerance { relative: 1e-9, absolute: 0.0 };
        let balance = Balance::of(self, Conditions::usual(at));
        let all = self.water.0;
        let activity = |water: f64| {
            let trial = balance.trial(water);
            let syrup = self
                .others
                .clone()
                .with(Solute::Sucrose, Grams(trial.sucrose))
                .with(Solute::Lactose, Grams(trial.lactose));
            equation.of(Grams(water), &syrup)
        };
        // Where an equation has no answer, the syrup is too strong for it: there is more water in it.
        let excess = |water: f64| {
            activity(water).map_or(-all, |activity| water + balance.held(activity.0.clamp(0.0, 1.0)).0 - all)
        };
        let has_syrup = self.equilibrium(Conditions::usual(at)).is_some_and(|rest| rest.syrup_water.0 > 0.0);
        if !has_syrup || excess(all) < 0.0 {
            return None;
        }
        let water = rising_root((0.0, all), all, TOLERANCE, |water| (excess(water), f64::NAN));
        let found = activity(water)?;
        let is_within = equation != Equation::Grover || found <= GROVER_UP_TO;
        (water > 0.0 && is_within).then_some(found)
    }
}

/// What polyols of unknown kind count as: what the trade uses most.
pub const UNKNOWN_POLYOL: Solute = Solute::Sorbitol;

/// A water balance with everything that does not change with the syrup's water worked out.
pub(super) struct Balance<'a> {
    contents: &'a Contents,
    others: Sums,
    /// Dissolved sugars and the like beside sucrose and lactose, g.
    others_sweet: f64,
    /// g of sucrose that a gram of water dissolves; `None` where all of it is dissolved.
    sucrose_in_water: Option<f64>,
    /// g of lactose that a gram of syrup water dissolves; `None` where all of it is dissolved.
    lactose_in_water: Option<f64>,
    sucrose_per_mole: f64,
    lactose_per_mole: f64,
}

/// A state of the mass with so much water in the syrup, in equilibrium but for the sum of its water.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trial {
    pub activity: f64,
    activity_slope: f64,
    pub sucrose: f64,
    pub lactose: f64,
    pub crystal_water: f64,
    crystal_water_slope: f64,
    solute_moles: f64,
}

#[cfg(test)]
impl Trial {
    /// The slope of the water activity with the syrup's water.
    pub fn slope(&self) -> f64 {
        self.activity_slope
    }
}

impl<'a> Balance<'a> {
    pub fn of(contents: &'a Contents, conditions: Conditions) -> Self {
        // Inulin is not among them: it is counted with the solids, and nothing is counted twice. Counted here without being
        // dissolved, it would let water activity fall where water is added.
        let sweet: f64 = Solute::ALL
            .into_iter()
            .filter(|solute| solute.is_sweet())
            .map(|solute| contents.others.grams(solute).0)
            .sum();
        let per_mole = |solute: Solute| solute.molar_mass().map_or(f64::INFINITY, |mass| mass.0);
        Self {
            contents,
            others: contents.others.sums(),
            others_sweet: sweet,
            sucrose_in_water: match conditions.sucrose {
                Sucrose::Limited => Some(sucrose_in_water(conditions.at)),
                Sucrose::AllDissolved => None,
            },
            lactose_in_water: match conditions.lactose {
                Lactose::Dissolved => None,
                Lactose::Crystallised => Some(lactose_in_water(conditions.at) * LACTOSE_IN_SYRUP),
            },
            sucrose_per_mole: per_mole(Solute::Sucrose),
            lactose_per_mole: per_mole(Solute::Lactose),
        }
    }

    /// What is dissolved in so much syrup water, its water activity, and their slopes with that water.
    pub fn trial(&self, water: f64) -> Trial {
        let total_lactose = self.contents.lactose.0;
        let (lactose, lactose_slope) = match self.lactose_in_water {
            Some(per_water) if water * per_water < total_lactose => (water * per_water, per_water),
            _ => (total_lactose, 0.0),
        };
        let crystal_water = (total_lactose - lactose) * LACTOSE_CRYSTAL_WATER;

        let total_sucrose = self.contents.sucrose.0;
        let (sucrose, sucrose_slope) = match self.sucrose_in_water {
            Some(in_water) => {
                let limit = sucrose_limit(in_water, Grams(water), Grams(self.others_sweet + lactose));
                if limit.grams.0 < total_sucrose {
                    (limit.grams.0, limit.per_water + limit.per_other * lactose_slope)
                } else {
                    (total_sucrose, 0.0)
                }
            }
            None => (total_sucrose, 0.0),
        };

        let norrish_of = |solute: Solute, grams: f64| solute.norrish_moles(Grams(grams));
        let sums = Sums {
            moles: self.others.moles + sucrose / self.sucrose_per_mole + lactose / self.lactose_per_mole,
            norrish: self.others.norrish + norrish_of(Solute::Sucrose, sucrose) + norrish_of(Solute::Lactose, lactose),
        };
        let moles_slope = sucrose_slope / self.sucrose_per_mole + lactose_slope / self.lactose_per_mole;
        let norrish_slope = norrish_of(Solute::Sucrose, sucrose_slope) + norrish_of(Solute::Lactose, lactose_slope);
        let activity = norrish(Grams(water), sums).0;
        let water_slope = 1.0 / WATER_MOLAR_MASS.0;
        let water_moles = water * water_slope;
        let all = water_moles + sums.moles;
        let all_slope = water_slope + moles_slope;
        // d ln a/dw of ln a = ln(n_w/all) − N·n/all², N = Σ n·K.
        let log_slope = water_slope / water_moles
            - all_slope / all
            - (norrish_slope * sums.moles + sums.norrish * moles_slope) / (all * all)
            + 2.0 * sums.norrish * sums.moles * all_slope / (all * all * all);
        Trial {
            activity,
            activity_slope: activity * log_slope,
            sucrose,
            lactose,
            crystal_water,
            crystal_water_slope: -lactose_slope * LACTOSE_CRYSTAL_WATER,
            solute_moles: sums.moles,
        }
    }

    /// Water that the solids hold at an activity, g, and its slope with the activity.
    pub fn held(&self, activity: f64) -> (f64, f64) {
        let mut sum = (0.0, 0.0);
        for sort in Sorbent::ALL {
            let solid = self.contents.solids[sort as usize].0;
            if solid > 0.0 {
                let (moisture, slope) = sort.isotherm().moisture(WaterActivity(activity));
                sum.0 += solid * moisture;
                sum.1 += solid * slope;
            }
        }
        sum
    }

    /// The equilibrium; `asked` is told each time that the balance is asked.
    pub fn solve(&self, mut asked: impl FnMut(f64)) -> Option<Equilibrium> {
        /// The least water of a syrup, as a share of all water.
        const LEAST_SYRUP: f64 = 1e-9;
        /// Most masses have nine tenths of their water in the syrup.
        const USUAL_SYRUP: f64 = 0.9;
        const TOLERANCE: Tolerance = Tolerance { relative: 1e-12, absolute: 0.0 };

        let all = self.contents.water.0;
        if all.is_nan() || all <= 0.0 {
            return None;
        }
        let mut excess = |water: f64| {
            asked(water);
            let trial = self.trial(water);
            let (held, held_slope) = self.held(trial.activity);
            let value = water + held + trial.crystal_water - all;
            (value, 1.0 + held_slope * trial.activity_slope + trial.crystal_water_slope)
        };
        let least = LEAST_SYRUP * all;
        if excess(least).0 > 0.0 {
            return self.without_syrup(least, asked);
        }
        let water =
            if excess(all).0 <= 0.0 { all } else { rising_root((least, all), USUAL_SYRUP * all, TOLERANCE, excess) };
        let trial = self.trial(water);
        let moles = water / WATER_MOLAR_MASS.0;
        Some(Equilibrium {
            activity: WaterActivity(trial.activity),
            syrup_water: Grams(water),
            dissolved_sucrose: Grams(trial.sucrose),
            undissolved_sucrose: self.contents.sucrose - Grams(trial.sucrose),
            dissolved_lactose: Grams(trial.lactose),
            crystal_water: Grams(trial.crystal_water),
            held: self.held_by_each(trial.activity),
            solute_fraction: Some(trial.solute_moles / (trial.solute_moles + moles)),
            others_per_water: (self.others_sweet + trial.lactose) / water,
        })
    }

    /// The solids have taken all water, and all sugar that can crystallise has.
    fn without_syrup(&self, least: f64, mut asked: impl FnMut(f64)) -> Option<Equilibrium> {
        const TOLERANCE: Tolerance = Tolerance { relative: 1e-12, absolute: 1e-15 };
        let trial = self.trial(least);
        let left = self.contents.water.0 - trial.crystal_water;
        if left <= 0.0 {
            return None;
        }
        let activity = rising_root((0.0, trial.activity), trial.activity / 2.0, TOLERANCE, |activity| {
            asked(activity);
            let (held, slope) = self.held(activity);
            (held - left, slope)
        });
        Some(Equilibrium {
            activity: WaterActivity(activity),
            syrup_water: Grams::ZERO,
            dissolved_sucrose: Grams::ZERO,
            undissolved_sucrose: self.contents.sucrose,
            dissolved_lactose: Grams::ZERO,
            crystal_water: Grams(trial.crystal_water),
            held: self.held_by_each(activity),
            solute_fraction: None,
            others_per_water: 0.0,
        })
    }

    fn held_by_each(&self, activity: f64) -> [Grams; Sorbent::COUNT] {
        Sorbent::ALL.map(|sort| {
            let (moisture, _) = sort.isotherm().moisture(WaterActivity(activity));
            self.contents.solids[sort as usize] * moisture
        })
    }
}
