//! `nibwright scale FILE…`: what to weigh today, as text or JSON.

use std::path::{Path, PathBuf};

use clap::Args;
use rust_decimal::Decimal;

use super::input::MassArguments;
use super::named::lines_named;
use super::output::check_new_recipe;
use super::{Failure, Format};
use crate::ingredient::named::NotNamed;
use crate::number::{DecimalSign, parse_decimal};
use crate::production::day::{Day, Work};
use crate::production::frame::{Cut, Frame};
use crate::production::order::{Form, Order, ShellOf, Wanted};
use crate::production::piece_cost::work_cost;
use crate::production::typed::{
    parse_count, parse_cut, parse_density, parse_frame, parse_loss, parse_mass, parse_millilitres, parse_ready,
    parse_shell, parse_step, parse_trim,
};
use crate::production::weighing::{Scales, steps_in};
use crate::recipe::{LineId, Recipe, TransferLoss};
use crate::report::{json, text};
use crate::store;
use crate::store::format::problem::on_one_line;
use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres, Millimetres};

/// Arguments of `scale`.
#[derive(Debug, Args)]
pub struct ScaleArguments {
    /// Recipes (.ron) or tables (.csv, .tsv, - for standard input); what is asked for holds for each of them.
    #[arg(required = true)]
    files: Vec<PathBuf>,
    #[command(flatten)]
    amount: AmountArguments,
    #[command(flatten)]
    form: FormArguments,
    /// Another recipe of the day, with the mass that it has to give behind all losses: --also 'praline.ron=3 kg'; without one
    /// what is asked for holds for it too; may be given several times.
    #[arg(long, value_name = "FILE[=AMOUNT]")]
    also: Vec<String>,
    /// A loss in percent behind those of the recipe, such as 4; may be given several times, and losses multiply.
    #[arg(long, value_name = "PERCENT", value_parser = parse_loss)]
    loss: Vec<TransferLoss>,
    /// What a bowl holds, with its seed; more is split over bowls that are alike.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_mass)]
    bowl: Option<Grams>,
    /// The step of the scale.
    #[arg(long, value_name = "AMOUNT", default_value = "1 g", value_parser = parse_step)]
    step: Grams,
    /// The step of a finer scale, for what the first one is too coarse for.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_step)]
    fine_step: Option<Grams>,
    /// The step of the scale that one ingredient has for itself: --step-of 'salt=0.1 g'; may be given several times.
    #[arg(long = "step-of", value_name = "INGREDIENT=AMOUNT", value_parser = parse_step_of)]
    steps_of: Vec<(String, Grams)>,
    /// Also tell each line in percent of this ingredient, as bakers do: its id or its name.
    #[arg(long, value_name = "INGREDIENT")]
    base: Option<String>,
    /// The seed that is ready, to hold against what all recipes need.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_ready)]
    ready: Option<Grams>,
    #[command(flatten)]
    money: MoneyArguments,
    /// Text for people or JSON for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Also write the recipe as it is weighed to this file (.ron).
    #[arg(short, long, value_name = "NEW")]
    output: Option<PathBuf>,
    /// Let --output replace a file that is there.
    #[arg(long, requires = "output")]
    replace: bool,
    #[command(flatten)]
    mass: MassArguments,
}

/// What it costs.
#[derive(Debug, Args)]
struct MoneyArguments {
    /// Your price list: what the batch, a kilogram and a piece cost.
    #[arg(long, value_name = "LIST")]
    prices: Option<PathBuf>,
    /// The ingredient of the shells or coats, by its id in the price list.
    #[arg(long, value_name = "INGREDIENT", requires = "prices")]
    shell_of: Option<String>,
    /// What else goes into a piece, in the money of the list: packaging, work; may be given several times.
    #[arg(long, value_name = "MONEY", requires = "prices", value_parser = parse_money)]
    per_piece: Vec<Decimal>,
}

/// How much is asked for; without any of it the recipe as it stands.
#[derive(Debug, Args)]
#[group(multiple = false)]
struct AmountArguments {
    /// So much mass behind all losses, such as 2.5 kg.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_mass)]
    mass: Option<Grams>,
    /// As much as what there is of an ingredient gives: --have "1300 g" --of puree.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_mass, requires = "of")]
    have: Option<Grams>,
    /// So many pieces.
    #[arg(long, value_name = "NUMBER", value_parser = parse_count)]
    pieces: Option<u32>,
    /// So many full frames.
    #[arg(long, value_name = "NUMBER", value_parser = parse_count, requires = "frame")]
    frames: Option<u32>,
}

