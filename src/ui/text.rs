//! Words that several places of the window share, those of the plots and of the commands.
//!
//! Those of findings are in `report::words`, what numbers say in `ui::explanations`, a label of one panel in that panel.
//!
//! Sentence case, no full stop after a single sentence, `…` when more input follows.

/// Hint of the search field.
pub const SEARCH_HINT: &str = "Find a recipe or ingredient";
/// Over the ingredients of the shelf that only the recipe has.
pub const IN_THIS_RECIPE: &str = "in this recipe";
/// Over the others that a search finds.
pub const BUILT_IN: &str = "built in";
/// Name of a recipe without one.
pub const UNNAMED: &str = "Unnamed recipe";
/// The pinned state, in the legends of the plots.
pub const PINNED: &str = "pinned";
/// The recipe as it is beside a proposal, in the legends of the plots.
pub const BEFORE: &str = "before";
/// What was asked for is written.
pub const SAVED: &str = "Saved";
/// A recipe is written to a file of its own.
pub const COPY_SAVED: &str = "Saved as a recipe of its own; the open one stays as it is";
/// Shown at the first start and before anything has gone wrong.
pub const CAUTION: &str = "Figures are calculated: measure and try before you rely on them";

/// Said when a form with figures that are not used yet would be lost.
pub const FORM_IS_OPEN: &str = "The form holds figures that are not used yet: use or cancel them first";

/// Said when an explanation is asked for and nothing has the keyboard.
pub const NOTHING_TO_EXPLAIN: &str = "Go to a figure or field first, with Tab";

/// Said when the findings are asked for and there are none.
pub const NO_FINDINGS: &str = "There are no findings";

/// Said when there is no room for larger letters.
pub const NO_ROOM_TO_ENLARGE: &str = "No room for larger letters: make the window larger first";
/// Said instead while the shelf takes room.
pub const NO_ROOM_BESIDE_SHELF: &str = "No room for larger letters: hide the shelf (Ctrl+B) or make the window larger";

/// The step of undo that changes what is asked in the reading Targets.
pub const CHANGE_OF_TARGETS: &str = "change of targets";

/// Said when something is asked of an answer that is not there yet.
pub const ANSWER_ON_ITS_WAY: &str = "The answer is on its way: try again when it is there";
/// Said when somebody changes a figure of the proposed recipe.
pub const ACCEPT_FIRST: &str = "These are the figures of the proposal: accept it first, or show the sheet again";

/// The name of a recipe that comes of another one.
#[must_use]
pub fn reformulated(name: &str) -> String {
    format!("{name}, reformulated")
}

/// Words of the plots: one a reading.
pub mod plot {
    use crate::report::figures::PlotName;
    use crate::ui::files::PlotForm;

