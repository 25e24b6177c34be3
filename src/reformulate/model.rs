//! A problem as numbers: amounts to misses and slopes, with the real models of the analysis.

mod slopes;

use std::sync::Arc;

use super::activity::{self, Reading};
use super::measured::{Figure, Mass, Measured};
use super::problem::{Limit, Place, Problem, ProblemError, Rule};
use super::target::{Decides, Side, Target};
use crate::analysis::make_up::bowl_of;
use crate::analysis::syrup::LEAST_WATER;
use crate::analysis::water::state::DRY;
use crate::ingredient::{Component, Ingredient};
use crate::production::price::Price;
use crate::recipe::Evaporation;
use crate::units::Grams;

/// The smallest span of a line, as a share of the batch: an added line has a price too.
pub const LEAST_SPAN: f64 = 0.02;

/// The whole of a quotient that is asked for stays above this share of what it is now.
const LEAST_WHOLE: f64 = 0.01;

/// What has to hold, and who asked for it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Constraint {
    /// Who asked for it.
    pub member: Member,
    /// Whether it holds whatever is asked for: nobody can give it up.
    pub is_given: bool,
    /// Whether it and the next one are the two sides of an equation.
    pub is_equal_with_next: bool,
    /// In which form.
    form: Form,
}

/// Who asks for something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Member {
    /// A target, by its place in the problem.
    Target(usize),
    /// That the total stays.
    Total,
    /// A rule on an amount, by its place in the problem.
    Limit(usize),
    /// A line that is locked in the recipe, or is seed.
    Lock(Place),
    /// The most of an ingredient that may be used besides.
    Allowance(usize),
}

#[derive(Clone, Debug, PartialEq)]
enum Form {
    /// Σ `factors`·x ≤ `at`, in units of the grain.
    Linear { factors: Vec<f64>, at: f64 },
    /// A figure of the mass on one side of a bound, by the model.
    Modelled { target: Target, side: Side },
}

/// A problem as numbers.
pub(super) struct Model<'a> {
    pub problem: &'a Problem,
    pub places: Vec<Place>,
    ingredients: Vec<Arc<Ingredient>>,
    /// What a gram of each costs, where that is known and the money is that of the others.
    per_gram: Vec<Option<f64>>,
    /// The amounts as they are, g.
    pub before: Vec<f64>,
    /// The span of each amount: by what its change is divided, g.
    pub spans: Vec<f64>,
    /// What stays out: there is none of it, and with some of it a figure that is asked for would not be known.
    pub is_out: Vec<bool>,
    pub constraints: Vec<Constraint>,
    /// How bounds on quotients are taken.
    pub quotients: Quotients,
    /// How an upper edge of the water activity is read.
    pub reading: Reading,
}

/// How a bound on a quotient is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Quotients {
    /// As a sum over the amounts, which is exact as long as there is the figure.
    Straight,
    /// By the model, which knows where there is none.
    Modelled,
}

impl<'a> Model<'a> {
    /// Checks a problem and puts it into numbers.
    pub fn new(problem: &'a Problem, quotients: Quotients) -> Result<Self, ProblemError> {
        if !(problem.scale.coarsest.0 > 0.0 && problem.scale.coarsest.0.is_finite()) {
            return Err(ProblemError::UnsoundScale);
        }
        let places: Vec<Place> = problem.places().collect();
        let lines = problem.recipe.lines.iter().map(|line| (line.ingredient.clone(), line.amount.grams().0));
        let allowed = problem.allowed.iter().map(|allowed| (allowed.ingredient.clone(), 0.0));
        let (ingredients, before): (Vec<_>, Vec<_>) = lines.chain(allowed).unzip();
        let batch: f64 = before.iter().sum();
        if batch <= 0.0 {
            return Err(ProblemError::NothingWeighed);
        }
        let lines = problem.recipe.lines.len();
        let least = |idx: usize| {
            let allowed_for = problem.allowed_for.filter(|_| idx >= lines).map_or(0.0, |grams| grams.0);
            allowed_for.max(LEAST_SPAN * batch)
        };
        let spans = before.iter().enumerate().map(|(idx, &amount)| amount.max(least(idx))).collect();
        let per_gram = per_gram(problem, &ingredients);
        let is_out = vec![false; before.len()];
        let mut model = Self {
            problem,
            places,
            ingredients,
            per_gram,
            before,
            spans,
            is_out,
            constraints: Vec::new(),
            quotients,
            reading: Reading::TOLD,
        };
        // An empty bowl meets every bound on a share.
        model.ask_at_most(Member::Total, vec![-1.0; model.before.len()], -problem.least_total().0);
        let water = model.water_that_evaporates();
        model.constraints.extend(water.map(|form| Constraint {
            member: Member::Total,
            is_given: true,
            is_equal_with_next: false,
            form,
        }));
        model.constraints.iter_mut().for_each(|constraint| constraint.is_given = true);
        model.ask_targets(quotients)?;
        if problem.keeps_total {
            let all = vec![1.0; model.before.len()];
            model.ask_equal(Member::Total, &all, batch);
        }
        model.ask_amounts()?;
        Ok(model)
    }

