//! What a day's work takes of seed, against what is ready.

use crate::units::Grams;

/// Tempered cocoa butter takes about this long until all of it is an even cream (common practice, no published source).
pub const HOURS_TO_MAKE_READY: f64 = 6.0;

/// Where cocoa butter is kept as a cream of seed, °C (common practice, no published source).
pub const CREAM_KEPT_AT: (f64, f64) = (33.0, 34.0);

/// The need of a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// Seed for all batches.
    pub needed: Grams,
    /// What of it is not ready.
    pub missing: Grams,
    /// What of the ready seed is left over.
    pub left_over: Grams,
}

impl Need {
    /// How long before the first batch the missing seed has to be set up, hours; `None` where nothing is missing.
    #[must_use]
    pub fn start_hours_before(&self) -> Option<f64> {
        (self.missing.0 > 0.0).then_some(HOURS_TO_MAKE_READY)
    }
}

/// What so many batches take of seed, and what is missing: needed = batches · seed; missing = needed − ready, at least 0.
///
/// Source: balance of mass. By hand: 6 batches of 7.5 g take 45 g; with 30 g ready 15 g are missing.
///
/// ```
/// # use nibwright::analysis::plan::need::need_of_the_day;
/// # use nibwright::units::Grams;
/// let need = need_of_the_day(6, Grams(7.5), Grams(30.0));
/// assert_eq!((need.needed, need.missing, need.start_hours_before()), (Grams(45.0), Grams(15.0), Some(6.0)));
/// ```
#[must_use]
pub fn need_of_the_day(batches: u32, seed: Grams, ready: Grams) -> Need {
    let needed = seed * f64::from(batches);
    Need { needed, missing: (needed - ready).max(Grams::ZERO), left_over: (ready - needed).max(Grams::ZERO) }
}
