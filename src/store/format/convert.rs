//! From the newest file format to a recipe and back. Older formats are first turned into the newest.

mod setting;

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use super::outline::{PathStep, TextPlace, find};
use super::problem::{FormatError, Problem, shortened};
use super::v1;
use crate::ingredient::file::{Entry, EntryError, Reason, id_from, is_id, plain_name};
use crate::ingredient::{CompositionError, Ingredient, Library};
use crate::recipe::{self, CocoaButter, LineId, Losses, Quantity, QuantityError, Recipe, TransferLoss, Triglycerides};
use crate::recipe::{Bowl, MixTemperature, Mixing, StirringTime};
use crate::recipe::{CookTemperature, CreamShare, Evaporation, Height, SeedTemperature, SeedingChoice};
use crate::recipe::{Line, TriglyceridesError};
use crate::store::files::stem;
use crate::units::{Celsius, MassFraction, Metres};

/// The recipe of a file; `text` is what the file was parsed from, to find places.
///
/// # Errors
///
/// [`FormatError`] when an ingredient is missing or a figure is no amount.
pub fn to_recipe(file: &v1::File, text: &str, library: &Library) -> Result<Recipe, FormatError> {
    FileReader { text, library }.recipe(file)
}

/// The file of a recipe, with the figures of every ingredient.
///
/// Of two ingredients with one id and different figures the second is renamed, so that no figures are lost.
#[must_use]
pub fn to_file(recipe: &Recipe) -> v1::File {
    let mut shelf = Shelf::new(recipe);
    let lines = recipe
        .lines
        .iter()
        .map(|line| v1::Line {
            ingredient: line.recipe_file.is_none().then(|| shelf.id_of(&line.ingredient)),
            recipe: line.recipe_file.clone(),
            amount: line.amount.value(),
            unit: line.amount.unit().into(),
            note: line.note.clone(),
            locked: line.is_locked,
            seed: line.is_seed,
            celsius: line.temperature.map(|temperature| temperature.celsius().0),
            fat: line.fat_state.into(),
        })
        .collect();
    for ingredient in &recipe.spare_ingredients {
        shelf.id_of(ingredient);
    }
    let storage = setting::from_storage(&recipe.storage, |chocolate| shelf.id_of(chocolate));
    let (evaporated_water, liquid_is, cook_to) = from_evaporation(recipe.losses.evaporation);
    v1::File {
        format: super::NEWEST,
        name: recipe.name.clone(),
        kind: recipe.kind.into(),
        intended_use: recipe.intended_use.map(Into::into),
        cocoa_butter: from_cocoa_butter(recipe.cocoa_butter),
        note: recipe.note.clone(),
        lines,
        evaporated_water,
        liquid_is,
        cook_to,
        transfer_loss_percent: percent_of(recipe.losses.transfer.share()),
        mixing: from_mixing(recipe.mixing),
        ph: recipe.ph.map(recipe::Ph::value),
        seeding: from_seeding(recipe.seeding),
        pieces: recipe.pieces,
        steps: recipe
            .steps
            .iter()
            .map(|step| v1::Step {
                text: step.text.clone(),
                celsius: step.temperature.map(|temperature| temperature.0),
                minutes: step.minutes,
            })
            .collect(),
        setting: recipe.setting.map(setting::from_setting),
        storage,
        ingredients: shelf.entries(),
    }
}

/// A file being turned into a recipe.
struct FileReader<'a> {
    text: &'a str,
    library: &'a Library,
}

