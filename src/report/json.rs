//! The JSON report: a public interface, documented in `sample-recipes/README.md`, changed only by adding.
//!
//! Percentages are g per 100 g of the finished mass, temperatures °C; unknown is `null`, never 0.
//! Numbers are not rounded: rounding is the reader's.

mod cost;
mod food;
pub mod reformulation;
mod seeding;
mod setting;
pub mod substitution;
mod weighing;

use serde::Serialize;
use serde_json::{Map, Value};

mod mixing;

use mixing::Mixing;

use super::words;
use crate::analysis::cooking::{Evaporating, WATER_UNCERTAINTY};
use crate::analysis::emulsion::EmulsionState;
use crate::analysis::fat_crystals::FatCrystals;
use crate::analysis::make_up::MakeUp;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::phase_bar::PhaseBar;
use crate::analysis::water::sorption::Sorbent;
use crate::analysis::water::state::WaterState;
use crate::analysis::{self, Analysis, finding};
use crate::ingredient::Component;
use crate::number::DecimalSign;
use crate::production;
use crate::production::selling::Selling;
use crate::recipe::Recipe;
use crate::units::{Celsius, Grams, Kelvin, MassFraction};
use seeding::{PlanEntry, SeedingEntry};

pub use weighing::weighing_list;

/// The report of one recipe as JSON, with a line break at its end.
///
/// # Errors
///
/// Never in practice: every value is a number, a text, a list or a map of these.
pub fn report(recipe: &Recipe, analysis: &Analysis) -> Result<String, serde_json::Error> {
    with_cost(recipe, analysis, None)
}

/// The report of one recipe with what its ingredients cost and, if that is asked for, at what it is sold.
///
/// # Errors
///
/// Never in practice, as of [`report`].
pub fn with_cost(
    recipe: &Recipe,
    analysis: &Analysis,
    priced: Option<(&production::cost::Cost, Option<Selling>)>,
) -> Result<String, serde_json::Error> {
    let mut report = Report::new(recipe, analysis);
    report.cost = priced.map(|(cost, selling)| cost::Cost::new(recipe, cost, selling));
    let mut text = serde_json::to_string_pretty(&report)?;
    text.push('\n');
    Ok(text)
}

#[derive(Serialize)]
struct Report<'a> {
    recipe: Head<'a>,
    at_c: f64,
    mass_g: f64,
    batch: Batch,
    composition: Map<String, Value>,
    groups: Map<String, Value>,
    energy: Option<food::Energy>,
    sweetness: Option<food::Sweetness>,
    cost: Option<cost::Cost<'a>>,
    lines: Vec<Line<'a>>,
    emulsion: Emulsion,
    fat: Option<Fat>,
    seeding: Option<SeedingEntry>,
    plan: Option<Vec<PlanEntry>>,
    phase_bar: Option<Bar>,
    usual: Vec<Usual>,
    water: Water,
    setting: Option<setting::Setting>,
    bench: setting::Bench,
    texture: setting::Texture,
    mixing: Option<Mixing>,
    findings: Vec<FindingEntry>,
}

#[derive(Serialize)]
struct Head<'a> {
    name: &'a str,
    kind: &'static str,
    r#use: Option<&'static str>,
    ph: Option<f64>,
}

#[derive(Serialize)]
struct Batch {
    weighed_g: f64,
    /// How what evaporates was found: by weighing, by an estimate, by a cook.
    evaporation: &'static str,
    evaporated_g: Option<f64>,
    liquid_g: Option<f64>,
    cook_to_c: Option<f64>,
    altitude_m: Option<f64>,
    at_sea_level_c: Option<f64>,
    boils_from_c: Option<f64>,
    hottest_c: Option<f64>,
    water_left_g: Option<f64>,
    water_left_uncertainty_g: Option<f64>,
    bowl_g: f64,
    transfer_loss_percent: f64,
}

#[derive(Serialize)]
struct Line<'a> {
    ingredient: &'a str,
    name: &'a str,
    grams: f64,
    percent_of_weighed: Option<f64>,
    is_seed: bool,
    evidence: &'static str,
    celsius: Option<f64>,
    fat: &'static str,
    /// Grams of each component and of what the data sheet leaves open.
    composition_g: Map<String, Value>,
}

#[derive(Serialize)]
struct Emulsion {
    phi_fat: Option<f64>,
    phi_dispersed: Option<f64>,
    fat_to_water: Option<f64>,
    is_fat_continuous: Option<bool>,
    fat_ml: Option<f64>,
    water_phase_ml: Option<f64>,
    insoluble_ml: Option<f64>,
}

