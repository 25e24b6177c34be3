//! A time that is known within a band.

use crate::units::Minutes;

/// A time with its band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimeBand {
    /// The likely time; `None` where only the ends are known, as of a habit of the trade.
    pub likely: Option<Minutes>,
    /// The lower end.
    pub low: Minutes,
    /// The upper end.
    pub high: Minutes,
}

impl TimeBand {
    /// A time and what a factor either way makes of it.
    #[must_use]
    pub fn within_factor(likely: Minutes, factor: f64) -> Self {
        Self { likely: Some(likely), low: Minutes(likely.0 / factor), high: Minutes(likely.0 * factor) }
    }

    /// A time of which only the ends are known.
    #[must_use]
    pub fn between(low: Minutes, high: Minutes) -> Self {
        Self { likely: None, low, high }
    }

    /// The one time to go by: the likely one, else the middle of the band, as many times longer than one end as the other
    /// end is longer than it.
    ///
    /// ```
    /// use nibwright::analysis::time_band::TimeBand;
    /// use nibwright::units::Minutes;
    /// assert_eq!(TimeBand::within_factor(Minutes(90.0), 1.5).typical(), Minutes(90.0));
    /// assert_eq!(TimeBand::between(Minutes(2.0), Minutes(8.0)).typical(), Minutes(4.0));
    /// ```
    #[must_use]
    pub fn typical(self) -> Minutes {
        self.likely.unwrap_or(Minutes((self.low.0 * self.high.0).sqrt()))
    }
}
