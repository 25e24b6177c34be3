//! The equilibrium of molten fat, its solid solution and its pure crystals.
//!
//! Per mole of fat: n moles of each component; L moles of liquid in all; ρ moles of solid solution per mole of liquid.
//!
//! * Component of the solid solution: its mole fractions are x(solid) = K·x(liquid) with
//!   K = exp[(ΔH/R)·(1/T − 1/Tm)], so its liquid is n/(1 + K·ρ) and its solid n·K·ρ/(1 + K·ρ).
//! * Pure crystals: x(liquid) ≤ X with X = exp[−(ΔH/R)·(1/T − 1/Tm)] below Tm, equal if there are crystals; so its
//!   liquid is min(n, L·X) (ideal solubility).
//! * Balance of the liquid: L = Σ liquid components + Σ n/(1 + K·ρ) + Σ min(n, L·X).
//! * Balance of the solid solution: A = Σ K·n/(1 + K·ρ) equals L, because its mole fractions sum to 1; if A ≤ L at
//!   ρ = 0 there is none of it.
//!
//! T in kelvin, Tm melting point in kelvin, ΔH heat of fusion in J/mol, R gas constant.
//!
//! Why this way: halving L inside halving ρ is short to write, but takes thousands of balances for each temperature
//! where this takes four or five, and the whole analysis of a recipe has to fit between two frames of the window many
//! times over. (The tests keep it as the second method.) The balance of the liquid consists of straight pieces in L
//! that can be walked exactly ([`Pieces`]), and L/A is nearly straight in ρ (for one component exactly), so that
//! Newton's method is there in a few steps. L/A rises everywhere: the free energy is convex, and its slope with the
//! amount of solid solution is R·T·ln(L/A).

use super::components::{Behaviour, Crystal, FatComponent, PURE_COUNT, SOLID_SOLUTION_COUNT};
use crate::analysis::root::{Tolerance, rising_root};
use crate::units::{Celsius, Kelvin, MassFraction};

/// Gas constant, J/(mol K): product of two constants that define the SI since 2019, rounded at the tenth digit.
const GAS_CONSTANT: f64 = 8.314462618;

/// J per kJ.
const JOULES_PER_KILOJOULE: f64 = 1000.0;

/// Below this share, mol/mol, a liquid remainder cannot be told from rounding, and ρ has no bound.
const LEAST_LIQUID: f64 = 1e-12;

/// Temperatures that are computed; a temperature outside counts as the nearer end.
///
/// Far beyond the range of validity on purpose. Within these ends K lies between e^−20 and e^+40 and no X below
/// e^−50, so that nothing overflows.
const COMPUTED: (Celsius, Celsius) = (Celsius(-100.0), Celsius(200.0));

/// Where a melting limit is looked for.
const LIMIT_RANGE: (Celsius, Celsius) = (Celsius(-10.0), Celsius(60.0));

/// When ρ is known: the relative width of the reference calculation, and the rounding of A and L near ρ = 0.
const RATIO_TOLERANCE: Tolerance = Tolerance { relative: 1e-12, absolute: 1e-16 };

/// When a melting limit is known: 1e-9 K, as a share of the reciprocal temperature at the warm end of the range.
const LIMIT_TOLERANCE: Tolerance = Tolerance { relative: 1e-9 / 333.15, absolute: 0.0 };

/// What a fat consists of, for one mole of it, sorted by behaviour. Components without an amount are left out.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Mixture {
    solid_solution: List<Crystallising, SOLID_SOLUTION_COUNT>,
    pure: List<Crystallising, PURE_COUNT>,
    /// What never crystallises, mol; at least [`LEAST_LIQUID`].
    liquid: f64,
}

/// A component that can crystallise.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Crystallising {
    /// Moles of it in one mole of fat.
    moles: f64,
    /// Its share of the mass of the fat.
    mass_share: f64,
    /// ΔH/R, K.
    heat_over_gas_constant: f64,
    /// Melting point of its crystals; in the solid solution, in form V.
    melting_point: Celsius,
}

/// Solid shares of the fat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Solid {
    /// In the solid solution.
    pub solid_solution: MassFraction,
    /// In pure crystals.
    pub pure: MassFraction,
}

