//! A recipe: what is weighed, what is lost, what it is for.
//!
//! A recipe is a plain value. It carries its ingredients with their figures, so it computes the same everywhere.
//! It adds up what is weighed, scales it and computes nothing else (that is `analysis`); changes to it are `document::Edit`s.

pub mod acidity;
pub mod cocoa_butter;
pub mod losses;
pub mod mixing;
pub mod quantity;
mod scaling;
pub mod seeding_choice;
pub mod setting;

use std::sync::Arc;

pub use acidity::{Ph, PhError};
pub use cocoa_butter::{CocoaButter, OwnCocoaButter, Triglycerides, TriglyceridesError};
pub use losses::{
    CookTemperature, CookTemperatureError, Evaporation, Heating, Height, HeightError, Losses, TransferLoss,
    TransferLossError,
};
pub use mixing::{
    Bowl, BowlMaterial, FatState, MixTemperature, MixTemperatureError, Mixing, StirringTime, StirringTimeError,
};
pub use quantity::{MassUnit, Quantity, QuantityError};
pub use seeding_choice::{
    CreamShare, CreamShareError, SeedTemperature, SeedTemperatureError, SeedingChoice, SeedingWay,
};
pub use setting::{Air, Base, Humidity, Piece, PlaceTemperature, Setting, SettingError, Shell, Size, Storage};

use crate::ingredient::Ingredient;
use crate::ingredient::named::{NotNamed, named};
use crate::units::{Celsius, Grams};

/// How warm a room is, and all that stood in it, unless it is said (common practice, no published source).
pub const ROOM: Celsius = Celsius(20.0);

/// What is weighed, what is lost, what it is for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recipe {
    /// Its name.
    pub name: String,
    /// What sort of mass it is; decides what is usual.
    pub kind: Kind,
    /// What the mass is used for; decides what is usual and how much seed habit takes.
    pub intended_use: Option<Use>,
    /// Which cocoa butter the fat model assumes.
    pub cocoa_butter: CocoaButter,
    /// What it shows, how it is made.
    pub note: String,
    /// What is weighed.
    pub lines: Vec<Line>,
    /// What is lost on the way.
    pub losses: Losses,
    /// How the lines come together.
    pub mixing: Mixing,
    /// The pH of the finished mass, if it was measured.
    pub ph: Option<Ph>,
    /// How it is to be seeded.
    pub seeding: SeedingChoice,
    /// How many pieces the batch makes; with prices, the cost of a piece follows from it.
    pub pieces: Option<u32>,
    /// How it is made. Kept in the file; nothing is computed from it yet.
    pub steps: Vec<Step>,
    /// How it is set, if that is said.
    pub setting: Option<Setting>,
    /// Where the finished pieces lie.
    pub storage: Storage,
    /// Ingredients that the file carries and no line uses.
    pub spare_ingredients: Vec<Arc<Ingredient>>,
}

/// One ingredient with its amount.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Stays the same while the line lives, whatever moves around it.
    pub id: LineId,
    /// What is weighed.
    pub ingredient: Arc<Ingredient>,
    /// The file of the recipe that this line stands for; its ingredient then is of unknown composition,
    /// because such lines are kept but not computed yet.
    pub recipe_file: Option<String>,
    /// How much of it, as typed.
    pub amount: Quantity,
    /// What the maker should know.
    pub note: String,
    /// Whether its amount is to stay as it is.
    pub is_locked: bool,
    /// Whether it is the seed: it counts in what the mass is made of, but dose and window are those of the mass without it.
    pub is_seed: bool,
    /// How warm it is when it is mixed with the others, if that is said.
    pub temperature: Option<MixTemperature>,
    /// In which state its fat is then.
    pub fat_state: FatState,
}

/// The identity of a line within its recipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LineId(pub u32);

/// One thing to do, with its temperature.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Step {
    /// What is done.
    pub text: String,
    /// At or to which temperature.
    pub temperature: Option<Celsius>,
    /// For how long.
    pub minutes: Option<f64>,
}

/// What sort of mass it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Chocolate with cream, fruit or another watery part.
    Ganache,
    /// Nut paste with sugar and a setting fat; gianduja.
    Praline,
    /// Chocolate as it is.
    Chocolate,
    /// Cooked sugar with dairy.
    Caramel,
    /// The ganache that whipped cream is folded into.
    MousseBase,
    /// Anything else.
    #[default]
    Other,
}

/// What the mass is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Use {
    /// Set in a frame and cut.
    Cut,
    /// Filled into moulds.
    Moulded,
    /// Piped.
    Piped,
    /// Spread, or filled into a tart.
    Spread,
    /// Whipped.
    Whipped,
    /// Bars of ordinary thickness.
    Bar,
    /// Thick bars and blocks.
    ThickBar,
    /// Shells of moulded pieces.
    Shell,
    /// A thin coat, brushed or dipped.
    ThinCoat,
}

impl Kind {
    /// All kinds in the order of the menu.
    pub const ALL: [Self; 6] =
        [Self::Ganache, Self::Praline, Self::Chocolate, Self::Caramel, Self::MousseBase, Self::Other];

