//! How misses change with amounts.

use super::{Form, Model};

impl Model<'_> {
    /// How each constraint's miss changes with each amount's change in its span; rows are constraints.
    ///
    /// Exact of what is linear; of the models by differences on both sides, on one where an amount cannot go lower.
    /// `None` where a model has no figure around these amounts.
    pub fn slopes(&self, amounts: &[f64]) -> Option<Vec<Vec<f64>>> {
        self.slopes_of(amounts, &|_| true)
    }

    /// The same of those rows that count; of the others the models are not asked.
    pub fn slopes_of(&self, amounts: &[f64], counts: &dyn Fn(usize) -> bool) -> Option<Vec<Vec<f64>>> {
        /// Of the span of a line: large against the last bits of the models, small against their bends.
        const STEP: f64 = 1e-4;
        let mut slopes: Vec<Vec<f64>> = self
            .constraints
            .iter()
            .map(|constraint| match &constraint.form {
                Form::Linear { factors, .. } => {
                    factors.iter().zip(&self.spans).map(|(factor, span)| factor * span).collect()
                }
                Form::Modelled { .. } => vec![0.0; amounts.len()],
            })
            .collect();
        let is_modelled = |&row: &usize| counts(row) && !self.is_linear(row);
        let rows: Vec<usize> = (0..self.constraints.len()).filter(is_modelled).collect();
        if rows.is_empty() {
            return Some(slopes);
        }
        let mut moved = amounts.to_vec();
        let here = self.modelled(amounts, counts)?;
        for (idx, &span) in self.spans.iter().enumerate().filter(|(idx, _)| !self.is_out[*idx]) {
            let step = STEP * span;
            moved[idx] = amounts[idx] + step;
            let above = self.modelled(&moved, counts);
            moved[idx] = amounts[idx] - step;
            let below = if moved[idx] < 0.0 { None } else { self.modelled(&moved, counts) };
            moved[idx] = amounts[idx];
            let (from, above) = match (&below, above) {
                (None, None) => self.seen_from_inside(amounts, idx, step, counts)?.map(Some).into(),
                (_, above) => (None, above),
            };
            let here = from.as_ref().unwrap_or(&here);
            for &row in &rows {
                let to_above = above.as_ref().map(|above| (above[row] - here[row]) / STEP);
                let to_below = below.as_ref().map(|below| (here[row] - below[row]) / STEP);
                slopes[row][idx] = slope_between(to_below, to_above);
            }
        }
        Some(slopes)
    }

    /// The misses without and with a little more of a line, with some of another line added or taken away so that there are
    /// figures: where figures end, more of a line that there is none of can lead out, while less of it is not to be had.
    fn seen_from_inside(
        &self,
        amounts: &[f64],
        line: usize,
        step: f64,
        counts: &dyn Fn(usize) -> bool,
    ) -> Option<[Vec<f64>; 2]> {
        /// More than the step takes away.
        const ROOM: f64 = 1e-3;
        let others = (0..amounts.len()).filter(|&other| other != line);
        others.flat_map(|other| [(other, ROOM), (other, -ROOM)]).find_map(|(other, room)| {
            let mut moved = amounts.to_vec();
            moved[other] += room * self.spans[other];
            if moved[other] < 0.0 {
                return None;
            }
            let without = self.modelled(&moved, counts)?;
            moved[line] += step;
            Some([without, self.modelled(&moved, counts)?])
        })
    }
}

/// A slope from those on both sides, or on the one where there is one.
///
/// Of a jump (a doubt that widens a band from some figure on) only the side away from it has a slope.
fn slope_between(below: Option<f64>, above: Option<f64>) -> f64 {
    /// Steeper than this, in grains for a line that doubles, is no result of a recipe.
    const JUMP: f64 = 1e3;
    /// And so many times as steep as on the other side.
    const TIMES: f64 = 50.0;
    let (Some(below), Some(above)) = (below, above) else { return below.or(above).unwrap_or(0.0) };
    let is_jump = |this: f64, other: f64| this.abs() > JUMP && this.abs() > TIMES * other.abs();
    if is_jump(above, below) {
        below
    } else if is_jump(below, above) {
        above
    } else {
        0.5 * (below + above)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ingredient::Library;
    use crate::recipe::{Quantity, Recipe};
    use crate::reformulate::measured::Measured;
    use crate::reformulate::model::Quotients;
    use crate::reformulate::problem::Problem;
    use crate::reformulate::target::{Bound, Target};
    use crate::units::Celsius;

    /// The slopes of what bends against differences ten times as wide on the models themselves: of a smooth figure the two
    /// differ by the square of the step, which is far below a hundredth.
    #[test]
    fn slopes_are_those_of_the_models() {
        const WIDER: f64 = 1e-3;
        let mut recipe = Recipe::default();
        for (id, grams) in [
            ("couverture-dark-64", 380.0),
            ("cream-35", 190.0),
            ("butter-82", 40.0),
            ("sucrose", 60.0),
            ("glucose-syrup-de40", 35.0),
        ] {
            let ingredient = Library::built_in().by_id(id).expect("built in").clone();
            recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
        }
        let bends = [
            Measured::WaterActivity,
            Measured::SucroseSupersaturation,
            Measured::DispersedVolume,
            Measured::FatVolume,
            Measured::SolidFat(Celsius(20.0)),
            Measured::FormVLimit,
            Measured::Contraction,
        ];
        let targets = bends.map(|of| Target::new(of, Bound::AtMost(0.5))).to_vec();
        let problem = Problem { targets, ..Problem::new(recipe) };
        let model = Model::new(&problem, Quotients::Straight).expect("well put");
        let slopes = model.slopes(&model.before).expect("figures");
        let modelled = (0..model.constraints.len()).filter(|&row| !model.is_linear(row));
        let mut checked = 0;
        for row in modelled {
            for line in 0..model.before.len() {
                let with = |times: f64| {
                    let mut amounts = model.before.clone();
                    amounts[line] += times * WIDER * model.spans[line];
                    model.misses(&amounts).expect("figures")[row]
                };
                let wide = (with(1.0) - with(-1.0)) / (2.0 * WIDER);
                let (slope, most) =
                    (slopes[row][line], slopes[row].iter().fold(0.0_f64, |most, part| most.max(part.abs())));
                assert!((slope - wide).abs() <= 0.01 * most, "{row} {line}: {slope} {wide}");
                checked += usize::from(wide.abs() > 0.0);
            }
        }
        assert!(checked >= 25, "{checked}");
    }
}
