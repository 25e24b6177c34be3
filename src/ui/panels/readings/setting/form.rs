//! In which form and where it sets: fields and menus in a card.

use egui::{Id, Ui};

use super::Course;
use crate::document::Edit;
use crate::number::{DecimalSign, fixed, typed};
use crate::recipe::{Air, Base, Piece, PlaceTemperature, Setting, SettingError, Size};
use crate::ui::explanations::setting as explanations;
use crate::ui::panels::field::{DEGREES, number_with_unit, typed_into, unless_empty};
use crate::ui::panels::head::menu_ui;
use crate::ui::theme::{self, Palette};
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::number_cell::NumberCell;
use crate::ui::widgets::{Card, Explanation, explain_at_rest, quiet_button};
use crate::units::Celsius;

/// The width of a field of three digits with a decimal.
const FIELD: f32 = 56.0;

pub(super) fn form_ui(ui: &mut Ui, scene: &Scene<'_>, sign: DecimalSign, course: &Course, actions: &mut Vec<Action>) {
    let card = Card::new().title("In which form and where");
    let Some(now) = scene.document.recipe.setting else {
        card.subtitle("then temperature and solid fat are followed until it is set").ui(ui, |ui| {
            let say = quiet_button(ui, theme::strong("+  say how it sets").color(Palette::of(ui).accent));
            if say.clicked() {
                let usual = Setting::usual(scene.document.recipe.intended_use);
                actions.extend([Action::Edit(Edit::SetSetting(Some(usual))), Action::EndGesture]);
            }
        });
        return;
    };
    card.ui(ui, |ui| {
        ui.horizontal_wrapped(|ui| piece_ui(ui, now, sign, actions));
        ui.horizontal_wrapped(|ui| place_ui(ui, now, sign, course, actions));
    });
}

fn set(actions: &mut Vec<Action>, setting: Option<Setting>) {
    actions.extend([Action::Edit(Edit::SetSetting(setting)), Action::EndGesture]);
}

/// One piece of each kind, of about the size that this one has.
fn pieces_like(now: Piece) -> [Piece; 7] {
    let size = |millimetres: f64| Size::from_millimetres(millimetres).ok();
    let own = match now {
        Piece::Frame { thickness, .. } | Piece::Bar { thickness } | Piece::Coat { thickness } => thickness,
        Piece::HalfSphere { diameter } | Piece::Cup { diameter, .. } | Piece::Ball { diameter } => diameter,
        Piece::Bowl => Size::USUAL,
    };
    let flat = if own.millimetres() > 20.0 { Size::USUAL } else { own };
    let round = if own.millimetres() < 20.0 { size(28.0).unwrap_or(own) } else { own };
    [
        Piece::Frame { thickness: flat, base: Base::default() },
        Piece::Bar { thickness: flat },
        Piece::HalfSphere { diameter: round },
        Piece::Cup { diameter: round, height: size(15.0).unwrap_or(own) },
        Piece::Ball { diameter: round },
        Piece::Coat { thickness: size(1.0).unwrap_or(own) },
        Piece::Bowl,
    ]
}

fn piece_ui(ui: &mut Ui, now: Setting, sign: DecimalSign, actions: &mut Vec<Action>) {
    menu_ui(ui, now.piece.words(), "The form in which it sets", |ui| {
        for piece in pieces_like(now.piece) {
            let is_chosen = piece.words() == now.piece.words();
            if ui.selectable_label(is_chosen, piece.words()).clicked() {
                if !is_chosen {
                    set(actions, Some(Setting { piece, ..now }));
                }
                ui.close();
            }
        }
        if ui.selectable_label(false, "not said").clicked() {
            set(actions, None);
            ui.close();
        }
    });
    let mut size = |ui: &mut Ui, name: &str, size: Size, with: &dyn Fn(Size) -> Piece| {
        let shown = typed(size.millimetres(), sign);
        let field = Field { id: name, name: &format!("{name}, millimetres"), shown: &shown, unsaid: None };
        field.ui(
            ui,
            &millimetres,
            actions,
            |size| Edit::SetSetting(Some(Setting { piece: with(size), ..now })),
            || explanations::size(sign),
        );
        ui.label(format!("mm {name}"));
    };
    match now.piece {
        Piece::Frame { thickness, base } => {
            size(ui, "thick", thickness, &|thickness| Piece::Frame { thickness, base });
            menu_ui(ui, base.words(), "What the frame lies on", |ui| {
                for other in Base::ALL {
                    if ui.selectable_label(other == base, other.words()).clicked() {
                        if other != base {
                            set(actions, Some(Setting { piece: Piece::Frame { thickness, base: other }, ..now }));
                        }
                        ui.close();
                    }
                }
            });
        }
        Piece::Bar { thickness } => size(ui, "thick", thickness, &|thickness| Piece::Bar { thickness }),
        Piece::Coat { thickness } => size(ui, "thick", thickness, &|thickness| Piece::Coat { thickness }),
        Piece::HalfSphere { diameter } => size(ui, "across", diameter, &|diameter| Piece::HalfSphere { diameter }),
        Piece::Ball { diameter } => size(ui, "across", diameter, &|diameter| Piece::Ball { diameter }),
        Piece::Cup { diameter, height } => {
            size(ui, "across", diameter, &|diameter| Piece::Cup { diameter, height });
            size(ui, "high", height, &|height| Piece::Cup { diameter, height });
        }
        Piece::Bowl => {}
    }
}

