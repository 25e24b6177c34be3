//! `nibwright substitute FROM TO FILE…`: an ingredient exchanged in recipes, with the results held that matter.

use std::fmt::Write as _;
use std::path::PathBuf;

use clap::Args;

use super::named::ingredient_named;
use super::reformulate::target::parse_measured;
use super::{Failure, Format};
use crate::ingredient::Library;
use crate::number::DecimalSign;
use crate::reformulate::Change;
use crate::reformulate::measured::Measured;
use crate::reformulate::substitute::{Hold, Others, Substitution};
use crate::report::json::substitution::{Exchange, report};
use crate::report::words::substitution::{difference, held, not_worked, reasons};
use crate::store::exchange::{NotWorked, Worked, work_out};
use crate::store::list_recipes;

/// Arguments of `substitute`.
#[derive(Debug, Args)]
pub struct SubstituteArguments {
    /// What goes: the id or the exact name of an ingredient.
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

impl SubstituteArguments {
    pub(super) fn run(&self) -> Result<String, Failure> {
        let substitution = self.substitution()?;
        let mut files = Vec::new();
        for path in &self.files {
            if path.is_dir() {
                let listed = list_recipes(path).map_err(|error| error.to_string())?;
                files.extend(listed.into_iter().map(|entry| entry.path));
            } else {
                files.push(path.clone());
            }
        }
        let mut all: Vec<Done> = Vec::new();
        work_out(&files, &substitution, Library::built_in(), &|| false, |_, worked| {
            all.extend(worked.map(|worked| Done { worked, written: None }));
            true
        });
        if self.write {
            for done in all.iter_mut().filter(|done| done.worked.can_be_written()) {
                done.written = Some(done.worked.write().map_err(|error| error.to_string()));
            }
        }
        let output = match self.format {
            Format::Text => text(&all, files.len(), &substitution),
            Format::Json => json(&all)?,
        };
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

    fn substitution(&self) -> Result<Substitution, String> {
        let named = |name: &String| ingredient_named(name, []);
        // What goes may be an ingredient of the recipes' own, of which the library knows nothing.
        let from = named(&self.from).map_or_else(|_| self.from.clone(), |ingredient| ingredient.id.clone());
        let hold: Vec<Measured> = self.hold.iter().map(|text| parse_measured(text)).collect::<Result<_, _>>()?;
        Ok(Substitution {
            besides: self.besides.as_ref().map(named).transpose()?,
            hold: if hold.is_empty() { Hold::Usual } else { Hold::These(hold) },
            others: if self.others_stay { Others::Stay } else { Others::Move },
            change: if self.few_lines { Change::FewLines } else { Change::Spread },
            ..Substitution::new(&from, named(&self.to)?)
        })
    }
}

fn text(all: &[Done], looked_at: usize, substitution: &Substitution) -> String {
    let sign = DecimalSign::Point;
    let mut out = String::new();
    // Writing to a String cannot fail.
    let _ =
        writeln!(out, "{} → {}: used in {} of {looked_at} recipes", substitution.from, substitution.to.name, all.len());
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
                for sentence in reasons(substituted, sign) {
                    let _ = writeln!(out, "  {sentence}");
                }
                for one in substituted.differences() {
                    let _ = writeln!(out, "  {}", difference(&one, sign));
                }
                for idx in 0..substituted.held.len() {
                    let _ = writeln!(out, "  held: {}", held(substituted, idx, sign).unwrap_or_default());
                }
            }
        }
        if let Some(Err(why)) = written {
            let _ = writeln!(out, "  {why}");
        }
    }
    out
}

fn why_not(why: &NotWorked) -> String {
    match why {
        NotWorked::Load(why) => why.to_string(),
        NotWorked::Substitution(why) => not_worked(why, DecimalSign::Point),
    }
}

fn json(all: &[Done]) -> Result<String, String> {
    let exchanges: Vec<Exchange> = all
        .iter()
        .map(|Done { worked, written }| Exchange {
            file: worked.path.display().to_string(),
            recipe: &worked.title,
            result: worked.result.as_ref().map_err(why_not),
            is_written: matches!(written, Some(Ok(()))),
        })
        .collect();
    report(&exchanges).map_err(|error| error.to_string())
}
