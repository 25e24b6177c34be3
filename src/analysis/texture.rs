//! What the solid fat of a mass means for its texture: how firm it is at which temperature, how much it shrinks, when
//! water condenses on it.
//!
//! Equilibrium only: how fast a mass sets is not told here. In a ganache sugar, cocoa and water count for its firmness as
//! much as the fat does; they are not in it.

use super::emulsion::EmulsionState;
use super::fat::{FatGrams, FatPhase};
use super::fat_crystals::FatCrystals;
use super::parts::{Group, Parts};
use super::root::{Tolerance, rising_root};
use super::water::boiling::vapour_pressure;
use super::{Analysis, ROOM};
use crate::recipe::setting::WARMEST_STORE;
use crate::recipe::{CocoaButter, Kind, Storage, Use};
use crate::units::{Celsius, Grams, GramsPerMillilitre, MassFraction};

/// The temperatures at which texture is told: a refrigerator, a wine cooler, a cool and a warm room, a summer's day.
pub const TEMPERATURES: [Celsius; 6] = [Celsius(4.0), Celsius(16.0), WARMEST_STORE, ROOM, Celsius(22.0), Celsius(25.0)];

/// How much firmer a fat network is than its solid fat: the exponent, likely and at its ends.
///
/// Source: fat networks, 1/(3 − D) with D 2.4 to 2.8 (from memory).
pub const FIRMNESS_EXPONENTS: [f64; 3] = [3.0, 2.0, 5.0];

/// The density of all of a chocolate that is not fat, for its contraction.
pub const CHOCOLATE_SOLIDS: GramsPerMillilitre = GramsPerMillilitre(1.5);

/// The solid fat at one of the temperatures of texture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Firmness {
    /// The temperature.
    pub at: Celsius,
    /// Solid fat, as a share of the fat.
    pub of_fat: MassFraction,
    /// Fat crystals, as a share of the mass.
    pub of_mass: MassFraction,
}

/// The solid fat at [`TEMPERATURES`].
#[must_use]
pub fn firmness(fat: &FatCrystals, bowl: Grams) -> Vec<Firmness> {
    let fat_share = if bowl.0 > 0.0 { fat.grams.total() / bowl } else { MassFraction::ZERO };
    let at = |at: Celsius| {
        let solid = fat.curve.iter().find(|point| point.celsius == at)?.solid.total();
        Some(Firmness { at, of_fat: solid, of_mass: MassFraction(solid.0 * fat_share.0) })
    };
    TEMPERATURES.into_iter().filter_map(at).collect()
}

/// Fat crystals of a mass in a room of 20 °C, as a share of the mass.
#[must_use]
pub fn crystals_in_room(fat: &FatCrystals, bowl: Grams) -> Option<MassFraction> {
    firmness(fat, bowl).into_iter().find(|firmness| firmness.at == ROOM).map(|firmness| firmness.of_mass)
}

/// How much more cocoa butter brings the crystals of a mass at 20 °C to a share of it.
///
/// Solved for x: S(x)·(F + x) = share·(M + x); S the solid fat of the mixed fats with x more cocoa butter, F all fat, M the
/// mass. `None` where it takes more than half as much as there is mass, or none at all.
#[must_use]
pub fn cocoa_butter_for_crystals(
    fat: &FatCrystals,
    cocoa_butter: CocoaButter,
    bowl: Grams,
    share: MassFraction,
) -> Option<Grams> {
    /// More nobody adds: it is another recipe.
    const MOST: f64 = 0.5;
    const TOLERANCE: Tolerance = Tolerance { relative: 1e-6, absolute: 1e-9 };
    let beyond = |more: f64| {
        let grams = FatGrams { cocoa_butter: fat.grams.cocoa_butter + Grams(more), ..fat.grams };
        let solid = FatPhase::new(&grams, cocoa_butter).ok()?.solid_fat(ROOM).total();
        Some(solid.0 * (fat.grams.total().0 + more) - share.0 * (bowl.0 + more))
    };
    let most = bowl.0 * MOST;
    let (now, at_most) = (beyond(0.0)?, beyond(most)?);
    let slope = (at_most - now) / most;
    let guess = -now / slope;
    (now < 0.0 && at_most >= 0.0)
        .then(|| Grams(rising_root((0.0, most), guess, TOLERANCE, |more| (beyond(more).unwrap_or(f64::NAN), slope))))
}

