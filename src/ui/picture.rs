//! A drawing as a picture: PNG, twice as many points as on the screen, on white paper.
//!
//! The toolkit lays out the words and turns lines into triangles, as it does for the window; the triangles are filled
//! here. So a picture needs neither a window nor a graphics driver, it does not depend on colours, size and scroll
//! place of the window, nothing can stand in front of it, and it shows the same as the SVG.

use egui::epaint::{Primitive, Vertex, WHITE_UV};
use egui::{Color32, ColorImage, Context, FontFamily, FontId, ImageData, Mesh, Painter, Pos2, Rect, pos2};

use super::theme;
use crate::report::drawing::{Anchor, Colour, Drawing, Pen, Shape, Words};

/// Pixels per point: sharp in print at half the size, and on screens of high density.
const SCALE: f32 = 2.0;

/// Pixels per metre at which the picture has the size of the drawing, at 96 points an inch as the web has it.
const PIXELS_PER_METRE: u32 = 7559;

/// The bytes of a PNG file.
///
/// # Errors
///
/// A sentence, if the picture cannot be encoded.
pub fn png(drawing: &Drawing) -> Result<Vec<u8>, String> {
    let image = draw(drawing);
    encode(&image, drawing).map_err(|error| format!("The picture cannot be made ({error}); save as SVG instead"))
}

fn encode(image: &ColorImage, drawing: &Drawing) -> Result<Vec<u8>, png::EncodingError> {
    let [width, height] = image.size.map(|size| u32::try_from(size).unwrap_or(u32::MAX));
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: PIXELS_PER_METRE,
        yppu: PIXELS_PER_METRE,
        unit: png::Unit::Meter,
    }));
    encoder.add_itxt_chunk("Title".to_owned(), drawing.title.clone())?;
    encoder.add_itxt_chunk("Description".to_owned(), drawing.in_words.clone())?;
    let mut writer = encoder.write_header()?;
    // The paper is white and covers everything: no pixel can be seen through.
    let rgb: Vec<u8> = image.pixels.iter().flat_map(|pixel| [pixel.r(), pixel.g(), pixel.b()]).collect();
    writer.write_image_data(&rgb)?;
    writer.finish()?;
    Ok(bytes)
}

/// The pixels.
fn draw(drawing: &Drawing) -> ColorImage {
    let size = drawing.size.map(place);
    // A context of its own: the window's may be dark, or enlarged.
    let ctx = Context::default();
    theme::install(&ctx);
    theme::choose(&ctx, theme::ThemeChoice::Light);
    let paper = Rect::from_min_size(Pos2::ZERO, size.into());
    let mut input = egui::RawInput { screen_rect: Some(paper), ..egui::RawInput::default() };
    if let Some(viewport) = input.viewports.get_mut(&egui::ViewportId::ROOT) {
        viewport.native_pixels_per_point = Some(SCALE);
    }
    let mut output = ctx.run_ui(input, |ui| {
        let painter = ui.painter().with_clip_rect(paper);
        for shape in &drawing.shapes {
            paint(&painter, shape);
        }
    });
    // Only letters have a texture, and all of them have the same.
    let mut letters = ColorImage::filled([1, 1], Color32::WHITE);
    for delta in output.textures_delta.set.get(&egui::TextureId::default()).into_iter().flatten() {
        let ImageData::Color(image) = &delta.image;
        match delta.pos {
            None => letters = image.as_ref().clone(),
            Some([left, top]) => copy(image, &mut letters, left, top),
        }
    }
    // The toolkit insists on being told that they have been taken care of.
    output.textures_delta.clear();
    let mut canvas = Canvas::new(size);
    for primitive in ctx.tessellate(output.shapes, output.pixels_per_point) {
        if let Primitive::Mesh(mesh) = &primitive.primitive {
            canvas.fill(mesh, primitive.clip_rect, &letters);
        }
    }
    canvas.image
}