impl FileReader<'_> {
    fn recipe(&self, file: &v1::File) -> Result<Recipe, FormatError> {
        use PathStep::Field;
        let own = self.ingredients(&file.ingredients)?;
        let by_id: HashMap<&str, &Arc<Ingredient>> =
            own.iter().map(|ingredient| (ingredient.id.as_str(), ingredient)).collect();
        let mut lines = Vec::with_capacity(file.lines.len());
        for (index, line) in file.lines.iter().enumerate() {
            lines.push(self.line(index, line, &by_id)?);
        }
        let transfer = TransferLoss::from_percent(file.transfer_loss_percent)
            .map_err(|error| self.refuse(&[Field("transfer_loss_percent")], Problem::TransferLoss(error)))?;
        let ph = file
            .ph
            .map(recipe::Ph::new)
            .transpose()
            .map_err(|error| self.refuse(&[Field("ph")], Problem::Ph(error)))?;
        let steps =
            file.steps.iter().enumerate().map(|(index, step)| self.step(index, step)).collect::<Result<_, _>>()?;
        let setting = file.setting.map(|setting| self.setting(&setting)).transpose()?;
        let storage = self.storage(file.storage.as_ref(), &by_id)?;
        let in_shell = storage.shell.iter().map(|shell| Arc::as_ptr(&shell.chocolate));
        let used: HashSet<*const Ingredient> =
            lines.iter().map(|line| Arc::as_ptr(&line.ingredient)).chain(in_shell).collect();
        let spare_ingredients =
            own.iter().filter(|ingredient| !used.contains(&Arc::as_ptr(ingredient))).map(Arc::clone).collect();
        Ok(Recipe {
            name: plain_name(&file.name),
            kind: file.kind.into(),
            intended_use: file.intended_use.map(Into::into),
            cocoa_butter: self.cocoa_butter(file.cocoa_butter)?,
            note: file.note.clone(),
            lines,
            losses: Losses { evaporation: self.evaporation(file)?, transfer },
            mixing: self.mixing(file.mixing)?,
            ph,
            seeding: self.seeding(file)?,
            pieces: file.pieces,
            steps,
            setting,
            storage,
            spare_ingredients,
        })
    }

    /// What evaporates; said once, or not at all.
    fn evaporation(&self, file: &v1::File) -> Result<Evaporation, FormatError> {
        use PathStep::Field;
        let said = [
            ("evaporated_water", file.evaporated_water.is_some()),
            ("liquid_is", file.liquid_is.is_some()),
            ("cook_to", file.cook_to.is_some()),
        ];
        let mut said = said.into_iter().filter_map(|(field, is_said)| is_said.then_some(field));
        if let (Some(one), Some(other)) = (said.next(), said.next()) {
            // The one that stands further down is the one too many.
            let place = |field| find(self.text, &[Field(field)]).offset;
            let (first, second) = if place(one) < place(other) { (one, other) } else { (other, one) };
            return Err(self.refuse(&[Field(second)], Problem::TwiceEvaporation { first, second }));
        }
        if let Some(heating) = file.liquid_is {
            return Ok(Evaporation::Estimated(heating.into()));
        }
        if let Some(v1::Cook { celsius, altitude_m }) = file.cook_to {
            let temperature = CookTemperature::new(Celsius(celsius))
                .map_err(|error| self.refuse(&[Field("cook_to"), Field("celsius")], Problem::CookTemperature(error)))?;
            let height = Height::new(Metres(altitude_m))
                .map_err(|error| self.refuse(&[Field("cook_to"), Field("altitude_m")], Problem::Height(error)))?;
            return Ok(Evaporation::CookedTo { temperature, height });
        }
        let Some(water) = file.evaporated_water else { return Ok(Evaporation::default()) };
        let path = [Field("evaporated_water"), Field("amount")];
        Ok(Evaporation::Weighed(self.quantity(&path, water.amount, water.unit)?))
    }

    /// How it is to be seeded.
    fn seeding(&self, file: &v1::File) -> Result<SeedingChoice, FormatError> {
        let Some(v1::Seeding { way, crystals_percent, amount, celsius }) = file.seeding else {
            return Ok(SeedingChoice::default());
        };
        let path = |field: &'static str| [PathStep::Field("seeding"), PathStep::Field(field)];
        let cream = crystals_percent
            .map(CreamShare::from_percent)
            .transpose()
            .map_err(|error| self.refuse(&path("crystals_percent"), Problem::CreamShare(error)))?;
        let amount = amount
            .map(|weight| {
                let [seeding, field] = path("amount");
                self.quantity(&[seeding, field, PathStep::Field("amount")], weight.amount, weight.unit)
            })
            .transpose()?;
        let temperature = celsius
            .map(|celsius| SeedTemperature::new(Celsius(celsius)))
            .transpose()
            .map_err(|error| self.refuse(&path("celsius"), Problem::SeedTemperature(error)))?;
        Ok(SeedingChoice { way: way.into(), cream: cream.unwrap_or_default(), amount, temperature })
    }

    fn mixing(&self, mixing: Option<v1::Mixing>) -> Result<Mixing, FormatError> {
        use PathStep::Field;
        let Some(v1::Mixing { wanted_celsius, bowl, stirred_minutes }) = mixing else { return Ok(Mixing::default()) };
        let wanted = wanted_celsius
            .map(|celsius| self.mix_temperature(&[Field("mixing"), Field("wanted_celsius")], celsius))
            .transpose()?;
        let in_bowl = |field| [Field("mixing"), Field("bowl"), Field(field)];
        let bowl = match bowl {
            Some(v1::Bowl { material, amount, unit, celsius }) => Some(Bowl {
                material: material.into(),
                mass: self.quantity(&in_bowl("amount"), amount, unit)?,
                temperature: self.mix_temperature(&in_bowl("celsius"), celsius)?,
            }),
            None => None,
        };
        let stirred = StirringTime::new(stirred_minutes)
            .map_err(|error| self.refuse(&[Field("mixing"), Field("stirred_minutes")], Problem::StirringTime(error)))?;
        Ok(Mixing { wanted, bowl, stirred })
    }

    fn mix_temperature(&self, path: &[PathStep], celsius: f64) -> Result<MixTemperature, FormatError> {
        MixTemperature::new(Celsius(celsius)).map_err(|error| self.refuse(path, Problem::MixTemperature(error)))
    }

    fn ingredients(&self, entries: &[Entry]) -> Result<Vec<Arc<Ingredient>>, FormatError> {
        let mut ids = HashSet::new();
        let mut ingredients = Vec::with_capacity(entries.len());
        for (index, entry) in entries.iter().enumerate() {
            let mut path = vec![PathStep::Field("ingredients"), PathStep::Element(index)];
            let ingredient = entry.to_ingredient().map_err(|error| {
                path.extend(steps_to(&error.reason));
                let EntryError { id, reason } = error;
                self.refuse(&path, Problem::Ingredient(EntryError { id: shortened(&id), reason }))
            })?;
            if !ids.insert(entry.id.as_str()) {
                path.push(PathStep::Field("id"));
                return Err(self.refuse(&path, Problem::TwiceIngredient { id: shortened(&entry.id) }));
            }
            ingredients.push(Arc::new(ingredient));
        }
        Ok(ingredients)
    }

    fn line(&self, index: usize, line: &v1::Line, own: &HashMap<&str, &Arc<Ingredient>>) -> Result<Line, FormatError> {
        let path = |field: &'static str| [PathStep::Field("lines"), PathStep::Element(index), PathStep::Field(field)];
        let ingredient = match (&line.ingredient, &line.recipe) {
            (Some(id), None) => self.ingredient(&path("ingredient"), id, own)?,
            (None, Some(recipe_file)) if !recipe_file.trim().is_empty() => {
                let stem = stem(recipe_file);
                Arc::new(Ingredient::unknown(stem, &plain_name(stem)))
            }
            (None, _) => return Err(self.refuse(&path("recipe"), Problem::EmptyLine)),
            (Some(_), Some(_)) => return Err(self.refuse(&path("recipe"), Problem::DoubleLine)),
        };
        Ok(Line {
            id: LineId(u32::try_from(index).unwrap_or(u32::MAX)),
            ingredient,
            recipe_file: line.recipe.clone(),
            amount: self.quantity(&path("amount"), line.amount, line.unit)?,
            note: line.note.clone(),
            is_locked: line.locked,
            is_seed: line.seed,
            temperature: line.celsius.map(|celsius| self.mix_temperature(&path("celsius"), celsius)).transpose()?,
            fat_state: line.fat.into(),
        })
    }

    /// The ingredient with this id: of the file, else built in.
    fn ingredient(
        &self,
        path: &[PathStep],
        id: &str,
        own: &HashMap<&str, &Arc<Ingredient>>,
    ) -> Result<Arc<Ingredient>, FormatError> {
        let found = own.get(id).copied().or_else(|| self.library.by_id(id));
        found.map(Arc::clone).ok_or_else(|| self.refuse(path, self.unknown_ingredient(id)))
    }

    fn unknown_ingredient(&self, id: &str) -> Problem {
        /// Longer than any id; comparing longer ones would take time for nothing.
        const LONGEST: usize = 100;
        /// How many near ones are named.
        const NAMED: usize = 3;
        let nearest = if id.len() > LONGEST { Vec::new() } else { self.library.nearest(id, NAMED) };
        let nearest = nearest.into_iter().map(|ingredient| ingredient.id.clone()).collect();
        Problem::UnknownIngredient { id: shortened(id), nearest }
    }

    fn quantity(&self, path: &[PathStep], amount: f64, unit: v1::Unit) -> Result<Quantity, FormatError> {
        Quantity::new(amount, unit.into()).map_err(|error: QuantityError| self.refuse(path, Problem::Amount(error)))
    }

    fn step(&self, index: usize, step: &v1::Step) -> Result<recipe::Step, FormatError> {
        let path = |field: &'static str| [PathStep::Field("steps"), PathStep::Element(index), PathStep::Field(field)];
        if let Some(celsius) = step.celsius
            && !(celsius.is_finite() && celsius >= Celsius::ABSOLUTE_ZERO.0)
        {
            return Err(self.refuse(&path("celsius"), Problem::Temperature { celsius }));
        }
        if let Some(minutes) = step.minutes
            && !(minutes.is_finite() && minutes >= 0.0)
        {
            return Err(self.refuse(&path("minutes"), Problem::Minutes { minutes }));
        }
        Ok(recipe::Step { text: step.text.clone(), temperature: step.celsius.map(Celsius), minutes: step.minutes })
    }

    fn cocoa_butter(&self, cocoa_butter: v1::CocoaButter) -> Result<CocoaButter, FormatError> {
        Ok(match cocoa_butter {
            v1::CocoaButter::WestAfrican => CocoaButter::WestAfrican,
            v1::CocoaButter::Soft => CocoaButter::Soft,
            v1::CocoaButter::Hard => CocoaButter::Hard,
            v1::CocoaButter::Own {
                pop,
                pos,
                sos,
                soa,
                trisaturated,
                other,
                diglycerides_percent,
                free_fatty_acids_percent,
            } => {
                let analysis = Triglycerides {
                    pop,
                    pos,
                    sos,
                    soa,
                    trisaturated,
                    other,
                    diglycerides_percent,
                    free_fatty_acids_percent,
                };
                CocoaButter::Own(analysis.checked().map_err(|error| {
                    let mut path = vec![PathStep::Field("cocoa_butter")];
                    if let TriglyceridesError::Figure { name, .. } = error {
                        path.push(PathStep::Field(name));
                    }
                    self.refuse(&path, Problem::CocoaButter(error))
                })?)
            }
        })
    }

    fn refuse(&self, path: &[PathStep], problem: Problem) -> FormatError {
        FormatError { place: TextPlace::of_offset(self.text, find(self.text, path).offset), problem }
    }
}

