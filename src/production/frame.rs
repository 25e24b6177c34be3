//! A slab in a frame, and the pieces that are cut from it.
//!
//! The wire has no thickness here, and what is trimmed at the edges is lost. What sticks to the frame is a loss of its own.

use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres, Millimetres};

/// Cubic millimetres in a millilitre.
const CUBIC_MILLIMETRES: f64 = 1000.0;

/// Slack against binary noise where whole pieces are counted: 33 mm over 1.1 mm are 30 pieces. Far below what a rule shows.
const NOISE: f64 = 1e-12;

/// The inside of a frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// How long.
    pub length: Millimetres,
    /// How wide.
    pub width: Millimetres,
    /// How high it is filled.
    pub height: Millimetres,
}

/// How a slab is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// What is trimmed on every side.
    pub trim: Millimetres,
    /// From wire to wire along the length.
    pub along: Millimetres,
    /// From wire to wire across it.
    pub across: Millimetres,
}

/// The whole pieces of a slab.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pieces {
    /// Along the length.
    pub along: u32,
    /// Across it.
    pub across: u32,
    /// What one of them fills.
    pub volume: Millilitres,
    /// What of the slab is in none of them.
    pub cutting_loss: MassFraction,
}

impl Frame {
    /// What it holds: L·W·H/1000, in ml of mm³.
    ///
    /// Source: geometry. Worked example, by hand: 340 × 340 × 10 mm are 1156 ml.
    ///
    /// ```
    /// # use nibwright::production::frame::Frame;
    /// # use nibwright::units::{Grams, GramsPerMillilitre, Millilitres, Millimetres};
    /// let frame = Frame { length: Millimetres(340.0), width: Millimetres(340.0), height: Millimetres(10.0) };
    /// assert_eq!(frame.volume(), Millilitres(1156.0));
    /// assert_eq!(frame.volume() * GramsPerMillilitre(1.25), Grams(1445.0));
    /// ```
    #[must_use]
    pub fn volume(&self) -> Millilitres {
        Millilitres(self.length.0 * self.width.0 * self.height.0 / CUBIC_MILLIMETRES)
    }

    /// How high so much of a mass stands in it: H = m/(ρ·L·W/1000).
    ///
    /// Source: geometry. `None` where nothing of it has an area or the mass no density.
    /// Worked example, by hand: 2000 g of 1.24 g/ml stand 13.952 mm high in 340 × 340 mm.
    ///
    /// ```
    /// # use nibwright::production::frame::Frame;
    /// # use nibwright::units::{Grams, GramsPerMillilitre, Millimetres};
    /// let frame = Frame { length: Millimetres(340.0), width: Millimetres(340.0), height: Millimetres(10.0) };
    /// let height = frame.height_of(Grams(2000.0), GramsPerMillilitre(1.24)).unwrap();
    /// assert!((height.0 - 13.952).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn height_of(&self, mass: Grams, density: GramsPerMillilitre) -> Option<Millimetres> {
        let area = self.length.0 * self.width.0;
        let height = mass.0 * CUBIC_MILLIMETRES / (density.0 * area);
        (area > 0.0 && density.0 > 0.0).then_some(Millimetres(height))
    }

    /// The whole pieces that are cut from it.
    ///
    /// n = ⌊(L − 2·trim)/p⌋ along and the same across; loss = 1 − n·m·p·q/(L·W); a piece is p·q·H
    ///
    /// p and q from wire to wire. Source: geometry. `None` where not one whole piece comes of it, and where a measure is none.
    /// Worked example, by hand: 340 × 340 × 10 mm, trimmed by 5 mm and cut at 22.5 mm, are 14 × 14 pieces; 14.1652 % is cut off.
    ///
    /// ```
    /// # use nibwright::production::frame::{Cut, Frame};
    /// # use nibwright::units::Millimetres;
    /// let frame = Frame { length: Millimetres(340.0), width: Millimetres(340.0), height: Millimetres(10.0) };
    /// let cut = Cut { trim: Millimetres(5.0), along: Millimetres(22.5), across: Millimetres(22.5) };
    /// let pieces = frame.pieces(&cut).unwrap();
    /// assert_eq!((pieces.along, pieces.across, pieces.count()), (14, 14, 196));
    /// assert!((pieces.cutting_loss.to_percent() - 14.1652).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn pieces(&self, cut: &Cut) -> Option<Pieces> {
        let whole = |side: Millimetres, pitch: Millimetres| whole_number((side.0 - 2.0 * cut.trim.0) / pitch.0);
        let is_cut = cut.trim.0 >= 0.0 && self.height.0 > 0.0 && cut.along.0 > 0.0 && cut.across.0 > 0.0;
        let (along, across) = (whole(self.length, cut.along)?, whole(self.width, cut.across)?);
        if !is_cut || along == 0 || across == 0 {
            return None;
        }
        let face = cut.along.0 * cut.across.0;
        let used = f64::from(along) * f64::from(across) * face / (self.length.0 * self.width.0);
        Some(Pieces {
            along,
            across,
            volume: Millilitres(face * self.height.0 / CUBIC_MILLIMETRES),
            cutting_loss: MassFraction((1.0 - used).max(0.0)),
        })
    }
}

