//! The words of the seeding plan: what an operator does, sees, and does when it is not as it should be.
//!
//! Short sentences that tell what to do: they are read beside a bowl.

mod finding;
mod off;
mod seed;

pub(super) use finding::seed_without_crystals;
pub use seed::{
    ABOUT_KEEPING, about_cream, after_mixing, changes, changes_anything, crystals_apart, crystals_left, need,
    seed_amount, way,
};

use super::Words;
use crate::analysis::Analysis;
use crate::analysis::ROOM;
use crate::analysis::plan::step::{LookAt, PlanStep, StepKind, StepTemperature, WeighedLine};
use crate::analysis::plan::{Chocolate, Kept, NoPlan, Plan, SET_CHOCOLATE, SET_FILLING, TooCold, WarmUp};
use crate::analysis::seeding::LEAST_COCOA_BUTTER;
use crate::analysis::setting::NoTime;
use crate::analysis::survival::THERMOMETER_ERROR;
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::recipe::{Air, SeedingWay};
use crate::units::Celsius;

/// What a refrigerator has at most (common practice, no published source).
const REFRIGERATOR: Celsius = Celsius(10.0);

/// The words of one step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepWords {
    /// What it is called.
    pub title: &'static str,
    /// Temperature, weight and time: "45 to 50 °C · 400 g".
    pub figures: String,
    /// What to do.
    pub what: String,
    /// What to look at.
    pub look: String,
    /// What can be off, and what to do then.
    pub when_off: Vec<OffWords>,
}

/// Something that is off, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OffWords {
    /// How it shows.
    pub sign: String,
    /// What to do.
    pub remedy: String,
}

impl OffWords {
    /// Both as one sentence.
    #[must_use]
    pub fn joined(&self) -> String {
        format!("{}: {}", self.sign, self.remedy)
    }
}

/// What a step is called.
#[must_use]
pub fn step_title(kind: StepKind) -> &'static str {
    match kind {
        StepKind::MeltOut => "Melt out",
        StepKind::BringToTemperature => "Bring to temperature and mix",
        StepKind::WarmUp => "Warm up",
        StepKind::Warm => "Warm, do not melt",
        StepKind::Emulsify => "Emulsify",
        StepKind::CoolForPieces => "Cool until the chocolate can go in",
        StepKind::Cool => "Cool to the window",
        StepKind::Check => "Check",
        StepKind::Seed => "Seed",
        StepKind::Blend => "Blend",
        StepKind::Deposit => "Deposit",
        StepKind::Set => "Let it set",
    }
}

/// The words of a step of a plan.
#[must_use]
pub fn step(plan: &Plan, step: &PlanStep, sign: DecimalSign) -> StepWords {
    let writer = Writer { plan, sign };
    StepWords {
        title: step_title(step.kind),
        figures: writer.figures(step),
        what: writer.what(step),
        look: look(step.look, sign),
        when_off: step.when_off.iter().map(|off| writer.off(*off)).collect(),
    }
}

/// Why there is no plan, and what to do.
#[must_use]
pub fn no_plan(why: NoPlan, analysis: &Analysis, sign: DecimalSign) -> String {
    match why {
        NoPlan::Fat(why) => format!("No plan: {}.", super::no_fat_crystals(why, analysis)),
        NoPlan::TooDiluted { cocoa_butter_in_fat } => format!(
            "No plan: cocoa butter is {} % of the fat, and below {} % its crystals cannot carry the mass. Add cocoa butter or \
             take less of the other fats; the findings name amounts. Without that it sets by cold alone.",
            fixed(cocoa_butter_in_fat.to_percent(), 1, sign),
            shortest(LEAST_COCOA_BUTTER.to_percent(), 0, sign)
        ),
        NoPlan::OnlySeed => format!("No plan: {}.", super::seeding::ONLY_SEED),
        NoPlan::SetsBySugar => {
            "No plan: a caramel is cooked and becomes firm by its sugar, not by crystals of fat; seed would melt in \
                                it."
            .to_owned()
        }
        NoPlan::NoLimit => {
            "No plan: this cocoa butter has no crystals of form V that could serve as seed. Check its analysis, or \
                            choose one of the named types."
                .to_owned()
        }
    }
}

/// A temperature as it stands in a row: "29.8 to 33.6 °C, best 31.8".
#[must_use]
pub fn step_temperature(temperature: &StepTemperature, sign: DecimalSign) -> String {
    let StepTemperature { from, to, best } = temperature;
    let best = best.map_or_else(String::new, |best| format!(", best {}", fixed(best.0, 1, sign)));
    let (from, to) = (of_range(*from, sign), of_range(*to, sign));
    if from == to { format!("{to} °C{best}") } else { format!("{from} to {to} °C{best}") }
}