/// Where in the entry of an ingredient a reason points to.
fn steps_to(reason: &Reason) -> Vec<PathStep> {
    let part = |key: &'static str| vec![PathStep::Field("composition"), PathStep::Field(key)];
    match reason {
        Reason::NoId | Reason::BadId { .. } => vec![PathStep::Field("id")],
        Reason::Figure { name, .. } | Reason::NotAboveZero { name, .. } => vec![PathStep::Field(name)],
        Reason::Composition(error) => match error {
            CompositionError::Negative { component, .. }
            | CompositionError::NotFinite { component }
            | CompositionError::KnownAndUnknown { component } => part(component.key()),
            CompositionError::Unassigned { .. } => part("unassigned"),
            CompositionError::Sum { .. } | CompositionError::KnownSum { .. } => vec![PathStep::Field("composition")],
        },
    }
}

/// The ingredients that a file will carry, each under an id of its own.
struct Shelf<'a> {
    shelved: Vec<(String, &'a Arc<Ingredient>)>,
    /// By the id that the ingredient has: the places in `shelved`.
    by_id: HashMap<&'a str, Vec<usize>>,
    taken: HashSet<String>,
}

impl<'a> Shelf<'a> {
    fn new(recipe: &'a Recipe) -> Self {
        let lines = recipe.lines.iter().filter(|line| line.recipe_file.is_none()).map(|line| &line.ingredient);
        let in_shell = recipe.storage.shell.iter().map(|shell| &shell.chocolate);
        let taken =
            lines.chain(&recipe.spare_ingredients).chain(in_shell).map(|ingredient| ingredient.id.clone()).collect();
        Self { shelved: Vec::new(), by_id: HashMap::new(), taken }
    }

