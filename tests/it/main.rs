//! One test binary; its modules mirror `src/`.

#[cfg(feature = "gui")]
mod ui_gallery;