    /// The same with an upper edge of the water activity read in another way.
    pub fn read_as(self, reading: Reading) -> Self {
        let targets = self.problem.targets.iter().enumerate();
        let besides: Vec<Constraint> = targets
            .flat_map(|(idx, target)| reading.besides(target).into_iter().map(move |target| (idx, target)))
            .flat_map(|(idx, target)| target.bound.sides().map(move |side| (idx, Form::Modelled { target, side })))
            .map(|(idx, form)| Constraint {
                member: Member::Target(idx),
                is_given: false,
                is_equal_with_next: false,
                form,
            })
            .collect();
        let constraints = self.constraints.into_iter().chain(besides).collect();
        Self { constraints, reading, ..self }
    }

    fn ask_targets(&mut self, quotients: Quotients) -> Result<(), ProblemError> {
        for (idx, target) in self.problem.targets.iter().enumerate() {
            if !target.is_sound() {
                return Err(ProblemError::UnsoundBound(idx));
            }
            self.figure(target.of, &self.before).ok_or(ProblemError::NoFigure { target: idx, of: target.of })?;
        }
        for idx in 0..self.before.len() {
            let mut amounts = self.before.clone();
            amounts[idx] += self.spans[idx];
            self.is_out[idx] = self.before[idx] <= 0.0 && !self.has_figures(&amounts);
        }
        let is_cooked = matches!(self.problem.recipe.losses.evaporation, Evaporation::CookedTo { .. });
        for (idx, target) in self.problem.targets.iter().enumerate() {
            for side in target.bound.sides() {
                let is_linear = quotients == Quotients::Straight
                    && target.of.is_quotient()
                    && target.decides() == Decides::Value
                    && !is_cooked;
                let linear = is_linear.then(|| self.linear(target.of, side)).flatten();
                let whole = linear.is_some().then(|| self.least_whole(target.of)).flatten();
                let is_of_emulsion = match target.of {
                    Measured::FatToWater => linear.is_some(),
                    // What is dry meets no bound from below.
                    Measured::WaterActivity => {
                        !side.is_upper && !is_cooked && (side.at >= DRY.0 || !target.bound.is_wish())
                    }
                    _ => false,
                };
                let water = is_of_emulsion.then(|| self.least_water()).flatten();
                self.constraints.extend(whole.into_iter().chain(water).map(|form| Constraint {
                    member: Member::Target(idx),
                    is_given: false,
                    is_equal_with_next: false,
                    form,
                }));
                let form = linear.unwrap_or(Form::Modelled { target: *target, side });
                self.constraints.push(Constraint {
                    member: Member::Target(idx),
                    is_given: false,
                    is_equal_with_next: false,
                    form,
                });
            }
        }
        Ok(())
    }

    /// A bound on a quotient as a sum over the amounts: part − bound·whole ≤ 0, divided by the whole as it is now.
    ///
    /// Both sums are linear in the amounts with something constant (what is weighed off as vapour), so that two points of each
    /// amount give them exactly.
    fn linear(&self, of: Measured, side: Side) -> Option<Form> {
        let sign = if side.is_upper { 1.0 } else { -1.0 };
        let (_, whole) = self.with_mass(&self.before, |mass| mass.quotient(of))?;
        self.sum(of, whole * side.measure(of), |part, whole| sign * (part - side.at * whole))
    }

