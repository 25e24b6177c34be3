//! A plot as data: axes, bands, curves, marks. Drawn by the window today; made to be drawn on paper as well.
//!
//! A figure never holds a non-finite point: constructors drop them.

/// A plot as data.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The axis from left to right.
    pub x: AxisRange,
    /// The axis from bottom to top.
    pub y: AxisRange,
    /// Shaded regions, drawn first.
    pub regions: Vec<Region>,
    /// Curves, in drawing order.
    pub curves: Vec<Curve>,
    /// Straight lines across the plot.
    pub rules: Vec<Rule>,
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

/// What something is drawn as; the colours are the drawer's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The recipe as it stands.
    Now,
    /// The pinned state.
    Pinned,
    /// Something to compare with that is neither.
    Reference,
    /// What is usual, or where to work.
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

/// On which side of a mark its label stands, where there is room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At the left and below: free under a curve that falls.
    LeftBelow,
    /// At the right and below.
    RightBelow,
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
    /// A curve; points that are not finite are dropped.
    #[must_use]
    pub fn new(label: impl Into<String>, role: Role, points: impl IntoIterator<Item = [f64; 2]>) -> Self {
        let points = points.into_iter().filter(|point| point.iter().all(|value| value.is_finite())).collect();
        Self { label: label.into(), role, points }
    }
}
