//! What must be true of every body.

use super::*;
use proptest::prelude::*;

const COARSE: Resolution = Resolution { cells: 16, steps: 80 };

/// A step of order two may leave a ripple where the surface is suddenly cold; no thermometer shows so little, in K.
const RIPPLE: f64 = 1e-4;

/// The solid share of one fat that melts between 20 and 34 °C, without corners.
fn smooth(at: Celsius) -> f64 {
    let share = ((34.0 - at.0) / 14.0).clamp(0.0, 1.0);
    0.8 * share * share * (3.0 - 2.0 * share)
}

fn any_body() -> impl Strategy<Value = Body> {
    let material = (800.0..1400.0, 0.1..0.6, 1.5..4.0).prop_map(|(density, k, c)| material(density, k, c));
    let geometry = prop_oneof![
        (1.0..60.0, 0.0..60.0, 1.0..60.0, 0.0..30.0, 0.0..30.0).prop_map(|(mm, h1, h2, air1, air2)| Geometry::Slab {
            thickness: Metres(mm / 1000.0),
            faces: [face(h1, air1), face(h2, air2)],
        }),
        (3.0..60.0, 1.0..60.0, 0.0..30.0)
            .prop_map(|(mm, h, air)| Geometry::Sphere { radius: Metres(mm / 1000.0), surface: face(h, air) }),
        (10.0..5000.0, 0.05..5.0, 0.0..30.0).prop_map(|(ml, conductance, air)| Geometry::OneTemperature {
            volume: Millilitres(ml),
            conductance: WattsPerKelvin(conductance),
            air: Celsius(air),
        }),
    ];
    (geometry, material).prop_map(|(geometry, material)| Body::new(geometry, material).expect("in range"))
}

fn any_rate() -> impl Strategy<Value = Rate> {
    prop_oneof![Just(Rate::Equilibrium), (-2.0..3.0_f64).prop_map(|log| Rate::Limited(Minutes(10.0_f64.powf(log))))]
}

fn any_crystals() -> impl Strategy<Value = Crystals> {
    (any_rate(), 0.0..1.0, 0.0..1.0).prop_map(|(rate, started, share)| {
        let solid = |at: Celsius| {
            let solid = smooth(at);
            Solid { heat: JoulesPerGram(157.0 * share * solid), share: MassFraction(solid) }
        };
        Crystals::new(&solid, rate, MassFraction(started)).expect("crystals")
    })
}

fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![Just(Length::UntilSet), (-1.0..4.0_f64).prop_map(|log| Length::Given(Minutes(10.0_f64.powf(log))))]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn heat_is_kept_and_every_figure_is_a_number(
        body in any_body(), crystals in any_crystals(), start in 0.0..60.0, length in any_length(),
    ) {
        let course = run_with(&body, Celsius(start), &crystals, length, COARSE).expect("in range");
        prop_assert!(course.energy_error < 1e-10, "{}", course.energy_error);
        prop_assert_eq!(course.moments.len(), COARSE.steps + 1);
        for moment in &course.moments {
            let figures = [moment.time.0, moment.centre.0, moment.surface.0, moment.mean.0, moment.solid.0];
            prop_assert!(figures.iter().all(|figure| figure.is_finite()), "{:?}", moment);
            prop_assert!((-1e-9..=1.0).contains(&moment.solid.0), "{:?}", moment);
        }
        if let Some(set) = course.set {
            prop_assert!(set.0 > 0.0 && set <= last(&course).time);
        }
    }

    /// Every accepted figure, however odd: a steep melting point, foil, a vacuum, a wall of copper, a year.
    #[test]
    fn odd_figures_give_numbers(
        geometry in 0..4_u8, length in -4.0..=0.0_f64, h in [-2.0..=5.0_f64, -2.0..=5.0_f64], air in [0.0..=150.0, 0.0..=150.0],
        start in 0.0..=150.0, k in -2.0..=2.69_f64, density in -1.3..=1.3_f64, specific_heat in -1.0..=1.0_f64,
        heat in 0.0..=1000.0, melting in 1.0..149.0, width in -3.0..=0.0_f64, rate in -3.0..=7.0_f64, started in 0.0..=1.0,
        minutes in -3.0..=7.0_f64,
    ) {
        let of = |log: f64| 10.0_f64.powf(log);
        let faces = [face(of(h[0]), air[0]), face(of(h[1]), air[1])];
        let size = Metres(of(length));
        let geometry = match geometry {
            0 => Geometry::Slab { thickness: size, faces },
            1 => Geometry::Slab { thickness: size, faces: [face(0.0, 0.0), faces[1]] },
            2 => Geometry::Sphere { radius: size, surface: faces[0] },
            _ => Geometry::OneTemperature {
                volume: Millilitres(of(length * 2.0 + 6.0)),
                conductance: WattsPerKelvin(of(h[0] - 1.5)),
                air: faces[0].air,
            },
        };
        let body = Body::new(geometry, material(of(density) * 1000.0, of(k), of(specific_heat))).expect("accepted");
        let solid = |heat, share| Solid { heat: JoulesPerGram(heat), share: MassFraction(share) };
        let nodes = vec![(Celsius(melting - of(width)), solid(heat, 1.0)), (Celsius(melting), solid(0.0, 0.0))];
        let rate = if rate > 6.0 { Rate::Equilibrium } else { Rate::Limited(Minutes(of(rate))) };
        let crystals = Crystals::from_nodes(nodes, rate, MassFraction(started)).expect("accepted");
        let length = if minutes > 6.0 { Length::UntilSet } else { Length::Given(Minutes(of(minutes))) };
        let course = run_with(&body, Celsius(start), &crystals, length, COARSE).expect("accepted");
        for moment in &course.moments {
            let figures = [moment.time.0, moment.centre.0, moment.surface.0, moment.mean.0, moment.solid.0];
            prop_assert!(figures.iter().all(|figure| figure.is_finite()), "{:?}", moment);
        }
        // In runs of thousands of time constants the noise of doubles adds up.
        let constants = last(&course).time.0 * 60.0 / Grid::new(&body, 16).time_constant(of(specific_heat) * 1000.0);
        prop_assert!(course.energy_error < 1e-6 || constants > 1e3, "{} {}", course.energy_error, constants);
    }

    /// With crystals at equilibrium a body only cools, and never below the air.
    #[test]
    fn what_is_left_falls_from_one_to_nothing(
        body in any_body(), share in 0.0..0.5, above in 0.1..30.0, length in any_length(),
    ) {
        let airs = match body.geometry {
            Geometry::Slab { faces, .. } => faces.map(|face| face.air.0),
            Geometry::Sphere { surface, .. } => [surface.air.0; 2],
            Geometry::OneTemperature { air, .. } => [air.0; 2],
        };
        let start = airs[0].max(airs[1]) + above;
        let least = airs[0].min(airs[1]);
        let solid = |at: Celsius| Solid { heat: JoulesPerGram(157.0 * share * smooth(at)), share: MassFraction(smooth(at)) };
        let crystals = Crystals::new(&solid, Rate::Equilibrium, MassFraction::ZERO).expect("crystals");
        let course = run_with(&body, Celsius(start), &crystals, length, COARSE).expect("in range");
        for pair in course.moments.windows(2) {
            prop_assert!(pair[1].mean.0 <= pair[0].mean.0 + RIPPLE, "{:?}", pair);
            prop_assert!(pair[1].solid.0 >= pair[0].solid.0 - RIPPLE, "{:?}", pair);
            prop_assert!(pair[1].centre.0 <= start + RIPPLE && pair[1].surface.0 >= least - RIPPLE, "{:?}", pair);
        }
    }

    #[test]
    fn two_equal_faces_are_half_a_slab_with_an_insulated_one(
        mm in 2.0..40.0, h in 1.0..60.0, air in 5.0..20.0, rate in any_rate(),
    ) {
        let crystals = crystals(0.3, 0.05, rate, 0.1);
        let of = || material(1200.0, 0.27, 1.7);
        let run = |body, cells| {
            run_with(&body, Celsius(32.0), &crystals, given(2000.0), Resolution { cells, steps: 80 }).expect("in range")
        };
        let whole = run(slab(2.0 * mm, [h; 2], air, of()), 24);
        let half = run(slab(mm, [0.0, h], air, of()), 12);
        for (whole, half) in whole.moments.iter().zip(&half.moments) {
            prop_assert!((whole.faces[0].0 - whole.faces[1].0).abs() < 1e-7);
            prop_assert!((whole.mean.0 - half.mean.0).abs() < 1e-2 && (whole.centre.0 - half.centre.0).abs() < 1e-2);
        }
    }

    /// A given solid share is never reached sooner in warmer air. (90 % of the way can be: the way is shorter.)
    #[test]
    fn warmer_air_never_makes_a_share_solid_sooner(
        mm in 4.0..40.0, h in 1.0..60.0, air in 2.0..18.0, warmer in 0.1..6.0, rate in any_rate(), target in 0.1..0.6,
    ) {
        let crystals = crystals(0.3, 0.0, rate, 0.0);
        let time = |air| {
            let body = slab(mm, [0.0, h], air, material(1200.0, 0.27, 1.7));
            let course = run_with(&body, Celsius(33.0), &crystals, given(20_000.0), COARSE).expect("in range");
            (course.time_to_solid(MassFraction(target)), course.set)
        };
        let [(cold, cold_set), (warm, warm_set)] = [time(air), time(air + warmer)];
        let is_later = |cold: Option<Minutes>, warm: Option<Minutes>| match (cold, warm) {
            (Some(cold), Some(warm)) => warm.0 >= cold.0 * 0.995,
            (None, Some(_)) => false,
            (_, None) => true,
        };
        prop_assert!(is_later(cold, warm), "{:?} {:?}", cold, warm);
        if rate == Rate::Equilibrium {
            prop_assert!(is_later(cold_set, warm_set), "set {:?} {:?}", cold_set, warm_set);
        }
    }
}

