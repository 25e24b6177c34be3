//! The reading Water: how active the water is, what holds it, what sugar does, what that means for keeping.

mod keeping;
mod teaching;

use egui::Ui;

use super::{nothing_ui, pinned, plot_card_ui};
use crate::analysis::Analysis;
use crate::analysis::parts::Group;
use crate::analysis::remedy::Names;
use crate::analysis::water::activity::Equation;
use crate::analysis::water::state::{DRY, Effect, Holder, OUTSIDE, ROOM, STORE, Water, WaterState};
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::recipe::{Line, Recipe};
use crate::report::figures::{self, DryingCurve, PlotName, SorptionIsotherm};
use crate::report::words;
use crate::ui::explanations::{composition, water as explanations};
use crate::ui::theme::{self, Hue};
use crate::ui::view::{Action, Pointed, Scene, View};
use crate::ui::widgets::{
    Card, ChangeRow, FigureNumber, FigureRow, Segment, SegmentBar, change_rows_ui, explain, figure_rows_ui, figures_ui,
    is_attended,
};
use crate::units::{MassFraction, WaterActivity};

/// What the reading shows beside the analysis: computed when the mass changes, not in every frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WaterCurves {
    drying: Option<DryingCurve>,
    isotherm: Option<SorptionIsotherm>,
    by_equation: Vec<Option<WaterActivity>>,
    /// What changes most, from what raises it to what lowers it, with the names of the lines.
    effects: Vec<(Effect, String)>,
}

impl WaterCurves {
    /// The curves of a mass.
    #[must_use]
    pub fn of(recipe: &Recipe, analysis: &Analysis) -> Self {
        let by = |water: &Water| Equation::ALL.map(|equation| water.contents.activity_by(equation, ROOM)).to_vec();
        Self {
            drying: figures::drying_curve(recipe, analysis),
            isotherm: figures::sorption_isotherm(analysis),
            by_equation: analysis.water.water().map(by).unwrap_or_default(),
            effects: analysis.water.water().map(|water| strongest(recipe, water)).unwrap_or_default(),
        }
    }
}

/// So many lines are shown, those that change most.
const MOST_EFFECTS: usize = 12;

fn strongest(recipe: &Recipe, water: &Water) -> Vec<(Effect, String)> {
    let mut effects = water.effects.clone();
    effects.sort_by(|left, right| right.change.abs().total_cmp(&left.change.abs()));
    effects.truncate(MOST_EFFECTS);
    effects.sort_by(|left, right| right.change.total_cmp(&left.change));
    let names = Names::of(recipe);
    effects.into_iter().filter_map(|effect| Some((effect, names.name_of(recipe.line(effect.line)?)))).collect()
}

/// The curves of now and of the pinned state.
#[derive(Clone, Copy)]
pub(super) struct Curves<'a> {
    pub now: &'a WaterCurves,
    pub pinned: Option<&'a WaterCurves>,
}

/// A figure that there is not.
const NONE: &str = "none";

pub(super) fn water_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, curves: Curves<'_>, actions: &mut Vec<Action>) {
    let water = match &scene.analysis.water {
        WaterState::Wet(water) => water,
        state => {
            if matches!(state, WaterState::Dry { .. }) {
                Card::new().ui(ui, |ui| dry_head_ui(ui, scene, view.sign, state));
            }
            nothing_ui(ui, &why_none(state, scene.analysis, view.sign));
            pinned_alone_ui(ui, scene, view.sign);
            return;
        }
    };
    Card::new().ui(ui, |ui| head_ui(ui, scene, view.sign, water));
    drying_ui(ui, scene, view.sign, curves, actions);
    let all = grams(water.contents.water.0, view.sign);
    Card::new()
        .title("What holds the water")
        .subtitle(&format!("grams of {all} g in the bowl; only the syrup's share dissolves sugar"))
        .ui(ui, |ui| holders_ui(ui, scene, view, water));
    effects_ui(ui, scene, view, water, &curves.now.effects);
    sugar_ui(ui, scene, view.sign, water);
    keeping::keeping_ui(ui, scene, view.sign, water, actions);
    teaching::stages_ui(ui, scene, view.sign);
    teaching::isotherm_ui(ui, scene, view.sign, curves, actions);
    teaching::equations_ui(ui, scene, view.sign, curves);
}

