//! What a piece costs: its filling, its shell or coat, and what else goes into it.

use rust_decimal::Decimal;

use super::cost::{Cost, Totals, cost};
use super::day::Work;
use super::mould::MouldedPiece;
use super::price::{Currency, Price};
use super::price_list::PriceList;
use super::scaling::Made;
use crate::number::to_decimal;
use crate::units::Grams;

/// What the work on a batch costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkCost {
    /// The ingredients of the batch, as it is scaled.
    pub ingredients: Cost,
    /// A kilogram of what is left behind all losses; `None` where a price or the mass is not known.
    pub per_kilogram: Option<Decimal>,
    /// A kilogram at least: without the lines that have no price; `None` where no line has one, or the mass is not known.
    pub per_kilogram_at_least: Option<Decimal>,
    /// A piece with no more than that of its filling; `None` as [`WorkCost::per_kilogram_at_least`].
    pub piece_at_least: Option<PieceCost>,
    /// A piece; `None` where no pieces are made, or where the filling has no known cost.
    pub piece: Option<PieceCost>,
}

/// What a piece costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceCost {
    /// In which money.
    pub currency: Currency,
    /// Its filling or centre.
    pub filling: Decimal,
    /// Its shell or coat, nothing for a piece without one; `None` where that has no price, or one in other money.
    pub shell: Option<Decimal>,
    /// What else goes into it: packaging, work, a share of the rent.
    pub besides: Decimal,
}

impl PieceCost {
    /// All of it; `None` where the shell has no price.
    #[must_use]
    pub fn total(&self) -> Option<Decimal> {
        self.filling.checked_add(self.shell?)?.checked_add(self.besides)
    }
}

/// What the work on a batch costs, with the price list's price of the ingredient of the shells.
///
/// kilogram = batch / output;   piece = centre · kilogram + coating · price / usable share + besides
///
/// Source: common production arithmetic; the output is what is left behind all losses. Nothing is rounded.
#[must_use]
pub fn work_cost(work: &Work, prices: &PriceList, shell: Option<&str>, besides: Decimal) -> WorkCost {
    let batch = &work.batch;
    let ingredients = cost(&batch.recipe, &batch.analysis.make_up, prices);
    let per_kilogram_of = |totals: Option<Totals>| {
        let kilograms = to_decimal(batch.output()?.0)?.checked_div(Decimal::ONE_THOUSAND)?;
        totals?.batch.checked_div(kilograms)
    };
    let per_kilogram = per_kilogram_of(ingredients.totals());
    let per_kilogram_at_least = per_kilogram_of(ingredients.at_least());
    let piece = batch.made.as_ref().and_then(Made::piece);
    let shell = shell.and_then(|id| prices.price(id));
    let piece_of = |per_kilogram: Option<Decimal>| {
        piece_cost(&piece?, per_kilogram?, ingredients.currency.as_ref()?, shell, besides)
    };
    let (piece, piece_at_least) = (piece_of(per_kilogram), piece_of(per_kilogram_at_least));
    WorkCost { ingredients, per_kilogram, per_kilogram_at_least, piece_at_least, piece }
}

fn piece_cost(
    piece: &MouldedPiece,
    per_kilogram: Decimal,
    currency: &Currency,
    shell: Option<&Price>,
    besides: Decimal,
) -> Option<PieceCost> {
    let filling = to_decimal(piece.filling.0)?.checked_mul(per_kilogram)?.checked_div(Decimal::ONE_THOUSAND)?;
    let shell = if piece.shell > Grams::ZERO {
        shell.filter(|price| price.currency() == currency).and_then(|price| price.of(piece.shell))
    } else {
        Some(Decimal::ZERO)
    };
    Some(PieceCost { currency: currency.clone(), filling, shell, besides })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::parse_decimal;
    use crate::recipe::MassUnit;

    fn decimal(text: &str) -> Decimal {
        parse_decimal(text).expect("a number")
    }

    /// Worked example, common production arithmetic: a centre of 6.328125 g at 8.794431 a kilogram and a coat of 2.109375 g
    /// at 11.20 a kilogram, 95 % usable: 0.055652 + 0.024868 = 0.080521; with 0.035 for packaging and 0.12 for work 0.235521.
    #[test]
    fn a_coated_piece() {
        let euro = Currency::new("EUR").expect("a currency");
        let price = Price::new(decimal("11.20"), euro.clone(), decimal("1"), MassUnit::Kilogram).expect("a price");
        let price = price.usable(decimal("95")).expect("a share");
        let piece = MouldedPiece { piece: Grams(8.4375), filling: Grams(6.328_125), shell: Grams(2.109_375) };
        let besides = decimal("0.155");
        let cost = piece_cost(&piece, decimal("8.794431"), &euro, Some(&price), besides).expect("it is known");
        assert_eq!(cost.filling.round_dp(6), decimal("0.055652"));
        assert_eq!(cost.shell.map(|shell| shell.round_dp(6)), Some(decimal("0.024868")));
        assert_eq!(cost.total().map(|total| total.round_dp(6)), Some(decimal("0.235521")));
        let without = piece_cost(&piece, decimal("8.794431"), &euro, None, besides).expect("the filling is known");
        assert_eq!((without.shell, without.total()), (None, None));
    }
}
