use super::*;
use crate::recipe::Quantity;

/// The id of cream with 35 % fat in the library.
const CREAM: &str = "cream-35";

fn built_in(id: &str) -> Arc<Ingredient> {
    Arc::clone(Library::built_in().by_id(id).expect("built in"))
}

fn recipe_of(ingredients: &[Arc<Ingredient>]) -> Recipe {
    let mut recipe = Recipe::default();
    for ingredient in ingredients {
        recipe.push(Arc::clone(ingredient), Quantity::default());
    }
    recipe
}

fn form_of(ingredient: &Arc<Ingredient>) -> Entered {
    Entered::of_line(ingredient, LineId(0), DecimalSign::Point)
}

fn grams(ingredient: &Ingredient, component: Component) -> f64 {
    ingredient.composition.grams_per_100g()[component.index()]
}

fn type_part(form: &mut Entered, component: Component, text: &str) {
    form.fields.parts[component.index()] = text.to_owned();
}

/// Cream whose fat is 5 g more, and whose water is 5 g less.
fn with_more_fat() -> Entered {
    let cream = built_in(CREAM);
    let mut form = form_of(&cream);
    let text = |part, more: f64| typed(round_half_up(grams(&cream, part) + more, 6), DecimalSign::Point);
    type_part(&mut form, Component::MilkFat, &text(Component::MilkFat, 5.0));
    type_part(&mut form, Component::Water, &text(Component::Water, -5.0));
    form
}

#[track_caller]
fn used(form: &Entered) -> Ingredient {
    form.ingredient(&recipe_of(&[Arc::clone(form.before())])).expect("it can be used")
}

#[test]
fn every_built_in_ingredient_can_be_shown_and_stays_what_it_is() {
    for ingredient in Library::built_in().iter() {
        for sign in [DecimalSign::Point, DecimalSign::Comma] {
            let mut form = Entered::of_line(ingredient, LineId(0), sign);
            assert_eq!(form.why_not(), None, "{}", ingredient.id);
            assert_eq!(form.fields.unknown_count(), ingredient.composition.unknown_components().count());
            form.fields.name.push_str(" of the house");
            let after = used(&form);
            let expected =
                Ingredient { id: after.id.clone(), name: after.name.clone(), ..Ingredient::clone(ingredient) };
            assert_eq!(after, expected, "only name and id are others");
        }
    }
}

#[test]
fn a_figure_is_a_number_a_sum_unknown_or_nothing() {
    let mut fields = Fields::empty();
    for (text, expected) in [
        ("", Ok(Some(0.0))),
        ("  ", Ok(Some(0.0))),
        ("?", Ok(None)),
        (" ? ", Ok(None)),
        ("12,5", Ok(Some(12.5))),
        ("100 - 64.5", Ok(Some(35.5))),
    ] {
        fields.parts[0] = text.to_owned();
        assert_eq!(fields.part(Component::Water), expected, "{text:?}");
    }
    for text in ["-1", "x", "??", "5 %"] {
        fields.parts[0] = text.to_owned();
        assert!(fields.part(Component::Water).is_err(), "{text:?}");
        assert_eq!((fields.sum(), fields.rest(), fields.closing()), (None, None, Closing::Unreadable));
    }
}

#[test]
fn a_part_that_cannot_be_read_is_named() {
    let mut form = form_of(&built_in(CREAM));
    type_part(&mut form, Component::MilkFat, "much");
    assert!(form.why_not().is_some_and(|reason| reason.starts_with("milk fat: ")));
    assert!(form.ingredient(&Recipe::default()).is_err());
}

