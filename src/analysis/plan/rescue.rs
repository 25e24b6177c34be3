//! Proof and rescue: how a test strip is read, and what helps a split emulsion.
//!
//! Data only; the words are in `report::words`. All of it is advice at the bench, no figure is computed from it.

/// What a test strip does: a knife's tip of the mass on paper, in the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TestStrip {
    /// It is set to the touch soon, even and with a sheen.
    Sets,
    /// It is set, but dull.
    Matt,
    /// It is set with streaks or grey marbling.
    Streaked,
    /// It is still soft after a long wait.
    Soft,
    /// It is set at once and the mass in the bowl is thick.
    AtOnce,
}

impl TestStrip {
    /// All of them, the wanted one first.
    pub const ALL: [Self; 5] = [Self::Sets, Self::Matt, Self::Streaked, Self::Soft, Self::AtOnce];
}

/// How a split ganache shows itself, by its cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SplitSign {
    /// Too little water phase.
    TooLittleWater,
    /// It got cold while it was mixed.
    CooledWhileMixing,
    /// It was too hot.
    TooHot,
    /// There is too much fat.
    TooMuchFat,
    /// It is still split after all of that.
    StillSplit,
    /// It thickens and sweats later.
    SweatsLater,
    /// It is grainy when cold.
    GrainyWhenCold,
}

impl SplitSign {
    /// All of them, in the order in which they are tried.
    pub const ALL: [Self; 7] = [
        Self::TooLittleWater,
        Self::CooledWhileMixing,
        Self::TooHot,
        Self::TooMuchFat,
        Self::StillSplit,
        Self::SweatsLater,
        Self::GrainyWhenCold,
    ];
}
