//! What can be off in a step, and what to do.
//!
//! Each sentence stands alone: it names no step that a plan may not have, and what it says of seed is true of the way.

use super::{OffWords, Writer, of_range};
use crate::analysis::plan::step::WhenOff;
use crate::analysis::survival::THERMOMETER_ERROR;
use crate::number::fixed;
use crate::recipe::SeedingWay;

impl Writer<'_> {
    pub(super) fn off(&self, off: WhenOff) -> OffWords {
        let window = &match off {
            WhenOff::TooWarm | WhenOff::NearLimit | WhenOff::TooCold => self.plan.checked(),
            WhenOff::Lumps | WhenOff::PiecesLeft | WhenOff::Thickens => self.plan.worked(),
            _ => self.plan.window,
        };
        let (best, most) = (self.celsius(window.recommended), self.celsius(window.max));
        let way = self.plan.choice.way;
        let is_kept = way == SeedingWay::KeepTempered;
        let (sign, remedy): (&str, String) = match off {
            WhenOff::EndsElsewhere => (
                "it ends at another temperature",
                "the bowl takes heat too: go on from what your thermometer shows, and warm or cool to the window."
                    .to_owned(),
            ),
            WhenOff::GrainsLeft => ("grains left", "keep it warm and stir until it is smooth; then go on.".to_owned()),
            WhenOff::Overheated => {
                ("hotter than that", "let it cool before you go on; burnt or lumpy chocolate is lost.".to_owned())
            }
            WhenOff::CrystalsLost => {
                ("got warmer", format!("its crystals are melting or gone: {}.", self.begin_again()))
            }
            WhenOff::Splits => (
                "fat at the edge, grainy",
                if is_kept {
                    let most = self.celsius(self.plan.fresh.unwrap_or(*window).max);
                    format!(
                        "stir in a little liquid of at most {most} from the middle; what stands under “Rescue” is warmer, and the \
                         crystals are gone by it."
                    )
                } else {
                    "stir in a little warm liquid from the middle at 35 to 40 °C; more under “Rescue”.".to_owned()
                },
            ),
            WhenOff::RoomTooWarm => (
                "the room is about as warm as the window",
                "stand the bowl in cold water and stir, or work in a cooler room.".to_owned(),
            ),
            WhenOff::ColdWall => {
                ("a skin at the wall", format!("scrape it in and stir; where lumps stay, {}.", self.begin_again()))
            }
            WhenOff::ColdEmulsion => (
                "the emulsion dulls while you stir",
                "do not stir it cold: let it cool at rest, and fold in gently what goes in.".to_owned(),
            ),
            WhenOff::TooWarm => (
                "too warm",
                match way {
                    SeedingWay::KeepTempered => {
                        format!("its crystals melt: cool it at once; if none are left, {}.", self.begin_again())
                    }
                    SeedingWay::ChoppedChocolate => {
                        "the crystals of the pieces melt: put in a few more, cold, and stir until some stay.".to_owned()
                    }
                    SeedingWay::Cream | SeedingWay::Grated => {
                        format!("wait. No seed above {most}: it would melt, and all of it is lost.")
                    }
                },
            ),
            WhenOff::NearLimit => (
                &format!("less than {} °C to where crystals melt", fixed(THERMOMETER_ERROR.0, 1, self.sign)),
                if is_kept {
                    "a thermometer cannot tell: let it cool by some tenths.".to_owned()
                } else {
                    format!("a thermometer cannot tell: let it cool to {best} first.")
                },
            ),
            WhenOff::TooCold => (
                "too cold",
                if is_kept {
                    format!("it lives, but it is thick: warm it by tenths towards {most}.")
                } else {
                    format!("warm it slowly to {best}. Where lumps have set, {}.", self.begin_again())
                },
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
            WhenOff::Lumps => {
                ("lumps or streaks", format!("warm it to at most {most} and stir; never strain the seed out."))
            }
            WhenOff::PiecesLeft => (
                "many pieces stay",
                format!("they were too many or the mass too cold: take them out at {best} and go on."),
            ),
            WhenOff::PiecesGone => (
                "all pieces gone early",
                "the mass was too warm: add a little more, cold, and stir until some stay.".to_owned(),
            ),
            WhenOff::Thickens => {
                ("it thickens", format!("warm it by tenths to at most {most}; warmer, and its crystals are gone."))
            }
            WhenOff::StripStaysSoft => (
                "the strip stays soft",
                match way {
                    SeedingWay::KeepTempered => {
                        format!("its crystals are gone: {}; see the test strip.", self.begin_again())
                    }
                    SeedingWay::ChoppedChocolate => {
                        "the crystals are gone or too few: put in some more cold pieces, and stir until some stay; see the test strip."
                            .to_owned()
                    }
                    SeedingWay::Cream | SeedingWay::Grated => {
                        "the crystals are gone or too few: cool it into the window and seed it again; see the test strip."
                            .to_owned()
                    }
                },
            ),
            WhenOff::StaysSoft => (
                "soft the next day",
                format!(
                    "{}, or there is too little cocoa butter: see the findings before the next batch.",
                    if is_kept { "it got so warm that its crystals melted" } else { "it was seeded too warm" }
                ),
            ),
            WhenOff::SetsDull => (
                "dull or streaked",
                if is_kept {
                    format!("it got too warm, or it was set too cold: {}.", self.begin_again())
                } else {
                    format!("too warm when seeded, too little seed, or set too cold: {}.", self.begin_again())
                },
            ),
        };
        OffWords { sign: sign.to_owned(), remedy }
    }

    /// Begin from the beginning, whatever the plan begins with.
    fn begin_again(&self) -> String {
        let (from, to) = self.plan.chocolate.melt_out();
        let then = if self.plan.choice.way == SeedingWay::KeepTempered {
            "seed it in one of the other ways"
        } else {
            "begin again"
        };
        format!("melt it out at {} to {} °C and {then}", of_range(from, self.sign), of_range(to, self.sign))
    }
}
