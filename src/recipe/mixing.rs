//! How the parts of a recipe come together: how warm each is, in which state its fat is, in what they are mixed.
//!
//! The recipe says what is; at which temperature the mix ends is computed in `analysis::mixing`.

use thiserror::Error;

use super::Quantity;
use crate::number::as_given;
use crate::units::Celsius;

/// What is said of the mix as a whole. Nothing of it has to be.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixing {
    /// The temperature at which it should end.
    pub wanted: Option<MixTemperature>,
    /// The bowl, where its heat counts.
    pub bowl: Option<Bowl>,
    /// How long it is stirred in the open: what is lost to the room.
    pub stirred: StirringTime,
}

/// The temperature of something that is mixed: of a line, of the bowl, of the whole.
///
/// Invariant: within [`MixTemperature::RANGE`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixTemperature(Celsius);

/// Why a number is no temperature of a mix.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error(
    "nothing is mixed at {} °C; give a temperature from {} to {} °C",
    as_given(*celsius),
    as_given(MixTemperature::RANGE.0.0),
    as_given(MixTemperature::RANGE.1.0)
)]
pub struct MixTemperatureError {
    /// What was given.
    pub celsius: f64,
}

/// The state in which the fat of a line is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum FatState {
    /// As the temperature says: at rest below 28 °C, melted from there on.
    #[default]
    ByTemperature,
    /// Stored solid, also where it is warm: with as many crystals as can live at its temperature.
    Solid,
    /// Melted, also where it is cool: without crystals.
    Melted,
    /// Chocolate that is tempered and liquid: with few crystals.
    Tempered,
}

/// What the parts are mixed in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bowl {
    /// What it is made of.
    pub material: BowlMaterial,
    /// What it weighs.
    pub mass: Quantity,
    /// How warm it is before.
    pub temperature: MixTemperature,
}

/// What a bowl is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BowlMaterial {
    /// Stainless steel.
    Steel,
    /// Aluminium.
    Aluminium,
    /// Glass.
    Glass,
    /// Polycarbonate.
    Polycarbonate,
    /// Polypropylene.
    Polypropylene,
}

/// How many minutes a mix is stirred in an open bowl.
///
/// Invariant: within [`StirringTime::RANGE`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StirringTime(f64);

/// Why a number is no time of stirring.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error(
    "a mix is not stirred for {} minutes; give a number from {} to {}",
    as_given(*minutes),
    as_given(StirringTime::RANGE.0),
    as_given(StirringTime::RANGE.1)
)]
pub struct StirringTimeError {
    /// What was given.
    pub minutes: f64,
}

impl Mixing {
    /// Whether nothing is said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl MixTemperature {
    /// What is taken: from ice to hotter than any cream or syrup boils.
    pub const RANGE: (Celsius, Celsius) = (Celsius(0.0), Celsius(110.0));

    /// A room: what a bowl has that stood in it.
    pub const ROOM: Self = Self(super::ROOM);

    /// So warm.
    ///
    /// # Errors
    ///
    /// [`MixTemperatureError`] outside [`MixTemperature::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::{recipe::MixTemperature, units::Celsius};
    /// assert_eq!(MixTemperature::new(Celsius(85.0))?.celsius(), Celsius(85.0));
    /// assert!(MixTemperature::new(Celsius(111.0)).is_err() && MixTemperature::new(Celsius(f64::NAN)).is_err());
    /// # Ok::<(), nibwright::recipe::MixTemperatureError>(())
    /// ```
    pub fn new(at: Celsius) -> Result<Self, MixTemperatureError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&at) { Ok(Self(at)) } else { Err(MixTemperatureError { celsius: at.0 }) }
    }

    /// The temperature.
    #[must_use]
    pub fn celsius(self) -> Celsius {
        self.0
    }
}

impl FatState {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::ByTemperature, Self::Solid, Self::Melted, Self::Tempered];

    /// Its name in files and in the JSON report; files spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::ByTemperature => "by_temperature",
            Self::Solid => "solid",
            Self::Melted => "melted",
            Self::Tempered => "tempered",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::ByTemperature => "as its temperature says",
            Self::Solid => "solid, as stored",
            Self::Melted => "melted",
            Self::Tempered => "tempered, liquid",
        }
    }
}

impl BowlMaterial {
    /// All of them, the usual first.
    pub const ALL: [Self; 5] = [Self::Steel, Self::Aluminium, Self::Glass, Self::Polycarbonate, Self::Polypropylene];

    /// Its name in files, which spell it themselves (`store::format::v1`), and for people.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Aluminium => "aluminium",
            Self::Glass => "glass",
            Self::Polycarbonate => "polycarbonate",
            Self::Polypropylene => "polypropylene",
        }
    }
}

impl StirringTime {
    /// What is taken, in minutes: nobody stirs longer by hand, and a machine has a bowl of its own temperature.
    pub const RANGE: (f64, f64) = (0.0, 120.0);

    /// So many minutes.
    ///
    /// # Errors
    ///
    /// [`StirringTimeError`] outside [`StirringTime::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::StirringTime;
    /// assert_eq!(StirringTime::new(3.0)?.minutes(), 3.0);
    /// assert!(StirringTime::new(-1.0).is_err() && StirringTime::new(f64::NAN).is_err());
    /// # Ok::<(), nibwright::recipe::StirringTimeError>(())
    /// ```
    pub fn new(minutes: f64) -> Result<Self, StirringTimeError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&minutes) { Ok(Self(minutes)) } else { Err(StirringTimeError { minutes }) }
    }

    /// How many minutes.
    #[must_use]
    pub fn minutes(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mix_has_temperatures_and_times_that_exist() {
        for celsius in [0.0, 20.0, 110.0] {
            assert_eq!(MixTemperature::new(Celsius(celsius)).map(MixTemperature::celsius), Ok(Celsius(celsius)));
        }
        for celsius in [-0.1, 110.1, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(MixTemperature::new(Celsius(celsius)), Err(MixTemperatureError { celsius }));
        }
        assert!(MixTemperature::new(Celsius(f64::NAN)).is_err());
        for minutes in [0.0, 2.5, 120.0] {
            assert_eq!(StirringTime::new(minutes).map(StirringTime::minutes), Ok(minutes));
        }
        for minutes in [-0.1, 121.0, f64::INFINITY] {
            assert_eq!(StirringTime::new(minutes), Err(StirringTimeError { minutes }));
        }
        assert_eq!(
            MixTemperatureError { celsius: 180.0 }.to_string(),
            "nothing is mixed at 180 °C; give a temperature from 0 to 110 °C"
        );
        assert_eq!(
            StirringTimeError { minutes: 600.0 }.to_string(),
            "a mix is not stirred for 600 minutes; give a number from 0 to 120"
        );
    }
}
