//! The figures of findings that have many.

use crate::analysis::Analysis;
use crate::analysis::cooking::Cooked;
use crate::analysis::exchange::Exchange;
use crate::analysis::heat::HeatError;
use crate::analysis::mixing::{Changeable, MixingState, Needed, Way};
use crate::analysis::plan::seed::WithSeed;
use crate::analysis::remedy::{Names, Remedies};
use crate::analysis::seeding::{Seeding, Window};
use crate::analysis::survival::Fate;
use crate::analysis::texture::UsualCrystals;
use crate::recipe::{CookTemperature, Height, Line, LineId, Recipe, SeedingWay, Use};
use crate::units::{Celsius, Grams, Kelvin, MassFraction, WaterActivity};

/// What a cook does, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CookedSubject {
    /// To which temperature.
    pub temperature: CookTemperature,
    /// At which height.
    pub height: Height,
    /// What comes of it.
    pub cooked: Cooked,
    /// The share of water that stays.
    pub water: MassFraction,
    /// Where pure water boils there.
    pub water_boils: Celsius,
}

/// How a mass is seeded, as far as words differ by it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeededBy {
    /// Cocoa butter is put in, in the window.
    CocoaButter,
    /// Cold pieces of chocolate are put into a mass that is warmer than its window; `None` where it is not known how warm.
    Pieces(Option<Window>),
    /// It keeps the crystals of tempered chocolate: nothing is put in.
    Kept,
}

impl SeededBy {
    /// How the mass of an analysis is seeded; without a plan as is usual.
    #[must_use]
    pub fn of(analysis: &Analysis) -> Self {
        let Ok(plan) = &analysis.plan else { return Self::CocoaButter };
        match plan.choice.way {
            SeedingWay::KeepTempered => Self::Kept,
            SeedingWay::ChoppedChocolate => Self::Pieces(plan.seed.as_ref().and_then(|seed| seed.put_in)),
            SeedingWay::Cream | SeedingWay::Grated => Self::CocoaButter,
        }
    }
}

/// Where a mix ends, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixingSubject {
    /// The end.
    pub end: Celsius,
    /// What the thermometer shows at once, where that differs from what it shows with the sugar dissolved.
    pub at_once: Option<Celsius>,
    /// One standard deviation of it.
    pub uncertainty: Kelvin,
    /// What becomes of seed there; `None` where the mass cannot be seeded.
    pub fate: Option<Fate>,
    /// The same while the emulsion is fresh, where that is different.
    pub fresh_fate: Option<Fate>,
    /// Where to seed.
    pub window: Option<Window>,
    /// The same while the emulsion is fresh.
    pub fresh_window: Option<Window>,
    /// Form V limit.
    pub limit: Option<Celsius>,
    /// Fat crystals that came in.
    pub crystals_before: Grams,
    /// Fat crystals that are left.
    pub crystals_left: Grams,
    /// All fat of the mass; `None` where it is not known.
    pub fat: Option<Grams>,
    /// How it is seeded.
    pub seeded_by: SeededBy,
    /// Whether tempered chocolate is among the lines.
    pub has_tempered: bool,
    /// Whether the mass is an emulsion.
    pub is_emulsion: bool,
}

/// One way to a wanted end, with what its words need.
#[derive(Clone, Debug, PartialEq)]
pub struct WaySubject {
    /// The lines.
    pub lines: Vec<LineId>,
    /// What they are called.
    pub names: Vec<String>,
    /// What they are.
    pub what: Changeable,
    /// How warm they are now.
    pub start: Celsius,
    /// What they need, or why there is nothing.
    pub needed: Result<Needed, HeatError>,
}

/// The fat crystals of a filling, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrystalsSubject {
    /// Fat crystals at 20 °C, as a share of the mass.
    pub crystals: MassFraction,
    /// One standard deviation of them, where it is known.
    pub uncertainty: Option<MassFraction>,
    /// What is usual.
    pub usual: UsualCrystals,
    /// What it is used for.
    pub intended_use: Use,
    /// How much more cocoa butter would bring it to the lower end, where it has fewer.
    pub more_cocoa_butter: Option<Grams>,
}

