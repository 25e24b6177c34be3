//! What is saved comes back: random recipes, and the layout of the text.

use std::sync::Arc;

use nibwright::ingredient::{
    Component, Composition, Ingredient, Library, MaltoseKind, OtherFatKind, PolyolKind, Properties,
};
use nibwright::recipe::{
    Air, Base, Bowl, BowlMaterial, CocoaButter, CookTemperature, CreamShare, Evaporation, FatState, Heating, Height,
    Humidity, Kind, Line, LineId, Losses, MassUnit, MixTemperature, Mixing, Ph, Piece, PlaceTemperature, Quantity,
    Recipe, SeedTemperature, SeedingChoice, SeedingWay, Setting, Shell, Size, Step, StirringTime, Storage,
    TransferLoss, Triglycerides, Use,
};
use nibwright::source::Evidence;
use nibwright::store::format::{read, write};
use nibwright::units::{Celsius, GramsPerMillilitre, Metres};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Every field by itself, any text, any amount that is one.
fn recipes() -> impl Strategy<Value = Recipe> {
    let own = vec(own_ingredient(), 0..4).prop_map(|mut own| {
        for (index, ingredient) in own.iter_mut().enumerate() {
            ingredient.id = format!("own-{index}");
        }
        own.into_iter().map(Arc::new).collect::<Vec<_>>()
    });
    let line = (
        any::<prop::sample::Index>(),
        option::weighted(0.1, "[a-zé/ ]{1,9}"),
        quantity(),
        any::<String>(),
        (any::<bool>(), any::<bool>()),
        (option::of(mix_temperature()), select(&FatState::ALL[..])),
    );
    let loss = prop_oneof![Just(0.0), 0.0..100.0_f64, (0..999_u32).prop_map(|tenths| f64::from(tenths) / 10.0)];
    let step = (any::<String>(), option::of(-273.15..2000.0_f64), option::of(0.0..1e6_f64));
    (
        (any::<String>(), select(&Kind::ALL[..]), option::of(select(&Use::ALL[..])), cocoa_butter(), any::<String>()),
        (own, vec(line, 0..8)),
        (
            evaporation(),
            loss,
            mixing(),
            option::of(0.0..=14.0_f64),
            seeding(),
            option::of(any::<u32>()),
            vec(step, 0..3),
        ),
        (option::of(setting()), storage()),
    )
        .prop_map(
            |(
                (name, kind, intended_use, cocoa_butter, note),
                (own, lines),
                (evaporation, percent, mixing, ph, seeding, pieces, steps),
                (setting, storage),
            )| {
                let shelf: Vec<_> = own.iter().chain(Library::built_in().iter()).cloned().collect();
                let mut spare_ingredients = own;
                let lines: Vec<Line> = (0..)
                    .zip(lines)
                    .map(|(number, (index, recipe, amount, note, (is_locked, is_seed), (temperature, fat_state)))| {
                        // A third of the lines take an own ingredient, if there is one.
                        let place = index.index(shelf.len() * 3 / 2) % shelf.len();
                        let recipe_file = recipe.map(|stem| format!("{stem}.x.ron"));
                        let ingredient = match &recipe_file {
                            Some(file) => {
                                let stem = file.rsplit('/').next().unwrap_or_default().trim_end_matches(".ron");
                                Arc::new(Ingredient::unknown(stem, stem))
                            }
                            None => shelf[place].clone(),
                        };
                        Line {
                            id: LineId(number),
                            ingredient,
                            recipe_file,
                            amount,
                            note,
                            is_locked,
                            is_seed,
                            temperature,
                            fat_state,
                        }
                    })
                    .collect();
                // A shell of an own chocolate, an own one of no line, or a built-in one.
                let (storage, shell) = storage;
                let shell = shell.map(|(index, thickness): (prop::sample::Index, Size)| Shell {
                    chocolate: shelf[index.index(shelf.len())].clone(),
                    thickness,
                });
                let storage = Storage { shell, ..storage };
                let in_shell = storage.shell.iter().map(|shell| &shell.chocolate);
                let used: Vec<_> = lines.iter().map(|line| &line.ingredient).chain(in_shell).collect();
                spare_ingredients.retain(|spare| !used.iter().any(|used| Arc::ptr_eq(used, spare)));
                Recipe {
                    name,
                    kind,
                    intended_use,
                    cocoa_butter,
                    note,
                    lines,
                    losses: Losses { evaporation, transfer: TransferLoss::from_percent(percent).expect("below 100 %") },
                    mixing,
                    ph: ph.map(|ph| Ph::new(ph).expect("a pH")),
                    seeding,
                    pieces,
                    steps: steps
                        .into_iter()
                        .map(|(text, celsius, minutes)| Step { text, temperature: celsius.map(Celsius), minutes })
                        .collect(),
                    setting,
                    storage,
                    spare_ingredients,
                }
            },
        )
}

