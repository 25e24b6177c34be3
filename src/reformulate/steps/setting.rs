//! One line after the other set on a step of the scale, while those that are still free make up for what was rounded away.

use super::{Reach, UNMOVED, is_fixed, off_by_scale, step_for, steps_around, steps_beside};
use crate::reformulate::descent::{Descent, EMERGENCY, Local, NoRest, Weight};
use crate::reformulate::model::Member;
use crate::reformulate::problem::Rule;
use crate::reformulate::quadratic::{Least, NoLeast};
use crate::reformulate::whole::packs;

/// Amounts, which of them are set, and their ends.
type Kept = (Vec<f64>, Vec<bool>, Vec<(f64, f64)>);

/// Lines on their way to the steps of the scale.
pub(super) struct Setting<'a> {
    /// What is asked, with the ends of what is set already.
    descent: Descent<'a>,
    local: &'a Local<'a>,
    /// The amounts now: those that are set, and where the others would be best.
    amounts: Vec<f64>,
    is_set: Vec<bool>,
    /// Least and most of each amount, whatever is set.
    closest: Vec<(f64, f64)>,
    /// Whether not everything can hold any more.
    is_emergency: bool,
}

impl<'a> Setting<'a> {
    pub fn new(descent: &Descent<'a>, local: &'a Local<'a>, pulls: &[f64]) -> Self {
        /// What a wish that moves away by a grain costs beside the change at least, and how many times what it brings.
        const WISH: (f64, f64) = (10.0, 2.0);
        let model = descent.model;
        let mut descent = Descent { weights: descent.weights.clone(), ends: descent.ends.clone(), ..*descent };
        let amounts = model.amounts(local.changes);
        let coarsest = amounts.iter().map(|&amount| step_for(model, amount)).fold(0.0, f64::max);
        // What the coarse lines leave of the total, the fine ones take.
        let free = (0..amounts.len()).filter(|&line| !is_fixed(&descent, line));
        let finest = free.map(|line| step_for(model, amounts[line])).fold(coarsest, f64::min);
        for (row, constraint) in model.constraints.iter().enumerate() {
            if descent.weights[row] != (Weight::Holds { up_to: 0.0 }) && !model.is_wish(constraint) {
                continue;
            }
            // The total and proportions are kept as well as the scale can, half a step.
            descent.weights[row] = match constraint.member {
                _ if model.is_wish(constraint) => Weight::Costs(WISH.0.max(WISH.1 * pulls[row])),
                Member::Total if !constraint.is_given => Weight::Holds { up_to: model.measure_of(finest / 2.0) },
                _ => match off_by_scale(model, row, &amounts) {
                    Some(up_to) => Weight::Holds { up_to },
                    None => continue,
                },
            };
        }
        let is_set = vec![false; amounts.len()];
        let closest = descent.ends.clone();
        let mut setting = Self { descent, local, amounts, is_set, closest, is_emergency: false };
        let packs = packs(model);
        for line in 0..setting.amounts.len() {
            let here = setting.amounts[line];
            if is_fixed(&setting.descent, line) {
                setting.set(line, model.before[line]);
            } else if let Some((_, pack)) = packs.iter().find(|(other, _)| *other == line) {
                setting.set(line, (here / pack).round() * pack);
            }
        }
        setting
    }

    fn set(&mut self, line: usize, amount: f64) {
        self.amounts[line] = amount;
        self.is_set[line] = true;
        self.descent.ends[line] = (amount, amount);
    }

    /// All lines on steps of the scale: so that everything can hold, if a search finds such steps; or else as much as can.
    ///
    /// `programs` are so many for each line, and a few besides: a search that goes astray is given up.
    pub fn all_set(mut self, programs: usize, reach: Reach) -> Result<Self, NoRest> {
        let mut cost = f64::NEG_INFINITY;
        if let Ok((least, amounts)) = self.solve() {
            cost = least;
            self.take(amounts);
        }
        if reach != Reach::CloseWithRests {
            self.leave_out_leftovers();
        }
        if reach != Reach::Far {
            self.keep_close(reach);
        }
        let begun = self.kept();
        let mut left = programs * (self.amounts.len() + 2);
        if !self.set_others(cost, &mut left)? {
            self.bring_back(begun);
            self.set_as_can_be()?;
        }
        Ok(self)
    }

