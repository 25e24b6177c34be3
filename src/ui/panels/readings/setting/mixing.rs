//! The card Mixing: where the lines end, what makes it, what becomes of their crystals, how warm a line has to start.

use egui::{Label, Sense, TextWrapMode, Ui, WidgetInfo, accesskit::Role};

use crate::analysis::finding::{MixingSubject, WaySubject};
use crate::analysis::heat::Fat;
use crate::analysis::mixing::{MixingState, UNSAID, Way, start_of};
use crate::analysis::remedy::Names;
use crate::number::{DecimalSign, fixed, grams, shortest};
use crate::recipe::{Bowl, Line};
use crate::report::words;
use crate::ui::explanations::mixing as explanations;
use crate::ui::panels::lines::state_of;
use crate::ui::theme::{self, space};
use crate::ui::view::{Pin, Scene};
use crate::ui::widgets::{
    Card, Explanation, FigureNumber, FigureRow, explain, figure_rows_ui, figures_ui, focus_ring, ghost_label,
    with_units,
};
use crate::units::{Celsius, Grams, Kelvin};

/// Draws the card; nothing where neither this recipe nor the pinned one has temperatures.
pub fn card(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let before = scene.pin.and_then(|pin| pin.analysis.mixing.as_ref()?.as_ref().ok());
    match &scene.analysis.mixing {
        Some(Ok(mixing)) => {
            let subtitle = "all lines stirred together, sugar dissolved";
            Card::new().title("Mixing").subtitle(subtitle).ui(ui, |ui| mixed_ui(ui, scene, sign, mixing, before));
        }
        Some(Err(why)) => sentence_ui(ui, &format!("Where the mix ends: {}.", words::no_mixing(why)), before, sign),
        None if before.is_some() => sentence_ui(ui, "No line has a temperature.", before, sign),
        None => {}
    }
}

/// A card that says why there is no end, with the pinned one.
fn sentence_ui(ui: &mut Ui, words: &str, before: Option<&MixingState>, sign: DecimalSign) {
    Card::new().title("Mixing").ui(ui, |ui| {
        ui.label(theme::quiet(ui, words));
        if let Some(before) = before {
            ghost_label(ui, &words::mix_end(before, sign).temperature);
        }
    });
}

fn mixed_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: &MixingState, before: Option<&MixingState>) {
    head_ui(ui, scene, sign, mixing, before);
    stop_ui(ui, &words::mix_next(&MixingSubject::of(scene.analysis, mixing), sign), || explanations::end(scene, sign));
    ui.add_space(space::TIGHT);
    starts_ui(ui, scene, sign);
    ui.label(theme::strong("What makes it"));
    let rows: Vec<(Row, FigureRow)> = Row::ALL
        .into_iter()
        .filter_map(|row| {
            let figures = row.figures(mixing, sign);
            let pinned = scene.pin.map(|_| before.and_then(|before| row.figures(before, sign)));
            if figures.is_none() && pinned.as_ref().is_none_or(Option::is_none) {
                return None;
            }
            let none = || vec!["none".to_owned()];
            let shown = FigureRow::new(row.name(scene, sign), figures.unwrap_or_else(none));
            Some((
                row,
                match pinned {
                    Some(pinned) => shown.pinned(pinned.unwrap_or_else(none)),
                    None => shown,
                },
            ))
        })
        .collect();
    let shown: Vec<FigureRow> = rows.iter().map(|(_, row)| row.clone()).collect();
    figure_rows_ui(ui, &shown, |place| rows.get(place).map_or(Row::Sensible, |(row, _)| *row).explanation(scene, sign));
    ways_ui(ui, scene, sign, mixing);
    if mixing.unsaid > 0 {
        let verb = if mixing.unsaid == 1 { "counts" } else { "count" };
        let room = shortest(UNSAID.0, 0, sign);
        let words = format!("{} of {} lines {verb} as {room} °C: nothing is typed.", mixing.unsaid, mixing.lines);
        stop_ui(ui, &words, || explanations::unsaid(sign));
    }
    wrapped_ui(
        ui,
        "Not in it: a bowl and stirring that are not typed, crystals that form while you stir, fat that stays in its \
         globules. Measure once and compare.",
    );
}

