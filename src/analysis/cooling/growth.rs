//! How long seeded fat takes to crystallise, and what trials teach about it.
//!
//! It deliberately gives nothing for unseeded masses: their 12 to 24 hours follow no formula. A rough estimate: the true
//! time lies within a factor of two either way in two of three cases.

use crate::analysis::seeding::{GROWTH_EXPONENT, REFERENCE_CRYSTALS};
use crate::units::{Celsius, Kelvin, MassFraction, Minutes};

/// Supercooling that the times of [`System`] belong to (judged, no published source).
const REFERENCE_SUPERCOOLING: Kelvin = Kelvin(10.0);

/// At this supercooling or less the estimate is void (judged, no published source).
pub const LEAST_SUPERCOOLING: Kelvin = Kelvin(3.0);

/// At this supercooling or more unstable forms compete (judged, no published source).
pub const MOST_SUPERCOOLING: Kelvin = Kelvin(25.0);

/// The peak rate of growth of second order, 0.86/τ, times the time for 90 %, 1.517 τ (`padar-2008` for the order).
const PEAK_RATE: f64 = 1.30;

/// The prior standard deviation of the logarithm: a factor of two (judged, no published source).
const PRIOR_DEVIATION: f64 = std::f64::consts::LN_2;

/// How much trials of one mass scatter, as a standard deviation of the logarithm (judged, no published source).
const TRIAL_DEVIATION: f64 = 0.30;

/// Which kind of mass sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// Chocolate: fat all through.
    Chocolate,
    /// Nut praline or gianduja: fat all through, little of it cocoa butter.
    NutPraline,
    /// Ganache: the fat lies in droplets.
    Ganache,
}

impl System {
    /// Setting time at the reference.
    ///
    /// Derived from common practice, no published source: chocolate sets in 5 to 15 min at 12 to 15 °C, seeded white ganache
    /// in 2 to 3 h; nut praline is weakly founded.
    #[must_use]
    pub fn reference_time(self) -> Minutes {
        Minutes(match self {
            Self::Chocolate => 20.0,
            Self::NutPraline => 40.0,
            Self::Ganache => 180.0,
        })
    }
}

/// The time in which seeded crystals do 90 % of their growth; `None` outside the range.
///
/// t_x = A · (c_ref/c)^0.4 · 10 K/(T_V − T_env)
///
/// A reference time of the [`System`] \[min\], c crystals per fat \[g/g\], T_V form V limit, T_env surroundings \[°C\].
///
/// Source: exponent judged between growth in space and of plates ([`GROWTH_EXPONENT`]); reference times by [`System`].
/// Holds for 3 K < T_V − T_env < 25 K and positive c up to 1; outside there is no answer.
///
/// ```
/// use nibwright::analysis::cooling::growth::{System, growth_time};
/// use nibwright::analysis::seeding::REFERENCE_CRYSTALS;
/// use nibwright::units::Celsius;
/// let time = growth_time(System::Chocolate, REFERENCE_CRYSTALS, Celsius(33.79), Celsius(13.0)).unwrap();
/// assert!((time.0 - 9.62).abs() < 0.005);
/// ```
#[must_use]
pub fn growth_time(system: System, crystals: MassFraction, form_v: Celsius, surroundings: Celsius) -> Option<Minutes> {
    let supercooling = form_v.0 - surroundings.0;
    let is_in_range = supercooling > LEAST_SUPERCOOLING.0 && supercooling < MOST_SUPERCOOLING.0;
    if is_in_range { unchecked_growth_time(system, crystals, form_v, surroundings) } else { None }
}

/// As [`growth_time`], nearer to the limit and further from it than the formula was judged for: an order of magnitude.
///
/// `None` at the limit and above, and without crystals.
#[must_use]
pub fn unchecked_growth_time(
    system: System,
    crystals: MassFraction,
    form_v: Celsius,
    surroundings: Celsius,
) -> Option<Minutes> {
    let supercooling = form_v.0 - surroundings.0;
    if !(supercooling > 0.0 && crystals.0 > 0.0 && crystals.0 <= 1.0) {
        return None;
    }
    let seed = (REFERENCE_CRYSTALS.0 / crystals.0).powf(GROWTH_EXPONENT);
    Some(system.reference_time() * (seed * REFERENCE_SUPERCOOLING.0 / supercooling))
}

/// The shortest time of growth in which the heat of the crystals gets out, so that the centre stays below the form V limit while
/// they grow; `None` at or above that limit.
///
/// t_min = 1.30 · ΔT_ad · τ_c/(T_V − T_env)
///
/// ΔT_ad rise if no heat left \[K\], τ_c time constant of cooling \[min\].
///
/// Source: `padar-2008` for the order of growth. An indicator, no rule of design; no answer for what is not positive.
#[must_use]
pub fn shortest_growth_time(
    rise: Kelvin,
    constant: Minutes,
    form_v: Celsius,
    surroundings: Celsius,
) -> Option<Minutes> {
    let supercooling = form_v.0 - surroundings.0;
    let time = PEAK_RATE * rise.0 * constant.0 / supercooling;
    (supercooling > 0.0 && rise.0 >= 0.0 && constant.0 > 0.0 && time.is_finite()).then_some(Minutes(time))
}

/// What trials say about the times of one system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Calibration {
    /// Mean of ln(observed/predicted), drawn towards 0 while trials are few.
    pub mean: f64,
    /// Its standard deviation.
    pub deviation: f64,
    /// Standard deviation of the logarithm of the next trial.
    pub predictive: f64,
}

