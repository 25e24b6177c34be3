//! How thick a melted mass of fat is: how much its solids hinder the flow of its fat.
//!
//! Relative only. How thick chocolate is in Pa·s depends on the size of its particles, on conching, lecithin and moisture,
//! which a recipe does not say; how much thicker one recipe is than another of the same particles, on its fat first.
//!
//! Not for emulsions: their water phase flows between the droplets.

use super::Analysis;
use super::emulsion::EmulsionState;
use super::parts::{Group, Parts};
use super::texture::{CHOCOLATE_SOLIDS, fat_densities};
use crate::units::{Celsius, Millilitres};

/// At which temperature it is melted.
pub const MELTED: Celsius = Celsius(40.0);

/// How much of a volume solids can fill before nothing flows: likely and at its ends.
///
/// Source: between loose and close packing of particles of mixed sizes (from memory).
pub const CLOSEST: [f64; 3] = [0.68, 0.72, 0.65];

/// The intrinsic viscosity of spheres (Einstein).
const OF_SPHERES: f64 = 2.5;

/// How thick a mass is when all of its fat is melted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flow {
    /// The share of its volume that its solids fill.
    pub solids: f64,
}

/// How the thickness of a mass compares with that of another one; the limits are judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thickness {
    /// Less than 0.4 times as thick.
    MuchThinner,
    /// Less than 0.75 times.
    Thinner,
    /// About the same.
    Alike,
    /// More than 1.33 times.
    Thicker,
    /// More than 2.5 times.
    MuchThicker,
}

impl Thickness {
    /// Which it is at a ratio of viscosities.
    #[must_use]
    pub fn of(ratio: f64) -> Self {
        match ratio {
            ratio if ratio < 0.4 => Self::MuchThinner,
            ratio if ratio < 0.75 => Self::Thinner,
            ratio if ratio <= 1.33 => Self::Alike,
            ratio if ratio <= 2.5 => Self::Thicker,
            _ => Self::MuchThicker,
        }
    }
}

/// How many times as thick as its liquid a suspension is; `None` where its solids touch all over and it does not flow.
///
/// (1 − φ/φ_m)^(−\[η\]·φ_m); φ the volume share of the solids, φ_m the most that can be filled, \[η\] 2.5
///
/// Source: Krieger and Dougherty 1959, for spheres. Range 0 to φ_m.
///
/// ```
/// # use nibwright::analysis::flow::relative_viscosity;
/// assert!((relative_viscosity(0.55, 0.68).unwrap() - 16.656).abs() < 1e-3);
/// assert_eq!(relative_viscosity(0.70, 0.68), None);
/// ```
#[must_use]
pub fn relative_viscosity(solids: f64, closest: f64) -> Option<f64> {
    (0.0 <= solids && solids < closest).then(|| (1.0 - solids / closest).powf(-OF_SPHERES * closest))
}

/// How thick a chocolate flows at a rate of shear, by the two figures of its data sheet: Pa·s.
///
/// (√τ₀ + √(η·γ))²/γ; τ₀ the yield stress in Pa, η the plastic viscosity in Pa·s, γ the rate of shear in 1/s, above 0
///
/// Source: the equation of Casson, in the form in which the trade measures chocolate (from memory).
///
/// ```
/// # use nibwright::analysis::flow::casson_viscosity;
/// assert!((casson_viscosity(10.0, 2.0, 10.0) - 5.8284).abs() < 1e-3);
/// ```
#[must_use]
pub fn casson_viscosity(yield_stress: f64, plastic_viscosity: f64, rate: f64) -> f64 {
    (yield_stress.sqrt() + (plastic_viscosity * rate).sqrt()).powi(2) / rate
}

/// How thick the mass of a recipe is, melted; `None` for an emulsion, without fat, of fat alone, and where the fat is not known.
#[must_use]
pub fn flow(analysis: &Analysis) -> Option<Flow> {
    Flow::of(&analysis.make_up.bowl, analysis.emulsion)
}

/// The volume of the solids of a melted mass and that of all of it; `None` where it has no [`Flow`].
#[must_use]
pub fn solids_of(bowl: &Parts, emulsion: EmulsionState) -> Option<(Millilitres, Millilitres)> {
    /// Less is fat alone.
    const LEAST: f64 = 0.01;
    if emulsion.is_watery(bowl) {
        return None;
    }
    let fat = bowl.group(Group::TotalFat)?;
    let solids = (bowl.total() - fat) / CHOCOLATE_SOLIDS;
    let all = solids + fat / fat_densities(MELTED).liquid;
    (fat.0 > 0.0 && solids.0 >= LEAST * all.0).then_some((solids, all))
}

impl Flow {
    fn of(bowl: &Parts, emulsion: EmulsionState) -> Option<Self> {
        let (solids, all) = solids_of(bowl, emulsion)?;
        Some(Self { solids: solids.0 / all.0 })
    }

    /// How many times as thick as its fat it is: likely, least, most; `None` where it does not flow.
    #[must_use]
    pub fn to_fat(self) -> [Option<f64>; 3] {
        CLOSEST.map(|closest| relative_viscosity(self.solids, closest))
    }

