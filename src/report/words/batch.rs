//! What is made of a batch, from the scale to the pieces: the same figures and words in the window and in the text list.

use super::weighing::seed_of;
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::production::day::{Day, Work};
use crate::production::scaling::{Made, Product};
use crate::units::Grams;

/// Less than this is not seen at the bench.
const SEEN: Grams = Grams(0.05);

/// A figure of a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BatchFigure {
    /// How many times as large the recipe is.
    Factor,
    /// What is weighed in.
    WeighedIn,
    /// The water that goes.
    Evaporates,
    /// What the recipe says stays behind.
    Stays,
    /// What the recipe's own losses leave.
    Finished,
    /// What is lost behind them.
    FurtherLosses,
    /// What they leave.
    Left,
    /// Full frames.
    Frames,
    /// Whole pieces.
    Pieces,
    /// Shells or coats.
    Chocolate,
    /// How a frame is cut.
    Cut,
    /// How high it would stand in one frame.
    OneFrame,
    /// What is in no piece.
    Spare,
    /// The seed.
    Seed,
}

impl BatchFigure {
    /// All of them, in the order of the list.
    pub const ALL: [Self; 14] = [
        Self::Factor,
        Self::WeighedIn,
        Self::Evaporates,
        Self::Stays,
        Self::Finished,
        Self::FurtherLosses,
        Self::Left,
        Self::Frames,
        Self::Pieces,
        Self::Chocolate,
        Self::Cut,
        Self::OneFrame,
        Self::Spare,
        Self::Seed,
    ];

    /// Its name.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Factor => "times the recipe",
            Self::WeighedIn => "weighed in",
            Self::Evaporates => "water that evaporates",
            Self::Stays => "stays in bowls and bags",
            Self::Finished => "finished mass",
            Self::FurtherLosses => "further losses",
            Self::Left => "left after them",
            Self::Frames => "full frames",
            Self::Pieces => "pieces",
            Self::Chocolate => "chocolate around them",
            Self::Cut => "cut",
            Self::OneFrame => "all of it in one frame",
            Self::Spare => "left over",
            Self::Seed => "seed",
        }
    }
}

/// What there is to tell of a batch: its figures in their order, those that it has.
#[must_use]
pub fn batch(work: &Work, sign: DecimalSign) -> Vec<(BatchFigure, String)> {
    let batch = &work.batch;
    let mut factor = shortest(batch.factor, 4, sign);
    if let Some(at_hand) = &batch.at_hand {
        factor = format!("{factor}, what {} g of {} gives", grams(at_hand.amount.0, sign), at_hand.name);
    }
    let mut told = vec![(BatchFigure::Factor, factor), (BatchFigure::WeighedIn, weighed_in(work, sign))];
    let make_up = &batch.analysis.make_up;
    let evaporates = make_up.evaporating.grams().map(|_| make_up.evaporated);
    if evaporates != Some(Grams::ZERO) {
        told.push((BatchFigure::Evaporates, mass(evaporates, sign)));
    }
    let lost = batch.recipe.losses.transfer.share();
    if lost.0 > 0.0 {
        told.push((BatchFigure::Stays, format!("{} %", shortest(lost.to_percent(), 2, sign))));
    }
    told.push((BatchFigure::Finished, finished(work, sign)));
    if batch.further_yield.0 < 1.0 {
        let lost = 100.0 - batch.further_yield.to_percent();
        told.push((BatchFigure::FurtherLosses, format!("{} %", shortest(lost, 2, sign))));
        let left = work.finished_as_weighed().map(|finished| finished * batch.further_yield);
        told.push((BatchFigure::Left, mass(left, sign)));
    }
    if let Some(made) = &batch.made {
        tell_made(made, sign, &mut told);
    }
    told.push((BatchFigure::Seed, seed(work, sign)));
    told
}

/// The seed that is needed, and what of it is weighed where that shows as another.
fn seed(work: &Work, sign: DecimalSign) -> String {
    let needed = seed_of(&work.seed, &work.batch.analysis, sign);
    let Some((exact, weighed)) = work.seed.grams().zip(work.weighing.seed()) else { return needed };
    let (exact, weighed) = (mass(Some(exact), sign), mass(Some(weighed), sign));
    if exact == weighed { needed } else { format!("{needed}; {weighed} are weighed") }
}

