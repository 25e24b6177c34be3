//! Quantities with their unit in the type, so that two numbers that can be confused cannot be mixed.
//!
//! A quantity crosses a function boundary as one of these types; plain `f64` lives inside one function.
//! Only the operators that mean something exist: grams add to grams, grams over grams is a fraction.
//! A percent exists on the screen, on paper and in files; inside there is only [`MassFraction`].
//! Constructors do not refuse anything: what comes from outside is checked where it comes in
//! (`recipe::Quantity::new`, `recipe::TransferLoss::new`, `ingredient::Composition::new`), so that NaN and infinity stay
//! there.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

macro_rules! quantity {
    ($(#[$documentation:meta])* $name:ident) => {
        $(#[$documentation])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(pub f64);

        impl $name {
            /// The number 0 of this quantity: none of it, and of temperatures 0 °C.
            pub const ZERO: Self = Self(0.0);

            /// The larger of the two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of the two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
        }
    };
}

macro_rules! additive {
    ($name:ident) => {
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, |sum, part| sum + part)
            }
        }
    };
}

quantity! {
    /// A mass in grams.
    Grams
}
additive!(Grams);

quantity! {
    /// A volume in millilitres.
    Millilitres
}
additive!(Millilitres);

quantity! {
    /// A temperature in degrees Celsius.
    Celsius
}

quantity! {
    /// A difference of temperatures in kelvin.
    Kelvin
}
additive!(Kelvin);

quantity! {
    /// A time in minutes.
    Minutes
}
additive!(Minutes);

quantity! {
    /// A density in grams per millilitre.
    GramsPerMillilitre
}

quantity! {
    /// A share by mass, from 0 to 1.
    MassFraction
}
additive!(MassFraction);

quantity! {
    /// A share by volume, from 0 to 1.
    VolumeFraction
}
additive!(VolumeFraction);

quantity! {
    /// An amount of substance in moles; of salts the moles of dissolved particles (osmoles).
    Moles
}
additive!(Moles);

quantity! {
    /// A molar mass in grams per mole.
    GramsPerMole
}

quantity! {
    /// Water activity: the vapour pressure of the water in a mass over that of pure water at the same temperature,
    /// from 0 to 1.
    WaterActivity
}

quantity! {
    /// A pressure in kilopascals.
    Kilopascals
}

quantity! {
    /// A length in metres; of places the height above the sea.
    Metres
}

quantity! {
    /// A length in millimetres; of frames, pieces and what is cut off.
    Millimetres
}

quantity! {
    /// A heat in joules; what goes in is positive.
    Joules
}
additive!(Joules);

quantity! {
    /// Energy of a food for labelling in kilojoules, by the factors of the law; no heat of a process.
    Kilojoules
}
additive!(Kilojoules);

quantity! {
    /// Energy of a food for labelling in kilocalories, summed with factors of its own and never converted.
    Kilocalories
}
additive!(Kilocalories);

quantity! {
    /// A heat by mass in joules per gram, the same number as in kilojoules per kilogram.
    JoulesPerGram
}

quantity! {
    /// A specific heat in joules per gram and kelvin, the same number as in kilojoules per kilogram and kelvin.
    JoulesPerGramKelvin
}

quantity! {
    /// A thermal conductivity in watts per metre and kelvin.
    WattsPerMetreKelvin
}

quantity! {
    /// A surface coefficient of heat transfer in watts per square metre and kelvin.
    WattsPerSquareMetreKelvin
}

quantity! {
    /// A conductance of a whole surface in watts per kelvin.
    WattsPerKelvin
}

quantity! {
    /// A diffusivity in square metres per second.
    SquareMetresPerSecond
}

quantity! {
    /// A viscosity in millipascal seconds.
    MillipascalSeconds
}

impl Div<GramsPerMole> for Grams {
    type Output = Moles;
    fn div(self, molar_mass: GramsPerMole) -> Moles {
        Moles(self.0 / molar_mass.0)
    }
}

impl Div for Grams {
    type Output = MassFraction;
    /// What share the first mass is of the second.
    fn div(self, whole: Self) -> MassFraction {
        MassFraction(self.0 / whole.0)
    }
}

impl Mul<MassFraction> for Grams {
    type Output = Self;
    fn mul(self, share: MassFraction) -> Self {
        Self(self.0 * share.0)
    }
}

impl Div<GramsPerMillilitre> for Grams {
    type Output = Millilitres;
    fn div(self, density: GramsPerMillilitre) -> Millilitres {
        Millilitres(self.0 / density.0)
    }
}

