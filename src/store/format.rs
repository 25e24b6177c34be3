//! The text of a recipe file: from text to recipe and back, without touching the disk.
//!
//! * [`read`] reads the format number first, then the whole with the types of that format ([`v1`]).
//! * [`write()`] writes the newest format: fixed order of fields, one line of text per line of the recipe and per
//!   ingredient, so that two versions of a file are easily compared. Comments of a file written by hand are lost.
//! * [`FormatError`] is one sentence with its place ([`outline`], [`syntax`]).
//!
//! Files leave out `Some`; no header line is needed for that.
//! A file is never read by way of `ron::Value`, which forgets the names of enum variants.

pub mod convert;
pub mod outline;
pub mod problem;
pub mod settings;
pub mod syntax;
pub mod v1;

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;

use self::outline::{Imbalance, TextPlace, TokenKind, imbalance, top_value};
pub use self::problem::{FormatError, Problem};
use self::problem::{on_one_line, shortened};
use crate::ingredient::Library;
use crate::ingredient::file::plain_name;
use crate::recipe::Recipe;

/// The newest format; it is the one that is written.
pub const NEWEST: u32 = 1;

/// The recipe that a text describes; an ingredient that it names without figures is taken from the library.
///
/// # Errors
///
/// [`FormatError`] with the place of the first thing that is wrong.
pub fn read(text: &str, library: &Library) -> Result<Recipe, FormatError> {
    // Editors on Windows put a byte order mark in front.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    check_format(text)?;
    if let Some((_, too_deep @ Imbalance::TooDeep { .. })) = imbalance(text) {
        return Err(syntax::explain_imbalance(text, too_deep));
    }
    let file: v1::File = options().from_str(text).map_err(|error| syntax::explain(text, &error))?;
    convert::to_recipe(&file, text, library)
}

/// The text of a recipe, with the figures of all its ingredients.
///
/// # Errors
///
/// The serialiser's reason, in words; no recipe is known that has one.
pub fn write(recipe: &Recipe) -> Result<String, String> {
    /// The outermost struct and its lists have one line per entry; what is inside an entry stays on its line.
    const DEPTH_WITH_LINES: usize = 2;
    let layout = PrettyConfig::new().depth_limit(DEPTH_WITH_LINES).new_line("\n");
    let mut text = options()
        .to_string_pretty(&convert::to_file(recipe), layout)
        .map_err(|error| on_one_line(&error.to_string()))?;
    text.push('\n');
    Ok(text)
}

/// The name that a recipe's text gives itself, read from its beginning alone, whatever follows.
#[must_use]
pub fn name_of(beginning: &str) -> Option<String> {
    let token = top_value(beginning.strip_prefix('\u{feff}').unwrap_or(beginning), "name")?;
    let name: String = if token.kind == TokenKind::Text { ron::from_str(token.text).ok()? } else { return None };
    let name = plain_name(name.trim());
    (!name.is_empty()).then_some(name)
}

/// How all files of the program are read and written.
pub(super) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Checks that the format of a text is known; it is looked up without parsing the rest, which may be anything.
fn check_format(text: &str) -> Result<(), FormatError> {
    let known = NEWEST;
    let refuse = |offset: usize, problem: Problem| FormatError { place: TextPlace::of_offset(text, offset), problem };
    let Some(first) = outline::Tokens::new(text, 0).next() else {
        return Err(refuse(0, Problem::Empty { known }));
    };
    let Some(token) = top_value(text, "format") else {
        // Where even the brackets are wrong, those are the first thing to mend.
        if let Some((_, imbalance)) = imbalance(text) {
            return Err(syntax::explain_imbalance(text, imbalance));
        }
        let second = outline::Tokens::new(text, 0).nth(1);
        let is_struct = first.kind == TokenKind::Open
            || first.text == "#"
            || second.is_some_and(|second| second.kind == TokenKind::Open);
        let problem = if is_struct {
            Problem::NoFormat { known }
        } else {
            let found = format!("`{}`", shortened(first.text));
            Problem::Unexpected { wanted: format!("a recipe, `(format: {known}, …)`,"), found }
        };
        return Err(refuse(first.offset, problem));
    };
    let is_whole = !token.text.is_empty() && token.text.bytes().all(|byte| byte.is_ascii_digit());
    match token.text.parse::<u64>() {
        Ok(found) if (1..=u64::from(known)).contains(&found) => Ok(()),
        // A whole number that does not even fit is a later format too.
        Ok(1..) => Err(refuse(token.offset, Problem::Newer { found: shortened(token.text), known })),
        Err(_) if is_whole => Err(refuse(token.offset, Problem::Newer { found: shortened(token.text), known })),
        _ => Err(refuse(token.offset, Problem::BadFormat { found: shortened(token.text), known })),
    }
}
