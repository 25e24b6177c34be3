//! What there is to say about an answer beside its figures: what a chef would ask before he signs it.

use super::{ReformulationWords, amount};
use crate::analysis::make_up::make_up;
use crate::analysis::usual::{Place as Where, UsualRange, usual_ranges};
use crate::number::{DecimalSign, fixed, shortest};
use crate::reformulate::problem::is_seasoning;
use crate::reformulate::{Answer, Measured, Move};
use crate::report::words::{capital, usual_range};

/// A line that becomes more than so many times itself makes another product (judged).
const MUCH_MORE: f64 = 3.0;

impl ReformulationWords<'_> {
    /// What an answer changed and for what, in one sentence: "For water activity at most 0.85: more invert sugar syrup
    /// (+20 g); less cream (−20 g)."
    #[must_use]
    pub fn summary(&self, answer: &Answer) -> String {
        let list = |is_wanted: fn(f64) -> bool| {
            let mut moved: Vec<&Move> =
                answer.moves.iter().filter(|moved| is_wanted(moved.after.0 - moved.before.0)).collect();
            let by = |moved: &Move| (moved.after.0 - moved.before.0).abs();
            moved.sort_by(|left, right| by(right).total_cmp(&by(left)));
            let each: Vec<String> = moved
                .iter()
                .map(|moved| {
                    let by = moved.after.0 - moved.before.0;
                    let sign = if by > 0.0 { "+" } else { "" };
                    format!("{} ({sign}{})", self.place(moved.place), amount(crate::units::Grams(by), self.sign))
                })
                .collect();
            each.join(", ")
        };
        let (more, less) = (list(|by| by > 0.0), list(|by| by < 0.0));
        let asked: Vec<String> = answer
            .reached
            .iter()
            .filter(|reached| reached.is_binding)
            .map(|reached| super::target_in_short(&reached.target, self.sign))
            .collect();
        let parts: Vec<String> = [("more", more), ("less", less)]
            .into_iter()
            .filter(|(_, list)| !list.is_empty())
            .map(|(word, list)| format!("{word} {list}"))
            .collect();
        match (asked.is_empty(), parts.is_empty()) {
            (_, true) => "Nothing changes.".to_owned(),
            (true, false) => format!("{}.", capital(&parts.join("; "))),
            (false, false) => format!("For {}: {}.", asked.join(" and "), parts.join("; ")),
        }
    }

    /// What there is to say about an answer before it is made, each a sentence.
    #[must_use]
    pub fn notes(&self, answer: &Answer) -> Vec<String> {
        let mut notes = Vec::new();
        let named = |is_so: &dyn Fn(&Move) -> bool| {
            let names: Vec<String> =
                answer.moves.iter().filter(|moved| is_so(moved)).map(|moved| self.place(moved.place)).collect();
            (!names.is_empty()).then_some(names)
        };
        if let Some(names) = named(&|moved| moved.before.0 > 0.0 && moved.after.0 <= 0.0) {
            notes.push(format!("Not used any more: {}.", names.join(", ")));
        }
        let times = |moved: &Move| moved.after.0 / moved.before.0;
        if let Some(names) = named(&|moved| moved.before.0 > 0.0 && times(moved) > MUCH_MORE) {
            let most = answer.moves.iter().filter(|moved| moved.before.0 > 0.0).map(times).fold(0.0, f64::max);
            notes.push(format!(
                "More than {} times as much as before: {} (up to {} times). That is another product: taste it first, or \
                 let something else be used besides.",
                shortest(MUCH_MORE, 0, self.sign),
                names.join(", "),
                shortest(most, 0, self.sign)
            ));
        }
        let rises = |moved: &Move| is_seasoning(&moved.ingredient) && moved.after > moved.before;
        if let Some(names) = named(&rises) {
            notes.push(format!("Seasoning rises: {}. Lock it if the taste is to stay.", names.join(", ")));
        }
        notes.extend(self.left_the_usual(answer));
        if answer.reached.iter().any(|reached| reached.target.of == Measured::WaterActivity) {
            notes.push(
                "The water activity is computed: measure that of the first batch. How long it keeps is decided by \
                 measurement, hazard analysis and local food codes."
                    .to_owned(),
            );
        }
        notes
    }

    /// What was usual before and is not any more.
    fn left_the_usual(&self, answer: &Answer) -> Option<String> {
        let [before, after] = [&self.problem.recipe, &answer.recipe].map(|recipe| make_up(recipe).bowl);
        let left: Vec<String> = usual_ranges(&answer.recipe)
            .iter()
            .filter(|range| range.concerns(&after))
            .filter_map(|range| {
                let place = |bowl| range.of.of(bowl).map(|share| range.place(share));
                let share = range.of.of(&after)?;
                let is_left = place(&before) == Some(Where::Within) && place(&after) != Some(Where::Within);
                is_left.then(|| outside(range, share.to_percent(), self.sign))
            })
            .collect();
        let column = usual_ranges(&answer.recipe).first().map(|range| range.column.words())?;
        (!left.is_empty()).then(|| format!("No longer usual for {column}: {}.", left.join("; ")))
    }
}

/// "sugars 41.2 % (usual 26 to 36 %)".
fn outside(range: &UsualRange, percent: f64, sign: DecimalSign) -> String {
    format!("{} {} % (usual {})", range.of.words(), fixed(percent, 1, sign), usual_range(range, sign))
}
