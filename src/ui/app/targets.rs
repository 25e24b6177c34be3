//! Reformulating: the worker behind the reading Targets, and what is done with its answer.
//!
//! The worker has a thread of its own, so that the window never waits. It is told to stop as soon as something else is
//! asked; the last answer stays in sight until the next one is there.

use std::sync::Arc;
use std::time::Duration;

use egui::Context;

use super::{App, State};
use crate::analysis::reading::Reading;
use crate::analysis::{Analysis, analyse};
use crate::document::{Document, OpenDocument, Revision};
use crate::production::cost::Cost;
use crate::recipe::Line;
use crate::reformulate::Target;
use crate::ui::files::{Asking, file_name};
use crate::ui::targets::{Asked, Awaited, Targets, Worked, work};
use crate::ui::text;
use crate::ui::view::{Focus, Pin};
use crate::ui::worker;

/// Seconds after which one sees that an answer is on its way.
const LATE: f64 = 0.2;

/// What a worker was given: which state of which document, which prices, and what is asked.
type Task = (State, u64, Asked);

/// The worker, and what it is at.
#[derive(Debug, Default)]
pub(super) struct Worker {
    running: Option<Running>,
    /// What the answer that is shown belongs to.
    done: Option<Task>,
    /// Whether everything was told of it: of what cannot be done what would help, too.
    is_complete: bool,
    /// Counts the answers.
    answers: u64,
}

#[derive(Debug)]
struct Running {
    task: Task,
    since: f64,
    answer: worker::Worker<Worked>,
}

/// The answer in the place of the document, for the readings that show it.
pub(super) struct ShownAnswer {
    pub(super) document: Arc<Document>,
    pub(super) analysis: Arc<Analysis>,
    pub(super) cost: Arc<Cost>,
    /// The present state, as the ghost behind it.
    pub(super) present: Pin,
    /// A key of memos that no document and no other answer has.
    pub(super) key: (u64, Revision),
}

impl Worker {
    /// Whether an answer is on its way.
    pub(super) fn is_at_work(&self) -> bool {
        self.running.is_some()
    }
}

impl App {
    /// Opens the reading Targets, or brings it to the front.
    pub(super) fn reformulate(&mut self) {
        if self.view.targets.is_none() {
            let analysis = self.analysis();
            self.view.targets = Some(Targets::of(&self.document().recipe, &analysis, self.open.revision()));
        }
        self.show_reading(Reading::Targets);
        self.view.focus = Some(Focus::Readings);
    }

    /// Asks for a target, with all that is usual for the use if nothing was asked yet.
    pub fn make_target(&mut self, target: Target) {
        self.reformulate();
        if let Some(targets) = &mut self.view.targets {
            targets.typed_next = Some(targets.asked.set_target(target));
            self.view.focus = None;
        }
    }

    /// Closes the reading Targets; what was asked is forgotten.
    pub(super) fn stop_reformulating(&mut self) {
        self.view.targets = None;
        self.worker = Worker { answers: self.worker.answers, ..Worker::default() };
        if self.view.reading == Reading::Targets {
            self.show_reading(Reading::from_key(&self.settings.reading).unwrap_or_default());
        }
    }

    /// Takes the last step back, of what is asked or of the recipe.
    pub(super) fn undo(&mut self) {
        let at = self.open.revision();
        let is_of_targets =
            self.view.targets.as_mut().is_some_and(|targets| targets.steps.undo(&mut targets.asked, at));
        self.after_step(is_of_targets, OpenDocument::undo);
    }

    /// Makes it again.
    pub(super) fn redo(&mut self) {
        let at = self.open.revision();
        let is_of_targets =
            self.view.targets.as_mut().is_some_and(|targets| targets.steps.redo(&mut targets.asked, at));
        self.after_step(is_of_targets, OpenDocument::redo);
    }

    /// Brings to the front what came back, or else steps in the recipe.
    fn after_step(&mut self, is_of_targets: bool, step: impl Fn(&mut OpenDocument)) {
        if is_of_targets {
            self.show_reading(Reading::Targets);
        } else {
            step(&mut self.open);
        }
    }

    /// Whether undo would take back a change of what is asked.
    pub(super) fn is_undo_of_targets(&self) -> bool {
        let is_of_targets = |targets: &Targets| targets.steps.can_undo(self.open.revision());
        self.view.targets.as_ref().is_some_and(is_of_targets)
    }

