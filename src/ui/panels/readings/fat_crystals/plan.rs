//! The seeding plan: a way, its seed, the steps to follow, the need of a day, proof and rescue.
//!
//! Its words are written once for each analysis ([`Texts`]); what is folded is not drawn.

use std::cell::OnceCell;

use egui::{Id, Label, RichText, TextWrapMode, Ui};

use super::{NONE, row_ui};
use crate::analysis::Analysis;
use crate::analysis::plan::need::need_of_the_day;
use crate::analysis::plan::seed::Seed;
use crate::analysis::plan::step::StepKind;
use crate::analysis::plan::{NoPlan, Plan};
use crate::analysis::setting::{SettingState, system_of};
use crate::document::Edit;
use crate::ingredient::Library;
use crate::number::{DecimalSign, fixed, grams, round_half_up, typed};
use crate::recipe::{CreamShare, MassUnit, Quantity, Recipe, SeedTemperature, SeedingWay};
use crate::report::words::plan as words;
use crate::ui::explanations::plan as explanations;
use crate::ui::panels::field::{DEGREES, number_with_unit, typed_into, unless_empty};
use crate::ui::panels::head::menu_ui;
use crate::ui::panels::lines::parse_quantity;
use crate::ui::panels::readings::rescue::{quiet_ui, split_ui, test_strip_ui};
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, DayOfSeed, Scene, View};
use crate::ui::widgets::fold::{Fold, is_open, set_open};
use crate::ui::widgets::{
    Card, Explanation, NumberCell, NumberEvent, explain, explain_at_rest, focus_ring, quiet_button,
};
use crate::units::{Celsius, Grams};

/// Said of what nobody knows.
const NOT_KNOWN: &str = "not known";

/// The words of a plan.
#[derive(Debug)]
pub(in crate::ui::panels::readings) struct Texts {
    rows: Vec<(Row, String)>,
    /// The figures alone, as they stand behind the mark of the pin: there is one line for them.
    short: Vec<(Row, String)>,
    steps: Vec<words::StepWords>,
    kinds: Vec<StepKind>,
    cream: Option<String>,
    ways: OnceCell<Vec<[String; 2]>>,
}

/// A row of what comes of the seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Row {
    Weigh,
    After,
    Crystals,
    Apart,
    Changes,
    Kept,
    KeptAt(usize),
}

impl Texts {
    /// Of this plan.
    pub(in crate::ui::panels::readings) fn of(
        analysis: &Analysis,
        setting: Option<&SettingState>,
        sign: DecimalSign,
    ) -> Self {
        let plan = analysis.plan.as_ref().ok().map(|plan| plan.clone().with_setting(setting));
        let plan = plan.as_ref();
        Self {
            rows: plan.map_or_else(Vec::new, |plan| rows(plan, sign)),
            short: plan.map_or_else(Vec::new, |plan| short_rows(plan, sign)),
            steps: plan
                .map_or_else(Vec::new, |plan| plan.steps.iter().map(|step| words::step(plan, step, sign)).collect()),
            kinds: plan.map_or_else(Vec::new, |plan| plan.steps.iter().map(|step| step.kind).collect()),
            cream: plan
                .and_then(|plan| plan.seed.as_ref())
                .filter(|seed| seed.cream.is_some())
                .map(|seed| words::about_cream(seed, sign)),
            ways: OnceCell::new(),
        }
    }

    fn short(&self, row: Row) -> Option<&str> {
        self.short.iter().find(|(other, _)| *other == row).map(|(_, words)| words.as_str())
    }
}

fn short_rows(plan: &Plan, sign: DecimalSign) -> Vec<(Row, String)> {
    let mut rows = Vec::new();
    if let Some(seed) = &plan.seed {
        let grams_in = seed.grams.filter(|_| !seed.has_no_cocoa_butter());
        let weight = grams_in.map_or_else(
            || if seed.has_no_cocoa_butter() { "none of it" } else { NOT_KNOWN }.to_owned(),
            |amount| format!("{} g", grams(amount.0, sign)),
        );
        rows.push((Row::Weigh, weight));
        if let Some(after) = seed.after {
            rows.push((Row::After, format!("{} °C", fixed(after.at.0, 1, sign))));
            rows.push((Row::Crystals, format!("{} % of the fat", fixed(after.crystals.to_percent(), 2, sign))));
        }
    }
    if let Some(kept) = &plan.kept {
        rows.push((Row::Kept, format!("{} % of the fat", fixed(kept.crystals.to_percent(), 1, sign))));
    }
    rows
}

