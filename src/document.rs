//! What is saved, how it changes, and how a change is taken back.
//!
//! * [`Document`]: what is saved; immutable once published.
//! * [`Edit`]: the only way to change it; invariants are kept there.
//! * [`OpenDocument`]: the document with its history of labelled steps.
//! * [`Memo`]: a derived value that is computed again only when its key changes.
//!
//! A [`Revision`] belongs to a state of the document: undo brings the old number back, so "unsaved" is a comparison and
//! what was computed for an earlier state is valid again.

mod edit;
mod memo;
mod open;

pub use edit::{Edit, EditError};
pub use memo::Memo;
pub use open::{MergeKey, OpenDocument, Revision};

use crate::recipe::Recipe;

/// What is saved.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// The recipe being worked on.
    pub recipe: Recipe,
}
