//! What there is to say about an answer beside its figures: what a chef would ask before he signs it.

use super::{ReformulationWords, amount};
use crate::analysis::finding::{Finding, Subject};
use crate::analysis::findings::warnings;
use crate::analysis::make_up::{MakeUp, make_up};
use crate::analysis::parts::{Group, Parts};
use crate::analysis::usual::{Place as Where, UsualRange, usual_ranges};
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, shortest};
use crate::recipe::{Evaporation, LineId, Recipe};
use crate::reformulate::problem::is_seasoning;
use crate::reformulate::{Answer, Bound, Measured, Member, Move, Reached, Target};
use crate::report::words::{capital, finding, usual_range};

/// Seasoning that falls by this share is tasted (judged).
const TASTED: f64 = 0.1;

/// Percent of the mass that data sheets leave open, from which on it is told; below it, it is their rounding (judged).
const LEFT_OPEN: f64 = 1.0;

/// A line that becomes more than so many times itself makes another product (judged).
const MUCH_MORE: f64 = 3.0;

/// So does one of which less than this share is left (judged).
const MUCH_LESS: f64 = 1.0 / MUCH_MORE;

/// Where the search was ended before it came to rest.
const NOT_SETTLED: &str = "The search was ended before it came to rest: there may be a nearer recipe.";

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
        let mut asked: Vec<String> = answer
            .reached
            .iter()
            .filter(|reached| reached.is_binding)
            .map(|reached| super::target_in_short(&reached.target, self.money, self.sign))
            .collect();
        // What is asked of amounts moves lines too.
        for pull in answer.moves.iter().flat_map(|moved| super::told_pulls(moved)) {
            let words = self.member(pull.member);
            let is_asked = match pull.member {
                Member::Limit(idx) => {
                    self.problem.limits.get(idx).is_some_and(|limit| !self.problem.only_holds_seasoning(limit))
                }
                Member::Allowance(_) => true,
                Member::Target(_) | Member::Total | Member::Lock(_) => false,
            };
            if is_asked && !asked.contains(&words) {
                asked.push(words);
            }
        }
        let asked = if asked.is_empty() { self.limits_that_moved(answer) } else { asked };
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

    /// What is asked of amounts and did not hold before: where no target pulls, that is what it is all for.
    fn limits_that_moved(&self, answer: &Answer) -> Vec<String> {
        let was_missed = self.limits_unchanged().into_iter().map(|limit| !limit.is_met());
        let is_met = self.limits(answer).into_iter().map(|limit| limit.is_met());
        let limits = self.problem.limits.iter().zip(was_missed.zip(is_met));
        let came_to_hold = limits.filter(|(_, (was_missed, is_met))| *was_missed && *is_met);
        came_to_hold.map(|(limit, _)| self.rule(limit.place, limit.rule)).collect()
    }

    /// What there is to say about an answer before it is made, each a sentence.
    #[must_use]
    pub fn notes(&self, answer: &Answer) -> Vec<String> {
        let asks_for_water = answer.reached.iter().any(|reached| reached.target.of == Measured::WaterActivity);
        let mut notes = self.notes_between(&self.problem.recipe, &answer.recipe, &answer.moves, asks_for_water);
        notes.extend(self.cook_instead(answer).map(str::to_owned));
        notes.extend(self.another_batch(answer));
        if !answer.is_settled {
            notes.push(NOT_SETTLED.to_owned());
        }
        notes
    }

    /// That the batch weighs something else, where it may and where that is much.
    fn another_batch(&self, answer: &Answer) -> Option<String> {
        /// As a share of what it weighed (judged).
        const MUCH: f64 = 0.05;
        let (before, after) = (self.problem.recipe.weighed(), answer.recipe.weighed());
        let is_told = !self.problem.keeps_total && (after.0 - before.0).abs() >= MUCH * before.0;
        let grams = |grams| amount(grams, self.sign);
        is_told.then(|| format!("The batch weighs {} in the place of {}.", grams(after), grams(before)))
    }

    /// That less water of a cooked mass is a matter of its temperature first.
    fn cook_instead(&self, answer: &Answer) -> Option<&'static str> {
        let is_for_less_water = |target: &Target| {
            let is_of_water = matches!(
                target.of,
                Measured::WaterActivity | Measured::Group(Group::Water) | Measured::Component(Component::Water)
            );
            is_of_water && matches!(target.bound, Bound::AtMost(_) | Bound::Between(..))
        };
        let is_cooked = matches!(self.problem.recipe.losses.evaporation, Evaporation::CookedTo { .. });
        let is_missed_or_binding = |reached: &&Reached| reached.is_binding || !reached.is_met();
        let asks = answer.reached.iter().filter(is_missed_or_binding).any(|reached| is_for_less_water(&reached.target));
        (is_cooked && asks).then_some(
            "How much water a cooked mass keeps is decided by the temperature to which it is cooked: for less of it, \
             try a hotter cook before other amounts.",
        )
    }

    /// The same of two recipes and the amounts that moved between them.
    pub(in crate::report::words) fn notes_between(
        &self,
        before: &Recipe,
        after: &Recipe,
        moves: &[Move],
        asks_for_water: bool,
    ) -> Vec<String> {
        let mut notes = super::news::news(before, after, self.sign);
        notes.extend(self.moves_to_mind(moves));
        let made_up = [make_up(before), make_up(after)];
        let [was, warnings] = [warnings(before, &made_up[0]), warnings(after, &made_up[1])];
        notes.extend(new_allergens(&was, &warnings));
        notes.extend(self.left_the_usual(after, [&made_up[0].bowl, &made_up[1].bowl]));
        let is_new = |warning: &&Finding| was.iter().all(|other| other.code != warning.code);
        for warning in &warnings {
            match warning.subject {
                Subject::UnknownInput { line, .. } => notes.extend(self.not_known(after, line, warning)),
                Subject::Polyols { .. } => notes.push(finding(warning, self.sign).joined()),
                Subject::Alcohol { .. } | Subject::RawEgg { .. } => {
                    notes.extend(Some(warning).filter(is_new).map(|warning| finding(warning, self.sign).joined()));
                }
                _ => {}
            }
        }
        notes.extend(self.left_open(&made_up[1]));
        if asks_for_water {
            notes.push(
                "The water activity is computed: measure that of the first batch. How long it keeps is decided by \
                 measurement, hazard analysis and local food codes."
                    .to_owned(),
            );
        }
        notes
    }

    /// Amounts that moved so that another product may come of it.
    fn moves_to_mind(&self, moves: &[Move]) -> Vec<String> {
        let mut notes = Vec::new();
        let told = |is_so: &dyn Fn(&Move) -> bool, words: &dyn Fn(&Move) -> String| {
            let each: Vec<String> = moves.iter().filter(|moved| is_so(moved)).map(words).collect();
            (!each.is_empty()).then(|| each.join(", "))
        };
        let name = |moved: &Move| self.place(moved.place);
        let from_to = |moved: &Move| {
            format!("{} {} to {}", name(moved), amount(moved.before, self.sign), amount(moved.after, self.sign))
        };
        if let Some(names) = told(&|moved| moved.before.0 > 0.0 && moved.after.0 <= 0.0, &name) {
            notes.push(format!("Not used any more: {names}."));
        }
        // Of seasoning it is told below.
        let times = |moved: &Move| {
            let stays = moved.before.0 > 0.0 && moved.after.0 > 0.0 && !is_seasoning(&moved.ingredient);
            stays.then_some(moved.after.0 / moved.before.0)
        };
        let is_much_more = |moved: &Move| times(moved).is_some_and(|times| times > MUCH_MORE);
        let is_much_less = |moved: &Move| times(moved).is_some_and(|times| times < MUCH_LESS);
        let more = told(&is_much_more, &from_to)
            .map(|each| format!("more than {} times as much as before: {each}", shortest(MUCH_MORE, 0, self.sign)));
        let less = told(&is_much_less, &from_to).map(|each| format!("less than a third of what there was: {each}"));
        let each: Vec<String> = more.into_iter().chain(less).collect();
        if !each.is_empty() {
            notes.push(format!(
                "{}. That is another product: taste it first, or let something else be used besides.",
                capital(&each.join("; "))
            ));
        }
        let rises = |moved: &Move| is_seasoning(&moved.ingredient) && moved.after > moved.before;
        if let Some(each) = told(&rises, &from_to) {
            notes.push(format!("Seasoning rises: {each}. Lock it if the taste is to stay."));
        }
        let falls = |moved: &Move| {
            is_seasoning(&moved.ingredient) && moved.before.0 > 0.0 && moved.after.0 <= (1.0 - TASTED) * moved.before.0
        };
        if let Some(each) = told(&falls, &from_to) {
            notes.push(format!("Seasoning falls: {each}: taste it."));
        }
        notes
    }

    /// That something of a line is not known, and how much of the mass the line is.
    fn not_known(&self, recipe: &Recipe, line: LineId, warning: &Finding) -> Option<String> {
        let grams = recipe.line(line)?.amount.grams();
        let share = grams / recipe.weighed();
        let title = finding(warning, self.sign).title;
        Some(format!(
            "{title}; it is {} % of what is weighed in, and what is claimed holds for the rest.",
            fixed(share.to_percent(), 1, self.sign)
        ))
    }

    /// What the data sheets leave open, where it is enough to matter.
    fn left_open(&self, make_up: &MakeUp) -> Option<String> {
        let share = make_up.bowl.unassigned()? / make_up.bowl.total();
        (share.to_percent() >= LEFT_OPEN).then(|| {
            format!(
                "{} % of the mass has no known composition (left open by data sheets): what is claimed holds for the \
                 rest.",
                fixed(share.to_percent(), 1, self.sign)
            )
        })
    }

    /// What was usual before and is not any more.
    fn left_the_usual(&self, recipe: &Recipe, [before, after]: [&Parts; 2]) -> Option<String> {
        let ranges = usual_ranges(recipe);
        let left: Vec<String> = ranges
            .iter()
            .filter(|range| range.concerns(after))
            .filter_map(|range| {
                let place = |bowl| range.of.of(bowl).map(|share| range.place(share));
                let share = range.of.of(after)?;
                let is_left = place(before) == Some(Where::Within) && place(after) != Some(Where::Within);
                is_left.then(|| outside(range, share.to_percent(), self.sign))
            })
            .collect();
        let column = ranges.first().map(|range| range.column.words())?;
        (!left.is_empty()).then(|| format!("No longer usual for {column}: {}.", left.join("; ")))
    }
}

/// Allergens that come in, and ingredients that come in and say nothing of them.
fn new_allergens(before: &[Finding], after: &[Finding]) -> Vec<String> {
    let of = |findings: &[Finding]| {
        let found = findings.iter().find_map(|finding| match &finding.subject {
            Subject::Allergens { names, unknown } => Some((names.clone(), unknown.clone())),
            _ => None,
        });
        found.unwrap_or_default()
    };
    let (was, is) = (of(before), of(after));
    let new = |was: &[String], is: Vec<String>| {
        let new: Vec<String> = is.into_iter().filter(|name| !was.contains(name)).collect();
        (!new.is_empty()).then(|| new.join(", "))
    };
    let named = new(&was.0, is.0).map(|names| format!("New allergens: {names}. Change the label."));
    let unknown = new(&was.1, is.1).map(|names| {
        format!("Allergens are not known of what comes in: {names}. Take them from the supplier's data sheet.")
    });
    named.into_iter().chain(unknown).collect()
}

/// "sugars 41.2 % (usual 26 to 36 %)".
fn outside(range: &UsualRange, percent: f64, sign: DecimalSign) -> String {
    format!("{} {} % (usual {})", range.of.words(), fixed(percent, 1, sign), usual_range(range, sign))
}
