//! What every number answers when it is pointed at: what it is, formula in words, range, source, evidence, uncertainty.

use super::widgets::Explanation;
use crate::analysis::parts::Group;
use crate::analysis::usual::UsualRange;
use crate::number::DecimalSign;
use crate::report::words;

const COMPOSITION_SOURCE: &str = "The figures of each ingredient; point at its name to see where they come from.";
const COMPOSITION_EVIDENCE: &str =
    "As good as the ingredients: analysed foods to about 1 point, class values of couverture to about 2 points of fat.";
const FAT_MODEL: &str = "One ideal liquid, the symmetric triglycerides of cocoa butter as one solid solution, other fats \
crystallising apart; every part at equilibrium at the temperature of the thermometer.";
const FAT_SOURCE: &str = "Own model, fitted to tempered cocoa butters (Shukla 1995, from memory) and to melting points \
(Wille and Lutton 1966).";
const FAT_RANGE: &str = "15 to 35 °C, cocoa butter at least 30 % of the fat.";

/// A group of components.
#[must_use]
pub fn group(group: Group) -> Explanation {
    let what = match group {
        Group::CocoaButter => "All fat of cocoa mass, couverture, cocoa powder and cocoa butter. It carries the set.",
        Group::MilkFat => "All fat of dairy. It softens the set and lowers the temperature at which seed lives.",
        Group::OtherFat => "Every other fat: nuts, oils, coconut, lecithin. Liquid oil softens more than any other.",
        Group::TotalFat => "All fat together.",
        Group::Sugars => {
            "Sucrose, glucose, fructose, lactose and maltose. Higher saccharides and polyols are not in it."
        }
        Group::Water => "Water of all ingredients, less what evaporates. It decides keeping and the emulsion.",
        Group::FatFreeCocoaSolids => "Cocoa without its fat and water: particles that take up water and firm the mass.",
        Group::OtherSolids => {
            "What is neither water, alcohol, fat, sugar nor cocoa: milk protein and minerals, higher saccharides, \
             polyols, starch, fibre, salt, and what data sheets leave open."
        }
        Group::MilkSolidsNonFat => "Milk protein, lactose and milk minerals.",
        Group::DryCocoaSolids => "Cocoa butter and fat-free cocoa solids.",
        Group::LiquidOil => "The part of the other fat that never sets: oils of nuts and seeds.",
        Group::SyrupSolids => {
            "Glucose, fructose, maltose, higher saccharides and polyols: what syrups, dextrose and fruit bring. They \
             hold sucrose in solution and water back."
        }
    };
    let mut explanation = Explanation::new(group.words(), what);
    explanation.formula = Some("Sum over the lines of amount × share, divided by the mass in the bowl.".to_owned());
    explanation.source = Some(COMPOSITION_SOURCE.to_owned());
    explanation.evidence = Some(COMPOSITION_EVIDENCE.to_owned());
    explanation
}

/// A row of the usual ranges.
#[must_use]
pub fn usual(range: &UsualRange, sign: DecimalSign) -> Explanation {
    let mut explanation = Explanation::new(
        format!("{}, usual", range.of.words()),
        format!("What is seen in {}. A hint, never a limit.", range.column.words()),
    );
    explanation.range = Some(words::usual_range(range, sign));
    explanation.evidence = Some(words::basis(range).to_owned());
    explanation
}

/// The dispersed share.
#[must_use]
pub fn dispersed_share() -> Explanation {
    let mut explanation = Explanation::new(
        "dispersed share, hot",
        "How crowded the emulsion is: fat droplets and particles as a share of the volume at 40 °C.",
    );
    explanation.formula = Some(
        "(fat + particles) ÷ (fat + particles + water phase), by volume. Water phase: water with everything dissolved \
         in it, sucrose up to its solubility, milk protein."
            .to_owned(),
    );
    explanation.range = Some(
        "Below 0.55 soft, to 0.64 normal to firm; 0.64 droplets jam; above 0.74 likely to split. Masses with at least \
         2 % water."
            .to_owned(),
    );
    explanation.source = Some(
        "Random close packing (Bernal and Mason 1960, from memory); closest packing of spheres 0.74. Uneven droplets \
         pack closer (Kwok et al. 2020)."
            .to_owned(),
    );
    explanation.evidence = Some("Packing of spheres is published; the hint levels are common practice.".to_owned());
    explanation.uncertainty = Some("About ±0.03: densities, droplet sizes and emulsifiers are not known.".to_owned());
    explanation
}