#[derive(Serialize)]
#[expect(clippy::struct_field_names, reason = "the names of the interface")]
struct Fat {
    cocoa_butter_percent_of_fat: f64,
    milk_fat_percent_of_fat: f64,
    other_fat_percent_of_fat: f64,
    form_v_limit_c: Option<f64>,
    form_v_limit_uncertainty_k: Option<f64>,
    form_iv_limit_c: Option<f64>,
    form_vi_limit_c: Option<f64>,
    form_iv_limit_uncertainty_k: Option<f64>,
    form_vi_limit_uncertainty_k: Option<f64>,
    solid_fat_uncertainty_points: Option<f64>,
    crystals_percent_of_mass: f64,
    solid_fat: Vec<SolidFat>,
}

#[derive(Serialize)]
struct SolidFat {
    celsius: f64,
    total_percent_of_fat: f64,
    form_v_percent_of_fat: f64,
}

#[derive(Serialize)]
#[expect(clippy::struct_field_names, reason = "the names of the interface")]
struct Water {
    water_activity: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
    syrup_water: Option<f64>,
    dissolved_sucrose: Option<f64>,
    undissolved_sucrose: Option<f64>,
    sucrose_supersaturation: Option<f64>,
    lactose_supersaturation: Option<f64>,
    /// While all sucrose stays dissolved.
    clear_water_activity: Option<f64>,
    /// Water on each sort of solid.
    held: Map<String, Value>,
    /// What a little more of each line does, in the order of the recipe.
    effects: Option<Vec<Effect>>,
}

#[derive(Serialize)]
struct Effect {
    ingredient: String,
    name: String,
    more_g: f64,
    change: f64,
}

#[derive(Serialize)]
struct Bar {
    fat_crystals: f64,
    liquid_fat: f64,
    syrup: f64,
    undissolved_sugar: f64,
    cocoa_particles: f64,
    other_particles: f64,
}

#[derive(Serialize)]
struct Usual {
    path: String,
    value: Option<f64>,
    low: f64,
    high: f64,
    high_is_outside: bool,
    basis: &'static str,
}

#[derive(Serialize)]
struct FindingEntry {
    level: &'static str,
    code: &'static str,
    text: String,
    value: Option<f64>,
    usual_low: Option<f64>,
    usual_high: Option<f64>,
    usual_high_is_outside: bool,
}

impl<'a> Report<'a> {
    fn new(recipe: &'a Recipe, analysis: &'a Analysis) -> Self {
        let make_up = &analysis.make_up;
        let bowl = &make_up.bowl;
        // Costs milliseconds: once for the setting and for the plan.
        let setting = analysis::setting::setting(recipe, analysis);
        Self {
            recipe: Head {
                name: &recipe.name,
                kind: recipe.kind.key(),
                r#use: recipe.intended_use.map(crate::recipe::Use::key),
                ph: recipe.ph.map(crate::recipe::Ph::value),
            },
            at_c: analysis.at.0,
            mass_g: make_up.finished.0,
            batch: Batch::new(recipe, make_up),
            composition: composition(bowl),
            groups: Group::ALL
                .into_iter()
                .map(|group| (group.key().to_owned(), percent(bowl.group_share(group))))
                .collect(),
            energy: analysis.energy.as_ref().map(food::Energy::new),
            sweetness: analysis.sweetness.as_ref().map(food::Sweetness::new),
            cost: None,
            lines: lines(recipe, make_up),
            emulsion: Emulsion::new(analysis.emulsion),
            fat: analysis.fat.as_ref().ok().map(|fat| Fat::new(fat, bowl)),
            seeding: SeedingEntry::of(recipe, analysis),
            plan: PlanEntry::all(analysis, setting.as_ref().ok()),
            phase_bar: analysis.phase_bar.as_ref().map(Bar::new),
            usual: usual(analysis),
            water: Water::new(recipe, &analysis.water, bowl),
            setting: setting::Setting::new(recipe, analysis, setting.as_ref()),
            bench: setting::Bench::new(recipe, analysis),
            texture: setting::Texture::new(recipe, analysis),
            mixing: analysis
                .mixing
                .as_ref()
                .and_then(|mixing| mixing.as_ref().ok())
                .map(|mixing| Mixing::new(recipe, mixing)),
            findings: analysis.findings.iter().map(FindingEntry::new).collect(),
        }
    }
}

