//! A plot as lines, areas and words on white paper: what leaves the program as a file.
//!
//! A [`Drawing`] is data. [`super::svg`] writes it as text, the window makes a picture of it; both show the same.
//! Lengths are points, x to the right and y downwards. Words are placed by an estimate of their width, so nothing
//! here depends on a font; whoever draws them aligns them at their anchor.
//!
//! Colours are those of Okabe and Ito (2008), for all kinds of colour vision; lines differ in their dashes as well.

mod bars;
mod plot;

pub use bars::of_bars;
pub use plot::of_figure;

use super::hue::Hue;

/// Something drawn, on white paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width and height.
    pub size: [f64; 2],
    /// Its name.
    pub title: String,
    /// The same in a sentence, for those who do not see it.
    pub in_words: String,
    /// From the back to the front.
    pub shapes: Vec<Shape>,
}

/// A colour: red, green, blue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub [u8; 3]);

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Its colour.
    pub colour: Colour,
    /// Its width.
    pub width: f64,
    /// Lengths of dash and gap.
    pub dashes: Option<[f64; 2]>,
}

/// A part of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line through points.
    Line {
        /// The points.
        points: Vec<[f64; 2]>,
        /// How it is drawn.
        pen: Pen,
    },
    /// What lies between two edges with the same places on the x axis.
    Area {
        /// The points of the upper edge, from left to right.
        upper: Vec<[f64; 2]>,
        /// Those of the lower edge, from left to right.
        lower: Vec<[f64; 2]>,
        /// Its colour.
        colour: Colour,
        /// From 0, not seen, to 1, covering.
        opacity: f64,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: [f64; 2],
        /// Its radius.
        radius: f64,
        /// Its colour.
        colour: Colour,
        /// Filled, or an outline.
        is_filled: bool,
    },
    /// A word or a line of words.
    Words(Words),
    /// Shapes of which only what lies in a rectangle is seen.
    Clipped {
        /// Left, top, right, bottom.
        to: [f64; 4],
        /// The shapes.
        shapes: Vec<Shape>,
    },
}

/// A word or a line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// What is written.
    pub text: String,
    /// Where its anchor lies, on the base line.
    pub at: [f64; 2],
    /// Which point of it that is.
    pub anchor: Anchor,
    /// Height of the letters.
    pub size: f64,
    /// Whether it is bold.
    pub is_bold: bool,
    /// Its colour.
    pub colour: Colour,
    /// Whether it runs from bottom to top.
    pub is_upright: bool,
}

/// Which point of a line of words lies at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Width of every drawing.
const WIDTH: f64 = 760.0;
/// Free paper at the edges.
const MARGIN: f64 = 24.0;
/// Base line of the name of the recipe, and of what is drawn.
const HEAD: [f64; 2] = [38.0, 60.0];
/// Where the drawing proper begins.
const TOP: f64 = 82.0;
/// Letters of the name of the recipe.
const TITLE: f64 = 18.0;
/// Letters of everything else.
const TEXT: f64 = 13.0;
/// Letters of figures at axes.
const SMALL: f64 = 12.0;

/// The colours of paper.
impl Colour {
    /// Text, and lines that are black.
    pub const INK: Self = Self([0x24, 0x21, 0x1D]);
    /// Text that steps back, and what is there to compare with.
    pub const QUIET: Self = Self([0x59, 0x54, 0x4C]);
    /// The grid.
    pub const GRID: Self = Self([0xE0, 0xDD, 0xD8]);
    /// Windows and limits.
    pub const GREEN: Self = Self([0x00, 0x9E, 0x73]);

    const fn of(hue: Hue) -> Self {
        Self(hue.rgb())
    }
}

impl Pen {
    const fn solid(colour: Colour, width: f64) -> Self {
        Self { colour, width, dashes: None }
    }

    const fn dashed(colour: Colour, width: f64, dashes: [f64; 2]) -> Self {
        Self { colour, width, dashes: Some(dashes) }
    }
}

impl Shape {
    fn line(points: impl Into<Vec<[f64; 2]>>, pen: Pen) -> Self {
        Self::Line { points: points.into(), pen }
    }

    /// A filled rectangle: left, top, right, bottom.
    fn rectangle([left, top, right, bottom]: [f64; 4], colour: Colour, opacity: f64) -> Self {
        let edge = |y| vec![[left, y], [right, y]];
        Self::Area { upper: edge(top), lower: edge(bottom), colour, opacity }
    }

