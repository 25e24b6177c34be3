//! The work of a day: every batch with its weighing list, what there is to say about it, and the seed for all.

use super::base::relative_to;
use super::density::DensityFrom;
use super::mould::has_enough_chocolate;
use super::order::{Order, Wanted};
use super::piece_cost::WorkCost;
use super::rounding::RoundedLine;
use super::scaling::{Batch, CannotScale, scale};
use super::seed::{ReadyForWhat, SeedOf, SeedOfTheDay, seed_of_the_day};
use super::weighing::{Bench, Scales, Weighing, weighing};
use crate::analysis::is_below;
use crate::analysis::parts::{Group, Parts};
use crate::recipe::{Line, LineId, Quantity, Recipe, SeedingWay};
use crate::units::{Grams, GramsPerMillilitre, MassFraction};

/// Off by more than this the scale is too coarse for seed. Judged: the dose itself is a habit, and a factor of two matters little.
const MOST_SEED_ERROR: MassFraction = MassFraction(0.10);

/// The work of a day.
#[derive(Clone, Debug)]
pub struct Day {
    /// Every batch, in the order in which they were asked for.
    pub works: Vec<Work>,
    /// The seed for all of them.
    pub seed: SeedOfTheDay,
    /// The seed that is ready, if that was said.
    pub ready: Option<Grams>,
}

/// A batch with all that is needed at the scale.
#[derive(Clone, Debug)]
pub struct Work {
    /// The recipe scaled.
    pub batch: Batch,
    /// What to weigh.
    pub weighing: Weighing,
    /// Its seed.
    pub seed: SeedOf,
    /// What there is to say about it.
    pub notes: Vec<Note>,
    /// What it costs, if that was asked for.
    pub cost: Option<WorkCost>,
    /// The line that the others are also told in percent of, if that was asked for.
    pub base: Option<LineId>,
}

/// What there is to say about a batch.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A scale is too coarse for a line, in one of the bowls.
    TooCoarse {
        /// The name of the ingredient.
        name: String,
        /// The worst weighing of it.
        line: RoundedLine,
    },
    /// A scale is too coarse for the seed of a bowl.
    SeedTooCoarse {
        /// The worst weighing of it.
        line: RoundedLine,
    },
    /// There is too little chocolate around a filling for the names "filled chocolate" and "praline".
    TooLittleChocolate {
        /// The share of the shell.
        shell: MassFraction,
    },
    /// The density was computed.
    ComputedDensity {
        /// Melted, as it was computed.
        melted: GramsPerMillilitre,
        /// Once its cocoa butter has set: the lower and the upper end.
        set: (GramsPerMillilitre, GramsPerMillilitre),
    },
    /// It is not known what evaporates, and so the finished mass and what is made of it are not.
    EvaporationNotKnown,
}

impl Note {
    /// Its name for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::TooCoarse { .. } => "scale_too_coarse",
            Self::SeedTooCoarse { .. } => "scale_too_coarse_for_seed",
            Self::TooLittleChocolate { .. } => "too_little_chocolate",
            Self::ComputedDensity { .. } => "computed_density",
            Self::EvaporationNotKnown => "evaporation_not_known",
        }
    }
}

impl Work {
    /// A recipe scaled to what is asked for, and weighed into bowls.
    ///
    /// # Errors
    ///
    /// [`CannotScale`], in words.
    pub fn new(recipe: &Recipe, order: &Order, scales: Scales, bowl: Option<Grams>) -> Result<Self, CannotScale> {
        Self::with_steps(recipe, order, scales, bowl, &[])
    }

    /// The same with a scale of its own for some lines.
    ///
    /// # Errors
    ///
    /// [`CannotScale`], in words.
    pub fn with_steps(
        recipe: &Recipe,
        order: &Order,
        scales: Scales,
        bowl: Option<Grams>,
        own_steps: &[(LineId, Grams)],
    ) -> Result<Self, CannotScale> {
        let batch = scale(recipe, order)?;
        // Pieces that are asked for are never fewer.
        let is_least = matches!(order.wanted, Wanted::Pieces(_) | Wanted::Frames(_));
        let weighing = weighing(&batch, &Bench { scales, capacity: bowl, own_steps, is_least })?;
        let (seed, notes) = (SeedOf::batch(&batch), notes(&batch, &weighing));
        Ok(Self { batch, weighing, seed, notes, cost: None, base: None })
    }

