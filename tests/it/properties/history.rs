//! Any list of changes, taken back and made again: the history of a document.

use std::collections::HashMap;
use std::sync::Arc;

use nibwright::document::{Document, Edit, OpenDocument, Revision};
use nibwright::recipe::{
    Air, CocoaButter, CookTemperature, CreamShare, Evaporation, FatState, Heating, Height, Kind, MassUnit,
    MixTemperature, Mixing, Piece, PlaceTemperature, SeedTemperature, SeedingWay, Setting, Size, Storage, TransferLoss,
    Use,
};
use nibwright::units::Celsius;
use proptest::prelude::*;

use super::{kitchen_amount, recipe_with, shelf};
use crate::support::grams;

/// A move of somebody who works on a recipe; lines and ingredients by number, modulo how many there are.
#[derive(Clone, Debug)]
enum Move {
    Name(u8),
    Kind(usize),
    Use(Option<usize>),
    CocoaButter(usize),
    Note(u8),
    Evaporated(u8),
    Loss(u8),
    Setting(Option<u8>),
    Storage(u8),
    Add(usize, usize, u8),
    AddMany(usize, Vec<(usize, u8)>),
    Remove(usize),
    Place(usize, usize),
    Amount(usize, u8),
    Unit(usize, usize),
    LineNote(usize, u8),
    Lock(usize, bool),
    Warm(usize, u8),
    State(usize, usize),
    Wanted(u8),
    Replace(usize, usize),
    Scale(u8),
    Exchange(usize, u8, Option<(usize, u8)>),
    Seeding(usize, u8),
    SeedInSheet(Option<(usize, u8)>),
    Reformulate(u8, Vec<(usize, u8)>),
    EndGesture,
}

fn any_move() -> impl Strategy<Value = Move> {
    // Few different values, so that changes often change nothing or come back to where they began.
    let value = || 0..4_u8;
    let line = || 0..6_usize;
    prop_oneof![
        1 => value().prop_map(Move::Name),
        1 => (0..6_usize).prop_map(Move::Kind),
        1 => prop::option::of(0..3_usize).prop_map(Move::Use),
        1 => (0..3_usize).prop_map(Move::CocoaButter),
        1 => value().prop_map(Move::Note),
        1 => value().prop_map(Move::Evaporated),
        1 => (0..6_u8).prop_map(Move::Loss),
        1 => prop::option::of(value()).prop_map(Move::Setting),
        1 => value().prop_map(Move::Storage),
        2 => (line(), 0..200_usize, value()).prop_map(|(at, ingredient, amount)| Move::Add(at, ingredient, amount)),
        1 => (line(), prop::collection::vec((0..200_usize, value()), 0..4)).prop_map(|(at, lines)| Move::AddMany(at, lines)),
        1 => line().prop_map(Move::Remove),
        1 => (line(), line()).prop_map(|(line, to)| Move::Place(line, to)),
        6 => (0..2_usize, value()).prop_map(|(line, amount)| Move::Amount(line, amount)),
        1 => (line(), 0..4_usize).prop_map(|(line, unit)| Move::Unit(line, unit)),
        2 => (0..2_usize, value()).prop_map(|(line, note)| Move::LineNote(line, note)),
        1 => (line(), any::<bool>()).prop_map(|(line, is_locked)| Move::Lock(line, is_locked)),
        2 => (0..2_usize, value()).prop_map(|(line, celsius)| Move::Warm(line, celsius)),
        1 => (line(), 0..4_usize).prop_map(|(line, state)| Move::State(line, state)),
        1 => value().prop_map(Move::Wanted),
        1 => (line(), 0..200_usize).prop_map(|(line, ingredient)| Move::Replace(line, ingredient)),
        1 => value().prop_map(Move::Scale),
        1 => (0..200_usize, value(), prop::option::of((0..200_usize, value())))
            .prop_map(|(number, value, added)| Move::Exchange(number, value, added)),
        2 => (0..4_usize, value()).prop_map(|(what, value)| Move::Seeding(what, value)),
        1 => prop::option::of((0..200_usize, value())).prop_map(Move::SeedInSheet),
        1 => (value(), prop::collection::vec((0..200_usize, value()), 0..3))
            .prop_map(|(value, added)| Move::Reformulate(value, added)),
        2 => Just(Move::EndGesture),
    ]
}

