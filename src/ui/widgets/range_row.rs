//! Rows of values against their usual ranges.

use egui::{Rect, Response, Sense, Stroke, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::{paint, text};
use crate::ui::theme::{self, Palette, space};

/// One value and the range that is usual for it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RangeRow {
    /// What it is.
    pub label: String,
    /// The value; drawn as a marker where it is known.
    pub value: Option<f64>,
    /// The value as text; unknown where it is not known.
    pub value_text: String,
    /// The usual range.
    pub usual: Option<[f64; 2]>,
    /// The usual range as text.
    pub usual_text: String,
    /// The value in the pinned state; drawn as a hollow marker.
    pub pinned: Option<f64>,
    /// The value in the pinned state as text; empty where nothing is pinned.
    pub pinned_text: String,
}

impl RangeRow {
    /// Where the value stands; nothing is said without a value or a range.
    #[must_use]
    pub fn standing(&self) -> Option<Standing> {
        let (value, [low, high]) = (self.value?, self.usual?);
        Some(if value < low {
            Standing::Below
        } else if value > high {
            Standing::Above
        } else {
            Standing::Within
        })
    }

    /// What the track shows: the usual range in its middle, and the value if it is not too far off.
    fn scale(&self) -> Option<[f64; 2]> {
        // Room on either side of the usual range, as a multiple of its width.
        const ROOM: f64 = 1.6;
        const LEAST_WIDTH: f64 = 0.05;
        let [low, high] = self.usual?;
        // A range of a single value gets a scale as well.
        let room = ROOM * (high - low).max(LEAST_WIDTH * high.abs()).max(f64::MIN_POSITIVE);
        let (mut from, mut to) = (low - room, high + room);
        if low >= 0.0 && from < 0.0 {
            (from, to) = (0.0, to.max(2.0 * low));
        }
        for value in [self.value, self.pinned].into_iter().flatten() {
            from = from.min(value);
            to = to.max(value);
        }
        (from.is_finite() && to.is_finite() && to > from).then_some([from, to])
    }
}

/// Where a value stands against its usual range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Under it.
    Below,
    /// In it.
    Within,
    /// Over it.
    Above,
}

impl Standing {
    fn word(self) -> &'static str {
        match self {
            Self::Below => text::BELOW,
            Self::Within => text::WITHIN,
            Self::Above => text::ABOVE,
        }
    }
}

const ROW: f32 = 24.0;
/// What a pinned value under the value takes.
const PINNED: f32 = 13.0;
const GAP: f32 = 14.0;

/// Draws the rows with common columns over the available width; gives a response for each.
pub fn range_rows_ui(ui: &mut Ui, rows: &[RangeRow]) -> Vec<Response> {
    let palette = Palette::of(ui);
    let wide = f32::INFINITY;
    let measure = |ui: &Ui, text: &str, font| paint::one_line(ui, text, font, palette.text, wide).size().x;
    let widest = |widths: &mut dyn Iterator<Item = f32>| widths.fold(0.0_f32, f32::max).ceil();
    let label_width = widest(&mut rows.iter().map(|row| measure(ui, &row.label, theme::body())));
    let mark = paint::SWATCH + 4.0;
    let has_pinned = rows.iter().any(|row| !row.pinned_text.is_empty());
    let value_width = widest(&mut rows.iter().map(|row| measure(ui, &row.value_text, theme::body_bold())));
    let pinned_width = widest(&mut rows.iter().map(|row| mark + measure(ui, &row.pinned_text, theme::small())));
    let value_width = if has_pinned { value_width.max(pinned_width) } else { value_width };
    let height = if has_pinned { ROW + PINNED } else { ROW };
    let usual_width = widest(&mut rows.iter().map(|row| measure(ui, &row.usual_text, theme::body())));
    let width = ui.available_width();
    let track_width = (width - label_width - value_width - usual_width - 3.0 * GAP).max(40.0);

    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        rows.iter()
            .map(|row| {
                let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::focusable_noninteractive());
                let standing = row.standing().map_or("", Standing::word);
                let mut name = [row.label.as_str(), &row.value_text, &row.usual_text, standing].join(" ");
                if has_pinned {
                    name = format!("{}, pinned {}", name.trim(), row.pinned_text);
                }
                response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), name.trim()));
                if ui.is_rect_visible(rect) {
                    let track_left = rect.left() + label_width + GAP;
                    let track = Rect::from_min_size(pos2(track_left, rect.top()), vec2(track_width, ROW));
                    let value_right = track.right() + GAP + value_width;
                    row_ui(ui, row, rect, track, value_right);
                    paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 0.0)), space::FIELD_RADIUS);
                }
                response
            })
            .collect()
    })
    .inner
}