fn why_none(state: &WaterState, analysis: &Analysis, sign: DecimalSign) -> String {
    match state {
        WaterState::Unknown | WaterState::Wet(_) => words::capital(words::not_known(analysis)),
        WaterState::NoWater => "There is no water, and so no water activity".to_owned(),
        WaterState::Dry { .. } if analysis.make_up.bowl.group(Group::Water).is_some_and(|water| water.0 <= 0.0) => {
            "There is no water in it, and nothing grows without; keep water out".to_owned()
        }
        WaterState::Dry { is_held: true } => format!(
            "Water activity below {}: solids and sugars hold the little water that there is. Neither isotherms nor equations \
             are trusted so low, so no figure is given; the findings say what that means for keeping",
            fixed(DRY.0, 1, sign)
        ),
        WaterState::Dry { is_held: false } => {
            "Water activity not known: so little water, and no solids that hold it. It stands in drops or in a film on \
             crystals; keep water out"
                .to_owned()
        }
    }
}

fn dry_head_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, state: &WaterState) {
    let bowl = &scene.analysis.make_up.bowl;
    let below = matches!(state, WaterState::Dry { is_held: true }).then(|| fixed(DRY.0, 1, sign));
    let percent = bowl.group_share(Group::Water).map(|share| fixed(share.to_percent(), 1, sign));
    let in_grams = bowl.group(Group::Water).map_or_else(String::new, |water| format!("{} g", grams(water.0, sign)));
    let before = scene.pin.and_then(|pin| pin.analysis.make_up.bowl.group_share(Group::Water));
    let ghost = pinned(before.map(MassFraction::to_percent), 1, "%", sign);
    let activity = below.map(|below| format!("under {below}"));
    let caption = format!("water activity, {} °C", shortest(ROOM.0, 0, sign));
    let responses = figures_ui(
        ui,
        &[
            FigureNumber::new(activity.as_deref(), "", &caption),
            FigureNumber::new(percent.as_deref(), "%", "water").detail(&in_grams).ghost(ghost.as_deref()),
        ],
    );
    for (place, response) in responses.iter().enumerate() {
        explain(response, || match place {
            0 => explanations::activity(scene, sign),
            _ => composition::group(Group::Water, scene, sign),
        });
    }
}

/// What the pinned state was, where now has nothing to stand beside it.
fn pinned_alone_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let Some(before) = scene.pin.and_then(|pin| pin.analysis.water.water()) else { return };
    let row = |name: &str, figure: String| FigureRow::new(name, [NONE.to_owned()]).pinned([figure]);
    let rows = [
        row("water activity", words::water_activity_of(before, sign)),
        row("water in the syrup", format!("{} g", fixed(before.rest.syrup_water.0, 1, sign))),
    ];
    Card::new().title("The pinned state").ui(ui, |ui| {
        figure_rows_ui(ui, &rows, |place| match place {
            0 => explanations::activity(scene, sign),
            _ => explanations::syrup_water(scene),
        });
    });
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, water: &Water) {
    let share = |analysis: &Analysis| analysis.make_up.bowl.group_share(Group::Water).map(MassFraction::to_percent);
    let before = scene.pin.and_then(|pin| pin.analysis.water.water());
    let is_outside = water.rest.activity < OUTSIDE;
    let is_bound = water.is_without_solutes();
    let decimals = if is_outside { 1 } else { 2 };
    let activity = fixed(if is_bound { water.low() } else { water.rest.activity }.0, decimals, sign);
    let activity = if is_bound { format!("over {activity}") } else { activity };
    let band = if is_bound { String::new() } else { format!("±{}", shortest(water.band, 2, sign)) };
    let remark = if is_bound {
        "free water beside the solids"
    } else if is_outside {
        "a direction only"
    } else {
        ""
    };
    let percent = share(scene.analysis).map(|percent| fixed(percent, 1, sign));
    let in_grams = format!("{} g", grams(water.contents.water.0, sign));
    let times = water.at_room.sucrose.filter(|times| *times > 0.0);
    let saturation = times.map_or_else(|| NONE.to_owned(), |times| fixed(times, 2, sign));
    let reading = times.map_or("no sucrose in it", words::sucrose_saturation);
    let ghosts = [
        before.map(|before| words::water_activity_of(before, sign)),
        pinned(scene.pin.and_then(|pin| share(&pin.analysis)), 1, "%", sign),
        pinned(before.and_then(|before| before.at_room.sucrose), 2, "", sign),
    ];
    let caption = format!("water activity, {} °C", shortest(ROOM.0, 0, sign));
    let activity_figure = FigureNumber::new(Some(&activity), &band, &caption);
    let activity_figure = if remark.is_empty() { activity_figure } else { activity_figure.detail(remark) };
    let responses = figures_ui(
        ui,
        &[
            activity_figure.ghost(ghosts[0].as_deref()),
            FigureNumber::new(percent.as_deref(), "%", "water").detail(&in_grams).ghost(ghosts[1].as_deref()),
            FigureNumber::new(Some(&saturation), if times.is_some() { "of 1" } else { "" }, "sucrose saturation")
                .detail(reading)
                .ghost(ghosts[2].as_deref()),
        ],
    );
    for (place, response) in responses.iter().enumerate() {
        explain(response, || match place {
            0 => explanations::activity(scene, sign),
            1 => composition::group(Group::Water, scene, sign),
            _ => explanations::sucrose_saturation(scene, sign),
        });
    }
    if let Some(clear) = water.clear.filter(|_| scene.document.recipe.is_cooked()) {
        let clear = words::water_activity(clear, sign);
        let words =
            format!("With the sugar at its solubility, as after graining; cooked clear and not grained it is {clear}.");
        ui.label(theme::quiet(ui, words));
    }
}

