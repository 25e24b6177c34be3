//! Findings: what a look at the mass has to say, as data. The words are in `report::words`.

mod subjects;

pub use subjects::{
    CookedSubject, CrystalsSubject, KeepingSubject, MixingSubject, SeedAtSubject, SeededBy, SeedingSubject, WaySubject,
};

use crate::ingredient::{Component, OtherFatKind};
use crate::recipe::{Heating, LineId};
use crate::units::{Celsius, Grams, Kelvin, MassFraction, Minutes, VolumeFraction, WaterActivity};

use super::cooking::Cooking;
use super::migration::Migration;
use super::mixing::NoMixing;
use super::reading::Reading;
use super::remedy::Remedies;
use super::seeding::{DoseClip, Window};
use super::usual::UsualRange;

/// One thing that a look at the mass has to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How serious it is.
    pub level: Level,
    /// What it is about, stable for programs: the path in the JSON report and `.low` or `.high`, or a name of its own.
    pub code: &'static str,
    /// The figure it is about, in the unit of the report.
    pub value: Option<f64>,
    /// The lower end of what is usual.
    pub usual_low: Option<f64>,
    /// The upper end of what is usual.
    pub usual_high: Option<f64>,
    /// Whether the upper end itself lies outside ("less than").
    pub usual_high_is_outside: bool,
    /// Everything that its words need.
    pub subject: Subject,
}

/// How serious a finding is; the most serious is the greatest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Good to know.
    Note,
    /// Look at it before going on.
    Caution,
    /// This does not work as it stands.
    Problem,
}

/// What melts in a store.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Melting {
    /// The mass.
    Mass,
    /// The shell around it, and not the mass.
    Shell,
}