    /// Sets one line after the other on a step, so that the lines that are still free can make everything hold; where they
    /// cannot any more, it goes back and takes another step. `false` where there is none, or where the search takes too long.
    fn set_others(&mut self, cost: f64, left: &mut usize) -> Result<bool, NoRest> {
        /// A step that costs so little more, as a share of the cost, is not worth looking for a better one.
        const FREE: f64 = 1e-6;
        if (self.descent.is_stopped)() {
            return Err(NoRest::Stopped);
        }
        let Some(line) = self.next() else { return Ok(true) };
        let model = self.descent.model;
        let is_coarse = step_for(model, self.amounts[line]) >= model.problem.scale.coarsest.0;
        let steps = steps_around(model, line, self.in_proportion(line).unwrap_or(self.amounts[line]));
        let mut untried = steps.into_iter();
        let mut solved: Vec<(f64, f64, Vec<f64>)> = Vec::new();
        loop {
            // Of a coarse scale the steps are compared first; of a fine one the nearest that does it is good enough.
            while is_coarse || solved.is_empty() {
                let Some(amount) = untried.next() else { break };
                let Some((then, amounts)) = self.solve_with(line, amount, left) else { continue };
                solved.push((then, amount, amounts));
                if then <= cost + FREE * cost.abs() {
                    break;
                }
            }
            solved.sort_by(|left, right| right.0.total_cmp(&left.0));
            let Some((then, amount, amounts)) = solved.pop() else { return Ok(false) };
            let kept = self.kept();
            self.set(line, amount);
            self.take(amounts);
            if self.set_others(then, left)? {
                return Ok(true);
            }
            self.bring_back(kept);
            if *left == 0 {
                return Ok(false);
            }
        }
    }

    /// The least with a line on a step, if everything can hold then.
    fn solve_with(&mut self, line: usize, amount: f64, left: &mut usize) -> Option<(f64, Vec<f64>)> {
        if *left == 0 {
            return None;
        }
        *left -= 1;
        let ends = self.descent.ends[line];
        self.descent.ends[line] = (amount, amount);
        let found = self.solve();
        self.descent.ends[line] = ends;
        found.ok()
    }

    /// Sets one line after the other on the step on which least is missed.
    fn set_as_can_be(&mut self) -> Result<(), NoRest> {
        while let Some(line) = self.next() {
            let steps = steps_around(self.descent.model, line, self.in_proportion(line).unwrap_or(self.amounts[line]));
            let is_coarse =
                step_for(self.descent.model, self.amounts[line]) >= self.descent.model.problem.scale.coarsest.0;
            let mut left = steps.len();
            let mut solved = steps.iter().filter_map(|&amount| {
                self.solve_with(line, amount, &mut left).map(|(cost, amounts)| (cost, amount, amounts))
            });
            // Of a fine scale the nearest step that does it is good enough.
            let nearest =
                if is_coarse { solved.min_by(|left, right| left.0.total_cmp(&right.0)) } else { solved.next() };
            match nearest {
                Some((_, amount, amounts)) => {
                    self.set(line, amount);
                    self.take(amounts);
                }
                // From here on as much holds as can.
                None if !self.is_emergency => self.is_emergency = true,
                None => self.set(line, *steps.first().ok_or(NoRest::Failed)?),
            }
        }
        Ok(())
    }

    fn kept(&self) -> Kept {
        (self.amounts.clone(), self.is_set.clone(), self.descent.ends.clone())
    }

    fn bring_back(&mut self, kept: Kept) {
        (self.amounts, self.is_set, self.descent.ends) = kept;
    }

    /// What is left of a line that goes is not worth weighing: it goes altogether, where everything can hold without it.
    fn leave_out_leftovers(&mut self) {
        /// Of the batch, and of what the line weighed before (judged).
        const OF_BATCH: f64 = 1e-3;
        const OF_LINE: f64 = 0.05;
        let model = self.descent.model;
        let batch: f64 = model.before.iter().sum();
        for (line, before) in model.before.iter().enumerate() {
            let here = self.amounts[line];
            if self.is_set[line] || here <= 0.0 || here > (OF_BATCH * batch).min(OF_LINE * before) {
                continue;
            }
            let ends = self.descent.ends[line];
            self.descent.ends[line] = (0.0, 0.0);
            match self.solve() {
                Ok((_, amounts)) if ends.0 <= 0.0 => {
                    self.set(line, 0.0);
                    self.take(amounts);
                }
                _ => self.descent.ends[line] = ends,
            }
        }
    }