    /// How many points rounding to the scale moves a share of what is weighed in, in the bowl where it moves it most; `None`
    /// where the share is not known.
    ///
    /// points = 100·(Σ rounded·share of the line/Σ rounded − Σ exact·share of the line/Σ exact)
    #[must_use]
    pub fn rounding_moves(&self, group: Group) -> Option<f64> {
        let share = |amounts: &mut dyn Iterator<Item = Grams>| {
            let mut parts = Parts::default();
            for (line, amount) in self.batch.recipe.lines.iter().zip(amounts) {
                parts.add(&line.ingredient, amount);
            }
            parts.group_share(group).map(MassFraction::to_percent)
        };
        let exact = share(&mut self.batch.recipe.lines.iter().map(|line| line.amount.grams()))?;
        let of_bowls = self.weighing.bowls.iter();
        let moved = of_bowls.map(|it| Some(share(&mut it.weighed.lines.iter().map(|line| line.rounded))? - exact));
        moved.reduce(|one, other| if one?.abs() < other?.abs() { other } else { one })?
    }

    /// Every line in percent of the base, as scaled and not rounded; `None` without a base.
    #[must_use]
    pub fn relative_to_base(&self) -> Option<(&Line, Vec<MassFraction>)> {
        let base = self.batch.recipe.line(self.base?)?;
        let amounts: Vec<Grams> = self.batch.recipe.lines.iter().map(|line| line.amount.grams()).collect();
        Some((base, relative_to(&amounts, base.amount.grams())?))
    }

    /// The finished mass that the weighed amounts give; `None` where it is not known what evaporates.
    ///
    /// finished = (weighed − evaporates)·(1 − transfer loss), with what evaporates as scaled
    #[must_use]
    pub fn finished_as_weighed(&self) -> Option<Grams> {
        let make_up = &self.batch.analysis.make_up;
        self.batch.finished?;
        let stays = self.batch.recipe.losses.transfer.share();
        Some((self.weighing.total - make_up.evaporated) * MassFraction(1.0 - stays.0))
    }

    /// The recipe as it will be weighed: every line with what is weighed of it in all bowls.
    ///
    /// What evaporates and an own amount of seed stay as scaled; they are not weighed in.
    ///
    /// # Errors
    ///
    /// [`CannotScale::Quantity`] where an amount would be none.
    pub fn as_weighed(&self) -> Result<Recipe, CannotScale> {
        let mut recipe = self.batch.recipe.clone();
        for (line, grams) in recipe.lines.iter_mut().zip(&self.weighing.lines) {
            let unit = line.amount.unit();
            line.amount = Quantity::from_grams(grams.0)?.in_unit(unit);
        }
        Ok(recipe)
    }
}

impl Work {
    /// Its seed as it is weighed into all bowls: that much leaves the jar.
    fn seed_as_weighed(&self) -> SeedOf {
        let weighed: Option<Grams> = self.weighing.seed();
        match (&self.seed, weighed) {
            (SeedOf::Needed { way, name, is_in_recipe: false, .. }, Some(grams)) => {
                SeedOf::Needed { way: *way, grams, name: name.clone(), is_in_recipe: false }
            }
            (seed, _) => seed.clone(),
        }
    }
}

impl Day {
    /// Several batches with the seed for all of them.
    ///
    /// # Errors
    ///
    /// [`ReadyForWhat`] where seed is ready and it is not clear what for.
    pub fn new(works: Vec<Work>, ready: Option<Grams>) -> Result<Self, ReadyForWhat> {
        let seeds: Vec<SeedOf> = works.iter().map(Work::seed_as_weighed).collect();
        let seed = seed_of_the_day(&seeds.iter().collect::<Vec<_>>(), ready)?;
        Ok(Self { works, seed, ready })
    }

    /// How many bowls are seeded in a way.
    #[must_use]
    pub fn bowls_of(&self, way: SeedingWay) -> u64 {
        let of_way = self.works.iter().filter(|work| work.seed.way() == Some(way));
        of_way.map(|work| work.weighing.count()).sum()
    }
}

fn notes(batch: &Batch, weighing: &Weighing) -> Vec<Note> {
    let mut notes = Vec::new();
    for (idx, line) in batch.recipe.lines.iter().enumerate() {
        let of_bowls = weighing.bowls.iter().map(|bowls| bowls.weighed.lines[idx]);
        if let Some(line_of_bowl) = worst(of_bowls.filter(RoundedLine::needs_finer_scale)) {
            notes.push(Note::TooCoarse { name: line.ingredient.name.clone(), line: line_of_bowl });
        }
    }
    let is_off = |line: &RoundedLine| is_below(MOST_SEED_ERROR.0, off(line));
    if let Some(line) = worst(weighing.bowls.iter().filter_map(|bowls| bowls.seed).filter(is_off)) {
        notes.push(Note::SeedTooCoarse { line });
    }
    if let Some(made) = &batch.made {
        if let Some(piece) = made.piece()
            && piece.shell.0 > 0.0
            && !has_enough_chocolate(piece.shell / piece.piece)
        {
            notes.push(Note::TooLittleChocolate { shell: piece.shell / piece.piece });
        }
        if let Some(density) = made.density
            && let DensityFrom::MakeUp { set } = density.from
        {
            notes.push(Note::ComputedDensity { melted: density.value, set });
        }
    }
    if batch.finished.is_none() {
        notes.push(Note::EvaporationNotKnown);
    }
    notes
}