fn mix_temperature() -> impl Strategy<Value = MixTemperature> {
    prop_oneof![Just(85.0), 0.0..=110.0_f64].prop_map(|celsius| MixTemperature::new(Celsius(celsius)).expect("a start"))
}

fn mixing() -> impl Strategy<Value = Mixing> {
    let bowl = (select(&BowlMaterial::ALL[..]), quantity(), mix_temperature())
        .prop_map(|(material, mass, temperature)| Bowl { material, mass, temperature });
    let stirred = prop_oneof![Just(0.0), 0.0..=120.0_f64];
    (option::of(mix_temperature()), option::of(bowl), stirred).prop_map(|(wanted, bowl, minutes)| Mixing {
        wanted,
        bowl,
        stirred: StirringTime::new(minutes).expect("a time"),
    })
}

fn warmth() -> impl Strategy<Value = PlaceTemperature> {
    (0.0..=60.0_f64).prop_map(|celsius| PlaceTemperature::new(Celsius(celsius)).expect("a temperature"))
}

fn size() -> impl Strategy<Value = Size> {
    (0.5..=300.0_f64).prop_map(|millimetres| Size::from_millimetres(millimetres).expect("a length"))
}

fn setting() -> impl Strategy<Value = Setting> {
    let piece = prop_oneof![
        (size(), select(&Base::ALL[..])).prop_map(|(thickness, base)| Piece::Frame { thickness, base }),
        size().prop_map(|thickness| Piece::Bar { thickness }),
        size().prop_map(|diameter| Piece::HalfSphere { diameter }),
        (size(), size()).prop_map(|(diameter, height)| Piece::Cup { diameter, height }),
        size().prop_map(|diameter| Piece::Ball { diameter }),
        size().prop_map(|thickness| Piece::Coat { thickness }),
        Just(Piece::Bowl),
    ];
    (piece, option::of(warmth()), warmth(), select(&Air::ALL[..]))
        .prop_map(|(piece, start, surroundings, air)| Setting { piece, start, surroundings, air })
}

fn storage() -> impl Strategy<Value = (Storage, Option<(prop::sample::Index, Size)>)> {
    let humidity = (0.5..=100.0_f64).prop_map(|percent| Humidity::from_percent(percent).expect("a humidity"));
    let said =
        (warmth(), warmth(), humidity).prop_map(|(at, room, humidity)| Storage { at, room, humidity, shell: None });
    (prop_oneof![Just(Storage::default()), said], option::of((any::<prop::sample::Index>(), size())))
}

fn seeding() -> impl Strategy<Value = SeedingChoice> {
    // As typed: a percentage comes back exactly, any other share is at most one unit in its last place off.
    let share = prop_oneof![Just(20.0), (50..=500_u32).prop_map(|tenths| f64::from(tenths) / 10.0)];
    (select(&SeedingWay::ALL[..]), share, option::of(quantity()), option::of(0.0..=60.0_f64)).prop_map(
        |(way, percent, amount, celsius)| SeedingChoice {
            way,
            cream: CreamShare::from_percent(percent).expect("a cream"),
            amount,
            temperature: celsius.map(|celsius| SeedTemperature::new(Celsius(celsius)).expect("a temperature")),
        },
    )
}

fn evaporation() -> impl Strategy<Value = Evaporation> {
    let cook = (0.0..=200.0_f64, prop_oneof![Just(0.0), -430.0..=5100.0_f64]).prop_map(|(celsius, metres)| {
        let temperature = CookTemperature::new(Celsius(celsius)).expect("a temperature");
        Evaporation::CookedTo { temperature, height: Height::new(Metres(metres)).expect("a height") }
    });
    let estimated = select(&Heating::ALL[..]).prop_map(Evaporation::Estimated);
    prop_oneof![quantity().prop_map(Evaporation::Weighed), estimated, cook]
}

fn quantity() -> impl Strategy<Value = Quantity> {
    let value = prop_oneof![Just(0.0), (0..100_000_u32).prop_map(f64::from), 0.0..1e5_f64, 0.0..1e-300_f64];
    (value, select(&MassUnit::ALL[..])).prop_map(|(value, unit)| Quantity::new(value, unit).expect("an amount"))
}

