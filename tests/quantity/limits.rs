//! Limits convert inwards: ASME A112.18.1-2018 / CSA B125.1-18, Annex A, A.2(e) (read): maximums and minimums are
//! rounded inside the range, so that the original limits are not violated.
use super::{at_least, at_most, converted, new_worn, number, quantity, range, to_figures, tolerance};
use cotter::model::quantity::{ConversionError, Exact, Form, Quantity};
use cotter::source::Span;

/// Range, unit, target, figures, result. The kgf/cm² pairs are published (read) and were recomputed; the others
/// are computed from the exact factors, and nearest rounding leaves the range in all but the last.
const INWARDS: &[(&str, &str, &str, &str, u32, &str)] = &[
    ("2.1", "2.7", "kgf/cm2", "kPa", 2, "210–260 kPa"),
    ("2.7", "3.2", "kgf/cm2", "kPa", 2, "270–310 kPa"),
    ("2.1", "2.7", "kgf/cm2", "psi", 2, "30–38 psi"),
    ("2.7", "3.2", "kgf/cm2", "psi", 2, "39–45 psi"),
    ("50", "70", "lbf.in", "N.m", 2, "5.7–7.9 N·m"),
    ("50", "70", "lbf.in", "N.m", 3, "5.65–7.90 N·m"),
    ("160", "190", "lbf.in", "N.m", 3, "18.1–21.4 N·m"),
    ("480", "690", "lbf.in", "N.m", 3, "54.3–77.9 N·m"),
    ("95", "115", "N.m", "lbf.ft", 2, "71–84 lbf·ft"),
    ("64", "80", "N.m", "lbf.ft", 2, "48–59 lbf·ft"),
    ("22", "28", "N.m", "lbf.ft", 3, "16.3–20.6 lbf·ft"),
    ("20", "25", "N.m", "lbf.ft", 2, "15–18 lbf·ft"),
];

#[test]
fn ranges_to_given_figures() {
    for &(low, high, from, to, figures, expected) in INWARDS {
        assert_eq!(to_figures(&range(low, high, from), to, figures), expected, "{low}–{high} {from}");
    }
}

/// The same by the module's own choice of figures.
const OWN_FIGURES: &[(&str, &str, &str, &str, &str)] = &[
    ("8", "10", "N.m", "lbf.in", "71–88 lbf·in"),
    ("22", "28", "N.m", "lbf.ft", "16.3–20.6 lbf·ft"),
    ("2.1", "2.7", "kgf/cm2", "psi", "30–38 psi"),
    ("2.7", "3.2", "kgf/cm2", "psi", "39–45 psi"),
    ("30.002", "30.015", "mm", "in", "1.18119–1.18169 in"),
    ("8", "9", "bar", "psi", "117–130 psi"),
    ("65", "70", "degC", "degF", "149–158 °F"),
    ("-5", "10", "degC", "degF", "23–50 °F"),
    ("0", "2", "mm", "in", "0.00–0.07 in"),
];

#[test]
fn ranges_to_own_figures() {
    for &(low, high, from, to, expected) in OWN_FIGURES {
        assert_eq!(converted(&range(low, high, from), to), expected, "{low}–{high} {from}");
    }
}

#[test]
fn a_range_that_would_collapse_gains_a_figure() {
    assert_eq!(to_figures(&range("10.1", "10.2", "N.m"), "lbf.ft", 2), "7.45–7.52 lbf·ft");
    assert_eq!(converted(&range("0.1", "0.2", "mm"), "in"), "0.0040–0.0078 in");
    assert_eq!(converted(&range("8", "8", "N.m"), "lbf.in"), "71 lbf·in");
}

#[test]
fn one_sided_limits() {
    assert_eq!(converted(&at_most("0.5", "mm"), "in"), "max 0.019 in");
    assert_eq!(converted(&at_least("22", "mm"), "in"), "min 0.87 in");
    // A clearance of 10 ft must not become 3 m, which is less: the caution of NIST SP 1038 4.4, from a description.
    assert_eq!(converted(&at_least("10", "ft"), "m"), "min 3.1 m");
    assert_eq!(converted(&at_most("1", "bar"), "psi"), "max 14 psi");
    // 30 psi is 2.068 bar: the limit goes down.
    assert_eq!(converted(&at_most("30", "psi"), "bar"), "max 2.06 bar");
}

