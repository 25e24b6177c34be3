//! The words of findings: a title that says what is, a detail that says why it matters and what would change it.
//!
//! The same sentences stand in the window, in the text report and in the JSON report. Those of the losses, of the
//! emulsion, of the fat, of seeding, of mixing, of setting and of water have a file each; so have those of the seeding plan,
//! of proof and rescue, of times, and why a model gives no answer.

pub mod batch;
pub mod cost;
mod duration;
mod emulsion;
mod fat;
pub mod food;
mod losses;
mod mixing;
pub mod plan;
mod reasons;
pub mod reformulation;
pub mod rescue;
mod seeding;
mod setting;
pub mod substitution;
mod water;
pub mod weighing;

use crate::analysis::Analysis;
use crate::analysis::emulsion::FatToWater;
use crate::analysis::fat_crystals::NoFatCrystals;
use crate::analysis::finding::{Finding, Level, Subject};
use crate::analysis::parts::Group;
use crate::analysis::remedy::Remedies;
use crate::analysis::usual::{Column, Share, UsualRange};
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, grams as grams_text, shortest};
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

pub use duration::{about, duration, duration_figure, duration_range};
pub use losses::{StageWords, stage};
pub use mixing::{MixEnd, kelvin_with_sign, mix_end, mix_next, needed, no_mixing, way};
pub use reasons::{no_heat, no_setting, no_time};
pub use seeding::{dose_amount, dose_range, fate, fate_in_short};
pub use setting::{
    THICK_PIECE, begins, days, days_range, habit, no_workable, no_workable_in_short, piece, softening, system,
    thickness, times_as_thick, usual_crystals,
};
pub use water::{
    WHAT_COUNTS, WHO_DECIDES, change, food_code_verdict, graining, growth_verdict, listeria_verdict, low_acid_verdict,
    sucrose_saturation, water_activity, water_activity_of,
};

/// The words of one finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindingWords {
    /// What is, with its figure.
    pub title: String,
    /// Why it matters and what would change it.
    pub detail: String,
}

impl FindingWords {
    /// Title and detail as one text.
    #[must_use]
    pub fn joined(&self) -> String {
        if self.detail.is_empty() { self.title.clone() } else { format!("{}. {}", self.title, self.detail) }
    }
}

/// The word for a level.
#[must_use]
pub fn level(level: Level) -> &'static str {
    match level {
        Level::Note => "note",
        Level::Caution => "caution",
        Level::Problem => "problem",
    }
}

/// What a range of the usual rests on.
#[must_use]
pub fn basis(range: &UsualRange) -> &'static str {
    range.published.unwrap_or("common practice, no published source")
}

/// A usual range with its unit: "28 to 36 %", "under 2 %", "none".
#[must_use]
pub fn usual_range(range: &UsualRange, sign: DecimalSign) -> String {
    if range.high_is_outside {
        format!("under {} %", fixed(range.high, 0, sign))
    } else if range.high == 0.0 {
        "none".to_owned()
    } else {
        format!("{} to {} %", fixed(range.low, 0, sign), fixed(range.high, 0, sign))
    }
}

/// What the rule of fat to water says.
#[must_use]
pub fn fat_to_water(place: FatToWater) -> &'static str {
    match place {
        FatToWater::Low => "less fat than usual",
        FatToWater::Easy => "easy",
        FatToWater::Firm => "firm, careful",
        FatToWater::LikelyToSplit => "likely to split",
    }
}

/// Why a figure that needs the whole composition is not there: the emulsion, the phase bar.
#[must_use]
pub fn not_known(analysis: &Analysis) -> &'static str {
    if analysis.make_up.weighed.0 > 0.0 {
        "not known: a figure is missing, see the findings"
    } else {
        "nothing is weighed in yet"
    }
}

