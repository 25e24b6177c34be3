//! Figures computed apart, each with the tolerance of its source.

use super::*;
use crate::analysis::cooling::tests::series::{self, Shape};
use crate::analysis::heat::tests::{DARK, check, contents};
use crate::analysis::heat::{Contents, Substance};

/// A slab of 10 mm of ganache on an insulated face, 34 °C, in air of 17 °C and 10 W/(m² K).
fn framed_ganache() -> Body {
    slab(10.0, [0.0, 10.0], 17.0, material(1150.0, 0.30, 2.6))
}

/// Series with the specific heat 2.6 + 30/20, computed apart, within 0.01 K.
#[test]
fn heat_that_is_given_off_evenly_is_a_larger_specific_heat() {
    let solid = |heat, share| Solid { heat: JoulesPerGram(heat), share: MassFraction(share) };
    let nodes = vec![(Celsius(14.0), solid(30.0, 1.0)), (Celsius(34.0), solid(0.0, 0.0))];
    let even = Crystals::from_nodes(nodes, Rate::Equilibrium, MassFraction::ZERO).expect("crystals");
    let end = last(&course(&framed_ganache(), 34.0, &even, given(3600.0)));
    check("insulated face", end.centre.0, 25.987, 0.01);
    check("insulated face", end.faces[0].0, 25.987, 0.01);
    check("exposed face", end.surface.0, 24.675, 0.01);
    check("mean", end.mean.0, 25.545, 0.01);
}

/// Two independent numerical methods that agree to 0.001 K, within 0.03 K; 8312 s within 15 s.
#[test]
fn a_framed_ganache_crystallises_at_equilibrium() {
    let cocoa_butter = crystals(0.19, 0.0, Rate::Equilibrium, 1.0);
    let after_an_hour = last(&course(&framed_ganache(), 34.0, &cocoa_butter, given(3600.0)));
    check("insulated face", after_an_hour.centre.0, 26.886, 0.03);
    check("exposed face", after_an_hour.surface.0, 25.442, 0.03);
    check("mean", after_an_hour.mean.0, 26.400, 0.03);
    let whole = course(&framed_ganache(), 34.0, &cocoa_butter, given(12_000.0));
    check("20 °C", whole.time_to_mean(Celsius(20.0)).expect("reached").0 * 60.0, 8312.0, 15.0);
}

/// Two independent numerical methods, within 0.03 K and 0.001: a bar of 10 mm, τ 600 s, 2 % crystals at the start.
#[test]
fn a_bar_of_chocolate_crystallises_in_time() {
    let bar = slab(10.0, [20.0; 2], 12.0, material(1250.0, 0.25, 1.65));
    let at_start = Tables.solid(Fat::CocoaButter, Celsius(31.0)).0;
    let tempered = crystals(0.35, 0.0, Rate::Limited(Minutes(10.0)), 0.02 / at_start);
    let end = last(&course(&bar, 31.0, &tempered, given(600.0)));
    check("centre", end.centre.0, 26.573, 0.03);
    check("surface", end.surface.0, 24.143, 0.03);
    check("solid", end.solid.0, 0.3616, 0.001);
}

/// Closed forms of a body of one temperature: θ = (θ₀ − B)·e^(−t/t_c) + B·e^(−t/τ), B = (q/c)·t_c/(τ − t_c), within 0.001 K;
/// m·c_p/(h·A)·ln within 0.5 s.
#[test]
fn a_body_of_one_temperature_follows_its_closed_form() {
    let bowl = |millilitres, conductance, air| {
        let conductance = WattsPerKelvin(conductance);
        let geometry = Geometry::OneTemperature { volume: Millilitres(millilitres), conductance, air: Celsius(air) };
        move |material| Body::new(geometry, material).expect("a body")
    };
    // 1 kg of 1.65 J/(g K), time constant 600 s.
    let body = bowl(1000.0, 1650.0 / 600.0, 12.0)(material(1000.0, 0.3, 1.65));
    let all = Solid { heat: JoulesPerGram(45.0), share: MassFraction(1.0) };
    let growing = Crystals::from_nodes(vec![(Celsius(20.0), all)], Rate::Limited(Minutes(15.0)), MassFraction::ZERO);
    let end = last(&course(&body, 31.0, &growing.expect("crystals"), given(1200.0)));
    check("with heat", end.mean.0, 21.5675, 1e-3);
    check("solid", end.solid.0, 1.0 - (-1200.0_f64 / 900.0).exp(), 1e-4);
    let end = last(&course(&body, 31.0, &Crystals::none(), given(1200.0)));
    check("without heat", end.mean.0, 14.5714, 1e-3);
    let body = bowl(1500.0, 1.2, 20.0)(material(1000.0, 0.3, 2.6));
    let time = course(&body, 45.0, &Crystals::none(), Length::UntilSet).time_to_mean(Celsius(32.0));
    check("45 to 32 °C", time.expect("reached").0 * 60.0, 2385.4, 0.5);
}