#[test]
fn tolerances_keep_their_sign_while_inside() {
    assert_eq!(converted(&tolerance("9", "1", "1", "N.m"), "lbf.in"), "80 ± 8 lbf·in");
    assert_eq!(converted(&tolerance("500", "1", "0", "mm"), "in"), "19.686–19.724 in");
    assert_eq!(converted(&tolerance("20", "0", "0", "mm"), "in"), "0.79 in");
}

#[test]
fn worn_limits_go_towards_new() {
    assert_eq!(converted(&new_worn("2.0", "1.6", "mm"), "in"), "new 0.079 in, worn 0.063 in");
    assert_eq!(converted(&new_worn("0.05", "0.20", "mm"), "in"), "new 0.0020 in, worn 0.0078 in");
    assert_eq!(new_worn("2.0", "1.6", "mm").upper(), None);
    assert_eq!(new_worn("0.05", "0.20", "mm").lower(), None);
}

/// A wrench lengthened by an adapter is set to T·L/(L+E): 40 lb-ft with 12 in and 4 in is 30 (TM 9-2350-261-20-1
/// p. 2-29, read); 135 lb-in with 10 in and 1.5 in is 117 (a helicopter manual, read).
#[test]
fn scaled_by_a_ratio() {
    let scaled = |quantity: &Quantity, over: i128, under: i128| {
        quantity
            .scaled(Exact::new(over, under))
            .map_or_else(|error| error.to_string(), |scaled| scaled.print())
    };
    assert_eq!(scaled(&super::value("40", "lb-ft"), 12, 16), "30 lbf·ft");
    assert_eq!(scaled(&super::value("135", "lb-in"), 100, 115), "117.4 lbf·in");
    assert_eq!(scaled(&range("8", "10", "N.m"), 250, 290), "6.9–8.6 N·m");
    assert!(range("20", "30", "degC").scaled(Exact::new(1, 2)).is_err());
    assert!(range("8", "10", "N.m").scaled(Exact::new(-1, 2)).is_err());
}

#[test]
fn a_worked_out_value_takes_its_figures() {
    let preload = Quantity::from_base(Exact::new(21_228, 1), super::unit("kN"), 3, Span::default());
    assert_eq!(preload.expect("small").print(), "21.2 kN");
    let boiling = Quantity::from_base(Exact::new(37_315, 100), super::unit("degF"), 3, Span::default());
    assert_eq!(boiling.expect("small").print(), "212 °F");
}

#[test]
fn what_cannot_be_converted_says_why() {
    let backwards = range("10", "8", "N.m");
    assert!(backwards.is_empty_range());
    assert_eq!(backwards.converted(super::unit("lbf.in")), Err(ConversionError::EmptyRange));
    let torque = range("8", "10", "N.m");
    assert_eq!(torque.converted(super::unit("J")), Err(ConversionError::NotComparable));
    let mains = super::value("230", "V AC");
    assert_eq!(mains.converted(super::unit("V DC")), Err(ConversionError::NotComparable));
    assert!(mains.converted(super::unit("V")).is_ok());
}

#[test]
fn limits_contain_and_cover() {
    let wanted = range("8", "10", "N.m");
    let scale = range("20", "100", "lbf.in");
    assert!(scale.covers(&wanted));
    assert!(!range("2", "9.9", "N.m").covers(&wanted));
    assert!(!range("0", "1000", "J").covers(&wanted));
    assert!(!range("0", "100", "N.m").covers(&at_least("8", "N.m")));
    let none = quantity(Form::None, "mm");
    assert!(none.contains(number("0").value()));
    assert!(!none.contains(number("0.001").value()));
    assert!(at_most("0.5", "mm").contains(number("-1").value()));
}
