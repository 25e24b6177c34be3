//! Times of cooling in closed form, for a body that is taken as one temperature all through.
//!
//! * [`lumped_constant`] and [`time_to`]: a stirred bowl.
//! * [`in_series`], [`with_inside`] and [`two_faces`]: what hinders heat at a surface and inside, as one coefficient, by
//!   which the mean temperature of a slab or a sphere follows the law of a bowl; [`HalfSphere`] likewise.
//!
//! The course itself, with crystals that grow in time inside a body, is in [`super::body`].

use crate::units::{
    Celsius, Metres, Millilitres, Minutes, WattsPerKelvin, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};

/// Seconds in a minute.
pub(super) const MINUTE: f64 = 60.0;
/// J/(m³ K) in J/(ml K), or kg/m³ times J/(kg K) in g/ml times J/(g K).
pub(super) const PER_CUBIC_METRE: f64 = 1e6;
/// Rounds of the search for the plane between two faces; each makes the error several times smaller.
const ROUNDS: u32 = 60;

pub(super) fn positive(value: f64) -> Option<f64> {
    (value > 0.0 && value.is_finite()).then_some(value)
}

/// The time constant of a body of one temperature: τ = m·c_p/(h·A).
///
/// m mass \[kg\], c_p specific heat \[J/(kg K)\], h surface coefficient \[W/(m² K)\], A surface \[m²\].
///
/// Source: balance of heat. Holds while h·(V/A)/k is below 0.1; `None` for what is not positive and finite.
#[must_use]
pub fn lumped_constant(kilograms: f64, specific_heat: f64, coefficient: f64, surface: f64) -> Option<Minutes> {
    let inputs = [kilograms, specific_heat, coefficient, surface];
    let time = kilograms * specific_heat / (coefficient * surface) / MINUTE;
    (inputs.iter().all(|input| *input > 0.0) && time.is_finite() && time > 0.0).then_some(Minutes(time))
}

/// The time from a start to a target: t = τ · ln((T₀ − T_a)/(T − T_a)).
///
/// `None` unless the target lies between the air and the start, or is the start.
///
/// ```
/// use nibwright::analysis::cooling::estimate::{lumped_constant, time_to};
/// use nibwright::units::Celsius;
/// let constant = lumped_constant(1.5, 2600.0, 12.0, 0.10).unwrap();
/// let time = time_to(constant, Celsius(45.0), Celsius(32.0), Celsius(20.0)).unwrap();
/// assert!((time.0 * 60.0 - 2385.4).abs() < 0.5);
/// ```
#[must_use]
pub fn time_to(constant: Minutes, start: Celsius, target: Celsius, air: Celsius) -> Option<Minutes> {
    let left = (target.0 - air.0) / (start.0 - air.0);
    let time = constant.0 * -left.ln();
    (constant.0 > 0.0 && left > 0.0 && left <= 1.0 && time.is_finite()).then_some(Minutes(time))
}

/// A surface coefficient with a wall before it: 1/U = 1/h + d/k.
///
/// h surface coefficient, d thickness of the wall of a mould, tray, mat or board, k its conductivity. Polycarbonate has
/// about 0.2 W/(m K); stainless steel hinders nothing (from memory). Source: resistances in series.
/// `None` unless h and k are positive and finite and d is not negative.
///
/// ```
/// use nibwright::analysis::cooling::estimate::in_series;
/// use nibwright::units::{Metres, WattsPerMetreKelvin, WattsPerSquareMetreKelvin};
/// let fan = WattsPerSquareMetreKelvin(20.0);
/// let mould = in_series(fan, Metres(0.0025), WattsPerMetreKelvin(0.2)).unwrap();
/// assert!((mould.0 - 16.0).abs() < 1e-12); // By hand: 1/(1/20 + 0.0125).
/// ```
#[must_use]
pub fn in_series(
    coefficient: WattsPerSquareMetreKelvin,
    wall: Metres,
    conductivity: WattsPerMetreKelvin,
) -> Option<WattsPerSquareMetreKelvin> {
    let resistance = 1.0 / positive(coefficient.0)? + wall.0 / positive(conductivity.0)?;
    (wall.0 >= 0.0).then_some(WattsPerSquareMetreKelvin(positive(1.0 / resistance)?))
}

/// What the inside of a body adds to its surface, as a thickness over its conductivity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Inside {
    /// A slab that is cooled on one face, of this thickness, or on both, of this half thickness: L/3.
    Slab(Metres),
    /// A sphere, or a half-sphere, of this radius: R/5.
    Sphere(Metres),
    /// A long cylinder of this radius: R/4.
    Cylinder(Metres),
}