/// Why nothing is known of the fat.
#[must_use]
pub fn no_fat_crystals(why: NoFatCrystals, analysis: &Analysis) -> &'static str {
    match why {
        NoFatCrystals::NoFat if analysis.make_up.weighed.0 > 0.0 => "there is no fat",
        NoFatCrystals::NoLiquid => "not known: nothing of this fat stays liquid, see the findings",
        NoFatCrystals::NoFat | NoFatCrystals::Unknown => not_known(analysis),
    }
}

/// The words of a finding.
#[must_use]
pub fn finding(finding: &Finding, sign: DecimalSign) -> FindingWords {
    let (title, detail) = Words { sign }.of(&finding.subject);
    FindingWords { title, detail }
}

/// What the allergens of a mass are, in the wording of the law.
fn allergens(names: &[String], unknown: &[String]) -> (String, String) {
    let title = if names.is_empty() {
        "Allergens are not known of every ingredient".to_owned()
    } else {
        format!("Contains allergens: {}", names.join(", "))
    };
    let open = if unknown.is_empty() { String::new() } else { format!("Not known: {}. ", unknown.join(", ")) };
    let detail = format!(
        "{open}Only what the ingredients are made of is listed, no traces: read the supplier's sheets. Local labelling \
         law decides."
    );
    (title, detail)
}

/// Why no change of one line is offered.
fn no_remedy(remedies: &Remedies) -> &'static str {
    if remedies.has_locked {
        "No line that is not locked mends it alone without another figure getting worse: unlock a line, or change several \
         together."
    } else {
        "No line mends it alone without another figure getting worse: change several together, or add an ingredient."
    }
}

/// What to add where nothing in the recipe brings any of a share.
fn brought_by_nothing(share: Share) -> &'static str {
    match share {
        Share::Group(Group::SyrupSolids) => {
            "Nothing in the recipe brings them; glucose or invert syrup or dextrose would."
        }
        Share::Group(Group::CocoaButter) => "Nothing in the recipe brings it; chocolate or cocoa butter would.",
        Share::Group(Group::MilkFat) => "Nothing in the recipe brings it; cream or butter would.",
        Share::Group(Group::LiquidOil) => "Nothing in the recipe brings it; nut paste or oil would.",
        _ => "Nothing in the recipe brings any.",
    }
}

struct Words {
    sign: DecimalSign,
}

