//! A horizontal bar of segments: a whole and what it consists of.
//!
//! A segment carries its word where it fits, a shorter one where that fits, and none where neither does; the hover text
//! always has all of it.
//! Crystallised fat is hatched, so that it differs from liquid fat by more than colour.

use std::sync::Arc;

use egui::{
    Color32, CornerRadius, EventFilter, FontId, Galley, Id, Key, Modifiers, Pos2, Rangef, Rect, Response, Sense,
    Stroke, Tooltip, Ui, WidgetInfo, accesskit::Role, pos2, vec2,
};

use super::explain::{arrive, is_attended_by_keys};
use super::paint;
use crate::ui::theme::{self, Hue, Palette, space};

/// How a segment is filled.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pattern {
    /// Colour alone.
    #[default]
    Plain,
    /// Diagonal lines over the colour.
    Hatched,
}

/// One part of the whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Segment {
    /// What stands on it, and its name.
    pub label: String,
    /// What stands on it where the label does not fit.
    pub short: Option<String>,
    /// What the hover text says besides the label.
    pub detail: Option<String>,
    /// Its part, in the unit of the bar's total; nothing is drawn unless it is above zero.
    pub share: f64,
    /// Its colour.
    pub fill: Color32,
    /// The colour of its text and hatching.
    pub text: Color32,
    /// Its pattern.
    pub pattern: Pattern,
}

impl Segment {
    /// A plain segment in the colours of a group.
    #[must_use]
    pub fn new(label: impl Into<String>, share: f64, hue: Hue) -> Self {
        let (fill, text) = (hue.fill(), hue.text());
        Self { label: label.into(), short: None, detail: None, share, fill, text, pattern: Pattern::Plain }
    }

    /// With a word for where the label does not fit.
    #[must_use]
    pub fn short(mut self, short: impl Into<String>) -> Self {
        self.short = Some(short.into());
        self
    }

    /// With a line for the hover text.
    #[must_use]
    pub fn detail(mut self, detail: impl Into<String>) -> Self {
        self.detail = Some(detail.into());
        self
    }

    /// Crystallised.
    #[must_use]
    pub fn hatched(mut self) -> Self {
        self.pattern = Pattern::Hatched;
        self
    }
}

/// The bar.
#[derive(Clone, Debug)]
#[must_use = "call `ui` to show it"]
pub struct SegmentBar<'a> {
    name: &'a str,
    segments: &'a [Segment],
    total: Option<f64>,
    ghost: Option<&'a [f64]>,
    lit: Option<&'a [f64]>,
    highlighted: Option<usize>,
    height: f32,
    font: FontId,
}

/// What a bar answers.
#[derive(Debug)]
pub struct SegmentBarOutput {
    /// The bar as a whole.
    pub response: Response,
    /// The segment that is pointed at.
    pub hovered: Option<usize>,
    /// The segments that had no room for a word.
    pub unlabelled: Vec<usize>,
    /// Where each segment was drawn; empty where it has no share.
    pub rects: Vec<Rect>,
}

impl<'a> SegmentBar<'a> {
    /// Height of the strip that shows the pinned state under a bar of several segments.
    const GHOST_HEIGHT: f32 = 6.0;
    const GHOST_GAP: f32 = 3.0;
    const LEAST_HEIGHT_OF_LABELS: f32 = 20.0;
    const LABEL_PADDING: f32 = 8.0;
    /// What is left of it before a label gives way to a shorter one.
    const LEAST_LABEL_PADDING: f32 = 4.0;
    const LIT_HEIGHT: f32 = 3.0;

    /// A bar over the whole width; `name` says of what it is.
    pub fn new(name: &'a str, segments: &'a [Segment]) -> Self {
        Self {
            name,
            segments,
            total: None,
            ghost: None,
            lit: None,
            highlighted: None,
            height: 40.0,
            font: theme::small_bold(),
        }
    }

    /// The amount that the whole width stands for, so that bars can be compared; the sum of the segments if not called.
    pub fn total(mut self, total: f64) -> Self {
        self.total = Some(total);
        self
    }

    /// The same shares in the pinned state: a dashed outline around a single segment, a strip under several.
    pub fn ghost(mut self, shares: Option<&'a [f64]>) -> Self {
        self.ghost = shares;
        self
    }

