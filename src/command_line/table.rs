//! A plain table of ingredients and amounts becomes a recipe: the form in which spreadsheets hand them over.
//!
//! One line is one ingredient: its id or its exact name, and what is weighed of it.
//!
//! ```text
//! # Dark ganache, first try
//! ingredient;grams
//! Dark couverture, 64 % cocoa;250
//! cream-35;212,5
//! invert-syrup;30 g
//! ```
//!
//! * **Separator:** tab if there is one, else semicolon if there is one, else comma; those in quotation marks do not
//!   count. In a table separated by commas a name with commas needs no quotation marks if it is a known one.
//! * **Amounts** are read by [`number::parse_amount`]: a number or a small sum, perhaps with a unit (`g`, `kg`, `oz`,
//!   `lb`); grams where none stands. A single `,` or `.` is the decimal sign. Where that is in doubt within one table
//!   (`1.234` beside `567,5`, or between semicolons, which spreadsheets write where the comma is the decimal sign) the
//!   amount is refused and not guessed: the two readings differ by a factor of 1000.
//! * **Header:** may be left out; then the ingredient comes first. It names one column `ingredient` (or name, item, id)
//!   and one `grams` (or amount, weight, mass, quantity, also with a unit: `weight (kg)`), in any order and any case;
//!   a column `unit` holds the units of the amounts. Other columns that it names are passed over.
//! * Blank lines, lines of nothing but separators, and lines that begin with `#` are passed over. A byte order mark and
//!   every kind of line end are taken. A quotation mark closes on the line on which it opens.
//!
//! The module knows text only: who calls it has read the file. What a table cannot say (kind and use) comes as an
//! argument; losses, notes and temperatures need a recipe file.

mod error;
mod header;
#[cfg(test)]
mod tests;

use std::sync::Arc;

use crate::ingredient::file::plain_name;
use crate::ingredient::{Ingredient, Library};
use crate::number::{self, DecimalSign};
use crate::recipe::{Kind, Line, LineId, MassUnit, Quantity, Recipe, Use};
use crate::store::files::{file_name, stem};
use crate::store::format::problem::shortened;

pub use error::{Place, TableError, TableProblem};
use header::{Columns, Header};

/// What stands between the columns of a table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Separator {
    /// Found out from the text: tab, semicolon or comma.
    #[default]
    Detect,
    /// Tab, whatever else occurs: for `.tsv`.
    Tab,
}

/// The recipe that a plain table holds.
///
/// It is called like its file: the label without folders and without `.csv`, `.tsv` or `.txt`.
///
/// # Errors
///
/// [`TableError`] with the first line that cannot be used, and why.
///
/// ```
/// # use nibwright::command_line::table::{parse_table, Separator};
/// # use nibwright::ingredient::Library;
/// # use nibwright::recipe::Kind;
/// let text = "Dark couverture, 64 % cocoa,250\ncream-35,212.5";
/// let recipe = parse_table(text, "dark.csv", Separator::Detect, Kind::Ganache, None, Library::built_in()).unwrap();
/// assert_eq!(recipe.weighed().0, 462.5);
/// ```
pub fn parse_table(
    text: &str,
    label: &str,
    separator: Separator,
    kind: Kind,
    intended_use: Option<Use>,
    library: &Library,
) -> Result<Recipe, TableError> {
    let fail = |place: Option<Place>, problem| TableError { file: label.to_owned(), place, problem };
    let unified = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n");
    let lines = || (1..).zip(unified.split('\n')).filter(|(_, line)| has_content(line));
    let separator = match separator {
        Separator::Tab => '\t',
        Separator::Detect => detected(lines().map(|(_, line)| line)),
    };

    let mut recipe = Recipe { name: name_from(label), kind, intended_use, ..Recipe::default() };
    let mut table = Table { separator, columns: Columns::default(), library };
    let mut signs = Signs::default();
    let mut is_first = true;
    for (line, content) in lines() {
        let at = |(column, problem): CellProblem| fail(Some(Place { line, column }), problem);
        let cells = cells(content, separator).map_err(|problem| at((None, problem)))?;
        if cells.iter().all(String::is_empty) {
            continue;
        }
        if std::mem::take(&mut is_first)
            && let Some(header) = Header::of(&cells, |name| table.ingredient(name).is_some())
        {
            table.columns = header.columns().map_err(at)?;
            continue;
        }
        let row = table.row(cells).map_err(at)?;
        signs.note(line, &row);
        // Not `Recipe::push`, which looks at all lines for a free identity: a table may have thousands.
        let id = LineId(u32::try_from(recipe.lines.len()).unwrap_or(u32::MAX));
        recipe.lines.push(Line::new(id, row.ingredient, row.amount));
    }
    if let Some((place, problem)) = signs.doubt(separator) {
        return Err(fail(Some(place), problem));
    }
    if recipe.lines.is_empty() { Err(fail(None, TableProblem::Empty)) } else { Ok(recipe) }
}

