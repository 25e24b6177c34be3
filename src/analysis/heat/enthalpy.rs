//! How much heat is in a mass at a temperature.

use super::mixing::HeatError;
use super::properties::{Coefficients, Contents, Substance, value};
use crate::units::{Celsius, Grams, Joules, JoulesPerGram, JoulesPerGramKelvin, Kelvin, MassFraction};

/// The fats that melt, as far as their heats of fusion differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fat {
    /// Fat of cocoa.
    CocoaButter,
    /// Fat of milk.
    MilkFat,
    /// Every other fat.
    OtherFat,
}

impl Fat {
    /// All of them.
    pub const ALL: [Self; Self::COUNT] = [Self::CocoaButter, Self::MilkFat, Self::OtherFat];

    /// How many there are.
    pub const COUNT: usize = 3;

    /// The heat that a gram of its crystals takes up when it melts.
    ///
    /// Cocoa butter 157 J/g, form V or VI (`beckett-2009`, p. 668). Milk fat 95 ± 20 J/g (from memory); other fats the
    /// same, by judgement, because they too are many triglycerides that melt over a wide range.
    #[must_use]
    pub const fn heat_of_fusion(self) -> JoulesPerGram {
        match self {
            Self::CocoaButter => JoulesPerGram(157.0),
            Self::MilkFat | Self::OtherFat => JoulesPerGram(95.0),
        }
    }

    pub(super) const fn substance(self) -> Substance {
        match self {
            Self::CocoaButter => Substance::CocoaButter,
            Self::MilkFat => Substance::MilkFat,
            Self::OtherFat => Substance::OtherFat,
        }
    }
}

/// The heat that crystalline sucrose takes up when it dissolves at 0 °C.
///
/// 16 J/g at 25 °C (5.4 kJ/mol, from a secondary source) less the difference of the two specific heats from 0 to 25 °C:
/// 16 − (1.673 − 1.1355)·25 − (0.0075 − 0.0043124)·25²/2 = 1.566375.
pub const HEAT_OF_SOLUTION_AT_ZERO: JoulesPerGram = JoulesPerGram(1.566375);

/// Grams of sugar that a gram of water dissolves at any temperature of the model. Common practice, no published source.
const MOST_SUGAR_PER_WATER: f64 = 2.0;

/// Warmer by so much when this share of the mass crystallises, with no heat lost.
///
/// ΔT = share·L/c, with L the heat of fusion and c the specific heat.
///
/// A hundredth of a ganache of 2.6 J/(g·K) that crystallises as cocoa butter warms it by 0.60 K.
///
/// ```
/// use nibwright::analysis::heat::{Fat, rise_by_crystallising};
/// use nibwright::units::{JoulesPerGramKelvin, MassFraction};
///
/// let rise = rise_by_crystallising(MassFraction(0.01), Fat::CocoaButter, JoulesPerGramKelvin(2.6));
/// assert!((rise.0 - 0.60).abs() < 0.005);
/// ```
#[must_use]
pub fn rise_by_crystallising(share: MassFraction, fat: Fat, specific_heat: JoulesPerGramKelvin) -> Kelvin {
    Kelvin(share.0 * fat.heat_of_fusion().0 / specific_heat.0)
}

/// The heat of a mass without its crystals, as a function of the temperature.
///
/// H(T) = A·T + B·T²/2 + C·T³/3 + 1.566375·(dissolved sugar), in J
///
/// A, B, C: the specific heats of its substances A + B·T + C·T², times their masses in grams; T in °C. Zero at 0 °C with
/// liquid fat and undissolved sugar.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Enthalpy {
    capacity: Coefficients,
    constant: f64,
}

impl Enthalpy {
    /// Of a mass with one specific heat at all temperatures.
    #[must_use]
    pub fn constant(mass: Grams, specific_heat: JoulesPerGramKelvin) -> Self {
        Self { capacity: [mass.0 * specific_heat.0, 0.0, 0.0], constant: 0.0 }
    }

    /// Of a mass by its substances.
    #[must_use]
    pub fn of(contents: &Contents) -> Self {
        let mut sum = Self::default();
        for substance in Substance::ALL {
            sum = sum.with(substance, contents.grams(substance));
        }
        sum
    }

