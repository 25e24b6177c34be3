//! One ingredient in the place of another.

use approx::assert_relative_eq;
use nibwright::analysis::{ROOM, analyse};
use nibwright::ingredient::{Component, Library};
use nibwright::recipe::{Kind, Quantity, Recipe};
use nibwright::reformulate::measured::{Mass, Measured};
use nibwright::reformulate::substitute::{
    HELD_WITHIN, HELD_WITHIN_SHARE, Hold, Others, Substitution, SubstitutionError, usually_held,
};
use nibwright::reformulate::{Member, Outcome, ProblemError};
use nibwright::store::load_price_list;

use crate::support::{analysis_of, built_in, made_for, recipe};

fn praline() -> Recipe {
    let mut recipe = Recipe { kind: Kind::Praline, ..Recipe::default() };
    for (id, grams) in
        [("hazelnut-paste", 400.0), ("sucrose", 300.0), ("couverture-milk-40", 200.0), ("cocoa-butter", 100.0)]
    {
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in"));
        recipe.push(ingredient.clone(), Quantity::from_grams(grams).expect("an amount"));
    }
    recipe
}

fn exchange(to: &str) -> Substitution {
    let to = Library::built_in().by_id(to).unwrap_or_else(|| panic!("{to} is built in")).clone();
    Substitution::new("hazelnut-paste", to)
}

/// Almond paste has less oil, which cannot be had from the other lines, but from a little oil besides: what is held is held,
/// the old paste is gone, the batch weighs the same.
#[test]
fn what_is_held_is_held() {
    let recipe = praline();
    let mut exchange = exchange("almond-paste-pure");
    let alone = exchange.of(&recipe, &|| false).expect("it is there");
    let Outcome::Impossible(why) = &alone.outcome else { panic!("too little oil") };
    assert!(why.conflict.iter().any(|one| matches!(one.member, Member::Target(_))), "{:?}", why.conflict);
    exchange.besides = Library::built_in().by_id("oil-sunflower").cloned();
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let after = substituted.recipe().unwrap_or_else(|| panic!("{:?}", substituted.outcome));
    assert!(after.lines.iter().all(|line| line.ingredient.id != "hazelnut-paste"));
    assert_relative_eq!(after.weighed().0, 1000.0, max_relative = 1e-3);
    let (old, new) = (analyse(&recipe, ROOM), analyse(after, ROOM));
    for of in usually_held(&recipe) {
        let figure = |analysis: &nibwright::analysis::Analysis, recipe: &Recipe| {
            let mass = nibwright::reformulate::measured::Mass::new(recipe, &analysis.make_up.bowl);
            mass.figure(of).expect("it has one").value
        };
        let moved = (figure(&new, after) - figure(&old, &recipe)).abs();
        assert!(moved <= HELD_WITHIN * of.grain() + 1e-6, "{of:?} moved by {moved}");
    }
    let first = &substituted.differences()[0];
    let names = [&first.before, &first.after].map(|side| side.as_ref().expect("both").0.id.clone());
    assert_eq!(names, ["hazelnut-paste", "almond-paste-pure"]);
}

#[test]
fn where_one_cannot_do_it_a_second_may_come_besides() {
    let recipe = praline();
    let group = nibwright::analysis::parts::Group::LiquidOil;
    let mut exchange = Substitution { hold: Hold::These(vec![Measured::Group(group)]), ..exchange("sucrose") };
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let Outcome::Impossible(why) = &substituted.outcome else { panic!("sugar brings no oil") };
    assert!(why.conflict.iter().any(|one| matches!(one.member, Member::Target(_))));
    assert!(substituted.recipe().is_none());
    exchange.besides = Library::built_in().by_id("oil-hazelnut").cloned();
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let after = substituted.recipe().expect("oil brings it");
    assert!(after.lines.iter().any(|line| line.ingredient.id == "oil-hazelnut" && line.amount.grams().0 > 100.0));
}

#[test]
fn others_can_stay() {
    let recipe = praline();
    let exchange = Substitution {
        others: Others::Stay,
        hold: Hold::These(vec![Measured::Group(nibwright::analysis::parts::Group::TotalFat)]),
        ..exchange("almond-paste-pure")
    };
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let after = substituted.recipe().expect("it can be done");
    for (old, new) in recipe.lines.iter().zip(&after.lines).skip(1) {
        assert_eq!(old.amount, new.amount);
    }
}

