//! A recipe scaled to what is asked for.
//!
//! [`scale`] finds the factor and what comes of it; nothing is rounded here, that is the weighing list's business.
//! Everything in a batch is in proportion: what evaporates too, whether it was weighed, is estimated or follows from a cook.
//! What it does not know: whether a larger pan really loses the same share of its water. It loses less, because it has less
//! surface for its volume; weigh the pan after the first large batch.

use thiserror::Error;

use super::density::{Density, DensityFrom, density_of};
use super::deposit::{coated, deposits_of};
use super::frame::{Cut, Frame, Pieces};
use super::losses::{chain_yield, input_for};
use super::mould::MouldedPiece;
use super::order::{Form, Order, Wanted};
use super::rounding::RoundingError;
use crate::analysis::heat::HeatError;
use crate::analysis::make_up::{MakeUp, make_up};
use crate::analysis::{Analysis, ROOM, analyse};
use crate::ingredient::Component;
use crate::ingredient::named::{NotNamed, names_and_ids};
use crate::number::as_given;
use crate::recipe::{QuantityError, Recipe};
use crate::units::{Grams, MassFraction, Millimetres};

/// A recipe scaled to what is asked for.
#[derive(Clone, Debug)]
pub struct Batch {
    /// The recipe with its new amounts, not rounded.
    pub recipe: Recipe,
    /// How many times as large it is.
    pub factor: f64,
    /// The ingredient that decided it, where that was asked for.
    pub at_hand: Option<AtHand>,
    /// What is computed about it.
    pub analysis: Analysis,
    /// What is left behind the recipe's own losses; `None` where it is not known what evaporates.
    pub finished: Option<Grams>,
    /// What the further losses leave of that.
    pub further_yield: MassFraction,
    /// What is made of it, if that is said.
    pub made: Option<Made>,
}

/// What there is of an ingredient, as it was found in the recipe.
#[derive(Clone, Debug, PartialEq)]
pub struct AtHand {
    /// Its name.
    pub name: String,
    /// How much of it there is.
    pub amount: Grams,
}

/// What is made of a batch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Made {
    /// One of it.
    pub product: Product,
    /// How many whole ones.
    pub count: u32,
    /// What of the mass is left over.
    pub spare: Grams,
    /// The density with which it was computed, if one was needed.
    pub density: Option<Density>,
}

/// One of what is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Product {
    /// A piece, of which the mass is the filling.
    Piece(MouldedPiece),
    /// A full frame.
    Slab {
        /// The frame.
        frame: Frame,
        /// What it holds.
        slab: Grams,
        /// How high the whole batch would stand in one of it.
        all_in_one: Option<Millimetres>,
        /// What is cut from it; `None` where that is not said.
        cut: Option<CutSlab>,
    },
}

/// What is cut from a slab.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutSlab {
    /// The pieces of one frame.
    pub pieces: Pieces,
    /// One of them, with its coat as the shell if it has one.
    pub piece: MouldedPiece,
}

