//! What the ingredients cost.

use super::{ARITHMETIC, words};
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const SOURCE: &str = "Your own price list; the formula is common arithmetic of production.";
const RANGE: &str = "Ingredients only: packaging, work, energy and rent are not in it. Money is not converted: a line priced \
in another currency than the first one counts as without a price.";

/// How many lines have a price, in words.
fn priced(scene: &Scene<'_>) -> String {
    let Some(cost) = scene.costs.now else { return "No prices are read.".to_owned() };
    let missing = cost.without_price().count();
    let lines = cost.lines.len();
    match missing {
        0 => format!("All {lines} lines have a price."),
        _ => format!(
            "{} of {lines} lines have a price; the others are not in the sum, so it says “at least”.",
            lines - missing
        ),
    }
}

/// The cost of the batch.
#[must_use]
pub fn batch(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("cost of the batch"),
        what: words("What the ingredients of the batch cost, as you buy them."),
        formula: words("Sum over the lines of amount × price ÷ usable part."),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(priced(scene)),
        uncertainty: words("As old as the prices. The sum itself is exact and rounded once, to the smallest coin."),
    }
}

/// The cost of a kilogram.
#[must_use]
pub fn kilogram(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("cost of 1 kg of the finished mass"),
        what: words(
            "What a kilogram of what you can fill, pipe or cut costs: what evaporates or stays in bowls and bags makes it \
             dearer.",
        ),
        formula: words("Cost of the batch ÷ finished mass in kg."),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(priced(scene)),
        uncertainty: words(ARITHMETIC),
    }
}

/// The cost of a piece.
#[must_use]
pub fn piece(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("cost of a piece"),
        what: words(
            "What the mass in a piece costs, by the number of pieces that the recipe states. Shells and coats that \
                     are no lines of the recipe are not in it.",
        ),
        formula: words("Cost of the batch ÷ pieces."),
        range: words(RANGE),
        source: words(SOURCE),
        evidence: words(priced(scene)),
        uncertainty: words(ARITHMETIC),
    }
}

/// The cost of one line.
#[must_use]
pub fn line(name: &str) -> Explanation {
    Explanation {
        title: words(format!("cost of {name}")),
        what: words("What this line costs in the batch. Press it to give or change the price of the ingredient."),
        formula: words("Amount × price ÷ usable part; the price is what you pay ÷ the pack that you buy."),
        range: words("Any price from nothing up, for a pack by weight, in one currency."),
        source: words("Your own price list."),
        evidence: words("What you typed, or what stands in the file of the list."),
        uncertainty: words("As old as the price; it may say from which day it is."),
    }
}
