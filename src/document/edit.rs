//! Changes of a document. Everything that changes a recipe, by typing, dragging, pasting or a tool, is one of these.

use std::sync::Arc;

use thiserror::Error;

use super::{Document, MergeKey};
use crate::ingredient::Ingredient;
use crate::recipe::{
    CocoaButter, CreamShare, Evaporation, FatState, Kind, Line, LineId, MassUnit, MixTemperature, Mixing, Ph, Quantity,
    QuantityError, SeedTemperature, SeedingChoice, SeedingWay, Setting, Storage, TransferLoss, Use,
};

/// A change of a document.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Another name.
    SetName(String),
    /// Another kind of mass.
    SetKind(Kind),
    /// Another use.
    SetUse(Option<Use>),
    /// Another cocoa butter.
    SetCocoaButter(CocoaButter),
    /// Another note on the recipe.
    SetNote(String),
    /// Another evaporation: another amount of water, or another way to find it.
    SetEvaporation(Evaporation),
    /// Another transfer loss.
    SetTransferLoss(TransferLoss),
    /// A measured pH, or none.
    SetPh(Option<Ph>),
    /// Another wanted temperature of the mix, another bowl, another time of stirring.
    SetMixing(Mixing),
    /// Another way to set, or none.
    SetSetting(Option<Setting>),
    /// Another place for the finished pieces.
    SetStorage(Storage),
    /// Another way of seeding; an own amount and temperature, and the seed in the sheet, belong to the way and go with it.
    SetSeedingWay(SeedingWay),
    /// Another share of crystals in the cream of seed.
    SetCreamShare(CreamShare),
    /// An own amount of seed, or the suggested one.
    SetSeedAmount(Option<Quantity>),
    /// An own temperature of the seed, or the usual one.
    SetSeedTemperature(Option<SeedTemperature>),
    /// The seed as a line at the end of the sheet, instead of any seed that stands there.
    PutSeedInSheet {
        /// What the seed is.
        ingredient: Arc<Ingredient>,
        /// How much of it.
        amount: Quantity,
    },
    /// No seed in the sheet.
    TakeSeedOutOfSheet,
    /// A new line at a place.
    AddLine {
        /// Before which line; past the end counts as the end.
        at: usize,
        /// What is weighed.
        ingredient: Arc<Ingredient>,
        /// How much of it.
        amount: Quantity,
    },
    /// Several new lines at a place, as from the clipboard.
    AddLines {
        /// Before which line; past the end counts as the end.
        at: usize,
        /// Ingredients with their amounts.
        lines: Vec<(Arc<Ingredient>, Quantity)>,
    },
    /// A line less.
    RemoveLine(LineId),
    /// A line at another place.
    MoveLine {
        /// Which.
        line: LineId,
        /// Its place afterwards; past the end counts as the end.
        to: usize,
    },
    /// Another amount.
    SetAmount {
        /// Of which line.
        line: LineId,
        /// How much.
        amount: Quantity,
    },
    /// Another unit; the mass stays.
    SetUnit {
        /// Of which line.
        line: LineId,
        /// Which unit.
        unit: MassUnit,
    },
    /// Another note on a line.
    SetLineNote {
        /// On which line.
        line: LineId,
        /// What it says.
        note: String,
    },
    /// Another temperature at which a line is mixed, or none.
    SetTemperature {
        /// Of which line.
        line: LineId,
        /// How warm it is.
        temperature: Option<MixTemperature>,
    },
    /// Another state of the fat of a line.
    SetFatState {
        /// Of which line.
        line: LineId,
        /// Which state.
        state: FatState,
    },
    /// Locked or not.
    SetLock {
        /// Which line.
        line: LineId,
        /// Whether its amount is to stay.
        is_locked: bool,
    },
    /// Another ingredient in the same amount.
    ReplaceIngredient {
        /// In which line.
        line: LineId,
        /// By which.
        ingredient: Arc<Ingredient>,
    },
    /// All amounts multiplied, so that the lines weigh together what is asked for.
    ScaleTo {
        /// What the lines weigh together afterwards.
        weighed: Quantity,
    },
    /// The same, for so many pieces.
    ScaleToPieces {
        /// What the lines weigh together afterwards.
        weighed: Quantity,
        /// How many pieces that makes; `None` where it is not known.
        pieces: Option<u32>,
    },
    /// Other amounts all at once, and new lines at the end: what a reformulation proposes.
    Reformulate {
        /// The lines with other amounts; one with nothing is taken out. A locked one may only be named with the amount that
        /// it has.
        amounts: Vec<(LineId, Quantity)>,
        /// Ingredients that come in, with their amounts.
        added: Vec<(Arc<Ingredient>, Quantity)>,
    },
    /// Other ingredients and amounts all at once, and new lines at the end: what an exchange of an ingredient proposes.
    Exchange {
        /// The lines that change, with what stands in them afterwards; one with nothing is taken out. A locked one may only be
        /// named with what it has.
        lines: Vec<(LineId, Arc<Ingredient>, Quantity)>,
        /// Ingredients that come in besides, with their amounts.
        added: Vec<(Arc<Ingredient>, Quantity)>,
    },
}