    /// What it shows.
    #[must_use]
    pub fn title(plot: PlotName) -> &'static str {
        match plot {
            PlotName::Composition => "Who brings what",
            PlotName::FatWaterMap => "Fat–water map",
            PlotName::Drying => "Water activity against water content",
            PlotName::Sorption => "Sorption isotherm of the whole mass",
            PlotName::SolidFat => "Solid fat against temperature",
            PlotName::Dilution => "Form V limit against dilution",
            PlotName::Cooling => "Temperature against time",
            PlotName::Setting => "Solid fat against time",
        }
    }

    /// Its part of a file name.
    #[must_use]
    pub fn file_name(plot: PlotName) -> &'static str {
        match plot {
            PlotName::Composition => "composition",
            PlotName::FatWaterMap => "fat-water-map",
            PlotName::Drying => "water-activity",
            PlotName::Sorption => "sorption-isotherm",
            PlotName::SolidFat => "solid-fat",
            PlotName::Dilution => "form-v-limit",
            PlotName::Cooling => "cooling",
            PlotName::Setting => "setting",
        }
    }

    /// What saves it.
    #[must_use]
    pub fn save_as(form: PlotForm) -> &'static str {
        match form {
            PlotForm::Svg => "Save as SVG…",
            PlotForm::Png => "Save as PNG…",
        }
    }

    /// The reading in front has no plot.
    pub const NOT_OF_TARGETS: &str = "The reading Targets has no plot: bring another one to the front";
    /// There is no plot because nothing is weighed.
    pub const NOTHING_WEIGHED: &str = "There is no plot yet: give the lines amounts";
    /// There is none because a figure is missing.
    pub const NOT_KNOWN: &str = "There is no plot: a figure is missing, see the findings";
    /// There is no map without an emulsion.
    pub const NO_EMULSION: &str = "There is no map: under 2 % water there is no emulsion";
    /// There is no curve without a water activity.
    pub const NO_WATER_ACTIVITY: &str = "There is no curve: the mass is too dry for a water activity";
    /// There is no curve without fat.
    pub const NO_FAT: &str = "There is no curve: the mass has no fat";
    /// There is no point without a limit.
    pub const NO_LIMIT: &str = "There is no plot: the mass has no form V limit, see the findings";
    /// There is no course without a form.
    pub const NO_SETTING: &str = "There is no plot: say first how it sets, in the reading Setting";
    /// There is no curve without a time.
    pub const NO_TIME: &str = "There is no curve: no setting time is told, see the reading Setting";
    /// See [`NOT_KNOWN`].
    pub const NO_LIQUID: &str = "There is no curve: nothing of this fat stays liquid, see the findings";
}

/// Words of the commands.
pub mod command {
    use crate::ui::command::Command;

