//! The words of how the fat sets: what the model cannot say, and what is a guess.

use super::{Words, capital};
use crate::analysis::fat::LEAST_COCOA_BUTTER_FOR_LIMITS;
use crate::analysis::fat_crystals::{HELD_AGAINST_MEASURED, LEAST_FOR_UNCERTAINTY};
use crate::analysis::remedy::Remedies;
use crate::ingredient::OtherFatKind;
use crate::units::{Celsius, MassFraction};

impl Words {
    /// How the share of cocoa butter is raised.
    pub(super) fn more_cocoa_butter(&self, remedies: &Remedies) -> String {
        self.remedies(remedies).map_or_else(
            || "Cocoa butter or chocolate raises the share.".to_owned(),
            |remedies| format!("{} would reach it.", capital(&remedies)),
        )
    }

    pub(super) fn no_limit(&self, cocoa_butter_in_fat: MassFraction, remedies: &Remedies) -> (String, String) {
        (
            format!("No form V limit: cocoa butter is {} of the fat", self.percent(cocoa_butter_in_fat, 1)),
            format!(
                "Below {} cocoa butter in the fat no form V crystals can be told from the rest. {}",
                self.limit(LEAST_COCOA_BUTTER_FOR_LIMITS),
                self.more_cocoa_butter(remedies)
            ),
        )
    }

    pub(super) fn no_form_v(&self, cocoa_butter_in_fat: MassFraction) -> (String, String) {
        (
            "No form V limit: the cocoa butter has too little that crystallises as form V".to_owned(),
            format!(
                "Cocoa butter is {} of the fat, but form V consists of its POP, POS, SOS and SOA. Check the analysis of \
                 the cocoa butter.",
                self.percent(cocoa_butter_in_fat, 1)
            ),
        )
    }

    pub(super) fn solid_fat_outside_range(&self, cocoa_butter_in_fat: MassFraction) -> (String, String) {
        (
            format!("Solid fat is a rough guess: cocoa butter is {} of the fat", self.percent(cocoa_butter_in_fat, 1)),
            format!(
                "The model is founded on fats with at least {} cocoa butter. The figure is given; how far it is off is \
                 not known.",
                self.limit(LEAST_FOR_UNCERTAINTY)
            ),
        )
    }

    pub(super) fn other_fat_kind_estimated(
        &self,
        name: &str,
        kind: OtherFatKind,
        share_of_fat: MassFraction,
    ) -> (String, String) {
        (
            format!("{name} counts as {}: an estimate", kind.words()),
            format!(
                "It brings {} of the fat, and how it crystallises is a guess. The supplier's solid-fat table would \
                 settle it.",
                self.percent(share_of_fat, 0)
            ),
        )
    }

    pub(super) fn solid_fat_outside_temperature(&self, at: Celsius) -> (String, String) {
        let (low, high) = HELD_AGAINST_MEASURED;
        let (place, what) = if at < low {
            (
                format!("below {}", self.whole_celsius(low)),
                "There the fat sets firmer than the model says, cocoa butter by some 5 to 8 points",
            )
        } else {
            (
                format!("above {}", self.whole_celsius(high)),
                "There traces of hard fat can stay solid, of cocoa butter up to 3 %, where the model says none",
            )
        };
        (
            format!("Solid fat at {} is a rough guess: {place}", self.celsius(at)),
            format!(
                "The model has been held against measured fats from {}. {what}; how far it is off for this mass is \
                 not known.",
                self.whole_range((low, high))
            ),
        )
    }
}