fn place_ui(ui: &mut Ui, now: Setting, sign: DecimalSign, course: &Course, actions: &mut Vec<Action>) {
    menu_ui(ui, now.air.words(), "How the air moves around it", |ui| {
        for air in Air::ALL {
            if ui.selectable_label(air == now.air, air.words()).clicked() {
                if air != now.air {
                    set(actions, Some(Setting { air, ..now }));
                }
                ui.close();
            }
        }
    });
    ui.label("at");
    let shown = typed(now.surroundings.celsius().0, sign);
    let field = Field { id: "air", name: "temperature around it, degrees Celsius", shown: &shown, unsaid: None };
    let edit = |surroundings| Edit::SetSetting(Some(Setting { surroundings, ..now }));
    field.ui(ui, &temperature, actions, edit, || explanations::surroundings(sign));
    ui.label("°C, from");
    let shown = now.start.map_or_else(String::new, |start| typed(start.celsius().0, sign));
    // What counts stands there in brackets, as in the sheet.
    let unsaid =
        course.as_ref().map_or_else(|_| "–".to_owned(), |state| format!("({})", fixed(state.start.0, 1, sign)));
    let name = "temperature at the start, degrees Celsius";
    let field = Field { id: "start", name, shown: &shown, unsaid: Some(&unsaid) };
    let parse = |text: &str| unless_empty(text, temperature);
    let edit = |start| Edit::SetSetting(Some(Setting { start, ..now }));
    field.ui(ui, &parse, actions, edit, || explanations::start(sign));
    ui.label("°C");
}

/// A field for a figure.
pub(super) struct Field<'a> {
    /// By which it is told from the others.
    pub id: &'a str,
    /// What it is, for those who do not see it.
    pub name: &'a str,
    /// What is typed in it.
    pub shown: &'a str,
    /// What counts while nothing is typed.
    pub unsaid: Option<&'a str>,
}

impl Field<'_> {
    pub(super) fn ui<T: Clone>(
        self,
        ui: &mut Ui,
        parse: &dyn Fn(&str) -> Result<T, String>,
        actions: &mut Vec<Action>,
        edit: impl Fn(T) -> Edit,
        explanation: impl FnOnce() -> Explanation,
    ) {
        let id = Id::unique(("setting", self.id));
        let mut cell = NumberCell::new(id, self.name, self.shown, parse).width(FIELD).framed();
        if let Some(unsaid) = self.unsaid.filter(|_| self.shown.is_empty()) {
            cell = cell.at_rest(unsaid);
            if !ui.memory(|memory| memory.has_focus(id)) {
                cell = cell.colour(Palette::of(ui).quiet);
            }
        }
        let output = cell.ui(ui);
        typed_into(output.event, actions, edit);
        explain_at_rest(&output.response, explanation);
    }
}

pub(super) fn millimetres(text: &str) -> Result<Size, String> {
    let millimetres = needed(text, &["mm"], "type a length in millimetres, such as 10 or 10 mm")?;
    Size::from_millimetres(millimetres).map_err(|error| error.to_string())
}

pub(super) fn temperature(text: &str) -> Result<PlaceTemperature, String> {
    let celsius = needed(text, DEGREES, "type a temperature in degrees Celsius, such as 18")?;
    PlaceTemperature::new(Celsius(celsius)).map_err(|error: SettingError| error.to_string())
}

/// A number that has to be there; an empty field says what to type.
pub(super) fn needed(text: &str, units: &[&str], hint: &str) -> Result<f64, String> {
    unless_empty(text, |text| number_with_unit(text, units))?.ok_or_else(|| hint.to_owned())
}
