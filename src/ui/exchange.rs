//! What is asked of an exchange of an ingredient, and the change of the document that comes of its answer.

use std::sync::Arc;

use crate::analysis::make_up::make_up;
use crate::document::Edit;
use crate::ingredient::Ingredient;
use crate::production::price_list::PriceList;
use crate::recipe::Recipe;
use crate::reformulate::substitute::{Hold, Others, Substituted, Substitution, USUALLY_HELD, mass_with_cost};
use crate::reformulate::{Change, Figure, Measured};

/// Where an ingredient is exchanged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Where {
    /// In the recipe that is open.
    #[default]
    Here,
    /// In all recipes of the shelf's folder.
    Folder,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The id of what goes.
    pub from: String,
    /// What comes in its place, once it is chosen.
    pub to: Option<Arc<Ingredient>>,
    /// What may come besides.
    pub besides: Option<Arc<Ingredient>>,
    /// Results that may be held.
    pub held: Vec<Held>,
    /// Whether other lines may move.
    pub others: Others,
    /// What counts as little change.
    pub change: Change,
    /// What ingredients cost, for holding the cost.
    pub prices: PriceList,
}

/// A result that may be held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Which.
    pub of: Measured,
    /// What the open recipe has of it; none that is known, or none that can be held.
    pub figure: Option<Figure>,
    /// Whether it is held.
    pub is_on: bool,
}

impl Asked {
    /// What is usual for a recipe: the usual results are held, other lines may move.
    #[must_use]
    pub fn of(recipe: &Recipe, from: &str, prices: &PriceList) -> Self {
        let mut asked = Self {
            from: from.to_owned(),
            to: None,
            besides: None,
            held: USUALLY_HELD.map(|of| Held { of, figure: None, is_on: true }).to_vec(),
            others: Others::default(),
            change: Change::default(),
            prices: prices.clone(),
        };
        asked.look_at(recipe);
        asked
    }

    /// Takes the figures of the results from a recipe.
    pub fn look_at(&mut self, recipe: &Recipe) {
        let made_up = make_up(recipe);
        let mass = mass_with_cost(recipe, &made_up, &self.prices);
        for held in &mut self.held {
            held.figure = mass.figure(held.of);
        }
    }

    /// Holds another result too.
    pub fn hold(&mut self, of: Measured, figure: Option<Figure>) {
        match self.held.iter_mut().find(|held| held.of == of) {
            Some(held) => held.is_on = true,
            None => self.held.push(Held { of, figure, is_on: true }),
        }
    }

    /// The results that are ticked.
    #[must_use]
    pub fn ticked(&self) -> Vec<Measured> {
        self.held.iter().filter(|held| held.is_on).map(|held| held.of).collect()
    }

    /// The exchange that is asked for, once it is known what comes.
    ///
    /// A result that a recipe does not have is not held in it: a dry mass has no water activity.
    #[must_use]
    pub fn substitution(&self) -> Option<Substitution> {
        let to = Arc::clone(self.to.as_ref()?);
        let ticked = self.ticked();
        let prices = if ticked.contains(&Measured::Cost) { self.prices.clone() } else { PriceList::default() };
        Some(Substitution {
            besides: self.besides.clone(),
            hold: Hold::TheseWhereThere(ticked),
            others: self.others,
            change: self.change,
            prices,
            ..Substitution::new(&self.from, to)
        })
    }
}

/// The change that makes a recipe the one with the exchange; `None` where there is no answer, or where the recipe is not the
/// one that was asked about.
#[must_use]
pub fn edit_of(recipe: &Recipe, substituted: &Substituted) -> Option<Edit> {
    let after = &substituted.recipe()?.lines;
    // A file that was read again may number its lines otherwise; everything else has to be the same.
    let mut asked_about = substituted.before.clone();
    for (line, now) in asked_about.lines.iter_mut().zip(&recipe.lines) {
        line.id = now.id;
    }
    if asked_about != *recipe {
        return None;
    }
    let differs = recipe
        .lines
        .iter()
        .zip(after)
        .filter(|(now, then)| now.ingredient != then.ingredient || now.amount != then.amount);
    let lines = differs.map(|(now, then)| (now.id, Arc::clone(&then.ingredient), then.amount)).collect();
    let added = after.iter().skip(recipe.lines.len()).map(|line| (Arc::clone(&line.ingredient), line.amount)).collect();
    Some(Edit::Exchange { lines, added })
}
