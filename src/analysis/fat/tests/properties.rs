//! What holds for every fat, and what happens at the edges.

use proptest::prelude::*;

use super::super::{FatGrams, FatPhase, FatPhaseError, Form};
use super::{blend, fat, grams};
use crate::recipe::{CocoaButter, Triglycerides};
use crate::units::{Celsius, Grams, MassFraction};

/// What rounding may change, as a share.
const ROUNDING: f64 = 1e-11;

/// An analysis in the range of real ones.
const ANALYSIS: Triglycerides = Triglycerides {
    pop: 15.3,
    pos: 40.1,
    sos: 27.5,
    soa: 1.1,
    trisaturated: 0.7,
    other: 15.3,
    diglycerides_percent: 1.9,
    free_fatty_acids_percent: 1.53,
};

fn own(figures: Triglycerides) -> CocoaButter {
    CocoaButter::Own(figures.checked().expect("an analysis"))
}

/// No fat, a trace of it, or some of it.
fn any_amount() -> impl Strategy<Value = f64> {
    prop_oneof![2 => Just(0.0), 1 => (-12.0..0.0).prop_map(|exponent: f64| 10.0_f64.powf(exponent)), 5 => 0.0..100.0]
}

/// Blends of up to six fats that are more than nothing.
pub(super) fn any_grams() -> impl Strategy<Value = FatGrams> {
    prop::array::uniform6(any_amount()).prop_map(of_amounts).prop_filter("no fat", |grams| grams.total() > Grams::ZERO)
}

fn of_amounts(amounts: [f64; 6]) -> FatGrams {
    let [cocoa_butter, milk_fat, liquid_oil, coconut, palm_kernel, palm] = amounts.map(Grams);
    FatGrams { cocoa_butter, milk_fat, liquid_oil, coconut, palm_kernel, palm }
}

/// The named types and own analyses, also with zeros.
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
    prop_oneof![
        3 => Just(CocoaButter::WestAfrican),
        1 => Just(CocoaButter::Soft),
        1 => Just(CocoaButter::Hard),
        2 => own,
    ]
}

/// Amounts of any size a double can have.
fn any_size() -> impl Strategy<Value = f64> {
    prop_oneof![
        2 => Just(0.0),
        1 => Just(f64::MAX),
        1 => Just(f64::from_bits(1)),
        1 => Just(1.0),
        4 => (-320.0..308.0).prop_map(|exponent: f64| 10.0_f64.powf(exponent)),
    ]
}

