use std::sync::Arc;

use proptest::prelude::*;

use super::super::price::Price;
use super::super::price_list::PriceEntry;
use super::*;
use crate::analysis::make_up::make_up;
use crate::ingredient::{Component, Composition, Ingredient};
use crate::number::parse_decimal;
use crate::recipe::{Evaporation, Heating, MassUnit, Quantity, TransferLoss};

fn decimal(text: &str) -> Decimal {
    parse_decimal(text).expect("a number")
}

/// A recipe of ingredients of water that are called a, b, c, …
fn recipe(grams: &[f64]) -> Recipe {
    let mut recipe = Recipe::default();
    for (id, grams) in ('a'..='z').zip(grams) {
        let composition = Composition::new([(Component::Water, 100.0)], [], 0.0).expect("it closes");
        let id = id.to_string();
        let ingredient = Ingredient { composition, ..Ingredient::unknown(&id, &id) };
        recipe.push(Arc::new(ingredient), Quantity::from_grams(*grams).expect("an amount"));
    }
    recipe
}

/// Prices for 1 kg by id: amount, currency, usable percent.
fn prices(entries: &[(&str, &str, &str, &str)]) -> PriceList {
    let mut list = PriceList::default();
    for (id, amount, currency, usable) in entries {
        let currency = Currency::new(currency).expect("a word");
        let price = Price::new(decimal(amount), currency, Decimal::ONE, MassUnit::Kilogram)
            .and_then(|price| price.usable(decimal(usable)))
            .expect("a price");
        list.put(*id, PriceEntry { name: String::new(), price });
    }
    list
}

const FOUR: [(&str, &str, &str, &str); 4] = [
    ("a", "11.20", "EUR", "100"),
    ("b", "4.10", "EUR", "100"),
    ("c", "2.40", "EUR", "98"),
    ("d", "9.60", "EUR", "100"),
];

fn cost_of(recipe: &Recipe, prices: &PriceList) -> Cost {
    cost(recipe, &make_up(recipe), prices)
}

/// Common production arithmetic, by hand: 5.60 + 1.23 + 0.146939 + 0.384 = 7.360939; 93 % of 900 g are 837 g, and
/// 7.360939/0.837 = 8.794431.
#[test]
fn a_batch_its_kilogram_of_good_output_and_its_piece() {
    let mut recipe = recipe(&[500.0, 300.0, 60.0, 40.0]);
    recipe.losses.transfer = TransferLoss::from_percent(7.0).expect("below 100 %");
    recipe.pieces = Some(70);
    let cost = cost_of(&recipe, &prices(&FOUR));
    let lines: Vec<String> = cost
        .lines
        .iter()
        .map(|line| line.cost.as_ref().expect("a price").round_dp(6).normalize().to_string())
        .collect();
    assert_eq!(lines, ["5.6", "1.23", "0.146939", "0.384"]);
    let totals = cost.totals().expect("every line has a price");
    let six = |money: Option<Decimal>| money.map(|money| money.round_dp(6));
    assert_eq!(totals.batch.round_dp(6), decimal("7.360939"));
    assert_eq!(six(totals.per_kilogram), Some(decimal("8.794431")));
    // 7.360939/70.
    assert_eq!(six(totals.per_piece), Some(decimal("0.105156")));
    assert_eq!(cost.currency.as_ref().map(Currency::words), Some("EUR"));
}

/// 18 g of water less: the same money for 882 g.
#[test]
fn what_evaporates_makes_the_kilogram_dearer() {
    let mut recipe = recipe(&[500.0, 300.0, 60.0, 40.0]);
    recipe.losses.evaporation = Evaporation::Weighed(Quantity::from_grams(18.0).expect("an amount"));
    let totals = cost_of(&recipe, &prices(&FOUR)).totals().expect("every line has a price");
    assert_eq!(totals.per_kilogram.map(|money| money.round_dp(6)), Some(decimal("8.345736")));
    assert_eq!(totals.per_piece, None, "nobody said how many pieces it makes");
}

#[test]
fn a_line_without_a_price_leaves_the_cost_unknown_and_the_rest_is_the_least() {
    let recipe = recipe(&[500.0, 300.0, 60.0, 40.0]);
    let cost = cost_of(&recipe, &prices(&FOUR[..2]));
    assert_eq!(cost.totals(), None);
    assert_eq!(cost.at_least().map(|totals| totals.batch), Some(decimal("6.83")));
    let missing: Vec<(LineId, &NoCost)> = cost.without_price().collect();
    assert_eq!(missing, [(LineId(2), &NoCost::NoPrice), (LineId(3), &NoCost::NoPrice)]);
    let none = cost_of(&recipe, &PriceList::default());
    assert_eq!((none.totals(), none.at_least(), none.without_price().count()), (None, None, 4));
}

