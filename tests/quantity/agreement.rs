//! Amounts that manuals print in two units: those that agree and those that do not.
use super::{at_most, number, range, tolerance, value};
use cotter::model::quantity::{Agreement, Dimension, Landmark, Quantity};

/// A single value in two units, with where it was read.
type Pair = (&'static str, &'static str, &'static str, &'static str, &'static str);

const AGREE: &[Pair] = &[
    ("78", "in-lb", "8.8", "N.m", "TM 9-2815-253-24 para 3-25"),
    ("40", "lb-ft", "54", "N.m", "public-domain manual"),
    ("1", "inHg", "3", "kPa", "honest rounding of one figure"),
    ("21", "lbf.ft", "29", "N.m", "TM 9-2320-362-14&P table F-1"),
    ("300", "lbf.ft", "408", "N.m", "the same"),
    ("30", "lbf.in", "3", "N.m", "TB 43-0218 par. 7c"),
    ("90", "degC", "194", "degF", "exact"),
    ("1/2", "in", "13", "mm", "computed"),
];

const DISAGREE: &[Pair] = &[
    ("2.216", "ft-lb", "5.629", "N.m", "TM 10-4320-307-24 para 2-54"),
    ("0.011", "in", "0.028", "mm", "the same: tenfold"),
    ("0.023", "in", "0.058", "mm", "the same: tenfold"),
    ("0.018", "in", "0.44", "mm", "TM 9-2320-387-24-2 para 21-6"),
    ("5.0", "lbf.in", "0.46", "N.m", "TM 9-6115-604-34 table 1-3"),
    ("34", "lbf.in", "4.0", "N.m", "the same"),
    ("64000", "psi", "421", "MPa", "TM 10-6640-238-13 table G-1"),
    ("90", "degC", "190", "degF", "computed: 3 % of a point of temperature has no meaning"),
];

#[test]
fn single_values() {
    for &(first, one, second, other, source) in AGREE {
        let pair = (value(first, one), value(second, other));
        assert_eq!(
            pair.0.agrees_with(&pair.1),
            Agreement::Agrees,
            "{first} {one}, {second} {other}: {source}"
        );
        assert_eq!(
            pair.1.agrees_with(&pair.0),
            Agreement::Agrees,
            "{second} {other}, {first} {one}: {source}"
        );
    }
    for &(first, one, second, other, source) in DISAGREE {
        let verdict = value(first, one).agrees_with(&value(second, other));
        assert!(
            matches!(verdict, Agreement::Disagrees { at: Landmark::Value, .. }),
            "{first} {one}, {second} {other}: {source}: {verdict:?}"
        );
    }
}

/// Ranges that agree: TM 9-2320-280-20-2 para 6-14 and TB 43-0218 par. 7c (read).
#[test]
fn ranges() {
    for (low, high, one, second_low, second_high) in [
        ("8", "13", "lb-ft", "11", "18"),
        ("35", "45", "lb-ft", "47", "61"),
        ("23", "27", "lb-ft", "31", "37"),
        ("50", "70", "lbf.in", "6", "8"),
        ("80", "100", "lbf.in", "9", "11"),
    ] {
        let pair = (range(low, high, one), range(second_low, second_high, "N.m"));
        assert_eq!(pair.0.agrees_with(&pair.1), Agreement::Agrees, "{low} to {high} {one}");
    }
    // TM 10-4320-307-24 para 2-54 (read): 12 psi is 82.7 kPa, 15 psi is 103.
    let verdict = range("12", "15", "psi").agrees_with(&range("103", "138", "kPa"));
    assert!(
        matches!(verdict, Agreement::Disagrees { at: Landmark::Lower, ref printed, .. } if printed == "82.7")
    );
    let verdict = range("12", "15", "psi").agrees_with(&range("83", "138", "kPa"));
    assert!(matches!(verdict, Agreement::Disagrees { at: Landmark::Upper, .. }));
}

#[test]
fn the_exact_value_comes_back_for_the_message() {
    let Agreement::Disagrees { expected, printed, .. } =
        value("0.011", "in").agrees_with(&value("0.028", "mm"))
    else {
        panic!("tenfold must disagree");
    };
    assert_eq!(expected, number("0.2794").value());
    assert_eq!(printed, "0.279");
}

#[test]
fn what_cannot_be_compared() {
    // 5 lb ↔ 22 "N·m", read in a published manual.
    let verdict = value("5", "lb").agrees_with(&value("22", "N.m"));
    assert_eq!(verdict, Agreement::OtherDimension { first: Dimension::Mass, second: Dimension::Torque });
    assert_eq!(value("230", "V AC").agrees_with(&value("230", "V DC")), Agreement::OtherWaveform);
    assert_eq!(value("230", "V AC").agrees_with(&value("230", "V")), Agreement::Agrees);
    assert_eq!(value("8", "N.m").agrees_with(&range("70", "72", "lbf.in")), Agreement::OtherForm);
    assert_eq!(at_most("1", "bar").agrees_with(&at_most("15", "psi")), Agreement::Agrees);
}

#[test]
fn a_tolerance_agrees_with_its_limits() {
    let limits: Quantity = range("71", "89", "lbf.in");
    assert_eq!(tolerance("9", "1", "1", "N.m").agrees_with(&limits), Agreement::Agrees);
}
