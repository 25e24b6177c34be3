//! What the reading Targets asks of a recipe, and what came of it: view state, no part of the document.
//!
//! [`Asked`] is what a person sets; [`Asked::problem`] makes of it what the reformulation works on. [`work`] is what a
//! worker does with it, away from the window; [`Worked`] is what it brings back.

pub mod check;
pub mod steps;

use std::sync::Arc;
use std::time::{Duration, Instant};

use steps::Steps;

use super::view::Scene;
use crate::analysis::Analysis;
use crate::analysis::finding::{Finding, Subject};
use crate::document::{Document, Edit, Memo, Revision};
use crate::ingredient::Ingredient;
use crate::number::{DecimalSign, round_half_up};
use crate::production::price_list::PriceList;
use crate::recipe::{Line, LineId, Quantity, Recipe};
use crate::reformulate::problem::is_seasoning;
use crate::reformulate::{
    Allowed, Answer, Bound, Change, Limit, Measured, Member, Outcome, Place, Problem, ProblemError, Reached, Rule,
    Scale, Target, helpers::seek_helpers, measured::Mass, reformulate, sensitivities,
};
use crate::report::words::reformulation::decimals;
use crate::units::Grams;

/// The reading Targets while it is used.
#[derive(Clone, Debug)]
pub struct Targets {
    /// What is asked.
    pub asked: Asked,
    /// What came of it last, if anything did.
    pub worked: Option<Arc<Worked>>,
    /// Whether that belongs to what is asked now.
    pub is_current: bool,
    /// What one waits for.
    pub awaited: Awaited,
    /// Whether the other readings show the answer, with the present state as the pin.
    pub shows_answer: bool,
    /// What is searched for to be allowed in.
    pub search: String,
    /// Of which target the effects of the lines are shown, once that was chosen.
    pub effects_of: Option<u32>,
    /// The target whose bound is to be typed next.
    pub typed_next: Option<u32>,
    /// What was asked before.
    pub steps: Steps,
    /// What was asked as the reading opened, and of which amounts; `None` once something else is asked.
    ///
    /// From then on the amounts before and after have their room, also where nothing moves: nothing that can be clicked jumps
    /// because an answer comes.
    pub untouched: Option<(Asked, Vec<Quantity>)>,
    /// What there is to know of an answer before it is made: two recipes are analysed for it, so not anew in every frame.
    pub notes: Memo<(u64, DecimalSign), Vec<String>>,
    /// The room of the verdict under the question.
    pub verdict: VerdictRoom,
}

/// What one waits for while the worker is at work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Awaited {
    /// Nothing, or not longer than a blink.
    #[default]
    Nothing,
    /// Another answer: what is shown is the one before.
    Answer,
    /// What would help, of an answer that is there.
    Help,
}

/// How high the verdict stands under the question: what is above it keeps its place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct VerdictRoom {
    /// As it was drawn last.
    pub height: f32,
    /// The highest that it was: so much can always be scrolled past, so that nothing is pushed when it gets lower.
    pub tallest: f32,
}

/// What is asked of a recipe.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// Results and where they have to lie.
    pub targets: Vec<AskedTarget>,
    /// What is asked of amounts.
    pub limits: Vec<AskedLimit>,
    /// Whether seasoning may rise.
    pub seasoning: Seasoning,
    /// What may be used besides.
    pub allowed: Vec<AskedIngredient>,
    /// Whether the batch may change its weight.
    pub is_total_free: bool,
    /// What counts as little change.
    pub change: Change,
    /// What the scale shows.
    pub scale: Scale,
    /// Counts what was asked, so that every row keeps its own number.
    numbers: u32,
}

/// A target in its row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AskedTarget {
    /// The number of the row.
    pub number: u32,
    /// The target.
    pub target: Target,
    /// Whether it is asked for.
    pub is_on: bool,
    /// Whether it stands there because it is usual for the use; nobody has asked for it by name.
    pub is_usual: bool,
}

