//! What becomes of seed that is put into a mass: whether its crystals live at a temperature, and what that does to the
//! temperature.

use super::fat::{FatGrams, FatPhase, Form};
use super::fat_crystals::Limits;
use super::root::{Tolerance, rising_root};
use super::seeding::Window;
use super::texture::fat_densities;
use super::{is_above, is_below};
use crate::recipe::CocoaButter;
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

/// Nearer to the form V limit than this the error of a thermometer decides (common practice, no published source).
pub const THERMOMETER_ERROR: Kelvin = Kelvin(0.3);

/// What melting takes, J for each gram of fat crystals: form V and VI (`beckett-2009` quotes 157; from memory).
pub const HEAT_OF_FUSION: f64 = 157.0;

/// What becomes of seed at a temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// Above form VI: all of it melts, old seed too.
    Melts,
    /// Above form V, below form VI: only seed that was kept warm for long survives, and nothing grows on it.
    OnlyAnnealed,
    /// Below the form V limit, but by no more than the error of a thermometer.
    Edge,
    /// It lives and grows.
    Lives,
    /// Below the window: it lives, but the mass thickens before it is even.
    Cold,
    /// Below form IV: crystals of the wrong form grow beside it.
    WrongForm,
}

/// What becomes of seed in a mass of these limits at a temperature; `None` where the form V limit is not known.
///
/// Source: melting limits of this mass's own fat; the window is common practice.
#[must_use]
pub fn fate(limits: &Limits, window: &Window, at: Celsius) -> Option<Fate> {
    let limit = limits.form_v?;
    let is_over = |limit: Option<Celsius>| limit.is_some_and(|limit| !is_below(at.0, limit.0));
    Some(if is_over(limits.form_vi) {
        Fate::Melts
    } else if !is_below(at.0, limit.0) {
        Fate::OnlyAnnealed
    } else if is_below((limit - at).0, THERMOMETER_ERROR.0) {
        Fate::Edge
    } else if !is_below(at.0, window.min.0) {
        Fate::Lives
    } else if limits.form_iv.is_some_and(|form_iv| !is_above(at.0, form_iv.0)) {
        Fate::WrongForm
    } else {
        Fate::Cold
    })
}

/// A part of a heat balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// How much.
    pub grams: Grams,
    /// Its specific heat, J/(g K).
    pub specific_heat: f64,
    /// Its temperature.
    pub at: Celsius,
}

/// The temperature of a mass with seed in it.
///
/// t₁ = (m_b·c_b·t_b + m_s·c_s·t_s + L·m_s·(σ₁ − σ₀))/(m_b·c_b + m_s·c_s); m, c, t of the bowl and of the seed, σ the solid share
/// of the seed before and after
///
/// Source: heat balance. 1000 g of chocolate at 33.0 °C with 10 g of grated cocoa butter at 20 °C, 77 % solid, come to
/// 32.84 °C while nothing melts and to 32.09 °C if all of it does:
///
/// ```
/// # use nibwright::{analysis::survival::{Part, with_seed}, units::{Celsius, Grams, MassFraction}};
/// let bowl = Part { grams: Grams(1000.0), specific_heat: 1.59, at: Celsius(33.0) };
/// let seed = Part { grams: Grams(10.0), specific_heat: 2.01, at: Celsius(20.0) };
/// let solid = MassFraction(0.77);
/// assert!((with_seed(bowl, seed, solid, solid).0 - 32.838).abs() < 5e-4);
/// assert!((with_seed(bowl, seed, solid, MassFraction(0.0)).0 - 32.087).abs() < 5e-4);
/// ```
#[must_use]
pub fn with_seed(bowl: Part, seed: Part, before: MassFraction, after: MassFraction) -> Celsius {
    let capacity = |part: Part| part.grams.0 * part.specific_heat;
    let heat = |part: Part| capacity(part) * part.at.0;
    let melting = HEAT_OF_FUSION * seed.grams.0 * (after.0 - before.0);
    Celsius((heat(bowl) + heat(seed) + melting) / (capacity(bowl) + capacity(seed)))
}

/// How far crystals are apart, m, in a fat with so many crystals of a size.
///
/// N = 6·v/(π·D³), d = N^(−1/3); v the volume of the crystals in that of the fat, D their diameter in m
///
/// Source: geometry of equal spheres. Sizes are hardly ever known (2 to 20 µm): an order of magnitude. `None` without
/// crystals. 0.5556 % of crystals of 5 µm at 30 °C are 23.4 µm apart:
///
/// ```
/// # use nibwright::{analysis::survival::crystal_distance, units::{Celsius, MassFraction}};
/// let apart = crystal_distance(MassFraction(1.0 / 180.0), 5e-6, Celsius(30.0)).unwrap();
/// assert!((apart - 23.4e-6).abs() < 0.05e-6);
/// ```
#[must_use]
pub fn crystal_distance(crystals: MassFraction, diameter: f64, at: Celsius) -> Option<f64> {
    let densities = fat_densities(at);
    let (solid, liquid) = (crystals.0 / densities.crystals.0, (1.0 - crystals.0) / densities.liquid.0);
    let share = solid / (solid + liquid);
    let number = 6.0 * share / (std::f64::consts::PI * diameter.powi(3));
    (crystals.0 > 0.0 && number.is_finite()).then(|| number.cbrt().recip())
}

