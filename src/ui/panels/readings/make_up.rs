//! The reading Make-up: what the mass is made of, and which line brings what.

use egui::{Align, Grid, Label, Layout, RichText, TextWrapMode, Ui};

use super::{nothing_ui, pinned};
use crate::analysis::parts::{Group, Parts};
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, grams};
use crate::ui::explanations;
use crate::ui::theme::{self, Hue, Palette};
use crate::ui::view::{Pointed, Scene, View};
use crate::ui::widgets::{Card, Explanation, FigureNumber, Segment, SegmentBar, explain};
use crate::units::{Grams, MassFraction};

/// The groups of the large figures, with their colours.
const FIGURES: [(Group, Hue); 7] = [
    (Group::CocoaButter, Hue::CocoaButter),
    (Group::MilkFat, Hue::MilkFat),
    (Group::OtherFat, Hue::OtherFat),
    (Group::Sugars, Hue::Sugars),
    (Group::Water, Hue::Water),
    (Group::FatFreeCocoaSolids, Hue::CocoaSolids),
    (Group::OtherSolids, Hue::OtherSolids),
];

/// Figures in a row.
const COLUMNS: usize = 3;

pub(super) fn make_up_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let bowl = &scene.analysis.make_up.bowl;
    if bowl.total().0 <= 0.0 {
        nothing_ui(ui, "Give the lines amounts, and what the mass is made of stands here");
        return;
    }
    Card::new().ui(ui, |ui| figures_ui(ui, scene, view));
    Card::new().title("Who brings what").subtitle("grams in the batch by line").ui(ui, |ui| lines_ui(ui, scene, view));
    if scene.pin.is_some() {
        Card::new()
            .title("Against the pin")
            .subtitle("bar: now · outline: pinned")
            .ui(ui, |ui| against_pin_ui(ui, scene, view));
    }
    Card::new()
        .title("In full")
        .subtitle("g per 100 g, and grams in the bowl")
        .ui(ui, |ui| full_ui(ui, scene, view.sign));
}

fn figures_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let bowl = &scene.analysis.make_up.bowl;
    let sign = view.sign;
    let width = ui.available_width() / 3.0 - 12.0;
    let shown: Vec<(Group, Hue)> = FIGURES
        .into_iter()
        // Other fat is mostly the lecithin of couvertures: a figure only where it weighs.
        .filter(|(group, _)| *group != Group::OtherFat || bowl.group_share(*group).is_none_or(|share| share.0 >= 0.02))
        .collect();
    Grid::new("make-up figures").num_columns(COLUMNS).spacing([12.0, 14.0]).show(ui, |ui| {
        for (place, (group, hue)) in shown.into_iter().enumerate() {
            figure_ui(ui, scene, view, group, hue, width);
            if place % COLUMNS == COLUMNS - 1 {
                ui.end_row();
            }
        }
    });
    ui.separator();
    ui.add(Label::new(theme::quiet(ui, summary(bowl, sign))).wrap_mode(TextWrapMode::Wrap));
}

fn figure_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, group: Group, hue: Hue, width: f32) {
    let sign = view.sign;
    let bowl = &scene.analysis.make_up.bowl;
    let share = bowl.group_share(group);
    let value = share.map(|share| fixed(share.to_percent(), 1, sign));
    let weight = bowl.group(group).map_or_else(|| "not known".to_owned(), |part| format!("{} g", grams(part.0, sign)));
    let ghost = scene.pin.and_then(|pin| pin.analysis.make_up.bowl.group_share(group));
    let ghost = pinned(ghost.map(MassFraction::to_percent), 1, "%", sign);
    let explanation = explanations::group(group);
    let response = FigureNumber::new(value.as_deref(), "%", hue.words())
        .detail(&weight)
        .ghost(ghost.as_deref())
        .hue(hue)
        .explanation(&explanation)
        .min_width(width)
        .ui(ui);
    if response.contains_pointer() {
        view.point_at(Pointed::Hue(hue));
    }
}