/// Why a recipe cannot be scaled to what is asked for.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum CannotScale {
    /// There is nothing to scale.
    #[error("the recipe weighs nothing, or nothing is left of it; give its lines amounts first")]
    NothingToScale,
    /// Nothing is asked for.
    #[error("nothing is asked for; ask for more than 0")]
    NothingWanted,
    /// It is not known what evaporates.
    #[error(
        "how much water evaporates is not known, and so the finished mass is not; say what the pan loses by weight, or scale by an ingredient at hand"
    )]
    FinishedNotKnown,
    /// The ingredient at hand is none of the recipe.
    #[error("\"{}\" is not in the recipe; its ingredients are {}", name.escape_debug(), listed(ingredients))]
    NotInRecipe {
        /// What was asked for.
        name: String,
        /// What there is.
        ingredients: Vec<String>,
    },
    /// Several ingredients are called so.
    #[error("\"{}\" can mean {}; write one of these", name.escape_debug(), listed(ingredients))]
    SeveralCalledSo {
        /// What was asked for.
        name: String,
        /// What it can mean.
        ingredients: Vec<String>,
    },
    /// The recipe takes none of the ingredient at hand.
    #[error("the recipe takes 0 g of {name}, so what is at hand of it decides nothing; give its line an amount")]
    NoneOfIt {
        /// What was asked for.
        name: String,
    },
    /// Pieces are asked for, and nobody says what a piece is.
    #[error("the recipe does not say how many pieces it makes; say what a piece weighs, its cavity, or its frame")]
    PiecesNotKnown,
    /// Pieces of a frame are asked for, and nobody says how it is cut.
    #[error("it is not said how the frame is cut; give the size of a piece")]
    NotCut,
    /// Frames are asked for, and nobody says how large they are.
    #[error("it is not said how large a frame is; give its length, width and height")]
    NoFrame,
    /// The density is needed and not known.
    #[error("the density is not known, because {} is not; weigh a cup of known volume and give the density", part.words())]
    DensityNotKnown {
        /// The first part of the mass that is not known.
        part: Component,
    },
    /// No whole piece comes of a frame.
    #[error(
        "a frame of {} × {} mm, {} mm trimmed on every side, gives no whole piece of {} × {} mm; cut smaller pieces, trim less, or take a larger frame",
        as_given(frame.length.0), as_given(frame.width.0), as_given(cut.trim.0), as_given(cut.along.0), as_given(cut.across.0)
    )]
    NoWholePiece {
        /// The frame.
        frame: Frame,
        /// How it is cut.
        cut: Cut,
    },
    /// What is described is no piece, or nothing of the mass is in it.
    #[error(
        "such a piece takes nothing of the mass; check its weight or volume, its density, and the share of its shell"
    )]
    NoSuchPiece,
    /// An amount would be none.
    #[error("{0}")]
    Quantity(#[from] QuantityError),
    /// The amounts cannot be weighed.
    #[error("{0}")]
    Rounding(#[from] RoundingError),
    /// A bowl does not hold one step.
    #[error("a bowl for {} g has no room for one step of the scale, {} g, and its seed; take a larger bowl or a finer scale",
        as_given(capacity.0), as_given(step.0))]
    BowlTooSmall {
        /// What the bowl holds.
        capacity: Grams,
        /// The step.
        step: Grams,
    },
}

/// Names in a sentence.
fn listed(names: &[String]) -> String {
    if names.is_empty() { "none".to_owned() } else { names.join("; ") }
}

impl Product {
    /// What it takes of the mass.
    #[must_use]
    pub fn takes(&self) -> Grams {
        match self {
            Self::Piece(piece) => piece.filling,
            Self::Slab { slab, .. } => *slab,
        }
    }
}

impl Made {
    /// How many pieces there are; `None` of frames that are not cut.
    #[must_use]
    pub fn pieces(&self) -> Option<u32> {
        match self.product {
            Product::Piece(_) => Some(self.count),
            Product::Slab { cut, .. } => cut.map(|cut| cut.pieces.count().saturating_mul(self.count)),
        }
    }

    /// One of the pieces, with its shell or coat; `None` of frames that are not cut.
    #[must_use]
    pub fn piece(&self) -> Option<MouldedPiece> {
        match self.product {
            Product::Piece(piece) => Some(piece),
            Product::Slab { cut, .. } => cut.map(|cut| cut.piece),
        }
    }

    /// The chocolate for the shells or coats of all pieces; `None` where they have none.
    #[must_use]
    pub fn shells(&self) -> Option<Grams> {
        let piece = self.piece().filter(|piece| piece.shell.0 > 0.0)?;
        Some(piece.shell * f64::from(self.pieces()?))
    }
}

impl Batch {
    /// What is left behind all losses; `None` where it is not known what evaporates.
    #[must_use]
    pub fn output(&self) -> Option<Grams> {
        self.finished.map(|finished| finished * self.further_yield)
    }
}

