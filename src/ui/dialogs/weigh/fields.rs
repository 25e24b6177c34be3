//! What is typed in the form, and the order that it makes.

use super::also::Other;
use super::own_steps::OwnSteps;
use crate::ingredient::Library;
use crate::number::{DecimalSign, typed};
use crate::production::day::{Day, Work};
use crate::production::density::{DensityFrom, density_of};
use crate::production::frame::{Cut, Frame};
use crate::production::order::{Form, Order, ShellOf, Wanted};
use crate::production::rounding::RoundingError;
use crate::production::scaling::CannotScale;
use crate::production::typed::{
    parse_count, parse_density, parse_loss, parse_mass, parse_millilitres, parse_millimetres, parse_ready, parse_shell,
    parse_step, parse_trim,
};
use crate::production::weighing::{Scales, steps_in};
use crate::recipe::{Piece, Recipe, Use};
use crate::ui::text::UNNAMED;
use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millimetres};

/// A field for a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Finished mass.
    Mass,
    /// Whole pieces.
    Pieces,
    /// Full frames.
    Frames,
    /// What there is of an ingredient.
    AtHand,
    /// Weight of a piece.
    Piece,
    /// Volume of a cavity.
    Cavity,
    /// Share of shell or coat.
    Shell,
    /// Density of the shell.
    ShellDensity,
    /// Length of the frame.
    Length,
    /// Width of the frame.
    Width,
    /// How high it is filled.
    Height,
    /// Of a piece, along the length.
    Along,
    /// Of a piece, across.
    Across,
    /// Cut off on every side.
    Trim,
    /// Density of the mass.
    Density,
    /// Losses behind those of the recipe.
    Losses,
    /// What a bowl holds.
    Bowl,
    /// Step of the scale.
    Step,
    /// Step of a finer one.
    FineStep,
    /// Seed that is ready.
    Ready,
}

impl Field {
    /// All fields, in the order of the form.
    pub const ALL: [Self; 20] = [
        Self::Mass,
        Self::Pieces,
        Self::Frames,
        Self::AtHand,
        Self::Piece,
        Self::Cavity,
        Self::Shell,
        Self::ShellDensity,
        Self::Length,
        Self::Width,
        Self::Height,
        Self::Along,
        Self::Across,
        Self::Trim,
        Self::Density,
        Self::Losses,
        Self::Bowl,
        Self::Step,
        Self::FineStep,
        Self::Ready,
    ];

    /// What stays the same from recipe to recipe: the bowls and scales of the bench.
    const OF_THE_BENCH: [Self; 3] = [Self::Bowl, Self::Step, Self::FineStep];

    /// Its name for those who cannot see where it stands.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Mass => "how much finished mass",
            Self::Pieces => "number of pieces",
            Self::Frames => "number of frames",
            Self::AtHand => "what there is of it",
            Self::Piece => "what a piece weighs",
            Self::Cavity => "what a cavity holds, ml",
            Self::Shell => "shell or coat, %",
            Self::ShellDensity => "density of the shell, g/ml",
            Self::Length => "length of the frame, mm",
            Self::Width => "width of the frame, mm",
            Self::Height => "height of the frame, mm",
            Self::Along => "a piece along the length, mm",
            Self::Across => "a piece across the length, mm",
            Self::Trim => "trimmed on every side, mm",
            Self::Density => "density of the mass, g/ml",
            Self::Losses => "further losses, %",
            Self::Bowl => "what a bowl holds",
            Self::Step => "step of the scale",
            Self::FineStep => "step of a finer scale",
            Self::Ready => "seed that is ready",
        }
    }

    fn index(self) -> usize {
        Self::ALL.iter().position(|field| *field == self).unwrap_or(0)
    }
}

/// How much is asked for, as a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    Mass,
    Pieces,
    Frames,
    AtHand,
}

impl Asked {
    pub(super) const ALL: [Self; 4] = [Self::Mass, Self::Pieces, Self::Frames, Self::AtHand];

    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Mass => "finished mass",
            Self::Pieces => "pieces",
            Self::Frames => "full frames",
            Self::AtHand => "what an ingredient gives",
        }
    }

    pub(super) fn field(self) -> Field {
        match self {
            Self::Mass => Field::Mass,
            Self::Pieces => Field::Pieces,
            Self::Frames => Field::Frames,
            Self::AtHand => Field::AtHand,
        }
    }
}

/// What is made of it, as a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum MadeAs {
    Nothing,
    Weight,
    Mould,
    Frame,
}

