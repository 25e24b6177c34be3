//! When it cannot be done: what contradicts what, how near one comes, and what giving way would bring.

mod weighed;

use std::cell::RefCell;

use super::activity::Reading;
use super::beginnings::{beginnings, nearest_corner, nearest_of_several};
use super::descent::{Aim, Descent, NoRest, Rest, Weight};
use super::model::{Member, Model};
use super::tolerance::{OPEN, SEEN};
use super::whole::{in_those_packs, limits_in_packs};

/// One of the things asked for that contradict each other: drop any one of them, and the others can be had.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Contradicting {
    /// What is asked for.
    pub member: Member,
    /// The amounts that come nearest to it while all others hold.
    pub amounts: Vec<f64>,
    /// Whether everything else that is asked for can be had once it is dropped, not only the others that contradict it.
    pub is_enough: bool,
    /// What holds there.
    others: Vec<Member>,
    /// By how much it is missed there, in grains.
    missed: f64,
}

impl Contradicting {
    /// Takes over amounts that were found otherwise, if the others hold with them and it is missed less.
    pub fn take_nearer(&mut self, model: &Model, rest: &Rest) {
        let rows = || model.constraints.iter().zip(&rest.misses);
        let others_hold = rows().all(|(constraint, &miss)| {
            miss <= OPEN || !(constraint.is_given || self.others.contains(&constraint.member))
        });
        let missed = missed_of(model, self.member, &rest.misses);
        if others_hold && missed < self.missed && limits_in_packs(model).next().is_none() {
            self.amounts = model.amounts(&rest.changes);
            self.missed = missed;
        }
    }
}

/// By how much a member is missed, in grains.
fn missed_of(model: &Model, member: Member, misses: &[f64]) -> f64 {
    most_missed(misses, |row| model.constraints[row].member == member)
}

/// The largest miss of some rows; 0 where none of them is missed.
fn most_missed(misses: &[f64], counts: impl Fn(usize) -> bool) -> f64 {
    misses.iter().enumerate().filter(|(row, _)| counts(*row)).fold(0.0, |most, (_, &miss)| most.max(miss))
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
    let descent = missing_least(model, is_asked, is_stopped);
    let mut nearest: Result<(Vec<f64>, f64), NoRest> = Err(NoRest::Failed);
    let corner = std::iter::once_with(|| nearest_corner(&descent)).flatten();
    for start in beginnings(model).chain(corner) {
        match least_missed_from(&descent, &start) {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => {}
            Ok(found) => {
                if nearest.as_ref().is_ok_and(|(_, missed)| *missed <= found.1) {
                    continue;
                }
                let is_had = found.1 <= OPEN;
                nearest = Ok(found);
                if is_had || descent.is_linear() {
                    break;
                }
            }
        }
    }
    nearest
}

/// A descent to where what is asked for is missed least.
fn missing_least<'a>(
    model: &'a Model<'a>,
    is_asked: impl Fn(Member) -> bool,
    is_stopped: &'a dyn Fn() -> bool,
) -> Descent<'a> {
    let mut descent = Descent::new(model, is_stopped);
    for (weight, constraint) in descent.weights.iter_mut().zip(&model.constraints) {
        if *weight != Weight::Off && !constraint.is_given {
            *weight = if is_asked(constraint.member) { Weight::Costs(ALIKE) } else { Weight::Off };
        }
    }
    descent
}

fn least_missed_from(descent: &Descent, start: &[f64]) -> Result<(Vec<f64>, f64), NoRest> {
    let rest = descent.run(Aim::Any, start)?;
    let missed = most_missed(&rest.misses, |row| descent.weights[row] != Weight::Off);
    Ok((rest.changes, missed))
}

