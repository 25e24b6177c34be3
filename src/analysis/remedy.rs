//! What would bring a figure to a bound, in grams of a line that is there.
//!
//! Each remedy changes one line alone and leaves the others as they are, so the batch grows or shrinks by it.
//! Locked lines stay. Only changes that a maker would try are offered: no line grows by more than half of the batch or to
//! more than three times itself, none of which a pinch does its work grows at all, and a line is not taken out
//! altogether to mend a figure. A change must not break what is right: a figure that is usual stays so, one that is not
//! gets no worse.
//! What evaporates follows by the recipe's own rule (`MakeUp::with_more`): water that was weighed off stays the same, and a
//! change that would leave less of it than that is not offered; a mass that is cooked to a temperature is cooked to it again,
//! so that cream makes it no moister. Nothing is offered where more water is to evaporate than there is, where a mass cannot be
//! cooked as asked, and where what evaporates is not known.

use std::collections::HashMap;

use super::cooking::Evaporating;
use super::emulsion::{FAT_TO_WATER_EASY, FAT_TO_WATER_LIMIT, FatToWater, JAMMING, emulsion};
use super::is_above;
use super::make_up::MakeUp;
use super::parts::Parts;
use super::root::secant;
use super::usual::{UsualRange, usual_ranges};
use crate::ingredient::Category;
use crate::recipe::{Kind, Line, LineId, Recipe};
use crate::units::{Grams, MassFraction};

/// How many remedies a finding offers.
const OFFERED: usize = 2;

/// A line shrinks to no less than this share of itself.
const LEAST_LEFT: f64 = 0.1;

/// A line grows by no more than this share of the batch.
const MOST_ADDED: f64 = 0.5;

/// A line grows to no more than this many times itself.
const MOST_GROWN: f64 = 3.0;

/// What works by the pinch, or brings something that nobody wants more of: it is taken off, never added.
const NEVER_MORE: [Category; 5] =
    [Category::Additive, Category::Spice, Category::Spirit, Category::CoffeeTea, Category::Polyol];

/// What would bring a figure to a bound.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Changes of one line each, the smallest first.
    pub offered: Vec<Remedy>,
    /// Whether a line is locked, and so was not thought of.
    pub has_locked: bool,
}

/// Whether a change may move other figures out of what is usual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideEffects {
    /// It must not.
    Refused,
    /// It may: the change is no advice, it says how far a limit is.
    Allowed,
}

/// A change of one line that would bring a figure to a bound.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The line.
    pub line: LineId,
    /// Its ingredient.
    pub name: String,
    /// What to add; negative to take off.
    pub change: Grams,
}

/// Changes of single lines that bring the share of a part to `bound`.
///
/// Δ = (b·M − C)/(c − b), with b the bound, M the mass, C the grams of the part, c its share in the line.
///
/// Exact: shares are linear in grams over grams. Lines whose figure is unknown are left out. Where more of a line lets more
/// water evaporate it is solved as any other figure.
pub fn for_share(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: MassFraction,
    grams_of: impl Fn(&Parts) -> Option<Grams>,
) -> Remedies {
    let bowl = &make_up.bowl;
    if !matches!(make_up.evaporating, Evaporating::Weighed { .. }) {
        let share = |parts: &Parts| grams_of(parts).map(|grams| (grams / parts.total()).0);
        return for_figure(recipe, make_up, bound.0, SideEffects::Refused, share);
    }
    let Some(present) = grams_of(bowl) else { return Remedies::default() };
    let missing = bowl.total().0 * bound.0 - present.0;
    nearest(recipe, make_up, SideEffects::Refused, |line| {
        let mut gram = Parts::default();
        gram.add(&line.ingredient, Grams(1.0));
        let gain = grams_of(&gram)?.0 - bound.0;
        (gain != 0.0).then(|| missing / gain)
    })
}

