//! The steps of a plan: what is done, at which temperature, how long, what to look at, and what to do when it is off.
//!
//! Data only; the words are in `report::words`.

use crate::analysis::setting::NoTime;
use crate::analysis::time_band::TimeBand;
use crate::recipe::Air;
use crate::units::{Celsius, Grams};

/// How far an estimated time of cooling can be off, as a factor either way: bowl, draught and stirring differ (judged).
pub const COOLING_BAND: f64 = 1.5;

/// One step of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanStep {
    /// What is done.
    pub kind: StepKind,
    /// At which temperature.
    pub temperature: Option<StepTemperature>,
    /// How much goes in.
    pub weight: Option<Grams>,
    /// Which lines of the sheet go in, as they are weighed.
    pub lines: Vec<WeighedLine>,
    /// How long; `None` where a look decides or the time is not known.
    pub minutes: Option<TimeBand>,
    /// In which moving or still air, where it is said.
    pub air: Option<Air>,
    /// Why no time is told for it, where it is not.
    pub no_time: Option<NoTime>,
    /// What to look at.
    pub look: LookAt,
    /// What can be off, each with what to do.
    pub when_off: Vec<WhenOff>,
}

impl PlanStep {
    /// A step of a kind with what to look at, and nothing else yet.
    pub(super) fn new(kind: StepKind, look: LookAt) -> Self {
        Self {
            kind,
            temperature: None,
            weight: None,
            lines: Vec::new(),
            minutes: None,
            air: None,
            no_time: None,
            look,
            when_off: Vec::new(),
        }
    }
}

/// A line of the sheet that goes in.
#[derive(Clone, Debug, PartialEq)]
pub struct WeighedLine {
    /// Its ingredient.
    pub name: String,
    /// How much of it.
    pub grams: Grams,
    /// How warm it goes in, where the sheet says temperatures.
    pub at: Option<Celsius>,
    /// The note of the line: "soft, last".
    pub note: String,
}

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StepKind {
    /// All crystals are melted.
    MeltOut,
    /// Bring every line to the temperature that the sheet says, and stir them together.
    BringToTemperature,
    /// The mix ends colder than it has to be, and is warmed.
    WarmUp,
    /// Tempered chocolate is warmed, and not melted.
    Warm,
    /// The watery part is stirred into the melted chocolate.
    Emulsify,
    /// It cools until cold pieces of chocolate can go in.
    CoolForPieces,
    /// It cools to the window.
    Cool,
    /// The temperature is checked.
    Check,
    /// The seed goes in.
    Seed,
    /// The seed is spread.
    Blend,
    /// It goes into moulds, frames, bags.
    Deposit,
    /// It sets.
    Set,
}

impl StepKind {
    /// All kinds.
    pub const ALL: [Self; 12] = [
        Self::MeltOut,
        Self::BringToTemperature,
        Self::WarmUp,
        Self::Warm,
        Self::Emulsify,
        Self::CoolForPieces,
        Self::Cool,
        Self::Check,
        Self::Seed,
        Self::Blend,
        Self::Deposit,
        Self::Set,
    ];

    /// Its name in the JSON report.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::MeltOut => "melt_out",
            Self::BringToTemperature => "bring_to_temperature",
            Self::WarmUp => "warm_up",
            Self::Warm => "warm",
            Self::Emulsify => "emulsify",
            Self::CoolForPieces => "cool_for_pieces",
            Self::Cool => "cool",
            Self::Check => "check",
            Self::Seed => "seed",
            Self::Blend => "blend",
            Self::Deposit => "deposit",
            Self::Set => "set",
        }
    }
}

/// The temperatures of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepTemperature {
    /// Lower end.
    pub from: Celsius,
    /// Upper end.
    pub to: Celsius,
    /// The best of them, where one is better than the others.
    pub best: Option<Celsius>,
}

/// What to look at in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LookAt {
    /// No grain is left in the melted mass.
    NoGrain,
    /// The chocolate is soft and dull-bright, with crystals in it.
    SoftWithCrystals,
    /// The emulsion is glossy and stretches.
    Glossy,
    /// It is of one temperature.
    Even,
    /// Two readings agree.
    TwoReadings,
    /// The cream of seed is soft and cloudy.
    CloudyCream,
    /// The powder of seed is dry and loose.
    DryPowder,
    /// The pieces are small and cold.
    SmallPieces,
    /// No streak of seed is left.
    NoStreaks,
    /// No piece of chocolate is left.
    NoPieces,
    /// It flows, and a test strip sets.
    TestStrip,
    /// It is set through and comes off.
    SetThrough,
}

/// What can be off in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WhenOff {
    /// Grains are left.
    GrainsLeft,
    /// The mix ends warmer or colder than computed.
    EndsElsewhere,
    /// It got too hot.
    Overheated,
    /// It got warmer than its own crystals bear.
    CrystalsLost,
    /// The emulsion splits.
    Splits,
    /// The room is as warm as the mass should get.
    RoomTooWarm,
    /// Crystals grow at the wall while it cools.
    ColdWall,
    /// Stirring a cold emulsion separates it.
    ColdEmulsion,
    /// It is too warm for seed.
    TooWarm,
    /// It is right, but nearer to the limit than a thermometer can tell.
    NearLimit,
    /// It is too cold.
    TooCold,
    /// The seed has melted.
    SeedMelted,
    /// The seed is stiff.
    SeedStiff,
    /// The sheet does not say which chocolate is chopped.
    ChocolateNotKnown,
    /// Lumps or streaks stay.
    Lumps,
    /// Pieces stay.
    PiecesLeft,
    /// All pieces melted too soon.
    PiecesGone,
    /// It thickens before all is deposited.
    Thickens,
    /// The test strip does not set.
    StripStaysSoft,
    /// It stays soft.
    StaysSoft,
    /// It sets dull or streaked.
    SetsDull,
}
