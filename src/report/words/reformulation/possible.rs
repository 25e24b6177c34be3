//! What can be typed as a bound of a result, and why something else is refused.

use super::{bare_unit, measured};
use crate::analysis::water::state::DRY;
use crate::number::{DecimalSign, shortest};
use crate::recipe::Quantity;
use crate::reformulate::{Bound, Measured};

/// The fat model knows no melting limit outside of it, °C.
const MELTING: (f64, f64) = (0.0, 45.0);
/// Colder nothing is stored, and warmer all fat of a filling has melted, °C (judged).
const TEMPERATURES: (f64, f64) = (-30.0, 60.0);
/// Energy of pure fat, kJ per 100 g: nothing that is eaten has more (factor of the label, 37 kJ/g).
const MOST_ENERGY: f64 = 3700.0;
/// Pure fat of which all sets at 20 °C shrinks by 2.8 % of its length: no mass shrinks more.
const MOST_SHRINKING: f64 = 3.0;
/// Ratios, sweetness and money above it are slips (judged).
const MOST_OTHERWISE: f64 = 10_000.0;

/// Whether a result can have such a value; else why not.
///
/// # Errors
///
/// One sentence for the person who types.
pub fn check_value(of: Measured, value: f64, sign: DecimalSign) -> Result<(), String> {
    if let Measured::SolidFat(at) | Measured::Crystals(at) = of
        && !(TEMPERATURES.0..=TEMPERATURES.1).contains(&at.0)
    {
        let [low, high] = [TEMPERATURES.0, TEMPERATURES.1].map(|at| shortest(at, 0, sign));
        return Err(format!("how much fat is solid is told between {low} and {high} °C"));
    }
    let (low, high) = match of {
        _ if of.is_fraction() => (0.0, 1.0),
        _ if bare_unit(of) == " %" => (0.0, 100.0),
        Measured::Contraction => (0.0, MOST_SHRINKING),
        Measured::FormVLimit => MELTING,
        Measured::Energy => (0.0, MOST_ENERGY),
        Measured::FinishedMass => (0.0, Quantity::MOST.0),
        _ => (0.0, MOST_OTHERWISE),
    };
    if (low..=high).contains(&value) {
        return Ok(());
    }
    let ends = |at: f64| shortest(at, 0, sign);
    let article = if of == Measured::WaterActivity { "a " } else { "" };
    let lies =
        format!("{article}{} lies between {} and {}{}", measured(of, sign), ends(low), ends(high), bare_unit(of));
    // A percent where a share belongs is the usual slip.
    let meant = value / 100.0;
    if of.is_fraction() && (low..=high).contains(&meant) {
        Err(format!("{lies}: {}?", shortest(meant, 4, sign)))
    } else {
        Err(lies)
    }
}

/// Whether a bound can be met by a figure that is told.
///
/// # Errors
///
/// One sentence, the same as on the command line.
pub fn check_bound(of: Measured, bound: Bound, sign: DecimalSign) -> Result<(), String> {
    match bound {
        Bound::Between(low, high) if low > high => Err("the lower end stands above the upper one".to_owned()),
        Bound::AtMost(high) | Bound::Between(_, high) if of == Measured::WaterActivity && high < DRY.0 => {
            let least = shortest(DRY.0, 2, sign);
            Err(format!("lower water activities than {least} are not told, so no mass meets it: at most {least}?"))
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::parts::Group;
    use crate::units::Celsius;

    fn refused(of: Measured, value: f64) -> Option<String> {
        check_value(of, value, DecimalSign::Point).err()
    }

    #[test]
    fn what_no_mass_can_have_is_refused_with_what_it_can() {
        for (of, value, words) in [
            (Measured::WaterActivity, 85.0, "a water activity lies between 0 and 1: 0.85?"),
            (Measured::WaterActivity, -0.1, "a water activity lies between 0 and 1"),
            (Measured::WaterActivity, 850.0, "a water activity lies between 0 and 1"),
            (Measured::Group(Group::Water), 101.0, "water lies between 0 and 100 %"),
            (Measured::SolidFat(Celsius(20.0)), -1.0, "solid fat at 20 °C lies between 0 and 100 %"),
            (Measured::FormVLimit, 60.0, "form V limit lies between 0 and 45 °C"),
            (Measured::Crystals(Celsius(18.0)), 120.0, "share of fat crystals at 18 °C lies between 0 and 100 %"),
            (Measured::Contraction, 8.0, "shrinking on setting lies between 0 and 3 % of length"),
            (Measured::SolidFat(Celsius(500.0)), 10.0, "how much fat is solid is told between −30 and 60 °C"),
            (Measured::Energy, 5000.0, "energy lies between 0 and 3700 kJ per 100 g"),
        ] {
            assert_eq!(refused(of, value).as_deref(), Some(words));
        }
        for (of, value) in [
            (Measured::WaterActivity, 0.85),
            (Measured::Group(Group::Water), 0.0),
            (Measured::FatToWater, 12.0),
            (Measured::FinishedMass, 2e6),
        ] {
            assert_eq!(refused(of, value), None);
        }
        let comma = check_value(Measured::WaterActivity, 85.0, DecimalSign::Comma);
        assert_eq!(comma, Err("a water activity lies between 0 and 1: 0,85?".to_owned()));
    }

    #[test]
    fn ends_are_in_order_and_not_below_what_is_told() {
        let check = |of, bound| check_bound(of, bound, DecimalSign::Point);
        let water = Measured::Group(Group::Water);
        assert!(check(water, Bound::Between(30.0, 24.0)).is_err() && check(water, Bound::Between(24.0, 24.0)).is_ok());
        let refused = Err("lower water activities than 0.5 are not told, so no mass meets it: at most 0.5?".to_owned());
        assert_eq!(check(Measured::WaterActivity, Bound::AtMost(0.45)), refused);
        assert_eq!(check(Measured::WaterActivity, Bound::Between(0.2, 0.49)), refused);
        // A wish goes as far as it can, and from below everything is told.
        for bound in [Bound::AtMost(0.5), Bound::Near(0.3), Bound::AtLeast(0.3), Bound::Between(0.3, 0.6)] {
            assert_eq!(check(Measured::WaterActivity, bound), Ok(()));
        }
    }
}
