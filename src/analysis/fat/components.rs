//! What fats are made of, as far as crystallising goes: the components and their figures.
//!
//! The figures of the solid solution are *effective*. They start from measured melting points and heats of the β₂
//! (for POS: β) crystals (`sato-1989`, `arishima-sato-1989`, both quoted from memory); of POS only the melting point is
//! measured, its heat is the mean of the β₁ heats of POP and SOS. Then all four heats are multiplied by 0.75, POP and
//! POS are lowered by 5.0 K and SOS by 0.2 K. These three numbers were fitted to the solid fat of two cocoa butters
//! (`shukla-1995`, quoted from memory), to the melting point of form V (`wille-lutton-1966`) and to cocoa butter in
//! canola oil (`perez-martinez-2007`). SOA is an assumption.
//!
//! The pure components of milk fat, coconut, palm kernel and palm fat are no molecules but parts of a fat. They were
//! fitted to typical curves of solid fat, quoted from memory: within 0.7 point for milk fat (which itself varies by
//! ±4 points with season and feed), within 0.5 point for the others (palm fat is 2.5 points low at 40 °C).

use crate::recipe::{CocoaButter, Triglycerides};
use crate::units::{Celsius, Grams};

/// How much of each fat there is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FatGrams {
    /// Cocoa butter, of whichever type.
    pub cocoa_butter: Grams,
    /// Milk fat.
    pub milk_fat: Grams,
    /// Nut, seed and other oils that stay liquid.
    pub liquid_oil: Grams,
    /// Coconut fat.
    pub coconut: Grams,
    /// Palm kernel fat.
    pub palm_kernel: Grams,
    /// Palm fat.
    pub palm: Grams,
}

impl FatGrams {
    /// All of them together.
    #[must_use]
    pub fn total(&self) -> Grams {
        self.cocoa_butter + self.milk_fat + self.other_fat()
    }

    /// What is neither of cocoa nor of milk.
    #[must_use]
    pub fn other_fat(&self) -> Grams {
        [self.liquid_oil, self.coconut, self.palm_kernel, self.palm].into_iter().sum()
    }
}

/// What a component does when the fat cools.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Behaviour {
    /// Crystallises in the solid solution that the symmetric triglycerides of cocoa butter form together.
    SolidSolution(Crystal),
    /// Crystallises alone.
    Pure(Crystal),
    /// Stays liquid.
    Liquid,
}

/// The crystals of a component.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Crystal {
    /// Where they melt when nothing dissolves them; of the solid solution, in form V.
    pub melting_point: Celsius,
    /// What melting takes, kJ/mol.
    pub heat_of_fusion: f64,
}

