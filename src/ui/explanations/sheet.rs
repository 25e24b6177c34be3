//! Numbers of the sheet and the thermometer: what is typed, its sums and losses, the phase bar.

use super::{ARITHMETIC, FROM_INGREDIENTS, inputs, with_sign, words};
use crate::analysis::fat_crystals::{
    BLEND_LIMIT_UNCERTAINTY, HELD_AGAINST_MEASURED, OTHER_LIMITS_UNCERTAINTY, PURE_LIMIT_UNCERTAINTY,
};
use crate::number::{DecimalSign, shortest};
use crate::recipe::{Line, MassUnit};
use crate::ui::view::Scene;
use crate::ui::widgets::{Explanation, thermometer};

const TYPED: &str = "The recipe: typed by hand or read from its file.";
const YOUR_SCALE: &str = "What you weigh: half a step of your scale, and what sticks to the bowl.";

/// The amount of a line.
#[must_use]
pub fn amount(line: &Line, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("{}, amount", line.ingredient.name)),
        what: with_sign(
            if line.is_locked {
                "What is weighed in. Locked: nothing that is suggested changes it; Ctrl+L sets it free."
            } else {
                "What is weighed in. Sums such as 3×125, and units such as 1.2 kg, are understood."
            },
            sign,
        ),
        formula: words(match line.amount.unit() {
            MassUnit::Gram => "As typed, in grams.".to_owned(),
            unit => format!("As typed; 1 {} is {} g.", unit.symbol(), shortest(unit.grams().0, 9, sign)),
        }),
        range: words("Zero and more."),
        source: words(TYPED),
        evidence: words("Entered, not computed. Ounce and pound are the international avoirdupois ones."),
        uncertainty: words(YOUR_SCALE),
    }
}

/// The share of a line.
#[must_use]
pub fn line_share() -> Explanation {
    Explanation {
        title: words("share of the line"),
        what: words("Its part of all that is weighed in, by mass, before losses."),
        formula: words("Amount of the line ÷ sum of all amounts × 100."),
        range: words("0 to 100 %; the lines together make 100 %, apart from rounding to one decimal."),
        source: words(TYPED),
        evidence: words("Computed from what is entered."),
        uncertainty: words(ARITHMETIC),
    }
}

/// The sum of all lines.
#[must_use]
pub fn together() -> Explanation {
    Explanation {
        title: words("batch"),
        what: words("What all lines weigh together, before losses. Another mass typed in the head scales the recipe."),
        formula: words("Sum of all amounts, in grams."),
        range: words("Any mass. Locked amounts are scaled with the rest: scaling keeps the composition."),
        source: words(TYPED),
        evidence: words("Computed from what is entered."),
        uncertainty: words(ARITHMETIC),
    }
}

/// Water that evaporates.
#[must_use]
pub fn evaporation() -> Explanation {
    Explanation {
        title: words("evaporation"),
        what: words("Water that boils off. It changes the composition: all else gets a greater share."),
        formula: words("Taken off the water of all lines, never more than there is."),
        range: words("Zero up to the water of the mass; what is asked beyond that is said as a finding."),
        source: words(TYPED),
        evidence: words("Entered, not computed: weigh the pot before and after."),
        uncertainty: words("That of your weighing."),
    }
}

/// What stays in bowls and bags.
#[must_use]
pub fn transfer_loss() -> Explanation {
    Explanation {
        title: words("transfer loss"),
        what: words("What stays in bowls and bags. The composition stays as it is, only the finished mass falls."),
        formula: words("Finished mass = mass in the bowl × (1 − loss)."),
        range: words("At least 0 % and below 100 %."),
        source: words(TYPED),
        evidence: words("Entered, not computed: weigh once what you get out."),
        uncertainty: words("That of your weighing; small batches lose a greater share."),
    }
}

/// What is there in the end.
#[must_use]
pub fn finished() -> Explanation {
    Explanation {
        title: words("finished mass"),
        what: words("What can be filled, piped or cut."),
        formula: words("(Sum of all amounts − evaporated water) × (1 − transfer loss)."),
        range: words("Any mass; zero if nothing is left."),
        source: words(TYPED),
        evidence: words("Computed from what is entered."),
        uncertainty: words("That of the two losses."),
    }
}

/// The phase bar and its parts.
#[must_use]
pub fn phase_bar(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("the mass at this temperature"),
        what: words(
            "The whole mass as one bar: crystals of fat, liquid fat, syrup, undissolved sugar, cocoa, other \
                     particles, each in percent of the mass.",
        ),
        formula: words(
            "Solid fat by the fat model; by the water model sucrose dissolves up to its solubility beside the other sugars \
             at this temperature, the other sugars and polyols wholly, and cocoa and other particles hold some of the \
             water. In a fat-continuous or dry mass all sugar stays as it is.",
        ),
        range: words("Everything settled: tempered, and given time to set and to dissolve. 0 to 100 °C for sucrose."),
        source: words(
            "Own fat model; solubility of sucrose: Charles 1960, basis of ICUMSA SPS-2 (1998), coefficients from memory.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: words("Crystals as uncertain as the solid fat; the syrup to about a point, judged."),
    }
}

/// The thermometer's handle.
#[must_use]
pub fn thermometer(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("thermometer"),
        what: words(
            "Sets the temperature at which everything is shown: drag the handle, or use the arrow keys; a double click \
             brings it back to 20 °C. Filled: the seeding window, all fats mixed. Hollow: while globules are whole. \
             Dashed: the pinned state.",
        ),
        formula: words(
            "IV, V and VI are the temperatures at which these forms of cocoa butter melt in this mass's own \
                        fat.",
        ),
        range: words(format!(
            "{} to {} °C; solid fat is founded on {} to {} °C.",
            shortest(thermometer::LOWEST_C, 0, sign),
            shortest(thermometer::HIGHEST_C, 0, sign),
            shortest(HELD_AGAINST_MEASURED.0.0, 0, sign),
            shortest(HELD_AGAINST_MEASURED.1.0, 0, sign)
        )),
        source: words(super::fat::SOURCE),
        evidence: words(super::fat::EVIDENCE),
        uncertainty: words(format!(
            "V ±{} K for cocoa butter, ±{} K for blends; IV and VI ±{} K and rough.",
            shortest(PURE_LIMIT_UNCERTAINTY.0, 1, sign),
            shortest(BLEND_LIMIT_UNCERTAINTY.0, 1, sign),
            shortest(OTHER_LIMITS_UNCERTAINTY.0, 1, sign)
        )),
    }
}

/// What an ingredient weighs in one state against the other, where nothing else says so.
#[must_use]
pub fn line_total() -> Explanation {
    Explanation {
        title: words("mass of the line"),
        what: words("What this line puts into the bowl; the bar shows what it consists of, all bars on one scale."),
        formula: words("The amount of the line, in grams."),
        range: words("Zero and more."),
        source: words(FROM_INGREDIENTS),
        evidence: words("Entered, not computed."),
        uncertainty: words(YOUR_SCALE),
    }
}

/// How many lines count with values of their class.
#[must_use]
pub fn class_values(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("class values"),
        what: words(
            "Lines of which the figures are typical of a class of ingredients, not those of your supplier. They are \
             placeholders: Ctrl+I replaces the figures of the chosen line.",
        ),
        formula: words("Lines with an amount whose ingredient is marked as typical, counted."),
        range: words("Zero and more; zero when every line has figures of a dataset, a derivation or a data sheet."),
        source: words(FROM_INGREDIENTS),
        evidence: words(inputs(scene)),
        uncertainty: words(super::COMPOSITION_ERROR),
    }
}
