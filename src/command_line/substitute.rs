//! `nibwright substitute FROM TO FILE…`: an ingredient exchanged in recipes, with the results held that matter.

use std::cell::OnceCell;
use std::fmt::Write as _;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::{Duration, Instant};

use clap::Args;

use super::named::{carried, ingredient_named};
use super::reformulate::target::parse_measured;
use super::{Failure, Format};
use crate::ingredient::named::{name_and_id, named, names_and_ids};
use crate::ingredient::{Ingredient, Library};
use crate::number::DecimalSign;
use crate::reformulate::measured::Measured;
use crate::reformulate::substitute::{Hold, Others, Substituted, Substitution, USUALLY_HELD};
use crate::reformulate::{Change, Outcome};
use crate::report::json::substitution::{Exchange, report};
use crate::report::words::substitution::{difference, held, not_held, not_worked, notes, reasons};
use crate::store::exchange::{NotWorked, Worked, work_out};
use crate::store::format::problem::on_one_line;
use crate::store::{list_recipes, load_price_list, load_recipe};

/// Arguments of `substitute`.
#[derive(Debug, Args)]
pub struct SubstituteArguments {
    /// What goes: the id of an ingredient, its name, or a part of it that no other has.
    from: String,
    /// What comes in its place.
    to: String,
    /// Recipes (.ron), or folders of them.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    /// What may come besides, where the one alone cannot do it.
    #[arg(long, value_name = "NAME")]
    besides: Option<String>,
    /// A result that stays as it is, such as "total fat"; without this the fat, the sugars, the water activity and the solid
    /// fat at 20 °C.
    #[arg(long = "hold", value_name = "RESULT")]
    hold: Vec<String>,
    /// Your price list, to hold the cost.
    #[arg(long, value_name = "LIST")]
    prices: Option<PathBuf>,
    /// An ingredient that stays as it is; lines that are locked in a file stay anyway.
    #[arg(long = "lock", value_name = "NAME")]
    locks: Vec<String>,
    /// Only what comes new is weighed otherwise; the batch may change its weight.
    #[arg(long)]
    others_stay: bool,
    /// Change few lines instead of all a little.
    #[arg(long)]
    few_lines: bool,
    /// Write the recipes over their files; without this nothing is written.
    #[arg(long)]
    write: bool,
    /// Text for people or JSON for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// A recipe with the exchange, and whether it was written or why not.
struct Done {
    worked: Worked,
    written: Option<Result<(), String>>,
}

/// The files of a run, and what their recipes are made of, read where a name needs it.
struct Shelf {
    files: Vec<PathBuf>,
    used: OnceCell<Vec<Arc<Ingredient>>>,
}

impl SubstituteArguments {
    pub(super) fn run(&self) -> Result<String, Failure> {
        let shelf = Shelf { files: self.files()?, used: OnceCell::new() };
        let (from, substitution) = self.substitution(&shelf)?;
        let mut all: Vec<Done> = Vec::new();
        work_out(&shelf.files, &substitution, Library::built_in(), &|| false, |_, worked| {
            all.extend(worked.map(|worked| Done { worked, written: None }));
            true
        });
        seek_helpers(&substitution, &mut all);
        if self.write {
            for done in all.iter_mut().filter(|done| done.worked.can_be_written()) {
                done.written = Some(done.worked.write().map_err(|error| error.to_string()));
            }
        }
        let output = match self.format {
            Format::Text if all.is_empty() => String::new(),
            Format::Text => text(&all, shelf.files.len(), &from, &substitution),
            Format::Json => json(&all, &substitution)?,
        };
        if all.is_empty() {
            return Err(Failure::impossible(shelf.unused(&from)).with_output(output));
        }
        let unwritten = all.iter().find_map(|done| done.written.as_ref()?.as_ref().err());
        if let Some(why) = unwritten {
            return Err(Failure::unusable(why.clone()).with_output(output));
        }
        if all.iter().all(|done| done.worked.can_be_written()) {
            Ok(output)
        } else {
            let sentence = "not in every recipe can it be done; the reasons are in the output";
            Err(Failure::impossible(sentence).with_output(output))
        }
    }

