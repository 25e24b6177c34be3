//! The nearest amounts that hold: squares or sums made least under the models, by straightening them again and again.
//!
//! In each round the constraints are straightened at the amounts reached so far, the convex program of them is solved within
//! a distance in which they are trusted, and the step is kept if it is one by the models themselves. What is linear is exact at once.
//! Where a figure has a kink (sugar that stays undissolved from some amount on), the straight line behind the kink is kept
//! beside the one before it: a step that failed has shown it. Where a figure ends, the rim is straightened and not passed any
//! more.
//! A minimum of this kind is one among its neighbours: where figures bend, `answer` begins from several places and keeps the
//! nearest.

use super::kink::Kink;
use super::model::Model;
use super::problem::Change;
use super::quadratic::{Least, NoLeast, Program, Row};
use super::rim::Rim;
use super::tolerance::{HELD, OPEN};

/// How much a constraint counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Weight {
    /// It has to hold, up to so much (0 for most; more for a wish that cannot be met).
    Holds {
        /// The miss that is allowed, in grains; below 0 what it has to be kept clear by.
        up_to: f64,
    },
    /// Missing it costs so much for each grain.
    Costs(f64),
    /// It does not count.
    Off,
}

/// What is to be made least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Aim {
    /// The change.
    Change(Change),
    /// What missing costs; of the amounts that miss alike, those with the least change.
    Misses,
    /// The same, and any amounts that miss nothing are good enough.
    Any,
}

impl Aim {
    /// A round that promises no more than this does not pay, with so much left of what is made least.
    fn least_gain(self, here: f64) -> f64 {
        /// What is compared between answers, and what only has to be told with some digits.
        const OF_CHANGE: f64 = 1e-10;
        const OF_MISSES: f64 = 1e-6;
        match self {
            Self::Change(_) => OF_CHANGE * (1.0 + here.abs()),
            Self::Misses | Self::Any => OF_MISSES * here.abs() + OF_CHANGE,
        }
    }
}

/// Where it came to rest.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rest {
    /// Changes of the amounts in their spans.
    pub changes: Vec<f64>,
    /// The miss of each constraint, in grains.
    pub misses: Vec<f64>,
    /// Of each constraint: how hard it pulls. By how much the aim falls for one grain more of room.
    pub pulls: Vec<f64>,
    /// The same as forces on the lines: the slope of each constraint, and of what lies behind its kinks, times its pull. Rows are
    /// constraints; none where nothing pulls.
    pub forces: Vec<Vec<f64>>,
    /// What is known to lie behind kinks near by.
    pub kinks: Vec<Kink>,
    /// Rims of the figures that were met.
    pub rims: Vec<Rim>,
    /// Whether it came to rest before the rounds were used up.
    pub is_settled: bool,
}

/// What the descent has no answer to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoRest {
    /// What has to hold does not hold anywhere near.
    Impossible,
    /// It was told to stop.
    Stopped,
    /// A model has no figure where the way leads, the solver failed, or the rounds are used up.
    Failed,
}

/// More rounds than any recipe needed in trials (3 to 12).
const MOST_ROUNDS: usize = 60;

/// How much squares count beside an aim that alone does not say which of two answers is nearer.
const TIE: f64 = 1e-5;

/// What missing costs for each grain where the straightened constraints contradict each other near by.
pub(super) const EMERGENCY: f64 = 1e4;

/// The distance in which straightened models are trusted at the beginning: a line may double.
const FIRST_DISTANCE: f64 = 1.0;

/// More rims than that are one that bends: then shorter steps lead further.
const MOST_RIMS: usize = 6;

/// A step that keeps less than this of what the straight lines promised is not taken.
const KEPT_NOTHING: f64 = 1e-3;

/// After one that keeps less they are trusted less far, after one that keeps more and went nearly as far as it might, further
/// (usual values of trust-region methods, from memory).
const KEPT_LITTLE: f64 = 0.25;
const KEPT_MOST: f64 = 0.75;

/// So much of the distance counts as as far as it might go.
const NEARLY_ALL: f64 = 0.9;

/// By how much the distance grows.
const FURTHER: f64 = 2.0;

