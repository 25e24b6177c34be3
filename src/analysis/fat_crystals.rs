//! How the fat of a mass sets and melts, with the uncertainty of it.

use super::emulsion::EmulsionState;
use super::fat::{FatGrams, FatPhase, FatPhaseError, Form, SolidFat};
use super::is_below;
use super::make_up::MakeUp;
use super::parts::{Group, Parts};
use crate::ingredient::{Component, OtherFatKind};
use crate::recipe::Recipe;
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

/// The curve runs over whole degrees from 0 °C to this.
pub const CURVE_END: u8 = 45;

/// Cocoa butter in the fat from which on it counts as pure: the lecithin of a couverture does not make a blend (judged).
pub const PURE: MassFraction = MassFraction(0.98);

/// Below this share of cocoa butter in the fat the uncertainty of the solid fat is not known (judged).
pub const LEAST_FOR_UNCERTAINTY: MassFraction = MassFraction(0.30);

/// Lowest and highest temperature at which the model has been held against measured fats.
pub const HELD_AGAINST_MEASURED: (Celsius, Celsius) = (Celsius(15.0), Celsius(35.0));

// One standard deviation each. All are judged, not measured: from how well the model meets the fats that it was fitted
// to (`shukla-1995`, `wille-lutton-1966`) and from what other models say of blends.

/// Of the solid fat of pure cocoa butter of known type up to [`STEEP_FROM`], points of percent.
pub const PURE_UNCERTAINTY_POINTS: f64 = 2.5;
/// Of the solid fat of pure cocoa butter of known type above [`STEEP_FROM`], points of percent.
pub const PURE_STEEP_UNCERTAINTY_POINTS: f64 = 4.0;
/// Above this the solid fat of cocoa butter falls so steeply that it is known less well.
pub const STEEP_FROM: Celsius = Celsius(28.0);
/// Of the solid fat of blends, points of percent.
pub const BLEND_UNCERTAINTY_POINTS: f64 = 5.0;
/// What a cocoa butter of unknown origin adds to that of the solid fat, points of percent at 20 °C.
pub const UNKNOWN_ORIGIN_POINTS: f64 = 5.0;
/// Of the form V limit of pure cocoa butter of known type.
pub const PURE_LIMIT_UNCERTAINTY: Kelvin = Kelvin(0.5);
/// Of the form V limit of blends.
pub const BLEND_LIMIT_UNCERTAINTY: Kelvin = Kelvin(1.0);
/// What a cocoa butter of unknown origin adds to that of the form V limit.
pub const UNKNOWN_ORIGIN_LIMIT: Kelvin = Kelvin(0.7);
/// Of the limits of forms IV and VI, whatever the fat.
///
/// They are the limit of form V with all melting points shifted by what pure cocoa butter shows (`wille-lutton-1966`)
/// and the heats of form V.
pub const OTHER_LIMITS_UNCERTAINTY: Kelvin = Kelvin(1.0);

/// How the fat of a mass sets and melts.
#[derive(Clone, Debug)]
pub struct FatCrystals {
    /// All fats of the mass blended.
    pub blended: FatPhase,
    /// The fats outside globules, where the mass is an emulsion that has both.
    pub unmixed: Option<FatPhase>,
    /// What part of all fat those are; all of it where there is no fat in globules.
    pub unmixed_share: MassFraction,
    /// All fat in the bowl.
    pub grams: FatGrams,
    /// Where forms IV, V and VI melt; `None` where [`FatPhase::melting_limit`] is.
    pub limits: Limits,
    /// Solid fat at whole degrees from 0 to [`CURVE_END`], and at the temperature that was asked for, by temperature.
    pub curve: Vec<CurvePoint>,
    /// The temperature that was asked for.
    pub at: Celsius,
    /// Solid fat there.
    pub solid_at: SolidFat,
    /// One standard deviation of the solid fat at that temperature, in points of percent; judged, not measured.
    pub solid_fat_uncertainty_points: Option<f64>,
    /// One standard deviation of the form V limit; judged, not measured.
    pub limit_uncertainty: Option<Kelvin>,
    /// How far the form IV limit is known; `None` without that limit.
    pub form_iv_limit_uncertainty: Option<Kelvin>,
    /// How far the form VI limit is known; `None` without that limit.
    pub form_vi_limit_uncertainty: Option<Kelvin>,
}

