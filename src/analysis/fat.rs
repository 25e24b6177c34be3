//! The fat of a mass: how much of it is solid at a temperature, and up to where its crystals live.
//!
//! * [`FatGrams`]: how much of each fat there is.
//! * [`FatPhase`]: these fats mixed; answers with [`SolidFat`] and with the melting limit of a [`Form`].
//!
//! # The model
//!
//! Everything molten is one ideal liquid. The symmetric triglycerides of cocoa butter (POP, POS, SOS, SOA) crystallise
//! together in one ideal solid solution, which is form V; every part of milk fat, coconut, palm kernel and palm fat
//! that crystallises does so alone, as a pure solid; the rest never crystallises. All parts have a convex free energy,
//! so there is exactly one equilibrium (the flash of a fat with solid solutions: `wesdorp-1990`, quoted from memory).
//! The figures are in `components`, the calculation in `flash`.
//!
//! # What it does not do
//!
//! * It says what *can* be solid in the end, not how fast it gets there: no nucleation, no growth, no ageing from
//!   form V to VI.
//! * It knows no emulsifier and no water; all fats count as mixed, also those that still sit in globules.
//! * SOO and POO of cocoa butter never crystallise in it: below 15 °C it is too soft by up to 5–8 points.
//! * At 34–36 °C a tempered cocoa butter keeps 0–3 % of solid that is 0 here.
//! * The POP of palm fat joins form V in reality and not here: blends with palm fat come out too soft.
//!
//! # How good it is
//!
//! Valid from 15 to 35 °C and with at least 30 % cocoa butter in the fat. There its standard error is, judged:
//! pure cocoa butter of known type ±2.5 points (20–28 °C) and ±4 points (28–33 °C), blends ±5 points; limit of
//! form V ±0.5 K for cocoa butter of known type, ±1 K for blends. Not knowing the type adds ±5 points and ±0.7 K.
//! Outside this range the functions go on with the same formulas; their callers say so.

mod components;
mod flash;
mod phase;

#[cfg(test)]
mod tests;

pub use components::FatGrams;
pub use components::WEST_AFRICAN;
pub use phase::{FatPhase, FatPhaseError, Form, LEAST_COCOA_BUTTER_FOR_LIMITS, SolidFat};
