//! Numbers of the weighing list.

use super::{ARITHMETIC, HABIT, with_sign, words};
use crate::number::{DecimalSign, shortest};
use crate::production::day::Note;
use crate::production::rounding::RoundedLine;
use crate::report::words::batch::BatchFigure;
use crate::ui::widgets::Explanation;
use crate::units::MassFraction;

const REMAINDER: &str = "Method of the largest remainder: every line goes down to a step of the scale, and the steps that are \
left go to the lines that lost most.";
const ROUNDING_RANGE: &str = "Steps from 0.0001 g up, weights to 1,000 tonnes. A line below 20 steps, or off by more than 2 %, \
asks for a finer scale.";
const LAWS: &str = "Balance of mass.";
const TYPED: &str = "What you typed here, and the recipe.";

/// What the scale is to show for a line.
#[must_use]
pub fn line(name: &str, weighed: &[RoundedLine], sign: DecimalSign) -> Explanation {
    let exact = weighed.iter().map(|line| format!("{} g", shortest(line.exact.0, 3, sign))).collect::<Vec<_>>();
    let off = weighed
        .iter()
        .map(|line| {
            let percent = line.relative_error.map_or(0.0, MassFraction::to_percent);
            format!("{} %", shortest(percent, 2, sign))
        })
        .collect::<Vec<_>>();
    Explanation {
        title: words(format!("{name}, on the scale")),
        what: words("What the scale is to show for this line, in each of the bowls."),
        formula: with_sign(REMAINDER, sign),
        range: with_sign(&format!("{ROUNDING_RANGE} The limits: {HABIT}."), sign),
        source: words("Arithmetic in whole steps, so that the lines still add up to the total."),
        evidence: words(format!("Exactly it would be {}.", exact.join(" or "))),
        uncertainty: words(format!(
            "Off by {} of it through rounding; your scale adds its own error.",
            off.join(" or ")
        )),
    }
}

/// What is in a bowl together.
#[must_use]
pub fn together(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("together"),
        what: words("What stands in the bowl when all lines are in: hold it against the scale at the end."),
        formula: words("Sum of the lines as the scale shows them."),
        range: with_sign(ROUNDING_RANGE, sign),
        source: words(LAWS),
        evidence: words(TYPED),
        uncertainty: words("Exact; where the step does not divide what was asked for, it is what fits in."),
    }
}

/// The heads of the columns.
#[must_use]
pub fn bowls(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("bowls"),
        what: words(
            "How many bowls of the batch there are. Even bowls cool and set alike, and one list and one dose of seed serve them \
             all.",
        ),
        formula: words(
            "What is weighed in, or what is left of it with the seed if that is more, ÷ what a bowl holds, rounded up; \
             bowls differ by one step of the scale at most.",
        ),
        range: with_sign(ROUNDING_RANGE, sign),
        source: words("Division in whole steps."),
        evidence: words("The capacity that you typed: room for stirring has to be in it."),
        uncertainty: words(ARITHMETIC),
    }
}

/// The seed of a bowl.
#[must_use]
pub fn seed(seeds: &[RoundedLine], sign: DecimalSign) -> Explanation {
    let exact = seeds.iter().map(|seed| format!("{} g", shortest(seed.exact.0, 3, sign))).collect::<Vec<_>>();
    Explanation {
        title: words("seed for a bowl"),
        what: words(
            "Tempered crystals that go in last, in the window of the reading Fat crystals; they are not in the sum.",
        ),
        formula: words(
            "The dose of the seeding plan for the whole batch, shared out like the mass, to the nearest step.",
        ),
        range: words(format!(
            "Off by more than 10 % the scale is called too coarse for it, judged; the dose itself is {HABIT}."
        )),
        source: words("The seeding plan of the recipe, or the amount that you gave there."),
        evidence: words(format!("Exactly it would be {}.", exact.join(" or "))),
        uncertainty: words("A factor of two matters little; too warm a mass matters much."),
    }
}

/// What is left in a bowl.
#[must_use]
pub fn left() -> Explanation {
    Explanation {
        title: words("once heated it weighs"),
        what: words(
            "What the bowl weighs when the water that evaporates has gone: weigh it then, and you know whether it has.",
        ),
        formula: words("What is weighed in less the water that evaporates, shared out like the mass."),
        range: words(
            "In proportion to the mass; a larger pan really loses less, because it has less surface for its volume.",
        ),
        source: words(LAWS),
        evidence: words("The evaporation under the lines of the sheet: weighed, estimated or cooked to a temperature."),
        uncertainty: words("That of the evaporation; an estimate is off by about half of it."),
    }
}

