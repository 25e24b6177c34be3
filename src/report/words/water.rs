//! The words of water: how active it is, what that means for keeping, and what sugar does.

use super::{Words, capital};
use crate::analysis::exchange::Exchange;
use crate::analysis::finding::KeepingSubject;
use crate::analysis::remedy::Worse;
use crate::analysis::water::keeping::{
    END_OF_GROWTH, FoodCode, GROWTH_LIMITS, GrowthLimit, Handling, LOW_ACID_LIMIT, food_code, holds_listeria,
};
use crate::analysis::water::solubility::OTHERS_MEASURED;
use crate::analysis::water::state::{DRY, GRAINS_BY_ITSELF, GRAINS_WHEN_SEEDED, GRAINS_WHEN_STIRRED, OUTSIDE, Water};
use crate::analysis::{is_above, is_below};
use crate::number::{DecimalSign, fixed};
use crate::recipe::Recipe;
use crate::units::{Grams, MassFraction, WaterActivity};

/// Who decides, and what is to be measured.
pub const WHO_DECIDES: &str =
    "Measure it (ISO 18787); your hazard analysis and the local authority decide how it is kept. No date follows.";

/// A mass of which the lower edge of the band lies above this is a product for the refrigerator (common practice, no
/// published source: above 0.90 chilled, for days).
const KEPT_COLD: WaterActivity = WaterActivity(0.90);

/// A water activity with two decimals; one where the model is outside its range.
#[must_use]
pub fn water_activity(activity: WaterActivity, sign: DecimalSign) -> String {
    if activity < OUTSIDE { format!("about {}", fixed(activity.0, 1, sign)) } else { fixed(activity.0, 2, sign) }
}

/// The water activity of a mass; of solids moist beyond their isotherms only that it lies above.
#[must_use]
pub fn water_activity_of(water: &Water, sign: DecimalSign) -> String {
    if water.is_without_solutes() {
        format!("over {}", fixed(water.low().0, 2, sign))
    } else {
        water_activity(water.rest.activity, sign)
    }
}

/// A change of water activity with its sign.
#[must_use]
pub fn change(change: f64, sign: DecimalSign) -> String {
    let figure = fixed(change.abs(), 4, sign);
    let is_none = figure == fixed(0.0, 4, sign);
    match change {
        _ if is_none => figure,
        change if change < 0.0 => format!("−{figure}"),
        _ => format!("+{figure}"),
    }
}

/// What a supersaturation of sucrose means, in a word or two.
#[must_use]
pub fn sucrose_saturation(times: f64) -> &'static str {
    if is_above(times, GRAINS_WHEN_SEEDED) { "more than dissolves" } else { "all of it dissolves" }
}

/// What sucrose does in this mass.
#[must_use]
pub fn graining(recipe: &Recipe, water: &Water) -> Option<&'static str> {
    let times = water.at_room.sucrose.filter(|times| *times > 0.0)?;
    Some(if !is_above(times, GRAINS_WHEN_SEEDED) {
        "All sucrose dissolves: none can grain."
    } else if !recipe.is_cooked() {
        "Sugar that does not dissolve stays in crystals, as that of chocolate does. More sucrose will not lower the water \
         activity any further; dextrose or invert sugar would."
    } else if !is_above(times, GRAINS_WHEN_STIRRED) {
        "Cooked clear, it stays clear until crystals get in: those that do, grow."
    } else if !is_above(times, GRAINS_BY_ITSELF) {
        "Cooked clear, it grains when it is stirred or when crystals get in."
    } else {
        "Cooked clear, it grains by itself unless it is too thick to move."
    })
}

/// Whether something can grow at the upper edge of the band.
#[must_use]
pub fn growth_verdict(high: WaterActivity, limit: &GrowthLimit) -> &'static str {
    let is_end = *limit == END_OF_GROWTH;
    let is_above_usual = !is_below(high.0, limit.activity.0);
    if !is_above_usual && limit.reported.is_some_and(|reported| !is_below(high.0, reported.0)) {
        return "growth was reported";
    }
    match (is_above_usual, is_end) {
        (true, false) => "can grow",
        (false, false) => "too dry for it",
        (true, true) => "it lies above",
        (false, true) => "nothing known grows",
    }
}

