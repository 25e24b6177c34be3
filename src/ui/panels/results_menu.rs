//! The menu of all results that can be asked for or held, by where they belong.

use egui::{Button, RichText, ScrollArea, Ui};

use crate::analysis::parts::Group;
use crate::ingredient::Component;
use crate::number::{DecimalSign, shortest};
use crate::reformulate::Measured;
use crate::reformulate::target::shares;
use crate::report::words::capital;
use crate::report::words::reformulation::measured;
use crate::ui::theme::Palette;
use crate::ui::widgets::menu_button;
use crate::units::Celsius;

/// Temperatures at which a filling is stored, cut, eaten and melts: those that solid fat and crystals are asked at.
const TEMPERATURES: [f64; 9] = [5.0, 10.0, 15.0, 18.0, 20.0, 22.0, 25.0, 30.0, 35.0];
/// No menu is higher; it scrolls.
const HIGHEST: f32 = 420.0;

/// The menu, and what belongs into it.
pub(in crate::ui) struct ResultsMenu<'a> {
    /// The words that open it.
    pub words: &'a str,
    /// The temperature of the solid fat and the crystals that stand first.
    pub at: Celsius,
    /// What stands in the last group, with its name.
    pub last: (&'a str, &'a [Measured]),
    /// Why a result cannot be chosen; `None` where it can.
    pub why_not: &'a dyn Fn(Measured) -> Option<&'static str>,
}

impl ResultsMenu<'_> {
    /// Draws the word that opens the menu; gives what was chosen from it.
    pub(in crate::ui) fn ui(&self, ui: &mut Ui, sign: DecimalSign) -> Option<Measured> {
        let words = RichText::new(self.words).color(Palette::of(ui).accent);
        let mut chosen = None;
        menu_button(ui, words, 0.0, |ui| {
            ui.set_min_width(190.0);
            for (name, results) in self.groups() {
                ui.menu_button(name, |ui| {
                    ScrollArea::vertical().max_height(HIGHEST).show(ui, |ui| {
                        for of in results {
                            self.entry_ui(ui, of, &capital(&measured(of, sign)), &mut chosen);
                            if of == Measured::SolidFat(self.at) {
                                let words = "Solid fat at another temperature";
                                self.temperatures_ui(ui, words, Measured::SolidFat, sign, &mut chosen);
                            }
                            if of == Measured::Crystals(self.at) {
                                let words = "Fat crystals at another temperature";
                                self.temperatures_ui(ui, words, Measured::Crystals, sign, &mut chosen);
                            }
                        }
                    });
                });
            }
        });
        chosen
    }

    fn entry_ui(&self, ui: &mut Ui, of: Measured, words: &str, chosen: &mut Option<Measured>) {
        let reason = (self.why_not)(of);
        let response = ui.add_enabled(reason.is_none(), Button::new(words));
        if response.clicked() {
            *chosen = Some(of);
            ui.close();
        }
        if let Some(reason) = reason {
            response.on_disabled_hover_text(reason);
        }
    }

    /// A result at other temperatures.
    fn temperatures_ui(
        &self,
        ui: &mut Ui,
        words: &str,
        of: fn(Celsius) -> Measured,
        sign: DecimalSign,
        chosen: &mut Option<Measured>,
    ) {
        ui.menu_button(words, |ui| {
            for at in TEMPERATURES.map(Celsius).into_iter().filter(|at| *at != self.at) {
                self.entry_ui(ui, of(at), &format!("at {} °C", shortest(at.0, 1, sign)), chosen);
            }
        });
    }

    fn groups(&self) -> [(&str, Vec<Measured>); 5] {
        let is_group = |of: &Measured| matches!(of, Measured::Group(_));
        let (last, results) = self.last;
        [
            ("What it is made of", shares().filter(is_group).collect()),
            ("Single components", shares().filter(|of| !is_group(of)).collect()),
            (
                "Water and keeping",
                vec![
                    Measured::WaterActivity,
                    Measured::SucroseSupersaturation,
                    Measured::LactoseSupersaturation,
                    Measured::Group(Group::Water),
                    Measured::Component(Component::Ethanol),
                ],
            ),
            (
                "Fat and texture",
                vec![
                    Measured::SolidFat(self.at),
                    Measured::Crystals(self.at),
                    Measured::Contraction,
                    Measured::SolidsVolume,
                    Measured::FormVLimit,
                    Measured::CocoaButterInFat,
                    Measured::MilkFatInFat,
                    Measured::OtherFatInFat,
                    Measured::FatToWater,
                    Measured::FatVolume,
                    Measured::DispersedVolume,
                ],
            ),
            (last, results.to_vec()),
        ]
    }
}