/// A set of members that contradict each other, irreducible.
///
/// One after the other is left out; it stays out where the rest is still impossible. What is tried first is left out most
/// often, so that the set is made of targets rather than of limits, locks and the total where both would do, and of the first
/// targets rather than of the last.
pub(super) fn contradiction(model: &Model, is_stopped: &dyn Fn() -> bool) -> Result<Vec<Contradicting>, NoRest> {
    let order = in_order(model);
    // One beginning is quick, and nearly always enough; whether the set is one, all of them say.
    let none = vec![0.0; model.before.len()];
    let by_one = |members: &[Member]| {
        let descent = missing_least(model, |one| members.contains(&one), is_stopped);
        had(model, members, least_missed_from(&descent, &none), is_stopped)
    };
    // The same set is asked for more than once.
    let known: RefCell<Vec<Sought>> = RefCell::new(Vec::new());
    let by_all = |members: &[Member]| {
        let is_same = |set: &[Member]| set.len() == members.len() && set.iter().all(|member| members.contains(member));
        if let Some((_, found)) = known.borrow().iter().find(|(set, _)| is_same(set)) {
            return Ok(found.clone());
        }
        let found = sought_by_all(model, members, is_stopped)?;
        known.borrow_mut().push((members.to_vec(), found.clone()));
        Ok(found)
    };
    let suspects = suspects(&order, by_all)?;
    let mut left = irreducible(&suspects, by_one)?;
    if by_all(&left)?.is_some() {
        left = irreducible(&suspects, by_all)?;
    }
    // As they are told: targets in their order, then what is asked of amounts.
    left.sort_by_key(|member| match member {
        Member::Target(idx) => (0, *idx),
        Member::Lock(_) => (1, 0),
        Member::Limit(idx) => (2, *idx),
        Member::Allowance(idx) => (3, *idx),
        Member::Total => (4, 0),
    });
    // With all else kept that can be: what stands outside of the set counts as well, unless it stands in the way too.
    let nearest = |member: Member| {
        let without = |set: &[Member]| set.iter().copied().filter(|other| *other != member).collect::<Vec<_>>();
        let (all_others, others) = (without(&order), without(&left));
        let with_all = by_all(&all_others)?;
        let is_enough = with_all.is_some();
        let others = if is_enough { all_others } else { others };
        let start = match with_all {
            Some(changes) => changes,
            None => by_all(&others)?.unwrap_or_else(|| none.clone()),
        };
        let rest = nearest_to(model, member, &others, &start, is_stopped)?;
        Ok(Way { member, others, rest, is_enough })
    };
    let ways = left.iter().map(|&member| nearest(member)).collect::<Result<Vec<Way>, NoRest>>()?;
    let nearer = |way: &Way| way.nearer(model, &ways, is_stopped);
    ways.iter().map(nearer).collect()
}

/// What giving up one member brings.
struct Way {
    member: Member,
    /// What holds then.
    others: Vec<Member>,
    /// Where one comes nearest to the member, as far as is known, and by how much it is missed there.
    rest: (Vec<f64>, f64),
    is_enough: bool,
}

impl Way {
    /// Sought as well from where the other ways lead: there all but one of the members hold, and it is often nearly had.
    fn nearer(&self, model: &Model, ways: &[Self], is_stopped: &dyn Fn() -> bool) -> Result<Contradicting, NoRest> {
        let (mut changes, mut missed) = self.rest.clone();
        if bends(model, &self.others) || bends(model, &[self.member]) {
            let of_ways = ways.iter().filter(|other| other.member != self.member).map(|other| other.rest.0.clone());
            // And from the other beginnings: what can be had at best may lie on another side.
            for start in of_ways.chain(beginnings(model)) {
                let found = nearest_to(model, self.member, &self.others, &start, is_stopped)?;
                if found.1 < missed {
                    (changes, missed) = found;
                }
            }
        }
        Ok(Contradicting {
            member: self.member,
            amounts: model.amounts(&changes),
            is_enough: self.is_enough,
            others: self.others.clone(),
            missed,
        })
    }
}

/// Members, and the changes with which they can be had, if there are any.
type Sought = (Vec<Member>, Option<Vec<f64>>);

/// The changes with which some members can be had, sought from several beginnings and on two ways.
fn sought_by_all(model: &Model, members: &[Member], is_stopped: &dyn Fn() -> bool) -> Result<Option<Vec<f64>>, NoRest> {
    let found = had(model, members, least_missed(model, |one| members.contains(&one), is_stopped), is_stopped)?;
    if found.is_some() {
        return Ok(found);
    }
    // The way on which an answer is sought may come through where the way to the least miss ends. What is only had far out, in a
    // batch many times as heavy, is found by it too: on the other way so much change outweighs a small miss.
    let none = vec![0.0; model.before.len()];
    let aim = Aim::Change(model.problem.change);
    let found = nearest_of_several(&holding(model, None, members, is_stopped), aim, &none);
    let found = had(model, members, found.map(|rest| (rest.changes, 0.0)), is_stopped)?;
    // Other readings are smooth: one beginning is enough.
    let sought = |model: &Model| {
        let found = holding(model, None, members, is_stopped).run(aim, &none);
        had(model, members, found.map(|rest| (rest.changes, 0.0)), is_stopped)
    };
    let asked = members.iter().filter_map(|member| match member {
        Member::Target(idx) => Some(model.problem.targets[*idx]),
        Member::Total | Member::Limit(_) | Member::Lock(_) | Member::Allowance(_) => None,
    });
    let readings = Reading::few(&asked.collect::<Vec<_>>());
    readings.into_iter().try_fold(found, |found, reading| match (found, Model::new(model.problem, model.quotients)) {
        (None, Ok(other)) => sought(&other.read_as(reading)),
        (found, _) => Ok(found),
    })
}

