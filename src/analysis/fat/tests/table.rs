//! Figures of the model computed beforehand: 14 fats, effects of dilution, other forms.
//!
//! Source of every figure here: the verification table of the model's description, computed there with two methods that
//! agree (nested bisection, Newton's method). They are no measurements; those are in `published`.

use super::super::{FatGrams, FatPhase, Form};
use super::{blend, fat, grams, percent};
use crate::recipe::CocoaButter;
use crate::units::{Celsius, Grams};

/// Of a cell, in points.
const POINTS: f64 = 0.01;

/// Of a limit, in kelvin.
const KELVIN: f64 = 0.01;

const TEMPERATURES: [f64; 9] = [15.0, 18.0, 20.0, 22.0, 25.0, 28.0, 30.0, 32.0, 33.0];

/// A cell that is not in the table.
const NOT_GIVEN: f64 = f64::NAN;

fn check_row(name: &str, fat: &FatPhase, solid_percent: [f64; 9], limit: Option<f64>) {
    let curve = fat.solid_fat_curve(TEMPERATURES.map(Celsius));
    for ((celsius, expected), on_curve) in TEMPERATURES.into_iter().zip(solid_percent).zip(curve) {
        for solid in [fat.solid_fat(Celsius(celsius)), on_curve] {
            let solid = solid.total().to_percent();
            if expected == 0.0 {
                assert_eq!(solid, 0.0, "{name} at {celsius} °C has exactly no solid");
            } else if !expected.is_nan() {
                assert!((solid - expected).abs() < POINTS, "{name} at {celsius} °C: {solid}, expected {expected}");
            }
        }
    }
    check_limit(name, fat, Form::V, limit);
}

fn check_limit(name: &str, fat: &FatPhase, form: Form, expected: Option<f64>) {
    let limit = fat.melting_limit(form).map(|limit| limit.0);
    match (limit, expected) {
        (Some(limit), Some(expected)) => {
            assert!((limit - expected).abs() < KELVIN, "{name}: {form:?} {limit}, expected {expected}");
        }
        _ => assert_eq!(limit, expected, "{name}: {form:?}"),
    }
}

#[test]
fn solid_fat_and_limit_of_cocoa_butter_and_milk_fat_alone() {
    let v01 = [79.82, 78.50, 77.13, 75.11, 69.85, 58.53, 44.86, 24.12, 11.40];
    check_row("V01", &blend(1.0, 0.0, 0.0), v01, Some(33.79));
    let soft = FatPhase::new(&grams(1.0, 0.0, 0.0), CocoaButter::Soft).unwrap();
    let v02 = [66.49, 64.56, 62.59, 59.75, 52.70, 39.58, 25.77, 7.605, 0.0];
    check_row("V02", &soft, v02, Some(32.70));
    let v03 = [32.32, 20.36, 18.55, 16.24, 11.45, 5.755, NOT_GIVEN, 4.089, 3.471];
    check_row("V03", &blend(0.0, 1.0, 0.0), v03, None);
}

#[test]
fn solid_fat_and_limit_of_blends_with_milk_fat_and_oil() {
    for (name, shares, solid_percent, limit) in [
        ("V04", (0.9, 0.1, 0.0), [71.78, 69.73, 67.85, 65.11, 58.15, 44.43, 29.48, 10.50, 0.0], 32.92),
        ("V05", (0.8, 0.2, 0.0), [65.30, 61.89, 58.64, 55.24, 46.92, 32.04, 17.17, 0.0, 0.0], 31.95),
        ("V06", (0.6, 0.4, 0.0), [52.38, 47.85, 43.17, 36.35, 26.52, 12.24, 1.070, 0.1381, 0.0], 29.75),
        ("V07", (0.9, 0.0, 0.1), [70.92, 69.17, 67.36, 64.72, 57.99, 45.11, 31.13, 12.21, 0.7154], 33.06),
        ("V08", (0.7, 0.0, 0.3), [53.16, 50.59, 47.98, 44.28, 35.71, 22.17, 9.791, 0.0, 0.0], 31.30),
        ("V09", (0.5, 0.0, 0.5), [35.48, 32.23, 29.06, 24.88, 16.33, 4.581, 0.0, 0.0, 0.0], 28.95),
        ("V10", (0.6, 0.2, 0.2), [46.52, 42.52, 39.48, 35.26, 25.85, 11.76, 0.0, 0.0, 0.0], 29.94),
        ("V11", (0.4, 0.1, 0.5), [27.35, 23.83, 20.52, 16.25, 7.825, 0.0, 0.0, 0.0, 0.0], 27.26),
    ] {
        check_row(name, &blend(shares.0, shares.1, shares.2), solid_percent, Some(limit));
    }
}