    /// The part of each segment that the line pointed at brings.
    pub fn lit(mut self, shares: Option<&'a [f64]>) -> Self {
        self.lit = shares;
        self
    }

    /// The segment that is pointed at elsewhere; the others step back.
    pub fn highlighted(mut self, idx: Option<usize>) -> Self {
        self.highlighted = idx;
        self
    }

    /// Its height in points; labels need 20.
    pub fn height(mut self, height: f32) -> Self {
        self.height = height;
        self
    }

    /// Draws the bar over the available width.
    pub fn ui(self, ui: &mut Ui) -> SegmentBarOutput {
        self.show(ui, false, |_, _| {})
    }

    /// Draws the bar over the available width; the segment that is pointed at says more than its label.
    ///
    /// It is one stop for the Tab key; the arrow keys to the left and right go from segment to segment.
    pub fn ui_with(self, ui: &mut Ui, more: impl FnOnce(&mut Ui, usize)) -> SegmentBarOutput {
        self.show(ui, true, more)
    }

    fn show(self, ui: &mut Ui, is_stop: bool, more: impl FnOnce(&mut Ui, usize)) -> SegmentBarOutput {
        let has_strip = self.ghost.is_some() && self.segments.len() > 1;
        let strip = if has_strip { Self::GHOST_GAP + Self::GHOST_HEIGHT } else { 0.0 };
        let size = vec2(ui.available_width(), self.height + strip);
        let sense = if is_stop { Sense::focusable_noninteractive() } else { Sense::hover() };
        let (area, response) = ui.allocate_exact_size(size, sense);
        arrive(&response);
        let bar = Rect::from_min_size(area.min, vec2(area.width(), self.height));
        let shares: Vec<f64> = self.segments.iter().map(|segment| segment.share).collect();
        let total = self.total.unwrap_or_else(|| sum(&shares).max(self.ghost.map_or(0.0, sum)));
        let rects = split(bar, &shares, total);
        let by_keys = if is_attended_by_keys(&response) { chosen_by_keys(ui, response.id, &rects) } else { None };
        let hovered = by_keys.or_else(|| response.hover_pos().and_then(|pointer| at(&rects, bar, pointer)));
        response.widget_info(|| WidgetInfo::labeled(Role::Label, ui.is_enabled(), self.words()));

        let labels: Vec<Option<Arc<Galley>>> =
            self.segments.iter().zip(&rects).map(|(segment, rect)| self.label_of(ui, segment, *rect)).collect();
        let is_unlabelled = |idx: &usize| {
            self.segments.get(*idx).is_some_and(|segment| segment.share > 0.0)
                && labels.get(*idx).is_some_and(Option::is_none)
        };
        let unlabelled = (0..self.segments.len()).filter(is_unlabelled).collect();
        if ui.is_rect_visible(area) {
            let emphasised = hovered.or(self.highlighted);
            let first = rects.iter().position(Rect::is_positive);
            let last = rects.iter().rposition(Rect::is_positive);
            for (idx, ((segment, rect), label)) in self.segments.iter().zip(&rects).zip(&labels).enumerate() {
                if !rect.is_positive() {
                    continue;
                }
                let corners = self.corners(Some(idx) == first, Some(idx) == last);
                let is_back = emphasised.is_some_and(|emphasised| emphasised != idx);
                Self::segment_ui(ui, (segment, label.as_ref()), *rect, corners, is_back);
                let lit = self.lit.and_then(|lit| lit.get(idx)).copied().unwrap_or(0.0);
                self.lit_ui(ui, segment, *rect, lit);
            }
            self.ghost_ui(ui, area, bar, total);
            paint::focus_ring(ui, &response, area.expand(2.0), space::FIELD_RADIUS);
        }
        if let Some((idx, segment)) = hovered.and_then(|idx| Some((idx, self.segments.get(idx)?))) {
            let tooltip = match (by_keys, rects.get(idx)) {
                (Some(_), Some(rect)) if response.interact_rect.is_positive() => {
                    let mut tooltip = Tooltip::for_widget(&response);
                    tooltip.popup = tooltip.popup.anchor(*rect);
                    Some(tooltip)
                }
                (Some(_), _) => None,
                (None, _) => Some(Tooltip::for_enabled(&response).at_pointer().gap(12.0)),
            };
            if let Some(tooltip) = tooltip {
                tooltip.show(|ui| {
                    ui.label(theme::strong(&segment.label));
                    if let Some(detail) = &segment.detail {
                        ui.label(detail);
                    }
                    more(ui, idx);
                });
            }
        }
        SegmentBarOutput { response, hovered, unlabelled, rects }
    }

