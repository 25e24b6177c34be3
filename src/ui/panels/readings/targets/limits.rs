//! What may change: rules on amounts, what may be used besides, the batch, what counts as little change, the scale.

use std::sync::Arc;

use egui::{Align, Id, Key, Label, Layout, RichText, TextEdit, TextWrapMode, Ui, WidgetInfo, accesskit::Role};

use super::{Empty, Typed};
use crate::analysis::remedy::Names;
use crate::ingredient::{Ingredient, Library};
use crate::number::{DecimalSign, round_half_up, shortest};
use crate::recipe::{Line, LineId, Recipe};
use crate::reformulate::problem::is_seasoning;
use crate::reformulate::{Change, Place, Rule, Scale};
use crate::report::words::capital;
use crate::report::words::reformulation::amount;
use crate::ui::explanations::targets as explanations;
use crate::ui::panels::head::menu_ui;
use crate::ui::targets::check::{check_times, check_weight};
use crate::ui::targets::{AskedIngredient, AskedLimit, Seasoning, Targets};
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::Scene;
use crate::ui::widgets::{Card, focus_cell, menu_button};
use crate::units::Grams;

/// How a weight may be typed.
const GRAMS: &[&str] = &["g"];
/// How a factor may be typed.
const TIMES: &[&str] = &["×"];
/// Wide enough for "1,250.5".
const CELL: f32 = 60.0;

pub(super) fn limits_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, sign: DecimalSign) {
    let recipe = &scene.document.recipe;
    Card::new().title("What may change").subtitle("Locked lines of the sheet stay as they are").ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        options_ui(ui, recipe, targets, sign);
        seasoning_ui(ui, recipe, targets);
        ui.add_space(space::TIGHT);
        rules_ui(ui, recipe, targets, sign);
        ui.add_space(space::NEAR);
        allowed_ui(ui, targets, recipe.weighed(), sign);
    });
}

/// The batch, what counts as little change, the scale.
fn options_ui(ui: &mut Ui, recipe: &Recipe, targets: &mut Targets, sign: DecimalSign) {
    let asked = &mut targets.asked;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label(theme::quiet(ui, "The batch"));
        let stays = format!("stays at {}", amount(recipe.weighed(), sign));
        let free = "may change its weight";
        let now = if asked.is_total_free { free } else { &stays };
        menu_ui(ui, now, "Whether the lines weigh together what they weigh now", |ui| {
            for (words, is_free) in [(stays.as_str(), false), (free, true)] {
                if ui.selectable_label(asked.is_total_free == is_free, words).clicked() {
                    asked.is_total_free = is_free;
                    ui.close();
                }
            }
        });
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label(theme::quiet(ui, "Change"));
        let words = |change: Change| match change {
            Change::Spread => "a little of every line",
            Change::FewLines => "few lines",
        };
        let hover = "The least change: spread over the lines, or taken by few of them (not always the fewest)";
        menu_ui(ui, words(asked.change), hover, |ui| {
            for change in [Change::Spread, Change::FewLines] {
                if ui.selectable_label(asked.change == change, words(change)).clicked() {
                    asked.change = change;
                    ui.close();
                }
            }
        });
        ui.label(theme::quiet(ui, "· the scale shows"));
        let step = |grams: Grams| format!("{} g", shortest(grams.0, 1, sign));
        let hover = "What the scale for the bowl shows; below 100 g a finer one is taken";
        menu_ui(ui, &step(asked.scale.coarsest), hover, |ui| {
            for coarsest in [0.1, 1.0, 2.0, 5.0, 10.0].map(Grams) {
                if ui.selectable_label(asked.scale.coarsest == coarsest, step(coarsest)).clicked() {
                    asked.scale = Scale { coarsest, ..asked.scale };
                    ui.close();
                }
            }
        });
    });
}

/// Whether seasoning may rise, and which does not; nothing where the recipe has none that could move.
fn seasoning_ui(ui: &mut Ui, recipe: &Recipe, targets: &mut Targets) {
    let can_move = |line: &&Line| is_seasoning(&line.ingredient) && !line.stays();
    if recipe.lines.iter().find(can_move).is_none() {
        return;
    }
    let held = targets.asked.held_seasoning(recipe);
    let seasoning = &mut targets.asked.seasoning;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label(theme::quiet(ui, "Seasoning"));
        let words = |seasoning: &Seasoning| match seasoning {
            Seasoning::Held { .. } => "may fall but not rise",
            Seasoning::Free => "moves like all else",
        };
        let hover = "Spices, additives, coffee, tea and spirits; a limit of its own counts instead. Otherwise salt and \
                     alcohol would be the cheapest way to a low water activity";
        menu_ui(ui, words(seasoning), hover, |ui| {
            for choice in [Seasoning::default(), Seasoning::Free] {
                if ui.selectable_label(words(seasoning) == words(&choice), words(&choice)).clicked() {
                    *seasoning = choice;
                    ui.close();
                }
            }
        });
        if *seasoning != Seasoning::Free {
            let names = Names::of(recipe);
            let lines = held.iter().filter_map(|id| recipe.line(*id));
            let each: Vec<String> = lines.map(|line| names.name_and_place(recipe, line)).collect();
            let words = if each.is_empty() { "none is left".to_owned() } else { each.join(", ") };
            ui.label(theme::quiet(ui, format!("· {words}")));
        }
    });
}

