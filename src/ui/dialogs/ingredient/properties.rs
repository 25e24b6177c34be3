//! Which properties of an ingredient still hold after its composition was changed.
//!
//! A property rests on some of the parts: when one of them is another, the figure belongs to another ingredient and is
//! not known for this one. What rests on none of the changed parts stays.

use crate::ingredient::{Component, Composition, Ingredient, MaltoseKind, OtherFatKind, Properties};
use crate::units::MassFraction;

/// Parts that bring no energy; every other does (Regulation (EU) 1169/2011, Annex XIV).
const WITHOUT_ENERGY: [Component; 3] = [Component::Water, Component::Salt, Component::MilkMinerals];

/// Parts that bring sodium.
const SODIUM: [Component; 4] =
    [Component::Salt, Component::MilkMinerals, Component::FatFreeCocoaSolids, Component::AcidsAshOther];

/// What a starch syrup is a mixture of.
const STARCH_SYRUP: [Component; 3] = [Component::Glucose, Component::Maltose, Component::HigherSaccharides];

/// Everything that the dextrose equivalent of the dry matter counts.
const DEXTROSE_EQUIVALENT: [Component; 6] = [
    Component::Sucrose,
    Component::Glucose,
    Component::Fructose,
    Component::Lactose,
    Component::Maltose,
    Component::HigherSaccharides,
];

/// Acids and what holds against them; fat does not count, and a little more or less water hardly moves a pH.
const PH: [Component; 5] = [
    Component::AcidsAshOther,
    Component::MilkProtein,
    Component::MilkMinerals,
    Component::OtherProtein,
    Component::FatFreeCocoaSolids,
];

/// Parts that may come from an animal or from something that has to be declared.
const ORIGIN: [Component; 9] = [
    Component::MilkFat,
    Component::OtherFat,
    Component::Lactose,
    Component::MilkProtein,
    Component::MilkMinerals,
    Component::OtherProtein,
    Component::Starch,
    Component::Fibre,
    Component::AcidsAshOther,
];

/// The properties that hold for a composition and a kind of fat that took the place of those of an ingredient.
///
/// The density is kept only if the whole composition is as it was.
pub fn still_holding(before: &Ingredient, after: &Composition, other_fat_kind: OtherFatKind) -> Properties {
    let is_changed = |part: &Component| before.composition.share(*part) != after.share(*part);
    let is_any_changed = |parts: &[Component]| parts.iter().any(is_changed);
    let is_rest_changed = before.composition.declared_unassigned().to_bits() != after.declared_unassigned().to_bits();
    let brings_energy = |part: &&Component| !WITHOUT_ENERGY.contains(part);
    let is_energy_changed = is_rest_changed || Component::ALL.iter().filter(brings_energy).any(is_changed);
    let is_there = |composition: &Composition, part: Component| composition.share(part) != Some(MassFraction::ZERO);
    let is_other_kind = other_fat_kind != before.other_fat_kind && is_there(after, Component::OtherFat);
    let is_fat_changed = is_other_kind || is_any_changed(&Component::FATS);
    let has_other_origin =
        is_other_kind || ORIGIN.iter().any(|&part| is_there(&before.composition, part) != is_there(after, part));

    let now = &before.properties;
    Properties {
        saturates_g: unless(is_fat_changed, now.saturates_g.as_ref()),
        energy_kj: unless(is_energy_changed, now.energy_kj.as_ref()),
        organic_acids_g: unless(is_any_changed(&[Component::AcidsAshOther]), now.organic_acids_g.as_ref()),
        sodium_mg: unless(is_any_changed(&SODIUM), now.sodium_mg.as_ref()),
        // Which polyol or sugar it is does not depend on how much of it there is.
        polyol_kind: unless(!is_there(after, Component::Polyols), now.polyol_kind.as_ref()),
        maltose_kind: if is_there(after, Component::Maltose) { now.maltose_kind } else { MaltoseKind::default() },
        higher_saccharides_molar_mass: unless(
            is_any_changed(&STARCH_SYRUP),
            now.higher_saccharides_molar_mass.as_ref(),
        ),
        density: unless(*after != before.composition, now.density.as_ref()),
        allergens: unless(has_other_origin, now.allergens.as_ref()),
        vegan: unless(has_other_origin, now.vegan.as_ref()),
        ph: unless(is_any_changed(&PH), now.ph.as_ref()),
        dextrose_equivalent: unless(is_any_changed(&DEXTROSE_EQUIVALENT), now.dextrose_equivalent.as_ref()),
    }
}

/// The property, or unknown where it was changed.
fn unless<T: Clone>(is_changed: bool, property: Option<&T>) -> Option<T> {
    property.filter(|_| !is_changed).cloned()
}

/// The properties, in words, that were known and are so no longer.
pub fn lost(before: &Properties, after: &Properties) -> Vec<&'static str> {
    let all = [
        ("energy", before.energy_kj.is_some() && after.energy_kj.is_none()),
        ("saturates", before.saturates_g.is_some() && after.saturates_g.is_none()),
        ("organic acids", before.organic_acids_g.is_some() && after.organic_acids_g.is_none()),
        ("sodium", before.sodium_mg.is_some() && after.sodium_mg.is_none()),
        ("kind of polyol", before.polyol_kind.is_some() && after.polyol_kind.is_none()),
        (
            "molar mass of higher saccharides",
            before.higher_saccharides_molar_mass.is_some() && after.higher_saccharides_molar_mass.is_none(),
        ),
        ("density", before.density.is_some() && after.density.is_none()),
        ("allergens", before.allergens.is_some() && after.allergens.is_none()),
        ("whether it is vegan", before.vegan.is_some() && after.vegan.is_none()),
        ("pH", before.ph.is_some() && after.ph.is_none()),
        ("dextrose equivalent", before.dextrose_equivalent.is_some() && after.dextrose_equivalent.is_none()),
    ];
    all.into_iter().filter_map(|(words, is_lost)| is_lost.then_some(words)).collect()
}
