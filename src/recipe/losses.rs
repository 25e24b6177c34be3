//! What is lost on the way from the scale to the finished mass.

use thiserror::Error;

use super::Quantity;
use crate::number::as_given;
use crate::units::MassFraction;

/// What is lost on the way from the scale to the finished mass.
///
/// The two are kept apart because only evaporation changes the composition.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Losses {
    /// Water that boils off.
    pub evaporated_water: Quantity,
    /// What stays in bowls and bags, at constant composition.
    pub transfer: TransferLoss,
}

/// The share of a mass that stays in bowls and bags.
///
/// Invariant: at least 0 and below 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TransferLoss(MassFraction);

/// Why a share is no transfer loss.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error("the transfer loss is {} %; give 0 or more, below 100", as_given(*percent))]
pub struct TransferLossError {
    /// What was given.
    pub percent: f64,
}

impl TransferLoss {
    /// So large a share.
    ///
    /// # Errors
    ///
    /// [`TransferLossError`] below 0, from 1 on, and when it is no number.
    pub fn new(share: MassFraction) -> Result<Self, TransferLossError> {
        if (0.0..1.0).contains(&share.0) {
            Ok(Self(share))
        } else {
            Err(TransferLossError { percent: share.to_percent() })
        }
    }

    /// So many parts in a hundred.
    ///
    /// # Errors
    ///
    /// [`TransferLossError`] below 0, from 100 on, and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::TransferLoss;
    /// assert_eq!(TransferLoss::from_percent(3.0)?.share().0, 0.03);
    /// assert!(TransferLoss::from_percent(100.0).is_err() && TransferLoss::from_percent(f64::NAN).is_err());
    /// # Ok::<(), nibwright::recipe::TransferLossError>(())
    /// ```
    pub fn from_percent(percent: f64) -> Result<Self, TransferLossError> {
        Self::new(MassFraction::from_percent(percent)).map_err(|_| TransferLossError { percent })
    }

    /// The share.
    #[must_use]
    pub fn share(self) -> MassFraction {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_transfer_loss_leaves_something() {
        for percent in [0.0, 1e-9, 3.0, 99.9, 100.0_f64.next_down()] {
            assert_eq!(TransferLoss::from_percent(percent).map(TransferLoss::share), Ok(MassFraction(percent / 100.0)));
        }
        for percent in [-1e-9, 100.0, 150.0, f64::INFINITY] {
            assert_eq!(TransferLoss::from_percent(percent), Err(TransferLossError { percent }));
        }
        assert!(TransferLoss::new(MassFraction(f64::NAN)).is_err());
    }
}
