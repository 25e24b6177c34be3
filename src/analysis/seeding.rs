//! Where and with how much tempered cocoa butter a mass is seeded.
//!
//! The window hangs on the form V limit of the mass's own fat. Its offsets are calibrated on common practice for dark
//! chocolate and bounded by the melting limits of forms IV and V; they are no first principle. The dose is a habit of
//! the trade with one physical alternative beside it: the dose with which this mass sets as fast as plain chocolate.

use super::fat::Form;
use super::fat_crystals::{FatCrystals, Limits};
use super::{is_above, is_below};
use crate::recipe::Use;
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

/// Below the form V limit by this much the window ends: seed above melts.
///
/// Common practice, no published source; the size of a good thermometer's error.
pub const WINDOW_TOP: Kelvin = Kelvin(0.2);
/// Below the form V limit by this much seeding is best (common practice, no published source).
pub const WINDOW_BEST: Kelvin = Kelvin(2.0);
/// Below the form V limit by this much the window begins: about 2 K above the form IV limit
/// (common practice, no published source).
pub const WINDOW_BOTTOM: Kelvin = Kelvin(4.0);

/// Less cocoa butter in the fat than this cannot be seeded: its crystals cannot carry the mass.
///
/// Judged, no published source: twice what a form V limit needs ([`super::fat::LEAST_COCOA_BUTTER_FOR_LIMITS`]).
pub const LEAST_COCOA_BUTTER: MassFraction = MassFraction(0.20);

/// Solid share of a cream of tempered cocoa butter (common practice, no published source).
pub const SEED_SOLID_SHARE: MassFraction = MassFraction(0.20);

/// Seed by habit, as a share of a mass with [`REFERENCE_FAT`] (common practice, no published source).
pub const HABIT: MassFraction = MassFraction(0.01);
/// The fat share of plain chocolate to which the habit refers (common practice, no published source).
pub const REFERENCE_FAT: MassFraction = MassFraction(0.35);
/// The doses of habit that are seen: less is lost in weighing, more thickens the mass
/// (common practice, no published source).
pub const HABIT_RANGE: (MassFraction, MassFraction) = (MassFraction(0.002), MassFraction(0.015));
/// The doses for equal setting time that make sense at the bench.
///
/// Judged, no published source: from the least dose of habit to twice the most; beyond, so much liquid cocoa butter comes
/// along that the recipe itself changes.
pub const EQUAL_TIME_RANGE: (MassFraction, MassFraction) = (MassFraction(0.002), MassFraction(0.03));

/// Seed is tempered cocoa butter: all of it is fat.
const SEED_FAT: MassFraction = MassFraction(1.0);

/// Crystals per fat of plain chocolate seeded by habit, 0.005556.
pub const REFERENCE_CRYSTALS: MassFraction = crystals_per_fat(HABIT, REFERENCE_FAT);
/// Form V limit of the default cocoa butter by the fat model; `wille-lutton-1966` measured 33.8 °C.
pub const REFERENCE_LIMIT: Celsius = Celsius(33.79);
/// Surroundings for which setting times are compared: a cooling cabinet (common practice, no published source).
pub const SURROUNDINGS: Celsius = Celsius(15.0);
/// Below this form V limit no dose makes the mass set as fast as plain chocolate.
///
/// Judged: 3 K above [`SURROUNDINGS`], the least for which the growth law is taken to hold.
pub const LEAST_LIMIT: Celsius = Celsius(18.0);
/// Setting time goes with crystals to the power of minus this.
///
/// Judged: between growth in space (1/3) and of plates (1/2), which follow from the distance between crystals.
pub const GROWTH_EXPONENT: f64 = 0.4;

/// What thick bars take of the habit: heat of setting has to get out (common practice, no published source).
pub const THICK_BAR_FACTOR: f64 = 0.5;
/// What thin coats take of the habit: they are kept fluid (common practice, no published source: 0.3 to 0.4).
pub const THIN_COAT_FACTOR: f64 = 0.35;