/// What a finding is about, with the figures that its words need.
#[derive(Clone, Debug, PartialEq)]
pub enum Subject {
    /// There is nothing in the recipe.
    EmptyRecipe,
    /// A line leaves figures open.
    UnknownInput {
        /// The line.
        line: LineId,
        /// Its ingredient.
        name: String,
        /// The figures that are missing.
        missing: Vec<Component>,
    },
    /// More water is to evaporate than there is.
    EvaporationExceedsWater {
        /// What the recipe asks for.
        asked: Grams,
        /// What there is.
        water: Grams,
    },
    /// What evaporates is estimated.
    EvaporationEstimated {
        /// How far the liquid is heated.
        heating: Heating,
        /// How much liquid there is.
        liquid: Grams,
        /// What evaporates of it.
        evaporated: Grams,
    },
    /// What evaporates cannot be estimated: of a line it is not known whether it is liquid.
    EvaporationNotKnown,
    /// What a cook does.
    Cooked(CookedSubject),
    /// The mass cannot be cooked so.
    CannotBeCooked(Cooking),
    /// Alcohol leaves before water does.
    AlcoholBoilsOff {
        /// What evaporates, as a share of what is weighed.
        evaporated: MassFraction,
        /// How much of the ethanol leaves with it: likely, least and most.
        lost: [MassFraction; 3],
    },
    /// There is too little water for an emulsion.
    FatContinuous {
        /// The share of water.
        water: MassFraction,
    },
    /// There is too little water for an emulsion, and no fat either.
    Dry {
        /// The share of water.
        water: MassFraction,
    },
    /// The water phase has room for more.
    EmulsionHasRoom {
        /// The dispersed share.
        dispersed: VolumeFraction,
        /// What would use the room up.
        to_limit: Remedies,
    },
    /// The droplets and particles are crowded.
    EmulsionCrowded {
        /// The dispersed share.
        dispersed: VolumeFraction,
        /// The share above which splitting is likely is passed too.
        is_likely_to_split: bool,
        /// What would bring it back to the jamming limit.
        remedies: Remedies,
    },
    /// There is much fat for the water.
    FatToWater {
        /// Fat over water, by mass.
        ratio: f64,
        /// What would bring it back to the usual.
        remedies: Remedies,
    },
    /// A share lies outside what is usual for the use.
    OutsideUsual {
        /// The row of the table.
        range: UsualRange,
        /// The share.
        share: MassFraction,
        /// What would bring it inside.
        remedies: Remedies,
    },
    /// There is no fat.
    NoFat,
    /// Nothing of the fat stays liquid: the model cannot tell.
    NoLiquidFat,
    /// Too little cocoa butter for a form V limit.
    NoLimit {
        /// Cocoa butter in the fat.
        cocoa_butter_in_fat: MassFraction,
        /// What would bring it to the least share.
        remedies: Remedies,
    },
    /// Cocoa butter enough, but too little in it that crystallises as form V: there is no form V limit.
    NoFormV {
        /// Cocoa butter in the fat.
        cocoa_butter_in_fat: MassFraction,
    },
    /// For the same reason there is nothing to seed.
    NoSeedingWithoutFormV,
    /// Nothing but seed stands in the sheet.
    OnlySeed,
    /// Too little cocoa butter to seed.
    NoSeeding {
        /// Cocoa butter in the fat.
        cocoa_butter_in_fat: MassFraction,
        /// What would bring it to the least share.
        remedies: Remedies,
    },
    /// The temperature is outside the range in which the uncertainty of the solid fat holds.
    SolidFatOutsideTemperature {
        /// The temperature.
        at: Celsius,
    },
    /// The solid fat is outside the range in which its uncertainty holds.
    SolidFatOutsideRange {
        /// Cocoa butter in the fat.
        cocoa_butter_in_fat: MassFraction,
    },
    /// The kind of a fat is a guess that matters.
    OtherFatKindEstimated {
        /// The ingredient.
        name: String,
        /// What its fat counts as.
        kind: OtherFatKind,
        /// Its fat as a share of all fat.
        share_of_fat: MassFraction,
    },
    /// Where and with how much to seed.
    SeedingWindow(SeedingSubject),
    /// Two windows stand side by side.
    TwoWindows {
        /// All fats blended.
        blended: (Celsius, Celsius),
        /// Without the fat in globules.
        unmixed: (Celsius, Celsius),
        /// The ingredients that bring fat in globules.
        globules: Vec<String>,
    },
    /// The cautious window of an emulsion lies where stirring can separate it.
    WindowBelowEmulsionLimit {
        /// Best temperature of the cautious window.
        recommended: Celsius,
        /// Best temperature of the other window.
        unmixed: Option<Celsius>,
        /// How it is seeded.
        seeded_by: SeededBy,
    },
    /// The habit of the trade lies above the form V limit of this mass.
    HabitAboveLimit {
        /// Lower and upper end of the habit.
        habit: (Celsius, Celsius),
        /// Form V limit.
        limit: Celsius,
        /// All of the habit lies above, not only its upper end.
        is_wholly_above: bool,
    },
    /// A dose was clipped.
    DoseClipped {
        /// The dose by habit that was clipped, if it was.
        habit: Option<DoseClip>,
        /// The dose for equal setting time that was clipped, if it was.
        equal_time: Option<DoseClip>,
    },
    /// The temperature of the thermometer is not right for seed.
    SeedAt(SeedAtSubject),
    /// The seed is melted before it goes in.
    SeedMelted {
        /// How warm it is.
        at: Celsius,
    },
    /// There is no cocoa butter in the seed of the sheet.
    SeedWithoutCrystals {
        /// What it is.
        name: String,
    },
    /// Mass and seed end too warm together.
    SeedLost {
        /// Where they end.
        after: Celsius,
        /// Form V limit.
        limit: Celsius,
        /// How far they end below it; negative above.
        to_limit: Kelvin,
    },
    /// An own dose outside of what is usual.
    OwnDose {
        /// The dose.
        grams: Grams,
        /// Its cocoa butter as a share of the mass.
        share: MassFraction,
        /// The seed is not all cocoa butter.
        is_blend: bool,
        /// So much of it that it changes the recipe.
        is_ingredient: bool,
        /// What is suggested, where that is known.
        suggested: Option<Grams>,
    },
    /// At which temperature the lines end when they are mixed.
    MixingEnd(MixingSubject),
    /// The mix does not end where it should.
    MixingMissed {
        /// Where it ends.
        end: Celsius,
        /// Where it should.
        wanted: Celsius,
        /// The ways to it.
        ways: Vec<WaySubject>,
    },
    /// Lines of which the temperature is not said.
    MixingAssumed {
        /// How many.
        unsaid: usize,
        /// Of how many.
        lines: usize,
    },
    /// Where the mix ends is not computed.
    NotMixed(NoMixing),
    /// Alcohol is mixed so hot that some of it is lost.
    MixingAlcohol,
    /// Sugars that take up more heat than is counted go in dry.
    MixingCoolingSugars {
        /// How much of them.
        grams: Grams,
        /// By how much colder the mix ends.
        cooler_by: Kelvin,
    },
    /// How active the water is, and what that means for keeping.
    Keeping(KeepingSubject),
    /// The mass is too dry for a figure.
    WaterDry {
        /// Whether its solids hold the water.
        is_held: bool,
    },
    /// Some of the sucrose does not dissolve.
    SucroseSaturated {
        /// Whether chocolate brings crystals.
        is_of_chocolate: bool,
        /// How much of it.
        undissolved: Grams,
        /// Water activity now.
        activity: WaterActivity,
        /// How much sucrose is exchanged for dextrose.
        exchanged: Grams,
        /// Water activity then.
        with_dextrose: Option<WaterActivity>,
    },
    /// A clear syrup holds more sucrose than it dissolves.
    MayGrain {
        /// Sucrose over its solubility.
        times: f64,
        /// Whether it grains without being touched by crystals.
        is_by_itself: bool,
        /// Water activity while it is clear.
        clear: WaterActivity,
        /// Water activity once it has grained.
        grained: WaterActivity,
        /// Sucrose in the sweeteners.
        of_sweeteners: MassFraction,
        /// What of the sucrose to exchange for other sweeteners, so that it is half of them.
        to_half: Grams,
    },
    /// The syrup holds more lactose than it dissolves.
    LactoseMayGrain {
        /// Lactose over its solubility.
        times: f64,
        /// Whether it crystallises by itself.
        is_by_itself: bool,
        /// Water activity once the excess has crystallised.
        grained: Option<WaterActivity>,
    },
    /// The syrup holds more dextrose than it dissolves.
    DextroseSupersaturated,
    /// The water model is outside its range.
    WaterOutsideRange {
        /// The water activity that it gives.
        activity: WaterActivity,
        /// Other sugars for each gram of water, where they and not the water activity are outside.
        others_per_water: Option<f64>,
    },
    /// A figure that the water model needs is assumed.
    WaterAssumed {
        /// The kind of a polyol; otherwise the molar mass of higher saccharides.
        is_polyol: bool,
    },
    /// The surroundings are too warm for the mass to set.
    SurroundingsTooWarm {
        /// How warm they are.
        around: Celsius,
        /// Below this it sets.
        below: Celsius,
    },
    /// The surroundings are so cold that unstable forms grow.
    SurroundingsTooCold {
        /// How cold they are.
        around: Celsius,
        /// Above this it sets in form V.
        above: Celsius,
    },
    /// The mass begins to cool so warm that the crystals of its seed have melted.
    StartTooWarm {
        /// How warm it begins.
        start: Celsius,
        /// From here on they melt.
        limit: Celsius,
        /// Where to seed.
        recommended: Celsius,
    },
    /// The store is warm for a mass with cocoa butter.
    StoredTooWarm {
        /// How warm the store is.
        at: Celsius,
        /// What melts there, if something does, with its form V limit.
        melts: Option<(Melting, Celsius)>,
    },
    /// The room melts what comes into it.
    RoomTooWarm {
        /// How warm the room is.
        room: Celsius,
        /// Form V limit.
        limit: Celsius,
    },
    /// A mass begins to set below its seeding window.
    StartTooCold {
        /// How warm it begins.
        start: Celsius,
        /// Where to seed and work it.
        window: Window,
        /// Where form IV melts, where it begins below that too.
        form_iv: Option<Celsius>,
    },
    /// A piece is so thick that the heat of its crystals does not get out as they grow.
    TooThick {
        /// The time in which they grow.
        growth: Minutes,
        /// The least that it would take.
        least: Minutes,
    },
    /// A filling has fewer or more fat crystals than is usual for its use.
    Crystals(CrystalsSubject),
    /// Water condenses on pieces that come from the store into the room.
    GetsWet {
        /// How cold the store is.
        at: Celsius,
        /// How warm the room is.
        room: Celsius,
        /// How humid it is.
        humidity: MassFraction,
        /// Where water condenses there.
        dew_point: Celsius,
    },
    /// More of the fat is liquid in the filling than in its shell.
    ShellMigration(Migration),
    /// Sugar is cooked.
    HotSugar,
    /// There is egg in it.
    RawEgg {
        /// The ingredient.
        name: String,
    },
    /// There are allergens in it.
    Allergens {
        /// Their names in the wording of the law, each once.
        names: Vec<String>,
        /// Ingredients of which the allergens are not known.
        unknown: Vec<String>,
    },
    /// There is much of the sugar alcohols in it.
    Polyols {
        /// The share of polyols.
        polyols: MassFraction,
    },
    /// There are hard, round pieces in it.
    Choking {
        /// The ingredient.
        name: String,
    },
    /// There is alcohol in it.
    Alcohol {
        /// The share of ethanol.
        ethanol: MassFraction,
    },
}

