//! Oil between a filling and its shell: how much of either fat is liquid in the store, and how long oil takes through the
//! shell.
//!
//! An indicator, no prediction of bloom: real uptake does not follow Fick's law (shells swell, pores carry oil too), and
//! what it does to gloss depends on how well the shell was tempered.

use super::Analysis;
use super::fat::{FatGrams, FatPhase, Form};
use super::fat_crystals::{FatCrystals, fat_grams};
use super::parts::Parts;
use crate::recipe::{CocoaButter, Recipe, Shell};
use crate::units::{Celsius, Grams, Kelvin, MassFraction, Metres, SquareMetresPerSecond};

/// How quickly oil moves in chocolate at [`DIFFUSION_AT`]: the middle of 1e-13 to 1e-11 m²/s (from memory).
const DIFFUSION: SquareMetresPerSecond = SquareMetresPerSecond(1e-12);

/// The middle of the temperatures for which [`DIFFUSION`] is told, 18 to 25 °C.
const DIFFUSION_AT: Celsius = Celsius(21.5);

/// It moves three times as quickly for each of these (from memory).
const THREEFOLD_PER: Kelvin = Kelvin(5.0);

/// Either way: what is told of the diffusion spans two powers of ten.
pub const BAND: f64 = 10.0;

/// Of the way to equilibrium through one face of a slab: M/M_∞ = 1/2 at D·t/ℓ² of this.
const HALF_WAY: f64 = 0.197;

/// So much oil a shell has taken up in what is told of its softening, of its fat afterwards.
pub const TAKEN_UP: MassFraction = MassFraction(0.05);

/// By so much more of the fat is liquid in a filling than in its shell that oil is worth a word (judged, no published
/// source).
pub const WORTH_A_WORD: MassFraction = MassFraction(0.20);

/// A filling and its shell in the store.
#[derive(Clone, Debug, PartialEq)]
pub struct Migration {
    /// The temperature of the store.
    pub at: Celsius,
    /// The liquid share of the filling's fat.
    pub liquid_in_filling: MassFraction,
    /// The liquid share of the shell's fat.
    pub liquid_in_shell: MassFraction,
    /// The solid share of the shell's fat after it has taken up [`TAKEN_UP`] of oil.
    pub solid_after_oil: MassFraction,
    /// Days until half of the oil that can come has come through the shell: likely, least, most.
    pub half_way_days: [f64; 3],
}

impl Migration {
    /// By how much more of the fat is liquid in the filling than in the shell; below zero where it is less.
    #[must_use]
    pub fn difference(&self) -> MassFraction {
        self.liquid_in_filling - self.liquid_in_shell
    }

    /// By how much the shell softens when it has taken up [`TAKEN_UP`] of oil, as a share of its fat.
    #[must_use]
    pub fn softening(&self) -> MassFraction {
        MassFraction(1.0 - self.liquid_in_shell.0 - self.solid_after_oil.0)
    }
}

/// A filling and its shell at a temperature; `None` where a fat of the shell is not known or it has none.
///
/// Liquid shares by the equilibrium of the mixed fats, filling and shell each for itself, the shell of the recipe's cocoa
/// butter. Time: see [`half_way_days`].
#[must_use]
pub fn migration(filling: &FatCrystals, shell: &Shell, cocoa_butter: CocoaButter, at: Celsius) -> Option<Migration> {
    /// Any amount: shares count.
    const PIECE: Grams = Grams(100.0);
    let mut parts = Parts::default();
    parts.add(&shell.chocolate, PIECE);
    let fats = fat_grams(&parts)?;
    let oil = fats.total() * (TAKEN_UP.0 / (1.0 - TAKEN_UP.0));
    let oiled = FatGrams { liquid_oil: fats.liquid_oil + oil, ..fats };
    let solid = |fats: &FatGrams| Some(FatPhase::new(fats, cocoa_butter).ok()?.solid_fat(at).total());
    let liquid = |solid: MassFraction| MassFraction(1.0 - solid.0);
    Some(Migration {
        at,
        liquid_in_filling: liquid(filling.blended.solid_fat(at).total()),
        liquid_in_shell: liquid(solid(&fats)?),
        solid_after_oil: solid(&oiled)?,
        half_way_days: half_way_days(shell.thickness.metres(), at),
    })
}

/// The filling of a recipe in its shell, at the temperature of the store; `None` without a shell, and where a fat is not
/// known.
#[must_use]
pub fn migration_of(recipe: &Recipe, analysis: &Analysis) -> Option<Migration> {
    let shell = recipe.storage.shell.as_ref()?;
    migration(analysis.fat.as_ref().ok()?, shell, recipe.cocoa_butter, recipe.storage.at.celsius())
}