/// Why a change is refused. The document then is as it was.
#[derive(Clone, Copy, Debug, Error, PartialEq)]
pub enum EditError {
    /// There is no such line.
    #[error("the line is no longer there")]
    NoSuchLine,
    /// A locked line keeps its amount.
    #[error("the line is locked; unlock it to change its amount")]
    Locked,
    /// The amount is none.
    #[error("{0}")]
    Quantity(#[from] QuantityError),
    /// Everything would be gone.
    #[error("a recipe cannot be scaled to nothing; give a mass above 0")]
    ScaleToNothing,
    /// There is nothing to scale.
    #[error("a recipe that weighs nothing cannot be scaled; give the lines amounts first")]
    NothingToScale,
}

impl Edit {
    /// Carries the change out.
    ///
    /// # Errors
    ///
    /// [`EditError`] when it would break an invariant; the document is unchanged then.
    pub fn apply(self, document: &mut Document) -> Result<(), EditError> {
        let recipe = &mut document.recipe;
        match self {
            Self::SetName(name) => recipe.name = name,
            Self::SetKind(kind) => recipe.kind = kind,
            Self::SetUse(intended_use) => recipe.intended_use = intended_use,
            Self::SetCocoaButter(cocoa_butter) => recipe.cocoa_butter = cocoa_butter,
            Self::SetNote(note) => recipe.note = note,
            Self::SetEvaporation(evaporation) => recipe.losses.evaporation = evaporation,
            Self::SetTransferLoss(loss) => recipe.losses.transfer = loss,
            Self::SetPh(ph) => recipe.ph = ph,
            Self::SetMixing(mixing) => recipe.mixing = mixing,
            Self::SetSetting(setting) => recipe.setting = setting,
            Self::SetStorage(storage) => recipe.storage = storage,
            Self::SetSeedingWay(way) => {
                if recipe.seeding.way != way {
                    recipe.lines.retain(|line| !line.is_seed);
                    recipe.seeding = SeedingChoice { way, cream: recipe.seeding.cream, ..SeedingChoice::default() };
                }
            }
            Self::SetCreamShare(share) => recipe.seeding.cream = share,
            Self::SetSeedAmount(amount) => recipe.seeding.amount = amount,
            Self::SetSeedTemperature(temperature) => recipe.seeding.temperature = temperature,
            Self::PutSeedInSheet { ingredient, amount } => {
                recipe.lines.retain(|line| !line.is_seed);
                let id = recipe.unused_line_id();
                recipe.lines.push(Line { is_seed: true, ..Line::new(id, ingredient, amount) });
            }
            Self::TakeSeedOutOfSheet => recipe.lines.retain(|line| !line.is_seed),
            Self::AddLine { at, ingredient, amount } => add_lines(document, at, [(ingredient, amount)]),
            Self::AddLines { at, lines } => add_lines(document, at, lines),
            Self::RemoveLine(line) => {
                let place = place_of(document, line)?;
                document.recipe.lines.remove(place);
            }
            Self::MoveLine { line, to } => {
                let place = place_of(document, line)?;
                let moved = document.recipe.lines.remove(place);
                let to = to.min(document.recipe.lines.len());
                document.recipe.lines.insert(to, moved);
            }
            Self::SetAmount { line, amount } => {
                let line = line_mut(document, line)?;
                if line.is_locked && line.amount != amount {
                    return Err(EditError::Locked);
                }
                line.amount = amount;
            }
            Self::SetUnit { line, unit } => {
                let line = line_mut(document, line)?;
                line.amount = line.amount.in_unit(unit);
            }
            Self::SetLineNote { line, note } => line_mut(document, line)?.note = note,
            Self::SetTemperature { line, temperature } => line_mut(document, line)?.temperature = temperature,
            Self::SetFatState { line, state } => line_mut(document, line)?.fat_state = state,
            Self::SetLock { line, is_locked } => line_mut(document, line)?.is_locked = is_locked,
            Self::ReplaceIngredient { line, ingredient } => {
                let line = line_mut(document, line)?;
                line.ingredient = ingredient;
                line.recipe_file = None;
            }
            Self::ScaleTo { weighed } => scale(document, weighed)?,
            Self::ScaleToPieces { weighed, pieces } => {
                scale(document, weighed)?;
                document.recipe.pieces = pieces;
            }
            Self::Reformulate { amounts, added } => reformulate(document, amounts, added)?,
            Self::Exchange { lines, added } => exchange(document, lines, added)?,
        }
        Ok(())
    }