impl Finding {
    /// A finding without figures.
    #[must_use]
    pub fn new(level: Level, code: &'static str, subject: Subject) -> Self {
        Self { level, code, value: None, usual_low: None, usual_high: None, usual_high_is_outside: false, subject }
    }

    /// With the figure it is about.
    #[must_use]
    pub fn with_value(mut self, value: f64) -> Self {
        self.value = Some(value);
        self
    }

    /// With the ends of what is usual.
    #[must_use]
    pub fn with_usual(mut self, low: Option<f64>, high: Option<f64>) -> Self {
        self.usual_low = low;
        self.usual_high = high;
        self
    }

    /// With an upper end that itself lies outside, if so.
    #[must_use]
    pub fn with_high_outside(mut self, is_outside: bool) -> Self {
        self.usual_high_is_outside = is_outside;
        self
    }

    /// Whether it says that an emulsion may split.
    #[must_use]
    pub fn announces_split(&self) -> bool {
        matches!(self.subject, Subject::EmulsionCrowded { .. } | Subject::FatToWater { .. })
    }

    /// The lines that it speaks of.
    #[must_use]
    pub fn lines(&self) -> Vec<LineId> {
        match &self.subject {
            Subject::UnknownInput { line, .. } => vec![*line],
            Subject::EmulsionHasRoom { to_limit: remedies, .. }
            | Subject::EmulsionCrowded { remedies, .. }
            | Subject::FatToWater { remedies, .. }
            | Subject::OutsideUsual { remedies, .. }
            | Subject::NoLimit { remedies, .. }
            | Subject::NoSeeding { remedies, .. } => remedies.offered.iter().map(|remedy| remedy.line).collect(),
            Subject::Keeping(KeepingSubject { remedies, exchange, .. }) => {
                let exchanged = exchange.iter().flat_map(|exchange| [exchange.from, exchange.to]);
                remedies.offered.iter().map(|remedy| remedy.line).chain(exchanged).collect()
            }
            Subject::MixingMissed { ways, .. } => ways.iter().flat_map(|way| way.lines.iter().copied()).collect(),
            _ => Vec::new(),
        }
    }

