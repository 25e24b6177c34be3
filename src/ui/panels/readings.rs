//! The readings at the right: Make-up, Emulsion, Fat crystals, each with its plots.
//!
//! On an ordinary screen one reading is in front; where there is room for all of them they stand side by side.

mod emulsion;
mod fat_crystals;
mod make_up;

use egui::{Frame, Id, Margin, Panel, ScrollArea, Ui};

use crate::analysis::reading::Reading;
use crate::document::{Memo, Revision};
use crate::number::DecimalSign;
use crate::recipe::CocoaButter;
use crate::report::figure::Curve;
use crate::report::figures::Edge;
use crate::ui::files::PlotForm;
use crate::ui::text;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Focus, Scene, View};
use crate::ui::widgets::{focus_tab, scroll_by_keys, stop_label, tabs_ui};

/// The narrowest that a reading is legible in.
const NARROWEST: f32 = 430.0;
/// The widest that one reading needs.
const WIDEST: f32 = 620.0;
/// What a single reading takes of the width that it shares with the sheet.
const SHARE: f32 = 0.43;
/// What the sheet keeps of the window beside all readings.
const SHEET_BESIDE_ALL: f32 = 640.0;

const READINGS: [(Reading, &str); 3] =
    [(Reading::MakeUp, "Make-up"), (Reading::Emulsion, "Emulsion"), (Reading::FatCrystals, "Fat crystals")];

/// What the plots need and the analysis does not give; computed again only when the document changes.
#[derive(Debug, Default)]
pub struct PlotMemos {
    jamming_edge: Memo<(u64, Revision), Vec<Edge>>,
    pinned_jamming_edge: Memo<u64, Vec<Edge>>,
    cocoa_butter_alone: Memo<CocoaButter, Curve>,
}

/// Draws the readings.
pub fn readings_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    document: (u64, Revision),
    actions: &mut Vec<Action>,
) {
    let palette = Palette::of(ui);
    let width = ui.available_width();
    #[expect(clippy::cast_precision_loss, reason = "a handful of readings")]
    let (size, shows_all) = size(width, READINGS.len() as f32);
    view.shows_every_reading = shows_all;
    Panel::right("readings")
        .resizable(false)
        .exact_size(size)
        .frame(Frame::new().fill(palette.panel).inner_margin(Margin { left: 20, right: 16, top: 10, bottom: 0 }))
        .show(ui, |ui| {
            // A child of exactly this size: what is too wide inside must not push the sheet aside.
            let place = ui.available_rect_before_wrap();
            let ui = &mut ui.new_child(egui::UiBuilder::new().max_rect(place));
            if shows_all {
                side_by_side_ui(ui, scene, view, memos, document, actions);
                return;
            }
            let names = READINGS.map(|(_, name)| name);
            let selected = READINGS.iter().position(|(reading, _)| *reading == view.reading).unwrap_or(0);
            let id = Id::unique("readings");
            if view.focus == Some(Focus::Readings) {
                view.focus = None;
                focus_tab(ui, id, selected);
            }
            if let Some(chosen) = tabs_ui(ui, id, &names, selected)
                && let Some((reading, _)) = READINGS.get(chosen)
            {
                actions.push(Action::Show(*reading));
            }
            ui.add_space(space::NEAR);
            reading_ui(ui, view.reading, true, scene, view, memos, document, actions);
        });
}

/// What so many readings take of this width, and whether they stand side by side.
fn size(width: f32, readings: f32) -> (f32, bool) {
    /// Between and beside readings that stand side by side.
    const GAPS: f32 = 60.0;
    /// Of what is left beside two sheets and all readings, the readings begin to grow this much earlier.
    const EARLIER: f32 = 360.0;
    let all = readings * NARROWEST + GAPS;
    if width - SHEET_BESIDE_ALL >= all {
        ((width - 2.0 * SHEET_BESIDE_ALL + EARLIER).min(readings * WIDEST).max(all), true)
    } else {
        ((width * SHARE).clamp(NARROWEST, WIDEST), false)
    }
}

fn side_by_side_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    document: (u64, Revision),
    actions: &mut Vec<Action>,
) {
    let on_keys = reading_on_keys(ui, view.reading);
    ui.columns(READINGS.len(), |columns| {
        for (ui, (reading, name)) in columns.iter_mut().zip(READINGS) {
            // Columns justify their text; sentences are easier to read with a ragged edge.
            ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
                ui.add_space(space::NEAR);
                let head = stop_label(ui, theme::strong(name));
                if view.focus == Some(Focus::Readings) && reading == view.reading {
                    view.focus = None;
                    head.request_focus();
                }
                ui.add_space(space::NEAR);
                reading_ui(ui, reading, reading == on_keys, scene, view, memos, document, actions);
            });
        }
    });
}

