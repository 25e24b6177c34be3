//! The map of the crate, checked against its text: who may use whom, who may touch the disk, who knows the window.
//!
//! The rules come from the crate's own layout; there is no outside source. Modules that do not exist yet are no fault.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The modules from left to right. Each may use what stands left of it; those in one row do not know each other.
const ROWS: [&[&str]; 11] = [
    &["units", "number", "source"],
    &["ingredient"],
    &["recipe"],
    &["analysis"],
    &["production"],
    &["reformulate", "trial"],
    &["document"],
    &["store", "report"],
    &["command_line", "ui"],
    &["main"],
    &["lib"],
];

/// A file with more lines than this holds two ideas.
const MOST_LINES: usize = 600;

/// Crates of the window.
const WINDOW: [&str; 5] = ["egui", "eframe", "egui_plot", "egui_extras", "rfd"];

/// Where serde may stand: what is written and what is computed are different types.
const SERDE: [&str; 6] =
    ["store/format.rs", "store/format/", "store/settings", "ingredient/file.rs", "report/json", "source.rs"];

/// A file with its path from `src/` or `tests/`, slashes forward.
struct File {
    path: String,
    text: String,
}

impl File {
    /// The module of the crate that it belongs to: "analysis" for `analysis/fat/flash.rs`.
    fn module(&self) -> &str {
        let first = self.path.split('/').next().unwrap_or_default();
        first.strip_suffix(".rs").unwrap_or(first)
    }

    fn is_in(&self, places: &[&str]) -> bool {
        places.iter().any(|place| self.path.starts_with(place))
    }
}

fn files() -> Vec<File> {
    files_of("src")
}

fn files_of(folder: &str) -> Vec<File> {
    fn walk(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).expect("the folder can be read") {
            let path = entry.expect("the entry can be read").path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.push(path);
            }
        }
    }
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut paths = Vec::new();
    walk(&source, &mut paths);
    paths.sort();
    assert!(paths.len() > 30, "only {} files in {folder}/", paths.len());
    let file = |path: &PathBuf| {
        let below = path.strip_prefix(&source).expect("it lies there");
        let parts: Vec<_> = below.iter().map(|part| part.to_string_lossy().into_owned()).collect();
        File { path: parts.join("/"), text: fs::read_to_string(path).expect("it is text") }
    };
    paths.iter().map(file).collect()
}

/// A word or a sign of Rust's text.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Token {
    Word(String),
    /// `::`
    Path,
    Sign(char),
}

/// Words and signs without comments and without what stands in quotation marks.
fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let characters: Vec<char> = text.chars().collect();
    let mut at = 0;
    while let Some(&character) = characters.get(at) {
        let next = characters.get(at + 1).copied();
        match character {
            '/' if next == Some('/') => at += count(&characters[at..], |character| character != '\n'),
            '/' if next == Some('*') => at = after_block_comment(&characters, at),
            '"' => at = after_text(&characters, at + 1),
            'r' if matches!(next, Some('"' | '#')) && raw_text(&characters, at).is_some() => {
                at = raw_text(&characters, at).unwrap_or(at + 1);
            }
            '\'' => at = after_character(&characters, at),
            ':' if next == Some(':') => {
                tokens.push(Token::Path);
                at += 2;
            }
            _ if character.is_alphanumeric() || character == '_' => {
                let length = count(&characters[at..], |character| character.is_alphanumeric() || character == '_');
                tokens.push(Token::Word(characters[at..at + length].iter().collect()));
                at += length;
            }
            _ => {
                if !character.is_whitespace() {
                    tokens.push(Token::Sign(character));
                }
                at += 1;
            }
        }
    }
    tokens
}

fn count(characters: &[char], belongs: impl Fn(char) -> bool) -> usize {
    characters.iter().take_while(|character| belongs(**character)).count()
}

fn after_block_comment(characters: &[char], start: usize) -> usize {
    let (mut at, mut depth) = (start + 2, 1);
    while depth > 0 && at < characters.len() {
        match (characters[at], characters.get(at + 1)) {
            ('/', Some('*')) => (at, depth) = (at + 2, depth + 1),
            ('*', Some('/')) => (at, depth) = (at + 2, depth - 1),
            _ => at += 1,
        }
    }
    at
}