#[test]
fn crystals_that_grow_at_once_are_at_equilibrium() {
    let body = slab(10.0, [0.0, 10.0], 17.0, material(1150.0, 0.30, 2.6));
    let quick = course(&body, 34.0, &crystals(0.19, 0.0, Rate::Limited(Minutes(1e-3)), 1.0), given(7200.0));
    let at_once = course(&body, 34.0, &crystals(0.19, 0.0, Rate::Equilibrium, 1.0), given(7200.0));
    for (quick, at_once) in quick.moments.iter().zip(&at_once.moments) {
        assert!((quick.mean - at_once.mean).0.abs() < 2e-3, "{quick:?} {at_once:?}");
        assert!((quick.solid.0 - at_once.solid.0).abs() < 2e-4, "{quick:?} {at_once:?}");
    }
}

/// With crystals that grow at once, the middle holds what is at equilibrium at its temperature, and less than the rest;
/// what is of one temperature holds the same everywhere.
#[test]
fn the_middle_lags_in_its_crystals_too() {
    let crystals = crystals(0.19, 0.0, Rate::Equilibrium, 1.0);
    let body = slab(20.0, [10.0, 10.0], 17.0, material(1150.0, 0.30, 2.6));
    let mut lag = 0.0_f64;
    for moment in &course(&body, 34.0, &crystals, given(7200.0)).moments {
        assert!(moment.solid_centre.0 <= moment.solid.0 + 1e-9, "{moment:?}");
        lag = lag.max(moment.solid.0 - moment.solid_centre.0);
    }
    assert!(lag > 0.01, "{lag}");
    let bowl =
        Geometry::OneTemperature { volume: Millilitres(100.0), conductance: WattsPerKelvin(0.1), air: Celsius(17.0) };
    let bowl = Body::new(bowl, material(1150.0, 0.30, 2.6)).expect("a body");
    for moment in &course(&bowl, 34.0, &crystals, given(7200.0)).moments {
        assert!((moment.solid_centre.0 - moment.solid.0).abs() < 1e-12, "{moment:?}");
    }
}

/// By hand: 1250·1590·(0.005/20 + 0.005²/0.78) = 560.6 s for a slab of 10 mm cooled on both faces.
#[test]
fn the_time_constant_is_that_of_the_closed_form() {
    let slab = slab(10.0, [20.0, 20.0], 13.0, material(1250.0, 0.26, 1.59));
    assert!((slab.time_constant().0 * 60.0 - 560.6).abs() < 0.1, "{:?}", slab.time_constant());
}

