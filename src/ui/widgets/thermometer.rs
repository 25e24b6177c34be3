//! The strip on the edge of the window: at which temperature everything is shown, and where the crystal forms are.
//!
//! What is not known is not drawn: every limit and window may be missing.

use egui::{
    Align2, CornerRadius, Event, EventFilter, Id, Key, Modifiers, Pos2, Rangef, Rect, Response, Sense, Shape, Stroke,
    StrokeKind, Ui, WidgetInfo,
    accesskit::{Action, ActionData},
    epaint::TextShape,
    pos2, vec2,
};

use super::{paint, text};
use crate::ui::theme::{self, Palette};

/// What the thermometer shows besides its handle.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ThermometerMarks<'a> {
    /// Below it form IV can grow.
    pub form_iv_c: Option<f64>,
    /// Above it form V melts.
    pub form_v_c: Option<f64>,
    /// Above it form VI melts.
    pub form_vi_c: Option<f64>,
    /// The cautious seeding window, filled.
    pub window_c: Option<[f64; 2]>,
    /// The word beside it.
    pub window_label: &'a str,
    /// The window while the emulsion is fresh, hollow.
    pub unmixed_window_c: Option<[f64; 2]>,
    /// The word beside it.
    pub unmixed_window_label: &'a str,
    /// Where the trade works such a mass: a grey bar at the left of the track.
    pub handling_c: Option<[f64; 2]>,
    /// Where forms IV, V and VI melt in the pinned state.
    pub pinned_limits_c: [Option<f64>; 3],
    /// The windows of the pinned state, dashed.
    pub pinned_windows_c: [Option<[f64; 2]>; 2],
}

/// The strip with its handle.
#[derive(Clone, Debug)]
#[must_use = "call `ui` to show it"]
pub struct Thermometer<'a> {
    id: Id,
    name: &'a str,
    celsius: f64,
    value_text: &'a str,
    marks: &'a ThermometerMarks<'a>,
}

/// A melting limit on the strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Of form IV.
    FormIV,
    /// Of form V.
    FormV,
    /// Of form VI.
    FormVI,
}

/// What the thermometer answers.
#[derive(Debug)]
pub struct ThermometerOutput {
    /// The limit that is pointed at.
    pub pointed: Option<Mark>,
    /// The strip as a whole.
    pub response: Response,
    /// The temperature that was chosen in this frame.
    pub chosen_c: Option<f64>,
}

/// Where the scale begins, °C.
pub const LOWEST_C: f64 = 5.0;
/// Where the scale ends, °C.
pub const HIGHEST_C: f64 = 45.0;
/// Where the handle stands after a double click, °C: a room in which chocolate is kept and eaten.
const ROOM_C: f64 = crate::analysis::ROOM.0;
/// One press of an arrow key, K.
pub const KEY_STEP_K: f64 = 0.5;
/// One press with Shift, or of Page up and Page down, K.
pub const LONG_KEY_STEP_K: f64 = 5.0;
/// What dragging rounds to, K: as fine as the value is shown.
const DRAG_STEP_K: f64 = 0.1;

/// How a limit is drawn.
#[derive(Clone, Copy)]
enum Line {
    Thin,
    Thick,
    Dotted,
}

/// Where things stand, from the strip's left to its right.
#[derive(Clone, Copy)]
struct Scale {
    /// The round track; its height is the range of temperatures.
    track: Rect,
    top: f32,
    bottom: f32,
}

impl Scale {
    fn y(self, celsius: f64) -> f32 {
        let share = (celsius.clamp(LOWEST_C, HIGHEST_C) - LOWEST_C) / (HIGHEST_C - LOWEST_C);
        self.bottom - (self.bottom - self.top) * narrow(share)
    }

    fn celsius(self, y: f32) -> f64 {
        let share = f64::from((self.bottom - y) / (self.bottom - self.top).max(1.0));
        let celsius = LOWEST_C + share * (HIGHEST_C - LOWEST_C);
        // Division gives the nearest double to a tenth; multiplication by 0.1 would not.
        ((celsius / DRAG_STEP_K).round() / (1.0 / DRAG_STEP_K)).clamp(LOWEST_C, HIGHEST_C)
    }

