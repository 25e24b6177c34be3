//! The computation behind [`super::run`]: cells, the table of heat, and one step in time.
//!
//! The unknown is the heat h of each cell, because the temperature is a tame function of it even where crystals melt
//! within a small interval. A step is implicit, in two stages (diagonally implicit Runge–Kutta of order two with
//! γ = 1 − 1/√2, which damps what is too quick for the step); each stage is solved by Newton's method with a tridiagonal
//! matrix. All curves are straight in pieces, so Newton's method ends exactly as soon as no cell changes its piece.

use super::super::estimate::two_faces;
use super::{Body, COLDEST, Crystals, Geometry, Material, Moment, Rate};
use crate::units::{Celsius, MassFraction, Minutes};

/// γ of the two stages, 1 − 1/√2: the order is two, and infinitely fast changes vanish.
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// The first steps are of order one (implicit Euler): a sudden start gives no overshoot.
const EULER_STEPS: usize = 4;
/// The first step as a part of the time constant.
const FIRST_STEP: f64 = 1e-3;
/// How much steps may grow from the first to the last, as a logarithm; below the lower bound they are nearly even.
const GROWTH: std::ops::RangeInclusive<f64> = 1.0..=12.0;
/// Newton's method needs 2 to 4 rounds, with a steep melting point some more.
const ROUNDS: usize = 30;
/// How often a step that it cannot solve is halved; what is left then is seen in the error of the course. Only a sharp
/// melting point between two airs in a run of hundreds of time constants needs it.
const MOST_HALVINGS: u32 = 8;
/// So many rounds are whole.
const UNDAMPED: usize = 8;
/// The others go these parts of the way in turn, and the whole way between.
const PARTS: [f64; 3] = [0.5, 0.2, 0.05];
/// Changes of heat below this part of the heat for 100 K are noise of doubles.
const NOISE: f64 = 1e-14;
/// Beyond its ends the table goes on so far, with constant specific heat: no temperature leaves it.
const BEYOND: f64 = 10_000.0;
const GRAMS_PER_KILOGRAM: f64 = 1000.0;
const SECONDS_PER_MINUTE: f64 = 60.0;
const MILLILITRES_PER_CUBIC_METRE: f64 = 1e6;

/// The ends of steps that grow by a constant factor from about a thousandth of the time constant.
pub(super) fn times(seconds: f64, constant: f64, steps: usize) -> impl Iterator<Item = f64> {
    let count = as_number(steps);
    // The first of `count` steps is about length·(growth/count)/e^growth.
    let ratio = seconds / (count * FIRST_STEP * constant);
    let mut growth = ratio.max(1.0).ln();
    for _ in 0..3 {
        growth = (ratio * growth.max(1.0)).max(1.0).ln().clamp(*GROWTH.start(), *GROWTH.end());
    }
    (1..=steps).map(move |step| seconds * (growth * as_number(step) / count).exp_m1() / growth.exp_m1())
}

#[expect(clippy::cast_precision_loss, reason = "counts of cells and steps are small")]
fn as_number(count: usize) -> f64 {
    count as f64
}

/// A body in cells of equal width, from the first face or the centre to the surface.
pub(super) struct Grid {
    /// Mass of each cell in kg, by the area that the conductances belong to.
    mass: Vec<f64>,
    /// Conductance to the cell before, W/K; the first and the last are those of the two faces.
    conductance: Vec<f64>,
    air: [f64; 2],
    /// Which part of the difference between the outermost cell and the air lies beyond the face.
    beyond: [f64; 2],
    is_slab: bool,
    /// Mass over conductance for a mean temperature, s·K·kg/J.
    inertia: f64,
}

