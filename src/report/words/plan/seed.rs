//! The words of the seed of a plan: what is put in, what becomes of it, what the day takes.

use super::Writer;
use crate::analysis::parts::Group;
use crate::analysis::plan::need::{CREAM_KEPT_AT, HOURS_TO_MAKE_READY, Need};
use crate::analysis::plan::seed::{AmountFrom, Change, Seed};
use crate::number::{DecimalSign, fixed, gram_decimals, grams, round_half_up, shortest};
use crate::recipe::SeedingWay;
use crate::report::words;
use crate::units::{Grams, MassFraction};

/// Said of an amount that nobody typed and that cannot be suggested.
const AMOUNT_NOT_KNOWN: &str = "not known: a figure of the seed is missing";

impl Writer<'_> {
    pub(super) fn seed_in(&self) -> String {
        let Some(seed) = &self.plan.seed else { return String::new() };
        if seed.has_no_cocoa_butter() {
            return self.no_seed(seed);
        }
        let weight = weight(seed.grams, self.sign);
        let what = match seed.way {
            SeedingWay::Cream if !seed.is_cocoa_butter() => format!(
                "Weigh {weight} of tempered {} at about {} and put it in. Cocoa butter alone is kept as a cream; chocolate brings \
                 more crystals cold and in pieces: that is the way {}.",
                seed_name(seed),
                self.celsius(seed.at),
                SeedingWay::ChoppedChocolate.words()
            ),
            SeedingWay::Cream => {
                let of = if is_cocoa_butter(seed) { String::new() } else { format!(" ({})", seed_name(seed)) };
                format!("Weigh {weight} of seed cream{of} at about {} and put it in.", self.celsius(seed.at))
            }
            SeedingWay::Grated => {
                format!(
                    "Grate {weight} of tempered {} of {}, or weigh powder of it, and strew it in.",
                    if is_cocoa_butter(seed) { "cocoa butter" } else { seed_name(seed) },
                    self.celsius(seed.at)
                )
            }
            SeedingWay::ChoppedChocolate | SeedingWay::KeepTempered => {
                let name = seed.ingredient.as_ref().map_or("chocolate", |ingredient| ingredient.name.as_str());
                let warm = if seed.put_in.is_none() { " How warm the mass has to be for it is not known." } else { "" };
                format!("Put in {weight} of {name}, tempered and chopped, at {}.{warm}", self.celsius(seed.at))
            }
        };
        let stands = if seed.amount_from == AmountFrom::Sheet { " It stands in the sheet." } else { "" };
        let share = self.plan.share_of_whole(seed);
        let share = share.filter(|_| seed.way == SeedingWay::ChoppedChocolate && seed.is_the_mass);
        let held_back = share.map_or_else(String::new, |share| {
            format!(
                " The mass is this chocolate: you can hold {} g of it back instead, and melt the rest.",
                grams((self.plan.bowl * share).0, self.sign)
            )
        });
        let after = seed.after.map_or_else(String::new, |after| {
            let where_they_are =
                if seed.way == SeedingWay::ChoppedChocolate { ", in the pieces and off them" } else { "" };
            format!(
                " The mass comes to {}; crystals are then {} % of the fat{where_they_are}.",
                self.celsius(after.at),
                fixed(after.crystals.to_percent(), 2, self.sign)
            )
        });
        format!("{what}{stands}{held_back}{after}{}", self.window_with_seed())
    }

    /// What counts once the seed is in, where that is something else.
    fn window_with_seed(&self) -> String {
        let Some((with, limit)) = self.plan.with_seed().and_then(|with| Some((with, with.limits.form_v?))) else {
            return String::new();
        };
        format!(
            " Its fat changes the mass: with it the form V limit is {}, and from here on {} to {} is the window.",
            self.celsius(limit),
            self.celsius(with.window.min),
            self.celsius(with.window.max)
        )
    }

    /// What is said of a seed that brings no crystals: what to take instead.
    fn no_seed(&self, seed: &Seed) -> String {
        let suggested = |suggested: Option<Grams>| {
            suggested.map_or_else(String::new, |suggested| format!("{} g of ", grams(suggested.0, self.sign)))
        };
        let instead = match seed.way {
            SeedingWay::Cream => format!("put in {}a cream of tempered cocoa butter", suggested(seed.suggested)),
            SeedingWay::Grated => format!("strew in {}tempered cocoa butter, grated", suggested(seed.suggested)),
            SeedingWay::ChoppedChocolate | SeedingWay::KeepTempered => {
                format!("put in {}tempered chocolate, cold and chopped", suggested(seed.suggested))
            }
        };
        format!(
            "{} brings no crystals of cocoa butter: it is no seed. Take it out of the sheet as seed, and {instead}.",
            seed_name(seed)
        )
    }
}

/// So much: "7.5 g".
fn weight(amount: Option<Grams>, sign: DecimalSign) -> String {
    amount.map_or_else(|| "some".to_owned(), |amount| format!("{} g", grams(amount.0, sign)))
}