fn drying_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, curves: Curves<'_>, actions: &mut Vec<Action>) {
    let Some(curve) = &curves.now.drying else { return };
    let before = scene.pin.zip(curves.pinned.and_then(|pinned| pinned.drying.as_ref()));
    let before = before.map(|(pin, curve)| (pin.analysis.as_ref(), curve));
    let Some(figure) = figures::drying_plot(scene.analysis, before, curve, sign) else { return };
    let mut subtitle = String::from("as it dries or gets damp · dashed: growth is known down to there · shaded: band");
    if !curve.clear.is_empty() {
        subtitle.push_str(" · grey: while all sugar is dissolved");
    }
    subtitle.push_str(&scene.ghost_in_legend());
    let drawn = (&figure, 250.0, sign);
    plot_card_ui(ui, PlotName::Drying, &subtitle, drawn, actions, |_| Some(explanations::drying(scene, sign)));
}

fn hue_of(holder: Holder) -> Hue {
    use crate::analysis::water::sorption::Sorbent;
    match holder {
        Holder::Syrup => Hue::Water,
        Holder::Solids(Sorbent::Cocoa) => Hue::CocoaSolids,
        Holder::Solids(Sorbent::Nut) => Hue::OtherFat,
        Holder::Solids(_) => Hue::OtherSolids,
    }
}

fn holders_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, water: &Water) {
    let sign = view.sign;
    let before = scene.pin.map(|pin| pin.analysis.water.water());
    let of_before = |holder| before.flatten().map_or(0.0, |before| before.held_by(holder).0);
    let is_there = |holder: &Holder| water.held_by(*holder).0 > 0.0 || of_before(*holder) > 0.0;
    let holders: Vec<Holder> = Holder::all().filter(is_there).collect();
    let in_grams = |value: f64| format!("{} g", grams(value, sign));
    let segments: Vec<Segment> = holders
        .iter()
        .map(|holder| {
            let held = water.held_by(*holder).0;
            Segment::new(format!("{} {}", holder.words(), in_grams(held)), held, hue_of(*holder)).short(in_grams(held))
        })
        .collect();
    let ghost: Option<Vec<f64>> = scene.pin.map(|_| holders.iter().map(|holder| of_before(*holder)).collect());
    let lit: Option<Vec<f64>> = view.pointed_line(scene).map(|line| {
        let lit =
            |holder: &Holder| water.held_by(*holder).0 * water.brought_by(&line, *holder).map_or(0.0, |share| share.0);
        holders.iter().map(lit).collect()
    });
    let output = SegmentBar::new("what holds the water", &segments)
        .height(36.0)
        .lit(lit.as_deref())
        .ghost(ghost.as_deref())
        .ui_with(ui, |ui, idx| {
            if let Some(holder) = holders.get(idx) {
                explanations::held_by(*holder, scene, sign).ui(ui);
            }
        });
    let all = water.contents.water.0;
    let rows: Vec<FigureRow> = holders
        .iter()
        .map(|holder| {
            let held = water.held_by(*holder).0;
            let percent = format!("{} %", fixed(100.0 * held / all, 1, sign));
            let row = FigureRow::new(holder.words(), [format!("{} g", fixed(held, 1, sign)), percent])
                .fill(hue_of(*holder).fill());
            match before {
                Some(_) => row.pinned([format!("{} g", fixed(of_before(*holder), 1, sign))]),
                None => row,
            }
        })
        .collect();
    let in_rows = figure_rows_ui(ui, &rows, |place| {
        explanations::held_by(holders.get(place).copied().unwrap_or(Holder::Syrup), scene, sign)
    });
    if let Some(holder) = output.hovered.or(in_rows).and_then(|idx| holders.get(idx)) {
        view.point_at(Pointed::Holder(*holder));
    }
}