    /// That some of the whole of a quotient stays: where there is no fat, every bound on what the fat holds would be met.
    fn least_whole(&self, of: Measured) -> Option<Form> {
        let (_, whole) = self.with_mass(&self.before, |mass| mass.quotient(of))?;
        self.sum(of, whole, |_, then| LEAST_WHOLE * whole - then)
    }

    /// Of a figure that only an emulsion has, that there is water for one.
    fn least_water(&self) -> Option<Form> {
        let least = LEAST_WATER.to_percent();
        let water = Measured::Component(Component::Water);
        let (_, whole) = self.with_mass(&self.before, |mass| mass.quotient(water))?;
        self.sum(water, whole, |water, whole| least * whole - water)
    }

    /// That there is as much water as evaporates: with less, no sum over the lines tells what is in the bowl.
    fn water_that_evaporates(&self) -> Option<Form> {
        let evaporates = match self.problem.recipe.losses.evaporation {
            Evaporation::Weighed(amount) => amount.grams().0 > 0.0,
            Evaporation::Estimated(_) => true,
            Evaporation::CookedTo { .. } => false,
        };
        let water = Measured::Component(Component::Water);
        let (left, whole) = self.with_mass(&self.before, |mass| mass.quotient(water)).filter(|_| evaporates)?;
        // Where there is not enough of it already, nothing is known of how much.
        (left > 0.0).then(|| self.sum(water, whole, |water, _| -water)).flatten()
    }

    /// A sum of the two sums of a quotient that may not be above 0, divided by a measure.
    fn sum(&self, of: Measured, measure: f64, over: impl Fn(f64, f64) -> f64) -> Option<Form> {
        let sums = |amounts: &[f64]| self.with_mass(amounts, |mass| mass.quotient(of));
        let over = |(part, whole): (f64, f64)| over(part, whole);
        let here = sums(&self.before)?;
        let constant = over(here) / measure;
        let mut amounts = self.before.clone();
        let mut factors = Vec::with_capacity(amounts.len());
        for (idx, span) in self.spans.iter().enumerate() {
            if self.is_out[idx] {
                factors.push(0.0);
                continue;
            }
            amounts[idx] = self.before[idx] + span;
            factors.push((over(sums(&amounts)?) / measure - constant) / span);
            amounts[idx] = self.before[idx];
        }
        let at: f64 = factors.iter().zip(&self.before).map(|(factor, amount)| factor * amount).sum();
        Some(Form::Linear { factors, at: at - constant })
    }

    fn ask_amounts(&mut self) -> Result<(), ProblemError> {
        let locked: Vec<Place> =
            self.problem.recipe.lines.iter().filter(|line| line.stays()).map(|line| Place::Line(line.id)).collect();
        for place in locked {
            let idx = self.idx(place)?;
            self.ask_equal(Member::Lock(place), &self.only(idx, 1.0), self.before[idx]);
        }
        for (idx, allowed) in self.problem.allowed.iter().enumerate() {
            if let Some(most) = allowed.most {
                let place = self.idx(Place::Allowed(idx))?;
                self.ask_at_most(Member::Allowance(idx), self.only(place, 1.0), sound(most)?);
            }
        }
        for (idx, limit) in self.problem.limits.iter().enumerate() {
            let member = Member::Limit(idx);
            let place = self.idx(limit.place)?;
            match limit.rule {
                Rule::Locked => self.ask_equal(member, &self.only(place, 1.0), self.before[place]),
                Rule::AtMost(most) => self.ask_at_most(member, self.only(place, 1.0), sound(most)?),
                Rule::AtLeast(least) => self.ask_at_most(member, self.only(place, -1.0), -sound(least)?),
                // Whole packs are no matter of rows: see `packs`.
                Rule::InPacks(pack) => {
                    if sound(pack)? <= 0.0 {
                        return Err(ProblemError::UnsoundRule);
                    }
                    let is_in_packs =
                        |other: &&Limit| other.place == limit.place && matches!(other.rule, Rule::InPacks(_));
                    if self.problem.limits.iter().filter(is_in_packs).count() > 1 {
                        return Err(ProblemError::TwoPackSizes);
                    }
                }
                Rule::TimesOther { other, times } => {
                    let other = self.idx(other)?;
                    if other == place || !times.is_finite() || times < 0.0 {
                        return Err(ProblemError::UnsoundRule);
                    }
                    let mut factors = self.only(place, 1.0);
                    factors[other] = -times;
                    self.ask_equal(member, &factors, 0.0);
                }
            }
        }
        Ok(())
    }

