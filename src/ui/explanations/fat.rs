//! Numbers of the reading Fat crystals.

use super::{HABIT, HABIT_SOURCE, celsius, inputs, percent, words};
use crate::analysis::fat::{Form, LEAST_COCOA_BUTTER_FOR_LIMITS};
use crate::analysis::fat_crystals::{
    FatCrystals, HELD_AGAINST_MEASURED, LEAST_FOR_UNCERTAINTY, OTHER_LIMITS_UNCERTAINTY, UNKNOWN_ORIGIN_LIMIT,
    UNKNOWN_ORIGIN_POINTS,
};
use crate::analysis::seeding::{
    EQUAL_TIME_RANGE, GROWTH_EXPONENT, HABIT as HABIT_DOSE, HABIT_RANGE, LEAST_COCOA_BUTTER, LEAST_LIMIT,
    REFERENCE_CRYSTALS, REFERENCE_FAT, REFERENCE_LIMIT, SEED_SOLID_SHARE, SURROUNDINGS, WINDOW_BEST, WINDOW_BOTTOM,
    WINDOW_TOP,
};
use crate::analysis::texture::usual_crystals;
use crate::number::{DecimalSign, fixed, shortest};
use crate::recipe::{Kind, Use};
use crate::report::words as report_words;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;
use crate::units::Kelvin;

pub(super) const SOURCE: &str = "Own model, fitted to tempered cocoa butters (Shukla 1995, from memory) and to melting \
points (Wille and Lutton 1966).";
pub(super) const EVIDENCE: &str = "Fitted for cocoa butter; blends are predicted, not measured.";
const MODEL: &str = "One ideal liquid, the symmetric triglycerides of cocoa butter as one solid solution, other fats \
crystallising apart; every part at equilibrium at the temperature of the thermometer.";

fn kelvin(kelvin: Kelvin, sign: DecimalSign) -> String {
    format!("{} K", shortest(kelvin.0, 1, sign))
}

fn founded_range(sign: DecimalSign) -> String {
    format!(
        "{} to {} °C, cocoa butter at least {} of the fat. Outside, the figure stands without an uncertainty.",
        shortest(HELD_AGAINST_MEASURED.0.0, 0, sign),
        shortest(HELD_AGAINST_MEASURED.1.0, 0, sign),
        percent(LEAST_FOR_UNCERTAINTY, sign)
    )
}

/// What one fat is of all fat.
#[must_use]
pub fn share_of_fat(name: &str, scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words(format!("{name} in the fat")),
        what: words(
            "Its part of all fat. What is not cocoa butter dilutes its crystals: limit and window fall, and the mass \
             sets softer.",
        ),
        formula: words("Grams of it ÷ grams of all fat in the bowl."),
        range: words("0 to 100 %; cocoa butter, milk fat and other fat make 100 %."),
        source: words(super::FROM_INGREDIENTS),
        evidence: words(inputs(scene)),
        uncertainty: words("About 2 points where couvertures count with class values, judged."),
    }
}

/// Where a form of cocoa butter melts.
#[must_use]
pub fn limit(form: Form, fat: &FatCrystals, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let (name, what) = match form {
        Form::IV => (
            "form IV limit",
            "The temperature at which form IV melts in this mass's own fat. Below it the wrong crystals can grow on cold \
             walls and survive.",
        ),
        Form::V => (
            "form V limit",
            "The temperature at which the last form V crystal melts in this mass's own fat. Seed put in above it melts; \
             below it, it grows.",
        ),
        Form::VI => (
            "form VI limit",
            "The temperature at which form VI melts in this mass's own fat. Old, well-kept seed survives up to it, but \
             grows only below the form V limit.",
        ),
    };
    let uncertainty = match (form, fat.limit_uncertainty) {
        (Form::V, Some(uncertainty)) => format!(
            "±{} K one standard deviation, judged. An unknown origin of the cocoa butter adds {}: choose its type above \
             the lines.",
            fixed(uncertainty.0, 1, sign),
            kelvin(UNKNOWN_ORIGIN_LIMIT, sign)
        ),
        (Form::V, None) => "Not known.".to_owned(),
        (Form::IV | Form::VI, _) => {
            format!(
                "±{} and rough: melting heats are taken over from form V, only the melting points are moved.",
                kelvin(OTHER_LIMITS_UNCERTAINTY, sign)
            )
        }
    };
    let value = match form {
        Form::IV => fat.limits.form_iv,
        Form::V => fat.limits.form_v,
        Form::VI => fat.limits.form_vi,
    };
    Explanation {
        title: words(value.map_or_else(|| name.to_owned(), |value| format!("{name} {}", celsius(value, sign)))),
        what: words(what),
        formula: words(
            "The temperature at which the solid solution of cocoa butter's symmetric triglycerides is just not stable in \
             the molten fat.",
        ),
        range: words(format!(
            "Cocoa butter at least {} of the fat, and in it POP, POS, SOS or SOA; otherwise there is no limit.",
            percent(LEAST_COCOA_BUTTER_FOR_LIMITS, sign)
        )),
        source: words(SOURCE),
        evidence: words(format!("{EVIDENCE} {}", inputs(scene))),
        uncertainty: words(uncertainty),
    }
}

