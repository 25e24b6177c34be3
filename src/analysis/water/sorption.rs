//! Water that solids hold: the isotherm of Guggenheim, Anderson and de Boer (GAB).
//!
//! What neither dissolves nor is fat takes up water until its water activity is that of the syrup around it. Each sort
//! of solid has an isotherm of its own; the masses of solids with the same isotherm are added up before.

use crate::units::WaterActivity;

/// A sort of solid that takes up water, counted dry, without fat and sugar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sorbent {
    /// Fat-free cocoa solids.
    Cocoa,
    /// Milk protein, and for want of their own figures the protein of egg, cereal, fruit and gelatine.
    MilkProtein,
    /// Nuts without fat and sugar: their protein, starch and fibre together.
    Nut,
    /// Starch and flour.
    Starch,
    /// Fibre that does not dissolve.
    Fibre,
    /// Inulin and the gelling agents: pectin, agar.
    Thickener,
}

impl Sorbent {
    /// How many there are.
    pub const COUNT: usize = 6;

    /// All sorts in the order of the report.
    pub const ALL: [Self; Self::COUNT] =
        [Self::Cocoa, Self::MilkProtein, Self::Nut, Self::Starch, Self::Fibre, Self::Thickener];

    /// Its name in the JSON report.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Cocoa => "cocoa_solids",
            Self::MilkProtein => "protein",
            Self::Nut => "nut_solids",
            Self::Starch => "starch",
            Self::Fibre => "fibre",
            Self::Thickener => "thickener",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Cocoa => "cocoa solids",
            Self::MilkProtein => "protein",
            Self::Nut => "nut solids",
            Self::Starch => "starch",
            Self::Fibre => "fibre",
            Self::Thickener => "inulin, pectin",
        }
    }

    /// Its isotherm.
    ///
    /// Parameters at 25 °C, used from 4 to 35 °C without change; [`Isotherm::good_to`] says how well each is founded.
    #[must_use]
    pub const fn isotherm(self) -> Isotherm {
        match self {
            // Mid-point of two studies of beans (`sandoval-2002`): 0.046 to 0.077 without fat.
            Self::Cocoa => Isotherm { monolayer: 0.061, energy: 21.6, multilayer: 0.871, good_to: 0.25 },
            // A smooth curve through published isotherms of casein (from memory).
            Self::MilkProtein => Isotherm { monolayer: 0.065, energy: 12.0, multilayer: 0.80, good_to: 0.20 },
            // Almond: monolayer within the published range (`taitano-2012`), the rest set to its moisture (from memory).
            Self::Nut => Isotherm { monolayer: 0.050, energy: 15.0, multilayer: 0.91, good_to: 0.25 },
            // Wheat and maize starch (from memory).
            Self::Starch => Isotherm { monolayer: 0.088, energy: 18.0, multilayer: 0.70, good_to: 0.15 },
            // Assumed.
            Self::Fibre => Isotherm { monolayer: 0.060, energy: 10.0, multilayer: 0.85, good_to: 0.30 },
            // Monolayer of inulin (`gels-2025`), the rest assumed.
            Self::Thickener => Isotherm { monolayer: 0.086, energy: 10.0, multilayer: 0.90, good_to: 0.30 },
        }
    }
}

/// How much water a dry solid holds at a water activity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Isotherm {
    /// M₀: water of the first layer, g per g of dry solid.
    pub monolayer: f64,
    /// C: how much more firmly the first layer is held than the others.
    pub energy: f64,
    /// k: how firmly the outer layers are held, compared with liquid water; below 1.
    pub multilayer: f64,
    /// How far the water held may be off, as a share of it.
    pub good_to: f64,
}

impl Isotherm {
    /// Water held at equilibrium, g per g of dry solid, and its slope with the water activity.
    ///
    /// M = M₀·C·k·a/((1 − k·a)·(1 − k·a + C·k·a)), a the water activity.
    ///
    /// Source: GAB equation. Range 0.1 ≤ a ≤ 0.95; it rises everywhere as long as k·a < 1.
    ///
    /// ```
    /// # use nibwright::{analysis::water::sorption::Sorbent, units::WaterActivity};
    /// // Cocoa solids at 0.80 hold 19.7 g per 100 g.
    /// let (held, _) = Sorbent::Cocoa.isotherm().moisture(WaterActivity(0.80));
    /// assert!((100.0 * held - 19.72).abs() < 0.005);
    /// ```
    #[must_use]
    pub fn moisture(&self, activity: WaterActivity) -> (f64, f64) {
        let Self { monolayer, energy, multilayer, .. } = *self;
        let x = multilayer * activity.0;
        let (free, layers) = (1.0 - x, 1.0 - x + energy * x);
        let held = monolayer * energy * x / (free * layers);
        // d ln M/dx = 1/x + 1/free − (C − 1)/layers, times M, with M/x written out so that x = 0 does no harm.
        let slope = monolayer * energy / (free * layers) + held * (1.0 / free - (energy - 1.0) / layers);
        (held, slope * multilayer)
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// Reference table of the default parameters, g per 100 g of dry solid, computed independently of this program.
    #[test]
    fn the_isotherms_give_the_table() {
        const TABLE: [(f64, [f64; 4]); 5] = [
            (0.50, [10.19, 9.63, 12.27, 8.50]),
            (0.70, [15.18, 13.86, 16.31, 13.27]),
            (0.80, [19.72, 17.25, 19.16, 17.94]),
            (0.85, [23.12, 19.55, 20.94, 21.65]),
            (0.90, [27.87, 22.49, 23.03, 27.22]),
        ];
        let sorts = [Sorbent::Cocoa, Sorbent::MilkProtein, Sorbent::Starch, Sorbent::Nut];
        for (activity, row) in TABLE {
            for (sort, expected) in sorts.into_iter().zip(row) {
                let (held, _) = sort.isotherm().moisture(WaterActivity(activity));
                assert_abs_diff_eq!(100.0 * held, expected, epsilon = 0.005);
            }
        }
    }

    /// The inverse is the root of a quadratic: A·a² + (B − 1/M)·a + G = 0.
    #[test]
    fn the_quadratic_leads_back() {
        for sort in Sorbent::ALL {
            let Isotherm { monolayer, energy, multilayer, .. } = sort.isotherm();
            for step in 1..=95 {
                let activity = f64::from(step) / 100.0;
                let (held, _) = sort.isotherm().moisture(WaterActivity(activity));
                let a = multilayer * (1.0 / energy - 1.0) / monolayer;
                let b = (1.0 - 2.0 / energy) / monolayer - 1.0 / held;
                let g = 1.0 / (monolayer * energy * multilayer);
                let root = (b * b - 4.0 * a * g).sqrt();
                let roots = [(-b + root) / (2.0 * a), (-b - root) / (2.0 * a)];
                let back = roots.into_iter().filter(|root| *root > 0.0).fold(f64::INFINITY, f64::min);
                assert_abs_diff_eq!(back, activity, epsilon = 1e-9);
            }
        }
    }

    #[test]
    fn the_slope_is_that_of_the_curve() {
        const STEP: f64 = 1e-6;
        for sort in Sorbent::ALL {
            let at = |activity| sort.isotherm().moisture(WaterActivity(activity));
            for activity in [1e-6, 0.1, 0.3, 0.6, 0.9, 0.99] {
                let numeric = (at(activity + STEP).0 - at(activity - STEP).0) / (2.0 * STEP);
                let (_, slope) = at(activity);
                assert!(slope > 0.0);
                approx::assert_relative_eq!(slope, numeric, max_relative = 1e-5);
            }
        }
    }
}