/// A recipe scaled to what is asked for.
///
/// f = asked for/(finished mass of the recipe·Π (1 − further loss)); of an ingredient at hand f = what there is/what the recipe
/// takes. Amounts, weighed evaporation and an own amount of seed are multiplied by f.
///
/// Source: balance of mass; losses multiply, they do not add. A mass that is in proportion loses in proportion.
///
/// # Errors
///
/// [`CannotScale`], in words, where what is asked for cannot be done or not be known.
///
/// By hand: 200 g with a loss of 4 % leave 192 g; 960 g behind it take five times as much.
///
/// ```
/// # use nibwright::{ingredient::Library, recipe::{Quantity, Recipe, TransferLoss}, units::Grams};
/// # use nibwright::production::{order::{Order, Wanted}, scaling::scale};
/// let mut recipe = Recipe::default();
/// recipe.push(Library::built_in().by_id("cream-35").unwrap().clone(), Quantity::from_grams(200.0).unwrap());
/// let losses = vec![TransferLoss::from_percent(4.0).unwrap()];
/// let batch = scale(&recipe, &Order { wanted: Wanted::Mass(Grams(960.0)), losses, ..Order::default() })?;
/// assert!((batch.recipe.weighed().0 - 1000.0).abs() < 1e-9);
/// # Ok::<(), nibwright::production::scaling::CannotScale>(())
/// ```
pub fn scale(recipe: &Recipe, order: &Order) -> Result<Batch, CannotScale> {
    let before = make_up(recipe);
    if before.weighed.0 <= 0.0 {
        return Err(CannotScale::NothingToScale);
    }
    let finished = finished(&before);
    let further_yield = chain_yield(order.losses.iter().copied());
    let form = form(recipe, order, &before, finished)?;
    let from_output = |wanted: Grams| -> Result<f64, CannotScale> {
        let finished = finished.ok_or(CannotScale::FinishedNotKnown)?;
        if !is_weight(wanted) {
            return Err(CannotScale::NothingWanted);
        }
        let factor = (input_for(wanted, order.losses.iter().copied()) / finished).0;
        if factor.is_finite() { Ok(factor) } else { Err(CannotScale::NothingToScale) }
    };
    let of_units = |count: u32, form: &Resolved| from_output(form.product.takes() * f64::from(count));
    let mut of_what = None;
    let (factor, count) = match (&order.wanted, &form) {
        (Wanted::AsItStands, _) => (1.0, None),
        (Wanted::Mass(mass), _) => (from_output(*mass)?, None),
        (Wanted::AtHand { ingredient, amount }, _) => {
            let (factor, name) = at_hand(recipe, ingredient, *amount)?;
            of_what = Some(AtHand { name, amount: *amount });
            (factor, None)
        }
        (Wanted::Pieces(_), None) => return Err(CannotScale::PiecesNotKnown),
        (Wanted::Pieces(pieces), Some(form)) => {
            let count = form.units_for(*pieces)?;
            (of_units(count, form)?, Some(count))
        }
        (Wanted::Frames(count), Some(form @ Resolved { product: Product::Slab { .. }, .. })) => {
            (of_units(*count, form)?, Some(*count))
        }
        (Wanted::Frames(_), _) => return Err(CannotScale::NoFrame),
    };
    let mut recipe = recipe.scaled_by(factor)?;
    let analysis = analyse(&recipe, ROOM);
    let finished = self::finished(&analysis.make_up);
    let output = finished.map(|finished| finished * further_yield);
    let made = form.and_then(|form| form.made(count, output));
    // What the file said of another size holds no longer.
    let of_file = recipe.pieces.filter(|_| factor == 1.0);
    recipe.pieces = made.as_ref().and_then(Made::pieces).or(of_file);
    Ok(Batch { recipe, factor, at_hand: of_what, analysis, finished, further_yield, made })
}

/// Whether there is something to ask for, and a number.
fn is_weight(mass: Grams) -> bool {
    mass.0 > 0.0 && mass.0.is_finite()
}

/// The finished mass; `None` where it is not known what evaporates.
fn finished(make_up: &MakeUp) -> Option<Grams> {
    make_up.evaporating.grams().map(|_| make_up.finished)
}

/// How many times the recipe an ingredient at hand gives, and what it is called.
fn at_hand(recipe: &Recipe, name: &str, amount: Grams) -> Result<(f64, String), CannotScale> {
    if !is_weight(amount) {
        return Err(CannotScale::NothingWanted);
    }
    let lines = recipe.lines_named(name).map_err(|why| match why {
        NotNamed::Unknown => {
            let all = recipe.lines.iter().map(|line| &line.ingredient);
            CannotScale::NotInRecipe { name: name.to_owned(), ingredients: names_and_ids(all) }
        }
        NotNamed::Several(several) => {
            CannotScale::SeveralCalledSo { name: name.to_owned(), ingredients: names_and_ids(&several) }
        }
    })?;
    let takes: Grams = lines.iter().map(|line| line.amount.grams()).sum();
    let name = lines.first().map(|line| line.ingredient.name.clone()).unwrap_or_default();
    if takes.0 <= 0.0 {
        return Err(CannotScale::NoneOfIt { name });
    }
    Ok(((amount / takes).0, name))
}

