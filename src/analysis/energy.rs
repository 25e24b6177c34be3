//! The energy of a mass for labelling, from what it is made of.
//!
//! Kilojoules and kilocalories are two sums with factors of their own; one is never converted into the other. It is a
//! figure by the law's factors and no heat of combustion, and it does not replace a maker's analysis. What an ingredient
//! says of its own energy is not used: the sum follows the composition wherever it is changed.

use super::parts::Parts;
use crate::ingredient::{Component, PolyolKind};
use crate::units::{Grams, Kilocalories, Kilojoules};

/// What one gram brings: kJ and kcal.
#[derive(Clone, Copy)]
struct PerGram {
    kilojoules: f64,
    kilocalories: f64,
}

const fn per_gram(kilojoules: f64, kilocalories: f64) -> PerGram {
    PerGram { kilojoules, kilocalories }
}

// Source: `eu-1169-2011`, Annex XIV.
/// All fat, lecithin among it.
const FAT: PerGram = per_gram(37.0, 9.0);
/// Digestible carbohydrate other than sugar alcohols.
const CARBOHYDRATE: PerGram = per_gram(17.0, 4.0);
const PROTEIN: PerGram = per_gram(17.0, 4.0);
const ETHANOL: PerGram = per_gram(29.0, 7.0);
const ORGANIC_ACID: PerGram = per_gram(13.0, 3.0);
const POLYOL: PerGram = per_gram(10.0, 2.4);
const FIBRE: PerGram = per_gram(8.0, 2.0);
const NOTHING: PerGram = per_gram(0.0, 0.0);

/// What a gram of dry fat-free cocoa holds of what has a factor.
///
/// Source: rounded mean of `ciqual-2020` 18100 and 31074, `usda-sr28` 19078 and two rows of `bls-4.0`. Tables that count
/// everything but fibre as carbohydrate come to a tenth more.
mod fat_free_cocoa {
    pub(super) const PROTEIN: f64 = 0.300;
    pub(super) const CARBOHYDRATE: f64 = 0.145;
    pub(super) const FIBRE: f64 = 0.365;
    pub(super) const ORGANIC_ACIDS: f64 = 0.030;
}

const FAT_FREE_COCOA: PerGram = {
    use fat_free_cocoa::{CARBOHYDRATE as SUGARS, FIBRE as FIBRES, ORGANIC_ACIDS, PROTEIN as PROTEINS};
    per_gram(
        PROTEIN.kilojoules * PROTEINS
            + CARBOHYDRATE.kilojoules * SUGARS
            + FIBRE.kilojoules * FIBRES
            + ORGANIC_ACID.kilojoules * ORGANIC_ACIDS,
        PROTEIN.kilocalories * PROTEINS
            + CARBOHYDRATE.kilocalories * SUGARS
            + FIBRE.kilocalories * FIBRES
            + ORGANIC_ACID.kilocalories * ORGANIC_ACIDS,
    )
};

/// What a gram of a component brings; polyols without regard to their kind, acids apart from the ash that they stand in.
const fn of(component: Component) -> PerGram {
    match component {
        Component::CocoaButter | Component::MilkFat | Component::OtherFat => FAT,
        Component::Sucrose
        | Component::Glucose
        | Component::Fructose
        | Component::Lactose
        | Component::Maltose
        | Component::HigherSaccharides
        | Component::Starch => CARBOHYDRATE,
        Component::MilkProtein | Component::OtherProtein => PROTEIN,
        Component::Polyols => POLYOL,
        Component::Fibre => FIBRE,
        Component::Ethanol => ETHANOL,
        Component::FatFreeCocoaSolids => FAT_FREE_COCOA,
        Component::Water | Component::MilkMinerals | Component::Salt | Component::AcidsAshOther => NOTHING,
    }
}

/// The energy of 100 g of a mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Energy {
    /// In kJ.
    pub kilojoules: Kilojoules,
    /// In kcal.
    pub kilocalories: Kilocalories,
    /// The least that it can be, were polyols of unknown kind erythritol.
    pub low: Kilojoules,
    /// The most that it can be, by what the ingredients leave open.
    pub high: Kilojoules,
}

/// The energy of all of a mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnergyContent {
    /// In kJ; twice the mass gives twice as much, and two masses their sum.
    pub kilojoules: Kilojoules,
    /// In kcal, as linear.
    pub kilocalories: Kilocalories,
    /// The least that it can be.
    pub low: Kilojoules,
    /// The most that it can be.
    pub high: Kilojoules,
}