    fn range(self, window: [f64; 2]) -> Rangef {
        Rangef::new(self.y(window[1]), self.y(window[0]))
    }
}

impl<'a> Thermometer<'a> {
    /// Width of the strip in points.
    pub const WIDTH: f32 = 98.0;
    const TRACK_WIDTH: f32 = 12.0;
    /// From the strip's left edge to the track.
    const TRACK_LEFT: f32 = 44.0;
    const LONG_TICK: f32 = 14.0;
    const SHORT_TICK: f32 = 7.0;
    const HANDLE_HEIGHT: f32 = 24.0;

    /// A strip at this temperature; `value_text` is the temperature as it is written on the handle.
    pub fn new(id: Id, name: &'a str, celsius: f64, value_text: &'a str, marks: &'a ThermometerMarks<'a>) -> Self {
        Self { id, name, celsius, value_text, marks }
    }

    /// Draws the strip over the available height.
    pub fn ui(self, ui: &mut Ui) -> ThermometerOutput {
        let size = vec2(Self::WIDTH, ui.available_height().max(160.0));
        let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
        let response = ui.interact(rect, self.id, Sense::click_and_drag());
        let (top, bottom) = (rect.top() + 40.0, rect.bottom() - 20.0);
        let track = Rect::from_x_y_ranges(
            Rangef::new(rect.left() + Self::TRACK_LEFT, rect.left() + Self::TRACK_LEFT + Self::TRACK_WIDTH),
            Rangef::new(top, bottom),
        );
        let scale = Scale { track, top, bottom };
        let chosen_c = self.chosen_by_pointer(ui, &response, scale).or_else(|| self.chosen_by_keys(ui));
        let chosen_c = chosen_c.or_else(|| self.chosen_by_assistance(ui)).filter(|chosen| *chosen != self.celsius);
        self.describe(ui, &response);
        if response.hovered() || response.dragged() {
            ui.set_cursor_icon(egui::CursorIcon::ResizeVertical);
        }
        if ui.is_rect_visible(rect) {
            self.scale_ui(ui, rect, scale);
            self.windows_ui(ui, scale);
            self.pinned_ui(ui, scale);
            self.limits_ui(ui, scale);
            self.window_words_ui(ui, rect, scale);
            self.handle_ui(ui, &response, rect, scale);
        }
        let pointed = response.hover_pos().and_then(|pointer| self.mark_at(scale, pointer));
        ThermometerOutput { pointed, response, chosen_c }
    }

