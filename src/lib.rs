//! Nibwright: a workbench for masses that contain cocoa butter.
//!
//! A chocolatier, a pastry chef or a teacher types what is weighed in. Nibwright computes what the mass is made of,
//! whether fat and water hold together, how its fat sets and melts, and where and with how much to seed it; beside each
//! figure stands where it comes from and how far it can be trusted. It advises: whether a product keeps and what stands
//! on its label is decided by measurement, hazard analysis, local food codes and licensed practice.
//!
//! This library is the whole program but for its start. Its heart is one pure function:
//!
//! ```
//! use nibwright::analysis::{ROOM, analyse};
//! use nibwright::ingredient::Library;
//! use nibwright::recipe::{Kind, Quantity, Recipe, Use};
//!
//! let library = Library::built_in();
//! let mut recipe = Recipe { kind: Kind::Ganache, intended_use: Some(Use::Cut), ..Recipe::default() };
//! for (id, grams) in [("couverture-dark-64", 400.0), ("cream-35", 200.0), ("butter-82", 40.0)] {
//!     recipe.push(library.by_id(id).unwrap().clone(), Quantity::from_grams(grams).unwrap());
//! }
//! let analysis = analyse(&recipe, ROOM);
//! let seeding = analysis.seeding.unwrap();
//! assert!(seeding.window.max < seeding.unmixed.unwrap().max, "cream mixes its fat in and lowers the window");
//! ```
//!
//! # The modules, in reading order
//!
//! A module uses only what stands above it; those of one row do not know each other.
//!
//! * [`units`]: quantities with their unit in the type. [`number`]: numbers to text and back.
//!   [`source`]: where figures come from.
//! * [`ingredient`]: what ingredients are made of, and how they are found.
//! * [`recipe`]: what is weighed, what is lost, what it is for.
//! * [`analysis`]: everything that is computed, one model a file; it always answers, and says what it does not know.
//! * [`production`]: what to weigh today.
//! * [`reformulate`]: the nearest recipe that does what is asked.
//! * [`document`]: what is saved, how it changes, how a change is taken back.
//! * [`store`]: files, the only place that touches the disk. [`report`]: results as words, text, JSON and plots.
//! * [`command_line`]: the program without a window. `ui`: the window, with the feature `gui`.
//!
//! DEVELOPERS.md has the bird's-eye view, the invariants and how to add things; the formats of files and reports are
//! described in `sample-recipes/README.md`.
//!
//! # Words of the trade
//!
//! * **Cocoa mass**: ground cocoa beans, about half fat. **Cocoa butter**: that fat. **Fat-free cocoa solids**: the rest
//!   of it without water.
//! * **Couverture**: chocolate with enough cocoa butter to coat thinly; dark, milk or white.
//! * **Ganache**: chocolate with cream, fruit or another watery part; fat droplets and cocoa particles in a syrup.
//! * **Praline**: roasted nuts ground with sugar, here always with a fat that makes it set. **Gianduja**: chocolate and
//!   nut paste ground together.
//! * **Mousse base**: the ganache that whipped cream is folded into.
//! * **Dry matter**: what is left without water. **Milk solids non-fat**: milk protein, lactose, milk minerals.
//! * **Invert sugar**: sucrose split into glucose and fructose, which does not crystallise.
//!   **Glucose syrup**: hydrolysed starch; its **DE** (dextrose equivalent) says how far.
//!   **Higher saccharides**: what of it has three units and more. **Syrup solids**: what all of these bring.
//! * **Polyols**: sugar alcohols such as sorbitol.
//! * **Form IV, V, VI**: crystal forms of cocoa butter, numbered upward with stability. Form V gives snap and gloss; what
//!   sets unguided sets in form IV and below, soft and dull; form V turns into VI over months.
//! * **Tempering**: leading chocolate to form V. **Seed**: tempered crystals of cocoa butter that do it when they are
//!   stirred in; the word means nothing else here.
//! * **Solid fat**: how much of the fat is crystallised at a temperature.
//! * **Fat-continuous**: fat is what everything else floats in, as in chocolate; a few drops of water make it seize.
//!   **Emulsion**: here always fat droplets in a watery syrup. **Globules**: the droplets in which cream, milk and egg
//!   carry their fat; until they break it does not mix with other fat.
//! * **Bloom**: fat or sugar that comes to the surface and turns it grey.
//!
//! And ours, as they are in the window:
//!
//! * **Sheet**: the recipe being worked on. **Shelf**: where recipes and ingredients are found.
//! * **Reading**: one group of results with its plots. **Phase bar**: the mass drawn as one bar at the temperature of the
//!   **thermometer**.
//! * **Finding**: one sentence about the mass: *note*, *caution* or *problem*.
//! * **Pin**: a state of the recipe kept to compare with.
//! * **Bowl**: the mass after evaporation, before what stays in bowls and bags is lost; **finished mass**: after that.
//!   Seed counts in neither.
//! * **Form V limit**: where the last form V crystal melts in the mass's own fat. **Seeding window**: the temperatures
//!   below it at which seed lives and grows.
//! * **Unknown**: nobody has measured it, which is not zero. **Unassigned**: what a data sheet leaves open.

pub mod analysis;
pub mod command_line;
pub mod document;
pub mod ingredient;
pub mod number;
pub mod production;
pub mod recipe;
pub mod reformulate;
pub mod report;
pub mod source;
pub mod store;
#[cfg(feature = "gui")]
pub mod ui;
pub mod units;
