//! What holds for every recipe: mass is conserved, order and size do not matter, nothing is ever not a number.
//!
//! Random recipes of built-in ingredients, some of them with figures that are not known, in amounts from nothing over a
//! millionth of a gram to a hundred tonnes, with any loss, any kind, any use, any cocoa butter. There is no outside
//! source: these are the laws of weighing, and promises of the program.

mod cooking;
mod figures;
mod history;
mod mixing;
mod recipes;

use std::sync::Arc;

use nibwright::analysis::finding::Finding;
use nibwright::analysis::{Analysis, analyse, emulsion, phase_bar};
use nibwright::ingredient::Component;
use nibwright::number::{DecimalSign, NO_NUMBER};
use nibwright::recipe::{CocoaButter, Evaporation, Kind, MassUnit, Quantity, Recipe, Use};
use nibwright::report::figures::{Edge, cocoa_butter_alone, fat_water_map, jamming_edge, solid_fat};
use nibwright::report::{json, text, words};
use nibwright::units::VolumeFraction;
use proptest::prelude::*;

use self::figures::{Figures, extensive, intensive};
use self::recipes::{any_recipe, any_temperature, cooked_to, kitchen_amount, kitchen_recipe, recipe_with, shelf};
use crate::support::{analysis_of, check_remedies, codes, grams};

/// What rounding may change, relative to the figure (or to 1, where it is smaller).
const ROUNDING: f64 = 1e-9;

/// The same figures are known, and they agree but for rounding.
fn check_alike(left: &Figures, right: &Figures, factor: f64, scale: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(left.len(), right.len());
    for ((name, left), (other_name, right)) in left.iter().zip(right) {
        prop_assert_eq!(name, other_name);
        prop_assert_eq!(left.is_some(), right.is_some(), "{}: {:?} and {:?}", name, left, right);
        if let (Some(left), Some(right)) = (left, right) {
            let slack = ROUNDING * (factor * left).abs().max(scale);
            prop_assert!((factor * left - right).abs() <= slack, "{name}: {} and {right}", factor * left);
        }
    }
    Ok(())
}

fn sorted_codes(analysis: &Analysis) -> Vec<&'static str> {
    let mut codes = codes(analysis);
    codes.sort_unstable();
    codes
}

fn scaled(recipe: &Recipe, factor: f64) -> Recipe {
    let mut scaled = recipe.clone();
    for line in &mut scaled.lines {
        line.amount = grams(line.amount.grams().0 * factor);
    }
    if let Evaporation::Weighed(amount) = recipe.losses.evaporation {
        scaled.losses.evaporation = Evaporation::Weighed(grams(amount.grams().0 * factor));
    }
    if let Some(bowl) = &mut scaled.mixing.bowl {
        bowl.mass = grams(bowl.mass.grams().0 * factor);
    }
    scaled
}

