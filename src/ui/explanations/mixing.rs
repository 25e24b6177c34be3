//! Numbers of the mix: what is typed, where it ends, what makes it, how warm a line has to start.

use super::{celsius, inputs, two, with_sign, words};
use crate::analysis::cooling::bowl::{STILL_AIR, STIRRED_AND_EVAPORATING, STIRRED_M2};
use crate::analysis::handling::GANACHE;
use crate::analysis::mixing::{AT_REST_BELOW, MELTED_AT, REACHED_WITHIN, TEMPERED, UNSAID};
use crate::number::{DecimalSign, shortest};
use crate::recipe::{Line, MixTemperature, StirringTime};
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const TYPED: &str = "The recipe: typed by hand or read from its file.";
const YOUR_THERMOMETER: &str = "Your thermometer, about half a degree; cream in a pan is colder at its edge.";
const SOURCE: &str = "Balance of heat. Specific heats by Choi and Okos (1986), of sugar and sugar solutions by Bubník and \
others (1995) and Mohos (2010); cocoa butter takes 157 J/g to melt (Beckett 2009), other fats 95 J/g (from memory).";
const RANGE: &str = "0 to 110 °C. Water does not freeze or boil away in it; all fats count as mixed, also those still in \
globules.";

/// The temperature of a line.
#[must_use]
pub fn start(line: &Line, sign: DecimalSign) -> Explanation {
    let (least, most) = MixTemperature::RANGE;
    Explanation {
        title: words(format!("{}, temperature", line.ingredient.name)),
        what: words(format!(
            "How warm it is when it is mixed with the others. As soon as one line has a temperature, the others count as {} \
             where nothing is typed. The word under it is the state of its fat: click it to change it.",
            celsius(UNSAID, sign)
        )),
        formula: words(format!(
            "As typed. By its temperature, fat is at rest below {}, with the crystals that can live there, and melted from \
             there on. Tempered liquid chocolate has {} % of its cocoa butter in crystals.",
            celsius(AT_REST_BELOW, sign),
            shortest(TEMPERED.to_percent(), 1, sign)
        )),
        range: words(format!("{} to {}.", celsius(least, sign), celsius(most, sign))),
        source: words(TYPED),
        evidence: words("Entered, not computed. What counts as solid is common practice, no published source."),
        uncertainty: words(YOUR_THERMOMETER),
    }
}

/// Where the mix ends.
#[must_use]
pub fn end(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("where the mix ends"),
        what: words(
            "What the thermometer shows when all lines are stirred together, fat has melted and sugar has dissolved. Above the \
             form V limit every crystal that could seed is gone; below 30 °C an emulsion thickens.",
        ),
        formula: words(
            "The heat of all lines with their crystals, and of the bowl, is the heat of the mass at the end. What melts \
             melts at once; nothing crystallises while one stirs; sugar dissolves within minutes, up to 2 g in 1 g of \
             water. Then what stirring in the open takes.",
        ),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: with_sign(
            "4 % of the way from the hottest line, 7 % of melting, 20 % of dissolving, half of stirring, squares added; judged. \
             A bowl of which nothing is typed takes 1 to 4 K more. Measure it once, and type the bowl that explains it.",
            sign,
        ),
    }
}

/// The end by temperatures alone.
#[must_use]
pub fn sensible(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("by temperatures alone"),
        what: words(
            "Where the mix would end if nothing melted and nothing dissolved: what a plain weighted mean gives. The rows \
             below say what comes off it.",
        ),
        formula: words(
            "Σ mass · specific heat · temperature ÷ Σ mass · specific heat, with specific heats that grow with temperature.",
        ),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("Specific heats 3 to 5 %: about 1 K where the lines are 50 K apart."),
    }
}

/// What melting fat takes.
#[must_use]
pub fn melting(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("melting fat"),
        what: words(
            "By how much crystals that melt cool the mix: solid chocolate cools more than its temperature says. Without \
             crystals it is nothing.",
        ),
        formula: words(
            "Crystals that come in − crystals that are left, each times its heat of melting, ÷ heat capacity. Left are as \
             many as can live at the end in the mixed fats, and never more than came in.",
        ),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("7 %, and what storage did to the chocolate."),
    }
}

/// What dissolving sugar takes.
#[must_use]
pub fn dissolving(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("dissolving sugar"),
        what: words(
            "By how much sugar that goes into solution cools the mix, within minutes: the thermometer falls while you stir.",
        ),
        formula: words(
            "Crystalline sugar, up to 2 g of dissolved sugar in 1 g of water, times its heat of solution (16 J/g at 25 °C, more when \
             hotter), ÷ heat capacity. None below 2 % of water.",
        ),
        range: words(
            "All crystals count as sucrose; dextrose and sugar alcohols that go in dry take up several times as much.",
        ),
        source: words(SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("20 %: about 0.5 K in a ganache.", sign),
    }
}

