//! Numbers of the texture of a mass.

use super::{inputs, shortest, with_sign, words};
use crate::analysis::flow::{CLOSEST, MELTED, casson_viscosity};
use crate::number::DecimalSign;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

/// Solid fat at a temperature.
#[must_use]
pub fn firmness(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("solid fat and crystals"),
        what: words(
            "How much of the fat is crystallised at that temperature, and how much of the whole mass those crystals are. The \
             first melts on the tongue, the second carries a filling: with too few crystals it does not stand when cut.",
        ),
        formula: words("Solid fat by the equilibrium of the mixed fats; × the share of fat for the mass."),
        range: words("Once it has set, in form V. For fillings the usual crystals are told below the rows."),
        source: words("The model of this program for mixed fats; usual crystals are computed of usual recipes."),
        evidence: words(inputs(scene)),
        uncertainty: with_sign("That of the solid fat: 5 points for mixtures, 2.5 to 4 for cocoa butter alone.", sign),
    }
}

/// Firmness against another state.
#[must_use]
pub fn relative_firmness(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let [likely, least, most] = crate::analysis::texture::FIRMNESS_EXPONENTS;
    Explanation {
        title: words("firmness against the pinned state"),
        what: words("How much firmer or softer it is than what is pinned, as far as the fat decides."),
        formula: words(format!(
            "(solid fat now ÷ solid fat then) to the power {} ({} to {}).",
            shortest(likely, 0, sign),
            shortest(least, 0, sign),
            shortest(most, 0, sign)
        )),
        range: words("Between masses with the same sugar, cocoa and water; otherwise those decide as well."),
        source: words("Theory of fat networks, from memory."),
        evidence: words(inputs(scene)),
        uncertainty: words("The range beside the figure."),
    }
}

/// Contraction.
#[must_use]
pub fn contraction(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("shrinking on setting"),
        what: words(
            "How much the mass shrinks when its fat crystallises: what lets go of a mould. Well under 1 % of length, a piece \
             sticks.",
        ),
        formula: words(
            "Volume with the solid fat of that temperature over that with all fat liquid: fat crystals are denser than \
             liquid fat.",
        ),
        range: words("Set in form V, without air in it."),
        source: words("Densities of oils from memory; of form V derived from those of solid cocoa butter."),
        evidence: words(inputs(scene)),
        uncertainty: words("About a fifth of it."),
    }
}

/// A usual chocolate, to give the figures of a data sheet a scale: Pa, Pa·s, and a stirring hand, 1/s.
const YIELD: f64 = 10.0;
const PLASTIC: f64 = 2.0;
const RATE: f64 = 10.0;

/// How full of solids the melted mass is.
#[must_use]
pub fn flow(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    let [likely, most, least] = CLOSEST.map(|closest| shortest(closest, 2, sign));
    Explanation {
        title: words("solids in the melted mass"),
        what: words(
            "Sugar, cocoa and milk solids swim in the melted fat. The more of the volume they fill, the thicker it flows: fat \
             thins a chocolate more than anything else does.",
        ),
        formula: words(format!(
            "Times as thick as its fat: (1 − φ ÷ φm) to the power −2{}5·φm; φ the volume of the solids in that of the mass at \
             {} °C, φm {likely} ({least} to {most}).",
            sign.character(),
            shortest(MELTED.0, 0, sign)
        )),
        range: words("Masses without a water phase. At φm its solids touch, and it does not flow."),
        source: words("Krieger and Dougherty 1959, for spheres; φm and the density of the solids from memory."),
        evidence: words(format!(
            "{} For scale, from memory: at 40 °C a chocolate has a Casson yield of 5 to 30 Pa and a plastic viscosity of {} to 5 \
             Pa·s, which its data sheet tells; with {} Pa and {} Pa·s it flows at a shear of {} in a second with {} Pa·s.",
            inputs(scene),
            shortest(0.5, 1, sign),
            shortest(YIELD, 0, sign),
            shortest(PLASTIC, 0, sign),
            shortest(RATE, 0, sign),
            shortest(casson_viscosity(YIELD, PLASTIC, RATE), 1, sign)
        )),
        uncertainty: words(
            "Only for comparing recipes: fineness, conching, lecithin and moisture change the thickness as much, and are not in it.",
        ),
    }
}

/// How thick it flows against another state.
#[must_use]
pub fn flow_against_pin(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("thickness against the pinned state"),
        what: words(
            "How much thicker or thinner the melted mass flows than what is pinned, if its solids are as fine and its lecithin \
             is the same.",
        ),
        uncertainty: words("The range beside the figure; lecithin, fineness and moisture are not in it."),
        ..flow(scene, sign)
    }
}

/// Condensation.
#[must_use]
pub fn condensation(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("condensation"),
        what: words(
            "Taken from the refrigerator, a piece gets wet in a room that is more humid than this: sugar dissolves and \
             blooms. Let it warm up closed.",
        ),
        formula: words("Vapour pressure of water at the temperature of the piece over that of the room."),
        range: with_sign("While the surface is that cold; at the dew point of the room it stops.", sign),
        source: with_sign(
            "Wagner and Pruss for the vapour pressure; the Magnus formula gives the same within 0.1 K.",
            sign,
        ),
        evidence: words("Physics of moist air."),
        uncertainty: words("About 1 point of humidity; that of a hygrometer is larger."),
    }
}
