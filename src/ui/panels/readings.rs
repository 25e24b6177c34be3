//! The readings at the right: Make-up, Emulsion, Water, Fat crystals, Setting, each with its plots.
//!
//! On an ordinary screen one reading is in front; where there is room they stand side by side, each in a column of its
//! own or two of them under each other.

mod emulsion;
mod fat_crystals;
mod make_up;
mod rescue;
mod setting;
mod targets;
mod water;

use egui::{Frame, Id, Margin, Panel, ScrollArea, Ui};

use crate::analysis::reading::Reading;
use crate::document::{Memo, Revision};
use crate::number::DecimalSign;
use crate::recipe::CocoaButter;
use crate::report::figure::{Curve, Figure};
use crate::report::figures::{DilutionCurves, Edge, PlotName};
use crate::ui::files::PlotForm;
use crate::ui::plot::{PlotPart, Plotted, figure_ui};
use crate::ui::text;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Focus, Scene, View};
use crate::ui::widgets::explain::is_attended_by_keys;
use crate::ui::widgets::{
    Card, Explanation, explain, focus_tab, ghost_label, quiet_button, scroll_by_keys, stop_label, tabs_ui,
};
use crate::units::Celsius;

/// The narrowest that a reading is legible in.
const NARROWEST: f32 = 430.0;
/// The widest that one reading needs.
const WIDEST: f32 = 620.0;
/// What a single reading takes of the width that it shares with the sheet.
const SHARE: f32 = 0.43;
/// What the sheet keeps of the window beside all readings.
const SHEET_BESIDE_ALL: f32 = 640.0;

/// Columns of readings, from left to right.
type Columns = &'static [&'static [Reading]];

/// How readings stand side by side, the first for which there is room.
const SIDE_BY_SIDE: [Columns; 2] = [
    &[&[Reading::MakeUp], &[Reading::Emulsion], &[Reading::Water], &[Reading::FatCrystals, Reading::Setting]],
    // Emulsion and Water are two sides of one question, and Emulsion is the shortest.
    &[&[Reading::MakeUp], &[Reading::Emulsion, Reading::Water], &[Reading::FatCrystals, Reading::Setting]],
];

/// The same with the reading Targets in front of the others, while it is there.
const BESIDE_TARGETS: [Columns; 2] = [
    &[
        &[Reading::Targets],
        &[Reading::MakeUp],
        &[Reading::Emulsion, Reading::Water],
        &[Reading::FatCrystals, Reading::Setting],
    ],
    &[
        &[Reading::Targets],
        &[Reading::MakeUp, Reading::Emulsion],
        &[Reading::Water, Reading::FatCrystals, Reading::Setting],
    ],
];

fn name(reading: Reading) -> &'static str {
    match reading {
        Reading::MakeUp => "Make-up",
        Reading::Emulsion => "Emulsion",
        Reading::Water => "Water",
        Reading::FatCrystals => "Fat crystals",
        Reading::Setting => "Setting",
        Reading::Targets => "Targets",
    }
}

/// What the plots need and the analysis does not give; computed again only when the document changes.
#[derive(Debug, Default)]
pub struct PlotMemos {
    jamming_edge: Memo<(u64, Revision), Vec<Edge>>,
    pinned_jamming_edge: Memo<u64, Vec<Edge>>,
    cocoa_butter_alone: Memo<CocoaButter, Curve>,
    dilution: Memo<CocoaButter, DilutionCurves>,
    cream: Memo<CocoaButter, Option<[Celsius; 2]>>,
    plan: Memo<((u64, Revision), u64, DecimalSign), fat_crystals::plan::Texts>,
    pinned_plan: Memo<(u64, u64, DecimalSign), fat_crystals::plan::Texts>,
    water: Memo<(u64, Revision), water::WaterCurves>,
    pinned_water: Memo<u64, water::WaterCurves>,
    setting: Memo<(u64, Revision), setting::Course>,
    pinned_setting: Memo<u64, setting::Course>,
}

