//! The seed of a batch, and of a day with several batches.
//!
//! What goes in is what the seeding plan says: by the way that was chosen, the maker's own amount where he gave one, and the
//! lines of the recipe that are the seed. Seed of different ways is not added up, because one does not serve for the other: a
//! cream is no grated butter.

use thiserror::Error;

use super::scaling::Batch;
use crate::analysis::fat_crystals::NoFatCrystals;
use crate::analysis::plan::NoPlan;
use crate::analysis::plan::need::{Need, need_of_the_day};
use crate::analysis::plan::seed::AmountFrom;
use crate::recipe::SeedingWay;
use crate::units::Grams;

/// The seed of a batch.
#[derive(Clone, Debug, PartialEq)]
pub enum SeedOf {
    /// So much goes in.
    Needed {
        /// In which way.
        way: SeedingWay,
        /// How much, for the whole batch.
        grams: Grams,
        /// What it is; `None` where the recipe does not say which chocolate is chopped.
        name: Option<String>,
        /// Whether it stands among the lines and is weighed with them.
        is_in_recipe: bool,
    },
    /// Some goes in, and how much is not known.
    NotKnown {
        /// In which way.
        way: SeedingWay,
    },
    /// None goes in: tempered chocolate keeps its crystals, or the mass is none that is seeded.
    None,
}

/// The seed of a day.
#[derive(Clone, Debug, PartialEq)]
pub struct SeedOfTheDay {
    /// What each way takes, in the order of the ways.
    pub ways: Vec<DayOfWay>,
}

/// What the batches of a day take of seed of one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayOfWay {
    /// The way.
    pub way: SeedingWay,
    /// How many recipes are seeded so.
    pub recipes: u32,
    /// What all of them take, against what is ready; `None` where the seed of one is not known.
    pub need: Option<Need>,
}

/// What is ready cannot be held against what is needed.
#[derive(Clone, Copy, Debug, Error, PartialEq, Eq)]
pub enum ReadyForWhat {
    /// There are several sorts of seed.
    #[error("seed is ready, and the recipes are seeded in several ways; ask for each way by itself")]
    SeveralWays,
    /// There is none.
    #[error("seed is ready, and none of the recipes is seeded; leave out what is ready")]
    NoSeed,
}

impl SeedOf {
    /// How much of it; `None` where there is none, or it is not known.
    #[must_use]
    pub fn grams(&self) -> Option<Grams> {
        match self {
            Self::Needed { grams, .. } => Some(*grams),
            Self::NotKnown { .. } | Self::None => None,
        }
    }

    /// In which way; `None` where there is none.
    #[must_use]
    pub fn way(&self) -> Option<SeedingWay> {
        match self {
            Self::Needed { way, .. } | Self::NotKnown { way } => Some(*way),
            Self::None => None,
        }
    }

    /// The seed of a batch.
    #[must_use]
    pub fn batch(batch: &Batch) -> Self {
        let way = batch.recipe.seeding.way;
        let seed = match &batch.analysis.plan {
            Ok(plan) => plan.seed.as_ref(),
            Err(NoPlan::Fat(NoFatCrystals::Unknown)) if way != SeedingWay::KeepTempered => {
                return Self::NotKnown { way };
            }
            Err(_) => None,
        };
        match seed {
            None => Self::None,
            Some(seed) => match seed.grams {
                None => Self::NotKnown { way: seed.way },
                Some(grams) => Self::Needed {
                    way: seed.way,
                    grams,
                    name: seed.ingredient.as_ref().map(|ingredient| ingredient.name.clone()),
                    is_in_recipe: seed.amount_from == AmountFrom::Sheet,
                },
            },
        }
    }
}

/// What the batches of a day take of seed, and what of it is missing.
///
/// needed = Σ seed of each batch; missing and left over as in [`need_of_the_day`]. Source: balance of mass.
///
/// # Errors
///
/// [`ReadyForWhat`] where something is ready and it is not clear what for.
pub fn seed_of_the_day(seeds: &[&SeedOf], ready: Option<Grams>) -> Result<SeedOfTheDay, ReadyForWhat> {
    let mut ways = Vec::new();
    for way in SeedingWay::ALL {
        let mut recipes = 0;
        let mut needed = Some(Grams::ZERO);
        for seed in seeds {
            match seed {
                SeedOf::Needed { way: of, grams, .. } if *of == way => {
                    recipes += 1;
                    needed = needed.map(|needed| needed + *grams);
                }
                SeedOf::NotKnown { way: of } if *of == way => {
                    recipes += 1;
                    needed = None;
                }
                _ => {}
            }
        }
        if recipes > 0 {
            let need = needed.map(|needed| need_of_the_day(1, needed, ready.unwrap_or_default()));
            ways.push(DayOfWay { way, recipes, need });
        }
    }
    match (ready, ways.len()) {
        (Some(_), 0) => Err(ReadyForWhat::NoSeed),
        (Some(_), 2..) => Err(ReadyForWhat::SeveralWays),
        _ => Ok(SeedOfTheDay { ways }),
    }
}

#[cfg(test)]
mod tests;
