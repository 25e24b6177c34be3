//! What was asked before: a change of what is asked is taken back like one of the sheet, each in its turn.
//!
//! The document has its own history. A step of what is asked remembers the revision at which it was made: it is the last that was
//! done as long as the document is still there.

use super::Asked;
use crate::document::Revision;

/// Steps of what is asked.
#[derive(Clone, Debug)]
pub struct Steps {
    /// What is asked now, as far as it is known here.
    last: Asked,
    done: Vec<Step>,
    undone: Vec<Step>,
    /// Whether the last step goes on: a number is being typed.
    is_open: bool,
}

/// What was asked at another time.
#[derive(Clone, Debug)]
struct Step {
    asked: Asked,
    /// Where the document was when something else was asked.
    at: Revision,
    /// The row whose bound was all that changed: typing a number is one step.
    row: Option<u32>,
}

impl Steps {
    /// The beginning: nothing can be taken back.
    #[must_use]
    pub fn of(asked: &Asked) -> Self {
        Self { last: asked.clone(), done: Vec::new(), undone: Vec::new(), is_open: false }
    }

    /// Notes what is asked now; while a number `is_typed`, all its digits are one step.
    pub fn note(&mut self, asked: &Asked, at: Revision, is_typed: bool) {
        if *asked != self.last {
            let row = changed_row(&self.last, asked);
            let before = std::mem::replace(&mut self.last, asked.clone());
            let is_same = |step: &Step| step.row == row && step.at == at;
            if !(self.is_open && row.is_some() && self.done.last().is_some_and(is_same)) {
                self.done.push(Step { asked: before, at, row });
            }
            self.undone.clear();
            self.is_open = true;
        }
        self.is_open &= is_typed;
    }

    /// Whether the last that was done at this state of the document is a step of what is asked.
    #[must_use]
    pub fn can_undo(&self, at: Revision) -> bool {
        self.done.last().is_some_and(|step| step.at == at)
    }

    /// Whether the last that was taken back at this state of the document is one.
    #[must_use]
    pub fn can_redo(&self, at: Revision) -> bool {
        self.undone.last().is_some_and(|step| step.at == at)
    }

    /// Takes the last step back, if it was made at this state of the document.
    pub fn undo(&mut self, asked: &mut Asked, at: Revision) -> bool {
        Self::step(&mut self.done, &mut self.undone, &mut self.last, asked, at)
    }

    /// Makes it again.
    pub fn redo(&mut self, asked: &mut Asked, at: Revision) -> bool {
        Self::step(&mut self.undone, &mut self.done, &mut self.last, asked, at)
    }

    fn step(from: &mut Vec<Step>, to: &mut Vec<Step>, last: &mut Asked, asked: &mut Asked, at: Revision) -> bool {
        let Some(step) = from.pop_if(|step| step.at == at) else { return false };
        let now = std::mem::replace(asked, step.asked);
        last.clone_from(asked);
        to.push(Step { asked: now, at, row: step.row });
        true
    }
}

/// The only row in which two questions differ, and only by its numbers: it was typed into.
fn changed_row(before: &Asked, after: &Asked) -> Option<u32> {
    let targets = differing(&before.targets, &after.targets, |row| row.number)?;
    let limits = differing(&before.limits, &after.limits, |row| row.number)?;
    let allowed = differing(&before.allowed, &after.allowed, |row| row.number)?;
    let [row] = [targets, limits, allowed].concat()[..] else { return None };
    let all_else = |asked: &Asked| {
        let targets = asked.targets.iter().filter(|other| other.number == row).map(|row| (row.target.of, row.is_on));
        (targets.collect::<Vec<_>>(), asked.seasoning.clone(), asked.is_total_free, asked.change, asked.scale)
    };
    (all_else(before) == all_else(after)).then_some(row)
}

/// The numbers of the rows that differ; `None` where rows came or went.
fn differing<Row: PartialEq>(before: &[Row], after: &[Row], number: impl Fn(&Row) -> u32) -> Option<Vec<u32>> {
    let is_same = before.iter().map(&number).eq(after.iter().map(&number));
    let differing = before.iter().zip(after).filter(|(before, after)| before != after);
    is_same.then(|| differing.map(|(_, after)| number(after)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::parts::Group;
    use crate::document::{Document, OpenDocument};
    use crate::reformulate::{Bound, Measured, Target};

    fn water(at: f64) -> Target {
        Target::new(Measured::Group(Group::Water), Bound::AtMost(at))
    }

    #[test]
    fn a_number_that_is_typed_is_one_step() {
        let at = OpenDocument::new(Document::default()).revision();
        let mut asked = Asked::default();
        let mut steps = Steps::of(&asked);
        assert!(!steps.can_undo(at));
        asked.set_target(water(20.0));
        steps.note(&asked, at, false);
        for typed in [[1.0, 18.0, 18.5], [1.0, 16.0, 16.5]] {
            for digits in typed {
                asked.set_target(water(digits));
                steps.note(&asked, at, true);
            }
            steps.note(&asked, at, false);
        }
        assert!(steps.undo(&mut asked, at) && asked.targets[0].target == water(18.5), "{asked:?}");
        assert!(steps.undo(&mut asked, at) && asked.targets[0].target == water(20.0), "{asked:?}");
        assert!(steps.undo(&mut asked, at) && asked.targets.is_empty());
        assert!(!steps.undo(&mut asked, at));
        assert!(steps.redo(&mut asked, at) && steps.redo(&mut asked, at));
        assert_eq!(asked.targets[0].target, water(18.5));
        assert!(steps.undo(&mut asked, at));
        asked.targets[0].is_on = false;
        steps.note(&asked, at, false);
        assert!(!steps.can_redo(at), "something else was asked");
        assert!(steps.undo(&mut asked, at) && asked.targets[0].is_on);
    }

    #[test]
    fn a_switch_is_a_step_of_its_own() {
        let at = OpenDocument::new(Document::default()).revision();
        let mut asked = Asked::default();
        asked.set_target(water(20.0));
        let mut steps = Steps::of(&asked);
        for is_on in [false, true, false] {
            asked.targets[0].is_on = is_on;
            steps.note(&asked, at, true);
        }
        asked.is_total_free = true;
        steps.note(&asked, at, false);
        let mut taken_back = 0;
        while steps.undo(&mut asked, at) {
            taken_back += 1;
        }
        assert_eq!(taken_back, 4);
    }
}
