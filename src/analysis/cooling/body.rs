//! The course of cooling of a body in which fat crystallises: temperatures, solid fat, and when it has set.
//!
//! ρ·dh/dt = r^−m · d/dr(k·r^m·dT/dr), h = ∫ c_p dT − q; slab m = 0, sphere m = 2; −k·dT/dr = U·(T − T_a) at a surface
//!
//! ρ density, h heat by mass, k conductivity, T temperature, c_p specific heat without crystals, q heat that the crystals
//! have given off, U surface coefficient with the wall of a mould, T_a air. Crystals are at equilibrium, or follow it with
//! a time constant τ: dq/dt = (q_eq − q)/τ and likewise the solid share; what is more than equilibrium melts at once.
//!
//! * [`Body`]: a [`Geometry`] of a [`Material`]; [`Crystals`]: an [`Equilibrium`] and a [`Rate`].
//! * [`run`] gives the [`Course`].
//!
//! Source: balance of heat in finite volumes (`voller-1985` for the implicit form with heat content as the unknown);
//! first-order crystallisation after `franke-1998` in its structure. The time constant is the caller's assumption.
//!
//! What it does not do: it does not say in which form the fat crystallises or when crystals begin (no induction time),
//! conductivity and density do not change with temperature, nothing flows, water does not freeze or evaporate.
//! Temperatures from 0 to 150 °C; the surface coefficient is known to ±30 % at best, and the time with it.

mod scheme;
#[cfg(test)]
mod tests;

use thiserror::Error;

use self::scheme::{Grid, State, Table};
use crate::units::{
    Celsius, GramsPerMillilitre, JoulesPerGram, JoulesPerGramKelvin, Kelvin, MassFraction, Metres, Millilitres,
    Minutes, WattsPerKelvin, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
};

/// Below, water freezes, which the model does not know.
const COLDEST: Celsius = Celsius(0.0);
/// Up to here the formulas of `choi-okos-1986` for the specific heat are printed.
const HOTTEST: Celsius = Celsius(150.0);
/// Above, no fat of a kitchen is solid (hardened fats melt below 75 °C, from memory).
const ALL_LIQUID: Celsius = Celsius(80.0);
/// Distance of the nodes of an equilibrium: finer than fat is known, coarse enough to be quick.
const NODE_DISTANCE: Kelvin = Kelvin(0.2);
/// Nodes of an equilibrium that are closer than this, less a rounding, are refused: no melting is as sharp.
const LEAST_NODE_DISTANCE: Kelvin = Kelvin(0.000_999);
/// Distance of the nodes of a specific heat, which hardly bends.
const SPECIFIC_HEAT_DISTANCE: Kelvin = Kelvin(5.0);
/// So far on its way to equilibrium the fat counts as set (as the growth of seed, common practice, no published source).
const SET: f64 = 0.9;
/// If less of the fat than this has yet to become solid, no time of setting is given: nobody would notice (judged).
const LEAST_TO_COME: f64 = 1e-3;
/// So much of the first difference may be left in a body that has settled: less than a thermometer shows.
const SETTLED: f64 = 0.02;
/// A run of unknown length begins with so many time constants: e^−4 is 2 %.
const TIME_CONSTANTS: f64 = 4.0;
/// How often such a run is doubled; what then has not set is not waited for.
const DOUBLINGS: u32 = 6;
const SECONDS_PER_MINUTE: f64 = 60.0;
/// Temperatures and shares that differ by less are the same: means of cells are rounded.
const ROUNDING: f64 = 1e-9;

/// Accepted figures: wide enough for every kitchen and for tests, narrow enough that nothing overflows.
mod range {
    use std::ops::RangeInclusive;

