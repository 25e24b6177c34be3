//! How a mass is set and where the finished pieces lie: form, air, temperatures, the shell around a filling.
//!
//! Nothing is computed here; `analysis::setting` and `analysis::migration` do.

use std::sync::Arc;

use thiserror::Error;

use super::{ROOM, Use};
use crate::ingredient::Ingredient;
use crate::number::as_given;
use crate::units::{Celsius, MassFraction, Metres};

/// Warmer than this, chocolate is not stored (common practice, no published source).
pub const WARMEST_STORE: Celsius = Celsius(18.0);

/// How a mass is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The form in which it lies.
    pub piece: Piece,
    /// How warm it is when it begins to cool; `None` for the recommended temperature of seeding.
    pub start: Option<PlaceTemperature>,
    /// How warm the air around it is.
    pub surroundings: PlaceTemperature,
    /// How the air moves.
    pub air: Air,
}

/// The form in which a mass sets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A slab in a frame.
    Frame {
        /// How thick.
        thickness: Size,
        /// What it lies on.
        base: Base,
    },
    /// A bar in a mould, open on top.
    Bar {
        /// How thick.
        thickness: Size,
    },
    /// A half-sphere in a mould, open on top.
    HalfSphere {
        /// Across.
        diameter: Size,
    },
    /// A cup, open on top.
    Cup {
        /// Across.
        diameter: Size,
        /// How high it is filled.
        height: Size,
    },
    /// A ball with air all round.
    Ball {
        /// Across.
        diameter: Size,
    },
    /// A thin coat; the air reaches one face.
    Coat {
        /// How thick.
        thickness: Size,
    },
    /// The bowl, stirred from time to time.
    Bowl,
}

/// What a frame lies on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Base {
    /// A board of wood or acrylic.
    #[default]
    Board,
    /// A wire rack: air from below too.
    Rack,
    /// A thick slab of stone, as warm as the air.
    Stone,
}

/// How the air moves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Air {
    /// A still room.
    #[default]
    Still,
    /// A refrigerator without a fan.
    Refrigerator,
    /// A fan or a ventilated cabinet.
    Fan,
    /// A cooling tunnel.
    Tunnel,
}

/// Where the finished pieces lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Storage {
    /// How warm they are stored.
    pub at: PlaceTemperature,
    /// The room into which they come from there.
    pub room: PlaceTemperature,
    /// How humid that room is.
    pub humidity: Humidity,
    /// The chocolate around a filling.
    pub shell: Option<Shell>,
}

/// A shell of chocolate around a filling.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell {
    /// Of which chocolate.
    pub chocolate: Arc<Ingredient>,
    /// How thick.
    pub thickness: Size,
}

impl Default for Storage {
    /// 18 °C, into a room of 20 °C and 60 % humidity, no shell.
    fn default() -> Self {
        Self {
            at: PlaceTemperature(WARMEST_STORE),
            room: PlaceTemperature(ROOM),
            humidity: Humidity(60.0),
            shell: None,
        }
    }
}

/// The temperature of a place or of a mass that begins to cool.
///
/// Invariant: within [`PlaceTemperature::RANGE`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct PlaceTemperature(Celsius);

/// A length of a piece.
///
/// Invariant: within [`Size::RANGE`]. Kept in millimetres, so that it is saved as it was typed.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Size(f64);

/// The relative humidity of the air.
///
/// Invariant: above 0, at most 100. Kept in percent, so that it is saved as it was typed.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Humidity(f64);

/// Why a number is none of the figures of a setting.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum SettingError {
    /// A temperature.
    #[error(
        "{} °C is outside of what is computed; give a temperature from {} to {} °C",
        as_given(*celsius),
        as_given(PlaceTemperature::RANGE.0.0),
        as_given(PlaceTemperature::RANGE.1.0)
    )]
    Temperature {
        /// What was given.
        celsius: f64,
    },
    /// A length.
    #[error(
        "no piece measures {} mm; give a length from {} to {} mm",
        as_given(*millimetres),
        as_given(Size::RANGE.0),
        as_given(Size::RANGE.1)
    )]
    Size {
        /// What was given.
        millimetres: f64,
    },
    /// A humidity.
    #[error("air has no humidity of {} %; give a number above 0, up to 100", as_given(*percent))]
    Humidity {
        /// What was given.
        percent: f64,
    },
}

/// Millimetres in a metre.
const MILLIMETRES: f64 = 1000.0;

impl PlaceTemperature {
    /// From ice to a hot cupboard.
    pub const RANGE: (Celsius, Celsius) = (Celsius(0.0), Celsius(60.0));

    /// So warm.
    ///
    /// # Errors
    ///
    /// [`SettingError::Temperature`] outside [`PlaceTemperature::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::{recipe::PlaceTemperature, units::Celsius};
    /// assert_eq!(PlaceTemperature::new(Celsius(17.0))?.celsius(), Celsius(17.0));
    /// assert!(PlaceTemperature::new(Celsius(-1.0)).is_err() && PlaceTemperature::new(Celsius(f64::NAN)).is_err());
    /// # Ok::<(), nibwright::recipe::SettingError>(())
    /// ```
    pub fn new(at: Celsius) -> Result<Self, SettingError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&at) { Ok(Self(at)) } else { Err(SettingError::Temperature { celsius: at.0 }) }
    }

    /// The temperature.
    #[must_use]
    pub fn celsius(self) -> Celsius {
        self.0
    }
}

