//! The row of readings: words, one of them underlined.
//!
//! The row is one stop for the Tab key; the arrow keys, Home and End move within it, as usual for tabs.
//! Where the words do not fit they go on in a second row.

use egui::{EventFilter, Id, Key, Modifiers, Rect, Sense, Stroke, Ui, WidgetInfo, accesskit::Role, pos2, vec2};

use super::paint;
use crate::ui::theme::{self, Palette, space};

const HEIGHT: f32 = 34.0;
const GAP: f32 = 18.0;
const NARROWEST_GAP: f32 = 11.0;
/// Room around a word that still counts as the word.
const REACH: f32 = 5.0;
const UNDERLINE: f32 = 2.0;

/// Draws the tabs over the available width; gives the tab that was chosen in this frame.
pub fn tabs_ui(ui: &mut Ui, id: Id, names: &[&str], selected: usize) -> Option<usize> {
    let palette = Palette::of(ui);
    let width = ui.available_width();
    // The word of the selected tab is bold; its place is measured bold for all so that nothing moves on selection.
    let widths: Vec<f32> = names
        .iter()
        .map(|name| paint::one_line(ui, *name, theme::body_bold(), palette.text, f32::INFINITY).size().x)
        .collect();
    let places = places(&widths, gap(&widths, width), width);
    let rows = places.last().map_or(1, |place| place.row + 1);
    let (area, _) = ui.allocate_exact_size(vec2(width, HEIGHT * to_f32(rows)), Sense::hover());
    ui.painter().hline(area.x_range(), area.bottom() - 0.5, palette.rule_stroke());

    let mut chosen = move_by_keys(ui, id, names.len(), selected);
    for (idx, (name, place)) in names.iter().zip(&places).enumerate() {
        let is_selected = idx == selected;
        let top = area.top() + HEIGHT * to_f32(place.row);
        let word = Rect::from_min_size(pos2(area.left() + place.left, top), vec2(widths[idx], HEIGHT));
        // A tab that is about to be the stop has to take the keyboard already, or the toolkit withdraws it.
        let is_stop = is_selected || chosen == Some(idx);
        let sense = if is_stop { Sense::click() } else { Sense::CLICK };
        let response = ui.interact(word.expand2(vec2(REACH, 0.0)), id.with(idx), sense);
        response.widget_info(|| WidgetInfo::labeled(Role::Tab, ui.is_enabled(), *name));
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_selected(is_selected));
        if response.clicked() && !is_selected {
            chosen = Some(idx);
        }
        let (font, colour) = if is_selected {
            (theme::body_bold(), palette.text)
        } else if response.hovered() {
            (theme::body(), palette.text)
        } else {
            (theme::body(), palette.quiet)
        };
        let galley = paint::one_line(ui, *name, font, colour, f32::INFINITY);
        let at = pos2(word.center().x - galley.size().x / 2.0, word.center().y - galley.size().y / 2.0);
        ui.painter().galley(at, galley, colour);
        if is_selected {
            let underline = Rect::from_x_y_ranges(word.x_range(), word.bottom() - UNDERLINE..=word.bottom());
            ui.painter().rect_filled(underline, 1, palette.accent);
            paint::focus_ring(ui, &response, word.expand2(vec2(REACH, -4.0)), space::FIELD_RADIUS);
        } else if response.hovered() {
            ui.painter().hline(word.x_range(), word.bottom() - 1.0, Stroke::new(UNDERLINE, palette.rule));
        }
    }
    chosen
}

/// Sends the keyboard to the selected tab.
pub fn focus_tab(ui: &Ui, id: Id, selected: usize) {
    ui.memory_mut(|memory| memory.request_focus(id.with(selected)));
}

struct Place {
    row: usize,
    left: f32,
}

/// Between words: less where they would not fit into one row otherwise.
fn gap(widths: &[f32], available: f32) -> f32 {
    let words: f32 = widths.iter().sum();
    #[expect(clippy::cast_precision_loss, reason = "a handful of words")]
    let between = widths.len().saturating_sub(1).max(1) as f32;
    // Where even the narrowest is too wide, there are rows anyway, with all the room.
    let fitting = (available - words) / between;
    if fitting < NARROWEST_GAP { GAP } else { fitting.min(GAP).floor() }
}

fn places(widths: &[f32], gap: f32, available: f32) -> Vec<Place> {
    let (mut row, mut left) = (0, 0.0);
    widths
        .iter()
        .map(|width| {
            if left > 0.0 && left + width > available {
                row += 1;
                left = 0.0;
            }
            let place = Place { row, left };
            left += width + gap;
            place
        })
        .collect()
}

fn move_by_keys(ui: &Ui, id: Id, count: usize, selected: usize) -> Option<usize> {
    let focused = id.with(selected);
    if count == 0 || !ui.memory(|memory| memory.has_focus(focused)) {
        return None;
    }
    ui.memory_mut(|memory| {
        memory.set_focus_lock_filter(focused, EventFilter { horizontal_arrows: true, ..EventFilter::default() });
    });
    let last = count - 1;
    let chosen = ui.input_mut(|input| {
        let mut pressed = |key| input.consume_key(Modifiers::NONE, key);
        if pressed(Key::ArrowRight) {
            Some(if selected == last { 0 } else { selected + 1 })
        } else if pressed(Key::ArrowLeft) {
            Some(if selected == 0 { last } else { selected - 1 })
        } else if pressed(Key::Home) {
            Some(0)
        } else if pressed(Key::End) {
            Some(last)
        } else {
            None
        }
    })?;
    // The keyboard goes along: the new tab becomes the stop of the row.
    ui.memory_mut(|memory| memory.request_focus(id.with(chosen)));
    Some(chosen)
}

#[expect(clippy::cast_precision_loss, reason = "a handful of rows")]
fn to_f32(rows: usize) -> f32 {
    rows as f32
}

#[cfg(test)]
mod tests {
    use super::{GAP, gap, places};

    #[test]
    fn words_go_on_in_the_next_row_where_they_do_not_fit() {
        let rows: Vec<usize> =
            places(&[60.0, 60.0, 60.0, 500.0, 10.0], GAP, 200.0).iter().map(|place| place.row).collect();
        assert_eq!(rows, [0, 0, 1, 2, 3]);
    }

    #[test]
    fn words_move_closer_where_that_keeps_them_in_one_row() {
        for (available, expected) in [(300.0, GAP), (210.0, 15.0), (190.0, GAP)] {
            let widths = [60.0, 60.0, 60.0];
            let gap = gap(&widths, available);
            assert!((gap - expected).abs() < 1e-3, "{gap} in {available}");
            let rows = places(&widths, gap, available).last().map_or(0, |place| place.row);
            assert_eq!(rows, usize::from(available < 200.0));
        }
    }
}
