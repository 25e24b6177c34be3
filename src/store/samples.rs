//! Where the samples lie: in the folder the program was started in, or beside the program.

use std::path::{Path, PathBuf};

/// The name of the folder.
const FOLDER: &str = "sample-recipes";

/// The folder of samples, if there is one near.
#[must_use]
pub fn sample_folder() -> Option<PathBuf> {
    let here = PathBuf::from(FOLDER);
    if here.is_dir() {
        return Some(here);
    }
    let program = std::env::current_exe().ok()?;
    // Beside the program, or above it where it was built (`target/release/…`).
    program.ancestors().skip(1).take(3).map(|folder: &Path| folder.join(FOLDER)).find(|folder| folder.is_dir())
}