/// What is asked of single lines.
fn rules_ui(ui: &mut Ui, recipe: &Recipe, targets: &mut Targets, sign: DecimalSign) {
    let names = Names::of(recipe);
    let name = |line: LineId| recipe.line(line).map(|line| capital(&names.name_and_place(recipe, line)));
    let mut removed = None;
    for (idx, limit) in targets.asked.limits.iter_mut().enumerate() {
        // Undo may bring the line back, and its rule with it.
        let Some(named) = name(limit.line) else { continue };
        if rule_ui(ui, recipe, limit, &named, &name, sign) {
            removed = Some(idx);
        }
    }
    if let Some(idx) = removed {
        targets.asked.limits.remove(idx);
    }
    let words = RichText::new("+ limit a line").color(Palette::of(ui).accent);
    menu_button(ui, words, 0.0, |ui| {
        ui.set_min_width(190.0);
        for line in recipe.lines.iter().filter(|line| !line.stays()) {
            if ui.button(name(line.id).unwrap_or_default()).clicked() {
                targets.asked.add_limit(line.id, Rule::AtMost(line.amount.grams()));
                ui.close();
            }
        }
    });
}

/// One rule; whether it is to be taken out.
fn rule_ui(
    ui: &mut Ui,
    recipe: &Recipe,
    limit: &mut AskedLimit,
    named: &str,
    name: &dyn Fn(LineId) -> Option<String>,
    sign: DecimalSign,
) -> bool {
    let mut is_removed = false;
    let now = recipe.line(limit.line).map_or(Grams::ZERO, |line| line.amount.grams());
    row_ui(ui, named, |ui| {
        is_removed = super::remove_ui(ui, &format!("limit: {named}"));
        ui.add_space(space::TIGHT);
        let id = Id::unique(("limit of a line", limit.number));
        let (value, unit, units) = match limit.rule {
            Rule::Locked => (None, "", GRAMS),
            Rule::AtLeast(at) | Rule::AtMost(at) | Rule::InPacks(at) => (Some(at.0), "g", GRAMS),
            Rule::TimesOther { times, .. } => (Some(times), "×", TIMES),
        };
        if let Some(value) = value {
            ui.label(theme::quiet(ui, unit));
            let label = format!("{named}, {}", rule_words(limit.rule));
            let rule = limit.rule;
            let check = |value: f64| match rule {
                Rule::TimesOther { .. } => check_times(value),
                Rule::InPacks(_) if value <= 0.0 => Err("a pack weighs more than 0 g".to_owned()),
                _ => check_weight(Grams(value), recipe.weighed()),
            };
            let shown = (Some(value), Empty::IsRefused, sign);
            let typed = super::number_ui(ui, (id, &label, CELL), shown, (units, &check), explanations::limit);
            if let Some(typed) = typed.number() {
                limit.rule = with_value(limit.rule, typed);
            }
        }
        let words = rule_words(limit.rule);
        let menu = menu_ui(ui, words, "What is asked of this amount", |ui| {
            let others = || recipe.lines.iter().filter(|line| line.id != limit.line && line.amount.grams().0 > 0.0);
            let kinds = [Rule::AtMost(now), Rule::AtLeast(now), Rule::Locked, Rule::InPacks(now)];
            for kind in kinds {
                let is_chosen = rule_words(kind) == words;
                if ui.selectable_label(is_chosen, rule_words(kind)).clicked() {
                    if !is_chosen {
                        limit.rule = kind;
                    }
                    ui.close();
                }
            }
            let in_proportion = Rule::TimesOther { other: Place::Line(limit.line), times: 1.0 };
            ui.menu_button(format!("{} …", rule_words(in_proportion)), |ui| {
                for other in others() {
                    if ui.button(name(other.id).unwrap_or_default()).clicked() {
                        let times = now.0 / other.amount.grams().0;
                        // As it can be read and typed.
                        let times = round_half_up(times, 4);
                        limit.rule = Rule::TimesOther { other: Place::Line(other.id), times };
                        ui.close();
                    }
                }
            });
        });
        menu.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("kind of limit, {named}: {words}")));
    });
    if let Rule::TimesOther { other: Place::Line(other), .. } = limit.rule {
        let other = name(other).unwrap_or_else(|| "a line that is gone: the limit does not count".to_owned());
        ui.label(theme::caption(ui, format!("× as much as {other}")));
    }
    is_removed
}

