//! The reading Emulsion: phase volumes hot, the fat–water map, what is usual for the use.

use egui::{RichText, Ui};

use super::{nothing_ui, pinned};
use crate::analysis::emulsion::{CLOSEST_PACKING, Emulsion, EmulsionState, JAMMING};
use crate::analysis::parts::Group;
use crate::number::{DecimalSign, fixed, round_half_up};
use crate::report::{figures, words};
use crate::ui::explanations;
use crate::ui::plot::figure_ui;
use crate::ui::theme::{self, Hue, Palette};
use crate::ui::view::{Pointed, Scene, View};
use crate::ui::widgets::{Card, FigureNumber, RangeRow, Segment, SegmentBar, explain, figures_ui, range_rows_ui};
use crate::units::{Grams, MassFraction, Millilitres};

pub(super) fn emulsion_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, edge: &[[f64; 2]]) {
    match scene.analysis.emulsion {
        EmulsionState::Unknown if scene.analysis.make_up.bowl.total() == Grams::ZERO => {
            nothing_ui(ui, "Give the lines amounts, and how fat and water hold together stands here");
        }
        EmulsionState::Unknown => nothing_ui(ui, "Not known: a figure is missing, see the findings"),
        EmulsionState::FatContinuous => nothing_ui(
            ui,
            "Fat-continuous: under 2 % water there is no emulsion to hold together. Keep water out, and look at Fat \
             crystals for how it sets",
        ),
        EmulsionState::Emulsion(emulsion) => {
            Card::new().ui(ui, |ui| head_ui(ui, scene, view, emulsion));
            Card::new()
                .title("Phase volumes, hot")
                .subtitle("millilitres at 40 °C, the dispersed part first")
                .ui(ui, |ui| volumes_ui(ui, scene, view, emulsion));
            map_ui(ui, scene, view, edge);
        }
    }
    usual_ui(ui, scene, view);
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, emulsion: Emulsion) {
    let sign = view.sign;
    let before = scene.pin.and_then(|pin| pin.analysis.emulsion.emulsion());
    let fat_share = |analysis: &crate::analysis::Analysis| {
        analysis.make_up.bowl.group_share(Group::TotalFat).map(MassFraction::to_percent)
    };
    let dispersed = fixed(emulsion.dispersed_share().0, 2, sign);
    let ratio = fixed(emulsion.fat_to_water, 2, sign);
    let fat = fat_share(scene.analysis).map(|percent| fixed(percent, 1, sign));
    let of_jamming = format!("of {}", fixed(JAMMING.0, 2, sign));
    let ghosts = [
        pinned(before.map(|before| before.dispersed_share().0), 2, "", sign),
        pinned(before.map(|before| before.fat_to_water), 2, ": 1", sign),
        pinned(scene.pin.and_then(|pin| fat_share(&pin.analysis)), 1, "%", sign),
    ];
    let explanations =
        [explanations::dispersed_share(), explanations::fat_to_water(), explanations::group(Group::TotalFat)];
    figures_ui(
        ui,
        &[
            FigureNumber::new(Some(&dispersed), &of_jamming, "dispersed share, hot")
                .ghost(ghosts[0].as_deref())
                .explanation(&explanations[0]),
            FigureNumber::new(Some(&ratio), ": 1", "fat to water, by mass")
                .ghost(ghosts[1].as_deref())
                .explanation(&explanations[1]),
            FigureNumber::new(fat.as_deref(), "%", "fat in the mass")
                .ghost(ghosts[2].as_deref())
                .explanation(&explanations[2]),
        ],
    );
}

