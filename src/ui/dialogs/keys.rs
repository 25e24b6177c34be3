//! All keys on one page.

use egui::{Grid, ScrollArea, Ui};

use super::{DialogAnswer, buttons_ui, title_ui};
use crate::ui::command::{Command, Menu};
use crate::ui::theme::{self, space};

/// Keys with which one goes about in the window.
const ABOUT: [(&str, &str); 3] = [
    ("Tab, Shift+Tab", "next and previous field, figure or finding; a figure explains itself"),
    ("←, → in a bar", "from part to part"),
    ("Page Up, Page Down, Home, End", "scroll the reading in front, or the findings while one has the keyboard"),
];

/// Keys that belong to the lines and the thermometer rather than to commands.
const MORE: [(&str, &str); 8] = [
    ("Enter", "take the amount and go to the next line"),
    ("Shift+Enter", "take the amount and go to the line before"),
    ("Esc", "take back what is being typed"),
    ("↑, ↓ in an amount", "take the amount and go to the line above or below"),
    ("Shift+↑, Shift+↓ in an amount", "one step of the last digit more or less"),
    ("Ctrl+Enter", "use what is typed in a form"),
    ("1/2, 3*125, 200+40", "small sums may be typed; comma and point are both the decimal sign"),
    ("1.2 kg, 8 oz", "a unit may be typed with the amount"),
];

pub(super) fn keys_ui(ui: &mut Ui) -> Option<DialogAnswer> {
    title_ui(ui, "Keys");
    let height = ui.ctx().content_rect().height() - 220.0;
    ScrollArea::vertical().max_height(height).min_scrolled_height(height).show(ui, |ui| {
        for menu in Menu::ALL {
            let commands = menu.groups().iter().flat_map(|group| group.iter().copied());
            group_ui(
                ui,
                menu.label(),
                commands
                    .filter(|command| !command.keys().is_empty())
                    .map(|command: Command| {
                        let keys: Vec<String> =
                            command.keys().iter().map(|keys| ui.ctx().format_shortcut(keys)).collect();
                        (keys.join(", "), command.label().trim_end_matches('…').to_owned())
                    })
                    .collect(),
            );
        }
        let owned = |(keys, what): &(&str, &str)| ((*keys).to_owned(), (*what).to_owned());
        group_ui(ui, "Going about", ABOUT.iter().map(owned).collect());
        group_ui(ui, "In a field", MORE.iter().map(owned).collect());
    });
    buttons_ui(ui, vec![("Close", DialogAnswer::Closed)])
}

fn group_ui(ui: &mut Ui, title: &str, rows: Vec<(String, String)>) {
    ui.label(theme::strong(title));
    Grid::new(("keys", title)).num_columns(2).min_col_width(150.0).spacing([space::GROUP, 4.0]).show(ui, |ui| {
        for (keys, what) in rows {
            ui.label(theme::quiet(ui, keys));
            ui.label(what);
            ui.end_row();
        }
    });
    ui.add_space(space::NEAR);
}
