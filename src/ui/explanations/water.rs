//! Numbers of the water of a mass.

use super::{inputs, two, with_sign, words};
use crate::analysis::cooking::WATER_UNCERTAINTY;
use crate::analysis::water::activity::{Equation, GROVER_UP_TO};
use crate::analysis::water::keeping::{GROWTH_LIMITS, Handling, LOW_ACID_LIMIT, MOST_MOULDS, mould_free_days_of_cake};
use crate::analysis::water::solubility::{LACTOSE_IN_SYRUP, OTHERS_LOWER_SUCROSE, OTHERS_MEASURED};
use crate::analysis::water::sorption::Sorbent;
use crate::analysis::water::state::{
    BAND, GRAINS_BY_ITSELF, GRAINS_WHEN_SEEDED, GRAINS_WHEN_STIRRED, Holder, LACTOSE_BY_ITSELF, LACTOSE_GROWS, OUTSIDE,
    ROOM, STRONG, WIDE_BAND,
};
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
        formula: words(format!(
            "Sucrose ÷ (water of the syrup × solubility in water, lowered by {} of it for each gram of other sugars per gram \
             of water), with all sucrose dissolved.",
            fixed(OTHERS_LOWER_SUCROSE, 3, sign)
        )),
        range: words(format!(
            "Up to {} it cannot grain; to {} crystals that are there grow; to {} stirring makes new ones; above it \
             grains by itself unless it is too thick.",
            fixed(GRAINS_WHEN_SEEDED, 1, sign),
            fixed(GRAINS_WHEN_STIRRED, 1, sign),
            fixed(GRAINS_BY_ITSELF, 1, sign)
        )),
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
        formula: words(format!(
            "Lactose ÷ (water of the syrup × solubility in water × {}, for the sucrose beside it).",
            two(LACTOSE_IN_SYRUP, sign)
        )),
        range: words(format!(
            "From {} on it grows on crystals that are there, above {} it crystallises by itself.",
            fixed(LACTOSE_GROWS, 1, sign),
            fixed(LACTOSE_BY_ITSELF, 1, sign)
        )),
        source: words(
            "Fit of Butler 1998 within 4 % of Hudson's measurements; 0.75 between 0.5 and 0.8 of Walstra and Jenness; \
             the levels from dairy technology, all from memory.",
        ),
        evidence: words("The factor for sucrose is a judgement between published ends."),
        uncertainty: words("About a quarter of the figure, judged."),
    }
}

/// Water that something holds.
#[must_use]
pub fn held_by(holder: Holder, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    match holder {
        Holder::Syrup => syrup_water(scene),
        Holder::Solids(sort) => held(sort, scene, sign),
    }
}

fn held(sort: Sorbent, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("water on {}", sort.words())),
        what: words("Water that the solid holds at the water activity of the mass: it dissolves no sugar."),
        formula: words("Dry solid, without fat and sugar, × its moisture by the isotherm (GAB) at the water activity."),
        range: with_sign("Water activity from 0.1 to 0.95, 4 to 35 °C.", sign),
        source: words(
            "Cocoa: Sandoval and Barreiro 2002, Sandoval et al. 2020; nuts: Taitano and Singh 2012; inulin: Gels 2025; \
             the others from memory.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: words(format!("About {} % of it.", fixed(100.0 * sort.isotherm().good_to, 0, sign))),
    }
}

/// Water of the syrup.
#[must_use]
pub fn syrup_water(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("water in the syrup"),
        what: words("The water that dissolves sugar: what the solids do not hold."),
        formula: words("All water less what each sort of solid holds at the same water activity."),
        range: words("As the water activity."),
        source: words(MODEL_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the water on the solids."),
    }
}

/// What more of a line does to the water activity.
#[must_use]
pub fn effect(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("what a line does to the water activity"),
        what: words(
            "The change of the water activity when so much more of the line is weighed in. What evaporates follows: a mass that is \
             cooked to a temperature is cooked to it again.",
        ),
        formula: words("Water activity of the changed recipe less that of this one."),
        range: words("Small changes; a large one does less for each gram."),
        source: words(MODEL_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("Differences are better known than the figure itself: to about a fifth, judged."),
    }
}

