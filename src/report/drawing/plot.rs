//! A figure on paper.

use super::{Anchor, Colour, Drawing, MARGIN, Pen, SMALL, SWATCH, Shape, Swatch, TOP, WIDTH, Words, legend};
use crate::number::{DecimalSign, fixed};
use crate::report::figure::{AxisRange, Figure, LabelPlace, Mark, Region, Role};
use crate::report::hue::Hue;

/// The plot proper: left, top, right, bottom. Above it there is room for the words of rules.
const PLOT: [f64; 4] = [84.0, TOP + 8.0, WIDTH - MARGIN, 454.0];
/// Base line of the figures at the axis from left to right, and of its name.
const X_WORDS: [f64; 2] = [PLOT[3] + 18.0, PLOT[3] + 40.0];
/// Base line of the first row of the legend.
const LEGEND: f64 = 528.0;
/// Height of the paper; with a longer legend it grows.
const HEIGHT: f64 = 596.0;
/// Between a mark or an axis and its words.
const GAP: f64 = 9.0;

/// A figure on white paper with axes, grid and a legend that says which line is what.
#[must_use]
pub fn of_figure(recipe: &str, title: &str, figure: &Figure, sign: DecimalSign) -> Drawing {
    let mut drawing = Drawing::new(recipe, title, &figure.in_words);
    axes(&mut drawing, figure, sign);
    let mut inside = Vec::new();
    for region in &figure.regions {
        inside.extend(region_shapes(figure.hue, region, |point| place(figure, point)));
    }
    for curve in &figure.curves {
        let points: Vec<_> = curve.points.iter().map(|point| place(figure, *point)).collect();
        inside.push(Shape::line(points, pen(figure.hue, curve.role)));
    }
    let levels = figure.levels.iter().filter(|level| level.at.is_finite());
    for level in levels.clone() {
        let y = place(figure, [figure.x.from, level.at])[1];
        inside.push(Shape::line([[PLOT[0], y], [PLOT[2], y]], Pen::dashed(Colour::QUIET, 1.0, [6.0, 4.0])));
    }
    let rules = figure.rules.iter().filter(|rule| rule.at.is_finite());
    for rule in rules.clone() {
        let x = place(figure, [rule.at, figure.y.from])[0];
        inside.push(Shape::line([[x, PLOT[1]], [x, PLOT[3]]], rule_pen(figure.hue, rule.role)));
    }
    drawing.add(Shape::Clipped { to: PLOT, shapes: inside });
    drawing.add(Shape::outline(PLOT, Pen::solid(Colour::QUIET, 1.0)));
    for rule in rules {
        /// Nearer than this share of the axis to its end, words would reach over the edge of the paper.
        const NEAR: f64 = 0.1;
        let anchor = match figure.x.share(rule.at) {
            share if share < NEAR => Anchor::Start,
            share if share > 1.0 - NEAR => Anchor::End,
            _ => Anchor::Middle,
        };
        let x = place(figure, [rule.at, figure.y.from])[0];
        drawing.add(Words::new(&rule.label, [x, PLOT[1] - 0.6 * GAP], anchor).shape());
    }
    for level in levels {
        let y = place(figure, [figure.x.from, level.at])[1];
        let (x, anchor) =
            if level.is_label_left { (PLOT[0] + GAP, Anchor::Start) } else { (PLOT[2] - GAP, Anchor::End) };
        let below = if level.is_label_below { SMALL + GAP } else { 0.0 };
        drawing.add(Words::new(&level.label, [x, y - 0.5 * GAP + below], anchor).size(SMALL).shape());
    }
    for mark in figure.marks.iter().filter(|mark| mark.at.iter().all(|value| value.is_finite())) {
        drawing.shapes.extend(mark_shapes(figure, mark));
    }
    let end = legend(&mut drawing, entries(figure), LEGEND);
    drawing.size[1] = HEIGHT.max(end);
    drawing
}

/// Where a point of the figure lies on the paper.
fn place(figure: &Figure, [x, y]: [f64; 2]) -> [f64; 2] {
    let [left, top, right, bottom] = PLOT;
    [left + figure.x.share(x) * (right - left), bottom - figure.y.share(y) * (bottom - top)]
}

fn axes(drawing: &mut Drawing, figure: &Figure, sign: DecimalSign) {
    let [left, top, right, bottom] = PLOT;
    let grid = Pen::solid(Colour::GRID, 1.0);
    let figures = |axis: &AxisRange, tick| fixed(tick, axis.decimals(), sign);
    for tick in figure.x.ticks() {
        let x = place(figure, [tick, figure.y.from])[0];
        drawing.add(Shape::line([[x, top], [x, bottom]], grid));
        let words = Words::new(figures(&figure.x, tick), [x, X_WORDS[0]], Anchor::Middle);
        drawing.add(words.size(SMALL).quiet().shape());
    }
    for tick in figure.y.ticks() {
        let y = place(figure, [figure.x.from, tick])[1];
        drawing.add(Shape::line([[left, y], [right, y]], grid));
        let words = Words::new(figures(&figure.y, tick), [left - GAP, y + 0.35 * SMALL], Anchor::End);
        drawing.add(words.size(SMALL).quiet().shape());
    }
    let middle = [f64::midpoint(left, right), f64::midpoint(top, bottom)];
    drawing.add(Words::new(figure.x.label, [middle[0], X_WORDS[1]], Anchor::Middle).shape());
    drawing.add(Words::new(figure.y.label, [MARGIN + 14.0, middle[1]], Anchor::Middle).upright().shape());
}