/// The energy of 100 g of a mass.
///
/// E = 100 · [`energy_content`] / m
///
/// m: the mass, g. Source, range and what is left out: as of [`energy_content`]. `None` with it, and without a mass.
#[must_use]
pub fn energy(parts: &Parts) -> Option<Energy> {
    /// What labels refer to.
    const PORTION: Grams = Grams(100.0);
    let total = parts.total();
    if total.0 <= 0.0 {
        return None;
    }
    let EnergyContent { kilojoules, kilocalories, low, high } = energy_content(parts)?;
    let share = (PORTION / total).0;
    Some(Energy {
        kilojoules: kilojoules * share,
        kilocalories: kilocalories * share,
        low: low * share,
        high: high * share,
    })
}

/// The energy of all of a mass, for labelling.
///
/// kJ = 37·fat + 17·(carbohydrate + protein) + 10·(polyols − erythritol) + 8·fibre + 29·ethanol + 13·acids + 10.875·cocoa
///
/// kcal = 9·fat + 4·(carbohydrate + protein) + 2.4·(polyols − erythritol) + 2·fibre + 7·ethanol + 3·acids + 2.6·cocoa
///
/// All in g; carbohydrate: sugars, higher saccharides and starch; cocoa: dry fat-free cocoa, by its own protein,
/// carbohydrate, fibre and acids (30, 14.5, 36.5 and 3 %). Milk protein counts as it stands, by nitrogen × 6.38; the law's
/// 6.25 would make it 2 % less.
///
/// Source: `eu-1169-2011`, Annex XIV. Range: every food without salatrims, which no ingredient has.
/// `None` where a component with a factor is not known. Left open, and therefore only in the ends:
/// an ingredient that does not state its organic acids counts without them, and `high` takes all of its acids, ash and
/// rest as acid (`None` where that is not known either); what data sheets leave open counts as nothing, and `high` takes
/// it as fat; polyols of unknown kind count like polyols, and `low` takes them as erythritol.
///
/// By hand: 82 g of milk fat, 0.85 g of lactose, 0.75 g of protein and 0.1 g of acids, as in butter, give
/// 37 · 82 + 17 · 1.6 + 13 · 0.1 = 3062.5 kJ and 9 · 82 + 4 · 1.6 + 3 · 0.1 = 744.7 kcal.
///
/// ```
/// # use nibwright::{analysis::{energy::energy_content, parts::Parts}, ingredient::Library, units::Grams};
/// # let library = Library::built_in();
/// let mut parts = Parts::default();
/// parts.add(library.by_id("butter-82").unwrap(), Grams(100.0));
/// let energy = energy_content(&parts).unwrap();
/// assert!((energy.kilojoules.0 - 3062.5).abs() < 1.0 && (energy.kilocalories.0 - 744.7).abs() < 0.5);
/// ```
#[must_use]
pub fn energy_content(parts: &Parts) -> Option<EnergyContent> {
    let (mut kilojoules, mut kilocalories) = (0.0, 0.0);
    let mut add = |grams: f64, factor: PerGram| {
        kilojoules += grams * factor.kilojoules;
        kilocalories += grams * factor.kilocalories;
    };
    for component in Component::ALL {
        let factor = of(component);
        if factor.kilojoules > 0.0 {
            add(parts.grams(component)?.0, factor);
        }
    }
    add(-parts.polyols_of_kind(Some(PolyolKind::Erythritol)).0, POLYOL);
    add(parts.sorbing().organic_acids().0, ORGANIC_ACID);
    let acids_left_open = parts.acids_left_open()?.0;
    let left_open = parts.unassigned().map_or(0.0, |grams| grams.0.max(0.0));
    let of_unknown_kind = parts.polyols_of_kind(None).0;
    Some(EnergyContent {
        kilojoules: Kilojoules(kilojoules),
        kilocalories: Kilocalories(kilocalories),
        low: Kilojoules(kilojoules - of_unknown_kind * POLYOL.kilojoules),
        high: Kilojoules(kilojoules + acids_left_open * ORGANIC_ACID.kilojoules + left_open * FAT.kilojoules),
    })
}

#[cfg(test)]
mod tests;
