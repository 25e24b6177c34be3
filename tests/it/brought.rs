//! Which line brings what: shares of the parts of the phase bar and of the volumes of an emulsion.
//!
//! The shares follow the models: what a line brings to a part is what the model puts there.

use std::sync::Arc;

use approx::assert_abs_diff_eq;
use nibwright::analysis::{ROOM, emulsion, phase_bar};
use nibwright::ingredient::{Component, Ingredient};
use nibwright::recipe::Recipe;

use crate::support::{analysis_of, evaporating, own, recipe_of};

fn pure(component: Component) -> Arc<Ingredient> {
    own(component.key(), &[(component, 100.0)])
}

/// What each line brings to the bar at room temperature.
fn of_bar(recipe: &Recipe) -> Vec<phase_bar::Brought> {
    let make_up = analysis_of(recipe).make_up;
    let lines = make_up.lines.iter().map(|line| make_up.left_of(line).expect("water is known"));
    lines.map(|line| phase_bar::brought_by(&line, &make_up.bowl, ROOM).expect("all is known")).collect()
}

/// What each line brings to the volumes of the emulsion.
fn of_volumes(recipe: &Recipe) -> Vec<emulsion::Brought> {
    let make_up = analysis_of(recipe).make_up;
    let lines = make_up.lines.iter().map(|line| make_up.left_of(line).expect("water is known"));
    lines.map(|line| emulsion::brought_by(&line, &make_up.bowl).expect("an emulsion")).collect()
}

/// Dry, all sugars and polyols are the sugar of the bar: 30 g of sucrose, 6 g of lactose, 4 g of polyols.
#[test]
fn in_a_fat_continuous_mass_every_sweet_line_brings_sugar() {
    let mass = recipe_of(&[
        (pure(Component::CocoaButter), 60.0),
        (pure(Component::Sucrose), 30.0),
        (pure(Component::Lactose), 6.0),
        (pure(Component::Polyols), 4.0),
        (pure(Component::Salt), 1.0),
    ]);
    let brought = of_bar(&mass);
    for (line, share) in brought.iter().zip([0.0, 0.75, 0.15, 0.1, 0.0]) {
        assert_abs_diff_eq!(line.undissolved_sugar.0, share, epsilon = 1e-12);
    }
    assert_abs_diff_eq!(brought[4].other_particles.0, 1.0, epsilon = 1e-12);
}

/// Glucose syrup, polyols, salt and minerals are syrup; protein, starch and fibre are particles.
#[test]
fn what_dissolves_brings_syrup_and_no_particles() {
    let dissolving = [Component::HigherSaccharides, Component::Polyols, Component::Salt, Component::MilkMinerals];
    let mut lines =
        vec![(pure(Component::Water), 50.0), (pure(Component::Fibre), 5.0), (pure(Component::Starch), 15.0)];
    lines.extend(dissolving.map(|component| (pure(component), 10.0)));
    let brought = of_bar(&recipe_of(&lines));
    // 5 g of fibre and 15 g of starch, each with the water that it holds.
    assert_abs_diff_eq!((brought[1].other_particles + brought[2].other_particles).0, 1.0, epsilon = 1e-12);
    assert_abs_diff_eq!(brought[1].other_particles.0, 0.25, epsilon = 0.02);
    for line in &brought[3..] {
        assert_abs_diff_eq!(line.other_particles.0, 0.0, epsilon = 1e-12);
        // 10 of 90 g less the water that the particles hold.
        assert!(line.syrup.0 > 1.0 / 9.0 && line.syrup.0 < 1.0 / 7.0, "{line:?}");
    }
}

/// By hand: 58 g of water, 60 g of sucrose and 3 g of lactose fill 97.46 ml, of these 58.10, 37.54 and 1.82 ml.
#[test]
fn a_line_brings_to_the_water_phase_the_volume_that_it_takes_there() {
    let lines = [(Component::Water, 58.0), (Component::Sucrose, 60.0), (Component::Lactose, 3.0)];
    let brought = of_volumes(&recipe_of(&lines.map(|(component, amount)| (pure(component), amount))));
    for (line, share) in brought.iter().zip([58.10, 37.54, 1.82]) {
        assert_abs_diff_eq!(line.water_phase.0, share / 97.46, epsilon = 1e-4);
    }
}

/// Particles, by volume: 29 g of cocoa, of nut protein, of starch are 20 ml each (1.45 g/ml); milk protein is none.
#[test]
fn all_particles_are_lit_and_milk_protein_is_not() {
    let particles = [Component::FatFreeCocoaSolids, Component::OtherProtein, Component::Starch];
    let mut lines = vec![(pure(Component::Water), 100.0), (pure(Component::MilkProtein), 5.0)];
    lines.extend(particles.map(|component| (pure(component), 29.0)));
    let brought = of_volumes(&recipe_of(&lines));
    for (line, share) in brought.iter().zip([0.0, 0.0, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0]) {
        assert_abs_diff_eq!(line.insoluble.0, share, epsilon = 1e-12);
    }
    assert!(brought[1].water_phase.0 > 0.03, "{:?}", brought[1]);
}

/// Sucrose that does not dissolve at 40 °C is particles, at 1.587 g/ml, and each sucrose has its part of both.
#[test]
fn undissolved_sugar_is_particles_of_the_lines_that_bring_it() {
    let sugar = || pure(Component::Sucrose);
    let mass = recipe_of(&[(pure(Component::Water), 50.0), (sugar(), 100.0), (sugar(), 300.0)]);
    let brought = of_volumes(&mass);
    assert_abs_diff_eq!(brought[1].insoluble.0, 0.25, epsilon = 1e-12);
    assert_abs_diff_eq!(brought[2].insoluble.0, 0.75, epsilon = 1e-12);
    assert_abs_diff_eq!(brought[2].water_phase.0, 3.0 * brought[1].water_phase.0, epsilon = 1e-12);
}

/// Of 90 g that evaporate from 100 and 200 g of water, 30 and 60 g are theirs.
#[test]
fn evaporation_takes_water_from_every_line_that_brings_it() {
    let mass = [(pure(Component::Water), 100.0), (pure(Component::Water), 200.0), (pure(Component::Glucose), 70.0)];
    let brought = of_bar(&evaporating(recipe_of(&mass), 90.0));
    for (line, share) in brought.iter().zip([70.0, 140.0, 70.0]) {
        assert_abs_diff_eq!(line.syrup.0, share / 280.0, epsilon = 1e-12);
    }
}