impl Grid {
    pub(super) fn new(body: &Body, cells: usize) -> Self {
        let density = body.material.density.0 * GRAMS_PER_KILOGRAM;
        let conductivity = body.material.conductivity.0;
        match body.geometry {
            Geometry::OneTemperature { volume, conductance, air } => {
                let mass = volume.0 / MILLILITRES_PER_CUBIC_METRE * density;
                Self {
                    mass: vec![mass],
                    conductance: vec![0.0, conductance.0],
                    air: [air.0; 2],
                    beyond: [1.0; 2],
                    is_slab: false,
                    inertia: mass / conductance.0,
                }
            }
            Geometry::Slab { thickness, faces } => {
                let width = thickness.0 / as_number(cells);
                let half = width / (2.0 * conductivity);
                let outer = faces.map(|face| in_series(face.coefficient.0, half));
                let mut conductance = vec![conductivity / width; cells + 1];
                conductance[0] = outer[0];
                conductance[cells] = outer[1];
                let coefficients = faces.map(|face| face.coefficient);
                let whole = two_faces(coefficients, thickness, body.material.conductivity);
                // Checked when the body was made: it never is nothing.
                let whole = whole.map_or(1.0, |[first, second]| first.0 + second.0);
                Self {
                    mass: vec![density * width; cells],
                    conductance,
                    air: faces.map(|face| face.air.0),
                    beyond: faces.map(|face| 1.0 / (1.0 + face.coefficient.0 * half)),
                    is_slab: true,
                    inertia: density * thickness.0 / whole,
                }
            }
            Geometry::Sphere { radius, surface } => {
                // For one steradian: area r², volume r³/3.
                let width = radius.0 / as_number(cells);
                let edge = |cell: usize| width * as_number(cell);
                let half = width / (2.0 * conductivity);
                let mut conductance: Vec<_> = (0..=cells).map(|c| conductivity / width * edge(c).powi(2)).collect();
                conductance[cells] = radius.0.powi(2) * in_series(surface.coefficient.0, half);
                let volume = |c: usize| (edge(c + 1).powi(3) - edge(c).powi(3)) / 3.0;
                let beyond = 1.0 / (1.0 + surface.coefficient.0 * half);
                let inner = radius.0 / (5.0 * conductivity);
                Self {
                    mass: (0..cells).map(|c| density * volume(c)).collect(),
                    conductance,
                    air: [surface.air.0; 2],
                    beyond: [1.0, beyond],
                    is_slab: false,
                    inertia: density * radius.0 / 3.0 / in_series(surface.coefficient.0, inner),
                }
            }
        }
    }

    /// About how long the mean temperature takes to lose all but 1/e of its difference to the air, in s.
    pub(super) fn time_constant(&self, specific_heat: f64) -> f64 {
        self.inertia * specific_heat
    }
}

/// A coefficient with a resistance behind it.
fn in_series(coefficient: f64, resistance: f64) -> f64 {
    coefficient / (1.0 + coefficient * resistance)
}

/// The specific heat without crystals, J/(kg·K).
pub(super) fn specific_heat(material: &Material, at: Celsius) -> f64 {
    interpolated(&material.specific_heat, at.0) * GRAMS_PER_KILOGRAM
}

/// Heat without crystals, heat of crystals and solid share against the temperature, straight between nodes. J/kg.
pub(super) struct Table {
    at: Vec<f64>,
    /// From the start on.
    sensible: Vec<f64>,
    heat: Vec<f64>,
    solid: Vec<f64>,
    rate: Rate,
    started: f64,
}

