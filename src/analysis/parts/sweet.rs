//! What the model of sweetness tells apart and the twenty components do not: how sweet the starch syrup is that higher
//! saccharides come with.

use crate::analysis::sweetness::{GLUCOSE, HIGHER_SACCHARIDES, MALTOSE, Relative, starch_syrup};
use crate::ingredient::{Component, Ingredient};
use crate::units::Grams;

/// Sweetness of the higher saccharides, in grams of sucrose that are as sweet.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sweet {
    /// Of the higher saccharides: those of a starch syrup take what its glucose and maltose leave of its sweetness.
    higher_saccharides: Relative,
}

impl Sweet {
    /// Puts so much of an ingredient in.
    pub(super) fn add(&mut self, ingredient: &Ingredient, amount: Grams) {
        let per_100g = ingredient.composition.grams_per_100g();
        let grams = |component: Component| amount.0 * per_100g[component.index()] / 100.0;
        let higher = grams(Component::HigherSaccharides);
        if higher == 0.0 {
            return;
        }
        let brought = match ingredient.properties.dextrose_equivalent {
            Some(equivalent) => {
                let (glucose, maltose) = (grams(Component::Glucose), grams(Component::Maltose));
                let together = starch_syrup(equivalent).times(glucose + maltose + higher);
                together.less(GLUCOSE.times(glucose)).less(MALTOSE.times(maltose))
            }
            None => HIGHER_SACCHARIDES.times(higher),
        };
        self.higher_saccharides = self.higher_saccharides.plus(brought);
    }

    /// Multiplies everything by a factor.
    pub(super) fn scale(&mut self, factor: f64) {
        self.higher_saccharides = self.higher_saccharides.times(factor);
    }

    /// What the higher saccharides add to that of the components: value and ends, in grams of sucrose times 100.
    pub(in crate::analysis) fn higher_saccharides(&self) -> Relative {
        self.higher_saccharides
    }
}
