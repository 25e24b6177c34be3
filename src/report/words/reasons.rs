//! Why a model gives no answer: sentences without a capital and without their stop, so that they fit behind another.

use super::Words;
use crate::analysis::cooling::body::BodyError;
use crate::analysis::cooling::growth::LEAST_SUPERCOOLING;
use crate::analysis::heat::{HOTTEST, HeatError, LEAST_START, MOST_MELTED, MOST_SOLID, MOST_START};
use crate::analysis::setting::{NoCrystals, NoSetting, NoTime};
use crate::number::{DecimalSign, shortest};
use crate::units::Celsius;

/// Why nothing is told of how a mass sets.
#[must_use]
pub fn no_setting(why: &NoSetting, sign: DecimalSign) -> String {
    match why {
        NoSetting::NotSaid => "the recipe does not say in which form and where it sets".to_owned(),
        NoSetting::Nothing => "nothing is weighed yet".to_owned(),
        NoSetting::Unknown => "a figure of an ingredient is not known; a finding names it".to_owned(),
        NoSetting::Body(why) => no_course(why, sign),
        NoSetting::LostHeat { .. } => {
            "the computation lost heat, so its times would be wrong; please report it with this recipe".to_owned()
        }
    }
}

/// Why no setting time is told.
#[must_use]
pub fn no_time(why: NoTime, sign: DecimalSign) -> String {
    let tenths = |celsius: Celsius| Words { sign }.celsius(celsius);
    match why {
        NoTime::SetsBySugar => "a caramel becomes firm by its sugar as it cools, not by crystals of fat".to_owned(),
        NoTime::OnlySeed => "nothing but seed stands in the sheet".to_owned(),
        NoTime::Crystals(why) => no_crystals(why).to_owned(),
        NoTime::TooWarm { around, most } if around >= most + LEAST_SUPERCOOLING => format!(
            "at {} around it crystals of form V melt; it needs less than {}",
            as_said(around, sign),
            tenths(most)
        ),
        NoTime::TooWarm { around, most } => format!(
            "at {} around it crystals of form V hardly grow; it needs less than {}",
            as_said(around, sign),
            tenths(most)
        ),
        NoTime::TooCold { around, least } => format!(
            "at {} around it unstable forms grow beside form V; it needs more than {}",
            as_said(around, sign),
            tenths(least)
        ),
        NoTime::NothingToCome => "all of its fat that can be solid there is so from the beginning".to_owned(),
        NoTime::TooLong => "it does not set in any time that is followed".to_owned(),
    }
}

/// Why there are no crystals that could grow.
#[must_use]
pub fn no_crystals(why: NoCrystals) -> &'static str {
    match why {
        NoCrystals::NotSeeded => "there is no seeding plan for it; a finding says why",
        NoCrystals::NotKnown => "what becomes of the seed is not known; a figure of it is missing, or what is chopped",
        NoCrystals::NoneInSeed => "the seed holds no cocoa butter and brings no crystals",
        NoCrystals::Melt => {
            "it begins without crystals: the seed melts before it sets; seed it colder, and let it begin below the form V \
             limit"
        }
    }
}