    /// Which amount a place has; `None` of a line that is not there.
    pub fn line_at(&self, place: Place) -> Option<usize> {
        self.places.iter().position(|other| *other == place)
    }

    fn idx(&self, place: Place) -> Result<usize, ProblemError> {
        self.line_at(place).ok_or(ProblemError::NoSuchLine)
    }

    fn only(&self, idx: usize, factor: f64) -> Vec<f64> {
        let mut factors = vec![0.0; self.before.len()];
        factors[idx] = factor;
        factors
    }

    /// An amount in grains. Amounts are measured by a hundredth of the batch, so that a gram counts alike in 500 g and in
    /// 50 kg.
    pub fn measure_of(&self, amount: f64) -> f64 {
        amount / (0.01 * self.before.iter().sum::<f64>())
    }

    fn ask_at_most(&mut self, member: Member, mut factors: Vec<f64>, at: f64) {
        for factor in &mut factors {
            *factor = self.measure_of(*factor);
        }
        let form = Form::Linear { factors, at: self.measure_of(at) };
        self.constraints.push(Constraint { member, is_given: false, is_equal_with_next: false, form });
    }

    fn ask_equal(&mut self, member: Member, factors: &[f64], at: f64) {
        self.ask_at_most(member, factors.to_vec(), at);
        if let Some(first) = self.constraints.last_mut() {
            first.is_equal_with_next = true;
        }
        self.ask_at_most(member, factors.iter().map(|factor| -factor).collect(), -at);
    }

    /// A figure of the mass with these amounts; `None` where it has none.
    pub fn figure(&self, of: Measured, amounts: &[f64]) -> Option<Figure> {
        self.with_mass(amounts, |mass| mass.figure(of))
    }

    /// Whether there is a figure for every target with these amounts.
    pub fn has_figures(&self, amounts: &[f64]) -> bool {
        self.with_mass(amounts, |mass| self.problem.targets.iter().map(|target| mass.figure(target.of)).collect())
            .is_some_and(|figures: Vec<Figure>| figures.len() == self.problem.targets.len())
    }

    fn with_mass<T>(&self, amounts: &[f64], ask: impl FnOnce(&Mass) -> Option<T>) -> Option<T> {
        let recipe = &self.problem.recipe;
        let lines = self.ingredients.iter().zip(amounts);
        let lines = lines.map(|(ingredient, &amount)| (ingredient.as_ref(), Grams(amount.max(0.0))));
        let bowl = bowl_of(recipe.losses.evaporation, lines)?;
        ask(&Mass::new(recipe, &bowl).with_money(self.money(amounts)))
    }

    /// What so much of each costs together; `None` where something of it has no price.
    fn money(&self, amounts: &[f64]) -> Option<f64> {
        let used = self.per_gram.iter().zip(amounts).filter(|(_, amount)| **amount > 0.0);
        used.map(|(per_gram, amount)| Some((*per_gram)? * amount)).sum()
    }

    /// Whether a constraint is linear in the amounts.
    pub fn is_linear(&self, row: usize) -> bool {
        matches!(self.constraints[row].form, Form::Linear { .. })
    }

    /// By how much each constraint is missed, in grains; not above 0 where it holds. `None` where a model has no figure for
    /// these amounts.
    pub fn misses(&self, amounts: &[f64]) -> Option<Vec<f64>> {
        self.misses_of(amounts, &|_| true)
    }

    /// The same of those rows that count; of the others 0, and whether there are figures for them does not matter.
    pub fn misses_of(&self, amounts: &[f64], counts: &dyn Fn(usize) -> bool) -> Option<Vec<f64>> {
        let mut misses = self.modelled(amounts, counts)?;
        for (row, constraint) in self.constraints.iter().enumerate() {
            if let Form::Linear { factors, at } = &constraint.form {
                misses[row] = factors.iter().zip(amounts).map(|(factor, amount)| factor * amount).sum::<f64>() - at;
            }
        }
        Some(misses)
    }

