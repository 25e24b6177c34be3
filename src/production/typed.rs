//! What is typed about the work of a day, read: the same figures, limits and sentences in the window and on the command line.
//!
//! What a unit is may stand behind its number. Limits are those beyond which a typing error is certain.

use super::frame::Frame;
use super::rounding::FINEST_STEP;
use crate::number;
use crate::recipe::{MassUnit, Quantity, TransferLoss};
use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres, Millimetres};

/// A mass above zero.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_mass(text: &str) -> Result<Grams, String> {
    let mass = parse_ready(text)?;
    if mass.0 > 0.0 { Ok(mass) } else { Err("give a weight above 0, such as 250 g or 1.2 kg".to_owned()) }
}

/// A step that a scale can have.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_step(text: &str) -> Result<Grams, String> {
    let step = parse_mass(text)?;
    if step >= FINEST_STEP {
        Ok(step)
    } else {
        Err(format!("no scale is so fine; give a step from {} g up", number::as_given(FINEST_STEP.0)))
    }
}

/// A mass, perhaps none.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_ready(text: &str) -> Result<Grams, String> {
    let (value, unit) = number::parse_amount(text).map_err(|error| error.to_string())?;
    let unit = unit.and_then(MassUnit::from_symbol).unwrap_or_default();
    Quantity::new(value, unit).map(Quantity::grams).map_err(|error| error.to_string())
}

/// A number behind which its unit may stand.
fn parse_in(text: &str, unit: &str) -> Result<f64, String> {
    let trimmed = text.trim();
    number::parse(trimmed.strip_suffix(unit).unwrap_or(trimmed)).map_err(|error| error.to_string())
}

fn parse_above_zero(text: &str, unit: &str, most: f64) -> Result<f64, String> {
    let value = parse_in(text, unit)?;
    if value > 0.0 && value <= most {
        Ok(value)
    } else {
        Err(format!("give a number above 0 and at most {most} {unit}"))
    }
}

/// What a cavity holds: in ml, or in US fluid ounces where `fl oz` stands behind the number.
///
/// # Errors
///
/// One sentence for the user.
///
/// ```
/// # use nibwright::production::typed::parse_millilitres;
/// assert_eq!(parse_millilitres("10,2 ml").map(|volume| volume.0), Ok(10.2));
/// assert!((parse_millilitres("8 fl oz").unwrap().0 - 236.588_236_5).abs() < 5e-10);
/// ```
pub fn parse_millilitres(text: &str) -> Result<Millilitres, String> {
    /// A cubic metre: beyond it a typing error is certain.
    const MOST: f64 = 1e6;
    const FLUID_OUNCES: &str = "fl oz";
    if text.trim().ends_with(FLUID_OUNCES) {
        let most = MOST / Millilitres::from_us_fluid_ounces(1.0).0;
        return parse_above_zero(text, FLUID_OUNCES, most.floor()).map(Millilitres::from_us_fluid_ounces);
    }
    parse_above_zero(text, "ml", MOST).map(Millilitres)
}

/// A density.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_density(text: &str) -> Result<GramsPerMillilitre, String> {
    /// Heavier than all food; kg/m³ are refused by it.
    const MOST: f64 = 3.0;
    parse_above_zero(text, "g/ml", MOST).map(GramsPerMillilitre)
}

/// A length.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_millimetres(text: &str) -> Result<Millimetres, String> {
    /// Ten metres: beyond it a typing error is certain.
    const MOST: f64 = 1e4;
    parse_above_zero(text, "mm", MOST).map(Millimetres)
}

/// A length, perhaps none.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_trim(text: &str) -> Result<Millimetres, String> {
    if parse_in(text, "mm") == Ok(0.0) { Ok(Millimetres::ZERO) } else { parse_millimetres(text) }
}

/// Lengths with a cross between them.
fn parse_lengths(text: &str) -> Result<Vec<Millimetres>, String> {
    text.split(['x', 'X', '×']).map(parse_millimetres).collect()
}

/// Length, width and height with a cross between them.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_frame(text: &str) -> Result<Frame, String> {
    match *parse_lengths(text)?.as_slice() {
        [length, width, height] => Ok(Frame { length, width, height }),
        _ => Err("give length, width and height in mm, such as 340x340x10".to_owned()),
    }
}

/// One side of a piece, or two with a cross between them.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_cut(text: &str) -> Result<(Millimetres, Millimetres), String> {
    match *parse_lengths(text)?.as_slice() {
        [side] => Ok((side, side)),
        [along, across] => Ok((along, across)),
        _ => Err("give one side of a piece in mm, or two, such as 22.5x30".to_owned()),
    }
}

/// A loss in percent.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_loss(text: &str) -> Result<TransferLoss, String> {
    let percent = parse_in(text, "%")?;
    TransferLoss::from_percent(percent).map_err(|_| "give a loss in percent, 0 or more and below 100".to_owned())
}

/// A share of shell in percent.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_shell(text: &str) -> Result<MassFraction, String> {
    let percent = parse_in(text, "%")?;
    if (0.0..100.0).contains(&percent) {
        Ok(MassFraction::from_percent(percent))
    } else {
        Err("give the shell in percent of the piece, 0 or more and below 100".to_owned())
    }
}

/// A number of things.
///
/// # Errors
///
/// One sentence for the user.
pub fn parse_count(text: &str) -> Result<u32, String> {
    match text.trim().parse() {
        Ok(count) if count > 0 => Ok(count),
        _ => Err("give a whole number above 0".to_owned()),
    }
}
