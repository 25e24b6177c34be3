//! What the window shows and what is asked of it: view state, and the actions that panels hand to the program.
//!
//! None of it is part of the document. Panels read; the program carries actions out after the frame.

use std::path::PathBuf;
use std::sync::Arc;

use rust_decimal::prelude::ToPrimitive as _;

use super::command::Command;
use super::explanations::emulsion::Phase;
use super::files::PlotForm;
use super::targets::Targets;
use super::theme::Hue;
use crate::analysis::make_up::LineMakeUp;
use crate::analysis::parts::{Group, Parts};
use crate::analysis::reading::Reading;
use crate::analysis::water::state::Holder;
use crate::analysis::{Analysis, emulsion, phase_bar};
use crate::document::{Document, Edit};
use crate::ingredient::Ingredient;
use crate::number::DecimalSign;
use crate::production::cost::Cost;
use crate::production::price::Currency;
use crate::recipe::{Line, LineId, Quantity, Recipe};
use crate::reformulate::Target;
use crate::reformulate::measured::Mass;
use crate::report::figures::PlotName;
use crate::report::words::FindingWords;
use crate::units::{Celsius, Grams};

/// What is shown, apart from the document.
#[derive(Debug)]
pub struct View {
    /// The temperature of the thermometer.
    pub at: Celsius,
    /// The reading in front.
    pub reading: Reading,
    /// Whether there is room for all readings at once.
    pub shows_every_reading: bool,
    /// Whether the shelf with its search is there.
    pub has_shelf: bool,
    /// Whether the lines show their temperatures, once that was chosen; until then they do where one has a temperature.
    pub temperatures: Option<bool>,
    /// The chosen line.
    pub selected: Option<LineId>,
    /// What the pointer was on in the last frame.
    pub pointed: Option<Pointed>,
    /// What the pointer is on in this frame.
    pub pointed_now: Option<Pointed>,
    /// What is searched for on the shelf.
    pub search: String,
    /// Which of the found ingredients is chosen, while the search is used with the keyboard.
    pub search_place: usize,
    /// The decimal sign of the user.
    pub sign: DecimalSign,
    /// Where the keyboard should go in the next frame.
    pub focus: Option<Focus>,
    /// The reading that was asked for since the last frame: where it stands under another, it is scrolled to.
    pub shown_anew: Option<Reading>,
    /// What is made today and how much seed is ready for it.
    pub day: DayOfSeed,
    /// The reading Targets while it is used.
    pub targets: Option<Targets>,
    /// Whether a finding had the keyboard in the last frame: the keys that scroll are then for the findings.
    pub is_on_findings: bool,
}

/// What is made in a day, and how much seed is ready for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayOfSeed {
    /// How many batches.
    pub batches: u32,
    /// How much seed is ready.
    pub ready: Quantity,
}

impl Default for DayOfSeed {
    fn default() -> Self {
        Self { batches: 1, ready: Quantity::default() }
    }
}

/// A place that the keyboard can be sent to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Focus {
    /// The search of the shelf.
    Search,
    /// The amount of a line.
    Amount(LineId),
    /// The temperature of a line.
    Temperature(LineId),
    /// The note of a line.
    Note(LineId),
    /// The note of the recipe.
    RecipeNote,
    /// The kind of the recipe.
    Kind,
    /// Its use.
    Use,
    /// Its cocoa butter.
    CocoaButter,
    /// The reading in front.
    Readings,
    /// The first of the findings.
    Findings,
}

/// What the pointer is on: it is lit up everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pointed {
    /// A line of the sheet.
    Line(LineId),
    /// A group of components.
    Hue(Hue),
    /// All fat, whatever its colour.
    Fat,
    /// A part of the phase bar, by its place.
    PhaseBar(usize),
    /// A volume of the emulsion.
    Volume(Phase),
    /// What holds water.
    Holder(Holder),
}

