//! Reading numbers and printing them as they were written.
use cotter::model::quantity::{Exact, Number, NumberError};

/// Text, value as a fraction, printed, significant figures.
type Row = (&'static str, i128, i128, &'static str, Option<u32>);

const READ: &[Row] = &[
    ("8", 8, 1, "8", Some(1)),
    ("0.50", 1, 2, "0.50", Some(2)),
    (".005", 1, 200, "0.005", Some(1)),
    ("30.002", 15_001, 500, "30.002", Some(5)),
    ("1/2", 1, 2, "1/2", None),
    ("4/8", 1, 2, "4/8", None),
    ("1 7/16", 23, 16, "1 7/16", None),
    ("1-7/16", 23, 16, "1 7/16", None),
    ("9/8", 9, 8, "9/8", None),
    ("-5", -5, 1, "−5", Some(1)),
    ("−5.0", -5, 1, "−5.0", Some(2)),
    ("-0.5", -1, 2, "−0.5", Some(1)),
    ("0", 0, 1, "0", Some(1)),
    ("1500", 1500, 1, "1500", Some(4)),
    (
        "999999999999.999999999",
        999_999_999_999_999_999_999,
        1_000_000_000,
        "999999999999.999999999",
        Some(21),
    ),
];

#[test]
fn numbers_print_as_written() {
    for &(text, numerator, denominator, printed, figures) in READ {
        let number = super::number(text);
        assert_eq!(number.value(), Exact::new(numerator, denominator), "{text}");
        assert_eq!(number.to_string(), printed);
        assert_eq!(number.significant_figures(), figures, "{text}");
    }
}

#[test]
fn what_is_no_number_says_why() {
    use NumberError::*;
    for (text, error) in [
        ("", Empty),
        ("  ", Empty),
        ("-", Empty),
        ("1,500", ThousandsSeparator),
        ("1,500.5", ThousandsSeparator),
        ("12,345,678", ThousandsSeparator),
        ("1 500", ThousandsSeparator),
        ("1'500", ThousandsSeparator),
        ("1,5", DecimalComma),
        ("1,5000", DecimalComma),
        ("1,5,0", NotANumber),
        ("1 50", NotANumber),
        ("5.", NotANumber),
        (".", NotANumber),
        ("1e5", NotANumber),
        ("--5", NotANumber),
        ("1.2.3", NotANumber),
        ("٣", NotANumber),
        ("1/2/3", NotANumber),
        ("/2", NotANumber),
        ("1/0", ZeroDenominator),
        ("1 9/8", ImproperFraction),
        ("1234567890123", TooLong),
        ("0.1234567890", TooLong),
        ("1/10000", TooLong),
    ] {
        assert_eq!(Number::parse(text), Err(error), "{text:?}");
    }
}