/// How active the water is, with the figures that its words need.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepingSubject {
    /// Water activity at 20 °C.
    pub activity: WaterActivity,
    /// Lower edge of its band.
    pub low: WaterActivity,
    /// Upper edge of its band.
    pub high: WaterActivity,
    /// Where the upper edge lies on the limit.
    pub aim: WaterActivity,
    /// The share of alcohol in water and alcohol, where it is so much that water activity does not describe growth.
    pub alcohol: Option<MassFraction>,
    /// Whether there is so much fat that its water stands in drops.
    pub is_fat_around: bool,
    /// How acid it is, if that was measured.
    pub ph: Option<f64>,
    /// Whether alcohol disturbs it.
    pub has_alcohol: bool,
    /// What would bring it to the aim.
    pub remedies: Remedies,
    /// Which exchange would, where no change of one line does.
    pub exchange: Option<Exchange>,
}

/// A temperature that is not right for seed, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeedAtSubject {
    /// The temperature.
    pub at: Celsius,
    /// What becomes of seed there.
    pub fate: Fate,
    /// Form V limit.
    pub limit: Celsius,
    /// Form IV limit.
    pub form_iv: Option<Celsius>,
    /// Form VI limit.
    pub form_vi: Option<Celsius>,
    /// The cautious window.
    pub window: Window,
    /// How it is seeded.
    pub seeded_by: SeededBy,
    /// The window of a fresh emulsion, where the temperature is not above it.
    pub fresh: Option<Window>,
    /// Where such a chocolate is melted out.
    pub melt_out: (Celsius, Celsius),
}

/// Where and with how much to seed, with the figures that its words need.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeedingSubject {
    /// Windows and doses.
    pub seeding: Seeding,
    /// The mass in the bowl, to which the doses refer.
    pub bowl: Grams,
    /// Form V limit.
    pub limit: Celsius,
    /// How it is seeded.
    pub seeded_by: SeededBy,
    /// Limits and window once the seed is in, where they are others than before.
    pub with_seed: Option<WithSeed>,
    /// Whether another way of seeding, or an own amount, is chosen than that of the doses.
    pub is_other_way: bool,
    /// What the mass is used for.
    pub intended_use: Option<Use>,
    /// The factor that this use puts to the habit.
    pub factor: f64,
    /// Cocoa butter in the fat.
    pub cocoa_butter_in_fat: MassFraction,
    /// Milk fat in the fat.
    pub milk_fat_in_fat: MassFraction,
    /// Fat that is neither cocoa butter nor milk fat, in the fat.
    pub other_fat_in_fat: MassFraction,
}

impl MixingSubject {
    /// The crystals that are left, as a share of all fat.
    #[must_use]
    pub fn crystals_of_fat(&self) -> Option<MassFraction> {
        self.fat.filter(|fat| fat.0 > 0.0).map(|fat| self.crystals_left / fat)
    }

    /// What there is to say of a mix.
    #[must_use]
    pub fn of(analysis: &Analysis, mixing: &MixingState) -> Self {
        let (crystals_before, crystals_left) = mixing.all_crystals();
        Self {
            end: mixing.end,
            at_once: mixing.mixed.has_noteworthy_dissolution().then_some(mixing.mixed.at_once.temperature),
            uncertainty: mixing.uncertainty,
            fate: mixing.fate,
            fresh_fate: mixing.fresh_fate,
            window: analysis.seeding.map(|seeding| seeding.window),
            fresh_window: analysis.seeding.as_ref().and_then(Seeding::second_window),
            limit: analysis.seeding.map_or_else(
                || analysis.fat.as_ref().ok().and_then(|fat| fat.limits.form_v),
                |seeding| seeding.limits.form_v,
            ),
            crystals_before,
            crystals_left,
            fat: analysis.fat.as_ref().ok().map(|fat| fat.grams.total()),
            seeded_by: SeededBy::of(analysis),
            has_tempered: mixing.has_tempered,
            is_emulsion: analysis.emulsion.emulsion().is_some(),
        }
    }
}

impl WaySubject {
    /// A way with the names of its lines, each once; with their places in the sheet where another line has that name and
    /// is not changed.
    #[must_use]
    pub fn of(recipe: &Recipe, names: &Names<'_>, way: &Way) -> Self {
        let mut of_lines: Vec<String> = Vec::new();
        let is_left_out = |name: &str| {
            let is_other = |line: &&Line| !way.lines.contains(&line.id) && line.ingredient.name == name;
            recipe.lines.iter().any(|line| is_other(&line))
        };
        for line in way.lines.iter().filter_map(|id| recipe.line(*id)) {
            let name = if is_left_out(&line.ingredient.name) {
                names.name_and_place(recipe, line)
            } else {
                names.name_of(line)
            };
            if !of_lines.contains(&name) {
                of_lines.push(name);
            }
        }
        Self { lines: way.lines.clone(), names: of_lines, what: way.what, start: way.start, needed: way.needed }
    }
}
