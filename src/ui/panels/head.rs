//! The head of the sheet: name, kind, use, batch, cocoa butter.

use egui::{
    Color32, CursorIcon, FontSelection, Frame, Id, Label, Response, RichText, ScrollArea, Sense, TextEdit,
    TextWrapMode, Ui, WidgetInfo, accesskit::Role,
};

use super::lines::{is_written, parse_quantity, shown_mass, text_left};
use crate::document::Edit;
use crate::recipe::{CocoaButter, Kind, MassUnit, Use};
use crate::ui::explanations::sheet;
use crate::ui::text;
use crate::ui::theme::{self, Palette};
use crate::ui::view::{Action, Focus, Scene, View};
use crate::ui::widgets::number_cell::{NumberCell, NumberEvent};
use crate::ui::widgets::{clipped_text, explain_at_rest, menu_button};

/// Draws the head.
pub fn head_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    name_ui(ui, scene, actions);
    // Of one piece to the toolkit, whatever it looks like: what follows keeps its place for the keyboard.
    ui.scope(|ui| note_ui(ui, scene, view, actions));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        let recipe = &scene.document.recipe;
        let kind = menu_ui(ui, recipe.kind.words(), "What sort of mass it is; decides what is usual", |ui| {
            for kind in Kind::ALL {
                if ui.selectable_label(kind == recipe.kind, kind.words()).clicked() {
                    actions.push(Action::Edit(Edit::SetKind(kind)));
                    ui.close();
                }
            }
        });
        take_focus(view, Focus::Kind, &kind);
        ui.label(theme::quiet(ui, "for"));
        let intended_use = recipe.intended_use.map_or("no particular use", Use::words);
        let hover = "What it is used for; decides what is usual and how much seed habit takes";
        let of_use = menu_ui(ui, intended_use, hover, |ui| {
            if ui.selectable_label(recipe.intended_use.is_none(), "no particular use").clicked() {
                actions.push(Action::Edit(Edit::SetUse(None)));
                ui.close();
            }
            for intended_use in Use::ALL {
                let is_chosen = recipe.intended_use == Some(intended_use);
                if ui.selectable_label(is_chosen, intended_use.words()).clicked() {
                    actions.push(Action::Edit(Edit::SetUse(Some(intended_use))));
                    ui.close();
                }
            }
        });
        take_focus(view, Focus::Use, &of_use);
        ui.label(theme::quiet(ui, "· batch"));
        batch_ui(ui, scene, view, actions);
        ui.label(theme::quiet(ui, "g · cocoa butter"));
        let cocoa_butter = cocoa_butter_ui(ui, recipe.cocoa_butter, actions);
        take_focus(view, Focus::CocoaButter, &cocoa_butter);
    });
}

fn take_focus(view: &mut View, focus: Focus, response: &Response) {
    if view.focus == Some(focus) {
        view.focus = None;
        response.request_focus();
    }
}

fn name_ui(ui: &mut Ui, scene: &Scene<'_>, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    let id = Id::unique("recipe name");
    let is_written = ui.memory(|memory| memory.has_focus(id));
    let mut name = scene.document.recipe.name.clone();
    let field = TextEdit::singleline(&mut name)
        .id(id)
        // At rest it is written over, with an ellipsis where it is too long.
        .text_color(if is_written { palette.text } else { Color32::TRANSPARENT })
        .font(FontSelection::FontId(theme::heading()))
        .frame(Frame::NONE)
        .hint_text(RichText::new(text::UNNAMED).font(theme::heading()))
        .desired_width(f32::INFINITY);
    let response = ui.add(field).accessible_name("name of the recipe");
    if !is_written {
        clipped_text(ui, &scene.document.recipe.name, theme::heading(), palette.text, response.rect);
    }
    let response = response.on_hover_text("Name of the recipe; click to change it");
    if response.changed() {
        actions.push(Action::Edit(Edit::SetName(name)));
    }
    text_left(ui, &response, actions);
}

fn note_id() -> Id {
    Id::unique("recipe note")
}

