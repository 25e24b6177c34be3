//! What is kept on the disk: recipes, settings, unsaved work. The only module that touches files.
//!
//! * [`load_recipe`], [`save_recipe`], [`file_stamp`]: a recipe and its file ([`files`]).
//! * [`save_bytes`]: a file that leaves the program, such as a plot.
//! * [`list_recipes`]: the recipes of a folder ([`shelf`]).
//! * [`exchange`]: an ingredient exchanged in all recipes of a folder.
//! * [`mod@format`]: the text of a recipe file, version by version.
//! * [`Settings`] and [`Places`]: what the program remembers, and in which folders.
//! * [`load_price_list`], [`change_price`]: the user's prices, a table ([`price_list`]).
//! * [`Recovery`]: copies of unsaved work, never over the user's file.
//!
//! Every file is replaced in one step ([`atomic`]): after a crash there is the old one or the new one.
//! Every error is one sentence that says which file, where in it, what is wrong and what to do.

pub mod atomic;
pub mod error;
pub mod exchange;
pub mod files;
pub mod format;
pub mod places;
pub mod price_list;
pub mod recovery;
pub mod samples;
pub mod settings;
pub mod shelf;

pub use error::{LoadError, SaveError, megabytes};
pub use files::{FileStamp, LARGEST_FILE, file_stamp, is_same_file, load_recipe, read_text, save_bytes, save_recipe};
pub use places::Places;
pub use price_list::{PriceListError, change_price, load_own_price_list, load_price_list, own_price_list};
pub use recovery::{Leftover, Recovery};
pub use settings::{Settings, Theme, WindowPlace};
pub use shelf::{RecipeEntry, list_recipes};