/// The form V limit of a shell; `None` where its fat is not known or has none.
#[must_use]
pub fn limit_of_shell(shell: &Shell, cocoa_butter: CocoaButter) -> Option<Celsius> {
    /// Any amount: shares count.
    const PIECE: Grams = Grams(100.0);
    let mut parts = Parts::default();
    parts.add(&shell.chocolate, PIECE);
    FatPhase::new(&fat_grams(&parts)?, cocoa_butter).ok()?.melting_limit(Form::V)
}

/// Days until half of the oil that can come has come through a shell: likely, least, most.
///
/// t = 0.197·ℓ²/D, D = 1e-12 m²/s · 3^((T − 21.5 °C)/5 K), ten times more or less
///
/// ℓ thickness \[m\], D diffusion of oil in chocolate. Source: Fick's law for one face; D from memory (1e-13 to 1e-11 at 18 to
/// 25 °C, about threefold per 5 K). An order of magnitude.
///
/// 2 mm take 9.1 days with 1e-12 m²/s:
///
/// ```
/// # use nibwright::{analysis::migration::half_way_days, units::{Celsius, Metres}};
/// let [likely, least, most] = half_way_days(Metres(0.002), Celsius(21.5));
/// assert!((likely - 9.1).abs() < 0.05 && (least - 0.91).abs() < 0.005 && (most - 91.0).abs() < 0.5);
/// ```
#[must_use]
pub fn half_way_days(thickness: Metres, at: Celsius) -> [f64; 3] {
    const SECONDS_IN_DAY: f64 = 86_400.0;
    let diffusion = DIFFUSION.0 * 3.0_f64.powf((at - DIFFUSION_AT).0 / THREEFOLD_PER.0);
    let likely = HALF_WAY * thickness.0.powi(2) / diffusion / SECONDS_IN_DAY;
    [likely, likely / BAND, likely * BAND]
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::analysis::{ROOM, analyse};
    use crate::ingredient::Library;
    use crate::recipe::{Kind, Quantity, Size};

    fn praline() -> Recipe {
        let mut recipe = Recipe { kind: Kind::Praline, ..Recipe::default() };
        for (id, grams) in [("hazelnut-paste", 500.0), ("couverture-milk-36", 300.0), ("cocoa-butter", 40.0)] {
            let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}"));
            recipe.push(ingredient.clone(), Quantity::from_grams(grams).expect("an amount"));
        }
        recipe
    }

    fn shell(id: &str) -> Shell {
        let chocolate = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}")).clone();
        Shell { chocolate, thickness: Size::from_millimetres(2.0).expect("a length") }
    }

    fn of(recipe: &Recipe, shell: &Shell, at: f64) -> Migration {
        let fat = analyse(recipe, ROOM).fat.expect("there is fat");
        migration(&fat, shell, recipe.cocoa_butter, Celsius(at)).expect("there is fat")
    }

    /// Derived from usual recipes with this model: a shell of plain chocolate is 77 % solid at 20 °C, a praline some 20 %.
    #[test]
    fn a_praline_is_far_more_liquid_than_its_shell() {
        let found = of(&praline(), &shell("couverture-dark-64"), 20.0);
        assert_abs_diff_eq!(found.liquid_in_shell.0, 0.24, epsilon = 0.03);
        assert!((0.65..0.90).contains(&found.liquid_in_filling.0), "{found:?}");
        assert!(found.difference().0 > 0.4);
    }

    /// To first order each hundredth of oil costs about one point of solid fat at 20 °C (worked with this model).
    #[test]
    fn a_twentieth_of_oil_softens_a_shell_by_about_five_points() {
        let found = of(&praline(), &shell("couverture-dark-64"), 20.0);
        assert_abs_diff_eq!(found.softening().0, 0.05, epsilon = 0.015);
    }

    #[test]
    fn a_colder_store_and_a_thicker_shell_slow_it() {
        let days = |millimetres: f64, at| half_way_days(Metres(millimetres / 1000.0), Celsius(at))[0];
        assert_abs_diff_eq!(days(2.0, 16.5) / days(2.0, 21.5), 3.0, epsilon = 1e-9);
        assert_abs_diff_eq!(days(4.0, 18.0) / days(2.0, 18.0), 4.0, epsilon = 1e-9);
        let liquid = |at| of(&praline(), &shell("couverture-dark-64"), at).liquid_in_shell;
        assert!(liquid(16.0) < liquid(20.0) && liquid(20.0) < liquid(24.0));
    }

    #[test]
    fn a_shell_without_fat_or_of_unknown_make_has_no_answer() {
        let fat = analyse(&praline(), ROOM).fat.expect("there is fat");
        let none = |shell: &Shell| migration(&fat, shell, CocoaButter::default(), Celsius(18.0));
        assert_eq!(none(&shell("sucrose")), None);
        let unknown = crate::ingredient::Ingredient::unknown("own", "Own chocolate");
        assert_eq!(none(&Shell { chocolate: std::sync::Arc::new(unknown), ..shell("sucrose") }), None);
    }
}