/// Finer steps and cells change the time of setting by less than 1 %, in runs of minutes and of a day.
#[test]
fn finer_steps_and_cells_change_nothing() {
    let of = || material(1200.0, 0.27, 1.7);
    for (body, start) in [
        (slab(10.0, [0.0, 8.0], 17.0, material(1086.0, 0.31, 2.6)), 34.0),
        (slab(10.0, [20.0, 12.0], 12.0, of()), 31.5),
        (slab(40.0, [60.0, 5.0], 8.0, of()), 40.0),
        (sphere(28.0, 20.0, 12.0, of()), 30.0),
    ] {
        for rate in [Rate::Equilibrium, Rate::Limited(Minutes(10.0)), Rate::Limited(Minutes(60.0))] {
            for length in [Length::UntilSet, Length::Given(Minutes(1440.0))] {
                let crystals = crystals(0.3, 0.05, rate, 0.0);
                let set = |cells, steps| {
                    let resolution = Resolution { cells, steps };
                    let course = run_with(&body, Celsius(start), &crystals, length, resolution).expect("a course");
                    course.set.expect("it sets").0
                };
                let usual = set(40, 200);
                for finer in [set(40, 400), set(80, 200)] {
                    assert!((finer / usual - 1.0).abs() < 0.01, "{body:?} {rate:?} {length:?}: {usual} {finer}");
                }
            }
        }
    }
}

/// Crystals that are too many melt at once and take their heat from the mass.
#[test]
fn warmed_chocolate_melts() {
    let body = slab(10.0, [20.0; 2], 45.0, material(1250.0, 0.25, 1.65));
    let solid = course(&body, 18.0, &crystals(0.35, 0.0, Rate::Limited(Minutes(10.0)), 1.0), given(5400.0));
    let without = course(&body, 18.0, &Crystals::none(), given(5400.0));
    assert_eq!(solid.set, None);
    assert!(last(&solid).solid.0 < 1e-9 && solid.moments[0].solid.0 > 0.75);
    let time = |course: &Course| course.time_to_mean(Celsius(40.0)).expect("reached").0;
    assert!(time(&solid) > 1.5 * time(&without), "{} {}", time(&solid), time(&without));
    assert!(last(&solid).centre <= last(&solid).surface);
}

/// A supercooled mass warms itself when its crystals grow faster than the air cools.
#[test]
fn a_supercooled_mass_warms_itself() {
    let body = slab(20.0, [8.0; 2], 18.0, material(1250.0, 0.25, 1.65));
    let course = course(&body, 22.0, &crystals(0.35, 0.0, Rate::Limited(Minutes(2.0)), 0.0), Length::UntilSet);
    let warmest = course.moments.iter().map(|moment| moment.mean.0).fold(0.0, f64::max);
    assert!(warmest > 25.0, "{warmest}");
    assert!(course.set.is_some() && course.is_settled());
}

