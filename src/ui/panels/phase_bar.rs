//! The mass drawn as one bar at the temperature of the thermometer.

use egui::Ui;

use crate::analysis::phase_bar::{PhaseBar, brought_by};
use crate::number::{DecimalSign, fixed};
use crate::ui::explanations::sheet as explanations;
use crate::ui::theme::{self, Hue, space};
use crate::ui::view::{Pointed, Scene, View};
use crate::ui::widgets::{Segment, SegmentBar, explain, ghost_label, legend_entry};
use crate::units::MassFraction;

/// A share of the mass that shows as more than 0.0 %.
const SEEN: f64 = 0.0005;

/// Draws the bar with the temperature under it.
pub fn phase_bar_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let Some(bar) = scene.analysis.phase_bar else {
        if scene.analysis.make_up.bowl.total().0 > 0.0 {
            ui.label(theme::quiet(ui, "The phases are not known: a figure is missing, see the findings"));
        }
        if let Some(before) = scene.pin.and_then(|pin| pin.analysis.phase_bar) {
            let (segments, _) = segments(&before, view.sign);
            let there: Vec<&str> =
                segments.iter().filter(|segment| segment.share > 0.0).map(|segment| segment.label.as_str()).collect();
            ghost_label(ui, &there.join(", "));
        }
        return;
    };
    let (segments, hues) = segments(&bar, view.sign);
    let ghost = scene.pin.and_then(|pin| pin.analysis.phase_bar).map(|pinned| shares(&pinned));
    let highlighted = match view.pointed {
        Some(Pointed::Hue(hue)) => hues.iter().position(|other| *other == hue),
        Some(Pointed::PhaseBar(place)) => Some(place),
        _ => None,
    };
    let own = shares(&bar);
    let line = view.pointed_line(scene);
    let brought = line.and_then(|line| brought_by(&line, &scene.analysis.make_up.bowl, scene.analysis.at));
    let lit = brought.map(|brought| {
        let brought = brought.shares();
        std::array::from_fn::<f64, 6, _>(|idx| own[idx] * brought[idx].0)
    });
    let pinned = ghost.map(|ghost| ghost.map(|share| percent(share, view.sign)));
    let output = SegmentBar::new("phases", &segments)
        .height(40.0)
        .lit(lit.as_ref().map(<[f64; 6]>::as_slice))
        .ghost(ghost.as_ref().map(<[f64; 6]>::as_slice))
        .highlighted(highlighted)
        .ui_with(ui, |ui, idx| {
            if let Some(pinned) = pinned.as_ref().and_then(|pinned| pinned.get(idx)) {
                ui.label(theme::caption(ui, format!("pinned {pinned}")));
            }
            explanations::phase_bar(scene).ui(ui);
        });
    ui.add_space(space::TIGHT);
    let legend = legend_ui(ui, scene, view, &segments, &output.unlabelled);
    if let Some(place) = output.hovered.or(legend) {
        view.point_at(match hues.get(place) {
            Some(Hue::CocoaButter) => Pointed::Fat,
            Some(Hue::CocoaSolids) => Pointed::Hue(Hue::CocoaSolids),
            // Not all of the colour is in it: glucose is syrup, milk minerals are no particles.
            _ => Pointed::PhaseBar(place),
        });
    }
}

/// What the bar is, with the segments that had no room for a word, or with all of them and what they were when pinned.
fn legend_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, segments: &[Segment], unlabelled: &[usize]) -> Option<usize> {
    let pinned = scene.pin.map(|pin| pin.analysis.phase_bar.as_ref().map(shares));
    let mut pointed = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(5.0, 2.0);
        let at = fixed(scene.analysis.at.0, 1, view.sign);
        let mut words = format!("at {at} °C, % of the mass");
        if scene.pin.is_none() && !unlabelled.contains(&0) {
            words.push_str(" · hatched: crystallised");
        }
        let has_crystals =
            segments.iter().any(|segment| segment.label.starts_with("undissolved") && segment.share >= SEEN);
        if scene.document.recipe.is_cooked() && has_crystals {
            words.push_str(" · sugar as after graining");
        }
        let label = ui.label(theme::caption(ui, words));
        explain(&label, || explanations::phase_bar(scene));
        for (idx, segment) in segments.iter().enumerate() {
            let before = pinned.map(|pinned| pinned.and_then(|shares| shares.get(idx).copied()));
            let was_there = before.flatten().is_some_and(|share| share >= SEEN);
            let is_compared = before.is_some() && (was_there || segment.share > 0.0);
            if !(unlabelled.contains(&idx) || is_compared) {
                continue;
            }
            let words = before.map(|before| before.map_or_else(|| "–".to_owned(), |share| percent(share, view.sign)));
            let response = legend_entry(ui, segment, words.as_deref());
            if response.contains_pointer() {
                pointed = Some(idx);
            }
            explain(&response, || explanations::phase_bar(scene));
        }
    });
    pointed
}

fn percent(share: f64, sign: DecimalSign) -> String {
    format!("{} %", fixed(MassFraction(share).to_percent(), 0, sign))
}

fn shares(bar: &PhaseBar) -> [f64; 6] {
    [
        bar.fat_crystals.0,
        bar.liquid_fat.0,
        bar.syrup.0,
        bar.undissolved_sugar.0,
        bar.cocoa_particles.0,
        bar.other_particles.0.max(0.0),
    ]
}

fn segments(bar: &PhaseBar, sign: DecimalSign) -> (Vec<Segment>, [Hue; 6]) {
    let syrup = if bar.is_dry { "water" } else { "syrup" };
    let sugar = if bar.is_dry { "sugar" } else { "undissolved sugar" };
    let hues = [Hue::CocoaButter, Hue::CocoaButter, Hue::Water, Hue::Sugars, Hue::CocoaSolids, Hue::OtherSolids];
    let names = [
        ("fat crystals", "crystals", "Crystallised fat."),
        ("liquid fat", "liquid", "Fat that is melted at this temperature."),
        (syrup, syrup, "Water with what is dissolved in it."),
        (sugar, "sugar", "Sugar that is not dissolved: particles."),
        ("cocoa", "cocoa", "Fat-free cocoa particles."),
        ("other particles", "other", "Protein, starch, fibre, and what data sheets leave open."),
    ];
    let segments = names
        .into_iter()
        .zip(shares(bar))
        .zip(hues)
        .map(|(((name, short, detail), share), hue)| {
            let percent = percent(share, sign);
            let segment = Segment::new(format!("{name} {percent}"), share, hue)
                .short(format!("{short} {percent}"))
                .detail(detail);
            if name == "fat crystals" { segment.hatched() } else { segment }
        })
        .collect();
    (segments, hues)
}
