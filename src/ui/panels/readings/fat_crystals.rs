//! The reading Fat crystals: form V limit, solid fat, seeding and its plan, texture.

pub(super) mod plan;
mod texture;

use egui::{Label, TextWrapMode, Ui};

use super::{nothing_ui, pinned, plot_card_ui};
use crate::analysis::Analysis;
use crate::analysis::fat::{Form, LEAST_COCOA_BUTTER_FOR_LIMITS};
use crate::analysis::fat_crystals::{FatCrystals, Limits};
use crate::analysis::seeding::{Dose, SEED_SOLID_SHARE, Seeding, Window};
use crate::analysis::survival::{cream_at, fate};
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::recipe::CocoaButter;
use crate::report::figure::Curve;
use crate::report::figures::{self, DilutionCurves, PlotName};
use crate::report::words;
use crate::ui::explanations::fat as explanations;
use crate::ui::plot::PlotPart;
use crate::ui::theme::{self, space};
use crate::ui::view::{Action, Scene, View};
use crate::ui::widgets::{
    Card, Explanation, FigureNumber, FigureRow, explain, figure_rows_ui, figures_ui, told_row_ui,
};
use crate::units::{Celsius, Grams, MassFraction};

/// Curves of the cocoa butter of the recipe: computed when another is chosen.
#[derive(Clone, Copy)]
pub(super) struct Curves<'a> {
    /// Its solid fat alone.
    pub alone: &'a Curve,
    /// Its form V limit with other fats.
    pub dilution: &'a DilutionCurves,
    /// Where it is a cream of seed, in form V and in form VI.
    pub cream: Option<[Celsius; 2]>,
    /// The words of the seeding plan.
    pub plan: plan::PlanTexts<'a>,
}

pub(super) fn fat_crystals_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    view: &View,
    curves: Curves<'_>,
    actions: &mut Vec<Action>,
) {
    let fat = match &scene.analysis.fat {
        Ok(fat) => fat,
        Err(why) => {
            nothing_ui(ui, &words::capital(words::no_fat_crystals(*why, scene.analysis)));
            pinned_alone_ui(ui, scene, view);
            return;
        }
    };
    Card::new().ui(ui, |ui| head_ui(ui, scene, view, fat));
    plot_ui(ui, scene, view, curves.alone, actions);
    let had_seeding = scene.pin.is_some_and(|pin| pin.analysis.seeding.is_some());
    Card::new().title("Seeding").subtitle("with tempered cocoa butter").ui(ui, |ui| {
        let now = scene.analysis.seeding.as_ref();
        if now.is_none() {
            ui.label(theme::quiet(ui, "Not to be seeded: the findings say why, and what would change it"));
        }
        if now.is_some() || had_seeding {
            seeding_ui(ui, scene, view, now, curves.cream);
        }
    });
    plan::plan_ui(ui, scene, view, curves.plan, actions);
    texture::texture_ui(ui, scene, view.sign);
    dilution_ui(ui, scene, view, curves.dilution, actions);
    Card::new().title("Why").subtitle("what is physics, what is habit").ui(ui, |ui| why_ui(ui, scene, view, fat));
}

/// What the pinned state was, where now has nothing to stand beside it.
fn pinned_alone_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View) {
    let Some((pin, fat)) = scene.pin.and_then(|pin| Some((pin, pin.analysis.fat.as_ref().ok()?))) else { return };
    let sign = view.sign;
    let solid = fixed(fat.solid_at.total().to_percent(), 1, sign);
    let crystals = fixed(fat.crystals_of_mass(pin.bowl().total()).to_percent(), 1, sign);
    let mut rows: Vec<FigureRow> = vec![
        FigureRow::new(format!("solid at {} °C", fixed(fat.at.0, 1, sign)), [NONE.to_owned()])
            .pinned([format!("{solid} %")]),
        FigureRow::new("fat crystals of the mass", [NONE.to_owned()]).pinned([format!("{crystals} %")]),
    ];
    rows.extend(
        Reason::ALL.map(|reason| FigureRow::new(reason.words(), [NONE.to_owned()]).pinned([reason.figure(fat, sign)])),
    );
    Card::new().title("The pinned state").ui(ui, |ui| {
        figure_rows_ui(ui, &rows, |place| match place.checked_sub(2).and_then(|place| Reason::ALL.get(place)) {
            Some(reason) => reason.explanation(fat, scene, sign),
            None if place == 0 => explanations::solid_fat(fat, scene, sign),
            None => explanations::crystals(scene, sign),
        });
    });
}

