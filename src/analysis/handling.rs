//! Where the trade works a mass: a habit to look at beside the windows of this mass, never a limit.

use super::Analysis;
use super::plan::Chocolate;
use crate::recipe::{Kind, Recipe};
use crate::units::Celsius;

/// Dark chocolate that is tempered is worked here (tables for cooks, no publication to name).
const DARK: (Celsius, Celsius) = (Celsius(31.0), Celsius(32.0));

/// Milk and white chocolate that is tempered is worked here (tables for cooks, no publication to name).
const MILK_OR_WHITE: (Celsius, Celsius) = (Celsius(29.0), Celsius(30.0));

/// Praline is seeded here (common practice, no published source).
pub const PRALINE: (Celsius, Celsius) = (Celsius(28.0), Celsius(29.0));

/// A ganache comes out of the emulsifying at this (from memory).
pub const GANACHE: (Celsius, Celsius) = (Celsius(32.0), Celsius(36.0));

/// What the trade does there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Habit {
    /// Works tempered dark chocolate.
    DarkChocolate,
    /// Works tempered milk or white chocolate.
    MilkOrWhiteChocolate,
    /// Seeds praline.
    Praline,
    /// Ends the emulsifying of a ganache.
    Ganache,
}

/// Where the trade works a mass like this one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Handling {
    /// From where to where.
    pub range: (Celsius, Celsius),
    /// What is done there.
    pub habit: Habit,
}

/// Where the trade works a mass like this one; `None` where nothing is told, and where there is no cocoa butter to speak of.
#[must_use]
pub fn usual_handling(recipe: &Recipe, analysis: &Analysis) -> Option<Handling> {
    let plan = analysis.plan.as_ref().ok()?;
    let (range, habit) = match (recipe.kind, plan.chocolate) {
        (Kind::Chocolate, Chocolate::Dark) => (DARK, Habit::DarkChocolate),
        (Kind::Chocolate, Chocolate::MilkOrWhite) => (MILK_OR_WHITE, Habit::MilkOrWhiteChocolate),
        (Kind::Praline, _) => (PRALINE, Habit::Praline),
        (Kind::Ganache | Kind::MousseBase, _) => (GANACHE, Habit::Ganache),
        (Kind::Caramel | Kind::Other, _) => return None,
    };
    Some(Handling { range, habit })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::{ROOM, analyse};
    use crate::ingredient::Library;
    use crate::recipe::Quantity;

    fn of(kind: Kind, id: &str) -> Option<Handling> {
        let mut recipe = Recipe { kind, ..Recipe::default() };
        let ingredient = Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id}"));
        recipe.push(ingredient.clone(), Quantity::from_grams(100.0).expect("an amount"));
        usual_handling(&recipe, &analyse(&recipe, ROOM))
    }

    /// Tables for cooks: dark 31 to 32 °C, white 29 to 30 °C; dark chocolate seeded with cocoa butter at 30 to 33 °C (common
    /// practice, no published source) holds the first.
    #[test]
    fn what_is_told_depends_on_the_milk() {
        let range = |kind, id| of(kind, id).map(|handling| (handling.range.0.0, handling.range.1.0));
        assert_eq!(range(Kind::Chocolate, "couverture-dark-64"), Some((31.0, 32.0)));
        assert_eq!(range(Kind::Chocolate, "couverture-milk-36"), Some((29.0, 30.0)));
        assert_eq!(range(Kind::Praline, "couverture-milk-36"), Some((28.0, 29.0)));
        assert_eq!(range(Kind::Other, "couverture-dark-64"), None);
        assert_eq!(range(Kind::Chocolate, "sucrose"), None);
    }

    /// Under the form V limit of pure cocoa butter: at 31 to 32 °C seed lives in dark chocolate.
    #[test]
    fn the_habit_of_dark_chocolate_lies_in_its_window() {
        let mut recipe = Recipe { kind: Kind::Chocolate, ..Recipe::default() };
        let dark = Library::built_in().by_id("couverture-dark-64").expect("it is built in");
        recipe.push(dark.clone(), Quantity::from_grams(100.0).expect("an amount"));
        let analysis = analyse(&recipe, ROOM);
        let window = analysis.seeding.as_ref().expect("it can be seeded").window;
        let handling = usual_handling(&recipe, &analysis).expect("it is told");
        assert!(window.min < handling.range.0 && handling.range.1 < window.max);
    }
}