/// How far rounding to the scale moves what the mass is made of.
#[must_use]
pub fn rounding_moves(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("rounding moves"),
        what: words(
            "By how many points of percent the mass that is weighed differs from the recipe, because the scale shows steps.",
        ),
        formula: words(
            "Share as the scale shows the lines − share as they are meant, of the bowl where it moves most.",
        ),
        range: with_sign(ROUNDING_RANGE, sign),
        source: words(LAWS),
        evidence: words(TYPED),
        uncertainty: words(
            "Exact for what is known of the ingredients; a finer scale or a larger batch makes it less.",
        ),
    }
}

/// A figure of the batch.
#[must_use]
pub fn batch(figure: BatchFigure, sign: DecimalSign) -> Explanation {
    let (what, formula, range, uncertainty) = match figure {
        BatchFigure::Factor => (
            "How many times as large as the sheet the batch is.",
            "What is asked for ÷ (finished mass of the sheet × what the further losses leave).",
            "Everything scales alike, seed and evaporation too.",
            ARITHMETIC,
        ),
        BatchFigure::WeighedIn => (
            "What all lines weigh together in all bowls, as the scale shows it.",
            "Sum of the bowls.",
            "Up to 1,000 tonnes.",
            "Exact; where the scale cannot tell what was asked for, that stands behind it.",
        ),
        BatchFigure::Evaporates => (
            "The water that leaves the pan.",
            "As in the sheet, times the factor.",
            "A larger pan really loses less, because it has less surface for its volume.",
            "An estimate is off by about half of it: weigh the pan before and after.",
        ),
        BatchFigure::Stays => (
            "What stays in bowls and bags, as the recipe says.",
            "Share of the cooked mass; it is made up for.",
            "0 to below 100 %; usual are 1 to 5 % (common practice, no published source).",
            "Yours depends on your bowls: weigh what comes out once.",
        ),
        BatchFigure::Finished => (
            "What can be filled, piped or cut.",
            "Weighed in, as the scale can show it, less what evaporates and what stays behind.",
            "As far as the evaporation is known.",
            "That of the evaporation and the loss.",
        ),
        BatchFigure::FurtherLosses => (
            "What is lost behind the recipe's own losses.",
            "1 − product of (1 − loss): each takes its share of what is left.",
            "0 to below 100 % each.",
            "As good as what you typed.",
        ),
        BatchFigure::Left => (
            "What is left behind all losses: this was asked for.",
            "Finished mass × product of (1 − loss).",
            "As far as the finished mass is known.",
            "That of the losses.",
        ),
        BatchFigure::Frames => (
            "How many full frames there are, and what one holds.",
            "Length × width × height × density.",
            "A frame with straight sides, filled level.",
            "That of the density: 2 % as computed, and more with air in the mass.",
        ),
        BatchFigure::Pieces => (
            "How many whole pieces come out, and what one weighs.",
            "In a mould: volume ÷ (shell share ÷ its density + the rest ÷ its density). By weight: as typed. Cut: side × side × height × density.",
            "Whole pieces only; what is in none of them is left over.",
            "That of the density and the shell: weigh ten of them.",
        ),
        BatchFigure::Chocolate => (
            "The chocolate for shells, bases or coats of all pieces; it is not in this list of lines.",
            "Pieces × piece × share of shell.",
            "What runs off a mould or a belt comes on top.",
            "That of the shell: weigh ten empty ones.",
        ),
        BatchFigure::Cut => (
            "How the frame is cut, and what is cut off.",
            "Whole pieces along and across within the trimmed frame; 1 − their area ÷ that of the frame.",
            "The wire has no thickness of its own: measure from wire to wire.",
            "Geometry: exact for the sizes that you typed.",
        ),
        BatchFigure::OneFrame => (
            "How high the whole batch would stand in one frame.",
            "Mass ÷ (density × length × width).",
            "Level, without air.",
            "That of the density.",
        ),
        BatchFigure::Spare => (
            "What of the mass is in no whole piece or frame.",
            "What is left behind all losses less what the whole pieces take.",
            "From nothing to just below one piece, or more where a mass was asked for.",
            "That of the pieces.",
        ),
        BatchFigure::Seed => (
            "The tempered crystals for the whole batch.",
            "The dose of the seeding plan of the batch.",
            "Where the fat of the recipe has a form V limit.",
            "A factor of two matters little; the temperature matters more.",
        ),
    };
    Explanation {
        title: words(figure.words()),
        what: words(what),
        formula: words(formula),
        range: with_sign(range, sign),
        source: words(match figure {
            BatchFigure::Frames | BatchFigure::Pieces | BatchFigure::OneFrame => {
                "Geometry; the density is yours, or computed after Choi and Okos 1986."
            }
            BatchFigure::Cut => "Geometry.",
            BatchFigure::Seed => "The seeding plan of the reading Fat crystals.",
            _ => LAWS,
        }),
        evidence: words(TYPED),
        uncertainty: words(uncertainty),
    }
}

