//! What can be off in a step, and what to do.

use super::{OffWords, Writer};
use crate::analysis::plan::step::WhenOff;

impl Writer<'_> {
    pub(super) fn off(&self, off: WhenOff) -> OffWords {
        let window = &self.plan.window;
        let (sign, remedy) = match off {
            WhenOff::EndsElsewhere => (
                "it ends at another temperature",
                "the bowl takes heat too: go on from what your thermometer shows, and warm or cool to the window."
                    .to_owned(),
            ),
            WhenOff::GrainsLeft => ("grains left", "keep it warm and stir until it is smooth; then go on.".to_owned()),
            WhenOff::Overheated => {
                ("hotter than that", "let it cool before you go on; burnt or lumpy chocolate is lost.".to_owned())
            }
            WhenOff::CrystalsLost => (
                "got warmer",
                "its crystals are melting or gone: melt it out and seed it in one of the other ways.".to_owned(),
            ),
            WhenOff::Splits => (
                "fat at the edge, grainy",
                "stir in a little warm liquid from the middle at 35 to 40 °C; more under “Rescue”.".to_owned(),
            ),
            WhenOff::RoomTooWarm => (
                "the room is about as warm as the window",
                "stand the bowl in cold water and stir, or work in a cooler room.".to_owned(),
            ),
            WhenOff::ColdWall => (
                "a skin at the wall",
                "scrape it in and stir; what does not melt into it is melted out again, all of it.".to_owned(),
            ),
            WhenOff::ColdEmulsion => (
                "the emulsion dulls while you stir",
                "do not stir it cold: let it cool at rest, and fold in gently what goes in.".to_owned(),
            ),
            WhenOff::TooWarm => (
                "too warm",
                if self.plan.seed.is_none() {
                    "its crystals melt: cool it at once; if none are left, melt it out and seed it.".to_owned()
                } else {
                    format!("wait. No seed above {}: it would melt, and all of it is lost.", self.celsius(window.max))
                },
            ),
            WhenOff::NearLimit => (
                "less than 0.3 °C below the upper end",
                format!("a thermometer cannot tell: let it cool to {} first.", self.celsius(window.recommended)),
            ),
            WhenOff::TooCold => (
                "too cold",
                format!(
                    "warm it slowly to {}. Where lumps have set, begin again from melting out.",
                    self.celsius(window.recommended)
                ),
            ),
            WhenOff::SeedMelted => (
                "the seed is clear",
                "it has melted and does nothing: start again with tempered cocoa butter.".to_owned(),
            ),
            WhenOff::SeedStiff => ("the seed is stiff", "warm it half a degree and stir it to a cream.".to_owned()),
            WhenOff::ChocolateNotKnown => (
                "no chocolate in the sheet",
                "put the chocolate that you chop into the sheet as seed, so that its fat is known.".to_owned(),
            ),
            WhenOff::Lumps => (
                "lumps or streaks",
                format!("warm it to at most {} and stir; never strain the seed out.", self.celsius(window.max)),
            ),
            WhenOff::PiecesLeft => (
                "many pieces stay",
                format!(
                    "they were too many or the mass too cold: take them out at {} and go on.",
                    self.celsius(window.recommended)
                ),
            ),
            WhenOff::PiecesGone => (
                "all pieces gone early",
                "the mass was too warm: add a little more, cold, and stir until some stay.".to_owned(),
            ),
            WhenOff::Thickens => (
                "it thickens",
                format!("warm it gently to at most {}; above, you begin again.", self.celsius(window.max)),
            ),
            WhenOff::StripStaysSoft => (
                "the strip stays soft",
                "the crystals are gone or too few: cool to the window and seed again; see the test strip.".to_owned(),
            ),
            WhenOff::StaysSoft => (
                "soft the next day",
                "it was seeded too warm, or there is too little cocoa butter: see the findings before the next batch."
                    .to_owned(),
            ),
            WhenOff::SetsDull => (
                "dull or streaked",
                "too warm when seeded, too little seed, or set too cold; melt out and begin again.".to_owned(),
            ),
        };
        OffWords { sign, remedy }
    }
}
