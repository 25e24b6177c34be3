//! Cases as data: a text and what it means, a number and how it is written.

use proptest::prelude::*;

use super::*;

const GROUPED: &str = "12\u{202f}345.7";

#[test]
fn numbers_are_rounded_half_away_from_zero_on_their_decimal_digits() {
    // The first three are the check values of the program's rounding convention; 33/1.1 is one of its floors.
    for (value, decimals, expected) in [
        (2.5, 0, 3.0),
        (0.25, 1, 0.3),
        (1.005, 2, 1.01),
        (33.0 / 1.1, 10, 30.0),
        (-2.5, 0, -3.0),
        (0.5, 0, 1.0),
        (0.49, 0, 0.0),
        (-0.4, 0, 0.0),
        (9.995, 2, 10.0),
        (99.95, 1, 100.0),
        (0.1 + 0.2, 15, 0.3),
        (1_234_567.005, 2, 1_234_567.01),
        (1e300, 2, 1e300),
        (f64::MAX, 20, f64::MAX),
        (f64::MIN_POSITIVE, 20, 0.0),
        (5e-20, 19, 1e-19),
        (0.000_000_001_49, 9, 0.000_000_001),
        (3.0, u32::MAX, 3.0),
    ] {
        let rounded = round_half_up(value, decimals);
        assert_eq!(rounded, expected, "{value} to {decimals} decimals");
        assert!(rounded != 0.0 || rounded.is_sign_positive(), "{value} is not -0");
    }
    assert!(round_half_up(f64::NAN, 1).is_nan());
    assert_eq!(round_half_up(f64::NEG_INFINITY, 1), f64::NEG_INFINITY);
}

#[test]
fn fixed_numbers_keep_their_decimals_and_group_from_ten_thousand_up() {
    for (value, decimals, sign, expected) in [
        (0.0, 1, DecimalSign::Point, "0.0"),
        (1234.5, 1, DecimalSign::Point, "1234.5"),
        (1234.5, 2, DecimalSign::Comma, "1234,50"),
        (9999.94, 1, DecimalSign::Point, "9999.9"),
        (9999.95, 1, DecimalSign::Point, "10\u{202f}000.0"),
        (12_345.678, 1, DecimalSign::Point, GROUPED),
        (1_234_567.0, 0, DecimalSign::Comma, "1\u{202f}234\u{202f}567"),
        (-12_345.0, 0, DecimalSign::Point, "\u{2212}12\u{202f}345"),
        (-0.05, 1, DecimalSign::Point, "\u{2212}0.1"),
        (-0.04, 1, DecimalSign::Point, "0.0"),
        (-0.0, 0, DecimalSign::Point, "0"),
        (f64::NAN, 1, DecimalSign::Point, "–"),
        (f64::NEG_INFINITY, 1, DecimalSign::Comma, "–"),
    ] {
        assert_eq!(fixed(value, decimals, sign), expected, "{value}");
    }
}

#[test]
fn short_numbers_lose_their_last_zeros_only() {
    for (value, decimals, expected) in [
        (12.5, 2, "12.5"),
        (0.05, 2, "0.05"),
        (340.194_277_5, 7, "340.1942775"),
        (100.0, 3, "100"),
        (1200.0, 0, "1200"),
        (20_500.10, 3, "20\u{202f}500.1"),
        (0.004, 2, "0"),
        (-0.004, 2, "0"),
        (f64::INFINITY, 2, "–"),
    ] {
        assert_eq!(shortest(value, decimals, DecimalSign::Point), expected, "{value}");
    }
}

#[test]
fn grams_show_what_a_scale_of_that_size_shows() {
    for (value, expected) in [
        (0.0, "0"),
        (0.054, "0.05"),
        (7.254, "7.25"),
        (9.994, "9.99"),
        (9.996, "10"),
        (12.0, "12"),
        (12.34, "12.3"),
        (99.94, "99.9"),
        (99.96, "100"),
        (340.194_277_5, "340"),
        (671.5, "672"),
        (12_500.4, "12\u{202f}500"),
        (-7.254, "\u{2212}7.25"),
        (f64::NAN, "–"),
    ] {
        assert_eq!(grams(value, DecimalSign::Point), expected, "{value}");
    }
}

