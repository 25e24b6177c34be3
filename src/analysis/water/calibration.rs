//! Humidities over saturated salt solutions: fixed points by which an instrument for water activity is checked.

use crate::units::{Celsius, WaterActivity};

/// A salt whose saturated solution holds a humidity of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixedPoint {
    /// Its name.
    pub salt: &'static str,
    factor: f64,
    kelvin: f64,
}

/// The fixed points, from the driest up.
///
/// Source: CRC Handbook, constant humidity solutions, after Wexler and Seinfeld 1991 (`crc-humidity`).
pub const FIXED_POINTS: [FixedPoint; 6] = [
    FixedPoint { salt: "magnesium chloride", factor: 29.26, kelvin: 34.0 },
    FixedPoint { salt: "magnesium nitrate", factor: 25.28, kelvin: 220.0 },
    FixedPoint { salt: "sodium bromide", factor: 20.49, kelvin: 308.0 },
    FixedPoint { salt: "sodium chloride", factor: 69.20, kelvin: 25.0 },
    FixedPoint { salt: "potassium chloride", factor: 49.38, kelvin: 159.0 },
    FixedPoint { salt: "potassium sulfate", factor: 86.75, kelvin: 34.0 },
];

impl FixedPoint {
    /// The water activity over its saturated solution, which is what a good instrument shows.
    ///
    /// a = A·exp(B/T)/100, T in K. About ±0.01; from 10 to 40 °C.
    ///
    /// ```
    /// # use nibwright::{analysis::water::calibration::FIXED_POINTS, units::Celsius};
    /// let salt = FIXED_POINTS.iter().find(|point| point.salt == "sodium chloride").unwrap();
    /// assert!((salt.activity(Celsius(25.0)).0 - 0.753).abs() < 0.001);
    /// ```
    #[must_use]
    pub fn activity(&self, at: Celsius) -> WaterActivity {
        WaterActivity(self.factor * (self.kelvin / at.to_kelvin()).exp() / 100.0)
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// Greenspan 1977, J. Res. NBS 81A:89, at 25 °C (from memory), with the ±0.01 of the formula.
    #[test]
    fn the_salts_hold_the_humidity_of_the_national_bureau_of_standards() {
        for (salt, humidity) in [
            ("magnesium chloride", 32.78),
            ("magnesium nitrate", 52.89),
            ("sodium chloride", 75.29),
            ("potassium chloride", 84.34),
        ] {
            let point = FIXED_POINTS.iter().find(|point| point.salt == salt).expect("it is listed");
            assert_abs_diff_eq!(point.activity(Celsius(25.0)).0, humidity / 100.0, epsilon = 0.01);
        }
    }

    /// CRC Handbook, after Wexler and Seinfeld 1991: the table at 25 °C.
    #[test]
    fn the_salts_hold_the_humidity_of_the_handbook() {
        for (point, humidity) in FIXED_POINTS.iter().zip([32.8, 52.9, 57.6, 75.3, 84.2, 97.2]) {
            assert_abs_diff_eq!(100.0 * point.activity(Celsius(25.0)).0, humidity, epsilon = 0.06);
        }
    }
}
