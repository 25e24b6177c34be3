//! The parts of a mass in grams, added up from ingredients.

mod sorbing;
mod sweet;

pub use sorbing::{ASSUMED_MOLAR_MASS, Sorbing};
pub use sweet::Sweet;

use crate::ingredient::{Component, Ingredient, OtherFatKind, PolyolKind};
use crate::units::{Grams, MassFraction};

/// The parts of a mass in grams.
///
/// A part is unknown as soon as one ingredient that weighs anything leaves it open.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Parts {
    total: Grams,
    grams: [f64; Component::COUNT],
    unknown: u32,
    other_fat_by_kind: [f64; OtherFatKind::ALL.len()],
    polyols_by_kind: [f64; UNKNOWN_POLYOL + 1],
    /// Acids, ash and the rest of ingredients that do not say how much of it is acid.
    acids_left_open: f64,
    /// Whether an ingredient tells neither its acids nor what they could be at most.
    has_unknown_acids: bool,
    sorbing: Sorbing,
    sweet: Sweet,
}

/// Where the polyols are added up of which the kind is not known: behind those of every kind.
const UNKNOWN_POLYOL: usize = PolyolKind::ALL.len();

/// A sum of components that the trade speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Group {
    /// All fat of cocoa.
    CocoaButter,
    /// All fat of milk.
    MilkFat,
    /// All other fat.
    OtherFat,
    /// All fat.
    TotalFat,
    /// The mono- and disaccharides.
    Sugars,
    /// Water.
    Water,
    /// What is neither water, ethanol, fat, sugar nor fat-free cocoa.
    OtherSolids,
    /// Cocoa without its fat and water.
    FatFreeCocoaSolids,
    /// Milk protein, lactose and milk minerals.
    MilkSolidsNonFat,
    /// Cocoa butter and fat-free cocoa solids.
    DryCocoaSolids,
    /// The part of the other fat that never sets.
    LiquidOil,
    /// Glucose, fructose, maltose, higher saccharides, polyols: what syrups, dextrose and fruit bring.
    SyrupSolids,
}

impl Group {
    /// All groups in the order of the report.
    pub const ALL: [Self; 12] = [
        Self::CocoaButter,
        Self::MilkFat,
        Self::OtherFat,
        Self::TotalFat,
        Self::Sugars,
        Self::Water,
        Self::OtherSolids,
        Self::FatFreeCocoaSolids,
        Self::MilkSolidsNonFat,
        Self::DryCocoaSolids,
        Self::LiquidOil,
        Self::SyrupSolids,
    ];

