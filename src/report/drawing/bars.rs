//! Bars on paper.

use super::{
    Anchor, Colour, Drawing, MARGIN, Pen, SMALL, SWATCH, Shape, Swatch, TEXT, TOP, WIDTH, Words, legend, shortened,
    width_of,
};
use crate::number::{DecimalSign, fixed};
use crate::report::figure::{Bar, Bars};
use crate::report::hue::Hue;

/// Left and right end of the axis.
const AXIS: [f64; 2] = [MARGIN, WIDTH - MARGIN];
/// Height of a bar with its name above it.
const ROW: f64 = 54.0;
/// Where in a row the name stands, and where the bar lies.
const NAME: f64 = 15.0;
const BAR: [f64; 2] = [25.0, 45.0];
/// Between the last row and what stands under it, by lines.
const LINE: f64 = 22.0;
/// What is free around words in a part of a bar.
const AROUND: f64 = 4.0;

/// Bars on white paper, their names and figures above them, with an axis and a legend.
#[must_use]
pub fn of_bars(recipe: &str, title: &str, bars: &Bars, sign: DecimalSign) -> Drawing {
    let mut drawing = Drawing::new(recipe, title, &bars.in_words);
    #[expect(clippy::cast_precision_loss, reason = "a few dozen bars")]
    let bottom = TOP + bars.bars.len() as f64 * ROW;
    for tick in bars.axis.ticks() {
        let x = place(bars, tick);
        drawing.add(Shape::line([[x, TOP], [x, bottom]], Pen::solid(Colour::GRID, 1.0)));
        // The first and the last figure would reach over the edge of the bars.
        let anchor = match bars.axis.share(tick) {
            share if share < 0.01 => Anchor::Start,
            share if share > 0.99 => Anchor::End,
            _ => Anchor::Middle,
        };
        let words = Words::new(fixed(tick, u32::from(bars.axis.step < 1.0), sign), [x, bottom + LINE], anchor);
        drawing.add(words.size(SMALL).quiet().shape());
    }
    let mut top = TOP;
    for bar in &bars.bars {
        bar_shapes(&mut drawing, bars, bar, top);
        top += ROW;
    }
    let middle = f64::midpoint(AXIS[0], AXIS[1]);
    drawing.add(Words::new(bars.axis.label, [middle, bottom + 2.0 * LINE], Anchor::Middle).shape());
    let mut below = bottom + 3.5 * LINE;
    if !bars.note.is_empty() {
        drawing.add(Words::new(&bars.note, [MARGIN, below], Anchor::Start).quiet().shape());
        below += 1.5 * LINE;
    }
    drawing.size[1] = legend(&mut drawing, entries(bars), below);
    drawing
}

fn place(bars: &Bars, value: f64) -> f64 {
    AXIS[0] + bars.axis.share(value) * (AXIS[1] - AXIS[0])
}

fn bar_shapes(drawing: &mut Drawing, bars: &Bars, bar: &Bar, top: f64) {
    let figure_width = width_of(&bar.figure, TEXT);
    let room = AXIS[1] - AXIS[0] - figure_width - 2.0 * MARGIN;
    let name = Words::new(shortened(&bar.label, TEXT, room), [AXIS[0], top + NAME], Anchor::Start);
    drawing.add(name.bold().shape());
    drawing.add(Words::new(&bar.figure, [AXIS[1], top + NAME], Anchor::End).quiet().shape());
    let [upper, lower] = BAR.map(|edge| top + edge);
    let mut from = 0.0;
    for part in &bar.parts {
        let (left, right) = (place(bars, from), place(bars, from + part.value));
        drawing.add(Shape::rectangle([left, upper, right, lower], Colour::of(part.hue), 1.0));
        // A hairline between neighbours, where there is room for one.
        if right - left > AROUND {
            drawing.add(Shape::line([[right, upper], [right, lower]], Pen::solid(Colour([0xFF; 3]), 1.0)));
        }
        if width_of(&part.figure, SMALL) + 2.0 * AROUND <= right - left {
            let at = [f64::midpoint(left, right), f64::midpoint(upper, lower) + 0.35 * SMALL];
            let words = Words::new(&part.figure, at, Anchor::Middle).size(SMALL);
            drawing.add(Words { colour: Colour(part.hue.text_rgb()), ..words }.shape());
        }
        from += part.value;
    }
    drawing.add(Shape::outline([AXIS[0], upper, place(bars, bar.total), lower], Pen::solid(Colour::QUIET, 1.0)));
    if let Some(before) = bar.pinned {
        let around = [AXIS[0], upper - 3.0, place(bars, before), lower + 3.0];
        drawing.add(Shape::outline(around, pinned_pen()));
    }
}

fn pinned_pen() -> Pen {
    Pen::dashed(Colour::INK, 1.5, [9.0, 7.0])
}

fn entries(bars: &Bars) -> Vec<(String, Swatch)> {
    let box_at = |[x, y]: [f64; 2]| [x, y - SWATCH[1] / 2.0, x + SWATCH[0], y + SWATCH[1] / 2.0];
    let is_there = |hue: &Hue| bars.bars.iter().any(|bar| bar.parts.iter().any(|part| part.hue == *hue));
    let mut entries: Vec<(String, Swatch)> = Vec::new();
    for hue in Hue::ALL.into_iter().filter(is_there) {
        let swatch: Swatch = Box::new(move |at| vec![Shape::rectangle(box_at(at), Colour::of(hue), 1.0)]);
        entries.push((hue.words().to_owned(), swatch));
    }
    if bars.bars.iter().any(|bar| bar.pinned.is_some()) {
        entries.push(("pinned".to_owned(), Box::new(move |at| vec![Shape::outline(box_at(at), pinned_pen())])));
    }
    entries
}