    /// The id under which the file carries this ingredient; it is added if it is not there yet.
    fn id_of(&mut self, ingredient: &'a Arc<Ingredient>) -> String {
        let places = self.by_id.entry(&ingredient.id).or_default();
        let same =
            |place: &&usize| Arc::ptr_eq(self.shelved[**place].1, ingredient) || self.shelved[**place].1 == ingredient;
        if let Some(place) = places.iter().find(same) {
            return self.shelved[*place].0.clone();
        }
        // A file with an id that is none would not open again: that of a line for another recipe is the name of a file.
        let base = if is_id(&ingredient.id) { ingredient.id.clone() } else { id_from(&ingredient.id) };
        let mut id = base.clone();
        if !places.is_empty() || base != ingredient.id {
            let mut number = places.len() + 1;
            id = if number == 1 { id } else { format!("{base}-{number}") };
            while self.taken.contains(&id) {
                number += 1;
                id = format!("{base}-{number}");
            }
            self.taken.insert(id.clone());
        }
        places.push(self.shelved.len());
        self.shelved.push((id.clone(), ingredient));
        id
    }

    fn entries(self) -> Vec<Entry> {
        self.shelved
            .into_iter()
            .map(|(id, ingredient)| {
                let mut entry = Entry::from(ingredient.as_ref());
                entry.id = id;
                entry
            })
            .collect()
    }
}

