//! The recipe that a command is about: a file, a table, or a table on standard input.

use std::ffi::OsStr;
use std::io::Read as _;
use std::path::Path;

use clap::Args;

use super::table::{Separator, parse_table};
use crate::ingredient::Library;
use crate::recipe::{Kind, Recipe, Use};
use crate::store;
use crate::store::format::problem::on_one_line;
use crate::units::Celsius;

/// What a table cannot say itself; said beside a recipe, it counts in the place of what that says.
#[derive(Debug, Args)]
pub(super) struct MassArguments {
    /// What sort of mass a table is.
    #[arg(long, value_parser = parse_kind, long_help = format!("What sort of mass a table is: {}", kinds()))]
    kind: Option<Kind>,
    /// What the mass of a table is used for.
    #[arg(
        long = "use",
        value_name = "USE",
        value_parser = parse_use,
        long_help = format!("What the mass of a table is used for: {}", uses())
    )]
    intended_use: Option<Use>,
}

impl MassArguments {
    /// The recipe of a file with it.
    pub(super) fn recipe(&self, file: &Path) -> Result<Recipe, String> {
        read_recipe(file, self.kind, self.intended_use)
    }
}

/// The recipe of a file, of `-` the table on standard input. Kind and use count in the place of what a recipe says itself.
fn read_recipe(file: &Path, kind: Option<Kind>, intended_use: Option<Use>) -> Result<Recipe, String> {
    let table = |text: &str, label: &str, separator| {
        parse_table(text, label, separator, kind.unwrap_or_default(), intended_use, Library::built_in())
            .map_err(|error| on_one_line(&error.to_string()))
    };
    if file.as_os_str() == "-" {
        let text = standard_input()?;
        if is_recipe(&text) {
            return Err(
                "standard input is read as a table, and this is a recipe; name its file instead of -".to_owned()
            );
        }
        return table(&text, "standard input", Separator::Detect);
    }
    let extension = file.extension().and_then(OsStr::to_str).map(str::to_lowercase);
    match extension.as_deref() {
        Some("ron") => {
            let mut recipe = store::load_recipe(file, Library::built_in()).map_err(|error| error.to_string())?;
            // A recipe says itself what it is; said on the command line, it counts for this run.
            recipe.kind = kind.unwrap_or(recipe.kind);
            recipe.intended_use = intended_use.or(recipe.intended_use);
            Ok(recipe)
        }
        Some(extension @ ("csv" | "tsv")) => {
            let separator = if extension == "tsv" { Separator::Tab } else { Separator::Detect };
            let text = store::read_text(file).map_err(|error| error.to_string())?;
            table(&text, &file.display().to_string(), separator)
        }
        // What is no file at all says so first.
        _ => Err(store::read_text(file).err().map_or_else(|| not_known(file), |error| error.to_string())),
    }
}

fn not_known(file: &Path) -> String {
    format!(
        "{}: not a recipe (.ron) or a table (.csv, .tsv); rename the file by what it holds",
        on_one_line(&file.display().to_string())
    )
}

/// Whether a text begins as recipe files do and no table does: with a bracket or a comment.
fn is_recipe(text: &str) -> bool {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).trim_start();
    ["(", "//", "/*", "#![", "Recipe("].iter().any(|beginning| text.starts_with(beginning))
}

fn standard_input() -> Result<String, String> {
    let mut bytes = Vec::new();
    std::io::stdin()
        .lock()
        .take(store::LARGEST_FILE + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| format!("standard input: cannot be read ({error}); name a file instead"))?;
    if bytes.len() as u64 > store::LARGEST_FILE {
        return Err(format!(
            "standard input: more than {}; a recipe is far smaller, check what is sent",
            store::megabytes(store::LARGEST_FILE)
        ));
    }
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!("standard input: byte {} is not UTF-8; save the table as UTF-8", at + 1)
    })
}

fn parse_kind(text: &str) -> Result<Kind, String> {
    Kind::from_key(&text.to_lowercase().replace(['-', ' '], "_")).ok_or_else(|| format!("one of: {}", kinds()))
}

fn parse_use(text: &str) -> Result<Use, String> {
    Use::from_key(&text.to_lowercase().replace(['-', ' '], "_")).ok_or_else(|| format!("one of: {}", uses()))
}

fn kinds() -> String {
    Kind::ALL.map(Kind::key).join(", ")
}

fn uses() -> String {
    Use::ALL.map(Use::key).join(", ")
}

/// A temperature: a number in °C, with or without its unit, or in °F with it.
pub(super) fn parse_temperature(text: &str) -> Option<Celsius> {
    let text = text.trim().to_lowercase();
    let (number, is_fahrenheit) = match text.strip_suffix('f') {
        Some(number) => (number, true),
        None => (text.strip_suffix('c').unwrap_or(&text), false),
    };
    let number = number.trim_end().trim_end_matches('°').trim_end();
    let degrees = crate::number::parse(number).ok()?;
    Some(if is_fahrenheit { Celsius::from_fahrenheit(degrees) } else { Celsius(degrees) })
}
