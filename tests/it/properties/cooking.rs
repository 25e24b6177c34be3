//! What holds for every mass that is cooked, whatever is in it.

use nibwright::analysis::cooking::NotCooked;
use nibwright::ingredient::Component;
use nibwright::recipe::{Evaporation, Recipe};
use nibwright::units::Grams;
use proptest::prelude::*;

use super::{ROUNDING, cooked_to, kitchen_amount, recipe_with};
use crate::support::analysis_of;

fn any_mass() -> impl Strategy<Value = Recipe> {
    recipe_with(kitchen_amount().boxed(), Just(Evaporation::default()), 7)
}

/// The water that a cook leaves; the water of the mass where nothing boils off because it is as dry or too cold, `None`
/// where nothing is said.
fn left(recipe: &Recipe, celsius: f64, metres: f64) -> Option<f64> {
    let mut recipe = recipe.clone();
    recipe.losses.evaporation = cooked_to(celsius, metres);
    let make_up = analysis_of(&recipe).make_up;
    let cooking = make_up.evaporating.cooking().expect("it is cooked");
    match cooking.outcome {
        Ok(_) | Err(NotCooked::AlreadyDrier { .. } | NotCooked::BelowWater { .. }) => {
            make_up.bowl.grams(Component::Water).map(|grams| grams.0)
        }
        Err(NotCooked::Unknown | NotCooked::NothingDissolved { .. } | NotCooked::TooHot { .. }) => None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// The hotter it is cooked, the drier it gets, and on a mountain the same temperature leaves less.
    #[test]
    fn hotter_and_higher_never_leave_more_water(
        recipe in any_mass(),
        (cooler, hotter) in (95.0..150.0, 0.0..40.0).prop_map(|(from, more): (f64, f64)| (from, (from + more).min(150.0))),
        (lower, higher) in (-430.0..5100.0, 0.0..3000.0).prop_map(|(from, more): (f64, f64)| (from, (from + more).min(5100.0))),
    ) {
        let slack = 1e-7 * recipe.weighed().0;
        if let (Some(cool), Some(hot)) = (left(&recipe, cooler, lower), left(&recipe, hotter, lower)) {
            prop_assert!(hot <= cool + slack, "{hot} g after {hotter} °C, {cool} g after {cooler} °C");
        }
        if let (Some(low), Some(high)) = (left(&recipe, cooler, lower), left(&recipe, cooler, higher)) {
            prop_assert!(high <= low + slack, "{high} g at {higher} m, {low} g at {lower} m");
        }
    }

    /// Water that is added boils off again: what is cooked to a temperature is cooked to the same.
    #[test]
    fn water_that_is_added_boils_off(recipe in any_mass(), celsius in 100.0..150.0, water in 1.0..500.0) {
        let mut recipe = recipe;
        recipe.losses.evaporation = cooked_to(celsius, 0.0);
        let mut wetter = recipe.clone();
        wetter.push(crate::support::built_in("water"), crate::support::grams(water));
        let (one, other) = (analysis_of(&recipe).make_up, analysis_of(&wetter).make_up);
        let slack = 1e-7 * wetter.weighed().0;
        if let (Some(one_cooked), Some(other_cooked)) = (one.evaporating.cooked(), other.evaporating.cooked()) {
            prop_assert!((one_cooked.water_left.0 - other_cooked.water_left.0).abs() <= slack);
            prop_assert!((one.bowl.total().0 - other.bowl.total().0).abs() <= slack);
        }
        // What was too dry, and by how much, is right: with that much more it boils at this temperature.
        if let Some(Err(NotCooked::AlreadyDrier { missing, .. })) = one.evaporating.cooking().map(|cooking| cooking.outcome) {
            prop_assert!(missing > Grams::ZERO);
            let mut moist = recipe.clone();
            moist.push(crate::support::built_in("water"), crate::support::grams(missing.0 + water));
            let cooked = analysis_of(&moist).make_up;
            prop_assert!(cooked.evaporating.cooked().is_some());
            prop_assert!((cooked.evaporated.0 - water).abs() <= ROUNDING.sqrt() * moist.weighed().0);
        }
    }
}