/// What is asked of the amount of a line, in its row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AskedLimit {
    /// The number of the row.
    pub number: u32,
    /// Of which line.
    pub line: LineId,
    /// What is asked.
    pub rule: Rule,
}

/// Whether seasoning may rise, of which nothing else is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seasoning {
    /// It may fall but not rise, but for these lines.
    Held {
        /// Those that may rise all the same.
        but: Vec<LineId>,
    },
    /// It moves like all else.
    Free,
}

impl Default for Seasoning {
    /// Without the rule, salt and alcohol would be the cheapest way to a low water activity.
    fn default() -> Self {
        Self::Held { but: Vec::new() }
    }
}

/// An ingredient that may be used besides, in its row.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedIngredient {
    /// The number of the row.
    pub number: u32,
    /// The ingredient, and no more of it than this.
    pub allowed: Allowed,
}

impl AskedIngredient {
    /// The line of a recipe that is meant: seasoning that stands in a line already is no second line, what is said of it is
    /// said of that one.
    #[must_use]
    pub fn line_in<'a>(&self, recipe: &'a Recipe) -> Option<&'a Line> {
        let is_it = |line: &&Line| line.ingredient.id == self.allowed.ingredient.id && is_seasoning(&line.ingredient);
        recipe.lines.iter().find(|line| is_it(line) && !line.stays())
    }
}

/// What a worker brings back.
#[derive(Clone, Debug)]
pub struct Worked {
    /// Which of all answers it is, so that no two share a key of a memo.
    pub number: u64,
    /// What it was asked.
    pub problem: Problem,
    /// The rows of its targets, limits and allowed ingredients.
    pub rows: Rows,
    /// What came of it.
    pub outcome: Result<Outcome, ProblemError>,
    /// The recipe that it proposes, where it is another one.
    pub document: Option<Arc<Document>>,
    /// What so much more of each line of that recipe, or of the present one, would do to each target.
    pub effects: (Grams, Vec<Vec<Option<f64>>>),
}

/// The rows that stand behind the parts of a problem, in their order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rows {
    /// Of the targets.
    pub targets: Vec<u32>,
    /// Of the limits; of what is said of an ingredient that is allowed and stands in a line already, its row.
    pub limits: Vec<u32>,
    /// The lines of seasoning that is held, whose limits stand behind those.
    pub held: Vec<LineId>,
    /// Of what may be used besides.
    pub allowed: Vec<u32>,
}

impl Targets {
    /// The reading as it opens: what is usual for the use and holds is asked for, and seasoning may not rise.
    #[must_use]
    pub fn of(recipe: &Recipe, analysis: &Analysis, at: Revision) -> Self {
        let asked = Asked::of(recipe, analysis);
        let amounts = recipe.lines.iter().map(|line| line.amount).collect();
        Self {
            untouched: Some((asked.clone(), amounts)),
            steps: Steps::of(&asked, at),
            asked,
            worked: None,
            is_current: false,
            awaited: Awaited::Nothing,
            shows_answer: false,
            search: String::new(),
            effects_of: None,
            typed_next: None,
            notes: Memo::default(),
            verdict: VerdictRoom::default(),
        }
    }

    /// Looks whether anything was asked yet.
    pub fn look_at(&mut self, recipe: &Recipe) {
        let is_untouched = self.untouched.as_ref().is_some_and(|(asked, amounts)| {
            *asked == self.asked && recipe.lines.iter().map(|line| line.amount).eq(amounts.iter().copied())
        });
        if !is_untouched {
            self.untouched = None;
        }
    }

    /// Whether the amounts have their room.
    #[must_use]
    pub fn shows_amounts(&self) -> bool {
        self.untouched.is_none() || self.worked.as_ref().is_some_and(|worked| worked.document.is_some())
    }

    /// The answer, where there is one and it belongs to what is asked now.
    #[must_use]
    pub fn current_answer(&self) -> Option<&Answer> {
        self.worked.as_ref().filter(|_| self.is_current)?.answer()
    }

