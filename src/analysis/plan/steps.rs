//! The steps of a plan, in their order.

use super::seed::Seed;
use super::step::{LookAt, PlanStep, StepKind, StepTemperature, WeighedLine, WhenOff};
use super::{BLEND_MINUTES, EMULSIFY, LEAST_ABOVE_ROOM, Plan, SET_CHOCOLATE, SET_FILLING, ToSeed, cooling_time, lines};
use crate::analysis::ROOM;
use crate::analysis::emulsion::STIRRING_LIMIT;
use crate::analysis::seeding::Window;
use crate::analysis::time_band::TimeBand;
use crate::ingredient::Component;
use crate::recipe::{Kind, Line, MixTemperature, Recipe, SeedingWay};
use crate::units::{Celsius, Grams, MassFraction};

pub(super) fn steps(of: &ToSeed<'_>, plan: &Plan) -> Vec<PlanStep> {
    let mut steps = Vec::new();
    let is_kept = plan.choice.way == SeedingWay::KeepTempered;
    steps.push(match plan.mix_end {
        _ if is_kept => warm(of, plan),
        Some(end) => bring_to_temperature(of, end),
        None => melt_out(of, plan),
    });
    if plan.is_emulsion {
        steps.push(emulsify(of, plan));
    }
    match &plan.seed {
        // Cold chocolate cools the mass: it goes in while that is warm.
        Some(seed) if seed.way == SeedingWay::ChoppedChocolate => {
            if plan.start > seed.put_in.max {
                steps.push(cool(of, plan, plan.start, seed.put_in));
            }
            steps.push(seed_step(plan, seed));
            steps.push(blend(plan, seed));
            let after = seed.after.map_or(seed.put_in.recommended, |after| after.at);
            if after > plan.window.recommended {
                steps.push(cool(of, plan, after, plan.window));
            }
            steps.push(check(plan));
        }
        Some(seed) => {
            if plan.start > plan.window.recommended {
                steps.push(cool(of, plan, plan.start, plan.window));
            }
            steps.push(check(plan));
            steps.push(seed_step(plan, seed));
            steps.push(blend(plan, seed));
        }
        None => {
            // A fresh emulsion bears more than the mixed fats do: it is made warm and cools.
            if let Some(fresh) =
                plan.fresh.filter(|fresh| plan.is_emulsion && fresh.recommended > plan.window.recommended)
            {
                steps.push(cool(of, plan, fresh.recommended, plan.window));
            }
            steps.push(check(plan));
        }
    }
    steps.push(deposit(plan));
    steps.push(set(of, plan));
    steps
}

/// From here to there.
pub(super) fn range((from, to): (Celsius, Celsius)) -> StepTemperature {
    StepTemperature { from, to, best: None }
}

/// Anywhere in a window, at best in its middle.
fn within(window: Window) -> StepTemperature {
    StepTemperature { from: window.min, to: window.max, best: Some(window.recommended) }
}

/// Which lines go in at the beginning.
#[derive(Clone, Copy, PartialEq, Eq)]
enum GoesIn {
    /// All of a mass of fat; of an emulsion what brings cocoa butter.
    First,
    /// Of an emulsion the rest.
    WithTheWater,
}

/// The lines that go in then, in their order.
fn weighed_lines(recipe: &Recipe, is_emulsion: bool, when: GoesIn) -> Vec<WeighedLine> {
    let is_first = |line: &Line| {
        !is_emulsion || line.ingredient.composition.share(Component::CocoaButter) != Some(MassFraction::ZERO)
    };
    lines(recipe)
        .filter(|line| is_first(line) == (when == GoesIn::First))
        .map(|line| WeighedLine {
            name: line.ingredient.name.clone(),
            grams: line.amount.grams(),
            at: None,
            note: line.note.clone(),
        })
        .collect()
}

/// What they weigh together; `None` where there are none.
fn weight(lines: &[WeighedLine]) -> Option<Grams> {
    (!lines.is_empty()).then(|| lines.iter().map(|line| line.grams).sum())
}

fn melt_out(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let lines = weighed_lines(of.recipe, plan.is_emulsion, GoesIn::First);
    PlanStep {
        temperature: Some(range(plan.chocolate.melt_out())),
        weight: weight(&lines),
        lines,
        when_off: vec![WhenOff::GrainsLeft, WhenOff::Overheated],
        ..PlanStep::new(StepKind::MeltOut, LookAt::NoGrain)
    }
}

/// What the sheet says: every line as warm as it is there; a line of which nothing is said counts as in the room.
fn bring_to_temperature(of: &ToSeed<'_>, end: Celsius) -> PlanStep {
    let at = |line: &Line| line.temperature.map_or(MixTemperature::ROOM, |at| at).celsius();
    let lines: Vec<WeighedLine> = lines(of.recipe)
        .map(|line| WeighedLine {
            name: line.ingredient.name.clone(),
            grams: line.amount.grams(),
            at: Some(at(line)),
            note: line.note.clone(),
        })
        .collect();
    PlanStep {
        temperature: Some(range((end, end))),
        weight: weight(&lines),
        lines,
        when_off: vec![WhenOff::EndsElsewhere, WhenOff::GrainsLeft],
        ..PlanStep::new(StepKind::BringToTemperature, LookAt::NoGrain)
    }
}