impl Batch {
    fn new(recipe: &Recipe, make_up: &MakeUp) -> Self {
        let evaporating = &make_up.evaporating;
        let cooking = evaporating.cooking();
        let cooked = evaporating.cooked();
        Self {
            weighed_g: make_up.weighed.0,
            evaporation: match evaporating {
                Evaporating::Weighed { .. } => "weighed",
                Evaporating::Estimated { heating, .. } => heating.key(),
                Evaporating::Cooked(_) => "cooked",
            },
            evaporated_g: evaporating.grams().map(|_| make_up.evaporated.0),
            liquid_g: match evaporating {
                Evaporating::Estimated { liquid, .. } => liquid.map(|liquid| liquid.0),
                Evaporating::Weighed { .. } | Evaporating::Cooked(_) => None,
            },
            cook_to_c: cooking.map(|cooking| cooking.temperature.celsius().0),
            altitude_m: cooking.map(|cooking| cooking.height.metres().0),
            at_sea_level_c: cooked.map(|cooked| cooked.at_the_sea.0),
            boils_from_c: cooking.and_then(|cooking| cooking.possible).map(|(from, _)| from.0),
            hottest_c: cooking.and_then(|cooking| cooking.possible).map(|(_, to)| to.0),
            water_left_g: cooked.map(|cooked| cooked.water_left.0),
            water_left_uncertainty_g: cooked.map(|_| (make_up.bowl.total() * WATER_UNCERTAINTY).0),
            bowl_g: make_up.bowl.total().0,
            transfer_loss_percent: recipe.losses.transfer.share().to_percent(),
        }
    }
}

fn composition(bowl: &Parts) -> Map<String, Value> {
    let unassigned = bowl.unassigned().filter(|_| bowl.total().0 > 0.0).map(|grams| grams / bowl.total());
    Component::ALL
        .into_iter()
        .map(|component| (component.key().to_owned(), percent(bowl.share(component))))
        .chain([("unassigned".to_owned(), percent(unassigned))])
        .collect()
}

fn lines<'a>(recipe: &'a Recipe, make_up: &MakeUp) -> Vec<Line<'a>> {
    recipe
        .lines
        .iter()
        .zip(&make_up.lines)
        .map(|(line, brought)| Line {
            ingredient: &line.ingredient.id,
            name: &line.ingredient.name,
            grams: line.amount.grams().0,
            percent_of_weighed: (make_up.weighed.0 > 0.0).then(|| brought.share_of(make_up.weighed).to_percent()),
            is_seed: line.is_seed,
            evidence: line.ingredient.evidence.key(),
            celsius: line.temperature.map(|temperature| temperature.celsius().0),
            fat: line.fat_state.key(),
            composition_g: Component::ALL
                .into_iter()
                .map(|component| (component.key().to_owned(), number(brought.parts.grams(component).map(|g| g.0))))
                .chain([("unassigned".to_owned(), number(brought.parts.unassigned().map(|g| g.0)))])
                .collect(),
        })
        .collect()
}

fn usual(analysis: &Analysis) -> Vec<Usual> {
    analysis
        .usual
        .iter()
        .map(|range| Usual {
            path: range.of.path(),
            value: range.of.of(&analysis.make_up.bowl).map(MassFraction::to_percent),
            low: range.low,
            high: range.high,
            high_is_outside: range.high_is_outside,
            basis: words::basis(range),
        })
        .collect()
}

impl Emulsion {
    fn new(state: EmulsionState) -> Self {
        let emulsion = state.emulsion();
        Self {
            phi_fat: emulsion.map(|emulsion| emulsion.fat_share().0),
            phi_dispersed: emulsion.map(|emulsion| emulsion.dispersed_share().0),
            fat_to_water: emulsion.map(|emulsion| emulsion.fat_to_water),
            is_fat_continuous: match state {
                EmulsionState::Emulsion(_) | EmulsionState::Dry => Some(false),
                EmulsionState::FatContinuous => Some(true),
                EmulsionState::Unknown => None,
            },
            fat_ml: emulsion.map(|emulsion| emulsion.fat.0),
            water_phase_ml: emulsion.map(|emulsion| emulsion.water_phase.0),
            insoluble_ml: emulsion.map(|emulsion| emulsion.insoluble.0),
        }
    }
}

