//! The words of a reformulation: what is asked, what moved and why, what stands in the way and what giving way would bring.

mod asked;
mod helping;
mod news;
mod notes;
mod possible;
mod within_reach;

pub use asked::LimitReached;
pub use helping::helper_name;
pub(super) use helping::{helping, in_vain};
pub use possible::{check_bound, check_value};

use std::borrow::Cow;

use super::capital;
use crate::analysis::parts::Group;
use crate::analysis::remedy::Names;
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, grams as grams_text, shortest};
use crate::production::price::Currency;
use crate::recipe::{Line, Recipe};
use crate::reformulate::{
    Bound, Change, Conflicting, Decides, Figure, Impossible, Measured, Member, Move, Place, Problem, Pull, Reached,
    Rule, Target,
};
use crate::units::Grams;

/// What stands in the way before all else where every line is locked.
const NOTHING_MAY_MOVE: &str =
    "Every line is locked, so nothing can move: unlock some, or let something else be used besides.";

/// What a result is called: "sugars", "water activity", "solid fat at 20 °C".
#[must_use]
pub fn measured(of: Measured, sign: DecimalSign) -> String {
    match of {
        Measured::Group(group) => group.words().to_owned(),
        Measured::Component(Component::Ethanol) => "alcohol".to_owned(),
        Measured::Component(component) => component.words().to_owned(),
        Measured::FatToWater => "fat to water".to_owned(),
        Measured::CocoaButterInFat => "cocoa butter in the fat".to_owned(),
        Measured::MilkFatInFat => "milk fat in the fat".to_owned(),
        Measured::OtherFatInFat => "other fat in the fat".to_owned(),
        Measured::FatVolume => "fat in fat and water phase".to_owned(),
        Measured::DispersedVolume => "dispersed share".to_owned(),
        Measured::WaterActivity => "water activity".to_owned(),
        Measured::SucroseSupersaturation => "supersaturation of sucrose".to_owned(),
        Measured::LactoseSupersaturation => "supersaturation of lactose".to_owned(),
        Measured::SolidFat(at) => format!("solid fat at {} °C", shortest(at.0, 1, sign)),
        Measured::Crystals(at) => format!("share of fat crystals at {} °C", shortest(at.0, 1, sign)),
        Measured::Contraction => "shrinking on setting".to_owned(),
        Measured::SolidsVolume => "volume of solids when melted".to_owned(),
        Measured::FormVLimit => "form V limit".to_owned(),
        Measured::Energy => "energy".to_owned(),
        Measured::Sweetness => "sweetness".to_owned(),
        Measured::Cost => "cost".to_owned(),
        Measured::FinishedMass => "finished mass".to_owned(),
    }
}

/// The money in which a cost is counted, where it is known.
pub type Money<'a> = Option<&'a Currency>;

/// The money in which the costs of a problem are counted.
#[must_use]
pub fn money(problem: &Problem) -> Money<'_> {
    let weighed = problem.recipe.lines.iter().filter(|line| line.amount.grams().0 > 0.0);
    let all = weighed.chain(&problem.recipe.lines).map(|line| &line.ingredient);
    let all = all.chain(problem.allowed.iter().map(|allowed| &allowed.ingredient));
    problem.prices.currency_of(all.map(|ingredient| ingredient.id.as_str()))
}

/// Its unit with a blank in front, or nothing: " %", " EUR per kg".
#[must_use]
pub fn unit(of: Measured, money: Money<'_>) -> Cow<'static, str> {
    match (of, money) {
        (Measured::Cost, Some(currency)) => Cow::Owned(format!(" {currency} per kg")),
        _ => Cow::Borrowed(bare_unit(of)),
    }
}

/// The same without the word for money.
#[must_use]
pub fn bare_unit(of: Measured) -> &'static str {
    match of {
        Measured::Group(_)
        | Measured::Component(_)
        | Measured::CocoaButterInFat
        | Measured::MilkFatInFat
        | Measured::OtherFatInFat
        | Measured::SolidFat(_)
        | Measured::Crystals(_)
        | Measured::SolidsVolume => " %",
        Measured::Contraction => " % of length",
        Measured::FormVLimit => " °C",
        Measured::Energy => " kJ per 100 g",
        Measured::Cost => " per kg",
        Measured::FinishedMass => " g",
        Measured::FatToWater
        | Measured::FatVolume
        | Measured::DispersedVolume
        | Measured::WaterActivity
        | Measured::SucroseSupersaturation
        | Measured::LactoseSupersaturation
        | Measured::Sweetness => "",
    }
}