    fn corners(&self, is_first: bool, is_last: bool) -> CornerRadius {
        let radius = if self.height < 20.0 { space::MARK_RADIUS } else { space::FIELD_RADIUS };
        let end = |is_end: bool| if is_end { radius } else { 0 };
        CornerRadius { nw: end(is_first), sw: end(is_first), ne: end(is_last), se: end(is_last) }
    }

    fn segment_ui(
        ui: &Ui,
        (segment, label): (&Segment, Option<&Arc<Galley>>),
        rect: Rect,
        corners: CornerRadius,
        is_back: bool,
    ) {
        let palette = Palette::of(ui);
        // Stepping back keeps the hue; the text on it would lose its contrast and is left out.
        let fill = if is_back { segment.fill.lerp_to_gamma(palette.card, 0.6) } else { segment.fill };
        ui.painter().rect_filled(rect, corners, fill);
        if segment.pattern == Pattern::Hatched {
            let colour = segment.text.gamma_multiply(if is_back { 0.15 } else { 0.4 });
            hatch(ui, rect, f32::from(corners.nw), f32::from(corners.ne), colour);
        }
        if is_back {
            return;
        }
        let Some(galley) = label else { return };
        let padding = Self::LABEL_PADDING.min((rect.width() - galley.size().x) / 2.0);
        let at = pos2(rect.left() + padding, rect.center().y - galley.size().y / 2.0);
        if segment.pattern == Pattern::Hatched {
            let ground = Rect::from_min_size(at, galley.size()).expand2(vec2(4.0, 1.0));
            ui.painter().rect_filled(ground, space::MARK_RADIUS, fill);
        }
        ui.painter().galley(at, Arc::clone(galley), segment.text);
    }

    /// The longest of a segment's words that fits into it.
    fn label_of(&self, ui: &Ui, segment: &Segment, rect: Rect) -> Option<Arc<Galley>> {
        // Thin bars carry no words.
        if self.height < Self::LEAST_HEIGHT_OF_LABELS {
            return None;
        }
        let room = rect.width() - 2.0 * Self::LEAST_LABEL_PADDING;
        [Some(&segment.label), segment.short.as_ref()].into_iter().flatten().find_map(|word| {
            let galley = paint::one_line(ui, word, self.font.clone(), segment.text, f32::INFINITY);
            (galley.size().x <= room).then_some(galley)
        })
    }

    fn lit_ui(&self, ui: &Ui, segment: &Segment, rect: Rect, lit: f64) {
        if segment.share > 0.0 && lit > 0.0 && rect.width() > 4.0 * Self::LIT_HEIGHT {
            let inset = if self.height < 20.0 { 2.0 } else { 4.0 };
            let room = (rect.width() - 2.0 * inset).max(1.0);
            let width = room * narrow((lit / segment.share).min(1.0));
            let corner = pos2(rect.center().x - room / 2.0, rect.bottom() - inset - Self::LIT_HEIGHT);
            let mark = Rect::from_min_size(corner, vec2(width, Self::LIT_HEIGHT));
            ui.painter().rect_filled(mark, 1, segment.text);
        }
    }

    fn ghost_ui(&self, ui: &Ui, area: Rect, bar: Rect, total: f64) {
        let Some(ghost) = self.ghost else { return };
        let palette = Palette::of(ui);
        let stroke = Stroke::new(1.0, palette.quiet);
        if self.segments.len() <= 1 {
            if let Some(rect) = split(bar, ghost, total).first().filter(|rect| rect.is_positive()) {
                paint::dashed_rect(ui.painter(), rect.expand(2.5), stroke);
            }
            return;
        }
        let strip = Rect::from_min_max(pos2(area.left(), area.bottom() - Self::GHOST_HEIGHT), area.max);
        for (segment, rect) in self.segments.iter().zip(split(strip, ghost, total)) {
            if rect.is_positive() {
                let fill = segment.fill.lerp_to_gamma(palette.card, 0.55);
                ui.painter().rect_filled(rect.shrink2(vec2(0.0, 0.5)), 0, fill);
                paint::dashed_rect(ui.painter(), rect.shrink(0.5), stroke);
            }
        }
    }

