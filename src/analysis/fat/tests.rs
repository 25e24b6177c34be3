//! Checks of the fat model: against published figures, against a table computed beforehand, against a second method.
//!
//! Tolerances say what is compared: 0.01 point and 0.01 K where the model is compared with itself, computed elsewhere
//! by the same algorithm and once more by minimising the total free energy; points and half kelvins where it is
//! compared with measurements.

mod properties;
mod published;
mod second_method;
mod table;

use super::{FatGrams, FatPhase};
use crate::recipe::CocoaButter;
use crate::units::{Celsius, Grams};

/// Parts of cocoa butter, milk fat and liquid oil.
fn grams(cocoa_butter: f64, milk_fat: f64, liquid_oil: f64) -> FatGrams {
    FatGrams {
        cocoa_butter: Grams(cocoa_butter),
        milk_fat: Grams(milk_fat),
        liquid_oil: Grams(liquid_oil),
        ..FatGrams::default()
    }
}

/// The West African type of cocoa butter with parts of milk fat and liquid oil.
fn blend(cocoa_butter: f64, milk_fat: f64, liquid_oil: f64) -> FatPhase {
    fat(&grams(cocoa_butter, milk_fat, liquid_oil))
}

/// These fats, with the West African type of cocoa butter.
fn fat(grams: &FatGrams) -> FatPhase {
    FatPhase::new(grams, CocoaButter::WestAfrican).unwrap()
}

/// Solid fat in percent.
fn percent(fat: &FatPhase, celsius: f64) -> f64 {
    fat.solid_fat(Celsius(celsius)).total().to_percent()
}
