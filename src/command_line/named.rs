//! What a line or an ingredient is called on the command line, and what is said where a name fits none or several.

use std::sync::Arc;

use crate::ingredient::named::{NotNamed, named, names_and_ids};
use crate::ingredient::{Ingredient, Library};
use crate::recipe::{Line, Recipe};
use crate::reformulate::{Place, Problem};

/// So many names that come near are told.
const NEAREST: usize = 3;

/// The lines of the ingredient with this name; all of them, where it stands in several.
pub(super) fn lines_named<'a>(recipe: &'a Recipe, name: &str) -> Result<Vec<&'a Line>, String> {
    recipe.lines_named(name).map_err(|why| not_in_recipe(name, recipe, why))
}

fn not_in_recipe(name: &str, recipe: &Recipe, why: NotNamed) -> String {
    match why {
        NotNamed::Unknown => {
            let known = names_and_ids(recipe.lines.iter().map(|line| &line.ingredient));
            format!("\"{name}\" is no line of the recipe; its lines are {}", known.join("; "))
        }
        NotNamed::Several(several) => several_called(name, &several),
    }
}

fn several_called(name: &str, several: &[Arc<Ingredient>]) -> String {
    /// More are no help.
    const TOLD: usize = 6;
    let names = names_and_ids(several);
    let more = if names.len() > TOLD { format!(" and {} more", names.len() - TOLD) } else { String::new() };
    let told: Vec<String> = names.into_iter().take(TOLD).collect();
    format!("\"{name}\" can mean {}{more}; write one of these", told.join("; "))
}

/// The only line with this name, or what may be used besides with it.
pub(super) fn place_named(problem: &Problem, name: &str) -> Result<Place, String> {
    let recipe = &problem.recipe;
    let all = recipe.lines.iter().map(|line| &line.ingredient);
    let all = all.chain(problem.allowed.iter().map(|allowed| &allowed.ingredient));
    let found = named(name, all).map_err(|why| not_in_recipe(name, recipe, why))?;
    // A line of the recipe counts more than what may be used besides.
    let lines: Vec<&Line> = recipe.lines.iter().filter(|line| line.ingredient.id == found.id).collect();
    match lines.as_slice() {
        [only] => Ok(Place::Line(only.id)),
        [] => {
            let idx = problem.allowed.iter().position(|allowed| allowed.ingredient.id == found.id);
            idx.map(Place::Allowed).ok_or_else(|| not_in_recipe(name, recipe, NotNamed::Unknown))
        }
        several => Err(format!(
            "\"{name}\" stands in {} lines of the recipe; put them together in one line first",
            several.len()
        )),
    }
}

/// An ingredient that is carried along, such as one of a recipe, or a built-in one.
pub(super) fn ingredient_named<'a>(
    name: &str,
    carried: impl IntoIterator<Item = &'a Arc<Ingredient>>,
) -> Result<Arc<Ingredient>, String> {
    let library = Library::built_in();
    // Figures that are carried count more than built-in ones with the same id.
    let found = named(name, carried.into_iter().chain(library.iter()));
    found.cloned().map_err(|why| match why {
        NotNamed::Unknown => {
            let nearest = names_and_ids(library.nearest(name, NEAREST));
            format!("\"{name}\" is no ingredient that is known here; the nearest are {}", nearest.join("; "))
        }
        NotNamed::Several(several) => several_called(name, &several),
    })
}

/// All ingredients that a recipe carries.
pub(super) fn carried(recipe: &Recipe) -> impl Iterator<Item = &Arc<Ingredient>> {
    recipe.lines.iter().map(|line| &line.ingredient).chain(&recipe.spare_ingredients)
}