fn check_shares(fat: &FatPhase, celsius: f64) -> Result<(), TestCaseError> {
    let in_range = |share: MassFraction| (0.0..=1.0 + ROUNDING).contains(&share.0);
    prop_assert!(in_range(fat.cocoa_butter_share()), "{fat:?}");
    let solid = fat.solid_fat(Celsius(celsius));
    prop_assert!(in_range(solid.form_v) && in_range(solid.other) && in_range(solid.total()), "{celsius} °C: {solid:?}");
    for form in Form::ALL {
        prop_assert!(in_range(fat.solid_fat_in_form(Celsius(celsius), form)), "{form:?} at {celsius} °C");
        if let Some(limit) = fat.melting_limit(form) {
            prop_assert!((-10.0..=60.0).contains(&limit.0), "{form:?}: {limit:?}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_amount_and_no_temperature_gives_anything_but_a_share(
        amounts in prop::array::uniform6(any_size()),
        figures in prop::array::uniform6(any_size()),
        minor_lipids in prop::array::uniform2(prop_oneof![Just(0.0), 0.0..49.0]),
        celsius in prop_oneof![3 => -300.0..300.0, 1 => any_size(), 1 => any_size().prop_map(|size| -size)],
    ) {
        let [pop, pos, sos, soa, trisaturated, other] = figures;
        let [diglycerides_percent, free_fatty_acids_percent] = minor_lipids;
        let own = Triglycerides {
            pop, pos, sos, soa, trisaturated, other, diglycerides_percent, free_fatty_acids_percent,
        };
        // What cannot be an analysis never reaches the model.
        let own = own.checked().ok().map(CocoaButter::Own);
        for cocoa_butter in CocoaButter::NAMED.into_iter().chain(own) {
            match FatPhase::new(&of_amounts(amounts), cocoa_butter) {
                Ok(fat) => check_shares(&fat, celsius)?,
                Err(FatPhaseError::NoFat) => prop_assert_eq!(amounts, [0.0; 6]),
                Err(FatPhaseError::NoLiquid) => prop_assert_eq!(Some(cocoa_butter), own),
            }
        }
    }

    #[test]
    fn solid_fat_never_rises_with_temperature(
        grams in any_grams(),
        cocoa_butter in any_cocoa_butter(),
        celsius in -20.0..70.0,
        warmer in 0.0..10.0,
    ) {
        let fat = FatPhase::new(&grams, cocoa_butter).unwrap();
        let (cold, warm) = (fat.solid_fat(Celsius(celsius)), fat.solid_fat(Celsius(celsius + warmer)));
        prop_assert!(warm.total().0 <= cold.total().0 + ROUNDING, "{cold:?} then {warm:?}");
        for form in Form::ALL {
            let cold = fat.solid_fat_in_form(Celsius(celsius), form);
            let warm = fat.solid_fat_in_form(Celsius(celsius + warmer), form);
            prop_assert!(warm.0 <= cold.0 + ROUNDING, "{form:?}: {cold:?} then {warm:?}");
        }
    }

    #[test]
    fn a_more_stable_form_has_more_solid_and_a_higher_limit(
        grams in any_grams(),
        cocoa_butter in any_cocoa_butter(),
        celsius in -20.0..70.0,
    ) {
        let fat = FatPhase::new(&grams, cocoa_butter).unwrap();
        let solids = Form::ALL.map(|form| fat.solid_fat_in_form(Celsius(celsius), form).0);
        prop_assert!(solids.is_sorted_by(|less, more| *less <= more + ROUNDING), "{solids:?}");
        let limits = Form::ALL.map(|form| fat.melting_limit(form));
        let limits: Vec<Celsius> = limits.into_iter().flatten().collect();
        prop_assert!(limits.is_sorted_by(|lower, higher| lower < higher), "{limits:?}");
    }

    #[test]
    fn oil_in_place_of_cocoa_butter_never_raises_form_v(
        mut grams in any_grams(),
        cocoa_butter in any_cocoa_butter(),
        replaced in 0.0..1.0,
        celsius in -20.0..40.0,
    ) {
        let before = FatPhase::new(&grams, cocoa_butter).unwrap();
        let oil = grams.cocoa_butter * replaced;
        grams.cocoa_butter = grams.cocoa_butter - oil;
        grams.liquid_oil += oil;
        let after = FatPhase::new(&grams, cocoa_butter).unwrap();
        let (solid_before, solid_after) = (before.solid_fat(Celsius(celsius)), after.solid_fat(Celsius(celsius)));
        prop_assert!(solid_after.form_v.0 <= solid_before.form_v.0 + ROUNDING, "{solid_before:?} {solid_after:?}");
        if let (Some(before), Some(after)) = (before.melting_limit(Form::V), after.melting_limit(Form::V)) {
            prop_assert!(after.0 <= before.0 + 1e-9, "{before:?} {after:?}");
        }
    }

    /// Whatever takes the place of cocoa butter, and whatever else is in the blend.
    #[test]
    fn no_other_fat_in_place_of_cocoa_butter_raises_a_limit(
        before in any_grams(),
        cocoa_butter in any_cocoa_butter(),
        replaced in 0.0..1.0,
        which in 0..5_usize,
    ) {
        let mut after = before;
        let other = before.cocoa_butter * replaced;
        after.cocoa_butter = after.cocoa_butter - other;
        let taken = match which {
            0 => &mut after.milk_fat,
            1 => &mut after.liquid_oil,
            2 => &mut after.coconut,
            3 => &mut after.palm_kernel,
            _ => &mut after.palm,
        };
        *taken += other;
        let [before, after] = [before, after].map(|grams| FatPhase::new(&grams, cocoa_butter).unwrap());
        for form in Form::ALL {
            if let (Some(before), Some(after)) = (before.melting_limit(form), after.melting_limit(form)) {
                prop_assert!(after.0 <= before.0 + 1e-9, "{form:?} {before:?} {after:?}");
            }
        }
    }

    #[test]
    fn oil_in_cocoa_butter_alone_never_raises_solid_fat(
        cocoa_butter in any_cocoa_butter(),
        oil in 0.0..100.0,
        more in 0.0..1.0,
        celsius in -20.0..40.0,
    ) {
        let more_oil = oil + more * (100.0 - oil);
        let solid = |oil: f64| {
            FatPhase::new(&grams(100.0 - oil, 0.0, oil), cocoa_butter).unwrap().solid_fat(Celsius(celsius)).total().0
        };
        prop_assert!(solid(more_oil) <= solid(oil) + ROUNDING, "{} {}", solid(oil), solid(more_oil));
    }

    #[test]
    fn scaling_changes_nothing(
        amounts in prop::array::uniform6(0.0..100.0),
        factor in 1e-6..1e6,
        celsius in -20.0..60.0,
    ) {
        let (small, large) = (fat(&of_amounts(amounts)), fat(&of_amounts(amounts.map(|amount| amount * factor))));
        let (before, after) = (small.solid_fat(Celsius(celsius)), large.solid_fat(Celsius(celsius)));
        prop_assert!((before.form_v - after.form_v).0.abs() < ROUNDING, "{before:?} {after:?}");
        prop_assert!((before.other - after.other).0.abs() < ROUNDING, "{before:?} {after:?}");
    }

    #[test]
    fn a_limit_is_where_form_v_ends(grams in any_grams(), cocoa_butter in any_cocoa_butter()) {
        let fat = FatPhase::new(&grams, cocoa_butter).unwrap();
        if let Some(limit) = fat.melting_limit(Form::V) {
            prop_assert_eq!(fat.solid_fat(Celsius(limit.0 + 1e-8)).form_v, MassFraction::ZERO);
            prop_assert!(fat.solid_fat(Celsius(limit.0 - 1e-8)).form_v > MassFraction::ZERO);
        }
    }
}

#[test]
fn no_fat_is_refused() {
    let refused = |grams: &FatGrams| FatPhase::new(grams, CocoaButter::WestAfrican).unwrap_err();
    assert_eq!(refused(&FatGrams::default()), FatPhaseError::NoFat);
    assert_eq!(refused(&grams(-1.0, 0.0, 0.0)), FatPhaseError::NoFat);
    assert_eq!(refused(&grams(f64::NAN, 0.0, 0.0)), FatPhaseError::NoFat);
    assert_eq!(refused(&grams(f64::INFINITY, 1.0, 0.0)), FatPhaseError::NoFat);
}

#[test]
fn fat_without_liquid_is_refused() {
    let solid =
        own(Triglycerides { other: 1e-300, diglycerides_percent: 0.0, free_fatty_acids_percent: 0.0, ..ANALYSIS });
    assert_eq!(FatPhase::new(&grams(1.0, 0.0, 0.0), solid), Err(FatPhaseError::NoLiquid));
    assert!(FatPhase::new(&grams(1.0, 0.0, 1e-6), solid).is_ok(), "a little oil is a liquid");
}

#[test]
fn the_unit_of_an_analysis_does_not_matter() {
    let in_fractions =
        Triglycerides { pop: 0.153, pos: 0.401, sos: 0.275, soa: 0.011, trisaturated: 0.007, other: 0.153, ..ANALYSIS };
    let [percent, fraction] = [ANALYSIS, in_fractions].map(|analysis| {
        let fat = FatPhase::new(&grams(1.0, 0.0, 0.0), own(analysis)).unwrap();
        fat.solid_fat(Celsius(28.0)).total().0
    });
    assert!((percent - fraction).abs() < ROUNDING, "{percent} {fraction}");
}

#[test]
fn the_analysis_behind_the_default_type_gives_its_curve() {
    // Triglycerides of Ghana as of Shukla 1995, quoted from memory; the default type is this analysis, rounded.
    let own = FatPhase::new(&grams(1.0, 0.0, 0.0), own(ANALYSIS)).unwrap();
    let default = blend(1.0, 0.0, 0.0);
    for celsius in [15.0, 20.0, 25.0, 30.0, 33.0] {
        let difference = own.solid_fat(Celsius(celsius)).total() - default.solid_fat(Celsius(celsius)).total();
        assert!(difference.to_percent().abs() < 0.5, "{celsius} °C: {difference:?}");
    }
}

#[test]
fn cocoa_butter_without_symmetric_triglycerides_has_no_form_v() {
    let own = own(Triglycerides { pop: 0.0, pos: 0.0, sos: 0.0, soa: 0.0, ..ANALYSIS });
    let fat = FatPhase::new(&grams(1.0, 0.0, 0.0), own).unwrap();
    assert_eq!(fat.solid_fat(Celsius(10.0)).form_v, MassFraction::ZERO);
    assert_eq!(Form::ALL.map(|form| fat.melting_limit(form)), [None; 3]);
}

#[test]
fn limits_exist_from_a_tenth_of_cocoa_butter_on() {
    for milk_fat in [0.9, 9.0, 90.0, 0.09, 2.7] {
        let cocoa_butter = milk_fat / 9.0;
        assert!(blend(cocoa_butter, milk_fat, 0.0).melting_limit(Form::V).is_some(), "{milk_fat}");
        assert!(blend(cocoa_butter, 0.0, milk_fat).melting_limit(Form::V).is_some(), "{milk_fat}");
        assert_eq!(blend(cocoa_butter * 0.999, milk_fat, 0.0).melting_limit(Form::V), None, "{milk_fat}");
    }
}

#[test]
fn beyond_the_computed_temperatures_nothing_changes() {
    let fat = blend(0.6, 0.2, 0.2);
    for far in [-101.0, -273.15, -500.0, f64::MIN, f64::NEG_INFINITY] {
        assert_eq!(fat.solid_fat(Celsius(far)), fat.solid_fat(Celsius(-100.0)), "{far} °C");
    }
    for far in [201.0, 5000.0, f64::MAX, f64::INFINITY] {
        assert_eq!(fat.solid_fat(Celsius(far)).total(), MassFraction::ZERO, "{far} °C");
    }
}

#[test]
fn oil_stays_liquid() {
    let oil = blend(0.0, 0.0, 1.0);
    assert_eq!(oil.solid_fat(Celsius(-20.0)).total(), MassFraction::ZERO);
    assert_eq!(oil.melting_limit(Form::V), None);
}