#[test]
fn typed_numbers_are_shown_as_they_were_typed() {
    for (value, expected) in [
        (12.5, "12,5"),
        (12_500.0, "12500"),
        (0.05, "0,05"),
        (340.194_277_5, "340,1942775"),
        (-2.5, "\u{2212}2,5"),
        (-0.0, "0"),
        (1e-9, "1e-9"),
        (1.5e300, "1,5e300"),
        (f64::NAN, "–"),
    ] {
        assert_eq!(typed(value, DecimalSign::Comma), expected, "{value}");
    }
}

#[test]
fn locales_tell_the_decimal_sign() {
    for (locales, expected) in [
        (
            ["de-DE", "fr_FR.UTF-8", "it", "sr-Latn-RS", "nb_NO", "es-AR", "en_DK.utf8", "DE_at", "ca_ES@valencia"],
            DecimalSign::Comma,
        ),
        (["en-GB", "en_US.UTF-8", "de-CH", "de_LI", "fr-CH", "es_MX", "ja-JP", "C", ""], DecimalSign::Point),
    ] {
        for locale in locales {
            assert_eq!(DecimalSign::from_locale(locale), expected, "{locale}");
        }
    }
    assert_eq!(DecimalSign::from_locale("-_.@"), DecimalSign::Point);
}

#[test]
fn numbers_are_read_as_they_are_typed_anywhere() {
    for (text, expected) in [
        ("250", 250.0),
        ("  250  ", 250.0),
        ("12.5", 12.5),
        ("12,5", 12.5),
        ("1,234", 1.234),
        ("1.234", 1.234),
        ("1.234,5", 1234.5),
        ("1,234.5", 1234.5),
        ("1.234.567", 1_234_567.0),
        ("1,234,567", 1_234_567.0),
        ("1.234.567,89", 1_234_567.89),
        ("1 234", 1234.0),
        ("1  234", 1234.0),
        ("12\u{202f}345.7", 12_345.7),
        ("12\u{a0}345,7", 12_345.7),
        ("12\u{2009}345", 12_345.0),
        ("1'234.5", 1234.5),
        ("1\u{2019}234\u{2019}567", 1_234_567.0),
        (".5", 0.5),
        (",5", 0.5),
        ("5.", 5.0),
        ("007", 7.0),
        ("-2,5", -2.5),
        ("\u{2212}2.5", -2.5),
        ("- 2.5", -2.5),
        ("+3", 3.0),
        ("½", 0.5),
        ("2½", 2.5),
        ("2 ¼", 2.25),
        ("-¾", -0.75),
        ("10 000 ½", 10_000.5),
        ("1.5E+03", 1500.0),
        ("2,5e-3", 0.0025),
        ("1e\u{2212}9", 1e-9),
    ] {
        assert_eq!(parse(text), Ok(expected), "{text:?}");
        assert_eq!(parse_expression(text), Ok(expected), "{text:?} as a sum");
    }
    assert!(parse("-0").is_ok_and(f64::is_sign_positive), "zero has no sign");
}

#[test]
fn what_is_no_number_says_where_and_why() {
    let unexpected = |character, position| NumberError::UnexpectedCharacter { character, position };
    let groups = |position| NumberError::Groups { position };
    for (text, expected) in [
        ("", NumberError::Empty),
        (" \u{202f}\t", NumberError::Empty),
        ("abc", unexpected('a', 1)),
        ("–", unexpected('–', 1)),
        ("NaN", unexpected('N', 1)),
        ("inf", unexpected('i', 1)),
        ("12%", unexpected('%', 3)),
        ("  12%", unexpected('%', 5)),
        ("1/2", unexpected('/', 2)),
        ("--5", unexpected('-', 2)),
        ("-", NumberError::Unfinished),
        (",", unexpected(',', 1)),
        (",,", unexpected(',', 1)),
        ("1,,234", unexpected(',', 3)),
        ("1,234,", unexpected(',', 6)),
        ("1'", unexpected('\'', 2)),
        ("'1", unexpected('\'', 1)),
        ("1.5 250", unexpected(' ', 4)),
        ("1.25½", unexpected('½', 5)),
        ("1e", unexpected('e', 2)),
        ("½½", unexpected('½', 2)),
        ("12 5", groups(4)),
        ("12 3456", groups(4)),
        ("1,5,0", groups(4)),
        ("1234.567.890", groups(5)),
        ("1.12.2024", groups(5)),
        ("0,250,000", groups(2)),
        ("12'34", groups(6)),
        ("1.234,567.8", NumberError::SecondDecimalSign { position: 10 }),
        ("1,234.567.890", NumberError::SecondDecimalSign { position: 10 }),
        ("1e999", NumberError::NotFinite),
        (&"1".repeat(65), NumberError::TooLong { characters: 65 }),
    ] {
        assert_eq!(parse(text), Err(expected), "{text:?}");
    }
    assert!(parse(&"1".repeat(64)).is_ok());
}

