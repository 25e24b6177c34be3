//! What is usual, by use: hints from the trade and from a few published figures, never errors.

use super::parts::{Group, Parts};
use crate::ingredient::Component;
use crate::recipe::{Kind, Recipe, Use};
use crate::units::MassFraction;

/// The usual range of one share for one use, with what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualRange {
    /// For which use it is usual.
    pub column: Column,
    /// The share.
    pub of: Share,
    /// Lower end, percent of the mass.
    pub low: f64,
    /// Upper end, percent of the mass.
    pub high: f64,
    /// Whether the upper end itself lies outside ("less than").
    pub high_is_outside: bool,
    /// Where one of its ends is published; all else is common practice without a published source.
    pub published: Option<&'static str>,
}

/// A share of the mass that has a usual range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Share {
    /// A group of the report.
    Group(Group),
    /// Ethanol.
    Ethanol,
}

/// Where a share lies, compared as it is shown: with one decimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Below the usual.
    Low,
    /// Within.
    Within,
    /// Above the usual.
    High,
}

/// A column of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Ganache set in a frame and cut.
    Cut,
    /// Moulded or piped filling.
    MouldedOrPiped,
    /// Tart or spread.
    Spread,
    /// Mousse base, whipped ganache.
    MousseBase,
    /// Nut praline that sets.
    Praline,
}

const MORATO_UPPER: Option<&str> =
    Some("upper end published: Morato 2007, quoted in a professional discussion; lower end common practice");
const MORATO_LOWER: Option<&str> =
    Some("lower end common practice; 30 % and more published: Morato 2007, quoted in a professional discussion");
const MORATO_COCOA_BUTTER: Option<&str> =
    Some("lower end published: Morato 2007, quoted in a professional discussion; upper end common practice");
const MORATO_MILK_FAT: Option<&str> = Some("upper end published: Morato 2007, from memory; lower end common practice");
const SYRUPS: Option<&str> = Some("common practice; each syrup at most 10 %: L'hote, teaching sheet");
const OIL_SEED_WATER: Option<&str> = Some("published: German guidelines for oil seeds (nut nougat mass)");
const OIL_SEED_FAT: Option<&str> = Some("common practice; at least 30 % published: German guidelines for oil seeds");
const OIL_SEED_SUGARS: Option<&str> =
    Some("upper end published: German guidelines for oil seeds; lower end common practice");

impl Column {
    /// The column for a recipe, if there is one.
    #[must_use]
    pub fn of(kind: Kind, intended_use: Option<Use>) -> Option<Self> {
        match (kind, intended_use) {
            (Kind::Praline, _) => Some(Self::Praline),
            (Kind::MousseBase, _) | (Kind::Ganache, Some(Use::Whipped)) => Some(Self::MousseBase),
            (Kind::Ganache, Some(Use::Cut)) => Some(Self::Cut),
            (Kind::Ganache, Some(Use::Moulded | Use::Piped)) => Some(Self::MouldedOrPiped),
            (Kind::Ganache, Some(Use::Spread)) => Some(Self::Spread),
            _ => None,
        }
    }

    /// Its name, so that "usual for …" reads well.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Cut => "a ganache for cutting",
            Self::MouldedOrPiped => "a moulded or piped filling",
            Self::Spread => "a tart or spread",
            Self::MousseBase => "a mousse base or whipped ganache",
            Self::Praline => "a nut praline that sets",
        }
    }

    /// Its rows in the order of the table.
    ///
    /// All ends are common practice without a published source but for those that `published` names.
    #[must_use]
    pub fn ranges(self) -> [UsualRange; 9] {
        let row = |of, ends: [(f64, f64); 5], published: [Option<&'static str>; 5]| {
            let (low, high) = ends[self as usize];
            UsualRange { column: self, of, low, high, high_is_outside: false, published: published[self as usize] }
        };
        let common = [None; 5];
        let mut water = row(
            Share::Group(Group::Water),
            [(16.0, 20.0), (18.0, 24.0), (25.0, 35.0), (30.0, 45.0), (0.0, 2.0)],
            [MORATO_UPPER, None, None, None, OIL_SEED_WATER],
        );
        water.high_is_outside = self == Self::Praline;
        [
            water,
            row(
                Share::Group(Group::TotalFat),
                [(33.0, 40.0), (28.0, 36.0), (28.0, 36.0), (20.0, 30.0), (32.0, 45.0)],
                [None, None, None, None, OIL_SEED_FAT],
            ),
            row(
                Share::Group(Group::CocoaButter),
                [(21.0, 26.0), (14.0, 20.0), (10.0, 18.0), (8.0, 15.0), (8.0, 18.0)],
                [MORATO_COCOA_BUTTER, None, None, None, None],
            ),
            row(
                Share::Group(Group::MilkFat),
                [(8.0, 15.0), (8.0, 16.0), (12.0, 22.0), (8.0, 15.0), (0.0, 8.0)],
                [MORATO_MILK_FAT, None, None, None, None],
            ),
            row(Share::Group(Group::LiquidOil), [(0.0, 5.0), (0.0, 8.0), (0.0, 8.0), (0.0, 5.0), (20.0, 35.0)], common),
            row(
                Share::Group(Group::Sugars),
                [(28.0, 36.0), (26.0, 36.0), (18.0, 30.0), (15.0, 28.0), (30.0, 50.0)],
                [MORATO_LOWER, None, None, None, OIL_SEED_SUGARS],
            ),
            row(
                Share::Group(Group::SyrupSolids),
                [(5.0, 12.0), (5.0, 15.0), (0.0, 10.0), (0.0, 5.0), (0.0, 3.0)],
                [SYRUPS, None, None, None, None],
            ),
            row(
                Share::Group(Group::FatFreeCocoaSolids),
                [(8.0, 18.0), (5.0, 13.0), (5.0, 12.0), (4.0, 10.0), (0.0, 8.0)],
                common,
            ),
            row(Share::Ethanol, [(0.0, 4.0), (0.0, 5.0), (0.0, 3.0), (0.0, 3.0), (0.0, 0.0)], common),
        ]
    }
}

