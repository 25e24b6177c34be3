//! The words of the findings of the seeding plan.

use super::super::Words;
use crate::analysis::finding::{SeedAtSubject, SeededBy};
use crate::analysis::plan::need::CREAM_KEPT_AT;
use crate::analysis::seeding::HABIT_RANGE;
use crate::analysis::survival::{Fate, THERMOMETER_ERROR};
use crate::number::fixed;
use crate::units::{Celsius, Grams, Kelvin, MassFraction};

impl Words {
    pub(in crate::report::words) fn seed_at(&self, subject: &SeedAtSubject) -> (String, String) {
        let SeedAtSubject { at, fate, limit, form_iv, form_vi, window, seeded_by, fresh, melt_out } = subject;
        let is_kept = *seeded_by == SeededBy::Kept;
        // What seed there is for it goes into a mass that is warmer than it ends.
        let warm_it = match seeded_by {
            SeededBy::Pieces(Some(put_in)) => {
                format!("Warm it to {} before the pieces go in", self.celsius(put_in.recommended))
            }
            SeededBy::Pieces(None) => "Warm it before the pieces go in".to_owned(),
            SeededBy::CocoaButter | SeededBy::Kept => format!("Warm it to {}", self.celsius(window.recommended)),
        };
        let melt_out = format!("melt it out at {}", self.whole_range(*melt_out));
        let (now, best) = (self.celsius(*at), self.celsius(window.recommended));
        let fresh = fresh.map_or_else(String::new, |fresh| {
            format!(
                " Only while a gently stirred emulsion is fresh does seed live here: up to {}.",
                self.celsius(fresh.max)
            )
        });
        match fate {
            Fate::Melts | Fate::OnlyAnnealed if is_kept => (
                format!("Too warm to stay tempered at {now}: the form V limit is {}", self.celsius(*limit)),
                format!(
                    "Its own crystals melt here; time only delays it.{fresh} Cool it at once; where none are left, {melt_out} and \
                     seed it in one of the other ways."
                ),
            ),
            Fate::Melts | Fate::OnlyAnnealed => {
                let reserve = match (fate, form_vi) {
                    (Fate::OnlyAnnealed, Some(form_vi)) => format!(
                        " A reserve of old, long-kept seed lasts up to {}, but nothing grows on it.",
                        self.celsius(*form_vi)
                    ),
                    _ => " Old, long-kept seed melts as well.".to_owned(),
                };
                (
                    format!("Too warm to seed at {now}: the form V limit is {}", self.celsius(*limit)),
                    format!(
                        "Seed melts here; time only delays it.{reserve}{fresh} Wait until it is {best}, then seed."
                    ),
                )
            }
            Fate::Edge => (
                format!(
                    "Only {} K to the limit at {now}: a thermometer cannot tell",
                    fixed((*limit - *at).0, 1, self.sign)
                ),
                format!(
                    "A good thermometer is off by {} K, and just under the limit crystals hardly grow.{fresh} {}.",
                    fixed(THERMOMETER_ERROR.0, 1, self.sign),
                    match seeded_by {
                        SeededBy::Kept => "Let it cool by some tenths".to_owned(),
                        SeededBy::Pieces(_) => format!("Once the pieces are in, let it cool to {best}"),
                        SeededBy::CocoaButter => format!("Let it cool to {best}, then seed"),
                    }
                ),
            ),
            Fate::Cold | Fate::WrongForm if is_kept => (
                format!("Cold at {now}: the window begins at {}", self.celsius(window.min)),
                format!(
                    "Its crystals live, but it is thick. Warm it by tenths towards {}, no further.",
                    self.celsius(window.max)
                ),
            ),
            Fate::WrongForm => (
                format!(
                    "Too cold to seed at {now}: {}",
                    form_iv.map_or_else(
                        || "wrong crystals grow".to_owned(),
                        |form_iv| format!("below {} crystals of form IV grow", self.celsius(form_iv))
                    )
                ),
                format!(
                    "They set soft and dull, and the mass gets lumps before the seed is even. {warm_it}; where lumps have \
                     set, {melt_out} and begin again."
                ),
            ),
            Fate::Cold | Fate::Lives => (
                format!("Cold to seed at {now}: the window begins at {}", self.celsius(window.min)),
                if *seeded_by == SeededBy::CocoaButter {
                    format!(
                        "Seed lives, but the mass thickens before it is even, and lumps stay. {warm_it}, then seed."
                    )
                } else {
                    format!("Crystals live, but the mass thickens, and lumps stay. {warm_it}.")
                },
            ),
        }
    }

    pub(in crate::report::words) fn seed_melted(&self, at: Celsius) -> (String, String) {
        (
            format!("The seed is melted at {}", self.celsius(at)),
            format!(
                "Clear cocoa butter brings no crystals. Start again with tempered, set cocoa butter, and keep it as a cream at {}, \
                 or cold to grate. If the temperature was mistyped, correct it in the seeding plan.",
                self.whole_range((Celsius(CREAM_KEPT_AT.0), Celsius(CREAM_KEPT_AT.1)))
            ),
        )
    }

    pub(in crate::report::words) fn seed_lost(
        &self,
        after: Celsius,
        limit: Celsius,
        to_limit: Kelvin,
    ) -> (String, String) {
        let place = if to_limit.0 <= 0.0 {
            format!("above the limit of {}", self.celsius(limit))
        } else {
            format!("{} K under the limit of {}", fixed(to_limit.0, 1, self.sign), self.celsius(limit))
        };
        (
            format!("With its seed the mass comes to {}, {place}", self.celsius(after)),
            "The crystals do not last. Take the seed colder, or less of it, or let the mass cool further first."
                .to_owned(),
        )
    }

    pub(in crate::report::words) fn own_dose(
        &self,
        (own, share): (Grams, MassFraction),
        is_blend: bool,
        is_ingredient: bool,
        suggested: Option<Grams>,
    ) -> (String, String) {
        let (least, most) = HABIT_RANGE;
        let side = if share < least { "little" } else { "much" };
        let (own, percent) = (self.grams(own), self.percent(share, 2));
        let of = if is_blend { "the mass, by its cocoa butter" } else { "the mass" };
        let suggested =
            suggested.map_or_else(String::new, |suggested| format!("; suggested are {}", self.grams(suggested)));
        let usual = format!("Usual are {} to {} (common practice){suggested}.", self.limit(least), self.limit(most));
        if is_ingredient {
            return (
                format!("{own} of seed is no dose but an ingredient: {percent} of {of}"),
                format!(
                    "So much of it makes another mass, and thickens it at once. {usual} Correct the amount; if so much cocoa \
                     butter is meant, weigh it as an ingredient that is melted out with the rest, and seed with the dose."
                ),
            );
        }
        (
            format!("{own} of seed is {side}: {percent} of {of}"),
            format!(
                "{usual} With too little the crystals are far apart and it sets slowly and in streaks; too much thickens it and \
                 brings liquid cocoa butter along."
            ),
        )
    }
}

/// A seed that holds no cocoa butter.
pub(in crate::report::words) fn seed_without_crystals(name: &str) -> (String, String) {
    (
        format!("{name} brings no crystals of cocoa butter: it is no seed"),
        "Crystals of form V come with cocoa butter alone. Take it out of the sheet as seed, and seed with tempered cocoa \
         butter or chocolate."
            .to_owned(),
    )
}
