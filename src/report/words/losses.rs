//! The words of losses: what evaporates, what a cook does, why it cannot be done.

use super::Words;
use crate::analysis::cooking::{Cooking, NotCooked, WATER_UNCERTAINTY, share_of};
use crate::analysis::finding::CookedSubject;
use crate::analysis::water::boiling::{Stage, air_pressure, at_height, sucrose_share};
use crate::number::{DecimalSign, fixed, shortest};
use crate::recipe::{CookTemperature, Heating, Height};
use crate::units::{Celsius, Grams, MassFraction};

/// What is known of a stage of cooked sugar, in words; what is outside of the model is left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StageWords {
    /// Its temperatures at the sea.
    pub at_the_sea: String,
    /// Its temperatures at the height of the kitchen, where that is another.
    pub here: Option<String>,
    /// The sucrose that a syrup of sugar and water alone has then.
    pub sucrose: Option<String>,
}

impl StageWords {
    /// All of it in one line.
    #[must_use]
    pub fn joined(&self) -> String {
        let parts = [Some(&self.at_the_sea), self.here.as_ref(), self.sucrose.as_ref()];
        parts.into_iter().flatten().cloned().collect::<Vec<_>>().join(", ")
    }
}

/// The words of a stage of cooked sugar in a kitchen at a height.
#[must_use]
pub fn stage(stage: Stage, height: Height, sign: DecimalSign) -> StageWords {
    let range = |from: Celsius, to: Option<Celsius>| match to {
        Some(to) => format!("{} to {} °C", fixed(from.0, 0, sign), fixed(to.0, 0, sign)),
        None => format!("from {} °C", fixed(from.0, 0, sign)),
    };
    let here = at_height(stage.from, height.metres()).filter(|_| !height.is_at_the_sea()).map(|from| {
        let here = range(from, at_height(stage.to, height.metres()));
        format!("{here} at {} m", fixed(height.metres().0, 0, sign))
    });
    let sea = air_pressure(Height::SEA_LEVEL.metres());
    let percent = |at: Celsius| sucrose_share(at, sea).map(|share| fixed(100.0 * share, 0, sign));
    let sucrose = match (percent(stage.from), percent(stage.to)) {
        (Some(from), Some(to)) => Some(format!("{from} to {to} % sucrose")),
        (Some(from), None) => Some(format!("from {from} % sucrose")),
        (None, _) => None,
    };
    StageWords { at_the_sea: range(stage.from, Some(stage.to)), here, sucrose }
}

impl Words {
    pub(super) fn evaporation_estimated(&self, heating: Heating, liquid: Grams, evaporated: Grams) -> (String, String) {
        let (how, usual) = match heating {
            Heating::Boiled => ("boil off", "boiled and held for a minute, cream loses 2 to 5 %"),
            Heating::Warmed => ("evaporate at 80 °C", "warmed to 80 °C within minutes, cream loses 1 to 3 %"),
        };
        (
            format!(
                "{} of water are taken to {how}: {} of {} of liquid",
                self.grams(evaporated),
                self.limit(share_of(heating)),
                self.grams(liquid)
            ),
            format!(
                "An assumption (from memory): {usual}, less under a lid or a skin; below 50 °C next to nothing. As liquid \
                 counts what is at least half water and holds no alcohol. Weigh the pan before and after, and type the \
                 difference."
            ),
        )
    }

    pub(super) fn cooked(&self, subject: &CookedSubject) -> (String, String) {
        let CookedSubject { temperature, height, cooked, water, water_boils } = subject;
        let title = format!(
            "Cooked to {}: {} of water boil off, {} of the mass stays water (± {})",
            self.cook(*temperature, *height),
            self.grams(cooked.evaporates),
            self.percent(*water, 1),
            fixed(WATER_UNCERTAINTY.to_percent(), 1, self.sign)
        );
        let mut sentences = Vec::new();
        if !height.is_at_the_sea() {
            sentences.push(format!("At the sea that is {}.", self.celsius(cooked.at_the_sea)));
        }
        if let Some(stage) = cooked.stage {
            sentences.push(format!(
                "Cooked sugar is at the stage of {} ({}{}).",
                stage.name,
                self.whole_range((stage.from, stage.to)),
                if height.is_at_the_sea() { "" } else { " at the sea" }
            ));
        }
        sentences.push(format!(
            "The thermometer decides: in boiling water it has to show {} there. Stir the bottom, and measure in the middle \
             of the pan.",
            self.celsius(*water_boils)
        ));
        (title, sentences.join(" "))
    }

