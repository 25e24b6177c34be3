//! What a plan says: to every mass and way what is true of it, and of one thing one figure.

use nibwright::analysis::cooling::growth::System;
use nibwright::analysis::finding::Finding;
use nibwright::analysis::plan::rescue::TestStrip;
use nibwright::recipe::{PlaceTemperature, Setting};

use super::*;

/// Whatever the mass and the way, one thing has one figure: the upper end of what is worked, and what lies above it.
#[test]
fn the_upper_end_of_a_range_is_one_figure_in_a_plan() {
    for (name, mass, way) in every_plan() {
        let plan = plan_of(&mass);
        let upper = |window: nibwright::analysis::seeding::Window| one_decimal(window.max);
        let (window, worked, checked) = (upper(plan.window), upper(plan.worked()), upper(plan.checked()));
        let fresh = plan.fresh.map_or(window.clone(), upper);
        for step in &plan.steps {
            let Some(span) = step.temperature else { continue };
            let to = one_decimal(span.to);
            match step.kind {
                StepKind::Cool | StepKind::Check => assert_eq!(to, checked, "{name} {:?}", step.kind),
                StepKind::Seed if way != SeedingWay::ChoppedChocolate => assert_eq!(to, window, "{name}"),
                StepKind::Blend if way != SeedingWay::ChoppedChocolate => assert_eq!(to, worked, "{name}"),
                StepKind::Deposit => assert_eq!(to, worked, "{name}"),
                StepKind::Warm => assert_eq!(to, fresh, "{name} {:?}", step.kind),
                StepKind::Emulsify if way == SeedingWay::KeepTempered => assert_eq!(to, fresh, "{name}"),
                _ => {}
            }
            let words = words::plan::step(&plan, step, DecimalSign::Point);
            let with = plan.with_seed().filter(|_| way == SeedingWay::ChoppedChocolate);
            let limit = one_decimal(with.map_or(plan.limits, |with| with.limits).form_v.expect("a limit"));
            if step.kind == StepKind::Check {
                assert!(
                    words.what.contains(&format!("At {limit} °C crystals of form V melt")),
                    "{name}: {}",
                    words.what
                );
            }
        }
        if let Some(kept) = &plan.kept {
            assert_eq!(one_decimal(kept.warmest), fresh, "{name}");
        }
    }
}

fn one_decimal(celsius: Celsius) -> String {
    nibwright::number::fixed(celsius.0, 1, DecimalSign::Point)
}

/// All ways for dark, milk and white chocolate, ganache with and without temperatures in the sheet, gianduja, praline, and a
/// chocolate of its raw materials.
fn every_plan() -> Vec<(String, Recipe, SeedingWay)> {
    use nibwright::recipe::MixTemperature;
    let of = |lines: &[(&str, f64)], kind| made_for(recipe(lines), kind, None);
    let mut poured = ganache();
    for (line, celsius) in poured.lines.iter_mut().zip([20.0, 85.0]) {
        line.temperature = MixTemperature::new(Celsius(celsius)).ok();
    }
    let masses = [
        ("dark", dark(1000.0)),
        ("milk", of(&[("couverture-milk-38", 1000.0)], Kind::Chocolate)),
        ("white ganache", of(&[("couverture-white-33", 400.0), ("cream-35", 160.0)], Kind::Ganache)),
        ("ganache", ganache()),
        ("ganache with temperatures", poured),
        ("gianduja", of(&[("gianduja-dark", 600.0)], Kind::Praline)),
        ("praline", of(&[("praline-hazelnut-60", 600.0), ("cocoa-butter", 200.0)], Kind::Praline)),
        ("raw", of(&[("cocoa-mass", 500.0), ("sucrose", 400.0), ("cocoa-butter", 100.0)], Kind::Chocolate)),
    ];
    let of_mass = |(name, mass): &(&str, Recipe)| {
        SeedingWay::ALL.map(|way| (format!("{name}, {}", way.words()), by(way, mass.clone()), way))
    };
    masses.iter().flat_map(of_mass).collect()
}

