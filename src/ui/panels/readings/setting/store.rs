//! Where the finished pieces lie: warm rooms, wet surfaces, and oil that moves into a shell.

use egui::{ScrollArea, Ui};

use super::form::{Field, millimetres, needed, temperature};
use crate::analysis::Analysis;
use crate::analysis::migration::{Migration, migration_of};
use crate::analysis::texture::{dew_point_in_room, gets_wet};
use crate::document::Edit;
use crate::ingredient::{Category, Ingredient, Library};
use crate::number::{DecimalSign, fixed, shortest, typed};
use crate::recipe::{Humidity, PlaceTemperature, Recipe, Shell, Size, Storage};
use crate::report::words::days;
use crate::ui::explanations::setting as explanations;
use crate::ui::panels::head::menu_ui;
use crate::ui::theme;
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::{Card, FigureRow, figure_rows_ui};
use crate::units::{Celsius, MassFraction};

pub(super) fn store_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, actions: &mut Vec<Action>) {
    Card::new().title("In the store").subtitle("where the finished pieces lie, and the room they come into").ui(
        ui,
        |ui| {
            let storage = &scene.document.recipe.storage;
            ui.horizontal_wrapped(|ui| places_ui(ui, storage, sign, actions));
            ui.horizontal_wrapped(|ui| shell_ui(ui, scene, storage, sign, actions));
            rows_ui(ui, scene, sign);
            for words in advice(scene) {
                ui.label(theme::quiet(ui, words));
            }
        },
    );
}

fn places_ui(ui: &mut Ui, storage: &Storage, sign: DecimalSign, actions: &mut Vec<Action>) {
    let place = |ui: &mut Ui,
                 id: &str,
                 name: &str,
                 at: PlaceTemperature,
                 actions: &mut Vec<Action>,
                 with: &dyn Fn(PlaceTemperature) -> Storage| {
        let shown = typed(at.celsius().0, sign);
        let field = Field { id, name, shown: &shown, unsaid: None };
        field.ui(ui, &temperature, actions, |at| Edit::SetStorage(with(at)), || explanations::store(sign));
    };
    ui.label("stored at");
    place(ui, "store", "temperature of the store, degrees Celsius", storage.at, actions, &|at| Storage {
        at,
        ..storage.clone()
    });
    ui.label("°C");
    ui.end_row();
    ui.label("room of");
    place(ui, "room", "temperature of the room, degrees Celsius", storage.room, actions, &|room| Storage {
        room,
        ..storage.clone()
    });
    ui.label("°C with");
    let shown = typed(storage.humidity.percent(), sign);
    let parse = |text: &str| {
        let percent = needed(text, &["%"], "type the humidity in percent, such as 60")?;
        Humidity::from_percent(percent).map_err(|error| error.to_string())
    };
    let field = Field { id: "humidity", name: "humidity of the room, percent", shown: &shown, unsaid: None };
    let edit = |humidity| Edit::SetStorage(Storage { humidity, ..storage.clone() });
    field.ui(ui, &parse, actions, edit, || explanations::store(sign));
    ui.label("% humidity");
}

/// Which chocolate is around it, and how thick.
fn shell_ui(ui: &mut Ui, scene: &Scene<'_>, storage: &Storage, sign: DecimalSign, actions: &mut Vec<Action>) {
    const TALLEST: f32 = 320.0;
    let name = storage.shell.as_ref().map_or("no shell", |shell| shell.chocolate.name.as_str());
    ui.label("shell");
    menu_ui(ui, name, "The chocolate around a filling", |ui| {
        ScrollArea::vertical().max_height(TALLEST).show(ui, |ui| {
            let mut chosen = None;
            if ui.selectable_label(storage.shell.is_none(), "no shell").clicked() {
                chosen = Some(None);
            }
            let now = storage.shell.as_ref();
            for chocolate in chocolates(scene) {
                let is_chosen = now.is_some_and(|shell| shell.chocolate == *chocolate);
                if ui.selectable_label(is_chosen, &chocolate.name).clicked() {
                    let thickness = now.map_or(Size::OF_SHELL, |shell| shell.thickness);
                    chosen = Some(Some(Shell { chocolate: chocolate.clone(), thickness }));
                }
            }
            if let Some(shell) = chosen {
                let edit = Edit::SetStorage(Storage { shell, ..storage.clone() });
                actions.extend([Action::Edit(edit), Action::EndGesture]);
                ui.close();
            }
        });
    });
    let Some(shell) = &storage.shell else { return };
    let shown = typed(shell.thickness.millimetres(), sign);
    let field = Field { id: "shell", name: "thickness of the shell, millimetres", shown: &shown, unsaid: None };
    let edit = |thickness| {
        let shell = Some(Shell { thickness, ..shell.clone() });
        Edit::SetStorage(Storage { shell, ..storage.clone() })
    };
    field.ui(ui, &millimetres, actions, edit, || explanations::size(sign));
    ui.label("mm thick");
}

/// What a shell can be made of: the couvertures of the recipe and those built in.
fn chocolates<'a>(scene: &'a Scene<'_>) -> impl Iterator<Item = &'a std::sync::Arc<Ingredient>> {
    let is_chocolate = |ingredient: &&std::sync::Arc<Ingredient>| ingredient.category == Category::Couverture;
    let own = scene.document.recipe.lines.iter().map(|line| &line.ingredient).filter(is_chocolate);
    let built_in = Library::built_in().iter().filter(is_chocolate);
    let is_new = |chocolate: &&std::sync::Arc<Ingredient>| {
        !scene.document.recipe.lines.iter().any(|line| line.ingredient == **chocolate)
    };
    own.chain(built_in.filter(is_new))
}

