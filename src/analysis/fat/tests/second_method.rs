//! The same equilibrium by nested halving, written straight from its definition: slow, short, and nothing to get wrong.

use proptest::prelude::*;

use super::super::components::{
    Behaviour, COCONUT, Crystal, FatComponent, LIQUID_OIL, MILK_FAT, PALM, PALM_KERNEL, cocoa_butter_parts,
};
use super::super::{FatGrams, FatPhase, Form, SolidFat};
use super::properties::{any_cocoa_butter, any_grams};
use crate::recipe::CocoaButter;
use crate::units::{Celsius, MassFraction};

/// Of a share, and of a limit in kelvin.
const AGREEMENT: f64 = 1e-9;

/// The shift of the solid solution's melting points, K.
fn shift(form: Form) -> f64 {
    match form {
        Form::IV => -6.3,
        Form::V => 0.0,
        Form::VI => 2.5,
    }
}

struct Plain {
    /// FatComponent and moles in one mole of fat.
    moles: Vec<(FatComponent, f64)>,
    mean_molar_mass: f64,
}

impl Plain {
    fn new(grams: &FatGrams, cocoa_butter: CocoaButter) -> Self {
        let cocoa_butter = cocoa_butter_parts(cocoa_butter);
        let fats = [
            (grams.cocoa_butter, cocoa_butter.as_slice()),
            (grams.milk_fat, MILK_FAT),
            (grams.liquid_oil, LIQUID_OIL),
            (grams.coconut, COCONUT),
            (grams.palm_kernel, PALM_KERNEL),
            (grams.palm, PALM),
        ];
        let moles: Vec<(FatComponent, f64)> = FatComponent::ALL
            .iter()
            .map(|component| {
                let of_fat = |(grams, parts): &(crate::units::Grams, &[(FatComponent, f64)])| -> f64 {
                    parts.iter().filter(|(part, _)| part == component).map(|(_, percent)| grams.0 * percent).sum()
                };
                (*component, fats.iter().map(of_fat).sum::<f64>() / component.molar_mass())
            })
            .collect();
        let total: f64 = moles.iter().map(|(_, moles)| moles).sum();
        let moles: Vec<(FatComponent, f64)> = moles.into_iter().map(|(part, moles)| (part, moles / total)).collect();
        let mean_molar_mass = moles.iter().map(|(component, moles)| moles * component.molar_mass()).sum();
        Self { moles, mean_molar_mass }
    }

    fn total_liquid(&self, kelvin: f64, shift: f64, ratio: f64) -> f64 {
        let excess = |liquid: f64| -> f64 {
            let parts = self.moles.iter().map(|(component, n)| match component.behaviour() {
                Behaviour::SolidSolution(crystal) => n / (1.0 + partition(crystal, kelvin, shift) * ratio),
                Behaviour::Pure(crystal) => n.min(liquid * solubility(crystal, kelvin)),
                Behaviour::Liquid => *n,
            });
            parts.sum::<f64>() - liquid
        };
        halve(0.0, 1.0, excess)
    }

    /// F: mole fractions of the solid solution sum to more than 1 where it is positive.
    fn solid_solution_excess(&self, kelvin: f64, shift: f64, ratio: f64) -> f64 {
        let parts = self.moles.iter().map(|(component, n)| match component.behaviour() {
            Behaviour::SolidSolution(crystal) => {
                let partition = partition(crystal, kelvin, shift);
                partition * n / (1.0 + partition * ratio)
            }
            _ => 0.0,
        });
        parts.sum::<f64>() - self.total_liquid(kelvin, shift, ratio)
    }

