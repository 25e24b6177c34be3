//! The amounts before and after with why they move, and what a little more of a line would do.

use egui::Ui;

use super::verdict::OF_BEFORE;
use crate::analysis::remedy::Names;
use crate::number::{DecimalSign, fixed, round_half_up};
use crate::recipe::LineId;
use crate::reformulate::{Measured, Member, Move, Outcome, Place};
use crate::report::words::capital;
use crate::report::words::reformulation::{
    Money, ReformulationWords, amount, decimals, is_by_rounding, measured, told_pulls, unit,
};
use crate::ui::explanations::targets as explanations;
use crate::ui::panels::head::menu_ui;
use crate::ui::targets::{Awaited, Targets, Worked};
use crate::ui::theme::{self, space};
use crate::ui::view::{Pointed, Scene, View};
use crate::ui::widgets::{BeforeAfterRow, Card, ChangeRow, before_after_rows_ui, change_rows_ui, explain, is_attended};
use crate::units::Grams;

/// Whether the answer does what is asked.
pub(super) fn is_good(worked: &Worked) -> bool {
    matches!(worked.outcome, Ok(Outcome::Changed(_) | Outcome::Unchanged(_)))
}

/// A line of the sheet or an ingredient that may be used besides, with what is said of it.
struct Row {
    /// In the sheet.
    line: Option<LineId>,
    name: String,
    before: Grams,
    after: Option<Grams>,
    why: String,
    why_in_full: String,
}

/// Every amount before and after, and why it moves.
///
/// The rows are those of the question, so that they keep their room while an answer is looked for: every line of the sheet,
/// and what may be used besides.
pub(super) fn amounts_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &Targets, view: &mut View) {
    if !targets.shows_amounts() {
        return;
    }
    let sign = view.sign;
    let rows = rows(scene, targets, sign);
    let (before, after) = (rows.iter().map(|row| row.before).sum(), rows.iter().map(|row| row.after).sum());
    let mut shown: Vec<BeforeAfterRow> = rows
        .iter()
        .map(|row| BeforeAfterRow {
            name: row.name.clone(),
            before: if row.line.is_none() { "–".to_owned() } else { amount(row.before, sign) },
            after: row.after.map_or_else(|| "…".to_owned(), |after| after_words(row, after, sign)),
            by: row.after.map_or_else(String::new, |after| by_words(row.before, after, sign)),
            why: row.why.clone(),
            why_in_full: row.why_in_full.clone(),
            is_lit: row.line.is_some_and(|line| view.is_line_lit(scene, line)),
            is_total: false,
        })
        .collect();
    let after: Option<Grams> = after;
    shown.push(BeforeAfterRow {
        name: "Together".to_owned(),
        before: amount(before, sign),
        after: after.map_or_else(|| "…".to_owned(), |after| amount(after, sign)),
        by: after.map_or_else(String::new, |after| by_words(before, after, sign)),
        is_total: true,
        ..BeforeAfterRow::default()
    });
    let subtitle = match targets.worked.as_ref() {
        Some(_) if targets.awaited == Awaited::Answer => "of the answer before",
        Some(worked) if !is_good(worked) && worked.document.is_some() => "of the recipe that comes nearest",
        Some(worked) if is_good(worked) && worked.document.is_none() => "nothing has to move",
        _ => "and what moves each line most",
    };
    Card::new().title("Amounts before and after").subtitle(subtitle).ui(ui, |ui| {
        if targets.awaited == Awaited::Answer {
            ui.multiply_opacity(OF_BEFORE);
        }
        for (idx, response) in before_after_rows_ui(ui, &shown).iter().enumerate() {
            let row = rows.get(idx);
            if let Some(line) = row.and_then(|row| row.line)
                && is_attended(response)
            {
                view.point_at(Pointed::Line(line));
            }
            explain(response, || match row {
                Some(row) => explanations::proposed_amount(&row.why_in_full, sign),
                None => explanations::proposed_total(),
            });
        }
    });
}

