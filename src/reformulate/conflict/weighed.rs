//! What can be had of what contradicts, on the steps of the scale: who asks for that gets it.

use super::Contradicting;
use crate::reformulate::descent::{Aim, Descent, NoRest, Weight};
use crate::reformulate::model::{Member, Model};
use crate::reformulate::problem::Rule;
use crate::reformulate::steps::on_the_scale;
use crate::reformulate::target::Target;

impl Contradicting {
    /// The nearest amounts on the steps of the scale with which the others hold; `None` where none are found.
    pub(in crate::reformulate) fn weighed(
        &self,
        model: &Model,
        is_stopped: &dyn Fn() -> bool,
    ) -> Result<Option<Vec<f64>>, NoRest> {
        /// What missing the member costs for each grain.
        const PRICE: f64 = 1.0;
        // What comes in packs is weighed in whole ones whoever gives them up.
        if let Member::Limit(limit) = self.member
            && matches!(model.problem.limits[limit].rule, Rule::InPacks(_))
        {
            return Ok(None);
        }
        let mut descent = Descent::new(model, is_stopped);
        for (weight, constraint) in descent.weights.iter_mut().zip(&model.constraints) {
            *weight = match constraint.member {
                _ if constraint.is_given => continue,
                member if member == self.member => Weight::Costs(PRICE),
                member if self.others.contains(&member) => continue,
                _ => Weight::Off,
            };
        }
        let rest = descent.stay(model.changes(&self.amounts));
        let weighable = match rest.and_then(|rest| on_the_scale(&descent, Aim::Misses, rest)) {
            Err(NoRest::Stopped) => return Err(NoRest::Stopped),
            Err(NoRest::Impossible | NoRest::Failed) => return Ok(None),
            Ok(weighable) => weighable,
        };
        let amounts = &weighable.amounts;
        let is_met = |target: &Target| model.figure(target.of, amounts).is_some_and(|figure| target.is_met_by(figure));
        let holds = self.others.iter().all(|member| match member {
            Member::Target(idx) => is_met(&model.problem.targets[*idx]),
            Member::Total | Member::Limit(_) | Member::Lock(_) | Member::Allowance(_) => true,
        });
        Ok((weighable.holds && holds).then_some(weighable.amounts))
    }
}
