//! The mass as one bar at a temperature: crystals, liquid fat, syrup, undissolved sugar, particles.
//!
//! The syrup is that of [`Syrup`], at the temperature of the bar.

use super::fat_crystals::FatCrystals;
use super::parts::{Group, Parts};
use super::syrup::Syrup;
use crate::ingredient::Component;
use crate::units::{Celsius, Grams, MassFraction};

/// The parts of the bar, each a share of the bowl; they sum to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhaseBar {
    /// Crystallised fat.
    pub fat_crystals: MassFraction,
    /// Melted fat.
    pub liquid_fat: MassFraction,
    /// Water with what is dissolved in it, ethanol included.
    pub syrup: MassFraction,
    /// Sugar that is not dissolved.
    pub undissolved_sugar: MassFraction,
    /// Fat-free cocoa.
    pub cocoa_particles: MassFraction,
    /// Protein, starch, fibre and what data sheets leave open.
    pub other_particles: MassFraction,
    /// Whether fat is the continuous phase: then the syrup is plain water and the sugar dry.
    pub is_fat_continuous: bool,
}

/// The bar at the temperature for which the fat was computed; `None` where a figure is not known or there is no mass.
#[must_use]
pub fn phase_bar(parts: &Parts, fat: Option<&FatCrystals>, at: Celsius) -> Option<PhaseBar> {
    let whole = parts.total();
    if whole.0 <= 0.0 {
        return None;
    }
    let all_fat = parts.group(Group::TotalFat)?;
    let crystals = match fat {
        Some(fat) => all_fat * fat.solid_at.total(),
        None if all_fat.0 <= 0.0 => Grams::ZERO,
        None => return None,
    };
    let cocoa = parts.grams(Component::FatFreeCocoaSolids)?;
    let syrup = Syrup::of(parts, at)?;
    let (dissolved, undissolved) = (syrup.total(), syrup.undissolved);
    Some(PhaseBar {
        fat_crystals: crystals / whole,
        liquid_fat: (all_fat - crystals) / whole,
        syrup: dissolved / whole,
        undissolved_sugar: undissolved / whole,
        cocoa_particles: cocoa / whole,
        other_particles: (whole - all_fat - dissolved - undissolved - cocoa) / whole,
        is_fat_continuous: syrup.is_fat_continuous,
    })
}
