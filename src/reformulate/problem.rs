//! What a reformulation is asked to do.

use std::sync::Arc;

use thiserror::Error;

use super::measured::Measured;
use super::target::Target;
use crate::ingredient::{Category, Ingredient};
use crate::production::price_list::PriceList;
use crate::recipe::{Line, LineId, Quantity, Recipe};
use crate::units::Grams;

/// What a reformulation is asked to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// The recipe as it is.
    pub recipe: Recipe,
    /// What is asked of it.
    pub targets: Vec<Target>,
    /// What may be used besides.
    pub allowed: Vec<Allowed>,
    /// What is asked of amounts; of one line or allowed ingredient several things may be asked.
    pub limits: Vec<Limit>,
    /// By what the amount of such an ingredient is measured where it is larger than 2 % of the batch: of what it takes the place.
    pub allowed_for: Option<Grams>,
    /// Whether the lines weigh together what they weighed before.
    pub keeps_total: bool,
    /// What counts as little change.
    pub change: Change,
    /// What the scale shows.
    pub scale: Scale,
    /// What ingredients cost, for targets of cost.
    pub prices: PriceList,
}

/// An ingredient that may be used besides those in the recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowed {
    /// The ingredient.
    pub ingredient: Arc<Ingredient>,
    /// No more of it.
    pub most: Option<Grams>,
}

/// A line of the recipe, or an ingredient that may be used besides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// A line.
    Line(LineId),
    /// The place of an ingredient in [`Problem::allowed`].
    Allowed(usize),
}

/// What is a matter of taste: more of it makes another product, whatever the figures say.
const SEASONING: [Category; 4] = [Category::Spice, Category::Additive, Category::CoffeeTea, Category::Spirit];

/// Whether an ingredient is there for its taste, so that it is no means to move a result.
#[must_use]
pub fn is_seasoning(ingredient: &Ingredient) -> bool {
    SEASONING.contains(&ingredient.category)
}

/// What is asked of one amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Of which.
    pub place: Place,
    /// What is asked.
    pub rule: Rule,
}

/// What can be asked of one amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rule {
    /// It stays as it is. A locked line of the recipe, and seed in it, stay so without being named.
    Locked,
    /// At least so much.
    AtLeast(Grams),
    /// At most so much.
    AtMost(Grams),
    /// Whole packs of so much: a block, a bag, an egg.
    InPacks(Grams),
    /// So many times as much as another line.
    TimesOther {
        /// The other line.
        other: Place,
        /// How many times as much.
        times: f64,
    },
}

/// What counts as little change.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Change {
    /// The sum of the squares of the relative changes: it is spread over the lines.
    #[default]
    Spread,
    /// The sum of the relative changes: few lines take part. Not always the fewest.
    FewLines,
}

/// What the scale shows.
///
/// Small amounts are weighed on a finer one: hundredths of a gram below 10 g, tenths below 100 g, as the program shows
/// grams (common practice, no published source). `coarsest` is the step of the scale for the bowl.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The step of the scale that the large amounts are weighed on.
    pub coarsest: Grams,
    /// Whether small amounts are weighed on a finer one.
    pub has_finer: bool,
}

impl Default for Scale {
    /// A scale that shows whole grams, and a finer one beside it.
    fn default() -> Self {
        Self { coarsest: Grams(1.0), has_finer: true }
    }
}

impl Scale {
    /// The step in which an amount is weighed.
    #[must_use]
    pub fn step_for(self, amount: Grams) -> Grams {
        if !self.has_finer {
            return self.coarsest;
        }
        let finer = crate::number::SCALES.into_iter().find(|&(below, _)| amount.0 < below);
        finer.map_or(self.coarsest, |(_, decimals)| Grams(10_f64.powi(-(decimals.cast_signed()))).min(self.coarsest))
    }

    /// By how much an amount may be off so many times another one because both are weighed in steps: half a step of that of
    /// the two on which more depends.
    #[must_use]
    pub fn off_proportion(self, amount: Grams, times: f64, other: Grams) -> Grams {
        self.step_for(amount).max(self.step_for(other) * times) * 0.5
    }
}

/// Why a problem cannot be worked on: it is not well put, or something of it is not known.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum ProblemError {
    /// There is nothing to change.
    #[error("the recipe weighs nothing; give the lines amounts first")]
    NothingWeighed,
    /// A bound is no number, its ends are the wrong way round, or it is not between 0 and 1 where the figure always is.
    #[error("target {}: its bound is none that such a figure can have", .0 + 1)]
    UnsoundBound(usize),
    /// Of a target the figure is not known, or the mass has none.
    #[error("target {}: the recipe has no such figure", .target + 1)]
    NoFigure {
        /// Its place in [`Problem::targets`].
        target: usize,
        /// The result.
        of: Measured,
    },
    /// A rule names a line that is not there, or itself.
    #[error("a rule names a line that is not there")]
    NoSuchLine,
    /// A rule asks for an amount that is none.
    #[error("a rule asks for an amount that is none")]
    UnsoundRule,
    /// A line is to come in packs of two sizes.
    #[error("one ingredient is asked for in packs of two sizes; name one of them")]
    TwoPackSizes,
    /// The step of the scale is none.
    #[error("the step of the scale is no weight above 0")]
    UnsoundScale,
}