fn rows(plan: &Plan, sign: DecimalSign) -> Vec<(Row, String)> {
    let mut rows = Vec::new();
    if let Some(seed) = &plan.seed {
        rows.push((Row::Weigh, words::seed_amount(seed, sign)));
        rows.push((Row::After, words::after_mixing(seed, sign)));
        rows.extend(words::crystals_left(seed, sign).map(|left| (Row::Crystals, left)));
        rows.extend(words::crystals_apart(seed, sign).map(|apart| (Row::Apart, apart)));
        rows.extend(words::changes(seed, sign).map(|changes| (Row::Changes, changes)));
    }
    if let Some(kept) = &plan.kept {
        rows.push((Row::Kept, words::kept(kept, sign)));
        for (place, (_, crystals)) in kept.table.iter().enumerate() {
            rows.push((Row::KeptAt(place), format!("{} % of the fat", fixed(crystals.to_percent(), 1, sign))));
        }
    }
    rows
}

/// The words of now and of the pinned state.
#[derive(Clone, Copy)]
pub(in crate::ui::panels::readings) struct PlanTexts<'a> {
    /// Of now.
    pub(in crate::ui::panels::readings) now: &'a Texts,
    /// Of the pinned state.
    pub(in crate::ui::panels::readings) pinned: Option<&'a Texts>,
}

/// Draws the card.
pub(super) fn plan_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, texts: PlanTexts<'_>, actions: &mut Vec<Action>) {
    Card::new().title("Seeding plan").subtitle("from the pot to the deposit · open a step for more").ui(ui, |ui| {
        ui.spacing_mut().item_spacing.y = space::NEAR;
        match &scene.analysis.plan {
            Ok(plan) => planned_ui(ui, scene, view, plan, texts, actions),
            Err(why) => why_not_ui(ui, scene, *why, view.sign),
        }
    });
}

fn why_not_ui(ui: &mut Ui, scene: &Scene<'_>, why: NoPlan, sign: DecimalSign) {
    quiet_ui(ui, &words::no_plan(why, scene.analysis, sign));
}

fn planned_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &View,
    plan: &Plan,
    texts: PlanTexts<'_>,
    actions: &mut Vec<Action>,
) {
    choice_ui(ui, scene, view, plan, actions);
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        for (row, words) in &texts.now.rows {
            // What is told in words has no short form.
            let is_figure = !matches!(row, Row::Apart | Row::Changes | Row::KeptAt(_));
            let ghost = texts.pinned.filter(|_| is_figure).map(|pinned| pinned.short(*row).unwrap_or(NONE));
            row_ui(ui, &name(*row, plan, view.sign), words, ghost, || explanation(*row, scene, view.sign));
        }
    });
    if let Some(seed) = &plan.seed {
        in_sheet_ui(ui, scene, view, plan, seed, actions);
    }
    steps_ui(ui, texts.now);
    if let Some(seed) = &plan.seed {
        day_ui(ui, scene, view, seed, actions);
    }
    let fold = |name: &'static str| Id::unique(("seeding plan", name));
    Fold::new(fold("ways"), "The other ways").detail("what each takes, and what becomes of it").ui(ui, |ui| {
        ways_ui(ui, scene, view.sign, texts.now);
    });
    if let Some(cream) = &texts.now.cream {
        Fold::new(fold("seed"), "The seed itself")
            .detail("how it is made and what spoils it")
            .ui(ui, |ui| quiet_ui(ui, cream));
    }
    Fold::new(fold("strip"), "Test strip").detail("how to read it").ui(ui, |ui| {
        test_strip_ui(ui, plan.choice.way, system_of(&scene.document.recipe, scene.analysis));
    });
    if plan.is_emulsion {
        Fold::new(fold("split"), "Rescue").detail("if the ganache splits").ui(ui, split_ui);
    }
}

