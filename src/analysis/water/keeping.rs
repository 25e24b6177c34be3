//! What a water activity means for keeping: limits of growth, and the tables of two food codes.
//!
//! A computed water activity never replaces a measurement, and no date follows from it. What may be kept and sold how is
//! decided by the producer's hazard analysis and the authority of the place. A value that is estimated is read as if it
//! were worse than it looks: the upper edge of its band counts.

use crate::analysis::{is_above, is_below};
use crate::units::WaterActivity;

/// The least water activity at which something was seen to grow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrowthLimit {
    /// Below this it does not grow.
    pub activity: WaterActivity,
    /// Where growth was reported below that, if it was.
    pub reported: Option<WaterActivity>,
    /// What grows, short, for a sentence.
    pub name: &'static str,
    /// The same in words that a chef knows, for a line of a plot.
    pub label: &'static str,
    /// The same with what must be said beside it, for a row of a table.
    pub in_full: &'static str,
    /// What else is known of it.
    pub remark: &'static str,
}

/// Below this no growth is known of anything.
pub const END_OF_GROWTH: GrowthLimit = GrowthLimit {
    activity: WaterActivity(0.60),
    reported: None,
    name: "none known below",
    label: "no growth known below",
    in_full: "no growth known below",
    remark: "yeasts of honey end at 0.61",
};

/// The place of the moulds among the limits of growth.
pub const MOST_MOULDS: usize = 2;

/// Limits of growth, from the wettest down.
///
/// Sources: US FDA, Bad Bug Book, table of factors (`fda-bad-bug-book`), Banwart 1989 for growth of S. aureus to 0.83,
/// Beuchat 1981 (`beuchat-1981`) for moulds and the end of all growth.
pub const GROWTH_LIMITS: [GrowthLimit; 5] = [
    GrowthLimit {
        activity: WaterActivity(0.92),
        reported: None,
        name: "L. monocytogenes",
        label: "Listeria monocytogenes",
        in_full: "Listeria monocytogenes",
        remark: "0.90 in glycerol media; Salmonella 0.94, C. botulinum A and B 0.93, B. cereus about 0.93",
    },
    GrowthLimit {
        activity: WaterActivity(0.86),
        reported: Some(WaterActivity(0.83)),
        name: "S. aureus",
        label: "S. aureus (to 0.83)",
        in_full: "Staphylococcus aureus, growth to 0.83 reported",
        remark: "growth down to 0.83 was reported",
    },
    GrowthLimit {
        activity: WaterActivity(0.80),
        reported: None,
        name: "most moulds",
        label: "most moulds",
        in_full: "most moulds",
        remark: "and most yeasts of bread and beer",
    },
    GrowthLimit {
        activity: WaterActivity(0.65),
        reported: None,
        name: "dry-loving moulds",
        label: "dry-loving moulds",
        in_full: "dry-loving moulds",
        remark: "found in mouldy truffles",
    },
    END_OF_GROWTH,
];

/// What a table of the US Food Code says about a food.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoodCode {
    /// Not a food that needs time and temperature control, as far as growth of pathogens goes.
    NoControl,
    /// A product assessment is required; until then it counts as a food that needs control.
    Assessment,
}

/// Whether a food was heated to destroy vegetative cells and packaged afterwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handling {
    /// Heated, then packaged: only spores count (table A).
    HeatedAndPackaged,
    /// Not heated, or heated and handled open, as a ganache is (table B).
    Open,
}

/// The verdict of tables A and B; with unknown acidity the column of the least acid foods counts.
///
/// Source: US FDA Food Code 1-201.10(B) (`fda-food-code`), read in state codes that adopt it.
///
/// ```
/// # use nibwright::analysis::water::keeping::{FoodCode, Handling, food_code};
/// # use nibwright::units::WaterActivity;
/// assert_eq!(food_code(Handling::Open, WaterActivity(0.87), Some(6.0)), FoodCode::NoControl);
/// assert_eq!(food_code(Handling::Open, WaterActivity(0.89), None), FoodCode::Assessment);
/// ```
#[must_use]
pub fn food_code(handling: Handling, activity: WaterActivity, ph: Option<f64>) -> FoodCode {
    let ph = ph.unwrap_or(f64::INFINITY);
    let is_at_most = |limit: f64| !is_above(activity.0, limit);
    // The wettest that needs no control, by acidity.
    let needs_none = match handling {
        Handling::HeatedAndPackaged => {
            if ph <= 4.6 {
                true
            } else if ph <= 5.6 {
                is_at_most(0.95)
            } else {
                is_at_most(0.92)
            }
        }
        Handling::Open => {
            if ph < 4.2 {
                true
            } else if ph <= 4.6 {
                is_at_most(0.92)
            } else if ph <= 5.0 {
                is_at_most(0.90)
            } else {
                is_below(activity.0, 0.88)
            }
        }
    };
    if needs_none { FoodCode::NoControl } else { FoodCode::Assessment }
}