fn warmth(value: u8) -> Option<PlaceTemperature> {
    PlaceTemperature::new(Celsius(10.0 + f64::from(value))).ok()
}

fn setting(value: u8) -> Option<Setting> {
    let thickness = Size::from_millimetres(5.0 + f64::from(value)).ok()?;
    Some(Setting { piece: Piece::Bar { thickness }, start: None, surroundings: warmth(value)?, air: Air::Fan })
}

/// The edit of a move, if it is one and there is a line for it.
fn edit_of(change: &Move, document: &Document) -> Option<Edit> {
    let lines = &document.recipe.lines;
    let line = |number: usize| lines.get(number % lines.len().max(1)).map(|line| line.id);
    let ingredient = |number: usize| shelf()[number % shelf().len()].clone();
    let amount = |value: u8| grams(100.0 * f64::from(value));
    let evaporation = |value: u8| match value {
        0 | 1 => Evaporation::Weighed(amount(value)),
        2 => Evaporation::Estimated(Heating::Boiled),
        _ => Evaporation::CookedTo { temperature: CookTemperature::CARAMEL, height: Height::SEA_LEVEL },
    };
    // None is one of the few values.
    let warm = |value: u8| MixTemperature::new(Celsius(20.0 * f64::from(value))).ok().filter(|_| value > 0);
    Some(match change {
        Move::Name(name) => Edit::SetName(name.to_string()),
        Move::Kind(kind) => Edit::SetKind(Kind::ALL[*kind]),
        Move::Use(intended_use) => Edit::SetUse(intended_use.map(|number| Use::ALL[number])),
        Move::CocoaButter(number) => Edit::SetCocoaButter(CocoaButter::NAMED[*number]),
        Move::Note(note) => Edit::SetNote(note.to_string()),
        Move::Evaporated(value) => Edit::SetEvaporation(evaporation(*value)),
        Move::Loss(loss) => Edit::SetTransferLoss(TransferLoss::from_percent(25.0 * f64::from(*loss)).ok()?),
        Move::Setting(value) => Edit::SetSetting(match value {
            Some(value) => Some(setting(*value)?),
            None => None,
        }),
        Move::Storage(value) => Edit::SetStorage(Storage { at: warmth(*value)?, ..Storage::default() }),
        Move::Add(at, number, value) => {
            Edit::AddLine { at: *at, ingredient: ingredient(*number), amount: amount(*value) }
        }
        Move::AddMany(at, lines) => {
            let lines = lines.iter().map(|(number, value)| (ingredient(*number), amount(*value))).collect();
            Edit::AddLines { at: *at, lines }
        }
        Move::Remove(number) => Edit::RemoveLine(line(*number)?),
        Move::Place(number, to) => Edit::MoveLine { line: line(*number)?, to: *to },
        Move::Amount(number, value) => Edit::SetAmount { line: line(*number)?, amount: amount(*value) },
        Move::Unit(number, unit) => Edit::SetUnit { line: line(*number)?, unit: MassUnit::ALL[*unit] },
        Move::LineNote(number, note) => Edit::SetLineNote { line: line(*number)?, note: note.to_string() },
        Move::Lock(number, is_locked) => Edit::SetLock { line: line(*number)?, is_locked: *is_locked },
        Move::Warm(number, value) => Edit::SetTemperature { line: line(*number)?, temperature: warm(*value) },
        Move::State(number, state) => Edit::SetFatState { line: line(*number)?, state: FatState::ALL[*state] },
        Move::Wanted(value) => Edit::SetMixing(Mixing { wanted: warm(*value), ..document.recipe.mixing }),
        Move::Replace(number, other) => {
            Edit::ReplaceIngredient { line: line(*number)?, ingredient: ingredient(*other) }
        }
        Move::Scale(value) => Edit::ScaleTo { weighed: amount(*value) },
        Move::Exchange(number, value, added) => Edit::Exchange {
            // A locked line among them makes it refused.
            lines: lines.iter().map(|line| (line.id, ingredient(*number), amount(*value))).collect(),
            added: added.iter().map(|(number, value)| (ingredient(*number), amount(*value))).collect(),
        },
        Move::Seeding(0, value) => Edit::SetSeedingWay(SeedingWay::ALL[usize::from(*value)]),
        Move::Seeding(1, value) => Edit::SetCreamShare(CreamShare::from_percent(20.0 + f64::from(*value)).ok()?),
        Move::Seeding(2, value) => Edit::SetSeedAmount((*value > 0).then(|| amount(*value))),
        Move::Seeding(_, value) => {
            let temperature = (*value > 0).then(|| SeedTemperature::new(Celsius(30.0 + f64::from(*value))));
            Edit::SetSeedTemperature(temperature.transpose().ok()?)
        }
        Move::SeedInSheet(None) => Edit::TakeSeedOutOfSheet,
        Move::SeedInSheet(Some((number, value))) => {
            Edit::PutSeedInSheet { ingredient: ingredient(*number), amount: amount(*value) }
        }
        Move::Reformulate(value, added) => Edit::Reformulate {
            // A locked line among them makes it refused.
            amounts: lines.iter().map(|line| (line.id, amount(*value))).collect(),
            added: added.iter().map(|(number, value)| (ingredient(*number), amount(*value))).collect(),
        },
        Move::EndGesture => return None,
    })
}