/// The recipe, and what the readings show of it: the same, or the recipe that is proposed. With the keys of their states.
#[derive(Clone, Copy)]
struct Scenes<'a> {
    scene: &'a Scene<'a>,
    shown: &'a Scene<'a>,
    key: (u64, Revision),
}

/// Draws the readings of a recipe; beside it the one that they show, which is the same or the proposed one, and its key.
pub fn readings_ui(
    ui: &mut Ui,
    (scene, shown): (&Scene<'_>, &Scene<'_>),
    view: &mut View,
    memos: &mut PlotMemos,
    key: (u64, Revision),
    actions: &mut Vec<Action>,
) {
    let palette = Palette::of(ui);
    let scenes = Scenes { scene, shown, key };
    let (size, columns) = arrangement(ui.available_width(), view.targets.is_some());
    view.shows_every_reading = columns.is_some();
    Panel::right("readings")
        .resizable(false)
        .exact_size(size)
        .frame(Frame::new().fill(palette.panel).inner_margin(Margin { left: 20, right: 16, top: 10, bottom: 0 }))
        .show(ui, |ui| {
            // A child of exactly this size: what is too wide inside must not push the sheet aside.
            let place = ui.available_rect_before_wrap();
            let ui = &mut ui.new_child(egui::UiBuilder::new().max_rect(place));
            if let Some(columns) = columns {
                side_by_side_ui(ui, columns, scenes, view, memos, actions);
                return;
            }
            view.shown_anew = None;
            let readings: Vec<Reading> = view.targets.iter().map(|_| Reading::Targets).chain(Reading::ALL).collect();
            let names: Vec<&str> = readings.iter().map(|reading| name(*reading)).collect();
            let selected = readings.iter().position(|reading| *reading == view.reading).unwrap_or(0);
            let id = Id::unique("readings");
            if view.focus == Some(Focus::Readings) {
                view.focus = None;
                focus_tab(ui, id, selected);
            }
            if let Some(chosen) = tabs_ui(ui, id, &names, selected)
                && let Some(reading) = readings.get(chosen)
            {
                actions.push(Action::Show(*reading));
            }
            ui.add_space(space::NEAR);
            let in_front = [view.reading];
            column_ui(ui, &in_front, None, true, scenes, view, memos, actions);
        });
}

/// What the readings take of this width, and in which columns they stand; `None` where one is in front.
fn arrangement(width: f32, has_targets: bool) -> (f32, Option<Columns>) {
    let arrangements = if has_targets { BESIDE_TARGETS } else { SIDE_BY_SIDE };
    let beside = arrangements.into_iter().find_map(|columns| {
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let size = beside_each_other(width, columns.len() as f32)?;
        Some((size, Some(columns)))
    });
    beside.unwrap_or_else(|| ((width * SHARE).clamp(NARROWEST, WIDEST), None))
}

/// What so many columns take of this width; `None` where they have no room.
fn beside_each_other(width: f32, columns: f32) -> Option<f32> {
    /// Between and beside readings that stand side by side.
    const GAPS: f32 = 60.0;
    /// Of what is left beside two sheets and all readings, the readings begin to grow this much earlier.
    const EARLIER: f32 = 360.0;
    let all = columns * NARROWEST + GAPS;
    (width - SHEET_BESIDE_ALL >= all).then(|| (width - 2.0 * SHEET_BESIDE_ALL + EARLIER).min(columns * WIDEST).max(all))
}

fn side_by_side_ui(
    ui: &mut Ui,
    arranged: Columns,
    scenes: Scenes<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    actions: &mut Vec<Action>,
) {
    let on_keys = column_on_keys(ui, arranged, view.reading);
    ui.columns(arranged.len(), |columns| {
        for (place, (ui, readings)) in columns.iter_mut().zip(arranged).enumerate() {
            // Columns justify their text; sentences are easier to read with a ragged edge.
            ui.with_layout(egui::Layout::top_down(egui::Align::Min), |ui| {
                ui.add_space(space::NEAR);
                column_ui(ui, readings, Some(place), place == on_keys, scenes, view, memos, actions);
            });
        }
    });
}

