//! Lengths are read and printed as makers write them.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::design::units::{
    LengthError, Unit, feet_inches, inches, length, litres, mass, mm, parse_length,
};
use proptest::prelude::*;

#[track_caller]
fn reads(text: &str, expected: f64) {
    let got = parse_length(text, Unit::Mm).unwrap();
    assert!(
        (got - expected).abs() <= 1e-12 * expected.abs(),
        "{text}: {got} is not {expected}"
    );
}

#[test]
fn metric_lengths() {
    reads("1985 mm", 1985.0);
    reads("1985mm", 1985.0);
    reads(" 1985 ", 1985.0);
    reads("52.5 cm", 525.0);
    reads("2.6 m", 2600.0);
    reads(".5 m", 500.0);
    reads("12 MM", 12.0);
}

#[test]
fn feet_and_inches() {
    reads("6' 6\"", 78.0 * 25.4);
    reads("6ft 6in", 78.0 * 25.4);
    reads("6ft6in", 78.0 * 25.4);
    reads("6 feet 6 inches", 78.0 * 25.4);
    reads("6'4", 76.0 * 25.4);
    reads("6'-4 1/2\"", 76.5 * 25.4);
    reads("6' 4 1/2", 76.5 * 25.4);
    reads("6 ft", 6.0 * 304.8);
    reads("6.5'", 6.5 * 304.8);
    reads("6\u{2032} 4\u{2033}", 76.0 * 25.4);
    reads("6\u{2019}4\u{201d}", 76.0 * 25.4);
    reads("6\u{2018} 4\u{201c}", 76.0 * 25.4);
    reads("6' 4''", 76.0 * 25.4);
    reads("78.125in", 78.125 * 25.4);
}

#[test]
fn fractions_of_an_inch() {
    reads("20 1/2 in", 20.5 * 25.4);
    reads("19 3/4\"", 19.75 * 25.4);
    reads("19-3/4\"", 19.75 * 25.4);
    reads("3/4\"", 0.75 * 25.4);
    reads("5/4 in", 1.25 * 25.4);
    reads("2 5\u{2044}8 in", 2.625 * 25.4);
    reads("19¾\"", 19.75 * 25.4);
    reads("⅜ in", 0.375 * 25.4);
    reads("6'4½", 76.5 * 25.4);
}

#[test]
fn signs() {
    reads("-3 mm", -3.0);
    reads("\u{2212}3 mm", -3.0);
    reads("+3 mm", 3.0);
    reads("-1' 2\"", -14.0 * 25.4);
}

#[test]
fn a_bare_number_is_in_the_unit_asked_for() {
    for unit in Unit::ALL {
        assert_eq!(parse_length("3", unit), Ok(3.0 * unit.in_mm()));
        assert_eq!(Unit::from_symbol(unit.symbol()), Some(unit));
    }
    assert_eq!(parse_length("19 3/4", Unit::In), Ok(19.75 * 25.4));
}

#[test]
fn nonsense_is_refused_at_its_place() {
    let cases = [
        ("", 0, "a number"),
        ("abc", 0, "a number"),
        ("12 furlongs", 3, "a unit: mm, cm, m, in or ft"),
        ("2,6 m", 1, "`.` as the decimal mark"),
        ("2. m", 2, "a digit after the decimal point"),
        ("3/0 in", 2, "a denominator other than zero"),
        ("3/ in", 2, "the fraction's denominator"),
        ("20 5/4 in", 3, "a fraction below one after a whole number"),
        ("20 2/2 in", 3, "a fraction below one after a whole number"),
        ("6' 12\"", 3, "less than 12 inches after feet"),
        ("6' 14\"", 3, "less than 12 inches after feet"),
        ("6.5' 3\"", 0, "whole feet before inches"),
        ("6' 3 mm", 5, "inches after feet"),
        ("6' x", 3, "a number"),
        ("12 mm mm", 6, "a unit, or nothing more"),
        ("12 #", 3, "a unit, or nothing more"),
        ("--3", 1, "a number"),
        ("1e3", 1, "a unit: mm, cm, m, in or ft"),
        ("20½½", 4, "a unit, or nothing more"),
    ];
    for (text, offset, expected) in cases {
        assert_eq!(
            parse_length(text, Unit::Mm),
            Err(LengthError { offset, expected }),
            "{text}"
        );
    }
    let huge = "9".repeat(400);
    assert_eq!(parse_length(&huge, Unit::Mm).unwrap_err().offset, 0);
    let nearly = "9".repeat(308);
    assert!(parse_length(&nearly, Unit::Ft).is_err());
}