/// A state of a recipe kept to compare with.
#[derive(Clone, Debug)]
pub struct Pin {
    /// Which of the states that were pinned it is, so that no two share a key of a memo.
    pub number: u64,
    /// The state.
    pub document: Arc<Document>,
    /// What it is at the temperature of the thermometer.
    pub analysis: Arc<Analysis>,
}

/// An ingredient on its way from the shelf to the sheet.
#[derive(Clone, Debug)]
pub struct Dragged(pub Arc<Ingredient>);

/// What a panel asks for.
#[derive(Clone, Debug)]
pub enum Action {
    /// Change the document; changes of one gesture follow each other.
    Edit(Edit),
    /// The gesture is over: the next change is a step of its own.
    EndGesture,
    /// The gesture does not count.
    CancelGesture,
    /// Do what a command says.
    Run(Command),
    /// Move the thermometer.
    SetTemperature(Celsius),
    /// Say what is made today and how much seed is ready.
    SetDay(DayOfSeed),
    /// Bring a reading to the front.
    Show(Reading),
    /// Choose a line.
    Select(Option<LineId>),
    /// Show or hide the temperatures of the lines.
    ShowTemperatures(bool),
    /// Send the keyboard somewhere.
    Focus(Focus),
    /// Add an ingredient after the chosen line and go to its amount.
    AddIngredient(Arc<Ingredient>),
    /// Add an ingredient at this place and go to its amount.
    AddIngredientAt {
        /// The place.
        at: usize,
        /// The ingredient.
        ingredient: Arc<Ingredient>,
    },
    /// Ask for the analysis of the cocoa butter.
    AskForTriglycerides,
    /// Ask what the ingredient of a line costs.
    AskForPrice(LineId),
    /// Open a recipe of the shelf.
    OpenRecipe(PathBuf),
    /// Write the plot of a reading to a file.
    SavePlot(PlotName, PlotForm),
    /// Ask for this when the recipe is reformulated.
    MakeTarget(Target),
    /// Make the proposed recipe the recipe.
    AcceptAnswer,
    /// Write the proposed recipe to a file of its own.
    KeepAnswer,
}

/// Everything that a panel may read.
#[derive(Clone, Copy, Debug)]
pub struct Scene<'a> {
    /// The document.
    pub document: &'a Document,
    /// What it is.
    pub analysis: &'a Analysis,
    /// The words of its findings, in their order.
    pub finding_words: &'a [FindingWords],
    /// The pinned state.
    pub pin: Option<&'a Pin>,
    /// What both cost.
    pub costs: Costs<'a>,
}

/// What the recipe and the pinned state cost, with the user's prices.
#[derive(Clone, Copy, Debug, Default)]
pub struct Costs<'a> {
    /// The recipe.
    pub now: Option<&'a Cost>,
    /// The pinned state.
    pub pinned: Option<&'a Cost>,
    /// Why the user's price list cannot be used.
    pub problem: Option<&'a str>,
}

impl Scene<'_> {
    /// The money in which its cost is counted.
    #[must_use]
    pub fn money(&self) -> Option<&Currency> {
        self.costs.now?.currency.as_ref()
    }

    /// The mass that can be asked for its figures, its cost among them.
    #[must_use]
    pub fn mass(&self) -> Mass<'_> {
        let money = self.costs.now.and_then(Cost::totals).and_then(|totals| totals.batch.to_f64());
        Mass::new(&self.document.recipe, &self.analysis.make_up.bowl).with_money(money)
    }
}

impl Pin {
    /// The line of the pinned state that answers to a line of now: the same one if it was there, else the first with
    /// the same ingredient.
    #[must_use]
    pub fn line(&self, now: &Line) -> Option<&Line> {
        let lines = &self.document.recipe.lines;
        lines
            .iter()
            .find(|other| other.id == now.id && other.ingredient.id == now.ingredient.id)
            .or_else(|| lines.iter().find(|other| other.ingredient.id == now.ingredient.id))
    }