fn row_ui(ui: &Ui, row: &RangeRow, rect: Rect, track: Rect, value_right: f32) {
    let palette = Palette::of(ui);
    let is_off = matches!(row.standing(), Some(Standing::Below | Standing::Above));
    let value_colour = if is_off { palette.caution } else { palette.text };
    let label_width = track.left() - GAP - rect.left();
    let label = paint::one_line(ui, &row.label, theme::body(), palette.text, label_width.max(1.0));
    let (value_font, value_colour) = match row.value {
        Some(_) => (theme::body_bold(), value_colour),
        None => (theme::body(), palette.quiet),
    };
    let value = paint::one_line(ui, &row.value_text, value_font, value_colour, f32::INFINITY);
    let usual = paint::one_line(ui, &row.usual_text, theme::body(), palette.quiet, f32::INFINITY);
    let middle = track.center().y;
    let painter = ui.painter();
    let top = |galley: &egui::Galley| middle - galley.size().y / 2.0;
    painter.galley(pos2(rect.left(), top(&label)), label.clone(), palette.text);
    painter.galley(pos2(value_right - value.size().x, top(&value)), value.clone(), value_colour);
    painter.galley(pos2(rect.right() - usual.size().x, top(&usual)), usual.clone(), palette.quiet);

    if !row.pinned_text.is_empty() {
        let pinned = paint::one_line(ui, &row.pinned_text, theme::small(), palette.quiet, f32::INFINITY);
        let at = pos2(value_right - pinned.size().x, middle + 8.0);
        let centre = pos2(at.x - 4.0 - paint::SWATCH / 2.0, at.y + pinned.size().y / 2.0);
        paint::ghost_mark(painter, centre, palette.quiet);
        painter.galley(at, pinned, palette.quiet);
    }

    painter.hline(track.x_range(), middle, Stroke::new(1.0, palette.rule));
    let (Some([from, to]), Some([low, high])) = (row.scale(), row.usual) else { return };
    let x = |value: f64| track.left() + track.width() * narrow((value - from) / (to - from));
    // A range of a single value is still to be seen.
    let pill_width = (x(high) - x(low)).max(6.0);
    let pill_centre = pos2(f32::midpoint(x(low), x(high)), middle);
    painter.rect_filled(Rect::from_center_size(pill_centre, vec2(pill_width, 8.0)), 4, palette.window);
    if let Some(pinned) = row.pinned {
        let marker = Rect::from_center_size(pos2(x(pinned), middle), vec2(5.0, 16.0));
        paint::dashed_rect(painter, marker, Stroke::new(1.0, palette.quiet));
    }
    if let Some(value) = row.value {
        let marker = Rect::from_center_size(pos2(x(value), middle), vec2(3.0, 16.0));
        painter.rect_filled(marker.expand(1.0), 2, palette.card);
        painter.rect_filled(marker, 1, value_colour);
    }
}

#[expect(clippy::cast_possible_truncation, reason = "places on a screen need no more than f32")]
fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(value: f64, usual: [f64; 2]) -> RangeRow {
        RangeRow { value: Some(value), usual: Some(usual), ..RangeRow::default() }
    }

    #[test]
    fn a_value_on_the_edge_of_its_range_is_in_it() {
        assert_eq!(row(16.0, [16.0, 20.0]).standing(), Some(Standing::Within));
        assert_eq!(row(15.9, [16.0, 20.0]).standing(), Some(Standing::Below));
        assert_eq!(row(20.1, [16.0, 20.0]).standing(), Some(Standing::Above));
        assert_eq!(RangeRow::default().standing(), None);
    }

    #[test]
    fn the_scale_holds_range_and_value_and_does_not_go_below_zero() {
        for (value, usual) in [(19.9, [16.0, 20.0]), (90.0, [16.0, 20.0]), (0.0, [1.0, 8.0]), (5.0, [5.0, 5.0])] {
            let [from, to] = row(value, usual).scale().unwrap();
            assert!(from >= 0.0 && from <= value && from <= usual[0], "{value} in {usual:?}: {from}..{to}");
            assert!(to >= value && to >= usual[1], "{value} in {usual:?}: {from}..{to}");
        }
        assert_eq!(row(f64::NAN, [f64::NAN, 1.0]).scale(), None);
    }
}
