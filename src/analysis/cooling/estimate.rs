//! Times of cooling in closed form, for a body that is taken as one temperature all through.
//!
//! * [`lumped_constant`] and [`time_to`]: a stirred bowl.
//! * [`plate_in_stream`], [`sphere_in_stream`], [`radiation`]: surface coefficients.
//! * [`in_series`], [`with_inside`] and [`two_faces`]: what hinders heat at a surface and inside, as one coefficient, by
//!   which the mean temperature of a slab or a sphere follows the law of a bowl; [`HalfSphere`] likewise.
//! * [`time_with_crystals`]: with the heat of crystals at equilibrium; [`left_with_heat`]: with heat that crystals give
//!   off in time.
//! * [`plank`], [`neumann`] and [`front`]: heat of crystals at a single temperature, to check other methods.
//!
//! The course itself, with crystals that grow in time inside a body, is in [`super::body`].

use crate::units::{
    Celsius, GramsPerMillilitre, JoulesPerGram, JoulesPerGramKelvin, Kelvin, Metres, Millilitres, Minutes,
    SquareMetresPerSecond, WattsPerKelvin, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};

mod air;
mod checks;

pub use air::{plate_in_stream, sphere_in_stream};
pub use checks::{front, neumann, plank};

/// Seconds in a minute.
const MINUTE: f64 = 60.0;
/// J/(m³ K) in J/(ml K), or kg/m³ times J/(kg K) in g/ml times J/(g K).
const PER_CUBIC_METRE: f64 = 1e6;
/// Stefan's and Boltzmann's constant in W/(m² K⁴), exact by definition of the units.
const RADIATION: f64 = 5.670_374_419e-8;
/// Rounds of the search for the plane between two faces; each makes the error several times smaller.
const ROUNDS: u32 = 60;

