//! Surface coefficients of radiation, and of a stream of air as a fan or a cooling tunnel makes it.

use crate::analysis::cooling::estimate::positive;
use crate::units::{Celsius, Metres, WattsPerSquareMetreKelvin};

/// Stefan's and Boltzmann's constant in W/(m² K⁴), exact by definition of the units.
const RADIATION: f64 = 5.670_374_419e-8;

/// Air at the pressure of the sea's level, straight between 0 and 40 °C.
///
/// Conductivity 0.0244 and 0.0273 W/(m K), kinematic viscosity 13.3 and 17.0 mm²/s, Prandtl number 0.711 and 0.703: tables
/// of dry air, from memory, within 1 %.
struct Air {
    conductivity: f64,
    viscosity: f64,
    prandtl: f64,
}

impl Air {
    /// `None` unless the temperature is from 0 to 40 °C.
    fn at(at: Celsius) -> Option<Self> {
        const WARM: f64 = 40.0;
        let between = |cold: f64, warm: f64| cold + (warm - cold) * at.0 / WARM;
        (0.0..=WARM).contains(&at.0).then(|| Self {
            conductivity: between(0.0244, 0.0273),
            viscosity: between(13.3e-6, 17.0e-6),
            prandtl: between(0.711, 0.703),
        })
    }

    fn reynolds(&self, metres_per_second: f64, length: f64) -> Option<f64> {
        positive(positive(metres_per_second)? * positive(length)? / self.viscosity)
    }
}

/// The mean surface coefficient of a flat piece along a stream of air: Nu = 0.664 · Re^½ · Pr^⅓.
///
/// Nu = h·L/k, Re = v·L/ν: v speed of the air \[m/s\], L length along the stream, k conductivity and ν kinematic viscosity of
/// the air, Pr its Prandtl number.
///
/// Source: laminar boundary layer, as in textbooks (from memory). Turbulence of a fan adds 30 to 100 % (from memory).
/// `None` for what is not positive, for air below 0 or above 40 °C, and from Re 5·10⁵ on, where it is not laminar.
#[must_use]
pub fn plate_in_stream(metres_per_second: f64, length: Metres, air: Celsius) -> Option<WattsPerSquareMetreKelvin> {
    const TURBULENT: f64 = 5e5;
    let air = Air::at(air)?;
    let reynolds = air.reynolds(metres_per_second, length.0)?;
    let nusselt = 0.664 * reynolds.sqrt() * air.prandtl.cbrt();
    (reynolds < TURBULENT).then_some(WattsPerSquareMetreKelvin(nusselt * air.conductivity / length.0))
}

/// The surface coefficient of a sphere in a stream of air: Nu = 2 + (0.4 · Re^½ + 0.06 · Re^⅔) · Pr^0.4.
///
/// Symbols as [`plate_in_stream`], L the diameter; the viscosity at the surface counts as that of the air.
///
/// Source: `whitaker-1972`. Holds for 3.5 ≤ Re ≤ 7.6·10⁴ (from memory); `None` outside, for what is not
/// positive, and for air below 0 or above 40 °C.
#[must_use]
pub fn sphere_in_stream(metres_per_second: f64, diameter: Metres, air: Celsius) -> Option<WattsPerSquareMetreKelvin> {
    let air = Air::at(air)?;
    let reynolds = air.reynolds(metres_per_second, diameter.0)?;
    let nusselt = 2.0 + (0.4 * reynolds.sqrt() + 0.06 * reynolds.powf(2.0 / 3.0)) * air.prandtl.powf(0.4);
    let is_in_range = (3.5..=7.6e4).contains(&reynolds);
    is_in_range.then_some(WattsPerSquareMetreKelvin(nusselt * air.conductivity / diameter.0))
}

/// The surface coefficient of radiation to surroundings at the temperature of the air: h = 4·ε·σ·T³.
///
/// ε emissivity (0.9 for food and plastics, from memory), σ 5.670374·10⁻⁸ W/(m² K⁴), T mean of surface and air in kelvin. It is
/// added to that of the air. Source: law of Stefan and Boltzmann. `None` unless ε is from 0 to 1 and T above 0 K.
#[must_use]
pub fn radiation(emissivity: f64, mean: Celsius) -> Option<WattsPerSquareMetreKelvin> {
    let coefficient = positive(4.0 * emissivity * RADIATION * mean.to_kelvin().max(0.0).powi(3))?;
    (emissivity <= 1.0).then_some(WattsPerSquareMetreKelvin(coefficient))
}

mod tests {
    use super::*;
    use crate::analysis::heat::tests::check;

    /// By hand: 4 · 0.9 · 5.670e-8 · 298.15³. Range printed beside the formula for emissivity 0.9, computed apart: 4.7 to 5.4 W/(m² K).
    #[test]
    fn radiation_is_as_much_as_still_air() {
        for (at, expected) in [(12.0, 4.7), (25.0, 5.4)] {
            check("W/(m² K)", radiation(0.9, Celsius(at)).expect("positive").0, expected, 0.05);
        }
        check("by hand", radiation(0.9, Celsius(25.0)).expect("positive").0, 5.41, 0.005);
        for (emissivity, at) in [(0.0, 20.0), (1.1, 20.0), (f64::NAN, 20.0), (0.9, -300.0)] {
            assert_eq!(radiation(emissivity, Celsius(at)), None);
        }
    }

    /// Correlations with air of `coolprop-8`, within 2 %: 33.12, 24.95 and 12.46 W/(m² K); rounded in the same place for other
    /// speeds.
    #[test]
    fn a_fan_cools_three_times_as_well_as_still_air() {
        for (speed, expected) in [(0.5, 16.0), (2.0, 33.12), (3.0, 41.0)] {
            let coefficient = sphere_in_stream(speed, Metres(0.028), Celsius(12.0)).expect("in range");
            check("sphere", coefficient.0, expected, expected * 0.02);
        }
        for (speed, length, air, expected) in
            [(2.0, 0.05, 12.0, 24.95), (3.0, 0.3, 17.0, 12.46), (1.0, 0.05, 12.0, 17.6), (5.0, 0.3, 17.0, 16.1)]
        {
            let coefficient = plate_in_stream(speed, Metres(length), Celsius(air)).expect("in range");
            check("plate", coefficient.0, expected, expected * 0.02);
        }
        for (speed, length, air) in [(0.0, 0.05, 12.0), (f64::NAN, 0.05, 12.0), (2.0, 0.0, 12.0), (2.0, 0.05, 60.0)] {
            assert_eq!(plate_in_stream(speed, Metres(length), Celsius(air)), None);
            assert_eq!(sphere_in_stream(speed, Metres(length), Celsius(air)), None);
        }
        assert_eq!(plate_in_stream(100.0, Metres(1.0), Celsius(12.0)), None);
    }
    /// The figures that the program takes for moving air are those of a piece of 50 mm in air of 1 to 2 and of 3 m/s.
    #[test]
    fn the_air_of_the_program_is_that_of_the_correlations() {
        use crate::analysis::setting::coefficient;
        use crate::recipe::Air;
        let plate = |speed| plate_in_stream(speed, Metres(0.05), Celsius(12.0)).expect("in range");
        assert!((plate(1.0)..plate(2.0)).contains(&coefficient(Air::Fan)));
        check("tunnel", coefficient(Air::Tunnel).0, plate(3.0).0, 1.0);
    }
}
