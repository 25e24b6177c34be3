//! Plots as files.

use std::path::Path;
use std::sync::Arc;

use egui::Context;

use super::App;
use crate::analysis::emulsion::EmulsionState;
use crate::analysis::fat_crystals::NoFatCrystals;
use crate::analysis::setting::{setting, time_of_growth};
use crate::analysis::water::state::WaterState;
use crate::analysis::{Analysis, analyse};
use crate::recipe::Recipe;
use crate::report::drawing::{self, Drawing};
use crate::report::figures::{self, PlotName};
use crate::report::svg;
use crate::store;
use crate::ui::dialogs::Dialog;
use crate::ui::files::{Asking, PlotForm, plot_file_name};
use crate::ui::text::plot as words;
use crate::ui::{picture, text};
use crate::units::Grams;

impl App {
    /// Why a plot cannot be saved; `None` if it can.
    pub(super) fn why_no_plot(&self, plot: PlotName) -> Option<&'static str> {
        let key = (self.state(), self.view.at.0.to_bits());
        match self.analysis.stored(&key) {
            Some(analysis) => why_no_plot(&self.document().recipe, analysis, plot),
            // Behind a change in the same frame.
            None => why_no_plot(&self.document().recipe, &analyse(&self.document().recipe, self.view.at), plot),
        }
    }

    pub(super) fn ask_where_to_save_plot(&mut self, ctx: &Context, plot: PlotName, form: PlotForm) {
        let Some(drawing) = self.drawing(plot) else {
            let analysis = self.analysis();
            self.toasts.say(why_no_plot(&self.document().recipe, &analysis, plot).unwrap_or(words::NOT_KNOWN), ctx);
            return;
        };
        let name = plot_file_name(&self.document().recipe.name, words::file_name(plot), form);
        self.ask_for_path(ctx, Asking::SavePlot { name, form, drawing: Arc::new(drawing) });
    }

    /// A plot on paper.
    fn drawing(&mut self, plot: PlotName) -> Option<Drawing> {
        let sign = self.view.sign;
        let (document, analysis, pin) = match self.shown_answer() {
            Some(answer) => (answer.document, answer.analysis, Some(answer.present)),
            None => (Arc::clone(self.document()), self.analysis(), self.pin()),
        };
        let recipe = &document.recipe;
        let (name, title) = (self.name(), words::title(plot));
        let figure = match plot {
            PlotName::Composition => {
                let pinned = pin.as_ref().map(|pin| {
                    let before = |line| Some(pin.brought(pin.line(line)?.id)?.parts.total());
                    recipe.lines.iter().map(before).collect::<Vec<Option<Grams>>>()
                });
                let bars = figures::composition_by_line(recipe, &analysis, pinned.as_deref(), sign)?;
                return Some(drawing::of_bars(&name, title, &bars, sign));
            }
            PlotName::FatWaterMap => {
                let edge = figures::jamming_edge(&analysis.make_up.bowl);
                let before = pin.as_ref().map(|pin| (pin.analysis.as_ref(), figures::jamming_edge(pin.bowl())));
                let before = before.as_ref().map(|(analysis, edge)| (*analysis, edge.as_slice()));
                figures::fat_water_map(&analysis, before, &edge, sign)?
            }
            PlotName::Drying => {
                let curve = figures::drying_curve(recipe, &analysis)?;
                let before = pin.as_ref().and_then(|pin| {
                    let curve = figures::drying_curve(&pin.document.recipe, &pin.analysis)?;
                    Some((pin.analysis.as_ref(), curve))
                });
                let before = before.as_ref().map(|(pinned, curve)| (*pinned, curve));
                figures::drying_plot(&analysis, before, &curve, sign)?
            }
            PlotName::Sorption => {
                let isotherm = figures::sorption_isotherm(&analysis)?;
                let before = pin.as_ref().map(|pin| pin.analysis.as_ref());
                let before = before.and_then(|pinned| Some((pinned, figures::sorption_isotherm(pinned)?)));
                let before = before.as_ref().map(|(pinned, isotherm)| (*pinned, isotherm));
                figures::sorption_plot(&analysis, before, &isotherm, sign)?
            }
            PlotName::Dilution => {
                let curves = figures::dilution_curves(recipe.cocoa_butter);
                figures::dilution_plot(&analysis, pin.as_ref().map(|pin| pin.analysis.as_ref()), &curves, sign)?
            }
            PlotName::Cooling => {
                let state = setting(recipe, &analysis).ok()?;
                let before = pin.as_ref().and_then(|pin| setting(&pin.document.recipe, &pin.analysis).ok());
                figures::cooling_plot(&analysis, &state, before.as_ref(), sign)
            }
            PlotName::Setting => {
                let state = setting(recipe, &analysis).ok()?;
                let before = pin.as_ref().and_then(|pin| setting(&pin.document.recipe, &pin.analysis).ok());
                figures::setting_plot(&state, before.as_ref(), sign)?
            }
            PlotName::SolidFat => {
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

fn why_no_plot(recipe: &Recipe, analysis: &Analysis, plot: PlotName) -> Option<&'static str> {
    match plot {
        _ if analysis.make_up.weighed == Grams::ZERO => Some(words::NOTHING_WEIGHED),
        PlotName::FatWaterMap => match analysis.emulsion {
            EmulsionState::Unknown => Some(words::NOT_KNOWN),
            EmulsionState::FatContinuous | EmulsionState::Dry => Some(words::NO_EMULSION),
            EmulsionState::Emulsion(_) => None,
        },
        PlotName::Drying | PlotName::Sorption => match analysis.water {
            WaterState::Unknown => Some(words::NOT_KNOWN),
            WaterState::NoWater | WaterState::Dry { .. } => Some(words::NO_WATER_ACTIVITY),
            WaterState::Wet(_) => None,
        },
        PlotName::Dilution if analysis.fat.as_ref().is_ok_and(|fat| fat.limits.form_v.is_none()) => {
            Some(words::NO_LIMIT)
        }
        PlotName::Cooling | PlotName::Setting if recipe.setting.is_none() => Some(words::NO_SETTING),
        PlotName::Setting if !matches!(time_of_growth(recipe, analysis), Some(Ok(_))) => Some(words::NO_TIME),
        PlotName::Composition | PlotName::Cooling | PlotName::Setting => None,
        PlotName::SolidFat | PlotName::Dilution => match analysis.fat {
            Ok(_) => None,
            Err(NoFatCrystals::NoFat) => Some(words::NO_FAT),
            Err(NoFatCrystals::NoLiquid) => Some(words::NO_LIQUID),
            Err(NoFatCrystals::Unknown) => Some(words::NOT_KNOWN),
        },
    }
}
