//! The report that a person reads in a terminal: the readings one after the other, in plain columns.

use std::fmt::Write as _;

mod batch;
mod cost;
mod mixing;
mod plan;
pub mod reformulation;
mod setting;
mod water;
mod weighing;

use super::words;
use crate::analysis::Analysis;
use crate::analysis::emulsion::{CLOSEST_PACKING, Emulsion, EmulsionState, FatToWater, HOT, JAMMING};
use crate::analysis::fat_crystals::FatCrystals;
use crate::analysis::seeding::Window;
use crate::analysis::setting::{self as setting_model, NoSetting, SettingState};
use crate::analysis::usual::Place;
use crate::number::{DecimalSign, fixed};
use crate::production::cost::Cost;
use crate::production::selling::Selling;
use crate::recipe::{Recipe, Use};
use crate::units::{Celsius, MassFraction, Millilitres};

pub use weighing::weighing_list;

/// Widest line.
const WIDTH: usize = 100;

/// Temperatures at which the text report gives solid fat, beside the one that was asked for.
const SOLID_FAT_AT: [f64; 8] = [4.0, 15.0, 18.0, 20.0, 22.0, 25.0, 28.0, 32.0];

/// Widest ingredient name of a column.
const NAME_WIDTH: usize = 44;

/// The report of one recipe as text.
#[must_use]
pub fn report(recipe: &Recipe, analysis: &Analysis, sign: DecimalSign) -> String {
    with_cost(recipe, analysis, None, sign)
}

/// The report of one recipe with what its ingredients cost and, if that is asked for, at what it is sold.
#[must_use]
pub fn with_cost(
    recipe: &Recipe,
    analysis: &Analysis,
    priced: Option<(&Cost, Option<Selling>)>,
    sign: DecimalSign,
) -> String {
    let mut text = String::new();
    let (cost, selling) = priced.map_or((None, None), |(cost, selling)| (Some(cost), selling));
    let writer = Writer { recipe, analysis, setting: setting_model::setting(recipe, analysis), cost, selling, sign };
    // Writing to a String cannot fail.
    let _ = writer.write(&mut text);
    text
}

struct Writer<'a> {
    recipe: &'a Recipe,
    analysis: &'a Analysis,
    /// It costs milliseconds: computed once.
    setting: Result<SettingState, NoSetting>,
    /// What the ingredients cost, where prices are given.
    cost: Option<&'a Cost>,
    selling: Option<Selling>,
    sign: DecimalSign,
}