/// Leaves the room of a reading that stands under another where nobody sees it: nothing is computed and laid out for it then.
///
/// Its head is always there, so that it can be reached with the keyboard; it then scrolls into sight.
fn is_out_of_sight(ui: &mut Ui, height: Id) -> bool {
    /// Of the height of the column: what comes into sight next is there already.
    const AHEAD: f32 = 0.25;
    let Some(height) = ui.data(|data| data.get_temp::<f32>(height)) else { return false };
    let room = egui::Rect::from_min_size(ui.cursor().min, egui::vec2(ui.available_width(), height));
    let sight = ui.clip_rect();
    let is_seen = room.expand2(egui::vec2(0.0, AHEAD * sight.height())).intersects(sight);
    let focused = ui.memory(egui::Memory::focused).and_then(|id| ui.ctx().read_response(id));
    let with_head = room.expand2(egui::vec2(0.0, space::GROUP + space::TARGET));
    let has_keyboard = focused.is_some_and(|focused| with_head.contains(focused.rect.center()));
    // While the keyboard moves on, nobody has it: whoever is next has to be there.
    let is_moving = ui.input(|input| input.key_pressed(egui::Key::Tab));
    if is_seen || has_keyboard || is_moving {
        return false;
    }
    ui.allocate_rect(room, egui::Sense::hover());
    true
}

/// The head of a reading that stands beside others.
fn head_ui(ui: &mut Ui, reading: Reading, view: &mut View) {
    let head = stop_label(ui, theme::strong(name(reading)));
    if view.focus == Some(Focus::Readings) && reading == view.reading {
        view.focus = None;
        head.request_focus();
    }
    if view.shown_anew == Some(reading) {
        view.shown_anew = None;
        head.scroll_to_me(Some(egui::Align::TOP));
    }
}

/// Which of the columns beside each other the keys scroll: the one that has the keyboard, else the one in front.
fn column_on_keys(ui: &Ui, columns: Columns, in_front: Reading) -> usize {
    let of_front = columns.iter().position(|readings| readings.contains(&in_front)).unwrap_or(0);
    let Some(focused) = ui.memory(egui::Memory::focused).and_then(|id| ui.ctx().read_response(id)) else {
        return of_front;
    };
    let area = ui.available_rect_before_wrap();
    let x = focused.rect.center().x;
    if x < area.left() {
        return of_front;
    }
    #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
    let width = area.width() / columns.len() as f32;
    let mut right = area.left();
    let found = columns.iter().position(|_| {
        right += width;
        x < right
    });
    found.unwrap_or(of_front)
}

/// Readings under each other in one scrolled column; beside others each has its name over it.
#[expect(clippy::too_many_arguments, reason = "a reading draws from everything")]
fn column_ui(
    ui: &mut Ui,
    readings: &[Reading],
    place: Option<usize>,
    is_on_keys: bool,
    scenes: Scenes<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    actions: &mut Vec<Action>,
) {
    let area = ScrollArea::vertical().id_salt(("readings", readings, place)).auto_shrink([false, false]);
    let has_verdict = readings.contains(&Reading::Targets) && view.targets.is_some();
    // A column beside others is laid out past the edge of the window.
    let room = ui.available_rect_before_wrap().intersect(ui.clip_rect());
    let mut above;
    let column = if has_verdict {
        let above_verdict = targets::above_verdict(room, view);
        above = ui.new_child(egui::UiBuilder::new().max_rect(above_verdict));
        &mut above
    } else {
        &mut *ui
    };
    area.show(column, |ui| {
        ui.spacing_mut().item_spacing.y = 12.0;
        // Room for the scroll bar beside the cards.
        ui.set_max_width(ui.available_width() - 6.0);
        let is_of_proposal = view.targets.as_ref().is_some_and(|targets| targets.shown_answer().is_some());
        if is_of_proposal && !readings.contains(&Reading::Targets) {
            proposal_ui(ui, view);
        }
        for (above, reading) in readings.iter().enumerate() {
            if place.is_some() {
                if above > 0 {
                    ui.add_space(space::GROUP);
                }
                head_ui(ui, *reading, view);
            }
            let height = Id::unique(("height of a reading", *reading));
            if above > 0 && is_out_of_sight(ui, height) {
                continue;
            }
            let top = ui.cursor().top();
            if *reading == Reading::Targets {
                targets::targets_ui(ui, scenes.scene, view);
            } else {
                reading_ui(ui, *reading, scenes.shown, view, memos, scenes.key, actions);
            }
            let drawn = ui.min_rect().bottom() - top;
            ui.data_mut(|data| data.insert_temp(height, drawn));
        }
        ui.add_space(space::NEAR + if has_verdict { targets::room_for_verdict(view) } else { 0.0 });
        if is_on_keys && !view.is_on_findings {
            scroll_by_keys(ui);
        }
    });
    if has_verdict {
        targets::verdict_ui(ui, room, view, actions);
    }
}

