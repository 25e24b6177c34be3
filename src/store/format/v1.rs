//! File format 1, as it is written. Never edited after release: a change is format 2.
//!
//! It knows structure only; whether the figures make sense is decided on the way to the domain (`convert`).
//! The form of an ingredient belongs to it and stands in [`crate::ingredient::file`].

use serde::{Deserialize, Serialize, Serializer};

use crate::ingredient::file::Entry;
use crate::recipe;

/// A recipe file.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(rename = "Recipe", deny_unknown_fields)]
pub struct File {
    /// 1.
    pub format: u32,
    /// Name of the recipe.
    #[serde(default)]
    pub name: String,
    /// What sort of mass.
    #[serde(default)]
    pub kind: Kind,
    /// What it is used for.
    #[serde(default, rename = "use", skip_serializing_if = "Option::is_none")]
    pub intended_use: Option<Use>,
    /// Which cocoa butter the fat model assumes.
    #[serde(default)]
    pub cocoa_butter: CocoaButter,
    /// Free text.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What is weighed.
    pub lines: Vec<Line>,
    /// Water that boils off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub evaporated_water: Option<Weight>,
    /// How far the liquid is heated; instead of `evaporated_water`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub liquid_is: Option<Heating>,
    /// Until the mass boils at a temperature; instead of `evaporated_water`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cook_to: Option<Cook>,
    /// Share of the mass that stays in bowls and bags.
    #[serde(default, skip_serializing_if = "is_zero", serialize_with = "number")]
    pub transfer_loss_percent: f64,
    /// In what and how long the lines are mixed, and at which temperature they should end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mixing: Option<Mixing>,
    /// The measured pH of the finished mass.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub ph: Option<f64>,
    /// How it is to be seeded.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seeding: Option<Seeding>,
    /// How many pieces the batch makes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<u32>,
    /// How it is made.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<Step>,
    /// How it is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub setting: Option<Setting>,
    /// Where the finished pieces lie.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub storage: Option<Storage>,
    /// The figures of the ingredients; they count more than built-in ones with the same id.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ingredients: Vec<Entry>,
}

/// A line: an ingredient or another recipe, and how much of it.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// The id of an ingredient, in this file or built in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ingredient: Option<String>,
    /// The file of another recipe; instead of `ingredient`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recipe: Option<String>,
    /// How much, in `unit`.
    #[serde(serialize_with = "number")]
    pub amount: f64,
    /// Unit of `amount`.
    #[serde(default, skip_serializing_if = "Unit::is_gram")]
    pub unit: Unit,
    /// What the maker should know.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Whether its amount is to stay as it is.
    #[serde(default, skip_serializing_if = "is_false")]
    pub locked: bool,
    /// Whether it is the seed.
    #[serde(default, skip_serializing_if = "is_false")]
    pub seed: bool,
    /// Temperature in °C at which it is mixed with the others.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub celsius: Option<f64>,
    /// State of its fat then.
    #[serde(default, skip_serializing_if = "FatState::is_by_temperature")]
    pub fat: FatState,
}

/// A weight with its unit.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Weight {
    /// How much, in `unit`.
    #[serde(serialize_with = "number")]
    pub amount: f64,
    /// Unit of `amount`.
    #[serde(default, skip_serializing_if = "Unit::is_gram")]
    pub unit: Unit,
}

/// A cook to a temperature.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Cook {
    /// Temperature in °C.
    #[serde(serialize_with = "number")]
    pub celsius: f64,
    /// Height of the kitchen above the sea in m.
    #[serde(default, skip_serializing_if = "is_zero", serialize_with = "number")]
    pub altitude_m: f64,
}

/// How a mass is to be seeded.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Seeding {
    /// In which way.
    #[serde(default, skip_serializing_if = "SeedingWay::is_cream")]
    pub way: SeedingWay,
    /// Crystals in the cream of seed, percent.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub crystals_percent: Option<f64>,
    /// The maker's own amount.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount: Option<Weight>,
    /// Temperature of the seed in °C.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub celsius: Option<f64>,
}

/// How the lines are mixed.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Mixing {
    /// Temperature in °C at which the mix should end.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub wanted_celsius: Option<f64>,
    /// The bowl.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bowl: Option<Bowl>,
    /// How many minutes it is stirred in the open.
    #[serde(default, skip_serializing_if = "is_zero", serialize_with = "number")]
    pub stirred_minutes: f64,
}

