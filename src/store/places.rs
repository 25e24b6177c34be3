//! The folders in which the program keeps its own files.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use directories::ProjectDirs;

/// The environment variable that puts all of them into one folder: for tests, and for a stick that is carried along.
pub const HOME_VARIABLE: &str = "NIBWRIGHT_HOME";

/// The folders in which the program keeps its own files; they need not exist yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Places {
    /// For the settings.
    pub settings: PathBuf,
    /// For what the user has made and no recipe carries: his prices.
    pub data: PathBuf,
    /// For what belongs to this computer alone: copies of unsaved work.
    pub state: PathBuf,
}

impl Places {
    /// The folders of this user; `None` on a system that tells no home folder.
    #[must_use]
    pub fn find() -> Option<Self> {
        Self::find_with(std::env::var_os(HOME_VARIABLE))
    }

    /// All folders in one.
    #[must_use]
    pub fn under(folder: &Path) -> Self {
        Self { settings: folder.join("settings"), data: folder.join("data"), state: folder.join("state") }
    }

    /// The file of the settings.
    #[must_use]
    pub fn settings_file(&self) -> PathBuf {
        self.settings.join("settings.ron")
    }

    /// The folder of the copies of unsaved work.
    #[must_use]
    pub fn recovery(&self) -> PathBuf {
        self.state.join("recovery")
    }

    fn find_with(home: Option<OsString>) -> Option<Self> {
        if let Some(home) = home.filter(|home| !home.is_empty()) {
            return Some(Self::under(Path::new(&home)));
        }
        let folders = ProjectDirs::from("", "", "Nibwright")?;
        Some(Self {
            settings: folders.config_dir().to_owned(),
            data: folders.data_dir().to_owned(),
            // Only Linux has a folder for state.
            state: folders.state_dir().unwrap_or_else(|| folders.data_local_dir()).to_owned(),
        })
    }
}

/// The folder of the running program and those above it, nearest first; none if the system does not tell.
#[must_use]
pub fn folders_above_program() -> Vec<PathBuf> {
    std::env::current_exe().map(|program| program.ancestors().skip(1).map(Path::to_owned).collect()).unwrap_or_default()
}

/// Whether the session has a screen, as its environment says (X11 or Wayland).
#[must_use]
pub fn has_display() -> bool {
    ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
        .into_iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_variable_puts_everything_into_one_folder() {
        let places = Places::find_with(Some("/stick".into())).expect("a folder is given");
        assert_eq!(places, Places::under(Path::new("/stick")));
        assert!(places.settings_file().starts_with("/stick") && places.recovery().starts_with("/stick"));
    }

    #[test]
    fn an_empty_variable_is_none() {
        assert_eq!(Places::find_with(Some(OsString::new())), Places::find_with(None));
    }
}
