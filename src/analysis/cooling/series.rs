//! The exact cooling of a slab and a sphere with an even start and constant properties, as a series.
//!
//! It knows no heat of crystals; it is the measure for methods that do.

use std::f64::consts::PI;

/// How many terms are added: enough to 1e-9 for times beyond a Fourier number of 0.005.
const TERMS: u32 = 30;

/// Halvings of an interval of length π until nothing changes in a double.
const HALVINGS: u32 = 60;

/// Which body cools.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A slab of this half thickness cooled on both faces, or of this thickness with one insulated face.
    Slab,
    /// A sphere of this radius.
    Sphere,
}

/// What is left of the first difference to the air, 1 at the start and 0 at the end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// In the centre, or at the insulated face.
    pub centre: f64,
    /// At the surface.
    pub surface: f64,
    /// On the whole.
    pub mean: f64,
}

/// What is left of the first difference to the air after a time; `None` outside the range.
///
/// θ = Σ C · exp(−ζ²·Fo) · f(ζ·x/L); slab ζ·tan ζ = Bi, sphere 1 − ζ·cot ζ = Bi
///
/// Bi = h·L/k Biot number, Fo = α·t/L² Fourier number (L half thickness or radius), both without unit.
///
/// Source: series of heat conduction as in textbooks (from memory).
/// Holds for 1e-4 ≤ Bi ≤ 1e6 and 0.005 ≤ Fo, finite; outside there is no answer.
///
/// ```
/// use nibwright::analysis::cooling::series::{Shape, left};
/// assert!((left(Shape::Slab, 1.0, 0.5).unwrap().mean - 0.681105).abs() < 2e-5);
/// ```
#[must_use]
pub fn left(shape: Shape, biot: f64, fourier: f64) -> Option<Left> {
    if !((1e-4..=1e6).contains(&biot) && fourier >= 0.005 && fourier.is_finite()) {
        return None;
    }
    let mut sum = Left { centre: 0.0, surface: 0.0, mean: 0.0 };
    for n in 1..=TERMS {
        let z = root(shape, biot, n);
        let weight = coefficient(shape, z) * (-z * z * fourier).exp();
        let (surface, mean) = match shape {
            Shape::Slab => (z.cos(), z.sin() / z),
            Shape::Sphere => (z.sin() / z, 3.0 * (z.sin() - z * z.cos()) / z.powi(3)),
        };
        sum.centre += weight;
        sum.surface += weight * surface;
        sum.mean += weight * mean;
    }
    Some(sum)
}

/// The n-th root, n from 1, by halving the interval that holds it alone.
fn root(shape: Shape, biot: f64, n: u32) -> f64 {
    let mut low = f64::from(n - 1) * PI;
    let mut high = low + if shape == Shape::Slab { PI / 2.0 } else { PI };
    let function = |z: f64| match shape {
        Shape::Slab => z * z.sin() - biot * z.cos(),
        Shape::Sphere => (1.0 - biot) * z.sin() - z * z.cos(),
    };
    // The sign at the upper end is that of the interval: + for odd n.
    let sign = if n % 2 == 1 { 1.0 } else { -1.0 };
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if sign * function(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

fn coefficient(shape: Shape, z: f64) -> f64 {
    match shape {
        Shape::Slab => 4.0 * z.sin() / (2.0 * z + (2.0 * z).sin()),
        Shape::Sphere => 4.0 * (z.sin() - z * z.cos()) / (2.0 * z - (2.0 * z).sin()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// First roots and coefficients of textbooks (Incropera and DeWitt, table 5.1, from memory), within 1e-4.
    #[test]
    fn first_roots_are_those_of_textbooks() {
        for (shape, biot, zeta, c) in [
            (Shape::Slab, 0.1, 0.3111, 1.0161),
            (Shape::Slab, 0.25, 0.4801, 1.0382),
            (Shape::Slab, 1.0, 0.8603, 1.1191),
            (Shape::Slab, 5.0, 1.3138, 1.2402),
            (Shape::Sphere, 0.1, 0.5423, 1.0298),
            (Shape::Sphere, 0.25, 0.8447, 1.0737),
            (Shape::Sphere, 1.0, PI / 2.0, 1.2732),
            (Shape::Sphere, 5.0, 2.5704, 1.7870),
        ] {
            let z = root(shape, biot, 1);
            assert_abs_diff_eq!(z, zeta, epsilon = 1e-4);
            assert_abs_diff_eq!(coefficient(shape, z), c, epsilon = 1e-4);
        }
    }

    /// Values of the series with 200 terms, computed apart, within 2e-5.
    #[test]
    fn centre_surface_and_mean_agree_with_200_terms() {
        for (shape, biot, fourier, centre, surface, mean) in [
            (Shape::Slab, 0.25, 0.2, 0.985_511, 0.885_241, 0.953_913),
            (Shape::Slab, 1.0, 0.5, 0.772_526, 0.504_522, 0.681_105),
            (Shape::Slab, 5.0, 0.2, 0.864_881, 0.231_533, 0.649_017),
            (Shape::Slab, 0.1, 5.0, 0.626_377, 0.596_318, 0.616_325),
            (Shape::Sphere, 0.5, 0.2, 0.868_713, 0.688_153, 0.759_101),
            (Shape::Sphere, 2.0, 0.1, 0.912_394, 0.447_159, 0.635_161),
            (Shape::Sphere, 5.0, 0.2, 0.472_248, 0.100_922, 0.227_960),
        ] {
            let left = left(shape, biot, fourier).expect("in range");
            assert_abs_diff_eq!(left.centre, centre, epsilon = 2e-5);
            assert_abs_diff_eq!(left.surface, surface, epsilon = 2e-5);
            assert_abs_diff_eq!(left.mean, mean, epsilon = 2e-5);
        }
    }

    /// Data of Cengel, Heat and Mass Transfer, example 4-3 (from memory): an egg of 5 cm from 5 to 70 °C in water of 95 °C,
    /// 861.5 s. Data of Incropera and DeWitt, example 5.4 (from memory): a wall of 40 mm from −20 °C in a fluid of 60 °C after
    /// 8 min, 43.02 and 45.36 °C within 0.05 K.
    #[test]
    fn examples_of_textbooks_hold() {
        let egg = left(Shape::Sphere, 1200.0 * 0.025 / 0.627, 1.51e-7 * 861.5 / 0.025_f64.powi(2)).expect("in range");
        assert_abs_diff_eq!(95.0 - 90.0 * egg.centre, 70.0, epsilon = 0.05);
        let wall = left(Shape::Slab, 500.0 * 0.04 / 63.9, 1.88e-5 * 480.0 / 0.04_f64.powi(2)).expect("in range");
        assert_abs_diff_eq!(60.0 - 80.0 * wall.centre, 43.02, epsilon = 0.05);
        assert_abs_diff_eq!(60.0 - 80.0 * wall.surface, 45.36, epsilon = 0.05);
    }

    #[test]
    fn outside_the_range_there_is_no_answer() {
        for (biot, fourier) in [(0.0, 1.0), (f64::NAN, 1.0), (1.0, 0.0), (1.0, f64::INFINITY), (-1.0, 1.0)] {
            assert_eq!(left(Shape::Sphere, biot, fourier), None, "{biot} {fourier}");
        }
    }
}