    fn words(&self) -> String {
        let parts: Vec<&str> =
            self.segments.iter().filter(|segment| segment.share > 0.0).map(|segment| segment.label.as_str()).collect();
        format!("{}: {}", self.name, parts.join(", "))
    }
}

/// The segment that the arrow keys have come to, in a bar that has the keyboard; at first the one at the left.
fn chosen_by_keys(ui: &Ui, bar: Id, rects: &[Rect]) -> Option<usize> {
    let there: Vec<usize> = (0..rects.len()).filter(|idx| rects[*idx].is_positive()).collect();
    let filter = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(bar, filter));
    let id = bar.with("segment");
    let before: usize = ui.data(|data| data.get_temp(id)).unwrap_or(0);
    let (left, right) = ui.input_mut(|input| {
        (input.consume_key(Modifiers::NONE, Key::ArrowLeft), input.consume_key(Modifiers::NONE, Key::ArrowRight))
    });
    let mut place = there.iter().position(|idx| *idx >= before).unwrap_or(there.len().saturating_sub(1));
    if left {
        place = place.saturating_sub(1);
    }
    if right {
        place = (place + 1).min(there.len().saturating_sub(1));
    }
    let chosen = there.get(place).copied()?;
    if chosen != before {
        ui.data_mut(|data| data.insert_temp(id, chosen));
    }
    Some(chosen)
}

/// A segment as an entry of a legend: its colour and pattern, its word, and what it was when pinned.
pub fn legend_entry(ui: &mut Ui, segment: &Segment, pinned: Option<&str>) -> Response {
    const GAP: f32 = 5.0;
    let palette = Palette::of(ui);
    let galley = paint::one_line(ui, &segment.label, theme::small(), palette.text, f32::INFINITY);
    let before = pinned.map(|pinned| paint::one_line(ui, pinned, theme::small(), palette.quiet, f32::INFINITY));
    let before_width = before.as_ref().map_or(0.0, |before| GAP + paint::SWATCH + 3.0 + before.size().x);
    let width = paint::SWATCH + GAP + galley.size().x + before_width + GAP;
    let (rect, response) = ui.allocate_exact_size(vec2(width, galley.size().y), Sense::hover());
    response.widget_info(|| {
        let pinned = pinned.map(|pinned| format!(", pinned {pinned}")).unwrap_or_default();
        WidgetInfo::labeled(Role::Label, true, format!("{}{pinned}", segment.label))
    });
    let painter = ui.painter();
    let middle = rect.center().y;
    let square =
        Rect::from_center_size(pos2(rect.left() + paint::SWATCH / 2.0, middle), egui::Vec2::splat(paint::SWATCH));
    paint::swatch(painter, pos2(rect.left(), middle), segment.fill);
    if segment.pattern == Pattern::Hatched {
        let stroke = Stroke::new(1.2, segment.text.gamma_multiply(0.6));
        for offset in [-3.5, 0.0, 3.5] {
            let ends =
                [pos2(square.left() + 2.0, square.bottom() - 2.0), pos2(square.right() - 2.0, square.top() + 2.0)];
            let ends = ends.map(|end| square.clamp(end + vec2(offset, offset / 2.0)));
            painter.line_segment(ends, stroke);
        }
    }
    let mut left = rect.left() + paint::SWATCH + GAP;
    let words_width = galley.size().x;
    painter.galley(pos2(left, rect.top()), galley, palette.text);
    if let Some(before) = before {
        left += words_width + GAP;
        paint::ghost_mark(painter, pos2(left + paint::SWATCH / 2.0, middle), palette.quiet);
        painter.galley(pos2(left + paint::SWATCH + 3.0, rect.top()), before, palette.quiet);
    }
    response
}

fn sum(shares: &[f64]) -> f64 {
    shares.iter().copied().filter(|share| *share > 0.0).sum()
}

