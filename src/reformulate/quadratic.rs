//! A small convex program: squares and sums to be made least, rows to be kept.
//!
//! The solver behind it (an interior-point method for cones) does not show outside of this file.

use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettings, DefaultSolver, IPSolver as _, NonnegativeConeT, SolverStatus, SupportedConeT, ZeroConeT,
};

/// A convex program in so many unknowns: least Σ (½·`curvature`·x² + `slope`·x), with every row kept.
#[derive(Clone, Debug, Default)]
pub(super) struct Program {
    /// Of each unknown, not negative.
    pub curvature: Vec<f64>,
    /// Of each unknown.
    pub slope: Vec<f64>,
    /// What has to hold.
    pub rows: Vec<Row>,
}

/// Σ `terms` = `at` or Σ `terms` ≤ `at`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    /// Unknowns with their factors; each unknown once.
    pub terms: Vec<(usize, f64)>,
    /// The right side.
    pub at: f64,
    /// Whether it has to be reached, not only kept under.
    pub is_equal: bool,
}

/// The least there is.
#[derive(Clone, Debug)]
pub(super) struct Least {
    /// The unknowns.
    pub x: Vec<f64>,
    /// Of each row, in their order: by how much the least falls for one more on the right side.
    pub multipliers: Vec<f64>,
}

/// Why there is no answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoLeast {
    /// The rows contradict each other.
    Impossible,
    /// The solver came to no end.
    Failed,
}

/// How far an answer may be from the least, relative and absolute.
const TOLERANCE: f64 = 1e-10;

/// More steps than any program of a recipe needs (8 to 20).
const MOST_STEPS: u32 = 100;

impl Row {
    /// Σ `terms` ≤ `at`.
    pub fn at_most(terms: Vec<(usize, f64)>, at: f64) -> Self {
        Self { terms, at, is_equal: false }
    }

    /// A row that always holds: it keeps the place of its multiplier.
    pub fn nothing() -> Self {
        Self::at_most(Vec::new(), 1.0)
    }

    /// Σ `terms` = `at`.
    pub fn equal(terms: Vec<(usize, f64)>, at: f64) -> Self {
        Self { terms, at, is_equal: true }
    }
}

impl Program {
    /// What is made least.
    pub fn cost(&self, x: &[f64]) -> f64 {
        let factors = self.curvature.iter().zip(&self.slope);
        x.iter().zip(factors).map(|(x, (curvature, slope))| (0.5 * curvature * x + slope) * x).sum()
    }

