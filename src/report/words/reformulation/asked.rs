//! What is asked of amounts, and what came of it.

use super::ReformulationWords;
use crate::reformulate::{Answer, Limit, Member, Move, Place, Rule};
use crate::units::Grams;

/// Half of the finest step, g: less is not seen.
const SEEN: f64 = 5e-3;

/// What is asked of one amount, before and after.
pub struct LimitReached {
    /// In words, with what came of it: "butter at most 60 g: 80 g → 58 g, met".
    pub text: String,
    /// The amount as it was.
    pub before: Grams,
    /// The amount as it is weighed.
    pub after: Grams,
    /// By how much it is missed; 0 where it is met.
    pub missed_by: Grams,
    /// Whether it only keeps seasoning from rising.
    pub is_seasoning: bool,
}

impl LimitReached {
    /// Whether the answer keeps it.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.missed_by.0 <= 0.0
    }
}

impl ReformulationWords<'_> {
    /// That seasoning may fall but not rise, and which; `None` where there is none or something else is asked of it.
    #[must_use]
    pub fn seasoning_held(&self) -> Option<String> {
        let names = self.seasoning();
        (!names.is_empty()).then(|| format!("Seasoning may fall but not rise: {}", names.join(", ")))
    }

    fn seasoning(&self) -> Vec<String> {
        let limits = self.problem.limits.iter().filter(|limit| self.problem.only_holds_seasoning(limit));
        limits.map(|limit| self.place(limit.place)).collect()
    }

    /// How the first of the seasoning would be let rise on the command line: `--amount 'salt at most 6 g'`.
    #[must_use]
    pub fn seasoning_let_rise(&self) -> Option<String> {
        /// So many times as much, in the example (judged).
        const MORE: f64 = 1.5;
        /// Of what there is none yet, the example is this much (judged).
        const LEAST: Grams = Grams(2.0);
        let limit = self.problem.limits.iter().find(|limit| self.problem.only_holds_seasoning(limit))?;
        let most = self.amount((self.before(limit.place) * MORE).max(LEAST));
        let ingredient = self.problem.ingredient(limit.place)?;
        Some(format!("--amount '{} at most {most}'", ingredient.id))
    }

    /// Everything that is asked of amounts beside the targets, with what came of it, in the order in which it was asked; what
    /// holds without being asked, the batch, locked lines and what may be used besides, only where it is missed.
    #[must_use]
    pub fn limits(&self, answer: &Answer) -> Vec<LimitReached> {
        let mut limits = self.limits_of(&|place| {
            let moved = answer.moves.iter().find(|moved| moved.place == place);
            moved.map_or(Grams::ZERO, |moved| moved.after)
        });
        limits.extend(self.total_missed(answer));
        limits.extend(answer.moves.iter().filter_map(|moved| self.place_missed(moved)));
        limits
    }

    /// That the batch does not stay as it is, by more than the scale for the bowl shows.
    fn total_missed(&self, answer: &Answer) -> Option<LimitReached> {
        let (before, after) = (self.problem.recipe.weighed(), answer.recipe.weighed());
        let missed_by = Grams((after.0 - before.0).abs());
        let is_missed = self.problem.keeps_total && missed_by.0 > self.problem.scale.coarsest.0 + SEEN;
        is_missed.then(|| self.reached_limit(&self.member(Member::Total), before, after, missed_by))
    }

    /// That a locked line has moved, or that more is used of what is allowed.
    fn place_missed(&self, moved: &Move) -> Option<LimitReached> {
        let (before, after) = (moved.before, moved.after);
        let (member, missed_by) = match moved.place {
            Place::Line(id) => {
                self.problem.recipe.line(id).filter(|line| line.stays())?;
                (Member::Lock(moved.place), Grams((after.0 - before.0).abs()))
            }
            Place::Allowed(idx) => (Member::Allowance(idx), after - self.problem.allowed.get(idx)?.most?),
        };
        (missed_by.0 > SEEN).then(|| self.reached_limit(&self.member(member), before, after, missed_by))
    }

    /// "Butter at most 60 g: 80 g → 58 g, met".
    fn reached_limit(&self, asked: &str, before: Grams, after: Grams, missed_by: Grams) -> LimitReached {
        let verdict =
            if missed_by.0 > 0.0 { format!("missed by {}", self.amount(missed_by)) } else { "met".to_owned() };
        let text = format!("{asked}: {} → {}, {verdict}", self.amount(before), self.amount(after));
        LimitReached { text, before, after, missed_by, is_seasoning: false }
    }

    /// The same where nothing had to change.
    #[must_use]
    pub fn limits_unchanged(&self) -> Vec<LimitReached> {
        self.limits_of(&|place| self.before(place))
    }

    fn limits_of(&self, after_of: &dyn Fn(Place) -> Grams) -> Vec<LimitReached> {
        let each = self.problem.limits.iter().map(|limit| {
            let (before, after) = (self.before(limit.place), after_of(limit.place));
            let missed_by = self.missed_by(limit, before, after, after_of);
            let rule = self.rule(limit.place, limit.rule);
            let mut reached = self.reached_limit(&rule, before, after, missed_by);
            if limit.rule == Rule::Locked && before == after {
                reached.text = format!("{rule}, met");
            }
            LimitReached { is_seasoning: self.problem.only_holds_seasoning(limit), ..reached }
        });
        each.collect()
    }

    /// By how much an amount misses what is asked of it; nothing of less than what a scale shows.
    fn missed_by(&self, limit: &Limit, before: Grams, after: Grams, after_of: &dyn Fn(Place) -> Grams) -> Grams {
        let missed = match limit.rule {
            Rule::Locked => (after.0 - before.0).abs(),
            Rule::AtLeast(least) => least.0 - after.0,
            Rule::AtMost(most) => after.0 - most.0,
            Rule::InPacks(pack) => (after.0 - (after.0 / pack.0).round() * pack.0).abs(),
            Rule::TimesOther { other, times } => {
                let other = after_of(other);
                let missed = (after.0 - times * other.0).abs();
                let granted = self.problem.scale.off_proportion(after, times, other);
                if missed <= granted.0 + SEEN { 0.0 } else { missed }
            }
        };
        if missed > SEEN { Grams(missed) } else { Grams::ZERO }
    }
}