/// Where the upper edge of the band lies against the rules for sealed packs.
#[must_use]
pub fn low_acid_verdict(high: WaterActivity) -> &'static str {
    if is_above(high.0, LOW_ACID_LIMIT.0) { "they may apply" } else { "below it" }
}

/// What a table of the Food Code asks for.
#[must_use]
pub fn food_code_verdict(handling: Handling, high: WaterActivity, ph: Option<f64>) -> &'static str {
    match food_code(handling, high, ph) {
        FoodCode::NoControl => "asks for no assessment",
        FoodCode::Assessment => "to be assessed",
    }
}

/// What the regulation takes of the growth of Listeria.
#[must_use]
pub fn listeria_verdict(high: WaterActivity, ph: Option<f64>) -> &'static str {
    if holds_listeria(high, ph) { "held unable to grow" } else { "can grow" }
}

/// What the verdicts on keeping are given by.
pub const WHAT_COUNTS: &str = "The limits are by water activity alone, the codes count acid too and pathogens only: moulds, yeasts, flavour and fat are \
     not their subject.";

impl Words {
    pub(super) fn activity(&self, activity: WaterActivity) -> String {
        water_activity(activity, self.sign)
    }

    pub(super) fn keeping(&self, subject: &KeepingSubject) -> (String, String) {
        let KeepingSubject { activity, low, high, alcohol, is_fat_around, ph, has_alcohol, .. } = subject;
        let band = format!("{} to {}", self.two(low.0), self.two(high.0));
        let is_over = is_above(high.0, LOW_ACID_LIMIT.0);
        let limit = self.two(LOW_ACID_LIMIT.0);
        let figure = format!("Water activity {} ({band})", self.activity(*activity));
        if let Some(alcohol) = alcohol {
            let detail = format!(
                "Alcohol is {} of its water and alcohol: so much hinders growth by itself, and neither water activity nor its \
                 limits describe that. Alcohol disturbs the calculation and many sensors. {WHO_DECIDES}",
                self.percent(*alcohol, 0)
            );
            return (figure, detail);
        }
        let shown = crate::number::round_half_up(activity.0, 2);
        let title = if is_over && !is_above(shown, LOW_ACID_LIMIT.0) {
            format!("{figure}: may lie above {limit}")
        } else if is_over {
            format!("{figure}: above {limit}")
        } else {
            figure
        };
        let mut sentences = Vec::new();
        if is_over {
            sentences.push(self.to_keep(subject));
        }
        sentences.push(self.growth(*high));
        let acidity = ph.map_or_else(
            || "pH not known".to_owned(),
            |ph| format!("pH {}", crate::number::shortest(ph, 2, self.sign)),
        );
        if food_code(Handling::Open, *high, *ph) == FoodCode::Assessment {
            sentences.push(format!("US Food Code, {acidity}: to be assessed, kept chilled until then."));
        } else if ph.is_some() {
            sentences
                .push(format!("US Food Code, {acidity}: no assessment asked; moulds and yeasts are not its subject."));
        }
        if !holds_listeria(*high, *ph) {
            let unless = if ph.is_none() { ", unless it is acid enough" } else { "" };
            sentences.push(format!("Regulation (EC) 2073/2005, {acidity}: Listeria can grow in it{unless}."));
        }
        if *is_fat_around {
            sentences.push(
                "So much fat can close its water up in drops: they come to rest slowly, and in each of them it counts alone."
                    .to_owned(),
            );
        }
        if *has_alcohol {
            sentences.push("Alcohol disturbs the calculation and many sensors.".to_owned());
        }
        sentences.push(WHO_DECIDES.to_owned());
        (title, sentences.join(" "))
    }

