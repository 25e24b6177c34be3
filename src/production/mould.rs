//! A piece in a mould: how much of it is shell and how much filling, and what it may be called.
//!
//! Shell means shell and base together. Both are taken as set and without air.

use crate::analysis::is_below;
use crate::units::{Grams, GramsPerMillilitre, MassFraction, Millilitres};

/// Less chocolate than this around a filling must not be sold as a filled chocolate or a praline.
///
/// Codex CXS 87-1981, 2.2.2 and 2.2.3; Directive 2000/36/EC, Annex I A 7 and 10: at least a quarter of the total weight.
pub const LEAST_CHOCOLATE: MassFraction = MassFraction(0.25);

/// What a piece in a mould is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MouldedPiece {
    /// The whole piece.
    pub piece: Grams,
    /// Shell and base.
    pub shell: Grams,
    /// What is in it.
    pub filling: Grams,
}

/// Whether a piece with this share of shell carries enough chocolate for the names "filled chocolate" and "praline".
///
/// The shell alone is counted. A praline may also count chocolate that is mixed into it: whoever relies on that has to
/// work out its share (Directive 2000/36/EC, Annex I A 10).
#[must_use]
pub fn has_enough_chocolate(shell: MassFraction) -> bool {
    !is_below(shell.0, LEAST_CHOCOLATE.0)
}

impl MouldedPiece {
    /// The piece of a cavity.
    ///
    /// m = V/(s/ρ_shell + (1 − s)/ρ_filling), shell = s·m, filling = (1 − s)·m
    ///
    /// V volume of the cavity, s share of the shell by mass. Source: volumes add.
    /// `None` where a volume or a density is not above 0, or the share is none.
    /// Worked example, by hand: 10.2 ml, s = 0.35, 1.30 and 1.22 g/ml give a piece of 12.717925 g.
    ///
    /// ```
    /// # use nibwright::production::mould::MouldedPiece;
    /// # use nibwright::units::{GramsPerMillilitre, MassFraction, Millilitres};
    /// let (shell, filling) = (GramsPerMillilitre(1.30), GramsPerMillilitre(1.22));
    /// let piece = MouldedPiece::of_cavity(Millilitres(10.2), MassFraction(0.35), shell, filling).unwrap();
    /// assert!((piece.piece.0 - 12.717_925).abs() < 5e-7);
    /// assert!((piece.shell.0 - 4.451_274).abs() < 5e-7 && (piece.filling.0 - 8.266_651).abs() < 5e-7);
    /// ```
    #[must_use]
    pub fn of_cavity(
        cavity: Millilitres,
        shell_share: MassFraction,
        shell: GramsPerMillilitre,
        filling: GramsPerMillilitre,
    ) -> Option<Self> {
        if !(cavity.0 > 0.0 && shell.0 > 0.0 && filling.0 > 0.0) {
            return None;
        }
        let millilitres_per_gram = shell_share.0 / shell.0 + (1.0 - shell_share.0) / filling.0;
        Self::of_mass(Grams(cavity.0 / millilitres_per_gram), shell_share)
    }

    /// A piece of so much, with this share of shell; `None` where the share is none, or there is no mass.
    #[must_use]
    pub fn of_mass(piece: Grams, shell_share: MassFraction) -> Option<Self> {
        let is_piece = piece.0 > 0.0 && piece.0.is_finite() && (0.0..=1.0).contains(&shell_share.0);
        let shell = piece * shell_share;
        is_piece.then(|| Self { piece, shell, filling: piece - shell })
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;
    use crate::production::losses::input_for;
    use crate::recipe::TransferLoss;

    /// Worked example, by hand: six trays of 28 take 747.814 g of chocolate for their shells and 1388.797 g of filling, of which
    /// 1446.664 g have to be made where 4 % are lost.
    #[test]
    fn shells_and_fillings_of_six_trays() {
        let (shell, filling) = (GramsPerMillilitre(1.30), GramsPerMillilitre(1.22));
        let piece = MouldedPiece::of_cavity(Millilitres(10.2), MassFraction(0.35), shell, filling).expect("a piece");
        assert_relative_eq!(piece.shell.0 * 168.0, 747.814, max_relative = 1e-6);
        let fillings = piece.filling * 168.0;
        assert_relative_eq!(fillings.0, 1388.797, max_relative = 5e-7);
        let loss = TransferLoss::from_percent(4.0).expect("a loss");
        assert_relative_eq!(input_for(fillings, [loss]).0, 1446.664, max_relative = 5e-7);
    }

    /// Codex CXS 87-1981 and Directive 2000/36/EC: at least 25 %, and 25 % is enough.
    #[test]
    fn a_quarter_of_chocolate_is_enough_and_less_is_not() {
        assert!(has_enough_chocolate(MassFraction(0.25)) && has_enough_chocolate(MassFraction(0.35)));
        assert!(!has_enough_chocolate(MassFraction(0.2499)) && !has_enough_chocolate(MassFraction::ZERO));
        // A coat of a quarter, computed.
        assert!(has_enough_chocolate(Grams(2.109_375) / Grams(8.4375)));
    }

    #[test]
    fn what_is_no_piece_gives_none() {
        let of = |cavity, share, shell, filling| {
            let (shell, filling) = (GramsPerMillilitre(shell), GramsPerMillilitre(filling));
            MouldedPiece::of_cavity(Millilitres(cavity), MassFraction(share), shell, filling)
        };
        for (cavity, share, shell, filling) in [
            (0.0, 0.3, 1.3, 1.2),
            (10.0, -0.1, 1.3, 1.2),
            (10.0, 1.1, 1.3, 1.2),
            (10.0, 0.3, 0.0, 1.2),
            (10.0, 0.3, 1.3, -1.0),
            (f64::NAN, 0.3, 1.3, 1.2),
            (10.0, f64::NAN, 1.3, 1.2),
        ] {
            assert_eq!(of(cavity, share, shell, filling), None, "{cavity} {share} {shell} {filling}");
        }
        assert_eq!(of(10.0, 0.0, 1.3, 1.2).map(|piece| (piece.shell, piece.filling)), Some((Grams(0.0), Grams(12.0))));
        assert_eq!(of(10.0, 1.0, 1.3, 1.2).map(|piece| piece.filling), Some(Grams(0.0)));
    }

    proptest! {
        /// Shell and filling together fill the cavity.
        #[test]
        fn the_cavity_is_full(cavity in 1.0..200.0, share in 0.0..1.0, shell in 1.0..1.5, filling in 0.8..1.5) {
            let densities = (GramsPerMillilitre(shell), GramsPerMillilitre(filling));
            let piece = MouldedPiece::of_cavity(Millilitres(cavity), MassFraction(share), densities.0, densities.1);
            let piece = piece.expect("a piece");
            let volume = piece.shell / densities.0 + piece.filling / densities.1;
            prop_assert!((volume.0 - cavity).abs() < 1e-9 * cavity);
        }
    }
}
