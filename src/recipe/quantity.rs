//! An amount as it was typed: a number with its unit. Inside everything is grams.

use thiserror::Error;

use crate::number::as_given;
use crate::units::Grams;

/// An amount as it was typed.
///
/// Invariant: finite, not negative, at most [`Quantity::MOST`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Quantity {
    value: f64,
    unit: MassUnit,
}

/// A unit of mass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum MassUnit {
    /// Gram.
    #[default]
    Gram,
    /// Kilogram.
    Kilogram,
    /// Avoirdupois ounce.
    Ounce,
    /// Avoirdupois pound.
    Pound,
}

/// Why an amount is refused.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum QuantityError {
    /// NaN or infinite.
    #[error("the amount is not a finite number; give a weight such as 250")]
    NotFinite,
    /// Below zero.
    #[error("the amount {} is negative; give a weight of 0 or more", as_given(*value))]
    Negative {
        /// What was given.
        value: f64,
    },
    /// More than any kitchen weighs.
    #[error("the amount is over 1,000 tonnes; check the number and its unit")]
    TooLarge,
}

impl MassUnit {
    /// All units in the order of the menu.
    pub const ALL: [Self; 4] = [Self::Gram, Self::Kilogram, Self::Ounce, Self::Pound];

    /// Its symbol on the screen, in tables and in files, which spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
        }
    }

    /// The unit with this symbol.
    #[must_use]
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.symbol() == symbol)
    }

    /// How many grams one of it is.
    ///
    /// The pound is 453.59237 g exactly, the ounce a sixteenth of it (NIST SP 811, Appendix B).
    #[must_use]
    pub fn grams(self) -> Grams {
        Grams(match self {
            Self::Gram => 1.0,
            Self::Kilogram => 1000.0,
            Self::Ounce => 453.592_37 / 16.0,
            Self::Pound => 453.592_37,
        })
    }
}

impl Quantity {
    /// The largest amount that is taken: 1,000 tonnes. Beyond it a typing error is certain.
    pub const MOST: Grams = Grams(1e9);

    /// So much of a unit.
    ///
    /// # Errors
    ///
    /// [`QuantityError`] when it is no amount.
    pub fn new(value: f64, unit: MassUnit) -> Result<Self, QuantityError> {
        if !value.is_finite() {
            return Err(QuantityError::NotFinite);
        }
        if value < 0.0 {
            return Err(QuantityError::Negative { value });
        }
        if value * unit.grams().0 > Self::MOST.0 {
            return Err(QuantityError::TooLarge);
        }
        // A typed "-0" would show a sign.
        Ok(Self { value: value.abs(), unit })
    }

    /// So many grams.
    ///
    /// # Errors
    ///
    /// [`QuantityError`] when it is no amount.
    pub fn from_grams(value: f64) -> Result<Self, QuantityError> {
        Self::new(value, MassUnit::Gram)
    }

    /// The number as it was typed.
    #[must_use]
    pub fn value(self) -> f64 {
        self.value
    }

    /// The unit as it was typed.
    #[must_use]
    pub fn unit(self) -> MassUnit {
        self.unit
    }

    /// The mass in grams.
    #[must_use]
    pub fn grams(self) -> Grams {
        self.unit.grams() * self.value
    }

    /// The same mass in another unit.
    #[must_use]
    pub fn in_unit(self, unit: MassUnit) -> Self {
        if unit == self.unit {
            return self;
        }
        Self { value: self.grams().0 / unit.grams().0, unit }
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    /// NIST SP 811, Appendix B: 12 oz = 340.1942775 g, 2.5 lb = 1133.980925 g; 1 kg = 35.27396195 oz; 340 g = 11.99315 oz.
    #[test]
    fn units_have_their_exact_grams() {
        let grams = |value, unit| Quantity::new(value, unit).expect("an amount").grams().0;
        assert_relative_eq!(grams(12.0, MassUnit::Ounce), 340.194_277_5, max_relative = 1e-12);
        assert_relative_eq!(grams(2.5, MassUnit::Pound), 1_133.980_925, max_relative = 1e-12);
        let kilogram = Quantity::new(1.0, MassUnit::Kilogram).expect("an amount");
        assert_relative_eq!(kilogram.in_unit(MassUnit::Ounce).value(), 35.273_961_95, max_relative = 1e-9);
        let in_ounces = Quantity::from_grams(340.0).expect("an amount").in_unit(MassUnit::Ounce);
        assert_relative_eq!(in_ounces.value(), 11.993_15, max_relative = 5e-7);
    }

    #[test]
    fn what_is_no_amount_is_refused() {
        assert_eq!(Quantity::from_grams(f64::NAN), Err(QuantityError::NotFinite));
        assert_eq!(Quantity::from_grams(-1.0), Err(QuantityError::Negative { value: -1.0 }));
        assert_eq!(Quantity::new(1e9, MassUnit::Kilogram), Err(QuantityError::TooLarge));
        assert!(Quantity::from_grams(0.0).is_ok());
    }
}