/// Whether a food is held unable to let L. monocytogenes grow.
///
/// pH ≤ 4.4, or aw ≤ 0.92, or pH ≤ 5.0 and aw ≤ 0.94; with unknown acidity water activity alone decides.
///
/// Source: Regulation (EC) No 2073/2005, Annex I, chapter 1 (`eu-2073-2005`).
#[must_use]
pub fn holds_listeria(activity: WaterActivity, ph: Option<f64>) -> bool {
    let ph = ph.unwrap_or(f64::INFINITY);
    ph <= 4.4 || !is_above(activity.0, 0.92) || (ph <= 5.0 && !is_above(activity.0, 0.94))
}

/// Up to this water activity the US rules on sealed shelf-stable packs do not apply (21 CFR 113.3, 114.3); several
/// home-kitchen rules use it alone.
pub const LOW_ACID_LIMIT: WaterActivity = WaterActivity(0.85);

/// Days until mould was seen on cakes at 21 °C; `None` outside 0.74 to 0.90.
///
/// log10(days) = 7.91 − 8.1·a
///
/// Source: Seiler, in Cauvain and Young 2000 (`cauvain-young-2000`). Measured on cakes, not on fillings: an order of
/// magnitude, no date.
#[must_use]
pub fn mould_free_days_of_cake(activity: WaterActivity) -> Option<f64> {
    (0.74..=0.90).contains(&activity.0).then(|| 10_f64.powf(7.91 - 8.1 * activity.0))
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// US FDA Food Code 1-201.10(B): every field of table A, each at its middle and at its ends.
    #[test]
    fn table_a() {
        use FoodCode::{Assessment, NoControl};
        for (activity, row) in [
            (0.85, [NoControl, NoControl, NoControl]),
            (0.92, [NoControl, NoControl, NoControl]),
            (0.921, [NoControl, NoControl, Assessment]),
            (0.95, [NoControl, NoControl, Assessment]),
            (0.951, [NoControl, Assessment, Assessment]),
            (0.99, [NoControl, Assessment, Assessment]),
        ] {
            for (ph, expected) in [(4.6, row[0]), (4.61, row[1]), (5.6, row[1]), (5.61, row[2])] {
                let verdict = food_code(Handling::HeatedAndPackaged, WaterActivity(activity), Some(ph));
                assert_eq!(verdict, expected, "{activity} {ph}");
            }
            assert_eq!(food_code(Handling::HeatedAndPackaged, WaterActivity(activity), None), row[2]);
        }
    }

    /// US FDA Food Code 1-201.10(B): every field of table B.
    #[test]
    fn table_b() {
        use FoodCode::{Assessment, NoControl};
        for (activity, row) in [
            (0.879, [NoControl, NoControl, NoControl, NoControl]),
            (0.88, [NoControl, NoControl, NoControl, Assessment]),
            (0.90, [NoControl, NoControl, NoControl, Assessment]),
            (0.901, [NoControl, NoControl, Assessment, Assessment]),
            (0.92, [NoControl, NoControl, Assessment, Assessment]),
            (0.921, [NoControl, Assessment, Assessment, Assessment]),
        ] {
            for (ph, expected) in
                [(4.19, row[0]), (4.2, row[1]), (4.6, row[1]), (4.61, row[2]), (5.0, row[2]), (5.01, row[3])]
            {
                assert_eq!(food_code(Handling::Open, WaterActivity(activity), Some(ph)), expected, "{activity} {ph}");
            }
            assert_eq!(food_code(Handling::Open, WaterActivity(activity), None), row[3]);
        }
    }

    /// Regulation (EC) No 2073/2005, Annex I, chapter 1, footnote on foods unable to support growth.
    #[test]
    fn listeria() {
        for (activity, ph, expected) in [
            (0.92, None, true),
            (0.921, None, false),
            (0.99, Some(4.4), true),
            (0.99, Some(4.41), false),
            (0.94, Some(5.0), true),
            (0.941, Some(5.0), false),
            (0.94, Some(5.01), false),
        ] {
            assert_eq!(holds_listeria(WaterActivity(activity), ph), expected, "{activity} {ph:?}");
        }
    }

    /// Seiler, in Cauvain and Young 2000: cakes at 21 °C.
    #[test]
    fn mould_on_cake() {
        for (activity, days) in [(0.75, 68.0), (0.80, 27.0), (0.85, 11.0), (0.90, 4.0)] {
            assert_abs_diff_eq!(
                mould_free_days_of_cake(WaterActivity(activity)).expect("in range"),
                days,
                epsilon = 1.0
            );
        }
        assert_eq!(mould_free_days_of_cake(WaterActivity(0.73)), None);
        assert_eq!(mould_free_days_of_cake(WaterActivity(0.91)), None);
    }
}
