//! The reading Setting: how the mass cools and when it is firm, how long a bowl can be worked, how the pieces lie in the store.

mod form;
mod mixing;
mod store;

use egui::Ui;

use super::{nothing_ui, pinned as pinned_words, plot_card_ui};
use crate::analysis::Analysis;
use crate::analysis::cooling::growth::System;
use crate::analysis::setting::workable::{workable, workable_at};
use crate::analysis::setting::{NoSetting, SettingState, UNSEEDED, setting};
use crate::analysis::time_band::TimeBand;
use crate::number::{DecimalSign, fixed};
use crate::recipe::{Recipe, Use};
use crate::report::figures::{self, PlotName};
use crate::report::words::{self, capital, duration, duration_figure, duration_range};
use crate::ui::explanations::setting as explanations;
use crate::ui::theme;
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::{Card, FigureNumber, FigureRow, explain, figure_rows_ui, figures_ui};
use crate::units::{Celsius, Minutes};

/// How a mass sets, or why that is not known.
pub type Course = Result<SettingState, NoSetting>;

/// How the mass of a recipe sets: computed when the mass or its place changes, not in every frame.
pub(super) fn course(recipe: &Recipe, analysis: &Analysis) -> Course {
    setting(recipe, analysis)
}

/// The course of now and of the pinned state.
#[derive(Clone, Copy)]
pub(super) struct Courses<'a> {
    pub now: &'a Course,
    pub pinned: Option<&'a Course>,
}

/// A figure that there is not.
const NONE: &str = "none";

pub(super) fn setting_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, courses: Courses<'_>, actions: &mut Vec<Action>) {
    let sign = view.sign;
    // What is mixed comes before what sets.
    mixing::card(ui, scene, sign);
    form::form_ui(ui, scene, sign, courses.now, actions);
    match courses.now {
        Ok(state) if !state.begins_as_made() => nothing_ui(
            ui,
            "A caramel becomes firm by its sugar as it cools, not by crystals of fat: no setting time is told. Type how warm it is \
             when it lies in its form, and its cooling is followed",
        ),
        Ok(state) => {
            let before = courses.pinned.and_then(|pinned| pinned.as_ref().ok());
            Card::new().ui(ui, |ui| head_ui(ui, scene, sign, state, courses.pinned));
            times_ui(ui, scene, sign, state, courses.pinned);
            cooling_ui(ui, scene, sign, state, before, actions);
            solid_ui(ui, scene, sign, state, before, actions);
        }
        Err(NoSetting::NotSaid) => {}
        Err(why) => nothing_ui(ui, &capital(&words::no_setting(why, sign))),
    }
    bench_ui(ui, scene, sign);
    store::store_ui(ui, scene, sign, actions);
}

/// What can be done with it when it is set.
fn ready(intended_use: Option<Use>) -> &'static str {
    match intended_use {
        Some(Use::Cut) => "until cutting",
        Some(Use::Moulded | Use::Bar | Use::ThickBar | Use::Shell) => "until unmoulding",
        Some(Use::Piped | Use::ThinCoat) => "until packing",
        Some(Use::Spread | Use::Whipped) | None => "until set",
    }
}

