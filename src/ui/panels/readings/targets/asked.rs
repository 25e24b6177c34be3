//! What is asked: a row for each target, with where the result lies now and then.

use egui::{Align, Id, Label, Layout, RichText, TextWrapMode, Ui, WidgetInfo, accesskit::Role};

use super::Empty;
use crate::number::{DecimalSign, fixed};
use crate::reformulate::{Bound, Decides, Figure, Measured, Reached, Target};
use crate::report::words::capital;
use crate::report::words::reformulation::{
    Money, away, bare_unit, check_bound, check_value, decimals, likely, measured, unit,
};
use crate::ui::explanations::targets as explanations;
use crate::ui::panels::head::menu_ui;
use crate::ui::panels::results_menu::ResultsMenu;
use crate::ui::targets::{AskedTarget, Targets, target_at_present};
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Scene, View};
use crate::ui::widgets::fold::Fold;
use crate::ui::widgets::{Card, explain, focus_cell, focus_ring, stop_label};

/// Left of what stands under a row: the box of its check mark.
const INDENT: f32 = 24.0;

pub(super) fn asked_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, view: &View) {
    Card::new().title("What it has to do").ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        rows_ui(ui, scene, targets, view, false);
        add_ui(ui, scene, targets, view);
        if targets.asked.targets.iter().any(|row| row.is_usual) {
            let detail = usual_in_short(targets);
            let id = Id::unique("targets: what is usual");
            Fold::new(id, "Usual for the use").detail(&detail).ui(ui, |ui| {
                let words = "Ticked at first is what holds now. What lies outside is left to you.";
                ui.add(Label::new(theme::caption(ui, words)).wrap_mode(TextWrapMode::Wrap));
                rows_ui(ui, scene, targets, view, true);
            });
        }
    });
}

/// The rows of what was asked for by name, or of what is usual.
fn rows_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, view: &View, are_usual: bool) {
    let mut removed = None;
    let mut is_first = true;
    for idx in 0..targets.asked.targets.len() {
        if targets.asked.targets.get(idx).is_none_or(|row| row.is_usual != are_usual) {
            continue;
        }
        if !std::mem::take(&mut is_first) {
            let (rule, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), 3.0), egui::Sense::hover());
            ui.painter().hline(rule.x_range(), rule.center().y, Palette::of(ui).rule_stroke());
        }
        ui.scope(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            if row_ui(ui, scene, targets, idx, view.sign) {
                removed = Some(idx);
            }
        });
    }
    if let Some(idx) = removed {
        targets.asked.targets.remove(idx);
    }
}

/// "7 of 9 asked for, all met".
fn usual_in_short(targets: &Targets) -> String {
    let usual: Vec<&AskedTarget> = targets.asked.targets.iter().filter(|row| row.is_usual).collect();
    let on: Vec<&&AskedTarget> = usual.iter().filter(|row| row.is_on).collect();
    let reached = |row: &&&AskedTarget| targets.worked.as_ref()?.reached(row.number).copied();
    let missed = on.iter().filter_map(reached).filter(|reached| !reached.is_met()).count();
    let verdict = match missed {
        _ if on.is_empty() || targets.worked.is_none() => String::new(),
        0 => ", all met".to_owned(),
        missed => format!(", {missed} missed"),
    };
    format!("{} of {} asked for{verdict}", on.len(), usual.len())
}

/// The cell of the first bound of a target.
fn bound_id(number: u32) -> Id {
    Id::unique(("bound of a target", number))
}

/// One target; whether it is to be taken out.
fn row_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, idx: usize, sign: DecimalSign) -> bool {
    let (typed_next, worked) = (targets.typed_next, targets.worked.clone());
    let Some(row) = targets.asked.targets.get_mut(idx) else { return false };
    let name = measured(row.target.of, sign);
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        let words = if row.is_on { theme::strong(capital(&name)) } else { theme::quiet(ui, capital(&name)) };
        let tick = ui.checkbox(&mut row.is_on, words);
        focus_ring(ui, &tick, tick.rect, space::FIELD_RADIUS);
        tick.on_hover_text("Whether this is asked for");
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = space::TIGHT;
            bound_ui(ui, row, &name, scene.money(), sign);
        });
    });
    if typed_next == Some(row.number) {
        targets.typed_next = None;
        focus_cell(ui.ctx(), bound_id(row.number));
    }
    let Some(row) = targets.asked.targets.get_mut(idx) else { return false };
    let mut is_removed = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.add_space(INDENT);
        let reached = worked.as_ref().filter(|_| row.is_on).and_then(|worked| worked.reached(row.number));
        let figures = match reached {
            Some(reached) => {
                figures(reached, worked.as_ref().is_some_and(|worked| worked.document.is_some()), scene.money(), sign)
            }
            None if row.is_on => String::new(),
            None => not_asked(scene, &row.target, sign),
        };
        let label = stop_label(ui, theme::caption(ui, figures));
        let of = row.target.of;
        explain(&label, || explanations::result(of, scene, sign));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = space::TIGHT;
            is_removed = super::remove_ui(ui, &format!("target: {name}"));
            ui.add_space(space::TIGHT);
            // What came of another bound is no verdict on this one.
            if let Some(reached) = reached.filter(|reached| reached.target == row.target) {
                verdict_ui(ui, reached, scene.money(), sign);
            }
        });
    });
    if row.is_on && row.target.of.has_band() {
        let reached = worked.as_ref().and_then(|worked| worked.reached(row.number)).copied();
        band_ui(ui, scene, row, &name, reached, sign);
    }
    is_removed
}

