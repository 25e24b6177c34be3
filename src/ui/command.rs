//! Everything that can be asked of the window by name: one list for menus, keys, the command search and the help.

use std::sync::LazyLock;

use egui::{Key, KeyboardShortcut, Modifiers};

use super::text::command as words;

/// Something that can be asked of the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Command {
    /// Begin an empty recipe.
    New,
    /// Choose a recipe and open it.
    Open,
    /// Write the recipe to its file.
    Save,
    /// Write the recipe to another file.
    SaveAs,
    /// Write the plot of the reading in front to a file.
    SavePlot,
    /// Close the window.
    Quit,
    /// Take the last change back.
    Undo,
    /// Make it again.
    Redo,
    /// Copy the lines as a table.
    CopyTable,
    /// Go to the search of the shelf.
    FindIngredient,
    /// Go to the sheet.
    GoToSheet,
    /// Go to the reading in front.
    GoToReadings,
    /// Go to the findings.
    GoToFindings,
    /// Go to the kind of the recipe.
    GoToKind,
    /// Go to its use.
    GoToUse,
    /// Go to its cocoa butter.
    GoToCocoaButter,
    /// Type the amount of the chosen line.
    EditAmount,
    /// Type the note of the chosen line.
    EditNote,
    /// Take the chosen line out.
    RemoveLine,
    /// Move the chosen line up.
    MoveUp,
    /// Move the chosen line down.
    MoveDown,
    /// Lock or unlock the chosen line.
    ToggleLock,
    /// Type the figures of the ingredient of the chosen line.
    Figures,
    /// Type what the ingredient of the chosen line costs.
    Price,
    /// Say what is asked for and see what to weigh.
    Weigh,
    /// Exchange the ingredient of the chosen line for another.
    Exchange,
    /// Make an ingredient of one's own.
    OwnIngredient,
    /// Keep the present state to compare with.
    Pin,
    /// Forget the pinned state.
    Unpin,
    /// Open the reading Targets.
    Reformulate,
    /// Close it.
    StopReformulating,
    /// Show the reading Make-up.
    ShowMakeUp,
    /// Show the reading Emulsion.
    ShowEmulsion,
    /// Show the reading Water.
    ShowWater,
    /// Show the reading Fat crystals.
    ShowFatCrystals,
    /// Bring Setting to the front.
    ShowSetting,
    /// Warm the thermometer by half a degree.
    Warmer,
    /// Cool it by half a degree.
    Cooler,
    /// Bring it back to 20 °C.
    RoomTemperature,
    /// Colours as the system says.
    ThemeSystem,
    /// Light colours.
    ThemeLight,
    /// Dark colours.
    ThemeDark,
    /// Show numbers with the other decimal sign.
    SwitchDecimalSign,
    /// Hide the shelf, or show it again.
    ToggleShelf,
    /// Show how warm the lines are when they are mixed, or hide it.
    ToggleTemperatures,
    /// Enlarge everything.
    ZoomIn,
    /// Shrink everything.
    ZoomOut,
    /// Bring everything back to its size.
    ZoomReset,
    /// Search the commands.
    Search,
    /// Explain what has the keyboard.
    Explain,
    /// Show the keys.
    ShowKeys,
    /// Show what this program is, with its sources.
    About,
}

/// A menu of the menu bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Menu {
    /// Files.
    File,
    /// Changes.
    Edit,
    /// The lines of the recipe.
    Sheet,
    /// What is shown.
    View,
    /// Help.
    Help,
}

impl Menu {
    /// All menus from left to right.
    pub const ALL: [Self; 5] = [Self::File, Self::Edit, Self::Sheet, Self::View, Self::Help];