/// Temperatures of the trade are whole degrees, those of the mass have tenths.
fn of_range(celsius: Celsius, sign: DecimalSign) -> String {
    if celsius.0.fract() == 0.0 { shortest(celsius.0, 0, sign) } else { fixed(celsius.0, 1, sign) }
}

/// What to look at.
#[must_use]
pub fn look(look: LookAt, sign: DecimalSign) -> String {
    let words = match look {
        LookAt::NoGrain => "It is smooth and flows evenly; between two fingers there is no grain of fat.",
        LookAt::SoftWithCrystals => "It is just soft enough to stir, with some lumps left; stir them out off the heat.",
        LookAt::Glossy => "It is glossy, stretches from the spatula and shows no fat at the edge.",
        LookAt::Even => "Wall and middle are of one temperature; nothing has set at the wall.",
        LookAt::TwoReadings => {
            let error = fixed(THERMOMETER_ERROR.0, 1, sign);
            return format!(
                "Read it in the middle and at the wall, a minute apart: the readings agree within {error} °C."
            );
        }
        LookAt::CloudyCream => "The seed is cloudy and soft like thick cream. Clear seed is melted and does nothing.",
        LookAt::DryPowder => "The seed is dry and loose, without lumps; it came from tempered, set cocoa butter.",
        LookAt::SmallPieces => "The pieces are tempered, cold and no larger than a pea.",
        LookAt::NoStreaks => "No pale streak and no lump is left; it flows as before.",
        LookAt::NoPieces => "Pieces get smaller and go; a few small ones at the end are a good sign: take them out.",
        LookAt::TestStrip => "It flows from the bag or the ladle, and a test strip sets even and with a sheen.",
        LookAt::SetThrough => "It is set all through, and comes off paper or mould by itself.",
    };
    words.to_owned()
}

struct Writer<'a> {
    plan: &'a Plan,
    sign: DecimalSign,
}

