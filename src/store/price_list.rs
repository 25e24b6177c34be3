//! The user's prices as a table that a spreadsheet opens: one line an ingredient.
//!
//! ```text
//! ingredient,name,price,currency,per,unit,usable_percent,date
//! cream-35,"Cream, 35 % fat",4.10,EUR,1,kg,100,2026-03-31
//! ```
//!
//! Read tolerantly: comma, semicolon or tab between the cells; columns in any order; other columns are passed over; empty
//! cells have what is usual; ids in any case, and names of built-in ingredients in their place. A single `,` or `.` is the
//! decimal sign. Written always in the one form above. It holds prices and nothing else: no amounts, no suppliers.
//!
//! A list that cannot be read, or that has columns of its own, is never written over.

mod error;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use csv::{ReaderBuilder, StringRecord, Trim};
use rust_decimal::Decimal;

use super::atomic::replace_file;
use super::error::LoadError;
use super::files::read_text;
use super::format::problem::shortened;
use crate::ingredient::Library;
use crate::ingredient::file::{is_id, plain_name};
use crate::number::parse_decimal;
use crate::production::price::{Currency, Price, PriceError};
use crate::production::price_list::{PriceEntry, PriceList};
use crate::recipe::MassUnit;

pub use error::{PriceListError, PriceListProblem};

/// The columns, in the order in which they are written.
const COLUMNS: [&str; 8] = ["ingredient", "name", "price", "currency", "per", "unit", "usable_percent", "date"];
const INGREDIENT: usize = 0;
const NAME: usize = 1;
const PRICE: usize = 2;
const CURRENCY: usize = 3;
const PER: usize = 4;
const UNIT: usize = 5;
const USABLE: usize = 6;
const DATE: usize = 7;

/// The columns without which there is no price.
const NEEDED: [usize; 3] = [INGREDIENT, PRICE, CURRENCY];

/// The prices of a file.
///
/// # Errors
///
/// [`PriceListError`]: which file, line and column, what is wrong and what to do.
pub fn load_price_list(path: &Path) -> Result<PriceList, PriceListError> {
    Ok(load(path)?.0)
}

/// The prices of a file that need not be there: without one there are none yet.
///
/// # Errors
///
/// [`PriceListError`], as [`load_price_list`].
pub fn load_own_price_list(path: &Path) -> Result<PriceList, PriceListError> {
    if path.exists() { load_price_list(path) } else { Ok(PriceList::default()) }
}

/// Writes the price of one ingredient into a file, or takes it out, and gives back the list as it is now.
///
/// The file is read first, so that what a spreadsheet wrote into it meanwhile stays; it is replaced in one step
/// ([`super::atomic`]). Its folder is made if it is not there.
///
/// # Errors
///
/// [`PriceListError`] when the file cannot be read or written, or has columns that would be lost; it is then untouched.
pub fn change_price(path: &Path, ingredient: &str, entry: Option<PriceEntry>) -> Result<PriceList, PriceListError> {
    let mut list = PriceList::default();
    if path.exists() {
        let (found, others) = load(path)?;
        if let Some(column) = others.into_iter().next() {
            return Err(PriceListError::OtherColumn { path: path.to_owned(), column });
        }
        list = found;
    } else if let Some(folder) = path.parent() {
        // Where that fails, writing says why.
        let _ = std::fs::create_dir_all(folder);
    }
    match entry {
        Some(entry) => list.put(ingredient, entry),
        None => list.remove(ingredient),
    };
    replace_file(path, write_price_list(&list).as_bytes()).map_err(PriceListError::Save)?;
    Ok(list)
}

fn load(path: &Path) -> Result<(PriceList, Vec<String>), PriceListError> {
    let text = read_text(path).map_err(|error| match error {
        // The other sentences speak of recipes.
        LoadError::Directory { path } | LoadError::Special { path } | LoadError::TooLarge { path } => {
            PriceListError::NoList { path }
        }
        other => PriceListError::Load(other),
    })?;
    read(&text, path)
}

/// The prices of a text; the path is named in errors.
///
/// # Errors
///
/// [`PriceListError`] with the first line and column that cannot be used, and why.
pub fn read_price_list(text: &str, path: &Path) -> Result<PriceList, PriceListError> {
    Ok(read(text, path)?.0)
}

/// The text of a price list, as this program writes it.
#[must_use]
pub fn write_price_list(list: &PriceList) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Writing to memory cannot fail, and every record has as many cells as there are columns.
    let _ = writer.write_record(COLUMNS);
    for (id, PriceEntry { name, price }) in list.iter() {
        let day = price.date().map(|day| day.to_string()).unwrap_or_default();
        let _ = writer.write_record([
            id,
            name,
            &price.amount().to_string(),
            price.currency().words(),
            &price.per().to_string(),
            price.unit().symbol(),
            &price.usable_percent().to_string(),
            &day,
        ]);
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// The list, and the names of columns that are none of ours.
fn read(text: &str, path: &Path) -> Result<(PriceList, Vec<String>), PriceListError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n");
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .trim(Trim::All)
        .delimiter(separator(&text))
        .from_reader(text.as_bytes());
    let mut header: Option<Header> = None;
    let mut list = PriceList::default();
    let mut lines = BTreeMap::new();
    for record in reader.records() {
        // Text that is UTF-8, read from memory with rows of any length, is always a table.
        let Ok(record) = record else { continue };
        let line = record.position().map_or(0, |position| line_at(&text, position.byte()));
        if record.iter().all(str::is_empty) {
            continue;
        }
        let fail = |(column, problem)| PriceListError::Content { path: path.to_owned(), line, column, problem };
        let Some(header) = &header else {
            header = Some(Header::of(&record).map_err(fail)?);
            continue;
        };
        let (id, entry) = header.entry(&record).map_err(fail)?;
        if let Some(first) = lines.insert(id.clone(), line) {
            return Err(fail((Some(COLUMNS[INGREDIENT]), PriceListProblem::Twice { ingredient: id, first })));
        }
        list.put(id, entry);
    }
    let Some(header) = header else {
        let problem = PriceListProblem::Empty;
        return Err(PriceListError::Content { path: path.to_owned(), line: 1, column: None, problem });
    };
    Ok((list, header.others))
}

