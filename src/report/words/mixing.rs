//! The words of mixing: where the lines end, whether that is where they should, what to do otherwise.

use super::{Words, capital, no_heat};
use crate::analysis::emulsion::STIRRING_LIMIT;
use crate::analysis::finding::{MixingSubject, SeededBy, WaySubject};
use crate::analysis::heat::{HeatError, LEAST_START, MOST_MELTED, MOST_START};
use crate::analysis::mixing::{Changeable, MixingState, Needed, NoMixing, UNSAID, Way};
use crate::analysis::seeding::Window;
use crate::analysis::survival::Fate;
use crate::number::{DecimalSign, fixed, shortest};
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

/// Where a mix ends, in short.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MixEnd {
    /// The temperature: "48.2 °C".
    pub temperature: String,
    /// How that lies to the seeding window: "above the form V limit"; empty where there is none.
    pub place: &'static str,
}

/// Where a mix ends, in short.
#[must_use]
pub fn mix_end(mixing: &MixingState, sign: DecimalSign) -> MixEnd {
    MixEnd { temperature: Words { sign }.celsius(mixing.end), place: mixing.fate.map_or("", place) }
}

/// What to do with the mix where it ends, as sentences.
#[must_use]
pub fn mix_next(subject: &MixingSubject, sign: DecimalSign) -> String {
    let words = Words { sign };
    [Some(words.what_follows(subject)), words.gently(subject)].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// A change of temperature with its sign: "+1.2 K", "−8.9 K", "0.0 K".
#[must_use]
pub fn kelvin_with_sign(kelvin: Kelvin, sign: DecimalSign) -> String {
    let shown = fixed(kelvin.0, 1, sign);
    let plus = if kelvin.0 > 0.0 && shown != fixed(0.0, 1, sign) { "+" } else { "" };
    format!("{plus}{shown} K")
}

fn place(fate: Fate) -> &'static str {
    match fate {
        Fate::Melts | Fate::OnlyAnnealed => "above the form V limit",
        Fate::Edge => "right at the form V limit",
        Fate::Lives => "inside the seeding window",
        Fate::Cold => "below the seeding window",
        Fate::WrongForm => "below the form IV limit",
    }
}

/// Why there is no end, in short.
#[must_use]
pub fn no_mixing(why: &NoMixing) -> &'static str {
    match why {
        NoMixing::Cooked(_) => "the mass is cooked",
        NoMixing::Unknown => "not known: a figure is missing",
        NoMixing::NoLiquidFat => "not known: nothing of a fat stays liquid",
        NoMixing::Heat(_) => "cannot be computed",
    }
}

/// What one way to the wanted end asks for, as a sentence without its stop: "Cream at 56.3 °C instead of 80 °C".
#[must_use]
pub fn way(way: &WaySubject, sign: DecimalSign) -> String {
    let words = Words { sign };
    let names = list(&way.names);
    let start = format!("{} °C", shortest(way.start.0, 1, sign));
    let instead = |at: &Celsius| {
        let at = words.celsius(*at);
        if at == words.celsius(way.start) {
            format!("at {at}, as it is")
        } else {
            format!("at {at} instead of {start}")
        }
    };
    match (&way.needed, way.what) {
        (Ok(Needed::Solid(at) | Needed::Melted(at)), Changeable::Liquid | Changeable::Other) => {
            format!("{} {}", capital(&names), instead(at))
        }
        (Ok(Needed::Solid(at)), Changeable::Chocolate) => format!("{} solid, {}", capital(&names), instead(at)),
        (Ok(Needed::Melted(at)), Changeable::Chocolate) => format!("{} melted, {}", capital(&names), instead(at)),
        (Ok(Needed::MeltFirst { share, grams, melted_at, rest_at }), _) => format!(
            "Melt {} ({}) of the {names} at {} first, and add the rest solid at {}",
            words.grams(*grams),
            words.percent(*share, 0),
            words.whole_celsius(*melted_at),
            words.whole_celsius(*rest_at)
        ),
        (Err(why), what) => format!("{} alone cannot: {}", capital(&names), why_not(*why, what, sign)),
    }
}

