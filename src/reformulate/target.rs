//! What is asked of a recipe: a result and where it has to lie.

use super::measured::{Figure, Measured};
use super::tolerance::MET;
use crate::analysis::finding::{CrystalsSubject, Finding, Subject};
use crate::analysis::parts::Group;
use crate::analysis::usual::{Place, Share, UsualRange};
use crate::analysis::{Analysis, ROOM};
use crate::ingredient::Component;

/// What is asked of a recipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// The result.
    pub of: Measured,
    /// Where it has to lie.
    pub bound: Bound,
    /// Which end of its band decides.
    pub by: Decides,
}

/// Where a result has to lie, in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// No higher.
    AtMost(f64),
    /// No lower.
    AtLeast(f64),
    /// From the first to the second.
    Between(f64, f64),
    /// As near as everything else allows.
    Near(f64),
}

/// Which end of a band decides whether a target is met.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Decides {
    /// The likely value.
    #[default]
    Value,
    /// The end of the band that is worse for the target: the upper one of an upper bound.
    UnfavourableEdge,
}

/// A bound on one side, as the solver sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Side {
    /// Whether it is an upper bound.
    pub is_upper: bool,
    /// The bound.
    pub at: f64,
}

impl Side {
    /// What a miss of it is measured by: the grain of the result, or a thousandth of a bound that lies far out.
    pub(super) fn measure(self, of: Measured) -> f64 {
        const OF_BOUND: f64 = 1e-3;
        of.grain().max(OF_BOUND * self.at.abs())
    }
}

impl Bound {
    /// Whether all its numbers are finite and its ends in order.
    #[must_use]
    pub fn is_sound(self) -> bool {
        match self {
            Self::AtMost(at) | Self::AtLeast(at) | Self::Near(at) => at.is_finite(),
            Self::Between(low, high) => low.is_finite() && high.is_finite() && low <= high,
        }
    }

    /// Its sides; those of a wish are where it would be met.
    pub(super) fn sides(self) -> impl Iterator<Item = Side> {
        let upper = |at| Side { is_upper: true, at };
        let lower = |at| Side { is_upper: false, at };
        let (low, high) = match self {
            Self::AtMost(at) => (None, Some(upper(at))),
            Self::AtLeast(at) => (Some(lower(at)), None),
            Self::Between(low, high) => (Some(lower(low)), Some(upper(high))),
            Self::Near(at) => (Some(lower(at)), Some(upper(at))),
        };
        low.into_iter().chain(high)
    }

    /// Whether it is a wish, met as far as everything else allows.
    #[must_use]
    pub fn is_wish(self) -> bool {
        matches!(self, Self::Near(_))
    }
}

impl Target {
    /// A target with what usually decides: near a limit of growth the upper edge of a water activity counts, of all else
    /// the likely value.
    #[must_use]
    pub fn new(of: Measured, bound: Bound) -> Self {
        let by = match of {
            Measured::WaterActivity if !bound.is_wish() => Decides::UnfavourableEdge,
            _ => Decides::Value,
        };
        Self { of, bound, by }
    }

