//! What the water model says of a mass: its water activity with its band, what raises and lowers it, what may grain.

use super::equilibrium::{Conditions, Contents, Equilibrium, Lactose, Sucrose};
use super::solubility::{LACTOSE_IN_SYRUP, OTHERS_MEASURED, lactose_in_water, sucrose_in_water, sucrose_limit};
use super::solute::Solute;
use super::sorption::Sorbent;
use crate::analysis::cooking::WATER_UNCERTAINTY;
use crate::analysis::emulsion::EmulsionState;
use crate::analysis::is_above;
use crate::analysis::make_up::MakeUp;
use crate::analysis::parts::Parts;
use crate::analysis::syrup::is_dry;
use crate::ingredient::Component;
use crate::recipe::{LineId, Recipe};
use crate::units::{Celsius, Grams, MassFraction, WaterActivity};

/// The temperature for which water activity is said, whatever the thermometer shows.
pub const ROOM: Celsius = crate::analysis::ROOM;

/// A cool store room (common practice, no published source: 12 to 18 °C).
pub const STORE: Celsius = Celsius(15.0);

/// Half of the band around a water activity: twice the root-mean-square difference from five measured products, judged.
pub const BAND: f64 = 0.03;

/// Half of the band where more is in doubt: alcohol, a dry syrup, a figure that is assumed; judged.
pub const WIDE_BAND: f64 = 0.05;

/// More ethanol than this disturbs prediction and sensors.
pub const MUCH_ETHANOL: MassFraction = MassFraction(0.01);

/// Below this water activity the band is wide.
pub const STRONG: WaterActivity = WaterActivity(0.70);

/// Below this water activity the model is outside its range, and no second decimal is shown.
pub const OUTSIDE: WaterActivity = WaterActivity(0.60);

/// Dry masses are said to lie below this: isotherms are not trusted so low.
pub const DRY: WaterActivity = WaterActivity(0.50);

/// Isotherms hold up to here; a mass of solids with more water is said to lie above.
pub const WET: WaterActivity = WaterActivity(0.95);

/// From this supersaturation on a clear syrup grains on crystals that get in (sugar technology, from
/// memory).
pub const GRAINS_WHEN_SEEDED: f64 = 1.0;
/// From this supersaturation on a clear syrup grains when it is stirred (sugar technology, from memory).
pub const GRAINS_WHEN_STIRRED: f64 = 1.2;
/// From this supersaturation on a clear syrup grains by itself unless it is too thick (sugar technology, from memory).
pub const GRAINS_BY_ITSELF: f64 = 1.3;
/// From this supersaturation on lactose grows on crystals that are there (dairy technology, from memory).
pub const LACTOSE_GROWS: f64 = 1.6;
/// From this supersaturation on lactose crystallises by itself (dairy technology, from memory).
pub const LACTOSE_BY_ITSELF: f64 = 2.1;

/// A dry mass has the water of its solids; if they would need more than this to hold it, it is not said to be dry.
///
/// Chocolates, pastes and pralines of the shelf need up to 0.49 by the isotherms, which are good to 30 % of the water at
/// worst: that is the way from 0.49 to here.
const MOST_OF_DRY_SOLIDS: WaterActivity = WaterActivity(0.65);

/// What is known of the water of a mass.
#[derive(Clone, Debug, PartialEq)]
pub enum WaterState {
    /// A figure that it needs is not known, or there is no mass.
    Unknown,
    /// There is no water and no fat: no water activity.
    NoWater,
    /// Fat-continuous, under 2 % water, or a water activity below [`DRY`], where neither isotherms nor equations are trusted.
    /// `false` where the solids cannot hold the water, so that
    /// not even that is known.
    Dry {
        /// Whether the solids hold the water easily.
        is_held: bool,
    },
    /// There is a syrup, or solids moist enough.
    Wet(Box<Water>),
}

/// The water of a mass at 20 °C.
#[derive(Clone, Debug, PartialEq)]
pub struct Water {
    /// What takes part.
    pub contents: Contents,
    /// Where the water is.
    pub rest: Equilibrium,
    /// Half of the band at its water activity.
    pub band: f64,
    /// Half of the band that its inputs alone give: alcohol, assumed figures, a syrup outside the range.
    pub band_of_inputs: f64,
    /// What a cook adds to it: how far its water may be off.
    pub band_of_cook: f64,
    /// Why the band is as wide as it is.
    pub doubts: Vec<Doubt>,
    /// How far sugars are over their solubility at 20 °C.
    pub at_room: Supersaturation,
    /// The same in a cool store.
    pub in_store: Supersaturation,
    /// The water activity while all sucrose stays dissolved, where some of it need not.
    pub clear: Option<WaterActivity>,
    /// The water activity after weeks in which the excess of lactose crystallises, where that happens by itself.
    pub sandy: Option<WaterActivity>,
    /// What each line does, in the order of the recipe.
    pub effects: Vec<Effect>,
}