/// The same as a figure: "56.3 °C", "melt 267 g", "over 100 °C".
///
/// Where the line cannot do it alone, what it would take.
#[must_use]
pub fn needed(way: &Way, sign: DecimalSign) -> String {
    let words = Words { sign };
    match (&way.needed, way.what) {
        (Ok(Needed::Solid(at)), Changeable::Chocolate) => format!("{}, solid", words.celsius(*at)),
        (Ok(Needed::Melted(at)), Changeable::Chocolate) => format!("{}, melted", words.celsius(*at)),
        (Ok(Needed::Solid(at) | Needed::Melted(at)), _) => words.celsius(*at),
        (Ok(Needed::MeltFirst { grams, .. }), _) => format!("melt {}", words.grams(*grams)),
        (Err(HeatError::NeedsBoiling), _) => format!("over {}", words.whole_celsius(MOST_START)),
        (Err(HeatError::NeedsScorching | HeatError::TooColdAllMelted), _) => {
            format!("over {}", words.whole_celsius(MOST_MELTED))
        }
        (Err(HeatError::NeedsTooCold | HeatError::TooWarmAllSolid), _) => {
            format!("under {}", words.whole_celsius(LEAST_START))
        }
        (Err(HeatError::NeedsHalfMelted), _) => "half melted".to_owned(),
        (Err(HeatError::ColderThanAll), _) => "not by mixing".to_owned(),
        (Err(HeatError::LostToRoom), _) => "stir shorter".to_owned(),
        (Err(_), _) => "not known".to_owned(),
    }
}

/// Why a line cannot bring the mix to its end, and what else would.
fn why_not(why: HeatError, what: Changeable, sign: DecimalSign) -> String {
    match (why, what) {
        (HeatError::NeedsTooCold, Changeable::Chocolate) => {
            let coldest = Words { sign }.whole_celsius(LEAST_START);
            format!("even solid at {coldest} it leaves the mix too warm; make the liquid colder")
        }
        (why, _) => no_heat(why, sign),
    }
}

/// "cream", "cream and honey", "cream, honey and milk".
fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// With so many crystals a mass is seeded: half of what habit brings to plain chocolate (judged).
const ENOUGH: MassFraction = MassFraction(0.0028);

impl Words {
    pub(super) fn mixing_end(&self, subject: &MixingSubject) -> (String, String) {
        let end =
            format!("The mix ends at {} (± {})", self.celsius(subject.end), fixed(subject.uncertainty.0, 1, self.sign));
        let title = match (subject.fate, subject.limit) {
            (None, _) => end,
            (Some(fate @ (Fate::Melts | Fate::OnlyAnnealed | Fate::Edge)), Some(limit)) => {
                format!("{end}, {} of {}", place(fate), self.celsius(limit))
            }
            (Some(fate), _) => format!("{end}, {}", place(fate)),
        };
        let mut sentences = vec![self.what_follows(subject)];
        if subject.has_tempered
            && subject.seeded_by != SeededBy::Kept
            && matches!(subject.fate, Some(Fate::Melts | Fate::OnlyAnnealed))
        {
            sentences.push(
                "The tempered chocolate brings its crystals in vain: mix less warm, or melt it and seed afterwards."
                    .to_owned(),
            );
        }
        sentences.extend(self.gently(subject));
        if subject.crystals_before.0 > 0.0 {
            sentences.push(self.crystals(subject.crystals_before, subject.crystals_left));
        }
        if let Some(at_once) = subject.at_once {
            sentences.push(format!(
                "At first it shows {}; within minutes it falls as sugar dissolves.",
                self.celsius(at_once)
            ));
        }
        sentences.push("Measure it: bowl, stirring and what evaporates are worth several degrees.".to_owned());
        (title, sentences.join(" "))
    }

