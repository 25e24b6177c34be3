//! What the program remembers from one start to the next.
//!
//! Settings are never worth an error message: what is damaged is put aside (`.bad`) and the program starts with
//! its defaults.

use std::fs;
use std::path::{Path, PathBuf};

use super::atomic::replace_file;
use super::error::{LoadError, SaveError};
use super::files::read_text;
use super::format::settings as file;
use super::places::Places;

/// What the program remembers from one start to the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Light or dark.
    pub theme: Theme,
    /// Decimal sign for output, `,` or `.`; `None` as the system has it.
    pub decimal_sign: Option<char>,
    /// How much everything is enlarged; 1 is the ordinary size.
    pub zoom: f32,
    /// Where the window was; `None` lets the system choose.
    pub window: Option<WindowPlace>,
    /// The folder of the shelf.
    pub last_folder: Option<PathBuf>,
    /// The files opened last, the newest first.
    pub recent_files: Vec<PathBuf>,
    /// The key of the reading that is shown; empty is the first one.
    pub reading: String,
    /// Whether the shelf leaves its room to the others.
    pub is_shelf_hidden: bool,
}

/// Light or dark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Theme {
    /// As the system has it.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// Where the window was, in points of the screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindowPlace {
    /// Upper left corner; not every system tells it.
    pub position: Option<[f32; 2]>,
    /// Width and height.
    pub size: [f32; 2],
    /// Whether it filled the screen.
    pub is_maximised: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: Theme::default(),
            decimal_sign: None,
            zoom: 1.0,
            window: None,
            last_folder: None,
            recent_files: Vec::new(),
            reading: String::new(),
            is_shelf_hidden: false,
        }
    }
}

impl Settings {
    /// How many recent files are remembered.
    pub const RECENT_FILES: usize = 10;

    /// The smallest and the largest zoom.
    pub const ZOOM: [f32; 2] = [0.5, 4.0];

    /// The smallest and the largest width or height of a window in points.
    const WINDOW_SIZE: [f32; 2] = [100.0, 20_000.0];

    /// How far from the main screen's corner a window may be, in points; screens stand left of it too.
    const FARTHEST_POSITION: f32 = 100_000.0;

    /// The settings of the last time; defaults if there are none or they are damaged.
    #[must_use]
    pub fn load(places: &Places) -> Self {
        let path = places.settings_file();
        let text = match read_text(&path) {
            Ok(text) => text,
            Err(LoadError::Missing { .. }) => return Self::default(),
            Err(error) => {
                log::warn!("starting with default settings: {error}");
                if matches!(error, LoadError::NotUtf8 { .. } | LoadError::TooLarge { .. }) {
                    put_aside(&path);
                }
                return Self::default();
            }
        };
        match file::read(&text) {
            Ok(settings) => settings.checked(),
            Err(error) => {
                log::warn!("starting with default settings: {}:{error}", path.display());
                put_aside(&path);
                Self::default()
            }
        }
    }

    /// Remembers the settings.
    ///
    /// # Errors
    ///
    /// [`SaveError`] when the folder takes no file.
    pub fn save(&self, places: &Places) -> Result<(), SaveError> {
        let path = places.settings_file();
        let folder = &places.settings;
        fs::create_dir_all(folder).map_err(|reason| SaveError::Folder {
            path: path.clone(),
            folder: folder.clone(),
            reason,
        })?;
        let text = file::write(self).map_err(|reason| SaveError::WouldNotOpen { path: path.clone(), reason })?;
        replace_file(&path, text.as_bytes())
    }

    /// Puts a file in front of the recent ones.
    pub fn remember_file(&mut self, path: &Path) {
        self.recent_files.retain(|recent| recent != path);
        self.recent_files.insert(0, path.to_owned());
        self.recent_files.truncate(Self::RECENT_FILES);
    }

