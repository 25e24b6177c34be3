//! The seed itself: what is put in, its dose, what it brings.

use super::*;

#[test]
fn the_seed_in_the_sheet_changes_no_suggestion() {
    for way in [SeedingWay::Cream, SeedingWay::Grated, SeedingWay::ChoppedChocolate] {
        let without = by(way, ganache());
        let before = analysis_of(&without);
        let seed = seed_of(&without);
        let id = seed.ingredient.as_ref().expect("it is known").id.clone();
        let mut document = Document { recipe: without };
        let ingredient = Library::built_in().by_id(&id).expect("built in").clone();
        let amount = Quantity::from_grams(seed.grams.expect("it is known").0).expect("an amount");
        Edit::PutSeedInSheet { ingredient, amount }.apply(&mut document).expect("it is put in");
        let after = analysis_of(&document.recipe);
        assert_eq!(after.seeding, before.seeding, "{way:?}");
        let with = after.plan.as_ref().expect("a plan").seed.clone().expect("seed");
        assert_eq!(
            (with.suggested, with.grams, with.put_in, with.after),
            (seed.suggested, seed.grams, seed.put_in, seed.after)
        );
        assert_eq!(with.amount_from, AmountFrom::Sheet);
        assert_relative_eq!(
            after.make_up.weighed.0,
            before.make_up.weighed.0 + seed.grams.expect("it is known").0,
            max_relative = 1e-12
        );
        assert!(flat(&text::report(&document.recipe, &after, DecimalSign::Point)).contains("It stands in the sheet."));
        Edit::TakeSeedOutOfSheet.apply(&mut document).expect("it is taken out");
        assert_eq!(analysis_of(&document.recipe).plan, before.plan);
    }
}

#[test]
fn doses_scale_with_the_mass_and_own_amounts_with_the_recipe() {
    for way in [SeedingWay::Cream, SeedingWay::Grated, SeedingWay::ChoppedChocolate] {
        let small = seed_of(&by(way, dark(500.0)));
        let large = seed_of(&by(way, dark(5000.0)));
        assert_relative_eq!(
            10.0 * small.suggested.expect("it is known").0,
            large.suggested.expect("it is known").0,
            max_relative = 1e-9
        );
        let (Some(small), Some(large)) = (small.after, large.after) else { panic!("{way:?}") };
        assert_abs_diff_eq!(small.at.0, large.at.0, epsilon = 1e-6);
        assert_relative_eq!(small.crystals.0, large.crystals.0, max_relative = 1e-6);
    }
    let mut document = Document { recipe: ganache() };
    document.recipe.seeding.amount = Some(grams(6.0));
    Edit::ScaleTo { weighed: grams(1800.0) }.apply(&mut document).expect("it scales");
    assert_relative_eq!(seed_of(&document.recipe).grams.expect("it is known").0, 18.0, max_relative = 1e-12);
    // An own amount belongs to its way: a third of chocolate is no dose of cream.
    Edit::SetSeedingWay(SeedingWay::ChoppedChocolate).apply(&mut document).expect("another way");
    assert_eq!(document.recipe.seeding.amount, None);
    // So does what stands in the sheet as seed.
    let ingredient = crate::support::built_in("couverture-dark-64");
    Edit::PutSeedInSheet { ingredient, amount: grams(300.0) }.apply(&mut document).expect("it is put in");
    Edit::SetSeedingWay(SeedingWay::Cream).apply(&mut document).expect("another way");
    assert_eq!(document.recipe.seed_in_sheet(), None);
}

