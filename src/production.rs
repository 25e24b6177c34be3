//! What to weigh today: a recipe brought to the mass, the moulds and the scale of a working day, and what it costs.
//!
//! This is arithmetic on a recipe and its analysis: nothing here changes a recipe, and nothing here reads a file.
//!
//! * [`order`]: what is asked for; [`scaling`]: the recipe scaled to it; [`weighing`]: split over bowls and rounded to the scale.
//! * [`rounding`]: rounding to the steps of a scale so that the total is kept.
//! * [`losses`], [`frame`], [`mould`], [`deposit`], [`density`]: what they are called after.
//! * [`cost`]: what the ingredients cost; [`piece_cost`]: what a piece does; [`price`], [`price_list`], [`date`]: the prices of a user; [`selling`]: from a cost to a price.
//! * [`base`]: amounts in percent of one of them.
//! * [`seed`]: the seed of a batch and of a day; [`day`]: all that is needed at the scale.

pub mod base;
pub mod cost;
pub mod date;
pub mod day;
pub mod density;
pub mod deposit;
pub mod frame;
pub mod losses;
pub mod mould;
pub mod order;
pub mod piece_cost;
pub mod price;
pub mod price_list;
pub mod rounding;
pub mod scaling;
pub mod seed;
pub mod selling;
pub mod weighing;
