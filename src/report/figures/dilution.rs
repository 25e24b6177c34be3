//! The form V limit against what dilutes the cocoa butter: why milk chocolate wants a lower temperature than dark.

use crate::analysis::Analysis;
use crate::analysis::fat::{FatGrams, FatPhase, Form};
use crate::number::{DecimalSign, fixed};
use crate::recipe::CocoaButter;
use crate::report::figure::{AxisRange, Curve, Figure, Mark, Role, Side};
use crate::report::hue::Hue;
use crate::units::Grams;

/// The limits of cocoa butter with one other fat, against the share of that fat in percent.
#[derive(Clone, Debug, PartialEq)]
pub struct DilutionCurves {
    /// With milk fat.
    pub milk_fat: Vec<[f64; 2]>,
    /// With liquid oil.
    pub oil: Vec<[f64; 2]>,
}

/// Most of the fat that is not cocoa butter: above it the limit is not told.
const MOST: u8 = 90;
/// Steps of the curves, in points of percent.
const STEP: usize = 3;

/// The form V limit of a cocoa butter with more and more milk fat, or oil.
#[must_use]
pub fn dilution_curves(cocoa_butter: CocoaButter) -> DilutionCurves {
    let curve = |mixed: &dyn Fn(Grams, Grams) -> FatGrams| {
        let points = (0..=MOST).step_by(STEP).filter_map(|percent| {
            let other = f64::from(percent);
            let grams = mixed(Grams(100.0 - other), Grams(other));
            let limit = FatPhase::new(&grams, cocoa_butter).ok()?.melting_limit(Form::V)?;
            Some([other, limit.0])
        });
        points.collect()
    };
    DilutionCurves {
        milk_fat: curve(&|cocoa_butter, milk_fat| FatGrams { cocoa_butter, milk_fat, ..FatGrams::default() }),
        oil: curve(&|cocoa_butter, liquid_oil| FatGrams { cocoa_butter, liquid_oil, ..FatGrams::default() }),
    }
}

/// The curves with this mass and the pinned state; `None` without a form V limit.
#[must_use]
pub fn dilution_plot(
    analysis: &Analysis,
    pinned: Option<&Analysis>,
    curves: &DilutionCurves,
    sign: DecimalSign,
) -> Option<Figure> {
    let place = |analysis: &Analysis| {
        let fat = analysis.fat.as_ref().ok()?;
        Some([100.0 * (1.0 - fat.blended.cocoa_butter_share().0), fat.limits.form_v?.0])
    };
    let here = place(analysis)?;
    let there = pinned.and_then(place);
    let points = || there.into_iter().chain([here]);
    let widest = points().map(|point| point[0]).fold(60.0, f64::max);
    let x = AxisRange::from_zero("not cocoa butter, % of the fat", widest);
    let is_seen = |point: &&[f64; 2]| point[0] <= x.to;
    let all = curves.milk_fat.iter().chain(&curves.oil).filter(is_seen).copied().chain(points());
    let lowest = all.map(|point| point[1]).fold(30.0, f64::min);
    let y = AxisRange { label: "form V limit, °C", from: (lowest / 5.0).floor() * 5.0, to: 35.0, step: 5.0 };
    let mut marks = Vec::new();
    if let Some(at) = there {
        marks.push(Mark { label: String::new(), role: Role::Pinned, at, side: Side::LeftBelow });
    }
    let label = format!("{} °C at {} %", fixed(here[1], 1, sign), fixed(here[0], 0, sign));
    marks.push(Mark { label: label.clone(), role: Role::Now, at: here, side: Side::RightAbove });
    let curves = vec![
        Curve::new("with liquid oil alone", Role::Reference, curves.oil.clone()),
        Curve::new("with milk fat alone", Role::Limit, curves.milk_fat.clone()),
    ];
    let in_words = format!("dilution: {label} of fat that is not cocoa butter");
    let levels = super::thermometer_level(analysis.at, &y, sign).into_iter().collect();
    let (regions, rules) = (Vec::new(), Vec::new());
    Some(Figure { hue: Hue::CocoaButter, x, y, regions, curves, rules, levels, marks, in_words })
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::analysis::{ROOM, analyse};
    use crate::ingredient::Library;
    use crate::recipe::{Quantity, Recipe};

    /// Pure West African cocoa butter melts at 33.79 °C; more of another fat never raises the limit.
    #[test]
    fn dilution_lowers_the_limit() {
        let curves = dilution_curves(CocoaButter::default());
        for curve in [&curves.milk_fat, &curves.oil] {
            assert_abs_diff_eq!(curve[0][1], 33.79, epsilon = 0.005);
            assert!(curve.len() > 20);
            assert!(curve.windows(2).all(|pair| pair[1][1] <= pair[0][1]), "{curve:?}");
        }
    }

    #[test]
    fn a_mass_of_cocoa_butter_and_milk_fat_lies_on_its_curve() {
        let mut recipe = Recipe::default();
        for (id, grams) in [("cocoa-butter", 76.0), ("milk-fat-anhydrous", 24.0)] {
            let ingredient = Library::built_in().by_id(id).expect("it is built in").clone();
            recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
        }
        let curves = dilution_curves(recipe.cocoa_butter);
        let figure = dilution_plot(&analyse(&recipe, ROOM), None, &curves, DecimalSign::Point).expect("a limit");
        let mark = &figure.marks[0];
        let on_curve = Curve::new("", Role::Limit, curves.milk_fat).at(mark.at[0]).expect("within the curve");
        assert_abs_diff_eq!(mark.at[1], on_curve, epsilon = 0.02);
        let mut water = Recipe::default();
        let ingredient = Library::built_in().by_id("water").expect("it is built in").clone();
        water.push(ingredient, Quantity::from_grams(10.0).expect("an amount"));
        let curves = dilution_curves(water.cocoa_butter);
        assert_eq!(dilution_plot(&analyse(&water, ROOM), None, &curves, DecimalSign::Point), None);
    }
}
