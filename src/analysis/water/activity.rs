//! Equations for the water activity of a solution.
//!
//! The result of this program is that of [`norrish`]; the others stand beside it because classes use them.

use super::solute::{Solute, Solution, Sums, WATER_MOLAR_MASS};
use crate::units::{Grams, WaterActivity};

/// Above this mole fraction of solutes the Norrish equation is outside its range.
pub const MOST_SOLUTES: f64 = 0.35;

/// Above this water activity Grover's equation is not to be used: it gives 1.04 for pure water.
pub const GROVER_UP_TO: WaterActivity = WaterActivity(0.93);

/// Water activity of a solution by the Norrish equation for mixtures.
///
/// ln a = ln Xw − Km·Xs², Km = Σ yᵢ·Kᵢ; Xs, Xw: mole fractions of solutes and water, yᵢ that of a solute among the
/// solutes
///
/// Source: `norrish-1966`, mixtures by Chirife, Favetto and Ferro Fontan (`chirife-1982`), from memory; natural
/// logarithms. Range Xs ≤ 0.20, a ≥ 0.70, 0–40 °C; there within 0.005 of the reference data above 0.80. 1 for pure
/// water, 0 without water.
///
/// Sucrose 60 g in 40 g of water:
///
/// ```
/// # use nibwright::analysis::water::{activity::norrish, solute::{Solute, Solution}};
/// # use nibwright::units::Grams;
/// let syrup = Solution::default().with(Solute::Sucrose, Grams(60.0));
/// assert!((norrish(Grams(40.0), syrup.sums()).0 - 0.8953).abs() < 0.00005);
/// ```
#[must_use]
pub fn norrish(water: Grams, solutes: Sums) -> WaterActivity {
    let moles = (water / WATER_MOLAR_MASS).0;
    let all = moles + solutes.moles;
    if moles <= 0.0 {
        return WaterActivity::ZERO;
    }
    // Km·Xs² = (Σ n·K/n)·(n/all)² = Σ n·K·n/all²
    WaterActivity(moles / all * (-solutes.norrish * solutes.moles / (all * all)).exp())
}

/// One of the equations for water activity that stand side by side in the teaching detail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Equation {
    /// The one that this program uses.
    Norrish,
    /// The ideal solution: the mole fraction of water.
    Raoult,
    /// Money and Born 1951, for sugar syrups and jams.
    MoneyBorn,
    /// Grover 1947, for confectionery.
    Grover,
    /// Ross 1975: the product over the solutes, each alone in all the water.
    Ross,
}

impl Equation {
    /// All equations, the recommended one first.
    pub const ALL: [Self; 5] = [Self::Norrish, Self::Raoult, Self::MoneyBorn, Self::Grover, Self::Ross];

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Norrish => "Norrish, mixture",
            Self::Raoult => "Raoult",
            Self::MoneyBorn => "Money and Born",
            Self::Grover => "Grover",
            Self::Ross => "Ross",
        }
    }

    /// The equation in words.
    #[must_use]
    pub fn formula(self) -> &'static str {
        match self {
            Self::Norrish => "ln aw = ln Xw − Km · Xs², Km the mean of the solutes' constants by moles",
            Self::Raoult => "aw = Xw, moles of water over all moles",
            Self::MoneyBorn => "aw = 1 ÷ (1 + 0.27 n), n moles of solutes per 100 g of water",
            Self::Grover => "aw = 1.04 − 0.10 E + 0.0045 E², E grams of each solute per gram of water times its factor",
            Self::Ross => "aw = product of the water activities that each solute alone gives in all the water",
        }
    }

    /// The water activity of a solution; `None` where the equation has no constants for what is dissolved or is
    /// outside its range.
    ///
    /// Sources: `norrish-1966`, `money-born-1951`, `grover-1947`, `ross-1975`, all from memory.
    #[must_use]
    pub fn of(self, water: Grams, solution: &Solution) -> Option<WaterActivity> {
        let moles = (water / WATER_MOLAR_MASS).0;
        let solutes = solution.sums().moles;
        match self {
            Self::Norrish => Some(norrish(water, solution.sums())),
            Self::Raoult => Some(WaterActivity(moles / (moles + solutes))),
            Self::MoneyBorn => Some(WaterActivity(1.0 / (1.0 + 0.27 * solutes * 100.0 / water.0))),
            Self::Grover => grover(water, solution),
            Self::Ross => Some(WaterActivity(
                Solute::ALL
                    .into_iter()
                    .map(|solute| {
                        let alone = Sums {
                            moles: solution.moles(solute).0,
                            norrish: solute.norrish_moles(solution.grams(solute)),
                        };
                        norrish(water, alone).0
                    })
                    .product(),
            )),
        }
    }
}

/// a = 1.04 − 0.10·E + 0.0045·E², E = Σ f·g per gram of water.
fn grover(water: Grams, solution: &Solution) -> Option<WaterActivity> {
    /// Where the parabola turns: beyond, more sugar would raise it.
    const TURNS_AT: f64 = 0.10 / (2.0 * 0.0045);
    let mut sum = 0.0;
    for solute in Solute::ALL {
        let grams = solution.grams(solute);
        if grams.0 > 0.0 {
            sum += grams.0 * solute.grover_factor()?;
        }
    }
    let equivalent = sum / water.0;
    (equivalent <= TURNS_AT).then_some(WaterActivity(1.04 - 0.10 * equivalent + 0.0045 * equivalent * equivalent))
}