/// A row of the card.
#[derive(Clone, Copy)]
enum Row {
    Solid,
    DewPoint,
    Liquid,
    Softens,
    HalfWay,
}

impl Row {
    const ALL: [Self; 5] = [Self::Solid, Self::DewPoint, Self::Liquid, Self::Softens, Self::HalfWay];

    fn name(self, storage: &Storage, sign: DecimalSign) -> String {
        match self {
            Self::Solid => {
                let [store, room] = [storage.at, storage.room].map(|at| shortest(at.celsius().0, 1, sign));
                format!("solid fat, {store} to {room} °C")
            }
            Self::DewPoint => "dew point".to_owned(),
            Self::Liquid => "liquid fat of filling and shell".to_owned(),
            Self::Softens => "shell with 5 % oil".to_owned(),
            Self::HalfWay => "oil half-way through".to_owned(),
        }
    }

    fn figures(self, recipe: &Recipe, analysis: &Analysis, sign: DecimalSign) -> Option<Vec<String>> {
        let storage = &recipe.storage;
        let percent = |share: MassFraction| fixed(share.to_percent(), 0, sign);
        let moved = || migration_of(recipe, analysis);
        match self {
            Self::Solid => {
                let fat = analysis.fat.as_ref().ok()?;
                let solid = |at: PlaceTemperature| percent(fat.blended.solid_fat(at.celsius()).total());
                Some(vec![format!("{} to {} %", solid(storage.at), solid(storage.room))])
            }
            Self::DewPoint => Some(vec![degrees_of(dew_point_in_room(storage), sign), wet(storage).to_owned()]),
            Self::Liquid => {
                let moved = moved()?;
                let [filling, shell] = [moved.liquid_in_filling, moved.liquid_in_shell].map(percent);
                Some(vec![format!("{filling} and {shell} %")])
            }
            Self::Softens => {
                let moved = moved()?;
                let before = percent(MassFraction(1.0 - moved.liquid_in_shell.0));
                Some(vec![format!("{before} to {} % solid", percent(moved.solid_after_oil))])
            }
            Self::HalfWay => {
                let [likely, least, most] = moved()?.half_way_days.map(days);
                Some(vec![format!("about {likely}"), format!("{least} to {most}")])
            }
        }
    }
}

fn degrees_of(celsius: Celsius, sign: DecimalSign) -> String {
    format!("{} °C", fixed(celsius.0, 1, sign))
}

/// Whether pieces from the store get wet in the room.
fn wet(storage: &Storage) -> &'static str {
    if gets_wet(storage) { "pieces get wet" } else { "pieces stay dry" }
}

/// What to do about wet pieces and about oil that moves.
fn advice(scene: &Scene<'_>) -> impl Iterator<Item = &'static str> {
    let storage = &scene.document.recipe.storage;
    let wet = gets_wet(storage).then_some(
        "Taken out, pieces get wet and then grey: let them warm up in their closed box, or store them above the dew point.",
    );
    let oil = migration_of(&scene.document.recipe, scene.analysis).map(|moved| advice_on_oil(&moved));
    wet.into_iter().chain(oil)
}

fn advice_on_oil(moved: &Migration) -> &'static str {
    /// Under so much either way nothing is said of a direction (judged).
    const LEVEL: f64 = 0.05;
    match moved.difference().0 {
        difference if difference > LEVEL => {
            "Oil moves from the filling into the shell, which softens and can bloom. A colder store, a thicker shell, more \
             cocoa butter in the filling, and a filling that is seeded slow it."
        }
        difference if difference < -LEVEL => {
            "The shell has more liquid fat than the filling: oil moves inwards, and the shell is the soft part."
        }
        _ => "Filling and shell have about as much liquid fat: hardly any oil moves.",
    }
}

fn rows_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign) {
    let recipe = &scene.document.recipe;
    let rows: Vec<(Row, FigureRow)> = Row::ALL
        .into_iter()
        .filter_map(|row| {
            let figures = row.figures(recipe, scene.analysis, sign)?;
            let shown = FigureRow::new(row.name(&recipe.storage, sign), figures);
            let before = scene.pin.map(|pin| row.figures(&pin.document.recipe, &pin.analysis, sign));
            let shown = match before {
                Some(before) => shown.pinned([before.map_or_else(|| "none".to_owned(), |mut row| row.swap_remove(0))]),
                None => shown,
            };
            Some((row, shown))
        })
        .collect();
    let shown: Vec<FigureRow> = rows.iter().map(|(_, row)| row.clone()).collect();
    figure_rows_ui(ui, &shown, |place| match rows.get(place).map(|(row, _)| *row) {
        Some(Row::DewPoint) => explanations::dew_point(sign),
        Some(Row::Liquid) => explanations::liquid(scene),
        Some(Row::Softens) => explanations::softens(scene),
        Some(Row::HalfWay) => explanations::half_way(sign),
        Some(Row::Solid) | None => explanations::solid_in_store(scene),
    });
}
