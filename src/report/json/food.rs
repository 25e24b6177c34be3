//! Energy and sweetness in the JSON report.

use serde::Serialize;

use crate::analysis::energy;
use crate::analysis::sweetness;

#[derive(Serialize)]
pub(super) struct Energy {
    kj: f64,
    kcal: f64,
    low_kj: f64,
    high_kj: f64,
}

#[derive(Serialize)]
pub(super) struct Sweetness {
    relative: f64,
    low: f64,
    high: f64,
}

impl Energy {
    pub(super) fn new(energy: &energy::Energy) -> Self {
        let energy::Energy { kilojoules, kilocalories, low, high } = energy;
        Self { kj: kilojoules.0, kcal: kilocalories.0, low_kj: low.0, high_kj: high.0 }
    }
}

impl Sweetness {
    pub(super) fn new(sweetness: &sweetness::Sweetness) -> Self {
        let &sweetness::Sweetness { value, low, high } = sweetness;
        Self { relative: value, low, high }
    }
}