/// By how much it falls where a step kept little of its promise, and where it could not be taken (judged).
const NEARER: (f64, f64) = (2.0, 4.0);

/// Below this distance nothing moves any more.
const LEAST_DISTANCE: f64 = 1e-9;

/// A line that grows by more than this many times its span is told nothing.
const FAR_OUT: f64 = 1e4;

pub(super) struct Descent<'a> {
    pub model: &'a Model<'a>,
    pub weights: Vec<Weight>,
    /// Least and most of each amount in g, beyond what the constraints say: whole packs.
    pub ends: Vec<(f64, f64)>,
    pub is_stopped: &'a dyn Fn() -> bool,
    /// More rounds than that are not taken.
    pub rounds: usize,
}

impl<'a> Descent<'a> {
    /// Every constraint holds, but wishes, which do not count.
    pub fn new(model: &'a Model<'a>, is_stopped: &'a dyn Fn() -> bool) -> Self {
        let weigh = |constraint| if model.is_wish(constraint) { Weight::Off } else { Weight::Holds { up_to: 0.0 } };
        let weights = model.constraints.iter().map(weigh).collect();
        let most = |&is_out: &bool| if is_out { 0.0 } else { crate::recipe::Quantity::MOST.0 };
        let ends = model.is_out.iter().map(|is_out| (0.0, most(is_out))).collect();
        Self { model, weights, ends, is_stopped, rounds: MOST_ROUNDS }
    }

    fn counts(&self, row: usize) -> bool {
        self.weights[row] != Weight::Off
    }

    /// Whether everything that counts is linear in the amounts: then one round is enough, and exact.
    pub fn is_linear(&self) -> bool {
        (0..self.weights.len()).all(|row| !self.counts(row) || self.model.is_linear(row))
    }

    fn misses(&self, changes: &[f64]) -> Option<Vec<f64>> {
        self.model.misses_of(&self.model.amounts(changes), &|row| self.counts(row))
    }

    fn slopes(&self, changes: &[f64]) -> Option<Vec<Vec<f64>>> {
        self.model.slopes_of(&self.model.amounts(changes), &|row| self.counts(row))
    }

    /// What is missed at some changes of what counts, each at its price; `None` where a figure is none.
    pub fn missed(&self, changes: &[f64]) -> Option<f64> {
        Some(self.merit(Aim::Misses, 1.0, &[], &self.misses(changes)?))
    }

