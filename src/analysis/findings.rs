//! All findings: what follows from results, limits, habits and usual ranges. The models know nothing of them.

mod losses;
mod mixing;
mod seeding;
mod setting;
mod texture;
mod water;

use super::Analysis;
use super::emulsion::{
    CLOSEST_PACKING, Emulsion, EmulsionState, FAT_TO_WATER_EASY, FAT_TO_WATER_LEAST, FatToWater, JAMMING,
    STIRRING_LIMIT, emulsion,
};
use super::fat::LEAST_COCOA_BUTTER_FOR_LIMITS;
use super::fat_crystals::{
    FatCrystals, HELD_AGAINST_MEASURED, LEAST_FOR_UNCERTAINTY, NoFatCrystals, fat_grams, is_held_against_measured,
};
use super::finding::{Finding, Level, SeededBy, SeedingSubject, Subject};
use super::handling;
use super::make_up::{MakeUp, make_up};
use super::parts::Group;
use super::plan::Plan;
use super::remedy::{self, Names, Remedies, SideEffects};
use super::seeding::{LEAST_COCOA_BUTTER, Seeding, habit_factor};
use super::syrup::LEAST_WATER;
use super::{is_above, is_below};
use crate::ingredient::{Category, Component};
use crate::recipe::{Kind, Recipe, SeedingChoice, SeedingWay};
use crate::units::{Celsius, Kelvin, MassFraction};

/// Where chocolate is seeded by habit (common practice, no published source).
const CHOCOLATE_HABIT: (Celsius, Celsius) = (Celsius(30.0), Celsius(33.0));
/// A habit is said in whole degrees: by this much its upper end may lie above the limit. With half of the fat cocoa
/// butter the limit is 28.95 °C, and the habit of praline (29 °C) fits.
const HABIT_SLACK: Kelvin = Kelvin(0.1);

/// Ethanol from which on the usual caution is shown: more than flavourings bring.
const ALCOHOL_CAUTION: MassFraction = MassFraction(0.005);

/// Polyols from which on the law asks for words on the label (`eu-1169-2011`, Annex III).
pub const POLYOL_CAUTION: MassFraction = MassFraction(0.10);

/// Other fat of guessed kind from which on a finding says so, as a share of all fat.
const ESTIMATE_MATTERS: MassFraction = MassFraction(0.05);

/// All findings about a recipe, the most serious first.
pub(super) fn findings(recipe: &Recipe, analysis: &Analysis) -> Vec<Finding> {
    let mut findings = Vec::new();
    // Within a level: what is missing, where to seed, how it sets and is stored, how it keeps, what is out of the usual, then what explains.
    unknown_inputs(recipe, &mut findings);
    if analysis.make_up.weighed.0 <= 0.0 {
        findings.push(Finding::new(Level::Note, "empty_recipe", Subject::EmptyRecipe));
    }
    losses::losses_findings(&analysis.make_up, &mut findings);
    match &analysis.fat {
        Ok(fat) => fat_findings(recipe, &analysis.make_up, fat, &mut findings),
        Err(why) => findings.extend(no_fat_finding(*why, &analysis.make_up)),
    }
    seeding_findings(recipe, analysis, &mut findings);
    seeding::plan_findings(analysis, &mut findings);
    mixing::mixing_findings(recipe, analysis, &mut findings);
    setting::setting_findings(recipe, analysis, &mut findings);
    findings.extend(texture::texture_finding(recipe, analysis));
    water::water_findings(recipe, analysis, &mut findings);
    usual_findings(recipe, analysis, &mut findings);
    emulsion_findings(recipe, analysis, &mut findings);
    seeding_explanations(recipe, analysis, &mut findings);
    cautions(recipe, &analysis.make_up, &mut findings);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.level));
    findings
}

/// What is not known of which line, and what a maker has to be warned of: the findings that ask for no model, as a recipe that
/// is only proposed needs them.
#[must_use]
pub fn warnings(recipe: &Recipe, make_up: &MakeUp) -> Vec<Finding> {
    let mut findings = Vec::new();
    unknown_inputs(recipe, &mut findings);
    cautions(recipe, make_up, &mut findings);
    findings
}

