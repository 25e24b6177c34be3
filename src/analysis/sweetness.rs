//! How sweet a mass is beside sucrose, by what is sweet in it.
//!
//! A sum of what each sugar and sugar alcohol would be in water. It does not cover what the mass does to the taste: fat
//! coats the tongue, cocoa is bitter, acid and cold take sweetness away, and crystals that melt slowly taste later. So it
//! compares recipes of one sort; the tongue decides.

use super::parts::Parts;
use crate::ingredient::{Component, PolyolKind};
use crate::units::Grams;

/// How sweet a substance is at the same mass, sucrose = 100: the value that is computed with and the ends of what sources
/// give.
///
/// Times grams it is a hundredfold of the grams of sucrose that are as sweet; a sum of such is again one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Relative {
    /// Lowest of the sources.
    pub low: f64,
    /// What is computed with.
    pub value: f64,
    /// Highest of the sources.
    pub high: f64,
}

impl Relative {
    const fn new(low: f64, value: f64, high: f64) -> Self {
        Self { low, value, high }
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self { low: self.low * factor, value: self.value * factor, high: self.high * factor }
    }

    pub(super) fn plus(self, other: Self) -> Self {
        Self { low: self.low + other.low, value: self.value + other.value, high: self.high + other.high }
    }

    /// Each end less the same end of the other.
    pub(super) fn less(self, other: Self) -> Self {
        self.plus(other.times(-1.0))
    }
}

// Sources of the substances: `sweetness-2014`, Table 2; `sweetness-2011`, Table 1; `sweetness-2023`, Table 2;
// `varzakas-2012`, Table 2.1. They differ by the strength of the solution, its temperature and who tasted.

/// The reference.
const SUCROSE: Relative = Relative::new(100.0, 100.0, 100.0);
/// Cold and in weak solution it is sweeter than warm: the lower end is computed with.
const FRUCTOSE: Relative = Relative::new(150.0, 150.0, 180.0);
pub(super) const GLUCOSE: Relative = Relative::new(50.0, 70.0, 80.0);
const LACTOSE: Relative = Relative::new(15.0, 20.0, 40.0);
pub(super) const MALTOSE: Relative = Relative::new(30.0, 40.0, 50.0);
/// Trehalose; isomaltulose counts as it (from memory: about 50 as well).
const TREHALOSE: Relative = Relative::new(45.0, 50.0, 70.0);
/// Polyols of which the kind is not known: as sorbitol, between the least and the sweetest of all.
const ANY_POLYOL: Relative = Relative::new(30.0, 60.0, 120.0);
/// What the sweetest of all is at most: what a data sheet leaves open is not sweeter.
const SWEETEST: f64 = FRUCTOSE.high;

/// Higher saccharides of which no dextrose equivalent is known: what glucose and maltose leave of the sweetness of a
/// glucose syrup of DE 36 with 14 % glucose and 11 % maltose in its solids (derived), from not sweet at all to as sweet as
/// maltose.
pub(super) const HIGHER_SACCHARIDES: Relative = Relative::new(0.0, 25.0, 40.0);

/// How sweet the solids of a starch syrup are by its dextrose equivalent: DE 28 to 30, 36 to 38, 42 and 63 (computed from
/// compositions); starch is not sweet, and at DE 100 all is glucose.
const STARCH_SYRUPS: [(f64, f64); 6] =
    [(0.0, 0.0), (29.0, 25.0), (37.0, 35.0), (42.0, 45.0), (63.0, 65.0), (100.0, 70.0)];

/// How far those are known, either way.
const STARCH_SYRUP_BAND: f64 = 10.0;

/// How sweet the solids of a starch syrup are: between the nearest two of `STARCH_SYRUPS` on a straight line.
pub(super) fn starch_syrup(dextrose_equivalent: f64) -> Relative {
    let equivalent = dextrose_equivalent.clamp(0.0, 100.0);
    let value = STARCH_SYRUPS.windows(2).find(|pair| equivalent <= pair[1].0).map_or(GLUCOSE.value, |pair| {
        let ((from, low), (to, high)) = (pair[0], pair[1]);
        low + (high - low) * (equivalent - from) / (to - from)
    });
    Relative { low: (value - STARCH_SYRUP_BAND).max(0.0), value, high: value + STARCH_SYRUP_BAND }
}

/// How sweet a sugar alcohol is.
const fn polyol(kind: PolyolKind) -> Relative {
    match kind {
        PolyolKind::Sorbitol => Relative::new(50.0, 60.0, 70.0),
        PolyolKind::Maltitol => Relative::new(50.0, 85.0, 90.0),
        PolyolKind::Isomalt => Relative::new(45.0, 50.0, 65.0),
        // From memory, without a range of its own: give or take 10, as of the others.
        PolyolKind::Glycerol => Relative::new(55.0, 65.0, 75.0),
        PolyolKind::Lactitol => Relative::new(30.0, 35.0, 40.0),
        PolyolKind::Xylitol => Relative::new(85.0, 100.0, 120.0),
        PolyolKind::Erythritol => Relative::new(60.0, 65.0, 80.0),
        PolyolKind::Mannitol => Relative::new(40.0, 55.0, 72.0),
    }
}

