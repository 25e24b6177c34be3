//! What part of each colour one line brings.

use super::theme::Hue;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::syrup;
use crate::ingredient::Component;
use crate::units::Celsius;

/// What part of the whole one line brings, for several things at once; zero where it is not known.
#[must_use]
pub fn brought_by(line: &Parts, whole: &Parts, at: Celsius) -> Brought {
    let part = |of: &dyn Fn(&Parts) -> Option<f64>| match (of(line), of(whole)) {
        (Some(line), Some(whole)) if whole > 0.0 => line / whole,
        _ => 0.0,
    };
    let fat = |parts: &Parts| parts.group(Group::TotalFat).map(|grams| grams.0);
    Brought {
        fat: part(&fat),
        syrup: syrup::brought_by(line, whole, at).map_or(0.0, |share| share.0),
        sucrose: part(&|parts| parts.grams(Component::Sucrose).map(|grams| grams.0)),
        cocoa: part(&|parts| Hue::CocoaSolids.grams(parts).map(|grams| grams.0)),
        others: part(&|parts| Hue::OtherSolids.grams(parts).map(|grams| grams.0)),
    }
}

/// Parts of the whole that one line brings, from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brought {
    /// Of all fat.
    pub fat: f64,
    /// Of water and what dissolves in it.
    pub syrup: f64,
    /// Of the sucrose.
    pub sucrose: f64,
    /// Of the fat-free cocoa.
    pub cocoa: f64,
    /// Of the rest.
    pub others: f64,
}
