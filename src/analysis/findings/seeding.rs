//! Findings of the seeding plan: the temperature that the thermometer shows, the seed itself, an own dose.

use crate::analysis::finding::{Finding, Level, SeedAtSubject, SeededBy, Subject};
use crate::analysis::plan::Plan;
use crate::analysis::plan::seed::{AmountFrom, Seed};
use crate::analysis::seeding::{EQUAL_TIME_RANGE, HABIT_RANGE, Seeding};
use crate::analysis::survival::{Fate, THERMOMETER_ERROR, fate};
use crate::analysis::{Analysis, ROOM, is_above, is_below};
use crate::recipe::SeedingWay;
use crate::units::{Kelvin, MassFraction};

/// The thermometer stands at a working temperature while it is so near to the window; further off, a set or a hot mass is
/// looked at (judged).
const NEAR_WINDOW: Kelvin = Kelvin(5.0);

/// More cocoa butter than this, as a share of the mass, is no dose of seed but an ingredient (judged).
const AN_INGREDIENT: MassFraction = MassFraction(0.10);

/// What is off at the temperature of the thermometer, with the seed or its dose.
pub(super) fn plan_findings(analysis: &Analysis, findings: &mut Vec<Finding>) {
    let (Some(seeding), Ok(plan)) = (&analysis.seeding, &analysis.plan) else { return };
    findings.extend(at_thermometer(analysis, seeding, plan));
    if let Some(seed) = &plan.seed {
        findings.extend(without_crystals(seed));
        findings.extend(melted_seed(seed));
        findings.extend(lost_seed(plan, seed));
        findings.extend(own_dose(seeding, seed));
    }
}

fn at_thermometer(analysis: &Analysis, seeding: &Seeding, plan: &Plan) -> Option<Finding> {
    let (at, window, limits) = (analysis.at, seeding.window, seeding.limits);
    // At room temperature and below a mass is looked at, not worked.
    let is_working = at > ROOM && at > window.min - NEAR_WINDOW && at < window.max + NEAR_WINDOW;
    // Chopped chocolate goes into a mass that is warmer than its window.
    let is_seeded_warm = plan.choice.way == SeedingWay::ChoppedChocolate;
    if !is_working {
        return None;
    }
    let limit = limits.form_v?;
    let fate = fate(&limits, &window, at)?;
    let subject = Subject::SeedAt(SeedAtSubject {
        at,
        fate,
        limit,
        form_iv: limits.form_iv,
        form_vi: limits.form_vi,
        window,
        seeded_by: SeededBy::of(analysis),
        fresh: plan.fresh.filter(|fresh| at <= fresh.max),
        melt_out: plan.chocolate.melt_out(),
    });
    let finding = match fate {
        Fate::Lives => return None,
        Fate::Melts | Fate::OnlyAnnealed if is_seeded_warm => return None,
        Fate::Melts | Fate::OnlyAnnealed => Finding::new(Level::Caution, "seeding.too_warm", subject),
        Fate::Edge => Finding::new(Level::Caution, "seeding.margin", subject),
        // What is tempered has its crystals: in the cold it is only thick.
        Fate::Cold | Fate::WrongForm if plan.kept.is_some() => Finding::new(Level::Note, "seeding.too_cold", subject),
        Fate::Cold => Finding::new(Level::Note, "seeding.too_cold", subject),
        Fate::WrongForm => Finding::new(Level::Caution, "seeding.wrong_form", subject),
    };
    Some(finding.with_value(at.0).with_usual(Some(window.min.0), Some(window.max.0)))
}

/// A line of the sheet that is the seed and holds no cocoa butter.
fn without_crystals(seed: &Seed) -> Option<Finding> {
    let name = seed.ingredient.as_ref().filter(|_| seed.has_no_cocoa_butter())?.name.clone();
    let subject = Subject::SeedWithoutCrystals { name };
    Some(Finding::new(Level::Caution, "seeding.seed_without_crystals", subject))
}

fn melted_seed(seed: &Seed) -> Option<Finding> {
    seed.is_melted.then(|| {
        let subject = Subject::SeedMelted { at: seed.at };
        Finding::new(Level::Caution, "seeding.seed_melted", subject).with_value(seed.at.0)
    })
}

/// The mass ends so warm with its seed that the crystals do not last.
fn lost_seed(plan: &Plan, seed: &Seed) -> Option<Finding> {
    let after = seed.after?;
    // Chopped chocolate may end near the limit: it is stirred on and cools.
    let is_lost = match after.fate? {
        Fate::Melts | Fate::OnlyAnnealed => true,
        Fate::Edge => seed.way != SeedingWay::ChoppedChocolate,
        Fate::Lives | Fate::Cold | Fate::WrongForm => false,
    };
    let limit = plan.with_seed().map_or(plan.limits, |with| with.limits).form_v?;
    is_lost.then(|| {
        let subject = Subject::SeedLost { after: after.at, limit, to_limit: limit - after.at };
        Finding::new(Level::Caution, "seeding.after_mixing_c.high", subject)
            .with_value(after.at.0)
            .with_usual(None, Some((limit - THERMOMETER_ERROR).0))
    })
}

/// An own dose outside of what is usual: by its cocoa butter, which brings the crystals.
fn own_dose(seeding: &Seeding, seed: &Seed) -> Option<Finding> {
    if seed.amount_from == AmountFrom::Suggestion || seed.way == SeedingWay::ChoppedChocolate || seeding.bowl.0 <= 0.0 {
        return None;
    }
    let of_seed = seed.cocoa_butter.filter(|share| share.0 > 0.0)?;
    let grams = seed.grams?;
    let share = (grams * of_seed) / seeding.bowl;
    let (least, most) = HABIT_RANGE;
    let is_ingredient = is_above(share.0, AN_INGREDIENT.0);
    let is_blend = is_below(of_seed.0, 1.0);
    let subject = Subject::OwnDose { grams, share, is_blend, is_ingredient, suggested: seed.suggested };
    let finding = if is_below(share.0, least.0) {
        Finding::new(Level::Note, "seeding.amount_g.low", subject)
    } else if is_ingredient {
        Finding::new(Level::Problem, "seeding.amount_g.high", subject)
    } else if is_above(share.0, EQUAL_TIME_RANGE.1.0) {
        Finding::new(Level::Caution, "seeding.amount_g.high", subject)
    } else if is_above(share.0, most.0) {
        Finding::new(Level::Note, "seeding.amount_g.high", subject)
    } else {
        return None;
    };
    let end = |share: MassFraction| (seeding.bowl * share).0 / of_seed.0;
    Some(finding.with_value(grams.0).with_usual(Some(end(least)), Some(end(most))))
}