impl Writer<'_> {
    fn write(&self, out: &mut String) -> std::fmt::Result {
        self.head(out)?;
        self.lines(out)?;
        self.make_up(out)?;
        self.brought(out)?;
        self.cost(out)?;
        self.phase_bar(out)?;
        self.emulsion(out)?;
        self.water(out)?;
        self.fat(out)?;
        self.plan(out)?;
        self.mixing(out)?;
        self.setting(out)?;
        self.storage(out)?;
        self.findings(out)
    }

    fn head(&self, out: &mut String) -> std::fmt::Result {
        let recipe = self.recipe;
        let name = if recipe.name.is_empty() { "Unnamed recipe" } else { &recipe.name };
        let intended_use = recipe.intended_use.map(Use::words).map(|words| format!(" for {words}")).unwrap_or_default();
        writeln!(out, "{name}")?;
        writeln!(out, "{}{intended_use} · cocoa butter {}", recipe.kind.words(), recipe.cocoa_butter.words())
    }

    fn emulsion(&self, out: &mut String) -> std::fmt::Result {
        heading(out, &format!("Emulsion, hot ({} °C)", fixed(HOT.0, 0, self.sign)))?;
        match self.analysis.emulsion {
            EmulsionState::Unknown => writeln!(out, "  {}", words::not_known(self.analysis))?,
            EmulsionState::FatContinuous => writeln!(out, "  fat-continuous: no emulsion")?,
            EmulsionState::Dry => writeln!(out, "  dry and without fat: no emulsion")?,
            EmulsionState::Emulsion(emulsion) => self.phases(out, &emulsion)?,
        }
        self.usual(out)
    }

    fn phases(&self, out: &mut String, emulsion: &Emulsion) -> std::fmt::Result {
        let two = |value| fixed(value, 2, self.sign);
        let limits = format!("droplets jam at {}, may split at {}", two(JAMMING.0), two(CLOSEST_PACKING.0));
        writeln!(out, "  {:26} {:>10}   {limits}", "dispersed share", two(emulsion.dispersed_share().0))?;
        writeln!(out, "  {:26} {:>10}", "fat in fat and water phase", two(emulsion.fat_share().0))?;
        let ratio = emulsion.fat_to_water;
        let place = FatToWater::of(ratio, self.recipe.kind)
            .map_or("a rule for ganache, not for this kind of mass", words::fat_to_water);
        row_with_note(out, "fat to water, by mass", &two(ratio), place)?;
        for (name, volume, what) in [
            ("volume of the fat", emulsion.fat, ""),
            ("volume of the water phase", emulsion.water_phase, "water, what is dissolved in it, milk protein"),
            (
                "volume of the particles",
                emulsion.insoluble,
                "dry cocoa, other protein, starch, fibre, undissolved sugar",
            ),
        ] {
            /// From this whole volume on tenths of millilitres say nothing.
            const LARGE: Millilitres = Millilitres(100.0);
            let decimals = u32::from(emulsion.total() < LARGE);
            row_with_note(out, name, &format!("{} ml", fixed(volume.0, decimals, self.sign)), what)?;
        }
        Ok(())
    }

    /// What is usual for the use; where a row rests on a published figure, the foot says on which.
    fn usual(&self, out: &mut String) -> std::fmt::Result {
        let Some(first) = self.analysis.usual.first() else { return Ok(()) };
        heading(out, &format!("Usual for {}", first.column.words()))?;
        let mut published: Vec<&str> = Vec::new();
        let bowl = &self.analysis.make_up.bowl;
        for range in self.analysis.usual.iter().filter(|range| range.concerns(bowl)) {
            let share = range.of.of(bowl);
            let place = match share.map(|share| range.place(share)) {
                Some(Place::Low) => "low",
                Some(Place::High) => "high",
                Some(Place::Within) | None => "",
            };
            let foot = range.published.map_or(String::new(), |basis| {
                let known = published.iter().position(|other| *other == basis);
                let idx = known.unwrap_or_else(|| {
                    published.push(basis);
                    published.len() - 1
                });
                format!("[{}]", idx + 1)
            });
            let row = format!(
                "  {:26} {:>10}   {place:4}   usual {:13} {foot}",
                range.of.words(),
                self.percent(share),
                words::usual_range(range, self.sign)
            );
            writeln!(out, "{}", row.trim_end())?;
        }
        writeln!(out, "  where no number stands: common practice, no published source")?;
        for (idx, basis) in published.iter().enumerate() {
            wrapped(out, &format!("  [{}] ", idx + 1), basis)?;
        }
        Ok(())
    }

    fn phase_bar(&self, out: &mut String) -> std::fmt::Result {
        heading(out, &format!("The mass at {}, g per 100 g", self.celsius(self.analysis.at)))?;
        let Some(bar) = &self.analysis.phase_bar else {
            return writeln!(out, "  {}", words::not_known(self.analysis));
        };
        let (syrup, sugar) =
            if bar.is_dry { ("water and alcohol", "dry sugar") } else { ("syrup", "undissolved sugar") };
        for (name, share) in [
            ("fat crystals", bar.fat_crystals),
            ("liquid fat", bar.liquid_fat),
            (syrup, bar.syrup),
            (sugar, bar.undissolved_sugar),
            ("cocoa particles", bar.cocoa_particles),
            ("other particles", bar.other_particles),
        ] {
            writeln!(out, "  {name:26} {:>10}", self.percent(Some(share)))?;
        }
        Ok(())
    }

    fn fat(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Fat crystals")?;
        let fat = match &self.analysis.fat {
            Ok(fat) => fat,
            Err(why) => return writeln!(out, "  {}", words::no_fat_crystals(*why, self.analysis)),
        };
        let share = fat.blended.cocoa_butter_share();
        writeln!(out, "  {:26} {:>10}", "cocoa butter in the fat", self.percent(Some(share)))?;
        let milk_fat = fat.grams.milk_fat / fat.grams.total();
        writeln!(out, "  {:26} {:>10}", "milk fat in the fat", self.percent(Some(milk_fat)))?;
        let other_fat = MassFraction((1.0 - share.0 - milk_fat.0).max(0.0));
        writeln!(out, "  {:26} {:>10}", "other fat in the fat", self.percent(Some(other_fat)))?;
        self.limits(out, fat)?;
        self.seeding(out)?;
        writeln!(out)?;
        self.solid_fat(out, fat)?;
        let crystals = fat.crystals_of_mass(self.analysis.make_up.bowl.total());
        let label = format!("fat crystals at {}", self.celsius(self.analysis.at));
        writeln!(out, "  {label:26} {:>10}   of the mass", self.percent(Some(crystals)))
    }

    fn solid_fat(&self, out: &mut String, fat: &FatCrystals) -> std::fmt::Result {
        let mut temperatures: Vec<Celsius> = SOLID_FAT_AT.map(Celsius).to_vec();
        let at = self.analysis.at;
        let place = temperatures.partition_point(|&celsius| celsius < at);
        if temperatures.get(place) != Some(&at) {
            temperatures.insert(place, at);
        }
        writeln!(out, "  {:26} {:>10} {:>10}", "solid fat, % of the fat", "all", "form V")?;
        for celsius in temperatures {
            let solid = fat.blended.solid_fat(celsius);
            let uncertainty = fat
                .solid_fat_uncertainty_points_at(celsius)
                .map_or("± not known".to_owned(), |points| format!("±{} points", fixed(points, 1, self.sign)));
            writeln!(
                out,
                "  {:26} {:>10} {:>10}   {uncertainty}",
                format!("at {}", self.celsius(celsius)),
                self.percent(Some(solid.total())),
                self.percent(Some(solid.form_v))
            )?;
        }
        Ok(())
    }

    fn limits(&self, out: &mut String, fat: &FatCrystals) -> std::fmt::Result {
        for (name, limit, uncertainty) in [
            ("form IV limit", fat.limits.form_iv, fat.form_iv_limit_uncertainty),
            ("form V limit", fat.limits.form_v, fat.limit_uncertainty),
            ("form VI limit", fat.limits.form_vi, fat.form_vi_limit_uncertainty),
        ] {
            let value = limit.map_or("none".to_owned(), |limit| self.celsius(limit));
            let uncertainty =
                uncertainty.map_or(String::new(), |kelvin| format!("±{} K", fixed(kelvin.0, 1, self.sign)));
            row_with_note(out, name, &value, &uncertainty)?;
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
        if let Some(unmixed) = &seeding.second_window() {
            writeln!(out, "  {:26} {}", "while globules are whole", window(unmixed))?;
        }
        let dose = words::dose_range(seeding, seeding.bowl, self.sign);
        wrapped(out, &format!("  {:26} ", "seed for the bowl"), &dose)?;
        let crystals = fixed(seeding.crystals.to_percent(), 2, self.sign);
        writeln!(out, "  {:26} {crystals:>8} %   of the fat", "crystals by habit")
    }

    fn findings(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "Findings")?;
        // A plan has what helps a split emulsion; without one it stands here, once.
        let mut has_rescue = self.analysis.plan.as_ref().is_ok_and(|plan| plan.is_emulsion);
        for finding in &self.analysis.findings {
            let words = words::finding(finding, self.sign);
            wrapped(out, &format!("  {}: ", words::level(finding.level)), &words.title)?;
            if !words.detail.is_empty() {
                wrapped(out, "      ", &words.detail)?;
            }
            if finding.announces_split() && !has_rescue {
                plan::split(out, "      ")?;
                has_rescue = true;
            }
        }
        writeln!(out)?;
        wrapped(
            out,
            "",
            "All figures are calculated. Measure and try before you rely on them; local food codes and licensed \
             practice decide.",
        )
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

/// A row with what is to be said of its figure, if there is anything.
fn row_with_note(out: &mut String, name: &str, value: &str, note: &str) -> std::fmt::Result {
    writeln!(out, "{}", format!("  {name:26} {value:>10}   {note}").trim_end())
}

/// A text broken at blanks so that no line is wider than [`WIDTH`], behind a prefix and under it.
fn wrapped(out: &mut String, prefix: &str, text: &str) -> std::fmt::Result {
    let indent = prefix.chars().count();
    let mut line = String::from(prefix);
    let mut is_begun = false;
    for word in words_with_units(text) {
        if is_begun && line.chars().count() + 1 + word.chars().count() > WIDTH {
            writeln!(out, "{line}")?;
            line = " ".repeat(indent);
            is_begun = false;
        }
        if is_begun {
            line.push(' ');
        }
        line.push_str(&word);
        is_begun = true;
    }
    writeln!(out, "{line}")
}

/// The words of a text, with a unit kept at its number. Blanks between groups of digits do not break anyway.
fn words_with_units(text: &str) -> Vec<String> {
    const UNITS: [&str; 8] = ["%", "°C", "g", "K", "ml", "mm", "min", "h"];
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let is_unit = UNITS.contains(&word.trim_end_matches([',', '.', ':', ';', ')']));
        match words.last_mut() {
            Some(number) if is_unit => {
                number.push(' ');
                number.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// The name, cut with an ellipsis where it is too long for its column.
fn clipped(name: &str, width: usize) -> String {
    if name.chars().count() <= width {
        return name.to_owned();
    }
    name.chars().take(width - 1).chain(['…']).collect()
}