    /// The files that are named, and the recipes of the folders that are.
    fn files(&self) -> Result<Vec<PathBuf>, String> {
        let mut files = Vec::new();
        for path in &self.files {
            let name = || on_one_line(&path.display().to_string());
            if path.is_dir() {
                let listed = list_recipes(path).map_err(|error| error.to_string())?;
                files.extend(listed.into_iter().map(|entry| entry.path));
            } else if path.exists() {
                files.push(path.clone());
            } else {
                return Err(format!("{}: there is no such file or folder; check its name", name()));
            }
        }
        if files.is_empty() {
            return Err("there is no recipe (.ron) in the folder; name another, or a file".to_owned());
        }
        Ok(files)
    }

    /// What goes, and the exchange.
    fn substitution(&self, shelf: &Shelf) -> Result<(Arc<Ingredient>, Substitution), String> {
        let from = shelf.ingredient(&self.from)?;
        let to = shelf.any_ingredient(&self.to)?;
        let besides = self.besides.as_ref().map(|name| shelf.any_ingredient(name)).transpose()?;
        let hold: Vec<Measured> = self.hold.iter().map(|text| parse_measured(text)).collect::<Result<_, _>>()?;
        if hold.contains(&Measured::Cost) && self.prices.is_none() {
            return Err("to hold the cost, what the ingredients cost has to be known; give --prices LIST".to_owned());
        }
        let prices = self.prices.as_ref().map(|list| load_price_list(list).map_err(|error| error.to_string()));
        let mut locks = Vec::new();
        for name in &self.locks {
            let locked = shelf.ingredient(name)?;
            if locked.id == from.id {
                return Err(format!("\"{name}\" is what goes and cannot stay as it is; leave out --lock {name}"));
            }
            if shelf.used().iter().all(|used| used.id != locked.id) {
                return Err(format!("\"{name}\" is in none of the recipes; leave out --lock {name}"));
            }
            locks.push(locked.id.clone());
        }
        let substitution = Substitution {
            besides,
            hold: if hold.is_empty() { Hold::Usual } else { Hold::These(hold) },
            others: if self.others_stay { Others::Stay } else { Others::Move },
            locks,
            change: if self.few_lines { Change::FewLines } else { Change::Spread },
            prices: prices.transpose()?.unwrap_or_default(),
            ..Substitution::new(&from.id, to)
        };
        Ok((from, substitution))
    }
}

impl Shelf {
    /// What the recipes are made of; what cannot be read adds nothing, and is told when it is worked on.
    fn used(&self) -> &[Arc<Ingredient>] {
        self.used.get_or_init(|| {
            let mut used: Vec<Arc<Ingredient>> = Vec::new();
            for recipe in self.files.iter().filter_map(|file| load_recipe(file, Library::built_in()).ok()) {
                for ingredient in carried(&recipe) {
                    if used.iter().all(|other| other.id != ingredient.id) {
                        used.push(ingredient.clone());
                    }
                }
            }
            used
        })
    }

    /// An ingredient of the recipes, else a built-in one: what they use counts more than what they might.
    fn ingredient(&self, name: &str) -> Result<Arc<Ingredient>, String> {
        match built_in(name).or_else(|| named(name, self.used()).ok().cloned()) {
            Some(ingredient) => Ok(ingredient),
            None => self.any_ingredient(name),
        }
    }

    /// An ingredient of the recipes or a built-in one, all alike.
    fn any_ingredient(&self, name: &str) -> Result<Arc<Ingredient>, String> {
        built_in(name).map_or_else(|| ingredient_named(name, self.used()), Ok)
    }

