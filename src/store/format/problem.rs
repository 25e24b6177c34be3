//! What can be wrong with the text of a file, in the user's words.

use thiserror::Error;

use super::outline::TextPlace;
use crate::ingredient::file::EntryError;
use crate::number::as_given;
use crate::recipe::{
    CookTemperatureError, CreamShareError, HeightError, MixTemperatureError, PhError, QuantityError,
    SeedTemperatureError, SettingError, StirringTimeError, TransferLossError, TriglyceridesError,
};
use crate::units::Celsius;

/// What is wrong with the text of a file, and where.
#[derive(Clone, Debug)]
pub struct FormatError {
    /// Where it is wrong.
    pub place: TextPlace,
    /// What is wrong and what to do.
    pub problem: Problem,
}

/// What is wrong with the text of a file.
#[derive(Clone, Debug, Error)]
pub enum Problem {
    /// Nothing is in it.
    #[error("the file is empty; it should begin with `(format: {known},`")]
    Empty {
        /// The newest format that this version knows.
        known: u32,
    },
    /// A later version of the program has written it.
    #[error("the file has format {found}, this version knows up to format {known}; open it with a newer version")]
    Newer {
        /// The format of the file, as it stands there.
        found: String,
        /// The newest format that this version knows.
        known: u32,
    },
    /// It does not say its format.
    #[error("the file does not say its format; add `format: {known},` after the first bracket")]
    NoFormat {
        /// The newest format that this version knows.
        known: u32,
    },
    /// Its format is no format.
    #[error("the format `{found}` does not exist; write `format: {known}`")]
    BadFormat {
        /// What stands there.
        found: String,
        /// The newest format that this version knows.
        known: u32,
    },
    /// Brackets in brackets in brackets.
    #[error("brackets are nested more than {most} deep here; a recipe needs five levels, remove the rest")]
    TooDeep {
        /// How many are read.
        most: usize,
    },
    /// A bracket closes the wrong one.
    #[error("`{found}` closes nothing here; first close the `{open}` that was opened at {opened}")]
    Crossed {
        /// The bracket that closes.
        found: String,
        /// The bracket that is open.
        open: String,
        /// Where it was opened.
        opened: TextPlace,
    },
    /// A bracket closes nothing.
    #[error("`{found}` closes nothing; remove it or add the opening bracket")]
    Stray {
        /// The bracket.
        found: String,
    },
    /// A bracket, a text or a comment is still open at the end.
    #[error("the file ends before the {what} opened here is closed; add `{missing}`")]
    Open {
        /// What is open.
        what: String,
        /// What closes it.
        missing: String,
    },
    /// Something else is expected.
    #[error("write {wanted} here instead of {found}")]
    Unexpected {
        /// What to write.
        wanted: String,
        /// What stands there.
        found: String,
    },
    /// Anything else that the parser does not take.
    #[error("{sentence}")]
    Syntax {
        /// What is wrong and what to do.
        sentence: String,
    },
    /// A field that does not exist.
    #[error("there is no field `{field}` here{}; {}", nearest_words(nearest.as_ref()), known_words(known))]
    UnknownField {
        /// Its name.
        field: String,
        /// The name that was probably meant.
        nearest: Option<String>,
        /// The names that exist.
        known: Vec<String>,
    },
    /// A word that does not exist.
    #[error("`{word}` is not known here{}; {}", nearest_words(nearest.as_ref()), known_words(known))]
    UnknownWord {
        /// The word.
        word: String,
        /// The word that was probably meant.
        nearest: Option<String>,
        /// The words that exist.
        known: Vec<String>,
    },
    /// A field that is needed.
    #[error("the field `{field}` is missing in the entry that begins here; add `{field}: …`")]
    MissingField {
        /// Its name.
        field: String,
    },
    /// A field that is there twice.
    #[error("the field `{field}` is given twice; remove one of them")]
    TwiceField {
        /// Its name.
        field: String,
    },
    /// A line that names nothing.
    #[error("the line names nothing; add `ingredient: \"…\"` or `recipe: \"….ron\"`")]
    EmptyLine,
    /// A line that names two things.
    #[error("the line names both an ingredient and a recipe; keep one of them")]
    DoubleLine,
    /// An ingredient that is neither in the file nor built in.
    #[error(
        "the ingredient \"{id}\" is neither in this file nor built in; {} or add it under `ingredients`",
        id_words(nearest)
    )]
    UnknownIngredient {
        /// Its id.
        id: String,
        /// The ids that come nearest.
        nearest: Vec<String>,
    },
    /// Two ingredients of the file have one id.
    #[error("the ingredient \"{id}\" is given twice; remove one of them or change its id")]
    TwiceIngredient {
        /// Their id.
        id: String,
    },
    /// The figures of an ingredient are refused.
    #[error("{}", with_advice(.0.to_string()))]
    Ingredient(EntryError),
    /// An amount is refused.
    #[error("{0}")]
    Amount(QuantityError),
    /// The analysis of the cocoa butter is refused.
    #[error("{0}")]
    CocoaButter(TriglyceridesError),
    /// The transfer loss is no share of a mass.
    #[error("{0}")]
    TransferLoss(TransferLossError),
    /// The pH does not occur.
    #[error("{0}")]
    Ph(PhError),
    /// No cream has so many crystals.
    #[error("{0}")]
    CreamShare(CreamShareError),
    /// No seed is so warm.
    #[error("{0}")]
    SeedTemperature(SeedTemperatureError),
    /// What evaporates is said twice.
    #[error("`{first}` and `{second}` both say what evaporates; keep one of them")]
    TwiceEvaporation {
        /// The field that comes first.
        first: &'static str,
        /// The field that comes second.
        second: &'static str,
    },
    /// Nothing is cooked to such a temperature.
    #[error("{0}")]
    CookTemperature(CookTemperatureError),
    /// No kitchen lies so.
    #[error("{0}")]
    Height(HeightError),
    /// Nothing is mixed at such a temperature.
    #[error("{0}")]
    MixTemperature(MixTemperatureError),
    /// Nothing is stirred so long.
    #[error("{0}")]
    StirringTime(StirringTimeError),
    /// A figure of setting or storage is outside of what is computed.
    #[error("{0}")]
    Setting(SettingError),
    /// A temperature that does not exist.
    #[error(
        "the temperature {} °C does not exist; give a number from {} on",
        as_given(*celsius),
        as_given(Celsius::ABSOLUTE_ZERO.0)
    )]
    Temperature {
        /// What is given.
        celsius: f64,
    },
    /// A time that does not exist.
    #[error("the time of {} minutes does not exist; give 0 or more", as_given(*minutes))]
    Minutes {
        /// What is given.
        minutes: f64,
    },
}