impl Problem {
    /// Nothing asked of a recipe yet.
    #[must_use]
    pub fn new(recipe: Recipe) -> Self {
        Self {
            recipe,
            targets: Vec::new(),
            allowed: Vec::new(),
            limits: Vec::new(),
            allowed_for: None,
            keeps_total: true,
            change: Change::default(),
            scale: Scale::default(),
            prices: PriceList::default(),
        }
    }

    /// All places whose amount is looked for: the lines, then what is allowed.
    pub fn places(&self) -> impl Iterator<Item = Place> + '_ {
        let lines = self.recipe.lines.iter().map(|line| Place::Line(line.id));
        lines.chain((0..self.allowed.len()).map(Place::Allowed))
    }

    /// The ingredient at a place.
    #[must_use]
    pub fn ingredient(&self, place: Place) -> Option<&Arc<Ingredient>> {
        match place {
            Place::Line(id) => self.recipe.line(id).map(|line| &line.ingredient),
            Place::Allowed(idx) => self.allowed.get(idx).map(|allowed| &allowed.ingredient),
        }
    }

    /// What stays of a batch at least that may change its weight.
    ///
    /// In next to nothing every share is nearly had. Where a finished mass is asked for, that says how much there is to be;
    /// and locks and limits may leave less: that is no contradiction.
    #[must_use]
    pub fn least_total(&self) -> Grams {
        /// Of the batch as it is (judged).
        const LEAST: f64 = 0.1;
        const LEAST_WHERE_ASKED: f64 = 1e-3;
        let asks_mass = self.targets.iter().any(|target| target.of == Measured::FinishedMass);
        let least = if asks_mass { LEAST_WHERE_ASKED } else { LEAST };
        Grams((least * self.recipe.weighed().0).min(self.most_allowed() / 2.0))
    }

    /// What all amounts can weigh together by the locks and limits on each, g; infinite where one has no upper end.
    fn most_allowed(&self) -> f64 {
        let most = |place: Place| {
            let line = match place {
                Place::Line(id) => self.recipe.line(id),
                Place::Allowed(_) => None,
            };
            let before = line.map_or(Grams::ZERO, |line| line.amount.grams());
            let own = match place {
                Place::Allowed(idx) => self.allowed.get(idx).and_then(|allowed| allowed.most),
                Place::Line(_) => line.filter(|line| line.stays()).map(|_| before),
            };
            let of_limit = |rule: Rule| match rule {
                Rule::Locked => Some(before),
                Rule::AtMost(most) => Some(most),
                Rule::AtLeast(_) | Rule::InPacks(_) | Rule::TimesOther { .. } => None,
            };
            let limits = self.limits.iter().filter(|limit| limit.place == place);
            limits.filter_map(|limit| of_limit(limit.rule)).chain(own).fold(f64::INFINITY, |most, one| most.min(one.0))
        };
        self.places().map(most).sum::<f64>().max(0.0)
    }

    /// Puts "no more than now" on all seasoning of the recipe of which nothing is asked and that `is_free` leaves out.
    ///
    /// Without it salt and alcohol would be the cheapest way to a low water activity. A locked line and seed stay anyway.
    pub fn hold_seasoning(&mut self, is_free: impl Fn(&Line) -> bool) {
        let is_asked = |line: &Line| self.limits.iter().any(|limit| limit.place == Place::Line(line.id));
        let is_held =
            |line: &&Line| !line.stays() && is_seasoning(&line.ingredient) && !is_asked(line) && !is_free(line);
        let held = self.recipe.lines.iter().filter(is_held);
        let limits: Vec<Limit> =
            held.map(|line| Limit { place: Place::Line(line.id), rule: Rule::AtMost(line.amount.grams()) }).collect();
        self.limits.extend(limits);
    }

    /// Locks all seasoning of the recipe of which nothing is asked and that `is_free` leaves out: an exchange is none of taste.
    pub fn lock_seasoning(&mut self, is_free: impl Fn(&Line) -> bool) {
        let from = self.limits.len();
        self.hold_seasoning(is_free);
        for limit in &mut self.limits[from..] {
            limit.rule = Rule::Locked;
        }
    }

    /// Whether a limit only keeps seasoning from rising above what it is.
    #[must_use]
    pub fn only_holds_seasoning(&self, limit: &Limit) -> bool {
        let Place::Line(id) = limit.place else { return false };
        let line = self.recipe.line(id).filter(|line| is_seasoning(&line.ingredient));
        line.is_some_and(|line| limit.rule == Rule::AtMost(line.amount.grams()))
    }

    /// The recipe with other amounts: what is allowed and used comes as new lines at the end.
    ///
    /// Amounts keep their unit. An amount that did not change keeps its digits.
    #[must_use]
    pub(super) fn with_amounts(&self, amounts: &[Grams]) -> Recipe {
        let mut recipe = self.recipe.clone();
        let lines = recipe.lines.len();
        for (line, &amount) in recipe.lines.iter_mut().zip(amounts) {
            if line.amount.grams() != amount {
                line.amount = quantity(amount).in_unit(line.amount.unit());
            }
        }
        for (allowed, &amount) in self.allowed.iter().zip(amounts.iter().skip(lines)) {
            if amount.0 > 0.0 {
                recipe.push(allowed.ingredient.clone(), quantity(amount));
            }
        }
        recipe
    }
}

/// An amount of a solution as a quantity: it is finite and not negative.
fn quantity(amount: Grams) -> Quantity {
    Quantity::from_grams(amount.0.clamp(0.0, Quantity::MOST.0)).unwrap_or_default()
}