    pub(super) const LENGTH_M: RangeInclusive<f64> = 1e-4..=1.0;
    pub(super) const VOLUME_ML: RangeInclusive<f64> = 1e-6..=1e6;
    pub(super) const CONDUCTANCE_W_PER_K: RangeInclusive<f64> = 1e-8..=1e4;
    pub(super) const COEFFICIENT: RangeInclusive<f64> = 0.0..=1e5;
    /// A body that loses less than this through all its surface does not cool in any time that matters.
    pub(super) const LEAST_COEFFICIENT: f64 = 1e-2;
    pub(super) const DENSITY: RangeInclusive<f64> = 0.05..=20.0;
    pub(super) const CONDUCTIVITY: RangeInclusive<f64> = 0.01..=500.0;
    pub(super) const SPECIFIC_HEAT: RangeInclusive<f64> = 0.1..=10.0;
    pub(super) const HEAT: RangeInclusive<f64> = 0.0..=1000.0;
    pub(super) const MINUTES: RangeInclusive<f64> = 1e-3..=1e6;
    pub(super) const CELLS: RangeInclusive<usize> = 4..=2000;
    pub(super) const STEPS: RangeInclusive<usize> = 10..=100_000;
}

/// Why there is no course; in the user's words in `report::words`.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum BodyError {
    /// A start or an air outside of the model.
    #[error("temperature {} °C, not from 0 to 150", .0.0)]
    Temperature(Celsius),
    /// A thickness or radius out of range.
    #[error("thickness or radius {} m, not from 0.0001 to 1", .0.0)]
    Length(Metres),
    /// A volume out of range.
    #[error("volume {} ml, not from 0.000001 to 1000000", .0.0)]
    Volume(Millilitres),
    /// A conductance out of range.
    #[error("conductance {} W/K, not from 0.00000001 to 10000", .0.0)]
    Conductance(WattsPerKelvin),
    /// A surface coefficient out of range.
    #[error("surface coefficient {} W/(m² K), not from 0 to 100000", .0.0)]
    Coefficient(WattsPerSquareMetreKelvin),
    /// No face gives off heat.
    #[error("no face with a surface coefficient of 0.01 or more")]
    Insulated,
    /// A density out of range.
    #[error("density {} g/ml, not from 0.05 to 20", .0.0)]
    Density(GramsPerMillilitre),
    /// A conductivity out of range.
    #[error("conductivity {} W/(m K), not from 0.01 to 500", .0.0)]
    Conductivity(WattsPerMetreKelvin),
    /// A specific heat out of range.
    #[error("specific heat {} J/(g K), not from 0.1 to 10", .0.0)]
    SpecificHeat(JoulesPerGramKelvin),
    /// A heat of crystals that cannot be.
    #[error("heat of crystals {} J/g, not from 0 to 1000", .0.0)]
    Heat(JoulesPerGram),
    /// A share beyond 0 and 1.
    #[error("share {}, not from 0 to 1", .0.0)]
    Share(MassFraction),
    /// An equilibrium that rises, or nodes out of order.
    #[error("crystals rise at {} °C, or nodes closer than 0.001 K or out of order", .0.0)]
    NotFalling(Celsius),
    /// A time out of range.
    #[error("time {} min, not from 0.001 to 1000000", .0.0)]
    Time(Minutes),
    /// A resolution out of range.
    #[error("{cells} cells and {steps} steps, not from 4 to 2000 and from 10 to 100000")]
    Resolution {
        /// Cells asked for.
        cells: usize,
        /// Steps asked for.
        steps: usize,
    },
}

fn checked(is_in_range: bool, error: BodyError) -> Result<(), BodyError> {
    if is_in_range { Ok(()) } else { Err(error) }
}

fn check_temperature(at: Celsius) -> Result<(), BodyError> {
    checked((COLDEST.0..=HOTTEST.0).contains(&at.0), BodyError::Temperature(at))
}

/// What a body is made of, without its crystals.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    density: GramsPerMillilitre,
    conductivity: WattsPerMetreKelvin,
    /// At nodes from [`COLDEST`] to [`HOTTEST`].
    specific_heat: Vec<(f64, f64)>,
}

impl Material {
    /// A material by its density, its conductivity, and its specific heat without crystals at each temperature.
    ///
    /// # Errors
    ///
    /// [`BodyError`] if a figure is no number or out of range.
    pub fn new(
        density: GramsPerMillilitre,
        conductivity: WattsPerMetreKelvin,
        specific_heat: impl Fn(Celsius) -> JoulesPerGramKelvin,
    ) -> Result<Self, BodyError> {
        checked(range::DENSITY.contains(&density.0), BodyError::Density(density))?;
        checked(range::CONDUCTIVITY.contains(&conductivity.0), BodyError::Conductivity(conductivity))?;
        let mut nodes = Vec::new();
        for at in nodes_between(COLDEST, HOTTEST, SPECIFIC_HEAT_DISTANCE) {
            let heat = specific_heat(at);
            checked(range::SPECIFIC_HEAT.contains(&heat.0), BodyError::SpecificHeat(heat))?;
            nodes.push((at.0, heat.0));
        }
        Ok(Self { density, conductivity, specific_heat: nodes })
    }
}