fn positive(value: f64) -> Option<f64> {
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

/// The surface coefficient of radiation to surroundings at the temperature of the air: h = 4·ε·σ·T³.
///
/// ε emissivity (0.9 for food and plastics, from memory), σ 5.670374·10⁻⁸ W/(m² K⁴), T mean of surface and air in kelvin. It is
/// added to that of the air. Source: law of Stefan and Boltzmann. `None` unless ε is from 0 to 1 and T above 0 K.
///
/// ```
/// use nibwright::analysis::cooling::estimate::radiation;
/// use nibwright::units::Celsius;
/// let coefficient = radiation(0.9, Celsius(25.0)).unwrap();
/// assert!((coefficient.0 - 5.41).abs() < 0.005); // By hand: 4 · 0.9 · 5.670e-8 · 298.15³.
/// ```
#[must_use]
pub fn radiation(emissivity: f64, mean: Celsius) -> Option<WattsPerSquareMetreKelvin> {
    let coefficient = positive(4.0 * emissivity * RADIATION * mean.to_kelvin().max(0.0).powi(3))?;
    (emissivity <= 1.0).then_some(WattsPerSquareMetreKelvin(coefficient))
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

    /// Volume over surface.
    #[must_use]
    pub fn volume_per_surface(self) -> Metres {
        match self {
            Self::Slab(length) => length,
            Self::Sphere(radius) => Metres(radius.0 / 3.0),
            Self::Cylinder(radius) => Metres(radius.0 / 2.0),
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

/// The time constant of a body of one temperature by its volume: τ = ρ·c_p·V/(Σ U·A).
///
/// `None` for what is not positive and finite.
///
/// A half-sphere of 28 mm of chocolate in air, its flat face insulated, is at a fifth of its first difference to the air
/// after 793 s:
///
/// ```
/// use nibwright::analysis::cooling::estimate::{HalfSphere, constant_of, time_to};
/// use nibwright::units::{
///     Celsius, GramsPerMillilitre, JoulesPerGramKelvin, Metres, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
/// };
/// let [dome, flat] = [25.0, 0.0].map(WattsPerSquareMetreKelvin);
/// let half = HalfSphere { radius: Metres(0.014), dome, flat };
/// let conductance = half.conductance(WattsPerMetreKelvin(0.25)).unwrap();
/// let constant =
///     constant_of(half.volume(), GramsPerMillilitre(1.25), JoulesPerGramKelvin(1.65), conductance).unwrap();
/// let time = time_to(constant, Celsius(30.0), Celsius(14.0), Celsius(10.0)).unwrap();
/// assert!((time.0 * 60.0 - 793.1).abs() < 1.0);
/// ```
#[must_use]
pub fn constant_of(
    volume: Millilitres,
    density: GramsPerMillilitre,
    specific_heat: JoulesPerGramKelvin,
    conductance: WattsPerKelvin,
) -> Option<Minutes> {
    let capacity = positive(volume.0)? * positive(density.0)? * positive(specific_heat.0)?;
    positive(capacity / positive(conductance.0)? / MINUTE).map(Minutes)
}

/// The time with the heat of crystals at equilibrium: t = τ/c_p · Σ (c_p + Δq/ΔT) · ln((T_i − T_a)/(T_(i+1) − T_a)).
///
/// τ time constant without crystals, c_p specific heat without crystals; the sum goes over the pieces of `heats`, the heat
/// q that crystals have given off at each temperature (straight between, constant beyond), from the start to the target.
///
/// Source: balance of heat with the effective specific heat c_p + dq/dT. Of bodies with Bi up to 2 the time is right within
/// 3 %. `None` unless the target lies between air and start, figures are positive and finite, and the nodes of `heats`
/// rise in temperature and fall in heat.
#[must_use]
pub fn time_with_crystals(
    constant: Minutes,
    specific_heat: JoulesPerGramKelvin,
    heats: &[(Celsius, JoulesPerGram)],
    start: Celsius,
    target: Celsius,
    air: Celsius,
) -> Option<Minutes> {
    let is_falling = heats.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 >= pair[1].1);
    if !is_falling || !heats.iter().all(|(_, heat)| heat.0.is_finite()) {
        return None;
    }
    let per_heat = positive(constant.0)? / positive(specific_heat.0)?;
    let mut time = time_to(constant, start, target, air)?.0;
    let [cold, warm] = [start.min(target), start.max(target)];
    for pair in heats.windows(2) {
        let [(colder, more), (warmer, less)] = [pair[0], pair[1]];
        let [from, to] = [colder.max(cold), warmer.min(warm)];
        if from < to {
            let slope = (more.0 - less.0) / (warmer - colder).0;
            time += per_heat * slope * ((to - air).0 / (from - air).0).ln().abs();
        }
    }
    positive(time).map(Minutes)
}

/// How much warmer than the air a body of one temperature is, while crystals give off heat with a time constant.
///
/// θ = (θ₀ − B)·e^(−t/t_c) + B·e^(−t/τ), B = (q/c_p)·t_c/(τ − t_c)
///
/// θ difference to the air, t_c time constant of cooling, τ of crystals, q heat that they give off in the end, by mass.
/// Where the two constants are as good as equal: θ = (θ₀ + (q/c_p)·t/τ)·e^(−t/τ).
///
/// Source: closed solution of dθ/dt = −θ/t_c + (q/(c_p·τ))·e^(−t/τ), derived. `None` unless constants and specific heat are
/// positive, and heat and time are not negative.
///
/// ```
/// use nibwright::analysis::cooling::estimate::left_with_heat;
/// use nibwright::units::{JoulesPerGram, JoulesPerGramKelvin, Kelvin, Minutes};
/// let [cooling, growth, time] = [10.0, 15.0, 20.0].map(Minutes);
/// let specific_heat = JoulesPerGramKelvin(1.65);
/// let left = left_with_heat(Kelvin(19.0), cooling, growth, JoulesPerGram(45.0), specific_heat, time).unwrap();
/// assert!((12.0 + left.0 - 21.5675).abs() < 1e-3);
/// ```
#[must_use]
pub fn left_with_heat(
    first: Kelvin,
    cooling: Minutes,
    growth: Minutes,
    heat: JoulesPerGram,
    specific_heat: JoulesPerGramKelvin,
    time: Minutes,
) -> Option<Kelvin> {
    /// Relative difference of the constants below which their quotient would only be noise.
    const AS_GOOD_AS_EQUAL: f64 = 1e-7;
    let rise = heat.0 / positive(specific_heat.0)?;
    let [cool, grow] = [positive(cooling.0)?, positive(growth.0)?];
    if !(rise >= 0.0 && time.0 >= 0.0) {
        return None;
    }
    let left = if (cool / grow - 1.0).abs() < AS_GOOD_AS_EQUAL {
        (first.0 + rise * time.0 / grow) * (-time.0 / grow).exp()
    } else {
        let share = rise * cool / (grow - cool);
        (first.0 - share) * (-time.0 / cool).exp() + share * (-time.0 / grow).exp()
    };
    left.is_finite().then_some(Kelvin(left))
}

#[cfg(test)]
mod tests;
