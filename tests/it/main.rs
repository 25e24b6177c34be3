//! All tests that stand outside the modules, in one binary. Their modules mirror `src/`.

mod documentation;
mod store;
#[cfg(feature = "gui")]
mod ui_gallery;
