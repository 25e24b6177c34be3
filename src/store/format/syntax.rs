//! The parser's errors in plain sentences.
//!
//! The parser says "Expected float"; a chef wants to know what stands there and what to write instead.

use ron::error::{Error, SpannedError};

use super::outline::{DEEPEST, Imbalance, TextPlace, TokenKind, Tokens, closing, enclosing, imbalance};
use super::problem::{FormatError, Problem, shortened};
use crate::ingredient::search::distance;

/// The sentence for an error of the parser.
#[must_use]
pub fn explain(text: &str, error: &SpannedError) -> FormatError {
    let offset_of =
        |position: ron::error::Position| TextPlace { line: position.line, column: position.col }.to_offset(text);
    let start = offset_of(error.span.start);
    // A bracket or quote that is left open confuses the parser from there on: name it rather than what follows.
    if let Some((shows_at, imbalance)) = imbalance(text)
        && shows_at <= offset_of(error.span.end).max(start)
    {
        return explain_imbalance(text, imbalance);
    }
    let next = Tokens::new(text, start).next();
    let at_token = next.map_or(text.len(), |token| token.offset);
    let found = next.map_or_else(|| "the end of the file".to_owned(), |token| quoted(token.text));
    let refuse = |offset: usize, problem: Problem| FormatError { place: TextPlace::of_offset(text, offset), problem };
    let wanted =
        |wanted: &str| refuse(at_token, Problem::Unexpected { wanted: wanted.to_owned(), found: found.clone() });
    let sentence = |offset: usize, sentence: String| refuse(offset, Problem::Syntax { sentence });
    match &error.code {
        Error::ExpectedFloat => wanted("a number"),
        Error::ExpectedInteger => wanted("a whole number"),
        Error::IntegerOutOfBounds => {
            // The parser has passed the sign already.
            let at = if text[..at_token].ends_with('-') { at_token - 1 } else { at_token };
            let found = Tokens::new(text, at).next().map_or_else(String::new, |token| quoted(token.text));
            refuse(at, Problem::Unexpected { wanted: "a whole number from 0 to 4294967295".to_owned(), found })
        }
        Error::ExpectedBoolean => wanted("`true` or `false`"),
        Error::ExpectedString => wanted("a text in quotes"),
        Error::ExpectedComma if text[at_token..].starts_with('.') && is_digit_at(text, at_token.checked_sub(1)) => {
            sentence(at_token, format!("only a whole number can stand here; remove {found}"))
        }
        Error::ExpectedComma if text[..at_token].ends_with('"') => {
            sentence(at_token, format!("a comma is missing before {found}, or a quote before that; add it"))
        }
        Error::ExpectedComma => {
            sentence(at_token, format!("a comma or the closing bracket is missing before {found}; add it"))
        }
        Error::ExpectedStringEnd => {
            let opened = start.saturating_sub(1);
            refuse(opened, Problem::Open { what: "text".to_owned(), missing: "\"".to_owned() })
        }
        Error::ExpectedMapColon => wanted("a colon after the name of the field"),
        Error::ExpectedArray => wanted("a list in `[` and `]`"),
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) | Error::ExpectedDifferentStructName { .. } => {
            wanted("an entry in `(` and `)`")
        }
        Error::ExpectedIdentifier | Error::SuggestRawIdentifier(_) | Error::InvalidIdentifier(_) => {
            if follows_decimal_comma(text, at_token) {
                let comma = at_token - 1;
                refuse(comma, Problem::Unexpected { wanted: "a decimal point".to_owned(), found: "a comma".to_owned() })
            } else if text[..at_token].trim_end().ends_with(':') {
                wanted("a word without quotes")
            } else if next.is_some_and(|token| token.kind == TokenKind::Comma) {
                sentence(at_token, "there is nothing before this comma; remove it".to_owned())
            } else {
                wanted("the name of a field and a colon")
            }
        }
        Error::InvalidEscape(_) => sentence(
            start,
            "a backslash sequence in this text is not known; write `\\\\` for a backslash itself".to_owned(),
        ),
        Error::TrailingCharacters => {
            sentence(at_token, format!("nothing may follow the last bracket; remove {found} and what comes after it"))
        }
        Error::NoSuchStructField { expected, found, .. } => refuse(
            at_token,
            Problem::UnknownField { field: shortened(found), nearest: nearest(found, expected), known: list(expected) },
        ),
        Error::NoSuchEnumVariant { expected, found, .. } => refuse(
            at_token,
            Problem::UnknownWord { word: shortened(found), nearest: nearest(found, expected), known: list(expected) },
        ),
        Error::MissingStructField { field, .. } => {
            refuse(enclosing(text, at_token).unwrap_or(at_token), Problem::MissingField { field: (*field).to_owned() })
        }
        Error::DuplicateStructField { field, .. } => {
            refuse(at_token, Problem::TwiceField { field: (*field).to_owned() })
        }
        Error::NoSuchExtension(name) => {
            sentence(start, format!("the extension `{}` is not known; remove it from this line", shortened(name)))
        }
        Error::Message(message) => sentence(at_token, format!("{}; correct it", shortened(message))),
        Error::ExceededRecursionLimit => refuse(at_token, Problem::TooDeep { most: DEEPEST }),
        other => sentence(at_token, format!("{found} cannot be read ({other}); correct it")),
    }
}

/// The sentence for brackets and quotes that do not balance.
#[must_use]
pub fn explain_imbalance(text: &str, imbalance: Imbalance) -> FormatError {
    let bracket = |at: usize| text.get(at..=at).unwrap_or_default().to_owned();
    let (at, problem) = match imbalance {
        Imbalance::TooDeep { at } => (at, Problem::TooDeep { most: DEEPEST }),
        Imbalance::Crossed { at, opened } => (
            at,
            Problem::Crossed { found: bracket(at), open: bracket(opened), opened: TextPlace::of_offset(text, opened) },
        ),
        Imbalance::Stray { at } => (at, Problem::Stray { found: bracket(at) }),
        Imbalance::Open { opened } => {
            let open = bracket(opened);
            let missing = closing(&open).to_owned();
            (opened, Problem::Open { what: format!("`{open}`"), missing })
        }
        Imbalance::Text { opened } => (opened, Problem::Open { what: "text".to_owned(), missing: "\"".to_owned() }),
        Imbalance::Comment { opened } => {
            (opened, Problem::Open { what: "comment".to_owned(), missing: "*/".to_owned() })
        }
    };
    FormatError { place: TextPlace::of_offset(text, at), problem }
}

/// Whether what stands here is the part after a decimal comma: `0,2`.
fn follows_decimal_comma(text: &str, offset: usize) -> bool {
    is_digit_at(text, Some(offset)) && text[..offset].ends_with(',') && is_digit_at(text, offset.checked_sub(2))
}

fn is_digit_at(text: &str, offset: Option<usize>) -> bool {
    offset.and_then(|offset| text.as_bytes().get(offset)).is_some_and(u8::is_ascii_digit)
}

/// What stands in the file, for a message.
fn quoted(text: &str) -> String {
    format!("`{}`", shortened(text))
}

fn list(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

/// The word that was probably meant; `None` if none comes near.
fn nearest(found: &str, words: &[&'static str]) -> Option<String> {
    /// No word of the format is half as long; comparing longer ones would take time for nothing.
    const LONGEST: usize = 60;
    if found.len() > LONGEST {
        return None;
    }
    let found = found.to_lowercase();
    let (changes, word) = words.iter().map(|word| (distance(&found, word), *word)).min()?;
    (changes <= 1 + word.len() / 4).then(|| word.to_owned())
}
