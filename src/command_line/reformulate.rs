//! `nibwright reformulate FILE`: the nearest recipe that does what is asked, or why there is none.

pub(super) mod target;

use std::path::PathBuf;
use std::time::{Duration, Instant};

use clap::Args;

use super::input::MassArguments;
use super::named::{carried, ingredient_named, lines_named, place_named};
use super::output::check_new_recipe;
use super::{Failure, Format};
use crate::analysis::parts::Parts;
use crate::analysis::{ROOM, analyse};
use crate::number::DecimalSign;
use crate::production::typed::{parse_ready, parse_step};
use crate::recipe::{Line, Recipe};
use crate::reformulate::helpers::seek_helpers;
use crate::reformulate::measured::Mass;
use crate::reformulate::{
    Allowed, Bound, Change, Limit, Measured, Outcome, Place, Problem, ProblemError, Rule, Scale, Target, reformulate,
};
use crate::report::words::reformulation::{ReformulationWords, measured, money, target as target_words};
use crate::report::{json, text};
use crate::store;
use crate::units::Grams;

/// A reformulation that takes longer than this is given up; those of kitchens take far less than a second.
const LONGEST: Duration = Duration::from_secs(10);

/// Arguments of `reformulate`.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of the command line")]
pub struct ReformulateArguments {
    /// A recipe (.ron), a table (.csv, .tsv), or - for a table on standard input.
    file: PathBuf,
    /// What is asked for, such as "water activity at most 0.85", "sugars between 28 and 36", "fat to water near 1.2".
    #[arg(long = "target", value_name = "TEXT")]
    targets: Vec<String>,
    /// Ask for everything that is usual for the use as well, but for what nothing in the recipe brings.
    #[arg(long)]
    usual: bool,
    /// An ingredient of the recipe that stays as it is; lines that are locked in the file stay anyway.
    #[arg(long = "lock", value_name = "NAME")]
    locks: Vec<String>,
    /// An ingredient that may be used besides, with the most of it if that matters: "sorbitol-powder=30 g"; of one that is in
    /// the recipe, its line.
    #[arg(long = "allow", value_name = "NAME[=MAX]")]
    allowed: Vec<String>,
    /// What is asked of one amount: "butter at most 60 g", "cream at least 0.2 kg", "egg-yolk in packs of 18 g", "sugar 2
    /// times water".
    #[arg(long = "amount", value_name = "TEXT")]
    amounts: Vec<String>,
    /// Change few lines instead of all a little.
    #[arg(long)]
    few_lines: bool,
    /// Let the weight of the batch change.
    #[arg(long)]
    free_total: bool,
    /// Your price list, for targets of cost.
    #[arg(long, value_name = "LIST")]
    prices: Option<PathBuf>,
    /// The step of the scale in g; small amounts are weighed on a finer one.
    #[arg(long, value_name = "AMOUNT", default_value = "1 g", value_parser = parse_step)]
    step: Grams,
    /// There is no finer scale for small amounts.
    #[arg(long)]
    one_scale: bool,
    /// Text for people or JSON for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Also write the new recipe to this file (.ron).
    #[arg(short = 'o', long = "output", value_name = "NEW")]
    output: Option<PathBuf>,
    /// Let --output replace a file that is there.
    #[arg(long, requires = "output")]
    replace: bool,
    #[command(flatten)]
    mass: MassArguments,
}

impl ReformulateArguments {
    pub(super) fn run(&self) -> Result<String, Failure> {
        let recipe = self.mass.recipe(&self.file)?;
        if let Some(output) = &self.output {
            check_new_recipe(output, self.replace)?;
        }
        let problem = self.problem(recipe)?;
        let begun = Instant::now();
        let mut outcome = reformulate(&problem, &|| begun.elapsed() > LONGEST)
            .map_err(|error| Failure::unusable(not_well_put(&problem, &error)))?;
        let begun = Instant::now();
        seek_helpers(&problem, &mut outcome, &|| begun.elapsed() > LONGEST);
        let output = match self.format {
            Format::Text => text::reformulation::report(&problem, &outcome, DecimalSign::Point),
            Format::Json => json::reformulation::report(&problem, &outcome).map_err(|error| error.to_string())?,
        };
        match &outcome {
            Outcome::Unchanged(_) => {
                self.write(&problem.recipe)?;
                Ok(output)
            }
            Outcome::Changed(answer) => {
                self.write(&answer.recipe)?;
                Ok(output)
            }
            Outcome::Impossible(_) => Err(Failure::impossible(
                "it cannot be done; the reasons and the nearest recipe are in the output, nothing is written",
            )
            .with_output(output)),
            Outcome::Stopped => Err(Failure::impossible(
                "the search came to no end; ask for fewer targets or fewer packs at once, nothing is written",
            )
            .with_output(output)),
        }
    }

