//! Numbers of the water of a mass.

use super::{inputs, two, with_sign, words};
use crate::analysis::cooking::WATER_UNCERTAINTY;
use crate::analysis::water::activity::Equation;
use crate::analysis::water::keeping::LOW_ACID_LIMIT;
use crate::analysis::water::solubility::OTHERS_MEASURED;
use crate::analysis::water::state::{BAND, OUTSIDE, ROOM, STRONG, WIDE_BAND};
use crate::number::{DecimalSign, fixed, shortest};
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const MODEL_SOURCE: &str = "Norrish 1966, mixtures by Chirife, Favetto and Ferro Fontan (from memory); isotherms by the \
                            equation of Guggenheim, Anderson and de Boer; solubility of sucrose: Charles 1960, ICUMSA \
                            (from memory).";

/// Water activity.
#[must_use]
pub fn activity(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("water activity, {} °C", shortest(ROOM.0, 0, sign))),
        what: words(
            "How freely the water of the mass can be used, by microbes above all: its vapour pressure over that of pure \
             water. It is the relative humidity at which the mass neither dries nor gets damp.",
        ),
        formula: words(format!(
            "{}. The syrup has the water that the solids leave it; sucrose dissolves up to its solubility beside the \
             other sugars. All parts of the mass have the same water activity.",
            Equation::Norrish.formula()
        )),
        range: words(format!(
            "Water activity from {}, 4 to 35 °C, up to {} g of other sugars for each gram of water. Above {} US rules \
             for sealed packs begin.",
            two(OUTSIDE.0, sign),
            shortest(OTHERS_MEASURED, 1, sign),
            two(LOW_ACID_LIMIT.0, sign)
        )),
        source: words(MODEL_SOURCE),
        evidence: words(format!(
            "Held against the data of single sugars, within {} above {}, and against five measured products. {}",
            fixed(0.005, 3, sign),
            two(0.80, sign),
            inputs(scene)
        )),
        uncertainty: words(format!(
            "±{}, twice the root-mean-square difference from five products; ±{} with alcohol, below {}, or with an \
             assumed figure; wider in a mass that is cooked to a temperature, because its water is known to ±{} % of the mass \
             only. Judged. A measurement (ISO 18787) settles it.",
            two(BAND, sign),
            two(WIDE_BAND, sign),
            two(STRONG.0, sign),
            shortest(WATER_UNCERTAINTY.to_percent(), 1, sign)
        )),
    }
}

/// How near sucrose is to its solubility.
#[must_use]
pub fn sucrose_saturation(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("sucrose, times its solubility"),
        what: words(
            "All sucrose over what the syrup can dissolve: 1 is saturated. Above, sugar of chocolate stays crystalline \
             and a syrup that was cooked clear can grain.",
        ),
        formula: with_sign(
            "Sucrose ÷ (water of the syrup × solubility in water, lowered by 0.088 for each gram of other sugars per gram \
             of water), with all sucrose dissolved.",
            sign,
        ),
        range: with_sign(
            "Up to 1.0 it cannot grain; to 1.2 crystals that are there grow; to 1.3 stirring makes new ones; above it \
             grains by itself unless it is too thick.",
            sign,
        ),
        source: words("Charles 1960 and ICUMSA for the solubility; the levels from sugar technology, from memory."),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("Dissolved solids within 2 % absolute: about ±0.1.", sign),
    }
}

/// How near lactose is to its solubility.
#[must_use]
pub fn lactose_saturation(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("lactose, times its solubility"),
        what: words("All lactose over what the syrup can dissolve in the end; above, it may turn sandy after weeks."),
        formula: with_sign(
            "Lactose ÷ (water of the syrup × solubility in water × 0.75, for the sucrose beside it).",
            sign,
        ),
        range: with_sign("From 1.6 on it grows on crystals that are there, above 2.1 it crystallises by itself.", sign),
        source: words(
            "Fit of Butler 1998 within 4 % of Hudson's measurements; 0.75 between 0.5 and 0.8 of Walstra and Jenness; \
             the levels from dairy technology, all from memory.",
        ),
        evidence: words("The factor for sucrose is a judgement between published ends."),
        uncertainty: words("About a quarter of the figure, judged."),
    }
}