fn unknown_inputs(recipe: &Recipe, findings: &mut Vec<Finding>) {
    for line in recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0) {
        let missing: Vec<Component> = line.ingredient.composition.unknown_components().collect();
        if !missing.is_empty() {
            findings.push(Finding::new(
                Level::Caution,
                "unknown_input",
                Subject::UnknownInput { line: line.id, name: line.ingredient.name.clone(), missing },
            ));
        }
    }
}

/// What is said where nothing is known of the fat; a fat that is not known has its `unknown_input` already.
fn no_fat_finding(why: NoFatCrystals, make_up: &MakeUp) -> Option<Finding> {
    match why {
        NoFatCrystals::Unknown => None,
        NoFatCrystals::NoFat => {
            (make_up.bowl.total().0 > 0.0).then(|| Finding::new(Level::Note, "fat.none", Subject::NoFat))
        }
        NoFatCrystals::NoLiquid => Some(Finding::new(Level::Caution, "fat.no_liquid", Subject::NoLiquidFat)),
    }
}

fn fat_findings(recipe: &Recipe, make_up: &MakeUp, fat: &FatCrystals, findings: &mut Vec<Finding>) {
    let cocoa_butter_in_fat = fat.blended.cocoa_butter_share();
    if fat.limits.form_v.is_none() {
        let (subject, least) = if fat.blended.has_enough_for_limits() {
            (Subject::NoFormV { cocoa_butter_in_fat }, None)
        } else {
            let remedies = to_cocoa_butter(recipe, make_up, LEAST_COCOA_BUTTER_FOR_LIMITS);
            (Subject::NoLimit { cocoa_butter_in_fat, remedies }, Some(LEAST_COCOA_BUTTER_FOR_LIMITS.to_percent()))
        };
        findings.push(
            Finding::new(Level::Note, "fat.form_v_limit_c.none", subject)
                .with_value(cocoa_butter_in_fat.to_percent())
                .with_usual(least, None),
        );
    }
    if is_below(cocoa_butter_in_fat.0, LEAST_FOR_UNCERTAINTY.0) {
        findings.push(
            Finding::new(
                Level::Note,
                "fat.solid_fat.outside_range",
                Subject::SolidFatOutsideRange { cocoa_butter_in_fat },
            )
            .with_value(cocoa_butter_in_fat.to_percent())
            .with_usual(Some(LEAST_FOR_UNCERTAINTY.to_percent()), None),
        );
    }
    let at = fat.at;
    if !is_held_against_measured(at) {
        let (low, high) = HELD_AGAINST_MEASURED;
        findings.push(
            Finding::new(Level::Note, "fat.solid_fat.outside_temperature", Subject::SolidFatOutsideTemperature { at })
                .with_value(at.0)
                .with_usual(Some(low.0), Some(high.0)),
        );
    }
    for line in recipe.lines.iter().filter(|line| line.ingredient.other_fat_kind_is_estimate) {
        let Some(share) = line.ingredient.composition.share(Component::OtherFat) else { continue };
        let share_of_fat = (line.amount.grams() * share) / fat.grams.total();
        if !is_below(share_of_fat.0, ESTIMATE_MATTERS.0) {
            findings.push(
                Finding::new(
                    Level::Note,
                    "fat.other_fat_kind_estimated",
                    Subject::OtherFatKindEstimated {
                        name: line.ingredient.name.clone(),
                        kind: line.ingredient.other_fat_kind,
                        share_of_fat,
                    },
                )
                .with_value(share_of_fat.to_percent()),
            );
        }
    }
}

