//! What seed is made of: the line of the sheet that is the seed, else the file's own cocoa butter, else the built-in one; of
//! chopped chocolate the chocolate of the sheet.

use super::chocolate_line;
use super::seed::{SOME, SeedIngredient};
use crate::analysis::fat::FatPhase;
use crate::analysis::fat_crystals::fat_grams;
use crate::analysis::is_below;
use crate::analysis::parts::Parts;
use crate::ingredient::{Component, Ingredient, Library};
use crate::recipe::{CocoaButter, Line, Recipe, SeedingWay};
use crate::units::{Grams, MassFraction};

/// The id of cocoa butter among the built-in ingredients.
const COCOA_BUTTER: &str = "cocoa-butter";

/// An ingredient of the file with so much cocoa butter is a cocoa butter, whatever it is called (judged).
const NEARLY_ALL: MassFraction = MassFraction(0.95);

/// Whether what holds so much cocoa butter is a cocoa butter.
pub(super) fn is_nearly_all(cocoa_butter: MassFraction) -> bool {
    !is_below(cocoa_butter.0, NEARLY_ALL.0)
}

/// What a seed is made of, each ingredient with its share; none where that is not known.
pub(super) struct SeedMaterial<'a> {
    of: Vec<(&'a Ingredient, f64)>,
}

impl<'a> SeedMaterial<'a> {
    /// The seed of a way; `None` for the way that needs none.
    pub(super) fn of(recipe: &'a Recipe, way: SeedingWay) -> Option<Self> {
        let in_sheet: Vec<&Line> = recipe.lines.iter().filter(|line| line.is_seed).collect();
        match way {
            SeedingWay::KeepTempered => None,
            _ if !in_sheet.is_empty() && recipe.seeding.way == way => Some(Self::of_lines(&in_sheet)),
            SeedingWay::ChoppedChocolate => {
                let of = chocolate_line(recipe).map(|line| (line.ingredient.as_ref(), 1.0)).into_iter().collect();
                Some(Self { of })
            }
            SeedingWay::Cream | SeedingWay::Grated => Some(Self::cocoa_butter_of(recipe)),
        }
    }

    /// Tempered cocoa butter: that of the file where it brings one, else the built-in one.
    pub(super) fn cocoa_butter_of(recipe: &'a Recipe) -> Self {
        let own = recipe.lines.iter().map(|line| &line.ingredient).chain(&recipe.spare_ingredients);
        let own: Vec<&Ingredient> = own.map(AsRef::as_ref).collect();
        let is_cocoa_butter = |ingredient: &&&Ingredient| {
            let share = ingredient.composition.share(Component::CocoaButter);
            share.is_some_and(is_nearly_all)
        };
        let by_id = own.iter().find(|ingredient| ingredient.id == COCOA_BUTTER).filter(is_cocoa_butter);
        let found = by_id.or_else(|| own.iter().find(is_cocoa_butter)).copied();
        let found = found.or_else(|| Library::built_in().by_id(COCOA_BUTTER).map(AsRef::as_ref));
        Self { of: found.map(|ingredient| (ingredient, 1.0)).into_iter().collect() }
    }

    /// All lines that are seed, in proportion.
    fn of_lines(lines: &[&'a Line]) -> Self {
        let all: Grams = lines.iter().map(|line| line.amount.grams()).sum();
        let equal = 1.0 / lines.iter().map(|_| 1.0).sum::<f64>();
        let share = |line: &Line| if all.0 > 0.0 { line.amount.grams() / all } else { MassFraction(equal) };
        Self { of: lines.iter().map(|line| (line.ingredient.as_ref(), share(line).0)).collect() }
    }

    /// Whether it is known what it is.
    pub(super) fn is_known(&self) -> bool {
        !self.of.is_empty()
    }

    /// The ingredient of which there is most, with the names of all.
    pub(super) fn name(&self) -> Option<SeedIngredient> {
        let (most, _) = self.of.iter().max_by(|one, other| one.1.total_cmp(&other.1))?;
        let mut names: Vec<&str> = Vec::new();
        for (ingredient, _) in &self.of {
            if !names.contains(&ingredient.name.as_str()) {
                names.push(&ingredient.name);
            }
        }
        Some(SeedIngredient { id: most.id.clone(), name: names.join(" and ") })
    }

    /// So much of it.
    pub(super) fn parts(&self, grams: Grams) -> Parts {
        let mut parts = Parts::default();
        self.add_to(&mut parts, grams);
        parts
    }

    /// Adds so much of it.
    pub(super) fn add_to(&self, parts: &mut Parts, grams: Grams) {
        for (ingredient, share) in &self.of {
            parts.add(ingredient, grams * *share);
        }
    }

    /// Its cocoa butter; `None` where that is not known.
    pub(super) fn cocoa_butter(&self) -> Option<MassFraction> {
        if self.is_known() { self.parts(SOME).share(Component::CocoaButter) } else { None }
    }

    /// Whether it is known to hold none.
    pub(super) fn has_no_cocoa_butter(&self) -> bool {
        self.cocoa_butter() == Some(MassFraction::ZERO)
    }

    /// Its fat; `None` where it is not known, or there is none.
    pub(super) fn fat(&self, cocoa_butter: CocoaButter) -> Option<FatPhase> {
        FatPhase::new(&fat_grams(&self.parts(SOME))?, cocoa_butter).ok()
    }

    /// Whether all of these lines, and at least one, are of it.
    pub(super) fn is_all_of<'b>(&self, lines: impl Iterator<Item = &'b Line>) -> bool {
        let mut lines = lines.peekable();
        let [(only, _)] = self.of.as_slice() else { return false };
        lines.peek().is_some() && lines.all(|line| line.ingredient.as_ref() == *only)
    }
}
