//! When it cannot be done: what contradicts what, how near one comes, and what giving way would bring.

use super::descent::{Aim, Descent, NoRest, Weight};
use super::model::{Member, Model};

/// Things asked for that contradict each other: drop any one of them, and the others can be had.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Contradiction {
    /// Each of them, with the amounts that come nearest to it while all others hold.
    pub members: Vec<(Member, Vec<f64>)>,
}

/// What missing costs while nothing else is asked: all grains alike.
const ALIKE: f64 = 1.0;

/// Whether these can be had together; the amounts with which, or those that miss least.
pub(super) fn least_missed(
    model: &Model,
    is_asked: impl Fn(Member) -> bool,
    is_stopped: &dyn Fn() -> bool,
) -> Result<(Vec<f64>, f64), NoRest> {
    let mut descent = Descent::new(model, is_stopped);
    for (weight, constraint) in descent.weights.iter_mut().zip(&model.constraints) {
        if *weight != Weight::Off && !constraint.is_given {
            *weight = if is_asked(constraint.member) { Weight::Costs(ALIKE) } else { Weight::Off };
        }
    }
    let start = vec![0.0; model.before.len()];
    let rest = descent.run(Aim::Misses, &start)?;
    let missed = descent
        .weights
        .iter()
        .zip(&rest.misses)
        .filter(|(weight, _)| **weight != Weight::Off)
        .fold(0.0_f64, |most, (_, &miss)| most.max(miss));
    Ok((rest.changes, missed))
}

/// A set of members that contradict each other, irreducible.
///
/// One after the other is left out; it stays out where the rest is still impossible. What a chef can least well give up
/// is tried last and so is left in rarely: locks and limits first, then the total, then the targets from the last to the
/// first.
pub(super) fn contradiction(model: &Model, is_stopped: &dyn Fn() -> bool) -> Result<Contradiction, NoRest> {
    let mut order = model.members();
    order.retain(|member| !is_wish(model, *member));
    order.sort_by_key(|member| match member {
        Member::Allowance(_) => 0,
        Member::Limit(_) => 1,
        Member::Lock(_) => 2,
        Member::Total => 3,
        Member::Target(_) => 4,
    });
    let targets = order.iter().position(|member| matches!(member, Member::Target(_))).unwrap_or(order.len());
    order[targets..].reverse();
    let mut left = order.clone();
    for member in order {
        let without: Vec<Member> = left.iter().copied().filter(|other| *other != member).collect();
        let (_, missed) = least_missed(model, |asked| without.contains(&asked), is_stopped)?;
        if missed > IMPOSSIBLE {
            left = without;
        }
    }
    // As they are told: targets in their order, then what is asked of amounts.
    left.sort_by_key(|member| match member {
        Member::Target(idx) => (0, *idx),
        Member::Lock(_) => (1, 0),
        Member::Limit(idx) => (2, *idx),
        Member::Allowance(idx) => (3, *idx),
        Member::Total => (4, 0),
    });
    let members = left.iter().map(|&member| Ok((member, nearest_to(model, member, &left, is_stopped)?)));
    Ok(Contradiction { members: members.collect::<Result<_, NoRest>>()? })
}

/// A miss of more than this, in grains, is one.
pub(super) const IMPOSSIBLE: f64 = 1e-4;

/// The amounts that come nearest to one member while all others of a set hold.
fn nearest_to(
    model: &Model,
    member: Member,
    set: &[Member],
    is_stopped: &dyn Fn() -> bool,
) -> Result<Vec<f64>, NoRest> {
    let others: Vec<Member> = set.iter().copied().filter(|other| *other != member).collect();
    let (start, _) = least_missed(model, |asked| others.contains(&asked), is_stopped)?;
    let mut descent = Descent::new(model, is_stopped);
    let weighed = descent.weights.iter_mut().zip(&model.constraints);
    for (weight, constraint) in weighed.filter(|(_, constraint)| !constraint.is_given) {
        *weight = match constraint.member {
            this if this == member => Weight::Costs(ALIKE),
            other if others.contains(&other) => Weight::Holds { up_to: IMPOSSIBLE },
            _ => Weight::Off,
        };
    }
    descent.run(Aim::Misses, &start).map(|rest| model.amounts(&rest.changes))
}

fn is_wish(model: &Model, member: Member) -> bool {
    model.constraints.iter().any(|constraint| constraint.member == member && model.is_wish(constraint))
}