impl Mul<GramsPerMillilitre> for Millilitres {
    type Output = Grams;
    fn mul(self, density: GramsPerMillilitre) -> Grams {
        Grams(self.0 * density.0)
    }
}

impl Millilitres {
    /// The US fluid ounce: 1/128 of a gallon of 231 cubic inches of 2.54 cm, exact (NIST SP 811, Appendix B.8).
    const PER_US_FLUID_OUNCE: f64 = 29.573_529_562_5;

    /// A volume in US fluid ounces; the imperial one is smaller.
    ///
    /// ```
    /// # use nibwright::units::Millilitres;
    /// assert!((Millilitres::from_us_fluid_ounces(8.0).0 - 236.588_236_5).abs() < 5e-10);
    /// ```
    #[must_use]
    pub fn from_us_fluid_ounces(ounces: f64) -> Self {
        Self(ounces * Self::PER_US_FLUID_OUNCE)
    }
}

impl Div for Millilitres {
    type Output = VolumeFraction;
    fn div(self, whole: Self) -> VolumeFraction {
        VolumeFraction(self.0 / whole.0)
    }
}

impl Sub for Celsius {
    type Output = Kelvin;
    fn sub(self, other: Self) -> Kelvin {
        Kelvin(self.0 - other.0)
    }
}

impl Add<Kelvin> for Celsius {
    type Output = Self;
    fn add(self, difference: Kelvin) -> Self {
        Self(self.0 + difference.0)
    }
}

impl Sub<Kelvin> for Celsius {
    type Output = Self;
    fn sub(self, difference: Kelvin) -> Self {
        Self(self.0 - difference.0)
    }
}

/// 0 °C in kelvin, exact by definition of the Celsius scale.
const ICE_POINT_K: f64 = 273.15;

impl Celsius {
    /// A temperature on the scale of Fahrenheit.
    ///
    /// C = (F − 32)·5/9
    ///
    /// Source: NIST SP 811, Appendix B.8.
    ///
    /// ```
    /// # use nibwright::units::Celsius;
    /// for (fahrenheit, celsius) in [(115.0, 46.111), (88.0, 31.111), (88.7, 31.5), (240.0, 115.556)] {
    ///     assert!((Celsius::from_fahrenheit(fahrenheit).0 - celsius).abs() < 5e-4);
    /// }
    /// // A difference has no zero to be moved: 5 °F are 2.778 K.
    /// let difference = Celsius::from_fahrenheit(93.0) - Celsius::from_fahrenheit(88.0);
    /// assert!((difference.0 - 2.778).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn from_fahrenheit(degrees: f64) -> Self {
        Self((degrees - 32.0) * 5.0 / 9.0)
    }

    /// Nothing is colder.
    pub const ABSOLUTE_ZERO: Self = Self(-ICE_POINT_K);

    /// The same temperature on the absolute scale, in kelvin.
    #[must_use]
    pub fn to_kelvin(self) -> f64 {
        self.0 + ICE_POINT_K
    }
}

impl MassFraction {
    /// The share that so many parts in a hundred are.
    #[must_use]
    pub fn from_percent(percent: f64) -> Self {
        Self(percent / 100.0)
    }

    /// The share in parts per hundred, for the screen, paper and files.
    #[must_use]
    pub fn to_percent(self) -> f64 {
        self.0 * 100.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_of_a_mass_is_a_mass() {
        assert_eq!(Grams(200.0) * MassFraction::from_percent(35.0), Grams(70.0));
        assert_eq!((Grams(70.0) / Grams(200.0)).to_percent(), 35.0);
    }

    /// Worked example, by hand: 250 ml of honey of 1.42 g/ml weigh 355 g; 120 g of a purée of 1.03 g/ml fill 116.505 ml.
    #[test]
    fn a_volume_has_a_mass_by_its_density() {
        assert_eq!(Millilitres(250.0) * GramsPerMillilitre(1.42), Grams(355.0));
        let puree = Grams(120.0) / GramsPerMillilitre(1.03);
        assert!((puree.0 - 116.505).abs() < 5e-4);
    }

    #[test]
    fn temperatures_differ_in_kelvin() {
        assert_eq!(Celsius(33.5) - Celsius(31.5), Kelvin(2.0));
        assert_eq!(Celsius(31.5) + Kelvin(2.0), Celsius(33.5));
        assert_eq!(Celsius(26.85).to_kelvin(), 300.0);
    }
}