/// The exact series without crystals, within 1e-3 of the first difference.
#[test]
fn without_crystals_it_is_the_series() {
    let (density, conductivity, specific_heat, length) = (1100.0, 0.3, 2.6, 0.01);
    let diffusivity = conductivity / (density * specific_heat * 1000.0);
    for biot in [0.05, 0.25, 1.0, 5.0] {
        for fourier in [0.1, 0.2, 0.5, 2.0, 10.0] {
            let coefficient = biot * conductivity / length;
            let of = || material(density, conductivity, specific_heat);
            for (shape, body) in [
                (Shape::Slab, slab(10.0, [0.0, coefficient], 10.0, of())),
                (Shape::Slab, slab(20.0, [coefficient; 2], 10.0, of())),
                (Shape::Sphere, sphere(20.0, coefficient, 10.0, of())),
            ] {
                let seconds = fourier * length * length / diffusivity;
                let end = last(&course(&body, 35.0, &Crystals::none(), given(seconds)));
                let exact = series::left(shape, biot, fourier).expect("in range");
                let theta = |at: Celsius| (at.0 - 10.0) / 25.0;
                check(&format!("centre {shape:?} {biot} {fourier}"), theta(end.centre), exact.centre, 1e-3);
                check(&format!("surface {shape:?} {biot} {fourier}"), theta(end.surface), exact.surface, 1e-3);
                check(&format!("mean {shape:?} {biot} {fourier}"), theta(end.mean), exact.mean, 1e-3);
            }
        }
    }
}

/// Two different faces, series of 5.3 computed apart: θ(0), θ(L), mean within 1e-3.
#[test]
fn two_different_faces_are_the_series() {
    for ([first, second], fourier, expected) in [
        ([0.1, 0.5], 0.5, [0.792_874, 0.661_746, 0.761_803]),
        ([0.0, 1.0], 0.5, [0.772_526, 0.504_522, 0.681_105]),
        ([0.05, 0.3], 1.0, [0.742_462, 0.659_797, 0.720_825]),
    ] {
        // 10 mm, 0.3 W/(m K): a Biot number of 1 is 30 W/(m² K).
        let body = slab(10.0, [first * 30.0, second * 30.0], 10.0, material(1100.0, 0.3, 2.6));
        let seconds = fourier * 1e-4 / (0.3 / (1100.0 * 2600.0));
        let end = last(&course(&body, 35.0, &Crystals::none(), given(seconds)));
        for (at, expected) in [end.faces[0], end.faces[1], end.mean].into_iter().zip(expected) {
            check("theta", (at.0 - 10.0) / 25.0, expected, 1e-3);
        }
    }
}

/// The Neumann solution of a front (Crank 1984, equation 3.14): 10 mm after the time, within 0.5 % with 100 cells.
#[test]
fn a_front_moves_with_the_root_of_time() {
    for (stefan, seconds) in [(0.1, 3966.4), (0.5, 888.8), (1.0, 499.4)] {
        // Latent 50 kJ/kg within 0.01 K below 40 °C, 1.6 J/(g K): the wall is colder by Ste·L/c.
        let wall = 40.0 - stefan * 50.0 / 1.6;
        let solid = |heat, share| Solid { heat: JoulesPerGram(heat), share: MassFraction(share) };
        let nodes = vec![(Celsius(39.99), solid(50.0, 1.0)), (Celsius(40.0), solid(0.0, 0.0))];
        let pure = Crystals::from_nodes(nodes, Rate::Equilibrium, MassFraction::ZERO).expect("crystals");
        let body = slab(20.0, [1e5, 0.0], wall, material(1200.0, 0.25, 1.6));
        let finer = Resolution { cells: 100, steps: 400 };
        let course = run_with(&body, Celsius(40.0), &pure, given(seconds), finer).expect("a course");
        check("front in mm", last(&course).solid.0 * 20.0, 10.0, 0.05);
        assert!(course.energy_error < 1e-10, "{}", course.energy_error);
    }
}

/// A slab of which only latent heat counts, 20 mm, 320 kJ/kg, 10 K, 25 W/(m² K): 23292 s at a Stefan number of 0.05,
/// enthalpy method computed apart, within 0.5 %; the estimate of Plank is 23040 s.
#[test]
fn a_slab_of_latent_heat_takes_as_long_as_plank_says() {
    let solid = |heat, share| Solid { heat: JoulesPerGram(heat), share: MassFraction(share) };
    let nodes = vec![(Celsius(29.99), solid(320.0, 1.0)), (Celsius(30.0), solid(0.0, 0.0))];
    let pure = Crystals::from_nodes(nodes, Rate::Equilibrium, MassFraction::ZERO).expect("crystals");
    let body = slab(20.0, [25.0; 2], 20.0, material(1200.0, 0.25, 1.6));
    let finer = Resolution { cells: 40, steps: 2000 };
    let course = run_with(&body, Celsius(30.0), &pure, given(30_000.0), finer).expect("a course");
    let time = course.time_to_solid(MassFraction(0.9999)).expect("frozen").0 * 60.0;
    check("time", time, 23_292.0, 120.0);
}