    /// The limit whose line or name is at the pointer.
    fn mark_at(&self, scale: Scale, pointer: Pos2) -> Option<Mark> {
        const REACH: f32 = 6.0;
        if pointer.x < scale.track.left() - 4.0 {
            return None;
        }
        [(self.marks.form_v_c, Mark::FormV), (self.marks.form_vi_c, Mark::FormVI), (self.marks.form_iv_c, Mark::FormIV)]
            .into_iter()
            .filter_map(|(celsius, mark)| Some(((scale.y(celsius?) - pointer.y).abs(), mark)))
            .filter(|(distance, _)| *distance <= REACH)
            .min_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(_, mark)| mark)
    }

    fn handle_rect(&self, rect: Rect, scale: Scale) -> Rect {
        let y = scale.y(self.celsius);
        let x_range = Rangef::new(rect.left() + 2.0, scale.track.left() + 2.0);
        Rect::from_x_y_ranges(x_range, Rangef::point(y).expand(Self::HANDLE_HEIGHT / 2.0))
    }

    fn chosen_by_pointer(&self, ui: &Ui, response: &Response, scale: Scale) -> Option<f64> {
        if response.double_clicked() || response.triple_clicked() {
            return Some(ROOM_C);
        }
        let pointer = response.interact_pointer_pos()?;
        // Taken by the handle, it does not jump to the pointer's middle.
        let offset_id = self.id.with("offset");
        if ui.input(|input| input.pointer.any_pressed()) {
            let is_on_handle = self.handle_rect(response.rect, scale).contains(pointer);
            let offset = if is_on_handle { pointer.y - scale.y(self.celsius) } else { 0.0 };
            ui.data_mut(|data| data.insert_temp(offset_id, offset));
            response.request_focus();
        }
        if !(response.is_pointer_button_down_on() || response.dragged()) {
            return None;
        }
        let offset: f32 = ui.data(|data| data.get_temp(offset_id)).unwrap_or(0.0);
        let is_moved = response.dragged() || offset == 0.0;
        is_moved.then(|| scale.celsius(pointer.y - offset))
    }

    fn chosen_by_keys(&self, ui: &Ui) -> Option<f64> {
        if !ui.memory(|memory| memory.has_focus(self.id)) {
            return None;
        }
        let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(self.id, filter));
        let mut celsius = self.celsius;
        ui.input_mut(|input| {
            let mut presses =
                |modifiers, key| f64::from(u8::try_from(input.count_and_consume_key(modifiers, key)).unwrap_or(0));
            // The longer combination first: the shorter one would match it too.
            celsius +=
                LONG_KEY_STEP_K * (presses(Modifiers::SHIFT, Key::ArrowUp) - presses(Modifiers::SHIFT, Key::ArrowDown));
            celsius += KEY_STEP_K * (presses(Modifiers::NONE, Key::ArrowUp) - presses(Modifiers::NONE, Key::ArrowDown));
            celsius +=
                LONG_KEY_STEP_K * (presses(Modifiers::NONE, Key::PageUp) - presses(Modifiers::NONE, Key::PageDown));
            if presses(Modifiers::NONE, Key::Home) > 0.0 {
                celsius = LOWEST_C;
            }
            if presses(Modifiers::NONE, Key::End) > 0.0 {
                celsius = HIGHEST_C;
            }
        });
        Some(celsius.clamp(LOWEST_C, HIGHEST_C))
    }

    fn chosen_by_assistance(&self, ui: &Ui) -> Option<f64> {
        let mut celsius = None;
        ui.input(|input| {
            for event in &input.events {
                let Event::AccessKitActionRequest(request) = event else { continue };
                if request.target_node != self.id.accesskit_id() {
                    continue;
                }
                celsius = match (request.action, &request.data) {
                    (Action::Increment, _) => Some(self.celsius + KEY_STEP_K),
                    (Action::Decrement, _) => Some(self.celsius - KEY_STEP_K),
                    (Action::SetValue, Some(ActionData::NumericValue(value))) if value.is_finite() => Some(*value),
                    _ => celsius,
                };
            }
        });
        celsius.map(|celsius| celsius.clamp(LOWEST_C, HIGHEST_C))
    }

    fn describe(&self, ui: &Ui, response: &Response) {
        response.widget_info(|| WidgetInfo::slider(ui.is_enabled(), self.celsius, self.name));
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_min_numeric_value(LOWEST_C);
            node.set_max_numeric_value(HIGHEST_C);
            node.set_numeric_value_step(KEY_STEP_K);
            node.set_value(format!("{} {}", self.value_text, text::CELSIUS));
            for action in [Action::SetValue, Action::Increment, Action::Decrement] {
                node.add_action(action);
            }
        });
    }

    fn scale_ui(&self, ui: &Ui, rect: Rect, scale: Scale) {
        let palette = Palette::of(ui);
        let painter = ui.painter();
        painter.text(
            pos2(scale.track.center().x, rect.top() + 18.0),
            Align2::CENTER_CENTER,
            text::CELSIUS,
            theme::small(),
            palette.quiet,
        );
        let track = scale.track.expand2(vec2(0.0, 5.0));
        let radius = CornerRadius::same(6);
        painter.rect(track, radius, palette.well, palette.rule_stroke(), StrokeKind::Inside);
        let right = scale.track.left() - 3.0;
        let covered = self.handle_rect(rect, scale).y_range();
        for celsius in 5_u8..=45 {
            let y = scale.y(f64::from(celsius));
            let is_long = celsius % 5 == 0;
            let length = if is_long { Self::LONG_TICK } else { Self::SHORT_TICK };
            if covered.contains(y) {
                continue;
            }
            painter.hline(Rangef::new(right - length, right), y, Stroke::new(1.0, palette.mark));
            if is_long && !covered.expand(4.0).contains(y) {
                let at = pos2(right - length - 5.0, y);
                painter.text(at, Align2::RIGHT_CENTER, celsius, theme::small(), palette.quiet);
            }
        }
    }

    fn windows_ui(&self, ui: &Ui, scale: Scale) {
        /// Between the ticks and the track.
        const HANDLING: f32 = 3.0;
        let palette = Palette::of(ui);
        if let Some(range) = self.marks.handling_c.filter(is_range) {
            let left = Rangef::new(scale.track.left() - HANDLING, scale.track.left());
            ui.painter().rect_filled(Rect::from_x_y_ranges(left, scale.range(range)), 1, palette.quiet);
        }
        if let Some(window) = self.marks.window_c.filter(is_range) {
            let band = Rect::from_x_y_ranges(scale.track.x_range(), scale.range(window));
            ui.painter().rect_filled(band, 2, palette.window);
        }
        if let Some(window) = self.marks.unmixed_window_c.filter(is_range) {
            let band = Rect::from_x_y_ranges(scale.track.x_range().expand(3.0), scale.range(window));
            let stroke = Stroke::new(1.5, palette.accent);
            ui.painter().rect_stroke(band, CornerRadius::same(3), stroke, StrokeKind::Inside);
        }
    }

    /// The windows and the limit of the pinned state, dashed and a little wider than those of now.
    fn pinned_ui(&self, ui: &Ui, scale: Scale) {
        let stroke = Stroke::new(1.0, Palette::of(ui).quiet);
        for window in self.marks.pinned_windows_c.into_iter().flatten().filter(is_range) {
            let band = Rect::from_x_y_ranges(scale.track.x_range().expand(5.0), scale.range(window));
            paint::dashed_rect(ui.painter(), band, stroke);
        }
        let limits = self.marks.pinned_limits_c.into_iter().flatten();
        for limit in limits.filter(|limit| (LOWEST_C..=HIGHEST_C).contains(limit)) {
            let range = scale.track.x_range().expand(8.0);
            let ends = [pos2(range.min, scale.y(limit)), pos2(range.max, scale.y(limit))];
            ui.painter().extend(Shape::dashed_line(&ends, stroke, 3.0, 2.5));
        }
    }

    /// Lines across the track and their names, which give way to each other.
    fn limits_ui(&self, ui: &Ui, scale: Scale) {
        const LEAST_DISTANCE: f32 = 13.0;
        let palette = Palette::of(ui);
        let painter = ui.painter();
        let mut limits: Vec<(f32, &str, Line)> = [
            (self.marks.form_vi_c, "VI", Line::Thin),
            (self.marks.form_v_c, "V", Line::Thick),
            (self.marks.form_iv_c, "IV", Line::Dotted),
        ]
        .into_iter()
        .filter_map(|(celsius, name, line)| {
            let celsius = celsius.filter(|celsius| (LOWEST_C..=HIGHEST_C).contains(celsius))?;
            Some((scale.y(celsius), name, line))
        })
        .collect();
        limits.sort_by(|one, other| one.0.total_cmp(&other.0));
        let wanted: Vec<f32> = limits.iter().map(|limit| limit.0).collect();
        let places = spread(&wanted, LEAST_DISTANCE, Rangef::new(scale.top - 6.0, scale.bottom + 6.0));
        let (left, right) = (scale.track.left() - 3.0, scale.track.right() + 5.0);
        for ((y, name, line), place) in limits.iter().zip(&places) {
            let y = *y;
            match line {
                Line::Thin => drop(painter.hline(Rangef::new(left, right), y, Stroke::new(1.0, palette.text))),
                Line::Thick => drop(painter.hline(Rangef::new(left, right), y, Stroke::new(2.0, palette.text))),
                Line::Dotted => {
                    let ends = [pos2(left, y), pos2(right, y)];
                    painter.extend(Shape::dashed_line(&ends, Stroke::new(1.5, palette.text), 2.0, 2.0));
                }
            }
            // A name that had to give way stays tied to its line.
            let ends = [pos2(right, y), pos2(right + 4.0, *place)];
            painter.line_segment(ends, Stroke::new(1.0, palette.mark));
            let at = pos2(right + 6.0, *place);
            painter.text(at, Align2::LEFT_CENTER, name, theme::small(), palette.quiet);
        }
    }

    /// The words beside the windows, upright where they do not meet each other.
    fn window_words_ui(&self, ui: &Ui, rect: Rect, scale: Scale) {
        let palette = Palette::of(ui);
        let words: Vec<(Rangef, &str)> = [
            (self.marks.unmixed_window_c, self.marks.unmixed_window_label),
            (self.marks.window_c, self.marks.window_label),
        ]
        .into_iter()
        .filter_map(|(window, word)| Some((scale.range(window.filter(is_range)?), word)))
        .filter(|(_, word)| !word.is_empty())
        .collect();
        let mut taken: Vec<Rangef> = Vec::new();
        for (range, word) in words.into_iter().rev() {
            let galley = paint::one_line(ui, word, theme::small(), palette.text, f32::INFINITY);
            let half = galley.size().x / 2.0;
            let Some(centre) = free_place(range.center(), half, &taken, Rangef::new(scale.top, scale.bottom)) else {
                continue;
            };
            taken.push(Rangef::point(centre).expand(half + 12.0));
            // Beyond the names of the limits.
            let left = rect.right() - 4.0 - galley.size().y;
            let at = pos2(left + galley.size().y, centre - half);
            let shape = TextShape::new(at, galley, palette.text).with_angle(std::f32::consts::FRAC_PI_2);
            ui.painter().add(shape);
        }
    }

    fn handle_ui(&self, ui: &Ui, response: &Response, rect: Rect, scale: Scale) {
        let palette = Palette::of(ui);
        let handle = self.handle_rect(rect, scale);
        let (middle, point) = (handle.center().y, 7.0);
        let body =
            Rect::from_min_max(handle.min, pos2(handle.right() - point, handle.bottom())).shrink2(vec2(0.0, 3.0));
        let tip = |grow: f32| -> Vec<Pos2> {
            vec![
                pos2(body.right() - 1.0, body.top() - grow),
                pos2(handle.right() + grow, middle),
                pos2(body.right() - 1.0, body.bottom() + grow),
            ]
        };
        let is_active = response.has_focus() || response.dragged();
        let ground = if response.hovered() || is_active { palette.accent } else { palette.text };
        let text_colour = if response.hovered() || is_active { palette.on_accent } else { palette.panel };
        let painter = ui.painter();
        if response.has_focus() {
            painter.rect_stroke(body.expand(1.0), 6, palette.focus_stroke(), StrokeKind::Outside);
        }
        painter.rect_filled(body, 5, ground);
        painter.add(Shape::convex_polygon(tip(0.0), ground, Stroke::NONE));
        let at = body.center() + vec2(1.0, 0.0);
        painter.text(at, Align2::CENTER_CENTER, self.value_text, theme::small_bold(), text_colour);
        let line = Rangef::new(handle.right(), scale.track.right() + 3.0);
        painter.hline(line, middle, Stroke::new(2.0, ground));
    }
}