    /// Its name.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::File => "File",
            Self::Edit => "Edit",
            Self::Sheet => "Sheet",
            Self::View => "View",
            Self::Help => "Help",
        }
    }

    /// Its commands in groups.
    #[must_use]
    pub fn groups(self) -> &'static [&'static [Command]] {
        use Command as C;
        match self {
            Self::File => &[&[C::New, C::Open], &[C::Save, C::SaveAs], &[C::SavePlot], &[C::Quit]],
            Self::Edit => &[&[C::Undo, C::Redo], &[C::CopyTable], &[C::Search]],
            Self::Sheet => &[
                &[C::FindIngredient, C::GoToSheet, C::GoToReadings, C::GoToFindings],
                &[C::GoToKind, C::GoToUse, C::GoToCocoaButter],
                &[C::EditAmount, C::EditNote, C::ToggleLock],
                &[C::Exchange, C::Figures, C::Price, C::OwnIngredient],
                &[C::MoveUp, C::MoveDown, C::RemoveLine],
                &[C::Weigh],
                &[C::Pin, C::Unpin],
                &[C::Reformulate, C::StopReformulating],
            ],
            Self::View => &[
                &[C::ShowMakeUp, C::ShowEmulsion, C::ShowWater, C::ShowFatCrystals, C::ShowSetting],
                &[C::Warmer, C::Cooler, C::RoomTemperature],
                &[C::ThemeSystem, C::ThemeLight, C::ThemeDark],
                &[C::ToggleShelf, C::ToggleTemperatures, C::SwitchDecimalSign],
                &[C::ZoomIn, C::ZoomOut, C::ZoomReset],
            ],
            Self::Help => &[&[C::Explain, C::ShowKeys], &[C::About]],
        }
    }
}

impl Command {
    /// All commands in the order of the menus.
    pub fn all() -> impl Iterator<Item = Self> {
        Menu::ALL.into_iter().flat_map(|menu| menu.groups().iter().flat_map(|group| group.iter().copied()))
    }