fn region_shapes(hue: Hue, region: &Region, place: impl Fn([f64; 2]) -> [f64; 2]) -> Vec<Shape> {
    let edge = |ys: &[f64]| -> Vec<[f64; 2]> { region.xs.iter().zip(ys).map(|(x, y)| place([*x, *y])).collect() };
    let (upper, lower) = (edge(&region.upper), edge(&region.lower));
    let mut shapes = Vec::new();
    if let Some(pen) = region_outline(region.role) {
        let mut around = upper.clone();
        around.extend(lower.iter().rev());
        around.extend(upper.first());
        shapes.push(Shape::line(around, pen));
    }
    if let Some((colour, opacity)) = region_fill(hue, region.role) {
        shapes.insert(0, Shape::Area { upper, lower, colour, opacity });
    }
    shapes
}

/// A region of the pinned state is an outline alone: filled, it would look like one of now.
fn region_fill(hue: Hue, role: Role) -> Option<(Colour, f64)> {
    match role {
        Role::Pinned => None,
        Role::Uncertainty => Some((Colour::of(hue), 0.25)),
        Role::Usual => Some((Colour::QUIET, 0.18)),
        Role::SecondWindow => Some((Colour::GREEN, 0.08)),
        Role::Window | Role::Now | Role::Reference | Role::Limit => Some((Colour::GREEN, 0.2)),
    }
}

fn region_outline(role: Role) -> Option<Pen> {
    match role {
        Role::Pinned => Some(Pen::dashed(Colour::QUIET, 1.0, [9.0, 7.0])),
        Role::Usual => Some(Pen::dashed(Colour::QUIET, 1.5, [5.0, 3.0])),
        Role::SecondWindow => Some(Pen::solid(Colour::GREEN, 1.0)),
        Role::Window | Role::Now | Role::Reference | Role::Limit | Role::Uncertainty => None,
    }
}

fn pen(hue: Hue, role: Role) -> Pen {
    match role {
        Role::Now => Pen::solid(Colour::of(hue), 3.0),
        Role::Pinned => Pen::dashed(Colour::INK, 1.5, [9.0, 7.0]),
        Role::Limit => Pen::solid(Colour::GREEN, 2.0),
        Role::Reference | Role::Window | Role::SecondWindow | Role::Usual | Role::Uncertainty => {
            Pen::dashed(Colour::QUIET, 1.5, [5.0, 3.0])
        }
    }
}

fn rule_pen(hue: Hue, role: Role) -> Pen {
    if role == Role::Pinned { pen(hue, role) } else { Pen::dashed(Colour::INK, 1.5, [1.5, 3.0]) }
}

fn mark_shapes(figure: &Figure, mark: &Mark) -> [Shape; 2] {
    /// A circle that is seen on a line of three points, and one that steps back.
    const RADII: [f64; 2] = [5.0, 3.0];
    let centre = place(figure, mark.at);
    let is_now = mark.role == Role::Now;
    let colour = if is_now { Colour::INK } else { Colour::QUIET };
    let LabelPlace { is_left, is_above } = mark.label_place(&figure.x, &figure.y);
    let (dx, anchor) = if is_left { (-GAP, Anchor::End) } else { (GAP, Anchor::Start) };
    let dy = if is_above { -GAP } else { 2.0 * GAP };
    let words = Words::new(&mark.label, [centre[0] + dx, centre[1] + dy], anchor);
    let words = if is_now { words.bold() } else { words.quiet() };
    let is_reference = mark.role == Role::Reference;
    let radius = RADII[usize::from(is_reference)];
    [Shape::Circle { centre, radius, colour, is_filled: is_now || is_reference }, words.shape()]
}

/// What is named and not written beside the thing itself.
fn entries(figure: &Figure) -> Vec<(String, Swatch)> {
    let hue = figure.hue;
    let regions = figure.regions.iter().map(move |region| {
        let role = region.role;
        let swatch: Swatch = Box::new(move |[x, y]| {
            let (left, right) = (x, x + SWATCH[0]);
            let (top, bottom) = (y - SWATCH[1] / 2.0, y + SWATCH[1] / 2.0);
            let fill = region_fill(hue, role)
                .map(|(colour, opacity)| Shape::rectangle([left, top, right, bottom], colour, opacity));
            let outline = region_outline(role).map(|pen| Shape::outline([left, top, right, bottom], pen));
            fill.into_iter().chain(outline).collect()
        });
        (region.label.clone(), swatch)
    });
    let curves = figure.curves.iter().map(move |curve| {
        let pen = pen(figure.hue, curve.role);
        let swatch: Swatch = Box::new(move |[x, y]| vec![Shape::line([[x, y], [x + SWATCH[0], y]], pen)]);
        (curve.label.clone(), swatch)
    });
    curves.chain(regions).filter(|(label, _)| !label.is_empty()).collect()
}
