//! The search over all commands: type a word, Enter runs the first that fits.

use egui::{Id, Key, Modifiers, ScrollArea, TextEdit, Ui};

use super::DialogAnswer;
use crate::ingredient::search::{fold, rank};
use crate::ui::command::Command;
use crate::ui::theme::{self, Palette, space};
use crate::ui::widgets::number_cell;

/// What is searched for and which of the found is chosen.
#[derive(Debug, Default)]
pub struct CommandSearch {
    query: String,
    /// The chosen one; none before something was typed or an arrow was pressed, so that Enter does nothing by chance.
    place: Option<usize>,
    was_drawn: bool,
}

impl CommandSearch {
    pub(super) fn new(query: String) -> Self {
        let place = (!query.is_empty()).then_some(0);
        Self { query, place, was_drawn: false }
    }

    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        why_not: &dyn Fn(Command) -> Option<&'static str>,
    ) -> Option<DialogAnswer> {
        // Before the field: it would take the arrows for itself.
        let (up, down) = ui.input_mut(|input| {
            (input.consume_key(Modifiers::NONE, Key::ArrowUp), input.consume_key(Modifiers::NONE, Key::ArrowDown))
        });
        let id = Id::unique("command search");
        let is_first = !std::mem::replace(&mut self.was_drawn, true);
        if is_first {
            number_cell::put_cursor_at_end(ui.ctx(), id, &self.query);
        }
        let field = TextEdit::singleline(&mut self.query).id(id).hint_text("Search commands");
        let field = ui.add(field.desired_width(f32::INFINITY));
        // Enter takes the keyboard away from a field; if nothing can be run, typing goes on.
        if is_first || field.lost_focus() {
            field.request_focus();
        }
        if field.changed() {
            self.place = (!self.query.is_empty()).then_some(0);
        }
        let found = found(&self.query);
        if down {
            let next = self.place.map_or(0, |place| place + 1);
            self.place = Some(next.min(found.len().saturating_sub(1)));
        }
        if up {
            self.place = self.place.map(|place| place.saturating_sub(1));
        }
        let entered = ui.input(|input| input.key_pressed(Key::Enter));
        ui.add_space(space::NEAR);
        if found.is_empty() {
            ui.label(theme::quiet(ui, "No command has these words"));
        }
        let mut answer = None;
        ScrollArea::vertical().max_height(360.0).show(ui, |ui| {
            for (place, command) in found.iter().enumerate() {
                let is_chosen = Some(place) == self.place;
                let reason = why_not(*command);
                if command_ui(ui, *command, is_chosen, up || down, reason) || (is_chosen && entered) {
                    answer = reason.is_none().then_some(DialogAnswer::Run(*command));
                }
            }
        });
        answer
    }
}

/// The commands that have all words of the query: in the name before those that have them only in the explanation.
fn found(query: &str) -> Vec<Command> {
    /// Worse than any rank of a name.
    const ONLY_EXPLAINED: u32 = 1000;
    let query = fold(query);
    let mut found: Vec<(u32, Command)> = Command::all()
        .filter(|command| *command != Command::Search)
        .filter_map(|command| {
            let (label, explanation) = (fold(command.label()), fold(command.explanation()));
            let by_name = rank(&query, &label);
            let by_all = || Some(ONLY_EXPLAINED + rank(&query, &format!("{label} {explanation}"))?);
            Some((by_name.or_else(by_all)?, command))
        })
        .collect();
    found.sort_by_key(|(rank, _)| *rank);
    found.into_iter().map(|(_, command)| command).collect()
}

fn command_ui(ui: &mut Ui, command: Command, is_chosen: bool, follows: bool, reason: Option<&str>) -> bool {
    let palette = Palette::of(ui);
    let keys = command.keys().first().map(|keys| ui.ctx().format_shortcut(keys)).unwrap_or_default();
    let at_the_right = reason.map_or(keys, str::to_owned);
    let mut label = egui::RichText::new(command.label());
    if reason.is_some() {
        label = label.color(palette.quiet);
    }
    let button = egui::Button::new(label)
        .shortcut_text(theme::caption(ui, at_the_right))
        .selected(is_chosen)
        .frame_when_inactive(is_chosen)
        .min_size(egui::vec2(ui.available_width(), space::TARGET + 4.0));
    let response = ui.add(button).on_hover_text(reason.unwrap_or(command.explanation()));
    if is_chosen && follows {
        response.scroll_to_me(None);
    }
    response.clicked()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_of_the_name_finds_a_command() {
        assert_eq!(found("pin this").first(), Some(&Command::Pin));
        assert_eq!(found("dark").first(), Some(&Command::ThemeDark));
        assert_eq!(found("dark colours").first(), Some(&Command::ThemeDark));
        for command in Command::all().filter(|command| *command != Command::Search) {
            assert_eq!(found(command.label()).first(), Some(&command), "by its whole name");
        }
        assert!(found("zzz").is_empty());
        assert!(found("").len() > 20);
    }
}