    fn what_follows(&self, subject: &MixingSubject) -> String {
        let Some((fate, window)) = subject.fate.zip(subject.window) else {
            return "This mass has no seeding window to hold it against.".to_owned();
        };
        let (now, best_now) = match subject.seeded_by {
            SeededBy::CocoaButter => (self.then_seed(subject, fate, &window), "seed lives at once"),
            SeededBy::Pieces(put_in) => return self.then_pieces(subject.end, put_in),
            SeededBy::Kept => (self.keeps_crystals(subject, fate, &window), "its crystals live"),
        };
        match subject.fresh_fate.zip(subject.fresh_window) {
            Some((Fate::Lives, fresh)) if subject.seeded_by == SeededBy::Kept => format!(
                "While the emulsion is fresh {best_now}, up to {}; let it cool at once to {} at most, where they last once all fats \
                 have mixed.",
                self.celsius(fresh.max),
                self.celsius(window.max)
            ),
            Some(_) if subject.seeded_by == SeededBy::Kept => now,
            Some((Fate::Lives, window)) => format!(
                "{now} While the emulsion is fresh {best_now}; best is {} then.",
                self.celsius(window.recommended)
            ),
            Some((fresh, window)) => format!(
                "{now} While the emulsion is fresh that is {}; best is {} then.",
                place(fresh),
                self.celsius(window.recommended)
            ),
            None => now,
        }
    }

    /// Cold pieces go in warmer than the mass ends with them.
    fn then_pieces(&self, end: Celsius, put_in: Option<Window>) -> String {
        let Some(put_in) = put_in else {
            return "How warm it has to be for the chopped chocolate is not known.".to_owned();
        };
        let span = self.range((put_in.min, put_in.max));
        if end > put_in.max {
            format!("Let it cool to {span}, then put the chopped chocolate in.")
        } else if end < put_in.min {
            format!("The chopped chocolate cools it: warm it to {span}, then put it in.")
        } else {
            format!("Put the chopped chocolate in now: {span} is right for it.")
        }
    }

    /// What becomes of the crystals of tempered chocolate, where nothing else is put in.
    fn keeps_crystals(&self, subject: &MixingSubject, fate: Fate, window: &Window) -> String {
        let most = self.celsius(window.max);
        match fate {
            Fate::Melts | Fate::OnlyAnnealed => format!(
                "There the crystals melt that were to be kept: let it end at {most} at most, with liquid that is less warm, or \
                 choose another way of seeding."
            ),
            Fate::Edge => "Too near the limit for a thermometer: let it cool by some tenths.".to_owned(),
            Fate::Lives => match subject.crystals_of_fat().filter(|share| share.0 > 0.0) {
                Some(share) => format!(
                    "The crystals that came in live there, {} % of its fat: keep it here; if it is too thick, warm it by tenths.",
                    fixed(share.to_percent(), 1, self.sign)
                ),
                None => "Crystals live there, but by what the lines say none come in: say at the chocolate that it is tempered, or \
                         how cold it is."
                    .to_owned(),
            },
            Fate::Cold | Fate::WrongForm => {
                format!("The crystals that came in live there, but it is thick: warm it by tenths towards {most}.")
            }
        }
    }

    fn then_seed(&self, subject: &MixingSubject, fate: Fate, window: &Window) -> String {
        let best = self.celsius(window.recommended);
        match fate {
            Fate::Melts | Fate::OnlyAnnealed => {
                format!("There every crystal that could seed melts. Let it cool to {best}, then seed.")
            }
            Fate::Edge => format!("Too near the limit for a thermometer: let it cool to {best}, then seed."),
            Fate::Lives if subject.crystals_of_fat().is_some_and(|share| share > ENOUGH) => format!(
                "It holds crystals already, {} % of its fat, of the chocolate that went in: if that was tempered, it is seeded. \
                 Keep it here and take no more seed; if it is too thick, warm it by tenths.",
                fixed(subject.crystals_of_fat().unwrap_or_default().to_percent(), 1, self.sign)
            ),
            Fate::Lives => format!("Seed it now; best is {best}."),
            Fate::Cold => {
                format!("It thickens before seed is even in it. Start warmer, or warm it to {best} before you seed.")
            }
            Fate::WrongForm => format!(
                "Crystals of the wrong form grow there. Start warmer, or warm it over {} and cool it to {best}.",
                subject.limit.map_or_else(|| best.clone(), |limit| self.celsius(limit))
            ),
        }
    }

