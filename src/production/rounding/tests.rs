use approx::assert_abs_diff_eq;
use proptest::prelude::*;

use super::*;

/// Dark chocolate, cream, invert sugar, glucose syrup, butter, salt, vanilla: shares of a cut ganache in percent.
const GANACHE: [f64; 7] = [44.8, 33.3, 6.1, 5.4, 8.2, 0.3, 1.9];

fn masses(grams: &[f64]) -> Vec<Grams> {
    grams.iter().copied().map(Grams).collect()
}

/// Amounts to a total in steps that are the same for all.
fn to_step(amounts: &[f64], total: f64, step: f64) -> Result<Rounded, RoundingError> {
    round_to_scale(&masses(amounts), Grams(total), &vec![Grams(step); amounts.len()])
}

fn check_rounded(amounts: &[f64], total: f64, step: f64, expected: &[f64]) -> Rounded {
    let rounded = to_step(amounts, total, step).expect("it can be weighed");
    let grams: Vec<f64> = rounded.lines.iter().map(|line| line.rounded.0).collect();
    assert_eq!(grams, expected);
    rounded
}

fn places(rounded: &Rounded) -> Vec<usize> {
    rounded.too_coarse().map(|(place, _)| place).collect()
}

/// The textbook case of the method: 50, 30 and 20 and seven units.
#[test]
fn the_textbook_case_of_the_largest_remainder() {
    check_rounded(&[50.0, 30.0, 20.0], 7.0, 1.0, &[4.0, 2.0, 1.0]);
}

/// Worked example, by hand: plain rounding would give 1443 g.
#[test]
fn a_ganache_of_1445_g_in_steps_of_1_g() {
    let rounded = check_rounded(&GANACHE, 1445.0, 1.0, &[647.0, 481.0, 88.0, 78.0, 119.0, 4.0, 28.0]);
    assert_eq!((rounded.total, rounded.requested), (Grams(1445.0), Grams(1445.0)));
    let exact = [647.36, 481.185, 88.145, 78.03, 118.49, 4.335, 27.455];
    let points = [-0.0249, -0.0128, -0.0100, -0.0021, 0.0353, -0.0232, 0.0377];
    for ((line, exact), points) in rounded.lines.iter().zip(exact).zip(points) {
        assert_abs_diff_eq!(line.exact.0, exact, epsilon = 1e-9);
        assert_abs_diff_eq!(line.composition_error.to_percent(), points, epsilon = 5e-5);
    }
    assert_eq!(places(&rounded), [5]);
    let error = rounded.lines[5].relative_error.expect("there is salt");
    assert_abs_diff_eq!(error.to_percent(), -7.7, epsilon = 0.05);
}

/// Worked example, by hand.
#[test]
fn a_coarser_scale_is_too_coarse_for_four_of_them() {
    let rounded = check_rounded(&GANACHE, 1445.0, 5.0, &[645.0, 480.0, 90.0, 80.0, 120.0, 5.0, 25.0]);
    assert_eq!(places(&rounded), [2, 3, 5, 6]);
    let percent = |place: usize| rounded.lines[place].relative_error.expect("some").to_percent();
    assert_abs_diff_eq!(percent(5), 15.3, epsilon = 0.05);
    assert_abs_diff_eq!(percent(6), -8.9, epsilon = 0.05);
}

/// Worked example, by hand: 372 steps of 2 g.
#[test]
fn a_step_that_does_not_divide_the_total_gives_another_total() {
    let rounded = check_rounded(&GANACHE, 745.0, 2.0, &[334.0, 248.0, 46.0, 40.0, 60.0, 2.0, 14.0]);
    assert_eq!((rounded.total, rounded.requested), (Grams(744.0), Grams(745.0)));
    assert_abs_diff_eq!(rounded.lines[0].exact.0, 333.76, epsilon = 1e-9);
}

/// By hand: quotas 1.5, 2.5 and 1.0 have the same remainder twice; 0.5 and 0.5 are in the order of the recipe.
#[test]
fn of_equal_remainders_the_larger_quota_comes_first_and_then_the_order_of_the_recipe() {
    check_rounded(&[1.5, 2.5, 1.0], 5.0, 1.0, &[1.0, 3.0, 1.0]);
    check_rounded(&[0.5, 0.5], 1.0, 1.0, &[1.0, 0.0]);
    check_rounded(&[0.1, 0.1, 0.1], 1.0, 1.0, &[1.0, 0.0, 0.0]);
}