/// A figure that there is not.
const NONE: &str = "none";

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, fat: &FatCrystals) {
    let sign = view.sign;
    let before = scene.pin.and_then(|pin| pin.analysis.fat.as_ref().ok());
    let limit = fat.limits.form_v.map(|limit| fixed(limit.0, 1, sign));
    let solid = fixed(fat.solid_at.total().to_percent(), 1, sign);
    let crystals_of =
        |analysis: &Analysis, fat: &FatCrystals| fat.crystals_of_mass(analysis.make_up.bowl.total()).to_percent();
    let crystals = fixed(crystals_of(scene.analysis, fat), 1, sign);
    let plus_minus = |uncertainty: Option<f64>, decimals, unit: &str| {
        uncertainty
            .map_or_else(|| "± not known".to_owned(), |value| format!("±{} {unit}", shortest(value, decimals, sign)))
    };
    let of_limit = match fat.limits.form_v {
        Some(_) => plus_minus(fat.limit_uncertainty.map(|kelvin| kelvin.0), 1, "K"),
        None => format!("under {} % cocoa butter", shortest(LEAST_COCOA_BUTTER_FOR_LIMITS.to_percent(), 0, sign)),
    };
    let limit_unit = if limit.is_some() { "°C" } else { "" };
    let limit = limit.unwrap_or_else(|| NONE.to_owned());
    let details = [of_limit, plus_minus(fat.solid_fat_uncertainty_points, 1, "points"), "of the mass".to_owned()];
    let solid_caption = format!("solid at {} °C", fixed(fat.at.0, 1, sign));
    let ghosts = [
        pinned(before.and_then(|before| before.limits.form_v).map(|limit| limit.0), 1, "°C", sign),
        pinned(before.map(|before| before.solid_at.total().to_percent()), 1, "%", sign),
        pinned(scene.pin.zip(before).map(|(pin, before)| crystals_of(&pin.analysis, before)), 1, "%", sign),
    ];
    let responses = figures_ui(
        ui,
        &[
            FigureNumber::new(Some(&limit), limit_unit, "form V limit").detail(&details[0]).ghost(ghosts[0].as_deref()),
            FigureNumber::new(Some(&solid), "%", &solid_caption).detail(&details[1]).ghost(ghosts[1].as_deref()),
            FigureNumber::new(Some(&crystals), "%", "fat crystals").detail(&details[2]).ghost(ghosts[2].as_deref()),
        ],
    );
    for (place, response) in responses.iter().enumerate() {
        explain(response, || match place {
            0 => explanations::limit(Form::V, fat, scene, sign),
            1 => explanations::solid_fat(fat, scene, sign),
            _ => explanations::crystals(scene, sign),
        });
    }
}

fn plot_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, alone: &Curve, actions: &mut Vec<Action>) {
    let before = scene.pin.map(|pin| pin.analysis.as_ref());
    let Some(figure) = figures::solid_fat(scene.analysis, before, alone, view.sign) else { return };
    let mut subtitle = String::from("dashed: cocoa butter alone · light band: one standard deviation");
    if let Some(seeding) = &scene.analysis.seeding {
        subtitle.push_str(" · shaded: seeding window");
        if seeding.second_window().is_some() {
            subtitle.push_str(", outlined: while globules are whole");
        }
    }
    subtitle.push_str(&scene.ghost_in_legend());
    let explained = |part| {
        let fat = scene.analysis.fat.as_ref().ok()?;
        Some(match part {
            PlotPart::Mark => explanations::solid_fat(fat, scene, view.sign),
            PlotPart::Limit => explanations::limit(Form::V, fat, scene, view.sign),
        })
    };
    plot_card_ui(ui, PlotName::SolidFat, &subtitle, (&figure, 230.0, view.sign), actions, explained);
}

fn dilution_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, curves: &DilutionCurves, actions: &mut Vec<Action>) {
    let before = scene.pin.map(|pin| pin.analysis.as_ref());
    let Some(figure) = figures::dilution_plot(scene.analysis, before, curves, view.sign) else { return };
    let mut subtitle = String::from("line: milk fat alone · dashed: liquid oil alone · point: this mass");
    if scene.pin.is_some() {
        subtitle.push_str(" · ring: pinned");
    }
    let explained = |_| {
        let fat = scene.analysis.fat.as_ref().ok()?;
        Some(explanations::limit(Form::V, fat, scene, view.sign))
    };
    plot_card_ui(ui, PlotName::Dilution, &subtitle, (&figure, 190.0, view.sign), actions, explained);
}