    /// With so much of a substance added.
    pub(super) fn with(mut self, substance: Substance, amount: Grams) -> Self {
        for (sum, coefficient) in self.capacity.iter_mut().zip(substance.specific_heat_coefficients()) {
            *sum += amount.0 * coefficient;
        }
        if substance == Substance::DissolvedSugar {
            self.constant += amount.0 * HEAT_OF_SOLUTION_AT_ZERO.0;
        }
        self
    }

    /// Of both masses.
    pub(super) fn plus(mut self, other: Self) -> Self {
        for (sum, more) in self.capacity.iter_mut().zip(other.capacity) {
            *sum += more;
        }
        self.constant += other.constant;
        self
    }

    /// Of this share of the mass.
    pub(super) fn times(self, share: f64) -> Self {
        Self { capacity: self.capacity.map(|coefficient| coefficient * share), constant: self.constant * share }
    }

    /// The heat at a temperature.
    #[must_use]
    pub fn at(&self, at: Celsius) -> Joules {
        let [a, b, c] = self.capacity;
        Joules(self.constant + value([0.0, a, b / 2.0], at) + c * at.0.powi(3) / 3.0)
    }

    /// The heat capacity at a temperature in joules per kelvin.
    pub(super) fn capacity_j_per_k(&self, at: Celsius) -> f64 {
        value(self.capacity, at)
    }
}

/// One of the masses that are stirred together, at its temperature, with its crystals.
///
/// Invariant: mass above zero, every figure finite, shares of crystals from 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    pub(super) mass: Grams,
    pub(super) enthalpy: Enthalpy,
    pub(super) fats: [Grams; Fat::COUNT],
    pub(super) crystals: [MassFraction; Fat::COUNT],
    pub(super) water: Grams,
    pub(super) crystalline_sugar: Grams,
    pub(super) dissolved_sugar: Grams,
    pub(super) ethanol: Grams,
    pub(super) at: Celsius,
}

impl Part {
    /// A mass by its substances, all its fat liquid.
    ///
    /// # Errors
    ///
    /// [`HeatError`] if the temperature is no number or outside of the model.
    pub fn new(contents: &Contents, at: Celsius) -> Result<Self, HeatError> {
        HeatError::check_temperature(at)?;
        Ok(Self {
            mass: contents.total(),
            enthalpy: Enthalpy::of(contents),
            fats: Fat::ALL.map(|fat| contents.grams(fat.substance())),
            crystals: [MassFraction::ZERO; Fat::COUNT],
            water: contents.grams(Substance::Water),
            crystalline_sugar: contents.grams(Substance::CrystallineSugar),
            dissolved_sugar: contents.grams(Substance::DissolvedSugar),
            ethanol: contents.grams(Substance::Ethanol),
            at,
        })
    }

    /// A mass of which the specific heat was measured; it counts for all temperatures, and none of its sugar dissolves.
    ///
    /// # Errors
    ///
    /// [`HeatError`] if the mass or the specific heat is not above zero, or the temperature is outside of the model.
    pub fn measured(mass: Grams, specific_heat: JoulesPerGramKelvin, at: Celsius) -> Result<Self, HeatError> {
        HeatError::check_temperature(at)?;
        HeatError::check_amount(mass.0)?;
        HeatError::check_amount(specific_heat.0)?;
        let capacity = mass.0 * specific_heat.0;
        if mass.0 <= 0.0 || capacity <= 0.0 {
            return Err(HeatError::Empty);
        }
        HeatError::check_amount(capacity)?;
        Ok(Self {
            mass,
            enthalpy: Enthalpy::constant(mass, specific_heat),
            fats: [Grams::ZERO; Fat::COUNT],
            crystals: [MassFraction::ZERO; Fat::COUNT],
            water: Grams::ZERO,
            crystalline_sugar: Grams::ZERO,
            dissolved_sugar: Grams::ZERO,
            ethanol: Grams::ZERO,
            at,
        })
    }

    /// With this share of it being a fat, for a mass of which the specific heat was measured.
    ///
    /// # Errors
    ///
    /// [`HeatError::NotAShare`] if it is not from 0 to 1.
    pub fn with_fat(mut self, fat: Fat, share: MassFraction) -> Result<Self, HeatError> {
        self.fats[fat as usize] = self.mass * HeatError::check_share(share)?;
        Ok(self)
    }

