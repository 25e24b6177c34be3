//! Random recipes: those of a kitchen, and those that nobody would write.

use std::sync::Arc;

use nibwright::ingredient::{Component, Ingredient, Library};
use nibwright::recipe::{
    Bowl, BowlMaterial, CocoaButter, CookTemperature, Evaporation, FatState, Heating, Height, Kind, MixTemperature,
    Mixing, Recipe, StirringTime, TransferLoss, Triglycerides, Use,
};
use nibwright::units::{Celsius, MassFraction, Metres};
use proptest::prelude::*;

use crate::support::{grams, own_with};

/// The built-in ingredients, and at the end three of which much, the water or everything is not known.
pub(super) fn shelf() -> Vec<Arc<Ingredient>> {
    let open = own_with("open", &[(Component::Water, 20.0)], &[Component::OtherFat, Component::Salt], 0.0);
    let moist = own_with("moist", &[(Component::Sucrose, 60.0)], &[Component::Water, Component::Fibre], 0.0);
    let nothing = Arc::new(Ingredient::unknown("nothing", "Nothing known"));
    Library::built_in().iter().cloned().chain([open, moist, nothing]).collect()
}

/// An ingredient by its place on the shelf; those that are not known are rare.
pub(super) fn any_ingredient() -> impl Strategy<Value = Arc<Ingredient>> {
    let shelf = shelf();
    let known = Library::built_in().iter().count();
    prop_oneof![
        10 => 0..known,
        // What sets and what holds water, so that most recipes have something to say.
        15 => prop::sample::select(vec![
            "couverture-dark-64", "couverture-milk-40", "couverture-white-33", "cocoa-butter", "cream-35", "butter-82",
            "milk-whole", "hazelnut-paste", "praline-hazelnut-60", "coconut-cream", "filling-fat-palm-free",
            "glucose-syrup-de40", "invert-syrup", "sucrose", "passion-fruit-puree", "rum-40", "glycerol", "egg-yolk",
        ])
        .prop_map(|id| Library::built_in().iter().position(|ingredient| ingredient.id == id).expect("built in")),
        1 => known..shelf.len(),
    ]
    .prop_map(move |idx| Arc::clone(&shelf[idx]))
}

/// Grams as a kitchen weighs them.
pub(super) fn kitchen_amount() -> impl Strategy<Value = f64> {
    prop_oneof![1 => Just(0.0), 8 => 1.0..800.0, 2 => 0.01..5.0]
}

/// Grams that no kitchen weighs, too.
pub(super) fn any_amount() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => kitchen_amount(),
        1 => Just(0.0),
        1 => Just(1e-6),
        1 => Just(1e8),
        1 => (-6.0..8.0).prop_map(|exponent: f64| 10.0_f64.powf(exponent)),
    ]
}

pub(super) fn any_cocoa_butter() -> impl Strategy<Value = CocoaButter> {
    let figure = || prop_oneof![1 => Just(0.0), 3 => 0.0..50.0];
    let own = (prop::array::uniform5(figure()), 0.5..50.0, 0.0..4.0, 0.0..4.0).prop_map(
        |([pop, pos, sos, soa, trisaturated], other, diglycerides_percent, free_fatty_acids_percent)| {
            let analysis = Triglycerides {
                pop,
                pos,
                sos,
                soa,
                trisaturated,
                other,
                diglycerides_percent,
                free_fatty_acids_percent,
            };
            CocoaButter::Own(analysis.checked().expect("an analysis"))
        },
    );
    prop_oneof![3 => prop::sample::select(CocoaButter::NAMED.to_vec()), 1 => own]
}

pub(super) fn recipe_with(
    amount: impl Strategy<Value = f64> + Clone,
    evaporation: impl Strategy<Value = Evaporation>,
    most_lines: usize,
) -> impl Strategy<Value = Recipe> {
    let kind = prop_oneof![3 => Just(Kind::Ganache), 4 => prop::sample::select(Kind::ALL.to_vec())];
    let intended_use = prop::option::of(prop::sample::select(Use::ALL.to_vec()));
    let lines = prop::collection::vec((any_ingredient(), amount, prop::bool::weighted(0.1)), 0..=most_lines);
    (kind, intended_use, any_cocoa_butter(), lines, evaporation, prop_oneof![Just(0.0), 0.0..0.999]).prop_map(
        |(kind, intended_use, cocoa_butter, lines, evaporation, transfer)| {
            let mut recipe = Recipe { kind, intended_use, cocoa_butter, ..Recipe::default() };
            for (ingredient, amount, is_locked) in lines {
                recipe.push(ingredient, grams(amount));
                if let Some(line) = recipe.lines.last_mut() {
                    line.is_locked = is_locked;
                }
            }
            recipe.losses.evaporation = evaporation;
            recipe.losses.transfer = TransferLoss::new(MassFraction(transfer)).expect("below 1");
            recipe
        },
    )
}