fn nodes_between(from: Celsius, to: Celsius, distance: Kelvin) -> impl Iterator<Item = Celsius> {
    let count = ((to - from).0 / distance.0).round();
    (0_u32..).map(f64::from).take_while(move |node| *node <= count).map(move |node| from + distance * node)
}

/// A face of a body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Surface coefficient with the wall of a mould, tray or board ([`super::estimate::in_series`]); 0 is insulated.
    pub coefficient: WattsPerSquareMetreKelvin,
    /// The air, or what else is beyond.
    pub air: Celsius,
}

/// The form of a body and what surrounds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Geometry {
    /// A slab: a ganache in a frame, a bar in a mould.
    Slab {
        /// From face to face.
        thickness: Metres,
        /// Its two faces.
        faces: [Face; 2],
    },
    /// A sphere: a truffle.
    Sphere {
        /// Half of its diameter.
        radius: Metres,
        /// All around it.
        surface: Face,
    },
    /// A body of one temperature all through, as a stirred bowl is, or taken as such: a half-sphere
    /// ([`super::estimate::HalfSphere`]).
    OneTemperature {
        /// Of the mass.
        volume: Millilitres,
        /// Surface coefficient times surface, of all its faces.
        conductance: WattsPerKelvin,
        /// The air.
        air: Celsius,
    },
}

impl Geometry {
    fn check(&self) -> Result<(), BodyError> {
        let check_face = |face: &Face| {
            let coefficient = BodyError::Coefficient(face.coefficient);
            checked(range::COEFFICIENT.contains(&face.coefficient.0), coefficient)?;
            check_temperature(face.air)
        };
        match *self {
            Self::Slab { thickness, faces } => {
                checked(range::LENGTH_M.contains(&thickness.0), BodyError::Length(thickness))?;
                faces.iter().try_for_each(check_face)?;
                let best = faces[0].coefficient.max(faces[1].coefficient);
                checked(best.0 >= range::LEAST_COEFFICIENT, BodyError::Insulated)
            }
            Self::Sphere { radius, surface } => {
                checked(range::LENGTH_M.contains(&radius.0), BodyError::Length(radius))?;
                check_face(&surface)?;
                checked(surface.coefficient.0 >= range::LEAST_COEFFICIENT, BodyError::Insulated)
            }
            Self::OneTemperature { volume, conductance, air } => {
                checked(range::VOLUME_ML.contains(&volume.0), BodyError::Volume(volume))?;
                let is_conducting = range::CONDUCTANCE_W_PER_K.contains(&conductance.0);
                checked(is_conducting, BodyError::Conductance(conductance))?;
                check_temperature(air)
            }
        }
    }
}

/// A body that cools.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    geometry: Geometry,
    material: Material,
}

impl Body {
    /// A body of this form and material.
    ///
    /// # Errors
    ///
    /// [`BodyError`] if a figure is no number or out of range, or no face gives off heat.
    pub fn new(geometry: Geometry, material: Material) -> Result<Self, BodyError> {
        geometry.check()?;
        Ok(Self { geometry, material })
    }

    /// The mean temperature at which it ends: that of the air, or between two airs.
    #[must_use]
    pub fn end(&self) -> Celsius {
        match self.geometry {
            Geometry::Slab { thickness, faces: [first, second] } => {
                let inner = thickness.0 / self.material.conductivity.0;
                let [u1, u2] = [first.coefficient.0, second.coefficient.0];
                // Mean of both surfaces when what comes in on one side goes out on the other.
                let weight = 1.0 / (u1 + u2 + u1 * u2 * inner);
                let drop = (second.air - first.air).0 * weight;
                Celsius(f64::midpoint(first.air.0 + drop * u2, second.air.0 - drop * u1))
            }
            Geometry::Sphere { surface, .. } => surface.air,
            Geometry::OneTemperature { air, .. } => air,
        }
    }
}