/// The cost of the batch.
#[must_use]
pub fn cost() -> Explanation {
    Explanation {
        title: words("cost of the ingredients"),
        what: words(
            "What the lines of the batch cost. Shells and coats that are no lines of the recipe are counted with the piece.",
        ),
        formula: words("Sum over the lines of amount × price ÷ usable part."),
        range: words("Ingredients only: packaging, work, energy and rent are not in it."),
        source: words("Your own price list."),
        evidence: words("Lines without a price are not in the sum; then it says “at least”."),
        uncertainty: words("As old as the prices."),
    }
}

/// The cost of a kilogram of what is left behind all losses.
#[must_use]
pub fn cost_of_kilogram() -> Explanation {
    Explanation {
        title: words("cost of 1 kg of what is left"),
        what: words("What a kilogram of mass costs that can be filled, cut or sold: what is lost is paid for in it."),
        formula: words("Cost of the batch ÷ what is left behind all losses."),
        ..cost()
    }
}

/// The cost of a piece.
#[must_use]
pub fn cost_of_piece() -> Explanation {
    Explanation {
        title: words("cost of a piece"),
        what: words(
            "What the filling or centre of a piece costs, and its shell or coat of what you chose at the left.",
        ),
        formula: words(
            "Filling × cost of a kilogram of what is left + shell × price of its couverture ÷ usable part of that.",
        ),
        evidence: words("A shell counts where its couverture has a price in the same money; else it says so."),
        ..cost()
    }
}

/// The seed of the day.
#[must_use]
pub fn seed_of_the_day(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("seed of the day"),
        what: words(
            "What all batches of the day need of each seed, and whether what is ready is enough, what is missing or left.",
        ),
        formula: words("Sum of the seed of all batches, less what is ready."),
        range: words("The open recipe and those that stand under “also today”, each asked for in the same way."),
        source: words(LAWS),
        evidence: words("What you typed as ready."),
        uncertainty: with_sign("That of the dose; make a little more than is needed.", sign),
    }
}

/// A note on a batch.
#[must_use]
pub fn note(note: &Note, sign: DecimalSign) -> Explanation {
    let (title, what, formula, range, source) = match note {
        Note::TooCoarse { .. } | Note::SeedTooCoarse { .. } => (
            "scale too coarse",
            "The scale cannot tell this weight well enough.",
            "Weight ÷ step of the scale, and what rounding changes.",
            ROUNDING_RANGE,
            "Common practice of the trade; no published source.",
        ),
        Note::TooLittleChocolate { .. } => (
            "names of the piece",
            "By these standards a name promises how much chocolate is around or in a piece.",
            "Shell ÷ piece, by weight.",
            "25 % and more of the piece for a filled chocolate or a praline.",
            "Codex CXS 87-1981, 2.2; Directive 2000/36/EC, Annex I.",
        ),
        Note::ComputedDensity { .. } => (
            "computed density",
            "How heavy a millilitre of the mass is; it decides how much fits into a cavity or a frame.",
            "1 ÷ sum of (share ÷ density) over what the mass is made of; volumes add.",
            "0 to about 110 °C, fat melted, no air. Set cocoa butter is 5 to 8 % denser (from memory).",
            "Choi and Okos 1986.",
        ),
        Note::EvaporationNotKnown => (
            "evaporation not known",
            "Without it, it is not known what is left of what is weighed in.",
            "None: a figure of an ingredient is missing.",
            "Weigh the pan before and after, and say so under the lines of the sheet.",
            LAWS,
        ),
    };
    Explanation {
        title: words(title),
        what: words(what),
        formula: words(formula),
        range: with_sign(range, sign),
        source: words(source),
        evidence: words(TYPED),
        uncertainty: words("A density is good to 2 %, a weight to the step of the scale; a limit by law is exact."),
    }
}
