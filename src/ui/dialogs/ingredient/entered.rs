//! What is typed about an ingredient, and the ingredient that follows from it.
//!
//! Nothing here draws. A figure is a number or a small sum, `?` for what is not known, and nothing for zero.

use std::sync::Arc;

use super::properties;
use crate::ingredient::file::id_from;
use crate::ingredient::{Category, Component, Composition, CompositionError, Ingredient, Library, OtherFatKind};
use crate::number::{DecimalSign, parse_expression, round_half_up, shortest, typed};
use crate::recipe::{LineId, Recipe};
use crate::source::Evidence;
use crate::units::GramsPerMillilitre;

/// What is typed for a figure that is not known.
pub const NOT_KNOWN: &str = "?";

/// The source of figures for which none is given.
pub const OWN_FIGURES: &str = "own figures";

/// Behind the id of a built-in ingredient whose figures were replaced.
const OWN: &str = "-own";

/// What is typed about an ingredient.
#[derive(Clone, Debug)]
pub struct Entered {
    /// The ingredient that it began with.
    before: Arc<Ingredient>,
    /// Of which line; `None` for an ingredient that is new.
    line: Option<LineId>,
    /// What stood in the fields in the beginning.
    first: Fields,
    /// What stands in them.
    pub fields: Fields,
    sign: DecimalSign,
}

/// The fields of the form.
#[derive(Clone, Debug, PartialEq)]
pub struct Fields {
    /// Its name.
    pub name: String,
    /// The group it is listed under.
    pub category: Category,
    /// The parts in g per 100 g, in the order of [`Component::ALL`].
    pub parts: [String; Component::COUNT],
    /// The data sheet says that there is more, and not what.
    pub leaves_rest_open: bool,
    /// How its other fat crystallises.
    pub other_fat_kind: OtherFatKind,
    /// That kind is a guess.
    pub other_fat_kind_is_estimate: bool,
    /// Its fat comes in globules.
    pub fat_in_globules: bool,
    /// Density in g/ml; `None` as long as nobody has typed there.
    pub density: Option<String>,
    /// Where the figures come from.
    pub source: String,
    /// What one should know.
    pub note: String,
}

/// Whether the parts make 100 g.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closing {
    /// A figure cannot be read.
    Unreadable,
    /// They do.
    Closes,
    /// They do with what is declared open, in grams.
    LeftOpen(f64),
    /// So many are not known.
    NotKnown(usize),
    /// So many grams are missing.
    Missing(f64),
    /// So many grams are too much.
    TooMuch(f64),
}

impl Fields {
    fn of(ingredient: &Ingredient, sign: DecimalSign) -> Self {
        let parts = Component::ALL.map(|component| {
            let grams = ingredient.composition.grams_per_100g()[component.index()];
            match ingredient.composition.is_known(component) {
                false => NOT_KNOWN.to_owned(),
                true if grams > 0.0 => typed(grams, sign),
                true => String::new(),
            }
        });
        // Source and note of a figure that is replaced do not go over to the figure that replaces it.
        let own_words = |words: &str| if is_users_own(ingredient) { words.to_owned() } else { String::new() };
        Self {
            name: ingredient.name.clone(),
            category: ingredient.category,
            parts,
            leaves_rest_open: ingredient.composition.declared_unassigned() > 0.0,
            other_fat_kind: ingredient.other_fat_kind,
            other_fat_kind_is_estimate: ingredient.other_fat_kind_is_estimate,
            fat_in_globules: ingredient.fat_in_globules,
            density: None,
            source: own_words(&ingredient.source),
            note: own_words(&ingredient.note),
        }
    }

    fn empty() -> Self {
        Self {
            name: String::new(),
            category: Category::Own,
            parts: std::array::from_fn(|_| String::new()),
            leaves_rest_open: false,
            other_fat_kind: OtherFatKind::default(),
            other_fat_kind_is_estimate: true,
            fat_in_globules: false,
            density: None,
            source: String::new(),
            note: String::new(),
        }
    }

    /// The grams of a part, `None` for what is not known; or why the text is no figure.
    pub fn part(&self, component: Component) -> Result<Option<f64>, String> {
        match self.parts[component.index()].trim() {
            "" => Ok(Some(0.0)),
            NOT_KNOWN => Ok(None),
            text => {
                let grams = parse_expression(text).map_err(|error| error.to_string())?;
                if grams < 0.0 { Err("it cannot be negative".to_owned()) } else { Ok(Some(grams)) }
            }
        }
    }

    /// The first part that is no figure, with the reason.
    fn unreadable_part(&self) -> Option<String> {
        let reason = |component: Component| Some(format!("{}: {}", component.words(), self.part(component).err()?));
        Component::ALL.into_iter().find_map(reason)
    }

