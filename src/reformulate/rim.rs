//! Where a figure that is asked for ends, as a straight line: below so much water there is no syrup, and no water activity.
//!
//! A model does not say why it has no figure for some amounts. So the place of the rim is sought on the way from amounts with
//! figures to amounts without, once for every line with a little more of it: how far the rim moves then is its slope.

/// How finely the rim is sought, as halvings of the way.
const HALVINGS: usize = 40;

/// How far from the rim straight lines stay, as a share of the span of the line that counts most: more than what the solver
/// leaves open.
const CLEAR: f64 = 1e-7;

/// A straight line that is not to be passed: `slope`·changes ≤ `at`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rim {
    slope: Vec<f64>,
    at: f64,
}

impl Rim {
    /// Straightened where the way leads over it; `None` where it is not straight enough to be found so.
    pub fn between(inside: &[f64], outside: &[f64], has_figures: &dyn Fn(&[f64]) -> bool) -> Option<Self> {
        /// So much of a line is added to see how the rim moves, in its span.
        const MORE: f64 = 1e-3;
        /// From so far before the rim, on the way back to the recipe as it is or with more of one line: no amount is below nought
        /// there. The nearest first, from where all lines leave it on the way.
        const BEFORE: [f64; 4] = [1e-3, 0.01, 0.1, 0.5];
        let way: Vec<f64> = outside.iter().zip(inside).map(|(outside, inside)| outside - inside).collect();
        let along = |from: &[f64], times: f64| -> Vec<f64> {
            from.iter().zip(&way).map(|(from, way)| from + times * way).collect()
        };
        let rim = along(inside, reach(&|times| has_figures(&along(inside, times)))?);
        let before = |share: f64| {
            let back = rim.iter().map(|change| (1.0 - share) * change).collect::<Vec<f64>>();
            let with_more = (0..rim.len()).map(|line| {
                let mut more = rim.clone();
                more[line] += share;
                more
            });
            std::iter::once(back).chain(with_more.collect::<Vec<_>>())
        };
        BEFORE.into_iter().flat_map(before).find_map(|start| {
            let reach_from = |from: &[f64]| reach(&|times| has_figures(&along(from, times)));
            let from_here = reach_from(&start)?;
            let mut slope = Vec::with_capacity(start.len());
            for line in 0..start.len() {
                let mut moved = start.clone();
                moved[line] += MORE;
                slope.push((from_here - reach_from(&moved)?) / MORE);
            }
            let steepest = slope.iter().fold(0.0_f64, |most, part| most.max(part.abs()));
            if steepest <= 0.0 {
                return None;
            }
            for part in &mut slope {
                *part /= steepest;
            }
            let at =
                slope.iter().zip(&along(&start, from_here)).map(|(slope, change)| slope * change).sum::<f64>() - CLEAR;
            Some(Self { slope, at })
        })
    }

    /// Its slope and its right side.
    pub fn row(&self) -> (Vec<(usize, f64)>, f64) {
        (self.slope.iter().copied().enumerate().collect(), self.at)
    }

    /// Whether some changes lie on the side of the figures.
    pub fn holds(&self, changes: &[f64]) -> bool {
        self.slope.iter().zip(changes).map(|(slope, change)| slope * change).sum::<f64>() <= self.at + CLEAR
    }
}

/// How far along a way there are figures, as a share of it; `None` where there are none at its beginning, or still some at its end.
fn reach(has_figures: &dyn Fn(f64) -> bool) -> Option<f64> {
    let (mut with, mut without) = (0.0, 1.0);
    if !has_figures(with) || has_figures(without) {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(with, without);
        if has_figures(middle) {
            with = middle;
        } else {
            without = middle;
        }
    }
    Some(with)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 3·x − y ≤ 2 has the slope (1, −1/3) and meets the way from (0, 0) to (2, 0) at 2/3.
    #[test]
    fn a_straight_rim_is_found_as_it_is() {
        let has_figures = |changes: &[f64]| 3.0 * changes[0] - changes[1] <= 2.0;
        let rim = Rim::between(&[0.0, 0.0], &[2.0, 0.0], &has_figures).unwrap();
        assert!((rim.slope[0] - 1.0).abs() < 1e-12 && (rim.slope[1] + 1.0 / 3.0).abs() < 1e-6, "{rim:?}");
        assert!((rim.at - 2.0 / 3.0).abs() < 1e-6, "{rim:?}");
        assert!(rim.holds(&[0.6, 0.0]) && !rim.holds(&[0.7, 0.0]));
        // The other line moves it.
        assert!(rim.holds(&[0.7, 0.2]));
    }

    /// Where the way begins on the rim, it is found from before it.
    #[test]
    fn a_way_that_begins_on_the_rim() {
        let has_figures = |changes: &[f64]| changes[0] + changes[1] <= 1.0;
        let rim = Rim::between(&[0.5, 0.5], &[0.6, 0.6], &has_figures).unwrap();
        assert!(rim.holds(&[0.0, 0.99]) && !rim.holds(&[0.0, 1.01]), "{rim:?}");
    }

    #[test]
    fn no_rim_where_there_are_figures_everywhere_or_none() {
        assert_eq!(Rim::between(&[0.0], &[1.0], &|_| true), None);
        assert_eq!(Rim::between(&[0.0], &[1.0], &|_| false), None);
    }
}