    /// The settings with defaults where a value makes no sense.
    fn checked(mut self) -> Self {
        let default = Self::default();
        let [smallest, largest] = Self::ZOOM;
        self.zoom = if self.zoom.is_finite() { self.zoom.clamp(smallest, largest) } else { default.zoom };
        self.decimal_sign = self.decimal_sign.filter(|sign| matches!(sign, ',' | '.'));
        let [narrowest, widest] = Self::WINDOW_SIZE;
        self.window = self.window.filter(|window| window.size.iter().all(|side| (narrowest..=widest).contains(side)));
        if let Some(window) = &mut self.window {
            let is_near = |position: &[f32; 2]| position.iter().all(|side| side.abs() <= Self::FARTHEST_POSITION);
            window.position = window.position.filter(is_near);
        }
        self.recent_files.truncate(Self::RECENT_FILES);
        self
    }
}

/// Renames a damaged file, so that it is neither used nor lost.
fn put_aside(path: &Path) {
    let aside = path.with_extension("ron.bad");
    match fs::rename(path, &aside) {
        Ok(()) => log::warn!("the damaged settings were kept as {}", aside.display()),
        Err(error) => log::warn!("{}: the damaged settings could not be put aside: {error}", path.display()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn places() -> (tempfile::TempDir, Places) {
        let folder = tempfile::tempdir().expect("a folder");
        let places = Places::under(folder.path());
        (folder, places)
    }

    fn load_text(text: &[u8]) -> (Settings, Vec<String>) {
        let (_folder, places) = places();
        fs::create_dir_all(&places.settings).expect("a folder");
        fs::write(places.settings_file(), text).expect("a file");
        let settings = Settings::load(&places);
        let names = fs::read_dir(&places.settings).expect("a folder");
        (settings, names.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect())
    }

    #[test]
    fn what_is_remembered_comes_back() {
        let (_folder, places) = places();
        assert_eq!(Settings::load(&places), Settings::default());
        let mut settings = Settings {
            theme: Theme::Dark,
            decimal_sign: Some(','),
            zoom: 1.25,
            window: Some(WindowPlace { position: Some([-10.5, 20.0]), size: [1280.0, 800.0], is_maximised: true }),
            last_folder: Some("/recipes/été".into()),
            recent_files: Vec::new(),
            reading: "fat_crystals".to_owned(),
            is_shelf_hidden: true,
        };
        settings.remember_file(Path::new("a \"b\".ron"));
        settings.save(&places).expect("it can be written");
        assert_eq!(Settings::load(&places), settings);
        settings.window = None;
        settings.save(&places).expect("it can be written again");
        assert_eq!(Settings::load(&places), settings);
    }

    #[test]
    fn recent_files_are_ten_and_each_once() {
        let mut settings = Settings::default();
        for number in 0..12 {
            settings.remember_file(&PathBuf::from(format!("{number}.ron")));
        }
        settings.remember_file(Path::new("5.ron"));
        assert_eq!(settings.recent_files.len(), Settings::RECENT_FILES);
        assert_eq!(settings.recent_files[..2], [PathBuf::from("5.ron"), PathBuf::from("11.ron")]);
    }

    #[test]
    fn damaged_settings_are_put_aside() {
        for text in [&b"(format: 1, theme: purple)"[..], b"(format: 1", b"", b"\xff", "(".repeat(100_000).as_bytes()] {
            let (settings, names) = load_text(text);
            assert_eq!(settings, Settings::default());
            assert_eq!(names, ["settings.ron.bad"]);
        }
    }

    #[test]
    fn settings_of_a_newer_version_are_read_as_far_as_they_are_known() {
        let (settings, names) = load_text(b"(format: 2, theme: light, voices: [1, (2)])");
        assert_eq!(settings.theme, Theme::Light);
        assert_eq!(names, ["settings.ron"]);
    }

    #[test]
    fn values_that_make_no_sense_become_defaults() {
        let (settings, _) = load_text(
            b"(format: 1, zoom: NaN, decimal_sign: 'x', window: (size: (0, inf), position: (0, 0), maximised: false))",
        );
        assert_eq!(settings, Settings::default());
        let (settings, _) = load_text(b"(format: 1, zoom: 99, window: (size: (800, 600), position: (NaN, 0)))");
        assert_eq!(settings.zoom, 4.0);
        assert_eq!(settings.window.expect("its size is fine").position, None);
    }
}
