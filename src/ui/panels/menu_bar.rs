//! The bar at the top: menus, the name of the recipe, the command search.

use egui::{Align, Button, Frame, Key, Layout, Margin, MenuBar, Modifiers, Panel, Ui};

use crate::ui::app::App;
use crate::ui::command::{Command, Menu};
use crate::ui::theme::{self, Palette};
use crate::ui::view::Action;

/// Draws the bar.
pub fn menu_bar_ui(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    let palette = Palette::of(ui);
    Panel::top("menu bar").frame(Frame::new().fill(palette.panel).inner_margin(Margin::symmetric(8, 4))).show(
        ui,
        |ui| {
            MenuBar::new().ui(ui, |ui| {
                for menu in Menu::ALL {
                    let button = ui.menu_button(menu.label(), |ui| menu_ui(ui, app, menu, actions)).response;
                    if is_asked_for(ui, menu) {
                        button.request_focus();
                    }
                }
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    let keys = Command::Search.keys().first().map(|keys| ui.ctx().format_shortcut(keys));
                    let words = format!("{} search commands", keys.unwrap_or_default());
                    let search = Button::new(theme::caption(ui, words)).frame(false);
                    if ui.add(search).on_hover_text(Command::Search.explanation()).clicked() {
                        actions.push(Action::Run(Command::Search));
                    }
                });
            });
        },
    );
}

/// F10 goes to the first menu, Alt and its first letter to each; Enter opens it.
fn is_asked_for(ui: &Ui, menu: Menu) -> bool {
    let letter = menu.label().get(..1).and_then(Key::from_name);
    ui.input_mut(|input| {
        (menu == Menu::File && input.consume_key(Modifiers::NONE, Key::F10))
            || letter.is_some_and(|letter| input.consume_key(Modifiers::ALT, letter))
    })
}

/// The files opened last; those that are gone are listed too and say so when they are opened.
fn recent_ui(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    ui.add_enabled_ui(!app.recent_files().is_empty(), |ui| {
        ui.menu_button("Open recent", |ui| {
            for path in app.recent_files() {
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
                if ui.button(name).on_hover_text(path.display().to_string()).clicked() {
                    actions.push(Action::OpenRecipe(path.clone()));
                    ui.close();
                }
            }
        });
    });
}

fn menu_ui(ui: &mut Ui, app: &App, menu: Menu, actions: &mut Vec<Action>) {
    ui.set_min_width(240.0);
    for (place, group) in menu.groups().iter().enumerate() {
        if place > 0 {
            ui.separator();
        }
        if menu == Menu::File && place == 1 {
            recent_ui(ui, app, actions);
            ui.separator();
        }
        for &command in *group {
            let keys = command.keys().first().map(|keys| ui.ctx().format_shortcut(keys)).unwrap_or_default();
            let reason = app.why_not(command);
            let button = Button::new(app.label_of(command)).shortcut_text(keys).selected(app.is_chosen(command));
            let response = ui.add_enabled(reason.is_none(), button);
            let response = match reason {
                Some(reason) => response.on_disabled_hover_text(reason),
                None => response.on_hover_text(command.explanation()),
            };
            if response.clicked() {
                actions.push(Action::Run(command));
                ui.close();
            }
        }
    }
}
