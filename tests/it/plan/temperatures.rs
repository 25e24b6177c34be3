//! The plan follows the temperatures of the sheet: what ends too cold is warmed before anything else is done with it.

use nibwright::recipe::MixTemperature;

use super::*;

/// The lines of a recipe as warm as that.
fn warm(mut mass: Recipe, celsius: &[f64]) -> Recipe {
    for (line, celsius) in mass.lines.iter_mut().zip(celsius) {
        line.temperature = MixTemperature::new(Celsius(*celsius)).ok();
    }
    mass
}

/// Couverture at 45 °C, cream from the refrigerator and rum of the room end at about 21 °C, in an emulsion that has to be warm.
fn with_rum() -> Recipe {
    let lines = [("couverture-dark-64", 300.0), ("cream-35", 150.0), ("rum-40", 60.0)];
    warm(made_for(recipe(&lines), Kind::Ganache, Use::Piped), &[45.0, 4.0, 20.0])
}

fn order(plan: &Plan) -> Vec<StepKind> {
    plan.steps.iter().map(|step| step.kind).collect()
}

fn said(plan: &Plan, kind: StepKind) -> String {
    let step = plan.step(kind).unwrap_or_else(|| panic!("{kind:?} in {:?}", order(plan)));
    words::plan::step(plan, step, DecimalSign::Point).what
}

/// Common practice: an emulsion is made at 35 to 45 °C.
#[test]
fn a_mix_that_ends_in_the_cold_is_melted_out_before_it_is_seeded() {
    use StepKind::{BringToTemperature, Check, Cool, Emulsify, WarmUp};
    let plan = plan_of(&with_rum());
    assert!(plan.mix_end.is_some_and(|end| Some(end) < plan.limits.form_iv), "{:?}", plan.mix_end);
    assert_eq!(order(&plan)[..5], [BringToTemperature, WarmUp, Emulsify, Cool, Check]);
    let warm_up = plan.step(WarmUp).and_then(|step| step.temperature).expect("how warm");
    assert_eq!((warm_up.from, warm_up.to), (Celsius(35.0), Celsius(45.0)));
    assert_eq!(plan.step(Emulsify).and_then(|step| step.temperature), Some(warm_up), "it is made while it is so warm");
    assert_eq!(plan.start, Celsius(40.0));
    assert!(said(&plan, WarmUp).contains("crystals of the wrong form grow"), "{}", said(&plan, WarmUp));
    assert!(!said(&plan, BringToTemperature).contains("Start warmer"), "{}", said(&plan, BringToTemperature));
    assert!(!said(&plan, Emulsify).contains("hot"), "{}", said(&plan, Emulsify));
}

/// What is below the window, but not so cold that wrong crystals grow, is warmed into it.
#[test]
fn a_mix_that_ends_just_below_the_window_is_warmed_into_it() {
    let plan = plan_of(&warm(dark(1000.0), &[29.0]));
    let end = plan.mix_end.expect("it is said");
    assert!(end < plan.window.min && Some(end) > plan.limits.form_iv, "{end:?}");
    let warm_up = plan.step(StepKind::WarmUp).and_then(|step| step.temperature).expect("how warm");
    assert_eq!((warm_up.to, warm_up.best), (plan.window.max, Some(plan.window.recommended)));
    assert_eq!(plan.start, plan.window.recommended);
    assert!(plan.step(StepKind::Cool).is_none(), "it is where it has to be");
}

/// What is warm enough is not warmed, and a liquid is only called hot where it is.
#[test]
fn only_what_is_too_cold_is_warmed() {
    for (cream, is_hot) in [(85.0, true), (44.0, false)] {
        let plan = plan_of(&warm(ganache(), &[45.0, cream]));
        assert_eq!((plan.warm_up, plan.step(StepKind::WarmUp)), (None, None), "{cream}");
        assert_eq!(said(&plan, StepKind::Emulsify).contains("hot"), is_hot, "{}", said(&plan, StepKind::Emulsify));
    }
    // What keeps its own crystals must not be melted.
    assert_eq!(plan_of(&by(SeedingWay::KeepTempered, with_rum())).step(StepKind::WarmUp), None);
}

/// The third that is chopped cools the mass: it has to be warmer than the mix of the sheet ends.
#[test]
fn a_mix_that_is_too_cold_for_chopped_chocolate_is_warmed_for_it() {
    let lines = [("couverture-dark-70", 1000.0), ("couverture-dark-70", 333.0)];
    let mass = warm(made_for(recipe(&lines), Kind::Chocolate, Use::Bar), &[48.0, 20.0]);
    let plan = plan_of(&by(SeedingWay::ChoppedChocolate, mass));
    let put_in = plan.seed.as_ref().and_then(|seed| seed.put_in).expect("it is known");
    assert!(plan.mix_end.is_some_and(|end| end < put_in.min), "{:?} {put_in:?}", plan.mix_end);
    assert_eq!(order(&plan)[..3], [StepKind::BringToTemperature, StepKind::WarmUp, StepKind::Seed]);
    let warm_up = plan.step(StepKind::WarmUp).and_then(|step| step.temperature).expect("how warm");
    assert_eq!((warm_up.from, warm_up.to, plan.start), (put_in.min, put_in.max, put_in.recommended));
    assert!(said(&plan, StepKind::WarmUp).contains("the cold pieces cool it"), "{}", said(&plan, StepKind::WarmUp));
}