/// Why a mix has no end, or a line cannot bring it to one.
#[must_use]
pub fn no_heat(why: HeatError, sign: DecimalSign) -> String {
    let at = |celsius: Celsius| as_said(celsius, sign);
    match why {
        HeatError::Empty => "there is nothing to mix; enter an amount above 0 g".to_owned(),
        HeatError::Negative => "an amount is below zero; enter 0 g or more".to_owned(),
        HeatError::NotFinite => "a figure is no number; enter it again".to_owned(),
        HeatError::NotWhole { sum } => format!(
            "the composition of an ingredient adds up to {} % and not to 100 %; complete it",
            shortest(sum * 100.0, 1, sign)
        ),
        HeatError::NotAShare => "a share in an ingredient is not from 0 to 100 %; correct it".to_owned(),
        HeatError::Unknown { component } => format!("{} is not known; complete the ingredient", component.words()),
        HeatError::BelowFreezing => "below 0 °C water freezes and there is no figure; start warmer".to_owned(),
        HeatError::AboveRange => {
            format!("above {} there is no figure; start colder or add less heat", at(HOTTEST))
        }
        HeatError::NoSuchPart => "this line is not in the mix; choose one that is".to_owned(),
        HeatError::NeedsBoiling => format!(
            "it would have to be hotter than {}; melt part of the chocolate first or warm the bowl",
            at(MOST_START)
        ),
        HeatError::NeedsTooCold => {
            format!("it would have to be colder than {}; melt less of the chocolate first", at(LEAST_START))
        }
        HeatError::NeedsHalfMelted => {
            format!(
                "it would have to be at about {}, where its fat is half melted; change another line",
                at(MOST_SOLID)
            )
        }
        HeatError::NeedsScorching => {
            format!("it would have to be hotter than {}; make the other parts warmer", at(MOST_MELTED))
        }
        HeatError::TooColdAllMelted => "too cold even with all of it melted; make the other parts warmer".to_owned(),
        HeatError::TooWarmAllSolid => "too warm even with all of it solid; make the other parts colder".to_owned(),
        HeatError::LostToRoom => {
            "the room takes too much while it is stirred for so long; stir it for a shorter time".to_owned()
        }
        HeatError::ColderThanAll => {
            "not reachable by mixing: it is colder than every part; cool the mass afterwards".to_owned()
        }
    }
}

/// Why the cooling of a body is not followed.
fn no_course(why: &BodyError, sign: DecimalSign) -> String {
    let number = |value: f64| shortest(value, 3, sign);
    let of_the_mass = |figure: String| format!("{figure} cannot be; check the figures of its ingredients");
    match why {
        BodyError::Temperature(at) => {
            format!(
                "{} is not from 0 to 150 °C, where cooling is followed; type another temperature",
                as_said(*at, sign)
            )
        }
        BodyError::Length(length) => {
            format!(
                "a piece of {} mm is too thin or too thick to be followed; type another size",
                number(length.0 * 1e3)
            )
        }
        BodyError::Volume(volume) => {
            format!("{} ml of it are too little or too much to be followed; weigh another amount", number(volume.0))
        }
        BodyError::Conductance(_) | BodyError::Coefficient(_) | BodyError::Insulated => {
            "it loses too little or too much heat to be followed; choose another form or air".to_owned()
        }
        BodyError::Density(density) => of_the_mass(format!("a density of {} g/ml", number(density.0))),
        BodyError::Conductivity(found) => of_the_mass(format!("a conductivity of {} W/(m·K)", number(found.0))),
        BodyError::SpecificHeat(found) => of_the_mass(format!("a specific heat of {} J/(g·K)", number(found.0))),
        BodyError::Heat(heat) => of_the_mass(format!("a heat of crystals of {} J/g", number(heat.0))),
        BodyError::Share(share) => of_the_mass(format!("a share of {} % crystals", number(share.to_percent()))),
        BodyError::NotFalling(at) => {
            of_the_mass(format!("more solid fat at {} than where it is colder", as_said(*at, sign)))
        }
        BodyError::Time(time) => format!("{} min are too short or too long to be followed", number(time.0)),
        BodyError::Resolution { cells, steps } => {
            format!("it cannot be followed in {cells} layers and {steps} steps; please report it")
        }
    }
}

/// A temperature with the digits that it was typed with.
fn as_said(celsius: Celsius, sign: DecimalSign) -> String {
    format!("{} °C", shortest(celsius.0, 2, sign))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Metres;

    #[test]
    fn reasons_have_the_sign_of_the_reader() {
        let too_warm = NoTime::TooWarm { around: Celsius(28.5), most: Celsius(27.25) };
        assert_eq!(
            no_time(too_warm, DecimalSign::Comma),
            "at 28,5 °C around it crystals of form V hardly grow; it needs less than 27,3 °C"
        );
        let too_thick = NoSetting::Body(BodyError::Length(Metres(2.5)));
        assert_eq!(
            no_setting(&too_thick, DecimalSign::Comma),
            "a piece of 2500 mm is too thin or too thick to be followed; type another size"
        );
        assert_eq!(
            no_heat(HeatError::NotWhole { sum: 0.985 }, DecimalSign::Comma),
            "the composition of an ingredient adds up to 98,5 % and not to 100 %; complete it"
        );
        assert!(no_heat(HeatError::NeedsTooCold, DecimalSign::Point).contains("colder than 4 °C"));
    }
}
