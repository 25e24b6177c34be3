//! The words of the emulsion: how crowded it is, and what would change it.

use super::Words;
use crate::analysis::emulsion::{CLOSEST_PACKING, FAT_TO_WATER_EASY, FAT_TO_WATER_LEAST, FatToWater, JAMMING, SOFT};
use crate::analysis::remedy::Remedies;
use crate::analysis::syrup::LEAST_WATER;
use crate::number::fixed;
use crate::units::{MassFraction, VolumeFraction};

/// What the levels of the dispersed share rest on.
const LEVELS: &str = "Packing of spheres, from memory; the levels are common practice.";

impl Words {
    pub(super) fn fat_continuous(&self, water: MassFraction) -> (String, String) {
        (
            format!("Fat-continuous: {} water", self.percent(water, 1)),
            format!(
                "Below {} water there is no emulsion to hold together. Keep water out: a few drops make such a mass \
                 seize.",
                self.limit(LEAST_WATER)
            ),
        )
    }

    pub(super) fn dry(&self, water: MassFraction) -> (String, String) {
        (
            format!("No emulsion: {} water and no fat", self.percent(water, 1)),
            format!("An emulsion needs both, fat and at least {} water.", self.limit(LEAST_WATER)),
        )
    }

    pub(super) fn emulsion_has_room(&self, dispersed: VolumeFraction, to_limit: &Remedies) -> (String, String) {
        let shares = format!("dispersed share {} of {}", self.two(dispersed.0), self.two(JAMMING.0));
        let title = if dispersed < SOFT {
            format!("Droplets have much room: {shares}")
        } else {
            format!("Droplets have room: {shares}")
        };
        let detail = match self.remedies(to_limit) {
            Some(remedies) => format!("It would take {remedies} to reach the limit where droplets jam."),
            None => "No change of a single line that is not locked would use the room up.".to_owned(),
        };
        (title, format!("{detail} {LEVELS}"))
    }

    pub(super) fn near_the_limit(&self, dispersed: VolumeFraction, remedies: &Remedies) -> (String, String) {
        let title = format!(
            "Near the limit: dispersed share {}, droplets jam at {}",
            self.two(dispersed.0),
            self.two(JAMMING.0)
        );
        (title, self.back_to_the_limit(remedies))
    }

    pub(super) fn likely_to_split(&self, dispersed: VolumeFraction, remedies: &Remedies) -> (String, String) {
        let title = format!(
            "Likely to split: dispersed share {}, {} {}",
            self.two(dispersed.0),
            if self.two(dispersed.0) == self.two(CLOSEST_PACKING.0) { "a hair above" } else { "above" },
            self.two(CLOSEST_PACKING.0)
        );
        let rescue = "If it has split: warm it to 32 to 40 °C and mix again; if that does not help, begin a new emulsion with a few \
                      spoons of hot liquid and add the split mass in small portions.";
        (title, format!("{} {rescue}", self.back_to_the_limit(remedies)))
    }

    fn back_to_the_limit(&self, remedies: &Remedies) -> String {
        let advice = "Stir warm liquid in little by little, or use a high-shear mixer; record what you add.";
        let change = self.remedy_or_why(remedies, &format!("bring it back to {}", self.two(JAMMING.0)));
        format!("{change} {advice} {LEVELS}")
    }

    pub(super) fn fat_to_water(&self, ratio: f64, remedies: &Remedies) -> (String, String) {
        let title = format!(
            "Fat to water {} : 1, usual {} to {}: {}",
            fixed(ratio, 2, self.sign),
            fixed(FAT_TO_WATER_LEAST, 1, self.sign),
            fixed(FAT_TO_WATER_EASY, 1, self.sign),
            super::fat_to_water(FatToWater::LikelyToSplit)
        );
        let change = self.remedy_or_why(remedies, "bring it to the usual");
        (title, format!("{change} Common practice, no published source."))
    }
}