    /// The outline of a rectangle.
    fn outline([left, top, right, bottom]: [f64; 4], pen: Pen) -> Self {
        Self::line([[left, top], [right, top], [right, bottom], [left, bottom], [left, top]], pen)
    }
}

impl Words {
    fn new(text: impl Into<String>, at: [f64; 2], anchor: Anchor) -> Self {
        Self { text: text.into(), at, anchor, size: TEXT, is_bold: false, colour: Colour::INK, is_upright: false }
    }

    fn bold(self) -> Self {
        Self { is_bold: true, ..self }
    }

    fn quiet(self) -> Self {
        Self { colour: Colour::QUIET, ..self }
    }

    fn size(self, size: f64) -> Self {
        Self { size, ..self }
    }

    fn upright(self) -> Self {
        Self { is_upright: true, ..self }
    }

    fn shape(self) -> Shape {
        Shape::Words(self)
    }
}

impl Drawing {
    /// Paper with the name of the recipe and what is drawn.
    fn new(recipe: &str, title: &str, in_words: &str) -> Self {
        let room = WIDTH - 2.0 * MARGIN;
        Self {
            size: [WIDTH, TOP],
            title: format!("{recipe} – {title}"),
            in_words: in_words.to_owned(),
            shapes: vec![
                Words::new(shortened(recipe, TITLE, room), [MARGIN, HEAD[0]], Anchor::Start).bold().size(TITLE).shape(),
                Words::new(title, [MARGIN, HEAD[1]], Anchor::Start).quiet().shape(),
            ],
        }
    }

    fn add(&mut self, shape: Shape) {
        self.shapes.push(shape);
    }
}

/// A sign of a legend, drawn into the box at this place: left and middle.
type Swatch = Box<dyn Fn([f64; 2]) -> Vec<Shape>>;

/// Size of a sign of a legend.
const SWATCH: [f64; 2] = [28.0, 12.0];
/// From one row of a legend to the next.
const LEGEND_ROW: f64 = 22.0;

/// Writes signs with their words in rows, from the given base line on; gives back the base line of the next row.
fn legend(drawing: &mut Drawing, entries: Vec<(String, Swatch)>, top: f64) -> f64 {
    /// Between a sign and its words.
    const NEAR: f64 = 8.0;
    /// Between words and the next sign.
    const GAP: f64 = 18.0;
    let (mut x, mut y) = (MARGIN, top);
    for (words, swatch) in entries {
        let width = SWATCH[0] + NEAR + width_of(&words, TEXT);
        if x > MARGIN && x + width > WIDTH - MARGIN {
            (x, y) = (MARGIN, y + LEGEND_ROW);
        }
        // The middle of small letters, not of the base line.
        drawing.shapes.extend(swatch([x, y - 0.35 * TEXT]));
        drawing.add(Words::new(words, [x + SWATCH[0] + NEAR, y], Anchor::Start).shape());
        x += width + GAP;
    }
    y + LEGEND_ROW
}

/// About how wide words are, rather too wide: viewers may have another font than Lato.
fn width_of(text: &str, size: f64) -> f64 {
    /// Widths in parts of the size, by sight of Lato and of common sans-serif fonts: narrow, ordinary and wide signs.
    const NARROW: f64 = 0.33;
    const ORDINARY: f64 = 0.58;
    const WIDE: f64 = 0.9;
    let of = |character: char| match character {
        ' ' | '\'' | '(' | ')' | ',' | '.' | ':' | ';' | '|' | 'f' | 'i' | 'j' | 'l' | 'r' | 't' | 'I' | '·' => NARROW,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '—' | '…' => WIDE,
        // Scripts whose signs fill a square.
        '\u{2E80}'.. => 1.0,
        _ => ORDINARY,
    };
    size * text.chars().map(of).sum::<f64>()
}

/// Words that fit into a width; what is left out is marked.
fn shortened(text: &str, size: f64, room: f64) -> String {
    if width_of(text, size) <= room {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    loop {
        kept.pop();
        let short: String = kept.iter().collect::<String>().trim_end().to_owned() + "…";
        if kept.is_empty() || width_of(&short, size) <= room {
            return short;
        }
    }
}

#[cfg(test)]
mod tests;
