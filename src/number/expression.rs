//! Small sums as a person types them into a cell, and amounts with their unit.

use super::parse::{Number, Reader};
use super::{MINUS_SIGN, MOST_PARENTHESES, NumberError};

/// The number that a small sum comes to.
///
/// `+`, `-`, `*`, `/` with their usual order, and parentheses; also `x`, `×`, `·`, `÷`, the minus sign U+2212 and the
/// fraction slash. Numbers are read as by [`super::parse`].
/// A whole number, a blank and a fraction of at most two digits each are a mixed number, as in `1 1/2`; it is one
/// number for what stands before and behind it, so that `6 / 1 1/2` is 4. Its fraction is below one.
/// Percent is not known: of what would it be?
///
/// A sum comes with 15 significant digits, so that 0.1 + 0.2 shows 0.3; a number alone comes exactly as it is typed.
///
/// # Errors
///
/// [`NumberError`] with the position of what does not belong there, or why the sum has no result.
///
/// ```
/// # use nibwright::number::parse_expression;
/// assert_eq!(parse_expression("3*125"), Ok(375.0));
/// assert_eq!(parse_expression("(250 + 12,5) / 2"), Ok(131.25));
/// assert_eq!(parse_expression("1 1/2"), Ok(1.5));
/// ```
pub fn parse_expression(text: &str) -> Result<f64, NumberError> {
    let mut sum = Sum { reader: Reader::new(text)?, is_computed: false };
    let value = sum.terms(0)?;
    sum.reader.end()?;
    let value = if sum.is_computed { without_noise(value) } else { value };
    // Zero has no sign.
    Ok(if value == 0.0 { 0.0 } else { value })
}

/// An amount with the symbol of its unit, if one is typed: `g`, `kg`, `oz` or `lb`.
///
/// The number may be a sum as in [`parse_expression`]; the unit stands behind all of it. Case does not matter, and the
/// words are taken too: gram, kilo, ounce, pound, their plurals and what shopping lists make of them.
/// The amount may be negative: whether that makes sense is decided where it is used.
///
/// # Errors
///
/// [`NumberError`], among them [`NumberError::UnknownUnit`] for other units: volumes and pieces have no mass here.
///
/// ```
/// # use nibwright::number::parse_amount;
/// assert_eq!(parse_amount("1.2 kg"), Ok((1.2, Some("kg"))));
/// assert_eq!(parse_amount("2,5lb"), Ok((2.5, Some("lb"))));
/// assert_eq!(parse_amount("3*125"), Ok((375.0, None)));
/// ```
pub fn parse_amount(text: &str) -> Result<(f64, Option<&'static str>), NumberError> {
    // Before anything of it is repeated in a message.
    Reader::new(text)?;
    let text = text.trim_end();
    // "lb." is a habit; a number that ends with its decimal sign ("5.") is not touched.
    let bare = text.strip_suffix('.').filter(|bare| bare.ends_with(char::is_alphabetic)).unwrap_or(text);
    let number = bare.trim_end_matches(char::is_alphabetic);
    let unit = &bare[number.len()..];
    // An "x" at the end is a sum that is not finished; so reads the message.
    if unit.is_empty() || is_times_letter(unit) {
        return Ok((parse_expression(text)?, None));
    }
    let value = parse_expression(number)?;
    let symbol = unit_symbol(unit).ok_or_else(|| NumberError::UnknownUnit { unit: unit.to_owned() })?;
    Ok((value, Some(symbol)))
}

/// A sum that is being read.
struct Sum {
    reader: Reader,
    /// Whether anything was computed, so that the value may carry the noise of binary numbers.
    is_computed: bool,
}

impl Sum {
    /// Products, added and subtracted.
    fn terms(&mut self, depth: usize) -> Result<f64, NumberError> {
        let mut sum = self.factors(depth)?;
        loop {
            self.reader.skip_blanks();
            let next = match self.reader.peek() {
                Some('+') => {
                    self.reader.advance();
                    self.factors(depth)?
                }
                Some('-' | MINUS_SIGN) => {
                    self.reader.advance();
                    -self.factors(depth)?
                }
                _ => return Ok(sum),
            };
            sum = self.computed(sum + next)?;
        }
    }

