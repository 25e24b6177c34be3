//! Recipes built in one line, and the figures of an analysis by name.

use std::sync::Arc;

use nibwright::analysis::finding::{Finding, Subject};
use nibwright::analysis::parts::Group;
use nibwright::analysis::remedy::Remedy;
use nibwright::analysis::{Analysis, ROOM, analyse};
use nibwright::ingredient::{Component, Composition, Ingredient, Library};
use nibwright::recipe::{Evaporation, Kind, Quantity, Recipe, Use};

/// The built-in ingredient with this id.
pub fn built_in(id: &str) -> Arc<Ingredient> {
    Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in")).clone()
}

/// So many grams, as typed.
pub fn grams(value: f64) -> Quantity {
    Quantity::from_grams(value).unwrap_or_else(|error| panic!("{value} g: {error}"))
}

/// An ingredient with exactly these grams per 100 g; what is left of 100 is declared as unassigned.
pub fn own(id: &str, parts: &[(Component, f64)]) -> Arc<Ingredient> {
    own_with(id, parts, &[], 100.0 - parts.iter().map(|(_, grams)| grams).sum::<f64>())
}

/// An ingredient with these grams per 100 g, some figures not known, and a declared unassigned part.
pub fn own_with(id: &str, parts: &[(Component, f64)], unknown: &[Component], unassigned: f64) -> Arc<Ingredient> {
    // The difference of two sums can end a hair below zero.
    let composition = Composition::new(parts.iter().copied(), unknown.iter().copied(), unassigned.max(0.0));
    let composition = composition.unwrap_or_else(|error| panic!("{id}: {error}"));
    Arc::new(Ingredient { composition, ..Ingredient::unknown(id, id) })
}

/// A recipe of these ingredients, of no kind and for no use.
pub fn recipe_of(lines: &[(Arc<Ingredient>, f64)]) -> Recipe {
    let mut recipe = Recipe::default();
    for (ingredient, amount) in lines {
        recipe.push(Arc::clone(ingredient), grams(*amount));
    }
    recipe
}

/// A recipe of built-in ingredients, of no kind and for no use.
pub fn recipe(lines: &[(&str, f64)]) -> Recipe {
    recipe_of(&lines.iter().map(|(id, amount)| (built_in(id), *amount)).collect::<Vec<_>>())
}

/// The same recipe with a kind and a use.
pub fn made_for(mut recipe: Recipe, kind: Kind, intended_use: impl Into<Option<Use>>) -> Recipe {
    recipe.kind = kind;
    recipe.intended_use = intended_use.into();
    recipe
}

/// The same recipe with so many grams of water that evaporate.
pub fn evaporating(mut recipe: Recipe, amount: f64) -> Recipe {
    recipe.losses.evaporation = Evaporation::Weighed(grams(amount));
    recipe
}

/// Everything that is computed, at room temperature.
pub fn analysis_of(recipe: &Recipe) -> Analysis {
    analyse(recipe, ROOM)
}

/// Percent of a component in the bowl; panics where it is not known.
pub fn percent(analysis: &Analysis, component: Component) -> f64 {
    let share = analysis.make_up.bowl.share(component);
    share.unwrap_or_else(|| panic!("{} is known", component.key())).to_percent()
}

/// Percent of a group in the bowl; panics where it is not known.
pub fn group(analysis: &Analysis, group: Group) -> f64 {
    let share = analysis.make_up.bowl.group_share(group);
    share.unwrap_or_else(|| panic!("{} is known", group.key())).to_percent()
}

/// The codes of all findings, in their order.
pub fn codes(analysis: &Analysis) -> Vec<&'static str> {
    analysis.findings.iter().map(|finding| finding.code).collect()
}

/// The finding with this code; panics where there is none.
pub fn finding<'a>(analysis: &'a Analysis, code: &str) -> &'a Finding {
    let found = analysis.findings.iter().find(|finding| finding.code == code);
    found.unwrap_or_else(|| panic!("no finding {code} among {:?}", codes(analysis)))
}

/// The changes of single lines that a finding offers.
pub fn remedies(finding: &Finding) -> &[Remedy] {
    match &finding.subject {
        Subject::EmulsionHasRoom { to_limit: remedies, .. }
        | Subject::EmulsionCrowded { remedies, .. }
        | Subject::FatToWater { remedies, .. }
        | Subject::OutsideUsual { remedies, .. } => &remedies.offered,
        _ => &[],
    }
}

/// The recipe with the line of a remedy changed as it says.
pub fn remedied(recipe: &Recipe, remedy: &Remedy) -> Recipe {
    let mut changed = recipe.clone();
    let line = changed.lines.iter_mut().find(|line| line.id == remedy.line);
    let line = line.unwrap_or_else(|| panic!("the line of {} is there", remedy.name));
    line.amount = grams(line.amount.grams().0 + remedy.change.0);
    changed
}

/// Every finding's remedies, carried out one by one, bring its figure to the bound; gives back how many there were.
///
/// The figure is in the unit of the report: percent, volume share, grams over grams. The tolerance is 0.001 of it.
pub fn check_remedies(recipe: &Recipe) -> usize {
    let before = analysis_of(recipe);
    let mut count = 0;
    for finding in &before.findings {
        for remedy in remedies(finding) {
            let after = analysis_of(&remedied(recipe, remedy));
            let (figure, bound) = figure_and_bound(finding, &after);
            assert!(
                (figure - bound).abs() < 1e-3,
                "{}: {:+.3} g {} gives {figure}, not {bound}",
                finding.code,
                remedy.change.0,
                remedy.name
            );
            count += 1;
        }
    }
    count
}

fn figure_and_bound(finding: &Finding, after: &Analysis) -> (f64, f64) {
    let emulsion = || after.emulsion.emulsion().expect("it still is an emulsion");
    match &finding.subject {
        Subject::EmulsionHasRoom { .. } | Subject::EmulsionCrowded { .. } => (emulsion().dispersed_share().0, 0.64),
        Subject::FatToWater { .. } => (emulsion().fat_to_water, 1.6),
        Subject::OutsideUsual { range, share, .. } => {
            // "Less than 2 %" is met by what is shown as 1.9 %.
            let high = if range.high_is_outside { range.high - 0.1 } else { range.high };
            let bound = if share.to_percent() < range.low { range.low } else { high };
            (range.of.of(&after.make_up.bowl).expect("it still is known").to_percent(), bound)
        }
        other => panic!("{other:?} offers nothing"),
    }
}