impl Table {
    pub(super) fn new(material: &Material, crystals: &Crystals, start: Celsius) -> Self {
        let specific_heat = |at| self::specific_heat(material, Celsius(at));
        let column = |of: fn(&super::Solid) -> f64| -> Vec<_> {
            crystals.nodes.iter().map(|(at, solid)| (at.0, of(solid))).collect()
        };
        let heats = column(|solid| solid.heat.0 * GRAMS_PER_KILOGRAM);
        let shares = column(|solid| solid.share.0);
        let mut at: Vec<f64> = material.specific_heat.iter().chain(&heats).map(|node| node.0).collect();
        at.extend([COLDEST.0 - BEYOND, COLDEST.0 + BEYOND]);
        at.sort_by(f64::total_cmp);
        at.dedup();
        let mut sensible = vec![0.0; at.len()];
        for node in 1..at.len() {
            let mean = f64::midpoint(specific_heat(at[node - 1]), specific_heat(at[node]));
            sensible[node] = sensible[node - 1] + mean * (at[node] - at[node - 1]);
        }
        let heat = at.iter().map(|at| interpolated(&heats, *at)).collect();
        let solid = at.iter().map(|at| interpolated(&shares, *at)).collect();
        let mut table = Self { at, sensible, heat, solid, rate: crystals.rate, started: crystals.started.0 };
        let zero = table.column_at(&table.sensible, start.0);
        table.sensible.iter_mut().for_each(|heat| *heat -= zero);
        table
    }

    fn column_at(&self, column: &[f64], at: f64) -> f64 {
        let right = self.at.partition_point(|node| *node <= at).clamp(1, self.at.len() - 1);
        let share = (at - self.at[right - 1]) / (self.at[right] - self.at[right - 1]);
        column[right - 1] + (column[right] - column[right - 1]) * share
    }

    /// J/(kg K), without crystals.
    pub(super) fn specific_heat(&self, at: Celsius) -> f64 {
        self.column_at(&self.sensible, at.0 + 0.5) - self.column_at(&self.sensible, at.0 - 0.5)
    }

    pub(super) fn solid_at(&self, at: f64) -> f64 {
        self.column_at(&self.solid, at)
    }

    /// How many times longer crystals make the cooling, about.
    pub(super) fn slowing(&self, start: Celsius, end: Celsius) -> f64 {
        let heat = (self.column_at(&self.heat, end.0) - self.started() * self.column_at(&self.heat, start.0)).max(0.0);
        1.0 + heat / (self.specific_heat(start) * (start - end).0.abs().max(1.0))
    }

    /// The time constant of the crystals in s.
    pub(super) fn tau(&self) -> Option<f64> {
        match self.rate {
            Rate::Equilibrium => None,
            Rate::Limited(constant) => Some(constant.0 * SECONDS_PER_MINUTE),
        }
    }

    fn started(&self) -> f64 {
        if self.rate == Rate::Equilibrium { 1.0 } else { self.started }
    }

    /// How far crystals go towards their equilibrium in one implicit step.
    fn share_of_way(&self, seconds: f64) -> f64 {
        self.tau().map_or(1.0, |tau| seconds / (tau + seconds))
    }

    /// The temperature of a cell with this heat and these crystals before the step.
    ///
    /// `piece` is where it was last; it usually still is there.
    fn invert(&self, heat: f64, crystals: f64, way: f64, piece: usize) -> Point {
        let total = |node: usize| self.sensible[node] - held(self.heat[node], crystals, way);
        let mut left = piece / 2;
        let mut right = left + 1;
        if !(total(left) <= heat && heat < total(right)) {
            left = 0;
            right = self.at.len() - 1;
            while right - left > 1 {
                let middle = usize::midpoint(left, right);
                if total(middle) <= heat {
                    left = middle;
                } else {
                    right = middle;
                }
            }
        }
        let mut from = (self.at[left], total(left));
        let mut to = (self.at[right], total(right));
        let mut piece = 2 * left;
        let (more, less) = (self.heat[left], self.heat[right]);
        if way < 1.0 && more > crystals && crystals > less {
            // Where crystals stop growing and begin to melt the curve bends between two nodes.
            let share = (more - crystals) / (more - less);
            let sensible = self.sensible[left] + (self.sensible[right] - self.sensible[left]) * share;
            let bend = (from.0 + (to.0 - from.0) * share, sensible - crystals);
            if heat < bend.1 {
                to = bend;
            } else {
                from = bend;
                piece += 1;
            }
        }
        let slope = if to.1 > from.1 { (to.0 - from.0) / (to.1 - from.1) } else { 0.0 };
        Point { temperature: from.0 + slope * (heat - from.1), slope, piece }
    }

