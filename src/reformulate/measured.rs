//! What can be asked of a recipe: a result that the readings show, as one figure with its band.
//!
//! Left out is what only says the same again: a seeding window lies a fixed distance below the form V limit, contraction of
//! volume is three times that of length, thickness rises with the solids, the liquid fat of a filling in its shell is what its
//! solid fat leaves, undissolved sucrose begins where its supersaturation passes 1. Where a mix ends is a matter of the
//! temperatures of its lines more than of their amounts.
//!
//! The setting time of a piece is left out because it jumps: where a mass ceases to be an emulsion, or a nut praline to be one,
//! it sets as something else, and a descent that is led there calls impossible what can be had. Between the jumps it is smooth
//! and takes 0.3 to 0.4 ms each time it is asked: 0.1 to 0.9 s for a recipe of ten lines, up to 2 s for a contradiction.

use std::cell::OnceCell;

use crate::analysis::ROOM;
use crate::analysis::emulsion::{EmulsionState, emulsion};
use crate::analysis::energy::{energy, energy_content};
use crate::analysis::fat::{FatPhase, Form};
use crate::analysis::fat_crystals::{fat_grams, limit_uncertainty, solid_fat_uncertainty_points};
use crate::analysis::flow::solids_of;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::sweetness::{sucrose_equivalent, sweetness};
use crate::analysis::texture::contraction_of_bowl;
use crate::analysis::water::state::{Supersaturation, Water, WaterState, water_beyond, water_of};
use crate::ingredient::Component;
use crate::recipe::{CocoaButter, Evaporation, Recipe};
use crate::units::{Celsius, MassFraction};

/// A share of 1 as percent; per 100 g.
const PERCENT: f64 = 100.0;

/// A result that can be asked for. Its figure is in the unit of the JSON report: percent of the mass, °C, a plain ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measured {
    /// The share of a group, percent of the mass.
    Group(Group),
    /// The share of a component, percent of the mass.
    Component(Component),
    /// Fat over water by mass; none in a mass that is no emulsion.
    FatToWater,
    /// Cocoa butter, percent of the fat.
    CocoaButterInFat,
    /// Milk fat, percent of the fat.
    MilkFatInFat,
    /// Fat that is neither of cocoa nor of milk, percent of the fat.
    OtherFatInFat,
    /// Fat over fat and water phase by volume, hot; 0 to 1.
    FatVolume,
    /// Fat and particles over everything by volume, hot; 0 to 1.
    DispersedVolume,
    /// Water activity at 20 °C.
    WaterActivity,
    /// How far sucrose is over its solubility at 20 °C; 1 is saturated.
    SucroseSupersaturation,
    /// How far lactose is over its solubility at 20 °C; 1 is saturated.
    LactoseSupersaturation,
    /// Solid fat at a temperature, percent of the fat.
    SolidFat(Celsius),
    /// Fat crystals at a temperature, percent of the mass.
    Crystals(Celsius),
    /// By how much it shrinks on setting, at 20 °C, percent of its length.
    Contraction,
    /// Solids in the melted mass, percent of its volume; none in an emulsion.
    SolidsVolume,
    /// Where the last form V crystal melts, °C.
    FormVLimit,
    /// Energy for labelling, kJ per 100 g.
    Energy,
    /// How sweet it is; sucrose is 100.
    Sweetness,
    /// What the ingredients of a kilogram of the finished mass cost, in the money of the price list.
    Cost,
    /// The finished mass, g.
    FinishedMass,
}

/// A figure with the band in which it is known, where one is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The likely value.
    pub value: f64,
    /// The ends of its band; `None` where it is exact by its inputs, or where nobody knows how far it is known.
    pub band: Option<(f64, f64)>,
}

impl Figure {
    /// A figure without a band.
    #[must_use]
    pub fn exact(value: f64) -> Self {
        Self { value, band: None }
    }

