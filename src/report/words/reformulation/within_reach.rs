//! What can be had of something that is asked for, rounded to the side on which it can: typed back it holds.

use super::{ReformulationWords, bound, decimals, measured, unit};
use crate::number::{Towards, fixed, gram_decimals, round_half_up, round_towards, shortest};
use crate::reformulate::{Bound, Decides, Figure, Limit, Member, Place, Reachable, Rule, Target};
use crate::units::Grams;

/// More decimals than usual are noise from here on.
const MORE: u32 = 3;

impl ReformulationWords<'_> {
    /// What can be had of something that is asked for: "water comes to 21.0 % instead of at least 22 %"; `None` where that holds
    /// all the same once it is given up.
    pub(super) fn within_reach(&self, member: Member, reachable: Reachable) -> Option<String> {
        Some(match (member, reachable) {
            (Member::Target(idx), Reachable::Figure(reached)) => {
                let target = self.problem.targets.get(idx)?;
                let comes = self.comes_to(target, reached)?;
                let asked = bound(target.of, target.bound, self.money, self.sign);
                format!("{} comes to {comes} instead of {asked}", measured(target.of, self.sign))
            }
            (Member::Total, Reachable::Amount(grams)) => {
                let batch = self.problem.recipe.weighed();
                let (weighs, before) = self.away_from(batch, grams);
                format!("the batch would have to weigh {} {weighs} instead of {before}", end(grams, batch))
            }
            (Member::Lock(place), Reachable::Amount(grams)) => {
                let now = self.before(place);
                let (needed, before) = self.away_from(now, grams);
                format!("{} would have to be {} {needed} instead of {before}", self.place(place), end(grams, now))
            }
            (Member::Allowance(idx), Reachable::Amount(grams)) => {
                let most = self.problem.allowed.get(idx).and_then(|allowed| allowed.most).unwrap_or_default();
                let (needed, _) = self.away_from(most, grams);
                format!("it would take {needed} of {}", self.place(Place::Allowed(idx)))
            }
            (Member::Limit(idx), Reachable::Amount(grams)) => self.instead(self.problem.limits.get(idx)?, grams)?,
            (Member::Target(_), Reachable::Amount(_)) | (_, Reachable::Figure(_)) => return None,
        })
    }

    /// What an amount would have to be in the place of what is asked of it; `None` where it keeps that all the same: once it was
    /// given up, another way was found on which it happens to hold, and there is nothing to tell.
    fn instead(&self, limit: &Limit, grams: Grams) -> Option<String> {
        let place = self.place(limit.place);
        let before = self.before(limit.place);
        let (needed, asked) = match limit.rule {
            Rule::AtLeast(least) if grams >= least => return None,
            Rule::AtMost(most) if grams <= most => return None,
            Rule::AtLeast(least) => {
                let (needed, asked) = self.away_from(least, grams);
                (format!("at most {needed}"), format!("at least {asked}"))
            }
            Rule::AtMost(most) => {
                let (needed, asked) = self.away_from(most, grams);
                (format!("at least {needed}"), format!("at most {asked}"))
            }
            Rule::Locked => {
                let (needed, asked) = self.away_from(before, grams);
                (format!("{} {needed}", end(grams, before)), asked)
            }
            Rule::InPacks(pack) => (self.away_from(before, grams).0, format!("whole packs of {}", self.amount(pack))),
            Rule::TimesOther { other, times } => {
                let asked = format!("{} times as much as {}", shortest(times, 4, self.sign), self.place(other));
                (self.away_from(before, grams).0, asked)
            }
        };
        Some(format!("{place} would have to be {needed} instead of {asked}"))
    }

    /// An amount that would be needed and the one that it is now: the first rounded away from the second, both with as many
    /// decimals as it takes to tell them apart.
    fn away_from(&self, now: Grams, needed: Grams) -> (String, String) {
        let side = if needed > now { Towards::Above } else { Towards::Below };
        let usual = gram_decimals(needed.0);
        let rounded = |places: u32| {
            let needed = shortest(round_towards(needed.0, places, side), places, self.sign);
            let now = shortest(now.0, places.max(gram_decimals(now.0)), self.sign);
            (needed, now)
        };
        let is_told_apart = |(needed, now): &(String, String)| needed != now;
        let (needed, now) = (usual..=usual + MORE).map(rounded).find(is_told_apart).unwrap_or_else(|| rounded(usual));
        (format!("{needed} g"), format!("{now} g"))
    }

    /// A figure that can be had, the number that decides rounded to the side on which it can: "21.0 %", "0.853 (0.823 to 0.884)".
    fn comes_to(&self, target: &Target, reached: Figure) -> Option<String> {
        if target.is_met_by(reached) {
            return None;
        }
        let of = target.of;
        // Of a dry mass only an upper end is known.
        if of.is_upper_end(reached) {
            return Some(self.figure(of, reached));
        }
        let side = missed_side(target, reached);
        let deciding = |value: f64| {
            // As many more decimals as it takes to tell it from its bound.
            let missed = target.missed_by(reached);
            let least = decimals(of);
            let is_seen = |places: &u32| round_half_up(missed, *places) > 0.0;
            let places = (least..=least + MORE).find(is_seen).unwrap_or(least);
            fixed(round_towards(value, places, side), places, self.sign)
        };
        Some(match (target.decides(), reached.band, side) {
            (Decides::Value, _, _) | (_, None, _) => format!("{}{}", deciding(reached.value), unit(of, self.money)),
            (Decides::UnfavourableEdge, Some((low, high)), side) => {
                let (end, edge) = if side == Towards::Above { ("upper", high) } else { ("lower", low) };
                let likely = fixed(reached.value, decimals(of), self.sign);
                format!("{}{} at the {end} edge of its band (likely {likely})", deciding(edge), unit(of, self.money))
            }
        })
    }
}

/// Which end of what is needed is told: the one that is nearest to what there is now.
fn end(needed: Grams, now: Grams) -> &'static str {
    if needed > now { "at least" } else { "at most" }
}

/// Which side of its bound a figure misses: what lies above an upper bound can be had from there upwards.
fn missed_side(target: &Target, reached: Figure) -> Towards {
    let (low, high) = match target.decides() {
        Decides::Value => (reached.value, reached.value),
        Decides::UnfavourableEdge => (reached.low(), reached.high()),
    };
    let is_above = match target.bound {
        Bound::AtMost(_) => true,
        Bound::AtLeast(_) => false,
        Bound::Between(least, most) => high - most > least - low,
        Bound::Near(at) => reached.value > at,
    };
    if is_above { Towards::Above } else { Towards::Below }
}