#[test]
fn the_sum_closes_within_two_tenths_of_a_gram() {
    // The tolerance of `Composition`, which decides.
    for (water, closing) in [
        ("65", Closing::Closes),
        ("65.2", Closing::Closes),
        ("64.8", Closing::Closes),
        ("65.21", Closing::TooMuch(0.21)),
        ("64.79", Closing::Missing(0.21)),
        ("?", Closing::NotKnown(1)),
        ("?", Closing::NotKnown(1)),
    ] {
        let mut form = Entered::new_ingredient(DecimalSign::Point);
        form.fields.name = "Cream".to_owned();
        type_part(&mut form, Component::MilkFat, "35");
        type_part(&mut form, Component::Water, water);
        assert_eq!(form.fields.closing(), closing, "{water} g of water");
        let is_usable = !matches!(closing, Closing::TooMuch(_) | Closing::Missing(_));
        assert_eq!(form.why_not().is_none(), is_usable, "{water} g of water: {:?}", form.why_not());
    }
}

#[test]
fn known_parts_over_100_g_are_too_much_even_if_another_is_not_known() {
    let mut form = Entered::new_ingredient(DecimalSign::Point);
    form.fields.name = "Cream".to_owned();
    type_part(&mut form, Component::MilkFat, "101");
    type_part(&mut form, Component::Water, "?");
    assert_eq!(form.fields.closing(), Closing::TooMuch(1.0));
    assert!(form.why_not().is_some());
}

#[test]
fn what_is_typed_as_unknown_is_unknown_in_the_ingredient() {
    let mut form = form_of(&built_in(CREAM));
    type_part(&mut form, Component::Lactose, "?");
    let cream = used(&form);
    assert_eq!(cream.composition.unknown_components().collect::<Vec<_>>(), [Component::Lactose]);
    assert_eq!(cream.composition.declared_unassigned(), 0.0);
}

#[test]
fn the_rest_is_left_open_only_if_that_is_said() {
    let mut form = Entered::new_ingredient(DecimalSign::Point);
    form.fields.name = "Paste".to_owned();
    type_part(&mut form, Component::OtherFat, "60.1");
    type_part(&mut form, Component::Sucrose, "38.6");
    assert_eq!(form.fields.rest(), Some(1.3));
    assert_eq!(form.fields.closing(), Closing::Missing(1.3));
    assert!(form.why_not().is_some_and(|reason| reason.starts_with("1.3 g missing")));
    form.fields.leaves_rest_open = true;
    assert_eq!(form.fields.closing(), Closing::LeftOpen(1.3));
    let paste = form.ingredient(&Recipe::default()).expect("it closes");
    assert_eq!(paste.composition.declared_unassigned(), 1.3);
    // What is not known is in the rest already.
    type_part(&mut form, Component::Salt, "?");
    assert_eq!((form.fields.rest(), form.fields.closing()), (None, Closing::NotKnown(1)));
    // Nothing is left open of 100 g.
    type_part(&mut form, Component::Salt, "1.3");
    assert_eq!((form.fields.rest(), form.fields.closing()), (None, Closing::Closes));
}

#[test]
fn a_rest_that_was_open_stays_open_and_is_counted_anew() {
    let mut form = Entered::new_ingredient(DecimalSign::Point);
    form.fields.name = "Paste".to_owned();
    form.fields.leaves_rest_open = true;
    type_part(&mut form, Component::OtherFat, "98");
    let paste = Arc::new(form.ingredient(&Recipe::default()).expect("it closes"));
    let mut again = form_of(&paste);
    assert!(again.fields.leaves_rest_open);
    type_part(&mut again, Component::OtherFat, "99");
    assert_eq!(used(&again).composition.declared_unassigned(), 1.0);
}

#[test]
fn replaced_figures_are_the_users_own() {
    let form = with_more_fat();
    let (before, after) = (built_in(CREAM), used(&form));
    assert_eq!(
        (after.id.as_str(), after.evidence, after.source.as_str()),
        ("cream-35-own", Evidence::Supplier, OWN_FIGURES)
    );
    assert_eq!((after.source_id.as_str(), after.note.as_str()), ("", ""));
    assert_eq!(grams(&after, Component::MilkFat), 40.0);
    assert_eq!(after.fat_in_globules, before.fat_in_globules);
    // The library is as it was.
    assert_eq!(*built_in(CREAM), *before);
}