/// Solid fat.
#[must_use]
pub fn solid_fat(fat: &FatCrystals, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("solid fat"),
        what: words(
            "How much of the fat is crystallised at the temperature of the thermometer, once everything has settled. \
             Firmness and snap follow it.",
        ),
        formula: words(MODEL),
        range: words(founded_range(sign)),
        source: words(SOURCE),
        evidence: words(format!("{EVIDENCE} {}", inputs(scene))),
        uncertainty: words(fat.solid_fat_uncertainty_points.map_or_else(
            || "Not known here.".to_owned(),
            |points| {
                format!(
                    "±{} points one standard deviation, judged. An unknown origin of the cocoa butter adds {} points \
                     at 20 °C.",
                    fixed(points, 1, sign),
                    shortest(UNKNOWN_ORIGIN_POINTS, 1, sign)
                )
            },
        )),
    }
}

/// The crystals that are usual, by use: "ganache for cutting 15 % and more, …".
fn usual_by_use(sign: DecimalSign) -> String {
    let fillings = [
        ("ganache", Kind::Ganache, Use::Cut),
        ("ganache", Kind::Ganache, Use::Piped),
        ("ganache", Kind::Ganache, Use::Moulded),
        ("praline", Kind::Praline, Use::Moulded),
    ];
    let told = fillings.into_iter().filter_map(|(name, kind, intended_use)| {
        let usual = usual_crystals(kind, Some(intended_use))?;
        Some(format!("{name} for {} {}", intended_use.words(), report_words::usual_crystals(usual, sign)))
    });
    told.collect::<Vec<_>>().join(", ")
}

/// Crystals per mass.
#[must_use]
pub fn crystals(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("fat crystals in the mass"),
        what: words("What holds the mass together when it is cold."),
        formula: words("Solid fat × share of fat in the mass."),
        range: words(format!("At 20 °C: {}. {}", usual_by_use(sign), founded_range(sign))),
        source: words(SOURCE),
        evidence: words(format!(
            "The levels by use are derived from usual recipes with this model, not published. {}",
            inputs(scene)
        )),
        uncertainty: words(
            "That of the solid fat, times the share of fat: about 2 points where a third of the mass is fat.",
        ),
    }
}

/// The dose as a range.
#[must_use]
pub fn dose(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed for the bowl"),
        what: words(
            "How much tempered cocoa butter: from the dose of trade habit to the dose with which this mass sets as fast as \
             plain chocolate. Within a factor of two the amount matters little; the temperature matters much.",
        ),
        formula: words("The lower and the higher of the two doses below; a held end is said in the findings."),
        range: words(format!(
            "Habit between {} and {}, equal setting time between {} and {} of the mass.",
            percent(HABIT_RANGE.0, sign),
            percent(HABIT_RANGE.1, sign),
            percent(EQUAL_TIME_RANGE.0, sign),
            percent(EQUAL_TIME_RANGE.1, sign)
        )),
        source: words(format!("One end: {HABIT_SOURCE} The other: derived here from a growth law.")),
        evidence: words(inputs(scene)),
        uncertainty: words("A factor of two either way."),
    }
}

/// The seed by habit.
#[must_use]
pub fn seed_by_habit(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed by trade habit"),
        what: words(format!(
            "Tempered cocoa butter, a cream of about {} crystals, for the mass in the bowl. Within a factor of two the \
             amount matters little; the temperature matters much.",
            percent(SEED_SOLID_SHARE, sign)
        )),
        formula: words(format!(
            "{} of a mass with {} fat, in proportion to its fat; half for thick bars (heat has to get out), about a third \
             for thin coats (they stay fluid; it does not follow from their thickness).",
            percent(HABIT_DOSE, sign),
            percent(REFERENCE_FAT, sign)
        )),
        range: words(format!(
            "Held between {} and {}. Cocoa butter at least {} of the fat.",
            percent(HABIT_RANGE.0, sign),
            percent(HABIT_RANGE.1, sign),
            percent(LEAST_COCOA_BUTTER, sign)
        )),
        source: words(HABIT_SOURCE),
        evidence: words(format!("The levels: {HABIT}. {}", inputs(scene))),
        uncertainty: words(
            "A factor of two either way. Crystal size decides more than mass: powder of tempered butter carries more \
             crystals per gram, so the same dose of it leaves more margin.",
        ),
    }
}