fn name(row: Row, plan: &Plan, sign: DecimalSign) -> String {
    match row {
        Row::Weigh => "weigh".to_owned(),
        Row::After => "the mass comes to".to_owned(),
        Row::Crystals => "crystals then".to_owned(),
        Row::Apart => "crystals are".to_owned(),
        Row::Changes => "it changes".to_owned(),
        Row::Kept => "its own crystals".to_owned(),
        Row::KeptAt(place) => {
            let at = plan.kept.as_ref().and_then(|kept| kept.table.get(place)).map_or(Celsius::ZERO, |(at, _)| *at);
            format!("· left at {} °C", fixed(at.0, 1, sign))
        }
    }
}

fn explanation(row: Row, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    match row {
        Row::Weigh => explanations::amount(scene, sign),
        Row::After => explanations::after_mixing(scene, sign),
        Row::Crystals => explanations::crystals_left(scene, sign),
        Row::Apart => explanations::crystals_apart(scene),
        Row::Changes => explanations::changes(scene),
        Row::Kept | Row::KeptAt(_) => explanations::kept(scene, sign),
    }
}

/// The way, and what belongs to it.
fn choice_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, plan: &Plan, actions: &mut Vec<Action>) {
    let choice = scene.document.recipe.seeding;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label("way");
        let hover = "How crystals of form V get in: seed cream is exact, grated butter bears more, chopped chocolate is at hand, and \
                     tempered chocolate needs none as long as it stays tempered";
        let way = menu_ui(ui, choice.way.words(), hover, |ui| {
            for way in SeedingWay::ALL {
                if ui.selectable_label(way == choice.way, way.words()).clicked() {
                    actions.push(Action::Edit(Edit::SetSeedingWay(way)));
                    ui.close();
                }
            }
        });
        way.widget_info(|| {
            egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, format!("way of seeding: {}", choice.way.words()))
        });
        if choice.way == SeedingWay::Cream {
            ui.label("with");
            share_ui(ui, view.sign, choice.cream, actions);
            ui.label("% crystals");
        }
    });
    let Some(seed) = &plan.seed else { return };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label("amount");
        amount_ui(ui, view.sign, choice.amount, seed, actions);
        ui.add_space(space::GROUP);
        ui.label("seed at");
        temperature_ui(ui, view.sign, choice.temperature, seed, actions);
    });
}

/// More digits of a percent nobody types.
const DIGITS: u32 = 6;

fn share_ui(ui: &mut Ui, sign: DecimalSign, now: CreamShare, actions: &mut Vec<Action>) {
    // A share that was typed as a percent is not quite that percent.
    let shown = typed(round_half_up(now.share().to_percent(), DIGITS), sign);
    let parse = |text: &str| {
        let percent = number_with_unit(text, &["%"])?;
        CreamShare::from_percent(percent).map_err(|error| error.to_string())
    };
    let output = NumberCell::new(
        Id::unique("crystals of the seed cream"),
        "crystals of the seed cream, percent",
        &shown,
        &parse,
    )
    .width(46.0)
    .framed()
    .ui(ui);
    typed_into(output.event, actions, Edit::SetCreamShare);
    explain_at_rest(&output.response, explanations::cream_share);
}

fn amount_ui(ui: &mut Ui, sign: DecimalSign, own: Option<Quantity>, seed: &Seed, actions: &mut Vec<Action>) {
    let unit = own.map_or(MassUnit::Gram, Quantity::unit);
    let shown = own.map_or_else(String::new, |own| typed(own.value(), sign));
    let parse = |text: &str| {
        // None is no dose: what is suggested counts.
        let amount = unless_empty(text, |text| parse_quantity(text, unit))?;
        Ok(amount.filter(|amount| amount.grams().0 > 0.0))
    };
    let suggested = seed.suggested.map_or_else(|| NOT_KNOWN.to_owned(), |suggested| grams(suggested.0, sign));
    let output = NumberCell::new(Id::unique("own amount of seed"), "own amount of seed", &shown, &parse)
        .at_rest(if own.is_none() { &suggested } else { &shown })
        .width(64.0)
        .framed()
        .ui(ui);
    typed_into(output.event, actions, Edit::SetSeedAmount);
    explain_at_rest(&output.response, || explanations::own_amount(sign));
    ui.label(theme::quiet(ui, if own.is_none() { "g, suggested" } else { unit.symbol() }));
}