    /// What it is called in the menu: "Undo …".
    #[must_use]
    pub fn label(&self) -> &'static str {
        match self {
            Self::SetName(_) => "rename recipe",
            Self::SetKind(_) => "change kind",
            Self::SetUse(_) => "change use",
            Self::SetCocoaButter(_) => "change cocoa butter",
            Self::SetNote(_) => "change recipe note",
            Self::SetEvaporation(_) => "change evaporation",
            Self::SetTransferLoss(_) => "change transfer loss",
            Self::SetPh(_) => "change pH",
            Self::SetMixing(_) => "change mixing",
            Self::SetSetting(_) => "change setting",
            Self::SetStorage(_) => "change storage",
            Self::SetSeedingWay(_) => "change way of seeding",
            Self::SetCreamShare(_) => "change crystals of the seed cream",
            Self::SetSeedAmount(_) => "change amount of seed",
            Self::SetSeedTemperature(_) => "change temperature of the seed",
            Self::PutSeedInSheet { .. } => "put seed in the sheet",
            Self::TakeSeedOutOfSheet => "take seed out of the sheet",
            Self::AddLine { .. } => "add ingredient",
            Self::AddLines { .. } => "paste lines",
            Self::RemoveLine(_) => "remove line",
            Self::MoveLine { .. } => "move line",
            Self::SetAmount { .. } => "change amount",
            Self::SetUnit { .. } => "change unit",
            Self::SetLineNote { .. } => "change note",
            Self::SetTemperature { .. } => "change temperature",
            Self::SetFatState { .. } => "change state of fat",
            Self::SetLock { is_locked: true, .. } => "lock line",
            Self::SetLock { is_locked: false, .. } => "unlock line",
            Self::ReplaceIngredient { .. } => "replace ingredient",
            Self::ScaleTo { .. } | Self::ScaleToPieces { .. } => "scale recipe",
            Self::Reformulate { .. } => "reformulate",
            Self::Exchange { .. } => "exchange ingredient",
        }
    }