fn from_evaporation(evaporation: Evaporation) -> (Option<v1::Weight>, Option<v1::Heating>, Option<v1::Cook>) {
    match evaporation {
        Evaporation::Weighed(water) if water == Quantity::default() => (None, None, None),
        Evaporation::Weighed(water) => {
            (Some(v1::Weight { amount: water.value(), unit: water.unit().into() }), None, None)
        }
        Evaporation::Estimated(heating) => (None, Some(heating.into()), None),
        Evaporation::CookedTo { temperature, height } => {
            let cook = v1::Cook { celsius: temperature.celsius().0, altitude_m: height.metres().0 };
            (None, None, Some(cook))
        }
    }
}

/// Nothing where all is as it is without being said.
fn from_seeding(choice: SeedingChoice) -> Option<v1::Seeding> {
    let SeedingChoice { way, cream, amount, temperature } = choice;
    (choice != SeedingChoice::default()).then(|| v1::Seeding {
        way: way.into(),
        crystals_percent: (cream != CreamShare::default()).then(|| percent_of(cream.share())),
        amount: amount.map(|amount| v1::Weight { amount: amount.value(), unit: amount.unit().into() }),
        celsius: temperature.map(|temperature| temperature.celsius().0),
    })
}

fn from_mixing(mixing: Mixing) -> Option<v1::Mixing> {
    let Mixing { wanted, bowl, stirred } = mixing;
    (!mixing.is_empty()).then(|| v1::Mixing {
        wanted_celsius: wanted.map(|wanted| wanted.celsius().0),
        bowl: bowl.map(|Bowl { material, mass, temperature }| v1::Bowl {
            material: material.into(),
            amount: mass.value(),
            unit: mass.unit().into(),
            celsius: temperature.celsius().0,
        }),
        stirred_minutes: stirred.minutes(),
    })
}