#[test]
fn melted_seed_and_doses_out_of_the_usual_are_told() {
    let mut hot = ganache();
    hot.seeding.temperature = Some(SeedTemperature::new(Celsius(40.0)).expect("a temperature"));
    let analysis = analysis_of(&hot);
    assert_eq!(finding(&analysis, "seeding.seed_melted").level, Level::Caution);
    let seed = seed_of(&hot);
    assert!(seed.is_melted && seed.solid == Some(MassFraction::ZERO));
    assert_eq!(seed.after.and_then(|after| after.fate), None, "there is nothing that could live");
    // Of 600 g: 0.1, 2.5, 3.3, 11.7 and 150 %.
    for (amount, code, level) in [
        (0.6, "seeding.amount_g.low", Level::Note),
        (15.0, "seeding.amount_g.high", Level::Note),
        (20.0, "seeding.amount_g.high", Level::Caution),
        (70.0, "seeding.amount_g.high", Level::Problem),
        (900.0, "seeding.amount_g.high", Level::Problem),
    ] {
        let mut own = ganache();
        own.seeding.amount = Some(grams(amount));
        assert_eq!(finding(&analysis_of(&own), code).level, level, "{amount} g");
    }
    let mut usual = ganache();
    usual.seeding.amount = Some(grams(5.0));
    assert!(!codes(&analysis_of(&usual)).iter().any(|code| code.starts_with("seeding.amount")));
    // So much warm seed that the mass ends at its limit.
    let mut much = by(SeedingWay::Grated, ganache());
    much.seeding.amount = Some(grams(50_000.0));
    much.seeding.temperature = Some(SeedTemperature::new(Celsius(33.7)).expect("a temperature"));
    let after = seed_of(&much).after.expect("all is known");
    assert!(matches!(after.fate, Some(Fate::Melts | Fate::OnlyAnnealed | Fate::Edge)), "{after:?}");
    assert_eq!(finding(&analysis_of(&much), "seeding.after_mixing_c.high").level, Level::Caution);
}

/// By hand: 30 g of a couverture with 50 % cocoa butter, a fifth of it crystals, bring 3 g into the 350 + 15 g of fat of 1000 g
/// of plain chocolate: 0.822 %. The habit asks for 1 % of cocoa butter: half of a gram of it is that, so 20 g are suggested, and
/// nothing is held, as the dose is judged by its cocoa butter too.
/// Grated butter is three quarters crystals: a thick bar of little fat asks for less of it than is usual, and that is told of the
/// seed that was chosen.
#[test]
fn the_dose_of_the_chosen_seed_is_told_where_it_is_held() {
    let by = |way| {
        let lines = [("couverture-dark-55", 450.0), ("sucrose", 650.0)];
        let mut mass = made_for(recipe(&lines), Kind::Chocolate, Use::ThickBar);
        mass.seeding.way = way;
        analysis_of(&mass)
    };
    let grated = by(SeedingWay::Grated);
    let clip = grated.plan.as_ref().ok().and_then(|plan| plan.seed.as_ref()?.clip).expect("it is held");
    let detail = words::finding(finding(&grated, "seeding.dose_clipped"), DecimalSign::Point).title;
    assert!(detail.contains("habit asks for 0.1") && detail.contains("held at 0.2 %"), "{clip:?} {detail}");
    assert!(by(SeedingWay::Cream).plan.expect("a plan").seed.expect("a seed").clip.is_none());
}

#[test]
fn a_seed_of_couverture_counts_as_what_it_is() {
    let couverture = own("couverture", &[(Component::CocoaButter, 50.0), (Component::Sucrose, 50.0)]);
    let mass = with_seed(plain(1000.0), SeedingWay::Cream, couverture, 30.0);
    let analysis = analysis_of(&mass);
    let seed = analysis.plan.as_ref().expect("a plan").seed.clone().expect("seed");
    assert_abs_diff_eq!(seed.after.expect("all is known").crystals.0, 3.0 / 365.0, epsilon = 1e-6);
    assert_eq!((seed.cocoa_butter, seed.suggested, seed.clip), (Some(MassFraction(0.5)), Some(Grams(20.0)), None));
    let sugars = seed.changes.iter().find(|change| change.group == nibwright::analysis::parts::Group::Sugars);
    assert_abs_diff_eq!(sugars.expect("sugar").after.expect("known").0, (650.0 + 15.0) / 1030.0, epsilon = 1e-9);
    // 15 g of cocoa butter are 1.5 % of the mass, as is usual.
    assert!(!codes(&analysis).iter().any(|code| code.starts_with("seeding.amount")));
    let more = with_seed(
        plain(1000.0),
        SeedingWay::Cream,
        own("couverture", &[(Component::CocoaButter, 50.0), (Component::Sucrose, 50.0)]),
        40.0,
    );
    let found = words::finding(finding(&analysis_of(&more), "seeding.amount_g.high"), DecimalSign::Point);
    assert!(found.title.contains("2.00 % of the mass, by its cocoa butter"), "{}", found.title);
    assert!(
        flat(&text::report(&mass, &analysis, DecimalSign::Point))
            .contains("Weigh 30 g of tempered couverture at about")
    );
}