    /// The proposed recipe that the other readings are to show.
    #[must_use]
    pub fn shown_answer(&self) -> Option<(u64, &Arc<Document>)> {
        let worked = self.worked.as_ref().filter(|_| self.shows_answer)?;
        Some((worked.number, worked.document.as_ref()?))
    }
}

impl Asked {
    /// What is usual for the use; seasoning may fall but not rise.
    ///
    /// All usual ranges stand there; those that hold now are asked for, so that nothing good is lost. Those that do not
    /// hold are switched off: the maker lives with them (a milk ganache never has the cocoa of a dark one), and asking for
    /// them too would answer a question nobody put. Their findings offer to make them targets.
    #[must_use]
    pub fn of(recipe: &Recipe, analysis: &Analysis) -> Self {
        let mut asked = Self::default();
        let mass = Mass::new(recipe, &analysis.make_up.bowl);
        for target in Target::usual(analysis) {
            let is_on = mass.figure(target.of).is_some_and(|figure| target.is_met_by(figure));
            let number = asked.next_number();
            asked.targets.push(AskedTarget { number, target, is_on, is_usual: true });
        }
        asked
    }

    /// Asks for a target in the place of what was asked of the same result; gives its row.
    pub fn set_target(&mut self, target: Target) -> u32 {
        if let Some(row) = self.targets.iter_mut().find(|row| row.target.of == target.of) {
            row.target = target;
            row.is_on = true;
            row.is_usual = false;
            return row.number;
        }
        let number = self.next_number();
        self.targets.push(AskedTarget { number, target, is_on: true, is_usual: false });
        number
    }

    /// Asks something of the amount of a line.
    pub fn add_limit(&mut self, line: LineId, rule: Rule) {
        let number = self.next_number();
        self.limits.push(AskedLimit { number, line, rule });
    }

    /// Allows an ingredient in, once; gives its row.
    pub fn allow(&mut self, ingredient: Arc<Ingredient>) -> u32 {
        if let Some(row) = self.allowed.iter().find(|row| row.allowed.ingredient == ingredient) {
            return row.number;
        }
        let number = self.next_number();
        self.allowed.push(AskedIngredient { number, allowed: Allowed { ingredient, most: None } });
        number
    }

    fn next_number(&mut self) -> u32 {
        self.numbers += 1;
        self.numbers
    }

    /// What the reformulation works on, with the rows behind it; a rule on a line that is gone is left out.
    #[must_use]
    pub fn problem(&self, recipe: &Recipe, prices: &PriceList) -> (Problem, Rows) {
        let is_there = |place: Place| match place {
            Place::Line(line) => recipe.line(line).is_some(),
            Place::Allowed(_) => false,
        };
        let targets: Vec<&AskedTarget> = self.targets.iter().filter(|row| row.is_on).collect();
        let holds = |row: &&AskedLimit| {
            let other = if let Rule::TimesOther { other, .. } = row.rule { is_there(other) } else { true };
            recipe.line(row.line).is_some() && other
        };
        let limits: Vec<&AskedLimit> = self.limits.iter().filter(holds).collect();
        let (of_lines, allowed): (Vec<&AskedIngredient>, Vec<&AskedIngredient>) =
            self.allowed.iter().partition(|row| row.line_in(recipe).is_some());
        let of_lines_at_most = of_lines.iter().filter_map(|row| {
            let limit = Limit { place: Place::Line(row.line_in(recipe)?.id), rule: Rule::AtMost(row.allowed.most?) };
            Some((row.number, limit))
        });
        let asked = limits.iter().map(|row| (row.number, Limit { place: Place::Line(row.line), rule: row.rule }));
        let (numbers, limits): (Vec<u32>, Vec<Limit>) = asked.chain(of_lines_at_most).unzip();
        let mut problem = Problem {
            targets: targets.iter().map(|row| row.target).collect(),
            allowed: allowed.iter().map(|row| row.allowed.clone()).collect(),
            limits,
            keeps_total: !self.is_total_free,
            change: self.change,
            scale: self.scale,
            prices: prices.clone(),
            ..Problem::new(recipe.clone())
        };
        if let Seasoning::Held { but } = &self.seasoning {
            let is_allowed = |line: &Line| of_lines.iter().any(|row| row.allowed.ingredient.id == line.ingredient.id);
            problem.hold_seasoning(|line| but.contains(&line.id) || is_allowed(line));
        }
        let line = |limit: &Limit| if let Place::Line(line) = limit.place { Some(line) } else { None };
        let rows = Rows {
            targets: targets.iter().map(|row| row.number).collect(),
            held: problem.limits.iter().skip(numbers.len()).filter_map(line).collect(),
            limits: numbers,
            allowed: allowed.iter().map(|row| row.number).collect(),
        };
        (problem, rows)
    }

