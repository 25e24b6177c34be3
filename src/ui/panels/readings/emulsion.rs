//! The reading Emulsion: phase volumes hot, the fat–water map, what is usual for the use.

use egui::{Id, Ui};

use super::rescue::split_ui;
use super::{nothing_ui, pinned, plot_card_ui};
use crate::analysis::emulsion::{CLOSEST_PACKING, Emulsion, EmulsionState, FatToWater, HOT, JAMMING, brought_by};
use crate::analysis::finding::Finding;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::syrup::LEAST_WATER;
use crate::analysis::usual::UsualRange;
use crate::number::{DecimalSign, fixed, round_half_up, shortest};
use crate::report::figures::{self, Edge, PlotName};
use crate::report::words;
use crate::ui::explanations::composition;
use crate::ui::explanations::emulsion::{self as explanations, Phase};
use crate::ui::theme::{self, Hue, Palette};
use crate::ui::view::{Action, Pointed, Scene, View};
use crate::ui::widgets::fold::Fold;
use crate::ui::widgets::{
    Card, FigureNumber, FigureRow, RangeRow, Segment, SegmentBar, explain, figure_rows_ui, figures_ui, range_rows_ui,
};
use crate::units::{MassFraction, Millilitres, VolumeFraction};

/// The edges of the region in which oil-in-water holds.
#[derive(Clone, Copy)]
pub(super) struct Edges<'a> {
    /// For this recipe.
    pub now: &'a [Edge],
    /// For the pinned state.
    pub pinned: Option<&'a [Edge]>,
}

pub(super) fn emulsion_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    edges: Edges<'_>,
    actions: &mut Vec<Action>,
) {
    match scene.analysis.emulsion {
        EmulsionState::Unknown => nothing_ui(ui, words::not_known(scene.analysis)),
        EmulsionState::FatContinuous => nothing_ui(
            ui,
            &format!(
                "Fat-continuous: under {} % water there is no emulsion to hold together. Keep water out, and look at Fat \
                 crystals for how it sets",
                shortest(LEAST_WATER.to_percent(), 1, view.sign)
            ),
        ),
        EmulsionState::Dry => nothing_ui(
            ui,
            &format!("No emulsion: under {} % water, and no fat", shortest(LEAST_WATER.to_percent(), 1, view.sign)),
        ),
        EmulsionState::Emulsion(emulsion) => {
            let hot = shortest(HOT.0, 0, view.sign);
            Card::new().ui(ui, |ui| head_ui(ui, scene, view, emulsion));
            Card::new()
                .title("Phase volumes, hot")
                .subtitle(&format!("at {hot} °C, the dispersed part first"))
                .ui(ui, |ui| volumes_ui(ui, scene, view, emulsion));
            map_ui(ui, scene, view, edges, actions);
            // Beside the finding that announces it.
            if scene.analysis.findings.iter().any(Finding::announces_split) {
                Card::new().ui(ui, |ui| {
                    Fold::new(Id::unique("rescue of the emulsion"), "If it splits")
                        .detail("what helps")
                        .ui(ui, split_ui);
                });
            }
        }
    }
    if scene.analysis.emulsion.emulsion().is_none() {
        pinned_alone_ui(ui, scene, view);
    }
    usual_ui(ui, scene, view);
}