#[test]
fn a_seed_without_cocoa_butter_brings_no_crystals() {
    for way in [SeedingWay::Cream, SeedingWay::Grated, SeedingWay::ChoppedChocolate] {
        for id in ["butter-82", "sucrose"] {
            let mass = with_seed(plain(1000.0), way, crate::support::built_in(id), 10.0);
            let analysis = analysis_of(&mass);
            assert_eq!(finding(&analysis, "seeding.seed_without_crystals").level, Level::Caution, "{way:?} {id}");
            let seed = analysis.plan.as_ref().expect("a plan").seed.clone().expect("seed");
            assert!(
                seed.after.is_none_or(|after| after.crystals == MassFraction::ZERO),
                "{way:?} {id}: {:?}",
                seed.after
            );
            assert_eq!(seed.solid, Some(MassFraction::ZERO), "{way:?} {id}");
            let words = words::plan::after_mixing(&seed, DecimalSign::Point);
            assert_eq!(words, "no crystals: there is no cocoa butter in the seed");
            let amount = words::plan::seed_amount(&seed, DecimalSign::Point);
            assert!(amount.starts_with("none of it, it brings no crystals; suggested "), "{amount}");
            let plan = analysis.plan.as_ref().expect("a plan");
            let step = plan.step(StepKind::Seed).expect("it is told");
            let step_words = words::plan::step(plan, step, DecimalSign::Point);
            assert!(step_words.what.contains("it is no seed. Take it out of the sheet"), "{}", step_words.what);
            assert!(!step_words.what.contains("Weigh") && step.weight.is_none(), "{way:?} {id}: {}", step_words.what);
        }
    }
    assert!(!codes(&analysis_of(&plain(1000.0))).contains(&"seeding.seed_without_crystals"));
}

/// The file's own cocoa butter, under its usual id or another, is the seed: one with 2 % of milk fat changes the mass by it.
#[test]
fn the_cocoa_butter_of_the_file_is_the_seed() {
    use nibwright::ingredient::Ingredient;
    let ours = [(Component::CocoaButter, 98.0), (Component::MilkFat, 2.0)];
    for id in ["cocoa-butter", "ours"] {
        let mine = Ingredient { id: id.to_owned(), name: "ours".to_owned(), ..own("ours", &ours).as_ref().clone() };
        let mine = std::sync::Arc::new(mine);
        let mut in_sheet = plain(1000.0);
        in_sheet.push(mine.clone(), grams(50.0));
        let mut spare = plain(1000.0);
        spare.spare_ingredients.push(mine);
        for mass in [in_sheet, spare] {
            let seed = seed_of(&mass);
            assert_eq!(seed.ingredient.as_ref().map(|found| found.name.as_str()), Some("ours"), "{id}");
            assert_eq!(seed.cocoa_butter, Some(MassFraction(0.98)));
            assert_abs_diff_eq!(seed.solid.expect("known").0, 0.2 * 0.98, epsilon = 1e-12);
        }
    }
    // A soft cocoa butter is a cream in the cold.
    let mut soft = plain(1000.0);
    soft.cocoa_butter = nibwright::recipe::CocoaButter::Soft;
    assert!(seed_of(&soft).at < seed_of(&plain(1000.0)).at);
}

