//! Specific heat, density, conductivity and diffusivity of a mass, from what it is made of.

use super::mixing::HeatError;
use crate::analysis::parts::Parts;
use crate::ingredient::Component;
use crate::units::{
    Celsius, Grams, GramsPerMillilitre, JoulesPerGramKelvin, MassFraction, SquareMetresPerSecond, VolumeFraction,
    WattsPerMetreKelvin,
};

/// A, B, C of A + B·T + C·T², with T in °C.
pub(super) type Coefficients = [f64; 3];

pub(super) fn value([a, b, c]: Coefficients, at: Celsius) -> f64 {
    a + at.0 * (b + at.0 * c)
}

/// What heat tells apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Substance {
    /// Liquid water.
    Water,
    /// Protein of any kind.
    Protein,
    /// Fat of cocoa, solid or liquid.
    CocoaButter,
    /// Fat of milk, solid or liquid.
    MilkFat,
    /// Every other fat or oil.
    OtherFat,
    /// Starch and other carbohydrate that is no sugar.
    Carbohydrate,
    /// Dietary fibre.
    Fibre,
    /// Minerals, salt, acids.
    Ash,
    /// Sugar in solution or without order: also milk powder's lactose and the solids of glucose syrup.
    DissolvedSugar,
    /// Sugar in crystals, as in chocolate.
    CrystallineSugar,
    /// Cocoa without fat and water.
    FatFreeCocoa,
    /// Ethanol.
    Ethanol,
}

/// Specific heat in kJ/(kg·K), density in kg/m³, conductivity in W/(m·K).
struct Row {
    specific_heat: Coefficients,
    density: Coefficients,
    conductivity: Coefficients,
}

/// `choi-okos-1986`. The constant of the specific heat of water is 4.1762 and not 4.1289, as some copies have it: against the
/// water standard 4.1762 is within 0.7 % from 5 to 95 °C, 4.1289 is 1.0 to 1.8 % low everywhere.
const WATER: Row = Row {
    specific_heat: [4.1762, -9.0864e-5, 5.4731e-6],
    density: [997.18, 3.1439e-3, -3.7574e-3],
    conductivity: [0.57109, 1.7625e-3, -6.7036e-6],
};
/// `choi-okos-1986`.
const PROTEIN: Row = Row {
    specific_heat: [2.0082, 1.2089e-3, -1.3129e-6],
    density: [1329.9, -0.51840, 0.0],
    conductivity: [0.17881, 1.1958e-3, -2.7178e-6],
};
/// `choi-okos-1986`. The exponent of the slope of the conductivity is −4: copies with −3 reach zero near 60 °C. One row
/// serves solid and liquid fat: the true difference of 2.01 and 2.09 kJ/(kg·K) (`beckett-2009`, p. 667) is below the
/// uncertainty, and one row keeps the heat of fusion the same at every temperature.
const FAT: Row = Row {
    specific_heat: [1.9842, 1.4733e-3, -4.8008e-6],
    density: [925.59, -0.41757, 0.0],
    conductivity: [0.18071, -2.7604e-4, -1.7749e-7],
};
/// `choi-okos-1986`.
const CARBOHYDRATE: Row = Row {
    specific_heat: [1.5488, 1.9625e-3, -5.9399e-6],
    density: [1599.1, -0.31046, 0.0],
    conductivity: [0.20141, 1.3874e-3, -4.3312e-6],
};
/// `choi-okos-1986`.
const FIBRE: Row = Row {
    specific_heat: [1.8459, 1.8306e-3, -4.6509e-6],
    density: [1311.5, -0.36589, 0.0],
    conductivity: [0.18331, 1.2497e-3, -3.1683e-6],
};
/// `choi-okos-1986`.
const ASH: Row = Row {
    specific_heat: [1.0926, 1.8896e-3, -3.6817e-6],
    density: [2423.8, -0.28063, 0.0],
    conductivity: [0.32962, 1.4011e-3, -2.9069e-6],
};
/// Specific heat from the formula of sucrose solutions (`bubnik-1995`), the rest as carbohydrate.
const DISSOLVED_SUGAR: Row =
    Row { specific_heat: [1.673, 0.0075, 0.0], density: CARBOHYDRATE.density, conductivity: CARBOHYDRATE.conductivity };
/// Specific heat and conductivity `mohos-2010`; density from memory.
const CRYSTALLINE_SUGAR: Row =
    Row { specific_heat: [1.1355, 0.0043124, 0.0], density: [1587.0, -0.17, 0.0], conductivity: [0.58, 0.0, 0.0] };
/// `choi-okos-1986` with protein 27, carbohydrate 25, fibre 36, ash 9, rest 3 % (composition from memory): ±5 %.
const FAT_FREE_COCOA: Row =
    Row { specific_heat: [1.742, 0.00142, 0.0], density: [1447.2, -0.40, 0.0], conductivity: [0.196, 0.00105, 0.0] };
