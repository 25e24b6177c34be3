//! Published figures, worked balances, and what must be true of every mix.

mod balances;
mod laws;
mod properties;

use super::*;
use crate::units::{Celsius, Grams, MassFraction};

fn interpolated(table: &[(f64, f64)], at: Celsius) -> f64 {
    let first = table.first().expect("a table");
    if at.0 <= first.0 {
        return first.1;
    }
    for pair in table.windows(2) {
        let ((t0, s0), (t1, s1)) = (pair[0], pair[1]);
        if at.0 <= t1 {
            return s0 + (s1 - s0) * (at.0 - t0) / (t1 - t0);
        }
    }
    table.last().expect("a table").1
}

/// Stand-ins for the fat model, made for these balances: cocoa butter in form V and milk fat, each on its own.
pub(crate) struct Tables;

impl SolidFatCurve for Tables {
    fn solid(&self, fat: Fat, at: Celsius) -> MassFraction {
        const COCOA_BUTTER: &[(f64, f64)] =
            &[(0.0, 0.95), (15.0, 0.85), (20.0, 0.78), (25.0, 0.70), (30.0, 0.45), (32.5, 0.15), (35.0, 0.0)];
        const MILK_FAT: &[(f64, f64)] = &[
            (0.0, 0.60),
            (5.0, 0.52),
            (10.0, 0.45),
            (15.0, 0.35),
            (20.0, 0.20),
            (25.0, 0.12),
            (30.0, 0.06),
            (35.0, 0.02),
            (38.0, 0.0),
        ];
        MassFraction(match fat {
            Fat::CocoaButter => interpolated(COCOA_BUTTER, at),
            Fat::MilkFat => interpolated(MILK_FAT, at),
            Fat::OtherFat => 0.0,
        })
    }
}

pub(crate) fn contents(total: f64, shares: &[(Substance, f64)]) -> Contents {
    let shares: Vec<_> = shares.iter().map(|&(substance, share)| (substance, MassFraction(share))).collect();
    Contents::from_shares(Grams(total), &shares).expect("shares of a whole")
}

pub(crate) const DARK: &[(Substance, f64)] = &[
    (Substance::CocoaButter, 0.375),
    (Substance::CrystallineSugar, 0.355),
    (Substance::FatFreeCocoa, 0.26),
    (Substance::Water, 0.01),
];

const CREAM: &[(Substance, f64)] = &[
    (Substance::Water, 0.595),
    (Substance::MilkFat, 0.35),
    (Substance::Protein, 0.021),
    (Substance::DissolvedSugar, 0.029),
    (Substance::Ash, 0.005),
];

#[track_caller]
pub(crate) fn check(what: &str, computed: f64, expected: f64, tolerance: f64) {
    assert!((computed - expected).abs() <= tolerance, "{what}: {computed} and not {expected} ± {tolerance}");
}