    /// How many times as thick as another mass of the same particles it is: likely, least, most.
    ///
    /// `None` where one of the two does not flow.
    #[must_use]
    pub fn against(self, other: Self) -> Option<[f64; 3]> {
        let ratio = |closest| match [self, other].map(|flow| relative_viscosity(flow.solids, closest)) {
            [Some(own), Some(of_other)] => Some(own / of_other),
            [None, Some(_)] => Some(f64::INFINITY),
            [Some(_), None] => Some(0.0),
            [None, None] => None,
        };
        let [likely, one, two] = CLOSEST.map(ratio);
        let likely = likely.filter(|likely| likely.is_finite() && *likely > 0.0)?;
        // An end at which neither flows tells nothing.
        let (one, two) = (one.unwrap_or(likely), two.unwrap_or(likely));
        Some([likely, likely.min(one).min(two), likely.max(one).max(two)])
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;
    use crate::units::MassFraction;

    fn chocolate(fat: f64) -> Flow {
        let (fat, solids) = (fat / 0.895, (1.0 - fat) / 1.5);
        Flow { solids: solids / (fat + solids) }
    }

    /// Worked values of the formula of Krieger and Dougherty: dark chocolate by its fat, with φ_m 0.68, 0.72 and 0.65.
    #[test]
    fn chocolate_with_less_fat_is_thicker() {
        for (fat, solids, [likely, least, most]) in [
            (0.28, 0.605, [43.0, 27.0, 78.0]),
            (0.32, 0.559, [19.0, 15.0, 24.0]),
            (0.36, 0.515, [11.0, 10.0, 13.0]),
            (0.40, 0.472, [7.5, 6.8, 8.2]),
        ] {
            let flow = chocolate(fat);
            assert!((flow.solids - solids).abs() < 6e-4, "{flow:?}");
            for (found, expected) in flow.to_fat().into_iter().zip([likely, least, most]) {
                assert_relative_eq!(found.expect("it flows"), expected, max_relative = 0.05);
            }
        }
    }

    /// By hand: (√10 + √20)²/10 = 3 + 2·√2 Pa·s; without a yield stress the plastic viscosity at every rate; quicker, and it
    /// thins towards that.
    #[test]
    fn chocolate_thins_as_it_is_stirred() {
        assert_relative_eq!(casson_viscosity(10.0, 2.0, 10.0), 5.8284, max_relative = 2e-5);
        assert_relative_eq!(casson_viscosity(0.0, 2.0, 3.0), 2.0, max_relative = 1e-12);
        assert!(casson_viscosity(10.0, 2.0, 5.0) > casson_viscosity(10.0, 2.0, 40.0));
        assert_relative_eq!(casson_viscosity(10.0, 2.0, 1e12), 2.0, max_relative = 1e-5);
    }

    /// In thin suspensions the law of Einstein: 1 + 2.5·φ.
    #[test]
    fn few_particles_hinder_as_spheres_do() {
        for closest in CLOSEST {
            let found = relative_viscosity(1e-4, closest).expect("it flows");
            assert!((found - (1.0 + 2.5e-4)).abs() < 1e-7, "{found}");
        }
        assert_eq!((relative_viscosity(0.68, 0.68), relative_viscosity(-0.1, 0.68)), (None, None));
    }

    #[test]
    fn a_mass_is_as_thick_as_itself_and_thinner_with_more_fat() {
        let (lean, rich) = (chocolate(0.32), chocolate(0.36));
        assert_eq!(lean.against(lean), Some([1.0; 3]));
        let [likely, least, most] = rich.against(lean).expect("both flow");
        assert!(least < likely && likely < most && most < 1.0, "{likely} {least} {most}");
        assert_eq!(Thickness::of(likely), Thickness::Thinner);
        let [back, ..] = lean.against(rich).expect("both flow");
        assert_relative_eq!(back * likely, 1.0, max_relative = 1e-12);
        assert_eq!((chocolate(0.20).against(rich), rich.against(chocolate(0.20))), (None, None));
        // So full that it flows by the likely packing only.
        let full = Flow { solids: 0.66 };
        let [up, down] = [full.against(rich), rich.against(full)].map(|ratios| ratios.expect("both flow"));
        assert_eq!((up[2], down[1]), (f64::INFINITY, 0.0));
        assert!(up[0] > up[1] && down[0] < down[2]);
        assert_eq!(
            [0.3, 0.5, 1.0, 2.0, 3.0].map(Thickness::of),
            [Thickness::MuchThinner, Thickness::Thinner, Thickness::Alike, Thickness::Thicker, Thickness::MuchThicker]
        );
    }

    /// With so many crystals that the program calls it too thick to work, the same formula makes chocolate about a third
    /// thicker than without.
    #[test]
    fn what_is_called_too_thick_is_a_third_thicker() {
        let MassFraction(crystals) = crate::analysis::setting::workable::TOO_THICK;
        let densities = fat_densities(Celsius(31.0));
        for fat in [0.32, 0.34, 0.36, 0.38] {
            let melted = chocolate(fat);
            let volume = (1.0 - melted.solids) * crystals * densities.liquid.0 / densities.crystals.0;
            let [ratio, ..] = Flow { solids: melted.solids + volume }.against(melted).expect("both flow");
            assert!((1.2..1.45).contains(&ratio), "{fat} {ratio}");
        }
    }
}