/// A bowl in which lines are mixed.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Bowl {
    /// What it is made of.
    pub material: BowlMaterial,
    /// What it weighs, in `unit`.
    #[serde(serialize_with = "number")]
    pub amount: f64,
    /// Unit of `amount`.
    #[serde(default, skip_serializing_if = "Unit::is_gram")]
    pub unit: Unit,
    /// Temperature in °C before.
    #[serde(default = "room", serialize_with = "number")]
    pub celsius: f64,
}

/// One thing to do.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is done.
    pub text: String,
    /// Temperature in °C.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub celsius: Option<f64>,
    /// For how long.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub minutes: Option<f64>,
}

/// How a mass is set.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Setting {
    /// The form in which it lies.
    pub piece: Piece,
    /// How warm it is at the start, in °C.
    #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "optional_number")]
    pub start_c: Option<f64>,
    /// How warm the air is, in °C.
    #[serde(serialize_with = "number")]
    pub air_c: f64,
    /// How the air moves.
    #[serde(default)]
    pub air: Air,
}

/// The form in which a mass sets; lengths in mm.
#[derive(Clone, Copy, Debug, Deserialize, Serialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Piece {
    /// A slab in a frame.
    Frame {
        /// How thick.
        #[serde(serialize_with = "number")]
        thickness_mm: f64,
        /// What it lies on.
        #[serde(default)]
        on: Base,
    },
    /// A bar in a mould.
    Bar {
        /// How thick.
        #[serde(serialize_with = "number")]
        thickness_mm: f64,
    },
    /// A half-sphere in a mould.
    HalfSphere {
        /// Across.
        #[serde(serialize_with = "number")]
        diameter_mm: f64,
    },
    /// A cup.
    Cup {
        /// Across.
        #[serde(serialize_with = "number")]
        diameter_mm: f64,
        /// How high it is filled.
        #[serde(serialize_with = "number")]
        height_mm: f64,
    },
    /// A ball.
    Ball {
        /// Across.
        #[serde(serialize_with = "number")]
        diameter_mm: f64,
    },
    /// A thin coat.
    Coat {
        /// How thick.
        #[serde(serialize_with = "number")]
        thickness_mm: f64,
    },
    /// The bowl.
    Bowl,
}

/// Where the finished pieces lie.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Storage {
    /// How warm they are stored, in °C.
    #[serde(serialize_with = "number")]
    pub celsius: f64,
    /// The room into which they come from there, in °C.
    #[serde(serialize_with = "number")]
    pub room_c: f64,
    /// How humid that room is.
    #[serde(serialize_with = "number")]
    pub humidity_percent: f64,
    /// The chocolate around a filling.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shell: Option<Shell>,
}

/// A shell around a filling.
#[derive(Clone, Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Shell {
    /// The id of an ingredient, in this file or built in.
    pub ingredient: String,
    /// How thick, in mm.
    #[serde(serialize_with = "number")]
    pub thickness_mm: f64,
}

/// A cocoa butter.
#[derive(Clone, Copy, Debug, Default, Deserialize, Serialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum CocoaButter {
    /// West African type.
    #[default]
    WestAfrican,
    /// Soft, Brazilian type.
    Soft,
    /// Hard, South-East Asian type.
    Hard,
    /// The user's own analysis.
    Own {
        /// 1,3-dipalmitoyl-2-oleoyl-glycerol.
        #[serde(serialize_with = "number")]
        pop: f64,
        /// 1-palmitoyl-2-oleoyl-3-stearoyl-glycerol.
        #[serde(serialize_with = "number")]
        pos: f64,
        /// 1,3-distearoyl-2-oleoyl-glycerol.
        #[serde(serialize_with = "number")]
        sos: f64,
        /// 1-stearoyl-2-oleoyl-3-arachidoyl-glycerol.
        #[serde(serialize_with = "number")]
        soa: f64,
        /// Triglycerides of three saturated acids.
        #[serde(serialize_with = "number")]
        trisaturated: f64,
        /// Every other triglyceride.
        #[serde(serialize_with = "number")]
        other: f64,
        /// Diglycerides, wt% of the fat.
        #[serde(serialize_with = "number")]
        diglycerides_percent: f64,
        /// Free fatty acids, wt% of the fat.
        #[serde(serialize_with = "number")]
        free_fatty_acids_percent: f64,
    },
}

