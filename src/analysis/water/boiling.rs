//! When a syrup boils, and how much water is left at a cook temperature.
//!
//! A syrup boils when its water activity times the vapour pressure of water is the pressure of the air.

use super::solute::{Solute, Solution, Sums, WATER_MOLAR_MASS};
use crate::analysis::root::{Tolerance, rising_root};
use crate::units::{Celsius, Grams, JoulesPerGram, Kelvin, Kilopascals, Metres, WaterActivity};

/// Sucrose decomposes above this temperature; the model does not hold there.
pub const HOTTEST: Celsius = Celsius(150.0);

/// Below this water activity the constant for strong syrups turns over; the model refuses.
pub const DRIEST: WaterActivity = WaterActivity(0.20);

/// The pressure of the air at the sea, in the standard atmosphere.
pub const SEA_LEVEL: Metres = Metres(0.0);

/// The pressure of the air at a height, asked for heights of kitchens ([`crate::recipe::Height::RANGE`]).
///
/// p = 101.325·(1 − 2.25577e-5·h)^5.25588 kPa, h in m
///
/// Source: international standard atmosphere (`isa`, from memory). Weather moves it by some 3 %, which moves boiling by
/// 0.8 K.
#[must_use]
pub fn air_pressure(height: Metres) -> Kilopascals {
    Kilopascals(101.325 * (1.0 - 2.255_77e-5 * height.0).max(0.0).powf(5.255_88))
}

/// The vapour pressure of water.
///
/// ln(p/pc) = (Tc/T)·(−7.85951783·θ + 1.84408259·θ^1.5 − 11.7866497·θ³ + 22.6807411·θ^3.5 − 15.9618719·θ⁴ +
/// 1.80122502·θ^7.5), θ = 1 − T/Tc, Tc = 647.096 K, pc = 22 064 kPa
///
/// Source: Wagner and Pruss (`wagner-pruss-2002`), constants from memory, held against two implementations of IAPWS to
/// 0.02 % between 10 and 160 °C. Range 0.01 to 373.9 °C.
#[must_use]
pub fn vapour_pressure(at: Celsius) -> Kilopascals {
    const CRITICAL_K: f64 = 647.096;
    const CRITICAL_KPA: f64 = 22_064.0;
    let kelvin = at.to_kelvin().clamp(Celsius(0.01).to_kelvin(), CRITICAL_K);
    let theta = 1.0 - kelvin / CRITICAL_K;
    let root = theta.sqrt();
    let sum = -7.859_517_83 * theta + 1.844_082_59 * theta * root - 11.786_649_7 * theta.powi(3)
        + 22.680_741_1 * theta.powi(3) * root
        - 15.961_871_9 * theta.powi(4)
        + 1.801_225_02 * theta.powi(7) * root;
    Kilopascals(CRITICAL_KPA * (CRITICAL_K / kelvin * sum).exp())
}

/// The heat that turns water into steam at 100 °C.
///
/// Source: IAPWS-95 by an independent implementation (`coolprop-8`).
pub const VAPORISATION: JoulesPerGram = JoulesPerGram(2256.4);

/// What a kilowatt that goes into boiling water drives off in a minute.
///
/// 60 s · 1000 W ÷ [`VAPORISATION`]. What the air and the pan take of a burner is not in it.
///
/// ```
/// # use nibwright::analysis::water::boiling::boiled_off_by_a_kilowatt;
/// assert!((boiled_off_by_a_kilowatt().0 - 26.59).abs() < 0.005);
/// ```
#[must_use]
pub fn boiled_off_by_a_kilowatt() -> Grams {
    const JOULES: f64 = 60.0 * 1000.0;
    Grams(JOULES / VAPORISATION.0)
}