    /// Changes with the same key belong to one step while the gesture lasts: typing in one cell, one text.
    #[must_use]
    pub fn merge_key(&self) -> Option<MergeKey> {
        match self {
            Self::SetName(_) => Some(MergeKey::Name),
            Self::SetNote(_) => Some(MergeKey::Note),
            Self::SetEvaporation(_) => Some(MergeKey::Evaporation),
            Self::SetTransferLoss(_) => Some(MergeKey::TransferLoss),
            Self::SetPh(_) => Some(MergeKey::Ph),
            Self::SetSetting(_) => Some(MergeKey::Setting),
            Self::SetStorage(_) => Some(MergeKey::Storage),
            Self::SetCreamShare(_) => Some(MergeKey::CreamShare),
            Self::SetSeedAmount(_) => Some(MergeKey::SeedAmount),
            Self::SetSeedTemperature(_) => Some(MergeKey::SeedTemperature),
            Self::SetAmount { line, .. } => Some(MergeKey::Amount(*line)),
            Self::SetLineNote { line, .. } => Some(MergeKey::LineNote(*line)),
            Self::SetTemperature { line, .. } => Some(MergeKey::Temperature(*line)),
            Self::SetMixing(_) => Some(MergeKey::Mixing),
            Self::ScaleTo { .. } => Some(MergeKey::Scale),
            _ => None,
        }
    }
}

fn add_lines(document: &mut Document, at: usize, lines: impl IntoIterator<Item = (Arc<Ingredient>, Quantity)>) {
    let recipe = &mut document.recipe;
    let at = at.min(recipe.lines.len());
    let LineId(unused) = recipe.unused_line_id();
    let new = (unused..).zip(lines).map(|(id, (ingredient, amount))| Line::new(LineId(id), ingredient, amount));
    recipe.lines.splice(at..at, new);
}

/// Brings the recipe to another weight.
fn scale(document: &mut Document, weighed: Quantity) -> Result<(), EditError> {
    let now = document.recipe.weighed();
    if now.0 <= 0.0 {
        return Err(EditError::NothingToScale);
    }
    if weighed.grams().0 <= 0.0 {
        return Err(EditError::ScaleToNothing);
    }
    document.recipe = document.recipe.scaled_by((weighed.grams() / now).0)?;
    Ok(())
}

/// Sets several amounts and adds lines; nothing is changed where one of them is refused.
fn reformulate(
    document: &mut Document,
    amounts: Vec<(LineId, Quantity)>,
    added: Vec<(Arc<Ingredient>, Quantity)>,
) -> Result<(), EditError> {
    for &(line, amount) in &amounts {
        let line = document.recipe.line(line).ok_or(EditError::NoSuchLine)?;
        if line.is_locked && line.amount != amount {
            return Err(EditError::Locked);
        }
    }
    let left_out: Vec<LineId> =
        amounts.iter().filter(|(_, amount)| is_nothing(*amount)).map(|(line, _)| *line).collect();
    for (line, amount) in amounts {
        line_mut(document, line)?.amount = amount;
    }
    leave_out(document, &left_out);
    add_lines(document, usize::MAX, added);
    Ok(())
}

fn is_nothing(amount: Quantity) -> bool {
    amount.grams().0 <= 0.0
}

/// Takes out lines of which nothing is left: a sheet does not name what does not go in.
fn leave_out(document: &mut Document, lines: &[LineId]) {
    document.recipe.lines.retain(|line| line.is_locked || !lines.contains(&line.id));
}