impl Writer<'_> {
    fn figures(&self, step: &PlanStep) -> String {
        let temperature = step.temperature.as_ref().map(|temperature| step_temperature(temperature, self.sign));
        let weight = step.weight.map(|weight| format!("{} g", grams(weight.0, self.sign)));
        let time = step.minutes.map(|band| super::duration_range(band.low, band.high));
        let parts: Vec<String> = [temperature, weight, time].into_iter().flatten().collect();
        parts.join(" · ")
    }

    fn celsius(&self, celsius: Celsius) -> String {
        format!("{} °C", fixed(celsius.0, 1, self.sign))
    }

    fn what(&self, step: &PlanStep) -> String {
        let plan = self.plan;
        let window = &plan.window;
        match step.kind {
            StepKind::MeltOut => {
                let kind = match plan.chocolate {
                    Chocolate::Dark => "dark chocolate",
                    Chocolate::MilkOrWhite => "milk and white chocolate, whose milk solids bear less heat",
                };
                let what = if plan.is_emulsion {
                    "Melt everything that holds cocoa butter"
                } else {
                    "Melt what holds cocoa butter, stir in the rest"
                };
                format!(
                    "{}{what}, and hold it there until no crystal is left: a rest of old crystals would grow before the seed does. \
                     Common practice for {kind}.",
                    self.weigh(step)
                )
            }
            StepKind::BringToTemperature => {
                let left = match (plan.mix_end, plan.limits.form_v) {
                    (Some(end), Some(limit)) if end < limit && plan.warm_up.is_none() => format!(
                        " That is below the form V limit of {}: crystals of chocolate that goes in solid can be left, and take \
                         part unevenly. Start warmer, or melt it out first.",
                        self.celsius(limit)
                    ),
                    _ => String::new(),
                };
                let end = plan.mix_end.map_or_else(String::new, |end| self.celsius(end));
                // What is emulsified in a step of its own waits for it.
                let how = if plan.is_emulsion && plan.warm_up.is_none() {
                    "Bring each to its temperature, what is liquid apart from the chocolate. Stirred together in the next step they"
                } else {
                    "Bring each to its temperature. Stirred together they"
                };
                format!("{}{how} end at about {end}.{left}", self.weigh(step))
            }
            StepKind::WarmUp => plan.warm_up.map_or_else(String::new, |warm_up| self.warm_up(&warm_up)),
            StepKind::Warm => {
                let limit = plan.kept.as_ref().zip(step.temperature).map_or_else(String::new, |(kept, to)| {
                    format!(
                        " The last crystal melts at {}: go no warmer than {}.",
                        self.celsius(kept.limit),
                        self.celsius(to.to)
                    )
                });
                format!(
                    "{}Take the chocolate tempered; where it is set, chop it and warm it gently in short bursts.{limit} No seed is needed then.",
                    self.weigh(step)
                )
            }
            StepKind::Emulsify => {
                let how = if plan.choice.way == SeedingWay::KeepTempered {
                    "Bring it to the same temperature, and stir it in from the middle, without air: warmer liquid would melt the \
                     crystals."
                } else if plan.warm_up.is_some() {
                    "Stir it from the middle while it is so warm, without air, until all of it is even."
                } else if plan.mix_end.is_some() && !plan.has_hot_liquid {
                    "Stir the liquid into the chocolate, a third at a time, from the middle, without air, until all of it is even."
                } else if plan.mix_end.is_some() {
                    "Pour the hot liquid over the chocolate, wait a minute, then stir from the middle, without air, until all of it is \
                     even."
                } else {
                    "Stir it warm into the melted chocolate, a third at a time, from the middle, without air. The cocoa butter has to \
                     stay melted."
                };
                format!("{}{how}", self.weigh(step))
            }
            StepKind::CoolForPieces | StepKind::Cool => {
                // Otherwise it begins with what the step before ends with.
                let is_first = match &plan.seed {
                    Some(seed) => seed.way != SeedingWay::ChoppedChocolate || step.kind == StepKind::CoolForPieces,
                    None => false,
                };
                let from =
                    if is_first { format!(" from {} °C", of_range(plan.start, self.sign)) } else { String::new() };
                let after = plan.seed.as_ref().and_then(|seed| seed.after).map(|after| after.at);
                let is_inside =
                    step.kind == StepKind::Cool && !is_first && after.is_some_and(|after| after <= plan.worked().max);
                let inside = if is_inside {
                    format!(
                        " It is inside the window already; nearer to {} it is surer.",
                        self.celsius(plan.worked().recommended)
                    )
                } else {
                    String::new()
                };
                let time = step.minutes.and_then(|band| Some((band, band.likely?))).map_or_else(String::new, |(band, likely)| {
                    format!(
                        " A bowl stirred now and then in a room of {} takes about {}, or {} as bowl and draught are.",
                        Words { sign: self.sign }.whole_celsius(ROOM),
                        super::duration(likely),
                        super::duration_range(band.low, band.high)
                    )
                });
                format!("Let it cool{from}, and scrape the wall.{inside}{time}")
            }
            StepKind::Check => {
                let reserve = match (&plan.seed, plan.limits.form_vi) {
                    (Some(seed), Some(form_vi)) if seed.way == SeedingWay::Cream => format!(
                        " Long-kept seed lasts up to {}, but nothing grows on it until it is colder.",
                        self.celsius(form_vi)
                    ),
                    _ => String::new(),
                };
                let fresh = plan.fresh.map_or_else(String::new, |fresh| {
                    format!(
                        " Only while a gently stirred emulsion is fresh does it bear up to {}; when in doubt, keep to the lower \
                         range.",
                        self.celsius(fresh.max)
                    )
                });
                let with = plan.with_seed().filter(|_| plan.choice.way == SeedingWay::ChoppedChocolate);
                let limits = with.map_or(plan.limits, |with| with.limits);
                let melt = limits.form_v.map_or_else(String::new, |limit| {
                    format!(
                        "At {} crystals of form V melt: half a degree too warm is the difference between a set mass and a soft one.",
                        self.celsius(limit)
                    )
                });
                format!("{melt}{reserve} Below {} it thickens early.{fresh}", self.celsius(plan.checked().min))
            }
            StepKind::Seed => self.seed_in(),
            StepKind::Blend if plan.seed.as_ref().is_some_and(|seed| seed.way == SeedingWay::ChoppedChocolate) => {
                "Stir slowly until the pieces have cooled the mass and gone, without air.".to_owned()
            }
            StepKind::Blend => "Fold it in slowly through the whole bowl, also at the wall, without air.".to_owned(),
            StepKind::Deposit => {
                let thick = plan.too_thick.map_or_else(String::new, |crystals| {
                    format!(
                        " At {} {} % of its fat is still crystals, and it is too thick to work: warm it by tenths towards {}.",
                        self.celsius(window.recommended),
                        fixed(crystals.to_percent(), 0, self.sign),
                        self.celsius(window.max)
                    )
                });
                format!(
                    "Put a knife's tip of it on paper first. Keep the mass between {} and {} while you work; it grows thicker by \
                     itself.{thick}",
                    self.celsius(plan.worked().min),
                    self.celsius(plan.worked().max)
                )
            }
            StepKind::Set => self.set(step),
        }
    }

    /// How and where it sets, and how long that takes.
    fn set(&self, step: &PlanStep) -> String {
        if let Some(NoTime::TooWarm { most, .. }) = step.no_time {
            return format!("It does not set there: find a place below {}.", self.celsius(most));
        }
        let time = match (step.minutes.and_then(|band| band.likely), &step.no_time) {
            (Some(likely), _) => {
                format!(" It takes about {}, good to a factor of two.", super::duration(likely))
            }
            (None, Some(why)) => format!(" No time is told: {}.", super::no_time(*why, self.sign)),
            (None, None) => " How long: say in the reading Setting in which form and air it sets.".to_owned(),
        };
        let is_cold = step.temperature.is_some_and(|air| air.to <= REFRIGERATOR);
        let how = match step.air {
            // A base for whipping has to be cold, and is not unmoulded.
            _ if is_cold && self.plan.is_whipped => {
                "Cover it, and keep it at this temperature until it is whipped.".to_owned()
            }
            _ if is_cold => format!(
                "Let it stand at this temperature. So cold it can set soft and dull, and gets wet when it comes out: {} are kinder.",
                Words { sign: self.sign }.whole_range((SET_CHOCOLATE.0, SET_FILLING.1))
            ),
            Some(Air::Still) => {
                "Let it stand at this temperature, in still air as said; moving air is quicker.".to_owned()
            }
            Some(Air::Refrigerator) => "Let it stand in the refrigerator at this temperature, covered.".to_owned(),
            Some(Air::Tunnel) => "Send it through the tunnel at this temperature.".to_owned(),
            Some(Air::Fan) | None => {
                "Let it stand in moving air of this temperature, not in the refrigerator: set cold, it sets soft and dull."
                    .to_owned()
            }
        };
        format!("{how}{time}")
    }

    /// Why the mix is warmed, and how far.
    fn warm_up(&self, warm_up: &WarmUp) -> String {
        let end = self.plan.mix_end.map_or_else(String::new, |end| format!(" at {}", self.celsius(end)));
        let to = step_temperature(&warm_up.to, self.sign);
        match warm_up.why {
            TooCold::BelowWindow => format!(
                "It ends below the window{end}, where it thickens before the seed is even. Warm it gently, stirring, to {to}."
            ),
            TooCold::WrongForm => {
                let below = self
                    .plan
                    .limits
                    .form_iv
                    .map_or_else(String::new, |limit| format!(" below {}", self.celsius(limit)));
                format!(
                    "It ends{end}, and{below} crystals of the wrong form grow: they have to melt. Warm it gently, stirring, to {to}, \
                     until no grain is left, and only then let it cool."
                )
            }
            TooCold::ForPieces => format!(
                "It ends{end}, and the cold pieces cool it further: warm it gently, stirring, to {to}, until no grain is left."
            ),
        }
    }

    /// What is weighed for a step: "Weigh 200 g Cream, 40 g Butter. "
    fn weigh(&self, step: &PlanStep) -> String {
        let line = |line: &WeighedLine| {
            let note = line.note.split_whitespace().collect::<Vec<_>>().join(" ");
            let note = if note.is_empty() { note } else { format!(" ({note})") };
            let at = line.at.map_or_else(String::new, |at| format!(" at {} °C", of_range(at, self.sign)));
            format!("{} g {}{at}{note}", grams(line.grams.0, self.sign), line.name)
        };
        let lines: Vec<String> = step.lines.iter().map(line).collect();
        if lines.is_empty() { String::new() } else { format!("Weigh {}. ", lines.join("; ")) }
    }
}

/// What tempered chocolate keeps at the temperature of the thermometer.
#[must_use]
pub fn kept(kept: &Kept, sign: DecimalSign) -> String {
    let away = fixed(kept.to_limit.0.abs(), 1, sign);
    if kept.to_limit.0 <= 0.0 {
        return format!("no crystal is left at {} °C, {away} °C above its limit", fixed(kept.at.0, 1, sign));
    }
    format!(
        "{} % of the fat is crystals at {} °C; {away} °C more and there are none",
        fixed(kept.crystals.to_percent(), 1, sign),
        fixed(kept.at.0, 1, sign)
    )
}