#[test]
fn what_cannot_be_exchanged_says_why() {
    let mut recipe = praline();
    assert!(matches!(exchange("hazelnut-paste").of(&recipe, &|| false), Err(SubstitutionError::Same)));
    recipe.lines[0].is_locked = true;
    assert!(matches!(exchange("almond-paste-pure").of(&recipe, &|| false), Err(SubstitutionError::Locked)));
    recipe.lines.remove(0);
    assert!(matches!(exchange("almond-paste-pure").of(&recipe, &|| false), Err(SubstitutionError::NotThere(_))));
}

/// The exact answer lies at an end of what is held and leaves it when it is weighed by the gram; a gram of oil further it
/// does not.
#[test]
fn the_scale_alone_does_not_stand_in_the_way() {
    let mut recipe = Recipe { kind: Kind::Praline, ..Recipe::default() };
    for (id, grams) in [("hazelnut-paste", 300.0), ("sucrose", 260.0), ("cocoa-butter", 100.0)] {
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in"));
        recipe.push(ingredient.clone(), Quantity::from_grams(grams).expect("an amount"));
    }
    let mut exchange = exchange("almond-paste-pure");
    exchange.besides = Library::built_in().by_id("oil-hazelnut").cloned();
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    assert!(matches!(substituted.outcome, Outcome::Changed(_)), "{:?}", substituted.outcome);
    assert_eq!(substituted.reached().len(), substituted.held.len());
    for (before, reached) in substituted.held.iter().zip(substituted.reached()) {
        let moved = (reached.after.value - before.value).abs();
        assert!(moved <= HELD_WITHIN * reached.target.of.grain() + 1e-9, "{reached:?}");
    }
}

/// A fifth of the salt, of the alcohol or of the shrinking is much of it and little of the mass: the grain of each is what a
/// maker notices of it, and no more than half of that and a twentieth of the figure moves.
#[test]
fn little_of_something_is_held_as_finely_as_it_is_noticed() {
    let lines = [
        ("couverture-dark-64", 500.0),
        ("cream-35", 350.0),
        ("butter-82", 40.0),
        ("rum-40", 40.0),
        ("glucose-syrup-de40", 40.0),
        ("cocoa-butter", 20.0),
        ("salt", 4.0),
    ];
    let recipe = made_for(recipe(&lines), Kind::Ganache, None);
    let hold = vec![
        Measured::Component(Component::Salt),
        Measured::Component(Component::Ethanol),
        Measured::Component(Component::Lactose),
        Measured::Crystals(ROOM),
        Measured::Contraction,
    ];
    let to = built_in("couverture-dark-70");
    let exchange = Substitution { hold: Hold::These(hold.clone()), ..Substitution::new("couverture-dark-64", to) };
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let after = substituted.recipe().unwrap_or_else(|| panic!("{:?}", substituted.outcome));
    let figures = |recipe: &Recipe| {
        let bowl = analysis_of(recipe).make_up.bowl;
        let mass = Mass::new(recipe, &bowl);
        hold.iter().map(|of| mass.figure(*of).expect("it has one").value).collect::<Vec<_>>()
    };
    for ((of, before), after) in hold.iter().zip(figures(&recipe)).zip(figures(after)) {
        let most = (HELD_WITHIN * of.grain()).min(HELD_WITHIN_SHARE * before);
        assert!((after - before).abs() <= most + 1e-6, "{of:?}: {before} became {after}");
    }
}

/// A dry praline has no emulsion whose fat to water could be held; asked for by name that is an error, and otherwise left out.
/// That it is dry is held.
#[test]
fn what_a_recipe_does_not_have_is_left_out_only_where_that_was_asked_for() {
    let asked = vec![Measured::WaterActivity, Measured::FatToWater];
    let mut exchange = exchange("almond-paste-pure");
    exchange.hold = Hold::TheseWhereThere(asked.clone());
    let substituted = exchange.of(&praline(), &|| false).expect("it is there");
    assert_eq!((substituted.held.len(), substituted.without(&asked)), (1, vec![Measured::FatToWater]));
    assert!(matches!(substituted.outcome, Outcome::Unchanged(_)), "gram for gram");
    exchange.hold = Hold::These(asked);
    assert!(matches!(exchange.of(&praline(), &|| false), Err(SubstitutionError::NoFigure(_))));
}