fn after_text(characters: &[char], start: usize) -> usize {
    let mut at = start;
    while at < characters.len() {
        match characters[at] {
            '\\' => at += 2,
            '"' => return at + 1,
            _ => at += 1,
        }
    }
    at
}

/// The end of `r"…"` or `r#"…"#`, if one begins here.
fn raw_text(characters: &[char], start: usize) -> Option<usize> {
    let hashes = count(&characters[start + 1..], |character| character == '#');
    let begin = start + 1 + hashes;
    if characters.get(begin) != Some(&'"') {
        return None;
    }
    let is_end =
        |at: &usize| characters[*at] == '"' && count(&characters[*at + 1..], |character| character == '#') >= hashes;
    Some((begin + 1..characters.len()).find(is_end).map_or(characters.len(), |end| end + 1 + hashes))
}

/// Behind a character in quotation marks, or behind the mark of a lifetime.
fn after_character(characters: &[char], start: usize) -> usize {
    match (characters.get(start + 1), characters.get(start + 2)) {
        (Some('\\'), _) => {
            let escaped = start + 3;
            escaped + count(&characters[escaped.min(characters.len())..], |character| character != '\'') + 1
        }
        (Some(_), Some('\'')) => start + 3,
        _ => start + 1,
    }
}

/// Every path that the text names, with groups written out: `use a::{b, c::d}` gives `a::b` and `a::c::d`.
fn paths(text: &str) -> Vec<Vec<String>> {
    let tokens = tokens(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        if matches!(tokens[at], Token::Word(_)) {
            at = read_path(&tokens, at, &[], &mut found);
        } else {
            at += 1;
        }
    }
    found
}

/// Reads one path behind a prefix; gives back where it ends.
fn read_path(tokens: &[Token], start: usize, prefix: &[String], found: &mut Vec<Vec<String>>) -> usize {
    let mut path = prefix.to_vec();
    let mut at = start;
    loop {
        match tokens.get(at) {
            Some(Token::Word(word)) => path.push(word.clone()),
            Some(Token::Sign('{')) if at > start => return read_group(tokens, at + 1, &path, found),
            Some(Token::Sign('*')) if at > start => path.push("*".to_owned()),
            _ => break,
        }
        at += 1;
        if tokens.get(at) != Some(&Token::Path) {
            break;
        }
        at += 1;
    }
    found.push(path);
    at.max(start + 1)
}

fn read_group(tokens: &[Token], start: usize, prefix: &[String], found: &mut Vec<Vec<String>>) -> usize {
    let mut at = start;
    while at < tokens.len() {
        match &tokens[at] {
            Token::Sign('}') => return at + 1,
            Token::Word(_) => at = read_path(tokens, at, prefix, found),
            Token::Sign('*') => {
                found.push(prefix.iter().cloned().chain(["*".to_owned()]).collect());
                at += 1;
            }
            _ => at += 1,
        }
    }
    at
}

/// The modules of the crate that a text uses.
fn used_modules(text: &str) -> BTreeSet<String> {
    paths(text).into_iter().filter(|path| path.len() > 1 && path[0] == "crate").map(|path| path[1].clone()).collect()
}

/// Whether a text names something of the standard library: `std::fs`, `std::env`.
fn uses_std(text: &str, module: &str) -> bool {
    paths(text).iter().any(|path| path.len() > 1 && path[0] == "std" && path[1] == module)
}

/// Whether a word stands in the text at all, be it in a path or in an attribute.
fn names(text: &str, word: &str) -> bool {
    paths(text).iter().any(|path| path.iter().any(|part| part == word))
}

fn row_of(module: &str) -> Option<usize> {
    ROWS.iter().position(|row| row.contains(&module))
}