/// The name of what is put in.
fn seed_name(seed: &Seed) -> &str {
    seed.ingredient.as_ref().map_or("seed", |ingredient| ingredient.name.as_str())
}

/// Whether it is cocoa butter, as shown: that need not be said of a cream of seed.
fn is_cocoa_butter(seed: &Seed) -> bool {
    /// Less than this of something else does not show.
    const SHOWN: f64 = 0.995;
    seed.cocoa_butter.is_some_and(|share| share.0 >= SHOWN)
}

/// What a way puts in: "7.5 g of seed cream", with what of the suggestion differs.
#[must_use]
pub fn seed_amount(seed: &Seed, sign: DecimalSign) -> String {
    if seed.has_no_cocoa_butter() {
        let suggested = seed.suggested.map_or_else(String::new, |suggested| {
            let what = if seed.way == SeedingWay::ChoppedChocolate { "chocolate" } else { "cocoa butter" };
            format!("; suggested {} g of tempered {what}", grams(suggested.0, sign))
        });
        return format!("none of it, it brings no crystals{suggested}");
    }
    let Some(amount) = seed.grams.map(|amount| grams(amount.0, sign)) else { return AMOUNT_NOT_KNOWN.to_owned() };
    let of = if is_cocoa_butter(seed) { "" } else { ", by its cocoa butter" };
    let held = seed.clip.map_or_else(String::new, |clip| {
        format!(", held at {} % of the mass{of}", shortest(clip.held_at.to_percent(), 2, sign))
    });
    let suggested = match seed.suggested {
        Some(suggested) => format!("suggested {} g{held}", grams(suggested.0, sign)),
        None => "what to suggest is not known".to_owned(),
    };
    match seed.amount_from {
        AmountFrom::Suggestion => format!("{amount} g, suggested{held}"),
        AmountFrom::Maker => format!("{amount} g, your own; {suggested}"),
        AmountFrom::Sheet => format!("{amount} g, in the sheet; {suggested}"),
    }
}

/// What becomes of it: "32.8 °C, 0.57 % of the fat crystals: it lives and grows".
#[must_use]
pub fn after_mixing(seed: &Seed, sign: DecimalSign) -> String {
    if seed.has_no_cocoa_butter() {
        return "no crystals: there is no cocoa butter in the seed".to_owned();
    }
    if seed.is_melted {
        return "nothing: the seed is melted before it goes in".to_owned();
    }
    let Some(after) = seed.after else { return "not known: a figure is missing".to_owned() };
    let fate = after.fate.map_or("no crystals", words::fate);
    format!("{} °C: {fate}", fixed(after.at.0, 1, sign))
}

/// The crystals that are left: "0.57 % of the fat; 12 % of them melt".
#[must_use]
pub fn crystals_left(seed: &Seed, sign: DecimalSign) -> Option<String> {
    /// Less than this melts by rounding only.
    const SEEN: f64 = 0.005;
    let after = seed.after?;
    let left = format!("{} % of the fat", fixed(after.crystals.to_percent(), 2, sign));
    let melted = after.melted.filter(|melted| melted.0 >= SEEN);
    Some(match melted {
        Some(melted) => format!("{left}, after {} % of them have melted", fixed(melted.to_percent(), 0, sign)),
        None => left,
    })
}

/// How far crystals are apart, as an order of magnitude: "about 10 to 100 µm".
#[must_use]
pub fn crystals_apart(seed: &Seed, sign: DecimalSign) -> Option<String> {
    const MICROMETRES: f64 = 1e6;
    let [small, large] = seed.after?.apart?;
    // One digit: the size of the crystals is hardly ever known.
    let one_digit = |metres: f64| {
        let micrometres = metres * MICROMETRES;
        let digit = 10_f64.powf(micrometres.log10().floor());
        shortest((micrometres / digit).round() * digit, 1, sign)
    };
    Some(format!("some {} to {} µm apart", one_digit(small), one_digit(large)))
}

/// Whether the seed changes what the mass is made of, as shown.
#[must_use]
pub fn changes_anything(seed: &Seed) -> bool {
    seed.changes.iter().any(is_seen)
}

/// Whether a change reaches the digits that are shown.
fn is_seen(change: &Change) -> bool {
    /// Half of the last digit that is shown, as a share.
    const SHOWN: f64 = 0.0005;
    match (change.before, change.after) {
        (Some(before), Some(after)) => (before.0 - after.0).abs() >= SHOWN,
        (before, after) => before != after,
    }
}

/// What the seed changes in the mass, in one line; `None` where what goes in is not known.
#[must_use]
pub fn changes(seed: &Seed, sign: DecimalSign) -> Option<String> {
    if seed.changes.is_empty() {
        return None;
    }
    if !changes_anything(seed) {
        return Some("nothing in what the mass is made of".to_owned());
    }
    let changes: Vec<String> =
        seed.changes.iter().filter(|found| is_seen(found)).map(|found| change(found, sign)).collect();
    Some(changes.join(", "))
}

