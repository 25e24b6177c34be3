//! Numbers of the reading Make-up.

use super::{COMPOSITION_ERROR, FROM_INGREDIENTS, inputs, with_sign, words};
use crate::analysis::parts::Group;
use crate::analysis::usual::{Share, UsualRange};
use crate::ingredient::Component;
use crate::number::DecimalSign;
use crate::report;
use crate::ui::theme::Hue;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const SUM: &str = "Sum over the lines of amount × share; in percent divided by the mass in the bowl. Evaporated water is \
taken off, nothing else.";
const ANY_MASS: &str = "Any mass. A figure that one line leaves unknown is unknown in the sum, never zero.";

/// A group of components.
#[must_use]
pub fn group(group: Group, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let what = match group {
        Group::CocoaButter => "All fat of cocoa mass, couverture, cocoa powder and cocoa butter. It carries the set.",
        Group::MilkFat => "All fat of dairy. It softens the set and lowers the temperature at which seed lives.",
        Group::OtherFat => "Every other fat: nuts, oils, coconut, lecithin. Liquid oil softens more than any other.",
        Group::TotalFat => "All fat together.",
        Group::Sugars => {
            "Sucrose, glucose, fructose, lactose and maltose. Higher saccharides and polyols are not in it."
        }
        Group::Water => "Water of all ingredients, less what evaporates. It decides keeping and the emulsion.",
        Group::FatFreeCocoaSolids => "Cocoa without its fat and water: particles that take up water and firm the mass.",
        Group::OtherSolids => {
            "What is neither water, alcohol, fat, sugar nor cocoa: milk protein and minerals, higher saccharides, \
             polyols, starch, fibre, salt, and what data sheets leave open."
        }
        Group::MilkSolidsNonFat => "Milk protein, lactose and milk minerals.",
        Group::DryCocoaSolids => "Cocoa butter and fat-free cocoa solids.",
        Group::LiquidOil => "The part of the other fat that never sets: oils of nuts and seeds.",
        Group::SyrupSolids => {
            "Glucose, fructose, maltose, higher saccharides and polyols: what syrups, dextrose and fruit bring. They \
             hold sucrose in solution and water back."
        }
    };
    Explanation {
        title: words(group.words()),
        what: words(what),
        formula: words(SUM),
        range: words(format!("{}{ANY_MASS}", usual(group, scene, sign))),
        source: words(sources(scene)),
        evidence: words(inputs(scene)),
        uncertainty: words(COMPOSITION_ERROR),
    }
}

/// The usual range of a group for the use of the recipe, as a sentence; empty where there is none.
fn usual(group: Group, scene: &Scene<'_>, sign: DecimalSign) -> String {
    let of_group = |range: &&UsualRange| range.of == Share::Group(group);
    scene.analysis.usual.iter().find(of_group).map_or_else(String::new, |range| {
        format!("Usual for {}: {}. ", range.column.words(), report::words::usual_range(range, sign))
    })
}

/// Where the figures of the lines come from.
fn sources(scene: &Scene<'_>) -> String {
    /// More would be a page.
    const MOST: usize = 5;
    let mut sources: Vec<&str> = Vec::new();
    for line in &scene.document.recipe.lines {
        let source = line.ingredient.source.as_str();
        if !source.is_empty() && !sources.contains(&source) {
            sources.push(source);
        }
    }
    match sources.len() {
        0 => FROM_INGREDIENTS.to_owned(),
        count if count > MOST => format!("{}; and {} more.", sources[..MOST].join("; "), count - MOST),
        _ => format!("{}.", sources.join("; ")),
    }
}

/// One component.
#[must_use]
pub fn component(component: Component, scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words(component.words()),
        what: words("What all lines bring of it."),
        formula: words(SUM),
        range: words(ANY_MASS),
        source: words(sources(scene)),
        evidence: words(inputs(scene)),
        uncertainty: words(COMPOSITION_ERROR),
    }
}

/// What data sheets do not name.
#[must_use]
pub fn unassigned(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("left open by data sheets"),
        what: words(
            "What the data sheets do not name. They rarely close; the rest is shown, never spread over the other parts. \
             It counts to the other solids.",
        ),
        formula: words(
            "The mass in the bowl less everything that is named; for each 100 g of an ingredient, 100 g less \
                        its parts.",
        ),
        range: with_sign(
            "Up to 0.2 g in 100 g is rounding of the tables; below zero the parts add up to more than the whole.",
            sign,
        ),
        source: words(FROM_INGREDIENTS),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("Rounding of the tables, up to 0.2 g in 100 g of an ingredient.", sign),
    }
}

/// What one line brings of one colour.
#[must_use]
pub fn brought(hue: Hue, name: &str, scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words(format!("{} of {name}", hue.words())),
        what: words("What this line alone brings into the bowl, before anything evaporates."),
        formula: words("Amount of the line × share in its ingredient."),
        range: words(ANY_MASS),
        source: words(FROM_INGREDIENTS),
        evidence: words(inputs(scene)),
        uncertainty: words(COMPOSITION_ERROR),
    }
}

/// The difference between now and the pinned state.
#[must_use]
pub fn difference(of: Group, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("{}, now less pinned", of.words())),
        what: words("How far the share has moved since the state was pinned, in points of percent of the mass."),
        formula: words("Share now less share in the pinned state."),
        range: with_sign("Below 0.05 points it shows as 0.", sign),
        source: words("Both states, computed in the same way."),
        evidence: words(inputs(scene)),
        uncertainty: words(
            "Smaller than that of either share: the errors of ingredients that both states have cancel in great part.",
        ),
    }
}