    /// What undo would take back: "lock line".
    pub(super) fn undo_label(&self) -> Option<&'static str> {
        if self.is_undo_of_targets() { Some(text::CHANGE_OF_TARGETS) } else { self.open.undo_label() }
    }

    /// What redo would make again.
    pub(super) fn redo_label(&self) -> Option<&'static str> {
        let is_of_targets = |targets: &Targets| targets.steps.can_redo(self.open.revision());
        let is_of_targets = self.view.targets.as_ref().is_some_and(is_of_targets);
        if is_of_targets { Some(text::CHANGE_OF_TARGETS) } else { self.open.redo_label() }
    }

    /// Takes the answer of the worker when it is there, and gives it the next task when something else is asked.
    pub(super) fn work_on_targets(&mut self, ctx: &Context) {
        let state = self.state();
        let (prices, changes) = (self.prices.list(), self.prices.changes());
        let Some(targets) = &mut self.view.targets else { return };
        targets.look_at(&self.open.document().recipe);
        if targets.steps.note(&targets.asked, self.open.revision()) {
            // After a change nothing is made again, of the sheet neither.
            self.open.forget_redo();
        }
        let time = ctx.input(|input| input.time);
        let is_task = |task: &Task| task.0 == state && task.1 == changes && task.2 == targets.asked;
        if let Some(running) = &self.worker.running {
            let (mut answers, is_over) = running.answer.news();
            let worked = answers.pop();
            let is_told = self.worker.done.as_ref() == Some(&running.task);
            // Work that is over without an answer broke: nothing is known of this task, and it is not tried again.
            if worked.is_some() || (is_over && !is_told) {
                targets.worked = worked.map(Arc::new);
                self.worker.done = Some(running.task.clone());
            }
            // Of what cannot be done it goes on to look for what would help.
            self.worker.is_complete = is_over && self.worker.done.as_ref() == Some(&running.task);
            if is_over {
                self.worker.running = None;
            }
        }
        targets.is_current = self.worker.done.as_ref().is_some_and(is_task);
        let is_at_it = self.worker.running.as_ref().is_some_and(|running| is_task(&running.task));
        if targets.is_current && self.worker.is_complete {
            self.worker.running = None;
        } else if !is_at_it {
            let task = (state, changes, targets.asked.clone());
            self.worker.answers += 1;
            // The one before is told to stop.
            self.worker.running = None;
            let (problem, rows) = targets.asked.problem(&self.open.document().recipe, prices);
            let number = self.worker.answers;
            let answer = worker::Worker::start("reformulation", ctx, move |teller| {
                work(number, problem, rows, &|| teller.is_stopped(), &|worked| {
                    teller.tell(worked);
                });
            });
            let running = Running { task, since: time, answer };
            self.worker.running = Some(running);
        }
        let awaited = self.worker.running.as_ref().filter(|_| !targets.is_current);
        let late = awaited.map(|running| LATE - (time - running.since));
        targets.awaited = match late {
            Some(left) if left <= 0.0 => Awaited::Answer,
            None if self.worker.running.is_some() => Awaited::Help,
            Some(_) | None => Awaited::Nothing,
        };
        if let Some(left) = late.filter(|left| *left > 0.0) {
            ctx.request_repaint_after(Duration::from_secs_f64(left));
        }
        if targets.worked.as_ref().is_none_or(|worked| worked.document.is_none()) {
            targets.shows_answer = false;
        }
    }

    /// The answer, where the other readings are to show it.
    pub(super) fn shown_answer(&mut self) -> Option<ShownAnswer> {
        let (number, document) = self.view.targets.as_ref()?.shown_answer()?;
        let document = Arc::clone(document);
        let at = self.view.at;
        let key = (number, at.0.to_bits());
        let analysis = Arc::clone(self.answer_analysis.get(key, || Arc::new(analyse(&document.recipe, at))));
        let cost = self.prices.cost_of_answer(number, &document.recipe, &analysis);
        // Counted from the other end than documents and pins.
        let number = u64::MAX - number;
        let (now, analysis_now) = (Arc::clone(self.document()), self.analysis());
        let present = Pin { number, document: now, analysis: analysis_now, legend: text::BEFORE };
        Some(ShownAnswer { document, analysis, cost, present, key: (number, self.open.revision()) })
    }

    /// Makes the answer the recipe, in one step.
    pub(super) fn accept_answer(&mut self, ctx: &Context) {
        let worked = self.view.targets.as_ref().filter(|targets| targets.is_current);
        let Some(edit) = worked.and_then(|targets| targets.worked.as_ref()?.edit()) else {
            self.toasts.say(text::ANSWER_ON_ITS_WAY, ctx);
            return;
        };
        let before = self.open.revision();
        self.edit(ctx, edit);
        if self.open.revision() != before {
            self.open.end_gesture();
            self.toasts.with_undo("Accepted: the sheet has the new amounts", self.open.revision(), ctx);
            if let Some(targets) = &mut self.view.targets {
                targets.shows_answer = false;
            }
        }
    }

    /// Asks where to write the answer as a recipe of its own; the present one stays as it is.
    pub(super) fn keep_answer(&mut self, ctx: &Context) {
        let current = self.view.targets.as_ref().filter(|targets| targets.is_current);
        let Some(document) = current.and_then(|targets| targets.worked.as_ref()?.document.clone()) else {
            self.toasts.say(text::ANSWER_ON_ITS_WAY, ctx);
            return;
        };
        let mut recipe = document.recipe.clone();
        // As accepting does: what nothing is left of does not stand there.
        let is_left_out = |line: &Line| {
            let before = self.document().recipe.line(line.id);
            line.amount.grams().0 <= 0.0 && before.is_none_or(|before| before.amount != line.amount)
        };
        recipe.lines.retain(|line| !is_left_out(line));
        recipe.name = text::reformulated(&self.name());
        let name = file_name(&recipe.name);
        self.ask_for_path(ctx, Asking::SaveCopy { name, recipe: Arc::new(recipe) });
    }
}
