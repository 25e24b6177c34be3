//! How a target is written on the command line: what, where it has to lie, and which end of its band decides.
//!
//! ```text
//! water activity at most 0.85
//! sugars between 28 and 36 %
//! solid fat at 20 °C at least 30
//! groups.water <= 18
//! fat to water near 1.2
//! water activity at most 0.85 by value
//! ```

use crate::analysis::ROOM;
use crate::command_line::input::parse_temperature;
use crate::number::{self, DecimalSign};
use crate::reformulate::measured::Measured;
use crate::reformulate::target::{Bound, Decides, Target, shares};
use crate::report::words::reformulation::{Money, bare_unit, check_bound, check_value, names};
use crate::units::Celsius;

/// All that can be asked for by a plain name; solid fat and fat crystals take a temperature as well.
fn all() -> impl Iterator<Item = Measured> {
    shares().chain([
        Measured::FatToWater,
        Measured::CocoaButterInFat,
        Measured::MilkFatInFat,
        Measured::OtherFatInFat,
        Measured::FatVolume,
        Measured::DispersedVolume,
        Measured::WaterActivity,
        Measured::SucroseSupersaturation,
        Measured::LactoseSupersaturation,
        Measured::FormVLimit,
        Measured::Energy,
        Measured::Sweetness,
        Measured::Cost,
        Measured::FinishedMass,
        Measured::Contraction,
        Measured::SolidsVolume,
        Measured::SolidFat(ROOM),
        Measured::Crystals(ROOM),
    ])
}

/// Reads a target.
///
/// # Errors
///
/// One sentence: what is not understood, and what can be written instead.
pub(in crate::command_line) fn parse(text: &str, money: Money<'_>) -> Result<Target, String> {
    let refuse = |why: String| format!("target \"{text}\": {why}");
    let words = spaced(text);
    let (words, by) = match words.rsplit_once(" by ") {
        Some((front, "value")) => (front.to_owned(), Some(Decides::Value)),
        Some((front, "edge")) => (front.to_owned(), Some(Decides::UnfavourableEdge)),
        _ => (words, None),
    };
    let (what, bound) = split(&words).ok_or_else(|| {
        refuse(
            "say where it has to lie: at most 0.85, at least 20, between 28 and 36, near 1.2 (or <=, >=, ~)".to_owned(),
        )
    })?;
    let of = measured(what).ok_or_else(|| refuse(format!("\"{what}\" is no result; one of: {}", known_names())))?;
    let bound = bound_of(of, &bound, money).map_err(|number| {
        refuse(match money.filter(|_| of == Measured::Cost) {
            Some(money) => {
                format!("\"{number}\" is no amount of {money}, in which the prices are; nothing is converted")
            }
            None => format!("\"{number}\" is no number"),
        })
    })?;
    let (first, second) = match bound {
        Bound::AtMost(at) | Bound::AtLeast(at) | Bound::Near(at) => (at, at),
        Bound::Between(low, high) => (low, high),
    };
    for value in [first, second] {
        check_value(of, value, DecimalSign::Point).map_err(&refuse)?;
    }
    check_bound(of, bound, DecimalSign::Point).map_err(&refuse)?;
    let target = Target::new(of, bound);
    if by == Some(Decides::UnfavourableEdge) && bound.is_wish() {
        return Err(refuse("a wish goes by the likely value; leave \"by edge\" out".to_owned()));
    }
    if by == Some(Decides::UnfavourableEdge) && !of.has_band() {
        return Err(refuse(format!("{what} has no band whose edge could decide; leave \"by edge\" out")));
    }
    Ok(match by {
        Some(by) => Target { by, ..target },
        None => target,
    })
}