/// What is said when something is off stands alone: it names no step that the plan has not, and what it says of seed is true.
#[test]
fn what_is_said_when_something_is_off_fits_the_plan() {
    use nibwright::analysis::plan::rescue::TestStrip;
    for (name, mass, way) in every_plan() {
        let plan = plan_of(&mass);
        let (from, to) = plan.chocolate.melt_out();
        let melt_out = format!("melt it out at {:.0} to {:.0} °C and", from.0, to.0);
        let mut sentences: Vec<String> = Vec::new();
        for step in &plan.steps {
            let words = words::plan::step(&plan, step, DecimalSign::Point);
            sentences.extend(words.when_off.iter().map(words::plan::OffWords::joined));
        }
        let of_strip = TestStrip::ALL.map(|strip| words::rescue::test_strip(strip, way, System::Ganache));
        sentences.extend(of_strip.iter().map(|strip| format!("{} {}", strip.means, strip.remedy)));
        assert!(sentences.iter().any(|words| words.contains(&melt_out)), "{name}: it says how to begin again");
        for words in &sentences {
            let says = |part| words.contains(part);
            assert!(!says("melting out") && !says("you begin again"), "{name}: {words}");
            assert!(!says("begin again") || says(&melt_out), "{name}: {words}");
            if way == SeedingWay::KeepTempered {
                let other = words.replace("seed it in one of the other ways", "");
                assert!(!other.contains("seed"), "{name}: {words}");
                assert!(!says("35 to 40 °C"), "so warm a liquid melts what is kept: {name}: {words}");
            }
            if way == SeedingWay::ChoppedChocolate {
                assert!(!says("No seed above") && !says("half the seed") && !says("seed again"), "{name}: {words}");
            }
        }
    }
}

/// Two steps of one plan have two names.
#[test]
fn no_two_steps_of_a_plan_are_called_the_same() {
    let mut count = 0;
    for (name, mass, _) in every_plan() {
        let plan = plan_of(&mass);
        let titles: Vec<&str> = plan.steps.iter().map(|step| words::plan::step_title(step.kind)).collect();
        let names: std::collections::BTreeSet<&str> = titles.iter().copied().collect();
        assert_eq!(names.len(), titles.len(), "{name}: {titles:?}");
        count += usize::from(titles.contains(&"Cool until the chocolate can go in"));
    }
    assert!(count > 0, "some chopped chocolate has to wait");
}

/// 333 g of 1000 g and 500 g can be held back, where the mass is made of nothing but this chocolate.
#[test]
fn some_of_the_mass_is_held_back_only_where_it_is_this_chocolate() {
    let held = |mass: Recipe| {
        let plan = plan_of(&by(SeedingWay::ChoppedChocolate, mass));
        let step = plan.step(StepKind::Seed).expect("it is put in");
        words::plan::step(&plan, step, DecimalSign::Point).what.contains("The mass is this chocolate: you can hold")
    };
    assert!(held(dark(1000.0)));
    let raw = [("cocoa-mass", 500.0), ("sucrose", 400.0), ("cocoa-butter", 100.0)];
    assert!(!held(made_for(recipe(&raw), Kind::Chocolate, Use::Bar)));
    assert!(!held(made_for(
        recipe(&[("couverture-dark-64", 600.0), ("couverture-dark-66", 1.0)]),
        Kind::Chocolate,
        None
    )));
    assert!(!held(ganache()));
}

