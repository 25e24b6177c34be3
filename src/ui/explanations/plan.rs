//! Numbers of the seeding plan.

use super::{HABIT, HABIT_SOURCE, celsius, inputs, percent, shortest, with_sign, words};
use crate::analysis::heat::Fat;
use crate::analysis::plan::need::HOURS_TO_MAKE_READY;
use crate::analysis::plan::seed::{CHOPPED_PER_MASS, COLD_SEED};
use crate::analysis::seeding::{HABIT as HABIT_DOSE, HABIT_RANGE, REFERENCE_FAT, SEED_SOLID_SHARE, WINDOW_TOP};
use crate::analysis::survival::THERMOMETER_ERROR;
use crate::number::{DecimalSign, grams};
use crate::recipe::{CreamShare, SeedTemperature};
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;
use crate::units::Grams;

/// How much seed goes in.
#[must_use]
pub fn amount(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed to weigh"),
        what: words(
            "How much seed goes into this mass in the chosen way. Within a factor of two the amount matters little; the \
             temperature matters much.",
        ),
        formula: words(format!(
            "{} of a mass with {} fat, in proportion to the fat, × {} ÷ crystals that the seed has where it works; less for thick \
             bars and thin coats. Of chopped chocolate {} of the mass: a third of the whole.",
            percent(HABIT_DOSE, sign),
            percent(REFERENCE_FAT, sign),
            percent(SEED_SOLID_SHARE, sign),
            percent(CHOPPED_PER_MASS, sign)
        )),
        range: words(format!(
            "Held between {} and {} of the mass. Your own amount, or the line of the sheet, counts instead. Of powder the trade \
             takes about 1 % as well, which leaves more margin.",
            percent(HABIT_RANGE.0, sign),
            percent(HABIT_RANGE.1, sign)
        )),
        source: words(HABIT_SOURCE),
        evidence: words(format!("The levels: {HABIT}. {}", inputs(scene))),
        uncertainty: words("A factor of two either way."),
    }
}

/// Where mass and seed end.
#[must_use]
pub fn after_mixing(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("the mass with its seed"),
        what: words(
            "The temperature once the seed is stirred in, and what becomes of its crystals there. Cold seed cools the mass, melting \
             seed cools it more.",
        ),
        formula: words(format!(
            "Heat of the mass put in at the best temperature + heat of the seed = heat of both; {} J for each gram of crystals that \
             melts; no more stays solid than can live in the fat of both.",
            shortest(Fat::CocoaButter.heat_of_fusion().0, 0, sign)
        )),
        range: words(format!(
            "Seed lives below the form V limit; within {} K of it a thermometer cannot tell; above, only long-kept seed lasts, up to \
             the form VI limit, and nothing grows on it.",
            shortest(THERMOMETER_ERROR.0, 1, sign)
        )),
        source: words("Balance of heat; specific heats by Choi and Okos 1986; the fat model of this program."),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("About 0.3 K where much cold seed goes in; that of the limit is 1 K.", sign),
    }
}

/// Crystals that are left of the seed.
#[must_use]
pub fn crystals_left(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("crystals after mixing"),
        what: words("How much of all the fat is crystals once the seed is stirred in, before anything grows."),
        formula: words("Crystals of the seed, less what melts by the balance of heat, ÷ fat of mass and seed."),
        range: with_sign("Well-tempered chocolate has some 0.1 to 3 % of crystals; texts differ.", sign),
        source: words("Balance of heat and the fat model; the usual range from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words("As good as the share of crystals in your seed; melted seed brings none."),
    }
}

/// How far the crystals are apart.
#[must_use]
pub fn crystals_apart(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("distance between crystals"),
        what: words(
            "How far growth has to reach before the crystals meet: an order of magnitude. The size of the crystals decides more than \
             the mass of seed, and is hardly ever known.",
        ),
        formula: words(
            "Cube root of (π × diameter³ ÷ 6 × volume of the crystals in the fat): for crystals of 2 and of 20 µm.",
        ),
        range: words("Even mixing. A hair is some 70 µm thick."),
        source: words("Geometry of equal spheres; sizes from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words("The range is the uncertainty: a factor of ten."),
    }
}

/// What the seed changes in the mass.
#[must_use]
pub fn changes(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("what the seed changes"),
        what: words(
            "What the mass is made of without and with the seed. A little cocoa butter changes next to nothing; a third of chopped \
             chocolate makes another mass: firmer, drier, sweeter. Put the seed into the sheet to see all of it.",
        ),
        formula: words("(Group in the mass + group in the seed) ÷ (mass + seed), before and after."),
        range: words("Any amount of seed."),
        source: words("Balance of mass."),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the composition of mass and seed."),
    }
}