/// Water activity against water content.
#[must_use]
pub fn drying(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("water activity against water content"),
        what: words(
            "How the water activity of this mass changes as it dries or gets damp, with everything else as it is: what \
             an open tray does in a dry room, and what condensation does. Where the line has a level part, sugar \
             dissolves or crystallises and holds the water activity.",
        ),
        formula: words("The same model with less and with more water, each time at rest."),
        range: with_sign("Where the line is drawn; below 0.6 it is a direction, no more.", sign),
        source: words(format!(
            "{MODEL_SOURCE} Limits of growth: US FDA, Bad Bug Book; Banwart 1989 for S. aureus; Beuchat 1981 for moulds."
        )),
        evidence: words(inputs(scene)),
        uncertainty: words("The shaded band: that of the water activity."),
    }
}

/// The isotherm of the mass.
#[must_use]
pub fn isotherm(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("sorption isotherm of the whole mass"),
        what: words(
            "How much water the mass has at rest in air of a humidity (water activity × 100 is the percentage): left of \
             its mark it dries out, right of it it gets damp. The dashed part is held by solids, the rest is syrup. \
             Fat is counted with the dry mass and holds nothing.",
        ),
        formula: words("The same model as the water activity, asked for many amounts of water."),
        range: words("Where the line is drawn: isotherms of solids are not trusted further down."),
        source: words(MODEL_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the water activity, from left to right."),
    }
}

/// Sucrose that is dissolved.
#[must_use]
pub fn dissolved_sucrose(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("sucrose, dissolved and undissolved"),
        what: words(
            "What of the sucrose the syrup takes up at rest; the rest is crystals, and does nothing to its water.",
        ),
        formula: words(format!(
            "Water of the syrup × solubility in water, lowered by {} of it for each gram of other sugars per gram of water; \
             at most all there is.",
            fixed(OTHERS_LOWER_SUCROSE, 3, sign)
        )),
        range: words(format!("Up to {} g of other sugars for each gram of water.", shortest(OTHERS_MEASURED, 1, sign))),
        source: words("Charles 1960 and ICUMSA, from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words("Dissolved solids within 2 % absolute."),
    }
}

/// Dissolved solids of the syrup.
#[must_use]
pub fn dissolved_solids(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("dissolved solids of the syrup"),
        what: words("How strong the syrup between fat and particles is; a refractometer shows it when it is alone."),
        formula: words("Dissolved sugars, polyols, salts and acids ÷ (these + water of the syrup), by mass."),
        range: words("For keeping, confectioners want 75 % or more in any syrup: common practice, from memory."),
        source: words(MODEL_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("About 2 points.", sign),
    }
}

/// Who limits what, and how the verdicts are to be read.
const VERDICT: &str =
    "Judged at the upper edge of the band. A computed figure never replaces a measurement (ISO 18787).";

/// A limit of growth.
#[must_use]
pub fn growth(place: usize, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let (label, remark, at) = GROWTH_LIMITS
        .get(place)
        .map_or(("growth", "", LOW_ACID_LIMIT), |limit| (limit.in_full, limit.remark, limit.activity));
    let cakes = mould_free_days_of_cake(at).map(|days| {
        format!(
            " On cakes at {} and 21 °C mould was seen after some {} weeks: an order of magnitude, measured on cakes, and \
             no date for a filling.",
            two(at.0, sign),
            fixed((days / 7.0).max(1.0), 0, sign)
        )
    });
    let is_mould = place == MOST_MOULDS;
    Explanation {
        title: words(format!("{} {}", two(at.0, sign), with_sign(label, sign))),
        what: with_sign(
            &format!(
                "The least water activity at which it was seen to grow, in the laboratory with all else at its best; \
                 {remark}. Below it does not grow, but it survives.{}",
                cakes.filter(|_| is_mould).unwrap_or_default()
            ),
            sign,
        ),
        formula: words("The upper edge of the band of the water activity against the limit."),
        range: words("Water activity alone: acid, cold, alcohol and preservatives help, and are not counted here."),
        source: words(
            "US FDA, Bad Bug Book; Banwart 1989 for S. aureus; Beuchat 1981 for moulds and yeasts; moulds on cakes: \
             Seiler, in Cauvain and Young 2000.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: words(VERDICT),
    }
}

/// The US rules on sealed packs.
#[must_use]
pub fn low_acid(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("US rules for sealed packs"),
        what: words(
            "Food with more water activity and less acid than pH 4.6, sealed and kept unchilled, falls under the rules \
             for canned food; several rules for home kitchens use this limit alone.",
        ),
        formula: words("The upper edge of the band of the water activity against the limit."),
        range: words("The United States; elsewhere other law holds."),
        source: words("21 CFR 113.3, 114.3."),
        evidence: words(inputs(scene)),
        uncertainty: words(VERDICT),
    }
}