/// What is made, with the density with which it was computed.
struct Resolved {
    product: Product,
    density: Option<Density>,
}

impl Resolved {
    /// How many pieces or frames give so many pieces.
    fn units_for(&self, pieces: u32) -> Result<u32, CannotScale> {
        match self.product {
            Product::Piece(_) => Ok(pieces),
            Product::Slab { cut: Some(cut), .. } => Ok(pieces.div_ceil(cut.pieces.count())),
            Product::Slab { cut: None, .. } => Err(CannotScale::NotCut),
        }
    }

    /// What comes of a mass: so many as were asked for, or as many whole ones as it gives; `None` where it is not known.
    fn made(self, count: Option<u32>, output: Option<Grams>) -> Option<Made> {
        let output = output?;
        let takes = self.product.takes();
        let count = count.or_else(|| deposits_of(output, [], takes))?;
        let product = match self.product {
            Product::Slab { frame, slab, cut, .. } => {
                let all_in_one = frame.height_of(output, self.density?.value);
                Product::Slab { frame, slab, all_in_one, cut }
            }
            piece @ Product::Piece(_) => piece,
        };
        let spare = (output - takes * f64::from(count)).max(Grams::ZERO);
        Some(Made { product, count, spare, density: self.density })
    }
}

fn form(
    recipe: &Recipe,
    order: &Order,
    before: &MakeUp,
    finished: Option<Grams>,
) -> Result<Option<Resolved>, CannotScale> {
    let density = || match order.density {
        Some(value) => Ok(Density { value, from: DensityFrom::Typed }),
        None => density_of(&before.bowl).map_err(|error| match error {
            HeatError::Unknown { component } => CannotScale::DensityNotKnown { part: component },
            _ => CannotScale::NothingToScale,
        }),
    };
    let piece = |piece: Option<MouldedPiece>, density| {
        let piece = piece.filter(|piece| piece.filling.0 > 0.0).ok_or(CannotScale::NoSuchPiece)?;
        Ok(Some(Resolved { product: Product::Piece(piece), density }))
    };
    match order.form {
        Some(Form::Piece { mass, shell }) => piece(MouldedPiece::of_mass(mass, shell), None),
        Some(Form::Cavity { volume, shell }) => {
            let density = density()?;
            let (share, of_shell) = shell.map_or((MassFraction::ZERO, density.value), |it| (it.share, it.density));
            piece(MouldedPiece::of_cavity(volume, share, of_shell, density.value), Some(density))
        }
        Some(Form::Frame { frame, cut, coat }) => {
            let density = density()?;
            let slab = frame.volume() * density.value;
            if !(slab.0 > 0.0 && slab.0.is_finite()) {
                return Err(CannotScale::NoSuchPiece);
            }
            let cut_slab = |cut: Cut| {
                let pieces = frame.pieces(&cut).ok_or(CannotScale::NoWholePiece { frame, cut })?;
                let centre = pieces.volume * density.value;
                let coated = coated(centre, coat).ok_or(CannotScale::NoSuchPiece)?;
                let piece = MouldedPiece { piece: coated.piece, shell: coated.coating, filling: centre };
                Ok::<CutSlab, CannotScale>(CutSlab { pieces, piece })
            };
            let cut = cut.map(cut_slab).transpose()?;
            let product = Product::Slab { frame, slab, all_in_one: None, cut };
            Ok(Some(Resolved { product, density: Some(density) }))
        }
        None => {
            let of_recipe =
                recipe.pieces.filter(|&pieces| pieces > 0).zip(finished.filter(|finished| finished.0 > 0.0));
            let Some((pieces, finished)) = of_recipe else { return Ok(None) };
            piece(MouldedPiece::of_mass(finished * (1.0 / f64::from(pieces)), MassFraction::ZERO), None)
        }
    }
}

#[cfg(test)]
mod tests;