impl Mixture {
    /// The mixture of so many moles of each component, in any unit; `None` if nothing of it stays liquid.
    ///
    /// The moles are finite, not negative, and not all zero.
    pub fn new(moles: &[f64; FatComponent::COUNT]) -> Option<Self> {
        let amounts = || FatComponent::ALL.iter().zip(moles).filter(|(_, moles)| **moles > 0.0);
        let total_moles: f64 = amounts().map(|(_, moles)| moles).sum();
        let total_mass: f64 = amounts().map(|(component, moles)| moles * component.molar_mass()).sum();
        let mut mixture = Self { solid_solution: List::default(), pure: List::default(), liquid: 0.0 };
        for (component, moles) in amounts() {
            let crystallising = |crystal: Crystal| Crystallising {
                moles: moles / total_moles,
                mass_share: moles * component.molar_mass() / total_mass,
                heat_over_gas_constant: crystal.heat_of_fusion * JOULES_PER_KILOJOULE / GAS_CONSTANT,
                melting_point: crystal.melting_point,
            };
            match component.behaviour() {
                Behaviour::SolidSolution(crystal) => mixture.solid_solution.push(crystallising(crystal)),
                Behaviour::Pure(crystal) => mixture.pure.push(crystallising(crystal)),
                Behaviour::Liquid => mixture.liquid += moles / total_moles,
            }
        }
        (mixture.liquid >= LEAST_LIQUID).then_some(mixture)
    }

    /// The equilibrium at a temperature, with all melting points of the solid solution shifted.
    pub fn at(&self, temperature: Celsius, shift: Kelvin) -> Equilibrium<'_> {
        let (coldest, warmest) = COMPUTED;
        self.at_reciprocal(1.0 / temperature.max(coldest).min(warmest).to_kelvin(), shift)
    }

    fn at_reciprocal(&self, reciprocal_temperature: f64, shift: Kelvin) -> Equilibrium<'_> {
        let mut partition = [0.0; SOLID_SOLUTION_COUNT];
        for (partition, component) in partition.iter_mut().zip(self.solid_solution.as_slice()) {
            *partition = component.activity_of_crystals(reciprocal_temperature, shift).recip();
        }
        let mut freezing = List::<Freezing, PURE_COUNT>::default();
        let mut molten = 0.0;
        for component in self.pure.as_slice() {
            let solubility = component.activity_of_crystals(reciprocal_temperature, Kelvin::ZERO);
            if solubility < 1.0 {
                let breakpoint = component.moles / solubility;
                freezing.insert_sorted(Freezing { component: *component, solubility, breakpoint });
            } else {
                molten += component.moles;
            }
        }
        Equilibrium { mixture: self, partition, pieces: Pieces::new(&freezing, molten), freezing }
    }

    /// The temperature up to which the solid solution can exist, with all its melting points shifted: where A = L
    /// without any of it. `None` if that is nowhere in [`LIMIT_RANGE`].
    ///
    /// Newton's method on ln L − ln A over −1/T, in which ln A is nearly straight; it rises, because a warmer liquid
    /// dissolves more. Cannot give NaN: the ends are checked first and A lies above 0 at the root.
    pub fn melting_limit(&self, shift: Kelvin, start: Celsius) -> Option<Celsius> {
        let driving_force = |negative_reciprocal: f64| self.at_reciprocal(-negative_reciprocal, shift).driving_force();
        let negative_reciprocal = |temperature: Celsius| -1.0 / temperature.to_kelvin();
        let (low, high) = (negative_reciprocal(LIMIT_RANGE.0), negative_reciprocal(LIMIT_RANGE.1));
        let has_root = driving_force(low).0 < 0.0 && driving_force(high).0 > 0.0;
        has_root.then(|| {
            let root = rising_root((low, high), negative_reciprocal(start), LIMIT_TOLERANCE, driving_force);
            Celsius(-1.0 / root - Celsius(0.0).to_kelvin())
        })
    }
}

impl Crystallising {
    /// exp[−(ΔH/R)·(1/T − 1/Tm)]: X of pure crystals, 1/K of the solid solution.
    fn activity_of_crystals(&self, reciprocal_temperature: f64, shift: Kelvin) -> f64 {
        let reciprocal_melting = 1.0 / (self.melting_point + shift).to_kelvin();
        (self.heat_over_gas_constant * (reciprocal_melting - reciprocal_temperature)).exp()
    }
}