/// A table of the Food Code.
#[must_use]
pub fn food_code(handling: Handling, scene: &Scene<'_>) -> Explanation {
    let (title, what) = match handling {
        Handling::Open => (
            "US Food Code, table B",
            "For food that is not heated, or is handled open after heating, as a ganache is: the boiled cream meets \
             chocolate that was not heated.",
        ),
        Handling::HeatedAndPackaged => (
            "US Food Code, table A",
            "For food that is heated in its pack, or packed hot so that nothing gets in: only spores count.",
        ),
    };
    Explanation {
        title: words(title),
        what: words(format!(
            "{what} Where the table asks for an assessment, the food counts as one that needs control of time and \
             temperature until that is done: it is kept chilled."
        )),
        formula: words(
            "Water activity, upper edge of its band, against pH; without a pH the least acid column counts.",
        ),
        range: words("Growth of pathogens only: moulds, flavour and fat are not its subject."),
        source: words("US FDA Food Code 1-201.10(B)."),
        evidence: words(inputs(scene)),
        uncertainty: words(VERDICT),
    }
}

/// The measured pH.
#[must_use]
pub fn ph() -> Explanation {
    Explanation {
        title: words("measured pH"),
        what: words(
            "How acid the finished mass is. Acid and little water hinder microbes together: the tables of both codes are \
             read with it. It is not computed: cocoa, fruit and dairy buffer each other.",
        ),
        formula: words(
            "Measured with a meter in the mass stirred into a little pure water, as the meter's maker says.",
        ),
        range: words("0 to 14; empty where it is not known."),
        source: words("Your own measurement."),
        evidence: words("Measured."),
        uncertainty: words("That of the meter; near a limit, take the higher reading."),
    }
}

/// The category of Listeria.
#[must_use]
pub fn listeria(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("Listeria, category of the regulation"),
        what: words(
            "Ready-to-eat food that cannot let Listeria monocytogenes grow has other criteria than food that can; which \
             one it is decides what is sampled, and how often.",
        ),
        formula: with_sign(
            "Held unable: pH 4.4 or less, or water activity 0.92 or less, or pH 5.0 or less with 0.94 or less; or shown \
             by tests.",
            sign,
        ),
        range: words("The European Union; products that keep less than five days count with them."),
        source: words("Regulation (EC) No 2073/2005, Annex I, chapter 1, from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words(VERDICT),
    }
}

/// The stages of cooked sugar.
#[must_use]
pub fn stages(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("stages of cooked sugar"),
        what: words(
            "What a drop of boiling syrup does in cold water, as the trade names it, with the temperature in the pan and the \
             sucrose that a syrup of sugar and water alone then has. Between stages it is between them.",
        ),
        formula: words(
            "Temperatures as handbooks give them. A syrup boils where its water activity times the vapour pressure of water \
             is the pressure of the air; higher up that is at a lower temperature with the same water left.",
        ),
        range: with_sign("Up to 150 °C, and to a water activity of 0.20: beyond, sugar breaks down.", sign),
        source: words("McGee 2004 and other handbooks; Wagner and Pruss for the vapour pressure, from memory."),
        evidence: words("Held against two tables of boiling sucrose and a table of stages."),
        uncertainty: words("Handbooks differ by a degree or two; 1 to 2 points of sucrose."),
    }
}

/// One of the equations for class.
#[must_use]
pub fn equation(equation: Equation, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let (range, source) = match equation {
        Equation::Norrish => ("Up to a mole fraction of solutes of 0.2 well, to 0.35 as a direction.", MODEL_SOURCE),
        Equation::Raoult => ("Dilute solutions.", "The law of ideal solutions."),
        Equation::MoneyBorn => ("Sugar syrups and jams.", "Money and Born 1951, from memory."),
        Equation::Grover => ("", "Grover 1947, from memory."),
        Equation::Ross => ("Few solutes, not too strong.", "Ross 1975, from memory."),
    };
    let range = if equation == Equation::Grover {
        format!(
            "Water activity up to {}; it has no factors for most polyols and for alcohol.",
            two(GROVER_UP_TO.0, sign)
        )
    } else {
        with_sign(range, sign).into_owned()
    };
    Explanation {
        title: words(format!("water activity by {}", equation.words())),
        what: words(
            "What another equation says of the same syrup, for comparison in class: each with the water that the solids \
             leave it.",
        ),
        formula: with_sign(&format!("{}.", equation.formula()), sign),
        range: words(range),
        source: words(source),
        evidence: words(inputs(scene)),
        uncertainty: words("The spread between the equations shows it; the first is held against measured solutions."),
    }
}
