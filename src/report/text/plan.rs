//! The seeding plan on paper: numbered steps that another person can follow.

use std::fmt::Write as _;

use super::{Writer, heading, words, wrapped};
use crate::analysis::cooling::growth::System;
use crate::analysis::plan::seed::Seed;
use crate::analysis::plan::{Kept, Plan};
use crate::analysis::setting::system_of;
use crate::number::fixed;
use crate::recipe::SeedingWay;
use words::{plan, rescue};

/// Where the text of a step begins.
const INDENT: &str = "     ";

impl Writer<'_> {
    pub(super) fn plan(&self, out: &mut String) -> std::fmt::Result {
        let way = self.recipe.seeding.way.words();
        heading(out, &format!("Seeding plan: {way}"))?;
        let found = match &self.analysis.plan {
            Ok(found) => &found.clone().with_setting(self.setting.as_ref().ok()),
            Err(why) => return wrapped(out, "  ", &plan::no_plan(*why, self.analysis, self.sign)),
        };
        if let Some(seed) = &found.seed {
            self.seed(out, seed)?;
        }
        if let Some(kept) = &found.kept {
            self.kept(out, kept)?;
        }
        writeln!(out)?;
        self.steps(out, found)?;
        writeln!(out)?;
        test_strip(out, found.choice.way, system_of(self.recipe, self.analysis))?;
        if found.is_emulsion {
            writeln!(out)?;
            split(out, "  ")?;
        }
        Ok(())
    }

    fn seed(&self, out: &mut String, seed: &Seed) -> std::fmt::Result {
        let mut row = |name: &str, words: &str| wrapped(out, &format!("  {name:26} "), words);
        row("weigh", &plan::seed_amount(seed, self.sign))?;
        row("the mass comes to", &plan::after_mixing(seed, self.sign))?;
        if let Some(left) = plan::crystals_left(seed, self.sign) {
            row("crystals after mixing", &left)?;
        }
        if let Some(apart) = plan::crystals_apart(seed, self.sign) {
            row("crystals are", &apart)?;
        }
        if let Some(changes) = plan::changes(seed, self.sign) {
            row("it changes", &changes)?;
        }
        if seed.cream.is_some() {
            row("the seed itself", &plan::about_cream(seed, self.sign))?;
        }
        Ok(())
    }

    fn kept(&self, out: &mut String, kept: &Kept) -> std::fmt::Result {
        wrapped(out, &format!("  {:26} ", "its own crystals"), &plan::kept(kept, self.sign))?;
        for (at, crystals) in &kept.table {
            let crystals = format!("{} %", fixed(crystals.to_percent(), 1, self.sign));
            writeln!(out, "  {:26} {crystals:>10}   of the fat", format!("left at {}", self.celsius(*at)))?;
        }
        Ok(())
    }

    fn steps(&self, out: &mut String, found: &Plan) -> std::fmt::Result {
        for (place, step) in found.steps.iter().enumerate() {
            let step = plan::step(found, step, self.sign);
            let head = if step.figures.is_empty() {
                step.title.to_owned()
            } else {
                format!("{}: {}", step.title, step.figures)
            };
            wrapped(out, &format!("  {}. ", place + 1), &head)?;
            wrapped(out, INDENT, &step.what)?;
            wrapped(out, &format!("{INDENT}look: "), &step.look)?;
            for off in &step.when_off {
                wrapped(out, &format!("{INDENT}if "), &off.joined())?;
            }
        }
        Ok(())
    }
}

fn test_strip(out: &mut String, way: SeedingWay, system: System) -> std::fmt::Result {
    wrapped(out, "  Test strip: ", &rescue::how_to_test(system))?;
    for strip in crate::analysis::plan::rescue::TestStrip::ALL {
        let strip = rescue::test_strip(strip, way, system);
        wrapped(out, &format!("    {}: ", strip.looks), &format!("{} {}", strip.means, strip.remedy))?;
    }
    Ok(())
}

/// What helps a split emulsion.
pub(super) fn split(out: &mut String, indent: &str) -> std::fmt::Result {
    wrapped(out, &format!("{indent}Rescue, if it splits: "), rescue::REMEDIES_FROM)?;
    for sign in crate::analysis::plan::rescue::SplitSign::ALL {
        let (sign, remedy) = rescue::split(sign);
        wrapped(out, &format!("{indent}  "), &format!("{sign}. {remedy}"))?;
    }
    Ok(())
}