/// The bar cut into its shares, from the left; [`Rect::NOTHING`] for what has none.
fn split(bar: Rect, shares: &[f64], total: f64) -> Vec<Rect> {
    let mut before = 0.0;
    let x = |amount: f64| bar.left() + bar.width() * narrow((amount / total).min(1.0));
    shares
        .iter()
        .map(|share| {
            // Not a number counts as none.
            if !(*share > 0.0 && total > 0.0) {
                return Rect::NOTHING;
            }
            let left = x(before);
            before += share;
            Rect::from_x_y_ranges(Rangef::new(left, x(before)), bar.y_range())
        })
        .collect()
}

/// The segment at the pointer; the last thin ones are hard to hit, so their neighbour's edge belongs to them.
fn at(rects: &[Rect], bar: Rect, pointer: Pos2) -> Option<usize> {
    const REACH: f32 = 3.0;
    let is_thin = |rect: &Rect| rect.is_positive() && rect.width() < 2.0 * REACH;
    let thin = rects.iter().position(|rect| is_thin(rect) && (rect.center().x - pointer.x).abs() <= REACH);
    let plain = || rects.iter().position(|rect| rect.is_positive() && rect.x_range().contains(pointer.x));
    if bar.y_range().contains(pointer.y) { thin.or_else(plain) } else { None }
}

/// Diagonal lines inside a rectangle whose left and right ends are rounded.
fn hatch(ui: &Ui, rect: Rect, left_radius: f32, right_radius: f32, colour: Color32) {
    const SPACING: f32 = 7.0;
    const STEP: f32 = 0.5;
    let stroke = Stroke::new(1.6, colour);
    let is_inside = |point: Pos2| {
        if !rect.contains(point) {
            return false;
        }
        let corner = |radius: f32, x: f32| {
            let y = point.y.clamp(rect.top() + radius, rect.bottom() - radius);
            (point - pos2(x, y)).length() <= radius
        };
        if point.x < rect.left() + left_radius {
            corner(left_radius, rect.left() + left_radius)
        } else if point.x > rect.right() - right_radius {
            corner(right_radius, rect.right() - right_radius)
        } else {
            true
        }
    };
    let height = rect.height();
    let inwards = vec2(STEP, -STEP);
    let mut x = rect.left() - height + SPACING / 2.0;
    while x < rect.right() {
        // From the lower left to the upper right, both ends drawn in until they are inside.
        let start_in = (rect.left() - x).max(0.0);
        let end_in = (x + height - rect.right()).max(0.0);
        let mut start = pos2(x + start_in, rect.bottom() - start_in);
        let mut end = pos2(x + height - end_in, rect.top() + end_in);
        while start.x < end.x && !is_inside(start) {
            start += inwards;
        }
        while start.x < end.x && !is_inside(end) {
            end -= inwards;
        }
        if end.x - start.x > 1.0 {
            ui.painter().line_segment([start, end], stroke);
        }
        x += SPACING;
    }
}

#[expect(clippy::cast_possible_truncation, reason = "places on a screen need no more than f32")]
fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar() -> Rect {
        Rect::from_min_size(pos2(10.0, 0.0), vec2(200.0, 20.0))
    }

    #[test]
    fn shares_fill_the_bar_in_their_order() {
        let rects = split(bar(), &[1.0, 0.0, 3.0], 4.0);
        assert_eq!(rects[0].x_range(), Rangef::new(10.0, 60.0));
        assert_eq!(rects[1], Rect::NOTHING);
        assert_eq!(rects[2].x_range(), Rangef::new(60.0, 210.0));
    }

    #[test]
    fn what_is_no_number_or_negative_takes_no_room() {
        let rects = split(bar(), &[f64::NAN, -1.0, 1.0], 1.0);
        assert_eq!(rects[..2], [Rect::NOTHING; 2]);
        assert_eq!(rects[2], bar());
        assert_eq!(split(bar(), &[0.0], 0.0), [Rect::NOTHING]);
    }

    #[test]
    fn a_thin_segment_can_still_be_pointed_at() {
        let rects = split(bar(), &[199.0, 1.0], 200.0);
        assert_eq!(at(&rects, bar(), pos2(207.5, 10.0)), Some(1));
        assert_eq!(at(&rects, bar(), pos2(200.0, 10.0)), Some(0));
        assert_eq!(at(&rects, bar(), pos2(200.0, 30.0)), None);
    }
}
