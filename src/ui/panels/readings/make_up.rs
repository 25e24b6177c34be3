//! The reading Make-up: what the mass is made of, and which line brings what.

mod cost;
mod food;

use egui::{Align, Grid, Label, Layout, RichText, TextWrapMode, Ui};

use super::{nothing_ui, save_menu_ui};
use crate::analysis::parts::{Group, Parts};
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, grams};
use crate::recipe::Line;
use crate::report::figure::AxisRange;
use crate::report::figures::PlotName;
use crate::ui::explanations::{composition, sheet};
use crate::ui::text;
use crate::ui::theme::{self, Hue, Palette};
use crate::ui::view::{Action, Pointed, Scene, View};
use crate::ui::widgets::{
    Card, Explanation, FigureNumber, FigureRow, Segment, SegmentBar, explain, figure_rows_ui, ghost_label, is_attended,
    stop_label,
};
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

/// Other fat below this is mostly the lecithin of couvertures: a figure only where it weighs.
const LEAST_OTHER_FAT: MassFraction = MassFraction(0.02);

/// Figures in a row.
const COLUMNS: usize = 3;

pub(super) fn make_up_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    let bowl = &scene.analysis.make_up.bowl;
    if bowl.total().0 <= 0.0 {
        nothing_ui(ui, "Give the lines amounts, and what the mass is made of stands here");
        return;
    }
    Card::new().ui(ui, |ui| figures_ui(ui, scene, view));
    let card = Card::new()
        .title(text::plot::title(PlotName::Composition))
        .subtitle("grams in the batch by line")
        .ui(ui, |ui| lines_ui(ui, scene, view));
    card.response.container_context_menu(|ui| save_menu_ui(ui, PlotName::Composition, actions));
    if scene.pin.is_some() {
        Card::new()
            .title("Against the pin")
            .subtitle("bar: now · outline: pinned")
            .ui(ui, |ui| against_pin_ui(ui, scene, view));
    }
    Card::new()
        .title("Energy and sweetness")
        .subtitle("by what it is made of")
        .ui(ui, |ui| food::food_ui(ui, scene, view.sign));
    if let Some(cost) = scene.costs.now {
        Card::new()
            .title("Cost")
            .subtitle("of the ingredients, by your price list")
            .ui(ui, |ui| cost::cost_ui(ui, scene, cost, view.sign, actions));
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
        .filter(|(group, _)| {
            *group != Group::OtherFat || bowl.group_share(*group).is_none_or(|share| share >= LEAST_OTHER_FAT)
        })
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
    ui.horizontal_wrapped(|ui| summary_ui(ui, scene, sign));
}

fn figure_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, group: Group, hue: Hue, width: f32) {
    let sign = view.sign;
    let bowl = &scene.analysis.make_up.bowl;
    let value = bowl.group_share(group).map(|share| fixed(share.to_percent(), 1, sign));
    let weight = grams_words(bowl.group(group), sign);
    let ghost = scene.pin.map(|pin| {
        let percent = percent_words(pin.bowl().group_share(group), 1, sign);
        format!("{percent}, {}", grams_words(pin.bowl().group(group), sign))
    });
    let response = FigureNumber::new(value.as_deref(), "%", hue.words())
        .detail(&weight)
        .ghost(ghost.as_deref())
        .hue(hue)
        .column(width)
        .ui(ui);
    if is_attended(&response) {
        view.point_at(Pointed::Hue(hue));
    }
    explain(&response, || composition::group(group, scene, sign));
}

fn percent_words(share: Option<MassFraction>, decimals: u32, sign: DecimalSign) -> String {
    share.map_or_else(|| "not known".to_owned(), |share| format!("{} %", fixed(share.to_percent(), decimals, sign)))
}

fn grams_words(part: Option<Grams>, sign: DecimalSign) -> String {
    part.map_or_else(|| "not known".to_owned(), |part| format!("{} g", grams(part.0, sign)))
}