/// Changes of single lines that bring a figure of the whole mass to `bound`.
///
/// Solved by the secant method from two trial changes; lines for which it does not settle are left out.
pub fn for_figure(
    recipe: &Recipe,
    make_up: &MakeUp,
    bound: f64,
    side_effects: SideEffects,
    figure: impl Fn(&Parts) -> Option<f64>,
) -> Remedies {
    /// Relative to the batch; finer than any scale.
    const TOLERANCE: f64 = 1e-6;

    let bowl = &make_up.bowl;
    let batch = bowl.total().0;
    let Some(here) = figure(bowl).map(|value| value - bound) else { return Remedies::default() };
    nearest(recipe, make_up, side_effects, |line| {
        let miss = |change: f64| {
            let changed = make_up.with_more(&[(&line.ingredient, Grams(change))])?;
            figure(&changed).map(|value| value - bound)
        };
        let range = -line.amount.grams().0..=batch;
        secant(here, batch * 0.01, &range, batch * TOLERANCE, miss)
    })
}

fn nearest(
    recipe: &Recipe,
    make_up: &MakeUp,
    side_effects: SideEffects,
    change_of: impl Fn(&Line) -> Option<f64>,
) -> Remedies {
    let batch = make_up.bowl.total().0;
    let has_locked = recipe.lines.iter().any(|line| line.is_locked && line.amount.grams().0 > 0.0);
    let none = Remedies { offered: Vec::new(), has_locked };
    if !evaporates_as_asked(make_up) {
        return none;
    }
    let mut changes: Vec<(&Line, f64)> = recipe
        .lines
        .iter()
        .filter(|line| !line.is_locked && line.amount.grams().0 > 0.0)
        .filter_map(|line| {
            let change = change_of(line)?;
            (change.is_finite() && allowed(line, batch).contains(&change)).then_some((line, change))
        })
        .collect();
    if changes.is_empty() {
        return none;
    }
    // The smallest change first; lines that change alike keep the order of the recipe.
    changes.sort_by(|(_, left), (_, right)| left.abs().total_cmp(&right.abs()));
    let judgement = (side_effects == SideEffects::Refused).then(|| Judgement::of(recipe, &make_up.bowl));
    let names = Names::of(recipe);
    let mut offered: Vec<Remedy> = Vec::with_capacity(OFFERED);
    for (line, change) in changes {
        let Some(changed) = make_up.with_more(&[(&line.ingredient, Grams(change))]) else { continue };
        // The mass must still have the water that evaporates.
        let is_possible = changed.most_water() >= Grams::ZERO;
        if !is_possible || judgement.as_ref().is_some_and(|judgement| judgement.is_worse(&changed)) {
            continue;
        }
        let name = names.name_of(line);
        // Two lines of one ingredient would offer the same words twice.
        if offered.last().is_none_or(|before| before.name != name) {
            offered.push(Remedy { line: line.id, name, change: Grams(change) });
        }
        if offered.len() == OFFERED {
            break;
        }
    }
    Remedies { offered, has_locked }
}

/// Whether what is to evaporate is known and evaporates: otherwise the figures are not those of the finished mass.
pub(super) fn evaporates_as_asked(make_up: &MakeUp) -> bool {
    let is_possible = make_up.evaporating.cooking().is_none_or(|cooking| cooking.outcome.is_ok());
    is_possible && make_up.evaporating.grams().is_some_and(|asked| !is_above(asked.0, make_up.evaporated.0))
}

/// How far a line may be changed, in grams.
pub(super) fn allowed(line: &Line, batch: f64) -> std::ops::RangeInclusive<f64> {
    let amount = line.amount.grams().0;
    let most = if NEVER_MORE.contains(&line.ingredient.category) {
        0.0
    } else {
        (batch * MOST_ADDED).min(amount * (MOST_GROWN - 1.0))
    };
    -amount * (1.0 - LEAST_LEFT)..=most
}

/// A figure that a change moves further out of what is usual.
#[derive(Clone, Debug, PartialEq)]
pub enum Worse {
    /// Droplets and particles are more crowded than they can be stirred.
    Crowded,
    /// The rule of fat to water says the next worse thing.
    FatToWater,
    /// A share leaves what is usual for the use.
    Usual {
        /// What is usual.
        range: UsualRange,
        /// The share after the change.
        share: MassFraction,
    },
}

/// How far the figures of a mass lie outside of what is usual: what a remedy must not make worse.
pub(super) struct Judgement {
    kind: Kind,
    usual: Vec<UsualRange>,
    before: Vec<f64>,
}

impl Judgement {
    pub(super) fn of(recipe: &Recipe, bowl: &Parts) -> Self {
        let mut judgement = Self { kind: recipe.kind, usual: usual_ranges(recipe), before: Vec::new() };
        judgement.before = judgement.outside(bowl).collect();
        judgement
    }

