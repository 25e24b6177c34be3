//! Reformulations: optima known by hand, those of a general-purpose solver, contradictions, and what holds of all.

mod by_hand;
mod substituting;

use nibwright::recipe::Recipe;
use nibwright::reformulate::{Answer, Impossible, Outcome, Problem, Scale, reformulate};
use nibwright::units::Grams;

/// A problem whose answer is weighed so finely that rounding does not show.
fn unrounded(recipe: Recipe) -> Problem {
    Problem { scale: Scale { coarsest: Grams(1e-4), has_finer: false }, ..Problem::new(recipe) }
}

fn outcome(problem: &Problem) -> Outcome {
    reformulate(problem, &|| false).expect("a sound problem")
}

fn changed(problem: &Problem) -> Answer {
    match outcome(problem) {
        Outcome::Changed(answer) => *answer,
        other => panic!("{other:?}"),
    }
}

fn impossible(problem: &Problem) -> Impossible {
    match outcome(problem) {
        Outcome::Impossible(why) => *why,
        other => panic!("{other:?}"),
    }
}

fn grams_after(answer: &Answer) -> Vec<f64> {
    answer.moves.iter().map(|moved| moved.after.0).collect()
}