#[test]
fn a_named_source_makes_unchanged_figures_those_of_the_supplier() {
    let cream = built_in(CREAM);
    let mut form = form_of(&cream);
    form.fields.source = " data sheet of May ".to_owned();
    let after = used(&form);
    assert_eq!((after.source.as_str(), after.evidence), ("data sheet of May", Evidence::Supplier));
    assert_eq!((&after.composition, &after.properties), (&cream.composition, &cream.properties));
}

#[test]
fn what_rests_on_a_changed_part_is_not_known_and_the_rest_stays() {
    let (before, form) = (built_in(CREAM).properties.clone(), with_more_fat());
    let after = used(&form).properties;
    assert!(before.energy_kj.is_some() && before.saturates_g.is_some() && before.density.is_some());
    assert_eq!((after.energy_kj, after.saturates_g, after.density), (None, None, None));
    assert_eq!(
        (after.sodium_mg, after.ph, after.organic_acids_g),
        (before.sodium_mg, before.ph, before.organic_acids_g)
    );
    assert_eq!((&after.allergens, after.vegan), (&before.allergens, before.vegan));
    assert!(before.sodium_mg.is_some() && before.ph.is_some() && before.allergens.is_some());
    assert_eq!(form.lost_properties(), ["energy", "saturates", "density"]);
}

#[test]
fn a_part_that_was_not_in_it_makes_allergens_unknown() {
    let mut form = form_of(&built_in("cocoa-butter"));
    assert!(form.before().properties.allergens.is_some(), "the check needs one that has them");
    type_part(&mut form, Component::CocoaButter, "90");
    type_part(&mut form, Component::OtherFat, "10");
    let after = used(&form).properties;
    assert_eq!((after.allergens, after.vegan), (None, None));
}

#[test]
fn salt_makes_sodium_unknown_and_keeps_saturates() {
    let butter = built_in("butter-82");
    let mut form = form_of(&butter);
    let water = typed(round_half_up(grams(&butter, Component::Water) - 1.5, 6), DecimalSign::Comma);
    type_part(&mut form, Component::Water, &water);
    type_part(&mut form, Component::Salt, "1,5");
    let after = used(&form).properties;
    assert!(butter.properties.saturates_g.is_some() && butter.properties.energy_kj.is_some());
    assert_eq!(after.saturates_g, butter.properties.saturates_g);
    // Neither salt nor water brings energy (Regulation (EU) 1169/2011, Annex XIV).
    assert_eq!(after.energy_kj, butter.properties.energy_kj);
    assert_eq!(after.sodium_mg, None);
}

#[test]
fn another_kind_of_fat_is_no_guess_and_changes_the_saturates() {
    let paste = built_in("hazelnut-paste");
    let mut form = form_of(&paste);
    form.fields.other_fat_kind = OtherFatKind::Palm;
    form.fields.other_fat_kind_is_estimate = false;
    let after = used(&form);
    assert!(paste.properties.saturates_g.is_some());
    assert_eq!((after.other_fat_kind, after.other_fat_kind_is_estimate), (OtherFatKind::Palm, false));
    assert_eq!((after.properties.saturates_g, after.evidence), (None, Evidence::Supplier));
    assert_eq!(after.properties.energy_kj, paste.properties.energy_kj);
}