/// What tempered chocolate keeps in the middle of the window is far more than what flows: the plan says to warm it.
#[test]
fn a_plan_says_that_kept_chocolate_is_warmed_where_it_is_thick() {
    let plan = plan_of(&by(SeedingWay::KeepTempered, dark(1000.0)));
    assert!(plan.too_thick.is_some_and(|crystals| crystals.0 > 0.2));
    let deposit = plan.step(StepKind::Deposit).expect("it is deposited");
    let words = words::plan::step(&plan, deposit, DecimalSign::Point);
    assert!(words.what.contains("too thick to work: warm it by tenths towards 33.5 °C"), "{}", words.what);
    assert!(deposit.temperature.is_some_and(|span| span.best.is_none()));
    assert!(plan.step(StepKind::Check).and_then(|step| step.temperature).is_some_and(|span| span.best.is_none()));
    assert_eq!(plan_of(&dark(1000.0)).too_thick, None);
    let cold = at(&by(SeedingWay::KeepTempered, dark(1000.0)), 27.0);
    let found = finding(&cold, "seeding.too_cold");
    assert!(words::finding(found, DecimalSign::Point).detail.contains("by tenths towards 33.5 °C"));
}

/// A sheet of nothing but seed says one thing, and not that its cocoa butter is too little.
#[test]
fn a_sheet_of_nothing_but_seed_says_so() {
    let mass = with_seed(Recipe::default(), SeedingWay::Cream, crate::support::built_in("cocoa-butter"), 10.0);
    let analysis = analysis_of(&mass);
    assert_eq!(analysis.plan, Err(NoPlan::OnlySeed));
    let title = words::finding(finding(&analysis, "seeding.none"), DecimalSign::Point).joined();
    assert_eq!(title, "Not to be seeded: nothing but seed stands in the sheet; add the mass that it is to go into");
    let report = flat(&text::report(&mass, &analysis, DecimalSign::Point));
    assert!(report.contains("No plan: nothing but seed stands in the sheet"));
    for contradiction in ["there is no fat", "too little cocoa butter", "cocoa butter is 100.0 % of the fat"] {
        assert!(!report.contains(contradiction), "{contradiction} in {report}");
    }
}

/// Without a plan the rescue stands beside the finding that announces the splitting, and once.
#[test]
fn a_ganache_that_may_split_has_its_rescue_without_a_plan() {
    let of = |lines: &[(&str, f64)]| {
        let mass = made_for(recipe(lines), Kind::Ganache, Use::Cut);
        let analysis = analysis_of(&mass);
        let report = flat(&text::report(&mass, &analysis, DecimalSign::Point));
        (analysis, report.matches("Rescue, if it splits:").count(), report)
    };
    let (analysis, count, report) = of(&[("butter-82", 500.0), ("cream-35", 100.0), ("couverture-dark-64", 100.0)]);
    assert!(analysis.plan.is_err() && analysis.findings.iter().any(Finding::announces_split));
    assert!(count == 1 && report.contains("Oil pools, lumps of protein"), "{report}");
    let (analysis, count, _) = of(&[("couverture-dark-80", 800.0), ("cream-35", 100.0)]);
    assert!(analysis.plan.is_ok() && analysis.findings.iter().any(Finding::announces_split));
    assert_eq!(count, 1, "it stands in the plan");
    let (analysis, count, _) = of(&[("cream-35", 400.0), ("couverture-dark-64", 50.0)]);
    assert!(analysis.plan.is_err() && count == 0, "this one holds");
}

/// One time is rounded in one way, in the steps and in the reading of setting.
#[test]
fn the_minutes_of_the_plan_are_those_of_the_setting() {
    use nibwright::analysis::setting::setting;
    let sample = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-recipes/dark-cut-ganache.ron");
    let mass = nibwright::store::load_recipe(&sample, Library::built_in()).expect("a sample opens");
    let state = setting(&mass, &analysis_of(&mass)).expect("it says how");
    let plan = plan_of(&mass).with_setting(Some(&state));
    let set = plan.step(StepKind::Set).expect("it sets");
    let (figure, unit, range) = words::duration_figure(state.set.expect("it sets"));
    let words = words::plan::step(&plan, set, DecimalSign::Point);
    assert!(words.figures.ends_with(&format!("· {range}")), "{} against {range}", words.figures);
    assert!(words.what.contains(&format!("about {figure} {unit},")), "{} against {figure} {unit}", words.what);
}