fn time_of(course: &Course) -> Option<TimeBand> {
    course.as_ref().ok()?.set.ok()
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, state: &SettingState, before: Option<&Course>) {
    let (time, unit, range) = match state.set {
        Ok(set) => duration_figure(set),
        Err(_) => ("not told".to_owned(), "", String::new()),
    };
    let solid = fixed(state.course.solid_at_end.to_percent(), 0, sign);
    let caption = format!("solid at {} °C", fixed(state.course.end.0, 1, sign));
    let cooled = state.cooled().map(|cooled| duration_figure(TimeBand::within_factor(cooled, 1.0)));
    let (cooled, cooled_unit) = if state.cooled() == Some(Minutes::ZERO) {
        ("at once".to_owned(), "")
    } else {
        cooled.map_or((NONE.to_owned(), ""), |(figure, unit, _)| (figure, unit))
    };
    let state_before = before.and_then(|before| before.as_ref().ok());
    let ghosts = [
        before.map(|before| time_of(before).map_or_else(|| NONE.to_owned(), |set| duration(set.typical()))),
        pinned_words(state_before.map(|before| before.course.solid_at_end.to_percent()), 0, "%", sign),
        state_before.map(|before| before.cooled().map_or_else(|| NONE.to_owned(), duration)),
    ];
    let responses = figures_ui(
        ui,
        &[
            FigureNumber::new(Some(&time), unit, ready(scene.document.recipe.intended_use))
                .detail(&range)
                .ghost(ghosts[0].as_deref()),
            FigureNumber::new(Some(&cooled), cooled_unit, if state.warms() { "until warm" } else { "until cold" })
                .detail("in the middle")
                .ghost(ghosts[2].as_deref()),
            FigureNumber::new(Some(&solid), "%", &caption).detail("of the fat").ghost(ghosts[1].as_deref()),
        ],
    );
    for (place, response) in responses.iter().enumerate() {
        explain(response, || match place {
            0 => explanations::set(scene, state, sign),
            1 => explanations::cooled(sign),
            _ => explanations::solid_at_rest(scene),
        });
    }
    if let Err(why) = state.set {
        ui.label(theme::quiet(ui, format!("No setting time: {}.", words::no_time(why, sign))));
    }
}

/// A row behind the result.
#[derive(Clone, Copy)]
enum Row {
    Start,
    Begun,
    Growth,
    LeastGrowth,
    Unseeded,
}

impl Row {
    const ALL: [Self; 5] = [Self::Start, Self::Begun, Self::Growth, Self::LeastGrowth, Self::Unseeded];

    fn name(self, state: &SettingState) -> &'static str {
        match self {
            Self::Start => words::begins(state),
            Self::Growth => "crystals alone would take",
            Self::LeastGrowth => "their heat needs at least",
            Self::Begun => "begins with crystals",
            Self::Unseeded => "unseeded",
        }
    }

    fn figure(self, state: &SettingState, sign: DecimalSign) -> String {
        let degrees = |celsius: crate::units::Celsius| format!("{} °C", fixed(celsius.0, 1, sign));
        match self {
            Self::Start => degrees(state.start),
            Self::Growth => state.growth.map_or_else(|| NONE.to_owned(), duration),
            Self::LeastGrowth => state.least_growth.map_or_else(|| NONE.to_owned(), duration),
            Self::Begun | Self::Unseeded if state.set.is_err() => NONE.to_owned(),
            Self::Begun => {
                let begun = state.course.moments.first().map_or(0.0, |moment| moment.solid.to_percent());
                format!("{} % of the fat", fixed(begun, 2, sign))
            }
            Self::Unseeded if state.has_unseeded_times() => {
                format!("{}, not reliably", duration_range(UNSEEDED.0, UNSEEDED.1))
            }
            Self::Unseeded if state.system == System::Chocolate => "not in form V".to_owned(),
            Self::Unseeded => "no sooner, not reliably".to_owned(),
        }
    }
}

fn times_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, state: &SettingState, before: Option<&Course>) {
    let is_told = |course: &Course| course.as_ref().is_ok_and(|state| state.set.is_ok());
    let is_any_told = state.set.is_ok() || before.is_some_and(is_told);
    let told: Vec<Row> = Row::ALL.into_iter().filter(|row| is_any_told || matches!(row, Row::Start)).collect();
    let row_of = |row: &Row| {
        let shown = FigureRow::new(row.name(state), [row.figure(state, sign)]);
        match before {
            Some(before) => {
                let figure = before.as_ref().map_or_else(|_| NONE.to_owned(), |before| row.figure(before, sign));
                shown.pinned([figure])
            }
            None => shown,
        }
    };
    let rows: Vec<FigureRow> = told.iter().map(row_of).collect();
    Card::new().title("How this time comes about").ui(ui, |ui| {
        figure_rows_ui(ui, &rows, |place| match told.get(place) {
            Some(Row::Growth) => explanations::growth(scene, state),
            Some(Row::LeastGrowth) => explanations::least_growth(scene, sign),
            Some(Row::Begun) => explanations::begun(scene),
            Some(Row::Unseeded) => explanations::unseeded(),
            Some(Row::Start) | None => explanations::start(sign),
        });
        if state.is_too_thick {
            ui.label(words::THICK_PIECE);
        }
        if state.set.is_ok() {
            ui.label(theme::quiet(
                ui,
                "Set means nine tenths of the way to rest. The fat goes on crystallising for a day and longer: judge firmness \
                 the next day.",
            ));
        }
    });
}