fn emulsion_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let bowl = &analysis.make_up.bowl;
    let result = match analysis.emulsion {
        EmulsionState::Unknown => return,
        state @ (EmulsionState::FatContinuous | EmulsionState::Dry) => {
            let water = bowl.share(Component::Water).unwrap_or_default();
            let finding = if state == EmulsionState::Dry {
                Finding::new(Level::Note, "emulsion.dry", Subject::Dry { water })
            } else {
                Finding::new(Level::Note, "emulsion.fat_continuous", Subject::FatContinuous { water })
            };
            findings.push(finding.with_value(water.to_percent()).with_usual(Some(LEAST_WATER.to_percent()), None));
            return;
        }
        EmulsionState::Emulsion(result) => result,
    };
    let dispersed = result.dispersed_share();
    let to_jamming = |side_effects| {
        remedy::for_figure(recipe, &analysis.make_up, JAMMING.0, side_effects, |parts| {
            emulsion(parts).emulsion().map(|changed: Emulsion| changed.dispersed_share().0)
        })
    };
    if is_above(dispersed.0, JAMMING.0) {
        let is_likely_to_split = is_above(dispersed.0, CLOSEST_PACKING.0);
        let subject =
            Subject::EmulsionCrowded { dispersed, is_likely_to_split, remedies: to_jamming(SideEffects::Refused) };
        let finding = if is_likely_to_split {
            Finding::new(Level::Problem, "emulsion.phi_dispersed.high", subject)
        } else {
            Finding::new(Level::Caution, "emulsion.phi_dispersed.high", subject)
        };
        findings.push(finding.with_value(dispersed.0).with_usual(None, Some(JAMMING.0)));
    } else if result.fat.0 > 0.0 {
        let subject = Subject::EmulsionHasRoom { dispersed, to_limit: to_jamming(SideEffects::Allowed) };
        findings.push(
            Finding::new(Level::Note, "emulsion.room", subject)
                .with_value(dispersed.0)
                .with_usual(None, Some(JAMMING.0)),
        );
    }
    let ratio = result.fat_to_water;
    if FatToWater::of(ratio, recipe.kind) == Some(FatToWater::LikelyToSplit) {
        let bound = FAT_TO_WATER_EASY;
        let remedies = remedy::for_figure(recipe, &analysis.make_up, bound, SideEffects::Refused, |parts| {
            Some((parts.group(Group::TotalFat)? / parts.grams(Component::Water)?).0)
        });
        findings.push(
            Finding::new(Level::Caution, "emulsion.fat_to_water.high", Subject::FatToWater { ratio, remedies })
                .with_value(ratio)
                .with_usual(Some(FAT_TO_WATER_LEAST), Some(bound)),
        );
    }
}

fn usual_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let bowl = &analysis.make_up.bowl;
    for range in analysis.usual.iter().filter(|range| range.concerns(bowl)) {
        let Some(share) = range.of.of(bowl) else { continue };
        let place = range.place(share);
        let Some(bound) = range.nearest_within(place) else { continue };
        let remedies = remedy::for_share(recipe, &analysis.make_up, MassFraction::from_percent(bound), |parts| {
            Some(parts.total() * range.of.of(parts)?)
        });
        findings.push(
            Finding::new(Level::Note, range.of.code(place), Subject::OutsideUsual { range: *range, share, remedies })
                .with_value(share.to_percent())
                .with_usual(Some(range.low), Some(range.high))
                .with_high_outside(range.high_is_outside),
        );
    }
}

fn seeding_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    if recipe.is_only_seed() {
        findings.push(Finding::new(Level::Note, "seeding.none", Subject::OnlySeed));
        return;
    }
    // A caramel is not to be seeded: neither how, nor why it cannot be, is worth a word.
    if recipe.kind == Kind::Caramel {
        return;
    }
    let Ok(fat) = &analysis.fat else { return };
    let cocoa_butter_in_fat = fat.blended.cocoa_butter_share();
    let Some(seeding) = &analysis.seeding else {
        let (subject, least) = if fat.limits.form_v.is_none() && fat.blended.has_enough_for_limits() {
            (Subject::NoSeedingWithoutFormV, None)
        } else {
            let remedies = to_cocoa_butter(recipe, &analysis.make_up, LEAST_COCOA_BUTTER);
            (Subject::NoSeeding { cocoa_butter_in_fat, remedies }, Some(LEAST_COCOA_BUTTER.to_percent()))
        };
        findings.push(
            Finding::new(Level::Note, "seeding.none", subject)
                .with_value(cocoa_butter_in_fat.to_percent())
                .with_usual(least, None),
        );
        return;
    };
    let Some(limit) = seeding.limits.form_v else { return };
    let seeded_by = SeededBy::of(analysis);
    findings.push(window_finding(recipe, analysis, fat, seeding, limit));
    if seeded_by == SeededBy::CocoaButter {
        findings.extend(habit_finding(recipe.kind, limit));
    }
}

