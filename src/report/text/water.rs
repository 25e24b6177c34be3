//! Water in the text report: how active it is, where it is, what each line does.

use super::{Writer, clipped, heading, row_with_note, words};
use crate::analysis::remedy::Names;
use crate::analysis::water::activity::Equation;
use crate::analysis::water::boiling::Stage;
use crate::analysis::water::keeping::{GROWTH_LIMITS, Handling, LOW_ACID_LIMIT};
use crate::analysis::water::sorption::Sorbent;
use crate::analysis::water::state::{DRY, OUTSIDE, ROOM, STORE, Supersaturation, Water, WaterState};
use crate::number::{fixed, shortest, with_sign};
use crate::recipe::Ph;
use crate::units::Grams;

impl Writer<'_> {
    pub(super) fn water(&self, out: &mut String) -> std::fmt::Result {
        heading(out, &format!("Water, at {} °C", fixed(ROOM.0, 0, self.sign)))?;
        let below = |limit: f64| format!("below {}", fixed(limit, 1, self.sign));
        match &self.analysis.water {
            WaterState::Unknown => row_with_note(out, words::not_known(self.analysis), "", ""),
            WaterState::NoWater => row_with_note(out, "there is no water", "", ""),
            WaterState::Dry { is_held: true } => row_with_note(out, "water activity", &below(DRY.0), ""),
            WaterState::Dry { is_held: false } => row_with_note(out, "water activity", "not known", ""),
            WaterState::Wet(water) => self.wet(out, water),
        }
    }

    fn wet(&self, out: &mut String, water: &Water) -> std::fmt::Result {
        let two = |value: f64| fixed(value, 2, self.sign);
        let activity = water.rest.activity;
        let shown = if water.is_without_solutes() {
            format!("over {}", two(water.low().0))
        } else if activity < OUTSIDE {
            format!("~{}", fixed(activity.0, 1, self.sign))
        } else {
            two(activity.0)
        };
        let band = format!("{} to {}; measure it (ISO 18787)", two(water.low().0), two(water.judged().0));
        row_with_note(out, "water activity", &shown, &band)?;
        if let Some(clear) = water.clear.filter(|_| self.recipe.is_cooked()) {
            row_with_note(out, "while all sugar is dissolved", &two(clear.0), "cooked clear, before it grains")?;
        }
        let grams = |grams: Grams| format!("{} g", fixed(grams.0, 1, self.sign));
        row_with_note(out, "water in the syrup", &grams(water.rest.syrup_water), "only this dissolves sugar")?;
        for sort in Sorbent::ALL {
            let held = water.rest.held[sort as usize];
            if held.0 >= 0.05 {
                row_with_note(out, &format!("water on {}", sort.words()), &grams(held), "")?;
            }
        }
        if water.contents.sucrose.0 > 0.0 {
            row_with_note(out, "sucrose dissolved", &grams(water.rest.dissolved_sucrose), "")?;
            row_with_note(out, "sucrose undissolved", &grams(water.rest.undissolved_sucrose), "")?;
        }
        self.saturation(out, "sucrose, times solubility", water, |saturation| saturation.sucrose)?;
        self.saturation(out, "lactose, times solubility", water, |saturation| saturation.lactose)?;
        if let Some(solids) = water.dissolved_solids() {
            row_with_note(
                out,
                "dissolved solids of the syrup",
                &format!("{} %", fixed(solids.to_percent(), 1, self.sign)),
                "",
            )?;
        }
        self.effects(out, water)?;
        self.keeping(out, water)?;
        self.equations(out, water)?;
        self.stages(out)
    }

    /// Where the upper edge of the band stands against limits of growth and two food codes.
    fn keeping(&self, out: &mut String, water: &Water) -> std::fmt::Result {
        let high = water.judged();
        let ph = self.recipe.ph.map(Ph::value);
        let acidity = ph.map_or_else(|| "pH not known".to_owned(), |ph| format!("pH {}", shortest(ph, 2, self.sign)));
        let edge = format!("upper edge of the band, {}; {acidity}", fixed(high.0, 2, self.sign));
        row_with_note(out, "keeping", "", &edge)?;
        for limit in &GROWTH_LIMITS {
            let name = format!("  {} {}", fixed(limit.activity.0, 2, self.sign), limit.label);
            row_with_note(out, &with_sign(&name, self.sign), "", words::growth_verdict(high, limit))?;
        }
        let low_acid = format!("  {} US, sealed packs", fixed(LOW_ACID_LIMIT.0, 2, self.sign));
        row_with_note(out, &low_acid, "", words::low_acid_verdict(high))?;
        for (name, handling) in
            [("  US Food Code, open (B)", Handling::Open), ("  US Food Code, packed (A)", Handling::HeatedAndPackaged)]
        {
            row_with_note(out, name, "", words::food_code_verdict(handling, high, ph))?;
        }
        row_with_note(out, "  Listeria, (EC) 2073/2005", "", words::listeria_verdict(high, ph))
    }

    /// The same syrup by other equations, for class.
    fn equations(&self, out: &mut String, water: &Water) -> std::fmt::Result {
        row_with_note(out, "by other equations, for class", "", "the same solubility and water on the solids")?;
        for equation in Equation::ALL.into_iter().filter(|equation| *equation != Equation::Norrish) {
            let found = water.contents.activity_by(equation, ROOM);
            let shown = found.map_or_else(|| "–".to_owned(), |activity| fixed(activity.0, 3, self.sign));
            row_with_note(out, &format!("  {}", equation.words()), &shown, "")?;
        }
        Ok(())
    }

    /// The stages of cooked sugar, where the mass is cooked.
    fn stages(&self, out: &mut String) -> std::fmt::Result {
        if !self.recipe.is_cooked() {
            return Ok(());
        }
        let height = self.recipe.losses.evaporation.height();
        row_with_note(out, "stages of cooked sugar", "", "temperature; sucrose of a syrup of sugar and water")?;
        for stage in Stage::ALL {
            let words = words::stage(stage, height, self.sign);
            row_with_note(out, &format!("  {}", stage.name), "", &words.joined())?;
        }
        Ok(())
    }

    fn saturation(
        &self,
        out: &mut String,
        name: &str,
        water: &Water,
        of: impl Fn(&Supersaturation) -> Option<f64>,
    ) -> std::fmt::Result {
        let (Some(room), Some(store)) = (of(&water.at_room), of(&water.in_store)) else { return Ok(()) };
        if room <= 0.0 {
            return Ok(());
        }
        let store = format!("{} at {} °C", fixed(store, 2, self.sign), fixed(STORE.0, 0, self.sign));
        row_with_note(out, name, &fixed(room, 2, self.sign), &store)
    }

    /// What more of each line does, the strongest first.
    fn effects(&self, out: &mut String, water: &Water) -> std::fmt::Result {
        let Some(first) = water.effects.first() else { return Ok(()) };
        let more = format!("for {} g more of it", fixed(first.more.0, 0, self.sign));
        row_with_note(out, "change of water activity", "", &more)?;
        let mut effects = water.effects.clone();
        effects.sort_by(|left, right| right.change.abs().total_cmp(&left.change.abs()));
        let names = Names::of(self.recipe);
        for effect in effects {
            let Some(line) = self.recipe.line(effect.line) else { continue };
            let change = words::change(effect.change, self.sign);
            row_with_note(out, &format!("  {}", clipped(&names.name_of(line), 24)), &change, "")?;
        }
        Ok(())
    }
}
