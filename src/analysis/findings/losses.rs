//! What the losses have to say: what evaporates, what a cook does, why it cannot be done.

use crate::analysis::cooking::{Cooking, Evaporating, ethanol_lost};
use crate::analysis::finding::{CookedSubject, Finding, Level, Subject};
use crate::analysis::is_above;
use crate::analysis::make_up::MakeUp;
use crate::analysis::parts::Group;
use crate::analysis::water::boiling::{air_pressure, boiling_point};
use crate::ingredient::Component;
use crate::recipe::{Line, Recipe};
use crate::units::{Celsius, Grams, WaterActivity};

/// From this temperature on a cooked mass burns as hot sugar does: above that of boiling water.
const HOT_SUGAR: Celsius = Celsius(100.0);

/// The findings about what evaporates.
pub(super) fn losses_findings(make_up: &MakeUp, findings: &mut Vec<Finding>) {
    if make_up.weighed.0 <= 0.0 {
        return;
    }
    match make_up.evaporating {
        Evaporating::Weighed { asked } => {
            // Where the water is known and less than what is asked for, all of it evaporates.
            let water = make_up.evaporated;
            if make_up.bowl.is_known(Component::Water) && is_above(asked.0, water.0) {
                findings.push(
                    Finding::new(
                        Level::Problem,
                        "evaporation_exceeds_water",
                        Subject::EvaporationExceedsWater { asked, water },
                    )
                    .with_value(asked.0)
                    .with_usual(None, Some(water.0)),
                );
            }
        }
        Evaporating::Estimated { heating, liquid: Some(liquid) } => {
            let evaporated = make_up.evaporated;
            let subject = Subject::EvaporationEstimated { heating, liquid, evaporated };
            findings.push(Finding::new(Level::Note, "evaporation_estimated", subject).with_value(evaporated.0));
        }
        Evaporating::Estimated { liquid: None, .. } => {
            findings.push(Finding::new(Level::Caution, "evaporation_not_known", Subject::EvaporationNotKnown));
        }
        Evaporating::Cooked(cooking) => findings.push(cooking_finding(&cooking, make_up)),
    }
}

fn cooking_finding(cooking: &Cooking, make_up: &MakeUp) -> Finding {
    let Cooking { temperature, height, outcome, possible } = *cooking;
    let (low, high) = (possible.map(|(from, _)| from.0), possible.map(|(_, to)| to.0));
    let finding = match outcome {
        Ok(cooked) => {
            let water = cooked.water_left / make_up.bowl.total();
            let water_boils = boiling_point(WaterActivity(1.0), air_pressure(height.metres()));
            let subject = Subject::Cooked(CookedSubject { temperature, height, cooked, water, water_boils });
            Finding::new(Level::Note, "cooking", subject)
        }
        Err(_) => Finding::new(Level::Problem, "cooking.impossible", Subject::CannotBeCooked(*cooking)),
    };
    finding.with_value(temperature.celsius().0).with_usual(low, high)
}

/// Whether the mass is cooked so hot that it burns as hot sugar does, also where the cook cannot be computed.
pub(super) fn is_hot_sugar(make_up: &MakeUp) -> bool {
    make_up.weighed.0 > 0.0
        && make_up.evaporating.cooking().is_some_and(|cooking| cooking.temperature.celsius() > HOT_SUGAR)
}

/// How much alcohol leaves where water boils off: with what boils, the heated liquid or else all but the fat.
pub(super) fn alcohol_boils_off(recipe: &Recipe, make_up: &MakeUp) -> Option<Finding> {
    let boils = match make_up.evaporating {
        Evaporating::Estimated { liquid, .. } => liquid? + spirits(recipe),
        Evaporating::Weighed { .. } | Evaporating::Cooked(_) => {
            make_up.before_evaporation.total() - make_up.before_evaporation.group(Group::TotalFat)?
        }
    };
    let evaporated = make_up.evaporated / boils;
    is_above(evaporated.0, 0.0).then(|| {
        let lost = ethanol_lost(evaporated);
        let subject = Subject::AlcoholBoilsOff { evaporated, lost };
        Finding::new(Level::Caution, "alcohol_boils_off", subject).with_value(lost[0].to_percent())
    })
}

/// The lines with alcohol in them.
fn spirits(recipe: &Recipe) -> Grams {
    let is_spirit =
        |line: &&Line| line.ingredient.composition.share(Component::Ethanol).is_none_or(|ethanol| ethanol.0 > 0.0);
    recipe.lines.iter().filter(is_spirit).map(|line| line.amount.grams()).sum()
}