    /// The lower end of the band, or the value where there is none.
    #[must_use]
    pub fn low(&self) -> f64 {
        self.band.map_or(self.value, |(low, _)| low)
    }

    /// The upper end of the band, or the value where there is none.
    #[must_use]
    pub fn high(&self) -> f64 {
        self.band.map_or(self.value, |(_, high)| high)
    }
}

impl Measured {
    /// Whether it is a quotient of two sums over the lines, so that a bound on it is linear in their amounts.
    ///
    /// What evaporates in a cook is no such sum: there no share is.
    #[must_use]
    pub fn is_quotient(self) -> bool {
        match self {
            Self::Group(_)
            | Self::Component(_)
            | Self::FatToWater
            | Self::CocoaButterInFat
            | Self::MilkFatInFat
            | Self::OtherFatInFat
            | Self::SolidsVolume
            | Self::Energy
            | Self::Sweetness
            | Self::Cost
            | Self::FinishedMass => true,
            Self::FatVolume
            | Self::DispersedVolume
            | Self::WaterActivity
            | Self::SucroseSupersaturation
            | Self::LactoseSupersaturation
            | Self::SolidFat(_)
            | Self::Crystals(_)
            | Self::Contraction
            | Self::FormVLimit => false,
        }
    }

    /// Whether the program knows how far its figure may be off.
    #[must_use]
    pub fn has_band(self) -> bool {
        matches!(
            self,
            Self::WaterActivity
                | Self::SolidFat(_)
                | Self::Crystals(_)
                | Self::FormVLimit
                | Self::Energy
                | Self::Sweetness
        )
    }

    /// Whether a figure of it is only an upper end: of the water activity of a dry mass no more is known.
    #[must_use]
    pub fn is_upper_end(self, figure: Figure) -> bool {
        self == Self::WaterActivity && figure.band.is_none()
    }

    /// Whether it lies between 0 and 1: there a bound of 85 is a slip, not a wish.
    #[must_use]
    pub fn is_fraction(self) -> bool {
        matches!(self, Self::FatVolume | Self::DispersedVolume | Self::WaterActivity)
    }

    /// A difference of its figure that a maker would notice: what misses of different results are measured by (judged).
    #[must_use]
    pub fn grain(self) -> f64 {
        match self {
            Self::Component(component) => grain_of(component),
            Self::Group(_)
            | Self::CocoaButterInFat
            | Self::MilkFatInFat
            | Self::OtherFatInFat
            | Self::SolidFat(_)
            | Self::SolidsVolume
            | Self::Sweetness => 1.0,
            Self::FatToWater | Self::SucroseSupersaturation | Self::LactoseSupersaturation | Self::Contraction => 0.05,
            Self::FatVolume | Self::DispersedVolume | Self::WaterActivity => 0.01,
            Self::Crystals(_) | Self::FormVLimit => 0.5,
            Self::Energy => 20.0,
            Self::Cost => 0.1,
            Self::FinishedMass => 10.0,
        }
    }
}

/// A difference of the share of a component that a maker would notice, points of percent (judged).
///
/// By what of it is usual and how strongly it works: salt, acids and the minerals of milk are tasted in tenths, alcohol and
/// lactose work in halves of a point, everything else is body.
fn grain_of(component: Component) -> f64 {
    match component {
        Component::Salt | Component::AcidsAshOther | Component::MilkMinerals => 0.1,
        Component::Ethanol | Component::Lactose => 0.5,
        Component::Water
        | Component::CocoaButter
        | Component::MilkFat
        | Component::OtherFat
        | Component::Sucrose
        | Component::Glucose
        | Component::Fructose
        | Component::Maltose
        | Component::HigherSaccharides
        | Component::Polyols
        | Component::FatFreeCocoaSolids
        | Component::MilkProtein
        | Component::OtherProtein
        | Component::Starch
        | Component::Fibre => 1.0,
    }
}

