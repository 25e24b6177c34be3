//! How acid a mass is, as measured.

use thiserror::Error;

use crate::number::as_given;

/// A measured pH.
///
/// Invariant: from 0 to 14.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Ph(f64);

/// Why a number is no pH.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error("a pH of {} does not occur in food; give a number from 0 to 14", as_given(*given))]
pub struct PhError {
    /// What was given.
    pub given: f64,
}

impl Ph {
    /// This pH.
    ///
    /// # Errors
    ///
    /// [`PhError`] outside of 0 to 14, and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::Ph;
    /// assert_eq!(Ph::new(5.7)?.value(), 5.7);
    /// assert!(Ph::new(14.1).is_err() && Ph::new(f64::NAN).is_err());
    /// # Ok::<(), nibwright::recipe::PhError>(())
    /// ```
    pub fn new(value: f64) -> Result<Self, PhError> {
        if (0.0..=14.0).contains(&value) { Ok(Self(value)) } else { Err(PhError { given: value }) }
    }

    /// The number.
    #[must_use]
    pub fn value(self) -> f64 {
        self.0
    }
}
