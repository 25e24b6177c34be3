//! Energy and sweetness in words, the same in the window and in the text report.

use crate::analysis::energy::Energy;
use crate::analysis::sweetness::Sweetness;
use crate::number::{DecimalSign, fixed};

const NOT_KNOWN: &str = "not known";

/// The energy of 100 g in kJ and in kcal, each to the nearest whole one as on labels.
#[must_use]
pub fn energy(energy: Option<&Energy>, sign: DecimalSign) -> [String; 2] {
    energy.map_or([NOT_KNOWN.to_owned(), String::new()], |energy| {
        let kilojoules = format!("{} kJ", fixed(energy.kilojoules.0, 0, sign));
        [kilojoules, format!("{} kcal", fixed(energy.kilocalories.0, 0, sign))]
    })
}

/// Between which ends the energy lies by what ingredients leave open; `None` where both show as the figure itself.
#[must_use]
pub fn energy_left_open(energy: &Energy, sign: DecimalSign) -> Option<String> {
    let shown = |kilojoules: f64| fixed(kilojoules, 0, sign);
    let (low, value, high) = (shown(energy.low.0), shown(energy.kilojoules.0), shown(energy.high.0));
    (low != value || high != value).then(|| format!("{low} to {high} kJ"))
}

/// How sweet it is beside sucrose, and between which ends.
#[must_use]
pub fn sweetness(sweetness: Option<&Sweetness>, sign: DecimalSign) -> [String; 2] {
    sweetness.map_or([NOT_KNOWN.to_owned(), String::new()], |sweetness| {
        let shown = |value: f64| fixed(value, 0, sign);
        [shown(sweetness.value), format!("{} to {}", shown(sweetness.low), shown(sweetness.high))]
    })
}