/// Says that the figures below are those of the proposal, and leads back.
fn proposal_ui(ui: &mut Ui, view: &mut View) {
    ui.horizontal_wrapped(|ui| {
        ghost_label(ui, "dashed: the recipe as it is");
        ui.label(theme::caption(ui, "· the rest: as proposed"));
        let words = egui::RichText::new("show the recipe").font(theme::small()).color(Palette::of(ui).accent);
        if quiet_button(ui, words).clicked()
            && let Some(targets) = &mut view.targets
        {
            targets.shows_answer = false;
        }
    });
}

fn reading_ui(
    ui: &mut Ui,
    reading: Reading,
    scene: &Scene<'_>,
    view: &mut View,
    memos: &mut PlotMemos,
    document: (u64, Revision),
    actions: &mut Vec<Action>,
) {
    match reading {
        Reading::Targets => {}
        Reading::MakeUp => make_up::make_up_ui(ui, scene, view, actions),
        Reading::Emulsion => {
            let edge =
                memos.jamming_edge.get(document, || crate::report::figures::jamming_edge(&scene.analysis.make_up.bowl));
            let pinned = scene.pin.map(|pin| {
                let bowl = pin.bowl();
                memos.pinned_jamming_edge.get(pin.number, || crate::report::figures::jamming_edge(bowl)).as_slice()
            });
            emulsion::emulsion_ui(ui, scene, view, emulsion::Edges { now: edge, pinned }, actions);
        }
        Reading::Water => {
            let now = memos.water.get(document, || water::WaterCurves::of(&scene.document.recipe, scene.analysis));
            let pinned = scene.pin.map(|pin| {
                memos.pinned_water.get(pin.number, || water::WaterCurves::of(&pin.document.recipe, &pin.analysis))
            });
            water::water_ui(ui, scene, view, water::Curves { now, pinned }, actions);
        }
        Reading::FatCrystals => {
            let cocoa_butter = scene.document.recipe.cocoa_butter;
            let alone =
                memos.cocoa_butter_alone.get(cocoa_butter, || crate::report::figures::cocoa_butter_alone(cocoa_butter));
            let dilution = memos.dilution.get(cocoa_butter, || crate::report::figures::dilution_curves(cocoa_butter));
            let cream = *memos.cream.get(cocoa_butter, || fat_crystals::cream_of(cocoa_butter));
            let (at, sign) = (view.at.0.to_bits(), view.sign);
            // How long it sets belongs to the plan, and is computed once for both readings.
            let set = memos.setting.get(document, || setting::course(&scene.document.recipe, scene.analysis));
            let now = || fat_crystals::plan::Texts::of(scene.analysis, set.as_ref().ok(), sign);
            let plan = fat_crystals::plan::PlanTexts {
                now: memos.plan.get((document, at, sign), now),
                pinned: scene.pin.map(|pin| {
                    let course = || setting::course(&pin.document.recipe, &pin.analysis);
                    let set = memos.pinned_setting.get(pin.number, course).as_ref().ok();
                    let of_pin = || fat_crystals::plan::Texts::of(&pin.analysis, set, sign);
                    memos.pinned_plan.get((pin.number, at, sign), of_pin)
                }),
            };
            let curves = fat_crystals::Curves { alone, dilution, cream, plan };
            fat_crystals::fat_crystals_ui(ui, scene, view, curves, actions);
        }
        Reading::Setting => {
            let now = memos.setting.get(document, || setting::course(&scene.document.recipe, scene.analysis));
            let pinned = scene.pin.map(|pin| {
                memos.pinned_setting.get(pin.number, || setting::course(&pin.document.recipe, &pin.analysis))
            });
            setting::setting_ui(ui, scene, view, setting::Courses { now, pinned }, actions);
        }
    }
}