impl Words {
    fn of(&self, subject: &Subject) -> (String, String) {
        match subject {
            Subject::EmptyRecipe => fixed_words(
                "Nothing is weighed in yet",
                "Add an ingredient and give it an amount; every reading follows at once.",
            ),
            Subject::UnknownInput { name, missing, .. } => unknown_input(name, missing),
            Subject::EvaporationExceedsWater { asked, water } => self.evaporation_exceeds_water(*asked, *water),
            Subject::EvaporationEstimated { heating, liquid, evaporated } => {
                self.evaporation_estimated(*heating, *liquid, *evaporated)
            }
            Subject::EvaporationNotKnown => losses::evaporation_not_known(),
            Subject::Cooked(subject) => self.cooked(subject),
            Subject::CannotBeCooked(cooking) => self.cannot_be_cooked(cooking),
            Subject::AlcoholBoilsOff { evaporated, lost } => self.alcohol_boils_off(*evaporated, *lost),
            Subject::FatContinuous { water } => self.fat_continuous(*water),
            Subject::Dry { water } => self.dry(*water),
            Subject::EmulsionHasRoom { dispersed, to_limit } => self.emulsion_has_room(*dispersed, to_limit),
            Subject::EmulsionCrowded { dispersed, is_likely_to_split: false, remedies } => {
                self.near_the_limit(*dispersed, remedies)
            }
            Subject::EmulsionCrowded { dispersed, is_likely_to_split: true, remedies } => {
                self.likely_to_split(*dispersed, remedies)
            }
            Subject::FatToWater { ratio, remedies } => self.fat_to_water(*ratio, remedies),
            Subject::OutsideUsual { range, share, remedies } => self.outside_usual(range, *share, remedies),
            Subject::NoFat => {
                fixed_words("There is no fat", "Without fat there is nothing that crystallises and nothing to seed.")
            }
            Subject::NoLiquidFat => fixed_words(
                "Nothing of this fat stays liquid",
                "The fat model needs a liquid part. Check the analysis of the cocoa butter.",
            ),
            Subject::NoLimit { cocoa_butter_in_fat, remedies } => self.no_limit(*cocoa_butter_in_fat, remedies),
            Subject::NoFormV { cocoa_butter_in_fat } => self.no_form_v(*cocoa_butter_in_fat),
            Subject::NoSeedingWithoutFormV => fixed_words(
                "Not to be seeded: there is no form V limit",
                "Seed is crystals of form V, and in this fat they melt wherever a mass is worked.",
            ),
            Subject::OnlySeed => (format!("Not to be seeded: {}", seeding::ONLY_SEED), String::new()),
            Subject::NoSeeding { cocoa_butter_in_fat, remedies } => self.no_seeding(*cocoa_butter_in_fat, remedies),
            Subject::SolidFatOutsideTemperature { at } => self.solid_fat_outside_temperature(*at),
            Subject::SolidFatOutsideRange { cocoa_butter_in_fat } => self.solid_fat_outside_range(*cocoa_butter_in_fat),
            Subject::OtherFatKindEstimated { name, kind, share_of_fat } => {
                self.other_fat_kind_estimated(name, *kind, *share_of_fat)
            }
            Subject::SeedAt(subject) => self.seed_at(subject),
            Subject::SeedMelted { at } => self.seed_melted(*at),
            Subject::SeedLost { after, limit, to_limit } => self.seed_lost(*after, *limit, *to_limit),
            Subject::SeedWithoutCrystals { name } => plan::seed_without_crystals(name),
            Subject::OwnDose { grams, share, is_blend, is_ingredient, suggested } => {
                self.own_dose((*grams, *share), *is_blend, *is_ingredient, *suggested)
            }
            Subject::SeedingWindow(subject) => self.seeding_window(subject),
            Subject::TwoWindows { blended, unmixed, globules } => self.two_windows(*blended, *unmixed, globules),
            Subject::WindowBelowEmulsionLimit { recommended, unmixed, seeded_by } => {
                self.window_below_emulsion_limit(*recommended, *unmixed, *seeded_by)
            }
            Subject::HabitAboveLimit { habit, limit, is_wholly_above } => {
                let part = if *is_wholly_above { "lies" } else { "reaches" };
                self.habit_above_limit(*habit, *limit, part)
            }
            Subject::DoseClipped { habit, equal_time } => self.dose_clipped(habit.as_ref(), equal_time.as_ref()),
            Subject::MixingEnd(subject) => self.mixing_end(subject),
            Subject::MixingMissed { end, wanted, ways } => self.mixing_missed(*end, *wanted, ways),
            Subject::MixingAssumed { unsaid, lines } => self.mixing_assumed(*unsaid, *lines),
            Subject::NotMixed(why) => self.not_mixed(why),
            Subject::MixingAlcohol => fixed_words(
                "Alcohol is mixed hotter than 78 °C: some of it is lost",
                "Add it last, below 40 °C. Its vapour burns.",
            ),
            Subject::MixingCoolingSugars { grams, cooler_by } => self.mixing_cooling_sugars(*grams, *cooler_by),
            Subject::Keeping(subject) => self.keeping(subject),
            Subject::WaterDry { is_held } => self.water_dry(*is_held),
            Subject::SucroseSaturated { is_of_chocolate, undissolved, activity, exchanged, with_dextrose } => {
                self.sucrose_saturated(*is_of_chocolate, *undissolved, (*activity, *with_dextrose), *exchanged)
            }
            Subject::MayGrain { times, is_by_itself, of_sweeteners, to_half, clear, grained } => {
                self.may_grain(*times, *is_by_itself, (*of_sweeteners, *to_half), [*clear, *grained])
            }
            Subject::LactoseMayGrain { times, is_by_itself, grained } => {
                self.lactose_may_grain(*times, *is_by_itself, *grained)
            }
            Subject::DextroseSupersaturated => fixed_words(
                "More dextrose than the syrup dissolves at 20 °C: it may crystallise",
                "It grains slowly, as a soft paste. Less dextrose, or glucose syrup and invert sugar in its place, keeps \
                 it smooth.",
            ),
            Subject::WaterOutsideRange { activity, others_per_water } => {
                self.water_outside_range(*activity, *others_per_water)
            }
            Subject::WaterAssumed { is_polyol } => water::water_assumed(*is_polyol),
            Subject::SurroundingsTooWarm { around, below } => self.surroundings_too_warm(*around, *below),
            Subject::SurroundingsTooCold { around, above } => self.surroundings_too_cold(*around, *above),
            Subject::StartTooWarm { start, limit, recommended } => self.start_too_warm(*start, *limit, *recommended),
            Subject::StartTooCold { start, window, form_iv } => self.start_too_cold(*start, *window, *form_iv),
            Subject::TooThick { growth, least } => setting::too_thick(*growth, *least),
            Subject::StoredTooWarm { at, melts } => self.stored_too_warm(*at, *melts),
            Subject::RoomTooWarm { room, limit } => self.room_too_warm(*room, *limit),
            Subject::Crystals(subject) => self.crystals_of_filling(subject),
            Subject::GetsWet { at, room, humidity, dew_point } => self.gets_wet(*at, (*room, *humidity), *dew_point),
            Subject::ShellMigration(migration) => self.shell_migration(migration),
            Subject::HotSugar => fixed_words(
                "Hot sugar burns deeper than boiling water",
                "It sticks. Gloves and long sleeves, a deep pan, cold water at hand, no children near. Keep water away from \
                 caramel; add warmed cream slowly, it boils up.",
            ),
            Subject::RawEgg { name } => (
                format!("{name}: mind raw egg"),
                "Use pasteurised egg or a validated heat step; not for people at risk. Local food codes decide."
                    .to_owned(),
            ),
            Subject::Allergens { names, unknown } => allergens(names, unknown),
            Subject::Polyols { polyols } => (
                format!("{} polyols: too much of them is a laxative", self.percent(*polyols, 1)),
                "Above 10 % the label has to say so (Regulation (EU) 1169/2011, Annex III); local codes decide."
                    .to_owned(),
            ),
            Subject::Choking { name } => (
                format!("{name}: whole pieces can choke"),
                "Hard, round or sticky pieces and whole nuts are a risk for small children and for people who swallow \
                 with difficulty."
                    .to_owned(),
            ),
            Subject::Alcohol { ethanol } => (
                format!("{} alcohol", self.percent(*ethanol, 1)),
                "For adults; some guests avoid it for health, age, driving or faith. Its vapour burns when hot."
                    .to_owned(),
            ),
        }
    }