    /// How far each figure lies outside, relative to what is usual; a figure that is not known counts as within.
    fn outside<'a>(&'a self, bowl: &'a Parts) -> impl Iterator<Item = f64> + 'a {
        /// How far outside a firm emulsion counts; one that is likely to split is further.
        const FIRM: f64 = 0.1;
        let emulsion = emulsion(bowl).emulsion();
        let crowded = emulsion.map_or(0.0, |emulsion| emulsion.dispersed_share().0 / JAMMING.0 - 1.0);
        // The rule of fat to water counts where the trade has it.
        let rule = emulsion.filter(|emulsion| FatToWater::of(emulsion.fat_to_water, self.kind).is_some());
        // It says three things, easy, firm and likely to split: within one of them more fat is no worse.
        let fat_to_water = rule.map_or(0.0, |emulsion| match emulsion.fat_to_water {
            ratio if is_above(ratio, FAT_TO_WATER_LIMIT) => ratio / FAT_TO_WATER_EASY - 1.0,
            ratio if is_above(ratio, FAT_TO_WATER_EASY) => FIRM,
            _ => 0.0,
        });
        let shares = self.usual.iter().map(|range| {
            /// A range from nought to nought is measured by a point.
            const LEAST_SCALE: f64 = 1.0;
            let percent = range.of.of(bowl).map(crate::units::MassFraction::to_percent);
            let outside = percent.map_or(0.0, |percent| (range.low - percent).max(percent - range.high));
            outside / range.high.max(LEAST_SCALE)
        });
        [crowded, fat_to_water].into_iter().chain(shares).map(|outside| outside.max(0.0))
    }

    /// Whether a figure lies further outside than before.
    fn is_worse(&self, changed: &Parts) -> bool {
        self.places_worse(changed).next().is_some()
    }

    /// Which figures lie further outside than before.
    pub(super) fn worse(&self, changed: &Parts) -> Vec<Worse> {
        self.places_worse(changed)
            .filter_map(|place| match place {
                0 => Some(Worse::Crowded),
                1 => Some(Worse::FatToWater),
                place => {
                    let range = self.usual.get(place - 2)?;
                    Some(Worse::Usual { range: *range, share: range.of.of(changed)? })
                }
            })
            .collect()
    }

    /// The places in [`Self::outside`] of what lies further outside than before.
    fn places_worse<'a>(&'a self, changed: &'a Parts) -> impl Iterator<Item = usize> + 'a {
        /// Less than a last digit that is shown.
        const SLACK: f64 = 1e-3;
        let pairs = self.outside(changed).zip(&self.before).enumerate();
        pairs.filter_map(|(place, (after, before))| (after > before + SLACK).then_some(place))
    }
}

/// What the ingredients of a recipe are called in a sentence.
///
/// They are counted once: a table may have thousands of lines.
pub struct Names<'a> {
    /// The full name behind each short one; `None` where two ingredients share it.
    full: HashMap<String, Option<&'a str>>,
}

impl<'a> Names<'a> {
    /// The names of all lines of a recipe.
    #[must_use]
    pub fn of(recipe: &'a Recipe) -> Self {
        let mut full: HashMap<String, Option<&'a str>> = HashMap::new();
        for line in &recipe.lines {
            let name = line.ingredient.name.as_str();
            let kept = full.entry(line.ingredient.short_name()).or_insert(Some(name));
            *kept = kept.filter(|kept| *kept == name);
        }
        Self { full }
    }

    /// The short name of a line's ingredient, or the full one where another ingredient has the same short one.
    #[must_use]
    pub fn name_of(&self, line: &Line) -> String {
        let short = line.ingredient.short_name();
        let is_clear = self.full.get(&short).is_some_and(Option::is_some);
        if is_clear { short } else { line.ingredient.name.clone() }
    }

    /// The same, with the place of the line in the sheet where another line of the recipe has the same ingredient.
    #[must_use]
    pub fn name_and_place(&self, recipe: &Recipe, line: &Line) -> String {
        let name = self.name_of(line);
        let is_same = |other: &&Line| other.ingredient.name == line.ingredient.name;
        let place = recipe.lines.iter().position(|other| other.id == line.id);
        match place {
            Some(place) if recipe.lines.iter().filter(is_same).count() > 1 => format!("{name} (line {})", place + 1),
            _ => name,
        }
    }
}
