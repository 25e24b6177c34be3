//! A document with its history: a list of snapshots with labels.

use std::sync::Arc;

use super::{Document, Edit, EditError};
use crate::recipe::LineId;

/// The identity of a state of a document. Two states with one revision are the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Revision(u64);

/// What belongs to one gesture: changes with the same key become one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MergeKey {
    /// The name of the recipe.
    Name,
    /// The note on the recipe.
    Note,
    /// What evaporates.
    Evaporation,
    /// The transfer loss.
    TransferLoss,
    /// The measured pH.
    Ph,
    /// How it is set.
    Setting,
    /// Where the finished pieces lie.
    Storage,
    /// The share of crystals in the cream of seed.
    CreamShare,
    /// The own amount of seed.
    SeedAmount,
    /// The own temperature of the seed.
    SeedTemperature,
    /// The amount of one line.
    Amount(LineId),
    /// The note of one line.
    LineNote(LineId),
    /// The temperature of one line.
    Temperature(LineId),
    /// What is said of the mix.
    Mixing,
    /// The mass of the whole.
    Scale,
}

/// A document that is being worked on.
#[derive(Clone, Debug)]
pub struct OpenDocument {
    current: Snapshot,
    undo: Vec<Step>,
    redo: Vec<Step>,
    saved: Revision,
    newest: u64,
    /// The gesture that the next change may still belong to.
    open_gesture: Option<MergeKey>,
}

#[derive(Clone, Debug)]
struct Snapshot {
    document: Arc<Document>,
    revision: Revision,
}

/// A change that can be taken back, or made again.
#[derive(Clone, Debug)]
struct Step {
    /// The state on the other side of it.
    other_side: Snapshot,
    label: &'static str,
}

impl OpenDocument {
    /// How many steps are kept.
    pub const MOST_STEPS: usize = 200;

    /// Opens a document that is as it was saved.
    #[must_use]
    pub fn new(document: Document) -> Self {
        let revision = Revision(0);
        Self {
            current: Snapshot { document: Arc::new(document), revision },
            undo: Vec::new(),
            redo: Vec::new(),
            saved: revision,
            newest: 0,
            open_gesture: None,
        }
    }

    /// Opens a document that is nowhere saved: recovered work.
    #[must_use]
    pub fn new_unsaved(document: Document) -> Self {
        let mut open = Self::new(document);
        open.newest += 1;
        open.current.revision = Revision(open.newest);
        open
    }

    /// The document as it stands.
    #[must_use]
    pub fn document(&self) -> &Arc<Document> {
        &self.current.document
    }

    /// Which state it is in.
    #[must_use]
    pub fn revision(&self) -> Revision {
        self.current.revision
    }

    /// Whether the state it is in is the one that was saved.
    #[must_use]
    pub fn is_saved(&self) -> bool {
        self.current.revision == self.saved
    }

    /// Says that the state it is in has been saved. The next change begins a new step.
    pub fn mark_saved(&mut self) {
        self.saved = self.current.revision;
        self.end_gesture();
    }

    /// Makes a change as a step that can be taken back, or as part of the gesture that is going on.
    ///
    /// A change that changes nothing leaves no step.
    ///
    /// # Errors
    ///
    /// [`EditError`] when the change is refused; nothing has changed then.
    pub fn apply(&mut self, edit: Edit) -> Result<(), EditError> {
        let label = edit.label();
        let key = edit.merge_key();
        let mut document = Document::clone(&self.current.document);
        edit.apply(&mut document)?;
        let belongs_to_gesture = key.is_some() && key == self.open_gesture;
        if belongs_to_gesture
            && let Some(step) = self.undo.last()
            && *step.other_side.document == document
        {
            // The gesture has come back to where it began: its step is not needed any more.
            if let Some(step) = self.undo.pop() {
                self.current = step.other_side;
            }
            self.open_gesture = None;
            return Ok(());
        }
        if document == *self.current.document {
            return Ok(());
        }
        self.newest += 1;
        let after = Snapshot { document: Arc::new(document), revision: Revision(self.newest) };
        let before = std::mem::replace(&mut self.current, after);
        if !belongs_to_gesture {
            self.undo.push(Step { other_side: before, label });
            if self.undo.len() > Self::MOST_STEPS {
                self.undo.remove(0);
            }
        }
        self.redo.clear();
        self.open_gesture = key;
        Ok(())
    }

    /// Ends the gesture that is going on: the next change begins a new step.
    pub fn end_gesture(&mut self) {
        self.open_gesture = None;
    }

    /// Ends the gesture that is going on and takes back what it has changed so far; leaves no step.
    pub fn cancel_gesture(&mut self) {
        if self.open_gesture.take().is_some()
            && let Some(step) = self.undo.pop()
        {
            self.current = step.other_side;
        }
    }