    /// With this share of one of its fats being crystals.
    ///
    /// Hot cream and melted chocolate have none, cold butter and solid chocolate the equilibrium, tempered liquid
    /// chocolate about 0.02 (from memory).
    ///
    /// # Errors
    ///
    /// [`HeatError::NotAShare`] if it is not from 0 to 1.
    pub fn with_crystals(mut self, fat: Fat, share_of_fat: MassFraction) -> Result<Self, HeatError> {
        self.crystals[fat as usize] = HeatError::check_share(share_of_fat)?;
        Ok(self)
    }

    /// Its mass.
    #[must_use]
    pub fn mass(&self) -> Grams {
        self.mass
    }

    /// Its temperature.
    #[must_use]
    pub fn temperature(&self) -> Celsius {
        self.at
    }

    /// The crystals of a fat in it.
    #[must_use]
    pub fn crystals(&self, fat: Fat) -> Grams {
        self.fats[fat as usize] * self.crystals[fat as usize]
    }

    /// The heat that is in it.
    ///
    /// H = ∫ C dT from 0 °C + 1.566375·(dissolved sugar) − Σ crystals·L, in J
    ///
    /// C heat capacity, L heat of fusion of each fat; zero at 0 °C with liquid fat and undissolved sugar, so that it can be
    /// negative. Sources: as [`Contents::specific_heat`] and [`Fat::heat_of_fusion`]. Valid from 0 to about 110 °C.
    ///
    /// By hand: 100 g of 1.7 J/(g·K) at 20 °C with 36 % cocoa butter, all of it solid: 3400 − 36·157 = −2252 J.
    ///
    /// ```
    /// use nibwright::analysis::heat::{Fat, Part};
    /// use nibwright::units::{Celsius, Grams, JoulesPerGramKelvin, MassFraction};
    ///
    /// let chocolate = Part::measured(Grams(100.0), JoulesPerGramKelvin(1.7), Celsius(20.0))?
    ///     .with_fat(Fat::CocoaButter, MassFraction(0.36))?
    ///     .with_crystals(Fat::CocoaButter, MassFraction(1.0))?;
    /// assert!((chocolate.heat().0 + 2252.0).abs() < 1e-9);
    /// # Ok::<(), nibwright::analysis::heat::HeatError>(())
    /// ```
    #[must_use]
    pub fn heat(&self) -> Joules {
        self.enthalpy.at(self.at) - latent(&Fat::ALL.map(|fat| self.crystals(fat)))
    }

    /// The heat in a gram of it.
    #[must_use]
    pub fn heat_per_gram(&self) -> JoulesPerGram {
        JoulesPerGram(self.heat().0 / self.mass.0)
    }

    /// The same mass at another temperature, with the crystals that it has.
    ///
    /// # Errors
    ///
    /// [`HeatError`] if the temperature is no number or outside of the model.
    pub fn at(mut self, at: Celsius) -> Result<Self, HeatError> {
        HeatError::check_temperature(at)?;
        self.at = at;
        Ok(self)
    }

    pub(super) fn scaled(&self, factor: f64) -> Self {
        Self {
            mass: self.mass * factor,
            enthalpy: self.enthalpy.times(factor),
            fats: self.fats.map(|grams| grams * factor),
            water: self.water * factor,
            crystalline_sugar: self.crystalline_sugar * factor,
            dissolved_sugar: self.dissolved_sugar * factor,
            ethanol: self.ethanol * factor,
            ..self.clone()
        }
    }
}

/// The heat that these crystals would take up.
pub(super) fn latent(crystals: &[Grams; Fat::COUNT]) -> Joules {
    Fat::ALL.into_iter().map(|fat| Joules(crystals[fat as usize].0 * fat.heat_of_fusion().0)).sum()
}

/// How much crystalline sugar goes into solution: all of it, or up to 2 g of dissolved sugar in 1 g of water.
pub(super) fn dissolving(crystalline: Grams, dissolved: Grams, water: Grams) -> Grams {
    (water * MOST_SUGAR_PER_WATER - dissolved).max(Grams::ZERO).min(crystalline)
}
