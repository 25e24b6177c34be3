//! Second methods: what is known in closed form or as a series, against which the computations of this folder are checked.
//!
//! The program asks none of them.
//!
//! * [`series`]: the exact cooling of a slab and a sphere without crystals.
//! * [`latent`]: heat of crystals in closed form, at equilibrium, in time, and at a single temperature.
//! * [`air`]: surface coefficients of air and of radiation, from which those of the program are rounded.

pub(super) mod air;
pub(super) mod latent;
pub(super) mod series;