/// What holds water in a mass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// The syrup: only this water dissolves sugar.
    Syrup,
    /// Solids that take it up.
    Solids(Sorbent),
}

impl Holder {
    /// All of them in the order of bars.
    pub fn all() -> impl Iterator<Item = Self> {
        [Self::Syrup].into_iter().chain(Sorbent::ALL.map(Self::Solids))
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Syrup => "syrup",
            Self::Solids(sort) => sort.words(),
        }
    }
}

/// Why a water activity is less well known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// Alcohol.
    Ethanol,
    /// The syrup is strong.
    Strong,
    /// The syrup is outside the range of the model.
    OutsideRange,
    /// The syrup is stronger than what the solubility of sucrose was measured in, and there is sucrose.
    StrongForSucrose,
    /// The molar mass of higher saccharides is assumed.
    MolarMass,
    /// The kind of a polyol is assumed.
    Polyol,
    /// The water follows from the temperature of a cook, which leaves it open by a percent or two.
    CookedWater,
}

/// How much sugar there is over what dissolves; 1 is saturated. `None` without syrup.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Supersaturation {
    /// Sucrose, if all of it were dissolved.
    pub sucrose: Option<f64>,
    /// Lactose.
    pub lactose: Option<f64>,
}

/// What more of a line does to the water activity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// The line.
    pub line: LineId,
    /// How much more of it.
    pub more: Grams,
    /// By how much the water activity changes.
    pub change: f64,
}

impl WaterState {
    /// The water, if there is a figure.
    #[must_use]
    pub fn water(&self) -> Option<&Water> {
        match self {
            Self::Wet(water) => Some(water),
            Self::Unknown | Self::NoWater | Self::Dry { .. } => None,
        }
    }

    /// The water activity that is shown; `None` where none is.
    #[must_use]
    pub fn activity(&self) -> Option<WaterActivity> {
        self.water().map(|water| water.rest.activity)
    }

    /// The lower edge of the band.
    #[must_use]
    pub fn low(&self) -> Option<WaterActivity> {
        self.water().map(Water::low)
    }

    /// The upper edge of the band, also where only that is known.
    #[must_use]
    pub fn high(&self) -> Option<WaterActivity> {
        match self {
            Self::Wet(water) => Some(water.high()),
            Self::Dry { is_held: true } => Some(DRY),
            Self::Dry { is_held: false } | Self::Unknown | Self::NoWater => None,
        }
    }
}

impl Water {
    /// The lower edge of the band.
    #[must_use]
    pub fn low(&self) -> WaterActivity {
        if self.is_without_solutes() { self.rest.activity.min(WET) } else { self.edge(-self.band) }
    }

    /// The upper edge of the band; of lactose that crystallises by itself, the edge after it has.
    #[must_use]
    pub fn high(&self) -> WaterActivity {
        if self.is_without_solutes() {
            return WaterActivity(1.0);
        }
        let later = self.sandy.map_or(0.0, |sandy| (sandy.0 - self.rest.activity.0).max(0.0));
        self.edge(later + self.band)
    }

    /// The upper edge of the band as it is shown, with two decimals and rounded up: what verdicts are given by.
    #[must_use]
    pub fn judged(&self) -> WaterActivity {
        judged(self.high())
    }

    fn edge(&self, shift: f64) -> WaterActivity {
        WaterActivity((self.rest.activity.0 + shift).clamp(0.0, 1.0))
    }

    /// Half of the band, had the mass this water activity with another amount of water.
    #[must_use]
    pub fn band_at(&self, activity: WaterActivity) -> f64 {
        band_at(activity, self.band_of_inputs, self.band_of_cook)
    }

    /// Half of the band, had it at least this water activity and were this not in doubt.
    #[must_use]
    pub fn band_without(&self, doubts: &[Doubt], at_least: WaterActivity) -> f64 {
        let others: Vec<Doubt> = self.doubts.iter().copied().filter(|other| !doubts.contains(other)).collect();
        band_at(self.rest.activity.max(at_least), band_of(&others), self.band_of_cook)
    }