    /// The misses of what the models say, of those rows that count; of all others 0.
    fn modelled(&self, amounts: &[f64], counts: &dyn Fn(usize) -> bool) -> Option<Vec<f64>> {
        let asked = self.constraints.iter().enumerate().filter_map(|(row, constraint)| match constraint.form {
            Form::Modelled { target, side } if counts(row) => Some((row, target, side)),
            _ => None,
        });
        let asked: Vec<_> = asked.collect();
        let mut misses = vec![0.0; self.constraints.len()];
        if asked.is_empty() {
            return Some(misses);
        }
        self.with_mass(amounts, |mass| {
            for (row, target, side) in asked {
                let over = match target.of {
                    Measured::WaterActivity => activity::over(&target, mass, side, self.reading)?,
                    of => target.over(mass.figure(of)?, side),
                };
                misses[row] = over / side.measure(target.of);
            }
            Some(misses)
        })
    }

    /// What holds as an equation whatever happens, as slopes: the total, locks, proportions.
    pub fn equations(&self) -> impl Iterator<Item = Vec<f64>> {
        let by_span = |factors: &[f64]| factors.iter().zip(&self.spans).map(|(factor, span)| factor * span).collect();
        self.constraints.iter().filter(|constraint| constraint.is_equal_with_next).filter_map(move |constraint| {
            match &constraint.form {
                Form::Linear { factors, .. } => Some(by_span(factors)),
                Form::Modelled { .. } => None,
            }
        })
    }

    /// Who asks for something, each once, in the order of the constraints.
    pub fn members(&self) -> Vec<Member> {
        let mut members: Vec<Member> = Vec::new();
        for constraint in self.constraints.iter().filter(|constraint| !constraint.is_given) {
            if !members.contains(&constraint.member) {
                members.push(constraint.member);
            }
        }
        members
    }

    /// Whether a constraint comes from a wish, which is met as far as possible and never missed.
    pub fn is_wish(&self, constraint: &Constraint) -> bool {
        match constraint.member {
            Member::Target(idx) => self.problem.targets[idx].bound.is_wish(),
            _ => false,
        }
    }

    /// Whether there is a wish.
    pub fn has_wish(&self) -> bool {
        self.problem.targets.iter().any(|target| target.bound.is_wish())
    }

    /// Changes in their spans from amounts.
    pub fn changes(&self, amounts: &[f64]) -> Vec<f64> {
        let changes = amounts.iter().zip(&self.before).zip(&self.spans);
        changes.map(|((amount, before), span)| (amount - before) / span).collect()
    }

    /// Amounts from changes in their spans.
    pub fn amounts(&self, changes: &[f64]) -> Vec<f64> {
        let amounts = self.before.iter().zip(&self.spans).zip(changes);
        amounts.map(|((before, span), change)| (before + span * change).max(0.0)).collect()
    }
}

/// What a gram of each ingredient costs. Another currency than the first one is no price: nothing is converted.
fn per_gram(problem: &Problem, ingredients: &[Arc<Ingredient>]) -> Vec<Option<f64>> {
    let price = |ingredient: &Arc<Ingredient>| problem.prices.price(&ingredient.id);
    // Of the first that is weighed in, as everywhere; of what is only allowed where nothing else has a price.
    let weighed = problem.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0);
    let currency = weighed.map(|line| &line.ingredient).chain(ingredients).find_map(price).map(Price::currency);
    let of_currency = |price: &&Price| Some(price.currency()) == currency;
    let per_gram = |price: &Price| price.of(Grams(1.0)).and_then(|money| f64::try_from(money).ok());
    ingredients.iter().map(|ingredient| price(ingredient).filter(of_currency).and_then(per_gram)).collect()
}

fn sound(amount: Grams) -> Result<f64, ProblemError> {
    let is_amount = amount.0.is_finite() && amount.0 >= 0.0;
    is_amount.then_some(amount.0).ok_or(ProblemError::UnsoundRule)
}
