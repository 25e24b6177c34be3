//! Setting and storage in the text report: when the mass is set, how it lies afterwards.

use super::{Writer, heading, row_with_note, words, wrapped};
use crate::analysis::flow::flow;
use crate::analysis::migration::{WORTH_A_WORD, migration_of};
use crate::analysis::setting::workable::{NoWorkable, workable_at};
use crate::analysis::setting::{NoCrystals, SettingState, UNSEEDED};
use crate::analysis::texture::{contraction_of, dew_point_in_room, firmness, gets_wet, usual_crystals};
use crate::analysis::time_band::TimeBand;
use crate::analysis::{ROOM, is_below};
use crate::number::fixed;
use crate::recipe::Use;
use crate::units::{MassFraction, Minutes};

impl Writer<'_> {
    pub(super) fn setting(&self, out: &mut String) -> std::fmt::Result {
        let title = self.recipe.setting.map(|setting| {
            let piece = words::piece(setting.piece, self.sign);
            format!(": {piece}, {} at {}", setting.air.words(), self.celsius(setting.surroundings.celsius()))
        });
        heading(out, &format!("Setting{}", title.unwrap_or_default()))?;
        match &self.setting {
            Ok(state) => self.course(out, state)?,
            Err(why) => wrapped(out, "  ", &words::no_setting(why, self.sign))?,
        }
        self.workable(out)
    }

    fn course(&self, out: &mut String, state: &SettingState) -> std::fmt::Result {
        let row = |out: &mut String, name: &str, text: &str| wrapped(out, &format!("  {name:26} "), text);
        if state.begins_as_made() {
            let whence = match (state.setting.start, &self.analysis.seeding) {
                (Some(_), _) => "as the recipe says",
                (None, Some(_)) => "recommended temperature of seeding",
                (None, None) => "as a mass is usually poured",
            };
            row(out, words::begins(state), &format!("{}, {whence}", self.celsius(state.start)))?;
        }
        match state.set {
            Ok(band) => {
                row(out, "set, when seeded", &format!("{} in two of three cases", about(band)))?;
                row(out, "it sets", words::system(state.system))?;
            }
            Err(why) => row(out, "set", &format!("not told: {}", words::no_time(why, self.sign)))?,
        }
        if state.has_unseeded_times() {
            let (low, high) = UNSEEDED;
            let range = words::duration_range(low, high);
            row(
                out,
                "unseeded",
                &format!("{range} and not reliably in form V (common practice, no published source)"),
            )?;
        }
        if let Some(cooled) = state.cooled().filter(|_| state.begins_as_made()) {
            let after = words::duration(cooled);
            row(out, "as warm as around it", &format!("after about {after}, in the middle, to within a degree"))?;
        }
        if state.set.is_ok() {
            let solid = self.percent(Some(state.course.solid_at_end));
            row(
                out,
                "solid fat in the end",
                &format!("{solid} of the fat; it is called set at 90 % of the way to it"),
            )?;
            wrapped(
                out,
                "  ",
                "Fat goes on crystallising for a day and longer: cut and unmould by feel, and judge firmness and gloss the \
                 next day.",
            )?;
        }
        Ok(())
    }

    /// How long a bowl can be worked where it is seeded and at the temperature that was asked for, or why that is not told.
    fn workable(&self, out: &mut String) -> std::fmt::Result {
        let asked = self.analysis.at;
        let seeded = self.analysis.seeding.map_or(asked, |seeding| seeding.window.recommended);
        let of = |at| workable_at(self.recipe, self.analysis, at);
        // A reason that does not hang on the temperature stands once.
        let has_both = asked != seeded && (of(seeded) != of(asked) || of(asked).is_ok());
        for at in has_both.then_some(seeded).into_iter().chain([asked]) {
            let text = match of(at) {
                Err(NoWorkable::Crystals(NoCrystals::NotSeeded)) => continue,
                Err(why) => words::no_workable(why, self.sign),
                Ok(band) if band.typical() < Minutes(1.0) => "thickens at once".to_owned(),
                Ok(band) => format!("stays workable for {}: an order of magnitude", about(band)),
            };
            wrapped(out, &format!("  {:26} ", format!("the bowl held at {}", self.celsius(at))), &text)?;
        }
        Ok(())
    }

    pub(super) fn storage(&self, out: &mut String) -> std::fmt::Result {
        heading(out, "In the store, once it has set")?;
        if self.analysis.make_up.bowl.total().0 <= 0.0 {
            return row_with_note(out, words::not_known(self.analysis), "", "");
        }
        let storage = &self.recipe.storage;
        let (room, humidity) = (self.celsius(storage.room.celsius()), fixed(storage.humidity.percent(), 0, self.sign));
        let into = format!("then into a room of {room} with {humidity} % humidity");
        row_with_note(out, "stored at", &self.celsius(storage.at.celsius()), &into)?;
        let dew = if gets_wet(storage) {
            "pieces from the store get wet in that room: let them warm up closed"
        } else {
            "pieces from the store stay dry in that room"
        };
        row_with_note(out, "dew point of the room", &self.celsius(dew_point_in_room(storage)), dew)?;
        self.texture(out)?;
        self.migration(out)
    }

    fn texture(&self, out: &mut String) -> std::fmt::Result {
        let Ok(fat) = &self.analysis.fat else { return Ok(()) };
        row_with_note(out, "fat crystals", "of the fat", "of the mass")?;
        for firmness in firmness(fat, self.analysis.make_up.bowl.total()) {
            let name = format!("  at {}", self.celsius(firmness.at));
            let of_mass = format!("{:>11}", self.percent(Some(firmness.of_mass)));
            row_with_note(out, &name, &self.percent(Some(firmness.of_fat)), &of_mass)?;
        }
        if let Some(usual) = usual_crystals(self.recipe.kind, self.recipe.intended_use) {
            let intended_use = self.recipe.intended_use.map_or("", Use::words);
            let usual = format!(
                "for {intended_use}, {} of the mass at {} °C; common practice, no published source",
                words::usual_crystals(usual, self.sign),
                fixed(ROOM.0, 0, self.sign)
            );
            wrapped(out, &format!("  {:26} ", "usual crystals"), &usual)?;
        }
        let storage = &self.recipe.storage;
        let [store, room] = [storage.at, storage.room].map(|at| fat.blended.solid_fat(at.celsius()).total());
        let softens = format!("of the fat solid in the store, {} in the room", self.percent(Some(room)));
        row_with_note(out, "from store to room", &self.percent(Some(store)), &softens)?;
        if let Some(contraction) = contraction_of(self.analysis) {
            let length = self.percent(Some(MassFraction(contraction.length)));
            let volume = self.percent(Some(MassFraction(contraction.volume)));
            let of_both = format!("of length, {volume} of volume, at 20 °C against all liquid");
            row_with_note(out, "shrinks on setting by", &length, &of_both)?;
        }
        let Some(flow) = flow(self.analysis) else { return Ok(()) };
        let solids = self.percent(Some(MassFraction(flow.solids)));
        let thickness = flow.to_fat()[0].map_or_else(
            || "of the melted volume: so full of solids it does not flow".to_owned(),
            |times| {
                format!(
                    "of the melted volume: about {} times as thick as its fat",
                    words::times_as_thick(times, self.sign)
                )
            },
        );
        row_with_note(out, "solids fill", &solids, &thickness)
    }

    fn migration(&self, out: &mut String) -> std::fmt::Result {
        let (Some(migration), Some(shell)) = (migration_of(self.recipe, self.analysis), &self.recipe.storage.shell)
        else {
            return Ok(());
        };
        let thick = fixed(shell.thickness.millimetres(), 1, self.sign);
        row_with_note(out, "shell", &format!("{thick} mm"), &shell.chocolate.name)?;
        row_with_note(
            out,
            "liquid fat in the filling",
            &self.percent(Some(migration.liquid_in_filling)),
            "of its fat",
        )?;
        row_with_note(out, "liquid fat in the shell", &self.percent(Some(migration.liquid_in_shell)), "of its fat")?;
        if is_below(migration.difference().0, WORTH_A_WORD.0) {
            return Ok(());
        }
        let [likely, low, high] = migration.half_way_days;
        let (likely, range) = (words::days(likely), words::days_range(low, high));
        let half = format!("after about {likely}, from {range}: an order of magnitude");
        wrapped(out, &format!("  {:26} ", "half the oil is through"), &half)?;
        wrapped(out, "  ", &format!("{}.", words::softening(&migration, self.sign)))
    }
}

fn about(band: TimeBand) -> String {
    format!("{}, from {}", words::about(band.typical()), words::duration_range(band.low, band.high))
}