/// Water activity of a strong syrup, for boiling.
///
/// As [`super::activity::norrish`], but the constants of disaccharides and glucose syrup are multiplied by
/// K(Xs)/6.47, K = 7.115·(1 − 1.0038·Xs − 0.24653·Xs²): plain Norrish bends too steeply above 85 % of sucrose.
///
/// Source: shape by Starzak and Mathlouthi 2006 (`starzak-2006`, from memory), temperature factor 1; chosen because it
/// suits Robinson and Stokes and the boiling tables, so that those do not test it. That the other disaccharides follow is
/// assumed. Range: up to [`HOTTEST`] and down to [`DRIEST`].
#[must_use]
pub fn strong_activity(water: Grams, solution: &Solution) -> WaterActivity {
    StrongSyrup::of(solution).activity(water.0)
}

struct StrongSyrup {
    sums: Sums,
    /// Σ n·K of what follows sucrose.
    following: f64,
}

impl StrongSyrup {
    fn of(solution: &Solution) -> Self {
        let following = Solute::ALL
            .into_iter()
            .filter(|solute| solute.follows_sucrose())
            .map(|solute| solute.norrish_moles(solution.grams(solute)))
            .sum();
        Self { sums: solution.sums(), following }
    }

    fn activity(&self, water: f64) -> WaterActivity {
        /// K of sucrose in this form at infinite dilution, over the constant that holds at room temperature.
        const STRONGER: f64 = 7.115 / 6.47;
        let moles = water / WATER_MOLAR_MASS.0;
        if moles <= 0.0 {
            return WaterActivity::ZERO;
        }
        let all = moles + self.sums.moles;
        let solutes = self.sums.moles / all;
        let factor = STRONGER * (1.0 - 1.0038 * solutes - 0.246_53 * solutes * solutes);
        let norrish = self.sums.norrish - self.following + self.following * factor;
        WaterActivity(moles / all * (-norrish * self.sums.moles / (all * all)).exp())
    }
}

/// Why a mass cannot be cooked to a temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CannotCook {
    /// Water itself boils at this temperature here: below it nothing boils off.
    BelowWater {
        /// Where water boils at this pressure.
        water_boils: Celsius,
    },
    /// Nothing is dissolved: water boils at its own temperature until it is gone.
    NothingDissolved {
        /// Where water boils at this pressure.
        water_boils: Celsius,
    },
    /// Above [`HOTTEST`] sugar decomposes, below [`DRIEST`] the model turns over.
    OutsideRange,
}

/// How much water is left when a solution boils at a temperature.
///
/// The root w of a(w) = p(air)/p(water, T), a by [`strong_activity`].
///
/// Source: as [`strong_activity`] and [`vapour_pressure`]. Within about 1.5 % of the mass: gradients in the pan and the
/// error of the thermometer weigh more than the model. Solids that hold water and fat take no part.
///
/// # Errors
///
/// [`CannotCook`] where nothing boils, where nothing is dissolved, and outside the range.
pub fn water_left(solution: &Solution, at: Celsius, pressure: Kilopascals) -> Result<Grams, CannotCook> {
    const TOLERANCE: Tolerance = Tolerance { relative: 1e-10, absolute: 0.0 };
    /// More water than this for each mole of solutes is as good as pure water.
    const MOST_PER_MOLE: f64 = 1e6;
    let target = pressure.0 / vapour_pressure(at).0;
    // Only asked where it is the answer: whatever tries a change of a recipe comes through here.
    let water_boils = || boiling_point(WaterActivity(1.0), pressure);
    if target >= 1.0 {
        return Err(CannotCook::BelowWater { water_boils: water_boils() });
    }
    if at > HOTTEST || target < DRIEST.0 {
        return Err(CannotCook::OutsideRange);
    }
    let syrup = StrongSyrup::of(solution);
    if syrup.sums.moles <= 0.0 {
        return Err(CannotCook::NothingDissolved { water_boils: water_boils() });
    }
    let most = syrup.sums.moles * MOST_PER_MOLE;
    let start = syrup.sums.moles * WATER_MOLAR_MASS.0;
    Ok(Grams(rising_root((0.0, most), start, TOLERANCE, |water| {
        // The slope by a small step: this is asked a handful of times for each recipe.
        const STEP: f64 = 1e-6;
        let here = syrup.activity(water).0;
        let slope = (syrup.activity(water * (1.0 + STEP)).0 - here) / (water * STEP);
        (here - target, slope)
    })))
}

