//! Where things stand in the text of a file, without understanding what they mean.
//!
//! The parser reports the places of its own errors. A weight below zero is found only after parsing, and then
//! its place is looked up here by its path, such as "the amount of the third line". The same reading of brackets
//! stops deep nesting before the parser sees it, and names the bracket that was left open when the parser fails.
//!
//! It accepts every text, valid or not, and works in one pass with a bounded stack.

use std::fmt;

/// How deep brackets may be nested; a recipe needs five levels.
pub const DEEPEST: usize = 64;

/// A place in a text, counted from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TextPlace {
    /// Line.
    pub line: usize,
    /// Column.
    pub column: usize,
}

impl TextPlace {
    /// The place of a byte offset; one beyond the end is the end.
    #[must_use]
    pub fn of_offset(text: &str, offset: usize) -> Self {
        let before = text.get(..offset).unwrap_or(text);
        Self {
            line: 1 + before.matches('\n').count(),
            column: 1 + before.chars().rev().take_while(|character| *character != '\n').count(),
        }
    }

    /// The byte offset of this place; the end of the line or the text if it lies beyond.
    #[must_use]
    pub fn to_offset(self, text: &str) -> usize {
        let Some(start) =
            text.split_inclusive('\n').map(str::len).take(self.line.saturating_sub(1)).reduce(|a, b| a + b)
        else {
            return column_offset(text, self.column);
        };
        start + column_offset(&text[start..], self.column)
    }
}

impl fmt::Display for TextPlace {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}:{}", self.line, self.column)
    }
}

fn column_offset(text: &str, column: usize) -> usize {
    let line = text.split('\n').next().unwrap_or_default();
    line.char_indices().nth(column.saturating_sub(1)).map_or(line.len(), |(offset, _)| offset)
}

/// One step from a container to what it holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathStep {
    /// The field with this name.
    Field(&'static str),
    /// The element with this number, counted from 0.
    Element(usize),
}

/// What a path led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Found {
    /// Where the value begins.
    pub offset: usize,
    /// Whether the whole path exists; otherwise the offset is that of its last step that does.
    pub is_complete: bool,
}

/// Where the value at the end of a path begins.
#[must_use]
pub fn find(text: &str, path: &[PathStep]) -> Found {
    /// An open bracket, with the entry that is being read in it.
    #[derive(Default)]
    struct Frame<'a> {
        is_on_path: bool,
        index: usize,
        key: Option<&'a str>,
        has_begun: bool,
        entry_is_on_path: bool,
    }

    let mut best = Found { offset: Tokens::new(text, 0).next().map_or(0, |token| token.offset), is_complete: false };
    let mut best_depth = 0;
    // The text itself is the only entry of the outermost frame.
    let mut frames = vec![Frame { entry_is_on_path: true, ..Frame::default() }];
    let mut tokens = Tokens::new(text, 0).peekable();
    while let Some(token) = tokens.next() {
        let depth = frames.len() - 1;
        let Some(frame) = frames.last_mut() else { break };
        let is_key = token.kind == TokenKind::Word
            && !frame.has_begun
            && tokens.peek().is_some_and(|next| next.kind == TokenKind::Colon);
        if is_key && depth > 0 {
            frame.key = Some(token.text.strip_prefix("r#").unwrap_or(token.text));
            tokens.next();
            continue;
        }
        match token.kind {
            TokenKind::Comma => {
                if depth > 0 {
                    *frame = Frame { is_on_path: frame.is_on_path, index: frame.index + 1, ..Frame::default() };
                }
                continue;
            }
            TokenKind::Close => {
                if depth > 0 {
                    frames.pop();
                }
                continue;
            }
            _ => {}
        }
        if depth > 0 && !frame.has_begun {
            frame.has_begun = true;
            frame.entry_is_on_path = frame.is_on_path
                && match path.get(depth - 1) {
                    Some(PathStep::Field(name)) => frame.key == Some(*name),
                    Some(PathStep::Element(index)) => frame.index == *index,
                    None => false,
                };
            if frame.entry_is_on_path && depth > best_depth {
                best_depth = depth;
                best = Found { offset: token.offset, is_complete: depth == path.len() };
                if best.is_complete {
                    break;
                }
            }
        }
        if token.kind == TokenKind::Open {
            if depth >= DEEPEST {
                break;
            }
            let is_on_path = frame.entry_is_on_path;
            frames.push(Frame { is_on_path, ..Frame::default() });
        }
    }
    best
}