/// What the large figures leave out, and whether the sum closes.
fn summary(bowl: &Parts, sign: DecimalSign) -> String {
    let mut words = Vec::new();
    let percent = |share: MassFraction| fixed(share.to_percent(), 1, sign);
    if let Some(share) = bowl.group_share(Group::OtherFat)
        && share.0 > 0.0
        && share.0 < 0.02
    {
        words.push(format!("other fat {} %", percent(share)));
    }
    if let Some(share) = bowl.share(Component::Ethanol)
        && share.0 > 0.0
    {
        words.push(format!("alcohol {} %", percent(share)));
    }
    match bowl.unassigned() {
        Some(open) => {
            let percent = fixed((open / bowl.total()).to_percent(), 1, sign);
            if percent.trim_start_matches('−') == fixed(0.0, 1, sign) {
                words.push("nothing unassigned".to_owned());
            } else {
                words.push(format!("unassigned {percent} %: left open by data sheets"));
            }
        }
        None => words.push("a figure is not known: see the findings".to_owned()),
    }
    words.join(" · ")
}

fn lines_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let make_up = &scene.analysis.make_up;
    let most = make_up.lines.iter().map(|line| line.parts.total().0).fold(0.0, f64::max);
    let palette = Palette::of(ui);
    let name_width = (ui.available_width() * 0.34).min(190.0);
    let amount_width = 58.0;
    for (line, brought) in scene.document.recipe.lines.iter().zip(&make_up.lines) {
        let response = ui
            .horizontal(|ui| {
                let colour = if view.is_line_lit(scene, line.id) { palette.accent } else { palette.text };
                let name = RichText::new(&line.ingredient.name).color(colour);
                ui.allocate_ui_with_layout(egui::vec2(name_width, 22.0), Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(name_width);
                    ui.add(Label::new(name).wrap_mode(TextWrapMode::Truncate));
                });
                let segments: Vec<Segment> = Hue::ALL
                    .into_iter()
                    .map(|hue| {
                        let part = hue.grams(&brought.parts).unwrap_or(0.0);
                        Segment::new(format!("{} {} g", hue.words(), grams(part, view.sign)), part, hue).short("")
                    })
                    .collect();
                let highlighted = match view.pointed {
                    Some(Pointed::Hue(hue)) => Hue::ALL.iter().position(|other| *other == hue),
                    _ => None,
                };
                ui.scope(|ui| {
                    ui.set_max_width(ui.available_width() - amount_width - 8.0);
                    let output = SegmentBar::new(&line.ingredient.name, &segments)
                        .total(most)
                        .height(16.0)
                        .highlighted(highlighted)
                        .ui(ui);
                    if let Some(hue) = output.hovered.and_then(|idx| Hue::ALL.get(idx)) {
                        view.point_at(Pointed::Hue(*hue));
                    }
                });
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    ui.label(theme::quiet(ui, format!("{} g", grams(brought.parts.total().0, view.sign))));
                });
            })
            .response;
        if response.contains_pointer() && view.pointed_now.is_none() {
            view.point_at(Pointed::Line(line.id));
        }
    }
    if make_up.evaporated.0 > 0.0 {
        let gone = grams(make_up.evaporated.0, view.sign);
        ui.label(theme::caption(ui, format!("before evaporation: {gone} g of the water leaves")));
    }
}

