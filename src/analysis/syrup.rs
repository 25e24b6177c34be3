//! The water of a mass with what is dissolved in it while it is hot, as the emulsion counts it.
//!
//! Sucrose dissolves in all the water up to its solubility in pure water; the other sugars, higher saccharides, polyols,
//! salts and acids count as dissolved. That is simpler than the water model (`water`), which leaves water on the solids
//! and lets other sugars take room from sucrose: the limits of an emulsion were stated for volumes counted so.
//! In a dry mass nothing is dissolved: the syrup is water and ethanol, all sugar is dry.

use super::is_below;
use super::parts::{Group, Parts};
use super::water::solubility::sucrose_in_water;
use crate::ingredient::Component;
use crate::units::{Celsius, Grams, MassFraction};

/// Below this share of water the mass is dry and no emulsion: with fat, fat is the continuous phase.
pub const LEAST_WATER: MassFraction = MassFraction(0.02);

/// What is liquid and dissolved on the watery side of a mass, and the sugar that is not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Syrup {
    /// Water.
    pub water: Grams,
    /// Ethanol.
    pub ethanol: Grams,
    /// The sucrose that is dissolved.
    pub sucrose: Grams,
    /// All other dissolved sugars, higher saccharides and polyols.
    pub sweet: Grams,
    /// Dissolved salt, milk minerals and acids.
    pub salts: Grams,
    /// Sugar that is not dissolved; none of the syrup.
    pub undissolved: Grams,
    /// Whether there is too little water to dissolve anything.
    pub is_dry: bool,
}

impl Syrup {
    /// The syrup of a mass at a temperature; `None` if a figure of it is not known or there is no mass.
    ///
    /// dissolved sucrose = min(sucrose, water · s(t)), s by [`sucrose_in_water`]
    #[must_use]
    pub fn of(parts: &Parts, at: Celsius) -> Option<Self> {
        let water = parts.grams(Component::Water)?;
        let ethanol = parts.grams(Component::Ethanol)?;
        let sucrose = parts.grams(Component::Sucrose)?;
        let sweet = sweet(parts)?;
        let salts = salts(parts)?;
        let is_dry = is_dry(parts.share(Component::Water)?);
        if is_dry {
            let (none, undissolved) = (Grams::ZERO, sucrose + sweet);
            return Some(Self { water, ethanol, sucrose: none, sweet: none, salts: none, undissolved, is_dry });
        }
        let dissolved = sucrose.min(water * sucrose_in_water(at));
        let undissolved = sucrose - dissolved;
        Some(Self { water, ethanol, sucrose: dissolved, sweet, salts, undissolved, is_dry })
    }

    /// What one line of the mass brings to this syrup and to the sugar beside it; all lines together bring all of it.
    ///
    /// Of the sucrose that is dissolved, and of that which is not, a line brings the share that it has of all sucrose.
    /// `line` is what the bowl has of it ([`super::make_up::MakeUp::left_of`]), `whole` the bowl. `None` if a figure is
    /// not known.
    #[must_use]
    pub fn brought_by(&self, line: &Parts, whole: &Parts) -> Option<Self> {
        let (sucrose, all_sucrose) = (line.grams(Component::Sucrose)?, whole.grams(Component::Sucrose)?);
        let of_sucrose = if all_sucrose.0 > 0.0 { sucrose / all_sucrose } else { MassFraction::ZERO };
        let (sweet, salts) = (sweet(line)?, salts(line)?);
        let (sweet, salts, undissolved) = if self.is_dry {
            (Grams::ZERO, Grams::ZERO, sucrose + sweet)
        } else {
            (sweet, salts, self.undissolved * of_sucrose)
        };
        Some(Self {
            water: line.grams(Component::Water)?,
            ethanol: line.grams(Component::Ethanol)?,
            sucrose: self.sucrose * of_sucrose,
            sweet,
            salts,
            undissolved,
            is_dry: self.is_dry,
        })
    }

    /// All of it together.
    #[must_use]
    pub fn total(&self) -> Grams {
        self.water + self.ethanol + self.sucrose + self.sweet + self.salts
    }
}

/// All sugars but sucrose, the higher saccharides and the polyols.
pub(super) fn sweet(parts: &Parts) -> Option<Grams> {
    let other_sugars = parts.group(Group::Sugars)? - parts.grams(Component::Sucrose)?;
    Some(other_sugars + parts.grams(Component::HigherSaccharides)? + parts.grams(Component::Polyols)?)
}

/// Salt, milk minerals and acids.
pub(super) fn salts(parts: &Parts) -> Option<Grams> {
    Some(
        parts.grams(Component::Salt)?
            + parts.grams(Component::MilkMinerals)?
            + parts.grams(Component::AcidsAshOther)?,
    )
}

/// Whether there is too little water for a water phase.
#[must_use]
pub fn is_dry(water_share: MassFraction) -> bool {
    is_below(water_share.0, LEAST_WATER.0)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::ingredient::Library;

    fn parts(lines: &[(&str, f64)]) -> Parts {
        let mut parts = Parts::default();
        for (id, grams) in lines {
            parts.add(Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}")), Grams(*grams));
        }
        parts
    }

    const GANACHE: [(&str, f64); 4] =
        [("couverture-dark-64", 400.0), ("cream-35", 200.0), ("sucrose", 250.0), ("invert-syrup", 25.0)];

    #[test]
    fn sucrose_dissolves_up_to_its_solubility_and_the_rest_stays_dry() {
        let whole = parts(&GANACHE);
        let syrup = Syrup::of(&whole, Celsius(20.0)).expect("all is known");
        assert!(syrup.undissolved.0 > 0.0, "{syrup:?}");
        assert_abs_diff_eq!(syrup.sucrose.0, syrup.water.0 * sucrose_in_water(Celsius(20.0)), epsilon = 1e-9);
        let all = whole.grams(Component::Sucrose).expect("known");
        assert_abs_diff_eq!((syrup.sucrose + syrup.undissolved).0, all.0, epsilon = 1e-9);
        // More dissolves in the heat.
        let hot = Syrup::of(&whole, Celsius(60.0)).expect("all is known");
        assert!(hot.sucrose > syrup.sucrose && hot.total() > syrup.total());
    }

    #[test]
    fn nothing_dissolves_in_a_dry_mass() {
        let syrup = Syrup::of(&parts(&[("couverture-dark-64", 400.0)]), Celsius(20.0)).expect("known");
        assert!(syrup.is_dry && syrup.undissolved.0 > 0.0);
        assert_eq!(syrup.total(), syrup.water + syrup.ethanol);
    }

    #[test]
    fn nothing_is_said_of_no_mass() {
        assert_eq!(Syrup::of(&Parts::default(), Celsius(20.0)), None);
    }
}