/// How sweet a mass is: sucrose = 100 at the same mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sweetness {
    /// The value.
    pub value: f64,
    /// With every substance at the low end of its sources.
    pub low: f64,
    /// With every substance at the high end, and what data sheets leave open as sweet as the sweetest sugar.
    pub high: f64,
}

/// How many grams of sucrose are as sweet as all of a mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SucroseEquivalent {
    /// The value; twice the mass gives twice as much, and two masses their sum.
    pub value: Grams,
    /// Its low end.
    pub low: Grams,
    /// Its high end.
    pub high: Grams,
}

/// How sweet a mass is, beside the same mass of sucrose.
///
/// S = 100 · [`sucrose_equivalent`] / m
///
/// S: relative sweetness, sucrose = 100; m: the mass, g.
///
/// Source, range and what is left out: as of [`sucrose_equivalent`]. `None` with it, and without a mass.
///
/// By hand: 30 g of sucrose and 20 g of invert sugar of equal parts of glucose and fructose in 100 g of a mass are as
/// sweet as 30 + 10 · 0.7 + 10 · 1.5 = 52 g of sucrose: 52.
#[must_use]
pub fn sweetness(parts: &Parts) -> Option<Sweetness> {
    let total = parts.total();
    if total.0 <= 0.0 {
        return None;
    }
    let equivalent = sucrose_equivalent(parts)?;
    let of_mass = |grams: Grams| (grams / total).to_percent();
    Some(Sweetness { value: of_mass(equivalent.value), low: of_mass(equivalent.low), high: of_mass(equivalent.high) })
}

/// How many grams of sucrose are as sweet as all of a mass.
///
/// E = Σ mᵢ · fᵢ / 100
///
/// mᵢ: grams of a sugar or sugar alcohol; fᵢ: its relative sweetness, sucrose = 100. The solids of a starch syrup with a
/// known dextrose equivalent (glucose, maltose and higher saccharides) have one factor together.
///
/// Source: `sweetness-2014`, `sweetness-2011`, `sweetness-2023`, `varzakas-2012` (factors and their ranges); starch
/// syrups computed from compositions, ±10. The sum is linear: that sugars lift each other is not in it, nor are fat,
/// bitterness, acid and temperature. Galactose counts as the glucose that it stands in, the sugar of cocoa (2 % of its
/// fat-free solids) not at all.
/// `None` where a sugar, the higher saccharides or the polyols are not known. Polyols of unknown kind count as sorbitol,
/// with ends that hold every kind; what data sheets leave open widens the upper end.
///
/// ```
/// # use nibwright::{analysis::{parts::Parts, sweetness::sucrose_equivalent}, ingredient::Library, units::Grams};
/// # let library = Library::built_in();
/// let mut parts = Parts::default();
/// parts.add(library.by_id("fructose").unwrap(), Grams(50.0));
/// // 49.85 g of it are fructose, each as sweet as 1.5 g of sucrose.
/// assert!((sucrose_equivalent(&parts).unwrap().value.0 - 74.775).abs() < 0.001);
/// ```
#[must_use]
pub fn sucrose_equivalent(parts: &Parts) -> Option<SucroseEquivalent> {
    let grams = |component| parts.grams(component).map(|grams| grams.0);
    // Known or not: what stands in them is told apart below.
    grams(Component::HigherSaccharides)?;
    grams(Component::Polyols)?;
    let other_maltose = parts.sorbing().trehalose().0;
    let mut sum = SUCROSE
        .times(grams(Component::Sucrose)?)
        .plus(GLUCOSE.times(grams(Component::Glucose)?))
        .plus(FRUCTOSE.times(grams(Component::Fructose)?))
        .plus(LACTOSE.times(grams(Component::Lactose)?))
        .plus(MALTOSE.times(grams(Component::Maltose)? - other_maltose))
        .plus(TREHALOSE.times(other_maltose))
        .plus(parts.sweet().higher_saccharides())
        .plus(ANY_POLYOL.times(parts.polyols_of_kind(None).0));
    for kind in PolyolKind::ALL {
        sum = sum.plus(polyol(kind).times(parts.polyols_of_kind(Some(kind)).0));
    }
    let left_open = parts.unassigned().map_or(0.0, |grams| grams.0.max(0.0));
    let of_sucrose = |sum: f64| Grams(sum / SUCROSE.value);
    Some(SucroseEquivalent {
        value: of_sucrose(sum.value),
        low: of_sucrose(sum.low),
        high: of_sucrose(sum.high + SWEETEST * left_open),
    })
}

#[cfg(test)]
mod tests;