    /// The nearest changes to which the aim leads from `start`.
    pub fn run(&self, aim: Aim, start: &[f64]) -> Result<Rest, NoRest> {
        let is_linear = self.is_linear();
        let mut changes = self.within_ends(start);
        let mut misses = self.misses(&changes).ok_or(NoRest::Failed)?;
        let mut slopes = self.slopes(&changes).ok_or(NoRest::Failed)?;
        let mut distance = if is_linear { f64::INFINITY } else { FIRST_DISTANCE };
        let (mut pulls, mut forces) = (vec![0.0; misses.len()], Vec::new());
        let (mut kinks, mut rims): (Vec<Kink>, Vec<Rim>) = (Vec::new(), Vec::new());
        let mut best: Option<Rest> = None;
        for _ in 0..self.rounds {
            if (self.is_stopped)() {
                return Err(NoRest::Stopped);
            }
            if aim == Aim::Any && self.merit(aim, 1.0, &vec![0.0; changes.len()], &misses) <= HELD {
                let rest = Rest { changes, misses, pulls, forces, kinks, rims, is_settled: true };
                return self.at_rest(aim, rest, best);
            }
            let local = Local {
                aim,
                changes: &changes,
                misses: &misses,
                slopes: &slopes,
                kinks: &kinks,
                rims: &rims,
                distance,
            };
            let (least, is_emergency) = match self.program(&local, false).solve() {
                Ok(least) => (least, false),
                Err(NoLeast::Failed | NoLeast::Impossible) => {
                    (self.program(&local, true).solve().map_err(|_| NoRest::Failed)?, true)
                }
            };
            let mut next = self.within_ends(&least.x);
            (pulls, forces) = self.pulls_of(&local, &least);
            let hardest = pulls.iter().fold(0.0_f64, |most, pull| most.max(pull.abs()));
            // Anew in each round: with the price of an emergency kept, every step along a bent bound is a bad one.
            let penalty = if is_emergency { EMERGENCY } else { 2.0 * hardest + 1.0 };
            let straight = local.straight(&next);
            let here = self.merit(aim, penalty, &changes, &misses);
            let promised = here - self.merit(aim, penalty, &next, &straight);
            let length = |next: &[f64]| next.iter().zip(&changes).fold(0.0_f64, |most, (n, c)| most.max((n - c).abs()));
            let mut longest = length(&next);
            let is_at_rest = promised <= aim.least_gain(here) || longest < LEAST_DISTANCE;
            if is_linear || is_at_rest {
                if is_linear {
                    changes = next;
                    misses = self.misses(&changes).ok_or(NoRest::Failed)?;
                }
                let rest = Rest { changes, misses, pulls, forces, kinks, rims, is_settled: true };
                return self.at_rest(aim, rest, best);
            }
            let mut tried = self.misses(&next);
            let kept_of = |next: &[f64], tried: &Option<Vec<f64>>| {
                tried.as_ref().map(|tried| (here - self.merit(aim, penalty, next, tried)) / promised)
            };
            let mut kept = kept_of(&next, &tried);
            if kept.is_some_and(|kept| kept < KEPT_LITTLE)
                && let Some(bent) = tried.as_ref().and_then(|tried| self.bent(&local, is_emergency, &straight, tried))
            {
                let tried_then = self.misses(&bent);
                let kept_then = kept_of(&bent, &tried_then);
                if kept_then > Some(KEPT_LITTLE) {
                    (longest, kept, tried, next) = (length(&bent), kept_then, tried_then, bent);
                }
            }
            if let (Some(kept), Some(tried)) = (kept, &tried)
                && kept < KEPT_LITTLE
                && let Some(behind) = self.slopes(&next)
            {
                let worse = (0..tried.len()).filter(|&row| tried[row] > straight[row] + HELD);
                kinks.extend(worse.map(|row| Kink::new(row, &behind[row], &next, tried[row])));
                kinks.retain(|kink| kink.is_below(&changes, &misses));
            }
            if tried.is_none()
                && rims.len() < MOST_RIMS
                && let Some(rim) = Rim::between(&changes, &next, &|changes| self.misses(changes).is_some())
            {
                rims.push(rim);
                continue;
            }
            match (kept, tried) {
                (Some(kept), Some(tried)) if kept > KEPT_NOTHING => {
                    if kept > KEPT_MOST && longest > NEARLY_ALL * distance {
                        distance *= FURTHER;
                    } else if kept < KEPT_LITTLE {
                        distance = longest.min(distance) / NEARER.0;
                    }
                    // Around the new place a model may have no figures: then it is as far as one gets.
                    let Some(steeper) = self.slopes(&next) else {
                        distance = longest / NEARER.1;
                        continue;
                    };
                    changes = next;
                    misses = tried;
                    slopes = steeper;
                    let rest = || Rest {
                        changes: changes.clone(),
                        misses: misses.clone(),
                        pulls: pulls.clone(),
                        forces: forces.clone(),
                        kinks: kinks.clone(),
                        rims: rims.clone(),
                        is_settled: false,
                    };
                    let cost = self.merit(aim, 0.0, &changes, &misses);
                    if self.is_held(&misses) && best.as_ref().is_none_or(|best| cost < self.cost(aim, best)) {
                        best = Some(rest());
                    }
                    kinks.retain(|kink| kink.is_below(&changes, &misses));
                    // A rim that bends away from its straight line.
                    rims.retain(|rim| rim.holds(&changes));
                }
                _ => distance = longest.min(distance) / NEARER.1,
            }
            if distance < LEAST_DISTANCE {
                let rest = Rest { changes, misses, pulls, forces, kinks, rims, is_settled: true };
                return self.at_rest(aim, rest, best);
            }
        }
        // It still moves: where everything holds it is an answer, and told to be one that may not be the nearest.
        let rest = Rest { changes, misses, pulls, forces, kinks, rims, is_settled: false };
        self.at_rest(aim, rest, best).map_err(|_| NoRest::Failed)
    }