    /// What a line of the pinned state brings.
    #[must_use]
    pub fn brought(&self, line: LineId) -> Option<&LineMakeUp> {
        self.analysis.make_up.lines.iter().find(|brought| brought.id == line)
    }

    /// Its make-up.
    #[must_use]
    pub fn bowl(&self) -> &Parts {
        &self.analysis.make_up.bowl
    }
}

impl View {
    /// The view at the first start.
    #[must_use]
    pub fn new(sign: DecimalSign) -> Self {
        Self {
            at: crate::analysis::ROOM,
            reading: Reading::default(),
            shows_every_reading: false,
            has_shelf: true,
            temperatures: None,
            selected: None,
            pointed: None,
            pointed_now: None,
            search: String::new(),
            search_place: 0,
            sign,
            focus: None,
            shown_anew: None,
            is_on_findings: false,
            day: DayOfSeed::default(),
            targets: None,
        }
    }

    /// Whether this line is pointed at, or brings much of the group that is.
    #[must_use]
    pub fn is_line_lit(&self, scene: &Scene<'_>, line: LineId) -> bool {
        match self.pointed {
            Some(Pointed::Line(pointed)) => pointed == line,
            Some(Pointed::Hue(hue)) => brings_much(scene, line, |parts| hue.grams(parts)),
            Some(Pointed::Fat) => brings_much(scene, line, |parts| parts.group(Group::TotalFat)),
            Some(Pointed::PhaseBar(place)) => left_of(scene, line).is_some_and(|line| {
                let brought = phase_bar::brought_by(&line, &scene.analysis.make_up.bowl, scene.analysis.at);
                brought.and_then(|brought| brought.shares().get(place).copied()).is_some_and(|share| share.0 >= MUCH)
            }),
            Some(Pointed::Volume(phase)) => left_of(scene, line).is_some_and(|line| {
                let brought = emulsion::brought_by(&line, &scene.analysis.make_up.bowl);
                brought.is_some_and(|brought| phase.brought(&brought).0 >= MUCH)
            }),
            Some(Pointed::Holder(holder)) => left_of(scene, line).is_some_and(|line| {
                let water = scene.analysis.water.water();
                water.and_then(|water| water.brought_by(&line, holder)).is_some_and(|share| share.0 >= MUCH)
            }),
            None => false,
        }
    }

    /// Whether the lines show their temperatures.
    #[must_use]
    pub fn shows_temperatures(&self, recipe: &Recipe) -> bool {
        let has_any = || recipe.lines.iter().any(|line| line.temperature.is_some());
        self.temperatures.unwrap_or_else(has_any)
    }

    /// What the bowl has of the line that is pointed at.
    #[must_use]
    pub fn pointed_line(&self, scene: &Scene<'_>) -> Option<Parts> {
        let Some(Pointed::Line(pointed)) = self.pointed else { return None };
        left_of(scene, pointed)
    }

    /// Empties the search.
    pub fn forget_search(&mut self) {
        self.search.clear();
        self.search_place = 0;
    }

    /// Remembers what the pointer is on.
    pub fn point_at(&mut self, pointed: Pointed) {
        self.pointed_now = Some(pointed);
    }
}

/// A line lights up when it brings at least this share of what is pointed at.
const MUCH: f64 = 0.05;

/// What the bowl has of a line.
fn left_of(scene: &Scene<'_>, line: LineId) -> Option<Parts> {
    let make_up = &scene.analysis.make_up;
    make_up.left_of(make_up.lines.iter().find(|other| other.id == line)?)
}

/// Whether a line brings much of a group.
fn brings_much(scene: &Scene<'_>, line: LineId, of: impl Fn(&Parts) -> Option<Grams>) -> bool {
    let make_up = &scene.analysis.make_up;
    let brought = make_up.lines.iter().find(|other| other.id == line).and_then(|line| of(&line.parts));
    match (brought, of(&make_up.bowl)) {
        (Some(brought), Some(all)) => all.0 > 0.0 && brought.0 >= MUCH * all.0,
        _ => false,
    }
}