    /// Its name on the command line, in the JSON report and in files, which spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Ganache => "ganache",
            Self::Praline => "praline",
            Self::Chocolate => "chocolate",
            Self::Caramel => "caramel",
            Self::MousseBase => "mousse_base",
            Self::Other => "other",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Ganache => "ganache",
            Self::Praline => "praline",
            Self::Chocolate => "chocolate",
            Self::Caramel => "caramel",
            Self::MousseBase => "mousse base",
            Self::Other => "other mass",
        }
    }

    /// The kind with this name in files.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

impl Use {
    /// All uses in the order of the menu.
    pub const ALL: [Self; 9] = [
        Self::Cut,
        Self::Moulded,
        Self::Piped,
        Self::Spread,
        Self::Whipped,
        Self::Bar,
        Self::ThickBar,
        Self::Shell,
        Self::ThinCoat,
    ];

    /// Its name on the command line, in the JSON report and in files, which spell it themselves (`store::format::v1`).
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Moulded => "moulded",
            Self::Piped => "piped",
            Self::Spread => "spread",
            Self::Whipped => "whipped",
            Self::Bar => "bar",
            Self::ThickBar => "thick_bar",
            Self::Shell => "shell",
            Self::ThinCoat => "thin_coat",
        }
    }

    /// What one does with it, so that "ganache for cutting" reads well.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Cut => "cutting",
            Self::Moulded => "moulding",
            Self::Piped => "piping",
            Self::Spread => "spreading",
            Self::Whipped => "whipping",
            Self::Bar => "bars",
            Self::ThickBar => "thick bars",
            Self::Shell => "shells",
            Self::ThinCoat => "thin coats",
        }
    }

    /// The use with this name in files.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|intended_use| intended_use.key() == key)
    }
}

impl Line {
    /// Whether its amount stays whatever is asked of the recipe: it is locked, or it is seed.
    #[must_use]
    pub fn stays(&self) -> bool {
        self.is_locked || self.is_seed
    }

    /// A line of an ingredient, with no note, not locked, of which the temperature is not said.
    #[must_use]
    pub fn new(id: LineId, ingredient: Arc<Ingredient>, amount: Quantity) -> Self {
        Self {
            id,
            ingredient,
            recipe_file: None,
            amount,
            note: String::new(),
            is_locked: false,
            is_seed: false,
            temperature: None,
            fat_state: FatState::ByTemperature,
        }
    }
}

impl Recipe {
    /// The line with this identity.
    #[must_use]
    pub fn line(&self, id: LineId) -> Option<&Line> {
        self.lines.iter().find(|line| line.id == id)
    }

    /// An identity that no line has.
    #[must_use]
    pub fn unused_line_id(&self) -> LineId {
        LineId(self.lines.iter().map(|line| line.id.0 + 1).max().unwrap_or(0))
    }

    /// The lines of the ingredient that a text names, by the rule of [`named`]; more than one where it stands in several.
    ///
    /// # Errors
    ///
    /// [`NotNamed`] where no line has it, or where it can be several ingredients.
    pub fn lines_named(&self, text: &str) -> Result<Vec<&Line>, NotNamed> {
        let found = named(text, self.lines.iter().map(|line| &line.ingredient))?;
        Ok(self.lines.iter().filter(|line| line.ingredient.id == found.id).collect())
    }

    /// What the lines weigh together, before losses.
    #[must_use]
    pub fn weighed(&self) -> Grams {
        self.lines.iter().map(|line| line.amount.grams()).sum()
    }

    /// The seed that stands in the sheet; `None` where none does.
    #[must_use]
    pub fn seed_in_sheet(&self) -> Option<Grams> {
        let mut seed = self.lines.iter().filter(|line| line.is_seed).map(|line| line.amount.grams()).peekable();
        seed.peek().is_some().then(|| seed.sum())
    }

    /// Whether there is seed, and nothing that it could be put into.
    #[must_use]
    pub fn is_only_seed(&self) -> bool {
        let weighed = |is_seed| self.lines.iter().any(|line| line.is_seed == is_seed && line.amount.grams().0 > 0.0);
        weighed(true) && !weighed(false)
    }

    /// The mass that is seeded: the recipe without the seed that stands in the sheet; `None` where none does.
    #[must_use]
    pub fn without_seed(&self) -> Option<Self> {
        self.seed_in_sheet()?;
        let mut unseeded = self.clone();
        unseeded.lines.retain(|line| !line.is_seed);
        Some(unseeded)
    }

    /// Whether it is cooked until all its sugar is dissolved: then it is clear until it grains. The sugar of chocolate comes in
    /// crystals and stays so.
    #[must_use]
    pub fn is_cooked(&self) -> bool {
        self.kind == Kind::Caramel || matches!(self.losses.evaporation, Evaporation::CookedTo { .. })
    }

    /// Adds a line at the end, with no note and not locked.
    pub fn push(&mut self, ingredient: Arc<Ingredient>, amount: Quantity) {
        self.lines.push(Line::new(self.unused_line_id(), ingredient, amount));
    }
}