/// Single blanks, small letters, signs apart.
fn spaced(text: &str) -> String {
    let text = text.to_lowercase().replace("<=", " at most ").replace('≤', " at most ");
    let text = text.replace(">=", " at least ").replace('≥', " at least ").replace('~', " near ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What is asked for, and the words of its bound.
fn split(words: &str) -> Option<(&str, Vec<String>)> {
    let kinds = [" at most ", " at least ", " between ", " near "];
    let (at, kind) = kinds.iter().filter_map(|kind| Some((words.find(kind)?, *kind))).min_by_key(|(at, _)| *at)?;
    let (what, rest) = (words[..at].trim(), words[at + kind.len()..].trim());
    let numbers = match kind {
        " between " => rest.split_once(" and ").map(|(low, high)| vec![low.to_owned(), high.to_owned()])?,
        _ => vec![rest.to_owned()],
    };
    let kind = kind.trim().to_owned();
    (!what.is_empty()).then(|| (what, std::iter::once(kind).chain(numbers).collect()))
}

/// The result with this name.
///
/// # Errors
///
/// One sentence with all that are known.
pub(in crate::command_line) fn parse_measured(text: &str) -> Result<Measured, String> {
    measured(&spaced(text)).ok_or_else(|| format!("\"{text}\" is no result; one of: {}", known_names()))
}

fn known_names() -> String {
    all().filter_map(|of| names(of).into_iter().next()).collect::<Vec<_>>().join(", ")
}

/// The result with this name. A blank, a hyphen and an underline are alike.
fn measured(what: &str) -> Option<Measured> {
    let alike = |text: &str| text.to_lowercase().replace(['_', '-'], " ");
    let is_called = |of: &Measured, what: &str| names(*of).iter().any(|name| alike(name) == what);
    let at_temperature = || {
        // A hyphen before the temperature is its sign.
        let (name, at) = what.rsplit_once(" at ")?;
        let name = alike(name);
        let with_temperature: [fn(Celsius) -> Measured; 2] = [Measured::SolidFat, Measured::Crystals];
        let of = with_temperature.into_iter().find(|of| is_called(&of(ROOM), &name))?;
        parse_temperature(at).map(of)
    };
    all().find(|of| is_called(of, &alike(what))).or_else(at_temperature)
}

fn bound_of(of: Measured, words: &[String], money: Money<'_>) -> Result<Bound, String> {
    let value = |text: &String| number_of(of, text, money).ok_or_else(|| text.clone());
    Ok(match words {
        [kind, at] if kind == "at most" => Bound::AtMost(value(at)?),
        [kind, at] if kind == "at least" => Bound::AtLeast(value(at)?),
        [kind, at] if kind == "near" => Bound::Near(value(at)?),
        [_, low, high] => Bound::Between(value(low)?, value(high)?),
        _ => return Err(words.join(" ")),
    })
}

/// A kilocalorie in kJ (thermochemical calorie, as on the label).
const KILOJOULES: f64 = 4.184;

/// A number with or without the unit of the result; a mass in any unit of mass.
fn number_of(of: Measured, text: &str, money: Money<'_>) -> Option<f64> {
    if of == Measured::FinishedMass {
        return super::grams(text).ok().map(|grams| grams.0);
    }
    let unit = bare_unit(of).trim().to_lowercase();
    // A degree sign is hard to type.
    let units = [unit.as_str(), if unit == "°c" { "c" } else { "" }, if unit.starts_with('%') { "%" } else { "" }];
    let bare = units.iter().find_map(|unit| text.trim().strip_suffix(*unit)).unwrap_or(text).trim();
    if let Some(kilocalories) = bare.strip_suffix("kcal").filter(|_| of == Measured::Energy) {
        return number::parse(kilocalories.trim())
            .ok()
            .map(|value| value * KILOJOULES)
            .filter(|value| value.is_finite());
    }
    let money = money.filter(|_| of == Measured::Cost).map(|money| money.to_string().to_lowercase());
    let without = |money: &String| bare.strip_suffix(money.as_str()).or_else(|| bare.strip_prefix(money.as_str()));
    let bare = money.as_ref().and_then(without).unwrap_or(bare).trim();
    number::parse(bare).ok().filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::parts::Group;
    use crate::ingredient::Component;
    use crate::number::DecimalSign;
    use crate::production::price::Currency;
    use crate::report::words::reformulation::target_in_short;
    use crate::units::Celsius;

    fn read(text: &str) -> Target {
        parse(text, None).unwrap_or_else(|why| panic!("{why}"))
    }

    /// By hand: 450 kcal · 4.184 = 1882.8 kJ.
    #[test]
    fn energy_can_be_told_in_kilocalories() {
        let Bound::AtMost(at) = read("energy at most 450 kcal").bound else { panic!("another bound") };
        assert!((at - 1882.8).abs() < 1e-9, "{at}");
    }

    #[test]
    fn targets_are_read_as_they_are_said() {
        let expected = [
            ("water activity at most 0.85", Measured::WaterActivity, Bound::AtMost(0.85)),
            ("Water Activity <= 0,85", Measured::WaterActivity, Bound::AtMost(0.85)),
            ("water.water_activity<=0.85", Measured::WaterActivity, Bound::AtMost(0.85)),
            ("sugars between 28 and 36 %", Measured::Group(Group::Sugars), Bound::Between(28.0, 36.0)),
            ("groups.total_fat >= 33%", Measured::Group(Group::TotalFat), Bound::AtLeast(33.0)),
            ("milk-fat at most 15", Measured::Group(Group::MilkFat), Bound::AtMost(15.0)),
            ("lactose at most 3", Measured::Component(Component::Lactose), Bound::AtMost(3.0)),
            ("fat to water ~ 1.2", Measured::FatToWater, Bound::Near(1.2)),
            ("solid fat at 20 °C at least 30 %", Measured::SolidFat(Celsius(20.0)), Bound::AtLeast(30.0)),
            ("solid fat at 25c at most 12", Measured::SolidFat(Celsius(25.0)), Bound::AtMost(12.0)),
            ("solid fat at -5 °C at least 12", Measured::SolidFat(Celsius(-5.0)), Bound::AtLeast(12.0)),
            ("solid fat at 77 °F at most 12", Measured::SolidFat(Celsius(25.0)), Bound::AtMost(12.0)),
            ("fat crystals at least 15 %", Measured::Crystals(Celsius(20.0)), Bound::AtLeast(15.0)),
            ("share of fat crystals at 18 °C >= 20", Measured::Crystals(Celsius(18.0)), Bound::AtLeast(20.0)),
            ("texture.crystals_percent_of_mass <= 15", Measured::Crystals(Celsius(20.0)), Bound::AtMost(15.0)),
            ("fat.solid_fat at 25 °C <= 15", Measured::SolidFat(Celsius(25.0)), Bound::AtMost(15.0)),
            ("shrinking on setting at least 0,8 % of length", Measured::Contraction, Bound::AtLeast(0.8)),
            ("volume of solids when melted at most 55 %", Measured::SolidsVolume, Bound::AtMost(55.0)),
            ("milk fat in the fat at most 20 %", Measured::MilkFatInFat, Bound::AtMost(20.0)),
            ("fat.other_fat_percent_of_fat at most 5", Measured::OtherFatInFat, Bound::AtMost(5.0)),
            ("form V limit at least 27 °C", Measured::FormVLimit, Bound::AtLeast(27.0)),
            ("finished mass at least 1.2 kg", Measured::FinishedMass, Bound::AtLeast(1200.0)),
            ("energy at most 1900 kJ per 100 g", Measured::Energy, Bound::AtMost(1900.0)),
            ("sweetness near 30", Measured::Sweetness, Bound::Near(30.0)),
        ];
        for (text, of, bound) in expected {
            let target = read(text);
            assert_eq!((target.of, target.bound), (of, bound), "{text}");
        }
    }

    #[test]
    fn what_decides_can_be_said() {
        assert_eq!(read("water activity at most 0.85").by, Decides::UnfavourableEdge);
        assert_eq!(read("water activity at most 0.85 by value").by, Decides::Value);
        assert_eq!(read("solid fat at 20 C at least 30").by, Decides::Value);
        assert_eq!(read("solid fat at 20 C at least 30 by edge").by, Decides::UnfavourableEdge);
    }

    #[test]
    fn a_cost_may_name_its_money() {
        let euro = Currency::new("EUR").expect("a word");
        for text in ["cost at most 9 EUR per kg", "cost at most 9 eur", "cost at most EUR 9", "cost at most 9 per kg"] {
            let target = parse(text, Some(&euro)).expect(text);
            assert_eq!(target, Target::new(Measured::Cost, Bound::AtMost(9.0)), "{text}");
            assert_eq!(target_in_short(&target, Some(&euro), DecimalSign::Point), "cost at most 9 EUR per kg");
        }
        let why = parse("cost at most 9 USD per kg", Some(&euro)).expect_err("other money");
        assert!(
            why.ends_with("\"9 usd per kg\" is no amount of EUR, in which the prices are; nothing is converted"),
            "{why}"
        );
        assert!(parse("water at most 9 EUR", Some(&euro)).is_err());
    }

    /// What is read back in words is understood again.
    #[test]
    fn every_result_is_read_back() {
        for of in all() {
            for bound in [Bound::AtMost(0.625), Bound::AtLeast(1.0), Bound::Between(0.5, 0.75)] {
                let target = Target::new(of, bound);
                let words = target_in_short(&target, None, DecimalSign::Point);
                assert_eq!(read(&words), target, "{words}");
            }
            for name in names(of) {
                assert_eq!(read(&format!("{name} at most 1")).of, of, "{name}");
            }
        }
    }

    #[test]
    fn what_is_not_understood_says_what_can_be_written() {
        for (text, part) in [
            ("water", "say where it has to lie"),
            ("", "say where it has to lie"),
            ("at most 3", "say where it has to lie"),
            ("happiness at most 3", "\"happiness\" is no result; one of: cocoa butter, milk fat"),
            ("water at most much", "\"much\" is no number"),
            ("water between 3 and 2", "the lower end stands above"),
            ("water activity at most 0.45", "at most 0.5?"),
            ("solid fat at 500 °C at most 10", "between −30 and 60 °C"),
            ("water between 3", "say where it has to lie"),
            ("water at most nan", "is no number"),
            ("water activity at most 85", "water activity lies between 0 and 1"),
        ] {
            let why = parse(text, None).expect_err(text);
            assert!(why.contains(part), "{text}: {why}");
        }
    }
}