impl Body {
    /// About how long its mean temperature takes to lose all but 1/e of its difference to the air, its crystals left out.
    ///
    /// ρ·c·L/h with the inner resistance on the faces, L volume by surface; c at the temperature at which it ends.
    #[must_use]
    pub fn time_constant(&self) -> Minutes {
        let grid = Grid::new(self, 1);
        Minutes(grid.time_constant(scheme::specific_heat(&self.material, self.end())) / SECONDS_PER_MINUTE)
    }
}

/// What the crystals of a mass are at equilibrium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solid {
    /// Heat that they have given off, by mass of the whole.
    pub heat: JoulesPerGram,
    /// Their share of the fat.
    pub share: MassFraction,
}

/// The crystals at equilibrium at each temperature; both figures fall with it, or stay.
pub trait Equilibrium {
    /// The crystals at this temperature.
    fn solid(&self, at: Celsius) -> Solid;
}

impl<F: Fn(Celsius) -> Solid> Equilibrium for F {
    fn solid(&self, at: Celsius) -> Solid {
        self(at)
    }
}

/// How quickly crystals follow their equilibrium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rate {
    /// At once.
    Equilibrium,
    /// With this time constant while there are fewer than at equilibrium; what is too much melts at once.
    ///
    /// Of the order of 5 to 15 min for well tempered chocolate at 12 to 18 °C, 20 to 60 min for seeded ganache, hours for
    /// unseeded ganache (from memory): an assumption, to be shown as such.
    Limited(Minutes),
}

/// The crystals of a body: which there can be, which there are at the start, and how they grow.
#[derive(Clone, Debug, PartialEq)]
pub struct Crystals {
    /// At rising temperatures; beyond the ends as at the ends.
    nodes: Vec<(Celsius, Solid)>,
    rate: Rate,
    started: MassFraction,
}

impl Crystals {
    /// A body without crystals.
    #[must_use]
    pub fn none() -> Self {
        let none = Solid { heat: JoulesPerGram::ZERO, share: MassFraction::ZERO };
        Self { nodes: vec![(COLDEST, none)], rate: Rate::Equilibrium, started: MassFraction::ZERO }
    }

    /// Crystals by their equilibrium, which is asked every 0.2 K from 0 to 80 °C and taken as straight between.
    ///
    /// `started` is the share of the equilibrium at the start that is there at the start, from 0 to 1; with
    /// [`Rate::Equilibrium`] all is there, whatever it says.
    ///
    /// # Errors
    ///
    /// [`BodyError`] if a figure is no number or out of range, or the equilibrium rises with the temperature.
    pub fn new(equilibrium: &impl Equilibrium, rate: Rate, started: MassFraction) -> Result<Self, BodyError> {
        let nodes = nodes_between(COLDEST, ALL_LIQUID, NODE_DISTANCE).map(|at| (at, equilibrium.solid(at)));
        Self::from_nodes(nodes.collect(), rate, started)
    }

    /// Crystals by their equilibrium at given temperatures, straight between and constant beyond.
    ///
    /// # Errors
    ///
    /// As [`Self::new`]; [`BodyError::NotFalling`] also if the temperatures do not rise by 0.001 K at least. No node at all is no crystals.
    pub fn from_nodes(nodes: Vec<(Celsius, Solid)>, rate: Rate, started: MassFraction) -> Result<Self, BodyError> {
        checked((0.0..=1.0).contains(&started.0), BodyError::Share(started))?;
        if let Rate::Limited(constant) = rate {
            checked(range::MINUTES.contains(&constant.0), BodyError::Time(constant))?;
        }
        for (at, solid) in &nodes {
            check_temperature(*at)?;
            checked(range::HEAT.contains(&solid.heat.0), BodyError::Heat(solid.heat))?;
            checked((0.0..=1.0).contains(&solid.share.0), BodyError::Share(solid.share))?;
        }
        for pair in nodes.windows(2) {
            let [(colder, more), (warmer, less)] = [pair[0], pair[1]];
            let is_falling =
                warmer - colder >= LEAST_NODE_DISTANCE && more.heat >= less.heat && more.share >= less.share;
            checked(is_falling, BodyError::NotFalling(warmer))?;
        }
        if nodes.is_empty() { Ok(Self::none()) } else { Ok(Self { nodes, rate, started }) }
    }
}

