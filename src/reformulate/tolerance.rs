//! How exactly what is asked has to hold, in grains of its result, from the finest to the coarsest.
//!
//! Each is so much coarser than the one before that what the solver leaves open of the one passes the other.

/// What is met after rounding, but for binary noise: far below every digit that is shown.
pub(super) const MET: f64 = 1e-7;

/// A miss that the descent takes for none on its way.
pub(super) const HELD: f64 = 1e-6;

/// What the interior of a convex program leaves open: what is missed by more cannot be had.
pub(super) const OPEN: f64 = 1e-5;

/// What a share may miss where the straightened bound holds: little of a whole makes much of a small miss. Below what anybody
/// sees.
pub(super) const SEEN: f64 = 1e-3;

/// Of another kind: a multiplier below this is what the solver leaves open, and no pull.
pub(super) const PULLS: f64 = 1e-6;
