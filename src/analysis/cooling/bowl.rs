//! What a bowl in the kitchen loses to the air: its surface and its surface coefficients, for all who ask.
//!
//! Two surfaces of a kilogram stand here, because two different questions were answered with them. A bowl that stands and
//! cools loses heat by its wall and its top ([`STANDING_M2`]). The allowance for stirring in the open was made with a
//! smaller one ([`STIRRED_M2`]), and the heat that evaporating water takes ([`STIRRED_AND_EVAPORATING`]) belongs to it: 0.75 g
//! a minute from a kilogram. Neither is measured, and they differ by less than the factor of 1.5 to 2 that is told with
//! the times.

use crate::units::Grams;

/// Wall and top of a bowl that stands and cools, of one kilogram, in m² (judged).
pub const STANDING_M2: f64 = 0.08;

/// What a kilogram shows to the room while it is stirred in an open bowl, in m² (from memory).
pub const STIRRED_M2: f64 = 0.06;

/// Heat that still air takes from a bowl, stirred now and then, in W/(m²·K) (common practice, no published source).
pub const STILL_AIR: f64 = 10.0;

/// The same with the water that evaporates: at 45 °C in a room 0.75 g a minute from a kilogram, in W/(m²·K) (from memory,
/// 0.5 to 1).
pub const STIRRED_AND_EVAPORATING: f64 = 28.0;

/// The surface of a bowl with this mass, in m², from that of one kilogram: bodies of one shape have it with the power ⅔ of
/// their mass.
///
/// ```
/// use nibwright::analysis::cooling::bowl::{STANDING_M2, surface_m2};
/// use nibwright::units::Grams;
/// assert_eq!(surface_m2(STANDING_M2, Grams(1000.0)), STANDING_M2);
/// assert!((surface_m2(STANDING_M2, Grams(8000.0)) - 4.0 * STANDING_M2).abs() < 1e-12);
/// ```
#[must_use]
pub fn surface_m2(of_a_kilogram: f64, mass: Grams) -> f64 {
    const GRAMS: f64 = 1000.0;
    of_a_kilogram * (mass.0 / GRAMS).powf(2.0 / 3.0)
}
