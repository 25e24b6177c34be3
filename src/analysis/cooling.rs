//! How a mass cools and sets.
//!
//! [`growth`] tells how long seeded fat takes to crystallise and learns from trials; [`series`] is the exact cooling of
//! a slab and a sphere without heat of crystals, against which other methods can be checked; [`estimate`] is a body of one temperature.
//! Neither says whether the crystals are of the wanted form.

pub mod body;
pub mod estimate;
pub mod growth;
pub mod series;
