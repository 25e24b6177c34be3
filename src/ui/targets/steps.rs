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
    /// The last state of the document that was seen: a later one is another change, after which nothing is made again.
    seen: Revision,
}

/// What was asked at another time.
#[derive(Clone, Debug)]
struct Step {
    asked: Asked,
    /// Where the document was when something else was asked.
    at: Revision,
}

impl Steps {
    /// The beginning: nothing can be taken back.
    #[must_use]
    pub fn of(asked: &Asked, at: Revision) -> Self {
        Self { last: asked.clone(), done: Vec::new(), undone: Vec::new(), seen: at }
    }

    /// Notes what is asked now; whether something else is asked than before.
    pub fn note(&mut self, asked: &Asked, at: Revision) -> bool {
        /// More steps back than that nobody goes.
        const MOST: usize = 200;
        let is_new = *asked != self.last;
        if is_new {
            let asked = std::mem::replace(&mut self.last, asked.clone());
            self.done.push(Step { asked, at });
            self.done.drain(..self.done.len().saturating_sub(MOST));
        }
        if is_new || at > self.seen {
            self.undone.clear();
            self.seen = self.seen.max(at);
        }
        is_new
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
        to.push(Step { asked: now, at });
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::parts::Group;
    use crate::document::{Document, Edit, OpenDocument};
    use crate::reformulate::{Bound, Measured, Target};

    fn water(at: f64) -> Target {
        Target::new(Measured::Group(Group::Water), Bound::AtMost(at))
    }

    #[test]
    fn each_change_is_a_step() {
        let at = OpenDocument::new(Document::default()).revision();
        let mut asked = Asked::default();
        let mut steps = Steps::of(&asked, at);
        assert!(!steps.can_undo(at) && !steps.note(&asked, at));
        for bound in [20.0, 18.5] {
            asked.set_target(water(bound));
            assert!(steps.note(&asked, at));
        }
        asked.targets[0].is_on = false;
        steps.note(&asked, at);
        assert!(steps.undo(&mut asked, at) && asked.targets[0].is_on);
        assert!(steps.undo(&mut asked, at) && asked.targets[0].target == water(20.0), "{asked:?}");
        assert!(steps.undo(&mut asked, at) && asked.targets.is_empty() && !steps.undo(&mut asked, at));
        assert!(steps.redo(&mut asked, at) && steps.redo(&mut asked, at));
        assert_eq!(asked.targets[0].target, water(18.5));
        // What came back is nothing new; something else that is asked is.
        assert!(!steps.note(&asked, at) && steps.can_redo(at));
        asked.is_total_free = true;
        assert!(steps.note(&asked, at) && !steps.can_redo(at));
    }

    #[test]
    fn after_a_change_of_the_sheet_nothing_is_made_again() {
        let mut open = OpenDocument::new(Document::default());
        let before = open.revision();
        let mut asked = Asked::default();
        let mut steps = Steps::of(&asked, before);
        asked.set_target(water(20.0));
        steps.note(&asked, before);
        assert!(steps.undo(&mut asked, before) && steps.can_redo(before));
        open.apply(Edit::SetNote("new".to_owned())).expect("a note");
        steps.note(&asked, open.revision());
        open.undo();
        steps.note(&asked, open.revision());
        assert!(open.revision() == before && !steps.can_redo(before));
    }
}
