//! The header line of a table: which column is which.

use super::CellProblem;
use super::error::TableProblem;
use crate::ingredient::search::fold;
use crate::number;
use crate::recipe::MassUnit;
use crate::store::format::problem::shortened;

/// Where ingredient and amount stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Columns {
    /// The column of the ingredient, from 0.
    pub(super) ingredient: usize,
    /// The column of the amount, from 0.
    pub(super) amount: usize,
    /// The column of the amount's unit, from 0.
    pub(super) unit_symbol: Option<usize>,
    /// How many columns there are.
    pub(super) count: usize,
    /// The unit of amounts that name none.
    pub(super) unit: MassUnit,
}

/// The first line of a table, when it holds headings.
pub(super) struct Header<'a> {
    cells: &'a [String],
}

/// What a heading stands for.
enum Heading {
    Ingredient,
    Amount(MassUnit),
    /// An amount in a unit that is not known.
    AmountIn(String),
    UnitSymbol,
    Other,
}

impl Default for Columns {
    /// Without a header: ingredient, then grams.
    fn default() -> Self {
        Self { ingredient: 0, amount: 1, unit_symbol: None, count: 2, unit: MassUnit::Gram }
    }
}

impl<'a> Header<'a> {
    /// The header that these cells of the first line are; `None` if they are an ingredient with its amount.
    ///
    /// A header has no number in it and no ingredient, and either a heading that is known or two words.
    pub(super) fn of(cells: &'a [String], is_ingredient: impl Fn(&str) -> bool) -> Option<Self> {
        let has_amount = cells.iter().any(|cell| number::parse_amount(cell).is_ok());
        let has_ingredient = cells.iter().any(|cell| is_ingredient(cell)) || is_ingredient(&cells.join(", "));
        let is_known = cells.iter().any(|cell| !matches!(heading(cell), Heading::Other));
        let are_words =
            cells.len() > 1 && cells.iter().all(|cell| !cell.is_empty() && !cell.chars().any(char::is_numeric));
        (!has_amount && !has_ingredient && (is_known || are_words)).then_some(Self { cells })
    }

    /// The columns that it names.
    pub(super) fn columns(&self) -> Result<Columns, CellProblem> {
        let mut ingredient = None;
        let mut amount = None;
        let mut unit_symbol = None;
        for (idx, cell) in self.cells.iter().enumerate() {
            let twice = |what| (Some(idx + 1), TableProblem::HeaderTwice { what });
            match heading(cell) {
                Heading::Ingredient if ingredient.is_some() => return Err(twice("ingredient")),
                Heading::Ingredient => ingredient = Some(idx),
                Heading::Amount(_) if amount.is_some() => return Err(twice("grams")),
                Heading::Amount(unit) => amount = Some((idx, unit)),
                Heading::AmountIn(unit) => {
                    return Err((Some(idx + 1), TableProblem::HeaderUnit { unit: shortened(&unit) }));
                }
                Heading::UnitSymbol if unit_symbol.is_some() => return Err(twice("unit")),
                Heading::UnitSymbol => unit_symbol = Some(idx),
                Heading::Other => {}
            }
        }
        match (ingredient, amount) {
            (Some(ingredient), Some((amount, unit))) => {
                Ok(Columns { ingredient, amount, unit_symbol, count: self.cells.len(), unit })
            }
            (Some(_), None) => Err((None, TableProblem::HeaderWithout { what: "grams" })),
            (None, Some(_)) => Err((None, TableProblem::HeaderWithout { what: "ingredient" })),
            (None, None) => {
                let cell = |idx: usize| self.cells.get(idx).map(|cell| shortened(cell)).unwrap_or_default();
                Err((None, TableProblem::UnknownHeader { first: cell(0), second: cell(1) }))
            }
        }
    }
}

/// What a cell of a header stands for: `Ingredient`, `grams`, `Weight (kg)`, `amount in g`.
fn heading(cell: &str) -> Heading {
    // A column of shares is no column of weights, whatever else its heading says.
    if cell.contains('%') {
        return Heading::Other;
    }
    let folded = fold(cell);
    let words: Vec<&str> = folded.split(|part: char| !part.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    match words[..] {
        ["ingredient" | "ingredients" | "name" | "item" | "id"] | ["ingredient", "id" | "name"] => Heading::Ingredient,
        ["unit" | "units"] => Heading::UnitSymbol,
        ["amount" | "weight" | "mass" | "quantity"] => Heading::Amount(MassUnit::Gram),
        ["amount" | "weight" | "mass" | "quantity", unit] | ["amount" | "weight" | "mass" | "quantity", "in", unit] => {
            unit_of(unit).map_or_else(|| Heading::AmountIn(unit.to_owned()), Heading::Amount)
        }
        [unit] => unit_of(unit).map_or(Heading::Other, Heading::Amount),
        _ => Heading::Other,
    }
}

/// The unit that a word means.
fn unit_of(word: &str) -> Option<MassUnit> {
    let (_, symbol) = number::parse_amount(&format!("1 {word}")).ok()?;
    symbol.and_then(MassUnit::from_symbol)
}
