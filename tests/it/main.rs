//! All tests that stand outside the modules, in one binary. Their modules mirror `src/`.

mod store;
#[cfg(feature = "gui")]
mod ui;
#[cfg(feature = "gui")]
mod ui_gallery;