/// Of weighings the one that is furthest off.
fn worst(lines: impl Iterator<Item = RoundedLine>) -> Option<RoundedLine> {
    lines.reduce(|one, other| if is_below(off(&one), off(&other)) { other } else { one })
}

/// By how much a weighing is off, as a share of what is meant.
fn off(line: &RoundedLine) -> f64 {
    line.relative_error.map_or(0.0, |error| error.0.abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ingredient::{Component, Composition, Ingredient, Library};
    use crate::production::order::Form;
    use crate::recipe::{Evaporation, Heating, MassUnit};
    use crate::units::Millilitres;

    fn ganache(grams: f64) -> Recipe {
        let mut recipe = Recipe::default();
        for (id, share) in [("couverture-dark-64", 0.65), ("cream-35", 0.35)] {
            let amount = Quantity::from_grams(grams * share).expect("an amount");
            recipe
                .push(Library::built_in().by_id(id).expect("it is built in").clone(), amount.in_unit(MassUnit::Ounce));
        }
        recipe
    }

    fn work(recipe: &Recipe, order: &Order, scales: Scales) -> Work {
        Work::new(recipe, order, scales, None).expect("it can be scaled")
    }

    fn codes(work: &Work) -> Vec<&'static str> {
        work.notes.iter().map(Note::code).collect()
    }

    /// By hand: some 1.1 % of 60 g are 0.66 g of seed, and a scale of 1 g shows 1 g; on one of 0.01 g nothing is to be said.
    #[test]
    fn a_scale_that_cannot_tell_the_seed_is_told() {
        let coarse = work(&ganache(60.0), &Order::default(), Scales::KITCHEN);
        assert_eq!(codes(&coarse), ["scale_too_coarse_for_seed"]);
        let scales = Scales { step: Grams(1.0), fine_step: Some(Grams(0.01)) };
        assert!(work(&ganache(60.0), &Order::default(), scales).notes.is_empty());
        // 11 g are 11 steps, which is few for salt and enough for seed.
        assert!(work(&ganache(1000.0), &Order::default(), Scales::KITCHEN).notes.is_empty());
    }

    /// By hand: 39 and 21 g stay what they are in steps of 5 g only nearly: 40 and 20 g, in the units of the lines.
    #[test]
    fn a_recipe_as_weighed_keeps_its_units() {
        let work = work(&ganache(60.0), &Order::default(), Scales { step: Grams(5.0), fine_step: None });
        let recipe = work.as_weighed().expect("they are amounts");
        let grams: Vec<f64> = recipe.lines.iter().map(|line| line.amount.grams().0.round()).collect();
        assert_eq!(grams, [40.0, 20.0]);
        assert!(recipe.lines.iter().all(|line| line.amount.unit() == MassUnit::Ounce));
    }

    #[test]
    fn a_computed_density_and_an_unknown_evaporation_are_told() {
        let form = Some(Form::Cavity { volume: Millilitres(10.0), shell: None });
        let order = Order { wanted: Wanted::Pieces(50), form, ..Order::default() };
        assert!(codes(&work(&ganache(600.0), &order, Scales::KITCHEN)).contains(&"computed_density"));
        let given = Order { density: Some(GramsPerMillilitre(1.2)), ..order };
        assert!(!codes(&work(&ganache(600.0), &given, Scales::KITCHEN)).contains(&"computed_density"));

        let composition =
            Composition::new([(Component::Sucrose, 30.0)], [Component::Water], 0.0).expect("a composition");
        let mut unknown = ganache(600.0);
        let herb = Ingredient { composition, ..Ingredient::unknown("herb", "Herb syrup") };
        unknown.push(herb.into(), Quantity::from_grams(100.0).expect("an amount"));
        unknown.losses.evaporation = Evaporation::Estimated(Heating::Boiled);
        let work = work(&unknown, &Order::default(), Scales::KITCHEN);
        assert!(codes(&work).contains(&"evaporation_not_known"), "{:?}", work.notes);
        assert_eq!((work.weighing.bowls[0].evaporates, work.weighing.bowls[0].left()), (None, None));
    }
}