/// Where and with how much to seed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seeding {
    /// The mass that is seeded: the bowl without the seed that stands in the sheet. Doses refer to it.
    pub bowl: Grams,
    /// Where the forms of cocoa butter melt in it.
    pub limits: Limits,
    /// All fats of the mass blended: the cautious window.
    pub window: Window,
    /// As long as the fat in globules has not met the chocolate's fat; `None` if there is no such fat.
    pub unmixed: Option<Window>,
    /// Seed by habit, as a share of the mass.
    pub habit: Dose,
    /// Seed for the setting time of plain chocolate; `None` where no dose does it.
    pub equal_time: Option<Dose>,
    /// Seed by habit in grams for the mass.
    pub seed: Grams,
    /// Crystals per fat that the habit delivers.
    pub crystals: MassFraction,
}

impl Seeding {
    /// Seed for the setting time of plain chocolate in grams for a bowl; `None` where no dose does it.
    #[must_use]
    pub fn equal_time_seed(&self, bowl: Grams) -> Option<Grams> {
        self.equal_time.map(|dose| bowl * dose.share)
    }

    /// The window of the fresh emulsion, where it differs from the cautious one by what is shown.
    ///
    /// A trace of fat in globules gives the same window twice, which says nothing.
    #[must_use]
    pub fn second_window(&self) -> Option<Window> {
        /// Half of the last digit that is shown.
        const SHOWN: f64 = 0.05;
        let Window { min, recommended, max } = self.window;
        self.unmixed.filter(|second| {
            [(second.min, min), (second.recommended, recommended), (second.max, max)]
                .into_iter()
                .any(|(second, first)| (second - first).0.abs() >= SHOWN)
        })
    }
}

/// Temperatures at which a mass is seeded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Lower end.
    pub min: Celsius,
    /// Best.
    pub recommended: Celsius,
    /// Upper end.
    pub max: Celsius,
}

/// A share of seed, with what held it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dose {
    /// Seed as a share of the bowl.
    pub share: MassFraction,
    /// How it was clipped, if it was.
    pub clip: Option<DoseClip>,
}

/// A dose that was held at an end of its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DoseClip {
    /// What the formula asks for; infinite where no finite dose would do.
    pub asked: MassFraction,
    /// What it was held at.
    pub held_at: MassFraction,
}

impl Window {
    /// The window under a form V limit.
    #[must_use]
    pub fn below(form_v_limit: Celsius) -> Self {
        Self {
            min: form_v_limit - WINDOW_BOTTOM,
            recommended: form_v_limit - WINDOW_BEST,
            max: form_v_limit - WINDOW_TOP,
        }
    }
}

impl Dose {
    fn within(asked: f64, range: (MassFraction, MassFraction)) -> Self {
        let share = MassFraction(asked.clamp(range.0.0, range.1.0));
        let is_outside = is_below(asked, range.0.0) || is_above(asked, range.1.0);
        let clip = is_outside.then_some(DoseClip { asked: MassFraction(asked), held_at: share });
        Self { share, clip }
    }
}

/// The factor of habit for a use: [`THICK_BAR_FACTOR`], [`THIN_COAT_FACTOR`], else 1.
///
/// Common practice, no published source. Heat released on setting explains the first; the second keeps a coat fluid
/// and cannot be derived from its thickness.
#[must_use]
pub fn habit_factor(intended_use: Option<Use>) -> f64 {
    match intended_use {
        Some(Use::ThickBar) => THICK_BAR_FACTOR,
        Some(Use::ThinCoat) => THIN_COAT_FACTOR,
        _ => 1.0,
    }
}

/// Seed by the habit of the trade.
///
/// f = κ · 0.01 · (φ/0.35) · (0.20/σ), held between 0.2 and 1.5 %
///
/// f seed per mass, κ factor of the use, φ fat per mass, σ solid share of the seed (here 0.20).
/// Common practice, no published source. By hand: φ = 0.383, κ = 1 gives 1.094 %.
///
/// ```
/// # use nibwright::analysis::seeding::habit_dose;
/// # use nibwright::units::MassFraction;
/// let dose = habit_dose(MassFraction(0.383), None);
/// assert!((dose.share.to_percent() - 1.094).abs() < 0.0005);
/// ```
#[must_use]
pub fn habit_dose(fat: MassFraction, intended_use: Option<Use>) -> Dose {
    habit_dose_of(fat, intended_use, SEED_SOLID_SHARE)
}