    /// That the recipes do not use what goes, and what there is instead.
    fn unused(&self, from: &Ingredient) -> String {
        if let [_] = self.files.as_slice() {
            let there = names_and_ids(self.used());
            return format!("{} is not in the recipe; its ingredients are {}", name_and_id(from), there.join("; "));
        }
        format!("{} is in none of the {} recipes; exchange what they use", name_and_id(from), self.files.len())
    }
}

/// A built-in id needs no look into the recipes, of which there may be a thousand.
fn built_in(id: &str) -> Option<Arc<Ingredient>> {
    Library::built_in().by_id(id.trim()).cloned()
}

/// Looks for what could come besides in the first recipes in which it cannot be done: in each of a thousand it would take
/// longer than anybody waits.
fn seek_helpers(substitution: &Substitution, all: &mut [Done]) {
    /// So many (judged).
    const HELPED: usize = 10;
    /// And no longer in each of them (judged).
    const LONGEST: Duration = Duration::from_secs(5);
    let failed = all.iter_mut().filter_map(|done| done.worked.result.as_mut().ok());
    for substituted in failed.filter(|substituted| substituted.recipe().is_none()).take(HELPED) {
        let begun = Instant::now();
        substitution.seek_helpers(substituted, &|| begun.elapsed() > LONGEST);
    }
}

/// What could come besides, as it is typed.
fn helper_typed(substituted: &Substituted) -> Option<String> {
    let Outcome::Impossible(why) = &substituted.outcome else { return None };
    let typed = why.helpers.as_ref()?.named().iter().map(|helper| format!("--besides {}", helper.ingredient.id));
    let typed: Vec<String> = typed.collect();
    (!typed.is_empty()).then(|| format!("As it is typed: {}", typed.join(", or ")))
}

fn text(all: &[Done], looked_at: usize, from: &Ingredient, substitution: &Substitution) -> String {
    let sign = DecimalSign::Point;
    let mut out = String::new();
    // Writing to a String cannot fail.
    let recipes = if looked_at == 1 { "recipe" } else { "recipes" };
    let _ = writeln!(out, "{} → {}: used in {} of {looked_at} {recipes}", from.name, substitution.to.name, all.len());
    for Done { worked, written } in all {
        let verdict = match (&worked.result, written) {
            (_, Some(Ok(()))) => "written",
            (_, Some(Err(_))) => "not written",
            (Ok(_), None) if worked.can_be_written() => "can be done",
            (Ok(_), None) => "cannot be done",
            (Err(_), None) => "not worked out",
        };
        let _ = writeln!(out, "\n{} ({}): {verdict}", worked.title, worked.path.display());
        match &worked.result {
            Err(why) => {
                let _ = writeln!(out, "  {}", why_not(why));
            }
            Ok(substituted) => {
                for sentence in reasons(substituted, sign).into_iter().chain(helper_typed(substituted)) {
                    let _ = writeln!(out, "  {sentence}");
                }
                for one in substituted.differences() {
                    let _ = writeln!(out, "  {}", difference(&one, sign));
                }
                for (idx, reached) in substituted.reached().iter().enumerate() {
                    let word = if reached.is_met() { "held" } else { "not held" };
                    let _ = writeln!(out, "  {word}: {}", held(substituted, idx, sign).unwrap_or_default());
                }
                let not_held = not_held(substituted, asked(substitution), sign);
                for note in not_held.into_iter().chain(notes(substituted, sign)) {
                    let _ = writeln!(out, "  before you make it: {note}");
                }
            }
        }
        if let Some(Err(why)) = written {
            let _ = writeln!(out, "  {why}");
        }
    }
    out
}

/// The results that are to be held, where a recipe has them.
fn asked(substitution: &Substitution) -> &[Measured] {
    match &substitution.hold {
        Hold::Usual => &USUALLY_HELD,
        Hold::These(these) | Hold::TheseWhereThere(these) => these,
    }
}

fn why_not(why: &NotWorked) -> String {
    match why {
        NotWorked::Load(why) => why.to_string(),
        NotWorked::Substitution(why) => not_worked(why, DecimalSign::Point),
    }
}

fn json(all: &[Done], substitution: &Substitution) -> Result<String, String> {
    let exchanges: Vec<Exchange> = all
        .iter()
        .map(|Done { worked, written }| Exchange {
            file: worked.path.display().to_string(),
            recipe: &worked.title,
            result: worked.result.as_ref().map_err(why_not),
            asked: asked(substitution),
            is_written: matches!(written, Some(Ok(()))),
        })
        .collect();
    report(&exchanges).map_err(|error| error.to_string())
}