#[test]
fn what_is_out_of_range_is_refused() {
    let good = || material(1200.0, 0.27, 1.7);
    let thickness = Metres(0.01);
    for (geometry, expected) in [
        (Geometry::Slab { thickness, faces: [face(0.0, 20.0); 2] }, BodyError::Insulated),
        (Geometry::Slab { thickness: Metres(0.0), faces: [face(8.0, 20.0); 2] }, BodyError::Length(Metres(0.0))),
        (Geometry::Sphere { radius: thickness, surface: face(8.0, -1.0) }, BodyError::Temperature(Celsius(-1.0))),
        (
            Geometry::Sphere { radius: thickness, surface: face(-1.0, 20.0) },
            BodyError::Coefficient(WattsPerSquareMetreKelvin(-1.0)),
        ),
        (
            Geometry::OneTemperature {
                volume: Millilitres(1000.0),
                conductance: WattsPerKelvin(0.0),
                air: Celsius(20.0),
            },
            BodyError::Conductance(WattsPerKelvin(0.0)),
        ),
    ] {
        assert_eq!(Body::new(geometry, good()), Err(expected));
    }
    let nan = Geometry::Sphere { radius: Metres(f64::NAN), surface: face(8.0, 20.0) };
    assert!(matches!(Body::new(nan, good()), Err(BodyError::Length(_))));
    for (density, conductivity, heat) in [(0.0, 0.3, 2.0), (1.0, f64::NAN, 2.0), (1.0, 0.3, f64::INFINITY)] {
        let material = Material::new(GramsPerMillilitre(density), WattsPerMetreKelvin(conductivity), |_| {
            JoulesPerGramKelvin(heat)
        });
        assert!(material.is_err(), "{density} {conductivity} {heat}");
    }
    let solid = |heat| Solid { heat: JoulesPerGram(heat), share: MassFraction(0.5) };
    let rising = vec![(Celsius(10.0), solid(10.0)), (Celsius(20.0), solid(11.0))];
    let refused = Crystals::from_nodes(rising, Rate::Equilibrium, MassFraction::ZERO);
    assert_eq!(refused, Err(BodyError::NotFalling(Celsius(20.0))));
    let too_close = vec![(Celsius(10.0), solid(10.0)), (Celsius(10.0001), solid(9.0))];
    let refused = Crystals::from_nodes(too_close, Rate::Equilibrium, MassFraction::ZERO);
    assert_eq!(refused, Err(BodyError::NotFalling(Celsius(10.0001))));
    let words = BodyError::Length(Metres(2.5)).to_string();
    assert_eq!(words, "thickness or radius 2.5 m, not from 0.0001 to 1");
    assert!(Crystals::from_nodes(vec![], Rate::Limited(Minutes(0.0)), MassFraction::ZERO).is_err());
    assert!(Crystals::from_nodes(vec![], Rate::Equilibrium, MassFraction(1.5)).is_err());
    assert!(
        Crystals::from_nodes(vec![(Celsius(10.0), solid(f64::NAN))], Rate::Equilibrium, MassFraction::ZERO).is_err()
    );
    let body = slab(10.0, [8.0; 2], 20.0, good());
    for (start, length) in [(f64::NAN, 10.0), (151.0, 10.0), (30.0, 0.0), (30.0, f64::INFINITY)] {
        let length = Length::Given(Minutes(length));
        assert!(run(&body, Celsius(start), &Crystals::none(), length).is_err(), "{start} {length:?}");
    }
    let none = Resolution { cells: 0, steps: 200 };
    let course = run_with(&body, Celsius(30.0), &Crystals::none(), Length::UntilSet, none);
    assert_eq!(course, Err(BodyError::Resolution { cells: 0, steps: 200 }));
}

#[test]
fn what_reaches_nothing_has_no_time() {
    let body = slab(10.0, [8.0; 2], 20.0, material(1200.0, 0.27, 1.7));
    let course = course(&body, 30.0, &Crystals::none(), Length::UntilSet);
    assert_eq!(
        (course.set, course.time_to_mean(Celsius(19.0)), course.time_to_centre(Celsius(31.0))),
        (None, None, None)
    );
    assert_eq!(course.time_to_mean(Celsius(30.0)), Some(Minutes(0.0)));
    assert_eq!(course.end, Celsius(20.0));
}

/// With two airs heat goes on through the slab.
#[test]
fn between_two_airs_a_slab_ends_in_the_middle() {
    let geometry = Geometry::Slab { thickness: Metres(0.02), faces: [face(10.0, 30.0), face(25.0, 10.0)] };
    let body = Body::new(geometry, material(1200.0, 0.25, 1.7)).expect("a slab");
    // By hand: flux 20/(1/10 + 0.02/0.25 + 1/25) = 90.909 W/m², faces 30 − 9.0909 and 10 + 3.6364 °C, mean 17.2727 °C.
    assert!((body.end().0 - 17.27273).abs() < 1e-4, "{:?}", body.end());
    let course = course(&body, 40.0, &Crystals::none(), Length::Given(Minutes(600.0)));
    assert!((last(&course).mean - body.end()).0.abs() < 1e-4);
    assert!((last(&course).faces[0].0 - 20.9091).abs() < 1e-3 && (last(&course).faces[1].0 - 13.6364).abs() < 1e-3);
}