#[test]
fn solid_fat_and_limit_of_blends_with_tropical_fats() {
    let coconut = FatGrams { cocoa_butter: Grams(0.7), coconut: Grams(0.3), ..FatGrams::default() };
    let v12 = [65.36, 51.50, 45.99, 41.61, 31.95, 17.40, 4.531, 0.0, 0.0];
    check_row("V12", &fat(&coconut), v12, Some(30.60));
    let palm_kernel = FatGrams { cocoa_butter: Grams(0.8), palm_kernel: Grams(0.2), ..FatGrams::default() };
    let v13 = [68.59, 63.83, 59.26, 53.00, 44.31, 29.99, 16.29, 0.0, 0.0];
    check_row("V13", &fat(&palm_kernel), v13, Some(31.88));
    let palm = FatGrams { cocoa_butter: Grams(0.8), palm: Grams(0.2), ..FatGrams::default() };
    let v14 = [66.59, 62.68, 59.83, 56.55, 48.28, 33.65, 19.06, 1.782, 0.0];
    check_row("V14", &fat(&palm), v14, Some(32.18));
}

#[test]
fn dilution_lowers_the_limit_of_form_v() {
    let limit = |fat: &FatPhase| fat.melting_limit(Form::V).unwrap().0;
    let undiluted = limit(&blend(100.0, 0.0, 0.0));
    for (percent, fall_by_milk_fat, fall_by_oil) in [
        (1.0, 0.09, 0.07),
        (5.0, 0.43, 0.36),
        (10.0, 0.88, 0.74),
        (20.0, 1.84, 1.56),
        (30.0, 2.91, 2.49),
        (40.0, 4.04, 3.57),
        (50.0, 5.37, 4.84),
    ] {
        let by_milk_fat = undiluted - limit(&blend(100.0 - percent, percent, 0.0));
        let by_oil = undiluted - limit(&blend(100.0 - percent, 0.0, percent));
        assert!((by_milk_fat - fall_by_milk_fat).abs() < KELVIN, "{percent} % milk fat: {by_milk_fat} K");
        assert!((by_oil - fall_by_oil).abs() < KELVIN, "{percent} % oil: {by_oil} K");
    }
}

#[test]
fn other_forms_have_other_limits() {
    let cocoa_butter = blend(1.0, 0.0, 0.0);
    for (name, fat, form_iv, form_vi) in [
        ("cocoa butter", &cocoa_butter, 27.64, 36.24),
        ("V05", &blend(0.8, 0.2, 0.0), 25.93, 34.37),
        ("V09", &blend(0.5, 0.0, 0.5), 22.99, 31.32),
        ("V10", &blend(0.6, 0.2, 0.2), 24.02, 32.32),
    ] {
        check_limit(name, fat, Form::IV, Some(form_iv));
        check_limit(name, fat, Form::VI, Some(form_vi));
    }
}

#[test]
fn other_forms_have_other_solid_fat() {
    let cocoa_butter = blend(1.0, 0.0, 0.0);
    // Given with one digit after the point.
    for (form, celsius, expected) in [
        (Form::IV, 18.0, 72.3),
        (Form::IV, 20.0, 67.3),
        (Form::IV, 22.0, 58.7),
        (Form::IV, 25.0, 33.5),
        (Form::IV, 27.0, 9.2),
        (Form::V, 33.4, 5.8),
        (Form::VI, 33.4, 35.9),
    ] {
        let solid = cocoa_butter.solid_fat_in_form(Celsius(celsius), form).to_percent();
        assert!((solid - expected).abs() < 0.06, "{form:?} at {celsius} °C: {solid}, expected {expected}");
    }
}

#[test]
fn form_v_melts_steeply_below_its_limit() {
    let cocoa_butter = blend(1.0, 0.0, 0.0);
    for (celsius, expected) in [(33.3, 7.2), (33.5, 4.4), (33.7, 1.4)] {
        let solid = percent(&cocoa_butter, celsius);
        assert!((solid - expected).abs() < 0.06, "{celsius} °C: {solid}, expected {expected}");
    }
    assert_eq!(percent(&cocoa_butter, 33.8), 0.0);
}