/// Where the bound stands and what kind it is; drawn from the right.
fn bound_ui(ui: &mut Ui, row: &mut AskedTarget, name: &str, money: Money<'_>, sign: DecimalSign) {
    /// Wide enough for "0.875" and "2,350".
    const CELL: f32 = 52.0;
    let of = row.target.of;
    let unit = unit(of, money);
    let unit = unit.trim();
    let word = money.filter(|_| of == Measured::Cost).map(ToString::to_string);
    // With or without the word for money, or with that alone.
    let units: &[&str] = &[unit, bare_unit(of).trim(), word.as_deref().unwrap_or(unit)];
    let cell = |ui: &mut Ui, id: Id, which: &str, now: f64, bound: &dyn Fn(f64) -> Bound| {
        let name = format!("{name}, {which}");
        let explanation = || explanations::bound(of, sign);
        let check = |value: f64| check_value(of, value, sign).and_then(|()| check_bound(of, bound(value), sign));
        let shown = (Some(now), Empty::IsRefused, sign);
        super::number_ui(ui, (id, &name, CELL), shown, (units, &check), explanation).number().map(bound)
    };
    if !unit.is_empty() {
        ui.label(theme::quiet(ui, unit));
    }
    let (first, second) = (bound_id(row.number), bound_id(row.number).with("high"));
    let mut changed = row.target.bound;
    match row.target.bound {
        Bound::AtMost(at) => changed = cell(ui, first, "at most", at, &Bound::AtMost).unwrap_or(changed),
        Bound::AtLeast(at) => changed = cell(ui, first, "at least", at, &Bound::AtLeast).unwrap_or(changed),
        Bound::Near(at) => changed = cell(ui, first, "near", at, &Bound::Near).unwrap_or(changed),
        Bound::Between(low, high) => {
            // From the left, so that Tab leads from the lower end to the upper one.
            let to = ui.painter().layout_no_wrap("to".to_owned(), theme::body(), Palette::of(ui).quiet).size().x;
            let width = 2.0 * (CELL + ui.spacing().item_spacing.x) + to;
            let size = egui::vec2(width, ui.spacing().interact_size.y);
            changed = ui
                .allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
                    // Ends that stand the wrong way round are refused: the other end is not changed without a word.
                    let typed_low = cell(ui, first, "from", low, &|low| Bound::Between(low, high));
                    ui.label(theme::quiet(ui, "to"));
                    let typed_high = cell(ui, second, "to", high, &|high| Bound::Between(low, high));
                    typed_low.or(typed_high).unwrap_or(changed)
                })
                .inner;
        }
    }
    let (now, at) = match changed {
        Bound::AtMost(at) => ("at most", at),
        Bound::AtLeast(at) => ("at least", at),
        Bound::Near(at) => ("near", at),
        Bound::Between(low, _) => ("from", low),
    };
    let hover = "Where the result has to lie; “near” is a wish that is met as far as everything else allows";
    let menu = menu_ui(ui, now, hover, |ui| {
        let high = if let Bound::Between(_, high) = changed { high } else { at };
        let kinds = [
            ("at most", Bound::AtMost(high)),
            ("at least", Bound::AtLeast(at)),
            ("from … to …", Bound::Between(at, high)),
            ("as near as possible to", Bound::Near(f64::midpoint(at, high))),
        ];
        for (words, kind) in kinds {
            let is_chosen = std::mem::discriminant(&kind) == std::mem::discriminant(&changed);
            if ui.selectable_label(is_chosen, words).clicked() {
                if !is_chosen {
                    changed = kind;
                }
                ui.close();
            }
        }
    });
    menu.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("kind of bound, {name}: {now}")));
    if changed != row.target.bound && changed.is_sound() {
        row.target = Target { bound: changed, ..row.target };
    }
}

