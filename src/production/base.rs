//! Amounts in percent of one of them, as bakers write theirs: the base is 100.
//!
//! In ganache the base is the chocolate (common practice, no published source). These are not percent of the mass, and
//! are easily mixed up with them: whoever shows them names the base.

use crate::units::{Grams, MassFraction};

/// Every amount as a share of the base; `None` where the base weighs nothing.
///
/// By hand: of 44.8 parts of dark chocolate, 33.3 of cream, 6.1 of invert sugar, 5.4 of glucose syrup, 8.2 of butter, 0.3 of
/// salt and 1.9 of vanilla, with the chocolate as 100: 100, 74.33, 13.62, 12.05, 18.30, 0.67, 4.24.
///
/// ```
/// # use nibwright::{production::base::relative_to, units::Grams};
/// let amounts = [44.8, 33.3, 6.1, 5.4, 8.2, 0.3, 1.9].map(Grams);
/// let relative = relative_to(&amounts, Grams(44.8)).unwrap();
/// for (share, percent) in relative.iter().zip([100.0, 74.33, 13.62, 12.05, 18.30, 0.67, 4.24]) {
///     assert!((share.to_percent() - percent).abs() < 0.005);
/// }
/// ```
#[must_use]
pub fn relative_to(amounts: &[Grams], base: Grams) -> Option<Vec<MassFraction>> {
    (base.0 > 0.0).then(|| amounts.iter().map(|amount| *amount / base).collect())
}