    /// The reading that shows it best.
    #[must_use]
    pub fn reading(&self) -> Reading {
        match &self.subject {
            Subject::EmptyRecipe
            | Subject::UnknownInput { .. }
            | Subject::EvaporationExceedsWater { .. }
            | Subject::EvaporationEstimated { .. }
            | Subject::EvaporationNotKnown
            | Subject::Cooked(_)
            | Subject::CannotBeCooked(_)
            | Subject::AlcoholBoilsOff { .. }
            | Subject::HotSugar
            | Subject::RawEgg { .. }
            | Subject::Allergens { .. }
            | Subject::Polyols { .. }
            | Subject::Choking { .. }
            | Subject::Alcohol { .. } => Reading::MakeUp,
            Subject::Keeping(_)
            | Subject::WaterDry { .. }
            | Subject::SucroseSaturated { .. }
            | Subject::MayGrain { .. }
            | Subject::LactoseMayGrain { .. }
            | Subject::DextroseSupersaturated
            | Subject::WaterOutsideRange { .. }
            | Subject::WaterAssumed { .. } => Reading::Water,
            Subject::FatContinuous { .. }
            | Subject::Dry { .. }
            | Subject::EmulsionHasRoom { .. }
            | Subject::EmulsionCrowded { .. }
            | Subject::FatToWater { .. }
            | Subject::OutsideUsual { .. } => Reading::Emulsion,
            Subject::MixingEnd(_)
            | Subject::MixingMissed { .. }
            | Subject::MixingAssumed { .. }
            | Subject::NotMixed(_)
            | Subject::MixingAlcohol
            | Subject::MixingCoolingSugars { .. }
            | Subject::SurroundingsTooWarm { .. }
            | Subject::SurroundingsTooCold { .. }
            | Subject::StartTooWarm { .. }
            | Subject::StartTooCold { .. }
            | Subject::TooThick { .. }
            | Subject::StoredTooWarm { .. }
            | Subject::RoomTooWarm { .. }
            | Subject::GetsWet { .. }
            | Subject::ShellMigration(_) => Reading::Setting,
            _ => Reading::FatCrystals,
        }
    }
}
