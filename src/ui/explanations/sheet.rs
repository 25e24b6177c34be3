//! Numbers of the sheet and the thermometer: what is typed, its sums and losses, the phase bar.

use super::{ARITHMETIC, FROM_INGREDIENTS, celsius, inputs, percent, with_sign, words};
use crate::analysis::cooking::{WATER_UNCERTAINTY, share_of};
use crate::analysis::fat_crystals::{
    BLEND_LIMIT_UNCERTAINTY, HELD_AGAINST_MEASURED, OTHER_LIMITS_UNCERTAINTY, PURE_LIMIT_UNCERTAINTY,
};
use crate::analysis::handling::usual_handling;
use crate::analysis::water::boiling::{HOTTEST, VAPORISATION, air_pressure, boiled_off_by_a_kilowatt, boiling_point};
use crate::number::{DecimalSign, grams, shortest};
use crate::recipe::{Heating, Height, Line, MassUnit};
use crate::report::words::habit;
use crate::ui::view::Scene;
use crate::ui::widgets::{Explanation, thermometer};
use crate::units::{Metres, WaterActivity};

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
pub fn evaporation(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("evaporation"),
        what: words("Water that boils off. It changes the composition: all else gets a greater share."),
        formula: words(format!(
            "Taken off the water of all lines, never more than there is. Boiling a gram off takes {} J: each kilowatt that \
             gets into the pan drives off {} g in a minute.",
            shortest(VAPORISATION.0, 0, sign),
            shortest(boiled_off_by_a_kilowatt().0, 1, sign)
        )),
        range: words("Zero up to the water of the mass; what is asked beyond that is said as a finding."),
        source: words(TYPED),
        evidence: words(
            "Weighed: entered, not computed; weigh the pot before and after. Where it is not weighed, it is estimated or \
             follows from the temperature of the cook.",
        ),
        uncertainty: words(
            "That of your weighing; of an estimate about half of it, of a cook a percent or two of the mass.",
        ),
    }
}

/// What is taken to evaporate of liquid that is heated.
#[must_use]
pub fn estimated_evaporation(heating: Heating, sign: DecimalSign) -> Explanation {
    let measured = match heating {
        Heating::Boiled => "Cream that is brought to the boil and held for a minute loses 2 to 5 % of its mass.",
        Heating::Warmed => "Cream that is warmed to 80 °C within five minutes loses 1 to 3 % of its mass.",
    };
    Explanation {
        title: words(format!("evaporation, {}", heating.words())),
        what: words("Water that is taken to evaporate where nobody has weighed it. It changes the composition."),
        formula: words(format!(
            "{} of the liquid. As liquid counts every ingredient that is at least half water and holds no alcohol: cream, \
             milk, purée, juice, water; not syrup, butter, chocolate or spirits.",
            percent(share_of(heating), sign)
        )),
        range: words("A pan or a jug, once. Below 50 °C next to nothing evaporates: choose weighed and 0."),
        source: words("Heat balances of a pan in air, from memory."),
        evidence: words(measured),
        uncertainty: words(
            "About half of it either way; a lid or a skin of the cream makes it much less. Weigh the pan before and after.",
        ),
    }
}

/// The temperature to which a mass is cooked.
#[must_use]
pub fn cook_temperature(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let possible = scene.analysis.make_up.evaporating.cooking().and_then(|cooking| cooking.possible);
    let range = match possible {
        Some((from, to)) => format!(
            "{} to {} for this mass at this height: from where it boils as weighed to where sugar breaks down or the syrup \
             is drier than the model knows.",
            celsius(from, sign),
            celsius(to, sign)
        ),
        None => format!("Up to {}; for this mass as it is weighed, none is possible.", celsius(HOTTEST, sign)),
    };
    Explanation {
        title: words("cooked to"),
        what: words(
            "What the thermometer in the pan shows when you stop. The drier a syrup, the hotter it boils, so the temperature \
             says how much water stays: whatever you weigh in, it is cooked to the same.",
        ),
        formula: words(
            "Water that stays: that with which (water activity of the syrup) × (vapour pressure of water at this temperature) \
             is the pressure of the air. All sugar counts as dissolved; fat, cocoa, protein and alcohol take no part.",
        ),
        range: words(range),
        source: words(
            "Norrish 1966, for strong syrups in the shape of Starzak and Mathlouthi 2006; Wagner and Pruss 2002 for the vapour \
             pressure; stages of cooked sugar from handbooks. All from memory.",
        ),
        evidence: words(
            "Held against two boiling tables of sucrose, which differ by 1 to 5 °C above 80 %; not against caramel.",
        ),
        uncertainty: words(format!(
            "The water that stays is known to ±{} % of the mass (judged): a pan is not equally hot everywhere, and a \
             thermometer is off by a degree. Check it in boiling water.",
            shortest(WATER_UNCERTAINTY.to_percent(), 1, sign)
        )),
    }
}