    /// The name of a command.
    #[must_use]
    pub fn label(command: Command) -> &'static str {
        match command {
            Command::New => "New recipe",
            Command::Open => "Open…",
            Command::Save => "Save",
            Command::SaveAs => "Save as…",
            Command::SavePlot => "Save the plot…",
            Command::Quit => "Quit",
            Command::Undo => "Undo",
            Command::Redo => "Redo",
            Command::CopyTable => "Copy lines as a table",
            Command::FindIngredient => "Add an ingredient…",
            Command::GoToSheet => "Go to the lines",
            Command::GoToReadings => "Go to the readings",
            Command::GoToFindings => "Go to the findings",
            Command::GoToKind => "Go to the kind of mass",
            Command::GoToUse => "Go to the use",
            Command::GoToCocoaButter => "Go to the cocoa butter",
            Command::EditAmount => "Change amount",
            Command::EditNote => "Change note",
            Command::RemoveLine => "Remove line",
            Command::MoveUp => "Move line up",
            Command::MoveDown => "Move line down",
            Command::ToggleLock => "Lock or unlock line",
            Command::Figures => "Figures of the ingredient…",
            Command::Price => "Price of the ingredient…",
            Command::Exchange => "Exchange an ingredient…",
            Command::OwnIngredient => "New own ingredient…",
            Command::Weigh => "What to weigh today…",
            Command::Pin => "Pin this state",
            Command::Unpin => "Unpin",
            Command::Reformulate => "Reformulate…",
            Command::StopReformulating => "Done reformulating",
            Command::ShowMakeUp => "Make-up",
            Command::ShowEmulsion => "Emulsion",
            Command::ShowWater => "Water",
            Command::ShowFatCrystals => "Fat crystals",
            Command::ShowSetting => "Setting",
            Command::Warmer => "Thermometer warmer",
            Command::Cooler => "Thermometer cooler",
            Command::RoomTemperature => "Thermometer to 20 °C",
            Command::ThemeSystem => "Colours of the system",
            Command::ThemeLight => "Light colours",
            Command::ThemeDark => "Dark colours",
            Command::SwitchDecimalSign => "Decimal comma or point",
            Command::ToggleShelf => "Hide or show the shelf",
            Command::ToggleTemperatures => "Hide or show temperatures",
            Command::ZoomIn => "Larger",
            Command::ZoomOut => "Smaller",
            Command::ZoomReset => "Original size",
            Command::Search => "Search commands…",
            Command::Explain => "Explain what has the keyboard",
            Command::ShowKeys => "Keys",
            Command::About => "About Nibwright",
        }
    }

    /// What a command does.
    #[must_use]
    pub fn explanation(command: Command) -> &'static str {
        match command {
            Command::New => "Begin an empty recipe",
            Command::Open => "Choose a recipe file and open it",
            Command::Save => "Write the recipe to its file",
            Command::SaveAs => "Write the recipe to another file",
            Command::SavePlot => "Write the plot of the reading in front to a file, as SVG or PNG",
            Command::Quit => "Close the window",
            Command::Undo => "Take the last change back",
            Command::Redo => "Make the last change again",
            Command::CopyTable => "Put ingredients and grams on the clipboard, ready for a spreadsheet",
            Command::FindIngredient => "Go to the search; Enter adds what was found",
            Command::GoToSheet => "Go to the amount of the chosen line",
            Command::GoToReadings => "Go to the reading in front; Tab goes on to its figures, which explain themselves",
            Command::GoToFindings => "Go to the first finding; Tab goes on to the next",
            Command::GoToKind => "Go to where the kind is chosen: ganache, praline, …",
            Command::GoToUse => "Go to where the use is chosen: cut, piped, …",
            Command::GoToCocoaButter => "Go to where the cocoa butter of the fat model is chosen",
            Command::EditAmount => "Type the amount of the chosen line",
            Command::EditNote => "Type the note of the chosen line",
            Command::RemoveLine => "Take the chosen line out of the recipe",
            Command::MoveUp => "Move the chosen line one place up",
            Command::MoveDown => "Move the chosen line one place down",
            Command::ToggleLock => "Keep the amount of the chosen line as it is, or set it free",
            Command::Figures => "Replace its figures by those of your supplier's data sheet",
            Command::Price => "Say what you pay for the ingredient of the chosen line; it goes into your price list",
            Command::Exchange => {
                "Put another ingredient in its place, here or in all recipes, and keep the results that matter"
            }
            Command::OwnIngredient => "Make an ingredient from a data sheet or your own analysis and add it",
            Command::Weigh => {
                "Pieces, mass or frames asked for, bowls and scale: the weighing list, and the sheet scaled to it"
            }
            Command::Pin => "Keep the present state behind every plot and figure, to compare with",
            Command::Unpin => "Forget the pinned state",
            Command::Reformulate => "Say what the recipe has to do, and see the nearest amounts that do it",
            Command::StopReformulating => "Close the reading Targets; the recipe stays as it is",
            Command::ShowMakeUp => "What the mass is made of",
            Command::ShowEmulsion => "Whether fat and water hold together",
            Command::ShowWater => "How active the water is, what sugar does, how it keeps",
            Command::ShowFatCrystals => "How the fat sets and where to seed",
            Command::ShowSetting => "How it cools, when it is firm, how the pieces keep their shape",
            Command::Warmer => "Half a degree up",
            Command::Cooler => "Half a degree down",
            Command::RoomTemperature => "Back to room temperature",
            Command::ThemeSystem => "Light or dark as the system says",
            Command::ThemeLight => "Dark on light",
            Command::ThemeDark => "Light on dark",
            Command::SwitchDecimalSign => "Show numbers with the other decimal sign; both are always understood",
            Command::ToggleShelf => {
                "Leave its room to sheet and readings, as for a projector; the search brings it back"
            }
            Command::ToggleTemperatures => {
                "The column that says how warm each line is when it is mixed; what is typed stays"
            }
            Command::ZoomIn => "Enlarge everything, as for a projector",
            Command::ZoomOut => "Shrink everything",
            Command::ZoomReset => "Bring everything back to its size",
            Command::Search => "Find a command by a word of its name",
            Command::Explain => "What the figure or field is: meaning, range, source, uncertainty",
            Command::ShowKeys => "All keys on one page",
            Command::About => "Version, sources, licences, cautions",
        }
    }
}