    fn equilibrium(&self, point: &Point) -> (f64, f64) {
        let left = point.piece / 2;
        let share = (point.temperature - self.at[left]) / (self.at[left + 1] - self.at[left]);
        let of = |column: &[f64]| column[left] + (column[left + 1] - column[left]) * share;
        (of(&self.heat), of(&self.solid))
    }
}

fn interpolated(nodes: &[(f64, f64)], at: f64) -> f64 {
    let right = nodes.partition_point(|node| node.0 <= at);
    match (right.checked_sub(1).and_then(|left| nodes.get(left)), nodes.get(right)) {
        (Some(left), Some(right)) => left.1 + (right.1 - left.1) * (at - left.0) / (right.0 - left.0),
        (Some(end), None) | (None, Some(end)) => end.1,
        (None, None) => 0.0,
    }
}

/// What is there after a step that goes this share of the way to equilibrium; what is too much melts at once.
fn held(equilibrium: f64, before: f64, way: f64) -> f64 {
    if equilibrium > before { before + (equilibrium - before) * way } else { equilibrium }
}

/// A cell on the curve of temperature against heat.
#[derive(Clone, Copy)]
struct Point {
    temperature: f64,
    /// K·kg/J.
    slope: f64,
    piece: usize,
}

/// What a cell holds.
#[derive(Clone, Copy)]
struct Cell {
    /// J/kg, with the crystals.
    heat: f64,
    /// Given off by its crystals, J/kg.
    crystals: f64,
    /// Solid share of its fat.
    solid: f64,
}

impl Cell {
    /// What the second stage starts from: the state before, with the first stage continued.
    ///
    /// Melting is at once and has no rate that could be continued.
    fn continued(self, stage: Self) -> Self {
        let factor = (1.0 - GAMMA) / GAMMA;
        let grown = |before: f64, after: f64| {
            if after < before { after } else { before + (after - before) * factor }
        };
        Self {
            heat: self.heat + (stage.heat - self.heat) * factor,
            crystals: grown(self.crystals, stage.crystals),
            solid: grown(self.solid, stage.solid),
        }
    }
}

/// A body at one time.
pub(super) struct State<'a> {
    grid: &'a Grid,
    table: &'a Table,
    cells: Vec<Cell>,
    points: Vec<Point>,
    euler_steps: usize,
    /// Heat at the start and what went out since, and all that went through either face, J.
    first_heat: f64,
    out: f64,
    through: f64,
    scratch: Scratch,
}

/// Room for the tridiagonal system.
struct Scratch {
    residual: Vec<f64>,
    upper: Vec<f64>,
}

impl<'a> State<'a> {
    pub(super) fn new(grid: &'a Grid, table: &'a Table, start: Celsius) -> Self {
        let count = grid.mass.len();
        let started = table.started();
        let crystals = started * table.column_at(&table.heat, start.0);
        let solid = started * table.solid_at(start.0);
        let cell = Cell { heat: -crystals, crystals, solid };
        let left = table.at.partition_point(|node| *node <= start.0).clamp(1, table.at.len() - 1) - 1;
        let point = Point { temperature: start.0, slope: 0.0, piece: 2 * left };
        let mut state = Self {
            grid,
            table,
            cells: vec![cell; count],
            points: vec![point; count],
            euler_steps: EULER_STEPS,
            first_heat: 0.0,
            out: 0.0,
            through: 0.0,
            scratch: Scratch { residual: vec![0.0; count], upper: vec![0.0; count] },
        };
        state.first_heat = state.heat();
        state
    }

    fn heat(&self) -> f64 {
        self.grid.mass.iter().zip(&self.cells).map(|(mass, cell)| mass * cell.heat).sum()
    }

