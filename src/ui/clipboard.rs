//! Lines as a table for the clipboard: tabs between cells, the user's decimal sign, as spreadsheets paste it.

use crate::number::{DecimalSign, typed};
use crate::recipe::Recipe;

/// Ingredient and grams of every line, with a header.
#[must_use]
pub fn table(recipe: &Recipe, sign: DecimalSign) -> String {
    let mut text = String::from("ingredient\tgrams\n");
    for line in &recipe.lines {
        text.push_str(&line.ingredient.name.replace(['\t', '\n'], " "));
        text.push('\t');
        text.push_str(&typed(line.amount.grams().0, sign));
        text.push('\n');
    }
    text
}