    /// The lines of seasoning that may not rise.
    #[must_use]
    pub fn held_seasoning(&self, recipe: &Recipe) -> Vec<LineId> {
        self.problem(recipe, &PriceList::default()).1.held
    }

    /// Lets a line of seasoning rise, while the others are held.
    fn let_rise(&mut self, line: Option<LineId>) {
        if let (Seasoning::Held { but }, Some(line)) = (&mut self.seasoning, line) {
            but.push(line);
        }
    }

    /// Takes away how much may be used of what is allowed in a row.
    fn use_freely(&mut self, number: u32) {
        for row in self.allowed.iter_mut().filter(|row| row.number == number) {
            row.allowed.most = None;
        }
    }

    /// Gives up one of the things that contradict each other; `false` where only the sheet can do that.
    pub fn give_up(&mut self, member: Member, rows: &Rows) -> bool {
        match member {
            Member::Target(idx) => {
                let number = rows.targets.get(idx);
                for row in self.targets.iter_mut().filter(|row| Some(&row.number) == number) {
                    row.is_on = false;
                }
            }
            Member::Limit(idx) => {
                if let Some(number) = rows.limits.get(idx) {
                    let line = self.limits.iter().find(|row| row.number == *number).map(|row| row.line);
                    self.limits.retain(|row| row.number != *number);
                    // Of seasoning the rule would come back in the place of its own limit.
                    self.let_rise(line);
                    self.use_freely(*number);
                } else {
                    let held = idx.checked_sub(rows.limits.len()).and_then(|idx| rows.held.get(idx));
                    self.let_rise(held.copied());
                }
            }
            Member::Allowance(idx) => {
                if let Some(number) = rows.allowed.get(idx) {
                    self.use_freely(*number);
                }
            }
            Member::Total => self.is_total_free = true,
            Member::Lock(_) => return false,
        }
        true
    }
}

/// What would answer a finding, if a target can.
///
/// Of seeding by habit above the form V limit: a limit so high that the habit would hold.
#[must_use]
pub fn target_of_finding(finding: &Finding) -> Option<Target> {
    match finding.subject {
        Subject::HabitAboveLimit { habit: (_, high), .. } => {
            Some(Target::new(Measured::FormVLimit, Bound::AtLeast(high.0)))
        }
        _ => Target::of_finding(finding),
    }
}

/// A target for a result that was chosen from a list: where it lies now, so that nothing changes before it is typed.
#[must_use]
pub fn target_at_present(of: Measured, scene: &Scene<'_>) -> Option<Target> {
    let figure = scene.mass().figure(of)?;
    let decimals = decimals(of);
    let is_lower = matches!(
        of,
        Measured::SolidFat(_)
            | Measured::Crystals(_)
            | Measured::Contraction
            | Measured::FormVLimit
            | Measured::CocoaButterInFat
    );
    let target = |at: f64| Target::new(of, if is_lower { Bound::AtLeast(at) } else { Bound::AtMost(at) });
    let decides = if of == Measured::WaterActivity { figure.high() } else { figure.value };
    let nearest = round_half_up(decides, decimals);
    // The nearest may lie on the wrong side.
    let step = 10_f64.powi(-decimals.cast_signed());
    let outside = round_half_up(if is_lower { nearest - step } else { nearest + step }, decimals);
    Some(target(nearest)).filter(|target| target.is_met_by(figure)).or_else(|| Some(target(outside)))
}