/// A mass that is asked for its figures; what several of them need is computed once.
pub struct Mass<'a> {
    parts: &'a Parts,
    cocoa_butter: CocoaButter,
    is_cooked: bool,
    kept: MassFraction,
    money: Option<f64>,
    emulsion: OnceCell<EmulsionState>,
    water: OnceCell<WaterState>,
    beyond: OnceCell<Option<Water>>,
    fat: OnceCell<Option<FatPhase>>,
}

impl<'a> Mass<'a> {
    /// The bowl of a recipe, or what it would be with other amounts.
    #[must_use]
    pub fn new(recipe: &Recipe, bowl: &'a Parts) -> Self {
        Self {
            parts: bowl,
            cocoa_butter: recipe.cocoa_butter,
            is_cooked: matches!(recipe.losses.evaporation, Evaporation::CookedTo { .. }),
            kept: MassFraction(1.0) - recipe.losses.transfer.share(),
            money: None,
            emulsion: OnceCell::new(),
            water: OnceCell::new(),
            beyond: OnceCell::new(),
            fat: OnceCell::new(),
        }
    }

    /// With what its ingredients cost together, if that is known.
    #[must_use]
    pub fn with_money(self, money: Option<f64>) -> Self {
        Self { money, ..self }
    }

    /// A figure of the mass; `None` where it is not known or where the mass has none.
    #[must_use]
    pub fn figure(&self, measured: Measured) -> Option<Figure> {
        if measured.is_quotient() && !measured.has_band() {
            let (part, whole) = self.quotient(measured)?;
            return (whole > 0.0).then(|| Figure::exact(part / whole));
        }
        let value = match measured {
            Measured::WaterActivity => return water_activity(self.water()),
            Measured::SolidFat(at) => return self.solid_fat(at),
            Measured::Crystals(at) => return self.crystals(at),
            Measured::Contraction => self.contraction()?.to_percent(),
            Measured::FormVLimit => return self.form_v_limit(),
            Measured::Energy => {
                let energy = energy(self.parts)?;
                let band = Some((energy.low.0, energy.high.0));
                return Some(Figure { value: energy.kilojoules.0, band });
            }
            Measured::Sweetness => {
                let sweetness = sweetness(self.parts)?;
                return Some(Figure { value: sweetness.value, band: Some((sweetness.low, sweetness.high)) });
            }
            Measured::FatVolume => self.emulsion().emulsion()?.fat_share().0,
            Measured::DispersedVolume => self.emulsion().emulsion()?.dispersed_share().0,
            Measured::SucroseSupersaturation => self.supersaturation()?.sucrose?,
            Measured::LactoseSupersaturation => self.supersaturation()?.lactose?,
            Measured::Group(_)
            | Measured::Component(_)
            | Measured::FatToWater
            | Measured::CocoaButterInFat
            | Measured::MilkFatInFat
            | Measured::OtherFatInFat
            | Measured::SolidsVolume
            | Measured::Cost
            | Measured::FinishedMass => return None,
        };
        value.is_finite().then(|| Figure::exact(value))
    }

    /// A quotient as its two sums; `None` where a sum is not known, and of what is no quotient.
    #[must_use]
    pub fn quotient(&self, measured: Measured) -> Option<(f64, f64)> {
        const GRAMS_PER_KILOGRAM: f64 = 1000.0;
        let total = self.parts.total().0;
        match measured {
            Measured::Group(group) => Some((self.parts.group(group)?.0 * PERCENT, total)),
            Measured::Component(component) => Some((self.parts.grams(component)?.0 * PERCENT, total)),
            Measured::CocoaButterInFat => self.in_fat(Component::CocoaButter),
            Measured::MilkFatInFat => self.in_fat(Component::MilkFat),
            Measured::OtherFatInFat => self.in_fat(Component::OtherFat),
            Measured::SolidsVolume => {
                let (solids, all) = solids_of(self.parts, self.emulsion())?;
                Some((solids.0 * PERCENT, all.0))
            }
            Measured::FatToWater => {
                self.emulsion().emulsion()?;
                Some((self.parts.group(Group::TotalFat)?.0, self.parts.grams(Component::Water)?.0))
            }
            Measured::Energy => Some((energy_content(self.parts)?.kilojoules.0 * PERCENT, total)),
            Measured::Sweetness => Some((sucrose_equivalent(self.parts)?.value.0 * PERCENT, total)),
            Measured::Cost => Some((self.money?, total * self.kept.0 / GRAMS_PER_KILOGRAM)),
            Measured::FinishedMass => Some((total * self.kept.0, 1.0)),
            Measured::FatVolume
            | Measured::DispersedVolume
            | Measured::WaterActivity
            | Measured::SucroseSupersaturation
            | Measured::LactoseSupersaturation
            | Measured::SolidFat(_)
            | Measured::Crystals(_)
            | Measured::Contraction
            | Measured::FormVLimit => None,
        }
    }

