//! The files that commands write.

use std::path::Path;

use super::Failure;
use crate::store;
use crate::store::format::problem::on_one_line;

/// Whether a recipe may be written there: its name is that of a recipe, and no file is there that is not meant.
pub(super) fn check_new_recipe(output: &Path, may_replace: bool) -> Result<(), Failure> {
    let name = on_one_line(&output.display().to_string());
    if !output.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("ron")) {
        return Err(Failure::unusable(format!("{name}: a recipe file ends with .ron; name the new file so")));
    }
    if !may_replace && store::file_stamp(output).is_some() {
        return Err(Failure::unusable(format!(
            "{name}: there is such a file; take another name, or add --replace to write over it"
        )));
    }
    Ok(())
}
