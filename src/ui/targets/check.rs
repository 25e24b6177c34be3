//! What may be typed as a weight or as a proportion, and why something else is refused.

use crate::units::Grams;

/// No recipe of a kitchen has more of anything: a thousand kilograms. Judged; a larger batch raises it to its own weight.
const MOST: Grams = Grams(1e6);
/// Proportions above it are slips (judged).
const MOST_OTHERWISE: f64 = 10_000.0;

/// Whether a weight is one that this batch could have.
///
/// # Errors
///
/// One sentence for the person who types.
pub fn check_weight(grams: Grams, batch: Grams) -> Result<(), String> {
    if grams.0 < 0.0 {
        return Err("a weight cannot be below 0 g".to_owned());
    }
    if grams > Grams(MOST.0.max(batch.0)) {
        return Err("that is more than a tonne; check the number".to_owned());
    }
    Ok(())
}

/// Whether a line can be so many times another one.
///
/// # Errors
///
/// One sentence for the person who types.
pub fn check_times(times: f64) -> Result<(), String> {
    if (0.0..=MOST_OTHERWISE).contains(&times) {
        Ok(())
    } else {
        Err("a line is between 0 and 10000 times another one".to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_of_a_kitchen() {
        let batch = Grams(1200.0);
        assert!(check_weight(Grams(1e9), batch).is_err() && check_weight(Grams(-1.0), batch).is_err());
        assert!(check_weight(Grams(2e6), Grams(3e6)).is_ok() && check_weight(Grams(0.0), batch).is_ok());
        assert!(check_times(0.5).is_ok() && check_times(1e9).is_err() && check_times(-1.0).is_err());
    }
}
