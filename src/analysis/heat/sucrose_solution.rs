//! Pure sucrose in water: density, specific heat, conductivity and viscosity.
//!
//! Each takes the share of sucrose by mass. Outside their range the formulas go on; at shares near 1 the viscosity means nothing.

use crate::units::{
    Celsius, GramsPerMillilitre, JoulesPerGramKelvin, MassFraction, MillipascalSeconds, WattsPerMetreKelvin,
};

/// Density of water: numerator in rising powers of T, kg/m³. `icumsa-density`.
const WATER: [f64; 6] = [999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12];
/// Density of water: slope of the denominator. `icumsa-density`.
const WATER_DENOMINATOR: f64 = 16.887236e-3;
/// What sucrose adds: a row for each power of (T − 20)/100, in rising powers of the share from 1. `icumsa-density`.
const SUCROSE: [&[f64]; 5] = [
    &[385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890],
    &[-46.2720, -7.1720, 1.1597, 5.1126, 17.5254],
    &[59.7712, 7.2491, 12.3630, -35.4791],
    &[-47.2207, -21.6977, 27.6301],
    &[18.3184, 12.3081],
];

/// The temperature around which the polynomial is written, in °C. `icumsa-density`.
const REFERENCE_C: f64 = 20.0;
/// Kilograms per cubic metre in a gram per millilitre.
const KILOGRAMS_PER_CUBIC_METRE: f64 = 1000.0;

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}

/// The density.
///
/// ρ = ρw(T) + Σ c·w^j·τ^n   [kg/m³, given in g/ml], w share of sucrose, τ = (T − 20)/100, T in °C.
/// Source: `icumsa-density`. Valid from 0 to 100 °C and for all shares that dissolve.
///
/// Worked example: a tenth of sucrose at 20 °C is 1.03998 times as dense as water.
///
/// ```
/// use nibwright::analysis::heat::sucrose_solution::density;
/// use nibwright::units::{Celsius, MassFraction};
///
/// let ratio = density(MassFraction(0.1), Celsius(20.0)).0 / density(MassFraction(0.0), Celsius(20.0)).0;
/// assert!((ratio - 1.03998).abs() < 5e-5);
/// ```
#[must_use]
pub fn density(sucrose: MassFraction, at: Celsius) -> GramsPerMillilitre {
    let water = polynomial(&WATER, at.0) / (1.0 + WATER_DENOMINATOR * at.0);
    let tau = (at.0 - REFERENCE_C) / 100.0;
    let added = SUCROSE.iter().rev().fold(0.0, |sum, row| sum * tau + sucrose.0 * polynomial(row, sucrose.0));
    GramsPerMillilitre((water + added) / KILOGRAMS_PER_CUBIC_METRE)
}

/// Specific heat of water in kJ/(kg·K), and of dissolved sucrose in rising powers of T. `bubnik-1995`.
const SPECIFIC_HEAT_OF_WATER: f64 = 4.184;
const SPECIFIC_HEAT_OF_SUCROSE: [f64; 2] = [1.673, 0.0075];
/// Conductivity of water, and what a share of 1 of sucrose adds, in rising powers of T, W/(m·K). `bubnik-1995`.
const CONDUCTIVITY_OF_WATER: [f64; 3] = [0.563, 1.976e-3, -7.847e-6];
const CONDUCTIVITY_BY_SUCROSE: [f64; 3] = [-0.3024, -1.176e-3, 5.466e-6];

/// The specific heat.
///
/// c = 4.184·(1 − w) + w·(1.673 + 0.0075·T)   [kJ/(kg·K)], w share of sucrose, T in °C.
/// Source: `bubnik-1995`. ±4 %; a formula for cane juice is 6 to 8 % lower at half and more.
#[must_use]
pub fn specific_heat(sucrose: MassFraction, at: Celsius) -> JoulesPerGramKelvin {
    let solid = polynomial(&SPECIFIC_HEAT_OF_SUCROSE, at.0);
    JoulesPerGramKelvin(SPECIFIC_HEAT_OF_WATER * (1.0 - sucrose.0) + sucrose.0 * solid)
}

/// The conductivity.
///
/// k = 0.563 + 1.976e-3·T − 7.847e-6·T² + w·(5.466e-6·T² − 1.176e-3·T − 0.3024)   [W/(m·K)]
///
/// w share of sucrose, T in °C. Source: `bubnik-1995`.
#[must_use]
pub fn conductivity(sucrose: MassFraction, at: Celsius) -> WattsPerMetreKelvin {
    let water = polynomial(&CONDUCTIVITY_OF_WATER, at.0);
    WattsPerMetreKelvin(water + sucrose.0 * polynomial(&CONDUCTIVITY_BY_SUCROSE, at.0))
}

/// The viscosity.
///
/// X = Bx/(1900 − 18·Bx); log10 η = 22.46·X − 0.114 + (30 − T)/(91 + T)·(1.1 + 43.1·X^1.25)   [mPa·s]
///
/// Bx grams of sucrose in 100 g, T in °C. Source: `bubnik-1995`, with purity 1; its figures stand in the formula only.
/// Valid up to about 80 g in 100 g.
#[must_use]
pub fn viscosity(sucrose: MassFraction, at: Celsius) -> MillipascalSeconds {
    let brix = sucrose.to_percent();
    let x = brix / (1900.0 - 18.0 * brix);
    let exponent = 22.46 * x - 0.114 + (30.0 - at.0) / (91.0 + at.0) * (1.1 + 43.1 * x.powf(1.25));
    MillipascalSeconds(10_f64.powf(exponent))
}