/// Writes an enum of words that stands for one of the domain, with the ways there and back.
///
/// The words of the file stay when the domain is renamed.
macro_rules! words {
    ($(#[$documentation:meta])* $name:ident for $domain:ty { $($(#[$attribute:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$documentation])*
        #[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, Serialize)]
        #[expect(missing_docs, reason = "the words are those of the domain")]
        pub enum $name {
            $(#[serde(rename = $word)] $(#[$attribute])* $variant),+
        }

        impl From<$name> for $domain {
            fn from(word: $name) -> Self {
                match word {
                    $($name::$variant => Self::$variant),+
                }
            }
        }

        impl From<$domain> for $name {
            fn from(value: $domain) -> Self {
                match value {
                    $(<$domain>::$variant => Self::$variant),+
                }
            }
        }
    };
}

words! {
    /// A sort of mass.
    #[derive(Default)]
    Kind for recipe::Kind {
        Ganache = "ganache",
        Praline = "praline",
        Chocolate = "chocolate",
        Caramel = "caramel",
        MousseBase = "mousse_base",
        #[default]
        Other = "other",
    }
}

words! {
    /// What a mass is used for.
    Use for recipe::Use {
        Cut = "cut",
        Moulded = "moulded",
        Piped = "piped",
        Spread = "spread",
        Whipped = "whipped",
        Bar = "bar",
        ThickBar = "thick_bar",
        Shell = "shell",
        ThinCoat = "thin_coat",
    }
}

words! {
    /// How far liquid is heated.
    Heating for recipe::Heating { Boiled = "boiled", Warmed = "warmed" }
}

words! {
    /// What a frame lies on.
    #[derive(Default)]
    Base for recipe::Base { #[default] Board = "board", Rack = "rack", Stone = "stone" }
}

words! {
    /// How the air moves.
    #[derive(Default)]
    Air for recipe::Air { #[default] Still = "still", Refrigerator = "refrigerator", Fan = "fan", Tunnel = "tunnel" }
}

words! {
    /// A way of seeding.
    #[derive(Default)]
    SeedingWay for recipe::SeedingWay {
        #[default]
        Cream = "cream",
        Grated = "grated",
        ChoppedChocolate = "chopped_chocolate",
        KeepTempered = "keep_tempered",
    }
}

words! {
    /// A unit of mass.
    #[derive(Default)]
    Unit for recipe::MassUnit { #[default] Gram = "g", Kilogram = "kg", Ounce = "oz", Pound = "lb" }
}

impl SeedingWay {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
    fn is_cream(&self) -> bool {
        *self == Self::Cream
    }
}

words! {
    /// A state of fat.
    #[derive(Default)]
    FatState for recipe::FatState {
        #[default]
        ByTemperature = "by_temperature",
        Solid = "solid",
        Melted = "melted",
        Tempered = "tempered",
    }
}

words! {
    /// What a bowl is made of.
    BowlMaterial for recipe::BowlMaterial {
        Steel = "steel",
        Aluminium = "aluminium",
        Glass = "glass",
        Polycarbonate = "polycarbonate",
        Polypropylene = "polypropylene",
    }
}

impl FatState {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
    fn is_by_temperature(&self) -> bool {
        *self == Self::ByTemperature
    }
}

/// The temperature of a bowl of which nothing is said, in °C.
fn room() -> f64 {
    20.0
}

impl Unit {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
    fn is_gram(&self) -> bool {
        *self == Self::Gram
    }
}

/// Writes 400 rather than 400.0; every other number as it is, exactly.
#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn number<S: Serializer>(value: &f64, serializer: S) -> Result<S::Ok, S::Error> {
    /// Whole numbers up to here are exact in both forms and still short.
    const LARGEST_WHOLE: f64 = 1e15;
    if value.fract() == 0.0 && value.abs() <= LARGEST_WHOLE {
        #[expect(clippy::cast_possible_truncation, reason = "it is whole and within range")]
        let whole = *value as i64;
        return serializer.serialize_i64(whole);
    }
    serializer.serialize_f64(*value)
}

#[expect(clippy::ref_option, reason = "serde asks for a reference")]
fn optional_number<S: Serializer>(value: &Option<f64>, serializer: S) -> Result<S::Ok, S::Error> {
    match value {
        Some(value) => number(value, serializer),
        None => serializer.serialize_none(),
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_false(value: &bool) -> bool {
    !value
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_zero(value: &f64) -> bool {
    *value == 0.0
}
