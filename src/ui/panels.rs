//! The panels of the window. Each draws what it is given and says what is asked of it.

mod field;
pub mod findings;
pub mod head;
pub mod lines;
pub mod losses;
pub mod menu_bar;
pub mod phase_bar;
pub mod readings;
pub(in crate::ui) mod results_menu;
pub mod sheet;
pub mod shelf;
pub mod status_bar;
pub mod thermometer_strip;
