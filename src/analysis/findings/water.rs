//! What the water model has to say: keeping, sugar in and out of solution, what is in doubt.

use crate::analysis::Analysis;
use crate::analysis::finding::{Finding, KeepingSubject, Level, Subject};
use crate::analysis::parts::Parts;
use crate::analysis::remedy::{self, SideEffects};
use crate::analysis::water::equilibrium::{Conditions, Contents};
use crate::analysis::water::keeping::LOW_ACID_LIMIT;
use crate::analysis::water::solubility::OTHERS_MEASURED;
use crate::analysis::water::state::{
    DRY, Doubt, GRAINS_BY_ITSELF, GRAINS_WHEN_SEEDED, LACTOSE_BY_ITSELF, LACTOSE_GROWS, ROOM, Water, WaterState, step,
};
use crate::analysis::{exchange, is_above};
use crate::recipe::Recipe;
use crate::units::{Grams, WaterActivity};

/// How many round amounts ([`step`]) are exchanged to show that dextrose still lowers water activity where sucrose does
/// not: 30 g in an ordinary batch.
const STEPS_EXCHANGED: f64 = 3.0;

/// The findings about water.
pub(super) fn water_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let water = match &analysis.water {
        WaterState::Unknown | WaterState::NoWater => return,
        WaterState::Dry { is_held } => {
            let finding = Finding::new(Level::Note, "water.dry", Subject::WaterDry { is_held: *is_held });
            findings.push(finding.with_usual(None, is_held.then_some(DRY.0)));
            return;
        }
        WaterState::Wet(water) => water,
    };
    findings.push(keeping(recipe, analysis, water));
    findings.extend(sucrose(recipe, analysis.make_up.bowl.total(), water));
    findings.extend(lactose(water));
    if water.may_grain_dextrose() {
        findings.push(Finding::new(Level::Note, "water.dextrose_supersaturated", Subject::DextroseSupersaturated));
    }
    if water.doubts.contains(&Doubt::OutsideRange) || is_above(water.rest.others_per_water, OTHERS_MEASURED) {
        let is_dry = water.doubts.contains(&Doubt::OutsideRange);
        let others_per_water = (!is_dry).then_some(water.rest.others_per_water);
        let subject = Subject::WaterOutsideRange { activity: water.rest.activity, others_per_water };
        findings.push(Finding::new(Level::Note, "water.outside_range", subject).with_value(water.rest.activity.0));
    }
    for (doubt, is_polyol) in [(Doubt::MolarMass, false), (Doubt::Polyol, true)] {
        if water.doubts.contains(&doubt) {
            findings.push(Finding::new(Level::Note, "water.assumed_input", Subject::WaterAssumed { is_polyol }));
        }
    }
}

fn keeping(recipe: &Recipe, analysis: &Analysis, water: &Water) -> Finding {
    let (activity, low, high) = (water.rest.activity, water.low(), water.high());
    let is_over = is_above(high.0, LOW_ACID_LIMIT.0);
    let to_limit = LOW_ACID_LIMIT.0 - water.band;
    let of = |parts: &Parts| Some(Contents::of(parts)?.equilibrium(Conditions::usual(ROOM))?.activity.0);
    let remedies = if is_over {
        remedy::for_figure(recipe, &analysis.make_up, to_limit, SideEffects::Refused, of)
    } else {
        remedy::Remedies::default()
    };
    let is_exchange = is_over && remedies.offered.is_empty();
    let gains: Vec<_> = water.effects.iter().map(|effect| (effect.line, effect.change / effect.more.0)).collect();
    let exchange = is_exchange.then(|| exchange::for_figure(recipe, &analysis.make_up, to_limit, &gains, of)).flatten();
    let subject = Subject::Keeping(KeepingSubject {
        activity,
        low,
        high,
        aim: WaterActivity(to_limit),
        ph: recipe.ph.map(crate::recipe::Ph::value),
        has_alcohol: water.doubts.contains(&Doubt::Ethanol),
        remedies,
        exchange,
    });
    let finding = if is_over {
        Finding::new(Level::Caution, "water.water_activity.high", subject)
    } else {
        Finding::new(Level::Note, "water.water_activity", subject)
    };
    finding.with_value(activity.0).with_usual(None, Some(LOW_ACID_LIMIT.0))
}

fn sucrose(recipe: &Recipe, bowl: Grams, water: &Water) -> Option<Finding> {
    let undissolved = water.rest.undissolved_sucrose;
    let times = water.at_room.sucrose?;
    if !is_above(undissolved.0, 0.0) {
        return None;
    }
    if recipe.is_cooked() {
        // Cooked clear, it holds more than it dissolves until it grains.
        let is_by_itself = is_above(times, GRAINS_BY_ITSELF);
        let subject = Subject::MayGrain { times, is_by_itself, clear: water.clear?, grained: water.rest.activity };
        let finding = if is_by_itself {
            Finding::new(Level::Caution, "water.sucrose_supersaturation.high", subject)
        } else {
            Finding::new(Level::Note, "water.sucrose_supersaturation.high", subject)
        };
        return Some(finding.with_value(times).with_usual(None, Some(GRAINS_WHEN_SEEDED)));
    }
    let exchanged = (step(bowl) * STEPS_EXCHANGED).min(water.contents.sucrose);
    let subject = Subject::SucroseSaturated {
        undissolved,
        activity: water.rest.activity,
        exchanged,
        with_dextrose: water.with_dextrose_for_sucrose(exchanged)?,
    };
    Some(Finding::new(Level::Note, "water.undissolved_sucrose", subject).with_value(times))
}

fn lactose(water: &Water) -> Option<Finding> {
    let times = water.at_room.lactose?;
    if !is_above(times, LACTOSE_GROWS) {
        return None;
    }
    let is_by_itself = is_above(times, LACTOSE_BY_ITSELF);
    let subject = Subject::LactoseMayGrain { times, is_by_itself, grained: water.with_lactose_crystals() };
    let finding = if is_by_itself {
        Finding::new(Level::Caution, "water.lactose_supersaturation.high", subject)
    } else {
        Finding::new(Level::Note, "water.lactose_supersaturation.high", subject)
    };
    Some(finding.with_value(times).with_usual(None, Some(LACTOSE_GROWS)))
}