fn volumes_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, emulsion: Emulsion) {
    let sign = view.sign;
    let names = ["fat", "particles", "water phase"];
    let parts = [
        ("fat", emulsion.fat, Hue::CocoaButter),
        ("particles", emulsion.insoluble, Hue::CocoaSolids),
        ("water phase", emulsion.water_phase, Hue::Water),
    ];
    let segments = parts.map(|(name, volume, hue)| {
        let volume = fixed(volume.0, 0, sign);
        Segment::new(format!("{name} {volume} ml"), share_of(&emulsion, name), hue).short(format!("{volume} ml"))
    });
    let ghost = scene
        .pin
        .and_then(|pin| pin.analysis.emulsion.emulsion())
        .map(|before| parts.map(|(name, ..)| share_of(&before, name)));
    let lit = view.brought_by_pointed(scene).map(|brought| {
        let brought = [brought.fat, brought.cocoa, brought.syrup];
        std::array::from_fn::<f64, 3, _>(|idx| share_of(&emulsion, names[idx]) * brought[idx].clamp(0.0, 1.0))
    });
    let output = SegmentBar::new("phase volumes", &segments)
        .height(36.0)
        .lit(lit.as_ref().map(<[f64; 3]>::as_slice))
        .ghost(ghost.as_ref().map(<[f64; 3]>::as_slice))
        .ui(ui);
    if let Some((.., hue)) = output.hovered.and_then(|idx| parts.get(idx)) {
        let is_fat = *hue == Hue::CocoaButter;
        view.point_at(if is_fat { Pointed::Fat } else { Pointed::Hue(*hue) });
    }
    scale_ui(ui, sign);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        for (name, _, hue) in parts {
            let percent = fixed(100.0 * share_of(&emulsion, name), 1, sign);
            let label = ui
                .horizontal(|ui| {
                    ui.spacing_mut().item_spacing.x = 6.0;
                    let (rect, _) = ui.allocate_exact_size(egui::vec2(12.0, 12.0), egui::Sense::hover());
                    ui.painter().rect_filled(rect, 3.0, hue.fill());
                    ui.label(RichText::new(format!("{name} {percent} %")).font(theme::small()))
                })
                .inner;
            explain(&label, &explanations::volume(name));
        }
    });
}

fn share_of(emulsion: &Emulsion, name: &str) -> f64 {
    let volume: Millilitres = match name {
        "fat" => emulsion.fat,
        "particles" => emulsion.insoluble,
        _ => emulsion.water_phase,
    };
    (volume / emulsion.total()).0
}

/// The limits under the bar, at their places.
fn scale_ui(ui: &mut Ui, sign: DecimalSign) {
    let palette = Palette::of(ui);
    let (rect, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), 30.0), egui::Sense::hover());
    let painter = ui.painter();
    let top = rect.top() - 6.0;
    painter.hline(rect.x_range(), top + 5.0, palette.rule_stroke());
    let marks = [
        (0.0, "0".to_owned(), egui::Align2::LEFT_TOP),
        (JAMMING.0, format!("droplets jam {}", fixed(JAMMING.0, 2, sign)), egui::Align2::RIGHT_TOP),
        (CLOSEST_PACKING.0, format!("{} may split", fixed(CLOSEST_PACKING.0, 2, sign)), egui::Align2::LEFT_TOP),
        (1.0, "1".to_owned(), egui::Align2::RIGHT_TOP),
    ];
    for (share, words, anchor) in marks {
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let x = egui::lerp(rect.x_range(), share as f32);
        painter.vline(x, top..=top + 10.0, egui::Stroke::new(1.5, palette.quiet));
        let x = if anchor == egui::Align2::RIGHT_TOP && share < 1.0 { x + 4.0 } else { x };
        painter.text(egui::pos2(x, top + 12.0), anchor, words, theme::small(), palette.quiet);
    }
}

fn map_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, edge: &[[f64; 2]]) {
    let pinned = scene.pin.map(|pin| pin.analysis.as_ref());
    let Some(figure) = figures::fat_water_map(scene.analysis, pinned, edge, view.sign) else { return };
    let subtitle = if scene.analysis.usual.is_empty() {
        "shaded: oil-in-water holds, for this recipe's sugars and cocoa · line: dispersed share 0.64"
    } else {
        "shaded: oil-in-water holds, for this recipe's sugars and cocoa · dashed: usual for the use"
    };
    Card::new()
        .title("Fat–water map")
        .subtitle(subtitle)
        .ui(ui, |ui| figure_ui(ui, "fat-water map", &figure, 200.0, view.sign));
}

fn usual_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    let usual = &scene.analysis.usual;
    let Some(column) = usual.first().map(|range| range.column) else { return };
    let sign = view.sign;
    let rows: Vec<RangeRow> = usual
        .iter()
        .map(|range| {
            let value = range.of.of(&scene.analysis.make_up.bowl).map(MassFraction::to_percent);
            RangeRow {
                label: range.of.words().to_owned(),
                // Compared as shown, as the findings do.
                value: value.map(|value| round_half_up(value, 1)),
                value_text: value
                    .map_or_else(|| "not known".to_owned(), |value| format!("{} %", fixed(value, 1, sign))),
                // Of "less than 2", 2 itself lies outside: half a digit below is where the track ends.
                usual: Some([range.low, if range.high_is_outside { range.high - 0.05 } else { range.high }]),
                usual_text: words::usual_range(range, sign),
            }
        })
        .collect();
    Card::new()
        .title(&format!("Usual for {}", column.words()))
        .subtitle("% of the mass · common practice; point at a row for what is published")
        .ui(ui, |ui| {
            for (response, range) in range_rows_ui(ui, &rows).into_iter().zip(usual) {
                explain(&response, &explanations::usual(range, sign));
            }
        });
}