    fn evaporation_exceeds_water(&self, asked: Grams, water: Grams) -> (String, String) {
        (
            format!("{} of water cannot evaporate: there are {}", self.grams(asked), self.grams(water)),
            "The results are those with all water gone. Lower the evaporation, or add what brings the water."
                .to_owned(),
        )
    }

    fn outside_usual(&self, range: &UsualRange, share: MassFraction, remedies: &Remedies) -> (String, String) {
        let usual = usual_range(range, self.sign);
        let title = format!(
            "{} {}, usual for {} {usual}",
            capital(range.of.words()),
            self.percent(share, 1),
            range.column.words()
        );
        let bound = range.nearest_within(range.place(share)).unwrap_or(range.high);
        let detail = match self.remedies(remedies) {
            Some(remedies) => {
                format!(
                    "{} would bring it to {} %. {}.",
                    capital(&remedies),
                    shortest(bound, 1, self.sign),
                    capital(basis(range))
                )
            }
            None if share.0 <= 0.0 => format!("{} {}.", brought_by_nothing(range.of), capital(basis(range))),
            None => format!("{} {}.", no_remedy(remedies), capital(basis(range))),
        };
        let is_poor_in_sugars = range.of == Share::Group(Group::Sugars) && share.to_percent() < range.low;
        let detail = if is_poor_in_sugars && range.column == Column::Cut {
            format!("{detail} The classic ganache of two parts dark chocolate and one of cream has about 25 % as well.")
        } else {
            detail
        };
        (title, detail)
    }

