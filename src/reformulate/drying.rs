//! How far a water activity lies behind a bound, also where it has no figure of its own any more.
//!
//! The report says of what is drier than 0.50 only that it lies below. So the edge of the band that decides falls at once from
//! 0.55 to 0.50 there: a bound between the two is met by what is dry, behind a jump that no straight line shows, and inside of
//! what is dry no straight line shows the way back. On its way a descent asks the equations beyond the end of the figure, and
//! what is missed is zero at the same amounts as by the report.

use super::measured::{Mass, Measured};
use super::target::{Side, Target};
use crate::analysis::water::state::{DRY, WIDE_BAND};

/// So far inside of what is dry an answer has to lie: more than what the solver leaves open.
const INSIDE: f64 = 1e-6;

/// How far the water activity of a mass lies behind one side of a target; `None` where it has none.
pub(super) fn over(target: &Target, mass: &Mass, side: Side) -> Option<f64> {
    let figure = mass.figure(Measured::WaterActivity)?;
    let by_report = target.over(figure, side);
    // Without an emulsion there is no way on which it dries: it is dry.
    let activity = mass.activity_beyond().unwrap_or(DRY.0 - INSIDE);
    let is_dry = Measured::WaterActivity.is_upper_end(figure);
    let beyond = activity - DRY.0 + INSIDE;
    if side.at < DRY.0 {
        // Nothing is told to lie lower than what is dry: no bound there is met, and all that is dry is as near as a wish comes.
        match (target.bound.is_wish(), side.is_upper) {
            (true, true) => return Some(beyond),
            (true, false) => return Some(side.at - DRY.0),
            (false, true) => return Some(activity.max(DRY.0) - side.at),
            (false, false) => {}
        }
    }
    let over = match target.decided_band(WIDE_BAND) {
        band if is_dry && side.is_upper => activity + band - side.at,
        band if is_dry => side.at - (activity - band),
        _ => by_report,
    };
    Some(match (side.is_upper, target.bound.is_wish()) {
        // What is dry meets every bound from above, and none from below.
        (true, _) => over.min(beyond),
        (false, false) => over.max(DRY.0 - activity),
        (false, true) => over,
    })
}
