//! How the water activity of a mass changes as it dries or gets damp, with everything else as it is.
//!
//! What an open tray does in a dry room, and what condensation does. Crystals that have to dissolve or to form are taken
//! to have had their time.

use super::equilibrium::{Conditions, Contents};
use crate::units::{Grams, WaterActivity};

/// Points of a curve.
pub const POINTS: u16 = 60;

/// The mass with another amount of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// All its water.
    pub water: Grams,
    /// Its water activity.
    pub activity: WaterActivity,
    /// What of the water solids and crystals hold.
    pub held: Grams,
    /// Sucrose that stays undissolved.
    pub undissolved_sucrose: Grams,
}

/// The mass with [`POINTS`] amounts of water from one to the other, in equal steps.
///
/// Points without an equilibrium (no water, or all of it in crystals) are left out.
#[must_use]
pub fn between(contents: &Contents, conditions: Conditions, from: Grams, to: Grams) -> Vec<Point> {
    at(contents, conditions, steps().map(|step| from + (to - from) * step))
}

/// The mass with [`POINTS`] amounts of water from one to the other, each the same multiple of the one before.
#[must_use]
pub fn by_factors(contents: &Contents, conditions: Conditions, from: Grams, to: Grams) -> Vec<Point> {
    let factor = if from.0 > 0.0 { (to / from).0 } else { 1.0 };
    at(contents, conditions, steps().map(|step| from * factor.powf(step)))
}

/// From 0 to 1.
fn steps() -> impl Iterator<Item = f64> {
    (0..POINTS).map(|place| f64::from(place) / f64::from(POINTS - 1))
}

fn at(contents: &Contents, conditions: Conditions, waters: impl Iterator<Item = Grams>) -> Vec<Point> {
    let mut changed = contents.clone();
    waters
        .filter_map(|water| {
            changed.water = water;
            let rest = changed.equilibrium(conditions)?;
            Some(Point {
                water,
                activity: rest.activity,
                held: water - rest.syrup_water,
                undissolved_sucrose: rest.undissolved_sucrose,
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::analysis::water::solute::{Solute, Solution};
    use crate::analysis::water::sorption::Sorbent;
    use crate::units::Celsius;

    /// A ganache, g per 100 g.
    fn ganache() -> Contents {
        let mut solids = [Grams(0.0); Sorbent::COUNT];
        solids[Sorbent::Cocoa as usize] = Grams(9.5);
        solids[Sorbent::MilkProtein as usize] = Grams(1.6);
        Contents {
            water: Grams(17.5),
            sucrose: Grams(22.0),
            lactose: Grams(1.6),
            others: Solution::default().with(Solute::Glucose, Grams(3.5)).with(Solute::Fructose, Grams(3.5)),
            solids,
        }
    }

    #[test]
    fn the_curve_goes_through_the_mass_as_it_is() {
        let (contents, usual) = (ganache(), Conditions::usual(Celsius(20.0)));
        let points = between(&contents, usual, Grams(17.5), Grams(30.0));
        let here = contents.equilibrium(usual).expect("there is water");
        assert_eq!(points.len(), usize::from(POINTS));
        assert_eq!(points[0].activity, here.activity);
        assert_abs_diff_eq!(points[0].held.0, 17.5 - here.syrup_water.0, epsilon = 1e-9);
        assert_abs_diff_eq!(points[59].water.0, 30.0, epsilon = 1e-12);
    }

    #[test]
    fn it_rises_and_keeps_its_level_while_sucrose_alone_dissolves() {
        let usual = Conditions::usual(Celsius(20.0));
        let points = by_factors(&ganache(), usual, Grams(1.0), Grams(100.0));
        assert!(points.windows(2).all(|pair| pair[1].activity.0 >= pair[0].activity.0 - 1e-9));
        // A saturated solution of sucrose at 20 °C has 0.854, with little or with much water.
        let sugar = Contents { sucrose: Grams(300.0), ..Contents::default() };
        for point in between(&sugar, usual, Grams(1.0), Grams(140.0)) {
            assert_abs_diff_eq!(point.activity.0, 0.8537, epsilon = 5e-4);
        }
    }

    #[test]
    fn a_mass_without_water_has_no_point_there() {
        let usual = Conditions::usual(Celsius(20.0));
        assert_eq!(between(&ganache(), usual, Grams(0.0), Grams(0.0)), []);
        assert_eq!(by_factors(&ganache(), usual, Grams(0.0), Grams(5.0)), []);
    }
}