#[test]
fn a_density_is_kept_typed_or_unknown() {
    let mut form = form_of(&built_in(CREAM));
    let before = form.before().properties.density.expect("the check needs one that has it");
    assert_eq!(form.density_text(), typed(before.0, DecimalSign::Point));
    form.fields.density = Some("1,01".to_owned());
    assert_eq!(used(&form).properties.density, Some(GramsPerMillilitre(1.01)));
    form.fields.density = Some(String::new());
    assert_eq!(used(&form).properties.density, None);
    for text in ["0", "-1", "thick"] {
        form.fields.density = Some(text.to_owned());
        assert!(form.why_not().is_some_and(|reason| reason.starts_with("density: ")), "{text}");
    }
    // That of the old composition is not shown for the new one, but one that is typed holds.
    let mut form = with_more_fat();
    assert_eq!(form.density_text(), "");
    form.fields.density = Some("0.98".to_owned());
    assert_eq!(used(&form).properties.density, Some(GramsPerMillilitre(0.98)));
    assert_eq!(form.lost_properties(), ["energy", "saturates"]);
}

#[test]
fn ids_are_unique_within_the_recipe() {
    let own = |id: &str| Arc::new(Ingredient { id: id.to_owned(), ..used(&with_more_fat()) });
    let (cream, first) = (built_in(CREAM), own("cream-35-own"));
    let id = |form: &Entered, others: &[Arc<Ingredient>]| {
        let mut recipe = recipe_of(&[Arc::clone(form.before())]);
        for other in others {
            recipe.push(Arc::clone(other), Quantity::default());
        }
        form.ingredient(&recipe).expect("it can be used").id
    };
    let form = with_more_fat();
    assert_eq!(id(&form, &[]), "cream-35-own");
    assert_eq!(id(&form, &[Arc::clone(&cream)]), "cream-35-own");
    assert_eq!(id(&form, &[Arc::clone(&first)]), "cream-35-own-2");
    assert_eq!(id(&form, &[Arc::clone(&first), own("cream-35-own-2")]), "cream-35-own-3");
    // An own ingredient keeps its id, unless another line has the figures that it had.
    let mut again = form_of(&first);
    again.fields.note = "from the second delivery on".to_owned();
    assert_eq!(id(&again, &[]), "cream-35-own");
    assert_eq!(id(&again, &[Arc::clone(&first)]), "cream-35-own-2");
    // One that the recipe carries along and no line uses counts too.
    let mut recipe = recipe_of(&[cream]);
    recipe.spare_ingredients.push(first);
    assert_eq!(form.ingredient(&recipe).expect("it can be used").id, "cream-35-own-2");
}

#[test]
fn the_id_of_a_new_ingredient_comes_from_its_name() {
    for (name, id) in
        [("Crème fraîche, 40 %", "creme-fraiche-40-own"), ("  ", ""), ("Ñandú", "nandu-own"), ("栗", "ingredient-own")]
    {
        let mut form = Entered::new_ingredient(DecimalSign::Point);
        form.fields.name = name.to_owned();
        type_part(&mut form, Component::Water, "100");
        let made = form.ingredient(&Recipe::default());
        assert_eq!(made.map(|made| made.id).unwrap_or_default(), id, "{name}");
    }
}

#[test]
fn a_number_at_the_end_of_an_id_is_part_of_it_unless_own_stands_before() {
    for (id, expected) in [
        ("cream-35", "cream-35"),
        ("cream-35-own", "cream-35"),
        ("cream-35-own-2", "cream-35"),
        ("cream-35-own-12", "cream-35"),
        ("own", "own"),
        ("cream-own2", "cream-own2"),
    ] {
        assert_eq!(stem(id), expected);
    }
}

#[test]
fn an_own_ingredient_shows_its_source_and_note_to_be_changed() {
    let mut form = with_more_fat();
    form.fields.source = "data sheet".to_owned();
    form.fields.note = "thick".to_owned();
    let own = Arc::new(used(&form));
    let mut again = form_of(&own);
    assert_eq!((again.fields.source.as_str(), again.fields.note.as_str()), ("data sheet", "thick"));
    again.fields.note.clear();
    let after = used(&again);
    assert_eq!((after.note.as_str(), after.source.as_str()), ("", "data sheet"));
}