/// How firm a mass is against another state of it with the same particles and the same water: likely, least and most.
///
/// (S/S₀)^m, S the solid fat, m 3 (2 to 5); `None` where the other state has no solid fat.
///
/// Source: fat networks ([`FIRMNESS_EXPONENTS`]). Milk fat 10 % of the fat at 20 °C leaves 67.9 of 77.1 % solid:
///
/// ```
/// # use nibwright::analysis::texture::relative_firmness;
/// # use nibwright::units::MassFraction;
/// let [likely, least, most] = relative_firmness(MassFraction(0.679), MassFraction(0.771)).unwrap();
/// assert!((likely - 0.68).abs() < 0.005 && least < likely && likely < most);
/// ```
#[must_use]
pub fn relative_firmness(now: MassFraction, before: MassFraction) -> Option<[f64; 3]> {
    let ratio = now.0 / before.0;
    (before.0 > 0.0 && ratio.is_finite()).then(|| {
        let [likely, one, other] = FIRMNESS_EXPONENTS.map(|exponent| ratio.powf(exponent));
        [likely, one.min(other), one.max(other)]
    })
}

/// The densities of fat at a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FatDensities {
    /// Of liquid fat.
    pub liquid: GramsPerMillilitre,
    /// Of crystals of form V.
    pub crystals: GramsPerMillilitre,
}

/// The densities of liquid fat and of its crystals.
///
/// ρ_l = 895 − 0.68·(t − 40), ρ_c = 990 − 0.25·(t − 20) kg/m³
///
/// Source: densities of oils (from memory) and of form V (derived from bulk densities of solid cocoa butter). Range 0 to
/// 40 °C.
///
/// ```
/// # use nibwright::{analysis::texture::fat_densities, units::Celsius};
/// let densities = fat_densities(Celsius(30.0));
/// assert!((densities.liquid.0 - 0.9018).abs() < 1e-9 && (densities.crystals.0 - 0.9875).abs() < 1e-9);
/// ```
#[must_use]
pub fn fat_densities(at: Celsius) -> FatDensities {
    FatDensities {
        liquid: GramsPerMillilitre((895.0 - 0.68 * (at.0 - 40.0)) / 1000.0),
        crystals: GramsPerMillilitre((990.0 - 0.25 * (at.0 - 20.0)) / 1000.0),
    }
}

/// How much a mass shrinks when its fat sets, as a share of its volume and of its length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contraction {
    /// Of the volume.
    pub volume: f64,
    /// Of each length.
    pub length: f64,
}

/// How much a mass shrinks when so much of its fat is solid at a temperature, against the same mass with all fat liquid.
///
/// v = φ·((1 − S)/ρ_l + S/ρ_c) + (1 − φ)/ρ_n; ρ_l and ρ_c of [`fat_densities`]
///
/// Source: that of the densities. Range 0 to 40 °C. Air and the way in which the mass lies in its mould are not in it.
///
/// Plain chocolate with 38.5 % fat, 77.13 % of it solid at 20 °C, shrinks by 3.22 % of its volume:
///
/// ```
/// # use nibwright::analysis::texture::{CHOCOLATE_SOLIDS, contraction};
/// # use nibwright::units::{Celsius, MassFraction};
/// let shrinks = contraction(MassFraction(0.385), MassFraction(0.7713), Celsius(20.0), CHOCOLATE_SOLIDS);
/// assert!((shrinks.volume - 0.0322).abs() < 5e-5 && (shrinks.length - 0.0109).abs() < 5e-5);
/// ```
#[must_use]
pub fn contraction(
    fat: MassFraction,
    solid: MassFraction,
    at: Celsius,
    other_density: GramsPerMillilitre,
) -> Contraction {
    let FatDensities { liquid, crystals } = fat_densities(at);
    let volume = |solid: f64| fat.0 * ((1.0 - solid) / liquid.0 + solid / crystals.0) + (1.0 - fat.0) / other_density.0;
    let ratio = volume(solid.0) / volume(0.0);
    Contraction { volume: 1.0 - ratio, length: 1.0 - ratio.cbrt() }
}

/// How much the mass of a recipe shrinks on setting, at 20 °C against the same mass with all fat liquid.
///
/// `None` where the fat is not known.
#[must_use]
pub fn contraction_of(analysis: &Analysis) -> Option<Contraction> {
    let fat = analysis.fat.as_ref().ok()?;
    let solid = fat.curve.iter().find(|point| point.celsius == ROOM)?.solid.total();
    contraction_of_bowl(&analysis.make_up.bowl, analysis.emulsion, solid)
}

/// How much a mass shrinks of whose fat so much is solid at 20 °C.
///
/// What is not fat has the density of the emulsion's other phases, in a mass without a water phase
/// [`CHOCOLATE_SOLIDS`]. `None` where the fat is not known.
#[must_use]
pub fn contraction_of_bowl(bowl: &Parts, emulsion: EmulsionState, solid: MassFraction) -> Option<Contraction> {
    let (fat, share) = (bowl.group(Group::TotalFat)?, bowl.group_share(Group::TotalFat)?);
    let other = emulsion.emulsion().map_or(CHOCOLATE_SOLIDS, |emulsion| {
        GramsPerMillilitre((bowl.total() - fat).0 / (emulsion.water_phase + emulsion.insoluble).0)
    });
    other.0.is_finite().then(|| contraction(share, solid, ROOM, other))
}

