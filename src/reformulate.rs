//! From a recipe to the nearest one that does what is asked.
//!
//! [`reformulate`] is a function: a [`Problem`] in, an [`Outcome`] out. The answer is the recipe with the least change of its
//! amounts for which all targets hold; it is rounded to the scale and then judged again by the models of the analysis, so
//! that what it claims is what a report says of it. Where it cannot be done, the outcome names what contradicts what and how
//! near one comes.
//!
//! least Σ ((x − x₀)/max(x₀, 2 % of the batch))², x the amounts and x₀ those of the recipe, g; for few lines Σ of the
//! absolute values instead
//!
//! What it deliberately does not do: invent ingredients, judge taste, or promise that no other recipe is nearer where models bend.
//!
//! * [`measured`]: what can be asked for; [`target`]: where it has to lie; [`problem`]: all that is asked.
//! * `model`: the problem as numbers; `quadratic`: the convex program; `descent`: from round to round; `beginnings`: where
//!   it begins; `rim`: where a figure ends; `whole`: packs; `steps`: amounts on the steps of the scale; `tolerance`: how
//!   exactly something holds; `conflict`: what contradicts what; [`helpers`]: what would help; `room`: an answer
//!   further inside for the scale; `nearer`: a nearer one along straight lines; `kink`: what lies behind a kink; `activity`: an
//!   edge that jumps; `seasoning`: what of it stays; [`substitute`]: one ingredient for another; `reasons`: what moved each line;
//!   [`answer`]: what came of it.

mod activity;
pub mod answer;
mod beginnings;
mod conflict;
mod descent;
pub mod helpers;
mod kink;
pub mod measured;
mod model;
mod nearer;
pub mod problem;
mod quadratic;
mod reasons;
mod rim;
mod room;
mod seasoning;
mod steps;
pub mod substitute;
pub mod target;
mod tolerance;
mod whole;

pub use answer::{
    Answer, Conflicting, Impossible, Member, Move, Outcome, Pull, Reachable, Reached, reformulate, sensitivities,
};
pub use measured::{Figure, Measured};
pub use problem::{Allowed, Change, Limit, Place, Problem, ProblemError, Rule, Scale};
pub use target::{Bound, Decides, Target};
