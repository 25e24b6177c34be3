//! How much of each fat can be solid at a temperature.

use super::enthalpy::Fat;
use crate::analysis::fat::FatPhase;
use crate::units::{Celsius, MassFraction};

/// The solid share of each fat at equilibrium, in the blend that the fats form.
///
/// It falls with rising temperature, or stays; it may fall in a step.
pub trait SolidFatCurve {
    /// The share of this fat that can be solid, from 0 to 1.
    fn solid(&self, fat: Fat, at: Celsius) -> MassFraction;

    /// The same of each fat, in the order of [`Fat::ALL`].
    fn solids(&self, at: Celsius) -> [MassFraction; Fat::COUNT] {
        Fat::ALL.map(|fat| self.solid(fat, at))
    }
}

impl<F: Fn(Fat, Celsius) -> MassFraction> SolidFatCurve for F {
    fn solid(&self, fat: Fat, at: Celsius) -> MassFraction {
        self(fat, at)
    }
}

/// The curve of the program: all fats of the mass mixed ([`FatPhase`]).
///
/// Form V is cocoa butter. All other crystals are given to the other fats, as far as these reach, and the rest to the
/// cocoa butter: [`FatPhase`] does not say from which fat they come. The sum over all fats is that of the fat phase.
/// A mass without any fat has no crystals.
#[derive(Clone, Debug, PartialEq)]
pub struct BlendCurve {
    phase: Option<FatPhase>,
}

impl BlendCurve {
    /// The curve of this blend; `None` for a mass without fat.
    ///
    /// ```
    /// use nibwright::analysis::fat::{FatGrams, FatPhase};
    /// use nibwright::analysis::heat::{BlendCurve, Fat, SolidFatCurve};
    /// use nibwright::recipe::CocoaButter;
    /// use nibwright::units::{Celsius, Grams};
    ///
    /// let grams = FatGrams { cocoa_butter: Grams(50.0), milk_fat: Grams(50.0), ..FatGrams::default() };
    /// let curve = BlendCurve::new(Some(FatPhase::new(&grams, CocoaButter::WestAfrican)?));
    /// let cold = curve.solid(Fat::CocoaButter, Celsius(18.0));
    /// assert!(cold > curve.solid(Fat::CocoaButter, Celsius(28.0)));
    /// # Ok::<(), nibwright::analysis::fat::FatPhaseError>(())
    /// ```
    #[must_use]
    pub fn new(phase: Option<FatPhase>) -> Self {
        Self { phase }
    }
}

impl SolidFatCurve for BlendCurve {
    fn solid(&self, fat: Fat, at: Celsius) -> MassFraction {
        self.solids(at)[fat as usize]
    }

    fn solids(&self, at: Celsius) -> [MassFraction; Fat::COUNT] {
        let Some(phase) = &self.phase else { return [MassFraction::ZERO; Fat::COUNT] };
        let solid = phase.solid_fat(at);
        let cocoa_butter = phase.cocoa_butter_share().0;
        let others = (1.0 - cocoa_butter).max(0.0);
        let in_others = solid.other.0.min(others);
        Fat::ALL.map(|fat| {
            let share = match fat {
                Fat::CocoaButter if cocoa_butter > 0.0 => (solid.form_v.0 + solid.other.0 - in_others) / cocoa_butter,
                Fat::MilkFat | Fat::OtherFat if others > 0.0 => in_others / others,
                Fat::CocoaButter | Fat::MilkFat | Fat::OtherFat => 0.0,
            };
            MassFraction(share.clamp(0.0, 1.0))
        })
    }
}