impl Worked {
    /// What was found, if anything was: the nearest recipe, or the one that misses least.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        match self.outcome.as_ref().ok()? {
            Outcome::Changed(answer) => Some(answer),
            Outcome::Impossible(why) => Some(&why.nearest),
            Outcome::Unchanged(_) | Outcome::Stopped => None,
        }
    }

    /// What came of the target in a row.
    #[must_use]
    pub fn reached(&self, row: u32) -> Option<&Reached> {
        let place = self.rows.targets.iter().position(|number| *number == row)?;
        let reached = match self.outcome.as_ref().ok()? {
            Outcome::Unchanged(reached) => reached,
            Outcome::Changed(answer) => &answer.reached,
            Outcome::Impossible(why) => &why.nearest.reached,
            Outcome::Stopped => return None,
        };
        // Figures that are not known have no place in the list.
        let target = self.problem.targets.get(place)?;
        reached.iter().find(|reached| reached.target == *target)
    }

    /// Whether the answer is another recipe than the present one.
    #[must_use]
    pub fn is_another(&self) -> bool {
        self.answer().is_some_and(|answer| answer.moves.iter().any(|moved| moved.before != moved.after))
    }

    /// The change that makes the present recipe the proposed one.
    #[must_use]
    pub fn edit(&self) -> Option<Edit> {
        let proposed = &self.document.as_ref()?.recipe.lines;
        let lines = &self.problem.recipe.lines;
        let changed = lines.iter().zip(proposed).filter(|(before, after)| before.amount != after.amount);
        let amounts: Vec<(LineId, Quantity)> = changed.map(|(before, after)| (before.id, after.amount)).collect();
        let comes_in = |line: &&Line| line.amount.grams().0 > 0.0;
        let added = proposed.iter().skip(lines.len()).filter(comes_in);
        let added = added.map(|line| (Arc::clone(&line.ingredient), line.amount)).collect();
        Some(Edit::Reformulate { amounts, added })
    }
}

/// What takes longer than this is given up with a word; those of kitchens take far less than a second (judged).
pub const LONGEST: Duration = Duration::from_secs(30);

/// Works on what is asked and tells what came of it; nothing once it was told to stop. Where it cannot be done, that is told at
/// once, and again with what would help when that was looked for.
pub fn work(number: u64, problem: Problem, rows: Rows, is_stopped: &dyn Fn() -> bool, tell: &dyn Fn(Worked)) {
    let Some(mut worked) = answered(number, problem, rows, is_stopped) else { return };
    let is_impossible = matches!(worked.outcome, Ok(Outcome::Impossible(_)));
    tell(worked.clone());
    if is_impossible && let Ok(outcome) = &mut worked.outcome {
        let begun = Instant::now();
        seek_helpers(&worked.problem, outcome, &|| is_stopped() || begun.elapsed() > LONGEST);
        if !is_stopped() {
            tell(worked);
        }
    }
}

fn answered(number: u64, problem: Problem, rows: Rows, is_stopped: &dyn Fn() -> bool) -> Option<Worked> {
    let begun = Instant::now();
    let outcome = reformulate(&problem, &|| is_stopped() || begun.elapsed() > LONGEST);
    if is_stopped() {
        return None;
    }
    let mut worked = Worked { number, problem, rows, outcome, document: None, effects: (Grams::ZERO, Vec::new()) };
    if worked.is_another() {
        worked.document = worked.answer().map(|answer| Arc::new(Document { recipe: answer.recipe.clone() }));
    }
    if worked.outcome.is_ok() {
        let recipe = worked.document.as_ref().map_or(&worked.problem.recipe, |document| &document.recipe);
        let (targets, prices) = (worked.problem.targets.clone(), worked.problem.prices.clone());
        let alone = Problem { targets, prices, ..Problem::new(recipe.clone()) };
        worked.effects = sensitivities(&alone);
    }
    (!is_stopped()).then_some(worked)
}
