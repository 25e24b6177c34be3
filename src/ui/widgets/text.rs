//! The few words that widgets bring along themselves.

/// A value that is not known.
pub const UNKNOWN: &str = "unknown";
/// Heads of an explanation.
pub const FORMULA: &str = "how it is computed";
/// See [`FORMULA`].
pub const RANGE: &str = "where it holds";
/// See [`FORMULA`].
pub const SOURCE: &str = "source";
/// See [`FORMULA`].
pub const EVIDENCE: &str = "evidence";
/// See [`FORMULA`].
pub const UNCERTAINTY: &str = "how far off it can be";
/// A value under its usual range.
pub const BELOW: &str = "below the usual range";
/// A value over its usual range.
pub const ABOVE: &str = "above the usual range";
/// A value in its usual range.
pub const WITHIN: &str = "in the usual range";
/// Unit over the thermometer.
pub const CELSIUS: &str = "°C";