/// What is wrong, and in which column it stands.
type CellProblem = (Option<usize>, TableProblem);

/// What is known about a table while its lines are read.
struct Table<'a> {
    separator: char,
    columns: Columns,
    library: &'a Library,
}

/// A line that is understood.
struct Row {
    ingredient: Arc<Ingredient>,
    amount: Quantity,
    /// The amount as it stands there.
    text: String,
    /// In which column, from 1.
    column: usize,
}

impl Table<'_> {
    /// The ingredient with this id or name; ids in any case, because spreadsheets like capitals.
    fn ingredient(&self, name: &str) -> Option<&Arc<Ingredient>> {
        self.library.by_id_or_name(name).or_else(|| self.library.by_id(&name.to_lowercase()))
    }

    /// What the cells of one line say.
    fn row(&self, mut cells: Vec<String>) -> Result<Row, CellProblem> {
        let Columns { ingredient: name_idx, amount: amount_idx, unit_symbol, count, unit } = self.columns;
        while cells.len() > count && cells.last().is_some_and(String::is_empty) {
            cells.pop();
        }
        if self.separator == ',' && self.ingredient(&cells.join(", ")).is_some() {
            return Err((None, self.missing_amount(&cells.join(", "))));
        }
        let surplus = cells.len().saturating_sub(count);
        if surplus > 0 {
            if self.separator != ',' {
                return Err((Some(count + 1), TableProblem::TooManyColumns { count: cells.len(), expected: count }));
            }
            self.join_name(&mut cells, surplus)?;
        }
        // Where the cell stood before the parts of a name were joined.
        let column = amount_idx + 1 + if amount_idx > name_idx { surplus } else { 0 };
        let cell = |idx: usize| cells.get(idx).map_or("", String::as_str);
        let (name, text) = (cell(name_idx), cell(amount_idx));
        if name.is_empty() {
            return Err((Some(name_idx + 1), TableProblem::MissingIngredient));
        }
        if is_total(name) && self.ingredient(name).is_none() {
            return Err((Some(name_idx + 1), TableProblem::Total { name: shortened(name) }));
        }
        if text.is_empty() {
            return Err((None, self.missing_amount(name)));
        }
        let Some(ingredient) = self.ingredient(name) else {
            let is_swapped = number::parse_amount(name).is_ok() && self.ingredient(text).is_some();
            let problem = if is_swapped { TableProblem::Swapped } else { self.unknown(name) };
            return Err((Some(name_idx + 1), problem));
        };
        let symbol = unit_symbol.map_or("", cell);
        let text = format!("{text} {symbol}").trim_end().to_owned();
        let amount = number::parse_amount(&text)
            .map_err(|error| TableProblem::Amount { text: shortened(&text), error })
            .and_then(|(value, symbol)| {
                let unit = symbol.and_then(MassUnit::from_symbol).unwrap_or(unit);
                Quantity::new(value, unit).map_err(TableProblem::Weight)
            })
            .map_err(|problem| (Some(column), problem))?;
        Ok(Row { ingredient: Arc::clone(ingredient), amount, text, column })
    }

    /// Puts a name together that the commas in it have parted, if that makes it an ingredient.
    fn join_name(&self, cells: &mut Vec<String>, surplus: usize) -> Result<(), CellProblem> {
        /// Parts of the longest name that is looked for. No built-in name has more than three.
        const MOST_PARTS: usize = 8;
        let start = self.columns.ingredient;
        let end = start + surplus;
        let joined = cells[start..=end].join(", ");
        let joined = without_quotes(&joined);
        if self.ingredient(joined).is_some() {
            let joined = joined.to_owned();
            cells.splice(start..=end, [joined]);
            return Ok(());
        }
        // A known name in front: then something behind it is too much.
        let known_parts = (1..=surplus.min(MOST_PARTS))
            .rev()
            .find(|parts| self.ingredient(&cells[start..start + parts].join(", ")).is_some());
        Err(match known_parts {
            Some(parts) if start + parts == end && is_split_number(&cells[end], cells.get(end + 1)) => {
                let text = format!("{},{}", cells[end], cells[end + 1]);
                (Some(end + 1), TableProblem::SplitNumber { text: shortened(&text) })
            }
            Some(_) => {
                let count = cells.len();
                (None, TableProblem::TooManyColumns { count, expected: self.columns.count })
            }
            None if number::parse_amount(&cells[start]).is_ok()
                && self.ingredient(&cells[start + 1..].join(", ")).is_some() =>
            {
                (Some(start + 1), TableProblem::Swapped)
            }
            None => (Some(start + 1), self.unknown(joined)),
        })
    }

    /// The error for a name without an amount.
    fn missing_amount(&self, name: &str) -> TableProblem {
        let separator = match self.separator {
            '\t' => "a tab",
            ';' => "a semicolon",
            // A comma is assumed where nothing was found.
            _ => "a comma, semicolon or tab",
        };
        TableProblem::MissingAmount { name: shortened(name), separator }
    }

    /// The error for a name that nothing has.
    fn unknown(&self, name: &str) -> TableProblem {
        /// Neighbours that are named.
        const COUNT: usize = 3;
        let name = shortened(name);
        let nearest = self.library.nearest(&name, COUNT);
        let nearest = nearest.into_iter().map(|found| format!("{} ({})", found.id, found.name)).collect();
        TableProblem::UnknownIngredient { name, nearest }
    }
}