/// Whether a text shows that a number went wrong: a word of it is "NaN" or "inf", or a dash stands for a number.
fn shows_no_number(text: &str) -> bool {
    let is_wrong = |word: &str| ["nan", "inf", "infinity"].contains(&word.to_lowercase().as_str());
    text.contains(NO_NUMBER) || text.split(|character: char| !character.is_alphanumeric()).any(is_wrong)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// Mass in is mass out: lines = bowl + evaporated water; bowl = finished + transfer loss; parts add up to the whole.
    #[test]
    fn mass_is_conserved(recipe in any_recipe()) {
        let make_up = analysis_of(&recipe).make_up;
        let weighed: f64 = recipe.lines.iter().map(|line| line.amount.grams().0).sum();
        let slack = ROUNDING * weighed;
        let bowl = &make_up.bowl;
        prop_assert!((make_up.weighed.0 - weighed).abs() <= slack);
        prop_assert!((bowl.total().0 + make_up.evaporated.0 - weighed).abs() <= slack);
        prop_assert!((make_up.finished.0 - bowl.total().0 * (1.0 - recipe.losses.transfer.share().0)).abs() <= slack);
        prop_assert!(make_up.evaporated.0 >= 0.0);
        prop_assert!(make_up.evaporating.grams().is_none_or(|asked| make_up.evaporated <= asked));
        prop_assert!(bowl.total().0 >= 0.0 && make_up.finished.0 >= 0.0);
        for component in Component::ALL {
            let brought: Option<f64> =
                make_up.lines.iter().map(|line| line.parts.grams(component).map(|grams| grams.0)).sum();
            let left = bowl.grams(component);
            // Where nobody knows what evaporates, nobody knows the water that is left.
            let is_forgotten = component == Component::Water && make_up.evaporating.grams().is_none();
            prop_assert_eq!(brought.is_some() && !is_forgotten, left.is_some());
            let (Some(brought), Some(left)) = (brought, left) else { continue };
            let evaporated = if component == Component::Water { make_up.evaporated.0 } else { 0.0 };
            prop_assert!((brought - evaporated - left.0).abs() <= slack, "{component:?}");
            prop_assert!(left.0 >= 0.0, "{component:?}");
        }
        if let Some(unassigned) = bowl.unassigned() {
            let parts: f64 = Component::ALL.into_iter().filter_map(|part| bowl.grams(part)).map(|grams| grams.0).sum();
            prop_assert!((parts + unassigned.0 - bowl.total().0).abs() <= slack);
        }
        let transferred: f64 = make_up.lines.iter().map(|line| line.parts.total().0).sum();
        prop_assert!((transferred - weighed).abs() <= slack);
    }

    /// In which order the lines stand is the maker's business: all figures stay, and so do the findings.
    #[test]
    fn the_order_of_the_lines_does_not_matter(
        (recipe, shuffled) in kitchen_recipe().prop_flat_map(|recipe| {
            let lines = Just(recipe.lines.clone()).prop_shuffle();
            (Just(recipe), lines)
        }),
        at in any_temperature(),
    ) {
        let other = Recipe { lines: shuffled, ..recipe.clone() };
        let (one, two) = (analyse(&recipe, at), analyse(&other, at));
        check_alike(&intensive(&one), &intensive(&two), 1.0, 1.0)?;
        check_alike(&extensive(&one), &extensive(&two), 1.0, one.make_up.weighed.0)?;
        prop_assert_eq!(sorted_codes(&one), sorted_codes(&two));
    }

    /// Scaling a recipe changes grams and nothing else.
    #[test]
    fn the_size_of_the_batch_does_not_matter(
        recipe in kitchen_recipe(),
        factor in (-4.0..4.0).prop_map(|exponent: f64| 10.0_f64.powf(exponent)),
    ) {
        let (one, other) = (analysis_of(&recipe), analysis_of(&scaled(&recipe, factor)));
        check_alike(&intensive(&one), &intensive(&other), 1.0, 1.0)?;
        check_alike(&extensive(&one), &extensive(&other), factor, factor * one.make_up.weighed.0)?;
        prop_assert_eq!(codes(&one), codes(&other));
    }

    /// 100 g and 100 kg, once with the number and once with the unit.
    #[test]
    fn grams_and_kilograms_give_the_same(recipe in kitchen_recipe()) {
        let weighed = recipe.weighed().0;
        prop_assume!(weighed > 0.0);
        let small = scaled(&recipe, 100.0 / weighed);
        // What belongs to a trace would become heavier than anything that can be written down.
        let fits = |amount: Quantity| Quantity::new(amount.value(), MassUnit::Kilogram).is_ok();
        prop_assume!(small.mixing.bowl.is_none_or(|bowl| bowl.mass.grams().0 < 1e5 && fits(bowl.mass)));
        prop_assume!(small.seeding.amount.is_none_or(fits));
        prop_assume!(!matches!(small.losses.evaporation, Evaporation::Weighed(amount) if !fits(amount)));
        let in_unit = |amount: Quantity| Quantity::new(amount.value(), MassUnit::Kilogram).expect("an amount");
        let mut large = small.clone();
        for line in &mut large.lines {
            line.amount = in_unit(line.amount);
        }
        if let Evaporation::Weighed(amount) = small.losses.evaporation {
            large.losses.evaporation = Evaporation::Weighed(in_unit(amount));
        }
        if let Some(bowl) = &mut large.mixing.bowl {
            bowl.mass = in_unit(bowl.mass);
        }
        let (one, other) = (analysis_of(&small), analysis_of(&large));
        prop_assert!((other.make_up.weighed.0 - 100_000.0).abs() < 1e-6);
        check_alike(&intensive(&one), &intensive(&other), 1.0, 1.0)?;
        check_alike(&extensive(&one), &extensive(&other), 1000.0, 100_000.0)?;
        prop_assert_eq!(codes(&one), codes(&other));
    }

    /// Whatever is weighed: every figure is a number or not known, shares are shares, and nothing panics.
    #[test]
    fn nothing_is_ever_not_a_number(recipe in any_recipe(), at in any_temperature()) {
        let analysis = analyse(&recipe, at);
        for (name, value) in intensive(&analysis).into_iter().chain(extensive(&analysis)) {
            prop_assert!(value.is_none_or(f64::is_finite), "{name}: {value:?}");
        }
        let bowl = &analysis.make_up.bowl;
        for component in Component::ALL {
            let share = bowl.share(component);
            prop_assert!(share.is_none_or(|share| (0.0..=1.0 + ROUNDING).contains(&share.0)), "{component:?}: {share:?}");
        }
        for finding in &analysis.findings {
            for figure in [finding.value, finding.usual_low, finding.usual_high].into_iter().flatten() {
                prop_assert!(figure.is_finite(), "{finding:?}");
            }
        }
        for Edge { water, fat, .. } in jamming_edge(bowl) {
            prop_assert!(water.is_finite() && (0.0..=100.0).contains(&fat), "{water} {fat}");
        }
        let written = json::report(&recipe, &analysis);
        prop_assert!(written.is_ok());
    }

    /// Figures for plots hold finite points only, in ranges that are some.
    #[test]
    fn no_plot_sees_what_is_not_finite(recipe in any_recipe(), pinned in any_recipe()) {
        let (analysis, pinned) = (analysis_of(&recipe), analysis_of(&pinned));
        let (edge, before) = (jamming_edge(&analysis.make_up.bowl), jamming_edge(&pinned.make_up.bowl));
        let alone = cocoa_butter_alone(recipe.cocoa_butter);
        let sign = DecimalSign::Comma;
        let solid = solid_fat(&analysis, Some(&pinned), &alone, sign);
        let map = fat_water_map(&analysis, Some((&pinned, &before)), &edge, sign);
        for figure in [solid, map].into_iter().flatten() {
            for axis in [&figure.x, &figure.y] {
                prop_assert!(axis.from.is_finite() && axis.to.is_finite() && axis.from < axis.to && axis.step > 0.0);
            }
            let curves = figure.curves.iter().flat_map(|curve| curve.points.iter().flatten());
            let regions = figure.regions.iter().flat_map(|region| region.xs.iter().chain(&region.lower).chain(&region.upper));
            let marks = figure.marks.iter().flat_map(|mark| &mark.at);
            let rules = figure.rules.iter().map(|rule| &rule.at);
            prop_assert!(curves.chain(regions).chain(marks).chain(rules).all(|value| value.is_finite()));
            prop_assert!(!shows_no_number(&figure.in_words), "{}", figure.in_words);
        }
    }

    /// Warm fat is never more solid than cold fat, and there is never more than all of it.
    #[test]
    fn solid_fat_never_rises_with_temperature(recipe in any_recipe(), at in any_temperature()) {
        let analysis = analyse(&recipe, at);
        let Ok(fat) = &analysis.fat else { return Ok(()) };
        prop_assert!(fat.curve.len() >= 46);
        for pair in fat.curve.windows(2) {
            prop_assert!(pair[0].celsius < pair[1].celsius);
            prop_assert!(pair[1].solid.total().0 <= pair[0].solid.total().0 + 1e-11, "{pair:?}");
        }
        for point in &fat.curve {
            prop_assert!((0.0..=1.0 + ROUNDING).contains(&point.solid.total().0), "{point:?}");
            prop_assert!(point.solid.form_v.0 >= 0.0 && point.solid.other.0 >= 0.0, "{point:?}");
        }
        prop_assert!(fat.curve.iter().any(|point| point.celsius == at && point.solid == fat.solid_at));
    }

    /// Limits stand in their order, windows below them, the seed within what is sold as a dose.
    #[test]
    fn windows_and_doses_stand_where_they_belong(recipe in any_recipe()) {
        let analysis = analysis_of(&recipe);
        let limits = analysis.fat.as_ref().map(|fat| fat.limits).unwrap_or_default();
        if let (Some(iv), Some(v), Some(vi)) = (limits.form_iv, limits.form_v, limits.form_vi) {
            prop_assert!(iv < v && v < vi, "{limits:?}");
        }
        if analysis.fat.is_ok() {
            prop_assert_eq!(codes(&analysis).contains(&"fat.form_v_limit_c.none"), limits.form_v.is_none());
            // Of a caramel nothing is said of seed.
            let is_said = analysis.seeding.is_none() && recipe.kind != Kind::Caramel;
            prop_assert_eq!(codes(&analysis).contains(&"seeding.none"), is_said);
        }
        let Some(seeding) = analysis.seeding else { return Ok(()) };
        let limit = limits.form_v.expect("what is seeded has a limit");
        prop_assert!(seeding.window.min < seeding.window.recommended && seeding.window.max < limit);
        prop_assert!((0.002..=0.015).contains(&seeding.habit.share.0));
        prop_assert!(seeding.equal_time.is_none_or(|dose| (0.002..=0.03).contains(&dose.share.0)));
        prop_assert!(seeding.unmixed.is_none() || analysis.emulsion.emulsion().is_some());
    }

    /// The bar is the whole mass, and no part of it is less than nothing (data sheets round: 0.2 g in 100 g).
    #[test]
    fn the_phase_bar_is_the_whole_mass(recipe in any_recipe(), at in any_temperature()) {
        let Some(bar) = analyse(&recipe, at).phase_bar else { return Ok(()) };
        let parts = [
            bar.fat_crystals,
            bar.liquid_fat,
            bar.syrup,
            bar.undissolved_sugar,
            bar.cocoa_particles,
            bar.other_particles,
        ];
        let sum: f64 = parts.iter().map(|part| part.0).sum();
        prop_assert!((sum - 1.0).abs() <= ROUNDING, "{sum}: {bar:?}");
        prop_assert!(parts[..5].iter().all(|part| part.0 >= -ROUNDING), "{bar:?}");
        prop_assert!(bar.other_particles.0 >= -0.002, "{bar:?}");
    }

    /// All lines together bring all of every part of the bar and of every volume of the emulsion.
    #[test]
    fn the_lines_bring_the_whole(recipe in any_recipe(), at in any_temperature()) {
        let analysis = analyse(&recipe, at);
        let (make_up, bowl) = (&analysis.make_up, &analysis.make_up.bowl);
        // In grams and in millilitres: of a trace that cancellation leaves, shares say nothing.
        let slack = ROUNDING * make_up.weighed.0;
        let left = || make_up.lines.iter().map(|line| make_up.left_of(line).expect("water is known"));
        if let Some(bar) = analysis.phase_bar {
            let lines: Vec<_> =
                left().map(|line| phase_bar::brought_by(&line, bowl, at).expect("all is known").shares()).collect();
            let parts = [
                bar.fat_crystals,
                bar.liquid_fat,
                bar.syrup,
                bar.undissolved_sugar,
                bar.cocoa_particles,
                bar.other_particles,
            ];
            for (place, part) in parts.into_iter().enumerate().filter(|(_, part)| part.0 > 0.0) {
                // What a data sheet counts twice is taken off by nobody.
                let slack = if place == 5 { 0.002 * make_up.weighed.0 } else { slack };
                let sum: f64 = lines.iter().map(|line| line[place].0).sum();
                prop_assert!((sum - 1.0).abs() * (bowl.total() * part).0 <= slack, "part {place}: {sum} of {bar:?}");
                prop_assert!(lines.iter().all(|line| (0.0..=1.0).contains(&line[place].0)));
            }
        }
        if let Some(volumes) = analysis.emulsion.emulsion() {
            let lines: Vec<_> =
                left().map(|line| emulsion::brought_by(&line, bowl).expect("all is known")).collect();
            let of = |share: fn(&emulsion::Brought) -> VolumeFraction| lines.iter().map(|line| share(line).0).sum();
            let sums: [f64; 3] = [of(|line| line.fat), of(|line| line.insoluble), of(|line| line.water_phase)];
            let volumes = [volumes.fat, volumes.insoluble, volumes.water_phase];
            for (sum, volume) in sums.into_iter().zip(volumes).filter(|(_, volume)| volume.0 > 0.0) {
                prop_assert!((sum - 1.0).abs() * volume.0 <= slack, "{sum} of {volume:?}");
            }
        }
    }

    /// Findings stand with the most serious first, and each is said in words, with either decimal sign.
    #[test]
    fn findings_are_sorted_and_said_in_words(recipe in any_recipe(), at in any_temperature()) {
        let analysis = analyse(&recipe, at);
        prop_assert!(analysis.findings.is_sorted_by(|first, second| first.level >= second.level));
        for sign in [DecimalSign::Point, DecimalSign::Comma] {
            for finding in &analysis.findings {
                let said = words::finding(finding, sign);
                prop_assert!(!said.title.is_empty() && !said.detail.is_empty(), "{finding:?}");
                prop_assert!(!shows_no_number(&said.joined()), "{}", said.joined());
                prop_assert!(!said.joined().to_lowercase().contains("safe"), "{}", said.joined());
            }
            prop_assert!(!text::report(&recipe, &analysis, sign).is_empty());
        }
        for line in analysis.findings.iter().flat_map(Finding::lines) {
            prop_assert!(recipe.line(line).is_some());
        }
    }

    /// What a finding offers to change does what it says, in every recipe.
    #[test]
    fn every_remedy_does_what_it_says(recipe in kitchen_recipe()) {
        check_remedies(&recipe);
    }
}

