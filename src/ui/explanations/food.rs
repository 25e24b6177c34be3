//! Energy and sweetness.

use super::{ARITHMETIC, inputs, with_sign, words};
use crate::number::DecimalSign;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const ANNEX: &str = "Regulation (EU) No 1169/2011, Annex XIV; fat-free cocoa by the mean of published analyses: 30 % \
protein, 14.5 % carbohydrate, 36.5 % fibre, 3 % acids.";

/// The energy of 100 g.
#[must_use]
pub fn energy(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("energy of 100 g"),
        what: words(
            "The energy that a label states, in kilojoules and kilocalories, computed from what the mass is made of. It \
             follows every change of the recipe.",
        ),
        formula: with_sign(
            "In kJ: 37 × fat + 17 × (carbohydrate + protein) + 8 × fibre + 10 × sugar alcohols + 29 × alcohol + \
             13 × acids + 10.875 × fat-free cocoa, each in g. In kcal: 9, 4, 2, 2.4, 7, 3 and 2.6. Erythritol counts \
             as nothing.",
            sign,
        ),
        range: words(
            "Any mass. Not known as soon as a line leaves a part open that has energy; the acids of an ingredient that \
             does not state them, and what data sheets leave open, count as nothing.",
        ),
        source: with_sign(ANNEX, sign),
        evidence: words(inputs(scene)),
        uncertainty: words(
            "About 2 %: fat of couverture is known to about 2 points. Tables that count cocoa in another way come to 2 % \
             more of a dark couverture. What stands on a label is decided by your own analysis or accepted tables.",
        ),
    }
}

/// Between which ends the energy lies.
#[must_use]
pub fn energy_left_open(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("energy by what is left open"),
        what: words(
            "The least and the most that the energy can be, because ingredients leave something open. Complete their \
             figures, and both come together.",
        ),
        formula: words(
            "Most: what data sheets leave open counts as fat, and acids, ash and the rest of an ingredient that does not \
             state its acids as acid. Least: sugar alcohols of which the kind is not said count as erythritol, nothing.",
        ),
        range: words("Shown where it differs from the figure itself, in whole kJ."),
        source: with_sign(ANNEX, sign),
        evidence: words(inputs(scene)),
        uncertainty: words(ARITHMETIC),
    }
}

/// How sweet it is.
#[must_use]
pub fn sweetness(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("sweetness"),
        what: words(
            "How sweet the mass is by its sugars, where plain sugar is 100: at 30 it is as sweet as if 30 g of 100 g were \
             plain sugar. Compare recipes of one sort with it: glucose syrup in the place of sugar makes less sweet, invert \
             sugar more.",
        ),
        formula: words(
            "Sum of grams × sweetness ÷ mass. Plain sugar 100, fructose 150, glucose 70, maltose 40, lactose 20, trehalose \
             50; sorbitol 60, maltitol 85, isomalt 50, xylitol 100, erythritol 65, glycerol 65; solids of glucose syrup \
             by its dextrose equivalent: 36 to 38 is 35, 42 is 45, 63 is 65.",
        ),
        range: words(
            "Any mass. The sum is linear: that sugars lift each other is not in it, and neither are fat, bitterness, acid \
             and cold, which all take sweetness away. Cocoa's own sugar, 2 % of its fat-free solids, is left out.",
        ),
        source: with_sign(
            "Tables of relative sweetness: Varzakas et al. 2012, Sweeteners; J. Food Sci. Technol. 2014, 51:611; BMC Med. \
             2011, 9:123; Public Health Nutr. 2023, 26:952. Glycerol from memory; glucose syrup computed.",
            sign,
        ),
        evidence: words(inputs(scene)),
        uncertainty: words(
            "The two figures beside it: every sugar at the low and at the high end of the sources. Tasting decides.",
        ),
    }
}
