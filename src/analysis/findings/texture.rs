//! What the texture of a filling has to say: fewer or more fat crystals than fillings for that use have.

use crate::analysis::finding::{CrystalsSubject, Finding, Level, Subject};
use crate::analysis::texture::{cocoa_butter_for_crystals, crystals_in_room, usual_crystals};
use crate::analysis::{Analysis, ROOM, is_above, is_below};
use crate::recipe::Recipe;
use crate::units::MassFraction;

/// The finding about the crystals of a filling; none where no use of a filling is said.
pub(super) fn texture_finding(recipe: &Recipe, analysis: &Analysis) -> Option<Finding> {
    let usual = usual_crystals(recipe.kind, recipe.intended_use)?;
    let (low, high) = (usual.low, usual.high);
    let fat = analysis.fat.as_ref().ok()?;
    let bowl = analysis.make_up.bowl.total();
    let crystals = crystals_in_room(fat, bowl)?;
    let is_few = is_below(crystals.0, low.0);
    if !is_few && !high.is_some_and(|high| is_above(crystals.0, high.0)) {
        return None;
    }
    let more_cocoa_butter = if is_few { cocoa_butter_for_crystals(fat, recipe.cocoa_butter, bowl, low) } else { None };
    let of_mass = |points: f64| MassFraction::from_percent(points * (fat.grams.total() / bowl).0);
    let subject = CrystalsSubject {
        crystals,
        uncertainty: fat.solid_fat_uncertainty_points_at(ROOM).map(of_mass),
        usual,
        intended_use: recipe.intended_use?,
        more_cocoa_butter,
    };
    let finding = if is_few {
        Finding::new(Level::Note, "texture.crystals_percent_of_mass.low", Subject::Crystals(subject))
    } else {
        Finding::new(Level::Note, "texture.crystals_percent_of_mass.high", Subject::Crystals(subject))
    };
    Some(
        finding
            .with_value(crystals.to_percent())
            .with_usual(Some(low.to_percent()), high.map(MassFraction::to_percent)),
    )
}