/// How many decimals of it are shown: one more than in the readings where a bound is told to two, so that a miss is seen.
#[must_use]
pub fn decimals(of: Measured) -> u32 {
    match of {
        Measured::Component(Component::Salt | Component::AcidsAshOther | Component::MilkMinerals)
        | Measured::FatToWater
        | Measured::SucroseSupersaturation
        | Measured::LactoseSupersaturation
        | Measured::Contraction
        | Measured::Cost => 2,
        Measured::Group(_)
        | Measured::Component(_)
        | Measured::CocoaButterInFat
        | Measured::MilkFatInFat
        | Measured::OtherFatInFat
        | Measured::SolidFat(_)
        | Measured::Crystals(_)
        | Measured::SolidsVolume
        | Measured::FormVLimit
        | Measured::Sweetness
        | Measured::FinishedMass => 1,
        Measured::Energy => 0,
        Measured::WaterActivity | Measured::FatVolume | Measured::DispersedVolume => 3,
    }
}

/// A value of a result with its unit.
#[must_use]
pub fn value(of: Measured, value: f64, money: Money<'_>, sign: DecimalSign) -> String {
    format!("{}{}", fixed(value, decimals(of), sign), unit(of, money))
}

/// A bound as it was typed, with its unit: no digits are added.
fn bound_value(of: Measured, value: f64, money: Money<'_>, sign: DecimalSign) -> String {
    /// What is typed has no more.
    const TYPED: u32 = 4;
    format!("{}{}", shortest(value, TYPED, sign), unit(of, money))
}

/// The likely value of a figure with its unit; of a dry mass, of which only an upper end is known, "below 0.5".
#[must_use]
pub fn likely(of: Measured, figure: Figure, money: Money<'_>, sign: DecimalSign) -> String {
    if of.is_upper_end(figure) {
        format!("below {}", shortest(figure.value, 1, sign))
    } else {
        value(of, figure.value, money, sign)
    }
}

/// A figure with its band, where it has one: "0.870 (0.840 to 0.900)"; of a dry mass "below 0.5".
#[must_use]
pub fn figure(of: Measured, figure: Figure, money: Money<'_>, sign: DecimalSign) -> String {
    let likely = likely(of, figure, money, sign);
    match figure.band {
        Some((low, high)) => {
            let places = decimals(of);
            format!("{likely} ({} to {})", fixed(low, places, sign), fixed(high, places, sign))
        }
        None => likely,
    }
}

/// How far a figure is away from a wish.
#[must_use]
pub fn away(target: &Target, figure: Figure, money: Money<'_>, sign: DecimalSign) -> String {
    let of = target.of;
    if target.is_beyond_figures(figure) {
        return "lower figures are not told".to_owned();
    }
    let away = target.missed_by(figure);
    format!("{} away", if away > 0.0 { miss(of, away, money, sign) } else { value(of, 0.0, money, sign) })
}

/// A miss never reads as nought.
fn miss(of: Measured, by: f64, money: Money<'_>, sign: DecimalSign) -> String {
    let shown = |by: f64| match unit(of, money).as_ref() {
        // 5 % of what? The difference of two shares is in points.
        " %" => format!("{} points", fixed(by, decimals(of), sign)),
        _ => value(of, by, money, sign),
    };
    if crate::number::round_half_up(by, decimals(of)) > 0.0 {
        shown(by)
    } else {
        format!("less than {}", shown(10_f64.powi(-(decimals(of).cast_signed()))))
    }
}

/// A bound in words: "at most 0.85".
#[must_use]
pub fn bound(of: Measured, bound: Bound, money: Money<'_>, sign: DecimalSign) -> String {
    let value = |at| bound_value(of, at, money, sign);
    match bound {
        Bound::AtMost(at) => format!("at most {}", value(at)),
        Bound::AtLeast(at) => format!("at least {}", value(at)),
        Bound::Between(low, high) => format!("between {} and {}", value(low), value(high)),
        Bound::Near(at) => format!("as near {} as possible", value(at)),
    }
}

