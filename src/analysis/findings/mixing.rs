//! What the mix has to say: where it ends, whether that is where it should, what was assumed.

use crate::analysis::Analysis;
use crate::analysis::finding::{Finding, Level, MixingSubject, SeededBy, Subject, WaySubject};
use crate::analysis::heat::Caution;
use crate::analysis::is_above;
use crate::analysis::mixing::{MixingState, REACHED_WITHIN};
use crate::analysis::remedy::Names;
use crate::analysis::survival::Fate;
use crate::recipe::Recipe;

/// The findings about the temperature of the mix; none where no line has a temperature.
pub(super) fn mixing_findings(recipe: &Recipe, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let mixing = match &analysis.mixing {
        None => return,
        Some(Err(why)) => {
            findings.push(Finding::new(Level::Caution, "mixing.none", Subject::NotMixed(*why)));
            return;
        }
        Some(Ok(mixing)) => mixing,
    };
    findings.extend(missed(recipe, mixing));
    findings.push(end(analysis, mixing));
    if mixing.unsaid > 0 {
        let subject = Subject::MixingAssumed { unsaid: mixing.unsaid, lines: mixing.lines };
        #[expect(clippy::cast_precision_loss, reason = "a number of lines")]
        let count = mixing.unsaid as f64;
        findings.push(Finding::new(Level::Note, "mixing.assumed_temperature", subject).with_value(count));
    }
    if mixing.mixed.cautions.contains(&Caution::EthanolIsLost) {
        findings.push(Finding::new(Level::Caution, "mixing.alcohol", Subject::MixingAlcohol));
    }
    if is_above(mixing.cooler_by.0, REACHED_WITHIN.0) {
        let subject = Subject::MixingCoolingSugars { grams: mixing.cooling_sugars, cooler_by: mixing.cooler_by };
        findings.push(Finding::new(Level::Note, "mixing.cooling_sugars", subject).with_value(mixing.cooler_by.0));
    }
}

fn end(analysis: &Analysis, mixing: &MixingState) -> Finding {
    let subject = MixingSubject::of(analysis, mixing);
    let window = subject.window;
    let is_kept = subject.seeded_by == SeededBy::Kept;
    let subject = Subject::MixingEnd(subject);
    let finding = match mixing.fate {
        // Above the limit is where a ganache is made; only who brings crystals loses them.
        Some(Fate::Melts | Fate::OnlyAnnealed)
            if mixing.has_tempered || is_kept && mixing.fresh_fate != Some(Fate::Lives) =>
        {
            Finding::new(Level::Caution, "mixing.celsius.high", subject)
        }
        Some(Fate::Melts | Fate::OnlyAnnealed) => Finding::new(Level::Note, "mixing.celsius.high", subject),
        Some(Fate::Cold | Fate::WrongForm) => Finding::new(Level::Caution, "mixing.celsius.low", subject),
        Some(Fate::Edge | Fate::Lives) | None => Finding::new(Level::Note, "mixing.celsius", subject),
    };
    finding.with_value(mixing.end.0).with_usual(window.map(|window| window.min.0), window.map(|window| window.max.0))
}

fn missed(recipe: &Recipe, mixing: &MixingState) -> Option<Finding> {
    mixing.missed()?;
    let wanted = mixing.wanted.as_ref()?;
    let names = Names::of(recipe);
    let ways = wanted.ways.iter().map(|way| WaySubject::of(recipe, &names, way)).collect();
    let subject = Subject::MixingMissed { end: mixing.end, wanted: wanted.at, ways };
    let finding = Finding::new(Level::Caution, "mixing.wanted_c", subject).with_value(mixing.end.0);
    Some(finding.with_usual(Some(wanted.at.0), Some(wanted.at.0)))
}