/// What the pinned state was, where now has nothing to stand beside it.
fn pinned_alone_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    let Some(before) = scene.pin.and_then(|pin| pin.analysis.emulsion.emulsion()) else { return };
    let sign = view.sign;
    let row = |name: &str, figure: String| FigureRow::new(name, ["none".to_owned()]).pinned([figure]);
    let mut rows = vec![
        row("dispersed share, hot", fixed(before.dispersed_share().0, 2, sign)),
        row("fat to water, by mass", format!("{} : 1", fixed(before.fat_to_water, 2, sign))),
    ];
    rows.extend(
        PHASES.map(|(phase, _)| row(phase.words(), format!("{} ml", fixed(volume_of(phase, &before).0, 0, sign)))),
    );
    Card::new().title("The pinned state").ui(ui, |ui| {
        figure_rows_ui(ui, &rows, |place| match (place, place.checked_sub(2).and_then(|place| PHASES.get(place))) {
            (_, Some((phase, _))) => explanations::volume(*phase, scene, sign),
            (0, None) => explanations::dispersed_share(scene, sign),
            _ => explanations::fat_to_water(scene, sign),
        });
    });
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
    let place = FatToWater::of(emulsion.fat_to_water, scene.document.recipe.kind).map_or("", words::fat_to_water);
    let of_jamming = format!("of {}", fixed(JAMMING.0, 2, sign));
    let ghosts = [
        pinned(before.map(|before| before.dispersed_share().0), 2, "", sign),
        pinned(before.map(|before| before.fat_to_water), 2, ": 1", sign),
        pinned(scene.pin.and_then(|pin| fat_share(&pin.analysis)), 1, "%", sign),
    ];
    let responses = figures_ui(
        ui,
        &[
            FigureNumber::new(Some(&dispersed), &of_jamming, "dispersed share, hot").ghost(ghosts[0].as_deref()),
            FigureNumber::new(Some(&ratio), ": 1", "fat to water, by mass").detail(place).ghost(ghosts[1].as_deref()),
            FigureNumber::new(fat.as_deref(), "%", "fat in the mass").ghost(ghosts[2].as_deref()),
        ],
    );
    for (place, response) in responses.iter().enumerate() {
        explain(response, || match place {
            0 => explanations::dispersed_share(scene, sign),
            1 => explanations::fat_to_water(scene, sign),
            _ => composition::group(Group::TotalFat, scene, sign),
        });
    }
}

/// The phases from left to right, with their colours: the dispersed ones first.
const PHASES: [(Phase, Hue); 3] =
    [(Phase::Fat, Hue::CocoaButter), (Phase::Particles, Hue::CocoaSolids), (Phase::Water, Hue::Water)];

fn volume_of(phase: Phase, emulsion: &Emulsion) -> Millilitres {
    match phase {
        Phase::Fat => emulsion.fat,
        Phase::Particles => emulsion.insoluble,
        Phase::Water => emulsion.water_phase,
    }
}

fn share_of(phase: Phase, emulsion: &Emulsion) -> VolumeFraction {
    volume_of(phase, emulsion) / emulsion.total()
}

fn volumes_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, emulsion: Emulsion) {
    let sign = view.sign;
    let before = scene.pin.and_then(|pin| pin.analysis.emulsion.emulsion());
    let segments = PHASES.map(|(phase, hue)| {
        let volume = fixed(volume_of(phase, &emulsion).0, 0, sign);
        Segment::new(format!("{} {volume} ml", phase.words()), share_of(phase, &emulsion).0, hue)
            .short(format!("{volume} ml"))
    });
    let ghost = before.map(|before| PHASES.map(|(phase, _)| share_of(phase, &before).0));
    let brought = view.pointed_line(scene).and_then(|line| brought_by(&line, &scene.analysis.make_up.bowl));
    let lit = brought.map(|brought| PHASES.map(|(phase, _)| share_of(phase, &emulsion).0 * phase.brought(&brought).0));
    let output = SegmentBar::new("phase volumes", &segments)
        .height(36.0)
        .lit(lit.as_ref().map(<[f64; 3]>::as_slice))
        .ghost(ghost.as_ref().map(<[f64; 3]>::as_slice))
        .ui_with(ui, |ui, idx| {
            if let Some((phase, _)) = PHASES.get(idx) {
                explanations::volume(*phase, scene, sign).ui(ui);
            }
        });
    scale_ui(ui, scene, sign);
    let figures = |phase, emulsion: &Emulsion| {
        let (volume, share) = (volume_of(phase, emulsion).0, share_of(phase, emulsion).0);
        [format!("{} %", fixed(100.0 * share, 1, sign)), format!("{} ml", fixed(volume, 0, sign))]
    };
    let rows = PHASES.map(|(phase, hue)| {
        let row = FigureRow::new(phase.words(), figures(phase, &emulsion)).fill(hue.fill());
        match before {
            Some(before) => row.pinned(figures(phase, &before)),
            None => row,
        }
    });
    let in_rows = figure_rows_ui(ui, &rows, |place| {
        let (phase, _) = PHASES.get(place).copied().unwrap_or(PHASES[0]);
        explanations::volume(phase, scene, sign)
    });
    if let Some((phase, _)) = output.hovered.or(in_rows).and_then(|idx| PHASES.get(idx)) {
        view.point_at(if *phase == Phase::Fat { Pointed::Fat } else { Pointed::Volume(*phase) });
    }
}