/// How long the course is followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Length {
    /// So long.
    Given(Minutes),
    /// Until it has set and is within 2 % of the temperature of the end; at most about 250 time constants.
    UntilSet,
}

/// Into how many cells and steps a course is divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resolution {
    /// Cells from face to face or from centre to surface.
    pub cells: usize,
    /// Steps in time, which grow.
    pub steps: usize,
}

impl Default for Resolution {
    fn default() -> Self {
        Self { cells: 40, steps: 200 }
    }
}

/// A body at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Since the start.
    pub time: Minutes,
    /// Where it lags most: the hottest point of a body that cools, the coldest of one that is warmed.
    pub centre: Celsius,
    /// Where it is furthest: the coldest surface of a body that cools, the hottest of one that is warmed.
    pub surface: Celsius,
    /// At the first and second face; of other bodies the surface twice.
    pub faces: [Celsius; 2],
    /// On the whole.
    pub mean: Celsius,
    /// Solid share of the fat, on the whole.
    pub solid: MassFraction,
    /// Solid share of the fat where it lags most.
    pub solid_centre: MassFraction,
}

/// The course of cooling of a body.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// From the start on.
    pub moments: Vec<Moment>,
    /// The mean temperature at which it ends.
    pub end: Celsius,
    /// The solid share of the fat at equilibrium there.
    pub solid_at_end: MassFraction,
    /// When the solid share has gone 90 % of its way; `None` if it does not in this time, or less than
    /// 0.1 % of the fat becomes solid.
    pub set: Option<Minutes>,
    /// How much heat is lost or found by the computation, relative to what went through the surfaces (at least the heat
    /// for 1 K).
    pub energy_error: f64,
}

impl Course {
    /// When the mean temperature reaches this one; `None` if it does not in this time.
    #[must_use]
    pub fn time_to_mean(&self, target: Celsius) -> Option<Minutes> {
        self.first_crossing(target.0, |moment| moment.mean.0)
    }

    /// When the centre reaches this temperature; `None` if it does not in this time.
    #[must_use]
    pub fn time_to_centre(&self, target: Celsius) -> Option<Minutes> {
        self.first_crossing(target.0, |moment| moment.centre.0)
    }

    /// When the solid share of the fat reaches this one; `None` if it does not in this time.
    #[must_use]
    pub fn time_to_solid(&self, target: MassFraction) -> Option<Minutes> {
        self.first_crossing(target.0, |moment| moment.solid.0)
    }

    /// The first time at which a figure comes from one side to this value, straight inside a step.
    fn first_crossing(&self, target: f64, figure: impl Fn(&Moment) -> f64) -> Option<Minutes> {
        if (figure(self.moments.first()?) - target).abs() < ROUNDING {
            return Some(Minutes::ZERO);
        }
        self.moments.windows(2).find_map(|pair| {
            let [before, after] = [figure(&pair[0]), figure(&pair[1])];
            let is_crossed = (before - target) * (after - target) <= 0.0 && before != after;
            let share = (target - before) / (after - before);
            is_crossed.then(|| pair[0].time + (pair[1].time - pair[0].time) * share)
        })
    }

    /// The solid share at the start and what is to come; `None` if nothing is.
    fn first_solid_to_come(&self) -> Option<(MassFraction, MassFraction)> {
        let first = self.moments.first()?.solid;
        let to_come = self.solid_at_end - first;
        (to_come.0 > LEAST_TO_COME).then_some((first, to_come))
    }

    /// Whether more fat is to become solid than is there at the start.
    #[must_use]
    pub fn has_more_to_come(&self) -> bool {
        self.first_solid_to_come().is_some()
    }

    fn is_settled(&self) -> bool {
        let first = self.moments.first().map_or(0.0, |moment| (moment.mean - self.end).0.abs());
        let last = self.moments.last().map_or(0.0, |moment| (moment.mean - self.end).0.abs());
        last <= SETTLED * first.max(1.0)
    }
}