/// What explains window and dose, for those who read on.
fn seeding_explanations(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let Some(seeding) = &analysis.seeding else { return };
    if let Some(unmixed) = seeding.second_window() {
        findings.push(Finding::new(
            Level::Note,
            "seeding.two_windows",
            Subject::TwoWindows {
                blended: (seeding.window.min, seeding.window.max),
                unmixed: (unmixed.min, unmixed.max),
                globules: globule_names(recipe),
            },
        ));
    }
    if analysis.emulsion.emulsion().is_some() && seeding.window.recommended < STIRRING_LIMIT {
        findings.push(
            Finding::new(
                Level::Note,
                "seeding.recommended_c.low",
                Subject::WindowBelowEmulsionLimit {
                    recommended: seeding.window.recommended,
                    unmixed: seeding.second_window().map(|window| window.recommended),
                    seeded_by: SeededBy::of(analysis),
                },
            )
            .with_value(seeding.window.recommended.0)
            .with_usual(Some(STIRRING_LIMIT.0), None),
        );
    }
    // The other ways have no such dose.
    if SeededBy::of(analysis) != SeededBy::CocoaButter {
        return;
    }
    // Of the seed that is chosen; the dose for equal setting time is that of a cream.
    let plan = analysis.plan.as_ref().ok();
    let habit = plan.and_then(|plan| plan.seed.as_ref()).map_or(seeding.habit.clip, |seed| seed.clip);
    let is_cream = plan.is_none_or(|plan| plan.choice.way == SeedingWay::Cream);
    let equal_time = seeding.equal_time.filter(|_| is_cream).and_then(|dose| dose.clip);
    if habit.is_some() || equal_time.is_some() {
        let subject = Subject::DoseClipped { habit, equal_time };
        findings.push(Finding::new(Level::Note, "seeding.dose_clipped", subject));
    }
}

fn window_finding(
    recipe: &Recipe,
    analysis: &Analysis,
    fat: &FatCrystals,
    seeding: &Seeding,
    limit: Celsius,
) -> Finding {
    // The limit is that of the mass without the seed that stands in the sheet, and so are the fats that explain it.
    let without_seed = recipe.without_seed().and_then(|mass| fat_grams(&make_up(&mass).bowl));
    let grams = without_seed.unwrap_or(fat.grams);
    let all = grams.total();
    let cocoa_butter_in_fat = grams.cocoa_butter / all;
    let milk_fat_in_fat = grams.milk_fat / all;
    let window = seeding.window;
    Finding::new(
        Level::Note,
        "seeding.window",
        Subject::SeedingWindow(SeedingSubject {
            seeding: *seeding,
            bowl: seeding.bowl,
            limit,
            seeded_by: SeededBy::of(analysis),
            with_seed: analysis.plan.as_ref().ok().and_then(Plan::with_seed),
            is_other_way: recipe.seeding != SeedingChoice::default(),
            intended_use: recipe.intended_use,
            factor: habit_factor(recipe.intended_use),
            cocoa_butter_in_fat,
            milk_fat_in_fat,
            other_fat_in_fat: MassFraction(1.0) - cocoa_butter_in_fat - milk_fat_in_fat,
        }),
    )
    .with_value(window.recommended.0)
    .with_usual(Some(window.min.0), Some(window.max.0))
}

/// What would bring cocoa butter to a share of the fat.
fn to_cocoa_butter(recipe: &Recipe, make_up: &MakeUp, share: MassFraction) -> Remedies {
    remedy::for_figure(recipe, make_up, share.0, SideEffects::Refused, |parts| {
        let (cocoa_butter, fat) = (parts.group(Group::CocoaButter)?, parts.group(Group::TotalFat)?);
        (fat.0 > 0.0).then(|| (cocoa_butter / fat).0)
    })
}

