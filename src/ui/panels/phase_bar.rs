//! The mass drawn as one bar at the temperature of the thermometer.

use egui::{Label, TextWrapMode, Ui};

use crate::analysis::phase_bar::PhaseBar;
use crate::number::{DecimalSign, fixed};
use crate::ui::explanations;
use crate::ui::theme::{self, Hue, space};
use crate::ui::view::{Pointed, Scene, View};
use crate::ui::widgets::{Segment, SegmentBar, explain};
use crate::units::MassFraction;

/// Draws the bar with the temperature under it.
pub fn phase_bar_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let Some(bar) = scene.analysis.phase_bar else {
        if scene.analysis.make_up.bowl.total().0 > 0.0 {
            ui.label(theme::quiet(ui, "The phases are not known: a figure is missing, see the findings"));
        }
        return;
    };
    let (segments, hues) = segments(&bar, view.sign);
    let ghost = scene.pin.and_then(|pin| pin.analysis.phase_bar).map(|pinned| shares(&pinned));
    let highlighted = match view.pointed {
        Some(Pointed::Hue(hue)) => hues.iter().position(|other| *other == hue),
        _ => None,
    };
    let own = shares(&bar);
    let lit = view.brought_by_pointed(scene).map(|brought| {
        let parts = [brought.fat, brought.fat, brought.syrup, brought.sucrose, brought.cocoa, brought.others];
        std::array::from_fn::<f64, 6, _>(|idx| own[idx] * parts[idx].clamp(0.0, 1.0))
    });
    let output = SegmentBar::new("phases", &segments)
        .height(40.0)
        .lit(lit.as_ref().map(<[f64; 6]>::as_slice))
        .ghost(ghost.as_ref().map(<[f64; 6]>::as_slice))
        .highlighted(highlighted)
        .ui(ui);
    if let Some(hue) = output.hovered.and_then(|idx| hues.get(idx)) {
        let is_fat = *hue == Hue::CocoaButter;
        view.point_at(if is_fat { Pointed::Fat } else { Pointed::Hue(*hue) });
    }
    ui.add_space(space::TIGHT);
    let at = fixed(scene.analysis.at.0, 1, view.sign);
    let mut words = format!("what it is at {at} °C, % of the mass · hatched: crystallised");
    if ghost.is_some() {
        words.push_str(" · strip below: pinned");
    }
    let label = ui.add(Label::new(theme::caption(ui, words)).wrap_mode(TextWrapMode::Truncate));
    explain(&label, &explanations::phase_bar());
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
    let syrup = if bar.is_fat_continuous { "water" } else { "syrup" };
    let sugar = if bar.is_fat_continuous { "sugar" } else { "undissolved sugar" };
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
            let percent = fixed(MassFraction(share).to_percent(), 0, sign);
            let segment = Segment::new(format!("{name} {percent} %"), share, hue)
                .short(format!("{short} {percent} %"))
                .detail(detail);
            if name == "fat crystals" { segment.hatched() } else { segment }
        })
        .collect();
    (segments, hues)
}