impl Pieces {
    /// How many there are.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.along.saturating_mul(self.across)
    }
}

/// A number rounded down, but for binary noise; `None` where it is no count.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "it is within the bounds of the type")]
pub(super) fn whole_number(value: f64) -> Option<u32> {
    let whole = (value * (1.0 + NOISE)).floor();
    (0.0..=f64::from(u32::MAX)).contains(&whole).then_some(whole as u32)
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;

    fn frame(length: f64, width: f64, height: f64) -> Frame {
        Frame { length: Millimetres(length), width: Millimetres(width), height: Millimetres(height) }
    }

    fn cut(trim: f64, along: f64, across: f64) -> Cut {
        Cut { trim: Millimetres(trim), along: Millimetres(along), across: Millimetres(across) }
    }

    /// Worked example, by hand: 22.5 × 22.5 × 10 mm of 1.25 g/ml.
    #[test]
    fn a_piece_has_a_mass() {
        let pieces = frame(340.0, 340.0, 10.0).pieces(&cut(5.0, 22.5, 22.5)).expect("there are pieces");
        assert_relative_eq!((pieces.volume * GramsPerMillilitre(1.25)).0, 6.328_125, max_relative = 1e-12);
    }

    #[test]
    fn a_slab_that_gives_no_whole_piece_gives_none() {
        assert_eq!(frame(20.0, 340.0, 10.0).pieces(&cut(0.0, 22.5, 22.5)), None);
        assert_eq!(frame(340.0, 340.0, 10.0).pieces(&cut(170.0, 22.5, 22.5)), None);
        assert_eq!(frame(340.0, 340.0, 10.0).pieces(&cut(200.0, 22.5, 22.5)), None);
        assert_eq!(frame(340.0, 340.0, 10.0).pieces(&cut(0.0, 0.0, 22.5)), None);
        assert_eq!(frame(340.0, 340.0, 0.0).pieces(&cut(0.0, 22.5, 22.5)), None);
        assert_eq!(frame(f64::NAN, 340.0, 10.0).pieces(&cut(0.0, 22.5, 22.5)), None);
        assert_eq!(frame(340.0, 340.0, 10.0).pieces(&cut(-5.0, 22.5, 22.5)), None);
    }

    /// By hand: three times 1.1 mm fit into 3.3 mm, and 3.3/1.1 is a hair less than 3 in binary numbers.
    #[test]
    fn pieces_that_just_fit_are_counted() {
        assert_eq!(frame(3.3, 33.0, 1.0).pieces(&cut(0.0, 1.1, 1.1)).map(|pieces| pieces.count()), Some(90));
        let exact = frame(340.0, 340.0, 10.0).pieces(&cut(0.0, 340.0, 340.0)).expect("one piece");
        assert_eq!((exact.count(), exact.cutting_loss), (1, MassFraction(0.0)));
    }

    #[test]
    fn without_an_area_or_a_density_nothing_has_a_height() {
        assert_eq!(frame(0.0, 340.0, 1.0).height_of(Grams(100.0), GramsPerMillilitre(1.2)), None);
        assert_eq!(frame(340.0, 340.0, 1.0).height_of(Grams(100.0), GramsPerMillilitre(0.0)), None);
    }

    proptest! {
        /// The pieces and what is cut off are the slab.
        #[test]
        fn volume_is_conserved(
            length in 100.0..600.0, width in 100.0..600.0, height in 1.0..40.0,
            trim in 0.0..20.0, along in 5.0..60.0, across in 5.0..60.0,
        ) {
            let frame = frame(length, width, height);
            let pieces = frame.pieces(&cut(trim, along, across)).expect("they fit");
            let in_pieces = pieces.volume.0 * f64::from(pieces.count());
            let all = in_pieces + frame.volume().0 * pieces.cutting_loss.0;
            prop_assert!((all - frame.volume().0).abs() < 1e-9 * frame.volume().0);
            prop_assert!(f64::from(pieces.along) * along <= length - 2.0 * trim + 1e-6);
        }
    }
}
