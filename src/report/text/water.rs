//! Water in the text report: how active it is, where it is, what each line does.

use super::{Writer, clipped, heading, row_with_note, words};
use crate::analysis::remedy::Names;
use crate::analysis::water::sorption::Sorbent;
use crate::analysis::water::state::{DRY, OUTSIDE, ROOM, STORE, Supersaturation, Water, WaterState};
use crate::number::fixed;
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
        let band = format!("{} to {}; measure it (ISO 18787)", two(water.low().0), two(water.high().0));
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
        self.effects(out, water)
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
