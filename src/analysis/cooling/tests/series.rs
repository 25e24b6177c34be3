//! The exact cooling of a slab, also with two different faces, and a sphere, with an even start and constant properties, as a series.
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

/// What is left of the first difference to the air in a slab with two different faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftInSlab {
    /// At the first face, in the middle plane and at the second face.
    pub at: [f64; 3],
    /// On the whole.
    pub mean: f64,
}

/// What is left in a slab with two different faces in the same air; `None` outside the range.
///
/// θ = Σ (I/N) · exp(−z²·Fo) · φ(x/L); (z² − Bi₁·Bi₂)·sin z = z·(Bi₁ + Bi₂)·cos z; φ(ξ) = cos z·ξ + (Bi₁/z)·sin z·ξ;
/// I = sin z/z + (Bi₁/z²)·(1 − cos z); N = ½·((1 + Bi₁²/z²)·(1 + Bi₂/(z² + Bi₂²)) + Bi₁/z²); for the mean I instead of φ
///
/// Bi = h·L/k Biot number of each face, Fo = α·t/L² Fourier number, L the full thickness, x from the first face.
///
/// Source: series of heat conduction as in textbooks (from memory). Holds for Biot numbers from 0 to 1e6 of which the
/// larger is at least 1e-4, and for 0.005 ≤ Fo, finite; outside there is no answer.
#[must_use]
pub fn left_two_faces(first: f64, second: f64, fourier: f64) -> Option<LeftInSlab> {
    let is_in_range = |biot: &f64| (0.0..=1e6).contains(biot);
    let is_known = is_in_range(&first) && is_in_range(&second) && first.max(second) >= 1e-4;
    if !(is_known && fourier >= 0.005 && fourier.is_finite()) {
        return None;
    }
    let mut sum = LeftInSlab { at: [0.0; 3], mean: 0.0 };
    for n in 1..=TERMS {
        let function = |z: f64| (z * z - first * second) * z.sin() - z * (first + second) * z.cos();
        let z = halved(f64::from(n - 1) * PI, f64::from(n) * PI, n, function);
        let mode = |part: f64| (z * part).cos() + first / z * (z * part).sin();
        let mean = z.sin() / z + first / (z * z) * (1.0 - z.cos());
        let both = (1.0 + (first / z).powi(2)) * (1.0 + second / (z * z + second * second));
        let norm = f64::midpoint(both, first / (z * z));
        let weight = mean / norm * (-z * z * fourier).exp();
        for (at, part) in sum.at.iter_mut().zip([0.0, 0.5, 1.0]) {
            *at += weight * mode(part);
        }
        sum.mean += weight * mean;
    }
    Some(sum)
}

/// The n-th root, n from 1, by halving the interval that holds it alone.
fn root(shape: Shape, biot: f64, n: u32) -> f64 {
    let low = f64::from(n - 1) * PI;
    let high = low + if shape == Shape::Slab { PI / 2.0 } else { PI };
    let function = |z: f64| match shape {
        Shape::Slab => z * z.sin() - biot * z.cos(),
        Shape::Sphere => (1.0 - biot) * z.sin() - z * z.cos(),
    };
    halved(low, high, n, function)
}

/// The root of a function that changes its sign once between two bounds, from − to + for odd n.
fn halved(mut low: f64, mut high: f64, n: u32, function: impl Fn(f64) -> f64) -> f64 {
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

    /// Values of the series computed apart, within 2e-5: at the first face, in the middle, at the second face, mean.
    #[test]
    fn two_different_faces_agree_with_the_series_computed_apart() {
        for (first, second, fourier, expected) in [
            (0.1, 0.5, 0.5, [0.792_874, 0.779_167, 0.661_746, 0.761_803]),
            (0.0, 1.0, 0.5, [0.772_526, 0.702_597, 0.504_522, 0.681_105]),
            (0.05, 0.3, 1.0, [0.742_462, 0.730_714, 0.659_797, 0.720_825]),
        ] {
            let left = left_two_faces(first, second, fourier).expect("in range");
            let [start, middle, end] = left.at;
            for (computed, expected) in [start, middle, end, left.mean].into_iter().zip(expected) {
                assert_abs_diff_eq!(computed, expected, epsilon = 2e-5);
            }
        }
    }

    #[test]
    fn an_insulated_face_and_equal_faces_are_the_slab() {
        for biot in [1e-4, 0.05, 1.0, 30.0, 1e6] {
            for fourier in [0.01, 0.2, 1.0, 20.0] {
                let slab = left(Shape::Slab, biot, fourier).expect("in range");
                for two in [left_two_faces(0.0, biot, fourier), left_two_faces(biot, 0.0, fourier)] {
                    let two = two.expect("in range");
                    assert_abs_diff_eq!(two.mean, slab.mean, epsilon = 1e-9);
                    assert_abs_diff_eq!(two.at[0].max(two.at[2]), slab.centre, epsilon = 1e-9);
                }
                // Twice the thickness: twice the Biot number, a quarter of the Fourier number.
                if fourier >= 0.2 && biot <= 1e5 {
                    let two = left_two_faces(2.0 * biot, 2.0 * biot, fourier / 4.0).expect("in range");
                    assert_abs_diff_eq!(two.mean, slab.mean, epsilon = 1e-9);
                    assert_abs_diff_eq!(two.at[1], slab.centre, epsilon = 1e-9);
                    assert_abs_diff_eq!(two.at[0], two.at[2], epsilon = 1e-9);
                }
            }
        }
        for (first, second, fourier) in [(0.0, 0.0, 1.0), (-1.0, 1.0, 1.0), (1.0, f64::NAN, 1.0), (1.0, 1.0, 0.0)] {
            assert_eq!(left_two_faces(first, second, fourier), None);
        }
    }

    #[test]
    fn outside_the_range_there_is_no_answer() {
        for (biot, fourier) in [(0.0, 1.0), (f64::NAN, 1.0), (1.0, 0.0), (1.0, f64::INFINITY), (-1.0, 1.0)] {
            assert_eq!(left(Shape::Sphere, biot, fourier), None, "{biot} {fourier}");
        }
    }
}