/// The constituents of a ganache of equal masses of cream and dark couverture.
const GANACHE: &[(Substance, f64)] = &[
    (Substance::CocoaButter, 0.1875),
    (Substance::MilkFat, 0.175),
    (Substance::DissolvedSugar, 0.192),
    (Substance::FatFreeCocoa, 0.13),
    (Substance::Water, 0.3025),
    (Substance::Protein, 0.0105),
    (Substance::Ash, 0.0025),
];

fn made_of(contents: &Contents, conductivity: f64) -> Material {
    let density = contents.density(Celsius(25.0));
    Material::new(density, WattsPerMetreKelvin(conductivity), |at| contents.specific_heat(at)).expect("a material")
}

/// Times in minutes until mean and hottest point are at 20 °C, computed apart: sensible, equilibrium, with a time
/// constant without crystals at the start; within 0.7 of the last digit.
#[track_caller]
fn check_times(what: &str, body: &Body, start: f64, of: impl Fn(Rate) -> Crystals, tau: f64, expected: [[f64; 2]; 3]) {
    let cases = [Crystals::none(), of(Rate::Equilibrium), of(Rate::Limited(Minutes(tau)))];
    for (crystals, expected) in cases.iter().zip(expected) {
        let course = course(body, start, crystals, Length::Given(Minutes(400.0)));
        let times = [course.time_to_mean(Celsius(20.0)), course.time_to_centre(Celsius(20.0))];
        for (time, expected) in times.into_iter().zip(expected) {
            check(&format!("{what} {:?}", crystals.rate), time.expect("reached").0, expected, 0.7);
        }
    }
}

#[test]
fn a_framed_ganache_takes_hours() {
    let contents = contents(100.0, GANACHE);
    for (millimetres, coefficient, times) in [
        (8.0, 8.0, [[88.0, 89.0], [133.0, 136.0], [146.0, 149.0]]),
        (8.0, 20.0, [[39.0, 40.0], [59.0, 61.0], [66.0, 69.0]]),
        (10.0, 8.0, [[111.0, 114.0], [169.0, 173.0], [183.0, 187.0]]),
        (10.0, 20.0, [[50.0, 53.0], [76.0, 80.0], [86.0, 90.0]]),
        (12.0, 8.0, [[136.0, 140.0], [207.0, 211.0], [221.0, 226.0]]),
        (12.0, 20.0, [[62.0, 66.0], [95.0, 100.0], [106.0, 112.0]]),
        (15.0, 8.0, [[174.0, 180.0], [264.0, 272.0], [280.0, 288.0]]),
        (15.0, 20.0, [[82.0, 88.0], [125.0, 132.0], [137.0, 146.0]]),
    ] {
        let body = slab(millimetres, [0.0, coefficient], 17.0, made_of(&contents, 0.31));
        let of = |rate| crystals(0.1875, 0.175, rate, 0.0);
        check_times(&format!("{millimetres} mm, {coefficient}"), &body, 34.0, of, 30.0, times);
    }
}

#[test]
fn dark_chocolate_takes_minutes() {
    let contents = contents(100.0, DARK);
    let of = |rate| crystals(0.375, 0.0, rate, 0.0);
    for (coefficient, times) in [
        (8.0, [[18.0, 20.0], [36.0, 39.0], [55.0, 59.0]]),
        (20.0, [[8.0, 10.0], [16.0, 20.0], [24.0, 30.0]]),
        (30.0, [[6.0, 8.0], [12.0, 16.0], [17.0, 23.0]]),
    ] {
        let body = sphere(28.0, coefficient, 12.0, made_of(&contents, 0.275));
        check_times(&format!("sphere, {coefficient}"), &body, 30.0, of, 10.0, times);
    }
    for (millimetres, coefficient, times) in [
        (5.0, 8.0, [[10.0, 10.0], [23.0, 23.0], [28.0, 29.0]]),
        (5.0, 20.0, [[4.0, 4.0], [9.0, 10.0], [10.0, 10.0]]),
        (10.0, 8.0, [[20.0, 21.0], [46.0, 47.0], [58.0, 59.0]]),
        (10.0, 20.0, [[9.0, 9.0], [20.0, 21.0], [25.0, 26.0]]),
        (15.0, 8.0, [[31.0, 32.0], [71.0, 73.0], [89.0, 91.0]]),
        (15.0, 20.0, [[14.0, 15.0], [31.0, 33.0], [40.0, 42.0]]),
    ] {
        let body = slab(millimetres, [coefficient; 2], 12.0, made_of(&contents, 0.275));
        check_times(&format!("bar {millimetres} mm, {coefficient}"), &body, 31.5, of, 10.0, times);
    }
}