/// The dew point: how cold a surface is on which the water of the air condenses.
///
/// t = 243.12·γ/(17.62 − γ), γ = ln(h) + 17.62·T/(243.12 + T), h the relative humidity as a share
///
/// Source: Magnus formula with the constants of the WMO guide to instruments (from memory). From −45 to 60 °C within
/// 0.4 K. −∞ in dry air.
///
/// ```
/// # use nibwright::{analysis::texture::dew_point, units::Celsius};
/// assert!((dew_point(Celsius(20.0), 0.5).0 - 9.3).abs() < 0.05);
/// ```
#[must_use]
pub fn dew_point(room: Celsius, humidity: f64) -> Celsius {
    let gamma = humidity.ln() + 17.62 * room.0 / (243.12 + room.0);
    if humidity > 0.0 { Celsius(243.12 * gamma / (17.62 - gamma)) } else { Celsius(f64::NEG_INFINITY) }
}

/// The relative humidity of a room from which on water condenses on something that comes from the cold, as a share.
///
/// p(water, cold)/p(water, room). Source: vapour pressure of water (`wagner-pruss-2002`). 1 where it is not colder than the
/// room.
#[must_use]
pub fn condensation_from(cold: Celsius, room: Celsius) -> f64 {
    (vapour_pressure(cold).0 / vapour_pressure(room).0).min(1.0)
}

/// How cold a piece may be that comes into the room of a storage without getting wet: the dew point there.
#[must_use]
pub fn dew_point_in_room(storage: &Storage) -> Celsius {
    dew_point(storage.room.celsius(), storage.humidity.share().0)
}

/// Whether water condenses on pieces that come from the store into the room.
#[must_use]
pub fn gets_wet(storage: &Storage) -> bool {
    storage.at.celsius() < dew_point_in_room(storage)
}

/// Fat crystals in the mass that are usual, as shares of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualCrystals {
    /// So many at least.
    pub low: MassFraction,
    /// So many at most; `None` where more does no harm.
    pub high: Option<MassFraction>,
}

