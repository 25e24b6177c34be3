//! What the water model has to say: keeping, sugar in and out of solution, what is in doubt.

use crate::analysis::Analysis;
use crate::analysis::emulsion::CLOSEST_PACKING;
use crate::analysis::exchange::{self, Locked};
use crate::analysis::finding::{Finding, KeepingSubject, Level, Subject};
use crate::analysis::is_above;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::remedy::{self, SideEffects};
use crate::analysis::water::equilibrium::{Conditions, Contents};
use crate::analysis::water::keeping::LOW_ACID_LIMIT;
use crate::analysis::water::state::{
    DRY, Doubt, GRAINS_BY_ITSELF, GRAINS_WHEN_SEEDED, LACTOSE_BY_ITSELF, LACTOSE_GROWS, ROOM, Water, WaterState, step,
};
use crate::ingredient::{Category, Component};
use crate::recipe::Recipe;
use crate::units::{Grams, MassFraction, WaterActivity};

/// How many round amounts ([`step`]) are exchanged to show that dextrose still lowers water activity where sucrose does
/// not: 30 g in an ordinary batch.
const STEPS_EXCHANGED: f64 = 3.0;

/// From this share of water and alcohol on alcohol itself hinders growth more than the water activity tells (common practice,
/// no published source: some 20 % by volume).
const MUCH_OF_THE_LIQUID: MassFraction = MassFraction(0.15);

/// Sucrose at most half of the sweeteners keeps a caramel from graining (common practice, no published source).
pub const SUCROSE_BY_HABIT: MassFraction = MassFraction(0.5);

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
    findings.extend(sucrose(recipe, &analysis.make_up.bowl, water));
    findings.extend(lactose(water));
    if water.may_grain_dextrose() {
        findings.push(Finding::new(Level::Note, "water.dextrose_supersaturated", Subject::DextroseSupersaturated));
    }
    if water.doubts.contains(&Doubt::OutsideRange) || water.doubts.contains(&Doubt::StrongForSucrose) {
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
    /// So much below the limit a remedy aims, so that it holds with its grams rounded.
    const SLACK: f64 = 0.001;
    let (activity, low, high) = (water.rest.activity, water.low(), water.judged());
    let liquid = analysis.make_up.bowl.share(Component::Water).zip(analysis.make_up.bowl.share(Component::Ethanol));
    let alcohol = liquid.map(|(water, ethanol)| MassFraction(ethanol.0 / (water.0 + ethanol.0)));
    let is_over = is_above(high.0, LOW_ACID_LIMIT.0);
    let to_limit = LOW_ACID_LIMIT.0 - SLACK - (water.high().0 - activity.0);
    let of = |parts: &Parts| Some(Contents::of(parts)?.equilibrium(Conditions::usual(ROOM))?.activity.0);
    let remedies = if is_over {
        remedy::for_figure(recipe, &analysis.make_up, to_limit, SideEffects::Refused, of)
    } else {
        remedy::Remedies::default()
    };
    let is_spirit = alcohol.is_some_and(|share| share > MUCH_OF_THE_LIQUID);
    let is_exchange = is_over && remedies.offered.is_empty();
    let gains: Vec<_> = water.effects.iter().map(|effect| (effect.line, effect.change / effect.more.0)).collect();
    let make_up = &analysis.make_up;
    let of_locked = |locked| exchange::for_figure(recipe, make_up, to_limit, &gains, locked, of);
    let exchange = is_exchange.then(|| of_locked(Locked::Kept).or_else(|| of_locked(Locked::Thought))).flatten();
    let is_fat_around = analysis.emulsion.emulsion().is_some_and(|emulsion| emulsion.fat_share() > CLOSEST_PACKING);
    let subject = Subject::Keeping(KeepingSubject {
        alcohol: alcohol.filter(|share| *share > MUCH_OF_THE_LIQUID),
        is_fat_around,
        activity,
        low,
        high,
        aim: WaterActivity(to_limit),
        ph: recipe.ph.map(crate::recipe::Ph::value),
        has_alcohol: water.doubts.contains(&Doubt::Ethanol),
        remedies,
        exchange,
    });
    let finding = if is_over && !is_spirit {
        Finding::new(Level::Caution, "water.water_activity.high", subject)
    } else {
        Finding::new(Level::Note, "water.water_activity", subject)
    };
    finding.with_value(activity.0).with_usual(None, Some(LOW_ACID_LIMIT.0))
}

fn sucrose(recipe: &Recipe, bowl: &Parts, water: &Water) -> Option<Finding> {
    let undissolved = water.rest.undissolved_sucrose;
    let times = water.at_room.sucrose?;
    if !is_above(undissolved.0, 0.0) {
        return None;
    }
    if recipe.is_cooked() {
        return may_grain(bowl, water, times);
    }
    let exchanged = (step(bowl.total()) * STEPS_EXCHANGED).min(water.contents.sucrose);
    let is_of_chocolate = recipe.lines.iter().any(|line| {
        line.amount.grams().0 > 0.0 && matches!(line.ingredient.category, Category::Couverture | Category::Gianduja)
    });
    let with_dextrose = water.with_dextrose_for_sucrose(exchanged);
    let subject = Subject::SucroseSaturated {
        is_of_chocolate,
        undissolved,
        activity: water.rest.activity,
        exchanged,
        with_dextrose,
    };
    Some(Finding::new(Level::Note, "water.undissolved_sucrose", subject).with_value(times))
}

/// A syrup that was cooked clear holds more than it dissolves until it grains.
fn may_grain(bowl: &Parts, water: &Water, times: f64) -> Option<Finding> {
    let is_by_itself = is_above(times, GRAINS_BY_ITSELF);
    let others = bowl.group(Group::SyrupSolids)?.0;
    let sucrose = water.contents.sucrose;
    let of_sweeteners = MassFraction(sucrose.0 / (sucrose.0 + others));
    let has_habit = !is_above(of_sweeteners.0, SUCROSE_BY_HABIT.0);
    let subject = Subject::MayGrain {
        times,
        is_by_itself,
        of_sweeteners,
        to_half: Grams((sucrose.0 - others) / 2.0),
        clear: water.clear?,
        grained: water.rest.activity,
    };
    let finding = if is_by_itself && !has_habit {
        Finding::new(Level::Caution, "water.sucrose_supersaturation.high", subject)
    } else {
        Finding::new(Level::Note, "water.sucrose_supersaturation.high", subject)
    };
    Some(finding.with_value(times).with_usual(None, Some(GRAINS_WHEN_SEEDED)))
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
