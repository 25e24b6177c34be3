//! The mixed fats of a mass, and the questions they answer.

use thiserror::Error;

use super::components::{COCONUT, FatComponent, FatGrams, LIQUID_OIL, MILK_FAT, PALM, PALM_KERNEL, cocoa_butter_parts};
use super::flash::Mixture;
use crate::recipe::CocoaButter;
use crate::units::{Celsius, Kelvin, MassFraction};

/// All fats of a mass, mixed.
///
/// It knows shares only: scaling all amounts changes nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct FatPhase {
    mixture: Mixture,
    cocoa_butter_share: MassFraction,
}

/// Why there is nothing to compute.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum FatPhaseError {
    /// No fat, or no finite amount of it.
    #[error("there is no fat; add an ingredient that contains fat")]
    NoFat,
    /// Everything can crystallise: the model has no liquid to dissolve it in.
    #[error("nothing of this fat stays liquid; check the analysis of the cocoa butter")]
    NoLiquid,
}

/// A crystal form of cocoa butter, numbered upward with stability.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// What an untempered mass sets in.
    IV,
    /// What tempering and seeding are for.
    V,
    /// What form V turns into over months, and what long-held seed becomes.
    VI,
}

/// The solid part of the fat, as shares of all fat.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SolidFat {
    /// Form V crystals: the solid solution of the symmetric triglycerides of cocoa butter.
    pub form_v: MassFraction,
    /// Every other crystal: milk fat, coconut, palm kernel and palm fat, and the trisaturated traces of cocoa butter.
    pub other: MassFraction,
}

/// Least share of cocoa butter in the fat for which a melting limit is given.
///
/// Set by judgement: with mere traces of cocoa butter the limit means nothing and runs out of any range.
pub const LEAST_COCOA_BUTTER_FOR_LIMITS: MassFraction = MassFraction(0.1);

/// What a share may lack because it was computed from sums of doubles.
const ROUNDING_OF_SHARES: MassFraction = MassFraction(1e-12);

