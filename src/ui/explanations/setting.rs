//! Numbers of cooling, setting and the store.

use super::{HABIT_SOURCE, celsius, fixed, inputs, with_sign, words};
use crate::analysis::setting::SettingState;
use crate::number::DecimalSign;
use crate::recipe::setting::WARMEST_STORE;
use crate::report::words::system;
use crate::ui::view::Scene;
use crate::ui::widgets::Explanation;

const HEAT: &str = "Balance of heat by finite volumes; specific heat and conductivity after Choi and Okos 1986 and others; heat \
of fusion of cocoa butter 157 J/g.";
const AIR: &str = "The coefficient of the air is known to 30 %, and the time of cooling with it to a quarter.";

/// The setting time.
#[must_use]
pub fn set(scene: &Scene<'_>, state: &SettingState, sign: DecimalSign) -> Explanation {
    let reference = fixed(state.system.reference_time().0, 0, sign);
    Explanation {
        title: words("setting time"),
        what: words(
            "How long the seeded mass takes in this form until its solid fat has gone nine tenths of the way to rest at the \
             temperature around it. Then it can be cut, unmoulded or packed.",
        ),
        formula: with_sign(
            &format!(
                "Heat leaves through the faces, crystals give heat off and grow with the time constant t/2.303, t = {reference} \
                 min · (0.00556 ÷ crystals per fat)^0.4 · 10 K ÷ (form V limit − temperature around it). It sets {}.",
                system(state.system)
            ),
            sign,
        ),
        range: words("From 3 to 25 K below the form V limit, seeded, well mixed. Beyond, no time is told."),
        source: words(format!(
            "{HEAT} Growth: order of the growth after Padar, Jeelani and Windhab 2008; its times are common practice, no \
             published source."
        )),
        evidence: words(inputs(scene)),
        uncertainty: words(
            "A factor of two either way in two of three cases, four in nineteen of twenty. Note how long yours \
             takes: in the same place it takes about as long the next time.",
        ),
    }
}

/// When it is as cold as its surroundings.
#[must_use]
pub fn cooled(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("cooled through"),
        what: with_sign(
            "When the middle is within 1 K of the temperature around it and stays there. Before, a closed box steams up, and \
             a frame that is moved cracks.",
            sign,
        ),
        formula: words("The last time at which the middle is a kelvin or more away."),
        range: words("While the air keeps its temperature; a full refrigerator becomes warmer."),
        source: words(HEAT),
        evidence: words(HABIT_SOURCE),
        uncertainty: words(AIR),
    }
}

/// The solid fat at rest.
#[must_use]
pub fn solid_at_rest(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("solid fat at rest"),
        what: words("How much of the fat is solid at the temperature around it, once it is at rest."),
        formula: words("Equilibrium of the mixed fats in form V."),
        range: words("Reached after a day and longer."),
        source: words("The model of this program for mixed fats."),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the solid fat: see Fat crystals."),
    }
}

/// The temperature at the start.
#[must_use]
pub fn start(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("temperature at the start"),
        what: words(
            "How warm the mass is when it lies in its form. Left empty it is the temperature that is recommended for seeding; \
             above the form V limit seed melts again.",
        ),
        formula: words("As you type it."),
        range: with_sign("From 0 to 60 °C.", sign),
        source: words("Your own thermometer."),
        evidence: words("As you type it."),
        uncertainty: with_sign("A thermometer of a kitchen: 0.3 K and more.", sign),
    }
}

/// The temperature around it.
#[must_use]
pub fn surroundings(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("temperature around it"),
        what: words(
            "Of the air in which it cools; a stone counts as just as warm. The colder, the sooner it sets, down to where \
             unstable crystals grow.",
        ),
        formula: words("As you type it."),
        range: with_sign("From 0 to 60 °C; a setting time is told from 25 to 3 K below the form V limit.", sign),
        source: words("Your own thermometer."),
        evidence: words("As you type it."),
        uncertainty: words(AIR),
    }
}

