//! What a mass is made of, line by line and together, with its losses.
//!
//! Mass is conserved: what the lines weigh, less the water that evaporates, is in the bowl; what stays in bowls and
//! bags (transfer loss) takes nothing from the composition.

use super::cooking::{Cooking, Evaporating, estimate, is_liquid, left_by};
use super::parts::Parts;
use super::water::equilibrium::Contents;
use crate::ingredient::{Component, Ingredient};
use crate::recipe::{CookTemperature, Evaporation, Height, LineId, Recipe};
use crate::units::{Grams, MassFraction};

/// What a mass is made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MakeUp {
    /// What the lines weigh together.
    pub weighed: Grams,
    /// How the water that evaporates is found.
    pub evaporating: Evaporating,
    /// The water that evaporates: what the recipe asks for, at most what there is. Nothing where it is not known; the water
    /// in the bowl is not known then.
    pub evaporated: Grams,
    /// All parts before evaporation.
    pub before_evaporation: Parts,
    /// The parts in the bowl, after evaporation and before transfer loss. All percentages refer to it.
    pub bowl: Parts,
    /// What each line brings, in the order of the recipe, before evaporation.
    pub lines: Vec<LineMakeUp>,
    /// The finished mass: the bowl less transfer loss.
    pub finished: Grams,
}

/// What one line brings.
#[derive(Clone, Debug, PartialEq)]
pub struct LineMakeUp {
    /// The line.
    pub id: LineId,
    /// Its parts.
    pub parts: Parts,
}

impl MakeUp {
    /// The bowl, had it so much more of some ingredients: what evaporates follows by the recipe's own rule.
    ///
    /// Water that was weighed off stays the same, an estimate grows with the liquid, and a mass that is cooked to a temperature
    /// is cooked to it again: more cream does not make it moister. `None` where the changed mass cannot be cooked so, and
    /// where what evaporates is not known.
    #[must_use]
    pub fn with_more(&self, more: &[(&Ingredient, Grams)]) -> Option<Parts> {
        let add = |mut bowl: Parts| {
            for (ingredient, grams) in more {
                bowl.add(ingredient, *grams);
            }
            bowl
        };
        let mut bowl = add(self.before_evaporation.clone());
        let evaporates = match self.evaporating {
            Evaporating::Weighed { .. } => return Some(add(self.bowl.clone())),
            Evaporating::Estimated { heating, liquid } => {
                let mut heated = liquid?;
                for (ingredient, grams) in more {
                    if is_liquid(ingredient)? {
                        heated += *grams;
                    }
                }
                estimate(heating, heated)
            }
            Evaporating::Cooked(Cooking { temperature, height, .. }) => cooks_off(&bowl, temperature, height)?,
        };
        bowl.evaporate(evaporates);
        Some(bowl)
    }

    /// What is left in the bowl of what a line brings; all lines together leave the bowl.
    ///
    /// Each loses the same share of its water. `None` where water is not known.
    #[must_use]
    pub fn left_of(&self, line: &LineMakeUp) -> Option<Parts> {
        let brought = self.bowl.grams(Component::Water)? + self.evaporated;
        let mut left = line.parts.clone();
        if brought.0 > 0.0 {
            left.evaporate(self.evaporated * (line.parts.grams(Component::Water)? / brought));
        }
        Some(left)
    }
}

impl LineMakeUp {
    /// Its share of all that is weighed; zero if nothing is.
    #[must_use]
    pub fn share_of(&self, weighed: Grams) -> MassFraction {
        if weighed.0 > 0.0 { self.parts.total() / weighed } else { MassFraction::ZERO }
    }
}

/// The bowl of these ingredients by the losses of a recipe: what [`make_up`] says of it, had it these lines.
///
/// `None` where what evaporates is not known, and where the mass cannot be cooked as asked.
#[must_use]
pub fn bowl_of<'a>(
    evaporation: Evaporation,
    lines: impl IntoIterator<Item = (&'a Ingredient, Grams)>,
) -> Option<Parts> {
    let mut bowl = Parts::default();
    let mut liquid = Some(Grams::ZERO);
    let is_estimated = matches!(evaporation, Evaporation::Estimated(_));
    for (ingredient, grams) in lines {
        bowl.add(ingredient, grams);
        if is_estimated && grams.0 > 0.0 {
            let heated = is_liquid(ingredient).map(|is_liquid| if is_liquid { grams } else { Grams::ZERO });
            liquid = liquid.zip(heated).map(|(liquid, heated)| liquid + heated);
        }
    }
    let evaporates = match evaporation {
        Evaporation::Weighed(amount) => amount.grams(),
        Evaporation::Estimated(heating) => estimate(heating, liquid?),
        Evaporation::CookedTo { temperature, height } => cooks_off(&bowl, temperature, height)?,
    };
    bowl.evaporate(evaporates);
    Some(bowl)
}

/// The water that a cook takes off; `None` where it cannot be cooked so.
fn cooks_off(before: &Parts, temperature: CookTemperature, height: Height) -> Option<Grams> {
    let contents = Contents::of(before)?;
    Some(contents.water - left_by(&contents, temperature, height).ok()?)
}

/// Adds up the lines of a recipe and takes its losses off.
///
/// bowl = Σ lines − evaporated water (by [`Evaporating`]); finished = bowl · (1 − transfer loss)
///
/// Source: balance of mass; rules of losses by common production arithmetic (a transfer loss keeps the composition,
/// an evaporation removes water only).
///
/// By hand: cream with 35 % fat 200 g and a 64 % couverture 250 g hold (200 · 59.09 + 250 · 0.55)/450 = 26.57 % water.
///
/// ```
/// # use nibwright::{analysis::make_up::make_up, ingredient::{Component, Library}, recipe::{Quantity, Recipe}};
/// # let library = Library::built_in();
/// # let mut recipe = Recipe::default();
/// for (id, grams) in [("cream-35", 200.0), ("couverture-dark-64", 250.0)] {
///     recipe.push(library.by_id(id).unwrap().clone(), Quantity::from_grams(grams).unwrap());
/// }
/// let water = make_up(&recipe).bowl.share(Component::Water).unwrap();
/// assert!((water.to_percent() - 26.57).abs() < 0.005);
/// ```
#[must_use]
pub fn make_up(recipe: &Recipe) -> MakeUp {
    let mut bowl = Parts::default();
    let mut lines = Vec::with_capacity(recipe.lines.len());
    for line in &recipe.lines {
        let amount = line.amount.grams();
        let mut parts = Parts::default();
        parts.add(&line.ingredient, amount);
        bowl.add(&line.ingredient, amount);
        lines.push(LineMakeUp { id: line.id, parts });
    }
    let weighed = bowl.total();
    let before_evaporation = bowl.clone();
    let evaporating = Evaporating::of(recipe, &before_evaporation);
    let asked = evaporating.grams();
    let evaporated = bowl.evaporate(asked.unwrap_or_default());
    if asked.is_none() {
        bowl.forget(Component::Water);
    }
    let finished = bowl.total() * (1.0 - recipe.losses.transfer.share().0);
    MakeUp { weighed, evaporating, evaporated, before_evaporation, bowl, lines, finished }
}
