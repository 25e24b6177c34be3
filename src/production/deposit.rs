//! Deposits and coats: how many pieces a mass gives, and what a coat adds to them.

use super::frame::whole_number;
use super::losses::chain_yield;
use crate::recipe::TransferLoss;
use crate::units::{Grams, MassFraction};

/// The whole deposits that a mass gives: ⌊m·Π (1 − loss)/deposit⌋.
///
/// Source: balance of mass. `None` where a deposit weighs nothing, or there are more than can be counted.
/// Worked example, by hand: 3200 g, a loss of 3.5 % and deposits of 7.4 g are 417.297, so 417.
///
/// ```
/// # use nibwright::production::deposit::deposits_of;
/// # use nibwright::recipe::TransferLoss;
/// # use nibwright::units::Grams;
/// let loss = TransferLoss::from_percent(3.5).unwrap();
/// assert_eq!(deposits_of(Grams(3200.0), [loss], Grams(7.4)), Some(417));
/// ```
#[must_use]
pub fn deposits_of(mass: Grams, losses: impl IntoIterator<Item = TransferLoss>, deposit: Grams) -> Option<u32> {
    if deposit.0 > 0.0 { whole_number(mass.0 * chain_yield(losses).0 / deposit.0) } else { None }
}

/// A centre with its coat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoatedPiece {
    /// The whole piece.
    pub piece: Grams,
    /// The coat.
    pub coating: Grams,
}

/// A centre that is coated so that the coat is this share of the whole: m = m_centre/(1 − s), coating = s·m.
///
/// Source: balance of mass. `None` where the share leaves nothing for the centre.
/// Worked example, by hand: a centre of 6.328125 g with a quarter of coat is a piece of 8.4375 g with 2.109375 g of it.
///
/// ```
/// # use nibwright::production::deposit::coated;
/// # use nibwright::units::{Grams, MassFraction};
/// let piece = coated(Grams(6.328_125), MassFraction(0.25)).unwrap();
/// assert_eq!((piece.piece, piece.coating), (Grams(8.4375), Grams(2.109_375)));
/// ```
#[must_use]
pub fn coated(centre: Grams, coating: MassFraction) -> Option<CoatedPiece> {
    let piece = Grams(centre.0 / (1.0 - coating.0));
    (0.0..1.0).contains(&coating.0).then(|| CoatedPiece { piece, coating: piece * coating })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::production::mould::has_enough_chocolate;

    /// Worked example, by hand: exactly a quarter passes.
    #[test]
    fn a_coat_of_a_quarter_has_enough_chocolate() {
        let piece = coated(Grams(6.328_125), MassFraction(0.25)).expect("a piece");
        assert!(has_enough_chocolate(piece.coating / piece.piece));
        let thinner = coated(Grams(6.328_125), MassFraction(0.24)).expect("a piece");
        assert!(!has_enough_chocolate(thinner.coating / thinner.piece));
    }

    #[test]
    fn what_is_no_coat_or_no_deposit_gives_none() {
        assert_eq!(coated(Grams(5.0), MassFraction(1.0)), None);
        assert_eq!(coated(Grams(5.0), MassFraction(-0.1)), None);
        assert_eq!(coated(Grams(5.0), MassFraction(f64::NAN)), None);
        assert_eq!(deposits_of(Grams(100.0), [], Grams(0.0)), None);
        assert_eq!(deposits_of(Grams(100.0), [], Grams(f64::NAN)), None);
        assert_eq!(deposits_of(Grams(1e9), [], Grams(1e-9)), None);
    }

    /// By hand: 30 deposits of 1.1 g are 33 g, and 33/1.1 is a hair less than 30 in binary numbers. The last one is whole or none.
    #[test]
    fn only_whole_deposits_are_counted() {
        assert_eq!(deposits_of(Grams(33.0), [], Grams(1.1)), Some(30));
        assert_eq!(deposits_of(Grams(32.99), [], Grams(1.1)), Some(29));
        assert_eq!(deposits_of(Grams(0.5), [], Grams(1.1)), Some(0));
    }
}