    /// What the known parts weigh together, g per 100 g; `None` while one cannot be read.
    pub fn sum(&self) -> Option<f64> {
        let sum =
            Component::ALL.into_iter().try_fold(0.0, |sum, part| Some(sum + self.part(part).ok()?.unwrap_or(0.0)));
        // Binary noise of the sum is no gram that is missing.
        sum.map(|sum| round_half_up(sum, 9))
    }

    /// What the known parts leave of 100 g; `None` where there is nothing to leave open.
    pub fn rest(&self) -> Option<f64> {
        let rest = round_half_up(100.0 - self.sum()?, 9);
        (rest > 0.0 && self.unknown_count() == 0).then_some(rest)
    }

    /// How many parts are not known.
    pub fn unknown_count(&self) -> usize {
        Component::ALL.into_iter().filter(|&component| self.part(component) == Ok(None)).count()
    }

    fn composition(&self) -> Result<Composition, CompositionError> {
        let part = |component| self.part(component).unwrap_or(None);
        let known = Component::ALL.into_iter().filter_map(|component| Some((component, part(component)?)));
        let unknown = Component::ALL.into_iter().filter(|&component| part(component).is_none());
        let rest = self.rest().filter(|_| self.leaves_rest_open).unwrap_or(0.0);
        Composition::new(known, unknown, rest)
    }

    /// Whether the parts make 100 g.
    pub fn closing(&self) -> Closing {
        let Some(sum) = self.sum() else { return Closing::Unreadable };
        match self.composition() {
            Err(_) if sum > 100.0 => Closing::TooMuch(round_half_up(sum - 100.0, 9)),
            Err(_) => Closing::Missing(round_half_up(100.0 - sum, 9)),
            Ok(_) if self.unknown_count() > 0 => Closing::NotKnown(self.unknown_count()),
            Ok(composition) if composition.declared_unassigned() > 0.0 => {
                Closing::LeftOpen(composition.declared_unassigned())
            }
            Ok(_) => Closing::Closes,
        }
    }
}

impl Entered {
    /// The figures of the ingredient of a line.
    pub fn of_line(ingredient: &Arc<Ingredient>, line: LineId, sign: DecimalSign) -> Self {
        let fields = Fields::of(ingredient, sign);
        Self { before: Arc::clone(ingredient), line: Some(line), first: fields.clone(), fields, sign }
    }

    /// An ingredient of which nothing is typed yet.
    pub fn new_ingredient(sign: DecimalSign) -> Self {
        let before = Arc::new(Ingredient::unknown("", ""));
        Self { before, line: None, first: Fields::empty(), fields: Fields::empty(), sign }
    }

    /// The ingredient that it began with; of a new one, nothing is known.
    pub fn before(&self) -> &Arc<Ingredient> {
        &self.before
    }

    /// Of which line it is; `None` for an ingredient that is new.
    pub fn line(&self) -> Option<LineId> {
        self.line
    }

    /// The decimal sign of the user.
    pub fn sign(&self) -> DecimalSign {
        self.sign
    }

    /// Whether anything is other than in the beginning.
    pub fn is_touched(&self) -> bool {
        self.fields != self.first
    }

    /// The composition as typed; an untouched one stays exactly what it was.
    fn composition(&self) -> Result<Composition, CompositionError> {
        let is_as_before =
            self.fields.parts == self.first.parts && self.fields.leaves_rest_open == self.first.leaves_rest_open;
        if self.line.is_some() && is_as_before {
            return Ok(self.before.composition.clone());
        }
        self.fields.composition()
    }

    fn is_composition_changed(&self) -> bool {
        self.fields.sum().is_none() || self.composition().ok().as_ref() != Some(&self.before.composition)
    }

    /// The text of the field of the density.
    ///
    /// The density of another composition is not shown as if it were this one's.
    pub fn density_text(&self) -> String {
        match (&self.fields.density, self.before.properties.density) {
            (Some(text), _) => text.clone(),
            (None, Some(density)) if !self.is_composition_changed() => typed(density.0, self.sign),
            (None, _) => String::new(),
        }
    }

    /// The density as typed: `None` for not known; or why the text is no density.
    pub fn density(&self) -> Result<Option<GramsPerMillilitre>, String> {
        let Some(text) = &self.fields.density else {
            return Ok(self.before.properties.density.filter(|_| !self.is_composition_changed()));
        };
        match text.trim() {
            "" | NOT_KNOWN => Ok(None),
            text => match parse_expression(text) {
                Ok(density) if density > 0.0 => Ok(Some(GramsPerMillilitre(density))),
                Ok(_) => Err("it must be more than zero".to_owned()),
                Err(error) => Err(error.to_string()),
            },
        }
    }

