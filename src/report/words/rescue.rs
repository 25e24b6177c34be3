//! The words of proof and rescue: how a test strip is read, what helps a split ganache.

use super::Words;
use crate::analysis::ROOM;
use crate::analysis::cooling::growth::System;
use crate::analysis::plan::SET_FILLING;
use crate::analysis::plan::rescue::{SplitSign, TestStrip};
use crate::number::DecimalSign;
use crate::recipe::SeedingWay;

/// How a test strip of a mass that sets in its way is made.
#[must_use]
pub fn how_to_test(system: System) -> String {
    let until = match system {
        System::Chocolate => "Tempered chocolate is set to the touch after about two minutes.",
        System::NutPraline | System::Ganache => {
            "A filling with water or nut oil takes far longer than chocolate: make a strip before the seed goes in, and one after; \
             the second has to become firm first."
        }
    };
    format!(
        "Put a knife's tip of the mass on paper, thin, in a room of about {}, before depositing. {until} Common practice, advice \
         at the bench.",
        WHOLE.whole_celsius(ROOM)
    )
}

/// Whole degrees have no decimal sign.
const WHOLE: Words = Words { sign: DecimalSign::Point };

/// Where remedies of a split ganache come from.
pub const REMEDIES_FROM: &str = "From professional textbooks and common practice. Whatever is added changes water and fat: put \
it into the sheet.";

/// One reading of a test strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TestStripWords {
    /// How it looks.
    pub looks: &'static str,
    /// What it means.
    pub means: &'static str,
    /// What to do.
    pub remedy: &'static str,
}

/// The words of a test strip of a mass that is seeded in a way and sets in its own.
#[must_use]
pub fn test_strip(strip: TestStrip, way: SeedingWay, system: System) -> TestStripWords {
    let is_kept = way == SeedingWay::KeepTempered;
    let of_way = |kept, seeded| if is_kept { kept } else { seeded };
    match strip {
        TestStrip::Sets => TestStripWords {
            looks: "set, even, with a sheen",
            means: of_way("Its crystals live and are spread.", "The seed lives and is spread."),
            remedy: "Deposit at once, and keep the temperature.",
        },
        TestStrip::Matt => TestStripWords {
            looks: "set, but matt",
            means: "Other crystals than form V set as well: it was too cold, or set in the cold.",
            remedy: "Warm to just under the upper end of the window for some minutes, stir, test again.",
        },
        TestStrip::Streaked => TestStripWords {
            looks: "set with streaks",
            means: of_way(
                "The crystals are not even, or too many have melted.",
                "The seed is not even, or there is too little of it.",
            ),
            remedy: match way {
                SeedingWay::KeepTempered => {
                    "Stir two minutes more inside the window; if it stays, melt it out and seed it in one of the other ways."
                }
                SeedingWay::ChoppedChocolate => {
                    "Stir two minutes more inside the window; if it stays, put in some more cold pieces and test."
                }
                SeedingWay::Cream | SeedingWay::Grated => {
                    "Stir two minutes more inside the window; if it stays, add half the seed again and test."
                }
            },
        },
        TestStrip::Soft => TestStripWords {
            looks: match system {
                System::Chocolate => "soft after ten minutes",
                System::NutPraline | System::Ganache => "no firmer than the strip without seed, half an hour later",
            },
            means: of_way(
                "There are no crystals: it got too warm, or it was not tempered when you took it.",
                "There are no crystals: it was too warm when the seed went in, or the seed had melted.",
            ),
            remedy: match way {
                SeedingWay::KeepTempered => "Check the thermometer, melt it out and seed it in one of the other ways.",
                SeedingWay::ChoppedChocolate => {
                    "Check the thermometer, put in more pieces, tempered and cold, and stir until some stay; test again."
                }
                SeedingWay::Cream | SeedingWay::Grated => {
                    "Check the thermometer and the seed, cool to the best temperature, seed again in full."
                }
            },
        },
        TestStrip::AtOnce => TestStripWords {
            looks: "set at once, and the bowl is thick",
            means: of_way(
                "There are too many crystals: it is too cold.",
                "There are too many crystals: too much seed, or too long at a low temperature.",
            ),
            remedy: "Warm it by tenths to the upper end of the window until it flows; warmer, and its crystals are gone.",
        },
    }
}

/// How a split ganache shows itself, and what to do: sign and cause, remedy.
#[must_use]
pub fn split(sign: SplitSign) -> (&'static str, String) {
    let (sign, remedy) = match sign {
        SplitSign::TooLittleWater => (
            "Fat at the edge, thick: too little water phase (chocolate with much cocoa, cream boiled down)",
            "Stir in warm liquid little by little from the middle: cream where fat is low, milk, water or syrup where it is high. \
             Write down what you add.",
        ),
        SplitSign::CooledWhileMixing => (
            "Dull and grainy: it cooled under about 30 °C while it was mixed",
            "Warm gently to 32 to 40 °C and mix again.",
        ),
        SplitSign::TooHot => (
            "Oil pools, lumps of protein: hotter than about 60 °C",
            "Cool to 40 °C, mix with high shear, add skimmed milk or a little liquid.",
        ),
        SplitSign::TooMuchFat => (
            "Greasy whatever you do: too much fat (butter added, nut paste)",
            "Add water phase or fat-free solids now; use less fat next time.",
        ),
        SplitSign::StillSplit => (
            "Still split",
            "Start a new emulsion with a few spoons of hot liquid in a clean bowl, and add the split mass in small portions.",
        ),
        SplitSign::SweatsLater => (
            "Thickens and sweats later: cocoa solids took up water",
            "Next time raise the water phase or lower the dry cocoa.",
        ),
        SplitSign::GrainyWhenCold => {
            let remedy = format!(
                "Seed it, or temper the chocolate first, and let it set at {}.",
                WHOLE.whole_range(SET_FILLING)
            );
            return ("Grainy when cold: it cooled slowly, or the fat crystals were warm", remedy);
        }
    };
    (sign, remedy.to_owned())
}