/// The course of cooling of a body that is of one temperature at the start, in 40 cells and 200 steps.
///
/// # Errors
///
/// [`BodyError`] if the start or the length is no number or out of range.
///
/// A slab of ganache of 10 mm on an insulating board in a room of 17 °C, its crystals left out; by the closed form
/// 1150·2600·0.01/9·ln(17/3) s = 96 min:
///
/// ```
/// use nibwright::analysis::cooling::body::{Body, Crystals, Face, Geometry, Length, Material, run};
/// use nibwright::units::{
///     Celsius, GramsPerMillilitre, JoulesPerGramKelvin, Metres, WattsPerMetreKelvin, WattsPerSquareMetreKelvin,
/// };
///
/// let ganache =
///     Material::new(GramsPerMillilitre(1.15), WattsPerMetreKelvin(0.3), |_| JoulesPerGramKelvin(2.6))?;
/// let face = |coefficient| Face { coefficient: WattsPerSquareMetreKelvin(coefficient), air: Celsius(17.0) };
/// let slab = Body::new(Geometry::Slab { thickness: Metres(0.01), faces: [face(0.0), face(10.0)] }, ganache)?;
/// let course = run(&slab, Celsius(34.0), &Crystals::none(), Length::UntilSet)?;
/// let minutes = course.time_to_mean(Celsius(20.0)).unwrap().0;
/// assert!((minutes - 96.0).abs() < 1.0);
/// # Ok::<(), nibwright::analysis::cooling::body::BodyError>(())
/// ```
pub fn run(body: &Body, start: Celsius, crystals: &Crystals, length: Length) -> Result<Course, BodyError> {
    run_with(body, start, crystals, length, Resolution::default())
}

/// As [`run`], in so many cells and steps.
///
/// # Errors
///
/// As [`run`], or [`BodyError::Resolution`].
pub fn run_with(
    body: &Body,
    start: Celsius,
    crystals: &Crystals,
    length: Length,
    resolution: Resolution,
) -> Result<Course, BodyError> {
    let Resolution { cells, steps } = resolution;
    let is_known = range::CELLS.contains(&cells) && range::STEPS.contains(&steps);
    checked(is_known, BodyError::Resolution { cells, steps })?;
    check_temperature(start)?;
    let grid = Grid::new(body, cells);
    let table = Table::new(&body.material, crystals, start);
    let constant = grid.time_constant(table.specific_heat(start));
    match length {
        Length::Given(minutes) => {
            checked(range::MINUTES.contains(&minutes.0), BodyError::Time(minutes))?;
            Ok(follow(body, start, &grid, &table, minutes.0 * SECONDS_PER_MINUTE, steps))
        }
        Length::UntilSet => {
            let mut seconds =
                TIME_CONSTANTS * (constant * table.slowing(start, body.end()) + table.tau().unwrap_or(0.0));
            let mut course = follow(body, start, &grid, &table, seconds, steps);
            let can_set = course.first_solid_to_come().is_some();
            for _ in 0..DOUBLINGS {
                if course.is_settled() && (course.set.is_some() || !can_set) {
                    break;
                }
                seconds *= 2.0;
                course = follow(body, start, &grid, &table, seconds, steps);
            }
            Ok(course)
        }
    }
}

fn follow(body: &Body, start: Celsius, grid: &Grid, table: &Table, seconds: f64, steps: usize) -> Course {
    let end = body.end();
    let constant = grid.time_constant(table.specific_heat(start));
    let mut state = State::new(grid, table, start);
    let mut moments = Vec::with_capacity(steps + 1);
    moments.push(state.moment(0.0, end <= start));
    let mut before = 0.0;
    for time in scheme::times(seconds, constant, steps) {
        state.advance(time - before);
        before = time;
        moments.push(state.moment(time / SECONDS_PER_MINUTE, end <= start));
    }
    let solid_at_end = MassFraction(table.solid_at(end.0));
    let energy_error = state.energy_error();
    let mut course = Course { moments, end, solid_at_end, set: None, energy_error };
    course.set = course.first_solid_to_come().and_then(|(first, to_come)| course.time_to_solid(first + to_come * SET));
    course
}