/// What stirring takes.
#[must_use]
pub fn stirring(sign: DecimalSign) -> Explanation {
    let (least, most) = StirringTime::RANGE;
    Explanation {
        title: words("stirring in the open"),
        what: words(
            "An allowance for the heat that the room takes while you stir in an open bowl. Nothing if you type no minutes, \
             or cover it.",
        ),
        formula: words(format!(
            "T = room + (T before − room) · exp(−h · A · t ÷ C): h {} W/(m²·K) with water that evaporates, {} in a mass \
             without water; A {} m² for 1 kg, and as the ⅔ power of the mass; C heat capacity of mass and bowl; the room has {}.",
            shortest(STIRRED_AND_EVAPORATING, 0, sign),
            shortest(STILL_AIR, 0, sign),
            two(STIRRED_M2, sign),
            celsius(UNSAID, sign)
        )),
        range: words(format!("{} to {} minutes, by hand.", shortest(least, 0, sign), shortest(most, 0, sign))),
        source: words("Heat transfer to still air and by evaporation, from memory."),
        evidence: words("An estimate; the water that evaporates is not taken off the mass."),
        uncertainty: words("A factor of two. Measure before and after, and type the minutes that fit."),
    }
}

/// The crystals of the lines and those that are left.
#[must_use]
pub fn crystals(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("fat crystals in the mix"),
        what: words(
            "The crystals that solid chocolate, butter and tempered chocolate bring, and those that are left at the end. Form \
             V crystals that are left seed the mass; below the limit they are a seed that nobody weighed.",
        ),
        formula: words(
            "Coming in: what can be solid of each line's own fat at its temperature. Left: the smaller of that and of what can \
             be solid in the mixed fats at the end.",
        ),
        range: words("Stored chocolate that has set well; fresh from the machine it has fewer."),
        source: words("The fat model of this program, for each line and for the mixed fats."),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the solid fat: 5 points of the fat."),
    }
}

/// The wanted end and the ways to it.
#[must_use]
pub fn wanted(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("how warm a line has to start"),
        what: words(
            "The temperature that brings the mix to the wanted end, if this line alone is changed: the hottest liquid with all \
             that has its temperature, or the chocolate. Where there is none, why.",
        ),
        formula: words(format!(
            "The same balance backward: heat at the wanted end − heat of everything else. Liquid from 4 to 100 °C; chocolate \
             solid up to {}, melted from 40 to 60 °C; between them a share of it melted at {} and the rest solid.",
            celsius(AT_REST_BELOW, sign),
            celsius(MELTED_AT, sign)
        )),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(format!(
            "Computed; an end within {} K of the wanted one counts as reached.",
            shortest(REACHED_WITHIN.0, 1, sign)
        )),
        uncertainty: words(
            "As that of the end, times mass and specific heat of the whole over those of the line: two to three times as much.",
        ),
    }
}

/// One line that is brought to the wanted end of the mix, with what it takes as a sentence.
#[must_use]
pub fn one_line(way: &str, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("one line alone"),
        what: words(format!(
            "{way}. All other lines stay as they are. A small line has to be far warmer or colder than a large one."
        )),
        formula: words(format!(
            "The same balance backward: heat at the wanted end − heat of everything else. What has water and sugar from 4 to \
             100 °C; chocolate solid up to {}, melted from 40 to 60 °C; nut paste and other dry fat up to 60 °C.",
            celsius(AT_REST_BELOW, sign)
        )),
        ..wanted(sign)
    }
}

/// The wanted end, as typed.
#[must_use]
pub fn wanted_end(sign: DecimalSign) -> Explanation {
    let (least, most) = MixTemperature::RANGE;
    Explanation {
        title: words("wanted end of the mix"),
        what: words(
            "Where the mix should end; findings and the card Mixing then say how warm the liquid or the chocolate has to \
             start. Empty: nothing is wanted.",
        ),
        formula: words("As typed."),
        range: words(format!(
            "{} to {}. Usual at the end of emulsifying a ganache: {} to {} (common practice, no published source).",
            celsius(least, sign),
            celsius(most, sign),
            celsius(GANACHE.0, sign),
            celsius(GANACHE.1, sign)
        )),
        source: words(TYPED),
        evidence: words("Entered, not computed."),
        uncertainty: words(YOUR_THERMOMETER),
    }
}

/// What the bowl weighs, and how warm it is.
#[must_use]
pub fn bowl(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("bowl"),
        what: words(
            "What the mass is mixed in takes its temperature: half a kilogram of cold steel takes several degrees off a small \
             batch. Without a bowl, none is counted.",
        ),
        formula: with_sign(
            "Mass × specific heat: steel 0.5, aluminium 0.9, glass 0.84, polycarbonate 1.2, polypropylene 1.9 J/(g·K). It starts \
             at its own temperature and ends as warm as the mass.",
            sign,
        ),
        range: words(
            "The part of the bowl that gets warm: of a tall machine bowl the lower half. Scaling the recipe does not change it.",
        ),
        source: words(TYPED),
        evidence: words("Entered; specific heats from memory."),
        uncertainty: words("What part of it gets warm: a third."),
    }
}

/// Lines that count as the room.
#[must_use]
pub fn unsaid(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("lines without a temperature"),
        what: words(format!(
            "How many lines that weigh something count as {}, because nothing is typed.",
            celsius(UNSAID, sign)
        )),
        formula: words("Counted."),
        range: words("None, as soon as every line has a temperature."),
        source: words(TYPED),
        evidence: words("An assumption of the program: ingredients stand in the room."),
        uncertainty: words("A line from the refrigerator is 15 K colder: type it."),
    }
}
