//! What becomes of seed that is put into a mass: whether its crystals live at a temperature.
//!
//! What seed does to the temperature is a mix as any other ([`super::heat::Mix`]).

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
    let number = crystals_per_cubic_metre(crystals, diameter, at);
    (crystals.0 > 0.0 && number.is_finite()).then(|| number.cbrt().recip())
}

/// What part of the volume of a fat its crystals are.
fn volume_of_crystals(crystals: MassFraction, at: Celsius) -> f64 {
    let densities = fat_densities(at);
    let (solid, liquid) = (crystals.0 / densities.crystals.0, (1.0 - crystals.0) / densities.liquid.0);
    solid / (solid + liquid)
}

fn crystals_per_cubic_metre(crystals: MassFraction, diameter: f64, at: Celsius) -> f64 {
    6.0 * volume_of_crystals(crystals, at) / (std::f64::consts::PI * diameter.powi(3))
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

    /// By hand: 1 part of crystals in 180 of fat at 30 °C is 0.5076 % of its volume; of 5 µm, 7.755·10¹³ of them in a cubic
    /// metre, each in a cube of 23.4 µm.
    #[test]
    fn crystals_are_counted_as_in_the_worked_example() {
        let crystals = MassFraction(1.0 / 180.0);
        assert_abs_diff_eq!(volume_of_crystals(crystals, Celsius(30.0)), 0.005_076, epsilon = 5e-7);
        let number = crystals_per_cubic_metre(crystals, 5e-6, Celsius(30.0));
        assert_abs_diff_eq!(number, 7.755e13, epsilon = 0.0005e13);
        let apart = crystal_distance(crystals, 5e-6, Celsius(30.0)).expect("there are crystals");
        assert_abs_diff_eq!(apart, 23.4e-6, epsilon = 0.05e-6);
    }

    /// By the same model at 31.8 °C, where plain chocolate is seeded, about 26 % of cocoa butter can be solid: so much of a seed
    /// of powder is left there.
    #[test]
    fn a_quarter_of_powder_is_left_where_it_is_seeded() {
        let grams = FatGrams { cocoa_butter: Grams(100.0), ..FatGrams::default() };
        let phase = FatPhase::new(&grams, CocoaButter::WestAfrican).expect("a fat");
        assert_abs_diff_eq!(phase.solid_fat(Celsius(31.8)).form_v.0, 0.26, epsilon = 0.01);
    }

    #[test]
    fn fewer_crystals_are_further_apart() {
        let apart = |crystals| crystal_distance(MassFraction(crystals), 5e-6, Celsius(30.0));
        assert!(apart(0.001) > apart(0.01));
        assert_eq!(apart(0.0), None);
    }
}