/// A length of the piece.
#[must_use]
pub fn size(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("size"),
        what: words("The length that heat or oil has to go: twice as thick takes two to four times as long."),
        formula: words("As you type it."),
        range: with_sign("From 0.5 to 300 mm.", sign),
        source: words("Your own ruler."),
        evidence: words("As you type it."),
        uncertainty: words("That of the ruler."),
    }
}

/// How fast crystals alone grow.
#[must_use]
pub fn growth(scene: &Scene<'_>, state: &SettingState) -> Explanation {
    Explanation {
        title: words("growth of the crystals"),
        what: words(format!(
            "How long the seed takes to crystallise nine tenths of the fat if the mass were as cold as its surroundings from the \
             beginning. It sets {}. More seed shortens it little: half the seed takes a third longer.",
            system(state.system)
        )),
        formula: words("See setting time; the rest of the time is cooling."),
        range: words("From 3 to 25 K below the form V limit."),
        source: words(HABIT_SOURCE),
        evidence: words(inputs(scene)),
        uncertainty: words("A factor of two either way."),
    }
}

/// How slowly crystals have to grow for their heat to get out.
#[must_use]
pub fn least_growth(scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("the heat of the crystals"),
        what: words(
            "Crystals give off heat as they grow. If they take much less time than this, a piece of this thickness cannot lose \
             it: the middle stays warm just below the form V limit, where they hardly grow, and sets later.",
        ),
        formula: with_sign(
            "1.30 × rise if no heat left × time constant of cooling ÷ (form V limit − surroundings); the rise is the heat of the \
             crystals over the specific heat.",
            sign,
        ),
        range: words("An indicator, no rule for design: pieces at rest, of one thickness."),
        source: words(
            "Derived: the highest rate of growth after Avrami, with the order that Padar and others found in 2008.",
        ),
        evidence: words(inputs(scene)),
        uncertainty: words("A factor of two either way, as the times of growth."),
    }
}

/// The crystals at the start.
#[must_use]
pub fn begun(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("crystals at the start"),
        what: words(
            "What the seed that is chosen in the seeding plan leaves once it is even in the mass; of tempered chocolate that is \
             kept so, what lives at that temperature; of chopped chocolate as much as tempered chocolate has, for most of its \
             crystals sit in the pieces. They grow; the more there are, the sooner it sets.",
        ),
        formula: words("The heat balance of the seeding plan."),
        range: words("Below the form V limit; above it none are left."),
        source: words("The models of this program; the dose is common practice or your own."),
        evidence: words(inputs(scene)),
        uncertainty: words("A fifth of it, and that of your scale."),
    }
}

/// Unseeded masses.
#[must_use]
pub fn unseeded() -> Explanation {
    Explanation {
        title: words("unseeded"),
        what: words(
            "Without seed nobody knows when crystals begin, nor in which form: such masses take most of a day, and can stay soft, \
             streaked or grainy. The dashed curves show a growth of that length.",
        ),
        formula: words("None: 12 to 24 hours, drawn with 17."),
        range: words(
            "Ganache and praline in ordinary pieces; thick ones that take longer even when they are seeded take no less without. \
             A chocolate that is not seeded does not set in form V.",
        ),
        source: words(HABIT_SOURCE),
        evidence: words(HABIT_SOURCE),
        uncertainty: words("Half a day."),
    }
}

/// Temperature against time.
#[must_use]
pub fn cooling(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("temperature against time"),
        what: words("How the piece cools, on the whole and in the middle, with the heat that its fat gives off."),
        formula: words("Heat that leaves = conductivity · slope of the temperature; 20 layers, 100 steps of time."),
        range: words("Constant air; half-spheres, cups and bowls count as of one temperature all through."),
        source: words(HEAT),
        evidence: words(inputs(scene)),
        uncertainty: words(AIR),
    }
}

/// How long a bowl can be worked.
#[must_use]
pub fn workable(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("time at the bench"),
        what: words(
            "How long the seeded bowl stays fluid when it is kept at the temperature of the thermometer: crystals grow and \
             thicken it. Warm it by tenths, never to the form V limit, and you win time.",
        ),
        formula: words("Until a twentieth of the fat is solid, by the same growth as the setting time."),
        range: words(
            "Below the form V limit. So near to it the formula is stretched: take it as an order of magnitude, and look at the \
             spoon. No time is told of chopped chocolate, whose crystals sit in the pieces, of a caramel, and where more than a \
             twentieth is solid from the beginning.",
        ),
        source: words("Judged: a well-tempered chocolate holds 1 to 3 % crystals, from memory; no published source."),
        evidence: words(inputs(scene)),
        uncertainty: words("A factor of four either way."),
    }
}