fn rows(scene: &Scene<'_>, targets: &Targets, sign: DecimalSign) -> Vec<Row> {
    let worked = targets.worked.as_deref();
    let (recipe, names) = (&scene.document.recipe, Names::of(&scene.document.recipe));
    let is_unchanged = worked.is_some_and(|worked| matches!(worked.outcome, Ok(Outcome::Unchanged(_))));
    let row = |place: Option<Place>, line: Option<LineId>, name: String, now: Grams, is_locked: bool| {
        let moves = worked.and_then(Worked::answer).map(|answer| answer.moves.as_slice()).unwrap_or_default();
        let moved = moves.iter().find(|moved| Some(moved.place) == place);
        let same = |words: &str| (words.to_owned(), words.to_owned());
        let (why, why_in_full) = match (worked, moved) {
            _ if is_locked => same("locked"),
            (Some(worked), Some(moved)) => {
                let words = ReformulationWords::new(&worked.problem, sign);
                (why_words(moved, &in_short(worked, &words, moved, sign)), why_words(moved, &words.why_moved(moved)))
            }
            _ if is_unchanged && line.is_some() => same("stays"),
            _ if is_unchanged => same("is not needed"),
            _ => same(""),
        };
        let after = moved.map(|moved| moved.after).or(is_unchanged.then_some(now));
        Row { line, name: capital(&name), before: moved.map_or(now, |moved| moved.before), after, why, why_in_full }
    };
    let lines = recipe.lines.iter().map(|line| {
        let name = names.name_and_place(recipe, line);
        row(Some(Place::Line(line.id)), Some(line.id), name, line.amount.grams(), line.is_locked)
    });
    let comes_new = targets.asked.allowed.iter().filter(|asked| asked.line_in(recipe).is_none());
    let allowed = comes_new.map(|asked| {
        let place = worked.and_then(|worked| worked.rows.allowed.iter().position(|number| *number == asked.number));
        row(place.map(Place::Allowed), None, asked.allowed.ingredient.short_name(), Grams::ZERO, false)
    });
    lines.chain(allowed).collect()
}

fn why_words(moved: &Move, why: &str) -> String {
    let with = |words: &str| if why.is_empty() { words.to_owned() } else { format!("{words}: {why}") };
    match moved.place {
        Place::Allowed(_) if moved.after.0 <= 0.0 => "is not needed".to_owned(),
        Place::Allowed(_) => with("comes in"),
        Place::Line(_) if moved.before == moved.after => "stays".to_owned(),
        Place::Line(_) if moved.after.0 <= 0.0 => with("is left out"),
        Place::Line(_) => why.to_owned(),
    }
}

/// What pulls most, each by its name alone: its bound stands above, and in the explanation of the row.
fn in_short(worked: &Worked, words: &ReformulationWords<'_>, moved: &Move, sign: DecimalSign) -> String {
    if is_by_rounding(moved) {
        return "rounded to the scale".to_owned();
    }
    let name = |member: Member| match member {
        Member::Target(idx) => worked.problem.targets.get(idx).map(|target| measured(target.of, sign)),
        Member::Total => Some("the batch".to_owned()),
        _ => None,
    };
    let told = told_pulls(moved).into_iter().map(|pull| {
        let direction = if pull.by.0 < 0.0 { "down" } else { "up" };
        format!("{direction} for {}", name(pull.member).unwrap_or_else(|| words.member(pull.member)))
    });
    told.collect::<Vec<_>>().join(", ")
}

fn after_words(row: &Row, after: Grams, sign: DecimalSign) -> String {
    let is_nothing = after.0 <= 0.0 && (row.line.is_none() || row.before.0 > 0.0);
    if is_nothing { "–".to_owned() } else { amount(after, sign) }
}

fn by_words(before: Grams, after: Grams, sign: DecimalSign) -> String {
    if amount(after, sign) == amount(before, sign) { String::new() } else { signed(after - before, sign) }
}

fn signed(by: Grams, sign: DecimalSign) -> String {
    let plus = if by.0 > 0.0 { "+" } else { "" };
    format!("{plus}{}", amount(by, sign))
}