/// What tempered chocolate keeps.
#[must_use]
pub fn kept(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("crystals that tempered chocolate keeps"),
        what: words(
            "How much of the fat is still crystals of form V when tempered, set chocolate is warmed to this temperature, and how little \
             separates that from none. Move the handle of the thermometer.",
        ),
        formula: words("Form V of the fat outside globules, at equilibrium at that temperature."),
        range: words(format!(
            "Warm it to at most {} K under the limit, the upper end of the window; a good thermometer is off by {} K. Common practice \
             for dark chocolate: no more than about {}.",
            shortest(WINDOW_TOP.0, 1, sign),
            shortest(THERMOMETER_ERROR.0, 1, sign),
            celsius(crate::units::Celsius(33.5), sign)
        )),
        source: words(
            "The fat model of this program; the warning temperature is common practice, no published source.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("Near the limit 14 points for each degree: the error of the limit decides.", sign),
    }
}

/// The share of crystals in the cream.
#[must_use]
pub fn cream_share() -> Explanation {
    let (least, most) = CreamShare::RANGE;
    Explanation {
        title: words("crystals of the seed cream"),
        what: words("How much of the seed cream is solid. The dose follows: half the crystals, twice the seed."),
        formula: words("As you state it: from the temperature at which it is kept, or by eye."),
        range: words(format!(
            "{} to {} %; usual are 20: soft as thick cream.",
            shortest(least.to_percent(), 0, DecimalSign::Point),
            shortest(most.to_percent(), 0, DecimalSign::Point)
        )),
        source: words(HABIT_SOURCE),
        evidence: words("Your statement; nothing is measured."),
        uncertainty: words("By eye a third either way; it moves the dose by as much."),
    }
}

/// The own amount of seed.
#[must_use]
pub fn own_amount(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("own amount of seed"),
        what: words(
            "What you take instead of what is suggested; empty it and the suggestion counts. It scales with the recipe.",
        ),
        formula: words("As typed, in grams or with its unit."),
        range: with_sign("Usual are 0.2 to 1.5 % of the mass; a finding says when it is outside.", sign),
        source: words(HABIT_SOURCE),
        evidence: words("Your own experience."),
        uncertainty: words("That of the scale."),
    }
}

/// The temperature of the seed.
#[must_use]
pub fn seed_temperature() -> Explanation {
    let (least, most) = SeedTemperature::RANGE;
    Explanation {
        title: words("temperature of the seed"),
        what: words(
            "How warm the seed is when it goes in. Of grated butter and chopped chocolate it decides how much they cool the mass; seed \
             that is too warm is melted and does nothing.",
        ),
        formula: words(format!(
            "As measured. Unless you say so: cream in the middle of where it is a cream, grated butter and chocolate {}.",
            celsius(COLD_SEED, DecimalSign::Point)
        )),
        range: words(format!(
            "{} to {} °C.",
            shortest(least.0, 0, DecimalSign::Point),
            shortest(most.0, 0, DecimalSign::Point)
        )),
        source: words(HABIT_SOURCE),
        evidence: words("Your measurement."),
        uncertainty: words("That of the thermometer."),
    }
}

/// The seed as a line of the sheet.
#[must_use]
pub fn in_sheet(bowl: Grams, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed in the sheet"),
        what: words(
            "With the tick the seed is a line of the sheet: it counts in what the mass is made of, weighs and costs. Dose and window stay \
             those of the mass without it.",
        ),
        formula: words(format!("The mass without it: {} g.", grams(bowl.0, sign))),
        range: words("One undo takes it out again."),
        source: words("Balance of mass."),
        evidence: words("The amount that the plan names, as a scale shows it."),
        uncertainty: words("None of its own."),
    }
}

/// The need of a day.
#[must_use]
pub fn need(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("seed of the day"),
        what: words(
            "What all batches of today take of seed, against what stands ready, and when the rest has to be set up.",
        ),
        formula: words("Batches × seed of this plan − what is ready."),
        range: words(format!(
            "A cream takes about {} hours until all of it is even; grated butter and chocolate take none.",
            shortest(HOURS_TO_MAKE_READY, 0, DecimalSign::Point)
        )),
        source: words(HABIT_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("Weigh some more: a little stays in the pot."),
    }
}