    /// Its name in menus and in the command search.
    #[must_use]
    pub fn label(self) -> &'static str {
        words::label(self)
    }

    /// What it does, in a sentence.
    #[must_use]
    pub fn explanation(self) -> &'static str {
        words::explanation(self)
    }

    /// Its keys; the first is shown.
    #[must_use]
    pub fn keys(self) -> &'static [KeyboardShortcut] {
        const fn keys(modifiers: Modifiers, key: Key) -> KeyboardShortcut {
            KeyboardShortcut::new(modifiers, key)
        }
        const CTRL: Modifiers = Modifiers::COMMAND;
        const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
        match self {
            Self::New => const { &[keys(CTRL, Key::N)] },
            Self::Open => const { &[keys(CTRL, Key::O)] },
            Self::Save => const { &[keys(CTRL, Key::S)] },
            Self::SaveAs => const { &[keys(CTRL_SHIFT, Key::S)] },
            Self::Quit => const { &[keys(CTRL, Key::Q)] },
            Self::Undo => const { &[keys(CTRL, Key::Z)] },
            Self::Redo => const { &[keys(CTRL_SHIFT, Key::Z), keys(CTRL, Key::Y)] },
            Self::CopyTable => const { &[keys(CTRL_SHIFT, Key::C)] },
            Self::FindIngredient => const { &[keys(CTRL, Key::F)] },
            Self::GoToSheet => const { &[keys(CTRL, Key::E)] },
            Self::GoToReadings => const { &[keys(CTRL, Key::R)] },
            Self::GoToFindings => const { &[keys(CTRL, Key::G)] },
            Self::EditAmount => const { &[keys(Modifiers::NONE, Key::F2)] },
            Self::EditNote => const { &[keys(Modifiers::SHIFT, Key::F2)] },
            Self::RemoveLine => const { &[keys(CTRL, Key::Delete)] },
            Self::MoveUp => const { &[keys(Modifiers::ALT, Key::ArrowUp)] },
            Self::MoveDown => const { &[keys(Modifiers::ALT, Key::ArrowDown)] },
            Self::ToggleLock => const { &[keys(CTRL, Key::L)] },
            Self::Figures => const { &[keys(CTRL, Key::I)] },
            Self::Weigh => const { &[keys(CTRL, Key::D)] },
            Self::Exchange => const { &[keys(CTRL_SHIFT, Key::E)] },
            Self::OwnIngredient => const { &[keys(CTRL_SHIFT, Key::I)] },
            Self::Pin => const { &[keys(CTRL, Key::P)] },
            Self::Unpin => const { &[keys(CTRL_SHIFT, Key::P)] },
            Self::Reformulate => const { &[keys(CTRL, Key::J)] },
            Self::StopReformulating => const { &[keys(CTRL_SHIFT, Key::J)] },
            Self::ShowMakeUp => const { &[keys(CTRL, Key::Num1)] },
            Self::ShowEmulsion => const { &[keys(CTRL, Key::Num2)] },
            Self::ShowWater => const { &[keys(CTRL, Key::Num3)] },
            Self::ShowFatCrystals => const { &[keys(CTRL, Key::Num4)] },
            Self::ShowSetting => const { &[keys(CTRL, Key::Num5)] },
            Self::Warmer => const { &[keys(CTRL, Key::ArrowUp)] },
            Self::Cooler => const { &[keys(CTRL, Key::ArrowDown)] },
            Self::RoomTemperature => const { &[keys(CTRL, Key::T)] },
            Self::ToggleShelf => const { &[keys(CTRL, Key::B)] },
            Self::ToggleTemperatures => const { &[keys(CTRL_SHIFT, Key::T)] },
            Self::ZoomIn => const { &[keys(CTRL, Key::Plus), keys(CTRL, Key::Equals)] },
            Self::ZoomOut => const { &[keys(CTRL, Key::Minus)] },
            Self::ZoomReset => const { &[keys(CTRL, Key::Num0)] },
            Self::Search => const { &[keys(CTRL, Key::K)] },
            Self::Explain => const { &[keys(Modifiers::SHIFT, Key::F1)] },
            Self::ShowKeys => const { &[keys(Modifiers::NONE, Key::F1)] },
            Self::SavePlot
            | Self::Price
            | Self::GoToKind
            | Self::GoToUse
            | Self::GoToCocoaButter
            | Self::ThemeSystem
            | Self::ThemeLight
            | Self::ThemeDark
            | Self::SwitchDecimalSign
            | Self::About => &[],
        }
    }

    /// Whether a focused text field uses these keys itself, so that it has them first.
    #[must_use]
    pub fn belongs_to_text_fields(self) -> bool {
        matches!(self, Self::Undo | Self::Redo | Self::RemoveLine)
    }

    /// All keys with their commands, longest combination first, so that Ctrl+Shift+S is not taken for Ctrl+S.
    #[must_use]
    pub fn by_keys() -> &'static [(KeyboardShortcut, Self)] {
        static LIST: LazyLock<Vec<(KeyboardShortcut, Command)>> = LazyLock::new(Command::list_by_keys);
        &LIST
    }

    fn list_by_keys() -> Vec<(KeyboardShortcut, Self)> {
        let mut list: Vec<_> =
            Self::all().flat_map(|command| command.keys().iter().map(move |keys| (*keys, command))).collect();
        let length = |modifiers: Modifiers| {
            [modifiers.alt, modifiers.command || modifiers.ctrl, modifiers.shift]
                .into_iter()
                .filter(|held| *held)
                .count()
        };
        list.sort_by_key(|(keys, _)| std::cmp::Reverse(length(keys.modifiers)));
        list
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_commands_have_the_same_keys() {
        let list = Command::by_keys();
        for (place, (keys, command)) in list.iter().enumerate() {
            for (other_keys, other) in &list[place + 1..] {
                assert!(keys != other_keys, "{command:?} and {other:?} share {keys:?}");
            }
        }
    }

    #[test]
    fn longer_combinations_come_first() {
        let list = Command::by_keys();
        let place = |command| list.iter().position(|(_, other)| *other == command);
        assert!(place(Command::SaveAs) < place(Command::Save));
        assert!(place(Command::Unpin) < place(Command::Pin));
        assert!(place(Command::OwnIngredient) < place(Command::Figures));
        assert!(place(Command::ToggleTemperatures) < place(Command::RoomTemperature));
    }

    #[test]
    fn every_command_is_explained() {
        for command in Command::all() {
            assert!(!command.label().is_empty() && !command.explanation().is_empty(), "{command:?}");
        }
    }
}