    /// The properties, in words, that no longer hold for what is typed.
    pub fn lost_properties(&self) -> Vec<&'static str> {
        let Ok(after) = self.composition() else { return Vec::new() };
        let mut kept = properties::still_holding(&self.before, &after, self.fields.other_fat_kind);
        kept.density = self.density().ok().flatten();
        properties::lost(&self.before.properties, &kept)
    }

    /// Why the ingredient cannot be used as it is; `None` if it can.
    pub fn why_not(&self) -> Option<String> {
        let fields = &self.fields;
        if fields.name.trim().is_empty() {
            return Some("Give it a name".to_owned());
        }
        if let Some(reason) = fields.unreadable_part() {
            return Some(reason);
        }
        if let Err(error) = self.composition() {
            let grams = |grams: f64| shortest(grams, 2, self.sign);
            return Some(match fields.closing() {
                Closing::Missing(missing) => format!(
                    "{} g missing to 100 g: correct a figure, type ? for one that is not known, or tick that the rest \
                     is left open",
                    grams(missing)
                ),
                Closing::TooMuch(excess) => format!("The parts are {} g more than 100 g; correct them", grams(excess)),
                _ => error.to_string(),
            });
        }
        self.density().err().map(|reason| format!("density: {reason}"))
    }

    /// The ingredient that follows from what is typed.
    ///
    /// # Errors
    ///
    /// The reason of [`Entered::why_not`].
    pub fn ingredient(&self, recipe: &Recipe) -> Result<Ingredient, String> {
        if let Some(reason) = self.why_not() {
            return Err(reason);
        }
        let (fields, before) = (&self.fields, &*self.before);
        let composition = self.composition().map_err(|error| error.to_string())?;
        let density = self.density()?;
        let source = fields.source.trim();
        let has_own_figures = self.line.is_none()
            || composition != before.composition
            || density != before.properties.density
            || fields.other_fat_kind != before.other_fat_kind
            || fields.fat_in_globules != before.fat_in_globules
            // Who names a source vouches for the figures.
            || source != self.first.source.trim();
        let mut properties = properties::still_holding(before, &composition, fields.other_fat_kind);
        properties.density = density;
        let note = fields.note.trim();
        let keeps_note = note.is_empty() && !has_own_figures && !is_users_own(before);
        Ok(Ingredient {
            id: self.id(recipe),
            name: fields.name.trim().to_owned(),
            category: fields.category,
            composition,
            fat_in_globules: fields.fat_in_globules,
            other_fat_kind: fields.other_fat_kind,
            other_fat_kind_is_estimate: fields.other_fat_kind_is_estimate,
            properties,
            source: match source {
                "" if has_own_figures => OWN_FIGURES.to_owned(),
                "" => before.source.clone(),
                source => source.to_owned(),
            },
            source_id: if has_own_figures { String::new() } else { before.source_id.clone() },
            evidence: if has_own_figures { Evidence::Supplier } else { before.evidence },
            note: if keeps_note { before.note.clone() } else { note.to_owned() },
        })
    }

    /// The id that no other ingredient of the recipe and of the library has.
    fn id(&self, recipe: &Recipe) -> String {
        let library = Library::built_in();
        let others = recipe.lines.iter().filter(|line| Some(line.id) != self.line).map(|line| &line.ingredient);
        let others: Vec<&Arc<Ingredient>> = others.chain(&recipe.spare_ingredients).collect();
        let is_free = |id: &str| library.by_id(id).is_none() && others.iter().all(|other| other.id != id);
        if self.line.is_some() && is_free(&self.before.id) {
            // It is an own ingredient already, and only this line has it.
            return self.before.id.clone();
        }
        let stem = if self.line.is_some() { stem(&self.before.id).to_owned() } else { id_from(&self.fields.name) };
        let first = format!("{stem}{OWN}");
        let (mut id, mut number) = (first.clone(), 1);
        while !is_free(&id) {
            number += 1;
            id = format!("{first}-{number}");
        }
        id
    }
}

/// Whether its figures are the user's, so that its source and its note are his words.
fn is_users_own(ingredient: &Ingredient) -> bool {
    ingredient.evidence == Evidence::Supplier && Library::built_in().by_id(&ingredient.id).is_none()
}

/// An id without "-own" and its number.
fn stem(id: &str) -> &str {
    let unnumbered = id.trim_end_matches(|character: char| character.is_ascii_digit());
    let unnumbered = if unnumbered.len() < id.len() { unnumbered.strip_suffix('-') } else { None };
    unnumbered.and_then(|id| id.strip_suffix(OWN)).or_else(|| id.strip_suffix(OWN)).unwrap_or(id)
}

#[cfg(test)]
mod tests;
