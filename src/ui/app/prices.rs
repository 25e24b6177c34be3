//! The user's prices, and what the recipe and the pinned state cost with them.

use std::path::PathBuf;
use std::sync::Arc;

use egui::Context;

use super::{App, State};
use crate::analysis::Analysis;
use crate::document::Memo;
use crate::production::cost::{Cost, cost};
use crate::production::price_list::{PriceEntry, PriceList};
use crate::recipe::{LineId, Recipe};
use crate::store::{Places, change_price, load_own_price_list, own_price_list};
use crate::ui::dialogs::Dialog;
use crate::ui::view::Pin;

/// The user's prices, as they were read last.
#[derive(Debug, Default)]
pub(super) struct Prices {
    list: PriceList,
    /// Why the list on the disk cannot be used.
    problem: Option<String>,
    /// Counts its changes, for the keys of the memos.
    changes: u64,
    of_recipe: Memo<(State, u64), Arc<Cost>>,
    of_pin: Memo<(u64, u64), Arc<Cost>>,
    of_answer: Memo<(u64, u64), Arc<Cost>>,
}

impl Prices {
    /// Those of the user's folder for data; none where there are no folders.
    pub(super) fn load(places: Option<&Places>) -> Self {
        let mut prices = Self::default();
        if let Some(places) = places {
            prices.take(load_own_price_list(&own_price_list(places)).map_err(|error| error.to_string()));
        }
        prices
    }

    fn take(&mut self, list: Result<PriceList, String>) {
        self.changes += 1;
        match list {
            Ok(list) => (self.list, self.problem) = (list, None),
            Err(problem) => (self.list, self.problem) = (PriceList::default(), Some(problem)),
        }
    }

    /// Why the list cannot be used; `None` if it can.
    pub(super) fn problem(&self) -> Option<&str> {
        self.problem.as_deref()
    }

    /// The list.
    pub(super) fn list(&self) -> &PriceList {
        &self.list
    }

    /// Counts its changes: what was computed with another number is out of date.
    pub(super) fn changes(&self) -> u64 {
        self.changes
    }

    /// What a state of the document costs.
    pub(super) fn cost(&mut self, state: State, recipe: &Recipe, analysis: &Analysis) -> Arc<Cost> {
        let compute = || Arc::new(cost(recipe, &analysis.make_up, &self.list));
        Arc::clone(self.of_recipe.get((state, self.changes), compute))
    }

    /// What a proposed recipe costs; answers are counted.
    pub(super) fn cost_of_answer(&mut self, number: u64, recipe: &Recipe, analysis: &Analysis) -> Arc<Cost> {
        let compute = || Arc::new(cost(recipe, &analysis.make_up, &self.list));
        Arc::clone(self.of_answer.get((number, self.changes), compute))
    }

    /// What the pinned state costs.
    pub(super) fn cost_of_pin(&mut self, pin: &Pin) -> Arc<Cost> {
        let compute = || Arc::new(cost(&pin.document.recipe, &pin.analysis.make_up, &self.list));
        Arc::clone(self.of_pin.get((pin.number, self.changes), compute))
    }
}

impl App {
    /// Where the user's price list is; `None` where nothing is kept between starts.
    fn price_file(&self) -> Option<PathBuf> {
        self.places.as_ref().map(own_price_list)
    }

    /// Opens the form for the price of the ingredient of a line.
    pub(super) fn ask_for_price(&mut self, ctx: &Context, line: LineId) {
        // A spreadsheet may have changed it meanwhile.
        if let Some(file) = self.price_file() {
            self.prices.take(load_own_price_list(&file).map_err(|error| error.to_string()));
        }
        if let Some(problem) = self.prices.problem() {
            self.dialogs.show(Dialog::message("Your price list cannot be read", problem));
            return;
        }
        match Dialog::price(self.open.document(), line, &self.prices.list, self.view.sign) {
            Some(dialog) => {
                self.view.selected = Some(line);
                self.dialogs.show(dialog);
            }
            None => self.toasts.say("The line has gone", ctx),
        }
    }

    /// Writes a price into the user's list, or takes it out.
    pub(super) fn set_price(&mut self, ctx: &Context, ingredient: &str, entry: Option<PriceEntry>) {
        let said = if entry.is_some() { "Price saved in your list" } else { "Price taken off your list" };
        let Some(file) = self.price_file() else {
            let mut list = self.prices.list.clone();
            match entry {
                Some(entry) => list.put(ingredient, entry),
                None => list.remove(ingredient),
            };
            self.prices.take(Ok(list));
            return;
        };
        match change_price(&file, ingredient, entry) {
            Ok(list) => {
                self.prices.take(Ok(list));
                self.toasts.say(said, ctx);
            }
            Err(error) => self.dialogs.show(Dialog::message("The price could not be saved", &error.to_string())),
        }
    }
}
