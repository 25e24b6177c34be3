//! The model held against published measurements.
//!
//! "Quoted from memory" means that the figure stands in the named paper as far as is remembered and was not read again.

use super::super::{FatGrams, FatPhase, Form};
use super::{blend, fat, grams, percent};
use crate::recipe::CocoaButter;
use crate::units::Grams;

fn check_points(source: &str, fat: &FatPhase, measured: &[(f64, f64, f64)]) {
    for &(celsius, expected, tolerance) in measured {
        let solid = percent(fat, celsius);
        assert!((solid - expected).abs() < tolerance, "{source}, {celsius} °C: {solid}, measured {expected}");
    }
}

#[test]
fn cocoa_butter_of_ghana_melts_as_measured() {
    // Shukla 1995, Lipid Technology 7:54, pulsed NMR after 40 h at 26 °C; quoted from memory. Part of the fit.
    let measured = [(20.0, 76.0, 3.0), (25.0, 69.6, 3.0), (30.0, 45.0, 4.0), (35.0, 1.1, 2.0)];
    check_points("Ghana", &blend(1.0, 0.0, 0.0), &measured);
}

#[test]
fn cocoa_butter_of_brazil_melts_as_measured() {
    // Shukla 1995, as above; quoted from memory. Part of the fit.
    let soft = FatPhase::new(&grams(1.0, 0.0, 0.0), CocoaButter::Soft).unwrap();
    let measured = [(20.0, 62.6, 3.0), (25.0, 53.3, 3.0), (30.0, 23.3, 4.0), (35.0, 1.0, 2.0)];
    check_points("Brazil", &soft, &measured);
}

#[test]
fn the_forms_melt_where_they_were_found_to() {
    // Wille and Lutton 1966, J. Am. Oil Chem. Soc. 43:491, as quoted in an encyclopaedia.
    let cocoa_butter = blend(1.0, 0.0, 0.0);
    for (form, measured) in [(Form::IV, 27.5), (Form::V, 33.8), (Form::VI, 36.3)] {
        let limit = cocoa_butter.melting_limit(form).unwrap().0;
        assert!((limit - measured).abs() < 0.5, "{form:?}: {limit}, measured {measured}");
    }
}

#[test]
fn pure_sos_crystals_would_dissolve_near_the_measured_melting_points() {
    // No number of the model takes part: SOS of a West African cocoa butter (mole fraction 0.2575) as pure crystals in
    // an ideal liquid, ln x = −(ΔH/R)(1/T − 1/Tm). Melting points and heats of its two stable forms by Sato et al.
    // 1989, J. Am. Oil Chem. Soc. 66:664, quoted from memory. Form V melts at 33.8 and form VI at 36.3 °C (Wille and
    // Lutton 1966).
    let cocoa_butter = blend(1.0, 0.0, 0.0);
    for (melting_celsius, joules_per_mole, expected, measured, form) in
        [(41.0_f64, 143_000.0, 33.4, 33.8, Form::V), (43.0, 151_000.0, 35.7, 36.3, Form::VI)]
    {
        let reciprocal = 1.0 / (melting_celsius + 273.15) - 8.314462618 * 0.2575_f64.ln() / joules_per_mole;
        let dissolves = 1.0 / reciprocal - 273.15;
        assert!((dissolves - expected).abs() < 0.05, "{form:?}: {dissolves}, expected {expected}");
        assert!((dissolves - measured).abs() < 0.7, "{form:?}: {dissolves}, measured {measured}");
        let limit = cocoa_butter.melting_limit(form).unwrap().0;
        assert!((dissolves - limit).abs() < 0.7, "{form:?}: {dissolves}, model {limit}");
    }
}

#[test]
fn cocoa_butter_in_oil_holds_as_much_solid_as_measured() {
    // Pérez-Martínez et al. 2007, Food Res. Int. 40:47: 20.5–20.9 % with 30 % cocoa butter in canola oil, up to 13.5 °C.
    // Part of the fit, with a residual of −1.3 points.
    check_points("canola", &blend(0.3, 0.0, 0.7), &[(13.5, 20.7, 3.0)]);
}

#[test]
fn other_fats_follow_their_typical_curves() {
    // Typical curves, quoted from memory; milk fat varies by ±4 points with season and feed.
    let milk_fat = [(5.0, 50.5), (10.0, 43.5), (20.0, 18.5), (25.0, 11.5), (35.0, 1.3), (40.0, 0.0)];
    check_points("milk fat", &blend(0.0, 1.0, 0.0), &milk_fat.map(|(celsius, solid)| (celsius, solid, 0.7)));
    let within_half_a_point = |(celsius, solid)| (celsius, solid, 0.5);
    let coconut = FatGrams { coconut: Grams(1.0), ..FatGrams::default() };
    check_points("coconut", &fat(&coconut), &[(10.0, 79.0), (20.0, 35.0)].map(within_half_a_point));
    let palm_kernel = FatGrams { palm_kernel: Grams(1.0), ..FatGrams::default() };
    let curve = [(10.0, 68.0), (20.0, 40.0), (25.0, 17.0)];
    check_points("palm kernel", &fat(&palm_kernel), &curve.map(within_half_a_point));
    let palm = FatGrams { palm: Grams(1.0), ..FatGrams::default() };
    let curve = [(10.0, 51.0), (20.0, 25.0), (25.0, 14.0), (35.0, 5.5)];
    check_points("palm", &fat(&palm), &curve.map(within_half_a_point));
}

#[test]
fn milk_fat_up_to_a_fifth_keeps_the_usual_tempering() {
    // Yella Reddy, Full, Dimick and Ziegler 1996, J. Am. Oil Chem. Soc. 73:723, abstract: with up to 20 % milk fat in the
    // fat, crystals formed at 27.7 °C survive 2 min at 31 °C; with more, lower temperatures or longer holds are needed.
    let limit = |milk_fat: f64| blend(1.0 - milk_fat, milk_fat, 0.0).melting_limit(Form::V).unwrap().0;
    assert!(limit(0.2) > 31.0, "{}", limit(0.2));
    assert!(limit(0.4) < 31.0, "{}", limit(0.4));
}

#[test]
fn milk_fat_and_cocoa_butter_soften_each_other() {
    // Sabariah, Ali and Chong 1998, J. Am. Oil Chem. Soc. 75:905: the blends are softer than the mixing line at 20 and
    // 30 °C (a eutectic). The size of it is the model's.
    for (celsius, expected) in [(20.0, -6.8), (30.0, -19.7)] {
        let mixing_line = 0.8 * percent(&blend(1.0, 0.0, 0.0), celsius) + 0.2 * percent(&blend(0.0, 1.0, 0.0), celsius);
        let below = percent(&blend(0.8, 0.2, 0.0), celsius) - mixing_line;
        assert!((below - expected).abs() < 0.06, "{celsius} °C: {below}, expected {expected}");
    }
}

#[test]
fn solid_fat_falls_steadily_with_milk_fat() {
    // Full, Yella Reddy, Dimick and Ziegler 1996, J. Food Sci. 61:1068, abstract: from 12 to 40 % milk fat in the fat of
    // milk chocolate, solid fat and melting point fall steadily.
    let fats: Vec<FatPhase> = (12..=40).map(|share| blend(f64::from(100 - share), f64::from(share), 0.0)).collect();
    for pair in fats.windows(2) {
        assert!(percent(&pair[1], 20.0) < percent(&pair[0], 20.0));
        assert!(pair[1].melting_limit(Form::V) < pair[0].melting_limit(Form::V));
    }
}
