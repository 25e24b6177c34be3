//! A head that opens and closes what stands under it. What is closed is not drawn.

use std::f32::consts::FRAC_PI_2;

use egui::{Id, Response, Sense, Shape, Ui, WidgetInfo, accesskit::Role, emath::Rot2, pos2, vec2};

use super::{explain::arrive, paint};
use crate::ui::theme::{self, Palette, space};

/// Least height of a head.
const HEAD: f32 = 26.0;
/// What the triangle takes in front of the words.
const INDENT: f32 = 18.0;

/// A head, and under it what it opens.
#[derive(Clone, Copy, Debug)]
#[must_use = "call `ui` to show it"]
pub struct Fold<'a> {
    id: Id,
    title: &'a str,
    detail: &'a str,
}

impl<'a> Fold<'a> {
    /// A head with these words; whether it is open is remembered under `id` while the program runs.
    pub fn new(id: Id, title: &'a str) -> Self {
        Self { id, title, detail: "" }
    }

    /// What stands behind the title, or under it where there is no room.
    pub fn detail(mut self, detail: &'a str) -> Self {
        self.detail = detail;
        self
    }

    /// Draws the head over the available width, and the contents where it is open.
    pub fn ui(self, ui: &mut Ui, contents: impl FnOnce(&mut Ui)) -> Response {
        let palette = Palette::of(ui);
        let mut is_open = is_open(ui, self.id);
        let width = ui.available_width();
        let title = paint::wrapped(ui, self.title, theme::body_bold(), palette.text, width - INDENT);
        let beside = width - INDENT - title.size().x - space::GROUP;
        let one_line = paint::one_line(ui, self.detail, theme::body(), palette.quiet, f32::INFINITY);
        let is_beside = one_line.size().x <= beside;
        let detail = if is_beside {
            one_line
        } else {
            paint::wrapped(ui, self.detail, theme::body(), palette.quiet, width - INDENT)
        };
        let text_height =
            if is_beside || self.detail.is_empty() { title.size().y } else { title.size().y + detail.size().y };
        let (rect, _) = ui.allocate_exact_size(vec2(width, (text_height + 6.0).max(HEAD)), Sense::hover());
        let response = ui.interact(rect, self.id, Sense::click());
        arrive(&response);
        if response.clicked() {
            is_open = !is_open;
            set_open(ui, self.id, is_open);
        }
        response.widget_info(|| {
            let words =
                if self.detail.is_empty() { self.title.to_owned() } else { format!("{}: {}", self.title, self.detail) };
            WidgetInfo::labeled(Role::Button, ui.is_enabled(), words)
        });
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_expanded(is_open));
        if ui.is_rect_visible(rect) {
            let top = rect.top() + 3.0;
            let colour = if response.hovered() { palette.accent } else { palette.text };
            let middle = pos2(rect.left() + 5.0, top + paint::first_line_height(&title) / 2.0);
            let turned = Rot2::from_angle(if is_open { FRAC_PI_2 } else { 0.0 });
            let corners = [vec2(-3.0, -4.0), vec2(4.0, 0.0), vec2(-3.0, 4.0)].map(|corner| middle + turned * corner);
            ui.painter().add(Shape::convex_polygon(corners.to_vec(), palette.quiet, egui::Stroke::NONE));
            let below = title.size().y;
            ui.painter().galley_with_override_text_color(pos2(rect.left() + INDENT, top), title, colour);
            let at = if is_beside {
                pos2(rect.right() - detail.size().x, top)
            } else {
                pos2(rect.left() + INDENT, top + below)
            };
            ui.painter().galley(at, detail, palette.quiet);
            paint::focus_ring(ui, &response, rect.expand2(vec2(6.0, 0.0)), space::FIELD_RADIUS);
        }
        if is_open {
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = 0.0;
                ui.add_space(INDENT);
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = space::TIGHT;
                    contents(ui);
                    ui.add_space(space::NEAR);
                });
            });
        }
        response
    }
}

/// Whether the fold of this name is open; all are closed at first.
#[must_use]
pub fn is_open(ui: &Ui, id: Id) -> bool {
    ui.data(|data| data.get_temp(id)).unwrap_or(false)
}

/// Opens or closes the fold of this name.
pub fn set_open(ui: &Ui, id: Id, is_open: bool) {
    ui.data_mut(|data| data.insert_temp(id, is_open));
}