/// What the large figures leave out, and whether the sum closes.
fn summary_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let bowl = &scene.analysis.make_up.bowl;
    let stop_ui = |ui: &mut Ui, words: String| stop_label(ui, theme::quiet(ui, words));
    let dot_ui = |ui: &mut Ui| ui.label(theme::quiet(ui, "·"));
    let with_pinned = |words: String, of: &dyn Fn(&Parts) -> Option<MassFraction>| match scene.pin {
        Some(pin) => format!("{words} (pinned {})", percent_words(of(pin.bowl()), 1, sign)),
        None => words,
    };
    let other_fat = |parts: &Parts| parts.group_share(Group::OtherFat);
    if let Some(share) = other_fat(bowl)
        && share.0 > 0.0
        && share.0 < LEAST_OTHER_FAT.0
    {
        let words = with_pinned(format!("other fat {}", percent_words(Some(share), 1, sign)), &other_fat);
        explain(&stop_ui(ui, words), || composition::group(Group::OtherFat, scene, sign));
        dot_ui(ui);
    }
    let ethanol = |parts: &Parts| parts.share(Component::Ethanol);
    let is_more_than_none = |share: Option<MassFraction>| share.is_some_and(|share| share.0 > 0.0);
    if is_more_than_none(ethanol(bowl)) || scene.pin.is_some_and(|pin| is_more_than_none(ethanol(pin.bowl()))) {
        let words = with_pinned(format!("alcohol {}", percent_words(ethanol(bowl), 1, sign)), &ethanol);
        explain(&stop_ui(ui, words), || composition::component(Component::Ethanol, scene));
        dot_ui(ui);
    }
    let words = match bowl.unassigned() {
        Some(open) => {
            let percent = percent_words(Some(open / bowl.total()), 1, sign);
            if percent.trim_start_matches('−') == percent_words(Some(MassFraction::ZERO), 1, sign) {
                "nothing unassigned".to_owned()
            } else {
                format!("unassigned {percent}: left open by data sheets")
            }
        }
        None => "a figure is not known: see the findings".to_owned(),
    };
    let open = |parts: &Parts| Some(parts.unassigned()? / parts.total());
    let has_changed =
        scene.pin.is_some_and(|pin| percent_words(open(pin.bowl()), 1, sign) != percent_words(open(bowl), 1, sign));
    let words = if has_changed { with_pinned(words, &open) } else { words };
    explain(&stop_ui(ui, words), || composition::unassigned(scene, sign));
}

fn lines_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View) {
    let make_up = &scene.analysis.make_up;
    let pinned_lines = scene.pin.map_or(&[][..], |pin| pin.analysis.make_up.lines.as_slice());
    let most = make_up.lines.iter().chain(pinned_lines).map(|line| line.parts.total().0).fold(0.0, f64::max);
    let axis = AxisRange::from_zero("grams", most);
    let palette = Palette::of(ui);
    let name_width = (ui.available_width() * 0.34).min(190.0);
    let amount_width = 66.0;
    for (line, brought) in scene.document.recipe.lines.iter().zip(&make_up.lines) {
        let before = scene.pin.map(|pin| pin.line(line).and_then(|line| pin.brought(line.id)));
        let response = ui
            .horizontal(|ui| {
                let colour = if view.is_line_lit(scene, line.id) { palette.accent } else { palette.text };
                let name = RichText::new(&line.ingredient.name).color(colour);
                ui.allocate_ui_with_layout(egui::vec2(name_width, 22.0), Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(name_width);
                    ui.add(Label::new(name).wrap_mode(TextWrapMode::Truncate));
                });
                ui.scope(|ui| {
                    ui.set_max_width(ui.available_width() - amount_width - 8.0);
                    line_bar_ui(
                        ui,
                        scene,
                        view,
                        line,
                        (&brought.parts, before.flatten().map(|line| &line.parts)),
                        axis.to,
                    );
                });
                let layout =
                    if before.is_some() { Layout::top_down(Align::Max) } else { Layout::right_to_left(Align::Center) };
                ui.with_layout(layout, |ui| {
                    ui.spacing_mut().item_spacing.y = 0.0;
                    let words = theme::quiet(ui, grams_words(Some(brought.parts.total()), view.sign));
                    explain(&stop_label(ui, words), sheet::line_total);
                    if let Some(before) = before {
                        let words = grams_words(before.map(|before| before.parts.total()), view.sign);
                        ghost_label(ui, if before.is_some() { &words } else { "–" });
                    }
                });
            })
            .response;
        if response.contains_pointer() && view.pointed_now.is_none() {
            view.point_at(Pointed::Line(line.id));
        }
    }
    ui.horizontal(|ui| {
        ui.add_space(name_width + ui.spacing().item_spacing.x);
        axis_ui(ui, &axis, ui.available_width() - amount_width - 8.0, view.sign);
    });
    let gone: Vec<String> = lines_of_the_pin_alone(scene, view.sign);
    if !gone.is_empty() {
        ui.label(theme::caption(ui, format!("only in the pinned state: {}", gone.join(", "))));
    }
    let before = scene.pin.map(|pin| pin.analysis.make_up.evaporated);
    if make_up.evaporated.0 > 0.0 || before.is_some_and(|before| before.0 > 0.0) {
        let gone = grams_words(Some(make_up.evaporated), view.sign);
        let pinned = before.map(|before| format!(" (pinned {})", grams_words(Some(before), view.sign)));
        let words = format!("before evaporation: {gone} of the water leaves{}", pinned.unwrap_or_default());
        explain(&stop_label(ui, theme::caption(ui, words)), || sheet::evaporation(view.sign));
    }
}