/// Where the forms of cocoa butter melt in the mass's own fat.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Limits {
    /// Form IV.
    pub form_iv: Option<Celsius>,
    /// Form V, the form that seed brings.
    pub form_v: Option<Celsius>,
    /// Form VI.
    pub form_vi: Option<Celsius>,
}

impl Limits {
    /// Of a fat phase.
    #[must_use]
    pub fn of(phase: &FatPhase) -> Self {
        Self {
            form_iv: phase.melting_limit(Form::IV),
            form_v: phase.melting_limit(Form::V),
            form_vi: phase.melting_limit(Form::VI),
        }
    }
}

/// Solid fat at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// The temperature.
    pub celsius: Celsius,
    /// The solid fat.
    pub solid: SolidFat,
}

impl FatCrystals {
    /// One standard deviation of the solid fat at any temperature, in points of percent; judged, not measured.
    ///
    /// `None` below 30 % cocoa butter in the fat, and outside 15 to 35 °C.
    #[must_use]
    pub fn solid_fat_uncertainty_points_at(&self, at: Celsius) -> Option<f64> {
        solid_fat_uncertainty_points(self.blended.cocoa_butter_share(), at)
    }

    /// Fat crystals as a share of the bowl at the temperature that was asked for.
    #[must_use]
    pub fn crystals_of_mass(&self, bowl: Grams) -> MassFraction {
        if bowl.0 > 0.0 { (self.grams.total() * self.solid_at.total()) / bowl } else { MassFraction::ZERO }
    }
}

/// The fats of a mass by how they crystallise; `None` if one of them is not known.
#[must_use]
pub fn fat_grams(parts: &Parts) -> Option<FatGrams> {
    Some(FatGrams {
        cocoa_butter: parts.grams(Component::CocoaButter)?,
        milk_fat: parts.grams(Component::MilkFat)?,
        liquid_oil: parts.other_fat_of_kind(OtherFatKind::LiquidOil)?,
        coconut: parts.other_fat_of_kind(OtherFatKind::Coconut)?,
        palm_kernel: parts.other_fat_of_kind(OtherFatKind::PalmKernel)?,
        palm: parts.other_fat_of_kind(OtherFatKind::Palm)?,
    })
}

/// Why nothing can be said about the fat of a mass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoFatCrystals {
    /// A fat is not known.
    Unknown,
    /// There is no fat.
    NoFat,
    /// Nothing of the fat stays liquid: the model cannot tell.
    NoLiquid,
}

/// Limits and solid-fat curve of a mass.
///
/// # Errors
///
/// [`NoFatCrystals`] without fat, with a fat of which nothing stays liquid, or where a fat is not known.
pub fn fat_crystals(
    recipe: &Recipe,
    make_up: &MakeUp,
    emulsion: EmulsionState,
    at: Celsius,
) -> Result<FatCrystals, NoFatCrystals> {
    let grams = fat_grams(&make_up.bowl).ok_or(NoFatCrystals::Unknown)?;
    let blended = FatPhase::new(&grams, recipe.cocoa_butter).map_err(|error| match error {
        FatPhaseError::NoFat => NoFatCrystals::NoFat,
        FatPhaseError::NoLiquid => NoFatCrystals::NoLiquid,
    })?;
    let limits = Limits::of(&blended);
    let (temperatures, asked) = curve_temperatures(at);
    let solids = blended.solid_fat_curve(temperatures.iter().copied());
    let curve: Vec<CurvePoint> =
        temperatures.into_iter().zip(solids).map(|(celsius, solid)| CurvePoint { celsius, solid }).collect();
    let solid_at = curve[asked].solid;
    let cocoa_butter_in_fat = blended.cocoa_butter_share();
    let unmixed = emulsion.is_watery(&make_up.bowl).then(|| unmixed_phase(recipe)).flatten();
    Ok(FatCrystals {
        unmixed_share: unmixed.as_ref().map_or(MassFraction(1.0), |(_, free)| *free / grams.total()),
        unmixed: unmixed.map(|(phase, _)| phase),
        blended,
        grams,
        limits,
        curve,
        at,
        solid_at,
        solid_fat_uncertainty_points: solid_fat_uncertainty_points(cocoa_butter_in_fat, at),
        limit_uncertainty: limits.form_v.map(|_| limit_uncertainty(cocoa_butter_in_fat)),
        form_iv_limit_uncertainty: limits.form_iv.map(|_| OTHER_LIMITS_UNCERTAINTY),
        form_vi_limit_uncertainty: limits.form_vi.map(|_| OTHER_LIMITS_UNCERTAINTY),
    })
}