    /// A step that follows a bound where it bends: what the straight lines did not foresee of the first step is asked for as room
    /// (the second-order correction of such methods, from memory). Without it every step along a bent bound has to be short.
    fn bent(&self, local: &Local, is_emergency: bool, straight: &[f64], tried: &[f64]) -> Option<Vec<f64>> {
        let more = || tried.iter().zip(straight).map(|(tried, straight)| (tried - straight).max(0.0));
        let misses: Vec<f64> = local.misses.iter().zip(more()).map(|(miss, more)| miss + more).collect();
        let mut kinks = local.kinks.to_vec();
        for (row, more) in more().enumerate() {
            for kink in &mut kinks {
                kink.raise(row, more);
            }
        }
        let local = Local { misses: &misses, kinks: &kinks, ..*local };
        let least = self.program(&local, is_emergency).solve().ok()?;
        Some(self.within_ends(&least.x))
    }

    /// These changes as they are, with nothing that pulls; nothing nearer was sought.
    pub fn stay(&self, changes: Vec<f64>) -> Result<Rest, NoRest> {
        let misses = self.misses(&changes).ok_or(NoRest::Failed)?;
        let pulls = vec![0.0; misses.len()];
        let (kinks, rims) = (Vec::new(), Vec::new());
        Ok(Rest { changes, misses, pulls, forces: Vec::new(), kinks, rims, is_settled: false })
    }

    /// Where the way ends, or where it was nearer on the way: the penalty of each round is its own, so that nothing else says that
    /// what held goes on holding.
    fn at_rest(&self, aim: Aim, rest: Rest, best: Option<Rest>) -> Result<Rest, NoRest> {
        /// So much of the cost is what the solver leaves open.
        const SAME: f64 = 1e-6;
        if !self.is_held(&rest.misses) {
            return best.ok_or(NoRest::Impossible);
        }
        let cost = self.cost(aim, &rest);
        let nearer = best.filter(|best| self.cost(aim, best) < cost - SAME * cost.abs() - SAME);
        Ok(nearer.unwrap_or(rest))
    }

    /// Whether everything holds at some changes that has to, by the models; what is linear is asked first.
    pub fn holds(&self, changes: &[f64]) -> bool {
        let amounts = self.model.amounts(changes);
        let hold = |counts: &dyn Fn(usize) -> bool| {
            let misses = self.model.misses_of(&amounts, &|row| self.counts(row) && counts(row));
            misses.is_some_and(|misses| self.hold(&misses, counts))
        };
        self.within_ends(changes) == changes && hold(&|row| self.model.is_linear(row)) && hold(&|_| true)
    }

    /// Whether everything holds that has to.
    fn is_held(&self, misses: &[f64]) -> bool {
        self.hold(misses, &|_| true)
    }

    fn hold(&self, misses: &[f64], counts: &dyn Fn(usize) -> bool) -> bool {
        let mut rows = self.weights.iter().zip(misses).enumerate();
        rows.all(|(row, (weight, &miss))| match weight {
            Weight::Holds { up_to } => !counts(row) || miss <= up_to + OPEN,
            Weight::Costs(_) | Weight::Off => true,
        })
    }

    /// What is made least, with a price on everything that has to hold and does not.
    pub fn merit(&self, aim: Aim, penalty: f64, changes: &[f64], misses: &[f64]) -> f64 {
        let squares: f64 = changes.iter().map(|change| change * change).sum();
        let change = match aim {
            Aim::Change(Change::Spread) => squares,
            Aim::Change(Change::FewLines) => changes.iter().map(|change| change.abs()).sum::<f64>() + TIE * squares,
            Aim::Misses | Aim::Any => TIE * squares,
        };
        let price: f64 = self
            .weights
            .iter()
            .zip(misses)
            .map(|(weight, &miss)| match weight {
                Weight::Holds { up_to } => penalty * (miss - up_to).max(0.0),
                Weight::Costs(price) => price * miss.max(0.0),
                Weight::Off => 0.0,
            })
            .sum();
        change + price
    }