fn copy(from: &ColorImage, to: &mut ColorImage, left: usize, top: usize) {
    for y in 0..from.height() {
        for x in 0..from.width() {
            if left + x < to.width() && top + y < to.height() {
                to[(left + x, top + y)] = from[(x, y)];
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a place on the paper")]
fn place(length: f64) -> f32 {
    length as f32
}

fn point([x, y]: [f64; 2]) -> Pos2 {
    pos2(place(x), place(y))
}

fn colour(Colour([red, green, blue]): Colour) -> Color32 {
    Color32::from_rgb(red, green, blue)
}

fn paint(painter: &Painter, shape: &Shape) {
    match shape {
        Shape::Line { points, pen } => {
            let points: Vec<Pos2> = points.iter().copied().map(point).collect();
            line(painter, points, *pen);
        }
        Shape::Area { upper, lower, colour: fill, opacity } => {
            let mut mesh = Mesh::default();
            let fill = colour(*fill).gamma_multiply(place(*opacity));
            for (upper, lower) in upper.iter().zip(lower) {
                let next = u32::try_from(mesh.vertices.len()).unwrap_or(0);
                mesh.colored_vertex(point(*upper), fill);
                mesh.colored_vertex(point(*lower), fill);
                if next > 0 {
                    mesh.add_triangle(next - 2, next - 1, next);
                    mesh.add_triangle(next - 1, next, next + 1);
                }
            }
            painter.add(mesh);
        }
        Shape::Circle { centre, radius, colour: of, is_filled: true } => {
            painter.circle_filled(point(*centre), place(*radius), colour(*of));
        }
        Shape::Circle { centre, radius, colour: of, is_filled: false } => {
            painter.circle_stroke(point(*centre), place(*radius), egui::Stroke::new(1.5, colour(*of)));
        }
        Shape::Words(words) => write(painter, words),
        Shape::Clipped { to: [left, top, right, bottom], shapes } => {
            let painter = painter.with_clip_rect(Rect::from_min_max(point([*left, *top]), point([*right, *bottom])));
            for shape in shapes {
                paint(&painter, shape);
            }
        }
    }
}

fn line(painter: &Painter, points: Vec<Pos2>, pen: Pen) {
    let stroke = egui::Stroke::new(place(pen.width), colour(pen.colour));
    match pen.dashes {
        None => {
            painter.add(egui::Shape::line(points, stroke));
        }
        Some([dash, gap]) => {
            painter.extend(egui::Shape::dashed_line(&points, stroke, place(dash), place(gap)));
        }
    }
}

fn write(painter: &Painter, words: &Words) {
    let family = if words.is_bold { theme::bold() } else { FontFamily::Proportional };
    let of = colour(words.colour);
    let galley = painter.layout_no_wrap(words.text.clone(), FontId::new(place(words.size), family), of);
    let line = galley.rows.first().and_then(|row| Some(row.pos.y + row.glyphs.first()?.pos.y)).unwrap_or(0.0);
    // The window draws its font lower than it is laid out.
    let base = line + theme::LATO_SHIFT * place(words.size);
    let back = galley.size().x
        * match words.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5,
            Anchor::End => 1.0,
        };
    let at = point(words.at);
    if words.is_upright {
        let turned = egui::epaint::TextShape::new(pos2(at.x - base, at.y + back), galley, of);
        painter.add(turned.with_angle(-std::f32::consts::FRAC_PI_2));
    } else {
        painter.galley(pos2(at.x - back, at.y - base), galley, of);
    }
}

/// White paper that triangles are filled on.
struct Canvas {
    image: ColorImage,
}

impl Canvas {
    fn new(size: [f32; 2]) -> Self {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few thousand pixels")]
        let size = size.map(|length| (length * SCALE).ceil().max(1.0) as usize);
        Self { image: ColorImage::filled(size, Color32::WHITE) }
    }

    fn fill(&mut self, mesh: &Mesh, clip: Rect, letters: &ColorImage) {
        let clip = (clip * SCALE).intersect(Rect::from_min_size(Pos2::ZERO, self.image_size().into()));
        for corners in mesh.indices.chunks_exact(3) {
            let vertex = |place: usize| mesh.vertices.get(corners[place] as usize).copied();
            if let (Some(a), Some(b), Some(c)) = (vertex(0), vertex(1), vertex(2)) {
                self.triangle([a, b, c], clip, letters);
            }
        }
    }

    fn image_size(&self) -> [f32; 2] {
        #[expect(clippy::cast_precision_loss, reason = "a few thousand pixels")]
        self.image.size.map(|size| size as f32)
    }

    /// Fills a triangle: a pixel belongs to it if its middle does, and where two triangles meet it belongs to one.
    fn triangle(&mut self, mut corners: [Vertex; 3], clip: Rect, letters: &ColorImage) {
        for corner in &mut corners {
            corner.pos = (corner.pos.to_vec2() * SCALE).to_pos2();
        }
        if edge(corners[0].pos, corners[1].pos, corners[2].pos) < 0.0 {
            corners.swap(1, 2);
        }
        let [a, b, c] = corners;
        let area = edge(a.pos, b.pos, c.pos);
        let around = Rect::from_points(&[a.pos, b.pos, c.pos]).intersect(clip);
        if area <= 0.0 || !area.is_finite() || !around.is_positive() {
            return;
        }
        let is_plain = corners.iter().all(|corner| corner.uv == WHITE_UV);
        let is_even = is_plain && a.color == b.color && a.color == c.color;
        let sides = [(b.pos, c.pos), (c.pos, a.pos), (a.pos, b.pos)];
        for y in pixels(around.top(), around.bottom()) {
            for x in pixels(around.left(), around.right()) {
                let middle = pos2(middle_of(x), middle_of(y));
                let weights = sides.map(|(from, to)| edge(from, to, middle));
                let is_inside = weights
                    .iter()
                    .zip(sides)
                    .all(|(weight, (from, to))| *weight > 0.0 || (*weight == 0.0 && is_top_or_left(from, to)));
                if !is_inside {
                    continue;
                }
                let colour = if is_even {
                    a.color
                } else {
                    let weights = weights.map(|weight| weight / area);
                    let colour = mixed(&corners.map(|corner| corner.color), &weights);
                    if is_plain { colour } else { tinted(colour, letter_at(letters, &corners, &weights)) }
                };
                let pixel = &mut self.image[(x, y)];
                *pixel = pixel.blend(colour);
            }
        }
    }
}

/// Twice the area of the triangle, positive if the third point lies at the right of the way from first to second.
fn edge(from: Pos2, to: Pos2, point: Pos2) -> f32 {
    (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x)
}

/// Of the sides of a triangle that runs to the right: the level one at the top, and those that go up.
fn is_top_or_left(from: Pos2, to: Pos2) -> bool {
    to.y < from.y || (to.y == from.y && to.x > from.x)
}

/// The pixels whose middle can lie between two places.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "inside the picture, so not negative")]
fn pixels(from: f32, to: f32) -> std::ops::Range<usize> {
    (from - 0.5).ceil().max(0.0) as usize..(to + 0.5).floor().max(0.0) as usize
}

#[expect(clippy::cast_precision_loss, reason = "a few thousand pixels")]
fn middle_of(pixel: usize) -> f32 {
    pixel as f32 + 0.5
}

/// Colours by their weights; they are premultiplied, so they can be added up.
fn mixed(colours: &[Color32], weights: &[f32]) -> Color32 {
    let mut sum = [0.0_f32; 4];
    for (colour, weight) in colours.iter().zip(weights) {
        for (sum, part) in sum.iter_mut().zip(colour.to_array()) {
            *sum += f32::from(part) * weight;
        }
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 0 and 255")]
    let [red, green, blue, alpha] = sum.map(|part| part.round().clamp(0.0, 255.0) as u8);
    Color32::from_rgba_premultiplied(red, green, blue, alpha)
}

/// A colour through a mask.
fn tinted(colour: Color32, mask: Color32) -> Color32 {
    colour * mask
}

/// The mask of the letters at a place of a triangle, between its four neighbours.
fn letter_at(letters: &ColorImage, corners: &[Vertex; 3], weights: &[f32; 3]) -> Color32 {
    #[expect(clippy::cast_precision_loss, reason = "a few thousand pixels")]
    let size = letters.size.map(|size| size as f32);
    let along = |of: fn(&Vertex) -> f32| corners.iter().zip(weights).map(|(corner, weight)| of(corner) * weight).sum();
    let (u, v): (f32, f32) = (along(|corner| corner.uv.x), along(|corner| corner.uv.y));
    let (x, y) = ((u * size[0] - 0.5).max(0.0), (v * size[1] - 0.5).max(0.0));
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held inside the texture")]
    let (left, top) = ((x as usize).min(letters.width() - 1), (y as usize).min(letters.height() - 1));
    let (right, bottom) = ((left + 1).min(letters.width() - 1), (top + 1).min(letters.height() - 1));
    let (dx, dy) = (x.fract(), y.fract());
    mixed(
        &[letters[(left, top)], letters[(right, top)], letters[(left, bottom)], letters[(right, bottom)]],
        &[(1.0 - dx) * (1.0 - dy), dx * (1.0 - dy), (1.0 - dx) * dy, dx * dy],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const INK: Colour = Colour([0x10, 0x20, 0x30]);

    fn drawing(shapes: Vec<Shape>) -> Drawing {
        Drawing { size: [40.0, 30.0], title: "Ganache – plot".to_owned(), in_words: "44 %".to_owned(), shapes }
    }

    fn area([left, top, right, bottom]: [f64; 4], opacity: f64) -> Shape {
        Shape::Area {
            upper: vec![[left, top], [right, top]],
            lower: vec![[left, bottom], [right, bottom]],
            colour: INK,
            opacity,
        }
    }

    fn words(text: &str, is_upright: bool) -> Shape {
        Shape::Words(Words {
            text: text.to_owned(),
            at: [20.0, 20.0],
            anchor: Anchor::Middle,
            size: 13.0,
            is_bold: false,
            colour: INK,
            is_upright,
        })
    }

    /// Left, top, right and bottom of what is not white, in points.
    fn extent(image: &ColorImage) -> [f32; 4] {
        let mut extent = Rect::NOTHING;
        for y in 0..image.height() {
            for x in 0..image.width() {
                if image[(x, y)] != Color32::WHITE {
                    extent.extend_with(pos2(middle_of(x), middle_of(y)));
                }
            }
        }
        [extent.left(), extent.top(), extent.right(), extent.bottom()].map(|place| place / SCALE)
    }

    #[test]
    fn a_picture_has_two_pixels_a_point_and_the_colours_of_the_drawing() {
        let bytes = png(&drawing(vec![area([10.0, 5.0, 20.0, 25.0], 1.0)])).expect("a picture");
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().expect("a PNG");
        let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
        reader.next_frame(&mut pixels).expect("a frame");
        let info = reader.info();
        assert_eq!((info.width, info.height, info.color_type), (80, 60, png::ColorType::Rgb));
        let texts: Vec<String> = info.utf8_text.iter().map(|chunk| chunk.get_text().expect("a text")).collect();
        assert_eq!(texts, ["Ganache – plot", "44 %"]);
        let pixel = |x: usize, y: usize| &pixels[3 * (80 * y + x)..][..3];
        for (x, y, expected) in [(20, 10, INK.0), (39, 49, INK.0), (19, 10, [0xFF; 3]), (40, 49, [0xFF; 3])] {
            assert_eq!(pixel(x, y), expected, "{x}, {y}");
        }
    }

    /// By hand: half of 0x10 on white is 0x88, within the rounding of half an alpha.
    #[test]
    fn what_can_be_seen_through_is_blended_once_also_where_triangles_meet() {
        let image = draw(&drawing(vec![area([0.0, 0.0, 40.0, 30.0], 0.5)]));
        let first = image[(0, 0)];
        assert!(first.r().abs_diff(0x88) <= 1, "{first:?}");
        assert!(image.pixels.iter().all(|pixel| *pixel == first), "a seam between two triangles");
    }

    #[test]
    fn words_stand_on_their_base_line_around_their_anchor() {
        let [left, top, right, bottom] = extent(&draw(&drawing(vec![words("HH", false)])));
        assert!((f32::midpoint(left, right) - 20.0).abs() < 1.0, "{left} to {right}");
        assert!((bottom - 20.0).abs() < 1.0 && (top - (20.0 - 0.72 * 13.0)).abs() < 1.5, "{top} to {bottom}");
        let turned = extent(&draw(&drawing(vec![words("HH", true)])));
        assert!((turned[2] - 20.0).abs() < 1.0, "the base line is at the right: {turned:?}");
        assert!((turned[3] - turned[1] - (right - left)).abs() < 1.0, "{turned:?}");
    }

    #[test]
    fn what_is_clipped_ends_at_its_rectangle() {
        let inside = vec![area([0.0, 0.0, 40.0, 30.0], 1.0)];
        let image = draw(&drawing(vec![Shape::Clipped { to: [10.0, 5.0, 20.0, 15.0], shapes: inside }]));
        assert_eq!(extent(&image), [10.25, 5.25, 19.75, 14.75]);
    }

    #[test]
    fn dashes_leave_gaps() {
        let pen = Pen { colour: INK, width: 2.0, dashes: Some([4.0, 4.0]) };
        let image = draw(&drawing(vec![Shape::Line { points: vec![[0.0, 15.0], [40.0, 15.0]], pen }]));
        let is_ink = |x: usize| image[(2 * x, 30)] != Color32::WHITE;
        assert!(is_ink(2) && !is_ink(6) && is_ink(10) && !is_ink(14));
    }
}