    /// What would bring it under the limit, or what to do where nothing does.
    fn to_keep(&self, subject: &KeepingSubject) -> String {
        let KeepingSubject { low, aim, remedies, exchange, .. } = subject;
        let to_aim =
            format!("would bring it to {}, where the band ends at {}", self.two(aim.0), self.two(LOW_ACID_LIMIT.0));
        if let Some(change) = self.remedies(remedies) {
            return format!("{} {to_aim}.", capital(&change));
        }
        if let Some(Exchange { from_name, to_name, grams, locked, worse, .. }) = exchange {
            let change = format!("{} of {to_name} in place of as much {from_name}", self.grams(*grams));
            let change = if locked.is_empty() {
                change
            } else {
                format!("no line that is not locked mends it; with {} unlocked, {change}", locked.join(" and "))
            };
            let worse: Vec<String> = worse.iter().map(|worse| self.worse(worse)).collect();
            return if worse.is_empty() {
                format!("{} {to_aim}.", capital(&change))
            } else {
                format!("{} {to_aim}; but then {}. Try less of it, or measure.", capital(&change), worse.join(", and "))
            };
        }
        // Far above, drying it would make another product of it.
        if *low > KEPT_COLD {
            return "So moist a mass belongs in the refrigerator (common practice).".to_owned();
        }
        super::no_remedy(remedies).to_owned()
    }

    /// What an exchange makes worse.
    fn worse(&self, worse: &Worse) -> String {
        match worse {
            Worse::Crowded => "its droplets would be crowded".to_owned(),
            Worse::FatToWater => "there would be more fat to the water than is easy".to_owned(),
            Worse::Usual { range, share } => format!(
                "{} would be {} (usual {})",
                range.of.words(),
                self.percent(*share, 1),
                super::usual_range(range, self.sign)
            ),
        }
    }

    /// What can grow at the upper edge of the band.
    fn growth(&self, high: WaterActivity) -> String {
        let growing: Vec<String> = GROWTH_LIMITS
            .iter()
            .filter(|limit| **limit != END_OF_GROWTH)
            .filter_map(|limit| {
                let from = |activity: WaterActivity| (!is_below(high.0, activity.0)).then(|| self.two(activity.0));
                let usually = from(limit.activity).map(|from| format!("{} (from {from})", limit.name));
                usually.or_else(|| Some(format!("{} (reported from {})", limit.name, from(limit.reported?)?)))
            })
            .collect();
        if growing.is_empty() {
            let is_above_all = !is_below(high.0, END_OF_GROWTH.activity.0);
            return if is_above_all {
                "At the upper edge only yeasts and moulds of very dry food are known to grow, those of honey and dried fruit."
            } else {
                "No growth is known so low; what is in it survives."
            }
            .to_owned();
        }
        format!("At the upper edge can grow, among others: {}.", growing.join(", "))
    }

    pub(super) fn water_dry(&self, is_held: bool) -> (String, String) {
        let title = if is_held {
            format!("Water activity below {}: too dry for anything to grow", fixed(DRY.0, 1, self.sign))
        } else {
            "Water activity is not known: so little water, and no solids that hold it".to_owned()
        };
        let detail = "Salmonella does not grow in chocolate or nut paste but survives there for months, and melting or \
                      tempering does not kill it: what goes in must come from controlled suppliers. Isotherms are not \
                      trusted so low, and the method of measurement (ISO 18787) leaves out masses of fat.";
        (title, detail.to_owned())
    }

    pub(super) fn sucrose_saturated(
        &self,
        is_of_chocolate: bool,
        undissolved: Grams,
        (now, with_dextrose): (WaterActivity, Option<WaterActivity>),
        exchanged: Grams,
    ) -> (String, String) {
        let instead = match with_dextrose {
            // Where the second decimal means nothing, three would mean less.
            Some(activity) if activity < OUTSIDE => {
                format!("{} of dextrose instead of as much sucrose would", self.grams(exchanged))
            }
            Some(activity) => format!(
                "{} of anhydrous dextrose instead of as much sucrose would, from {} to {}",
                self.grams(exchanged),
                self.three(now),
                self.three(activity)
            ),
            None => "invert sugar or glucose syrup in its place would".to_owned(),
        };
        let crystals = if is_of_chocolate {
            "The crystals of chocolate stay as they are: they make it no sandier."
        } else {
            "What does not dissolve stays in crystals, or grows to them."
        };
        (
            format!("{} of the sucrose stay undissolved at 20 °C", self.grams(undissolved)),
            format!("More sucrose will not lower the water activity any further; {instead}. {crystals}"),
        )
    }