/// Fits to `coolprop-8` from 0 to 78 °C, within 0.06 %.
const ETHANOL: Row = Row {
    specific_heat: [2.2562, 6.467e-3, 2.748e-5],
    density: [806.24, -0.8184, -8.828e-4],
    conductivity: [0.16883, -2.2426e-4, 5.194e-7],
};

/// Kilograms per cubic metre in a gram per millilitre.
const KILOGRAMS_PER_CUBIC_METRE: f64 = 1000.0;

/// Joules per kilogram in a joule per gram.
const GRAMS_PER_KILOGRAM: f64 = 1000.0;

impl Substance {
    /// All of them.
    pub const ALL: [Self; Self::COUNT] = [
        Self::Water,
        Self::Protein,
        Self::CocoaButter,
        Self::MilkFat,
        Self::OtherFat,
        Self::Carbohydrate,
        Self::Fibre,
        Self::Ash,
        Self::DissolvedSugar,
        Self::CrystallineSugar,
        Self::FatFreeCocoa,
        Self::Ethanol,
    ];

    /// How many there are.
    pub const COUNT: usize = 12;

    const fn row(self) -> &'static Row {
        match self {
            Self::Water => &WATER,
            Self::Protein => &PROTEIN,
            Self::CocoaButter | Self::MilkFat | Self::OtherFat => &FAT,
            Self::Carbohydrate => &CARBOHYDRATE,
            Self::Fibre => &FIBRE,
            Self::Ash => &ASH,
            Self::DissolvedSugar => &DISSOLVED_SUGAR,
            Self::CrystallineSugar => &CRYSTALLINE_SUGAR,
            Self::FatFreeCocoa => &FAT_FREE_COCOA,
            Self::Ethanol => &ETHANOL,
        }
    }

    pub(super) const fn specific_heat_coefficients(self) -> Coefficients {
        self.row().specific_heat
    }

    /// Its specific heat, without melting.
    #[must_use]
    pub fn specific_heat(self, at: Celsius) -> JoulesPerGramKelvin {
        JoulesPerGramKelvin(value(self.row().specific_heat, at))
    }

    /// Its density; of fats the liquid's.
    #[must_use]
    pub fn density(self, at: Celsius) -> GramsPerMillilitre {
        GramsPerMillilitre(value(self.row().density, at) / KILOGRAMS_PER_CUBIC_METRE)
    }

    /// Its thermal conductivity.
    #[must_use]
    pub fn conductivity(self, at: Celsius) -> WattsPerMetreKelvin {
        WattsPerMetreKelvin(value(self.row().conductivity, at))
    }
}

/// Whether the sugar of a mass is in solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SugarState {
    /// As in cream, syrup, ganache.
    Dissolved,
    /// As in chocolate, gianduja, praline paste.
    Crystalline,
}

/// What surrounds everything else.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ContinuousPhase {
    /// The fats, as in chocolate and praline.
    Fat,
    /// Water with ethanol, dissolved sugar, protein and ash, as in ganache.
    Water,
}

/// From so much water on the sugar of a mass counts as dissolved. Common practice, no published source.
pub const LEAST_WATER_FOR_DISSOLVED_SUGAR: MassFraction = MassFraction(0.02);

/// How far shares may sum to something other than one.
const ROUNDING_OF_SHARES: f64 = 1e-6;

impl SugarState {
    /// The usual state: dissolved with 2 % of water and more. `None` if the water is not known or there is no mass.
    #[must_use]
    pub fn usual(parts: &Parts) -> Option<Self> {
        let water = parts.share(Component::Water)?;
        let is_dry = crate::analysis::is_below(water.0, LEAST_WATER_FOR_DISSOLVED_SUGAR.0);
        Some(if is_dry { Self::Crystalline } else { Self::Dissolved })
    }
}

/// What a mass is made of, as heat sees it.
///
/// Invariant: no amount is negative or other than finite, and there is some mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Contents {
    grams: [f64; Substance::COUNT],
}

impl Contents {
    /// These amounts; one that is named twice counts twice.
    ///
    /// # Errors
    ///
    /// [`HeatError`] if an amount is negative or not finite, or if nothing weighs anything.
    pub fn new(amounts: impl IntoIterator<Item = (Substance, Grams)>) -> Result<Self, HeatError> {
        let mut grams = [0.0; Substance::COUNT];
        for (substance, amount) in amounts {
            if !amount.0.is_finite() {
                return Err(HeatError::NotFinite);
            }
            if amount.0 < 0.0 {
                return Err(HeatError::Negative);
            }
            grams[substance as usize] += amount.0;
        }
        let contents = Self { grams };
        match contents.total().0 {
            total if total <= 0.0 => Err(HeatError::Empty),
            total if total.is_finite() => Ok(contents),
            _ => Err(HeatError::NotFinite),
        }
    }

