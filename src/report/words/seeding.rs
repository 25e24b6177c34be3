//! The words of seeding: where, how much, and why; what is physics and what is habit of the trade.

use super::Words;
use crate::analysis::emulsion::STIRRING_LIMIT;
use crate::analysis::finding::{SeededBy, SeedingSubject};
use crate::analysis::remedy::Remedies;
use crate::analysis::seeding::{
    Dose, DoseClip, HABIT, HABIT_RANGE, LEAST_COCOA_BUTTER, REFERENCE_FAT, Seeding, WINDOW_TOP,
};
use crate::analysis::survival::Fate;
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::recipe::Use;
use crate::units::{Celsius, Grams, MassFraction};

/// What is said of a sheet with seed alone.
pub(super) const ONLY_SEED: &str = "nothing but seed stands in the sheet; add the mass that it is to go into";

/// The fats that lower the limit are named from this share of the fat on: the lecithin of a couverture is not worth a
/// word.
const WORTH_A_WORD: MassFraction = MassFraction(0.03);

/// The seed for a bowl as one range with its share: "7.5 to 14 g (1.09 to 2.04 %)".
///
/// The two ends are the habit of the trade and the dose for equal setting time, the smaller first; one figure where
/// there is only the habit, or where both are shown alike.
#[must_use]
pub fn dose_amount(seeding: &Seeding, bowl: Grams, sign: DecimalSign) -> String {
    DoseRange::new(seeding, bowl, sign).amount
}

/// The seed for a bowl as one range with its ends named.
///
/// "7.5 to 14 g (1.09 to 2.04 %): from trade habit to equal setting time"; "7.5 g (1.09 %): trade habit" where no dose
/// makes the mass set as fast as plain chocolate. An end that was held within its range says so: "… to equal setting time (held)".
#[must_use]
pub fn dose_range(seeding: &Seeding, bowl: Grams, sign: DecimalSign) -> String {
    let range = DoseRange::new(seeding, bowl, sign);
    format!("{}: {}", range.amount, range.ends)
}

struct DoseRange {
    amount: String,
    ends: String,
}

impl DoseRange {
    fn new(seeding: &Seeding, bowl: Grams, sign: DecimalSign) -> Self {
        const HABIT: &str = "trade habit";
        const EQUAL_TIME: &str = "equal setting time";
        let shown = |dose: &Dose| (grams((bowl * dose.share).0, sign), fixed(dose.share.to_percent(), 2, sign));
        // An end that was held is not what its name says, but as near to it as makes sense.
        let name =
            |name: &str, dose: &Dose| if dose.clip.is_some() { format!("{name} (held)") } else { name.to_owned() };
        let habit = &seeding.habit;
        let (least, most, ends) = match &seeding.equal_time {
            None => (habit, habit, name(HABIT, habit)),
            Some(equal) if shown(habit) == shown(equal) => {
                (habit, habit, format!("{} and {}", name(HABIT, habit), name(EQUAL_TIME, equal)))
            }
            Some(equal) if habit.share < equal.share => {
                (habit, equal, format!("from {} to {}", name(HABIT, habit), name(EQUAL_TIME, equal)))
            }
            Some(equal) => (equal, habit, format!("from {} to {}", name(EQUAL_TIME, equal), name(HABIT, habit))),
        };
        // Of small batches the scale may show both ends alike, of close doses the percent.
        let range = |low: &str, high: &str| if low == high { low.to_owned() } else { format!("{low} to {high}") };
        let (least, most) = (shown(least), shown(most));
        Self { amount: format!("{} g ({} %)", range(&least.0, &most.0), range(&least.1, &most.1)), ends }
    }
}

/// What becomes of seed that is put in.
#[must_use]
pub fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Melts => "all of it melts",
        Fate::OnlyAnnealed => "it melts; only long-kept seed lasts, and nothing grows",
        Fate::Edge => "too near the limit for a thermometer",
        Fate::Lives => "it lives and grows",
        Fate::Cold => "it lives, but the mass thickens before it is even",
        Fate::WrongForm => "too cold: wrong crystals grow beside it",
    }
}

