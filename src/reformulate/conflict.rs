//! When it cannot be done: what contradicts what, how near one comes, and what giving way would bring.

use super::descent::{Aim, Descent, NoRest, Weight};
use super::model::{Member, Model};
use super::whole::{in_those_packs, limits_in_packs};

/// Things asked for that contradict each other: drop any one of them, and the others can be had.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Contradiction {
    /// Each of them, with the amounts that come nearest to it while all others hold.
    pub members: Vec<(Member, Vec<f64>)>,
}

/// What missing costs while nothing else is asked: all grains alike.
const ALIKE: f64 = 1.0;

/// Whether these can be had together; the changes with which, or those that miss least of what several beginnings lead to.
///
/// What is linear is known at once. Where figures bend, a way can end where all ways near by are worse.
pub(super) fn least_missed(
    model: &Model,
    is_asked: impl Fn(Member) -> bool,
    is_stopped: &dyn Fn() -> bool,
) -> Result<(Vec<f64>, f64), NoRest> {
    let mut nearest: Result<(Vec<f64>, f64), NoRest> = Err(NoRest::Failed);
    for start in beginnings(model) {
        match least_missed_from(model, &start, &is_asked, is_stopped) {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => {}
            Ok(found) => {
                if nearest.as_ref().is_ok_and(|(_, missed)| *missed <= found.1) {
                    continue;
                }
                let is_had = found.1 <= IMPOSSIBLE;
                nearest = Ok(found);
                if is_had || model.is_linear() {
                    break;
                }
            }
        }
    }
    nearest
}

/// Changes to begin with: none at first; then half of the lines a half up and the others a half down, in four ways.
pub(super) fn beginnings(model: &Model) -> impl Iterator<Item = Vec<f64>> {
    const HALF: f64 = 0.5;
    let lines = model.before.len();
    // By their size, so that their order in the recipe does not matter.
    let mut by_size: Vec<usize> = (0..lines).collect();
    by_size.sort_by(|left, right| model.before[*right].total_cmp(&model.before[*left]));
    let mixed = [(1, HALF), (1, -HALF), (2, HALF), (2, -HALF)].into_iter().map(move |(width, half)| {
        let mut changes = vec![0.0; lines];
        for (rank, &line) in by_size.iter().enumerate() {
            changes[line] = if (rank / width) % 2 == 0 { half } else { -half };
        }
        changes
    });
    std::iter::once(vec![0.0; lines]).chain(mixed)
}

fn least_missed_from(
    model: &Model,
    start: &[f64],
    is_asked: impl Fn(Member) -> bool,
    is_stopped: &dyn Fn() -> bool,
) -> Result<(Vec<f64>, f64), NoRest> {
    let mut descent = Descent::new(model, is_stopped);
    for (weight, constraint) in descent.weights.iter_mut().zip(&model.constraints) {
        if *weight != Weight::Off && !constraint.is_given {
            *weight = if is_asked(constraint.member) { Weight::Costs(ALIKE) } else { Weight::Off };
        }
    }
    let rest = descent.run(Aim::Misses, start)?;
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
    // Whole packs are no constraint of the descent.
    order.extend(limits_in_packs(model).map(|pack| Member::Limit(pack.limit)));
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
    // One beginning is quick, and nearly always enough; whether the set is one, all of them say.
    let none = vec![0.0; model.before.len()];
    let is_had = |found: Result<(Vec<f64>, f64), NoRest>, members: &[Member]| match found {
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Ok((changes, missed)) if missed <= IMPOSSIBLE => fits_packs(model, members, &changes, is_stopped),
        _ => Ok(false),
    };
    let by_one =
        |members: &[Member]| is_had(least_missed_from(model, &none, |one| members.contains(&one), is_stopped), members);
    let by_all = |members: &[Member]| is_had(least_missed(model, |one| members.contains(&one), is_stopped), members);
    let mut left = irreducible(&order, by_one)?;
    if by_all(&left)? {
        left = irreducible(&order, by_all)?;
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

/// Whether what some members ask for can also be had in the whole packs that they ask for.
fn fits_packs(
    model: &Model,
    members: &[Member],
    changes: &[f64],
    is_stopped: &dyn Fn() -> bool,
) -> Result<bool, NoRest> {
    let is_asked = |limit: usize| members.contains(&Member::Limit(limit));
    if !limits_in_packs(model).any(|pack| is_asked(pack.limit)) {
        return Ok(true);
    }
    let descent = holding(model, None, members, is_stopped);
    let found =
        descent.run(Aim::Misses, changes).and_then(|rest| in_those_packs(&descent, Aim::Misses, rest, is_asked));
    match found {
        Ok(_) => Ok(true),
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => Ok(false),
    }
}

/// A descent in which some members hold, one may be missed at a cost, and the others do not count.
fn holding<'a>(
    model: &'a Model<'a>,
    missed: Option<Member>,
    held: &[Member],
    is_stopped: &'a dyn Fn() -> bool,
) -> Descent<'a> {
    let mut descent = Descent::new(model, is_stopped);
    let weighed = descent.weights.iter_mut().zip(&model.constraints);
    for (weight, constraint) in weighed.filter(|(_, constraint)| !constraint.is_given) {
        *weight = match constraint.member {
            this if Some(this) == missed => Weight::Costs(ALIKE),
            other if held.contains(&other) => Weight::Holds { up_to: IMPOSSIBLE },
            _ => Weight::Off,
        };
    }
    descent
}

/// What is left when one after the other is left out, as long as the rest cannot be had.
fn irreducible(
    order: &[Member],
    can_be_had: impl Fn(&[Member]) -> Result<bool, NoRest>,
) -> Result<Vec<Member>, NoRest> {
    let mut left = order.to_vec();
    for member in order {
        let without: Vec<Member> = left.iter().copied().filter(|other| other != member).collect();
        if !can_be_had(&without)? {
            left = without;
        }
    }
    Ok(left)
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
    let start = match least_missed(model, |asked| others.contains(&asked), is_stopped) {
        Ok((changes, _)) => changes,
        Err(NoRest::Stopped) => return Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => vec![0.0; model.before.len()],
    };
    let descent = holding(model, Some(member), &others, is_stopped);
    let found = descent
        .run(Aim::Misses, &start)
        .and_then(|rest| in_those_packs(&descent, Aim::Misses, rest, |limit| others.contains(&Member::Limit(limit))));
    match found {
        Ok(rest) => Ok(model.amounts(&rest.changes)),
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        // No way leads on from there.
        Err(NoRest::Impossible | NoRest::Failed) => Ok(model.amounts(&start)),
    }
}

fn is_wish(model: &Model, member: Member) -> bool {
    model.constraints.iter().any(|constraint| constraint.member == member && model.is_wish(constraint))
}