impl FatPhase {
    /// Mixes the fats, with the type of cocoa butter that is assumed.
    ///
    /// n = Σ (mass of the fat · share of the component in it) / M, for each component; then n is divided by Σ n
    ///
    /// n moles, M molar mass in g/mol; the components and their shares are described in this module's `components`.
    /// A negative amount counts as none: the difference of two sums can end a hair below zero.
    ///
    /// # Errors
    ///
    /// [`FatPhaseError`] when there is no finite amount of fat, when nothing of it stays liquid (less than 1e-12 mol/mol
    /// counts as nothing), or when an own analysis of cocoa butter does not keep its invariant.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::Grams;
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(60.0), milk_fat: Grams(20.0), ..FatGrams::default() };
    /// let fat = FatPhase::new(&grams, CocoaButter::WestAfrican)?;
    /// assert_eq!(fat.cocoa_butter_share().to_percent(), 75.0);
    /// # Ok::<(), nibwright::analysis::fat::FatPhaseError>(())
    /// ```
    pub fn new(grams: &FatGrams, cocoa_butter: CocoaButter) -> Result<Self, FatPhaseError> {
        let cocoa_butter_parts = cocoa_butter_parts(cocoa_butter);
        let fats = [
            (grams.cocoa_butter, cocoa_butter_parts.as_slice()),
            (grams.milk_fat, MILK_FAT),
            (grams.liquid_oil, LIQUID_OIL),
            (grams.coconut, COCONUT),
            (grams.palm_kernel, PALM_KERNEL),
            (grams.palm, PALM),
        ];
        let largest = fats.iter().fold(0.0_f64, |largest, (amount, _)| largest.max(amount.0));
        if largest <= 0.0 || !largest.is_finite() {
            return Err(FatPhaseError::NoFat);
        }
        // Relative to the largest: amounts of any size then stay within the range of a double.
        let amounts = fats.map(|(amount, _)| amount.0.max(0.0) / largest);
        let mut moles = [0.0; FatComponent::COUNT];
        for (amount, (_, parts)) in amounts.into_iter().zip(fats) {
            for (component, percent) in parts {
                moles[*component as usize] += amount * percent / component.molar_mass();
            }
        }
        let mixture = Mixture::new(&moles).ok_or(FatPhaseError::NoLiquid)?;
        let cocoa_butter_share = MassFraction(amounts[0] / amounts.iter().sum::<f64>());
        Ok(Self { mixture, cocoa_butter_share })
    }

    /// The share of the fat that is cocoa butter.
    #[must_use]
    pub fn cocoa_butter_share(&self) -> MassFraction {
        self.cocoa_butter_share
    }

    /// Whether there is cocoa butter enough for melting limits: [`LEAST_COCOA_BUTTER_FOR_LIMITS`].
    #[must_use]
    pub fn has_enough_for_limits(&self) -> bool {
        self.cocoa_butter_share + ROUNDING_OF_SHARES >= LEAST_COCOA_BUTTER_FOR_LIMITS
    }

    /// The solid fat of a well-tempered mass at a temperature, once nothing changes any more.
    ///
    /// solid share = Σ s·M / Σ n·M, with s the moles of each component in crystals
    ///
    /// n moles, M molar mass in g/mol. s follows from the mole fractions x: in the solid solution
    /// x(solid) = K·x(liquid) with K = exp[(ΔH/R)·(1/T − 1/Tm)]; beside pure crystals
    /// x(liquid) = exp[−(ΔH/R)·(1/T − 1/Tm)]. T temperature and Tm melting point in kelvin, ΔH heat of fusion in
    /// J/mol, R gas constant.
    ///
    /// Source: ideal equilibria of several solid phases, `wesdorp-1990` (quoted from memory); figures fitted to
    /// `shukla-1995` (quoted from memory), `wille-lutton-1966`, `perez-martinez-2007`.
    /// Valid from 15 to 35 °C with at least 30 % cocoa butter in the fat (uncertainty: see [`super`]).
    /// Outside it goes on with the same formulas; below −100 and above 200 °C it gives the value there. It cannot give
    /// NaN: the liquid never vanishes, and within these ends all exponentials are far from the limits of a double.
    ///
    /// Worked example: `shukla-1995` measured 76.0, 69.6 and 45.0 % at 20, 25 and 30 °C on a cocoa butter from Ghana;
    /// the model gives 77.1, 69.9 and 44.9 %.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
    /// let fat = FatPhase::new(&grams, CocoaButter::WestAfrican)?;
    /// for (celsius, measured_percent) in [(20.0, 76.0), (25.0, 69.6), (30.0, 45.0)] {
    ///     let solid = fat.solid_fat(Celsius(celsius)).total().to_percent();
    ///     assert!((solid - measured_percent).abs() < 1.2);
    /// }
    /// # Ok::<(), nibwright::analysis::fat::FatPhaseError>(())
    /// ```
    #[must_use]
    pub fn solid_fat(&self, at: Celsius) -> SolidFat {
        let equilibrium = self.mixture.at(at, Form::V.shift());
        let solid = equilibrium.solid(equilibrium.ratio());
        SolidFat { form_v: solid.solid_solution, other: solid.pure }
    }

    /// The solid fat at each of these temperatures.
    ///
    /// [`FatPhase::solid_fat`] of each: a point does not depend on its neighbours. Starting from the neighbour's result
    /// would save a twentieth of the time.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(80.0), liquid_oil: Grams(20.0), ..FatGrams::default() };
    /// let fat = FatPhase::new(&grams, CocoaButter::WestAfrican)?;
    /// let curve = fat.solid_fat_curve((15..=35).map(f64::from).map(Celsius));
    /// assert_eq!(curve.len(), 21);
    /// assert!(curve.windows(2).all(|pair| pair[0].total() >= pair[1].total()));
    /// # Ok::<(), nibwright::analysis::fat::FatPhaseError>(())
    /// ```
    #[must_use]
    pub fn solid_fat_curve(&self, temperatures: impl IntoIterator<Item = Celsius>) -> Vec<SolidFat> {
        temperatures.into_iter().map(|at| self.solid_fat(at)).collect()
    }

    /// All solid fat, if the solid solution crystallises in this form.
    ///
    /// The formulas of [`FatPhase::solid_fat`] with the melting points of the solid solution shifted to the form
    /// ([`Form::shift`]); heats are left unchanged. In form IV it is a rough estimate (of about ±1 K) of an untempered
    /// mass, for which no table of measured values is at hand.
    /// Valid range and behaviour outside as there.
    ///
    /// Worked example: cocoa butter at 25 °C has 69.9 % of solid fat tempered, and about 33.5 % untempered.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase, Form};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
    /// let fat = FatPhase::new(&grams, CocoaButter::WestAfrican)?;
    /// let untempered = fat.solid_fat_in_form(Celsius(25.0), Form::IV).to_percent();
    /// assert!((untempered - 33.5).abs() < 0.05);
    /// # Ok::<(), nibwright::analysis::fat::FatPhaseError>(())
    /// ```
    #[must_use]
    pub fn solid_fat_in_form(&self, at: Celsius, form: Form) -> MassFraction {
        let equilibrium = self.mixture.at(at, form.shift());
        let solid = equilibrium.solid(equilibrium.ratio());
        solid.solid_solution + solid.pure
    }

    /// The temperature above which crystals of this form cannot live in this fat: they dissolve, sooner or later.
    ///
    /// Σ K·n = L, with K of the shifted melting points and L the liquid when there is no solid solution
    ///
    /// K and n as for [`FatPhase::solid_fat`]; the limit of form V is the clear point of the seed.
    /// Source: `wille-lutton-1966` for the shift, otherwise as there.
    /// `None` below 10 % cocoa butter in the fat, and where there is no such temperature between −10 and 60 °C: an own
    /// analysis of cocoa butter can have too little of POP, POS, SOS and SOA.
    /// Valid for at least 30 % cocoa butter in the fat: ±0.5 K for cocoa butter of known type, ±1 K for blends.
    ///
    /// Worked example: `wille-lutton-1966` found 27.5, 33.8 and 36.3 °C for forms IV, V and VI of cocoa butter; the model
    /// gives 27.6, 33.8 and 36.2 °C.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase, Form};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
    /// let fat = FatPhase::new(&grams, CocoaButter::WestAfrican)?;
    /// for (form, measured) in [(Form::IV, 27.5), (Form::V, 33.8), (Form::VI, 36.3)] {
    ///     let limit = fat.melting_limit(form).ok_or("pure cocoa butter has all limits")?;
    ///     assert!((limit.0 - measured).abs() < 0.2);
    /// }
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn melting_limit(&self, form: Form) -> Option<Celsius> {
        self.has_enough_for_limits().then(|| self.mixture.melting_limit(form.shift(), form.melting_point())).flatten()
    }
}

impl Form {
    /// All of them, the least stable first.
    pub const ALL: [Self; 3] = [Self::IV, Self::V, Self::VI];

    /// The melting point of cocoa butter in this form.
    ///
    /// Source: `wille-lutton-1966`, as quoted in an encyclopaedia. Authors differ by several kelvin for the lower forms.
    #[must_use]
    pub fn melting_point(self) -> Celsius {
        match self {
            Self::IV => Celsius(27.5),
            Self::V => Celsius(33.8),
            Self::VI => Celsius(36.3),
        }
    }

    /// How much higher this form melts than form V: −6.3, 0 and +2.5 K.
    #[must_use]
    pub fn shift(self) -> Kelvin {
        self.melting_point() - Self::V.melting_point()
    }
}

impl SolidFat {
    /// All crystals.
    #[must_use]
    pub fn total(self) -> MassFraction {
        self.form_v + self.other
    }
}