/// A figure of the store.
#[must_use]
pub fn store(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("store and room"),
        what: words("Where the finished pieces lie, and the room they are taken into."),
        formula: words("As you type it."),
        range: words(format!(
            "From 0 to 60 °C, up to 100 % humidity. Chocolate pieces are kept at {} or less.",
            celsius(WARMEST_STORE, sign)
        )),
        source: words(HABIT_SOURCE),
        evidence: words("As you type it."),
        uncertainty: words("That of your instruments; a hygrometer is off by 3 to 5 %."),
    }
}

/// Solid fat in store and room.
#[must_use]
pub fn solid_in_store(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("solid fat in store and room"),
        what: words(
            "How much of the fat stays solid where the pieces lie and where they are eaten: how far they soften.",
        ),
        formula: words("Equilibrium of the mixed fats in form V."),
        range: words("At rest; a piece needs half an hour to become as warm as the room."),
        source: words("The model of this program for mixed fats."),
        evidence: words(inputs(scene)),
        uncertainty: words("That of the solid fat: see Fat crystals."),
    }
}

/// The dew point.
#[must_use]
pub fn dew_point(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("dew point"),
        what: words(
            "What is colder than this gets wet in that room: sugar dissolves and dries to a grey bloom. Let cold pieces warm up in \
             their closed box.",
        ),
        formula: with_sign(
            "243.12·γ ÷ (17.62 − γ), γ = ln(humidity) + 17.62·T ÷ (243.12 + T): the Magnus formula.",
            sign,
        ),
        range: with_sign("From −45 to 60 °C.", sign),
        source: words("Constants of the WMO guide to instruments, from memory."),
        evidence: words("Physics of moist air."),
        uncertainty: with_sign("0.4 K by the formula; that of a hygrometer is larger.", sign),
    }
}

/// Liquid fat on both sides.
#[must_use]
pub fn liquid(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("liquid fat of filling and shell"),
        what: words(
            "How much of the fat is liquid in the store, in the filling and in the shell. Oil moves to where less is liquid: the \
             larger the difference, the sooner the shell softens and blooms.",
        ),
        formula: words("100 % less the solid fat of each, in form V at rest."),
        range: words("An indicator. Pores, cracks and how well the shell was tempered count as much."),
        source: words("The model of this program for mixed fats."),
        evidence: words(inputs(scene)),
        uncertainty: words("Five points."),
    }
}

/// The softening of the shell.
#[must_use]
pub fn softens(scene: &Scene<'_>) -> Explanation {
    Explanation {
        title: words("shell with oil"),
        what: words(
            "Solid fat of the shell in the store now, and when a twentieth of its fat is oil from the filling.",
        ),
        formula: words("Equilibrium of the shell's fat with the oil mixed in."),
        range: words("Oil of nuts; milk fat softens a little more."),
        source: words("The model of this program for mixed fats."),
        evidence: words(inputs(scene)),
        uncertainty: words("Five points each, one point for the difference."),
    }
}

/// How long oil takes.
#[must_use]
pub fn half_way(sign: DecimalSign) -> Explanation {
    Explanation {
        title: words("time for oil to come through"),
        what: words("Until half of the oil that can come has come through the shell. No date of keeping."),
        formula: with_sign(
            "0.197 · thickness² ÷ D, D = 1e-12 m²/s at 21.5 °C, three times as much for each 5 K.",
            sign,
        ),
        range: words("An order of magnitude: real uptake does not follow this law, and seeding slows it."),
        source: words("Fick's law; D from memory, 1e-13 to 1e-11 m²/s between 18 and 25 °C."),
        evidence: words("From memory."),
        uncertainty: words("Ten times either way."),
    }
}