/// The text of the value of a field of the outermost struct, if that is a single word, number or quoted text.
#[must_use]
pub fn top_value<'a>(text: &'a str, field: &'static str) -> Option<Token<'a>> {
    let found = find(text, &[PathStep::Field(field)]);
    if found.is_complete { Tokens::new(text, found.offset).next() } else { None }
}

/// What is wrong with the brackets and quotes of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Imbalance {
    /// This opening bracket is one level too deep.
    TooDeep {
        /// Where.
        at: usize,
    },
    /// This bracket closes another than the last one that was opened.
    Crossed {
        /// Where it closes.
        at: usize,
        /// Where the other one opens.
        opened: usize,
    },
    /// This bracket closes nothing.
    Stray {
        /// Where.
        at: usize,
    },
    /// This bracket is never closed.
    Open {
        /// Where it opens.
        opened: usize,
    },
    /// This quoted text never ends.
    Text {
        /// Where it begins.
        opened: usize,
    },
    /// This block comment never ends.
    Comment {
        /// Where it begins.
        opened: usize,
    },
}

/// The first thing that is wrong with brackets and quotes, and the offset where it shows.
#[must_use]
pub fn imbalance(text: &str) -> Option<(usize, Imbalance)> {
    let mut open: Vec<Token<'_>> = Vec::new();
    for token in Tokens::new(text, 0) {
        let at = token.offset;
        match token.kind {
            TokenKind::Open if open.len() == DEEPEST => return Some((at, Imbalance::TooDeep { at })),
            TokenKind::Open => open.push(token),
            TokenKind::Close => match open.pop() {
                None => return Some((at, Imbalance::Stray { at })),
                Some(opening) if closing(opening.text) != token.text => {
                    return Some((at, Imbalance::Crossed { at, opened: opening.offset }));
                }
                Some(_) => {}
            },
            TokenKind::OpenText => return Some((text.len(), Imbalance::Text { opened: at })),
            TokenKind::OpenComment => return Some((text.len(), Imbalance::Comment { opened: at })),
            _ => {}
        }
    }
    open.last().map(|opening| (text.len(), Imbalance::Open { opened: opening.offset }))
}

/// The bracket that closes this one.
#[must_use]
pub fn closing(opening: &str) -> &'static str {
    match opening {
        "(" => ")",
        "[" => "]",
        _ => "}",
    }
}

/// Where the innermost bracket opens that encloses an offset.
#[must_use]
pub fn enclosing(text: &str, offset: usize) -> Option<usize> {
    let mut open = Vec::new();
    for token in Tokens::new(text, 0).take_while(|token| token.offset < offset) {
        match token.kind {
            TokenKind::Open if open.len() < DEEPEST => open.push(token.offset),
            TokenKind::Close => {
                open.pop();
            }
            _ => {}
        }
    }
    open.pop()
}

/// A piece of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Token<'a> {
    /// What sort of piece.
    pub kind: TokenKind,
    /// Its text.
    pub text: &'a str,
    /// Where it begins.
    pub offset: usize,
}

/// A sort of piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TokenKind {
    /// A round, square or curly bracket that opens.
    Open,
    /// One that closes.
    Close,
    /// A comma.
    Comma,
    /// A colon.
    Colon,
    /// A name, a keyword or a number.
    Word,
    /// A quoted text or character.
    Text,
    /// A quoted text without an end.
    OpenText,
    /// A block comment without an end.
    OpenComment,
    /// Any other character.
    Other,
}