    pub(super) fn may_grain(
        &self,
        times: f64,
        is_by_itself: bool,
        (of_sweeteners, to_half): (MassFraction, Grams),
        [clear, grained]: [WaterActivity; 2],
    ) -> (String, String) {
        let how = if is_by_itself {
            "it grains by itself unless it is thick enough"
        } else {
            "it grains when crystals get in"
        };
        let habit = if is_above(to_half.0, 0.0) {
            format!(
                "Sucrose is {} of its sweeteners; {} of it exchanged for as much dry glucose syrup would make it half, which \
                 by common practice (no published source) keeps caramel from graining.",
                self.percent(of_sweeteners, 0),
                self.grams(to_half)
            )
        } else {
            format!(
                "Sucrose is {} of its sweeteners: by common practice (no published source) at most half is thick enough to \
                 hold.",
                self.percent(of_sweeteners, 0)
            )
        };
        (
            format!("Sucrose {} times its solubility: {how}", self.two(times)),
            format!(
                "Cooked clear, its water activity is {}; grained, it rises to {}. {habit} Stir no crystals in and let it cool \
                 at rest.",
                self.activity(clear),
                self.activity(grained)
            ),
        )
    }

    pub(super) fn lactose_may_grain(
        &self,
        times: f64,
        is_by_itself: bool,
        grained: Option<WaterActivity>,
    ) -> (String, String) {
        let how = if is_by_itself { "it can turn sandy by itself" } else { "it grows on crystals that are there" };
        let after = grained.map_or_else(String::new, |grained| {
            format!(
                " After weeks, with the excess in crystals, the water activity would be {}.",
                self.activity(grained)
            )
        });
        (
            format!("Lactose {} times its solubility: {how}", fixed(times, 1, self.sign)),
            format!(
                "Crystals above some 10 to 15 µm are felt as sand. Less milk powder or condensed milk lowers it.{after} \
                 Dairy technology, from memory."
            ),
        )
    }

    pub(super) fn water_outside_range(
        &self,
        activity: WaterActivity,
        others_per_water: Option<f64>,
    ) -> (String, String) {
        let most = crate::number::shortest(OTHERS_MEASURED, 1, self.sign);
        if let Some(others) = others_per_water {
            return (
                format!(
                    "The syrup is stronger than any that was measured: {} g of other sugars to 1 g of water",
                    fixed(others, 1, self.sign)
                ),
                format!(
                    "How much sucrose dissolves beside other sugars was measured up to {most} g of them to 1 g of water. \
                     What stays undissolved, and the water activity with it, is a direction, no more."
                ),
            );
        }
        (
            format!("The water model is outside its range: water activity {}", self.activity(activity)),
            format!(
                "It was held against syrups with a water activity above {} and up to {most} g of other sugars to 1 g of \
                 water. The figure is a direction, no more.",
                self.two(OUTSIDE.0)
            ),
        )
    }

    fn three(&self, activity: WaterActivity) -> String {
        fixed(activity.0, 3, self.sign)
    }
}

/// What was assumed of an ingredient for the water model.
pub(super) fn water_assumed(is_polyol: bool) -> (String, String) {
    if is_polyol {
        (
            "Which polyol it is, is not known: counted as sorbitol".to_owned(),
            "Glycerol binds twice the water, maltitol half. Enter the kind from the supplier's sheet.".to_owned(),
        )
    } else {
        (
            "How large the saccharides of a syrup are, is not known: counted as those of glucose syrup DE 40".to_owned(),
            "Enter the dextrose equivalent from the supplier's sheet: the higher it is, the more water the syrup binds."
                .to_owned(),
        )
    }
}
