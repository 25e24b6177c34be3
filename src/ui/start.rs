//! Opens the window.

use std::path::PathBuf;

use eframe::{NativeOptions, Renderer};
use egui::ViewportBuilder;

use super::app::{App, Start};
use crate::store::{Places, Settings};

/// The size of the window at the first start, in points.
const SIZE: [f32; 2] = [1440.0, 900.0];
/// The smallest size in which every panel is legible.
const SMALLEST: [f32; 2] = [1180.0, 660.0];

/// Opens the window with a file, or with a sample; comes back when it is closed.
///
/// # Errors
///
/// One sentence for the user when there is no screen or no graphics.
pub fn run(file: Option<PathBuf>) -> Result<(), String> {
    check_display()?;
    let places = Places::find();
    let settings = places.as_ref().map(Settings::load).unwrap_or_default();
    let mut viewport =
        ViewportBuilder::default().with_title("Nibwright").with_app_id("nibwright").with_min_inner_size(SMALLEST);
    viewport = match settings.window {
        Some(place) => {
            let viewport = viewport.with_inner_size(place.size).with_maximized(place.is_maximised);
            match place.position {
                Some(position) => viewport.with_position(position),
                None => viewport,
            }
        }
        None => viewport.with_inner_size(SIZE),
    };
    let options = NativeOptions { viewport, renderer: Renderer::Wgpu, ..NativeOptions::default() };
    eframe::run_native(
        "nibwright",
        options,
        Box::new(move |creation| {
            Ok(Box::new(App::new(&creation.egui_ctx, Start { file, places, ..Start::default() })))
        }),
    )
    .map_err(|error| {
        // The toolkit's own words name its source files and say nothing to a user.
        log::debug!("the window cannot be opened: {error}");
        no_window(match error {
            eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => "the display does not answer",
            _ => "there are no graphics to draw a window with",
        })
    })
}

/// The sentence for a window that cannot be opened.
fn no_window(reason: &str) -> String {
    format!("{reason}; `nibwright report FILE` does the same work without a window")
}

/// On Linux a missing display makes the toolkit panic deep inside; say it before.
fn check_display() -> Result<(), String> {
    if cfg!(target_os = "linux") && !crate::store::places::has_display() {
        return Err(no_window("there is no display to open a window on"));
    }
    Ok(())
}