/// What the seed brings that nobody has measured leaves the dose open: it is no dose of nothing.
#[test]
fn a_seed_of_unknown_fat_has_no_suggestion() {
    let parts = [(Component::CocoaButter, 96.0)];
    let mut mass = plain(1000.0);
    mass.spare_ingredients.push(own_with("ours", &parts, &[Component::MilkFat], 0.0));
    let seed = seed_of(&mass);
    assert_eq!((seed.suggested, seed.grams, seed.clip, seed.after), (None, None, None, None));
    let report = flat(&text::report(&mass, &analysis_of(&mass), DecimalSign::Point));
    assert!(report.contains("weigh not known: a figure of the seed is missing"), "{report}");
    mass.seeding.amount = Some(grams(7.0));
    let seed = seed_of(&mass);
    assert_eq!((seed.suggested, seed.grams), (None, Some(Grams(7.0))));
    assert_eq!(words::plan::seed_amount(&seed, DecimalSign::Point), "7 g, your own; what to suggest is not known");
}

/// Seed that brings no crystals has no share of them that melts.
#[test]
fn where_no_crystals_come_in_none_are_said_to_melt() {
    let mut hot = ganache();
    hot.seeding.temperature = Some(SeedTemperature::new(Celsius(40.0)).expect("a temperature"));
    assert_eq!(seed_of(&hot).after.expect("all is known").melted, None);
    assert_eq!(seed_of(&ganache()).after.expect("all is known").melted, Some(MassFraction(0.0)));
}

/// Chopped chocolate of another kind brings other fats: from then on the window is that of the whole. The limit of the whole is
/// that of the same lines without any seed.
#[test]
fn once_another_chocolate_is_in_its_fat_counts() {
    let milk = crate::support::built_in("gianduja-milk");
    let mass = with_seed(dark(600.0), SeedingWay::ChoppedChocolate, milk, 300.0);
    let analysis = analysis_of(&mass);
    let plan = analysis.plan.as_ref().expect("a plan");
    let whole = analysis_of(&made_for(
        recipe(&[("couverture-dark-64", 600.0), ("gianduja-milk", 300.0)]),
        Kind::Chocolate,
        Use::Bar,
    ));
    let limit = whole.fat.as_ref().expect("known").limits.form_v.expect("a limit");
    let with = plan.with_seed().expect("its fat is another");
    assert_abs_diff_eq!(with.limits.form_v.expect("a limit").0, limit.0, epsilon = 1e-9);
    assert!(with.window.max < plan.window.max && with.window.max < limit);
    for kind in [StepKind::Cool, StepKind::Check, StepKind::Deposit] {
        let Some(step) = plan.step(kind) else { continue };
        assert_eq!(step.temperature.expect("how warm").to, with.window.max, "{kind:?}");
        let words = words::plan::step(plan, step, DecimalSign::Point);
        assert!(!words.what.contains("33.5") && !words.what.contains("33.7"), "{kind:?}: {}", words.what);
        assert!(words.when_off.iter().all(|off| !off.remedy.contains("33.5")), "{kind:?}: {:?}", words.when_off);
    }
    let seed = words::plan::step(plan, plan.step(StepKind::Seed).expect("it goes in"), DecimalSign::Point).what;
    assert!(seed.contains(&format!("with it the form V limit is {:.1} °C", limit.0)), "{seed}");
    // The finding explains its limit by the fats of the mass that has it.
    let window = words::finding(finding(&analysis, "seeding.window"), DecimalSign::Point).detail;
    assert!(window.contains("Nearly all fat is cocoa butter") && window.contains("With the pieces"), "{window}");
    // The same chocolate, or a dose of cocoa butter, changes nothing that a thermometer shows.
    let same = plan_of(&by(SeedingWay::ChoppedChocolate, dark(600.0)));
    assert_eq!((same.with_seed(), plan_of(&ganache()).with_seed()), (None, None));
}
