//! The report that a person reads in a terminal: the readings one after the other, in plain columns.

use std::fmt::Write as _;

use super::words;
use crate::analysis::Analysis;
use crate::analysis::emulsion::{CLOSEST_PACKING, EmulsionState, JAMMING};
use crate::analysis::fat_crystals::FatCrystals;
use crate::analysis::parts::Group;
use crate::analysis::seeding::Window;
use crate::ingredient::Component;
use crate::number::{DecimalSign, fixed, grams};
use crate::recipe::{Recipe, Use};
use crate::units::{Celsius, Grams, MassFraction};

/// Temperatures at which the text report gives solid fat, beside the one that was asked for.
const SOLID_FAT_AT: [f64; 8] = [4.0, 15.0, 18.0, 20.0, 22.0, 25.0, 28.0, 32.0];

/// Widest ingredient name of a column.
const NAME_WIDTH: usize = 44;

/// The report of one recipe as text.
#[must_use]
pub fn report(recipe: &Recipe, analysis: &Analysis, sign: DecimalSign) -> String {
    let mut text = String::new();
    let writer = Writer { recipe, analysis, sign };
    // Writing to a String cannot fail.
    let _ = writer.write(&mut text);
    text
}

struct Writer<'a> {
    recipe: &'a Recipe,
    analysis: &'a Analysis,
    sign: DecimalSign,
}