/// Which decimal signs the amounts of a table have, and which amounts could be read in two ways.
#[derive(Default)]
struct Signs {
    has_point: bool,
    has_comma: bool,
    doubtful: Vec<(Place, String, DecimalSign)>,
}

impl Signs {
    /// Takes in how an amount is written.
    fn note(&mut self, line: usize, row: &Row) {
        /// Digits behind a group sign.
        const GROUP: usize = 3;
        let digits = row.text.trim_end_matches(|end: char| end.is_alphabetic() || end.is_whitespace());
        // A sum does not tell which of its signs belong to one number.
        if !digits.chars().all(|part| part.is_ascii_digit() || part.is_whitespace() || ",.'\u{2019}".contains(part)) {
            return;
        }
        let mut found = digits.char_indices().filter(|(_, sign)| matches!(sign, ',' | '.'));
        let Some((first_idx, first)) = found.next() else { return };
        let (last, is_single) = found.next_back().map_or((first, true), |(_, last)| (last, false));
        if is_single {
            let (whole, decimals) = (&digits[..first_idx], &digits[first_idx + 1..]);
            let are_digits = [whole, decimals].iter().all(|part| part.chars().all(|digit| digit.is_ascii_digit()));
            let fits = (1..=GROUP).contains(&whole.len()) && !whole.starts_with('0') && decimals.len() == GROUP;
            if are_digits && fits {
                let sign = if first == ',' { DecimalSign::Comma } else { DecimalSign::Point };
                let place = Place { line, column: Some(row.column) };
                self.doubtful.push((place, digits.to_owned(), sign));
                return;
            }
        }
        // One sign several times parts groups: then the other one is the decimal sign.
        let is_comma = (last == ',') == (is_single || first != last);
        self.has_comma |= is_comma;
        self.has_point |= !is_comma;
    }

