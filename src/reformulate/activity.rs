//! How far a water activity lies behind a bound, so that a descent can follow it.
//!
//! The figure of the report jumps. Of what is drier than 0.50 it says only that it lies below: the edge of the band that decides
//! falls there at once, and inside of what is dry no straight line shows the way back. Where lactose is so far over its solubility
//! that it crystallises by itself, the edge rises at once to what it is afterwards. On its way a descent asks the equations beyond
//! the end of the figure; and because a bound can be met on either side of a jump, it is read in several smooth ways. The nearest
//! of what they lead to is the answer, if the report judges it to be one.

use super::measured::{Mass, Measured};
use super::target::{Bound, Decides, Side, Target};
use crate::analysis::syrup::LEAST_WATER;
use crate::analysis::water::state::{BAND, DRY, Doubt, LACTOSE_BY_ITSELF, MUCH_ETHANOL, STRONG, Water};
use crate::ingredient::Component;
use crate::units::WaterActivity;

/// How an upper edge of the water activity is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reading {
    /// As the sum of a half band and of what comes of lactose.
    Edge(HalfBand, Lactose),
    /// Met by what is dry and nothing else.
    Dry,
}

/// How wide the half band is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum HalfBand {
    /// As told: wider where the syrup is strong or something is in doubt.
    Told,
    /// As where the syrup is not strong, and no stronger syrup, nor one stronger than what the models were measured in.
    NotStrong,
    /// As with little alcohol, and no more of it.
    Sober,
    /// As where it is strong, everywhere.
    Wide,
}

/// What comes of lactose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lactose {
    /// As told: it has crystallised where it does so by itself.
    Told,
    /// It has crystallised, however little is over its solubility.
    Grained,
    /// It stays dissolved, and there is no more of it than does.
    Clear,
}

/// A jump of the edge that an answer to the figure as it is told came near to: elsewhere no other reading can do better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Jump {
    /// Where lactose crystallises by itself.
    Graining,
    /// Where the syrup is strong.
    Strong,
    /// Where there is so much alcohol that it widens the band.
    Alcohol,
    /// One that made the band another than before.
    Band,
}

impl Jump {
    /// All of them: where nothing was found.
    pub const ALL: [Self; 4] = [Self::Graining, Self::Strong, Self::Alcohol, Self::Band];
}

impl Reading {
    /// As the report tells it, with its jumps.
    pub const TOLD: Self = Self::Edge(HalfBand::Told, Lactose::Told);

    /// Other ways of reading what is asked for; none where no upper edge of a water activity decides.
    pub fn others(targets: &[Target], near: &[Jump]) -> Vec<Self> {
        /// No edge of a dry mass lies further above its end (the bands of strong syrups and of lactose together, judged).
        const ABOVE_DRY: f64 = 0.2;
        let Some(lowest) = targets.iter().filter_map(upper_edge).reduce(f64::min) else { return Vec::new() };
        let is_near = |jump: Jump| near.contains(&jump);
        let may_be_not_strong = is_near(Jump::Strong) && lowest >= STRONG.0 + BAND;
        let bands = [
            Some(HalfBand::Told),
            may_be_not_strong.then_some(HalfBand::NotStrong),
            is_near(Jump::Alcohol).then_some(HalfBand::Sober),
            is_near(Jump::Band).then_some(HalfBand::Wide),
        ];
        let lactose: &[Lactose] =
            if is_near(Jump::Graining) { &[Lactose::Grained, Lactose::Clear, Lactose::Told] } else { &[Lactose::Told] };
        let edges = bands.into_iter().flatten().flat_map(|band| lactose.iter().map(move |of| Self::Edge(band, *of)));
        let dry = (DRY.0..DRY.0 + ABOVE_DRY).contains(&lowest).then_some(Self::Dry);
        edges.filter(|reading| *reading != Self::TOLD).chain(dry).collect()
    }

    /// The few that together are met wherever any is met, but for what lies between two jumps: where many problems are looked at.
    pub fn few(targets: &[Target]) -> Vec<Self> {
        let all = Self::others(targets, &Jump::ALL);
        let has_weak = all.contains(&Self::Edge(HalfBand::NotStrong, Lactose::Clear));
        let weakest = if has_weak { HalfBand::NotStrong } else { HalfBand::Told };
        let few = [Self::Edge(HalfBand::Wide, Lactose::Grained), Self::Edge(weakest, Lactose::Clear), Self::Dry];
        few.into_iter().filter(|reading| all.contains(reading)).collect()
    }

    /// What has to hold besides so that a target is read in this way.
    pub fn besides(self, target: &Target) -> Vec<Target> {
        let Self::Edge(band, lactose) = self else { return Vec::new() };
        if upper_edge(target).is_none() {
            return Vec::new();
        }
        let by_value = |of, bound| Target { by: Decides::Value, ..Target::new(of, bound) };
        let weak = (band == HalfBand::NotStrong).then(|| by_value(Measured::WaterActivity, Bound::AtLeast(STRONG.0)));
        let clear = (lactose == Lactose::Clear)
            .then(|| by_value(Measured::LactoseSupersaturation, Bound::AtMost(LACTOSE_BY_ITSELF)));
        let sober = (band == HalfBand::Sober)
            .then(|| by_value(Measured::Component(Component::Ethanol), Bound::AtMost(MUCH_ETHANOL.to_percent())));
        weak.into_iter().chain(sober).chain(clear).collect()
    }
}

