//! The mass as one bar at a temperature: crystals, liquid fat, syrup, undissolved sugar, particles.
//!
//! What is syrup, and how much water the particles hold, comes from the water model at the temperature of the bar.

use super::fat_crystals::FatCrystals;
use super::parts::{Group, Parts};
use super::syrup::{is_dry, salts, sweet};
use super::water::equilibrium::{Conditions, Contents, Equilibrium};
use super::water::sorption::Sorbent;
use crate::ingredient::Component;
use crate::units::{Celsius, Grams, MassFraction};

/// The parts of the bar, each a share of the bowl; they sum to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhaseBar {
    /// Crystallised fat.
    pub fat_crystals: MassFraction,
    /// Melted fat.
    pub liquid_fat: MassFraction,
    /// Water that is not held by particles, with what is dissolved in it, ethanol included.
    pub syrup: MassFraction,
    /// Sugar that is not dissolved.
    pub undissolved_sugar: MassFraction,
    /// Fat-free cocoa with the water that it holds.
    pub cocoa_particles: MassFraction,
    /// Protein, starch and fibre with the water that they hold, and what data sheets leave open.
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
    /// Of the fat-free cocoa with its water.
    pub cocoa_particles: MassFraction,
    /// Of the other particles with their water.
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
    let split = Split::of(parts, at)?;
    let masses = split.masses(parts)?;
    Some(PhaseBar {
        fat_crystals: crystals / whole,
        liquid_fat: (all_fat - crystals) / whole,
        syrup: masses.syrup / whole,
        undissolved_sugar: masses.undissolved_sugar / whole,
        cocoa_particles: masses.cocoa_particles / whole,
        other_particles: masses.other_particles / whole,
        is_dry: split.is_dry,
    })
}

/// Which share of each part of the bar of a mass one line of it brings; zero of a part that is not there.
///
/// `line` is what the bowl has of it ([`super::make_up::MakeUp::left_of`]), `whole` the bowl. Water that particles hold
/// counts to the line that brings the particles. The shares of all lines sum to 1, but for lines of which the data sheet
/// adds up to more than the whole. `None` if a figure is not known.
#[must_use]
pub fn brought_by(line: &Parts, whole: &Parts, at: Celsius) -> Option<Brought> {
    let split = Split::of(whole, at)?;
    let (all, brought) = (split.masses(whole)?, split.masses(line)?);
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

/// How a mass divides what it is made of, the same for all of its lines.
struct Split {
    /// The share of the water that is in the syrup.
    syrup_water: MassFraction,
    /// The share of the sucrose that is dissolved.
    dissolved_sucrose: MassFraction,
    /// Whether the sugars that never crystallise here, salts and acids are dissolved.
    is_syrup: bool,
    /// Water on each gram of dry solid.
    moisture: [f64; Sorbent::COUNT],
    /// Whether there is too little water to dissolve anything.
    is_dry: bool,
}

impl Split {
    fn of(whole: &Parts, at: Celsius) -> Option<Self> {
        let contents = Contents::of(whole)?;
        if is_dry(whole.share(Component::Water)?) {
            return Some(Self {
                syrup_water: MassFraction(1.0),
                dissolved_sucrose: MassFraction::ZERO,
                is_syrup: false,
                moisture: [0.0; Sorbent::COUNT],
                is_dry: true,
            });
        }
        let Equilibrium { syrup_water, dissolved_sucrose, held, .. } = contents.equilibrium(Conditions::usual(at))?;
        let share = |part: Grams, of: Grams| if of.0 > 0.0 { part / of } else { MassFraction::ZERO };
        Some(Self {
            syrup_water: share(syrup_water, contents.water),
            dissolved_sucrose: share(dissolved_sucrose, contents.sucrose),
            is_syrup: syrup_water.0 > 0.0,
            moisture: Sorbent::ALL.map(|sort| share(held[sort as usize], contents.solids[sort as usize]).0),
            is_dry: false,
        })
    }

    /// What of the bar these parts are, the whole mass or what one line brings to it.
    fn masses(&self, parts: &Parts) -> Option<Masses> {
        let contents = Contents::of(parts)?;
        let grams = |component| parts.grams(component);
        let (water, ethanol, sucrose) = (contents.water, grams(Component::Ethanol)?, contents.sucrose);
        let (sweet, salts) = (sweet(parts)?, salts(parts)?);
        let fat = parts.group(Group::TotalFat)?;
        let cocoa = grams(Component::FatFreeCocoaSolids)?;

        let mut syrup = water * self.syrup_water + ethanol + sucrose * self.dissolved_sucrose;
        let mut undissolved_sugar = sucrose - sucrose * self.dissolved_sucrose;
        let mut others = parts.total() - fat - water - ethanol - sucrose - sweet - salts - cocoa;
        if self.is_syrup {
            syrup += sweet + salts;
        } else {
            undissolved_sugar += sweet;
            others += salts;
        }
        let held = |sort: Sorbent| contents.solids[sort as usize] * self.moisture[sort as usize];
        let held_by_others: Grams = Sorbent::ALL.into_iter().filter(|sort| *sort != Sorbent::Cocoa).map(held).sum();
        Some(Masses {
            fat,
            syrup,
            undissolved_sugar,
            cocoa_particles: cocoa + held(Sorbent::Cocoa),
            other_particles: others + held_by_others,
        })
    }
}

/// The masses of the parts of the bar.
struct Masses {
    fat: Grams,
    syrup: Grams,
    undissolved_sugar: Grams,
    cocoa_particles: Grams,
    other_particles: Grams,
}