#[test]
fn money_of_two_kinds_is_not_added_up() {
    let recipe = recipe(&[500.0, 300.0]);
    let cost = cost_of(&recipe, &prices(&[FOUR[0], ("b", "4.10", "CHF", "100")]));
    assert_eq!(cost.at_least().map(|totals| totals.batch), Some(decimal("5.6")));
    let francs = Currency::new("CHF").expect("a word");
    assert_eq!(cost.without_price().collect::<Vec<_>>(), [(LineId(1), &NoCost::OtherCurrency(francs))]);
    assert_eq!(cost.totals(), None);
}

#[test]
fn a_line_that_weighs_nothing_needs_no_price_and_nothing_costs_nothing_known() {
    let cost = cost_of(&recipe(&[500.0, 0.0]), &prices(&FOUR[..1]));
    assert_eq!(cost.totals().map(|totals| totals.batch), Some(decimal("5.6")));
    let empty = cost_of(&recipe(&[]), &prices(&FOUR));
    assert_eq!((empty.totals(), empty.at_least()), (None, None));
}

#[test]
fn a_finished_mass_that_is_not_known_leaves_the_kilogram_unknown() {
    let mut recipe = recipe(&[500.0]);
    recipe.push(Arc::new(Ingredient::unknown("b", "b")), Quantity::from_grams(10.0).expect("an amount"));
    recipe.losses.evaporation = Evaporation::Estimated(Heating::Boiled);
    let totals = cost_of(&recipe, &prices(&FOUR)).totals().expect("every line has a price");
    assert_eq!((totals.batch.round_dp(6), totals.per_kilogram), (decimal("5.641"), None));
}

#[test]
fn the_oldest_price_that_counts_is_told() {
    let day = |text: &str| text.parse::<Date>().expect("a day");
    let mut list = prices(&FOUR);
    for (id, text) in [("a", "2026-03-31"), ("b", "2025-11-02"), ("d", "2020-01-01")] {
        let PriceEntry { name, price } = list.remove(id).expect("it is there");
        list.put(id, PriceEntry { name, price: price.dated(day(text)) });
    }
    assert_eq!(cost_of(&recipe(&[500.0, 300.0, 60.0]), &list).oldest, Some(day("2025-11-02")));
    assert_eq!(cost_of(&recipe(&[500.0]), &prices(&FOUR)).oldest, None);
}

/// Money has 28 digits, and division is all that is rounded.
const ROUNDING: f64 = 1e-9;

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// Twice the batch costs twice as much, a kilogram of it the same, and the order of the lines does not matter.
    #[test]
    fn cost_is_in_proportion_to_what_is_weighed(grams in proptest::collection::vec(0.01..50_000.0, 1..8)) {
        use rust_decimal::prelude::ToPrimitive as _;
        let mut entries = Vec::new();
        let ids: Vec<String> = ('a'..='h').map(String::from).collect();
        for (id, amount) in ids.iter().zip(["11.2", "4.1", "2.4", "9.6", "0.01", "250", "3", "7.77"]) {
            entries.push((id.as_str(), amount, "EUR", "97.5"));
        }
        let list = prices(&entries);
        let of = |recipe: &Recipe| {
            let totals = cost_of(recipe, &list).totals().expect("every line has a price");
            let number = |money: Decimal| money.to_f64().expect("a number");
            (number(totals.batch), totals.per_kilogram.map(number).expect("it weighs something"))
        };
        let one = recipe(&grams);
        let double = recipe(&grams.iter().map(|grams| 2.0 * grams).collect::<Vec<_>>());
        let mut reversed = one.clone();
        reversed.lines.reverse();
        let ((batch, kilogram), (twice, same), (other, _)) = (of(&one), of(&double), of(&reversed));
        prop_assert!((2.0 * batch - twice).abs() <= ROUNDING * twice, "{batch} {twice}");
        prop_assert!((kilogram - same).abs() <= ROUNDING * same, "{kilogram} {same}");
        prop_assert!((batch - other).abs() <= ROUNDING * batch, "{batch} {other}");
    }
}