/// Every step of every way has all that an operator needs, on paper and in order.
#[test]
fn every_step_of_every_way_is_written_out() {
    for way in SeedingWay::ALL {
        for mass in [ganache(), dark(1000.0)] {
            let mass = by(way, mass);
            let analysis = analysis_of(&mass);
            let plan = analysis.plan.as_ref().expect("a plan");
            let report = text::report(&mass, &analysis, DecimalSign::Point);
            let report = flat(&report);
            for step in &plan.steps {
                let words = words::plan::step(plan, step, DecimalSign::Point);
                assert!(!words.what.is_empty() && !words.look.is_empty(), "{way:?} {:?}", step.kind);
                let parts = [words.what.as_str(), words.look.as_str()];
                let off = words.when_off.iter().map(|off| off.remedy.as_str());
                for part in parts.into_iter().chain(off) {
                    let part = flat(part);
                    assert!(report.contains(&part), "{way:?} {:?}: {part}", step.kind);
                }
            }
        }
    }
}

/// Where it is so warm that nothing sets, nobody is told to let it stand there.
#[test]
fn where_it_does_not_set_the_plan_sends_it_elsewhere() {
    let of = |mass: &Recipe, air: f64| {
        let mut mass = mass.clone();
        let surroundings = PlaceTemperature::new(Celsius(air)).expect("a temperature");
        mass.setting = Some(Setting { surroundings, ..Setting::usual(mass.intended_use) });
        let state = nibwright::analysis::setting::setting(&mass, &analysis_of(&mass)).expect("it is computed");
        let plan = plan_of(&mass).with_setting(Some(&state));
        words::plan::step(&plan, plan.step(StepKind::Set).expect("it sets"), DecimalSign::Point).what
    };
    let warm = of(&ganache(), 34.0);
    assert!(warm.starts_with("It does not set there: find a place below ") && !warm.contains("stand"), "{warm}");
    let cold = of(&ganache(), 6.0);
    assert!(cold.contains("12 to 18 °C are kinder"), "{cold}");
    // What is whipped has to be cold.
    let whipped = of(&made_for(ganache(), Kind::Ganache, Use::Whipped), 6.0);
    assert!(whipped.starts_with("Cover it, and keep it at this temperature until it is whipped."), "{whipped}");
}

/// Readers of the decimal comma find no point in a figure of a plan.
#[test]
fn the_figures_of_a_plan_have_the_sign_of_the_reader() {
    let mut count = 0;
    for (name, mass, _) in every_plan() {
        let plan = plan_of(&mass);
        for step in &plan.steps {
            let words = words::plan::step(&plan, step, DecimalSign::Comma);
            let off = words.when_off.iter().map(words::plan::OffWords::joined);
            for text in [words.figures, words.what, words.look].into_iter().chain(off) {
                let letters: Vec<char> = text.chars().collect();
                let has_point =
                    letters.windows(3).any(|at| at[0].is_ascii_digit() && at[1] == '.' && at[2].is_ascii_digit());
                assert!(!has_point, "{name}: {text}");
                count += usize::from(text.contains("0,3 °C"));
            }
        }
    }
    assert!(count > 0, "the error of a thermometer is told");
}

/// A filling is soft for an hour and longer whatever is in it: its strip is held against one without seed, and not against minutes.
#[test]
fn the_strip_of_a_filling_is_compared_and_that_of_chocolate_is_timed() {
    let soft = |system| words::rescue::test_strip(TestStrip::Soft, SeedingWay::Cream, system).looks;
    assert_eq!(soft(System::Chocolate), "soft after ten minutes");
    for system in [System::Ganache, System::NutPraline] {
        assert!(soft(system).contains("the strip without seed"), "{}", soft(system));
        assert!(words::rescue::how_to_test(system).contains("before the seed goes in"));
    }
    assert!(words::rescue::how_to_test(System::Chocolate).contains("two minutes"));
}