/// Makes the move; a refused edit leaves the document, its revision and even the copy it worked on as they were.
fn make(open: &mut OpenDocument, change: &Move) -> Result<(), TestCaseError> {
    let Some(edit) = edit_of(change, open.document()) else {
        open.end_gesture();
        return Ok(());
    };
    let (document, revision) = (Arc::clone(open.document()), open.revision());
    let mut copy = Document::clone(&document);
    let outcome = edit.clone().apply(&mut copy);
    prop_assert_eq!(open.apply(edit), outcome);
    if outcome.is_err() {
        prop_assert_eq!(&copy, document.as_ref());
        prop_assert_eq!(open.document(), &document);
        prop_assert_eq!(open.revision(), revision);
    }
    Ok(())
}

/// How often something can be taken back.
fn undo_all(open: &mut OpenDocument) -> usize {
    let mut count = 0;
    while open.undo_label().is_some() {
        open.undo();
        count += 1;
    }
    count
}

fn any_start() -> impl Strategy<Value = Document> {
    recipe_with(kitchen_amount().boxed(), Just(Evaporation::default()), 4).prop_map(|recipe| Document { recipe })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// Any list of edits, undone to the end, gives the document and the revision of the beginning; redone, of the end.
    #[test]
    fn edits_undone_give_the_beginning_and_redone_the_end(
        start in any_start(),
        moves in prop::collection::vec(any_move(), 0..60),
    ) {
        let mut open = OpenDocument::new(start.clone());
        let first = open.revision();
        for change in &moves {
            make(&mut open, change)?;
        }
        let (last_document, last) = (Arc::clone(open.document()), open.revision());
        let count = undo_all(&mut open);
        prop_assert_eq!(open.document().as_ref(), &start);
        prop_assert_eq!(open.revision(), first);
        prop_assert!(open.is_saved());
        let mut redone = 0;
        while open.redo_label().is_some() {
            open.redo();
            redone += 1;
        }
        prop_assert_eq!(redone, count);
        prop_assert_eq!(open.document(), &last_document);
        prop_assert_eq!(open.revision(), last);
    }

    /// A revision belongs to a state: whatever is done, taken back, cancelled and saved in between, the same revision
    /// always means the same document, and "saved" the one that was saved.
    #[test]
    fn a_revision_always_means_the_same_document(
        start in any_start(),
        moves in prop::collection::vec((any_move(), 0..12_u8), 0..60),
    ) {
        let mut open = OpenDocument::new(start.clone());
        let mut seen: HashMap<Revision, Arc<Document>> = HashMap::new();
        let mut saved = open.revision();
        for (change, other) in &moves {
            match other {
                0 | 1 => open.undo(),
                2 => open.redo(),
                3 => open.cancel_gesture(),
                4 => {
                    open.mark_saved();
                    saved = open.revision();
                }
                _ => make(&mut open, change)?,
            }
            let known = seen.entry(open.revision()).or_insert_with(|| Arc::clone(open.document()));
            prop_assert_eq!(&*known, open.document());
            prop_assert_eq!(open.is_saved(), open.revision() == saved);
            let ids: Vec<_> = open.document().recipe.lines.iter().map(|line| line.id).collect();
            prop_assert!(ids.iter().enumerate().all(|(idx, id)| !ids[..idx].contains(id)), "{ids:?}");
        }
        undo_all(&mut open);
        prop_assert_eq!(open.document().as_ref(), &start);
    }
}