/// How high the kitchen lies.
#[must_use]
pub fn cook_height(sign: DecimalSign) -> Explanation {
    let boils = |metres: f64| celsius(boiling_point(WaterActivity(1.0), air_pressure(Metres(metres))), sign);
    let (least, most) = Height::RANGE;
    Explanation {
        title: words("height above the sea"),
        what: words(
            "How high your kitchen lies. The air is thinner on a mountain, everything boils cooler there, and a caramel is \
             stopped at a lower temperature for the same bite.",
        ),
        formula: with_sign(
            "Pressure of the air = 101.325 kPa × (1 − 0.0000225577 × metres) to the power of 5.25588.",
            sign,
        ),
        range: words(format!(
            "{} to {} m. Water boils at {} at the sea, at {} at 1000 m, at {} at 2000 m.",
            shortest(least.0, 0, sign),
            shortest(most.0, 0, sign),
            boils(0.0),
            boils(1000.0),
            boils(2000.0)
        )),
        source: words("International standard atmosphere, from memory."),
        evidence: words("Entered, not computed: any map tells it."),
        uncertainty: with_sign("Weather moves the pressure by some 3 %, and boiling by 0.8 °C.", sign),
    }
}

/// What boils off in a cook.
#[must_use]
pub fn boiled_off(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let make_up = &scene.analysis.make_up;
    let range = match make_up.evaporating.cooked() {
        Some(cooked) => format!(
            "Here {} g of {} g stay, {} of the mass.",
            grams(cooked.water_left.0, sign),
            grams((cooked.water_left + make_up.evaporated).0, sign),
            percent(cooked.water_left / make_up.bowl.total(), sign)
        ),
        None => "Nothing, where the mass cannot be cooked so; a finding says why.".to_owned(),
    };
    Explanation {
        title: words("water that boils off"),
        what: words("What the pan gets lighter by until it boils at the temperature of the cook."),
        formula: words("Water of all lines − water that stays at that temperature."),
        range: words(range),
        source: words("The water that stays: Norrish, Starzak and Mathlouthi, Wagner and Pruss, from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words(format!(
            "±{} % of the mass, judged. Weigh the pan before and after: then you know it.",
            shortest(WATER_UNCERTAINTY.to_percent(), 1, sign)
        )),
    }
}

/// The alcohol that leaves with the water that boils off.
#[must_use]
pub fn alcohol_lost() -> Explanation {
    Explanation {
        title: words("alcohol that boils off"),
        what: words(
            "The part of the alcohol that is gone when so much of the mass has boiled off: its vapour is much richer in \
             alcohol than the pan. The make-up counts all of it, as if it were added afterwards.",
        ),
        formula: words(
            "1 − (share of the mass that is left) to the power of 9, the alcohol in the vapour over that in the liquid, by mass.",
        ),
        range: words("Little alcohol in boiling water: up to some 5 %. The power lies between 7 and 13."),
        source: words("Distillation without reflux (Rayleigh); vapour over dilute alcohol, from memory."),
        evidence: words(
            "Not held against a pan: sugar and fat change it, and a mass that is only warm loses more slowly.",
        ),
        uncertainty: words("The two ends that the finding names."),
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
pub fn thermometer(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let handling = usual_handling(&scene.document.recipe, scene.analysis).map_or_else(String::new, |handling| {
        format!(
            " Grey bar: {} {} to {} °C, a habit.",
            habit(handling.habit),
            shortest(handling.range.0.0, 0, sign),
            shortest(handling.range.1.0, 0, sign)
        )
    });
    Explanation {
        title: words("thermometer"),
        what: words(format!(
            "Sets the temperature at which everything is shown: drag the handle, or use the arrow keys; a double click \
             brings it back to 20 °C. Filled: the seeding window, all fats mixed. Hollow: while globules are whole. \
             Dashed: the pinned state.{handling}"
        )),
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
