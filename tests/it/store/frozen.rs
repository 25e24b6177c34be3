//! Files as earlier versions wrote them: every one opens for ever, with the same content.

use std::fs;
use std::path::{Path, PathBuf};

use nibwright::ingredient::{Component, Ingredient, Library};
use nibwright::recipe::{
    BowlMaterial, CocoaButter, Evaporation, FatState, Kind, LineId, MassUnit, SeedTemperature, SeedingChoice,
    SeedingWay, Use,
};
use nibwright::store::save_recipe;
use nibwright::units::{Celsius, MassFraction};

use super::{FILES, load};

fn frozen(name: &str) -> PathBuf {
    Path::new(FILES).join("v1").join(name)
}

#[test]
fn every_file_opens_and_is_the_same_after_saving() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut count = 0;
    for entry in fs::read_dir(frozen("")).expect("the folder is there") {
        let path = entry.expect("an entry").path();
        let recipe = load(&path).expect("a frozen file opens");
        let (first, second) = (folder.path().join("first.ron"), folder.path().join("second.ron"));
        save_recipe(&first, &recipe).expect("it can be saved");
        let again = load(&first).expect("it opens again");
        assert_eq!(again, recipe, "{}", path.display());
        save_recipe(&second, &again).expect("it can be saved");
        assert_eq!(fs::read(&first).expect("saved"), fs::read(&second).expect("saved"), "{}", path.display());
        count += 1;
    }
    assert!(count >= 4, "only {count} frozen files were found");
}

#[test]
fn a_file_by_hand_takes_its_figures_from_the_library() {
    let recipe = load(&frozen("by-hand.ron")).expect("it opens");
    assert_eq!(
        (recipe.name.as_str(), recipe.kind, recipe.intended_use),
        ("Dark cut ganache", Kind::Ganache, Some(Use::Cut))
    );
    let cream = Library::built_in().by_id("cream-35").expect("it is built in");
    assert_eq!(&recipe.lines[1].ingredient, cream);
    assert_eq!(recipe.lines[1].amount.unit(), MassUnit::Kilogram);
    assert_eq!(recipe.lines[1].amount.grams().0, 200.0);
    assert!(recipe.lines[0].is_locked && !recipe.lines[1].is_locked);
    assert_eq!(recipe.lines[0].note, "melted to 45 °C");
    assert_eq!(recipe.lines.iter().map(|line| line.id).collect::<Vec<_>>(), [0, 1, 2, 3].map(LineId));
}

#[test]
fn a_line_that_is_another_recipe_is_kept_and_its_composition_unknown() {
    let recipe = load(&frozen("by-hand.ron")).expect("it opens");
    let line = &recipe.lines[3];
    assert_eq!(line.recipe_file.as_deref(), Some("bases/praline-base.ron"));
    assert_eq!(*line.ingredient, Ingredient::unknown("praline-base", "praline-base"));
}

#[test]
fn what_was_chosen_for_seeding_arrives() {
    let recipe = load(&frozen("seeding.ron")).expect("it opens");
    let seeding = recipe.seeding;
    assert_eq!(seeding.way, SeedingWay::Grated);
    assert_eq!(seeding.cream.share(), MassFraction(0.225));
    assert_eq!(seeding.amount.map(|amount| (amount.value(), amount.unit())), Some((0.25, MassUnit::Ounce)));
    assert_eq!(seeding.temperature.map(SeedTemperature::celsius), Some(Celsius(18.0)));
    assert_eq!(recipe.lines.iter().map(|line| line.is_seed).collect::<Vec<_>>(), [false, true]);
    let by_hand = load(&frozen("by-hand.ron")).expect("it opens");
    assert_eq!(by_hand.seeding, SeedingChoice::default(), "not said, it is as usual");
}

#[test]
fn every_field_arrives() {
    let recipe = load(&frozen("everything.ron")).expect("it opens");
    assert_eq!((recipe.kind, recipe.intended_use), (Kind::MousseBase, Some(Use::ThickBar)));
    let CocoaButter::Own(analysis) = recipe.cocoa_butter else { panic!("{:?}", recipe.cocoa_butter) };
    let figures = analysis.triglycerides();
    assert_eq!((figures.pop, figures.free_fatty_acids_percent), (15.5, 1.5));
    assert_eq!(recipe.note, "First line\nsecond line, with a backslash \\ and é, 🍫");
    assert_eq!(recipe.lines[0].note, "raw \"text\"");
    assert!(matches!(recipe.losses.evaporation, Evaporation::Weighed(water) if water.grams().0 == 20.0));
    assert_eq!(recipe.losses.transfer.share(), MassFraction(0.023));
    assert_eq!(recipe.pieces, Some(120));
    assert_eq!(recipe.steps[0].temperature, Some(Celsius(118.0)));
    assert_eq!(recipe.steps[0].minutes, Some(10.0));
    assert_eq!(recipe.steps[2].temperature, None);
}

#[test]
fn temperatures_and_the_bowl_arrive() {
    use FatState::{ByTemperature, Melted, Solid, Tempered};
    let recipe = load(&frozen("mixing.ron")).expect("it opens");
    let starts: Vec<_> = recipe.lines.iter().map(|line| line.temperature.map(|it| it.celsius().0)).collect();
    assert_eq!(starts, [Some(82.5), Some(31.0), Some(18.0), None, None]);
    let states: Vec<_> = recipe.lines.iter().map(|line| line.fat_state).collect();
    assert_eq!(states, [ByTemperature, Tempered, Solid, Melted, ByTemperature]);
    assert_eq!(recipe.mixing.wanted.map(|wanted| wanted.celsius().0), Some(34.0));
    assert_eq!(recipe.mixing.stirred.minutes(), 2.5);
    let bowl = recipe.mixing.bowl.expect("a bowl");
    assert_eq!((bowl.material, bowl.mass.unit()), (BowlMaterial::Polypropylene, MassUnit::Kilogram));
    assert_eq!((bowl.mass.grams().0, bowl.temperature.celsius().0), (300.0, 25.0));
}

#[test]
fn embedded_figures_count_more_than_built_in_ones_and_unused_ones_are_kept() {
    let recipe = load(&frozen("everything.ron")).expect("it opens");
    let cream = &recipe.lines[0].ingredient;
    assert_eq!(cream.composition.share(Component::MilkFat), Some(MassFraction(0.355)));
    assert!(std::sync::Arc::ptr_eq(cream, &recipe.lines[2].ingredient), "one ingredient, two lines");
    assert_eq!(recipe.spare_ingredients.len(), 1);
    assert_eq!(recipe.spare_ingredients[0].name, "Another cream");
    assert_eq!(recipe.spare_ingredients[0].composition.share(Component::MilkFat), None);

    let overriding = load(&frozen("own-figures-of-a-built-in.ron")).expect("it opens");
    let figures = &overriding.lines[0].ingredient.composition;
    assert_eq!(figures.share(Component::MilkFat), Some(MassFraction(0.36)));
    assert!(Library::built_in().by_id("cream-35").is_some(), "the id is a built-in one");
}
