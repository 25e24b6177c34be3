//! Numbers of the reading Emulsion.

use super::{HABIT, HABIT_SOURCE, inputs, percent, two, with_sign, words};
use crate::analysis::emulsion::{
    Brought, CLOSEST_PACKING, FAT_DENSITY, FAT_TO_WATER_EASY, FAT_TO_WATER_LEAST, FAT_TO_WATER_LIMIT, HOT,
    INSOLUBLE_DENSITY, JAMMING, SOFT, SUCROSE_CRYSTAL_DENSITY, WATER_DENSITY,
};
use crate::analysis::syrup::LEAST_WATER;
use crate::analysis::usual::UsualRange;
use crate::number::{DecimalSign, shortest};
use crate::report;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;
use crate::units::{GramsPerMillilitre, VolumeFraction};

/// One of the three phases.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Melted fat.
    Fat,
    /// What dissolves in neither.
    Particles,
    /// Water with all that is dissolved in it.
    Water,
}

impl Phase {
    /// Its name.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Fat => "fat",
            Self::Particles => "particles",
            Self::Water => "water phase",
        }
    }

    /// The share of it that a line brings.
    #[must_use]
    pub fn brought(self, brought: &Brought) -> VolumeFraction {
        match self {
            Self::Fat => brought.fat,
            Self::Particles => brought.insoluble,
            Self::Water => brought.water_phase,
        }
    }
}

fn density(density: GramsPerMillilitre, sign: DecimalSign) -> String {
    format!("{} g/ml", shortest(density.0, 4, sign))
}

fn least_water(sign: DecimalSign) -> String {
    format!("Masses with at least {} water.", percent(LEAST_WATER, sign))
}

/// The dispersed share.
#[must_use]
pub fn dispersed_share(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let (soft, jamming, packing) = (two(SOFT.0, sign), two(JAMMING.0, sign), two(CLOSEST_PACKING.0, sign));
    Explanation {
        title: words("dispersed share, hot"),
        what: words(format!(
            "How crowded the emulsion is: fat droplets and particles as a share of the volume at {} °C.",
            shortest(HOT.0, 0, sign)
        )),
        formula: words(
            "(fat + particles) ÷ (fat + particles + water phase), by volume. Water phase: water with everything \
             dissolved in it, sucrose up to its solubility, milk protein.",
        ),
        range: words(format!(
            "Below {soft} soft, to {jamming} normal to firm; {jamming} droplets jam; above {packing} likely to split. {}",
            least_water(sign)
        )),
        source: words(format!(
            "Random close packing (Bernal and Mason 1960, from memory); closest packing of spheres {packing}. Uneven \
             droplets pack closer (Kwok et al. 2020)."
        )),
        evidence: words(format!(
            "Packing of spheres is published; the levels between are common practice. {}",
            inputs(scene)
        )),
        uncertainty: with_sign("About ±0.03, judged: densities, droplet sizes and emulsifiers are not known.", sign),
    }
}

/// Fat over water.
#[must_use]
pub fn fat_to_water(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("fat to water, by mass"),
        what: words("All fat over all water: the oldest rule of thumb for a ganache."),
        formula: words("Grams of fat ÷ grams of water in the bowl."),
        range: words(format!(
            "{} to {} easy, to {} firm and careful, above likely to split. {}",
            shortest(FAT_TO_WATER_LEAST, 1, sign),
            shortest(FAT_TO_WATER_EASY, 1, sign),
            shortest(FAT_TO_WATER_LIMIT, 1, sign),
            least_water(sign)
        )),
        source: words(HABIT_SOURCE),
        evidence: words(format!("The levels: {HABIT}. {}", inputs(scene))),
        uncertainty: with_sign(
            "A point of water or two points of fat in the ingredients move it by about 0.1 in a ganache. It knows nothing \
             of cocoa particles: the dispersed share does.",
            sign,
        ),
    }
}

/// One of the three volumes, in millilitres and as a share.
#[must_use]
pub fn volume(phase: Phase, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let (what, formula, uncertainty) = match phase {
        Phase::Fat => ("All fat, melted.", format!("Mass ÷ {}.", density(FAT_DENSITY, sign)), "About 1 %, judged."),
        Phase::Particles => (
            "What neither fat nor water dissolves: fat-free cocoa, protein of nuts and egg, starch, fibre, and sucrose \
             beyond its solubility.",
            format!(
                "Mass ÷ {}, undissolved sucrose ÷ {}.",
                density(INSOLUBLE_DENSITY, sign),
                density(SUCROSE_CRYSTAL_DENSITY, sign)
            ),
            "About 5 %, judged: particles swell when they take up water.",
        ),
        Phase::Water => (
            "Water with all that is dissolved in it: sugars, salts, alcohol, milk protein.",
            format!(
                "Water ÷ {}, and each dissolved part with its own volume per gram, which for sugars depends on how much \
                 is dissolved. Sucrose dissolves up to its solubility in the water.",
                density(WATER_DENSITY, sign)
            ),
            "About 2 %, judged: densities are those of 20 °C.",
        ),
    };
    Explanation {
        title: words(format!("{}, hot", phase.words())),
        what: words(what),
        formula: words(formula),
        range: words(format!("At {} °C, before setting. {}", shortest(HOT.0, 0, sign), least_water(sign))),
        source: words(
            "Volumes of solutions at 20 °C from tables of aqueous solutions (CRC Handbook); densities of fat and \
             particles from memory; solubility of sucrose: Charles 1960.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: words(uncertainty),
    }
}

/// A row of the usual ranges.
#[must_use]
pub fn usual(range: &UsualRange, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words(format!("{}, usual", range.of.words())),
        what: words(format!(
            "What is seen in {}: {}. A hint, never a limit.",
            range.column.words(),
            report::words::usual_range(range, sign)
        )),
        formula: words("Share of the mass in the bowl, compared with one decimal, as it is shown."),
        range: words(format!("For {} only; another kind or use has other ranges, or none.", range.column.words())),
        source: words(range.published.unwrap_or(HABIT_SOURCE)),
        evidence: words(inputs(scene)),
        uncertainty: words(
            "Ends of a usual range are good to about a point; houses differ, and a good recipe may lie outside.",
        ),
    }
}