/// By hand: of equal bowls of the same stuff the time goes with mass to the power of 1/3 (mass over a surface of power 2/3);
/// with half as much again it takes 1.5^(1/3) = 1.145 of the time.
#[test]
fn the_pieces_cool_with_the_mass() {
    let mass = by(SeedingWay::ChoppedChocolate, dark(1000.0));
    let plan = plan_of(&mass);
    let after = plan.seed.as_ref().and_then(|seed| seed.after).expect("all is known").at;
    let without =
        cooling_time(&analysis_of(&mass).make_up.bowl, after, plan.window.recommended).expect("above the room");
    let with = plan.step(StepKind::Cool).and_then(|step| step.minutes).expect("how long");
    let (with, without) = (with.likely.expect("a time").0, without.likely.expect("a time").0);
    assert_relative_eq!(with / without, 1.5_f64.cbrt(), max_relative = 1e-6);
}

fn findings_of(mass: &Recipe) -> String {
    let analysis = analysis_of(mass);
    let all = analysis.findings.iter().map(|found| words::finding(found, DecimalSign::Point).joined());
    all.collect::<Vec<_>>().join("\n")
}

/// What is chopped goes in warm; no finding asks for the window of a seed of cocoa butter first.
#[test]
fn the_findings_of_chopped_chocolate_name_its_own_temperature() {
    let mass = by(SeedingWay::ChoppedChocolate, warm(dark(667.0), &[48.0]));
    let plan = plan_of(&mass);
    let put_in = plan.seed.as_ref().and_then(|seed| seed.put_in).expect("it is known");
    let all = findings_of(&mass);
    assert!(!all.contains("then seed") && !all.contains("of tempered cocoa butter"), "{all}");
    let end = words::finding(finding(&analysis_of(&mass), "mixing.celsius.high"), DecimalSign::Point).detail;
    assert!(end.contains("Put the chopped chocolate in now:"), "{end}");
    let span = format!("{:.1} to {:.1} °C", put_in.min.0, put_in.max.0);
    assert!(all.contains(&format!("Put the chopped chocolate in at {span}")) && end.contains(&span), "{all}");
    let cold = words::finding(finding(&at(&mass, 26.0), "seeding.wrong_form"), DecimalSign::Point);
    assert!(
        cold.detail.contains(&format!("{:.1} °C before the pieces go in", put_in.recommended.0)),
        "{}",
        cold.detail
    );
    let cool = warm(mass, &[34.0]);
    assert!(findings_of(&cool).contains("The chopped chocolate cools it: warm it to "), "{}", findings_of(&cool));
}

/// Where chocolate keeps its own crystals nothing is put in: it is said whether they live where the mix ends.
#[test]
fn what_keeps_its_crystals_is_not_told_to_be_seeded() {
    use nibwright::recipe::FatState;
    let oil = [("couverture-dark-64", 1000.0), ("oil-hazelnut", 100.0)];
    let mut mass = warm(made_for(recipe(&oil), Kind::Chocolate, Use::Bar), &[32.0, 22.0]);
    mass.lines[0].fat_state = FatState::Tempered;
    let mass = by(SeedingWay::KeepTempered, mass);
    let end = |mass: &Recipe, code| words::finding(finding(&analysis_of(mass), code), DecimalSign::Point).detail;
    let lives = end(&mass, "mixing.celsius");
    assert!(lives.contains("The crystals that came in live there, 1.6 % of its fat"), "{lives}");
    // So few do not make it thick, as in the balance of the mix.
    assert_eq!(plan_of(&mass).too_thick, None);
    let hot = by(SeedingWay::KeepTempered, warm(ganache(), &[45.0, 60.0]));
    let melts = end(&hot, "mixing.celsius.high");
    assert!(melts.contains("There the crystals melt that were to be kept"), "{melts}");
    assert_eq!(finding(&analysis_of(&hot), "mixing.celsius.high").level, Level::Caution);
    let untempered = by(SeedingWay::KeepTempered, warm(dark(500.0), &[31.0]));
    assert!(end(&untempered, "mixing.celsius").contains("none come in"), "{}", end(&untempered, "mixing.celsius"));
    for mass in [mass, hot, untempered, by(SeedingWay::KeepTempered, ganache())] {
        // What things are called.
        let names = ["the seeding plan", "the seeding window", "another way of seeding"];
        let all = names.iter().fold(findings_of(&mass), |all, name| all.replace(name, ""));
        assert!(!all.to_lowercase().contains("seed"), "{all}");
    }
}

/// A caramel becomes firm by its sugar: of seed nothing is said.
#[test]
fn a_caramel_has_no_findings_of_seed() {
    let lines = [("sucrose", 300.0), ("cream-35", 350.0), ("cocoa-butter", 260.0)];
    let of = |kind| codes(&analysis_of(&made_for(recipe(&lines), kind, Use::Cut)));
    let seeding = |codes: Vec<&'static str>| codes.iter().filter(|code| code.starts_with("seeding.")).count();
    assert_eq!(seeding(of(Kind::Caramel)), 0, "{:?}", of(Kind::Caramel));
    assert!(seeding(of(Kind::Other)) > 0, "the same mass of another kind can be seeded");
}