/// The finished mass that the weighed amounts give, and what was asked for where that shows as another.
fn finished(work: &Work, sign: DecimalSign) -> String {
    asked_and_given(work.batch.finished, work.finished_as_weighed(), sign)
}

/// "1440 g; 1442 g were asked for"; the second only where it shows as another.
fn asked_and_given(asked: impl Into<Option<Grams>>, given: impl Into<Option<Grams>>, sign: DecimalSign) -> String {
    let (asked, given) = (mass(asked.into(), sign), mass(given.into(), sign));
    if asked == given { given } else { format!("{given}; {asked} were asked for") }
}

/// What is weighed, and what was asked for where the scale cannot tell it.
fn weighed_in(work: &Work, sign: DecimalSign) -> String {
    asked_and_given(work.weighing.requested, work.weighing.total, sign)
}

fn tell_made(made: &Made, sign: DecimalSign, told: &mut Vec<(BatchFigure, String)>) {
    if let Product::Slab { frame, slab, .. } = made.product {
        let millimetres = |value: f64| shortest(value, 1, sign);
        let [length, width, height] = [frame.length.0, frame.width.0, frame.height.0].map(millimetres);
        let size = format!("{length} × {width} × {height} mm");
        told.push((BatchFigure::Frames, format!("{} of {}, {size}", made.count, mass(Some(slab), sign))));
    }
    if let Some((count, piece)) = made.pieces().zip(made.piece()) {
        let gram = |mass: Grams| format!("{} g", shortest(mass.0, 2, sign));
        let shell = match (piece.shell.0 > 0.0, made.product) {
            (false, _) => String::new(),
            (true, Product::Piece(_)) => {
                format!(": {} of filling, {} of shell", gram(piece.filling), gram(piece.shell))
            }
            (true, Product::Slab { .. }) => {
                format!(": {} of centre, {} of coat", gram(piece.filling), gram(piece.shell))
            }
        };
        told.push((BatchFigure::Pieces, format!("{count} of {}{shell}", gram(piece.piece))));
    }
    if let Some(shells) = made.shells() {
        told.push((BatchFigure::Chocolate, mass(Some(shells), sign)));
    }
    if let Product::Slab { all_in_one, cut, .. } = made.product {
        if let Some(cut) = cut {
            let loss = fixed(cut.pieces.cutting_loss.to_percent(), 1, sign);
            let text = format!("{} × {} from a frame, {loss} % is cut off", cut.pieces.along, cut.pieces.across);
            told.push((BatchFigure::Cut, text));
        }
        // Full frames are as high as they are.
        if let Some(height) = all_in_one.filter(|_| made.spare.0 >= SEEN.0) {
            told.push((BatchFigure::OneFrame, format!("{} mm high", fixed(height.0, 1, sign))));
        }
    }
    if made.spare.0 >= SEEN.0 {
        told.push((BatchFigure::Spare, mass(Some(made.spare), sign)));
    }
}

/// The seed of a day, one sentence for each way.
#[must_use]
pub fn seed_of_the_day(day: &Day, sign: DecimalSign) -> Vec<(&'static str, String)> {
    let of_way = |of_way: &crate::production::seed::DayOfWay| {
        let bowls = u32::try_from(day.bowls_of(of_way.way)).unwrap_or(u32::MAX);
        let text = match (&of_way.need, day.ready) {
            (None, _) => "not known".to_owned(),
            (Some(need), None) => format!("{} g", grams(need.needed.0, sign)),
            (Some(need), Some(_)) => super::plan::need(need, of_way.way, bowls, sign),
        };
        (of_way.way.words(), text)
    };
    day.seed.ways.iter().map(of_way).collect()
}

/// A mass as text; unknown is said.
#[must_use]
pub fn mass(mass: Option<Grams>, sign: DecimalSign) -> String {
    mass.map_or_else(|| "not known".to_owned(), |mass| format!("{} g", grams(mass.0, sign)))
}
