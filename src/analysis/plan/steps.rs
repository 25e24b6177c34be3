//! The steps of a plan, in their order.

use super::material::SeedMaterial;
use super::seed::Seed;
use super::step::{LookAt, PlanStep, StepKind, StepTemperature, WeighedLine, WhenOff};
use super::{
    BLEND_MINUTES, EMULSIFY, LEAST_ABOVE_ROOM, Plan, SET_CHOCOLATE, SET_FILLING, ToSeed, WarmUp, cooling_time, lines,
};
use crate::analysis::ROOM;
use crate::analysis::emulsion::STIRRING_LIMIT;
use crate::analysis::mixing::start_of;
use crate::analysis::parts::Parts;
use crate::analysis::seeding::Window;
use crate::analysis::time_band::TimeBand;
use crate::ingredient::Component;
use crate::recipe::{Kind, Line, Recipe, SeedingWay};
use crate::units::{Celsius, Grams, MassFraction};

pub(super) fn steps(of: &ToSeed<'_>, plan: &Plan) -> Vec<PlanStep> {
    let mut steps = Vec::new();
    let is_kept = plan.choice.way == SeedingWay::KeepTempered;
    steps.push(match plan.mix_end {
        _ if is_kept => warm(of, plan),
        Some(end) => bring_to_temperature(of, plan, end),
        None => melt_out(of, plan),
    });
    steps.extend(plan.warm_up.map(warm_up));
    if plan.is_emulsion {
        steps.push(emulsify(of, plan));
    }
    match &plan.seed {
        // Cold chocolate cools the mass: it goes in while that is warm.
        Some(seed) if seed.way == SeedingWay::ChoppedChocolate => {
            if let Some(put_in) = seed.put_in.filter(|put_in| plan.start > put_in.max) {
                let cool = cool(of, plan, plan.start, put_in);
                steps.push(PlanStep { kind: StepKind::CoolForPieces, ..cool });
            }
            steps.push(seed_step(seed));
            steps.push(blend(plan, seed));
            match seed.after {
                Some(after) if after.at > plan.worked().recommended => {
                    steps.push(cool_with_seed(of, plan, seed, after.at));
                }
                Some(_) => {}
                // How warm it is then is not known, and so is how long it takes.
                None => steps.push(PlanStep { minutes: None, ..cool(of, plan, plan.start, plan.worked()) }),
            }
            steps.push(check(plan));
        }
        Some(seed) => {
            if plan.start > plan.window.recommended {
                steps.push(cool(of, plan, plan.start, plan.window));
            }
            steps.push(check(plan));
            steps.push(seed_step(seed));
            steps.push(blend(plan, seed));
        }
        None => {
            // A fresh emulsion bears more than the mixed fats do: it is made warm and cools.
            if let Some(fresh) = plan.fresh.filter(|fresh| plan.is_emulsion && fresh.max > plan.window.max) {
                steps.push(cool_kept(of, plan, fresh));
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
pub(super) fn within(window: Window) -> StepTemperature {
    StepTemperature { from: window.min, to: window.max, best: Some(window.recommended) }
}

/// Anywhere in the window; where seed goes in, at best in its middle. Tempered chocolate is thinner the warmer it is kept.
fn in_window(plan: &Plan) -> StepTemperature {
    if plan.kept.is_some() { range((plan.window.min, plan.window.max)) } else { within(plan.checked()) }
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
    lines(recipe).filter(|line| is_first(line) == (when == GoesIn::First)).map(|line| weighed(line, None)).collect()
}

fn weighed(line: &Line, at: Option<Celsius>) -> WeighedLine {
    WeighedLine { name: line.ingredient.name.clone(), grams: line.amount.grams(), at, note: line.note.clone() }
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
fn bring_to_temperature(of: &ToSeed<'_>, plan: &Plan, end: Celsius) -> PlanStep {
    // What ends too cold is smooth only once it has been warmed.
    let (look, when_off) = if plan.warm_up.is_some() {
        (LookAt::TwoReadings, vec![WhenOff::EndsElsewhere])
    } else {
        (LookAt::NoGrain, vec![WhenOff::EndsElsewhere, WhenOff::GrainsLeft])
    };
    let lines: Vec<WeighedLine> = lines(of.recipe).map(|line| weighed(line, Some(start_of(line)))).collect();
    PlanStep {
        temperature: Some(range((end, end))),
        weight: weight(&lines),
        lines,
        when_off,
        ..PlanStep::new(StepKind::BringToTemperature, look)
    }
}

fn warm_up(warm_up: WarmUp) -> PlanStep {
    PlanStep {
        temperature: Some(warm_up.to),
        when_off: vec![WhenOff::GrainsLeft, WhenOff::Overheated],
        ..PlanStep::new(StepKind::WarmUp, LookAt::NoGrain)
    }
}

fn warm(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let lines = weighed_lines(of.recipe, plan.is_emulsion, GoesIn::First);
    // Of an emulsion the chocolate alone is warmed, which bears what the fresh emulsion does.
    let window = plan.fresh.unwrap_or(plan.window);
    PlanStep {
        temperature: Some(range((window.min, window.max))),
        weight: weight(&lines),
        lines,
        when_off: vec![WhenOff::CrystalsLost],
        ..PlanStep::new(StepKind::Warm, LookAt::SoftWithCrystals)
    }
}

fn emulsify(of: &ToSeed<'_>, plan: &Plan) -> PlanStep {
    let is_kept = plan.choice.way == SeedingWay::KeepTempered;
    let temperature = match plan.mix_end {
        _ if is_kept => {
            let window = plan.fresh.unwrap_or(plan.window);
            range((window.min, window.max))
        }
        Some(end) => plan.warm_up.map_or_else(|| range((end, end)), |warm_up| warm_up.to),
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
    cool_mass(of.bowl, plan, start, window)
}

/// What was put in cools too: of chopped chocolate a third of the whole.
fn cool_with_seed(of: &ToSeed<'_>, plan: &Plan, seed: &Seed, start: Celsius) -> PlanStep {
    let mut whole = of.bowl.clone();
    if let Some((material, grams)) = SeedMaterial::of(of.recipe, seed.way).zip(seed.grams) {
        material.add_to(&mut whole, grams);
    }
    cool_mass(&whole, plan, start, plan.worked())
}

fn cool_mass(mass: &Parts, plan: &Plan, start: Celsius, window: Window) -> PlanStep {
    let minutes = cooling_time(mass, start, window.recommended);
    let mut when_off = vec![WhenOff::ColdWall];
    if minutes.is_none() && (window.recommended - ROOM).0 < LEAST_ABOVE_ROOM.0 {
        when_off.insert(0, WhenOff::RoomTooWarm);
    }
    if plan.is_emulsion && window.recommended < STIRRING_LIMIT {
        when_off.push(WhenOff::ColdEmulsion);
    }
    PlanStep { temperature: Some(within(window)), minutes, when_off, ..PlanStep::new(StepKind::Cool, LookAt::Even) }
}

/// What keeps its crystals cools no further than it has to: the colder, the thicker.
fn cool_kept(of: &ToSeed<'_>, plan: &Plan, fresh: Window) -> PlanStep {
    let window = Window { recommended: plan.window.max, ..plan.window };
    PlanStep { temperature: Some(in_window(plan)), ..cool(of, plan, fresh.max, window) }
}

fn check(plan: &Plan) -> PlanStep {
    PlanStep {
        temperature: Some(in_window(plan)),
        when_off: vec![WhenOff::TooWarm, WhenOff::NearLimit, WhenOff::TooCold],
        ..PlanStep::new(StepKind::Check, LookAt::TwoReadings)
    }
}

fn seed_step(seed: &Seed) -> PlanStep {
    let (look, mut when_off) = match seed.way {
        SeedingWay::Cream if !seed.is_cocoa_butter() && !seed.has_no_cocoa_butter() => {
            (LookAt::SoftWithCrystals, Vec::new())
        }
        SeedingWay::Cream => (LookAt::CloudyCream, vec![WhenOff::SeedMelted, WhenOff::SeedStiff]),
        SeedingWay::Grated => (LookAt::DryPowder, vec![WhenOff::SeedMelted]),
        SeedingWay::ChoppedChocolate | SeedingWay::KeepTempered => (LookAt::SmallPieces, Vec::new()),
    };
    if seed.ingredient.is_none() {
        when_off.push(WhenOff::ChocolateNotKnown);
    }
    PlanStep {
        temperature: seed.put_in.map(within),
        // What brings no crystals is not put in as seed.
        weight: seed.grams.filter(|_| !seed.has_no_cocoa_butter()),
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
            Some(range((plan.worked().min, plan.worked().max)))
        },
        minutes: (!is_chopped).then_some(TimeBand::between(low, high)),
        when_off: if is_chopped { vec![WhenOff::PiecesLeft, WhenOff::PiecesGone] } else { vec![WhenOff::Lumps] },
        ..PlanStep::new(StepKind::Blend, if is_chopped { LookAt::NoPieces } else { LookAt::NoStreaks })
    }
}

fn deposit(plan: &Plan) -> PlanStep {
    PlanStep {
        temperature: Some(range((plan.worked().min, plan.worked().max))),
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