impl Share {
    /// How much of the mass it is; `None` if it is not known.
    #[must_use]
    pub fn of(self, parts: &Parts) -> Option<MassFraction> {
        match self {
            Self::Group(group) => parts.group_share(group),
            Self::Ethanol => parts.share(Component::Ethanol),
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Group(group) => group.words(),
            Self::Ethanol => "alcohol",
        }
    }

    /// Its path in the JSON report.
    #[must_use]
    pub fn path(self) -> String {
        match self {
            Self::Group(group) => format!("groups.{}", group.key()),
            Self::Ethanol => format!("composition.{}", Component::Ethanol.key()),
        }
    }

    /// The code of a finding that it is too low or too high: its path in the JSON report.
    #[must_use]
    pub fn code(self, place: Place) -> &'static str {
        macro_rules! codes {
            ($path:literal) => {
                if place == Place::Low { concat!($path, ".low") } else { concat!($path, ".high") }
            };
        }
        match self {
            Self::Ethanol => codes!("composition.ethanol"),
            Self::Group(group) => match group {
                Group::CocoaButter => codes!("groups.cocoa_butter"),
                Group::MilkFat => codes!("groups.milk_fat"),
                Group::OtherFat => codes!("groups.other_fat"),
                Group::TotalFat => codes!("groups.total_fat"),
                Group::Sugars => codes!("groups.sugars"),
                Group::Water => codes!("groups.water"),
                Group::OtherSolids => codes!("groups.other_solids"),
                Group::FatFreeCocoaSolids => codes!("groups.fat_free_cocoa_solids"),
                Group::MilkSolidsNonFat => codes!("groups.milk_solids_non_fat"),
                Group::DryCocoaSolids => codes!("groups.dry_cocoa_solids"),
                Group::LiquidOil => codes!("groups.liquid_oil"),
                Group::SyrupSolids => codes!("groups.syrup_solids"),
            },
        }
    }
}

impl UsualRange {
    /// Whether it says anything of a mass: a white one has no fat-free cocoa, and is not meant to.
    #[must_use]
    pub fn concerns(&self, parts: &Parts) -> bool {
        self.of != Share::Group(Group::FatFreeCocoaSolids) || self.of.of(parts) != Some(MassFraction::ZERO)
    }

    /// The usual share that is nearest to one that lies outside; `None` for one that lies within.
    #[must_use]
    pub fn nearest_within(&self, place: Place) -> Option<f64> {
        /// What is shown differs by this at the least.
        const LAST_DIGIT: f64 = 0.1;
        match place {
            Place::Within => None,
            Place::Low => Some(self.low),
            Place::High if self.high_is_outside => Some(self.high - LAST_DIGIT),
            Place::High => Some(self.high),
        }
    }

    /// The same range, wide enough for a share that lies within as it is shown: 19.99 % is shown as 20.0 %, and what holds
    /// is not to be made to hold. A share outside changes nothing.
    ///
    /// ```
    /// # use nibwright::analysis::usual::Column;
    /// # use nibwright::units::MassFraction;
    /// let oil = Column::Praline.ranges()[4];
    /// assert_eq!((oil.low, oil.holding(MassFraction(0.199_91)).low, oil.holding(MassFraction(0.199)).low), (20.0, 19.99, 20.0));
    /// ```
    #[must_use]
    pub fn holding(mut self, share: MassFraction) -> Self {
        /// An end is moved by hundredths of a percent, one digit behind what is shown.
        const HUNDREDTHS: f64 = 100.0;
        let percent = share.to_percent();
        if self.place(share) == Place::Within {
            self.low = self.low.min((percent * HUNDREDTHS).floor() / HUNDREDTHS);
            if self.nearest_within(Place::High).is_some_and(|high| percent > high) {
                self.high = (percent * HUNDREDTHS).ceil() / HUNDREDTHS;
                self.high_is_outside = false;
            }
        }
        self
    }

    /// Where a share lies, compared as it is shown.
    #[must_use]
    pub fn place(&self, share: MassFraction) -> Place {
        let shown = crate::number::round_half_up(share.to_percent(), 1);
        if shown < self.low {
            Place::Low
        } else if shown > self.high || (self.high_is_outside && shown >= self.high) {
            Place::High
        } else {
            Place::Within
        }
    }
}

/// The usual ranges for a recipe; none for chocolate, caramel, other masses and uses that have no column.
#[must_use]
pub fn usual_ranges(recipe: &Recipe) -> Vec<UsualRange> {
    Column::of(recipe.kind, recipe.intended_use).map(|column| column.ranges().to_vec()).unwrap_or_default()
}