#[test]
fn the_error_says_where() {
    let error = parse_length("2,6 m", Unit::Mm).unwrap_err();
    assert_eq!(
        error.to_string(),
        "expected `.` as the decimal mark at byte 1"
    );
}

#[test]
fn printing() {
    assert_eq!(mm(1930.4, 1), "1930.4 mm");
    assert_eq!(mm(-0.01, 1), "0.0 mm");
    assert_eq!(mm(-0.06, 1), "-0.1 mm");
    assert_eq!(inches(514.35, 2), "20.25 in");
    assert_eq!(feet_inches(76.5 * 25.4), "6' 4 1/2\"");
    assert_eq!(feet_inches(72.0 * 25.4), "6' 0\"");
    assert_eq!(feet_inches(72.75 * 25.4), "6' 3/4\"");
    assert_eq!(feet_inches(4.5 * 25.4), "4 1/2\"");
    assert_eq!(feet_inches(0.0), "0\"");
    assert_eq!(feet_inches(-0.1), "0\"");
    assert_eq!(feet_inches(-25.4), "-1\"");
    // 11 31/32 and a little rounds up into the next foot.
    assert_eq!(feet_inches(11.97 * 25.4), "1' 0\"");
    assert_eq!(feet_inches(f64::NAN), "– in");
    assert_eq!(length(1930.44, Unit::Mm), "1930.4 mm");
    assert_eq!(length(1930.44, Unit::Cm), "193.04 cm");
    assert_eq!(length(1930.44, Unit::M), "1.9304 m");
    assert_eq!(length(1930.4, Unit::In), "6' 4\"");
    assert_eq!(litres(33.44e6), "33.4 L");
    assert_eq!(mass(0.64, Unit::Mm), "640 g");
    assert_eq!(mass(0.9999, Unit::Mm), "1.00 kg");
    assert_eq!(mass(4.523, Unit::Mm), "4.52 kg");
    assert_eq!(mass(4.535_923_7, Unit::In), "10.00 lb");
}

proptest! {
    #[test]
    fn feet_and_inches_printed_read_back_within_half_a_sixteenth(x in -20_000.0..20_000.0_f64) {
        let back = parse_length(&feet_inches(x), Unit::Mm).unwrap();
        prop_assert!((back - x).abs() <= 25.4 / 32.0 + 1e-9, "{x} came back as {back}");
        // What is printed once prints the same again.
        prop_assert_eq!(feet_inches(back), feet_inches(x));
    }

    #[test]
    fn millimetres_printed_read_back(x in -20_000.0..20_000.0_f64, decimals in 0_usize..6) {
        let back = parse_length(&mm(x, decimals), Unit::In).unwrap();
        prop_assert!((back - x).abs() <= 0.5 * 0.1_f64.powi(decimals as i32) + 1e-9);
    }

    #[test]
    fn every_unit_reads_as_its_factor(x in 0.0..5000.0_f64, i in 0_usize..5, space in "[ ]{0,2}") {
        let unit = Unit::ALL[i];
        let text = format!("{x}{space}{}", unit.symbol());
        prop_assert_eq!(parse_length(&text, Unit::Mm), Ok(x * unit.in_mm()));
    }

    #[test]
    fn any_text_is_read_or_refused_inside_itself(text in "\\PC*") {
        if let Err(error) = parse_length(&text, Unit::Mm) {
            prop_assert!(text.is_char_boundary(error.offset), "{error} in {text:?}");
        }
    }

    #[test]
    fn length_like_text_is_read_or_refused_inside_itself(text in "[-+0-9 ./⁄½'\"′″’”,a-z−]{0,14}") {
        match parse_length(&text, Unit::In) {
            Ok(length) => prop_assert!(length.is_finite()),
            Err(error) => prop_assert!(text.is_char_boundary(error.offset), "{error} in {text:?}"),
        }
    }
}