/// The edges that random recipes seldom hit exactly: each built-in ingredient alone, in tiny and in huge amounts, dried to
/// nothing, with every named cocoa butter.
#[test]
fn every_ingredient_alone_is_analysed() {
    for ingredient in shelf() {
        for (amount, evaporated) in [(0.0, 0.0), (1e-6, 0.0), (1e8, 0.0), (100.0, 1e9), (1e8, 1e8), (33.3, 33.3)] {
            let mut recipe = Recipe { kind: Kind::Ganache, intended_use: Some(Use::Cut), ..Recipe::default() };
            recipe.push(Arc::clone(&ingredient), grams(amount));
            recipe.losses.evaporation = Evaporation::Weighed(grams(evaporated));
            for cocoa_butter in CocoaButter::NAMED {
                recipe.cocoa_butter = cocoa_butter;
                let analysis = analysis_of(&recipe);
                let id = &ingredient.id;
                for (name, value) in intensive(&analysis).into_iter().chain(extensive(&analysis)) {
                    assert!(value.is_none_or(f64::is_finite), "{id}, {amount} g: {name} {value:?}");
                }
                let bowl = &analysis.make_up.bowl;
                let shares = Component::ALL.into_iter().filter_map(|component| bowl.share(component));
                for share in
                    shares.chain(bowl.unassigned().filter(|_| bowl.total().0 > 0.0).map(|it| it / bowl.total()))
                {
                    assert!((-0.002..=1.002).contains(&share.0), "{id}, {amount} g less {evaporated}: {share:?}");
                }
                for finding in &analysis.findings {
                    let said = words::finding(finding, DecimalSign::Comma).joined();
                    assert!(!shows_no_number(&said), "{id}: {said}");
                }
            }
        }
    }
}