/// Which of the readings beside each other the keys scroll: the one that has the keyboard, else the one in front.
fn reading_on_keys(ui: &Ui, in_front: Reading) -> Reading {
    let Some(focused) = ui.memory(egui::Memory::focused).and_then(|id| ui.ctx().read_response(id)) else {
        return in_front;
    };
    let area = ui.available_rect_before_wrap();
    #[expect(clippy::cast_precision_loss, reason = "three readings")]
    let width = area.width() / READINGS.len() as f32;
    let mut right = area.left();
    let mut edges = READINGS.iter().map(|(reading, _)| {
        right += width;
        (right, *reading)
    });
    let x = focused.rect.center().x;
    if x < area.left() {
        in_front
    } else {
        edges.find(|(right, _)| x < *right).map_or(in_front, |(_, reading)| reading)
    }
}

#[expect(clippy::too_many_arguments, reason = "one reading draws from everything")]
fn reading_ui(
    ui: &mut Ui,
    reading: Reading,
    is_on_keys: bool,
    scene: &Scene<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    document: (u64, Revision),
    actions: &mut Vec<Action>,
) {
    let area = ScrollArea::vertical().id_salt(("reading", reading)).auto_shrink([false, false]);
    area.show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 12.0;
        // Room for the scroll bar beside the cards.
        ui.set_max_width(ui.available_width() - 6.0);
        match reading {
            Reading::MakeUp => make_up::make_up_ui(ui, scene, view, actions),
            Reading::Emulsion => {
                let edge = memos
                    .jamming_edge
                    .get(document, || crate::report::figures::jamming_edge(&scene.analysis.make_up.bowl));
                let pinned = scene.pin.map(|pin| {
                    let bowl = pin.bowl();
                    memos.pinned_jamming_edge.get(pin.number, || crate::report::figures::jamming_edge(bowl)).as_slice()
                });
                emulsion::emulsion_ui(ui, scene, view, emulsion::Edges { now: edge, pinned }, actions);
            }
            Reading::FatCrystals => {
                let cocoa_butter = scene.document.recipe.cocoa_butter;
                let alone = memos
                    .cocoa_butter_alone
                    .get(cocoa_butter, || crate::report::figures::cocoa_butter_alone(cocoa_butter));
                fat_crystals::fat_crystals_ui(ui, scene, view, alone, actions);
            }
        }
        ui.add_space(space::NEAR);
        if is_on_keys && !view.is_on_findings {
            scroll_by_keys(ui);
        }
    });
}

/// What a right click on the plot of a reading offers.
fn save_menu_ui(ui: &mut Ui, reading: Reading, actions: &mut Vec<Action>) {
    for form in PlotForm::ALL {
        if ui.button(text::plot::save_as(form)).clicked() {
            actions.push(Action::SavePlot(reading, form));
            ui.close();
        }
    }
}

/// A plain sentence in a card, where a reading has nothing to show.
fn nothing_ui(ui: &mut Ui, words: &str) {
    crate::ui::widgets::Card::new().ui(ui, |ui| ui.label(theme::quiet(ui, words)));
}

/// "22.4 %", or nothing where nothing is pinned.
fn pinned(value: Option<f64>, decimals: u32, unit: &str, sign: DecimalSign) -> Option<String> {
    value.map(|value| format!("{} {unit}", crate::number::fixed(value, decimals, sign)).trim_end().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With any number of readings, and of the three of today the sizes that they have always had.
    #[test]
    fn every_reading_is_legible_and_the_sheet_keeps_its_room() {
        for readings in 1..=12_u8 {
            for width in (0..800_u16).map(|step| 10.0 * f32::from(step)) {
                let (size, shows_all) = size(width, f32::from(readings));
                if shows_all {
                    assert!(size >= f32::from(readings) * NARROWEST, "{readings} in {width}: {size}");
                    assert!(width - size >= SHEET_BESIDE_ALL, "{readings} in {width}: {size}");
                } else {
                    assert!((NARROWEST..=WIDEST).contains(&size), "{readings} in {width}: {size}");
                }
            }
        }
        assert_eq!(
            [1280.0, 1990.0, 2560.0, 4000.0].map(|width| size(width, 3.0)),
            [(0.43 * 1280.0, false), (1350.0, true), (1640.0, true), (1860.0, true)]
        );
    }
}