/// The axis under the bars: ticks at round figures, those that have room with their grams.
fn axis_ui(ui: &mut Ui, axis: &AxisRange, width: f32, sign: DecimalSign) {
    let palette = Palette::of(ui);
    let (rect, _) = ui.allocate_exact_size(egui::vec2(width.max(1.0), 24.0), egui::Sense::hover());
    let painter = ui.painter();
    painter.hline(rect.x_range(), rect.top() + 3.0, palette.rule_stroke());
    // The last first: it carries the unit, and others give way to it.
    let mut free_to = f32::INFINITY;
    for value in axis.ticks().into_iter().rev() {
        #[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
        let x = egui::lerp(rect.x_range(), axis.share(value) as f32);
        painter.vline(x, rect.top()..=rect.top() + 6.0, egui::Stroke::new(1.0, palette.mark));
        let words = if value >= axis.to { format!("{} g", grams(value, sign)) } else { grams(value, sign) };
        let galley = painter.layout_no_wrap(words, theme::small(), palette.quiet);
        let left = (x - galley.size().x / 2.0).clamp(rect.left(), rect.right() - galley.size().x);
        if left + galley.size().x + 6.0 < free_to {
            free_to = left;
            painter.galley(egui::pos2(left, rect.top() + 8.0), galley, palette.quiet);
        }
    }
}

/// What one line consists of as a bar, and under it the same in the pinned state.
fn line_bar_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &mut View,
    line: &Line,
    (now, before): (&Parts, Option<&Parts>),
    most: f64,
) {
    let segments: Vec<Segment> = Hue::ALL
        .into_iter()
        .map(|hue| {
            let part = hue.grams(now).unwrap_or_default().0;
            Segment::new(format!("{} {} g", hue.words(), grams(part, view.sign)), part, hue).short("")
        })
        .collect();
    let ghost: Option<Vec<f64>> =
        scene.pin.map(|_| Hue::ALL.map(|hue| before.and_then(|parts| hue.grams(parts)).unwrap_or_default().0).to_vec());
    let highlighted = match view.pointed {
        Some(Pointed::Hue(hue)) => Hue::ALL.iter().position(|other| *other == hue),
        _ => None,
    };
    let output = SegmentBar::new(&line.ingredient.name, &segments)
        .total(most)
        .height(16.0)
        .ghost(ghost.as_deref())
        .highlighted(highlighted)
        .ui_with(ui, |ui, idx| {
            let Some(&hue) = Hue::ALL.get(idx) else { return };
            let before = scene.pin.map(|_| before.and_then(|parts| hue.grams(parts)).unwrap_or_default().0);
            if let Some(before) = before {
                ui.label(theme::caption(ui, format!("pinned {} g", grams(before, view.sign))));
            }
            composition::brought(hue, &line.ingredient.name, scene).ui(ui);
        });
    if let Some(hue) = output.hovered.and_then(|idx| Hue::ALL.get(idx)) {
        view.point_at(Pointed::Hue(*hue));
    }
}