/// What is made of the mass.
#[derive(Debug, Args)]
struct FormArguments {
    /// The ingredient of --have: its id, its name, or a part of it that no other name holds.
    #[arg(long, value_name = "INGREDIENT", requires = "have")]
    of: Option<String>,
    /// What a piece weighs, with its shell if it has one.
    #[arg(long, value_name = "AMOUNT", value_parser = parse_mass, conflicts_with_all = ["cavity", "frame"])]
    piece: Option<Grams>,
    /// What a cavity of the mould holds, in ml, or in US fluid ounces: "0.34 fl oz".
    #[arg(long, value_name = "ML", value_parser = parse_millilitres, conflicts_with = "frame")]
    cavity: Option<Millilitres>,
    /// Shell and base, or of a cut piece the coat, in percent of the whole piece.
    #[arg(long, value_name = "PERCENT", value_parser = parse_shell)]
    shell: Option<MassFraction>,
    /// Density of the shell in g/ml, with --cavity and --shell.
    #[arg(long, value_name = "G_PER_ML", value_parser = parse_density, requires = "shell", requires = "cavity")]
    shell_density: Option<GramsPerMillilitre>,
    /// The inside of a frame in mm, such as 340x340x10.
    #[arg(long, value_name = "LENGTHxWIDTHxHEIGHT", value_parser = parse_frame)]
    frame: Option<Frame>,
    /// The size of a piece that is cut from the frame in mm, from wire to wire: 22.5 or 22.5x30.
    #[arg(long, value_name = "MM", value_parser = parse_cut, requires = "frame")]
    cut: Option<(Millimetres, Millimetres)>,
    /// What is trimmed on every side of the frame in mm.
    #[arg(long, value_name = "MM", value_parser = parse_trim, requires = "cut")]
    trim: Option<Millimetres>,
    /// Density of the mass in g/ml, weighed; computed if left out.
    #[arg(long, value_name = "G_PER_ML", value_parser = parse_density)]
    density: Option<GramsPerMillilitre>,
}

impl ScaleArguments {
    pub(super) fn run(&self) -> Result<String, Failure> {
        let order = self.order()?;
        self.check_output()?;
        if self.fine_step.is_some_and(|fine| fine >= self.step) {
            return Err(Failure::unusable(
                "--fine-step is not finer than --step; give the finer of the two scales with it",
            ));
        }
        let scales = Scales { step: self.step, fine_step: self.fine_step };
        let asked = self.files.iter().map(|file| Ok((file.clone(), order.clone())));
        let asked = asked.chain(self.also.iter().map(|also| also_asked(also, &order)));
        let mut recipes = Vec::new();
        for asked in asked {
            let (file, order) = asked?;
            recipes.push((self.mass.recipe(&file)?, file, order));
        }
        let own_steps = self.own_steps(&recipes)?;
        let mut works = Vec::with_capacity(recipes.len());
        for (recipe, file, order) in &recipes {
            let work = Work::with_steps(recipe, order, scales, self.bowl, &steps_in(recipe, &own_steps));
            let work = work.map_err(|why| impossible(file, &why.to_string()))?;
            works.push(Work { base: self.base_in(recipe, file)?, ..work });
        }
        self.money.tell(&mut works)?;
        let day = Day::new(works, self.ready).map_err(|why| Failure::impossible(why.to_string()))?;
        if let (Some(output), [work]) = (&self.output, day.works.as_slice()) {
            let recipe = work.as_weighed().map_err(|why| Failure::impossible(why.to_string()))?;
            store::save_recipe(output, &recipe).map_err(|error| error.to_string())?;
        }
        match self.format {
            Format::Text => Ok(text::weighing_list(&day, DecimalSign::Point)),
            Format::Json => json::weighing_list(&day).map_err(|error| Failure::unusable(error.to_string())),
        }
    }

    /// What has a scale of its own, by the ids of its ingredients: the name is read in the first recipe that has it, and holds
    /// for all of them.
    fn own_steps(&self, recipes: &[(Recipe, PathBuf, Order)]) -> Result<Vec<(String, Grams)>, Failure> {
        let mut own_steps: Vec<(String, Grams)> = Vec::new();
        for (name, step) in &self.steps_of {
            let is_known = |recipe: &Recipe| !matches!(recipe.lines_named(name), Err(NotNamed::Unknown));
            let with_it = recipes.iter().find(|(recipe, ..)| is_known(recipe)).or(recipes.first());
            let Some((recipe, file, _)) = with_it else { continue };
            let lines = lines_named(recipe, name).map_err(|why| impossible(file, &why))?;
            // One ingredient, in one line or in several.
            let Some(ingredient) = lines.first().map(|line| &line.ingredient) else { continue };
            if own_steps.iter().any(|(other, _)| *other == ingredient.id) {
                return Err(Failure::unusable(format!(
                    "--step-of says two steps for {}; give one of them",
                    ingredient.name
                )));
            }
            own_steps.push((ingredient.id.clone(), *step));
        }
        Ok(own_steps)
    }

