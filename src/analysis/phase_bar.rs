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
    /// Whether there is too little water to dissolve anything: then the syrup is plain water and the sugar dry.
    pub is_dry: bool,
}

/// The shares of the parts of a bar that one line brings, each from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brought {
    /// Of all fat, whether crystallised or melted: all fats of a mass crystallise together.
    pub fat: MassFraction,
    /// Of the syrup.
    pub syrup: MassFraction,
    /// Of the sugar that is not dissolved.
    pub undissolved_sugar: MassFraction,
    /// Of the fat-free cocoa.
    pub cocoa_particles: MassFraction,
    /// Of the other particles.
    pub other_particles: MassFraction,
}

impl Brought {
    /// In the order of the bar: crystals, liquid fat, syrup, undissolved sugar, cocoa, other particles.
    #[must_use]
    pub fn shares(&self) -> [MassFraction; 6] {
        [self.fat, self.fat, self.syrup, self.undissolved_sugar, self.cocoa_particles, self.other_particles]
    }
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
    let syrup = Syrup::of(parts, at)?;
    let masses = Masses::of(parts, &syrup)?;
    Some(PhaseBar {
        fat_crystals: crystals / whole,
        liquid_fat: (all_fat - crystals) / whole,
        syrup: masses.syrup / whole,
        undissolved_sugar: masses.undissolved_sugar / whole,
        cocoa_particles: masses.cocoa_particles / whole,
        other_particles: masses.other_particles / whole,
        is_dry: syrup.is_dry,
    })
}

/// Which share of each part of the bar of a mass one line of it brings; zero of a part that is not there.
///
/// `line` is what the bowl has of it ([`super::make_up::MakeUp::left_of`]), `whole` the bowl. The shares of all lines sum
/// to 1, but for lines of which the data sheet adds up to more than the whole. `None` if a figure is not known.
#[must_use]
pub fn brought_by(line: &Parts, whole: &Parts, at: Celsius) -> Option<Brought> {
    let syrup = Syrup::of(whole, at)?;
    let all = Masses::of(whole, &syrup)?;
    let brought = Masses::of(line, &syrup.brought_by(line, whole)?)?;
    let share = |brought: Grams, all: Grams| {
        if all.0 > 0.0 { MassFraction((brought / all).0.clamp(0.0, 1.0)) } else { MassFraction::ZERO }
    };
    Some(Brought {
        fat: share(brought.fat, all.fat),
        syrup: share(brought.syrup, all.syrup),
        undissolved_sugar: share(brought.undissolved_sugar, all.undissolved_sugar),
        cocoa_particles: share(brought.cocoa_particles, all.cocoa_particles),
        other_particles: share(brought.other_particles, all.other_particles),
    })
}

/// What the bar is made of, for a mass and for what one line brings to it.
struct Masses {
    fat: Grams,
    syrup: Grams,
    undissolved_sugar: Grams,
    cocoa_particles: Grams,
    other_particles: Grams,
}

impl Masses {
    fn of(parts: &Parts, syrup: &Syrup) -> Option<Self> {
        let fat = parts.group(Group::TotalFat)?;
        let (syrup, undissolved_sugar) = (syrup.total(), syrup.undissolved);
        let cocoa_particles = parts.grams(Component::FatFreeCocoaSolids)?;
        let other_particles = parts.total() - fat - syrup - undissolved_sugar - cocoa_particles;
        Some(Self { fat, syrup, undissolved_sugar, cocoa_particles, other_particles })
    }
}