    /// Whether its bound is a number, with its ends in order, and of a figure between 0 and 1 such a one: a water activity of 85 is
    /// a slip.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        let is_possible = |side: Side| !self.of.is_fraction() || (0.0..=1.0).contains(&side.at);
        self.bound.is_sound() && self.bound.sides().all(is_possible)
    }

    /// The figure that decides on one side.
    pub(super) fn deciding(&self, figure: Figure, side: Side) -> f64 {
        match (self.decides(), side.is_upper) {
            // Of a dry mass only an upper end of the water activity is known: no lower bound is met by it, and a wish below it
            // may be.
            (_, false) if self.of.is_upper_end(figure) && !self.bound.is_wish() => 0.0,
            (_, true) if self.of.is_upper_end(figure) && self.bound.is_wish() => figure.value.min(side.at),
            (Decides::Value, _) => figure.value,
            (Decides::UnfavourableEdge, true) => figure.high(),
            (Decides::UnfavourableEdge, false) => figure.low(),
        }
    }

    /// Whether a figure lies below an end, and the wish below that end too: how far it is away is not known.
    #[must_use]
    pub fn is_beyond_figures(&self, figure: Figure) -> bool {
        matches!(self.bound, Bound::Near(at) if self.of.is_upper_end(figure) && at < figure.value)
    }

    /// By how much a figure misses the target, in its unit; 0 where it meets it. Of a wish, how far it is away.
    #[must_use]
    pub fn missed_by(&self, figure: Figure) -> f64 {
        self.bound.sides().map(|side| self.over(figure, side)).fold(0.0, f64::max)
    }

    /// Which end of the band decides: of a wish, which has two sides, the likely value.
    #[must_use]
    pub fn decides(&self) -> Decides {
        if self.bound.is_wish() { Decides::Value } else { self.by }
    }

    /// How far a figure lies behind one side; negative where it keeps it.
    pub(super) fn over(&self, figure: Figure, side: Side) -> f64 {
        let over = self.deciding(figure, side) - side.at;
        if side.is_upper { over } else { -over }
    }

    /// Whether a figure meets the target but for binary noise. A wish is always met.
    #[must_use]
    pub fn is_met_by(&self, figure: Figure) -> bool {
        let holds = |side: Side| self.over(figure, side) <= MET * side.measure(self.of);
        self.bound.is_wish() || self.bound.sides().all(holds)
    }

    /// A usual range as a target: what is usual for the use is to be kept, or reached.
    #[must_use]
    pub fn of_usual(range: &UsualRange) -> Self {
        let of = match range.of {
            Share::Group(group) => Measured::Group(group),
            Share::Ethanol => Measured::Component(Component::Ethanol),
        };
        // "Less than 2 %" is met by what is shown as 1.9 %.
        let high =
            if range.high_is_outside { range.nearest_within(Place::High).unwrap_or(range.high) } else { range.high };
        let bound = if range.low > 0.0 { Bound::Between(range.low, high) } else { Bound::AtMost(high) };
        Self::new(of, bound)
    }

    /// What is usual for the use of a recipe, of the results that are known, with the rule of the report: a share that is
    /// usual as it is shown need not move.
    #[must_use]
    pub fn usual(analysis: &Analysis) -> Vec<Self> {
        let known = analysis.usual.iter().filter_map(|range| Some((range, range.of.of(&analysis.make_up.bowl)?)));
        known.map(|(range, share)| Self::of_usual(&range.holding(share))).collect()
    }

    /// What would answer a finding, if a target can.
    #[must_use]
    pub fn of_finding(finding: &Finding) -> Option<Self> {
        use crate::analysis::emulsion::{FAT_TO_WATER_EASY, JAMMING};
        use crate::analysis::water::state::{GRAINS_BY_ITSELF, LACTOSE_GROWS};
        let target = match &finding.subject {
            Subject::OutsideUsual { range, .. } => Self::of_usual(range),
            Subject::EmulsionCrowded { .. } => Self::new(Measured::DispersedVolume, Bound::AtMost(JAMMING.0)),
            Subject::FatToWater { .. } => Self::new(Measured::FatToWater, Bound::AtMost(FAT_TO_WATER_EASY)),
            Subject::Keeping(_) => Self::new(Measured::WaterActivity, Bound::AtMost(finding.usual_high?)),
            Subject::Polyols { .. } => {
                Self::new(Measured::Component(Component::Polyols), Bound::AtMost(finding.usual_high?))
            }
            Subject::MayGrain { .. } => Self::new(Measured::SucroseSupersaturation, Bound::AtMost(GRAINS_BY_ITSELF)),
            Subject::SucroseSaturated { .. } => Self::new(Measured::SucroseSupersaturation, Bound::AtMost(1.0)),
            Subject::LactoseMayGrain { .. } => {
                Self::new(Measured::LactoseSupersaturation, Bound::AtMost(LACTOSE_GROWS))
            }
            Subject::Crystals(CrystalsSubject { usual, .. }) => {
                let low = usual.low.to_percent();
                let bound = usual.high.map_or(Bound::AtLeast(low), |high| Bound::Between(low, high.to_percent()));
                Self::new(Measured::Crystals(ROOM), bound)
            }
            Subject::NoLimit { .. } | Subject::NoSeeding { .. } => {
                Self::new(Measured::CocoaButterInFat, Bound::AtLeast(finding.usual_low?))
            }
            _ => return None,
        };
        target.bound.is_sound().then_some(target)
    }
}

/// All groups and components that can be asked for, each once: a group of one component is not asked for twice.
pub fn shares() -> impl Iterator<Item = Measured> {
    let groups = Group::ALL.map(Measured::Group);
    let is_group = |component: &Component| Group::ALL.iter().any(|group| group.key() == component.key());
    let components = Component::ALL.into_iter().filter(move |component| !is_group(component));
    groups.into_iter().chain(components.map(Measured::Component))
}
