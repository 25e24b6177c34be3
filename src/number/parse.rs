//! One number as a person types it. Sums of several are read in `expression`.

use super::{MINUS_SIGN, MOST_CHARACTERS, NumberError};

/// The number that a text is.
///
/// * Decimal sign: a single `,` or `.` always is one. If both occur, the last is. If one of them occurs several times,
///   all of it are group signs: `1.234.567` and `1,234,567` are the same.
/// * Group signs: blanks (the non-breaking and narrow ones too) and apostrophes. However they are written, groups
///   have to be groups: one to three digits, the first not 0, then three each. So a slip such as `12 5` or `1,5,0`
///   is refused and does not become another number.
/// * Signs: `+`, `-` and the minus sign U+2212, in front.
/// * Fractions: `½`, `¼`, `¾`, thirds and eighths, alone or behind a whole number.
/// * Exponents as spreadsheets write them: `1.5E-05`.
///
/// # Errors
///
/// [`NumberError`] with the position of what does not belong there.
///
/// ```
/// # use nibwright::number::parse;
/// assert_eq!(parse("1,234"), Ok(1.234));
/// assert_eq!(parse("1.234,5"), Ok(1234.5));
/// assert_eq!(parse("−2 ½"), Ok(-2.5));
/// ```
pub fn parse(text: &str) -> Result<f64, NumberError> {
    let mut reader = Reader::new(text)?;
    let is_negative = reader.sign();
    let value = match reader.number()? {
        Number::Whole(value) | Number::Other(value) => value,
    };
    reader.end()?;
    // Zero has no sign.
    Ok(if is_negative && value != 0.0 { -value } else { value })
}

/// A text on its way through the eyes of the reader, without the blanks around it.
pub(super) struct Reader {
    characters: Vec<char>,
    next: usize,
    /// How many blanks were in front: positions count them.
    blanks_before: usize,
}

/// A number without its sign.
pub(super) enum Number {
    /// Digits alone: a fraction may follow.
    Whole(f64),
    /// With decimals, a fraction or an exponent.
    Other(f64),
}

/// The fractions that have a character of their own.
const FRACTIONS: [(char, f64); 9] = [
    ('½', 1.0 / 2.0),
    ('¼', 1.0 / 4.0),
    ('¾', 3.0 / 4.0),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('⅛', 1.0 / 8.0),
    ('⅜', 3.0 / 8.0),
    ('⅝', 5.0 / 8.0),
    ('⅞', 7.0 / 8.0),
];

/// How many digits stand between two group signs.
const GROUP: usize = 3;

impl Reader {
    /// The beginning of a text that is neither empty nor too long.
    pub(super) fn new(text: &str) -> Result<Self, NumberError> {
        let trimmed = text.trim_start();
        let blanks_before = text[..text.len() - trimmed.len()].chars().count();
        let trimmed = trimmed.trim_end();
        let characters = trimmed.chars().count();
        if characters > MOST_CHARACTERS {
            return Err(NumberError::TooLong { characters });
        }
        if characters == 0 {
            return Err(NumberError::Empty);
        }
        Ok(Self { characters: trimmed.chars().collect(), next: 0, blanks_before })
    }

    /// The character at hand.
    pub(super) fn peek(&self) -> Option<char> {
        self.characters.get(self.next).copied()
    }

    /// Goes past the character at hand.
    pub(super) fn advance(&mut self) {
        self.next += 1;
    }