/// Seed by the habit of the trade, of a seed with this share of crystals where it works: [`habit_dose`] with another σ.
///
/// Common practice, no published source. Without crystals no dose is enough, and the range decides. By hand: a powder with
/// σ = 0.77 and φ = 0.35 give 0.26 %; the trade doses about 1 % of powder too, which leaves more margin.
///
/// ```
/// # use nibwright::analysis::seeding::habit_dose_of;
/// # use nibwright::units::MassFraction;
/// let powder = habit_dose_of(MassFraction(0.35), None, MassFraction(0.77));
/// assert!((powder.share.to_percent() - 0.26).abs() < 0.0005);
/// ```
#[must_use]
pub fn habit_dose_of(fat: MassFraction, intended_use: Option<Use>, solid: MassFraction) -> Dose {
    let asked = habit_factor(intended_use) * HABIT.0 * (fat.0 / REFERENCE_FAT.0);
    let asked = if solid.0 > 0.0 { asked * (SEED_SOLID_SHARE.0 / solid.0) } else { f64::INFINITY };
    Dose::within(asked, HABIT_RANGE)
}

/// Crystals per fat that a dose delivers.
///
/// c = f·σ/(φ + f·φ_s), with φ_s = 1 the fat share of the seed
///
/// f seed per mass, σ solid share of the seed, φ fat per mass. Mass balance: what is solid in the seed, over all fat.
///
/// By hand: f = 0.01, σ = 0.20, φ = 0.35 give 0.002/0.36 = 0.005556.
///
/// ```
/// # use nibwright::analysis::seeding::crystals_per_fat;
/// # use nibwright::units::MassFraction;
/// let crystals = crystals_per_fat(MassFraction(0.01), MassFraction(0.35));
/// assert!((crystals.0 - 0.005_556).abs() < 5e-7);
/// ```
#[must_use]
pub const fn crystals_per_fat(dose: MassFraction, fat: MassFraction) -> MassFraction {
    MassFraction(dose.0 * SEED_SOLID_SHARE.0 / (fat.0 + dose.0 * SEED_FAT.0))
}

/// The dose with which this mass sets as fast as plain chocolate seeded by habit, both in 15 °C.
///
/// c = c_ref · [(33.79 − 15)/(T_V − 15)]^(1/0.4), f = c·φ/(σ − c), held between 0.2 and 3 %
///
/// From the growth law t ∝ c^−0.4 · 1/(T_V − T_surroundings) with the same constant for both: fitted to seeded cocoa
/// butter (`padar-2008`), its exponent judged, good to a factor of two. `None` with a form V limit under 18 °C.
///
/// Worked example, by hand: T_V = 29.75 °C, φ = 0.385: c = 0.01018, f = 2.064 %.
///
/// ```
/// # use nibwright::analysis::seeding::equal_time_dose;
/// # use nibwright::units::{Celsius, MassFraction};
/// let dose = equal_time_dose(MassFraction(0.385), Celsius(29.75)).unwrap();
/// assert!((dose.share.to_percent() - 2.064).abs() < 0.001);
/// ```
#[must_use]
pub fn equal_time_dose(fat: MassFraction, form_v_limit: Celsius) -> Option<Dose> {
    if is_below(form_v_limit.0, LEAST_LIMIT.0) {
        return None;
    }
    let undercooling = (form_v_limit - SURROUNDINGS).0;
    let reference = (REFERENCE_LIMIT - SURROUNDINGS).0;
    let crystals = REFERENCE_CRYSTALS.0 * (reference / undercooling).powf(1.0 / GROWTH_EXPONENT);
    // More crystals than the seed is made of: no dose is enough, and the range decides.
    let asked =
        if crystals < SEED_SOLID_SHARE.0 { crystals * fat.0 / (SEED_SOLID_SHARE.0 - crystals) } else { f64::INFINITY };
    Some(Dose::within(asked, EQUAL_TIME_RANGE))
}