    fn solid_fat(&self, celsius: f64, form: Form) -> SolidFat {
        let (kelvin, shift) = (celsius + 273.15, shift(form));
        let excess = |ratio: f64| self.solid_solution_excess(kelvin, shift, ratio);
        let ratio = if excess(0.0) <= 0.0 {
            0.0
        } else {
            let mut high = 1.0;
            while excess(high) >= 0.0 {
                high *= 2.0;
            }
            halve(0.0, high, excess)
        };
        let liquid = self.total_liquid(kelvin, shift, ratio);
        let (mut form_v, mut other) = (0.0, 0.0);
        for (component, n) in &self.moles {
            match component.behaviour() {
                Behaviour::SolidSolution(crystal) => {
                    let partition = partition(crystal, kelvin, shift);
                    form_v += n * partition * ratio / (1.0 + partition * ratio) * component.molar_mass();
                }
                Behaviour::Pure(crystal) => {
                    other += (n - liquid * solubility(crystal, kelvin)).max(0.0) * component.molar_mass();
                }
                Behaviour::Liquid => {}
            }
        }
        SolidFat {
            form_v: MassFraction(form_v / self.mean_molar_mass),
            other: MassFraction(other / self.mean_molar_mass),
        }
    }

    fn melting_limit(&self, form: Form) -> Option<f64> {
        let excess = |celsius: f64| self.solid_solution_excess(celsius + 273.15, shift(form), 0.0);
        (excess(-10.0) > 0.0 && excess(60.0) < 0.0).then(|| halve(-10.0, 60.0, excess))
    }
}

/// K.
fn partition(crystal: Crystal, kelvin: f64, shift: f64) -> f64 {
    let heat = crystal.heat_of_fusion * 1000.0 / 8.314462618;
    (heat * (1.0 / kelvin - 1.0 / (crystal.melting_point.0 + shift + 273.15))).exp()
}

/// X, without limit above the melting point.
fn solubility(crystal: Crystal, kelvin: f64) -> f64 {
    let melting = crystal.melting_point.0 + 273.15;
    let heat = crystal.heat_of_fusion * 1000.0 / 8.314462618;
    if kelvin < melting { (-heat * (1.0 / kelvin - 1.0 / melting)).exp() } else { f64::INFINITY }
}

/// The root of a falling function, to the last bit or a relative 1e-15.
fn halve(mut low: f64, mut high: f64, falling: impl Fn(f64) -> f64) -> f64 {
    while high - low > 1e-15 * high.abs().max(low.abs()) {
        let middle = f64::midpoint(low, high);
        if middle == low || middle == high {
            break;
        }
        if falling(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

fn check_agreement(grams: &FatGrams, cocoa_butter: CocoaButter, celsius: f64) -> Result<(), TestCaseError> {
    let plain = Plain::new(grams, cocoa_butter);
    let fat = FatPhase::new(grams, cocoa_butter).map_err(|error| TestCaseError::fail(error.to_string()))?;
    let (expected, solid) = (plain.solid_fat(celsius, Form::V), fat.solid_fat(Celsius(celsius)));
    prop_assert!((solid.form_v - expected.form_v).0.abs() < AGREEMENT, "{solid:?}, expected {expected:?}");
    prop_assert!((solid.other - expected.other).0.abs() < AGREEMENT, "{solid:?}, expected {expected:?}");
    Ok(())
}

proptest! {
    // Each case is one blend at one temperature; the slow method takes about a millisecond.
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn both_methods_agree_on_solid_fat(
        grams in any_grams(),
        cocoa_butter in any_cocoa_butter(),
        celsius in -20.0..70.0,
    ) {
        check_agreement(&grams, cocoa_butter, celsius)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn both_methods_agree_on_other_forms_and_on_limits(grams in any_grams(), cocoa_butter in any_cocoa_butter()) {
        let plain = Plain::new(&grams, cocoa_butter);
        let fat = FatPhase::new(&grams, cocoa_butter).unwrap();
        for form in Form::ALL {
            let (expected, solid) = (plain.solid_fat(22.0, form).total(), fat.solid_fat_in_form(Celsius(22.0), form));
            prop_assert!((solid - expected).0.abs() < AGREEMENT, "{form:?}: {solid:?}, expected {expected:?}");
            if fat.cocoa_butter_share() >= MassFraction(0.1) {
                let (expected, limit) = (plain.melting_limit(form), fat.melting_limit(form).map(|limit| limit.0));
                if let (Some(expected), Some(limit)) = (expected, limit) {
                    prop_assert!((limit - expected).abs() < AGREEMENT, "{form:?}: {limit}, expected {expected}");
                } else {
                    prop_assert_eq!(limit, expected);
                }
            }
        }
    }
}
