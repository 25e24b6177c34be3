//! The groups in which results are shown: which there are, and what settings call them.

/// One group of results with its plot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Reading {
    /// What it is made of.
    #[default]
    MakeUp,
    /// Whether fat and water hold together.
    Emulsion,
    /// How active its water is, what holds it, and what that means for sugar and keeping.
    Water,
    /// How the fat sets, and where to seed.
    FatCrystals,
    /// How it cools and when it is firm, where the pieces lie afterwards.
    Setting,
    /// What a reformulation is to reach and what it proposes; it is there only while it is used.
    Targets,
}

impl Reading {
    /// All readings that are always there, in their order.
    pub const ALL: [Self; 5] = [Self::MakeUp, Self::Emulsion, Self::Water, Self::FatCrystals, Self::Setting];

    /// Its name in settings.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::MakeUp => "make_up",
            Self::Emulsion => "emulsion",
            Self::Water => "water",
            Self::FatCrystals => "fat_crystals",
            Self::Setting => "setting",
            Self::Targets => "targets",
        }
    }

    /// The reading with this key, of those that are always there.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|reading| reading.key() == key)
    }
}