/// Where something of a water activity boils.
///
/// The root T of a·p(water, T) = p(air); from −20 to 300 °C.
#[must_use]
pub fn boiling_point(activity: WaterActivity, pressure: Kilopascals) -> Celsius {
    const TOLERANCE: Tolerance = Tolerance { relative: 0.0, absolute: 1e-7 };
    let needed = pressure.0 / activity.0.max(f64::MIN_POSITIVE);
    Celsius(rising_root((-20.0, 300.0), 105.0, TOLERANCE, |celsius| {
        const STEP: f64 = 1e-4;
        let log = |celsius: f64| vapour_pressure(Celsius(celsius)).0.ln();
        let here = log(celsius);
        (here - needed.ln(), (log(celsius + STEP) - here) / STEP)
    }))
}

/// A stage of cooked sugar, as the trade names it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// Its name.
    pub name: &'static str,
    /// Where it begins at the sea.
    pub from: Celsius,
    /// Where it ends at the sea.
    pub to: Celsius,
}

impl Stage {
    /// All stages, the coolest first.
    ///
    /// Source: stage tables of handbooks (`mcgee-2004` among them); they differ by a degree or two.
    pub const ALL: [Self; 6] = [
        Self { name: "thread", from: Celsius(110.0), to: Celsius(112.0) },
        Self { name: "soft ball", from: Celsius(112.0), to: Celsius(116.0) },
        Self { name: "firm ball", from: Celsius(118.0), to: Celsius(121.0) },
        Self { name: "hard ball", from: Celsius(121.0), to: Celsius(130.0) },
        Self { name: "soft crack", from: Celsius(132.0), to: Celsius(143.0) },
        Self { name: "hard crack", from: Celsius(146.0), to: Celsius(154.0) },
    ];

    /// The stage at a temperature of the sea; `None` between two stages and outside. Where one ends and the next begins, it
    /// is the next. The ends are whole degrees; a tenth, which a thermometer does not show, belongs to the stage.
    #[must_use]
    pub fn at_the_sea(at: Celsius) -> Option<Self> {
        const SLACK: Kelvin = Kelvin(0.1);
        Self::ALL.into_iter().rev().find(|stage| (stage.from - SLACK..=stage.to + SLACK).contains(&at))
    }
}

/// How much sucrose a boiling syrup of sucrose holds at a temperature, as a share of the syrup; `None` where it cannot be
/// cooked so.
#[must_use]
pub fn sucrose_share(at: Celsius, pressure: Kilopascals) -> Option<f64> {
    const SUCROSE: Grams = Grams(100.0);
    let solution = Solution::default().with(Solute::Sucrose, SUCROSE);
    let water = water_left(&solution, at, pressure).ok()?;
    Some((SUCROSE / (SUCROSE + water)).0)
}

/// The hottest that a cook is computed at a pressure: where sugar decomposes, or where the model turns over.
#[must_use]
pub fn hottest(pressure: Kilopascals) -> Celsius {
    HOTTEST.min(boiling_point(DRIEST, pressure))
}

/// The temperature that leaves the same water at a height as `at` does at the sea; `None` outside the range.
///
/// Water activity does not change with the pressure, so that only the vapour pressure counts.
#[must_use]
pub fn at_height(at: Celsius, height: Metres) -> Option<Celsius> {
    as_dry(at, SEA_LEVEL, height)
}

/// The temperature that leaves the same water at the sea as `at` does at a height; `None` outside the range.
#[must_use]
pub fn at_the_sea(at: Celsius, height: Metres) -> Option<Celsius> {
    as_dry(at, height, SEA_LEVEL)
}