impl Calibration {
    /// Learns from pairs of observed and predicted time; `None` if one of them is not positive and finite.
    ///
    /// k = σ_e²/σ₀², m = Σ r/(n + k), s² = σ_e²/(n + k), predictive √(s² + σ_e²), r = ln(observed/predicted)
    ///
    /// σ₀ = ln 2 prior, σ_e = 0.30 scatter of trials (judged, no published source).
    #[must_use]
    pub fn from_trials(trials: &[(Minutes, Minutes)]) -> Option<Self> {
        let variance = TRIAL_DEVIATION.powi(2);
        let mut sum = 0.0;
        let mut weight = variance / PRIOR_DEVIATION.powi(2);
        for (observed, predicted) in trials {
            let is_time = |time: &Minutes| time.0 > 0.0 && time.0.is_finite();
            if !is_time(observed) || !is_time(predicted) {
                return None;
            }
            sum += observed.0.ln() - predicted.0.ln();
            weight += 1.0;
        }
        let of_mean = variance / weight;
        Some(Self { mean: sum / weight, deviation: of_mean.sqrt(), predictive: (of_mean + variance).sqrt() })
    }

    /// The factor by which times are multiplied.
    #[must_use]
    pub fn factor(&self) -> f64 {
        self.mean.exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Worked by hand from the formula: 20 · 10/20.79; half the crystals take 2^0.4 = 1.32 times as long.
    #[test]
    fn half_the_crystals_take_a_third_longer() {
        let time =
            |crystals| growth_time(System::Chocolate, crystals, Celsius(33.79), Celsius(13.0)).expect("in range").0;
        assert_abs_diff_eq!(time(REFERENCE_CRYSTALS), 9.62, epsilon = 0.005);
        assert_abs_diff_eq!(
            time(MassFraction(REFERENCE_CRYSTALS.0 / 2.0)) / time(REFERENCE_CRYSTALS),
            1.32,
            epsilon = 0.005
        );
    }

    #[test]
    fn outside_the_range_there_is_no_time() {
        for (form_v, crystals) in
            [(16.0, 0.005), (38.0, 0.005), (10.0, 0.005), (30.0, 0.0), (30.0, f64::NAN), (f64::NAN, 0.005)]
        {
            assert_eq!(
                growth_time(System::Ganache, MassFraction(crystals), Celsius(form_v), Celsius(13.0)),
                None,
                "{form_v} {crystals}"
            );
        }
    }

    /// By hand: chocolate with 38.5 % fat, 77.13 % of it solid in the end, 157 J/g and 1.59 J/(g K) warms by 29.3 K if no
    /// heat leaves; with a constant of 560.6 s, a form V limit of 33.79 °C and 13 °C around it that takes 17.1 min.
    #[test]
    fn a_slab_of_ten_millimetres_needs_seventeen_minutes() {
        use crate::analysis::heat::{Fat, rise_by_crystallising};
        use crate::units::JoulesPerGramKelvin;
        let rise = rise_by_crystallising(MassFraction(0.385 * 0.7713), Fat::CocoaButter, JoulesPerGramKelvin(1.59));
        assert_abs_diff_eq!(rise.0, 29.3, epsilon = 0.05);
        let time = shortest_growth_time(rise, Minutes(560.6 / 60.0), Celsius(33.79), Celsius(13.0));
        assert_abs_diff_eq!(time.expect("in range").0, 17.1, epsilon = 0.05);
    }

    /// Growth of second order, α = 1 − exp(−(t/τ)²): half of it at 0.833 τ, nine tenths at 1.517 τ (by hand), and the peak of
    /// its rate, 0.86/τ, times the latter is the factor of the shortest growth time (`padar-2008` for the order).
    #[test]
    fn growth_of_second_order_gives_the_factor_of_the_shortest_time() {
        let time_of = |share: f64| (-(1.0 - share).ln()).sqrt();
        assert_abs_diff_eq!(time_of(0.5), 0.833, epsilon = 5e-4);
        assert_abs_diff_eq!(time_of(0.9), 1.517, epsilon = 5e-4);
        let rate = |time: f64| 2.0 * time * (-time * time).exp();
        let peak = rate(0.5_f64.sqrt());
        assert!(peak >= rate(0.70) && peak >= rate(0.715));
        assert_abs_diff_eq!(peak * time_of(0.9), PEAK_RATE, epsilon = 0.005);
    }

    /// By hand: r = 0.40, 0.20, 0.50 give m = 1.1/3.1873, within the last digit.
    #[test]
    fn three_trials_teach() {
        let trials = [0.40_f64, 0.20, 0.50].map(|r| (Minutes(10.0 * r.exp()), Minutes(10.0)));
        let learned = Calibration::from_trials(&trials).expect("times");
        assert_abs_diff_eq!(learned.mean, 0.3451, epsilon = 5e-5);
        assert_abs_diff_eq!(learned.factor(), 1.412, epsilon = 5e-4);
        assert_abs_diff_eq!(learned.deviation, 0.1680, epsilon = 5e-5);
        assert_abs_diff_eq!(learned.predictive, 0.3439, epsilon = 1e-4);
        assert_eq!(Calibration::from_trials(&[(Minutes(0.0), Minutes(1.0))]), None);
    }
}
