//! Rounding that keeps a sum.

use super::round_half_up;

/// Parts rounded to so many decimals so that they add up to a whole that is rounded already.
///
/// Each part goes to the decimal below or above it; those that lose most by going down go up, the first of equals
/// first. Where the whole is further from the parts than that, it cannot be kept: then every part is rounded half up.
///
/// ```
/// # use nibwright::number::rounded_parts;
/// assert_eq!(rounded_parts(&[0.4, 0.4, 0.4], 1.0, 0), [1.0, 0.0, 0.0]);
/// assert_eq!(rounded_parts(&[600.0, 0.5], 600.5, 1), [600.0, 0.5]);
/// ```
#[must_use]
pub fn rounded_parts(parts: &[f64], whole: f64, decimals: u32) -> Vec<f64> {
    /// Decimals of a step that count: what lies behind is noise of binary numbers.
    const GUARD: u32 = 6;

    let steps_per_unit = 10_f64.powi(i32::try_from(decimals).unwrap_or(0));
    let steps: Vec<f64> = parts.iter().map(|part| round_half_up(part * steps_per_unit, GUARD)).collect();
    let missing = round_half_up(whole * steps_per_unit, 0) - steps.iter().map(|step| step.floor()).sum::<f64>();
    let mut order: Vec<usize> = (0..parts.len()).filter(|&idx| steps[idx].fract() != 0.0).collect();
    order.sort_by(|&left, &right| {
        let lost = |idx: usize| steps[idx] - steps[idx].floor();
        lost(right).total_cmp(&lost(left))
    });
    let go_up = (0..=order.len()).find(|&count| (count_as_number(count) - missing).abs() < 0.5);
    let Some(go_up) = go_up else { return parts.iter().map(|&part| round_half_up(part, decimals)).collect() };
    let mut rounded: Vec<f64> = steps.iter().map(|step| step.floor()).collect();
    for &idx in &order[..go_up] {
        rounded[idx] += 1.0;
    }
    rounded.into_iter().map(|step| round_half_up(step / steps_per_unit, decimals)).collect()
}

#[expect(clippy::cast_precision_loss, reason = "a recipe has far fewer lines than 2^52")]
fn count_as_number(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// The rounded parts add up to the rounded sum, and none is a whole step away from what it was.
        #[test]
        fn parts_add_up(parts in prop::collection::vec(0.0..5000.0, 0..12), decimals in 0_u32..3) {
            let whole = round_half_up(parts.iter().sum(), decimals);
            let rounded = rounded_parts(&parts, whole, decimals);
            prop_assert!((rounded.iter().sum::<f64>() - whole).abs() < 1e-6, "{rounded:?}, {whole}");
            let step = 0.1_f64.powi(i32::try_from(decimals).unwrap_or(0));
            for (part, rounded) in parts.iter().zip(&rounded) {
                prop_assert!((part - rounded).abs() < step * 1.000_001, "{part} became {rounded}");
            }
        }
    }

    #[test]
    fn what_is_round_stays_and_a_whole_that_does_not_fit_changes_nothing() {
        assert_eq!(rounded_parts(&[12.3, 0.29, 7.0], 19.59, 2), [12.3, 0.29, 7.0]);
        assert_eq!(rounded_parts(&[1.26, 2.0], 50.0, 1), [1.3, 2.0]);
        assert_eq!(rounded_parts(&[-0.04, 10.04], 10.0, 1), [-0.0, 10.0]);
        assert!(rounded_parts(&[], 0.0, 1).is_empty());
    }
}