/// The line of a record that begins there, from 1; the reader counts the blank lines before it to it.
fn line_at(text: &str, byte: u64) -> u64 {
    let start = usize::try_from(byte).unwrap_or(usize::MAX).min(text.len());
    let (before, rest) = text.split_at_checked(start).unwrap_or((text, ""));
    let blank = rest.len() - rest.trim_start_matches('\n').len();
    let breaks = before.matches('\n').count() + blank;
    u64::try_from(breaks).unwrap_or(u64::MAX).saturating_add(1)
}

/// What stands between the cells of the first line that has any.
fn separator(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    match first {
        line if line.contains('\t') => b'\t',
        line if line.contains(';') => b';',
        _ => b',',
    }
}

/// What is wrong, and in which column.
type CellProblem = (Option<&'static str>, PriceListProblem);

/// Which cell of a line is what.
struct Header {
    /// For each of [`COLUMNS`] its place.
    places: [Option<usize>; COLUMNS.len()],
    count: usize,
    others: Vec<String>,
}

impl Header {
    fn of(record: &StringRecord) -> Result<Self, CellProblem> {
        let mut header = Self { places: [None; COLUMNS.len()], count: record.len(), others: Vec::new() };
        for (place, cell) in record.iter().enumerate() {
            let name = cell.to_lowercase().replace(' ', "_");
            match COLUMNS.iter().position(|column| *column == name) {
                Some(column) if header.places[column].is_some() => {
                    return Err((Some(COLUMNS[column]), PriceListProblem::ColumnTwice { column: COLUMNS[column] }));
                }
                Some(column) => header.places[column] = Some(place),
                None if cell.is_empty() => {}
                None => header.others.push(shortened(cell)),
            }
        }
        match NEEDED.into_iter().find(|&column| header.places[column].is_none()) {
            Some(column) => Err((None, PriceListProblem::NoColumn { column: COLUMNS[column] })),
            None => Ok(header),
        }
    }

    /// What stands in a column; nothing where the line or the header ends before it.
    fn cell<'a>(&self, record: &'a StringRecord, column: usize) -> &'a str {
        self.places[column].and_then(|place| record.get(place)).unwrap_or_default()
    }

    fn entry(&self, record: &StringRecord) -> Result<(String, PriceEntry), CellProblem> {
        if let Some(surplus) = record.iter().skip(self.count).find(|cell| !cell.is_empty()) {
            return Err((None, PriceListProblem::Surplus { text: shortened(surplus) }));
        }
        let at = |column: usize| move |problem: PriceListProblem| (Some(COLUMNS[column]), problem);
        let text = |column: usize| self.cell(record, column);
        let needed = |column: usize| match text(column) {
            "" => Err(at(column)(PriceListProblem::NoCell)),
            text => Ok(text),
        };
        let number = |column: usize, text: &str| -> Result<Decimal, CellProblem> {
            parse_decimal(text).map_err(|error| at(column)(PriceListProblem::Number { text: shortened(text), error }))
        };
        let or = |column: usize, usual: Decimal| match text(column) {
            "" => Ok(usual),
            text => number(column, text),
        };
        let id = id_of(needed(INGREDIENT)?).map_err(at(INGREDIENT))?;
        let amount = number(PRICE, needed(PRICE)?)?;
        let currency = Currency::new(text(CURRENCY)).map_err(|error| at(CURRENCY)(error.into()))?;
        let per = or(PER, Decimal::ONE)?;
        let unit = match text(UNIT) {
            "" => MassUnit::Kilogram,
            text => MassUnit::from_symbol(&text.to_lowercase())
                .ok_or_else(|| at(UNIT)(PriceListProblem::Unit { text: shortened(text) }))?,
        };
        let usable = or(USABLE, Decimal::ONE_HUNDRED)?;
        let column_of = |error: &PriceError| match error {
            PriceError::Per { .. } => PER,
            PriceError::Usable { .. } => USABLE,
            PriceError::Decimals { figure } if *figure == amount => PRICE,
            PriceError::Decimals { figure } if *figure == per => PER,
            PriceError::Decimals { figure } if *figure == usable => USABLE,
            _ => PRICE,
        };
        let mut price = Price::new(amount, currency, per, unit)
            .and_then(|price| price.usable(usable))
            .map_err(|error| at(column_of(&error))(error.into()))?;
        if !text(DATE).is_empty() {
            price = price.dated(text(DATE).parse().map_err(|error| at(DATE)(PriceListProblem::Date(error)))?);
        }
        Ok((id, PriceEntry { name: plain_name(text(NAME)), price }))
    }
}

/// The id that a cell means: an id in any case, or the exact name of a built-in ingredient.
fn id_of(text: &str) -> Result<String, PriceListProblem> {
    if let Some(ingredient) = Library::built_in().by_id_or_name(text) {
        return Ok(ingredient.id.clone());
    }
    let id = text.to_lowercase();
    if is_id(&id) { Ok(id) } else { Err(PriceListProblem::NoIngredient { text: shortened(text) }) }
}

/// The user's own list in his folder for data.
#[must_use]
pub fn own_price_list(places: &super::Places) -> PathBuf {
    places.data.join("prices.csv")
}