/// Whole degrees from 0 to [`CURVE_END`] with the temperature that was asked for in its place, and which place that is.
fn curve_temperatures(at: Celsius) -> (Vec<Celsius>, usize) {
    let mut temperatures: Vec<Celsius> = (0..=CURVE_END).map(|degrees| Celsius(f64::from(degrees))).collect();
    let place = temperatures.partition_point(|&celsius| celsius < at);
    if temperatures.get(place) != Some(&at) {
        temperatures.insert(place, at);
    }
    (temperatures, place)
}

/// The fat outside globules and how much it is, where the mass is an emulsion that has fat inside and outside them.
fn unmixed_phase(recipe: &Recipe) -> Option<(FatPhase, Grams)> {
    let mut free = Parts::default();
    let mut in_globules = Grams::ZERO;
    for line in &recipe.lines {
        if line.ingredient.fat_in_globules {
            let mut parts = Parts::default();
            parts.add(&line.ingredient, line.amount.grams());
            in_globules += parts.group(Group::TotalFat)?;
        } else {
            free.add(&line.ingredient, line.amount.grams());
        }
    }
    if in_globules.0 <= 0.0 {
        return None;
    }
    let grams = fat_grams(&free)?;
    Some((FatPhase::new(&grams, recipe.cocoa_butter).ok()?, grams.total()))
}

/// Whether the model has been held against measured fats at this temperature.
#[must_use]
pub fn is_held_against_measured(at: Celsius) -> bool {
    (HELD_AGAINST_MEASURED.0..=HELD_AGAINST_MEASURED.1).contains(&at)
}

/// One standard deviation of the solid fat, in points of percent.
///
/// Judged for 20–33 °C, taken on to 15 and 35 °C; `None` below 30 % cocoa butter in the fat and outside 15–35 °C, where
/// nobody knows. A cocoa butter of unknown origin adds [`UNKNOWN_ORIGIN_POINTS`].
pub(crate) fn solid_fat_uncertainty_points(cocoa_butter_in_fat: MassFraction, at: Celsius) -> Option<f64> {
    if is_below(cocoa_butter_in_fat.0, LEAST_FOR_UNCERTAINTY.0) || !is_held_against_measured(at) {
        return None;
    }
    Some(match (!is_below(cocoa_butter_in_fat.0, PURE.0), at > STEEP_FROM) {
        (true, false) => PURE_UNCERTAINTY_POINTS,
        (true, true) => PURE_STEEP_UNCERTAINTY_POINTS,
        (false, _) => BLEND_UNCERTAINTY_POINTS,
    })
}

