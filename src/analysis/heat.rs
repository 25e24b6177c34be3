//! Heat: what a mass holds, how it conducts, and at which temperature parts that are stirred together end.
//!
//! * [`Substance`] and [`Contents`]: what a mass is made of, as heat sees it; specific heat, density, conductivity and
//!   diffusivity.
//! * [`sucrose_solution`]: formulas of pure sucrose in water, finer than the sum of its parts.
//! * [`Part`] and [`Enthalpy`]: how much heat is in a mass, with the crystals of its fats and the state of its sugar.
//! * [`Mix`]: the balance of several parts, forward and backward; [`SolidFatCurve`]: the solid fat that can live at a
//!   temperature, from the fat model ([`BlendCurve`]) or from a table.
//!
//! # Units
//!
//! Masses in grams, heats in joules, temperatures in degrees Celsius. Joules per gram are kilojoules per kilogram, so the
//! figures of the literature stand unchanged.
//!
//! # What it does not do
//!
//! * Water does not freeze (nothing below 0 °C) and does not boil away; sugar does not caramelise.
//! * Heat of diluting spirits is left out: of the order of 1 K for 2 % ethanol (from memory).
//! * All crystalline sugars and polyols count as sucrose. Polyols and dextrose take up several times as much heat when
//!   they dissolve (sorbitol about 111, xylitol about 153, dextrose monohydrate about 105 J/g; from memory): with much of
//!   them added dry the real mass ends colder than computed.
//! * It knows no time: melting counts as immediate, crystallisation as too slow to matter while one stirs.
//!
//! # How good it is
//!
//! Specific heat ±3–5 %, conductivity ±10 %, density ±2 %, from 0 to about 110 °C at the pressure of the air.

mod curve;
mod enthalpy;
mod inverse;
mod mixing;
mod properties;
pub mod sucrose_solution;

#[cfg(test)]
pub(crate) mod tests;

pub use curve::{BlendCurve, SolidFatCurve};
pub use enthalpy::{Enthalpy, Fat, HEAT_OF_SOLUTION_AT_ZERO, Part, rise_by_crystallising};
pub use inverse::{
    Changed, LEAST_START, MOST_MELTED, MOST_SOLID, MOST_START, Start, chocolate_start, dry_fat_start, liquid_start,
    share_to_melt_first, start_temperature,
};
pub use mixing::{Caution, HOTTEST, HeatError, Mix, Mixed, Outcome, Vessel, specific_heat_of};
pub use properties::{Contents, ContinuousPhase, LEAST_WATER_FOR_DISSOLVED_SUGAR, Substance, SugarState};