/// Fat crystals in the mass that are usual for a filling, as shares; `None` where none are known for the use.
///
/// Source: usual recipes computed with this model; common practice, no published source.
#[must_use]
pub fn usual_crystals(kind: Kind, intended_use: Option<Use>) -> Option<UsualCrystals> {
    let range = |low, high| Some(UsualCrystals { low: MassFraction(low), high: Some(MassFraction(high)) });
    match (kind, intended_use?) {
        (Kind::Ganache, Use::Cut) => Some(UsualCrystals { low: MassFraction(0.15), high: None }),
        (Kind::Ganache, Use::Piped) => range(0.10, 0.15),
        // The usual moulded dark ganache, equal parts of couverture and cream, has 14 %.
        (Kind::Ganache, Use::Moulded) => range(0.06, 0.15),
        // Nuts and sugar carry a praline that is cut: its usual crystals are not known.
        (Kind::Praline, Use::Moulded) => range(0.06, 0.13),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// Psychrometric tables: dew points of air at 20 and 25 °C (handbook values, from memory).
    #[test]
    fn the_dew_point_is_that_of_the_tables() {
        for (room, humidity, expected) in
            [(20.0, 1.0, 20.0), (20.0, 0.6, 12.0), (25.0, 0.5, 13.9), (25.0, 0.7, 19.1), (30.0, 0.4, 14.9)]
        {
            assert_abs_diff_eq!(dew_point(Celsius(room), humidity).0, expected, epsilon = 0.1);
        }
        assert_eq!(dew_point(Celsius(20.0), 0.0).0, f64::NEG_INFINITY);
    }

    /// By the vapour pressure of the steam tables and by the Magnus formula the same.
    #[test]
    fn water_condenses_where_the_dew_point_says_so() {
        for (cold, room) in [(4.0, 20.0), (12.0, 22.0), (16.0, 25.0), (18.0, 20.0)] {
            let humidity = condensation_from(Celsius(cold), Celsius(room));
            assert_abs_diff_eq!(dew_point(Celsius(room), humidity).0, cold, epsilon = 0.05);
        }
        assert_eq!(condensation_from(Celsius(25.0), Celsius(20.0)), 1.0);
    }

    /// Milk fat 10, 20 and 30 % of the fat at 20 °C: solid 67.9, 58.6, 50.7 % of 77.1, firmness 0.68, 0.44, 0.28.
    #[test]
    fn milk_fat_softens() {
        use crate::analysis::fat::{FatGrams, FatPhase};
        for (milk_fat, solid, expected) in [(10.0, 0.679, 0.68), (20.0, 0.586, 0.44), (30.0, 0.507, 0.28)] {
            let grams =
                FatGrams { cocoa_butter: Grams(100.0 - milk_fat), milk_fat: Grams(milk_fat), ..FatGrams::default() };
            let phase = FatPhase::new(&grams, CocoaButter::WestAfrican).expect("a fat");
            assert_abs_diff_eq!(phase.solid_fat(ROOM).total().0, solid, epsilon = 5e-4);
            let [likely, least, most] = relative_firmness(MassFraction(solid), MassFraction(0.7713)).expect("solid");
            assert_abs_diff_eq!(likely, expected, epsilon = 0.005);
            assert!(least < likely && likely < most);
        }
        let [likely, least, most] = relative_firmness(MassFraction(0.8), MassFraction(0.4)).expect("solid");
        assert_eq!([likely, least, most], [8.0, 4.0, 32.0]);
        assert_eq!(relative_firmness(MassFraction(0.5), MassFraction::ZERO), None);
    }

    /// By hand: in a mass of 100 g with 20 g of cocoa butter alone, 77.13 % of it solid, 15.426 g are crystals; for 20 % of the
    /// mass 0.7713·(20 + x) = 0.2·(100 + x), x = 8.006 g.
    #[test]
    fn so_much_cocoa_butter_brings_the_crystals() {
        use crate::analysis::analyse;
        use crate::ingredient::Library;
        use crate::recipe::{Quantity, Recipe};
        let mut recipe = Recipe::default();
        for (id, grams) in [("cocoa-butter", 20.0), ("sucrose", 80.0)] {
            let ingredient = Library::built_in().by_id(id).expect("built in").clone();
            recipe.push(ingredient, Quantity::from_grams(grams).expect("an amount"));
        }
        let analysis = analyse(&recipe, ROOM);
        let fat = analysis.fat.as_ref().expect("there is fat");
        let more = |share| {
            cocoa_butter_for_crystals(fat, recipe.cocoa_butter, analysis.make_up.bowl.total(), MassFraction(share))
        };
        assert_abs_diff_eq!(more(0.2).expect("it can be").0, 8.006, epsilon = 0.01);
        assert_eq!((more(0.10), more(0.7)), (None, None));
    }

    /// Densities at 20 °C: oils from memory, form V derived from bulk densities of solid cocoa butter.
    #[test]
    fn densities_at_room_temperature() {
        let densities = fat_densities(Celsius(20.0));
        assert_abs_diff_eq!(densities.liquid.0, 0.9086, epsilon = 5e-5);
        assert_abs_diff_eq!(densities.crystals.0, 0.9900, epsilon = 5e-5);
    }

    /// Fillings of usual recipes, computed with this model and not published: their solid fat at 20 °C and crystals in the mass,
    /// within a point (cut dark ganache; piped milk ganache; moulded dark ganache; hazelnut praline with oil as its other fat).
    #[test]
    fn usual_fillings_have_the_crystals_that_are_told_of_them() {
        use crate::analysis::fat::{FatGrams, FatPhase};
        use crate::recipe::CocoaButter;
        for (fat, cocoa_butter, is_oil, solid, crystals) in [
            (0.41, 61.0, false, 44.0, 18.0),
            (0.36, 55.0, false, 40.0, 14.0),
            (0.375, 53.0, false, 38.0, 14.0),
            (0.38, 42.0, true, 22.0, 8.0),
        ] {
            let other = Grams(100.0 - cocoa_butter);
            let cocoa_butter = Grams(cocoa_butter);
            let grams = if is_oil {
                FatGrams { cocoa_butter, liquid_oil: other, ..FatGrams::default() }
            } else {
                FatGrams { cocoa_butter, milk_fat: other, ..FatGrams::default() }
            };
            let phase = FatPhase::new(&grams, CocoaButter::WestAfrican).expect("a fat");
            let found = phase.solid_fat(Celsius(20.0)).total().to_percent();
            assert_abs_diff_eq!(found, solid, epsilon = 1.2);
            assert_abs_diff_eq!(found * fat, crystals, epsilon = 1.0);
        }
    }

    #[test]
    fn what_does_not_set_does_not_shrink_and_more_solid_fat_shrinks_more() {
        let shrinks =
            |solid| contraction(MassFraction(0.35), MassFraction(solid), Celsius(18.0), CHOCOLATE_SOLIDS).volume;
        assert_eq!(shrinks(0.0), 0.0);
        assert!(shrinks(0.4) > shrinks(0.2) && shrinks(0.9) > shrinks(0.4));
    }
}
