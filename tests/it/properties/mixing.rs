//! The mix: its figures, and that forward and backward agree, whatever is mixed.

use nibwright::analysis::heat::Outcome;
use nibwright::analysis::mixing::{Changeable, MixingState, Needed, REACHED_WITHIN, Wanted, Way};
use nibwright::analysis::{ROOM, analyse};
use nibwright::recipe::{FatState, MixTemperature, Recipe, StirringTime};
use nibwright::units::{Celsius, MassFraction};
use proptest::prelude::*;

use super::figures::Figures;
use super::grams;
use super::recipes::{kitchen_recipe, with_temperatures};

/// What does not depend on the size of the batch.
pub(super) fn intensive(mixing: &MixingState) -> Figures {
    let MixingState {
        end,
        uncertainty,
        mixed,
        by_stirring,
        crystals_before: _,
        unsaid: _,
        lines: _,
        has_tempered: _,
        fate: _,
        fresh_fate: _,
        cooling_sugars: _,
        cooler_by,
        wanted,
    } = mixing;
    let mut figures = Figures::new();
    let mut put = |name: &str, value: f64| figures.push((name.to_owned(), Some(value)));
    put("end", end.0);
    put("uncertainty", uncertainty.0);
    put("by stirring", by_stirring.0);
    put("cooler by", cooler_by.0);
    put("sensible only", mixed.sensible_only.0);
    for Outcome { temperature, crystals: _, melted, specific_heat, dissolved: _ } in
        [&mixed.at_once, &mixed.after_dissolving]
    {
        put("temperature", temperature.0);
        put("melted", melted.map_or(-1.0, |melted| melted.0));
        put("specific heat", specific_heat.0);
    }
    if let Some(Wanted { at, ways, lines }) = wanted {
        put("wanted", at.0);
        let needed = |way: &Way| match way.needed {
            Ok(Needed::Solid(at) | Needed::Melted(at)) => at.0,
            // A share reacts to the wanted end a hundred times as strongly as a temperature does.
            Ok(Needed::MeltFirst { share, .. }) => share.0,
            Err(_) => -1.0,
        };
        for way in ways {
            put("start", way.start.0);
            put("needed", needed(way));
        }
        // They stand in the order of the sheet.
        let mut of_lines: Vec<f64> = lines.iter().map(needed).collect();
        of_lines.sort_by(f64::total_cmp);
        for needed in of_lines {
            put("needed of a line", needed);
        }
    }
    figures
}

/// What grows with the batch.
pub(super) fn extensive(mixing: &MixingState) -> Figures {
    let crystals = mixing.crystals_before.into_iter().chain(mixing.mixed.after_dissolving.crystals);
    crystals
        .map(|grams| grams.0)
        .chain([mixing.mixed.after_dissolving.dissolved.0, mixing.cooling_sugars.0])
        .map(|grams| ("of the mix".to_owned(), Some(grams)))
        .collect()
}

fn end_of(recipe: &Recipe) -> Option<MixingState> {
    analyse(recipe, ROOM).mixing?.ok()
}

/// The recipe with its lines started as a way says; `None` where the way has no start.
fn started(recipe: &Recipe, way: &Way) -> Option<Recipe> {
    let mut changed = recipe.clone();
    let start = |at: Celsius| MixTemperature::new(at).ok();
    let needed = way.needed.ok()?;
    for id in &way.lines {
        let unused = changed.unused_line_id();
        let place = changed.lines.iter().position(|line| line.id == *id)?;
        let line = &mut changed.lines[place];
        match needed {
            Needed::Solid(at) | Needed::Melted(at) => line.temperature = start(at),
            Needed::MeltFirst { rest_at, .. } => line.temperature = start(rest_at),
        }
        match (needed, way.what) {
            // Cream is as its temperature says, if nothing else was said of it.
            (_, Changeable::Liquid | Changeable::Other) if line.fat_state == FatState::Melted => {}
            (_, Changeable::Liquid | Changeable::Other) => line.fat_state = FatState::ByTemperature,
            (Needed::Solid(_) | Needed::MeltFirst { .. }, Changeable::Chocolate) => line.fat_state = FatState::Solid,
            (Needed::Melted(_), Changeable::Chocolate) => line.fat_state = FatState::Melted,
        }
        if let Needed::MeltFirst { share, melted_at, .. } = needed {
            let all = line.amount.grams().0;
            let mut melted = line.clone();
            line.amount = grams(all * (MassFraction(1.0) - share).0);
            melted.id = unused;
            melted.amount = grams(all * share.0);
            melted.temperature = start(melted_at);
            melted.fat_state = FatState::Melted;
            changed.lines.push(melted);
        }
    }
    Some(changed)
}