    /// What is missed of what may be missed at a price.
    pub fn price(&self, misses: &[f64]) -> f64 {
        self.merit(Aim::Misses, 0.0, &[], misses)
    }

    /// What the aim makes least, where everything holds that has to.
    pub fn cost(&self, aim: Aim, rest: &Rest) -> f64 {
        self.merit(aim, 0.0, &rest.changes, &rest.misses)
    }

    fn within_ends(&self, x: &[f64]) -> Vec<f64> {
        let model = self.model;
        let ends = self.ends.iter().zip(model.before.iter().zip(&model.spans));
        x.iter()
            .zip(ends)
            .map(|(&change, (&(least, most), (before, span)))| {
                change.clamp((least - before) / span, ((most - before) / span).max((least - before) / span))
            })
            .collect()
    }

    /// The convex program around some changes. Unknowns: the changes; for few lines, their sizes; the misses that cost.
    pub fn program(&self, local: &Local, is_emergency: bool) -> Program {
        let model = self.model;
        let lines = model.before.len();
        let mut program = match local.aim {
            Aim::Change(Change::Spread) => Program::of(lines, 2.0),
            Aim::Change(Change::FewLines) => {
                let mut program = Program::of(lines, 2.0 * TIE);
                for line in 0..lines {
                    let size = program.unknown(1.0);
                    program.rows.push(Row::at_most(vec![(line, 1.0), (size, -1.0)], 0.0));
                    program.rows.push(Row::at_most(vec![(line, -1.0), (size, -1.0)], 0.0));
                }
                program
            }
            Aim::Misses | Aim::Any => Program::of(lines, 2.0 * TIE),
        };
        let mut behind = Vec::new();
        for (row, weight) in self.weights.iter().enumerate() {
            let (up_to, price) = match *weight {
                Weight::Holds { up_to } => (up_to, is_emergency.then_some(EMERGENCY)),
                Weight::Costs(price) => (0.0, Some(price)),
                Weight::Off => {
                    program.rows.push(Row::nothing());
                    continue;
                }
            };
            let is_firm = |row: usize| !is_emergency && self.weights[row] == Weight::Holds { up_to: 0.0 };
            let is_equation =
                |row: usize| model.constraints[row].is_equal_with_next && is_firm(row) && is_firm(row + 1);
            // The other side of an equation is in its row.
            if row > 0 && is_equation(row - 1) {
                program.rows.push(Row::nothing());
                continue;
            }
            let slope = &local.slopes[row];
            let straight_at_zero: f64 =
                local.misses[row] - slope.iter().zip(local.changes).map(|(s, c)| s * c).sum::<f64>();
            let mut terms: Vec<(usize, f64)> = slope.iter().copied().enumerate().collect();
            if let Some(price) = price {
                let missed = program.unknown(price);
                terms.push((missed, -1.0));
            }
            let at = up_to - straight_at_zero;
            for kink in local.kinks.iter().filter(|kink| kink.row == row) {
                let mut terms: Vec<(usize, f64)> = kink.slope.iter().copied().enumerate().collect();
                terms.extend(price.map(|_| (program.slope.len() - 1, -1.0)));
                behind.push(Row::at_most(terms, up_to - kink.at_zero));
            }
            program.rows.push(if is_equation(row) { Row::equal(terms, at) } else { Row::at_most(terms, at) });
        }
        program.rows.extend(behind);
        program.rows.extend(local.rims.iter().map(|rim| {
            let (terms, at) = rim.row();
            Row::at_most(terms, at)
        }));
        // The misses that cost are not negative.
        let sizes = if local.aim == Aim::Change(Change::FewLines) { lines } else { 0 };
        for missed in lines + sizes..program.slope.len() {
            program.rows.push(Row::at_most(vec![(missed, -1.0)], 0.0));
        }
        for (line, &(least, most)) in self.ends.iter().enumerate() {
            let (before, span) = (model.before[line], model.spans[line]);
            let low = ((least - before) / span).max(local.changes[line] - local.distance);
            let high = ((most - before) / span).min(local.changes[line] + local.distance);
            if low >= high {
                program.rows.push(Row::equal(vec![(line, 1.0)], low));
                continue;
            }
            program.rows.push(Row::at_most(vec![(line, -1.0)], -low));
            // A row that far out would only blur the others.
            if high - local.changes[line] < FAR_OUT {
                program.rows.push(Row::at_most(vec![(line, 1.0)], high));
            }
        }
        program
    }

