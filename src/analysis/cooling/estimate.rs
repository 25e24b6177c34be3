//! Times of cooling of a body that is of one temperature all through, as a stirred bowl is, without heat of crystals.

use crate::units::{Celsius, Minutes};

/// Seconds in a minute.
const MINUTE: f64 = 60.0;

/// The time constant of a body of one temperature: τ = m·c_p/(h·A).
///
/// m mass \[kg\], c_p specific heat \[J/(kg K)\], h surface coefficient \[W/(m² K)\], A surface \[m²\].
///
/// Source: balance of heat. Holds while h·(V/A)/k is below 0.1; `None` for what is not positive and finite.
#[must_use]
pub fn lumped_constant(kilograms: f64, specific_heat: f64, coefficient: f64, surface: f64) -> Option<Minutes> {
    let inputs = [kilograms, specific_heat, coefficient, surface];
    let time = kilograms * specific_heat / (coefficient * surface) / MINUTE;
    (inputs.iter().all(|input| *input > 0.0) && time.is_finite() && time > 0.0).then_some(Minutes(time))
}

/// The time from a start to a target: t = τ · ln((T₀ − T_a)/(T − T_a)).
///
/// `None` unless the target lies between the air and the start, or is the start.
///
/// ```
/// use nibwright::analysis::cooling::estimate::{lumped_constant, time_to};
/// use nibwright::units::Celsius;
/// let constant = lumped_constant(1.5, 2600.0, 12.0, 0.10).unwrap();
/// let time = time_to(constant, Celsius(45.0), Celsius(32.0), Celsius(20.0)).unwrap();
/// assert!((time.0 * 60.0 - 2385.4).abs() < 0.5);
/// ```
#[must_use]
pub fn time_to(constant: Minutes, start: Celsius, target: Celsius, air: Celsius) -> Option<Minutes> {
    let left = (target.0 - air.0) / (start.0 - air.0);
    let time = constant.0 * -left.ln();
    (constant.0 > 0.0 && left > 0.0 && left <= 1.0 && time.is_finite()).then_some(Minutes(time))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// By hand: 1 kg, 2600 J/(kg K), 10 W/(m² K), 0.08 m²: 3250 s.
    #[test]
    fn a_full_bowl_has_a_constant_of_54_minutes() {
        let constant = lumped_constant(1.0, 2600.0, 10.0, 0.08).expect("positive");
        assert_abs_diff_eq!(constant.0 * MINUTE, 3250.0, epsilon = 0.1);
    }

    /// By hand: 3250 s · ln(25/12) for 1.5 kg, 12 W/(m² K), 0.10 m², from 45 to 32 °C in air of 20 °C.
    #[test]
    fn a_bowl_cools_to_32_degrees_in_forty_minutes() {
        let constant = lumped_constant(1.5, 2600.0, 12.0, 0.10).expect("positive");
        let time = time_to(constant, Celsius(45.0), Celsius(32.0), Celsius(20.0)).expect("on the way");
        assert_abs_diff_eq!(time.0 * MINUTE, 2385.4, epsilon = 0.5);
    }

    #[test]
    fn a_target_that_is_never_reached_has_no_time() {
        for target in [20.0, 19.0, 46.0, f64::NAN] {
            assert_eq!(time_to(Minutes(50.0), Celsius(45.0), Celsius(target), Celsius(20.0)), None, "{target}");
        }
        assert_eq!(lumped_constant(1.0, 2600.0, 0.0, 0.08), None);
    }
}