/// A target in words: "water activity at most 0.85, judged by the unfavourable edge of its band".
#[must_use]
pub fn target(target: &Target, money: Money<'_>, sign: DecimalSign) -> String {
    let what = target_in_short(target, money, sign);
    match target.decides() {
        Decides::Value => what,
        Decides::UnfavourableEdge => format!("{what}, judged by the unfavourable edge of its band"),
    }
}

/// A target in few words: "water activity at most 0.85".
#[must_use]
pub fn target_in_short(target: &Target, money: Money<'_>, sign: DecimalSign) -> String {
    format!("{} {}", measured(target.of, sign), bound(target.of, target.bound, money, sign))
}

/// Grams as they are weighed.
#[must_use]
pub fn amount(grams: Grams, sign: DecimalSign) -> String {
    format!("{} g", grams_text(grams.0, sign))
}

/// What is told of the pulls on an amount: the strongest, and one beside it that is worth a word.
#[must_use]
pub fn told_pulls(moved: &Move) -> Vec<&Pull> {
    /// More reasons than this do not help.
    const TOLD: usize = 2;
    /// A pull of less than this share of the strongest is not worth a word.
    const WORTH: f64 = 0.1;
    let Some(strongest) = moved.pulls.first() else { return Vec::new() };
    let is_worth = |pull: &&Pull| pull.by.0.abs() >= WORTH * strongest.by.0.abs();
    if is_by_rounding(moved) { Vec::new() } else { moved.pulls.iter().filter(is_worth).take(TOLD).collect() }
}

/// Whether an amount moved against all that pulls it: only the scale did that.
#[must_use]
pub fn is_by_rounding(moved: &Move) -> bool {
    let by = moved.after.0 - moved.before.0;
    by != 0.0 && !moved.pulls.is_empty() && moved.pulls.iter().all(|pull| pull.by.0 * by < 0.0)
}

/// The words of one reformulation: the names of its ingredients depend on all of them.
pub struct ReformulationWords<'a> {
    problem: &'a Problem,
    names: Names<'a>,
    money: Money<'a>,
    sign: DecimalSign,
}

impl<'a> ReformulationWords<'a> {
    /// Of this problem.
    #[must_use]
    pub fn new(problem: &'a Problem, sign: DecimalSign) -> Self {
        Self { problem, names: Names::of(&problem.recipe), money: money(problem), sign }
    }

    /// A target in words, with its money.
    #[must_use]
    pub fn target(&self, asked: &Target) -> String {
        target(asked, self.money, self.sign)
    }

    /// A figure with its band and its money.
    #[must_use]
    pub fn figure(&self, of: Measured, reached: Figure) -> String {
        figure(of, reached, self.money, self.sign)
    }

    /// The name of a line, or of an ingredient that may be used besides.
    #[must_use]
    pub fn place(&self, place: Place) -> String {
        let recipe: &Recipe = &self.problem.recipe;
        match place {
            Place::Line(id) => recipe
                .line(id)
                .map_or_else(|| "a line that is gone".to_owned(), |line| self.names.name_and_place(recipe, line)),
            Place::Allowed(idx) => self
                .problem
                .allowed
                .get(idx)
                .map_or_else(|| "an ingredient that is gone".to_owned(), |allowed| allowed.ingredient.short_name()),
        }
    }

    /// What is asked for, so that "because of …" and "without …" read well.
    #[must_use]
    pub fn member(&self, member: Member) -> String {
        match member {
            Member::Target(idx) => self.problem.targets.get(idx).map_or_else(
                || "a target that is gone".to_owned(),
                |target| target_in_short(target, self.money, self.sign),
            ),
            Member::Total => {
                format!("the batch stays at {}", self.amount(self.problem.recipe.weighed()))
            }
            Member::Lock(place) => format!("{} stays at {}", self.place(place), self.amount(self.before(place))),
            Member::Allowance(idx) => {
                let most = self.problem.allowed.get(idx).and_then(|allowed| allowed.most).unwrap_or_default();
                format!("{} at most {}", self.place(Place::Allowed(idx)), self.amount(most))
            }
            Member::Limit(idx) => match self.problem.limits.get(idx) {
                None => "a rule that is gone".to_owned(),
                Some(limit) => self.rule(limit.place, limit.rule),
            },
        }
    }