/// Fat over water.
#[must_use]
pub fn fat_to_water() -> Explanation {
    let mut explanation =
        Explanation::new("fat to water", "All fat over all water, by mass: the oldest rule of thumb for a ganache.");
    explanation.range = Some("0.8 to 1.6 easy, to 2.2 firm and careful, above likely to split.".to_owned());
    explanation.evidence = Some("common practice, no published source".to_owned());
    explanation
}

/// One of the three volumes.
#[must_use]
pub fn volume(name: &str) -> Explanation {
    let what = match name {
        "fat" => "All fat, melted, at 0.89 g/ml.",
        "particles" => {
            "Fat-free cocoa, protein of nuts and egg, starch and fibre at 1.45 g/ml, undissolved sucrose at 1.587 g/ml."
        }
        _ => "Water with all that is dissolved in it; each sugar, salt and alcohol with its own volume.",
    };
    let mut explanation = Explanation::new(format!("{name}, hot"), what);
    explanation.source = Some(
        "Volumes of solutions at 20 °C from tables of aqueous solutions (CRC Handbook); fat and particle densities \
         from memory."
            .to_owned(),
    );
    explanation
}

/// The form V limit.
#[must_use]
pub fn form_v_limit(uncertainty: Option<&str>) -> Explanation {
    let mut explanation = Explanation::new(
        "form V limit",
        "The temperature at which the last form V crystal melts in this mass's own fat. Seed put in above it melts; \
         below it, it grows.",
    );
    explanation.formula = Some(
        "The temperature at which the solid solution of cocoa butter's symmetric triglycerides is just not stable in \
         the molten fat."
            .to_owned(),
    );
    explanation.range = Some("Cocoa butter at least 10 % of the fat.".to_owned());
    explanation.source = Some(FAT_SOURCE.to_owned());
    explanation.evidence = Some("Fitted for cocoa butter; blends are predicted, not measured.".to_owned());
    explanation.uncertainty = Some(format!(
        "{} An unknown origin of the cocoa butter adds 0.7 K: choose its type above the lines.",
        uncertainty
            .map_or("Not known.".to_owned(), |uncertainty| format!("{uncertainty} one standard deviation, judged."))
    ));
    explanation
}

/// Solid fat.
#[must_use]
pub fn solid_fat(uncertainty: Option<&str>) -> Explanation {
    let mut explanation = Explanation::new(
        "solid fat",
        "How much of the fat is crystallised at the temperature of the thermometer, once everything has settled. \
         Firmness and snap follow it.",
    );
    explanation.formula = Some(FAT_MODEL.to_owned());
    explanation.range = Some(FAT_RANGE.to_owned());
    explanation.source = Some(FAT_SOURCE.to_owned());
    explanation.evidence = Some("Fitted for cocoa butter; blends are predicted, not measured.".to_owned());
    explanation.uncertainty = Some(format!(
        "{} An unknown origin of the cocoa butter adds 5 points at 20 °C.",
        uncertainty.map_or("Not known here.".to_owned(), |uncertainty| {
            format!("{uncertainty} one standard deviation, judged.")
        })
    ));
    explanation
}

/// Crystals per mass.
#[must_use]
pub fn crystals() -> Explanation {
    let mut explanation = Explanation::new(
        "fat crystals in the mass",
        "Solid fat times the share of fat: what holds the mass together when it is cold.",
    );
    explanation.range = Some("At 20 °C: cut 15–20 % and more, piped 10–15 %, moulded 6–13 %.".to_owned());
    explanation.evidence = Some("Derived from usual recipes with this model, not published.".to_owned());
    explanation
}