    /// Numbers, multiplied and divided.
    fn factors(&mut self, depth: usize) -> Result<f64, NumberError> {
        let mut product = self.operand(depth)?;
        loop {
            self.reader.skip_blanks();
            product = match self.reader.peek() {
                Some('*' | 'x' | 'X' | '×' | '·') => {
                    self.reader.advance();
                    let factor = self.operand(depth)?;
                    self.computed(product * factor)?
                }
                Some(slash) if is_division(slash) => {
                    self.reader.advance();
                    let divisor = self.operand(depth)?;
                    if divisor == 0.0 {
                        return Err(NumberError::DivisionByZero);
                    }
                    self.computed(product / divisor)?
                }
                _ => return Ok(product),
            };
        }
    }

    /// A number or a sum in parentheses, perhaps with one sign.
    fn operand(&mut self, depth: usize) -> Result<f64, NumberError> {
        let is_negative = self.reader.sign();
        let value = if self.reader.peek() == Some('(') {
            if depth == MOST_PARENTHESES {
                return Err(NumberError::NestedTooDeep);
            }
            let position = self.reader.position();
            self.reader.advance();
            let value = self.terms(depth + 1)?;
            self.reader.skip_blanks();
            match self.reader.peek() {
                Some(')') => self.reader.advance(),
                Some(_) => return Err(self.reader.unexpected()),
                None => return Err(NumberError::UnclosedParenthesis { position }),
            }
            value
        } else {
            self.mixed_number()?
        };
        Ok(if is_negative { -value } else { value })
    }

    /// A number, perhaps with a fraction behind it: `1 1/2`.
    fn mixed_number(&mut self) -> Result<f64, NumberError> {
        let (whole, may_be_mixed) = match self.reader.number()? {
            Number::Whole(value) => (value, true),
            Number::Other(value) => (value, false),
        };
        let start = self.reader.after_blanks();
        if self.reader.digits_at(start) == 0 {
            return Ok(whole);
        }
        // Digits behind a blank that are no group of three: a fraction, or a slip.
        self.reader.skip_blanks();
        let position = self.reader.position();
        let numerator = self.short_number();
        self.reader.skip_blanks();
        if !self.reader.peek().is_some_and(is_division) {
            return Err(NumberError::Groups { position });
        }
        self.reader.advance();
        self.reader.skip_blanks();
        match (numerator, self.short_number()) {
            (Some(numerator), Some(denominator)) if may_be_mixed && numerator < denominator => {
                self.computed(whole + numerator / denominator)
            }
            (_, Some(0.0)) => Err(NumberError::DivisionByZero),
            _ => Err(NumberError::MixedNumber { position }),
        }
    }

    /// Goes past the digits at hand; their number if they are as few as in a fraction and nothing clings to them.
    fn short_number(&mut self) -> Option<f64> {
        /// Digits of a numerator or denominator: sixteenths are common on scales, hundredths are not written so.
        const MOST_DIGITS: usize = 2;
        let mut digits = String::new();
        while let Some(digit) = self.reader.peek().filter(char::is_ascii_digit) {
            digits.push(digit);
            self.reader.advance();
        }
        let clings = self.reader.peek().is_some_and(|next| matches!(next, ',' | '.' | '\'' | '\u{2019}' | 'e' | 'E'));
        if clings || digits.len() > MOST_DIGITS { None } else { digits.parse().ok() }
    }

    /// Takes a result that is a number.
    fn computed(&mut self, value: f64) -> Result<f64, NumberError> {
        self.is_computed = true;
        if value.is_finite() { Ok(value) } else { Err(NumberError::NotFinite) }
    }
}

/// The value with the 15 digits that a double holds for certain.
fn without_noise(value: f64) -> f64 {
    // One digit stands before the point.
    format!("{value:.14e}").parse().unwrap_or(value)
}

fn is_division(character: char) -> bool {
    matches!(character, '/' | '÷' | '\u{2044}' | '\u{2215}')
}

fn is_times_letter(text: &str) -> bool {
    matches!(text, "x" | "X")
}

/// The symbol of the unit that these letters mean.
fn unit_symbol(letters: &str) -> Option<&'static str> {
    Some(match letters.to_lowercase().as_str() {
        "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => "g",
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" => "kg",
        "oz" | "ounce" | "ounces" => "oz",
        "lb" | "lbs" | "pound" | "pounds" => "lb",
        _ => return None,
    })
}