/// The pieces of a text, comments and blanks left out.
#[derive(Clone, Debug)]
pub struct Tokens<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Tokens<'a> {
    /// The pieces from an offset on.
    #[must_use]
    pub fn new(text: &'a str, offset: usize) -> Self {
        Self { text, at: offset.min(text.len()) }
    }

    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// Skips blanks and comments; gives the offset of a comment that never ends.
    fn skip_blanks(&mut self) -> Option<usize> {
        loop {
            let rest = self.rest();
            let trimmed = rest.trim_start();
            self.at += rest.len() - trimmed.len();
            if trimmed.starts_with("//") {
                self.at += trimmed.find('\n').unwrap_or(trimmed.len());
            } else if trimmed.starts_with("/*") {
                let Some(length) = block_comment_length(trimmed) else {
                    let opened = self.at;
                    self.at = self.text.len();
                    return Some(opened);
                };
                self.at += length;
            } else {
                return None;
            }
        }
    }
}

impl<'a> Iterator for Tokens<'a> {
    type Item = Token<'a>;

    fn next(&mut self) -> Option<Token<'a>> {
        if let Some(offset) = self.skip_blanks() {
            return Some(Token { kind: TokenKind::OpenComment, text: &self.text[offset..], offset });
        }
        let rest = self.rest();
        let first = rest.chars().next()?;
        let (kind, length) = match first {
            '(' | '[' | '{' => (TokenKind::Open, 1),
            ')' | ']' | '}' => (TokenKind::Close, 1),
            ',' => (TokenKind::Comma, 1),
            ':' => (TokenKind::Colon, 1),
            '\'' => character_length(rest).map_or((TokenKind::Other, 1), |length| (TokenKind::Text, length)),
            _ => match quoted_length(rest) {
                Some(Some(length)) => (TokenKind::Text, length),
                Some(None) => (TokenKind::OpenText, rest.len()),
                None if is_of_word(first) => (TokenKind::Word, word_length(rest)),
                None => (TokenKind::Other, first.len_utf8()),
            },
        };
        let token = Token { kind, text: &rest[..length], offset: self.at };
        self.at += length;
        Some(token)
    }
}

fn is_of_word(character: char) -> bool {
    character.is_alphanumeric() || matches!(character, '_' | '+' | '-' | '.')
}

fn word_length(rest: &str) -> usize {
    let raw = if rest.starts_with("r#") { 2 } else { 0 };
    raw + rest[raw..].find(|character| !is_of_word(character)).unwrap_or(rest.len() - raw)
}

/// The length of a block comment; such comments nest.
fn block_comment_length(rest: &str) -> Option<usize> {
    let bytes = rest.as_bytes();
    let mut level = 0_usize;
    let mut at = 0;
    while at + 1 < bytes.len() {
        match &bytes[at..at + 2] {
            b"/*" => {
                level += 1;
                at += 2;
            }
            b"*/" => {
                level -= 1;
                at += 2;
                if level == 0 {
                    return Some(at);
                }
            }
            _ => at += 1,
        }
    }
    None
}

/// The length of a quoted character such as `'x'`; `None` if this is not one.
fn character_length(rest: &str) -> Option<usize> {
    /// The longest escape, `\u{10FFFF}`; looking further would take time for nothing.
    const LONGEST_ESCAPE: usize = 10;
    let mut inside = rest.char_indices().skip(1);
    let (_, first) = inside.next()?;
    if first != '\\' {
        return inside.next().filter(|(_, next)| *next == '\'').map(|(close, _)| close + 1);
    }
    inside.next()?;
    inside.take(LONGEST_ESCAPE).find(|(_, next)| *next == '\'').map(|(close, _)| close + 1)
}