    fn remedies(&self, remedies: &Remedies) -> Option<String> {
        let each: Vec<String> = remedies
            .offered
            .iter()
            .map(|remedy| {
                let direction = if remedy.change.0 < 0.0 { "less" } else { "more" };
                format!("{} {direction} {}", self.grams(Grams(remedy.change.0.abs())), remedy.name)
            })
            .collect();
        match each.as_slice() {
            [] => None,
            [one] => Some(one.clone()),
            // The second one is an inset: "20 g more cream, or 10 g less butter, would …".
            several => Some(format!("{},", several.join(", or "))),
        }
    }

    /// What would bring a figure to its bound, as sentences; why nothing is offered where nothing is.
    fn remedy_or_why(&self, remedies: &Remedies, aim: &str) -> String {
        match self.remedies(remedies) {
            Some(remedies) => format!("{} would {aim}.", capital(&remedies)),
            None => no_remedy(remedies).to_owned(),
        }
    }

    fn grams(&self, grams: Grams) -> String {
        format!("{} g", grams_text(grams.0, self.sign))
    }

    fn percent(&self, share: MassFraction, decimals: u32) -> String {
        format!("{} %", fixed(share.to_percent(), decimals, self.sign))
    }

    /// A limit of the model in percent, without decimals that it does not have.
    fn limit(&self, share: MassFraction) -> String {
        format!("{} %", shortest(share.to_percent(), 1, self.sign))
    }

    fn whole_celsius(&self, celsius: Celsius) -> String {
        format!("{} °C", fixed(celsius.0, 0, self.sign))
    }

    fn two(&self, value: f64) -> String {
        fixed(value, 2, self.sign)
    }

    fn kelvin(&self, kelvin: Kelvin) -> String {
        format!("{} K", fixed(kelvin.0.abs(), 1, self.sign))
    }

    fn celsius(&self, celsius: Celsius) -> String {
        format!("{} °C", fixed(celsius.0, 1, self.sign))
    }

    fn range(&self, range: (Celsius, Celsius)) -> String {
        format!("{} to {} °C", fixed(range.0.0, 1, self.sign), fixed(range.1.0, 1, self.sign))
    }

    fn whole_range(&self, range: (Celsius, Celsius)) -> String {
        format!("{} to {} °C", fixed(range.0.0, 0, self.sign), fixed(range.1.0, 0, self.sign))
    }
}

/// Words without a figure.
fn fixed_words(title: &str, detail: &str) -> (String, String) {
    (title.to_owned(), detail.to_owned())
}

fn unknown_input(name: &str, missing: &[Component]) -> (String, String) {
    let list: Vec<&str> = missing.iter().map(|component| component.words()).collect();
    let (what, verb) = if missing.len() == Component::COUNT {
        ("the composition".to_owned(), "is")
    } else {
        (list.join(", "), if missing.len() == 1 { "is" } else { "are" })
    };
    (
        format!("{name}: {what} {verb} not known"),
        "Every sum it takes part in stays unknown. Take the figures from the supplier's data sheet.".to_owned(),
    )
}

/// The text with a capital first letter.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or_else(String::new, |first| first.to_uppercase().chain(characters).collect())
}
