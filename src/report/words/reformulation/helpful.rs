//! What could bring what is missing, for those who ask which ingredient to allow.

use crate::analysis::parts::Group;
use crate::ingredient::Component;
use crate::reformulate::{Bound, Measured, Target};

/// Ingredients that move a result towards its target (common practice, no published source); `None` where less of something is
/// the only help that is known.
pub(super) fn helpful(target: &Target) -> Option<&'static str> {
    let (wants_less, wants_more) = match target.bound {
        Bound::AtMost(_) => (true, false),
        Bound::AtLeast(_) => (false, true),
        Bound::Between(..) | Bound::Near(_) => (true, true),
    };
    let more = match target.of {
        Measured::Group(Group::Water) | Measured::Component(Component::Water) | Measured::WaterActivity => {
            Some("water, milk or fruit purée")
        }
        Measured::Group(Group::Sugars) => Some("sugar, dextrose or invert sugar syrup"),
        Measured::Group(Group::TotalFat) | Measured::FatToWater | Measured::FatVolume => Some("cocoa butter or butter"),
        Measured::Group(Group::CocoaButter)
        | Measured::Component(Component::CocoaButter)
        | Measured::CocoaButterInFat
        | Measured::SolidFat(_)
        | Measured::Crystals(_)
        | Measured::FormVLimit => Some("cocoa butter"),
        Measured::Group(Group::MilkSolidsNonFat) => Some("skimmed milk powder"),
        Measured::Group(Group::SyrupSolids) => Some("glucose syrup"),
        Measured::Component(Component::MilkFat) | Measured::MilkFatInFat => Some("butter or butter oil"),
        Measured::Component(Component::OtherFat) | Measured::OtherFatInFat => Some("a nut paste or an oil"),
        Measured::Sweetness => Some("sugar or invert sugar syrup"),
        _ => None,
    };
    let less = match target.of {
        Measured::WaterActivity => Some("invert sugar syrup, dextrose, glucose syrup or sorbitol"),
        Measured::SucroseSupersaturation => Some("glucose syrup or invert sugar syrup"),
        Measured::LactoseSupersaturation => Some("water or cream in the place of milk powder"),
        Measured::SolidFat(_) | Measured::Crystals(_) | Measured::FormVLimit | Measured::CocoaButterInFat => {
            Some("butter, a nut paste or an oil")
        }
        Measured::Sweetness => Some("glucose syrup of a low dextrose equivalent"),
        Measured::FatToWater | Measured::FatVolume | Measured::DispersedVolume => Some("water, milk or fruit purée"),
        _ => None,
    };
    // Of what is to lie between two ends nobody knows here which end is missed.
    match (wants_less, wants_more) {
        (true, false) => less,
        (false, true) => more,
        _ => None,
    }
}