fn temperature_ui(
    ui: &mut Ui,
    sign: DecimalSign,
    own: Option<SeedTemperature>,
    seed: &Seed,
    actions: &mut Vec<Action>,
) {
    let shown = own.map_or_else(String::new, |own| typed(own.celsius().0, sign));
    let parse = |text: &str| {
        unless_empty(text, |text| {
            let celsius = number_with_unit(text, DEGREES)?;
            SeedTemperature::new(Celsius(celsius)).map_err(|error| error.to_string())
        })
    };
    let usual = fixed(seed.at.0, 1, sign);
    let output = NumberCell::new(Id::unique("temperature of the seed"), "temperature of the seed, °C", &shown, &parse)
        .at_rest(if own.is_none() { &usual } else { &shown })
        .width(52.0)
        .framed()
        .ui(ui);
    typed_into(output.event, actions, Edit::SetSeedTemperature);
    explain_at_rest(&output.response, explanations::seed_temperature);
    ui.label(theme::quiet(ui, "°C"));
}

/// The switch that puts the seed in as a line.
fn in_sheet_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, plan: &Plan, seed: &Seed, actions: &mut Vec<Action>) {
    let recipe = &scene.document.recipe;
    let mut is_in = recipe.seed_in_sheet().is_some();
    if seed.grams.is_none() {
        quiet_ui(ui, "How much to put in is not known: type an amount first.");
        return;
    }
    let Some(ingredient) = ingredient_of(recipe, seed) else {
        quiet_ui(ui, "There is no chocolate in the sheet to chop: put the one that you take into the sheet first.");
        return;
    };
    let before = is_in;
    let tick = ui.checkbox(&mut is_in, "the seed stands in the sheet as a line");
    focus_ring(ui, &tick, tick.rect, space::FIELD_RADIUS);
    explain(&tick, || explanations::in_sheet(plan.bowl, view.sign));
    if is_in == before {
        return;
    }
    if let Some(grams) = seed.grams.filter(|_| is_in) {
        // As it is shown and weighed.
        let amount = Quantity::from_grams(weighed(grams)).unwrap_or_default();
        actions.push(Action::Edit(Edit::PutSeedInSheet { ingredient, amount }));
    } else if !is_in {
        actions.push(Action::Edit(Edit::TakeSeedOutOfSheet));
    }
    actions.push(Action::EndGesture);
}

/// To what a scale of the kitchen shows: tenths of grams, of small amounts hundredths.
fn weighed(amount: Grams) -> f64 {
    /// From here on tenths are enough.
    const TENTHS_FROM: f64 = 10.0;
    round_half_up(amount.0, if amount.0 < TENTHS_FROM { 2 } else { 1 })
}

fn ingredient_of(recipe: &Recipe, seed: &Seed) -> Option<std::sync::Arc<crate::ingredient::Ingredient>> {
    let id = &seed.ingredient.as_ref()?.id;
    let of_file = recipe.lines.iter().map(|line| &line.ingredient).chain(&recipe.spare_ingredients);
    let of_file = of_file.into_iter().find(|ingredient| ingredient.id == *id);
    of_file.or_else(|| Library::built_in().by_id(id)).cloned()
}

fn step_id(kind: StepKind, place: usize) -> Id {
    Id::unique(("step of the plan", kind, place))
}

fn steps_ui(ui: &mut Ui, texts: &Texts) {
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        let ids: Vec<Id> = texts.kinds.iter().enumerate().map(|(place, kind)| step_id(*kind, place)).collect();
        let are_open = ids.iter().all(|id| is_open(ui, *id));
        ui.horizontal(|ui| {
            ui.label(theme::caption(ui, "Steps"));
            let words = if are_open { "close all" } else { "open all" };
            let button = quiet_button(ui, RichText::new(words).font(theme::small()).color(Palette::of(ui).accent));
            button.widget_info(|| {
                egui::WidgetInfo::labeled(egui::accesskit::Role::Button, true, format!("{words} steps of the plan"))
            });
            if button.clicked() {
                for id in &ids {
                    set_open(ui, *id, !are_open);
                }
            }
        });
        for (place, (step, id)) in texts.steps.iter().zip(ids).enumerate() {
            let title = format!("{}  {}", place + 1, step.title);
            Fold::new(id, &title).detail(&step.figures).ui(ui, |ui| step_ui(ui, step));
        }
    });
}