/// A recipe whose lines have temperatures, in a bowl or not, stirred or not, with a wanted end.
fn mix() -> impl Strategy<Value = Recipe> {
    (with_temperatures(kitchen_recipe()), 10.0..70.0_f64, prop_oneof![Just(0.0), 0.0..20.0_f64]).prop_map(
        |(mut recipe, wanted, minutes)| {
            recipe.mixing.wanted = MixTemperature::new(Celsius(wanted)).ok();
            recipe.mixing.stirred = StirringTime::new(minutes).expect("a time");
            recipe
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// What a line is said to need brings the mix to the wanted end.
    #[test]
    fn forward_and_backward_agree(recipe in mix()) {
        let Some(mixing) = end_of(&recipe) else { return Ok(()) };
        let wanted = mixing.wanted.as_ref().expect("one is wanted");
        for way in wanted.ways.iter().chain(&wanted.lines) {
            let Some(changed) = started(&recipe, way) else { continue };
            // Liquid that needs to be colder than the room was not heated: the water leaves another line then.
            let is_warm = |way: &Way| matches!(way.needed, Ok(Needed::Solid(at) | Needed::Melted(at)) if at > ROOM);
            if way.what == Changeable::Liquid && (way.start > ROOM) != is_warm(way) {
                continue;
            }
            let end = end_of(&changed).expect("it still ends somewhere").end;
            prop_assert!((end - wanted.at).0.abs() < 1e-6, "{:?} instead of {:?} by {way:?}", end, wanted.at);
        }
        prop_assert_eq!(mixing.missed().is_some(), (mixing.end - wanted.at).0.abs() > REACHED_WITHIN.0);
    }

    /// Melting and dissolving cool; nothing crystallises; the end lies in what the model knows.
    #[test]
    fn melting_cools_and_no_crystal_is_made(recipe in mix()) {
        let Some(mixing) = end_of(&recipe) else { return Ok(()) };
        prop_assert!(mixing.mixed.by_melting().0 <= 1e-9, "{mixing:?}");
        prop_assert!(mixing.mixed.by_dissolving().0 <= 1e-9, "{mixing:?}");
        prop_assert!((0.0..=110.0 + 1e-9).contains(&mixing.end.0), "{mixing:?}");
        for (before, left) in mixing.crystals_before.into_iter().zip(mixing.mixed.after_dissolving.crystals) {
            prop_assert!(left.0 >= 0.0 && left.0 <= before.0 * (1.0 + 1e-9), "{mixing:?}");
        }
        // Stirring brings it nearer to the room.
        let before = mixing.mixed.after_dissolving.temperature;
        prop_assert!((mixing.end - ROOM).0.abs() <= (before - ROOM).0.abs() + 1e-9);
    }

    /// Hotter cream never makes a colder mix.
    #[test]
    fn a_warmer_line_makes_a_warmer_mix(recipe in mix(), line in 0..9_usize, by in 0.1..20.0_f64) {
        let Some(before) = end_of(&recipe) else { return Ok(()) };
        let mut warmer = recipe.clone();
        let count = warmer.lines.len();
        let line = &mut warmer.lines[line % count];
        let now = line.temperature.map_or(20.0, |temperature| temperature.celsius().0);
        // What evaporates is taken off warm liquid: warmed over the room, another line would lose the water.
        if now <= 20.0 && now + by > 20.0 {
            return Ok(());
        }
        let Ok(start) = MixTemperature::new(Celsius(now + by)) else { return Ok(()) };
        line.temperature = Some(start);
        let Some(after) = end_of(&warmer) else { return Ok(()) };
        prop_assert!(after.mixed.after_dissolving.temperature.0 >= before.mixed.after_dissolving.temperature.0 - 1e-9);
    }
}