    /// Takes the last step back, if there is one.
    pub fn undo(&mut self) {
        if let Some(step) = self.undo.pop() {
            let back = self.cross(step);
            self.redo.push(back);
        }
    }

    /// Makes the last step that was taken back again, if there is one.
    pub fn redo(&mut self) {
        if let Some(step) = self.redo.pop() {
            let back = self.cross(step);
            self.undo.push(back);
        }
    }

    /// Forgets what was taken back: something else was done meanwhile that is no part of the document.
    pub fn forget_redo(&mut self) {
        self.redo.clear();
    }

    /// What would be taken back.
    #[must_use]
    pub fn undo_label(&self) -> Option<&'static str> {
        self.undo.last().map(|step| step.label)
    }

    /// What would be made again.
    #[must_use]
    pub fn redo_label(&self) -> Option<&'static str> {
        self.redo.last().map(|step| step.label)
    }

    /// Goes to the other side of a step; gives back the way home.
    fn cross(&mut self, step: Step) -> Step {
        self.end_gesture();
        let here = std::mem::replace(&mut self.current, step.other_side);
        Step { other_side: here, label: step.label }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ingredient::Library;
    use crate::recipe::Quantity;

    fn grams(value: f64) -> Quantity {
        Quantity::from_grams(value).expect("an amount")
    }

    fn with_cream() -> OpenDocument {
        let mut document = Document::default();
        let cream = Library::built_in().by_id("cream-35").expect("built in").clone();
        document.recipe.push(cream, grams(300.0));
        OpenDocument::new(document)
    }

    fn amount(open: &OpenDocument) -> f64 {
        open.document().recipe.lines[0].amount.value()
    }

    fn set(open: &mut OpenDocument, value: f64) {
        let line = open.document().recipe.lines[0].id;
        open.apply(Edit::SetAmount { line, amount: grams(value) }).expect("not locked");
    }

    #[test]
    fn typing_in_one_cell_is_one_step() {
        let mut open = with_cream();
        for value in [3.0, 34.0, 340.0] {
            set(&mut open, value);
        }
        open.undo();
        assert_eq!(amount(&open), 300.0);
        assert!(open.is_saved());
        open.redo();
        assert_eq!(amount(&open), 340.0);
    }

    #[test]
    fn leaving_the_cell_ends_the_step() {
        let mut open = with_cream();
        set(&mut open, 310.0);
        open.end_gesture();
        set(&mut open, 320.0);
        open.undo();
        assert_eq!(amount(&open), 310.0);
    }

    #[test]
    fn saving_ends_the_step() {
        let mut open = with_cream();
        set(&mut open, 310.0);
        open.mark_saved();
        set(&mut open, 320.0);
        open.undo();
        assert!(open.is_saved());
        assert_eq!(amount(&open), 310.0);
    }

    #[test]
    fn a_gesture_that_comes_back_leaves_no_step() {
        let mut open = with_cream();
        set(&mut open, 310.0);
        set(&mut open, 300.0);
        assert_eq!(open.undo_label(), None);
        assert!(open.is_saved());
    }

    #[test]
    fn a_cancelled_gesture_leaves_no_step() {
        let mut open = with_cream();
        set(&mut open, 310.0);
        open.end_gesture();
        set(&mut open, 3.0);
        set(&mut open, 32.0);
        open.cancel_gesture();
        assert_eq!(amount(&open), 310.0);
        assert_eq!(open.redo_label(), None);
        open.cancel_gesture();
        assert_eq!(amount(&open), 310.0);
        open.undo();
        assert_eq!(amount(&open), 300.0);
    }

    #[test]
    fn a_refused_change_leaves_no_trace() {
        let mut open = with_cream();
        let line = open.document().recipe.lines[0].id;
        open.apply(Edit::SetLock { line, is_locked: true }).expect("there");
        let revision = open.revision();
        assert_eq!(open.apply(Edit::SetAmount { line, amount: grams(1.0) }), Err(EditError::Locked));
        assert_eq!(open.apply(Edit::RemoveLine(LineId(99))), Err(EditError::NoSuchLine));
        assert_eq!(open.apply(Edit::ScaleTo { weighed: grams(0.0) }), Err(EditError::ScaleToNothing));
        assert_eq!(open.revision(), revision);
        assert_eq!(open.undo_label(), Some("lock line"));
    }

    #[test]
    fn the_history_is_bounded() {
        let mut open = with_cream();
        for step in 0..2 * OpenDocument::MOST_STEPS {
            open.apply(Edit::SetName(format!("{step}"))).expect("a name");
            open.end_gesture();
        }
        let mut steps = 0;
        while open.undo_label().is_some() {
            open.undo();
            steps += 1;
        }
        assert_eq!(steps, OpenDocument::MOST_STEPS);
    }
}