impl MadeAs {
    pub(super) const ALL: [Self; 4] = [Self::Nothing, Self::Weight, Self::Mould, Self::Frame];

    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Nothing => "not said here",
            Self::Weight => "pieces or deposits by weight",
            Self::Mould => "pieces in a mould",
            Self::Frame => "a slab in a frame",
        }
    }
}

/// All that is typed and chosen.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Fields {
    pub(super) asked: Asked,
    pub(super) made_as: MadeAs,
    /// What pieces are at first; `None` where the recipe says how many it makes, and so what they are.
    pieces_are: Option<MadeAs>,
    /// The name of the ingredient at hand.
    pub(super) ingredient: String,
    /// The id of what shells or coats are made of, for what they cost; `None` where that is not counted.
    pub(super) shell_of: Option<String>,
    pub(super) own_steps: OwnSteps,
    texts: [String; Field::ALL.len()],
}

/// What is asked for and how it is weighed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Request {
    order: Order,
    scales: Scales,
    bowl: Option<Grams>,
    ready: Option<Grams>,
}

/// Where something is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum At {
    /// In a field of the form.
    Field(Field),
    /// The step of an ingredient that has a scale of its own, by its place among them.
    OwnStep(usize),
    /// The mass of another recipe of the day, by its place among them.
    Also(usize),
}

/// Why there is no list.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Wrong {
    /// Where that is typed which it is about, if it is about one thing.
    pub(super) at: Option<At>,
    /// What stands there is called so.
    pub(super) name: Option<String>,
    /// One sentence.
    pub(super) reason: String,
    /// Whether what stands there cannot be used, or nothing stands there yet.
    pub(super) is_refused: bool,
}

impl Wrong {
    fn refused(field: Field, reason: impl Into<String>) -> Self {
        Self::refused_at(At::Field(field), field.name(), reason)
    }

    pub(super) fn refused_at(at: At, name: impl Into<String>, reason: impl Into<String>) -> Self {
        Self { at: Some(at), name: Some(name.into()), reason: reason.into(), is_refused: true }
    }

    fn missing(field: Field, reason: impl Into<String>) -> Self {
        Self { is_refused: false, ..Self::refused(field, reason) }
    }
}

impl Fields {
    /// What the recipe says: its pieces, its frame.
    pub(super) fn of_recipe(recipe: &Recipe, sign: DecimalSign) -> Self {
        let mut fields = Self {
            asked: Asked::Mass,
            made_as: MadeAs::Nothing,
            pieces_are: recipe.pieces.is_none().then_some(match recipe.intended_use {
                Some(Use::Cut) => MadeAs::Frame,
                Some(Use::Moulded) => MadeAs::Mould,
                _ => MadeAs::Weight,
            }),
            ingredient: recipe.lines.first().map(|line| line.ingredient.name.clone()).unwrap_or_default(),
            shell_of: None,
            own_steps: OwnSteps::default(),
            texts: Default::default(),
        };
        if let Some(pieces) = recipe.pieces {
            fields.asked = Asked::Pieces;
            *fields.text_mut(Field::Pieces) = pieces.to_string();
        }
        if let Some(Piece::Frame { thickness, .. }) = recipe.setting.map(|setting| setting.piece) {
            *fields.text_mut(Field::Height) = typed(thickness.millimetres(), sign);
        }
        "1 g".clone_into(fields.text_mut(Field::Step));
        fields
    }

    /// The same with the bowls and scales of another form.
    pub(super) fn at_the_bench_of(mut self, other: &Self) -> Self {
        for field in Field::OF_THE_BENCH {
            other.text(field).clone_into(self.text_mut(field));
        }
        self.own_steps = other.own_steps.clone();
        self
    }

    pub(super) fn text(&self, field: Field) -> &str {
        self.texts.get(field.index()).map_or("", String::as_str)
    }

    #[expect(clippy::indexing_slicing, reason = "the place is one of the list that the array is as long as")]
    pub(super) fn text_mut(&mut self, field: Field) -> &mut String {
        &mut self.texts[field.index()]
    }

    /// What is made of it: what was chosen, or what has to be said with what is asked for.
    pub(super) fn made_as(&self) -> MadeAs {
        match (self.asked, self.made_as) {
            (Asked::Frames, _) => MadeAs::Frame,
            (Asked::Pieces, MadeAs::Nothing) => self.pieces_are.unwrap_or(MadeAs::Nothing),
            (_, made_as) => made_as,
        }
    }