    /// The multipliers of the constraints, those behind kinks with them (after the rows of sizes, where there are any), and the
    /// forces that they are on the lines.
    fn pulls_of(&self, local: &Local, least: &Least) -> (Vec<f64>, Vec<Vec<f64>>) {
        let sizes = if local.aim == Aim::Change(Change::FewLines) { 2 * self.model.before.len() } else { 0 };
        let (of_rows, behind) = least.multipliers[sizes..].split_at(self.weights.len());
        let mut pulls = of_rows.to_vec();
        let mut forces: Vec<Vec<f64>> = local.slopes.to_vec();
        let mut behind = behind.iter();
        for (row, (pull, force)) in pulls.iter_mut().zip(&mut forces).enumerate() {
            for part in force.iter_mut() {
                *part *= *pull;
            }
            if self.counts(row) {
                for (kink, more) in local.kinks.iter().filter(|kink| kink.row == row).zip(behind.by_ref()) {
                    *pull += more;
                    force.iter_mut().zip(&kink.slope).for_each(|(part, slope)| *part += more * slope);
                }
            }
        }
        (pulls, forces)
    }
}

/// Where the constraints are straightened.
pub(super) struct Local<'a> {
    pub aim: Aim,
    pub changes: &'a [f64],
    pub misses: &'a [f64],
    pub slopes: &'a [Vec<f64>],
    /// What is known to lie behind kinks near by.
    pub kinks: &'a [Kink],
    /// Rims of the figures that were met.
    pub rims: &'a [Rim],
    /// How far they are trusted.
    pub distance: f64,
}

impl Local<'_> {
    /// The misses by the straight lines.
    pub fn straight(&self, next: &[f64]) -> Vec<f64> {
        let mut straight: Vec<f64> = self
            .misses
            .iter()
            .zip(self.slopes)
            .map(|(miss, slope)| {
                let moved = slope.iter().zip(next.iter().zip(self.changes)).map(|(s, (n, c))| s * (n - c));
                miss + moved.sum::<f64>()
            })
            .collect();
        for kink in self.kinks {
            straight[kink.row] = straight[kink.row].max(kink.at(next));
        }
        straight
    }
}

impl Program {
    fn of(unknowns: usize, curvature: f64) -> Self {
        Self { curvature: vec![curvature; unknowns], slope: vec![0.0; unknowns], rows: Vec::new() }
    }

    /// Another unknown with its price; gives back its place.
    fn unknown(&mut self, price: f64) -> usize {
        self.curvature.push(0.0);
        self.slope.push(price);
        self.slope.len() - 1
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

    /// An answer whose rounds were used up is known as one.
    #[test]
    fn rounds_that_are_used_up_are_told() {
        let mut recipe = Recipe::default();
        for (id, grams) in [("couverture-dark-64", 400.0), ("cream-35", 250.0), ("sorbitol-powder", 20.0)] {
            let ingredient = Library::built_in().by_id(id).expect("built in").clone();
            recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
        }
        let targets = vec![Target::new(Measured::WaterActivity, Bound::AtMost(0.7))];
        let problem = Problem { targets, ..Problem::new(recipe) };
        let model = Model::new(&problem, Quotients::Straight).expect("well put");
        let aim = Aim::Change(Change::Spread);
        let start = vec![0.0; model.before.len()];
        let nearest = Descent::new(&model, &|| false).run(aim, &start).expect("it can be had");
        assert!(nearest.is_settled);
        let ended = |rounds: usize| Descent { rounds, ..Descent::new(&model, &|| false) }.run(aim, &start);
        let cut = (1..MOST_ROUNDS).find_map(|rounds| ended(rounds).ok()).expect("it comes there");
        assert!(!cut.is_settled && cut.changes != nearest.changes, "{cut:?}");
    }
}
