//! How a mass cools and sets.
//!
//! * [`body`] is the course of cooling of a slab, a sphere or a bowl in which fat crystallises, and when it has set.
//! * [`bowl`] is what a bowl in the kitchen shows to the air.
//! * [`estimate`] gives times in closed form, and what walls and the inside hinder.
//! * [`growth`] tells how long seeded fat takes to crystallise by experience, and learns from trials.
//!
//! None of them says whether the crystals are of the wanted form.

pub mod body;
pub mod bowl;
pub mod estimate;
pub mod growth;
#[cfg(test)]
mod tests;
