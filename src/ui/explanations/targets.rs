//! Numbers of the reading Targets.

use super::{ARITHMETIC, HABIT, composition, cost, emulsion, fat, food, sheet, texture, water, words};
use crate::analysis::fat::Form;
use crate::number::{DecimalSign, grams};
use crate::reformulate::Measured;
use crate::report::words::capital;
use crate::report::words::reformulation::measured;
use crate::ui::explanations::emulsion::Phase;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;
use crate::units::Grams;

/// A result that is asked for: what it is wherever it stands.
#[must_use]
pub fn result(of: Measured, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    match of {
        Measured::Group(group) => composition::group(group, scene, sign),
        Measured::Component(component) => composition::component(component, scene),
        Measured::FatToWater => emulsion::fat_to_water(scene, sign),
        Measured::CocoaButterInFat => fat::share_of_fat("cocoa butter", scene),
        Measured::MilkFatInFat => fat::share_of_fat("milk fat", scene),
        Measured::OtherFatInFat => fat::share_of_fat("other fat", scene),
        Measured::FatVolume => emulsion::volume(Phase::Fat, scene, sign),
        Measured::DispersedVolume => emulsion::dispersed_share(scene, sign),
        Measured::WaterActivity => water::activity(scene, sign),
        Measured::SucroseSupersaturation => water::sucrose_saturation(scene, sign),
        Measured::LactoseSupersaturation => water::lactose_saturation(sign),
        Measured::SolidFat(_) | Measured::FormVLimit => match (&scene.analysis.fat, of) {
            (Ok(crystals), Measured::FormVLimit) => fat::limit(Form::V, crystals, scene, sign),
            (Ok(crystals), _) => fat::solid_fat(crystals, scene, sign),
            (Err(_), _) => fat::crystals(scene, sign),
        },
        Measured::Crystals(_) => texture::firmness(scene, sign),
        Measured::Contraction => texture::contraction(scene),
        Measured::SolidsVolume => texture::flow(scene, sign),
        Measured::Energy => food::energy(scene, sign),
        Measured::Sweetness => food::sweetness(scene, sign),
        Measured::Cost => cost::kilogram(scene),
        Measured::FinishedMass => sheet::finished(),
    }
}

/// The bound of a target.
#[must_use]
pub fn bound(of: Measured, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("target of {}", measured(of, sign))),
        what: words("Where the result has to lie. Type it and press Enter: the nearest recipe is looked for at once."),
        formula: words(
            "Of all amounts that keep every target and rule, those with the least sum of squares of their relative changes; a \
             line below 2 % of the batch counts as 2 %.",
        ),
        range: words(
            "Targets come from what is usual for the use, or from you. “Near” is a wish: it is met as far as all else allows.",
        ),
        source: words("Usual ranges: see the findings. The way to the nearest recipe: this program."),
        evidence: words(format!("What is usual: {HABIT}.")),
        uncertainty: words(
            "The result has its own band, shown beside it; a switch lets the worse end of it decide. Where models bend, \
             another recipe may be nearer still.",
        ),
    }
}

/// The switch by which the worse end of a band decides.
#[must_use]
pub fn edge() -> Explanation {
    Explanation {
        title: words("which end of the band decides"),
        what: words(
            "A computed result is known within a band. With this switch the target holds for the end of the band that is worse \
             for it, without it for the likely value.",
        ),
        formula: words("At most: upper end of the band ≤ bound. At least: lower end ≥ bound."),
        range: words("On for water activity, because growth does not ask for the likely value; off for all else."),
        source: words("A choice of this program, which you can turn."),
        evidence: words("The bands come with the results; each explains itself in its reading."),
        uncertainty: words("A band is no guarantee: measure the first batch."),
    }
}

/// An amount of the proposed recipe, with why it moves, in full.
#[must_use]
pub fn proposed_amount(why: &str, sign: DecimalSign) -> Explanation {
    let why = if why.is_empty() { String::new() } else { format!("{}. ", capital(why)) };
    Explanation {
        title: words("proposed amount"),
        what: words(format!(
            "{why}What the line weighs now and what it would weigh. The words under it name what moves it most: the targets that \
             pull it up or down, or the room that others need in the same batch."
        )),
        formula: words(
            "Part of the move that a target takes = ½ × how hard the target presses × what this line does to it × (amount now, at \
             least 2 % of the batch)². What a line does only because others make room, and not alone, counts as room.",
        ),
        range: words("Rounded to what the scale shows, and judged again by all models after rounding."),
        source: words("Constrained least change, the multipliers of its optimum; computed by this program."),
        evidence: words("As good as the models and the figures of the ingredients that the targets rest on."),
        uncertainty: words(format!(
            "The parts are those before rounding: they add up to the move but for some {} g.",
            crate::number::shortest(0.5, 1, sign)
        )),
    }
}

/// The sum of the proposed amounts.
#[must_use]
pub fn proposed_total() -> Explanation {
    Explanation {
        title: words("the batch before and after"),
        what: words("What all lines weigh together, with what comes in."),
        formula: words("Sum of the amounts of all lines."),
        range: words("It stays as it is unless you let it change."),
        source: words("Arithmetic."),
        evidence: words("What is typed, and what is proposed."),
        uncertainty: words(ARITHMETIC),
    }
}

/// What a little more of a line does.
#[must_use]
pub fn effect(more: Grams, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("{} g more of one line", grams(more.0, sign))),
        what: words(
            "How the result moves when this line alone grows: where a small hand has a large effect, and where none.",
        ),
        formula: words("Result of the recipe with more of the line − result of the recipe."),
        range: words("For small changes; a large one bends. The batch grows with the line."),
        source: words("The models of the readings, computed twice."),
        evidence: words("As good as the result itself."),
        uncertainty: words("A difference is known better than the result: what is off in both cancels out."),
    }
}

/// A rule on an amount.
#[must_use]
pub fn limit() -> Explanation {
    Explanation {
        title: words("limit of a line"),
        what: words(
            "How far the amount of a line may move. Seasoning may not grow by itself: salt and alcohol would be the cheapest way \
             to a low water activity.",
        ),
        formula: words("Amount ≤ or ≥ limit; whole packs; so many times another line."),
        range: words("Any weight from 0 g; lines that are locked in the sheet stay without a limit here."),
        source: words("You; at first the present amounts of spices, additives, coffee, tea and spirits."),
        evidence: words("A choice, no figure of a model."),
        uncertainty: words("Kept exactly, unless it contradicts the targets: then the reading says so."),
    }
}

/// The most of what may be used besides.
#[must_use]
pub fn allowance() -> Explanation {
    Explanation {
        title: words("most of it"),
        what: words("How much of an ingredient may come in that is not in the recipe. Empty: as much as it takes."),
        formula: words("0 ≤ amount ≤ this."),
        range: words("Any weight. Taste sets the limit, which no model here knows: give one you would sign."),
        source: words("You."),
        evidence: words("A choice, no figure of a model."),
        uncertainty: words("Kept exactly."),
    }
}