    fn write(&self, recipe: &Recipe) -> Result<(), Failure> {
        let Some(output) = &self.output else { return Ok(()) };
        store::save_recipe(output, recipe).map_err(|error| Failure::unusable(error.to_string()))
    }

    fn problem(&self, recipe: Recipe) -> Result<Problem, String> {
        /// A step of more than this share of the batch weighs nothing of it (judged).
        const COARSEST: f64 = 0.1;
        if recipe.lines.is_empty() {
            return Err("the recipe has no lines yet; add its ingredients with their amounts first".to_owned());
        }
        if recipe.weighed().0 <= 0.0 {
            return Err("the recipe weighs 0 g; give its lines amounts first".to_owned());
        }
        let usual = if self.usual { Target::usual(&analyse(&recipe, ROOM)) } else { Vec::new() };
        let mut problem = Problem::new(recipe);
        if let Some(list) = &self.prices {
            problem.prices = store::load_price_list(list).map_err(|error| error.to_string())?;
        }
        problem.targets =
            self.targets.iter().map(|text| target::parse(text, money(&problem))).collect::<Result<_, _>>()?;
        problem.allowed = self.allowed.iter().map(|text| allowed(text, &problem)).collect::<Result<_, _>>()?;
        // What is asked for by name counts more than what is usual.
        for target in usual {
            if !problem.targets.iter().any(|asked| asked.of == target.of) && is_brought(&target, &problem) {
                problem.targets.push(target);
            }
        }
        // Who names seasoning has said what may become of it.
        let free: Vec<String> = problem.allowed.iter().map(|allowed| allowed.ingredient.id.clone()).collect();
        let mut limits = allowed_lines(&mut problem);
        for name in &self.locks {
            let lines = lines_named(&problem.recipe, name)?;
            limits.extend(lines.into_iter().map(|line| Limit { place: Place::Line(line.id), rule: Rule::Locked }));
        }
        for text in &self.amounts {
            limits.push(limit(text, &problem)?);
        }
        problem.limits = limits;
        if problem.targets.is_empty() && problem.limits.is_empty() {
            return Err("nothing is asked for; give a --target, such as --target 'water activity at most 0.85', or \
                        --usual"
                .to_owned());
        }
        problem.hold_seasoning(|line| free.contains(&line.ingredient.id));
        let batch = problem.recipe.weighed();
        if self.step.0 > COARSEST * batch.0 {
            return Err(
                "the --step is more than a tenth of what the recipe weighs; give that of a finer scale".to_owned()
            );
        }
        problem.keeps_total = !self.free_total;
        problem.change = if self.few_lines { Change::FewLines } else { Change::Spread };
        problem.scale = Scale { coarsest: self.step, has_finer: !self.one_scale };
        Ok(problem)
    }
}

/// Whether anything that is weighed in or may be used brings what a target asks for: a white ganache never has the cocoa of a dark
/// one, whatever is usual.
fn is_brought(target: &Target, problem: &Problem) -> bool {
    let lines = problem.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0).map(|line| &line.ingredient);
    let mut all = lines.chain(problem.allowed.iter().map(|allowed| &allowed.ingredient));
    all.any(|ingredient| {
        let mut parts = Parts::default();
        parts.add(ingredient, Grams(100.0));
        // A mixture holds no more of it than the richest of its parts; and what is not known may be there.
        let holds = |share: f64| match target.bound {
            Bound::AtLeast(low) | Bound::Between(low, _) => share >= low,
            Bound::AtMost(_) | Bound::Near(_) => share > 0.0,
        };
        Mass::new(&problem.recipe, &parts).figure(target.of).is_none_or(|figure| holds(figure.value))
    })
}