fn seeding_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, now: Option<&Seeding>, cream: Option<[Celsius; 2]>) {
    let sign = view.sign;
    let before = scene.pin.map(|pin| pin.analysis.seeding.as_ref());
    // A figure of now, and under it what it was: either may be none.
    let row = |ui: &mut Ui,
               name: &str,
               of: &dyn Fn(Grams, &Seeding) -> Option<String>,
               explanation: &dyn Fn() -> Explanation| {
        let words = |seeding: Option<&Seeding>| {
            seeding.and_then(|seeding| of(seeding.bowl, seeding)).unwrap_or_else(|| NONE.to_owned())
        };
        let ghost = before.map(words);
        row_ui(ui, name, &words(now), ghost.as_deref(), explanation);
    };
    let has_unmixed = |seeding: Option<&Seeding>| seeding.is_some_and(|seeding| seeding.second_window().is_some());
    let are_two = has_unmixed(now) || before.is_some_and(has_unmixed);
    let all = if are_two { "all fats mixed" } else { "window" };
    row(ui, all, &|_, seeding| Some(range(&seeding.window, sign)), &|| explanations::window(scene, sign));
    if are_two {
        row(ui, "fresh emulsion", &|_, seeding| seeding.second_window().map(|window| range(&window, sign)), &|| {
            explanations::unmixed_window(scene, sign)
        });
    }
    put_in_ui(ui, scene, sign, cream);
    let dose = |bowl: Grams, dose: &Dose| {
        let percent = fixed(dose.share.to_percent(), 2, sign);
        format!("{} g, {percent} % of the mass", grams((bowl * dose.share).0, sign))
    };
    row(ui, "seed for the bowl", &|bowl, seeding| Some(words::dose_amount(seeding, bowl, sign)), &|| {
        explanations::dose(scene, sign)
    });
    row(ui, "· by trade habit", &|bowl, seeding| Some(dose(bowl, &seeding.habit)), &|| {
        explanations::seed_by_habit(scene, sign)
    });
    row(
        ui,
        "· for equal setting time",
        &|bowl, seeding| {
            let equal = seeding.equal_time.as_ref();
            Some(equal.map_or_else(|| "no dose does it".to_owned(), |equal| dose(bowl, equal)))
        },
        &|| explanations::seed_equal_time(scene, sign),
    );
    let crystals = |seeding: &Seeding| format!("{} % of the fat", fixed(seeding.crystals.to_percent(), 2, sign));
    row(ui, "crystals by habit", &|_, seeding| Some(crystals(seeding)), &|| explanations::seed_crystals(scene, sign));
    if has_unmixed(now) {
        ui.add_space(space::TIGHT);
        wrapped_ui(
            ui,
            "A fresh, gently stirred emulsion still has its fat in globules: seed lives in the upper window. After hard \
             mixing, standing warm or a rest, only in the lower one. When in doubt, the lower one.",
        );
    }
}

/// What becomes of seed at the thermometer's temperature, and at which temperature seed is a cream.
fn put_in_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, cream: Option<[Celsius; 2]>) {
    let at = scene.analysis.at;
    let name = format!("put in at {} °C", fixed(at.0, 1, sign));
    if let Some(words) = put_in(scene.analysis, sign) {
        let before = scene.pin.map(|pin| put_in_before(&pin.analysis).unwrap_or(NONE).to_owned());
        row_ui(ui, &name, &words, before.as_deref(), || explanations::put_in(scene, sign));
    }
    if let Some([from, to]) = cream {
        let words = format!("{} to {} °C", fixed(from.0, 1, sign), fixed(to.0, 1, sign));
        row_ui(ui, "seed is a cream at", &words, None, explanations::seed_cream);
    }
}

/// Of the pinned state in short: there is one line for it.
fn put_in_before(analysis: &Analysis) -> Option<&'static str> {
    let seeding = analysis.seeding.as_ref()?;
    fate(&seeding.limits, &seeding.window, analysis.at).map(words::fate_in_short)
}

fn put_in(analysis: &Analysis, sign: DecimalSign) -> Option<String> {
    let (fat, seeding) = (analysis.fat.as_ref().ok()?, analysis.seeding.as_ref()?);
    let at = analysis.at;
    let limit = seeding.limits.form_v?;
    let found = fate(&seeding.limits, &seeding.window, at)?;
    let away = (limit - at).0;
    let side = if away < 0.0 { "above" } else { "below" };
    let mut words = format!("{}, {} K {side} the limit", words::fate(found), fixed(away.abs(), 1, sign));
    let fresh = fat
        .unmixed
        .as_ref()
        .zip(seeding.second_window())
        .and_then(|(phase, window)| fate(&Limits::of(phase), &window, at));
    if let Some(fresh) = fresh.filter(|fresh| *fresh != found) {
        words = format!("{words}; while the emulsion is fresh: {}", self::words::fate(fresh));
    }
    Some(words)
}

