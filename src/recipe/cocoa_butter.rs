//! Which cocoa butter a recipe assumes: its origin moves the solid fat more than any formula does.

use thiserror::Error;

use crate::number::as_given;

/// The cocoa butter of a recipe.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum CocoaButter {
    /// West African type: what most couverture is made of.
    #[default]
    WestAfrican,
    /// Soft, Brazilian type.
    Soft,
    /// Hard, South-East Asian type.
    Hard,
    /// The user's own analysis.
    Own(OwnCocoaButter),
}

/// An analysis of a cocoa butter that can be computed with.
///
/// Made by [`Triglycerides::checked`] alone: every figure is finite and not negative, the triglycerides are more than
/// zero and can be added up, something stays liquid, diglycerides and free fatty acids together are less than 100 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnCocoaButter(Triglycerides);

/// The figures of an analysis as they are given: triglycerides in any common unit, minor lipids in wt% of the fat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Triglycerides {
    /// 1,3-dipalmitoyl-2-oleoyl-glycerol.
    pub pop: f64,
    /// 1-palmitoyl-2-oleoyl-3-stearoyl-glycerol.
    pub pos: f64,
    /// 1,3-distearoyl-2-oleoyl-glycerol.
    pub sos: f64,
    /// 1-stearoyl-2-oleoyl-3-arachidoyl-glycerol.
    pub soa: f64,
    /// Triglycerides of three saturated acids.
    pub trisaturated: f64,
    /// Every other triglyceride: it stays liquid.
    pub other: f64,
    /// Diglycerides, wt% of the fat.
    pub diglycerides_percent: f64,
    /// Free fatty acids, wt% of the fat.
    pub free_fatty_acids_percent: f64,
}

/// Why an analysis is refused.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum TriglyceridesError {
    /// A figure is no amount.
    #[error("{name} is {}; it must be a number that is not negative", as_given(*value))]
    Figure {
        /// Which.
        name: &'static str,
        /// Its value.
        value: f64,
    },
    /// No triglycerides.
    #[error("the triglycerides sum to zero; enter the figures of the analysis")]
    Empty,
    /// Their sum is no number any more.
    #[error("the triglycerides are too large to be added up; enter them in a common unit such as wt%")]
    TooLarge,
    /// Minor lipids fill the fat.
    #[error("diglycerides and free fatty acids sum to {} %; together they must be below 100 %", as_given(*sum))]
    MinorLipids {
        /// Their sum.
        sum: f64,
    },
    /// Nothing stays liquid.
    #[error(
        "nothing of this cocoa butter stays liquid; the model needs `other`, diglycerides or free fatty acids above 0"
    )]
    NoLiquid,
}

impl CocoaButter {
    /// The types that need no figures, in the order of the menu.
    pub const NAMED: [Self; 3] = [Self::WestAfrican, Self::Soft, Self::Hard];

    /// The words for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::WestAfrican => "West African",
            Self::Soft => "soft (Brazilian type)",
            Self::Hard => "hard (South-East Asian type)",
            Self::Own(_) => "own analysis",
        }
    }
}

impl OwnCocoaButter {
    /// Its figures.
    #[must_use]
    pub fn triglycerides(self) -> Triglycerides {
        self.0
    }
}

impl Triglycerides {
    /// Checks an analysis.
    ///
    /// # Errors
    ///
    /// [`TriglyceridesError`] when a figure is no amount or the figures are too large, or when the fat would have no
    /// triglycerides or no liquid.
    pub fn checked(self) -> Result<OwnCocoaButter, TriglyceridesError> {
        for (name, value) in [
            ("pop", self.pop),
            ("pos", self.pos),
            ("sos", self.sos),
            ("soa", self.soa),
            ("trisaturated", self.trisaturated),
            ("other", self.other),
            ("diglycerides_percent", self.diglycerides_percent),
            ("free_fatty_acids_percent", self.free_fatty_acids_percent),
        ] {
            if !value.is_finite() || value < 0.0 {
                return Err(TriglyceridesError::Figure { name, value });
            }
        }
        let sum = self.sum();
        if !sum.is_finite() {
            return Err(TriglyceridesError::TooLarge);
        }
        if sum <= 0.0 {
            return Err(TriglyceridesError::Empty);
        }
        let minor = self.diglycerides_percent + self.free_fatty_acids_percent;
        if minor >= 100.0 {
            return Err(TriglyceridesError::MinorLipids { sum: minor });
        }
        if minor + self.other <= 0.0 {
            return Err(TriglyceridesError::NoLiquid);
        }
        Ok(OwnCocoaButter(self))
    }

    /// The sum of the triglycerides, in the unit of the analysis.
    #[must_use]
    pub fn sum(self) -> f64 {
        self.pop + self.pos + self.sos + self.soa + self.trisaturated + self.other
    }
}