impl Size {
    /// A slab or a bar.
    pub const USUAL: Self = Self(10.0);

    /// A shell.
    pub const OF_SHELL: Self = Self(2.0);

    /// From a brushed coat to a tall cake, in millimetres.
    pub const RANGE: (f64, f64) = (0.5, 300.0);

    /// So many millimetres.
    ///
    /// # Errors
    ///
    /// [`SettingError::Size`] outside [`Size::RANGE`], and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::Size;
    /// assert_eq!(Size::from_millimetres(10.0)?.metres().0, 0.01);
    /// assert!(Size::from_millimetres(0.0).is_err() && Size::from_millimetres(f64::NAN).is_err());
    /// # Ok::<(), nibwright::recipe::SettingError>(())
    /// ```
    pub fn from_millimetres(millimetres: f64) -> Result<Self, SettingError> {
        let (least, most) = Self::RANGE;
        if (least..=most).contains(&millimetres) {
            Ok(Self(millimetres))
        } else {
            Err(SettingError::Size { millimetres })
        }
    }

    /// The length.
    #[must_use]
    pub fn metres(self) -> Metres {
        Metres(self.0 / MILLIMETRES)
    }

    /// The length in millimetres.
    #[must_use]
    pub fn millimetres(self) -> f64 {
        self.0
    }
}

impl Humidity {
    /// So many percent.
    ///
    /// # Errors
    ///
    /// [`SettingError::Humidity`] at 0 and below, above 100, and when it is no number.
    ///
    /// ```
    /// # use nibwright::recipe::Humidity;
    /// assert_eq!(Humidity::from_percent(60.0)?.share().0, 0.6);
    /// assert!(Humidity::from_percent(0.0).is_err() && Humidity::from_percent(101.0).is_err());
    /// # Ok::<(), nibwright::recipe::SettingError>(())
    /// ```
    pub fn from_percent(percent: f64) -> Result<Self, SettingError> {
        if percent > 0.0 && percent <= 100.0 { Ok(Self(percent)) } else { Err(SettingError::Humidity { percent }) }
    }

    /// The humidity as a share.
    #[must_use]
    pub fn share(self) -> MassFraction {
        MassFraction::from_percent(self.0)
    }

    /// The humidity in percent.
    #[must_use]
    pub fn percent(self) -> f64 {
        self.0
    }
}

impl Setting {
    /// How a mass for this use is usually set: a beginning, to be changed. Common practice, no published source.
    #[must_use]
    pub fn usual(intended_use: Option<Use>) -> Self {
        let (piece, around, air) = match intended_use {
            None | Some(Use::Cut) => (Piece::Frame { thickness: Size(10.0), base: Base::Board }, 17.0, Air::Still),
            Some(Use::Spread) => (Piece::Frame { thickness: Size(15.0), base: Base::Rack }, 17.0, Air::Still),
            Some(Use::Moulded) => (Piece::HalfSphere { diameter: Size(28.0) }, 16.0, Air::Still),
            Some(Use::Piped) => (Piece::Cup { diameter: Size(28.0), height: Size(15.0) }, 17.0, Air::Still),
            Some(Use::Whipped) => (Piece::Bowl, 6.0, Air::Refrigerator),
            Some(Use::Bar) => (Piece::Bar { thickness: Size(8.0) }, 13.0, Air::Fan),
            Some(Use::ThickBar) => (Piece::Bar { thickness: Size(16.0) }, 13.0, Air::Fan),
            Some(Use::Shell) => (Piece::Coat { thickness: Size(2.0) }, 14.0, Air::Fan),
            Some(Use::ThinCoat) => (Piece::Coat { thickness: Size(1.0) }, 18.0, Air::Still),
        };
        Self { piece, start: None, surroundings: PlaceTemperature(Celsius(around)), air }
    }
}

impl Base {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Board, Self::Rack, Self::Stone];

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Board => "on a board",
            Self::Rack => "on a wire rack",
            Self::Stone => "on stone",
        }
    }
}

impl Air {
    /// All of them, the slowest first but for the refrigerator.
    pub const ALL: [Self; 4] = [Self::Still, Self::Refrigerator, Self::Fan, Self::Tunnel];

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Still => "still air",
            Self::Refrigerator => "refrigerator without a fan",
            Self::Fan => "fan or ventilated cabinet",
            Self::Tunnel => "cooling tunnel",
        }
    }
}

impl Piece {
    /// Whether it counts as of one temperature all through.
    #[must_use]
    pub fn is_of_one_temperature(self) -> bool {
        matches!(self, Self::HalfSphere { .. } | Self::Cup { .. } | Self::Bowl)
    }

    /// What it is called.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Frame { .. } => "slab in a frame",
            Self::Bar { .. } => "bar in a mould",
            Self::HalfSphere { .. } => "half-sphere in a mould",
            Self::Cup { .. } => "cup",
            Self::Ball { .. } => "ball",
            Self::Coat { .. } => "coat",
            Self::Bowl => "bowl",
        }
    }
}