    pub(super) fn cannot_be_cooked(&self, cooking: &Cooking) -> (String, String) {
        let cook = self.cook(cooking.temperature, cooking.height);
        let Err(why) = cooking.outcome else { return (String::new(), String::new()) };
        let (title, advice) = match why {
            NotCooked::Unknown => (
                format!("What boils off up to {cook} is not known: a figure is missing"),
                "Enter the figure that a finding names, or weigh what boils off and type it. Until then the water of the mass \
                 counts as not known, and the other shares are those before cooking."
                    .to_owned(),
            ),
            NotCooked::BelowWater { water_boils } => (
                format!("Nothing boils off up to {cook}: even water boils only at {}", self.celsius(water_boils)),
                "Cook hotter, or estimate what evaporates of a liquid that is only warmed.".to_owned(),
            ),
            NotCooked::NothingDissolved { water_boils } => (
                format!("It cannot be cooked to {cook}: nothing is dissolved in its water"),
                format!(
                    "It boils at {} until all water is gone. Add sugar or syrup, or weigh what boils off and type it.",
                    self.celsius(water_boils)
                ),
            ),
            NotCooked::TooHot { hottest } => (
                format!("A cook to {cook} is not computed: it ends at {}", self.celsius(hottest)),
                "Above that sugar breaks down, or the syrup is drier than the model knows. Cook less hot, or weigh what \
                 boils off and type it."
                    .to_owned(),
            ),
            NotCooked::AlreadyDrier { boils, missing } => (
                match boils {
                    Some(boils) => {
                        format!("Nothing boils off up to {cook}: as weighed it boils only at {}", self.celsius(boils))
                    }
                    None => format!("Nothing boils off up to {cook}: as weighed it is too dry to boil there"),
                },
                format!("With {} of water more it would boil at that temperature.", self.grams(missing)),
            ),
        };
        let mut sentences = vec![advice];
        if why != NotCooked::Unknown {
            sentences.push(match cooking.possible {
                Some(range) => format!("Possible for this mass there: {}.", self.range(range)),
                None => "As weighed, no temperature is possible for this mass there.".to_owned(),
            });
            sentences.push("The results are those with nothing taken off.".to_owned());
        }
        (title, sentences.join(" "))
    }

    pub(super) fn alcohol_boils_off(&self, evaporated: MassFraction, lost: [MassFraction; 3]) -> (String, String) {
        let [likely, least, most] = lost.map(|share| fixed(share.to_percent(), 0, self.sign));
        (
            format!(
                "Alcohol leaves before water: with {} of the liquid boiled off, about {likely} % of it is gone",
                self.percent(evaporated, 1)
            ),
            format!(
                "Between {least} and {most} %, as in a still; figures from memory. All of it is counted here, as if it were \
                 added afterwards: do that, below 40 °C. Its vapour burns."
            ),
        )
    }

    /// Temperature and height of a cook, as typed: "118 °C at 0 m".
    fn cook(&self, temperature: CookTemperature, height: Height) -> String {
        let Celsius(celsius) = temperature.celsius();
        format!("{} °C at {} m", shortest(celsius, 2, self.sign), shortest(height.metres().0, 0, self.sign))
    }
}

/// Why nothing can be estimated.
pub(super) fn evaporation_not_known() -> (String, String) {
    (
        "What evaporates cannot be estimated: a figure is missing".to_owned(),
        "Of an ingredient it is not known how much water or alcohol it holds, and so whether it is the liquid that is \
         heated. Enter the figure, or weigh what evaporates and type it. Until then the water of the mass counts as not \
         known, and the other shares are those before heating."
            .to_owned(),
    )
}
