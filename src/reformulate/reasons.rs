//! What moved each line, and by how much.

use super::answer::Pull;
use super::descent::{Aim, Rest};
use super::model::{Constraint, Member, Model};
use super::problem::{Change, Rule};
use super::tolerance::PULLS;
use crate::units::Grams;

/// What moved each amount.
///
/// At the least, 2·u = −Σ z·g for the changes u, with z the multiplier of a constraint and g its slope; so that −½·z·g·s is
/// the part of the move, in g, that a constraint takes, s being the span of the line. What has to stay equal whatever
/// happens (the total, locks, proportions) and what has come to its end at nought is projected out of every slope: the part
/// of a target then is what it moves within them, on a line that helps it also alone. What is left of a move is making room for
/// the others: the total's part.
///
/// Where few lines change, the slopes of the sizes stand in the place of 2·u: the same parts then tell the directions, and
/// are brought to the move as a whole.
pub(super) fn pulls(model: &Model, aim: Aim, rest: &Rest) -> Vec<Vec<Pull>> {
    /// What a scale cannot show is no pull, g.
    const LEAST: f64 = 5e-3;
    let amounts = model.amounts(&rest.changes);
    // What only misses least is not moved against a change; and where the way ended at a jump, nothing is known to pull.
    let pulls = |(constraint, pull): (&Constraint, &f64)| !constraint.is_equal_with_next && pull.abs() > PULLS;
    let is_pulled = model.constraints.iter().zip(&rest.pulls).any(pulls);
    if matches!(aim, Aim::Misses | Aim::Any) || rest.forces.is_empty() || !is_pulled {
        return vec![Vec::new(); amounts.len()];
    }
    let is_gone: Vec<bool> = amounts.iter().zip(&model.spans).map(|(amount, span)| *amount < GONE * span).collect();
    let equations: Vec<Vec<f64>> = model.equations().collect();
    let gone = (0..amounts.len()).filter(|&idx| is_gone[idx]).map(|idx| {
        let mut only = vec![0.0; amounts.len()];
        only[idx] = 1.0;
        only
    });
    let fixed = orthonormal(equations.iter().cloned());
    let fixed_and_gone = orthonormal(equations.iter().cloned().chain(gone));
    let within = |directions: &[Vec<f64>]| {
        let mut forces = rest.forces.clone();
        for force in &mut forces {
            project_out(force, directions);
        }
        forces
    };
    let (of_gone, of_others) = (within(&fixed), within(&fixed_and_gone));
    let is_spread = aim == Aim::Change(Change::Spread);
    (0..amounts.len())
        .map(|idx| {
            let forces = if is_gone[idx] { &of_gone } else { &of_others };
            let mut pulls: Vec<Pull> = Vec::new();
            for (constraint, force) in model.constraints.iter().zip(forces) {
                let by = Grams(-0.5 * force[idx] * model.spans[idx]);
                match pulls.iter_mut().find(|pull| pull.member == constraint.member) {
                    Some(pull) => pull.by += by,
                    None => pulls.push(Pull { member: constraint.member, by }),
                }
            }
            let moved = amounts[idx] - model.before[idx];
            let room_for = makes_room_for(model, idx);
            if let Some(room_for) = room_for {
                for pull in pulls.iter_mut().filter(|pull| matches!(pull.member, Member::Target(_))) {
                    if !helps(model, rest, idx, pull) {
                        pull.member = room_for;
                    }
                }
            }
            if !is_spread || is_gone[idx] || room_for.is_none() {
                let sum: f64 = pulls.iter().map(|pull| pull.by.0).sum();
                let factor = if sum.abs() > 0.0 { (moved / sum).max(0.0) } else { 0.0 };
                for pull in &mut pulls {
                    pull.by = pull.by * factor;
                }
            }
            let explained: f64 = pulls.iter().map(|pull| pull.by.0).sum();
            let room = Grams(moved - explained);
            match pulls.iter_mut().find(|pull| Some(pull.member) == room_for) {
                Some(pull) => pull.by += room,
                None => pulls.extend(room_for.map(|member| Pull { member, by: room })),
            }
            let pulls = together(pulls);
            let mut pulls: Vec<Pull> = pulls.into_iter().filter(|pull| pull.by.0.abs() > LEAST).collect();
            pulls.sort_by(|left, right| right.by.0.abs().total_cmp(&left.by.0.abs()));
            pulls
        })
        .collect()
}

/// The pulls of each member as one.
fn together(pulls: Vec<Pull>) -> Vec<Pull> {
    let mut all: Vec<Pull> = Vec::new();
    for pull in pulls {
        match all.iter_mut().find(|other| other.member == pull.member) {
            Some(other) => other.by += pull.by,
            None => all.push(pull),
        }
    }
    all
}

/// Whether more or less of a line alone, as it is pulled, brings a target nearer. Where the others have to make room for it,
/// sugar rises when fat has to fall: but it rises because the batch stays, and not for the fat.
fn helps(model: &Model, rest: &Rest, line: usize, pull: &Pull) -> bool {
    /// So much of what a pull is within the batch it has to be of the line alone (judged).
    const ALONE: f64 = 0.1;
    let of_member = model.constraints.iter().zip(&rest.forces).filter(|(row, _)| row.member == pull.member);
    let alone: f64 = of_member.map(|(_, force)| -0.5 * force[line] * model.spans[line]).sum();
    alone * pull.by.0 > 0.0 && alone.abs() >= ALONE * pull.by.0.abs()
}

/// What takes the part of a move that no target asked for: a pack or a proportion of the line, or else the total, by which a
/// line makes room for the others. `None` where the total is free: there no line makes room.
fn makes_room_for(model: &Model, line: usize) -> Option<Member> {
    let place = model.places[line];
    let of_line = model.problem.limits.iter().position(|limit| match limit.rule {
        Rule::InPacks(_) => limit.place == place,
        Rule::TimesOther { other, .. } => limit.place == place || other == place,
        Rule::Locked | Rule::AtLeast(_) | Rule::AtMost(_) => false,
    });
    of_line.map(Member::Limit).or(model.problem.keeps_total.then_some(Member::Total))
}

/// An amount below this share of its span has come to its end at nought.
const GONE: f64 = 1e-4;

/// Directions at right angles, each of length 1, that span the same as these (Gram and Schmidt).
fn orthonormal(slopes: impl Iterator<Item = Vec<f64>>) -> Vec<Vec<f64>> {
    /// What is left of a direction that others span already.
    const NOTHING: f64 = 1e-9;
    let mut directions: Vec<Vec<f64>> = Vec::new();
    for mut slope in slopes {
        let length = norm(&slope);
        project_out(&mut slope, &directions);
        let left = norm(&slope);
        if left > NOTHING * length {
            for part in &mut slope {
                *part /= left;
            }
            directions.push(slope);
        }
    }
    directions
}

fn project_out(slope: &mut [f64], directions: &[Vec<f64>]) {
    for direction in directions {
        let along: f64 = slope.iter().zip(direction).map(|(part, unit)| part * unit).sum();
        slope.iter_mut().zip(direction).for_each(|(part, unit)| *part -= along * unit);
    }
}

fn norm(slope: &[f64]) -> f64 {
    slope.iter().map(|part| part * part).sum::<f64>().sqrt()
}