    /// By what share the syrup is stronger than what the models were measured in; below 0 where it is not.
    #[must_use]
    pub fn stronger_than_measured(&self) -> f64 {
        let solutes = self.rest.solute_fraction.map(|share| share / super::activity::MOST_SOLUTES - 1.0);
        (self.rest.others_per_water / OTHERS_MEASURED - 1.0).max(solutes.unwrap_or(-1.0))
    }

    /// Solids with more water than their isotherms tell, and nothing dissolved: only a lower bound is known.
    #[must_use]
    pub fn is_without_solutes(&self) -> bool {
        let Contents { sucrose, lactose, others, solids, .. } = &self.contents;
        let nothing_dissolves = sucrose.0 + lactose.0 + others.total().0 <= 0.0;
        nothing_dissolves && self.rest.activity > WET && solids.iter().any(|grams| grams.0 > 0.0)
    }

    /// The water that something holds.
    #[must_use]
    pub fn held_by(&self, holder: Holder) -> Grams {
        match holder {
            Holder::Syrup => self.rest.syrup_water,
            Holder::Solids(sort) => self.rest.held[sort as usize],
        }
    }

    /// Which share of what holds water comes with these parts: of the syrup's water, or of the solids that hold it.
    ///
    /// `None` where a figure of the parts is not known.
    #[must_use]
    pub fn brought_by(&self, parts: &Parts, holder: Holder) -> Option<MassFraction> {
        let brought = Contents::of(parts)?;
        let (part, all) = match holder {
            Holder::Syrup => (brought.water, self.contents.water),
            Holder::Solids(sort) => (brought.solids[sort as usize], self.contents.solids[sort as usize]),
        };
        Some(if all.0 > 0.0 { part / all } else { MassFraction::ZERO })
    }

    /// The part of the syrup that is dissolved in its water; `None` without syrup.
    #[must_use]
    pub fn dissolved_solids(&self) -> Option<MassFraction> {
        let solutes = self.contents.others.total() - self.contents.others.grams(Solute::Ethanol)
            + self.rest.dissolved_sucrose
            + self.rest.dissolved_lactose;
        (self.rest.syrup_water.0 > 0.0).then(|| solutes / (solutes + self.rest.syrup_water))
    }

    /// Whether dextrose may crystallise: more glucose for each gram of the syrup's water than it dissolves.
    #[must_use]
    pub fn may_grain_dextrose(&self) -> bool {
        let glucose = self.contents.others.grams(Solute::Glucose);
        let dissolves = super::solubility::glucose_in_water(ROOM);
        self.rest.syrup_water.0 > 0.0 && is_above(glucose.0, self.rest.syrup_water.0 * dissolves)
    }

    /// The water activity after weeks in which the excess of lactose crystallises; `None` where it does not matter.
    #[must_use]
    pub fn with_lactose_crystals(&self) -> Option<WaterActivity> {
        let is_over = self.at_room.lactose.is_some_and(|times| times > 1.0);
        let conditions = Conditions { lactose: Lactose::Crystallised, ..Conditions::usual(ROOM) };
        is_over.then(|| self.contents.equilibrium(conditions)).flatten().map(|rest| rest.activity)
    }

    /// The water activity with so much sucrose exchanged for anhydrous dextrose; `None` where dextrose would crystallise.
    #[must_use]
    pub fn with_dextrose_for_sucrose(&self, grams: Grams) -> Option<WaterActivity> {
        let exchanged = grams.min(self.contents.sucrose);
        let glucose = self.contents.others.grams(Solute::Glucose) + exchanged;
        let others = self.contents.others.clone().with(Solute::Glucose, exchanged);
        let changed = Contents { sucrose: self.contents.sucrose - exchanged, others, ..self.contents.clone() };
        let rest = changed.equilibrium(Conditions::usual(ROOM))?;
        let dissolves = rest.syrup_water.0 * super::solubility::glucose_in_water(ROOM);
        (!is_above(glucose.0, dissolves)).then_some(rest.activity)
    }
}