    pub(super) fn energy_error(&self) -> f64 {
        let capacity = self.grid.mass.iter().sum::<f64>() * self.table.specific_heat(COLDEST);
        (self.heat() - self.first_heat + self.out).abs() / self.through.max(capacity)
    }

    /// Goes on by this time; a step that cannot be solved in two halves.
    pub(super) fn advance(&mut self, seconds: f64) {
        self.advance_halving(seconds, MOST_HALVINGS);
        self.euler_steps = self.euler_steps.saturating_sub(1);
    }

    fn advance_halving(&mut self, seconds: f64, halvings: u32) {
        let before = self.cells.clone();
        let (out, through) = (self.out, self.through);
        let is_solved = if self.euler_steps > 0 {
            let is_solved = self.stage(&before, seconds);
            self.count_heat(seconds);
            is_solved
        } else {
            let is_first_solved = self.stage(&before, GAMMA * seconds);
            self.count_heat((1.0 - GAMMA) * seconds);
            let continued = |(before, stage): (&Cell, &Cell)| before.continued(*stage);
            let bases: Vec<_> = before.iter().zip(&self.cells).map(continued).collect();
            let is_second_solved = self.stage(&bases, GAMMA * seconds);
            self.count_heat(GAMMA * seconds);
            is_first_solved && is_second_solved
        };
        if !is_solved && halvings > 0 {
            self.cells = before;
            (self.out, self.through) = (out, through);
            self.advance_halving(seconds / 2.0, halvings - 1);
            self.advance_halving(seconds / 2.0, halvings - 1);
        }
    }

    fn count_heat(&mut self, seconds: f64) {
        let last = self.points.len() - 1;
        let [first, second] = [
            self.grid.conductance[0] * (self.points[0].temperature - self.grid.air[0]),
            self.grid.conductance[last + 1] * (self.points[last].temperature - self.grid.air[1]),
        ];
        self.out += (first + second) * seconds;
        self.through += (first.abs() + second.abs()) * seconds;
    }

    /// Solves h = base + seconds · (heat that comes in)/mass for all cells; whether it was solved.
    fn stage(&mut self, bases: &[Cell], seconds: f64) -> bool {
        let way = self.table.share_of_way(seconds);
        let noise = NOISE * self.table.specific_heat(COLDEST) * 100.0;
        for (cell, base) in self.cells.iter_mut().zip(bases) {
            cell.heat = base.heat;
        }
        self.locate(bases, way);
        let mut is_solved = false;
        for round in 0..ROUNDS {
            // Cells that jump to and fro between pieces are caught by going a part of the way now and then.
            let is_whole = round < UNDAMPED || round % 2 == 0;
            let share = if is_whole { 1.0 } else { PARTS[round / 2 % PARTS.len()] };
            let change = self.newton(bases, seconds, share);
            let is_same = self.locate(bases, way);
            is_solved = is_whole && (is_same || change <= noise);
            if is_solved {
                break;
            }
        }
        for ((cell, base), point) in self.cells.iter_mut().zip(bases).zip(&self.points) {
            let (heat, solid) = self.table.equilibrium(point);
            cell.crystals = held(heat, base.crystals, way);
            cell.solid = held(solid, base.solid, way);
        }
        is_solved
    }

    /// Temperatures from heats; whether all cells are on the piece on which they were.
    fn locate(&mut self, bases: &[Cell], way: f64) -> bool {
        let mut is_same = true;
        for ((cell, base), point) in self.cells.iter().zip(bases).zip(&mut self.points) {
            let new = self.table.invert(cell.heat, base.crystals, way, point.piece);
            is_same &= new.piece == point.piece;
            *point = new;
        }
        is_same
    }