/// The same in a word or two.
#[must_use]
pub fn fate_in_short(fate: Fate) -> &'static str {
    match fate {
        Fate::Melts => "melts",
        Fate::OnlyAnnealed => "melts, but for old seed",
        Fate::Edge => "at the limit",
        Fate::Lives => "lives and grows",
        Fate::Cold => "lives, thickens",
        Fate::WrongForm => "too cold",
    }
}

impl Words {
    pub(super) fn no_seeding(&self, cocoa_butter_in_fat: MassFraction, remedies: &Remedies) -> (String, String) {
        (
            format!("Not to be seeded: cocoa butter is {} of the fat", self.percent(cocoa_butter_in_fat, 1)),
            format!(
                "Below {} cocoa butter in the fat the crystals cannot carry the mass; it stays soft whatever the seed. {}",
                self.limit(LEAST_COCOA_BUTTER),
                self.more_cocoa_butter(remedies)
            ),
        )
    }

    pub(super) fn habit_above_limit(&self, habit: (Celsius, Celsius), limit: Celsius, part: &str) -> (String, String) {
        (
            format!(
                "The habit of seeding at {} {part} above the form V limit of {}",
                self.whole_range(habit),
                self.celsius(limit)
            ),
            "Seed put in above the limit melts, but for a reserve of old, well-kept seed. Stay inside the window of \
             this mass. The habit is common practice, no published source."
                .to_owned(),
        )
    }

    pub(super) fn seeding_window(&self, subject: &SeedingSubject) -> (String, String) {
        let seeding = &subject.seeding;
        let window = seeding.window;
        let span = self.range((window.min, window.max));
        let worked = subject.with_seed.map_or(window, |with| with.window);
        let worked = self.range((worked.min, worked.max));
        let title = match subject.seeded_by {
            SeededBy::CocoaButter => format!(
                "Seed at {span}, best near {}, with {} of tempered cocoa butter",
                self.celsius(window.recommended),
                dose_amount(seeding, subject.bowl, self.sign)
            ),
            SeededBy::Pieces(Some(put_in)) => format!(
                "Put the chopped chocolate in at {}, best near {}; then work at {worked}",
                self.range((put_in.min, put_in.max)),
                self.celsius(put_in.recommended)
            ),
            SeededBy::Pieces(None) => format!("Work at {worked} once the chopped chocolate is in"),
            SeededBy::Kept => format!("Keep it at {span}: there its own crystals last"),
        };
        let limit = self.celsius(subject.limit);
        let cocoa_butter = self.percent(subject.cocoa_butter_in_fat, 0);
        let milk_fat = self.worth_a_word(subject.milk_fat_in_fat);
        let other_fat = self.worth_a_word(subject.other_fat_in_fat);
        let why = match (milk_fat, other_fat) {
            (Some(milk), Some(other)) => format!(
                "Cocoa butter is {cocoa_butter} of the fat; milk fat ({milk}) and other fat ({other}) pull the form V \
                 limit down to {limit}"
            ),
            (Some(milk), None) => format!(
                "Cocoa butter is {cocoa_butter} of the fat; milk fat ({milk}) pulls the form V limit down to {limit}"
            ),
            (None, Some(other)) => format!(
                "Cocoa butter is {cocoa_butter} of the fat; oil and other fat ({other}) pull the form V limit down to \
                 {limit}"
            ),
            (None, None) => format!("Nearly all fat is cocoa butter; its form V limit is {limit}"),
        };
        // What is said of doses is said of cocoa butter.
        match subject.seeded_by {
            SeededBy::CocoaButter => {}
            SeededBy::Pieces(_) => {
                let with = subject.with_seed.and_then(|with| with.limits.form_v).map_or_else(String::new, |limit| {
                    format!(" With the pieces, whose fat is another, it is {}.", self.celsius(limit))
                });
                let detail = format!(
                    "{why}.{with} Above it crystals melt (physics); the pieces go in warmer, because they are cold and cool the mass. How \
                     much of them stands in the seeding plan."
                );
                return (title, detail);
            }
            SeededBy::Kept => {
                let detail = format!(
                    "{why}. Above it crystals melt (physics). Nothing is put in; how many crystals it keeps stands in the seeding \
                     plan."
                );
                return (title, detail);
            }
        }
        let other_way = if subject.is_other_way {
            " These doses are for a cream of tempered cocoa butter with 20 % crystals; what you chose instead, and its amount, \
             stand in the seeding plan."
        } else {
            ""
        };
        let detail = format!(
            "{why}. Above it seed melts (physics). {} {}{other_way}",
            self.habit(seeding, subject.intended_use, subject.factor),
            self.equal_time(seeding, subject.bowl)
        );
        (title, detail)
    }

