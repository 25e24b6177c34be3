//! What is typed in the form of what to weigh: what each field means and how one comes by its figure.

use super::{with_sign, words};
use crate::number::DecimalSign;
use crate::ui::dialogs::WeighField as Field;
use crate::ui::widgets::Explanation;

/// A field of the form.
#[must_use]
pub fn field(field: Field, sign: DecimalSign) -> Explanation {
    let Words { what, formula, range, evidence } = words_of(field);
    let source = match field {
        Field::Piece | Field::Cavity | Field::Shell | Field::Height | Field::Along | Field::FineStep => {
            "You type it. What is usual is common practice, no published source."
        }
        Field::ShellDensity | Field::Density => {
            "You, or the densities of what it is made of (Choi and Okos; see “mass density”)."
        }
        _ => "You type it.",
    };
    Explanation {
        title: words(field.name()),
        what: with_sign(what, sign),
        formula: with_sign(formula, sign),
        range: with_sign(range, sign),
        source: words(source),
        evidence: with_sign(evidence, sign),
        uncertainty: words(match field {
            Field::Mass | Field::Pieces | Field::Frames => {
                "Counted or decided: exact. What really comes out depends on the losses."
            }
            Field::Losses => "From day to day it differs; take the middle of several batches.",
            Field::Density | Field::ShellDensity => {
                "A weighed density is the better one: air and cracks are in it, which no model here knows."
            }
            _ => "As good as your scale or ruler; weigh or measure several and take the middle.",
        }),
    }
}

/// The step of an ingredient that has a scale of its own.
#[must_use]
pub fn own_step(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("own scale for an ingredient"),
        what: words(
            "The step of the scale on which this ingredient is weighed, in every recipe of the day that takes it.",
        ),
        formula: words("Its line on the list = a whole number of these steps; the others keep their scale."),
        range: with_sign(
            "Usual are 0.01 to 0.1 g for salt, acids and flavours, 5 g and more for sacks. Empty: the usual scale.",
            sign,
        ),
        source: words("You type it. What is usual is common practice, no published source."),
        evidence: words("Look what the last digit of that scale does."),
        uncertainty: words("As good as your scale."),
    }
}

/// The mass of another recipe of the day.
#[must_use]
pub fn also_mass(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("finished mass of another recipe"),
        what: words(
            "So much of this recipe is to be left behind all losses on the same day; the seed of the day counts it.",
        ),
        formula: with_sign("Weighed in = this ÷ what its own and the further losses leave.", sign),
        range: words("In g, kg, oz or lb. Empty: asked for as the open recipe is."),
        source: words("You type it."),
        evidence: words("You decide it."),
        uncertainty: words("Decided: exact. What really comes out depends on the losses."),
    }
}

struct Words {
    what: &'static str,
    formula: &'static str,
    range: &'static str,
    evidence: &'static str,
}