    /// One round of Newton's method, of which this share is gone; the largest change of heat.
    ///
    /// By elimination from the first cell to the last.
    fn newton(&mut self, bases: &[Cell], seconds: f64, share: f64) -> f64 {
        let Grid { mass, conductance, air, .. } = self.grid;
        let Scratch { residual, upper } = &mut self.scratch;
        let points = &self.points;
        let last = points.len() - 1;
        for (cell, point) in points.iter().enumerate() {
            let before = if cell == 0 { air[0] } else { points[cell - 1].temperature };
            let after = if cell == last { air[1] } else { points[cell + 1].temperature };
            let [west, east] = [conductance[cell], conductance[cell + 1]];
            let store = mass[cell] / seconds;
            let missing = west * (before - point.temperature) + east * (after - point.temperature)
                - store * (self.cells[cell].heat - bases[cell].heat);
            let mut diagonal = store + (west + east) * point.slope;
            let mut right = missing;
            if cell > 0 {
                let lower = west * points[cell - 1].slope;
                diagonal -= lower * upper[cell - 1];
                right += lower * residual[cell - 1];
            }
            let factor = 1.0 / diagonal;
            // The entry above the diagonal is negative; its sign is kept apart.
            upper[cell] = if cell == last { 0.0 } else { east * points[cell + 1].slope * factor };
            residual[cell] = right * factor;
        }
        let mut change = 0.0;
        let mut most = 0.0_f64;
        for cell in (0..=last).rev() {
            change = residual[cell] + upper[cell] * change;
            self.cells[cell].heat += change * share;
            most = most.max(change.abs());
        }
        most
    }

    /// What is shown of it.
    pub(super) fn moment(&self, minutes: f64, is_cooling: bool) -> Moment {
        let last = self.points.len() - 1;
        let at = |cell: usize| self.points[cell].temperature;
        let face =
            |side: usize, cell: usize| self.grid.air[side] + (at(cell) - self.grid.air[side]) * self.grid.beyond[side];
        let outer = face(1, last);
        let faces = if self.grid.is_slab { [face(0, 0), outer] } else { [outer; 2] };
        let sign = if is_cooling { 1.0 } else { -1.0 };
        let surface = (sign * faces[0]).min(sign * faces[1]) * sign;
        let whole: f64 = self.grid.mass.iter().sum();
        let mean_of = |figure: &dyn Fn(usize) -> f64| {
            self.grid.mass.iter().enumerate().map(|(cell, mass)| mass * figure(cell)).sum::<f64>() / whole
        };
        let lagging = self.lagging(sign);
        let inner = if last == 0 { at(0) } else { self.extreme(lagging, sign) };
        let centre = (sign * inner).max(sign * faces[0]).max(sign * faces[1]) * sign;
        Moment {
            time: Minutes(minutes),
            centre: Celsius(centre),
            surface: Celsius(surface),
            faces: faces.map(Celsius),
            mean: Celsius(mean_of(&at)),
            solid: MassFraction(mean_of(&|cell| self.cells[cell].solid)),
            solid_centre: MassFraction(self.cells[lagging].solid),
        }
    }

    /// The cell that is hottest (coldest for a sign of −1).
    fn lagging(&self, sign: f64) -> usize {
        let at = |cell: usize| sign * self.points[cell].temperature;
        (0..self.points.len()).max_by(|a, b| at(*a).total_cmp(&at(*b))).unwrap_or(0)
    }

    /// The hottest temperature inside (the coldest for a sign of −1), by a parabola through the hottest cell and its neighbours.
    ///
    /// Beyond the ends the profile is mirrored: at an insulated face T₁ + (T₁ − T₂)/8.
    fn extreme(&self, hottest: usize, sign: f64) -> f64 {
        let last = self.points.len() - 1;
        let at = |cell: usize| sign * self.points[cell].temperature;
        let [before, here, after] = [at(hottest.saturating_sub(1)), at(hottest), at((hottest + 1).min(last))];
        let bend = 2.0 * here - before - after;
        let more = if bend > 0.0 { (after - before).powi(2) / (8.0 * bend) } else { 0.0 };
        sign * (here + more)
    }
}