/// A fat at one temperature: everything that does not depend on ρ.
#[derive(Clone, Debug)]
pub(super) struct Equilibrium<'a> {
    mixture: &'a Mixture,
    /// K of each component of the solid solution.
    partition: [f64; SOLID_SOLUTION_COUNT],
    /// The pure components below their melting point, the first to crystallise first.
    freezing: List<Freezing, PURE_COUNT>,
    pieces: Pieces,
}

/// A pure component below its melting point.
#[derive(Clone, Copy, Debug, Default)]
struct Freezing {
    component: Crystallising,
    /// X.
    solubility: f64,
    /// n/X: with more liquid than this, mol, all of it is dissolved.
    breakpoint: f64,
}

/// The balance at a given ρ.
struct Balance {
    /// L.
    liquid: f64,
    /// A.
    solid_solution: f64,
    /// How L changes with ρ.
    liquid_slope: f64,
    /// How A changes with ρ.
    solid_solution_slope: f64,
}

impl Equilibrium<'_> {
    /// ρ, moles of solid solution per mole of liquid.
    ///
    /// The bracket: with all of the solid solution's components solid, L has its least value, and A·ρ is below their
    /// sum; so ρ is below that sum over that L, which is at most 1 / [`LEAST_LIQUID`].
    pub fn ratio(&self) -> f64 {
        let at_zero = self.balance(0.0);
        if at_zero.solid_solution <= at_zero.liquid {
            return 0.0;
        }
        let all: f64 = self.mixture.solid_solution.as_slice().iter().map(|component| component.moles).sum();
        let bound = all / self.pieces.liquid(self.mixture.liquid).0;
        let (value, slope) = at_zero.relative_excess();
        let start = -value / slope;
        rising_root((0.0, bound), start, RATIO_TOLERANCE, |ratio| self.balance(ratio).relative_excess())
    }

    /// The solid shares at this ρ.
    pub fn solid(&self, ratio: f64) -> Solid {
        let components = self.mixture.solid_solution.as_slice().iter().zip(self.partition);
        let solid_solution = components.map(|(component, partition)| {
            let solid_per_liquid = partition * ratio;
            component.mass_share * (solid_per_liquid / (1.0 + solid_per_liquid))
        });
        let liquid = self.balance(ratio).liquid;
        let pure = self.freezing.as_slice().iter().map(|freezing| {
            let dissolved = liquid / freezing.breakpoint;
            freezing.component.mass_share * (1.0 - dissolved).max(0.0)
        });
        Solid { solid_solution: MassFraction(solid_solution.sum()), pure: MassFraction(pure.sum()) }
    }

    fn balance(&self, ratio: f64) -> Balance {
        let (mut dissolved, mut solid_solution) = (self.mixture.liquid, 0.0);
        let (mut dissolved_slope, mut solid_solution_slope) = (0.0, 0.0);
        for (component, partition) in self.mixture.solid_solution.as_slice().iter().zip(self.partition) {
            let share = 1.0 / (1.0 + partition * ratio);
            let liquid = component.moles * share;
            let change = partition * liquid * share;
            dissolved += liquid;
            solid_solution += partition * liquid;
            dissolved_slope -= change;
            solid_solution_slope -= partition * change;
        }
        let (liquid, piece) = self.pieces.liquid(dissolved);
        Balance { liquid, solid_solution, liquid_slope: dissolved_slope / piece.room, solid_solution_slope }
    }

    /// ln L − ln A without solid solution, and how it changes with −1/T.
    fn driving_force(&self) -> (f64, f64) {
        let (mut dissolved, mut solid_solution, mut heat) = (self.mixture.liquid, 0.0, 0.0);
        for (component, partition) in self.mixture.solid_solution.as_slice().iter().zip(self.partition) {
            dissolved += component.moles;
            solid_solution += partition * component.moles;
            heat += component.heat_over_gas_constant * partition * component.moles;
        }
        let (liquid, piece) = self.pieces.liquid(dissolved);
        ((liquid / solid_solution).ln(), heat / solid_solution + piece.heat / piece.room)
    }
}

impl Balance {
    /// L/A − 1 and how it changes with ρ.
    fn relative_excess(&self) -> (f64, f64) {
        let quotient = self.liquid / self.solid_solution;
        let slope = (self.liquid_slope - quotient * self.solid_solution_slope) / self.solid_solution;
        (quotient - 1.0, slope)
    }
}