fn against_pin_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    let Some(pin) = scene.pin else { return };
    let sign = view.sign;
    let (now, before) = (&scene.analysis.make_up.bowl, &pin.analysis.make_up.bowl);
    let shares: Vec<(Group, Hue, Option<f64>, Option<f64>)> = FIGURES
        .into_iter()
        .map(|(group, hue)| {
            let percent = |parts: &Parts| parts.group_share(group).map(MassFraction::to_percent);
            (group, hue, percent(now), percent(before))
        })
        .collect();
    let most = shares.iter().flat_map(|(_, _, now, before)| [*now, *before]).flatten().fold(0.0, f64::max);
    let text =
        |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| format!("{} %", fixed(value, 1, sign)));
    Grid::new("against the pin").num_columns(5).spacing([10.0, 6.0]).show(ui, |ui| {
        ui.label("");
        ui.label("");
        for head in ["now", "pinned", "points"] {
            right_ui(ui, theme::caption(ui, head));
        }
        ui.end_row();
        for (group, hue, now, before) in shares {
            explain(&ui.label(hue.words()), &explanations::group(group));
            let segment = [Segment::new(hue.words(), now.unwrap_or(0.0), hue).short("")];
            let ghost = before.map(|before| [before]);
            ui.scope(|ui| {
                ui.set_max_width((ui.available_width() - 190.0).max(80.0));
                SegmentBar::new(hue.words(), &segment)
                    .total(most)
                    .height(14.0)
                    .ghost(ghost.as_ref().map(<[f64; 1]>::as_slice))
                    .ui(ui);
            });
            right_ui(ui, theme::strong(text(now)));
            right_ui(ui, theme::quiet(ui, text(before)));
            let points = now.zip(before).map(|(now, before)| {
                let points = fixed(now - before, 1, sign);
                if now - before >= 0.05 { format!("+{points}") } else { points }
            });
            right_ui(ui, theme::quiet(ui, points.unwrap_or_else(|| "–".to_owned())));
            ui.end_row();
        }
    });
}

fn full_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let bowl = &scene.analysis.make_up.bowl;
    ui.spacing_mut().item_spacing.y = 4.0;
    let percent = |share: Option<MassFraction>| share.map(MassFraction::to_percent);
    for component in Component::ALL {
        let part = bowl.grams(component);
        if part.is_none_or(|part| part.0 > 0.0) {
            let mut explanation = Explanation::new(
                component.words(),
                "Sum over the lines; what one line leaves unknown is unknown in the sum.",
            );
            explanation.source =
                Some("The figures of each ingredient; point at its name to see where they come from.".to_owned());
            let figures = (percent(bowl.share(component)), part);
            row_ui(ui, component.words(), figures, &explanation, sign);
        }
    }
    let open = bowl.unassigned();
    let explanation = Explanation::new(
        "left open by data sheets",
        "100 g less everything that the data sheets name. They rarely close; the rest is shown, never spread over the \
         others.",
    );
    let figures = (percent(open.map(|open| open / bowl.total())), open);
    row_ui(ui, "left open by data sheets", figures, &explanation, sign);
    ui.separator();
    for group in [Group::MilkSolidsNonFat, Group::DryCocoaSolids, Group::SyrupSolids] {
        let figures = (percent(bowl.group_share(group)), bowl.group(group));
        row_ui(ui, group.words(), figures, &explanations::group(group), sign);
    }
}

/// A name at the left, percent and grams in columns at the right.
fn row_ui(
    ui: &mut Ui,
    words: &str,
    (percent, part): (Option<f64>, Option<Grams>),
    explanation: &Explanation,
    sign: DecimalSign,
) {
    /// Wide enough for "100.00 %" and "10 000.0 g".
    const COLUMN: f32 = 84.0;
    let unknown = || "not known".to_owned();
    let percent = percent.map_or_else(unknown, |percent| format!("{} %", fixed(percent, 2, sign)));
    let part = part.map_or_else(unknown, |part| format!("{} g", fixed(part.0, 1, sign)));
    let response = ui.horizontal(|ui| {
        ui.label(words);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            for text in [theme::quiet(ui, part), theme::strong(percent)] {
                ui.allocate_ui_with_layout(egui::vec2(COLUMN, 20.0), Layout::right_to_left(Align::Center), |ui| {
                    ui.set_min_width(COLUMN);
                    ui.label(text);
                });
            }
        });
    });
    explain(&response.response, explanation);
}

fn right_ui(ui: &mut Ui, words: RichText) {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(words));
}
