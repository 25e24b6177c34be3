//! Plots as files.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use super::App;
use crate::analysis::emulsion::EmulsionState;
use crate::analysis::fat_crystals::NoFatCrystals;
use crate::analysis::reading::Reading;
use crate::analysis::{Analysis, analyse};
use crate::report::drawing::{self, Drawing};
use crate::report::{figures, svg};
use crate::store;
use crate::ui::dialogs::Dialog;
use crate::ui::files::{Asking, PlotForm, plot_file_name};
use crate::ui::text::plot as words;
use crate::ui::{picture, text};
use crate::units::Grams;

impl App {
    /// Why the plot of a reading cannot be saved; `None` if it can.
    pub(super) fn why_no_plot(&self, reading: Reading) -> Option<&'static str> {
        let key = (self.state(), self.view.at.0.to_bits());
        match self.analysis.stored(&key) {
            Some(analysis) => why_no_plot(analysis, reading),
            // Behind a change in the same frame.
            None => why_no_plot(&analyse(&self.document().recipe, self.view.at), reading),
        }
    }

    pub(super) fn ask_where_to_save_plot(&mut self, ctx: &Context, reading: Reading, form: PlotForm) {
        let Some(drawing) = self.drawing(reading) else {
            let analysis = self.analysis();
            self.toasts.say(why_no_plot(&analysis, reading).unwrap_or(words::NOT_KNOWN), ctx);
            return;
        };
        let name = plot_file_name(&self.document().recipe.name, words::file_name(reading), form);
        self.ask_for_path(ctx, Asking::SavePlot { name, form, drawing: Arc::new(drawing) });
    }

    /// The plot of a reading on paper.
    fn drawing(&mut self, reading: Reading) -> Option<Drawing> {
        let (analysis, pin, sign) = (self.analysis(), self.pin(), self.view.sign);
        let recipe = &self.document().recipe;
        let (name, title) = (self.name(), words::title(reading));
        let figure = match reading {
            Reading::MakeUp => {
                let pinned = pin.as_ref().map(|pin| {
                    let before = |line| Some(pin.brought(pin.line(line)?.id)?.parts.total());
                    recipe.lines.iter().map(before).collect::<Vec<Option<Grams>>>()
                });
                let bars = figures::composition_by_line(recipe, &analysis, pinned.as_deref(), sign)?;
                return Some(drawing::of_bars(&name, title, &bars, sign));
            }
            Reading::Emulsion => {
                let edge = figures::jamming_edge(&analysis.make_up.bowl);
                let before = pin.as_ref().map(|pin| (pin.analysis.as_ref(), figures::jamming_edge(pin.bowl())));
                let before = before.as_ref().map(|(analysis, edge)| (*analysis, edge.as_slice()));
                figures::fat_water_map(&analysis, before, &edge, sign)?
            }
            Reading::FatCrystals => {
                let alone = figures::cocoa_butter_alone(recipe.cocoa_butter);
                figures::solid_fat(&analysis, pin.as_ref().map(|pin| pin.analysis.as_ref()), &alone, sign)?
            }
        };
        Some(drawing::of_figure(&name, title, &figure, sign))
    }

    /// Writes a plot; the ending of the path decides what as.
    pub(super) fn save_plot_to(&mut self, ctx: &Context, path: &Path, form: PlotForm, drawing: &Drawing) {
        let bytes = match PlotForm::of_path(path).unwrap_or(form) {
            PlotForm::Svg => Ok(svg::write(drawing).into_bytes()),
            PlotForm::Png => picture::png(drawing),
        };
        let saved = bytes.and_then(|bytes| store::save_bytes(path, &bytes).map_err(|error| error.to_string()));
        match saved {
            Ok(()) => self.toasts.say(text::SAVED, ctx),
            Err(error) => self.dialogs.show(Dialog::message("The plot is not saved", &error)),
        }
    }
}

fn why_no_plot(analysis: &Analysis, reading: Reading) -> Option<&'static str> {
    match reading {
        _ if analysis.make_up.weighed == Grams::ZERO => Some(words::NOTHING_WEIGHED),
        Reading::MakeUp => None,
        Reading::Emulsion => match analysis.emulsion {
            EmulsionState::Unknown => Some(words::NOT_KNOWN),
            EmulsionState::FatContinuous | EmulsionState::Dry => Some(words::NO_EMULSION),
            EmulsionState::Emulsion(_) => None,
        },
        Reading::FatCrystals => match analysis.fat {
            Ok(_) => None,
            Err(NoFatCrystals::NoFat) => Some(words::NO_FAT),
            Err(NoFatCrystals::NoLiquid) => Some(words::NO_LIQUID),
            Err(NoFatCrystals::Unknown) => Some(words::NOT_KNOWN),
        },
    }
}
