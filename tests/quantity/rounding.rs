//! Lone values: NIST SP 811 (2008) B.7.1 and B.7.2.
use super::{converted, to_figures, value};

/// B.7.1, as quoted from it; the row of 4 figures from memory. Ties go to even on the decimal numeral, so the two
/// last rows, which no binary fraction holds, come out right too.
const TIES: &[(&str, u32, &str)] = &[
    ("6.9749515", 3, "6.97 mm"),
    ("6.9749515", 4, "6.975 mm"),
    ("6.9749515", 5, "6.9750 mm"),
    ("6.9749515", 7, "6.974952 mm"),
    ("6.9749505", 7, "6.974950 mm"),
    ("1.655000", 3, "1.66 mm"), // ASME A112.18.1-2018 Annex A, A.2(d), read
    ("1.625000", 3, "1.62 mm"), // the same
    ("12.251", 3, "12.3 mm"),   // ISO 80000-1 Annex B, from memory: in one step, never by way of 12.25
    ("2.675", 3, "2.68 mm"),
    ("1.15", 2, "1.2 mm"),
];

#[test]
fn ties_go_to_even_on_the_numeral() {
    for &(written, figures, expected) in TIES {
        assert_eq!(to_figures(&value(written, "mm"), "mm", figures), expected, "{written} to {figures}");
    }
}

#[test]
fn figures_follow_the_relative_rounding_error() {
    // SP 811 B.7.2, read: 36 ft is 11.0 m; 11 m would lose what 36 says.
    assert_eq!(converted(&value("36", "ft"), "m"), "11.0 m");
    assert_eq!(converted(&value("0.50", "mm"), "in"), "0.0197 in");
    assert_eq!(converted(&value("10", "lbf.ft"), "N.m"), "14 N·m");
    assert_eq!(converted(&value("250", "bar"), "psi"), "3630 psi");
}

/// One figure says too little to lose any of it: a lone value moves by at most 5 %.
#[test]
fn a_single_figure_gains_one() {
    assert_eq!(converted(&value("1", "bar"), "psi"), "15 psi");
    assert_eq!(converted(&value("3", "bar"), "psi"), "44 psi");
}

/// Zeros that end a whole number past its third figure only hold its place.
#[test]
fn place_holders_are_not_figures() {
    assert_eq!(converted(&value("12000", "N"), "lbf"), "2700 lbf");
    assert_eq!(converted(&value("12345", "N"), "lbf"), "2775.3 lbf");
    assert_eq!(converted(&value("100", "N.m"), "lbf.ft"), "73.8 lbf·ft");
}

#[test]
fn fractions_are_read_off_a_scale_of_64ths() {
    assert_eq!(converted(&value("1 7/16", "in"), "mm"), "36.5 mm");
    assert_eq!(converted(&value("1/2", "in"), "mm"), "12.7 mm");
    assert_eq!(converted(&value("1/4", "turn"), "deg"), "90°");
}