/// How far the sugars of a mass are over their solubility at a temperature.
///
/// sucrose: S/(s·(w − 0.088·N)), w with all sucrose dissolved; lactose: L/(w·l·0.75), w with sucrose up to its
/// solubility
///
/// Source: `solubility`. 0 without the sugar, `None` without syrup.
#[must_use]
pub fn supersaturation(contents: &Contents, at: Celsius) -> Supersaturation {
    let all_dissolved = Conditions { sucrose: Sucrose::AllDissolved, ..Conditions::usual(at) };
    let with_syrup = |conditions| contents.equilibrium(conditions).filter(|rest| rest.syrup_water.0 > 0.0);
    let sucrose = with_syrup(all_dissolved).map(|rest| {
        let others = rest.syrup_water * rest.others_per_water;
        let dissolves = sucrose_limit(sucrose_in_water(at), rest.syrup_water, others).grams;
        (contents.sucrose / dissolves).0
    });
    let lactose = with_syrup(Conditions::usual(at)).map(|rest| {
        let dissolves = rest.syrup_water * (lactose_in_water(at) * LACTOSE_IN_SYRUP);
        (contents.lactose / dissolves).0
    });
    Supersaturation { sucrose, lactose }
}

/// The water of a recipe.
#[must_use]
pub fn water_state(recipe: &Recipe, make_up: &MakeUp, emulsion: EmulsionState) -> WaterState {
    let mut state = water_of(&make_up.bowl, emulsion, make_up.evaporating.cooked().is_some());
    if let WaterState::Wet(water) = &mut state {
        water.effects = effects(recipe, make_up, water.rest.activity);
    }
    state
}

/// The water of a bowl, without what its lines do; `is_cooked` where its water follows from the temperature of a cook.
#[must_use]
pub fn water_of(bowl: &Parts, emulsion: EmulsionState, is_cooked: bool) -> WaterState {
    let Some(share) = bowl.share(Component::Water) else { return WaterState::Unknown };
    let Some(contents) = Contents::of(bowl) else { return WaterState::Unknown };
    match emulsion {
        EmulsionState::FatContinuous => return WaterState::Dry { is_held: can_hold(&contents) },
        // Dry sugar, milk powder: a film of syrup on crystals is no syrup.
        EmulsionState::Dry if contents.water.0 > 0.0 => return WaterState::Dry { is_held: can_hold(&contents) },
        // Too little water to be told apart from fat that is not known.
        EmulsionState::Unknown if is_dry(share) => return WaterState::Unknown,
        EmulsionState::Emulsion(_) | EmulsionState::Dry | EmulsionState::Unknown => {}
    }
    if contents.water.0 <= 0.0 {
        return WaterState::NoWater;
    }
    let Some(rest) = contents.equilibrium(Conditions::usual(ROOM)) else { return WaterState::NoWater };
    if rest.activity < DRY {
        return WaterState::Dry { is_held: true };
    }
    WaterState::Wet(Box::new(wet(bowl, contents, rest, is_cooked)))
}

/// The water of an emulsion by the equations, also below [`DRY`], where they are not trusted: no figure to show, but one that
/// says how far a mass is on its way there. `None` of what is no emulsion, and where a figure is not known.
#[must_use]
pub fn water_beyond(bowl: &Parts, emulsion: EmulsionState, is_cooked: bool) -> Option<Water> {
    emulsion.emulsion()?;
    let contents = Contents::of(bowl)?;
    let rest = contents.equilibrium(Conditions::usual(ROOM))?;
    Some(wet(bowl, contents, rest, is_cooked))
}

fn wet(bowl: &Parts, contents: Contents, rest: Equilibrium, is_cooked: bool) -> Water {
    let clear = Conditions { sucrose: Sucrose::AllDissolved, ..Conditions::usual(ROOM) };
    let clear = (rest.undissolved_sucrose.0 > 0.0).then(|| contents.equilibrium(clear)).flatten();
    let mut doubts = doubts(bowl, &rest);
    let band_of_inputs = band_of(&doubts);
    let mut band_of_cook = 0.0;
    if is_cooked {
        doubts.push(Doubt::CookedWater);
        band_of_cook = half_spread(&contents, bowl.total() * WATER_UNCERTAINTY);
    }
    let at_room = supersaturation(&contents, ROOM);
    Water {
        band: band_at(rest.activity, band_of_inputs, band_of_cook),
        band_of_inputs,
        band_of_cook,
        doubts,
        at_room,
        in_store: supersaturation(&contents, STORE),
        clear: clear.map(|rest| rest.activity),
        sandy: sandy(&contents, at_room),
        effects: Vec::new(),
        contents,
        rest,
    }
}

/// An upper edge with two decimals, rounded up but for binary noise.
#[must_use]
pub fn judged(high: WaterActivity) -> WaterActivity {
    const NOISE: f64 = 1e-6;
    WaterActivity(((100.0 * high.0 - NOISE).ceil() / 100.0).min(1.0))
}