    /// A share of the fat, if it is worth a word.
    fn worth_a_word(&self, share: MassFraction) -> Option<String> {
        (share >= WORTH_A_WORD).then(|| self.percent(share, 0))
    }

    /// How the habit of the trade comes to its dose, and what the use does to it.
    fn habit(&self, seeding: &Seeding, intended_use: Option<Use>, factor: f64) -> String {
        /// Half is a word, other factors are figures.
        const HALF: f64 = 0.5;
        let part = if (factor - HALF).abs() < f64::EPSILON {
            "half of ".to_owned()
        } else {
            format!("{} of ", shortest(factor, 2, self.sign))
        };
        let (by_use, reason) = match intended_use {
            Some(Use::ThickBar) => {
                (part, " Thick bars take less because the heat of setting has to get out.".to_owned())
            }
            Some(Use::ThinCoat) => (
                part,
                " Thin coats take less because it keeps them fluid; it does not follow from their thickness."
                    .to_owned(),
            ),
            _ => (String::new(), String::new()),
        };
        let held = if seeding.habit.clip.is_some() {
            let (least, most) = HABIT_RANGE;
            format!(", held between {} and {}", self.limit(least), self.limit(most))
        } else {
            String::new()
        };
        let what_for = intended_use.map(|of| format!(" for {}", of.words())).unwrap_or_default();
        format!(
            "{} is trade habit{what_for}: {by_use}{} at {} fat, in proportion to the fat{held} (common practice, no \
             published source).{reason}",
            self.grams(seeding.seed),
            self.limit(HABIT),
            self.limit(REFERENCE_FAT)
        )
    }

    /// What the growth of crystals asks for.
    fn equal_time(&self, seeding: &Seeding, bowl: Grams) -> String {
        let (Some(dose), Some(seed)) = (seeding.equal_time, seeding.equal_time_seed(bowl)) else {
            return "No dose makes this mass set as fast as plain chocolate (physics of growth).".to_owned();
        };
        let beyond = match dose.clip {
            Some(clip) if clip.asked > clip.held_at => "more than ",
            Some(_) => "less than ",
            None => "",
        };
        format!(
            "To set as fast as plain chocolate it takes {beyond}{} (physics of growth, good to a factor of two). Begin \
             with the habit.",
            self.grams(seed)
        )
    }

    pub(super) fn two_windows(
        &self,
        blended: (Celsius, Celsius),
        unmixed: (Celsius, Celsius),
        globules: &[String],
    ) -> (String, String) {
        let fat = match globules {
            [] => "Some of the fat".to_owned(),
            [one] => format!("The fat of {one}"),
            [others @ .., last] => format!("The fat of {} and {last}", others.join(", ")),
        };
        (
            format!(
                "Two windows: {} once all fats have mixed, {} while globules are whole",
                self.range(blended),
                self.range(unmixed)
            ),
            format!(
                "{fat} sits in globules. In a fresh emulsion it has not met the chocolate's fat, and crystals live up \
                 to the higher limit of {}; trade habit follows that. Hard mixing, standing warm or a rest blends the \
                 fats, and the lower window holds, with its limit of {}. When in doubt, use the lower one.",
                self.celsius(unmixed.1 + WINDOW_TOP),
                self.celsius(blended.1 + WINDOW_TOP)
            ),
        )
    }

