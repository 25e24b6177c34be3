//! What the water model tells apart and the twenty components do not: by what a solid holds water, how many molecules
//! there are.

use crate::analysis::water::sorption::Sorbent;
use crate::ingredient::{Category, Component, Ingredient, MaltoseKind};
use crate::units::{Grams, Moles};

/// Molar mass that higher saccharides count as where it is not known: those of glucose syrup of DE 40, g/mol.
///
/// A syrup that has its dextrose equivalent is not counted so: its molar mass follows from that.
pub const ASSUMED_MOLAR_MASS: f64 = 780.0;

/// What is told apart for the water model.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sorbing {
    /// Protein, starch and fibre by the isotherm that they have; cocoa and milk protein stand among the components.
    solids: [f64; Sorbent::COUNT],
    /// Moles of the higher saccharides.
    higher_saccharides: f64,
    /// Higher saccharides of which the molar mass is assumed, g.
    assumed: f64,
    /// Fibre that dissolves: grams and moles.
    soluble_fibre: (f64, f64),
    /// Trehalose and isomaltulose among the maltose, g.
    trehalose: f64,
    /// Organic acids, g.
    organic_acids: f64,
}

impl Sorbing {
    /// Puts so much of an ingredient in.
    pub(super) fn add(&mut self, ingredient: &Ingredient, amount: Grams) {
        let per_100g = ingredient.composition.grams_per_100g();
        let grams = |component: Component| amount.0 * per_100g[component.index()] / 100.0;
        let properties = &ingredient.properties;
        let (protein, starch) = (grams(Component::OtherProtein), grams(Component::Starch));
        let mut fibre = grams(Component::Fibre);
        if let (Category::Fibre, Some(molar_mass)) = (ingredient.category, properties.higher_saccharides_molar_mass) {
            self.soluble_fibre.0 += fibre;
            self.soluble_fibre.1 += fibre / molar_mass;
            fibre = 0.0;
        }
        let [of_protein, of_starch, of_fibre] = match ingredient.category {
            Category::Nut | Category::NutPaste | Category::Gianduja => [Sorbent::Nut; 3],
            Category::Fibre | Category::Additive => [Sorbent::MilkProtein, Sorbent::Starch, Sorbent::Thickener],
            _ => [Sorbent::MilkProtein, Sorbent::Starch, Sorbent::Fibre],
        };
        for (sort, grams) in [(of_protein, protein), (of_starch, starch), (of_fibre, fibre)] {
            self.solids[sort as usize] += grams;
        }
        let higher = grams(Component::HigherSaccharides);
        if higher != 0.0 {
            let molar_mass =
                properties.higher_saccharides_molar_mass.or_else(|| molar_mass_from_equivalent(ingredient));
            self.higher_saccharides += higher / molar_mass.unwrap_or(ASSUMED_MOLAR_MASS);
            if molar_mass.is_none() {
                self.assumed += higher;
            }
        }
        if properties.maltose_kind != MaltoseKind::Maltose {
            self.trehalose += grams(Component::Maltose);
        }
        self.organic_acids += amount.0 * properties.organic_acids_g.unwrap_or(0.0) / 100.0;
    }

    /// Multiplies everything by a factor.
    pub(super) fn scale(&mut self, factor: f64) {
        for grams in &mut self.solids {
            *grams *= factor;
        }
        self.soluble_fibre.0 *= factor;
        self.soluble_fibre.1 *= factor;
        for figure in [&mut self.higher_saccharides, &mut self.assumed, &mut self.trehalose, &mut self.organic_acids] {
            *figure *= factor;
        }
    }

    /// Solids by the isotherm that they have, without cocoa and milk protein.
    #[must_use]
    pub fn solids(&self) -> [Grams; Sorbent::COUNT] {
        self.solids.map(Grams)
    }

    /// Moles of the higher saccharides.
    #[must_use]
    pub fn higher_saccharides(&self) -> Moles {
        Moles(self.higher_saccharides)
    }

    /// Higher saccharides of which the molar mass is not known and [`ASSUMED_MOLAR_MASS`] is taken.
    #[must_use]
    pub fn assumed(&self) -> Grams {
        Grams(self.assumed)
    }

    /// Fibre that dissolves: grams and moles.
    #[must_use]
    pub fn soluble_fibre(&self) -> (Grams, Moles) {
        (Grams(self.soluble_fibre.0), Moles(self.soluble_fibre.1))
    }

    /// Trehalose and isomaltulose, which stand in the maltose.
    #[must_use]
    pub fn trehalose(&self) -> Grams {
        Grams(self.trehalose)
    }

    /// Organic acids; where they are not known, none: acids and ash then count as inert.
    #[must_use]
    pub fn organic_acids(&self) -> Grams {
        Grams(self.organic_acids)
    }
}

/// The mean molar mass of the higher saccharides of a starch syrup, from its dextrose equivalent.
///
/// DE/180.16 = g/180.16 + m/342.3 + h/M, g, m, h the glucose, maltose and higher saccharides for each gram of dry
/// matter, DE as a fraction: the definition, reducing ends counted as glucose.
fn molar_mass_from_equivalent(ingredient: &Ingredient) -> Option<f64> {
    /// Maltotriose: nothing of three units or more is lighter.
    const LEAST: f64 = 504.4;
    let equivalent = ingredient.properties.dextrose_equivalent? / 100.0;
    let per_100g = ingredient.composition.grams_per_100g();
    let grams = |component: Component| per_100g[component.index()];
    let dry = 100.0 - grams(Component::Water);
    let (glucose, maltose) = (grams(Component::Glucose) / dry, grams(Component::Maltose) / dry);
    let ends = equivalent / 180.16 - glucose / 180.16 - maltose / 342.3;
    let molar_mass = grams(Component::HigherSaccharides) / dry / ends;
    (molar_mass.is_finite() && molar_mass >= LEAST).then_some(molar_mass)
}
