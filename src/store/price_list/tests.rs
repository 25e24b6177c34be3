use std::fs;

use proptest::prelude::*;
use proptest::sample::select;

use super::*;
use crate::production::date::Date;

fn list(text: &str) -> PriceList {
    read_price_list(text, Path::new("prices.csv")).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

fn check_refused(text: &str, sentence: &str) {
    let error = read_price_list(text, Path::new("prices.csv")).expect_err(text).to_string();
    assert_eq!(error, format!("prices.csv, {sentence}"), "{text}");
    assert!(error.contains("; ") && !error.contains('\n'), "{error}");
}

#[test]
fn a_list_is_read_as_the_program_writes_it() {
    let text = "ingredient,name,price,currency,per,unit,usable_percent,date\n\
                cream-35,\"Cream, 35 % fat\",4.1,EUR,1,kg,100,2026-03-31\n\
                own-jam,Jam,2.4,EUR,2.5,lb,98,\n";
    let read = list(text);
    let cream = read.price("cream-35").expect("a price");
    assert_eq!((cream.amount().to_string(), cream.currency().words()), ("4.1".to_owned(), "EUR"));
    assert_eq!(cream.date(), Some("2026-03-31".parse().expect("a day")));
    let jam = read.price("own-jam").expect("a price");
    assert_eq!((jam.per().to_string(), jam.unit()), ("2.5".to_owned(), MassUnit::Pound));
    assert_eq!((jam.usable_percent().to_string(), jam.date()), ("98".to_owned(), None));
    assert_eq!(write_price_list(&read), text);
}

#[test]
fn a_list_of_a_spreadsheet_is_read_as_well() {
    let dear = "\u{feff}Price;Supplier;Ingredient;Currency\r\n\r\n 4,10 ;Farm;CREAM-35;€\r\n12,5;;Dark couverture, 64 % cocoa;€\r\n;;;\r\n";
    let read = list(dear);
    assert_eq!(read.len(), 2);
    let cream = read.price("cream-35").expect("a price");
    assert_eq!(
        (cream.amount().to_string(), cream.per(), cream.unit()),
        ("4.1".to_owned(), Decimal::ONE, MassUnit::Kilogram)
    );
    assert_eq!(cream.usable_percent(), Decimal::ONE_HUNDRED);
    assert_eq!(read.price("couverture-dark-64").map(|price| price.amount().to_string()), Some("12.5".to_owned()));
    assert_eq!(list("ingredient\tprice\tcurrency\nrum-40\t18\tEUR\n").len(), 1);
}

#[test]
fn what_cannot_be_used_is_refused_with_line_and_column() {
    let head = "ingredient,price,currency,per,unit,usable_percent,date\n";
    check_refused("", "line 1: the list is empty; begin it with the names of its columns: ingredient, price, currency");
    check_refused(
        "cream-35,4.10,EUR\n",
        "line 1: no column is called ingredient; the first line names the columns, at least ingredient, price and currency",
    );
    check_refused(
        "ingredient,price,Price,currency\n",
        "line 1, column price: two columns are called price; keep one of them",
    );
    for (row, sentence) in [
        ("cream-35,,EUR", "column price: nothing stands here; fill the cell, or take the line out"),
        (",4.10,EUR", "column ingredient: nothing stands here; fill the cell, or take the line out"),
        (
            "cream-35,dear,EUR",
            "column price: \"dear\" is no number: \"d\" at position 1 does not belong in a number; type one such as 250, 12.5 or 3*125",
        ),
        ("cream-35,-1,EUR", "column price: a price of -1 cannot be; give one from 0 to 1000000000"),
        ("cream-35,4.10", "column currency: the currency is missing; write its word or sign, such as EUR"),
        (
            "cream-35,4.10,5 EUR",
            "column currency: \"5 EUR\" is no currency; write a word or sign of at most 12 characters, without digits",
        ),
        (
            "cream-35,4.10,EUR,0",
            "column per: a price for 0 cannot be; give the quantity that is bought, from 0.001 to 1000000000",
        ),
        ("cream-35,4.10,EUR,1.1234567", "column per: 1.1234567 has too many decimals; use at most 6"),
        ("cream-35,4.10,EUR,1,litre", "column unit: \"litre\" is no unit that is known here; use g, kg, oz or lb"),
        (
            "cream-35,4.10,EUR,1,kg,0",
            "column usable_percent: 0 % cannot be the usable part; give what is left after trimming, from 0.1 to 100",
        ),
        (
            "cream-35,4.10,EUR,1,kg,98,31.3.2026",
            "column date: \"31.3.2026\" is no day of the calendar; write year, month and day, as in 2026-03-31",
        ),
        (
            "cream-35,4,10,EUR",
            "column currency: \"10\" is no currency; write a word or sign of at most 12 characters, without digits",
        ),
    ] {
        check_refused(&format!("{head}rum-40,18,EUR\n{row}\n"), &format!("line 3, {sentence}"));
    }
    check_refused(
        &format!("{head}\n\n\"Farm cream, raw\",4,EUR\n"),
        "line 4, column ingredient: \"Farm cream, raw\" is no id of an ingredient and no name of a built-in one; write the id, such as cream-35",
    );
    check_refused(
        &format!("{head}cream-35,4,EUR\nrum-40,18,EUR\nCream-35,5,EUR\n"),
        "line 4, column ingredient: cream-35 has a price in line 2 already; keep one of them",
    );
    check_refused(
        &format!("{head}cream-35,4,EUR,1,kg,100,2026-03-31,more\n"),
        "line 2: \"more\" stands behind the last column; put a cell that holds the separator into quotation marks",
    );
}

fn entry(amount: i64, currency: &str) -> PriceEntry {
    let currency = Currency::new(currency).expect("a word");
    let price = Price::new(Decimal::new(amount, 2), currency, Decimal::ONE, MassUnit::Kilogram).expect("a price");
    PriceEntry { name: "Cream".to_owned(), price }
}

#[test]
fn a_price_is_written_beside_those_that_are_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("data/prices.csv");
    assert!(load_own_price_list(&path).expect("none yet").is_empty());
    change_price(&path, "cream-35", Some(entry(410, "EUR"))).expect("the folder is made");
    // A spreadsheet adds a line meanwhile.
    let text = fs::read_to_string(&path).expect("it is there") + "rum-40,,18,EUR\n";
    fs::write(&path, text).expect("it can be written");
    let now = change_price(&path, "cream-35", Some(entry(450, "EUR"))).expect("it can be written");
    assert_eq!(now.len(), 2);
    assert_eq!(now, load_price_list(&path).expect("it reads back"));
    let now = change_price(&path, "cream-35", None).expect("it can be written");
    assert_eq!(now.iter().map(|(id, _)| id).collect::<Vec<_>>(), ["rum-40"]);
}