    /// Solves it. The same program gives the same bits.
    ///
    /// # Errors
    ///
    /// [`NoLeast`] where the rows contradict each other, or where the solver comes to no end.
    pub fn solve(&self) -> Result<Least, NoLeast> {
        let unknowns = self.curvature.len();
        // Equal rows first: the cones stand in one order.
        let mut order: Vec<usize> = (0..self.rows.len()).filter(|&row| self.rows[row].is_equal).collect();
        let equal = order.len();
        order.extend((0..self.rows.len()).filter(|&row| !self.rows[row].is_equal));
        let (mut of_row, mut of_unknown, mut factors) = (Vec::new(), Vec::new(), Vec::new());
        for (place, &row) in order.iter().enumerate() {
            for &(unknown, factor) in &self.rows[row].terms {
                if factor != 0.0 {
                    of_row.push(place);
                    of_unknown.push(unknown);
                    factors.push(factor);
                }
            }
        }
        let rows = CscMatrix::new_from_triplets(order.len(), unknowns, of_row, of_unknown, factors);
        let right: Vec<f64> = order.iter().map(|&row| self.rows[row].at).collect();
        let diagonal: Vec<usize> = (0..unknowns).filter(|&unknown| self.curvature[unknown] > 0.0).collect();
        let curved = diagonal.iter().map(|&unknown| self.curvature[unknown]).collect();
        let squares = CscMatrix::new_from_triplets(unknowns, unknowns, diagonal.clone(), diagonal, curved);
        let cones: Vec<SupportedConeT<f64>> = [ZeroConeT(equal), NonnegativeConeT(order.len() - equal)]
            .into_iter()
            .filter(|cone| !matches!(cone, ZeroConeT(0) | NonnegativeConeT(0)))
            .collect();
        let settings = DefaultSettings {
            verbose: false,
            max_iter: MOST_STEPS,
            max_threads: 1,
            tol_gap_abs: TOLERANCE,
            tol_gap_rel: TOLERANCE,
            tol_feas: TOLERANCE,
            // A row far out is no contradiction; it must not be taken away either.
            presolve_enable: false,
            ..DefaultSettings::default()
        };
        let mut solver =
            DefaultSolver::new(&squares, &self.slope, &rows, &right, &cones, settings).map_err(|_| NoLeast::Failed)?;
        solver.solve();
        let solution = &solver.solution;
        match solution.status {
            SolverStatus::Solved | SolverStatus::AlmostSolved => {}
            SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => {
                return Err(NoLeast::Impossible);
            }
            _ => return Err(NoLeast::Failed),
        }
        if solution.x.iter().any(|value| !value.is_finite()) {
            return Err(NoLeast::Failed);
        }
        let mut multipliers = vec![0.0; self.rows.len()];
        for (&row, &multiplier) in order.iter().zip(&solution.z) {
            multipliers[row] = multiplier;
        }
        Ok(Least { x: solution.x.clone(), multipliers })
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    /// By hand: least x² + y² with x + y = 2 is at (1, 1); one more on the right side costs d(s²/2)/ds = 2.
    #[test]
    fn a_program_known_by_hand() {
        let program = Program {
            curvature: vec![2.0, 2.0],
            slope: vec![0.0, 0.0],
            rows: vec![Row::equal(vec![(0, 1.0), (1, 1.0)], 2.0)],
        };
        let least = program.solve().expect("it has one");
        assert_relative_eq!(least.x[0], 1.0, max_relative = 1e-8);
        assert_relative_eq!(least.x[1], 1.0, max_relative = 1e-8);
        assert_relative_eq!(least.multipliers[0], -2.0, max_relative = 1e-8);
    }

    /// By hand: least (x − 3)² with x ≤ 1 is at 1; the bound holds with 2·(3 − 1) = 4.
    #[test]
    fn a_bound_that_holds_has_its_multiplier() {
        let program = Program {
            curvature: vec![2.0],
            slope: vec![-6.0],
            rows: vec![Row::at_most(vec![(0, 1.0)], 1.0), Row::at_most(vec![(0, -1.0)], 5.0)],
        };
        let least = program.solve().expect("it has one");
        assert_relative_eq!(least.x[0], 1.0, max_relative = 1e-8);
        assert_relative_eq!(least.multipliers[0], 4.0, max_relative = 1e-7);
        assert!(least.multipliers[1].abs() < 1e-7);
    }

    /// Of sums alone: least x + y with x + 2y ≥ 2 in the quadrant is y = 1.
    #[test]
    fn a_program_without_squares() {
        let program = Program {
            curvature: vec![0.0, 0.0],
            slope: vec![1.0, 1.0],
            rows: vec![
                Row::at_most(vec![(0, -1.0), (1, -2.0)], -2.0),
                Row::at_most(vec![(0, -1.0)], 0.0),
                Row::at_most(vec![(1, -1.0)], 0.0),
            ],
        };
        let least = program.solve().expect("it has one");
        assert!(least.x[0].abs() < 1e-7 && (least.x[1] - 1.0).abs() < 1e-7, "{:?}", least.x);
    }

    #[test]
    fn rows_that_contradict_each_other_are_told() {
        let program = Program {
            curvature: vec![2.0],
            slope: vec![0.0],
            rows: vec![Row::at_most(vec![(0, 1.0)], 1.0), Row::at_most(vec![(0, -1.0)], -2.0)],
        };
        assert_eq!(program.solve().map(|_| ()), Err(NoLeast::Impossible));
    }
}