impl Inside {
    /// How thick a layer of the mass hinders as much.
    #[must_use]
    pub fn layer(self) -> Metres {
        match self {
            Self::Slab(length) => Metres(length.0 / 3.0),
            Self::Sphere(radius) => Metres(radius.0 / 5.0),
            Self::Cylinder(radius) => Metres(radius.0 / 4.0),
        }
    }
}

/// The coefficient by which the mean temperature cools: 1/U = 1/h + δ/k.
///
/// h surface coefficient with the wall, δ of [`Inside::layer`], k conductivity of the mass.
///
/// Source: late cooling of the exact series to first order in Bi = h·L/k, derived. The time is right within 1 % for
/// Bi up to 1, 3 % up to 2, 10 % up to 5. `None` for what is not positive and finite.
#[must_use]
pub fn with_inside(
    coefficient: WattsPerSquareMetreKelvin,
    inside: Inside,
    conductivity: WattsPerMetreKelvin,
) -> Option<WattsPerSquareMetreKelvin> {
    positive(inside.layer().0)?;
    in_series(coefficient, inside.layer(), conductivity)
}

/// The coefficients of both faces of a slab, each with its part of the inside.
///
/// 1/U₁ = 1/h₁ + a·L/(3k), 1/U₂ = 1/h₂ + (1 − a)·L/(3k), a = U₁/(U₁ + U₂)
///
/// h surface coefficients with walls (0 is insulated), L thickness, k conductivity. Source: as [`with_inside`]; the plane
/// a between both faces is found by repetition. Within 0.5 % of the series for Bi below 1.
/// `None` if a coefficient is negative, both are 0, or thickness or conductivity is not positive.
///
/// ```
/// use nibwright::analysis::cooling::estimate::two_faces;
/// use nibwright::units::{Metres, WattsPerMetreKelvin, WattsPerSquareMetreKelvin};
/// let equal = [WattsPerSquareMetreKelvin(20.0); 2];
/// let [first, second] = two_faces(equal, Metres(0.01), WattsPerMetreKelvin(0.25)).unwrap();
/// assert!((first.0 - 1.0 / (1.0 / 20.0 + 0.005 / 0.75)).abs() < 1e-9 && first == second);
/// ```
#[must_use]
pub fn two_faces(
    coefficients: [WattsPerSquareMetreKelvin; 2],
    thickness: Metres,
    conductivity: WattsPerMetreKelvin,
) -> Option<[WattsPerSquareMetreKelvin; 2]> {
    let [h1, h2] = coefficients.map(|coefficient| coefficient.0);
    let whole = positive(thickness.0)? / (3.0 * positive(conductivity.0)?);
    positive(h1 + h2)?;
    if h1 < 0.0 || h2 < 0.0 {
        return None;
    }
    let [mut u1, mut u2] = [h1, h2];
    for _ in 0..ROUNDS {
        let plane = u1 / (u1 + u2);
        u1 = h1 / (1.0 + h1 * plane * whole);
        u2 = h2 / (1.0 + h2 * (1.0 - plane) * whole);
    }
    Some([u1, u2].map(WattsPerSquareMetreKelvin))
}

/// A half-sphere with different coefficients on its dome and on its flat face, as a body of one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HalfSphere {
    /// Half of its diameter.
    pub radius: Metres,
    /// On the dome, with the wall of a mould.
    pub dome: WattsPerSquareMetreKelvin,
    /// On the flat face; 0 is insulated.
    pub flat: WattsPerSquareMetreKelvin,
}

impl HalfSphere {
    /// Its volume, 2π/3·R³.
    #[must_use]
    pub fn volume(&self) -> Millilitres {
        Millilitres(2.0 / 3.0 * std::f64::consts::PI * self.radius.0.powi(3) * PER_CUBIC_METRE)
    }

    /// The conductance Σ U·A of its faces, with the inside R/(5k) behind each.
    ///
    /// Source: derived, within 4 % of a computation in two dimensions for 8 to 25 W/(m² K), 11 % at 60.
    /// `None` unless radius and conductivity are positive, the dome's coefficient too, and the flat one's is not negative.
    #[must_use]
    pub fn conductance(&self, conductivity: WattsPerMetreKelvin) -> Option<WattsPerKelvin> {
        let inside = Inside::Sphere(self.radius);
        let dome = with_inside(self.dome, inside, conductivity)?.0 * 2.0;
        let flat = if self.flat.0 == 0.0 { 0.0 } else { with_inside(self.flat, inside, conductivity)?.0 };
        positive((dome + flat) * std::f64::consts::PI * self.radius.0.powi(2)).map(WattsPerKelvin)
    }
}

#[cfg(test)]
mod tests;