impl Writer<'_> {
    fn write(&self, out: &mut String) -> std::fmt::Result {
        self.head(out)?;
        self.lines(out)?;
        self.make_up(out)?;
        self.emulsion(out)?;
        self.fat(out)?;
        self.findings(out)
    }

    fn head(&self, out: &mut String) -> std::fmt::Result {
        let recipe = self.recipe;
        let name = if recipe.name.is_empty() { "Unnamed recipe" } else { &recipe.name };
        let intended_use = recipe.intended_use.map(Use::words).map(|words| format!(" for {words}")).unwrap_or_default();
        writeln!(out, "{name}")?;
        writeln!(out, "{}{intended_use} · cocoa butter {}", recipe.kind.words(), recipe.cocoa_butter.words())
    }

    fn lines(&self, out: &mut String) -> std::fmt::Result {
        let make_up = &self.analysis.make_up;
        writeln!(out)?;
        for (line, brought) in self.recipe.lines.iter().zip(&make_up.lines) {
            let name = clipped(&line.ingredient.name);
            let amount = self.grams(line.amount.grams());
            let share = self.percent(Some(brought.share_of(make_up.weighed)));
            writeln!(out, "  {name:NAME_WIDTH$} {amount:>12} {share:>8}")?;
        }
        writeln!(out, "  {:NAME_WIDTH$} {:>12}", "together", self.grams(make_up.weighed))?;
        if make_up.evaporated.0 > 0.0 {
            writeln!(out, "  {:NAME_WIDTH$} {:>12}", "water that evaporates", self.grams(make_up.evaporated))?;
        }
        if self.recipe.losses.transfer.0 > 0.0 {
            let lost = make_up.bowl.total() - make_up.finished;
            writeln!(out, "  {:NAME_WIDTH$} {:>12}", "lost in bowls and bags", self.grams(lost))?;
        }
        writeln!(out, "  {:NAME_WIDTH$} {:>12}", "finished mass", self.grams(make_up.finished))
    }

    fn make_up(&self, out: &mut String) -> std::fmt::Result {
        let bowl = &self.analysis.make_up.bowl;
        heading(out, "Make-up, g per 100 g")?;
        for component in Component::ALL {
            let share = bowl.share(component);
            if share.is_none_or(|share| share.to_percent() >= 0.05) {
                writeln!(out, "  {:26} {:>10}", component.words(), self.percent(share))?;
            }
        }
        let unassigned = bowl.unassigned().filter(|_| bowl.total().0 > 0.0).map(|grams| grams / bowl.total());
        writeln!(out, "  {:26} {:>10}", "left open by data sheets", self.percent(unassigned))?;
        writeln!(out)?;
        for group in [
            Group::TotalFat,
            Group::Sugars,
            Group::OtherSolids,
            Group::MilkSolidsNonFat,
            Group::DryCocoaSolids,
            Group::SyrupSolids,
        ] {
            writeln!(out, "  {:26} {:>10}", group.words(), self.percent(bowl.group_share(group)))?;
        }
        Ok(())
    }

    fn emulsion(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Emulsion, hot")?;
        match self.analysis.emulsion {
            EmulsionState::Unknown => writeln!(out, "  not known: see the findings")?,
            EmulsionState::FatContinuous => writeln!(out, "  fat-continuous: no emulsion")?,
            EmulsionState::Emulsion(emulsion) => {
                let two = |value| fixed(value, 2, self.sign);
                let limits = format!("droplets jam at {}, may split at {}", two(JAMMING.0), two(CLOSEST_PACKING.0));
                writeln!(out, "  {:26} {:>10}   {limits}", "dispersed share", two(emulsion.dispersed_share().0))?;
                writeln!(out, "  {:26} {:>10}", "fat in fat and water phase", two(emulsion.fat_share().0))?;
                writeln!(out, "  {:26} {:>10}", "fat to water, by mass", two(emulsion.fat_to_water))?;
            }
        }
        for range in &self.analysis.usual {
            let share = self.percent(range.of.of(&self.analysis.make_up.bowl));
            let usual = words::usual_range(range, self.sign);
            writeln!(out, "  {:26} {share:>10}   usual {usual} ({})", range.of.words(), words::basis(range))?;
        }
        Ok(())
    }

    fn fat(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Fat crystals")?;
        let Some(fat) = &self.analysis.fat else { return writeln!(out, "  not known: see the findings") };
        let share = fat.blended.cocoa_butter_share();
        writeln!(out, "  {:26} {:>10}", "cocoa butter in the fat", self.percent(Some(share)))?;
        self.limits(out, fat)?;
        self.seeding(out)?;
        writeln!(out)?;
        let room = self.analysis.at;
        for celsius in SOLID_FAT_AT.into_iter().chain((!SOLID_FAT_AT.contains(&room.0)).then_some(room.0)) {
            let solid = fat.blended.solid_fat(Celsius(celsius));
            let label = format!("solid fat at {}", self.celsius(Celsius(celsius)));
            writeln!(
                out,
                "  {label:26} {:>10}   form V {}",
                self.percent(Some(solid.total())),
                self.percent(Some(solid.form_v))
            )?;
        }
        let uncertainty = fat
            .solid_fat_uncertainty_points
            .map_or("not known".to_owned(), |points| format!("±{} points", fixed(points, 1, self.sign)));
        writeln!(out, "  {:26} {uncertainty:>10}", "uncertainty of solid fat")?;
        let crystals = fat.crystals_of_mass(self.analysis.make_up.bowl.total());
        let label = format!("fat crystals at {}", self.celsius(room));
        writeln!(out, "  {label:26} {:>10}   of the mass", self.percent(Some(crystals)))
    }

    fn limits(&self, out: &mut String, fat: &FatCrystals) -> std::fmt::Result {
        let limits = [
            ("form IV limit", fat.limits.form_iv),
            ("form V limit", fat.limits.form_v),
            ("form VI limit", fat.limits.form_vi),
        ];
        for (name, limit) in limits {
            let value = limit.map_or("none".to_owned(), |limit| self.celsius(limit));
            let uncertainty = fat
                .limit_uncertainty
                .filter(|_| name == "form V limit")
                .map_or(String::new(), |kelvin| format!("   ±{} K", fixed(kelvin.0, 1, self.sign)));
            writeln!(out, "  {name:26} {value:>10}{uncertainty}")?;
        }
        Ok(())
    }

    fn seeding(&self, out: &mut String) -> std::fmt::Result {
        let Some(seeding) = &self.analysis.seeding else { return writeln!(out, "  {:26} {:>10}", "seeding", "none") };
        let window = |window: &Window| {
            format!(
                "{} to {}, best near {}",
                fixed(window.min.0, 1, self.sign),
                self.celsius(window.max),
                self.celsius(window.recommended)
            )
        };
        writeln!(out, "  {:26} {}", "seeding window", window(&seeding.window))?;
        if let Some(unmixed) = &seeding.unmixed {
            writeln!(out, "  {:26} {}", "while globules are whole", window(unmixed))?;
        }
        let percent = |share: MassFraction| format!("{} %", fixed(share.to_percent(), 2, self.sign));
        writeln!(
            out,
            "  {:26} {:>10}   {} of the mass",
            "seed by trade habit",
            self.grams(seeding.seed),
            percent(seeding.habit.share)
        )?;
        if let Some(dose) = seeding.equal_time {
            let seed = self.analysis.make_up.bowl.total() * dose.share;
            writeln!(
                out,
                "  {:26} {:>10}   {} of the mass",
                "seed for equal time",
                self.grams(seed),
                percent(dose.share)
            )?;
        }
        Ok(())
    }

    fn findings(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Findings")?;
        for finding in &self.analysis.findings {
            let words = words::finding(finding, self.sign);
            writeln!(out, "  {}: {}", words::level(finding.level), words.title)?;
            if !words.detail.is_empty() {
                writeln!(out, "      {}", words.detail)?;
            }
        }
        writeln!(out)?;
        writeln!(
            out,
            "All figures are calculated. Measure and try before you rely on them; local food codes and licensed practice decide."
        )
    }

    fn grams(&self, value: Grams) -> String {
        format!("{} g", grams(value.0, self.sign))
    }

    fn percent(&self, share: Option<MassFraction>) -> String {
        share.map_or("not known".to_owned(), |share| format!("{} %", fixed(share.to_percent(), 1, self.sign)))
    }

    fn celsius(&self, celsius: Celsius) -> String {
        format!("{} °C", fixed(celsius.0, 1, self.sign))
    }
}

fn heading(out: &mut String, title: &str) -> std::fmt::Result {
    writeln!(out)?;
    writeln!(out, "{title}")
}

/// The name, cut with an ellipsis where it is too long for its column.
fn clipped(name: &str) -> String {
    if name.chars().count() <= NAME_WIDTH {
        return name.to_owned();
    }
    name.chars().take(NAME_WIDTH - 1).chain(['…']).collect()
}