    /// A fat as percent of all fat, in two sums.
    fn in_fat(&self, fat: Component) -> Option<(f64, f64)> {
        Some((self.parts.grams(fat)?.0 * PERCENT, self.parts.group(Group::TotalFat)?.0))
    }

    fn emulsion(&self) -> EmulsionState {
        *self.emulsion.get_or_init(|| emulsion(self.parts))
    }

    fn water(&self) -> &WaterState {
        self.water.get_or_init(|| water_of(self.parts, self.emulsion(), self.is_cooked))
    }

    /// The water by the equations, also of an emulsion so dry that the report tells no water activity.
    pub(super) fn water_beyond(&self) -> Option<&Water> {
        let beyond = || water_beyond(self.parts, self.emulsion(), self.is_cooked);
        self.water().water().or_else(|| self.beyond.get_or_init(beyond).as_ref())
    }

    /// The share of water.
    pub(super) fn water_share(&self) -> Option<f64> {
        self.parts.share(Component::Water).map(|share| share.0)
    }

    fn supersaturation(&self) -> Option<Supersaturation> {
        self.water().water().map(|water| water.at_room)
    }

    fn fat(&self) -> Option<&FatPhase> {
        let phase = || fat_grams(self.parts).and_then(|grams| FatPhase::new(&grams, self.cocoa_butter).ok());
        self.fat.get_or_init(phase).as_ref()
    }

    fn solid_fat(&self, at: Celsius) -> Option<Figure> {
        let phase = self.fat()?;
        let value = phase.solid_fat(at).total().to_percent();
        let points = solid_fat_uncertainty_points(phase.cocoa_butter_share(), at);
        Some(Figure { value, band: points.map(|points| (value - points, value + points)) })
    }

    fn crystals(&self, at: Celsius) -> Option<Figure> {
        let fat = self.parts.group_share(Group::TotalFat)?.0;
        let Figure { value, band } = self.solid_fat(at)?;
        Some(Figure { value: fat * value, band: band.map(|(low, high)| (fat * low, fat * high)) })
    }

    /// Of the length.
    fn contraction(&self) -> Option<MassFraction> {
        let solid = self.fat()?.solid_fat(ROOM).total();
        let shrinks = contraction_of_bowl(self.parts, self.emulsion(), solid)?;
        Some(MassFraction(shrinks.length))
    }

    fn form_v_limit(&self) -> Option<Figure> {
        let phase = self.fat()?;
        let value = phase.melting_limit(Form::V)?.0;
        let kelvin = limit_uncertainty(phase.cocoa_butter_share()).0;
        Some(Figure { value, band: Some((value - kelvin, value + kelvin)) })
    }
}

/// The water activity; of a dry mass, of which only an upper end is told, that end.
fn water_activity(state: &WaterState) -> Option<Figure> {
    let high = state.high()?.0;
    Some(match (state.activity(), state.low()) {
        (Some(value), Some(low)) => Figure { value: value.0, band: Some((low.0, high)) },
        _ => Figure::exact(high),
    })
}