/// Puts ingredients and amounts into several lines and adds others; nothing is changed where one of them is refused.
fn exchange(
    document: &mut Document,
    lines: Vec<(LineId, Arc<Ingredient>, Quantity)>,
    added: Vec<(Arc<Ingredient>, Quantity)>,
) -> Result<(), EditError> {
    for (line, ingredient, amount) in &lines {
        let line = document.recipe.line(*line).ok_or(EditError::NoSuchLine)?;
        if line.is_locked && (line.amount != *amount || line.ingredient != *ingredient) {
            return Err(EditError::Locked);
        }
    }
    let left_out: Vec<LineId> =
        lines.iter().filter(|(_, _, amount)| is_nothing(*amount)).map(|(line, ..)| *line).collect();
    for (line, ingredient, amount) in lines {
        let line = line_mut(document, line)?;
        if line.ingredient != ingredient {
            line.ingredient = ingredient;
            line.recipe_file = None;
        }
        line.amount = amount;
    }
    leave_out(document, &left_out);
    add_lines(document, usize::MAX, added);
    Ok(())
}

fn place_of(document: &Document, line: LineId) -> Result<usize, EditError> {
    document.recipe.lines.iter().position(|other| other.id == line).ok_or(EditError::NoSuchLine)
}

fn line_mut(document: &mut Document, line: LineId) -> Result<&mut Line, EditError> {
    document.recipe.lines.iter_mut().find(|other| other.id == line).ok_or(EditError::NoSuchLine)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::OpenDocument;
    use crate::ingredient::Library;
    use crate::recipe::Recipe;

    fn grams(value: f64) -> Quantity {
        Quantity::from_grams(value).unwrap_or_default()
    }

    fn ingredient(id: &str) -> Arc<Ingredient> {
        Arc::clone(Library::built_in().by_id(id).unwrap_or_else(|| panic!("{id} is built in")))
    }

    /// Couverture that stands for a recipe of its own, cream and locked butter.
    fn ganache() -> OpenDocument {
        let mut recipe = Recipe::default();
        for (id, amount) in [("couverture-dark-64", 400.0), ("cream-35", 220.0), ("butter-82", 30.0)] {
            recipe.push(ingredient(id), grams(amount));
        }
        recipe.lines[0].note = "melted".to_owned();
        recipe.lines[0].recipe_file = Some("couverture.ron".to_owned());
        recipe.lines[2].is_locked = true;
        OpenDocument::new(Document { recipe })
    }

    fn amounts(open: &OpenDocument) -> Vec<f64> {
        open.document().recipe.lines.iter().map(|line| line.amount.value()).collect()
    }

    #[test]
    fn a_reformulation_is_one_step() {
        let mut open = ganache();
        let lines: Vec<LineId> = open.document().recipe.lines.iter().map(|line| line.id).collect();
        let edit = Edit::Reformulate {
            // The locked line is named with what it has.
            amounts: vec![(lines[0], grams(380.0)), (lines[1], grams(200.0)), (lines[2], grams(30.0))],
            added: vec![(ingredient("dextrose-monohydrate"), grams(40.0))],
        };
        assert_eq!(open.apply(edit), Ok(()));
        assert_eq!(amounts(&open), [380.0, 200.0, 30.0, 40.0]);
        let last = open.document().recipe.lines.last().map(|line| (line.ingredient.id.clone(), line.id));
        assert!(last.is_some_and(|(id, line)| id == "dextrose-monohydrate" && !lines.contains(&line)));
        assert_eq!(open.undo_label(), Some("reformulate"));
        open.undo();
        assert_eq!(amounts(&open), [400.0, 220.0, 30.0]);
        assert!(open.is_saved(), "one step back is where it began");
    }

    /// A sheet does not name what does not go in; one step back brings it again, in its place.
    #[test]
    fn a_line_of_which_nothing_is_left_is_taken_out() {
        let mut open = ganache();
        let before = open.document().recipe.clone();
        let line = |place: usize| before.lines[place].id;
        let edit = Edit::Reformulate {
            amounts: vec![(line(0), grams(0.0)), (line(1), grams(240.0)), (line(2), grams(30.0))],
            added: Vec::new(),
        };
        assert_eq!(open.apply(edit), Ok(()));
        assert_eq!(lines(&open), [("cream-35", 240.0), ("butter-82", 30.0)]);
        open.undo();
        assert_eq!(open.document().recipe, before);
        let edit = Edit::Exchange {
            lines: vec![
                (line(0), ingredient("couverture-dark-70"), grams(400.0)),
                (line(1), ingredient("cream-35"), grams(0.0)),
            ],
            added: Vec::new(),
        };
        assert_eq!(open.apply(edit), Ok(()));
        assert_eq!(lines(&open), [("couverture-dark-70", 400.0), ("butter-82", 30.0)]);
        open.undo();
        assert_eq!(open.document().recipe, before);
    }

    #[test]
    fn a_reformulation_never_changes_a_locked_line_nor_half_of_the_others() {
        let mut open = ganache();
        let line = |place: usize| open.document().recipe.lines[place].id;
        let (first, locked) = (line(0), line(2));
        let with_locked =
            Edit::Reformulate { amounts: vec![(first, grams(1.0)), (locked, grams(31.0))], added: Vec::new() };
        assert_eq!(open.apply(with_locked), Err(EditError::Locked));
        let of_another = Edit::Reformulate {
            amounts: vec![(first, grams(1.0)), (LineId(99), grams(1.0))],
            added: vec![(ingredient("dextrose-monohydrate"), grams(1.0))],
        };
        assert_eq!(open.apply(of_another), Err(EditError::NoSuchLine));
        assert_eq!(amounts(&open), [400.0, 220.0, 30.0]);
    }

    fn lines(open: &OpenDocument) -> Vec<(&str, f64)> {
        let lines = &open.document().recipe.lines;
        lines.iter().map(|line| (line.ingredient.id.as_str(), line.amount.value())).collect()
    }

    #[test]
    fn an_exchange_is_one_step() {
        let mut open = ganache();
        let before = open.document().recipe.clone();
        let ids: Vec<LineId> = before.lines.iter().map(|line| line.id).collect();
        let edit = Edit::Exchange {
            lines: vec![
                (ids[0], ingredient("couverture-dark-70"), grams(380.0)),
                (ids[1], ingredient("cream-35"), grams(210.0)),
                // The locked line is named with what it has.
                (ids[2], ingredient("butter-82"), grams(30.0)),
            ],
            added: vec![(ingredient("sucrose"), grams(30.0))],
        };
        assert_eq!(open.apply(edit), Ok(()));
        let after = [("couverture-dark-70", 380.0), ("cream-35", 210.0), ("butter-82", 30.0), ("sucrose", 30.0)];
        assert_eq!(lines(&open), after);
        let first = &open.document().recipe.lines[0];
        assert_eq!((first.note.as_str(), &first.recipe_file), ("melted", &None), "the note stays, the recipe goes");
        assert!(!ids.contains(&open.document().recipe.lines[3].id));
        assert_eq!(open.undo_label(), Some("exchange ingredient"));
        open.undo();
        assert_eq!(open.document().recipe, before);
        assert!(open.is_saved(), "one step back is where it began");
    }

    #[test]
    fn an_exchange_never_changes_a_locked_line_nor_half_of_the_others() {
        let mut open = ganache();
        let before = open.document().recipe.clone();
        let line = |place: usize| before.lines[place].id;
        let first = || (line(0), ingredient("couverture-dark-70"), grams(1.0));
        for (other, error) in [
            ((line(2), ingredient("butter-82"), grams(31.0)), EditError::Locked),
            ((line(2), ingredient("cocoa-butter"), grams(30.0)), EditError::Locked),
            ((LineId(99), ingredient("butter-82"), grams(1.0)), EditError::NoSuchLine),
        ] {
            let edit = Edit::Exchange { lines: vec![first(), other], added: vec![(ingredient("sucrose"), grams(1.0))] };
            assert_eq!(open.apply(edit), Err(error));
            assert_eq!(open.document().recipe, before);
        }
    }
}
