//! Where the samples lie: in the folder the program was started in, or beside the program.

use std::path::PathBuf;

use super::places;

/// The name of the folder.
const FOLDER: &str = "sample-recipes";

/// The folder of samples, if there is one near.
#[must_use]
pub fn sample_folder() -> Option<PathBuf> {
    // Beside the program, or above it where it was built (`target/release/…`).
    let near_program = places::folders_above_program().into_iter().take(3).map(|folder| folder.join(FOLDER));
    std::iter::once(PathBuf::from(FOLDER)).chain(near_program).find(|folder| folder.is_dir())
}
