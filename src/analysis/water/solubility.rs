//! How much sugar water dissolves.

use crate::units::{Celsius, Grams};

/// Temperatures in which the solubility of sucrose was measured; a temperature outside counts as the nearer end.
pub const SUCROSE_MEASURED: (Celsius, Celsius) = (Celsius(0.0), Celsius(100.0));

/// By how much a gram of other dissolved sugar for each gram of water lowers the solubility of sucrose, relative.
///
/// ICUMSA saturation coefficient for solids that are not sucrose, read in a published model of crystallisation
/// (`icumsa-sps-2`). With sucrose and invert sugar 1 : 1 it gives the 75–77 % of solids of practice.
pub const OTHERS_LOWER_SUCROSE: f64 = 0.088;

/// Other dissolved sugars per water, g/g, up to which [`OTHERS_LOWER_SUCROSE`] was stated.
pub const OTHERS_MEASURED: f64 = 2.0;

/// The solubility is not lowered to less than this share of that in pure water.
const LEAST_SHARE: f64 = 0.5;

/// Lactose dissolves in a sucrose-rich syrup to this share of its solubility in water; published 0.5 to 0.8
/// (`walstra-jenness`, from memory), 0.75 by judgement.
pub const LACTOSE_IN_SYRUP: f64 = 0.75;

/// Grams of water that a gram of lactose takes into its crystals (monohydrate): 18.015/342.30.
pub const LACTOSE_CRYSTAL_WATER: f64 = 0.0526;

/// How much sucrose a gram of pure water dissolves, g/g.
///
/// w = 64.397 + 0.07251·t + 0.0020569·t² − 9.035e-6·t³ [wt%], s = w/(100 − w) [g/g], t in °C
///
/// Source: `charles-1960`, basis of ICUMSA SPS-2 (1998), coefficients from memory. Range [`SUCROSE_MEASURED`];
/// outside, the value at the nearer end.
///
/// ```
/// # use nibwright::{analysis::water::solubility::sucrose_in_water, units::Celsius};
/// let at_40 = sucrose_in_water(Celsius(40.0));
/// assert!((100.0 * at_40 / (1.0 + at_40) - 70.01).abs() < 0.005);
/// ```
#[must_use]
pub fn sucrose_in_water(at: Celsius) -> f64 {
    /// Coefficients of the cubic, wt% of the solution against °C.
    const CHARLES: [f64; 4] = [64.397, 0.072_51, 0.002_056_9, -9.035e-6];
    let t = at.0.clamp(SUCROSE_MEASURED.0.0, SUCROSE_MEASURED.1.0);
    let percent = CHARLES.iter().rev().fold(0.0, |sum, coefficient| sum * t + coefficient);
    percent / (100.0 - percent)
}

/// How much sucrose dissolves in water beside other sugars, and how that changes with each gram of water and of others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SucroseLimit {
    /// The most that dissolves.
    pub grams: Grams,
    /// More of it for each gram more water.
    pub per_water: f64,
    /// More of it for each gram more of other sugars: not above zero.
    pub per_other: f64,
}

/// How much sucrose dissolves in `water` beside `others`, where pure water dissolves `in_water` (g/g).
///
/// S = s·(w − 0.088·N), not less than s·w/2; s by [`sucrose_in_water`], w the water, N the other sugars, glucose-syrup
/// solids, lactose, polyols and soluble fibre; ethanol, salts and acids do not count.
///
/// Source: `icumsa-sps-2`. Range N/w ≤ 2; total dissolved solids within 2 % absolute.
#[must_use]
pub fn sucrose_limit(in_water: f64, water: Grams, others: Grams) -> SucroseLimit {
    let lowered = water.0 - OTHERS_LOWER_SUCROSE * others.0;
    if lowered >= LEAST_SHARE * water.0 {
        SucroseLimit {
            grams: Grams(in_water * lowered),
            per_water: in_water,
            per_other: -in_water * OTHERS_LOWER_SUCROSE,
        }
    } else {
        let per_water = in_water * LEAST_SHARE;
        SucroseLimit { grams: Grams(per_water * water.0), per_water, per_other: 0.0 }
    }
}

/// How much lactose a gram of water dissolves in the end, g of anhydrous lactose per g.
///
/// l = 0.109109·exp(0.02804·t), t in °C
///
/// Source: Butler 1998, quoted in the dairy literature (from memory); within 4 % of Hudson's data from 15 to 74 °C.
#[must_use]
pub fn lactose_in_water(at: Celsius) -> f64 {
    0.109_109 * (0.028_04 * at.0.clamp(0.0, 90.0)).exp()
}