/// Half of the band that inputs alone give.
fn band_of(doubts: &[Doubt]) -> f64 {
    let is_of_inputs = |doubt: &Doubt| !matches!(doubt, Doubt::Strong | Doubt::CookedWater);
    if doubts.iter().any(is_of_inputs) { WIDE_BAND } else { BAND }
}

/// Half of the band at a water activity: wide where the syrup is strong.
///
/// The error of a cook has nothing to do with the others: their squares add up.
fn band_at(activity: WaterActivity, of_inputs: f64, of_cook: f64) -> f64 {
    let plain = if activity < STRONG { of_inputs.max(WIDE_BAND) } else { of_inputs };
    plain.hypot(of_cook)
}

/// The water activity with the excess of lactose in crystals, where it is so large that it crystallises by itself.
fn sandy(contents: &Contents, at_room: Supersaturation) -> Option<WaterActivity> {
    let is_by_itself = at_room.lactose.is_some_and(|times| is_above(times, LACTOSE_BY_ITSELF));
    let conditions = Conditions { lactose: Lactose::Crystallised, ..Conditions::usual(ROOM) };
    is_by_itself.then(|| contents.equilibrium(conditions)).flatten().map(|rest| rest.activity)
}

/// Whether the solids of a dry mass hold its water well below where anything grows.
fn can_hold(contents: &Contents) -> bool {
    let held: f64 = Sorbent::ALL
        .into_iter()
        .map(|sort| contents.solids[sort as usize].0 * sort.isotherm().moisture(MOST_OF_DRY_SOLIDS).0)
        .sum();
    !is_above(contents.water.0, held)
}

fn doubts(bowl: &Parts, rest: &Equilibrium) -> Vec<Doubt> {
    let is_outside = rest.solute_fraction.is_some_and(|share| share > super::activity::MOST_SOLUTES);
    let found = [
        (bowl.share(Component::Ethanol).is_some_and(|share| is_above(share.0, MUCH_ETHANOL.0)), Doubt::Ethanol),
        (rest.activity < OUTSIDE || is_outside, Doubt::OutsideRange),
        (rest.activity < STRONG && rest.activity >= OUTSIDE, Doubt::Strong),
        (is_above(rest.others_per_water, OTHERS_MEASURED), Doubt::StrongForSucrose),
        (bowl.sorbing().assumed().0 > 0.0, Doubt::MolarMass),
        (bowl.polyols_of_kind(None).0 > 0.0, Doubt::Polyol),
    ];
    found.into_iter().filter_map(|(is_so, doubt)| is_so.then_some(doubt)).collect()
}

/// Half of the difference in water activity between so much more and so much less water.
fn half_spread(contents: &Contents, water: Grams) -> f64 {
    let activity = |water: Grams| {
        let changed = Contents { water, ..contents.clone() };
        // Without water there is none.
        changed.equilibrium(Conditions::usual(ROOM)).map_or(0.0, |rest| rest.activity.0)
    };
    let [damper, drier] = [activity(contents.water + water), activity((contents.water - water).max(Grams::ZERO))];
    // Beside much alcohol a little more water can lower it by next to nothing.
    ((damper - drier) / 2.0).max(0.0)
}

/// What more of each line does: a round amount near a hundredth of the batch.
fn effects(recipe: &Recipe, make_up: &MakeUp, activity: WaterActivity) -> Vec<Effect> {
    let more = step(make_up.bowl.total());
    recipe
        .lines
        .iter()
        .filter(|line| line.amount.grams().0 > 0.0)
        .filter_map(|line| {
            let changed = make_up.with_more(&[(&line.ingredient, more)])?;
            let after = Contents::of(&changed)?.equilibrium(Conditions::usual(ROOM))?;
            Some(Effect { line: line.id, more, change: after.activity.0 - activity.0 })
        })
        .collect()
}

/// 10 g in a batch from 100 g to 10 kg, ten times as much in one ten times as heavy; 1 g below.
#[must_use]
pub fn step(batch: Grams) -> Grams {
    let tens = (batch.0 / 100.0).max(0.1).log10().floor();
    Grams(if tens < 0.0 { 1.0 } else { 10.0 * 10_f64.powf((tens - 1.0).max(0.0)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_step_is_a_round_amount_near_a_hundredth_of_the_batch() {
        for (batch, grams) in [
            (50.0, 1.0),
            (100.0, 10.0),
            (685.0, 10.0),
            (9_999.0, 10.0),
            (10_000.0, 100.0),
            (100_000.0, 1000.0),
            (0.0, 1.0),
        ] {
            assert_eq!(step(Grams(batch)), Grams(grams), "{batch}");
        }
    }
}