    /// The line of the base in a recipe, if one is asked for.
    fn base_in(&self, recipe: &Recipe, file: &Path) -> Result<Option<LineId>, Failure> {
        let Some(base) = &self.base else { return Ok(None) };
        let lines = lines_named(recipe, base).map_err(|why| impossible(file, &why))?;
        let line = lines.into_iter().find(|line| line.amount.grams().0 > 0.0);
        let line = line.ok_or_else(|| {
            impossible(
                file,
                &format!("the recipe takes 0 g of \"{base}\", which cannot be the base; name another ingredient"),
            )
        })?;
        Ok(Some(line.id))
    }

    /// What is asked for, from the options.
    fn order(&self) -> Result<Order, Failure> {
        let AmountArguments { mass, have, pieces, frames } = &self.amount;
        let wanted = match (mass, have, pieces, frames, &self.form.of) {
            (Some(mass), ..) => Wanted::Mass(*mass),
            (_, Some(amount), _, _, Some(of)) => Wanted::AtHand { ingredient: of.clone(), amount: *amount },
            (_, _, Some(pieces), ..) => Wanted::Pieces(*pieces),
            (_, _, _, Some(frames), _) => Wanted::Frames(*frames),
            _ => Wanted::AsItStands,
        };
        Ok(Order { wanted, form: self.form.form()?, losses: self.loss.clone(), density: self.form.density })
    }

    /// Whether the output may be written: one recipe, a name of a recipe, and no file that is not meant.
    fn check_output(&self) -> Result<(), Failure> {
        let Some(output) = &self.output else { return Ok(()) };
        if self.files.len() + self.also.len() > 1 {
            return Err(Failure::unusable("--output takes one recipe; scale one file at a time to write it"));
        }
        check_new_recipe(output, self.replace)?;
        Ok(())
    }
}

impl MoneyArguments {
    /// Says of each batch what it costs, where there is a price list.
    fn tell(&self, works: &mut [Work]) -> Result<(), Failure> {
        let Some(list) = &self.prices else { return Ok(()) };
        let prices = store::load_price_list(list).map_err(|error| error.to_string())?;
        if let Some(shell) = self.shell_of.as_ref().filter(|shell| prices.price(shell).is_none()) {
            return Err(Failure::unusable(format!(
                "\"{shell}\" has no price in the list; give the id of the shell's chocolate as it stands there"
            )));
        }
        let besides = self.per_piece.iter().sum();
        for work in works {
            work.cost = Some(work_cost(work, &prices, self.shell_of.as_deref(), besides));
        }
        Ok(())
    }
}

impl FormArguments {
    fn form(&self) -> Result<Option<Form>, Failure> {
        let shell = self.shell;
        if let Some(mass) = self.piece {
            return Ok(Some(Form::Piece { mass, shell: shell.unwrap_or_default() }));
        }
        if let Some(volume) = self.cavity {
            let shell = match (shell, self.shell_density) {
                (None, _) => None,
                (Some(share), Some(density)) => Some(ShellOf { share, density }),
                (Some(_), None) => {
                    return Err(Failure::unusable(
                        "--cavity with --shell needs --shell-density; give the density of the shell in g/ml",
                    ));
                }
            };
            return Ok(Some(Form::Cavity { volume, shell }));
        }
        if shell.is_some() && self.cut.is_none() {
            return Err(Failure::unusable("--shell is a share of a piece; give --piece, --cavity or --cut with it"));
        }
        let cut = self.cut.map(|(along, across)| Cut { trim: self.trim.unwrap_or_default(), along, across });
        Ok(self.frame.map(|frame| Form::Frame { frame, cut, coat: shell.unwrap_or_default() }))
    }
}

/// Another recipe of the day with what is asked of it: its own mass, or what is asked of all.
fn also_asked(text: &str, of_all: &Order) -> Result<(PathBuf, Order), Failure> {
    // The name of a file may hold the sign as well.
    let with_amount = text.rsplit_once('=').filter(|_| !Path::new(text).exists());
    let Some((file, amount)) = with_amount else { return Ok((PathBuf::from(text), of_all.clone())) };
    let refuse = |why| Failure::unusable(on_one_line(&format!("--also '{text}': {why}")));
    let mass = parse_mass(amount.trim()).map_err(refuse)?;
    Ok((PathBuf::from(file), of_all.of_another_mass(mass)))
}

/// A reason with the file that it is about.
fn impossible(file: &Path, why: &str) -> Failure {
    Failure::impossible(on_one_line(&format!("{}: {why}", file.display())))
}

fn parse_step_of(text: &str) -> Result<(String, Grams), String> {
    let (name, step) = text.rsplit_once('=').ok_or("give the ingredient and its step, such as 'salt=0.1 g'")?;
    Ok((name.trim().to_owned(), parse_step(step.trim())?))
}

fn parse_money(text: &str) -> Result<Decimal, String> {
    /// More than anything that goes into a piece.
    const MOST: Decimal = Decimal::ONE_THOUSAND;
    let money = parse_decimal(text).ok().filter(|money| (Decimal::ZERO..=MOST).contains(money));
    money.ok_or_else(|| "give an amount of money from 0 to 1000, such as 0.035".to_owned())
}