fn as_dry(at: Celsius, here: Metres, there: Metres) -> Option<Celsius> {
    let activity = air_pressure(here).0 / vapour_pressure(at).0;
    ((DRIEST.0..1.0).contains(&activity) && at <= HOTTEST)
        .then(|| boiling_point(WaterActivity(activity), air_pressure(there)))
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::analysis::water::solute::glucose_syrup_moles;

    fn sea() -> Kilopascals {
        air_pressure(SEA_LEVEL)
    }

    /// The law of Clausius and Clapeyron, Δh = T·Δv·dp/dT, with 1.672 m³/kg of steam at 100 °C (steam tables, from memory): the
    /// heat follows from the vapour pressure, by another way.
    #[test]
    fn the_heat_of_vaporisation_follows_from_the_vapour_pressure() {
        let slope = vapour_pressure(Celsius(100.5)).0 - vapour_pressure(Celsius(99.5)).0;
        let heat = 373.15 * (1.672 - 0.001_04) * slope;
        assert!((heat / VAPORISATION.0 - 1.0).abs() < 0.001, "{heat}");
    }

    /// IAPWS-95 computed with the open library `CoolProp` 8.0.0, IF97 with iapws 1.5.5.
    #[test]
    fn the_vapour_pressure_is_that_of_the_steam_tables() {
        for (celsius, expected, tolerance) in
            [(25.0, 3.1698, 0.002), (100.0, 101.418, 0.02), (120.0, 198.67, 0.03), (110.0, 143.38, 0.05)]
        {
            assert_abs_diff_eq!(vapour_pressure(Celsius(celsius)).0, expected, epsilon = tolerance);
        }
    }

    /// Standard atmosphere, with the boiling of water by IAPWS-95.
    #[test]
    fn water_boils_sooner_on_a_mountain() {
        for (height, pressure, boils) in [
            (0.0, 101.325, 99.97),
            (500.0, 95.46, 98.31),
            (1000.0, 89.88, 96.65),
            (1500.0, 84.56, 94.98),
            (2000.0, 79.50, 93.32),
        ] {
            let air = air_pressure(Metres(height));
            assert_abs_diff_eq!(air.0, pressure, epsilon = 0.01);
            assert_abs_diff_eq!(boiling_point(WaterActivity(1.0), air).0, boils, epsilon = 0.02);
        }
    }

    fn boils(percent: f64) -> f64 {
        let syrup = Solution::default().with(Solute::Sucrose, Grams(percent));
        boiling_point(strong_activity(Grams(100.0 - percent), &syrup), sea()).0
    }

    /// A: classic table of sugar analysis, in a secondary reproduction. B: teaching note "Sugar Confectionery
    /// Principles", Table 1. The tables differ by a degree from 70 % on.
    #[test]
    fn sucrose_boils_as_in_the_tables() {
        for (percent, expected, tolerance) in
            [(40.0, 101.45, 0.4), (50.0, 101.95, 0.3), (70.0, 106.0, 0.8), (80.0, 111.55, 1.5), (88.0, 123.1, 2.5)]
        {
            assert_abs_diff_eq!(boils(percent), expected, epsilon = tolerance);
        }
        // The same equations, computed elsewhere.
        for (percent, expected) in
            [(50.0, 101.9), (66.0, 104.3), (70.0, 105.4), (80.0, 110.6), (84.0, 114.7), (88.0, 121.3), (95.0, 147.0)]
        {
            assert_abs_diff_eq!(boils(percent), expected, epsilon = if percent > 90.0 { 0.5 } else { 0.06 });
        }
    }

    /// Stage tables of handbooks at their upper temperature.
    #[test]
    fn the_stages_have_their_sugar() {
        for (celsius, handbook, tolerance, computed) in [
            (112.0, 80.0, 2.0, 81.6),
            (116.0, 85.0, 1.0, 85.0),
            (120.0, 87.0, 1.0, 87.4),
            (127.0, 90.0, 1.5, 90.3),
            (143.0, 95.0, 1.5, 94.2),
        ] {
            let percent = 100.0 * sucrose_share(Celsius(celsius), sea()).expect("in range");
            assert_abs_diff_eq!(percent, handbook, epsilon = tolerance);
            assert_abs_diff_eq!(percent, computed, epsilon = 0.1);
        }
        assert_eq!(sucrose_share(Celsius(154.0), sea()), None);
    }

    /// 85 % sucrose: the same equations, computed elsewhere.
    #[test]
    fn on_a_mountain_it_is_cooked_to_less() {
        for (height, expected) in [(0.0, 116.0), (500.0, 114.2), (1000.0, 112.3), (1500.0, 110.5), (2000.0, 108.7)] {
            let there = at_height(Celsius(116.0), Metres(height)).expect("in range");
            assert_abs_diff_eq!(there.0, expected, epsilon = 0.1);
            let back = at_the_sea(there, Metres(height)).expect("in range");
            assert_abs_diff_eq!(back.0, 116.0, epsilon = 1e-5);
        }
    }

    #[test]
    fn a_temperature_has_its_stage_or_lies_between_two() {
        for (celsius, name) in [
            (109.8, None),
            (109.95, Some("thread")),
            (110.0, Some("thread")),
            (112.0, Some("soft ball")),
            (117.0, None),
            (118.0, Some("firm ball")),
            (121.0, Some("hard ball")),
            (154.0, Some("hard crack")),
            (155.0, None),
        ] {
            assert_eq!(Stage::at_the_sea(Celsius(celsius)).map(|stage| stage.name), name, "{celsius}");
        }
    }

    /// 101.325/0.20 kPa is the vapour pressure of water at 152 °C, so that at the sea sugar decomposes first; 61.6/0.20 kPa,
    /// at 4000 m, at 134.4 °C (steam tables: 133.5 °C at 300 kPa, 136.2 °C at 325 kPa).
    #[test]
    fn how_hot_is_computed_depends_on_the_height() {
        assert_eq!(hottest(sea()), HOTTEST);
        assert_abs_diff_eq!(hottest(air_pressure(Metres(4000.0))).0, 134.4, epsilon = 0.1);
    }

    fn caramel() -> Solution {
        Solution::default()
            .with(Solute::Sucrose, Grams(40.0))
            .with_moles(Solute::GlucoseSyrup, Grams(35.0), glucose_syrup_moles(Grams(35.0), 42.0))
            .with(Solute::Lactose, Grams(6.0))
            .with(Solute::MilkMinerals, Grams(0.9))
    }

    /// The same equations, computed elsewhere.
    #[test]
    fn a_cooked_caramel_keeps_this_much_water() {
        for (celsius, expected) in [(110.0, 19.9), (115.0, 14.1), (118.0, 12.0), (120.0, 10.9), (125.0, 8.7)] {
            let water = water_left(&caramel(), Celsius(celsius), sea()).expect("in range");
            assert_abs_diff_eq!(water.0, expected, epsilon = 0.06);
            // Back: with that water it boils at that temperature.
            let boils = boiling_point(strong_activity(water, &caramel()), sea());
            assert_abs_diff_eq!(boils.0, celsius, epsilon = 1e-5);
        }
    }

    #[test]
    fn what_cannot_be_cooked_says_why() {
        let pure = Solution::default();
        assert!(matches!(water_left(&caramel(), Celsius(99.0), sea()), Err(CannotCook::BelowWater { .. })));
        assert!(matches!(water_left(&pure, Celsius(110.0), sea()), Err(CannotCook::NothingDissolved { .. })));
        assert_eq!(water_left(&caramel(), Celsius(151.0), sea()), Err(CannotCook::OutsideRange));
        let mountain = air_pressure(Metres(4000.0));
        assert_eq!(water_left(&caramel(), Celsius(149.0), mountain), Err(CannotCook::OutsideRange));
        assert!(water_left(&caramel(), Celsius(99.0), mountain).is_ok());
    }
}