/// One of the changes: "fat 38.3 to 38.9 %".
fn change(change: &Change, sign: DecimalSign) -> String {
    let percent = |share: Option<MassFraction>| {
        share.map_or_else(|| "not known".to_owned(), |share| fixed(share.to_percent(), 1, sign))
    };
    let name = match change.group {
        Group::TotalFat => "fat",
        other => other.words(),
    };
    format!("{name} {} to {} %", percent(change.before), percent(change.after))
}

/// What is to be known of a seed cream, where the way is one.
#[must_use]
pub fn about_cream(seed: &Seed, sign: DecimalSign) -> String {
    let reading = seed.cream.map_or_else(String::new, |[five, six]| {
        format!(
            "By the fat model this cocoa butter is such a cream between {} °C (young, form V) and {} °C (long kept, form VI); ",
            fixed(five.0, 1, sign),
            fixed(six.0, 1, sign)
        )
    });
    let (from, to) = CREAM_KEPT_AT;
    format!(
        "{reading}common practice keeps it at {} to {} °C. It has to be made of tempered cocoa butter, and takes about {} hours \
         until all of it is an even cream. Once it has melted clear, even for a minute, its crystals are gone: start again with \
         tempered butter. Keep water out of it.",
        shortest(from, 0, sign),
        shortest(to, 0, sign),
        shortest(HOURS_TO_MAKE_READY, 0, sign)
    )
}

/// What is to be said of the way that needs no seed.
pub const ABOUT_KEEPING: &str = "no seed: tempered chocolate is warmed only so far that its own crystals last";

/// A way in one line: "7.5 g of 33.6 °C, the mass comes to 27.8 °C: it lives and grows; it changes …".
#[must_use]
pub fn way(seed: &Seed, sign: DecimalSign) -> String {
    if seed.grams.is_none() {
        return AMOUNT_NOT_KNOWN.to_owned();
    }
    let amount = weight(seed.grams, sign);
    let at = fixed(seed.at.0, 1, sign);
    let crystals = crystals_left(seed, sign).map_or_else(String::new, |left| format!("; crystals {left}"));
    let changes = changes(seed, sign).map_or_else(String::new, |changes| format!("; it changes {changes}"));
    format!("{amount} of {at} °C; the mass comes to {}{crystals}{changes}", after_mixing(seed, sign))
}

/// The need of a day: "45 g for 6 batches, 15 g missing: set it up 6 hours before the first".
#[must_use]
pub fn need(need: &Need, way: SeedingWay, batches: u32, sign: DecimalSign) -> String {
    /// Decimals that the finest scale shows.
    const FINEST: u32 = 2;
    // What is told adds up: what is needed, as it is shown, less what is ready is what is missing.
    let ready = need.needed - need.missing + need.left_over;
    let is_missing = need.missing.0 > 0.0;
    let over = |decimals: u32| round_half_up(need.needed.0, decimals) - ready.0;
    let usual = gram_decimals(need.needed.0);
    let decimals = (usual..=FINEST).find(|&decimals| (over(decimals) > 0.0) == is_missing).unwrap_or(usual);
    let needed = shortest(need.needed.0, decimals, sign);
    let difference = shortest(over(decimals).abs(), FINEST, sign);
    let of = if batches == 1 { "1 batch".to_owned() } else { format!("{batches} batches") };
    match need.start_hours_before() {
        // Only a cream takes time: the others are there or are bought.
        Some(_) if way != SeedingWay::Cream => {
            format!("{needed} g for {of}; {difference} g missing")
        }
        Some(hours) => format!(
            "{} g for {of}; {} g missing: set it up {} hours before the first",
            needed,
            difference,
            shortest(hours, 0, sign)
        ),
        None => format!("{needed} g for {of}; enough is ready, {difference} g are left over"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::plan::need::need_of_the_day;

    /// 2 · 64.9 g are shown as 130 g: with 50 g ready 80 g are missing, not 79.8 g.
    #[test]
    fn needed_less_ready_is_missing_in_the_digits_that_are_shown() {
        for (each, ready, told) in [
            (64.9, 50.0, "130 g for 2 batches; 80 g missing"),
            (64.9, 50.5, "130 g for 2 batches; 79.5 g missing"),
            (64.9, 150.0, "130 g for 2 batches; enough is ready, 20 g are left over"),
            (65.15, 130.2, "130.3 g for 2 batches; 0.1 g missing"),
            (7.25, 4.0, "14.5 g for 2 batches; 10.5 g missing"),
        ] {
            let need = need_of_the_day(2, Grams(each), Grams(ready));
            assert_eq!(super::need(&need, SeedingWay::ChoppedChocolate, 2, DecimalSign::Point), told);
        }
    }
}