/// The seed for equal setting time.
#[must_use]
pub fn seed_equal_time(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed for equal setting time"),
        what: words(
            "The dose with which the crystals fill this mass's fat as fast as in plain chocolate seeded at 1 %. It grows \
             as the form V limit falls, because the drive to crystallise falls with it.",
        ),
        formula: words(format!(
            "Crystals per fat × [({reference} − {cold}) ÷ (form V limit − {cold})]^{power}, from a growth law in {cold} °C.",
            reference = shortest(REFERENCE_LIMIT.0, 2, sign),
            cold = shortest(SURROUNDINGS.0, 1, sign),
            power = shortest(1.0 / GROWTH_EXPONENT, 1, sign)
        )),
        range: words(format!(
            "Held between {} and {}; form V limit at least {}.",
            percent(EQUAL_TIME_RANGE.0, sign),
            percent(EQUAL_TIME_RANGE.1, sign),
            celsius(LEAST_LIMIT, sign)
        )),
        source: words(
            "Derived here from the growth of seeded fat (Padar, Jeelani and Windhab 2008); the exponent is judged.",
        ),
        evidence: words(format!("Physics with a judged exponent, not measured on this mass. {}", inputs(scene))),
        uncertainty: words("A factor of two either way."),
    }
}

/// Crystals that the seed brings.
#[must_use]
pub fn seed_crystals(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("crystals that the seed brings"),
        what: words("How much of the fat is crystallised by the seed alone, by habit, before anything grows."),
        formula: words(format!("Seed × {} ÷ (fat of the mass and seed).", percent(SEED_SOLID_SHARE, sign))),
        range: words(format!("Plain chocolate seeded by habit: {} of the fat.", percent(REFERENCE_CRYSTALS, sign))),
        source: words(HABIT_SOURCE),
        evidence: words(format!("Computed from the dose by habit: {HABIT}. {}", inputs(scene))),
        uncertainty: words("As good as the solid share of your seed; melted seed brings none."),
    }
}

/// The seeding window.
#[must_use]
pub fn window(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seeding window"),
        what: words(
            "Where seed lives and grows in this mass, all fats blended. Above, it melts; far below, the mass thickens and \
             form IV can appear.",
        ),
        formula: words(distances(sign)),
        range: words(window_range(sign)),
        source: words(format!("Melting limits: {SOURCE} The distances: {HABIT_SOURCE}")),
        evidence: words(format!(
            "The distances are calibrated on common practice for dark chocolate, not derived. {}",
            inputs(scene)
        )),
        uncertainty: words("That of the form V limit. Your thermometer's error comes on top."),
    }
}

/// The window while globules are whole.
#[must_use]
pub fn unmixed_window(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("window while globules are whole"),
        what: words(
            "In a fresh emulsion the fat of cream, milk or egg still sits in its globules and has not met the chocolate's \
             fat. As long as that holds, seed lives up to this higher limit. Trade habit for ganache follows it.",
        ),
        formula: words(format!("{} Here the limit is that of all fats but those in globules.", distances(sign))),
        range: words(format!("Emulsions of which some fat sits in globules and some does not. {}", window_range(sign))),
        source: words(format!("Melting limits: {SOURCE} The distances: {HABIT_SOURCE}")),
        evidence: words(format!("An upper bound: how fast globules break is not computed. {}", inputs(scene))),
        uncertainty: words(
            "That of the form V limit, and one-sided: each broken globule lowers it towards the other window.",
        ),
    }
}

fn distances(sign: DecimalSign) -> String {
    format!(
        "From {} to {} below the form V limit; best {} below. {} is a good thermometer's error.",
        kelvin(WINDOW_BOTTOM, sign),
        kelvin(WINDOW_TOP, sign),
        kelvin(WINDOW_BEST, sign),
        kelvin(WINDOW_TOP, sign)
    )
}

fn window_range(sign: DecimalSign) -> String {
    format!("Cocoa butter at least {} of the fat.", percent(LEAST_COCOA_BUTTER, sign))
}

/// What becomes of seed at the temperature of the thermometer.
#[must_use]
pub fn put_in(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed put in at the thermometer's temperature"),
        what: words(
            "Whether the crystals of the seed live in this mass at the temperature that the thermometer at the right shows. \
             Move its handle by half a degree and see how much is between right and too warm.",
        ),
        formula: words(format!(
            "Above the form V limit seed melts, sooner or later; within {} of it a thermometer cannot tell; below the window \
             the mass thickens before the seed is even; below the form IV limit wrong crystals grow as well.",
            kelvin(crate::analysis::survival::THERMOMETER_ERROR, sign)
        )),
        range: words(
            "With all fats mixed; for a fresh emulsion what holds while its globules are whole is told apart.",
        ),
        source: words("Melting limits by the fat model; the window is common practice."),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the form V limit."),
    }
}

/// At which temperature seed is a cream.
#[must_use]
pub fn seed_cream() -> Explanation {
    Explanation {
        title: words("seed as a cream"),
        what: words(
            "Where tempered cocoa butter is one part crystals to four parts liquid: soft enough to stir in, with crystals \
             enough. It has to be tempered before; once it has melted clear, start again with tempered butter. Common \
             practice: 33 to 34 °C, and some six hours until all of it is ready.",
        ),
        formula: words(
            "Where the solid fat of cocoa butter is 20 %: the lower figure in form V, the upper in form VI.",
        ),
        range: words("Long-kept seed moves from the lower towards the upper figure."),
        source: words("The fat model; time and temperature at the bench: common practice, no published source."),
        evidence: words("Two readings of one model; no measurement of such a cream is known to us."),
        uncertainty: words("1 K, more for cocoa butter of unknown origin."),
    }
}
