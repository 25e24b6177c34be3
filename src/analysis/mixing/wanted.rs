//! What would have to be otherwise so that a mix ends at a wanted temperature: what is heated together, the chocolate, and
//! every line by itself.

use super::{AT_REST_BELOW, FatAtMixing, Mixable, UNSAID, places};
use crate::analysis::heat::{
    BlendCurve, Changed, HeatError, LEAST_WATER_FOR_DISSOLVED_SUGAR, MOST_START, Mix, Start, chocolate_start,
    dry_fat_start, liquid_start, share_to_melt_first,
};
use crate::analysis::is_below;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::plan::MELT_OUT_DARK;
use crate::recipe::LineId;
use crate::units::{Celsius, Grams, MassFraction};

/// Where chocolate is melted that is melted first: where dark chocolate begins to be melted out.
pub const MELTED_AT: Celsius = MELT_OUT_DARK.0;

/// A dry line with less fat than this bears the heat of a syrup (judged): sugar, flour, cocoa powder.
const LEAST_FAT_OF_PASTE: MassFraction = MassFraction(0.25);

/// A wanted end and the ways to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// The temperature.
    pub at: Celsius,
    /// The usual ways, each without the other: the liquid first, then the chocolate.
    pub ways: Vec<Way>,
    /// Every line by itself, in the order of the sheet.
    pub lines: Vec<Way>,
}

/// One change that would bring the mix to its wanted end.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// The lines that are changed together.
    pub lines: Vec<LineId>,
    /// What they are.
    pub what: Changeable,
    /// How warm they are now.
    pub start: Celsius,
    /// What they need, or why there is nothing.
    pub needed: Result<Needed, HeatError>,
}

/// What can be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Changeable {
    /// Something with water, with what is heated together with it.
    Liquid,
    /// Chocolate.
    Chocolate,
    /// Something dry: sugar, nut paste, milk powder.
    Other,
}

/// How a line has to start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Needed {
    /// Solid, so warm.
    Solid(Celsius),
    /// Melted, so warm.
    Melted(Celsius),
    /// A share of it melted, the rest solid.
    MeltFirst {
        /// The share that is melted.
        share: MassFraction,
        /// How much that is.
        grams: Grams,
        /// At which temperature.
        melted_at: Celsius,
        /// How warm the solid rest is.
        rest_at: Celsius,
    },
}

/// What could be changed so that a balance ends at a temperature.
pub(super) fn wanted(lines: &[Mixable<'_>], mix: &Mix, wanted: Celsius, end: Celsius, curve: &BlendCurve) -> Wanted {
    let balance = Balance { lines, mix, end, curve };
    let usual = [(liquid_of(lines), Changeable::Liquid), (chocolate_of(lines), Changeable::Chocolate)];
    Wanted {
        at: wanted,
        ways: usual.into_iter().filter_map(|(idxs, what)| balance.way(&idxs, what)).collect(),
        lines: lines.iter().enumerate().filter_map(|(idx, line)| balance.way(&[idx], Changeable::of(line))).collect(),
    }
}

/// A mix with the temperature at which it should end before it is stirred.
struct Balance<'a, 'b> {
    lines: &'a [Mixable<'b>],
    mix: &'a Mix,
    end: Celsius,
    curve: &'a BlendCurve,
}

impl Changeable {
    fn of(line: &Mixable<'_>) -> Self {
        match line {
            line if line.is_chocolate() => Self::Chocolate,
            line if line.is_liquid() => Self::Liquid,
            _ => Self::Other,
        }
    }
}

impl Balance<'_, '_> {
    fn way(&self, idxs: &[usize], what: Changeable) -> Option<Way> {
        Some(Way {
            start: self.lines.get(*idxs.first()?)?.start,
            lines: idxs.iter().filter_map(|idx| self.lines.get(*idx)).map(|line| line.line.id).collect(),
            what,
            needed: self.needed(idxs, what),
        })
    }

    fn needed(&self, idxs: &[usize], what: Changeable) -> Result<Needed, HeatError> {
        if self.end > MOST_START {
            return Err(HeatError::LostToRoom);
        }
        // Each with the curve of its own fat.
        let changed: Vec<Changed<'_, BlendCurve>> =
            idxs.iter().filter_map(|idx| Some((*idx, &self.lines.get(*idx)?.curve))).collect();
        let is_paste = idxs.iter().filter_map(|idx| self.lines.get(*idx)).any(|line| is_paste(&line.parts));
        let start = match what {
            Changeable::Chocolate => chocolate_start(self.mix, &changed, self.end, self.curve)?,
            Changeable::Other if is_paste => dry_fat_start(self.mix, &changed, self.end, self.curve)?,
            Changeable::Liquid | Changeable::Other => liquid_start(self.mix, &changed, self.end, self.curve)?,
        };
        match (start, what) {
            (Start::Solid(at), _) => Ok(Needed::Solid(at)),
            (Start::Melted(at), _) => Ok(Needed::Melted(at)),
            (Start::PartlyMelted, Changeable::Chocolate) => self.melt_first(idxs, &changed),
            // At 28 °C, with its fat half melted: nobody can hold it there.
            (Start::PartlyMelted, _) => Err(HeatError::NeedsHalfMelted),
        }
    }

    fn melt_first(&self, idxs: &[usize], changed: &[Changed<'_, BlendCurve>]) -> Result<Needed, HeatError> {
        let lines = || idxs.iter().filter_map(|idx| self.lines.get(*idx));
        let is_solid = |line: &&Mixable<'_>| line.state() == FatAtMixing::Solid && line.start < AT_REST_BELOW;
        let rest_at = lines().next().filter(is_solid).map_or(UNSAID, |line| line.start);
        let solid = self.mix.with_starts(changed, rest_at)?;
        let share = share_to_melt_first(&solid, idxs, MELTED_AT, self.end, self.curve)?;
        let whole: Grams = lines().map(|line| line.parts.total()).sum();
        Ok(Needed::MeltFirst { share, grams: whole * share.0, melted_at: MELTED_AT, rest_at })
    }
}

/// Dry and rich in fat: nut paste, butter oil, full-fat milk powder; hotter than melted chocolate it scorches.
fn is_paste(parts: &Parts) -> bool {
    let share = |group| parts.group_share(group).unwrap_or_default();
    is_below(share(Group::Water).0, LEAST_WATER_FOR_DISSOLVED_SUGAR.0) && share(Group::TotalFat) >= LEAST_FAT_OF_PASTE
}

/// The hottest liquid, with everything of which it is said that it has the same temperature: what is heated together.
fn liquid_of(lines: &[Mixable<'_>]) -> Vec<usize> {
    let liquids = || lines.iter().filter(|line| line.is_liquid());
    let Some(hottest) = liquids().map(|line| line.start).reduce(Celsius::max) else { return Vec::new() };
    let is_heated_with = |line: &Mixable<'_>| {
        line.start == hottest && (line.is_liquid() || line.line.temperature.is_some() && !line.is_chocolate())
    };
    places(lines, is_heated_with)
}

/// The chocolate of which there is most, with all that is as warm and in the same state.
fn chocolate_of(lines: &[Mixable<'_>]) -> Vec<usize> {
    // Of lines that weigh the same, the warmer one: their order does not matter.
    let weight = |line: &Mixable<'_>| (line.parts.total(), line.start);
    let largest = lines
        .iter()
        .filter(|line| line.is_chocolate())
        .reduce(|most, line| if weight(line) > weight(most) { line } else { most });
    let Some(largest) = largest else { return Vec::new() };
    places(lines, |line| line.is_chocolate() && line.start == largest.start && line.state() == largest.state())
}