fn from_cocoa_butter(cocoa_butter: CocoaButter) -> v1::CocoaButter {
    match cocoa_butter {
        CocoaButter::WestAfrican => v1::CocoaButter::WestAfrican,
        CocoaButter::Soft => v1::CocoaButter::Soft,
        CocoaButter::Hard => v1::CocoaButter::Hard,
        CocoaButter::Own(own) => {
            let Triglycerides {
                pop,
                pos,
                sos,
                soa,
                trisaturated,
                other,
                diglycerides_percent,
                free_fatty_acids_percent,
            } = own.triglycerides();
            v1::CocoaButter::Own {
                pop,
                pos,
                sos,
                soa,
                trisaturated,
                other,
                diglycerides_percent,
                free_fatty_acids_percent,
            }
        }
    }
}

/// The percentage that gives back this share when it is read, with as few digits as that takes.
///
/// A share that was typed as a percentage comes back exactly; any other is at most one unit in its last place off.
fn percent_of(share: MassFraction) -> f64 {
    /// Digits that tell any two numbers of binary64 apart.
    const MOST_DIGITS: usize = 17;
    let percent = share.to_percent();
    (0..MOST_DIGITS)
        .filter_map(|digits| format!("{percent:.digits$e}").parse().ok())
        .find(|shorter| MassFraction::from_percent(*shorter) == share)
        .unwrap_or(percent)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_percentage_comes_back_with_the_digits_that_were_typed() {
        for percent in [0.0, 2.3, 0.1, 7.0, 12.345_678_9, 33.3, 99.9, 1e-7] {
            assert_eq!(percent_of(MassFraction::from_percent(percent)), percent);
        }
        // Not typed, so there may be no percentage that gives it back exactly.
        let share = MassFraction(1.0 / 3.0);
        let again = MassFraction::from_percent(percent_of(share));
        assert!((again.0 - share.0).abs() <= f64::EPSILON);
    }

    #[test]
    fn the_keys_of_the_domain_are_the_words_of_the_file() {
        fn in_file<T: serde::Serialize>(word: T) -> String {
            ron::to_string(&word).expect("a word")
        }
        for kind in recipe::Kind::ALL {
            assert_eq!(in_file(v1::Kind::from(kind)), kind.key());
        }
        for intended_use in recipe::Use::ALL {
            assert_eq!(in_file(v1::Use::from(intended_use)), intended_use.key());
        }
        for heating in recipe::Heating::ALL {
            assert_eq!(in_file(v1::Heating::from(heating)), heating.key());
        }
        for way in recipe::SeedingWay::ALL {
            assert_eq!(in_file(v1::SeedingWay::from(way)), way.key());
        }
        for state in recipe::FatState::ALL {
            assert_eq!(in_file(v1::FatState::from(state)), state.key());
        }
        for material in recipe::BowlMaterial::ALL {
            assert_eq!(in_file(v1::BowlMaterial::from(material)), material.key());
        }
        for unit in recipe::MassUnit::ALL {
            assert_eq!(in_file(v1::Unit::from(unit)), unit.symbol());
        }
    }
}