/// Where this cocoa butter is a cream of seed, in form V and in form VI.
pub(super) fn cream_of(cocoa_butter: CocoaButter) -> Option<[Celsius; 2]> {
    let cream = |form| cream_at(cocoa_butter, SEED_SOLID_SHARE, form);
    Some([cream(Form::V)?, cream(Form::VI)?])
}

/// A name, its value, and under it the value of the pinned state.
fn row_ui(ui: &mut Ui, name: &str, value: &str, ghost: Option<&str>, explanation: impl FnOnce() -> Explanation) {
    explain(&told_row_ui(ui, name, value, ghost), explanation);
}

fn range(window: &Window, sign: DecimalSign) -> String {
    let figure = |celsius: Celsius| fixed(celsius.0, 1, sign);
    format!("{} to {} °C, best {}", figure(window.min), figure(window.max), figure(window.recommended))
}

/// A figure behind the result.
#[derive(Clone, Copy)]
enum Reason {
    CocoaButter,
    MilkFat,
    OtherFat,
    Limit(Form),
}

impl Reason {
    const ALL: [Self; 6] = [
        Self::CocoaButter,
        Self::MilkFat,
        Self::OtherFat,
        Self::Limit(Form::VI),
        Self::Limit(Form::V),
        Self::Limit(Form::IV),
    ];

    fn words(self) -> &'static str {
        match self {
            Self::CocoaButter => "cocoa butter in the fat",
            Self::MilkFat => "milk fat in the fat",
            Self::OtherFat => "other fat in the fat",
            Self::Limit(Form::IV) => "form IV melts at",
            Self::Limit(Form::V) => "form V melts at",
            Self::Limit(Form::VI) => "form VI melts at",
        }
    }

    fn figure(self, fat: &FatCrystals, sign: DecimalSign) -> String {
        let (cocoa_butter, milk_fat) = (fat.blended.cocoa_butter_share(), fat.grams.milk_fat / fat.grams.total());
        let percent = |share: MassFraction| format!("{} %", fixed(share.to_percent(), 1, sign));
        match self {
            Self::CocoaButter => percent(cocoa_butter),
            Self::MilkFat => percent(milk_fat),
            Self::OtherFat => percent(MassFraction((1.0 - cocoa_butter.0 - milk_fat.0).max(0.0))),
            Self::Limit(form) => {
                let limit = match form {
                    Form::IV => fat.limits.form_iv,
                    Form::V => fat.limits.form_v,
                    Form::VI => fat.limits.form_vi,
                };
                limit.map_or_else(|| "no limit".to_owned(), |limit| format!("{} °C", fixed(limit.0, 1, sign)))
            }
        }
    }

    fn explanation(self, fat: &FatCrystals, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
        match self {
            Self::CocoaButter => explanations::share_of_fat("cocoa butter", scene),
            Self::MilkFat => explanations::share_of_fat("milk fat", scene),
            Self::OtherFat => explanations::share_of_fat("other fat", scene),
            Self::Limit(form) => explanations::limit(form, fat, scene, sign),
        }
    }
}

fn why_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, fat: &FatCrystals) {
    let sign = view.sign;
    let before = scene.pin.map(|pin| pin.analysis.fat.as_ref().ok());
    let rows = Reason::ALL.map(|reason| {
        let row = FigureRow::new(reason.words(), [reason.figure(fat, sign)]);
        match before {
            Some(before) => row.pinned([before.map_or_else(|| "none".to_owned(), |fat| reason.figure(fat, sign))]),
            None => row,
        }
    });
    figure_rows_ui(ui, &rows, |place| {
        Reason::ALL.get(place).copied().unwrap_or(Reason::CocoaButter).explanation(fat, scene, sign)
    });
    wrapped_ui(
        ui,
        "Physics: what is not cocoa butter dilutes its crystals, so limit and window fall and the mass sets softer. Below \
         the limit of form IV the wrong crystals can grow; old, well-kept seed survives up to that of form VI, but grows \
         only below that of form V.",
    );
    wrapped_ui(
        ui,
        "Habit: the dose, in proportion to the fat and by the use, and how far below the limit to work. Common practice, \
         no published source; the finding about seeding says how this dose came about.",
    );
    wrapped_ui(
        ui,
        "Not in it: how fast it cools and sets, ageing from form V to VI, fat and sugar bloom; emulsifiers and water do \
         not act on the fat of the model.",
    );
}

fn wrapped_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, words)).wrap_mode(TextWrapMode::Wrap));
}