/// The limits under the bar, at their places.
fn scale_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let palette = Palette::of(ui);
    let (rect, response) = ui.allocate_exact_size(egui::vec2(ui.available_width(), 30.0), egui::Sense::hover());
    explain(&response, || explanations::dispersed_share(scene, sign));
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

fn map_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, edges: Edges<'_>, actions: &mut Vec<Action>) {
    let pinned = scene.pin.zip(edges.pinned).map(|(pin, edge)| (pin.analysis.as_ref(), edge));
    let Some(figure) = figures::fat_water_map(scene.analysis, pinned, edges.now, view.sign) else { return };
    let mut subtitle = format!(
        "shaded: oil-in-water holds, for this recipe's sugars and cocoa · line: dispersed share {}",
        fixed(JAMMING.0, 2, view.sign)
    );
    if !scene.analysis.usual.is_empty() {
        subtitle.push_str(" · dashed box: usual for the use");
    }
    subtitle.push_str(&scene.ghost_in_legend());
    let drawn = (&figure, 200.0, view.sign);
    let explained = |_| Some(explanations::dispersed_share(scene, view.sign));
    plot_card_ui(ui, PlotName::FatWaterMap, &subtitle, drawn, actions, explained);
}

fn usual_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    let usual = &scene.analysis.usual;
    let Some(column) = usual.first().map(|range| range.column) else { return };
    let sign = view.sign;
    let is_shown = |range: &&UsualRange| {
        range.concerns(&scene.analysis.make_up.bowl) || scene.pin.is_some_and(|pin| range.concerns(pin.bowl()))
    };
    let usual: Vec<&UsualRange> = usual.iter().filter(is_shown).collect();
    let rows: Vec<RangeRow> = usual
        .iter()
        .map(|range| {
            let percent = |parts: &Parts| range.of.of(parts).map(MassFraction::to_percent);
            let text = |value: Option<f64>| {
                value.map_or_else(|| "not known".to_owned(), |value| format!("{} %", fixed(value, 1, sign)))
            };
            // Compared as shown, as the findings do.
            let shown = |value: Option<f64>| value.map(|value| round_half_up(value, 1));
            let now = percent(&scene.analysis.make_up.bowl);
            let pinned = scene.pin.map(|pin| percent(pin.bowl()));
            RangeRow {
                label: range.of.words().to_owned(),
                value: shown(now),
                value_text: text(now),
                // Of "less than 2", 2 itself lies outside: half a digit below is where the track ends.
                usual: Some([range.low, if range.high_is_outside { range.high - 0.05 } else { range.high }]),
                usual_text: words::usual_range(range, sign),
                pinned: pinned.and_then(shown),
                pinned_text: pinned.map(text).unwrap_or_default(),
            }
        })
        .collect();
    Card::new()
        .title(&format!("Usual for {}", column.words()))
        .subtitle("% of the mass · common practice; point at a row for what is published")
        .ui(ui, |ui| {
            for (response, range) in range_rows_ui(ui, &rows).into_iter().zip(usual) {
                explain(&response, || explanations::usual(range, scene, sign));
            }
        });
}
