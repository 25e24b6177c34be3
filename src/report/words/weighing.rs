//! The words of a weighing list: what there is to say about a batch, and its seed.

use crate::analysis::Analysis;
use crate::analysis::parts::Group;
use crate::number::{DecimalSign, fixed, grams as grams_text, round_half_up, shortest};
use crate::production::day::{Note, Work};
use crate::production::mould::LEAST_CHOCOLATE;
use crate::production::rounding::{MOST_RELATIVE_ERROR, RoundedLine};
use crate::production::seed::SeedOf;
use crate::recipe::{Line, SeedingWay};
use crate::units::{Grams, MassFraction};

/// Decimals beyond which a weight says nothing: the finest step that is taken.
const MOST_DECIMALS: u32 = 4;

/// A weight as a scale shows it: with the decimals of its step.
#[must_use]
pub fn on_scale(mass: Grams, step: Grams, sign: DecimalSign) -> String {
    fixed(mass.0, decimals(step), sign)
}

/// The decimals of a step.
#[must_use]
pub fn decimals(step: Grams) -> u32 {
    let is_whole = |decimals: &u32| {
        let digits = step.0 * 10_f64.powi(i32::try_from(*decimals).unwrap_or(0));
        (digits - digits.round()).abs() < 1e-6
    };
    (0..MOST_DECIMALS).find(is_whole).unwrap_or(MOST_DECIMALS)
}

/// What there is to say about a batch, as one sentence.
#[must_use]
pub fn note(note: &Note, sign: DecimalSign) -> String {
    match note {
        Note::TooCoarse { name, line } => {
            format!("{name}: {}; weigh it on a finer scale, or make more at once", too_coarse(line, sign))
        }
        Note::SeedTooCoarse { line } => {
            format!("The seed of a bowl: {}; weigh it on a finer scale", too_coarse(line, sign))
        }
        Note::TooLittleChocolate { shell } => format!(
            "The chocolate around it is {} % of the piece. From {} % of chocolate on a piece may be called \"filled chocolate\" or \"praline\" (Codex CXS 87-1981, Directive 2000/36/EC); this one must not, unless there is enough chocolate in its filling for a praline",
            shortest(shell.to_percent(), 2, sign),
            shortest(LEAST_CHOCOLATE.to_percent(), 0, sign)
        ),
        Note::ComputedDensity { melted, set } => {
            let three = |value: f64| fixed(value, 3, sign);
            format!(
                "The density, {} g/ml, is computed for melted fat and without air; once its cocoa butter has set it is {} to {}. Weigh a cup of known volume and give that: it is always better",
                three(melted.0),
                three(set.0.0),
                three(set.1.0)
            )
        }
        Note::EvaporationNotKnown => {
            "How much water evaporates is not known, so neither are the finished mass and what is made of it; weigh the pan before and after".to_owned()
        }
    }
}

/// What the maker should know of a line: that it is the seed, and its note, else how warm it is.
#[must_use]
pub fn remark(line: &Line, sign: DecimalSign) -> String {
    let seed = line.is_seed.then(|| "seed, last".to_owned());
    let warm = line.temperature.map(|at| format!("{} °C", shortest(at.celsius().0, 1, sign)));
    let note = Some(line.note.trim().to_owned()).filter(|note| !note.is_empty());
    [seed, note.or(warm)].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How a scale is too coarse: "4.33 g on a scale that shows 1 g: 4 g are 7.7 % less than meant".
fn too_coarse(line: &RoundedLine, sign: DecimalSign) -> String {
    let exact = shortest(line.exact.0, decimals(line.step) + 2, sign);
    let step = shortest(line.step.0, MOST_DECIMALS, sign);
    let error = line.relative_error.map_or(0.0, MassFraction::to_percent);
    let rounded = on_scale(line.rounded, line.step, sign);
    if line.rounded.0 <= 0.0 {
        return format!("{exact} g on a scale that shows {step} g: it would be left out");
    }
    // What is listed can be right, and the scale still not tell it from half a step more or less.
    let half_a_step = MassFraction(line.step.0 / 2.0 / line.exact.0).to_percent();
    if error.abs() <= MOST_RELATIVE_ERROR.to_percent() {
        return format!("{exact} g on a scale that shows {step} g can be off by {} %", fixed(half_a_step, 0, sign));
    }
    let (off, direction) = (fixed(error.abs(), 1, sign), if error > 0.0 { "more" } else { "less" });
    format!("{exact} g on a scale that shows {step} g: {rounded} g are {off} % {direction} than meant")
}

/// By how many points rounding to the scale moves what a mass is made of: "water +0.02, total fat −0.01, sugars 0.00 points";
/// `None` where none of it is known, or nothing moves that would be seen.
#[must_use]
pub fn rounding_moves(work: &Work, sign: DecimalSign) -> Option<String> {
    let told = |group: Group| {
        let points = work.rounding_moves(group)?;
        let shown = fixed(points, 2, sign);
        let plus = if round_half_up(points, 2) > 0.0 { "+" } else { "" };
        Some(format!("{} {plus}{shown}", group.words()))
    };
    let is_seen = |group: &Group| work.rounding_moves(*group).is_some_and(|points| round_half_up(points, 2) != 0.0);
    if !ROUNDED.iter().any(is_seen) {
        return None;
    }
    let each: Vec<String> = ROUNDED.into_iter().filter_map(told).collect();
    (!each.is_empty()).then(|| format!("{} points", each.join(", ")))
}

/// Of what it is told how far rounding moves it.
pub const ROUNDED: [Group; 3] = [Group::Water, Group::TotalFat, Group::Sugars];

/// The seed of a batch in one line.
#[must_use]
pub fn seed_of(seed: &SeedOf, analysis: &Analysis, sign: DecimalSign) -> String {
    match seed {
        SeedOf::Needed { way, grams, name, is_in_recipe } => {
            let of = name.as_ref().map_or_else(String::new, |name| format!(" of {name}"));
            let stands = if *is_in_recipe { ", which stands among the lines; put it in last" } else { "" };
            format!("{} g{of}, {}{stands}", grams_text(grams.0, sign), way.words())
        }
        SeedOf::NotKnown { way } => format!("{}; how much is not known", way.words()),
        SeedOf::None => match &analysis.plan {
            Ok(plan) if plan.choice.way == SeedingWay::KeepTempered => {
                "none: tempered chocolate keeps its own crystals".to_owned()
            }
            Ok(_) => "none".to_owned(),
            Err(why) => super::plan::no_plan(*why, analysis, sign),
        },
    }
}

/// The seed that is weighed in besides and that no cost counts: "74.7 g of cocoa butter, the seed"; none where there is none,
/// or where it stands among the lines.
#[must_use]
pub fn seed_not_in_cost(work: &Work, sign: DecimalSign) -> Option<String> {
    match &work.seed {
        SeedOf::Needed { grams, name, is_in_recipe: false, .. } => {
            let of = name.as_ref().map_or_else(String::new, |name| format!(" of {name}"));
            Some(format!("the seed, {} g{of}", grams_text(grams.0, sign)))
        }
        SeedOf::NotKnown { .. } => Some("the seed; how much is not known".to_owned()),
        SeedOf::Needed { .. } | SeedOf::None => None,
    }
}
