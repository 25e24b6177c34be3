//! The text of the settings file.
//!
//! Unlike a recipe it is read tolerantly: unknown fields of a later version are passed over, missing ones are
//! defaults. A path that is no Unicode text cannot be written and is left out.

use std::path::PathBuf;

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use super::options;
use super::outline::imbalance;
use super::problem::{FormatError, on_one_line};
use super::syntax::{explain, explain_imbalance};
use crate::store::settings::{self, Settings};

/// The format that is written.
const FORMAT: u32 = 1;

#[derive(Deserialize, Serialize)]
#[serde(rename = "Settings", default)]
struct File {
    format: u32,
    theme: Theme,
    #[serde(skip_serializing_if = "Option::is_none")]
    decimal_sign: Option<char>,
    zoom: f32,
    #[serde(skip_serializing_if = "Option::is_none")]
    window: Option<Window>,
    #[serde(skip_serializing_if = "Option::is_none")]
    last_folder: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    recent_files: Vec<String>,
    #[serde(skip_serializing_if = "String::is_empty")]
    reading: String,
    shelf_hidden: bool,
}

#[derive(Default, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
enum Theme {
    #[default]
    System,
    Light,
    Dark,
}

#[derive(Deserialize, Serialize)]
struct Window {
    size: (f32, f32),
    #[serde(default, skip_serializing_if = "Option::is_none")]
    position: Option<(f32, f32)>,
    #[serde(default)]
    maximised: bool,
}

/// The settings that a text describes.
///
/// # Errors
///
/// [`FormatError`] when the text is damaged.
pub fn read(text: &str) -> Result<Settings, FormatError> {
    if let Some((_, imbalance)) = imbalance(text) {
        return Err(explain_imbalance(text, imbalance));
    }
    let file: File = options().from_str(text).map_err(|error| explain(text, &error))?;
    Ok(file.into())
}

/// The text of settings.
///
/// # Errors
///
/// The serialiser's reason, in words; no settings are known that have one.
pub fn write(settings: &Settings) -> Result<String, String> {
    let layout = PrettyConfig::new().new_line("\n").depth_limit(2);
    let text =
        options().to_string_pretty(&File::from(settings), layout).map_err(|error| on_one_line(&error.to_string()))?;
    Ok(text + "\n")
}

impl Default for File {
    fn default() -> Self {
        (&Settings::default()).into()
    }
}

impl From<&Settings> for File {
    fn from(settings: &Settings) -> Self {
        let text_of = |path: &PathBuf| path.to_str().map(str::to_owned);
        Self {
            format: FORMAT,
            theme: match settings.theme {
                settings::Theme::System => Theme::System,
                settings::Theme::Light => Theme::Light,
                settings::Theme::Dark => Theme::Dark,
            },
            decimal_sign: settings.decimal_sign,
            zoom: settings.zoom,
            window: settings.window.map(|window| Window {
                size: window.size.into(),
                position: window.position.map(Into::into),
                maximised: window.is_maximised,
            }),
            last_folder: settings.last_folder.as_ref().and_then(text_of),
            recent_files: settings.recent_files.iter().filter_map(text_of).collect(),
            reading: settings.reading.clone(),
            shelf_hidden: settings.is_shelf_hidden,
        }
    }
}

impl From<File> for Settings {
    fn from(file: File) -> Self {
        Self {
            theme: match file.theme {
                Theme::System => settings::Theme::System,
                Theme::Light => settings::Theme::Light,
                Theme::Dark => settings::Theme::Dark,
            },
            decimal_sign: file.decimal_sign,
            zoom: file.zoom,
            window: file.window.map(|window| settings::WindowPlace {
                position: window.position.map(Into::into),
                size: window.size.into(),
                is_maximised: window.maximised,
            }),
            last_folder: file.last_folder.map(PathBuf::from),
            recent_files: file.recent_files.into_iter().map(PathBuf::from).collect(),
            reading: file.reading,
            is_shelf_hidden: file.shelf_hidden,
        }
    }
}