fn warm(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let lines = weighed_lines(of.recipe, plan.is_emulsion, GoesIn::First);
    let warmest = plan.kept.as_ref().map(|kept| kept.warmest);
    PlanStep {
        temperature: warmest.map(|to| StepTemperature { from: plan.window.min.min(to), to, best: None }),
        weight: weight(&lines),
        lines,
        when_off: vec![WhenOff::CrystalsLost],
        ..PlanStep::new(StepKind::Warm, LookAt::SoftWithCrystals)
    }
}

fn emulsify(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let is_kept = plan.choice.way == SeedingWay::KeepTempered;
    let temperature = match plan.mix_end {
        _ if is_kept => within(plan.fresh.unwrap_or(plan.window)),
        Some(end) => range((end, end)),
        None => range(EMULSIFY),
    };
    let mut when_off = vec![WhenOff::Splits];
    if is_kept {
        when_off.push(WhenOff::CrystalsLost);
    }
    // With the temperatures of the sheet all lines went in together.
    let lines = match plan.mix_end {
        Some(_) if !is_kept => Vec::new(),
        _ => weighed_lines(of.recipe, plan.is_emulsion, GoesIn::WithTheWater),
    };
    PlanStep {
        temperature: Some(temperature),
        weight: weight(&lines),
        lines,
        when_off,
        ..PlanStep::new(StepKind::Emulsify, LookAt::Glossy)
    }
}

fn cool(of: &ToSeed<'_>, plan: &Plan, start: Celsius, window: Window) -> PlanStep {
    let minutes = cooling_time(of.bowl, start, window.recommended);
    let mut when_off = vec![WhenOff::ColdWall];
    if minutes.is_none() && (window.recommended - ROOM).0 < LEAST_ABOVE_ROOM.0 {
        when_off.insert(0, WhenOff::RoomTooWarm);
    }
    if plan.is_emulsion && window.recommended < STIRRING_LIMIT {
        when_off.push(WhenOff::ColdEmulsion);
    }
    PlanStep { temperature: Some(within(window)), minutes, when_off, ..PlanStep::new(StepKind::Cool, LookAt::Even) }
}

fn check(plan: &Plan) -> PlanStep {
    PlanStep {
        temperature: Some(within(plan.window)),
        when_off: vec![WhenOff::TooWarm, WhenOff::NearLimit, WhenOff::TooCold],
        ..PlanStep::new(StepKind::Check, LookAt::TwoReadings)
    }
}

fn seed_step(plan: &Plan, seed: &Seed) -> PlanStep {
    let (look, mut when_off) = match seed.way {
        SeedingWay::Cream => (LookAt::CloudyCream, vec![WhenOff::SeedMelted, WhenOff::SeedStiff]),
        SeedingWay::Grated => (LookAt::DryPowder, vec![WhenOff::SeedMelted]),
        SeedingWay::ChoppedChocolate | SeedingWay::KeepTempered => (LookAt::SmallPieces, Vec::new()),
    };
    if seed.ingredient.is_none() {
        when_off.push(WhenOff::ChocolateNotKnown);
    }
    let window = if seed.way == SeedingWay::ChoppedChocolate { seed.put_in } else { plan.window };
    PlanStep {
        temperature: Some(within(window)),
        weight: Some(seed.grams),
        when_off,
        ..PlanStep::new(StepKind::Seed, look)
    }
}

fn blend(plan: &Plan, seed: &Seed) -> PlanStep {
    let (low, high) = BLEND_MINUTES;
    let is_chopped = seed.way == SeedingWay::ChoppedChocolate;
    PlanStep {
        temperature: if is_chopped {
            seed.after.map(|after| StepTemperature { from: after.at, to: after.at, best: None })
        } else {
            Some(range((plan.window.min, plan.window.max)))
        },
        minutes: (!is_chopped).then_some(TimeBand::between(low, high)),
        when_off: if is_chopped { vec![WhenOff::PiecesLeft, WhenOff::PiecesGone] } else { vec![WhenOff::Lumps] },
        ..PlanStep::new(StepKind::Blend, if is_chopped { LookAt::NoPieces } else { LookAt::NoStreaks })
    }
}

fn deposit(plan: &Plan) -> PlanStep {
    PlanStep {
        temperature: Some(range((plan.window.min, plan.window.max))),
        when_off: vec![WhenOff::Thickens, WhenOff::StripStaysSoft],
        ..PlanStep::new(StepKind::Deposit, LookAt::TestStrip)
    }
}

fn set(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let is_chocolate = of.recipe.kind == Kind::Chocolate && !plan.is_emulsion;
    PlanStep {
        temperature: Some(range(if is_chocolate { SET_CHOCOLATE } else { SET_FILLING })),
        when_off: vec![WhenOff::StaysSoft, WhenOff::SetsDull],
        ..PlanStep::new(StepKind::Set, LookAt::SetThrough)
    }
}
