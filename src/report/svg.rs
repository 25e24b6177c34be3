//! A drawing as a file of its own: SVG 1.1, readable by browsers, word processors and drawing programs.
//!
//! Words stay words: they can be searched and changed. The font is asked for by name and not part of the file.

use std::fmt::{self, Write as _};

use super::drawing::{Anchor, Colour, Drawing, Shape, Words};

/// The font of the window, and what stands in for it where it is not installed.
const FONT: &str = "Lato, sans-serif";

/// Writes a drawing.
#[must_use]
pub fn write(drawing: &Drawing) -> String {
    let mut writer = Writer { out: String::new(), clips: 0 };
    // Writing to a String cannot fail.
    let _ = writer.drawing(drawing);
    writer.out
}

struct Writer {
    out: String,
    /// How many rectangles have a name already.
    clips: usize,
}

impl Writer {
    fn drawing(&mut self, drawing: &Drawing) -> fmt::Result {
        let [width, height] = drawing.size.map(Length);
        writeln!(self.out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>")?;
        writeln!(
            self.out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}\" height=\"{height}\" \
             viewBox=\"0 0 {width} {height}\" font-family=\"{FONT}\">"
        )?;
        writeln!(self.out, "<title>{}</title>", Escaped(&drawing.title))?;
        writeln!(self.out, "<desc>{}</desc>", Escaped(&drawing.in_words))?;
        writeln!(self.out, "<rect width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>")?;
        self.shapes(&drawing.shapes)?;
        writeln!(self.out, "</svg>")
    }

    fn shapes(&mut self, shapes: &[Shape]) -> fmt::Result {
        shapes.iter().try_for_each(|shape| self.shape(shape))
    }

    fn shape(&mut self, shape: &Shape) -> fmt::Result {
        match shape {
            Shape::Line { points, pen } => {
                write!(self.out, "<polyline points=\"")?;
                self.points(points.iter())?;
                write!(
                    self.out,
                    "\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
                    Hex(pen.colour),
                    Length(pen.width)
                )?;
                if let Some([dash, gap]) = pen.dashes {
                    write!(self.out, " stroke-dasharray=\"{} {}\"", Length(dash), Length(gap))?;
                }
                writeln!(self.out, "/>")
            }
            Shape::Area { upper, lower, colour, opacity } => {
                write!(self.out, "<polygon points=\"")?;
                self.points(upper.iter().chain(lower.iter().rev()))?;
                writeln!(self.out, "\" fill=\"{}\" fill-opacity=\"{}\"/>", Hex(*colour), Length(*opacity))
            }
            Shape::Circle { centre: [x, y], radius, colour, is_filled } => {
                let colour = Hex(*colour);
                write!(self.out, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", Length(*x), Length(*y), Length(*radius))?;
                if *is_filled {
                    writeln!(self.out, " fill=\"{colour}\"/>")
                } else {
                    writeln!(self.out, " fill=\"none\" stroke=\"{colour}\" stroke-width=\"1.5\"/>")
                }
            }
            Shape::Words(words) => self.words(words),
            Shape::Clipped { to: [left, top, right, bottom], shapes } => {
                self.clips += 1;
                let name = format!("clip-{}", self.clips);
                writeln!(
                    self.out,
                    "<clipPath id=\"{name}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>",
                    Length(*left),
                    Length(*top),
                    Length(right - left),
                    Length(bottom - top)
                )?;
                writeln!(self.out, "<g clip-path=\"url(#{name})\">")?;
                self.shapes(shapes)?;
                writeln!(self.out, "</g>")
            }
        }
    }

    fn points<'a>(&mut self, points: impl Iterator<Item = &'a [f64; 2]>) -> fmt::Result {
        for (place, [x, y]) in points.enumerate() {
            let blank = if place > 0 { " " } else { "" };
            write!(self.out, "{blank}{},{}", Length(*x), Length(*y))?;
        }
        Ok(())
    }

    fn words(&mut self, words: &Words) -> fmt::Result {
        if words.text.is_empty() {
            return Ok(());
        }
        let [x, y] = words.at.map(Length);
        write!(
            self.out,
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\" fill=\"{}\"",
            Length(words.size),
            Hex(words.colour)
        )?;
        match words.anchor {
            Anchor::Start => {}
            Anchor::Middle => write!(self.out, " text-anchor=\"middle\"")?,
            Anchor::End => write!(self.out, " text-anchor=\"end\"")?,
        }
        if words.is_bold {
            write!(self.out, " font-weight=\"bold\"")?;
        }
        if words.is_upright {
            write!(self.out, " transform=\"rotate(-90 {x} {y})\"")?;
        }
        writeln!(self.out, ">{}</text>", Escaped(&words.text))
    }
}

/// A place on the paper, to a hundredth of a point; for programs, so always with a point.
#[derive(Clone, Copy)]
struct Length(f64);

impl fmt::Display for Length {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A number that is none would make the whole file unreadable.
        let hundredths = if self.0.is_finite() { (self.0 * 100.0).round() } else { 0.0 };
        write!(out, "{}", hundredths / 100.0 + 0.0)
    }
}

struct Hex(Colour);

impl fmt::Display for Hex {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Colour([red, green, blue]) = self.0;
        write!(out, "#{red:02x}{green:02x}{blue:02x}")
    }
}

/// Text in which nothing is taken for a tag; what XML 1.0 does not allow at all becomes a blank.
struct Escaped<'a>(&'a str);

impl fmt::Display for Escaped<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for character in self.0.chars() {
            match character {
                '&' => out.write_str("&amp;")?,
                '<' => out.write_str("&lt;")?,
                '>' => out.write_str("&gt;")?,
                '"' => out.write_str("&quot;")?,
                '\u{fffe}' | '\u{ffff}' => out.write_char(' ')?,
                other if other.is_control() => out.write_char(' ')?,
                other => out.write_char(other)?,
            }
        }
        Ok(())
    }
}