#[test]
fn a_list_that_would_lose_something_is_not_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("prices.csv");
    for (text, words) in [
        ("ingredient,price,currency,supplier\ncream-35,4,EUR,Farm\n", "a column \"supplier\" of its own"),
        ("ingredient,price,currency\ncream-35,dear,EUR\n", "line 2, column price"),
    ] {
        fs::write(&path, text).expect("a file");
        let error = change_price(&path, "rum-40", Some(entry(1800, "EUR"))).expect_err(words).to_string();
        assert!(error.contains(words), "{error}");
        assert_eq!(fs::read_to_string(&path).expect("it is there"), text);
    }
}

fn price_lists() -> impl Strategy<Value = PriceList> {
    let figure = |most: i64| (1..=most, 0..=6_u32).prop_map(|(digits, scale)| Decimal::new(digits, scale));
    let day = proptest::option::of((1..=9999_u16, 1..=12_u8, 1..=28_u8));
    let price =
        (figure(999_999_999), "[A-Za-z€$]{1,12}", 1..=99_999_999_i64, select(&MassUnit::ALL[..]), 1..=1000_i64, day);
    let price = price.prop_map(|(amount, currency, per, unit, usable, day)| {
        let currency = Currency::new(&currency).expect("a word");
        let price = Price::new(amount, currency, Decimal::new(per, 3), unit).expect("a price");
        let price = price.usable(Decimal::new(usable, 1)).expect("a share");
        match day {
            Some((year, month, day)) => {
                price.dated(format!("{year:04}-{month:02}-{day:02}").parse::<Date>().expect("a day"))
            }
            None => price,
        }
    });
    // Names as ingredients have them: without control characters, and blanks around them are none of theirs.
    let name = any::<String>().prop_map(|name| plain_name(&name).trim().to_owned());
    let entry = (name, price).prop_map(|(name, price)| PriceEntry { name, price });
    proptest::collection::vec(("[a-z0-9]{1,6}(-[a-z0-9]{1,6}){0,2}", entry), 0..8).prop_map(|entries| {
        let mut list = PriceList::default();
        for (id, entry) in entries {
            list.put(id, entry);
        }
        list
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(256) })]

    #[test]
    fn what_is_written_is_read_back_the_same(written in price_lists()) {
        let text = write_price_list(&written);
        let read = read_price_list(&text, Path::new("prices.csv")).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(read, written, "{}", text);
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in any::<String>(), rows in "[a-z0-9,;\"\n\t .-]{0,80}") {
        let _ = read_price_list(&text, Path::new("prices.csv"));
        let _ = read_price_list(&format!("ingredient,price,currency,date\n{rows}"), Path::new("prices.csv"));
    }
}