fn cocoa_butter() -> impl Strategy<Value = CocoaButter> {
    let own = prop::array::uniform8(0.001..40.0_f64).prop_map(|figures| {
        let [pop, pos, sos, soa, trisaturated, other, diglycerides_percent, free_fatty_acids_percent] = figures;
        let analysis =
            Triglycerides { pop, pos, sos, soa, trisaturated, other, diglycerides_percent, free_fatty_acids_percent };
        CocoaButter::Own(analysis.checked().expect("an analysis"))
    });
    prop_oneof![select(&CocoaButter::NAMED[..]), own]
}

/// An ingredient with some parts unknown and some properties.
fn own_ingredient() -> impl Strategy<Value = Ingredient> {
    let figure = || option::of(0.0..5000.0_f64);
    (
        (
            any::<String>().prop_filter("a name", |name| !name.trim().is_empty()),
            any::<String>(),
            any::<String>(),
            select(nibwright::ingredient::Category::ALL),
        ),
        (vec(0.0..10.0_f64, Component::COUNT), vec(any::<bool>(), Component::COUNT), 0.0..20.0_f64),
        (any::<bool>(), select(&OtherFatKind::ALL[..]), any::<bool>(), select(&Evidence::ALL[..])),
        (figure(), figure(), figure(), figure(), figure(), option::of(0.001..5.0_f64)),
        (
            (option::of(select(&PolyolKind::ALL[..])), select(&MaltoseKind::ALL[..])),
            option::of(vec(any::<String>(), 0..3)),
            option::of(any::<bool>()),
            figure(),
            figure(),
        ),
    )
        .prop_map(|((name, source, note, category), parts, (globules, fat_kind, is_estimate, evidence), a, b)| {
            Ingredient {
                category,
                composition: composition(parts),
                fat_in_globules: globules,
                other_fat_kind: fat_kind,
                other_fat_kind_is_estimate: is_estimate,
                properties: Properties {
                    saturates_g: a.0,
                    energy_kj: a.1,
                    organic_acids_g: a.2,
                    sodium_mg: a.3,
                    higher_saccharides_molar_mass: a.4,
                    density: a.5.map(GramsPerMillilitre),
                    polyol_kind: b.0.0,
                    maltose_kind: b.0.1,
                    allergens: b.1,
                    vegan: b.2,
                    ph: b.3,
                    dextrose_equivalent: b.4,
                },
                source_id: source.chars().rev().collect(),
                source,
                evidence,
                note,
                ..Ingredient::unknown("", &name)
            }
        })
}

fn composition((figures, unknown, unassigned): (Vec<f64>, Vec<bool>, f64)) -> Composition {
    let unknown: Vec<Component> = Component::ALL
        .into_iter()
        .zip(unknown)
        .filter_map(|(component, is_unknown)| is_unknown.then_some(component))
        .collect();
    let mut parts: Vec<(Component, f64)> = Component::ALL
        .into_iter()
        .zip(figures)
        .filter(|(component, _)| !unknown.contains(component))
        .map(|(component, grams)| (component, grams / 10.0))
        .collect();
    if unknown.is_empty() {
        let sum: f64 = parts.iter().map(|(_, grams)| grams).sum();
        parts[0].1 += 100.0 - unassigned - sum;
    }
    Composition::new(parts, unknown, unassigned).expect("it closes, or something is unknown")
}

proptest! {
    #[test]
    fn what_is_saved_comes_back(recipe in recipes()) {
        let text = write(&recipe).expect("it can be written");
        // No library: the file carries everything.
        let again = read(&text, &Library::default()).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(&again, &recipe);
        prop_assert_eq!(write(&again).expect("it can be written"), text);
    }
}

fn own(id: &str, water: f64) -> Arc<Ingredient> {
    let composition = Composition::new([(Component::Water, water), (Component::Sucrose, 100.0 - water)], [], 0.0);
    Arc::new(Ingredient { composition: composition.expect("it closes"), ..Ingredient::unknown(id, "Syrup") })
}

fn grams(value: f64) -> Quantity {
    Quantity::from_grams(value).expect("an amount")
}