/// Among what a contradiction is looked for: a target that cannot be had by itself, or what is asked of amounts if that
/// contradicts itself already; the fewer it takes, the clearer it is.
fn suspects(
    order: &[Member],
    can_be_had: impl Fn(&[Member]) -> Result<Option<Vec<f64>>, NoRest>,
) -> Result<Vec<Member>, NoRest> {
    let (targets, of_amounts): (Vec<Member>, Vec<Member>) =
        order.iter().partition(|member| matches!(member, Member::Target(_)));
    for target in targets.into_iter().rev() {
        if can_be_had(&[target])?.is_none() {
            return Ok(vec![target]);
        }
    }
    let contradict = can_be_had(&of_amounts)?.is_none();
    Ok(if contradict { of_amounts } else { order.to_vec() })
}

/// What is asked for, wishes aside, in the order in which it is left out to see whether the rest can be had.
fn in_order(model: &Model) -> Vec<Member> {
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
    order
}

/// The changes that were found, if they miss nothing that these members ask for, whole packs among it.
fn had(
    model: &Model,
    members: &[Member],
    found: Result<(Vec<f64>, f64), NoRest>,
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Vec<f64>>, NoRest> {
    match found {
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        // Of sums over the lines the solver knows: where it does not, nobody does.
        Err(NoRest::Failed) if !bends(model, members) => Err(NoRest::Stopped),
        Ok((changes, missed)) if missed <= OPEN && are_met(model, members, &changes) => {
            in_packs_of(model, members, changes, is_stopped)
        }
        _ => Ok(None),
    }
}

/// Whether the figures themselves are where they were asked for. A bound on a share is straightened with the whole as it was:
/// where little is left of the whole, a small miss of the straight line is a large one of the share.
fn are_met(model: &Model, members: &[Member], changes: &[f64]) -> bool {
    let amounts = model.amounts(changes);
    members.iter().all(|member| match member {
        Member::Target(idx) => {
            let target = &model.problem.targets[*idx];
            let figure = model.figure(target.of, &amounts);
            figure.is_some_and(|figure| target.missed_by(figure) <= SEEN * target.of.grain())
        }
        Member::Total | Member::Limit(_) | Member::Lock(_) | Member::Allowance(_) => true,
    })
}

/// Changes with which what some members ask for can be had in the whole packs that they ask for; `None` where it cannot.
fn in_packs_of(
    model: &Model,
    members: &[Member],
    changes: Vec<f64>,
    is_stopped: &dyn Fn() -> bool,
) -> Result<Option<Vec<f64>>, NoRest> {
    let is_asked = |limit: usize| members.contains(&Member::Limit(limit));
    if !limits_in_packs(model).any(|pack| is_asked(pack.limit)) {
        return Ok(Some(changes));
    }
    let descent = holding(model, None, members, is_stopped);
    let found =
        descent.run(Aim::Misses, &changes).and_then(|rest| in_those_packs(&descent, Aim::Misses, rest, is_asked));
    match found {
        Ok(rest) => Ok(Some(rest.changes)),
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => Ok(None),
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
            other if held.contains(&other) => Weight::Holds { up_to: OPEN },
            _ => Weight::Off,
        };
    }
    descent
}

/// What is left when one after the other is left out, as long as the rest cannot be had.
fn irreducible(
    order: &[Member],
    can_be_had: impl Fn(&[Member]) -> Result<Option<Vec<f64>>, NoRest>,
) -> Result<Vec<Member>, NoRest> {
    let mut left = order.to_vec();
    for member in order {
        let without: Vec<Member> = left.iter().copied().filter(|other| other != member).collect();
        if can_be_had(&without)?.is_none() {
            left = without;
        }
    }
    Ok(left)
}

/// The changes that come nearest to one member while others hold, sought from some, and by how much they miss it; from
/// where no way leads on, infinitely.
fn nearest_to(
    model: &Model,
    member: Member,
    others: &[Member],
    start: &[f64],
    is_stopped: &dyn Fn() -> bool,
) -> Result<(Vec<f64>, f64), NoRest> {
    let descent = holding(model, Some(member), others, is_stopped);
    let found = descent
        .run(Aim::Misses, start)
        .and_then(|rest| in_those_packs(&descent, Aim::Misses, rest, |limit| others.contains(&Member::Limit(limit))));
    match found {
        Ok(rest) => {
            let missed = missed_of(model, member, &rest.misses);
            Ok((rest.changes, missed))
        }
        Err(NoRest::Stopped) => Err(NoRest::Stopped),
        Err(NoRest::Impossible | NoRest::Failed) => Ok((start.to_vec(), f64::INFINITY)),
    }
}

/// Whether something that these members ask for is not linear in the amounts.
fn bends(model: &Model, members: &[Member]) -> bool {
    let mut rows = model.constraints.iter().enumerate();
    rows.any(|(row, constraint)| members.contains(&constraint.member) && !model.is_linear(row))
}

fn is_wish(model: &Model, member: Member) -> bool {
    model.constraints.iter().any(|constraint| constraint.member == member && model.is_wish(constraint))
}