    /// A rule on an amount in words.
    #[must_use]
    pub fn rule(&self, place: Place, rule: Rule) -> String {
        let name = self.place(place);
        match rule {
            Rule::Locked => format!("{name} stays at {}", self.amount(self.before(place))),
            Rule::AtMost(most) => format!("{name} at most {}", self.amount(most)),
            Rule::AtLeast(least) => format!("{name} at least {}", self.amount(least)),
            Rule::InPacks(pack) => format!("{name} in whole packs of {}", self.amount(pack)),
            Rule::TimesOther { other, times } => {
                format!("{name} {} times as much as {}", shortest(times, 4, self.sign), self.place(other))
            }
        }
    }

    /// What counts as little change, in words.
    #[must_use]
    pub fn change(&self) -> &'static str {
        match self.problem.change {
            Change::Spread => "the change is spread over the lines",
            Change::FewLines => "few lines change; not always the fewest that could",
        }
    }

    /// Why an amount moved: "down for water activity at most 0.85, up for sugars at least 28 %"; nothing where it stays.
    #[must_use]
    pub fn why_moved(&self, moved: &Move) -> String {
        if is_by_rounding(moved) {
            return "rounded to the scale".to_owned();
        }
        let each: Vec<String> = told_pulls(moved)
            .into_iter()
            .map(|pull| {
                let direction = if pull.by.0 < 0.0 { "down" } else { "up" };
                match pull.member {
                    Member::Total if !self.problem.keeps_total => {
                        format!("{direction} so that enough of the batch stays")
                    }
                    Member::Total => {
                        format!("{direction} to keep the batch at {}", self.amount(self.problem.recipe.weighed()))
                    }
                    member => format!("{direction} for {}", self.member(member)),
                }
            })
            .collect();
        each.join(", ")
    }

    /// One amount before and after: "cream 200 g → 180 g", "cream is left out", "sorbitol comes in with 20 g".
    #[must_use]
    pub fn moved(&self, moved: &Move) -> String {
        let place = self.place(moved.place);
        match (moved.before.0 > 0.0, moved.after.0 > 0.0) {
            (true, false) => format!("{place} is left out"),
            (false, true) => format!("{place} comes in with {}", self.amount(moved.after)),
            _ => format!("{place} {} → {}", self.amount(moved.before), self.amount(moved.after)),
        }
    }

    /// What a target says before and after, and whether it is met.
    #[must_use]
    pub fn reached(&self, reached: &Reached) -> String {
        let of = reached.target.of;
        let verdict = if reached.target.bound.is_wish() {
            away(&reached.target, reached.after, self.money, self.sign)
        } else if reached.is_met() {
            "met".to_owned()
        } else {
            format!("missed by {}", miss(of, reached.target.missed_by(reached.after), self.money, self.sign))
        };
        format!(
            "{}: {} → {}, {verdict}",
            self.target(&reached.target),
            self.figure(of, reached.before),
            self.figure(of, reached.after)
        )
    }

    /// Why it cannot be done, in sentences.
    #[must_use]
    pub fn impossible(&self, why: &Impossible) -> Vec<String> {
        if why.is_by_scale {
            let mut missed = why.nearest.missed();
            let scale = self.amount(self.problem.scale.coarsest);
            let first = match missed.next() {
                Some(reached) => format!(
                    "It can be had exactly, but not with a scale that shows {scale}: {}.",
                    self.reached(reached)
                ),
                None => format!(
                    "It can be had exactly, but no amounts were found on the steps of a scale that shows {scale}."
                ),
            };
            let what_to_do = "Use a finer scale for the small amounts, make a larger batch, or ask for a little less.";
            return vec![first, what_to_do.to_owned()];
        }
        let mut sentences = vec![match why.conflict.as_slice() {
            [] => "Amounts were found that would just do it, but none were found that can be weighed: the result jumps there, or \
                   is not known any more behind it. Ask for a little less."
                .to_owned(),
            [only] => format!("It cannot be had with these ingredients: {}.", self.member(only.member)),
            several => {
                let all: Vec<String> = several.iter().map(|one| self.member(one.member)).collect();
                format!("These cannot be had together: {}.", all.join("; "))
            }
        }];
        if self.nothing_may_move() {
            sentences.insert(0, NOTHING_MAY_MOVE.to_owned());
        }
        sentences.extend(self.ways_out(why).into_iter().flatten());
        sentences
    }

    /// Whether nothing but locked lines is there to move.
    fn nothing_may_move(&self) -> bool {
        let problem = self.problem;
        let is_asked_to_stay =
            |place: Place| problem.limits.iter().any(|limit| limit.place == place && limit.rule == Rule::Locked);
        problem.places().all(|place| match place {
            Place::Line(id) => {
                let is_held = problem.recipe.line(id).is_some_and(Line::stays);
                is_held || is_asked_to_stay(place)
            }
            Place::Allowed(_) => is_asked_to_stay(place),
        })
    }

    /// For each of those that contradict each other what giving it up would bring; `None` where there is nothing to tell.
    /// They are the last of [`Self::impossible`].
    #[must_use]
    pub fn ways_out(&self, why: &Impossible) -> Vec<Option<String>> {
        why.conflict.iter().map(|one| self.way_out(one, why.conflict.len() > 1)).collect()
    }

    /// What giving one of them up would bring.
    fn way_out(&self, one: &Conflicting, has_others: bool) -> Option<String> {
        let mut told = self.within_reach(one.member, one.reachable?)?;
        if !one.is_weighed {
            let scale = self.amount(self.problem.scale.coarsest);
            told = format!("{told}, on a finer scale than one that shows {scale}");
        }
        Some(match (has_others, one.is_enough) {
            (true, true) => format!("With the others kept, {told}."),
            (true, false) => {
                format!("With the others of these kept, {told}; but giving this one up is not enough by itself.")
            }
            (false, true) => format!("At best {told}."),
            (false, false) => {
                format!("At best {told}; but giving it up is not enough: something else stands in the way too.")
            }
        })
    }

    fn before(&self, place: Place) -> Grams {
        match place {
            Place::Line(id) => self.problem.recipe.line(id).map_or(Grams::ZERO, |line| line.amount.grams()),
            Place::Allowed(_) => Grams::ZERO,
        }
    }

    fn amount(&self, grams: Grams) -> String {
        amount(grams, self.sign)
    }
}