#[test]
fn sums_are_computed_in_their_usual_order() {
    for (text, expected) in [
        ("3*125", 375.0),
        ("3 x 125", 375.0),
        ("3X125", 375.0),
        ("3×125", 375.0),
        ("3·125", 375.0),
        ("1/2", 0.5),
        ("500÷4", 125.0),
        ("1\u{2044}2", 0.5),
        ("2+3*4", 14.0),
        ("(2+3)*4", 20.0),
        ("10-4-3", 3.0),
        ("10\u{2212}4", 6.0),
        ("16/4/2", 2.0),
        ("-(2+3)", -5.0),
        ("2*-3", -6.0),
        ("5--3", 8.0),
        ("12,5+2.5", 15.0),
        ("1 234,5 + 1", 1235.5),
        ("0.1+0.2", 0.3),
        ("1-1", 0.0),
        ("1e3/4", 250.0),
        ("((((((((1))))))))", 1.0),
        ("1 1/2", 1.5),
        ("-1 1/2", -1.5),
        ("3 * 1 1/2", 4.5),
        ("6 / 1 1/2", 4.0),
        ("2 15 / 16", 2.9375),
        ("10 000 1/2", 10_000.5),
        ("1 - 1/2", 0.5),
        ("1 125/1000", 1.125),
        ("2½*4", 10.0),
    ] {
        assert_eq!(parse_expression(text), Ok(expected), "{text:?}");
    }
    assert!(parse_expression("0*-1").is_ok_and(f64::is_sign_positive), "zero has no sign");
}

#[test]
fn sums_without_a_result_say_why() {
    let unexpected = |character, position| NumberError::UnexpectedCharacter { character, position };
    for (text, expected) in [
        ("", NumberError::Empty),
        ("3*", NumberError::Unfinished),
        ("3**4", unexpected('*', 3)),
        ("*3", unexpected('*', 1)),
        ("3 4", NumberError::Groups { position: 3 }),
        ("()", unexpected(')', 2)),
        ("(", NumberError::Unfinished),
        ("(1+2", NumberError::UnclosedParenthesis { position: 1 }),
        ("2*((1)", NumberError::UnclosedParenthesis { position: 3 }),
        ("(1 = 2)", unexpected('=', 4)),
        ("1)", unexpected(')', 2)),
        ("2(3)", unexpected('(', 2)),
        ("10 %", unexpected('%', 4)),
        ("1 3/2", NumberError::MixedNumber { position: 3 }),
        ("1.5 1/2", NumberError::MixedNumber { position: 5 }),
        ("1 1/2.5", NumberError::MixedNumber { position: 3 }),
        ("1 1/x", NumberError::MixedNumber { position: 3 }),
        ("1/0", NumberError::DivisionByZero),
        ("1 1/0", NumberError::DivisionByZero),
        ("1/(2-2)", NumberError::DivisionByZero),
        ("1e300*1e300", NumberError::NotFinite),
        ("5/(1e300*1e300)", NumberError::NotFinite),
        ("(((((((((1)))))))))", NumberError::NestedTooDeep),
        (&"(".repeat(64), NumberError::NestedTooDeep),
        (&"(".repeat(100_000), NumberError::TooLong { characters: 100_000 }),
    ] {
        assert_eq!(parse_expression(text), Err(expected), "{text:?}");
    }
}

