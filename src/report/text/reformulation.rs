//! A reformulation as text: what was asked, what moved and why, what came of it; or why it cannot be done.

use std::fmt::Write as _;

use super::{clipped, heading, wrapped};
use crate::analysis::water::state::step;
use crate::number::{DecimalSign, fixed};
use crate::reformulate::helpers::Helpers;
use crate::reformulate::{Answer, Measured, Outcome, Problem, Reached, sensitivities};
use crate::report::words::reformulation::{LimitReached, ReformulationWords, amount, decimals, measured, sentence};
use crate::units::Grams;

/// Widest name of a line: the reasons need the room behind it.
const NAMES: usize = 30;

/// What no scale shows, g.
const SEEN: f64 = 5e-3;

/// The outcome of a problem as text.
#[must_use]
pub fn report(problem: &Problem, outcome: &Outcome, sign: DecimalSign) -> String {
    let mut text = String::new();
    let writer = Writer { problem, words: ReformulationWords::new(problem, sign), sign };
    // Writing to a String cannot fail.
    let _ = writer.write(&mut text, outcome);
    text
}

struct Writer<'a> {
    problem: &'a Problem,
    words: ReformulationWords<'a>,
    sign: DecimalSign,
}

impl Writer<'_> {
    fn write(&self, out: &mut String, outcome: &Outcome) -> std::fmt::Result {
        let name = &self.problem.recipe.name;
        writeln!(out, "{}", if name.is_empty() { "Unnamed recipe" } else { name })?;
        self.asked(out)?;
        match outcome {
            Outcome::Unchanged(reached) => {
                heading(out, "Everything that is asked for holds already")?;
                self.results(out, reached, &self.words.limits_unchanged())
            }
            Outcome::Changed(answer) => {
                heading(out, "The nearest recipe")?;
                wrapped(out, "  ", &self.words.summary(answer))?;
                self.amounts(out, answer)?;
                heading(out, "What it does")?;
                self.results(out, &answer.reached, &self.words.limits(answer))?;
                self.notes(out, answer)?;
                self.sensitivities(out, answer)
            }
            Outcome::Impossible(why) => {
                heading(out, "It cannot be done")?;
                for sentence in self.words.impossible(why).into_iter().chain(self.words.what_next(why)) {
                    wrapped(out, "  ", &sentence)?;
                }
                let typed = why.helpers.iter().flat_map(Helpers::named);
                let typed: Vec<String> = typed.map(|helper| format!("--allow {}", helper.ingredient.id)).collect();
                if !typed.is_empty() {
                    wrapped(out, "  ", &format!("As it is typed: {}", typed.join(", or ")))?;
                }
                let limits = self.words.limits(&why.nearest);
                let is_missed = why.nearest.missed().next().is_some() || limits.iter().any(|limit| !limit.is_met());
                let what_it_does =
                    if is_missed { "it misses what is marked" } else { "it does not stand on the steps of the scale" };
                heading(out, &format!("The recipe that comes nearest; {what_it_does}"))?;
                self.amounts(out, &why.nearest)?;
                writeln!(out)?;
                self.results(out, &why.nearest.reached, &limits)?;
                self.notes(out, &why.nearest)
            }
            Outcome::Stopped => heading(out, "No answer was found: the search came to no end"),
        }
    }

    fn asked(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Asked for")?;
        for asked in &self.problem.targets {
            wrapped(out, "  ", &sentence(&self.words.target(asked)))?;
        }
        for limit in self.problem.limits.iter().filter(|limit| !self.problem.only_holds_seasoning(limit)) {
            wrapped(out, "  ", &sentence(&self.words.rule(limit.place, limit.rule)))?;
        }
        if let Some(held) = self.words.seasoning_held() {
            let rises = self.words.seasoning_let_rise().map(|how| format!("; {how} lets it rise")).unwrap_or_default();
            wrapped(out, "  ", &sentence(&format!("{held}{rises}")))?;
        }
        for (idx, allowed) in self.problem.allowed.iter().enumerate() {
            let place = self.words.place(crate::reformulate::Place::Allowed(idx));
            let most = allowed.most.map(|most| format!(", at most {}", amount(most, self.sign))).unwrap_or_default();
            wrapped(out, "  ", &sentence(&format!("{place} may be used besides{most}")))?;
        }
        let total = if self.problem.keeps_total {
            format!("the lines weigh {} together as before", amount(self.problem.recipe.weighed(), self.sign))
        } else if self.problem.targets.iter().any(|target| target.of == Measured::FinishedMass) {
            "the batch may change its weight".to_owned()
        } else {
            let least = amount(self.problem.least_total(), self.sign);
            format!("the batch may change its weight, but {least} of it stay at least")
        };
        wrapped(out, "  ", &sentence(&format!("{total}; {}", self.words.change())))
    }

    fn amounts(&self, out: &mut String, answer: &Answer) -> std::fmt::Result {
        let grams = |grams: Grams| amount(grams, self.sign);
        for moved in answer.moves.iter().filter(|moved| moved.before.0 > 0.0 || moved.after.0 > 0.0) {
            let name = clipped(&self.words.place(moved.place), NAMES);
            let by = moved.after.0 - moved.before.0;
            let by = if by.abs() < SEEN { String::new() } else { self.signed(by) };
            let row = format!("  {name:30} {:>9} {:>9} {by:>9}  ", grams(moved.before), grams(moved.after));
            let why = self.words.why_moved(moved);
            if why.is_empty() || moved.before == moved.after {
                writeln!(out, "{}", row.trim_end())?;
            } else {
                wrapped(out, &row, &why)?;
            }
        }
        let sum = |of: fn(&crate::reformulate::Move) -> Grams| answer.moves.iter().map(of).sum::<Grams>();
        let (before, after) = (sum(|moved| moved.before), sum(|moved| moved.after));
        writeln!(out, "  {:30} {:>9} {:>9}", "together", grams(before), grams(after))
    }

    fn signed(&self, by: f64) -> String {
        let sign = if by > 0.0 { "+" } else { "" };
        format!("{sign}{}", amount(Grams(by), self.sign))
    }

    fn results(&self, out: &mut String, reached: &[Reached], limits: &[LimitReached]) -> std::fmt::Result {
        for one in reached {
            let mark = if one.is_met() { "  " } else { "! " };
            wrapped(out, mark, &self.words.reached(one))?;
        }
        // Seasoning that is held is told above, unless it could not be.
        for limit in limits.iter().filter(|limit| !limit.is_seasoning || !limit.is_met()) {
            wrapped(out, if limit.is_met() { "  " } else { "! " }, &limit.text)?;
        }
        Ok(())
    }

    fn notes(&self, out: &mut String, answer: &Answer) -> std::fmt::Result {
        let notes = self.words.notes(answer);
        if !notes.is_empty() {
            heading(out, "Before you make it")?;
        }
        for note in notes {
            wrapped(out, "  ", &note)?;
        }
        Ok(())
    }

    /// What a little more of each line would do to each result of the answer.
    fn sensitivities(&self, out: &mut String, answer: &Answer) -> std::fmt::Result {
        let changed =
            Problem { recipe: answer.recipe.clone(), allowed: Vec::new(), limits: Vec::new(), ..self.problem.clone() };
        let (_, table) = sensitivities(&changed);
        if table.is_empty() {
            return Ok(());
        }
        let more = amount(step(answer.recipe.weighed()), self.sign);
        heading(out, &format!("What {more} more of a line alone would do"))?;
        let words = ReformulationWords::new(&changed, self.sign);
        for (idx, line) in changed.recipe.lines.iter().enumerate().filter(|(_, line)| line.amount.grams().0 > 0.0) {
            let name = clipped(&words.place(crate::reformulate::Place::Line(line.id)), NAMES);
            let each: Vec<String> = self
                .problem
                .targets
                .iter()
                .zip(&table)
                .filter_map(|(target, row)| {
                    let by = (*row.get(idx)?)?;
                    let sign = if by > 0.0 { "+" } else { "" };
                    let places = decimals(target.of) + 1;
                    Some(format!("{} {sign}{}", measured(target.of, self.sign), fixed(by, places, self.sign)))
                })
                .collect();
            wrapped(out, &format!("  {name:30} "), &each.join(", "))?;
        }
        Ok(())
    }
}
