//! Why a price list is refused: one sentence with file, line and column, what is wrong and what to do.

use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::number::NumberError;
use crate::production::date::DateError;
use crate::production::price::PriceError;
use crate::store::error::{LoadError, SaveError};
use crate::store::format::problem::on_one_line;

/// Why a price list cannot be read or written.
#[derive(Debug, Error)]
pub enum PriceListError {
    /// It cannot be read.
    #[error("{0}")]
    Load(LoadError),
    /// It is a folder, a device, or far too large.
    #[error("{}: this is no price list; name a table of text (.csv)", shown(path))]
    NoList {
        /// As it was given.
        path: PathBuf,
    },
    /// Something in it is refused.
    #[error("{}, line {line}{}: {problem}", shown(path), in_column(*column))]
    Content {
        /// As it was given.
        path: PathBuf,
        /// From 1.
        line: u64,
        /// By its name; `None` when it is about the whole line.
        column: Option<&'static str>,
        /// What is wrong.
        problem: PriceListProblem,
    },
    /// It has a column that this program would lose.
    #[error(
        "{}: the list has a column \"{}\" of its own, which would be lost; change the price in your spreadsheet",
        shown(path),
        column.escape_debug()
    )]
    OtherColumn {
        /// As it was given.
        path: PathBuf,
        /// The name of the column.
        column: String,
    },
    /// It cannot be written.
    #[error("{0}")]
    Save(SaveError),
}

/// What is wrong in a price list.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum PriceListProblem {
    /// There is no line at all.
    #[error("the list is empty; begin it with the names of its columns: ingredient, price, currency")]
    Empty,
    /// The first line does not name a column that is needed.
    #[error("no column is called {column}; the first line names the columns, at least ingredient, price and currency")]
    NoColumn {
        /// Its name.
        column: &'static str,
    },
    /// The first line names a column twice.
    #[error("two columns are called {column}; keep one of them")]
    ColumnTwice {
        /// Its name.
        column: &'static str,
    },
    /// A line has more cells than there are columns.
    #[error(
        "\"{}\" stands behind the last column; put a cell that holds the separator into quotation marks",
        text.escape_debug()
    )]
    Surplus {
        /// What stands there.
        text: String,
    },
    /// Nothing stands where something is needed.
    #[error("nothing stands here; fill the cell, or take the line out")]
    NoCell,
    /// It is neither an id nor a name.
    #[error(
        "\"{}\" is no id of an ingredient and no name of a built-in one; write the id, such as cream-35",
        text.escape_debug()
    )]
    NoIngredient {
        /// What stands there.
        text: String,
    },
    /// An ingredient has two prices.
    #[error("{ingredient} has a price in line {first} already; keep one of them")]
    Twice {
        /// Its id.
        ingredient: String,
        /// Where the first one stands.
        first: u64,
    },
    /// It is no number.
    #[error("\"{}\" is no number: {error}", text.escape_debug())]
    Number {
        /// What stands there.
        text: String,
        /// Why.
        error: NumberError,
    },
    /// It is no unit of mass.
    #[error("\"{}\" is no unit that is known here; use g, kg, oz or lb", text.escape_debug())]
    Unit {
        /// What stands there.
        text: String,
    },
    /// The price is out of range.
    #[error("{0}")]
    Price(#[from] PriceError),
    /// It is no day.
    #[error("{0}")]
    Date(DateError),
}

fn shown(path: &Path) -> String {
    on_one_line(&path.display().to_string())
}

fn in_column(column: Option<&'static str>) -> String {
    column.map_or(String::new(), |column| format!(", column {column}"))
}