/// By hand: 1440.665 g are 1441 steps of 1 g, 4.335 g of salt get what is left. On its own scale the salt stays right.
#[test]
fn each_line_may_have_a_scale_of_its_own() {
    let amounts: Vec<Grams> = GANACHE.iter().map(|&percent| Grams(percent * 14.45)).collect();
    let steps: Vec<Grams> = (0..7).map(|idx| Grams(if idx == 5 { 0.1 } else { 1.0 })).collect();
    let kept = round_to_scale(&amounts, Grams(1445.0), &steps).expect("it can be weighed");
    assert_eq!((kept.lines[5].rounded, kept.total), (Grams(4.0), Grams(1445.0)));
    let own = round_on_each_scale(&amounts, Grams(1445.0), &steps).expect("it can be weighed");
    assert_eq!((own.lines[5].rounded, own.total), (Grams(4.3), Grams(1445.3)));
    assert!(places(&own).is_empty());
}

/// By hand: three scales; 62 of 5 g are 60, of the 40 left 30 of 31.09 are 31 in steps of 1 g, 9 are the rest.
#[test]
fn the_finer_scales_share_out_what_the_coarser_leave() {
    let rounded =
        round_to_scale(&masses(&[62.0, 30.0, 8.0]), Grams(100.0), &masses(&[5.0, 2.0, 0.5])).expect("weighed");
    let grams: Vec<f64> = rounded.lines.iter().map(|line| line.rounded.0).collect();
    // 62 → 60; (100 − 60)·30/38 = 31.58 → 32; 8 is what is left.
    assert_eq!(grams, [60.0, 32.0, 8.0]);
}

/// The coarse line would be rounded up to more than there is.
#[test]
fn a_coarse_line_takes_no_more_than_there_is() {
    let rounded = round_to_scale(&masses(&[4.0, 0.5]), Grams(4.5), &masses(&[5.0, 0.1])).expect("weighed");
    assert_eq!((rounded.lines[0].rounded, rounded.lines[1].rounded), (Grams(0.0), Grams(4.5)));
}

#[test]
fn nothing_of_a_line_stays_nothing_and_is_never_too_coarse() {
    let rounded = check_rounded(&[0.0, 3.3, 3.3, 3.4], 10.0, 1.0, &[0.0, 3.0, 3.0, 4.0]);
    assert_eq!((rounded.lines[0].relative_error, rounded.lines[0].needs_finer_scale()), (None, false));
    let finer = round_to_scale(&masses(&[0.0, 7.0]), Grams(7.4), &masses(&[0.1, 1.0])).expect("weighed");
    assert_eq!((finer.lines[0].rounded, finer.total), (Grams(0.0), Grams(7.0)));
}

#[test]
fn large_and_small_amounts_are_exact_to_their_step() {
    let third = 1e9 / 3.0;
    let rounded = to_step(&[third, third, third], 1e9, 0.001).expect("it can be weighed");
    assert_abs_diff_eq!(rounded.lines.iter().map(|line| line.rounded.0).sum::<f64>(), 1e9, epsilon = 1e-6);
    assert_eq!(rounded.total, Grams(1e9));
    check_rounded(&[1e9], 1e9, 1e9, &[1e9]);
    check_rounded(&[0.001, 0.003], 0.004, 0.001, &[0.001, 0.003]);
    check_rounded(&[1e9, 1e-9], 1e9, 0.001, &[1e9, 0.0]);
    check_rounded(&[1e-9, 3e-9], 4.0, 1.0, &[1.0, 3.0]);
    check_rounded(&[1e-15, 3e-15], 4e6, 1.0, &[1e6, 3e6]);
}

#[test]
fn what_cannot_be_weighed_is_refused_in_words() {
    let refused = |amounts: &[f64], total: f64, step: f64| {
        to_step(amounts, total, step).expect_err("it cannot be weighed").to_string()
    };
    for (error, words) in [
        (refused(&[f64::NAN], 1.0, 1.0), "amount 1 is NaN g"),
        (refused(&[1.0, -1.0], 1.0, 1.0), "amount 2 is -1 g"),
        (refused(&[f64::INFINITY], 1.0, 1.0), "amount 1 is inf g"),
        (refused(&[2e9], 1.0, 1.0), "from 0 to 1,000 tonnes"),
        (refused(&[1.0], 0.0, 1.0), "a total of 0 g"),
        (refused(&[1.0], f64::NAN, 1.0), "a total of NaN g"),
        (refused(&[1.0], 1.0, 0.0), "no scale has steps of 0 g"),
        (refused(&[1.0], 1.0, f64::NAN), "no scale has steps of NaN g"),
        (refused(&[1.0], 1.0, -1.0), "no scale has steps of -1 g"),
        (refused(&[0.0, 0.0], 1.0, 1.0), "nothing weighs anything"),
        (refused(&[], 1.0, 1.0), "nothing weighs anything"),
        (refused(&[1.0], 4.0, 5.0), "4 g are less than one step of the scale, 5 g"),
    ] {
        assert!(error.contains(words), "{words}: {error}");
    }
    let error = round_to_scale(&[Grams(1.0)], Grams(1.0), &[]).expect_err("one step is missing");
    assert!(error.to_string().contains("1 amounts and 0 steps"), "{error}");
}