    /// Whether a piece has a shell or coat.
    pub(super) fn has_shell(&self) -> bool {
        self.made_as() != MadeAs::Nothing && !self.text(Field::Shell).trim().is_empty()
    }

    /// Of what there is to choose.
    pub(super) fn can_be_made_as(&self) -> &'static [MadeAs] {
        match (self.asked, self.pieces_are) {
            (Asked::Frames, _) => &[MadeAs::Frame],
            (Asked::Pieces, Some(_)) => &[MadeAs::Weight, MadeAs::Mould, MadeAs::Frame],
            _ => &MadeAs::ALL,
        }
    }

    /// What is read from a field; nothing where it is empty.
    fn read<T>(&self, field: Field, parse: impl Fn(&str) -> Result<T, String>) -> Result<Option<T>, Wrong> {
        match self.text(field).trim() {
            "" => Ok(None),
            text => parse(text).map(Some).map_err(|reason| Wrong::refused(field, reason)),
        }
    }

    fn needed<T>(&self, field: Field, parse: impl Fn(&str) -> Result<T, String>, ask: &str) -> Result<T, Wrong> {
        self.read(field, parse)?.ok_or_else(|| Wrong::missing(field, ask))
    }

    /// What all of it asks for; or the field that is wrong, and why.
    pub(super) fn request(&self) -> Result<Request, Wrong> {
        let wanted = match self.asked {
            Asked::Mass => self.read(Field::Mass, parse_mass)?.map(Wanted::Mass),
            Asked::Pieces => self.read(Field::Pieces, parse_count)?.map(Wanted::Pieces),
            Asked::Frames => self.read(Field::Frames, parse_count)?.map(Wanted::Frames),
            Asked::AtHand => self
                .read(Field::AtHand, parse_mass)?
                .map(|amount| Wanted::AtHand { ingredient: self.ingredient.clone(), amount }),
        };
        let form = self.form()?;
        let density = match self.made_as() {
            MadeAs::Mould | MadeAs::Frame => self.read(Field::Density, parse_density)?,
            MadeAs::Nothing | MadeAs::Weight => None,
        };
        let losses = self.read(Field::Losses, |text| {
            text.split(';').map(str::trim).filter(|loss| !loss.is_empty()).map(parse_loss).collect()
        })?;
        let bowl = self.read(Field::Bowl, parse_mass)?;
        let step = self.read(Field::Step, parse_step)?.unwrap_or(Scales::KITCHEN.step);
        let fine_step = self.read(Field::FineStep, parse_step)?;
        if fine_step.is_some_and(|fine| fine >= step) {
            return Err(Wrong::refused(Field::FineStep, "it is not finer than the other scale; leave it empty"));
        }
        Ok(Request {
            order: Order {
                wanted: wanted.unwrap_or(Wanted::AsItStands),
                form,
                losses: losses.unwrap_or_default(),
                density,
            },
            scales: Scales { step, fine_step },
            bowl,
            ready: self.read(Field::Ready, parse_ready)?,
        })
    }

    fn form(&self) -> Result<Option<Form>, Wrong> {
        let shell = || self.read(Field::Shell, parse_shell).map(Option::unwrap_or_default);
        Ok(match self.made_as() {
            MadeAs::Nothing => None,
            MadeAs::Weight => {
                let mass = self.needed(Field::Piece, parse_mass, "type what a piece weighs, such as 8.3 g")?;
                Some(Form::Piece { mass, shell: shell()? })
            }
            MadeAs::Mould => {
                let volume =
                    self.needed(Field::Cavity, parse_millilitres, "type what a cavity holds, such as 10 ml")?;
                let share = shell()?;
                let shell = if share > MassFraction::ZERO {
                    let density = self.read(Field::ShellDensity, parse_density)?.or_else(shell_density);
                    let ask = || Wrong::missing(Field::ShellDensity, "type how heavy 1 ml of the set shell is, in g");
                    Some(ShellOf { share, density: density.ok_or_else(ask)? })
                } else {
                    None
                };
                Some(Form::Cavity { volume, shell })
            }
            MadeAs::Frame => {
                let side = |field, ask| self.needed(field, parse_millimetres, ask);
                let frame = Frame {
                    length: side(Field::Length, "type how long the frame is inside, such as 340 mm")?,
                    width: side(Field::Width, "type how wide the frame is inside, such as 340 mm")?,
                    height: side(Field::Height, "type how high the frame is filled, such as 10 mm")?,
                };
                let along = self.read(Field::Along, parse_millimetres)?;
                let across = self.read(Field::Across, parse_millimetres)?;
                let trim = self.read(Field::Trim, parse_trim)?.unwrap_or(Millimetres::ZERO);
                let coat = shell()?;
                let cut = along.or(across).map(|side| Cut {
                    trim,
                    along: along.unwrap_or(side),
                    across: across.unwrap_or(side),
                });
                if cut.is_none() && coat > MassFraction::ZERO {
                    return Err(Wrong::missing(
                        Field::Along,
                        "a coat goes around pieces; type the size of a piece in mm",
                    ));
                }
                Some(Form::Frame { frame, cut, coat })
            }
        })
    }

    /// The weighing list of what is asked for, of the recipe and of the others of the day; or why there is none.
    pub(super) fn day(&self, recipe: &Recipe, others: &[Other]) -> Result<Day, Wrong> {
        let Request { order, scales, bowl, ready } = self.request()?;
        let steps = self.own_steps.read(recipe, others)?;
        let work =
            |recipe: &Recipe, order: &Order| Work::with_steps(recipe, order, scales, bowl, &steps_in(recipe, &steps));
        // What the own scale of an ingredient is too coarse for.
        let at_own_step = |wrong: Wrong, why: &CannotScale| match why {
            CannotScale::Rounding(
                RoundingError::LinesLeftOut { step, .. } | RoundingError::LessThanAStep { step, .. },
            ) if *step != scales.step && Some(*step) != scales.fine_step => {
                self.own_steps.told_at_its_step(wrong, *step, &steps)
            }
            _ => wrong,
        };
        let mut works = vec![work(recipe, &order).map_err(|why| at_own_step(self.cannot(&why), &why))?];
        for (place, other) in others.iter().enumerate() {
            let name = if other.recipe.name.is_empty() { UNNAMED } else { &other.recipe.name };
            let order = other.order(&order).map_err(|why| Wrong::refused_at(At::Also(place), other.label(), why))?;
            works.push(work(&other.recipe, &order).map_err(|why| {
                let wrong = Wrong { at: None, name: None, reason: format!("{name}: {why}"), is_refused: true };
                at_own_step(wrong, &why)
            })?);
        }
        Day::new(works, ready).map_err(|why| Wrong::refused(Field::Ready, why.to_string()))
    }

    /// The field that a reason is about.
    fn cannot(&self, why: &CannotScale) -> Wrong {
        let field = match why {
            CannotScale::NothingToScale
            | CannotScale::FinishedNotKnown
            | CannotScale::NotInRecipe { .. }
            | CannotScale::SeveralCalledSo { .. }
            | CannotScale::NoneOfIt { .. }
            | CannotScale::PiecesNotKnown
            | CannotScale::NoFrame => None,
            CannotScale::NotCut | CannotScale::NoWholePiece { .. } => Some(Field::Along),
            CannotScale::DensityNotKnown { .. } => Some(Field::Density),
            CannotScale::NoSuchPiece => match self.made_as() {
                MadeAs::Nothing => None,
                MadeAs::Weight => Some(Field::Piece),
                MadeAs::Mould => Some(Field::Cavity),
                MadeAs::Frame => Some(Field::Length),
            },
            CannotScale::BowlTooSmall { .. } => Some(Field::Bowl),
            CannotScale::Rounding(RoundingError::LessThanAStep { .. }) => Some(Field::Step),
            CannotScale::NothingWanted | CannotScale::Quantity(_) | CannotScale::Rounding(_) => {
                Some(self.asked.field())
            }
        };
        let is_missing = matches!(why, CannotScale::NotCut | CannotScale::DensityNotKnown { .. });
        Wrong {
            at: field.map(At::Field),
            name: field.map(|field| field.name().to_owned()),
            reason: why.to_string(),
            is_refused: !is_missing,
        }
    }
}

/// What shells are made of where nobody says otherwise.
pub(super) const SHELL: &str = "couverture-dark-64";

/// The density of set dark couverture: the middle of what is computed for the one that is built in.
pub(super) fn shell_density() -> Option<GramsPerMillilitre> {
    let mut parts = crate::analysis::parts::Parts::default();
    parts.add(Library::built_in().by_id(SHELL)?, Grams(1000.0));
    match density_of(&parts).ok()?.from {
        DensityFrom::MakeUp { set: (low, high) } => Some(GramsPerMillilitre(f64::midpoint(low.0, high.0))),
        DensityFrom::Typed => None,
    }
}