fn rule_words(rule: Rule) -> &'static str {
    match rule {
        Rule::Locked => "stays as it is",
        Rule::AtLeast(_) => "at least",
        Rule::AtMost(_) => "at most",
        Rule::InPacks(_) => "in packs of",
        Rule::TimesOther { .. } => "in proportion to",
    }
}

fn with_value(rule: Rule, value: f64) -> Rule {
    match rule {
        Rule::Locked => Rule::Locked,
        Rule::AtLeast(_) => Rule::AtLeast(Grams(value)),
        Rule::AtMost(_) => Rule::AtMost(Grams(value)),
        Rule::InPacks(_) => Rule::InPacks(Grams(value)),
        Rule::TimesOther { other, .. } => Rule::TimesOther { other, times: value },
    }
}

/// A name at the left, and what belongs to it from the right.
fn row_ui(ui: &mut Ui, name: &str, contents: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = space::TIGHT;
            contents(ui);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(Label::new(name).wrap_mode(TextWrapMode::Truncate));
            });
        });
    });
}

/// The cell of the most that may be used of an ingredient.
fn most_id(number: u32) -> Id {
    Id::unique(("most of an allowed ingredient", number))
}

/// What may be used besides, and the search for more.
fn allowed_ui(ui: &mut Ui, targets: &mut Targets, batch: Grams, sign: DecimalSign) {
    ui.label(theme::strong("May also be used"));
    let mut removed = None;
    for (idx, AskedIngredient { number, allowed }) in targets.asked.allowed.iter_mut().enumerate() {
        let named = capital(&allowed.ingredient.short_name());
        row_ui(ui, &named, |ui| {
            if super::remove_ui(ui, &format!("from what may be used: {named}")) {
                removed = Some(idx);
            }
            ui.add_space(space::TIGHT);
            ui.label(theme::quiet(ui, "g"));
            let label = format!("{named}, at most, grams");
            let most = allowed.most.map(|most| most.0);
            // Nothing of it is to be had by the cross; empty means something else.
            let check = |value: f64| match check_weight(Grams(value), batch) {
                Ok(()) if value <= 0.0 => Err("give a weight above 0 g, or leave it empty".to_owned()),
                checked => checked,
            };
            let shown = (most, Empty::IsMeant, sign);
            let cell = (most_id(*number), label.as_str(), CELL);
            match super::number_ui(ui, cell, shown, (GRAMS, &check), explanations::allowance) {
                Typed::Nothing => {}
                Typed::Emptied => allowed.most = None,
                Typed::Number(most) => allowed.most = Some(Grams(most)),
            }
            ui.label(theme::quiet(
                ui,
                if allowed.most.is_some() { "at most" } else { "as much as it takes, or at most" },
            ));
        });
    }
    if let Some(idx) = removed {
        targets.asked.allowed.remove(idx);
    }
    search_ui(ui, targets);
}

/// The search for an ingredient; Enter takes the first that is found.
fn search_ui(ui: &mut Ui, targets: &mut Targets) {
    /// As many as fit under a field.
    const FOUND: usize = 5;
    let hint = "Find an ingredient to allow";
    let field = TextEdit::singleline(&mut targets.search)
        .id(Id::unique("search of what may be used"))
        .hint_text(hint)
        .desired_width(f32::INFINITY);
    let response = ui.add(field).accessible_name(hint);
    if targets.search.trim().is_empty() {
        return;
    }
    let found: Vec<Arc<Ingredient>> =
        Library::built_in().search(&targets.search).into_iter().take(FOUND).cloned().collect();
    let is_entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let mut chosen = if is_entered { found.first().cloned() } else { None };
    if found.is_empty() {
        ui.label(theme::caption(ui, "None has these words"));
    }
    for ingredient in &found {
        let button = super::action_ui(ui, &ingredient.name);
        button.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("allow {}", ingredient.name)));
        if button.clicked() {
            chosen = Some(Arc::clone(ingredient));
        }
    }
    if let Some(ingredient) = chosen {
        let number = targets.asked.allow(ingredient);
        targets.search.clear();
        // How much of it is the next thing to say.
        focus_cell(ui.ctx(), most_id(number));
    }
}