/// What is paid for a kilogram of each, in euros but for what is named.
fn prices(of: &[(&str, f64)], in_dollars: &str) -> nibwright::production::price_list::PriceList {
    let row = |(id, price): &(&str, f64)| format!("{id},{price},{}\n", if *id == in_dollars { "USD" } else { "EUR" });
    let rows = of.iter().map(row).collect::<Vec<_>>().concat();
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("prices.csv");
    std::fs::write(&file, format!("ingredient,price,currency\n{rows}")).expect("a file");
    load_price_list(&file).expect("a list")
}

/// By hand: 400 g at 14, 300 g at 1, 200 g at 9 and 100 g at 20 euros for a kilogram are 9.70 euros; with almond paste at 18
/// gram for gram 11.30.
#[test]
fn the_cost_is_held_where_the_prices_are_known() {
    const OTHERS: [(&str, f64); 4] =
        [("hazelnut-paste", 14.0), ("sucrose", 1.0), ("couverture-milk-40", 9.0), ("cocoa-butter", 20.0)];
    let all = [&OTHERS[..], &[("almond-paste-pure", 18.0)]].concat();
    let recipe = praline();
    let with =
        |prices| Substitution { hold: Hold::These(vec![Measured::Cost]), prices, ..exchange("almond-paste-pure") };
    let substituted = with(prices(&all, "")).of(&recipe, &|| false).expect("every line has a price");
    let after = substituted.recipe().expect("it can be done");
    assert_relative_eq!(substituted.held[0].value, 9.7, max_relative = 1e-12);
    assert_relative_eq!(substituted.reached()[0].before.value, 11.3, max_relative = 1e-12);
    let price = |id: &str| all.iter().find(|(of, _)| *of == id).expect("it has a price").1;
    let money: f64 = after.lines.iter().map(|line| line.amount.grams().0 / 1000.0 * price(&line.ingredient.id)).sum();
    assert_relative_eq!(money / (after.weighed().0 / 1000.0), 9.7, epsilon = 0.05 + 1e-9);

    let nothing_known = with(prices(&all[1..], "")).of(&recipe, &|| false);
    assert_eq!(nothing_known, Err(SubstitutionError::NoFigure(Measured::Cost)), "the old paste has no price");
    let no_figure = |result| {
        let SubstitutionError::Problem(ProblemError::NoFigure { of, .. }) = result else { return None };
        Some(of)
    };
    let new_without = with(prices(&OTHERS, "")).of(&recipe, &|| false).expect_err("the new paste has no price");
    assert_eq!(no_figure(new_without), Some(Measured::Cost));
    // The same number in other money is not the same cost, also where nothing else is in the recipe.
    let mut alone = recipe.clone();
    alone.lines.truncate(1);
    let other_money = with(prices(&all, "almond-paste-pure")).of(&alone, &|| false).expect_err("nothing is converted");
    assert_eq!(no_figure(other_money), Some(Measured::Cost));
}

/// A paste of almonds and sugar becomes almond butter and sugar: the sugar that comes besides is measured by the paste that it
/// takes the place of, so that the couverture does not double to spare it; salt is a matter of taste and stays.
#[test]
fn what_comes_besides_takes_the_place_of_what_goes() {
    let recipe = recipe(&[
        ("praline-almond-50", 700.0),
        ("couverture-milk-38", 200.0),
        ("cocoa-butter", 60.0),
        ("crisp-flakes", 40.0),
        ("salt", 2.0),
    ]);
    let to = Library::built_in().by_id("almond-paste-pure").expect("built in").clone();
    let besides = Library::built_in().by_id("sucrose").cloned();
    let exchange = Substitution { besides, ..Substitution::new("praline-almond-50", to) };
    let substituted = exchange.of(&recipe, &|| false).expect("it is there");
    let after = substituted.recipe().unwrap_or_else(|| panic!("{:?}", substituted.outcome));
    for (line, was) in after.lines.iter().zip(&recipe.lines).skip(1).take(3) {
        let (now, was) = (line.amount.grams().0, was.amount.grams().0);
        assert!((now / was - 1.0).abs() < 0.14, "{}: {was} {now}", line.ingredient.id);
    }
    assert_eq!(after.lines[4].amount.grams().0, 2.0);
    // Half of the paste was sugar.
    let sugar = after.lines.last().expect("it came in");
    assert_eq!(sugar.ingredient.id, "sucrose");
    assert!((330.0..360.0).contains(&sugar.amount.grams().0), "{}", sugar.amount.grams().0);
}
