//! How a mass is to be seeded: what the maker has chosen. What comes of it is computed in `analysis::plan`.

use thiserror::Error;

use super::Quantity;
use crate::number::as_given;
use crate::units::{Celsius, MassFraction};

/// How a mass is to be seeded.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SeedingChoice {
    /// In which way.
    pub way: SeedingWay,
    /// How much of a cream of seed is crystals.
    pub cream: CreamShare,
    /// The maker's own amount of seed, instead of the suggested one.
    pub amount: Option<Quantity>,
    /// How warm the seed is when it goes in; `None` takes what is usual for the way.
    pub temperature: Option<SeedTemperature>,
}

/// A way in which crystals of form V get into a mass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum SeedingWay {
    /// Tempered cocoa butter, kept warm as a cream of crystals in liquid.
    #[default]
    Cream,
    /// Tempered cocoa butter, cold, grated or as a powder.
    Grated,
    /// Chopped tempered chocolate, the classic third.
    ChoppedChocolate,
    /// No seed: tempered chocolate is warmed so little that its own crystals last.
    KeepTempered,
}

impl SeedingWay {
    /// All ways in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Cream, Self::Grated, Self::ChoppedChocolate, Self::KeepTempered];

    /// Its name in the JSON report and in files, which spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Cream => "cream",
            Self::Grated => "grated",
            Self::ChoppedChocolate => "chopped_chocolate",
            Self::KeepTempered => "keep_tempered",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Cream => "seed cream",
            Self::Grated => "grated cocoa butter",
            Self::ChoppedChocolate => "chopped chocolate",
            Self::KeepTempered => "keep it tempered",
        }
    }
}

/// The share of a cream of seed that is crystals.
///
/// Invariant: within [`CreamShare::RANGE`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct CreamShare(MassFraction);

/// Why a share of crystals makes no cream.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error("cocoa butter with {} % crystals is no cream; give 5 to 50", as_given(*percent))]
pub struct CreamShareError {
    /// What was given.
    pub percent: f64,
}

impl CreamShare {
    /// Thinner it is all but melted, thicker it is a paste that does not stir in (judged, no published source).
    pub const RANGE: (MassFraction, MassFraction) = (MassFraction(0.05), MassFraction(0.50));

    /// So much of it crystals.
    ///
    /// # Errors
    ///
    /// [`CreamShareError`] outside [`CreamShare::RANGE`], and when it is no number.
    pub fn new(share: MassFraction) -> Result<Self, CreamShareError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&share) {
            Ok(Self(share))
        } else {
            Err(CreamShareError { percent: share.to_percent() })
        }
    }

    /// So many parts in a hundred.
    ///
    /// # Errors
    ///
    /// [`CreamShareError`] outside 5 to 50, and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::CreamShare;
    /// assert_eq!(CreamShare::from_percent(20.0)?, CreamShare::default());
    /// assert!(CreamShare::from_percent(60.0).is_err() && CreamShare::from_percent(f64::NAN).is_err());
    /// # Ok::<(), nibwright::recipe::CreamShareError>(())
    /// ```
    pub fn from_percent(percent: f64) -> Result<Self, CreamShareError> {
        Self::new(MassFraction::from_percent(percent)).map_err(|_| CreamShareError { percent })
    }

    /// The share.
    #[must_use]
    pub fn share(self) -> MassFraction {
        self.0
    }
}

impl Default for CreamShare {
    /// One part crystals to four parts liquid (common practice, no published source).
    fn default() -> Self {
        Self(MassFraction(0.20))
    }
}

/// How warm seed is when it goes in.
///
/// Invariant: within [`SeedTemperature::RANGE`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct SeedTemperature(Celsius);

/// Why a temperature is none of seed.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
#[error("no seed is kept at {} °C; give a temperature from 0 to 60", as_given(*celsius))]
pub struct SeedTemperatureError {
    /// What was given.
    pub celsius: f64,
}

impl SeedTemperature {
    /// From the refrigerator to far above where cocoa butter melts.
    pub const RANGE: (Celsius, Celsius) = (Celsius(0.0), Celsius(60.0));

    /// So warm.
    ///
    /// # Errors
    ///
    /// [`SeedTemperatureError`] outside [`SeedTemperature::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::{recipe::SeedTemperature, units::Celsius};
    /// assert_eq!(SeedTemperature::new(Celsius(33.5))?.celsius(), Celsius(33.5));
    /// assert!(SeedTemperature::new(Celsius(61.0)).is_err() && SeedTemperature::new(Celsius(f64::NAN)).is_err());
    /// # Ok::<(), nibwright::recipe::SeedTemperatureError>(())
    /// ```
    pub fn new(at: Celsius) -> Result<Self, SeedTemperatureError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&at) { Ok(Self(at)) } else { Err(SeedTemperatureError { celsius: at.0 }) }
    }

    /// The temperature.
    #[must_use]
    pub fn celsius(self) -> Celsius {
        self.0
    }
}