    /// How to work a cold emulsion.
    fn gently(&self, subject: &MixingSubject) -> Option<String> {
        (subject.is_emulsion && subject.end < STIRRING_LIMIT).then(|| {
            format!(
                "Below {} an emulsion thickens, and hard stirring can separate it: work gently.",
                self.whole_celsius(STIRRING_LIMIT)
            )
        })
    }

    /// What becomes of the crystals that came in.
    fn crystals(&self, before: Grams, left: Grams) -> String {
        if left.0 <= 0.0 {
            format!("All {} of fat crystals that come in melt.", self.grams(before))
        } else {
            format!("Of {} of fat crystals that come in, {} are left.", self.grams(before), self.grams(left))
        }
    }

    pub(super) fn mixing_missed(&self, end: Celsius, wanted: Celsius, ways: &[WaySubject]) -> (String, String) {
        let miss = end - wanted;
        let side = if miss.0 > 0.0 { "warmer" } else { "colder" };
        let title = format!(
            "The mix ends at {}, {} {side} than the {} that are wanted",
            self.celsius(end),
            self.kelvin(miss),
            self.celsius(wanted)
        );
        let detail = if ways.is_empty() {
            "No line is a liquid or chocolate that could start at another temperature: change several lines.".to_owned()
        } else {
            let (possible, others): (Vec<_>, Vec<_>) = ways.iter().partition(|way| way.needed.is_ok());
            let sentences = possible.iter().enumerate().map(|(place, way)| {
                let sentence = self::way(way, self.sign);
                if place == 0 { format!("{sentence}.") } else { format!("Or: {}.", uncapital(&sentence)) }
            });
            let others = others.iter().map(|way| format!("{}.", self::way(way, self.sign)));
            sentences.chain(others).collect::<Vec<_>>().join(" ")
        };
        (title, detail)
    }

    pub(super) fn mixing_assumed(&self, unsaid: usize, lines: usize) -> (String, String) {
        let verb = if unsaid == 1 { "has" } else { "have" };
        let they = if unsaid == 1 { "it counts" } else { "they count" };
        (
            format!("{unsaid} of {lines} lines {verb} no temperature: {they} as {}", self.whole_celsius(UNSAID)),
            "Give a temperature to what comes from the refrigerator or is warmed with another line.".to_owned(),
        )
    }

    pub(super) fn not_mixed(&self, why: &NoMixing) -> (String, String) {
        match why {
            NoMixing::Cooked(temperature) => (
                format!(
                    "Where the mix ends is not computed: the mass is cooked to {} °C",
                    shortest(temperature.celsius().0, 2, self.sign)
                ),
                "What goes into the pan ends at the temperature of the cook. Take the temperatures off the lines, or weigh \
                 what boils off and type it."
                    .to_owned(),
            ),
            NoMixing::Unknown => (
                "Where the mix ends is not known: a figure of a line is missing".to_owned(),
                "Enter the figure that a finding names.".to_owned(),
            ),
            NoMixing::NoLiquidFat => (
                "Where the mix ends is not known: nothing of a fat stays liquid".to_owned(),
                "The fat model needs a liquid part. Check the analysis of the cocoa butter.".to_owned(),
            ),
            NoMixing::Heat(error) => {
                ("Where the mix ends cannot be computed".to_owned(), format!("{}.", capital(&no_heat(*error, self.sign))))
            }
        }
    }

    pub(super) fn mixing_cooling_sugars(&self, grams: Grams, cooler_by: Kelvin) -> (String, String) {
        (
            format!(
                "{} of dextrose and sugar alcohols go in dry: the mix ends about {} colder than computed",
                self.grams(grams),
                self.kelvin(cooler_by)
            ),
            "They take up several times as much heat as sugar when they dissolve (figures from memory). Start a little \
             warmer and measure."
                .to_owned(),
        )
    }
}

fn uncapital(text: &str) -> String {
    let mut characters = text.chars();
    characters.next().map_or_else(String::new, |first| first.to_lowercase().chain(characters).collect())
}