/// The same for a field: what it is and why it matters, what is done with it, what is usual, where its figure is from.
fn words_of(field: Field) -> Words {
    let [what, formula, range, evidence] = match field {
        Field::Mass => [
            "So much is to be left behind all losses: what the order asks for.",
            "Weighed in = this ÷ what the losses leave.",
            "In g, kg, oz or lb. Empty: the recipe as it stands.",
            "You decide it.",
        ],
        Field::Pieces => [
            "So many whole pieces are to come out.",
            "Mass = pieces × what the filling of one weighs.",
            "A whole number. Empty: the recipe as it stands, and the list says how many it gives.",
            "It comes from your order book.",
        ],
        Field::Frames => [
            "So many full frames are to be poured.",
            "Mass = frames × inside of a frame × density.",
            "A whole number. Empty: the recipe as it stands, and the list says how many it fills.",
            "It comes from your order book.",
        ],
        Field::AtHand => [
            "The batch is made as large as what there is of this ingredient gives: a tub of purée, the rest of a bag.",
            "Times the recipe = this ÷ what the recipe takes of it.",
            "In g, kg, oz or lb. Empty: the recipe as it stands.",
            "Weigh it without its tub.",
        ],
        Field::Piece => [
            "The finished piece with its shell, or a bare deposit; how many pieces a batch gives hangs on it.",
            "Pieces = mass ÷ (piece − shell).",
            "Usual are 6 to 15 g.",
            "Weigh ten and divide.",
        ],
        Field::Cavity => [
            "How much fits into one cavity of the mould, shell and filling together.",
            "Filling = (cavity − volume of the shell) × density of the mass.",
            "Usual are 6 to 15 ml.",
            "The maker of the mould states it, or fill ten with water and weigh them: 1 g is 1 ml.",
        ],
        Field::Shell => [
            "Shell and base, or the coat of a cut piece, in percent of the whole piece.",
            "Filling = piece × (1 − this).",
            "Usual are 25 to 40 %; below 25 % the piece must not carry certain names. Empty is none.",
            "Weigh shells before they are filled.",
        ],
        Field::ShellDensity => [
            "How heavy a millilitre of the set shell is: more means a heavier shell in the same cavity.",
            "Volume of the shell = its mass ÷ this.",
            "Empty: computed for dark couverture, 64 % cocoa, once its cocoa butter has set.",
            "Weigh a shell and the water that it takes in the mould.",
        ],
        Field::Length | Field::Width => [
            "The inside of the frame: how much mass it takes, and how many pieces are cut from it.",
            "Mass = length × width × height × density.",
            "In mm; usual are frames of some 200 to 600 mm.",
            "Measure it.",
        ],
        Field::Height => [
            "How high the frame is filled: the height of a piece.",
            "Mass = length × width × height × density.",
            "Usual are 8 to 12 mm. It starts from the thickness that the recipe says in Setting.",
            "Measure the bars or the frame.",
        ],
        Field::Along => [
            "The length of a piece, from wire to wire, so the wire is in it.",
            "Pieces along = (length − trim on both sides) ÷ this, whole ones only.",
            "Usual are 22.5 or 30 mm. Empty: the frame is not cut.",
            "Measure between the wires of the cutter.",
        ],
        Field::Across => [
            "The width of a piece, from wire to wire, across.",
            "Pieces across = (width − trim on both sides) ÷ this, whole ones only.",
            "In mm. Empty: as along the length.",
            "Measure between the wires of the cutter.",
        ],
        Field::Trim => [
            "What is cut off at each of the four sides so that the edges are straight; it counts as cutting loss.",
            "Left to cut = side − 2 × this.",
            "Usually a few mm. Empty is none.",
            "Measure what you cut off.",
        ],
        Field::Density => [
            "How heavy a millilitre of the mass is: it decides how much fits into a cavity or a frame.",
            "Mass = volume × density.",
            "Empty: computed from what the mass is made of, with its fat melted and without air.",
            "Weigh a cup of known volume.",
        ],
        Field::Losses => [
            "What is lost behind the losses of the recipe, such as in the depositor or as broken pieces.",
            "Several with a semicolon between them, 4; 2: each takes its share of what is left, so they multiply.",
            "0 % to below 100 %. Empty is none.",
            "Weigh what comes out once, and hold it against what went in.",
        ],
        Field::Bowl => [
            "What a bowl or machine takes at its fullest: all that is weighed in, or what is left of that with the seed.",
            "Bowls = the larger of weighed in and left + seed, ÷ this, rounded up; they are as even as the scale allows.",
            "Leave room for stirring. Empty: all in one.",
            "The maker states it, or fill it with water up to where you stir and weigh that.",
        ],
        Field::Step => [
            "The smallest difference that your scale shows: every line is rounded to it.",
            "Line on the list = a whole number of steps; the total is kept.",
            "Usual are 1 to 5 g; 1 g where nothing is typed.",
            "Look what the last digit of the scale does.",
        ],
        Field::FineStep => [
            "A second, finer scale for salt, flavours and seed: what the first scale is too coarse for goes on it.",
            "Below 20 steps of the first scale, or off by more than 2 %, a line goes on this one.",
            "Usual are 0.01 to 0.1 g. Empty: there is none.",
            "Look what the last digit of that scale does.",
        ],
        Field::Ready => [
            "How much tempered seed stands ready; the list says whether it is enough for all bowls.",
            "Left = ready − need of all bowls.",
            "Any weight. Empty: only what is needed is told.",
            "Weigh it.",
        ],
    };
    Words { what, formula, range, evidence }
}