/// The length of a quoted text, plain, raw or of bytes; `None` if this is not one, `Some(None)` if it never ends.
#[expect(clippy::option_option, reason = "no text, a text without an end, a text: three cases")]
fn quoted_length(rest: &str) -> Option<Option<usize>> {
    let prefix = rest.find(|character| !matches!(character, 'b' | 'r')).filter(|length| *length <= 2)?;
    let (prefix_text, after) = rest.split_at(prefix);
    if prefix_text.ends_with('r') {
        let hashes = after.len() - after.trim_start_matches('#').len();
        let inside = after[hashes..].strip_prefix('"')?;
        let end = format!("\"{}", &after[..hashes]);
        return Some(inside.find(&end).map(|close| prefix + hashes + 1 + close + end.len()));
    }
    let inside = after.strip_prefix('"').filter(|_| matches!(prefix_text, "" | "b"))?;
    let mut is_escaped = false;
    for (offset, byte) in inside.bytes().enumerate() {
        match byte {
            _ if is_escaped => is_escaped = false,
            b'\\' => is_escaped = true,
            b'"' => return Some(Some(prefix + 1 + offset + 1)),
            _ => {}
        }
    }
    Some(None)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r##"#![enable(implicit_some)]
// lines: [ in a comment
Recipe(
    format: 1, /* ( nested /* ) */ ( */
    name: "lines: [(amount: 1)] \" (",
    note: r#"a " ( quote"#,
    lines: [
        (ingredient: "a", amount: 1),
        Line(ingredient: "b", r#amount: 2, note: ")"),
    ],
    cocoa_butter: own(pop: 1, pos: -2),
)
"##;

    fn place(path: &[PathStep]) -> (usize, usize) {
        let place = TextPlace::of_offset(TEXT, find(TEXT, path).offset);
        (place.line, place.column)
    }

    #[test]
    fn a_path_leads_to_its_value_past_quotes_and_comments() {
        use PathStep::{Element, Field};
        assert_eq!(place(&[Field("format")]), (4, 13));
        assert_eq!(place(&[Field("lines"), Element(0), Field("amount")]), (8, 35));
        assert_eq!(place(&[Field("lines"), Element(1)]), (9, 9));
        assert_eq!(place(&[Field("lines"), Element(1), Field("amount")]), (9, 41));
        assert_eq!(place(&[Field("cocoa_butter"), Field("pos")]), (11, 36));
    }

    #[test]
    fn a_path_that_ends_early_leads_to_the_last_thing_that_exists() {
        use PathStep::{Element, Field};
        let found = find(TEXT, &[Field("lines"), Element(1), Field("unit")]);
        assert!(!found.is_complete);
        assert_eq!(TextPlace::of_offset(TEXT, found.offset), TextPlace { line: 9, column: 9 });
        assert_eq!(top_value(TEXT, "pieces"), None);
    }

    #[test]
    fn the_brackets_of_a_valid_text_balance() {
        assert_eq!(imbalance(TEXT), None);
    }

    #[test]
    fn what_is_left_open_is_named() {
        for (text, expected) in [
            ("(a: [1)", Imbalance::Crossed { at: 6, opened: 4 }),
            ("(a: 1", Imbalance::Open { opened: 0 }),
            ("(a: 1))", Imbalance::Stray { at: 6 }),
            ("(a: \"x)", Imbalance::Text { opened: 4 }),
            ("(a: r#\"x\")", Imbalance::Text { opened: 4 }),
            ("(a: 1 /* x)", Imbalance::Comment { opened: 6 }),
        ] {
            assert_eq!(imbalance(text).map(|(_, imbalance)| imbalance), Some(expected), "{text}");
        }
    }

    #[test]
    fn quoted_characters_hide_brackets() {
        for text in ["(a: '(')", r"(a: '\'', b: '\u{28}')", "(a: b\"(\")", "(it's)"] {
            assert_eq!(imbalance(text), None, "{text}");
        }
    }

    #[test]
    fn nesting_stops_at_the_limit() {
        let text = "(".repeat(DEEPEST) + &")".repeat(DEEPEST);
        assert_eq!(imbalance(&text), None);
        let text = "(".repeat(100_000);
        assert_eq!(imbalance(&text), Some((DEEPEST, Imbalance::TooDeep { at: DEEPEST })));
        assert!(!find(&text, &[PathStep::Field("format")]).is_complete);
    }

    #[test]
    fn places_and_offsets_agree() {
        let text = "é(\n  ab\n";
        for offset in text.char_indices().map(|(offset, _)| offset).chain([text.len()]) {
            assert_eq!(TextPlace::of_offset(text, offset).to_offset(text), offset);
        }
        assert_eq!(TextPlace { line: 9, column: 9 }.to_offset(text), text.len());
    }
}