/// What a right click on a plot offers.
fn save_menu_ui(ui: &mut Ui, plot: PlotName, actions: &mut Vec<Action>) {
    for form in PlotForm::ALL {
        if ui.button(text::plot::save_as(form)).clicked() {
            actions.push(Action::SavePlot(plot, form));
            ui.close();
        }
    }
}

/// A plot in a card of its own, with the menu that saves it.
///
/// What it explains is shown where `explained` names it: a part that is pointed at, or the mark while the plot has the
/// keyboard.
fn plot_card_ui(
    ui: &mut Ui,
    plot: PlotName,
    subtitle: &str,
    (figure, height, sign): (&Figure, f32, DecimalSign),
    actions: &mut Vec<Action>,
    explained: impl FnOnce(PlotPart) -> Option<Explanation>,
) {
    let title = text::plot::title(plot);
    let card = Card::new().title(title).subtitle(subtitle).ui(ui, |ui| figure_ui(ui, title, figure, height, sign));
    let Plotted { response, pointed } = card.inner;
    response.context_menu(|ui| save_menu_ui(ui, plot, actions));
    let by_keys = is_attended_by_keys(&response).then_some(PlotPart::Mark);
    if let Some(explanation) = pointed.or(by_keys).and_then(explained) {
        explain(&response, || explanation);
    }
}

/// A plain sentence in a card, where a reading has nothing to show.
fn nothing_ui(ui: &mut Ui, words: &str) {
    Card::new().ui(ui, |ui| ui.label(theme::quiet(ui, words)));
}

/// "22.4 %", or nothing where nothing is pinned.
fn pinned(value: Option<f64>, decimals: u32, unit: &str, sign: DecimalSign) -> Option<String> {
    value.map(|value| format!("{} {unit}", crate::number::fixed(value, decimals, sign)).trim_end().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reading_is_legible_and_the_sheet_keeps_its_room() {
        let widths = || (0..1000_u16).map(|step| 10.0 * f32::from(step));
        for (width, has_targets) in widths().flat_map(|width| [(width, false), (width, true)]) {
            let (size, columns) = arrangement(width, has_targets);
            let Some(columns) = columns else {
                assert!((NARROWEST..=WIDEST).contains(&size), "{width}: {size}");
                continue;
            };
            assert!(size >= columns.iter().map(|_| NARROWEST).sum::<f32>(), "{width}: {size}");
            assert!(width - size >= SHEET_BESIDE_ALL, "{width}: {size}");
        }
        assert_eq!(
            [1280.0, 1990.0, 2400.0, 2560.0, 4000.0].map(|width| {
                let (size, columns) = arrangement(width, false);
                (size, columns.map_or(1, <[_]>::len))
            }),
            [(0.43 * 1280.0, 1), (1350.0, 3), (1480.0, 3), (1780.0, 4), (2480.0, 4)]
        );
    }

    #[test]
    fn every_arrangement_has_every_reading_once_in_its_order() {
        for columns in SIDE_BY_SIDE {
            let all: Vec<Reading> = columns.iter().copied().flatten().copied().collect();
            assert_eq!(all, Reading::ALL);
        }
        for columns in BESIDE_TARGETS {
            let mut all: Vec<Reading> = columns.iter().copied().flatten().copied().collect();
            assert_eq!(all.remove(0), Reading::Targets, "in front of the others");
            assert_eq!(all, Reading::ALL);
        }
    }
}