    /// Every line stays within some steps of its scale, or a small share of what it is.
    fn keep_close(&mut self, reach: Reach) {
        const STEPS: f64 = 3.0;
        /// Less than anybody tastes (judged).
        const SHARE: f64 = 0.05;
        /// So much of what there was may stay of a line that goes (judged).
        const OF_BEFORE: f64 = 0.02;
        for line in (0..self.amounts.len()).filter(|&line| !self.is_set[line]) {
            let here = self.amounts[line];
            let step = step_for(self.descent.model, here);
            let before = self.descent.model.before[line];
            // What did not move stays.
            if (here - before).abs() <= UNMOVED * step {
                self.descent.ends[line] = (before, before);
                continue;
            }
            let is_gone = here <= UNMOVED * step;
            let most = match reach {
                Reach::Close if is_gone => 0.0,
                _ if is_gone => OF_BEFORE * before,
                _ => (STEPS * step).max(SHARE * here),
            };
            let (low, high) = self.descent.ends[line];
            self.descent.ends[line] = (low.max(here - most), high.min(here + most));
        }
        self.closest = self.descent.ends.clone();
    }

    /// Where a line has to be that is a multiple of one that is set.
    fn in_proportion(&self, line: usize) -> Option<f64> {
        let model = self.descent.model;
        model.problem.limits.iter().find_map(|limit| {
            let Rule::TimesOther { other, times } = limit.rule else { return None };
            let (this, other) = (model.line_at(limit.place)?, model.line_at(other)?);
            let amount = if this == line && self.is_set[other] {
                times * self.amounts[other]
            } else if other == line && self.is_set[this] && times > 0.0 {
                self.amounts[this] / times
            } else {
                return None;
            };
            amount.is_finite().then_some(amount)
        })
    }

    /// The line that is set next: of the coarsest scale, what moved before what did not, the one that is nearest to a step.
    fn next(&self) -> Option<usize> {
        let model = self.descent.model;
        let order = |line: usize| {
            let (amount, step) = (self.amounts[line], step_for(model, self.amounts[line]));
            let is_unmoved = (amount - model.before[line]).abs() <= UNMOVED * step;
            (step, is_unmoved, (amount / step - (amount / step).round()).abs())
        };
        (0..self.amounts.len()).filter(|&line| !self.is_set[line]).min_by(|&left, &right| {
            let ((step, is_unmoved, off), (other_step, is_other_unmoved, other_off)) = (order(left), order(right));
            other_step.total_cmp(&step).then(is_unmoved.cmp(&is_other_unmoved)).then(off.total_cmp(&other_off))
        })
    }

    /// Single steps of one line or two, as long as they help by the straight lines.
    pub fn stepped(self) -> Vec<f64> {
        /// More than were ever needed in trials.
        const MOST: usize = 40;
        /// What a step has to bring at least, as a share of the cost.
        const LEAST: f64 = 1e-9;
        let Self { descent, local, mut amounts, closest, .. } = self;
        let model = descent.model;
        let packs = packs(model);
        let is_free = |line: &usize| !is_fixed(&descent, *line) && !packs.iter().any(|(other, _)| other == line);
        let free: Vec<usize> = (0..amounts.len()).filter(is_free).collect();
        let cost = |amounts: &[f64]| {
            let changes = model.changes(amounts);
            let is_close = amounts.iter().zip(&closest).all(|(here, (low, high))| (*low..=*high).contains(here));
            let is_inside = is_close && local.rims.iter().all(|rim| rim.holds(&changes));
            let cost = descent.merit(local.aim, EMERGENCY, &changes, &local.straight(&changes));
            if is_inside { cost } else { f64::INFINITY }
        };
        let mut here = cost(&amounts);
        for _ in 0..MOST {
            // Whoever asked for these looks again.
            if (descent.is_stopped)() {
                break;
            }
            let mut nearest: Option<(f64, Vec<f64>)> = None;
            let mut look = |tried: &[f64]| {
                let then = cost(tried);
                if then < nearest.as_ref().map_or(here - LEAST * here.abs(), |(least, _)| *least) {
                    nearest = Some((then, tried.to_vec()));
                }
            };
            for (rank, &line) in free.iter().enumerate() {
                for stepped in steps_beside(model, amounts[line]) {
                    let mut tried = amounts.clone();
                    tried[line] = stepped;
                    look(&tried);
                    for &other in &free[rank + 1..] {
                        for stepped in steps_beside(model, amounts[other]) {
                            tried[other] = stepped;
                            look(&tried);
                        }
                        tried[other] = amounts[other];
                    }
                }
            }
            match nearest {
                Some((then, next)) => (here, amounts) = (then, next),
                None => break,
            }
        }
        amounts
    }

    fn solve(&self) -> Result<(f64, Vec<f64>), NoLeast> {
        let program = self.descent.program(self.local, self.is_emergency);
        let Least { x, .. } = program.solve()?;
        Ok((program.cost(&x), self.descent.model.amounts(&x[..self.amounts.len()])))
    }

    fn take(&mut self, amounts: Vec<f64>) {
        for (line, amount) in amounts.into_iter().enumerate() {
            if !self.is_set[line] {
                self.amounts[line] = amount;
            }
        }
    }
}