/// The names by which a result is asked for on the command line: its words, and its path in the JSON report.
#[must_use]
pub fn names(of: Measured) -> Vec<String> {
    let path = match of {
        Measured::Group(group) => format!("groups.{}", group.key()),
        Measured::Component(component) => format!("composition.{}", component.key()),
        Measured::FatToWater => "emulsion.fat_to_water".to_owned(),
        Measured::CocoaButterInFat => "fat.cocoa_butter_percent_of_fat".to_owned(),
        Measured::FatVolume => "emulsion.phi_fat".to_owned(),
        Measured::DispersedVolume => "emulsion.phi_dispersed".to_owned(),
        Measured::WaterActivity => "water.water_activity".to_owned(),
        Measured::SucroseSupersaturation => "water.sucrose_supersaturation".to_owned(),
        Measured::LactoseSupersaturation => "water.lactose_supersaturation".to_owned(),
        Measured::MilkFatInFat => "fat.milk_fat_percent_of_fat".to_owned(),
        Measured::OtherFatInFat => "fat.other_fat_percent_of_fat".to_owned(),
        Measured::SolidFat(_) => "fat.solid_fat".to_owned(),
        Measured::Crystals(_) => "fat.crystals_percent_of_mass".to_owned(),
        Measured::Contraction => "texture.contraction_percent_of_length".to_owned(),
        Measured::SolidsVolume => "texture.solids_percent_of_volume".to_owned(),
        Measured::FormVLimit => "fat.form_v_limit_c".to_owned(),
        Measured::Energy => "energy.kj".to_owned(),
        Measured::Sweetness => "sweetness.relative".to_owned(),
        Measured::Cost => "cost.per_kg".to_owned(),
        Measured::FinishedMass => "mass_g".to_owned(),
    };
    let words = match of {
        Measured::SolidFat(_) => "solid fat".to_owned(),
        Measured::Crystals(_) => "share of fat crystals".to_owned(),
        of => measured(of, DecimalSign::Point),
    };
    let mut names = vec![words, path];
    match of {
        Measured::Group(Group::TotalFat) => names.push("fat".to_owned()),
        Measured::Crystals(_) => {
            names.extend(["fat crystals", "texture.crystals_percent_of_mass"].map(str::to_owned));
        }
        Measured::SucroseSupersaturation => names.push("sucrose supersaturation".to_owned()),
        Measured::LactoseSupersaturation => names.push("lactose supersaturation".to_owned()),
        _ => {}
    }
    names
}

/// A sentence with a capital at its beginning and a full stop at its end.
#[must_use]
pub fn sentence(text: &str) -> String {
    format!("{}.", capital(text))
}