fn head_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: &MixingState, before: Option<&MixingState>) {
    let end = fixed(mixing.end.0, 1, sign);
    let place = words::mix_end(mixing, sign).place;
    let uncertainty = format!("±{} K", fixed(mixing.uncertainty.0, 1, sign));
    let detail = if place.is_empty() { uncertainty } else { format!("{uncertainty}, {place}") };
    let degrees = |celsius: f64| format!("{} °C", fixed(celsius, 1, sign));
    let ghost = scene.pin.map(|_| before.map_or_else(|| "none".to_owned(), |before| degrees(before.end.0)));
    let wanted = mixing.wanted.as_ref().map(|wanted| fixed(wanted.at.0, 1, sign));
    let miss = mixing.missed().map(|miss| format!("missed by {} K", fixed(miss.0.abs(), 1, sign)));
    let reached = miss.unwrap_or_else(|| "reached".to_owned());
    let wanted_before = scene.pin.map(|pin: &Pin| {
        let wanted = pin.document.recipe.mixing.wanted;
        wanted.map_or_else(|| "none".to_owned(), |wanted| degrees(wanted.celsius().0))
    });
    let mut figures =
        vec![FigureNumber::new(Some(&end), "°C", "the mix ends at").detail(&detail).ghost(ghost.as_deref())];
    if let Some(wanted) = &wanted {
        figures.push(FigureNumber::new(Some(wanted), "°C", "wanted").detail(&reached).ghost(wanted_before.as_deref()));
    }
    for (place, response) in figures_ui(ui, &figures).iter().enumerate() {
        explain(response, || if place == 0 { explanations::end(scene, sign) } else { explanations::wanted_end(sign) });
    }
}

/// What goes in, each line with its amount, its temperature and the state of its fat: all that the next one has to know.
fn starts_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let recipe = &scene.document.recipe;
    // Seed goes in afterwards, as the plan says.
    let goes_in_now = |line: &&Line| line.amount.grams().0 > 0.0 && !line.is_seed;
    let lines: Vec<&Line> = recipe.lines.iter().filter(goes_in_now).collect();
    let names = Names::of(recipe);
    let mut rows: Vec<FigureRow> = lines
        .iter()
        .map(|line| {
            let row = FigureRow::new(words::capital(&names.name_of(line)), goes_in(line, sign));
            match scene.pin {
                Some(pin) => row.pinned(pin.line(line).map_or_else(|| vec!["none".to_owned()], |it| goes_in(it, sign))),
                None => row,
            }
        })
        .collect();
    let bowl_of = |bowl: Bowl| {
        let celsius = shortest(bowl.temperature.celsius().0, 1, sign);
        vec![format!("{} g", grams(bowl.mass.grams().0, sign)), format!("{celsius} °C"), bowl.material.key().to_owned()]
    };
    let bowl_before = scene.pin.and_then(|pin| pin.document.recipe.mixing.bowl);
    if recipe.mixing.bowl.is_some() || bowl_before.is_some() {
        let none = || vec!["none".to_owned()];
        let row = FigureRow::new("Bowl", recipe.mixing.bowl.map_or_else(none, bowl_of));
        rows.push(if scene.pin.is_some() { row.pinned(bowl_before.map_or_else(none, bowl_of)) } else { row });
    }
    ui.label(theme::strong("What goes in"));
    figure_rows_ui(ui, &rows, |place| match lines.get(place) {
        Some(line) => explanations::start(line, sign),
        None => explanations::bowl(sign),
    });
    ui.add_space(space::TIGHT);
}

/// Amount, temperature and state of a line: "250 g", "85 °C", "melted".
fn goes_in(line: &Line, sign: DecimalSign) -> Vec<String> {
    let celsius = start_of(line);
    let state = state_of(line).unwrap_or_default().to_owned();
    vec![format!("{} g", grams(line.amount.grams().0, sign)), format!("{} °C", shortest(celsius.0, 1, sign)), state]
}

/// A row of the card.
#[derive(Clone, Copy)]
enum Row {
    Sensible,
    Melting,
    Dissolving,
    Stirring,
    Crystals,
    CocoaButterCrystals,
}

impl Row {
    const ALL: [Self; 6] =
        [Self::Sensible, Self::Melting, Self::Dissolving, Self::Stirring, Self::Crystals, Self::CocoaButterCrystals];

    fn name(self, scene: &Scene<'_>, sign: DecimalSign) -> String {
        match self {
            Self::Sensible => "by temperatures alone".to_owned(),
            Self::Melting => "fat that melts, at once".to_owned(),
            Self::Dissolving => "sugar that dissolves, in minutes".to_owned(),
            Self::Stirring => {
                let minutes = scene.document.recipe.mixing.stirred.minutes();
                format!("stirred in the open, {} min", shortest(minutes, 1, sign))
            }
            Self::Crystals => "fat crystals left".to_owned(),
            Self::CocoaButterCrystals => "those of cocoa butter left".to_owned(),
        }
    }

