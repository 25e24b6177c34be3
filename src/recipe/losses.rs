//! What is lost on the way from the scale to the finished mass.
//!
//! How much water boils off is known in one of three ways: it was weighed, it is estimated from what is heated, or it
//! follows from the temperature to which the mass is cooked. The recipe says which; `analysis::cooking` computes.

use thiserror::Error;

use super::Quantity;
use crate::number::as_given;
use crate::units::{Celsius, MassFraction, Metres};

/// What is lost on the way from the scale to the finished mass.
///
/// The two are kept apart because only evaporation changes the composition.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Losses {
    /// How much water boils off.
    pub evaporation: Evaporation,
    /// What stays in bowls and bags, at constant composition.
    pub transfer: TransferLoss,
}

/// How much water boils off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evaporation {
    /// So much, as weighed.
    Weighed(Quantity),
    /// A share of the liquid that is heated.
    Estimated(Heating),
    /// Until the mass boils at a temperature.
    CookedTo {
        /// What the thermometer in the pan shows at the end.
        temperature: CookTemperature,
        /// How high the kitchen lies: water boils sooner on a mountain.
        height: Height,
    },
}

impl Evaporation {
    /// How high the kitchen lies, where that matters; else the sea.
    #[must_use]
    pub fn height(self) -> Height {
        match self {
            Self::CookedTo { height, .. } => height,
            Self::Weighed(_) | Self::Estimated(_) => Height::SEA_LEVEL,
        }
    }
}

/// How far the liquid is heated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Heating {
    /// Brought to the boil.
    Boiled,
    /// Warmed to some 80 °C.
    Warmed,
}

/// The temperature at which a cook is stopped.
///
/// Invariant: within [`CookTemperature::RANGE`]. Wider than what can be computed, so that a temperature that is too low or
/// too hot is kept and answered with a reason.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CookTemperature(Celsius);

/// The height of a kitchen above the sea.
///
/// Invariant: within [`Height::RANGE`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Height(Metres);

/// Why a number is no temperature to cook to.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error(
    "a mass is not cooked to {} °C; give a temperature from {} to {} °C",
    as_given(*celsius),
    as_given(CookTemperature::RANGE.0.0),
    as_given(CookTemperature::RANGE.1.0)
)]
pub struct CookTemperatureError {
    /// What was given.
    pub celsius: f64,
}

/// Why a number is no height of a kitchen.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error(
    "no kitchen lies at {} m; give a height above the sea from {} to {} m",
    as_given(*metres),
    as_given(Height::RANGE.0.0),
    as_given(Height::RANGE.1.0)
)]
pub struct HeightError {
    /// What was given.
    pub metres: f64,
}

impl Default for Evaporation {
    fn default() -> Self {
        Self::Weighed(Quantity::default())
    }
}

impl Heating {
    /// All of them, the hotter first.
    pub const ALL: [Self; 2] = [Self::Boiled, Self::Warmed];

    /// Its name in the JSON report and in files, which spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Boiled => "boiled",
            Self::Warmed => "warmed",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Boiled => "boiled",
            Self::Warmed => "warmed to 80 °C",
        }
    }
}

impl CookTemperature {
    /// What is taken: from ice to hotter than any sugar can be cooked.
    pub const RANGE: (Celsius, Celsius) = (Celsius(0.0), Celsius(200.0));

    /// Firm ball, at the sea: where a caramel for cutting is stopped (common practice, no published source).
    pub const CARAMEL: Self = Self(Celsius(118.0));

    /// So hot.
    ///
    /// # Errors
    ///
    /// [`CookTemperatureError`] outside [`CookTemperature::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::{recipe::CookTemperature, units::Celsius};
    /// assert_eq!(CookTemperature::new(Celsius(118.0))?.celsius(), Celsius(118.0));
    /// assert!(CookTemperature::new(Celsius(201.0)).is_err() && CookTemperature::new(Celsius(f64::NAN)).is_err());
    /// # Ok::<(), nibwright::recipe::CookTemperatureError>(())
    /// ```
    pub fn new(at: Celsius) -> Result<Self, CookTemperatureError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&at) { Ok(Self(at)) } else { Err(CookTemperatureError { celsius: at.0 }) }
    }

    /// The temperature.
    #[must_use]
    pub fn celsius(self) -> Celsius {
        self.0
    }
}

impl Height {
    /// From the Dead Sea to the highest towns: there the standard atmosphere is asked.
    pub const RANGE: (Metres, Metres) = (Metres(-430.0), Metres(5_100.0));

    /// At the sea.
    pub const SEA_LEVEL: Self = Self(Metres(0.0));

    /// So high.
    ///
    /// # Errors
    ///
    /// [`HeightError`] outside [`Height::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::{recipe::Height, units::Metres};
    /// assert_eq!(Height::new(Metres(1500.0))?.metres(), Metres(1500.0));
    /// assert!(Height::new(Metres(8848.0)).is_err() && Height::new(Metres(f64::NAN)).is_err());
    /// # Ok::<(), nibwright::recipe::HeightError>(())
    /// ```
    pub fn new(above_the_sea: Metres) -> Result<Self, HeightError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&above_the_sea) {
            Ok(Self(above_the_sea))
        } else {
            Err(HeightError { metres: above_the_sea.0 })
        }
    }

    /// The height.
    #[must_use]
    pub fn metres(self) -> Metres {
        self.0
    }

    /// Whether it makes no difference to the sea.
    #[must_use]
    pub fn is_at_the_sea(self) -> bool {
        self.0 == Metres::ZERO
    }
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

    #[test]
    fn a_cook_has_a_temperature_and_a_height_that_exist() {
        for celsius in [0.0, 99.9, 118.0, 200.0] {
            assert_eq!(CookTemperature::new(Celsius(celsius)).map(CookTemperature::celsius), Ok(Celsius(celsius)));
        }
        for celsius in [-0.1, 200.1, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(CookTemperature::new(Celsius(celsius)), Err(CookTemperatureError { celsius }));
        }
        assert!(CookTemperature::new(Celsius(f64::NAN)).is_err());
        for metres in [-430.0, 0.0, 1500.0, 5100.0] {
            assert_eq!(Height::new(Metres(metres)).map(Height::metres), Ok(Metres(metres)));
        }
        for metres in [-431.0, 5100.1, f64::INFINITY] {
            assert_eq!(Height::new(Metres(metres)), Err(HeightError { metres }));
        }
        assert!(Height::new(Metres(f64::NAN)).is_err());
        assert_eq!(
            HeightError { metres: 8848.0 }.to_string(),
            "no kitchen lies at 8848 m; give a height above the sea from -430 to 5100 m"
        );
    }
}
