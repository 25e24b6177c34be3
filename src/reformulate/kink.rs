//! What lies behind a kink of a figure, as a straight line beside the one before it.

/// A constraint straightened where a step failed, because it was missed by more than foreseen.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kink {
    /// The constraint.
    pub row: usize,
    pub slope: Vec<f64>,
    pub at_zero: f64,
}

impl Kink {
    pub fn new(row: usize, slope: &[f64], changes: &[f64], miss: f64) -> Self {
        let along: f64 = slope.iter().zip(changes).map(|(slope, change)| slope * change).sum();
        Self { row, slope: slope.to_vec(), at_zero: miss - along }
    }

    pub fn at(&self, changes: &[f64]) -> f64 {
        self.at_zero + self.slope.iter().zip(changes).map(|(slope, change)| slope * change).sum::<f64>()
    }

    /// So much more is missed behind it.
    pub fn raise(&mut self, row: usize, by: f64) {
        if self.row == row {
            self.at_zero += by;
        }
    }

    /// Whether it says nothing against what is known at a place: there the other line counts.
    pub fn is_below(&self, changes: &[f64], misses: &[f64]) -> bool {
        self.at(changes) <= misses[self.row] + 1e-9 * (1.0 + misses[self.row].abs())
    }
}
