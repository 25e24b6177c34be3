//! What the report of a proposed recipe would warn of, and that of the recipe before did not: told before it is made, not after.

use crate::analysis::finding::{Finding, Level, Subject};
use crate::analysis::{ROOM, analyse};
use crate::number::DecimalSign;
use crate::recipe::Recipe;
use crate::report::words::{finding, level};

/// What was outside of the usual already is told again where it is further outside by such a share of the bound (judged).
const WORSE_BY_SHARE: f64 = 0.1;
/// And a water activity from here on: near a limit of growth a hundredth counts (judged).
const WORSE_ACTIVITY: f64 = 0.01;

/// Cautions and problems that come in or get clearly worse, the worst first, each a sentence.
pub(super) fn news(before: &Recipe, after: &Recipe, sign: DecimalSign) -> Vec<String> {
    let mut now = analyse(after, ROOM).findings;
    now.retain(|finding| finding.level > Level::Note && !has_sentence_of_its_own(finding));
    if now.is_empty() {
        return Vec::new();
    }
    let was = analyse(before, ROOM).findings;
    // They are sorted by level; what is new goes before what is worse.
    let each = now.iter().filter_map(|now| Some((now, word(now, &was)?)));
    let mut told: Vec<(&Finding, &str)> = each.collect();
    told.sort_by_key(|(now, word)| (std::cmp::Reverse(now.level), *word != NEW));
    let sentence = |(now, word): (&Finding, &str)| {
        format!("{word} in the report, a {}: {}.", level(now.level), finding(now, sign).title.trim_end_matches('.'))
    };
    told.into_iter().map(sentence).collect()
}

const NEW: &str = "New";

/// What is said of these stands in a note of its own, with more than their title.
fn has_sentence_of_its_own(finding: &Finding) -> bool {
    matches!(
        finding.subject,
        Subject::UnknownInput { .. }
            | Subject::Allergens { .. }
            | Subject::Polyols { .. }
            | Subject::Alcohol { .. }
            | Subject::RawEgg { .. }
    )
}

/// How a finding is news beside those before, if it is.
fn word(now: &Finding, was: &[Finding]) -> Option<&'static str> {
    let Some(before) = was.iter().filter(|before| before.code == now.code).max_by_key(|before| before.level) else {
        return Some(NEW);
    };
    if now.level > before.level {
        // A note of it nobody had to act on.
        return Some(if before.level == Level::Note { NEW } else { "Worse" });
    }
    let (outside, bound) = outside(now)?;
    let (outside_before, _) = outside_of(before, now)?;
    let least = match now.subject {
        Subject::Keeping(_) => WORSE_ACTIVITY,
        _ => WORSE_BY_SHARE * bound.abs(),
    };
    (now.level == before.level && outside - outside_before >= least).then_some("Worse")
}

/// How far a figure lies outside of the usual, and the end that it passed.
fn outside(finding: &Finding) -> Option<(f64, f64)> {
    outside_of(finding, finding)
}

/// The same with the ends of another finding.
fn outside_of(finding: &Finding, ends: &Finding) -> Option<(f64, f64)> {
    let value = finding.value?;
    let above = ends.usual_high.filter(|high| value > *high).map(|high| (value - high, high));
    let below = || ends.usual_low.filter(|low| value < *low).map(|low| (low - value, low));
    above.or_else(below)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(level: Level, value: f64) -> Finding {
        Finding::new(level, "a", Subject::HotSugar).with_value(value).with_usual(Some(0.8), Some(1.6))
    }

    #[test]
    fn what_is_new_or_clearly_worse_is_news() {
        let was = [at(Level::Caution, 1.9)];
        assert_eq!(word(&at(Level::Caution, 3.9), &[]), Some("New"));
        assert_eq!(word(&at(Level::Caution, 3.9), &was), Some("Worse"));
        assert_eq!(word(&at(Level::Problem, 1.9), &was), Some("Worse"));
        assert_eq!(word(&at(Level::Caution, 1.9), &[at(Level::Note, 1.9)]), Some("New"));
        // A little worse, better, less serious.
        assert_eq!(word(&at(Level::Caution, 2.0), &was), None);
        assert_eq!(word(&at(Level::Caution, 1.7), &was), None);
        assert_eq!(word(&at(Level::Caution, 1.9), &[at(Level::Problem, 1.9)]), None);
        // Outside by hardly anything.
        assert_eq!(word(&at(Level::Caution, 1.62), &[at(Level::Caution, 1.61)]), None);
    }
}