    /// A mass in shares.
    ///
    /// # Errors
    ///
    /// As [`Contents::new`], and if the shares do not sum to 1 within a millionth.
    pub fn from_shares(total: Grams, shares: &[(Substance, MassFraction)]) -> Result<Self, HeatError> {
        let contents = Self::new(shares.iter().map(|&(substance, share)| (substance, total * share)))?;
        let sum: f64 = shares.iter().map(|(_, share)| share.0).sum();
        if (sum - 1.0).abs() > ROUNDING_OF_SHARES { Err(HeatError::NotWhole { sum }) } else { Ok(contents) }
    }

    /// The parts of a mass, its sugar in this state.
    ///
    /// Lactose and higher saccharides always count as dissolved: dry they have no order. What the data sheets leave
    /// open counts as carbohydrate, which lies in the middle of the dry substances; a hundredth of it changes no result
    /// by more than half a hundredth.
    ///
    /// # Errors
    ///
    /// [`HeatError::Unknown`] names the first part that is not known; otherwise as [`Contents::new`].
    pub fn from_parts(parts: &Parts, sugar: SugarState) -> Result<Self, HeatError> {
        let mut amounts = Vec::with_capacity(Component::COUNT + 1);
        for component in Component::ALL {
            let grams = parts.grams(component).ok_or(HeatError::Unknown { component })?;
            amounts.push((Self::substance(component, sugar), grams.max(Grams::ZERO)));
        }
        let unassigned = parts.unassigned().unwrap_or_default().max(Grams::ZERO);
        amounts.push((Substance::Carbohydrate, unassigned));
        Self::new(amounts)
    }

    fn substance(component: Component, sugar: SugarState) -> Substance {
        match component {
            Component::Water => Substance::Water,
            Component::CocoaButter => Substance::CocoaButter,
            Component::MilkFat => Substance::MilkFat,
            Component::OtherFat => Substance::OtherFat,
            Component::Sucrose | Component::Glucose | Component::Fructose | Component::Maltose | Component::Polyols => {
                match sugar {
                    SugarState::Dissolved => Substance::DissolvedSugar,
                    SugarState::Crystalline => Substance::CrystallineSugar,
                }
            }
            Component::Lactose | Component::HigherSaccharides => Substance::DissolvedSugar,
            Component::FatFreeCocoaSolids => Substance::FatFreeCocoa,
            Component::MilkProtein | Component::OtherProtein => Substance::Protein,
            Component::MilkMinerals | Component::Salt | Component::AcidsAshOther => Substance::Ash,
            Component::Starch => Substance::Carbohydrate,
            Component::Fibre => Substance::Fibre,
            Component::Ethanol => Substance::Ethanol,
        }
    }

    /// The whole mass.
    #[must_use]
    pub fn total(&self) -> Grams {
        Grams(self.grams.iter().sum())
    }

    /// How much there is of a substance.
    #[must_use]
    pub fn grams(&self, substance: Substance) -> Grams {
        Grams(self.grams[substance as usize])
    }

    /// What surrounds everything else, as a rule: the fat where water is below 2 %, otherwise the water.
    #[must_use]
    pub fn usual_continuous_phase(&self) -> ContinuousPhase {
        let water = (self.grams(Substance::Water) + self.grams(Substance::Ethanol)) / self.total();
        if crate::analysis::is_below(water.0, LEAST_WATER_FOR_DISSOLVED_SUGAR.0) {
            ContinuousPhase::Fat
        } else {
            ContinuousPhase::Water
        }
    }