fn effects_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, water: &Water, effects: &[(Effect, String)]) {
    let Some(first) = water.effects.first() else { return };
    let sign = view.sign;
    let recipe = &scene.document.recipe;
    let subtitle = format!("change of water activity for {} g more of the line", grams(first.more.0, sign));
    let left_out = water.effects.len().saturating_sub(effects.len());
    let shown: Vec<(&Effect, &String, &Line)> =
        effects.iter().filter_map(|(effect, name)| Some((effect, name, recipe.line(effect.line)?))).collect();
    let before = |line: &Line| {
        let pin = scene.pin?;
        let line = pin.line(line)?.id;
        let mut effects = pin.analysis.water.water()?.effects.iter();
        // Of another amount it would be another figure.
        effects.find(|effect| effect.line == line && effect.more == first.more).map(|effect| effect.change)
    };
    let rows: Vec<ChangeRow> = shown
        .iter()
        .map(|(effect, name, line)| {
            let pinned = before(line);
            let pinned_text = pinned.map_or_else(|| "–".to_owned(), |change| words::change(change, sign));
            ChangeRow {
                name: (*name).clone(),
                change: effect.change,
                text: words::change(effect.change, sign),
                pinned,
                pinned_text: if scene.pin.is_some() { pinned_text } else { String::new() },
                is_lit: view.is_line_lit(scene, line.id),
            }
        })
        .collect();
    Card::new().title("What raises and lowers it").subtitle(&subtitle).ui(ui, |ui| {
        for (response, (_, _, line)) in change_rows_ui(ui, &rows).into_iter().zip(&shown) {
            if is_attended(&response) {
                view.point_at(Pointed::Line(line.id));
            }
            explain(&response, || explanations::effect(scene));
        }
        if left_out > 0 {
            let words = if left_out == 1 {
                "One more line changes it less.".to_owned()
            } else {
                format!("{left_out} more lines change it less.")
            };
            ui.label(theme::caption(ui, words));
        }
    });
}

/// A row of the card on sugar.
#[derive(Clone, Copy)]
enum SugarRow {
    Dissolved,
    Undissolved,
    Sucrose,
    Lactose,
    Solids,
}

impl SugarRow {
    const ALL: [Self; 5] = [Self::Dissolved, Self::Undissolved, Self::Sucrose, Self::Lactose, Self::Solids];

    fn words(self) -> &'static str {
        match self {
            Self::Dissolved => "sucrose, dissolved",
            Self::Undissolved => "sucrose, undissolved",
            Self::Sucrose => "sucrose, times its solubility",
            Self::Lactose => "lactose, times its solubility",
            Self::Solids => "dissolved solids of the syrup",
        }
    }

    /// At room temperature and in a cool store; the latter empty where it is not asked.
    fn figures(self, water: &Water, sign: DecimalSign) -> [String; 2] {
        let in_grams = |grams: crate::units::Grams| format!("{} g", fixed(grams.0, 1, sign));
        let times = |times: Option<f64>| {
            times.filter(|times| *times > 0.0).map_or_else(|| NONE.to_owned(), |times| fixed(times, 2, sign))
        };
        match self {
            Self::Dissolved => [String::new(), in_grams(water.rest.dissolved_sucrose)],
            Self::Undissolved => [String::new(), in_grams(water.rest.undissolved_sucrose)],
            Self::Sucrose => [times(water.in_store.sucrose), times(water.at_room.sucrose)],
            Self::Lactose => [times(water.in_store.lactose), times(water.at_room.lactose)],
            Self::Solids => {
                let percent = |share: MassFraction| format!("{} %", fixed(share.to_percent(), 1, sign));
                [String::new(), water.dissolved_solids().map_or_else(|| NONE.to_owned(), percent)]
            }
        }
    }
}

fn sugar_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, water: &Water) {
    let before = scene.pin.map(|pin| pin.analysis.water.water());
    let (room, store) = (shortest(ROOM.0, 0, sign), shortest(STORE.0, 0, sign));
    let rows = SugarRow::ALL.map(|row| {
        let [in_store, at_room] = row.figures(water, sign);
        let store = if in_store.is_empty() { String::new() } else { format!("{in_store} at {store} °C") };
        let shown = FigureRow::new(row.words(), [at_room, store]);
        match before {
            Some(before) => {
                shown.pinned([before.map_or_else(|| NONE.to_owned(), |before| row.figures(before, sign)[1].clone())])
            }
            None => shown,
        }
    });
    Card::new().title("Sugar in and out of solution").subtitle(&format!("grams in the bowl, at {room} °C")).ui(
        ui,
        |ui| {
            figure_rows_ui(ui, &rows, |place| match SugarRow::ALL.get(place) {
                Some(SugarRow::Lactose) => explanations::lactose_saturation(sign),
                Some(SugarRow::Sucrose) => explanations::sucrose_saturation(scene, sign),
                Some(SugarRow::Solids) => explanations::dissolved_solids(scene, sign),
                Some(SugarRow::Dissolved | SugarRow::Undissolved) | None => {
                    explanations::dissolved_sucrose(scene, sign)
                }
            });
            if let Some(words) = words::graining(&scene.document.recipe, water) {
                ui.label(theme::quiet(ui, words));
            }
        },
    );
}