fn is_range(window: &[f64; 2]) -> bool {
    window[0] < window[1]
}

/// Places as near to the wanted ones (in ascending order) as the least distance allows, inside the bounds.
fn spread(wanted: &[f32], least_distance: f32, bounds: Rangef) -> Vec<f32> {
    let mut places = wanted.to_vec();
    // Neighbours that are too close share what is missing; a few rounds settle the few names there are.
    for _ in 0..8 {
        for idx in 1..places.len() {
            let missing = least_distance - (places[idx] - places[idx - 1]);
            if missing > 0.0 {
                places[idx - 1] -= missing / 2.0;
                places[idx] += missing / 2.0;
            }
        }
    }
    for (idx, place) in places.iter_mut().enumerate() {
        *place = place.max(bounds.min + least_distance * count_f32(idx));
    }
    let count = places.len();
    for (idx, place) in places.iter_mut().enumerate() {
        *place = place.min(bounds.max - least_distance * count_f32(count - 1 - idx));
    }
    places
}

/// The centre nearest to `wanted` at which `half` on either side meets nothing; `None` where there is no room.
fn free_place(wanted: f32, half: f32, taken: &[Rangef], bounds: Rangef) -> Option<f32> {
    let inside = bounds.min + half..=bounds.max - half;
    if inside.is_empty() {
        return None;
    }
    let edges = taken.iter().flat_map(|taken| [taken.min - half, taken.max + half]);
    std::iter::once(wanted.clamp(*inside.start(), *inside.end()))
        .chain(edges)
        .filter(|centre| inside.contains(centre))
        .filter(|centre| taken.iter().all(|taken| centre + half <= taken.min || centre - half >= taken.max))
        .min_by(|one, other| (one - wanted).abs().total_cmp(&(other - wanted).abs()))
}