/// What a little more of each line alone would do to one of the targets.
pub(super) fn effects_ui(ui: &mut Ui, scene: &Scene<'_>, targets: &mut Targets, view: &mut View) {
    let Some(worked) = targets.worked.clone() else { return };
    // Of what is merely usual and holds anyway nobody wants to know it.
    if !targets.shows_amounts() {
        return;
    }
    let (more, table) = &worked.effects;
    let chosen = targets
        .effects_of
        .and_then(|row| worked.rows.targets.iter().position(|number| *number == row))
        .or_else(|| first_told(targets, &worked));
    let (Some(place), sign) = (chosen, view.sign) else { return };
    let (Some(target), Some(effects)) = (worked.problem.targets.get(place), table.get(place)) else { return };
    let recipe = worked.document.as_ref().map_or(&worked.problem.recipe, |document| &document.recipe);
    let problem = crate::reformulate::Problem::new(recipe.clone());
    let words = ReformulationWords::new(&problem, sign);
    let mut shown: Vec<(LineId, f64)> = recipe
        .lines
        .iter()
        .zip(effects)
        .filter(|(line, _)| line.amount.grams().0 > 0.0)
        .filter_map(|(line, effect)| Some((line.id, (*effect)?)))
        .collect();
    shown.sort_by(|left, right| right.1.abs().total_cmp(&left.1.abs()));
    let places = effect_places(target.of, shown.first().map_or(0.0, |(_, effect)| effect.abs()));
    let rows: Vec<ChangeRow> = shown
        .iter()
        .map(|&(line, effect)| ChangeRow {
            name: capital(&words.place(Place::Line(line))),
            // What is told as nothing has no bar.
            change: if round_half_up(effect.abs(), places) > 0.0 { effect } else { 0.0 },
            text: effect_words(target.of, effect, places, scene.money(), sign),
            is_lit: view.is_line_lit(scene, line),
            ..ChangeRow::default()
        })
        .collect();
    let title = format!("What {} more of one line does", amount(*more, sign));
    let basis = if worked.document.is_some() { "in the proposed recipe" } else { "in the recipe as it is" };
    Card::new().title(&title).ui(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = space::TIGHT;
            ui.label(theme::quiet(ui, "to"));
            let hover = "Which result the effects are shown of: one of the targets";
            menu_ui(ui, &measured(target.of, sign), hover, |ui| {
                for (other, number) in worked.problem.targets.iter().zip(&worked.rows.targets) {
                    if ui.selectable_label(other.of == target.of, measured(other.of, sign)).clicked() {
                        targets.effects_of = Some(*number);
                        ui.close();
                    }
                }
            });
            ui.label(theme::quiet(ui, basis));
        });
        for (response, (line, _)) in change_rows_ui(ui, &rows).iter().zip(&shown) {
            if is_attended(response) {
                view.point_at(Pointed::Line(*line));
            }
            explain(response, || explanations::effect(*more, sign));
        }
    });
}

/// The first target that was asked for by name and pulls, else the first that was asked for by name, else one that pulls.
fn first_told(targets: &Targets, worked: &Worked) -> Option<usize> {
    let binds = |row: &u32| worked.reached(*row).is_some_and(|reached| reached.is_binding);
    let is_named = |row: &u32| targets.asked.targets.iter().any(|other| other.number == *row && !other.is_usual);
    let first = |wanted: &dyn Fn(&u32) -> bool| worked.rows.targets.iter().position(wanted);
    first(&|row| is_named(row) && binds(row))
        .or_else(|| first(&is_named))
        .or_else(|| first(&binds))
        .or_else(|| first(&|_| true))
}

/// So many decimals that the largest effect says something: two figures of it, as far as they are worth something.
fn effect_places(of: Measured, largest: f64) -> u32 {
    /// More decimals than of the result itself are told at most.
    const MORE: u32 = 3;
    let says_something = |places: &u32| largest * 10_f64.powi(places.cast_signed()) >= 10.0;
    let least = decimals(of) + 1;
    (least..=decimals(of) + MORE).find(says_something).unwrap_or(decimals(of) + MORE)
}

fn effect_words(of: Measured, effect: f64, places: u32, money: Money<'_>, sign: DecimalSign) -> String {
    if round_half_up(effect.abs(), places) <= 0.0 {
        return if effect == 0.0 { "nothing" } else { "hardly any" }.to_owned();
    }
    let plus = if effect > 0.0 { "+" } else { "" };
    // The unit of energy is a sentence of its own.
    let unit = if of == Measured::Energy { "".into() } else { unit(of, money) };
    format!("{plus}{}{unit}", fixed(effect, places, sign))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::parts::Group;

    #[test]
    fn an_effect_is_told_with_figures_that_say_something() {
        let told = |effect: f64| {
            let of = Measured::Group(Group::Water);
            effect_words(of, effect, effect_places(of, effect.abs()), None, DecimalSign::Point)
        };
        assert_eq!(told(0.25), "+0.25 %");
        assert_eq!(told(-0.0031), "-0.0031 %".replace('-', "−"));
        assert_eq!(told(0.013), "+0.013 %");
        assert_eq!(told(0.000_004), "hardly any");
        assert_eq!(told(0.0), "nothing");
    }
}
