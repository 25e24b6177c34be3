//! The pieces that panels are built of.
//!
//! A widget takes plain data and answers what happened to it; it computes nothing of a recipe, so that each can be shown
//! and tested alone.
//! All of them take their look from [`super::theme`], can be reached by keyboard where they can be acted on or explain
//! themselves, and carry a name for assistive technologies.
//! None asks for another frame by itself, except once where something was just selected.

pub mod before_after;
pub mod card;
pub mod cells_row;
pub mod change_row;
pub mod explain;
pub mod figure_number;
pub mod figure_rows;
pub mod finding_card;
pub mod fold;
pub mod number_cell;
mod paint;
pub mod quiet_button;
pub mod range_row;
pub mod scroll;
pub mod segment_bar;
pub mod tabs;
pub mod text;
pub mod thermometer;
pub mod told_row;

pub use before_after::{BeforeAfterRow, before_after_rows_ui};
pub use card::Card;
pub use cells_row::{Cell, cells_row_ui};
pub use change_row::{ChangeRow, change_rows_ui};
pub use explain::{Explanation, explain, explain_at_rest, is_attended, number_label, stop_label};
pub use figure_number::{FigureNumber, figures_ui};
pub use figure_rows::{FigureRow, figure_rows_ui, ghost_label};
pub use finding_card::{FindingCard, FindingCardOutput, with_units};
pub use number_cell::{Leave, NumberCell, NumberCellOutput, NumberEvent, edited_cell, focus_cell};
pub use paint::{clipped_text, fitting_font, focus_ring};
pub use quiet_button::{accent_button, menu_button, quiet_button, small_menu_button};
pub use range_row::{RangeRow, Standing, range_rows_ui};
pub use scroll::scroll_by_keys;
pub use segment_bar::{Pattern, Segment, SegmentBar, SegmentBarOutput, legend_entry};
pub use tabs::{focus_tab, tabs_ui};
pub use thermometer::{Thermometer, ThermometerMarks, ThermometerOutput};
pub use told_row::told_row_ui;
