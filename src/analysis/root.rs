//! Roots: of a rising function by Newton's method that cannot leave its bracket, of a nearly linear one by secants.

/// When a root is known well enough: the last step is below `relative`·|x| + `absolute`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tolerance {
    /// Share of the root.
    pub relative: f64,
    /// In the unit of the root.
    pub absolute: f64,
}

/// How often a function is asked at most.
///
/// Newton's method needs 3 to 6; halving alone, which every step falls back to, narrows a bracket to the last bit of
/// a double near any root that the models ask for. The cap guarantees the end whatever rounding does.
const MAXIMUM_STEPS: usize = 200;

/// The root of `function` between `low` and `high`, where it is negative at `low` and positive at `high`.
///
/// `function` gives its value and its slope. A Newton step is taken if it stays between the nearest points known to be
/// left and right of the root and is at most half as long as the step before; otherwise the bracket is halved. A slope
/// of zero or one that is no number makes no Newton step and does no harm. The answer always lies in the bracket.
pub(super) fn rising_root(
    (mut low, mut high): (f64, f64),
    start: f64,
    tolerance: Tolerance,
    mut function: impl FnMut(f64) -> (f64, f64),
) -> f64 {
    let mut x = if low < start && start < high { start } else { f64::midpoint(low, high) };
    let mut longest_step = high - low;
    for _ in 0..MAXIMUM_STEPS {
        let (value, slope) = function(x);
        if value < 0.0 {
            low = x;
        } else if value > 0.0 {
            high = x;
        } else {
            return x;
        }
        let close_enough = tolerance.relative * x.abs() + tolerance.absolute;
        let newton = x - value / slope;
        if (newton - x).abs() <= close_enough {
            // Asked before the bracket: at the root rounding can put the step onto the end that it comes from.
            return newton.max(low).min(high);
        }
        let is_good = low < newton && newton < high && (newton - x).abs() <= longest_step;
        let next = if is_good { newton } else { f64::midpoint(low, high) };
        let step = (next - x).abs();
        x = next;
        if step <= close_enough {
            break;
        }
        longest_step = step / 2.0;
    }
    x
}

/// Where a smooth, nearly linear function is zero, by the secant method from 0 and a guess.
///
/// `at_zero` is its value at 0. `None` where it does not settle in a few steps, where the function has no value, and outside
/// of `range`.
pub(super) fn secant(
    at_zero: f64,
    guess: f64,
    range: &std::ops::RangeInclusive<f64>,
    close_enough: f64,
    function: impl Fn(f64) -> Option<f64>,
) -> Option<f64> {
    /// Nearly linear functions settle in four or five.
    const MOST_STEPS: usize = 12;
    let (mut before, mut value_before) = (0.0, at_zero);
    let mut x = guess;
    for _ in 0..MOST_STEPS {
        let value = function(x)?;
        let slope = (value - value_before) / (x - before);
        if slope == 0.0 || !slope.is_finite() {
            return None;
        }
        (before, value_before) = (x, value);
        x -= value / slope;
        if !range.contains(&x) {
            return None;
        }
        if (x - before).abs() < close_enough {
            return Some(x);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    const TOLERANCE: Tolerance = Tolerance { relative: 1e-14, absolute: 1e-14 };

    /// The root and how often the function was asked.
    fn root(bracket: (f64, f64), start: f64, function: impl Fn(f64) -> (f64, f64)) -> (f64, usize) {
        let mut count = 0;
        let root = rising_root(bracket, start, TOLERANCE, |x| {
            count += 1;
            function(x)
        });
        (root, count)
    }

    #[test]
    fn a_straight_line_takes_one_step() {
        let (x, count) = root((0.0, 10.0), 1.0, |x| (2.0 * x - 6.0, 2.0));
        assert_eq!(x, 3.0);
        assert!(count <= 2, "{count}");
    }

    #[test]
    fn a_smooth_function_takes_few_steps() {
        let (x, count) = root((0.0, 4.0), 1.0, |x| (x * x - 2.0, 2.0 * x));
        assert!((x - 2.0_f64.sqrt()).abs() < 1e-14, "{x}");
        assert!(count <= 7, "{count}");
    }

    #[test]
    fn newtons_method_alone_would_run_away() {
        // From 3 the steps of Newton's method on the arc tangent grow without end.
        let (x, _) = root((-100.0, 90.0), 3.0, |x| (x.atan(), 1.0 / (1.0 + x * x)));
        assert!(x.abs() < 1e-13, "{x}");
    }

    #[test]
    fn a_wrong_slope_only_costs_steps() {
        for slope in [0.0, f64::NAN, -1.0, 1e-300] {
            let (x, count) = root((0.0, 1e12), 7.0, |x| (x - 0.3, slope));
            assert!((x - 0.3).abs() < 1e-12, "{slope}: {x}");
            assert!(count < MAXIMUM_STEPS, "{slope}: {count}");
        }
    }

    #[test]
    fn a_start_outside_is_not_used() {
        let (x, _) = root((0.0, 1.0), 50.0, |x| {
            assert!((0.0..=1.0).contains(&x));
            (x - 0.25, 1.0)
        });
        assert_eq!(x, 0.25);
    }

    #[test]
    fn secants_find_the_zero_of_what_is_nearly_a_line_and_stay_in_range() {
        let parabola = |x: f64| Some(0.5 - 0.01 * x - 1e-5 * x * x);
        let zero = secant(0.5, 10.0, &(-100.0..=100.0), 1e-9, parabola).expect("it settles");
        assert!((parabola(zero).expect("a value")).abs() < 1e-9, "{zero}");
        assert_eq!(secant(0.5, 10.0, &(-10.0..=10.0), 1e-9, parabola), None, "outside");
        assert_eq!(secant(1.0, 10.0, &(-10.0..=10.0), 1e-9, |_| Some(1.0)), None, "level");
        assert_eq!(secant(1.0, 10.0, &(-10.0..=10.0), 1e-9, |_| None), None, "without a value");
    }
}