/// The balance of the liquid over the pure components: L = c + Σ min(n, L·X), solved for L.
///
/// c is what is dissolved beside them. The right side minus L is concave and consists of straight pieces; it is positive
/// at L near 0, so it has one root. With the components sorted by n/X, falling, the k first of them have crystals on
/// piece k. There L = (c + Σ n of the others) / (1 − Σ X of the k first), and this piece is the right one if L is not
/// below the next n/X.
#[derive(Clone, Debug)]
struct Pieces(List<Piece, { PURE_COUNT + 1 }>);

#[derive(Clone, Copy, Debug, Default)]
struct Piece {
    /// Σ n of the components without crystals, mol.
    molten: f64,
    /// 1 − Σ X of the components with crystals; above 0 wherever the piece is the right one.
    room: f64,
    /// The piece is the right one if c + `molten` is at least this, mol.
    least: f64,
    /// Σ (ΔH/R)·X of the components with crystals, K.
    heat: f64,
}

impl Pieces {
    fn new(freezing: &List<Freezing, PURE_COUNT>, molten: f64) -> Self {
        let freezing = freezing.as_slice();
        let mut pieces = List::default();
        let (mut room, mut heat) = (1.0_f64, 0.0);
        for with_crystals in 0..=freezing.len() {
            let others = &freezing[with_crystals..];
            pieces.push(Piece {
                // Summed anew, smallest first: taking one amount after the other from the sum would leave a residue.
                molten: others.iter().rev().fold(molten, |sum, other| sum + other.component.moles),
                // Rounding must not turn the end of a piece into a division by zero.
                room: room.max(f64::EPSILON),
                least: others.first().map_or(f64::NEG_INFINITY, |next| next.breakpoint * room),
                heat,
            });
            if let Some(next) = others.first() {
                room -= next.solubility;
                heat += next.component.heat_over_gas_constant * next.solubility;
            }
        }
        Self(pieces)
    }

    /// L and its piece, for so much dissolved beside the pure components.
    fn liquid(&self, dissolved: f64) -> (f64, &Piece) {
        let pieces = self.0.as_slice();
        let is_right = |piece: &&Piece| dissolved + piece.molten >= piece.least;
        let piece = pieces.iter().find(is_right).unwrap_or(&pieces[0]);
        // One mole of fat has no more than one mole of liquid, whatever rounding does.
        (((dissolved + piece.molten) / piece.room).min(1.0), piece)
    }
}

/// Up to `N` items in place: a flash allocates nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
struct List<T, const N: usize> {
    items: [T; N],
    count: usize,
}

impl<T: Copy + Default, const N: usize> Default for List<T, N> {
    fn default() -> Self {
        Self { items: [T::default(); N], count: 0 }
    }
}

impl<T, const N: usize> List<T, N> {
    fn as_slice(&self) -> &[T] {
        &self.items[..self.count]
    }

    fn push(&mut self, item: T) {
        self.items[self.count] = item;
        self.count += 1;
    }
}

impl List<Freezing, PURE_COUNT> {
    /// Keeps the list sorted by breakpoint, falling.
    fn insert_sorted(&mut self, item: Freezing) {
        let place = self.as_slice().partition_point(|other| other.breakpoint >= item.breakpoint);
        self.push(item);
        self.items[place..self.count].rotate_right(1);
    }
}

#[cfg(test)]
mod tests {
    use super::super::components::{MILK_FAT, Part, cocoa_butter_parts};
    use super::*;
    use crate::recipe::CocoaButter;

    fn mixture(parts: &[Part]) -> Mixture {
        let mut moles = [0.0; FatComponent::COUNT];
        for (component, percent) in parts {
            moles[*component as usize] += percent / component.molar_mass();
        }
        Mixture::new(&moles).unwrap()
    }

    fn cocoa_butter() -> Mixture {
        mixture(&cocoa_butter_parts(CocoaButter::WestAfrican))
    }

    fn check(name: &str, values: impl IntoIterator<Item = f64>, expected: &[f64], tolerance: f64) {
        let values: Vec<f64> = values.into_iter().collect();
        assert_eq!(values.len(), expected.len(), "{name}: {values:?}");
        for (value, expected) in values.iter().zip(expected) {
            assert!((value - expected).abs() < tolerance, "{name}: {value}, expected {expected}");
        }
    }

    // Source of the figures of the next tests: the worked example of the model's description, computed beforehand and
    // independently of this code. They are no measurements.

