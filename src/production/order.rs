//! What is asked for: so much mass, so many pieces, or what an ingredient at hand will give.

use super::frame::{Cut, Frame};
use crate::recipe::TransferLoss;
use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres};

/// What is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// How much.
    pub wanted: Wanted,
    /// What is made of the mass; `None` for the pieces of the recipe itself, if it says how many it makes.
    pub form: Option<Form>,
    /// What is lost behind the recipe's own losses, each of what is left.
    pub losses: Vec<TransferLoss>,
    /// The density of the mass, weighed; `None` to compute it.
    pub density: Option<GramsPerMillilitre>,
}

/// How much is asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Wanted {
    /// The recipe as it stands.
    AsItStands,
    /// So much mass behind all losses.
    Mass(Grams),
    /// As much as so much of an ingredient gives.
    AtHand {
        /// Its id, its name, or a part of it that no other has: see [`crate::ingredient::named`].
        ingredient: String,
        /// How much there is.
        amount: Grams,
    },
    /// So many pieces.
    Pieces(u32),
    /// So many frames, full.
    Frames(u32),
}

/// What is made of the mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// Pieces of a weight, with a share of shell; none of a deposit.
    Piece {
        /// What the whole piece weighs.
        mass: Grams,
        /// How much of it is shell and base.
        shell: MassFraction,
    },
    /// Pieces in the cavities of a mould.
    Cavity {
        /// What a cavity holds.
        volume: Millilitres,
        /// Shell and base, if there are any.
        shell: Option<ShellOf>,
    },
    /// A slab in a frame.
    Frame {
        /// Its inside.
        frame: Frame,
        /// How it is cut, if it is.
        cut: Option<Cut>,
        /// The coat of a cut piece as a share of the coated piece; none of a bare one.
        coat: MassFraction,
    },
}

/// A shell around a filling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShellOf {
    /// Shell and base as a share of the piece.
    pub share: MassFraction,
    /// The density of set chocolate.
    pub density: GramsPerMillilitre,
}

impl Order {
    /// So much mass of another recipe, behind the same losses.
    #[must_use]
    pub fn of_another_mass(&self, mass: Grams) -> Self {
        Self { wanted: Wanted::Mass(mass), losses: self.losses.clone(), ..Self::default() }
    }
}

impl Default for Order {
    /// The recipe as it stands.
    fn default() -> Self {
        Self { wanted: Wanted::AsItStands, form: None, losses: Vec::new(), density: None }
    }
}