    /// The specific heat, without melting.
    ///
    /// c = Σ x·c(T)   [J/(g·K), the same number as kJ/(kg·K)]
    ///
    /// x shares by mass; c of each substance A + B·T + C·T², T in °C.
    /// Source: `choi-okos-1986`, `bubnik-1995`, `mohos-2010`.
    /// Valid from 0 to about 110 °C, ±3–5 %; outside the formulas go on.
    ///
    /// Worked example: lamb of `ashrae-2006` at 5 °C has 3.59 kJ/(kg·K).
    ///
    /// ```
    /// use nibwright::analysis::heat::{Contents, Substance};
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let lamb = Contents::new([
    ///     (Substance::Water, Grams(73.42)),
    ///     (Substance::Protein, Grams(20.29)),
    ///     (Substance::MilkFat, Grams(5.25)),
    ///     (Substance::Ash, Grams(1.06)),
    /// ])?;
    /// assert!((lamb.specific_heat(Celsius(5.0)).0 - 3.59).abs() < 0.005);
    /// # Ok::<(), nibwright::analysis::heat::HeatError>(())
    /// ```
    #[must_use]
    pub fn specific_heat(&self, at: Celsius) -> JoulesPerGramKelvin {
        let sum: f64 = Substance::ALL.into_iter().map(|s| self.grams(s).0 * s.specific_heat(at).0).sum();
        JoulesPerGramKelvin(sum / self.total().0)
    }

    /// The density without air, all fat liquid.
    ///
    /// 1/ρ = Σ x/ρ(T), with x shares by mass and ρ the densities of the substances. Source: `choi-okos-1986`.
    /// Valid from 0 to about 110 °C, ±2 %; outside the formulas go on.
    #[must_use]
    pub fn density(&self, at: Celsius) -> GramsPerMillilitre {
        let volume: f64 = Substance::ALL.into_iter().map(|s| (self.grams(s) / s.density(at)).0).sum();
        GramsPerMillilitre(self.total().0 / volume)
    }

    /// What share of the volume a substance fills.
    #[must_use]
    pub fn volume_share(&self, substance: Substance, at: Celsius) -> VolumeFraction {
        let volume = self.total() / self.density(at);
        (self.grams(substance) / substance.density(at)) / volume
    }

    /// The upper bound of the conductivity: all substances side by side, k = Σ v·k with v shares by volume.
    #[must_use]
    pub fn conductivity_in_parallel(&self, at: Celsius) -> WattsPerMetreKelvin {
        let sum = Substance::ALL.into_iter().map(|s| self.volume_share(s, at).0 * s.conductivity(at).0).sum();
        WattsPerMetreKelvin(sum)
    }

    /// The lower bound of the conductivity: all substances one behind the other, 1/k = Σ v/k with v shares by volume.
    #[must_use]
    pub fn conductivity_in_series(&self, at: Celsius) -> WattsPerMetreKelvin {
        let sum: f64 = Substance::ALL.into_iter().map(|s| self.volume_share(s, at).0 / s.conductivity(at).0).sum();
        WattsPerMetreKelvin(1.0 / sum)
    }

    /// The conductivity of a mass in which one phase surrounds the other.
    ///
    /// k = kc·(2·kc + kd − 2·v·(kc − kd)) / (2·kc + kd + v·(kc − kd))   [W/(m·K)]
    ///
    /// kc and kd: conductivity of the continuous and of the dispersed phase, the substances of each side by side; v: share of
    /// the dispersed phase by volume. Source: the equation of Maxwell and Eucken with the figures of `choi-okos-1986`.
    /// Valid from 0 to about 110 °C, ±10 %; a mass of one phase alone has that phase's conductivity.
    #[must_use]
    pub fn conductivity(&self, continuous: ContinuousPhase, at: Celsius) -> WattsPerMetreKelvin {
        let (mut outer, mut outer_heat, mut inner, mut inner_heat) = (0.0, 0.0, 0.0, 0.0);
        for substance in Substance::ALL {
            let share = self.volume_share(substance, at).0;
            let heat = share * substance.conductivity(at).0;
            if continuous.contains(substance) {
                outer += share;
                outer_heat += heat;
            } else {
                inner += share;
                inner_heat += heat;
            }
        }
        if outer <= 0.0 || inner <= 0.0 {
            return WattsPerMetreKelvin(outer_heat + inner_heat);
        }
        let (kc, kd) = (outer_heat / outer, inner_heat / inner);
        let k = kc * (2.0 * kc + kd - 2.0 * inner * (kc - kd)) / (2.0 * kc + kd + inner * (kc - kd));
        WattsPerMetreKelvin(k)
    }

    /// How fast differences of temperature even out: conductivity over density and specific heat.
    ///
    /// The fit of `choi-okos-1986` for the diffusivity itself is not used: it differs from its own three others by up to 5 %.
    #[must_use]
    pub fn diffusivity(&self, continuous: ContinuousPhase, at: Celsius) -> SquareMetresPerSecond {
        let density = self.density(at).0 * KILOGRAMS_PER_CUBIC_METRE;
        let specific_heat = self.specific_heat(at).0 * GRAMS_PER_KILOGRAM;
        SquareMetresPerSecond(self.conductivity(continuous, at).0 / (density * specific_heat))
    }
}

impl ContinuousPhase {
    fn contains(self, substance: Substance) -> bool {
        use Substance::{Ash, CocoaButter, DissolvedSugar, Ethanol, MilkFat, OtherFat, Protein, Water};
        match self {
            Self::Fat => matches!(substance, CocoaButter | MilkFat | OtherFat),
            Self::Water => matches!(substance, Water | Ethanol | DissolvedSugar | Protein | Ash),
        }
    }
}