fn step_ui(ui: &mut Ui, step: &words::StepWords) {
    let paragraph = |ui: &mut Ui, words: RichText| {
        ui.add(Label::new(words).wrap_mode(TextWrapMode::Wrap));
    };
    paragraph(ui, RichText::new(&step.what).font(theme::body()));
    ui.add_space(space::TIGHT);
    ui.label(theme::caption(ui, "look"));
    paragraph(ui, RichText::new(&step.look).font(theme::body()));
    if !step.when_off.is_empty() {
        ui.add_space(space::TIGHT);
        ui.label(theme::caption(ui, "when it is off"));
    }
    for off in &step.when_off {
        paragraph(ui, theme::strong(&off.sign));
        paragraph(ui, theme::quiet(ui, off.remedy.as_str()));
    }
}

/// What the day takes of seed, against what is ready.
fn day_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, seed: &Seed, actions: &mut Vec<Action>) {
    let DayOfSeed { batches, ready } = view.day;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = space::TIGHT;
        ui.label("today");
        let shown = batches.to_string();
        let output = NumberCell::new(Id::unique("batches today"), "batches today", &shown, &parse_batches)
            .width(44.0)
            .framed()
            .ui(ui);
        if let Some(batches) = typed_value(output.event) {
            actions.push(Action::SetDay(DayOfSeed { batches, ready }));
        }
        explain_at_rest(&output.response, || explanations::need(scene));
        ui.label(if batches == 1 { "batch, ready" } else { "batches, ready" });
        let shown = typed(ready.grams().0, view.sign);
        let parse =
            |text: &str| unless_empty(text, |text| parse_quantity(text, MassUnit::Gram)).map(Option::unwrap_or_default);
        let output = NumberCell::new(Id::unique("seed that is ready"), "seed that is ready, grams", &shown, &parse)
            .width(64.0)
            .framed()
            .ui(ui);
        if let Some(ready) = typed_value(output.event) {
            actions.push(Action::SetDay(DayOfSeed { batches, ready }));
        }
        explain_at_rest(&output.response, || explanations::need(scene));
        ui.label("g of seed");
    });
    let need = seed.grams.map_or_else(
        || NOT_KNOWN.to_owned(),
        |grams| words::need(&need_of_the_day(batches, grams, ready.grams()), seed.way, batches, view.sign),
    );
    row_ui(ui, "seed today", &need, None, || explanations::need(scene));
}

fn parse_batches(text: &str) -> Result<u32, String> {
    /// More than any kitchen makes in a day.
    const MOST: u32 = 1000;
    let number: u32 = text.trim().parse().map_err(|_| "give a whole number of batches, such as 6".to_owned())?;
    if number <= MOST { Ok(number) } else { Err(format!("give at most {MOST} batches")) }
}

/// What was typed into a cell that is no part of the document.
fn typed_value<T>(event: NumberEvent<T>) -> Option<T> {
    match event {
        NumberEvent::Typing(value) | NumberEvent::Committed(value) => Some(value),
        NumberEvent::Nothing | NumberEvent::Cancelled => None,
    }
}

fn ways_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, texts: &Texts) {
    let ways = texts.ways.get_or_init(|| {
        let seeds = scene.analysis.seed_by_way(&scene.document.recipe);
        seeds.iter().map(|seed| [seed.way.words().to_owned(), words::way(seed, sign)]).collect()
    });
    for [name, words] in ways {
        row_ui(ui, name, words, None, || explanations::after_mixing(scene, sign));
    }
    row_ui(ui, SeedingWay::KeepTempered.words(), words::ABOUT_KEEPING, None, || explanations::kept(scene, sign));
}