    /// Its figures; `None` where there is nothing to say.
    fn figures(self, mixing: &MixingState, sign: DecimalSign) -> Option<Vec<String>> {
        let degrees = |celsius: Celsius| format!("{} °C", fixed(celsius.0, 1, sign));
        // What the thermometer shows after it, and by how much it has changed.
        let step = |after: Celsius, by: Kelvin| vec![degrees(after), words::kelvin_with_sign(by, sign)];
        let left_of = |left: Grams, before: Grams| {
            let mass = |mass: Grams| grams(mass.0, sign);
            (before.0 > 0.0).then(|| vec![format!("{} of {} g", mass(left), mass(before))])
        };
        match self {
            Self::Sensible => Some(vec![degrees(mixing.mixed.sensible_only)]),
            Self::Melting => Some(step(mixing.mixed.at_once.temperature, mixing.mixed.by_melting())),
            Self::Dissolving => (mixing.mixed.after_dissolving.dissolved.0 > 0.0)
                .then(|| step(mixing.mixed.after_dissolving.temperature, mixing.mixed.by_dissolving())),
            Self::Stirring => (mixing.by_stirring.0 != 0.0).then(|| step(mixing.end, mixing.by_stirring)),
            Self::Crystals => {
                let (before, left) = mixing.all_crystals();
                left_of(left, before)
            }
            Self::CocoaButterCrystals => {
                left_of(mixing.crystals_left(Fat::CocoaButter), mixing.crystals_before[Fat::CocoaButter as usize])
            }
        }
    }

    fn explanation(self, scene: &Scene<'_>, sign: DecimalSign) -> Explanation {
        match self {
            Self::Sensible => explanations::sensible(scene),
            Self::Melting => explanations::melting(scene),
            Self::Dissolving => explanations::dissolving(scene, sign),
            Self::Stirring => explanations::stirring(sign),
            Self::Crystals | Self::CocoaButterCrystals => explanations::crystals(scene),
        }
    }
}

/// The ways to the wanted end, each a sentence.
fn ways_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, mixing: &MixingState) {
    let Some(wanted) = mixing.wanted.as_ref().filter(|_| mixing.missed().is_some()) else { return };
    let names = Names::of(&scene.document.recipe);
    ui.add_space(space::TIGHT);
    let several = if wanted.ways.len() > 1 { ", each by itself" } else { "" };
    let head = format!("To end at {} °C{several}", fixed(wanted.at.0, 1, sign));
    ui.label(theme::strong(if wanted.ways.is_empty() {
        format!("{head}: no liquid and no chocolate to change")
    } else {
        head
    }));
    for way in &wanted.ways {
        let sentence = words::way(&WaySubject::of(&scene.document.recipe, &names, way), sign);
        stop_ui(ui, &sentence, || explanations::wanted(sign));
    }
    lines_ui(ui, scene, sign, &wanted.lines);
}

/// How warm each line would have to be, if it alone were changed.
fn lines_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, ways: &[Way]) {
    let recipe = &scene.document.recipe;
    let names = Names::of(recipe);
    let shown: Vec<(&Way, FigureRow)> = ways
        .iter()
        .filter_map(|way| {
            let line = recipe.line(*way.lines.first()?)?;
            let now = format!("now {} °C", shortest(way.start.0, 1, sign));
            let figures = [words::needed(way, sign), now];
            Some((way, FigureRow::new(words::capital(&names.name_and_place(recipe, line)), figures)))
        })
        .collect();
    if shown.is_empty() {
        return;
    }
    ui.add_space(space::TIGHT);
    ui.label(theme::strong("Or one line alone would have to be at"));
    let rows: Vec<FigureRow> = shown.iter().map(|(_, row)| row.clone()).collect();
    figure_rows_ui(ui, &rows, |place| match shown.get(place) {
        Some((way, _)) => explanations::one_line(&words::way(&WaySubject::of(recipe, &names, way), sign), sign),
        None => explanations::wanted(sign),
    });
}

/// A sentence that explains its figures; a stop for the Tab key.
fn stop_ui(ui: &mut Ui, words: &str, explanation: impl FnOnce() -> Explanation) {
    let label =
        ui.add(Label::new(with_units(words)).wrap_mode(TextWrapMode::Wrap).sense(Sense::focusable_noninteractive()));
    label.widget_info(|| WidgetInfo::labeled(Role::Label, true, words));
    focus_ring(ui, &label, label.rect.expand2(egui::vec2(6.0, 3.0)), space::FIELD_RADIUS);
    explain(&label, explanation);
}

fn wrapped_ui(ui: &mut Ui, words: &str) {
    ui.add(Label::new(theme::quiet(ui, words)).wrap_mode(TextWrapMode::Wrap));
}