/// At which temperature cocoa butter is a cream of a solid share in a form: between 5 and 45 °C.
///
/// Source: the fat model of this program. `None` where the share is not reached there.
#[must_use]
pub fn cream_at(cocoa_butter: CocoaButter, solid: MassFraction, form: Form) -> Option<Celsius> {
    const RANGE: (f64, f64) = (5.0, 45.0);
    const TOLERANCE: Tolerance = Tolerance { relative: 0.0, absolute: 1e-4 };
    let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
    let phase = FatPhase::new(&grams, cocoa_butter).ok()?;
    let missing = |celsius: f64| solid.0 - phase.solid_fat_in_form(Celsius(celsius), form).0;
    (missing(RANGE.0) < 0.0 && missing(RANGE.1) > 0.0)
        .then(|| Celsius(rising_root(RANGE, 33.0, TOLERANCE, |celsius| (missing(celsius), f64::NAN))))
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    fn limits() -> (Limits, Window) {
        let limits = Limits { form_iv: Some(Celsius(23.9)), form_v: Some(Celsius(29.8)), form_vi: Some(Celsius(32.1)) };
        (limits, Window { min: Celsius(25.8), recommended: Celsius(27.8), max: Celsius(29.6) })
    }

    #[test]
    fn every_temperature_has_its_fate() {
        let (limits, window) = limits();
        for (at, expected) in [
            (40.0, Fate::Melts),
            (32.1, Fate::Melts),
            (32.0, Fate::OnlyAnnealed),
            (29.8, Fate::OnlyAnnealed),
            (29.7, Fate::Edge),
            (29.5, Fate::Lives),
            (25.8, Fate::Lives),
            (25.7, Fate::Cold),
            (24.0, Fate::Cold),
            (23.9, Fate::WrongForm),
            (4.0, Fate::WrongForm),
        ] {
            assert_eq!(fate(&limits, &window, Celsius(at)), Some(expected), "{at}");
        }
        assert_eq!(fate(&Limits::default(), &window, Celsius(30.0)), None);
    }

    /// Common practice, no published source: seed cream is about 80 % liquid at 33 to 34 °C; the model has it between its
    /// readings for forms V and VI (5.8 and 35.9 % at 33.4 °C).
    #[test]
    fn seed_cream_lies_between_the_forms() {
        let cream = |form| cream_at(CocoaButter::default(), MassFraction(0.2), form).expect("within range").0;
        let (five, six) = (cream(Form::V), cream(Form::VI));
        assert!(five < 33.0 && six > 34.0, "{five} {six}");
        let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
        let phase = FatPhase::new(&grams, CocoaButter::default()).expect("a fat");
        assert_abs_diff_eq!(phase.solid_fat_in_form(Celsius(five), Form::V).0, 0.2, epsilon = 1e-4);
        assert_abs_diff_eq!(phase.solid_fat_in_form(Celsius(33.4), Form::V).0, 0.058, epsilon = 5e-4);
        assert_abs_diff_eq!(phase.solid_fat_in_form(Celsius(33.4), Form::VI).0, 0.359, epsilon = 5e-4);
        assert_eq!(cream_at(CocoaButter::default(), MassFraction(0.999), Form::V), None);
    }

    /// What is mixed lies between its parts while nothing melts; heat is conserved.
    #[test]
    fn the_balance_keeps_its_heat() {
        let bowl = Part { grams: Grams(671.0), specific_heat: 2.6, at: Celsius(31.0) };
        let seed = Part { grams: Grams(7.5), specific_heat: 2.0, at: Celsius(33.0) };
        let solid = MassFraction(0.2);
        let mixed = with_seed(bowl, seed, solid, solid).0;
        assert!((31.0..33.0).contains(&mixed));
        let heat = |at: f64| 671.0 * 2.6 * at + 7.5 * 2.0 * at;
        assert_abs_diff_eq!(heat(mixed), 671.0 * 2.6 * 31.0 + 7.5 * 2.0 * 33.0, epsilon = 1e-9);
        assert!(with_seed(bowl, seed, solid, MassFraction::ZERO).0 < mixed, "melting cools");
    }

    #[test]
    fn fewer_crystals_are_further_apart() {
        let apart = |crystals| crystal_distance(MassFraction(crystals), 5e-6, Celsius(30.0));
        assert!(apart(0.001) > apart(0.01));
        assert_eq!(apart(0.0), None);
    }
}