/// Amounts with their steps, and a total.
fn weighings() -> impl Strategy<Value = (Vec<(f64, f64)>, f64)> {
    let amount = prop_oneof![Just(0.0), 0.001..50.0, 50.0..5000.0];
    let step = prop::sample::select(vec![0.001, 0.01, 0.1, 0.5, 1.0, 2.0, 5.0, 1.771_845]);
    (prop::collection::vec((amount, step), 1..16), 1.0..1e5)
}

proptest! {
    /// The total is kept where the step divides it, and every line is off by less than a step.
    #[test]
    fn the_total_is_kept_and_every_line_is_within_a_step(
        amounts in prop::collection::vec(0.0..5000.0, 1..16),
        count in 1_u32..100_000,
        step in prop::sample::select(vec![0.001, 0.01, 0.1, 1.0, 2.0, 5.0]),
    ) {
        prop_assume!(amounts.iter().sum::<f64>() > 1e-3);
        let total = f64::from(count) * step;
        let rounded = to_step(&amounts, total, step).expect("it can be weighed");
        prop_assert!((rounded.total.0 - total).abs() <= 1e-9 * total, "{} of {total}", rounded.total.0);
        let sum: f64 = rounded.lines.iter().map(|line| line.rounded.0).sum();
        prop_assert!((sum - total).abs() <= 1e-9 * total);
        for line in &rounded.lines {
            prop_assert!((line.rounded.0 - line.exact.0).abs() < step * (1.0 + 1e-6), "{line:?}");
            let steps = line.rounded.0 / step;
            prop_assert!((steps - steps.round()).abs() < 1e-6);
        }
        let points: f64 = rounded.lines.iter().map(|line| line.composition_error.0).sum();
        prop_assert!(points.abs() < 1e-9);
    }

    /// With a scale for each line nothing is ever more than was asked for, and less only by a step of the finest in use.
    #[test]
    fn several_scales_share_out_the_total((lines, total) in weighings()) {
        let amounts: Vec<Grams> = lines.iter().map(|line| Grams(line.0)).collect();
        let steps: Vec<Grams> = lines.iter().map(|line| Grams(line.1)).collect();
        let in_use = lines.iter().filter(|line| line.0 > 0.0).map(|line| line.1);
        let Some(finest) = in_use.clone().min_by(f64::total_cmp) else { return Ok(()) };
        let coarsest = in_use.max_by(f64::total_cmp).unwrap_or(finest);
        let Ok(rounded) = round_to_scale(&amounts, Grams(total), &steps) else { return Ok(()) };
        let less = total - rounded.total.0;
        prop_assert!((-1e-6..finest + 1e-6).contains(&less), "{less} of {finest}");
        let own = round_on_each_scale(&amounts, Grams(total), &steps).expect("it can be weighed");
        let count = 8.0;
        prop_assert!((total - own.total.0).abs() < count * coarsest, "{}", own.total.0);
        for line in &own.lines {
            prop_assert!((line.rounded.0 - line.exact.0).abs() < 2.0 * line.step.0, "{line:?}");
        }
    }

    /// The order of the lines decides nothing but ties.
    #[test]
    fn the_order_of_different_amounts_does_not_matter(mut amounts in prop::collection::vec(0.1..5000.0, 1..12)) {
        amounts.sort_by(f64::total_cmp);
        amounts.dedup();
        let mut forward: Vec<f64> = to_step(&amounts, 500.0, 1.0).expect("weighed").lines.iter().map(|l| l.rounded.0).collect();
        amounts.reverse();
        let backward: Vec<f64> = to_step(&amounts, 500.0, 1.0).expect("weighed").lines.iter().map(|l| l.rounded.0).collect();
        forward.reverse();
        prop_assert_eq!(forward, backward);
    }
}
