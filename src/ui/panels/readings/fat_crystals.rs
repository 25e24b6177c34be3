//! The reading Fat crystals: form V limit, solid fat, seeding.

use egui::{Label, TextWrapMode, Ui};

use super::{nothing_ui, pinned};
use crate::analysis::fat_crystals::FatCrystals;
use crate::analysis::parts::Group;
use crate::analysis::seeding::{Dose, Seeding, Window, habit_factor};
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::report::figure::Curve;
use crate::report::figures;
use crate::ui::explanations;
use crate::ui::plot::figure_ui;
use crate::ui::theme::{self, space};
use crate::ui::view::{Scene, View};
use crate::ui::widgets::{Card, Explanation, FigureNumber, explain, figures_ui};
use crate::units::{Celsius, Grams, MassFraction};

pub(super) fn fat_crystals_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, alone: &Curve) {
    let Some(fat) = &scene.analysis.fat else {
        let words = if scene.analysis.make_up.bowl.group(Group::TotalFat) == Some(Grams::ZERO) {
            "There is no fat: nothing crystallises and there is nothing to seed"
        } else {
            "Not known: a figure of the fat is missing, see the findings"
        };
        nothing_ui(ui, words);
        return;
    };
    Card::new().ui(ui, |ui| head_ui(ui, scene, view, fat));
    plot_ui(ui, scene, view, alone);
    Card::new().title("Seeding").subtitle("with tempered cocoa butter").ui(ui, |ui| match &scene.analysis.seeding {
        Some(seeding) => seeding_ui(ui, scene, view, seeding),
        None => {
            ui.label(theme::quiet(ui, "Not to be seeded: too little cocoa butter in the fat, see the findings"));
        }
    });
    Card::new().title("Why").subtitle("what is physics, what is habit").ui(ui, |ui| why_ui(ui, scene, view, fat));
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, fat: &FatCrystals) {
    let sign = view.sign;
    let before = scene.pin.and_then(|pin| pin.analysis.fat.as_ref());
    let limit = fat.limits.form_v.map(|limit| fixed(limit.0, 1, sign));
    let solid = fixed(fat.solid_at.total().to_percent(), 0, sign);
    let crystals_of = |analysis: &crate::analysis::Analysis, fat: &FatCrystals| {
        fat.crystals_of_mass(analysis.make_up.bowl.total()).to_percent()
    };
    let crystals = fixed(crystals_of(scene.analysis, fat), 0, sign);
    let kelvin = fat.limit_uncertainty.map(|kelvin| format!("±{} K,", fixed(kelvin.0, 1, sign)));
    let points = fat.solid_fat_uncertainty_points.map(|points| format!("±{} points,", fixed(points, 1, sign)));
    let at = fixed(fat.at.0, 1, sign);
    let captions = [
        fat.limit_uncertainty.map_or_else(
            || "form V limit".to_owned(),
            |kelvin| format!("form V limit ±{} K", fixed(kelvin.0, 1, sign)),
        ),
        format!("solid at {at} °C"),
        "crystals in mass".to_owned(),
    ];
    let ghosts = [
        pinned(before.and_then(|before| before.limits.form_v).map(|limit| limit.0), 1, "°C", sign),
        pinned(before.map(|before| before.solid_at.total().to_percent()), 0, "%", sign),
        pinned(scene.pin.zip(before).map(|(pin, before)| crystals_of(&pin.analysis, before)), 0, "%", sign),
    ];
    let explanations = [
        explanations::form_v_limit(kelvin.as_deref()),
        explanations::solid_fat(points.as_deref()),
        explanations::crystals(),
    ];
    figures_ui(
        ui,
        &[
            FigureNumber::new(limit.as_deref(), "°C", &captions[0])
                .ghost(ghosts[0].as_deref())
                .explanation(&explanations[0]),
            FigureNumber::new(Some(&solid), "%", &captions[1])
                .ghost(ghosts[1].as_deref())
                .explanation(&explanations[1]),
            FigureNumber::new(Some(&crystals), "%", &captions[2])
                .ghost(ghosts[2].as_deref())
                .explanation(&explanations[2]),
        ],
    );
}

fn plot_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, alone: &Curve) {
    let before = scene.pin.map(|pin| pin.analysis.as_ref());
    let Some(figure) = figures::solid_fat(scene.analysis, before, alone, view.sign) else { return };
    let mut subtitle = String::from("dashed: cocoa butter alone");
    if let Some(seeding) = &scene.analysis.seeding {
        subtitle.push_str(" · shaded: seeding window");
        if seeding.unmixed.is_some() {
            subtitle.push_str(", lighter while globules are whole");
        }
    }
    if scene.pin.is_some() {
        subtitle.push_str(" · loosely dashed: pinned");
    }
    Card::new()
        .title("Solid fat against temperature")
        .subtitle(&subtitle)
        .ui(ui, |ui| figure_ui(ui, "solid fat", &figure, 230.0, view.sign));
}

