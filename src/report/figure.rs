//! A plot as data: axes, bands, curves, marks, bars. The window draws it on the screen, [`super::drawing`] on paper.
//!
//! A figure never holds a non-finite point: constructors drop them.

use super::hue::Hue;

/// A plot as data.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The colour of what belongs to this mass: its curve and the band around it.
    pub hue: Hue,
    /// The axis from left to right.
    pub x: AxisRange,
    /// The axis from bottom to top.
    pub y: AxisRange,
    /// Shaded regions, drawn first.
    pub regions: Vec<Region>,
    /// Curves, in drawing order.
    pub curves: Vec<Curve>,
    /// Upright lines across the plot.
    pub rules: Vec<Rule>,
    /// Lines across the plot at a height.
    pub levels: Vec<Level>,
    /// Marked points.
    pub marks: Vec<Mark>,
    /// The same in a sentence, for those who do not see the plot.
    pub in_words: String,
}

/// An axis with its range.
#[derive(Clone, Debug, PartialEq)]
pub struct AxisRange {
    /// Its name and unit.
    pub label: &'static str,
    /// Lower end.
    pub from: f64,
    /// Upper end.
    pub to: f64,
    /// Distance of labelled ticks.
    pub step: f64,
}

impl AxisRange {
    /// Where its ticks are: at multiples of its step.
    #[must_use]
    pub fn ticks(&self) -> Vec<f64> {
        /// More ticks than any plot shows: a guard against a step that is tiny for the range.
        const MOST: usize = 100;
        /// Of a step: sums of doubles may miss the upper end by that much.
        const ROUNDING: f64 = 1e-9;
        let first = (self.from / self.step - ROUNDING).ceil();
        #[expect(clippy::cast_precision_loss, reason = "at most 100")]
        let ticks = (0..MOST).map(|place| (first + place as f64) * self.step);
        ticks.take_while(|tick| *tick <= self.to + ROUNDING * self.step).collect()
    }

    /// How far along the axis a value lies: 0 at the lower end, 1 at the upper.
    #[must_use]
    pub fn share(&self, value: f64) -> f64 {
        if self.to > self.from { (value - self.from) / (self.to - self.from) } else { 0.0 }
    }

    /// Digits after the decimal sign that the figures of its ticks need.
    #[must_use]
    pub fn decimals(&self) -> u32 {
        /// As many as any axis shows.
        const MOST: u32 = 3;
        let is_whole = |decimals: &u32| {
            let scaled = self.step * 10_f64.powi((*decimals).cast_signed());
            (scaled - scaled.round()).abs() < 1e-6 && scaled.round() >= 1.0
        };
        (0..=MOST).find(is_whole).unwrap_or(MOST)
    }

    /// An axis that holds two values, with about five ticks at round figures.
    #[must_use]
    pub fn around(label: &'static str, low: f64, high: f64) -> Self {
        let step = round_step(high - low);
        let from = (low / step).floor() * step;
        Self { label, from, to: ((high / step).ceil() * step).max(from + step), step }
    }

    /// An axis from zero that holds a value, with about five ticks at round figures.
    #[must_use]
    pub fn from_zero(label: &'static str, most: f64) -> Self {
        let step = round_step(most);
        Self { label, from: 0.0, to: (most / step).ceil().max(1.0) * step, step }
    }
}

/// The distance of ticks, 1, 2 or 5 times a power of ten, that gives about five of them.
fn round_step(length: f64) -> f64 {
    /// Ticks that are aimed at.
    const TICKS: f64 = 5.0;
    let rough = if length.is_finite() && length > 0.0 { length / TICKS } else { 1.0 / TICKS };
    let power = 10.0_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0].into_iter().map(|digit| digit * power).find(|step| *step >= rough);
    step.unwrap_or(10.0 * power)
}

/// What something is drawn as; the colours are the drawer's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The recipe as it stands.
    Now,
    /// The pinned state.
    Pinned,
    /// Something to compare with that is neither.
    Reference,
    /// Where to work.
    Window,
    /// A second window, drawn lighter.
    SecondWindow,
    /// A limit.
    Limit,
    /// What is usual.
    Usual,
    /// How far off a curve can be.
    Uncertainty,
}

