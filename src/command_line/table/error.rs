//! Why a table is refused: one sentence with the place, what is wrong and what to do.

use std::fmt;

use thiserror::Error;

use crate::number::NumberError;
use crate::recipe::QuantityError;

/// Why a table is refused.
#[derive(Clone, Debug, Error, PartialEq)]
#[error("{file}{}: {problem}", place.map(|place| place.to_string()).unwrap_or_default())]
pub struct TableError {
    /// The file, as it was named.
    pub file: String,
    /// Where in it; `None` when it is about the whole.
    pub place: Option<Place>,
    /// What is wrong.
    pub problem: TableProblem,
}

/// A place in a table. Both count from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The line of the text.
    pub line: usize,
    /// The column of the table; `None` when it is about the whole line.
    pub column: Option<usize>,
}

/// What is wrong with a table.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum TableProblem {
    /// No line with an ingredient.
    #[error("there is no ingredient in the table; write one line for each, such as cream-35;250")]
    Empty,
    /// A quotation mark opens and does not close.
    #[error("a quotation mark opens here and does not close on the same line; close it or leave it away")]
    UnclosedQuote,
    /// The first line looks like a header and none of its words is known.
    #[error(
        "\"{first}\" and \"{second}\" look like a header that is not known here; call the columns ingredient and grams"
    )]
    UnknownHeader {
        /// The first cell.
        first: String,
        /// The second cell.
        second: String,
    },
    /// The header lacks a column.
    #[error("the header names no column for the {what}; call it {what}")]
    HeaderWithout {
        /// `ingredient`, `grams` or `unit`.
        what: &'static str,
    },
    /// The header names two columns for the same.
    #[error("the header names two columns for the {what}; keep one of them")]
    HeaderTwice {
        /// `ingredient`, `grams` or `unit`.
        what: &'static str,
    },
    /// The header names a unit that is no unit of mass.
    #[error("\"{unit}\" in the header is no unit that is known here; use g, kg, oz or lb")]
    HeaderUnit {
        /// What stands there.
        unit: String,
    },
    /// No ingredient.
    #[error("the ingredient is missing; write its id or its exact name")]
    MissingIngredient,
    /// No amount.
    #[error("\"{name}\" has no amount; write its grams in the column for them, behind {separator}")]
    MissingAmount {
        /// The ingredient.
        name: String,
        /// What stands between the columns, in words.
        separator: &'static str,
    },
    /// More cells than columns.
    #[error(
        "the line has {count} columns where {expected} are expected; keep the ingredient and its grams, \
        or name all columns in a header line"
    )]
    TooManyColumns {
        /// How many there are.
        count: usize,
        /// How many there should be.
        expected: usize,
    },
    /// The amount comes first, without a header that says so.
    #[error("the amount stands before the ingredient; exchange the two, or begin with the header grams;ingredient")]
    Swapped,
    /// The sum of the lines.
    #[error("\"{name}\" looks like a total; leave it out")]
    Total {
        /// The name.
        name: String,
    },
    /// A name that nothing has.
    #[error("\"{name}\" is no ingredient that is known here; {}write the id or the exact name", nearest_words(nearest))]
    UnknownIngredient {
        /// The name.
        name: String,
        /// Ids, with their names, that come near.
        nearest: Vec<String>,
    },
    /// The amount is no number.
    #[error("the amount \"{text}\" cannot be used: {error}")]
    Amount {
        /// What stands there.
        text: String,
        /// Why.
        error: NumberError,
    },
    /// The amount is a number and no weight.
    #[error("{0}")]
    Weight(QuantityError),
    /// A number with a decimal comma in a table that is separated by commas.
    #[error(
        "\"{text}\" is parted by the comma that separates the columns; write the number with a point \
        and without group signs, or separate the columns by semicolons"
    )]
    SplitNumber {
        /// The number.
        text: String,
    },
    /// An amount that could be a thousand times as much.
    #[error("\"{text}\" can mean {large} or {small} in this table; write the one that is meant")]
    Doubtful {
        /// What stands there.
        text: String,
        /// With its sign as a decimal sign.
        small: String,
        /// With its sign as a group sign.
        large: String,
    },
}

impl fmt::Display for Place {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, ", line {}", self.line)?;
        self.column.map_or(Ok(()), |column| write!(formatter, ", column {column}"))
    }
}

fn nearest_words(nearest: &[String]) -> String {
    match nearest {
        [] => String::new(),
        [only] => format!("the nearest is {only}; "),
        [others @ .., last] => format!("the nearest are {} and {last}; ", others.join(", ")),
    }
}
