//! Heat of crystals at a single temperature: solutions against which other methods are checked.

use super::{
    GramsPerMillilitre, Inside, JoulesPerGram, Kelvin, MINUTE, Minutes, PER_CUBIC_METRE, SquareMetresPerSecond,
    WattsPerMetreKelvin, WattsPerSquareMetreKelvin, positive,
};

/// Halvings until nothing changes in a double.
const HALVINGS: u32 = 80;

/// The time until all has crystallised, its sensible heat left out: t = ρ·L/ΔT · (P·D/h + R·D²/k).
///
/// ρ density, L heat of all crystals by mass, ΔT melting point above the air, D thickness or diameter, h surface
/// coefficient, k conductivity of the solid; P 1/2 and R 1/8 for a slab cooled on both faces, 1/6 and 1/24 for a sphere,
/// 1/4 and 1/16 for a cylinder.
///
/// Source: `plank-1913`. A lower bound: with a Stefan number c·ΔT/L of 0.1 the true time is 2 to 7 % longer.
/// `None` for what is not positive and finite. `inside` holds half of the thickness or diameter.
#[must_use]
pub fn plank(
    inside: Inside,
    density: GramsPerMillilitre,
    heat: JoulesPerGram,
    colder: Kelvin,
    coefficient: WattsPerSquareMetreKelvin,
    conductivity: WattsPerMetreKelvin,
) -> Option<Minutes> {
    // With half of D: P·D is V/A, and R·D² is V/A times half of the half thickness.
    let surface = positive(inside.volume_per_surface().0)?;
    let (Inside::Slab(half) | Inside::Sphere(half) | Inside::Cylinder(half)) = inside;
    let hindrance = surface / positive(coefficient.0)? + surface * half.0 / 2.0 / positive(conductivity.0)?;
    let heat = positive(density.0)? * positive(heat.0)? * PER_CUBIC_METRE;
    positive(heat / positive(colder.0)? * hindrance / MINUTE).map(Minutes)
}

/// The constant λ of a front that starts at a suddenly cold wall: √π · λ · e^(λ²) · erf λ = Ste.
///
/// Ste = c·ΔT/L Stefan number: specific heat of the solid, how much colder than the melting point the wall is, heat of
/// melting.
///
/// Source: `crank-1984`. For liquid that is at its melting point.
/// `None` unless the Stefan number is from 1e-6 to 1000.
///
/// ```
/// use nibwright::analysis::cooling::estimate::neumann;
/// assert!((neumann(0.5).unwrap() - 0.464786).abs() < 2e-6);
/// ```
#[must_use]
pub fn neumann(stefan: f64) -> Option<f64> {
    if !(1e-6..=1e3).contains(&stefan) {
        return None;
    }
    let left = |lambda: f64| std::f64::consts::PI.sqrt() * lambda * lambda.powi(2).exp() * libm::erf(lambda);
    let (mut low, mut high) = (0.0, 3.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if left(middle) < stefan {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(f64::midpoint(low, high))
}

/// How far the front has come, in metres: s = 2·λ·√(α·t).
///
/// λ of [`neumann`], α diffusivity of the solid, t time. Source and range as there; `None` for what is not positive.
#[must_use]
pub fn front(stefan: f64, diffusivity: SquareMetresPerSecond, time: Minutes) -> Option<crate::units::Metres> {
    let path = positive(diffusivity.0 * positive(time.0)? * MINUTE)?;
    Some(crate::units::Metres(2.0 * neumann(stefan)? * path.sqrt()))
}
