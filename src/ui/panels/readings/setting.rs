//! What happens between the stove and the mould.

pub(super) mod mixing;
