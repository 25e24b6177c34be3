//! Seeding in the JSON report: windows and doses, what was chosen, and the plan step by step.

use serde::Serialize;

use crate::analysis::Analysis;
use crate::analysis::plan::Plan;
use crate::analysis::plan::seed::AmountFrom;
use crate::analysis::plan::step::PlanStep;
use crate::analysis::setting::SettingState;
use crate::analysis::survival::Fate;
use crate::number::DecimalSign;
use crate::recipe::Recipe;
use crate::report::words;
use crate::units::{Celsius, Grams, MassFraction};

#[derive(Serialize)]
pub(super) struct SeedingEntry {
    min_c: f64,
    recommended_c: f64,
    max_c: f64,
    unmixed_min_c: Option<f64>,
    unmixed_recommended_c: Option<f64>,
    unmixed_max_c: Option<f64>,
    seed_percent: f64,
    seed_percent_equal_time: Option<f64>,
    seed_g: f64,
    seed_g_equal_time: Option<f64>,
    crystals_percent_of_fat: f64,
    /// The mass without seed that stands in the sheet.
    bowl_g: f64,
    way: &'static str,
    suggested_g: Option<f64>,
    amount_g: Option<f64>,
    amount_from: Option<&'static str>,
    seed_c: Option<f64>,
    seed_crystals_percent: Option<f64>,
    cream_form_v_c: Option<f64>,
    cream_form_vi_c: Option<f64>,
    put_in_min_c: Option<f64>,
    put_in_c: Option<f64>,
    put_in_max_c: Option<f64>,
    after_mixing_c: Option<f64>,
    after_mixing_crystals_percent_of_fat: Option<f64>,
    after_mixing: Option<&'static str>,
    kept_up_to_c: Option<f64>,
    kept_crystals_percent_of_fat: Option<f64>,
}

#[derive(Serialize)]
struct WeighedEntry {
    name: String,
    grams: f64,
}

#[derive(Serialize)]
pub(super) struct PlanEntry {
    step: &'static str,
    from_c: Option<f64>,
    to_c: Option<f64>,
    best_c: Option<f64>,
    grams: Option<f64>,
    lines: Vec<WeighedEntry>,
    minutes: Option<f64>,
    low_minutes: Option<f64>,
    high_minutes: Option<f64>,
    text: String,
    look: String,
    when_off: Vec<String>,
}

impl SeedingEntry {
    /// `None` where it cannot be seeded.
    pub(super) fn of(recipe: &Recipe, analysis: &Analysis) -> Option<Self> {
        let seeding = analysis.seeding.as_ref()?;
        let plan = analysis.plan.as_ref().ok();
        let seed = plan.and_then(|plan| plan.seed.as_ref());
        let kept = plan.and_then(|plan| plan.kept.as_ref());
        let after = seed.and_then(|seed| seed.after);
        let put_in = seed.and_then(|seed| seed.put_in);
        let cream = seed.and_then(|seed| seed.cream);
        let celsius = |celsius: Celsius| celsius.0;
        let grams = |grams: Grams| grams.0;
        Some(Self {
            min_c: seeding.window.min.0,
            recommended_c: seeding.window.recommended.0,
            max_c: seeding.window.max.0,
            unmixed_min_c: seeding.unmixed.map(|window| window.min.0),
            unmixed_recommended_c: seeding.unmixed.map(|window| window.recommended.0),
            unmixed_max_c: seeding.unmixed.map(|window| window.max.0),
            seed_percent: seeding.habit.share.to_percent(),
            seed_percent_equal_time: seeding.equal_time.map(|dose| dose.share.to_percent()),
            seed_g: seeding.seed.0,
            seed_g_equal_time: seeding.equal_time_seed(seeding.bowl).map(grams),
            crystals_percent_of_fat: seeding.crystals.to_percent(),
            bowl_g: seeding.bowl.0,
            way: recipe.seeding.way.key(),
            suggested_g: seed.and_then(|seed| seed.suggested).map(grams),
            amount_g: seed.and_then(|seed| seed.grams).map(grams),
            amount_from: seed.map(|seed| amount_from(seed.amount_from)),
            seed_c: seed.map(|seed| seed.at.0),
            seed_crystals_percent: seed.and_then(|seed| seed.solid).map(MassFraction::to_percent),
            cream_form_v_c: cream.map(|[five, _]| five.0),
            cream_form_vi_c: cream.map(|[_, six]| six.0),
            put_in_min_c: put_in.map(|put_in| put_in.min).map(celsius),
            put_in_c: put_in.map(|put_in| put_in.recommended).map(celsius),
            put_in_max_c: put_in.map(|put_in| put_in.max).map(celsius),
            after_mixing_c: after.map(|after| after.at.0),
            after_mixing_crystals_percent_of_fat: after.map(|after| after.crystals.to_percent()),
            after_mixing: after.and_then(|after| after.fate).map(fate),
            kept_up_to_c: kept.map(|kept| kept.warmest.0),
            kept_crystals_percent_of_fat: kept.map(|kept| kept.crystals.to_percent()),
        })
    }
}

impl PlanEntry {
    /// All steps of the plan; `None` where there is none.
    pub(super) fn all(analysis: &Analysis, setting: Option<&SettingState>) -> Option<Vec<Self>> {
        let plan = analysis.plan.as_ref().ok()?.clone().with_setting(setting);
        Some(plan.steps.iter().map(|step| Self::new(&plan, step)).collect())
    }

    fn new(plan: &Plan, step: &PlanStep) -> Self {
        let words = words::plan::step(plan, step, DecimalSign::Point);
        Self {
            step: step.kind.key(),
            from_c: step.temperature.map(|temperature| temperature.from.0),
            to_c: step.temperature.map(|temperature| temperature.to.0),
            best_c: step.temperature.and_then(|temperature| temperature.best).map(|best| best.0),
            grams: step.weight.map(|weight| weight.0),
            lines: step
                .lines
                .iter()
                .map(|line| WeighedEntry { name: line.name.clone(), grams: line.grams.0 })
                .collect(),
            minutes: step.minutes.and_then(|band| band.likely).map(|likely| likely.0),
            low_minutes: step.minutes.map(|band| band.low.0),
            high_minutes: step.minutes.map(|band| band.high.0),
            text: words.what,
            look: words.look,
            when_off: words.when_off.iter().map(words::plan::OffWords::joined).collect(),
        }
    }
}

fn amount_from(from: AmountFrom) -> &'static str {
    match from {
        AmountFrom::Suggestion => "suggestion",
        AmountFrom::Maker => "own",
        AmountFrom::Sheet => "sheet",
    }
}

fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Melts => "melts",
        Fate::OnlyAnnealed => "only_annealed",
        Fate::Edge => "edge",
        Fate::Lives => "lives",
        Fate::Cold => "cold",
        Fate::WrongForm => "wrong_form",
    }
}
