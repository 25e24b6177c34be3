//! What this program is: version, cautions, attributions, sources, licences.

use egui::{ScrollArea, Ui};

use super::{DialogAnswer, buttons_ui, title_ui};
use crate::source;
use crate::ui::theme::{self, space};

/// What the figures can and cannot do.
const CAUTIONS: &str = "All figures are calculated from typical compositions and published models. They advise; they do \
not decide. Whether a product keeps, and what must stand on its label, is decided by measurement, hazard analysis, \
local food codes and licensed practice.";

/// What the fonts and the program come under.
const LICENCES: &str = "Nibwright is under the MIT licence. The text family Lato is under the SIL Open Font License 1.1; \
its text lies in assets/fonts.";

pub(super) fn about_ui(ui: &mut Ui) -> Option<DialogAnswer> {
    title_ui(ui, &format!("Nibwright {}", env!("CARGO_PKG_VERSION")));
    let height = ui.ctx().content_rect().height() - 220.0;
    ScrollArea::vertical().max_height(height).min_scrolled_height(height).show(ui, |ui| {
        ui.label("A workbench for masses that contain cocoa butter. It opens no network connection.");
        section_ui(ui, "Cautions");
        ui.label(CAUTIONS);
        section_ui(ui, "Open data");
        for source in source::all().iter().filter(|source| !source.attribution.is_empty()) {
            // Most attributions name their licence themselves.
            if source.attribution.contains(&source.licence) {
                ui.label(format!("{}.", source.attribution));
            } else {
                ui.label(format!("{} ({}).", source.attribution, source.licence));
            }
        }
        section_ui(ui, "Sources");
        for source in source::all() {
            ui.label(&source.title);
            ui.label(theme::caption(ui, source.used_for.as_str()));
        }
        section_ui(ui, "Licences");
        ui.label(LICENCES);
    });
    buttons_ui(ui, vec![("Close", DialogAnswer::Closed)])
}

fn section_ui(ui: &mut Ui, title: &str) {
    ui.add_space(space::NEAR);
    ui.label(theme::strong(title));
}