#[test]
fn the_text_has_one_line_for_each_line_of_the_recipe() {
    let mut recipe = Recipe {
        name: "Two \"syrups\"".to_owned(),
        intended_use: Some(Use::Cut),
        note: "First\nsecond".to_owned(),
        ..Recipe::default()
    };
    recipe.push(own("thin", 70.0), grams(100.0));
    recipe.push(own("thick", 20.25), Quantity::new(0.1, MassUnit::Kilogram).expect("an amount"));
    recipe.lines[1].is_locked = true;
    recipe.losses.transfer = TransferLoss::from_percent(2.3).expect("below 100 %");
    assert_eq!(
        write(&recipe).expect("it can be written"),
        r#"(
    format: 1,
    name: "Two \"syrups\"",
    kind: other,
    use: cut,
    cocoa_butter: west_african,
    note: "First\nsecond",
    lines: [
        (ingredient: "thin", amount: 100),
        (ingredient: "thick", amount: 0.1, unit: kg, locked: true),
    ],
    transfer_loss_percent: 2.3,
    ingredients: [
        (id: "thin", name: "Syrup", category: own, composition: (water: 70.0, sucrose: 30.0), other_fat_kind_is_estimate: true, evidence: typical),
        (id: "thick", name: "Syrup", category: own, composition: (water: 20.25, sucrose: 79.75), other_fat_kind_is_estimate: true, evidence: typical),
    ],
)
"#
    );
}

#[test]
fn two_ingredients_with_one_id_are_kept_apart() {
    let mut recipe = Recipe::default();
    for (id, water) in
        [("syrup", 70.0), ("syrup", 60.0), ("syrup-2", 50.0), ("", 40.0), ("syrup", 60.0), ("syrup", 30.0)]
    {
        recipe.push(own(id, water), grams(water));
    }
    recipe.spare_ingredients = vec![own("syrup", 20.0), own("syrup", 70.0)];
    let text = write(&recipe).expect("it can be written");
    let again = read(&text, &Library::default()).expect("it opens");
    let ids: Vec<&str> = again.lines.iter().map(|line| line.ingredient.id.as_str()).collect();
    assert_eq!(ids, ["syrup", "syrup-3", "syrup-2", "ingredient", "syrup-3", "syrup-4"]);
    for (before, after) in recipe.lines.iter().zip(&again.lines) {
        assert_eq!(before.ingredient.composition, after.ingredient.composition);
    }
    assert_eq!(again.spare_ingredients.len(), 1, "the other spare one is in use");
    assert_eq!(again.spare_ingredients[0].composition, recipe.spare_ingredients[0].composition);
    assert_eq!(write(&recipe).expect("it can be written"), text, "the same every time");
}

#[test]
fn an_id_that_is_none_is_made_one_when_it_is_saved() {
    let mut recipe = Recipe::default();
    for (id, water) in [("Base v2", 70.0), ("base-v2", 60.0), ("Crème!", 50.0)] {
        recipe.push(own(id, water), grams(water));
    }
    let again = read(&write(&recipe).expect("it can be written"), &Library::default()).expect("it opens");
    let ids: Vec<&str> = again.lines.iter().map(|line| line.ingredient.id.as_str()).collect();
    assert_eq!(ids, ["base-v2-2", "base-v2", "creme"]);
    for (before, after) in recipe.lines.iter().zip(&again.lines) {
        assert_eq!(before.ingredient.composition, after.ingredient.composition);
    }
}

/// A terminal would obey them.
#[test]
fn names_lose_their_control_characters_when_they_are_read() {
    let text = r#"(format: 1, name: "Dark\u{1b}[31m\r\ncut", lines: [
        (ingredient: "own", amount: 1), (recipe: "a\u{7}b.ron", amount: 1),
    ], ingredients: [(id: "own", name: "\u{1b}]0;Cream\u{9b}", composition: (water: 100))])"#;
    let recipe = read(text, &Library::default()).expect("it opens");
    assert_eq!(recipe.name, "Dark [31m cut");
    let names: Vec<&str> = recipe.lines.iter().map(|line| line.ingredient.name.as_str()).collect();
    assert_eq!(names, ["]0;Cream", "a b"]);
}

#[test]
fn numbers_of_lines_begin_at_zero_after_loading() {
    let mut recipe = Recipe::default();
    for _ in 0..3 {
        recipe.push(own("syrup", 70.0), grams(1.0));
    }
    recipe.lines.remove(0);
    let again = read(&write(&recipe).expect("it can be written"), &Library::default()).expect("it opens");
    assert_eq!(again.lines.iter().map(|line| line.id.0).collect::<Vec<_>>(), [0, 1]);
}