/// The band of a result, and the switch that lets its unfavourable edge decide.
fn band_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    row: &mut AskedTarget,
    name: &str,
    reached: Option<Reached>,
    sign: DecimalSign,
) {
    let of = row.target.of;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.add_space(INDENT);
        if !row.target.bound.is_wish() {
            let mut is_by_edge = row.target.by == Decides::UnfavourableEdge;
            let edge = match row.target.bound {
                Bound::AtMost(_) => "the upper end decides",
                Bound::AtLeast(_) => "the lower end decides",
                Bound::Between(..) | Bound::Near(_) => "the worse end decides",
            };
            let tick = ui.checkbox(&mut is_by_edge, RichText::new(edge).font(theme::small()));
            tick.widget_info(|| {
                WidgetInfo::selected(Role::CheckBox, true, is_by_edge, format!("band of {name}: {edge}"))
            });
            focus_ring(ui, &tick, tick.rect, space::FIELD_RADIUS);
            explain(&tick, explanations::edge);
            row.target.by = if is_by_edge { Decides::UnfavourableEdge } else { Decides::Value };
        }
        let Some((low, high)) = reached.and_then(|reached| reached.after.band) else { return };
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let bare = |number: f64| fixed(number, decimals(of), sign);
            let label = stop_label(ui, theme::caption(ui, format!("band {} to {}", bare(low), bare(high))));
            explain(&label, || explanations::result(of, scene, sign));
        });
    });
}

/// "now 0.897 → 0.850".
fn figures(reached: &Reached, is_another: bool, money: Money<'_>, sign: DecimalSign) -> String {
    let of = reached.target.of;
    let bare = |figure: Figure| {
        let is_plain = !of.is_upper_end(figure);
        if is_plain { fixed(figure.value, decimals(of), sign) } else { likely(of, figure, money, sign) }
    };
    let unit = if of == Measured::Energy { " kJ".into() } else { unit(of, money) };
    if is_another {
        format!("now {} → {}{unit}", bare(reached.before), bare(reached.after))
    } else {
        format!("now {}{unit}", bare(reached.before))
    }
}

/// Of what is not asked for, where it lies now.
fn not_asked(scene: &Scene<'_>, target: &Target, sign: DecimalSign) -> String {
    let of = target.of;
    match scene.mass().figure(of) {
        Some(figure) if target.is_met_by(figure) => {
            format!("not asked for · now {}", likely(of, figure, scene.money(), sign))
        }
        Some(figure) => format!("not asked for · now {}, outside", likely(of, figure, scene.money(), sign)),
        None => "not asked for · not known".to_owned(),
    }
}

/// Whether it is met, as a sign and a word.
fn verdict_ui(ui: &mut Ui, reached: &Reached, money: Money<'_>, sign: DecimalSign) {
    /// Width and height of the check mark.
    const CHECK: egui::Vec2 = egui::vec2(12.0, 12.0);
    let palette = Palette::of(ui);
    let of = reached.target.of;
    let by = reached.target.missed_by(reached.after);
    let is_checked = reached.is_met() && !reached.target.bound.is_wish();
    let (words, colour) = if reached.target.bound.is_wish() {
        (away(&reached.target, reached.after, money, sign), palette.quiet)
    } else if reached.is_met() {
        let words = if reached.is_binding { "met, at its limit" } else { "met" };
        (words.to_owned(), palette.accent)
    } else {
        let places = (decimals(of)..decimals(of) + 3).find(|places| crate::number::round_half_up(by, *places) > 0.0);
        (format!("! misses {}", fixed(by, places.unwrap_or(decimals(of) + 3), sign)), palette.caution)
    };
    ui.label(RichText::new(words).font(theme::small_bold()).color(colour));
    if is_checked {
        let (rect, _) = ui.allocate_exact_size(CHECK, egui::Sense::hover());
        let points = [(0.1, 0.55), (0.4, 0.85), (0.95, 0.15)];
        let points = points.map(|(x, y)| rect.lerp_inside(egui::vec2(x, y))).to_vec();
        ui.painter().add(egui::Shape::line(points, egui::Stroke::new(1.8, colour)));
    }
}

/// The menu that adds a target.
fn add_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, view: &View) {
    let asked = &targets.asked.targets;
    let why_not = |of: Measured| {
        if asked.iter().any(|row| row.target.of == of) {
            Some("It stands in the list")
        } else if scene.mass().figure(of).is_none() {
            Some("This recipe has no such figure, or a part of it is not known, such as a price")
        } else {
            None
        }
    };
    let menu = ResultsMenu {
        words: "+ add a target",
        at: view.at,
        last: (
            "Taste, energy, cost, batch",
            &[Measured::Sweetness, Measured::Energy, Measured::Cost, Measured::FinishedMass],
        ),
        why_not: &why_not,
    };
    let chosen = menu.ui(ui, view.sign);
    if let Some(target) = chosen.and_then(|of| target_at_present(of, scene)) {
        targets.typed_next = Some(targets.asked.set_target(target));
    }
}