/// The seed by habit.
#[must_use]
pub fn seed_by_habit() -> Explanation {
    let mut explanation = Explanation::new(
        "seed by trade habit",
        "Tempered cocoa butter, a cream of about 20 % crystals, for the mass in the bowl. Within a factor of two the \
         amount matters little; the temperature matters much.",
    );
    explanation.formula = Some(
        "1 % of a mass with 35 % fat, in proportion to its fat; half for thick bars (heat has to get out), a third for \
         thin coats (they stay fluid); between 0.2 and 1.5 %."
            .to_owned(),
    );
    explanation.evidence = Some("common practice, no published source".to_owned());
    explanation.uncertainty = Some(
        "Crystal size decides more than mass. Powder of tempered butter carries more crystals per gram.".to_owned(),
    );
    explanation
}

/// The seed for equal setting time.
#[must_use]
pub fn seed_equal_time() -> Explanation {
    let mut explanation = Explanation::new(
        "seed for equal setting time",
        "The dose with which the crystals fill this mass's fat as fast as in plain chocolate seeded at 1 %. It grows as \
         the form V limit falls, because the drive to crystallise falls with it.",
    );
    explanation.formula = Some(
        "Crystals per fat × [(33.79 − 15) ÷ (form V limit − 15)]^2.5, from a growth law in 15 °C; between 0.2 and 3 %."
            .to_owned(),
    );
    explanation.range = Some("Form V limit at least 18 °C.".to_owned());
    explanation.evidence = Some("Derived from growth of seeded cocoa butter; the exponent is judged.".to_owned());
    explanation.uncertainty = Some("A factor of two either way.".to_owned());
    explanation
}

/// The seeding window.
#[must_use]
pub fn window() -> Explanation {
    let mut explanation = Explanation::new(
        "seeding window",
        "Where seed lives and grows in this mass, all fats blended. Above, it melts; far below, the mass thickens and \
         form IV can appear.",
    );
    explanation.formula = Some(
        "From 4 K to 0.2 K below the form V limit; best 2 K below. 0.2 K is a good thermometer's error.".to_owned(),
    );
    explanation.evidence = Some(
        "Melting limits from the fat model; the distances are calibrated on common practice for dark chocolate."
            .to_owned(),
    );
    explanation.uncertainty = Some("That of the form V limit.".to_owned());
    explanation
}

/// The window while globules are whole.
#[must_use]
pub fn unmixed_window() -> Explanation {
    let mut explanation = Explanation::new(
        "window while globules are whole",
        "In a fresh emulsion the fat of cream, milk or egg still sits in its globules and has not met the chocolate's \
         fat. As long as that holds, seed lives up to this higher limit. Trade habit for ganache follows it.",
    );
    explanation.formula =
        Some("The same distances below the form V limit of all fats but those in globules.".to_owned());
    explanation.evidence = Some("An upper bound: how fast globules break is not computed.".to_owned());
    explanation
}

/// The phase bar.
#[must_use]
pub fn phase_bar() -> Explanation {
    let mut explanation = Explanation::new(
        "the mass at this temperature",
        "The whole mass as one bar: crystals of fat, liquid fat, syrup, undissolved sugar, cocoa, other particles.",
    );
    explanation.formula = Some(
        "Solid fat by the fat model; sucrose dissolved up to its solubility in the water at this temperature. Water \
         that particles take up is counted to the syrup."
            .to_owned(),
    );
    explanation.source = Some("Solubility: Charles 1960, basis of ICUMSA SPS-2, coefficients from memory.".to_owned());
    explanation
}

/// The thermometer.
#[must_use]
pub fn thermometer() -> Explanation {
    let mut explanation = Explanation::new(
        "thermometer",
        "Sets the temperature at which everything is shown: drag the handle, or use the arrow keys; a double click \
         brings it back to 20 °C. Filled: the seeding window, all fats mixed. Hollow: while globules are whole.",
    );
    explanation.formula = Some(
        "IV, V and VI are the temperatures at which these forms of cocoa butter melt in this mass's own fat."
            .to_owned(),
    );
    explanation.source = Some(FAT_SOURCE.to_owned());
    explanation.uncertainty = Some("V ±0.5 K for cocoa butter, ±1 K for blends; IV and VI ±1 K and rough.".to_owned());
    explanation
}