    /// Its name in the JSON report.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::CocoaButter => "cocoa_butter",
            Self::MilkFat => "milk_fat",
            Self::OtherFat => "other_fat",
            Self::TotalFat => "total_fat",
            Self::Sugars => "sugars",
            Self::Water => "water",
            Self::OtherSolids => "other_solids",
            Self::FatFreeCocoaSolids => "fat_free_cocoa_solids",
            Self::MilkSolidsNonFat => "milk_solids_non_fat",
            Self::DryCocoaSolids => "dry_cocoa_solids",
            Self::LiquidOil => "liquid_oil",
            Self::SyrupSolids => "syrup_solids",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::CocoaButter => "cocoa butter",
            Self::MilkFat => "milk fat",
            Self::OtherFat => "other fat",
            Self::TotalFat => "total fat",
            Self::Sugars => "sugars",
            Self::Water => "water",
            Self::OtherSolids => "other solids",
            Self::FatFreeCocoaSolids => "fat-free cocoa solids",
            Self::MilkSolidsNonFat => "milk solids non-fat",
            Self::DryCocoaSolids => "dry cocoa solids",
            Self::LiquidOil => "liquid oil",
            Self::SyrupSolids => "syrup solids",
        }
    }

    /// The components that are added up, and whether the result is what they leave over of the whole.
    fn members(self) -> (&'static [Component], Counting) {
        use Component::{
            CocoaButter, Ethanol, FatFreeCocoaSolids, Fructose, Glucose, HigherSaccharides, Lactose, Maltose, MilkFat,
            MilkMinerals, MilkProtein, OtherFat, Polyols, Sucrose, Water,
        };
        match self {
            Self::CocoaButter => (&[CocoaButter], Counting::Sum),
            Self::MilkFat => (&[MilkFat], Counting::Sum),
            Self::OtherFat => (&[OtherFat], Counting::Sum),
            Self::TotalFat => (&Component::FATS, Counting::Sum),
            Self::Sugars => (&Component::SUGARS, Counting::Sum),
            Self::Water => (&[Water], Counting::Sum),
            Self::OtherSolids => (
                &[
                    Water,
                    Ethanol,
                    CocoaButter,
                    MilkFat,
                    OtherFat,
                    Sucrose,
                    Glucose,
                    Fructose,
                    Lactose,
                    Maltose,
                    FatFreeCocoaSolids,
                ],
                Counting::Rest,
            ),
            Self::FatFreeCocoaSolids => (&[FatFreeCocoaSolids], Counting::Sum),
            Self::MilkSolidsNonFat => (&[MilkProtein, Lactose, MilkMinerals], Counting::Sum),
            Self::DryCocoaSolids => (&[CocoaButter, FatFreeCocoaSolids], Counting::Sum),
            Self::LiquidOil => (&[OtherFat], Counting::LiquidOil),
            Self::SyrupSolids => (&[Glucose, Fructose, Maltose, HigherSaccharides, Polyols], Counting::Sum),
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Counting {
    Sum,
    Rest,
    LiquidOil,
}

impl Parts {
    /// Puts so much of an ingredient into the mass; a negative amount takes it out again.
    pub fn add(&mut self, ingredient: &Ingredient, amount: Grams) {
        if amount.0 == 0.0 {
            return;
        }
        self.total += amount;
        let composition = &ingredient.composition;
        for (component, per_100g) in Component::ALL.into_iter().zip(composition.grams_per_100g()) {
            self.grams[component.index()] += amount.0 * per_100g / 100.0;
            if !composition.is_known(component) {
                self.unknown |= 1 << component.index();
            }
        }
        let per_100g = |component: Component| composition.grams_per_100g()[component.index()];
        self.other_fat_by_kind[ingredient.other_fat_kind as usize] += amount.0 * per_100g(Component::OtherFat) / 100.0;
        let kind = ingredient.properties.polyol_kind.map_or(UNKNOWN_POLYOL, |kind| kind as usize);
        self.polyols_by_kind[kind] += amount.0 * per_100g(Component::Polyols) / 100.0;
        if ingredient.properties.organic_acids_g.is_none() {
            self.acids_left_open += amount.0 * per_100g(Component::AcidsAshOther) / 100.0;
            self.has_unknown_acids |= !composition.is_known(Component::AcidsAshOther);
        }
        self.sorbing.add(ingredient, amount);
        self.sweet.add(ingredient, amount);
    }

    /// Lets water go, at most what there is; gives back how much went.
    ///
    /// If the water is not known, all that was asked for goes, at most the mass that is not known to be something else.
    pub fn evaporate(&mut self, asked: Grams) -> Grams {
        let gone = asked.min(self.most_water()).max(Grams::ZERO);
        let water = &mut self.grams[Component::Water.index()];
        *water = (*water - gone.0).max(0.0);
        let left = self.total - gone;
        // Dried to nothing, the difference of two sums is rounding and no mass: then only the parts count.
        let is_rounding = left.0 <= super::NOISE * self.total.0;
        self.total = if is_rounding { Grams(self.grams.iter().sum()) } else { left };
        gone
    }

    /// From now on nobody knows how much there is of a component.
    pub(super) fn forget(&mut self, component: Component) {
        self.unknown |= 1 << component.index();
    }

    /// The water, or what may be water where it is not known: the mass that is not known to be something else.
    #[must_use]
    pub fn most_water(&self) -> Grams {
        let water = self.grams[Component::Water.index()];
        let known = self.grams.iter().sum::<f64>() - water;
        self.grams(Component::Water).unwrap_or(Grams(self.total.0 - known))
    }

    /// The same mass with its water, its fat and all the rest each multiplied by a factor.
    #[must_use]
    pub fn with_factors(&self, water: f64, fat: f64, rest: f64) -> Self {
        let mut scaled = self.clone();
        let mut total = 0.0;
        for component in Component::ALL {
            let factor = match component {
                Component::Water => water,
                Component::CocoaButter | Component::MilkFat | Component::OtherFat => fat,
                _ => rest,
            };
            scaled.grams[component.index()] *= factor;
            total += scaled.grams[component.index()];
        }
        scaled.total = Grams(total + self.unassigned().map_or(0.0, |grams| grams.0) * rest);
        for grams in &mut scaled.other_fat_by_kind {
            *grams *= fat;
        }
        for grams in &mut scaled.polyols_by_kind {
            *grams *= rest;
        }
        scaled.acids_left_open *= rest;
        scaled.sorbing.scale(rest);
        scaled.sweet.scale(rest);
        scaled
    }

    /// The whole mass.
    #[must_use]
    pub fn total(&self) -> Grams {
        self.total
    }

    /// How much there is of a component; `None` if it is not known.
    #[must_use]
    pub fn grams(&self, component: Component) -> Option<Grams> {
        self.is_known(component).then(|| Grams(self.grams[component.index()]))
    }

    /// The share of a component; `None` if it is not known or there is no mass.
    #[must_use]
    pub fn share(&self, component: Component) -> Option<MassFraction> {
        self.over_total(self.grams(component)?)
    }

    /// How much there is of a group; `None` if a member of it is not known.
    #[must_use]
    pub fn group(&self, group: Group) -> Option<Grams> {
        let (members, counting) = group.members();
        if members.iter().any(|&member| !self.is_known(member)) {
            return None;
        }
        let sum: f64 = members.iter().map(|member| self.grams[member.index()]).sum();
        Some(Grams(match counting {
            Counting::Sum => sum,
            Counting::Rest => self.total.0 - sum,
            Counting::LiquidOil => self.other_fat_by_kind[OtherFatKind::LiquidOil as usize],
        }))
    }

    /// The share of a group; `None` if a member of it is not known or there is no mass.
    #[must_use]
    pub fn group_share(&self, group: Group) -> Option<MassFraction> {
        self.over_total(self.group(group)?)
    }

    /// What the data sheets leave open: the whole less the twenty components; `None` if one of them is not known.
    #[must_use]
    pub fn unassigned(&self) -> Option<Grams> {
        (self.unknown == 0).then(|| Grams(self.total.0 - self.grams.iter().sum::<f64>()))
    }

    /// The other fat of one kind; `None` if the other fat is not known.
    #[must_use]
    pub fn other_fat_of_kind(&self, kind: OtherFatKind) -> Option<Grams> {
        self.is_known(Component::OtherFat).then(|| Grams(self.other_fat_by_kind[kind as usize]))
    }

    /// The polyols of one kind, or those of unknown kind.
    #[must_use]
    pub fn polyols_of_kind(&self, kind: Option<PolyolKind>) -> Grams {
        Grams(self.polyols_by_kind[kind.map_or(UNKNOWN_POLYOL, |kind| kind as usize)])
    }

    /// How much acid there may be beside that which is known: ingredients that do not state their acids could have as much
    /// as they have acids, ash and the rest. `None` where one of them leaves that open too.
    #[must_use]
    pub fn acids_left_open(&self) -> Option<Grams> {
        (!self.has_unknown_acids).then_some(Grams(self.acids_left_open))
    }

    /// What the model of sweetness tells apart beyond the components.
    #[must_use]
    pub fn sweet(&self) -> &Sweet {
        &self.sweet
    }

    /// What the water model tells apart beyond the components.
    #[must_use]
    pub fn sorbing(&self) -> &Sorbing {
        &self.sorbing
    }

    /// Whether the grams of a component are known.
    #[must_use]
    pub fn is_known(&self, component: Component) -> bool {
        self.unknown & (1 << component.index()) == 0
    }

    fn over_total(&self, grams: Grams) -> Option<MassFraction> {
        (self.total.0 > 0.0).then(|| grams / self.total)
    }
}