    pub(super) fn window_below_emulsion_limit(
        &self,
        recommended: Celsius,
        unmixed: Option<Celsius>,
        seeded_by: SeededBy,
    ) -> (String, String) {
        let title = format!(
            "The cautious window lies below {}, where stirring can separate an emulsion",
            self.whole_celsius(STIRRING_LIMIT)
        );
        if seeded_by != SeededBy::CocoaButter {
            let detail =
                "Finish the emulsion warm, let it cool at rest or with a slow stirrer, and fold gently from then on.";
            return (title, detail.to_owned());
        }
        let fresh = unmixed.map_or_else(String::new, |unmixed| {
            format!(" Or seed it fresh in the other window, best near {}.", self.celsius(unmixed))
        });
        (
            title,
            format!(
                "Finish the emulsion warm, let it cool at rest or with a slow stirrer, and fold the seed in gently near \
                 {}.{fresh}",
                self.celsius(recommended)
            ),
        )
    }

    pub(super) fn dose_clipped(&self, habit: Option<&DoseClip>, equal_time: Option<&DoseClip>) -> (String, String) {
        let clip = |what: &str, clip: &DoseClip| {
            let asked = if clip.asked.0.is_finite() {
                format!("asks for {}", self.percent(clip.asked, 2))
            } else {
                "asks for more than seed can give".to_owned()
            };
            format!("{what} {asked} and is held at {}", self.percent(clip.held_at, 1))
        };
        let parts: Vec<String> =
            [habit.map(|dose| clip("habit", dose)), equal_time.map(|dose| clip("equal setting time", dose))]
                .into_iter()
                .flatten()
                .collect();
        (
            format!("The seed is held within its usual doses: {}", parts.join("; ")),
            "Outside the usual doses there is no experience to lean on. Within a factor of two the amount matters \
             little; the temperature matters much."
                .to_owned(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{Analysis, ROOM, analyse};
    use crate::ingredient::Library;
    use crate::recipe::{CocoaButter, Kind, Quantity, Recipe};

    fn recipe(lines: &[(&str, f64)]) -> Recipe {
        let mut recipe = Recipe { kind: Kind::Chocolate, ..Recipe::default() };
        for (id, grams) in lines {
            let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}"));
            recipe.push(ingredient.clone(), Quantity::from_grams(*grams).expect("an amount"));
        }
        recipe
    }

    fn range_of(analysis: &Analysis) -> String {
        let seeding = analysis.seeding.as_ref().expect("it can be seeded");
        dose_range(seeding, analysis.make_up.bowl.total(), DecimalSign::Point)
    }

    fn words_of(recipe: &Recipe, code: &str) -> String {
        let analysis = analyse(recipe, ROOM);
        let found = analysis.findings.iter().find(|finding| finding.code == code).unwrap_or_else(|| panic!("{code}"));
        super::super::finding(found, DecimalSign::Point).joined()
    }

    #[test]
    fn the_dose_is_one_range_with_both_ends_named() {
        let ganache = analyse(&recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]), ROOM);
        let seeding = ganache.seeding.expect("it can be seeded");
        let bowl = ganache.make_up.bowl.total();
        let grams_of = |grams_of: Grams| grams(grams_of.0, DecimalSign::Point);
        let expected = format!(
            "{} to {} g ({} to {} %): from trade habit to equal setting time",
            grams_of(seeding.seed),
            grams_of(seeding.equal_time_seed(bowl).expect("a dose")),
            fixed(seeding.habit.share.to_percent(), 2, DecimalSign::Point),
            fixed(seeding.equal_time.expect("a dose").share.to_percent(), 2, DecimalSign::Point)
        );
        assert_eq!(range_of(&ganache), expected);
        assert!(
            words_of(&recipe(&[("couverture-dark-64", 400.0), ("cream-35", 200.0)]), "seeding.window").contains(
                &format!("with {} of tempered cocoa butter", dose_amount(&seeding, bowl, DecimalSign::Point))
            )
        );
    }