/// A shaded region between two curves over the same points.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// What it is.
    pub label: String,
    /// How it is drawn.
    pub role: Role,
    /// Places on the x axis, increasing.
    pub xs: Vec<f64>,
    /// Lower edge at each place.
    pub lower: Vec<f64>,
    /// Upper edge at each place.
    pub upper: Vec<f64>,
}

/// A curve through points.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// What it is.
    pub label: String,
    /// How it is drawn.
    pub role: Role,
    /// The points from left to right.
    pub points: Vec<[f64; 2]>,
}

/// A straight line across the plot, upright.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// What it is.
    pub label: String,
    /// How it is drawn.
    pub role: Role,
    /// Where it stands on the x axis.
    pub at: f64,
}

/// A straight line across the plot at a height.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// What is written on it.
    pub label: String,
    /// Where it stands on the y axis.
    pub at: f64,
    /// Whether its words stand at the left end, else at the right one.
    pub is_label_left: bool,
    /// Whether they stand under the line, else on it.
    pub is_label_below: bool,
}

/// A marked point.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What is written beside it; empty for nothing.
    pub label: String,
    /// How it is drawn.
    pub role: Role,
    /// Where it is.
    pub at: [f64; 2],
    /// On which side its label stands.
    pub side: Side,
}

impl Mark {
    /// Where its label really stands: on its side, or on the other where there is no room.
    #[must_use]
    pub fn label_place(&self, x: &AxisRange, y: &AxisRange) -> LabelPlace {
        /// Part of the axis that a usual label needs, and that one letter of a long one takes.
        const LABEL: f64 = 0.32;
        const LETTER: f64 = 0.0175;
        /// Below this share of the height a label stands above its mark.
        const LOW: f64 = 0.2;
        let place = x.share(self.at[0]);
        let letters = u32::try_from(self.label.chars().count()).unwrap_or(u32::MAX);
        let needed = LABEL.max(LETTER * f64::from(letters));
        let is_left = match self.side {
            Side::LeftBelow | Side::LeftAbove => place > needed,
            Side::RightBelow | Side::RightAbove => place > 1.0 - needed,
        };
        let is_low = y.share(self.at[1]) < LOW;
        // Under a falling curve there is room at the left, over it at the right: where the label does not fit under it,
        // it stands over it.
        let is_left = if self.side == Side::LeftBelow && is_low { place > 1.0 - needed } else { is_left };
        let is_above = matches!(self.side, Side::RightAbove | Side::LeftAbove)
            || (self.side == Side::LeftBelow && !is_left)
            || is_low;
        LabelPlace { is_left, is_above }
    }
}

/// Where the label of a mark stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LabelPlace {
    /// At the left of it, else at the right.
    pub is_left: bool,
    /// Above it, else below.
    pub is_above: bool,
}

/// Bars under each other over one axis, each made of parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Bars {
    /// The axis from left to right.
    pub axis: AxisRange,
    /// From top to bottom.
    pub bars: Vec<Bar>,
    /// What else has to be known to read it; empty for nothing.
    pub note: String,
    /// The same in a sentence, for those who do not see it.
    pub in_words: String,
}

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it is.
    pub label: String,
    /// Its figure in words.
    pub figure: String,
    /// How long it is.
    pub total: f64,
    /// What it is made of, as far as it is known.
    pub parts: Vec<BarPart>,
    /// How long it was in the pinned state; `None` if nothing is pinned or it was not there.
    pub pinned: Option<f64>,
}

/// A part of a bar.
#[derive(Clone, Debug, PartialEq)]
pub struct BarPart {
    /// What it is.
    pub hue: Hue,
    /// How long it is.
    pub value: f64,
    /// Its figure in words.
    pub figure: String,
}

/// On which side of a mark its label stands, where there is room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At the left and below: free under a curve that falls.
    LeftBelow,
    /// At the left and above: free over a curve that rises.
    LeftAbove,
    /// At the right and below.
    RightBelow,
    /// At the right and above.
    RightAbove,
}

impl Region {
    /// A region between two edges; points with an edge that is not finite are dropped.
    #[must_use]
    pub fn new(label: impl Into<String>, role: Role, points: impl IntoIterator<Item = (f64, f64, f64)>) -> Self {
        let mut region = Self { label: label.into(), role, xs: Vec::new(), lower: Vec::new(), upper: Vec::new() };
        for (x, lower, upper) in points {
            if x.is_finite() && lower.is_finite() && upper.is_finite() {
                region.xs.push(x);
                region.lower.push(lower);
                region.upper.push(upper);
            }
        }
        region
    }