    /// The first amount that the others put in doubt.
    fn doubt(self, separator: char) -> Option<(Place, TableProblem)> {
        // Commas between the columns leave the point for decimals, and semicolons are there to leave the comma for them,
        // unless the amounts show otherwise.
        let has_point = self.has_point || (separator == ',' && !self.has_comma);
        let has_comma = self.has_comma || (separator == ';' && !self.has_point);
        let (place, text, sign) = self.doubtful.into_iter().find(|(_, _, sign)| match sign {
            DecimalSign::Comma => has_point,
            DecimalSign::Point => has_comma,
        })?;
        let other = if sign == DecimalSign::Comma { DecimalSign::Point } else { DecimalSign::Comma };
        let small = text.replace(sign.character(), other.character().encode_utf8(&mut [0; 4]));
        let large = text.replace(sign.character(), "");
        Some((place, TableProblem::Doubtful { text, small, large }))
    }
}

/// Whether a name is none but that of the sum of the lines.
fn is_total(name: &str) -> bool {
    const NAMES: [&str; 6] = ["total", "totals", "sum", "together", "sum total", "grand total"];
    let name = name.trim_end_matches(':').trim_end();
    NAMES.iter().any(|total| name.eq_ignore_ascii_case(total))
}

/// Whether a line is more than blanks and more than a remark.
fn has_content(line: &str) -> bool {
    let line = line.trim();
    !line.is_empty() && !line.starts_with('#')
}

/// The separator of these lines.
fn detected<'a>(lines: impl Iterator<Item = &'a str>) -> char {
    let mut has_semicolon = false;
    for line in lines {
        let (outside, _) = outside_quotes(line, &['\t', ';', ',']);
        if outside.contains('\t') {
            return '\t';
        }
        has_semicolon |= outside.contains(';');
    }
    if has_semicolon { ';' } else { ',' }
}

/// What of a line stands outside quotation marks, and whether they all close.
///
/// They open at the beginning of a cell only; elsewhere they are characters like others.
fn outside_quotes(line: &str, separators: &[char]) -> (String, bool) {
    let mut outside = String::with_capacity(line.len());
    let mut is_inside = false;
    // At the beginning of a cell, or behind a closing mark: a second one there is a character of the cell.
    let mut may_open = true;
    for character in line.chars() {
        if character == '"' && (is_inside || may_open) {
            is_inside = !is_inside;
            may_open = true;
        } else if !is_inside {
            outside.push(character);
            may_open = separators.contains(&character);
        }
    }
    (outside, !is_inside)
}

/// The cells of a line, without the blanks around them.
fn cells(line: &str, separator: char) -> Result<Vec<String>, TableProblem> {
    let (_, closes) = outside_quotes(line, &[separator]);
    if !closes {
        return Err(TableProblem::UnclosedQuote);
    }
    // The three separators are ASCII.
    let delimiter = u8::try_from(separator).unwrap_or(b',');
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).delimiter(delimiter).flexible(true).from_reader(line.as_bytes());
    let record = reader.records().next().and_then(Result::ok).unwrap_or_default();
    Ok(record.iter().map(|cell| without_quotes(cell.trim()).to_owned()).collect())
}

/// The text between quotation marks around it: a blank before the first hides them from the rules of the format.
fn without_quotes(cell: &str) -> &str {
    cell.strip_prefix('"').and_then(|cell| cell.strip_suffix('"')).map_or(cell, str::trim)
}

/// Whether two neighbouring cells are the parts of one number with a decimal comma.
fn is_split_number(whole: &str, decimals: Option<&String>) -> bool {
    let is_digits = |text: &str| !text.is_empty() && text.chars().all(|digit| digit.is_ascii_digit());
    let decimals = decimals.map_or("", String::as_str);
    is_digits(whole) && is_digits(decimals.trim_end_matches(|end: char| end.is_alphabetic() || end.is_whitespace()))
}

/// The name of a recipe that comes from this file.
fn name_from(label: &str) -> String {
    let name = file_name(label);
    let is_table = |(_, end): (&str, &str)| ["csv", "tsv", "txt"].iter().any(|known| end.eq_ignore_ascii_case(known));
    let name = if name.rsplit_once('.').is_some_and(is_table) { stem(name) } else { name }.trim();
    plain_name(if name.is_empty() { label } else { name })
}
