//! The sheet in the middle: head, lines, losses, phase bar, findings.

use egui::{Align, CentralPanel, Frame, Id, Layout, Margin, ScrollArea, Ui, UiBuilder, scroll_area::ScrollAreaOutput};

use super::findings::findings_ui;
use super::head::head_ui;
use super::lines::{add_ui, lines_ui};
use super::losses::{losses_ui, switch_ui};
use super::phase_bar::phase_bar_ui;
use crate::ui::theme::{Palette, space};
use crate::ui::view::{Action, Scene, View};

/// A line of text across a wide screen is hard to read: the sheet grows no wider.
const WIDEST: f32 = 920.0;

/// At most this share of the height is for the lines; long recipes scroll.
const LINES_SHARE: f32 = 0.46;

/// The findings keep at least this height; where there is less, the whole sheet scrolls.
const LEAST_FINDINGS: f32 = 130.0;

/// A bar that scrolls stands so far beside the sheet, in the margin of the panel: on the sheet it would lie over the last
/// column.
const BESIDE: f32 = 12.0;

/// Draws the sheet in what the other panels leave.
pub fn sheet_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    CentralPanel::default()
        .frame(Frame::new().fill(palette.ground).inner_margin(Margin { left: 24, right: 24, top: 18, bottom: 0 }))
        .show(ui, |ui| {
            ui.set_max_width(ui.available_width().min(WIDEST));
            let height = ui.available_height();
            let id = Id::unique("height of the sheet above its findings");
            // How high the rest is, is known once it was drawn.
            let above: f32 = ui.data(|data| data.get_temp(id)).unwrap_or(0.0);
            let is_low = height - above < LEAST_FINDINGS;
            let now = if is_low {
                let area = ScrollArea::vertical().id_salt("whole sheet").auto_shrink([false, false]);
                scrolled_ui(ui, area, |ui| parts_ui(ui, scene, view, height, is_low, actions)).inner
            } else {
                parts_ui(ui, scene, view, height, is_low, actions)
            };
            if (now - above).abs() > 0.5 {
                ui.data_mut(|data| data.insert_temp(id, now));
                if (height - now < LEAST_FINDINGS) != is_low {
                    ui.ctx().request_discard("the sheet is too low for its findings");
                }
            }
        });
}

/// Draws the parts under each other; gives back how high all above the findings is where long recipes scroll.
fn parts_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    height: f32,
    is_low: bool,
    actions: &mut Vec<Action>,
) -> f32 {
    let top = ui.cursor().top();
    head_ui(ui, scene, view, actions);
    ui.add_space(space::NEAR);
    let most = (height - (ui.cursor().top() - top)) * LINES_SHARE;
    let before_lines = ui.cursor().top();
    let area = ScrollArea::vertical().id_salt("sheet lines").auto_shrink([false, true]);
    let lines = if is_low {
        area.max_height(f32::INFINITY).show(ui, |ui| lines_ui(ui, scene, view, actions))
    } else {
        scrolled_ui(ui, area.max_height(most), |ui| lines_ui(ui, scene, view, actions))
    };
    let in_excess = (ui.cursor().top() - before_lines) - lines.content_size.y.min(most);
    // Outside of what scrolls, so that it is always in sight.
    ui.horizontal(|ui| {
        add_ui(ui, actions);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| switch_ui(ui, scene, view, actions));
    });
    ui.add_space(space::NEAR);
    losses_ui(ui, scene, view, actions);
    ui.add_space(space::GROUP);
    phase_bar_ui(ui, scene, view);
    ui.add_space(space::GROUP);
    let above = ui.cursor().top() - top - in_excess.max(0.0);
    findings_ui(ui, scene, view, is_low, actions);
    above
}

/// Draws contents as wide as there is room, and the bar of their area beside them.
fn scrolled_ui<R>(ui: &mut Ui, area: ScrollArea, contents: impl FnOnce(&mut Ui) -> R) -> ScrollAreaOutput<R> {
    let width = ui.available_width();
    let mut room = ui.available_rect_before_wrap();
    room.max.x += BESIDE;
    let mut beside = ui.new_child(UiBuilder::new().max_rect(room));
    let output = area.show(&mut beside, |ui| {
        ui.set_max_width(width);
        contents(ui)
    });
    // What follows is no wider for it.
    let mut used = beside.min_rect();
    used.max.x = used.min.x + width;
    ui.advance_cursor_after_rect(used);
    output
}