/// What a module uses that does not stand left of it.
fn wrong_uses(module: &str, text: &str) -> Vec<String> {
    let row = row_of(module).unwrap_or_else(|| panic!("{module} has no place on the map"));
    let is_wrong = |used: &String| used != module && row_of(used).is_none_or(|used| used >= row);
    used_modules(text).into_iter().filter(is_wrong).collect()
}

/// The places where something stands that must not, as one readable list.
fn check_none(what: &str, is_wrong: impl Fn(&File) -> bool) {
    let wrong: Vec<String> = files().into_iter().filter(is_wrong).map(|file| file.path).collect();
    assert!(wrong.is_empty(), "{what}: {wrong:?}");
}

#[test]
fn a_module_uses_only_what_stands_left_of_it() {
    let wrong: Vec<String> = files()
        .iter()
        .flat_map(|file| {
            let uses = wrong_uses(file.module(), &file.text);
            uses.into_iter().map(|used| format!("{} uses {used}", file.path)).collect::<Vec<_>>()
        })
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn only_the_store_touches_the_disk_and_asks_the_environment() {
    check_none("std::fs outside store/", |file| uses_std(&file.text, "fs") && file.module() != "store");
    check_none("std::env outside store/places", |file| uses_std(&file.text, "env") && !file.is_in(&["store/places"]));
}

/// The program opens no network connection, and its core has no clock.
#[test]
fn nobody_opens_a_connection_and_the_core_has_no_clock() {
    check_none("std::net", |file| uses_std(&file.text, "net"));
    check_none("std::time in the core", |file| {
        uses_std(&file.text, "time") && !["store", "command_line", "ui", "main"].contains(&file.module())
    });
}

#[test]
fn only_the_window_knows_its_toolkit() {
    for word in WINDOW {
        check_none(word, |file| names(&file.text, word) && file.module() != "ui");
    }
}

#[test]
fn only_what_is_written_knows_serde() {
    for word in ["serde", "serde_json"] {
        check_none(word, |file| names(&file.text, word) && !file.is_in(&SERDE));
    }
}

#[test]
fn no_file_has_more_than_600_lines() {
    let long: Vec<String> = files()
        .iter()
        .chain(&files_of("tests"))
        .filter(|file| file.text.lines().count() > MOST_LINES)
        .map(|file| format!("{}: {}", file.path, file.text.lines().count()))
        .collect();
    assert!(long.is_empty(), "{long:?}");
}

/// The reader of the text itself, so that the checks above can fail.
#[test]
fn paths_are_found_whatever_form_they_have() {
    let text = r##"
        //! `crate::comment` is not code.
        use crate::{analysis::{fat::FatPhase, *}, units};
        use crate::number as digits;
        use std::{env, io::{self, Read}, fs::read_to_string};
        /* crate::block /* crate::nested */ */
        fn call<'a>(quote: char) -> &'a str {
            let _ = ('"', '\'', '\u{7f}', "crate::text \" crate::more", r#"crate::raw " "#, b"crate::bytes");
            crate::report::words::level(quote);
            std::mem::take(&mut 1);
        }
        #[serde(with = "other")]
    "##;
    let used: Vec<String> = used_modules(text).into_iter().collect();
    assert_eq!(used, ["analysis", "number", "report", "units"]);
    assert!(uses_std(text, "env") && uses_std(text, "io") && uses_std(text, "fs") && uses_std(text, "mem"));
    assert!(!uses_std(text, "net"));
    assert!(names(text, "serde") && !names(text, "egui"));
    assert!(paths(text).contains(&["crate", "analysis", "fat", "FatPhase"].map(str::to_owned).to_vec()));
}

#[test]
fn a_wrong_use_is_found() {
    assert_eq!(wrong_uses("recipe", "use crate::analysis::analyse; use crate::ingredient::Library;"), ["analysis"]);
    assert_eq!(wrong_uses("report", "use crate::{store, report::words, units};"), ["store"]);
    assert_eq!(wrong_uses("store", "fn f() { crate::somewhere::g() }"), ["somewhere"]);
    assert!(wrong_uses("ui", "use crate::{store, report, document, ui::text};").is_empty());
}