    /// A cocoa butter that melts higher than the default one sets faster with the habit than plain chocolate does.
    #[test]
    fn the_smaller_dose_comes_first() {
        let mut hard = recipe(&[("couverture-dark-64", 1000.0)]);
        hard.cocoa_butter = CocoaButter::Hard;
        let range = range_of(&analyse(&hard, ROOM));
        assert!(range.ends_with(": from equal setting time to trade habit"), "{range}");
    }

    #[test]
    fn one_figure_where_there_is_only_the_habit_or_both_are_alike() {
        let mut analysis = analyse(&recipe(&[("couverture-dark-64", 1000.0)]), ROOM);
        let seeding = analysis.seeding.as_mut().expect("it can be seeded");
        seeding.equal_time = Some(seeding.habit);
        let range = range_of(&analysis);
        assert!(range.ends_with("): trade habit and equal setting time") && !range.contains(" to "), "{range}");
        analysis.seeding.as_mut().expect("it can be seeded").equal_time = None;
        let range = range_of(&analysis);
        assert!(range.ends_with("): trade habit") && !range.contains(" to "), "{range}");
    }

    #[test]
    fn the_reasons_of_the_dose_by_use_are_said() {
        let mut bar = recipe(&[("couverture-dark-64", 1000.0)]);
        let said = |bar: &Recipe| words_of(bar, "seeding.window");
        assert!(said(&bar).contains("is trade habit: 1 % at 35 % fat, in proportion to the fat ("), "{}", said(&bar));
        for (intended_use, amount, reason) in [
            (Use::ThickBar, "for thick bars: half of 1 % at", "because the heat of setting has to get out."),
            (Use::ThinCoat, "for thin coats: 0.35 of 1 % at", "it does not follow from their thickness."),
            (Use::Shell, "for shells: 1 % at", "(common practice"),
        ] {
            bar.intended_use = Some(intended_use);
            assert!(said(&bar).contains(amount) && said(&bar).contains(reason), "{}", said(&bar));
            assert!(said(&bar).contains("(common practice, no published source)"), "{}", said(&bar));
            assert_eq!(said(&bar).matches("physics").count(), 2, "{}", said(&bar));
        }
    }

    #[test]
    fn a_dose_that_was_held_is_not_said_to_be_enough() {
        let soft = recipe(&[("cocoa-butter", 100.0), ("oil-sunflower", 300.0)]);
        let said = words_of(&soft, "seeding.window");
        assert!(said.contains("held between 0.2 % and 1.5 %") && said.contains("it takes more than "), "{said}");
        let range = range_of(&analyse(&soft, ROOM));
        assert!(range.ends_with(": from trade habit (held) to equal setting time (held)"), "{range}");
    }

    #[test]
    fn a_rough_solid_fat_says_on_which_side_of_the_model_it_lies() {
        let bar = recipe(&[("couverture-dark-64", 1000.0)]);
        for (at, place) in [(4.0, "below 15 °C"), (36.0, "above 35 °C")] {
            let analysis = analyse(&bar, Celsius(at));
            let finding = analysis.findings.iter().find(|found| found.code == "fat.solid_fat.outside_temperature");
            let said = super::super::finding(finding.expect("it is said"), DecimalSign::Point);
            assert!(said.title.ends_with(place) && said.detail.contains("15 to 35 °C"), "{said:?}");
        }
    }

    #[test]
    fn the_ingredients_with_globules_are_named_once() {
        let mut tart = recipe(&[
            ("couverture-dark-64", 300.0),
            ("coconut-cream", 100.0),
            ("coconut-cream", 50.0),
            ("butter-82", 20.0),
        ]);
        let said = words_of(&tart, "seeding.two_windows");
        assert!(said.contains("The fat of coconut cream"), "{said}");
        assert!(!said.contains("egg") && !said.contains("butter sits"), "{said}");
        let cream = recipe(&[("cream-35", 100.0)]).lines.remove(0);
        tart.push(cream.ingredient, cream.amount);
        let said = words_of(&tart, "seeding.two_windows");
        assert!(said.contains(" and cream sits in globules"), "{said}");
    }
}