impl Fat {
    fn new(fat: &FatCrystals, bowl: &Parts) -> Self {
        let celsius = |limit: Option<Celsius>| limit.map(|limit| limit.0);
        let kelvin = |uncertainty: Option<Kelvin>| uncertainty.map(|uncertainty| uncertainty.0);
        Self {
            cocoa_butter_percent_of_fat: fat.blended.cocoa_butter_share().to_percent(),
            milk_fat_percent_of_fat: (fat.grams.milk_fat / fat.grams.total()).to_percent(),
            other_fat_percent_of_fat: (fat.grams.other_fat() / fat.grams.total()).to_percent(),
            form_v_limit_c: celsius(fat.limits.form_v),
            form_v_limit_uncertainty_k: kelvin(fat.limit_uncertainty),
            form_iv_limit_c: celsius(fat.limits.form_iv),
            form_vi_limit_c: celsius(fat.limits.form_vi),
            form_iv_limit_uncertainty_k: kelvin(fat.form_iv_limit_uncertainty),
            form_vi_limit_uncertainty_k: kelvin(fat.form_vi_limit_uncertainty),
            solid_fat_uncertainty_points: fat.solid_fat_uncertainty_points,
            crystals_percent_of_mass: fat.crystals_of_mass(bowl.total()).to_percent(),
            solid_fat: fat
                .curve
                .iter()
                .map(|point| SolidFat {
                    celsius: point.celsius.0,
                    total_percent_of_fat: point.solid.total().to_percent(),
                    form_v_percent_of_fat: point.solid.form_v.to_percent(),
                })
                .collect(),
        }
    }
}

impl Water {
    /// All `null` where a figure that it needs is not known, and without water.
    fn new(recipe: &Recipe, state: &WaterState, bowl: &Parts) -> Self {
        let of_mass = |grams: Grams| (grams / bowl.total()).to_percent();
        let water = state.water();
        let rest = water.map(|water| water.rest);
        Self {
            water_activity: state.activity().map(|activity| activity.0),
            low: state.low().map(|activity| activity.0),
            high: state.high().map(|activity| activity.0),
            syrup_water: rest.map(|rest| of_mass(rest.syrup_water)),
            dissolved_sucrose: rest.map(|rest| of_mass(rest.dissolved_sucrose)),
            undissolved_sucrose: rest.map(|rest| of_mass(rest.undissolved_sucrose)),
            sucrose_supersaturation: water.and_then(|water| water.at_room.sucrose),
            lactose_supersaturation: water.and_then(|water| water.at_room.lactose),
            clear_water_activity: water.and_then(|water| water.clear).map(|activity| activity.0),
            held: Sorbent::ALL
                .into_iter()
                .map(|sort| (sort.key().to_owned(), number(rest.map(|rest| of_mass(rest.held[sort as usize])))))
                .collect(),
            effects: water.map(|water| {
                let of_line = |effect: &crate::analysis::water::state::Effect| {
                    let crate::ingredient::Ingredient { id, name, .. } = recipe.line(effect.line)?.ingredient.as_ref();
                    Some(Effect {
                        ingredient: id.clone(),
                        name: name.clone(),
                        more_g: effect.more.0,
                        change: effect.change,
                    })
                };
                water.effects.iter().filter_map(of_line).collect()
            }),
        }
    }
}

impl Bar {
    fn new(bar: &PhaseBar) -> Self {
        Self {
            fat_crystals: bar.fat_crystals.to_percent(),
            liquid_fat: bar.liquid_fat.to_percent(),
            syrup: bar.syrup.to_percent(),
            undissolved_sugar: bar.undissolved_sugar.to_percent(),
            cocoa_particles: bar.cocoa_particles.to_percent(),
            other_particles: bar.other_particles.to_percent(),
        }
    }
}

impl FindingEntry {
    fn new(finding: &finding::Finding) -> Self {
        Self {
            level: words::level(finding.level),
            code: finding.code,
            text: words::finding(finding, DecimalSign::Point).joined(),
            value: finding.value,
            usual_low: finding.usual_low,
            usual_high: finding.usual_high,
            usual_high_is_outside: finding.usual_high_is_outside,
        }
    }
}

fn percent(share: Option<MassFraction>) -> Value {
    number(share.map(MassFraction::to_percent))
}

/// A number, or `null` for what is not known. JSON has no NaN, and none arises.
fn number(value: Option<f64>) -> Value {
    value.and_then(serde_json::Number::from_f64).map_or(Value::Null, Value::Number)
}