/// How much glucose a gram of water dissolves, g of anhydrous glucose per g; below 50 °C beside crystals of the
/// monohydrate.
///
/// Source: `jackson-silsbee-1922` (from memory): wt% of the saturated solution at 20, 25, 30 and 50 °C; between them on
/// straight lines, outside the value at the nearer end.
#[must_use]
pub fn glucose_in_water(at: Celsius) -> f64 {
    const SATURATED: [(f64, f64); 4] = [(20.0, 47.7), (25.0, 51.0), (30.0, 54.6), (50.0, 70.9)];
    let t = at.0.clamp(SATURATED[0].0, SATURATED[3].0);
    let percent = SATURATED
        .windows(2)
        .find_map(|pair| match *pair {
            [(low, at_low), (high, at_high)] if t <= high => {
                Some(at_low + (at_high - at_low) * (t - low) / (high - low))
            }
            _ => None,
        })
        .unwrap_or(SATURATED[3].1);
    percent / (100.0 - percent)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    fn percent(per_water: f64) -> f64 {
        100.0 * per_water / (1.0 + per_water)
    }

    /// Handbook table of Vavrinecz (1962) and the general encyclopaedia's 67.47 % at 25 °C; a Russian handbook table
    /// 74.32 % at 60 °C and 82.89 % at 100 °C.
    #[test]
    fn sucrose_dissolves_as_in_the_handbooks() {
        for (celsius, expected, tolerance) in
            [(20.0, 66.6, 0.3), (60.0, 74.3, 0.3), (100.0, 82.9, 0.4), (25.0, 67.47, 0.2)]
        {
            assert_abs_diff_eq!(percent(sucrose_in_water(Celsius(celsius))), expected, epsilon = tolerance);
        }
    }

    /// Vavrinecz's polynomial (1962, from memory) as a second method: within 0.3 % of solids up to 80 °C.
    #[test]
    fn a_second_polynomial_agrees() {
        for celsius in 0..=80 {
            let t = f64::from(celsius);
            let vavrinecz = 64.447 + 0.082_22 * t + 1.6169e-3 * t * t - 1.558e-6 * t.powi(3) - 4.63e-8 * t.powi(4);
            assert_abs_diff_eq!(percent(sucrose_in_water(Celsius(t))), vavrinecz, epsilon = 0.3);
        }
    }

    /// Hudson's measurements, in Lowe, Experimental Cookery.
    #[test]
    fn lactose_dissolves_as_measured() {
        assert_abs_diff_eq!(100.0 * lactose_in_water(Celsius(25.0)), 21.6, epsilon = 1.0);
        assert_abs_diff_eq!(100.0 * lactose_in_water(Celsius(49.0)), 42.4, epsilon = 1.5);
    }

    /// Sucrose and invert sugar, N/w = 1, 20 °C: 73.8 % of dissolved solids; practice reaches 75 to 77 % (from memory).
    #[test]
    fn other_sugars_take_some_of_the_room_of_sucrose() {
        for (others, expected) in
            [(0.0, 66.6), (0.25, 68.7), (0.5, 70.6), (0.75, 72.3), (1.0, 73.8), (1.25, 75.2), (1.5, 76.4)]
        {
            let limit = sucrose_limit(sucrose_in_water(Celsius(20.0)), Grams(1.0), Grams(others));
            assert_abs_diff_eq!(percent(limit.grams.0 + others), expected, epsilon = 0.1);
        }
    }

    #[test]
    fn sucrose_keeps_half_of_its_solubility_beside_any_amount_of_others() {
        let in_water = sucrose_in_water(Celsius(20.0));
        let limit = sucrose_limit(in_water, Grams(10.0), Grams(1000.0));
        assert_abs_diff_eq!(limit.grams.0, 5.0 * in_water, epsilon = 1e-12);
        // The two branches meet.
        let meeting = 10.0 * (1.0 - LEAST_SHARE) / OTHERS_LOWER_SUCROSE;
        let before = sucrose_limit(in_water, Grams(10.0), Grams(meeting - 1e-9));
        let after = sucrose_limit(in_water, Grams(10.0), Grams(meeting + 1e-9));
        assert_abs_diff_eq!(before.grams.0, after.grams.0, epsilon = 1e-6);
    }

    /// Jackson and Silsbee 1922 (from memory).
    #[test]
    fn glucose_dissolves_as_in_the_table_and_no_further_than_it() {
        for (celsius, expected) in [(20.0, 47.7), (25.0, 51.0), (30.0, 54.6), (50.0, 70.9), (0.0, 47.7), (90.0, 70.9)] {
            assert_abs_diff_eq!(percent(glucose_in_water(Celsius(celsius))), expected, epsilon = 1e-9);
        }
        assert_abs_diff_eq!(percent(glucose_in_water(Celsius(40.0))), 62.75, epsilon = 1e-9);
    }
}