macro_rules! components {
    ($($(#[$documentation:meta])* $name:ident: $molar_mass:literal, $behaviour:expr;)+) => {
        /// A part of a fat: molar mass in g/mol, then what it does with its melting point in °C and heat in kJ/mol.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(super) enum FatComponent {
            $($(#[$documentation])* $name),+
        }

        impl FatComponent {
            /// All components, in a fixed order.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            /// Molar mass, g/mol.
            pub const fn molar_mass(self) -> f64 {
                match self {
                    $(Self::$name => $molar_mass),+
                }
            }

            /// What it does when the fat cools.
            pub const fn behaviour(self) -> Behaviour {
                match self {
                    $(Self::$name => $behaviour),+
                }
            }
        }
    };
}

components! {
    /// 1,3-dipalmitoyl-2-oleoyl-glycerol.
    Pop: 833.4, solid_solution(30.1, 93.2);
    /// 1-palmitoyl-2-oleoyl-3-stearoyl-glycerol.
    Pos: 861.4, solid_solution(30.5, 105.5);
    /// 1,3-distearoyl-2-oleoyl-glycerol.
    Sos: 889.5, solid_solution(40.8, 107.3);
    /// 1-stearoyl-2-oleoyl-3-arachidoyl-glycerol.
    Soa: 917.5, solid_solution(41.8, 111.0);
    /// Long-chain triglycerides of three saturated acids; cocoa butter and milk fat share them.
    Trisaturated: 820.0, pure(55.0, 125.0);
    /// High-melting part of milk fat.
    MilkHigh: 730.0, pure(45.0, 70.0);
    /// Middle-melting part of milk fat.
    MilkMiddle: 730.0, pure(30.0, 60.0);
    /// Low-melting part of milk fat.
    MilkLow: 730.0, pure(20.0, 60.0);
    /// High-melting part of coconut fat.
    CoconutHigh: 655.0, pure(33.1, 90.0);
    /// Middle-melting part of coconut fat.
    CoconutMiddle: 655.0, pure(29.1, 90.0);
    /// Low-melting part of coconut fat.
    CoconutLow: 655.0, pure(15.9, 90.0);
    /// High-melting part of palm kernel fat.
    PalmKernelHigh: 700.0, pure(35.5, 90.0);
    /// Middle-melting part of palm kernel fat.
    PalmKernelMiddle: 700.0, pure(31.2, 90.0);
    /// Low-melting part of palm kernel fat.
    PalmKernelLow: 700.0, pure(17.0, 90.0);
    /// Highest-melting part of palm fat.
    PalmHighest: 850.0, pure(56.6, 110.0);
    /// High-melting part of palm fat.
    PalmHigh: 850.0, pure(38.8, 80.0);
    /// Middle-melting part of palm fat.
    PalmMiddle: 850.0, pure(30.0, 80.0);
    /// Low-melting part of palm fat.
    PalmLow: 850.0, pure(20.0, 80.0);
    /// Triglycerides of cocoa butter that stay liquid: those with two and more unsaturated acids (POO, SOO, OOO), and
    /// those whose one unsaturated acid is linoleic (PLP, PLS, SLS).
    Unsaturated: 865.0, Behaviour::Liquid;
    /// Diglycerides of cocoa butter.
    Diglycerides: 600.0, Behaviour::Liquid;
    /// Free fatty acids of cocoa butter, counted as oleic acid.
    FreeFattyAcids: 282.0, Behaviour::Liquid;
    /// Any nut or seed oil: almond, sunflower, rapeseed and hazelnut differ by less than half a point in a blend.
    Oil: 884.0, Behaviour::Liquid;
    /// Liquid remainder of milk fat.
    MilkLiquid: 720.0, Behaviour::Liquid;
    /// Liquid remainder of coconut fat.
    CoconutLiquid: 655.0, Behaviour::Liquid;
    /// Liquid remainder of palm kernel fat.
    PalmKernelLiquid: 700.0, Behaviour::Liquid;
    /// Liquid remainder of palm fat.
    PalmLiquid: 850.0, Behaviour::Liquid;
}

const fn solid_solution(melting_point: f64, heat_of_fusion: f64) -> Behaviour {
    Behaviour::SolidSolution(Crystal { melting_point: Celsius(melting_point), heat_of_fusion })
}

const fn pure(melting_point: f64, heat_of_fusion: f64) -> Behaviour {
    Behaviour::Pure(Crystal { melting_point: Celsius(melting_point), heat_of_fusion })
}

/// How many components the solid solution has.
pub(super) const SOLID_SOLUTION_COUNT: usize = 4;

/// How many components crystallise alone.
pub(super) const PURE_COUNT: usize = 14;

const _: () = {
    let (mut solid_solution, mut pure, mut idx) = (0, 0, 0);
    while idx < FatComponent::COUNT {
        match FatComponent::ALL[idx].behaviour() {
            Behaviour::SolidSolution(_) => solid_solution += 1,
            Behaviour::Pure(_) => pure += 1,
            Behaviour::Liquid => {}
        }
        idx += 1;
    }
    assert!(solid_solution == SOLID_SOLUTION_COUNT && pure == PURE_COUNT, "the counts match the table");
};

/// A component with its share of a fat, wt%.
pub(super) type Part = (FatComponent, f64);

/// Cocoa butter of the West African type: triglycerides of `shukla-1995` (Ghana; quoted from memory).
pub const WEST_AFRICAN: Triglycerides = Triglycerides {
    pop: 14.8,
    pos: 38.7,
    sos: 26.6,
    soa: 1.1,
    trisaturated: 0.7,
    other: 14.7,
    diglycerides_percent: 1.9,
    free_fatty_acids_percent: 1.5,
};

/// Cocoa butter of the Brazilian type: triglycerides of `shukla-1995` (Brazil; quoted from memory).
const SOFT: Triglycerides = Triglycerides {
    pop: 13.2,
    pos: 32.6,
    sos: 23.0,
    soa: 0.8,
    trisaturated: 0.0,
    other: 27.2,
    diglycerides_percent: 2.0,
    free_fatty_acids_percent: 1.2,
};

/// Cocoa butter of the South-East Asian type (quoted from memory).
const HARD: Triglycerides = Triglycerides {
    pop: 14.6,
    pos: 39.2,
    sos: 30.1,
    soa: 1.0,
    trisaturated: 1.3,
    other: 10.8,
    diglycerides_percent: 1.8,
    free_fatty_acids_percent: 1.2,
};

/// Milk fat (fitted, see the top of this file).
pub(super) const MILK_FAT: &[Part] = &[
    (FatComponent::Trisaturated, 7.5),
    (FatComponent::MilkHigh, 20.0),
    (FatComponent::MilkMiddle, 29.0),
    (FatComponent::MilkLow, 14.0),
    (FatComponent::MilkLiquid, 29.5),
];

/// Liquid oil.
pub(super) const LIQUID_OIL: &[Part] = &[(FatComponent::Oil, 100.0)];

/// Coconut fat (fitted).
pub(super) const COCONUT: &[Part] = &[
    (FatComponent::CoconutHigh, 30.3),
    (FatComponent::CoconutMiddle, 39.6),
    (FatComponent::CoconutLow, 21.8),
    (FatComponent::CoconutLiquid, 8.3),
];

/// Palm kernel fat (fitted).
pub(super) const PALM_KERNEL: &[Part] = &[
    (FatComponent::PalmKernelHigh, 41.2),
    (FatComponent::PalmKernelMiddle, 23.7),
    (FatComponent::PalmKernelLow, 19.5),
    (FatComponent::PalmKernelLiquid, 15.6),
];

/// Palm fat (fitted).
pub(super) const PALM: &[Part] = &[
    (FatComponent::PalmHighest, 11.2),
    (FatComponent::PalmHigh, 24.7),
    (FatComponent::PalmMiddle, 18.3),
    (FatComponent::PalmLow, 19.6),
    (FatComponent::PalmLiquid, 26.2),
];

/// The components of a cocoa butter, wt%; they sum to 100.
///
/// Of a user's own analysis the triglycerides are scaled by (100 − diglycerides − free fatty acids) / (their sum),
/// so their unit does not matter.
pub(super) fn cocoa_butter_parts(cocoa_butter: CocoaButter) -> [Part; 8] {
    let figures = match cocoa_butter {
        CocoaButter::WestAfrican => WEST_AFRICAN,
        CocoaButter::Soft => SOFT,
        CocoaButter::Hard => HARD,
        CocoaButter::Own(own) => in_percent(own.triglycerides()),
    };
    [
        (FatComponent::Pop, figures.pop),
        (FatComponent::Pos, figures.pos),
        (FatComponent::Sos, figures.sos),
        (FatComponent::Soa, figures.soa),
        (FatComponent::Trisaturated, figures.trisaturated),
        (FatComponent::Unsaturated, figures.other),
        (FatComponent::Diglycerides, figures.diglycerides_percent),
        (FatComponent::FreeFattyAcids, figures.free_fatty_acids_percent),
    ]
}

/// An analysis with its triglycerides in wt% of the fat.
fn in_percent(analysis: Triglycerides) -> Triglycerides {
    let sum = analysis.sum();
    let triglycerides_percent = 100.0 - analysis.diglycerides_percent - analysis.free_fatty_acids_percent;
    // Divided first: figures of any size then stay within the range of a double.
    let percent = |figure: f64| figure / sum * triglycerides_percent;
    Triglycerides {
        pop: percent(analysis.pop),
        pos: percent(analysis.pos),
        sos: percent(analysis.sos),
        soa: percent(analysis.soa),
        trisaturated: percent(analysis.trisaturated),
        other: percent(analysis.other),
        ..analysis
    }
}
