//! The temperature of the mix in the text report; nothing where no line has a temperature.

use super::{Writer, clipped, heading, row_with_note, words, wrapped};
use crate::analysis::finding::{MixingSubject, WaySubject};
use crate::analysis::heat::Fat;
use crate::analysis::mixing::MixingState;
use crate::analysis::remedy::Names;
use crate::number::{fixed, grams, shortest};
use crate::recipe::FatState;
use crate::units::{Grams, Kelvin};

impl Writer<'_> {
    pub(super) fn mixing(&self, out: &mut String) -> std::fmt::Result {
        let Some(mixing) = &self.analysis.mixing else { return Ok(()) };
        heading(out, "Mixing")?;
        self.starts(out)?;
        match mixing {
            Ok(mixing) => self.mixed(out, mixing),
            Err(why) => row_with_note(out, "ends at", words::no_mixing(why), ""),
        }
    }

    /// What goes in, as warm as it is said.
    fn starts(&self, out: &mut String) -> std::fmt::Result {
        let names = Names::of(self.recipe);
        for line in self.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0 && !line.is_seed) {
            let Some(temperature) = line.temperature else { continue };
            let celsius = format!("{} °C", shortest(temperature.celsius().0, 1, self.sign));
            let state = if line.fat_state == FatState::ByTemperature { "" } else { line.fat_state.words() };
            row_with_note(out, &clipped(&names.name_of(line), 26), &celsius, state)?;
        }
        if let Some(bowl) = self.recipe.mixing.bowl {
            let celsius = format!("{} °C", shortest(bowl.temperature.celsius().0, 1, self.sign));
            let mass = format!("{} g of {}", grams(bowl.mass.grams().0, self.sign), bowl.material.key());
            row_with_note(out, "bowl", &celsius, &mass)?;
        }
        Ok(())
    }

    fn mixed(&self, out: &mut String, mixing: &MixingState) -> std::fmt::Result {
        let kelvin = |kelvin: Kelvin| words::kelvin_with_sign(kelvin, self.sign);
        let grams = |grams: Grams| format!("{} g", fixed(grams.0, 1, self.sign));
        let end = words::mix_end(mixing, self.sign);
        let uncertainty = format!("±{} K", fixed(mixing.uncertainty.0, 1, self.sign));
        let place = if end.place.is_empty() { uncertainty } else { format!("{uncertainty}, {}", end.place) };
        row_with_note(out, "ends at", &end.temperature, &place)?;
        wrapped(out, "    ", &words::mix_next(&MixingSubject::of(self.analysis, mixing), self.sign))?;
        row_with_note(out, "by temperatures alone", &self.celsius(mixing.mixed.sensible_only), "")?;
        let at_once = format!("{} at once", self.celsius(mixing.mixed.at_once.temperature));
        row_with_note(out, "  melting fat", &kelvin(mixing.mixed.by_melting()), &at_once)?;
        let dissolved = mixing.mixed.after_dissolving.dissolved;
        if dissolved.0 > 0.0 {
            let sugar = format!(
                "{} once {} have dissolved, within minutes",
                self.celsius(mixing.mixed.after_dissolving.temperature),
                grams(dissolved)
            );
            row_with_note(out, "  dissolving sugar", &kelvin(mixing.mixed.by_dissolving()), &sugar)?;
        }
        let minutes = self.recipe.mixing.stirred.minutes();
        if minutes > 0.0 {
            let stirred = format!("{} minutes in the open, an allowance", shortest(minutes, 1, self.sign));
            row_with_note(out, "  stirring", &kelvin(mixing.by_stirring), &stirred)?;
        }
        let (before, left) = mixing.all_crystals();
        if before.0 > 0.0 {
            row_with_note(out, "fat crystals that come in", &grams(before), "")?;
            let of_cocoa_butter = format!("{} of them of cocoa butter", grams(mixing.crystals_left(Fat::CocoaButter)));
            row_with_note(out, "fat crystals left", &grams(left), if left.0 > 0.0 { &of_cocoa_butter } else { "" })?;
        }
        let Some(wanted) = &mixing.wanted else { return Ok(()) };
        row_with_note(out, "wanted", &self.celsius(wanted.at), "each way by itself")?;
        let names = Names::of(self.recipe);
        for way in &wanted.ways {
            wrapped(out, "    ", &words::way(&WaySubject::of(self.recipe, &names, way), self.sign))?;
        }
        if mixing.missed().is_none() {
            return Ok(());
        }
        row_with_note(out, "or one line alone", "", "")?;
        for way in &wanted.lines {
            let Some(line) = way.lines.first().and_then(|id| self.recipe.line(*id)) else { continue };
            let name = clipped(&names.name_and_place(self.recipe, line), 24);
            let now = format!("instead of {} °C", shortest(way.start.0, 1, self.sign));
            let needed = words::needed(way, self.sign);
            let note = if way.needed.is_ok() { now } else { format!("{now}: it cannot") };
            row_with_note(out, &format!("  {name}"), &needed, &note)?;
        }
        Ok(())
    }
}