/// Window and dose for a mass.
///
/// `bowl` is the mass without any seed, `crystals` how its fat sets, `fat` its share of the mass.
/// `None` below 20 % cocoa butter in the fat, or where the blend has no form V limit.
#[must_use]
pub fn seeding(crystals: &FatCrystals, fat: MassFraction, bowl: Grams, intended_use: Option<Use>) -> Option<Seeding> {
    if is_below(crystals.blended.cocoa_butter_share().0, LEAST_COCOA_BUTTER.0) {
        return None;
    }
    let limit = crystals.limits.form_v?;
    let habit = habit_dose(fat, intended_use);
    Some(Seeding {
        bowl,
        limits: crystals.limits,
        window: Window::below(limit),
        unmixed: crystals.unmixed.as_ref().and_then(|phase| phase.melting_limit(Form::V)).map(Window::below),
        habit,
        equal_time: equal_time_dose(fat, limit),
        seed: bowl * habit.share,
        crystals: crystals_per_fat(habit.share, fat),
    })
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    fn percent(value: f64) -> MassFraction {
        MassFraction::from_percent(value)
    }

    /// Reference computation of the growth law, written out by hand.
    #[test]
    fn the_equal_time_dose_of_a_milky_fat() {
        let dose = equal_time_dose(MassFraction(0.385), Celsius(29.75)).expect("above 18 °C");
        assert_abs_diff_eq!(dose.share.to_percent(), 2.064, epsilon = 0.001);
        assert_abs_diff_eq!(crystals_per_fat(dose.share, MassFraction(0.385)).0, 0.010_18, epsilon = 5e-6);
        assert_eq!(dose.clip, None);
    }

    #[test]
    fn plain_chocolate_wants_the_same_dose_either_way() {
        let equal = equal_time_dose(REFERENCE_FAT, REFERENCE_LIMIT).expect("above 18 °C");
        assert_abs_diff_eq!(equal.share.0, HABIT.0, epsilon = 1e-12);
        assert_abs_diff_eq!(habit_dose(REFERENCE_FAT, None).share.0, HABIT.0, epsilon = 1e-12);
        assert_abs_diff_eq!(crystals_per_fat(HABIT, REFERENCE_FAT).0, 0.005_556, epsilon = 5e-7);
    }

    /// Common practice, no published source: about 1 % in general, 0.5 % for thick bars, 0.3–0.4 % for thin coats.
    #[test]
    fn habit_by_use_at_the_fat_share_of_plain_chocolate() {
        let habit = |intended_use| habit_dose(REFERENCE_FAT, Some(intended_use)).share.to_percent();
        assert_abs_diff_eq!(habit(Use::Bar), 1.0, epsilon = 1e-9);
        assert_abs_diff_eq!(habit(Use::ThickBar), 0.5, epsilon = 1e-9);
        assert!((0.3..=0.4).contains(&habit(Use::ThinCoat)));
    }

    /// Common practice, no published source: 1 % of 800 g is 8 g; 3 kg of seed serve 300 kg.
    #[test]
    fn one_percent_in_the_kitchen_and_in_the_factory() {
        for (mass, seed) in [(800.0, 8.0), (300_000.0, 3000.0)] {
            let dose = habit_dose(REFERENCE_FAT, Some(Use::Moulded));
            assert_abs_diff_eq!((Grams(mass) * dose.share).0, seed, epsilon = 1e-6 * seed);
        }
    }

    #[test]
    fn doses_are_held_within_their_ranges_and_say_so() {
        let lean = habit_dose(percent(2.0), None);
        assert_eq!(lean.share, HABIT_RANGE.0);
        assert!(lean.clip.is_some());
        assert_eq!(habit_dose(percent(100.0), None).share, HABIT_RANGE.1);
        let cold = equal_time_dose(percent(35.0), Celsius(18.5)).expect("above 18 °C");
        assert_eq!(cold.share, EQUAL_TIME_RANGE.1);
        assert!(cold.clip.is_some_and(|clip| clip.asked.0.is_infinite()));
        assert_eq!(equal_time_dose(percent(35.0), Celsius(17.9)), None);
    }

    #[test]
    fn the_dose_grows_as_the_form_v_limit_falls() {
        let dose = |limit| equal_time_dose(percent(38.0), Celsius(limit)).map(|dose| dose.share);
        assert!(dose(30.0) > dose(32.0) && dose(32.0) > dose(33.5));
    }
}