    /// An upright band over the whole height of an axis.
    #[must_use]
    pub fn band(label: impl Into<String>, role: Role, from: f64, to: f64, y: &AxisRange) -> Self {
        Self::new(label, role, [(from, y.from, y.to), (to, y.from, y.to)])
    }

    /// A rectangle.
    #[must_use]
    pub fn rectangle(label: impl Into<String>, role: Role, x: [f64; 2], y: [f64; 2]) -> Self {
        Self::new(label, role, [(x[0], y[0], y[1]), (x[1], y[0], y[1])])
    }
}

impl Curve {
    /// Its height at a place, between its points on a straight line; `None` beside its ends.
    #[must_use]
    pub fn at(&self, x: f64) -> Option<f64> {
        self.points.windows(2).find_map(|pair| match pair {
            [[left, low], [right, high]] if (*left..=*right).contains(&x) => {
                Some(if right > left { low + (high - low) * (x - left) / (right - left) } else { *low })
            }
            _ => None,
        })
    }

    /// A curve; points that are not finite are dropped.
    #[must_use]
    pub fn new(label: impl Into<String>, role: Role, points: impl IntoIterator<Item = [f64; 2]>) -> Self {
        let points = points.into_iter().filter(|point| point.iter().all(|value| value.is_finite())).collect();
        Self { label: label.into(), role, points }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(from: f64, to: f64, step: f64) -> AxisRange {
        AxisRange { label: "", from, to, step }
    }

    #[test]
    fn ticks_stand_at_multiples_of_the_step_up_to_both_ends() {
        assert_eq!(axis(5.0, 20.0, 5.0).ticks(), [5.0, 10.0, 15.0, 20.0]);
        assert_eq!(axis(7.0, 20.0, 5.0).ticks(), [10.0, 15.0, 20.0]);
        assert_eq!(axis(0.0, 1e9, 1.0).ticks().len(), 100);
    }

    #[test]
    fn an_axis_around_two_values_holds_both_on_round_figures() {
        for (low, high, from, to, step) in [
            (9.9, 33.8, 5.0, 35.0, 5.0),
            (0.62, 0.97, 0.6, 1.0, 0.1),
            (20.0, 20.0, 20.0, 20.2, 0.2),
            (0.0, 100.0, 0.0, 100.0, 20.0),
        ] {
            let axis = AxisRange::around("", low, high);
            assert!((axis.from - from).abs() < 1e-9 && (axis.to - to).abs() < 1e-9, "{low} {high}: {axis:?}");
            assert!((axis.step - step).abs() < 1e-9, "{low} {high}: {axis:?}");
        }
    }

    #[test]
    fn ticks_have_the_decimals_that_their_step_needs() {
        for (step, decimals) in [(20.0, 0), (1.0, 0), (0.5, 1), (0.1, 1), (0.05, 2), (0.002, 3), (0.25, 2)] {
            assert_eq!(axis(0.0, 1.0, step).decimals(), decimals, "{step}");
        }
    }

    #[test]
    fn an_axis_from_zero_holds_its_value_on_round_figures() {
        for (most, to, step) in [(400.0, 400.0, 100.0), (401.0, 500.0, 100.0), (7.0, 8.0, 2.0), (0.0, 0.2, 0.2)] {
            let axis = AxisRange::from_zero("", most);
            assert!((axis.to - to).abs() < 1e-9 && (axis.step - step).abs() < 1e-9, "{most}: {axis:?}");
        }
    }

    #[test]
    fn a_label_stands_where_there_is_room() {
        let (x, y) = (axis(0.0, 100.0, 10.0), axis(0.0, 100.0, 10.0));
        let place = |at, side| {
            let place = Mark { label: String::new(), role: Role::Now, at, side }.label_place(&x, &y);
            (place.is_left, place.is_above)
        };
        assert_eq!(place([50.0, 50.0], Side::LeftBelow), (true, false));
        assert_eq!(place([10.0, 50.0], Side::LeftBelow), (false, true));
        assert_eq!(place([50.0, 50.0], Side::RightBelow), (false, false));
        assert_eq!(place([90.0, 5.0], Side::RightBelow), (true, true));
    }
}