#[expect(clippy::cast_precision_loss, reason = "three names")]
fn count_f32(count: usize) -> f32 {
    count as f32
}

#[expect(clippy::cast_possible_truncation, reason = "places on a screen need no more than f32")]
fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scale() -> Scale {
        let track = Rect::from_min_size(pos2(0.0, 100.0), vec2(12.0, 400.0));
        Scale { track, top: 100.0, bottom: 500.0 }
    }

    #[test]
    fn temperature_and_place_are_each_others_inverse() {
        for tenths in 50_u16..=450 {
            let celsius = f64::from(tenths) / 10.0;
            assert_eq!(scale().celsius(scale().y(celsius)), celsius);
        }
    }

    #[test]
    fn the_scale_ends_where_it_ends() {
        assert_eq!(scale().celsius(0.0), HIGHEST_C);
        assert_eq!(scale().celsius(900.0), LOWEST_C);
        assert_eq!(scale().y(-10.0), scale().y(LOWEST_C));
    }

    #[test]
    fn names_keep_their_distance_and_their_order() {
        let bounds = Rangef::new(0.0, 100.0);
        for wanted in [[50.0, 51.0, 52.0], [0.0, 0.0, 0.0], [100.0, 100.0, 100.0], [10.0, 50.0, 90.0]] {
            let places = spread(&wanted, 13.0, bounds);
            for pair in places.windows(2) {
                assert!(pair[1] - pair[0] >= 12.9, "{wanted:?}: {places:?}");
            }
            assert!(places[0] >= 0.0 && places[2] <= 100.0, "{wanted:?}: {places:?}");
        }
        assert_eq!(spread(&[10.0, 50.0, 90.0], 13.0, bounds), [10.0, 50.0, 90.0]);
    }

    #[test]
    fn a_word_moves_aside_for_another_and_is_left_out_where_there_is_no_room() {
        let bounds = Rangef::new(0.0, 100.0);
        assert_eq!(free_place(50.0, 10.0, &[], bounds), Some(50.0));
        assert_eq!(free_place(52.0, 10.0, &[Rangef::new(40.0, 60.0)], bounds), Some(70.0));
        assert_eq!(free_place(50.0, 10.0, &[Rangef::new(0.0, 100.0)], bounds), None);
        assert_eq!(free_place(50.0, 60.0, &[], bounds), None);
    }
}