/// The note of the recipe: one line of it at rest, all of it while it is pointed at or written.
fn note_ui(ui: &mut Ui, scene: &Scene<'_>, view: &mut View, actions: &mut Vec<Action>) {
    /// A long note scrolls; the lines below stay in sight.
    const TALLEST: f32 = 110.0;
    let (palette, id) = (Palette::of(ui), note_id());
    let note = &scene.document.recipe.note;
    let is_asked_for = view.focus == Some(Focus::RecipeNote);
    if !is_asked_for && !is_written(ui.ctx(), id) {
        let first_line = note.lines().next().unwrap_or_default();
        let words = if note.is_empty() { "add a note" } else { first_line };
        let colour = if note.is_empty() { palette.mark } else { palette.quiet };
        let label = Label::new(RichText::new(words).font(theme::body()).color(colour))
            .wrap_mode(TextWrapMode::Truncate)
            .show_tooltip_when_elided(false)
            .sense(Sense::click());
        let response = ui.add(label).on_hover_cursor(CursorIcon::Text);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("note of the recipe: {words}")));
        if response.clicked() || response.gained_focus() {
            actions.push(Action::Focus(Focus::RecipeNote));
        }
        if note.is_empty() {
            response.on_hover_text("What the recipe is for, where it comes from, what to watch");
        } else {
            response.on_hover_text(note);
        }
        return;
    }
    let mut text = note.clone();
    let response = ScrollArea::vertical()
        .id_salt("recipe note")
        .max_height(TALLEST)
        .show(ui, |ui| {
            let field = TextEdit::multiline(&mut text)
                .id(id)
                .font(theme::body())
                .text_color(palette.text)
                .hint_text("What the recipe is for, where it comes from, what to watch")
                .desired_rows(1)
                .desired_width(f32::INFINITY);
            ui.add(field).accessible_name("note of the recipe")
        })
        .inner;
    if is_asked_for {
        view.focus = None;
        response.request_focus();
    }
    if response.changed() {
        actions.push(Action::Edit(Edit::SetNote(text)));
    }
    text_left(ui, &response, actions);
}

fn batch_ui(ui: &mut Ui, scene: &Scene<'_>, view: &View, actions: &mut Vec<Action>) {
    let weighed = scene.analysis.make_up.weighed.0;
    let shown = shown_mass(weighed, view.sign);
    let parse = |text: &str| parse_quantity(text, MassUnit::Gram);
    let output = NumberCell::new(Id::unique("batch"), "batch, grams", &shown, &parse)
        .width(84.0)
        .font(theme::body_bold())
        .framed()
        .forgetting()
        .ui(ui);
    let scale = |quantity| Action::Edit(Edit::ScaleTo { weighed: quantity });
    match output.event {
        // While it is typed, "6" on the way to "600" would scale to next to nothing and lose digits.
        NumberEvent::Nothing | NumberEvent::Typing(_) | NumberEvent::Cancelled => {}
        NumberEvent::Committed(quantity) => actions.extend([scale(quantity), Action::EndGesture]),
    }
    explain_at_rest(&output.response, sheet::together);
}

fn cocoa_butter_ui(ui: &mut Ui, now: CocoaButter, actions: &mut Vec<Action>) -> Response {
    let hover = "Which cocoa butter the fat model assumes: its origin moves the solid fat more than any formula";
    menu_ui(ui, now.words(), hover, |ui| {
        for cocoa_butter in CocoaButter::NAMED {
            if ui.selectable_label(cocoa_butter == now, cocoa_butter.words()).clicked() {
                actions.push(Action::Edit(Edit::SetCocoaButter(cocoa_butter)));
                ui.close();
            }
        }
        if ui.selectable_label(matches!(now, CocoaButter::Own(_)), "own analysis…").clicked() {
            actions.push(Action::AskForTriglycerides);
            ui.close();
        }
    })
}

/// A word with dots under it that opens a menu.
pub(super) fn menu_ui(ui: &mut Ui, words: &str, hover: &str, contents: impl FnOnce(&mut Ui)) -> Response {
    let palette = Palette::of(ui);
    let words = RichText::new(words).font(theme::body_bold()).color(palette.text);
    let (response, _) = menu_button(ui, words, 0.0, |ui| {
        ui.set_min_width(190.0);
        contents(ui);
    });
    let y = response.rect.bottom() - 3.0;
    let points = [egui::pos2(response.rect.left(), y), egui::pos2(response.rect.right(), y)];
    let colour = if response.hovered() { palette.accent } else { palette.mark };
    ui.painter().extend(egui::Shape::dotted_line(&points, colour, 3.0, 0.7));
    response.on_hover_text(hover)
}