    /// Goes past blanks.
    pub(super) fn skip_blanks(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.advance();
        }
    }

    /// Where the character at hand stands in the text, from 1.
    pub(super) fn position(&self) -> usize {
        self.position_of(self.next)
    }

    fn position_of(&self, idx: usize) -> usize {
        self.blanks_before + idx + 1
    }

    /// The error that the character at hand is; behind the last one, that something is missing.
    pub(super) fn unexpected(&self) -> NumberError {
        self.unexpected_at(self.next)
    }

    fn unexpected_at(&self, idx: usize) -> NumberError {
        self.characters.get(idx).map_or(NumberError::Unfinished, |&character| NumberError::UnexpectedCharacter {
            character,
            position: self.position_of(idx),
        })
    }

    /// Nothing but blanks may follow.
    pub(super) fn end(&mut self) -> Result<(), NumberError> {
        self.skip_blanks();
        match self.peek() {
            None => Ok(()),
            Some(digit) if digit.is_ascii_digit() => Err(NumberError::Groups { position: self.position() }),
            Some(_) => Err(self.unexpected()),
        }
    }

    /// Goes past a sign and the blanks around it; whether it was a minus.
    pub(super) fn sign(&mut self) -> bool {
        self.skip_blanks();
        let sign = self.peek();
        if matches!(sign, Some('+' | '-' | MINUS_SIGN)) {
            self.advance();
            self.skip_blanks();
        }
        matches!(sign, Some('-' | MINUS_SIGN))
    }

    /// How many digits begin at an index.
    pub(super) fn digits_at(&self, idx: usize) -> usize {
        self.characters.iter().skip(idx).take_while(|character| character.is_ascii_digit()).count()
    }

    /// The index of the next character that is no blank.
    pub(super) fn after_blanks(&self) -> usize {
        let blanks = self.characters.iter().skip(self.next).take_while(|character| character.is_whitespace()).count();
        self.next + blanks
    }

    /// The number that begins with the character at hand.
    pub(super) fn number(&mut self) -> Result<Number, NumberError> {
        if let Some(fraction) = self.fraction_character() {
            return Ok(Number::Other(fraction));
        }
        let start = self.next;
        let end = self.end_of_digits();
        let decimal_sign = self.decimal_sign(start, end)?;
        let whole = self.whole_digits(start, decimal_sign.unwrap_or(end))?;
        let decimals = match decimal_sign {
            Some(idx) => self.decimals(idx, end)?,
            None => String::new(),
        };
        if whole.is_empty() && decimals.is_empty() {
            return Err(self.unexpected());
        }
        self.next = end;
        let exponent = self.exponent();
        let value: f64 = format!("0{whole}.{decimals}0{exponent}").parse().map_err(|_| NumberError::NotFinite)?;
        if !value.is_finite() {
            return Err(NumberError::NotFinite);
        }
        if decimal_sign.is_some() || !exponent.is_empty() {
            return Ok(Number::Other(value));
        }
        let behind = self.next;
        self.skip_blanks();
        if let Some(fraction) = self.fraction_character() {
            return Ok(Number::Other(value + fraction));
        }
        self.next = behind;
        Ok(Number::Whole(value))
    }

    /// Goes past a fraction that has a character of its own.
    fn fraction_character(&mut self) -> Option<f64> {
        let character = self.peek()?;
        let (_, value) = FRACTIONS.into_iter().find(|(fraction, _)| *fraction == character)?;
        self.advance();
        Some(value)
    }

    /// The index behind the digits, decimal signs and group signs that begin at the character at hand.
    ///
    /// A blank is a group sign when exactly three digits follow it; otherwise the number ends before it.
    fn end_of_digits(&self) -> usize {
        let mut idx = self.next;
        while let Some(&character) = self.characters.get(idx) {
            let is_part = if character.is_whitespace() {
                let blanks = self.characters.iter().skip(idx).take_while(|next| next.is_whitespace()).count();
                let is_group = self.digits_at(idx + blanks) == GROUP;
                if is_group {
                    idx += blanks - 1;
                }
                is_group && idx > self.next
            } else {
                character.is_ascii_digit() || matches!(character, ',' | '.') || is_apostrophe(character)
            };
            if !is_part {
                break;
            }
            idx += 1;
        }
        idx
    }

    /// The index of the decimal sign among the characters of a number.
    fn decimal_sign(&self, start: usize, end: usize) -> Result<Option<usize>, NumberError> {
        let signs: Vec<usize> = (start..end).filter(|&idx| matches!(self.characters[idx], ',' | '.')).collect();
        let Some(&last) = signs.last() else { return Ok(None) };
        let same = signs.iter().filter(|&&idx| self.characters[idx] == self.characters[last]).count();
        if same == 1 {
            Ok(Some(last))
        } else if same == signs.len() {
            Ok(None)
        } else {
            Err(NumberError::SecondDecimalSign { position: self.position_of(last) })
        }
    }

    /// The digits before the decimal sign, without their group signs.
    fn whole_digits(&self, start: usize, end: usize) -> Result<String, NumberError> {
        let mut digits = String::new();
        let mut in_group = 0;
        let mut has_groups = false;
        for idx in start..=end {
            let character = self.characters.get(idx).filter(|_| idx < end);
            match character {
                Some(digit) if digit.is_ascii_digit() => {
                    digits.push(*digit);
                    in_group += 1;
                }
                // Several blanks in a row part a group once.
                Some(blank) if blank.is_whitespace() && idx > start && self.characters[idx - 1].is_whitespace() => {}
                _ if in_group == 0 && (has_groups || idx < end) => {
                    // A sign with no digits before it; at the end it is the last one that has none behind it.
                    return Err(self.unexpected_at(idx.min(end - 1)));
                }
                separator => {
                    has_groups |= separator.is_some();
                    let is_first = digits.len() == in_group;
                    let fits = if is_first {
                        (1..=GROUP).contains(&in_group) && !digits.starts_with('0')
                    } else {
                        in_group == GROUP
                    };
                    if has_groups && !fits {
                        return Err(NumberError::Groups { position: self.position_of(idx) });
                    }
                    in_group = 0;
                }
            }
        }
        Ok(digits)
    }

    /// The digits behind the decimal sign; they are not parted.
    fn decimals(&self, decimal_sign: usize, end: usize) -> Result<String, NumberError> {
        match (decimal_sign + 1..end).find(|&idx| !self.characters[idx].is_ascii_digit()) {
            Some(idx) => Err(self.unexpected_at(idx)),
            None => Ok(self.characters[decimal_sign + 1..end].iter().collect()),
        }
    }

    /// Goes past an exponent: `e5`, `E-05`; empty if there is none.
    fn exponent(&mut self) -> String {
        if !matches!(self.peek(), Some('e' | 'E')) {
            return String::new();
        }
        let sign = self.characters.get(self.next + 1).filter(|sign| matches!(**sign, '+' | '-' | MINUS_SIGN));
        let start = self.next + 1 + usize::from(sign.is_some());
        let count = self.digits_at(start);
        if count == 0 {
            return String::new();
        }
        let minus = if matches!(sign, Some('-' | &MINUS_SIGN)) { "-" } else { "" };
        let digits: String = self.characters.iter().skip(start).take(count).collect();
        self.next = start + count;
        format!("e{minus}{digits}")
    }
}

/// The typewriter's apostrophe and the curved one, which Switzerland writes between groups.
fn is_apostrophe(character: char) -> bool {
    matches!(character, '\'' | '\u{2019}')
}