impl std::fmt::Display for FormatError {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "{}: {}", self.place, on_one_line(&self.problem.to_string()))
    }
}

impl std::error::Error for FormatError {}

/// A text without line breaks and other control characters, cut where it becomes too long for a message.
#[must_use]
pub fn on_one_line(text: &str) -> String {
    /// Longer than every message of ours, shorter than a screen.
    const LONGEST: usize = 1200;
    let mut line = String::new();
    for (count, character) in text.chars().enumerate() {
        if count == LONGEST {
            line.push('…');
            break;
        }
        if character.is_control() { line.extend(character.escape_default()) } else { line.push(character) }
    }
    line
}

/// A text of the user for a message: what is too long is cut.
#[must_use]
pub fn shortened(text: &str) -> String {
    /// Long enough to recognise it: the longest built-in name has 56 characters.
    const LONGEST: usize = 60;
    let mut short: String = text.chars().take(LONGEST).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

/// A reason, with advice if it has none.
fn with_advice(reason: String) -> String {
    if reason.contains("; ") { reason } else { reason + "; correct it" }
}

fn nearest_words(nearest: Option<&String>) -> String {
    nearest.map(|nearest| format!(", `{nearest}` is nearest")).unwrap_or_default()
}

fn known_words(known: &[String]) -> String {
    match known {
        [] => "remove it".to_owned(),
        [only] => format!("write `{only}`"),
        [first @ .., last] => format!("known are `{}` and `{last}`", first.join("`, `")),
    }
}

fn id_words(nearest: &[String]) -> String {
    match nearest {
        [] => "correct the id".to_owned(),
        [only] => format!("nearest is \"{only}\", write that"),
        [first @ .., last] => format!("nearest are \"{}\" and \"{last}\", write one of them", first.join("\", \"")),
    }
}