    #[test]
    fn cocoa_butter_has_its_mole_fractions() {
        let mixture = cocoa_butter();
        let [pop, pos, sos, _] = mixture.solid_solution.items;
        check("POP, POS, SOS", [pop, pos, sos].map(|part| part.moles), &[0.14784, 0.37401, 0.24895], 1e-5);
        // n·M over its mass share is the mean molar mass, g/mol.
        let mean_molar_mass = pop.moles * FatComponent::Pop.molar_mass() / pop.mass_share;
        check("mean molar mass", [mean_molar_mass], &[832.48], 0.005);
        let diglycerides = 1.9 / FatComponent::Diglycerides.molar_mass() * mean_molar_mass / 100.0;
        check("liquid", [mixture.liquid - diglycerides], &[0.14147 + 0.04428], 2e-5);
    }

    #[test]
    fn cocoa_butter_at_30_degrees_has_its_partition_and_solid() {
        let mixture = cocoa_butter();
        let equilibrium = mixture.at(Celsius(30.0), Kelvin::ZERO);
        check("K", equilibrium.partition, &[1.01227, 1.07135, 4.32512, 5.20674], 1e-5);
        let ratio = equilibrium.ratio();
        let balance = equilibrium.balance(ratio);
        check("L and A", [balance.liquid, balance.solid_solution], &[0.571098; 2], 1e-6);
        let solid = mixture.solid_solution.as_slice().iter().zip(equilibrium.partition);
        let solid = solid.map(|(part, k)| 100.0 * part.mass_share * k * ratio / (1.0 + k * ratio));
        check("solid, %", solid, &[6.392, 17.255, 20.339, 0.876], 0.0006);
        let solid = equilibrium.solid(ratio);
        check("all solid, %", [solid.solid_solution.to_percent()], &[44.861], 0.0006);
        assert_eq!(solid.pure, MassFraction::ZERO);
    }

    #[test]
    fn milk_fat_at_20_degrees_has_its_solubilities() {
        let mixture = mixture(MILK_FAT);
        let equilibrium = mixture.at(Celsius(20.0), Kelvin::ZERO);
        let mut solubilities: Vec<f64> = equilibrium.freezing.as_slice().iter().map(|part| part.solubility).collect();
        solubilities.sort_by(f64::total_cmp);
        check("X", solubilities, &[0.004212, 0.104691, 0.443958], 1e-6);
    }

    #[test]
    fn the_walked_balance_of_the_liquid_is_its_definition() {
        let mixture = mixture(MILK_FAT);
        for tenths in -200..600 {
            let equilibrium = mixture.at(Celsius(f64::from(tenths) / 10.0), Kelvin::ZERO);
            let (liquid, _) = equilibrium.pieces.liquid(mixture.liquid);
            let pure = mixture.pure.as_slice().iter().map(|part| {
                let freezing = equilibrium.freezing.as_slice().iter().find(|freezing| freezing.component == *part);
                freezing.map_or(part.moles, |freezing| part.moles.min(liquid * freezing.solubility))
            });
            check("L", [liquid], &[mixture.liquid + pure.sum::<f64>()], 1e-14);
        }
    }

    #[test]
    fn the_slopes_are_those_of_the_values() {
        let mut parts = cocoa_butter_parts(CocoaButter::WestAfrican).to_vec();
        parts.extend(MILK_FAT);
        let mixture = mixture(&parts);
        let equilibrium = mixture.at(Celsius(22.3), Kelvin::ZERO);
        let excess = |ratio: f64| equilibrium.balance(ratio).relative_excess();
        for ratio in [0.0, 0.3, 1.0, 5.0] {
            let estimate = (excess(ratio + 1e-6).0 - excess(ratio - 1e-6).0) / 2e-6;
            check("with ρ", [excess(ratio).1 / estimate], &[1.0], 1e-6);
        }
        let force = |kelvin: f64, step: f64| mixture.at_reciprocal(1.0 / kelvin - step, Kelvin::ZERO).driving_force();
        for kelvin in [270.0, 290.0, 305.0, 325.0] {
            let estimate = (force(kelvin, 1e-8).0 - force(kelvin, -1e-8).0) / 2e-8;
            check("with −1/T", [force(kelvin, 0.0).1 / estimate], &[1.0], 1e-6);
        }
    }
}
