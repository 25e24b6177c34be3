//! The water of a mass: how active it is, what holds it, whether sugar stays in solution.
//!
//! * [`solute`]: what dissolves, with its figures; [`activity`]: equations for the water activity of a solution.
//! * [`sorption`]: water that solids hold; [`solubility`]: how much sugar water dissolves.
//! * [`equilibrium`]: the three together: where the water of a mass is at rest.
//! * [`isotherm`]: the same as the mass dries or gets damp.
//! * [`state`]: what is said of a recipe; [`keeping`]: what that means for growth.
//! * [`boiling`]: when a syrup boils, and how much water a cooked mass keeps; [`calibration`]: what an instrument must show.

pub mod activity;
pub mod boiling;
pub mod calibration;
pub mod equilibrium;
pub mod isotherm;
pub mod keeping;
pub mod solubility;
pub mod solute;
pub mod sorption;
pub mod state;

#[cfg(test)]
mod tests;