/// The same recipe with lines that have temperatures, in any state, perhaps in a bowl, perhaps with a wanted end.
pub(super) fn with_temperatures(recipe: impl Strategy<Value = Recipe>) -> impl Strategy<Value = Recipe> {
    let celsius = || prop_oneof![2 => prop::sample::select(vec![4.0, 20.0, 45.0, 85.0]), 1 => 0.0..=110.0_f64];
    let temperature = move || celsius().prop_map(|celsius| MixTemperature::new(Celsius(celsius)).expect("a start"));
    let state = prop_oneof![5 => Just(FatState::ByTemperature), 2 => prop::sample::select(FatState::ALL.to_vec())];
    let line = (prop::option::weighted(0.7, temperature()), state);
    let bowl = (prop::sample::select(BowlMaterial::ALL.to_vec()), 10.0..2000.0_f64, temperature())
        .prop_map(|(material, mass, temperature)| Bowl { material, mass: grams(mass), temperature });
    let mixing = (prop::option::of(temperature()), prop::option::weighted(0.3, bowl));
    (recipe, prop::collection::vec(line, 9), mixing).prop_map(|(mut recipe, starts, (wanted, bowl))| {
        for (line, (temperature, state)) in recipe.lines.iter_mut().zip(starts) {
            line.temperature = temperature;
            line.fat_state = state;
        }
        // What is stirred in the open cools the slower, the more there is of it: it has tests of its own.
        recipe.mixing = Mixing { wanted, bowl, stirred: StirringTime::default() };
        recipe
    })
}

pub(super) fn cooked_to(celsius: f64, metres: f64) -> Evaporation {
    let temperature = CookTemperature::new(Celsius(celsius)).expect("a temperature");
    Evaporation::CookedTo { temperature, height: Height::new(Metres(metres)).expect("a height") }
}

/// An estimate, or a cook to any temperature at any height.
pub(super) fn any_computed_evaporation() -> impl Strategy<Value = Evaporation> {
    let height = || prop_oneof![2 => Just(0.0), 1 => -430.0..=5100.0];
    prop_oneof![
        1 => prop::sample::select(Heating::ALL.to_vec()).prop_map(Evaporation::Estimated),
        3 => (100.0..150.0, height()).prop_map(|(celsius, metres)| cooked_to(celsius, metres)),
        1 => (0.0..=200.0, height()).prop_map(|(celsius, metres)| cooked_to(celsius, metres)),
    ]
}

/// A recipe that a kitchen could write.
pub(super) fn kitchen_recipe() -> impl Strategy<Value = Recipe> {
    let evaporation = prop_oneof![
        3 => Just(Evaporation::default()),
        1 => (0.0..300.0).prop_map(|amount| Evaporation::Weighed(grams(amount))),
        1 => any_computed_evaporation(),
    ];
    let recipe = recipe_with(kitchen_amount().boxed(), evaporation, 9).boxed();
    prop_oneof![1 => recipe.clone(), 1 => with_temperatures(recipe)]
}

/// A recipe that nobody would write.
pub(super) fn any_recipe() -> impl Strategy<Value = Recipe> {
    let evaporation = prop_oneof![
        2 => Just(Evaporation::default()),
        2 => any_amount().prop_map(|amount| Evaporation::Weighed(grams(amount))),
        1 => Just(Evaporation::Weighed(grams(1e9))),
        2 => any_computed_evaporation(),
    ];
    let recipe = recipe_with(any_amount().boxed(), evaporation, 9).boxed();
    prop_oneof![1 => recipe.clone(), 1 => with_temperatures(recipe)]
}

pub(super) fn any_temperature() -> impl Strategy<Value = Celsius> {
    prop_oneof![2 => Just(20.0), 2 => 0.0..45.0, 1 => -60.0..250.0].prop_map(Celsius)
}