/// Lines that were taken out since the state was pinned.
fn lines_of_the_pin_alone(scene: &Scene<'_>, sign: DecimalSign) -> Vec<String> {
    let Some(pin) = scene.pin else { return Vec::new() };
    let now = &scene.document.recipe.lines;
    let is_there = |line: &Line| now.iter().any(|other| pin.line(other).is_some_and(|before| before.id == line.id));
    pin.document
        .recipe
        .lines
        .iter()
        .filter(|line| !is_there(line))
        .map(|line| format!("{} {} g", line.ingredient.name, grams(line.amount.grams().0, sign)))
        .collect()
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
            explain(&stop_label(ui, hue.words()), || composition::group(group, scene, sign));
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
            explain(&right_ui(ui, theme::strong(text(now))), || composition::group(group, scene, sign));
            explain(&right_ui(ui, theme::quiet(ui, text(before))), || composition::group(group, scene, sign));
            let points = now.zip(before).map(|(now, before)| {
                let points = fixed(now - before, 1, sign);
                if now - before >= 0.05 { format!("+{points}") } else { points }
            });
            let points = theme::quiet(ui, points.unwrap_or_else(|| "–".to_owned()));
            explain(&right_stop_ui(ui, points), || composition::difference(group, scene, sign));
            ui.end_row();
        }
    });
}

/// A row of the full table.
#[derive(Clone, Copy)]
enum FullRow {
    Component(Component),
    Unassigned,
    Group(Group),
}

impl FullRow {
    fn words(self) -> &'static str {
        match self {
            Self::Component(component) => component.words(),
            Self::Unassigned => "left open by data sheets",
            Self::Group(group) => group.words(),
        }
    }

    fn grams(self, parts: &Parts) -> Option<Grams> {
        match self {
            Self::Component(component) => parts.grams(component),
            Self::Unassigned => parts.unassigned(),
            Self::Group(group) => parts.group(group),
        }
    }

    fn figures(self, parts: &Parts, sign: DecimalSign) -> [String; 2] {
        let grams = self.grams(parts);
        let percent = grams.filter(|_| parts.total().0 > 0.0).map(|grams| grams / parts.total());
        let weight = grams.map_or_else(|| "not known".to_owned(), |part| format!("{} g", fixed(part.0, 1, sign)));
        [percent_words(percent, 2, sign), weight]
    }

    fn explanation(self, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
        match self {
            Self::Component(component) => composition::component(component, scene),
            Self::Unassigned => composition::unassigned(scene, sign),
            Self::Group(group) => composition::group(group, scene, sign),
        }
    }
}

fn full_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let bowl = &scene.analysis.make_up.bowl;
    let is_there = |parts: &Parts, component| parts.grams(component).is_none_or(|part| part.0 > 0.0);
    let components = Component::ALL
        .into_iter()
        .filter(|&component| is_there(bowl, component) || scene.pin.is_some_and(|pin| is_there(pin.bowl(), component)))
        .map(FullRow::Component)
        .chain([FullRow::Unassigned])
        .collect::<Vec<_>>();
    let groups = [Group::MilkSolidsNonFat, Group::DryCocoaSolids, Group::SyrupSolids].map(FullRow::Group);
    for (place, rows) in [components.as_slice(), &groups].into_iter().enumerate() {
        if place > 0 {
            ui.separator();
        }
        let figures: Vec<FigureRow> = rows
            .iter()
            .map(|row| {
                let figures = FigureRow::new(row.words(), row.figures(bowl, sign));
                match scene.pin {
                    Some(pin) => figures.pinned(row.figures(pin.bowl(), sign)),
                    None => figures,
                }
            })
            .collect();
        figure_rows_ui(ui, &figures, |place| {
            rows.get(place).map_or_else(|| composition::unassigned(scene, sign), |row| row.explanation(scene, sign))
        });
    }
}

fn right_stop_ui(ui: &mut Ui, words: RichText) -> egui::Response {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| stop_label(ui, words)).inner
}

fn right_ui(ui: &mut Ui, words: RichText) -> egui::Response {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(words)).inner
}