fn cooling_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    sign: DecimalSign,
    state: &SettingState,
    before: Option<&SettingState>,
    actions: &mut Vec<Action>,
) {
    let figure = figures::cooling_plot(scene.analysis, state, before, sign);
    let mut subtitle = String::from("line: on the whole");
    if !state.setting.piece.is_of_one_temperature() {
        subtitle.push_str(" · thin: in the middle");
    }
    if state.set.is_ok() {
        subtitle.push_str(" · dashed: unseeded");
    }
    if state.set.is_ok() {
        subtitle.push_str(" · shaded: two of three set here");
    }
    if before.is_some() {
        subtitle.push_str(&scene.ghost_in_legend());
    }
    plot_card_ui(ui, PlotName::Cooling, &subtitle, (&figure, 210.0, sign), actions, |_| {
        Some(explanations::cooling(scene))
    });
}

fn solid_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    sign: DecimalSign,
    state: &SettingState,
    before: Option<&SettingState>,
    actions: &mut Vec<Action>,
) {
    let Some(figure) = figures::setting_plot(state, before, sign) else { return };
    let mut subtitle = String::from("line: seeded, on the whole");
    if !state.setting.piece.is_of_one_temperature() {
        subtitle.push_str(" · thin: in the middle");
    }
    subtitle.push_str(" · dashed: unseeded, by common practice · shaded: two of three set here");
    if before.is_some() {
        subtitle.push_str(&scene.ghost_in_legend());
    }
    plot_card_ui(ui, PlotName::Setting, &subtitle, (&figure, 190.0, sign), actions, |_| {
        Some(explanations::set(scene, state, sign))
    });
}

/// For how long the bowl can be worked where it is seeded best, and at the temperature of the thermometer.
fn bench_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let words_of = |recipe: &Recipe, analysis: &Analysis, at: Celsius| match workable_at(recipe, analysis, at) {
        Ok(time) => vec![words::about(time.typical()), duration_range(time.low, time.high)],
        Err(why) => vec![words::no_workable_in_short(why).to_owned()],
    };
    let asked = scene.analysis.at;
    let best = scene.analysis.seeding.map(|seeding| seeding.window.recommended).filter(|best| *best != asked);
    let row_at = |at: Celsius| {
        let name = format!("the bowl held at {} °C", fixed(at.0, 1, sign));
        let row = FigureRow::new(name, words_of(&scene.document.recipe, scene.analysis, at));
        match scene.pin {
            Some(pin) => row.pinned([words_of(&pin.document.recipe, &pin.analysis, at).swap_remove(0)]),
            None => row,
        }
    };
    let rows: Vec<FigureRow> = best.into_iter().chain([asked]).map(row_at).collect();
    Card::new()
        .title("Time at the bench")
        .subtitle("until the seeded mass is too thick to work: where it is seeded best, and at the thermometer")
        .ui(ui, |ui| {
            figure_rows_ui(ui, &rows, |_| explanations::workable(scene));
            let why = workable(&scene.document.recipe, scene.analysis).err();
            let sentence = why.map(|why| words::no_workable(why, sign));
            // Where the short words say all, they stand alone.
            if let Some(sentence) =
                sentence.filter(|sentence| Some(sentence.as_str()) != why.map(words::no_workable_in_short))
            {
                ui.add(egui::Label::new(theme::quiet(ui, format!("{}.", capital(&sentence)))).wrap());
            }
        });
}