/// Where the upper edge of a water activity has to lie, if that is asked for.
fn upper_edge(target: &Target) -> Option<f64> {
    let is_by_edge = target.of == Measured::WaterActivity && target.decides() == Decides::UnfavourableEdge;
    target.bound.sides().find(|side| side.is_upper && is_by_edge).map(|side| side.at)
}

/// So far inside of what is dry an answer has to lie: more than what the solver leaves open.
const INSIDE: f64 = 1e-6;

/// How far the water activity of a mass lies behind one side of a target; `None` where it has none.
pub(super) fn over(target: &Target, mass: &Mass, side: Side, reading: Reading) -> Option<f64> {
    mass.figure(Measured::WaterActivity)?;
    Some(match (side.is_upper, target.bound.is_wish()) {
        (true, false) => above(target, mass, side.at, reading),
        (false, false) => below(target, mass, side.at),
        // All that is dry is as near as a wish comes to what lies lower.
        (true, true) if side.at < DRY.0 => beyond(mass),
        (false, true) if side.at < DRY.0 => side.at - DRY.0,
        (true, true) => activity_or_dry(mass) - side.at,
        (false, true) => side.at - activity_or_lack(mass),
    })
}

/// How far it lies above a bound from above.
fn above(target: &Target, mass: &Mass, at: f64, reading: Reading) -> f64 {
    let activity = activity_or_dry(mass);
    if at < DRY.0 {
        // Nothing is told to lie lower than what is dry: no bound there is met.
        return activity.max(DRY.0) - at;
    }
    let Some(water) = mass.water_beyond().filter(|_| target.decides() == Decides::UnfavourableEdge) else {
        return activity - at;
    };
    match reading {
        Reading::Edge(band, lactose) => {
            let over = edge(water, band, lactose) - at;
            let too_strong = || OF_STRENGTH_OVER * (water.stronger_than_measured() + CLEAR_OF_STRENGTH);
            let over = if band == HalfBand::NotStrong { over.max(too_strong()) } else { over };
            over.min(beyond(mass))
        }
        Reading::Dry => beyond(mass),
    }
}

/// A syrup that is stronger than measured by its whole misses as much as so much of a water activity (judged).
const OF_STRENGTH_OVER: f64 = 0.1;

/// So far below it keeps clear of the jump, as a share: more than what the solver leaves open.
const CLEAR_OF_STRENGTH: f64 = 1e-5;

/// What is in doubt only where a syrup is strong.
const OF_STRENGTH: [Doubt; 3] = [Doubt::Strong, Doubt::OutsideRange, Doubt::StrongForSucrose];

/// The upper edge of the band.
fn edge(water: &Water, band: HalfBand, lactose: Lactose) -> f64 {
    /// Strong by less than anything that is told.
    const JUST: f64 = 1e-9;
    let activity = water.rest.activity;
    if water.is_without_solutes() {
        return water.high().0;
    }
    let half = match band {
        HalfBand::Told => water.band,
        HalfBand::NotStrong => water.band_without(&OF_STRENGTH, STRONG),
        HalfBand::Sober => water.band_without(&[Doubt::Ethanol], WaterActivity(0.0)),
        HalfBand::Wide => water.band_at(activity.min(WaterActivity(STRONG.0 - JUST))),
    };
    let grained = match lactose {
        Lactose::Told => water.sandy,
        Lactose::Grained => water.with_lactose_crystals(),
        Lactose::Clear => None,
    };
    (activity.0 + grained.map_or(0.0, |grained| (grained.0 - activity.0).max(0.0)) + half).min(1.0)
}

/// How far it lies below a bound from below, which is never met by what is dry.
fn below(target: &Target, mass: &Mass, at: f64) -> f64 {
    let activity = activity_or_lack(mass);
    let by_edge = mass.water_beyond().filter(|_| target.decides() == Decides::UnfavourableEdge);
    let low = by_edge.map_or(activity, |water| water.low().0);
    (at - low).max(DRY.0 - activity)
}

/// How far a mass is away from being dry; below 0 where it is.
fn beyond(mass: &Mass) -> f64 {
    activity_or_dry(mass) - DRY.0 + INSIDE
}

/// The water activity by the equations; of a mass that is no emulsion, that of one that is just dry.
fn activity_or_dry(mass: &Mass) -> f64 {
    mass.water_beyond().map_or(DRY.0 - INSIDE, |water| water.rest.activity.0)
}

/// The same; of a mass that is no emulsion, below nought by what it lacks of the water of one, so that more water leads there.
fn activity_or_lack(mass: &Mass) -> f64 {
    /// A hundredth of water that is lacking counts like so much of water activity (judged).
    const LACK: f64 = 0.5 / 0.01;
    let lack = || (LEAST_WATER.0 - mass.water_share().unwrap_or(0.0)).max(0.0) * LACK;
    mass.water_beyond().map_or_else(|| -lack(), |water| water.rest.activity.0)
}