#[test]
fn amounts_come_with_their_unit() {
    for (text, value, unit) in [
        ("340", 340.0, None),
        ("340 g", 340.0, Some("g")),
        ("1.2 kg", 1.2, Some("kg")),
        ("1,2KG", 1.2, Some("kg")),
        ("2,5lb", 2.5, Some("lb")),
        ("2.5 lbs.", 2.5, Some("lb")),
        ("12 oz", 12.0, Some("oz")),
        ("½ kilo", 0.5, Some("kg")),
        ("250 grams", 250.0, Some("g")),
        ("2x250g", 500.0, Some("g")),
        ("1 1/2 lb", 1.5, Some("lb")),
        ("5.", 5.0, None),
        ("-3 g", -3.0, Some("g")),
    ] {
        assert_eq!(parse_amount(text), Ok((value, unit)), "{text:?}");
    }
    for (text, expected) in [
        ("5 mg", NumberError::UnknownUnit { unit: "mg".to_owned() }),
        ("200 ml", NumberError::UnknownUnit { unit: "ml".to_owned() }),
        ("kg", NumberError::Empty),
        ("3 x", NumberError::Unfinished),
        ("  3 kg 5", NumberError::UnexpectedCharacter { character: 'k', position: 5 }),
        (&format!("1 {}", "a".repeat(1000)), NumberError::TooLong { characters: 1002 }),
    ] {
        assert_eq!(parse_amount(text), Err(expected), "{text:?}");
    }
}

#[test]
fn messages_are_one_sentence_that_says_what_to_do() {
    for (text, expected) in [
        ("12%", "\"%\" at position 3 does not belong in a number; type one such as 250, 12.5 or 3*125"),
        ("1\u{7}", "\"\\u{7}\" at position 2 does not belong in a number; type one such as 250, 12.5 or 3*125"),
        ("1/0", "nothing can be divided by zero; change the number behind the division sign"),
        ("200 ml", "\"ml\" is no unit that is known here; use g, kg, oz or lb"),
    ] {
        let error = parse_amount(text).expect_err(text);
        assert_eq!(error.to_string(), expected);
    }
}

fn decimal_sign() -> impl Strategy<Value = DecimalSign> {
    prop_oneof![Just(DecimalSign::Point), Just(DecimalSign::Comma)]
}

/// Numbers of every size, and numbers as they are weighed.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![proptest::num::f64::ANY.prop_filter("finite", |value| value.is_finite()), weighed()]
}

fn weighed() -> impl Strategy<Value = f64> {
    prop_oneof![-1e9..1e9, -100.0..100.0, (-10_000_000_i32..10_000_000).prop_map(|number| f64::from(number) / 1000.0)]
}

proptest! {
    #[test]
    fn what_is_typed_comes_back_exactly(value in any_number(), sign in decimal_sign()) {
        prop_assert_eq!(parse(&typed(value, sign)), Ok(value));
        prop_assert_eq!(parse_expression(&typed(value, sign)), Ok(value));
    }

    #[test]
    fn what_is_shown_comes_back_as_it_was_rounded(value in weighed(), decimals in 0_u32..12, sign in decimal_sign()) {
        let rounded = round_half_up(value, decimals);
        prop_assert_eq!(parse(&fixed(value, decimals, sign)), Ok(rounded));
        prop_assert_eq!(parse(&shortest(value, decimals, sign)), Ok(rounded));
        // Half a step, and half of the digit that the number is brought to before: the 10th decimal or (beyond 6
        // decimals) 4 more than asked for, or the 15th significant digit.
        let step = 0.1_f64.powi(i32::try_from(decimals).unwrap());
        let before = 1e-10_f64.min(1e-4 * step).max(1e-14 * value.abs());
        prop_assert!((rounded - value).abs() <= 0.5 * (step + before) + 1e-15 * value.abs());
    }

    #[test]
    fn rounding_twice_changes_nothing(value in any_number(), decimals in 0_u32..25) {
        let rounded = round_half_up(value, decimals);
        prop_assert_eq!(round_half_up(rounded, decimals), rounded);
        prop_assert_eq!(round_half_up(-value, decimals), if rounded == 0.0 { 0.0 } else { -rounded });
    }

    #[test]
    fn no_text_makes_the_readers_fail(text in any::<String>()) {
        let _ = parse(&text);
        let _ = parse_expression(&text);
        let _ = parse_amount(&text);
        let _ = DecimalSign::from_locale(&text);
    }

    #[test]
    fn no_text_that_looks_like_a_sum_makes_the_readers_fail(text in "[0-9.,' ½¼e()*x/+−–kglboz\u{202f}-]{0,70}") {
        for value in [parse(&text), parse_expression(&text), parse_amount(&text).map(|(value, _)| value)] {
            match value {
                Ok(value) => prop_assert!(value.is_finite()),
                Err(error) => prop_assert!(error.to_string().contains(';'), "{}", error),
            }
        }
    }
}