/// The ingredients that bring fat in globules, each once.
fn globule_names(recipe: &Recipe) -> Vec<String> {
    let words = Names::of(recipe);
    let mut names = Vec::new();
    for line in recipe.lines.iter().filter(|line| line.ingredient.fat_in_globules && line.amount.grams().0 > 0.0) {
        let has_fat =
            Component::FATS.into_iter().any(|fat| line.ingredient.composition.share(fat) != Some(MassFraction::ZERO));
        let name = words.name_of(line);
        if has_fat && !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// A habit of the trade that lies above the form V limit of this mass.
fn habit_finding(kind: Kind, limit: Celsius) -> Option<Finding> {
    let habit = match kind {
        Kind::Praline => handling::PRALINE,
        Kind::Chocolate => CHOCOLATE_HABIT,
        _ => return None,
    };
    let is_wholly_above = limit < habit.0;
    (limit + HABIT_SLACK < habit.1).then(|| {
        let subject = Subject::HabitAboveLimit { habit, limit, is_wholly_above };
        let finding = if is_wholly_above {
            Finding::new(Level::Caution, "seeding.habit_above_limit", subject)
        } else {
            Finding::new(Level::Note, "seeding.habit_above_limit", subject)
        };
        finding.with_value(limit.0).with_usual(Some(habit.0.0), Some(habit.1.0))
    })
}

fn cautions(recipe: &Recipe, make_up: &MakeUp, findings: &mut Vec<Finding>) {
    if recipe.kind == Kind::Caramel || losses::is_hot_sugar(make_up) {
        findings.push(Finding::new(Level::Caution, "caution.hot_sugar", Subject::HotSugar));
    }
    let egg = recipe.lines.iter().find(|line| line.ingredient.category == Category::Egg && line.amount.grams().0 > 0.0);
    if let Some(egg) = egg {
        let subject = Subject::RawEgg { name: egg.ingredient.name.clone() };
        findings.push(Finding::new(Level::Caution, "caution.raw_egg", subject));
    }
    let nut = recipe.lines.iter().find(|line| line.ingredient.category == Category::Nut && line.amount.grams().0 > 0.0);
    if let Some(nut) = nut {
        let subject = Subject::Choking { name: nut.ingredient.name.clone() };
        findings.push(Finding::new(Level::Note, "caution.choking", subject));
    }
    findings.extend(allergens(recipe));
    if let Some(polyols) = make_up.bowl.share(Component::Polyols)
        && is_above(polyols.0, POLYOL_CAUTION.0)
    {
        findings.push(
            Finding::new(Level::Note, "caution.polyols", Subject::Polyols { polyols })
                .with_value(polyols.to_percent())
                .with_usual(None, Some(POLYOL_CAUTION.to_percent())),
        );
    }
    if let Some(ethanol) = make_up.bowl.share(Component::Ethanol)
        && !is_below(ethanol.0, ALCOHOL_CAUTION.0)
    {
        findings.push(
            Finding::new(Level::Note, "caution.alcohol", Subject::Alcohol { ethanol }).with_value(ethanol.to_percent()),
        );
        findings.extend(losses::alcohol_boils_off(recipe, make_up));
    }
}

/// The allergens of all lines, each once in the order of the recipe.
fn allergens(recipe: &Recipe) -> Option<Finding> {
    let (mut names, mut unknown): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    for line in recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0) {
        match &line.ingredient.properties.allergens {
            Some(allergens) => {
                for name in allergens {
                    if !names.contains(name) {
                        names.push(name.clone());
                    }
                }
            }
            None if unknown.contains(&line.ingredient.name) => {}
            None => unknown.push(line.ingredient.name.clone()),
        }
    }
    (!names.is_empty() || !unknown.is_empty())
        .then(|| Finding::new(Level::Note, "caution.allergens", Subject::Allergens { names, unknown }))
}