/// What is allowed and stands in a line already that may move is no second line: what is said of it is said of that line.
fn allowed_lines(problem: &mut Problem) -> Vec<Limit> {
    let mut limits = Vec::new();
    let lines = &problem.recipe.lines;
    problem.allowed.retain(|allowed| {
        let is_it = |line: &&Line| line.ingredient.id == allowed.ingredient.id && !line.stays();
        let Some(line) = lines.iter().find(is_it) else { return true };
        limits.extend(allowed.most.map(|most| Limit { place: Place::Line(line.id), rule: Rule::AtMost(most) }));
        false
    });
    limits
}

fn allowed(text: &str, problem: &Problem) -> Result<Allowed, String> {
    let (name, most) = match text.split_once('=') {
        Some((name, most)) => (name.trim(), Some(grams(most)?)),
        None => (text.trim(), None),
    };
    Ok(Allowed { ingredient: ingredient_named(name, carried(&problem.recipe))?, most })
}

/// What is asked of one amount.
fn limit(text: &str, problem: &Problem) -> Result<Limit, String> {
    let refuse = || {
        format!(
            "amount \"{text}\": write NAME at most 60 g, NAME at least 60 g, NAME in packs of 250 g, or NAME 0.5 times \
             OTHER"
        )
    };
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    for (kind, rule) in [
        (" at most ", Rule::AtMost as fn(Grams) -> Rule),
        (" at least ", Rule::AtLeast),
        (" in packs of ", Rule::InPacks),
    ] {
        if let Some((name, amount)) = words.split_once(kind) {
            return Ok(Limit { place: place_named(problem, name)?, rule: rule(grams(amount)?) });
        }
    }
    let (front, other) = words.split_once(" times ").ok_or_else(refuse)?;
    let (name, times) = front.rsplit_once(' ').ok_or_else(refuse)?;
    let times = crate::number::parse(times).map_err(|_| refuse())?;
    let rule = Rule::TimesOther { other: place_named(problem, other)?, times };
    Ok(Limit { place: place_named(problem, name)?, rule })
}

/// A mass in g, kg, oz or lb, perhaps none; g where no unit is said.
fn grams(text: &str) -> Result<Grams, String> {
    parse_ready(text.trim()).map_err(|error| format!("\"{}\": {error}", text.trim()))
}

fn not_well_put(problem: &Problem, error: &ProblemError) -> String {
    match error {
        ProblemError::NoFigure { of: Measured::Cost, .. } => {
            let is_unpriced = |line: &&Line| problem.prices.price(&line.ingredient.id).is_none();
            let unpriced: Vec<&str> =
                problem.recipe.lines.iter().filter(is_unpriced).map(|line| line.ingredient.id.as_str()).collect();
            format!(
                "a target of cost needs a price for every line in one currency; give --prices LIST with {}",
                if unpriced.is_empty() { "one currency".to_owned() } else { unpriced.join(", ") }
            )
        }
        ProblemError::NoFigure { target, of } => {
            let asked =
                problem.targets.get(*target).map(|target| target_words(target, money(problem), DecimalSign::Point));
            format!(
                "target \"{}\": this recipe has no {} that is known; run nibwright report to see why",
                asked.unwrap_or_default(),
                measured(*of, DecimalSign::Point)
            )
        }
        ProblemError::UnsoundRule => unsound_rule(problem).unwrap_or_else(|| error.to_string()),
        other => other.to_string(),
    }
}

/// Which amount cannot be asked for, and why.
fn unsound_rule(problem: &Problem) -> Option<String> {
    let words = ReformulationWords::new(problem, DecimalSign::Point);
    problem.limits.iter().find_map(|limit| {
        let why = match limit.rule {
            Rule::InPacks(pack) if pack.0 <= 0.0 => "a pack has to weigh more than 0 g; give its weight",
            Rule::TimesOther { other, .. } if other == limit.place => {
                "an ingredient cannot be a number of times itself; name another one"
            }
            Rule::TimesOther { times, .. } if times < 0.0 => "it cannot be less than 0 times; give a number above 0",
            _ => return None,
        };
        Some(format!("{}: {why}", words.rule(limit.place, limit.rule)))
    })
}
