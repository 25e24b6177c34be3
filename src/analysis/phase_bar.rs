//! The mass as one bar at a temperature: crystals, liquid fat, syrup, undissolved sugar, particles.
//!
//! Sucrose dissolves in the mass's water up to its solubility at the temperature of the bar; the other sugars and the
//! polyols count as dissolved. Water that solids hold is counted to the syrup.
//! In a fat-continuous mass all sugar is undissolved and the water stands alone.

use super::emulsion::{is_fat_continuous, sucrose_solubility};
use super::fat_crystals::FatCrystals;
use super::parts::{Group, Parts};
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
    let grams = |component| parts.grams(component);
    let all_fat = parts.group(Group::TotalFat)?;
    let crystals = match fat {
        Some(fat) => all_fat * fat.solid_at.total(),
        None if all_fat.0 <= 0.0 => Grams::ZERO,
        None => return None,
    };
    let water = grams(Component::Water)?;
    let ethanol = grams(Component::Ethanol)?;
    let sucrose = grams(Component::Sucrose)?;
    let other_sugars = parts.group(Group::Sugars)? - sucrose;
    let sweet = other_sugars + grams(Component::HigherSaccharides)? + grams(Component::Polyols)?;
    let salts = grams(Component::Salt)? + grams(Component::MilkMinerals)? + grams(Component::AcidsAshOther)?;
    let cocoa = grams(Component::FatFreeCocoaSolids)?;

    let is_fat_continuous = is_fat_continuous(water / whole);
    let (syrup, undissolved) = if is_fat_continuous {
        (water + ethanol, sucrose + sweet)
    } else {
        let dissolved = sucrose.min(water * sucrose_solubility(at));
        (water + ethanol + dissolved + sweet + salts, sucrose - dissolved)
    };
    Some(PhaseBar {
        fat_crystals: crystals / whole,
        liquid_fat: (all_fat - crystals) / whole,
        syrup: syrup / whole,
        undissolved_sugar: undissolved / whole,
        cocoa_particles: cocoa / whole,
        other_particles: (whole - all_fat - syrup - undissolved - cocoa) / whole,
        is_fat_continuous,
    })
}
