//! Surface coefficients in a stream of air, as a fan or a cooling tunnel makes it.

use super::{Celsius, Metres, WattsPerSquareMetreKelvin, positive};

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
///
/// ```
/// use nibwright::analysis::cooling::estimate::plate_in_stream;
/// use nibwright::units::{Celsius, Metres};
/// let coefficient = plate_in_stream(2.0, Metres(0.05), Celsius(12.0)).unwrap();
/// assert!((coefficient.0 / 24.95 - 1.0).abs() < 0.02);
/// ```
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
///
/// ```
/// use nibwright::analysis::cooling::estimate::sphere_in_stream;
/// use nibwright::units::{Celsius, Metres};
/// let coefficient = sphere_in_stream(2.0, Metres(0.028), Celsius(12.0)).unwrap();
/// assert!((coefficient.0 / 33.12 - 1.0).abs() < 0.02);
/// ```
#[must_use]
pub fn sphere_in_stream(metres_per_second: f64, diameter: Metres, air: Celsius) -> Option<WattsPerSquareMetreKelvin> {
    let air = Air::at(air)?;
    let reynolds = air.reynolds(metres_per_second, diameter.0)?;
    let nusselt = 2.0 + (0.4 * reynolds.sqrt() + 0.06 * reynolds.powf(2.0 / 3.0)) * air.prandtl.powf(0.4);
    let is_in_range = (3.5..=7.6e4).contains(&reynolds);
    is_in_range.then_some(WattsPerSquareMetreKelvin(nusselt * air.conductivity / diameter.0))
}