/// One standard deviation of the form V limit; a cocoa butter of unknown origin adds [`UNKNOWN_ORIGIN_LIMIT`].
pub(crate) fn limit_uncertainty(cocoa_butter_in_fat: MassFraction) -> Kelvin {
    if is_below(cocoa_butter_in_fat.0, PURE.0) { BLEND_LIMIT_UNCERTAINTY } else { PURE_LIMIT_UNCERTAINTY }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{ROOM, analyse};
    use crate::ingredient::Library;
    use crate::recipe::{CocoaButter, Quantity, Triglycerides};

    fn recipe(lines: &[(&str, f64)]) -> Recipe {
        let mut recipe = Recipe::default();
        for (id, grams) in lines {
            let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}"));
            recipe.push(ingredient.clone(), Quantity::from_grams(*grams).expect("an amount"));
        }
        recipe
    }

    fn fat(lines: &[(&str, f64)], at: Celsius) -> FatCrystals {
        analyse(&recipe(lines), at).fat.expect("there is fat")
    }

    /// An analysis of cocoa butter with next to nothing that stays liquid: the form accepts it, the model does not.
    fn hardly_liquid() -> CocoaButter {
        let analysis = Triglycerides {
            pop: 20.0,
            pos: 40.0,
            sos: 40.0,
            soa: 0.0,
            trisaturated: 0.0,
            other: 1e-14,
            diglycerides_percent: 0.0,
            free_fatty_acids_percent: 0.0,
        };
        CocoaButter::Own(analysis.checked().expect("something is liquid"))
    }

    #[test]
    fn why_nothing_is_known_of_a_fat() {
        let mut solid = recipe(&[("cocoa-butter", 100.0)]);
        solid.cocoa_butter = hardly_liquid();
        let mut unknown = recipe(&[("cocoa-butter", 100.0)]);
        let nothing_known = std::sync::Arc::new(crate::ingredient::Ingredient::unknown("base", "Base"));
        unknown.push(nothing_known, Quantity::from_grams(50.0).expect("an amount"));
        for (recipe, why, code) in [
            (recipe(&[("sucrose", 100.0)]), NoFatCrystals::NoFat, Some("fat.none")),
            (solid, NoFatCrystals::NoLiquid, Some("fat.no_liquid")),
            (unknown, NoFatCrystals::Unknown, None),
            (Recipe::default(), NoFatCrystals::NoFat, None),
        ] {
            let analysis = analyse(&recipe, ROOM);
            assert_eq!(analysis.fat.as_ref().err(), Some(&why));
            assert!(analysis.seeding.is_none(), "{why:?}");
            let found = analysis.findings.iter().find(|finding| finding.code.starts_with("fat."));
            assert_eq!(found.map(|finding| finding.code), code, "{why:?}");
        }
    }

    /// Judged, as the model's documentation states: form V ±0.5 K for cocoa butter, ±1 K for blends; IV and VI ±1 K.
    #[test]
    fn how_far_the_limits_are_known() {
        let kelvin = |fat: &FatCrystals| {
            [fat.form_iv_limit_uncertainty, fat.limit_uncertainty, fat.form_vi_limit_uncertainty]
                .map(|uncertainty| uncertainty.map(|kelvin| kelvin.0))
        };
        assert_eq!(kelvin(&fat(&[("cocoa-butter", 100.0)], ROOM)), [Some(1.0), Some(0.5), Some(1.0)]);
        let blend = fat(&[("cocoa-butter", 100.0), ("butter-82", 100.0)], ROOM);
        assert_eq!(kelvin(&blend), [Some(1.0); 3]);
        assert_eq!(kelvin(&fat(&[("cream-35", 100.0)], ROOM)), [None; 3]);
    }

    #[test]
    fn the_uncertainty_of_solid_fat_by_temperature() {
        let pure = fat(&[("cocoa-butter", 100.0)], ROOM);
        let at = |celsius| pure.solid_fat_uncertainty_points_at(Celsius(celsius));
        assert_eq!(
            [4.0, 15.0, 20.0, 28.0, 32.0, 36.0].map(at),
            [None, Some(2.5), Some(2.5), Some(2.5), Some(4.0), None]
        );
        assert_eq!(pure.solid_fat_uncertainty_points, at(ROOM.0));
    }
}