fn seeding_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, seeding: &Seeding) {
    let sign = view.sign;
    let before = scene.pin.and_then(|pin| pin.analysis.seeding.as_ref());
    let bowl = scene.analysis.make_up.bowl.total();
    let window = |window: &Window| range(window, sign);
    let all = if seeding.unmixed.is_some() { "all fats mixed" } else { "window" };
    row_ui(ui, all, &window(&seeding.window), before.map(|before| window(&before.window)), &explanations::window());
    if let Some(unmixed) = &seeding.unmixed {
        let ghost = before.and_then(|before| before.unmixed.as_ref()).map(window);
        row_ui(ui, "fresh emulsion", &window(unmixed), ghost, &explanations::unmixed_window());
    }
    let dose = |bowl: Grams, dose: &Dose| {
        let percent = fixed(dose.share.to_percent(), 2, sign);
        format!("{} g, {percent} % of the mass", grams((bowl * dose.share).0, sign))
    };
    let bowl_before = scene.pin.map(|pin| pin.analysis.make_up.bowl.total());
    let ghost = before.zip(bowl_before).map(|(before, bowl)| dose(bowl, &before.habit));
    row_ui(ui, "seed by habit", &dose(bowl, &seeding.habit), ghost, &explanations::seed_by_habit());
    let equal = seeding.equal_time.as_ref().map_or_else(|| "no dose does it".to_owned(), |equal| dose(bowl, equal));
    let ghost = before.zip(bowl_before).and_then(|(before, bowl)| Some(dose(bowl, before.equal_time.as_ref()?)));
    row_ui(ui, "for equal setting time", &equal, ghost, &explanations::seed_equal_time());
    if seeding.unmixed.is_some() {
        ui.add_space(space::TIGHT);
        wrapped_ui(
            ui,
            "A fresh, gently stirred emulsion still has its milk fat in globules: seed lives in the upper window. After \
             hard mixing, standing warm or a rest, only in the lower one. When in doubt, the lower one.",
        );
    }
}

/// A name, its value, and under it the value of the pinned state.
fn row_ui(ui: &mut Ui, name: &str, value: &str, ghost: Option<String>, explanation: &Explanation) {
    /// Wide enough for the longest name.
    const NAME: f32 = 150.0;
    let row = ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(egui::vec2(NAME, space::TARGET), egui::Layout::top_down(egui::Align::Min), |ui| {
            ui.set_min_width(NAME);
            ui.label(theme::quiet(ui, name));
        });
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 1.0;
            ui.add(Label::new(theme::strong(value)).wrap_mode(TextWrapMode::Wrap));
            if let Some(ghost) = ghost {
                ui.add(Label::new(theme::caption(ui, format!("pinned {ghost}"))).wrap_mode(TextWrapMode::Wrap));
            }
        });
    });
    explain(&row.response, explanation);
}

fn range(window: &Window, sign: DecimalSign) -> String {
    let figure = |celsius: Celsius| fixed(celsius.0, 1, sign);
    format!("{} to {} °C, best {}", figure(window.min), figure(window.max), figure(window.recommended))
}

fn why_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, fat: &FatCrystals) {
    let sign = view.sign;
    let percent = |share: MassFraction| format!("{} %", fixed(share.to_percent(), 0, sign));
    let all = fat.grams.total();
    let cocoa_butter = fat.blended.cocoa_butter_share();
    let milk_fat = fat.grams.milk_fat / all;
    let rest = MassFraction((1.0 - cocoa_butter.0 - milk_fat.0).max(0.0));
    wrapped_ui(
        ui,
        &format!(
            "Physics: cocoa butter is {} of the fat, milk fat {}, other fat {}. What is not cocoa butter dilutes its \
             crystals: the form V limit and the window fall, and the mass sets softer.",
            percent(cocoa_butter),
            percent(milk_fat),
            percent(rest)
        ),
    );
    let limits = [("IV", fat.limits.form_iv), ("V", fat.limits.form_v), ("VI", fat.limits.form_vi)]
        .into_iter()
        .filter_map(|(form, limit)| Some(format!("form {form} {} °C", fixed(limit?.0, 1, sign))))
        .collect::<Vec<_>>();
    if !limits.is_empty() {
        wrapped_ui(
            ui,
            &format!(
                "Melting limits in this fat: {}. Below that of form IV the wrong crystals can grow; old, well-kept seed \
                 survives up to that of form VI, but grows only below V. IV and VI are rough, ±1 K.",
                limits.join(", ")
            ),
        );
    }
    let Some(seeding) = &scene.analysis.seeding else { return };
    let factor = habit_factor(scene.document.recipe.intended_use);
    let use_words = match scene.document.recipe.intended_use {
        Some(crate::recipe::Use::ThickBar) => " Thick bars take half: their heat has to get out.",
        Some(crate::recipe::Use::ThinCoat) => {
            " Thin coats take about a third: it keeps them fluid; it does not follow from their thickness."
        }
        _ => "",
    };
    wrapped_ui(
        ui,
        &format!(
            "Habit: {} of seed for a mass with 35 % fat, in proportion to the fat.{use_words} It gives {} of crystals in \
             the fat. Common practice, no published source.",
            shortest(factor, 2, sign) + " %",
            fixed(seeding.crystals.to_percent(), 2, sign) + " %",
        ),
    );
}

fn wrapped_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, words)).wrap_mode(TextWrapMode::Wrap));
}
